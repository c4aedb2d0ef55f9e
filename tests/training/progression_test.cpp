// The signs to add load. What follows from them in a room is in block_test.cpp.
#include "barwright/training/progression.hpp"

#include <doctest/doctest.h>

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("one or two repetitions beyond the plan ask for more load [ACSM 2009, abstract read]") {
  CHECK(exceeds_plan({6_reps, 7_reps}));
  CHECK(!exceeds_plan({6_reps, 6_reps}));
  CHECK(!exceeds_plan({6_reps, 7_reps}, 2));
  CHECK(!exceeds_plan({6_reps, 8_reps, true}));  // a miss is a miss
  CHECK_THROWS_AS((void)exceeds_plan({6_reps, 8_reps}, 3), DomainError);
  CHECK_THROWS_AS((void)exceeds_plan({6_reps, 8_reps}, 0), DomainError);
}

TEST_CASE("two for two: two more repetitions, two sessions in a row [handbook, recalled]") {
  CHECK(two_for_two({8_reps, 10_reps}, {8_reps, 10_reps}));
  CHECK(two_for_two({8_reps, 11_reps}, {8_reps, 10_reps}));
  CHECK(!two_for_two({8_reps, 9_reps}, {8_reps, 10_reps}));
  CHECK(!two_for_two({8_reps, 10_reps}, {8_reps, 9_reps}));
  CHECK(!two_for_two({8_reps, 10_reps}, {8_reps, 10_reps, true}));
}
