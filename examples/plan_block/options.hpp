// examples/plan_block/options.hpp - what plan_block is asked on the command line
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "asking.hpp"
#include "barwright/core/effort.hpp"
#include "option_checks.hpp"

namespace plan_block {

namespace bw = barwright;

struct Options : asking::Options {
  int weeks = 4;
  int sessions = 2;
  int sets = 3;
  int reps = 6;
  double first_reserve = 3.0;
  double last_reserve = 2.0;
  std::optional<double> first_rating{};  // in place of the reserve
  std::optional<double> last_rating{};
  int back_offs = 0;
  int retest_reps = 3;
  std::string start{};
};

inline void declare(CLI::App& app, Options& options) {
  app.description(
      "Plans some weeks of one lift: its introduction, if it is a new variation, then\n"
      "working weeks, a deload and a retest. Every load can be made with the plates\n"
      "there are; with it comes when to add load, repeat it or step back.\n\n" +
      std::string(asking::log_help));
  app.footer(
      "Examples\n"
      "  plan_block club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --safeties checked\n"
      "  plan_block --lift \"bench press\" --with incline --max \"100 kg\" --spotter\n\n" +
      std::string(asking::names_help) + std::string(asking::rooms_help) +
      std::string(asking::status_help));
  asking::add_log_and_lift(app, options, "whose block");
  asking::add_lifter_facts(app, options);
  option_checks::add_whole(app, "--weeks", options.weeks, "working weeks", "working weeks", 1, 26);
  option_checks::add_whole(app, "--sessions", options.sessions, "sessions of the lift in a week",
                           "sessions of a week", 1, 7);
  option_checks::add_whole(app, "--sets", options.sets, "working sets in a session", "working sets",
                           1, 20);
  option_checks::add_whole(app, "--reps", options.reps, "reps in each", "reps", 1, bw::Reps::most);
  asking::add_back_offs(app, options.back_offs);
  option_checks::add_reserve(app, "--reserve", options.first_reserve,
                             "reps in reserve (RIR) at the end of each, in the first\nworking week",
                             "--rpe", options.first_rating,
                             "the first of the two as a rating of exertion, 5 to 10;\n"
                             "9.5 leaves none");
  option_checks::add_reserve(app, "--last-reserve", options.last_reserve, "and in the last",
                             "--last-rpe", options.last_rating, "and the last");
  option_checks::add_whole(app, "--retest-reps", options.retest_reps,
                           "reps of the retest, at 2 RIR; 0 for none", "reps of a retest", 0, 100);
  app.add_option("--start,--date", options.start,
                 "the first day, as 2026-11-30; else the next Monday\n"
                 "without a set")
      ->type_name("DAY");
  asking::add_room_and_safety(app, options);
  asking::add_sources(app, options);
}

}  // namespace plan_block
