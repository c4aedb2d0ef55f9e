// tests/missing_by_lot.hpp - the chance of missing a set, found by drawing lots
//
// For the tests and for bench/monte_carlo_risk.cpp.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

#include "barwright/learn/strength_model.hpp"

namespace barwright_test {

/// An invented log of four weeks: three days a week, five sets, two lifts, a miss here and there.
[[nodiscard]] inline std::vector<barwright::LoggedSet> log_for_lots() {
  using namespace barwright;
  std::vector<LoggedSet> log;
  const Date first(2026, 1, 5);
  for (int session = 0; session < 12; ++session) {
    const bool is_feet_up = session % 2 == 1;
    for (int i = 0; i < 5; ++i) {
      const int reps = 1 + (5 * session + 3 * i) % 9;
      LoggedSet set{.date = first + (session / 3 * 7 + session % 3 * 2),
                    .lift = lifts::bench_press,
                    .load = Mass::from_kg((is_feet_up ? 88.0 : 95.0) *
                                          equations::wathen.fraction(reps + 2.5 + 0.3 * i)),
                    .reps = Reps(reps)};
      if (is_feet_up) set.lift = lifts::bench_press + modifiers::feet_up;
      if (session % 4 == 3 && i == 4) {
        set.outcome = Outcome::missed;
        set.reps = Reps(reps + 3);
      } else {
        set.reserve = Range<RepsInReserve>::exactly(RepsInReserve((session + i) % 3 + 1.0));
      }
      log.push_back(set);
    }
  }
  return log;
}

/// The logarithm of the heaviest load on which each lot has `reps`, in rising order.
[[nodiscard]] inline std::vector<double> heaviest_by_lot(const barwright::StrengthFit& fit,
                                                         const barwright::Lift& lift,
                                                         barwright::Reps reps, barwright::Date date,
                                                         int earlier_sets, int lots,
                                                         std::uint64_t seed) {
  using namespace barwright;
  const StrengthFit::Joint joint = fit.joint(lift, date, earlier_sets);
  // The Cholesky factor of the covariance, row by row.
  double root[3][3] = {};
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j <= i; ++j) {
      double rest = joint.covariance[i][j];
      for (int k = 0; k < j; ++k) rest -= root[i][k] * root[j][k];
      root[i][j] = i == j ? std::sqrt(std::fmax(rest, 0.0)) : rest / root[j][j];
    }
  }
  const CurveTable& table = fit.settings().curve;
  const double day = joint.on_top;
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal;
  std::vector<double> heaviest(static_cast<std::size_t>(lots));
  for (double& log_load : heaviest) {
    const double z[3] = {normal(random), normal(random), normal(random)};
    double x[3];
    for (int i = 0; i < 3; ++i) {
      x[i] = joint.mean[i];
      for (int k = 0; k <= i; ++k) x[i] += root[i][k] * z[k];
    }
    const ShapedCurve curve(table, std::exp(x[1]), x[2]);
    log_load = x[0] + day * normal(random) + curve.log_fraction(just_enough_for(reps.count()));
  }
  std::sort(heaviest.begin(), heaviest.end());
  return heaviest;
}

}  // namespace barwright_test
