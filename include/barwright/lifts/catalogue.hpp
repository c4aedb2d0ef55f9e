// barwright/lifts/catalogue.hpp - the lifts and modifiers whose figures are known, and how well
//
// The bench press, squat, deadlift and overhead press with their usual changes, and a few more base
// lifts for counting a week; each family in a file of its own. Every ratio comes with the findings
// it was chosen from, read or from memory; where studies disagree the range spans them all. No
// study seen reports how far single lifters lie from the mean ratio, so the ends of every range are
// this library's assumption: about five points either side of the likeliest value, and wider where
// findings disagree. A group's standard deviation in kilograms is never taken for the spread of a
// ratio. Whoever has logged sets of a variation should replace its ratio by their own.
//
// To add a lift or a modifier: into its family's file, then into the lists here.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>

#include "barwright/lifts/catalogue/bench_press.hpp"
#include "barwright/lifts/catalogue/deadlift.hpp"
#include "barwright/lifts/catalogue/other_lifts.hpp"
#include "barwright/lifts/catalogue/overhead_press.hpp"
#include "barwright/lifts/catalogue/squat.hpp"
#include "barwright/lifts/handles.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::array all_lifts{
    &lifts::bench_press, &lifts::squat,      &lifts::deadlift,          &lifts::overhead_press,
    &lifts::barbell_row, &lifts::bench_pull, &lifts::pull_up,           &lifts::dip,
    &lifts::push_up,     &lifts::leg_press,  &lifts::romanian_deadlift, &lifts::leg_curl,
    &lifts::biceps_curl};

inline constexpr std::array all_modifiers{&modifiers::feet_up,
                                          &modifiers::flat_back,
                                          &modifiers::incline,
                                          &modifiers::wedged_incline,
                                          &modifiers::decline,
                                          &modifiers::close_grip,
                                          &modifiers::wide_grip,
                                          &modifiers::dumbbells,
                                          &modifiers::guided_rail,
                                          &modifiers::exercise_ball,
                                          &modifiers::balance_cushion,
                                          &modifiers::dead_start,
                                          &modifiers::pause,
                                          &modifiers::slow_lowering,
                                          &modifiers::partial_range,
                                          &modifiers::seated,
                                          &modifiers::overhead_dumbbells,
                                          &modifiers::front_squat,
                                          &modifiers::high_bar,
                                          &modifiers::box_squat,
                                          &modifiers::hexagonal_bar,
                                          &modifiers::high_handles,
                                          &modifiers::sumo};

}  // namespace detail

namespace catalogue {

/// All base lifts.
[[nodiscard]] constexpr Handles<BaseLift> lifts() noexcept { return detail::all_lifts; }

/// All modifiers.
[[nodiscard]] constexpr Handles<Modifier> modifiers() noexcept { return detail::all_modifiers; }

}  // namespace catalogue

}  // namespace barwright::inline BARWRIGHT_ABI
