// barwright/curves/forms.hpp - the forms that rep curves have
//
// Almost all published equations are one of five simple forms of the same thing, the share of the
// max that can be lifted for r reps to failure. A form is made from its numbers, and checked
// when it is made, so that no curve can give less than nothing:
//
//     constexpr LinearMultiplier mine({.at_zero = 1.0, .per_rep = 1.0 / 30.0});
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What is known about an equation besides its numbers.
struct EquationFacts {
  std::string_view name{};
  RepRange studied{};  ///< reps to failure it was fitted on, or is stated for
  Source source{};
};

namespace detail {

[[noreturn]] inline void refuse_form(const Text& form) {
  fail("the numbers of a rep curve",
       "such that its share of the max falls with every rep and stays above 0", form.view());
}

/// Whether a number is one that a curve may have; NaN is not.
[[nodiscard]] constexpr bool is_within(double low, double x, double high) noexcept {
  return x >= low && x <= high;
}

inline constexpr double least_fall = 1e-6;  ///< per rep; less is lost in rounding
inline constexpr double most_number = 1000.0;

}  // namespace detail

/// Max = load x (at_zero + per_rep r): the max rises in a straight line with the reps.
class LinearMultiplier {
 public:
  /// Its numbers, by name.
  struct Numbers {
    double at_zero = 1.0;   ///< the multiplier at no rep
    double per_rep = 0.0;   ///< what each rep adds; above 0
    EquationFacts facts{};  ///< name, range and source
  };

  EquationFacts facts{};  ///< name, range and source

  /// @throws DomainError unless the multiplier is above 0 at one rep and rises.
  constexpr explicit LinearMultiplier(const Numbers& numbers)
      : facts(numbers.facts), at_zero_(numbers.at_zero), per_rep_(numbers.per_rep) {
    const bool rises = detail::is_within(detail::least_fall, per_rep_, detail::most_number);
    if (!(rises && detail::is_within(0.001, at_zero_ + per_rep_, detail::most_number))) {
      detail::refuse_form(Text{}
                              .append("max = load x (")
                              .append(at_zero_)
                              .append(" + ")
                              .append(per_rep_)
                              .append(" r)"));
    }
  }

  [[nodiscard]] constexpr double multiplier(double reps) const {
    detail::require_reps_defined(reps, defined());
    return at_zero_ + per_rep_ * reps;
  }
  [[nodiscard]] constexpr double fraction(double reps) const { return 1.0 / multiplier(reps); }
  [[nodiscard]] constexpr double reps(double share) const {
    detail::require_fraction_defined(share, fraction(defined().high), fraction(defined().low));
    return (1.0 / share - at_zero_) / per_rep_;
  }
  [[nodiscard]] constexpr double slope(double reps) const { return -per_rep_ / multiplier(reps); }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
  /// As it was made.
  [[nodiscard]] constexpr double per_rep() const noexcept { return per_rep_; }

 private:
  double at_zero_;
  double per_rep_;
};

/// Share of the max = at_zero - per_rep r: the load falls in a straight line with the reps,
/// and reaches nothing at at_zero / per_rep of them, so the curve ends before.
class LinearShare {
 public:
  /// Its numbers, by name.
  struct Numbers {
    double at_zero = 1.0;          ///< the share of the max at no rep
    double per_rep = 0.0;          ///< what each rep takes off; above 0
    double last_rep = Reps::most;  ///< where the curve ends; the share is still positive there
    EquationFacts facts{};         ///< name, range and source
  };

  EquationFacts facts{};  ///< name, range and source

  /// @throws DomainError unless the share falls, and is above 0 at the last rep, which is
  /// one of 1 to 100.
  constexpr explicit LinearShare(const Numbers& numbers)
      : facts(numbers.facts),
        at_zero_(numbers.at_zero),
        per_rep_(numbers.per_rep),
        last_rep_(numbers.last_rep) {
    const bool falls = detail::is_within(detail::least_fall, per_rep_, detail::most_number) &&
                       detail::is_within(1.0, last_rep_, Reps::most);
    if (!(falls && detail::is_within(detail::least_fall, at_zero_ - per_rep_ * last_rep_,
                                     detail::most_number))) {
      detail::refuse_form(Text{}
                              .append("share = ")
                              .append(at_zero_)
                              .append(" - ")
                              .append(per_rep_)
                              .append(" r up to ")
                              .append(last_rep_));
    }
  }

  [[nodiscard]] constexpr double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return at_zero_ - per_rep_ * reps;
  }
  [[nodiscard]] constexpr double reps(double share) const {
    detail::require_fraction_defined(share, fraction(defined().high), fraction(defined().low));
    return (at_zero_ - share) / per_rep_;
  }
  [[nodiscard]] constexpr double slope(double reps) const { return -per_rep_ / fraction(reps); }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {1.0, last_rep_}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
  /// As it was made.
  [[nodiscard]] constexpr double at_zero() const noexcept { return at_zero_; }
  /// As it was made.
  [[nodiscard]] constexpr double per_rep() const noexcept { return per_rep_; }

 private:
  double at_zero_;
  double per_rep_;
  double last_rep_;
};

/// Max = load x r^exponent: share of the max = r^-exponent.
class PowerShare {
 public:
  /// Its numbers, by name.
  struct Numbers {
    double exponent = 0.0;  ///< above 0
    EquationFacts facts{};  ///< name, range and source
  };

  EquationFacts facts{};  ///< name, range and source

  /// @throws DomainError unless the exponent is above 0, and at most 10.
  constexpr explicit PowerShare(const Numbers& numbers)
      : facts(numbers.facts), exponent_(numbers.exponent) {
    if (!detail::is_within(detail::least_fall, exponent_, 10.0)) {
      detail::refuse_form(Text{}.append("share = r^-(").append(exponent_).append(")"));
    }
  }

  [[nodiscard]] double multiplier(double reps) const {
    detail::require_reps_defined(reps, defined());
    return std::pow(reps, exponent_);
  }
  [[nodiscard]] double fraction(double reps) const { return 1.0 / multiplier(reps); }
  [[nodiscard]] double reps(double share) const {
    const double reps = std::pow(share, -1.0 / exponent_);
    detail::require_share_of(*this, share, reps);
    return reps;
  }
  [[nodiscard]] constexpr double slope(double reps) const {
    detail::require_reps_defined(reps, defined());
    return -exponent_ / reps;
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }

 private:
  double exponent_;
};

/// Share of the max = floor + span exp(-rate r): the load falls ever more slowly, towards `floor`,
/// which the curve says can be lifted for ever.
class ExponentialShare {
 public:
  /// Its numbers, by name.
  struct Numbers {
    double floor = 0.0;     ///< the share of the max that the curve falls towards; 0 or more
    double span = 1.0;      ///< how far above `floor` it starts, at no rep
    double rate = 0.0;      ///< how fast it falls, per rep; above 0
    EquationFacts facts{};  ///< name, range and source
  };

  EquationFacts facts{};  ///< name, range and source

  /// @throws DomainError unless floor is 0 or more, span and rate are above 0, and the rate is at
  /// most 1; with a floor at most 0.3, so that the curve still falls at 100 reps.
  constexpr explicit ExponentialShare(const Numbers& numbers)
      : facts(numbers.facts), floor_(numbers.floor), span_(numbers.span), rate_(numbers.rate) {
    const bool falls = detail::is_within(detail::least_fall, rate_, floor_ > 0.0 ? 0.3 : 1.0);
    if (!(falls && detail::is_within(0.0, floor_, 10.0) && detail::is_within(0.01, span_, 10.0))) {
      detail::refuse_form(Text{}
                              .append("share = ")
                              .append(floor_)
                              .append(" + ")
                              .append(span_)
                              .append(" exp(-(")
                              .append(rate_)
                              .append(") r)"));
    }
  }

  [[nodiscard]] double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return floor_ + span_ * std::exp(-rate_ * reps);
  }
  [[nodiscard]] double reps(double share) const {
    const double reps = std::log(span_ / (share - floor_)) / rate_;
    detail::require_share_of(*this, share, reps);
    return reps;
  }
  [[nodiscard]] double slope(double reps) const {
    const double share = fraction(reps);
    return -rate_ * (share - floor_) / share;
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
  /// As it was made.
  [[nodiscard]] constexpr double rate() const noexcept { return rate_; }

 private:
  double floor_;
  double span_;
  double rate_;
};

/// Max = load x (c0 + c1 r + c2 r^2 + c3 r^3). A cubic turns; the curve ends before it does.
class CubicMultiplier {
 public:
  /// Its numbers, by name.
  struct Numbers {
    double c0 = 1.0;
    double c1 = 0.0;
    double c2 = 0.0;
    double c3 = 0.0;
    double last_rep = Reps::most;  ///< the multiplier still rises there
    EquationFacts facts{};         ///< name, range and source
  };

  EquationFacts facts{};  ///< name, range and source

  /// @throws DomainError unless the multiplier is above 0 at one rep, and rises from there
  /// to the last, which is one of 1 to 100.
  constexpr explicit CubicMultiplier(const Numbers& numbers)
      : facts(numbers.facts),
        c0_(numbers.c0),
        c1_(numbers.c1),
        c2_(numbers.c2),
        c3_(numbers.c3),
        last_rep_(numbers.last_rep) {
    const double turns_most = c3_ == 0.0 ? 1.0 : -c2_ / (3.0 * c3_);  // where the rise is extreme
    const bool has_turn = turns_most > 1.0 && turns_most < last_rep_;
    const bool rises = detail::is_within(1.0, last_rep_, Reps::most) && is_rise(1.0) &&
                       is_rise(last_rep_) && (!has_turn || is_rise(turns_most));
    if (!(rises && detail::is_within(0.001, c0_ + c1_ + c2_ + c3_, detail::most_number))) {
      detail::refuse_form(Text{}
                              .append("max = load x (")
                              .append(c0_)
                              .append(" + ")
                              .append(c1_)
                              .append(" r + ")
                              .append(c2_)
                              .append(" r^2 + ")
                              .append(c3_)
                              .append(" r^3) up to ")
                              .append(last_rep_));
    }
  }

  [[nodiscard]] constexpr double multiplier(double reps) const {
    detail::require_reps_defined(reps, defined());
    return c0_ + reps * (c1_ + reps * (c2_ + reps * c3_));
  }
  [[nodiscard]] constexpr double fraction(double reps) const { return 1.0 / multiplier(reps); }
  [[nodiscard]] double reps(double share) const {
    return detail::solve_for_reps(*this, share, defined());
  }
  [[nodiscard]] constexpr double slope(double reps) const { return -rise(reps) * fraction(reps); }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {1.0, last_rep_}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }

 private:
  /// What one more rep adds to the multiplier.
  [[nodiscard]] constexpr double rise(double reps) const noexcept {
    return c1_ + reps * (2.0 * c2_ + reps * 3.0 * c3_);
  }
  [[nodiscard]] constexpr bool is_rise(double reps) const noexcept {
    return detail::is_within(detail::least_fall, rise(reps), detail::most_number);
  }

  double c0_;
  double c1_;
  double c2_;
  double c3_;
  double last_rep_;
};

/// The critical-load form: r = capacity / (L - critical) - capacity / (max - critical), loads as
/// shares of the max. Above the critical share a fixed capacity is used up; below it, never.
///
/// It counts reps beyond the max, so that r = 0 at L = max; `anchored` makes one rep
/// the max, as the other equations have it. The parameters are a lifter's own (curve_fit.hpp finds
/// them); none are universal. Morton, Redstone & Laing 2014, Int J Exerc Sci 7(2):152-160
/// (from memory).
class CriticalLoad {
 public:
  /// @param critical_share  load that could be lifted for ever, as a share of the max: 0 to 0.99
  /// @param capacity        reps x share of the max above critical: 0.01 to 1000
  /// @throws DomainError outside those.
  constexpr CriticalLoad(double critical_share, double capacity, EquationFacts facts = unnamed())
      : critical_(critical_share), capacity_(capacity), facts_(facts) {
    if (!(critical_share >= 0.0 && critical_share <= 0.99)) {
      detail::fail("a critical load", "a share of the max from 0 to 0.99", critical_share);
    }
    if (!(capacity >= 0.01 && capacity <= 1000.0)) {
      detail::fail("the capacity above critical load", "a number from 0.01 to 1000", capacity);
    }
  }

  [[nodiscard]] constexpr double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return critical_ + capacity_ / (reps + offset());
  }
  [[nodiscard]] constexpr double reps(double share) const {
    detail::require_fraction_defined(share, fraction(defined().high), fraction(defined().low));
    return capacity_ / (share - critical_) - offset();
  }
  [[nodiscard]] constexpr double slope(double reps) const {
    const double share = fraction(reps);
    const double above = share - critical_;
    return -above * above / (capacity_ * share);
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {.low = 0.0}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts_.studied; }
  [[nodiscard]] constexpr double critical_share() const noexcept { return critical_; }
  [[nodiscard]] constexpr double capacity() const noexcept { return capacity_; }
  [[nodiscard]] constexpr const EquationFacts& facts() const noexcept { return facts_; }

 private:
  /// Reps that the capacity would allow at the max itself.
  [[nodiscard]] constexpr double offset() const noexcept { return capacity_ / (1.0 - critical_); }

  static constexpr EquationFacts unnamed() noexcept {
    return {.name = "critical load",
            .source = {.citation = "Morton, Redstone & Laing 2014, Int J Exerc Sci 7(2):152-160",
                       .population = "bench press",
                       .evidence = Evidence::published,
                       .reading = Reading::from_memory,
                       .note = "form only; the parameters are the lifter's own"}};
  }

  double critical_;
  double capacity_;
  EquationFacts facts_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
