// barwright/learn/strength_model.ipp - the bodies of strength_model.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/model/fit_log.hpp"
#include "barwright/learn/model/log_fit.hpp"
#include "barwright/learn/model/log_gain.hpp"
#include "barwright/learn/model/miss_risk.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/lift.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline void check_priors(const StrengthPriors& p) {
  const auto require_positive = [](const char* what, double value) {
    if (!(value > 0.0 && value < 1e6)) fail(what, "a number above 0", value);
  };
  require_positive("the prior max, in kg", p.max.kg());
  require_positive("the deviation of the prior max", p.max_log_sd);
  require_positive("the deviation of the trend", p.trend_sd);
  require_positive("the weeks over which a trend is forgotten", p.trend_weeks);
  require_positive("the walk of the level", p.level_walk);
  require_positive("the deviation of the day's form", p.day_sd);
  require_positive("the deviation of one set", p.set_sd);
  require_positive("the deviation of a lifter's steadiness", p.steadiness_log_sd);
  require_positive("the weeks over which an early gain fades", p.early_weeks);
  require_positive("the weeks over which a novice's gain fades", p.novice_weeks);
  require_positive("the deviation of a novice's trend", p.novice_trend_sd);
  require_positive("the deviation of the loss with each set", p.set_loss_sd);
  require_positive("the walk of a ratio", p.ratio_walk);
  require_positive("the deviation of the stretch", p.stretch_log_sd);
  require_positive("the deviation of the bend", p.bend_sd);
  require_positive("the deviation of the rating bias", p.rating_bias_sd);
  require_positive("the reserve of a set without rating", p.unrated_reserve);
  require_positive("the deviation of that reserve", p.unrated_reserve_sd);
  require_positive("the most counted reserve", p.most_counted_reserve);
  require_positive("the surprise that leaves a set out", p.most_surprise);
  if (!(p.learning_kept >= 0.0 && p.learning_kept < 1.0)) {
    fail("the share of a learning gap kept", "a number from 0 to below 1", p.learning_kept);
  }
  if (!is_finite(p.rating_bias)) {
    fail("the rating bias", "a finite number", p.rating_bias);
  }
  if (!is_finite(p.set_loss)) {
    fail("the loss with each set", "a finite number", p.set_loss);
  }
  require_factor("a learning gain", p.learning_gain);
}

}  // namespace detail

inline StrengthModel::StrengthModel(StrengthSettings settings) : settings_(std::move(settings)) {
  if (!settings_.reference.is_plain()) {
    detail::fail(ErrorCode::does_not_apply, "the reference lift of a strength model",
                 "a base lift without modifiers", settings_.reference.name());
  }
  detail::check_priors(settings_.priors);
}

inline StrengthFit StrengthModel::fit() const {
  return StrengthFit(std::make_shared<const detail::LogFit>(detail::fit_log(settings_, sets_)));
}

inline Estimate<Mass> StrengthFit::max(const Lift& lift, Date date) const {
  const detail::LogFit::Capacity c = of_->capacity(of_->ask(lift, date), date, 0, trains_on_);
  return {c.mean, std::sqrt(c.variance)};
}

inline StrengthFit StrengthFit::if_training_goes_on() const {
  StrengthFit fit = *this;
  fit.trains_on_ = true;
  return fit;
}

inline Estimate<double> StrengthFit::ratio(const Lift& lift) const {
  const detail::LogFit::Question question = of_->ask(lift);
  const detail::Answer a = of_->at_end(question.ratio);
  return {a.mean + question.prior_mean, std::sqrt(a.variance + question.prior_variance)};
}

inline Estimate<double> StrengthFit::stretch(const Lift& lift) const {
  const detail::LogFit::Shape s = of_->shape(of_->ask(lift));
  return {s.mean, std::sqrt(s.variance)};
}

inline Change StrengthFit::trend() const {
  const detail::Answer a = of_->at_end(detail::trend_state);
  const std::vector<Date>& dates = of_->model.log.dates;
  const double weeks = dates.empty() ? 0.0 : (dates.back() - dates.front()) / detail::days_a_week;
  return {of_->model.usual_gain(weeks) + a.mean, std::sqrt(a.variance)};
}

inline std::vector<StrengthFit::HistoryPoint> StrengthFit::history(const Lift& lift) const {
  std::vector<HistoryPoint> points;
  if (!of_->model.log.has_sets()) return points;
  for (const detail::Mark& mark : of_->marks) points.push_back({mark.date, max(lift, mark.date)});
  return points;
}

inline std::optional<Change> StrengthFit::gain(const Lift& lift, Date from, Date to) const {
  return detail::log_gain(*of_, lift, from, to);
}

inline std::optional<Change> StrengthFit::carry_over(const Lift& lift) const {
  const detail::StagedLog& log = of_->model.log;
  std::optional<Date> first;
  std::optional<Date> last;
  for (const detail::ModelSet& set : log.sets) {
    if (set.is_left_out || !log.lifts[set.lift].lift.same_as(lift)) continue;
    last = log.dates[set.session];
    if (!first) first = last;
  }
  if (!first || *first == *last) return std::nullopt;
  return gain(settings().reference, *first, *last);
}

inline StrengthJoint StrengthFit::joint(const Lift& lift, Date date, int earlier_sets) const {
  return of_->joint(lift, date, earlier_sets, trains_on_);
}

inline double StrengthFit::chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                             int earlier_sets) const {
  if (!(load > Mass{})) return 0.0;
  const detail::MissRisk risk(joint(lift, date, earlier_sets), settings().curve, reps);
  return risk.chance_at(std::log(load.kg()));
}

inline double StrengthFit::share_of_max(const Lift& lift, Date date, double reps) const {
  const Joint at = joint(lift, date);
  const ShapedCurve curve(settings().curve, std::exp(at.mean[1]), at.mean[2]);
  return std::exp(curve.log_fraction(reps));
}

inline BoundedLoad StrengthFit::load_for(const Lift& lift, Reps reps, RepsInReserve left, Date date,
                                         RiskBound bound) const {
  return detail::bounded_load(joint(lift, date, bound.earlier_sets), settings().curve, reps, left,
                              bound.max_chance_of_missing);
}

inline std::span<const SetReport> StrengthFit::reports() const noexcept { return of_->reports; }

inline int StrengthFit::sets_used() const noexcept { return of_->sets_used(); }

inline LogChecksum StrengthFit::log_checksum() const noexcept { return of_->checksum; }

inline int StrengthFit::sets_appended() const noexcept { return of_->sets_appended; }

inline Change StrengthFit::set_loss() const {
  const detail::Answer a = of_->at_end(detail::loss_state);
  return {a.mean, std::sqrt(a.variance)};
}

inline StrengthFit::RatingBias StrengthFit::rating_bias() const {
  const detail::Answer a = of_->at_end(detail::bias_state);
  return {detail::usual_bias(settings()) + a.mean, std::sqrt(a.variance)};
}

inline std::optional<Estimate<double>> StrengthFit::learning_gain(const Lift& lift) const {
  for (const detail::ModelLift& own : of_->model.log.lifts) {
    if (!own.lift.same_as(lift) || own.gap < 0) continue;
    const detail::Answer a = of_->at_end(of_->model.gap_state(own));
    return Estimate<double>(a.mean, std::sqrt(a.variance));
  }
  return std::nullopt;
}

inline const StrengthSettings& StrengthFit::settings() const noexcept {
  return of_->model.settings;
}

}  // namespace barwright::inline BARWRIGHT_ABI
