// bench/curve_fit_bench.cpp - a personal curve from sets to failure, and the fit behind it
//                             (least_squares.hpp)
//
// By hand: sums of products and the normal equations, which lose half the digits; the library does
// Householder QR with pivoting, a step of refinement, standard errors, and says when data do not
// support a curve.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "barwright/learn/curve_fit.hpp"
#include "barwright/learn/least_squares.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

/// Twelve invented sets to failure; each case has another max.
std::array<std::vector<SetToFailure>, cases> made_logs() {
  std::array<std::vector<SetToFailure>, cases> logs;
  for (std::size_t i = 0; i < cases; ++i) {
    for (int k = 0; k < 12; ++k) {
      const int reps = 2 + k % 8;
      const double scatter = 0.3 * (k % 3 - 1);
      logs[i].push_back(
          {Mass::from_kg((80.0 + 0.1 * static_cast<double>(i)) * (1.03 - 0.03 * (reps + scatter))),
           Reps(reps)});
    }
  }
  return logs;
}
const auto logs = made_logs();

BENCHMARK_CAPTURE(by_hand, line_through_sets, [](std::size_t i) {
  double n = 0.0, x = 0.0, y = 0.0, xx = 0.0, xy = 0.0;
  for (const SetToFailure& set : logs[i]) {
    const double load = set.load.kg();
    const double reps = set.reps.count();
    n += 1.0;
    x += load;
    y += reps;
    xx += load * load;
    xy += load * reps;
  }
  const double slope = (n * xy - x * y) / (n * xx - x * x);
  return (1.0 - (y - slope * x) / n) / slope;
});
BENCHMARK_CAPTURE(library, line_through_sets,
                  [](std::size_t i) { return fit_line(logs[i]).value().max.kg(); });
BENCHMARK_CAPTURE(library, exponential_through_sets,
                  [](std::size_t i) { return fit_exponential(logs[i]).value().max.kg(); });

const Eigen::MatrixXd design = [] {
  Eigen::MatrixXd made(200, 4);
  for (Eigen::Index i = 0; i < 200; ++i) {
    const double x = 0.01 * static_cast<double>(i);
    made.row(i) << 1.0, x, std::sin(9.0 * x), std::cos(5.0 * x);
  }
  return made;
}();
const Eigen::VectorXd response =
    design.col(0) + 2.0 * design.col(1) - design.col(2) + 0.5 * design.col(3);
const Eigen::VectorXd weights = Eigen::VectorXd::LinSpaced(200, 0.5, 2.0);

// Normal equations, and a Cholesky factor that overwrites them.
BENCHMARK_CAPTURE(by_hand, weighted_200_by_4, [](std::size_t) {
  double m[4][4] = {};
  double b[4] = {};
  for (Eigen::Index row = 0; row < design.rows(); ++row) {
    for (int j = 0; j < 4; ++j) {
      const double weighted = weights[row] * design(row, j);
      b[j] += weighted * response[row];
      for (int k = 0; k <= j; ++k) m[j][k] += weighted * design(row, k);
    }
  }
  for (int j = 0; j < 4; ++j) {
    for (int k = 0; k < j; ++k) m[j][j] -= m[j][k] * m[j][k];
    m[j][j] = std::sqrt(m[j][j]);
    for (int i = j + 1; i < 4; ++i) {
      for (int k = 0; k < j; ++k) m[i][j] -= m[i][k] * m[j][k];
      m[i][j] /= m[j][j];
    }
  }
  for (int j = 0; j < 4; ++j) {
    for (int k = 0; k < j; ++k) b[j] -= m[j][k] * b[k];
    b[j] /= m[j][j];
  }
  for (int j = 3; j >= 0; --j) {
    for (int k = j + 1; k < 4; ++k) b[j] -= m[k][j] * b[k];
    b[j] /= m[j][j];
  }
  return b[0] + b[1] + b[2] + b[3];
});
BENCHMARK_CAPTURE(library, weighted_200_by_4, [](std::size_t) {
  return weighted_least_squares(design, response, weights).coefficients.sum();
});

}  // namespace
