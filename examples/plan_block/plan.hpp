// examples/plan_block/plan.hpp - from the log and the question to a block
//
// How strong, by the strength model or as stated; the block; how likely each set is to miss; what
// to say about it. Everything a page needs to be printed is in a Plan; nothing is printed here.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "before_loads.hpp"
#include "lifter_model.hpp"
#include "plan_block/question.hpp"
#include "squad_log.hpp"
#include "stated_max.hpp"

namespace plan_block {

namespace bw = barwright;
using lifter_model::Refusal;

/// The curve that maxes are read by, and that stands for the plain lift.
inline constexpr auto& curve = bw::equations::wathen;

/// The block.
struct Plan {
  Question question;
  lifter_model::Learnt learnt;
  bw::Range<bw::Mass> base_max{bw::Mass{}, bw::Mass{}, bw::Mass{}};
  bw::Range<bw::Mass> max{bw::Mass{}, bw::Mass{}, bw::Mass{}};  ///< on the lift of the block
  bw::Block block{};
  std::vector<double> chances_of_missing{};  ///< of each step, in its last set
  std::vector<bool> is_bounded{};  ///< by that chance, not by the reserve: the load of each step
  std::vector<double> left{};  ///< repetitions likely to be left after the last set of each step
  int earlier_sessions = 0;    ///< of the lift, by the log or as said
  int days_away = 0;           ///< from the last set of the lift in any variation to the start
  std::optional<lifter_model::LastTime> last_time{};
  bool has_no_retest = false;                     ///< the room cannot load one that says anything
  std::vector<before_loads::TooSoon> too_soon{};  ///< the first session after the log
  std::vector<before_loads::TooSoon> too_soon_in{};  ///< a session of the block after another
  before_loads::MaxCheck max_check{};
  bw::CautionList cautions{};
  std::vector<std::string> ways_on{};  ///< what would lift a stop

  [[nodiscard]] bool says_stop() const { return max_check.is_refused || cautions.says_stop(); }
  [[nodiscard]] bool has_stage(bw::Stage stage) const {
    return std::any_of(block.steps.begin(), block.steps.end(),
                       [&](const bw::BlockStep& step) { return step.plan.stage == stage; });
  }
};

/// The day of a session: those of one week as far apart as can be.
inline bw::Date day_of(const Question& asked, const bw::StepPlan& plan) {
  return asked.start +
         (7 * (plan.week - 1) + 7 * (plan.session - 1) / asked.settings.sessions_a_week);
}

/// What of the log bears on the block: how often the lift was done, and how heavy last.
inline void look_back(Plan& plan, const std::vector<bw::LoggedSet>& sets) {
  const Question& asked = plan.question;
  bw::BlockSettings& settings = plan.question.settings;
  settings.earlier_sessions =
      std::max(settings.earlier_sessions, bw::sessions_of(sets, asked.lift, asked.start));
  plan.earlier_sessions = settings.earlier_sessions;
  const auto ends = lifter_model::ends_of_sessions(sets, asked.lift, asked.start);
  if (ends.empty()) return;
  plan.last_time = ends.back();
  settings.last_load = ends.back().set.load;
}

/// As in plan_session, only variations are introduced: where the log or a stated max says how
/// strong the lifter is on the plain lift, the lift is not new to them, however short the log.
inline void introduce_no_plain_lift(Question& asked) {
  if (!asked.lift.is_plain()) return;
  asked.settings.earlier_sessions =
      std::max(asked.settings.earlier_sessions, static_cast<int>(bw::Introduction::most));
}

/// What a session may have on the bar by the model, and how sure that is.
class LoadByModel {
 public:
  explicit LoadByModel(const Plan& plan) : plan_(plan), fit_(plan.learnt.fit) {}

  /// The first work after a gap is lighter, and no heavier than a load that was missed last, as in
  /// plan_session. The load of an earlier session that left as much is kept where a forecast for a
  /// later day would take some off, as long as it is within the bound.
  bw::Mass operator()(const bw::StepPlan& step) {
    const Question& asked = plan_.question;
    bw::Mass load = load_for(step, asked.max_chance_of_missing);
    for (const auto& [earlier, kept] : earlier_) {
      if (earlier.exposure < step.exposure && earlier.sets >= step.sets &&
          earlier.reps >= step.reps && earlier.reserve >= step.reserve && kept > load &&
          chance_of_missing(step, kept) <= asked.max_chance_of_missing) {
        load = kept;
      }
    }
    const bool is_first = step.exposure == asked.settings.earlier_sessions + 1;
    if (is_first && step.stage == bw::Stage::working) {
      if (plan_.days_away > lifter_model::long_away) {
        load = bw::back_off(load, lifter_model::lighter_after);
      }
      if (plan_.last_time && plan_.last_time->has_miss && step.reps >= plan_.last_time->set.reps) {
        load = std::min(load, plan_.last_time->set.load);
      }
    }
    earlier_.emplace_back(step, load);
    return load;
  }
  [[nodiscard]] double chance_of_missing(const bw::StepPlan& step, bw::Mass load) const {
    return fit_.chance_of_missing(plan_.question.lift, load, step.reps,
                                  day_of(plan_.question, step), step.sets - 1);
  }
  /// Whether it is the bound on the chance of missing, and nothing else, that keeps a heavier load
  /// off the bar.
  [[nodiscard]] bool is_bounded(const bw::BlockStep& step) const {
    if (step.limit != bw::Limit::none && step.limit != bw::Limit::fall) return false;
    const Question& asked = plan_.question;
    if (step.wanted < load_for(step.plan, asked.max_chance_of_missing)) return false;
    const auto by_reserve = asked.room.at_most(load_for(step.plan, lifter_model::no_bound));
    return by_reserve && by_reserve->total() > step.loading.total();
  }

 private:
  [[nodiscard]] bw::Mass load_for(const bw::StepPlan& step, double max_chance_of_missing) const {
    const Question& asked = plan_.question;
    return fit_
        .load_for(asked.lift, step.reps, step.reserve, day_of(asked, step),
                  {.max_chance_of_missing = max_chance_of_missing, .earlier_sets = step.sets - 1})
        .load;
  }

  const Plan& plan_;
  const bw::StrengthFit& fit_;
  std::vector<std::pair<bw::StepPlan, bw::Mass>> earlier_{};
};

/// How strong, by the model of the lifter's log or as stated.
inline void find_strength(Plan& plan) {
  const Question& asked = plan.question;
  const bw::BaseLift& base = asked.lift.base();
  const bw::StrengthFit& fit = plan.learnt.fit;
  plan.days_away = lifter_model::days_away(plan.learnt.sets, base, asked.start);
  if (!asked.stated_max) {
    lifter_model::require_strength(plan.learnt, base, plan.days_away, asked.start);
  }
  plan.base_max = asked.stated_max ? bw::Range<bw::Mass>::exactly(*asked.stated_max)
                                   : fit.max(base, asked.start).interval();
  plan.max = fit.max(asked.lift, asked.start).interval();
}

/// The sessions, and what each is likely to leave and to miss.
inline void plan_steps(Plan& plan) {
  Question& asked = plan.question;
  look_back(plan, plan.learnt.sets);
  introduce_no_plain_lift(asked);
  // Somebody who knows the max has done the lift, in the log or not.
  if (asked.stated_max) plan.earlier_sessions = asked.settings.earlier_sessions;
  std::optional<bw::Introduction> introduction = bw::introduce(
      curve, asked.lift, plan.base_max.typical, asked.settings.reps, asked.settings.first_reserve);
  if (static_cast<std::size_t>(asked.settings.earlier_sessions) >= introduction->size()) {
    introduction.reset();
  }
  // The last set of a session is the one that has to leave the reserve.
  LoadByModel by_model(plan);
  plan.block = bw::plan_block(asked.room, asked.settings, introduction, by_model);
  for (const bw::BlockStep& step : plan.block.steps) {
    plan.chances_of_missing.push_back(by_model.chance_of_missing(step.plan, step.loading.total()));
    plan.is_bounded.push_back(by_model.is_bounded(step));
    plan.left.push_back(lifter_model::reserve_left(plan.learnt.fit, asked.lift,
                                                   step.loading.total(), step.plan.reps,
                                                   day_of(asked, step.plan), step.plan.sets - 1)
                            .typical);
  }
}

/// Leaves out a retest of so many repetitions that it says little about a max.
inline void judge_retest(Plan& plan) {
  constexpr double most_telling = 12.0;  // beyond, ratings are off by 3 and more (Halperin 2022)
  const bw::StepPlan& last = plan.block.steps.back().plan;
  if (!last.to_reserve) return;
  if (plan.left.back() + last.reps.count() - last.reserve.count() <= most_telling) return;
  plan.has_no_retest = true;
  plan.block.steps.pop_back();
  plan.left.pop_back();
  plan.chances_of_missing.pop_back();
  plan.is_bounded.pop_back();
}

/// What comes too soon: the first session after the log, and sessions of the block after others.
inline void judge_spacing(Plan& plan, const std::vector<squad_log::Entry>& entries) {
  const Question& asked = plan.question;
  const auto planned = [&](const bw::StepPlan& step) {
    return bw::PlannedLift{.lift = asked.lift,
                           .sets = bw::Sets(step.sets),
                           .reps = step.reps,
                           .reserve = step.reserve};
  };
  std::vector<bw::LoggedSet> log;
  for (const squad_log::Entry& entry : entries) log.push_back(entry.set);
  plan.too_soon = before_loads::too_soon(log, planned(plan.block.steps.front().plan), asked.start);
  log.clear();
  for (const bw::BlockStep& step : plan.block.steps) {
    const bw::Date day = day_of(asked, step.plan);
    const auto found = before_loads::too_soon(log, planned(step.plan), day);
    if (plan.too_soon_in.empty()) plan.too_soon_in = found;
    log.push_back({.date = day,
                   .lift = asked.lift,
                   .load = step.loading.total(),
                   .reps = step.plan.reps,
                   .reserve = bw::Range<bw::RepsInReserve>::exactly(step.plan.reserve)});
  }
}

inline void find_cautions(Plan& plan) {
  const Question& asked = plan.question;
  const auto hardest = std::min_element(
      plan.block.steps.begin(), plan.block.steps.end(),
      [](const auto& a, const auto& b) { return a.plan.reserve < b.plan.reserve; });
  const bw::SessionFacts facts{.lift = asked.lift,
                               .reps = hardest->plan.reps,
                               .reserve = hardest->plan.reserve,
                               .has_spotter = asked.has_spotter,
                               .safeties = asked.safeties,
                               .earlier_sessions = plan.earlier_sessions};
  plan.cautions = bw::cautions_for(facts);
  if (plan.cautions.says_stop()) plan.ways_on = before_loads::ways_on(facts, "--last-reserve");
}

/// @param entries  the lifter's, up to the first day
inline Plan make_plan(const Question& question, const std::vector<squad_log::Entry>& entries) {
  const bw::Lift& lift = question.lift;
  if (lift.base().is_bodyweight) {
    throw Refusal{"The " + std::string(lift.base().name) +
                  " moves the body, not a bar; no block is planned for it"};
  }
  if (lift.has(bw::modifiers::dumbbells) || lift.has(bw::modifiers::overhead_dumbbells)) {
    throw Refusal{"A block is loaded on a bar; with dumbbells, plan each session by itself"};
  }
  Plan plan{
      .question = question,
      .learnt = lifter_model::learn_strength(lift, curve, question.stated_max, entries,
                                             question.start, question.settings.earlier_sessions)};
  find_strength(plan);
  try {
    if (question.stated_max) {
      plan.max_check = before_loads::check_max(
          *question.stated_max, lift.base(),
          lifter_model::max_by_log(lift.base(), curve, entries, question.start),
          question.room.bar().mass.unit());
    }
    if (!plan.max_check.is_refused) plan_steps(plan);
  } catch (const bw::DomainError& error) {
    if (error.code() != bw::ErrorCode::below_empty_bar) throw;
    throw Refusal{std::string(error.what()) +
                  ". Use a lighter bar, as in --room \"gym_kg; bar 15 kg\""};
  }
  if (plan.max_check.is_refused) {
    plan.ways_on.emplace_back("correct --max, or leave it out: then the log says how strong");
    return plan;
  }
  judge_retest(plan);
  judge_spacing(plan, entries);
  find_cautions(plan);
  return plan;
}

}  // namespace plan_block
