// examples/report/first_session_page.hpp - the first session of a beginner, on one page
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <ostream>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/sets_table.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// What to do after each set.
inline void print_ways_on(std::ostream& out, const bw::FirstSession& first) {
  const std::string low = number(first.go_back_below.count(), 1);
  const std::string high = number(first.go_on_with.count(), 1);
  title(out, "After each set");
  paragraph(out, "- " + high + " or more left, every rep like the first: the next line", 2, 4);
  paragraph(out,
            "- " + low + " or more, fewer than " + high + ": that is the load for today; " +
                count(first.sets - 1, "more set") + " with it",
            2, 4);
  paragraph(out,
            "- fewer than " + low + ", or reps unlike the first: one line back, and " +
                count(first.sets - 1, "more set") + " there",
            2, 4);
  paragraph(out, "- a missed rep, or any pain: the session is over", 2, 4);
  out << '\n';
  paragraph(out,
            "Write down each set with the reps that were left: the next session is planned "
            "from them. Where the first line leaves fewer than " +
                low + ", use a lighter bar, dumbbells, or a band under the body.");
}

/// Prints a first session, or why there should be none.
inline void print_first_session(std::ostream& out, const bw::Lifter& lifter,
                                const bw::SessionPlan& plan, const About& about) {
  const bw::Lift& lift = plan.request.lift;
  if (plan.is_stopped()) {
    out << "STOP: no load for this session\n";
  } else if (plan.sets.empty()) {
    out << "The first session is over\n";
  } else {
    print_headline(out, "First session. ", plan.sets.back(), effort_text(plan.reserve), about);
  }
  out << (about.lifter.empty() ? "" : about.lifter + ", ") << lift.name() << ", "
      << day_of_week(plan.request.date) << '\n';
  if (plan.is_stopped()) {
    print_stop(out, lifter, lift,
               {plan.cautions, plan.remedies, plan.least_alone, "--reserve", plan.request.date},
               about);
  } else if (!plan.sets.empty()) {
    list_first_cautions(out, plan.cautions, lifter, plan.request.date, about);
    list_requirements(out, lift, about);
    title(out, "Up by feel, one set of " + std::to_string(plan.reps.count()) + " with each");
    print_machine(out, lift.base(), plan.request.has_spotter);
    std::vector<bw::PlannedSet> steps;
    for (const bw::LoadedWith& step : plan.first_session->steps) {
      if (step.load < plan.load()) continue;  // done
      steps.push_back({.is_work = true, .reps = plan.reps, .with = step});
    }
    print_set_lines(out, steps, "work", about.unit);
    print_ways_on(out, *plan.first_session);
  }
  list_cautions(out, plan.cautions, "Keep in mind", bw::Severity::note, about);
}

}  // namespace report
