// bench/week_bench.cpp - how long a better order of days, and the swaps of its lifts, take to find
//
// The target is less than 1 ms for a seven-day week with six sessions. Three weeks are searched:
//
//     rowing_club   six invented sessions of a rowing club, one a day; the search can cut much off
//     all_alike     seven equal sessions on seven days: every one of 5040 orders is as bad
//     random        six sessions of random lifts, another week each time
//
// by_hand is the same search as one would write it on the spot: sets in arrays of double, every
// order of the seven days by std::next_permutation, the overlap summed up anew each time, nothing
// cut off, and no conflicts.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <random>
#include <vector>

#include "barwright/training.hpp"

namespace {

using namespace barwright;

using Week = std::vector<PlannedSession>;

PlannedLift planned(const Lift& lift, int sets) {
  return {
      .lift = lift, .sets = Sets(sets), .reps = Reps(6), .reserve = RepsInReserve(2), .load = {}};
}

Week rowing_club() {
  using namespace lifts;
  return {{Weekday::monday, {planned(squat, 4), planned(leg_curl, 3)}, {}},
          {Weekday::tuesday, {planned(bench_press, 4), planned(bench_pull, 4)}, {}},
          {Weekday::wednesday, {planned(deadlift, 3), planned(pull_up, 4)}, {}},
          {Weekday::thursday, {planned(overhead_press, 4), planned(dip, 3)}, {}},
          {Weekday::friday, {planned(leg_press, 4), planned(romanian_deadlift, 3)}, {}},
          {Weekday::saturday,
           {planned(bench_press + modifiers::feet_up, 3), planned(barbell_row, 4)},
           {}}};
}

Week all_alike() {
  Week week;
  for (const Weekday day : all_weekdays) week.push_back({day, {planned(lifts::squat, 3)}, {}});
  return week;
}

Week random_week(std::mt19937& random) {
  Week week;
  for (std::size_t day = 0; day < 6; ++day) {
    week.push_back({all_weekdays[day], {}, {}});
    for (int i = 0; i < 4; ++i) {
      const auto all = catalogue::lifts();
      week.back().lifts.push_back(
          planned(all[random() % all.size()], 1 + static_cast<int>(random() % 5)));
    }
  }
  return week;
}

void order_of_days(benchmark::State& state, const Week& week) {
  for (auto _ : state) benchmark::DoNotOptimize(best_order(week));
}
BENCHMARK_CAPTURE(order_of_days, rowing_club, rowing_club())->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(order_of_days, all_alike, all_alike())->Unit(benchmark::kMicrosecond);

/// The least overlap over all orders of days that are filled from an array of sets per group.
double least_overlap_by_hand(const std::array<std::array<double, 16>, 7>& days) {
  std::array<std::size_t, 7> order{0, 1, 2, 3, 4, 5, 6};
  double least = 1e9;
  do {
    double sum = 0.0;
    for (std::size_t day = 0; day < 7; ++day) {
      const auto& today = days[order[day]];
      const auto& tomorrow = days[order[(day + 1) % 7]];
      for (std::size_t group = 0; group < 16; ++group) {
        sum += std::min(today[group], tomorrow[group]);
      }
    }
    least = std::min(least, sum);
  } while (std::next_permutation(order.begin(), order.end()));
  return least;
}

void order_of_days_by_hand(benchmark::State& state) {
  std::array<std::array<double, 16>, 7> days{};
  for (const PlannedSession& session : rowing_club()) {
    const FractionalSets sets = fractional_sets(session);
    for (const MuscleGroup group : all_muscle_groups) {
      days[static_cast<std::size_t>(session.day)][static_cast<std::size_t>(group)] = sets[group];
    }
  }
  for (auto _ : state) {
    benchmark::DoNotOptimize(days);
    benchmark::DoNotOptimize(least_overlap_by_hand(days));
  }
}
BENCHMARK(order_of_days_by_hand)->Unit(benchmark::kMicrosecond);

void order_of_random_days(benchmark::State& state) {
  std::mt19937 random(1);
  std::vector<Week> weeks;
  for (int i = 0; i < 64; ++i) weeks.push_back(random_week(random));
  std::size_t next = 0;
  for (auto _ : state) benchmark::DoNotOptimize(best_order(weeks[next++ % weeks.size()]));
}
BENCHMARK(order_of_random_days)->Unit(benchmark::kMicrosecond);

void swaps_of_lifts(benchmark::State& state) {
  const Week week = rowing_club();
  for (auto _ : state) benchmark::DoNotOptimize(swaps(week));
}
BENCHMARK(swaps_of_lifts)->Unit(benchmark::kMicrosecond);

}  // namespace
