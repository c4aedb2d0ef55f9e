// barwright/lifts/catalogue/single_leg.hpp - split squat and lunge, and what is changed about them
//
// No study of their loads was read: which muscles they count for is common practice, and every
// ratio is an assumption. Reps are counted for one leg, as is usual; a set is both legs.
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

inline constexpr std::array<std::string_view, 3> split_squat_aliases{
    "static lunge", "stationary lunge", "barbell split squat"};
inline constexpr std::array<std::string_view, 2> lunge_aliases{"forward lunge", "barbell lunge"};
inline constexpr Note one_leg_note = remark(
    "Reps are counted for one leg; a set is that many with each. One leg may have fewer in "
    "reserve: the weaker one ends the set.",
    practice);
inline constexpr std::array split_squat_notes{
    one_leg_note,
    caution("Balance can fail before the legs do: with a bar on the back stand inside safeties, or "
            "hold dumbbells you can put down.",
            practice),
};
inline constexpr std::array lunge_notes{
    one_leg_note,
    caution("Keep the path of the step clear, and end the set when a step wobbles.", practice),
};

inline constexpr std::array<std::string_view, 2> on_single_leg{"split_squat", "lunge"};
inline constexpr std::array<std::string_view, 1> on_split_squat{"split_squat"};
inline constexpr std::array<std::string_view, 1> on_lunge{"lunge"};
inline constexpr std::array<std::string_view, 5> rear_foot_raised_aliases{
    "rear-foot-elevated", "Bulgarian", "Bulgarian split squat", "rear-foot-elevated split squat",
    "RFESS"};
inline constexpr std::array rear_foot_raised_notes{
    requirement("The split squat with both feet on the floor first, to learn the balance.",
                practice),
    remark("Use a bench no higher than the knee.", practice),
};
inline constexpr std::array<std::string_view, 2> single_leg_front_rack_aliases{"front-rack",
                                                                               "front"};
inline constexpr std::array single_leg_dumbbells_notes{
    remark("The load is both dumbbells together. Grip may end the set before the legs do.",
           practice),
};
inline constexpr std::array<std::string_view, 1> walking_aliases{"walking lunge"};
inline constexpr std::array walking_notes{
    caution(
        "Safeties cannot come along: use dumbbells you can put down, or a load you are sure of.",
        inference),
};
inline constexpr std::array<std::string_view, 3> reverse_aliases{"reverse lunge", "backward",
                                                                 "backward lunge"};

}  // namespace detail

namespace lifts {

/// A bar on the back, both feet where they are.
inline constexpr BaseLift split_squat{
    .key = "split_squat",
    .name = "split squat",
    .aliases = detail::split_squat_aliases,
    .family = LiftFamily::squat,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::quadriceps, MuscleGroup::glutes},
                           {MuscleGroup::hamstrings, MuscleGroup::trunk}),
    .notes = detail::split_squat_notes,
};
/// A bar on the back, a step forward and back for each rep.
inline constexpr BaseLift lunge{
    .key = "lunge",
    .name = "lunge",
    .aliases = detail::lunge_aliases,
    .family = LiftFamily::squat,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::quadriceps, MuscleGroup::glutes},
                           {MuscleGroup::hamstrings, MuscleGroup::trunk}),
    .notes = detail::lunge_notes,
};

}  // namespace lifts

/// Nothing is known about these ratios: wide assumptions, to be replaced by a log's. A rep stretch
/// is 1, from 0.9 to 1.1: an assumption.
namespace modifiers {

/// Starting at 50 % is an assumption.
inline constexpr Modifier rear_foot_raised =
    Modifier("rear_foot_raised", "rear foot raised", {0.70, 0.90, 1.10}, Evidence::assumption,
             detail::no_ratio_findings)
        .with_starting_share(0.50)
        .with_aliases(detail::rear_foot_raised_aliases)
        .with_lifts(detail::on_split_squat)
        .with_setup(Setup::stance)
        .with_notes(detail::rear_foot_raised_notes);

inline constexpr Modifier walking = Modifier("walking", "walking", {0.75, 0.90, 1.05},
                                             Evidence::assumption, detail::no_ratio_findings)
                                        .with_aliases(detail::walking_aliases)
                                        .with_lifts(detail::on_lunge)
                                        .with_setup(Setup::stance)
                                        .with_notes(detail::walking_notes);

inline constexpr Modifier reverse = Modifier("reverse", "reverse", {0.85, 1.00, 1.15},
                                             Evidence::assumption, detail::no_ratio_findings)
                                        .with_aliases(detail::reverse_aliases)
                                        .with_lifts(detail::on_lunge)
                                        .with_setup(Setup::stance);

/// The bar on the front of the shoulders.
inline constexpr Modifier single_leg_front_rack =
    Modifier("single_leg_front_rack", "front rack", {0.70, 0.85, 1.00}, Evidence::assumption,
             detail::no_ratio_findings)
        .with_aliases(detail::single_leg_front_rack_aliases)
        .with_lifts(detail::on_single_leg)
        .with_setup(Setup::bar_position);

/// One in each hand; both together.
inline constexpr Modifier single_leg_dumbbells =
    Modifier("single_leg_dumbbells", "dumbbells", {0.60, 0.85, 1.05}, Evidence::assumption,
             detail::no_ratio_findings)
        .with_aliases(detail::dumbbells_aliases)
        .with_lifts(detail::on_single_leg)
        .with_setup(Setup::implement | Setup::bar_position)
        .with_dumbbells(2)
        .with_notes(detail::single_leg_dumbbells_notes);

}  // namespace modifiers

}  // namespace barwright::inline BARWRIGHT_ABI
