// barwright/learn/least_squares.ipp - the bodies of least_squares.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <Eigen/QR>
#include <optional>
#include <unsupported/Eigen/NonLinearOptimization>
#include <utility>

#include "barwright/core/error.hpp"
#include "barwright/learn/least_squares.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline std::optional<LeastSquares> solve_least_squares(const Eigen::MatrixXd& design,
                                                       const Eigen::VectorXd& response) {
  const Eigen::Index p = design.cols();
  // Columns of equal length make the rank a question of directions, not of units.
  const Eigen::VectorXd lengths = design.colwise().norm().transpose();
  if (!(lengths.minCoeff() > 0 && is_finite(lengths.sum()))) return std::nullopt;
  const Eigen::VectorXd scale = lengths.cwiseInverse();
  const Eigen::MatrixXd scaled = design * scale.asDiagonal();
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(scaled);
  if (qr.rank() < p) return std::nullopt;

  Eigen::VectorXd solution = qr.solve(response);
  solution += qr.solve(response - scaled * solution);  // one step of refinement
  LeastSquares fit;
  fit.residual_sum_of_squares = (response - scaled * solution).squaredNorm();
  fit.degrees_of_freedom = static_cast<int>(design.rows() - p);
  fit.coefficients = scale.cwiseProduct(solution);
  const Eigen::MatrixXd inverse_root =
      scale.asDiagonal() *
      (qr.colsPermutation() * qr.matrixR().topLeftCorner(p, p).triangularView<Eigen::Upper>().solve(
                                  Eigen::MatrixXd::Identity(p, p)));
  fit.unscaled_covariance = inverse_root * inverse_root.transpose();
  return fit;
}

struct LevenbergMarquardtFunctor {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  const Residuals& residuals;
  int input_count;
  int value_count;

  [[nodiscard]] int inputs() const noexcept { return input_count; }
  [[nodiscard]] int values() const noexcept { return value_count; }
  int operator()(const InputType& x, ValueType& r) const {
    JacobianType unused(value_count, input_count);
    residuals.call(residuals.of, x, r, unused);
    return 0;
  }
  int df(const InputType& x, JacobianType& jacobian) const {
    ValueType unused(value_count);
    residuals.call(residuals.of, x, unused, jacobian);
    return 0;
  }
};

inline std::optional<LeastSquares> minimise(const Residuals& residuals,
                                            const Eigen::VectorXd& start, int count) {
  using Functor = LevenbergMarquardtFunctor;
  Functor functor{residuals, static_cast<int>(start.size()), count};
  Eigen::LevenbergMarquardt<Functor> solver(functor);
  solver.parameters.ftol = solver.parameters.xtol = 1e-15;
  solver.parameters.maxfev = 2000;
  solver.parameters.factor = 1;  // no first leap past the optimum: some curves are flat there
  Eigen::VectorXd x = start;
  const auto status = solver.minimize(x);
  if (status == Eigen::LevenbergMarquardtSpace::ImproperInputParameters ||
      status == Eigen::LevenbergMarquardtSpace::TooManyFunctionEvaluation || !x.allFinite()) {
    return std::nullopt;
  }
  Eigen::VectorXd r(count);
  Eigen::MatrixXd jacobian(count, start.size());
  residuals.call(residuals.of, x, r, jacobian);
  if (!r.allFinite() || !jacobian.allFinite()) return std::nullopt;
  auto fit = solve_least_squares(jacobian, r);
  if (fit) {
    fit->coefficients = x;
    fit->residual_sum_of_squares = r.squaredNorm();
  }
  return fit;
}

}  // namespace detail

inline LeastSquares weighted_least_squares(const Eigen::Ref<const Eigen::MatrixXd>& design,
                                           const Eigen::Ref<const Eigen::VectorXd>& response,
                                           const Eigen::Ref<const Eigen::VectorXd>& weights) {
  if (response.size() != design.rows() || weights.size() != design.rows()) {
    detail::fail("responses and weights", "as many as the rows of the design",
                 static_cast<double>(response.size()));
  }
  if (!(design.rows() > design.cols() && design.cols() > 0)) {
    detail::fail("the number of observations", "more than the number of coefficients",
                 static_cast<double>(design.rows()));
  }
  if (!(weights.minCoeff() > 0 && weights.allFinite())) {
    detail::fail("a weight", "a finite number above 0", weights.minCoeff());
  }
  if (!(design.allFinite() && response.allFinite())) {
    detail::fail("observations", "finite numbers", "NaN or infinity");
  }
  const Eigen::VectorXd root = weights.cwiseSqrt();
  const Eigen::MatrixXd weighted_design = root.asDiagonal() * design;
  const Eigen::VectorXd weighted_response = root.cwiseProduct(response);
  auto fit = detail::solve_least_squares(weighted_design, weighted_response);
  if (!fit)
    detail::fail("the columns of the design", "linearly independent", "columns that are not");
  return *std::move(fit);
}

}  // namespace barwright::inline BARWRIGHT_ABI
