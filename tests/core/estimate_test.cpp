// Tests of barwright/core/estimate.hpp.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/estimate.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>

#include "csv_table.hpp"

using namespace barwright;
using namespace barwright::literals;
using barwright_test::relative_error;

namespace {

// Quantiles of the normal distribution as printed in every table of it [from memory].
constexpr double quantile_95 = 1.6448536269514722;
constexpr double quantile_975 = 1.9599639845400545;

template <class Ask>
std::string refusal_of(Ask ask) {
  try {
    (void)ask();
  } catch (const DomainError& error) {
    return error.what();
  }
  return "nothing was refused";
}

}  // namespace

TEST_CASE("a max of 100 kg known to 3 % lies between 95.2 and 105.1 kg nine times out of ten") {
  const Estimate<Mass> max(std::log(100.0), 0.03);
  CHECK(relative_error(max.median().kg(), 100.0) < 1e-14);
  const Range<Mass> nine_in_ten = max.interval();
  CHECK(nine_in_ten.typical == max.median());
  CHECK(relative_error(nine_in_ten.low.kg(), 100.0 * std::exp(-0.03 * quantile_95)) < 1e-14);
  CHECK(relative_error(nine_in_ten.high.kg(), 100.0 * std::exp(0.03 * quantile_95)) < 1e-14);
  CHECK(nine_in_ten.low.kg() == doctest::Approx(95.19).epsilon(1e-4));
  CHECK(nine_in_ten.high.kg() == doctest::Approx(105.06).epsilon(1e-4));
}

TEST_CASE("the level of an interval is the asker's") {
  const Estimate<Mass> max(std::log(80.0), 0.05);
  CHECK(relative_error(max.interval(0.95).high.kg(), 80.0 * std::exp(0.05 * quantile_975)) < 1e-14);
  double before = 80.0;
  for (const double level : {0.01, 0.5, 0.8, 0.9, 0.95, 0.99, 0.999999}) {
    const Range<Mass> interval = max.interval(level);
    CHECK(interval.high.kg() > before);
    before = interval.high.kg();
    // As a factor it is the same upwards as downwards.
    CHECK(relative_error(interval.low.kg() * interval.high.kg(), 80.0 * 80.0) < 1e-13);
    // And it holds what it says.
    CHECK(relative_error(max.chance_above(interval.low) - max.chance_above(interval.high), level) <
          1e-9);
  }
}

TEST_CASE("how likely is the max above a load") {
  const Estimate<Mass> max(std::log(100.0), 0.04);
  CHECK(max.chance_above(max.median()) == doctest::Approx(0.5).epsilon(1e-12));
  CHECK(relative_error(max.chance_above(max.interval(0.90).high), 0.05) < 1e-12);
  CHECK(relative_error(max.chance_above(max.interval(0.90).low), 0.95) < 1e-12);
  CHECK(max.chance_above(0_kg) == 1.0);
  CHECK(max.chance_above(-(5_kg)) == 1.0);  // a difference of loads may be negative
  double before = 1.0;
  for (int load = 80; load <= 120; load += 5) {
    const double chance = max.chance_above(Mass::from_kg(load));
    CHECK(chance < before);
    before = chance;
  }
  // Far in the tail the chance keeps its digits: 5 standard deviations, 2.8665157e-7 [from memory].
  CHECK(relative_error(max.chance_above(Mass::from_kg(100.0 * std::exp(0.2))), 2.866515719e-7) <
        1e-9);
}

TEST_CASE("the same estimate whether asked in kilograms or in pounds") {
  const Estimate<Mass> max(std::log((225_lb).kg()), 0.03);
  CHECK(relative_error(max.median().lb(), 225.0) < 1e-14);
  CHECK(max.chance_above(225_lb) == doctest::Approx(0.5).epsilon(1e-12));
}

TEST_CASE("what is known exactly is an interval of no width") {
  const Estimate<double> ratio(std::log(0.93), 0.0);
  CHECK(ratio.interval(0.99).is_exact());
  CHECK(ratio.chance_above(0.92) == 1.0);
  CHECK(ratio.chance_above(0.94) == 0.0);
  CHECK(ratio.chance_above(-1.0) == 1.0);
  CHECK(Estimate<double>(0.0, 0.0).chance_above(1.0) == 0.0);  // it is that, so not above it
  CHECK(ratio.log_sd() == 0.0);
}

TEST_CASE("a max that next to nothing is known of is still a load") {
  const Estimate<Mass> max(std::log(80.0), 50.0);
  const Range<Mass> interval = max.interval(0.90);
  CHECK(interval.high.kg() == Mass::largest_kg);
  CHECK(interval.low >= 0_kg);
  CHECK(interval.low < 1_kg);
  CHECK(Estimate<Mass>(800.0, 1.0).median().kg() == Mass::largest_kg);
}

TEST_CASE("a trend of half a per cent a week, give or take a quarter, is a gain in 98 of 100") {
  const Change trend(0.005, 0.0025);
  CHECK(trend.mean() == 0.005);
  CHECK(trend.standard_deviation() == 0.0025);
  CHECK(relative_error(trend.chance_of_gain(), 0.97724986805) <
        1e-9);  // normal table [from memory]
  const Range<double> interval = trend.interval(0.90);
  CHECK(relative_error(interval.low, 0.005 - 0.0025 * quantile_95) < 1e-12);
  CHECK(interval.typical == 0.005);
  CHECK(relative_error(interval.high, 0.005 + 0.0025 * quantile_95) < 1e-12);
  CHECK(Change(-0.005, 0.0025).chance_of_gain() ==
        doctest::Approx(1.0 - trend.chance_of_gain()).epsilon(1e-12));
  CHECK(Change(0.0, 0.01).chance_of_gain() == 0.5);
}

TEST_CASE("a change that is known exactly is a gain or is not") {
  CHECK(Change(0.01, 0.0).chance_of_gain() == 1.0);
  CHECK(Change(-0.01, 0.0).chance_of_gain() == 0.0);
  CHECK(Change(0.0, 0.0).chance_of_gain() == 0.0);
  CHECK(Change(0.01, 0.0).interval(0.5).is_exact());
}

TEST_CASE("an interval holds nine in ten where nothing else is asked") {
  const Estimate<Mass> max(std::log(100.0), 0.03);
  CHECK(max.interval().low == max.interval(0.90).low);
  CHECK(max.interval().high == max.interval(0.90).high);
  const Change trend(0.005, 0.0025);
  CHECK(trend.interval().low == trend.interval(0.90).low);
  CHECK(trend.interval().high == trend.interval(0.90).high);
}

TEST_CASE("a level outside 0 to 1 is refused, and the message says so") {
  const Estimate<Mass> max(std::log(100.0), 0.03);
  const Change trend(0.005, 0.0025);
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double level : {0.0, 1.0, -0.5, 90.0, nan}) {
    CHECK_THROWS_AS((void)max.interval(level), DomainError);
    CHECK_THROWS_AS((void)trend.interval(level), DomainError);
  }
  CHECK(refusal_of([&] { return max.interval(90.0); }) ==
        "the level of an interval must be a number above 0 and below 1; got 90");
}

TEST_CASE(
    "an estimate that is not a number, or less than certain by less than nothing, is refused") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double infinite = std::numeric_limits<double>::infinity();
  for (const double bad : {nan, infinite, -infinite}) {
    CHECK_THROWS_AS((Estimate<Mass>(bad, 0.1)), DomainError);
    CHECK_THROWS_AS(Change(bad, 0.1), DomainError);
  }
  for (const double bad : {nan, infinite, -0.001}) {
    CHECK_THROWS_AS((Estimate<double>(4.6, bad)), DomainError);
    CHECK_THROWS_AS(Change(0.01, bad), DomainError);
  }
  CHECK_NOTHROW((Estimate<Mass>(4.6, 0.0)));
}
