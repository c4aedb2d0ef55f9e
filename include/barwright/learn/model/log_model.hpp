// barwright/learn/model/log_model.hpp - the states of a lifter, how they move, and what a set sees
//
// The capacity is the lifter's level, its trend, the form of the day, what earlier sets have cost,
// what differs between one set and the next, and the logarithms of the ratios of whatever modifies
// the lift. These are states of a linear Gaussian model (kalman_filter.hpp). The trend is an
// integrated Ornstein-Uhlenbeck motion about the usual gain, which is forgotten over some months;
// level and ratios wander beside it. A layoff costs.
//
// What makes that model non-linear, the shape of the rep curve, is held fixed in one pass: the
// logarithm of the lifter's stretch, the bend, and the logarithm of the stretch of each modifier
// are its shapes; so is how steady the lifter is.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
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
using Terms = ShortList<Term, 5 + 2 * Lift::most_modifiers>;

// States, in the order of the filter: those that move come first, and most often first of all. Then
// a ratio for each modifier and a gap for each new lift.
inline constexpr Index set_state = 0;
inline constexpr Index day_state = 1;
inline constexpr Index level_state = 2;
inline constexpr Index trend_state = 3;
inline constexpr Index loss_state = 4;
inline constexpr Index bias_state = 5;
inline constexpr Index first_ratio_state = 6;

// Shapes: the logarithm of the lifter's stretch, the bend, the logarithm of the factor on walk,
// form and noise, and the logarithm of the stretch of each modifier.
inline constexpr Index stretch_shape = 0;
inline constexpr Index bend_shape = 1;
inline constexpr Index steadiness_shape = 2;
inline constexpr Index first_modifier_shape = 3;

/// On a day unlike the others its form deviates so many times as much.
inline constexpr double odd_day_factor = 7.0;

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
/// @param trend_sd    how far trends lie from the usual gain
/// @param level_walk  of the lifter, in the square root of a week
[[nodiscard]] inline Motion motion(double trend_sd, double trend_weeks, double level_walk,
                                   double weeks) noexcept {
  const double x = weeks / trend_weeks;
  const double kept = std::exp(-x);
  const double lost = -std::expm1(-x);
  const double variance = trend_sd * trend_sd;
  const double trend_variance = variance * -std::expm1(-2.0 * x);
  const double covariance = variance * trend_weeks * lost * lost;
  // 2x - 3 + 4 e^-x - e^-2x, by its series where the terms cancel.
  const double shape = x < 1e-3 ? 2.0 / 3.0 * x * x * x * (1.0 - 0.75 * x)
                                : 2.0 * x - 3.0 + 4.0 * kept - kept * kept;
  const double integrated = variance * trend_weeks * trend_weeks * shape;
  const double regression = trend_variance > 0.0 ? covariance / trend_variance : 0.0;
  const double rest = integrated - regression * covariance;
  return {.level_by_trend = trend_weeks * lost,
          .trend_kept = kept,
          .trend_variance = trend_variance,
          .level_by_trend_noise = regression,
          .level_variance = (rest > 0.0 ? rest : 0.0) + level_walk * level_walk * weeks};
}

/// What training and a layoff do to the level in the mean, and how surely.
struct Drift {
  double mean = 0.0;
  double variance = 0.0;
};

/// All that becomes of the states from one day to a later one, but for the walk of the level, in
/// which lifters differ.
struct StateMove {
  double weeks = 0.0;
  Motion motion{};
  Drift usual{};
};

/// A log and what is believed before it: all that a pass through the log needs.
struct LogModel {
  StrengthSettings settings;
  StagedLog log{};
  Mass best{};  ///< the reference max that strength-scaled ratios are taken at
  std::vector<LogMoments> ratio_priors{};  ///< of each modifier
  std::vector<LogMoments> shape_priors{};  ///< in the order of the shapes
  int layoff_after = 0;                    ///< days without the lift from which on strength is lost
  std::vector<StateMove> moves{};  ///< to each session from the one before, at a steadiness of 0

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
    const StrengthPriors& p = priors();
    shape_priors.assign(
        {{p.stretch_log, p.stretch_log_sd}, {p.bend, p.bend_sd}, {0.0, p.steadiness_log_sd}});
    for (const Modifier* modifier : log.modifiers) {
      shape_priors.push_back(log_moments(modifier->rep_stretch().value));
    }
  }

  /// The states before the first set.
  /// @param extra  further states, at zero with no variance
  [[nodiscard]] KalmanFilter prior_filter(Index extra = 0) const {
    const StrengthPriors& p = priors();
    Vector mean = Vector::Zero(state_count() + extra);
    Vector variance = Vector::Zero(state_count() + extra);
    const auto set = [&](Index i, double m, double sd) {
      mean[i] = m;
      variance[i] = sd * sd;
    };
    set(level_state, std::log(p.max.kg()), p.max_log_sd);
    set(trend_state, 0.0, trend_sd());
    set(day_state, 0.0, p.day_sd);
    set(set_state, 0.0, p.set_sd);
    set(loss_state, p.set_loss, p.set_loss_sd);
    set(bias_state, 0.0, p.rating_bias_sd);
    for (std::size_t m = 0; m < log.modifiers.size(); ++m) {
      set(ratio_state(m), ratio_priors[m].mean, ratio_priors[m].standard_deviation);
    }
    const LogMoments gap = log_moments(p.learning_gain);
    for (const ModelLift& lift : log.lifts) {
      if (lift.gap >= 0) set(gap_state(lift), gap.mean, gap.standard_deviation);
    }
    return KalmanFilter::independent(mean, variance);
  }

  [[nodiscard]] bool is_novice() const noexcept {
    return settings.experience == Experience::novice;
  }
  [[nodiscard]] double trend_sd() const noexcept {
    return is_novice() ? priors().novice_trend_sd : priors().trend_sd;
  }
  /// @param steadiness  the lifter's factor on the walk
  [[nodiscard]] Motion motion_over(double weeks, double steadiness) const noexcept {
    return motion(trend_sd(), priors().trend_weeks, steadiness * priors().level_walk, weeks);
  }

  /// What is gained a week when a log begins, beside the gain of the long run, and the weeks over
  /// which that fades.
  [[nodiscard]] double early_gain() const noexcept {
    return is_novice() ? priors().novice_gain : priors().early_gain;
  }
  [[nodiscard]] double early_weeks() const noexcept {
    return is_novice() ? priors().novice_weeks : priors().early_weeks;
  }
  /// The gain a week to be expected so long after the log began.
  [[nodiscard]] double usual_gain(double weeks_into_log) const noexcept {
    return priors().gain + early_gain() * std::exp(-std::fmax(weeks_into_log, 0.0) / early_weeks());
  }
  /// Between a day of the log and one so many days later, of which no more than `most_trained`
  /// count as trained.
  [[nodiscard]] Drift drift(Date from, int days, int most_trained) const noexcept {
    const StrengthPriors& p = priors();
    if (log.dates.empty() || days <= 0) return {};
    // Nobody gains in a layoff.
    const double trained = std::min(days, most_trained) / days_a_week;
    const double begin = (from - log.dates.front()) / days_a_week;
    const double away = std::max(days - most_trained, 0) / days_a_week;
    constexpr double levels_off = 8.0;  // weeks: assumption
    const double lost = levels_off * -std::expm1(-away / levels_off);
    return {p.gain * trained +
                early_gain() * early_weeks() * std::exp(-begin / early_weeks()) *
                    -std::expm1(-trained / early_weeks()) -
                p.layoff_loss * lost,
            p.layoff_loss_sd * lost * p.layoff_loss_sd * lost};
  }
  /// Who logs meets or tests alone trains between them: a gap is a layoff where it is long beside
  /// the log's usual one.
  void find_layoffs() {
    constexpr int long_beside_usual = 2;
    layoff_after = priors().layoff_days;
    if (log.dates.size() < 2) return;
    std::vector<int> gaps;
    for (std::size_t i = 1; i < log.dates.size(); ++i) {
      gaps.push_back(log.dates[i] - log.dates[i - 1]);
    }
    const auto middle = gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2);
    std::nth_element(gaps.begin(), middle, gaps.end());
    layoff_after = std::max(layoff_after, long_beside_usual * *middle);
  }

  [[nodiscard]] StateMove move_between(Date from, Date to) const noexcept {
    const double weeks = (to - from) / days_a_week;
    return {weeks, motion_over(weeks, 0.0), drift(from, to - from, layoff_after)};
  }
  /// Works out the moves, which all passes through the log have in common.
  void find_moves() {
    moves.resize(log.dates.size());
    for (std::size_t i = 1; i < moves.size(); ++i) {
      moves[i] = move_between(log.dates[i - 1], log.dates[i]);
    }
  }

  /// Moves a filter or smoother on.
  template <class Filter>
  void advance(Filter& filter, const StateMove& move, double steadiness) const {
    const auto& [weeks, motion, usual] = move;
    if (!(weeks > 0.0)) return;
    const double level_walk = steadiness * priors().level_walk;
    filter.shift(level_state, usual.mean);
    filter.add_multiple(level_state, trend_state, motion.level_by_trend);
    filter.scale(trend_state, motion.trend_kept);
    filter.add_multiple(level_state, trend_state, -motion.level_by_trend_noise);
    filter.add_noise(trend_state, motion.trend_variance);
    filter.add_multiple(level_state, trend_state, motion.level_by_trend_noise);
    filter.add_noise(level_state,
                     motion.level_variance + level_walk * level_walk * weeks + usual.variance);
    const double walk = priors().ratio_walk;
    for (std::size_t m = 0; m < log.modifiers.size(); ++m) {
      filter.add_noise(ratio_state(m), walk * walk * weeks);
    }
  }

  /// How a set observes the states, without the bias of its rating.
  /// @param with_noise  its own noise included, which is a state while it is learnt from
  [[nodiscard]] Terms terms_of(const ModelSet& set, bool with_noise) const {
    Terms terms;
    terms.append({level_state, 1.0});
    terms.append({day_state, 1.0});
    if (with_noise) terms.append({set_state, 1.0});
    if (set.earlier_sets > 0.0) terms.append({loss_state, -set.earlier_sets});
    const ModelLift& lift = log.lifts[set.lift];
    for (const std::size_t m : lift.modifiers) terms.append({ratio_state(m), 1.0});
    if (lift.gap >= 0 && set.learning > 0.0) terms.append({gap_state(lift), -set.learning});
    return terms;
  }

  /// The rep curve of a lift under these shapes.
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
