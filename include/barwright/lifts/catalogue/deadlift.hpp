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
inline constexpr std::array<std::string_view, 4> deficit_aliases{
    "deficit deadlift", "from a deficit", "on a platform", "standing on a plate"};
inline constexpr std::array deficit_findings{
    only("no ratio was found; the bar starts lower and travels further, so it costs more the "
         "higher you stand",
         inference),
};
inline constexpr std::array deficit_notes{
    requirement("A platform of 2 to 10 cm that cannot tip or slip, and a back that holds its "
                "position that low.",
                practice),
};
inline constexpr std::array<std::string_view, 5> block_pull_aliases{
    "block pull", "block deadlift", "from the rack", "rack pull", "rack deadlift"};
inline constexpr std::array block_pull_findings{
    only("no ratio was found; most lifters lift more the higher the bar starts, but not those weak "
         "at the knee",
         inference),
    only("the raised handles of a hexagonal bar, a different bar, allow about 15 % more",
         lockie_2018),
};
inline constexpr std::array block_pull_notes{
    requirement(
        "Blocks or rack pins, level on both sides, that do not move when the bar comes down.",
        practice),
    remark(
        "The higher the start, the more load, and the less it says about the pull from the floor.",
        practice),
};
inline constexpr std::array<std::string_view, 4> pause_deadlift_aliases{
    "pause", "with pause", "pause deadlift", "paused deadlift"};
inline constexpr std::array pause_deadlift_findings{
    only("no ratio was found; the pause adds time under load and takes away the bar's speed",
         inference),
};
inline constexpr std::array pause_deadlift_notes{
    remark("Hold for one to three seconds, just off the floor or below the knee; say which, as the "
           "two differ.",
           practice),
};

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

/// Standing raised, so that the bar starts lower. Only the direction is known.
inline constexpr Modifier deficit =
    Modifier("deficit", "deficit", {0.80, 0.92, 1.00}, Evidence::assumption,
             detail::deficit_findings)
        .with_aliases(detail::deficit_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::range_of_motion)
        .with_muscles(MuscleShift::of({MuscleGroup::quadriceps}, {}))
        .with_notes(detail::deficit_notes);

/// The bar on blocks or on the pins of a rack. How much more depends on the height.
inline constexpr Modifier block_pull = Modifier("block_pull", "from blocks", {0.95, 1.10, 1.35},
                                                Evidence::assumption, detail::block_pull_findings)
                                           .with_aliases(detail::block_pull_aliases)
                                           .with_lifts(detail::on_deadlift)
                                           .with_setup(Setup::range_of_motion)
                                           .with_notes(detail::block_pull_notes);

/// Held still on the way up. Only the direction is known.
inline constexpr Modifier pause_deadlift =
    Modifier("pause_deadlift", "paused", {0.75, 0.88, 1.00}, Evidence::assumption,
             detail::pause_deadlift_findings)
        .with_aliases(detail::pause_deadlift_aliases)
        .with_lifts(detail::on_deadlift)
        .with_setup(Setup::turnaround)
        .with_notes(detail::pause_deadlift_notes);

}  // namespace modifiers

}  // namespace barwright::inline BARWRIGHT_ABI
