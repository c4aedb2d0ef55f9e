// barwright/lifts/catalogue/other_lifts.hpp - lifts without modifiers, for counting a week
//
// Which muscles they count for is common practice.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <string_view>

#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue/sources.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::array leg_press_notes{
    caution("Only its stops catch a missed rep: set and try them before any plate goes on.",
            common_practice("what runs in a frame is caught by its stops")),
};
inline constexpr std::array<std::string_view, 3> barbell_row_aliases{"row", "bent-over row",
                                                                     "bent row"};
inline constexpr std::array<std::string_view, 2> bench_pull_aliases{"prone row", "bench row"};
inline constexpr std::array<std::string_view, 1> pull_up_aliases{"chin-up"};
inline constexpr std::array<std::string_view, 2> romanian_deadlift_aliases{"RDL",
                                                                           "stiff-leg deadlift"};
inline constexpr std::array<std::string_view, 2> biceps_curl_aliases{"curl", "barbell curl"};
inline constexpr std::array<std::string_view, 1> leg_curl_aliases{"hamstring curl"};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift barbell_row{
    .key = "barbell_row",
    .name = "barbell row",
    .aliases = detail::barbell_row_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                           {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms,
                            MuscleGroup::lower_back, MuscleGroup::hamstrings}),
};
inline constexpr BaseLift bench_pull{
    .key = "bench_pull",
    .name = "bench pull",
    .aliases = detail::bench_pull_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .muscles =
        Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                    {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms}),
};
inline constexpr BaseLift pull_up{
    .key = "pull_up",
    .name = "pull-up",
    .aliases = detail::pull_up_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::lats},
                           {MuscleGroup::upper_back, MuscleGroup::biceps, MuscleGroup::forearms}),
};
inline constexpr BaseLift dip{
    .key = "dip",
    .name = "dip",
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles =
        Muscles::of({MuscleGroup::chest, MuscleGroup::triceps}, {MuscleGroup::front_shoulders}),
};
inline constexpr BaseLift push_up{
    .key = "push_up",
    .name = "push-up",
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::chest}, {MuscleGroup::front_shoulders,
                                                  MuscleGroup::triceps, MuscleGroup::trunk}),
};
inline constexpr BaseLift leg_press{
    .key = "leg_press",
    .name = "leg press",
    .family = LiftFamily::squat,
    .region = Region::lower_body,
    .is_machine = true,
    .muscles = Muscles::of({MuscleGroup::quadriceps}, {MuscleGroup::glutes}),
    .notes = detail::leg_press_notes,
};
inline constexpr BaseLift romanian_deadlift{
    .key = "romanian_deadlift",
    .name = "Romanian deadlift",
    .aliases = detail::romanian_deadlift_aliases,
    .family = LiftFamily::deadlift,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::hamstrings, MuscleGroup::glutes},
                           {MuscleGroup::lower_back, MuscleGroup::forearms}),
};
inline constexpr BaseLift leg_curl{
    .key = "leg_curl",
    .name = "leg curl",
    .aliases = detail::leg_curl_aliases,
    .family = LiftFamily::single_joint,
    .region = Region::lower_body,
    .is_machine = true,
    .muscles = Muscles::of({MuscleGroup::hamstrings}, {}),
};
inline constexpr BaseLift biceps_curl{
    .key = "biceps_curl",
    .name = "biceps curl",
    .aliases = detail::biceps_curl_aliases,
    .family = LiftFamily::single_joint,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::biceps}, {MuscleGroup::forearms}),
};

}  // namespace lifts

}  // namespace barwright::inline BARWRIGHT_ABI
