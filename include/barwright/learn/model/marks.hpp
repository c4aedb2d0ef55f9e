// barwright/learn/model/marks.hpp - the states on every day of the log, by all its sets
//
// A smoother gives the states at fixed shapes. How they move with the shapes is kept beside them,
// so that what is not known of the shapes is carried into every answer.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/kalman_smoother.hpp"
#include "barwright/learn/model/find_shapes.hpp"
#include "barwright/learn/model/learn_set.hpp"
#include "barwright/learn/model/log_model.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// All that is known on one day of the log: states by all sets, and how they lean on the shapes.
struct Mark {
  Date date;
  StateEstimate state;
  Matrix by_shape;  ///< derivatives of the state means by the shapes
};

/// A combination of states, and how its mean leans on the shapes.
struct Answer {
  double mean;
  double variance;
  Vector by_shape;
};
[[nodiscard]] inline Answer answer(const Mark& mark, const ShapePosterior& shapes,
                                   std::span<const Term> terms) {
  const MeanAndVariance given = mark.state.combination(terms);
  Vector lean = Vector::Zero(shapes.mean.size());
  for (const Term& term : terms) lean += term.coefficient * mark.by_shape.row(term.state);
  // Evaluated first: g++ 12 warns of its own inlining where the product is left to `dot`.
  const double variance = given.variance + lean.dot((shapes.covariance * lean).eval());
  return {given.mean, variance, std::move(lean)};
}
[[nodiscard]] inline Answer answer(const Mark& mark, const ShapePosterior& shapes,
                                   const Terms& terms) {
  return answer(mark, shapes, std::span<const Term>(terms.begin(), terms.size()));
}

/// A mark for each session; a single one, with the priors, for an empty log.
[[nodiscard]] inline std::vector<Mark> find_marks(const LogModel& model,
                                                  const ShapePosterior& shapes) {
  const std::vector<Date>& dates = model.log.dates;
  const auto run = [&](const Vector& at) {
    KalmanSmoother smoother(model.prior_filter());
    run_log(model, smoother, at, [](KalmanSmoother& s, std::size_t) { s.mark(); });
    if (dates.empty()) smoother.mark();
    return smoother;
  };
  const std::vector<StateEstimate> here = run(shapes.mean).smooth();
  std::vector<Mark> marks;
  marks.reserve(here.size());
  for (std::size_t i = 0; i < here.size(); ++i) {
    const Date date = dates.empty() ? Date(1970, 1, 1) : dates[i];
    marks.push_back({date, here[i], Matrix::Zero(model.state_count(), model.shape_count())});
  }
  if (dates.empty()) return marks;
  for (Index j = 0; j < model.shape_count(); ++j) {
    const double h = 0.5 * std::sqrt(shapes.covariance(j, j));
    Vector moved = shapes.mean;
    moved[j] += h;
    const std::vector<StateVector> up = run(moved).smooth_means();
    moved[j] -= 2.0 * h;
    const std::vector<StateVector> down = run(moved).smooth_means();
    for (std::size_t i = 0; i < marks.size(); ++i) {
      marks[i].by_shape.col(j) = (up[i] - down[i]) / (2.0 * h);
    }
  }
  return marks;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
