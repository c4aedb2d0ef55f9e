// barwright/learn/model/find_shapes.hpp - the shapes of a lifter's curves, by the whole log
//
// Stretches and bend are found by maximising the likelihood of the reps, with their priors; their
// covariance is the curvature there.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <cmath>

#include "barwright/learn/model/log_model.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// What is known of the shapes.
struct ShapePosterior {
  Vector mean{};
  Matrix covariance{};
};

/// The factor on walk, form and noise that gives their variances on average.
[[nodiscard]] inline double usual_steadiness(const ShapePosterior& shapes) noexcept {
  return std::exp(shapes.mean[steadiness_shape] +
                  shapes.covariance(steadiness_shape, steadiness_shape));
}

/// Finds the shapes: a quasi-Newton climb of their log posterior and one step of Newton's method at
/// the top, derivatives by differences, in units of the prior deviations; then mean and covariance
/// instead of peak and curvature.
/// @param start  where the climb begins
[[nodiscard]] ShapePosterior find_shapes(const LogModel& model, const Vector& start);

}  // namespace barwright::inline BARWRIGHT_ABI::detail

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/model/find_shapes.ipp"
#endif
