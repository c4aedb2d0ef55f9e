// tests/plan/look_back_test.cpp - the questions of every week
//
// What counts as a set of a muscle group is published (training/volume.hpp); the rest is counted by
// hand. Lifters and sets are invented.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/plan/look_back.hpp"

#include <doctest/doctest.h>

#include <string_view>
#include <vector>

#include "barwright/lifts/catalogue.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

const Date today(2026, 11, 25);
const Lift bench = lifts::bench_press;

LoggedSet done(int days_ago, Mass load, double left, const Lift& lift = bench) {
  return {.date = today - days_ago,
          .lift = lift,
          .load = load,
          .reps = 5_reps,
          .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))};
}
LoggedSet unrated(int days_ago, Mass load) {
  return {.date = today - days_ago, .lift = bench, .load = load, .reps = 5_reps};
}
LoggedSet missed(int days_ago, Mass load) {
  LoggedSet set = unrated(days_ago, load);
  set.outcome = Outcome::missed;
  return set;
}

/// Three sets twice a week for ten weeks, the load changing by `step` a week.
std::vector<LoggedSet> ten_weeks(Mass first, double step) {
  std::vector<LoggedSet> log;
  for (int week = 0; week < 10; ++week) {
    for (const int day : {0, 3}) {
      for (int set = 0; set < 3; ++set) {
        log.push_back(
            done(70 - 7 * week - day, first + Mass::from_kg(20.0 + step * week) - 20_kg, 2));
      }
    }
  }
  return log;
}

}  // namespace

TEST_CASE("a week is seven days that end on the day asked about") {
  const std::vector<LoggedSet> log{done(-1, 60_kg, 2), done(0, 60_kg, 2),  done(6, 60_kg, 2),
                                   done(7, 60_kg, 2),  done(13, 60_kg, 2), done(14, 60_kg, 2)};
  const LookBack back = look_back(log, {.date = today, .weeks = 2});
  REQUIRE(back.weeks.size() == 2);
  CHECK(back.weeks[0].last == today);
  CHECK(back.weeks[0].first == today - 6);
  CHECK(back.weeks[0].hard_sets == 2);
  CHECK(back.weeks[0].days == 2);
  CHECK(back.weeks[1].hard_sets == 2);
  CHECK(back.weeks[0].lifted == Mass::from_kg(2 * 5 * 60.0));
}

TEST_CASE("hard sets are those with few left, the missed, and the unrated that are no warm-ups") {
  const std::vector<LoggedSet> log{done(1, 60_kg, 3), done(1, 60_kg, 4), unrated(1, 20_kg),
                                   unrated(1, 58_kg), missed(1, 65_kg),  done(1, 20_kg, 0)};
  const LoggedWeek week = look_back(log, {.date = today, .weeks = 2}).weeks[0];
  CHECK(week.hard_sets == 4);
  CHECK(week.unrated_sets == 1);
  CHECK(week.hard[MuscleGroup::chest] == 4.0);
  CHECK(week.hard[MuscleGroup::triceps] == 2.0);     // one half each
  CHECK(week.hard[MuscleGroup::quadriceps] == 0.0);  // braces
  // The rep that was missed was not lifted.
  CHECK(week.lifted == Mass::from_kg(5 * (60.0 + 60 + 20 + 58 + 20) + 4 * 65.0));
}

TEST_CASE("a lift that rises, falls or keeps is said to do so") {
  const auto verdict = [](double step) {
    const auto log = ten_weeks(80_kg, step);
    const LookBack back = look_back(log, {.date = today, .weeks = 10});
    REQUIRE(back.lifts.size() == 1);
    return name(back.lifts[0].verdict);
  };
  CHECK(verdict(1.0) == "rose");
  CHECK(verdict(-1.0) == "fell");
  CHECK(verdict(0.0) != "rose");
  CHECK(verdict(0.0) != "fell");
}

TEST_CASE("what hurt in these weeks is said, whatever the lift, and with a later date, too") {
  // [common practice, no source: it is the first question of a week]
  auto log = ten_weeks(80_kg, 1.0);
  const auto note = [&](int days_ago, std::string_view text, const Lift& lift) {
    log.push_back(done(days_ago, 60_kg, 3, lift));
    take_note(log.back(), text);
  };
  note(3, "sharp pain in shoulder", bench);
  note(5, "dizzy after", lifts::power_clean);
  note(10, "knee", lifts::squat);
  note(12, "felt easy", lifts::squat);
  note(80, "elbow hurt", bench);
  note(-300, "hurt my back", lifts::deadlift);
  const LookBack back = look_back(log, {.date = today});
  REQUIRE(back.noted.size() == 4);
  CHECK(back.noted[0].date == today + 300);
  CHECK(back.noted[1].has_pain);
  CHECK(back.noted[1].lift.same_as(bench));
  CHECK(back.noted[2].is_unwell);
  CHECK(back.noted[3].may_hurt);
  CHECK(back.noted_beside.empty());
  // By rows without a set.
  const LookBack told = look_back(
      log, {.date = today},
      {.noted = {{.date = today - 9, .hurts = true}, {.date = today - 90, .is_unwell = true}}});
  REQUIRE(told.noted_beside.size() == 1);
  CHECK(told.noted_beside[0].date == today - 9);
  CHECK(told.noted_beside[0].hurts);
}

TEST_CASE("of a few days nothing is said of how a lift goes: two sets are no trend") {
  // [assumption: of so few the model says what it would of anybody]
  for (const int days : {2, 3, 4, 8}) {
    CAPTURE(days);
    std::vector<LoggedSet> log;
    for (int day = 0; day < days; ++day) {
      log.push_back(done(7 * (days - day), Mass::from_kg(60.0 + 5 * day), 2));
    }
    const LearntLifter lifter = learn_lifter(log, bench, today);
    CHECK(lifter.learnt->days == days);
    CHECK(tells_trend(lifter) == (days >= 4));
    // Nor is the pace of then told after a layoff.
    CHECK_FALSE(tells_trend(learn_lifter(log, bench, today + 8)));
    const LookBack back = look_back(log, {.date = today});
    REQUIRE(back.lifts.size() == 1);
    if (days < 4) CHECK(name(back.lifts[0].verdict) == "unclear");
  }
}

TEST_CASE("each lift has its own answer, and the best sets of both weeks") {
  auto log = ten_weeks(80_kg, 1.0);
  log.push_back(done(2, 90_kg, 2));
  log.push_back(done(2, 90_kg, 1));
  log.push_back(done(3, 120_kg, 2, lifts::squat));
  log.push_back(done(200, 100_kg, 2, lifts::deadlift));
  const LookBack back = look_back(log, {.date = today});
  REQUIRE(back.lifts.size() == 2);  // the deadlift is too long ago
  CHECK(back.lifts[0].base.same_as(bench));
  CHECK(back.lifts[0].last == today - 2);
  REQUIRE(back.lifts[0].best);
  CHECK(back.lifts[0].best->reserve->typical == 2_rir);
  REQUIRE(back.lifts[0].best_before);
  CHECK(back.lifts[0].best_before->load == 89_kg);
  CHECK(back.lifts[1].days == 1);
  CHECK_FALSE(back.lifts[1].gain);
  CHECK(name(back.lifts[1].verdict) == "unclear");
  CHECK_FALSE(back.lifts[1].best_before);
}

TEST_CASE("the best set of a lift is one of its own, where it was trained") {
  // [common practice: nobody calls a set with dumbbells the best of the bench press]
  const Lift with_dumbbells = bench + modifiers::dumbbells;
  auto log = ten_weeks(80_kg, 0.0);
  log.push_back(done(1, 72_kg, 3, with_dumbbells));
  log.push_back(done(2, 80_kg, 2));
  log.push_back(done(3, 72_kg, 3, with_dumbbells));
  log.push_back(done(8, 72_kg, 3, with_dumbbells));
  auto only_dumbbells = log;
  std::erase_if(only_dumbbells,
                [](const LoggedSet& set) { return set.lift.is_plain() && today - set.date < 7; });
  const LookBack both = look_back(log, {.date = today});
  REQUIRE(both.lifts[0].best);
  CHECK(both.lifts[0].best->lift.is_plain());
  CHECK(both.lifts[0].best_before->lift.is_plain());
  const LookBack one = look_back(only_dumbbells, {.date = today});
  REQUIRE(one.lifts[0].best);
  CHECK(one.lifts[0].best->lift.same_as(with_dumbbells));
}

TEST_CASE("an empty log, and a lift that has no max, have no answer and no fault") {
  CHECK(look_back({}, {.date = today}).lifts.empty());
  const std::vector<LoggedSet> log{done(1, 60_kg, 2, lifts::power_clean)};
  const LookBack back = look_back(log, {.date = today});
  CHECK(back.lifts.empty());
  CHECK(back.weeks[0].hard_sets == 1);
}

TEST_CASE("a day counts for a lift where it lies in the weeks that are shown") {
  const std::vector<LoggedSet> log{done(13, 60_kg, 2), done(14, 60_kg, 2), done(6, 60_kg, 2)};
  const LookBack back = look_back(log, {.date = today, .weeks = 2});
  REQUIRE(back.lifts.size() == 1);
  CHECK(back.lifts[0].days == 2);  // fourteen days ago is the week before both
  CHECK(back.lifts[0].gain_weeks == 1.0);
}

TEST_CASE("what was trained and cannot be told is named, with the reason") {
  const std::vector<LoggedSet> log{done(1, 10_kg, 2, lifts::pull_up),
                                   done(2, 60_kg, 2, lifts::power_clean),
                                   done(90, 60_kg, 2, lifts::deadlift)};
  const LookBack back = look_back(log, {.date = today});
  REQUIRE(back.refused.size() == 2);  // the deadlift was not trained in these weeks
  CHECK(name(back.refused[0].refusal.code) == "no_body_mass");
  CHECK(name(back.refused[1].refusal.code) == "explosive_lift");
  const LookBack weighed = look_back(log, {.date = today}, {.body_mass = 70_kg});
  REQUIRE(weighed.lifts.size() == 1);
  CHECK(weighed.refused.size() == 1);
}

TEST_CASE("a max that somebody states says nothing of a change") {
  const auto log = ten_weeks(80_kg, 1.0);
  const LookBack back = look_back(log, {.date = today}, {.stated_max = 300_kg});
  CHECK(back.lifts[0].max.median() == look_back(log, {.date = today}).lifts[0].max.median());
}
