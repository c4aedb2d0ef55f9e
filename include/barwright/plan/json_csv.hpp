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

#include "barwright/core/printable.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/log_reader.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/table.hpp"
#include "barwright/plan/json_fields.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// The CSV of the member "log_csv", read; nothing where it is not given.
/// @throws BadRequest where nothing could be read at all.
[[nodiscard]] inline std::optional<Log> csv_from(Fields& fields) {
  const auto csv = fields.text("log_csv");
  if (!csv) return std::nullopt;
  Log log = read_log(*csv);
  if (!log.failure.empty()) refuse(fields.place("log_csv"), log.failure);
  return log;
}

/// The sets of the lifter whom "lifter" names, or of the only one, from the CSV of "log_csv"; none
/// where it is not given.
/// @throws BadRequest where a line was refused, unless "skip_refused_lines" is true: the load would
///   be one for another log.
[[nodiscard]] inline std::vector<LoggedSet> csv_sets_from(Fields& fields) {
  const std::optional<Log> log = csv_from(fields);
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
  if (lifter) {
    for (const std::string& known : lifters) {
      if (fields::plain(known) == fields::plain(*lifter)) return log->sets_of(known);
    }
    Fields::refuse_value(fields.place("lifter"), "a lifter of the log", *lifter);
  }
  if (lifters.size() > 1) {
    refuse(fields.place(),
           "\"lifter\" must be given: the log has " + std::to_string(lifters.size()) + " lifters");
  }
  return lifters.empty() ? std::vector<LoggedSet>{} : log->sets_of(lifters.front());
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
