// barwright/training/overlap.hpp - how many sets two close days ask of the same muscles
//
// This library's measure. Overlap runs through shared muscles only: whether a hard squat day costs
// anything on the bench the next day has not been published.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/source.hpp"
#include "barwright/training/detail/week_work.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing_rule.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source overlap_source = assumption(
    "the smaller of two days' fractional sets for a muscle group, where the days are closer than "
    "the hours wanted between them; the counting of sets is published (Pelland 2024, preprint), "
    "the overlap is this library's own measure and has been held against no outcome");

/// The sets two days ask of the same muscles.
struct DayOverlap {
  Weekday earlier = Weekday::monday;
  Weekday later = Weekday::monday;
  int hours = 0;                             ///< between them
  FractionalSets shared{};                   ///< by muscle group
  FractionalSets between_upper_and_lower{};  ///< the part of it between lifts of different Region
  FractionalSets by_bracing{};  ///< the part of it that bracing brings, weighed as the rule says
};

/// The overlap of a week: its sums, and each pair of days that has any.
struct WeekOverlap {
  FractionalSets shared{};
  FractionalSets between_upper_and_lower{};
  FractionalSets by_bracing{};
  std::vector<DayOverlap> days{};
};

namespace detail {

[[nodiscard]] constexpr DayOverlap overlap_of(const DayWork& earlier, const DayWork& later,
                                              int hours, const SpacingRule& rule) noexcept {
  DayOverlap result;
  if (hours >= rule.hours_after_failure) return result;
  const std::array<Work, 2>& before = hours < rule.hours_between ? earlier.all : earlier.to_failure;
  constexpr auto upper = static_cast<std::size_t>(Region::upper_body);
  constexpr auto lower = static_cast<std::size_t>(Region::lower_body);
  for (const MuscleGroup group : all_muscle_groups) {
    const auto shared = [&](bool counts_bracing, bool across_only) noexcept {
      const int percent = rule.cross_muscle_percent;
      const std::int64_t upper_before = before[upper].felt(group, percent, counts_bracing);
      const std::int64_t lower_before = before[lower].felt(group, percent, counts_bracing);
      const std::int64_t upper_after = later.all[upper].sets(counts_bracing).parts(group);
      const std::int64_t lower_after = later.all[lower].sets(counts_bracing).parts(group);
      return across_only ? std::min(upper_before, lower_after) + std::min(lower_before, upper_after)
                         : std::min(upper_before + lower_before, upper_after + lower_after);
    };
    result.shared.add_parts(group, shared(true, false));
    result.between_upper_and_lower.add_parts(group, shared(true, true));
    result.by_bracing.add_parts(group, shared(true, false) - shared(false, false));
  }
  return result;
}

/// Conflicts and overlap of two days or a whole week, conflicts first; exact, so that equal is
/// equal.
class Closeness {
 public:
  constexpr Closeness() noexcept = default;  ///< none of either
  constexpr Closeness(const DayWork& earlier, const DayWork& later, int hours,
                      const SpacingRule& rule) noexcept {
    for (std::size_t group = 0; group < group_count; ++group) {
      if (hours < hours_wanted(earlier, later, group, rule)) value_ += one_conflict;
    }
    value_ += overlap_of(earlier, later, hours, rule).shared.total_parts();
  }
  [[nodiscard]] static constexpr Closeness most() noexcept {
    Closeness result;
    result.value_ = std::numeric_limits<std::int64_t>::max();
    return result;
  }

  [[nodiscard]] constexpr int conflicts() const noexcept {
    return static_cast<int>(value_ / one_conflict);
  }
  [[nodiscard]] constexpr std::int64_t overlap_parts() const noexcept {
    return value_ % one_conflict;
  }
  [[nodiscard]] constexpr double overlap() const noexcept {
    return static_cast<double>(overlap_parts()) / FractionalSets::parts_per_set;
  }

  constexpr Closeness& operator+=(Closeness other) noexcept {
    value_ += other.value_;
    return *this;
  }
  friend constexpr Closeness operator+(Closeness a, Closeness b) noexcept { return a += b; }
  friend constexpr auto operator<=>(Closeness, Closeness) noexcept = default;

 private:
  static constexpr std::int64_t one_conflict = std::int64_t{1} << 40;  // above any overlap

  std::int64_t value_ = 0;
};

[[nodiscard]] constexpr Closeness closeness_of(const WeekWork& days,
                                               const SpacingRule& rule) noexcept {
  Closeness sum;
  for_each_pair(rule.week_repeats, [&](std::size_t earlier, std::size_t later, int hours) {
    sum += Closeness(days[earlier], days[later], hours, rule);
  });
  return sum;
}

}  // namespace detail

/// How many sets close days ask of the same muscles.
///
/// Two days are close when fewer hours lie between them than the rule wants; from `hours_between`
/// on, only sets that the earlier day took to failure count. For each muscle group the smaller of
/// the two days' fractional sets is shared: four sets of chest followed by one share one. All sets
/// count, hard or not, and bracing as little as the rule says. See `overlap_source` for what this
/// number is not.
/// @throws DomainError for a rule as in `spacing_conflicts`.
[[nodiscard]] inline WeekOverlap overlap(std::span<const PlannedSession> sessions,
                                         const SpacingRule& rule = {}) {
  const detail::WeekWork days = detail::work_of(sessions, rule);
  WeekOverlap result;
  detail::for_each_pair(rule.week_repeats, [&](std::size_t earlier, std::size_t later, int hours) {
    DayOverlap pair = detail::overlap_of(days[earlier], days[later], hours, rule);
    if (pair.shared.total_parts() == 0) return;
    pair.earlier = all_weekdays[earlier];
    pair.later = all_weekdays[later];
    pair.hours = hours;
    result.shared += pair.shared;
    result.between_upper_and_lower += pair.between_upper_and_lower;
    result.by_bracing += pair.by_bracing;
    result.days.push_back(pair);
  });
  return result;
}

}  // namespace barwright::inline BARWRIGHT_ABI
