// barwright/plan/strength.hpp - how strong a lifter is, as the planners ask it
//
// A planner asks five things: the max, how a lift compares with its base lift, what share of the
// max goes up for so many reps, how likely a set is to be missed, and how heavy it may be. A
// strength model answers them from a log (learn_lifter.hpp). Here a max that somebody states and
// the catalogue answer them, with the same beliefs and the same arithmetic, and without Eigen: what
// the model would say before the first set.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/miss_risk.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "barwright/learn/model/strength_priors.hpp"
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
  /// Reps beyond the first at the same share of the lift's own max, against the base curve.
  [[nodiscard]] virtual Estimate<double> stretch(const Lift& lift) const = 0;
  /// The share of the max that allows this many reps, by the lifter's own curve.
  [[nodiscard]] virtual double share_of_max(const Lift& lift, Date date, double reps) const = 0;
  /// The probability that the last of `reps` reps does not go up.
  /// @param earlier_sets  work sets of this lift done before it on the day
  [[nodiscard]] virtual double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                                 int earlier_sets) const = 0;
  /// The load for `reps` reps with `left` in reserve, within the bound.
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
                 std::vector<Lift> known = {});

  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date) const override;
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const override;
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const override;
  [[nodiscard]] double share_of_max(const Lift& lift, Date, double reps) const override;
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date,
                                         int earlier_sets) const override;
  [[nodiscard]] BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left, Date,
                                     const RiskBound& bound) const override;

 private:
  void require(const Lift& lift) const;
  [[nodiscard]] LogMoments log_ratio(const Lift& lift) const;
  [[nodiscard]] StrengthJoint joint(const Lift& lift, int earlier_sets) const;
  [[nodiscard]] detail::MissRisk risk(const Lift& lift, Reps reps, int earlier_sets) const;

  Lift base_;
  CurveTable curve_;
  StrengthPriors priors_;
  std::vector<Lift> known_;
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/strength.ipp"
#endif
