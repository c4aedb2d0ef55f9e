// barwright/learn/model/learn_set.hpp - one set taken into a filter, and a pass through a log
//
// A set says something about the capacity that is not normal (observation.hpp); a filter takes it
// as the ordinary observation that would have had the same effect on its prediction. A pass takes
// the sets of a log one after the other, at fixed shapes, and tells how likely their reps were.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/kalman_smoother.hpp"
#include "barwright/learn/model/cached_curve.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/observation.hpp"
#include "barwright/learn/model/staged_log.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// The filter inside a smoother, or the filter itself.
[[nodiscard]] inline const KalmanFilter& filter_of(const KalmanFilter& filter) noexcept {
  return filter;
}
[[nodiscard]] inline const KalmanFilter& filter_of(const KalmanSmoother& smoother) noexcept {
  return smoother.filter();
}
[[nodiscard]] inline double mean_of(const KalmanFilter& filter, const Terms& terms) noexcept {
  double mean = 0.0;
  for (const Term& term : terms) mean += term.coefficient * filter.mean()[term.state];
  return mean;
}

/// Takes one set into a filter or smoother; returns the log of its probability beforehand.
template <class Filter>
double learn_set(const LogModel& model, Filter& filter, const ModelSet& set, CachedCurve& curve) {
  using SetKind = ModelSet::Kind;
  const StrengthPriors& p = model.priors();
  const Experience experience = model.settings.experience;
  Terms terms = model.terms_of(set, true);
  double log_density = 0.0;
  // Takes what `observe` makes of the prediction; returns the variance of that.
  const auto take = [&](auto&& observe) {
    double variance = 0.0;
    filter.update_with({terms.begin(), terms.size()}, [&](const MeanAndVariance& expected) {
      variance = expected.variance;
      const Observation observation = observe(Prediction{expected.mean, expected.variance});
      log_density += observation.log_density;
      return observation;
    });
    return variance;
  };
  // The capacity that `reps` take.
  const auto taken_by = [&](double reps) { return set.log_load - curve.at(reps).log_fraction; };
  double variance = 0.0;
  switch (set.kind) {
    case SetKind::rated_none_left:
      take([&](const Prediction& now) {
        return observation_of_none_left(now, set.log_load, set.reps, curve, experience);
      });
      return log_density;
    case SetKind::missed:
      // To failure at the rep before, if there was one.
      take([&](const Prediction& now) {
        const double high = taken_by(just_enough_for(set.reps));
        return set.reps > 1.0
                   ? observation_between(now, taken_by(just_enough_for(set.reps - 1.0)), high)
                   : observation_at_most(now, high);
      });
      return log_density;
    case SetKind::unrated:
      // That its reps went up is all it says, except where nothing else is known: there it is taken
      // to have had the usual reserve.
      if (set.is_first_news) {
        variance = take([&](const Prediction& now) {
          return observation_of_rating(now,
                                       {.log_load = set.log_load,
                                        .done = set.reps,
                                        .to_failure = set.reps + p.unrated_reserve},
                                       curve, experience, p.unrated_reserve_sd);
        });
      } else {
        variance = filter_of(filter).combination({terms.begin(), terms.size()}).variance;
      }
      break;
    case SetKind::rated:
    case SetKind::rated_many_left: {
      const ExpectedReps expected =
          expected_reps(curve, set.log_load, mean_of(filter_of(filter), terms));
      terms.append({bias_state, -expected.by_rep});
      // The first rating of all is taken as studies give its error, about what is stated, and not
      // as a light set badly rated, however likely the average lifter makes that; but no more
      // surely than with that chance in mind.
      const bool is_first_rating = set.is_first_news && set.kind != SetKind::rated_many_left;
      RatedSet rated{.log_load = set.log_load,
                     .done = set.reps,
                     .to_failure = set.to_failure,
                     .deviation = set.deviation};
      if (!is_first_rating) rated.says = set.says;
      const CurveTable::Point seen = curve.at(rated.to_failure);
      variance = take([&](const Prediction& now) {
        const double stated = set.log_load - seen.log_fraction;
        Observation observation =
            observation_of_rating_seen_at(is_first_rating ? Prediction{stated, now.variance} : now,
                                          rated, seen, curve, experience, 0.0);
        if (is_first_rating) {
          const double off = observation.value - stated;
          observation.value = stated;
          observation.variance += off * off;
          const double total = now.variance + observation.variance;
          observation.log_density = -0.5 * (stated - now.mean) * (stated - now.mean) / total -
                                    0.5 * std::log(total) - log_root_two_pi;
        }
        return observation;
      });
      terms.drop_last();
      if (set.at_most > 0.0) {
        take(
            [&](const Prediction& now) { return observation_at_most(now, taken_by(set.at_most)); });
      }
      break;
    }
  }
  // Its reps went up: the capacity was at least what that took. Left out where it is no news. Who
  // was at failure would not have rated it otherwise. Of the first rating no more is made than it
  // says.
  const bool is_rated = set.kind != SetKind::unrated;
  if (is_rated && set.is_first_news) return log_density;
  const CurveTable::Point at_floor =
      curve.at(is_rated ? set.reps + none_left_below : just_enough_for(set.reps));
  const double floor = set.log_load - at_floor.log_fraction;
  const double error = is_rated ? none_left_deviation * -at_floor.slope : 0.0;
  constexpr double no_news = 4.0;
  if (mean_of(filter_of(filter), terms) - floor < no_news * std::sqrt(variance + error * error)) {
    take([&](const Prediction& now) { return observation_at_least(now, floor, error); });
  }
  return log_density;
}

/// Runs the log, from a session on, through a filter or smoother; calls `after_session(filter,
/// session)` after each. Returns the log-likelihood of the reps.
template <class Filter, class AfterSession>
double run_log(const LogModel& model, Filter& filter, const Vector& shapes,
               AfterSession&& after_session, std::size_t first_session = 0) {
  const StagedLog& log = model.log;
  BendCache bend;
  std::vector<CachedCurve> curves;
  curves.reserve(log.lifts.size());
  for (const ModelLift& lift : log.lifts) curves.emplace_back(model.curve_of(lift, shapes), bend);
  const double steadiness = std::exp(shapes[steadiness_shape]);
  const double day_sd = steadiness * model.priors().day_sd;
  const double set_sd = steadiness * model.priors().set_sd;
  double log_likelihood = 0.0;
  auto set = std::partition_point(log.sets.begin(), log.sets.end(), [&](const ModelSet& earlier) {
    return earlier.session < first_session;
  });
  // The first set that is news says how strong the lifter is, and nothing of the shapes; nor do the
  // first ones where a pass begins within the log.
  constexpr std::ptrdiff_t settling = 20;
  const std::ptrdiff_t last_of_strength = first_session > 0
                                              ? set - log.sets.begin() + settling
                                              : static_cast<std::ptrdiff_t>(log.first_news);
  for (std::size_t session = first_session; session < log.dates.size(); ++session) {
    if (session > first_session) model.advance(filter, model.moves[session], steadiness);
    const double form_sd = day_sd * (log.is_odd_day[session] ? odd_day_factor : 1.0);
    filter.renew(day_state, 0.0, form_sd * form_sd);
    for (; set != log.sets.end() && set->session == session; ++set) {
      if (set->is_left_out) continue;
      filter.renew(set_state, 0.0, set_sd * set_sd);
      const double log_density = learn_set(model, filter, *set, curves[set->lift]);
      // Nor does a rated set that was done before say anything of them.
      if (set - log.sets.begin() > last_of_strength && !set->is_again) {
        log_likelihood += log_density;
      }
    }
    after_session(filter, session);
  }
  return log_likelihood;
}

/// The log posterior of shapes, by the sets from a session on.
[[nodiscard]] inline double log_posterior(const LogModel& model, const Vector& shapes,
                                          std::size_t first_session) {
  KalmanFilter filter = model.prior_filter();
  double value = run_log(
      model, filter, shapes, [](const auto&, std::size_t) {}, first_session);
  for (Index i = 0; i < shapes.size(); ++i) {
    const LogMoments& prior = model.shape_priors[static_cast<std::size_t>(i)];
    const double off = (shapes[i] - prior.mean) / prior.standard_deviation;
    value -= 0.5 * off * off;
  }
  return value;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
