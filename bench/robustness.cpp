// bench/robustness.cpp - the strength model where its assumptions fail
//
//     robustness [lifters]
//
// Simulated lifters (tests/simulated_lifter.hpp) who do not do as the model assumes: they rate in
// whole numbers, or lower than the usual; their curve is of another family; one set in twenty is
// logged with a load 2.2 times too high or too low, as when pounds are typed as kilograms. For each
// kind: how many of their maxes the 90 % intervals hold, how far off the maxes are in the mean, how
// many sets loaded at a 5 % bound are missed, how many of the mistyped sets are named, and how many
// of the others.
// SPDX-License-Identifier: BSL-1.0
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "../tests/simulated_lifter.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/learn/strength_model.hpp"

namespace {

using namespace barwright;
using namespace barwright_test;

constexpr double quantile_95 = 1.6448536269514722;

struct Share {
  int hits = 0;
  int of = 0;

  void add(bool hit) {
    hits += hit ? 1 : 0;
    ++of;
  }
  [[nodiscard]] double per_cent() const { return of > 0 ? 100.0 * hits / of : 0.0; }
};

void report(const char* name, const SimulationSettings& how, int lifters) {
  Share held[3];
  double error[3] = {};
  Share missed;
  Share named;
  Share named_wrongly;
  for (int i = 0; i < lifters; ++i) {
    const SimulatedLifter lifter = simulate_lifter(static_cast<std::uint64_t>(i) + 1, how);
    StrengthModel model(lifter.settings);
    for (const LoggedSet& set : lifter.log) model.add(set);
    const StrengthFit fit = model.fit();
    // By the end the third lift, which was new, is learnt.
    const Lift lifts[] = {simulated_plain, simulated_a, simulated_b};
    const double ratios[] = {0.0, lifter.log_ratio_a, lifter.log_ratio_b};
    for (int k = 0; k < 3; ++k) {
      const Estimate<Mass> max = fit.max(lifts[k], lifter.last + 1);
      const double off = lifter.log_max + ratios[k] - max.log_mean();
      held[k].add(std::fabs(off) <= quantile_95 * max.log_sd());
      error[k] += off / lifters;
    }
    for (const BoundedSet& set : lifter.at_bound) missed.add(set.is_missed);
    for (std::size_t s = 0; s < lifter.log.size(); ++s) {
      const bool is_named = fit.reports()[s].use == SetReport::Use::suspicious;
      (lifter.is_mistyped[s] ? named : named_wrongly).add(is_named);
    }
  }
  std::printf("%-34s %4.0f %4.0f %4.0f  %+5.1f %+5.1f %+5.1f %8.1f", name, held[0].per_cent(),
              held[1].per_cent(), held[2].per_cent(), 100.0 * error[0], 100.0 * error[1],
              100.0 * error[2], missed.per_cent());
  if (named.of > 0) {
    std::printf(" %8.1f", named.per_cent());
  } else {
    std::printf(" %8s", "-");
  }
  std::printf(" %9.2f\n", named_wrongly.per_cent());
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const int lifters = argc > 1 ? std::atoi(argv[1]) : 200;
  if (lifters < 1) {
    std::fprintf(stderr, "lifters must be a whole number from 1\n");
    return 2;
  }
  std::printf(
      "%d lifters each, ten weeks; per cent. Lifts: bench press, feet up, and flat back.\n\n",
      lifters);
  std::printf("%-34s %14s  %17s %8s %8s %9s\n", "", "held of 90", "truth - estimate", "missed",
              "mistyped", "others");
  std::printf("%-34s %14s  %17s %8s %8s %9s\n", "", "", "of the max", "of 5", "named", "named");
  const auto with_curve = [](const CurveTable& curve) {
    SimulationSettings how;
    how.curve = curve;
    how.is_bent = false;
    return how;
  };
  SimulationSettings how;
  report("as the model assumes", how, lifters);
  how.whole_ratings = true;
  report("rated in whole numbers", how, lifters);
  how.whole_ratings = false;
  how.under_reported = 1.0;
  report("under-reported by one", how, lifters);
  how.whole_ratings = true;
  report("both", how, lifters);
  how.under_reported = 1.5;
  report("by one and a half, whole numbers", how, lifters);
  how = {};
  how.unrated = 0.5;
  report("half of the sets not rated", how, lifters);
  report("curve: Epley", with_curve(equations::epley), lifters);
  report("curve: Brzycki", with_curve(equations::brzycki), lifters);
  report("curve: Mayhew", with_curve(equations::mayhew), lifters);
  report("curve: Lombardi", with_curve(equations::lombardi), lifters);
  how = {};
  how.mistyped = 0.05;
  report("one set in twenty mistyped", how, lifters);
}
