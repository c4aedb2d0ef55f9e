// barwright/log/encoding.ipp - the bodies of encoding.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "barwright/log/encoding.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline void append_utf_8(std::string& text, char32_t code) {
  const auto put = [&](char32_t byte) { text += static_cast<char>(byte); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xC0 | (code >> 6));
    put(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    put(0xE0 | (code >> 12));
    put(0x80 | ((code >> 6) & 0x3F));
    put(0x80 | (code & 0x3F));
  } else {
    put(0xF0 | (code >> 18));
    put(0x80 | ((code >> 12) & 0x3F));
    put(0x80 | ((code >> 6) & 0x3F));
    put(0x80 | (code & 0x3F));
  }
}

inline std::string from_utf_16(std::string_view bytes, bool is_big_endian) {
  const auto unit = [&](std::size_t i) {
    const auto first = static_cast<unsigned char>(bytes[i]);
    const auto second = static_cast<unsigned char>(bytes[i + 1]);
    return static_cast<char32_t>(is_big_endian ? first * 256U + second : second * 256U + first);
  };
  std::string text;
  text.reserve(bytes.size() / 2);
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    char32_t code = unit(i);
    const bool is_high = code >= 0xD800 && code < 0xDC00;
    const char32_t low = is_high && i + 3 < bytes.size() ? unit(i + 2) : 0;
    if (low >= 0xDC00 && low < 0xE000) {
      code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
      i += 2;
    } else if (code >= 0xD800 && code < 0xE000) {
      code = 0xFFFD;  // half a pair
    }
    append_utf_8(text, code);
  }
  return text;
}

inline std::string from_windows_1252(std::string_view bytes) {
  constexpr std::array<char32_t, 32> special{
      0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
      0x2039, 0x0152, 0x8D,   0x017D, 0x8F,   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
      0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    append_utf_8(text, byte >= 0x80 && byte < 0xA0 ? special[byte - 0x80U] : byte);
  }
  return text;
}

inline std::array<std::size_t, 2> zeros_in(std::string_view bytes) {
  std::array<std::size_t, 2> zeros{};
  const std::size_t end = std::min<std::size_t>(bytes.size(), 2000);
  for (std::size_t i = 0; i < end; ++i) {
    if (bytes[i] == '\0') ++zeros[i % 2];
  }
  return zeros;
}

}  // namespace detail

inline DecodedText decode(std::string_view bytes) {
  const bool is_little = bytes.starts_with("\xFF\xFE");
  const bool is_big = bytes.starts_with("\xFE\xFF");
  if (is_little || is_big) {
    if (bytes.size() % 2 != 0) return {.encoding = Encoding::none};
    return {.encoding = Encoding::utf_16, .made = detail::from_utf_16(bytes.substr(2), is_big)};
  }
  if (bytes.find('\0') != std::string_view::npos) {
    const auto zeros = detail::zeros_in(bytes);
    const std::size_t letters = std::min<std::size_t>(bytes.size(), 2000) / 2;
    const bool is_even = zeros[0] > letters * 3 / 4 && zeros[1] == 0;
    const bool is_odd = zeros[1] > letters * 3 / 4 && zeros[0] == 0;
    if (bytes.size() % 2 != 0 || (!is_even && !is_odd)) return {.encoding = Encoding::none};
    return {.encoding = Encoding::utf_16, .made = detail::from_utf_16(bytes, is_even)};
  }
  if (detail::is_utf_8(bytes)) return {};
  return {.encoding = Encoding::windows_1252, .made = detail::from_windows_1252(bytes)};
}

}  // namespace barwright::inline BARWRIGHT_ABI
