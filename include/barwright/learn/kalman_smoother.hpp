// barwright/learn/kalman_smoother.hpp - the state of a linear Gaussian model, by all observations
//
// A filter (kalman_filter.hpp) knows at each moment what was seen so far; a smoother goes back from
// the end and tells what all observations say of that moment.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <cstddef>
#include <initializer_list>
#include <span>
#include <utility>
#include <vector>

#include "barwright/learn/kalman_filter.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// What later observations say about the state: their likelihood is exp(linear' x - x' matrix x /
/// 2) up to a constant. Each member takes back the filter's move of the same name.
template <int N>
class LaterInformation {
 public:
  using Index = Eigen::Index;

  explicit LaterInformation(Index size)
      : matrix_(StateMatrix<N>::Zero(size, size)),
        linear_(StateVector<N>::Zero(size)),
        column_(StateVector<N>::Zero(size)) {}

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
  void predict(const StateMatrix<N>& transition, const StateVector<N>& offset,
               const StateMatrix<N>& noise) {
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
  [[nodiscard]] StateEstimate<N> join(const KalmanFilter<N>& before) const {
    const StateMatrix<N> root = before.root();
    StateMatrix<N> sum = root.transpose() * matrix_ * root;
    sum.diagonal().array() += 1;
    const Eigen::LLT<StateMatrix<N>> llt(sum);
    StateMatrix<N> half = root.transpose();
    llt.matrixL().solveInPlace(half);
    StateEstimate<N> result{before.mean(), half.transpose() * half};
    result.mean += half.transpose() * (half * (linear_ - matrix_ * before.mean()));
    result.covariance = (0.5 * (result.covariance + result.covariance.transpose())).eval();
    return result;
  }

 private:
  StateMatrix<N> matrix_;
  StateVector<N> linear_;
  StateVector<N> column_;  // scratch
};

}  // namespace detail

/// A filter that remembers its steps, to tell afterwards what all observations say about the state
/// at any moment that was marked.
///
/// Runs forward as a KalmanFilter with the same moves and updates. `smooth` then goes back over the
/// steps with the information of the later observations and joins the two (the two-filter form of
/// the fixed-interval smoother: Fraser and Potter 1969, IEEE Transactions on Automatic Control
/// 14:387-390; from memory). Memory grows with the number of steps and marks.
template <int N = Eigen::Dynamic>
class KalmanSmoother {
 public:
  using Vector = StateVector<N>;
  using Matrix = StateMatrix<N>;
  using Index = Eigen::Index;

  explicit KalmanSmoother(KalmanFilter<N> prior) : filter_(std::move(prior)) {}

  /// The state given the observations so far.
  [[nodiscard]] const KalmanFilter<N>& filter() const noexcept { return filter_; }

  /// Log density of all observations so far.
  [[nodiscard]] double log_likelihood() const noexcept { return log_likelihood_; }

  void shift(Index i, double amount) {
    filter_.shift(i, amount);
    steps_.push_back({Kind::shift, i, 0, amount, 0});
  }
  void add_noise(Index i, double variance) {
    filter_.add_noise(i, variance);
    steps_.push_back({Kind::add_noise, i, 0, variance, 0});
  }
  void renew(Index i, double mean, double variance) {
    filter_.renew(i, mean, variance);
    steps_.push_back({Kind::renew, i, 0, mean, variance});
  }
  void scale(Index i, double factor) {
    filter_.scale(i, factor);
    steps_.push_back({Kind::scale, i, 0, factor, 0});
  }
  void add_multiple(Index to, Index from, double factor) {
    filter_.add_multiple(to, from, factor);
    steps_.push_back({Kind::add_multiple, to, from, factor, 0});
  }
  void predict(const Matrix& transition, const Vector& offset, const Matrix& noise) {
    filter_.predict(transition, offset, noise);
    steps_.push_back({Kind::predict, static_cast<Index>(transitions_.size()), 0, 0, 0});
    transitions_.push_back({transition, offset, noise});
  }
  void predict(const Matrix& transition, const Matrix& noise) {
    predict(transition, Vector::Zero(filter_.size()), noise);
  }
  Innovation update(std::span<const Term> terms, double y, double variance) {
    const Innovation innovation = filter_.update(terms, y, variance);
    log_likelihood_ += innovation.log_density();
    steps_.push_back({Kind::update, static_cast<Index>(terms_.size()),
                      static_cast<Index>(terms.size()), y, variance});
    terms_.insert(terms_.end(), terms.begin(), terms.end());
    return innovation;
  }
  Innovation update(std::initializer_list<Term> terms, double y, double variance) {
    return update(std::span<const Term>(terms.begin(), terms.size()), y, variance);
  }

  /// Marks this moment for `smooth`; returns its place in the result.
  std::size_t mark() {
    steps_.push_back({Kind::mark, 0, 0, 0, 0});
    marked_.push_back(filter_);
    return marked_.size() - 1;
  }

  /// The state at every marked moment given all observations, in the order of the marks.
  [[nodiscard]] std::vector<StateEstimate<N>> smooth() const {
    detail::LaterInformation<N> later(filter_.size());
    std::vector<StateEstimate<N>> result(marked_.size());
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

 private:
  enum class Kind { shift, add_noise, renew, scale, add_multiple, predict, update, mark };
  struct Step {  // the arguments of the member of that name; of `update`, i and j delimit its terms
    Kind kind;
    Index i;
    Index j;
    double a;
    double b;
  };
  struct Transition {
    Matrix matrix;
    Vector offset;
    Matrix noise;
  };

  KalmanFilter<N> filter_;
  double log_likelihood_ = 0;
  std::vector<Step> steps_;
  std::vector<Term> terms_;
  std::vector<Transition> transitions_;
  std::vector<KalmanFilter<N>> marked_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
