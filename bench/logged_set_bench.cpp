// bench/logged_set_bench.cpp - the max that the sets of the last weeks tell
//
// An invented log of 400 sets on two lifts; by hand: the best estimate of each day in the last four
// weeks, and the median of those. The library also weighs misses, and says what it left out.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

const Date start(2024, 1, 1);
const Lift asked = lifts::bench_press + modifiers::feet_up;
const std::vector<LoggedSet> log_of_sets = [] {
  std::vector<LoggedSet> sets;
  for (int i = 0; i < 400; ++i) {
    const int left = 1 + i % 4;
    sets.push_back({.date = start + i / 10 * 2,
                    .lift = i / 5 % 2 == 0 ? asked : Lift(lifts::squat),
                    .load = Mass::from_kg(60.0 + i % 7 * 2.5),
                    .reps = Reps(3 + i % 5),
                    .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))});
  }
  return sets;
}();
struct BareSet {
  int day;
  int lift;
  double kg;
  double reps;
};
const std::vector<BareSet> bare_sets = [] {
  std::vector<BareSet> sets;
  for (const LoggedSet& set : log_of_sets) {
    sets.push_back({set.date - start, set.lift.same_as(asked) ? 1 : 2, set.load.kg(),
                    reps_to_failure(set).value_or(0.0)});
  }
  return sets;
}();
// From day 30 to day 78, the last of the log.
int day_of(std::size_t i) { return 30 + static_cast<int>(i % 49); }

BENCHMARK_CAPTURE(by_hand, recent_max, [](std::size_t i) {
  const int day = day_of(i);
  std::array<double, 28> best{};
  for (const BareSet& set : bare_sets) {
    const int age = day - set.day;
    if (age < 0 || age >= 28 || set.lift != 1 || set.reps > 12.0) continue;
    double& known = best[static_cast<std::size_t>(age)];
    known = std::max(known, set.kg * 36.0 / (37.0 - set.reps));
  }
  std::vector<double> bests;
  for (const double max : best) {
    if (max > 0.0) bests.push_back(max);
  }
  std::sort(bests.begin(), bests.end());
  const std::size_t middle = bests.size() / 2;
  return bests.size() % 2 == 1 ? bests[middle] : 0.5 * (bests[middle - 1] + bests[middle]);
});
BENCHMARK_CAPTURE(library, recent_max, [](std::size_t i) {
  return recent_max(equations::brzycki, log_of_sets, asked, start + day_of(i))->typical.kg();
});

}  // namespace
