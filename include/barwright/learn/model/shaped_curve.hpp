// barwright/learn/model/shaped_curve.hpp - a lifter's own rep curve: a published one, stretched and
// bent
//
// People differ in how fast their reps run out, and equations differ in where: some lose reps
// early, near the max, some late. A shaped curve has a number for each. Where the table has x reps
// beyond the first, the lifter has y = stretch x, bent to
//
//     R = 1 + y ((1 + y / 3) / (1 + 6 / 3))^bend.
//
// The bend turns the curve about sets of seven: there it changes nothing; above zero it leaves more
// reps at light loads and fewer at heavy ones, below zero the other way round. With a bend from
// about -0.35 to 0.35 one table comes close to most published equations.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>

#include "barwright/learn/model/curve_table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// The reps to failure, as curves count, with which `reps` just go up. Curves are fitted to sets to
/// failure in which r went up and one more did not, so such a set stands for r, give or take one
/// half; but their one rep is the max itself, which just goes up.
[[nodiscard]] constexpr double just_enough_for(double reps) noexcept {
  return reps < 1.5 ? 1.0 : reps - 0.5;
}

/// A CurveTable with a stretch and a bend; refers to the table, which must outlive it.
class ShapedCurve {
 public:
  /// Below, reps would hardly rise with lighter loads, and a log of nothing but sixes with two left
  /// would be taken for such a lifter's. Published equations lie from -0.35 upwards.
  static constexpr double least_bend = -0.8;
  static constexpr double most_bend = 2.0;

  /// @param stretch  above zero
  /// @param bend     held between its ends
  ShapedCurve(const CurveTable& table, double stretch, double bend = 0.0) noexcept
      : table_(&table),
        stretch_(stretch),
        bend_(bend < least_bend  ? least_bend
              : bend > most_bend ? most_bend
                                 : bend),
        at_one_(std::exp(-bend_ * log_pivot)) {}

  /// Reps to failure at a logarithm of the share of the max, below 1 for a load above it, and the
  /// slope there.
  struct Place {
    double reps;
    double slope;  ///< of the logarithm by the reps: negative
  };
  [[nodiscard]] Place place(double log_fraction) const noexcept {
    const CurveTable::Place on_table = table_->place(log_fraction);
    const double y = stretch_ * (on_table.reps - 1.0);
    const Bent bent = bend(y);
    return {1.0 + bent.value, on_table.slope / (stretch_ * bent.rise)};
  }
  [[nodiscard]] double reps(double log_fraction) const noexcept {
    return 1.0 + bend(stretch_ * (table_->reps(log_fraction) - 1.0)).value;
  }

  /// The logarithm of the share of the max at `reps` to failure, and its derivative (negative).
  [[nodiscard]] CurveTable::Point at(double reps) const noexcept { return at(unbend(reps)); }

  /// Reps beyond the first as they were before the bend, and how fast the bend grows them there:
  /// the same for every stretch.
  struct Unbent {
    double beyond_first;  ///< as they were
    double rise;          ///< of the reps by those
  };
  /// What `at` needs of the bend, to ask many curves that share one.
  [[nodiscard]] Unbent unbend(double reps) const noexcept {
    const double y = unbent(reps - 1.0);
    return {y, bend(y).rise};
  }
  /// The same as `at(double)`, of reps that were unbent by a curve of the same bend.
  [[nodiscard]] CurveTable::Point at(const Unbent& unbent) const noexcept {
    CurveTable::Point point = table_->at(1.0 + unbent.beyond_first / stretch_);
    point.slope /= stretch_ * unbent.rise;
    return point;
  }
  [[nodiscard]] double log_fraction(double reps) const noexcept {
    return table_->log_fraction(1.0 + unbent(reps - 1.0) / stretch_);
  }

  /// The reps that the bend turned into `reps`.
  [[nodiscard]] double without_bend(double reps) const noexcept { return 1.0 + unbent(reps - 1.0); }

  [[nodiscard]] double stretch() const noexcept { return stretch_; }
  [[nodiscard]] double bend() const noexcept { return bend_; }

 private:
  static constexpr double scale = 3.0;
  static constexpr double log_pivot = 1.0986122886681098;  // log1p((7 - 1) / scale): sevens stay

  struct Bent {
    double value;
    double rise;  // derivative
  };
  [[nodiscard]] Bent bend(double y) const noexcept {
    if (bend_ == 0.0) return {y, 1.0};
    if (!(y > 0.0)) return {y * at_one_, at_one_};
    const double factor = at_one_ * std::exp(bend_ * std::log(1.0 + y / scale));
    return {y * factor, factor * (1.0 + bend_ * y / (scale + y))};
  }
  /// The y that is bent to `bent`: Halley's method on the logarithms.
  [[nodiscard]] double unbent(double bent) const noexcept {
    if (bend_ == 0.0) return bent;
    if (!(bent > 0.0)) return bent / at_one_;
    const double target = std::log(bent) + bend_ * log_pivot;
    double y = bent * std::exp(bend_ * (log_pivot - std::log(1.0 + bent / scale)));
    for (int i = 0; i < 30; ++i) {
      const double gap = std::log(y) + bend_ * std::log(1.0 + y / scale) - target;
      const double far = y / (scale + y);
      const double rise = 1.0 + bend_ * far;
      const double newton = -gap / rise;
      const double step = newton / (1.0 + 0.5 * newton * bend_ * far * (1.0 - far) / rise);
      y *= std::exp(step);
      if (std::fabs(step) < 1e-4) break;  // what is left is below the cube of a step
    }
    return y;
  }

  const CurveTable* table_;
  double stretch_;
  double bend_;
  double at_one_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
