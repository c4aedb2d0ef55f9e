// barwright/learn/kalman_filter.ipp - the bodies of kalman_filter.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <cmath>
#include <span>
#include <utility>

#include "barwright/core/error.hpp"
#include "barwright/learn/kalman_filter.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline void check_state(Eigen::Index i, Eigen::Index size) {
  if (!(i >= 0 && i < size)) {
    fail("a state number", "from 0 to one less than the number of states", static_cast<double>(i));
  }
}
inline void check_variance(double variance) {
  if (!(variance >= 0 && is_finite(variance))) {
    fail("a variance", "a finite number of 0 or more", variance);
  }
}
inline void check_number(double value) {
  if (!is_finite(value)) fail("a value in a linear Gaussian model", "a finite number", value);
}
inline void check_size(Eigen::Index got, Eigen::Index size) {
  if (got != size) {
    fail("the size of a vector or matrix", "that of the state", static_cast<double>(got));
  }
}

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

/// Adds `to_column` times `along` to a column, and `to_along` times the column as it was to
/// `along`: two rows at a time, as processors do.
inline void mix(double* column, double* along, Eigen::Index count, double to_column,
                double to_along) noexcept {
  using Two = Eigen::Map<Eigen::Array2d>;
  Eigen::Index k = 0;
  for (; k + 1 < count; k += 2) {
    const Eigen::Array2d before = Two(column + k);
    Two(column + k) = before + to_column * Two(along + k);
    Two(along + k) += to_along * before;
  }
  if (k < count) {
    const double before = column[k];
    column[k] = before + to_column * along[k];
    along[k] += to_along * before;
  }
}

}  // namespace detail

inline KalmanFilter::KalmanFilter(const StateVector& mean, const StateMatrix& covariance)
    : KalmanFilter(mean) {
  detail::check_size(covariance.rows(), size());
  set_factors(detail::weighted_root(covariance));
}

inline KalmanFilter KalmanFilter::independent(const StateVector& mean,
                                              const StateVector& variances) {
  detail::check_size(variances.size(), mean.size());
  KalmanFilter filter(mean);
  for (Index i = 0; i < mean.size(); ++i) detail::check_variance(variances[i]);
  filter.d_ = variances;
  return filter;
}

inline StateMatrix KalmanFilter::covariance() const {
  StateMatrix result(size(), size());
  for (Index j = 0; j < size(); ++j) {
    for (Index i = 0; i <= j; ++i) {
      double sum = 0;
      for (Index k = j; k < size(); ++k) sum += u_(i, k) * u_(j, k) * d_[k];
      result(i, j) = result(j, i) = sum;
    }
  }
  return result;
}

inline StateMatrix KalmanFilter::root() const { return u_ * d_.cwiseSqrt().asDiagonal(); }

inline MeanAndVariance KalmanFilter::combination(std::span<const Term> terms) const {
  MeanAndVariance result{0, 0};
  for (const Term& term : terms) {
    detail::check_state(term.state, size());
    result.mean += term.coefficient * mean_[term.state];
  }
  for (Index j = 0; j < size(); ++j) {
    const double along = along_column(terms, j);
    result.variance += along * d_[j] * along;
  }
  return result;
}

inline double KalmanFilter::covariance_between(std::span<const Term> a,
                                               std::span<const Term> b) const {
  for (const Term& term : a) detail::check_state(term.state, size());
  for (const Term& term : b) detail::check_state(term.state, size());
  double result = 0;
  for (Index j = 0; j < size(); ++j) result += along_column(a, j) * d_[j] * along_column(b, j);
  return result;
}

inline void KalmanFilter::shift(Index i, double amount) {
  detail::check_state(i, size());
  detail::check_number(amount);
  mean_[i] += amount;
}

inline void KalmanFilter::add_noise(Index i, double variance) {
  detail::check_state(i, size());
  detail::check_variance(variance);
  for (Index k = 0; k < i; ++k) a_[k] = 0;
  a_[i] = 1;
  add_rank_one(i + 1, variance);
}

inline void KalmanFilter::renew(Index i, double mean, double variance) {
  detail::check_state(i, size());
  detail::check_number(mean);
  detail::check_variance(variance);
  // Without row i, column i still carries covariance of the states before i: fold it in there.
  const Index n = size();
  double* const column = u_.data() + i * n;
  for (Index k = 0; k < i; ++k) a_[k] = std::exchange(column[k], 0.0);
  add_rank_one(i, d_[i]);
  for (Index j = i + 1; j < n; ++j) u_(i, j) = 0;
  d_[i] = variance;
  mean_[i] = mean;
}

inline void KalmanFilter::scale(Index i, double factor) {
  detail::check_state(i, size());
  detail::check_number(factor);
  if (factor * factor == 0) return renew(i, 0, 0);
  mean_[i] *= factor;
  u_.row(i).tail(size() - 1 - i) *= factor;
  u_.col(i).head(i) /= factor;
  d_[i] *= factor * factor;
}

inline void KalmanFilter::add_multiple(Index to, Index from, double factor) {
  detail::check_state(to, size());
  detail::check_state(from, size());
  detail::check_number(factor);
  if (to == from) return scale(to, 1 + factor);
  mean_[to] += factor * mean_[from];
  if (to < from) {
    u_.row(to).tail(size() - from) += factor * u_.row(from).tail(size() - from);
  } else {
    Eigen::MatrixXd columns = u_;
    columns.row(to) += factor * columns.row(from);
    set_factors({std::move(columns), d_});
  }
}

inline void KalmanFilter::predict(const StateMatrix& transition, const StateVector& offset,
                                  const StateMatrix& noise) {
  detail::check_size(transition.rows(), size());
  detail::check_size(transition.cols(), size());
  detail::check_size(offset.size(), size());
  detail::check_size(noise.rows(), size());
  detail::check_number(transition.sum());
  detail::check_number(offset.sum());
  const Root root = detail::weighted_root(noise);
  mean_ = transition * mean_ + offset;
  Eigen::MatrixXd columns(size(), 2 * size());
  columns << transition * u_, root.columns;
  Eigen::VectorXd weights(2 * size());
  weights << d_, root.weights;
  set_factors({std::move(columns), std::move(weights)});
}

inline void KalmanFilter::predict(const StateMatrix& transition, const StateMatrix& noise) {
  predict(transition, StateVector::Zero(size()), noise);
}

inline Innovation KalmanFilter::update(std::span<const Term> terms, double y, double variance) {
  return learn(look_at(terms).mean, y, variance);
}

inline MeanAndVariance KalmanFilter::look_at(std::span<const Term> terms) {
  const Index n = size();
  double* const f = f_.data();
  MeanAndVariance result{0, 0};
  for (Index j = 0; j < n; ++j) f[j] = 0;
  for (const Term& term : terms) {
    detail::check_state(term.state, n);
    detail::check_number(term.coefficient);
    result.mean += term.coefficient * mean_[term.state];
    const double* u = u_.data() + term.state * (n + 1);  // row by row: one column further each time
    for (Index j = term.state; j < n; ++j, u += n) f[j] += term.coefficient * *u;
  }
  const double* const d = d_.data();
  for (Index j = 0; j < n; ++j) result.variance += f[j] * d[j] * f[j];
  return result;
}

inline Innovation KalmanFilter::learn(double expected, double y, double variance) {
  detail::check_number(y);
  if (!(variance > 0 && detail::is_finite(variance))) {
    detail::fail("the variance of an observation", "a finite number above 0", variance);
  }
  const Innovation innovation{y - expected, sharpen(variance)};
  const double gain = innovation.residual / innovation.variance;
  for (Index j = 0; j < size(); ++j) mean_[j] += gain * a_[j];
  return innovation;
}

inline double KalmanFilter::along_column(std::span<const Term> terms, Index j) const {
  double along = 0;
  for (const Term& term : terms) along += term.coefficient * u_(term.state, j);
  return along;
}

inline KalmanFilter::KalmanFilter(const StateVector& mean)
    : mean_(mean),
      u_(StateMatrix::Identity(mean.size(), mean.size())),
      d_(StateVector::Zero(mean.size())),
      f_(StateVector::Zero(mean.size())),
      a_(StateVector::Zero(mean.size())) {
  if (mean.size() == 0) detail::fail("the number of states", "1 or more", 0.0);
  for (Index i = 0; i < mean.size(); ++i) detail::check_number(mean[i]);
}

inline double KalmanFilter::sharpen(double noise) noexcept {
  const Index n = size();
  double* const d = d_.data();
  double* const a = a_.data();
  double variance = noise;         // of the observation as far as columns before j explain it
  double by_variance = 1 / noise;  // one over it
  for (Index j = 0; j < n; ++j) {
    const double f = f_[j];
    const double g = d[j] * f;
    a[j] = g;
    if (g == 0) continue;
    const double correction = -f * by_variance;
    const double before = variance;
    variance += f * g;
    by_variance = 1 / variance;
    d[j] *= before * by_variance;
    detail::mix(u_.data() + j * n, a, j, correction, g);
  }
  return variance;
}

inline void KalmanFilter::add_rank_one(Index count, double weight) noexcept {
  for (Index j = count - 1; j >= 0 && weight > 0; --j) {
    const double s = a_[j];
    const double sum = d_[j] + weight * s * s;
    if (s == 0 || sum == 0) continue;
    const double share = weight * s / sum;
    double* const column = u_.data() + j * size();
    for (Index k = 0; k < j; ++k) {
      a_[k] -= s * column[k];
      column[k] += share * a_[k];
    }
    weight *= d_[j] / sum;
    d_[j] = sum;
  }
}

inline void KalmanFilter::set_factors(Root root) {
  Eigen::MatrixXd& w = root.columns;
  u_.setIdentity();
  for (Index j = size() - 1; j >= 0; --j) {
    const Eigen::RowVectorXd weighted = w.row(j).cwiseProduct(root.weights.transpose());
    d_[j] = weighted.dot(w.row(j));
    if (d_[j] == 0) continue;
    for (Index k = 0; k < j; ++k) {
      u_(k, j) = weighted.dot(w.row(k)) / d_[j];
      w.row(k) -= u_(k, j) * w.row(j);
    }
  }
}

}  // namespace barwright::inline BARWRIGHT_ABI
