// bench/session_load_bench.cpp - a week summed up
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>

#include "barwright/training/session_load.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

std::array<double, cases + 7> made_days() {
  std::array<double, cases + 7> days;
  for (std::size_t i = 0; i < days.size(); ++i)
    days[i] = i % 3 == 2 ? 0.0 : 100.0 + static_cast<double>(i * 89 % 400);
  return days;
}
auto days = made_days();

BENCHMARK_CAPTURE(by_hand, strain_of_a_week, [](std::size_t i) {
  double sum = 0.0;
  for (std::size_t k = 0; k < 7; ++k) sum += days[i + k];
  const double mean = sum / 7.0;
  double squares = 0.0;
  for (std::size_t k = 0; k < 7; ++k) squares += (days[i + k] - mean) * (days[i + k] - mean);
  return sum * mean / std::sqrt(squares / 7.0);
});
BENCHMARK_CAPTURE(library, strain_of_a_week, [](std::size_t i) {
  return summarise(std::span<const double>(days.data() + i, 7)).strain.value_or(0.0);
});

}  // namespace
