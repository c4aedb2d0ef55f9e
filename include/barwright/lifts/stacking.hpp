// barwright/lifts/stacking.hpp - how ratios that are known as ranges combine
//
// Typical values multiply. How the uncertainty stacks is the caller's choice (Stacking). Some
// ratios depend on how strong the lifter is: the more is lifted, the more the legs were giving.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// How the ranges of several ratios combine. Typical values multiply in both.
enum class Stacking : unsigned char {
  /// low x low and high x high: as if all went badly, or well, at once. The widest honest answer.
  bounds,
  /// Each range is read as holding 90 % of lifters, log-normal about the typical value as median,
  /// and each modifier as independent of the others: variances of the logs add.
  spread,
};

namespace detail {

/// The distance from the median to the 95th percentile, in standard deviations.
inline constexpr double normal_95th_percentile = 1.6448536269514722;

constexpr void require_factor(std::string_view what, const Range<double>& value) {
  if (!(value.low >= 0.1)) fail(what, "a number from 0.1 to 10", value.low);
  if (!(value.high <= 10.0)) fail(what, "a number from 0.1 to 10", value.high);
}

constexpr void require_reference_max(Mass best) {
  if (!(best > Mass{})) fail("a reference max", "more than 0 kg", best.kg());
}

}  // namespace detail

/// The product of two factors that are each known as a range; both positive.
///
/// A constant expression with `Stacking::bounds` only: a spread takes logarithms.
///
/// With `Stacking::spread` the distances to the low and to the high end are stacked separately, so
/// that a lop-sided range stays lop-sided and a single one is reproduced exactly. For even ranges
/// the result holds exactly 90 %; for lop-sided ones 89 to 91 %, or 92 % when one has no upper side
/// at all (by simulation, tests/lifts/lift_test.cpp).
[[nodiscard]] constexpr Range<double> stacked(const Range<double>& a, const Range<double>& b,
                                              Stacking stacking) {
  const double typical = a.typical * b.typical;
  if (stacking == Stacking::bounds) return {a.low * b.low, typical, a.high * b.high};
  const double below = std::hypot(std::log(a.typical / a.low), std::log(b.typical / b.low));
  const double above = std::hypot(std::log(a.high / a.typical), std::log(b.high / b.typical));
  return {typical * std::exp(-below), typical, typical * std::exp(above)};
}

/// Mean and standard deviation of the natural logarithm of a factor.
struct LogMoments {
  double mean = 0.0;
  double standard_deviation = 0.0;
};

/// A factor's range as a prior for its logarithm.
///
/// The range is read as 5th percentile, median and 95th percentile, with a half-normal on each side
/// of the median. When both sides are equally wide that is the log-normal; otherwise, with sides a
/// and b, the mean is off the median by (b - a)/sqrt(2 pi) and the variance is
/// (a^2 + b^2)/2 - (b - a)^2/(2 pi).
/// @param factor  positive
[[nodiscard]] inline LogMoments log_moments(const Range<double>& factor) noexcept {
  constexpr double two_pi = 6.283185307179586;
  const double a = std::log(factor.typical / factor.low) / detail::normal_95th_percentile;
  const double b = std::log(factor.high / factor.typical) / detail::normal_95th_percentile;
  const double shift = (b - a) / std::sqrt(two_pi);
  return {.mean = std::log(factor.typical) + shift,
          .standard_deviation = std::sqrt(0.5 * (a * a + b * b) - shift * shift)};
}

/// A ratio that changes with the lifter's max on the base lift: one range at a lighter max, one at
/// a heavier max, a straight line between, and held beyond.
class StrengthScaling {
 public:
  /// @throws DomainError unless 0 kg < light_max < heavy_max.
  constexpr StrengthScaling(Mass light_max, const Range<double>& at_light, Mass heavy_max,
                            const Range<double>& at_heavy)
      : light_max_(light_max), heavy_max_(heavy_max), at_light_(at_light), at_heavy_(at_heavy) {
    if (!(light_max > Mass{})) {
      detail::fail("the lighter max of a scaling", "more than 0 kg", light_max.kg());
    }
    if (!(heavy_max > light_max)) {
      detail::fail(ErrorCode::contradiction, "the heavier max of a scaling",
                   "more than the lighter", heavy_max.kg());
    }
  }

  [[nodiscard]] constexpr Range<double> at(Mass best) const {
    if (best <= light_max_) return at_light_;
    if (best >= heavy_max_) return at_heavy_;
    const double share = (best - light_max_) / (heavy_max_ - light_max_);
    const auto between = [share](double a, double b) noexcept { return a + share * (b - a); };
    return {between(at_light_.low, at_heavy_.low), between(at_light_.typical, at_heavy_.typical),
            between(at_light_.high, at_heavy_.high)};
  }

  /// What holds for a lifter of unknown strength: both ranges together.
  [[nodiscard]] constexpr Range<double> overall() const {
    return {at_light_.low < at_heavy_.low ? at_light_.low : at_heavy_.low,
            0.5 * (at_light_.typical + at_heavy_.typical),
            at_light_.high > at_heavy_.high ? at_light_.high : at_heavy_.high};
  }

  [[nodiscard]] constexpr Mass light_max() const noexcept { return light_max_; }
  [[nodiscard]] constexpr Mass heavy_max() const noexcept { return heavy_max_; }

  friend constexpr bool operator==(const StrengthScaling&,
                                   const StrengthScaling&) noexcept = default;

 private:
  Mass light_max_;
  Mass heavy_max_;
  Range<double> at_light_;
  Range<double> at_heavy_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
