// tests/curve_laws.hpp - the laws that every rep curve keeps, checked on a grid
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <doctest/doctest.h>

#include <barwright/curves/rep_curve.hpp>
#include <cmath>
#include <limits>

namespace barwright_test {

/// Positive, falling, invertible to 1e-12 both ways, with the slope it says, and closed outside.
///
/// @param conditioning  how much a relative error of the share grows in the reps: near a
///   floor the inverse of any method loses digits, so the comparison there is in the share.
template <barwright::RepCurve C>
void check_curve_laws(const C& curve) {
  const barwright::RepRange defined = curve.defined();
  REQUIRE(defined.low < defined.high);
  double before = std::numeric_limits<double>::infinity();
  constexpr int steps = 400;
  for (int i = 0; i <= steps; ++i) {
    const double reps = defined.low + (defined.high - defined.low) * i / steps;
    const double share = curve.fraction(reps);
    CAPTURE(reps);
    CAPTURE(share);
    CHECK(share > 0.0);
    CHECK(share < before);
    before = share;
    if constexpr (barwright::detail::HasMultiplier<C>) {
      CHECK(std::abs(curve.multiplier(reps) * share - 1.0) <= 1e-15);
    }

    const double back = curve.reps(share);
    // One rounding of the share moves the reps by this much.
    const double rounding = 4e-16 / std::abs(curve.slope(reps));
    CHECK(std::abs(back - reps) <= 1e-12 * reps + 4.0 * rounding);
    const double there = curve.fraction(std::fmin(std::fmax(back, defined.low), defined.high));
    CHECK(std::abs(there - share) <= 1e-12 * share);

    const double h = 1e-5;
    if (reps - h > defined.low && reps + h < defined.high) {
      const double numeric =
          (std::log(curve.fraction(reps + h)) - std::log(curve.fraction(reps - h))) / (2.0 * h);
      CHECK(curve.slope(reps) < 0.0);
      CHECK(std::abs(curve.slope(reps) - numeric) <= 1e-8 + 1e-4 * std::abs(numeric));
    }
  }
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double outside : {defined.low - 0.01, defined.high + 0.01, nan}) {
    CHECK_THROWS_AS((void)curve.fraction(outside), barwright::DomainError);
    CHECK_THROWS_AS((void)curve.slope(outside), barwright::DomainError);
  }
  for (const double outside : {0.0, -1.0, 2.0, nan}) {
    CHECK_THROWS_AS((void)curve.reps(outside), barwright::DomainError);
  }
}

}  // namespace barwright_test
