// examples/squad_sheet.cpp - a whole squad's session on one sheet, before practice
//
// Reads the squad's log and what is to be trained today, asks the library for every session, and
// writes one sheet: text, CSV, or HTML for paper and phone. --help says how to ask.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "asking.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "files.hpp"
#include "squad_sheet/asked.hpp"
#include "squad_sheet/html.hpp"
#include "squad_sheet/sheet.hpp"

namespace {

namespace bw = barwright;

struct Options : asking::Options {
  std::vector<std::string> lifts{};
  std::string asked{};
  std::string date{};
  std::string as = "text";
  std::string out{};
};

void declare(CLI::App& app, Options& options) {
  app.description("Plans the session of a whole squad and writes one sheet.\n\n" +
                  std::string(asking::log_help));
  app.footer(
      "An example\n"
      "  squad_sheet club.csv --lift \"bench press\" --lift squat --date 2026-11-25 \\\n"
      "    --spotter --safeties checked --as html --out sheet.html\n"
      "plans 3 x 6 at 2 RIR for everybody who has trained the lift. Other sets, and\n"
      "lifts of some only, stand in a CSV file given by --asked:\n"
      "  lifter,lift,modifiers,sets,reps,rir\n"
      "  ,bench press,,3,6,2\n"
      "  Tilde Ravn,squat,front squat,4,4,2\n"
      "rpe will do in place of rir.\n\n" +
      std::string(asking::rooms_help) +
      "The exit status is 0 when all is well, 1 when lines were refused and the rest was\n"
      "used, 2 when there is no sheet, and 3 when a lifter has a stop.");
  app.get_formatter()->column_width(26);
  app.failure_message(option_checks::failure);
  app.add_option("log,--log", options.log, "the squad's log, a CSV file")
      ->type_name("FILE")
      ->required();
  log_options::add(app, options);
  app.add_option("--lift", options.lifts,
                 "a lift, such as squat or \"DB bench press\"; may be given\nmore than once")
      ->type_name("NAME");
  app.add_option("--asked", options.asked, "what is trained, a CSV file: see below")
      ->type_name("FILE");
  app.add_option("--date", options.date, "the day, as 2026-11-25")->type_name("DAY")->required();
  asking::add_room_and_safety(app, options);
  app.add_option("--as", options.as, "text, csv or html")
      ->check(option_checks::one_of({"text", "csv", "html"}))
      ->type_name("FORM")
      ->capture_default_str();
  app.add_option("--out", options.out, "the file to write; else it is printed")->type_name("FILE");
}

int run(const Options& options) {
  const bw::OwnLifts own = log_options::read_own_lifts(options);  // outlives all that points at it
  const squad_log::Log log = log_options::read(options, own);
  if (!log.failure.empty()) throw asking::Refusal{log.name + ": " + log.failure};
  log_options::confirm(log, options);
  int refused = log.refused() + own.refused;
  const auto asked = squad_sheet::what_is_asked(options.lifts, options.asked, own, refused);
  const bw::SessionRequest usual{
      .lift = asked.front().lift,
      .date = asking::value_or_refuse("--date", options.date, bw::fields::to_date(options.date)),
      .max_chance_of_missing = asking::max_chance_of_missing(options),
      .has_spotter = options.has_spotter,
      .safeties = asking::to_safeties(options.safeties)};
  const squad_sheet::Sheet sheet =
      squad_sheet::plan_sheet(log, asked, usual, options.room, log_options::to_scale(options));
  if (sheet.entries.empty()) throw asking::Refusal{"nobody in the log has trained these lifts"};

  std::ostringstream text;
  if (options.as == "html") {
    text << squad_sheet::to_html(sheet);
  } else if (options.as == "csv") {
    squad_sheet::print_csv(text, sheet);
  } else {
    squad_sheet::print_text(text, sheet);
  }
  if (options.out.empty()) {
    std::cout << text.str();
  } else {
    asking::write_file("", options.out, text.str());
  }
  const bool has_stop = std::any_of(sheet.entries.begin(), sheet.entries.end(),
                                    [](const auto& entry) { return entry.is_stopped(); });
  return has_stop ? asking::stopped : refused > 0 ? asking::lines_refused : asking::fine;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("squad_sheet", asking::no_answer, argc, argv, declare, run);
}
