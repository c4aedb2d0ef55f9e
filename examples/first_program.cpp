// examples/first_program.cpp - one set, one question, one loaded bar
// SPDX-License-Identifier: BSL-1.0
#include <barwright/barwright.hpp>
#include <iostream>

using namespace barwright;
using namespace barwright::literals;

int main() {
  // 100 kg went up 5 times with 2 left. The max, and the load for 6 with 2 left, rounded down:
  constexpr Mass best = one_rep_max(equations::brzycki, 100_kg, 5_reps, 2_rir);
  constexpr Mass today = load_for(equations::brzycki, best, 6_reps, 2_rir);
  std::cout << "max " << best << ", today " << *plate_sets::gym_kg.at_most(today) << '\n';

  // The same lifter with feet up and a flat back, for the first time:
  const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
  const Range<Mass> max = lift.max_from(best);
  const Loading start = *plate_sets::gym_kg.at_most(max.low * lift.starting_share());
  std::cout << lift.name() << ": max " << to_text(max.low, Unit::kg, 1) << " to "
            << to_text(max.high, Unit::kg, 1) << "\nfirst session " << start << '\n';

  for (const Caution& caution : cautions_for({.lift = lift, .reps = 6_reps, .reserve = 4_rir})) {
    std::cout << to_text(caution.severity) << ": " << caution.text << '\n';
  }
  return std::cout.flush() ? 0 : 1;
}
