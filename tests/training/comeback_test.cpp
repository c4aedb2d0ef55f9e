// The first weeks after a layoff.
#include "barwright/training/comeback.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("the longer the layoff, the longer and the lighter the way back") {
  // Shares of work by week: 50, 30, 20, 10 % less [Caterisano et al. 2019, from memory]; loads and
  // reserve are assumptions.
  struct Row {
    int days_off;
    int days_back;
    int week;  // 0: no way back
    int weeks;
    double load_cut;
    double reserve;
    int sets_of_ten;
  };
  const Row rows[] = {
      {14, 0, 0, 0, 0, 0, 0},      {15, 0, 1, 1, 0.10, 4, 5}, {15, 6, 1, 1, 0.10, 4, 5},
      {15, 7, 0, 0, 0, 0, 0},      {28, 0, 1, 1, 0.10, 4, 5}, {29, 0, 1, 2, 0.20, 4, 5},
      {47, 7, 2, 2, 0.10, 3, 7},   {80, 0, 1, 3, 0.20, 4, 5}, {80, 14, 3, 3, 0.2 / 3, 3, 8},
      {300, 21, 4, 4, 0.05, 3, 9}, {300, 28, 0, 0, 0, 0, 0},  {47, -1, 0, 0, 0, 0, 0},
  };
  for (const Row& row : rows) {
    CAPTURE(row.days_off);
    CAPTURE(row.days_back);
    const auto back = comeback(row.days_off, row.days_back);
    REQUIRE(back.has_value() == (row.week > 0));
    if (!back) continue;
    CHECK(back->week == row.week);
    CHECK(back->weeks == row.weeks);
    CHECK(back->load_cut == doctest::Approx(row.load_cut));
    CHECK(back->least_reserve.count() == row.reserve);
    CHECK(back->sets_of(10) == row.sets_of_ten);
  }
}

TEST_CASE("a way back has half the sets at first, and never none") {
  const Comeback first = *comeback(20, 0);
  CHECK(first.sets_of(1) == 1);
  CHECK(first.sets_of(2) == 1);
  CHECK(first.sets_of(3) == 2);
  CHECK(first.sets_of(4) == 2);
  CHECK(first.sets_of(5) == 3);
  // From week to week the work, the load and what may be asked only rise.
  for (int days_off = 15; days_off < 400; ++days_off) {
    std::optional<Comeback> before;
    for (int day = 0; day < 40; ++day) {
      const auto back = comeback(days_off, day);
      if (!back) break;
      if (before) {
        CHECK(back->sets_in_ten >= before->sets_in_ten);
        CHECK(back->load_cut <= before->load_cut);
        CHECK(back->least_reserve <= before->least_reserve);
      }
      before = back;
    }
  }
}
