// barwright/log/encoding.hpp - the text of a file, whatever it was saved in, as UTF-8
//
// Spreadsheets save a table in UTF-8, with or without a byte order mark, in UTF-16, or in the code
// page of the country. What is valid UTF-8 is UTF-8; a byte order mark or the zeros beside every
// Latin letter tell UTF-16; any other text is taken for Windows-1252, the code page of western
// Europe and the Americas, and that is said. (Unicode 15, chapter 3; the code page by the WHATWG
// Encoding Standard, from memory, unverified.)
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "barwright/core/printable.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What the bytes of a file were taken for.
enum class Encoding : unsigned char { utf_8, utf_16, windows_1252, none };

/// A text in UTF-8. Where it had to be made, `made` holds it.
struct DecodedText {
  Encoding encoding = Encoding::utf_8;  ///< what it was before
  std::string made{};                   ///< empty where it was UTF-8

  /// The text; `bytes` is what it was decoded from.
  [[nodiscard]] std::string_view of(std::string_view bytes) const noexcept {
    return encoding == Encoding::utf_8 ? bytes : std::string_view(made);
  }
};

namespace detail {

void append_utf_8(std::string& text, char32_t code);

[[nodiscard]] std::string from_utf_16(std::string_view bytes, bool is_big_endian);

[[nodiscard]] std::string from_windows_1252(std::string_view bytes);

[[nodiscard]] constexpr bool is_utf_8(std::string_view text) noexcept {
  while (!text.empty()) {
    const std::size_t bytes = first_character(text).bytes;
    if (bytes == 0) return false;
    text.remove_prefix(bytes);
  }
  return true;
}

/// Zeros at even or odd places of the beginning: of Latin text in UTF-16 nearly all of one kind.
[[nodiscard]] std::array<std::size_t, 2> zeros_in(std::string_view bytes);

}  // namespace detail

/// Tells the encoding of a text and brings it into UTF-8; `Encoding::none` for what is no text.
[[nodiscard]] DecodedText decode(std::string_view bytes);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/encoding.ipp"
#endif
