#include <doctest/doctest.h>

#include <barwright/curves/adapters.hpp>
#include <barwright/curves/effort_table.hpp>
#include <barwright/curves/rep_table.hpp>
#include <cmath>
#include <limits>
#include <sstream>
#include <string>

#include "csv_table.hpp"
#include "curve_laws.hpp"

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("a handbook chart is a rep curve, at compile time too") {
  static_assert(RepCurve<RepTable<11>>);
  static_assert(rep_tables::nsca_chart.fraction(5) == 0.87);
  constexpr Mass five = rep_tables::nsca_chart.fraction(5) * 230_kg;
  static_assert(five > 200_kg && five < 201_kg);
  barwright_test::check_curve_laws(rep_tables::nsca_chart);
  barwright_test::check_curve_laws(rep_tables::baechle_earle);
  barwright_test::check_curve_laws(anchored(rep_tables::nsca_chart));
  barwright_test::check_curve_laws(stretched(rep_tables::nsca_chart, 0.85));
}

TEST_CASE("the charts pass through every printed point [rep-load-tables.csv]") {
  const barwright_test::CsvTable table("rep-load-tables.csv");
  int nsca = 0;
  int baechle = 0;
  for (const auto& row : table.rows()) {
    const double printed =
        row.text("source_key") == "NSCA_CHART" || row.text("source_key") == "BAECHLE_EARLE_TABLE"
            ? row.number("percent_1rm") / 100.0
            : 0.0;
    if (row.text("source_key") == "NSCA_CHART") {  // read in a copy of the handout
      CHECK(rep_tables::nsca_chart.fraction(row.number("reps")) == doctest::Approx(printed));
      CHECK(row.text("status") == "VERIFIED");
      ++nsca;
    } else if (printed > 0.0) {  // from memory
      CHECK(rep_tables::baechle_earle.fraction(row.number("reps")) == doctest::Approx(printed));
      CHECK(row.text("status") == "MEMORY");
      ++baechle;
    }
  }
  CHECK(nsca == 11);
  CHECK(baechle == 13);
  CHECK(rep_tables::nsca_chart.facts().studied == rep_tables::nsca_chart.studied());
  CHECK(rep_tables::baechle_earle.facts().studied == rep_tables::baechle_earle.studied());
  CHECK(rep_tables::nsca_chart.facts().source.reading == Reading::read);
  CHECK(rep_tables::baechle_earle.facts().source.reading == Reading::from_memory);
}

TEST_CASE("between points the curve never leaves the two it lies between") {
  // An uneven table on which an ordinary cubic spline overshoots.
  constexpr RepTable<6> steep{{{1, 1.0}, {2, 0.99}, {3, 0.50}, {8, 0.49}, {9, 0.10}, {20, 0.09}}};
  barwright_test::check_curve_laws(steep);
  const double ends[][4] = {{1, 2, 1.0, 0.99},
                            {2, 3, 0.99, 0.5},
                            {3, 8, 0.5, 0.49},
                            {8, 9, 0.49, 0.1},
                            {9, 20, 0.1, 0.09}};
  for (const auto& piece : ends) {
    for (double t = 0.0; t <= 1.0; t += 0.01) {
      const double share = steep.fraction(piece[0] + t * (piece[1] - piece[0]));
      CHECK(share <= piece[2]);
      CHECK(share >= piece[3]);
    }
  }
}

TEST_CASE("two points make a straight line") {
  constexpr RepTable<2> line{{{1, 1.0}, {11, 0.5}}};
  barwright_test::check_curve_laws(line);
  CHECK(line.fraction(6.0) == doctest::Approx(0.75));
  CHECK(line.reps(0.6) == doctest::Approx(9.0));
}

TEST_CASE("interpolation agrees with the harmonic-mean slopes worked by hand") {
  // Points 1, 0.9, 0.6 at 1, 2, 3: secants -0.1, -0.3, slope at 2 is -2(0.1)(0.3)/(0.4) = -0.15;
  // end slopes by three points: at 1 it is -0.1 + 0.1 = 0, which turns, so half the secant, -0.05.
  constexpr RepTable<3> table{{{1, 1.0}, {2, 0.9}, {3, 0.6}}};
  CHECK(table.slope(2.0) * table.fraction(2.0) == doctest::Approx(-0.15));
  CHECK(table.slope(1.0) * table.fraction(1.0) == doctest::Approx(-0.05));
  // At 3: (3(-0.3) - (-0.1))/2 = -0.4. Hermite at 2.5: (0.9 + 0.6)/2 + (-0.15 + 0.4)/8.
  CHECK(table.slope(3.0) * table.fraction(3.0) == doctest::Approx(-0.4));
  CHECK(table.fraction(2.5) == doctest::Approx(0.75 + 0.25 / 8.0));
}

TEST_CASE("unevenly spaced points are joined as SciPy 1.10 joins them [PchipInterpolator]") {
  constexpr RepTable<6> table{{{1, 1.0}, {2, 0.95}, {4, 0.88}, {8, 0.80}, {9, 0.70}, {15, 0.65}}};
  struct Row {
    double reps;
    double share;
    double slope;
  };
  for (const Row& row :
       {Row{1, 1.0, -0.055}, Row{1.5, 0.973375, -0.05075}, Row{2, 0.95, -0.042},
        Row{3, 0.9110625, -0.0354375}, Row{4, 0.88, -0.02625},
        Row{6, 0.8461057692307693, -0.013822115384615377}, Row{8, 0.80, -0.03846153846153845},
        Row{8.5, 0.7476005645730416, -0.1355681016231476}, Row{9, 0.70, -0.01926605504587154}}) {
    CAPTURE(row.reps);
    CHECK(table.fraction(row.reps) == doctest::Approx(row.share).epsilon(1e-13));
    CHECK(table.slope(row.reps) * row.share == doctest::Approx(row.slope).epsilon(1e-12));
  }
}

TEST_CASE("a table out of order is refused") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(RepTable<2>({{2, 1.0}, {1, 0.9}}), DomainError);
  CHECK_THROWS_AS(RepTable<2>({{1, 0.9}, {2, 0.9}}), DomainError);
  CHECK_THROWS_AS(RepTable<2>({{1, 0.9}, {2, 0.95}}), DomainError);
  CHECK_THROWS_AS(RepTable<2>({{0, 1.0}, {2, 0.9}}), DomainError);
  CHECK_THROWS_AS(RepTable<2>({{1, 1.0}, {2, 0.0}}), DomainError);
  CHECK_THROWS_AS(RepTable<2>({{1, 1.0}, {2, nan}}), DomainError);
  CHECK_THROWS_AS(RepTable<2>({{1, std::numeric_limits<double>::infinity()}, {2, 0.5}}),
                  DomainError);
  CHECK_THROWS_AS(RepTable<2>({{nan, 1.0}, {2, 0.5}}), DomainError);
}

TEST_CASE("five reps with two left take the share of seven to failure") {
  CHECK(*effort_table_share(rep_tables::nsca_chart, 5_reps, 2_rir) == 0.83);
  CHECK(!effort_table_share(rep_tables::nsca_chart, 10_reps, 3_rir));  // the chart ends at 12
}

TEST_CASE("an effort table in per cent, with a dash where the chart ends") {
  std::ostringstream out;
  print_effort_table(out, rep_tables::nsca_chart, {.most_reps = 11, .most_reserve = 2});
  const std::string text = out.str();
  CHECK(text.find("reps       0 RIR   1 RIR   2 RIR\n"
                  "1            100      95      93\n") == 0);
  CHECK(text.find("10            75    72.7      70\n"
                  "11          72.7      70       -\n") != std::string::npos);
}

TEST_CASE("an effort table as loads, rounded down to what can be loaded") {
  std::ostringstream out;
  print_effort_table(out, rep_tables::nsca_chart,
                     {.most_reps = 2, .most_reserve = 1, .max = 100_kg, .step = 2.5_kg});
  CHECK(out.str() ==
        "Loads in kg for a 1RM of 100 kg, rounded down to 2.5 kg\n"
        "reps       0 RIR   1 RIR\n"
        "1            100      95\n"
        "2             95    92.5\n");
  std::ostringstream pounds;
  print_effort_table(pounds, rep_tables::nsca_chart,
                     {.most_reps = 1, .most_reserve = 1, .max = 225_lb, .unit = Unit::lb});
  CHECK(pounds.str() ==
        "Loads in lb for a 1RM of 225 lb\n"
        "reps       0 RIR   1 RIR\n"
        "1            225   213.8\n");
  CHECK_THROWS_AS(print_effort_table(out, rep_tables::nsca_chart, {.most_reps = 0}), DomainError);
  CHECK_THROWS_AS(print_effort_table(out, rep_tables::nsca_chart, {.most_reserve = 31}),
                  DomainError);
}
