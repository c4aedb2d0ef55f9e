// barwright/learn/kalman_smoother.ipp - the bodies of kalman_smoother.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
#include <cstddef>
#include <span>
#include <vector>

#include "barwright/learn/kalman_smoother.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// What later observations say about the state: their likelihood is exp(linear' x - x' matrix x /
/// 2) up to a constant. Each member takes back the filter's move of the same name.
class LaterInformation {
 public:
  using Index = Eigen::Index;

  explicit LaterInformation(Index size)
      : matrix_(StateMatrix::Zero(size, size)),
        linear_(StateVector::Zero(size)),
        column_(StateVector::Zero(size)) {}

  void update(std::span<const Term> terms, double y, double variance) {
    for (const Term& a : terms) {
      const double weight = a.coefficient / variance;
      for (const Term& b : terms) matrix_(a.state, b.state) += weight * b.coefficient;
      linear_[a.state] += weight * y;
    }
  }
  void shift(Index i, double amount) { linear_ -= amount * matrix_.col(i); }
  void add_noise(Index i, double variance) {
    column_ = matrix_.col(i);
    const double keep = 1 / (1 + variance * column_[i]);
    const double linear = linear_[i] * keep;
    const double pivot = column_[i] * keep;
    matrix_ -= (variance * keep) * column_ * column_.transpose();
    linear_ -= (variance * linear) * column_;
    // Row i in a form without cancellation.
    matrix_.row(i) = keep * column_.transpose();
    matrix_.col(i) = keep * column_;
    matrix_(i, i) = pivot;
    linear_[i] = linear;
  }
  void renew(Index i, double mean, double variance) {
    add_noise(i, variance);
    shift(i, mean);
    scale(i, 0);
  }
  void scale(Index i, double factor) {
    matrix_.row(i) *= factor;
    matrix_.col(i) *= factor;
    linear_[i] *= factor;
  }
  void add_multiple(Index to, Index from, double factor) {
    matrix_.col(from) += factor * matrix_.col(to);
    matrix_.row(from) += factor * matrix_.row(to);
    linear_[from] += factor * linear_[to];
  }
  void predict(const StateMatrix& transition, const StateVector& offset, const StateMatrix& noise) {
    const auto root = weighted_root(noise);
    for (Index k = 0; k < root.weights.size(); ++k) {
      column_ = matrix_ * root.columns.col(k);
      const double gain =
          root.weights[k] / (1 + root.weights[k] * root.columns.col(k).dot(column_));
      linear_ -= (gain * root.columns.col(k).dot(linear_)) * column_;
      matrix_ -= gain * column_ * column_.transpose();
    }
    linear_ = transition.transpose() * (linear_ - matrix_ * offset);
    matrix_ = transition.transpose() * matrix_ * transition;
  }

  /// Joins what was known before with what came later. With the earlier covariance L L' the joint
  /// one is L (I + L' matrix L)^-1 L': positive whatever the rounding, and no inverse of a
  /// covariance is needed.
  [[nodiscard]] StateEstimate join(const KalmanFilter& before) const {
    const StateMatrix root = before.root();
    StateMatrix sum = root.transpose() * matrix_ * root;
    sum.diagonal().array() += 1;
    const Eigen::LLT<StateMatrix> llt(sum);
    StateMatrix half = root.transpose();
    llt.matrixL().solveInPlace(half);
    StateEstimate result{before.mean(), half.transpose() * half};
    result.mean += half.transpose() * (half * (linear_ - matrix_ * before.mean()));
    result.covariance = (0.5 * (result.covariance + result.covariance.transpose())).eval();
    return result;
  }

 private:
  StateMatrix matrix_;
  StateVector linear_;
  StateVector column_;  // scratch
};

}  // namespace detail

inline std::vector<StateEstimate> KalmanSmoother::smooth() const {
  detail::LaterInformation later(filter_.size());
  std::vector<StateEstimate> result(marked_.size());
  std::size_t mark = marked_.size();
  for (std::size_t s = steps_.size(); s-- > 0;) {
    const Step& step = steps_[s];
    switch (step.kind) {
      case Kind::shift: later.shift(step.i, step.a); break;
      case Kind::add_noise: later.add_noise(step.i, step.a); break;
      case Kind::renew: later.renew(step.i, step.a, step.b); break;
      case Kind::scale: later.scale(step.i, step.a); break;
      case Kind::add_multiple: later.add_multiple(step.i, step.j, step.a); break;
      case Kind::predict: {
        const Transition& t = transitions_[static_cast<std::size_t>(step.i)];
        later.predict(t.matrix, t.offset, t.noise);
        break;
      }
      case Kind::update:
        later.update({terms_.data() + step.i, static_cast<std::size_t>(step.j)}, step.a, step.b);
        break;
      case Kind::mark:
        --mark;
        result[mark] = later.join(marked_[mark]);
        break;
    }
  }
  return result;
}

inline std::vector<StateVector> KalmanSmoother::smooth_means() const {
  StateVector pull = StateVector::Zero(filter_.size());  // of what came later on each state
  std::vector<StateVector> result(marked_.size());
  std::size_t mark = marked_.size();
  std::size_t update = innovations_.size();
  for (std::size_t s = steps_.size(); s-- > 0;) {
    const Step& step = steps_[s];
    switch (step.kind) {
      case Kind::shift:
      case Kind::add_noise: break;
      case Kind::renew: pull[step.i] = 0; break;
      case Kind::scale: pull[step.i] *= step.a; break;
      case Kind::add_multiple: pull[step.j] += step.a * pull[step.i]; break;
      case Kind::predict:
        pull = (transitions_[static_cast<std::size_t>(step.i)].matrix.transpose() * pull).eval();
        break;
      case Kind::update: {
        --update;
        const Innovation& innovation = innovations_[update];
        const double* const covariance =
            covariances_.data() + update * static_cast<std::size_t>(filter_.size());
        double left = innovation.residual;  // of it, once what came later is known
        for (Index i = 0; i < pull.size(); ++i) left -= covariance[i] * pull[i];
        for (Index k = 0; k < step.j; ++k) {
          const Term& term = terms_[static_cast<std::size_t>(step.i + k)];
          pull[term.state] += term.coefficient * left / innovation.variance;
        }
        break;
      }
      case Kind::mark: {
        --mark;
        const KalmanFilter& before = marked_[mark];
        const StateVector along = before.d_.cwiseProduct(before.u_.transpose() * pull);
        result[mark] = before.mean() + before.u_ * along;
        break;
      }
    }
  }
  return result;
}

}  // namespace barwright::inline BARWRIGHT_ABI
