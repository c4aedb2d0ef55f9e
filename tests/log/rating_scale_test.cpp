// tests/log/rating_scale_test.cpp - whether a log's reps in reserve are what they say
//
// The logs are invented.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>
#include <barwright/core/date.hpp>
#include <barwright/core/effort.hpp>
#include <barwright/core/mass.hpp>
#include <barwright/core/range.hpp>
#include <barwright/lifts.hpp>
#include <barwright/log/rating_scale.hpp>
#include <cstddef>
#include <string_view>
#include <vector>

namespace {

using namespace barwright;
using namespace barwright::literals;

/// As typed under "reps in reserve".
struct Typed {
  double kg;
  int reps;
  double rating;
};

/// So many sessions of these sets, three days apart, on one lift.
std::vector<LoggedSet> sessions_of_sets(const std::vector<Typed>& sets, int sessions) {
  std::vector<LoggedSet> log;
  for (int session = 0; session < sessions; ++session) {
    for (const Typed& set : sets) {
      log.push_back({.date = Date(2026, 10, 5) + 3 * session,
                     .lift = Lift(lifts::bench_press),
                     .load = Mass::from_kg(set.kg),
                     .reps = Reps(set.reps),
                     .reserve = Range<RepsInReserve>::exactly(RepsInReserve(set.rating))});
    }
  }
  return log;
}

TEST_CASE("sets of 8 and 9, and nothing below, may be RPE; what rises with the load is") {
  const std::vector<Typed> straight{{80, 5, 8}, {80, 5, 8}, {80, 5, 9}};
  CHECK(ratings_read(sessions_of_sets(straight, 1)) == RatingsRead::unclear);
  CHECK(ratings_read(sessions_of_sets(straight, 6)) != RatingsRead::as_reserve);
  CHECK(ratings_read(sessions_of_sets({{100, 5, 9}, {90, 5, 6}}, 4)) == RatingsRead::as_rpe);
  CHECK(ratings_read(sessions_of_sets({{80, 5, 2}, {80, 5, 2}, {80, 5, 1}}, 4)) ==
        RatingsRead::as_reserve);
  CHECK(ratings_read({}) == RatingsRead::as_reserve);
}

TEST_CASE("two ratings above ten are no RPE, however easy all sets were") {
  auto log = sessions_of_sets({{60, 5, 9}, {60, 5, 8}, {60, 5, 9}}, 6);
  CHECK(ratings_read(log) != RatingsRead::as_reserve);
  const auto easier = sessions_of_sets({{60, 5, 12}, {60, 5, 11}}, 1);
  log.insert(log.end(), easier.begin(), easier.end());
  CHECK(ratings_read(log) == RatingsRead::as_reserve);
}

TEST_CASE("a warm-up with twelve left says no more of how the work is rated than one with ten") {
  const auto odds_with = [](double left) {
    auto log = sessions_of_sets({{80, 6, 8}, {80, 6, 8}, {80, 6, 9}}, 10);
    const auto warm_up = sessions_of_sets({{40, 6, left}}, 1);
    log.insert(log.begin(), warm_up.begin(), warm_up.end());
    return log_odds_of_rpe(log);
  };
  CHECK(odds_with(12) > odds_with(10) - 1.0);
}

TEST_CASE("one easy day does not make a log of RPE") {
  auto log = sessions_of_sets({{80, 5, 2}, {80, 5, 2}, {80, 5, 1}}, 2);
  const auto easy = sessions_of_sets({{60, 5, 8}, {60, 5, 8}}, 1);
  log.insert(log.end(), easy.begin(), easy.end());
  CHECK(ratings_read(log) == RatingsRead::as_reserve);
}

TEST_CASE("the harder set has the higher RPE, and the smaller reserve") {
  // The same ratings, at either end: 100 kg and 90 kg for five.
  const auto rising = sessions_of_sets({{100, 5, 7}, {90, 5, 4}}, 3);
  const auto falling = sessions_of_sets({{100, 5, 4}, {90, 5, 7}}, 3);
  CHECK(log_odds_of_rpe(rising) > log_odds_of_rpe(falling) + 2.0);
  CHECK(ratings_read(rising) == RatingsRead::as_rpe);
  CHECK(ratings_read(falling) == RatingsRead::as_reserve);
}

TEST_CASE("who starts light and adds load as the reserve falls keeps a log of reserve") {
  std::vector<LoggedSet> log;
  const Typed days[] = {{30, 6, 7}, {32.5, 6, 6}, {35, 6, 5}, {37.5, 6, 3.5}};
  int day = 0;
  for (const Typed& typed : days) {
    for (LoggedSet set : sessions_of_sets({typed, typed, typed}, 1)) {
      set.date = set.date + 4 * day;
      log.push_back(set);
    }
    ++day;
  }
  CHECK(ratings_read(log) == RatingsRead::as_reserve);
}

TEST_CASE("warm-ups may be rated, too: they do not count for the level") {
  CHECK(ratings_read(sessions_of_sets({{40, 8, 3}, {60, 5, 4.5}, {80, 5, 8}, {80, 5, 8.5}}, 3)) ==
        RatingsRead::as_rpe);
  CHECK(ratings_read(sessions_of_sets({{40, 8, 10}, {60, 5, 8}, {80, 5, 2}, {80, 5, 1.5}}, 3)) ==
        RatingsRead::as_reserve);
}

TEST_CASE("a miss at the same load says that 8 was no reserve") {
  auto log = sessions_of_sets({{80, 5, 6}}, 2);
  const double before = log_odds_of_rpe(log);
  log.push_back({.date = log.back().date,
                 .lift = Lift(lifts::bench_press),
                 .load = 80_kg,
                 .reps = 5_reps,
                 .outcome = Outcome::missed});
  CHECK(log_odds_of_rpe(log) > before);
}

TEST_CASE("read as RPE, 8 is two left, 8.5 one to two, and 4 nothing that is known") {
  const auto read = read_as_rpe(sessions_of_sets({{80, 5, 8}, {80, 5, 8.5}, {40, 8, 4}}, 1));
  REQUIRE(read.size() == 3);
  CHECK(read[0].reserve == Range<RepsInReserve>::exactly(2_rir));
  REQUIRE(read[1].reserve);
  CHECK(read[1].reserve->low == 1_rir);
  CHECK(read[1].reserve->high == 2_rir);
  CHECK_FALSE(read[2].reserve);
}

}  // namespace

TEST_CASE("low ratings of another lift do not settle what those of the lift itself are") {
  // [assumption: a lifter rates all lifts alike, but some sets of one day are no habit]
  const auto day = [](int number, const Lift& lift, double rating, int sets) {
    return std::vector<LoggedSet>(
        static_cast<std::size_t>(sets),
        {.date = Date(2026, 9, 1) + number,
         .lift = lift,
         .load = 100_kg,
         .reps = 5_reps,
         .reserve = Range<RepsInReserve>::exactly(RepsInReserve(rating))});
  };
  struct Row {
    std::string_view what;
    int days_of_others;
    int rows_of_each;
    double rating;  // of the lift itself
    RatingsRead read;
  };
  const Row rows[] = {
      {"alone", 0, 0, 8, RatingsRead::unclear},
      {"eight rows of one day", 1, 8, 8, RatingsRead::unclear},
      {"three days", 3, 3, 8, RatingsRead::unclear},
      {"six days", 6, 3, 8, RatingsRead::as_reserve},
      {"low ratings alone", 0, 0, 2, RatingsRead::as_reserve},
      {"low ratings, and one day of others", 1, 8, 2, RatingsRead::as_reserve},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    std::vector<LoggedSet> log = day(30, lifts::squat, row.rating, 3);
    for (int i = 0; i < row.days_of_others; ++i) {
      for (const LoggedSet& set : day(2 * i, lifts::bench_press, 2, row.rows_of_each)) {
        log.push_back(set);
      }
    }
    CHECK(ratings_read(log, lifts::squat) == row.read);
  }
}
