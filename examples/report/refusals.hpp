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

/// What to type so that there is a plan after all; empty where nothing would do.
inline std::string way_out(bw::RefusalCode code, const bw::Lift& lift) {
  switch (code) {
    case bw::RefusalCode::no_strength:
      return ". State the max: --max \"100 kg\"; or plan a beginner's first session, up by feel: "
             "plan_session --beginner";
    case bw::RefusalCode::log_too_old: return ". State the max: --max \"100 kg\"";
    case bw::RefusalCode::bar_too_heavy: return ": --room \"gym_kg; bar 15 kg\"";
    case bw::RefusalCode::no_body_mass: return ": --body \"80 kg\"";
    case bw::RefusalCode::bodyweight_lift:
      return lift.base().body_share
                 ? " for weeks ahead; plan each session on its own, with plan_session"
                 : "";
    default: return "";
  }
}

/// Why there is no plan.
inline std::string to_text(const bw::Refusal& refusal, const bw::Lifter& lifter,
                           const bw::Lift& lift, const About& about) {
  const std::string left_out =
      refusal.code == bw::RefusalCode::no_strength ? but_for(lifter, about) : "";
  return bw::message(refusal, lift.base().name, about.unit) + left_out +
         way_out(refusal.code, lift);
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
  if (refusal.code != bw::RefusalCode::not_in_log) {
    return bw::message(refusal, name, about.unit) +
           (refusal.code == bw::RefusalCode::no_body_mass ? ": --body \"80 kg\"" : "");
  }
  std::string suspects;
  if (last) suspects = but_for(bw::learn_lifter(sets, request.lift.base(), *last), about);
  return bw::message(refusal, name) + suspects + "; of the " +
         std::string(request.lift.base().name) + " it has: " + in_log;
}

}  // namespace report
