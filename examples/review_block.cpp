// examples/review_block.cpp - did the block work? A verdict, what it rests on, and a chart
//
// Asks the library what a block of training on a variation brought and prints it; --help says how
// to ask. asking.hpp reads what is asked, report/review_page.hpp prints what is answered.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <iostream>
#include <string>
#include <vector>

#include "asking.hpp"
#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "files.hpp"
#include "report/chart.hpp"
#include "report/refusals.hpp"
#include "report/review_page.hpp"

namespace {

namespace bw = barwright;
using asking::Refusal;

struct Options : asking::Options {
  std::string from{};
  std::string to{};
  std::string chart{};
  std::string unit{};
};

void declare(CLI::App& app, Options& options) {
  app.description(
      "Reviews a block of training: is the lift going up, or what did a variation bring,\n"
      "on itself and on its base lift; how sure the log is of that, and which sets do\n"
      "not fit.\n\n"
      "The log is a CSV file with one row for each set, as plan_session reads it.\n");
  app.footer(
      "An example\n"
      "  review_block club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --chart feet_up.svg\n\n"
      "A log of one lifter needs no --lifter. Given a log alone, or one and a lifter, the\n"
      "program lists who and what is in it; where more is asked and --lifter or --lift is\n"
      "missing, it does so too, and the exit status is 2.\n\n"
      "The exit status is 0 when all is well, 1 when lines of the log were refused and\n"
      "the rest was used, and 2 when nothing could be reviewed.");
  asking::add_log_and_lift(app, options, "whose block");
  app.get_option("--log")->required();
  asking::add_body(app, options);
  app.add_option("--from", options.from,
                 "first day of the block; else of the variation,\n"
                 "or eight weeks back of a plain lift")
      ->type_name("DAY");
  app.add_option("--to", options.to, "last day of the block; else of the variation")
      ->type_name("DAY");
  app.add_option("--chart", options.chart, "draw a chart into this file, which ends in .svg")
      ->type_name("FILE");
  app.add_option("--unit", options.unit, "kg or lb; else that of most of the lifter's sets")
      ->check(option_checks::one_of({"kg", "lb"}))
      ->type_name("UNIT");
}

/// Refuses what will not do as the name of a chart, before any work is done.
void check_chart(const std::string& path) {
  if (const std::string problem = files::why_no_plain_file(path); !problem.empty()) {
    throw Refusal{"--chart " + bw::printable<std::string>(path) + ": " + problem};
  }
  if (path.size() < 5 || path.substr(path.size() - 4) != ".svg") {
    throw Refusal{"--chart must name a file that ends in .svg; got " + path};
  }
}

bw::ReviewRequest make_request(const Options& options, const bw::OwnLifts& own) {
  bw::ReviewRequest request{.lift = asking::find_lift(options, own)};
  request.from = asking::day_typed("--from", options.from);
  request.to = asking::day_typed("--to", options.to);
  if (request.from && request.to && !(*request.from < *request.to)) {
    throw Refusal{"--to must be after --from"};
  }
  return request;
}

int run(const Options& options) {
  if (!options.chart.empty()) check_chart(options.chart);
  asking::Source source = asking::read(options);
  source.about.unit = options.unit.empty()
                          ? source.log.usual_unit(source.about.lifter)
                          : asking::value_or_refuse(bw::fields::to_unit(options.unit));
  const bw::ReviewRequest request = make_request(options, source.own);
  const auto review = bw::review_block(source.sets, request, asking::facts_beside_log(options));
  if (!review) {
    throw Refusal{report::to_text(review.refusal(), request, source.sets, source.about)};
  }
  if (!options.chart.empty()) {
    asking::write_file("--chart ", options.chart,
                       report::to_svg(report::make_chart(*review, source.about)));
  }
  report::ReviewPage(std::cout, *review, source.about).print();
  if (!options.chart.empty()) {
    std::cout << "\nThe chart is in " << bw::printable<std::string>(options.chart) << '\n';
  }
  return source.status();
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("review_block", asking::no_answer, argc, argv, declare, run);
}
