// barwright/curves/rep_table.hpp - a rep curve through the points of a table
//
// Handbooks print the rep curve as a chart: 100 % for one rep, 95 % for two, and so on. RepTable
// turns such points into a curve by monotone cubic interpolation, which passes through every point
// and never overshoots between them (Fritsch & Butland 1984, SIAM J Sci Stat Comput 5(2):300-304;
// from memory).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/forms.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One row of a chart: reps to failure and the share of the max.
struct RepPoint {
  double reps = 1.0;
  double share = 1.0;
};

/// A rep curve through tabulated points, defined from the first to the last of them.
template <std::size_t N>
class RepTable {
 public:
  static_assert(N >= 2, "a table needs at least two points");

  /// @param points  reps rising from 1 or more, shares falling and above zero
  /// @throws DomainError otherwise.
  constexpr explicit RepTable(const RepPoint (&points)[N], EquationFacts facts = {})
      : facts_(facts) {
    for (std::size_t i = 0; i < N; ++i) {
      points_[i] = points[i];
      const bool in_range =
          points[i].reps >= 1.0 && points[i].reps <= Reps::most && points[i].share > 0.0;
      if (!in_range || !detail::is_finite(points[i].share)) {
        detail::fail("a point of a rep table", "from 1 to 100 reps with a share above 0",
                     in_range ? points[i].share : points[i].reps);
      }
      if (i > 0 && !(points[i].reps > points[i - 1].reps)) {
        detail::fail(ErrorCode::contradiction, "reps of a table", "in rising order",
                     points[i].reps);
      }
      if (i > 0 && !(points[i].share < points[i - 1].share)) {
        detail::fail(ErrorCode::contradiction, "shares of a rep table", "falling", points[i].share);
      }
    }
    set_derivatives();
  }

  [[nodiscard]] constexpr double fraction(double reps) const {
    const std::size_t i = interval_at(reps);
    return value(i, (reps - points_[i].reps) / width(i));
  }

  [[nodiscard]] constexpr double reps(double share) const {
    detail::require_fraction_defined(share, points_[N - 1].share, points_[0].share);
    std::size_t i = 0;
    while (i + 2 < N && share < points_[i + 1].share) ++i;
    return points_[i].reps + width(i) * place_of(i, share);
  }

  [[nodiscard]] constexpr double slope(double reps) const {
    const std::size_t i = interval_at(reps);
    const double t = (reps - points_[i].reps) / width(i);
    return derivative(i, t) / (width(i) * value(i, t));
  }

  [[nodiscard]] constexpr RepRange defined() const noexcept {
    return {points_[0].reps, points_[N - 1].reps};
  }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return defined(); }
  [[nodiscard]] constexpr const EquationFacts& facts() const noexcept { return facts_; }

 private:
  [[nodiscard]] constexpr double width(std::size_t i) const noexcept {
    return points_[i + 1].reps - points_[i].reps;
  }
  [[nodiscard]] constexpr double secant(std::size_t i) const noexcept {
    return (points_[i + 1].share - points_[i].share) / width(i);
  }
  /// Finding the interval is checking that there is one.
  [[nodiscard]] constexpr std::size_t interval_at(double reps) const {
    if (reps >= points_[0].reps) {
      for (std::size_t i = 0; i + 1 < N; ++i) {
        if (reps <= points_[i + 1].reps) return i;
      }
    }
    detail::refuse_reps(reps, defined());
  }

  /// Weighted harmonic means of the neighbouring secants inside, a limited three-point slope at the
  /// ends: all negative and at most three times the nearer secant, which keeps the curve falling.
  constexpr void set_derivatives() noexcept {
    if constexpr (N == 2) {
      slopes_[0] = slopes_[1] = secant(0);
    } else {
      for (std::size_t i = 1; i + 1 < N; ++i) {
        const double before = 2.0 * width(i) + width(i - 1);
        const double after = width(i) + 2.0 * width(i - 1);
        slopes_[i] = (before + after) / (before / secant(i - 1) + after / secant(i));
      }
      slopes_[0] = end_slope(width(0), width(1), secant(0), secant(1));
      slopes_[N - 1] = end_slope(width(N - 2), width(N - 3), secant(N - 2), secant(N - 3));
    }
  }
  static constexpr double end_slope(double h0, double h1, double d0, double d1) noexcept {
    const double three_point = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if (three_point >= 0.0) return 0.5 * d0;  // would turn upwards
    return three_point < 3.0 * d0 ? 3.0 * d0 : three_point;
  }

  /// The cubic of interval i at t in [0, 1], in Hermite form; written so that both ends are exact
  /// (the left one for shares within a factor of two of each other, as their difference is).
  [[nodiscard]] constexpr double value(std::size_t i, double t) const noexcept {
    const double u = 1.0 - t;
    return points_[i + 1].share +
           u * u * (3.0 - 2.0 * u) * (points_[i].share - points_[i + 1].share) +
           t * u * width(i) * (u * slopes_[i] - t * slopes_[i + 1]);
  }
  [[nodiscard]] constexpr double derivative(std::size_t i, double t) const noexcept {
    const double h = width(i);
    const double u = 1.0 - t;
    return 6.0 * t * u * (points_[i + 1].share - points_[i].share) +
           h * (u * (1.0 - 3.0 * t) * slopes_[i] + t * (3.0 * t - 2.0) * slopes_[i + 1]);
  }

  /// The t in [0, 1] at which interval i has this share: Newton's method inside a bracket.
  [[nodiscard]] constexpr double place_of(std::size_t i, double share) const noexcept {
    double low = 0.0;
    double high = 1.0;
    double t = 0.5;
    for (int step = 0; step < 200; ++step) {
      const double gap = value(i, t) - share;
      if (gap > 0.0) {
        low = t;
      } else {
        high = t;
      }
      double next = t - gap / derivative(i, t);
      if (!(next >= low && next <= high)) next = 0.5 * (low + high);
      const double move = next - t;
      t = next;
      if (move * move <= 1e-24) break;  // what is left is about the square of a step
    }
    return t;
  }

  RepPoint points_[N] = {};
  double slopes_[N] = {};
  EquationFacts facts_;
};

/// Charts printed in handbooks. They are in whole per cents, so read no more into them.
namespace rep_tables {

/// The National Strength and Conditioning Association's training-load chart, 1 to 10 and 12
/// reps.
inline constexpr RepTable<11> nsca_chart{
    {{1, 1.00},
     {2, 0.95},
     {3, 0.93},
     {4, 0.90},
     {5, 0.87},
     {6, 0.85},
     {7, 0.83},
     {8, 0.80},
     {9, 0.77},
     {10, 0.75},
     {12, 0.70}},
    {.name = "NSCA chart",
     .studied = {1.0, 12.0},
     .source = {.citation = "National Strength and Conditioning Association, training load chart",
                .population = "general; not stated",
                .evidence = Evidence::handbook,
                .reading = Reading::read,
                .note = "read in a copy of the association's handout"}}};

/// The textbook table, which differs from the chart above 10 reps.
inline constexpr RepTable<13> baechle_earle{
    {{1, 1.00},
     {2, 0.95},
     {3, 0.93},
     {4, 0.90},
     {5, 0.87},
     {6, 0.85},
     {7, 0.83},
     {8, 0.80},
     {9, 0.77},
     {10, 0.75},
     {11, 0.70},
     {12, 0.67},
     {15, 0.65}},
    {.name = "Baechle & Earle table",
     .studied = {1.0, 15.0},
     .source = {
         .citation = "Baechle & Earle (eds), Essentials of Strength Training and Conditioning",
         .population = "general; not stated",
         .evidence = Evidence::handbook,
         .reading = Reading::from_memory}}};

}  // namespace rep_tables

}  // namespace barwright::inline BARWRIGHT_ABI
