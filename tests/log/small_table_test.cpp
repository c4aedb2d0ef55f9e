// A small table beside a log, whose columns a club names as those of its log.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/small_table.hpp"

#include <doctest/doctest.h>

#include <array>
#include <string>
#include <string_view>
#include <vector>

using namespace barwright;

namespace {

struct Columns {
  enum class Column : unsigned char { lifter, reps };
  static constexpr std::array<std::string_view, 2> names{"lifter", "reps"};
  static constexpr std::array required{Column::lifter, Column::reps};
};
using Header = TableHeader<Columns>;

struct Table {
  TableReading reading{};
  LineReports reports{};
  std::vector<std::string> lifters{};
};

/// A table of at most three rows; those without reps are refused.
Table read(std::string_view text) {
  Table table;
  table.reading = read_small_table<Columns>(
      text, table.reports, {.rows = 3, .failure = "three rows at most"},
      [&](const Header& header, const CsvRecord& row) {
        if (header.get(row, Columns::Column::reps).empty()) return false;
        table.lifters.emplace_back(header.get(row, Columns::Column::lifter));
        return true;
      });
  return table;
}

}  // namespace

TEST_CASE("a small table names its columns as the club's log does") {
  const Table table = read("Repetitions;Athlete\n5;Ana\n\n6;Bo\n");
  CHECK(table.reading.failure == "");
  CHECK(table.lifters == std::vector<std::string>{"Ana", "Bo"});
}

TEST_CASE("a row that will not do is refused, and the others are used") {
  const Table table = read("lifter,reps\nAna,\nBo,6\nCy,5,5,5\n");
  CHECK(table.lifters == std::vector<std::string>{"Bo"});
  CHECK(table.reading.rows == 3);
  CHECK(table.reading.refused == 2);
  REQUIRE(table.reports.size() == 1);  // what the row's reader refuses it reports itself
  CHECK(table.reports[0].line == 4);
}

TEST_CASE("a lifter's name is the same in a table that a spreadsheet saved in its code page") {
  CHECK(read("lifter,reps\nZo\xEB,5\n").lifters == std::vector<std::string>{"Zo\xC3\xAB"});
}

TEST_CASE("a table with more rows than it can have is another file") {
  CHECK(read("lifter,reps\nA,5\nB,5\nC,5\n").reading.failure == "");
  CHECK(read("lifter,reps\nA,5\nB,5\nC,5\nD,5\n").reading.failure == "three rows at most");
}

TEST_CASE("what is no table says so") {
  CHECK(read("").reading.failure == "there is nothing in it; the first line must name the columns");
  CHECK(read(std::string("lifter,\0", 8)).reading.failure ==
        "this is not plain text; save it as CSV in UTF-8");
  CHECK(read("lifter\nAna\n").reading.failure ==
        "line 1: the column \"reps\" is missing; found: lifter");
}
