// examples/plan_block/options.hpp - what plan_block is asked, and how
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "files.hpp"
#include "option_checks.hpp"
#include "planner_options.hpp"

namespace plan_block {

/// The arguments, as typed.
struct Options {
  std::string log{};
  bool any_size = false;  // of the log
  std::string lifter{};
  std::string lift{};
  std::string with{};
  std::string max{};
  int done = 0;
  int weeks = 4;
  int sessions = 2;
  int sets = 3;
  int reps = 6;
  double first_reserve = 3.0;
  double last_reserve = 2.0;
  int retest_reps = 3;
  double max_chance_of_missing = 5.0;  // per cent
  std::string start{};
  std::string room{};
  bool has_spotter = false;
  std::string safeties = "none";

  [[nodiscard]] files::Size size() const {
    return any_size ? files::Size::any : files::Size::usual;
  }
};

inline void declare(CLI::App& app, Options& options) {
  app.description(
      "Plans some weeks of one lift: its introduction, if it is a variation that is\n"
      "new, then working weeks, a lighter week and a retest. Every load is one that the\n"
      "room has; beside it stands when to go on, when to hold it and when to step back.\n\n"
      "The log is a CSV file with one row for each set. Its first row names the\n"
      "columns, in any order; others are ignored:\n"
      "  date,lifter,lift,modifiers,load,unit,reps,rir,outcome\n"
      "  2026-11-23,Tilde Ravn,bench press,feet up,52.5,kg,6,2,completed\n"
      "A strength model learns from it; without a log, --max says how strong the lifter\n"
      "is. The loads are as heavy as the reserve and the chance of missing allow.\n");
  app.footer(
      "Examples\n"
      "  plan_block club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --safeties checked\n"
      "  plan_block --lift \"bench press\" --with incline --max \"100 kg\" --spotter\n\n"
      "Without --lifter or --lift, the program lists who and what is in the log.\n"
      "A lift or a change that is not known brings the names of those that are.\n\n" +
      planner_options::rooms() +
      "The exit status is 0 when all is well, 1 when lines of the log were refused and\n"
      "the rest was used, 2 when nothing could be planned, and 3 when the block asked\n"
      "for should not be done.");
  app.get_formatter()->column_width(26);
  app.failure_message(option_checks::failure);

  app.add_option("log,--log", options.log, "the training log, a CSV file")->type_name("FILE");
  option_checks::add_any_size(app, options.any_size);
  app.add_option("--lifter", options.lifter, "whose block")->type_name("NAME");
  app.add_option("--lift", options.lift, "the base lift, such as \"bench press\"")
      ->type_name("NAME");
  app.add_option("--with", options.with, "what is changed about it, such as \"feet up, flat back\"")
      ->type_name("NAMES");
  planner_options::add_max(app, options.max);
  planner_options::add_done(app, options.done);
  app.add_option("--weeks", options.weeks, "working weeks")
      ->check(option_checks::whole_number("working weeks", 1, 26))
      ->capture_default_str();
  app.add_option("--sessions", options.sessions, "sessions of the lift in a week")
      ->check(option_checks::whole_number("sessions of a week", 1, 7))
      ->capture_default_str();
  app.add_option("--sets", options.sets, "work sets in a session")
      ->check(option_checks::whole_number("work sets", 1, 20))
      ->capture_default_str();
  app.add_option("--reps", options.reps, "repetitions in each")
      ->check(option_checks::reps())
      ->capture_default_str();
  app.add_option("--reserve", options.first_reserve,
                 "repetitions to have left at the end of each, in the\n"
                 "first working week")
      ->check(option_checks::reserve())
      ->capture_default_str();
  app.add_option("--last-reserve", options.last_reserve, "and in the last")
      ->check(option_checks::reserve())
      ->capture_default_str();
  app.add_option("--retest-reps", options.retest_reps,
                 "repetitions of the retest, which leaves 2; 0 for none")
      ->check(option_checks::whole_number("repetitions of a retest", 0, 100))
      ->capture_default_str();
  planner_options::add_max_chance_of_missing(app, options.max_chance_of_missing);
  app.add_option("--start", options.start,
                 "the first day, as 2026-11-30; else the Monday after\n"
                 "the last set")
      ->type_name("DAY");
  planner_options::add_room(app, options.room);
  planner_options::add_spotter_and_safeties(app, options.has_spotter, options.safeties);
}

}  // namespace plan_block
