// barwright/learn/strength_model.hpp - what a training log says about a lifter, and how sure it is
//
// Every set is a small test. Reps to failure R on a load L, at a capacity c (the logarithm of the
// day's max on that lift), follow the rep curve stretched by s:
//
//     R = 1 + s (reps(L / e^c) - 1) + error.
//
// The capacity is the lifter's level, its trend, the day's form, the fatigue of earlier sets, and
// the logarithms of the ratios of whatever modifies the lift. Given the stretches, the logarithm of
// the max that a set implies,
//
//     z = log L - log fraction(1 + (R - 1) / s),
//
// is linear in all of those, so a Kalman filter learns them from the sets one by one, with the
// error of a rating carried over to z at the reps that were to be expected (never at those that
// were seen, whose error it shares). The stretches are found by maximising the likelihood of R, the
// filter's times the Jacobian |dz/dR|, with their priors; their covariance is the curvature there,
// and is carried into everything else. Loads are chosen and reps happen: hence R given L, not the
// other way round, which would bias the stretch. docs/strength-model.md has the assumptions, the
// priors with their evidence, and how well the intervals hold.
//
// This page is all that a reader needs; how it is done is in learn/model/, one idea a header:
// staged_log, log_model, learn_set, find_shapes, marks, outliers, fit_log, log_fit, log_gain,
// last_day. One more set in a fit is append_set.hpp's, a fit to be kept saved_fit.hpp's.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/model/miss_risk.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {
struct LogFit;
struct FitAccess;
}  // namespace detail

class StrengthFit;

/// A lifter's log, and what it is a log of.
///
///     StrengthModel model({.reference = lifts::bench_press, .curve = equations::wathen});
///     for (const LoggedSet& set : log) model.add(set);
///     const StrengthFit fit = model.fit();
class StrengthModel {
 public:
  /// @throws DomainError if the reference lift has modifiers or a prior is out of range.
  explicit StrengthModel(StrengthSettings settings);

  /// Adds one set; any order will do. Sets of one day count as done in the order they are added.
  void add(const LoggedSet& set) { sets_.push_back(set); }

  [[nodiscard]] std::span<const LoggedSet> sets() const noexcept { return sets_; }
  [[nodiscard]] const StrengthSettings& settings() const noexcept { return settings_; }

  /// What the sets so far say. With none, the answers are the priors.
  [[nodiscard]] StrengthFit fit() const;

 private:
  StrengthSettings settings_;
  std::vector<LoggedSet> sets_;
};

/// What a log says of a lifter. Made by StrengthModel::fit; every member may be called from any
/// thread. A copy costs nothing: copies share what was found.
///
/// Questions may be asked of any lift with the same base, in the log or not: where the log is
/// silent the catalogue's ranges answer. Any other lift is a DomainError.
class StrengthFit {
 public:
  /// The max on `lift` on a day of average form.
  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date date) const;

  /// The same fit, whose answers for days after the log are of a lifter who goes on training. As
  /// fitted they are of one who did nothing since: more than two weeks after the last set, or twice
  /// the log's usual gap, a day is one after a layoff (`StrengthPriors::layoff_loss`).
  [[nodiscard]] StrengthFit if_training_goes_on() const;

  /// The max on `lift` as a share of that on the reference lift, at the end of the log, once the
  /// lift is learnt.
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const;

  /// Reps beyond the first at the same share of the lift's own max, against the base curve.
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const;

  /// The change of the max a week, at the end of the log.
  [[nodiscard]] Change trend() const;

  /// The max on one day of the log.
  struct HistoryPoint {
    Date date;
    Estimate<Mass> max;
  };
  /// The max on `lift` on every day of the log, each by all sets before and after: for a chart.
  [[nodiscard]] std::vector<HistoryPoint> history(const Lift& lift) const;

  /// How much the max on `lift` changed between two days of the log, as a share: 0.03 is 3 % more.
  /// Practice on a lift marked new is not counted.
  ///
  /// From the first day of training on or after `from` to the last on or before `to`; nothing when
  /// those are not two days. What is common to both (the stretch, an old error of the ratio)
  /// cancels, so this is known better than the difference of two maxes.
  [[nodiscard]] std::optional<Change> gain(const Lift& lift, Date from, Date to) const;

  /// Did the reference lift rise while `lift` was trained? Its change from the first to the last
  /// day that `lift` is in the log; nothing when that is not two days.
  [[nodiscard]] std::optional<Change> carry_over(const Lift& lift) const;

  using Joint = StrengthJoint;  ///< what chances rest on
  /// For a simulation, or a question that has no function here. On a day of which the log has sets
  /// the form is what they say of it, and is part of the max.
  /// @param earlier_sets  work sets of this lift done before it on the day
  [[nodiscard]] Joint joint(const Lift& lift, Date date, int earlier_sets = 0) const;

  /// The probability that the last of `reps` at `load` does not go up: the error of the max, of the
  /// stretch and the form of the day are all in it. Where the log has sets of that day, the form is
  /// what they say of it; a miss counts at once.
  /// @param earlier_sets  work sets of this lift done before it on the day
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                         int earlier_sets = 0) const;

  /// The share of the max on `lift` that goes up for so many reps to failure, by the lifter's own
  /// curve.
  [[nodiscard]] double share_of_max(const Lift& lift, Date date, double reps) const;

  /// No load to show a lifter: this knows no introduction to a new lift, no layoff, no limit on the
  /// step from the last session and no stop. A lift never done, or not done for months, gets the
  /// load of one in full training. The planner starts from it.
  ///
  /// The load for `reps` with `left` in reserve, and no greater than the bound on the chance of
  /// missing allows.
  /// @throws DomainError unless the bound is above 0 and below 1.
  [[nodiscard]] BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left, Date date,
                                     RiskBound bound = {}) const;

  /// What became of each set, in the order they were added.
  [[nodiscard]] std::span<const SetReport> reports() const noexcept;

  /// Sets that the answers rest on.
  [[nodiscard]] int sets_used() const noexcept;

  /// Whether a log is still the one that was fitted: then it has the same (`checksum_of`).
  [[nodiscard]] LogChecksum log_checksum() const noexcept;

  /// Sets appended since the log was fitted (append_set.hpp).
  [[nodiscard]] int sets_appended() const noexcept;

  /// What each further work set of a lift on one day costs, as a share of the max.
  [[nodiscard]] Change set_loss() const;

  /// True less stated reserve, reps.
  struct RatingBias {
    double mean;
    double standard_deviation;
  };
  [[nodiscard]] RatingBias rating_bias() const;

  /// What was, or still is, to gain from practice on a lift marked new: its max when learnt over
  /// its max in the first session. Nothing for other lifts.
  [[nodiscard]] std::optional<Estimate<double>> learning_gain(const Lift& lift) const;

  [[nodiscard]] const StrengthSettings& settings() const noexcept;

  /// Copied also where it could be moved, as a fit is never empty.
  StrengthFit(const StrengthFit&) = default;
  StrengthFit& operator=(const StrengthFit&) = default;  ///< the same
  ~StrengthFit() = default;

 private:
  friend class StrengthModel;
  friend struct detail::FitAccess;
  explicit StrengthFit(std::shared_ptr<const detail::LogFit> of) : of_(std::move(of)) {}

  std::shared_ptr<const detail::LogFit> of_;
  bool trains_on_ = false;
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/strength_model.ipp"
#endif
