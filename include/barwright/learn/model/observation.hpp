// barwright/learn/model/observation.hpp - what one set says about a capacity that was predicted
//
// A capacity c, the logarithm of a max, is predicted as normal. A set then says something about it
// that is not: reps count in another scale than loads, ratings err more the more is left, the scale
// ends at nothing left, and reps that went up put a floor under c. Each function here finds the
// mean and variance of c after the set and returns them as the ordinary observation, a value with a
// normal error, that would have had the same effect on the prediction, so that a Kalman filter can
// take it (assumed density filtering: moments matched one observation at a time; Minka 2001, from
// memory). With it comes the log of the probability, or density, that what was seen had beforehand.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "barwright/core/effort.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/learn/model/shaped_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A quantity as predicted: normal.
struct Prediction {
  double mean = 0.0;
  double variance = 1.0;
};

/// What was seen, as an observation with normal error.
struct Observation {
  double value = 0.0;
  double variance = 1.0;     ///< of the error; above zero
  double log_density = 0.0;  ///< of what was seen, given the prediction
};

namespace detail {

inline constexpr double log_root_two_pi = 0.9189385332046727;

/// The observation that takes a prediction to this mean and variance.
[[nodiscard]] inline Observation observation_for(const Prediction& before, double mean,
                                                 double variance, double log_density) noexcept {
  // An observation never widens; the least it can do is next to nothing, the most to pin.
  variance = std::clamp(variance, 1e-8 * before.variance, (1.0 - 1e-7) * before.variance);
  const double share = before.variance - variance;
  return {.value = (mean * before.variance - before.mean * variance) / share,
          .variance = variance * before.variance / share,
          .log_density = log_density};
}

/// A standard normal below a: the chance, density over chance (how far below zero its mean lies),
/// and its variance.
struct BelowBound {
  double log_chance;
  double ratio;
  double variance;
};
[[nodiscard]] inline BelowBound below(double a) noexcept {
  if (a < -6.0) {  // Laplace's continued fraction for the tail: ratio = x + 1/(x + 2/(x + ...
    const double x = -a;
    double further = 0.0;
    for (double k = 16.0; k > 1.0; k -= 1.0) further = k / (x + further);
    const double beyond = 1.0 / (x + further);
    return {-0.5 * x * x - std::log(x + beyond) - log_root_two_pi, x + beyond,
            beyond * (further - beyond)};
  }
  const double chance = normal_cdf(a);
  const double ratio = normal_pdf(a) / chance;
  return {std::log(chance), ratio, 1.0 - ratio * (ratio + a)};
}

}  // namespace detail

/// c is at most `bound`.
[[nodiscard]] inline Observation observation_at_most(const Prediction& before,
                                                     double bound) noexcept {
  const double sd = std::sqrt(before.variance);
  const double a = (bound - before.mean) / sd;
  const auto [log_chance, ratio, variance] = detail::below(a);
  return detail::observation_for(before, before.mean - sd * ratio, before.variance * variance,
                                 log_chance);
}

/// c is at least `bound`.
[[nodiscard]] inline Observation observation_at_least(const Prediction& before,
                                                      double bound) noexcept {
  Observation mirrored = observation_at_most({-before.mean, before.variance}, -bound);
  mirrored.value = -mirrored.value;
  return mirrored;
}

/// c is at least `bound`, give or take a normal error.
[[nodiscard]] inline Observation observation_at_least(const Prediction& before, double bound,
                                                      double error) noexcept {
  const double root = std::sqrt(before.variance + error * error);
  const auto [log_chance, ratio, variance] = detail::below((before.mean - bound) / root);
  const double gain = before.variance / root;
  return detail::observation_for(before, before.mean + gain * ratio,
                                 before.variance - gain * gain * (1.0 - variance), log_chance);
}

/// c lies between `low` and `high`.
[[nodiscard]] inline Observation observation_between(const Prediction& before, double low,
                                                     double high) noexcept {
  const double sd = std::sqrt(before.variance);
  double a = (low - before.mean) / sd;
  double b = (high - before.mean) / sd;
  const double side = a > 0.0 ? -1.0 : 1.0;  // work in the lower tail, where chances keep digits
  if (side < 0.0) {
    const double swapped = -a;
    a = -b;
    b = swapped;
  }
  constexpr double far = -4.0;
  if (b < far) {
    // Hardly foreseen: chances would lose their digits. From b downwards the density falls as
    // exp(-t^2/2 + b t); Gauss-Legendre over where it matters, in panels short beside that fall.
    constexpr int panels = 16;
    constexpr double nodes[] = {-0.90617984593866399, -0.53846931010568309, 0.0,
                                0.53846931010568309, 0.90617984593866399};
    constexpr double weights[] = {0.23692688505618909, 0.47862867049936647, 0.56888888888888889,
                                  0.47862867049936647, 0.23692688505618909};
    const double half = 0.5 * std::fmin(b - a, -28.0 / b) / panels;
    double mass = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (int panel = 0; panel < panels; ++panel) {
      for (int k = 0; k < 5; ++k) {
        const double t = half * (2.0 * panel + 1.0 + nodes[k]);
        const double weight = half * weights[k] * std::exp(t * (b - 0.5 * t));
        mass += weight;
        first += weight * t;
        second += weight * t * t;
      }
    }
    first /= mass;
    const double spread = std::fmax(second / mass - first * first, 0.0);
    const double log_chance = -0.5 * b * b - detail::log_root_two_pi + std::log(mass);
    return detail::observation_for(before, before.mean + side * sd * (b - first),
                                   before.variance * spread, log_chance);
  }
  const double chance = normal_cdf(b) - normal_cdf(a);
  const double density_a = normal_pdf(a);
  const double density_b = normal_pdf(b);
  const double shift = (density_a - density_b) / chance;
  const double variance = 1.0 + (a * density_a - b * density_b) / chance - shift * shift;
  return detail::observation_for(before, before.mean + side * sd * shift,
                                 before.variance * variance, std::log(chance));
}

/// A rating, and the set it was given for.
struct RatedSet {
  enum class Says : unsigned char {
    this_many,  ///< `to_failure` reps
    at_most,    ///< the rating is the scale's lowest: so many or fewer
    at_least,   ///< the rating is above what counts: so many or more
  };
  double log_load = 0.0;
  double done = 1.0;        ///< reps that went up
  double to_failure = 1.0;  ///< done and left, as stated, corrected for the usual bias
  double deviation = 0.0;   ///< of the statement itself, beside the error of ratings
  Says says = Says::this_many;
};

/// What a set says after which none was left: its reps went up, and hardly another would have
/// (`none_left_below`), unless it was said loosely, as any other rating (`none_left_loosely`). All
/// at once, by integration over what was left (Simpson's rule): bounds taken one after the other
/// lean. That some say it loosely keeps one such rating from outweighing all others.
template <class Curve>
[[nodiscard]] Observation observation_of_none_left(const Prediction& before, double log_load,
                                                   double done, Curve& curve,
                                                   Experience experience) noexcept {
  // Steps of a quarter to three reps, and of a half to eight: curves remember quarters.
  constexpr std::size_t fine_steps = 12;
  constexpr std::size_t steps = 22;
  const double sd = std::sqrt(before.variance);
  double places[steps + 1];
  double exponents[steps + 1];
  double weights[steps + 1];
  double greatest = -1e300;
  for (std::size_t i = 0; i <= steps; ++i) {
    const bool is_fine = i < fine_steps;
    const double step = is_fine ? 0.25 : 0.5;
    const double further = step * static_cast<double>(is_fine ? i : i - fine_steps);
    const double reps = just_enough_for(done) + (is_fine ? 0.0 : 3.0) + further;
    const CurveTable::Point point = curve.at(reps);
    const RatingError usual = rating_error(reps - done, reps, experience);
    const double surely = normal_cdf((done + none_left_below - reps) / none_left_deviation);
    const double loosely =
        normal_cdf((done + none_left_below + usual.bias - reps) / usual.standard_deviation);
    places[i] = (log_load - point.log_fraction - before.mean) / sd;
    exponents[i] =
        std::log(surely + none_left_loosely * (loosely - surely)) - 0.5 * places[i] * places[i];
    const double simpson = i == 0 || i == steps ? step
                           : i == fine_steps    ? 0.25 + 0.5
                                                : (i % 2 == 1 ? 4.0 : 2.0) * step;
    weights[i] = simpson / 3.0 * -point.slope / sd;
    greatest = std::max(greatest, exponents[i]);
  }
  double mass = 0.0;
  double first = 0.0;
  for (std::size_t i = 0; i <= steps; ++i) {
    weights[i] *= std::exp(exponents[i] - greatest);
    mass += weights[i];
    first += weights[i] * places[i];
  }
  first /= mass;
  double spread = 0.0;
  for (std::size_t i = 0; i <= steps; ++i) {
    spread += weights[i] * (places[i] - first) * (places[i] - first);
  }
  return detail::observation_for(before, before.mean + sd * first, before.variance * spread / mass,
                                 greatest + std::log(mass) - detail::log_root_two_pi);
}

/// What is expected of a set before its rating is known.
struct ExpectedReps {
  double to_failure;
  double by_rep;  ///< change of the capacity that adds one rep
};
template <class Curve>
[[nodiscard]] ExpectedReps expected_reps(Curve& curve, double log_load, double capacity) noexcept {
  const ShapedCurve::Place place = curve.place(log_load - capacity);
  return {place.reps, -place.slope};
}

namespace detail {

/// `observation_of_rating` with the place of the rating on the curve, curve.at(set.to_failure), at
/// hand.
template <class Curve>
[[nodiscard]] Observation observation_of_rating_seen_at(const Prediction& before,
                                                        const RatedSet& set,
                                                        const CurveTable::Point& seen, Curve& curve,
                                                        Experience experience,
                                                        double usual_error) noexcept;

}  // namespace detail

/// What a rating says of the capacity.
///
/// The reps to failure are R(c), those of the curve at load / e^c; the rating is normal about them
/// with the standard deviation of `rating_error` at the true reserve, so its error is integrated
/// over what the capacity may be (Gauss-Hermite, 7 points, about the normal approximation).
/// @param curve  a ShapedCurve, or what answers like one
/// @param usual_error  used in place of `rating_error` when above zero
template <class Curve>
[[nodiscard]] Observation observation_of_rating(const Prediction& before, const RatedSet& set,
                                                Curve& curve, Experience experience,
                                                double usual_error = 0.0) noexcept {
  return detail::observation_of_rating_seen_at(before, set, curve.at(set.to_failure), curve,
                                               experience, usual_error);
}

namespace detail {

/// Reps at log_fraction - sd nodes[k]. Where the nodes lie close, only the middle and the ends are
/// looked up on the curve and the others lie on the cubics between them.
template <class Curve, std::size_t Count>
void reps_at_nodes(Curve& curve, double log_fraction, double sd, const double (&nodes)[Count],
                   double (&reps)[Count]) noexcept {
  constexpr std::size_t middle = Count / 2;
  constexpr double close = 0.04;
  if (sd > close) {
    for (std::size_t k = 0; k < Count; ++k) reps[k] = curve.reps(log_fraction - sd * nodes[k]);
    return;
  }
  const double half = sd * nodes[Count - 1];
  const ShapedCurve::Place centre = curve.place(log_fraction);
  reps[middle] = centre.reps;
  for (const int side : {-1, 1}) {
    const ShapedCurve::Place end = curve.place(log_fraction - side * half);
    // Derivatives by the capacity, over the half from the middle to the end.
    const Cubic cubic{centre.reps, -side * half / centre.slope, end.reps, -side * half / end.slope};
    for (std::size_t step = 1; step <= middle; ++step) {
      const std::size_t k = side < 0 ? middle - step : middle + step;
      const double t = std::fabs(nodes[k]) / nodes[Count - 1];
      reps[k] = cubic.value(t);
    }
  }
}

template <class Curve>
Observation observation_of_rating_seen_at(const Prediction& before, const RatedSet& set,
                                          const CurveTable::Point& seen, Curve& curve,
                                          Experience experience, double usual_error) noexcept {
  // Nodes and weights for the standard normal.
  constexpr std::size_t count = 7;
  constexpr double nodes[count] = {
      -3.7504397177257421, -2.3667594107345412, -1.1544053947399682, 0.0,
      1.1544053947399682,  2.3667594107345412,  3.7504397177257421};
  constexpr double weights[count] = {
      0.00054826885597221779, 0.030757123967586497, 0.24012317860501272,   0.45714285714285714,
      0.24012317860501272,    0.030757123967586497, 0.00054826885597221779};

  const auto error_at = [&](double reps) noexcept {
    const double rating = usual_error > 0.0
                              ? usual_error
                              : rating_error(reps - set.done, reps, experience).standard_deviation;
    return set.deviation > 0.0 ? std::sqrt(rating * rating + set.deviation * set.deviation)
                               : rating;
  };

  const double before_sd = std::sqrt(before.variance);
  // The chance of what was said, were there `reps` to failure: the factor of its exponential, and
  // the exponent. A logarithm less, where the factor is 1 / error.
  struct Chance {
    double factor;
    double exponent;
  };
  const auto chance_at = [&](double reps) noexcept -> Chance {
    const double error = error_at(reps);
    const double off = (set.to_failure - reps) / error;
    switch (set.says) {
      case RatedSet::Says::at_most: return {1.0, below(off).log_chance};
      case RatedSet::Says::at_least: return {1.0, below(-off).log_chance};
      case RatedSet::Says::this_many: break;
    }
    constexpr double one_over_root_two_pi = 0.3989422804014327;
    return {one_over_root_two_pi / error, -0.5 * off * off};
  };

  constexpr double wide = 0.08;
  if (before_sd > wide) {
    // Where little is known, two loads may explain a rating: one as it says, and a much lighter one
    // that was rated badly. A fine grid sees both.
    constexpr double reach = 4.5;
    constexpr double finest = 0.015;  // about as narrow as the surest rating
    constexpr int most_points = 1200;
    const int points = static_cast<int>(
        std::clamp(2.0 * reach * before_sd / finest, 1.0, static_cast<double>(most_points)));
    double greatest = -1e300;
    constexpr double negligible = -45.0;
    Chance chances[most_points + 1];
    int first_point = points;  // from the greatest capacity down
    for (; first_point >= 0; --first_point) {
      const double off = reach * (2.0 * first_point / points - 1.0);
      const double reps = curve.reps(set.log_load - before.mean - before_sd * off);
      Chance& chance = chances[first_point] = chance_at(reps);
      chance.exponent -= 0.5 * off * off;
      greatest = std::max(greatest, chance.exponent);
      // Below what the set shows, and below the middle, it only gets less likely.
      const bool falls = off < 0.0 && reps < set.to_failure && set.says != RatedSet::Says::at_most;
      if (falls && chance.exponent - greatest < negligible) break;
    }
    first_point = std::max(first_point, 0);
    double mass = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (int i = first_point; i <= points; ++i) {
      if (chances[i].exponent - greatest < negligible) continue;
      const double off = reach * (2.0 * i / points - 1.0);
      const double weight = chances[i].factor * std::exp(chances[i].exponent - greatest);
      mass += weight;
      first += weight * off;
      second += weight * off * off;
    }
    first /= mass;
    const double variance = before.variance * std::fmax(second / mass - first * first, 0.0);
    const double step = 2.0 * reach / points;
    return observation_for(before, before.mean + before_sd * first, variance,
                           greatest + std::log(mass * step) - detail::log_root_two_pi);
  }

  // The normal approximation, with the error taken where prediction and rating meet.
  const double z = set.log_load - seen.log_fraction;
  const double rough_error = -seen.slope * error_at(set.to_failure);
  const double rough_gain = before.variance / (before.variance + rough_error * rough_error);
  const ExpectedReps middle =
      expected_reps(curve, set.log_load, before.mean + rough_gain * (z - before.mean));
  const double error = std::clamp(middle.by_rep * error_at(middle.to_failure), 1e-4, 1.0);
  const double total = before.variance + error * error;
  Prediction about;
  if (set.says == RatedSet::Says::this_many) {
    const double gain = before.variance / total;
    about = {before.mean + gain * (z - before.mean), gain * error * error};
  } else {
    const double side = set.says == RatedSet::Says::at_most ? 1.0 : -1.0;
    const double a = side * (z - before.mean) / std::sqrt(total);
    const BelowBound bound = below(a);
    const double gain = before.variance / std::sqrt(total);
    about = {before.mean - side * gain * bound.ratio,
             before.variance - gain * gain * (1.0 - bound.variance)};
  }

  double log_density = 0.0;
  for (int pass = 0;; ++pass) {
    const double sd = std::sqrt(std::fmax(about.variance, 1e-12));
    Chance chances[count];
    double points[count];
    double reps[count];
    double greatest = -1e300;
    reps_at_nodes(curve, set.log_load - about.mean, sd, nodes, reps);
    for (std::size_t k = 0; k < count; ++k) {
      points[k] = about.mean + sd * nodes[k];
      const double from_before = (points[k] - before.mean) / before_sd;
      chances[k] = chance_at(reps[k]);
      // Importance weights: prior density over that of the nodes, both less their common constant.
      chances[k].exponent += 0.5 * (nodes[k] * nodes[k] - from_before * from_before);
      greatest = std::max(greatest, chances[k].exponent);
    }
    double mass = 0.0;
    double mean = 0.0;
    double shares[count];
    for (std::size_t k = 0; k < count; ++k) {
      shares[k] = weights[k] * chances[k].factor * std::exp(chances[k].exponent - greatest);
      mass += shares[k];
      mean += shares[k] * points[k];
    }
    mean /= mass;
    double variance = 0.0;
    for (std::size_t k = 0; k < count; ++k) {
      variance += shares[k] * (points[k] - mean) * (points[k] - mean);
    }
    variance /= mass;
    log_density = greatest + std::log(mass * sd / before_sd);
    // Where the points lay badly, lay them anew about what they found.
    const double moved = std::fabs(mean - about.mean) / sd;
    const double ratio = variance / about.variance;
    constexpr int most_passes = 6;
    const bool is_good = moved < 1.0 && ratio > 0.3 && ratio < 2.5;
    if (is_good || pass == most_passes) return observation_for(before, mean, variance, log_density);
    about = {mean, std::clamp(variance, 0.3 * about.variance, 4.0 * about.variance)};
  }
}

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
