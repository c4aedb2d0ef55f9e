// bench/curve_table_bench.cpp - a curve as a table, and a lifter's own (shaped_curve.hpp)
//
// By hand the same curve is its equation, with std::exp and std::log.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>

#include "barwright/curves/equations.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

std::array<double, cases> made_reps() {
  std::array<double, cases> reps;
  for (std::size_t i = 0; i < cases; ++i)
    reps[i] = 1.0 + 0.07 * static_cast<double>(i * 89 % cases);
  return reps;
}
auto reps = made_reps();

double wathen(double r) { return 0.488 + 0.538 * std::exp(-0.075 * r); }
const double wathen_of_one = wathen(1.0);
double inverse_wathen(double share) { return std::log((share - 0.488) / 0.538) / -0.075; }

std::array<double, cases> made_log_shares() {
  std::array<double, cases> log_shares;
  for (std::size_t i = 0; i < cases; ++i) log_shares[i] = std::log(wathen(reps[i]) / wathen_of_one);
  return log_shares;
}
auto log_shares = made_log_shares();

const CurveTable table = equations::wathen;
const ShapedCurve stretched_only(table, 1.1);
const ShapedCurve bent(table, 1.1, 0.1);

BENCHMARK_CAPTURE(by_hand, log_share,
                  [](std::size_t i) { return std::log(wathen(reps[i]) / wathen_of_one); });
BENCHMARK_CAPTURE(library, log_share, [](std::size_t i) { return table.log_fraction(reps[i]); });

BENCHMARK_CAPTURE(by_hand, reps, [](std::size_t i) {
  return inverse_wathen(wathen_of_one * std::exp(log_shares[i]));
});
BENCHMARK_CAPTURE(library, reps, [](std::size_t i) { return table.reps(log_shares[i]); });

BENCHMARK_CAPTURE(by_hand, reps_stretched, [](std::size_t i) {
  return 1.0 + 1.1 * (inverse_wathen(wathen_of_one * std::exp(log_shares[i])) - 1.0);
});
BENCHMARK_CAPTURE(library, reps_stretched,
                  [](std::size_t i) { return stretched_only.reps(log_shares[i]); });

// The bend: y (1 + y / 3)^bend / 3^bend.
BENCHMARK_CAPTURE(by_hand, reps_bent, [](std::size_t i) {
  const double y = 1.1 * (inverse_wathen(wathen_of_one * std::exp(log_shares[i])) - 1.0);
  return 1.0 + y * std::pow((1.0 + y / 3.0) / 3.0, 0.1);
});
BENCHMARK_CAPTURE(library, reps_bent, [](std::size_t i) { return bent.reps(log_shares[i]); });

}  // namespace
