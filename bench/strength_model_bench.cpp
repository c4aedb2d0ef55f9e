// bench/strength_model_bench.cpp - how long a log takes to learn from, and an answer to give
//
// An invented lifter trains three days a week, five sets each of two lifts a day, on the bench
// press and three variations of it; every fifteenth set is not rated and every thirtieth is missed.
// The log grows from 100 sets (three weeks) to 15,000 (ten years), and the fit of twice the log may
// cost little more than twice as much: `BigO` is a straight line through the doublings.
//
//     fit/N                the whole fit of a log of N sets
//     max, chance_of_missing, load_for   one answer of the fit of 100 sets
//     append_set, append_first           one set into a fit of 100 that was appended to, or of N
//     save_fit, restore_fit              the fit of N sets, as bytes
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <string>

#include "barwright/learn/append_set.hpp"
#include "barwright/learn/saved_fit.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"

namespace {

using namespace barwright;
using namespace barwright::literals;

const Lift lifts_done[] = {lifts::bench_press, lifts::bench_press + modifiers::feet_up,
                           lifts::bench_press + modifiers::feet_up + modifiers::flat_back,
                           lifts::bench_press + modifiers::close_grip};
const double ratios[] = {1.0, 0.93, 0.86, 0.95};
constexpr Date first_day(2016, 1, 4);

/// Three days a week, two lifts a day, five sets of each.
StrengthModel invented_model(int sets) {
  StrengthModel model({});
  const CurveTable curve = equations::wathen;
  std::mt19937_64 random(7);
  std::normal_distribution<double> normal;
  double form = 0.0;
  for (int i = 0; i < sets; ++i) {
    const int session = i / 10;
    if (i % 10 == 0) form = 0.025 * normal(random);
    const auto lift = static_cast<std::size_t>(i / 5 % 4);
    const double weeks = session / 3.0;
    const double max = 90.0 * (1.0 + 0.3 * weeks / (100.0 + weeks)) * ratios[lift] *
                       std::exp(form - 0.012 * (i % 5));
    const int reps = 3 + i % 6;
    const double left = 1.0 + i % 3;
    LoggedSet set{.date = first_day + (session / 3 * 7 + session % 3 * 2),
                  .lift = lifts_done[lift],
                  .load = Mass::from_kg(max * std::exp(curve.log_fraction(reps + left + 0.5) +
                                                       0.02 * normal(random))),
                  .reps = Reps(reps)};
    if (i % 30 == 29) {
      set.outcome = Outcome::missed;
      set.reps = Reps(reps + 3);
    } else if (i % 15 != 14) {
      set.reserve = Range<RepsInReserve>::exactly(RepsInReserve(left));
    }
    model.add(set);
  }
  return model;
}

void fit(benchmark::State& state) {
  const StrengthModel model = invented_model(static_cast<int>(state.range(0)));
  for (auto _ : state) {
    const StrengthFit result = model.fit();
    benchmark::DoNotOptimize(&result);
  }
  state.SetComplexityN(state.range(0));
}
BENCHMARK(fit)->Arg(1)->Arg(100)->Unit(benchmark::kMillisecond);
BENCHMARK(fit)
    ->Arg(1000)
    ->Arg(2000)
    ->Arg(4000)
    ->Arg(8000)
    ->Complexity(benchmark::oN)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(fit)->Arg(15000)->Unit(benchmark::kMillisecond);

template <class Ask>
void answer(benchmark::State& state, Ask ask) {
  const StrengthFit fitted = invented_model(100).fit();
  const Date today = first_day + 70;
  for (auto _ : state) benchmark::DoNotOptimize(ask(fitted, today));
}

void max(benchmark::State& state) {
  answer(state, [](const StrengthFit& fitted, Date today) {
    return fitted.max(lifts_done[2], today).log_mean();
  });
}
BENCHMARK(max);

void chance_of_missing(benchmark::State& state) {
  answer(state, [](const StrengthFit& fitted, Date today) {
    return fitted.chance_of_missing(lifts_done[2], 60_kg, 6_reps, today);
  });
}
BENCHMARK(chance_of_missing);

void load_for(benchmark::State& state) {
  answer(state, [](const StrengthFit& fitted, Date today) {
    return fitted.load_for(lifts_done[2], 6_reps, 2_rir, today).load;
  });
}
BENCHMARK(load_for);

/// A set of the last session's lift, on a day after the log.
LoggedSet next_set(const StrengthModel& model) {
  LoggedSet set = model.sets().back();
  set.date = set.date + 2;
  set.outcome = Outcome::completed;
  set.reserve = Range<RepsInReserve>::exactly(2_rir);
  return set;
}

void append_set(benchmark::State& state) {
  const StrengthModel model = invented_model(100);
  const LoggedSet set = next_set(model);
  const StrengthFit before = *barwright::append_set(model.fit(), set);
  for (auto _ : state) {
    const auto after = barwright::append_set(before, set);
    benchmark::DoNotOptimize(&after);
  }
}
BENCHMARK(append_set);

void append_first(benchmark::State& state) {
  const StrengthModel model = invented_model(static_cast<int>(state.range(0)));
  const StrengthFit before = model.fit();
  const LoggedSet set = next_set(model);
  for (auto _ : state) {
    const auto after = barwright::append_set(before, set);
    benchmark::DoNotOptimize(&after);
  }
}
BENCHMARK(append_first)->Arg(100)->Arg(15000);

void save_fit(benchmark::State& state) {
  const StrengthFit saved = invented_model(static_cast<int>(state.range(0))).fit();
  for (auto _ : state) {
    const std::string bytes = barwright::save_fit(saved);
    benchmark::DoNotOptimize(bytes.data());
  }
  state.counters["bytes"] = static_cast<double>(barwright::save_fit(saved).size());
}
BENCHMARK(save_fit)->Arg(100)->Arg(15000);

void restore_fit(benchmark::State& state) {
  const StrengthModel model = invented_model(static_cast<int>(state.range(0)));
  const std::string bytes = barwright::save_fit(model.fit());
  for (auto _ : state) {
    const StrengthFit again = barwright::restore_fit(bytes, model.settings());
    benchmark::DoNotOptimize(&again);
  }
}
BENCHMARK(restore_fit)->Arg(100)->Arg(15000);

}  // namespace
