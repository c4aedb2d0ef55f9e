// barwright/plan/json_log.hpp - what was understood of a log, and the log written back, as JSON
//
// The answer to the request "read_log", which docs/json.md describes: for a program that keeps a
// log in its own store and takes in, adds to and gives out what others keep as CSV.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/mass.hpp"
#include "barwright/log/log_reader.hpp"
#include "barwright/log/log_writer.hpp"
#include "barwright/log/table.hpp"
#include "barwright/plan/json_csv.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/json_lifter.hpp"
#include "barwright/plan/json_writer.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

namespace detail {

/// The sets of the array "log", done by the lifter whom "lifter" names.
inline void append_entries(Log& log, Fields& fields, LiftNames& names) {
  const auto lifter = fields.text("lifter");
  const Value::Array* const items = fields.array("log");
  if (items == nullptr) return;
  if (!lifter) refuse(fields.place(), "\"lifter\" must be given beside \"log\"");
  const Place at = fields.place("log");
  for (std::size_t i = 0; i < items->size(); ++i) {
    const Place at_set(at, i);
    const LoggedSet set = set_from((*items)[i], at_set, names);
    const bool is_pounds = (*items)[i].find("load_lb") != nullptr;
    LogEntry entry{.line = 0,
                   .lifter = std::string(*lifter),
                   .set = set,
                   .unit = is_pounds ? Unit::lb : Unit::kg};
    if (const Value* const note = (*items)[i].find("note"); note != nullptr && note->string()) {
      take_complaint(entry, *note->string());
      keep_doubt(entry, *note->string());
    }
    log.entries.push_back(std::move(entry));
    ++log.rows;
    ++log.rows_used;
  }
}

}  // namespace detail

/// Writes the members of the answer about a log.
inline void answer_log(Writer& json, Fields& fields, LiftNames& names) {
  Log log = csv_from(fields, names.own()).value_or(Log{});
  detail::append_entries(log, fields, names);
  fields.finish();
  json.member("outcome", "log").member("rows", log.rows).member("refused", log.refused());
  json.name("lifters").begin_array();
  for (const std::string& lifter : log.lifters()) json.value(lifter);
  json.end_array().name("understood").begin_array();
  for (const std::string& text : log.understood) json.value(text);
  json.end_array().name("reports").begin_array();
  for (const LineReport& report : log.reports) {
    json.begin_object().member("verdict", to_text(report.verdict)).member("line", report.line);
    if (!report.column.empty()) json.member("column", report.column).member("value", report.value);
    json.member("text", report.text).end_object();
  }
  json.end_array().member("csv", write_log(log));
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
