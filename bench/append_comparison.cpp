// bench/append_comparison.cpp - how far a fit that was appended to lies from a new one
//
//     append_comparison [lifters]
//
// Simulated lifters (tests/simulated_lifter.hpp) whose last sets are appended to a fit of the
// others, as many as append_set.hpp takes, and then the whole log is fitted anew. For three lifts
// each: how much greater the max, its standard deviation and the load for five with two left come
// out than in the new fit, as the range of 90 % of the answers, and the loads furthest off either
// way. What is wanted is that no load is a plate step of 2.5 kg heavier.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <vector>

#include "../tests/simulated_lifter.hpp"
#include "barwright/learn/append_set.hpp"
#include "barwright/learn/strength_model.hpp"

namespace {

using namespace barwright;
using namespace barwright::literals;
using namespace barwright_test;

StrengthFit fit_of(const SimulatedLifter& lifter, std::ptrdiff_t sets) {
  StrengthModel model(lifter.settings);
  for (auto set = lifter.log.begin(); set != lifter.log.begin() + sets; ++set) model.add(*set);
  return model.fit();
}

struct Differences {
  std::vector<double> values{};
  void add(double value) { values.push_back(value); }
  double at(double share) {
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
  }
};

/// By how much the answers are greater than a new fit's.
struct Comparison {
  Differences max{};
  Differences deviation{};
  Differences load{};
  Differences load_kg{};

  void add(const StrengthFit& appended, const StrengthFit& anew, Date day) {
    for (const Lift& lift : {simulated_plain, simulated_a, simulated_b}) {
      const Estimate<Mass> is = appended.max(lift, day);
      const Estimate<Mass> would_be = anew.max(lift, day);
      max.add(100.0 * std::expm1(is.log_mean() - would_be.log_mean()));
      deviation.add(100.0 * (is.log_sd() / would_be.log_sd() - 1.0));
      const Mass chosen = appended.load_for(lift, 5_reps, 2_rir, day).load;
      const Mass wanted = anew.load_for(lift, 5_reps, 2_rir, day).load;
      load.add(100.0 * (chosen / wanted - 1.0));
      load_kg.add((chosen - wanted).kg());
    }
  }
  void print(int sets, int appended) {
    if (load.values.empty()) return;
    std::printf("%5d %8d %8zu  %6.2f to %5.2f  %6.1f to %5.1f  %6.2f to %5.2f  %7.1f to %4.1f\n",
                sets, appended, load.values.size(), max.at(0.05), max.at(0.95), deviation.at(0.05),
                deviation.at(0.95), load.at(0.05), load.at(0.95), load_kg.at(0.0), load_kg.at(1.0));
  }
};

void compare(int weeks, const std::vector<int>& counts, int lifters) {
  std::vector<Comparison> comparisons(counts.size());
  for (int i = 0; i < lifters; ++i) {
    const SimulatedLifter lifter =
        simulate_lifter(static_cast<std::uint64_t>(i) + 1, {.weeks = weeks});
    const auto all = static_cast<std::ptrdiff_t>(lifter.log.size());
    const StrengthFit anew = fit_of(lifter, all);
    for (std::size_t k = 0; k < counts.size(); ++k) {
      std::optional<StrengthFit> fit = fit_of(lifter, all - counts[k]);
      for (auto set = lifter.log.end() - counts[k]; fit && set != lifter.log.end(); ++set) {
        fit = append_set(*fit, *set);
      }
      if (fit) comparisons[k].add(*fit, anew, lifter.last + 2);
    }
  }
  for (std::size_t k = 0; k < counts.size(); ++k) comparisons[k].print(12 * weeks, counts[k]);
}

}  // namespace

int main(int argc, char** argv) {
  const int lifters = argc > 1 ? std::atoi(argv[1]) : 100;
  std::puts(" sets appended  answers  max, %           sd, %            load, %          load, kg");
  compare(3, {1, 3}, lifters);
  compare(10, {1, 5, 10}, lifters);
  compare(20, {1, 5, 10, 20}, lifters);
}
