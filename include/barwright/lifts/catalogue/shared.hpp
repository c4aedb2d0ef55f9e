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
    "The last repetition can be missed without warning: the loss shows at lockout. Keep "
    "more in reserve than on the flat bench, and safeties or a spotter ready.",
    practice);
inline constexpr Note recheck_safeties_note = caution(
    "Check the safeties again lying like this: without an arch to give up, the height that "
    "lets the bar touch the chest and the height that clears it nearly coincide. Clearing "
    "neck and face comes first.",
    inference);
inline constexpr Note training_lift_note =
    remark("A training lift only: in competition feet, head, shoulders and buttocks stay down.",
           competition_rules);
inline constexpr Note spares_back_note = benefit(
    "Asks less of lower back and hips than pressing with leg drive, so it suits the day "
    "after lower-body work.",
    practice);
inline constexpr Note near_max_note = remark(
    "Near the max the triceps and front shoulders do more of the work, at lower percentages "
    "the chest.",
    practice);
inline constexpr std::array fewer_reps_findings{
    only("at the same percentage fewer repetitions are left than on the flat bench", practice),
    found("repetitions at the same percentage, among four upper-body lifts", 1.0, ferrari_2017),
};
inline constexpr Range<double> fewer_reps{0.80, 0.90, 1.00};
inline constexpr std::array<std::string_view, 3> dumbbells_aliases{"dumbbell", "with dumbbells",
                                                                   "db"};
inline constexpr std::array dumbbells_notes{
    remark("The ratio is for both dumbbells together: halve it for each.", saeterbakken_2011),
    caution("Safeties do not catch dumbbells: have help getting heavy ones into place, and end the "
            "set before one must be dropped.",
            practice),
};
inline constexpr std::array no_ratio_findings{only("no ratio was found", inference)};

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
