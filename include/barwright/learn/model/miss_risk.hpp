// barwright/learn/model/miss_risk.hpp - the chance of a missed rep, and the load for a given one
//
// What is known of a lifter on one lift and day is three numbers, jointly normal: the logarithm of
// the max, the logarithm of the stretch and the bend of the rep curve. From them, and the form of
// the day, follow how likely a set is to be missed and how heavy it may be. A strength model has
// them from a log; a stated max and the catalogue give them as well.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/shaped_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What chances rest on, jointly normal: the logarithm of the max in kg, the logarithm of the
/// lift's stretch, and the bend of the lifter's curve.
struct StrengthJoint {
  double mean[3];           ///< of the three, in this order
  double covariance[3][3];  ///< of the three
  /// Standard deviation of what is drawn afresh: the form of a day of which nothing is known.
  double on_top = 0.0;
};

/// A load chosen under a bound on the chance of missing.
struct BoundedLoad {
  Mass load{};
  double chance_of_missing = 0.0;  ///< of the last rep, at that load
  bool is_bounded = false;         ///< the bound, not the reserve asked for, decided
};

/// What bounds a load.
struct RiskBound {
  double max_chance_of_missing = 0.05;
  int earlier_sets = 0;  ///< work sets of this lift done before it on the day
};

namespace detail {

inline void check_earlier_sets(int count) {
  if (!(count >= 0)) fail("earlier sets", "0 or more", static_cast<double>(count));
}

/// The chance of missing as a function of the load.
///
/// A set is missed when capacity, form of the day and log fraction together are below the load.
/// Capacity, stretch and bend are jointly normal. Over the bend goes Gauss-Hermite quadrature; at
/// each bend the log fraction is nearly a cubic in the logarithm of the stretch, whose slope
/// joins the normal spread and whose bow shifts and widens it. Where the stretch is hardly known it
/// is nearly so over a part of the spread only, and quadrature goes over the rest, too.
class MissRisk {
 public:
  MissRisk(const StrengthJoint& joint, const CurveTable& curve, Reps reps) {
    const auto& v = joint.covariance;
    const double day = joint.on_top;
    // With z and y standard normal and independent:
    //   bend = bend_sd z,  log stretch = stretch_by_z z + stretch_sd y,
    //   capacity = by_z z + by_y y + what is left.
    const double bend_sd = std::sqrt(v[2][2]);
    const double stretch_by_z = v[1][2] / bend_sd;
    const double stretch_sd = std::sqrt(std::fmax(v[1][1] - stretch_by_z * stretch_by_z, 1e-12));
    const double by_z = v[0][2] / bend_sd;
    const double by_y = (v[0][1] - by_z * stretch_by_z) / stretch_sd;
    const double rest = std::fmax(v[0][0] - by_z * by_z - by_y * by_y, 0.0) + day * day;

    constexpr double well_known = 0.25;
    constexpr double followed = 0.6;  // of the deviation, by the cubic
    const bool is_wide = stretch_sd > well_known;
    const double narrow = is_wide ? followed : 1.0;
    const double apart = std::sqrt(1.0 - narrow * narrow);
    const std::size_t node_pairs = is_wide ? node_count * node_count : node_count;
    const double factor = std::exp(narrow * stretch_sd);

    for (std::size_t i = 0; i < node_pairs; ++i) {
      const double weight = weights[i % node_count] * (is_wide ? weights[i / node_count] : 1.0);
      if (weight < least_weight) continue;
      const double z = nodes[i % node_count];
      const double y = is_wide ? apart * nodes[i / node_count] : 0.0;
      const ShapedCurve bent(curve, 1.0, joint.mean[2] + bend_sd * z);
      const double beyond_first = (bent.without_bend(just_enough_for(reps.count())) - 1.0) *
                                  std::exp(-joint.mean[1] - stretch_by_z * z - stretch_sd * y);
      const auto share = [&](double by) { return curve.log_fraction(1.0 + beyond_first * by); };
      // A cubic through the log fraction at five stretches, one deviation apart.
      const double here = share(1.0);
      const double up = share(1.0 / factor);
      const double down = share(factor);
      const double odd = up - down;
      const double even = up + down - 2.0 * here;
      const double far_up = share(1.0 / (factor * factor));
      const double far_down = share(factor * factor);
      const double far_odd = far_up - far_down;
      const double far_even = far_up + far_down - 2.0 * here;
      const double slope = narrow * by_y + (8.0 * odd - far_odd) / 12.0;
      const double variance = rest + slope * slope;
      Part& part = parts_[part_count_++];
      part.weight = is_wide ? weight / kept_weight : weight;
      part.curvature = (16.0 * even - far_even) / 12.0;
      part.third = 0.5 * far_odd - odd;
      part.by_load = slope / variance;
      part.left = rest / variance;
      const double bowed = part.curvature * part.left;
      const double leaning = part.third * part.left;
      part.deviation =
          std::sqrt(variance + 0.5 * bowed * bowed + 5.0 / 12.0 * leaning * leaning * part.left);
      // Beyond this the cubic would turn the chance around: a y^2 + b y = c.
      const double a = 0.5 * std::fabs(part.third);
      const double b = std::fabs(part.curvature);
      const double c = std::fmax(0.5 / std::fabs(part.by_load) - a * part.left, 0.0);
      part.furthest = std::fmin(2.0 * c / (b + std::sqrt(b * b + 4.0 * a * c)), 4.0);
      part.heaviest = joint.mean[0] + by_z * z + by_y * y + here + 0.5 * part.curvature * part.left;
    }
  }

  struct Value {
    double chance;
    double density;  ///< derivative of the chance by the logarithm of the load
  };
  [[nodiscard]] Value at(double log_load) const noexcept {
    Value value{0.0, 0.0};
    for (const Part& part : parts()) {
      const auto [x, rise] = part.at(log_load);
      value.chance += part.weight * normal_cdf(x);
      value.density += part.weight * normal_pdf(x) * rise;
    }
    return value;
  }
  [[nodiscard]] double chance_at(double log_load) const noexcept {
    double chance = 0.0;
    for (const Part& part : parts()) chance += part.weight * normal_cdf(part.at(log_load).x);
    return chance;
  }

  /// The load, as a logarithm, at which the chance is `target`.
  [[nodiscard]] double solve(double target) const noexcept {
    const double z = normal_quantile(target);
    double low = 1e300;
    double high = -1e300;
    for (const Part& part : parts()) {
      const double middle = part.heaviest + part.deviation * z;
      const double bow = 0.5 * part.furthest * part.furthest;
      const double shift = part.curvature * bow;
      const double lean = std::fabs(part.third) * part.furthest * (bow / 3.0 + 0.5 * part.left);
      low = std::fmin(low, middle + std::fmin(shift, 0.0) - lean);
      high = std::fmax(high, middle + std::fmax(shift, 0.0) + lean);
    }
    double x = 0.5 * (low + high);
    for (int step = 0; step < 60; ++step) {
      const Value value = at(x);
      const double gap = value.chance - target;
      (gap > 0.0 ? high : low) = x;
      double next = x - gap / value.density;
      if (!(next >= low && next <= high)) next = 0.5 * (low + high);
      const double move = std::fabs(next - x);
      x = next;
      if (move < 1e-10) break;
    }
    return x;
  }

 private:
  // Nodes and weights for the standard normal: Gauss-Hermite, 8 points.
  static constexpr std::size_t node_count = 8;
  static constexpr double nodes[node_count] = {
      -4.1445471861258945, -2.8024858612875416, -1.6365190424351079, -0.53907981135137506,
      0.53907981135137506, 1.6365190424351079,  2.8024858612875416,  4.1445471861258945};
  static constexpr double weights[node_count] = {
      0.00011261453837536762, 0.009635220120788256, 0.11723990766175904,  0.37301225767907731,
      0.37301225767907731,    0.11723990766175904,  0.009635220120788256, 0.00011261453837536762};

  struct Part {
    double weight;
    double heaviest;   ///< log of the load that would just go up, at this bend
    double deviation;  ///< of that
    double by_load;    ///< change of the expected y with the log of the load
    double curvature;  ///< of the log fraction by y
    double third;      ///< its third derivative by y
    double left;       ///< variance of y given the sum, of 1
    double furthest;   ///< |y| up to which the cubic is followed

    struct Standing {
      double x;     ///< in deviations: as much above the heaviest load is the chance of a miss
      double rise;  ///< by the logarithm of the load
    };
    [[nodiscard]] Standing at(double log_load) const noexcept {
      const double off = log_load - heaviest;
      // Where y is to be expected when this load is just too heavy.
      const double y = by_load * off;
      const double held = std::clamp(y, -furthest, furthest);
      const double bow = 0.5 * held * held;
      const double bent = curvature * bow + third * held * (bow / 3.0 + 0.5 * left);
      const double turn = held == y ? by_load * (curvature * y + third * (bow + 0.5 * left)) : 0.0;
      return {(off - bent) / deviation, (1.0 - turn) / deviation};
    }
  };
  // Of the pairs of nodes those in the corners, twelve, weigh next to nothing, and are left out.
  static constexpr double least_weight = 2e-6;
  static constexpr double kept_weight =
      1.0 - 4.0 * weights[0] * weights[0] - 8.0 * weights[0] * weights[1];
  static constexpr std::size_t most_parts = node_count * node_count - 12;
  [[nodiscard]] std::span<const Part> parts() const noexcept { return {parts_, part_count_}; }
  std::size_t part_count_ = 0;
  Part parts_[most_parts] = {};
};

/// The load for `reps` with `left` in reserve, no greater than the bound on the chance of missing
/// allows.
/// @throws DomainError unless the bound is above 0 and below 1.
[[nodiscard]] inline BoundedLoad bounded_load(const StrengthJoint& at, const CurveTable& table,
                                              Reps reps, RepsInReserve left,
                                              double max_chance_of_missing) {
  if (!(max_chance_of_missing > 0.0 && max_chance_of_missing < 1.0)) {
    fail("a bound on the chance of missing", "a number above 0 and below 1", max_chance_of_missing);
  }
  const MissRisk risk(at, table, reps);
  const ShapedCurve curve(table, std::exp(at.mean[1]), at.mean[2]);
  const double wanted = at.mean[0] + curve.log_fraction(reps_to_failure(reps, left));
  const double chance = risk.chance_at(wanted);
  if (!(chance > max_chance_of_missing)) {
    return {.load = from_number<Mass>(std::exp(wanted)), .chance_of_missing = chance};
  }
  const double allowed = std::min(risk.solve(max_chance_of_missing), wanted);
  return {.load = from_number<Mass>(std::exp(allowed)),
          .chance_of_missing = risk.chance_at(allowed),
          .is_bounded = true};
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI
