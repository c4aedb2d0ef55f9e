// examples/squad_sheet/options.hpp - what squad_sheet is asked on the command line
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <iostream>
#include <string>
#include <utility>
#include <vector>

#include "asking.hpp"
#include "barwright/barwright.hpp"
#include "files.hpp"
#include "log_options.hpp"
#include "option_checks.hpp"
#include "squad_log.hpp"
#include "squad_sheet/asked.hpp"

namespace squad_sheet {

struct Options : asking::Options {
  std::vector<std::string> lifts{};
  std::string asked{};
  std::string date{};
  std::string as = "text";
  std::string out{};
};

inline void declare(CLI::App& app, Options& options) {
  app.description("Plans the session of a whole squad and writes one sheet.\n\n" +
                  std::string(asking::log_help));
  app.footer(
      "An example\n"
      "  squad_sheet club.csv --lift \"bench press\" --lift squat --date 2026-11-25 \\\n"
      "    --spotter --safeties checked --as html --out sheet.html\n"
      "plans 3 x 6 at 2 RIR for everybody who has trained the lift. Other sets, and\n"
      "lifts of some only, stand in a CSV file given by --asked:\n"
      "  lifter,lift,modifiers,sets,reps,rir,body (kg)\n"
      "  ,bench press,,3,6,2,\n"
      "  Tilde Ravn,squat,front squat,4,4,2,\n"
      "  Bram Osei,pull-up,,3,5,2,84\n"
      "rpe will do in place of rir. Pull-ups and dips need what the lifter weighs.\n\n" +
      std::string(asking::rooms_help) +
      "The exit status is 0 when all is well, 1 when lines were refused and the rest was\n"
      "used, 2 when there is no sheet, and 3 when a lifter has a stop.");
  asking::add_log(app, options, "squad's")->required();
  app.add_option("--lift", options.lifts,
                 "a lift, such as squat or \"DB bench press\"; may be given\nmore than once")
      ->type_name("NAME");
  app.add_option("--asked", options.asked, "what is trained, a CSV file: see below")
      ->type_name("FILE");
  app.add_option("--date", options.date, "the day, as 2026-11-25; else today")->type_name("DAY");
  asking::add_room_and_safety(app, options);
  app.add_option("--as", options.as, "text, csv or html")
      ->check(option_checks::one_of({"text", "csv", "html"}))
      ->type_name("FORM")
      ->capture_default_str();
  app.add_option("--out", options.out, "the file to write; else it is printed")->type_name("FILE");
}

/// What is asked for, from --lift and --asked.
inline AskedTable what_is_asked(const Options& options, const squad_log::Log& log,
                                const bw::OwnLifts& own) {
  AskedTable asked;
  if (!options.asked.empty()) {
    asked = read_asked(asking::value_or_refuse(files::read_whole(options.asked)), log.lifters(),
                       own.modifiers());
    squad_log::print_reports(std::cerr, options.asked, asked.reports);
    if (!asked.failure.empty()) throw asking::Refusal{options.asked + ": " + asked.failure};
  }
  std::vector<Asked> named;
  for (const std::string& name : options.lifts) {
    auto lift = fields::own_lift(name, own.modifiers());
    if (!lift && bw::catalogue::find_lift(name) == nullptr) lift = fields::lift_phrase(name);
    if (!lift) lift = *asking::value_or_refuse("--lift", name, fields::to_base_lift(name));
    named.push_back({.lift = *lift});
  }
  asked.rows.insert(asked.rows.begin(), named.begin(), named.end());
  if (asked.rows.empty()) throw asking::Refusal{"Say what is trained: --lift \"bench press\""};
  return asked;
}

}  // namespace squad_sheet
