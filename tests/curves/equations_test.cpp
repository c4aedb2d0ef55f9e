#include <doctest/doctest.h>

#include <barwright/curves/adapters.hpp>
#include <barwright/curves/compare.hpp>
#include <barwright/curves/equations.hpp>
#include <barwright/curves/regressions.hpp>
#include <cmath>
#include <string>

#include "curve_laws.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace barwright::equations;

// Values against published cases are in published_cases_test.cpp. The short classic formulas are
// from memory, so the tables here show that the forms are coded as remembered, not that memory is
// right; Kemmler's and the regressions were read in abstracts.

namespace {

double multiplier(const auto& equation, int reps) {
  return one_rep_max(equation, 1_kg, Reps(reps)).kg();
}

}  // namespace

TEST_CASE("every equation keeps the laws of a rep curve") {
  int checked = 0;
  for_each([&](const auto& equation) {
    CAPTURE(std::string(equation.facts.name));
    barwright_test::check_curve_laws(equation);
    ++checked;
  });
  CHECK(checked == 14);
}

TEST_CASE("every equation carries its source, its people and what it does at one rep") {
  for_each([](const auto& equation) {
    const EquationFacts& facts = equation.facts;
    CAPTURE(std::string(facts.name));
    CHECK(!facts.name.empty());
    CHECK(!facts.source.citation.empty());
    CHECK(!facts.source.population.empty());
    CHECK(facts.source.reading != Reading::not_applicable);
    CHECK((facts.source.note.find("one rep") != std::string_view::npos));
    CHECK(facts.studied.low >= equation.defined().low);
    CHECK(facts.studied.high <= equation.defined().high);
  });
}

TEST_CASE(
    "multipliers of the classic equations [derived from forms quoted from memory; kemmler's was "
    "read]") {
  struct Row {
    int reps;
    double epley, brzycki, lander, lombardi, mayhew, oconner, wathen, adams, berger, brown, kemmler;
  };
  constexpr Row table[] = {{1, 1.03333, 1.00000, 1.01390, 1.00000, 1.08864, 1.02500, 1.01304,
                            1.02041, 1.00043, 1.01770, 1.00024},
                           {2, 1.06667, 1.02857, 1.04213, 1.07177, 1.11439, 1.05000, 1.05146,
                            1.04167, 1.02699, 1.05050, 1.01593},
                           {3, 1.10000, 1.05882, 1.07197, 1.11612, 1.13990, 1.07500, 1.08980,
                            1.06383, 1.05426, 1.08330, 1.03472},
                           {5, 1.16667, 1.12500, 1.13709, 1.17462, 1.19011, 1.12500, 1.16583,
                            1.11111, 1.11097, 1.14890, 1.08020},
                           {8, 1.26667, 1.24138, 1.25109, 1.23114, 1.26286, 1.20000, 1.27671,
                            1.19048, 1.20182, 1.24730, 1.16290},
                           {10, 1.33333, 1.33333, 1.34070, 1.25893, 1.30934, 1.25000, 1.34747,
                            1.25000, 1.26647, 1.31290, 1.22360},
                           {12, 1.40000, 1.44000, 1.44414, 1.28209, 1.35398, 1.30000, 1.41496,
                            1.31579, 1.33460, 1.37850, 1.28548},
                           {15, 1.50000, 1.63636, 1.63315, 1.31102, 1.41719, 1.37500, 1.50906,
                            1.42857, 1.44374, 1.47690, 1.37440},
                           {20, 1.66667, 2.11765, 2.08876, 1.34928, 1.51178, 1.50000, 1.64462,
                            1.66667, 1.64581, 1.64090, 1.48880}};
  constexpr double half_a_digit = 0.000005 + 1e-12;
  for (const Row& row : table) {
    CAPTURE(row.reps);
    CHECK(std::abs(multiplier(epley, row.reps) - row.epley) <= half_a_digit);
    CHECK(std::abs(multiplier(brzycki, row.reps) - row.brzycki) <= half_a_digit);
    CHECK(std::abs(multiplier(lander, row.reps) - row.lander) <= half_a_digit);
    CHECK(std::abs(multiplier(lombardi, row.reps) - row.lombardi) <= half_a_digit);
    CHECK(std::abs(multiplier(mayhew, row.reps) - row.mayhew) <= half_a_digit);
    CHECK(std::abs(multiplier(oconner, row.reps) - row.oconner) <= half_a_digit);
    CHECK(std::abs(multiplier(wathen, row.reps) - row.wathen) <= half_a_digit);
    CHECK(std::abs(multiplier(adams, row.reps) - row.adams) <= half_a_digit);
    CHECK(std::abs(multiplier(berger, row.reps) - row.berger) <= half_a_digit);
    CHECK(std::abs(multiplier(brown, row.reps) - row.brown) <= half_a_digit);
    CHECK(std::abs(multiplier(kemmler, row.reps) - row.kemmler) <= half_a_digit);
  }
}

TEST_CASE("Epley and Brzycki agree at ten reps and nowhere else [encyclopaedia, read]") {
  CHECK(std::abs(multiplier(epley, 10) - 4.0 / 3.0) <= 1e-15);
  CHECK(std::abs(multiplier(brzycki, 10) - 4.0 / 3.0) <= 1e-15);
  for (int reps = 1; reps < 10; ++reps) CHECK(multiplier(epley, reps) > multiplier(brzycki, reps));
  for (int reps = 11; reps <= 33; ++reps)
    CHECK(multiplier(epley, reps) < multiplier(brzycki, reps));
}

TEST_CASE("Brzycki's multiplier is 36 / (37 - r), not 37 / (37 - r)") {
  CHECK(std::abs(multiplier(brzycki, 1) - 1.0) <= 1e-15);
  CHECK(std::abs(multiplier(brzycki, 7) - 1.2) <= 1e-15);
}

TEST_CASE("Brzycki's decimal print is within a thousandth of the fraction to 20 reps") {
  // Relative differences as derived from the two forms, from memory.
  const double expected[][2] = {{5, 0.00010}, {10, 0.00027}, {15, 0.00051}, {20, 0.00089}};
  for (const auto& row : expected) {
    const double decimal = 1.0 / (1.0278 - 0.0278 * row[0]);
    CHECK(std::abs(decimal * brzycki.fraction(row[0]) - 1.0 - row[1]) <= 0.000005);
  }
}

TEST_CASE("curves end where their formula breaks") {
  SUBCASE("straight lines: at the last rep of which the load is a tenth of the max") {
    for (const LinearShare& line : {brzycki, lander, adams}) {
      const double last = line.defined().high;
      CHECK(line.fraction(last) >= 0.1 - 1e-12);
      CHECK(line.at_zero() - line.per_rep() * (last + 1.0) < 0.1);
    }
  }
  SUBCASE("Kemmler's cubic turns at 24.15 reps [derived from the published formula]") {
    const double turn =
        (0.0038 + std::sqrt(0.0038 * 0.0038 + 4 * 0.0104 * 3 * 0.0000584)) / (2 * 3 * 0.0000584);
    CHECK(std::abs(turn - 24.15) <= 0.005);
    CHECK(kemmler.defined().high < turn);
  }
  SUBCASE("curves with a floor never go below it") {
    CHECK(1.0 / mayhew.fraction(100.0) < 1.916);
    CHECK(1.0 / wathen.fraction(100.0) < 2.049);
    CHECK(std::abs(1.0 / 0.522 - 1.916) <= 0.0005);
    CHECK(std::abs(1.0 / 0.488 - 2.049) <= 0.0005);
  }
}

TEST_CASE("the critical-load form reaches the max at no reps and its floor at many") {
  const CriticalLoad curve(0.45, 6.0);
  CHECK(std::abs(curve.fraction(0.0) - 1.0) <= 1e-15);
  CHECK(curve.fraction(100.0) > 0.45);
  // r = A/(L-CL) - A/(Lmax-CL), with loads as shares of Lmax [Morton 2014, from memory].
  for (const double share : {0.95, 0.8, 0.6}) {
    CHECK(std::abs(curve.reps(share) - (6.0 / (share - 0.45) - 6.0 / (1.0 - 0.45))) <= 1e-12);
  }
  barwright_test::check_curve_laws(curve);
  barwright_test::check_curve_laws(anchored(curve));
  CHECK_THROWS_AS(CriticalLoad(1.0, 6.0), DomainError);
  CHECK_THROWS_AS(CriticalLoad(-0.1, 6.0), DomainError);
  CHECK_THROWS_AS(CriticalLoad(0.5, 0.0), DomainError);
  CHECK_THROWS_AS(CriticalLoad(0.5, std::nan("")), DomainError);
}

TEST_CASE("one set by every equation, those outside their range flagged") {
  const EquationComparison five = compare_equations(100_kg, 5_reps);
  int lines = 0;
  for (const EquationEstimate& line : five) {
    CHECK(line.is_defined);
    CHECK(line.is_studied);
    CHECK(line.max > 105_kg);
    CHECK(line.max < 125_kg);
    ++lines;
  }
  CHECK(lines == static_cast<int>(count));

  const EquationComparison forty = compare_equations(40_kg, 40_reps);
  for (const EquationEstimate& line : forty) {
    CHECK(!line.is_studied);
    const bool ends_before =
        line.facts == &brzycki.facts || line.facts == &lander.facts || line.facts == &kemmler.facts;
    CHECK(line.is_defined == !ends_before);
    CHECK((line.max > Mass{}) == line.is_defined);
  }
}

TEST_CASE("a regression holds for its lift, its group and its reps") {
  using namespace barwright::regressions;
  CHECK(std::abs(reynolds_chest_press_5rm.max_from(100_kg, 5_reps).kg() - 113.7699) <= 1e-9);
  CHECK(std::abs(braith_untrained_knee_extension.max_from(60_kg, 8_reps).kg() - 88.059) <= 1e-9);
  CHECK(std::abs(abadie_wentworth_knee_extension.max_from(100_lb, 8_reps).lb() - 118.67) <= 1e-9);
  CHECK(std::abs(kravitz_deadlift.max_from(180_kg, 8_reps).kg() - 200.352) <= 1e-9);
  CHECK_THROWS_WITH((void)reynolds_chest_press_5rm.max_from(100_kg, 6_reps),
                    "reps to failure on this curve must be exactly 5; got 6");
  CHECK_THROWS_AS((void)braith_trained_knee_extension.max_from(100_kg, 5_reps), DomainError);
  CHECK_THROWS_AS((void)kravitz_squat.max_from(20_kg, 40_reps), DomainError);  // below nothing
  CHECK(kravitz_squat.is_studied(140_kg, 12_reps));
  CHECK(!kravitz_squat.is_studied(60_kg, 5_reps));
}

TEST_CASE("a regression says how far it erred, in its unit, and for which reps") {
  using namespace barwright::regressions;
  // Standard errors of the estimate as published, in kilograms (abstracts and papers, all read).
  const struct {
    const RegressionFacts& facts;
    double error_kg;
  } published[] = {{reynolds_chest_press_5rm.facts, 2.98},
                   {reynolds_leg_press_5rm.facts, 16.16},
                   {abadie_wentworth_chest_press.facts, 2.5},
                   {abadie_wentworth_shoulder_press.facts, 1.6},
                   {braith_untrained_knee_extension.facts, 9.3},
                   {braith_trained_knee_extension.facts, 9.9},
                   {kravitz_squat.facts, 5.06},
                   {kravitz_bench_press.facts, 2.69},
                   {kravitz_deadlift.facts, 4.97},
                   {macht_performance_facts, 3.5}};
  for (const auto& row : published) {
    CAPTURE(row.facts.name);
    const double error = row.facts.standard_error;
    CHECK(std::abs(Mass::from(error, row.facts.unit).kg() - row.error_kg) <= 1e-12);
  }
  // The reps of each study (read; the knee extension of Abadie & Wentworth from memory).
  for (const auto& regression : {reynolds_chest_press_5rm, reynolds_leg_press_5rm}) {
    CHECK(regression.facts.studied == RepRange{5, 5});
  }
  for (const auto& regression : {abadie_wentworth_chest_press, abadie_wentworth_shoulder_press,
                                 abadie_wentworth_knee_extension}) {
    CHECK(regression.facts.studied == RepRange{5, 10});
  }
  for (const auto& regression : {braith_untrained_knee_extension, braith_trained_knee_extension}) {
    CHECK(regression.facts.studied == RepRange{7, 10});
  }
}

TEST_CASE(
    "Macht's equations for moderately trained men [2016, abstract read; arithmetic by hand]") {
  using namespace barwright::regressions;
  CHECK(std::abs(macht_performance(90_kg, 6_reps, 41.0).kg() - 107.78) <= 1e-9);
  CHECK_THROWS_AS((void)macht_performance(90_kg, 6_reps, 410.0), DomainError);
}

TEST_CASE("a critical load is taken to its limits and not beyond") {
  for (const double share : {0.0, 0.99}) {
    for (const double capacity : {0.01, 1000.0}) {
      CHECK(CriticalLoad(share, capacity).fraction(1.0) > 0.0);
    }
  }
  for (const double share : {-1e-9, 0.9900001, std::nan("")}) {
    CHECK_THROWS_AS(CriticalLoad(share, 1.0), DomainError);
  }
  for (const double capacity : {0.0099999, 1000.001, std::nan("")}) {
    CHECK_THROWS_AS(CriticalLoad(0.5, capacity), DomainError);
  }
}

TEST_CASE("a cubic says of its coefficients only what differs from the load itself") {
  CHECK(CubicMultiplier({.c1 = 0.03}).multiplier(10.0) == 1.0 + 10.0 * 0.03);
}

TEST_CASE("a body is measured within limits, and at them") {
  using regressions::macht_performance;
  CHECK(macht_performance(70_kg, 8_reps, 20.0) > macht_performance(70_kg, 8_reps, 60.0));
  for (const double bad : {19.9, 60.1}) {
    CHECK_THROWS_AS((void)macht_performance(70_kg, 8_reps, bad), DomainError);
  }
}

TEST_CASE("Kravitz's planes were fitted at one share of the max each") {
  // 70 % on squat and bench press, 80 % on the deadlift (Kravitz et al. 2003, abstract read).
  using namespace regressions;
  CHECK(kravitz_squat.studied_share == 0.70);
  CHECK(kravitz_bench_press.studied_share == 0.70);
  CHECK(kravitz_deadlift.studied_share == 0.80);
}

TEST_CASE("the two curves of Reynolds et al. give the percentages of their equations") {
  // 55.51 exp(-0.0723 r) + 48.47 and 78.17 exp(-0.0569 r) + 26.41 (Reynolds, Gordon & Robergs 2006;
  // both from memory), worked out by hand.
  struct Row {
    double reps;
    double chest_press;
    double leg_press;
  };
  for (const Row& row : {Row{1, 100.11, 100.26}, Row{5, 87.14, 85.22}, Row{10, 75.41, 70.66},
                         Row{20, 61.54, 51.46}}) {
    CHECK(std::abs(100.0 * equations::reynolds_chest_press.fraction(row.reps) - row.chest_press) <=
          0.0051);
    CHECK(std::abs(100.0 * equations::reynolds_leg_press.fraction(row.reps) - row.leg_press) <=
          0.0051);
  }
}

TEST_CASE("each equation says for which reps it was studied") {
  // As the notes on each equation have them: some read in the source, most from memory.
  const double last[] = {10, 10, 10, 10, 10, 15, 10, 10, 10, 10, 10, 20, 20, 20};
  std::size_t i = 0;
  equations::for_each([&](const auto& equation) {
    CAPTURE(std::string(equation.facts.name));
    const bool is_kemmler = equation.facts.name == equations::kemmler.facts.name;
    CHECK(equation.studied().low == (is_kemmler ? 3 : 1));
    CHECK(equation.studied().high == last[i++]);
  });
  CHECK(i == std::size(last));
}
