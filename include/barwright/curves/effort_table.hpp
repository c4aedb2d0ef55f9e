// barwright/curves/effort_table.hpp - any curve printed by reps and reps in reserve
//
// One curve fills the whole table: the share for r reps with k left is that of r + k to failure.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <iosfwd>
#include <optional>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/text.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What an effort table shows.
struct EffortTableFormat {
  int most_reps = 12;          ///< rows: 1 to this many reps
  int most_reserve = 5;        ///< columns: 0 to this many reps in reserve
  std::optional<Mass> max{};   ///< given: cells are loads for this max; else per cents
  Unit unit = Unit::kg;        ///< of the loads, which is named above them: a mass knows none
  std::optional<Mass> step{};  ///< given: loads are rounded down to this step
};

/// The share of the max for a row and column of an effort table; nothing where the curve ends.
template <RepCurve C>
[[nodiscard]] constexpr std::optional<double> effort_table_share(const C& curve, Reps done,
                                                                 RepsInReserve left) {
  const double reps = reps_to_failure(done, left);
  if (!curve.defined().contains(reps)) return std::nullopt;
  return curve.fraction(reps);
}

/// Prints `curve` by reps (down) and reps in reserve (across), in per cent of the max
/// or as loads, under a line that says for which max and in which unit; a dash where the curve
/// ends.
///
/// The table is arithmetic on the curve and the meaning of reserve, not a published table.
/// @throws DomainError if the format asks for more than 100 reps or 30 in reserve.
template <class Traits, RepCurve C>
void print_effort_table(std::basic_ostream<char, Traits>& out, const C& curve,
                        const EffortTableFormat& format = {}) {
  constexpr std::size_t width = 8;
  const RepsInReserve most_reserve(format.most_reserve);
  const Reps most_reps(format.most_reps);
  if (format.max) {
    out << "Loads in " << to_text(format.unit) << " for a 1RM of "
        << to_text(*format.max, format.unit);
    if (format.step) out << ", rounded down to " << to_text(*format.step, format.unit);
    out << "\n";
  }
  BasicText<511> line;
  line.append_left("reps", width);
  for (int left = 0; left <= most_reserve.count(); ++left) {
    line.append_right(Text{}.append(left).append(" RIR"), width);
  }
  out << line << "\n";
  for (int reps = 1; reps <= most_reps.count(); ++reps) {
    line = {};
    line.append_left(Text{}.append(reps), width);
    for (int left = 0; left <= most_reserve.count(); ++left) {
      const auto share = effort_table_share(curve, Reps(reps), RepsInReserve(left));
      Text cell;
      if (!share) {
        cell.append("-");
      } else if (!format.max) {
        cell.append_rounded(100.0 * *share, 1);
      } else {
        Mass load = *format.max * *share;
        if (format.step) {
          load = rounded_to(load, format.step->in(format.unit), format.unit, Rounding::down);
        }
        cell.append_rounded(load.in(format.unit), format.step ? 2 : 1);
      }
      line.append_right(cell.view(), width);
    }
    out << line << "\n";
  }
}

}  // namespace barwright::inline BARWRIGHT_ABI
