// tests/training/planned_week_test.cpp - what holds of any week, and what is none
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/training.hpp"
#include "training/weeks.hpp"

using namespace barwright_test;

TEST_CASE("a week that repeats may start on any day") {
  std::mt19937 random(5);
  for (int trial = 0; trial < 200; ++trial) {
    const Week week = random_week(random);
    Week later = week;
    const int by = 1 + trial % 6;
    for (PlannedSession& session : later) {
      session.day =
          all_weekdays[static_cast<std::size_t>((static_cast<int>(session.day) + by) % 7)];
    }
    CHECK(fractional_sets(later) == fractional_sets(week));
    CHECK(overlap(later).shared == overlap(week).shared);
    CHECK(overlap(later).between_upper_and_lower == overlap(week).between_upper_and_lower);
    CHECK(spacing_conflicts(later).size() == spacing_conflicts(week).size());
    const DayOrder order = best_order(week);
    const DayOrder order_later = best_order(later);
    CHECK(order_later.conflicts_after == order.conflicts_after);
    CHECK(order_later.overlap_after == order.overlap_after);
    CHECK(order_later.moved == order.moved);
  }
}

TEST_CASE("a rest day changes nothing where it is planned, and helps where it comes between") {
  std::mt19937 random(6);
  int helped = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const Week week = random_week(random);
    std::array<bool, 7> used{};
    for (const PlannedSession& session : week) used[static_cast<std::size_t>(session.day)] = true;

    Week with_rest = week;  // a session without lifts on a free day
    const auto free = std::find(used.begin(), used.end(), false);
    if (free == used.end()) continue;
    with_rest.push_back(on(all_weekdays[static_cast<std::size_t>(free - used.begin())], {}));
    CHECK(fractional_sets(with_rest) == fractional_sets(week));
    CHECK(overlap(with_rest).shared == overlap(week).shared);
    CHECK(spacing_conflicts(with_rest) == spacing_conflicts(week));

    if (used[6]) continue;  // push everything from some day on one day back
    const SpacingRule once{.week_repeats = false};
    Week stretched_out = week;
    for (PlannedSession& session : stretched_out) {
      const int day = static_cast<int>(session.day);
      if (day >= 1 + trial % 5) session.day = all_weekdays[static_cast<std::size_t>(day + 1)];
    }
    CHECK(overlap(stretched_out, once).shared.total() <= overlap(week, once).shared.total());
    CHECK(spacing_conflicts(stretched_out, once).size() <= spacing_conflicts(week, once).size());
    if (overlap(stretched_out, once).shared.total() < overlap(week, once).shared.total()) ++helped;
  }
  CHECK(helped > 10);  // so that the comparison above compared something
}

TEST_CASE("a session split in two on the same day counts as before") {
  std::mt19937 random(7);
  for (int trial = 0; trial < 200; ++trial) {
    const Week week = random_week(random);
    Week split;
    for (const PlannedSession& session : week) {
      PlannedSession morning = on(session.day, {});
      PlannedSession evening = morning;
      for (const PlannedLift& lift : session.lifts) {
        PlannedLift half = lift;
        if (lift.sets.count() > 1) {  // some of its sets in the morning, the others in the evening
          half.sets = Sets(lift.sets.count() / 2);
          morning.lifts.push_back(half);
          half.sets = Sets(lift.sets.count() - lift.sets.count() / 2);
        }
        evening.lifts.push_back(half);
      }
      split.push_back(evening);
      split.push_back(morning);
    }
    CHECK(fractional_sets(split) == fractional_sets(week));
    CHECK(overlap(split).shared == overlap(week).shared);
    CHECK(overlap(split).between_upper_and_lower == overlap(week).between_upper_and_lower);
    CHECK(spacing_conflicts(split) == spacing_conflicts(week));
    CHECK(best_order(split).to == best_order(week).to);
  }
}

TEST_CASE("the example at the top of planned_week.hpp answers as it says") {
  std::string shown;
  const auto show = [&](std::string_view text) { shown.append(text).append("; "); };
  std::vector<PlannedSession> week{
      {.day = Weekday::monday, .lifts = {{lifts::bench_press, 4_sets, 6_reps, 2_rir}}},
      {.day = Weekday::tuesday, .lifts = {{lifts::squat, 5_sets, 5_reps, 0_rir}}},
      {.day = Weekday::wednesday, .lifts = {{lifts::deadlift, 3_sets, 5_reps, 1_rir}}},
      {.day = Weekday::friday, .rating = SessionRating(6, 80)}};  // on the water, 80 minutes
  for (const SpacingConflict& conflict : spacing_conflicts(week)) show(to_text(conflict).str());
  const DayOrder order = best_order(week, {}, {.fixed = {true}});  // Monday stays
  if (order.moved > 0) week = reordered(week, order);

  CHECK(shown ==
        "glutes: to failure on Tuesday (squat) and hard again on Wednesday (deadlift), 24 h "
        "later; allow 72 h; ");
  CHECK(order.moved == 1);
  CHECK(week[2].day == friday);
  CHECK(spacing_conflicts(week).empty());
}

TEST_CASE("sets, days and rules out of range are refused") {
  static_assert((4_sets).count() == 4);
  CHECK(message_of([] { Sets(0); }) == "sets must be a whole number from 1 to 50; got 0");
  CHECK(Sets(1).count() == 1);
  CHECK(Sets(50).count() == 50);
  CHECK(message_of([] { Sets(51); }) == "sets must be a whole number from 1 to 50; got 51");
  CHECK(message_of([] {
          (void)overlap(Week{on(static_cast<Weekday>(7), {planned(lifts::squat, 1)})});
        }) == "a day of the week must be 0 (Monday) to 6 (Sunday); got 7");
  CHECK(message_of([] { (void)overlap(Week{}, {.hours_between = -1}); }) ==
        "the hours between hard sessions must be a whole number from 0 to 168; got -1");
  CHECK(message_of([] { (void)best_order(Week{}, {.hours_after_failure = 24}); }) ==
        "the hours after failure must be at least the hours between hard sessions, at most 168; "
        "got 24");
  CHECK(message_of([] { (void)best_order(Week{}, {}, {.most_load_rise_percent = 101}); }) ==
        "the per cent by which the heaviest day may rise must be a whole number from 0 to 100; got "
        "101");
  CHECK(message_of([] { (void)best_order(Week{}, {}, {.least_gain_percent = -1}); }) ==
        "the per cent of overlap worth moving for must be a whole number from 0 to 100; got -1");
  CHECK_THROWS_AS((void)best_order(Week{}, {}, {.least_gain_percent = 101}), DomainError);
  CHECK_THROWS_AS((void)overlap(Week{}, {.hours_after_failure = 169}), DomainError);
  CHECK_NOTHROW((void)overlap(Week{}, {.hours_after_failure = 168}));
  CHECK_NOTHROW((void)best_order(Week{}, {}, {.least_gain_percent = 100}));
  CHECK(message_of([] { (void)overlap(Week{}, {.bracing_percent = 101}); }) ==
        "the per cent of a set that bracing counts must be a whole number from 0 to 100; got 101");
  CHECK(message_of([] { (void)swaps(Week{}, {.cross_muscle_percent = 101}); }) ==
        "the per cent of a set that other muscles feel must be a whole number from 0 to 100; "
        "got 101");
}

TEST_CASE("days of the week are those of the calendar") {
  CHECK(weekday_of(Date(2026, 11, 25)) == wednesday);
  CHECK(to_text(weekday_of(Date(1969, 7, 20))) == "Sunday");  // the first landing on the moon
}
