// examples/report/refusals.hpp - why there is no plan and no review, in a sentence
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// Why a power clean is not planned.
inline std::string no_rep_max_text(const bw::BaseLift& base) {
  return "A set of the " + std::string(base.name) +
         " ends when the bar slows, not when a rep fails: reps say nothing about the max, and no "
         "load is planned from them";
}

/// Why a pull-up is not planned without a body mass.
inline std::string no_body_mass_text(const bw::BaseLift& base) {
  return "The " + std::string(base.name) +
         " moves the body: say what the lifter weighs, as in --body \"80 kg\"";
}

/// Why there is no plan.
inline std::string to_text(const bw::Refusal& refusal, const bw::Lifter& lifter,
                           const bw::Lift& lift, bw::Date date, const About& about) {
  const std::string name(lift.base().name);
  const std::string state_it = ". State the max: --max \"100 kg\"";
  const auto mass = [&](bw::Mass load) { return bw::to_text(load, about.unit, 1).str(); };
  switch (refusal.code) {
    case bw::RefusalCode::no_strength:
      return "The log has no set of the " + name + " or a variation of it by this lifter before " +
             day(date) + but_for(lifter, about) + state_it;
    case bw::RefusalCode::log_too_old:
      return "The last set of the " + name + " or a variation of it was " +
             std::to_string(refusal.days) + " days before " + day(date) +
             ", too long to say how strong the lifter is now" + state_it;
    case bw::RefusalCode::bodyweight_lift:
      return lift.base().body_share
                 ? "A block is planned with a barbell; of the " + name +
                       ", plan each session on its own"
                 : "The " + name + " is done with bodyweight; there is no load to plan";
    case bw::RefusalCode::explosive_lift: return no_rep_max_text(lift.base());
    case bw::RefusalCode::bar_too_heavy:
      if (!lifter.stated_max && lifter.used.empty()) {
        return "The empty bar, " + load_text(refusal.lightest, about.unit) +
               " with collars, is too heavy for a first session, which starts with " +
               mass(refusal.wanted) +
               " at most. Use a lighter bar, as in --room \"gym_kg; bar 15 kg\", or dumbbells";
      }
      return "The empty bar, " + load_text(refusal.lightest, about.unit) +
             " with collars, is heavier than the plan's lightest load, " + mass(refusal.wanted) +
             (refusal.reps_with_lightest > 0
                  ? ". Do sets of " + std::to_string(refusal.reps_with_lightest) +
                        " with it, or use"
                  : ". Use") +
             " a lighter bar, as in --room \"gym_kg; bar 15 kg\", or dumbbells";
    case bw::RefusalCode::no_body_mass: return no_body_mass_text(lift.base());
    case bw::RefusalCode::body_too_heavy:
      return "What the " + name + " moves of the body, " + mass(refusal.lightest) +
             ", is more than the load to use, " + mass(refusal.wanted) +
             (refusal.reps_with_lightest > 0
                  ? ". Do sets of " + std::to_string(refusal.reps_with_lightest) +
                        " without a belt, or take "
                  : ". Take ") +
             mass(refusal.lightest - refusal.wanted) +
             " off with a band or an assisting machine, or use an easier lift: a pulldown for a "
             "pull-up, a push-up for a dip";
    case bw::RefusalCode::dumbbells_too_heavy:
      return "The lightest dumbbells, " + load_text(refusal.lightest, about.unit) +
             " together, are heavier than the load to use, " + mass(refusal.wanted);
    case bw::RefusalCode::stack_too_heavy:
      return "The first plate of the stack, " + load_text(refusal.lightest, about.unit) +
             ", is heavier than the load to use, " + mass(refusal.wanted);
    case bw::RefusalCode::no_bar_in_block:
      return "A block is planned with a barbell; with dumbbells or a stack, plan each session on "
             "its own";
    case bw::RefusalCode::log_goes_on:
      return "The log has sets after " + day(date) + ", the first on " + day(*refusal.date);
    case bw::RefusalCode::other_lift:
    case bw::RefusalCode::not_in_log:
    case bw::RefusalCode::too_few_days:
    case bw::RefusalCode::too_many_days: break;
  }
  return std::string(bw::name(refusal.code));
}

/// Why there is no review.
inline std::string to_text(const bw::Refusal& refusal, const bw::ReviewRequest& request,
                           const std::vector<bw::LoggedSet>& sets, const About& about) {
  const std::string name = request.lift.name().str();
  std::vector<std::string> variations;
  std::optional<bw::Date> last;
  for (const bw::LoggedSet& set : sets) {
    if (!set.lift.base().same_as(request.lift.base())) continue;
    if (!last || *last < set.date) last = set.date;
    const std::string known = set.lift.name().str();
    const bool is_listed =
        std::find(variations.begin(), variations.end(), known) != variations.end();
    if (!set.lift.is_plain() && !is_listed) variations.push_back(known);
  }
  const std::string in_log = variations.empty() ? "no variation" : bw::fields::one_of(variations);
  if (refusal.code == bw::RefusalCode::explosive_lift) {
    return no_rep_max_text(request.lift.base());
  }
  if (refusal.code == bw::RefusalCode::bodyweight_lift) {
    return "The " + name + " is done with bodyweight; its loads say nothing of strength";
  }
  if (refusal.code == bw::RefusalCode::no_body_mass) return no_body_mass_text(request.lift.base());
  if (refusal.code == bw::RefusalCode::not_in_log) {
    std::string suspects;
    if (last) suspects = but_for(bw::learn_lifter(sets, request.lift.base(), *last), about);
    return "The log has no set of the " + name + " by this lifter" + suspects + "; of the " +
           std::string(request.lift.base().name) + " it has: " + in_log;
  }
  return "A review needs two days of the " + name + "; the period asked for has " +
         std::to_string(refusal.days);
}

}  // namespace report
