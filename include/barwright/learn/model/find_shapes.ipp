// barwright/learn/model/find_shapes.ipp - the body of find_shapes.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "barwright/learn/model/find_shapes.hpp"
#include "barwright/learn/model/learn_set.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/staged_log.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

inline ShapePosterior find_shapes(const LogModel& model, const Vector& start) {
  const Index n = model.shape_count();
  const std::vector<ModelSet>& sets = model.log.sets;
  Vector centre(n);
  Vector unit(n);
  for (Index i = 0; i < n; ++i) {
    centre[i] = model.shape_priors[static_cast<std::size_t>(i)].mean;
    unit[i] = model.shape_priors[static_cast<std::size_t>(i)].standard_deviation;
  }
  const auto session_of_last = [&](std::size_t count) {
    return sets.size() > count ? sets[sets.size() - count].session : 0;
  };
  std::size_t first_session = session_of_last(most_sets_for_shapes);
  const auto value_at = [&](const Vector& x) {
    return log_posterior(model, centre + unit.cwiseProduct(x), first_session);
  };
  Vector x = (start - centre).cwiseQuotient(unit);
  double here = 0.0;
  Vector up(n);
  Vector down(n);
  Vector gradient(n);
  Vector curvatures(n);                 // along each shape
  Vector h = Vector::Constant(n, 0.4);  // of the differences
  const auto moved = [&](Index i, double a, Index j, double b) {
    Vector there = x;
    there[i] += a;
    there[j] += b;
    return value_at(there);
  };
  const auto find_gradient = [&] {
    for (Index i = 0; i < n; ++i) {
      up[i] = moved(i, h[i], i, 0.0);
      down[i] = moved(i, -h[i], i, 0.0);
      gradient[i] = (up[i] - down[i]) / (2.0 * h[i]);
      curvatures[i] = -(up[i] - 2.0 * here + down[i]) / (h[i] * h[i]);
    }
  };
  Matrix inverse = Matrix::Zero(n, n);  // of the curvature, kept up to date by each step (BFGS)
  // Wide differences: the log posterior of a long log is not smooth on a smaller scale.
  const auto suit_differences = [&] {
    for (Index i = 0; i < n; ++i) h[i] = std::clamp(0.8 * std::sqrt(inverse(i, i)), 1e-3, 0.4);
  };
  const auto climb = [&] {
    constexpr int most_steps = 30;
    for (int step_number = 0; step_number < most_steps; ++step_number) {
      Vector step = inverse * gradient;
      constexpr double close_enough = 0.1;  // in the log posterior; a last step follows below
      if (0.5 * gradient.dot(step) < close_enough) return;
      const double longest = step.cwiseAbs().maxCoeff();
      if (longest > 1.5) step *= 1.5 / longest;
      double there = value_at(x + step);
      for (int halving = 0; halving < 8 && !(there > here); ++halving) {
        step *= 0.5;
        there = value_at(x + step);
      }
      if (!(there > here)) return;
      x += step;
      here = there;
      suit_differences();
      Vector change = gradient;
      find_gradient();
      change -= gradient;
      const double along = step.dot(change);
      if (along > 1e-8) {
        const Vector moved_by = inverse * change;
        inverse += ((along + change.dot(moved_by)) / (along * along)) * (step * step.transpose()) -
                   (moved_by * step.transpose() + step * moved_by.transpose()) / along;
      }
    }
  };

  // The shapes of a long log are nearly those of its end, which costs less to climb.
  constexpr std::size_t end_of_log = 600;  // sets
  const bool is_long = sets.size() > 2 * end_of_log;
  if (is_long) first_session = session_of_last(end_of_log);
  here = value_at(x);
  find_gradient();
  for (Index i = 0; i < n; ++i) inverse(i, i) = 1.0 / std::fmax(curvatures[i], 1.0);
  climb();
  if (is_long) {
    first_session = session_of_last(most_sets_for_shapes);
    inverse *= static_cast<double>(end_of_log) /
               static_cast<double>(std::min(sets.size(), most_sets_for_shapes));
    suit_differences();
    here = value_at(x);
    find_gradient();
    climb();
  }

  // The negative Hessian of the log posterior, with a ridge until it is positive definite. How
  // steady the lifter is says nothing of where the curve lies, as a normal law's scale says nothing
  // of its location: their mixed derivatives are zero on average.
  Matrix negative_hessian(n, n);
  for (Index i = 0; i < n; ++i) {
    negative_hessian(i, i) = curvatures[i];
    for (Index j = 0; j < i; ++j) {
      if (i == steadiness_shape || j == steadiness_shape || !model.are_entangled(i, j)) {
        negative_hessian(i, j) = negative_hessian(j, i) = 0.0;
        continue;
      }
      const double same = moved(i, h[i], j, h[j]) + moved(i, -h[i], j, -h[j]);
      const double mixed = same - up[i] - up[j] - down[i] - down[j] + 2.0 * here;
      negative_hessian(i, j) = negative_hessian(j, i) = -mixed / (2.0 * h[i] * h[j]);
    }
  }
  const Matrix identity = Matrix::Identity(n, n);
  constexpr double least = 0.3;  // no shape is known much less than before the first set
  double ridge = 0.0;
  while (Eigen::LLT<Matrix>(negative_hessian + (ridge - least) * identity).info() !=
             Eigen::Success &&
         ridge < 1e9) {
    ridge = std::max(4.0 * ridge, 0.25);
  }
  const Eigen::LLT<Matrix> curvature(negative_hessian + ridge * identity);
  Vector last_step = curvature.solve(gradient);
  const double too_long = last_step.cwiseAbs().maxCoeff() / 0.5;
  if (too_long > 1.0) last_step /= too_long;
  x += last_step;
  here = value_at(x);

  // The posterior leans to one side where the log says little, and is no paraboloid. Along each
  // principal axis of the covariance three points give its mean and spread (Gauss-Hermite, weighted
  // by how the posterior differs from the normal there). Where that changes much, once more along
  // the axes of what came out, as the curvature at one place can be far off.
  Matrix axes = curvature.matrixU().solve(identity);
  constexpr double much = 0.2;  // standard deviations, or of the logarithm of one
  double most_change = 2.0 * much;
  for (int pass = 0; pass < 2 && most_change > much; ++pass) {
    if (pass > 0) here = value_at(x);
    const Eigen::SelfAdjointEigenSolver<Matrix> principal(axes * axes.transpose());
    axes = principal.eigenvectors() * principal.eigenvalues().cwiseSqrt().asDiagonal();
    Vector mean = Vector::Zero(n);
    most_change = 0.0;
    for (Index i = 0; i < n; ++i) {
      const auto weight_at = [&](double place) {
        const double excess = value_at(x + place * axes.col(i)) - here + 0.5 * place * place;
        return std::exp(std::clamp(excess, -2.0, 2.0)) / 6.0;
      };
      constexpr double root_3 = 1.7320508075688772;
      const double above = weight_at(root_3);
      const double below = weight_at(-root_3);
      const double total = above + below + 2.0 / 3.0;
      const double shift = root_3 * (above - below) / total;
      const double spread = std::sqrt(3.0 * (above + below) / total - shift * shift);
      mean += shift * axes.col(i);
      axes.col(i) *= spread;
      most_change = std::max({most_change, std::fabs(shift), std::fabs(std::log(spread))});
    }
    x += mean;
  }
  axes = unit.asDiagonal() * axes;
  return {centre + unit.cwiseProduct(x), axes * axes.transpose()};
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
