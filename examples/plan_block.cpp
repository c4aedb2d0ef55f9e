// examples/plan_block.cpp - weeks of one lift, from a squad's training log or a stated max
//
// Prints the block week by week, loaded with the plates of the room, and when to go on, hold or
// step back; --help says how to ask. Its parts: squad_log.hpp reads the log,
// plan_block/question.hpp the arguments; plan_block/plan.hpp makes the plan and plan_block/page.hpp
// prints it.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "lifter_model.hpp"
#include "plan_block/options.hpp"
#include "plan_block/page.hpp"
#include "plan_block/plan.hpp"
#include "plan_block/question.hpp"
#include "program.hpp"
#include "squad_log.hpp"
#include "text_page.hpp"

namespace {

namespace bw = barwright;
using lifter_model::Refusal;
using plan_block::Options;

enum Status { fine = 0, lines_refused = 1, nothing_planned = 2, stopped = 3 };

Status run(const Options& options) {
  squad_log::Log log;
  std::string lifter = bw::printable<std::string>(options.lifter);
  std::vector<squad_log::Entry> entries;
  if (!options.log.empty()) {
    log = squad_log::read_file(options.log, options.size());
    squad_log::print_reports(std::cerr, log.name, log.reports);
    if (!log.failure.empty()) {
      throw Refusal{log.name + ": " + log.failure +
                    squad_log::missing_quotes(options.lift, options.log)};
    }
    if (options.lifter.empty() || options.lift.empty()) {
      lifter_model::print_contents(std::cout, log, options.lifter);
      return log.refused() > 0 ? lines_refused : fine;
    }
    lifter = lifter_model::find_lifter(log, options.lifter);
    for (const auto& entry : log.entries) {
      if (entry.lifter == lifter) entries.push_back(entry);
    }
  } else if (options.max.empty()) {
    throw Refusal{"Name a log, or state the max on the base lift: --max \"100 kg\""};
  }
  if (options.lift.empty()) throw Refusal{"Name the lift: --lift \"bench press\""};

  const bw::Date start = plan_block::first_day(options, entries);
  const auto later = std::stable_partition(
      entries.begin(), entries.end(), [&](const auto& entry) { return entry.set.date < start; });
  if (later != entries.end()) {
    std::cerr << bw::printable<std::string>(log.name)
              << ": note: " << text_page::count(static_cast<int>(entries.end() - later), "set")
              << " not before the first day of the block, " << start << "; left out, the first in "
              << "line " << later->line << '\n';
  }
  entries.erase(later, entries.end());

  const auto plan =
      plan_block::make_plan(plan_block::make_question(options, log, lifter, start), entries);
  plan_block::Page(std::cout, plan).print();
  if (plan.says_stop()) return stopped;
  return log.refused() > 0 ? lines_refused : fine;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("plan_block", nothing_planned, [&] {
    CLI::App app("", "plan_block");
    Options options;
    plan_block::declare(app, options);
    try {
      app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
      return app.exit(error) == 0 ? fine : nothing_planned;
    }
    return run(options);
  });
}
