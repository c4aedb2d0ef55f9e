// tests/training/spacing_test.cpp - hard sessions of a muscle group, and the hours between them
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <vector>

#include "barwright/training.hpp"
#include "training/weeks.hpp"

using namespace barwright_test;

TEST_CASE("the bench press is too close the next day, and far enough 48 hours later") {
  // 48 hours between hard sessions of the same lift: inferred from Belcher 2019 and others.
  const auto conflicts = spacing_conflicts(Week{on(monday, {planned(lifts::bench_press, 4)}),
                                                on(tuesday, {planned(lifts::bench_press, 3)})});
  REQUIRE(conflicts.size() == 1);
  CHECK(conflicts[0] == SpacingConflict{MuscleGroup::chest,
                                        monday,
                                        tuesday,
                                        24,
                                        48,
                                        false,
                                        {lifts::bench_press},
                                        {lifts::bench_press}});
  CHECK(to_text(conflicts[0]) ==
        "chest: hard on Monday (bench press) and again on Tuesday (bench press), 24 h later; "
        "allow 48 h");
  CHECK(spacing_conflicts(Week{on(monday, {planned(lifts::bench_press, 4)}),
                               on(wednesday, {planned(lifts::bench_press, 3)})})
            .empty());
}

TEST_CASE("after failure 72 hours are wanted, before it 48") {
  // Failure slows recovery by 24 to 48 hours (Moran-Navarro 2017, abstract read); 72 is inferred.
  const auto failed = planned(lifts::bench_press, 4, 0);
  const auto hard = planned(lifts::bench_press, 4, 2);
  const auto conflicts = spacing_conflicts(Week{on(monday, {failed}), on(wednesday, {hard})});
  REQUIRE(conflicts.size() == 1);
  CHECK(conflicts[0] == SpacingConflict{MuscleGroup::chest,
                                        monday,
                                        wednesday,
                                        48,
                                        72,
                                        true,
                                        {lifts::bench_press},
                                        {lifts::bench_press}});
  CHECK(to_text(conflicts[0]) ==
        "chest: to failure on Monday (bench press) and hard again on Wednesday (bench press), 48 "
        "h later; allow 72 h");
  CHECK(spacing_conflicts(Week{on(monday, {failed}), on(thursday, {hard})}).empty());
  CHECK(spacing_conflicts(Week{on(monday, {hard}), on(wednesday, {failed})}).empty());
}

TEST_CASE("a conflict names the lifts it comes from, and no others of those days") {
  const Week week{on(monday, {planned(lifts::bench_press, 4, 0), planned(lifts::dip, 3, 2),
                              planned(lifts::squat, 4, 2)}),
                  on(tuesday, {planned(lifts::push_up, 3, 2), planned(feet_up_bench, 2, 5),
                               planned(feet_up_bench, 3, 1), planned(lifts::push_up, 1, 1)}),
                  on(wednesday, {planned(lifts::dip, 3, 2)})};
  const auto conflicts = spacing_conflicts(week, {.week_repeats = false});
  const auto chest = [&](Weekday earlier, Weekday later) -> const SpacingConflict& {
    const auto found =
        std::find_if(conflicts.begin(), conflicts.end(), [&](const SpacingConflict& conflict) {
          return conflict.group == MuscleGroup::chest && conflict.earlier == earlier &&
                 conflict.later == later;
        });
    REQUIRE(found != conflicts.end());
    return *found;
  };
  // The dip of Monday was no failure; the easy sets of Tuesday are not why it is hard.
  CHECK(chest(monday, tuesday).earlier_lifts == std::vector<Lift>{lifts::bench_press});
  CHECK(chest(monday, tuesday).later_lifts == std::vector<Lift>{lifts::push_up, feet_up_bench});
  CHECK(chest(tuesday, wednesday).earlier_lifts ==
        std::vector<Lift>{lifts::push_up, feet_up_bench});
  CHECK(to_text(chest(tuesday, wednesday)) ==
        "chest: hard on Tuesday (push-up; bench press, feet up) and again on Wednesday (dip), 24 "
        "h later; allow 48 h");
  const std::vector<Lift> many{lifts::dip, lifts::push_up, lifts::squat, lifts::deadlift,
                               lifts::bench_pull};
  CHECK(to_text(many) == "dip; push-up; squat and 2 more");
}

TEST_CASE("Sunday is the day before Monday when the week repeats") {
  const Week week{on(monday, {planned(lifts::squat, 4)}), on(sunday, {planned(lifts::squat, 4)})};
  const auto conflicts = spacing_conflicts(week);
  REQUIRE(conflicts.size() == 2);  // quadriceps and glutes
  CHECK(conflicts[0].earlier == sunday);
  CHECK(conflicts[0].later == monday);
  CHECK(conflicts[0].hours == 24);
  CHECK(spacing_conflicts(week, {.week_repeats = false}).empty());
}

TEST_CASE("muscles that only help make no conflict, unless the caller wants it so") {
  const Week week{on(monday, {planned(lifts::overhead_press, 4)}),
                  on(tuesday, {planned(lifts::bench_press, 4)})};
  CHECK(spacing_conflicts(week).empty());
  const auto strict = spacing_conflicts(week, {.least_involvement = Involvement::indirect});
  std::vector<MuscleGroup> groups;
  for (const SpacingConflict& conflict : strict) groups.push_back(conflict.group);
  CHECK(groups == std::vector{MuscleGroup::front_shoulders, MuscleGroup::triceps});
}

TEST_CASE("easy sets may come any day") {
  const Week week{on(monday, {planned(lifts::squat, 4)}),
                  on(tuesday, {planned(lifts::squat, 4, 4)})};
  CHECK(spacing_conflicts(week).empty());
  CHECK(spacing_conflicts(week, {.most_reserve_of_hard_set = 4_rir}).size() == 2);
}

TEST_CASE("today's session is held against the last days of a log") {
  const Date today(2026, 11, 25);  // a Wednesday
  const auto set = [&](int days_ago, const Lift& lift, Outcome outcome) {
    return LoggedSet{.date = today - days_ago,
                     .lift = lift,
                     .load = 80_kg,
                     .reps = 5_reps,
                     .reserve = Range<RepsInReserve>::exactly(2_rir),
                     .outcome = outcome};
  };
  const std::vector<PlannedLift> bench{planned(feet_up_bench, 3)};

  auto conflicts =
      spacing_conflicts(std::vector{set(1, lifts::bench_press, Outcome::completed)}, bench, today);
  REQUIRE(conflicts.size() == 1);
  CHECK(conflicts[0] == SpacingConflict{MuscleGroup::chest,
                                        tuesday,
                                        wednesday,
                                        24,
                                        48,
                                        false,
                                        {lifts::bench_press},
                                        {feet_up_bench}});

  // Two days are enough, unless the last rep was missed or nothing was left.
  std::vector<LoggedSet> log{set(2, lifts::bench_press, Outcome::completed)};
  CHECK(spacing_conflicts(log, bench, today).empty());
  log[0].outcome = Outcome::missed;
  conflicts = spacing_conflicts(log, bench, today);
  REQUIRE(conflicts.size() == 1);
  CHECK(conflicts[0] == SpacingConflict{MuscleGroup::chest,
                                        monday,
                                        wednesday,
                                        48,
                                        72,
                                        true,
                                        {lifts::bench_press},
                                        {feet_up_bench}});
  log[0].outcome = Outcome::completed;
  log[0].may_be_missed = true;
  CHECK(spacing_conflicts(log, bench, today) == conflicts);
  log[0].may_be_missed = false;
  log[0].reserve = Range<RepsInReserve>::exactly(0_rir);
  CHECK(spacing_conflicts(log, bench, today).size() == 1);

  // Easy, unrated, other muscles, three days ago, today and tomorrow.
  log[0] = set(1, lifts::bench_press, Outcome::completed);
  log[0].reserve = Range<RepsInReserve>::exactly(5_rir);
  CHECK(spacing_conflicts(log, bench, today).empty());
  log[0].reserve.reset();
  CHECK(spacing_conflicts(log, bench, today).size() == 1);
  CHECK(
      spacing_conflicts(std::vector{set(1, lifts::squat, Outcome::missed)}, bench, today).empty());
  for (const int days : {3, 7, 8, 0, -1}) {
    CHECK(
        spacing_conflicts(std::vector{set(days, lifts::bench_press, Outcome::missed)}, bench, today)
            .empty());
  }
}
