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

namespace {

enum Status { fine = 0, lines_refused = 1, nothing_checked = 2 };

struct Options {
  std::string week{};
  check_week::Question question{};
  std::vector<std::string> fixed{};
  bool once = false;
};

void declare(CLI::App& app, Options& options) {
  app.description(
      "Checks a planned week: sets for each muscle group, days that are too close together, and a "
      "better order.\n\n"
      "The week is a CSV file with one row for each lift of a session; its first row names the "
      "columns, in any order:\n"
      "  day,session,lift,modifiers,sets,reps,rir,rating,minutes\n"
      "  Tuesday,press,bench press,feet up,4,6,2,6,60\n"
      "rir is what is left in reserve, 0 for failure. session, modifiers, rating and minutes may "
      "be left out; other columns are ignored.");
  app.footer(
      "Exit status: 0 when every line could be read; 1 when lines were refused and the rest was\n"
      "used; 2 when nothing could be checked.");
  barwright::SpacingRule& rule = options.question.rule;
  app.add_option("week,--week", options.week, "the week, a CSV file")
      ->type_name("FILE")
      ->required();
  app.add_option("--hours", rule.hours_between, "wanted between hard sessions of a muscle group")
      ->capture_default_str();
  app.add_option("--hours-after-failure", rule.hours_after_failure,
                 "wanted when the earlier one went to failure")
      ->capture_default_str();
  app.add_option("--fixed", options.fixed, "days whose lifts stay, and to which no others may come")
      ->type_name("DAY");
  app.add_flag("--sources", options.question.wants_sources,
               "say who found what, and in whom, for each rule");
  app.add_flag("--once", options.once, "the week does not repeat: Monday does not follow Sunday");
}

int run(Options& options) {
  const check_week::PlannedWeek week = check_week::read_file(options.week);
  for (const auto& report : week.reports) csv_rows::print(std::cerr, week.name, report);
  if (!week.failure.empty()) {
    std::cerr << "check_week: " << week.name << ": " << week.failure << '\n';
    return nothing_checked;
  }
  options.question.rule.week_repeats = !options.once;
  for (const std::string& name : options.fixed) {
    const auto day = check_week::to_weekday(name);
    if (!day.value) {
      std::cerr << "check_week: --fixed \"" << name << "\": " << day.problem << '\n';
      return nothing_checked;
    }
    options.question.fixed[static_cast<std::size_t>(*day.value)] = true;
  }
  (void)barwright::overlap({},
                           options.question.rule);  // refuses bad hours before a line is printed
  check_week::Page(std::cout, week, options.question).print();
  return week.refused > 0 ? lines_refused : fine;
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app;
  Options options;
  declare(app, options);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? fine : nothing_checked;
  }
  try {
    return run(options);
  } catch (const barwright::DomainError& error) {
    std::cerr << "check_week: " << error.what() << '\n';
    return nothing_checked;
  }
}
