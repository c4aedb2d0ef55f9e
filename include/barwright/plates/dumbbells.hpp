// barwright/plates/dumbbells.hpp - loads that need no plates: a rack of dumbbells, a machine's
// stack
//
// They have steps and no plates. The questions are a Room's.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/plates/detail/kinds.hpp"
#include "barwright/plates/loading.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Loads in equal steps: a rack of dumbbells, the stack of a machine. The questions are a Room's.
class FixedLoads {
 public:
  /// @throws DomainError unless first <= last in whole steps, and each value is one of whole
  /// thousandths from 0 to 1000.
  constexpr FixedLoads(double first, double last, double step, Unit unit)
      : first_(first, unit), step_(step, unit) {
    const MarkedMass end(last, unit);
    if (step_.is_zero()) detail::fail("the step between fixed loads", "more than 0", step);
    if (end < first_)
      detail::fail(ErrorCode::contradiction, "the last of the fixed loads",
                   "no less than the first", last);
    const int span = end.thousandths() - first_.thousandths();
    steps_ = span / step_.thousandths();
    if (span % step_.thousandths() != 0) {
      detail::fail(ErrorCode::contradiction, "the last of the fixed loads",
                   "whole steps above the first", last);
    }
  }

  [[nodiscard]] constexpr std::optional<MarkedMass> at_most(Mass load) const {
    const detail::Ticks above_first = ticks_above_first(load) + detail::equal_within;
    if (above_first < 0) return std::nullopt;
    const detail::Ticks n = above_first / step_.ticks();
    return at(n < steps_ ? n : steps_);
  }
  [[nodiscard]] constexpr std::optional<MarkedMass> at_least(Mass load) const {
    const detail::Ticks above_first = ticks_above_first(load) - detail::equal_within;
    if (above_first <= 0) return first_;
    const detail::Ticks n = detail::divided_rounding_up(above_first, step_.ticks());
    if (n > steps_) return std::nullopt;
    return at(n);
  }
  /// The lighter one when two are equally near.
  [[nodiscard]] constexpr MarkedMass nearest(Mass load) const {
    const detail::Ticks half_step_less = ticks_above_first(load) - step_.ticks() / 2;
    if (half_step_less <= detail::equal_within) return first_;
    const detail::Ticks n =
        detail::divided_rounding_up(half_step_less - detail::equal_within, step_.ticks());
    return at(n < steps_ ? n : steps_);
  }

 private:
  [[nodiscard]] constexpr detail::Ticks ticks_above_first(Mass load) const noexcept {
    return detail::to_ticks(load) - first_.ticks();
  }
  [[nodiscard]] constexpr MarkedMass at(detail::Ticks n) const {
    const double thousandths = static_cast<double>(first_.thousandths() + n * step_.thousandths());
    return MarkedMass(thousandths / 1000.0, first_.unit());
  }

  MarkedMass first_;
  MarkedMass step_;
  detail::Ticks steps_ = 0;
};

/// A rack of dumbbells, each marked with its own mass: `dumbbells(2.5, 40, 2.5, Unit::kg)`.
[[nodiscard]] constexpr FixedLoads dumbbells(double lightest, double heaviest, double step,
                                             Unit unit) {
  return FixedLoads(lightest, heaviest, step, unit);
}

/// A machine whose first plate is `first` and each of the others `step`.
/// @throws DomainError unless plates >= 1 and the whole stack is at most 1000.
[[nodiscard]] constexpr FixedLoads machine_stack(double first, double step, int plates, Unit unit) {
  return FixedLoads(first, first + step * (plates - 1), step, unit);
}

}  // namespace barwright::inline BARWRIGHT_ABI
