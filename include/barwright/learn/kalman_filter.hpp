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

/// The states, or something for each of them; not aligned by the compiler's flags, so that a class
/// holding one has one layout everywhere.
using StateVector = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor | Eigen::DontAlign>;

/// A covariance or transition matrix of the states.
using StateMatrix =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::ColMajor | Eigen::DontAlign>;

/// Mean and covariance of all states.
struct StateEstimate {
  StateVector mean;
  StateMatrix covariance;

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
/// Apart from `predict`, and `add_multiple` onto a
/// state of higher number, no step allocates memory. Every member refuses NaN, infinities, negative
/// variances and numbers of states that do not exist with DomainError.
class KalmanFilter {
  friend class KalmanSmoother;

 public:
  using Index = Eigen::Index;

  /// Starts from the prior N(mean, covariance); the covariance may be singular.
  KalmanFilter(const StateVector& mean, const StateMatrix& covariance);

  /// Starts from independent states with these means and variances.
  [[nodiscard]] static KalmanFilter independent(const StateVector& mean,
                                                const StateVector& variances);

  [[nodiscard]] Index size() const noexcept { return mean_.size(); }
  [[nodiscard]] const StateVector& mean() const noexcept { return mean_; }

  /// The covariance, multiplied out from its factors: exactly symmetric. Costs size^3 / 6.
  [[nodiscard]] StateMatrix covariance() const;

  /// A matrix L with covariance = L L'.
  [[nodiscard]] StateMatrix root() const;

  [[nodiscard]] StateEstimate estimate() const { return {mean_, covariance()}; }

  /// Mean and variance of a combination of states, such as a prediction. Costs one pass over the
  /// states per term.
  [[nodiscard]] MeanAndVariance combination(std::span<const Term> terms) const;
  [[nodiscard]] MeanAndVariance combination(std::initializer_list<Term> terms) const {
    return combination(std::span<const Term>(terms.begin(), terms.size()));
  }

  /// Covariance of two combinations of states.
  [[nodiscard]] double covariance_between(std::span<const Term> a, std::span<const Term> b) const;

  // Moves. All but `predict` leave the other states as they are.

  /// x[i] increases by a known amount.
  void shift(Index i, double amount);

  /// x[i] takes a random step of mean zero: one step of a random walk.
  void add_noise(Index i, double variance);

  /// x[i] is forgotten and drawn afresh from N(mean, variance), independent of all else.
  void renew(Index i, double mean, double variance);

  /// x[i] is multiplied by a known factor, as in an autoregression or a gap that closes.
  void scale(Index i, double factor);

  /// x[to] increases by `factor` times x[from], as a level does by its slope. Cheap when `to` is
  /// the lower number.
  void add_multiple(Index to, Index from, double factor);

  /// The general move x' = transition x + offset + e, with e ~ N(0, noise). Costs about size^3 and
  /// allocates; `noise` must be symmetric and positive semidefinite.
  void predict(const StateMatrix& transition, const StateVector& offset, const StateMatrix& noise);
  void predict(const StateMatrix& transition, const StateMatrix& noise);

  /// Learns from an observation `y` of the combination `terms` with noise of this variance.
  ///
  /// @param terms     the nonzero terms; a state named twice counts twice
  /// @param variance  above 0
  /// @cost            one pass over the factors, about size^2 multiplications and additions; a
  ///                  column that the observation does not touch is skipped
  Innovation update(std::span<const Term> terms, double y, double variance);
  Innovation update(std::initializer_list<Term> terms, double y, double variance) {
    return update(std::span<const Term>(terms.begin(), terms.size()), y, variance);
  }

  /// Learns from an observation that depends on what was expected of it: `observe` is given mean
  /// and variance of the combination and returns `value` and `variance` of an Observation. Costs
  /// less than `combination` and `update` one after the other.
  template <class Observe>
  Innovation update_with(std::span<const Term> terms, Observe&& observe) {
    const MeanAndVariance expected = look_at(terms);
    const auto seen = observe(expected);
    return learn(expected.mean, seen.value, seen.variance);
  }

 private:
  using Root = detail::WeightedRoot;

  /// Mean and variance of a combination; leaves U' z in f_ for `learn`.
  MeanAndVariance look_at(std::span<const Term> terms);
  /// Learns from an observation of the combination last looked at.
  Innovation learn(double expected, double y, double variance);

  /// How far a combination of states reaches along column j of U.
  [[nodiscard]] double along_column(std::span<const Term> terms, Index j) const;

  explicit KalmanFilter(const StateVector& mean);

  /// Bierman's update for an observation with f_ = U' z: leaves its covariance with the states as
  /// they were in a_ and returns the variance of the prediction.
  double sharpen(double noise) noexcept;

  /// Adds weight a a' to the covariance of the first `count` states, a = a_.head(count), which is
  /// used up (Agee and Turner's update, in Bierman 1977, ch. III).
  void add_rank_one(Index count, double weight) noexcept;

  /// U and D of W diag(weights) W' by weighted Gram-Schmidt on the rows of W, the last row first.
  void set_factors(Root root);

  StateVector mean_;
  StateMatrix u_;
  StateVector d_;
  StateVector f_;  // scratch
  StateVector a_;  // scratch
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/kalman_filter.ipp"
#endif
