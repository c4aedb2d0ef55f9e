// bench/plates_bench.cpp - one loading and a whole ramp, beside the loop one would write by hand
//
// The loop takes the largest plate that fits, in doubles. It is the least anybody would write, and
// does less: it misses the fewest plates in pounds, and what lies above the target.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cstddef>
#include <optional>
#include <span>

#include "barwright/plates.hpp"

namespace {

using namespace barwright;

/// Targets that a compiler cannot foresee: 25 to 175 of the unit, most of them between two loads.
std::array<Mass, 256> targets(Unit unit) {
  std::array<Mass, 256> result;
  for (std::size_t i = 0; i < result.size(); ++i) {
    result[i] = Mass::from(25.0 + static_cast<double>(i * 97 % 256) * 0.6, unit);
  }
  return result;
}

struct HandWritten {
  double total = 0.0;
  int size = 0;
  std::array<double, 32> plates{};
};

HandWritten largest_first(double bar, std::span<const double> plates, double target) {
  HandWritten result;
  double side = (target - bar) / 2.0;
  for (const double plate : plates) {
    while (side >= plate - 1e-9 && result.size < 32) {
      result.plates[static_cast<std::size_t>(result.size++)] = plate;
      side -= plate;
    }
  }
  result.total = target - 2.0 * side;
  return result;
}

void hand_written_kg(benchmark::State& state) {
  constexpr std::array plates{25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25};
  const auto loads = targets(Unit::kg);
  std::size_t i = 0;
  for (auto _ : state) {
    HandWritten loading = largest_first(20.0, plates, loads[i++ % loads.size()].kg());
    benchmark::DoNotOptimize(loading);
  }
}
BENCHMARK(hand_written_kg);

void nearest(benchmark::State& state, const Room& room, Unit unit) {
  const auto loads = targets(unit);
  std::size_t i = 0;
  for (auto _ : state) {
    Loading loading = room.nearest(loads[i++ % loads.size()]);
    benchmark::DoNotOptimize(loading);
  }
}
BENCHMARK_CAPTURE(nearest, gym_kg, plate_sets::gym_kg, Unit::kg);
BENCHMARK_CAPTURE(nearest, gym_lb, plate_sets::gym_lb, Unit::lb);
BENCHMARK_CAPTURE(nearest, weightlifting_men, plate_sets::weightlifting_men, Unit::kg);

void at_most(benchmark::State& state, const Room& room, Unit unit) {
  const auto loads = targets(unit);
  std::size_t i = 0;
  for (auto _ : state) {
    std::optional<Loading> loading = room.at_most(loads[i++ % loads.size()]);
    benchmark::DoNotOptimize(loading);
  }
}
BENCHMARK_CAPTURE(at_most, gym_kg, plate_sets::gym_kg, Unit::kg);

const Room limited = parse_room("bar 20 kg; plates 25x2 20x2 15x1 10x2 5x2 2.5x2 1.25x2 kg");
const Room mixed = parse_room("bar 20 kg; plates 25 20 15 10 5 2.5 1.25 kg 45 35 25 10 5 2.5 lb");
const Room mixed_limited =
    parse_room("bar 20 kg; plates 20x2 15x1 10x2 5x2 2.5x2 1.25x1 kg 45x2 25x1 10x2 5x1 2.5x1 lb");
BENCHMARK_CAPTURE(nearest, limited, limited, Unit::kg);
BENCHMARK_CAPTURE(nearest, mixed, mixed, Unit::kg);
BENCHMARK_CAPTURE(nearest, mixed_limited, mixed_limited, Unit::kg);

constexpr std::array eight_steps{Mass::from_kg(20),    Mass::from_kg(60),    Mass::from_kg(80),
                                 Mass::from_kg(95),    Mass::from_kg(107.5), Mass::from_kg(115),
                                 Mass::from_kg(122.5), Mass::from_kg(130)};

void hand_written_ramp(benchmark::State& state) {
  constexpr std::array plates{25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25};
  for (auto _ : state) {
    int moves = 0;
    HandWritten before;
    for (const Mass load : eight_steps) {
      const HandWritten next = largest_first(20.0, plates, load.kg());
      int kept = 0;
      while (kept < before.size && kept < next.size &&
             before.plates[static_cast<std::size_t>(kept)] ==
                 next.plates[static_cast<std::size_t>(kept)]) {
        ++kept;
      }
      moves += before.size - kept + next.size - kept;
      before = next;
    }
    benchmark::DoNotOptimize(moves);
    state.counters["moves"] = moves;
  }
}
BENCHMARK(hand_written_ramp);

void ramp(benchmark::State& state, const Room& room) {
  for (auto _ : state) {
    const Ramp plan = plan_ramp(room, eight_steps);
    benchmark::DoNotOptimize(plan.steps.data());
    state.counters["moves"] = plan.moves();
  }
}
BENCHMARK_CAPTURE(ramp, gym_kg, plate_sets::gym_kg);
BENCHMARK_CAPTURE(ramp, gym_lb, plate_sets::gym_lb);
BENCHMARK_CAPTURE(ramp, weightlifting_men, plate_sets::weightlifting_men);
BENCHMARK_CAPTURE(ramp, limited, limited);
BENCHMARK_CAPTURE(ramp, mixed, mixed);

void make_a_room(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(Room(plate_sets::gym_kg.bar(), plate_sets::gym_kg.plates()));
  }
}
BENCHMARK(make_a_room);

}  // namespace
