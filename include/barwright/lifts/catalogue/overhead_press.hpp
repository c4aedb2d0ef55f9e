// barwright/lifts/catalogue/overhead_press.hpp - the overhead press and what is changed about it
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

inline constexpr std::array<std::string_view, 7> overhead_press_aliases{"OHP",
                                                                        "shoulder press",
                                                                        "military press",
                                                                        "standing press",
                                                                        "standing overhead press",
                                                                        "strict press",
                                                                        "strict overhead press"};
inline constexpr std::array overhead_press_findings{
    found("seated overhead press against flat bench press, men", 0.716, garcia_ramos_2019),
    found("seated overhead press against flat bench press, women", 0.822, garcia_ramos_2019),
};
inline constexpr std::array overhead_press_notes{
    caution("Press overhead with a spotter, or inside safeties.", handbook_spotting),
    remark("Dumbbell shoulder press 6RM = 0.42 x bench press 6RM + 5.84 kg, error 6.5 to 8.5 %; "
           "whether one dumbbell or both is not stated. Valid inside that group only.",
           wong_2013),
};

inline constexpr std::array<std::string_view, 1> on_overhead_press{"overhead_press"};
inline constexpr std::array<std::string_view, 2> seated_aliases{"sitting", "seat"};
inline constexpr std::array seated_findings{
    found("seated against standing, with dumbbells (1 / 0.90)", 1.111, saeterbakken_2013_overhead),
    only("no ratio was found for the barbell", inference),
};
inline constexpr std::array seated_notes{
    benefit("Easier on the lower back and hips than standing, so it suits the day after lower-body "
            "work.",
            practice),
};
inline constexpr std::array overhead_dumbbells_findings{
    found("standing, dumbbells against barbell", 0.93, saeterbakken_2013_overhead),
};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift overhead_press{
    .key = "overhead_press",
    .name = "overhead press",
    .aliases = detail::overhead_press_aliases,
    .family = LiftFamily::overhead_press,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::front_shoulders},
                           {MuscleGroup::side_shoulders, MuscleGroup::triceps,
                            MuscleGroup::lower_back, MuscleGroup::trunk, MuscleGroup::glutes}),
    .notes = detail::overhead_press_notes,
    .findings = detail::overhead_press_findings,
};

}  // namespace lifts

/// Ratios and rep stretches without a remark rest on the findings listed with them; a rep stretch
/// that is not set is 1, from 0.9 to 1.1: an assumption.
namespace modifiers {

inline constexpr Modifier seated =
    Modifier("seated", "seated", {1.00, 1.05, 1.12}, Evidence::assumption, detail::seated_findings)
        .with_aliases(detail::seated_aliases)
        .with_lifts(detail::on_overhead_press)
        .with_setup(Setup::posture)
        .with_muscles(MuscleShift::of({}, {MuscleGroup::lower_back, MuscleGroup::glutes}))
        .with_notes(detail::seated_notes);

/// Both dumbbells together.
inline constexpr Modifier overhead_dumbbells =
    Modifier("overhead_dumbbells", "dumbbells", {0.88, 0.93, 0.98}, Evidence::published,
             detail::overhead_dumbbells_findings)
        .with_aliases(detail::dumbbells_aliases)
        .with_lifts(detail::on_overhead_press)
        .with_setup(Setup::implement | Setup::grip_width)
        .with_dumbbells(2)
        .with_notes(detail::dumbbells_notes);

}  // namespace modifiers

}  // namespace barwright::inline BARWRIGHT_ABI
