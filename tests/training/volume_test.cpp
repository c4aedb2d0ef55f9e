// tests/training/volume_test.cpp - sets counted by muscle group
//
// Which muscles a lift counts for, and how much, is common practice (catalogue.hpp); the counting
// of halves is published. Sums worked by hand here are marked derived.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "barwright/training.hpp"
#include "training/weeks.hpp"

using namespace barwright_test;

TEST_CASE("a set counts 1 where a muscle works directly and one half where it helps") {
  // Pelland et al. 2024, preprint, abstract read: direct 1, indirect one half.
  const auto sets = fractional_sets(on(monday, {planned(lifts::bench_press, 5)}));
  CHECK(sets[MuscleGroup::chest] == 5.0);
  CHECK(sets[MuscleGroup::triceps] == 2.5);
  CHECK(sets[MuscleGroup::front_shoulders] == 2.5);
  CHECK(sets[MuscleGroup::lats] == 0.0);
  CHECK(sets.total() == 5.0 + 2 * 2.5);
}

TEST_CASE("an arch and leg drive brace a press: counted, but not as sets for back and legs") {
  // Which groups brace is common practice; that bracing is counted apart is this library's choice.
  const Week week{on(monday, {planned(lifts::bench_press, 4), planned(lifts::squat, 5)})};
  const GroupSets quadriceps = group_sets(week, MuscleGroup::quadriceps);
  CHECK(quadriceps.direct == 5);
  CHECK(quadriceps.indirect == 0);
  CHECK(quadriceps.bracing == 4);
  CHECK(quadriceps.fractional() == 5.0);
  CHECK(group_sets(week, MuscleGroup::lower_back).indirect == 5);
  CHECK(group_sets(week, MuscleGroup::lower_back).bracing == 4);
  CHECK(group_sets(week, MuscleGroup::triceps).indirect == 4);  // helps to press, and is no brace
  CHECK(fractional_sets(on(monday, {planned(lifts::bench_press, 4)}))[MuscleGroup::glutes] == 0.0);

  const Week feet_up{on(monday, {planned(feet_up_bench, 4)})};
  CHECK(group_sets(feet_up, MuscleGroup::quadriceps).bracing == 0);
  // More active feet-up (Muyor 2019, abstract read).
  CHECK(group_sets(feet_up, MuscleGroup::trunk).bracing == 4);
  // A row is held up by the back, which carries the load itself: that helps, it does not brace.
  CHECK(group_sets(Week{on(monday, {planned(lifts::barbell_row, 3)})}, MuscleGroup::lower_back)
            .indirect == 3);
}

TEST_CASE("direct and indirect sets are what the fractional count is made of") {
  std::mt19937 random(3);
  for (int trial = 0; trial < 100; ++trial) {
    const Week week = random_week(random);
    const FractionalSets sets = fractional_sets(week);
    for (const MuscleGroup group : all_muscle_groups) {
      CHECK(group_sets(week, group).fractional() == sets[group]);
    }
  }
}

TEST_CASE("a week counts what its sessions count together") {
  const Week week{on(monday, {planned(lifts::squat, 5), planned(lifts::deadlift, 1)}),
                  on(thursday, {planned(lifts::bench_press, 4)})};
  const FractionalSets sets = fractional_sets(week);
  CHECK(sets == fractional_sets(week[0]) + fractional_sets(week[1]));
  CHECK(sets[MuscleGroup::lower_back] == 2.5 + 1.0);  // derived
  CHECK(sets[MuscleGroup::quadriceps] == 5.0 + 0.5);
  CHECK(fractional_sets(Week{}).total() == 0.0);
}

TEST_CASE("the ratings of sessions add up by day to a week with its monotony and strain") {
  // The first derived vector of session_load_test.cpp, with Tuesday in two sessions.
  Week week{on(tuesday, {}), on(tuesday, {}), on(thursday, {}), on(friday, {}), on(sunday, {})};
  week[0].rating = SessionRating(4, 60);
  week[1].rating = SessionRating(2, 80);
  week[2].rating = SessionRating(9, 50);
  week[3].rating = SessionRating(5, 60);
  week[4].rating = SessionRating(5, 100);
  const DailyLoads days = daily_loads(week);
  CHECK(days.sessions_without_rating == 0);
  const LoadSummary summary = summarise(days.loads);
  CHECK(summary.sum == 1650.0);
  CHECK(std::abs(summary.monotony.value() - 1.1137) < 5e-5);
  CHECK(std::abs(summary.strain.value() - 1837.6) < 0.05);
  week[4].rating.reset();
  CHECK(daily_loads(week).sessions_without_rating == 1);
}
