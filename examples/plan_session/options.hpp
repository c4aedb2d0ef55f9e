// examples/plan_session/options.hpp - what plan_session is asked on the command line
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "asking.hpp"
#include "barwright/core/effort.hpp"
#include "option_checks.hpp"

namespace plan_session {

namespace bw = barwright;

struct Options : asking::Options {
  int reps = 6;
  double reserve = 2.0;
  std::optional<double> rating{};
  int sets = 3;
  int back_offs = 0;
  std::string date{};
  std::string today{};
  std::string curve = "Wathen";
  bool wants_attempts = false;
  bool as_json = false;
};

inline void declare(CLI::App& app, Options& options) {
  app.description(
      "Plans one session on one lift: how strong the lifter is, what to load, which\n"
      "plates, and what to take care of.\n\n" +
      std::string(asking::log_help));
  app.footer(
      "An example\n"
      "  plan_session club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --date 2026-11-25 --safeties checked\n"
      "asks for 3 x 6 at 2 RIR on the feet-up bench press, inside safeties that were\n"
      "checked in that position. Without a log, --max says how strong the lifter is:\n"
      "  plan_session --lift \"bench press\" --with incline --max \"100 kg\" \\\n"
      "    --spotter --date 2026-11-25\n\n" +
      std::string(asking::names_help) + std::string(asking::rooms_help) +
      std::string(asking::status_help));
  asking::add_log_and_lift(app, options, "whose session");
  option_checks::add_whole(app, "--reps", options.reps, "reps in each working set", "reps", 1,
                           bw::Reps::most);
  option_checks::add_reserve(app, "--reserve", options.reserve,
                             "reps in reserve (RIR) at the end of each", "--rpe", options.rating,
                             "the same as a rating of exertion, 5 to 10; 9.5 leaves\n"
                             "none: a little more load would go up, but no rep more");
  option_checks::add_whole(app, "--sets", options.sets, "working sets", "working sets", 1, 20);
  asking::add_back_offs(app, options.back_offs);
  app.add_flag("--attempts", options.wants_attempts,
               "three attempts at a max in place of working sets, with\n"
               "the chance of each, and the way up to them");
  app.add_option("--date", options.date, "the day, as 2026-11-25; else today")->type_name("DAY");
  app.add_option("--today", options.today,
                 "sets of the lift done so far today that the log has\n"
                 "not: the rest is planned, such as\n"
                 "\"80 x 6, 2 left; 80 x 5, missed\"")
      ->type_name("SETS")
      ->excludes("--attempts");
  asking::add_room_and_safety(app, options);
  app.add_option("--curve", options.curve, "the equation or chart to estimate by")
      ->type_name("NAME")
      ->capture_default_str();
  asking::add_lifter_facts(app, options);
  asking::add_sources(app, options);
  app.add_flag("--json", options.as_json, "answer in JSON (docs/json.md)");
}

}  // namespace plan_session
