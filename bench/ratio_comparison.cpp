// bench/ratio_comparison.cpp - the ratio of a variation: the strength model against one equation
//
//     ratio_comparison [lifters]
//
// Simulated lifters (tests/simulated_lifter.hpp) train ten weeks on the bench press, with the feet
// up, and with a flat back besides. How far off is the share of the bench press that each variation
// is found to have: by the model, by the catalogue alone, and by the mean of per-set estimates with
// each of the published equations? The best equation is picked afterwards, knowing the truth, which
// no lifter can do. Root mean square of the error of the logarithm, so 0.03 is 3 %.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "../tests/ratio_by_equation.hpp"
#include "../tests/simulated_lifter.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/learn/strength_model.hpp"

namespace {

using namespace barwright;
using namespace barwright_test;

struct Errors {
  std::string_view name;
  double squares[2] = {};
  int count[2] = {};

  void add(int lift, double error) {
    squares[lift] += error * error;
    ++count[lift];
  }
  [[nodiscard]] double rms(int lift) const { return std::sqrt(squares[lift] / count[lift]); }
  [[nodiscard]] double rms() const {
    return std::sqrt((squares[0] + squares[1]) / (count[0] + count[1]));
  }
};

}  // namespace

int main(int argc, char** argv) {
  const int lifters = argc > 1 ? std::atoi(argv[1]) : 400;
  if (lifters < 1) {
    std::fprintf(stderr, "lifters must be a whole number from 1\n");
    return 2;
  }
  Errors by_model{.name = "strength model"};
  Errors by_catalogue{.name = "catalogue alone"};
  std::vector<Errors> by_equation;
  equations::for_each(
      [&](const auto& equation) { by_equation.push_back({.name = equation.facts.name}); });
  for (int i = 0; i < lifters; ++i) {
    const SimulatedLifter lifter = simulate_lifter(static_cast<std::uint64_t>(i) + 1);
    StrengthModel model(lifter.settings);
    for (const LoggedSet& set : lifter.log) model.add(set);
    const StrengthFit fit = model.fit();
    const StrengthFit nothing = StrengthModel(lifter.settings).fit();
    const Lift asked[] = {simulated_a, simulated_b};
    const double truth[] = {lifter.log_ratio_a, lifter.log_ratio_b};
    for (int k = 0; k < 2; ++k) {
      by_model.add(k, fit.ratio(asked[k]).log_mean() - truth[k]);
      by_catalogue.add(k, nothing.ratio(asked[k]).log_mean() - truth[k]);
      std::size_t next = 0;
      equations::for_each([&](const auto& equation) {
        const auto ratio = log_ratio_by_equation(equation, lifter.log, asked[k], simulated_plain);
        if (ratio) by_equation[next].add(k, *ratio - truth[k]);
        ++next;
      });
    }
  }
  std::sort(by_equation.begin(), by_equation.end(),
            [](const Errors& a, const Errors& b) { return a.rms() < b.rms(); });
  std::printf("Error of the ratio after ten weeks, root mean square over %d lifters.\n\n", lifters);
  std::printf("%-24s %8s %14s %8s\n", "", "feet up", "and flat back", "both");
  const auto print = [](const Errors& e) {
    std::printf("%-24.*s %8.4f %14.4f %8.4f\n", static_cast<int>(e.name.size()), e.name.data(),
                e.rms(0), e.rms(1), e.rms());
  };
  print(by_model);
  print(by_catalogue);
  for (const Errors& e : by_equation) print(e);
  const Errors& best = by_equation.front();
  std::printf(
      "\nBest equation against the model: %.2f (feet up), %.2f (and flat back), %.2f (both)\n",
      best.rms(0) / by_model.rms(0), best.rms(1) / by_model.rms(1), best.rms() / by_model.rms());
}
