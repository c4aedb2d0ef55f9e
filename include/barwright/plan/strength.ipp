// barwright/plan/strength.ipp - the bodies of strength.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/miss_risk.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "barwright/learn/model/strength_priors.hpp"
#include "barwright/lifts/learning_gain.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/stacking.hpp"
#include "barwright/plan/strength.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline StatedStrength::StatedStrength(const Lift& base, CurveTable curve,
                                      const StrengthPriors& priors, std::vector<Lift> known)
    : base_(base), curve_(std::move(curve)), priors_(priors), known_(std::move(known)) {
  if (!base.is_plain()) {
    detail::fail(ErrorCode::does_not_apply, "the lift of a stated max",
                 "a base lift without modifiers", base.name());
  }
}

inline Estimate<Mass> StatedStrength::max(const Lift& lift, Date) const {
  const StrengthJoint at = joint(lift, 0);
  return {at.mean[0], std::sqrt(at.covariance[0][0])};
}

inline Estimate<double> StatedStrength::ratio(const Lift& lift) const {
  require(lift);
  const LogMoments moments = log_ratio(lift);
  return {moments.mean, moments.standard_deviation};
}

inline Estimate<double> StatedStrength::stretch(const Lift& lift) const {
  const StrengthJoint at = joint(lift, 0);
  return {at.mean[1], std::sqrt(at.covariance[1][1])};
}

inline double StatedStrength::share_of_max(const Lift& lift, Date, double reps) const {
  const StrengthJoint at = joint(lift, 0);
  return std::exp(ShapedCurve(curve_, std::exp(at.mean[1]), at.mean[2]).log_fraction(reps));
}

inline double StatedStrength::chance_of_missing(const Lift& lift, Mass load, Reps reps, Date,
                                                int earlier_sets) const {
  if (!(load > Mass{})) return 0.0;
  return risk(lift, reps, earlier_sets).chance_at(std::log(load.kg()));
}

inline BoundedLoad StatedStrength::load_for(const Lift& lift, Reps reps, RepsInReserve left, Date,
                                            const RiskBound& bound) const {
  const StrengthJoint at = joint(lift, bound.earlier_sets);
  return detail::bounded_load(at, curve_, reps, left, bound.max_chance_of_missing);
}

inline void StatedStrength::require(const Lift& lift) const {
  if (lift.base().same_as(base_.base())) return;
  detail::fail(ErrorCode::does_not_apply, "a lift asked of this lifter",
               Text{}.append("a variation of the ").append(base_.name()), lift.name());
}

inline LogMoments StatedStrength::log_ratio(const Lift& lift) const {
  LogMoments sum;
  double variance = 0.0;
  for (const Modifier& modifier : lift.modifiers()) {
    const LogMoments ratio = log_moments(modifier.ratio(priors_.max));
    sum.mean += ratio.mean;
    variance += ratio.standard_deviation * ratio.standard_deviation;
  }
  sum.standard_deviation = std::sqrt(variance);
  return sum;
}

inline StrengthJoint StatedStrength::joint(const Lift& lift, int earlier_sets) const {
  require(lift);
  detail::check_earlier_sets(earlier_sets);
  const auto squared = [](double x) { return x * x; };
  const LogMoments ratio = log_ratio(lift);
  double log_max = std::log(priors_.max.kg()) + ratio.mean - earlier_sets * priors_.set_loss;
  double variance = squared(priors_.max_log_sd) + squared(ratio.standard_deviation) +
                    squared(earlier_sets * priors_.set_loss_sd);
  if (!lift.is_plain() && !lift.is_among(known_)) {
    const LogMoments gap = log_moments(priors_.learning_gain);
    log_max -= gap.mean;
    variance += squared(gap.standard_deviation);
  }
  double log_stretch = priors_.stretch_log;
  double stretch_variance = squared(priors_.stretch_log_sd);
  for (const Modifier& modifier : lift.modifiers()) {
    const LogMoments shape = log_moments(modifier.rep_stretch().value);
    log_stretch += shape.mean;
    stretch_variance += squared(shape.standard_deviation);
  }
  return {.mean = {log_max, log_stretch, priors_.bend},
          .covariance = {{variance, 0.0, 0.0},
                         {0.0, stretch_variance, 0.0},
                         {0.0, 0.0, squared(priors_.bend_sd)}},
          // Not every lifter is as steady: the factor that gives the variance on average.
          .on_top = std::exp(squared(priors_.steadiness_log_sd)) *
                    std::hypot(priors_.day_sd, priors_.set_sd)};
}

inline detail::MissRisk StatedStrength::risk(const Lift& lift, Reps reps, int earlier_sets) const {
  return {joint(lift, earlier_sets), curve_, reps};
}

}  // namespace barwright::inline BARWRIGHT_ABI
