// bench/planning_bench.cpp - introductions, blocks, the next load, choices and cautions
//                            (introduction.hpp, block.hpp, choice.hpp, caution.hpp)
//
// These are rules, texts and sources; nothing one would write in a loop does the same. Beside the
// block stands the arithmetic of such loads alone, as a floor; its loads are not quite the same.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <cstddef>

#include "barwright/curves/equations.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/plates.hpp"
#include "barwright/training/block.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/choice.hpp"
#include "barwright/training/introduction.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
Mass max_of(std::size_t i) { return Mass::from_kg(80.0 + 0.25 * static_cast<double>(i)); }

BENCHMARK_CAPTURE(library, introduction, [](std::size_t i) {
  return introduce(equations::brzycki, lift, max_of(i), Reps(6), RepsInReserve(2.0))
      .working_load()
      .kg();
});

BENCHMARK_CAPTURE(by_hand, block_of_weeks, [](std::size_t i) {
  const double max = 0.8 * max_of(i).kg();
  double sum = 0.0;
  double load = 0.5 * max;
  for (int session = 0; session < 6; ++session) {
    sum += 2.5 * static_cast<int>(load / 2.5);
    load *= 1.1;
  }
  for (int week = 0; week < 4; ++week) {
    const double share = (37.0 - (9.0 - 0.25 * week)) / 36.0;
    sum += 2.0 * 2.5 * static_cast<int>(share * max / 2.5);
  }
  return sum;
});
BENCHMARK_CAPTURE(library, block_of_weeks, [](std::size_t i) {
  const Block block = plan_block(plate_sets::gym_kg, {}, equations::brzycki, lift, max_of(i));
  double sum = 0.0;
  for (const BlockStep& step : block.steps) sum += step.loading.total().kg();
  return sum;
});

BENCHMARK_CAPTURE(library, next_load, [](std::size_t i) {
  const SessionResult latest{.load = Mass::from_kg(60.0 + static_cast<double>(i)),
                             .reps = Reps(6),
                             .reserve = RepsInReserve(2.0),
                             .fewest_done = 6,
                             .last_done = 6 + static_cast<int>(i % 3),
                             .last_left = RepsInReserve(2.0)};
  const NextLoad next = next_load(plate_sets::gym_kg, latest);
  return next.loading ? next.loading->total().kg() : 0.0;
});

BENCHMARK_CAPTURE(library, rank_variations, [](std::size_t) {
  return static_cast<double>(rank_variations(lifts::bench_press, {}).size());
});

BENCHMARK_CAPTURE(library, cautions, [](std::size_t i) {
  double count = 0.0;
  for ([[maybe_unused]] const Caution& caution :
       cautions_for({.lift = lift,
       .reps = Reps(6),
       .reserve = RepsInReserve(1.0 + static_cast<double>(i % 3))})) {
    count += 1.0;
  }
  return count;
});

}  // namespace
