// barwright/plates/drawing.hpp - a loaded sleeve, drawn in letters
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>

#include "barwright/core/text.hpp"
#include "barwright/plates/loading.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One loaded sleeve seen from the front, the lifter's hands to the left: larger plates reach
/// higher, [] is the collar. One line per row, each ending in a line break:
///
///             |  |
///             |  ||  |
///             |  ||  |
///     ========|25||15||2.5|[]====
///             |  ||  |
///             |  ||  |
///             |  |
[[nodiscard]] inline BasicText<4095> draw(const Loading& loading) {
  // How far a plate reaches above the bar, in rows. Plates from 10 kg up are often all of one
  // diameter; here they differ, so that they can be told apart.
  const auto reach = [](MarkedMass plate) {
    const double kg = plate.mass().kg();
    return kg >= 20.0 ? 3 : kg >= 10.0 ? 2 : kg >= 4.5 ? 1 : 0;
  };
  int tallest = 0;
  for (const MarkedMass plate : loading.plates()) {
    if (reach(plate) > tallest) tallest = reach(plate);
  }
  BasicText<4095> text;
  for (int row = tallest; row >= -tallest; --row) {
    const int distance = row < 0 ? -row : row;
    text.append(row == 0 ? "========" : "        ");
    // A row ends with the last plate that reaches it.
    std::size_t last = loading.plates().size();
    while (last > 0 && reach(loading.plates()[last - 1]) < distance) --last;
    for (const MarkedMass plate : loading.plates().first(last)) {
      Text mark;
      detail::append_mark(mark, plate, loading.bar().mass.unit(), "");
      const bool here = reach(plate) >= distance;
      text.append(here ? "|" : " ");
      if (row == 0) text.append(mark);
      for (std::size_t i = 0; row != 0 && i < mark.view().size(); ++i) text.append(" ");
      text.append(here ? "|" : " ");
    }
    if (row == 0) text.append(loading.collars().each.is_zero() ? "====" : "[]====");
    text.append("\n");
  }
  return text;
}

}  // namespace barwright::inline BARWRIGHT_ABI
