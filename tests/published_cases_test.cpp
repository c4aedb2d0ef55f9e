// Every row of tests/data/published-cases.csv, which says beside each value where it is from and
// whether it was read (VERIFIED), computed from a formula that was read (DERIVED-V) or from memory
// (DERIVED-M), or from memory itself (MEMORY). Rows that cannot be an oracle are named here with
// the reason, and the counts at the end see to it that none is passed over in silence.
#include <doctest/doctest.h>

#include <barwright/core/effort.hpp>
#include <barwright/curves/equations.hpp>
#include <barwright/curves/regressions.hpp>
#include <barwright/curves/rep_table.hpp>
#include <barwright/curves/velocity.hpp>
#include <cmath>
#include <map>
#include <string>

#include "csv_table.hpp"

using namespace barwright;
using namespace barwright::literals;
using barwright_test::CsvTable;

namespace {

using Row = CsvTable::Row;

double max_by(const auto& equation, const Row& row) {
  return row.number("load_value") / equation.fraction(row.number("reps"));
}

}  // namespace

TEST_CASE("published cases") {
  const CsvTable table("published-cases.csv");
  std::map<std::string, int> unusable;
  int checked = 0;

  for (const Row& row : table.rows()) {
    const std::string key = row.text("equation_key");
    const std::string source = row.text("source_key");
    CAPTURE(source);
    CAPTURE(key);
    CAPTURE(row.text("input_description"));
    const auto expect = [&](double value) {
      CHECK(std::abs(value - row.number("published_result")) <= row.number("tolerance"));
      ++checked;
    };

    if (key == "epley_1_30" || key == "epley_vs_brzycki") {
      expect(max_by(equations::epley, row));
      if (key == "epley_vs_brzycki") {
        CHECK(std::abs(max_by(equations::brzycki, row) - row.number("published_result")) <=
              row.number("tolerance"));
      }
    } else if (key == "epley_0.0333") {
      expect(max_by(equations::welday, row));
    } else if (key == "brzycki" && source == "CALC") {
      expect(max_by(equations::brzycki, row));
    } else if (key == "brzycki_dec") {
      const LinearShare decimal({.at_zero = 1.0278, .per_rep = 0.0278, .last_rep = 36.0});
      expect(max_by(decimal, row));
    } else if (key == "lander") {
      expect(max_by(equations::lander, row));
    } else if (key == "lombardi") {
      expect(max_by(equations::lombardi, row));
    } else if (key == "mayhew_1992" && source == "CALC") {
      expect(max_by(equations::mayhew, row));
    } else if (key == "oconner") {
      expect(max_by(equations::oconner, row));
    } else if (key == "wathen") {
      expect(max_by(equations::wathen, row));
    } else if (key == "adams") {
      expect(max_by(equations::adams, row));
    } else if (key == "berger") {
      expect(max_by(equations::berger, row));
    } else if (key == "brown") {
      expect(max_by(equations::brown, row));
    } else if (key == "kemmler_2006") {
      expect(max_by(equations::kemmler, row));
    } else if (key == "nsca_chart") {
      expect(row.number("load_value") * rep_tables::nsca_chart.fraction(row.number("reps")));
    } else if (key == "reynolds_lp_5rm") {
      expect(regressions::reynolds_leg_press_5rm
                 .max_from(Mass::from_kg(row.number("load_value")), 5_reps)
                 .kg());
    } else if (key == "aw_chest_press" || key == "aw_shoulder_press") {
      const auto& line = key == "aw_chest_press" ? regressions::abadie_wentworth_chest_press
                                                 : regressions::abadie_wentworth_shoulder_press;
      expect(line.max_from(Mass::from_lb(row.number("load_value")), 8_reps).lb());
    } else if (key == "kravitz_squat" || key == "kravitz_bench") {
      const auto& plane =
          key == "kravitz_squat" ? regressions::kravitz_squat : regressions::kravitz_bench_press;
      const Mass load = Mass::from_kg(row.number("load_value"));
      const Reps reps(static_cast<int>(row.number("reps")));
      expect(plane.max_from(load, reps).kg());
      CHECK(plane.is_studied(load, reps));
    } else if (key == "gb_sm_bench_mpv") {
      expect(100.0 * velocity_curves::bench_press.share(row.number("load_value")));
    } else if (key == "naclerio_squat_av") {
      expect(row.text("load_unit") == "m/s"
                 ? 100.0 * velocity_curves::parallel_squat.share(row.number("load_value"))
                 : velocity_curves::parallel_squat.velocity(row.number("load_value") / 100.0));
    } else if (key == "epley_sd") {
      // The printed spread of predictions fits the line's slope: 225 lb x 1/30 x 5.5 reps.
      expect(225.0 * equations::epley.per_rep() * row.number("reps"));
    } else if (source == "TEST225_ABSTRACT" && key == "brzycki") {
      // Convex in the reps, so a group's mean prediction is at least that of its mean.
      CHECK(row.number("published_result") >= max_by(equations::brzycki, row));
      ++checked;
    } else if (key == "actual_1rm") {
      // Only Brzycki differed from the measured max: at the mean reps Epley is nearer.
      const double actual = row.number("published_result");
      CHECK(std::abs(max_by(equations::epley, row) - actual) <
            std::abs(max_by(equations::brzycki, row) - actual));
      ++checked;
    } else if (key == "braith_untrained") {
      // Means rebuilt from the abstract: a 7-10RM load was 79.1 % of the max after training.
      const auto& trained = regressions::braith_trained_knee_extension;
      const double max = trained.intercept / (1.0 - trained.per_load * 0.791);
      const Mass load = Mass::from_kg(0.791 * max);
      CHECK(std::abs(trained.max_from(load, 8_reps).kg() - max) <= 1e-9);
      expect(regressions::braith_untrained_knee_extension.max_from(load, 8_reps).kg() - max);
    } else if (key == "rpe_at_1rm") {
      // The published mean rating of a true max is within a deviation of 10, the scale's maximal.
      CHECK(std::abs(10.0 - row.number("published_result")) <= row.number("tolerance"));
      REQUIRE(reps_in_reserve(10_rpe));
      CHECK(reps_in_reserve(Rpe(9.5))->typical == reps_in_reserve(10_rpe)->typical);
      ++checked;
    } else if (key == "v1rm") {
      // Competitive lifters finish a max slower than the general curve has it at 100 %.
      CHECK(row.number("published_result") < velocity_curves::bench_press.velocity(1.0));
      ++checked;
    } else if (key == "two_equations_bench") {
      // 85 % of the measured mean, lifted for the 6 reps that the chart gives at 85 %.
      const double load = 0.85 * row.number("published_result");
      const double reps = rep_tables::nsca_chart.reps(0.85);
      CHECK(std::abs(load / equations::brzycki.fraction(reps) - 94.2) <= 1.5);
      ++checked;
    } else if (source == "TEST225_ABSTRACT" && key == "mayhew_1992") {
      CHECK(row.text("note").find("DO NOT USE AS ORACLE") == 0);
      ++unusable["marked do-not-use: the printed mean cannot come from the formula"];
    } else if (key == "nfl225_mayhew") {
      ++unusable
          ["coefficients from memory fail a check against this study; the library leaves them out"];
    } else if (source == "NASCIMENTO_2007") {
      ++unusable["a group's mean error; the individual sets were not published"];
    } else if (key == "naclerio_squat_rpe") {
      ++unusable["an effort scale of 0 to 10 that does not count reps in reserve"];
    } else {
      FAIL_CHECK("no check for this row");
    }
  }

  CHECK(unusable.size() == 4);
  CHECK(checked + static_cast<int>(unusable.size()) == static_cast<int>(table.size()));
}

TEST_CASE("the 225-lb test: Epley with 0.033 gives the printed mean [conference abstract, read]") {
  // Mean 12.3 reps, predicted 316.3 lb: linear, so the mean of predictions is exact.
  const LinearMultiplier short_print({.at_zero = 1.0, .per_rep = 0.033});
  CHECK(std::abs(225.0 / short_print.fraction(12.3) - 316.3) <= 0.05);
  CHECK(std::abs(225.0 / equations::epley.fraction(12.3) - 316.3) > 0.5);
}

TEST_CASE("Mayhew's curve cannot give the mean printed for it, so it is no oracle") {
  CHECK(225.0 / equations::mayhew.fraction(12.3) < 306.5);
}

TEST_CASE("a football group's five-rep ratio [Schroeder 2003, thesis abstract read]") {
  // 261.8 / 308.9 lb, a ratio of means: below Brzycki's and Epley's share by 1 to 4 points.
  const double ratio = 261.8 / 308.9;
  CHECK(equations::brzycki.fraction(5.0) - ratio > 0.03);
  CHECK(equations::epley.fraction(5.0) - ratio < 0.02);
}

TEST_CASE("leg presses allow more reps than any bench equation says [Richens 2014, read]") {
  const CsvTable table("rep-load-tables.csv");
  int rows = 0;
  for (const Row& row : table.rows()) {
    if (row.text("source_key") != "RICHENS_2014") continue;
    CHECK(row.number("reps") > equations::brzycki.reps(row.number("percent_1rm") / 100.0));
    ++rows;
  }
  CHECK(rows == 6);
}
