// barwright/learn/kalman_filter.ipp - the bodies of kalman_filter.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <cmath>

#include "barwright/core/error.hpp"
#include "barwright/learn/kalman_filter.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

inline WeightedRoot weighted_root(const Eigen::Ref<const Eigen::MatrixXd>& covariance) {
  check_size(covariance.cols(), covariance.rows());
  const Eigen::LDLT<Eigen::MatrixXd> ldlt(covariance);
  WeightedRoot root{ldlt.matrixL(), ldlt.vectorD().cwiseMax(0.0)};
  root.columns = ldlt.transpositionsP().transpose() * root.columns;
  // Whatever was not symmetric and positive semidefinite does not come back.
  const Eigen::MatrixXd back = root.columns * root.weights.asDiagonal() * root.columns.transpose();
  for (Eigen::Index i = 0; i < covariance.rows(); ++i) {
    for (Eigen::Index j = 0; j < covariance.cols(); ++j) {
      const double scale = std::sqrt(covariance(i, i)) * std::sqrt(covariance(j, j));
      if (!(std::fabs(back(i, j) - covariance(i, j)) <= 1e-9 * scale)) {
        fail("a covariance", "symmetric and positive semidefinite", covariance(i, j));
      }
    }
  }
  return root;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
