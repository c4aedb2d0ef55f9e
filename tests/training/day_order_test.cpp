// tests/training/day_order_test.cpp - the order of days that overlaps least
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <numeric>
#include <random>
#include <tuple>
#include <vector>

#include "barwright/training.hpp"
#include "training/weeks.hpp"

using namespace barwright_test;

TEST_CASE("two hard bench days in a row come apart, moving one of them") {
  const Week week{on(monday, {planned(lifts::bench_press, 4)}),
                  on(tuesday, {planned(lifts::bench_press, 4)}),
                  on(thursday, {planned(lifts::squat, 4)})};
  const DayOrder order = best_order(week, {}, {.may_use_rest_days = true});
  // A day of rest stays one unless asked: without, the days can only change places.
  CHECK(best_order(week).to ==
        std::array{monday, thursday, wednesday, tuesday, friday, Weekday::saturday, sunday});
  CHECK(order.conflicts_before == 1);
  CHECK(order.overlap_before == 4.0 + 2 * 2.0);  // chest 4, two helpers 2 each (derived)
  CHECK(order.conflicts_after == 0);
  CHECK(order.overlap_after == 0.0);
  CHECK(order.moved == 1);
  CHECK(order.to[0] == monday);  // moving Tuesday leaves Monday earliest
  CHECK(order.to[1] == wednesday);
  CHECK(order.to[3] == thursday);

  const Week better = reordered(week, order);
  CHECK(better[0].day == monday);
  CHECK(better[1].day == wednesday);
  CHECK(spacing_conflicts(better).empty());
  CHECK(overlap(better).shared == overlap(better).by_bracing);  // the press before the squats
}

TEST_CASE("a week that cannot be bettered stays as it is") {
  const Week week{on(tuesday, {planned(lifts::bench_press, 4)}),
                  on(friday, {planned(lifts::squat, 4)})};
  const DayOrder order = best_order(week);
  CHECK(order.moved == 0);
  CHECK(order.to == all_weekdays);
  CHECK(best_order(Week{}).moved == 0);
  CHECK(best_order(Week{}).to == all_weekdays);
  // All seven days alike: every order is as bad, and none is moved.
  Week daily;
  for (const Weekday day : all_weekdays) daily.push_back(on(day, {planned(lifts::squat, 3)}));
  CHECK(best_order(daily).moved == 0);
  CHECK(best_order(daily).conflicts_after == 14);  // quadriceps and glutes, seven nights
}

TEST_CASE("a better order is not bettered again") {
  std::mt19937 random(8);
  for (int trial = 0; trial < 200; ++trial) {
    const Week week = random_week(random);
    const OrderRule moves{.may_use_rest_days = trial % 2 == 0};
    const DayOrder order = best_order(week, {}, moves);
    const Week better = reordered(week, order);
    const auto lifting_overlap = [](const Week& of) {
      return overlap(of, {.bracing_percent = 0}).shared.total();
    };
    CHECK(lifting_overlap(better) == order.overlap_after);
    CHECK(static_cast<int>(spacing_conflicts(better).size()) == order.conflicts_after);
    CHECK(lifting_overlap(week) == order.overlap_before);
    CHECK(static_cast<int>(spacing_conflicts(week).size()) == order.conflicts_before);
    CHECK(best_order(better, {}, moves).moved == 0);
    CHECK(fractional_sets(better) == fractional_sets(week));
  }
}

TEST_CASE("rowing stays on its day when the lifts of that day move") {
  const Week week{on(monday, {planned(lifts::squat, 4)}), on(tuesday, {planned(lifts::squat, 4)}),
                  on(tuesday, {}), on(thursday, {})};
  const DayOrder order = best_order(week, {}, {.may_use_rest_days = true});
  CHECK(order.moved == 1);
  CHECK(order.to[1] == wednesday);
  const Week better = reordered(week, order);
  CHECK(better[1].day == wednesday);
  CHECK(better[2].day == tuesday);
  CHECK(better[3].day == thursday);
  // Lifts may come to a rowing day, unless it is fixed.
  CHECK(best_order(week).to[1] == thursday);
  CHECK(best_order(week, {}, {.fixed = {false, false, false, true}}).moved == 0);
}

TEST_CASE("fixed days keep their lifts or their rest") {
  const Week week{on(monday, {planned(lifts::bench_press, 4)}),
                  on(tuesday, {planned(lifts::bench_press, 4)})};
  const DayOrder order = best_order(
      week, {},
      {.fixed = {true, false, true, true, true, false, false}, .may_use_rest_days = true});
  CHECK(order.to[0] == monday);
  CHECK(order.to[1] == Weekday::saturday);
  CHECK(best_order(week, {},
                   {.fixed = {true, true, true, true, true, true, true}, .may_use_rest_days = true})
            .conflicts_after == 1);
}

TEST_CASE("a day of rest stays one, and the only one is not filled even when asked") {
  // Squats on Monday and Tuesday, rowing on every other day but Sunday.
  Week week{on(monday, {planned(lifts::squat, 4)}),
            on(monday, {}),
            on(tuesday, {planned(lifts::squat, 4)}),
            on(tuesday, {}),
            on(wednesday, {}),
            on(thursday, {}),
            on(friday, {}),
            on(Weekday::saturday, {})};
  const DayFlags all_but_the_lifts{false, false, true, true, true, true, false};
  CHECK(best_order(week, {}, {.fixed = all_but_the_lifts}).moved == 0);
  CHECK(best_order(week, {}, {.fixed = all_but_the_lifts, .may_use_rest_days = true}).moved == 0);
  CHECK(best_order(week).to[1] == wednesday);  // there is rowing on Wednesday already

  // Without rowing on Tuesday, that day rests in Sunday's place - if asked.
  week.erase(week.begin() + 3);
  const SpacingRule once{.week_repeats = false};
  CHECK(best_order(week, once, {.fixed = all_but_the_lifts}).moved == 0);
  CHECK(best_order(week, once, {.fixed = all_but_the_lifts, .may_use_rest_days = true}).to[1] ==
        sunday);
  // A session that is rated and has no load is rest, too.
  week.push_back(on(sunday, {}));
  week.back().rating = SessionRating(0, 0);
  CHECK(best_order(week, once, {.fixed = all_but_the_lifts}).moved == 0);
  week.back().rating = SessionRating(2, 30);
  CHECK(best_order(week, once, {.fixed = all_but_the_lifts}).to[1] == sunday);
}

TEST_CASE("legs are not piled onto the hardest day on the water") {
  Week week{on(monday, {planned(lifts::squat, 4)}), on(tuesday, {planned(lifts::squat, 4)}),
            on(thursday, {}), on(friday, {})};
  week[0].rating = SessionRating(7, 60);
  week[1].rating = SessionRating(7, 60);
  week[2].rating = SessionRating(8, 70);  // 560, the heaviest day
  week[3].rating = SessionRating(3, 60);  // 180, and 600 with the squats: 7.1 % above 560
  const auto order = [&](int percent) {
    return best_order(week, {}, {.most_load_rise_percent = percent});
  };
  CHECK(order(10).to[1] == friday);
  CHECK(order(8).to[1] == friday);
  CHECK(order(7).moved == 0);
  CHECK(order(75).to[1] == thursday);  // 980 is 75 % above 560, and moves Tuesday the least far
  CHECK(order(74).to[1] == friday);
  CHECK(order(100).to[1] == thursday);
  // What is as heavy as now already may stay.
  week[0].rating = SessionRating(10, 300);
  CHECK(order(0).to[1] == thursday);
}

TEST_CASE("no day is moved for little") {
  // Derived: 20 rows and 20 curls on Monday, as many on Tuesday, share 20 lats, 20 upper back, and
  // so on; two bench sets on Tuesday and one on Wednesday share little beside that.
  const Week week{on(monday, {planned(lifts::bench_pull, 20, 5)}),
                  on(tuesday, {planned(lifts::bench_pull, 20, 5), planned(lifts::leg_curl, 1, 5)}),
                  on(wednesday, {planned(lifts::leg_curl, 1, 5)}), on(friday, {})};
  const OrderRule only_wednesday{.fixed = {true, true, false, true}};
  const DayOrder order = best_order(week, {}, only_wednesday);
  CHECK(order.overlap_before == 71.0);  // 20 + 20 + 3 times 10, and 1 of the hamstrings
  CHECK(order.moved == 0);
  CHECK(order.overlap_after == 71.0);
  OrderRule for_anything = only_wednesday;
  for_anything.least_gain_percent = 1;  // 1 of 71 is 1.4 %
  CHECK(best_order(week, {}, for_anything).moved == 1);
  CHECK(best_order(week, {}, for_anything).overlap_after == 70.0);
  for_anything.least_gain_percent = 2;
  CHECK(best_order(week, {}, for_anything).moved == 0);
}

TEST_CASE("the search finds what trying every order finds, in a thousand random weeks") {
  std::mt19937 random(2026);
  int improved = 0;
  int too_little = 0;
  for (int trial = 0; trial < 1000; ++trial) {
    Week week = random_week(random);
    SpacingRule rule;
    rule.week_repeats = trial % 3 != 0;
    if (trial % 4 == 1) {
      rule.hours_between = 72;
      rule.hours_after_failure = 96;
    }
    OrderRule moves{.may_use_rest_days = trial % 2 == 0,
                    .most_load_rise_percent = 5 * (trial % 7),
                    .least_gain_percent = trial % 6};
    if (trial % 5 == 2) {
      for (bool& flag : moves.fixed) flag = random() % 4 == 0;
    }
    double moving_load[7] = {};
    double staying_load[7] = {};
    bool is_busy[7] = {};
    bool stays_busy[7] = {};
    for (PlannedSession& session : week) {
      if (random() % 3 > 0) {
        session.rating = SessionRating(static_cast<double>(random() % 11), 60);
      }
      const auto day = static_cast<std::size_t>(session.day);
      const double load = session.rating ? session_load(*session.rating) : 0.0;
      (session.lifts.empty() ? staying_load : moving_load)[day] += load;
      const bool is_rest = session.lifts.empty() && session.rating && load == 0.0;
      if (!is_rest) is_busy[day] = true;
      if (!is_rest && session.lifts.empty()) stays_busy[day] = true;
    }
    double heaviest = 0.0;
    for (std::size_t day = 0; day < 7; ++day) {
      heaviest = std::max(heaviest, moving_load[day] + staying_load[day]);
    }
    const bool has_rest = std::count(is_busy, is_busy + 7, false) > 0;

    const auto days = plain_days(week, rule);
    Cost close[7][7][2];  // by the day before, the day after, and whether 24 or more hours are near
    for (std::size_t a = 0; a < 7; ++a) {
      for (std::size_t b = 0; b < 7; ++b) {
        close[a][b][0] = plain_cost(days[a], days[b], rule.hours_between - 1, rule);
        close[a][b][1] = plain_cost(days[a], days[b], rule.hours_after_failure - 1, rule);
      }
    }

    std::array<int, 7> order{};
    std::iota(order.begin(), order.end(), 0);
    using Key = std::tuple<int, double, int, std::vector<int>>;
    Key best{1'000'000, 0.0, 0, {}};
    double overlap_now = 0.0;
    int conflicts_now = 0;
    do {
      bool allowed = true;
      bool busy[7];
      std::copy(stays_busy, stays_busy + 7, busy);
      for (std::size_t day = 0; day < 7; ++day) {
        const auto to = static_cast<std::size_t>(order[day]);
        if (moves.fixed[day] && to != day) allowed = false;
        if (!days[day].used) continue;
        busy[to] = true;
        if (to == day) continue;
        if (!is_busy[to] && !moves.may_use_rest_days) allowed = false;
        const double rise = moving_load[day] + staying_load[to] - heaviest;
        if (rise > heaviest * moves.most_load_rise_percent / 100.0) allowed = false;
      }
      if (has_rest && std::count(busy, busy + 7, false) == 0) allowed = false;
      if (!allowed) continue;
      int conflicts = 0;
      int moved = 0;
      double overlap = 0.0;
      for (std::size_t a = 0; a < 7; ++a) {
        if (!days[a].used) continue;
        if (order[a] != static_cast<int>(a)) ++moved;
        for (std::size_t b = 0; b < 7; ++b) {
          if (!days[b].used || a == b) continue;
          int apart = order[b] - order[a];
          if (apart < 0 && rule.week_repeats) apart += 7;
          if (apart < 0) continue;
          if (24 * apart < rule.hours_between) {
            conflicts += close[a][b][0].conflicts;
            overlap += close[a][b][0].overlap;
          } else if (24 * apart < rule.hours_after_failure) {
            conflicts += close[a][b][1].conflicts;
            overlap += close[a][b][1].overlap;
          }
        }
      }
      if (std::is_sorted(order.begin(), order.end())) {
        overlap_now = overlap;
        conflicts_now = conflicts;
      }
      if (std::tie(conflicts, overlap, moved) >
          std::tie(std::get<0>(best), std::get<1>(best), std::get<2>(best))) {
        continue;
      }
      std::vector<int> places;
      for (std::size_t a = 0; a < 7; ++a) {
        if (days[a].used) places.push_back(order[a]);
      }
      best = std::min(best, Key{conflicts, overlap, moved, places});
    } while (std::next_permutation(order.begin(), order.end()));

    const bool is_little =
        std::get<0>(best) == conflicts_now &&
        (overlap_now - std::get<1>(best)) * 100.0 < moves.least_gain_percent * overlap_now;
    if (is_little) {
      std::vector<int> places;
      for (int day = 0; day < 7; ++day) {
        if (days[static_cast<std::size_t>(day)].used) places.push_back(day);
      }
      best = Key{conflicts_now, overlap_now, 0, places};
      ++too_little;
    }

    const DayOrder found = best_order(week, rule, moves);
    std::vector<int> places;
    for (std::size_t a = 0; a < 7; ++a) {
      if (days[a].used) places.push_back(static_cast<int>(found.to[a]));
    }
    CAPTURE(trial);
    CHECK(Key{found.conflicts_after, found.overlap_after, found.moved, places} == best);
    CHECK(found.overlap_before == overlap_now);
    CHECK(found.conflicts_before == conflicts_now);
    if (found.moved > 0) ++improved;
  }
  CHECK(improved > 300);  // the weeks leave the search something to do
  CHECK(too_little > 10);
}
