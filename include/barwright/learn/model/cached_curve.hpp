// barwright/learn/model/cached_curve.hpp - a lift's curve for one pass through a log
//
// A pass asks the curves of a few lifts for the same reps, and for loads close to each other, many
// times: what was computed once is kept. The answers do not depend on the order of the questions.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>

#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/shaped_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// What is asked of curves for few different reps many times, kept at quarters of them.
template <class Value>
class QuarterRepCache {
 public:
  /// What `compute()` gives, which is the same for the same reps.
  template <class Compute>
  [[nodiscard]] Value at(double reps, Compute compute) noexcept {
    const double quarter = 4.0 * reps;
    const auto i = quarter >= 0.0 && quarter < quarters ? static_cast<std::size_t>(quarter) : 0;
    if (static_cast<double>(i) != quarter) return compute();
    if (!is_known_[i]) {
      values_[i] = compute();
      is_known_[i] = true;
    }
    return values_[i];
  }

 private:
  static constexpr std::size_t quarters = 128;
  bool is_known_[quarters] = {};
  Value values_[quarters];
};
/// The curves of all lifts share their bend.
using BendCache = QuarterRepCache<ShapedCurve::Unbent>;

/// A lift's curve for one pass through a log, which asks it for the same reps, and for loads close
/// to each other, many times: it keeps its inverse at steps down the shares of the max, between
/// which it is a cubic.
class CachedCurve {
 public:
  CachedCurve(const ShapedCurve& curve, BendCache& bend) : curve_(curve), bend_(&bend) {}

  /// As ShapedCurve::at.
  [[nodiscard]] CurveTable::Point at(double reps) noexcept {
    return points_.at(reps, [&]() noexcept {
      return curve_.at(bend_->at(reps, [&]() noexcept { return curve_.unbend(reps); }));
    });
  }

  /// As ShapedCurve::place, to a few thousandths of a rep.
  [[nodiscard]] ShapedCurve::Place place(double log_fraction) noexcept {
    const double below_top = (top - log_fraction) / step;
    if (!(below_top >= 0.0 && below_top < steps - 1)) return curve_.place(log_fraction);
    const auto i = static_cast<std::size_t>(below_top);
    const Knot& a = knot(i);
    const Knot& b = knot(i + 1);
    const Cubic cubic{a.reps, a.rise, b.reps, b.rise};
    const double t = below_top - static_cast<double>(i);
    const double rise = cubic.slope(t);
    if (!(rise > 0.0)) return curve_.place(log_fraction);
    return {cubic.value(t), -step / rise};
  }
  [[nodiscard]] double reps(double log_fraction) noexcept { return place(log_fraction).reps; }

 private:
  static constexpr std::size_t steps = 80;
  static constexpr double step = 1.0 / 32.0;  // of the logarithm of the share
  static constexpr double top = 0.40625;      // a whole number of steps above the max

  struct Knot {
    double reps = 0.0;
    double rise = 0.0;  // by step; 0 until asked for
  };
  [[nodiscard]] const Knot& knot(std::size_t i) noexcept {
    Knot& knot = knots_[i];
    if (knot.rise == 0.0) {
      const ShapedCurve::Place place = curve_.place(top - step * static_cast<double>(i));
      knot = {place.reps, -step / place.slope};
    }
    return knot;
  }

  ShapedCurve curve_;
  BendCache* bend_;
  QuarterRepCache<CurveTable::Point> points_;
  Knot knots_[steps];
};

}  // namespace barwright::inline BARWRIGHT_ABI::detail
