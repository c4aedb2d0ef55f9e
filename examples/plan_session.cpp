// examples/plan_session.cpp - from a squad's training log to one lifter's loaded bar
//
// Reads the log, asks the library for one session, and prints it on one page; --help says how to
// ask. asking.hpp reads what is asked, report/session_page.hpp prints what is answered.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <iostream>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "asking.hpp"
#include "barwright/barwright.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/log/typed_sets.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "plan_session/options.hpp"
#include "report/attempts_page.hpp"
#include "report/first_session_page.hpp"
#include "report/refusals.hpp"
#include "report/session_page.hpp"

namespace {

namespace bw = barwright;
using plan_session::Options;

int run(const Options& options) {
  if (!options.is_beginner) asking::require_log_or_max(options);
  asking::Source source = asking::read(options);
  const bw::Lift lift = asking::find_lift(options, source.own);
  const auto asked = asking::day_typed("--date", options.date);
  const bw::Date date = asked ? *asked : asking::next_day(source.sets, "--date");
  const bw::AnyCurve curve = bw::parse_curve(options.curve);
  const bw::Room room = asking::find_room(options, source);
  source.about.unit = room.bar().mass.unit();
  if (!asked)
    source.about.which_day =
        date == asking::this_day() ? ", today" : ", the day after the log's last set";
  asking::report_later_sets(source, date);

  std::vector<bw::LoggedSet> done;
  if (!options.today.empty()) {
    auto typed = bw::read_typed_sets(options.today, lift, date, source.about.unit,
                                     log_options::dumbbells_of(options));
    if (!typed.value && (bw::mentions_pain(options.today) || bw::may_mention_pain(options.today) ||
                         bw::mentions_warning_sign(options.today))) {
      typed.problem +=
          ". What hurts is said behind a set, as in 92.5 x 5, missed, shoulder hurts; "
          "or say --pain yes, or --unwell yes";
    }
    done = asking::value_or_refuse("--today", options.today, std::move(typed));
  }

  const bw::LearntLifter lifter = asking::find_strength(options, source, lift, date, curve);
  const auto answer = [&](const auto& plan, const std::string& as_json, const auto& print) -> int {
    if (options.as_json) {
      std::cout << as_json << '\n';
    } else if (plan) {
      print();
    } else {
      throw asking::Refusal{report::to_text(plan.refusal(), lifter, lift, source.about)};
    }
    return !plan ? asking::no_answer : plan->is_stopped() ? asking::stopped : source.status();
  };
  if (options.wants_attempts) {
    const bw::AttemptsRequest day{.lift = lift, .date = date, .room = room};
    const auto plan = bw::plan_attempts(lifter, asking::with_facts(day, options));
    return answer(plan, bw::json::to_json(plan, lifter), [&] {
      report::print_attempts(std::cout, lifter, *plan, source.about);
      report::print_way_to_sources(std::cout, source.about);
    });
  }
  bw::SessionRequest request{.lift = lift,
                             .date = date,
                             .sets = bw::Sets(options.sets),
                             .reps = bw::Reps(options.reps),
                             .reserve = asking::reserve_of(options.rating, options.reserve),
                             .room = room};
  if (options.back_offs > 0) request.back_offs = {.sets = bw::Sets(options.back_offs)};
  auto plan = bw::plan_session(lifter, asking::with_facts(request, options));
  if (plan && !done.empty()) plan = bw::replan(lifter, *plan, done);
  const char* const ask = done.empty() ? "plan_session" : "replan";
  return answer(plan, bw::json::to_json(plan, lifter, ask), [&] {
    if (plan->first_session) {
      return report::print_first_session(std::cout, lifter, *plan, source.about);
    }
    report::SessionPage page(std::cout, lifter, *plan, curve.facts(), source.about);
    if (!done.empty()) return page.print_rest(done);
    page.print();
    if (!options.log.empty()) report::print_account(std::cout, lifter, source.log, source.about);
    report::print_way_to_sources(std::cout, source.about);
  });
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("plan_session", asking::no_answer, argc, argv, plan_session::declare,
                               run);
}
