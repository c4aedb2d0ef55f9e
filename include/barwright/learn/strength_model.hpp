// barwright/learn/strength_model.hpp - what a training log says about a lifter, and how sure it is
//
// Every set is a small test. Repetitions to failure R on a load L, at a capacity c (the logarithm
// of the day's max on that lift), follow the repetition curve stretched by s:
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
// error of a rating carried over to z at the repetitions that were to be expected (never at those
// that were seen, whose error it shares). The stretches are found by maximising the likelihood of
// R, the filter's times the Jacobian |dz/dR|, with their priors; their covariance is the curvature
// there, and is carried into everything else. Loads are chosen and repetitions happen: hence R
// given L, not the other way round, which would bias the stretch. docs/strength-model.md has the
// assumptions, the priors with their evidence, and how well the intervals hold.
//
// The classes are templates on a number that is always double, so that a file pays the compiler for
// the fit only where it calls it. A program of many files that do pays once with
//
//     extern template class barwright::BasicStrengthModel<double>;
//     extern template class barwright::BasicStrengthFit<double>;
//
// behind the include of each, and the same without `extern` in one of its own.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <limits>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/core/short_list.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/learn/linear_gaussian.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/miss_risk.hpp"
#include "barwright/learn/model/observation.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "barwright/learn/model/strength_priors.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/learning_gain.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/stacking.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What a model is of.
struct StrengthSettings {
  Lift reference = lifts::bench_press;  ///< the lift without changes that ratios are against
  CurveTable curve = equations::wathen;
  Experience experience = Experience::experienced;
  std::vector<Lift> new_lifts{};  ///< lifts whose first set in the log was the lifter's first ever
  /// Whether a variation that the log does not have is new to the lifter, but for `known_lifts`.
  bool unlogged_is_new = false;
  std::vector<Lift> known_lifts{};  ///< done before the log began
  StrengthPriors priors{};
};

/// What became of one logged set.
struct SetReport {
  enum class Use : unsigned char {
    used,
    suspicious,       ///< fits too badly: left out; look for a typing error
    other_base_lift,  ///< not a variation of the reference lift: left out
    no_load,          ///< nothing on the bar: says nothing
  };
  Use use = Use::used;
  /// How many standard deviations the set lies from what all other sets predict, on the scale of
  /// the load: positive when more was lifted than they predict. 0 for sets that were not judged.
  double surprise = 0.0;
  /// The max on the reference lift times this is the max on this lift, by all sets; 1 where unused.
  double expected_ratio = 1.0;
  Mass expected_load{};  ///< the load that would have surprised nobody; zero where not judged
};

namespace detail {

inline constexpr double days_a_week = 7.0;

/// One set, made ready for the filter.
struct ModelSet {
  enum class Kind : unsigned char {
    rated,
    rated_none_left,  ///< nothing left, or less: the scale ends there
    rated_many_left,  ///< more than a rating counts
    missed,
    unrated,
  };
  std::size_t index = 0;  ///< in the order of adding
  std::size_t session = 0;
  std::size_t lift = 0;  ///< in the model's list of lifts
  double log_load = 0.0;
  double reps = 0.0;        ///< tried
  double to_failure = 0.0;  ///< as observed
  double deviation = 0.0;   ///< of to_failure, where it does not depend on the prediction
  double earlier_sets = 0.0;
  double learning = 0.0;  ///< how much of the learning gap is still open
  Kind kind = Kind::rated;
  bool is_first_news = false;  ///< nothing else says how much was left
  bool is_left_out = false;
};

/// What is asked of curves for few different repetitions many times, remembered at quarters of
/// them.
template <class Value>
class RememberedQuarters {
 public:
  /// What `compute()` gives, which is the same for the same repetitions.
  template <class Compute>
  [[nodiscard]] Value at(double reps, Compute compute) noexcept {
    const double quarter = 4.0 * reps;
    const auto i = quarter >= 0.0 && quarter < quarters ? static_cast<std::size_t>(quarter) : 0;
    if (static_cast<double>(i) != quarter) return compute();
    if (!is_known_[i]) {
      values_[i] = compute();
      is_known_[i] = true;
    }
    return values_[i];
  }

 private:
  static constexpr std::size_t quarters = 128;
  bool is_known_[quarters] = {};
  Value values_[quarters];
};
/// The curves of all lifts share their bend.
using RememberedBend = RememberedQuarters<ShapedCurve::Unbent>;

/// A lift's curve for one pass through a log, which asks it for the same repetitions, and for loads
/// close to each other, many times: it remembers its inverse at steps down the shares of the max,
/// between which it is a cubic.
class RememberedCurve {
 public:
  RememberedCurve(const ShapedCurve& curve, RememberedBend& bend) : curve_(curve), bend_(&bend) {}

  /// As ShapedCurve::at.
  [[nodiscard]] CurveTable::Point at(double reps) noexcept {
    return points_.at(reps, [&]() noexcept {
      return curve_.at(bend_->at(reps, [&]() noexcept { return curve_.unbend(reps); }));
    });
  }

  /// As ShapedCurve::place, to a few thousandths of a repetition.
  [[nodiscard]] ShapedCurve::Place place(double log_fraction) noexcept {
    const double below_top = (top - log_fraction) / step;
    if (!(below_top >= 0.0 && below_top < steps - 1)) return curve_.place(log_fraction);
    const auto i = static_cast<std::size_t>(below_top);
    const Knot& a = knot(i);
    const Knot& b = knot(i + 1);
    const Cubic cubic{a.reps, a.rise, b.reps, b.rise};
    const double t = below_top - static_cast<double>(i);
    const double rise = cubic.slope(t);
    if (!(rise > 0.0)) return curve_.place(log_fraction);
    return {cubic.value(t), -step / rise};
  }
  [[nodiscard]] double reps(double log_fraction) noexcept { return place(log_fraction).reps; }

 private:
  static constexpr std::size_t steps = 80;
  static constexpr double step = 1.0 / 32.0;  // of the logarithm of the share
  static constexpr double top = 0.40625;      // a whole number of steps above the max

  struct Knot {
    double reps = 0.0;
    double rise = 0.0;  // by step; 0 until asked for
  };
  [[nodiscard]] const Knot& knot(std::size_t i) noexcept {
    Knot& knot = knots_[i];
    if (knot.rise == 0.0) {
      const ShapedCurve::Place place = curve_.place(top - step * static_cast<double>(i));
      knot = {place.reps, -step / place.slope};
    }
    return knot;
  }

  ShapedCurve curve_;
  RememberedBend* bend_;
  RememberedQuarters<CurveTable::Point> points_;
  Knot knots_[steps];
};

/// One lift of the log.
struct ModelLift {
  Lift lift;
  std::vector<std::size_t> modifiers{};  ///< in the model's list
  Eigen::Index gap = -1;                 ///< state of the learning gap, or -1
};

}  // namespace detail

template <std::same_as<double> Scalar>
class BasicStrengthFit;
using StrengthFit = BasicStrengthFit<double>;

/// A lifter's log, and what it is a log of.
///
///     StrengthModel model({.reference = lifts::bench_press, .curve = equations::wathen});
///     for (const LoggedSet& set : log) model.add(set);
///     const StrengthFit fit = model.fit();
template <std::same_as<double> Scalar>
class BasicStrengthModel {
 public:
  /// @throws DomainError if the reference lift has modifiers or a prior is out of range.
  explicit BasicStrengthModel(StrengthSettings settings) : settings_(std::move(settings)) {
    if (!settings_.reference.is_plain()) {
      detail::fail(ErrorCode::does_not_apply, "the reference lift of a strength model",
                   "a base lift without modifiers", settings_.reference.name());
    }
    check_priors();
  }

  /// Adds one set; any order will do. Sets of one day count as done in the order they are added.
  void add(const LoggedSet& set) { sets_.push_back(set); }

  [[nodiscard]] std::span<const LoggedSet> sets() const noexcept { return sets_; }
  [[nodiscard]] const StrengthSettings& settings() const noexcept { return settings_; }

  /// What the sets so far say. With none, the answers are the priors.
  [[nodiscard]] BasicStrengthFit<Scalar> fit() const;

 private:
  void check_priors() const {
    const StrengthPriors& p = settings_.priors;
    const auto require_positive = [](const char* what, double value) {
      if (!(value > 0.0 && value < 1e6)) detail::fail(what, "a number above 0", value);
    };
    require_positive("the prior max, in kg", p.max.kg());
    require_positive("the deviation of the prior max", p.max_log_sd);
    require_positive("the deviation of the trend", p.trend_sd);
    require_positive("the weeks over which a trend is forgotten", p.trend_weeks);
    require_positive("the walk of the level", p.level_walk);
    require_positive("the deviation of the day's form", p.day_sd);
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
      detail::fail("the share of a learning gap kept", "a number from 0 to below 1",
                   p.learning_kept);
    }
    if (!detail::is_finite(p.rating_bias)) {
      detail::fail("the rating bias", "a finite number", p.rating_bias);
    }
    if (!detail::is_finite(p.set_loss)) {
      detail::fail("the loss with each set", "a finite number", p.set_loss);
    }
    detail::require_factor("a learning gain", p.learning_gain);
  }

  StrengthSettings settings_;
  std::vector<LoggedSet> sets_;
};
using StrengthModel = BasicStrengthModel<double>;

/// What a log says of a lifter. Made by StrengthModel::fit; every member may be called from any
/// thread.
///
/// Questions may be asked of any lift with the same base, in the log or not: where the log is
/// silent the catalogue's ranges answer. Any other lift is a DomainError.
template <std::same_as<double> Scalar>
class BasicStrengthFit {
 public:
  /// The max on `lift` on a day of average form.
  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date date) const {
    const Question question = ask(lift, date);
    const Capacity c = capacity(question, date, 0);
    return {c.mean, std::sqrt(c.variance)};
  }

  /// The max on `lift` as a share of that on the reference lift, at the end of the log, once the
  /// lift is learnt.
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const {
    const Question question = ask(lift);
    const Answer a = answer(marks_.back(), question.ratio);
    return {a.mean + question.prior_mean, std::sqrt(a.variance + question.prior_variance)};
  }

  /// Repetitions beyond the first at the same share of the lift's own max, against the base curve.
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const {
    const Question question = ask(lift);
    const Shape s = shape(question);
    return {s.mean, std::sqrt(s.variance)};
  }

  /// The change of the max a week, at the end of the log.
  [[nodiscard]] Change trend() const {
    const Answer a = answer(marks_.back(), {{trend_state, 1.0}});
    return {a.mean, std::sqrt(a.variance)};
  }

  /// The max on one day of the log.
  struct HistoryPoint {
    Date date;
    Estimate<Mass> max;
  };
  /// The max on `lift` on every day of the log, each by all sets before and after: for a chart.
  [[nodiscard]] std::vector<HistoryPoint> history(const Lift& lift) const {
    std::vector<HistoryPoint> points;
    if (!has_sets_) return points;
    points.reserve(marks_.size());
    for (const Mark& mark : marks_) points.push_back({mark.date, max(lift, mark.date)});
    return points;
  }

  /// How much the max on `lift` changed between two days of the log, as a share: 0.03 is 3 % more.
  /// Practice on a lift marked new is not counted.
  ///
  /// From the first day of training on or after `from` to the last on or before `to`; nothing when
  /// those are not two days. What is common to both (the stretch, an old error of the ratio)
  /// cancels, so this is known better than the difference of two maxes.
  [[nodiscard]] std::optional<Change> gain(const Lift& lift, Date from, Date to) const;

  /// Did the reference lift rise while `lift` was trained? Its change from the first to the last
  /// day that `lift` is in the log; nothing when that is not two days.
  [[nodiscard]] std::optional<Change> carry_over(const Lift& lift) const {
    std::optional<Date> first;
    std::optional<Date> last;
    for (const detail::ModelSet& set : sets_) {
      if (set.is_left_out || !lifts_[set.lift].lift.same_as(lift)) continue;
      const Date date = marks_[set.session].date;
      if (!first) first = date;
      last = date;
    }
    if (!first || *first == *last) return std::nullopt;
    return gain(settings_.reference, *first, *last);
  }

  using Joint = StrengthJoint;
  /// For a simulation, or a question that has no function here. On a day of which the log has sets
  /// the form is what they say of it, and is part of the max.
  /// @param earlier_sets  work sets of this lift done before it on the day
  [[nodiscard]] Joint joint(const Lift& lift, Date date, int earlier_sets = 0) const {
    detail::check_earlier_sets(earlier_sets);
    Question question = ask(lift, date);
    const Shape s = shape(question);
    const bool is_logged = std::binary_search(dates_.begin(), dates_.end(), date);
    if (is_logged) question.ratio.append({day_state, 1.0});
    const Capacity c = capacity(question, date, earlier_sets);
    const double c_and_stretch = c.by_shape.dot(s.with_shapes);
    const double c_and_bend = c.by_shape.dot(shape_covariance_.col(bend_shape));
    const double stretch_and_bend = s.with_shapes[bend_shape];
    return {
        .mean = {c.mean, s.mean, shapes_[bend_shape]},
        .covariance = {{c.variance, c_and_stretch, c_and_bend},
                       {c_and_stretch, s.variance, stretch_and_bend},
                       {c_and_bend, stretch_and_bend, shape_covariance_(bend_shape, bend_shape)}},
        .on_top = is_logged ? 0.0 : settings_.priors.day_sd};
  }

  /// The probability that the last of `reps` repetitions at `load` does not go up: the error of
  /// the max, of the stretch and the form of the day are all in it. Where the log has sets of that
  /// day, the form is what they say of it; a miss counts at once.
  /// @param earlier_sets  work sets of this lift done before it on the day
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                         int earlier_sets = 0) const {
    if (!(load > Mass{})) return 0.0;
    return risk(lift, reps, date, earlier_sets).chance_at(std::log(load.kg()));
  }

  /// The share of the max on `lift` that goes up for so many repetitions to failure, by the
  /// lifter's own curve.
  [[nodiscard]] double share_of_max(const Lift& lift, Date date, double reps) const {
    const Joint at = joint(lift, date);
    return std::exp(
        ShapedCurve(settings_.curve, std::exp(at.mean[1]), at.mean[2]).log_fraction(reps));
  }

  /// No load to show a lifter: this knows no introduction to a new lift, no layoff, no limit on the
  /// step from the last session and no stop. A lift never done, or not done for months, gets the
  /// load of one in full training. The planner starts from it.
  ///
  /// The load for `reps` repetitions with `left` in reserve, and no greater than the bound on the
  /// chance of missing allows.
  /// @throws DomainError unless the bound is above 0 and below 1.
  [[nodiscard]] BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left, Date date,
                                     RiskBound bound = {}) const;

  /// What became of each set, in the order they were added.
  [[nodiscard]] std::span<const SetReport> reports() const noexcept { return reports_; }

  /// Sets that the answers rest on.
  [[nodiscard]] int sets_used() const noexcept {
    return static_cast<int>(std::count_if(reports_.begin(), reports_.end(), [](const auto& r) {
      return r.use == SetReport::Use::used;
    }));
  }

  /// What each further work set of a lift on one day costs, as a share of the max.
  [[nodiscard]] Change set_loss() const {
    const Answer a = answer(marks_.back(), {{loss_state, 1.0}});
    return {a.mean, std::sqrt(a.variance)};
  }
  /// True less stated reserve, repetitions.
  struct RatingBias {
    double mean;
    double standard_deviation;
  };
  [[nodiscard]] RatingBias rating_bias() const {
    const Answer a = answer(marks_.back(), {{bias_state, 1.0}});
    return {usual_bias() + a.mean, std::sqrt(a.variance)};
  }
  /// What was, or still is, to gain from practice on a lift marked new: its max when learnt over
  /// its max in the first session. Nothing for other lifts.
  [[nodiscard]] std::optional<Estimate<double>> learning_gain(const Lift& lift) const {
    for (const detail::ModelLift& own : lifts_) {
      if (!own.lift.same_as(lift) || own.gap < 0) continue;
      const Answer a = answer(marks_.back(), {{own.gap, 1.0}});
      return Estimate<double>(a.mean, std::sqrt(a.variance));
    }
    return std::nullopt;
  }

  [[nodiscard]] const StrengthSettings& settings() const noexcept { return settings_; }

 private:
  friend class BasicStrengthModel<Scalar>;
  using Index = Eigen::Index;
  using Vector = Eigen::Matrix<Scalar, Eigen::Dynamic, 1>;
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  // Of run-time size. By way of Scalar, so that filters, too, wait until they are used.
  static constexpr int any_size = Matrix::RowsAtCompileTime;
  using Terms = ShortList<Term, 4 + 2 * Lift::most_modifiers>;

  // States, in the order of the filter: those that move come first. Then a ratio for each modifier
  // and a gap for each new lift.
  static constexpr Index level_state = 0;
  static constexpr Index trend_state = 1;
  static constexpr Index day_state = 2;
  static constexpr Index loss_state = 3;
  static constexpr Index bias_state = 4;
  static constexpr Index first_ratio_state = 5;

  // Shapes: the logarithm of the lifter's stretch, the bend, and the logarithm of the stretch of
  // each modifier.
  static constexpr Index stretch_shape = 0;
  static constexpr Index bend_shape = 1;
  static constexpr Index first_modifier_shape = 2;

  static constexpr double half_a_step = 0.25;  // ratings come in steps of one half

  explicit BasicStrengthFit(const StrengthSettings& settings) : settings_(settings) {}

  // ---- making it -------------------------------------------------------------------------------

  void prepare(std::span<const LoggedSet> log);
  void find_first_news();
  void count_earlier_sets();
  void screen();
  void set_ratio_priors(Mass best);
  void optimise();
  void carry_shapes_into_states();
  bool judge(bool may_change);

  /// What ratings leave unsaid before the log says more: beginners leave less (`rating_error`).
  [[nodiscard]] double usual_bias() const noexcept {
    const auto bias = [](Experience experience) { return rating_error(2.0, 7.0, experience).bias; };
    return settings_.priors.rating_bias + bias(settings_.experience) -
           bias(Experience::experienced);
  }

  [[nodiscard]] Index state_count() const noexcept {
    Index count = first_ratio_state + static_cast<Index>(modifiers_.size());
    for (const detail::ModelLift& lift : lifts_) count += lift.gap >= 0 ? 1 : 0;
    return count;
  }
  [[nodiscard]] Index shape_count() const noexcept {
    return first_modifier_shape + static_cast<Index>(modifiers_.size());
  }
  [[nodiscard]] Index ratio_state(std::size_t modifier) const noexcept {
    return first_ratio_state + static_cast<Index>(modifier);
  }

  /// @param extra  further states, at zero with no variance
  [[nodiscard]] KalmanFilter<any_size> prior_filter(Index extra = 0) const {
    const StrengthPriors& p = settings_.priors;
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
    for (std::size_t m = 0; m < modifiers_.size(); ++m) {
      set(ratio_state(m), ratio_priors_[m].mean, ratio_priors_[m].standard_deviation);
    }
    const LogMoments gap = log_moments(p.learning_gain);
    for (const detail::ModelLift& lift : lifts_) {
      if (lift.gap >= 0) set(lift.gap, gap.mean, gap.standard_deviation);
    }
    return KalmanFilter<any_size>::independent(mean, variance);
  }

  /// The coefficients of the trend's integrated Ornstein-Uhlenbeck motion over some weeks.
  struct Motion {
    double level_by_trend;  ///< what one unit of trend adds to the level
    double trend_kept;
    double trend_variance;
    double level_by_trend_noise;  ///< regression of the level's noise on the trend's
    double level_variance;        ///< what is left, the level's own walk included
  };
  [[nodiscard]] Motion motion(double weeks) const noexcept {
    const StrengthPriors& p = settings_.priors;
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

  /// Moves a filter or smoother over some weeks.
  template <class Filter>
  void advance(Filter& filter, double weeks) const {
    if (!(weeks > 0.0)) return;
    const Motion move = motion(weeks);
    filter.add_multiple(level_state, trend_state, move.level_by_trend);
    filter.scale(trend_state, move.trend_kept);
    filter.add_multiple(level_state, trend_state, -move.level_by_trend_noise);
    filter.add_noise(trend_state, move.trend_variance);
    filter.add_multiple(level_state, trend_state, move.level_by_trend_noise);
    filter.add_noise(level_state, move.level_variance);
    const double walk = settings_.priors.ratio_walk;
    for (std::size_t m = 0; m < modifiers_.size(); ++m) {
      filter.add_noise(ratio_state(m), walk * walk * weeks);
    }
  }

  /// How a set observes the states, without the bias of its rating.
  [[nodiscard]] Terms terms_of(const detail::ModelSet& set) const {
    Terms terms;
    terms.append({level_state, 1.0});
    terms.append({day_state, 1.0});
    if (set.earlier_sets > 0.0) terms.append({loss_state, -set.earlier_sets});
    const detail::ModelLift& lift = lifts_[set.lift];
    for (const std::size_t m : lift.modifiers) terms.append({ratio_state(m), 1.0});
    if (lift.gap >= 0 && set.learning > 0.0) terms.append({lift.gap, -set.learning});
    return terms;
  }

  /// The repetition curve of a lift under these shapes.
  [[nodiscard]] ShapedCurve curve_of(const detail::ModelLift& lift, const Vector& shapes) const {
    double log_stretch = shapes[stretch_shape];
    for (const std::size_t m : lift.modifiers) log_stretch += shapes[modifier_shape(m)];
    return ShapedCurve(settings_.curve, std::exp(log_stretch), shapes[bend_shape]);
  }
  /// Whether the log may mistake one shape for the other: but for two modifiers that are never done
  /// together, whose ratios are apart.
  [[nodiscard]] bool are_entangled(Index i, Index j) const noexcept {
    if (i < first_modifier_shape || j < first_modifier_shape) return true;
    return std::any_of(lifts_.begin(), lifts_.end(), [&](const detail::ModelLift& lift) {
      const auto has = [&](Index shape) {
        return std::any_of(lift.modifiers.begin(), lift.modifiers.end(),
                           [&](std::size_t m) { return modifier_shape(m) == shape; });
      };
      return has(i) && has(j);
    });
  }
  [[nodiscard]] static Index modifier_shape(std::size_t modifier) noexcept {
    return first_modifier_shape + static_cast<Index>(modifier);
  }

  /// Runs the log, from a session on, through a filter or smoother; calls
  /// `after_session(filter, session)` after each. Returns the log-likelihood of the repetitions.
  template <class Filter, class AfterSession>
  double run(Filter& filter, const Vector& shapes, AfterSession&& after_session,
             std::size_t first_session = 0) const {
    detail::RememberedBend bend;
    std::vector<detail::RememberedCurve> curves;
    curves.reserve(lifts_.size());
    for (const detail::ModelLift& lift : lifts_) curves.emplace_back(curve_of(lift, shapes), bend);
    const double day_variance = settings_.priors.day_sd * settings_.priors.day_sd;
    double log_likelihood = 0.0;
    auto next = static_cast<std::size_t>(std::partition_point(sets_.begin(), sets_.end(),
                                                              [&](const detail::ModelSet& set) {
                                                                return set.session < first_session;
                                                              }) -
                                         sets_.begin());
    for (std::size_t session = first_session; session < dates_.size(); ++session) {
      if (session > first_session) {
        advance(filter, (dates_[session] - dates_[session - 1]) / detail::days_a_week);
      }
      filter.renew(day_state, 0.0, day_variance);
      for (; next < sets_.size() && sets_[next].session == session; ++next) {
        const detail::ModelSet& set = sets_[next];
        if (set.is_left_out) continue;
        log_likelihood += learn_from(filter, set, curves[set.lift]);
      }
      after_session(filter, session);
    }
    return log_likelihood;
  }

  /// Takes one set into a filter or smoother; returns the log of its probability beforehand.
  template <class Filter>
  double learn_from(Filter& filter, const detail::ModelSet& set,
                    detail::RememberedCurve& curve) const {
    using Kind = detail::ModelSet::Kind;
    const StrengthPriors& p = settings_.priors;
    Terms terms = terms_of(set);
    double log_density = 0.0;
    const auto take = [&](const Evidence1D& evidence) {
      filter.update({terms.begin(), terms.size()}, evidence.value, evidence.variance);
      log_density += evidence.log_density;
    };
    // The capacity that `reps` repetitions take.
    const auto taken_by = [&](double reps) { return set.log_load - curve.at(reps).log_fraction; };
    double variance = 0.0;
    switch (set.kind) {
      case Kind::missed: {
        // It failed between the repetition before, if there was one, and this one.
        const Prediction now = predictive(filter, terms);
        take(set.reps > 1.0 ? evidence_between(now, taken_by(set.reps - 1.0), taken_by(set.reps))
                            : evidence_at_most(now, taken_by(1.0)));
        return log_density;
      }
      case Kind::unrated: {
        // That its repetitions went up is all it says, except where nothing else is known: there it
        // is taken to have had the usual reserve.
        const Prediction now = predictive(filter, terms);
        variance = now.variance;
        if (set.is_first_news) {
          take(evidence_of_rating(now,
                                  {.log_load = set.log_load,
                                   .done = set.reps,
                                   .to_failure = set.reps + p.unrated_reserve},
                                  curve, settings_.experience, p.unrated_reserve_sd));
        }
        break;
      }
      case Kind::rated:
      case Kind::rated_none_left:
      case Kind::rated_many_left: {
        const Terms without_bias = terms;
        const ExpectedReps expected = expected_reps(curve, set.log_load, mean_of(filter, terms));
        terms.append({bias_state, -expected.by_rep});
        const Prediction now = predictive(filter, terms);
        variance = now.variance;
        // A stranger's rating is taken as studies give its error, about what is stated, and not as
        // a light set badly rated, however likely the average lifter makes that; but no more
        // surely than with that chance in mind. Nothing left is then a rating like any other.
        const bool is_stranger = set.is_first_news && set.kind != Kind::rated_many_left;
        RatedSet rated{.log_load = set.log_load,
                       .done = set.reps,
                       .to_failure = set.to_failure,
                       .deviation = set.deviation};
        if (set.kind == Kind::rated_many_left) rated.says = RatedSet::Says::at_least;
        if (set.kind == Kind::rated_none_left) {
          if (is_stranger) {
            rated.to_failure -= half_a_step;
          } else {
            rated.says = RatedSet::Says::at_most;
          }
        }
        const CurveTable::Point seen = curve.at(rated.to_failure);
        const double stated = set.log_load - seen.log_fraction;
        Evidence1D evidence =
            detail::evidence_of_rating_seen_at(is_stranger ? Prediction{stated, now.variance} : now,
                                               rated, seen, curve, settings_.experience, 0.0);
        if (is_stranger) {
          const double off = evidence.value - stated;
          evidence.value = stated;
          evidence.variance += off * off;
          const double total = now.variance + evidence.variance;
          evidence.log_density = -0.5 * (stated - now.mean) * (stated - now.mean) / total -
                                 0.5 * std::log(total) - detail::log_root_two_pi;
        }
        take(evidence);
        terms = without_bias;
        break;
      }
    }
    // Its repetitions went up: the capacity was at least what that took. Left out where it is no
    // news.
    const double floor = taken_by(set.reps);
    constexpr double no_news = 4.0;
    if (mean_of(filter, terms) - floor < no_news * std::sqrt(variance)) {
      take(evidence_at_least(predictive(filter, terms), floor));
    }
    return log_density;
  }

  /// The filter inside a smoother, or the filter itself.
  [[nodiscard]] static const KalmanFilter<any_size>& filter_of(
      const KalmanFilter<any_size>& filter) noexcept {
    return filter;
  }
  [[nodiscard]] static const KalmanFilter<any_size>& filter_of(
      const KalmanSmoother<any_size>& smoother) noexcept {
    return smoother.filter();
  }
  template <class Filter>
  [[nodiscard]] static Prediction predictive(const Filter& filter, const Terms& terms) {
    const MeanAndVariance m = filter_of(filter).combination({terms.begin(), terms.size()});
    return {m.mean, m.variance};
  }
  template <class Filter>
  [[nodiscard]] static double mean_of(const Filter& filter, const Terms& terms) noexcept {
    double mean = 0.0;
    for (const Term& term : terms) mean += term.coefficient * filter_of(filter).mean()[term.state];
    return mean;
  }

  /// Of the shapes, by the sets from a session on.
  [[nodiscard]] double log_posterior(const Vector& shapes, std::size_t first_session) const {
    KalmanFilter<any_size> filter = prior_filter();
    double value = run(
        filter, shapes, [](const auto&, std::size_t) {}, first_session);
    for (Index i = 0; i < shapes.size(); ++i) {
      const LogMoments& prior = shape_priors_[static_cast<std::size_t>(i)];
      const double off = (shapes[i] - prior.mean) / prior.standard_deviation;
      value -= 0.5 * off * off;
    }
    return value;
  }

  // ---- asking it -------------------------------------------------------------------------------

  /// All that is known on one day of the log: states by all sets, and how they lean on the
  /// stretches.
  struct Mark {
    Date date;
    StateEstimate<any_size> state;
    Matrix by_shape;  ///< derivatives of the state means by the logarithms of the stretches
  };

  struct Answer {
    double mean;
    double variance;
    Vector by_shape;
  };
  [[nodiscard]] Answer answer(const Mark& mark, std::span<const Term> terms) const {
    const MeanAndVariance given = mark.state.combination(terms);
    Vector lean = Vector::Zero(shape_count());
    for (const Term& term : terms) lean += term.coefficient * mark.by_shape.row(term.state);
    // Evaluated first: g++ 12 warns of its own inlining where the product is left to `dot`.
    const double variance = given.variance + lean.dot((shape_covariance_ * lean).eval());
    return {given.mean, variance, std::move(lean)};
  }
  [[nodiscard]] Answer answer(const Mark& mark, std::initializer_list<Term> terms) const {
    return answer(mark, std::span<const Term>(terms.begin(), terms.size()));
  }
  [[nodiscard]] Answer answer(const Mark& mark, const Terms& terms) const {
    return answer(mark, std::span<const Term>(terms.begin(), terms.size()));
  }

  /// How a lift is asked about: the states and stretches it has in the model, and what the
  /// catalogue says of those it has not.
  struct Question {
    Terms ratio{};  ///< logarithm of the ratio
    double prior_mean = 0.0;
    double prior_variance = 0.0;
    ShortList<Index, 1 + Lift::most_modifiers> shapes{};
    double prior_shape_mean = 0.0;
    double prior_shape_variance = 0.0;
    std::size_t modifiers = 0;
  };
  /// @param next_session  its day, for as much as is learnt by then; else the lift as learnt
  [[nodiscard]] Question ask(const Lift& lift, std::optional<Date> next_session = {}) const {
    if (!lift.base().same_as(settings_.reference.base())) {
      detail::fail(ErrorCode::does_not_apply, "a lift asked of this model",
                   Text{}.append("a variation of the ").append(settings_.reference.name()),
                   lift.name());
    }
    Question question;
    question.shapes.append(stretch_shape);
    for (const Modifier& modifier : lift.modifiers()) {
      const auto known = find(modifier);
      if (known != modifiers_.end()) {
        const auto m = static_cast<std::size_t>(known - modifiers_.begin());
        question.ratio.append({ratio_state(m), 1.0});
        question.shapes.append(modifier_shape(m));
        ++question.modifiers;
      } else {
        const LogMoments ratio = log_moments(modifier.ratio(best_));
        const LogMoments shape = log_moments(modifier.rep_stretch().value);
        question.prior_mean += ratio.mean;
        question.prior_variance += ratio.standard_deviation * ratio.standard_deviation;
        question.prior_shape_mean += shape.mean;
        question.prior_shape_variance += shape.standard_deviation * shape.standard_deviation;
      }
    }
    if (next_session) add_learning(question, lift, *next_session);
    return question;
  }

  [[nodiscard]] std::vector<const Modifier*>::const_iterator find(
      const Modifier& modifier) const noexcept {
    return std::find_if(modifiers_.begin(), modifiers_.end(),
                        [&](const Modifier* known) { return known->same_as(modifier); });
  }

  [[nodiscard]] detail::MissRisk risk(const Lift& lift, Reps reps, Date date,
                                      int earlier_sets) const {
    return {joint(lift, date, earlier_sets), settings_.curve, reps};
  }

  /// What of the learning gap is still open on a day.
  void add_learning(Question& question, const Lift& lift, Date date) const {
    const bool is_new = lift.is_among(settings_.new_lifts);
    for (std::size_t i = 0; i < lifts_.size(); ++i) {
      if (!lifts_[i].lift.same_as(lift)) continue;
      if (!is_new) return;
      question.ratio.append({lifts_[i].gap, -learning_open(sessions_before(i, date))});
      return;
    }
    const bool is_unlogged = settings_.unlogged_is_new && !lift.is_plain();
    if (!is_new && (!is_unlogged || lift.is_among(settings_.known_lifts))) return;
    const LogMoments gap = log_moments(settings_.priors.learning_gain);
    question.prior_mean -= gap.mean;
    question.prior_variance += gap.standard_deviation * gap.standard_deviation;
  }
  [[nodiscard]] double learning_open(int earlier_sessions) const noexcept {
    return std::pow(settings_.priors.learning_kept, earlier_sessions);
  }
  [[nodiscard]] int sessions_before(std::size_t lift, Date date) const noexcept {
    int sessions = 0;
    std::size_t last = dates_.size();
    for (const detail::ModelSet& set : sets_) {
      if (set.lift != lift || set.session == last || !(dates_[set.session] < date)) continue;
      last = set.session;
      ++sessions;
    }
    return sessions;
  }

  /// The logarithm of a lift's stretch.
  struct Shape {
    double mean;
    double variance;
    Vector with_shapes;  ///< its covariance with each shape
  };
  [[nodiscard]] Shape shape(const Question& question) const {
    Vector parts = Vector::Zero(shape_count());
    for (const Index i : question.shapes) parts[i] = 1.0;
    Vector with_shapes = shape_covariance_ * parts;
    const double variance = parts.dot(with_shapes) + question.prior_shape_variance;
    return {parts.dot(shapes_) + question.prior_shape_mean, variance, std::move(with_shapes)};
  }

  /// The logarithm of the max on a lift on a day.
  struct Capacity {
    double mean;
    double variance;
    Vector by_shape;  ///< its derivatives by the shapes
  };
  [[nodiscard]] Capacity capacity(const Question& question, Date date, int earlier_sets) const {
    const auto at = [&](std::size_t i) {
      const double weeks = has_sets_ ? (date - marks_[i].date) / detail::days_a_week : 0.0;
      return capacity_from(marks_[i], weeks, question, earlier_sets);
    };
    // The first mark after the day, if any.
    const auto after = std::find_if(marks_.begin(), marks_.end(),
                                    [&](const Mark& mark) { return date < mark.date; });
    if (!has_sets_ || after == marks_.end()) return at(marks_.size() - 1);
    if (after == marks_.begin()) return at(0);
    const auto i = static_cast<std::size_t>(after - marks_.begin());
    if (marks_[i - 1].date == date) return at(i - 1);
    // Between two days of the log: from both, as a walk that is pinned at each.
    const double whole = marks_[i].date - marks_[i - 1].date;
    const double t = (date - marks_[i - 1].date) / whole;
    const Capacity a = capacity_from(marks_[i - 1], 0.0, question, earlier_sets);
    const Capacity b = capacity_from(marks_[i], 0.0, question, earlier_sets);
    const auto between = [t](const auto& x, const auto& y) { return (1.0 - t) * x + t * y; };
    const double walk =
        settings_.priors.level_walk * settings_.priors.level_walk * whole / detail::days_a_week;
    return {.mean = between(a.mean, b.mean),
            .variance = between(a.variance, b.variance) + walk * t * (1.0 - t),
            .by_shape = between(a.by_shape, b.by_shape)};
  }
  [[nodiscard]] Capacity capacity_from(const Mark& mark, double weeks, const Question& question,
                                       int earlier_sets) const {
    Terms terms = question.ratio;
    terms.append({level_state, 1.0});
    if (earlier_sets > 0) terms.append({loss_state, -static_cast<double>(earlier_sets)});
    double moved = 0.0;
    if (weeks != 0.0) {
      const Motion move = motion(std::fabs(weeks));
      const double trend = weeks > 0.0 ? move.level_by_trend : -move.level_by_trend;
      terms.append({trend_state, trend});
      const double walk = settings_.priors.ratio_walk;
      moved = move.level_variance +
              move.level_by_trend_noise * move.level_by_trend_noise * move.trend_variance +
              static_cast<double>(question.modifiers) * walk * walk * std::fabs(weeks);
    }
    Answer a = answer(mark, terms);
    return {.mean = a.mean + question.prior_mean,
            .variance = a.variance + question.prior_variance + moved,
            .by_shape = std::move(a.by_shape)};
  }

  StrengthSettings settings_;
  bool has_sets_ = false;
  Mass best_{};  ///< the reference max that strength-scaled ratios were taken at
  std::vector<const Modifier*> modifiers_;  // of the lifts in the log
  std::vector<detail::ModelLift> lifts_;
  std::vector<detail::ModelSet> sets_;  // by day, in the order of adding within one
  std::vector<Date> dates_;             // of the sessions
  std::vector<double> rough_levels_;    // by session
  std::vector<LogMoments> ratio_priors_;
  std::vector<LogMoments> shape_priors_;
  Vector shapes_;
  Matrix shape_covariance_;
  std::vector<Mark> marks_;
  std::vector<SetReport> reports_;
};

// ---- making a fit -------------------------------------------------------------------------------

template <std::same_as<double> Scalar>
void BasicStrengthFit<Scalar>::prepare(std::span<const LoggedSet> log) {
  using Kind = detail::ModelSet::Kind;
  const StrengthPriors& p = settings_.priors;
  reports_.assign(log.size(), {});
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < log.size(); ++i) {
    if (!log[i].lift.base().same_as(settings_.reference.base())) {
      reports_[i].use = SetReport::Use::other_base_lift;
    } else if (!(log[i].load > Mass{})) {
      reports_[i].use = SetReport::Use::no_load;
    } else {
      order.push_back(i);
    }
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return log[a].date < log[b].date; });

  for (const std::size_t i : order) {
    const LoggedSet& logged = log[i];
    if (dates_.empty() || dates_.back() < logged.date) dates_.push_back(logged.date);
    auto lift = std::find_if(lifts_.begin(), lifts_.end(),
                             [&](const auto& own) { return own.lift.same_as(logged.lift); });
    if (lift == lifts_.end()) {
      detail::ModelLift added{.lift = logged.lift};
      for (const Modifier& modifier : logged.lift.modifiers()) {
        auto known = find(modifier);
        if (known == modifiers_.end()) known = modifiers_.insert(known, &modifier);
        added.modifiers.push_back(static_cast<std::size_t>(known - modifiers_.begin()));
      }
      lift = lifts_.insert(lifts_.end(), std::move(added));
    }
    detail::ModelSet set;
    set.index = i;
    set.session = dates_.size() - 1;
    set.lift = static_cast<std::size_t>(lift - lifts_.begin());
    set.log_load = std::log(logged.load.kg());
    set.reps = logged.reps.count();
    if (logged.outcome == Outcome::missed) {
      // Somewhere between the repetition that went up and the one that did not.
      set.kind = Kind::missed;
      set.to_failure = set.reps - 0.5;
    } else if (logged.reserve) {
      const Range<RepsInReserve>& stated = *logged.reserve;
      set.to_failure = set.reps + stated.typical.count() + usual_bias();
      set.deviation = (stated.high.count() - stated.low.count()) / std::sqrt(12.0);
      if (stated.typical == RepsInReserve{}) {
        set.kind = Kind::rated_none_left;
        set.to_failure += half_a_step;
      } else if (stated.typical.count() > p.most_counted_reserve) {
        set.kind = Kind::rated_many_left;
        set.to_failure = set.reps + p.most_counted_reserve + half_a_step + usual_bias();
      }
    } else {
      set.kind = Kind::unrated;
      set.to_failure = set.reps;
    }
    sets_.push_back(set);
  }
  has_sets_ = !sets_.empty();

  Index state = first_ratio_state + static_cast<Index>(modifiers_.size());
  for (detail::ModelLift& lift : lifts_) {
    for (const Lift& is_new : settings_.new_lifts) {
      if (is_new.same_as(lift.lift) && lift.gap < 0) lift.gap = state++;
    }
  }
  count_earlier_sets();

  find_first_news();

  shape_priors_.assign({{0.0, p.stretch_log_sd}, {0.0, p.bend_sd}});
  for (const Modifier* modifier : modifiers_) {
    shape_priors_.push_back(log_moments(modifier->rep_stretch().value));
  }
}

/// The sets that the log begins with: the first whose reserve is known. Sets without a rating say
/// nothing of theirs beside it. Only where no set of the log has a rating, each session's best ones
/// are taken to have had the usual reserve; the lighter are warm-ups.
template <std::same_as<double> Scalar>
void BasicStrengthFit<Scalar>::find_first_news() {
  using Kind = detail::ModelSet::Kind;
  const auto first = std::find_if(sets_.begin(), sets_.end(), [](const detail::ModelSet& set) {
    return set.kind != Kind::unrated && set.kind != Kind::rated_many_left;
  });
  if (first != sets_.end()) {
    first->is_first_news = true;
    return;
  }
  constexpr double near_best = 0.1;  // of the logarithm of the max that a set implies
  const auto implied = [&](const detail::ModelSet& set) {
    return set.log_load - settings_.curve.log_fraction(set.reps + settings_.priors.unrated_reserve);
  };
  for (detail::ModelSet& set : sets_) {
    if (set.kind != Kind::unrated) continue;
    set.is_first_news =
        std::none_of(sets_.begin(), sets_.end(), [&](const detail::ModelSet& other) {
          return other.session == set.session && other.lift == set.lift &&
                 implied(other) > implied(set) + near_best;
        });
  }
}

/// Sets and sessions of the same lift before each one. Sets below two thirds of the heaviest that
/// fits are warm-ups and tire nobody.
template <std::same_as<double> Scalar>
void BasicStrengthFit<Scalar>::count_earlier_sets() {
  constexpr double work_set = 2.0 / 3.0;
  std::vector<int> sessions_of(lifts_.size(), 0);
  std::vector<int> sets_of(lifts_.size());
  std::vector<double> heaviest(lifts_.size());
  std::vector<bool> is_done(lifts_.size());
  for (std::size_t begin = 0; begin < sets_.size();) {
    std::size_t end = begin;
    std::fill(sets_of.begin(), sets_of.end(), 0);
    std::fill(heaviest.begin(), heaviest.end(), -1e9);
    std::fill(is_done.begin(), is_done.end(), false);
    for (; end < sets_.size() && sets_[end].session == sets_[begin].session; ++end) {
      const detail::ModelSet& set = sets_[end];
      is_done[set.lift] = true;
      if (!set.is_left_out) heaviest[set.lift] = std::max(heaviest[set.lift], set.log_load);
    }
    for (std::size_t i = begin; i < end; ++i) {
      detail::ModelSet& set = sets_[i];
      set.earlier_sets = sets_of[set.lift];
      set.learning = learning_open(sessions_of[set.lift]);
      if (set.log_load > heaviest[set.lift] + std::log(work_set)) ++sets_of[set.lift];
    }
    for (std::size_t l = 0; l < lifts_.size(); ++l) sessions_of[l] += is_done[l] ? 1 : 0;
    begin = end;
  }
}

template <std::same_as<double> Scalar>
void BasicStrengthFit<Scalar>::set_ratio_priors(Mass best) {
  best_ = best;
  ratio_priors_.clear();
  for (const Modifier* modifier : modifiers_) {
    ratio_priors_.push_back(log_moments(modifier->ratio(best)));
  }
}

/// A robust first look: the level near each session as the median of what the sets around it imply,
/// and sets that lie a factor of 1.5 from it left out until the model can judge them.
template <std::same_as<double> Scalar>
void BasicStrengthFit<Scalar>::screen() {
  constexpr std::size_t neighbours = 12;  // sets either side
  constexpr double far_off = 0.4;
  using Kind = detail::ModelSet::Kind;
  const auto is_counted = [](const detail::ModelSet& set) {
    return set.kind != Kind::unrated && set.kind != Kind::rated_many_left;
  };
  const LogMoments gap = log_moments(settings_.priors.learning_gain);
  std::vector<double> level(sets_.size());
  for (std::size_t i = 0; i < sets_.size(); ++i) {
    const detail::ModelSet& set = sets_[i];
    const double reps =
        set.to_failure + (set.kind == Kind::unrated ? settings_.priors.unrated_reserve : 0.0);
    level[i] = set.log_load - settings_.curve.log_fraction(reps) +
               settings_.priors.set_loss * set.earlier_sets;
    for (const std::size_t m : lifts_[set.lift].modifiers) level[i] -= ratio_priors_[m].mean;
    if (lifts_[set.lift].gap >= 0) level[i] += set.learning * gap.mean;
  }
  std::vector<double> near;
  rough_levels_.assign(dates_.size(), 0.0);
  const auto middle_of = [&](std::size_t i, bool only_counted) {
    near.clear();
    const std::size_t from = i > neighbours ? i - neighbours : 0;
    const std::size_t to = std::min(i + neighbours + 1, sets_.size());
    for (std::size_t j = from; j < to; ++j) {
      if (!only_counted || is_counted(sets_[j])) near.push_back(level[j]);
    }
    if (near.empty()) return false;
    // Of an even number the lower: where as many sets say one thing as another, the lighter holds.
    const auto middle = near.begin() + static_cast<std::ptrdiff_t>((near.size() - 1) / 2);
    std::nth_element(near.begin(), middle, near.end());
    rough_levels_[sets_[i].session] = *middle;
    return true;
  };
  for (std::size_t i = 0; i < sets_.size(); ++i) {
    if (i > 0 && sets_[i].session == sets_[i - 1].session) continue;
    if (!middle_of(i, true)) middle_of(i, false);
  }
  for (std::size_t i = 0; i < sets_.size(); ++i) {
    const double off = level[i] - rough_levels_[sets_[i].session];
    const bool is_low_bound = !is_counted(sets_[i]) && off < 0.0;
    sets_[i].is_left_out = std::fabs(off) > far_off && !is_low_bound;
  }
  count_earlier_sets();
}

/// Finds the shapes: a quasi-Newton climb of their log posterior and one step of Newton's method at
/// the top, derivatives by differences, in units of the prior deviations; then mean and covariance
/// instead of peak and curvature.
template <std::same_as<double> Scalar>
void BasicStrengthFit<Scalar>::optimise() {
  const Index n = shape_count();
  Vector centre(n);
  Vector unit(n);
  for (Index i = 0; i < n; ++i) {
    centre[i] = shape_priors_[static_cast<std::size_t>(i)].mean;
    unit[i] = shape_priors_[static_cast<std::size_t>(i)].standard_deviation;
  }
  std::size_t first_session = 0;
  const auto value_at = [&](const Vector& x) {
    return log_posterior(centre + unit.cwiseProduct(x), first_session);
  };
  Vector x = (shapes_ - centre).cwiseQuotient(unit);
  double here = 0.0;
  Vector up(n);
  Vector down(n);
  Vector gradient(n);
  Vector curvatures(n);                 // along each shape
  Vector h = Vector::Constant(n, 0.4);  // of the differences
  const auto moved = [&](Index i, double a, Index j, double b) {
    Vector there = x;
    there[i] += a;
    there[j] += b;
    return value_at(there);
  };
  const auto find_gradient = [&] {
    for (Index i = 0; i < n; ++i) {
      up[i] = moved(i, h[i], i, 0.0);
      down[i] = moved(i, -h[i], i, 0.0);
      gradient[i] = (up[i] - down[i]) / (2.0 * h[i]);
      curvatures[i] = -(up[i] - 2.0 * here + down[i]) / (h[i] * h[i]);
    }
  };
  Matrix inverse = Matrix::Zero(n, n);  // of the curvature, kept up to date by each step (BFGS)
  // Wide differences: the log posterior of a long log is not smooth on a smaller scale.
  const auto suit_differences = [&] {
    for (Index i = 0; i < n; ++i) h[i] = std::clamp(0.8 * std::sqrt(inverse(i, i)), 1e-3, 0.4);
  };
  const auto climb = [&] {
    constexpr int most_steps = 30;
    for (int step_number = 0; step_number < most_steps; ++step_number) {
      Vector step = inverse * gradient;
      constexpr double close_enough = 0.1;  // in the log posterior; a last step follows below
      if (0.5 * gradient.dot(step) < close_enough) return;
      const double longest = step.cwiseAbs().maxCoeff();
      if (longest > 1.5) step *= 1.5 / longest;
      double there = value_at(x + step);
      for (int halving = 0; halving < 8 && !(there > here); ++halving) {
        step *= 0.5;
        there = value_at(x + step);
      }
      if (!(there > here)) return;
      x += step;
      here = there;
      suit_differences();
      Vector change = gradient;
      find_gradient();
      change -= gradient;
      const double along = step.dot(change);
      if (along > 1e-8) {
        const Vector moved_by = inverse * change;
        inverse += ((along + change.dot(moved_by)) / (along * along)) * (step * step.transpose()) -
                   (moved_by * step.transpose() + step * moved_by.transpose()) / along;
      }
    }
  };

  // The shapes of a long log are nearly those of its end, which costs less to climb.
  constexpr std::size_t end_of_log = 600;  // sets
  if (sets_.size() > 2 * end_of_log) first_session = sets_[sets_.size() - end_of_log].session;
  here = value_at(x);
  find_gradient();
  for (Index i = 0; i < n; ++i) inverse(i, i) = 1.0 / std::fmax(curvatures[i], 1.0);
  climb();
  if (first_session > 0) {
    first_session = 0;
    inverse *= static_cast<double>(end_of_log) / static_cast<double>(sets_.size());
    suit_differences();
    here = value_at(x);
    find_gradient();
    climb();
  }

  // The curvature there. Where the log posterior is not hollow enough, more of the prior is added.
  Matrix hollow(n, n);
  for (Index i = 0; i < n; ++i) {
    hollow(i, i) = curvatures[i];
    for (Index j = 0; j < i; ++j) {
      if (!are_entangled(i, j)) {
        hollow(i, j) = hollow(j, i) = 0.0;
        continue;
      }
      const double same = moved(i, h[i], j, h[j]) + moved(i, -h[i], j, -h[j]);
      const double mixed = same - up[i] - up[j] - down[i] - down[j] + 2.0 * here;
      hollow(i, j) = hollow(j, i) = -mixed / (2.0 * h[i] * h[j]);
    }
  }
  const Matrix identity = Matrix::Identity(n, n);
  constexpr double least = 0.3;  // no shape is known much less than before the first set
  double ridge = 0.0;
  while (Eigen::LLT<Matrix>(hollow + (ridge - least) * identity).info() != Eigen::Success &&
         ridge < 1e9) {
    ridge = std::max(4.0 * ridge, 0.25);
  }
  const Eigen::LLT<Matrix> curvature(hollow + ridge * identity);
  Vector last_step = curvature.solve(gradient);
  const double too_long = last_step.cwiseAbs().maxCoeff() / 0.5;
  if (too_long > 1.0) last_step /= too_long;
  x += last_step;
  here = value_at(x);

  // The posterior leans to one side where the log says little. Along each axis of the covariance
  // three points give its mean and spread (Gauss-Hermite, weighted by how the posterior differs
  // from the normal there).
  Matrix axes = curvature.matrixU().solve(identity);
  constexpr double root_3 = 1.7320508075688772;
  Vector mean = Vector::Zero(n);
  for (Index i = 0; i < n; ++i) {
    const auto weight_at = [&](double place) {
      const double excess = value_at(x + place * axes.col(i)) - here + 0.5 * place * place;
      return std::exp(std::clamp(excess, -2.0, 2.0)) / 6.0;
    };
    const double above = weight_at(root_3);
    const double below = weight_at(-root_3);
    const double total = above + below + 2.0 / 3.0;
    const double shift = root_3 * (above - below) / total;
    mean += shift * axes.col(i);
    axes.col(i) *= std::sqrt(3.0 * (above + below) / total - shift * shift);
  }
  shapes_ = centre + unit.cwiseProduct(x + mean);
  axes = unit.asDiagonal() * axes;
  shape_covariance_ = axes * axes.transpose();
}

/// The states on every day of the log by all sets, and how they move with the stretches.
template <std::same_as<double> Scalar>
void BasicStrengthFit<Scalar>::carry_shapes_into_states() {
  const auto smoothed = [&](const Vector& shapes) {
    KalmanSmoother<any_size> smoother(prior_filter());
    run(smoother, shapes, [](KalmanSmoother<any_size>& s, std::size_t) { s.mark(); });
    if (dates_.empty()) smoother.mark();
    return smoother.smooth();
  };
  const std::vector<StateEstimate<any_size>> here = smoothed(shapes_);
  marks_.clear();
  for (std::size_t i = 0; i < here.size(); ++i) {
    const Date date = dates_.empty() ? Date(1970, 1, 1) : dates_[i];
    marks_.push_back({date, here[i], Matrix::Zero(state_count(), shape_count())});
  }
  if (dates_.empty()) return;
  for (Index j = 0; j < shape_count(); ++j) {
    const double h = 0.5 * std::sqrt(shape_covariance_(j, j));
    Vector moved = shapes_;
    moved[j] += h;
    const auto up = smoothed(moved);
    moved[j] -= 2.0 * h;
    const auto down = smoothed(moved);
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      marks_[i].by_shape.col(j) = (up[i].mean - down[i].mean) / (2.0 * h);
    }
  }
}

/// How well each set fits what all others say; leaves out those that do not, if it may. True when
/// that changed.
template <std::same_as<double> Scalar>
bool BasicStrengthFit<Scalar>::judge(bool may_change) {
  using Kind = detail::ModelSet::Kind;
  bool has_changed = false;
  for (detail::ModelSet& set : sets_) {
    const Mark& mark = marks_[set.session];
    const ShapedCurve curve = curve_of(lifts_[set.lift], shapes_);
    Terms terms = terms_of(set);
    const Answer plain = answer(mark, terms);

    // What the set says: the capacity lay between `low` and `high`, give or take `error`.
    constexpr double unbounded = std::numeric_limits<double>::infinity();
    double low = set.log_load - curve.log_fraction(set.reps);
    double high = unbounded;
    double error = 0.01;
    Answer all = plain;
    if (set.kind == Kind::missed) {
      high = low;
      low = set.reps > 1.0 ? set.log_load - curve.log_fraction(set.reps - 1.0) : -unbounded;
    } else if (set.kind != Kind::unrated) {
      const ExpectedReps expected = expected_reps(curve, set.log_load, plain.mean);
      const double z = set.log_load - curve.log_fraction(set.to_failure);
      const double rating =
          rating_error(expected.to_failure - set.reps, expected.to_failure, settings_.experience)
              .standard_deviation;
      constexpr double most_error = 0.12;  // light sets are rated badly, but a slip is worse
      error = std::clamp(expected.by_rep * std::hypot(rating, set.deviation), error, most_error);
      terms.append({bias_state, -std::fmin(expected.by_rep, most_error)});
      all = answer(mark, terms);
      if (set.kind != Kind::rated_none_left) low = z;
      if (set.kind != Kind::rated_many_left) high = z;
      if (set.kind == Kind::rated_none_left) low = std::fmin(low, high);
    }
    // Without the set itself: one that was used has pulled the estimate towards itself.
    const MeanAndVariance given = mark.state.combination({terms.begin(), terms.size()});
    const double own = error * error;
    const double kept = set.is_left_out ? 1.0 : std::fmax(1.0 - given.variance / own, 0.2);
    double off = all.mean < low ? low - all.mean : all.mean > high ? high - all.mean : 0.0;
    off /= kept;
    const double others = all.variance - given.variance + given.variance / kept;

    SetReport& report = reports_[set.index];
    report.surprise = off / std::sqrt(own + others);
    report.expected_load = detail::from_number<Mass>(std::exp(set.log_load - off));
    double log_ratio = 0.0;
    for (const std::size_t m : lifts_[set.lift].modifiers) {
      log_ratio += mark.state.mean[ratio_state(m)];
    }
    report.expected_ratio = std::exp(log_ratio);
    // A set once left out must fit clearly better to come back, or it would come and go.
    const double limit = settings_.priors.most_surprise * (set.is_left_out ? 0.8 : 1.0);
    const bool is_suspicious = may_change ? std::fabs(report.surprise) > limit : set.is_left_out;
    report.use = is_suspicious ? SetReport::Use::suspicious : SetReport::Use::used;
    has_changed = has_changed || is_suspicious != set.is_left_out;
    set.is_left_out = is_suspicious;
  }
  if (has_changed) count_earlier_sets();
  return has_changed;
}

template <std::same_as<double> Scalar>
BasicStrengthFit<Scalar> BasicStrengthModel<Scalar>::fit() const {
  using Vector = Eigen::Matrix<Scalar, Eigen::Dynamic, 1>;
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  BasicStrengthFit<Scalar> fit(settings_);
  fit.prepare(sets_);
  fit.set_ratio_priors(settings_.priors.max);
  fit.shapes_ = Vector::Zero(fit.shape_count());
  for (Eigen::Index i = 0; i < fit.shape_count(); ++i) {
    fit.shapes_[i] = fit.shape_priors_[static_cast<std::size_t>(i)].mean;
  }
  fit.shape_covariance_ = Matrix::Zero(fit.shape_count(), fit.shape_count());
  for (Eigen::Index i = 0; i < fit.shape_count(); ++i) {
    const double sd = fit.shape_priors_[static_cast<std::size_t>(i)].standard_deviation;
    fit.shape_covariance_(i, i) = sd * sd;
  }
  if (!fit.has_sets_) {
    fit.carry_shapes_into_states();
    return fit;
  }
  fit.screen();
  // Ratios that depend on strength are taken at the level that the log itself shows.
  const auto level_shown = [&] {
    return Mass::from_kg(std::clamp(std::exp(fit.rough_levels_.back()), 1.0, 1000.0));
  };
  fit.set_ratio_priors(level_shown());
  fit.screen();
  constexpr int most_rounds = 5;
  for (int round = 0; round < most_rounds; ++round) {
    fit.optimise();
    fit.carry_shapes_into_states();
    if (!fit.judge(true)) return fit;
  }
  // Sets still come and go: they stay as they were left, and all answers are of that log.
  fit.optimise();
  fit.carry_shapes_into_states();
  (void)fit.judge(false);
  return fit;
}

// ---- asking a fit -------------------------------------------------------------------------------

template <std::same_as<double> Scalar>
BoundedLoad BasicStrengthFit<Scalar>::load_for(const Lift& lift, Reps reps, RepsInReserve left,
                                               Date date, RiskBound bound) const {
  return detail::bounded_load(joint(lift, date, bound.earlier_sets), settings_.curve, reps, left,
                              bound.max_chance_of_missing);
}

template <std::same_as<double> Scalar>
std::optional<Change> BasicStrengthFit<Scalar>::gain(const Lift& lift, Date from, Date to) const {
  const Question question = ask(lift);
  const auto begin = std::lower_bound(dates_.begin(), dates_.end(), from);
  const auto end = std::upper_bound(dates_.begin(), dates_.end(), to);
  if (end - begin < 2) return std::nullopt;
  const auto first = static_cast<std::size_t>(begin - dates_.begin());
  const auto last = static_cast<std::size_t>(end - dates_.begin()) - 1;
  // A further state takes the difference: less the capacity on the first day, plus that on the
  // last.
  const Index difference = state_count();
  const auto filtered = [&](const Vector& shapes) {
    KalmanFilter<any_size> filter = prior_filter(1);
    run(filter, shapes, [&](KalmanFilter<any_size>& f, std::size_t session) {
      if (session != first && session != last) return;
      const double sign = session == first ? -1.0 : 1.0;
      f.add_multiple(difference, level_state, sign);
      for (const Term& term : question.ratio) f.add_multiple(difference, term.state, sign);
    });
    return filter.combination({{difference, 1.0}});
  };
  const MeanAndVariance given = filtered(shapes_);
  Vector lean(shape_count());
  for (Index j = 0; j < shape_count(); ++j) {
    const double h = 0.5 * std::sqrt(shape_covariance_(j, j));
    Vector moved = shapes_;
    moved[j] += h;
    lean[j] = filtered(moved).mean;
    moved[j] -= 2.0 * h;
    lean[j] = (lean[j] - filtered(moved).mean) / (2.0 * h);
  }
  return Change(given.mean,
                std::sqrt(given.variance + lean.dot((shape_covariance_ * lean).eval())));
}

}  // namespace barwright::inline BARWRIGHT_ABI
