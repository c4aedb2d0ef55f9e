// bench/prescription_bench.cpp - loads from a max, the way up, and shares from bar speed
//                                (velocity.hpp)
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>

#include "barwright/curves/equations.hpp"
#include "barwright/curves/velocity.hpp"
#include "barwright/training/prescription.hpp"
#include "barwright/training/warm_up.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

struct Plan {
  double max;
  int reps;
  double left;
  double load;
};
std::array<Plan, cases> made_plans() {
  std::array<Plan, cases> plans;
  for (std::size_t i = 0; i < cases; ++i) {
    const double max = 60.0 + static_cast<double>(i * 89 % cases);
    plans[i] = {max, 1 + static_cast<int>(i % 8), 0.5 * static_cast<double>(i % 9), 0.8 * max};
  }
  return plans;
}
auto plans = made_plans();

BENCHMARK_CAPTURE(by_hand, load_for_brzycki, [](std::size_t i) {
  const Plan& p = plans[i];
  return p.max * (37.0 - (p.reps + p.left)) / 36.0;
});
BENCHMARK_CAPTURE(library, load_for_brzycki, [](std::size_t i) {
  const Plan& p = plans[i];
  return load_for(equations::brzycki, Mass::from_kg(p.max), Reps(p.reps), RepsInReserve(p.left))
      .kg();
});

BENCHMARK_CAPTURE(by_hand, load_for_wathen, [](std::size_t i) {
  const Plan& p = plans[i];
  return p.max * (0.488 + 0.538 * std::exp(-0.075 * (p.reps + p.left)));
});
BENCHMARK_CAPTURE(library, load_for_wathen, [](std::size_t i) {
  const Plan& p = plans[i];
  return load_for(equations::wathen, Mass::from_kg(p.max), Reps(p.reps), RepsInReserve(p.left))
      .kg();
});

BENCHMARK_CAPTURE(by_hand, reserve_left_wathen, [](std::size_t i) {
  const Plan& p = plans[i];
  return std::log((p.load / p.max - 0.488) / 0.538) / -0.075 - p.reps;
});
BENCHMARK_CAPTURE(library, reserve_left_wathen, [](std::size_t i) {
  const Plan& p = plans[i];
  return reserve_left(equations::wathen, Mass::from_kg(p.max), Mass::from_kg(p.load), Reps(p.reps));
});

// By hand: the steps, without leaving out those that lie close together.
BENCHMARK_CAPTURE(by_hand, warm_up, [](std::size_t i) {
  double sum = 20.0;
  for (const double share : {0.40, 0.60, 0.75, 0.87}) {
    const double load = share * plans[i].load;
    sum += load < 20.0 ? 20.0 : load;
  }
  return sum;
});
BENCHMARK_CAPTURE(library, warm_up, [](std::size_t i) {
  const WarmUp plan = warm_up(Mass::from_kg(20.0), Mass::from_kg(plans[i].load), Reps(5));
  double sum = 0.0;
  for (std::size_t k = 0; k < plan.count; ++k) sum += plan.sets[k].load.kg();
  return sum;
});

std::array<double, cases> made_velocities() {
  std::array<double, cases> velocities;
  for (std::size_t i = 0; i < cases; ++i) velocities[i] = 0.25 + 0.004 * static_cast<double>(i);
  return velocities;
}
auto velocities = made_velocities();

BENCHMARK_CAPTURE(by_hand, share_by_velocity, [](std::size_t i) {
  const VelocityCurve& c = velocity_curves::bench_press;
  return c.c0 + velocities[i] * (c.c1 + velocities[i] * c.c2);
});
BENCHMARK_CAPTURE(library, share_by_velocity,
                  [](std::size_t i) { return velocity_curves::bench_press.share(velocities[i]); });

}  // namespace
