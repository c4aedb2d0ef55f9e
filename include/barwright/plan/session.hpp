// barwright/plan/session.hpp - one session of one lift: from what is known of a lifter to the bar
//
//     const Lifter lifter = stated_lifter(lifts::bench_press, 100_kg);
//     const auto plan = plan_session(lifter, {.lift = lifts::bench_press, .date = today,
//                                             .reps = 6_reps, .reserve = 2_rir,
//                                             .safeties = Safeties::checked});
//     if (!plan) return show(plan.refusal());
//     if (plan->is_stopped()) return show(plan->cautions, plan->remedies);
//     for (const PlannedSet& set : plan->sets) show(set);
//
// A plan is decisions as data: the sets with their plates, what limited the load, how likely each
// set is to be missed, what will be left, what comes next, what to beware of. It has no sentences
// but those of the cautions. A plan that says stop has no loads: what would lift the stop stands in
// their place.
//
// What may be loaded is decided by load_rule.hpp, how a new lift is introduced by
// training/introduction.hpp, what must be said by training/caution.hpp; the numbers they decide by
// are in rules.hpp.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <span>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/training/progression.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// A logged set as the progression rules take it: reps beyond the plan are those done and
/// left over those asked for and to be left.
inline LastSet as_last_set(const LoggedSet& set, Reps reps, RepsInReserve reserve) {
  const double to_failure = reps_to_failure(set).value_or(set.reps.count() + reserve.count());
  const int done = std::clamp(static_cast<int>(to_failure - reserve.count()), 1, Reps::most);
  return {.planned = reps, .done = Reps(done), .missed = is_short(set)};
}

}  // namespace detail

/// One session: what to load, why, and what to take care of.
///
/// Sets of the lift that the log has on the day are sets of this session, and the rest is planned;
/// where it has them all, a second session, an easy one (`Recovery::is_second_today`).
/// A beginner without a log or a max gets a first session: see `SessionPlan::first_session`.
/// @returns the plan, which may say stop and then has no loads; or why there is none.
/// @throws DomainError unless 0 < max_chance_of_missing < 1, and where the lifter's curve is not
/// defined for so many reps.
[[nodiscard]] Result<SessionPlan> plan_session(const Lifter& lifter, const SessionRequest& request);

/// The rest of a session that has begun: how many work sets are left, and with what load.
///
/// It is never heavier than planned: what a day's sets say for more, only a model that learns from
/// them can tell (`learn_lifter` with them, and `plan_session`). After a miss it is lighter than
/// what was missed; where a set left less than asked for by one or more, it is what leaves it.
/// @param done  the sets of the lift so far today that the log has not, in the order they were
/// done;
///   those a good way below the planned load count as warm-ups, unless they were missed, hurt, or
///   left less than asked for; a set that was hard for its load makes the work sets lighter
/// @returns a plan without sets where all are done.
[[nodiscard]] Result<SessionPlan> replan(const Lifter& lifter, const SessionPlan& plan,
                                         std::span<const LoggedSet> done);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/session.ipp"
#endif
