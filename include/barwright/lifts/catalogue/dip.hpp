// barwright/lifts/catalogue/dip.hpp - dip and push-up: presses that move the body
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

inline constexpr std::array<std::string_view, 4> dip_aliases{"parallel-bar dip", "bar dip",
                                                             "weighted dip", "chest dip"};
inline constexpr std::array dip_notes{
    belt_note,
    caution("Go no lower than the shoulders allow without pain, and finish the set by stepping "
            "down, not by sinking.",
            practice),
};
inline constexpr std::array<std::string_view, 2> push_up_aliases{"press-up", "weighted push-up"};
inline constexpr std::array push_up_share_findings{
    found("push-up, peak force under the hands as a share of body mass", 0.64, ebben_2011),
};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift dip{
    .key = "dip",
    .name = "dip",
    .aliases = detail::dip_aliases,
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .body_share = detail::hanging_share,
    .muscles =
        Muscles::of({MuscleGroup::chest, MuscleGroup::triceps}, {MuscleGroup::front_shoulders}),
    .notes = detail::dip_notes,
};
inline constexpr BaseLift push_up{
    .key = "push_up",
    .name = "push-up",
    .aliases = detail::push_up_aliases,
    .family = LiftFamily::horizontal_press,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .body_share = Figure{.value = {0.58, 0.64, 0.70},
                         .evidence = Evidence::published,
                         .findings = detail::push_up_share_findings},
    .muscles = Muscles::of({MuscleGroup::chest}, {MuscleGroup::front_shoulders,
                                                  MuscleGroup::triceps, MuscleGroup::trunk}),
};

}  // namespace lifts

}  // namespace barwright::inline BARWRIGHT_ABI
