// bench/normal_bench.cpp - normal and t probabilities, and an estimate's interval (estimate.hpp)
//
// By hand: std::erfc; a quantile by Newton's method on it; a t probability by Simpson's rule over
// 200 strips.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/normal.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

std::array<double, cases> made_z() {
  std::array<double, cases> z;
  for (std::size_t i = 0; i < cases; ++i)
    z[i] = -3.0 + 0.0235 * static_cast<double>(i * 89 % cases);
  return z;
}
auto z = made_z();

double cdf(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }
std::array<double, cases> made_p() {
  std::array<double, cases> p;
  for (std::size_t i = 0; i < cases; ++i) p[i] = cdf(z[i]);
  return p;
}
auto p = made_p();

double quantile(double probability) {
  double x = 0.0;
  for (int i = 0; i < 50; ++i) {
    const double density = std::exp(-0.5 * x * x) * 0.3989422804014327;
    const double step = (cdf(x) - probability) / density;
    x -= step > 1.0 ? 1.0 : step < -1.0 ? -1.0 : step;
    if (step * step < 1e-24) break;
  }
  return x;
}

BENCHMARK_CAPTURE(by_hand, normal_cdf, [](std::size_t i) { return cdf(z[i]); });
BENCHMARK_CAPTURE(library, normal_cdf, [](std::size_t i) { return normal_cdf(z[i]); });
BENCHMARK_CAPTURE(by_hand, normal_quantile, [](std::size_t i) { return quantile(p[i]); });
BENCHMARK_CAPTURE(library, normal_quantile, [](std::size_t i) { return normal_quantile(p[i]); });

BENCHMARK_CAPTURE(by_hand, student_t_cdf, [](std::size_t i) {
  constexpr double degrees = 7.0;
  const double scale = std::exp(std::lgamma(0.5 * (degrees + 1.0)) - std::lgamma(0.5 * degrees)) /
                       std::sqrt(degrees * std::numbers::pi);
  const auto density = [&](double t) {
    return scale * std::pow(1.0 + t * t / degrees, -0.5 * (degrees + 1.0));
  };
  double sum = density(0.0) + density(z[i]);
  for (int k = 1; k < 200; ++k) sum += (k % 2 == 1 ? 4.0 : 2.0) * density(z[i] * k / 200.0);
  return 0.5 + sum * z[i] / 600.0;
});
BENCHMARK_CAPTURE(library, student_t_cdf, [](std::size_t i) { return student_t_cdf(z[i], 7.0); });

BENCHMARK_CAPTURE(by_hand, interval_of_a_max, [](std::size_t i) {
  const double half = 0.03 * quantile(0.95);
  return std::exp(4.6 + 0.01 * z[i] - half) + std::exp(4.6 + 0.01 * z[i] + half);
});
BENCHMARK_CAPTURE(library, interval_of_a_max, [](std::size_t i) {
  const Range<Mass> interval = Estimate<Mass>(4.6 + 0.01 * z[i], 0.03).interval(0.90);
  return interval.low.kg() + interval.high.kg();
});

}  // namespace
