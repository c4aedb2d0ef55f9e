// barwright/core/estimate.hpp - an answer with its uncertainty
//
// What a log says is never one number. An Estimate is a distribution: a median, an interval at any
// level, a chance of being above something. Loads, maxes and ratios are positive and err by
// factors, so theirs is log-normal; rates of change are Normal.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/core/range.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// The standard normal quantile at the upper end of a central interval.
[[nodiscard]] inline double upper_end_of(double level) {
  if (!(level > 0.0 && level < 1.0)) {
    fail("the level of an interval", "a number above 0 and below 1", level);
  }
  return normal_quantile(0.5 + 0.5 * level);
}

constexpr double require_mean(double mean) {
  if (!is_finite(mean)) fail("the mean of an estimate", "a finite number", mean);
  return mean;
}
constexpr double require_deviation(double deviation) {
  if (!(deviation >= 0.0 && is_finite(deviation))) {
    fail("the standard deviation of an estimate", "a finite number of 0 or more", deviation);
  }
  return deviation;
}

template <class T>
[[nodiscard]] T from_number(double value) {
  if constexpr (requires { T::from_kg(value); }) {
    return T::from_kg(value < T::largest_kg ? value : T::largest_kg);
  } else {
    return value;
  }
}
[[nodiscard]] constexpr double as_number(Mass mass) noexcept { return mass.kg(); }
[[nodiscard]] constexpr double as_number(double value) noexcept { return value; }

}  // namespace detail

/// A positive quantity (Mass, or a ratio as double) known with an error that is a factor: its
/// logarithm is normal.
template <class T>
class Estimate {
 public:
  /// @param log_mean  of the natural logarithm; of kilograms where T is Mass
  /// @param log_sd    0 or more
  /// @throws DomainError unless both are finite and log_sd >= 0.
  constexpr Estimate(double log_mean, double log_sd)
      : log_mean_(detail::require_mean(log_mean)), log_sd_(detail::require_deviation(log_sd)) {}

  [[nodiscard]] T median() const { return detail::from_number<T>(std::exp(log_mean_)); }

  /// The central interval that holds the quantity with probability `level`, with its median.
  /// @throws DomainError unless 0 < level < 1.
  [[nodiscard]] Range<T> interval(double level = 0.90) const {
    const double half = detail::upper_end_of(level) * log_sd_;
    return {detail::from_number<T>(std::exp(log_mean_ - half)), median(),
            detail::from_number<T>(std::exp(log_mean_ + half))};
  }

  /// The probability that the quantity is above `value`.
  [[nodiscard]] double chance_above(T value) const noexcept {
    const double number = detail::as_number(value);
    if (!(number > 0.0)) return 1.0;
    const double gap = log_mean_ - std::log(number);
    if (!(log_sd_ > 0.0)) return gap > 0.0 ? 1.0 : 0.0;
    return normal_cdf(gap / log_sd_);
  }

  [[nodiscard]] double log_mean() const noexcept { return log_mean_; }
  /// About the relative standard error: 0.03 is 3 %.
  [[nodiscard]] double log_sd() const noexcept { return log_sd_; }

 private:
  double log_mean_;
  double log_sd_;
};

/// A rate of change of the max, as a share of it: 0.005 is half a per cent.
class Change {
 public:
  /// @throws DomainError unless both are finite and the standard deviation is 0 or more.
  constexpr Change(double mean, double standard_deviation)
      : mean_(detail::require_mean(mean)),
        standard_deviation_(detail::require_deviation(standard_deviation)) {}

  [[nodiscard]] double mean() const noexcept { return mean_; }
  [[nodiscard]] double standard_deviation() const noexcept { return standard_deviation_; }
  /// @throws DomainError unless 0 < level < 1.
  [[nodiscard]] Range<double> interval(double level = 0.90) const {
    const double half = detail::upper_end_of(level) * standard_deviation_;
    return {mean_ - half, mean_, mean_ + half};
  }
  /// The probability that there is a gain at all.
  [[nodiscard]] double chance_of_gain() const noexcept {
    if (!(standard_deviation_ > 0.0)) return mean_ > 0.0 ? 1.0 : 0.0;
    return normal_cdf(mean_ / standard_deviation_);
  }

 private:
  double mean_;
  double standard_deviation_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
