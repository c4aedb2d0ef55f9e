// barwright/plan/recovery.ipp - the bodies of recovery.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline bool is_warm_up(const LoggedSet& set, std::span<const LoggedSet> log, double warm_up_below) {
  if (set.reserve || is_short(set)) return false;
  return std::any_of(log.begin(), log.end(), [&](const LoggedSet& other) {
    return other.lift.same_as(set.lift) && other.date <= set.date &&
           set.load < other.load * warm_up_below;
  });
}

inline Recovery recovery_of(std::span<const LoggedSet> log, const PlannedLift& planned, Date date,
                            double warm_up_below) {
  std::vector<LoggedSet> near;
  std::vector<LoggedSet> rated;
  for (const LoggedSet& set : log) {
    if (set.date >= date || date - set.date > 7 || is_warm_up(set, log, warm_up_below)) continue;
    near.push_back(set);
    if (set.reserve || is_short(set)) rated.push_back(set);
  }
  const std::array today{planned};
  const auto by_ratings = spacing_conflicts(rated, today, date);
  Recovery recovery;
  for (const SpacingConflict& conflict : spacing_conflicts(near, today, date)) {
    const bool is_rated =
        std::any_of(by_ratings.begin(), by_ratings.end(), [&](const SpacingConflict& rated_one) {
          return rated_one.group == conflict.group && rated_one.hours == conflict.hours &&
                 rated_one.after_failure == conflict.after_failure;
        });
    const Date earlier = date - conflict.hours / 24;
    const Date free = earlier + (conflict.hours_wanted + 23) / 24;
    if (!recovery.ready_on || *recovery.ready_on < free) recovery.ready_on = free;
    recovery.conflicts.push_back({.conflict = conflict, .earlier = earlier, .is_rated = is_rated});
  }
  return recovery;
}

}  // namespace barwright::inline BARWRIGHT_ABI
