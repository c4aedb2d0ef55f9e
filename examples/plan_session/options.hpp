// examples/plan_session/options.hpp - what plan_session is asked, and how
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "files.hpp"
#include "option_checks.hpp"
#include "planner_options.hpp"

namespace plan_session {

/// The arguments, as typed.
struct Options {
  std::string log{};
  bool any_size = false;  // of the log
  std::string lifter{};
  std::string lift{};
  std::string with{};
  int reps = 6;
  double reserve = 2.0;
  int sets = 3;
  double max_chance_of_missing = 5.0;  // per cent
  std::string date{};
  std::string room{};
  bool has_spotter = false;
  std::string safeties = "none";
  std::string curve = "Wathen";
  std::string max{};
  int done = 0;

  [[nodiscard]] files::Size size() const {
    return any_size ? files::Size::any : files::Size::usual;
  }
};

inline void declare(CLI::App& app, Options& options) {
  app.description(
      "Plans one session on one lift: how strong the lifter is, what to load, which\n"
      "plates, and what to take care of.\n\n"
      "The log is a CSV file with one row for each set. Its first row names the\n"
      "columns, in any order; others are ignored:\n"
      "  date,lifter,lift,modifiers,load,unit,reps,rir,outcome\n"
      "  2026-11-23,Tilde Ravn,bench press,feet up,52.5,kg,6,2,completed\n"
      "rir is what was left in reserve, as 2, 2-3 or nothing; an rpe column may stand\n"
      "in its place. reps are those tried, outcome is completed or missed.\n");
  app.footer(
      "An example\n"
      "  plan_session club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --reps 6 --reserve 2 --sets 3 --date 2026-11-25 \\\n"
      "    --safeties checked\n"
      "asks for three sets of six on the feet-up bench press with two more left in\n"
      "each, inside safeties that were checked in that position.\n\n"
      "Without --lifter or --lift, the program lists who and what is in the log.\n"
      "Without a log, --max says how strong the lifter is:\n"
      "  plan_session --lift \"bench press\" --with incline --max \"100 kg\" \\\n"
      "    --spotter --date 2026-11-25\n\n"
      "A lift or a change that is not known brings the names of those that are.\n\n" +
      planner_options::rooms() +
      "The exit status is 0 when all is well, 1 when lines of the log were refused and\n"
      "the rest was used, 2 when nothing could be planned, and 3 when the session asked\n"
      "for should not be done.");
  app.get_formatter()->column_width(24);
  app.failure_message(option_checks::failure);

  app.add_option("log,--log", options.log, "the training log, a CSV file")->type_name("FILE");
  option_checks::add_any_size(app, options.any_size);
  app.add_option("--lifter", options.lifter, "whose session")->type_name("NAME");
  app.add_option("--lift", options.lift, "the base lift, such as \"bench press\"")
      ->type_name("NAME");
  app.add_option("--with", options.with, "what is changed about it, such as \"feet up, flat back\"")
      ->type_name("NAMES");
  app.add_option("--reps", options.reps, "repetitions in each work set")
      ->check(option_checks::reps())
      ->capture_default_str();
  app.add_option("--reserve", options.reserve, "repetitions to have left at the end of each")
      ->check(option_checks::reserve())
      ->capture_default_str();
  app.add_option("--sets", options.sets, "work sets")
      ->check(option_checks::whole_number("work sets", 1, 20))
      ->capture_default_str();
  planner_options::add_max_chance_of_missing(app, options.max_chance_of_missing);
  app.add_option("--date", options.date, "the day, as 2026-11-25; else the day after the last set")
      ->type_name("DAY");
  planner_options::add_room(app, options.room);
  planner_options::add_spotter_and_safeties(app, options.has_spotter, options.safeties);
  app.add_option("--curve", options.curve, "the repetition curve to estimate by")
      ->type_name("NAME")
      ->capture_default_str();
  planner_options::add_max(app, options.max);
  planner_options::add_done(app, options.done);
}

}  // namespace plan_session
