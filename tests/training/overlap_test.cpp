// tests/training/overlap_test.cpp - how far a day falls on muscles that are still tired
//
// Sums worked by hand here are marked derived.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <random>

#include "barwright/training.hpp"
#include "training/weeks.hpp"

using namespace barwright_test;

TEST_CASE(
    "squats and the bench press next day share what the press braces, a tenth of a set each") {
  // Derived: 5 squats ask 2.5 of the lower back and 5 of glutes and quadriceps; 4 bench sets brace
  // each of the three, which is 0.4 by this library's assumption, and 2 where a caller counts it as
  // help.
  const Week week{on(monday, {planned(lifts::squat, 5)}),
                  on(tuesday, {planned(lifts::bench_press, 4)})};
  const WeekOverlap shared = overlap(week);
  CHECK(shared.shared.total() == 1.2);
  CHECK(shared.shared[MuscleGroup::lower_back] == 0.4);
  CHECK(shared.shared[MuscleGroup::glutes] == 0.4);
  CHECK(shared.shared[MuscleGroup::quadriceps] == 0.4);
  CHECK(shared.between_upper_and_lower == shared.shared);
  CHECK(shared.by_bracing == shared.shared);
  REQUIRE(shared.days.size() == 1);
  CHECK(shared.days[0].earlier == monday);
  CHECK(shared.days[0].later == tuesday);
  CHECK(shared.days[0].hours == 24);
  CHECK(shared.days[0].shared == shared.shared);
  CHECK(shared.days[0].by_bracing == shared.shared);

  CHECK(overlap(week, {.bracing_percent = 50}).shared.total() == 6.0);
  CHECK(overlap(week, {.bracing_percent = 0}).shared.total() == 0.0);
  CHECK(overlap(week, {.bracing_percent = 0}).days.empty());
}

TEST_CASE("bracing alone makes no conflict and moves no day") {
  const Week week{on(monday, {planned(lifts::squat, 5, 0)}),
                  on(tuesday, {planned(lifts::bench_press, 4, 0)}),
                  on(friday, {planned(lifts::bench_pull, 4)})};
  for (const int percent : {10, 50, 100}) {
    const SpacingRule rule{.bracing_percent = percent};
    CHECK(overlap(week, rule).by_bracing.total() > 0.0);
    CHECK(overlap(week, rule).shared == overlap(week, rule).by_bracing);
    CHECK(spacing_conflicts(week, rule).empty());
    // Another order would share nothing at all; still this one is not worth leaving.
    const DayOrder order = best_order(week, rule, {.may_use_rest_days = true});
    CHECK(order.moved == 0);
    CHECK(order.overlap_before == 0.0);
  }
  SpacingRule strict;
  strict.least_involvement = Involvement::indirect;
  CHECK(spacing_conflicts(week, strict).empty());
}

TEST_CASE(
    "feet-up pressing the day after squats shares less lower back than pressing with leg drive") {
  // Common practice, no source; the counts are this library's.
  const auto after_squats = [](const Lift& lift) {
    return overlap(Week{on(monday, {planned(lifts::squat, 5)}), on(tuesday, {planned(lift, 4)})});
  };
  const WeekOverlap driven = after_squats(lifts::bench_press);
  const WeekOverlap feet_up = after_squats(feet_up_bench);
  CHECK(feet_up.shared[MuscleGroup::lower_back] < driven.shared[MuscleGroup::lower_back]);
  CHECK(feet_up.shared.total() < driven.shared.total());

  // A seated overhead press likewise, and a press wedged into the seat.
  CHECK(after_squats(lifts::overhead_press + modifiers::seated).shared.total() <
        after_squats(lifts::overhead_press).shared.total());
  CHECK(after_squats(lifts::bench_press + modifiers::wedged_incline)
            .shared[MuscleGroup::lower_back] == 0.0);
}

TEST_CASE("two upper-body days overlap, but not between upper and lower body") {
  const WeekOverlap shared = overlap(Week{on(monday, {planned(lifts::bench_press, 4)}),
                                          on(tuesday, {planned(lifts::overhead_press, 4)})});
  // Front shoulders and triceps; lower back and glutes only brace (derived).
  CHECK(shared.shared.total() == doctest::Approx(2.0 + 2.0 + 0.4 + 0.4).epsilon(1e-15));
  CHECK(shared.by_bracing.total() == 0.8);
  CHECK(shared.between_upper_and_lower.total() == 0.0);
}

TEST_CASE("after 48 hours only sets to failure overlap, after 72 nothing") {
  const auto at = [](Weekday day, double reserve) {
    return overlap(
               Week{on(monday, {planned(lifts::bench_press, 3), planned(lifts::dip, 2, reserve)}),
                    on(day, {planned(lifts::dip, 4)})})
        .shared[MuscleGroup::chest];
  };
  CHECK(at(tuesday, 2) == 4.0);
  CHECK(at(wednesday, 2) == 0.0);
  CHECK(at(wednesday, 0) == 2.0);
  CHECK(at(thursday, 0) == 0.0);
}

TEST_CASE("muscles that did not work are not tired, unless the caller wants it so") {
  // Behm et al. 2021, abstract read: -0.02 (-0.14 to 0.09) over 278 effects. The default is none.
  CHECK(SpacingRule{}.cross_muscle_percent == 0);
  const Week week{on(monday, {planned(lifts::leg_curl, 10)}),
                  on(tuesday, {planned(lifts::biceps_curl, 4)})};
  CHECK(overlap(week).shared.total() == 0.0);
  // Derived: a tenth of ten sets is one, shared by biceps (4) and forearms (2).
  const WeekOverlap felt = overlap(week, {.cross_muscle_percent = 10});
  CHECK(felt.shared.total() == 2.0);
  CHECK(felt.between_upper_and_lower.total() == 2.0);
  CHECK(overlap(week, {.cross_muscle_percent = 1}).shared[MuscleGroup::biceps] == 0.1);
}

TEST_CASE("the overlap of a week is the sum of its parts") {
  std::mt19937 random(21);
  for (int trial = 0; trial < 300; ++trial) {
    const Week week = random_week(random);
    const SpacingRule rule{.week_repeats = trial % 2 == 0, .cross_muscle_percent = trial % 5};
    const WeekOverlap whole = overlap(week, rule);
    FractionalSets shared;
    FractionalSets across;
    FractionalSets braced;
    for (const DayOverlap& pair : whole.days) {
      shared += pair.shared;
      across += pair.between_upper_and_lower;
      braced += pair.by_bracing;
      CHECK(pair.hours < rule.hours_after_failure);
      CHECK(pair.shared.total() > 0.0);
    }
    CHECK(shared == whole.shared);
    CHECK(across == whole.between_upper_and_lower);
    CHECK(braced == whole.by_bracing);
    for (const MuscleGroup group : all_muscle_groups) {
      CHECK(across[group] <= shared[group]);
      CHECK(braced[group] >= 0.0);
      CHECK(braced[group] <= shared[group]);
    }
    SpacingRule of_lifting = rule;
    of_lifting.bracing_percent = 0;
    CHECK(overlap(week, of_lifting).shared + braced == shared);
  }
}
