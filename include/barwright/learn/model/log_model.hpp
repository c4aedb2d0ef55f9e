// barwright/learn/model/log_model.hpp - the states of a lifter, how they move, and what a set sees
//
// The capacity is the lifter's level, its trend, the form of the day, what earlier sets have cost,
// and the logarithms of the ratios of whatever modifies the lift. These are states of a linear
// Gaussian model (kalman_filter.hpp). The trend is an integrated Ornstein-Uhlenbeck motion, which
// is forgotten over some months; level and ratios wander beside it.
//
// What makes that model non-linear, the shape of the repetition curve, is held fixed in one pass:
// the logarithm of the lifter's stretch, the bend, and the logarithm of the stretch of each
// modifier are its shapes.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/short_list.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "barwright/learn/model/staged_log.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/stacking.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

using Index = Eigen::Index;
using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;
using Terms = ShortList<Term, 4 + 2 * Lift::most_modifiers>;

// States, in the order of the filter: those that move come first. Then a ratio for each modifier
// and a gap for each new lift.
inline constexpr Index level_state = 0;
inline constexpr Index trend_state = 1;
inline constexpr Index day_state = 2;
inline constexpr Index loss_state = 3;
inline constexpr Index bias_state = 4;
inline constexpr Index first_ratio_state = 5;

// Shapes: the logarithm of the lifter's stretch, the bend, and the logarithm of the stretch of each
// modifier.
inline constexpr Index stretch_shape = 0;
inline constexpr Index bend_shape = 1;
inline constexpr Index first_modifier_shape = 2;

[[nodiscard]] inline Index ratio_state(std::size_t modifier) noexcept {
  return first_ratio_state + static_cast<Index>(modifier);
}
[[nodiscard]] inline Index modifier_shape(std::size_t modifier) noexcept {
  return first_modifier_shape + static_cast<Index>(modifier);
}

/// The coefficients of the trend's integrated Ornstein-Uhlenbeck motion over some weeks.
struct Motion {
  double level_by_trend;  ///< what one unit of trend adds to the level
  double trend_kept;
  double trend_variance;
  double level_by_trend_noise;  ///< regression of the level's noise on the trend's
  double level_variance;        ///< what is left, the level's own walk included
};
[[nodiscard]] inline Motion motion(const StrengthPriors& p, double weeks) noexcept {
  const double x = weeks / p.trend_weeks;
  const double kept = std::exp(-x);
  const double lost = -std::expm1(-x);
  const double variance = p.trend_sd * p.trend_sd;
  const double trend_variance = variance * -std::expm1(-2.0 * x);
  const double covariance = variance * p.trend_weeks * lost * lost;
  // 2x - 3 + 4 e^-x - e^-2x, by its series where the terms cancel.
  const double shape = x < 1e-3 ? 2.0 / 3.0 * x * x * x * (1.0 - 0.75 * x)
                                : 2.0 * x - 3.0 + 4.0 * kept - kept * kept;
  const double integrated = variance * p.trend_weeks * p.trend_weeks * shape;
  const double regression = trend_variance > 0.0 ? covariance / trend_variance : 0.0;
  const double rest = integrated - regression * covariance;
  return {.level_by_trend = p.trend_weeks * lost,
          .trend_kept = kept,
          .trend_variance = trend_variance,
          .level_by_trend_noise = regression,
          .level_variance = (rest > 0.0 ? rest : 0.0) + p.level_walk * p.level_walk * weeks};
}

/// A log and what is believed before it: all that a pass through the log needs.
struct LogModel {
  StrengthSettings settings;
  StagedLog log{};
  Mass best{};  ///< the reference max that strength-scaled ratios are taken at
  std::vector<LogMoments> ratio_priors{};  ///< of each modifier
  std::vector<LogMoments> shape_priors{};  ///< in the order of the shapes

  [[nodiscard]] const StrengthPriors& priors() const noexcept { return settings.priors; }
  [[nodiscard]] Index state_count() const noexcept {
    return first_gap_state() + static_cast<Index>(log.gaps);
  }
  [[nodiscard]] Index shape_count() const noexcept { return modifier_shape(log.modifiers.size()); }
  /// The state of the learning gap of a lift that has one.
  [[nodiscard]] Index gap_state(const ModelLift& lift) const noexcept {
    return first_gap_state() + lift.gap;
  }
  [[nodiscard]] Index first_gap_state() const noexcept { return ratio_state(log.modifiers.size()); }

  /// Takes the ratios of the modifiers as they are for a lifter of this max.
  void set_ratio_priors(Mass reference_max) {
    best = reference_max;
    ratio_priors.clear();
    for (const Modifier* modifier : log.modifiers) {
      ratio_priors.push_back(log_moments(modifier->ratio(best)));
    }
  }
  void set_shape_priors() {
    shape_priors.assign({{0.0, priors().stretch_log_sd}, {0.0, priors().bend_sd}});
    for (const Modifier* modifier : log.modifiers) {
      shape_priors.push_back(log_moments(modifier->rep_stretch().value));
    }
  }

  /// The states before the first set.
  /// @param extra  further states, at zero with no variance
  [[nodiscard]] KalmanFilter<> prior_filter(Index extra = 0) const {
    const StrengthPriors& p = priors();
    Vector mean = Vector::Zero(state_count() + extra);
    Vector variance = Vector::Zero(state_count() + extra);
    const auto set = [&](Index i, double m, double sd) {
      mean[i] = m;
      variance[i] = sd * sd;
    };
    set(level_state, std::log(p.max.kg()), p.max_log_sd);
    set(trend_state, 0.0, p.trend_sd);
    set(day_state, 0.0, p.day_sd);
    set(loss_state, p.set_loss, p.set_loss_sd);
    set(bias_state, 0.0, p.rating_bias_sd);
    for (std::size_t m = 0; m < log.modifiers.size(); ++m) {
      set(ratio_state(m), ratio_priors[m].mean, ratio_priors[m].standard_deviation);
    }
    const LogMoments gap = log_moments(p.learning_gain);
    for (const ModelLift& lift : log.lifts) {
      if (lift.gap >= 0) set(gap_state(lift), gap.mean, gap.standard_deviation);
    }
    return KalmanFilter<>::independent(mean, variance);
  }

  /// Moves a filter or smoother over some weeks.
  template <class Filter>
  void advance(Filter& filter, double weeks) const {
    if (!(weeks > 0.0)) return;
    const Motion move = motion(priors(), weeks);
    filter.add_multiple(level_state, trend_state, move.level_by_trend);
    filter.scale(trend_state, move.trend_kept);
    filter.add_multiple(level_state, trend_state, -move.level_by_trend_noise);
    filter.add_noise(trend_state, move.trend_variance);
    filter.add_multiple(level_state, trend_state, move.level_by_trend_noise);
    filter.add_noise(level_state, move.level_variance);
    const double walk = priors().ratio_walk;
    for (std::size_t m = 0; m < log.modifiers.size(); ++m) {
      filter.add_noise(ratio_state(m), walk * walk * weeks);
    }
  }

  /// How a set observes the states, without the bias of its rating.
  [[nodiscard]] Terms terms_of(const ModelSet& set) const {
    Terms terms;
    terms.append({level_state, 1.0});
    terms.append({day_state, 1.0});
    if (set.earlier_sets > 0.0) terms.append({loss_state, -set.earlier_sets});
    const ModelLift& lift = log.lifts[set.lift];
    for (const std::size_t m : lift.modifiers) terms.append({ratio_state(m), 1.0});
    if (lift.gap >= 0 && set.learning > 0.0) terms.append({gap_state(lift), -set.learning});
    return terms;
  }

  /// The repetition curve of a lift under these shapes.
  [[nodiscard]] ShapedCurve curve_of(const ModelLift& lift, const Vector& shapes) const {
    double log_stretch = shapes[stretch_shape];
    for (const std::size_t m : lift.modifiers) log_stretch += shapes[modifier_shape(m)];
    return {settings.curve, std::exp(log_stretch), shapes[bend_shape]};
  }

  /// Whether the log may mistake one shape for the other: but for two modifiers that are never done
  /// together, whose ratios are apart.
  [[nodiscard]] bool are_entangled(Index i, Index j) const noexcept {
    if (i < first_modifier_shape || j < first_modifier_shape) return true;
    return std::any_of(log.lifts.begin(), log.lifts.end(), [&](const ModelLift& lift) {
      const auto has = [&](Index shape) {
        return std::any_of(lift.modifiers.begin(), lift.modifiers.end(),
                           [&](std::size_t m) { return modifier_shape(m) == shape; });
      };
      return has(i) && has(j);
    });
  }
};

}  // namespace barwright::inline BARWRIGHT_ABI::detail
