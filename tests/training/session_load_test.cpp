// tests/session_load_test.cpp - the loads of sessions and weeks
//
// No worked week was seen in the papers themselves. The expected figures were computed apart from
// this library from the stated formulas (status: derived).
// SPDX-License-Identifier: BSL-1.0
#include "barwright/training/session_load.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

using namespace barwright;

namespace {

std::string message_of(auto action) {
  try {
    action();
  } catch (const DomainError& error) {
    return error.what();
  }
  return "no error";
}

constexpr std::array<double, 7> mixed_week{0, 400, 0, 450, 300, 0, 500};
constexpr std::array<double, 7> every_other_day{500, 0, 500, 0, 500, 0, 0};

}  // namespace

TEST_CASE("a session's load is its rating times its minutes") {
  static_assert(session_load(SessionRating(7, 60)) == 420.0);
  static_assert(session_load(SessionRating(0, 60)) == 0.0);
  CHECK(session_load(SessionRating(10, 1440)) == 14400.0);
}

TEST_CASE("a rating outside 0 to 10 or a session longer than a day is refused") {
  CHECK(message_of([] { SessionRating(10.5, 60); }) ==
        "the rating of a session must be a number from 0 to 10; got 10.5");
  CHECK(message_of([] { SessionRating(-1, 60); }) ==
        "the rating of a session must be a number from 0 to 10; got -1");
  CHECK(message_of([] { SessionRating(5, 1441); }) ==
        "the minutes of a session must be a number from 0 to 1440; got 1441");
  CHECK(message_of([] { SessionRating(std::nan(""), 60); }) ==
        "the rating of a session must be a number from 0 to 10; got nan");
  CHECK(message_of([] { SessionRating(5, std::nan("")); }) ==
        "the minutes of a session must be a number from 0 to 1440; got nan");
}

TEST_CASE("monotony is the mean of the days over their deviation, strain the sum times that") {
  // Foster 1998 for the definitions (abstract read); figures derived, to the digits given.
  LoadSummary week = summarise(mixed_week);
  CHECK(week.sum == 1650.0);
  CHECK(std::abs(week.mean - 235.714) < 5e-4);
  CHECK(std::abs(week.standard_deviation - 211.650) < 5e-4);
  CHECK(std::abs(week.monotony.value() - 1.1137) < 5e-5);
  CHECK(std::abs(week.strain.value() - 1837.6) < 0.05);

  week = summarise(mixed_week, Deviation::sample);
  CHECK(week.sum == 1650.0);
  CHECK(std::abs(week.standard_deviation - 228.609) < 5e-4);
  CHECK(std::abs(week.monotony.value() - 1.0311) < 5e-5);
  CHECK(std::abs(week.strain.value() - 1701.3) < 0.05);

  week = summarise(every_other_day);
  CHECK(week.sum == 1500.0);
  CHECK(std::abs(week.mean - 214.286) < 5e-4);
  CHECK(std::abs(week.standard_deviation - 247.436) < 5e-4);
  CHECK(std::abs(week.monotony.value() - 0.8660) < 5e-5);
  CHECK(std::abs(week.strain.value() - 1299.0) < 0.05);

  week = summarise(every_other_day, Deviation::sample);
  CHECK(std::abs(week.standard_deviation - 267.261) < 5e-4);
  CHECK(std::abs(week.monotony.value() - 0.8018) < 5e-5);
  CHECK(std::abs(week.strain.value() - 1202.7) < 0.05);
}

TEST_CASE("equal days have no monotony and no strain, and never an infinite one") {
  for (const double load : {0.0, 300.0, 0.1, 1e-300, 1e9, 100.0 / 3.0}) {
    for (const Deviation deviation : {Deviation::population, Deviation::sample}) {
      CAPTURE(load);
      const LoadSummary week = summarise(std::vector<double>(7, load), deviation);
      CHECK(week.standard_deviation == 0.0);
      CHECK(!week.monotony);
      CHECK(!week.strain);
      CHECK(week.sum == doctest::Approx(7 * load).epsilon(1e-15));
    }
  }
  // Days that differ only by rounding are equal days.
  CHECK(!summarise(std::array{0.3, 0.1 + 0.2, 0.3}).monotony);
  CHECK(summarise(std::array{300.0, 300.0, 300.001}).monotony.has_value());
  // In whatever unit.
  CHECK(summarise(std::array{3e-7, 3e-7, 3.00001e-7}).monotony.has_value());
  CHECK(!summarise(std::array{3e7, 1e7 + 2e7, 3e7 * (1.0 + 2e-16)}).monotony);
}

TEST_CASE("a week's order does not change its load, monotony or strain, doubling doubles strain") {
  std::mt19937 random(4);
  std::uniform_real_distribution<double> load(0.0, 900.0);
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<double> days(7);
    for (double& day : days) day = load(random);
    const LoadSummary week = summarise(days);
    std::shuffle(days.begin(), days.end(), random);
    const LoadSummary shuffled = summarise(days);
    CHECK(shuffled.strain.value() == doctest::Approx(week.strain.value()).epsilon(1e-12));
    for (double& day : days) day *= 2;
    const LoadSummary doubled = summarise(days);
    CHECK(doubled.monotony.value() == doctest::Approx(week.monotony.value()).epsilon(1e-12));
    CHECK(doubled.strain.value() == doctest::Approx(2 * week.strain.value()).epsilon(1e-12));
    // n/(n-1) more variance: a constant factor between the two deviations.
    CHECK(summarise(days, Deviation::sample).standard_deviation ==
          doctest::Approx(doubled.standard_deviation * std::sqrt(7.0 / 6.0)).epsilon(1e-12));
  }
}

TEST_CASE("one day, a negative load or no number is refused") {
  CHECK(message_of([] { (void)summarise(std::array{5.0}); }) ==
        "the days to summarise must be at least 2; got 1");
  CHECK(message_of([] {
          (void)summarise(std::array{5.0, -1.0});
        }) == "the load of a day must be a number from 0 to 1000000000; got -1");
  CHECK(message_of([] {
          (void)summarise(std::array{5.0, std::nan("")});
        }) == "the load of a day must be a number from 0 to 1000000000; got nan");
  CHECK(message_of([] {
          (void)summarise(std::array{5.0, std::numeric_limits<double>::infinity()});
        }) == "the load of a day must be a number from 0 to 1000000000; got inf");
}
