// barwright/training/prescription.hpp - from a max to today's load
//
// The load for some reps at some reserve is the max times the curve at their sum. Around that one
// line stand the habits of the trade: the warm-up (warm_up.hpp), lighter sets after the top one
// (back_off.hpp), a test of the max (max_test.hpp), and when to add load (progression.hpp).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// `percent` of a max: percent_of(100_kg, 72.5) is 72.5 kg.
/// @throws DomainError unless 0 <= percent <= 200, and for a max below nothing.
[[nodiscard]] constexpr Mass percent_of(Mass max, double percent) {
  if (!(percent >= 0.0 && percent <= 200.0)) {
    detail::fail("a percentage of the max", "a number from 0 to 200", percent);
  }
  detail::require_not_negative("a max", max);
  return max * (percent / 100.0);
}

/// The load for `done` reps with `left` in reserve, not yet rounded.
///
/// This is no plan: it knows no new lift, no layoff, no limit on the step from the last session and
/// no stop. plan/session.hpp does, and starts from this.
///
/// Round it down when in doubt: an unrounded load is the estimate's middle, not its safe side.
/// @throws DomainError if the curve is not defined that far out, or for a max below nothing.
template <RepCurve C>
[[nodiscard]] constexpr Mass load_for(const C& curve, Mass max, Reps done,
                                      RepsInReserve left = {}) {
  detail::require_not_negative("a max", max);
  return max * share_of_max(curve, done, left);
}

/// The load for `done` reps that are to be rated so, not yet rounded.
/// @throws DomainError also for a rating below 5, which does not count reps.
template <RepCurve C>
[[nodiscard]] constexpr Mass load_for(const C& curve, Mass max, Reps done, Rpe effort) {
  return load_for(curve, max, done, typical_reserve(effort));
}

/// The reps left after `done` reps at `load`; negative when they are more than can be
/// expected (-2: two short).
template <RepCurve C>
[[nodiscard]] constexpr double reserve_left(const C& curve, Mass max, Mass load, Reps done) {
  return predicted_reps(curve, max, load) - done.count();
}

}  // namespace barwright::inline BARWRIGHT_ABI
