// barwright/plan/begun_session.hpp - what of a session was done already
//
// Sets of the planned lift on the day of the session are sets of that session, whether the log has
// them or somebody says them: what is planned is the rest. Where the log has all of them, nobody
// can know whether the lifter is done or comes back in the evening: what is planned then is a
// second session, an easy one, and the plan says so. A set of nine tenths of the load or more
// counts as one of its sets (`counts_as_work`). Common practice, no source.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/training/spacing_rule.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// A session that has begun.
struct Begun {
  int sets = 0;                        ///< done, of the work sets and then of the back-offs
  std::optional<Mass> no_more_than{};  ///< the load of its work sets, planned or done
  Mass top{};                          ///< of the work sets that were done the heaviest
  bool is_over = false;                ///< all of it was done: the next is a second session
};

/// What a set of the day was in a session as it is planned.
enum class PartOfSession : unsigned char { warm_up, hard_warm_up, work };

/// A set a good way below the planned load was a warm-up, unless it was missed, hurt, or left less
/// than asked for; where a warm-up was hard for its load, that is known of the day.
/// @param planned  the load of the sets that are next
[[nodiscard]] inline PartOfSession part_of_session(const LoggedSet& set, Mass planned,
                                                   const SessionPlan& plan, const LoadRule& rule,
                                                   const PlanningRules& rules) {
  const bool is_warm_up = set.load < planned * rules.counts_as_work && !is_short(set) &&
                          !set.has_pain && !set.is_unwell &&
                          !(set.reserve && set.reserve->typical < plan.reserve);
  if (!is_warm_up) return PartOfSession::work;
  const SessionRequest& asked = plan.request;
  const bool is_hard = rule.is_hard_for_its_load(
      set, {.date = asked.date, .reps = asked.aimed_reps(), .reserve = asked.aimed_reserve()});
  return is_hard ? PartOfSession::hard_warm_up : PartOfSession::warm_up;
}

/// Counts one set more.
/// @param plan    what was planned before it
/// @param before  the sets done before `plan` was made
/// @returns what it was
inline PartOfSession count_set(Begun& begun, const LoggedSet& set, const SessionPlan& plan,
                               int before, const LoadRule& rule, const PlanningRules& rules) {
  const bool is_back_off = plan.back_offs && begun.sets - before >= plan.work_sets;
  const Mass planned = is_back_off ? plan.back_offs->set.with.load : plan.load();
  const PartOfSession part = part_of_session(set, planned, plan, rule, rules);
  if (part != PartOfSession::work) return part;
  ++begun.sets;
  if (!is_back_off) begun.top = std::max(begun.top, set.load);
  return part;
}

/// Work sets of the lift that the log has on a day.
/// @param most  that they left, where they say so
[[nodiscard]] inline int work_sets_on(const Lifter& lifter, const Lift& lift, Date date,
                                      RepsInReserve most = RepsInReserve(RepsInReserve::most)) {
  return static_cast<int>(
      std::count_if(lifter.sets.begin(), lifter.sets.end(), [&](const LoggedSet& set) {
        return set.date == date && set.lift.same_as(lift) &&
               !(set.reserve && set.reserve->typical > most) &&
               !is_warm_up(set, lifter.sets, lifter.rules.warm_up_below);
      }));
}
/// The hard ones.
[[nodiscard]] inline int hard_sets_on(const Lifter& lifter, const Lift& lift, Date date) {
  return work_sets_on(lifter, lift, date, SpacingRule{}.most_reserve_of_hard_set);
}
/// Sets of its variations with nothing left: they ask as much of a day.
[[nodiscard]] inline int empty_variations_on(const Lifter& lifter, const Lift& lift, Date date) {
  return static_cast<int>(
      std::count_if(lifter.sets.begin(), lifter.sets.end(), [&](const LoggedSet& set) {
        return set.date == date && set.lift.base().same_as(lift.base()) &&
               !set.lift.same_as(lift) &&
               (is_short(set) || (set.reserve && set.reserve->typical < RepsInReserve(1.0)));
      }));
}

/// Whether a rep of the lift, in any form, was missed on the day: whatever the load, and where the
/// set does not fit the others, too.
[[nodiscard]] inline bool has_miss_on(const Lifter& lifter, const Lift& lift, Date date) {
  const auto is_miss = [&](const LoggedSet& set) {
    return set.date == date && set.outcome == Outcome::missed &&
           set.lift.base().same_as(lift.base());
  };
  return std::any_of(lifter.sets.begin(), lifter.sets.end(), is_miss) ||
         std::any_of(lifter.suspects.begin(), lifter.suspects.end(),
                     [&](const SuspectSet& suspect) { return is_miss(suspect.set); });
}

/// Whether the log has sets of the lift on the day.
[[nodiscard]] inline bool has_sets_on(const Lifter& lifter, const Lift& lift, Date date) {
  const auto is_of_day = [&](const LoggedSet& set) {
    return set.date == date && set.lift.same_as(lift);
  };
  return std::any_of(lifter.sets.begin(), lifter.sets.end(), is_of_day) ||
         std::any_of(lifter.suspects.begin(), lifter.suspects.end(),
                     [&](const SuspectSet& suspect) { return is_of_day(suspect.set); });
}

/// The lifter as before the session: without the sets of the lift on its day.
[[nodiscard]] inline Lifter before_session(Lifter lifter, const Lift& lift, Date date) {
  std::erase_if(lifter.sets,
                [&](const LoggedSet& set) { return set.date == date && set.lift.same_as(lift); });
  return lifter;
}

/// Counts the sets that the log of the day has of a session, those that do not fit included: they
/// were work, too.
/// @param before  the lifter as before the session
/// @param whole   the session as it was planned for that lifter
[[nodiscard]] inline Begun begun_by_log(const Lifter& lifter, const Lifter& before,
                                        const SessionPlan& whole) {
  Begun begun;
  const LoadRule rule(before, whole.request.lift, whole.request.date);
  const auto look_at = [&](const LoggedSet& set) {
    if (set.date != whole.request.date || !set.lift.same_as(whole.request.lift)) return;
    (void)count_set(begun, set, whole, 0, rule, lifter.rules);
  };
  for (const LoggedSet& set : lifter.sets) look_at(set);
  for (const SuspectSet& suspect : lifter.suspects) {
    LoggedSet set = suspect.set;
    if (suspect.slip != Slip::unknown) set.load = suspect.expected;
    look_at(set);
  }
  const int all = whole.work_sets + (whole.back_offs ? whole.back_offs->set.sets : 0);
  if (begun.sets >= all) {
    begun = {};
    begun.is_over = true;
  }
  if (begun.sets > 0) {
    begun.no_more_than = begun.top > Mass{} ? std::min(whole.load(), begun.top) : whole.load();
  }
  return begun;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
