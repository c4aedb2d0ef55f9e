// barwright/plates/detail/kinds.hpp - plates as the searches see them: whole ticks, pairs, kinds
//
// The searches know no units and no names: every mass is a whole number of ticks, so no answer can
// depend on rounding. A tick is 1e-11 kg, the coarsest lattice that holds a thousandth of a
// kilogram (100,000,000 ticks) and a thousandth of a pound (45,359,237) exactly. Plates are counted
// in pairs, one for each side, so a load never has to be halved.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <compare>
#include <cstdint>

#include "barwright/core/mass.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

using Ticks = std::int64_t;

inline constexpr Ticks ticks_per_kg = 100'000'000'000;

/// Two loads this close count as equal: a microgram, far below any scale and far above the rounding
/// of any computed load.
inline constexpr Ticks equal_within = ticks_per_kg / 1'000'000'000;

/// The nearest whole tick. Loads beyond any room's are cut, so that they fit.
[[nodiscard]] constexpr Ticks to_ticks(Mass mass) noexcept {
  double kg = mass.kg();
  if (kg > Mass::largest_kg) kg = Mass::largest_kg;
  if (kg < -Mass::largest_kg) kg = -Mass::largest_kg;
  const double ticks = kg * static_cast<double>(ticks_per_kg);
  return static_cast<Ticks>(ticks < 0.0 ? ticks - 0.5 : ticks + 0.5);
}

/// Plates one side may hold. It bounds every search; real sleeves are full long before.
inline constexpr int most_plates_a_side = 32;
/// Different plates in one room: every plate the trade makes in both units fits.
inline constexpr int most_kinds = 24;

/// One kind of plate: what a pair weighs, how many pairs there are, which lattice it lies on.
struct Kind {
  Ticks pair = 0;
  int limit = most_plates_a_side;
  int lattice = 0;  ///< 0 for plates in kilograms, 1 for pounds
};
inline constexpr int lattices = 2;

/// The kinds of a room: distinct, heaviest first.
struct Kinds {
  Kind of[most_kinds] = {};
  int size = 0;
};

[[nodiscard]] constexpr Ticks greatest_common_divisor(Ticks a, Ticks b) noexcept {
  while (b != 0) {
    const Ticks rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

[[nodiscard]] constexpr Ticks divided_rounding_up(Ticks a, Ticks b) noexcept {
  return (a + b - 1) / b;
}

/// How many plates of each kind, by the kind's index. Of two with as many plates, the greater one
/// has the heavier plate at the first difference.
struct Counts {
  std::uint8_t of[most_kinds] = {};

  friend constexpr auto operator<=>(const Counts&, const Counts&) = default;
};

/// Whether the load may be lighter than the goal, or heavier.
enum class Side : unsigned char { below, above };

/// What a search found.
struct Found {
  Ticks mass = -1;  ///< of the pairs; negative when there is no answer
  Counts counts{};
  bool is_exact = true;  ///< no loading is closer, and none as close has fewer plates
};

/// As many plates as one side holds, the heaviest there are.
[[nodiscard]] constexpr Found heaviest_of(const Kinds& kinds) noexcept {
  Found all{.mass = 0};
  int left = most_plates_a_side;
  for (int k = 0; k < kinds.size && left > 0; ++k) {
    const int number = kinds.of[k].limit < left ? kinds.of[k].limit : left;
    all.counts.of[k] = static_cast<std::uint8_t>(number);
    all.mass += number * kinds.of[k].pair;
    left -= number;
  }
  return all;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
