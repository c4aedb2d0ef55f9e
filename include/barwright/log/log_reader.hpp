// barwright/log/log_reader.hpp - a training log as people keep it, read from CSV with everything
// wrong in it named
//
// One row is one set, or several alike. The first row names the columns, in any order:
//
//   date       2026-11-25; other ways of writing a day: written_dates.hpp
//   lifter     any name; capitals and spaces do not matter                           (optional)
//   lift       a base lift of the catalogue: bench press; or with what changes it: paused bench
//   modifiers  none, or several, separated by ; + or , (quoted): feet up; flat back   (optional)
//   load       what was lifted, bar included; of dumbbells both together
//   unit       kg or lb; or it stands in the load, or in the name of its column      (optional)
//   reps       reps tried, 1 to 100; of a missed set the last one failed; 3x5 is three sets
//   sets       how many sets alike                                                   (optional)
//   rir        reps left in reserve: 2, 2.5, 2-3 or nothing                   (optional)
//   rpe        the rating 1 to 10 in its place; of both, rir is used                 (optional)
//   outcome    completed (or nothing) or missed                                      (optional)
//   set        its number in the session: makes a line entered twice certain         (optional)
//   note       anything; that it hurt is taken from it                               (optional)
//
// Other columns are ignored, other names of these are in log_columns.hpp, and docs/log.md has the
// rules on one page. Fields are separated by commas, semicolons or tabs, whichever the first row
// uses; a decimal comma is read where the comma separates no fields. A row that cannot be read is
// refused, and the others are still used. A row that can be read but looks wrong is doubtful: it is
// used. Each such row gets a report with its line. Whether a load can be right only the lifter's
// other sets can tell. What holds for the whole file and could be otherwise is said once.
//
// The text may come from anybody: reading takes time in proportion to its length, and nothing in it
// is thrown back as an exception.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string_view>

#include "barwright/log/log_entries.hpp"
#include "barwright/log/written_row.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Reads a log.
/// @param bytes    CSV, as a file holds it: see the top of this header. Nothing in it is thrown.
/// @param options  what the file cannot say itself
[[nodiscard]] Log read_log(std::string_view bytes, const LogOptions& options = {});

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/log_reader.ipp"
#endif
