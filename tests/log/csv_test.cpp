// CSV taken apart. Source: RFC 4180, section 2, whose examples are among the cases (from memory,
// unverified); the rest is what spreadsheets and people write.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/csv.hpp"

#include <doctest/doctest.h>

#include <ctime>
#include <string>
#include <string_view>
#include <vector>

using namespace barwright;

namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(std::string_view text) {
  Rows rows;
  CsvReader reader(text);
  CsvRecord record;
  while (reader.next(record)) rows.emplace_back(record.fields.begin(), record.fields.end());
  return rows;
}

/// How many records a text has, and how long it takes to find them.
struct WhatWasRead {
  int records = 0;
  int faults = 0;
  double seconds = 0.0;  // of the processor
};
WhatWasRead read_all(std::string_view text) {
  WhatWasRead reading;
  const std::clock_t start = std::clock();
  CsvReader reader(text);
  CsvRecord record;
  while (reader.next(record)) {
    ++reading.records;
    reading.faults += record.fault == CsvFault::none ? 0 : 1;
  }
  reading.seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  return reading;
}

std::string repeated(std::string_view part, int times) {
  std::string text;
  for (int i = 0; i < times; ++i) text += part;
  return text;
}

}  // namespace

TEST_CASE("records and fields as RFC 4180 has them") {
  CHECK(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") ==
        Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx") ==
        Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
        Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
        Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{{"aaa", "b\"bb", "ccc"}});
  CHECK(rows_of("a,,\n") == Rows{{"a", "", ""}});
  CHECK(rows_of("\"\",\"\"\"\"\n") == Rows{{"", "\""}});
}

TEST_CASE("any line end, blank lines and a byte order mark change nothing") {
  const Rows rows{{"a", "b"}, {"c", "d"}};
  CHECK(rows_of("\xEF\xBB\xBF"
                "a,b\rc,d\r") == rows);
  CHECK(rows_of("\n\n a , b \n  \nc,\td\n\n") == rows);
  CHECK(rows_of("").empty());
  CHECK(rows_of("\r\n \n").empty());
}

TEST_CASE("semicolons and tabs part fields where the first line has more of them") {
  CHECK(rows_of("a;b;c,d\n1;2,5;\n") == Rows{{"a", "b", "c,d"}, {"1", "2,5", ""}});
  CHECK(rows_of("a\tb\n\t2\n") == Rows{{"a", "b"}, {"", "2"}});
}

TEST_CASE("a lone quotation mark stands for itself") {
  CHECK(rows_of("5\" plate,b\n") == Rows{{"5\" plate", "b"}});
  CHECK(rows_of("\"a \"big\" one\" ,b\n") == Rows{{"a \"big\" one", "b"}});
}

TEST_CASE("lines are counted, and a record says where it ends") {
  CsvReader reader("a,\"b\n\nc\"\r\nd\re\n");
  CsvRecord record;
  REQUIRE(reader.next(record));
  CHECK(record.line == 1);
  CHECK(record.last_line == 3);
  REQUIRE(reader.next(record));
  CHECK(record.line == 4);
  CHECK(record.text == "d");
  REQUIRE(reader.next(record));
  CHECK(record.line == 5);
  CHECK_FALSE(reader.next(record));
}

TEST_CASE("a quotation mark that is not closed costs one record") {
  CsvReader reader("a,\"b\nc,d\ne,f\n");
  CsvRecord record;
  REQUIRE(reader.next(record));
  CHECK(record.fault == CsvFault::unclosed_quote);
  CHECK(record.line == 1);
  REQUIRE(reader.next(record));
  CHECK(record.fault == CsvFault::none);
  CHECK(record.line == 2);
  CHECK(record.fields[1] == "d");
}

TEST_CASE("a quoted field ends within the lines that a record may have") {
  const std::string fits = "a,\"" + repeated("x\n", CsvLimits{}.lines - 1) + "\"\n";
  const std::string too_long = "a,\"" + repeated("x\n", CsvLimits{}.lines) + "\"\n";
  CHECK(read_all(fits).faults == 0);
  CsvReader reader(too_long);
  CsvRecord record;
  REQUIRE(reader.next(record));
  CHECK(record.fault == CsvFault::unclosed_quote);
}

TEST_CASE("a field and a record have their limits, and the lines after them are read") {
  const auto second_after = [](const std::string& first) {
    const std::string text = first + "\nc,d\n";
    CsvReader reader(text);
    CsvRecord record;
    REQUIRE(reader.next(record));
    const CsvFault fault = record.fault;
    REQUIRE(reader.next(record));
    CHECK(record.line == 2);
    CHECK(record.fields == std::vector<std::string_view>{"c", "d"});
    CHECK_FALSE(reader.next(record));
    return fault;
  };
  const std::string ten_mb(10'000'000, 'x');
  CHECK(second_after(ten_mb) == CsvFault::field_too_long);
  CHECK(second_after("\"" + ten_mb + "\"") == CsvFault::field_too_long);
  CHECK(second_after(std::string(1'000'000, ',')) == CsvFault::too_many_fields);
  CHECK(second_after(std::string(CsvLimits{}.field_bytes, 'x')) == CsvFault::none);
  CHECK(second_after(std::string(CsvLimits{}.fields - 1, ',')) == CsvFault::none);
}

TEST_CASE("twice the text takes no more than about twice the time, whatever is in it" *
          doctest::test_suite("slow")) {
  for (const std::string_view part :
       {"2026-01-01,\"A,bench press,,60,kg,6,2,,1\n", "\"\n", "a,\"\n", "\"\"\n\"", "\"   x\n",
        "\",\n\"", "x,\"\n\",\"\n\",", "\r", "a,b,c,d\n"}) {
    CAPTURE(part);
    const WhatWasRead once = read_all(repeated(part, 50'000));
    const WhatWasRead more = read_all(repeated(part, 400'000));
    // Eight times the text; growth with the square would take 64 times as long.
    CHECK(more.seconds < 24.0 * once.seconds + 0.2);
    CHECK(more.seconds < 10.0);
  }
}
