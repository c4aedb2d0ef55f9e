// barwright/strength_model.hpp - what a training log says about a lifter, and how sure it is
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
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "barwright/catalogue.hpp"
#include "barwright/curve_table.hpp"
#include "barwright/date.hpp"
#include "barwright/effort.hpp"
#include "barwright/equations.hpp"
#include "barwright/error.hpp"
#include "barwright/estimate.hpp"
#include "barwright/linear_gaussian.hpp"
#include "barwright/logged_set.hpp"
#include "barwright/normal.hpp"
#include "barwright/rep_curve.hpp"
#include "barwright/set_evidence.hpp"
#include "barwright/units.hpp"
#include "barwright/variation.hpp"

namespace barwright::inline v0 {

/// What is believed before the first set. All of it can be replaced; ratios and stretches of
/// modifiers come from the modifiers themselves. Shares are of the max, so 0.01 is 1 %.
struct StrengthPriors {
  /// The max on the reference lift: median and the standard deviation of its logarithm. Wide: a
  /// single set outweighs it.
  Mass max = Mass::from_kg(80.0);
  double max_log_sd = 0.6;

  /// The trend: standard deviation of the change a week, and the weeks over which it is forgotten.
  double trend_sd = 0.004;
  double trend_weeks = 26.0;
  /// How far the level wanders beside its trend, in the square root of a week.
  double level_walk = 0.006;
  /// The form of the day, the same for all lifts of one day. Retests of a max vary by 4.2 % in the
  /// median study, 3 % for each of two days (Grgic et al. 2020, abstract read).
  double day_sd = 0.025;
  /// Lost with each earlier work set of the lift on that day.
  double set_loss = 0.012;
  double set_loss_sd = 0.008;
  /// How far the ratio of a modifier wanders, in the square root of a week.
  double ratio_walk = 0.003;

  /// The lifter's own stretch of the curve: standard deviation of its logarithm. Between-person
  /// variation of repetitions at one share of the max is 9 to 33 % (bench press, 14 men; abstract
  /// read).
  double stretch_log_sd = 0.20;

  /// What a rating leaves unsaid (true less stated reserve), repetitions.
  double rating_bias = 0.5;
  double rating_bias_sd = 0.5;
  /// A set without a rating is taken to have had about this many left.
  double unrated_reserve = 2.5;
  double unrated_reserve_sd = 2.0;
  /// Ratings above this say "at least so many", no more.
  double most_counted_reserve = 5.0;

  /// A lift marked new has this much to gain from practice alone, and keeps this share of the rest
  /// from one session to the next: most of it is gone after three or four.
  Range<double> learning_gain = barwright::learning_gain.value;
  double learning_kept = 0.5;

  /// A set that fits worse than this many standard deviations is named suspicious and left out.
  double most_surprise = 4.5;
};

/// What a model is of.
struct StrengthSettings {
  Lift reference = lifts::bench_press;  ///< the lift without changes that ratios are against
  CurveTable curve = equations::wathen;
  Experience experience = Experience::experienced;
  std::vector<Lift> new_lifts{};  ///< lifts whose first set in the log was the lifter's first ever
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

/// A load chosen under a bound on the chance of missing.
struct BoundedLoad {
  Mass load{};
  double chance_of_missing = 0.0;  ///< of the last repetition, at that load
  bool is_bounded = false;         ///< the bound, not the reserve asked for, decided
};

/// What bounds a load.
struct RiskBound {
  double max_chance_of_missing = 0.05;
  int earlier_sets = 0;  ///< work sets of this lift done before it on the day
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
  bool is_left_out = false;
};

/// One lift of the log.
struct ModelLift {
  Lift lift;
  std::vector<std::size_t> modifiers{};  ///< in the model's list
  Eigen::Index gap = -1;                 ///< state of the learning gap, or -1
};

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
  explicit StrengthModel(StrengthSettings settings) : settings_(std::move(settings)) {
    if (!settings_.reference.is_plain()) {
      detail::fail("the reference lift of a strength model", "a base lift without modifiers",
                   settings_.reference.name().view());
    }
    check_priors();
  }

  /// Adds one set; any order will do. Sets of one day count as done in the order they are added.
  void add(const LoggedSet& set) { sets_.push_back(set); }

  [[nodiscard]] std::span<const LoggedSet> sets() const noexcept { return sets_; }
  [[nodiscard]] const StrengthSettings& settings() const noexcept { return settings_; }

  /// What the sets so far say. With none, the answers are the priors.
  [[nodiscard]] StrengthFit fit() const;

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

/// What a log says of a lifter. Made by StrengthModel::fit; every member may be called from any
/// thread.
///
/// Questions may be asked of any lift with the same base, in the log or not: where the log is
/// silent the catalogue's ranges answer. Any other lift is a DomainError.
class StrengthFit {
 public:
  /// The max on `lift` on a day of average form.
  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date date) const {
    const Capacity c = capacity(lift, date, 0);
    return {c.mean, std::sqrt(c.variance)};
  }

  /// The max on `lift` as a share of that on the reference lift, at the end of the log, once the
  /// lift is learnt.
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const {
    const Question question = ask(lift, Moment::learnt);
    const Answer a = answer(marks_.back(), question.ratio);
    return {a.mean + question.prior_mean, std::sqrt(a.variance + question.prior_variance)};
  }

  /// Repetitions beyond the first at the same share of the lift's own max, against the base curve.
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const {
    const Question question = ask(lift, Moment::learnt);
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
      if (set.is_left_out || !(lifts_[set.lift].lift == lift)) continue;
      const Date date = marks_[set.session].date;
      if (!first) first = date;
      last = date;
    }
    if (!first || *first == *last) return std::nullopt;
    return gain(settings_.reference, *first, *last);
  }

  /// The probability that the last of `reps` repetitions at `load` does not go up, on a day of
  /// which nothing is known: the error of the max, of the stretch and the form of the day are all
  /// in it.
  /// @param earlier_sets  work sets of this lift done before it on the day
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                         int earlier_sets = 0) const {
    if (!(load > Mass{})) return 0.0;
    return Risk(*this, lift, reps, date, earlier_sets).at(std::log(load.kg())).chance;
  }

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
    return {settings_.priors.rating_bias + a.mean, std::sqrt(a.variance)};
  }
  /// What was, or still is, to gain from practice on a lift marked new: its max when learnt over
  /// its max in the first session. Nothing for other lifts.
  [[nodiscard]] std::optional<Estimate<double>> learning_gain(const Lift& lift) const {
    for (const detail::ModelLift& own : lifts_) {
      if (!(own.lift == lift) || own.gap < 0) continue;
      const Answer a = answer(marks_.back(), {{own.gap, 1.0}});
      return Estimate<double>(a.mean, std::sqrt(a.variance));
    }
    return std::nullopt;
  }

  [[nodiscard]] const StrengthSettings& settings() const noexcept { return settings_; }

 private:
  friend class StrengthModel;
  using Index = Eigen::Index;
  using Vector = Eigen::VectorXd;
  using Matrix = Eigen::MatrixXd;
  using Terms = ShortList<Term, 4 + 2 * Lift::most_modifiers>;

  // States, in the order of the filter: those that move come first. Then a ratio for each modifier
  // and a gap for each new lift.
  static constexpr Index level_state = 0;
  static constexpr Index trend_state = 1;
  static constexpr Index day_state = 2;
  static constexpr Index loss_state = 3;
  static constexpr Index bias_state = 4;
  static constexpr Index first_ratio_state = 5;

  explicit StrengthFit(const StrengthSettings& settings) : settings_(settings) {}

  // ---- making it -------------------------------------------------------------------------------

  void prepare(std::span<const LoggedSet> log);
  void screen();
  void set_ratio_priors(Mass best);
  void optimise();
  void carry_stretch_into_states();
  bool judge();

  [[nodiscard]] Index state_count() const noexcept {
    Index count = first_ratio_state + static_cast<Index>(modifiers_.size());
    for (const detail::ModelLift& lift : lifts_) count += lift.gap >= 0 ? 1 : 0;
    return count;
  }
  [[nodiscard]] Index shape_count() const noexcept {
    return 1 + static_cast<Index>(modifiers_.size());
  }
  [[nodiscard]] Index ratio_state(std::size_t modifier) const noexcept {
    return first_ratio_state + static_cast<Index>(modifier);
  }

  /// @param extra  further states, at zero with no variance
  [[nodiscard]] KalmanFilter<> prior_filter(Index extra = 0) const {
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
    return KalmanFilter<>::independent(mean, variance);
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

  /// The stretch of a lift, from the logarithms of the stretches of lifter and modifiers.
  [[nodiscard]] double stretch_of(const detail::ModelLift& lift,
                                  const Vector& log_stretches) const {
    double sum = log_stretches[0];
    for (const std::size_t m : lift.modifiers) sum += log_stretches[1 + static_cast<Index>(m)];
    return std::exp(sum);
  }

  /// What one set says: z and its error, given the capacity that was to be expected.
  enum class Says : unsigned char { this_much, at_most, at_least };
  struct Observation {
    double z;
    double variance;
    double by_bias;       ///< dz per repetition of rating bias
    double log_jacobian;  ///< log dz/dR at what was observed
    Says says;
  };
  /// @param is_known  whether anything but the prior stands behind the expectation
  [[nodiscard]] Observation observe(const detail::ModelSet& set, double stretch,
                                    const MeanAndVariance& expected, bool is_known) const noexcept {
    using Kind = detail::ModelSet::Kind;
    const CurveTable& curve = settings_.curve;
    const StrengthPriors& p = settings_.priors;
    const auto place = [&](double reps) noexcept { return 1.0 + (reps - 1.0) / stretch; };
    const bool is_rated = set.kind != Kind::missed && set.kind != Kind::unrated;
    const bool is_guessed = set.kind == Kind::unrated && !is_known;

    // Without a rating a set says that its repetitions went up, and no more; only where nothing
    // else is known is it taken to have had the usual reserve.
    const double observed_reps = set.to_failure + (is_guessed ? p.unrated_reserve : 0.0);
    const CurveTable::Point seen = curve.at(place(observed_reps));
    const double z = set.log_load - seen.log_fraction;

    constexpr double least = 0.002;
    constexpr double most = 0.12;
    double by_rep = 0.0;
    double variance = 0.0;
    double correction = 0.0;
    const auto add = [&](double at, double weight) {
      double deviation = is_guessed ? p.unrated_reserve_sd : set.deviation;
      if (is_rated) {
        deviation = std::hypot(
            deviation, rating_error(at - set.reps, at, settings_.experience).standard_deviation);
      }
      const double slope = std::fmin(-curve.at(place(at)).slope / stretch, most);
      // The bend of the curve over the error moves the mean of z; differences over one repetition.
      const double bend =
          (-curve.at(place(at + 1.0)).slope + curve.at(place(at - 1.0)).slope) / (2.0 * stretch);
      const double error = std::clamp(slope * deviation, least, most);
      by_rep += weight * slope;
      variance += weight * error * error;
      correction +=
          weight * std::clamp(0.5 * bend * deviation * deviation, -0.5 * error, 0.5 * error);
    };
    if (set.kind == Kind::missed) {
      add(observed_reps, 1.0);
    } else {
      const double spread = std::sqrt(3.0 * expected.variance);
      for (const auto& [off, weight] : {std::pair{-spread, 1.0 / 6.0}, std::pair{0.0, 2.0 / 3.0},
                                        std::pair{spread, 1.0 / 6.0}}) {
        const double u = curve.reps(set.log_load - expected.mean - off);
        add(1.0 + stretch * (u - 1.0), weight);
      }
    }
    const Says says = set.kind == Kind::rated_none_left          ? Says::at_most
                      : set.kind == Kind::rated_many_left        ? Says::at_least
                      : set.kind == Kind::unrated && !is_guessed ? Says::at_least
                                                                 : Says::this_much;
    return {.z = z - correction,
            .variance = variance,
            .by_bias = is_rated ? by_rep : 0.0,
            .log_jacobian = std::log(-seen.slope / stretch),
            .says = says};
  }

  /// Runs the log through a filter or smoother; calls `after_session(filter, session)` after each.
  /// Returns the log-likelihood of the repetitions.
  template <class Filter, class AfterSession>
  double run(Filter& filter, const Vector& log_stretches, AfterSession&& after_session) const {
    std::vector<double> stretches(lifts_.size());
    for (std::size_t i = 0; i < lifts_.size(); ++i) {
      stretches[i] = stretch_of(lifts_[i], log_stretches);
    }
    const double day_variance = settings_.priors.day_sd * settings_.priors.day_sd;
    double log_likelihood = 0.0;
    std::size_t next = 0;
    for (std::size_t session = 0; session < dates_.size(); ++session) {
      if (session > 0) {
        advance(filter, (dates_[session] - dates_[session - 1]) / detail::days_a_week);
      }
      filter.renew(day_state, 0.0, day_variance);
      for (; next < sets_.size() && sets_[next].session == session; ++next) {
        const detail::ModelSet& set = sets_[next];
        if (set.is_left_out) continue;
        log_likelihood += learn_from(filter, set, stretches[set.lift]);
      }
      after_session(filter, session);
    }
    return log_likelihood;
  }

  /// Takes one set into a filter or smoother; returns the log of its probability beforehand.
  template <class Filter>
  double learn_from(Filter& filter, const detail::ModelSet& set, double stretch) const {
    using Kind = detail::ModelSet::Kind;
    const StrengthPriors& p = settings_.priors;
    const CurveTable& curve = settings_.curve;
    Terms terms = terms_of(set);
    double log_density = 0.0;
    const auto take = [&](const Evidence1D& evidence) {
      filter.update({terms.begin(), terms.size()}, evidence.value, evidence.variance);
      log_density += evidence.log_density;
    };
    // The capacity that `reps` repetitions take.
    const auto taken_by = [&](double reps) {
      return set.log_load - curve.log_fraction(1.0 + (reps - 1.0) / stretch);
    };
    Prediction now = predictive(filter, terms);
    switch (set.kind) {
      case Kind::missed:
        // It failed between the repetition before, if there was one, and this one.
        take(set.reps > 1.0 ? evidence_between(now, taken_by(set.reps - 1.0), taken_by(set.reps))
                            : evidence_at_most(now, taken_by(1.0)));
        return log_density;
      case Kind::unrated: {
        // That its repetitions went up is all it says, except where nothing else is known: there it
        // is taken to have had the usual reserve.
        constexpr double unknown = 0.10;
        if (now.variance > unknown * unknown) {
          take(evidence_of_rating(now,
                                  {.log_load = set.log_load,
                                   .done = set.reps,
                                   .to_failure = set.reps + p.unrated_reserve},
                                  curve, stretch, settings_.experience, p.unrated_reserve_sd));
        }
        break;
      }
      case Kind::rated:
      case Kind::rated_none_left:
      case Kind::rated_many_left: {
        const std::size_t without_bias = terms.size();
        Terms with_bias = terms;
        const double by_rep = expected_reps(curve, stretch, set.log_load, now.mean).by_rep;
        with_bias.append({bias_state, -by_rep});
        std::swap(terms, with_bias);
        take(evidence_of_rating(
            predictive(filter, terms),
            {.log_load = set.log_load,
             .done = set.reps,
             .to_failure = set.to_failure,
             .deviation = set.deviation,
             .says = set.kind == Kind::rated             ? RatedSet::Says::this_many
                     : set.kind == Kind::rated_none_left ? RatedSet::Says::at_most
                                                         : RatedSet::Says::at_least},
            curve, stretch, settings_.experience));
        std::swap(terms, with_bias);
        static_cast<void>(without_bias);
        break;
      }
    }
    // Its repetitions went up: the capacity was at least what that took. Left out where it is no
    // news.
    now = predictive(filter, terms);
    const double floor = taken_by(set.reps);
    constexpr double no_news = 4.0;
    if (now.mean - floor < no_news * std::sqrt(now.variance)) take(evidence_at_least(now, floor));
    return log_density;
  }

  template <class Filter>
  [[nodiscard]] static Prediction predictive(const Filter& filter, const Terms& terms) {
    const std::span<const Term> span(terms.begin(), terms.size());
    MeanAndVariance combination;
    if constexpr (requires { filter.filter(); }) {
      combination = filter.filter().combination(span);
    } else {
      combination = filter.combination(span);
    }
    return {combination.mean, combination.variance};
  }

  [[nodiscard]] double log_posterior(const Vector& log_stretches) const {
    KalmanFilter<> filter = prior_filter();
    double value = run(filter, log_stretches, [](const auto&, std::size_t) {});
    for (Index i = 0; i < log_stretches.size(); ++i) {
      const LogMoments& prior = stretch_priors_[static_cast<std::size_t>(i)];
      const double off = (log_stretches[i] - prior.mean) / prior.standard_deviation;
      value -= 0.5 * off * off;
    }
    return value;
  }

  // ---- asking it -------------------------------------------------------------------------------

  /// All that is known on one day of the log: states by all sets, and how they lean on the
  /// stretches.
  struct Mark {
    Date date;
    StateEstimate<Eigen::Dynamic> state;
    Matrix by_stretch;  ///< derivatives of the state means by the logarithms of the stretches
  };

  struct Answer {
    double mean;
    double variance;
    Vector by_stretch;
  };
  [[nodiscard]] Answer answer(const Mark& mark, std::span<const Term> terms) const {
    const MeanAndVariance given = mark.state.combination(terms);
    Vector lean = Vector::Zero(shape_count());
    for (const Term& term : terms) lean += term.coefficient * mark.by_stretch.row(term.state);
    const double variance = given.variance + lean.dot(stretch_covariance_ * lean);
    return {given.mean, variance, std::move(lean)};
  }
  [[nodiscard]] Answer answer(const Mark& mark, std::initializer_list<Term> terms) const {
    return answer(mark, std::span<const Term>(terms.begin(), terms.size()));
  }
  [[nodiscard]] Answer answer(const Mark& mark, const Terms& terms) const {
    return answer(mark, std::span<const Term>(terms.begin(), terms.size()));
  }

  enum class Moment : unsigned char { learnt, next_session };

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
  [[nodiscard]] Question ask(const Lift& lift, Moment moment, std::optional<Date> date = {}) const {
    if (!(lift.base() == settings_.reference.base())) {
      detail::fail("a lift asked of this model",
                   Text{}.append("a variation of the ").append(settings_.reference.name()).view(),
                   lift.name().view());
    }
    Question question;
    question.shapes.append(0);
    for (const Modifier& modifier : lift.modifiers()) {
      const auto known = std::find(modifiers_.begin(), modifiers_.end(), modifier);
      if (known != modifiers_.end()) {
        const auto m = static_cast<std::size_t>(known - modifiers_.begin());
        question.ratio.append({ratio_state(m), 1.0});
        question.shapes.append(1 + static_cast<Index>(m));
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
    if (moment == Moment::next_session && date) add_learning(question, lift, *date);
    return question;
  }

  /// What of the learning gap is still open on a day.
  void add_learning(Question& question, const Lift& lift, Date date) const {
    for (const Lift& is_new : settings_.new_lifts) {
      if (!(is_new == lift)) continue;
      for (std::size_t i = 0; i < lifts_.size(); ++i) {
        if (!(lifts_[i].lift == lift)) continue;
        const double open = learning_open(sessions_before(i, date));
        question.ratio.append({lifts_[i].gap, -open});
        return;
      }
      const LogMoments gap = log_moments(settings_.priors.learning_gain);
      question.prior_mean -= gap.mean;
      question.prior_variance += gap.standard_deviation * gap.standard_deviation;
      return;
    }
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

  struct Shape {
    double mean;
    double variance;
    Vector direction;
  };
  [[nodiscard]] Shape shape(const Question& question) const {
    Vector direction = Vector::Zero(shape_count());
    for (const Index i : question.shapes) direction[i] = 1.0;
    return {direction.dot(log_stretches_) + question.prior_shape_mean,
            direction.dot(stretch_covariance_ * direction) + question.prior_shape_variance,
            direction};
  }

  /// The logarithm of the max on a lift on a day, jointly with the logarithm of its stretch.
  struct Capacity {
    double mean;
    double variance;
    double shape_mean;
    double shape_variance;
    double covariance;
  };
  [[nodiscard]] Capacity capacity(const Lift& lift, Date date, int earlier_sets) const {
    const Question question = ask(lift, Moment::next_session, date);
    const Shape s = shape(question);
    const auto at = [&](std::size_t i) {
      const double weeks = has_sets_ ? (date - marks_[i].date) / detail::days_a_week : 0.0;
      return capacity_from(marks_[i], weeks, question, s, earlier_sets);
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
    const Capacity a = capacity_from(marks_[i - 1], 0.0, question, s, earlier_sets);
    const Capacity b = capacity_from(marks_[i], 0.0, question, s, earlier_sets);
    const auto between = [t](double x, double y) { return x + t * (y - x); };
    const double walk =
        settings_.priors.level_walk * settings_.priors.level_walk * whole / detail::days_a_week;
    return {.mean = between(a.mean, b.mean),
            .variance = between(a.variance, b.variance) + walk * t * (1.0 - t),
            .shape_mean = s.mean,
            .shape_variance = s.variance,
            .covariance = between(a.covariance, b.covariance)};
  }
  [[nodiscard]] Capacity capacity_from(const Mark& mark, double weeks, const Question& question,
                                       const Shape& s, int earlier_sets) const {
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
    const Answer a = answer(mark, terms);
    return {.mean = a.mean + question.prior_mean,
            .variance = a.variance + question.prior_variance + moved,
            .shape_mean = s.mean,
            .shape_variance = s.variance,
            .covariance = a.by_stretch.dot(stretch_covariance_ * s.direction)};
  }

  /// The chance of missing as a function of the load: a normal integral over the stretch, by
  /// Gauss-Hermite quadrature.
  class Risk {
   public:
    Risk(const StrengthFit& fit, const Lift& lift, Reps reps, Date date, int earlier_sets) {
      if (!(earlier_sets >= 0)) {
        detail::fail("earlier sets", "0 or more", static_cast<double>(earlier_sets));
      }
      const Capacity c = fit.capacity(lift, date, earlier_sets);
      const double day = fit.settings_.priors.day_sd;
      const double shape_sd = std::sqrt(c.shape_variance);
      const double by_shape = c.shape_variance > 0.0 ? c.covariance / c.shape_variance : 0.0;
      const double rest = c.variance - by_shape * c.covariance;
      deviation_ = std::sqrt((rest > 0.0 ? rest : 0.0) + day * day);
      for (std::size_t i = 0; i < node_count; ++i) {
        const double off = shape_sd * nodes[i];
        const double stretch = std::exp(c.shape_mean + off);
        const double log_fraction =
            fit.settings_.curve.log_fraction(1.0 + (reps.count() - 1.0) / stretch);
        heaviest_[i] = c.mean + by_shape * off + log_fraction;
      }
    }

    struct Value {
      double chance;
      double density;  ///< derivative of the chance by the logarithm of the load
    };
    [[nodiscard]] Value at(double log_load) const noexcept {
      Value value{0.0, 0.0};
      for (std::size_t i = 0; i < node_count; ++i) {
        const double x = (log_load - heaviest_[i]) / deviation_;
        value.chance += weights[i] * normal_cdf(x);
        value.density += weights[i] * normal_pdf(x) / deviation_;
      }
      return value;
    }

    /// The load, as a logarithm, at which the chance is `target`.
    [[nodiscard]] double solve(double target) const noexcept {
      double low = heaviest_[0];
      double high = heaviest_[0];
      for (const double h : heaviest_) {
        low = std::fmin(low, h);
        high = std::fmax(high, h);
      }
      const double z = normal_quantile(target);
      low += deviation_ * z;
      high += deviation_ * z;
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
    // Nodes and weights for the integral of f(x) exp(-x^2/2) / sqrt(2 pi): 15-point Gauss-Hermite.
    static constexpr std::size_t node_count = 15;
    static constexpr double nodes[node_count] = {
        -6.3639478888298386, -5.1900935913047812, -4.1962077112690155, -3.2890824243987664,
        -2.4324368270097581, -1.6067100690287297, -0.799129068324548,  0.0,
        0.799129068324548,   1.6067100690287297,  2.4324368270097581,  3.2890824243987664,
        4.1962077112690155,  5.1900935913047812,  6.3639478888298386};
    static constexpr double weights[node_count] = {
        8.5896498996332705e-10, 5.9754195979206046e-07, 5.642146405189017e-05,
        0.0015673575035499562,  0.017365774492137605,   0.089417795399844402,
        0.23246229360973222,    0.31825951825951826,    0.23246229360973222,
        0.089417795399844402,   0.017365774492137605,   0.0015673575035499562,
        5.642146405189017e-05,  5.9754195979206046e-07, 8.5896498996332705e-10};

    double deviation_ = 0.0;
    double heaviest_[node_count] = {};  ///< log of the load that would just go up, by stretch
  };

  StrengthSettings settings_;
  bool has_sets_ = false;
  Mass best_{};  ///< the reference max that strength-scaled ratios were taken at
  std::vector<Modifier> modifiers_;
  std::vector<detail::ModelLift> lifts_;
  std::vector<detail::ModelSet> sets_;  // by day, in the order of adding within one
  std::vector<Date> dates_;             // of the sessions
  std::vector<double> rough_levels_;    // by session
  std::vector<LogMoments> ratio_priors_;
  std::vector<LogMoments> stretch_priors_;
  Vector log_stretches_;
  Matrix stretch_covariance_;
  std::vector<Mark> marks_;
  std::vector<SetReport> reports_;
};

// ---- making a fit -------------------------------------------------------------------------------

inline void StrengthFit::prepare(std::span<const LoggedSet> log) {
  using Kind = detail::ModelSet::Kind;
  constexpr double half_a_step = 0.25;  // ratings come in steps of one half
  const StrengthPriors& p = settings_.priors;
  reports_.assign(log.size(), {});
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < log.size(); ++i) {
    if (!(log[i].lift.base() == settings_.reference.base())) {
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
                             [&](const auto& own) { return own.lift == logged.lift; });
    if (lift == lifts_.end()) {
      detail::ModelLift added{.lift = logged.lift};
      for (const Modifier& modifier : logged.lift.modifiers()) {
        auto known = std::find(modifiers_.begin(), modifiers_.end(), modifier);
        if (known == modifiers_.end()) known = modifiers_.insert(modifiers_.end(), modifier);
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
      set.deviation = std::sqrt(1.0 / 12.0);
    } else if (logged.reserve) {
      const Range<RepsInReserve>& stated = *logged.reserve;
      set.to_failure = set.reps + stated.typical.count() + p.rating_bias;
      set.deviation = (stated.high.count() - stated.low.count()) / std::sqrt(12.0);
      if (stated.typical == RepsInReserve{}) {
        set.kind = Kind::rated_none_left;
        set.to_failure += half_a_step;
      } else if (stated.typical.count() > p.most_counted_reserve) {
        set.kind = Kind::rated_many_left;
        set.to_failure = set.reps + p.most_counted_reserve + half_a_step + p.rating_bias;
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
      if (is_new == lift.lift && lift.gap < 0) lift.gap = state++;
    }
  }
  // Sets and sessions of the same lift before this one. Sets below two thirds of the heaviest are
  // warm-ups and tire nobody.
  constexpr double work_set = 2.0 / 3.0;
  std::vector<int> sessions_of(lifts_.size(), 0);
  std::vector<int> sets_of(lifts_.size(), 0);
  std::vector<double> heaviest(lifts_.size(), 0.0);
  for (std::size_t begin = 0; begin < sets_.size();) {
    std::size_t end = begin;
    std::fill(sets_of.begin(), sets_of.end(), 0);
    std::fill(heaviest.begin(), heaviest.end(), -1e9);
    while (end < sets_.size() && sets_[end].session == sets_[begin].session) {
      heaviest[sets_[end].lift] = std::fmax(heaviest[sets_[end].lift], sets_[end].log_load);
      ++end;
    }
    for (std::size_t i = begin; i < end; ++i) {
      detail::ModelSet& set = sets_[i];
      set.earlier_sets = sets_of[set.lift];
      set.learning = learning_open(sessions_of[set.lift]);
      if (set.log_load > heaviest[set.lift] + std::log(work_set)) ++sets_of[set.lift];
    }
    for (std::size_t l = 0; l < lifts_.size(); ++l) sessions_of[l] += heaviest[l] > -1e9 ? 1 : 0;
    begin = end;
  }

  stretch_priors_.assign(1, {0.0, p.stretch_log_sd});
  for (const Modifier& modifier : modifiers_) {
    stretch_priors_.push_back(log_moments(modifier.rep_stretch().value));
  }
}

inline void StrengthFit::set_ratio_priors(Mass best) {
  best_ = best;
  ratio_priors_.clear();
  for (const Modifier& modifier : modifiers_) {
    ratio_priors_.push_back(log_moments(modifier.ratio(best)));
  }
}

/// A robust first look: the level near each session as the median of what the sets around it imply,
/// and sets that lie a factor of 1.5 from it left out until the model can judge them.
inline void StrengthFit::screen() {
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
    const auto middle = near.begin() + static_cast<std::ptrdiff_t>(near.size() / 2);
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
}

/// Newton's method on the log posterior of the stretches, derivatives by differences.
inline void StrengthFit::optimise() {
  const Index n = shape_count();
  constexpr double h = 0.02;
  Vector gradient(n);
  Matrix curvature(n, n);
  double here = log_posterior(log_stretches_);
  const auto at = [&](Index i, double a, Index j, double b) {
    Vector moved = log_stretches_;
    moved[i] += a;
    moved[j] += b;
    return log_posterior(moved);
  };
  const auto differentiate = [&] {
    Vector up(n);
    Vector down(n);
    for (Index i = 0; i < n; ++i) {
      up[i] = at(i, h, i, 0.0);
      down[i] = at(i, -h, i, 0.0);
      gradient[i] = (up[i] - down[i]) / (2.0 * h);
      curvature(i, i) = -(up[i] - 2.0 * here + down[i]) / (h * h);
    }
    for (Index i = 0; i < n; ++i) {
      for (Index j = 0; j < i; ++j) {
        const double both = at(i, h, j, h);
        const double neither = at(i, -h, j, -h);
        const double mixed = both + neither - up[i] - up[j] - down[i] - down[j] + 2.0 * here;
        curvature(i, j) = curvature(j, i) = -mixed / (2.0 * h * h);
      }
    }
  };
  // Where the log says little the posterior is the prior; never let the curvature fall below half
  // of the prior's, nor a step be greater than half a prior deviation.
  const auto solve = [&]() {
    Matrix precision = 0.5 * (curvature + curvature.transpose());
    Eigen::LLT<Matrix> llt(precision);
    double ridge = 0.0;
    while (llt.info() != Eigen::Success && ridge < 1e6) {
      ridge = ridge == 0.0 ? 1.0 : 4.0 * ridge;
      precision = 0.5 * (curvature + curvature.transpose());
      precision.diagonal().array() += ridge;
      llt.compute(precision);
    }
    return llt;
  };
  for (int round = 0; round < 12; ++round) {
    differentiate();
    const Eigen::LLT<Matrix> llt = solve();
    Vector step = llt.solve(gradient);
    const double length = step.cwiseAbs().maxCoeff();
    stretch_covariance_ = llt.solve(Matrix::Identity(n, n));
    const double expected_rise = 0.5 * gradient.dot(step);
    if (expected_rise < 1e-4) break;
    if (length > 0.2) step *= 0.2 / length;
    const Vector before = log_stretches_;
    bool has_risen = false;
    for (int halving = 0; halving < 6 && !has_risen; ++halving) {
      log_stretches_ = before + step;
      const double there = log_posterior(log_stretches_);
      if (there > here) {
        here = there;
        has_risen = true;
      } else {
        step *= 0.5;
      }
    }
    if (!has_risen) {
      log_stretches_ = before;
      break;
    }
  }
}

/// The states on every day of the log by all sets, and how they move with the stretches.
inline void StrengthFit::carry_stretch_into_states() {
  const auto smoothed = [&](const Vector& log_stretches) {
    KalmanSmoother<> smoother(prior_filter());
    run(smoother, log_stretches, [](KalmanSmoother<>& s, std::size_t) { s.mark(); });
    if (dates_.empty()) smoother.mark();
    return smoother.smooth();
  };
  constexpr double h = 0.02;
  const std::vector<StateEstimate<Eigen::Dynamic>> here = smoothed(log_stretches_);
  marks_.clear();
  for (std::size_t i = 0; i < here.size(); ++i) {
    const Date date = dates_.empty() ? Date(1970, 1, 1) : dates_[i];
    marks_.push_back({date, here[i], Matrix::Zero(state_count(), shape_count())});
  }
  if (dates_.empty()) return;
  for (Index j = 0; j < shape_count(); ++j) {
    Vector moved = log_stretches_;
    moved[j] += h;
    const auto up = smoothed(moved);
    moved[j] -= 2.0 * h;
    const auto down = smoothed(moved);
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      marks_[i].by_stretch.col(j) = (up[i].mean - down[i].mean) / (2.0 * h);
    }
  }
}

/// How well each set fits what all others say; leaves out those that do not. True when that
/// changed.
inline bool StrengthFit::judge() {
  bool has_changed = false;
  for (detail::ModelSet& set : sets_) {
    const Mark& mark = marks_[set.session];
    Terms terms = terms_of(set);
    const MeanAndVariance expected = mark.state.combination({terms.begin(), terms.size()});
    const double stretch = stretch_of(lifts_[set.lift], log_stretches_);
    const Observation seen = observe(set, stretch, expected, true);
    if (seen.by_bias > 0.0) terms.append({bias_state, -seen.by_bias});
    const Answer all = answer(mark, terms);
    // Without the set itself: one that was used has pulled the estimate towards itself, and given
    // the stretches the two errors differ by just that.
    const double pulled =
        seen.variance - mark.state.combination({terms.begin(), terms.size()}).variance;
    const double rest =
        set.is_left_out ? seen.variance + all.variance : std::fmax(pulled, 0.04 * seen.variance);
    SetReport& report = reports_[set.index];
    // A bound surprises on one side only.
    double off = seen.z - all.mean;
    if (seen.says == Says::at_most && off > 0.0) off = 0.0;
    if (seen.says == Says::at_least && off < 0.0) off = 0.0;
    report.surprise = off / std::sqrt(rest);
    report.expected_load = detail::from_number<Mass>(std::exp(set.log_load - off));
    double log_ratio = 0.0;
    for (const std::size_t m : lifts_[set.lift].modifiers) {
      log_ratio += mark.state.mean[ratio_state(m)];
    }
    report.expected_ratio = std::exp(log_ratio);
    const bool is_suspicious = std::fabs(report.surprise) > settings_.priors.most_surprise;
    report.use = is_suspicious ? SetReport::Use::suspicious : SetReport::Use::used;
    has_changed = has_changed || is_suspicious != set.is_left_out;
    set.is_left_out = is_suspicious;
  }
  return has_changed;
}

inline StrengthFit StrengthModel::fit() const {
  StrengthFit fit(settings_);
  fit.prepare(sets_);
  fit.set_ratio_priors(settings_.priors.max);
  fit.log_stretches_ = Eigen::VectorXd::Zero(fit.shape_count());
  for (Eigen::Index i = 0; i < fit.shape_count(); ++i) {
    fit.log_stretches_[i] = fit.stretch_priors_[static_cast<std::size_t>(i)].mean;
  }
  fit.stretch_covariance_ = Eigen::MatrixXd::Zero(fit.shape_count(), fit.shape_count());
  for (Eigen::Index i = 0; i < fit.shape_count(); ++i) {
    const double sd = fit.stretch_priors_[static_cast<std::size_t>(i)].standard_deviation;
    fit.stretch_covariance_(i, i) = sd * sd;
  }
  if (!fit.has_sets_) {
    fit.carry_stretch_into_states();
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
    fit.carry_stretch_into_states();
    if (!fit.judge()) break;
  }
  return fit;
}

// ---- asking a fit -------------------------------------------------------------------------------

inline BoundedLoad StrengthFit::load_for(const Lift& lift, Reps reps, RepsInReserve left, Date date,
                                         RiskBound bound) const {
  const double target = bound.max_chance_of_missing;
  if (!(target > 0.0 && target < 1.0)) {
    detail::fail("a bound on the chance of missing", "a number above 0 and below 1", target);
  }
  const Risk risk(*this, lift, reps, date, bound.earlier_sets);
  const Capacity c = capacity(lift, date, bound.earlier_sets);
  const double stretch = std::exp(c.shape_mean);
  const double wanted =
      c.mean + settings_.curve.log_fraction(1.0 + (reps_to_failure(reps, left) - 1.0) / stretch);
  const double allowed = risk.solve(target);
  const bool is_bounded = allowed < wanted;
  const double log_load = is_bounded ? allowed : wanted;
  return {.load = detail::from_number<Mass>(std::exp(log_load)),
          .chance_of_missing = risk.at(log_load).chance,
          .is_bounded = is_bounded};
}

inline std::optional<Change> StrengthFit::gain(const Lift& lift, Date from, Date to) const {
  const Question question = ask(lift, Moment::learnt);
  const auto begin = std::lower_bound(dates_.begin(), dates_.end(), from);
  const auto end = std::upper_bound(dates_.begin(), dates_.end(), to);
  if (end - begin < 2) return std::nullopt;
  const auto first = static_cast<std::size_t>(begin - dates_.begin());
  const auto last = static_cast<std::size_t>(end - dates_.begin()) - 1;
  // A further state takes the difference: less the capacity on the first day, plus that on the
  // last.
  const Index difference = state_count();
  const auto filtered = [&](const Vector& log_stretches) {
    KalmanFilter<> filter = prior_filter(1);
    run(filter, log_stretches, [&](KalmanFilter<>& f, std::size_t session) {
      if (session != first && session != last) return;
      const double sign = session == first ? -1.0 : 1.0;
      f.add_multiple(difference, level_state, sign);
      for (const Term& term : question.ratio) f.add_multiple(difference, term.state, sign);
    });
    return filter.combination({{difference, 1.0}});
  };
  const MeanAndVariance given = filtered(log_stretches_);
  constexpr double h = 0.02;
  Vector lean(shape_count());
  for (Index j = 0; j < shape_count(); ++j) {
    Vector moved = log_stretches_;
    moved[j] += h;
    lean[j] = filtered(moved).mean;
    moved[j] -= 2.0 * h;
    lean[j] = (lean[j] - filtered(moved).mean) / (2.0 * h);
  }
  return Change(given.mean, std::sqrt(given.variance + lean.dot(stretch_covariance_ * lean)));
}

}  // namespace barwright::inline v0
