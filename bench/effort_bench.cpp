// bench/effort_bench.cpp - ratings turned into reps, and their error
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cstddef>

#include "barwright/core/effort.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

/// Ratings from 5 to 10 by halves, reps from 1 to 12.
struct Set {
  int reps;
  double rating;
};
std::array<Set, cases> made_sets() {
  std::array<Set, cases> sets;
  for (std::size_t i = 0; i < cases; ++i) {
    sets[i] = {1 + static_cast<int>(i % 12), 5.0 + 0.5 * static_cast<double>(i * 7 % 11)};
  }
  return sets;
}
auto sets = made_sets();

BENCHMARK_CAPTURE(by_hand, rated_reps_to_failure, [](std::size_t i) {
  return sets[i].reps + (sets[i].rating == 9.5 ? 0.0 : 10.0 - sets[i].rating);
});
BENCHMARK_CAPTURE(library, rated_reps_to_failure, [](std::size_t i) {
  return reps_to_failure(Reps(sets[i].reps), Rpe(sets[i].rating));
});

BENCHMARK_CAPTURE(by_hand, rating_error, [](std::size_t i) {
  const double left = 10.0 - sets[i].rating;
  const double to_failure = sets[i].reps + left;
  double error = 1.0;
  if (left > 3.0) error += 0.4 * (left < 4.0 ? left - 3.0 : 1.0);
  const double of_long_set = to_failure > 13.0   ? 3.0 + 0.47 * (to_failure - 13.0)
                             : to_failure > 10.0 ? 1.0 + 2.0 / 3.0 * (to_failure - 10.0)
                                                 : 0.0;
  return error > of_long_set ? error : of_long_set;
});
BENCHMARK_CAPTURE(library, rating_error, [](std::size_t i) {
  return rating_error(RepsInReserve(10.0 - sets[i].rating), Reps(sets[i].reps)).standard_deviation;
});

}  // namespace
