// examples/review_block.cpp - is the variation working? A block of training, reviewed from the log
//
// Reads the log, learns the lifter's strength, and says what a block of a variation brought, on it
// and on the lift it is a variation of; --help says how to ask. Its parts: squad_log.hpp reads the
// log, lifter_model.hpp learns from it, review_block/review.hpp makes the review,
// review_block/page.hpp prints it and review_block/chart.hpp draws it.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <iostream>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "files.hpp"
#include "lifter_model.hpp"
#include "option_checks.hpp"
#include "program.hpp"
#include "review_block/chart.hpp"
#include "review_block/page.hpp"
#include "review_block/review.hpp"
#include "squad_log.hpp"

namespace {

namespace bw = barwright;
using lifter_model::Refusal;
using lifter_model::value_or_refuse;

enum Status { fine = 0, lines_refused = 1, nothing_reviewed = 2 };

/// The arguments, as typed.
struct Options {
  std::string log{};
  std::string lifter{};
  std::string lift{};
  std::string with{};
  std::string from{};
  std::string to{};
  std::string chart{};
  std::string unit{};
  bool text_chart = false;
  bool any_size = false;

  [[nodiscard]] files::Size size() const {
    return any_size ? files::Size::any : files::Size::usual;
  }
};

void declare(CLI::App& app, Options& options) {
  app.description(
      "Reviews a block of training on a variation: what it brought, on it and on the lift\n"
      "it is a variation of, how sure the log is of that, and which sets do not fit.\n\n"
      "The log is a CSV file with one row for each set, as plan_session reads it.\n");
  app.footer(
      "An example\n"
      "  review_block club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --chart feet_up.svg\n\n"
      "Without --lifter or --lift, the program lists who and what is in the log.\n\n"
      "The exit status is 0 when all is well, 1 when lines of the log were refused and\n"
      "the rest was used, and 2 when nothing could be reviewed.");
  app.get_formatter()->column_width(24);
  app.failure_message(option_checks::failure);
  app.add_option("log,--log", options.log, "the training log, a CSV file")
      ->type_name("FILE")
      ->required();
  app.add_option("--lifter", options.lifter, "whose block")->type_name("NAME");
  app.add_option("--lift", options.lift, "the base lift, such as \"bench press\"")
      ->type_name("NAME");
  app.add_option("--with", options.with, "what is changed about it, such as \"feet up, flat back\"")
      ->type_name("NAMES");
  app.add_option("--from", options.from, "first day of the block; else of the variation")
      ->type_name("DAY");
  app.add_option("--to", options.to, "last day of the block; else of the variation")
      ->type_name("DAY");
  app.add_option("--chart", options.chart, "draw a chart into this file, which ends in .svg")
      ->type_name("FILE");
  app.add_flag("--text-chart", options.text_chart, "print a chart made of letters");
  option_checks::add_any_size(app, options.any_size);
  app.add_option("--unit", options.unit, "kg or lb; else that of most of the lifter's sets")
      ->check(option_checks::one_of({"kg", "lb"}))
      ->type_name("UNIT");
}

review_block::Question make_question(const Options& options, const std::string& lifter) {
  review_block::Question question{.lifter = lifter,
                                  .lift = lifter_model::find_lift(options.lift, options.with)};
  if (!options.from.empty())
    question.from = value_or_refuse("--from", options.from, squad_log::to_date(options.from));
  if (!options.to.empty())
    question.to = value_or_refuse("--to", options.to, squad_log::to_date(options.to));
  if (question.from && question.to && !(*question.from < *question.to)) {
    throw Refusal{"--to must be after --from"};
  }
  return question;
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

Status run(const Options& options) {
  if (!options.chart.empty()) check_chart(options.chart);
  const squad_log::Log log = squad_log::read_file(options.log, options.size());
  squad_log::print_reports(std::cerr, log.name, log.reports);
  if (!log.failure.empty()) throw Refusal{log.name + ": " + log.failure};
  if (options.lifter.empty() || options.lift.empty()) {
    lifter_model::print_contents(std::cout, log, options.lifter);
    return log.refused() > 0 ? lines_refused : fine;
  }
  const std::string lifter = lifter_model::find_lifter(log, options.lifter);
  std::vector<squad_log::Entry> entries;
  for (const squad_log::Entry& entry : log.entries) {
    if (entry.lifter == lifter) entries.push_back(entry);
  }

  const bw::Unit unit = options.unit.empty() ? squad_log::usual_unit(log, lifter)
                                             : value_or_refuse(squad_log::to_unit(options.unit));
  const review_block::Review review =
      review_block::make_review(make_question(options, lifter), entries);
  const review_block::Chart chart = review_block::make_chart(review, unit);
  if (!options.chart.empty()) {
    const std::string problem = files::write_whole(options.chart, review_block::to_svg(chart));
    if (!problem.empty()) throw Refusal{"--chart " + options.chart + ": " + problem};
  }
  review_block::Page(std::cout, review, unit).print(options.text_chart ? &chart : nullptr);
  if (!options.chart.empty())
    std::cout << "\nThe chart is in " << bw::printable<std::string>(options.chart) << '\n';
  return log.refused() > 0 ? lines_refused : fine;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("review_block", nothing_reviewed, [&] {
    CLI::App app("", "review_block");
    Options options;
    declare(app, options);
    try {
      app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
      return app.exit(error) == 0 ? fine : nothing_reviewed;
    }
    return run(options);
  });
}
