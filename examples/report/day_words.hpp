// examples/report/day_words.hpp - what pages say of the day: what was done on it already, and
// whether it comes too soon
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <ostream>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/words.hpp"

namespace report {

// ---- a session that has begun

/// What the log of the day has of a session, and what is made of it; empty where it has nothing.
inline std::string begun_text(const bw::SessionPlan& plan) {
  const auto today = [&](const bw::LoggedSet& set) { return set.lift.same_as(plan.request.lift); };
  const auto sets = static_cast<int>(std::count_if(plan.today.begin(), plan.today.end(), today));
  if (sets == 0 && plan.sets_done == 0) return "";
  const auto missed = static_cast<int>(std::count_if(
      plan.today.begin(), plan.today.end(),
      [&](const bw::LoggedSet& set) { return today(set) && set.outcome == bw::Outcome::missed; }));
  const std::string how_many = count(std::max(sets, plan.sets_done), "set") +
                               (missed > 0 ? ", " + std::to_string(missed) + " missed" : "");
  if (plan.recovery.is_second_today) {
    return "The log has a session of this lift on this day already (" + how_many +
           "): this is a second one. If you are not training it again today, you are done.";
  }
  if (plan.sets_done == 0) {
    return "The log has lighter sets of this day (" + how_many +
           "), taken for warm-ups: go on up from them.";
  }
  return "The log has a part of this session already (" + how_many + "): this is the rest of it.";
}

// ---- recovery

/// "chest, triceps: trained to failure on Monday (bench press; dip), 48 h ago; allow 72 h"
inline std::vector<std::string> to_lines(const std::vector<bw::RecoveryConflict>& found,
                                         const About& about) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < found.size();) {
    const bw::RecoveryConflict& first = found[i];
    std::string muscles;
    std::vector<bw::Lift> lifts;
    for (; i < found.size() && found[i].conflict.hours == first.conflict.hours &&
           found[i].conflict.after_failure == first.conflict.after_failure &&
           found[i].is_rated == first.is_rated;
         ++i) {
      muscles += (muscles.empty() ? "" : ", ") + std::string(bw::to_text(found[i].conflict.group));
      for (const bw::Lift& lift : found[i].conflict.earlier_lifts) {
        if (!lift.is_among(lifts)) lifts.push_back(lift);
      }
    }
    lines.push_back(
        muscles +
        (first.conflict.after_failure ? ": trained to failure on " : ": trained hard on ") +
        std::string(bw::to_text(first.conflict.earlier)) + " (" + bw::to_text(lifts).str() + ")" +
        (first.is_rated ? "" : " (not rated, taken as hard)") + ", " +
        std::to_string(first.conflict.hours) + " h ago; allow " +
        std::to_string(first.conflict.hours_wanted) + " h" + tag(bw::spacing_source, about));
  }
  return lines;
}

/// Names what is too close, and says what is planned instead.
/// @param session  "Today", "The first session"
inline void print_recovery(std::ostream& out, const bw::Recovery& recovery,
                           const std::string& session, const About& about) {
  if (!recovery.is_too_soon()) return;
  title(out, "Not enough recovery since the last session");
  if (recovery.is_second_today) {
    paragraph(
        out,
        "The lift or a variation of it has had all its working sets today: one hard session of a "
        "lift a day.");
  }
  for (const std::string& line : to_lines(recovery.conflicts, about)) paragraph(out, line, 2, 4);
  paragraph(out, "Better on " + day_of_week(*recovery.ready_on) + " or later. " + session +
                     " is planned as an easy one: stop every set at " + rir(bw::easy_reserve()) +
                     " or more.");
}

}  // namespace report
