// examples/plan_block/plan.hpp - from the log and the question to a block
//
// How strong, by the strength model or as stated; the block; how likely each set is to miss; what
// to say about it. Everything a page needs to be printed is in a Plan; nothing is printed here.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/strength_model.hpp"
#include "lifter_model.hpp"
#include "plan_block/question.hpp"
#include "squad_log.hpp"

namespace plan_block {

namespace bw = barwright;
using lifter_model::Refusal;

/// The curve that maxes are read by, and that stands for the plain lift.
inline constexpr auto& curve = bw::equations::wathen;

/// The block.
struct Plan {
  Question question;
  std::optional<lifter_model::Learnt> learnt{};  ///< nothing where the max was stated
  bw::Range<bw::Mass> base_max{bw::Mass{}, bw::Mass{}, bw::Mass{}};
  bw::Range<bw::Mass> max{bw::Mass{}, bw::Mass{}, bw::Mass{}};  ///< on the lift of the block
  bw::Block block{};
  std::vector<std::optional<double>> chances_of_missing{};  ///< of each step, where known
  bw::CautionList cautions{};
  std::vector<std::string> ways_on{};  ///< what would lift a stop

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
inline void look_back(bw::BlockSettings& settings, const bw::Lift& lift, bw::Date start,
                      const std::vector<bw::LoggedSet>& sets) {
  settings.earlier_sessions =
      std::max(settings.earlier_sessions, bw::sessions_of(sets, lift, start));
  std::optional<bw::Date> last;
  for (const bw::LoggedSet& set : sets) {
    if (set.lift != lift || (last && set.date < *last)) continue;
    if (!last || set.date > *last) settings.last_load.reset();
    last = set.date;
    if (!settings.last_load || set.load > *settings.last_load) settings.last_load = set.load;
  }
}

/// By the model of the lifter's log.
inline void plan_from_log(Plan& plan, const std::vector<squad_log::Entry>& entries) {
  Question& asked = plan.question;
  std::vector<bw::LoggedSet> sets;
  for (const squad_log::Entry& entry : entries) sets.push_back(entry.set);
  const bw::BaseLift& base = asked.lift.base();
  if (std::none_of(sets.begin(), sets.end(),
                   [&](const bw::LoggedSet& set) { return set.lift.base() == base; })) {
    throw Refusal{"The log has no set of the " + std::string(base.name) +
                  " by this lifter, nor of a variation of it. State the max: --max \"100 kg\""};
  }
  bw::StrengthSettings settings = lifter_model::settings_for(base, curve, sets);
  if (!asked.lift.is_plain() && bw::sessions_of(sets, asked.lift, asked.start) == 0) {
    settings.new_lifts.push_back(asked.lift);
  }
  plan.learnt = lifter_model::learn(settings, entries);
  const bw::StrengthFit& fit = plan.learnt->fit;
  look_back(asked.settings, asked.lift, asked.start, plan.learnt->sets);
  plan.base_max = fit.max(base, asked.start).interval();
  plan.max = fit.max(asked.lift, asked.start).interval();

  std::optional<bw::Introduction> introduction = bw::introduce(
      curve, asked.lift, plan.base_max.typical, asked.settings.reps, asked.settings.first_reserve);
  if (static_cast<std::size_t>(asked.settings.earlier_sessions) >= introduction->size()) {
    introduction.reset();
  }
  // The last set of a session is the one that has to leave the reserve.
  plan.block = bw::plan_block(asked.room, asked.settings, introduction, [&](const bw::StepPlan& p) {
    return fit
        .load_for(
            asked.lift, p.reps, p.reserve, day_of(asked, p),
            {.max_chance_of_missing = asked.max_chance_of_missing, .earlier_sets = p.sets - 1})
        .load;
  });
  for (const bw::BlockStep& step : plan.block.steps) {
    plan.chances_of_missing.emplace_back(
        fit.chance_of_missing(asked.lift, step.loading.total(), step.plan.reps,
                              day_of(asked, step.plan), step.plan.sets - 1));
  }
}

/// By a stated max and what the catalogue says of the lift.
inline void plan_from_max(Plan& plan, const std::vector<squad_log::Entry>& entries) {
  Question& asked = plan.question;
  std::vector<bw::LoggedSet> sets;
  for (const squad_log::Entry& entry : entries) sets.push_back(entry.set);
  look_back(asked.settings, asked.lift, asked.start, sets);
  if (asked.lift.is_plain()) {
    // Somebody who knows the max has done the lift, in the log or not.
    asked.settings.earlier_sessions = std::max(asked.settings.earlier_sessions, 6);
  }
  plan.base_max = bw::Range<bw::Mass>::exactly(*asked.stated_max);
  plan.max = asked.lift.max_from(*asked.stated_max);
  plan.block = bw::plan_block(asked.room, asked.settings, curve, asked.lift, *asked.stated_max);
  plan.chances_of_missing.resize(plan.block.steps.size());
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
                               .earlier_sessions = asked.settings.earlier_sessions};
  plan.cautions = bw::cautions_for(facts);
  if (!plan.cautions.says_stop()) return;
  // What, changed alone, would lift the stop?
  const auto lifts = [](const bw::SessionFacts& changed) {
    return !bw::cautions_for(changed).says_stop();
  };
  bw::SessionFacts changed = facts;
  changed.has_spotter = true;
  if (lifts(changed)) plan.ways_on.emplace_back("have a spotter stand by, and say --spotter");
  changed = facts;
  changed.safeties = bw::Safeties::checked;
  if (lifts(changed)) {
    plan.ways_on.emplace_back(
        "set the safeties, lower the empty bar on to them lying as in the set, see that neck and "
        "chest stay free, and say --safeties checked");
  }
  changed = facts;
  changed.reserve = bw::RepsInReserve(2.0);
  if (lifts(changed)) plan.ways_on.emplace_back("keep 2 or more in reserve: --last-reserve 2");
}

/// @param entries  the lifter's, up to the first day
inline Plan make_plan(const Question& question, const std::vector<squad_log::Entry>& entries) {
  Plan plan{.question = question};
  const bw::Lift& lift = question.lift;
  if (lift.base().is_bodyweight) {
    throw Refusal{"The " + std::string(lift.base().name) +
                  " moves the body, not a bar; no block is planned for it"};
  }
  if (lift.has(bw::modifiers::dumbbells) || lift.has(bw::modifiers::overhead_dumbbells)) {
    throw Refusal{"A block is loaded on a bar; with dumbbells, plan each session by itself"};
  }
  try {
    if (question.stated_max) {
      plan_from_max(plan, entries);
    } else {
      plan_from_log(plan, entries);
    }
  } catch (const bw::DomainError& error) {
    const std::string text = error.what();
    if (text.find("empty bar") == std::string::npos) throw;
    throw Refusal{text + ". Use a lighter bar, as in --room \"gym_kg; bar 15 kg\""};
  }
  find_cautions(plan);
  return plan;
}

}  // namespace plan_block
