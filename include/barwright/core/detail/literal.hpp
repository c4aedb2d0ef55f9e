// barwright/core/detail/literal.hpp - numbers written in a program, checked while it is compiled
//
// 5_reps, 2.5_kg and 8_rpe are checked by the compiler, so a bad one is no run-time error. The
// digits arrive as template arguments, which works inside templates too; clang 14 does not resolve
// `consteval` literal operators there.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// The number spelt by a decimal literal without exponent: 102.5, 7, 1'000.
template <char... Characters>
[[nodiscard]] constexpr double decimal() noexcept {
  // Up to 15 digits are whole numbers without rounding; then the one division rounds correctly.
  static_assert(sizeof...(Characters) <= 16, "write the number with at most 15 digits");
  static_assert(
      (((Characters >= '0' && Characters <= '9') || Characters == '.' || Characters == '\'') &&
       ...),
      "write a plain decimal number: 102.5, not 1.025e2");
  double digits = 0.0;
  double scale = 1.0;
  bool after_the_point = false;
  for (const char c : {Characters...}) {
    if (c == '.') {
      after_the_point = true;
    } else if (c != '\'') {
      digits = 10.0 * digits + (c - '0');
      if (after_the_point) scale *= 10.0;
    }
  }
  return digits / scale;
}

/// The same for a number that must be whole.
template <char... Characters>
[[nodiscard]] constexpr int whole() noexcept {
  static_assert(((Characters != '.') && ...), "write a whole number");
  static_assert(decimal<Characters...>() <= 1e9, "write a number up to 1'000'000'000");
  return static_cast<int>(decimal<Characters...>());
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
