// barwright/lifts/catalogue/trunk.hpp - trunk work: to be logged and counted, not planned
//
// Most of it moves or holds the body. Which muscles it counts for is common practice.
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

inline constexpr std::array<std::string_view, 2> plank_aliases{"front plank", "forearm plank"};
inline constexpr std::array plank_notes{
    remark("Held for time: a set counts in the week, but its seconds are not reps.", practice),
};
inline constexpr std::array<std::string_view, 1> hanging_leg_raise_aliases{"hanging knee raise"};
inline constexpr std::array<std::string_view, 3> rollout_aliases{"ab wheel", "ab rollout",
                                                                 "barbell rollout"};
inline constexpr std::array rollout_notes{
    caution("Go out only as far as the lower back stays flat.", practice),
};
inline constexpr std::array<std::string_view, 2> sit_up_aliases{"decline sit-up",
                                                                "weighted sit-up"};
inline constexpr std::array<std::string_view, 2> cable_crunch_aliases{"kneeling cable crunch",
                                                                      "rope crunch"};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift plank{
    .key = "plank",
    .name = "plank",
    .aliases = detail::plank_aliases,
    .family = LiftFamily::trunk,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::trunk}, {}),
    .notes = detail::plank_notes,
};
inline constexpr BaseLift hanging_leg_raise{
    .key = "hanging_leg_raise",
    .name = "hanging leg raise",
    .aliases = detail::hanging_leg_raise_aliases,
    .family = LiftFamily::trunk,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::trunk, MuscleGroup::hip_flexors}, {MuscleGroup::forearms}),
};
/// On a wheel or a bar with round plates, from the knees.
inline constexpr BaseLift rollout{
    .key = "rollout",
    .name = "rollout",
    .aliases = detail::rollout_aliases,
    .family = LiftFamily::trunk,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::trunk}, {MuscleGroup::lats}),
    .notes = detail::rollout_notes,
};
inline constexpr BaseLift sit_up{
    .key = "sit_up",
    .name = "sit-up",
    .aliases = detail::sit_up_aliases,
    .family = LiftFamily::trunk,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .muscles = Muscles::of({MuscleGroup::trunk}, {MuscleGroup::hip_flexors}),
};
inline constexpr BaseLift cable_crunch{
    .key = "cable_crunch",
    .name = "cable crunch",
    .aliases = detail::cable_crunch_aliases,
    .family = LiftFamily::trunk,
    .region = Region::upper_body,
    .is_machine = true,
    .has_stack = true,
    .muscles = Muscles::of({MuscleGroup::trunk}, {}),
    .notes = detail::cable_notes,
};

}  // namespace lifts

}  // namespace barwright::inline BARWRIGHT_ABI
