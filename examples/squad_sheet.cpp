// examples/squad_sheet.cpp - a whole squad's session on one sheet, before practice
//
// Reads the squad's log and what is to be trained today, asks the library for every session, and
// writes one sheet: text, CSV, or HTML for paper and phone. --help says how to ask.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "asking.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "squad_sheet/asked.hpp"
#include "squad_sheet/html.hpp"
#include "squad_sheet/options.hpp"
#include "squad_sheet/sheet.hpp"

namespace {

namespace bw = barwright;
using squad_sheet::Options;

int run(const Options& options) {
  const bw::OwnLifts own = log_options::read_own_lifts(options);  // outlives all that points at it
  const squad_log::Log log = log_options::read(options, own);
  if (!log.failure.empty()) throw asking::Refusal{log.name + ": " + log.failure};
  log_options::confirm(log, options);
  const squad_sheet::AskedTable asked = squad_sheet::what_is_asked(options, log, own);
  const int refused = log.refused() + own.refused + asked.refused;
  const bw::SessionRequest usual{
      .lift = asked.rows.front().lift,
      .date = asking::day_typed("--date", options.date).value_or(asking::this_day()),
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
  return program::run<Options>("squad_sheet", asking::no_answer, argc, argv, squad_sheet::declare,
                               run);
}
