#include <doctest/doctest.h>

#include <barwright/curves/velocity.hpp>
#include <cmath>
#include <limits>

using namespace barwright;

// The published values are in published_cases_test.cpp.

TEST_CASE("a faster bar is a lighter one, and the velocity of a share is its inverse") {
  for (const VelocityCurve& curve :
       {velocity_curves::bench_press, velocity_curves::parallel_squat}) {
    double before = 2.0;
    for (double v = curve.slowest; v <= curve.fastest; v += 0.01) {
      const double share = curve.share(v);
      CHECK(share < before);
      CHECK(std::abs(curve.velocity(share) - v) <= 1e-12);
      before = share;
    }
  }
}

TEST_CASE("a curve is read to both its ends") {
  for (const VelocityCurve& curve :
       {velocity_curves::bench_press, velocity_curves::parallel_squat}) {
    for (const double v : {curve.slowest, curve.fastest}) {
      CHECK(std::abs(curve.velocity(curve.share(v)) - v) <= 1e-12);
    }
  }
}

TEST_CASE("a velocity outside the curve is refused") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -1.0, 3.0, nan}) {
    CHECK_THROWS_AS((void)velocity_curves::bench_press.share(bad), DomainError);
  }
  for (const double bad : {0.0, 1.5, nan}) {
    CHECK_THROWS_AS((void)velocity_curves::bench_press.velocity(bad), DomainError);
  }
  CHECK_THROWS_WITH((void)velocity_curves::parallel_squat.share(2.0),
                    "a bar velocity on this curve must be from 0.2 to 1.2 m/s; got 2");
}
