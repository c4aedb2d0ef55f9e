// barwright/training/detail/week_work.hpp - a week's sets by day and muscle group, for spacing and
// order
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing_rule.hpp"
#include "barwright/training/volume.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::size_t group_count = all_muscle_groups.size();
inline constexpr int days_in_week = 7;

constexpr void require_rule(const SpacingRule& rule) {
  if (!(0 <= rule.hours_between && rule.hours_between <= 168)) {
    fail("the hours between hard sessions", "a whole number from 0 to 168",
         static_cast<double>(rule.hours_between));
  }
  if (!(rule.hours_between <= rule.hours_after_failure && rule.hours_after_failure <= 168)) {
    fail("the hours after failure", "at least the hours between hard sessions, at most 168",
         static_cast<double>(rule.hours_after_failure));
  }
  if (!(0 <= rule.bracing_percent && rule.bracing_percent <= 100)) {
    fail("the per cent of a set that bracing counts", "a whole number from 0 to 100",
         static_cast<double>(rule.bracing_percent));
  }
  if (!(0 <= rule.cross_muscle_percent && rule.cross_muscle_percent <= 100)) {
    fail("the per cent of a set that other muscles feel", "a whole number from 0 to 100",
         static_cast<double>(rule.cross_muscle_percent));
  }
}

/// What was done in one half of the body.
struct Work {
  FractionalSets lifted{};
  FractionalSets with_bracing{};  ///< the same and what bracing counts
  std::int64_t sets_done = 0;

  constexpr void add(const Lift& lift, int count, int bracing_percent) noexcept {
    lifted.add(lift, count, 0);
    with_bracing.add(lift, count, bracing_percent);
    sets_done += count;
  }
  [[nodiscard]] constexpr const FractionalSets& sets(bool counts_bracing) const noexcept {
    return counts_bracing ? with_bracing : lifted;
  }
  /// The parts of a set this group feels of it.
  [[nodiscard]] constexpr std::int64_t felt(MuscleGroup group, int percent,
                                            bool counts_bracing) const noexcept {
    return std::max(sets(counts_bracing).parts(group),
                    sets_done * percent * (FractionalSets::parts_per_set / 100));
  }
};

/// Whether a hard set of `lift`, which works `muscles`, asks enough of a group to be spaced.
[[nodiscard]] constexpr bool asks_enough(const Lift& lift, const Muscles& muscles,
                                         MuscleGroup group, const SpacingRule& rule) noexcept {
  return muscles[group] != Involvement::none && muscles[group] >= rule.least_involvement &&
         !is_bracing(lift, group);
}

[[nodiscard]] constexpr bool counts_as_hard(const PlannedLift& planned,
                                            const SpacingRule& rule) noexcept {
  return planned.reserve <= rule.most_reserve_of_hard_set;
}
[[nodiscard]] constexpr bool goes_to_failure(const PlannedLift& planned) noexcept {
  return planned.reserve == RepsInReserve(0.0);
}

/// What was done on one day, as far as the days around it are concerned.
struct DayWork {
  std::array<Work, 2> all{};         ///< by Region
  std::array<Work, 2> to_failure{};  ///< those of them that went to failure
  std::array<bool, group_count> is_hard{};
  std::array<bool, group_count> is_hard_to_failure{};
  bool has_lifts = false;

  constexpr void add(const Lift& lift, int sets, bool is_hard_set, bool is_to_failure,
                     const SpacingRule& rule) noexcept {
    const auto region = static_cast<std::size_t>(lift.base().region);
    all[region].add(lift, sets, rule.bracing_percent);
    if (is_to_failure) to_failure[region].add(lift, sets, rule.bracing_percent);
    if (!is_hard_set) return;
    const Muscles muscles = lift.muscles();
    for (const MuscleGroup group : all_muscle_groups) {
      const auto i = static_cast<std::size_t>(group);
      if (!asks_enough(lift, muscles, group, rule)) continue;
      is_hard[i] = true;
      if (is_to_failure) is_hard_to_failure[i] = true;
    }
  }
  constexpr void add(const PlannedLift& planned, const SpacingRule& rule) noexcept {
    add(planned.lift, planned.sets.count(), counts_as_hard(planned, rule), goes_to_failure(planned),
        rule);
  }
};

using WeekWork = std::array<DayWork, days_in_week>;

[[nodiscard]] constexpr WeekWork work_of(std::span<const PlannedSession> sessions,
                                         const SpacingRule& rule) {
  require_rule(rule);
  WeekWork days;
  for (const PlannedSession& session : sessions) {
    DayWork& day = days[index_of(session.day)];
    if (!session.lifts.empty()) day.has_lifts = true;
    for (const PlannedLift& planned : session.lifts) day.add(planned, rule);
  }
  return days;
}

/// Calls `visit(earlier, later, hours)` for every two days of a week, in order of the earlier.
template <class Visitor>
constexpr void for_each_pair(bool week_repeats, Visitor visit) {
  for (int earlier = 0; earlier < days_in_week; ++earlier) {
    for (int apart = 1; apart < days_in_week; ++apart) {
      const int later = earlier + apart;
      if (later >= days_in_week && !week_repeats) break;
      visit(static_cast<std::size_t>(earlier), static_cast<std::size_t>(later % days_in_week),
            24 * apart);
    }
  }
}

/// The hours wanted between two days for one muscle group; 0 when they do not both train it hard.
[[nodiscard]] constexpr int hours_wanted(const DayWork& earlier, const DayWork& later,
                                         std::size_t group, const SpacingRule& rule) noexcept {
  if (!earlier.is_hard[group] || !later.is_hard[group]) return 0;
  return earlier.is_hard_to_failure[group] ? rule.hours_after_failure : rule.hours_between;
}

/// The lifts of the hard sets of some days: who is to be named when two days are too close.
class HardLifts {
 public:
  void add(std::size_t day, const Lift& lift, bool is_to_failure) {
    for (const Entry& entry : entries_) {
      if (entry.day == day && entry.is_to_failure == is_to_failure && entry.lift.same_as(lift))
        return;
    }
    entries_.push_back({.day = day, .lift = lift, .is_to_failure = is_to_failure});
  }
  /// Those that ask enough of `group`, in the order they were added; of the earlier day after
  /// failure only those that went to it.
  [[nodiscard]] std::vector<Lift> on(std::size_t day, MuscleGroup group, bool to_failure_only,
                                     const SpacingRule& rule) const {
    std::vector<Lift> lifts;
    for (const Entry& entry : entries_) {
      if (entry.day != day || (to_failure_only && !entry.is_to_failure)) continue;
      if (!asks_enough(entry.lift, entry.lift.muscles(), group, rule)) continue;
      if (!entry.lift.is_among(lifts)) lifts.push_back(entry.lift);
    }
    return lifts;
  }

 private:
  struct Entry {
    std::size_t day;
    Lift lift;
    bool is_to_failure;
  };
  std::vector<Entry> entries_{};
};

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
