// barwright/lifts/catalogue.hpp - the lifts and modifiers whose figures are known, and how well
//
// What a club trains: the bench press, squat, deadlift and overhead press with their usual changes,
// and the lifts beside them; each family in a file of its own. Every ratio comes with the findings
// it was chosen from, read or from memory; where studies disagree the range spans them all. No
// study seen reports how far single lifters lie from the mean ratio, so the ends of every range are
// this library's assumption: about five points either side of the likeliest value, and wider where
// findings disagree. A group's standard deviation in kilograms is never taken for the spread of a
// ratio. A lifter who has logged sets of a variation should use their own ratio instead.
//
// To add a lift or a modifier: into its family's file, then into the lists here.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>

#include "barwright/lifts/catalogue/bench_press.hpp"
#include "barwright/lifts/catalogue/deadlift.hpp"
#include "barwright/lifts/catalogue/dip.hpp"
#include "barwright/lifts/catalogue/explosive.hpp"
#include "barwright/lifts/catalogue/hip_extension.hpp"
#include "barwright/lifts/catalogue/other_lifts.hpp"
#include "barwright/lifts/catalogue/overhead_press.hpp"
#include "barwright/lifts/catalogue/pull.hpp"
#include "barwright/lifts/catalogue/single_leg.hpp"
#include "barwright/lifts/catalogue/squat.hpp"
#include "barwright/lifts/catalogue/trunk.hpp"
#include "barwright/lifts/handles.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::array all_lifts{&lifts::bench_press,
                                      &lifts::squat,
                                      &lifts::deadlift,
                                      &lifts::overhead_press,
                                      &lifts::barbell_row,
                                      &lifts::bench_pull,
                                      &lifts::pull_up,
                                      &lifts::dip,
                                      &lifts::push_up,
                                      &lifts::leg_press,
                                      &lifts::romanian_deadlift,
                                      &lifts::leg_curl,
                                      &lifts::biceps_curl,
                                      &lifts::split_squat,
                                      &lifts::lunge,
                                      &lifts::hip_thrust,
                                      &lifts::dumbbell_row,
                                      &lifts::cable_row,
                                      &lifts::lat_pulldown,
                                      &lifts::power_clean,
                                      &lifts::push_press,
                                      &lifts::back_extension,
                                      &lifts::plank,
                                      &lifts::hanging_leg_raise,
                                      &lifts::rollout,
                                      &lifts::sit_up,
                                      &lifts::cable_crunch,
                                      &lifts::para_bench_press};

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
                                          &modifiers::sumo,
                                          &modifiers::safety_bar,
                                          &modifiers::pause_squat,
                                          &modifiers::deficit,
                                          &modifiers::block_pull,
                                          &modifiers::pause_deadlift,
                                          &modifiers::rear_foot_raised,
                                          &modifiers::walking,
                                          &modifiers::reverse,
                                          &modifiers::single_leg_front_rack,
                                          &modifiers::single_leg_dumbbells,
                                          &modifiers::hang};

}  // namespace detail

namespace catalogue {

/// All base lifts.
[[nodiscard]] constexpr Handles<BaseLift> lifts() noexcept { return detail::all_lifts; }

/// All modifiers.
[[nodiscard]] constexpr Handles<Modifier> modifiers() noexcept { return detail::all_modifiers; }

}  // namespace catalogue

}  // namespace barwright::inline BARWRIGHT_ABI
