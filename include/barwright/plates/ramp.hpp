// barwright/plates/ramp.hpp - the plates for a sequence of loads on one bar
//
// Plates come off a sleeve in the opposite order to the one they went on in, so what stays on must
// have gone on early and inside. `practical_ramp` loads as people do, the heaviest plate inside at
// every step, and spares moves within that; `plan_ramp` spares every move there is to spare, and
// may leave a heavy plate outside a light one.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <span>
#include <vector>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
#include "barwright/plates/detail/ramp_planner.hpp"
#include "barwright/plates/detail/sorted_ramp.hpp"
#include "barwright/plates/loading.hpp"
#include "barwright/plates/room.hpp"

namespace barwright::inline BARWRIGHT_ABI {

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

namespace detail {

/// What a ramp is made of, from the stack of each step.
template <class StackOf>
[[nodiscard]] Ramp ramp_of(const Room& room, std::span<const Mass> loads, const StackOf& stack_of) {
  Ramp ramp{std::vector<RampStep>(loads.size(), RampStep{.loading = room.empty_bar()})};
  Stack before;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const Stack& stack = stack_of(i);
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

inline void check_length(std::span<const Mass> loads) {
  if (loads.empty() || loads.size() > RampPlanner::most_steps) {
    fail("the loads of a ramp", "1 to 64", static_cast<double>(loads.size()));
  }
}

}  // namespace detail

/// How far a warm-up may lie from its load, as a share of the work load. A warm-up is only about
/// right in any case.
inline constexpr double warm_up_leeway = 0.05;
inline constexpr Source practical_ramp_source =
    common_practice("heaviest plates inside, few of them, few moves; warm-ups only about right");

/// The loadings for a sequence of loads as people load them: the heaviest plate inside at every
/// step, no more than two plates above the fewest, and within that few moves. A plate on the last
/// bar counts as four moves more: it is checked, and it must come off again.
///
///     practical_ramp(plate_sets::gym_kg, {20_kg, 40_kg, 60_kg, 75_kg, 87.5_kg, 100_kg})
///
/// The heaviest load, and all after it, have the mass that `Room::nearest` gives. With leeway those
/// before it may differ by that share of the heaviest, or by a pair of the smallest plates, where
/// it saves moves: a move for each thirtieth of the heaviest load. A step keeps its place among the
/// loads, and the empty bar stays empty.
///
/// A millisecond or two in any room, besides what the single loads take. Not always the fewest
/// moves of all such ways: of many stacks for a step the best 96 are compared. Allocates.
///
/// @param loads   1 to 64 loads
/// @param leeway  0 where each load is meant, `warm_up_leeway` for the sets before a work set
/// @throws DomainError for another number of loads, or unless 0 <= leeway <= 0.25.
[[nodiscard]] inline Ramp practical_ramp(const Room& room, std::span<const Mass> loads,
                                         double leeway) {
  detail::check_length(loads);
  if (!(leeway >= 0.0 && leeway <= 0.25)) {
    detail::fail("the leeway of a ramp", "a share from 0 to 0.25", leeway);
  }
  std::size_t top = 0;
  for (std::size_t i = 1; i < loads.size(); ++i) {
    if (loads[i] > loads[top]) top = i;
  }
  const detail::Ticks empty = room.empty_ticks();
  const detail::Ticks work = detail::to_ticks(room.nearest(loads[top]).total());
  const std::size_t kinds = room.plates().size();
  detail::Ticks most_off = static_cast<detail::Ticks>(leeway * static_cast<double>(work));
  if (leeway > 0.0 && kinds > 0) {
    const detail::Ticks smallest = 2 * room.plates()[kinds - 1].mass().ticks();
    if (smallest > most_off) most_off = smallest;
  }
  std::vector<detail::SortedRamp::Step> steps(loads.size());
  for (std::size_t i = 0; i < loads.size(); ++i) {
    detail::SortedRamp::Step& step = steps[i];
    step.nearest = room.nearest_found(loads[i]);
    step.wanted = detail::to_ticks(loads[i]) - empty;
    const bool is_empty_bar = step.nearest.mass == 0 && step.wanted <= detail::equal_within;
    if (i < top && !is_empty_bar) step.leeway = most_off;
  }
  const detail::SortedRamp plan(room.rack_.kinds(), steps, work);
  return detail::ramp_of(room, loads,
                         [&](std::size_t i) -> const detail::Stack& { return plan.stack(i); });
}

[[nodiscard]] inline Ramp practical_ramp(const Room& room, std::initializer_list<Mass> loads,
                                         double leeway) {
  return practical_ramp(room, std::span<const Mass>(loads.begin(), loads.size()), leeway);
}

/// The loadings for a sequence of loads, rising or not, that take the fewest plate moves.
///
/// Plates come off a sleeve in the opposite order to the one they went on in, so one that stays on
/// has to go on early and inside. Of the plans with the fewest moves, from the empty bar to the
/// last load, this has the fewest plates on the bar, summed over the steps. The best of all, not an
/// approximation. A plate put on later may be heavier than those inside it: see
/// `practical_ramp`.
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
  detail::check_length(loads);
  detail::Ticks masses[detail::RampPlanner::most_steps];
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const std::optional<Loading> single = room.load(loads[i], rounding);
    if (!single) {
      const bool is_too_heavy = rounding == Rounding::up;
      detail::fail(is_too_heavy ? ErrorCode::beyond_the_plates : ErrorCode::below_empty_bar,
                   "a load of the ramp",
                   is_too_heavy ? "within what the plates make" : "at least that of the empty bar",
                   to_text(loads[i], room.bar().mass.unit()));
    }
    masses[i] = 0;
    for (const MarkedMass plate : single->plates()) masses[i] += 2 * plate.ticks();
  }
  const detail::RampPlanner planner(room.rack_, masses, static_cast<int>(loads.size()));
  return detail::ramp_of(room, loads, [&](std::size_t i) -> const detail::Stack& {
    return planner.stack(static_cast<int>(i));
  });
}

[[nodiscard]] inline Ramp plan_ramp(const Room& room, std::initializer_list<Mass> loads,
                                    Rounding rounding = Rounding::nearest) {
  return plan_ramp(room, std::span<const Mass>(loads.begin(), loads.size()), rounding);
}

}  // namespace barwright::inline BARWRIGHT_ABI
