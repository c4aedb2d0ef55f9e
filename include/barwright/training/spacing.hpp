// barwright/training/spacing.hpp - which muscle groups are trained hard again too soon
//
// In a week that repeats, or today after what a log holds of the last days.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/training/detail/week_work.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing_rule.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A muscle group trained hard on two days that are too close.
struct SpacingConflict {
  MuscleGroup group = MuscleGroup::chest;
  Weekday earlier = Weekday::monday;
  Weekday later = Weekday::monday;
  int hours = 0;                      ///< between them
  int hours_wanted = 0;               ///< more than `hours`
  bool after_failure = false;         ///< the earlier day took it to failure
  std::vector<Lift> earlier_lifts{};  ///< that did so, or trained it hard
  std::vector<Lift> later_lifts{};    ///< that train it hard again

  friend bool operator==(const SpacingConflict&, const SpacingConflict&) noexcept = default;
};

/// "bench press, feet up; dip"; of more than three the others are counted.
[[nodiscard]] inline BasicText<511> to_text(std::span<const Lift> lifts) noexcept {
  constexpr std::size_t most = 3;
  BasicText<511> text;
  for (std::size_t i = 0; i < lifts.size() && i < most; ++i) {
    text.append(i > 0 ? "; " : "").append(lifts[i].name());
  }
  if (lifts.size() > most) {
    text.append(" and ").append(static_cast<int>(lifts.size() - most)).append(" more");
  }
  return text;
}

/// "chest: hard on Monday (bench press) and again on Tuesday (dip), 24 h later; allow 48 h"
[[nodiscard]] inline BasicText<1023> to_text(const SpacingConflict& conflict) noexcept {
  BasicText<1023> text;
  const auto append_day = [&](Weekday day, const std::vector<Lift>& lifts) noexcept {
    text.append(to_text(day));
    if (!lifts.empty()) text.append(" (").append(to_text(lifts)).append(")");
  };
  text.append(to_text(conflict.group))
      .append(conflict.after_failure ? ": to failure on " : ": hard on ");
  append_day(conflict.earlier, conflict.earlier_lifts);
  text.append(" and ").append(conflict.after_failure ? "hard again on " : "again on ");
  append_day(conflict.later, conflict.later_lifts);
  text.append(", ").append(conflict.hours);
  return text.append(" h later; allow ").append(conflict.hours_wanted).append(" h");
}

/// Every muscle group trained hard again too soon, in order of the earlier day, the later day, and
/// the groups.
/// @throws DomainError unless the rule's hours are 0 to 168, those after failure not the fewer, and
///   its per cents 0 to 100.
[[nodiscard]] inline std::vector<SpacingConflict> spacing_conflicts(
    std::span<const PlannedSession> sessions, const SpacingRule& rule = {}) {
  const detail::WeekWork days = detail::work_of(sessions, rule);
  detail::HardLifts lifts;
  for (const PlannedSession& session : sessions) {
    for (const PlannedLift& planned : session.lifts) {
      if (!detail::counts_as_hard(planned, rule)) continue;
      lifts.add(detail::index_of(session.day), planned.lift, detail::goes_to_failure(planned));
    }
  }
  std::vector<SpacingConflict> conflicts;
  detail::for_each_pair(rule.week_repeats, [&](std::size_t earlier, std::size_t later, int hours) {
    for (const MuscleGroup group : all_muscle_groups) {
      const auto i = static_cast<std::size_t>(group);
      const int wanted = detail::hours_wanted(days[earlier], days[later], i, rule);
      if (hours >= wanted) continue;
      const bool after_failure = days[earlier].is_hard_to_failure[i];
      conflicts.push_back({group, all_weekdays[earlier], all_weekdays[later], hours, wanted,
                           after_failure, lifts.on(earlier, group, after_failure, rule),
                           lifts.on(later, group, false, rule)});
    }
  });
  return conflicts;
}

/// Whether a logged set was hard: it left few enough, was or may have been missed, or was not
/// rated.
[[nodiscard]] inline bool is_hard(const LoggedSet& set, const SpacingRule& rule = {}) {
  return is_short(set) || !set.reserve || set.reserve->typical <= rule.most_reserve_of_hard_set;
}

/// The muscle groups that today's lifts train hard too soon after what a log holds of the days
/// before; most recent day first. Sets of today, of later days and of a week ago and more are left
/// aside.
///
/// A set without a rating counts as hard but not as taken to failure; one that was or may
/// have been missed went to failure.
/// @param log  any range of LoggedSet, in any order
template <class Log>
[[nodiscard]] std::vector<SpacingConflict> spacing_conflicts(const Log& log,
                                                             std::span<const PlannedLift> today,
                                                             Date date,
                                                             const SpacingRule& rule = {}) {
  detail::require_rule(rule);
  detail::WeekWork days_ago;
  detail::HardLifts lifts;
  for (const LoggedSet& set : log) {
    const int age = date - set.date;
    if (age < 1 || age >= detail::days_in_week) continue;
    const auto day = static_cast<std::size_t>(age);
    const bool was_hard = is_hard(set, rule);
    const bool is_to_failure =
        is_short(set) || (set.reserve && set.reserve->typical == RepsInReserve(0.0));
    days_ago[day].add(set.lift, 1, was_hard, is_to_failure, rule);
    if (was_hard) lifts.add(day, set.lift, is_to_failure);
  }
  detail::DayWork now;
  for (const PlannedLift& planned : today) {
    now.add(planned, rule);
    if (detail::counts_as_hard(planned, rule))
      lifts.add(0, planned.lift, detail::goes_to_failure(planned));
  }
  std::vector<SpacingConflict> conflicts;
  for (std::size_t day = 1; day < days_ago.size(); ++day) {
    const detail::DayWork& then = days_ago[day];
    const int age = static_cast<int>(day);
    for (const MuscleGroup group : all_muscle_groups) {
      const auto i = static_cast<std::size_t>(group);
      const int wanted = detail::hours_wanted(then, now, i, rule);
      if (24 * age >= wanted) continue;
      const bool after_failure = then.is_hard_to_failure[i];
      conflicts.push_back({group, weekday_of(date - age), weekday_of(date), 24 * age, wanted,
                           after_failure, lifts.on(day, group, after_failure, rule),
                           lifts.on(0, group, false, rule)});
    }
  }
  return conflicts;
}

}  // namespace barwright::inline BARWRIGHT_ABI
