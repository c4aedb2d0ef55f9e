// barwright/plan/strength.hpp - how strong a lifter is, as the planners ask it
//
// A planner asks five things: the max, how a lift compares with its base lift, what share of the
// max goes up for so many repetitions, how likely a set is to be missed, and how heavy it may be. A
// strength model answers them from a log (learn_lifter.hpp). Here a max that somebody states and
// the catalogue answer them, with the same beliefs and the same arithmetic, and without Eigen: what
// the model would say before the first set.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
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

namespace barwright::inline BARWRIGHT_ABI {

/// Answers what a planner asks of a lifter's strength on one base lift and its variations. Asked of
/// another lift, every answer is a DomainError.
class Strength {
 public:
  Strength() = default;
  Strength(const Strength&) = delete;
  Strength& operator=(const Strength&) = delete;
  virtual ~Strength() = default;

  /// The max on a day of average form.
  [[nodiscard]] virtual Estimate<Mass> max(const Lift& lift, Date date) const = 0;
  /// The max as a share of the base lift's, once the lift is learnt.
  [[nodiscard]] virtual Estimate<double> ratio(const Lift& lift) const = 0;
  /// Repetitions beyond the first at the same share of the lift's own max, against the base curve.
  [[nodiscard]] virtual Estimate<double> stretch(const Lift& lift) const = 0;
  /// The share of the max that allows this many repetitions, by the lifter's own curve.
  [[nodiscard]] virtual double share_of_max(const Lift& lift, Date date, double reps) const = 0;
  /// The probability that the last of `reps` repetitions does not go up.
  /// @param earlier_sets  work sets of this lift done before it on the day
  [[nodiscard]] virtual double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                                 int earlier_sets) const = 0;
  /// The load for `reps` repetitions with `left` in reserve, within the bound.
  [[nodiscard]] virtual BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left,
                                             Date date, const RiskBound& bound) const = 0;
};

/// A max that was stated, and what the catalogue says of the variations.
class StatedStrength final : public Strength {
 public:
  /// @param base    the plain lift
  /// @param priors  with the stated max, and how sure it is
  /// @param known   variations that the lifter has done before; others are new
  /// @throws DomainError if the lift has modifiers.
  StatedStrength(const Lift& base, CurveTable curve, const StrengthPriors& priors,
                 std::vector<Lift> known = {})
      : base_(base), curve_(std::move(curve)), priors_(priors), known_(std::move(known)) {
    if (!base.is_plain()) {
      detail::fail(ErrorCode::does_not_apply, "the lift of a stated max",
                   "a base lift without modifiers", base.name());
    }
  }

  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date) const override {
    const StrengthJoint at = joint(lift, 0);
    return {at.mean[0], std::sqrt(at.covariance[0][0])};
  }
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const override {
    require(lift);
    const LogMoments moments = log_ratio(lift);
    return {moments.mean, moments.standard_deviation};
  }
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const override {
    const StrengthJoint at = joint(lift, 0);
    return {at.mean[1], std::sqrt(at.covariance[1][1])};
  }
  [[nodiscard]] double share_of_max(const Lift& lift, Date, double reps) const override {
    const StrengthJoint at = joint(lift, 0);
    return std::exp(ShapedCurve(curve_, std::exp(at.mean[1]), at.mean[2]).log_fraction(reps));
  }
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date,
                                         int earlier_sets) const override {
    if (!(load > Mass{})) return 0.0;
    return risk(lift, reps, earlier_sets).chance_at(std::log(load.kg()));
  }
  [[nodiscard]] BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left, Date,
                                     const RiskBound& bound) const override {
    const StrengthJoint at = joint(lift, bound.earlier_sets);
    return detail::bounded_load(at, curve_, reps, left, bound.max_chance_of_missing);
  }

 private:
  void require(const Lift& lift) const {
    if (lift.base().same_as(base_.base())) return;
    detail::fail(ErrorCode::does_not_apply, "a lift asked of this lifter",
                 Text{}.append("a variation of the ").append(base_.name()), lift.name());
  }
  [[nodiscard]] LogMoments log_ratio(const Lift& lift) const {
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
  [[nodiscard]] StrengthJoint joint(const Lift& lift, int earlier_sets) const {
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
            .on_top = std::hypot(priors_.day_sd, priors_.set_sd)};
  }
  [[nodiscard]] detail::MissRisk risk(const Lift& lift, Reps reps, int earlier_sets) const {
    return {joint(lift, earlier_sets), curve_, reps};
  }

  Lift base_;
  CurveTable curve_;
  StrengthPriors priors_;
  std::vector<Lift> known_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
