// examples/embed/cpp/next_session.cpp - from an app's own structs to the loaded bar
//
// The rower and her sets are invented; ../c/next_session.c is the same in C, and prints the same.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/planning.hpp>
#include <iostream>
#include <vector>

namespace {

using namespace barwright;
using namespace barwright::literals;

/// A set as this app keeps it.
struct AppSet {
  Date day;
  bool has_feet_up;
  double kg;
  int reps;
  double left;
  bool hurt = false;
};

// What she did.
const std::vector<AppSet> diary = {{{2026, 10, 28}, false, 60.0, 5, 2},
                                   {{2026, 11, 2}, false, 62.5, 5, 1},
                                   {{2026, 11, 5}, true, 52.5, 6, 3},
                                   {{2026, 11, 9}, true, 55.0, 6, 2},
                                   {{2026, 11, 14}, false, 62.5, 6, 1}};

void show(const SessionPlan& plan) {
  std::cout << (plan.is_stopped() ? "stop" : "plan") << '\n';
  if (!plan.is_stopped()) {
    std::cout << plan.load().kg() << " kg for " << plan.reps.count() << ", at least "
              << plan.reserve.count() << " left, limited by " << name(plan.limited_by) << '\n';
    for (const PlannedSet& set : plan.sets) std::cout << *set.with.bar << '\n';
  }
  for (const Caution& caution : plan.cautions) std::cout << caution.text << '\n';
}

}  // namespace

int main() {
  const Lift bench = lifts::bench_press;
  const Lift feet_up = bench + modifiers::feet_up;
  const Date today{2026, 11, 18};

  // Six with two left, feet up.
  std::vector<LoggedSet> log;
  for (const AppSet& set : diary) {
    log.push_back({.date = set.day,
                   .lift = set.has_feet_up ? feet_up : bench,
                   .load = Mass::from_kg(set.kg),
                   .reps = Reps(set.reps),
                   .reserve = Range<RepsInReserve>::exactly(RepsInReserve(set.left)),
                   .has_pain = set.hurt});
  }
  const LearntLifter lifter = learn_lifter(log, bench, today);
  const auto plan = plan_session(lifter, {.lift = feet_up,
                                          .date = today,
                                          .reps = 6_reps,
                                          .reserve = 2_rir,
                                          .safeties = Safeties::checked});
  if (!plan) {
    std::cout << message(plan.refusal(), feet_up.base().name) << '\n';
    return 1;
  }
  show(*plan);
}
