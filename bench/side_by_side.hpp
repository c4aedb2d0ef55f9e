// bench/side_by_side.hpp - the same question to the library and to code written by hand for it
//
//     BENCHMARK_CAPTURE(by_hand, name, [](std::size_t i) { return ...; });
//     BENCHMARK_CAPTURE(library, name, [](std::size_t i) { return ...; });
//
// Both answer the cases 0 to 255, one after the other, by a double. `per_case` is the CPU time of
// one case and `sum` the sum of the answers, which tells whether both compute the same. What is
// written by hand is what one would write on the spot: bare numbers, nothing checked.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <benchmark/benchmark.h>

#include <cstddef>

inline constexpr std::size_t cases = 256;

template <class Answer>
void each_case(benchmark::State& state, const Answer& answer) {
  for (auto _ : state) {
    for (std::size_t i = 0; i < cases; ++i) benchmark::DoNotOptimize(answer(i));
  }
  double sum = 0.0;
  for (std::size_t i = 0; i < cases; ++i) sum += answer(i);
  state.counters["sum"] = sum;
  state.counters["per_case"] = benchmark::Counter(
      cases, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

template <class Answer>
void by_hand(benchmark::State& state, Answer answer) {
  each_case(state, answer);
}
template <class Answer>
void library(benchmark::State& state, Answer answer) {
  each_case(state, answer);
}
