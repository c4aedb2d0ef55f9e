// barwright/learn/model/outliers.hpp - sets that do not fit the others, such as typing errors
//
// First a look that a few wrong sets cannot mislead, by medians; then, with a fit of all others, a
// judgement of each set.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/model/find_shapes.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/marks.hpp"
#include "barwright/learn/model/observation.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "barwright/learn/model/staged_log.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/stacking.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// A robust first look: the level near each session as the median of what the sets around it imply,
/// and sets that lie a factor of 1.5 from it left out until the model can judge them.
/// @returns the level near each session
inline std::vector<double> screen(LogModel& model) {
  StagedLog& log = model.log;
  const StrengthSettings& settings = model.settings;
  constexpr std::size_t neighbours = 12;  // sets either side
  constexpr double far_off = 0.4;
  using SetKind = ModelSet::Kind;
  const LogMoments gap = log_moments(settings.priors.learning_gain);
  std::vector<double> level(log.sets.size());
  const ShapedCurve usual = usual_curve(settings);
  for (std::size_t i = 0; i < log.sets.size(); ++i) {
    const ModelSet& set = log.sets[i];
    const double reps =
        set.to_failure + (set.kind == SetKind::unrated ? settings.priors.unrated_reserve : 0.0);
    level[i] =
        set.log_load - usual.log_fraction(reps) + settings.priors.set_loss * set.earlier_sets;
    for (const std::size_t m : log.lifts[set.lift].modifiers)
      level[i] -= model.ratio_priors[m].mean;
    if (log.lifts[set.lift].gap >= 0) level[i] += set.learning * gap.mean;
  }
  std::vector<double> near;
  std::vector<double> rough_levels(log.dates.size(), 0.0);
  const auto middle_of = [&](std::size_t i, bool only_counted) {
    near.clear();
    const std::size_t from = i > neighbours ? i - neighbours : 0;
    const std::size_t to = std::min(i + neighbours + 1, log.sets.size());
    for (std::size_t j = from; j < to; ++j) {
      if (!only_counted || log.sets[j].is_counted()) near.push_back(level[j]);
    }
    if (near.empty()) return false;
    // Of an even number the lower: where as many sets say one thing as another, the lighter holds.
    const auto middle = near.begin() + static_cast<std::ptrdiff_t>((near.size() - 1) / 2);
    std::nth_element(near.begin(), middle, near.end());
    rough_levels[log.sets[i].session] = *middle;
    return true;
  };
  for (std::size_t i = 0; i < log.sets.size(); ++i) {
    if (i > 0 && log.sets[i].session == log.sets[i - 1].session) continue;
    if (!middle_of(i, true)) middle_of(i, false);
  }
  for (std::size_t i = 0; i < log.sets.size(); ++i) {
    const double off = level[i] - rough_levels[log.sets[i].session];
    const bool is_low_bound = !log.sets[i].is_counted() && off < 0.0;
    log.sets[i].is_left_out = std::fabs(off) > far_off && !is_low_bound;
  }
  count_earlier_sets(log, settings.priors);
  return rough_levels;
}

/// Days whose sets all lie far from what the others say: an illness, a great day. The form takes
/// that, not the level, and not the chance of each set. True when there are new ones.
///
/// What a day's form got of a deviation says how large the whole was: form and the mean of n sets'
/// noise share it by their variances.
inline bool find_odd_days(LogModel& model, const ShapePosterior& shapes,
                          const std::vector<Mark>& marks) {
  constexpr double far_off = 3.0;  // standard deviations
  StagedLog& log = model.log;
  const double day = model.priors().day_sd * model.priors().day_sd;
  const double one_set = model.priors().set_sd * model.priors().set_sd;
  const double steadiness = std::fmax(usual_steadiness(shapes), 1.0);
  bool has_new = false;
  auto set = log.sets.begin();
  for (std::size_t session = 0; session < log.dates.size(); ++session) {
    int sets = 0;
    for (; set != log.sets.end() && set->session == session; ++set) {
      sets += set->is_left_out ? 0 : 1;
    }
    if (sets == 0 || log.is_odd_day[session]) continue;
    const double whole = std::sqrt(day + one_set / sets);
    const double form = std::fabs(marks[session].state.mean[day_state]);
    if (form * whole <= far_off * steadiness * day) continue;
    log.is_odd_day[session] = true;
    has_new = true;
  }
  return has_new;
}

/// How well a set fits what all others say; its use is left open.
/// @param mark  of its day: by all sets, or where it is left out by all others
[[nodiscard]] inline SetReport judged(const LogModel& model, const ShapePosterior& shapes,
                                      const Mark& mark, const ModelSet& set) {
  using SetKind = ModelSet::Kind;
  const ModelLift& lift = model.log.lifts[set.lift];
  // Who was steady so far may have an odd day all the same.
  const double steadiness = std::fmax(usual_steadiness(shapes), 1.0);
  const double set_sd = steadiness * std::hypot(model.priors().set_sd, model.priors().day_sd);
  const ShapedCurve curve = model.curve_of(lift, shapes.mean);
  Terms terms = model.terms_of(set, false);
  const Answer plain = answer(mark, shapes, terms);

  // What the set says: the capacity lay between `low` and `high`, give or take `error`.
  constexpr double unbounded = std::numeric_limits<double>::infinity();
  double low = set.log_load - curve.log_fraction(just_enough_for(set.reps));
  double high = unbounded;
  double error = 0.01;
  Answer all = plain;
  if (set.kind == SetKind::missed) {
    high = low;
    low = set.reps > 1.0 ? set.log_load - curve.log_fraction(just_enough_for(set.reps - 1.0))
                         : -unbounded;
  } else if (set.kind == SetKind::rated_none_left) {
    high = set.log_load - curve.log_fraction(set.to_failure);
  } else if (set.kind != SetKind::unrated) {
    const ExpectedReps expected = expected_reps(curve, set.log_load, plain.mean);
    const double z = set.log_load - curve.log_fraction(set.to_failure);
    const double rating =
        rating_error(expected.to_failure - set.reps, expected.to_failure, model.settings.experience)
            .standard_deviation;
    constexpr double most_error = 0.12;  // light sets are rated badly, but a slip is worse
    error = std::clamp(expected.by_rep * std::hypot(rating, set.deviation), error, most_error);
    terms.append({bias_state, -std::fmin(expected.by_rep, most_error)});
    all = answer(mark, shapes, terms);
    if (set.says != RatedSet::Says::at_most) low = z;
    if (set.says != RatedSet::Says::at_least) high = z;
    low = std::fmin(low, high);
  }
  // Without the set itself: one that was used has pulled the estimate towards itself.
  const MeanAndVariance given = mark.state.combination({terms.begin(), terms.size()});
  const double own = error * error + set_sd * set_sd;
  const double kept = set.is_left_out ? 1.0 : std::fmax(1.0 - given.variance / own, 0.2);
  double off = all.mean < low ? low - all.mean : all.mean > high ? high - all.mean : 0.0;
  off /= kept;
  const double others = all.variance - given.variance + given.variance / kept;

  SetReport report;
  report.surprise = off / std::sqrt(own + others);
  report.expected_load = from_number<Mass>(std::exp(set.log_load - off));
  double log_ratio = 0.0;
  for (const std::size_t m : lift.modifiers) log_ratio += mark.state.mean[ratio_state(m)];
  report.expected_ratio = std::exp(log_ratio);
  return report;
}

/// Judges each set; leaves out those that do not fit, if it may. True when that changed.
inline bool judge(LogModel& model, const ShapePosterior& shapes, const std::vector<Mark>& marks,
                  std::vector<SetReport>& reports, bool may_change) {
  bool has_changed = false;
  for (ModelSet& set : model.log.sets) {
    SetReport& report = reports[set.index];
    report = judged(model, shapes, marks[set.session], set);
    // A set once left out must fit clearly better to come back, or it would come and go.
    const double limit = model.priors().most_surprise * (set.is_left_out ? 0.8 : 1.0);
    const bool is_suspicious = may_change ? std::fabs(report.surprise) > limit : set.is_left_out;
    report.use = is_suspicious ? SetReport::Use::suspicious : SetReport::Use::used;
    has_changed = has_changed || is_suspicious != set.is_left_out;
    set.is_left_out = is_suspicious;
  }
  if (has_changed) count_earlier_sets(model.log, model.priors());
  return (may_change && find_odd_days(model, shapes, marks)) || has_changed;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
