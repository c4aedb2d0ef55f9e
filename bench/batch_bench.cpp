// bench/batch_bench.cpp - columns of sets, beside a plain loop, an Eigen expression and a triad
//
// Every benchmark measures its kernels in turns on the same columns, so that all meet the machine
// in the same state, and reports the medians:
//
//     batch    batch::one_rep_max with its checks and faults (or another function of batch.hpp)
//     loop     the formula as it is printed, with std::pow or std::exp, unchecked, no faults
//     eigen    the same formula as one expression over Eigen arrays, unchecked, no faults
//     triad    the least there is to do with the same columns: result = load + s x (reps + left),
//              fault = reps & left
//     copy     less still: result = s x load, fault = reps + left
//
// Counters: nanoseconds per row, and ratios: batch_to_triad, batch_to_copy, loop_to_batch and
// eigen_to_batch. The first argument is the number of rows: 4,096 stay in the cache, 4,000,000 do
// not. The second is the number of bad rows in a thousand.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <ctime>
#include <random>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_table.hpp"
#include "barwright/learn/batch.hpp"
#include "barwright/plates.hpp"

namespace {

using namespace barwright;
using Eigen::ArrayXd;
using Eigen::Index;

/// Invented: 20 to 200 kg, 1 to 8 reps, 0 to 4 in reserve by halves, all on every curve.
struct Columns {
  ArrayXd loads;
  batch::Counts reps;
  batch::Counts left;
  ArrayXd results;
  batch::Faults faults;

  Columns(Index rows, std::int64_t bad_in_thousand)
      : loads(rows), reps(rows), left(rows), results(rows), faults(rows) {
    std::mt19937 random(1);
    for (Index i = 0; i < rows; ++i) {
      loads[i] = 20.0 + 0.5 * static_cast<double>(random() % 361);
      reps[i] = static_cast<std::uint8_t>(1 + random() % 8);
      left[i] = static_cast<std::uint8_t>(random() % 9);
      if (static_cast<std::int64_t>(random() % 1000) < bad_in_thousand) reps[i] = 0;
    }
    results.setZero();
    faults.setConstant(batch::Fault::none);
  }
};

// The loops stand in functions of their own, as they would in a program, and begin where a cache
// line does: the triad takes half as long again in some other places.

[[gnu::noinline, gnu::aligned(64)]] void triad(const double* loads, const std::uint8_t* reps,
                                               const std::uint8_t* left, double* results,
                                               batch::Fault* faults, Index rows, double scale) {
  for (Index i = 0; i < rows; ++i) {
    results[i] = loads[i] + scale * (reps[i] + left[i]);
    faults[i] = static_cast<batch::Fault>(reps[i] & left[i]);
  }
}

[[gnu::noinline, gnu::aligned(64)]] void copy(const double* loads, const std::uint8_t* reps,
                                              const std::uint8_t* left, double* results,
                                              batch::Fault* faults, Index rows, double scale) {
  for (Index i = 0; i < rows; ++i) {
    results[i] = scale * loads[i];
    faults[i] = static_cast<batch::Fault>(reps[i] + left[i]);
  }
}

template <class Formula>
[[gnu::noinline]] void loop(const double* loads, const std::uint8_t* reps, const std::uint8_t* left,
                            double* results, Index rows, Formula formula) {
  for (Index i = 0; i < rows; ++i) results[i] = formula(loads[i], reps[i] + 0.5 * left[i]);
}

/// CPU time of this program: what others do on the machine is not counted.
double cpu_nanoseconds() {
  std::timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return 1e9 * static_cast<double>(now.tv_sec) + static_cast<double>(now.tv_nsec);
}

/// Times of one kernel, in nanoseconds per row.
class Stopwatch {
 public:
  template <class Kernel>
  void measure(Index rows, const Kernel& kernel) {
    const Index times = rows < 100'000 ? 50 : 1;
    const double start = cpu_nanoseconds();
    for (Index i = 0; i < times; ++i) {
      kernel();
      benchmark::ClobberMemory();
    }
    samples_.push_back((cpu_nanoseconds() - start) / static_cast<double>(rows * times));
  }
  [[nodiscard]] double median() {
    if (samples_.empty()) return 0.0;
    const auto middle = samples_.begin() + static_cast<std::ptrdiff_t>(samples_.size() / 2);
    std::nth_element(samples_.begin(), middle, samples_.end());
    return *middle;
  }

 private:
  std::vector<double> samples_;
};

struct NoEigen {};

template <class Kernel, class Formula, class EigenFormula>
void run(benchmark::State& state, const Kernel& kernel, Formula formula, EigenFormula eigen) {
  const Index rows = state.range(0);
  Columns c(rows, state.range(1));
  Stopwatch batch_time;
  Stopwatch loop_time;
  Stopwatch eigen_time;
  Stopwatch triad_time;
  Stopwatch copy_time;
  for (auto _ : state) {
    batch_time.measure(rows, [&] { kernel(c); });
    triad_time.measure(rows, [&] {
      triad(c.loads.data(), c.reps.data(), c.left.data(), c.results.data(), c.faults.data(), rows,
            1.5);
    });
    copy_time.measure(rows, [&] {
      copy(c.loads.data(), c.reps.data(), c.left.data(), c.results.data(), c.faults.data(), rows,
           1.5);
    });
    loop_time.measure(rows, [&] {
      loop(c.loads.data(), c.reps.data(), c.left.data(), c.results.data(), rows, formula);
    });
    if constexpr (!std::same_as<EigenFormula, NoEigen>) {
      eigen_time.measure(rows, [&] {
        eigen(c.loads, c.reps.cast<double>() + 0.5 * c.left.cast<double>(), c.results);
      });
    }
    benchmark::DoNotOptimize(c.results.data());
  }
  const double ns = batch_time.median();
  state.counters["batch_ns"] = ns;
  state.counters["loop_ns"] = loop_time.median();
  state.counters["triad_ns"] = triad_time.median();
  state.counters["batch_to_triad"] = ns / triad_time.median();
  state.counters["batch_to_copy"] = ns / copy_time.median();
  state.counters["loop_to_batch"] = loop_time.median() / ns;
  if constexpr (!std::same_as<EigenFormula, NoEigen>) {
    state.counters["eigen_to_batch"] = eigen_time.median() / ns;
  }
}

template <RepCurve C, class Formula, class EigenFormula>
void one_rep_max(benchmark::State& state, const C& curve, Formula formula, EigenFormula eigen) {
  const CurveLattice lattice(curve);
  run(
      state,
      [&](Columns& c) {
        batch::one_rep_max(lattice, c.loads, c.reps, c.left, c.results, c.faults);
      },
      formula, eigen);
}

template <RepCurve C, class Formula>
void load_for(benchmark::State& state, const C& curve, Formula formula) {
  const CurveLattice lattice(curve);
  run(
      state,
      [&](Columns& c) { batch::load_for(lattice, c.loads, c.reps, c.left, c.results, c.faults); },
      formula, NoEigen{});
}

template <RepCurve C>
void half_reps_left(benchmark::State& state, const C& curve) {
  const CurveLattice lattice(curve);
  const ArrayXd maxes = ArrayXd::Constant(state.range(0), 220.0);
  batch::HalfReps left(state.range(0));
  run(
      state,
      [&](Columns& c) { batch::half_reps_left(lattice, maxes, c.loads, c.reps, left, c.faults); },
      [&](double load, double reps) {
        return curve.reps(load < 110.0 ? 0.5 : load / 220.0) - reps;
      },
      NoEigen{});
}

template <RepCurve C>
void reserve_left(benchmark::State& state, const C& curve) {
  const ArrayXd maxes = ArrayXd::Constant(state.range(0), 220.0);
  run(
      state,
      [&](Columns& c) { batch::reserve_left(curve, maxes, c.loads, c.reps, c.results, c.faults); },
      [&](double load, double reps) {
        return curve.reps(load < 110.0 ? 0.5 : load / 220.0) - reps;
      },
      NoEigen{});
}

void loadable(benchmark::State& state) {
  const batch::LoadSteps steps([](Mass load) { return plate_sets::gym_kg.nearest(load).total(); });
  run(
      state, [&](Columns& c) { batch::loadable(steps, c.loads, c.results, c.faults); },
      [](double load, double) {
        return plate_sets::gym_kg.nearest(Mass::from_kg(load)).total().kg();
      },
      NoEigen{});
}

void make_steps(benchmark::State& state) {
  for (auto _ : state) {
    batch::LoadSteps steps([](Mass load) { return plate_sets::gym_kg.nearest(load).total(); });
    benchmark::DoNotOptimize(steps);
  }
}

void make_lattice(benchmark::State& state) {
  for (auto _ : state) {
    CurveLattice curve(equations::wathen);
    benchmark::DoNotOptimize(curve);
  }
}

// ---- the formulas as they are printed

constexpr auto epley = [](double load, double reps) { return load * (1.0 + reps / 30.0); };
constexpr auto welday = [](double load, double reps) { return load * 0.0333 * reps + load; };
constexpr auto brzycki = [](double load, double reps) { return load * 36.0 / (37.0 - reps); };
constexpr auto lander = [](double load, double reps) { return load / (1.013 - 0.0267123 * reps); };
constexpr auto oconner = [](double load, double reps) { return load * (1.0 + 0.025 * reps); };
constexpr auto adams = [](double load, double reps) { return load / (1.0 - 0.02 * reps); };
constexpr auto lombardi = [](double load, double reps) { return load * std::pow(reps, 0.10); };
constexpr auto mayhew = [](double load, double reps) {
  return load / (0.522 + 0.419 * std::exp(-0.055 * reps));
};
constexpr auto wathen = [](double load, double reps) {
  return load / (0.488 + 0.538 * std::exp(-0.075 * reps));
};
constexpr auto berger = [](double load, double reps) {
  return load / (1.0261 * std::exp(-0.0262 * reps));
};
constexpr auto brown = [](double load, double reps) { return load * (0.0328 * reps + 0.9849); };
constexpr auto reynolds_chest_press = [](double load, double reps) {
  return load / (0.5551 * std::exp(-0.0723 * reps) + 0.4847);
};
constexpr auto reynolds_leg_press = [](double load, double reps) {
  return load / (0.7817 * std::exp(-0.0569 * reps) + 0.2641);
};
constexpr auto kemmler = [](double load, double reps) {
  return load * (0.988 + reps * (0.0104 + reps * (0.00190 - reps * 0.0000584)));
};
constexpr auto wathen_load = [](double max, double reps) {
  return max * (0.488 + 0.538 * std::exp(-0.075 * reps));
};

constexpr std::int64_t in_cache = 4096;
constexpr std::int64_t in_memory = 4'000'000;

void sizes(benchmark::internal::Benchmark* b) {
  b->ArgNames({"rows", "bad_in_1000"});
  b->Args({in_cache, 0})->Args({in_memory, 0})->MinTime(0.3);
}
void sizes_and_faults(benchmark::internal::Benchmark* b) {
  sizes(b);
  b->Args({in_cache, 1})->Args({in_cache, 10})->Args({in_cache, 100});
}

#define BARWRIGHT_BENCH_CURVE(name, array)                                                    \
  BENCHMARK_CAPTURE(one_rep_max, name, equations::name, name,                                 \
                    [](const ArrayXd& load, const auto& reps, ArrayXd& out) { out = array; }) \
      ->Apply(sizes)

BARWRIGHT_BENCH_CURVE(epley, load*(1.0 + reps / 30.0));
BARWRIGHT_BENCH_CURVE(welday, load * 0.0333 * reps + load);
BARWRIGHT_BENCH_CURVE(brzycki, load * 36.0 / (37.0 - reps));
BARWRIGHT_BENCH_CURVE(lander, load / (1.013 - 0.0267123 * reps));
BARWRIGHT_BENCH_CURVE(oconner, load*(1.0 + 0.025 * reps));
BARWRIGHT_BENCH_CURVE(adams, load / (1.0 - 0.02 * reps));
BARWRIGHT_BENCH_CURVE(lombardi, load* reps.pow(0.10));
BARWRIGHT_BENCH_CURVE(mayhew, load / (0.522 + 0.419 * (-0.055 * reps).exp()));
BARWRIGHT_BENCH_CURVE(wathen, load / (0.488 + 0.538 * (-0.075 * reps).exp()));
BARWRIGHT_BENCH_CURVE(berger, load / (1.0261 * (-0.0262 * reps).exp()));
BARWRIGHT_BENCH_CURVE(brown, load*(0.0328 * reps + 0.9849));
BARWRIGHT_BENCH_CURVE(reynolds_chest_press, load / (0.5551 * (-0.0723 * reps).exp() + 0.4847));
BARWRIGHT_BENCH_CURVE(reynolds_leg_press, load / (0.7817 * (-0.0569 * reps).exp() + 0.2641));
BARWRIGHT_BENCH_CURVE(kemmler, load*(0.988 + reps * (0.0104 + reps * (0.0019 - reps * 5.84e-5))));
BENCHMARK_CAPTURE(one_rep_max, wathen_with_faults, equations::wathen, wathen, NoEigen{})
    ->Apply(sizes_and_faults);
BENCHMARK_CAPTURE(
    one_rep_max, nsca_chart, rep_tables::nsca_chart,
    [](double load, double reps) {
      return load / rep_tables::nsca_chart.fraction(reps < 1.0 ? 1.0 : reps);
    },
    NoEigen{})
    ->Apply(sizes);
BENCHMARK_CAPTURE(load_for, wathen, equations::wathen, wathen_load)->Apply(sizes);
BENCHMARK_CAPTURE(half_reps_left, wathen, equations::wathen)->Apply(sizes);
BENCHMARK_CAPTURE(reserve_left, wathen, equations::wathen)->Apply(sizes);
BENCHMARK(loadable)->Apply(sizes);
BENCHMARK(make_lattice);
BENCHMARK(make_steps);

}  // namespace
