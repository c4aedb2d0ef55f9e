// bench/monte_carlo_risk.cpp - the chance of missing, against ten million lots
//
//     monte_carlo_risk [lots]
//
// For each question, loads whose chance of a miss is 0.001 to 0.999 by the library, and how far the
// share of lots that could not lift so much is from that, in standard errors of the share. A right
// answer lies within three, but for one in 370. tests/learn/strength_model_risk_test.cpp holds a
// million lots to the same.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "../tests/missing_by_lot.hpp"
#include "barwright/learn/strength_model.hpp"

namespace {

using namespace barwright;
using namespace barwright::literals;

constexpr double chances[] = {0.001, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 0.999};

/// The load with this chance of a miss, as a logarithm, by halving.
double load_with(double chance, const StrengthFit& fit, const Lift& lift, Reps reps, Date date) {
  double low = std::log(1.0);
  double high = std::log(1e4);
  for (int i = 0; i < 80; ++i) {
    const double middle = 0.5 * (low + high);
    const Mass load = Mass::from_kg(std::exp(middle));
    (fit.chance_of_missing(lift, load, reps, date) < chance ? low : high) = middle;
  }
  return low;
}

void compare(const char* what, const StrengthFit& fit, const Lift& lift, Reps reps, Date date,
             int lots) {
  static std::uint64_t seed = 0;
  const std::vector<double> heaviest =
      barwright_test::heaviest_by_lot(fit, lift, reps, date, 0, lots, ++seed);
  std::printf("%-28s %3d", what, reps.count());
  for (const double chance : chances) {
    const double log_load = load_with(chance, fit, lift, reps, date);
    const auto missed = std::lower_bound(heaviest.begin(), heaviest.end(), log_load);
    const double share = static_cast<double>(missed - heaviest.begin()) / lots;
    std::printf(" %7.1f", (share - chance) / std::sqrt(chance * (1.0 - chance) / lots));
  }
  std::printf("\n");
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const int lots = argc > 1 ? std::atoi(argv[1]) : 10000000;
  if (lots < 1000) {
    std::fprintf(stderr, "lots must be a whole number from 1000\n");
    return 2;
  }
  std::printf(
      "Share of lots missed less the chance by the library, in standard errors, %d lots.\n\n",
      lots);
  std::printf("%-28s %3s", "chance of a miss:", "");
  for (const double chance : chances) std::printf(" %7g", chance);
  std::printf("\n%-28s reps\n", "");

  const Lift plain = lifts::bench_press;
  const Lift feet_up = plain + modifiers::feet_up;
  const std::vector<LoggedSet> log = barwright_test::log_for_lots();
  const Date next = log.back().date + 2;
  StrengthModel none({});
  for (const Reps reps : {1_reps, 5_reps, 12_reps}) {
    compare("before the first set", none.fit(), plain, reps, next, lots);
  }
  StrengthModel one({});
  one.add(log.front());
  for (const Reps reps : {1_reps, 3_reps, 8_reps}) {
    compare("after one set", one.fit(), plain, reps, next, lots);
  }
  StrengthModel model({});
  for (const LoggedSet& set : log) model.add(set);
  const StrengthFit fit = model.fit();
  for (const Reps reps : {1_reps, 3_reps, 5_reps, 8_reps, 12_reps, 15_reps}) {
    compare("after four weeks", fit, plain, reps, next, lots);
  }
  compare("a variation", fit, feet_up, 6_reps, next, lots);
  compare("a variation not in the log", fit, plain + modifiers::close_grip, 6_reps, next, lots);
  compare("a year later", fit, plain, 5_reps, next + 365, lots);
  // Where it ends: questions far from anything that was lifted.
  compare("thirty reps", fit, plain, 30_reps, next, lots);
  compare("fifteen, after one set", one.fit(), plain, 15_reps, next, lots);
}
