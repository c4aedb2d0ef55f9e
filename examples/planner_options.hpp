// examples/planner_options.hpp - what plan_session and plan_block are asked alike
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <string_view>

#include "barwright/training/caution.hpp"
#include "option_checks.hpp"

namespace planner_options {

/// What --room takes, for the foot of the help.
inline std::string rooms() {
  return "A room is gym_kg, gym_lb, powerlifting, powerlifting_with_50,\n"
         "powerlifting_record, weightlifting_men or weightlifting_women; one of them with\n"
         "a change, as in \"gym_kg; bar 15 kg\"; or your own, as in\n"
         "\"bar 20 kg; collars 2.5 kg; plates 25x2 20x4 10 5 2.5 kg\" (x2: two a side).\n\n";
}

inline void add_max(CLI::App& app, std::string& max) {
  app.add_option("--max", max,
                 "the max on the base lift, such as \"100 kg\", in place\n"
                 "of what the log says")
      ->type_name("LOAD");
}

inline void add_done(CLI::App& app, int& done) {
  app.add_option("--done", done,
                 "sessions of this very lift done before, if more than\n"
                 "the log has")
      ->check(option_checks::whole_number("sessions done before", 0, 10000));
}

inline void add_max_chance_of_missing(CLI::App& app, double& per_cent) {
  app.add_option("--max-chance-of-missing", per_cent,
                 "at most this chance, in per cent, that the last\n"
                 "repetition of a work set does not go up")
      ->check(option_checks::number("a chance of missing", 0.1, 99.0))
      ->type_name("PER CENT")
      ->capture_default_str();
}

inline void add_room(CLI::App& app, std::string& room) {
  app.add_option("--room", room,
                 "bar, collars and plates: see below; else gym_kg, or\n"
                 "gym_lb where the log, or else the max, is in pounds")
      ->type_name("ROOM");
}

/// What would catch a missed repetition.
inline void add_spotter_and_safeties(CLI::App& app, bool& has_spotter, std::string& safeties) {
  app.add_flag("--spotter", has_spotter,
               "somebody stands by who can take the bar; no help on a\n"
               "machine");
  app.add_option("--safeties", safeties,
                 "none, unchecked, or checked: tried with the empty bar\n"
                 "in this position; lying, neck and chest stayed free.\n"
                 "On a machine: its stops, tried with no plates on")
      ->check(option_checks::one_of({"none", "unchecked", "checked"}))
      ->type_name("WHICH")
      ->capture_default_str();
}

/// What --safeties says.
inline barwright::Safeties to_safeties(std::string_view text) {
  if (text == "checked") return barwright::Safeties::checked;
  return text == "unchecked" ? barwright::Safeties::unchecked : barwright::Safeties::none;
}

}  // namespace planner_options
