// barwright/plan/first_session.hpp - the first session of somebody of whom nothing is known
//
// A beginner has neither a log nor a max, and no figure of other people says what is right for this
// one. So nothing is computed: the session starts with the lightest load there is and goes up in
// steps, a set of five with each, as long as the lifter could have done as many again twice over
// and every rep was like the one before. That load is the day's; the log of it plans the next
// session. Common practice, no source; a step is at most a quarter, so that by the published curves
// a lifter who has ten left after five still has one left on the next.
//
//     const auto plan = plan_session(learn_lifter({}, lifts::squat, today,
//                                                 {.experience = Experience::novice}),
//                                    {.lift = lifts::squat, .date = today});
//     for (const LoadedWith& step : plan->first_session->steps) show(step);
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/training/caution.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// Whether a refusal is to be answered by a first session: a beginner, and not one set of the lift
/// in any form.
[[nodiscard]] inline bool is_first_session(const Lifter& lifter, const Lift& lift,
                                           const Refusal& refusal) {
  return refusal.code == RefusalCode::no_strength && lifter.experience == Experience::novice &&
         std::none_of(lifter.sets.begin(), lifter.sets.end(),
                      [&](const LoggedSet& set) { return set.lift.base().same_as(lift.base()); });
}

/// The sets of a first session that the log of its day has; none where it is no first session.
[[nodiscard]] inline std::vector<LoggedSet> sets_of_first_session(const Lifter& lifter,
                                                                  const SessionRequest& request) {
  std::vector<LoggedSet> done;
  if (lifter.experience != Experience::novice || lifter.stated_max) return done;
  bool is_first = stated_sessions(lifter.done_before, request.lift) == 0;
  const auto look_at = [&](const LoggedSet& set) {
    if (!set.lift.base().same_as(request.lift.base())) return;
    is_first = is_first && set.date == request.date;
    if (set.lift.same_as(request.lift)) done.push_back(as_logged(set, lifter));
  };
  for (const LoggedSet& set : lifter.sets) look_at(set);
  for (const SuspectSet& suspect : lifter.suspects) look_at(suspect.set);
  if (!is_first) done.clear();
  return done;
}

/// The most that a first session may start with: nobody knows how strong the lifter is. What a
/// machine weighs empty says little of what it asks for.
[[nodiscard]] inline Mass most_to_start(const Lift& lift, const PlanningRules& rules) {
  if (lift.base().is_machine) return Mass::from_kg(Mass::largest_kg);
  return Mass::from_kg(lift.base().region == Region::upper_body ? rules.first_most_upper_kg
                                                                : rules.first_most_lower_kg);
}

/// The loads of a first session, from the lightest on.
[[nodiscard]] inline std::vector<LoadedWith> first_steps(const Equipment& equipment, Region region,
                                                         const PlanningRules& rules) {
  const Mass usual = Mass::from_kg(region == Region::upper_body ? rules.first_step_upper_kg
                                                                : rules.first_step_lower_kg);
  std::vector<LoadedWith> steps{equipment.lightest()};
  while (static_cast<int>(steps.size()) < rules.first_steps) {
    const Mass load = steps.back().load;
    const Mass most = load * (1.0 + rules.first_greatest_step + 1e-9);
    auto next = equipment.at_most(std::min(load + usual, most));
    if (!next || !(next->load > load)) next = equipment.above(load);
    // Light dumbbells have no smaller step, and are put down.
    const bool is_usual =
        next && (equipment.is_dumbbells() || equipment.is_stack()) && !(next->load > load + usual);
    if (!next || (next->load > most && !is_usual)) break;
    steps.push_back(*next);
  }
  return steps;
}

/// The step for the next set, and how many sets are still to be done with it; 0: the session is
/// over.
struct NextByFeel {
  std::size_t step = 0;
  int sets = 1;
};

/// Reads the sets done so far: up while much is left, back where too little was.
[[nodiscard]] inline NextByFeel next_by_feel(const FirstSession& first,
                                             std::span<const LoggedSet> done) {
  NextByFeel next;
  bool is_found = false;
  const auto stay = [&] {
    next.sets = is_found ? next.sets - 1 : first.sets - 1;
    is_found = true;
  };
  for (const LoggedSet& set : done) {
    if (is_short(set) || set.has_pain || set.is_unwell) return {next.step, 0};
    // Whoever left a line out is where the bar says.
    for (std::size_t i = next.step + 1; i < first.steps.size(); ++i) {
      if (std::abs((first.steps[i].logged() - set.load).kg()) < 0.01) next.step = i;
    }
    if (!set.reserve) {
      stay();
      continue;
    }
    const RepsInReserve left = set.reserve->typical;
    if (left < first.go_back_below) {
      if (next.step == 0) return {0, 0};
      --next.step;
      stay();
    } else if (!is_found && left >= first.go_on_with && next.step + 1 < first.steps.size()) {
      ++next.step;
    } else {
      stay();
    }
  }
  next.sets = std::max(next.sets, 0);
  return next;
}

/// The first steps of a lift from the floor have no plates that hold the bar up.
inline constexpr Caution bar_lies_low{
    Severity::warn,
    "With plates smaller than 45 cm the bar lies lower than it should: raise it on blocks or "
    "plates, to the middle of the shin.",
    common_practice("45 cm is the diameter of the large discs in the rules of weightlifting")};

/// Plans the next set of a first session.
/// @param done  its sets so far
[[nodiscard]] inline Result<SessionPlan> plan_first_session(const Lifter& lifter,
                                                            const SessionRequest& request,
                                                            std::span<const LoggedSet> done) {
  const PlanningRules& rules = lifter.rules;
  const auto in_halves = [](double left) { return RepsInReserve(std::floor(2.0 * left) / 2.0); };
  const Equipment equipment(request.lift, request.room, request.fixed_loads(), {}, lifter.body);
  SessionPlan plan{.request = request};
  plan.sets_done = static_cast<int>(done.size());
  plan.reps = Reps(rules.first_reps);
  plan.reserve = in_halves(rules.first_reserve);
  plan.limited_by = LimitedBy::first_session;
  add_stops(plan.cautions, plan.remedies, lifter, request.date,
            {request.pain, request.unwell, true});
  plan.least_alone = add_cautions(plan.cautions, plan.remedies,
                                  {.lift = request.lift,
                                   .reps = plan.reps,
                                   .reserve = plan.reserve,
                                   .has_spotter = request.has_spotter,
                                   .safeties = request.safeties,
                                   .alone = rules.alone(),
                                   .sessions_until_known = rules.sessions_until_known});
  plan.cautions.push_back(cautions::first_session);
  if (request.lift.base().family == LiftFamily::deadlift && !equipment.is_dumbbells()) {
    plan.cautions.push_back(bar_lies_low);
  }
  sort_by_severity(plan.cautions);
  plan.recovery = recovery_of(
      lifter.sets,
      {.lift = request.lift, .sets = Sets(1), .reps = plan.reps, .reserve = plan.reserve},
      request.date, rules.warm_up_below);
  plan.first_session = FirstSession{};
  if (plan.is_stopped()) return plan;
  const Mass most = most_to_start(request.lift, rules);
  if (equipment.lightest().load > most && !equipment.is_belt()) {
    return Refusal{
        .code = too_heavy(equipment), .wanted = most, .lightest = equipment.lightest().load};
  }
  FirstSession first{.steps = first_steps(equipment, request.lift.base().region, rules),
                     .sets = rules.first_sets,
                     .go_on_with = in_halves(rules.first_go_on_reserve),
                     .go_back_below = plan.reserve};
  const NextByFeel next = next_by_feel(first, done);
  plan.work_sets = next.sets;
  if (next.sets > 0) {
    plan.wanted = first.steps[next.step].load;
    plan.sets = {
        {.is_work = true, .sets = next.sets, .reps = plan.reps, .with = first.steps[next.step]}};
  }
  plan.first_session = std::move(first);
  return plan;
}

/// What is planned in place of an answer by the log: nothing known, or a first session. Nothing
/// where there is such an answer.
inline std::optional<Result<SessionPlan>> plan_without_log(const Lifter& lifter,
                                                           const SessionRequest& request,
                                                           std::span<const LoggedSet> done) {
  const auto refusal = refusal_of(lifter, request.lift, request.date);
  std::vector<LoggedSet> of_first = sets_of_first_session(lifter, request);
  if (refusal ? !is_first_session(lifter, request.lift, *refusal) : of_first.empty()) {
    if (refusal) return *refusal;
    return std::nullopt;
  }
  of_first.insert(of_first.end(), done.begin(), done.end());
  return plan_first_session(lifter, request, of_first);
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
