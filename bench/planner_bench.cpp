// bench/planner_bench.cpp - a session planned from a fitted lifter, from a log, and from JSON
//                           (plan/session.hpp, plan/learn_lifter.hpp, plan/json.hpp)
//
// The lifters are invented: three lifts twice a week, two sets each, with loads that creep up and
// ratings that wander. A squad is a thousand of them, each asked for one session of each lift.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <barwright/plan/json.hpp>
#include <barwright/plan/json_plan.hpp>
#include <barwright/planning.hpp>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace {

using namespace barwright;

const std::array<Lift, 3> trained = {lifts::bench_press, lifts::squat, lifts::deadlift};
const Date today(2026, 11, 25);

/// So many sets of each of the first `lift_count` lifts.
std::vector<LoggedSet> log_of(std::size_t lifter, std::size_t lift_count, int sets_of_each) {
  std::vector<LoggedSet> log;
  for (std::size_t lift = 0; lift < lift_count; ++lift) {
    const double max = 80.0 + 30.0 * static_cast<double>(lift) + 0.05 * static_cast<double>(lifter);
    for (int set = 0; set < sets_of_each; ++set) {
      const int days_ago = 3 + 7 * (sets_of_each - 1 - set) / 4;
      const double wander = std::sin(1.7 * set + 0.3 * static_cast<double>(lifter));
      const double load = max * (0.74 + 0.0005 * set + 0.02 * wander);
      log.push_back(
          {.date = today - days_ago,
           .lift = trained[lift],
           .load = Mass::from_kg(std::round(load / 2.5) * 2.5),
           .reps = Reps(5 + set % 2),
           .reserve = Range<RepsInReserve>::exactly(RepsInReserve(wander > 0.0 ? 2.0 : 3.0))});
    }
  }
  return log;
}

SessionRequest session_of(const Lift& lift) {
  return {.lift = lift, .date = today, .safeties = Safeties::checked};
}

void session_from_a_fitted_lifter(benchmark::State& state) {
  const LearntLifter lifter = learn_lifter(log_of(1, 1, 100), trained[0], today);
  for (auto _ : state) benchmark::DoNotOptimize(plan_session(lifter, session_of(trained[0])));
}
BENCHMARK(session_from_a_fitted_lifter)->Unit(benchmark::kMicrosecond);

void session_from_a_stated_max(benchmark::State& state) {
  for (auto _ : state) {
    const Lifter lifter = stated_lifter(trained[0], Mass::from_kg(100));
    benchmark::DoNotOptimize(plan_session(lifter, session_of(trained[0])));
  }
}
BENCHMARK(session_from_a_stated_max)->Unit(benchmark::kMicrosecond);

void session_from_a_log_of_100_sets(benchmark::State& state) {
  const std::vector<LoggedSet> log = log_of(1, 1, 100);
  for (auto _ : state) {
    const LearntLifter lifter = learn_lifter(log, trained[0], today);
    benchmark::DoNotOptimize(plan_session(lifter, session_of(trained[0])));
  }
}
BENCHMARK(session_from_a_log_of_100_sets)->Unit(benchmark::kMillisecond);

/// The same, as a request in JSON.
void answer_to_a_log_of_100_sets(benchmark::State& state) {
  json::Writer request;
  request.begin_object().member("version", 1).member("ask", "plan_session");
  request.member("lift", trained[0].name().str()).member("date", to_text(today).str());
  request.member("safeties", "checked").name("log").begin_array();
  const Lifter lifter{.base = trained[0]};
  for (const LoggedSet& set : log_of(1, 1, 100)) json::detail::write_set(request, set, lifter);
  request.end_array().end_object();
  for (auto _ : state) benchmark::DoNotOptimize(json::answer(request.text()));
}
BENCHMARK(answer_to_a_log_of_100_sets)->Unit(benchmark::kMillisecond);

/// A thousand lifters and three lifts, one after the other, from logs of so many sets of each lift.
void squad_of_1000(benchmark::State& state) {
  std::vector<std::vector<LoggedSet>> logs;
  for (std::size_t lifter = 0; lifter < 1000; ++lifter) {
    logs.push_back(log_of(lifter, trained.size(), static_cast<int>(state.range(0))));
  }
  for (auto _ : state) {
    for (const std::vector<LoggedSet>& log : logs) {
      for (const Lift& lift : trained) {
        const LearntLifter lifter = learn_lifter(log, lift, today);
        benchmark::DoNotOptimize(plan_session(lifter, session_of(lift)));
      }
    }
  }
}
BENCHMARK(squad_of_1000)->Arg(33)->Arg(100)->Iterations(1)->Unit(benchmark::kSecond);

}  // namespace
