// Tests of barwright/learn/model/curve_table.hpp.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/curves/adapters.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <type_traits>

#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_table.hpp"

using namespace barwright;

namespace {

// The greatest difference between a table and its curve on a fine grid up to `most_reps`.
template <RepCurve C>
double greatest_error(const C& curve, double most_reps) {
  const CurveTable table(curve);
  const double first = std::fmax(curve.defined().low, 1.0);
  const double last = std::fmin(curve.defined().high, most_reps);
  const double at_first = std::log(curve.fraction(first)) - table.log_fraction(first);
  double greatest = 0.0;
  constexpr int steps = 20000;
  for (int i = 0; i <= steps; ++i) {
    const double reps = std::fmin(first + (last - first) * i / steps, last);
    const double error =
        std::fabs(table.log_fraction(reps) - (std::log(curve.fraction(reps)) - at_first));
    greatest = std::fmax(greatest, error);
  }
  return greatest;
}

// What every table keeps, whatever its curve.
void check_table_laws(const CurveTable& table) {
  const RepRange defined = table.defined();
  const auto is_at_an_end = [&](double reps) {
    constexpr double h = 1e-5;
    return std::fabs(reps - defined.low) < h || std::fabs(reps - defined.high) < h;
  };
  double before = table.log_fraction(-5.0);
  for (int i = 0; i <= 2000; ++i) {
    const double reps = -4.9 + (defined.high + 20.0) * i / 2000.0;
    CAPTURE(reps);
    const CurveTable::Point point = table.at(reps);
    CHECK(point.log_fraction < before);
    CHECK(point.slope < 0.0);
    before = point.log_fraction;
    // To a few roundings; more reps where the curve is so flat that they hardly matter.
    const double off = std::fabs(table.reps(point.log_fraction) - reps);
    CHECK(off * -point.slope < 1e-12 * (1.0 + std::fabs(reps)));
    CHECK(off < 1e-7);
    const CurveTable::Place place = table.place(point.log_fraction);
    CHECK(place.reps == table.reps(point.log_fraction));
    if (!is_at_an_end(reps)) CHECK(std::fabs(place.slope / point.slope - 1.0) < 1e-4);
    const double h = 1e-5;
    const double numeric = (table.log_fraction(reps + h) - table.log_fraction(reps - h)) / (2 * h);
    if (!is_at_an_end(reps))
      CHECK(std::fabs(point.slope - numeric) < 1e-7 + 1e-4 * std::fabs(numeric));
  }
}

// A chart that starts at three reps (invented).
constexpr RepTable<4> from_three_on{{{3, 0.92}, {5, 0.86}, {8, 0.78}, {12, 0.68}}};

}  // namespace

TEST_CASE("a table is its equation to a billionth, as far as a quarter of the max") {
  // Brzycki, Lander and Adams are straight lines that run to no load at all. Between points h apart
  // in log reps a cubic is off by h^4/384 times the fourth derivative of the log, which for such a
  // line, at a share p, is about 6 ((1 - p)/p)^4: with h = 1/256, below 1e-9 while p > 0.2, and at
  // their last rep, where p is about 0.1, still below 1e-4 of the load.
  equations::for_each([](const auto& equation) {
    CAPTURE(equation.facts.name);
    double most_reps = equation.defined().high;
    if (equation.fraction(most_reps) < 0.25) most_reps = equation.reps(0.25);
    CHECK(most_reps >= equation.studied().high);
    CHECK(greatest_error(equation, most_reps) < 1e-9);
    CHECK(greatest_error(equation, equation.defined().high) < 1e-4);
  });
}

TEST_CASE("a table is its chart to a hundred-thousandth: charts bend at their points") {
  CHECK(greatest_error(rep_tables::nsca_chart, 100.0) < 1e-5);
  CHECK(greatest_error(rep_tables::baechle_earle, 100.0) < 1e-5);
  CHECK(greatest_error(from_three_on, 100.0) < 1e-5);
}

TEST_CASE("a table of an adapted curve is that curve") {
  CHECK(greatest_error(anchored(equations::epley), 100.0) < 1e-9);
  CHECK(greatest_error(stretched(equations::wathen, 0.8), 100.0) < 1e-9);
  CHECK(greatest_error(stretched(equations::mayhew, 1.4), 100.0) < 1e-9);
  CHECK(greatest_error(blend(equations::epley, equations::wathen), 100.0) < 1e-9);
}

TEST_CASE("every table falls, is the inverse of itself, and knows its slope") {
  equations::for_each([](const auto& equation) {
    CAPTURE(equation.facts.name);
    check_table_laws(equation);
  });
  check_table_laws(rep_tables::nsca_chart);
  check_table_laws(rep_tables::baechle_earle);
  check_table_laws(from_three_on);
}

TEST_CASE("one rep is the whole max, even where the equation says otherwise") {
  equations::for_each([](const auto& equation) {
    CAPTURE(equation.facts.name);
    const CurveTable table = equation;
    CHECK(std::fabs(table.log_fraction(1.0)) < 1e-15);
    CHECK(std::fabs(table.reps(0.0) - 1.0) < 1e-14);
    // The inverse in one go: five reps are what the anchored equation says.
    const double share = equation.fraction(5.0) / equation.fraction(1.0);
    CHECK(std::fabs(table.reps(std::log(share)) - 5.0) < 1e-9);
  });
}

TEST_CASE("beyond its ends a table goes on in the straight line it arrived in") {
  const CurveTable table = equations::wathen;
  const double first_slope = equations::wathen.slope(1.0);
  const double last_slope = equations::wathen.slope(100.0);
  for (const double reps : {-1000.0, -3.0, 0.0, 0.5}) {
    CHECK(std::fabs(table.log_fraction(reps) - first_slope * (reps - 1.0)) <
          1e-12 * (1.0 + std::fabs(reps)));
    CHECK(table.at(reps).slope == first_slope);
  }
  const double at_last = table.log_fraction(100.0);
  for (const double reps : {100.5, 150.0, 1e4}) {
    CHECK(std::fabs(table.log_fraction(reps) - (at_last + last_slope * (reps - 100.0))) <
          1e-12 * reps);
    CHECK(table.at(reps).slope == last_slope);
  }
  // A load above the max is a set of less than one rep; one of a feather, of very many.
  CHECK(table.reps(std::log(1.05)) < 1.0);
  CHECK(table.reps(std::log(1e-6)) > 100.0);
  for (const double share : {1e-300, 1e-9, 0.1, 0.9, 1.0, 1.1, 1e9}) {
    const double reps = table.reps(std::log(share));
    CHECK(std::isfinite(reps));
    CHECK(std::fabs(table.log_fraction(reps) - std::log(share)) <
          1e-11 * (1.0 + std::fabs(std::log(share))));
  }
}

TEST_CASE("there is no step where the straight lines begin") {
  equations::for_each([](const auto& equation) {
    CAPTURE(equation.facts.name);
    const CurveTable table = equation;
    for (const double end : {table.defined().low, table.defined().high}) {
      const double h = 1e-9 * end;
      const double slope = std::fabs(table.at(end).slope);
      CHECK(std::fabs(table.log_fraction(end + h) - table.log_fraction(end - h)) < 3.0 * slope * h);
      CHECK(std::fabs(table.at(end + h).slope / table.at(end - h).slope - 1.0) < 1e-5);
    }
  });
}

TEST_CASE("a chart that starts at three reps is brought back to one in a straight line") {
  const CurveTable table = from_three_on;
  CHECK(table.defined() == RepRange{3.0, 12.0});
  const double slope = from_three_on.slope(3.0);
  for (const double reps : {0.0, 1.0, 2.0, 3.0}) {
    CHECK(std::fabs(table.log_fraction(reps) - slope * (reps - 1.0)) < 1e-12);
  }
  // From there on the steps between loads are the chart's own.
  const double step = std::log(from_three_on.fraction(8.0) / from_three_on.fraction(5.0));
  CHECK(std::fabs(table.log_fraction(8.0) - table.log_fraction(5.0) - step) < 1e-5);
}

TEST_CASE("a curve that starts before one rep is read from one on") {
  const CriticalLoad critical(0.4, 9.0);
  CHECK(critical.defined().low == 0.0);
  const CurveTable table = critical;
  CHECK(table.defined() == RepRange{1.0, 100.0});
  CHECK(std::fabs(table.log_fraction(1.0)) < 1e-15);
  CHECK(greatest_error(critical, 100.0) < 1e-9);
  check_table_laws(table);
}

TEST_CASE("any curve will do where a table is asked for, and a table is not made from a table") {
  static_assert(std::is_convertible_v<LinearMultiplier, CurveTable>);
  static_assert(std::is_convertible_v<Stretched<LinearMultiplier>, CurveTable>);
  static_assert(!std::is_constructible_v<CurveTable, double>);
  const CurveTable table = equations::epley;
  const CurveTable copy = table;  // NOLINT: a copy is what is tested
  CHECK(copy.log_fraction(7.3) == table.log_fraction(7.3));
}
