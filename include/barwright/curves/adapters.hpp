// barwright/curves/adapters.hpp - a curve made from others: exact at one rep, stretched, blended
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <tuple>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A curve divided by its value at one rep, so that a single is exactly the max.
///
/// Several published equations return more than the load for a set of one (Epley 1.033 times it).
template <RepCurve C>
class Anchored {
 public:
  /// @throws DomainError if the curve is not defined at one rep.
  constexpr explicit Anchored(const C& base) : base_(base), at_one_(base.fraction(1.0)) {}

  [[nodiscard]] constexpr double fraction(double reps) const {
    return base_.fraction(reps) / at_one_;
  }
  [[nodiscard]] constexpr double reps(double fraction) const {
    return base_.reps(fraction * at_one_);
  }
  [[nodiscard]] constexpr double slope(double reps) const { return base_.slope(reps); }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return base_.defined(); }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return base_.studied(); }
  [[nodiscard]] constexpr const C& base() const noexcept { return base_; }

 private:
  C base_;
  double at_one_;
};

/// `curve` made exact at one rep.
/// @throws DomainError if the curve is not defined there.
template <RepCurve C>
[[nodiscard]] constexpr Anchored<C> anchored(const C& curve) {
  return Anchored<C>(curve);
}

/// A curve on which reps beyond the first run out `stretch` times as late: r becomes
/// 1 + (r - 1) / stretch. A stretch below 1 leaves fewer reps at the same share of the max.
template <RepCurve C>
class Stretched {
 public:
  /// @throws DomainError unless 0.1 <= stretch <= 10.
  constexpr Stretched(const C& base, double stretch) : base_(base), stretch_(stretch) {
    if (!(stretch >= 0.1 && stretch <= 10.0)) {
      detail::fail("a stretch of the rep curve", "a number from 0.1 to 10", stretch);
    }
  }

  [[nodiscard]] constexpr double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return base_.fraction(clamped(1.0 + (reps - 1.0) / stretch_));
  }
  [[nodiscard]] constexpr double reps(double fraction) const {
    return 1.0 + stretch_ * (base_.reps(fraction) - 1.0);
  }
  [[nodiscard]] constexpr double slope(double reps) const {
    detail::require_reps_defined(reps, defined());
    return base_.slope(clamped(1.0 + (reps - 1.0) / stretch_)) / stretch_;
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return mapped(base_.defined()); }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return mapped(base_.studied()); }
  [[nodiscard]] constexpr double stretch() const noexcept { return stretch_; }

 private:
  [[nodiscard]] constexpr RepRange mapped(RepRange range) const noexcept {
    return {1.0 + stretch_ * (range.low - 1.0), 1.0 + stretch_ * (range.high - 1.0)};
  }
  /// Mapping there and back may step over an end by a rounding.
  [[nodiscard]] constexpr double clamped(double reps) const noexcept {
    const RepRange range = base_.defined();
    return reps < range.low ? range.low : reps > range.high ? range.high : reps;
  }

  C base_;
  double stretch_;
};

/// `curve` with its reps beyond the first multiplied by `stretch`.
template <RepCurve C>
[[nodiscard]] constexpr Stretched<C> stretched(const C& curve, double stretch) {
  return Stretched<C>(curve, stretch);
}

/// The mean of several curves' shares of the max, where all of them are defined.
///
/// Averaging two equations may lower their error (Mayhew et al. 1995, J Sports Med Phys Fitness
/// 35(2):108-113; abstract read).
template <RepCurve... Cs>
class Blend {
 public:
  static_assert(sizeof...(Cs) >= 2, "a blend needs at least two curves");

  constexpr explicit Blend(const Cs&... curves) : curves_(curves...) {}

  [[nodiscard]] constexpr double fraction(double reps) const {
    return std::apply([&](const auto&... c) { return (c.fraction(reps) + ...); }, curves_) / count;
  }
  [[nodiscard]] double reps(double fraction) const {
    return detail::solve_for_reps(*this, fraction, defined());
  }
  [[nodiscard]] constexpr double slope(double reps) const {
    const double derivative = std::apply(
        [&](const auto&... c) { return ((c.fraction(reps) * c.slope(reps)) + ...); }, curves_);
    return derivative / (count * fraction(reps));
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept {
    return common([](const auto& curve) noexcept { return curve.defined(); });
  }
  [[nodiscard]] constexpr RepRange studied() const noexcept {
    return common([](const auto& curve) noexcept { return curve.studied(); });
  }

 private:
  static constexpr double count = static_cast<double>(sizeof...(Cs));

  /// What the ranges share; empty (low above high) when they do not meet.
  template <class Get>
  [[nodiscard]] constexpr RepRange common(Get get) const noexcept {
    RepRange shared{.low = 1.0, .high = Reps::most};
    const auto narrow = [&](RepRange range) noexcept {
      if (range.low > shared.low) shared.low = range.low;
      if (range.high < shared.high) shared.high = range.high;
    };
    std::apply([&](const auto&... curve) { (narrow(get(curve)), ...); }, curves_);
    return shared;
  }

  std::tuple<Cs...> curves_;
};

/// The mean of several curves.
template <RepCurve... Cs>
[[nodiscard]] constexpr Blend<Cs...> blend(const Cs&... curves) {
  return Blend<Cs...>(curves...);
}

}  // namespace barwright::inline BARWRIGHT_ABI
