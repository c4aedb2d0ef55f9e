// barwright/training/alone.hpp - how much to leave in reserve where nothing would catch the bar
//
// "Two left" is not one risk. A rating is off by more the longer the set: by its error
// (`rating_error` in core/effort.hpp) a set of 10 stopped at two left has none left in about one
// of 13, a set of 15 in one of eight, and a new lift feels lighter than it is. So the least reserve
// grows with the length of the set, until no reserve that anybody can feel is enough. The steps are
// this library's reading of those errors, rounded to what can be said in a gym.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>

#include "barwright/core/effort.hpp"
#include "barwright/core/source.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source alone_source = assumption(
    "about two standard deviations of the rating error at that length of set; no trial was read");

/// What to leave in a set that nothing would catch.
struct AloneRule {
  double least = 2.0;           ///< reps, in a set of up to `short_set`
  double least_when_new = 3.0;  ///< on a lift that is new to the lifter
  int short_set = 8;            ///< each rep beyond it asks for one more to be left
  int longest_set = 12;         ///< beyond it no reserve is enough
};

/// The least to leave in a set of `reps` that nothing would catch; nothing where no reserve is
/// enough: such a set is not done alone.
[[nodiscard]] constexpr std::optional<RepsInReserve> least_reserve_alone(
    Reps reps, bool is_new, const AloneRule& rule = {}) {
  if (reps.count() > rule.longest_set) return std::nullopt;
  const int beyond = reps.count() > rule.short_set ? reps.count() - rule.short_set : 0;
  double least = rule.least + beyond;
  if (is_new && least < rule.least_when_new) least = rule.least_when_new;
  // A reserve is told in halves.
  const double halves = 2.0 * least;
  const auto whole = static_cast<int>(halves);
  const double told = (whole < halves ? whole + 1 : whole) / 2.0;
  return RepsInReserve(told < RepsInReserve::most ? told : RepsInReserve::most);
}

}  // namespace barwright::inline BARWRIGHT_ABI
