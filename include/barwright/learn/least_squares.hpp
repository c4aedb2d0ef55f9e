// barwright/learn/least_squares.hpp - weighted least squares with standard errors
//
// Linear problems are solved by Householder QR, which keeps the digits that the normal equations
// lose; nonlinear ones by Eigen's translation of the Levenberg-Marquardt solver of MINPACK (More,
// Garbow and Hillstrom 1980; recalled). Both report what the residuals say about the scatter of the
// observations, and what that leaves of the coefficients.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <Eigen/QR>
#include <cmath>
#include <optional>
#include <unsupported/Eigen/NonLinearOptimization>
#include <utility>

#include "barwright/core/error.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A least-squares fit of p coefficients.
struct LeastSquares {
  Eigen::VectorXd coefficients;
  Eigen::MatrixXd unscaled_covariance;  ///< (X'WX)^-1: the covariance if the weights are exact
  double residual_sum_of_squares = 0;   ///< weighted
  int degrees_of_freedom = 0;           ///< observations less coefficients

  /// Variance of an observation of weight 1, as the residuals show it.
  [[nodiscard]] double residual_variance() const noexcept {
    return residual_sum_of_squares / degrees_of_freedom;
  }
  /// Covariance of the coefficients when the weights are known only in proportion.
  [[nodiscard]] Eigen::MatrixXd covariance() const {
    return residual_variance() * unscaled_covariance;
  }
  [[nodiscard]] double standard_error(Eigen::Index i) const {
    return std::sqrt(residual_variance() * unscaled_covariance(i, i));
  }
};

namespace detail {

// Templates on a type that is always double, so that a program pays the compiler for the QR only
// where it is used.

/// Nothing when the columns are linearly dependent to rounding.
template <class Scalar>
[[nodiscard]] std::optional<LeastSquares> solve_least_squares(
    const Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>& design,
    const Eigen::Matrix<Scalar, Eigen::Dynamic, 1>& response) {
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  using Vector = Eigen::Matrix<Scalar, Eigen::Dynamic, 1>;
  const Eigen::Index p = design.cols();
  // Columns of equal length make the rank a question of directions, not of units.
  const Vector lengths = design.colwise().norm().transpose();
  if (!(lengths.minCoeff() > 0 && is_finite(lengths.sum()))) return std::nullopt;
  const Vector scale = lengths.cwiseInverse();
  const Matrix scaled = design * scale.asDiagonal();
  const Eigen::ColPivHouseholderQR<Matrix> qr(scaled);
  if (qr.rank() < p) return std::nullopt;

  Vector solution = qr.solve(response);
  solution += qr.solve(response - scaled * solution);  // one step of refinement
  LeastSquares fit;
  fit.residual_sum_of_squares = (response - scaled * solution).squaredNorm();
  fit.degrees_of_freedom = static_cast<int>(design.rows() - p);
  fit.coefficients = scale.cwiseProduct(solution);
  const Matrix inverse_root =
      scale.asDiagonal() *
      (qr.colsPermutation() *
       qr.matrixR().topLeftCorner(p, p).template triangularView<Eigen::Upper>().solve(
           Matrix::Identity(p, p)));
  fit.unscaled_covariance = inverse_root * inverse_root.transpose();
  return fit;
}

template <class Residuals>
struct LevenbergMarquardtFunctor {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  const Residuals& of;
  int input_count;
  int value_count;

  [[nodiscard]] int inputs() const noexcept { return input_count; }
  [[nodiscard]] int values() const noexcept { return value_count; }
  int operator()(const InputType& x, ValueType& residuals) const {
    JacobianType unused(value_count, input_count);
    of(x, residuals, unused);
    return 0;
  }
  int df(const InputType& x, JacobianType& jacobian) const {
    ValueType unused(value_count);
    of(x, unused, jacobian);
    return 0;
  }
};

}  // namespace detail

/// Weighted linear least squares: minimises sum of weights (response - design x coefficients)^2.
///
/// @param design    one row per observation, one column per coefficient
/// @param weights   one per observation, above 0: in proportion to 1 / variance
/// @throws DomainError unless the sizes agree, all is finite, there are more observations than
///         coefficients, and the columns are linearly independent to rounding.
/// @accuracy by Householder QR with column pivoting on columns of equal length, refined once: about
///         as many digits as the problem's condition leaves in double precision
template <class Design, class Response, class Weights>
[[nodiscard]] LeastSquares weighted_least_squares(const Eigen::MatrixBase<Design>& design,
                                                  const Eigen::MatrixBase<Response>& response,
                                                  const Eigen::MatrixBase<Weights>& weights) {
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
  auto fit = detail::solve_least_squares<double>(weighted_design, weighted_response);
  if (!fit)
    detail::fail("the columns of the design", "linearly independent", "columns that are not");
  return *std::move(fit);
}

/// Nonlinear least squares by Levenberg-Marquardt, from a starting point.
///
/// @param residuals  called as residuals(coefficients, r, J): fills r (`count` values, each already
///                   times the root of its weight) and its Jacobian J
/// @returns nothing when it does not settle within 2000 evaluations, or where the Jacobian at the
///          end shows that some coefficients cannot be told apart. Standard errors are those of the
///          linear fit there.
template <class Residuals>
[[nodiscard]] std::optional<LeastSquares> nonlinear_least_squares(const Residuals& residuals,
                                                                  const Eigen::VectorXd& start,
                                                                  int count) {
  using Functor = detail::LevenbergMarquardtFunctor<Residuals>;
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
  residuals(x, r, jacobian);
  if (!r.allFinite() || !jacobian.allFinite()) return std::nullopt;
  auto fit = detail::solve_least_squares<double>(jacobian, r);
  if (fit) {
    fit->coefficients = x;
    fit->residual_sum_of_squares = r.squaredNorm();
  }
  return fit;
}

}  // namespace barwright::inline BARWRIGHT_ABI
