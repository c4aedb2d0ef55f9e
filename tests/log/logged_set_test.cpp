// tests/logged_set_test.cpp - one set as it was done, and the max that the last weeks' sets imply
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/logged_set.hpp"
#include "barwright/curves/adapters.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <list>
#include <optional>
#include <random>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_table.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);
const Lift bench = lifts::bench_press;
const Lift feet_up = lifts::bench_press + modifiers::feet_up;

std::optional<Range<RepsInReserve>> rated(double reserve) {
  return Range<RepsInReserve>::exactly(RepsInReserve(reserve));
}

/// A completed set, rated, `days_ago` before today.
LoggedSet done(int days_ago, double kg, int reps, double reserve, const Lift& lift = bench) {
  return {.date = today - days_ago,
          .lift = lift,
          .load = Mass::from_kg(kg),
          .reps = Reps(reps),
          .reserve = rated(reserve)};
}

/// A set that was to failure at this max by Brzycki's curve: 5 reps done, 2 left.
LoggedSet at_max(int days_ago, double max_kg) {
  return done(days_ago, max_kg * equations::brzycki.fraction(7.0), 5, 2);
}

/// A set of which the last rep tried was missed.
LoggedSet missed(int days_ago, double kg, int tried) {
  LoggedSet set = done(days_ago, kg, tried, 0);
  set.reserve.reset();
  set.outcome = Outcome::missed;
  return set;
}

std::optional<RecentMax> recent(const auto& log, const RecentMaxRule& rule = {}) {
  return recent_max(equations::brzycki, log, bench, today, rule);
}

}  // namespace

TEST_CASE("a rated set stands for the reps done and those left") {
  CHECK(reps_to_failure(done(0, 100, 5, 2)) == 7.0);
  CHECK(reps_to_failure(done(0, 100, 1, 0)) == 1.0);
  CHECK(reps_to_failure(done(0, 100, 5, 1.5)) == 6.5);
  LoggedSet half_point = done(0, 100, 5, 0);
  half_point.reserve = reps_in_reserve(Rpe(8.5));
  CHECK(reps_to_failure(half_point) == 6.5);  // 1 to 2 left
}

TEST_CASE("a missed set stands for the reps before the miss, rated or not") {
  LoggedSet missed = done(0, 100, 5, 0);
  missed.outcome = Outcome::missed;
  CHECK(reps_to_failure(missed) == 4.0);
  missed.reserve = rated(3.0);  // what was said does not matter: it was missed
  CHECK(reps_to_failure(missed) == 4.0);
  missed.reserve.reset();
  CHECK(reps_to_failure(missed) == 4.0);
  CHECK(one_rep_max(equations::brzycki, missed)->kg() == doctest::Approx(100.0 * 36 / 33));
}

TEST_CASE("a completed set without a rating says nothing of failure") {
  LoggedSet unrated = done(0, 100, 5, 0);
  unrated.reserve.reset();
  CHECK(!reps_to_failure(unrated));
  CHECK(!one_rep_max(equations::brzycki, unrated));
}

TEST_CASE("a rated set implies the max of its curve") {
  CHECK(one_rep_max(equations::brzycki, done(0, 100, 5, 2))->kg() == doctest::Approx(120.0));
  CHECK(one_rep_max(equations::brzycki, done(0, 100, 1, 0))->kg() == doctest::Approx(100.0));
}

TEST_CASE("a missed single implies no max, on whatever curve") {
  LoggedSet missed = done(0, 100, 1, 0);
  missed.outcome = Outcome::missed;
  CHECK(reps_to_failure(missed) == 0.0);
  CHECK(!one_rep_max(equations::brzycki, missed));
  CHECK(!one_rep_max(CriticalLoad(0.45, 6.0), missed));  // defined from 0 reps
  CHECK(!one_rep_max(anchored(CriticalLoad(0.45, 6.0)), missed));
  CHECK(!one_rep_max(stretched(CriticalLoad(0.45, 6.0), 1.5), missed));
}

TEST_CASE("an empty bar and a set beyond the curve imply no max") {
  CHECK(!one_rep_max(equations::brzycki, done(0, 0, 5, 2)));
  CHECK(!one_rep_max(rep_tables::nsca_chart, done(0, 60, 12, 1)));  // the chart ends at 12
  CHECK(one_rep_max(rep_tables::nsca_chart, done(0, 60, 11, 1)).has_value());
  CHECK(!one_rep_max(equations::epley, done(0, 60, 100, 30)));
}

TEST_CASE("the recent max is the median of the sessions' best sets") {
  const std::array log{at_max(20, 110), at_max(20, 114), at_max(20, 104),  // 114
                       at_max(13, 118), at_max(13, 100),                   // 118
                       at_max(6, 116)};                                    // 116
  const auto max = recent(log);
  REQUIRE(max.has_value());
  CHECK(max->typical.kg() == doctest::Approx(116.0));
  CHECK(max->lowest.kg() == doctest::Approx(114.0));
  CHECK(max->highest.kg() == doctest::Approx(118.0));
  CHECK(max->spread() == doctest::Approx(4.0 / 116.0));
  CHECK(max->sessions == 3);
  CHECK(max->sets_used == 6);
  CHECK(max->sets_without_estimate() == 0);
  CHECK(max->first == today - 20);
  CHECK(max->last == today - 6);
}

TEST_CASE("of an even number of sessions, half-way between the middle two") {
  const std::array log{at_max(20, 110), at_max(13, 140), at_max(6, 112), at_max(3, 116)};
  CHECK(recent(log)->typical.kg() == doctest::Approx(114.0));
}

TEST_CASE("one session is its own best, median and worst") {
  const std::array log{at_max(3, 116), at_max(3, 112)};
  const auto max = recent(log);
  REQUIRE(max.has_value());
  CHECK(max->typical == max->lowest);
  CHECK(max->typical == max->highest);
  CHECK(max->spread() == 0.0);
  CHECK(max->first == max->last);
}

TEST_CASE("one mistyped session does not decide, high or low") {
  for (const double typed : {10.0, 1160.0}) {  // a digit too few, a digit too many
    const std::array log{at_max(20, 114), at_max(13, 116), at_max(6, typed), at_max(3, 115),
                         at_max(1, 117)};
    const auto max = recent(log);
    REQUIRE(max.has_value());
    CHECK(max->typical.kg() >= 114.9);
    CHECK(max->typical.kg() <= 116.1);
    CHECK(max->spread() > 0.8);  // and it shows
  }
}

TEST_CASE("a pound entry read as kilograms does not decide either") {
  const double pounds = Mass::from_kg(115).lb();
  const std::array log{at_max(20, 114), at_max(13, pounds), at_max(6, 116)};
  CHECK(recent(log)->typical.kg() == doctest::Approx(116.0));
}

TEST_CASE("the order of the sets does not matter") {
  std::mt19937 random(7);
  std::vector<LoggedSet> log;
  for (int i = 0; i < 60; ++i) {
    LoggedSet set = at_max(i % 9 * 3, 100.0 + static_cast<double>(random() % 30));
    if (i % 7 == 0) set.reserve.reset();
    if (i % 11 == 0) set.outcome = Outcome::missed;
    log.push_back(set);
  }
  const auto expected = recent(log);
  REQUIRE(expected.has_value());
  for (int round = 0; round < 200; ++round) {
    std::shuffle(log.begin(), log.end(), random);
    const auto max = recent(log);
    REQUIRE(max.has_value());
    CHECK(max->typical == expected->typical);
    CHECK(max->lowest == expected->lowest);
    CHECK(max->highest == expected->highest);
    CHECK(max->sessions == expected->sessions);
    CHECK(max->sets_used == expected->sets_used);
    CHECK(max->sets_without_estimate() == expected->sets_without_estimate());
    CHECK(max->first == expected->first);
    CHECK(max->last == expected->last);
  }
}

TEST_CASE("the recent max is that of the same sets gone through by hand") {
  // The plain way: for each day of the window its best, then the median by counting.
  std::mt19937 random(11);
  for (int round = 0; round < 300; ++round) {
    std::vector<LoggedSet> log;
    const std::size_t sets = 1 + random() % 40;
    for (std::size_t i = 0; i < sets; ++i) {
      const int days_ago = static_cast<int>(random() % 40);
      const double kg = 40.0 + static_cast<double>(random() % 80);
      const int reps = 1 + static_cast<int>(random() % 15);
      const double reserve = static_cast<double>(random() % 8);
      log.push_back(done(days_ago, kg, reps, reserve, random() % 4 == 0 ? feet_up : bench));
    }
    std::vector<double> bests;
    int used = 0;
    int without = 0;
    for (int age = 0; age < 28; ++age) {
      double best = 0.0;
      for (const LoggedSet& set : log) {
        if (set.date != today - age || !set.lift.same_as(bench)) continue;
        const double reps = set.reps.count() + set.reserve->typical.count();
        if (reps > 12.0 || set.reserve->typical.count() > 5.0) {
          ++without;
          continue;
        }
        ++used;
        best = std::max(best, set.load.kg() * 36.0 / (37.0 - reps));
      }
      if (best > 0.0) bests.push_back(best);
    }
    const auto max = recent(log);
    CHECK(max.has_value() == !bests.empty());
    if (!max) continue;
    std::sort(bests.begin(), bests.end());
    const double median = 0.5 * (bests[(bests.size() - 1) / 2] + bests[bests.size() / 2]);
    CHECK(std::abs(max->typical.kg() - median) <= 1e-12 * median);
    CHECK(std::abs(max->lowest.kg() - bests.front()) <= 1e-12 * median);
    CHECK(std::abs(max->highest.kg() - bests.back()) <= 1e-12 * median);
    CHECK(max->sessions == static_cast<int>(bests.size()));
    CHECK(max->sets_used == used);
    CHECK(max->sets_without_estimate() == without);
  }
}

TEST_CASE("the window is so many days, today included, and never the future") {
  CHECK(recent(std::array{at_max(0, 100)}).has_value());
  CHECK(recent(std::array{at_max(27, 100)}).has_value());
  CHECK(!recent(std::array{at_max(28, 100)}));
  CHECK(!recent(std::array{at_max(-1, 100)}));
  CHECK(recent(std::array{at_max(0, 100)}, {.days = 1}).has_value());
  CHECK(!recent(std::array{at_max(1, 100)}, {.days = 1}));
  CHECK_THROWS_AS((void)recent(std::array{at_max(0, 100)}, {.days = 0}), DomainError);
  CHECK_THROWS_AS((void)recent(std::array{at_max(0, 100)}, {.days = -28}), DomainError);
}

TEST_CASE("sets outside the window or of another lift are not counted at all") {
  const std::array log{at_max(28, 90), at_max(-1, 200), at_max(5, 116), done(5, 300, 5, 2, feet_up),
                       done(4, 300, 5, 2, lifts::squat)};
  const auto max = recent(log);
  REQUIRE(max.has_value());
  CHECK(max->highest.kg() == doctest::Approx(116.0));
  CHECK(max->sets_used == 1);
  CHECK(max->sets_without_estimate() == 0);
  CHECK(recent_max(equations::brzycki, log, feet_up, today)->typical.kg() ==
        doctest::Approx(360.0));
  CHECK(!recent_max(equations::brzycki, log, lifts::deadlift, today));
}

TEST_CASE("sets that say little of the max are counted by the reason, not used") {
  LoggedSet unrated = at_max(3, 300);
  unrated.reserve.reset();
  const std::array log{at_max(3, 116),
                       done(3, 100, 10, 3) /* 13: too long */,
                       done(3, 200, 5, 5.5),
                       done(3, 200, 5, 6),
                       unrated,
                       missed(3, 300, 1),
                       done(3, 0, 5, 2),
                       done(3, 100, 9, 9) /* too long, and far */};
  const auto max = recent(log);
  REQUIRE(max.has_value());
  CHECK(max->highest.kg() == doctest::Approx(116.0));
  CHECK(max->sets_used == 1);
  CHECK(max->sets_only_bounding == 1);
  CHECK(max->sets_unrated == 1);
  CHECK(max->sets_unloaded == 1);
  CHECK(max->sets_too_long == 2);
  CHECK(max->sets_far_from_failure == 2);
  CHECK(max->sets_without_estimate() == 7);
}

TEST_CASE("twelve reps to failure and five left are still used") {
  CHECK(recent(std::array{done(3, 70, 9, 3)})->sets_used == 1);
  CHECK(recent(std::array{done(3, 70, 7, 5)})->sets_used == 1);
  CHECK(!recent(std::array{done(3, 70, 9, 3.5)}));
  CHECK(!recent(std::array{done(3, 70, 6, 5.5)}));
  CHECK(recent(std::array{done(3, 70, 10, 5)}, {.most_reps_to_failure = 15.0})->sets_used == 1);
  CHECK(recent(std::array{done(3, 70, 3, 7)}, {.most_reserve = 7.0})->sets_used == 1);
}

TEST_CASE("the stated reserve of a missed set cannot disqualify it") {
  LoggedSet missed = done(3, 100, 5, 8);
  missed.outcome = Outcome::missed;
  CHECK(recent(std::array{missed})->typical.kg() == doctest::Approx(100.0 * 36 / 33));
}

TEST_CASE("a missed rep says what the max was below, those before it what it was at least") {
  // Brzycki: 5 reps are 32/36 of the max, 4 are 33/36 (published equation, read).
  CHECK(max_is_below(equations::brzycki, missed(0, 100, 5))->kg() ==
        doctest::Approx(100.0 * 36 / 32));
  CHECK(least_max(equations::brzycki, missed(0, 100, 5))->kg() == doctest::Approx(100.0 * 36 / 33));
  CHECK(least_max(equations::brzycki, done(0, 100, 5, 4))->kg() ==
        doctest::Approx(100.0 * 36 / 32));
  CHECK(!max_is_below(equations::brzycki, done(0, 100, 5, 0)));
  SUBCASE("of a single it is the load, on any curve, though some make it more") {
    REQUIRE(one_rep_max(equations::epley, 100_kg, 1_reps) > 103_kg);
    CHECK(max_is_below(equations::epley, missed(0, 100, 1)) == 100_kg);
    CHECK(least_max(equations::epley, done(0, 100, 1, 0)) == 100_kg);
    CHECK(!least_max(equations::epley, missed(0, 100, 1)));
  }
  SUBCASE("an empty bar and a set beyond the curve say neither") {
    CHECK(!max_is_below(equations::brzycki, missed(0, 0, 1)));
    CHECK(!least_max(equations::brzycki, done(0, 0, 5, 2)));
    CHECK(!max_is_below(rep_tables::nsca_chart, missed(0, 60, 13)));
    CHECK(!least_max(rep_tables::nsca_chart, done(0, 60, 13, 0)));
  }
}

TEST_CASE("who misses 100 kg and then 90 kg once has no max of 120 kg") {
  const std::array log{done(9, 100, 5, 2), missed(7, 100, 1), missed(5, 90, 1)};
  REQUIRE(recent(std::array{log[0]})->typical.kg() == doctest::Approx(120.0));
  CHECK(recent(std::array{log[0], log[1]})->typical == 100_kg);
  const auto max = recent(log);
  REQUIRE(max.has_value());
  CHECK(max->typical == 90_kg);
  CHECK(max->highest == 90_kg);
  CHECK(max->bound == 90_kg);
  CHECK(max->sessions == 1);
  CHECK(max->sets_only_bounding == 2);
  SUBCASE("in whatever order they are written down") {
    CHECK(recent(std::array{log[2], log[0], log[1]})->typical == 90_kg);
  }
  SUBCASE("on the same day likewise, but for what did go up") {
    // 5 reps at 100 kg take a max of 112.5 kg; a single missed after them was fatigue.
    const auto tired = recent(std::array{done(5, 100, 5, 2), missed(5, 100, 1)});
    CHECK(tired->typical.kg() == doctest::Approx(100.0 * 36 / 32));
    const auto rated_too_high = recent(std::array{done(5, 100, 2, 5), missed(5, 110, 1)});
    CHECK(rated_too_high->typical == 110_kg);
  }
}

TEST_CASE("a session's best is capped by its lowest miss") {
  // 100 kg x 3 with 4 left says 120 kg; 100 kg missed at the sixth says less than 36/31 of it, and
  // at the fifth less than 36/32.
  CHECK(recent(std::array{done(3, 100, 3, 4), missed(3, 100, 6)})->typical.kg() ==
        doctest::Approx(100.0 * 36 / 31));
  CHECK(
      recent(std::array{done(3, 100, 3, 4), missed(3, 100, 6), missed(3, 100, 5)})->typical.kg() ==
      doctest::Approx(100.0 * 36 / 32));
  SUBCASE("not by that of another session, which has its own estimate") {
    const auto max = recent(std::array{done(9, 100, 3, 4), missed(3, 100, 6)});
    CHECK(max->highest.kg() == doctest::Approx(120.0));
    CHECK(max->lowest.kg() == doctest::Approx(100.0 * 36 / 32));  // the five that went up
    CHECK(!max->bound);
  }
  SUBCASE("not by one above it") {
    CHECK(recent(std::array{done(3, 100, 3, 4), missed(3, 130, 1)})->typical.kg() ==
          doctest::Approx(120.0));
  }
}

TEST_CASE("a bound holds until a later session passes it") {
  const LoggedSet before = at_max(20, 120);
  const LoggedSet bad_day = missed(10, 100, 1);
  CHECK(recent(std::array{before, bad_day})->typical == 100_kg);
  SUBCASE("a better one: the miss was a bad day") {
    const auto max = recent(std::array{before, bad_day, at_max(5, 118)});
    CHECK(max->typical.kg() == doctest::Approx(119.0));
    CHECK(!max->bound);
  }
  SUBCASE("a worse one confirms it") {
    const auto max = recent(std::array{before, bad_day, at_max(5, 98)});
    CHECK(max->typical.kg() == doctest::Approx(99.0));
    CHECK(max->bound == 100_kg);
  }
  SUBCASE("of several misses on that day, each for itself") {
    const auto max = recent(std::array{before, bad_day, missed(10, 110, 1), at_max(5, 105)});
    CHECK(max->bound == 110_kg);
    CHECK(max->highest == 110_kg);
  }
  SUBCASE("it says nothing of sessions after it") {
    CHECK(recent(std::array{bad_day, at_max(5, 118)})->typical.kg() == doctest::Approx(118.0));
  }
  SUBCASE("outside the window, or of another lift, it is none") {
    CHECK(recent(std::array{at_max(20, 120), missed(28, 100, 1)})->typical.kg() ==
          doctest::Approx(120.0));
    LoggedSet other = bad_day;
    other.lift = feet_up;
    CHECK(recent(std::array{before, other})->typical.kg() == doctest::Approx(120.0));
  }
}

TEST_CASE("a load missed once and lifted later is no reason to think that more went up before") {
  // Lifted, not passed: the miss still caps the session before it.
  const auto max = recent(std::array{at_max(6, 105), missed(3, 100, 1), at_max(0, 100)});
  REQUIRE(max);
  CHECK(max->bound == 100_kg);
  CHECK(max->highest == 100_kg);
  // Half a kilogram more passes it.
  const auto passed = recent(std::array{at_max(6, 105), missed(3, 100, 1), at_max(0, 100.5)});
  REQUIRE(passed);
  CHECK(!passed->bound);
  CHECK(passed->highest.kg() == doctest::Approx(105.0));
}

TEST_CASE("one more missed single never raises the recent max") {
  std::mt19937 random(5);
  const auto below = [&](unsigned limit) { return static_cast<int>(random() % limit); };
  for (int round = 0; round < 3000; ++round) {
    std::vector<LoggedSet> log;
    for (int i = 0; i < 5; ++i) {
      const int days_ago = below(5);
      const double max = 100.0 + below(30);
      const int tried = below(4);
      log.push_back(tried > 0 ? missed(days_ago, max, tried) : at_max(days_ago, max));
    }
    const auto before = recent(log);
    const int days_ago = below(5);
    log.push_back(missed(days_ago, 80.0 + below(50), 1));
    const auto after = recent(log);
    REQUIRE(before.has_value() == after.has_value());
    if (!before) continue;
    CHECK(after->typical <= before->typical);
    CHECK(after->highest <= before->highest);
    CHECK((!after->bound || after->highest <= *after->bound));
  }
}

TEST_CASE("missed singles alone say nothing but what the max is below") {
  CHECK(!recent(std::array{missed(3, 100, 1)}));
}

TEST_CASE("an empty log, and one without an estimate, say nothing") {
  CHECK(!recent(std::vector<LoggedSet>{}));
  LoggedSet unrated = at_max(3, 100);
  unrated.reserve.reset();
  CHECK(!recent(std::array{unrated}));
}

TEST_CASE("any range of sets is a log") {
  const std::list<LoggedSet> log{at_max(3, 116), at_max(10, 112)};
  CHECK(recent(log)->sessions == 2);
  CHECK(sessions_of(log, bench, today) == 2);
}

TEST_CASE("a lift is as old as the days it was trained on, whatever became of the sets") {
  LoggedSet unrated = at_max(3, 100);
  unrated.reserve.reset();
  const std::array log{at_max(200, 100), at_max(200, 100), at_max(10, 100),
                       unrated,          at_max(-2, 100),  done(1, 80, 6, 2, feet_up)};
  CHECK(sessions_of(log, bench, today) == 3);
  CHECK(sessions_of(log, bench, today - 3) == 3);  // that day included
  CHECK(sessions_of(log, bench, today - 4) == 2);
  CHECK(sessions_of(log, bench, today + 2) == 4);
  CHECK(sessions_of(log, feet_up, today) == 1);
  CHECK(sessions_of(log, lifts::squat, today) == 0);  // new
  CHECK(sessions_of(std::vector<LoggedSet>{}, bench, today) == 0);
}
