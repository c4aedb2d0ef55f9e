// barwright/learn/linear_gaussian.hpp - Kalman filter, smoother and log-likelihood
//
// The state x of a linear Gaussian model moves and is observed with independent normal noise:
//
//     x' = T x + c + e,   e ~ N(0, Q);          y = z x + u,   u ~ N(0, h).
//
// Everything may differ from step to step: irregular times are other T and Q, a missing observation
// is an update that is not made, several observations at once are updates one after the other. See
// Durbin and Koopman, "Time Series Analysis by State Space Methods", 2nd ed. 2012, ch. 4 and 6.4
// (recalled), for the model and the treatment of observations one by one.
//
// The covariance is kept as U D U', with U unit upper triangular and D diagonal, and every step
// works on those factors: Bierman's update and Thornton's weighted Gram-Schmidt step (Bierman,
// "Factorization Methods for Discrete Sequential Estimation", 1977, ch. V and VI; recalled). The
// covariance is then symmetric and positive by construction, however ill-conditioned the problem,
// and an update costs no more than on the covariance itself.
//
// In long models most states stay as they are and a few move in a simple way. Such moves have
// functions of their own, which cost far less than a general T and Q. Moves of a state cost the
// least when its number is low, so number the states that move first.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
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
template <int N>
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

// Templates on a type that is always double, so that a program pays the compiler for the
// factorisation only where it is used.

/// A covariance written as W diag(weights) W'.
template <class Scalar>
struct WeightedRoot {
  using Columns = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  using Weights = Eigen::Matrix<Scalar, Eigen::Dynamic, 1>;
  Columns columns;
  Weights weights;
};

template <class Matrix>
[[nodiscard]] WeightedRoot<typename Matrix::Scalar> weighted_root(const Matrix& covariance) {
  using Root = WeightedRoot<typename Matrix::Scalar>;
  check_size(covariance.cols(), covariance.rows());
  const Eigen::LDLT<typename Root::Columns> ldlt(covariance);
  Root root{ldlt.matrixL(), ldlt.vectorD().cwiseMax(0.0)};
  root.columns = ldlt.transpositionsP().transpose() * root.columns;
  // Whatever was not symmetric and positive semidefinite does not come back.
  const typename Root::Columns back =
      root.columns * root.weights.asDiagonal() * root.columns.transpose();
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
      typename Root::Columns columns = u_;
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
    typename Root::Columns columns(size(), 2 * size());
    columns << transition * u_, root.columns;
    typename Root::Weights weights(2 * size());
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
  using Root = detail::WeightedRoot<typename Matrix::Scalar>;

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
    typename Root::Columns& w = root.columns;
    u_.setIdentity();
    for (Index j = size() - 1; j >= 0; --j) {
      const Eigen::Matrix<typename Matrix::Scalar, 1, Eigen::Dynamic> weighted =
          w.row(j).cwiseProduct(root.weights.transpose());
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
/// 14:387-390; recalled). Memory grows with the number of steps and marks.
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
