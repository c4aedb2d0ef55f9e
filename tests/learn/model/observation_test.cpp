// Tests of barwright/learn/model/observation.hpp.
//
// Each function replaces what a set says by the ordinary observation with the same effect. The
// oracle is the definition: prior times likelihood, integrated by Simpson's rule on a fine grid.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/learn/model/observation.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

#include "barwright/curves/equations.hpp"

using namespace barwright;

namespace {

// A capacity after a set, and the log of the chance or density that what was seen had.
struct Learnt {
  double mean;
  double variance;
  double log_density;
};

// What a Kalman filter makes of the observation.
Learnt learnt_by_filter(const Prediction& before, const Observation& observation) {
  const double variance = 1.0 / (1.0 / before.variance + 1.0 / observation.variance);
  return {variance * (before.mean / before.variance + observation.value / observation.variance),
          variance, observation.log_density};
}

// What is right: by integration of prior x likelihood from `low` to `high`.
template <class LogLikelihood>
Learnt learnt_by_integration(const Prediction& before, LogLikelihood log_likelihood, double low,
                             double high, int steps) {
  const double h = (high - low) / steps;
  std::vector<double> logs;
  logs.reserve(static_cast<std::size_t>(steps) + 1);
  for (int i = 0; i <= steps; ++i) {
    const double c = low + h * i;
    logs.push_back(log_likelihood(c) -
                   0.5 * (c - before.mean) * (c - before.mean) / before.variance);
  }
  const double greatest = *std::max_element(logs.begin(), logs.end());
  const auto weight = [&](int i) {
    const double simpson = i == 0 || i == steps ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
    return simpson * std::exp(logs[static_cast<std::size_t>(i)] - greatest);
  };
  double mass = 0.0;
  double shift = 0.0;
  for (int i = 0; i <= steps; ++i) {
    mass += weight(i);
    shift += weight(i) * (low + h * i - before.mean);
  }
  shift /= mass;
  double variance = 0.0;
  for (int i = 0; i <= steps; ++i) {
    const double off = low + h * i - before.mean - shift;
    variance += weight(i) * off * off;
  }
  return {before.mean + shift, variance / mass,
          greatest + std::log(mass * h / 3.0) -
              0.5 * std::log(2.0 * std::numbers::pi * before.variance)};
}

double flat(double) { return 0.0; }

// Equal to a share `close`: the mean in standard deviations of what is left to know.
void check_same(const Learnt& got, const Learnt& right, double close) {
  CHECK(std::fabs(got.mean - right.mean) / std::sqrt(right.variance) < close);
  CHECK(std::fabs(got.variance / right.variance - 1.0) < close);
  CHECK(std::fabs(got.log_density - right.log_density) < close);
}

void check_sound(const Prediction& before, const Observation& observation) {
  CHECK(std::isfinite(observation.value));
  CHECK(std::isfinite(observation.variance));
  CHECK(std::isfinite(observation.log_density));
  CHECK(observation.variance > 0.0);
  const Learnt learnt = learnt_by_filter(before, observation);
  CHECK(std::isfinite(learnt.mean));
  CHECK(learnt.variance > 0.0);
  CHECK(learnt.variance < before.variance);
}

constexpr double root_two_pi_log = 0.91893853320467274;

// The chance of a rating, by the definition in the header.
double log_chance_of_rating(const RatedSet& set, const ShapedCurve& curve, double capacity) {
  const double reps = curve.reps(set.log_load - capacity);
  const double rating =
      rating_error(reps - set.done, reps, Experience::experienced).standard_deviation;
  const double error = std::hypot(rating, set.deviation);
  const double off = (set.to_failure - reps) / error;
  const auto log_normal_cdf = [](double z) {
    return z < -35.0 ? -0.5 * z * z - root_two_pi_log - std::log(-z - 1.0 / z)
                     : std::log(normal_cdf(z));
  };
  switch (set.says) {
    case RatedSet::Says::this_many: return -0.5 * off * off - std::log(error) - root_two_pi_log;
    case RatedSet::Says::at_most: return log_normal_cdf(off);
    case RatedSet::Says::at_least: return log_normal_cdf(-off);
  }
  return 0.0;
}

// The errors of `observation_of_rating` over lifters, sets and ratings as they occur.
struct Errors {
  std::vector<double> mean;    // in standard deviations of what is left to know
  std::vector<double> spread;  // of the standard deviation, as a share
  std::vector<double> log_density;

  static double greatest(const std::vector<double>& errors) {
    return *std::max_element(errors.begin(), errors.end());
  }
  static double median(std::vector<double> errors) {
    std::nth_element(errors.begin(), errors.begin() + static_cast<long>(errors.size() / 2),
                     errors.end());
    return errors[errors.size() / 2];
  }
};

// For predictions this sure, and ratings this many standard deviations from what was predicted.
Errors errors_of_ratings(double sd, RatedSet::Says says, const std::vector<double>& surprises) {
  const CurveTable table = equations::wathen;
  Errors errors;
  for (const double stretch : {0.6, 0.8, 1.0, 1.3}) {
    const ShapedCurve curve(table, stretch);
    for (const double done : {1.0, 3.0, 5.0, 8.0}) {
      for (const double left : {0.0, 1.0, 2.0, 3.0, 4.0}) {
        if (says == RatedSet::Says::at_most && left > 0.0) continue;
        for (const double surprise : surprises) {
          const RatedSet set{.log_load = std::log(80.0),
                             .done = done,
                             .to_failure = done + left + 0.5,
                             .says = says};
          const double z = set.log_load - curve.log_fraction(set.to_failure);
          const double rating =
              -curve.at(set.to_failure).slope *
              rating_error(left + 0.5, set.to_failure, Experience::experienced).standard_deviation;
          const Prediction before{z - surprise * std::hypot(sd, rating), sd * sd};
          const Learnt got = learnt_by_filter(
              before, observation_of_rating(before, set, curve, Experience::experienced));
          const Learnt right = learnt_by_integration(
              before, [&](double c) { return log_chance_of_rating(set, curve, c); },
              before.mean - 9.0 * sd, before.mean + 9.0 * sd, 2000);
          errors.mean.push_back(std::fabs(got.mean - right.mean) / std::sqrt(right.variance));
          errors.spread.push_back(std::fabs(std::sqrt(got.variance / right.variance) - 1.0));
          errors.log_density.push_back(std::fabs(got.log_density - right.log_density));
        }
      }
    }
  }
  return errors;
}

}  // namespace

TEST_CASE("a bound from above teaches what integration says, however unforeseen") {
  const Prediction before{std::log(80.0), 0.3 * 0.3};
  for (const double a : {4.0, 2.0, 1.0, 0.0, -0.5, -1.0, -3.0, -5.9, -6.1, -10.0, -30.0, -300.0}) {
    CAPTURE(a);
    const double bound = before.mean + a * 0.3;
    const double reach = a > -1.0 ? a + 12.0 : std::fmin(12.0, 40.0 / -a);
    check_same(learnt_by_filter(before, observation_at_most(before, bound)),
               learnt_by_integration(before, flat, bound - reach * 0.3, bound, 20000), 1e-9);
  }
}

TEST_CASE("a bound from below is the mirror image") {
  const Prediction before{std::log(80.0), 0.05 * 0.05};
  for (const double a : {-4.0, -1.0, 0.0, 1.0, 3.0, 8.0, 40.0}) {
    CAPTURE(a);
    const double bound = before.mean + a * 0.05;
    const double reach = a < 1.0 ? 12.0 - a : std::fmin(12.0, 40.0 / a);
    const Learnt got = learnt_by_filter(before, observation_at_least(before, bound));
    check_same(got, learnt_by_integration(before, flat, bound, bound + reach * 0.05, 20000), 1e-9);
    CHECK(got.mean > before.mean);
    CHECK(got.mean > bound);
  }
}

TEST_CASE("a bound that was sure anyway teaches nothing") {
  const Prediction before{std::log(80.0), 0.03 * 0.03};
  for (const Observation& observation :
       {observation_at_least(before, before.mean - 1.0),
        observation_at_most(before, before.mean + 1.0),
        observation_between(before, before.mean - 1.0, before.mean + 1.0)}) {
    check_sound(before, observation);
    const Learnt learnt = learnt_by_filter(before, observation);
    CHECK(std::fabs(learnt.mean - before.mean) < 1e-9);
    CHECK(std::fabs(learnt.variance / before.variance - 1.0) < 2e-7);
    CHECK(std::fabs(observation.log_density) < 1e-12);
  }
}

TEST_CASE("a missed rep puts the capacity between two reps, as integration says") {
  // One rep is 2 to 3 % of the load; predictions are good to 1 to 60 %.
  const Prediction before{std::log(80.0), 0.09};
  for (const double width : {0.05, 0.3, 1.0, 3.0}) {
    for (const double a : {-9.0, -5.0, -2.0, -1.0, -0.2, 0.0, 0.5, 2.0, 4.0, 6.0, 7.0}) {
      CAPTURE(width);
      CAPTURE(a);
      if (a + width < -7.0) continue;  // unforeseen: the next test
      const double low = before.mean + 0.3 * a;
      const double high = low + 0.3 * width;
      const Learnt got = learnt_by_filter(before, observation_between(before, low, high));
      // A narrow interval far out is the difference of two nearly equal chances: 1e-8 is left.
      const double close = width < 0.1 && std::fabs(a) > 5.0 ? 1e-8 : 1e-9;
      check_same(got, learnt_by_integration(before, flat, low, high, 20000), close);
      CHECK(got.mean > low);
      CHECK(got.mean < high);
    }
  }
}

TEST_CASE("an interval nobody foresaw takes the capacity to its nearer end") {
  for (const double sd : {0.01, 0.05, 0.6}) {
    const Prediction before{std::log(80.0), sd * sd};
    for (const double width : {0.02, 0.1}) {
      for (const double off : {8.0, 20.0, 100.0, 1e4}) {
        for (const double side : {-1.0, 1.0}) {
          CAPTURE(sd);
          CAPTURE(off);
          const double nearer = before.mean + side * off * sd;
          const double low = side > 0.0 ? nearer : nearer - width;
          const Observation observation = observation_between(before, low, low + width);
          check_sound(before, observation);
          const Learnt learnt = learnt_by_filter(before, observation);
          // As near as makes no difference: a millionth of the way, or a share of the interval.
          CHECK(std::fabs(learnt.mean - nearer) < width + 1e-6 * off * sd);
          CHECK(observation.log_density < -25.0);
        }
      }
    }
  }
}

namespace {

// The chance that a set is called one with none left, by the definition in core/effort.hpp.
double log_chance_of_none_left(double done, double log_load, const ShapedCurve& curve,
                               double capacity) {
  const double reps = curve.reps(log_load - capacity);
  const double surely = normal_cdf((done + none_left_below - reps) / none_left_deviation);
  const RatingError usual = rating_error(reps - done, reps, Experience::experienced);
  const double loosely =
      normal_cdf((none_left_below - (reps - done - usual.bias)) / usual.standard_deviation);
  return std::log((1.0 - none_left_loosely) * surely + none_left_loosely * loosely);
}

}  // namespace

TEST_CASE("none left teaches what integration says") {
  const CurveTable table = equations::wathen;
  const double log_load = std::log(80.0);
  for (const double stretch : {0.8, 1.2}) {
    ShapedCurve curve(table, stretch);
    for (const double done : {1.0, 5.0, 10.0, 15.0}) {
      for (const double sd : {0.03, 0.08, 0.3}) {
        for (const double left : {-1.0, 0.0, 2.0, 4.0}) {
          CAPTURE(done);
          CAPTURE(sd);
          CAPTURE(left);
          if (done + left < 1.0) continue;  // such a set does not go up
          const Prediction before{log_load - curve.log_fraction(done + left), sd * sd};
          // From what just goes up to eight more reps.
          const double low = log_load - curve.log_fraction(just_enough_for(done));
          const double high = log_load - curve.log_fraction(just_enough_for(done) + 8.0);
          Learnt right = learnt_by_integration(
              before, [&](double c) { return log_chance_of_none_left(done, log_load, curve, c); },
              low, high, 20000);
          // Where it may have been said loosely or not, less may be known than before: a filter
          // does not take that in.
          right.variance = std::fmin(right.variance, before.variance);
          check_same(
              learnt_by_filter(before, observation_of_none_left(before, log_load, done, curve,
                                                                Experience::experienced)),
              right, 0.02);
        }
      }
    }
  }
}

TEST_CASE("one set that is said to leave nothing does not outweigh what is known") {
  // The lifter is known to have about four left after such a set.
  const CurveTable table = equations::wathen;
  ShapedCurve curve(table, 1.0);
  const double log_load = std::log(80.0);
  const double known = log_load - curve.log_fraction(5.0 + 4.0);
  const Prediction before{known, 0.02 * 0.02};
  const Learnt learnt = learnt_by_filter(
      before, observation_of_none_left(before, log_load, 5.0, curve, Experience::experienced));
  const double none_left = log_load - curve.log_fraction(5.0);
  CHECK(learnt.mean < known);
  CHECK(learnt.mean > 0.5 * (known + none_left));
}

TEST_CASE("a rating teaches what integration says, where the lifter is known") {
  // Measured: where the prediction is good to 3 %, the mean is off by 0.003 of what is left to know
  // in the median set and 0.07 in the worst; at 6 %, by 0.01 and 0.17. The standard deviation is
  // off by 0.2 and 4 % at 3 %, by 1 and 26 % at 6 %, always in sets whose rating is far above what
  // was predicted, as the error of ratings then has a long tail.
  for (const auto says :
       {RatedSet::Says::this_many, RatedSet::Says::at_most, RatedSet::Says::at_least}) {
    CAPTURE(static_cast<int>(says));
    for (const double sd : {0.01, 0.03}) {
      CAPTURE(sd);
      const Errors errors = errors_of_ratings(sd, says, {-1.0, 0.0, 1.0});
      CHECK(Errors::median(errors.mean) < 0.01);
      CHECK(Errors::greatest(errors.mean) < 0.1);
      CHECK(Errors::median(errors.spread) < 0.01);
      CHECK(Errors::greatest(errors.spread) < 0.1);
      CHECK(Errors::median(errors.log_density) < 0.01);
      CHECK(Errors::greatest(errors.log_density) < 0.1);
    }
    const Errors errors = errors_of_ratings(0.06, says, {-1.0, 0.0, 1.0});
    CHECK(Errors::median(errors.mean) < 0.02);
    CHECK(Errors::greatest(errors.mean) < 0.25);
    CHECK(Errors::median(errors.spread) < 0.02);
    CHECK(Errors::greatest(errors.spread) < 0.35);
    CHECK(Errors::greatest(errors.log_density) < 0.1);
  }
}

TEST_CASE("a rating teaches what integration says, where little or nothing is known yet") {
  // The first set of a log is predicted to within a factor. Measured: the mean is off by 0.006 of
  // what is left to know at most, the spread by a quarter of a per cent.
  for (const auto says :
       {RatedSet::Says::this_many, RatedSet::Says::at_most, RatedSet::Says::at_least}) {
    CAPTURE(static_cast<int>(says));
    for (const double sd : {0.1, 0.6}) {
      CAPTURE(sd);
      const Errors errors = errors_of_ratings(sd, says, {-1.0, 0.0, 1.0});
      CHECK(Errors::greatest(errors.mean) < 0.01);
      CHECK(Errors::greatest(errors.spread) < 0.005);
      CHECK(Errors::greatest(errors.log_density) < 0.01);
    }
  }
}

TEST_CASE("a higher rating means a higher capacity, and a rated set narrows what is known") {
  const CurveTable table = equations::wathen;
  const ShapedCurve curve(table, 0.9);
  for (const double sd : {0.02, 0.05, 0.2}) {
    CAPTURE(sd);
    const Prediction before{std::log(100.0), sd * sd};
    double last = 0.0;
    for (const double left : {0.5, 1.5, 2.5, 3.5, 4.5}) {
      const Observation observation = observation_of_rating(
          before, {.log_load = std::log(80.0), .done = 5.0, .to_failure = 5.0 + left}, curve,
          Experience::experienced);
      check_sound(before, observation);
      const Learnt learnt = learnt_by_filter(before, observation);
      CHECK(learnt.mean > last);
      last = learnt.mean;
    }
  }
}

TEST_CASE("a rating with an error of its own is that of a lifter whose ratings always err so") {
  // Straight curve, constant error: then the answer is the ordinary one of two normals.
  const double per_rep = 0.03;
  const ExponentialShare straight({.floor = 0.0, .span = 1.0, .rate = per_rep});
  const CurveTable table = straight;
  const ShapedCurve curve(table, 1.0);
  const Prediction before{std::log(100.0), 0.04 * 0.04};
  const RatedSet set{.log_load = std::log(85.0), .done = 5.0, .to_failure = 7.0, .deviation = 0.6};
  const Learnt got = learnt_by_filter(
      before, observation_of_rating(before, set, curve, Experience::experienced, 0.8));
  const double z = std::log(85.0) + per_rep * 6.0;
  const double error = per_rep * 1.0;  // 0.6 and 0.8 together are 1 rep
  const double total = 0.04 * 0.04 + error * error;
  const double gain = 0.04 * 0.04 / total;
  CHECK(std::fabs(got.mean - (before.mean + gain * (z - before.mean))) < 1e-9);
  CHECK(std::fabs(got.variance / (gain * error * error) - 1.0) < 1e-6);
  // The density is of the reps stated, which are 1/0.03 to a unit of the logarithm.
  const double density = -0.5 * (z - before.mean) * (z - before.mean) / total -
                         0.5 * std::log(2.0 * std::numbers::pi * total) + std::log(per_rep);
  CHECK(std::fabs(got.log_density - density) < 1e-6);
}

TEST_CASE("no set, however absurd, gives anything but a number") {
  std::mt19937_64 random(20);
  std::uniform_real_distribution<double> uniform;
  const auto between = [&](double a, double b) { return a + (b - a) * uniform(random); };
  const CurveTable tables[] = {equations::wathen, equations::brzycki, equations::lombardi};
  for (int i = 0; i < 20000; ++i) {
    const double sd = std::exp(between(std::log(1e-4), std::log(2.0)));
    const Prediction before{between(-12.0, 14.0), sd * sd};
    const double at = i % 4 == 0 ? between(-14.0, 14.0) : before.mean + between(-9.0, 9.0) * sd;
    check_sound(before, observation_at_most(before, at));
    check_sound(before, observation_at_least(before, at));
    check_sound(before, observation_between(before, at, at + std::exp(between(-9.0, 1.0))));
    const ShapedCurve curve(tables[i % 3], std::exp(between(-1.5, 1.5)));
    const double done = std::floor(between(1.0, 101.0));
    for (const auto says :
         {RatedSet::Says::this_many, RatedSet::Says::at_most, RatedSet::Says::at_least}) {
      const RatedSet set{.log_load = at,
                         .done = done,
                         .to_failure = done + between(0.0, 30.0),
                         .deviation = i % 2 == 0 ? 0.0 : between(0.0, 5.0),
                         .says = says};
      check_sound(before, observation_of_rating(before, set, curve, Experience::novice));
    }
  }
}
