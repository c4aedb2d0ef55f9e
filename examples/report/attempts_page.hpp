// examples/report/attempts_page.hpp - attempts on test day, on one page
//
// First the attempts with the chance of each, then the way up to the opener, and what to beware of.
// Under a stop what would lift it stands in their place.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <ostream>
#include <string>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/sets_table.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// Why the attempts are lighter than the likeliest max; empty where they are not.
inline std::string why_lighter(const bw::AttemptsPlan& plan, const bw::PlanningRules& rules) {
  switch (plan.limited_by) {
    case bw::LimitedBy::greatest_rise:
      return "No attempt is more than " + percent(rules.greatest_rise) +
             " above what the last sessions showed.";
    case bw::LimitedBy::ratings:
      return "No attempt is more than " + percent(rules.step_up) +
             " above what the ratings of the last sessions say.";
    case bw::LimitedBy::held_after_miss:
      return "A rep was missed last time: no attempt asks for more than that set did.";
    case bw::LimitedBy::held_after_failure:
      return "A set went to 0 RIR last time: no attempt asks for more than that set did.";
    case bw::LimitedBy::missed_today:
    case bw::LimitedBy::today: return "They go by the sets that were done today.";
    default: return "";
  }
}

/// Prints attempts, or why there should be none.
inline void print_attempts(std::ostream& out, const bw::Lifter& lifter,
                           const bw::AttemptsPlan& plan, const About& about) {
  const bw::Lift& lift = plan.request.lift;
  if (plan.is_stopped()) {
    out << "STOP: no attempts\n";
  } else {
    out << (has_doubts(lifter) ? "Check the log first (below). Then:\n" : "") << "Attempts: ";
    for (std::size_t i = 0; i < plan.attempts.size(); ++i) {
      const bw::Attempt& attempt = plan.attempts[i];
      out << (i > 0 ? ", " : "") << load_text(bw::as_logged(attempt.with.load, lifter), about.unit)
          << " (chance " << chance(attempt.chance_of_success) << ")";
    }
    out << "\n";
  }
  out << (about.lifter.empty() ? "" : about.lifter + ", ") << lift.name() << ", "
      << day_of_week(plan.request.date) << '\n';
  if (plan.is_stopped()) {
    print_stop(out, lifter, lift,
               {plan.cautions, plan.remedies, std::nullopt, "--reserve", plan.request.date}, about);
  } else {
    print_max_check(out, lifter, about.unit);
    print_doubts(out, lifter, about);
    list_first_cautions(out, plan.cautions, lifter, plan.request.date, about);
    title(out, "The way up to the opener");
    print_sets(out, plan.sets, "opener", about.unit);
    std::string text =
        "The chance of each attempt is the log's, less " + percent(lifter.rules.lost_to_the_rules) +
        " that referees and technique take" + tag(bw::lost_to_the_rules_source, about) +
        ". Choose the second and third by how the one before went; after a miss, do not go up.";
    const std::string lighter = why_lighter(plan, lifter.rules);
    paragraph(out, text + (lighter.empty() ? "" : " " + lighter));
    paragraph(out, "1RM that day: " + max_text(plan.max.interval(), about.unit) + ".");
    paragraph(out, range_note);
  }
  list_suspects(out, lifter, about, !plan.is_stopped());
  if (plan.is_stopped()) {
    list_first_cautions(out, plan.cautions, lifter, plan.request.date, about);
  }
  list_cautions(out, plan.cautions, "Keep in mind", bw::Severity::note, about);
}

}  // namespace report
