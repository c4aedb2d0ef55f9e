// bench/observation_bench.cpp - what a missed set and a rating say of a capacity
//
// By hand the capacity is summed over 201 points of its prior, without any cleverness. For a rating
// that takes the curve's inverse at each; the rating's error is taken as fixed there.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "barwright/curves/equations.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/observation.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

std::array<double, cases> made_means() {
  std::array<double, cases> means;
  for (std::size_t i = 0; i < cases; ++i)
    means[i] = 4.55 + 0.0004 * static_cast<double>(i * 89 % cases);
  return means;
}
auto means = made_means();
constexpr double sd = 0.04;
constexpr double bound = 4.6;

/// The mean of what is left of N(mean, sd^2) once it is weighed.
template <class Weight>
double weighed_mean(double mean, const Weight& weight) {
  double sum = 0.0;
  double moment = 0.0;
  for (int k = -100; k <= 100; ++k) {
    const double x = 0.05 * k;
    const double mass = std::exp(-0.5 * x * x) * weight(mean + sd * x);
    sum += mass;
    moment += mass * (mean + sd * x);
  }
  return moment / sum;
}

/// The mean after what was seen.
double mean_after(double mean, const Observation& seen) {
  return mean + (seen.value - mean) * sd * sd / (sd * sd + seen.variance);
}

BENCHMARK_CAPTURE(by_hand, missed_set, [](std::size_t i) {
  return weighed_mean(means[i], [](double c) { return c <= bound ? 1.0 : 0.0; });
});
BENCHMARK_CAPTURE(library, missed_set, [](std::size_t i) {
  return mean_after(means[i], observation_at_most({means[i], sd * sd}, bound));
});

const CurveTable table = equations::wathen;
const RatedSet rated{.log_load = 4.4, .done = 5.0, .to_failure = 7.0};

BENCHMARK_CAPTURE(by_hand, rating, [](std::size_t i) {
  return weighed_mean(means[i], [](double c) {
    const double share = std::exp(rated.log_load - c);
    const double reps = std::log((share - 0.488) / 0.538) / -0.075;
    const double gap = reps - rated.to_failure;
    return std::exp(-0.5 * gap * gap);
  });
});
BENCHMARK_CAPTURE(library, rating, [](std::size_t i) {
  const ShapedCurve curve(table, 1.0);
  return mean_after(
      means[i], observation_of_rating({means[i], sd * sd}, rated, curve, Experience::experienced));
});

}  // namespace
