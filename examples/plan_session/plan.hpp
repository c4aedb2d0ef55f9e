// examples/plan_session/plan.hpp - from the log and the question to a session
//
// How strong, by the strength model; what the change costs; what to load today; what to say about
// it. Everything a page needs to be printed is in a Plan; nothing is printed here.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "before_loads.hpp"
#include "lifter_model.hpp"
#include "plan_session/options.hpp"
#include "squad_log.hpp"
#include "stated_max.hpp"

namespace plan_session {

namespace bw = barwright;

using lifter_model::LastTime;
using lifter_model::lighter_after;
using lifter_model::long_away;
using lifter_model::Refusal;

/// The question, checked.
struct Question {
  std::string lifter{};  ///< empty without a log
  bw::Lift lift;
  bw::Date date;
  int sets = 3;
  bw::Reps reps;
  bw::RepsInReserve reserve{};
  double max_chance_of_missing = 0.05;  ///< of the last repetition of any work set
  bw::Room room;
  bw::Anchored<bw::AnyCurve> curve;
  std::optional<bw::Mass> stated_max{};
  int done = 0;  ///< sessions of the lift, if more than the log has
  bool has_spotter = false;
  bw::Safeties safeties = bw::Safeties::none;
  bool date_is_assumed = false;  ///< the day after the lifter's last set
};

/// One line of the session.
struct PlannedSet {
  bool is_work = false;
  int sets = 1;
  bw::Mass load{};
  bw::Reps reps{1};
  std::string loaded_with{};  ///< the plates of each side, or the dumbbells
  std::string change{};       ///< what to take off and put on to get there
};

/// The next heavier load that can be made.
struct StepUp {
  bw::Mass load{};
  std::string loaded_with{};  ///< the dumbbells; nothing for a bar
  bool is_short = false;      ///< no more than a tenth
};

/// A set, and the max it implies by itself.
struct BestSet {
  bw::LoggedSet set;
  bw::Mass max{};
};

/// The session.
struct Plan {
  Question question;
  lifter_model::Learnt learnt;
  bw::Mass base_max{};             ///< on the base lift, unmodified: the likeliest
  bw::Range<bw::Mass> expected{};  ///< on the lift, from the base lift and the catalogue
  int sets_of_lift = 0;            ///< of the log, by which its ratio was learnt
  int earlier_sessions = 0;
  std::optional<BestSet> last_best{};  ///< the best set of the base lift's last session
  std::optional<bw::Introduction> introduction{};
  std::vector<PlannedSet> sets{};
  bw::Mass wanted{};                         ///< the work load before it is made to fit the room
  bool is_bounded = false;                   ///< the chance of missing, not the reserve, decided
  std::vector<double> chances_of_missing{};  ///< the last repetition, of each work set
  bw::Range<double> left{};                  ///< repetitions left after the last work set, 90 %
  int days_away = 0;                         ///< since the last set of the lift in any variation
  bool is_held = false;                      ///< at the load of last time, where one was missed
  bool is_capped = false;                    ///< a tenth above last time
  bool room_is_too_light = false;            ///< its plates end below the load wanted
  std::optional<bw::Loading> top{};          ///< the loaded bar; nothing for dumbbells
  std::vector<before_loads::TooSoon> too_soon{};  ///< after sessions of the last days
  std::vector<bw::LoggedSet> today{};             ///< sets of this day, logged already
  std::optional<LastTime> last_time{};
  std::optional<StepUp> step_up{};  ///< nothing where today's load is the heaviest there is
  bw::CautionList cautions{};
  std::vector<std::string> ways_on{};  ///< what would lift a stop
  before_loads::MaxCheck max_check{};  ///< of a stated max

  [[nodiscard]] bool says_stop() const { return max_check.is_refused || cautions.says_stop(); }
};

// ---- how strong

/// The best set of the last session of the plain lift, by the curve alone.
inline std::optional<BestSet> last_best(const Question& asked,
                                        const std::vector<bw::LoggedSet>& log) {
  std::optional<BestSet> best;
  for (const bw::LoggedSet& set : log) {
    const bool is_recent = asked.date - set.date < lifter_model::usual_days;
    if (!set.lift.same_as(asked.lift.base()) || !is_recent) continue;
    if (set.outcome == bw::Outcome::missed) continue;
    const auto max = bw::one_rep_max(asked.curve, set);
    if (!max) continue;
    const bool is_newer = !best || set.date > best->set.date;
    if (is_newer || (set.date == best->set.date && *max > best->max)) best = {set, *max};
  }
  return best;
}

// ---- what to load

/// The plates of one side as they are put on: "20 + 5 + 1.25".
inline std::string plates_text(const bw::Loading& loading) {
  std::string text;
  for (const bw::MarkedMass plate : loading.plates()) {
    if (!text.empty()) text += " + ";
    text += bw::Text{}.append(plate.value()).str();
    if (plate.unit() != loading.bar().mass.unit()) {
      text += " " + std::string(bw::to_text(plate.unit()));
    }
  }
  return text.empty() ? "empty bar" : text;
}

/// "1 off, 2 on", or nothing.
inline std::string change_text(const bw::RampStep& step) {
  std::string text;
  if (step.taken_off > 0) text = std::to_string(step.taken_off) + " off";
  if (step.taken_off > 0 && step.put_on > 0) text += ", ";
  if (step.put_on > 0) text += std::to_string(step.put_on) + " on";
  return text;
}

/// Warm-up and work sets on a bar.
inline void load_bar(Plan& plan, bw::Mass wanted, bw::Reps reps, int sets) {
  const bw::Room& room = plan.question.room;
  const bw::Unit unit = room.bar().mass.unit();
  const auto work = room.at_most(wanted);
  if (!work) {
    throw Refusal{"The empty bar, " + bw::to_text(room.empty_bar().total(), unit).str() +
                  " with its collars, is heavier than the load for today, " +
                  bw::to_text(wanted, unit, 1).str() +
                  ". Use a lighter bar, as in --room \"gym_kg; bar 15 kg\", or dumbbells"};
  }
  plan.room_is_too_light = !room.at_least(wanted);
  std::vector<bw::Mass> loads;
  std::vector<bw::Reps> all_reps;
  const bool is_pulled = plan.question.lift.base().family == bw::LiftFamily::deadlift;
  for (const bw::WarmUpSet& set :
       bw::warm_up(room.empty_bar().total(), work->total(), reps,
                   is_pulled ? bw::BarStart::floor : bw::BarStart::rack,
                   [&](bw::Mass load) { return room.nearest(load).total(); })) {
    loads.push_back(set.load);
    all_reps.push_back(set.reps);
  }
  loads.push_back(work->total());
  all_reps.push_back(reps);
  const bw::Ramp ramp = bw::practical_ramp(room, loads, bw::warm_up_leeway);
  for (std::size_t i = 0; i < ramp.steps.size(); ++i) {
    const bool is_work = i + 1 == ramp.steps.size();
    plan.sets.push_back({.is_work = is_work,
                         .sets = is_work ? sets : 1,
                         .load = ramp.steps[i].loading.total(),
                         .reps = all_reps[i],
                         .loaded_with = plates_text(ramp.steps[i].loading),
                         .change = change_text(ramp.steps[i])});
  }
  plan.top = ramp.steps.back().loading;
}

inline bool uses_dumbbells(const bw::Lift& lift) {
  return lift.has(bw::modifiers::dumbbells) || lift.has(bw::modifiers::overhead_dumbbells);
}

/// A usual rack of dumbbells, in the room's unit.
inline bw::FixedLoads dumbbell_rack(bw::Unit unit) {
  return unit == bw::Unit::kg ? bw::dumbbells(2.5, 60.0, 2.5, unit)
                              : bw::dumbbells(5.0, 130.0, 5.0, unit);
}

/// Warm-up and work sets with two dumbbells; a load is both of them together.
inline void load_dumbbells(Plan& plan, bw::Mass wanted, bw::Reps reps, int sets) {
  const bw::Unit unit = plan.question.room.bar().mass.unit();
  const bw::FixedLoads rack = dumbbell_rack(unit);
  const auto work = rack.at_most(wanted / 2.0);
  if (!work) throw Refusal{"The lightest dumbbells are heavier than the load for today"};
  plan.room_is_too_light = !rack.at_least(wanted / 2.0);
  const bw::Mass lightest = rack.nearest(0.3 * work->mass()).mass();  // in place of an empty bar
  const auto add = [&](bw::MarkedMass each, bw::Reps count, bool is_work) {
    plan.sets.push_back({.is_work = is_work,
                         .sets = is_work ? sets : 1,
                         .load = 2.0 * each.mass(),
                         .reps = count,
                         .loaded_with = "2 x " + bw::to_text(each).str()});
  };
  bw::MarkedMass before;
  for (const bw::WarmUpSet& set : bw::warm_up(lightest, work->mass(), reps)) {
    const bw::MarkedMass each = rack.nearest(set.load);
    if (each >= *work || each <= before) continue;
    add(each, set.reps, false);
    before = each;
  }
  add(*work, reps, true);
}

/// The heaviest load for today's lift that is no heavier than this; nothing where all are.
inline std::optional<bw::Mass> loadable(const Question& asked, bw::Mass wanted) {
  if (uses_dumbbells(asked.lift)) {
    const auto each = dumbbell_rack(asked.room.bar().mass.unit()).at_most(wanted / 2.0);
    if (!each) return std::nullopt;
    return 2.0 * each->mass();
  }
  const auto loading = asked.room.at_most(wanted);
  if (!loading) return std::nullopt;
  return loading->total();
}

/// The most after a session with this load (ACSM 2009).
inline bw::Mass tenth_above(bw::Mass load) { return 1.10 * load; }

/// What comes after today's load: 2.5 % more, or the next that the room has.
inline std::optional<StepUp> step_up(const Question& asked, bw::Mass work) {
  constexpr double just_above = 1.0 + bw::detail::on_the_load;
  if (uses_dumbbells(asked.lift)) {
    const auto each =
        dumbbell_rack(asked.room.bar().mass.unit()).at_least(just_above * (work / 2.0));
    if (!each) return std::nullopt;
    const bw::Mass both = 2.0 * each->mass();
    return StepUp{.load = both,
                  .loaded_with = "2 x " + bw::to_text(*each).str(),
                  .is_short = both <= just_above * tenth_above(work)};
  }
  const auto raised = bw::raised(work, 0.025, asked.room);
  const auto next = raised ? raised : asked.room.at_least(just_above * work);
  if (!next) return std::nullopt;
  return StepUp{.load = next->total(), .is_short = raised.has_value()};
}

// ---- what the last session says

/// The set, as the progression rules take it: repetitions beyond the plan are those done and left
/// over those asked for and to be left.
inline bw::LastSet as_last_set(const bw::LoggedSet& set, bw::Reps reps, bw::RepsInReserve reserve) {
  const double to_failure = bw::reps_to_failure(set).value_or(set.reps.count() + reserve.count());
  const int done = std::clamp(static_cast<int>(to_failure - reserve.count()), 1, bw::Reps::most);
  return {.planned = reps, .done = bw::Reps(done), .missed = set.outcome == bw::Outcome::missed};
}

inline void look_back(Plan& plan, const std::vector<bw::LoggedSet>& log) {
  const Question& asked = plan.question;
  auto ends = lifter_model::ends_of_sessions(log, asked.lift, asked.date);
  if (ends.empty()) return;
  plan.last_time = ends.back();
  if (ends.size() < 2) return;
  const bw::LoggedSet& previous = ends[ends.size() - 2].set;
  plan.last_time->goes_twice =
      previous.load >= plan.last_time->set.load &&
      bw::two_for_two(as_last_set(previous, asked.reps, asked.reserve),
                      as_last_set(plan.last_time->set, asked.reps, asked.reserve));
}

// ---- what must be said

inline void find_cautions(Plan& plan, bw::Reps reps, bw::RepsInReserve reserve) {
  const Question& asked = plan.question;
  const bw::SessionFacts facts{.lift = asked.lift,
                               .reps = reps,
                               .reserve = reserve,
                               .has_spotter = asked.has_spotter,
                               .safeties = asked.safeties,
                               .earlier_sessions = plan.earlier_sessions,
                               .is_max_attempt = bw::is_max_attempt(reps, reserve)};
  plan.cautions = bw::cautions_for(facts);
  if (plan.cautions.says_stop()) plan.ways_on = before_loads::ways_on(facts, "--reserve");
}

// ---- the session

inline Plan make_plan(const Question& question, const std::vector<squad_log::Entry>& entries) {
  if (question.lift.base().is_bodyweight) {
    throw Refusal{"The " + std::string(question.lift.base().name) +
                  " moves the body, not a bar; no load is planned for it"};
  }
  Plan plan{
      .question = question,
      .learnt = lifter_model::learn_strength(question.lift, question.curve, question.stated_max,
                                             entries, question.date, question.done)};
  if (bw::is_max_attempt(question.reps, question.reserve)) plan.question.sets = 1;
  const Question& asked = plan.question;
  const bw::StrengthFit& fit = plan.learnt.fit;
  const std::vector<bw::LoggedSet>& log = plan.learnt.sets;
  plan.days_away = lifter_model::days_away(log, asked.lift.base(), asked.date);
  if (asked.stated_max) {
    plan.max_check = before_loads::check_max(
        *asked.stated_max, asked.lift.base(),
        lifter_model::max_by_log(asked.lift.base(), asked.curve, entries, asked.date),
        asked.room.bar().mass.unit());
    if (plan.max_check.is_refused) {
      plan.ways_on.emplace_back("correct --max, or leave it out: then the log says how strong");
      return plan;
    }
  } else {
    lifter_model::require_strength(plan.learnt, asked.lift.base(), plan.days_away, asked.date);
  }
  plan.base_max =
      asked.stated_max ? *asked.stated_max : fit.max(asked.lift.base(), asked.date).median();
  plan.expected = asked.lift.max_from(plan.base_max);
  const std::vector<bw::LoggedSet>& used = plan.learnt.used;
  plan.sets_of_lift =
      static_cast<int>(std::count_if(used.begin(), used.end(), [&](const bw::LoggedSet& set) {
        return set.lift.same_as(asked.lift);
      }));
  if (!asked.stated_max) plan.last_best = last_best(asked, log);
  plan.earlier_sessions = std::max(bw::sessions_of(log, asked.lift, asked.date - 1), asked.done);
  if (!asked.lift.is_plain()) {
    const bw::Introduction introduction =
        bw::introduce(asked.curve, asked.lift, plan.base_max, asked.reps, asked.reserve);
    if (static_cast<std::size_t>(plan.earlier_sessions) < introduction.size()) {
      plan.introduction = introduction;
    }
  } else if (asked.stated_max) {
    // Somebody who knows the max has done the lift, in the log or not.
    plan.earlier_sessions = std::max(plan.earlier_sessions, 4);
  }
  look_back(plan, log);
  std::copy_if(log.begin(), log.end(), std::back_inserter(plan.today),
               [&](const bw::LoggedSet& set) { return set.date == asked.date; });
  const auto done_today = static_cast<int>(
      std::count_if(plan.today.begin(), plan.today.end(),
                    [&](const bw::LoggedSet& set) { return set.lift.same_as(asked.lift); }));

  bw::Reps reps = asked.reps;
  bw::RepsInReserve reserve = asked.reserve;
  int sets = asked.sets;
  if (plan.introduction) {
    const bw::Exposure& today =
        (*plan.introduction)[static_cast<std::size_t>(plan.earlier_sessions)];
    reps = today.reps;
    reserve = today.least_reserve;
    sets = today.sets;
  }
  // The last work set decides: it is the hardest.
  const auto load_for = [&](bw::Reps count, bw::RepsInReserve left, int work_sets, double bound) {
    return fit.load_for(
        asked.lift, count, left, asked.date,
        {.max_chance_of_missing = bound, .earlier_sets = done_today + work_sets - 1});
  };
  const auto bounded_load = [&](bw::Reps count, bw::RepsInReserve left, int work_sets) {
    return load_for(count, left, work_sets, asked.max_chance_of_missing);
  };
  const bw::BoundedLoad bounded = bounded_load(reps, reserve, sets);
  bw::Mass wanted = bounded.load;
  plan.is_bounded = bounded.is_bounded;
  if (plan.introduction) {
    const bw::Mass introduced =
        (*plan.introduction)[static_cast<std::size_t>(plan.earlier_sessions)].load;
    if (introduced < wanted) {
      wanted = introduced;
      plan.is_bounded = false;
    }
    // An introduction goes no higher than the work it leads to.
    wanted = std::min(wanted, bounded_load(asked.reps, asked.reserve, asked.sets).load);
  } else {
    if (plan.days_away > long_away) {
      wanted = bw::back_off(wanted, lighter_after);
      plan.is_bounded = false;
    }
    if (plan.last_time && plan.last_time->has_miss && reps >= plan.last_time->set.reps &&
        wanted > plan.last_time->set.load) {
      wanted = plan.last_time->set.load;
      plan.is_held = true;
      plan.is_bounded = false;
    }
  }
  const bool has_fewer_reps = plan.last_time && reps < plan.last_time->set.reps;
  // What limits the load is a reason only where the room lets it make a difference.
  const auto makes_lighter = [&](bw::Mass limit, bw::Mass load) {
    return loadable(asked, limit) < loadable(asked, load);
  };
  if (plan.last_time && !has_fewer_reps) {
    const bw::Mass most = tenth_above(plan.last_time->set.load);
    if (wanted > most && makes_lighter(most, wanted)) {
      wanted = most;
      plan.is_capped = true;
      plan.is_bounded = false;
    }
  }
  if (plan.is_bounded) {
    const bw::Mass by_reserve = load_for(reps, reserve, sets, lifter_model::no_bound).load;
    if (!makes_lighter(wanted, by_reserve)) {
      wanted = by_reserve;
      plan.is_bounded = false;
    }
  }
  plan.wanted = wanted;
  if (uses_dumbbells(asked.lift)) {
    load_dumbbells(plan, wanted, reps, sets);
  } else {
    load_bar(plan, wanted, reps, sets);
  }
  const bw::Mass work = plan.sets.back().load;
  for (int earlier = 0; earlier < sets; ++earlier) {
    plan.chances_of_missing.push_back(
        fit.chance_of_missing(asked.lift, work, reps, asked.date, done_today + earlier));
  }
  plan.left =
      lifter_model::reserve_left(fit, asked.lift, work, reps, asked.date, done_today + sets - 1);
  plan.step_up = step_up(asked, work);
  plan.too_soon = before_loads::too_soon(
      log, {.lift = asked.lift, .sets = bw::Sets(sets), .reps = reps, .reserve = reserve},
      asked.date);
  find_cautions(plan, reps, reserve);
  return plan;
}

}  // namespace plan_session
