// barwright/log/table.ipp - the bodies of table.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/core/printable.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline std::string to_text(std::string_view file, const LineReport& report) {
  std::string text;
  append_printable(text, file);
  text.append(":").append(std::to_string(report.line)).append(": ");
  text.append(to_text(report.verdict)).append(": ");
  if (!report.column.empty()) {
    text.append(report.column).append(" \"");
    append_printable(text, report.value);
    text.append("\": ");
  }
  append_printable(text, report.text);
  return text;
}

inline void LineReports::add(LineReport report) {
  if (is_full()) {
    ++left_out_;
    return;
  }
  constexpr std::size_t longest = 500;
  if (report.value.size() > longest) report.value.replace(longest, std::string::npos, "...");
  reports_.push_back(std::move(report));
}

inline std::optional<std::string> misfit(CsvRecord& row, std::size_t columns, CsvReader& reader) {
  switch (row.fault) {
    case CsvFault::none: break;
    case CsvFault::unclosed_quote: return "a quotation mark opens here and is never closed";
    case CsvFault::field_too_long:
      return "a field must be at most " + std::to_string(CsvLimits{}.field_bytes) + " bytes long";
    case CsvFault::too_many_fields:
      return "a row must have at most " + std::to_string(CsvLimits{}.fields) + " fields";
  }
  while (row.fields.size() > columns && row.fields.back().empty()) row.fields.pop_back();
  if (row.fields.size() == columns) return std::nullopt;
  if (row.last_line > row.line) {
    reader.go_back_into(row);
    return "a quotation mark opens here and is never closed";
  }
  std::string why = "a row must have " + std::to_string(columns) +
                    " fields, as the first has; got " + std::to_string(row.fields.size());
  if (row.fields.size() > columns) {
    why += ". A field with a comma in it must stand in quotation marks";
  }
  return why;
}

}  // namespace barwright::inline BARWRIGHT_ABI
