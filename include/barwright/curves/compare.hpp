// barwright/curves/compare.hpp - what every published equation says of one set
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One line of the comparison of all equations for a set.
struct EquationEstimate {
  const EquationFacts* facts = nullptr;
  bool is_defined = false;  ///< false: the curve ends before this set; `max` is zero
  bool is_studied = false;  ///< false: outside the reps it was studied on
  Mass max{};
};

/// What every equation says of one set, in the order of `equations::for_each`. Those not defined
/// that far out say so; nothing throws.
struct EquationComparison {
  EquationEstimate lines[equations::count] = {};

  [[nodiscard]] constexpr const EquationEstimate* begin() const noexcept { return lines; }
  [[nodiscard]] constexpr const EquationEstimate* end() const noexcept {
    return lines + equations::count;
  }
};

[[nodiscard]] inline EquationComparison compare_equations(Mass load, Reps done,
                                                          RepsInReserve left = {}) {
  EquationComparison comparison;
  EquationEstimate* line = comparison.lines;
  const double reps = reps_to_failure(done, left);
  equations::for_each([&](const auto& equation) {
    line->facts = &equation.facts;
    line->is_defined = equation.defined().contains(reps);
    line->is_studied = equation.studied().contains(reps);
    if (line->is_defined) line->max = detail::max_from(equation, load, reps);
    ++line;
  });
  return comparison;
}

}  // namespace barwright::inline BARWRIGHT_ABI
