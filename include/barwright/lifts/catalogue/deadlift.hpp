// barwright/lifts/catalogue/deadlift.hpp - the deadlift and what is changed about it
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <string_view>

#include "barwright/core/mass.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue/shared.hpp"
#include "barwright/lifts/catalogue/sources.hpp"
#include "barwright/lifts/modifier.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::array<std::string_view, 2> deadlift_aliases{"conventional deadlift",
                                                                  "barbell deadlift"};

inline constexpr std::array<std::string_view, 1> on_deadlift{"deadlift"};
inline constexpr std::array<std::string_view, 3> hexagonal_bar_aliases{"hex bar", "trap bar",
                                                                       "hexagonal"};
inline constexpr std::array hexagonal_bar_findings{
    found("hexagonal bar against conventional", 1.082, swinton_2011),
    found("hexagonal bar against conventional", 1.060, lake_2017),
};
inline constexpr std::array<std::string_view, 3> high_handles_aliases{
    "high handle", "hex bar high handles", "high-handle hexagonal bar"};
inline constexpr std::array high_handles_findings{
    found("hexagonal bar by its high handles against conventional", 1.147, lockie_2018),
};
inline constexpr std::array<std::string_view, 1> sumo_aliases{"sumo deadlift"};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift deadlift{
    .key = "deadlift",
    .name = "deadlift",
    .aliases = detail::deadlift_aliases,
    .family = LiftFamily::deadlift,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::glutes, MuscleGroup::hamstrings, MuscleGroup::lower_back},
                           {MuscleGroup::quadriceps, MuscleGroup::upper_back, MuscleGroup::lats,
                            MuscleGroup::trunk, MuscleGroup::forearms}),
};

}  // namespace lifts

/// Ratios and rep stretches without a remark rest on the findings listed with them; a rep stretch
/// that is not set is 1, from 0.9 to 1.1: an assumption.
namespace modifiers {

inline constexpr Modifier hexagonal_bar =
    Modifier("hexagonal_bar", "hexagonal bar", {1.02, 1.07, 1.12}, Evidence::published,
             detail::hexagonal_bar_findings)
        .with_aliases(detail::hexagonal_bar_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::implement | Setup::stance)
        .with_muscles(MuscleShift::of({MuscleGroup::quadriceps}, {MuscleGroup::lower_back}));

/// The hexagonal bar by its raised handles; the ratio is to the conventional deadlift.
inline constexpr Modifier high_handles =
    Modifier("high_handles", "hexagonal bar, high handles", {1.08, 1.15, 1.22}, Evidence::published,
             detail::high_handles_findings)
        .with_aliases(detail::high_handles_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::implement | Setup::stance | Setup::range_of_motion)
        .with_muscles(MuscleShift::of({MuscleGroup::quadriceps}, {MuscleGroup::lower_back}));

/// Nothing is known about its ratio within one person.
inline constexpr Modifier sumo =
    Modifier("sumo", "sumo", {0.90, 1.00, 1.10}, Evidence::assumption, detail::no_ratio_findings)
        .with_aliases(detail::sumo_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::stance | Setup::grip_width);

}  // namespace modifiers

}  // namespace barwright::inline BARWRIGHT_ABI
