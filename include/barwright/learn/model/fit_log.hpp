// barwright/learn/model/fit_log.hpp - from a log to a fit, round by round
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "barwright/core/mass.hpp"
#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/model/find_shapes.hpp"
#include "barwright/learn/model/log_fit.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/marks.hpp"
#include "barwright/learn/model/outliers.hpp"
#include "barwright/learn/model/staged_log.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/stacking.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// The shapes before the first set.
[[nodiscard]] inline ShapePosterior prior_shapes(const std::vector<LogMoments>& priors) {
  const auto n = static_cast<Index>(priors.size());
  ShapePosterior shapes{.mean = Vector::Zero(n), .covariance = Matrix::Zero(n, n)};
  for (Index i = 0; i < n; ++i) {
    const LogMoments& prior = priors[static_cast<std::size_t>(i)];
    shapes.mean[i] = prior.mean;
    shapes.covariance(i, i) = prior.standard_deviation * prior.standard_deviation;
  }
  return shapes;
}

[[nodiscard]] inline LogFit fit_log(const StrengthSettings& settings,
                                    std::span<const LoggedSet> sets) {
  LogFit fit{.model = {.settings = settings}, .checksum = checksum_of(sets)};
  LogModel& model = fit.model;
  model.log = staged(model.settings, sets, fit.reports);
  model.set_ratio_priors(model.priors().max);
  model.set_shape_priors();
  model.find_layoffs();
  model.find_moves();
  fit.shapes = prior_shapes(model.shape_priors);
  if (!model.log.has_sets()) {
    fit.marks = find_marks(model, fit.shapes);
    return fit;
  }
  // Ratios that depend on strength are taken at the level that the log itself shows.
  const double level = screen(model).back();
  model.set_ratio_priors(Mass::from_kg(std::clamp(std::exp(level), 1.0, 1000.0)));
  (void)screen(model);
  const auto fit_round = [&] {
    fit.shapes = find_shapes(model, fit.shapes.mean);
    fit.marks = find_marks(model, fit.shapes);
  };
  constexpr int most_rounds = 5;
  for (int round = 0; round < most_rounds; ++round) {
    fit_round();
    if (!judge(model, fit.shapes, fit.marks, fit.reports, true)) return fit;
  }
  // Sets still come and go: they stay as they were left, and all answers are of that log.
  fit_round();
  (void)judge(model, fit.shapes, fit.marks, fit.reports, false);
  return fit;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
