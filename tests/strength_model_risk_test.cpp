// Tests of barwright/strength_model.hpp: the chance of missing, against drawing lots.
//
// The oracle is the definition. Capacity, stretch and bend are drawn jointly normal as the fit says
// they are, the form of the day on top, and a set is missed when the repetitions that the curve
// then leaves are fewer than tried. bench/monte_carlo_risk.cpp does the same with ten million lots.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "barwright/strength_model.hpp"
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

TEST_CASE("before the first set the chance of missing is that of a lifter drawn from the priors") {
  const StrengthFit fit = StrengthModel({}).fit();
  const Date day(2026, 1, 5);
  for (const Reps reps : {1_reps, 5_reps, 12_reps}) {
    check_against_lots(fit, lifts::bench_press, reps, day, 0);
  }
  check_against_lots(fit, lifts::bench_press + modifiers::feet_up + modifiers::flat_back, 8_reps,
                     day, 2);
}

TEST_CASE(
    "after a single set, or after long sets alone, capacity and curve are hard to tell apart") {
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

TEST_CASE("after some weeks the chance of missing is that of the lifter learnt from the log") {
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
    // Who has many repetitions at a light load is less strong than they suggest.
    CHECK(joint.covariance[0][1] < 0.0);
  }
  CHECK_THROWS_AS((void)fit.joint(lifts::squat, next), DomainError);
  CHECK_THROWS_AS((void)fit.joint(lifts::bench_press, next, -1), DomainError);
}
