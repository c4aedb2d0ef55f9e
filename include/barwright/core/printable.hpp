// barwright/core/printable.hpp - text from outside, made safe to show
//
// A name in a log may hold anything: an escape sequence that repaints the terminal, a line break
// that forges a line of the page, a mark that turns the reading direction round. Whatever was
// written by somebody else passes through here before a person or a terminal sees it. What can be
// read stays as it is; the rest is shown by its number. This is for showing, not for storing: a
// backslash stays one, so the result cannot be read back.
//
// Method: UTF-8 as the Unicode Standard 15.0, table 3-7, defines it (RFC 3629 says the same); the
// marks of direction are those of Unicode's annex 9.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <string_view>

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// A character and the bytes it takes; no bytes where the text does not start with one.
struct Utf8Character {
  char32_t code = 0;
  std::size_t bytes = 0;
};

/// The character that `text`, which is not empty, starts with. Overlong forms, surrogates, what is
/// above U+10FFFF and what is cut short are none.
[[nodiscard]] constexpr Utf8Character first_character(std::string_view text) noexcept {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < bytes) return {};
  char32_t code = lead & (0xFFU >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    code = (code << 6U) | (byte(i) & 0x3FU);
  }
  constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  if (code < least[bytes] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return {};
  return {code, bytes};
}

/// Whether a character is shown as it is.
[[nodiscard]] constexpr bool is_shown(char32_t code) noexcept {
  const auto within = [&](char32_t first, char32_t last) { return first <= code && code <= last; };
  const bool is_control = code < 0x20 || within(0x7F, 0x9F);
  const bool ends_a_line = within(0x2028, 0x2029);
  const bool turns_direction =
      code == 0x061C || within(0x200E, 0x200F) || within(0x202A, 0x202E) || within(0x2066, 0x2069);
  const bool is_invisible_tag = within(0xE0000, 0xE007F);
  const bool is_no_character = (code & 0xFFFEU) == 0xFFFE || within(0xFDD0, 0xFDEF);
  return !is_control && !ends_a_line && !turns_direction && !is_invisible_tag && !is_no_character;
}

/// Appends `value` as so many hexadecimal digits, or more where they do not do.
template <class String>
constexpr void append_hex(String& out, char32_t value, int digits) {
  while (digits < 6 && (value >> (4 * digits)) != 0) ++digits;
  while (digits-- > 0) {
    out.append(std::string_view("0123456789ABCDEF").substr((value >> (4 * digits)) & 0xFU, 1));
  }
}

}  // namespace detail

/// Whether all of `text` is shown as it is: UTF-8 without control characters and line breaks,
/// without what turns the reading direction, and without what is no character.
[[nodiscard]] constexpr bool is_printable(std::string_view text) noexcept {
  while (!text.empty()) {
    const auto [code, bytes] = detail::first_character(text);
    if (bytes == 0 || !detail::is_shown(code)) return false;
    text.remove_prefix(bytes);
  }
  return true;
}

/// Whether there is a control character or a line break in `text`: what has no place in a name,
/// whatever its language and encoding.
[[nodiscard]] constexpr bool has_control(std::string_view text) noexcept {
  while (!text.empty()) {
    const auto [code, bytes] = detail::first_character(text);
    const bool is_control = code < 0x20 || (code >= 0x7F && code <= 0x9F);
    if (bytes > 0 && (is_control || code == 0x2028 || code == 0x2029)) return true;
    text.remove_prefix(bytes == 0 ? 1 : bytes);
  }
  return false;
}

/// Appends `text` to `out` as it can be shown on one line: a tab as \t, a line break as \n or \r,
/// another control character and a byte that is no UTF-8 as \x1B, what turns the reading direction
/// or is no character as \u{202E}; all else unchanged.
/// @param out  has append(std::string_view): a std::string, a Text
template <class String>
constexpr void append_printable(String& out, std::string_view text) {
  while (!text.empty()) {
    const auto [code, bytes] = detail::first_character(text);
    if (bytes > 0 && detail::is_shown(code)) {
      out.append(text.substr(0, bytes));
    } else if (code == '\n' || code == '\r' || code == '\t') {
      out.append(std::string_view(code == '\n' ? "\\n" : code == '\r' ? "\\r" : "\\t"));
    } else if (bytes <= 1) {
      out.append(std::string_view("\\x"));
      detail::append_hex(out, static_cast<unsigned char>(text[0]), 2);
    } else {
      out.append(std::string_view("\\u{"));
      detail::append_hex(out, code, 4);
      out.append(std::string_view("}"));
    }
    text.remove_prefix(bytes == 0 ? 1 : bytes);
  }
}

/// `text` as it can be shown on one line; see append_printable.
/// @tparam String  what to make, such as std::string
template <class String>
[[nodiscard]] constexpr String printable(std::string_view text) {
  String out;
  append_printable(out, text);
  return out;
}

}  // namespace barwright::inline BARWRIGHT_ABI
