// examples/look_back.cpp - the questions of every week: is it going up, how much was done, what
// changed
//
// Reads a log and prints what its last weeks hold, for one lifter, or in a line for each of the
// squad; --help says how to ask. What goes up and what counts is decided by plan/look_back.hpp.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <string>
#include <utility>
#include <vector>

#include "asking.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "option_checks.hpp"
#include "report/look_back_page.hpp"

namespace {

namespace bw = barwright;

struct Options : asking::Options {
  std::string date{};
  int weeks = 8;
  std::string charts{};
  bool as_json = false;
};

void declare(CLI::App& app, Options& options) {
  app.description(
      "Looks back on the last weeks of a log: is each lift going up, the hard sets of\n"
      "each muscle group, and what changed since the week before.\n\n" +
      std::string(asking::log_help));
  app.footer(
      "An example\n"
      "  look_back club.csv --lifter \"Tilde Ravn\" --charts weeks.html\n"
      "Of many lifters, without --lifter, one line each: with the day of the last set where\n"
      "that is more than two weeks before --date, or before the last of the log.\n\n"
      "The exit status is 0 when all is well, 1 when lines of the log were refused and\n"
      "the rest was used, and 2 when there is no answer.");
  asking::add_log(app, options, "training")->required();
  app.add_option("--lifter", options.lifter, "whose weeks; else all lifters'")->type_name("NAME");
  app.add_option("--date", options.date, "the last day of the last week; else of the lifter's log")
      ->type_name("DAY");
  asking::add_body(app, options);
  option_checks::add_whole(app, "--weeks", options.weeks, "how far back", "weeks", 2, 104);
  app.add_option("--charts", options.charts, "write page and charts into this HTML file")
      ->type_name("FILE");
  app.add_flag("--json", options.as_json, "answer in JSON (docs/json.md), a line for each lifter");
}

constexpr std::size_t most_lifters = 1000;  // of whom there is a line each

int run(const Options& options) {
  const bw::OwnLifts own = log_options::read_own_lifts(options);
  const squad_log::Log log = log_options::read(options, own, options.lifter);
  if (!log.failure.empty()) throw asking::Refusal{log.name + ": " + log.failure};
  log_options::confirm(log, options);
  const std::string only =
      options.lifter.empty() ? asking::only_lifter(log) : asking::find_lifter(log, options.lifter);
  for (const auto& [what, typed] :
       {std::pair("charts", options.charts), {"body mass", options.body}}) {
    if (!only.empty() || typed.empty()) continue;
    throw asking::Refusal{"Say whose " + std::string(what) + ": --lifter \"" +
                          log.lifters().front() + "\""};
  }
  const auto groups = log.by_lifter();
  if (only.empty() && groups.size() > most_lifters) {
    throw asking::Refusal{"The log has " + std::to_string(groups.size()) + " lifters, more than " +
                          std::to_string(most_lifters) + ": say whose weeks, --lifter \"" +
                          groups.front().front()->lifter + "\""};
  }
  const auto typed = asking::day_typed("--date", options.date);
  const auto now = typed ? typed : report::last_day_of(groups);
  for (const auto& entries : groups) {
    const std::string& lifter = entries.front()->lifter;
    if (!only.empty() && lifter != only) continue;
    const std::vector<bw::LoggedSet> sets = bw::Log::sets_of(entries);
    if (only.empty() && !typed && !bw::last_day(sets)) {
      report::paragraph(options.as_json ? std::cerr : std::cout,
                        lifter +
                            ": the last set is long after the one before it; is its date "
                            "right? Say the day: --date 2026-11-25",
                        0, 2);
      continue;
    }
    const bw::Date date = typed ? *typed : asking::last_day(sets, "--date");
    bw::LifterFacts facts = asking::facts_beside_log(options);
    facts.noted = log.unread_of(lifter);
    const bw::LookBack back = bw::look_back(sets, {.date = date, .weeks = options.weeks}, facts);
    if (options.as_json) {
      std::cout << bw::json::to_json(back) << '\n';
      continue;
    }
    report::About about{.lifter = lifter,
                        .complaints = report::complaints_of(entries),
                        .unit = bw::Log::usual_unit(entries),
                        .which_day = typed ? "" : ", the last day of the log"};
    const report::LookBackPage page(back, about);
    if (only.empty()) {
      report::paragraph(std::cout,
                        lifter + ": " + page.headline() + report::last_trained(sets, now), 0, 2);
      continue;
    }
    page.print(std::cout);
    if (options.charts.empty()) continue;
    asking::write_file("--charts ", options.charts, page.to_html());
    std::cout << "\nThe charts are in " << bw::printable<std::string>(options.charts) << '\n';
  }
  return log.refused() + own.refused > 0 ? asking::lines_refused : asking::fine;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("look_back", asking::no_answer, argc, argv, declare, run);
}
