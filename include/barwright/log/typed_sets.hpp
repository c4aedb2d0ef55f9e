// barwright/log/typed_sets.hpp - the sets of one lift as somebody types them between sets
//
//     "92.5 x 6, 2 left"    "92.5x6 @8; 90 kg x 5 missed"    "20 each x 8"
//
// Load, reps, then how hard it was, in the words that a log may use (as_written.hpp); sets
// are separated by semicolons. For what is not understood there is one sentence: a set that was
// read wrongly would plan the next one wrongly.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Reads one set.
[[nodiscard]] Parsed<LoggedSet> to_typed_set(std::string_view typed, const Lift& lift, Date date,
                                             Unit unit, DumbbellLoads dumbbells);

}  // namespace detail

/// The sets of one lift on one day, typed.
/// @param unit  of loads that do not say theirs
/// @param dumbbells  what a load of two dumbbells is, as in the log
[[nodiscard]] Parsed<std::vector<LoggedSet>> read_typed_sets(
    std::string_view typed, const Lift& lift, Date date, Unit unit,
    DumbbellLoads dumbbells = DumbbellLoads::together);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/typed_sets.ipp"
#endif
