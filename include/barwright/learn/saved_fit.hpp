// barwright/learn/saved_fit.hpp - a fit kept beside its log, and read back
//
// A program that learns from a log at every start spends milliseconds on each lifter. It can keep
// what a fit knows of the log's last day, one to three kilobytes however long the log, and go on
// from there, with append_set (append_set.hpp) for what is new.
//
//     const std::string saved = save_fit(fit);                       // into a file or a column
//     const StrengthFit again = restore_fit(saved, settings);        // with the same settings
//     if (again.log_checksum() != checksum_of(log)) ...              // the log has changed: fit it
//
// Keep it beside the log, not in its place: the planner asks for the sets themselves, and the next
// version of the library may fit otherwise.
//
// Bytes, as a number written out takes more than twice as many, and a rounded one would be another
// answer. All is little-endian, numbers are IEEE 754 doubles, so that it may be read on another
// machine: eight bytes "barwfit1"; checksums of the settings and of the log; the counts, days and
// lifts by key; shapes and states with their covariances; at the end an FNV-1a checksum of all
// before it. saved_fit.ipp is the whole of the form; whatever changes it changes the first eight.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "barwright/learn/strength_model.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/lift.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What of a fit answers for its last day and later ones, as bytes.
[[nodiscard]] std::string save_fit(const StrengthFit& fit);

/// The fit that was saved. It answers for its last day and later ones, to the last bit as the one
/// that was saved; an earlier day is a DomainError, `history` has that day alone, `gain` has no
/// answer, and `reports` is empty.
/// @param settings   those of the model that was fitted
/// @param own_lifts  of the log, where they have modifiers that are not in the catalogue
/// @throws DomainError where it is not what `save_fit` wrote, of other settings, or of a modifier
///   that is neither in the catalogue nor in `own_lifts`.
[[nodiscard]] StrengthFit restore_fit(std::string_view saved, const StrengthSettings& settings,
                                      std::span<const Lift> own_lifts = {});

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/saved_fit.ipp"
#endif
