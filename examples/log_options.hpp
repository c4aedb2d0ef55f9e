// examples/log_options.hpp - the options that say how a log is to be read where it does not say so
//
// docs/log.md has the rules. A log of which a fifth is refused is not planned from before somebody
// says that the rest is right.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <iostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/log/own_lifts.hpp"
#include "barwright/log/rating_scale.hpp"
#include "files.hpp"
#include "option_checks.hpp"
#include "program.hpp"
#include "squad_log.hpp"

namespace log_options {

namespace bw = barwright;

/// As typed.
struct Options {
  std::string log{};
  bool any_size = false;
  bool use_the_rest = false;
  std::string columns{};
  std::string dates{};
  int year = 0;
  std::string log_unit{};
  std::string dumbbells{};
  std::string ratings{};
  std::string own_lifts{};
};

inline void add(CLI::App& app, Options& options) {
  option_checks::add_any_size(app, options.any_size);
  app.add_flag("--use-the-rest", options.use_the_rest,
               "go on where a fifth of the log cannot be read");
  app.add_option("--columns", options.columns,
                 "odd column names, such as\n\"who=lifter; bar=load\"")
      ->type_name("NAMES");
  app.add_option("--dates", options.dates, "day-first or month-first, where no date tells")
      ->check(option_checks::one_of({"day-first", "month-first"}))
      ->type_name("WHICH");
  app.add_option("--year", options.year, "of dates without one")
      ->check(option_checks::whole_number("a year", bw::Date::first_year, bw::Date::last_year))
      ->type_name("YEAR");
  app.add_option("--log-unit", options.log_unit, "kg or lb, where the log does not say")
      ->check(option_checks::one_of({"kg", "lb"}))
      ->type_name("UNIT");
  app.add_option("--dumbbells", options.dumbbells,
                 "each or together: what a load of dumbbells is;\nelse together")
      ->check(option_checks::one_of({"each", "together"}))
      ->type_name("WHICH");
  app.add_option("--ratings", options.ratings,
                 "reps-in-reserve or rpe: what the log's reps in\nreserve are; else as they read")
      ->check(option_checks::one_of({"reps-in-reserve", "rpe"}))
      ->type_name("WHICH");
  app.add_option(
         "--own-lifts", options.own_lifts,
         "lifts that are not known here, a CSV file with the\ncolumns name,lift,low,typical,high "
         "(docs/variations.md)")
      ->type_name("FILE");
}

/// The lifts of --own-lifts; none where it is not given. Says on standard error what is wrong with
/// its lines. It must outlive all that is read and planned.
inline bw::OwnLifts read_own_lifts(const Options& options) {
  if (options.own_lifts.empty()) return {};
  const auto text = files::read_whole(options.own_lifts);
  if (!text.value) throw program::Refusal(options.own_lifts + ": " + text.problem);
  bw::OwnLifts own = bw::read_own_lifts(*text.value);
  squad_log::print_reports(std::cerr, options.own_lifts, own.reports);
  if (!own.failure.empty()) throw program::Refusal(options.own_lifts + ": " + own.failure);
  return own;
}

/// What a load of dumbbells is.
inline bw::DumbbellLoads dumbbells_of(const Options& typed) {
  return typed.dumbbells == "each" ? bw::DumbbellLoads::each : bw::DumbbellLoads::together;
}

/// What the log's reps in reserve are, as far as somebody said.
inline bw::RatingScale to_scale(const Options& typed) {
  if (typed.ratings.empty()) return bw::RatingScale::as_found;
  return typed.ratings == "rpe" ? bw::RatingScale::rpe : bw::RatingScale::reps_in_reserve;
}

/// What was typed, for the reader.
/// @param lifter  whose log it is where it has no column for that; may be empty
inline bw::LogOptions to_reading(const Options& typed, std::string_view lifter) {
  bw::LogOptions reading;
  std::string_view rest = typed.columns;
  while (!rest.empty()) {
    std::string_view pair = bw::detail::take_until(rest, ";,");
    const std::string theirs(bw::detail::take_until(pair, "="));
    const std::string ours(bw::fields::trimmed(pair));
    if (theirs.empty() || !bw::detail::column_named(bw::fields::plain(ours))) {
      throw program::Refusal(
          "--columns must pair a name in the log with one of ours, as in \"who=lifter\"; got " +
          typed.columns);
    }
    reading.columns.emplace_back(theirs, ours);
  }
  if (!typed.dates.empty()) {
    reading.dates =
        typed.dates == "day-first" ? bw::DateOrder::day_first : bw::DateOrder::month_first;
  }
  if (typed.year != 0) reading.year = typed.year;
  reading.unit = bw::parse_unit(typed.log_unit);
  reading.ratings_are_told = !typed.ratings.empty();
  if (!typed.dumbbells.empty()) reading.dumbbells = dumbbells_of(typed);
  if (!lifter.empty()) reading.lifter = lifter;
  return reading;
}

/// The first column that a failure says is missing.
inline std::string missing_column(std::string_view failure) {
  constexpr std::string_view before = "the column \"";
  const std::size_t at = failure.find(before);
  if (at == std::string_view::npos) return "lift";
  failure.remove_prefix(at + before.size());
  return std::string(failure.substr(0, failure.find('"')));
}

/// Reads the log and says on standard error how, and what is wrong with it.
inline squad_log::Log read(const Options& options, const bw::OwnLifts& own,
                           std::string_view lifter = {}) {
  const auto size = options.any_size ? files::Size::any : files::Size::usual;
  bw::LogOptions reading = to_reading(options, lifter);
  reading.own_lifts = own.modifiers();
  squad_log::Log log = squad_log::read_file(options.log, size, reading);
  squad_log::print_reading(std::cerr, log);
  switch (log.question) {
    case bw::LogQuestion::none: break;
    case bw::LogQuestion::column:
      log.failure +=
          ". Is it there under another name? --columns \"that name=" + missing_column(log.failure) +
          "\"";
      break;
    case bw::LogQuestion::date_order: log.failure += ": --dates day-first or month-first"; break;
    case bw::LogQuestion::year: log.failure += ": --year 2026"; break;
    case bw::LogQuestion::unit: log.failure += ": --log-unit kg"; break;
  }
  return log;
}

/// Refuses to plan from a log of which too much was refused.
inline void confirm(const squad_log::Log& log, const Options& options) {
  if (!log.needs_confirmation() || options.use_the_rest) return;
  throw program::Refusal(log.name + ": " + std::to_string(log.refused()) + " of " +
                         std::to_string(log.rows) +
                         " rows could not be read. Fix them, or go on with --use-the-rest");
}

}  // namespace log_options
