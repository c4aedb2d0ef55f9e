// tests/date_test.cpp - calendar days, held against the calendar of the C++ standard library
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/date.hpp"

#include <doctest/doctest.h>

#include <chrono>
#include <climits>
#include <sstream>
#include <string>
#include <string_view>
#include <unordered_set>

using namespace barwright;

namespace {

// The independent method: std::chrono's proleptic Gregorian calendar.
std::chrono::year_month_day standard_day(Date date) {
  return std::chrono::sys_days(std::chrono::days(date.days_since_1970()));
}

std::string message_of(auto action) {
  try {
    action();
  } catch (const DomainError& error) {
    return error.what();
  }
  return "no error";
}

}  // namespace

TEST_CASE("every day from 1900 to 2199 is the standard library's day, there and back") {
  using namespace std::chrono;
  int days = 0;
  int wrong = 0;
  const sys_days first = 1900y / January / 1;
  for (sys_days day = first; day <= sys_days(2199y / December / 31); day += std::chrono::days(1)) {
    const year_month_day expected = day;
    const int year = static_cast<int>(expected.year());
    const int month = static_cast<int>(static_cast<unsigned>(expected.month()));
    const int day_of_month = static_cast<int>(static_cast<unsigned>(expected.day()));
    const Date date(year, month, day_of_month);
    const Text text = to_text(date);
    const bool is_right = date.days_since_1970() == day.time_since_epoch().count() &&
                          date.year() == year && date.month() == month &&
                          date.day() == day_of_month && standard_day(date) == expected &&
                          date.weekday() + 1 == static_cast<int>(weekday(day).iso_encoding()) &&
                          parse_date(text) == date && Date(1900, 1, 1) + days == date &&
                          date - days == Date(1900, 1, 1) && date - Date(1900, 1, 1) == days;
    if (!is_right) ++wrong;
    ++days;
  }
  CHECK(wrong == 0);
  CHECK(days == 300 * 365 + 73);  // 75 fourth years, less 1900 and 2100
}

TEST_CASE("exactly the days the standard library knows are days") {
  int different = 0;
  for (int year = 1890; year <= 2210; ++year) {
    for (int month = -1; month <= 14; ++month) {
      for (int day = -1; day <= 33; ++day) {
        const bool exists =
            month >= 0 && day >= 0 &&
            std::chrono::year_month_day(std::chrono::year(year),
                                        std::chrono::month(static_cast<unsigned>(month)),
                                        std::chrono::day(static_cast<unsigned>(day)))
                .ok();
        const bool in_years = 1900 <= year && year <= 2199;
        if (Date::is_valid(year, month, day) != (exists && in_years)) ++different;
      }
    }
  }
  CHECK(different == 0);
}

TEST_CASE("a leap year is a fourth year, no hundredth, but a four-hundredth") {
  CHECK(Date::is_valid(2024, 2, 29));
  CHECK(Date::is_valid(2000, 2, 29));
  CHECK(!Date::is_valid(1900, 2, 29));
  CHECK(!Date::is_valid(2100, 2, 29));
  CHECK(!Date::is_valid(2026, 2, 29));
  CHECK(Date(2024, 3, 1) - Date(2024, 2, 28) == 2);
  CHECK(Date(2026, 3, 1) - Date(2026, 2, 28) == 1);
}

TEST_CASE("weeks start on Monday") {
  // Two days everybody can look up: the epoch was a Thursday, the first moon landing a Sunday.
  static_assert(Date(1970, 1, 1).weekday() == 3);
  static_assert(Date(1969, 7, 20).weekday() == 6);
  for (int days = -800; days < 800; ++days) {
    const Date date = Date(2026, 11, 25) + days;
    CHECK((date + 7).weekday() == date.weekday());
    CHECK((date + 1).weekday() == (date.weekday() + 1) % 7);
  }
}

TEST_CASE("days add, subtract and compare") {
  constexpr Date day(2026, 11, 25);
  static_assert(day + 28 == Date(2026, 12, 23));
  static_assert(day - 28 == Date(2026, 10, 28));
  static_assert(day - Date(2026, 10, 28) == 28);
  static_assert(day < day + 1);
  static_assert(day + 0 == day);
  CHECK(Date(2199, 12, 31) - Date(1900, 1, 1) == 109572);
}

TEST_CASE("a day that does not exist is refused, and named") {
  CHECK_THROWS_AS(Date(2026, 2, 30), DomainError);
  CHECK_THROWS_AS(Date(2026, 4, 31), DomainError);
  CHECK_THROWS_AS(Date(2026, 0, 1), DomainError);
  CHECK_THROWS_AS(Date(2026, 13, 1), DomainError);
  CHECK_THROWS_AS(Date(2026, 1, 0), DomainError);
  CHECK_THROWS_AS(Date(2026, 1, -1), DomainError);
  CHECK_THROWS_AS(Date(1899, 12, 31), DomainError);
  CHECK_THROWS_AS(Date(2200, 1, 1), DomainError);
  for (const int huge : {INT_MAX, INT_MIN}) {
    CHECK_THROWS_AS(Date(huge, 1, 1), DomainError);
    CHECK_THROWS_AS(Date(2026, huge, 1), DomainError);
    CHECK_THROWS_AS(Date(2026, 1, huge), DomainError);
  }
  CHECK(message_of([] { (void)Date(2026, 2, 30); }) ==
        "a date must be a day of the years 1900 to 2199, as year, month, day; got 2026-2-30");
}

TEST_CASE("the calendar ends where it says, whatever is added") {
  CHECK_THROWS_AS((void)(Date(2199, 12, 31) + 1), DomainError);
  CHECK_THROWS_AS((void)(Date(1900, 1, 1) - 1), DomainError);
  for (const int huge : {INT_MAX, INT_MIN}) {
    CHECK_THROWS_AS((void)(Date(2199, 12, 31) + huge), DomainError);
    CHECK_THROWS_AS((void)(Date(1900, 1, 1) - huge), DomainError);
    CHECK_THROWS_AS((void)(Date(2026, 11, 25) - huge), DomainError);
  }
  CHECK(message_of([] { (void)(Date(2199, 12, 31) + 7); }) ==
        "days added to a date must be a number that stays in the years 1900 to 2199; got 7");
}

TEST_CASE("dates are written and read as ISO 8601 has them") {
  CHECK(to_text(Date(2026, 11, 25)) == "2026-11-25");
  CHECK(to_text(Date(2026, 1, 5)) == "2026-01-05");
  std::ostringstream out;
  out << Date(2026, 1, 5);
  CHECK(out.str() == "2026-01-05");
  static_assert(parse_date("2026-11-25") == Date(2026, 11, 25));
}

TEST_CASE("any other text is no date") {
  constexpr std::string_view refused[] = {"",
                                          "2026-02-30",
                                          "2026-1-05",
                                          "2026-11-5",
                                          "2026-11-25x",
                                          " 2026-11-25",
                                          "2026-11-25 ",
                                          "2026/11/25",
                                          "25-11-2026",
                                          "25.11.2026",
                                          "20261125",
                                          "2026-11",
                                          "2026-1a-25",
                                          "2026-0:-25",
                                          "2026-0/-25",
                                          "2026-11-1?",
                                          "+026-11-25",
                                          "2026--1-25",
                                          "2026-11--1",
                                          "1899-12-31",
                                          "2200-01-01",
                                          "0000-00-00",
                                          "9999-99-99",
                                          "99999999999-1-1",
                                          "2026-00-10",
                                          "2026-13-01",
                                          "2026-11-00",
                                          "2025-02-29",
                                          "2100-02-29",
                                          "yyyy-mm-dd",
                                          "2026-11-25T0",
                                          "2026_11_25",
                                          "2026_11-25",
                                          "2026-11_25"};
  for (const std::string_view text : refused) {
    CAPTURE(std::string(text));
    CHECK(!parse_date(text));
  }
  CHECK(!parse_date(std::string_view("2026-11-2\0", 10)));
}

TEST_CASE("days can be kept in a hashed set") {
  const std::unordered_set<Date> days{Date(2026, 11, 25), Date(2026, 11, 24) + 1,
                                      Date(2026, 11, 26)};
  CHECK(days.size() == 2);
}
