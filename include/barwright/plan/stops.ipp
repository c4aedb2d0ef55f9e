// barwright/plan/stops.ipp - the bodies of stops.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/rules.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/plan_cautions.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline bool needs_no_introduction(const Lifter& lifter, const Lift& lift, Date date) {
  if (lift.is_plain() || !is_close_to_plain(lift)) return false;
  return lifter.stated_max ||
         sessions_before(lifter, lifter.base, date) >= lifter.rules.sessions_until_known;
}

inline bool leaves_more_at_first(const Lifter& lifter, const Lift& lift, Date date) {
  if (!lift.is_plain()) return needs_no_introduction(lifter, lift, date);
  if (lifter.stated_max || stated_sessions(lifter.done_before, lift) > 0) return false;
  std::optional<Date> first;
  std::optional<Date> first_of_variations;
  for (const LoggedSet& set : lifter.sets) {
    if (!set.lift.base().same_as(lift.base())) continue;
    auto& day = set.lift.is_plain() ? first : first_of_variations;
    if (!day || set.date < *day) day = set.date;
  }
  return first_of_variations && (!first || *first_of_variations < *first);
}

inline bool is_new_plain_lift(const Lifter& lifter, const Lift& lift, Date date) {
  if (!lift.is_plain() || lifter.stated_max || stated_sessions(lifter.done_before, lift) > 0) {
    return false;
  }
  if (lifter.experience == Experience::novice) return true;
  std::optional<Date> first;
  std::optional<Date> first_of_others;
  for (const LoggedSet& set : lifter.sets) {
    if (!set.lift.base().same_as(lift.base()) || !(set.date < date)) continue;
    const auto modifiers = set.lift.modifiers();
    const bool is_other =
        std::any_of(modifiers.begin(), modifiers.end(), [](const Modifier& modifier) {
          return modifier.sets_any_of(Setup::bench_angle | Setup::implement | Setup::bar_position |
                                      Setup::stance);
        });
    auto& day = is_other ? first_of_others : first;
    if (!day || set.date < *day) day = set.date;
  }
  if (!first_of_others) return false;
  return !first || *first - *first_of_others > lifter.rules.settled_after_days;
}

/// The sessions of a lift before a day that count for its introduction.
inline int sessions_introduced(const Lifter& lifter, const Lift& lift, Date date) {
  std::vector<Date> days;
  for (const LoggedSet& set : lifter.sets) {
    if (set.lift.same_as(lift) && set.date < date) days.push_back(set.date);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  days.push_back(date);
  int counted = 0;
  for (std::size_t i = 1; i < days.size(); ++i) {
    const int gap = days[i] - days[i - 1];
    ++counted;
    const bool is_finished = counted >= static_cast<int>(Introduction::most);
    if (gap > (is_finished ? lifter.rules.stale_days : lifter.rules.long_layoff_days)) {
      counted = 0;
    } else if (!is_finished && gap > lifter.rules.layoff_days) {
      --counted;
    }
  }
  return std::max(counted, stated_sessions(lifter.done_before, lift));
}

/// A tabulated curve as the curve it was made from.
class TabulatedCurve {
 public:
  explicit TabulatedCurve(const CurveTable* table) : table_(table) {}
  [[nodiscard]] double fraction(double reps) const {
    require_reps_defined(reps, defined());
    return std::exp(table_->log_fraction(reps));
  }
  [[nodiscard]] double reps(double fraction) const { return table_->reps(std::log(fraction)); }
  [[nodiscard]] double slope(double reps) const { return table_->at(reps).slope; }
  [[nodiscard]] RepRange defined() const noexcept { return table_->defined(); }
  [[nodiscard]] RepRange studied() const noexcept { return table_->defined(); }

 private:
  const CurveTable* table_;
};

inline std::optional<IntroductionOn> introduction_on(const Lifter& lifter, const Lift& lift,
                                                     Date date, Mass max, Reps reps,
                                                     RepsInReserve reserve, int stated) {
  if (lift.is_plain() && !is_new_plain_lift(lifter, lift, date)) return std::nullopt;
  if (needs_no_introduction(lifter, lift, date)) return std::nullopt;
  IntroductionOn on{.plan = introduce(TabulatedCurve(&lifter.curve), lift, max, reps, reserve)};
  on.done = std::max(stated, sessions_introduced(lifter, lift, date));
  if (static_cast<std::size_t>(on.done) >= on.plan.size()) return std::nullopt;
  on.is_interrupted = on.done < sessions_before(lifter, lift, date);
  return on;
}

inline RepsInReserve least_while_close_is_new(const PlanningRules& rules, int earlier_sessions) {
  if (earlier_sessions >= rules.close_sessions) return {};
  const double least =
      earlier_sessions == 0 ? rules.close_first_reserve : rules.close_later_reserve;
  return RepsInReserve(std::ceil(2.0 * least) / 2.0);
}

inline std::optional<Refusal> refusal_for_body(const Lifter& lifter, const Lift& lift) {
  if (!lift.base().is_bodyweight || lifter.body) return std::nullopt;
  return Refusal{.code = lift.base().body_share ? RefusalCode::no_body_mass
                                                : RefusalCode::bodyweight_lift};
}

inline std::optional<Refusal> refusal_of(const Lifter& lifter, const Lift& lift, Date date) {
  if (const auto refusal = refusal_for_body(lifter, lift)) return refusal;
  if (lift.base().family == LiftFamily::explosive) {
    return Refusal{.code = RefusalCode::explosive_lift};
  }
  if (!lift.base().same_as(lifter.base.base())) return Refusal{.code = RefusalCode::other_lift};
  std::optional<Date> last;
  for (const LoggedSet& set : lifter.sets) {
    if (date < set.date) return Refusal{.code = RefusalCode::log_goes_on, .date = set.date};
    if (set.lift.base().same_as(lift.base()) && (!last || *last < set.date)) last = set.date;
  }
  if (!lifter.strength) return Refusal{.code = RefusalCode::no_strength};
  if (lifter.stated_max) return std::nullopt;
  if (!last || !lifter.learnt || lifter.learnt->sets_used == 0) {
    return Refusal{.code = RefusalCode::no_strength};
  }
  if (date - *last > lifter.rules.stale_days) {
    return Refusal{.code = RefusalCode::log_too_old, .date = last, .days = date - *last};
  }
  return std::nullopt;
}

inline int known_sessions(const Lifter& lifter, const Lift& lift, Date date) {
  const int sessions = sessions_before(lifter, lift, date);
  if (!lift.is_plain() || !lifter.stated_max) return sessions;
  return std::max(sessions, sessions_until_attempt(lifter));
}

inline bool has_only_long_sets(const Lifter& lifter, Date date) {
  if (lifter.stated_max) return false;
  const auto counts = [&](const LoggedSet& set) {
    return set.lift.base().same_as(lifter.base.base()) && set.load > Mass{} &&
           date - set.date <= lifter.rules.stale_days;
  };
  const auto is_long = [&](const LoggedSet& set) {
    return set.reps.count() > lifter.rules.most_telling_retest;
  };
  Mass heaviest_long{};
  for (const LoggedSet& set : lifter.sets) {
    if (counts(set) && is_long(set)) heaviest_long = std::max(heaviest_long, set.load);
  }
  // Five unrated reps with the load of the long sets say no more than those.
  const auto is_telling = [&](const LoggedSet& set) {
    return counts(set) && !is_long(set) && reps_made(set) > 0 &&
           (set.reserve || set.load > heaviest_long) &&
           !is_warm_up(set, lifter.sets, lifter.rules.warm_up_below);
  };
  return std::none_of(lifter.sets.begin(), lifter.sets.end(), is_telling);
}

inline RefusalCode too_heavy(const Equipment& equipment) noexcept {
  if (equipment.is_stack()) return RefusalCode::stack_too_heavy;
  return equipment.is_dumbbells() ? RefusalCode::dumbbells_too_heavy
         : equipment.is_belt()    ? RefusalCode::body_too_heavy
                                  : RefusalCode::bar_too_heavy;
}

/// What is doubted is corrected, or said to be right.
inline void ask_for(Remedy correction, std::vector<Remedy>& remedies) {
  for (const Remedy each : {correction, Remedy::confirm_max}) {
    if (std::find(remedies.begin(), remedies.end(), each) == remedies.end()) {
      remedies.push_back(each);
    }
  }
}

inline void stop_for(Caution& doubt, std::vector<Remedy>& remedies) {
  doubt.severity = Severity::stop;
  ask_for(Remedy::correct_log, remedies);
}

inline void stop_for_log(Caution& doubt, std::vector<Remedy>& remedies) {
  doubt.key = "doubtful_log";
  stop_for(doubt, remedies);
}

/// Whether a set that fits was done on the day of one that does not, or after it.
inline bool has_sets_since(const Lifter& lifter, const SuspectSet& suspect) {
  return std::any_of(lifter.sets.begin(), lifter.sets.end(), [&](const LoggedSet& set) {
    return set.lift.base().same_as(lifter.base.base()) && !(set.date < suspect.set.date);
  });
}

/// Whether all that ever hung from the belt was about as heavy as the body, or heavier.
inline bool may_have_body_in_loads(const Lifter& lifter) {
  if (!lifter.body || lifter.stated_max) return false;
  bool has_loads = false;
  for (const LoggedSet& set : lifter.sets) {
    if (!set.lift.base().same_as(lifter.base.base())) continue;
    const Mass belt = set.load > *lifter.body ? set.load - *lifter.body : Mass{};
    if (belt < lifter.rules.body_in_belt * *lifter.body) return false;
    has_loads = true;
  }
  return has_loads;
}

inline void add_stops(std::vector<Caution>& cautions, std::vector<Remedy>& remedies,
                      const Lifter& lifter, Date date, const Answers& answers) {
  const bool is_max_confirmed = answers.is_max_confirmed;
  const auto check = lifter.stated_max ? lifter.stated_max->check : StatedMaxCheck::fits;
  if (check == StatedMaxCheck::above_log) {
    cautions.push_back(cautions::stated_max_above_log);
    remedies.push_back(Remedy::correct_max);
  } else if (check == StatedMaxCheck::doubtful && !is_max_confirmed) {
    cautions.push_back(cautions::doubtful_max);
    ask_for(Remedy::correct_max, remedies);
  } else if (check == StatedMaxCheck::above_bench_press && !is_max_confirmed) {
    cautions.push_back(cautions::press_above_bench_press);
    ask_for(Remedy::correct_max, remedies);
  }
  const bool is_beyond_most =
      lifter.learnt && lifter.learnt->sets_used > 0 && lifter.strength &&
      !lifter.base.base().is_machine &&  // sleds differ too much for a figure
      lifter.strength->max(lifter.base, date).median() > doubtful_max(lifter.base.base().family);
  if (check == StatedMaxCheck::fits && is_beyond_most && !is_max_confirmed) {
    cautions.push_back(cautions::doubtful_log_max);
    ask_for(Remedy::correct_log, remedies);
  }
  if (lifter.doubts.is_contradictory()) {
    // Where the lighter sets were left out, and too few others tell that this is right.
    const bool may_be_too_heavy =
        lifter.doubts.has_few_sets_left &&
        std::any_of(lifter.suspects.begin(), lifter.suspects.end(),
                    [](const SuspectSet& each) { return each.set.load < each.expected; });
    cautions.push_back(cautions::doubtful_log);
    if (may_be_too_heavy && !is_max_confirmed) stop_for_log(cautions.back(), remedies);
  }
  const auto is_light = [&](const SuspectSet& each) {
    return each.set.load < each.expected && date - each.set.date <= lifter.rules.layoff_days;
  };
  if (std::any_of(lifter.suspects.begin(), lifter.suspects.end(), is_light)) {
    cautions.push_back(cautions::light_set_left_out);
    // Where it is all that was done last, or a rep missed today, nothing but an opinion says that
    // it was a slip. Pain has a stop of its own.
    const bool may_be_true =
        std::any_of(lifter.suspects.begin(), lifter.suspects.end(), [&](const SuspectSet& each) {
          const bool is_missed_today = each.set.date == date && is_short(each.set);
          return is_light(each) && !each.set.has_pain && !each.set.is_unwell &&
                 (is_missed_today || (each.slip == Slip::unknown && !has_sets_since(lifter, each)));
        });
    if (may_be_true && !is_max_confirmed) stop_for(cautions.back(), remedies);
  }
  if (lifter.doubts.reads_like_rpe) cautions.push_back(cautions::reads_like_rpe);
  if (lifter.doubts.may_be_rpe) cautions.push_back(cautions::may_be_rpe);
  if (may_have_body_in_loads(lifter)) {
    cautions.push_back(cautions::body_in_loads);
    if (!is_max_confirmed) stop_for(cautions.back(), remedies);
  }
  if (last_may_be_missed(lifter, date)) cautions.push_back(cautions::may_be_missed);
  if (lifter.has_later_sets) cautions.push_back(cautions::later_sets);
  // Each is answered for itself: no pain today says nothing of being dizzy.
  const bool is_open = answers.unwell == Unwell::as_logged;
  if (answers.unwell == Unwell::yes || (is_open && last_unwell(lifter, date))) {
    cautions.push_back(cautions::unwell);
    remedies.push_back(Remedy::see_doctor);
  } else if (is_open && earlier_unwell(lifter, date)) {
    cautions.push_back(cautions::unwell_before);
  }
  const bool is_as_logged = answers.pain == Pain::as_logged;
  const bool hurts = answers.pain == Pain::yes || (is_as_logged && last_pain(lifter, date));
  if (hurts) {
    cautions.push_back(cautions::pain);
    remedies.push_back(Remedy::have_pain_seen);
  }
  if (is_as_logged && !hurts && earlier_pain(lifter, date)) {
    cautions.push_back(cautions::pain_before);
  }
  if (is_as_logged && !hurts && last_pain_elsewhere(lifter, date)) {
    cautions.push_back(cautions::pain_elsewhere);
  }
  if (is_as_logged && !hurts && last_may_hurt(lifter, date)) {
    cautions.push_back(cautions::may_hurt);
  }
}

inline void add_too_much_work(std::vector<Caution>& cautions, std::vector<Remedy>& remedies,
                              int reps, RepsInReserve reserve, const PlanningRules& rules) {
  const bool is_hard = reserve < RepsInReserve(1.0);
  if (reps <= (is_hard ? rules.most_hard_reps : rules.most_reps)) return;
  cautions.push_back(cautions::too_much_work);
  remedies.push_back(Remedy::do_less);
}

inline std::optional<RepsInReserve> add_cautions(std::vector<Caution>& cautions,
                                                 std::vector<Remedy>& remedies,
                                                 const SessionFacts& facts) {
  const CautionList list = cautions_for(facts);
  for (const Caution& caution : list) cautions.push_back(caution);
  if (!list.says_stop()) return std::nullopt;
  const std::size_t before = remedies.size();
  const auto add_if_lifted = [&](const SessionFacts& changed, Remedy remedy) {
    if (!cautions_for(changed).says_stop()) remedies.push_back(remedy);
  };
  SessionFacts changed = facts;
  changed.has_spotter = true;
  add_if_lifted(changed, Remedy::have_spotter);
  changed = facts;
  changed.safeties = Safeties::checked;
  add_if_lifted(changed, Remedy::check_safeties);
  changed = facts;
  if (const auto least = facts.least_alone()) {
    changed.reserve = std::max(facts.reserve, *least);
    add_if_lifted(changed, Remedy::keep_reserve);
  } else {
    changed.reps = Reps(facts.alone.longest_set);
    changed.reserve = std::max(facts.reserve, changed.least_alone().value_or(facts.reserve));
    add_if_lifted(changed, Remedy::do_shorter_sets);
  }
  const bool is_lifted_so =
      remedies.size() > before &&
      (remedies.back() == Remedy::keep_reserve || remedies.back() == Remedy::do_shorter_sets);
  if (remedies.size() == before) remedies.push_back(Remedy::train_it_first);
  if (!is_lifted_so) return std::nullopt;
  return changed.reserve;
}

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
