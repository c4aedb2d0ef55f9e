// bench/estimates_bench.cpp - a max from a set, beside the same formula in a hand-written loop
//
// All loops read the same 4096 sets and write as many maxes. The library's sets are a Mass, Reps
// and RepsInReserve, the others the same three numbers bare. What the library does on top is to
// refuse a set its curve is not defined for.
//
//     library         one_rep_max, as a program would call it
//     by_hand         the formula as it is printed, unchecked, one set after the other
//     by_hand_simd    the same where the compiler may take several sets at once (clang does at -O2)
//
// The chart is written out by hand as the same interpolation, since half a rep may be left.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_table.hpp"

namespace {

using namespace barwright;

struct Set {
  Mass load;
  Reps reps;
  RepsInReserve left;
};

struct BareSet {
  double load;
  int reps;
  double left;
};

/// Invented: 20 to 200 kg, 1 to 8 reps, 0 to 4 in reserve by halves, all on every curve.
std::vector<BareSet> bare_sets() {
  std::mt19937 random(1);
  std::vector<BareSet> sets(4096);
  for (BareSet& set : sets) {
    set.load = 20.0 + 0.5 * static_cast<double>(random() % 361);
    set.reps = 1 + static_cast<int>(random() % 8);
    set.left = 0.5 * static_cast<double>(random() % 9);
  }
  return sets;
}

std::vector<Set> checked_sets() {
  std::vector<Set> sets;
  for (const BareSet& set : bare_sets()) {
    sets.push_back({Mass::from_kg(set.load), Reps(set.reps), RepsInReserve(set.left)});
  }
  return sets;
}

// The loops stand in functions of their own, as they would in a program, so that the benchmark
// around them takes no registers from them.

template <class OneSet, class Max, class MaxOf>
[[gnu::noinline]] void one_by_one(const std::vector<OneSet>& sets, Max* maxes, MaxOf max_of) {
#ifdef __clang__
#pragma clang loop vectorize(disable)
#endif
  for (const OneSet& set : sets) *maxes++ = max_of(set);
}

template <class OneSet, class Max, class MaxOf>
[[gnu::noinline]] void several_at_once(const std::vector<OneSet>& sets, Max* maxes, MaxOf max_of) {
  for (const OneSet& set : sets) *maxes++ = max_of(set);
}

template <class Max, class OneSet>
void measure(benchmark::State& state, const std::vector<OneSet>& sets, auto all_maxes) {
  std::vector<Max> maxes(sets.size());
  for (auto _ : state) {
    all_maxes(sets, maxes.data());
    benchmark::DoNotOptimize(maxes.data());
    benchmark::ClobberMemory();
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(sets.size()));
}

template <class Formula>
void by_hand(benchmark::State& state, Formula formula) {
  measure<double>(state, bare_sets(), [=](const auto& sets, double* maxes) {
    one_by_one(sets, maxes, [=](const BareSet& s) { return formula(s.load, s.reps + s.left); });
  });
}

template <class Formula>
void by_hand_simd(benchmark::State& state, Formula formula) {
  measure<double>(state, bare_sets(), [=](const auto& sets, double* maxes) {
    several_at_once(sets, maxes,
                    [=](const BareSet& s) { return formula(s.load, s.reps + s.left); });
  });
}

template <class MaxOf>
void library(benchmark::State& state, MaxOf max_of) {
  measure<Mass>(state, checked_sets(),
                [=](const auto& sets, Mass* maxes) { one_by_one(sets, maxes, max_of); });
}

// ---- the formulas as they are printed

constexpr auto epley = [](double load, double reps) { return load * (1.0 + reps / 30.0); };
constexpr auto brzycki = [](double load, double reps) { return load * 36.0 / (37.0 - reps); };
constexpr auto wathen = [](double load, double reps) {
  return 100.0 * load / (48.8 + 53.8 * std::exp(-0.075 * reps));
};
constexpr auto lombardi = [](double load, double reps) { return load * std::pow(reps, 0.10); };

struct ChartRow {
  double reps;
  double share;
  double slope;
};

/// The chart with the slopes of the library's curve, so that both compute the same function.
constexpr auto chart = [] {
  constexpr double reps[] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12};
  std::array<ChartRow, 11> rows{};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double share = rep_tables::nsca_chart.fraction(reps[i]);
    rows[i] = {reps[i], share, share * rep_tables::nsca_chart.slope(reps[i])};
  }
  return rows;
}();

constexpr auto nsca_chart = [](double load, double reps) {
  std::size_t i = 0;
  while (i < 9 && reps >= chart[i + 1].reps) ++i;
  const ChartRow& a = chart[i];
  const ChartRow& b = chart[i + 1];
  const double t = (reps - a.reps) / (b.reps - a.reps);
  const double u = 1.0 - t;
  return load / (b.share + u * u * (3.0 - 2.0 * u) * (a.share - b.share) +
                 t * u * (b.reps - a.reps) * (u * a.slope - t * b.slope));
};

// ---- the library

constexpr auto library_epley = [](const Set& s) {
  return one_rep_max(equations::epley, s.load, s.reps, s.left);
};
constexpr auto library_brzycki = [](const Set& s) {
  return one_rep_max(equations::brzycki, s.load, s.reps, s.left);
};
constexpr auto library_wathen = [](const Set& s) {
  return one_rep_max(equations::wathen, s.load, s.reps, s.left);
};
constexpr auto library_lombardi = [](const Set& s) {
  return one_rep_max(equations::lombardi, s.load, s.reps, s.left);
};
constexpr auto library_nsca_chart = [](const Set& s) {
  return one_rep_max(rep_tables::nsca_chart, s.load, s.reps, s.left);
};

BENCHMARK_CAPTURE(by_hand_simd, epley, epley);
BENCHMARK_CAPTURE(by_hand, epley, epley);
BENCHMARK_CAPTURE(library, epley, library_epley);
BENCHMARK_CAPTURE(by_hand_simd, brzycki, brzycki);
BENCHMARK_CAPTURE(by_hand, brzycki, brzycki);
BENCHMARK_CAPTURE(library, brzycki, library_brzycki);
BENCHMARK_CAPTURE(by_hand_simd, wathen, wathen);
BENCHMARK_CAPTURE(by_hand, wathen, wathen);
BENCHMARK_CAPTURE(library, wathen, library_wathen);
BENCHMARK_CAPTURE(by_hand_simd, lombardi, lombardi);
BENCHMARK_CAPTURE(by_hand, lombardi, lombardi);
BENCHMARK_CAPTURE(library, lombardi, library_lombardi);
BENCHMARK_CAPTURE(by_hand_simd, nsca_chart, nsca_chart);
BENCHMARK_CAPTURE(by_hand, nsca_chart, nsca_chart);
BENCHMARK_CAPTURE(library, nsca_chart, library_nsca_chart);

}  // namespace
