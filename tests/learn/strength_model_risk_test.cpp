// Tests of barwright/learn/strength_model.hpp: the chance of missing, against drawing lots.
//
// The oracle is the definition. Capacity, stretch and bend are drawn jointly normal as the fit says
// they are, the form of the day on top, and a set is missed when the reps that the curve
// then leaves are fewer than tried. bench/monte_carlo_risk.cpp does the same with ten million lots.
// Behind it, laws of the loads that a fit allows, on random logs with fixed seeds.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "barwright/core/normal.hpp"
#include "barwright/learn/model/miss_risk.hpp"
#include "barwright/learn/strength_model.hpp"
#include "missing_by_lot.hpp"

using namespace barwright;
using namespace barwright::literals;
using barwright_test::heaviest_by_lot;
using barwright_test::log_for_lots;

namespace {

constexpr int lots = 1000000;

// Loads whose chance of a miss runs from 0.001 to 0.999, each held against the share of lots that
// could not lift so much: within four standard errors of that share, as of more than a hundred such
// comparisons some lie beyond three by luck alone.
void check_against_lots(const StrengthFit& fit, const Lift& lift, Reps reps, Date date,
                        int earlier_sets) {
  const std::vector<double> heaviest =
      heaviest_by_lot(fit, lift, reps, date, earlier_sets, lots, 2026);
  for (const double target : {0.001, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 0.999}) {
    CAPTURE(target);
    const BoundedLoad chosen = fit.load_for(
        lift, reps, 0_rir, date, {.max_chance_of_missing = target, .earlier_sets = earlier_sets});
    // The bound may be looser than what no reserve asks for: then the load is found by halving.
    double log_load = std::log(chosen.load.kg());
    if (!chosen.is_bounded) {
      double low = log_load;
      double high = log_load + 3.0;
      for (int i = 0; i < 60; ++i) {
        log_load = 0.5 * (low + high);
        const Mass load = Mass::from_kg(std::exp(log_load));
        (fit.chance_of_missing(lift, load, reps, date, earlier_sets) < target ? low : high) =
            log_load;
      }
    }
    const double chance =
        fit.chance_of_missing(lift, Mass::from_kg(std::exp(log_load)), reps, date, earlier_sets);
    CHECK(std::fabs(chance / target - 1.0) < 1e-6);
    const auto missed = std::lower_bound(heaviest.begin(), heaviest.end(), log_load);
    const double share = static_cast<double>(missed - heaviest.begin()) / lots;
    const double standard_error = std::sqrt(target * (1.0 - target) / lots);
    CHECK(std::fabs(share - chance) < 4.0 * standard_error);
  }
}

}  // namespace

TEST_CASE("before the first set the chance of missing is that of a lifter drawn from the priors" *
          doctest::test_suite("slow")) {
  const StrengthFit fit = StrengthModel({}).fit();
  const Date day(2026, 1, 5);
  for (const Reps reps : {1_reps, 5_reps, 12_reps}) {
    check_against_lots(fit, lifts::bench_press, reps, day, 0);
  }
  check_against_lots(fit, lifts::bench_press + modifiers::feet_up + modifiers::flat_back, 8_reps,
                     day, 2);
}

TEST_CASE(
    "after a single set, or after long sets alone, capacity and curve are hard to tell apart" *
    doctest::test_suite("slow")) {
  const Date day(2026, 1, 5);
  StrengthModel one({});
  one.add(log_for_lots().front());
  check_against_lots(one.fit(), lifts::bench_press, 8_reps, day + 2, 0);
  StrengthModel of_long_sets({});
  for (int i = 0; i < 30; ++i) {
    of_long_sets.add({.date = day + 2 * i,
                      .lift = lifts::bench_press,
                      .load = Mass::from_kg(70.0 + i % 5),
                      .reps = Reps(8 + i % 5),
                      .reserve = Range<RepsInReserve>::exactly(RepsInReserve(1.0 + i % 3))});
  }
  const StrengthFit fit = of_long_sets.fit();
  for (const Reps reps : {1_reps, 3_reps, 8_reps}) {
    check_against_lots(fit, lifts::bench_press, reps, day + 62, 0);
  }
}

TEST_CASE("after some weeks the chance of missing is that of the lifter learnt from the log" *
          doctest::test_suite("slow")) {
  StrengthModel model({});
  for (const LoggedSet& set : log_for_lots()) model.add(set);
  const StrengthFit fit = model.fit();
  const Date next = log_for_lots().back().date + 2;
  for (const Reps reps : {1_reps, 3_reps, 8_reps, 15_reps}) {
    check_against_lots(fit, lifts::bench_press, reps, next, 0);
  }
  check_against_lots(fit, lifts::bench_press + modifiers::feet_up, 6_reps, next, 3);
  // A variation that is not in the log, in the middle of it, and a year later.
  check_against_lots(fit, lifts::bench_press + modifiers::close_grip, 6_reps, next, 0);
  check_against_lots(fit, lifts::bench_press, 5_reps, next - 12, 0);
  check_against_lots(fit, lifts::bench_press, 5_reps, next + 365, 0);
}

TEST_CASE("the joint distribution agrees with each of its parts") {
  StrengthModel model({});
  for (const LoggedSet& set : log_for_lots()) model.add(set);
  const StrengthFit fit = model.fit();
  const Date next = log_for_lots().back().date + 2;
  for (const Lift& lift :
       {lifts::bench_press + modifiers::feet_up, lifts::bench_press + modifiers::close_grip}) {
    const StrengthFit::Joint joint = fit.joint(lift, next);
    const Estimate<Mass> max = fit.max(lift, next);
    CHECK(joint.mean[0] == doctest::Approx(max.log_mean()).epsilon(1e-12));
    CHECK(std::sqrt(joint.covariance[0][0]) == doctest::Approx(max.log_sd()).epsilon(1e-12));
    CHECK(joint.mean[1] == doctest::Approx(fit.stretch(lift).log_mean()).epsilon(1e-12));
    for (int i = 0; i < 3; ++i) {
      CHECK(joint.covariance[i][i] > 0.0);
      for (int j = 0; j < i; ++j) {
        CHECK(joint.covariance[i][j] == joint.covariance[j][i]);
        CHECK(std::fabs(joint.covariance[i][j]) <
              std::sqrt(joint.covariance[i][i] * joint.covariance[j][j]));
      }
    }
    // Who has many reps at a light load is less strong than they suggest.
    CHECK(joint.covariance[0][1] < 0.0);
  }
  CHECK_THROWS_AS((void)fit.joint(lifts::squat, next), DomainError);
  CHECK_THROWS_AS((void)fit.joint(lifts::bench_press, next, -1), DomainError);
}

// ---- laws of the chain through a model ----------------------------------------------------------

namespace {

using RandomBits = std::mt19937_64;

int whole(RandomBits& random, int low, int high) {
  return std::uniform_int_distribution<int>(low, high)(random);
}

const std::vector<Lift>& trained_lifts() {
  static const std::vector<Lift> lifts{
      lifts::bench_press, lifts::bench_press + modifiers::feet_up,
      lifts::bench_press + modifiers::feet_up + modifiers::flat_back,
      lifts::bench_press + modifiers::incline};
  return lifts;
}

/// Some weeks of a lifter who is about as strong as somebody is.
std::vector<LoggedSet> a_log(RandomBits& random) {
  const double max = std::exp(std::uniform_real_distribution<double>(3.4, 5.3)(random));
  std::vector<LoggedSet> log;
  for (int n = whole(random, 1, 25); n > 0; --n) {
    const int reps = whole(random, 1, 12);
    const int left = whole(random, 0, 4);
    const double off = std::uniform_real_distribution<double>(0.92, 1.06)(random);
    LoggedSet set{.date = Date(2026, 9, 1) + whole(random, 0, 80),
                  .lift = trained_lifts()[static_cast<std::size_t>(whole(random, 0, 3))],
                  .load = Mass::from_kg(max * off * equations::wathen.fraction(reps + left)),
                  .reps = Reps(reps)};
    const int kind = whole(random, 0, 9);
    if (kind == 0) set.outcome = Outcome::missed;
    if (kind > 1) set.reserve = Range<RepsInReserve>::exactly(RepsInReserve(left));
    log.push_back(set);
  }
  return log;
}

StrengthFit fit_of(const std::vector<LoggedSet>& log) {
  StrengthModel model({});
  for (const LoggedSet& set : log) model.add(set);
  return model.fit();
}

}  // namespace

TEST_CASE(
    "the chance of missing a single is that of the max alone, however little the curve is known") {
  // Exact, as a single is no matter of the curve: P(max times form < load), all normal. With so
  // wide a stretch the chance is a sum over pairs of nodes, less those that weigh next to nothing.
  for (const double with_stretch : {-0.6, 0.0, 0.5}) {
    CAPTURE(with_stretch);
    constexpr double max_sd = 0.08;
    constexpr double stretch_sd = 0.4;
    constexpr double bend_sd = 0.22;
    const double shared = with_stretch * max_sd * stretch_sd;
    const StrengthJoint joint{.mean = {std::log(100.0), 0.2, -0.3},
                              .covariance = {{max_sd * max_sd, shared, 0.0},
                                             {shared, stretch_sd * stretch_sd, 0.0},
                                             {0.0, 0.0, bend_sd * bend_sd}},
                              .on_top = 0.027};
    const CurveTable curve = equations::wathen;
    const detail::MissRisk risk(joint, curve, 1_reps);
    const double sd = std::hypot(max_sd, joint.on_top);
    for (double off = -5.0; off < 5.1; off += 0.5) {
      CAPTURE(off);
      CHECK(std::fabs(risk.chance_at(joint.mean[0] + off * sd) - normal_cdf(off)) < 1e-4);
    }
  }
}

TEST_CASE("a stricter bound, more reserve or more reps never raise a load of the model" *
          doctest::test_suite("slow")) {
  RandomBits random(7001);
  int bounded = 0;
  for (int round = 0; round < 60; ++round) {
    CAPTURE(round);
    const StrengthFit fit = fit_of(a_log(random));
    for (const Lift& lift : trained_lifts()) {
      const Date day = Date(2026, 9, 1) + whole(random, -10, 200);
      const Reps reps(whole(random, 1, 14));
      const RepsInReserve left(whole(random, 0, 8) / 2.0);
      const int earlier_sets = whole(random, 0, 4);
      const auto load = [&](Reps count, RepsInReserve reserve, double most) {
        return fit
            .load_for(lift, count, reserve, day,
                      {.max_chance_of_missing = most, .earlier_sets = earlier_sets})
            .load;
      };
      Mass before{};
      for (const double most : {0.001, 0.01, 0.03, 0.05, 0.1, 0.25, 0.5, 0.9}) {
        const BoundedLoad chosen = fit.load_for(
            lift, reps, left, day, {.max_chance_of_missing = most, .earlier_sets = earlier_sets});
        bounded += chosen.is_bounded;
        CHECK(chosen.load >= before);
        CHECK(chosen.chance_of_missing <= most * (1.0 + 1e-6));
        before = chosen.load;
      }
      for (const double most : {0.02, 0.2}) {
        const Mass here = load(reps, left, most);
        CHECK(load(reps, RepsInReserve(left.count() + 0.5), most) <= here * (1.0 + 1e-9));
        CHECK(load(Reps(reps.count() + 1), left, most) <= here * (1.0 + 1e-9));
        CHECK(fit.chance_of_missing(lift, here * 1.02, reps, day, earlier_sets) >=
              fit.chance_of_missing(lift, here, reps, day, earlier_sets));
      }
    }
  }
  CHECK(bounded > 500);
}

TEST_CASE("the model learns the same from a log in any order, and from one in pounds" *
          doctest::test_suite("slow")) {
  RandomBits random(7002);
  for (int round = 0; round < 40; ++round) {
    CAPTURE(round);
    std::vector<LoggedSet> log = a_log(random);
    const Date day(2026, 12, 1);
    const StrengthFit fit = fit_of(log);
    // Sets of one day and lift keep their order, as the later ones are done tired.
    std::vector<LoggedSet> by_day = log;
    std::stable_sort(by_day.begin(), by_day.end(), [](const LoggedSet& a, const LoggedSet& b) {
      return (a.date - Date(1970, 1, 1)) % 7 > (b.date - Date(1970, 1, 1)) % 7;
    });
    for (LoggedSet& set : log) set.load = Mass::from_lb(set.load.kg() / 0.45359237);
    for (const StrengthFit& other : {fit_of(by_day), fit_of(log)}) {
      CHECK(other.sets_used() == fit.sets_used());
      for (const Lift& lift : trained_lifts()) {
        const Estimate<Mass> max = fit.max(lift, day);
        CHECK(std::fabs(other.max(lift, day).log_mean() - max.log_mean()) < 1e-7);
        CHECK(std::fabs(other.max(lift, day).log_sd() - max.log_sd()) < 1e-7);
        CHECK(std::fabs(other.load_for(lift, 5_reps, 2_rir, day).load /
                            fit.load_for(lift, 5_reps, 2_rir, day).load -
                        1.0) < 1e-6);
      }
    }
  }
}

TEST_CASE("more on the bar in every set never lowers the max that the model learns" *
          doctest::test_suite("slow")) {
  RandomBits random(7003);
  for (int round = 0; round < 40; ++round) {
    CAPTURE(round);
    std::vector<LoggedSet> log = a_log(random);
    const Date day(2026, 12, 1);
    const StrengthFit fit = fit_of(log);
    for (LoggedSet& set : log) set.load = set.load * 1.02;
    const StrengthFit heavier = fit_of(log);
    for (const Lift& lift : trained_lifts()) {
      CHECK(heavier.max(lift, day).median() > fit.max(lift, day).median());
      CHECK(heavier.load_for(lift, 5_reps, 2_rir, day).load >
            fit.load_for(lift, 5_reps, 2_rir, day).load);
    }
  }
}

TEST_CASE("what the model prescribes, done as written, leaves the max where it was" *
          doctest::test_suite("slow")) {
  RandomBits random(7004);
  for (int round = 0; round < 40; ++round) {
    CAPTURE(round);
    std::vector<LoggedSet> log = a_log(random);
    const StrengthFit fit = fit_of(log);
    const Date day = Date(2026, 9, 1) + 82;
    for (const Lift& lift : {trained_lifts()[0], trained_lifts()[1]}) {
      const Reps reps(whole(random, 3, 8));
      const BoundedLoad load =
          fit.load_for(lift, reps, 2_rir, day, {.max_chance_of_missing = 0.999});
      const StrengthFit::Joint at = fit.joint(lift, day);
      const ShapedCurve curve(fit.settings().curve, std::exp(at.mean[1]), at.mean[2]);
      const double max = load.load.kg() / std::exp(curve.log_fraction(reps.count() + 2.0));
      CHECK(std::fabs(max / fit.max(lift, day).median().kg() - 1.0) < 1e-9);
      std::vector<LoggedSet> with_it = log;
      with_it.push_back({.date = day,
                         .lift = lift,
                         .load = load.load,
                         .reps = reps,
                         .reserve = Range<RepsInReserve>::exactly(2_rir)});
      const double moved =
          fit_of(with_it).max(lift, day).log_mean() - fit.max(lift, day).log_mean();
      CHECK(std::fabs(moved) < 0.5 * fit.max(lift, day).log_sd());
    }
  }
}
