// barwright/plates/ramp.hpp - the plates for a sequence of loads on one bar
//
// Plates come off a sleeve in the opposite order to the one they went on in, so what stays on must
// have gone on early and inside.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <span>
#include <vector>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/text.hpp"
#include "barwright/plates/detail/ramp_planner.hpp"
#include "barwright/plates/loading.hpp"
#include "barwright/plates/room.hpp"

namespace barwright::inline v0 {

/// One load of a ramp, and how to get there from the one before.
struct RampStep {
  Mass target{};      ///< the load asked for
  Loading loading;    ///< the load there is
  int taken_off = 0;  ///< plates that come off each side first
  int put_on = 0;     ///< plates that then go on each side: the outermost ones

  /// Plates handled on each side.
  [[nodiscard]] constexpr int moves() const noexcept { return taken_off + put_on; }
};

/// A sequence of loads on one bar.
struct Ramp {
  std::vector<RampStep> steps{};

  /// Plates handled on each side from the empty bar to the last load.
  [[nodiscard]] int moves() const noexcept {
    int sum = 0;
    for (const RampStep& step : steps) sum += step.moves();
    return sum;
  }
};

/// The loadings for a sequence of loads, rising or not, that take the fewest plate moves.
///
/// Plates come off a sleeve in the opposite order to the one they went on in, so one that stays on
/// has to go on early and inside. Of the plans with the fewest moves, from the empty bar to the
/// last load, this has the fewest plates on the bar, summed over the steps. The best of all, not an
/// approximation. A plate put on later may be heavier than those inside it; where a rule book wants
/// the heaviest innermost, load each step with `Room::nearest` instead.
///
/// Each step has the mass that `Room::load` gives for it. Eight steps take some ten microseconds in
/// a room of one unit and a few milliseconds where kinds run out or both units are mixed; at most
/// some 50 ms, besides what the single loads take. Allocates.
///
/// @param loads  1 to 64 loads
/// @throws DomainError for another number, for a load that the room has no loading for by this
/// rounding, and where so many kinds run out, or steps follow one another, that an exact plan would
/// take more than 33,554,432 steps.
[[nodiscard]] inline Ramp plan_ramp(const Room& room, std::span<const Mass> loads,
                                    Rounding rounding = Rounding::nearest) {
  constexpr std::size_t most = detail::RampPlanner::most_steps;
  if (loads.empty() || loads.size() > most) {
    detail::fail("the loads of a ramp", "1 to 64", static_cast<double>(loads.size()));
  }
  detail::Ticks masses[most];
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const std::optional<Loading> single = room.load(loads[i], rounding);
    if (!single) {
      detail::fail("a load of the ramp",
                   rounding == Rounding::up ? "within what the plates make"
                                            : "at least that of the empty bar",
                   to_text(loads[i], room.bar().mass.unit()));
    }
    masses[i] = 0;
    for (const MarkedMass plate : single->plates()) masses[i] += 2 * plate.ticks();
  }
  const detail::RampPlanner planner(room.rack_, masses, static_cast<int>(loads.size()));

  Ramp ramp{std::vector<RampStep>(loads.size(), RampStep{.loading = room.empty_bar()})};
  detail::Stack before;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const detail::Stack& stack = planner.stack(static_cast<int>(i));
    RampStep& step = ramp.steps[i];
    step.target = loads[i];
    int kept = 0;
    for (int k = 0; k < stack.size; ++k) {
      const std::size_t kind = stack.kinds[k];
      step.loading.put_on(room.plates()[kind].mass());
      if (kept == k && k < before.size && before.kinds[k] == kind) ++kept;
    }
    step.taken_off = before.size - kept;
    step.put_on = stack.size - kept;
    before = stack;
  }
  return ramp;
}

[[nodiscard]] inline Ramp plan_ramp(const Room& room, std::initializer_list<Mass> loads,
                                    Rounding rounding = Rounding::nearest) {
  return plan_ramp(room, std::span<const Mass>(loads.begin(), loads.size()), rounding);
}

}  // namespace barwright::inline v0
