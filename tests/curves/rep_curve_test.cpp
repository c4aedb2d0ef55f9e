#include <doctest/doctest.h>

#include <barwright/curves/adapters.hpp>
#include <barwright/curves/equations.hpp>
#include <barwright/curves/rep_curve.hpp>
#include <barwright/curves/rep_table.hpp>
#include <cmath>

#include "curve_laws.hpp"

using namespace barwright;
using namespace barwright::literals;
using barwright_test::check_curve_laws;

TEST_CASE("a max from a set, at compile time") {
  constexpr Mass best = one_rep_max(equations::brzycki, 100_kg, 5_reps, 2_rir);
  static_assert(best > 119.999_kg && best < 120.001_kg);  // 36 x 100 / (37 - 7)
}

TEST_CASE("reps left count as reps done") {
  equations::for_each([](const auto& equation) {
    CHECK(one_rep_max(equation, 100_kg, 5_reps, 2_rir) == one_rep_max(equation, 100_kg, 7_reps));
    CHECK(share_of_max(equation, 5_reps, 2_rir) == equation.fraction(7.0));
  });
}

TEST_CASE("a rating counts as the reserve it stands for") {
  static_assert(one_rep_max(equations::brzycki, 100_kg, 5_reps, 8_rpe) ==
                one_rep_max(equations::brzycki, 100_kg, 5_reps, 2_rir));
  equations::for_each([](const auto& equation) {
    CHECK(one_rep_max(equation, 100_kg, 5_reps, 8.5_rpe) ==
          one_rep_max(equation, 100_kg, 5_reps, 1.5_rir));
    CHECK(share_of_max(equation, 5_reps, 8_rpe) == share_of_max(equation, 5_reps, 2_rir));
    CHECK_THROWS_AS((void)one_rep_max(equation, 100_kg, 5_reps, 4.5_rpe), DomainError);
    CHECK_THROWS_AS((void)share_of_max(equation, 5_reps, 4_rpe), DomainError);
  });
}

TEST_CASE("more load, more reps or more reserve mean a higher max") {
  equations::for_each([](const auto& equation) {
    for (int reps = 1; reps < 15; ++reps) {
      const Mass max = one_rep_max(equation, 100_kg, Reps(reps));
      CHECK(one_rep_max(equation, 102.5_kg, Reps(reps)) > max);
      CHECK(one_rep_max(equation, 100_kg, Reps(reps + 1)) > max);
      CHECK(one_rep_max(equation, 100_kg, Reps(reps), 0.5_rir) > max);
    }
  });
}

TEST_CASE("a load is expected for as many reps as the curve says") {
  CHECK(std::abs(predicted_reps(equations::brzycki, 120_kg, 100_kg) - 7.0) <= 1e-12);
  SUBCASE("too heavy for one rep: none") {
    CHECK(predicted_reps(equations::brzycki, 120_kg, 120.1_kg) == 0.0);
  }
  SUBCASE("so light that the curve ends: its end") {
    CHECK(predicted_reps(equations::brzycki, 120_kg, 1_kg) == 33.0);
  }
  SUBCASE("without a max there is no answer") {
    CHECK_THROWS_WITH((void)predicted_reps(equations::brzycki, Mass{}, 100_kg),
                      "a max must be more than 0 kg; got 0");
  }
}

TEST_CASE("a set outside what was studied is an extrapolation, and says so") {
  CHECK(is_studied(equations::brzycki, 8_reps, 2_rir));
  CHECK(!is_studied(equations::brzycki, 8_reps, 2.5_rir));
  CHECK(!is_studied(equations::kemmler, 2_reps));
  CHECK(one_rep_max(equations::brzycki, 50_kg, 20_reps) > 100_kg);  // computed all the same
}

TEST_CASE("a set past the end of a curve is refused by name, range and value") {
  CHECK_THROWS_WITH((void)one_rep_max(equations::brzycki, 20_kg, 40_reps),
                    "reps to failure on this curve must be from 1 to 33; got 40");
}

TEST_CASE("no set implies more than fourteen times its load, however long it was") {
  equations::for_each([](const auto& equation) {
    CHECK(one_rep_max(equation, 10_kg, Reps(static_cast<int>(equation.defined().high))) < 140_kg);
  });
  CHECK_THROWS_AS((void)one_rep_max(equations::brzycki, 50_kg, 36_reps), DomainError);
}

TEST_CASE("a load below nothing tells of no max") {
  CHECK(one_rep_max(equations::epley, Mass{}, 5_reps) == Mass{});
  CHECK_THROWS_WITH((void)one_rep_max(equations::epley, -5_kg, 5_reps),
                    "a load must be 0 kg or more; got -5");
  CHECK_THROWS_AS((void)one_rep_max(equations::epley, 20_kg - 25_kg, 5_reps, 8_rpe), DomainError);
  CHECK_THROWS_AS((void)predicted_reps(equations::epley, 100_kg, -5_kg), DomainError);
}

TEST_CASE("an anchored curve returns the load of a single, and keeps its shape") {
  equations::for_each([](const auto& equation) {
    const auto exact = anchored(equation);
    CHECK(std::abs(exact.fraction(1.0) - 1.0) <= 1e-15);
    CHECK(std::abs(one_rep_max(exact, 100_kg, 1_reps).kg() - 100.0) <= 1e-12);
    CHECK(std::abs(exact.fraction(6.0) / exact.fraction(3.0) -
                   equation.fraction(6.0) / equation.fraction(3.0)) <= 1e-14);
    check_curve_laws(exact);
  });
}

TEST_CASE("a stretch below 1 leaves fewer reps at the same share") {
  const auto base = anchored(equations::wathen);
  const auto fewer = stretched(base, 0.8);
  const double share = base.fraction(9.0);
  CHECK(std::abs(fewer.reps(share) - (1.0 + 0.8 * 8.0)) <= 1e-12);
  CHECK(fewer.fraction(1.0) == base.fraction(1.0));
  CHECK(fewer.fraction(9.0) < share);
  CHECK(fewer.defined().high == doctest::Approx(1.0 + 0.8 * 99.0));
  CHECK(fewer.studied().high == doctest::Approx(1.0 + 0.8 * 9.0));
  for (const double stretch : {0.1, 0.5, 0.8, 1.0, 1.3, 10.0}) {
    check_curve_laws(stretched(equations::brzycki, stretch));
    check_curve_laws(stretched(anchored(equations::epley), stretch));
  }
}

TEST_CASE("a stretch is a number from 0.1 to 10") {
  for (const double bad : {0.0, 0.09, 10.1, -1.0, std::nan("")}) {
    CHECK_THROWS_AS((void)stretched(equations::epley, bad), DomainError);
  }
}

namespace {

/// Every three reps halve the load, from `low` reps on.
struct HalvingFrom {
  double low;
  double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return std::exp2(-reps / 3.0);
  }
  double reps(double share) const {
    detail::require_fraction_defined(share, fraction(12.0), fraction(low));
    return -3.0 * std::log2(share);
  }
  double slope(double reps) const {
    detail::require_reps_defined(reps, defined());
    return -std::log(2.0) / 3.0;
  }
  RepRange defined() const noexcept { return {low, 12.0}; }
  RepRange studied() const noexcept { return {2.0, 8.0}; }
};

}  // namespace

TEST_CASE("a stretched curve reaches both its ends, wherever its base begins") {
  for (const double low : {0.0, 0.3, 1.7, 2.9}) {
    for (int i = 10; i <= 1000; ++i) {
      const auto curve = stretched(HalvingFrom{low}, i / 100.0);
      for (const double end : {curve.defined().low, curve.defined().high}) {
        CHECK_NOTHROW((void)curve.fraction(end));
        CHECK_NOTHROW((void)curve.slope(end));
      }
    }
  }
}

TEST_CASE("a curve that begins after one rep cannot be anchored there") {
  CHECK_THROWS_WITH((void)anchored(HalvingFrom{1.7}),
                    "reps to failure on this curve must be from 1.7 to 12; got 1");
}

TEST_CASE("an inverse without a closed form is found in a few steps") {
  // Counts how often the curve is asked; a step asks for fraction and slope once each.
  struct Counting {
    const Blend<PowerShare, CriticalLoad>* curve;
    int* asked;
    double fraction(double reps) const {
      ++*asked;
      return curve->fraction(reps);
    }
    double slope(double reps) const { return curve->slope(reps); }
  };
  const auto two = blend(equations::lombardi, CriticalLoad(0.45, 6.0));
  int most = 0;
  for (double reps = 1.0; reps <= 100.0; reps += 0.25) {
    int asked = 0;
    const double share = two.fraction(reps);
    const double back = detail::solve_for_reps(Counting{&two, &asked}, share, two.defined());
    CHECK(std::abs(back - reps) <= 1e-11 * reps);
    if (asked > most) most = asked;
  }
  CHECK(most <= 20);
}

TEST_CASE("the inverse is found even where Newton's steps would crawl or leave the curve") {
  // Flat at first, then falling ever faster: log fraction = -((r - 1) / 20)^9. Near one rep
  // the slope vanishes; from far out Newton's method takes steps of an eighth of the way.
  struct LateFall {
    double fraction(double reps) const { return std::exp(-std::pow((reps - 1.0) / 20.0, 9.0)); }
    double slope(double reps) const { return -9.0 / 20.0 * std::pow((reps - 1.0) / 20.0, 8.0); }
  };
  for (double reps = 2.0; reps <= 40.0; reps += 0.5) {
    const double share = LateFall{}.fraction(reps);
    const double back = detail::solve_for_reps(LateFall{}, share, {.low = 1.0, .high = 40.0});
    const double rounding = 1e-15 / std::abs(LateFall{}.slope(reps));
    CHECK(std::abs(back - reps) <= 1e-12 * reps + rounding);
  }
}

TEST_CASE("a blend is the mean of its curves, where all of them are defined") {
  const auto two = blend(equations::epley, equations::brzycki);
  for (const double reps : {1.0, 4.5, 10.0, 30.0}) {
    const double mean = 0.5 * (equations::epley.fraction(reps) + equations::brzycki.fraction(reps));
    CHECK(std::abs(two.fraction(reps) - mean) <= 1e-15);
  }
  CHECK(two.defined() == RepRange{1.0, 33.0});
  CHECK(two.studied() == RepRange{1.0, 10.0});
  check_curve_laws(two);
  check_curve_laws(blend(equations::kemmler, equations::lombardi, rep_tables::nsca_chart));
}

TEST_CASE("adapters nest") {
  check_curve_laws(stretched(anchored(blend(equations::epley, equations::wathen)), 0.9));
  check_curve_laws(blend(stretched(equations::brown, 0.7), anchored(equations::mayhew)));
}

TEST_CASE("a curve of one's own is as good as a published one") {
  struct Halving {  // every three reps halve the load
    double fraction(double reps) const {
      detail::require_reps_defined(reps, defined());
      return std::exp2((1.0 - reps) / 3.0);
    }
    double reps(double share) const {
      detail::require_fraction_defined(share, fraction(12.0), fraction(1.0));
      return 1.0 - 3.0 * std::log2(share);
    }
    double slope(double reps) const {
      detail::require_reps_defined(reps, defined());
      return -std::log(2.0) / 3.0;
    }
    RepRange defined() const noexcept { return {1.0, 12.0}; }
    RepRange studied() const noexcept { return {2.0, 8.0}; }
  };
  static_assert(RepCurve<Halving>);
  check_curve_laws(Halving{});
  CHECK(std::abs(one_rep_max(Halving{}, 50_kg, 3_reps, 1_rir).kg() - 100.0) <= 1e-12);
}
