// barwright/training/back_off.hpp - lighter sets after the top one
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// The load of back-off sets a share below the top one: back_off(100_kg, 0.10) is 90 kg.
/// @throws DomainError unless 0 <= drop <= 0.5.
[[nodiscard]] constexpr Mass back_off(Mass top, double drop) {
  if (!(drop >= 0.0 && drop <= 0.5)) {
    detail::fail("the drop to a back-off set", "a share from 0 to 0.5", drop);
  }
  return top * (1.0 - drop);
}

}  // namespace barwright::inline BARWRIGHT_ABI
