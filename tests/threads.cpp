// tests/threads.cpp - many threads ask one model, one catalogue, one curve and one room at once
//
// Built with ThreadSanitizer, which ends the program where two threads touch the same memory and
// one of them writes. Nothing in the library is written to by a const call, nor anywhere global, so
// each thread gets what one thread alone got before.
// SPDX-License-Identifier: BSL-1.0
#include <array>
#include <barwright/barwright.hpp>
#include <barwright/learn/strength_model.hpp>
#include <cstddef>
#include <cstdio>
#include <thread>
#include <vector>

using namespace barwright;
using namespace barwright::literals;

namespace {

/// What all threads share.
struct Shared {
  StrengthFit fit;
  CurveTable curve{equations::wathen};
  const Room& room = plate_sets::gym_kg;
  Lift lift = lifts::bench_press + modifiers::feet_up;
  Date day{2026, 11, 25};
};

/// A bit of everything that can be asked without changing it.
std::vector<double> answers(const Shared& shared) {
  const auto& [fit, curve, room, lift, day] = shared;
  std::vector<double> found;
  const auto keep = [&](double value) { found.push_back(value); };
  keep(fit.max(lift, day).median().kg());
  keep(fit.ratio(lift).median());
  keep(fit.chance_of_missing(lift, 60_kg, 5_reps, day, 1));
  keep(fit.load_for(lift, 6_reps, 2_rir, day).load.kg());
  for (const auto& point : fit.history(lift)) keep(point.max.median().kg());
  for (const SetReport& report : fit.reports()) keep(report.surprise);
  keep(one_rep_max(lift.curve(equations::wathen), 90_kg, 5_reps, 2_rir).kg());
  keep(curve.reps(-0.2));
  keep(curve.at(7.5).log_fraction);
  keep(catalogue::find_modifier("feet up", lifts::bench_press)->ratio(100_kg).typical);
  keep(static_cast<double>(catalogue::nearest_lift_names("bensh pres").size()));
  for (double kg = 20.0; kg < 200.0; kg += 7.7) {
    keep(room.nearest(Mass::from_kg(kg)).total().kg());
  }
  keep(plan_ramp(room, {40_kg, 60_kg, 80_kg, 90_kg}).moves());
  keep(introduce(equations::wathen, lift, 110_kg, 6_reps, 2_rir).begin()->load.kg());
  keep(static_cast<double>(
      cautions_for({.lift = lift, .reps = 5_reps, .reserve = 1_rir}).says_stop()));
  try {
    (void)Reps(static_cast<int>(found.size()) + 1000);
  } catch (const DomainError&) {
    keep(-1.0);
  }
  return found;
}

StrengthFit fit_of_some_weeks(Date day) {
  StrengthModel model({});
  for (int week = 0; week < 4; ++week) {
    for (const int reps : {8, 5}) {
      model.add({.date = day - 7 * week,
                 .lift = lifts::bench_press,
                 .load = Mass::from_kg(100.0 - 4.0 * reps),
                 .reps = Reps(reps),
                 .reserve = Range<RepsInReserve>::exactly(2_rir)});
      model.add({.date = day - 7 * week - 3,
                 .lift = lifts::bench_press + modifiers::feet_up,
                 .load = Mass::from_kg(92.0 - 4.0 * reps),
                 .reps = Reps(reps),
                 .reserve = Range<RepsInReserve>::exactly(2_rir)});
    }
  }
  return model.fit();
}

}  // namespace

int main() {
  const Shared shared{.fit = fit_of_some_weeks(Date(2026, 11, 25))};
  const std::vector<double> alone = answers(shared);
  std::array<std::vector<double>, 8> together;
  std::vector<std::thread> team;
  for (std::vector<double>& mine : together) {
    team.emplace_back([&shared, &mine] {
      for (int i = 0; i < 5; ++i) mine = answers(shared);
    });
  }
  for (std::thread& thread : team) thread.join();
  for (const std::vector<double>& mine : together) {
    if (mine != alone) {
      std::puts("a thread got another answer");
      return 1;
    }
  }
  std::printf("%zu threads got the same %zu answers\n", together.size(), alone.size());
}
