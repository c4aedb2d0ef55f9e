// barwright/lifts/catalogue/explosive.hpp - power clean and push press: loads, and no rep maxes
//
// A set of them ends when the bar slows or the catch sinks, long before a rep fails. So reps say
// nothing about the max, and no load is worked out from them. They are here to be logged, described
// and counted. Which muscles they count for is common practice.
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

inline constexpr Note no_rep_max_note = remark(
    "A set ends when the bar slows or form goes, long before a rep fails: reps say nothing about "
    "the 1RM, and no load is worked out from them here.",
    practice);
inline constexpr std::array<std::string_view, 1> power_clean_aliases{"barbell power clean"};
inline constexpr std::array power_clean_notes{
    no_rep_max_note,
    requirement("Learn it from a qualified coach, with an empty bar or a stick first.", practice),
    caution("Let a missed bar go and step away, never try to save it: use a platform and plates "
            "that may be dropped, with nobody near and no spotter.",
            practice),
};
inline constexpr std::array<std::string_view, 1> push_press_aliases{"barbell push press"};
inline constexpr std::array push_press_notes{
    no_rep_max_note,
    requirement("The overhead press first, and a front rack that holds the bar on the shoulders.",
                practice),
    caution("If the bar does not go up, let it down in front and step back: keep the space in "
            "front and behind clear of people.",
            practice),
};
inline constexpr std::array<std::string_view, 1> on_power_clean{"power_clean"};
inline constexpr std::array<std::string_view, 3> hang_aliases{"hang", "hang power clean",
                                                              "hang clean"};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift power_clean{
    .key = "power_clean",
    .name = "power clean",
    .aliases = detail::power_clean_aliases,
    .family = LiftFamily::explosive,
    .region = Region::lower_body,
    .muscles = Muscles::of({MuscleGroup::glutes, MuscleGroup::quadriceps},
                           {MuscleGroup::hamstrings, MuscleGroup::lower_back, MuscleGroup::trunk,
                            MuscleGroup::upper_back, MuscleGroup::calves, MuscleGroup::forearms}),
    .notes = detail::power_clean_notes,
};
inline constexpr BaseLift push_press{
    .key = "push_press",
    .name = "push press",
    .aliases = detail::push_press_aliases,
    .family = LiftFamily::explosive,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::front_shoulders},
                           {MuscleGroup::side_shoulders, MuscleGroup::triceps, MuscleGroup::trunk,
                            MuscleGroup::quadriceps, MuscleGroup::glutes}),
    .notes = detail::push_press_notes,
};

}  // namespace lifts

/// Nothing is known about its ratio: a wide assumption.
namespace modifiers {

/// From the thighs or the knees in place of the floor.
inline constexpr Modifier hang = Modifier("hang", "from the hang", {0.80, 0.93, 1.05},
                                          Evidence::assumption, detail::no_ratio_findings)
                                     .with_aliases(detail::hang_aliases)
                                     .with_lifts(detail::on_power_clean)
                                     .with_setup(Setup::range_of_motion);

}  // namespace modifiers

}  // namespace barwright::inline BARWRIGHT_ABI
