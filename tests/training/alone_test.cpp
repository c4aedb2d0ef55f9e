// How much to leave in reserve where nothing would catch the bar.
#include "barwright/training/alone.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("alone, the least reserve grows with the length of the set, until none is enough") {
  // [assumption: two standard deviations of the rating error, in whole reps]
  struct Row {
    int reps;
    double known;  // 0: not alone, whatever is left
    double is_new;
  };
  const Row rows[] = {{1, 2, 3},  {2, 2, 3},  {5, 2, 3},  {8, 2, 3},  {9, 3, 3},
                      {10, 4, 4}, {11, 5, 5}, {12, 6, 6}, {13, 0, 0}, {20, 0, 0}};
  for (const Row& row : rows) {
    CAPTURE(row.reps);
    const auto known = least_reserve_alone(Reps(row.reps), false);
    const auto is_new = least_reserve_alone(Reps(row.reps), true);
    REQUIRE(known.has_value() == (row.known > 0));
    if (!known) continue;
    CHECK(known->count() == row.known);
    CHECK(is_new->count() == row.is_new);
  }
}

TEST_CASE("alone: other figures, told in halves") {
  const AloneRule rule{.least = 1.2, .least_when_new = 40.0, .short_set = 3, .longest_set = 5};
  CHECK(least_reserve_alone(3_reps, false, rule)->count() == 1.5);
  CHECK(least_reserve_alone(5_reps, false, rule)->count() == 3.5);
  CHECK(least_reserve_alone(5_reps, true, rule)->count() == RepsInReserve::most);
  CHECK_FALSE(least_reserve_alone(6_reps, false, rule));
}
