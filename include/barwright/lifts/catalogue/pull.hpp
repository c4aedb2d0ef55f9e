// barwright/lifts/catalogue/pull.hpp - rows, pulldown and pull-up
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

inline constexpr std::array<std::string_view, 4> barbell_row_aliases{"row", "bent-over row",
                                                                     "bent row", "BB row"};
inline constexpr std::array<std::string_view, 2> bench_pull_aliases{"prone row", "bench row"};
inline constexpr std::array<std::string_view, 8> dumbbell_row_aliases{"DB row",
                                                                      "one-arm row",
                                                                      "one-arm dumbbell row",
                                                                      "single-arm row",
                                                                      "single-arm DB row",
                                                                      "one-arm DB row",
                                                                      "single-arm dumbbell row",
                                                                      "bent-over dumbbell row"};
inline constexpr std::array dumbbell_row_notes{
    remark(
        "The load is one dumbbell; reps are counted for one arm, and a set is that many with each.",
        practice),
};
inline constexpr std::array<std::string_view, 3> lat_pulldown_aliases{"pulldown", "lat pull",
                                                                      "cable pulldown"};
inline constexpr std::array<std::string_view, 2> cable_row_aliases{"seated row",
                                                                   "seated cable row"};
inline constexpr std::array<std::string_view, 5> pull_up_aliases{
    "chin-up", "weighted pull-up", "weighted chin-up", "chins", "weighted chins"};
inline constexpr std::array pull_up_notes{
    belt_note,
    caution("With weight on the belt, step down to end the set: do not drop off the bar.",
            practice),
};

}  // namespace detail

namespace lifts {

inline constexpr BaseLift barbell_row{
    .key = "barbell_row",
    .name = "barbell row",
    .aliases = detail::barbell_row_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .muscles = Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                           {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms,
                            MuscleGroup::lower_back, MuscleGroup::hamstrings}),
};
inline constexpr BaseLift bench_pull{
    .key = "bench_pull",
    .name = "bench pull",
    .aliases = detail::bench_pull_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .muscles =
        Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                    {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms}),
};
/// One dumbbell, the other hand on a bench.
inline constexpr BaseLift dumbbell_row{
    .key = "dumbbell_row",
    .name = "dumbbell row",
    .aliases = detail::dumbbell_row_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .dumbbells = 1,
    .muscles =
        Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                    {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms}),
    .notes = detail::dumbbell_row_notes,
};
inline constexpr BaseLift cable_row{
    .key = "cable_row",
    .name = "cable row",
    .aliases = detail::cable_row_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .is_machine = true,
    .has_stack = true,
    .muscles =
        Muscles::of({MuscleGroup::upper_back, MuscleGroup::lats},
                    {MuscleGroup::rear_shoulders, MuscleGroup::biceps, MuscleGroup::forearms}),
    .notes = detail::cable_notes,
};
inline constexpr BaseLift lat_pulldown{
    .key = "lat_pulldown",
    .name = "lat pulldown",
    .aliases = detail::lat_pulldown_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .is_machine = true,
    .has_stack = true,
    .muscles = Muscles::of({MuscleGroup::lats},
                           {MuscleGroup::upper_back, MuscleGroup::biceps, MuscleGroup::forearms}),
    .notes = detail::cable_notes,
};
inline constexpr BaseLift pull_up{
    .key = "pull_up",
    .name = "pull-up",
    .aliases = detail::pull_up_aliases,
    .family = LiftFamily::pull,
    .region = Region::upper_body,
    .is_bodyweight = true,
    .body_share = detail::hanging_share,
    .muscles = Muscles::of({MuscleGroup::lats},
                           {MuscleGroup::upper_back, MuscleGroup::biceps, MuscleGroup::forearms}),
    .notes = detail::pull_up_notes,
};

}  // namespace lifts

}  // namespace barwright::inline BARWRIGHT_ABI
