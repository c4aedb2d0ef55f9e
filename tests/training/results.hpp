// tests/training/results.hpp - rooms, and sessions as they came out, for the tests of progression
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <vector>

#include "barwright/plates.hpp"
#include "barwright/training.hpp"

namespace barwright_test {

using namespace barwright;
using namespace barwright::literals;

inline constexpr double rounding = 1e-9;

/// Rooms with small steps, large steps, pounds, both units, and plates that run out.
inline std::vector<Room> rooms() {
  std::vector<Room> all{plate_sets::gym_kg, plate_sets::gym_lb, plate_sets::powerlifting_record};
  for (const char* text : {"bar 20 kg; plates 20 10 5 kg", "bar 15 kg; plates 10x2 5x1 2.5x1 kg",
                           "bar 20 kg; plates 45 25 lb 10 5 1.25 kg"}) {
    all.push_back(parse_room(text));
  }
  return all;
}

inline bool is_loadable(const Room& room, Mass load) {
  const auto loading = room.at_most(load);
  return loading && std::abs(loading->total() / load - 1.0) <= rounding;
}

/// Six asked for with two left: so many done, so many left.
inline SessionResult six_with_two_left(Mass load, int done, double left) {
  return {.load = load,
          .reps = 6_reps,
          .reserve = 2_rir,
          .fewest_done = done < 6 ? done : 6,
          .last_done = done,
          .last_left = RepsInReserve(left)};
}
inline SessionResult missed(Mass load, int fewest_done) {
  return {.load = load,
          .reps = 6_reps,
          .reserve = 2_rir,
          .fewest_done = fewest_done,
          .last_done = fewest_done,
          .last_left = 0_rir,
          .has_miss = true};
}

/// A load that stays the same, for blocks whose loads are not the point.
inline auto always(Mass load) {
  return [load](const StepPlan&) { return load; };
}

}  // namespace barwright_test
