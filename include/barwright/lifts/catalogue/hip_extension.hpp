// barwright/lifts/catalogue/hip_extension.hpp - Romanian deadlift, hip thrust and back extension
//
// Which muscles they count for is common practice.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <string_view>

#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue/shared.hpp"
#include "barwright/lifts/catalogue/sources.hpp"
#include "barwright/lifts/modifier.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::array<std::string_view, 2> romanian_deadlift_aliases{"RDL",
                                                                           "stiff-leg deadlift"};
inline constexpr std::array<std::string_view, 1> hip_thrust_aliases{"barbell hip thrust"};
inline constexpr std::array hip_thrust_notes{
    requirement("A bench that cannot slide or tip, and a pad under the bar.", practice),
    caution("The bar lies across the hips: use plates large enough to slide out from under it, and "
            "end the set with the bar on the floor.",
            practice),
    remark("Loads run far above the squat's and say little about it; no ratio was found.",
           inference),
};
inline constexpr std::array<std::string_view, 2> back_extension_aliases{"hyperextension",
                                                                        "45-degree back extension"};
inline constexpr std::array back_extension_notes{
    caution("Stop when hips and back are in line; do not lean further back.", practice),
};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift romanian_deadlift{
    .key = "romanian_deadlift",
    .name = "Romanian deadlift",
    .aliases = detail::romanian_deadlift_aliases,
    .family = LiftFamily::deadlift,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::hamstrings, MuscleGroup::glutes},
                           {MuscleGroup::lower_back, MuscleGroup::forearms}),
};
inline constexpr BaseLift hip_thrust{
    .key = "hip_thrust",
    .name = "hip thrust",
    .aliases = detail::hip_thrust_aliases,
    .family = LiftFamily::hip_extension,
    .region = Region::lower_body,
    .muscles =
        Muscles::of({MuscleGroup::glutes}, {MuscleGroup::hamstrings, MuscleGroup::quadriceps}),
    .notes = detail::hip_thrust_notes,
};
/// On a bench for it, the hips on the pad; a plate held at the chest is added.
inline constexpr BaseLift back_extension{
    .key = "back_extension",
    .name = "back extension",
    .aliases = detail::back_extension_aliases,
    .family = LiftFamily::hip_extension,
    .region = Region::lower_body,
    .is_bodyweight = true,
    .muscles =
        Muscles::of({MuscleGroup::lower_back}, {MuscleGroup::glutes, MuscleGroup::hamstrings}),
    .notes = detail::back_extension_notes,
};

}  // namespace lifts

}  // namespace barwright::inline BARWRIGHT_ABI
