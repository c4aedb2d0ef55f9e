// barwright/learn/least_squares.hpp - weighted least squares with standard errors
//
// Linear problems are solved by Householder QR, which keeps the digits that the normal equations
// lose; nonlinear ones by Eigen's translation of the Levenberg-Marquardt solver of MINPACK (More,
// Garbow and Hillstrom 1980; from memory). Both report what the residuals say about the scatter of
// the observations, and what that leaves of the coefficients.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <cmath>
#include <optional>

#include "barwright/version.hpp"

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

/// Nothing when the columns are linearly dependent to rounding.
[[nodiscard]] std::optional<LeastSquares> solve_least_squares(const Eigen::MatrixXd& design,
                                                              const Eigen::VectorXd& response);

/// Residuals and their Jacobian, whatever computes them.
struct Residuals {
  const void* of;
  void (*call)(const void* of, const Eigen::VectorXd& x, Eigen::VectorXd& residuals,
               Eigen::MatrixXd& jacobian);
};
[[nodiscard]] std::optional<LeastSquares> minimise(const Residuals& residuals,
                                                   const Eigen::VectorXd& start, int count);

}  // namespace detail

/// Weighted linear least squares: minimises sum of weights (response - design x coefficients)^2.
///
/// @param design    one row per observation, one column per coefficient
/// @param weights   one per observation, above 0: in proportion to 1 / variance
/// @throws DomainError unless the sizes agree, all is finite, there are more observations than
///         coefficients, and the columns are linearly independent to rounding.
/// @accuracy by Householder QR with column pivoting on columns of equal length, refined once: about
///         as many digits as the problem's condition leaves in double precision
[[nodiscard]] LeastSquares weighted_least_squares(const Eigen::Ref<const Eigen::MatrixXd>& design,
                                                  const Eigen::Ref<const Eigen::VectorXd>& response,
                                                  const Eigen::Ref<const Eigen::VectorXd>& weights);

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
  const auto call = [](const void* of, const Eigen::VectorXd& x, Eigen::VectorXd& r,
                       Eigen::MatrixXd& jacobian) {
    (*static_cast<const Residuals*>(of))(x, r, jacobian);
  };
  return detail::minimise({&residuals, call}, start, count);
}

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/least_squares.ipp"
#endif
