// barwright/core/normal.hpp - the normal and Student t distributions
//
// Enough to turn a mean and a variance into a chance or an interval. The normal cumulative
// probability is the complementary error function of the standard library. Its inverse is the
// rational approximation of Wichura (1988), "Algorithm AS 241: the percentage points of the normal
// distribution", Applied Statistics 37(3):477-484 (coefficients from memory; the tests hold them
// against the error function). Student's t, for intervals from few observations, comes from the
// continued fraction of the incomplete beta function, evaluated by the modified method of Lentz.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "barwright/core/error.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Density of the standard normal distribution at `z`.
[[nodiscard]] inline double normal_pdf(double z) noexcept {
  return std::exp(-0.5 * z * z) * std::numbers::inv_sqrtpi / std::numbers::sqrt2;
}

/// Chance that a standard normal variable is below `z`. The lower tail keeps its relative accuracy;
/// for the upper tail call `normal_cdf(-z)`.
[[nodiscard]] inline double normal_cdf(double z) noexcept {
  return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

namespace detail {

/// Ratio of two polynomials of degree 7, coefficients of rising powers, by Horner's rule.
[[nodiscard]] constexpr double ratio_of_degree_7(const double (&above)[8], const double (&below)[8],
                                                 double x) noexcept {
  double numerator = above[7];
  double denominator = below[7];
  for (int i = 6; i >= 0; --i) {
    numerator = numerator * x + above[i];
    denominator = denominator * x + below[i];
  }
  return numerator / denominator;
}

}  // namespace detail

/// The value below which a standard normal variable falls with chance `p`.
///
/// @param p  strictly between 0 and 1, else DomainError. Close to 1, call it with 1 - p and change
///           the sign: a double near 1 cannot hold the small chance that remains.
/// @accuracy relative error below 1e-15
/// @source   Wichura (1988), algorithm AS 241, routine PPND16 (from memory)
[[nodiscard]] inline double normal_quantile(double p) {
  if (!(p > 0 && p < 1)) detail::fail("a probability", "between 0 and 1, both excluded", p);
  const double q = p - 0.5;
  if (std::fabs(q) <= 0.425) {
    constexpr double above[] = {3.3871328727963666080e0,  1.3314166789178437745e+2,
                                1.9715909503065514427e+3, 1.3731693765509461125e+4,
                                4.5921953931549871457e+4, 6.7265770927008700853e+4,
                                3.3430575583588128105e+4, 2.5090809287301226727e+3};
    constexpr double below[] = {1.0,
                                4.2313330701600911252e+1,
                                6.8718700749205790830e+2,
                                5.3941960214247511077e+3,
                                2.1213794301586595867e+4,
                                3.9307895800092710610e+4,
                                2.8729085735721942674e+4,
                                5.2264952788528545610e+3};
    return q * detail::ratio_of_degree_7(above, below, 0.180625 - q * q);
  }
  const double r = std::sqrt(-std::log(q < 0 ? p : 1 - p));
  double size = 0;
  if (r <= 5) {
    constexpr double above[] = {1.42343711074968357734e0,  4.63033784615654529590e0,
                                5.76949722146069140550e0,  3.64784832476320460504e0,
                                1.27045825245236838258e0,  2.41780725177450611770e-1,
                                2.27238449892691845833e-2, 7.74545014278341407640e-4};
    constexpr double below[] = {1.0,
                                2.05319162663775882187e0,
                                1.67638483018380384940e0,
                                6.89767334985100004550e-1,
                                1.48103976427480074590e-1,
                                1.51986665636164571966e-2,
                                5.47593808499534494600e-4,
                                1.05075007164441684324e-9};
    size = detail::ratio_of_degree_7(above, below, r - 1.6);
  } else {
    constexpr double above[] = {6.65790464350110377720e0,  5.46378491116411436990e0,
                                1.78482653991729133580e0,  2.96560571828504891230e-1,
                                2.65321895265761230930e-2, 1.24266094738807843860e-3,
                                2.71155556874348757815e-5, 2.01033439929228813265e-7};
    constexpr double below[] = {1.0,
                                5.99832206555887937690e-1,
                                1.36929880922735805310e-1,
                                1.48753612908506148525e-2,
                                7.86869131145613259100e-4,
                                1.84631831751005468180e-5,
                                1.42151175831644588870e-7,
                                2.04426310338993978564e-15};
    size = detail::ratio_of_degree_7(above, below, r - 5);
  }
  return q < 0 ? -size : size;
}

namespace detail {

/// Gamma(a + 1/2) / Gamma(a). (std::lgamma would do, but it writes to a global.)
[[nodiscard]] inline double half_step_of_gamma(double a) noexcept {
  if (a < 100) return std::tgamma(a + 0.5) / std::tgamma(a);
  const double x = 1 / a;  // Stirling's series; the next term is below 3e-16
  return std::sqrt(a) *
         (1 + x * (-1.0 / 8 +
                   x * (1.0 / 128 + x * (5.0 / 1024 + x * (-21.0 / 32768 - x * 399.0 / 262144)))));
}

/// Continued fraction of the incomplete beta function, for x below (a + 1) / (a + b + 2).
[[nodiscard]] inline double beta_fraction(double a, double b, double x) noexcept {
  constexpr double tiny = 1e-290;
  const auto nonzero = [](double v) { return std::fabs(v) < tiny ? tiny : v; };
  double c = 1;
  double d = 1 / nonzero(1 - (a + b) * x / (a + 1));
  double h = d;
  for (int m = 1; m < 100000; ++m) {
    const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonzero(1 + even * d);
    c = nonzero(1 + even / c);
    h *= d * c;
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonzero(1 + odd * d);
    c = nonzero(1 + odd / c);
    h *= d * c;
    if (std::fabs(d * c - 1) < std::numeric_limits<double>::epsilon()) break;
  }
  return h;
}

/// The chances that |T| is below and above t >= 0, whichever is smaller computed directly.
struct CentreAndTails {
  double centre;
  double tails;
};
[[nodiscard]] inline CentreAndTails student_t_split(double t, double degrees) noexcept {
  const double a = degrees / 2;
  const double x = degrees / (degrees + t * t);
  const double y = t * t / (degrees + t * t);  // 1 - x without cancellation
  // x^a sqrt(y) / B(a, 1/2), common to both continued fractions
  const double front = std::exp(-a * std::log1p(t * t / degrees)) * std::sqrt(y) *
                       half_step_of_gamma(a) * std::numbers::inv_sqrtpi;
  if (x < (a + 1) / (a + 2.5)) {
    const double tails = front * beta_fraction(a, 0.5, x) / a;
    return {1 - tails, tails};
  }
  const double centre = front * beta_fraction(0.5, a, y) / 0.5;
  return {centre, 1 - centre};
}

inline void check_degrees_of_freedom(double degrees) {
  if (!(degrees > 0 && degrees <= 1e6)) {
    fail("degrees of freedom", "above 0 and at most 1000000", degrees);
  }
}

}  // namespace detail

/// Density of Student's t distribution at `t`; `degrees` of freedom above 0, at most 1e6.
[[nodiscard]] inline double student_t_pdf(double t, double degrees) {
  detail::check_degrees_of_freedom(degrees);
  return std::exp(-0.5 * (degrees + 1) * std::log1p(t * t / degrees)) *
         detail::half_step_of_gamma(degrees / 2) * std::numbers::inv_sqrtpi / std::sqrt(degrees);
}

/// Chance that Student's t with `degrees` of freedom (above 0, at most 1e6) is below `t`.
/// @accuracy relative error about 1e-13 in the lower tail
[[nodiscard]] inline double student_t_cdf(double t, double degrees) {
  detail::check_degrees_of_freedom(degrees);
  const auto [centre, tails] = detail::student_t_split(std::fabs(t), degrees);
  return t < 0 ? 0.5 * tails : 0.5 + 0.5 * centre;
}

/// The value below which Student's t with `degrees` of freedom falls with chance `p`: the factor
/// that turns a standard error from few observations into an interval.
///
/// @param p        strictly between 0 and 1, else DomainError
/// @param degrees  degrees of freedom, above 0 and at most 1e6
/// @accuracy       relative error about 1e-13
[[nodiscard]] inline double student_t_quantile(double p, double degrees) {
  detail::check_degrees_of_freedom(degrees);
  if (!(p > 0 && p < 1)) detail::fail("a probability", "between 0 and 1, both excluded", p);
  if (p == 0.5) return 0;
  const double tail = std::min(p, 1 - p);
  const double centre = std::fabs(p - 0.5);
  // Newton's method: on the chance of the centre where that is nearly linear in t, and on the
  // logarithms of tail and t further out, where a tail is nearly a power. Both settle in few steps.
  const bool central = tail > 0.2;
  double t = central ? centre / student_t_pdf(0, degrees) : -normal_quantile(tail);
  for (int i = 0; i < 100; ++i) {
    const auto chance = detail::student_t_split(t, degrees);
    const double density = student_t_pdf(t, degrees);
    const double last = t;
    if (central) {
      t += (centre - 0.5 * chance.centre) / density;
    } else {
      const double half = 0.5 * chance.tails;
      t *= std::exp(std::log(half / tail) * half / (t * density));
    }
    if (std::fabs(t - last) <= 4 * std::numeric_limits<double>::epsilon() * t) break;
  }
  return p < 0.5 ? -t : t;
}

}  // namespace barwright::inline BARWRIGHT_ABI
