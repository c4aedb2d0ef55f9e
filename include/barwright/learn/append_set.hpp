// barwright/learn/append_set.hpp - one more set in a fit, without the log
//
// A fit of a log takes milliseconds, most of them to find the shapes of the lifter's curves, which
// the next set hardly moves. Here it is taken into what the fit knows of its last day, at the
// shapes as they were found: the time since passes, the set is held against what was expected, and
// if it fits, the states learn from it as they do in a fit.
//
//     std::optional<StrengthFit> next = append_set(fit, set);
//     if (!next) next = model.fit();   // the log in which the set stands, too
//
// What it cannot do: find the shapes anew, or the day's form that explains a day unlike the others;
// take back a judgement of an earlier set, or what an earlier set of the day was taken for. So only
// a few are taken, and then the log is to be fitted anew. docs/strength-model.md says how far
// both lie apart.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>

#include "barwright/learn/strength_model.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// The fit with one more set, of its last day or a later one; nothing where the log is to be fitted
/// anew.
///
/// It answers for the day of the set and later ones; an earlier day is a DomainError. `history` has
/// that day alone, `gain` has no answer, and `reports` is of the appended sets. A set that fits too
/// badly is left out and reported, as in a fit.
/// @returns nothing for a set before the fit's last day, for one of a lift that the log does not
///   have, when no set of the log was rated near failure, and when a tenth of the sets that the
///   fit found its shapes by, or twenty, have been appended
[[nodiscard]] std::optional<StrengthFit> append_set(const StrengthFit& fit, const LoggedSet& set);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/append_set.ipp"
#endif
