// barwright/core/names.hpp - names as people type them, compared with names as they are written
//
// Case, spaces, hyphens and underscores do not matter; how far a misspelt name is from another is
// counted in letters.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "barwright/core/short_list.hpp"
#include "barwright/core/text.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Names, nearest first.
using NameList = ShortList<std::string_view, 8>;

namespace detail {

[[nodiscard]] constexpr bool is_gap(char c) noexcept {
  return c == ' ' || c == '-' || c == '_' || c == '\t' || c == '\r' || c == '\n';
}

/// `text` in lower case with single spaces for spaces, hyphens and underscores, none at the ends.
[[nodiscard]] constexpr Text normalised(std::string_view text) noexcept {
  Text plain;
  bool gap = false;
  for (const char c : text) {
    if (is_gap(c)) {
      gap = true;
      continue;
    }
    if (gap && !plain.view().empty()) plain.append(" ");
    gap = false;
    const char letter = lower_case(c);
    plain.append(std::string_view(&letter, 1));
  }
  return plain;
}

/// The fewest letters inserted, left out, replaced or swapped with their neighbour that turn one
/// text into the other. Letters after the 64th do not count.
[[nodiscard]] constexpr std::size_t edit_distance(std::string_view a, std::string_view b) noexcept {
  constexpr std::size_t longest = 64;
  a = a.substr(0, longest);
  b = b.substr(0, longest);
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};  // two back, one back, this one
  for (std::size_t j = 0; j <= b.size(); ++j) rows[1][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    rows[2][0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      std::size_t least = rows[1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      if (rows[1][j] + 1 < least) least = rows[1][j] + 1;
      if (rows[2][j - 1] + 1 < least) least = rows[2][j - 1] + 1;
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] &&
          rows[0][j - 2] + 1 < least) {
        least = rows[0][j - 2] + 1;
      }
      rows[2][j] = least;
    }
    rows[0] = rows[1];
    rows[1] = rows[2];
  }
  return rows[1][b.size()];
}

/// Whether two names have the same letters, written apart, together or with a hyphen.
[[nodiscard]] constexpr bool same_letters(std::string_view a, std::string_view b) noexcept {
  const auto next = [](std::string_view& text) noexcept {
    while (!text.empty() && is_gap(text.front())) text.remove_prefix(1);
    const char letter = text.empty() ? '\0' : lower_case(text.front());
    if (!text.empty()) text.remove_prefix(1);
    return letter;
  };
  for (;;) {
    const char letter = next(a);
    if (letter != next(b)) return false;
    if (letter == '\0') return true;
  }
}

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
