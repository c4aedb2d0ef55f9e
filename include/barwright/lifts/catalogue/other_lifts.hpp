// barwright/lifts/catalogue/other_lifts.hpp - leg press, leg curl and biceps curl
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
inline constexpr std::array<std::string_view, 2> biceps_curl_aliases{"curl", "barbell curl"};
inline constexpr std::array<std::string_view, 1> leg_curl_aliases{"hamstring curl"};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift leg_press{
    .key = "leg_press",
    .name = "leg press",
    .family = LiftFamily::squat,
    .region = Region::lower_body,
    .is_machine = true,
    .muscles = Muscles::of({MuscleGroup::quadriceps}, {MuscleGroup::glutes}),
    .notes = detail::leg_press_notes,
};
inline constexpr BaseLift leg_curl{
    .key = "leg_curl",
    .name = "leg curl",
    .aliases = detail::leg_curl_aliases,
    .family = LiftFamily::single_joint,
    .region = Region::lower_body,
    .is_machine = true,
    .has_stack = true,
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
