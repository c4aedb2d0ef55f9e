// bench/rep_table_bench.cpp - a printed chart read both ways
//
// By hand the chart is a straight line between its points; the library's is smooth, so the answers
// differ a little, and finding the reps takes it some steps of Newton's method.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cstddef>

#include "barwright/curves/rep_table.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

const std::array points{1.0, 0.95, 0.93, 0.90, 0.87, 0.85, 0.83, 0.80, 0.77, 0.75};

std::array<double, cases> made_reps() {
  std::array<double, cases> reps;
  for (std::size_t i = 0; i < cases; ++i) reps[i] = 1.0 + 0.5 * static_cast<double>(i * 5 % 18);
  return reps;
}
std::array<double, cases> made_shares() {
  std::array<double, cases> shares;
  for (std::size_t i = 0; i < cases; ++i) shares[i] = 0.76 + 0.0009 * static_cast<double>(i);
  return shares;
}
auto reps = made_reps();
auto shares = made_shares();

BENCHMARK_CAPTURE(by_hand, share, [](std::size_t i) {
  const auto whole = static_cast<std::size_t>(reps[i]);
  const double part = reps[i] - static_cast<double>(whole);
  return points[whole - 1] + part * (points[whole] - points[whole - 1]);
});
BENCHMARK_CAPTURE(library, share,
                  [](std::size_t i) { return rep_tables::nsca_chart.fraction(reps[i]); });

BENCHMARK_CAPTURE(by_hand, reps, [](std::size_t i) {
  std::size_t k = 1;
  while (points[k] > shares[i]) ++k;
  return static_cast<double>(k) + (points[k - 1] - shares[i]) / (points[k - 1] - points[k]);
});
BENCHMARK_CAPTURE(library, reps,
                  [](std::size_t i) { return rep_tables::nsca_chart.reps(shares[i]); });

}  // namespace
