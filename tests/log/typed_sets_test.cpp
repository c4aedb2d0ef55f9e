// tests/log/typed_sets_test.cpp - sets typed between sets, understood or refused, never guessed
//
// The ways of writing a set are common practice, no source.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/typed_sets.hpp"

#include <doctest/doctest.h>

#include <string_view>
#include <vector>

#include "barwright/lifts/catalogue.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

const Date today(2026, 11, 25);
const Lift bench = lifts::bench_press;

std::vector<LoggedSet> sets(std::string_view typed, const Lift& lift = bench) {
  const auto read = read_typed_sets(typed, lift, today, Unit::kg);
  CAPTURE(read.problem);
  REQUIRE(read.value);
  return *read.value;
}

}  // namespace

TEST_CASE("a set is a load, its reps and what was left, in the words of the trade") {
  for (const std::string_view typed :
       {"92.5 x 6, 2 left", "92.5x6 @8", "92.5 kg X 6 2 RIR", "92,5 x 6: 2",
        "92.5\xC3\x97"
        "6 RPE 8",
        " 92.5 kgs x 6 2 in reserve ;"}) {
    CAPTURE(typed);
    const auto read = sets(typed);
    REQUIRE(read.size() == 1);
    CHECK(read[0].load == 92.5_kg);
    CHECK(read[0].reps == 6_reps);
    CHECK(read[0].outcome == Outcome::completed);
    REQUIRE(read[0].reserve);
    CHECK(read[0].reserve->typical == 2_rir);
    CHECK(read[0].date == today);
  }
  CHECK(sets("200 lb x 5")[0].load == 200_lb);
  CHECK(sets("1000000 x 5")[0].load == Mass::from_kg(1e6));
  CHECK_FALSE(sets("200 x 5")[0].reserve);
  CHECK(sets("200 x 5 missed")[0].outcome == Outcome::missed);
  CHECK(sets("200 x 5, to failure")[0].reserve->typical == 0_rir);
  CHECK(sets("200 x 5 2-3")[0].reserve->high == 3_rir);
  CHECK(sets("80x6;80x6 @9; 80x5 missed").size() == 3);
  CHECK(sets("80 x 6, sharp pain")[0].has_pain);
  CHECK(sets("80 x 6, sharp pain - bailed")[0].has_pain);
  CHECK(sets("80 x 6, couldn't finish")[0].outcome == Outcome::missed);
  CHECK(sets("80 x 6, spotter took two")[0].reps == 5_reps);
  CHECK_FALSE(sets("80 x 6, 2 left")[0].has_pain);
}

TEST_CASE("of dumbbells both together, unless each hand is named") {
  const Lift with_dumbbells = bench + modifiers::dumbbells;
  CHECK(sets("60 x 6", with_dumbbells)[0].load == 60_kg);
  CHECK(sets("30 each x 6", with_dumbbells)[0].load == 60_kg);
  CHECK(sets("2x30 x 6", with_dumbbells)[0].load == 60_kg);
  CHECK_FALSE(read_typed_sets("30 each x 6", bench, today, Unit::kg).value);
  // As the log was said to have them.
  const auto each = [](std::string_view typed, const Lift& lift) {
    return (*read_typed_sets(typed, lift, today, Unit::kg, DumbbellLoads::each).value)[0].load;
  };
  CHECK(each("30 x 6", with_dumbbells) == 60_kg);
  CHECK(each("30 each x 6", with_dumbbells) == 60_kg);
  CHECK(each("2x30 x 6", with_dumbbells) == 60_kg);
  CHECK(each("60 x 6", bench) == 60_kg);
}

TEST_CASE("what has no one meaning is refused, and the message shows it") {
  for (const std::string_view typed : {"",
                                       ";",
                                       "80",
                                       "x 6",
                                       "80 x",
                                       "80 x 0",
                                       "80 x 101",
                                       "80 x 6.5",
                                       "80 x 6 x 3",
                                       "80 x -6",
                                       "nan x 6",
                                       "-80 x 6",
                                       "1,250 x 3",
                                       "1e3 x 3",
                                       "80 x 6 hard",
                                       "80 x 6 @11",
                                       "80 x 6 31 left",
                                       "80 x 6 2 left 3",
                                       "80 x 6, 80 x 6",
                                       "80 x 6; 80",
                                       "2000000 x 6"}) {
    CAPTURE(typed);
    const auto read = read_typed_sets(typed, bench, today, Unit::kg);
    CHECK_FALSE(read.value);
    CHECK_FALSE(read.problem.empty());
  }
  CHECK(read_typed_sets("80 x 6; 80\x1B[31m x", bench, today, Unit::kg).problem.find('\x1B') ==
        std::string::npos);
}
