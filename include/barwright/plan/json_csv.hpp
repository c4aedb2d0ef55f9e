// barwright/plan/json_csv.hpp - a log that stands in a request as the text of a CSV file
//
// As log/log_reader.hpp reads it, so that a page in a browser plans from the file that a program on
// the command line would read.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/log_columns.hpp"
#include "barwright/log/log_reader.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/table.hpp"
#include "barwright/plan/json_fields.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// How "log_csv" is to be read where it does not say so itself: the member "log_reading".
[[nodiscard]] inline LogOptions reading_from(Fields& fields) {
  LogOptions reading;
  const Value* const value = fields.find("log_reading");
  if (value == nullptr) return reading;
  const Place at = fields.place("log_reading");
  Fields given(*value, at);
  if (const Value* const columns = given.find("columns")) {
    const Place at_columns = given.place("columns");
    if (columns->object() == nullptr) Fields::refuse_kind(at_columns, "an object", *columns);
    for (const Member& member : *columns->object()) {
      const Place at_column(at_columns, member.name);
      const std::string* const ours = member.value.string();
      if (ours == nullptr) Fields::refuse_kind(at_column, "a string", member.value);
      if (!barwright::detail::column_named(fields::plain(*ours))) {
        Fields::refuse_value(at_column, "a column of a log, such as \"lifter\"", *ours);
      }
      reading.columns.emplace_back(member.name, *ours);
    }
  }
  reading.dates = given
                      .choice<DateOrder>("dates", {{"day_first", DateOrder::day_first},
                                                   {"month_first", DateOrder::month_first}})
                      .value_or(DateOrder::unknown);
  reading.year = given.whole("year", Date::first_year, Date::last_year);
  reading.unit = given.choice<Unit>("unit", {{"kg", Unit::kg}, {"lb", Unit::lb}});
  reading.dumbbells = given.choice<DumbbellLoads>(
      "dumbbells", {{"each", DumbbellLoads::each}, {"together", DumbbellLoads::together}});
  given.finish();
  return reading;
}

/// What to add to a request whose log cannot be read before somebody says more.
[[nodiscard]] constexpr std::string_view way_to_answer(LogQuestion question) noexcept {
  switch (question) {
    case LogQuestion::none: break;
    case LogQuestion::column:
      return ": \"log_reading\": {\"columns\": {\"a name in the log\": \"lift\"}}";
    case LogQuestion::date_order: return ": \"log_reading\": {\"dates\": \"day_first\"}";
    case LogQuestion::year: return ": \"log_reading\": {\"year\": 2026}";
    case LogQuestion::unit: return ": \"log_reading\": {\"unit\": \"kg\"}";
  }
  return "";
}

/// The CSV of the member "log_csv", read; nothing where it is not given.
/// @param own  lifts beside those of the catalogue
/// @throws BadRequest where nothing could be read at all.
[[nodiscard]] inline std::optional<Log> csv_from(Fields& fields, Handles<Modifier> own) {
  const auto csv = fields.text("log_csv");
  LogOptions reading = reading_from(fields);
  if (!csv) {
    if (fields.find("log_reading") == nullptr) return std::nullopt;
    refuse(fields.place("log_reading"), "must be given beside \"log_csv\" only");
  }
  reading.own_lifts = own;
  Log log = read_log(*csv, reading);
  if (!log.failure.empty()) {
    refuse(fields.place("log_csv"), log.failure.append(way_to_answer(log.question)));
  }
  return log;
}

/// What a request's log says of the lifter.
struct GivenLog {
  std::vector<LoggedSet> sets{};  ///< of `log` and of `log_csv`
  std::vector<NotedDay> noted{};  ///< of days of which no set says so
};

/// The sets of the lifter whom "lifter" names, or of the only one, from the CSV of "log_csv"; none
/// where it is not given.
/// @param own  lifts beside those of the catalogue
/// @throws BadRequest where a line was refused, unless "skip_refused_lines" is true: the load would
///   be one for another log.
[[nodiscard]] inline GivenLog csv_sets_from(Fields& fields, Handles<Modifier> own) {
  const std::optional<Log> log = csv_from(fields, own);
  const auto lifter = fields.text("lifter");
  const bool skips_refused = fields.flag("skip_refused_lines");
  if (!log) {
    if (lifter) refuse(fields.place("lifter"), "must be given beside \"log_csv\" only");
    return {};
  }
  if (log->refused() > 0 && !skips_refused) {
    for (const LineReport& report : log->reports) {
      if (report.verdict != Verdict::refused) continue;
      refuse(fields.place("log_csv"), to_text("line", report) + " (" +
                                          std::to_string(log->refused()) +
                                          " refused; \"skip_refused_lines\" plans without them)");
    }
  }
  const std::vector<std::string> lifters = log->lifters();
  const auto of = [&](const std::string& known) {
    return GivenLog{.sets = log->sets_of(known), .noted = log->unread_of(known)};
  };
  if (lifter) {
    for (const std::string& known : lifters) {
      if (fields::plain(known) == fields::plain(*lifter)) return of(known);
    }
    Fields::refuse_value(fields.place("lifter"), "a lifter of the log", *lifter);
  }
  if (lifters.size() > 1) {
    refuse(fields.place(),
           "\"lifter\" must be given: the log has " + std::to_string(lifters.size()) + " lifters");
  }
  return lifters.empty() ? GivenLog{} : of(lifters.front());
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
