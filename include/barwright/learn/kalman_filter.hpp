// barwright/learn/kalman_filter.hpp - the state of a linear Gaussian model, learnt as it moves
//
// The state x of a linear Gaussian model moves and is observed with independent normal noise:
//
//     x' = T x + c + e,   e ~ N(0, Q);          y = z x + u,   u ~ N(0, h).
//
// Everything may differ from step to step: irregular times are other T and Q, a missing observation
// is an update that is not made, several observations at once are updates one after the other. See
// Durbin and Koopman, "Time Series Analysis by State Space Methods", 2nd ed. 2012, ch. 4 and 6.4
// (from memory), for the model and the treatment of observations one by one.
//
// The covariance is kept as U D U', with U unit upper triangular and D diagonal, and every step
// works on those factors: Bierman's update and Thornton's weighted Gram-Schmidt step (Bierman,
// "Factorization Methods for Discrete Sequential Estimation", 1977, ch. V and VI; from memory). The
// covariance is then symmetric and positive by construction, however ill-conditioned the problem,
// and an update costs no more than on the covariance itself.
//
// In long models most states stay as they are and a few move in a simple way. Such moves have
// functions of their own, which cost far less than a general T and Q. Moves of a state cost the
// least when its number is low, so number the states that move first.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <numbers>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/error.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One term of an observation or another combination of states: `coefficient` times x[`state`].
struct Term {
  Eigen::Index state = 0;
  double coefficient = 1;
};

/// Mean and variance of a normal variable.
struct MeanAndVariance {
  double mean = 0;
  double variance = 0;
};

/// What an observation brought: `residual`, its value less its prediction, and `variance`, that of
/// the prediction, observation noise included.
struct Innovation {
  double residual = 0;
  double variance = 0;

  /// Log of the predictive density; the log-likelihood of a series is the sum over its updates.
  [[nodiscard]] double log_density() const noexcept {
    return -0.5 * (std::log(2 * std::numbers::pi * variance) + residual * residual / variance);
  }
};

/// A vector of N states; not aligned, so that a class holding one has one layout everywhere.
template <int N>
using StateVector = Eigen::Matrix<double, N, 1, Eigen::ColMajor | Eigen::DontAlign>;

/// A covariance or transition matrix of N states.
template <int N>
using StateMatrix = Eigen::Matrix<double, N, N, Eigen::ColMajor | Eigen::DontAlign>;

/// Mean and covariance of all states.
template <int N = Eigen::Dynamic>
struct StateEstimate {
  StateVector<N> mean;
  StateMatrix<N> covariance;

  /// Mean and variance of a combination of states, such as a prediction.
  [[nodiscard]] MeanAndVariance combination(std::span<const Term> terms) const noexcept {
    MeanAndVariance result;
    for (const Term& a : terms) {
      result.mean += a.coefficient * mean[a.state];
      for (const Term& b : terms) {
        result.variance += a.coefficient * b.coefficient * covariance(a.state, b.state);
      }
    }
    return result;
  }
  [[nodiscard]] MeanAndVariance combination(std::initializer_list<Term> terms) const noexcept {
    return combination(std::span<const Term>(terms.begin(), terms.size()));
  }
};

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

/// A covariance written as W diag(weights) W'.
struct WeightedRoot {
  Eigen::MatrixXd columns;
  Eigen::VectorXd weights;
};
/// @throws DomainError unless it is symmetric and positive semidefinite.
[[nodiscard]] WeightedRoot weighted_root(const Eigen::Ref<const Eigen::MatrixXd>& covariance);

}  // namespace detail

/// The state as it is known so far: moved forward by its moves, sharpened by `update`.
///
/// N is the number of states, or Eigen::Dynamic. Apart from `predict`, and `add_multiple` onto a
/// state of higher number, no step allocates memory. Every member refuses NaN, infinities, negative
/// variances and numbers of states that do not exist with DomainError.
template <int N = Eigen::Dynamic>
class KalmanFilter {
 public:
  using Vector = StateVector<N>;
  using Matrix = StateMatrix<N>;
  using Index = Eigen::Index;

  /// Starts from the prior N(mean, covariance); the covariance may be singular.
  KalmanFilter(const Vector& mean, const Matrix& covariance) : KalmanFilter(mean) {
    detail::check_size(covariance.rows(), size());
    set_factors(detail::weighted_root(covariance));
  }

  /// Starts from independent states with these means and variances.
  [[nodiscard]] static KalmanFilter independent(const Vector& mean, const Vector& variances) {
    detail::check_size(variances.size(), mean.size());
    KalmanFilter filter(mean);
    for (Index i = 0; i < mean.size(); ++i) detail::check_variance(variances[i]);
    filter.d_ = variances;
    return filter;
  }

  [[nodiscard]] Index size() const noexcept { return mean_.size(); }
  [[nodiscard]] const Vector& mean() const noexcept { return mean_; }

  /// The covariance, multiplied out from its factors: exactly symmetric. Costs size^3 / 6.
  [[nodiscard]] Matrix covariance() const {
    Matrix result(size(), size());
    for (Index j = 0; j < size(); ++j) {
      for (Index i = 0; i <= j; ++i) {
        double sum = 0;
        for (Index k = j; k < size(); ++k) sum += u_(i, k) * u_(j, k) * d_[k];
        result(i, j) = result(j, i) = sum;
      }
    }
    return result;
  }

  /// A matrix L with covariance = L L'.
  [[nodiscard]] Matrix root() const { return u_ * d_.cwiseSqrt().asDiagonal(); }

  [[nodiscard]] StateEstimate<N> estimate() const { return {mean_, covariance()}; }

  /// Mean and variance of a combination of states, such as a prediction. Costs one pass over the
  /// states per term.
  [[nodiscard]] MeanAndVariance combination(std::span<const Term> terms) const {
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
  [[nodiscard]] MeanAndVariance combination(std::initializer_list<Term> terms) const {
    return combination(std::span<const Term>(terms.begin(), terms.size()));
  }

  /// Covariance of two combinations of states.
  [[nodiscard]] double covariance_between(std::span<const Term> a, std::span<const Term> b) const {
    for (const Term& term : a) detail::check_state(term.state, size());
    for (const Term& term : b) detail::check_state(term.state, size());
    double result = 0;
    for (Index j = 0; j < size(); ++j) result += along_column(a, j) * d_[j] * along_column(b, j);
    return result;
  }

  // Moves. All but `predict` leave the other states as they are.

  /// x[i] increases by a known amount.
  void shift(Index i, double amount) {
    detail::check_state(i, size());
    detail::check_number(amount);
    mean_[i] += amount;
  }

  /// x[i] takes a random step of mean zero: one step of a random walk.
  void add_noise(Index i, double variance) {
    detail::check_state(i, size());
    detail::check_variance(variance);
    a_.head(i).setZero();
    a_[i] = 1;
    add_rank_one(i + 1, variance);
  }

  /// x[i] is forgotten and drawn afresh from N(mean, variance), independent of all else.
  void renew(Index i, double mean, double variance) {
    detail::check_state(i, size());
    detail::check_number(mean);
    detail::check_variance(variance);
    // Without row i, column i still carries covariance of the states before i: fold it in there.
    a_.head(i) = u_.col(i).head(i);
    add_rank_one(i, d_[i]);
    u_.col(i).head(i).setZero();
    u_.row(i).tail(size() - 1 - i).setZero();
    d_[i] = variance;
    mean_[i] = mean;
  }

  /// x[i] is multiplied by a known factor, as in an autoregression or a gap that closes.
  void scale(Index i, double factor) {
    detail::check_state(i, size());
    detail::check_number(factor);
    if (factor * factor == 0) return renew(i, 0, 0);
    mean_[i] *= factor;
    u_.row(i).tail(size() - 1 - i) *= factor;
    u_.col(i).head(i) /= factor;
    d_[i] *= factor * factor;
  }

  /// x[to] increases by `factor` times x[from], as a level does by its slope. Cheap when `to` is
  /// the lower number.
  void add_multiple(Index to, Index from, double factor) {
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

  /// The general move x' = transition x + offset + e, with e ~ N(0, noise). Costs about size^3 and
  /// allocates; `noise` must be symmetric and positive semidefinite.
  void predict(const Matrix& transition, const Vector& offset, const Matrix& noise) {
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
  void predict(const Matrix& transition, const Matrix& noise) {
    predict(transition, Vector::Zero(size()), noise);
  }

  /// Learns from an observation `y` of the combination `terms` with noise of this variance.
  ///
  /// @param terms     the nonzero terms; a state named twice counts twice
  /// @param variance  above 0
  /// @cost            one pass over the factors, about size^2 multiplications and additions; a
  ///                  column that the observation does not touch is skipped
  Innovation update(std::span<const Term> terms, double y, double variance) {
    detail::check_number(y);
    if (!(variance > 0 && detail::is_finite(variance))) {
      detail::fail("the variance of an observation", "a finite number above 0", variance);
    }
    f_.setZero();
    double expected = 0;
    for (const Term& term : terms) {
      detail::check_state(term.state, size());
      detail::check_number(term.coefficient);
      expected += term.coefficient * mean_[term.state];
      for (Index j = term.state; j < size(); ++j) f_[j] += term.coefficient * u_(term.state, j);
    }
    const Innovation innovation{y - expected, sharpen(variance)};
    mean_ += a_ * (innovation.residual / innovation.variance);
    return innovation;
  }
  Innovation update(std::initializer_list<Term> terms, double y, double variance) {
    return update(std::span<const Term>(terms.begin(), terms.size()), y, variance);
  }

 private:
  using Root = detail::WeightedRoot;

  /// How far a combination of states reaches along column j of U.
  [[nodiscard]] double along_column(std::span<const Term> terms, Index j) const {
    double along = 0;
    for (const Term& term : terms) along += term.coefficient * u_(term.state, j);
    return along;
  }

  explicit KalmanFilter(const Vector& mean)
      : mean_(mean),
        u_(Matrix::Identity(mean.size(), mean.size())),
        d_(Vector::Zero(mean.size())),
        f_(Vector::Zero(mean.size())),
        a_(Vector::Zero(mean.size())) {
    if (mean.size() == 0) detail::fail("the number of states", "1 or more", 0.0);
    for (Index i = 0; i < mean.size(); ++i) detail::check_number(mean[i]);
  }

  /// Bierman's update for an observation with f_ = U' z: leaves covariance z' in a_ and returns the
  /// variance of the prediction.
  double sharpen(double noise) noexcept {
    double variance = noise;  // of the observation as far as columns before j explain it
    for (Index j = 0; j < size(); ++j) {
      const double f = f_[j];
      const double g = d_[j] * f;
      a_[j] = g;
      if (g == 0) continue;
      const double before = variance;
      variance += f * g;
      d_[j] *= before / variance;
      const double correction = -f / before;
      for (Index k = 0; k < j; ++k) {
        const double u = u_(k, j);
        u_(k, j) += correction * a_[k];
        a_[k] += g * u;
      }
    }
    return variance;
  }

  /// Adds weight a a' to the covariance of the first `count` states, a = a_.head(count), which is
  /// used up (Agee and Turner's update, in Bierman 1977, ch. III).
  void add_rank_one(Index count, double weight) noexcept {
    for (Index j = count - 1; j >= 0 && weight > 0; --j) {
      const double s = a_[j];
      const double sum = d_[j] + weight * s * s;
      if (s == 0 || sum == 0) continue;
      const double share = weight * s / sum;
      for (Index k = 0; k < j; ++k) {
        a_[k] -= s * u_(k, j);
        u_(k, j) += share * a_[k];
      }
      weight *= d_[j] / sum;
      d_[j] = sum;
    }
  }

  /// U and D of W diag(weights) W' by weighted Gram-Schmidt on the rows of W, the last row first.
  void set_factors(Root root) {
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

  Vector mean_;
  Matrix u_;
  Vector d_;
  Vector f_;  // scratch
  Vector a_;  // scratch
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/kalman_filter.ipp"
#endif
