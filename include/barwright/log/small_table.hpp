// barwright/log/small_table.hpp - a small table in CSV, as somebody writes it beside a log
//
// Lifts of one's own, what a squad trains today, a week: the first line names the columns, by the
// names that a log may give them, too, in any encoding that a log may have. A row that will not do
// is refused by its line, and the others are used. With more rows than such a table has it is
// another file: nothing of it is used, and nobody waits for the rest.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "barwright/log/csv.hpp"
#include "barwright/log/encoding.hpp"
#include "barwright/log/log_columns.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What came of reading a small table.
struct TableReading {
  std::string failure{};  ///< why nothing of it is to be used; empty where there is no reason
  int rows = 0;           ///< with anything in them, without the first
  int refused = 0;        ///< of them
};

/// How many rows a small table has at most, and what to say of one with more.
struct TableBound {
  int rows = 0;           ///< at most, without the first
  std::string failure{};  ///< of a table with more
};

/// Reads a small table; what is wrong with its rows goes to `reports`.
/// @param read_row  takes the header and a row; false where it refused the row
/// @param heading   puts the names of the first row as `Columns` has them
template <class Columns, class ReadRow, class Heading = CsvRecord (*)(CsvRecord)>
[[nodiscard]] TableReading read_small_table(std::string_view bytes, LineReports& reports,
                                            const TableBound& bound, ReadRow read_row,
                                            Heading heading = by_our_names<Columns>) {
  const DecodedText decoded = decode(bytes);
  if (decoded.encoding == Encoding::none) {
    return {.failure = "this is not plain text; save it as CSV in UTF-8"};
  }
  CsvReader reader(decoded.of(bytes));
  CsvRecord row;
  if (!reader.next(row)) {
    return {.failure = "there is nothing in it; the first line must name the columns"};
  }
  const auto header = TableHeader<Columns>::read(heading(row));
  if (!header.value) {
    return {.failure = "line " + std::to_string(row.line) + ": " + header.problem};
  }
  TableReading reading;
  while (reader.next(row)) {
    if (row.is_empty() && row.fault == CsvFault::none) continue;
    if (++reading.rows > bound.rows) {
      reading.failure = bound.failure;
      return reading;
    }
    if (auto problem = misfit(row, header.value->size(), reader)) {
      reports.add({.line = row.line, .text = *std::move(problem)});
      ++reading.refused;
    } else if (!read_row(*header.value, row)) {
      ++reading.refused;
    }
  }
  return reading;
}

}  // namespace barwright::inline BARWRIGHT_ABI
