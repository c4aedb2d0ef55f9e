// barwright/plan/recovery.hpp - whether a session comes too soon after what the log holds
//
// The rules of spacing are those of a week (training/spacing.hpp). A log adds what they cannot
// know: which sets without a rating were only warm-ups, whether a session counts as hard for want
// of a rating, and which day would be free of all that.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A muscle group trained hard too short a while before.
struct RecoveryConflict {
  SpacingConflict conflict{};
  Date earlier;
  bool is_rated = true;  ///< false: taken as hard for want of a rating
};

/// What a session comes too soon after.
struct Recovery {
  std::vector<RecoveryConflict> conflicts{};
  std::optional<Date> ready_on{};  ///< the first day that none of them speaks against
  bool is_second_today = false;    ///< the lift had all its work sets on the day already

  [[nodiscard]] bool is_too_soon() const noexcept { return !conflicts.empty() || is_second_today; }
  [[nodiscard]] bool is_after_failure() const noexcept {
    return std::any_of(conflicts.begin(), conflicts.end(),
                       [](const RecoveryConflict& each) { return each.conflict.after_failure; });
  }
};

/// The least to leave in every set, for a session not to count as hard.
[[nodiscard]] inline RepsInReserve easy_reserve() {
  return RepsInReserve(SpacingRule{}.most_reserve_of_hard_set.count() + 1.0);
}

/// Whether a set without a rating is so light that it can only have been a warm-up: below a share
/// of the heaviest of its lift so far.
[[nodiscard]] inline bool is_warm_up(const LoggedSet& set, std::span<const LoggedSet> log,
                                     double warm_up_below) {
  if (set.reserve || set.outcome == Outcome::missed) return false;
  return std::any_of(log.begin(), log.end(), [&](const LoggedSet& other) {
    return other.lift.same_as(set.lift) && other.date <= set.date &&
           set.load < other.load * warm_up_below;
  });
}

/// What a lift planned for a day comes too soon after.
[[nodiscard]] inline Recovery recovery_of(std::span<const LoggedSet> log,
                                          const PlannedLift& planned, Date date,
                                          double warm_up_below) {
  std::vector<LoggedSet> near;
  std::vector<LoggedSet> rated;
  for (const LoggedSet& set : log) {
    if (set.date >= date || date - set.date > 7 || is_warm_up(set, log, warm_up_below)) continue;
    near.push_back(set);
    if (set.reserve || set.outcome == Outcome::missed) rated.push_back(set);
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
