// barwright/core/range.hpp - a value known only between two ends, with the likeliest one named
//
// What a variation costs, what a half-point rating means, what a max may be: coaches say these as
// "5 to 10 per cent, likelier the low end". A Range keeps all three numbers together.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <iosfwd>

#include "barwright/core/error.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Three values, in order when they are given together: low <= typical <= high.
///
/// `T` is any ordered value type: a number, a Mass, a RepsInReserve. The members are open: if you
/// change one, keep the order, as nothing checks it again.
template <class T>
struct Range {
  T low{};
  T typical{};
  T high{};

  constexpr Range() = default;

  /// A range with its likeliest value.
  /// @throws DomainError unless low <= typical <= high.
  constexpr Range(T low_, T typical_, T high_) : low(low_), typical(typical_), high(high_) {
    if (!(low <= typical && typical <= high)) {
      detail::fail(ErrorCode::contradiction, "a range", "ordered: low <= typical <= high",
                   "values in another order");
    }
  }

  /// A value known exactly.
  static constexpr Range exactly(T value) { return Range(value, value, value); }

  [[nodiscard]] constexpr bool contains(T value) const noexcept {
    return low <= value && value <= high;
  }
  [[nodiscard]] constexpr bool is_exact() const noexcept { return low == high; }

  friend constexpr bool operator==(const Range&, const Range&) = default;
};

/// "80 kg to 92.5 kg, likeliest 85 kg"; of a value known exactly that value. There for values that
/// can be printed, where <ostream> is included.
template <class Traits, class T>
requires requires(std::basic_ostream<char, Traits>& out, const T& value) { out << value << ""; }
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out,
                                             const Range<T>& range) {
  if (range.is_exact()) return out << range.typical;
  return out << range.low << " to " << range.high << ", likeliest " << range.typical;
}

}  // namespace barwright::inline BARWRIGHT_ABI
