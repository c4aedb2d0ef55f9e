// barwright/log/log_writer.hpp - a training log written back as CSV, clean
//
// What log_reader.hpp read, in its columns and one spelling for everything, so that it reads the
// same again: the sets, and what rows without one said of pain. Without a set it is a blank log, to
// be filled in. CSV as RFC 4180 describes it, with line ends of one character.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/log_entries.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A field of CSV: in quotes where it must be.
[[nodiscard]] std::string csv_field(std::string_view text);

namespace detail {

/// "2" or "2-3"; nothing where the set was not rated.
[[nodiscard]] std::string reserve_field(const LoggedSet& set);

/// "feet up + flat back". A name with a comma in it would be read as two: its key stands for it.
[[nodiscard]] std::string modifiers_field(const Lift& lift);

}  // namespace detail

/// Writes a log, one row for each set in the order given.
///
/// Of notes only those are kept that speak of pain (`LogEntry::complaint`). Loads are rounded to a
/// thousandth of their unit.
/// A note that leaves open whether a rep was missed leaves it open again.
/// @param unread  of rows that gave no set: each becomes a row of its own, with the day, the lifter
///   and the note, so that a plan from what is written stops where one from the log itself does
[[nodiscard]] std::string write_log(std::span<const LogEntry> entries,
                                    std::span<const UnreadNote> unread = {});

/// The same of all that was read.
[[nodiscard]] inline std::string write_log(const Log& log) {
  return write_log(log.entries, log.unread);
}

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/log_writer.ipp"
#endif
