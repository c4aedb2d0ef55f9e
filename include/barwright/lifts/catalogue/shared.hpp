// barwright/lifts/catalogue/shared.hpp - what is said of several lifts and changes
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <string_view>

#include "barwright/core/range.hpp"
#include "barwright/lifts/catalogue/sources.hpp"
#include "barwright/lifts/findings.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

// Said of every press without leg drive or arch.
inline constexpr Note last_rep_note = caution(
    "The last rep can be missed without warning, at lockout. Keep more in reserve than on the flat "
    "bench, with safeties or a spotter ready.",
    practice);
inline constexpr Note recheck_safeties_note = caution(
    "Re-check the safeties in this position. Without an arch, the height that allows a full rep "
    "and the height that saves you are nearly the same. Clear the neck and face first.",
    inference);
inline constexpr Note training_lift_note =
    remark("A training lift only: in competition feet, head, shoulders and buttocks stay down.",
           competition_rules);
inline constexpr Note spares_back_note = benefit(
    "Easier on the lower back and hips than pressing with leg drive, so it suits the day after "
    "lower-body work.",
    practice);
inline constexpr Note near_max_note = remark(
    "Near the 1RM the triceps and front shoulders do more of the work; at lower percentages the "
    "chest does.",
    practice);
inline constexpr std::array fewer_reps_findings{
    only("fewer reps at the same percentage than on the flat bench", practice),
    found("reps at the same percentage, among four upper-body lifts", 1.0, ferrari_2017),
};
inline constexpr Range<double> fewer_reps{0.80, 0.90, 1.00};
inline constexpr std::array<std::string_view, 3> dumbbells_aliases{"dumbbell", "with dumbbells",
                                                                   "db"};
inline constexpr std::array dumbbells_notes{
    remark("The ratio is for both dumbbells together: halve it for each.", saeterbakken_2011),
    caution("Safeties do not catch dumbbells: get help bringing heavy ones into place, and end the "
            "set before you have to drop one.",
            practice),
};
// Said of what hangs from the hands, and of what hangs from a cable.
inline constexpr std::array hanging_share_findings{
    only("the hands and most of the forearms stay put, a few per cent of the body; many coaches "
         "count all of it",
         practice),
};
// Of a pull-up or a dip.
inline constexpr Figure hanging_share{.value = {0.94, 0.97, 1.00},
                                      .evidence = Evidence::assumption,
                                      .findings = hanging_share_findings};
inline constexpr Note belt_note = remark(
    "The load is what hangs from the belt. Reps depend on belt and body together, so say what the "
    "lifter weighs: of two lifters with 20 kg added, the heavier one lifts more.",
    practice);
inline constexpr std::array cable_notes{
    remark("The number on a stack holds for that machine only: pulleys and friction differ.",
           practice),
};
inline constexpr std::array no_ratio_findings{only("no ratio was found", inference)};

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
