// The forms of rep curves: checked when they are made.
#include "barwright/curves/forms.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>
#include <limits>
#include <random>

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

/// Whether the share of the max is above 0 and falls with every rep.
template <RepCurve C>
bool is_lawful(const C& curve) {
  const RepRange defined = curve.defined();
  double before = infinite;
  for (int i = 0; i <= 99; ++i) {
    const double reps = defined.low + (defined.high - defined.low) * i / 99.0;
    const double share = curve.fraction(reps);
    const bool falls = defined.low == defined.high || share < before;
    if (!(share > 0.0 && falls && curve.slope(reps) < 0.0)) return false;
    before = share;
  }
  return true;
}

struct Tally {
  int made = 0;
  int refused = 0;
};

/// Makes a form of random numbers, good and bad, and holds each that was made to the laws.
template <class Make>
Tally try_many(Make make) {
  std::mt19937 random(42);
  Tally tally;
  for (int trial = 0; trial < 20'000; ++trial) {
    const auto number = [&] {
      const int kind = std::uniform_int_distribution<int>(0, 39)(random);
      if (kind == 0) return not_a_number;
      if (kind == 1) return infinite;
      if (kind == 2) return 0.0;
      const double scale = std::pow(10.0, std::uniform_real_distribution<double>(-4, 1.2)(random));
      return kind < 8 ? -scale : scale;
    };
    try {
      const auto curve = make(number, random);
      ++tally.made;
      if (!is_lawful(curve)) FAIL_CHECK("a curve that breaks the laws was made, trial ", trial);
    } catch (const DomainError&) {
      ++tally.refused;
    }
  }
  return tally;
}

double last_rep(std::mt19937& random) {
  return std::uniform_real_distribution<double>(0.5, 101.0)(random);
}

}  // namespace

TEST_CASE("a line that makes a set of five say -195 kg cannot be made, nor one of no slope") {
  CHECK_THROWS_WITH_AS(LinearMultiplier({.at_zero = -2.0, .per_rep = 0.01}),
                       "the numbers of a rep curve must be such that its share of the max "
                       "falls with every rep and stays above 0; got max = load x (-2 + 0.01 "
                       "r)",
                       DomainError);
  CHECK_THROWS_AS(LinearMultiplier({.at_zero = 1.0}), DomainError);
  CHECK_THROWS_AS(LinearShare({.at_zero = 1.0, .per_rep = 0.02}), DomainError);  // 0 before 100
  CHECK_THROWS_AS(PowerShare({}), DomainError);
  CHECK_THROWS_AS(ExponentialShare({}), DomainError);
  CHECK_THROWS_AS(CubicMultiplier({}), DomainError);
  CHECK_THROWS_AS(CubicMultiplier({.c1 = 0.03, .c3 = -1e-5}), DomainError);  // turns at 32
  CHECK(CubicMultiplier({.c1 = 0.03, .c3 = -1e-5, .last_rep = 31.0}).defined().high == 31.0);
}

TEST_CASE("NaN and infinity never enter a curve") {
  for (const double bad : {not_a_number, infinite, -infinite}) {
    CHECK_THROWS_AS(LinearMultiplier({.at_zero = bad, .per_rep = 0.03}), DomainError);
    CHECK_THROWS_AS(LinearMultiplier({.per_rep = bad}), DomainError);
    CHECK_THROWS_AS(LinearShare({.at_zero = bad, .per_rep = 0.02, .last_rep = 10.0}), DomainError);
    CHECK_THROWS_AS(LinearShare({.per_rep = bad, .last_rep = 10.0}), DomainError);
    CHECK_THROWS_AS(LinearShare({.per_rep = 0.02, .last_rep = bad}), DomainError);
    CHECK_THROWS_AS(PowerShare({.exponent = bad}), DomainError);
    CHECK_THROWS_AS(ExponentialShare({.floor = bad, .rate = 0.05}), DomainError);
    CHECK_THROWS_AS(ExponentialShare({.span = bad, .rate = 0.05}), DomainError);
    CHECK_THROWS_AS(ExponentialShare({.rate = bad}), DomainError);
    CHECK_THROWS_AS(CubicMultiplier({.c0 = bad, .c1 = 0.03}), DomainError);
    CHECK_THROWS_AS(CubicMultiplier({.c1 = bad}), DomainError);
    CHECK_THROWS_AS(CubicMultiplier({.c1 = 0.03, .c2 = bad}), DomainError);
    CHECK_THROWS_AS(CubicMultiplier({.c1 = 0.03, .c3 = bad}), DomainError);
    CHECK_THROWS_AS(CubicMultiplier({.c1 = 0.03, .last_rep = bad}), DomainError);
  }
}

TEST_CASE("of 100,000 random forms every one that can be made falls and stays above nothing") {
  const Tally tallies[] = {
      try_many([](auto number, auto&) {
        return LinearMultiplier({.at_zero = number(), .per_rep = number()});
      }),
      try_many([](auto number, auto& random) {
        return LinearShare(
            {.at_zero = number(), .per_rep = number(), .last_rep = last_rep(random)});
      }),
      try_many([](auto number, auto&) { return PowerShare({.exponent = number()}); }),
      try_many([](auto number, auto&) {
        return ExponentialShare({.floor = number(), .span = number(), .rate = number()});
      }),
      try_many([](auto number, auto& random) {
        return CubicMultiplier({.c0 = number(),
                                .c1 = number(),
                                .c2 = 0.1 * number(),
                                .c3 = 0.001 * number(),
                                .last_rep = last_rep(random)});
      })};
  for (const Tally& tally : tallies) {
    CHECK(tally.made > 500);
    CHECK(tally.refused > 500);
  }
}

TEST_CASE("a form is checked while compiling") {
  static constexpr LinearMultiplier epley({.per_rep = 1.0 / 30.0});
  static_assert(epley.multiplier(10.0) > 1.33);
}
