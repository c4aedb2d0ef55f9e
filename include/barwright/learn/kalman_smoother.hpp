// barwright/learn/kalman_smoother.hpp - the state of a linear Gaussian model, by all observations
//
// A filter (kalman_filter.hpp) knows at each moment what was seen so far; a smoother goes back from
// the end and tells what all observations say of that moment.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <initializer_list>
#include <span>
#include <utility>
#include <vector>

#include "barwright/learn/kalman_filter.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A filter that remembers its steps, to tell afterwards what all observations say about the state
/// at any moment that was marked.
///
/// Runs forward as a KalmanFilter with the same moves and updates. `smooth` then goes back over the
/// steps with the information of the later observations and joins the two (the two-filter form of
/// the fixed-interval smoother: Fraser and Potter 1969, IEEE Transactions on Automatic Control
/// 14:387-390; from memory). Memory grows with the number of steps and marks.
class KalmanSmoother {
 public:
  using Index = Eigen::Index;

  explicit KalmanSmoother(KalmanFilter prior) : filter_(std::move(prior)) {}

  /// The state given the observations so far.
  [[nodiscard]] const KalmanFilter& filter() const noexcept { return filter_; }

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
  void predict(const StateMatrix& transition, const StateVector& offset, const StateMatrix& noise) {
    filter_.predict(transition, offset, noise);
    steps_.push_back({Kind::predict, static_cast<Index>(transitions_.size()), 0, 0, 0});
    transitions_.push_back({transition, offset, noise});
  }
  void predict(const StateMatrix& transition, const StateMatrix& noise) {
    predict(transition, StateVector::Zero(filter_.size()), noise);
  }
  Innovation update(std::span<const Term> terms, double y, double variance) {
    const Innovation innovation = filter_.update(terms, y, variance);
    remember(terms, y, variance, innovation);
    return innovation;
  }
  Innovation update(std::initializer_list<Term> terms, double y, double variance) {
    return update(std::span<const Term>(terms.begin(), terms.size()), y, variance);
  }

  /// As KalmanFilter::update_with.
  template <class Observe>
  Innovation update_with(std::span<const Term> terms, Observe&& observe) {
    double y = 0;
    double variance = 0;
    const Innovation innovation = filter_.update_with(terms, [&](const MeanAndVariance& expected) {
      const auto seen = observe(expected);
      y = seen.value;
      variance = seen.variance;
      return seen;
    });
    remember(terms, y, variance, innovation);
    return innovation;
  }

  /// Marks this moment for `smooth`; returns its place in the result.
  std::size_t mark() {
    steps_.push_back({Kind::mark, 0, 0, 0, 0});
    marked_.push_back(filter_);
    return marked_.size() - 1;
  }

  /// The state at every marked moment given all observations, in the order of the marks.
  [[nodiscard]] std::vector<StateEstimate> smooth() const;

  /// The means of `smooth` alone, for a fraction of the cost: the recursion of the weighted
  /// innovations (de Jong 1989, Journal of the American Statistical Association 84:1085-1088;
  /// Durbin and Koopman, ch. 4; both from memory).
  [[nodiscard]] std::vector<StateVector> smooth_means() const;

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
    StateMatrix matrix;
    StateVector offset;
    StateMatrix noise;
  };

  void remember(std::span<const Term> terms, double y, double variance,
                const Innovation& innovation) {
    log_likelihood_ += innovation.log_density();
    steps_.push_back({Kind::update, static_cast<Index>(terms_.size()),
                      static_cast<Index>(terms.size()), y, variance});
    terms_.insert(terms_.end(), terms.begin(), terms.end());
    innovations_.push_back(innovation);
    covariances_.insert(covariances_.end(), filter_.a_.begin(), filter_.a_.end());
  }

  KalmanFilter filter_;
  double log_likelihood_ = 0;
  std::vector<Step> steps_;
  std::vector<Term> terms_;
  std::vector<Transition> transitions_;
  std::vector<Innovation> innovations_;  // of the updates
  std::vector<double> covariances_;      // of each with the states before it
  std::vector<KalmanFilter> marked_;
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/kalman_smoother.ipp"
#endif
