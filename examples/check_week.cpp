// examples/check_week.cpp - is a planned week in its own way, and would another order be better?
//
// Reads a week of sessions from CSV and prints what each muscle group gets, which days are too
// close together, what they share, a better order of days, and which variation of a lift would
// share less. --help says how to ask; check_week/planned_week.hpp reads the week,
// check_week/page.hpp prints it. examples/data/rowing_week.csv is an invented week of an invented
// rowing club.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <iostream>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "check_week/page.hpp"
#include "check_week/planned_week.hpp"
#include "command_line.hpp"
#include "option_checks.hpp"
#include "program.hpp"

namespace {

enum Status { fine = 0, lines_refused = 1, nothing_checked = 2 };

struct Options {
  std::string week{};
  check_week::Question question{};
  std::vector<std::string> fixed{};
  bool once = false;
};

void declare(CLI::App& app, Options& options) {
  app.failure_message(option_checks::failure);
  app.description(
      "Checks a planned week: sets for each muscle group, days that are too close together,\n"
      "and a better order.\n\n"
      "The week is a CSV file with one row for each lift of a session; its first row names the\n"
      "columns, in any order:\n\n"
      "  day,session,lift,modifiers,sets,reps,rir,rating,minutes\n"
      "  Tuesday,press,bench press,feet up; flat back,4,6,2,6,60\n"
      "  Tuesday,press,bench pull,,4,8,2,,\n"
      "  Thursday,legs,squat,front squat,3,5,2,7,50\n"
      "  Wednesday,water,,,,,,6,80\n\n"
      "lift        a lift, such as squat; what is changed about it goes among the modifiers, or\n"
      "            stands in front of it: incline bench\n"
      "rir         reps in reserve: 2, or 2-3; 0 for failure\n"
      "rating      how hard the whole session is meant to be, 0 (rest) to 10 (as hard as can\n"
      "            be), in one of its rows\n"
      "minutes     of the whole session, beside its rating: together they are its load\n\n"
      "A session without lifts, such as rowing or running, leaves lift to rir empty and has a\n"
      "rating and minutes. session, modifiers, rating and minutes may be left out; other\n"
      "columns are ignored. A lift or a modifier that is not known is answered with those that\n"
      "are.");
  app.footer(
      "Exit status: 0 when every line could be read; 1 when lines were refused and the rest was\n"
      "used; 2 when nothing could be checked.");
  barwright::SpacingRule& rule = options.question.rule;
  app.add_option("week,--week", options.week, "the week, a CSV file")
      ->type_name("FILE")
      ->required();
  using option_checks::add_whole;
  add_whole(app, "--hours", rule.hours_between, "to allow between hard sessions of a muscle group",
            "hours", 0, 168);
  add_whole(app, "--hours-after-failure", rule.hours_after_failure,
            "to allow when the earlier one went to failure; at least --hours", "hours", 0, 168);
  barwright::OrderRule& order = options.question.order;
  add_whole(app, "--load-rise", order.most_load_rise_percent,
            "per cent by which a better order may exceed the heaviest day", "per cent", 0, 100);
  app.add_flag("--use-rest-days", order.may_use_rest_days,
               "lifts may move to a rest day; one is always left");
  app.add_option("--fixed", options.fixed, "days whose lifts stay, and to which no others move")
      ->type_name("DAY");
  app.add_flag("--sources", options.question.wants_sources,
               "say who found what, and in whom, for each rule");
  app.add_flag("--once", options.once, "the week does not repeat: Monday does not follow Sunday");
}

Status run(Options& options) {
  const barwright::SpacingRule& rule = options.question.rule;
  if (rule.hours_between > rule.hours_after_failure) {
    throw program::Refusal("--hours " + std::to_string(rule.hours_between) +
                           ": it must be at most --hours-after-failure, which is " +
                           std::to_string(rule.hours_after_failure) + "; give both to raise both");
  }
  const check_week::PlannedWeek week = check_week::read_file(options.week);
  for (const auto& report : week.reports) {
    std::cerr << barwright::to_text(week.name, report) << '\n';
  }
  if (!week.failure.empty()) throw program::Refusal(week.name + ": " + week.failure);
  options.question.rule.week_repeats = !options.once;
  for (const std::string& name : options.fixed) {
    const auto day = check_week::to_weekday(name);
    if (!day.value) {
      throw program::Refusal("--fixed \"" + name + "\": " + day.problem);
    }
    options.question.order.fixed[static_cast<std::size_t>(*day.value)] = true;
  }
  check_week::Page(std::cout, week, options.question).print();
  return week.refused > 0 ? lines_refused : fine;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("check_week", nothing_checked, argc, argv, declare, run);
}
