// barwright/plan/attempts.ipp - the bodies of attempts.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/plan/attempts.hpp"
#include "barwright/plan/begun_session.hpp"
#include "barwright/plan/doubted_sets.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/comeback.hpp"
#include "barwright/training/plan_cautions.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Makes one plan of attempts.
class AttemptsPlanner {
 public:
  AttemptsPlanner(const Lifter& lifter, const AttemptsRequest& request)
      : lifter_(lifter),
        rule_(lifter, request.lift, request.date),
        equipment_(request.lift, request.room, std::nullopt, plate_rule(request), lifter.body),
        plan_{.request = request} {}

  [[nodiscard]] Result<AttemptsPlan> make() {
    look_back();
    find_cautions();
    if (plan_.is_stopped()) return std::move(plan_);
    const auto refusal = choose_loads();
    if (refusal) return *refusal;
    if (has_too_many_plates(plan_.attempts.back().with, lifter_.rules)) {
      plan_.attempts.clear();
      plan_.cautions.push_back(cautions::too_many_plates);
      plan_.remedies = {Remedy::correct_max};
      sort_by_severity(plan_.cautions);
      return std::move(plan_);
    }
    plan_.sets = equipment_.session(plan_.attempts.front().with, Reps(1), 1);
    return std::move(plan_);
  }

 private:
  /// The small plates are for attempts: any that there are.
  [[nodiscard]] PlateRule plate_rule(const AttemptsRequest& asked) const {
    PlateRule rule = rule_.plate_rule(single(asked));
    rule.least = Mass{};
    return rule;
  }
  [[nodiscard]] static WorkSets single(const AttemptsRequest& asked) {
    return {.date = asked.date, .reps = Reps(1)};
  }

  void look_back() {
    const AttemptsRequest& asked = plan_.request;
    plan_.max = lifter_.strength->max(asked.lift, asked.date);
    plan_.earlier_sessions = known_sessions(lifter_, asked.lift, asked.date);
    plan_.days_off = days_off(lifter_, asked.date);
    plan_.comeback = comeback_on(lifter_, asked.date);
    if (!rule_.sessions().empty()) plan_.last = rule_.sessions().back();
    plan_.recovery = recovery_of(
        lifter_.sets,
        {.lift = asked.lift, .sets = Sets(3), .reps = Reps(1), .reserve = RepsInReserve{}},
        asked.date, lifter_.rules.warm_up_below);
  }

  void find_cautions() {
    const AttemptsRequest& asked = plan_.request;
    add_stops(plan_.cautions, plan_.remedies, lifter_, asked.date, answers_of(asked));
    for (Caution& caution : plan_.cautions) {
      // Nobody tries a max by a log that contradicts itself.
      const bool is_doubt =
          caution.text == cautions::doubtful_log.text && caution.severity != Severity::stop;
      if (is_doubt && !asked.is_max_confirmed) stop_for_log(caution, plan_.remedies);
      // Nor while nobody knows whether the last rep was made; that a max is right does not say so.
      if (caution.key == cautions::may_be_missed.key) {
        caution.severity = Severity::stop;
        plan_.remedies.push_back(Remedy::tell_outcome);
      }
    }
    if (has_miss_on(lifter_, asked.lift, asked.date)) {
      plan_.cautions.push_back(cautions::missed_today);
      plan_.remedies.push_back(Remedy::another_day);
    }
    const SessionFacts facts{.lift = asked.lift,
                             .reps = Reps(1),
                             .reserve = RepsInReserve{},
                             .has_spotter = asked.has_spotter,
                             .safeties = asked.safeties,
                             .earlier_sessions = plan_.earlier_sessions,
                             .is_comeback = plan_.comeback.has_value(),
                             .alone = lifter_.rules.alone(),
                             .sessions_until_known = sessions_until_attempt(lifter_),
                             .has_only_long_sets = has_only_long_sets(lifter_, asked.date)};
    std::vector<Caution> of_attempt;
    (void)add_cautions(of_attempt, plan_.remedies, facts);
    if (plan_.recovery.is_too_soon() || hard_sets_on(lifter_, asked.lift, asked.date) > 0) {
      of_attempt.push_back(cautions::not_rested);
    }
    const auto is_stop = [](const Caution& each) { return each.severity == Severity::stop; };
    // How to go about an attempt does not belong beside the word that there is to be none.
    if (std::any_of(plan_.cautions.begin(), plan_.cautions.end(), is_stop) ||
        std::any_of(of_attempt.begin(), of_attempt.end(), is_stop)) {
      std::erase_if(of_attempt, [&](const Caution& each) { return !is_stop(each); });
    }
    plan_.cautions.insert(plan_.cautions.end(), of_attempt.begin(), of_attempt.end());
    // With something kept in reserve it would be no attempt.
    if (std::erase(plan_.remedies, Remedy::keep_reserve) > 0 && plan_.remedies.empty()) {
      plan_.remedies.push_back(Remedy::train_it_first);
    }
    sort_by_severity(plan_.cautions);
  }

  /// @returns why there are none, where even the opener is lighter than what there is.
  [[nodiscard]] std::optional<Refusal> choose_loads() {
    const PlanningRules& rules = lifter_.rules;
    const Lift& lift = plan_.request.lift;
    const Date date = plan_.request.date;
    const Mass max = plan_.max.median();
    Mass third = rules.third_attempt_share * max;
    for (const LoadLimit& limit : rule_.limits(single(plan_.request))) {
      // A third attempt may well be missed.
      if (limit.by == LimitedBy::chance_of_missing || !(limit.most < third)) continue;
      third = limit.most;
      plan_.limited_by = limit.by;
    }
    const Mass likeliest = third / rules.third_attempt_share;
    const Mass certain = lifter_.strength
                             ->load_for(lift, Reps(1), RepsInReserve{}, date,
                                        {.max_chance_of_missing = 1.0 - rules.opener_chance})
                             .load;
    Mass opener = rules.opener_share * likeliest;
    Mass second = rules.second_attempt_share * likeliest;
    if (certain < opener && opener < second && second < third) {
      // The steps keep their proportion: a great one to the second would spoil the third.
      const double way = (second - opener) / (third - opener);
      opener = certain;
      second = opener + way * (third - opener);
    }
    opener = std::min(opener, certain);
    for (const Mass load : {opener, second, third}) {
      const auto with = equipment_.at_most(load);
      if (!with) {
        return Refusal{
            .code = too_heavy(equipment_), .wanted = load, .lightest = equipment_.lightest().load};
      }
      if (!plan_.attempts.empty() && !(with->load > plan_.attempts.back().with.load)) continue;
      const double missed = lifter_.strength->chance_of_missing(lift, with->load, Reps(1), date, 0);
      plan_.attempts.push_back(
          {.with = *with, .chance_of_success = (1.0 - missed) * (1.0 - rules.lost_to_the_rules)});
    }
    return std::nullopt;
  }

  const Lifter& lifter_;
  LoadRule rule_;
  Equipment equipment_;
  AttemptsPlan plan_;
};

}  // namespace detail

inline Result<AttemptsPlan> plan_attempts(const Lifter& lifter, const AttemptsRequest& request) {
  if (const auto refusal = detail::refusal_of(lifter, request.lift, request.date)) return *refusal;
  return detail::with_word_on_doubted_sets<AttemptsPlan>(
      lifter, [&](const Lifter& each) { return detail::AttemptsPlanner(each, request).make(); });
}

}  // namespace barwright::inline BARWRIGHT_ABI
