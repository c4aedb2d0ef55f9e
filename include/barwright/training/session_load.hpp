// barwright/training/session_load.hpp - how much a week was, from ratings of whole sessions
//
// A session's load is how hard it felt as a whole, from 0 to 10, times its minutes (Foster et al.
// 2001, J Strength Cond Res 15(1):109-115; read as restated in the abstract of Haddad et al. 2017).
// A week of such loads has a monotony, the mean of its days over their standard deviation, and a
// strain, the week's load times the monotony (Foster 1998, Med Sci Sports Exerc 30(7):1164-1168;
// abstract read).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <optional>
#include <span>

#include "barwright/core/error.hpp"
#include "barwright/core/source.hpp"

namespace barwright::inline BARWRIGHT_ABI {

// ---- one session -------------------------------------------------------------------------------

inline constexpr Source session_load_source{
    .citation =
        "Foster et al. 2001, J Strength Cond Res 15(1):109-115; Haddad et al. 2017, Front "
        "Neurosci 11:612; Day et al. 2004, J Strength Cond Res 18(2):353-358",
    .population = "19 people lifting weights (Day); a review (Haddad)",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "abstracts; ratings of lifting sessions repeated well (intraclass correlation 0.88) "
        "and followed the load lifted rather than the reps"};

/// How hard a whole session felt, asked about half an hour after it, and how long it took.
///
///     const SessionRating water(6, 80);  // rated 6 of 10, 80 minutes: a load of 480
///     PlannedSession{.day = Weekday::friday, .rating = SessionRating(6, 80)};  // of
///     planned_week.hpp
///
/// Checked once, when it is made, so it has a constructor and no named fields. The scale runs from
/// 0 (rest) to 10 (as hard as can be). It is not the scale of single sets (Rpe), whose points stand
/// for reps left.
class SessionRating {
 public:
  static constexpr double hardest = 10.0;
  static constexpr double longest_minutes = 1440.0;  ///< a day

  /// @throws DomainError unless 0 <= rating <= 10 and 0 <= minutes <= 1440.
  constexpr SessionRating(double rating, double minutes) : rating_(rating), minutes_(minutes) {
    if (!(rating >= 0.0 && rating <= hardest)) {
      detail::fail("the rating of a session", "a number from 0 to 10", rating);
    }
    if (!(minutes >= 0.0 && minutes <= longest_minutes)) {
      detail::fail("the minutes of a session", "a number from 0 to 1440", minutes);
    }
  }

  [[nodiscard]] constexpr double rating() const noexcept { return rating_; }
  [[nodiscard]] constexpr double minutes() const noexcept { return minutes_; }
  friend constexpr bool operator==(SessionRating, SessionRating) noexcept = default;

 private:
  double rating_;
  double minutes_;
};

/// Rating times minutes, in arbitrary units.
[[nodiscard]] constexpr double session_load(SessionRating session) noexcept {
  return session.rating() * session.minutes();
}

// ---- a week of days ----------------------------------------------------------------------------

inline constexpr Source monotony_source{
    .citation = "Foster 1998, Med Sci Sports Exerc 30(7):1164-1168",
    .population = "25 athletes; illness followed strain above a threshold of each athlete's own",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "the abstract was read; which standard deviation was meant, and that strain takes the "
        "week's sum, no text read settles; no threshold for everybody has been shown"};

/// Which standard deviation the days of a week have.
enum class Deviation : unsigned char {
  population,  ///< divides by the number of days: the week is all there is, not a sample of days
  sample,      ///< divides by one less
};

/// What the loads of a week's days come to.
struct LoadSummary {
  double sum = 0.0;
  double mean = 0.0;
  double standard_deviation = 0.0;
  /// Mean over standard deviation; nothing when all days are equal.
  std::optional<double> monotony{};
  /// Sum times monotony; nothing when that is undefined.
  std::optional<double> strain{};
};

/// Sum, spread, monotony and strain of the loads of days, rest days among them as 0 (counting them
/// is common usage, from memory).
///
/// Equal days have no monotony and no strain, however small their differences by rounding; it is
/// never infinite. The default deviation is the population's.
/// @param days  at least two, each from 0 to 1e9
/// @throws DomainError for fewer days or other loads.
[[nodiscard]] inline LoadSummary summarise(std::span<const double> days,
                                           Deviation deviation = Deviation::population) {
  constexpr double greatest = 1e9;
  if (days.size() < 2) {
    detail::fail("the days to summarise", "at least 2", static_cast<double>(days.size()));
  }
  LoadSummary result;
  for (const double load : days) {
    if (!(load >= 0.0 && load <= greatest)) {
      detail::fail("the load of a day", "a number from 0 to 1000000000", load);
    }
    result.sum += load;
  }
  const auto count = static_cast<double>(days.size());
  result.mean = result.sum / count;
  double squares = 0.0;
  for (const double load : days) squares += (load - result.mean) * (load - result.mean);
  const double divisor = deviation == Deviation::population ? count : count - 1.0;
  result.standard_deviation = std::sqrt(squares / divisor);
  constexpr double rounding = 1e-12;
  if (result.standard_deviation <= rounding * result.mean) {
    result.standard_deviation = 0.0;
    return result;
  }
  result.monotony = result.mean / result.standard_deviation;
  result.strain = result.sum * *result.monotony;
  return result;
}

}  // namespace barwright::inline BARWRIGHT_ABI
