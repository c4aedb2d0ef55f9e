// barwright/learn/model/curve_table.hpp - any rep curve as one fast type, defined everywhere
//
// A model that reads a curve a million times, at points it cannot choose, needs three things of it:
// one type whatever the equation, a quick answer, and an answer outside the range the equation is
// defined on, as a heavier load than today's max is a set of less than one rep. A CurveTable is the
// logarithm of the curve, made exact at one rep, tabulated finely against the logarithm of the reps
// and joined by cubics; beyond the ends it goes on in a straight line.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// A cubic over t from 0 to 1 by its values and slopes at both ends.
struct Cubic {
  double from;
  double slope_from;
  double to;
  double slope_to;

  [[nodiscard]] double value(double t) const noexcept {
    const double u = 1.0 - t;
    return u * u * ((1.0 + 2.0 * t) * from + t * slope_from) +
           t * t * ((1.0 + 2.0 * u) * to - u * slope_to);
  }
  [[nodiscard]] double slope(double t) const noexcept {
    const double u = 1.0 - t;
    return 6.0 * t * u * (to - from) + u * (1.0 - 3.0 * t) * slope_from +
           t * (3.0 * t - 2.0) * slope_to;
  }
};

}  // namespace detail

/// A rep curve, tabulated: log fraction(r) for every finite r, with fraction(1) = 1.
///
/// Within the curve's range it agrees with a smooth curve to 1e-9, with a chart, which bends at its
/// points, to 1e-5, and with a straight line that runs to no load to 1e-4 in its last reps; below
/// one rep and beyond the end of the curve it continues with the slope it has there.
class CurveTable {
 public:
  template <class C>
  requires(!std::same_as<C, CurveTable> && RepCurve<C>)  // in this order: no recursion
      CurveTable(const C& curve)  // implicit: any curve will do where a table is asked for
      : first_(curve.defined().low > 1.0 ? curve.defined().low : 1.0), last_(curve.defined().high) {
    const double at_first = std::log(curve.fraction(first_));
    // A curve that starts after one rep is brought back to it in a straight line.
    const double to_one = curve.slope(first_) * (first_ - 1.0);
    const double span = std::log(last_ / first_);
    const auto pieces = static_cast<std::size_t>(std::ceil(span / finest_step));
    step_ = span / static_cast<double>(pieces);
    knots_.reserve(pieces + 1);
    for (std::size_t i = 0; i <= pieces; ++i) {
      const double even = first_ * std::exp(step_ * static_cast<double>(i));
      const double reps = i == pieces || even > last_ ? last_ : even;
      knots_.push_back({.value = std::log(curve.fraction(reps)) - at_first + to_one,
                        .slope = curve.slope(reps) * reps * step_,
                        .reps = even});
    }
    first_slope_ = curve.slope(first_);
    last_slope_ = curve.slope(last_);
    index_pieces();
  }

  /// The logarithm of the share of the max at `reps` to failure, and its derivative.
  struct Point {
    double log_fraction;
    double slope;  ///< negative
  };

  [[nodiscard]] Point at(double reps) const noexcept {
    if (!(reps > first_)) {
      return {knots_.front().value + first_slope_ * (reps - first_), first_slope_};
    }
    if (reps >= last_) return {knots_.back().value + last_slope_ * (reps - last_), last_slope_};
    const double place = std::log(reps / first_) / step_;
    const std::size_t i = piece_at(place);
    const double t = place - static_cast<double>(i);
    return {piece(i).value(t), piece(i).slope(t) / (reps * step_)};
  }
  [[nodiscard]] double log_fraction(double reps) const noexcept { return at(reps).log_fraction; }

  /// The reps to failure at a logarithm of the share of the max, and the slope there.
  struct Place {
    double reps;
    double slope;  ///< of the logarithm by the reps: negative
  };

  /// The inverse of `at`.
  [[nodiscard]] Place place(double log_fraction) const noexcept {
    if (!(log_fraction < knots_.front().value)) {
      return {first_ + (log_fraction - knots_.front().value) / first_slope_, first_slope_};
    }
    if (log_fraction <= knots_.back().value) {
      return {last_ + (log_fraction - knots_.back().value) / last_slope_, last_slope_};
    }
    const auto bin =
        static_cast<std::size_t>((knots_.front().value - log_fraction) * bins_per_unit_);
    std::size_t i = first_piece_[bin];
    while (i + 2 < knots_.size() && knots_[i + 1].value > log_fraction) ++i;
    const detail::Cubic cubic = piece(i);
    double t = (log_fraction - cubic.from) / (cubic.to - cubic.from);
    // Pieces are short and next to straight: one step will do, but where a chart bends.
    const double step = (cubic.value(t) - log_fraction) / cubic.slope(t);
    t -= step;
    constexpr double straight = 1e-5;
    if (std::fabs(step) > straight) t -= (cubic.value(t) - log_fraction) / cubic.slope(t);
    const double reps = reps_at(i, t);
    return {reps, cubic.slope(t) / (reps * step_)};
  }
  [[nodiscard]] double reps(double log_fraction) const noexcept { return place(log_fraction).reps; }

  /// Where the curve itself is defined, from one rep on.
  [[nodiscard]] RepRange defined() const noexcept { return {first_, last_}; }

 private:
  static constexpr double finest_step = 1.0 / 256.0;

  struct Knot {
    double value;
    double slope;  // by piece, not by rep
    double reps;
  };

  [[nodiscard]] std::size_t piece_at(double place) const noexcept {
    const auto i = static_cast<std::size_t>(place);
    return i + 2 > knots_.size() ? knots_.size() - 2 : i;
  }
  [[nodiscard]] detail::Cubic piece(std::size_t i) const noexcept {
    return {knots_[i].value, knots_[i].slope, knots_[i + 1].value, knots_[i + 1].slope};
  }

  /// For each of equal steps down the shares, the piece its top lies in: where a search starts.
  void index_pieces() {
    const std::size_t bins = 2 * knots_.size();
    const double depth = knots_.front().value - knots_.back().value;
    bins_per_unit_ = static_cast<double>(bins) / depth;
    first_piece_.resize(bins + 1);
    std::size_t piece = 0;
    for (std::size_t bin = 0; bin <= bins; ++bin) {
      const double top = knots_.front().value - static_cast<double>(bin) / bins_per_unit_;
      while (piece + 2 < knots_.size() && knots_[piece + 1].value >= top) ++piece;
      // The piece before: bins are cut by rounding.
      first_piece_[bin] = static_cast<std::uint16_t>(piece > 0 ? piece - 1 : 0);
    }
  }
  /// first exp(step (i + t)), as the cubic that its values and slopes at the ends of a piece make:
  /// exact to 1e-12, as pieces are short.
  [[nodiscard]] double reps_at(std::size_t i, double t) const noexcept {
    const double u = 1.0 - t;
    return u * u * knots_[i].reps * (1.0 + t * (2.0 + step_)) +
           t * t * knots_[i + 1].reps * (1.0 + u * (2.0 - step_));
  }

  double first_;
  double last_;
  double step_ = 0.0;
  double first_slope_ = 0.0;
  double last_slope_ = 0.0;
  std::vector<Knot> knots_;  // the ends of the pieces
  std::vector<std::uint16_t> first_piece_;
  double bins_per_unit_ = 0.0;
};

}  // namespace barwright::inline BARWRIGHT_ABI
