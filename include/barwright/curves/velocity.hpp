// barwright/curves/velocity.hpp - the share of the max from how fast the bar moved
//
// The heavier the load, the slower it can be lifted, and the relation is close enough to say from
// one fast rep about what share of the max the load is. It holds for a lift done with full
// intent; people and devices differ, so prefer a lifter's own line where there is one.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>

#include "barwright/core/error.hpp"
#include "barwright/core/source.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Share of the max = c0 + c1 v + c2 v^2, falling with velocity v (m/s) where it is defined.
struct VelocityCurve {
  double c0 = 1.0;
  double c1 = 0.0;
  double c2 = 0.0;
  double slowest = 0.0;  ///< m/s, the ends of where it is defined
  double fastest = 0.0;
  std::string_view name{};
  Source source{};

  /// The share of the max lifted at this velocity.
  /// @throws DomainError unless slowest <= metres_per_second <= fastest.
  [[nodiscard]] constexpr double share(double metres_per_second) const {
    if (!(slowest <= metres_per_second && metres_per_second <= fastest)) {
      Text allowed;
      allowed.append("from ").append(slowest).append(" to ").append(fastest).append(" m/s");
      detail::fail("a bar velocity on this curve", allowed.view(), metres_per_second);
    }
    return c0 + metres_per_second * (c1 + metres_per_second * c2);
  }

  /// The velocity expected at this share of the max, m/s.
  /// @throws DomainError unless the share is one that `share` returns.
  [[nodiscard]] double velocity(double share_of_max) const {
    const double heaviest = share(slowest);
    const double lightest = share(fastest);
    if (!(lightest <= share_of_max && share_of_max <= heaviest)) {
      Text allowed;
      allowed.append("from ").append(lightest).append(" to ").append(heaviest);
      detail::fail("the share of the max on this curve", allowed.view(), share_of_max);
    }
    // The root on the falling branch, in the form that also serves a straight line (c2 = 0).
    const double c = c0 - share_of_max;
    return -2.0 * c / (c1 - std::sqrt(c1 * c1 - 4.0 * c2 * c));
  }
};

namespace velocity_curves {

/// Mean propulsive velocity, bench press.
inline constexpr VelocityCurve bench_press{
    .c0 = 1.1233,
    .c1 = -0.73501,
    .c2 = 0.084326,
    .slowest = 0.1,
    .fastest = 1.5,
    .name = "bench press, mean propulsive velocity",
    .source = {.citation = "Gonzalez-Badillo & Sanchez-Medina 2010, Int J Sports Med 31(5):347-352",
               .population = "120 men, bench press",
               .evidence = Evidence::published,
               .reading = Reading::from_memory,
               .note = "the fit (R2 0.98) was read in the abstract, the coefficients from memory"}};

/// Average concentric velocity, parallel squat.
inline constexpr VelocityCurve parallel_squat{
    .c0 = 1.2015,
    .c1 = -0.8354,
    .c2 = 0.0,
    .slowest = 0.2,
    .fastest = 1.2,
    .name = "parallel squat, average velocity",
    .source = {.citation = "Naclerio & Larumbe-Zabala 2018",
               .population = "209 men and 81 women, parallel squat",
               .evidence = Evidence::published,
               .reading = Reading::read,
               .note = "79 % accuracy; the abstract was read, the year from memory"}};

}  // namespace velocity_curves
}  // namespace barwright::inline BARWRIGHT_ABI
