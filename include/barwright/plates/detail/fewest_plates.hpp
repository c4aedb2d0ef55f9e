// barwright/plates/detail/fewest_plates.hpp - the fewest plates for each multiple of a step
//
// Plates of one unit that never run out lie on a coarse lattice (2.5 kg a pair, 5 lb a pair). A
// small table answers for all of its multiples.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <cstdint>

#include "barwright/plates/detail/kinds.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// The fewest plates for every multiple of a step, from kinds that never run out.
///
/// Only the first multiples are stored. From `size` on the answer is one more of the heaviest kind
/// than for the multiple a heaviest plate below. That holds for all multiples once it holds for as
/// many in a row as the heaviest plate has steps, as the fewest for n follows from the fewest for n
/// less each plate (induction).
struct FewestPlates {
  static constexpr int capacity = 512;
  static constexpr std::uint8_t too_many = most_plates_a_side + 1;  ///< or not reachable at all

  Ticks step = 0;  ///< 0 when there is no table
  int heaviest = 0;
  int heaviest_kind = 0;
  int size = 0;
  std::uint8_t count[capacity] = {};  ///< fewest plates for this multiple
  std::uint8_t first[capacity] = {};  ///< the heaviest kind among them

  /// Tabulates the unlimited kinds of one lattice; leaves `step` at 0 where that takes too much.
  constexpr void build(const Kinds& kinds, int lattice) {
    int members[most_kinds] = {};
    int number = 0;
    Ticks divisor = 0;
    for (int k = 0; k < kinds.size; ++k) {
      const Kind& kind = kinds.of[k];
      if (kind.lattice != lattice || kind.limit < most_plates_a_side) continue;
      members[number++] = k;
      divisor = greatest_common_divisor(divisor, kind.pair);
    }
    if (number == 0) return;
    heaviest_kind = members[0];
    if (kinds.of[heaviest_kind].pair / divisor > capacity) return;
    int steps[most_kinds] = {};
    for (int i = 0; i < number; ++i) {
      steps[i] = static_cast<int>(kinds.of[members[i]].pair / divisor);
    }
    heaviest = steps[0];

    std::uint8_t fewest[2 * static_cast<std::size_t>(capacity)] = {};
    int last_exception = heaviest - 1;
    for (int n = 1; n <= last_exception + heaviest; ++n) {
      int best = too_many;
      for (int i = 0; i < number; ++i) {
        if (steps[i] > n || fewest[n - steps[i]] + 1 >= best) continue;
        best = fewest[n - steps[i]] + 1;
        if (n < capacity) first[n] = static_cast<std::uint8_t>(members[i]);
      }
      fewest[n] = static_cast<std::uint8_t>(best);
      if (n < capacity) count[n] = fewest[n];
      if (n > heaviest && best < too_many && best <= fewest[n - heaviest]) last_exception = n;
      if (last_exception >= capacity) return;
    }
    size = last_exception + 1;
    step = divisor;
  }

  /// The heaviest multiple that `most_plates_a_side` plates can make.
  [[nodiscard]] constexpr Ticks last() const noexcept {
    return static_cast<Ticks>(heaviest) * most_plates_a_side;
  }

  /// Plates for `n` steps; more than `most_plates_a_side` when it cannot be done. n <= last().
  [[nodiscard]] constexpr int plates(Ticks n) const noexcept {
    const auto multiple = static_cast<unsigned>(n);
    if (multiple < static_cast<unsigned>(size)) return count[multiple];
    const unsigned more = beyond(multiple);
    return static_cast<int>(more + count[multiple - more * static_cast<unsigned>(heaviest)]);
  }

  /// Adds the plates for `n` steps, which must be reachable.
  constexpr void add_to(Counts& counts, Ticks n, const Kinds& kinds) const {
    auto multiple = static_cast<unsigned>(n);
    if (multiple >= static_cast<unsigned>(size)) {
      const unsigned more = beyond(multiple);
      counts.of[heaviest_kind] = static_cast<std::uint8_t>(counts.of[heaviest_kind] + more);
      multiple -= more * static_cast<unsigned>(heaviest);
    }
    while (multiple > 0) {
      const int kind = first[multiple];
      ++counts.of[kind];
      multiple -= static_cast<unsigned>(kinds.of[kind].pair / step);
    }
  }

 private:
  /// How many heaviest plates bring `multiple` below `size`.
  [[nodiscard]] constexpr unsigned beyond(unsigned multiple) const noexcept {
    return (multiple - static_cast<unsigned>(size)) / static_cast<unsigned>(heaviest) + 1;
  }
};

}  // namespace barwright::inline BARWRIGHT_ABI::detail
