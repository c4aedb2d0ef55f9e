// barwright/lifts/catalogue/squat.hpp - the squat and what is changed about it
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

inline constexpr std::array<std::string_view, 5> squat_aliases{
    "back squat", "barbell squat", "low-bar squat", "low bar", "low-bar back squat"};
inline constexpr std::array squat_notes{
    caution("Squat with a spotter, or inside safeties.", handbook_spotting),
    caution("Inside safeties, check that the bottom position just clears them.", inference),
};

inline constexpr std::array<std::string_view, 1> on_squat{"squat"};
inline constexpr std::array<std::string_view, 4> front_squat_aliases{
    "front", "front rack", "front-rack squat", "barbell front squat"};
inline constexpr std::array front_squat_findings{
    found("front against back squat, testing loads", 0.785, gullett_2009),
    found("often quoted", {0.80, 0.825, 0.85}, practice),
};
inline constexpr std::array<std::string_view, 1> high_bar_aliases{"high-bar squat"};
inline constexpr std::array high_bar_findings{
    only("low bar carries more; the text read does not say by how much", glassbrook_2017),
};
inline constexpr std::array<std::string_view, 1> box_squat_aliases{"box"};
inline constexpr std::array<std::string_view, 5> safety_bar_aliases{
    "safety squat bar", "SSB", "safety-bar squat", "safety squat", "SSB squat"};
inline constexpr std::array safety_bar_findings{
    only("no ratio was found; the bar lies higher and further forward than a low bar", inference),
};
inline constexpr std::array safety_bar_notes{
    benefit("The handles help shoulders, elbows and wrists that cannot get to a straight bar.",
            practice),
    caution("The bar tips you forward when the back gives way: do not pull the handles up to save "
            "a rep.",
            practice),
    remark("Its own weight differs from bar to bar, often 25 to 30 kg: weigh it.", practice),
};
inline constexpr std::array<std::string_view, 4> pause_squat_aliases{"pause", "with pause",
                                                                     "pause squat", "paused squat"};
inline constexpr std::array pause_squat_findings{
    only("no ratio was found; held still at the bottom, the squat loses its bounce", inference),
};
inline constexpr std::array pause_squat_notes{
    remark("One to three seconds at the bottom; the longer, the less.", practice),
    caution("Stay tight in the pause: relax at the bottom and the bar presses you lower.",
            practice),
};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift squat{
    .key = "squat",
    .name = "squat",
    .aliases = detail::squat_aliases,
    .family = LiftFamily::squat,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::quadriceps, MuscleGroup::glutes},
                           {MuscleGroup::hamstrings, MuscleGroup::lower_back, MuscleGroup::trunk}),
    .notes = detail::squat_notes,
};

}  // namespace lifts

/// Ratios and rep stretches without a remark rest on the findings listed with them; a rep stretch
/// that is not set is 1, from 0.9 to 1.1: an assumption.
namespace modifiers {

inline constexpr Modifier front_squat = Modifier("front_squat", "front squat", {0.75, 0.81, 0.87},
                                                 Evidence::published, detail::front_squat_findings)
                                            .with_aliases(detail::front_squat_aliases)
                                            .with_lifts(detail::on_squat)
                                            .with_setup(Setup::bar_position);

/// For a lifter whose usual squat is low-bar. Only the direction is known.
inline constexpr Modifier high_bar = Modifier("high_bar", "high bar", {0.88, 0.95, 1.00},
                                              Evidence::assumption, detail::high_bar_findings)
                                         .with_aliases(detail::high_bar_aliases)
                                         .with_lifts(detail::on_squat)
                                         .with_setup(Setup::bar_position);

/// Nothing is known about its ratio.
inline constexpr Modifier box_squat = Modifier("box_squat", "box squat", {0.80, 0.95, 1.10},
                                               Evidence::assumption, detail::no_ratio_findings)
                                          .with_aliases(detail::box_squat_aliases)
                                          .with_lifts(detail::on_squat)
                                          .with_setup(Setup::turnaround | Setup::range_of_motion);

/// A bar with a padded yoke and handles in front. Nothing is known about its ratio.
inline constexpr Modifier safety_bar =
    Modifier("safety_bar", "safety bar", {0.80, 0.90, 1.00}, Evidence::assumption,
             detail::safety_bar_findings)
        .with_aliases(detail::safety_bar_aliases)
        .with_lifts(detail::on_squat)
        .with_setup(Setup::implement | Setup::bar_position)
        .with_muscles(MuscleShift::of({MuscleGroup::upper_back}, {}))
        .with_notes(detail::safety_bar_notes);

/// Held still at the bottom. Only the direction is known.
inline constexpr Modifier pause_squat = Modifier("pause_squat", "paused", {0.83, 0.92, 1.00},
                                                 Evidence::assumption, detail::pause_squat_findings)
                                            .with_aliases(detail::pause_squat_aliases)
                                            .with_lifts(detail::on_squat)
                                            .with_setup(Setup::turnaround)
                                            .with_notes(detail::pause_squat_notes);

}  // namespace modifiers

}  // namespace barwright::inline BARWRIGHT_ABI
