// barwright/training/comeback.hpp - the first weeks after a layoff
//
// Who comes back does less, stops earlier and loads lighter, the more so the longer it was, and is
// back at the usual work after one to four weeks. That half, 30, 20 and 10 per cent less work in
// the first four weeks keeps people out of hospital is a consensus on conditioning (Caterisano et
// al. 2019, Strength Cond J 41(3):1-23: two to four weeks read, the percentages from memory); that
// it holds for one lift, and the loads, are this library's.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>

#include "barwright/core/effort.hpp"
#include "barwright/core/source.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source comeback_source{
    .citation = "Caterisano et al. 2019, Strength Cond J 41(3):1-23",
    .population = "college athletes coming back to conditioning",
    .evidence = Evidence::handbook,
    .reading = Reading::from_memory,
    .note = "50, 30, 20, 10 % less in the first four weeks; loads and reserve are this library's"};

/// When days off are a layoff, and what the way back looks like.
struct ComebackRule {
  int layoff_days = 14;         ///< more days off than these are a layoff
  int long_layoff_days = 28;    ///< more than these are a long one
  double load_cut = 0.10;       ///< of the usual load, in the first week back
  double long_load_cut = 0.20;  ///< the same after a long layoff
  double first_reserve = 4.0;   ///< to leave at least, in the first week back
  double later_reserve = 3.0;   ///< in the weeks after it
};

/// One day on the way back from a layoff.
struct Comeback {
  int days_off = 0;               ///< of the layoff
  int week = 1;                   ///< back, this one included
  int weeks = 1;                  ///< that the way back takes
  double load_cut = 0.0;          ///< a share of the usual load
  RepsInReserve least_reserve{};  ///< in every set
  int sets_in_ten = 10;           ///< of ten work sets, so many

  /// Of so many work sets; at least one.
  [[nodiscard]] constexpr int sets_of(int sets) const noexcept {
    const int fewer = (sets * sets_in_ten + 5) / 10;
    return fewer < 1 ? 1 : fewer;
  }
  friend constexpr bool operator==(const Comeback&, const Comeback&) noexcept = default;
};

/// The weeks a way back takes: one for each four weeks off, from one to four.
[[nodiscard]] constexpr int comeback_weeks(int days_off) noexcept {
  const int weeks = (days_off + 27) / 28;
  return weeks < 1 ? 1 : weeks > 4 ? 4 : weeks;
}

/// What a day asks for, some days after the first session back.
/// @returns nothing where it was no layoff, or is over.
[[nodiscard]] constexpr std::optional<Comeback> comeback(int days_off, int days_back,
                                                         const ComebackRule& rule = {}) {
  constexpr int in_ten[] = {5, 7, 8, 9};
  const int weeks = comeback_weeks(days_off);
  if (days_off <= rule.layoff_days || days_back < 0 || days_back >= 7 * weeks) return std::nullopt;
  const int week = days_back / 7 + 1;
  const double cut = days_off > rule.long_layoff_days ? rule.long_load_cut : rule.load_cut;
  const double least = week == 1 ? rule.first_reserve : rule.later_reserve;
  return Comeback{.days_off = days_off,
                  .week = week,
                  .weeks = weeks,
                  .load_cut = cut * (weeks - week + 1) / weeks,
                  .least_reserve = RepsInReserve(static_cast<int>(2.0 * least) / 2.0),
                  .sets_in_ten = in_ten[week - 1]};
}

}  // namespace barwright::inline BARWRIGHT_ABI
