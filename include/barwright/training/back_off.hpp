// barwright/training/back_off.hpp - lighter sets after the top one
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// The load of back-off sets a share below the top one: back_off(100_kg, 0.10) is 90 kg.
/// @throws DomainError unless 0 <= drop <= 0.5.
[[nodiscard]] constexpr Mass back_off(Mass top, double drop) {
  if (!(drop >= 0.0 && drop <= 0.5)) {
    detail::fail("the drop to a back-off set", "a share from 0 to 0.5", drop);
  }
  return top * (1.0 - drop);
}

/// The share to drop so that back-off sets of `back_off_reps` keep `left` in reserve after a top
/// set of `top_reps` with `top_left`; zero where no drop is needed.
template <RepCurve C>
[[nodiscard]] constexpr double drop_for(const C& curve, Reps top_reps, RepsInReserve top_left,
                                        Reps back_off_reps, RepsInReserve left) {
  const double drop =
      1.0 - share_of_max(curve, back_off_reps, left) / share_of_max(curve, top_reps, top_left);
  return drop > 0.0 ? drop : 0.0;
}

}  // namespace barwright::inline BARWRIGHT_ABI
