// tests/simulated_lifter.hpp - lifters drawn from the strength model's own priors
//
// For simulation-based calibration (Talts et al. 2018, from memory): draw a lifter from the priors,
// let them train with loads chosen by the model from the log so far, and see whether what the model
// says of them holds the truth as often as it claims. The same lifters, rated badly or on another
// curve, with warm-ups or starting light, show what happens when an assumption fails.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <barwright/learn/strength_model.hpp>
#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

namespace barwright_test {

using namespace barwright;

/// What may differ from the model's assumptions.
struct SimulationSettings {
  int weeks = 10;
  CurveTable curve = equations::wathen;        ///< the truth
  CurveTable model_curve = equations::wathen;  ///< what the model is told
  bool is_bent = true;                         ///< the curve bent as the priors have it
  bool whole_ratings = false;                  ///< rated in whole numbers
  double under_reported = -1.0;                ///< reps left unsaid; below 0: as drawn
  double unrated = 0.08;                       ///< share of sets without a rating
  bool has_warm_ups = false;                   ///< three sets without a rating before the others
  double starts_light = 0.0;                   ///< how far below their max they take it to be
  double mistyped = 0.0;  ///< share of sets logged with a load 2.2046 times too high or too low
  double max_chance_of_missing = 0.05;
};

/// A set whose load was chosen at the bound on the chance of missing.
struct BoundedSet {
  double predicted_chance;
  bool is_missed;
};

/// One lifter, as they really are at the end, and their log.
struct SimulatedLifter {
  std::vector<LoggedSet> log;
  std::vector<bool> is_mistyped;
  StrengthSettings settings;
  Date last{2026, 1, 5};
  double log_max = 0.0;
  double trend = 0.0;
  double log_stretch = 0.0;
  double log_ratio_a = 0.0;
  double log_ratio_b = 0.0;
  double log_stretch_a = 0.0;  ///< of the lift with modifier a, the lifter's own included
  double log_stretch_b = 0.0;  ///< of the lift with both
  double learning_gap = 0.0;
  double rating_bias = 0.0;
  double set_loss = 0.0;
  std::vector<BoundedSet> at_bound;
};

inline const Lift simulated_plain = lifts::bench_press;
inline const Lift simulated_a = lifts::bench_press + modifiers::feet_up;
inline const Lift simulated_b = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;

[[nodiscard]] inline SimulatedLifter simulate_lifter(std::uint64_t seed,
                                                     const SimulationSettings& how = {}) {
  std::mt19937_64 generator(seed * 2654435761U + 12345U);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform;
  const auto draw = [&](double mean, double sd) { return mean + sd * normal(generator); };
  const auto chance = [&](double p) { return uniform(generator) < p; };

  SimulatedLifter lifter;
  lifter.settings.curve = how.model_curve;
  lifter.settings.new_lifts = {simulated_b};
  const StrengthPriors& p = lifter.settings.priors;

  double level =
      std::clamp(draw(std::log(p.max.kg()), p.max_log_sd), std::log(15.0), std::log(400.0));
  double trend = draw(0.0, p.trend_sd);
  const double steadiness = std::exp(draw(0.0, p.steadiness_log_sd));
  lifter.set_loss = draw(p.set_loss, p.set_loss_sd);
  lifter.rating_bias = draw(p.rating_bias, p.rating_bias_sd);
  if (how.under_reported >= 0.0) lifter.rating_bias = how.under_reported;
  const auto drawn = [&](const LogMoments& m) { return draw(m.mean, m.standard_deviation); };
  const Mass max = Mass::from_kg(std::exp(level));
  double ratio_a = drawn(log_moments(modifiers::feet_up.ratio(max)));
  double ratio_b = drawn(log_moments(modifiers::flat_back.ratio(max)));
  // A lifter of a published curve is of that curve.
  lifter.log_stretch =
      draw(how.is_bent ? p.stretch_log : 0.0, how.is_bent ? p.stretch_log_sd : 0.2);
  const double bend = how.is_bent ? draw(p.bend, p.bend_sd) : 0.0;
  lifter.log_stretch_a =
      lifter.log_stretch + drawn(log_moments(modifiers::feet_up.rep_stretch().value));
  lifter.log_stretch_b =
      lifter.log_stretch_a + drawn(log_moments(modifiers::flat_back.rep_stretch().value));
  lifter.learning_gap = drawn(log_moments(p.learning_gain));

  StrengthModel model(lifter.settings);
  const ShapedCurve usual_curve(how.model_curve, std::exp(p.stretch_log), p.bend);
  const Mass guess = Mass::from_kg(std::exp(level - how.starts_light + draw(0.0, 0.08)));
  const Date start = lifter.last;
  const auto usual_gain = [&](double weeks_in) {
    return p.gain + p.early_gain * std::exp(-weeks_in / p.early_weeks);
  };
  int sessions_of_b = 0;
  for (int session = 0; session < 3 * how.weeks; ++session) {
    const Date date = start + (session / 3 * 7 + session % 3 * 2);
    if (session > 0) {
      // The model's motion, in steps fine enough that their sum is the integral.
      const int days = date - lifter.last;
      const int steps = 8 * days;
      const double dt = 1.0 / 56.0;
      const double kept = std::exp(-dt / p.trend_weeks);
      const double weeks_in = (lifter.last - start) / 7.0;
      for (int i = 0; i < steps; ++i) {
        level += (usual_gain(weeks_in + i * dt) + trend) * dt +
                 draw(0.0, steadiness * p.level_walk * std::sqrt(dt));
        trend = kept * trend + draw(0.0, p.trend_sd * std::sqrt(1.0 - kept * kept));
      }
      const double weeks = days / 7.0;
      ratio_a += draw(0.0, p.ratio_walk * std::sqrt(weeks));
      ratio_b += draw(0.0, p.ratio_walk * std::sqrt(weeks));
    }
    lifter.last = date;
    const double form = draw(0.0, steadiness * p.day_sd);
    const int kind = session % 3;
    const Lift& lift = kind == 0 ? simulated_plain : kind == 1 ? simulated_a : simulated_b;
    const double log_stretch = kind == 0   ? lifter.log_stretch
                               : kind == 1 ? lifter.log_stretch_a
                                           : lifter.log_stretch_b;
    const ShapedCurve curve(how.curve, std::exp(log_stretch), bend);
    double log_ratio = kind == 0 ? 0.0 : kind == 1 ? ratio_a : ratio_a + ratio_b;
    if (kind == 2) log_ratio -= lifter.learning_gap * std::pow(p.learning_kept, sessions_of_b++);

    const StrengthFit fit = model.fit();
    const auto warm_up = [&](double share, int reps) {
      LoggedSet set{.date = date,
                    .lift = lift,
                    .load = Mass::from_kg(std::exp(level + log_ratio) * share),
                    .reps = Reps(reps)};
      lifter.log.push_back(set);
      lifter.is_mistyped.push_back(false);
      model.add(set);
    };
    if (how.has_warm_ups) {
      warm_up(0.25, 8);
      warm_up(0.4, 6);
      warm_up(0.55, 3);
    }
    for (int i = 0; i < 4; ++i) {
      const int planned = 3 + static_cast<int>(uniform(generator) * 6.0);
      const double left = 1.0 + std::floor(uniform(generator) * 3.0);
      Mass load;
      bool is_at_bound = false;
      double predicted = 0.0;
      if (session < 3) {
        const double usual = lift.ratio(guess).typical;
        load = guess * (0.95 * usual *
                        std::exp(usual_curve.log_fraction(static_cast<double>(planned) + left)));
      } else {
        // The first set of a session takes the load of the bound, as nothing of the day is known.
        const RiskBound bound{.max_chance_of_missing = how.max_chance_of_missing,
                              .earlier_sets = i};
        const RepsInReserve wanted = i == 0 ? RepsInReserve{} : RepsInReserve(left);
        const BoundedLoad chosen = fit.load_for(lift, Reps(planned), wanted, date, bound);
        load = chosen.load;
        is_at_bound = i == 0 && chosen.is_bounded;
        predicted = chosen.chance_of_missing;
      }
      const double capacity =
          level + form + log_ratio - lifter.set_loss * i + draw(0.0, steadiness * p.set_sd);
      const double truth = curve.reps(std::log(load.kg()) - capacity);
      const bool is_missed = truth < just_enough_for(planned);
      if (is_at_bound) lifter.at_bound.push_back({predicted, is_missed});

      LoggedSet set{.date = date, .lift = lift, .load = load, .reps = Reps(planned)};
      if (is_missed) {
        set.outcome = Outcome::missed;
        set.reps = Reps(std::clamp(static_cast<int>(std::floor(truth + 0.5)) + 1, 1, planned));
      } else if (!chance(how.unrated)) {
        const double sd =
            rating_error(truth - planned, truth, Experience::experienced).standard_deviation;
        const double said = truth - planned - lifter.rating_bias + draw(0.0, sd);
        const double step = how.whole_ratings ? 1.0 : 0.5;
        // Who is about to fail knows it, and any other estimate is at least one step; but some say
        // none left as they would any other number.
        const bool is_loose = chance(none_left_loosely);
        const bool says_none =
            is_loose ? said < 0.5 * step
                     : truth - planned + draw(0.0, none_left_deviation) < none_left_below;
        const double rounded_to =
            says_none ? 0.0 : std::clamp(std::round(said / step) * step, step, 30.0);
        set.reserve = Range<RepsInReserve>::exactly(RepsInReserve(rounded_to));
      }
      const bool is_mistyped = chance(how.mistyped);
      if (is_mistyped) set.load = set.load * (chance(0.5) ? 2.2046 : 1.0 / 2.2046);
      lifter.log.push_back(set);
      lifter.is_mistyped.push_back(is_mistyped);
      model.add(set);
    }
  }
  lifter.log_max = level;
  lifter.trend = usual_gain((lifter.last - start) / 7.0) + trend;
  lifter.log_ratio_a = ratio_a;
  lifter.log_ratio_b = ratio_a + ratio_b;
  return lifter;
}

/// Where the truth lies in an estimate: standard deviations from its mean.
struct Standing {
  double level, trend, stretch, ratio_a, ratio_b, stretch_a, stretch_b, learning;
};
inline constexpr int standing_count = 8;
inline constexpr const char* standing_names[standing_count] = {
    "level",         "trend",          "personal stretch", "ratio a",
    "ratio a and b", "stretch with a", "stretch with b",   "learning gap"};

[[nodiscard]] inline std::vector<double> standings(const SimulatedLifter& lifter,
                                                   const StrengthFit& fit) {
  const auto off = [](double truth, const auto& estimate) {
    return (truth - estimate.log_mean()) / estimate.log_sd();
  };
  const Change trend = fit.trend();
  return {off(lifter.log_max, fit.max(simulated_plain, lifter.last)),
          (lifter.trend - trend.mean()) / trend.standard_deviation(),
          off(lifter.log_stretch, fit.stretch(simulated_plain)),
          off(lifter.log_ratio_a, fit.ratio(simulated_a)),
          off(lifter.log_ratio_b, fit.ratio(simulated_b)),
          off(lifter.log_stretch_a, fit.stretch(simulated_a)),
          off(lifter.log_stretch_b, fit.stretch(simulated_b)),
          off(lifter.learning_gap, *fit.learning_gain(simulated_b))};
}

}  // namespace barwright_test
