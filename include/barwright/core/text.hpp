// barwright/core/text.hpp - short text without allocation: numbers as people write them
//
// Error messages, masses and loadings are printed from places that must not allocate, so they are
// built in a buffer of fixed size. Numbers print in the fewest digits that matter: 102.5, not
// 102.500000; 100, not 1e+02.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <charconv>
#include <cstddef>
#include <iosfwd>
#include <string_view>

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

template <std::size_t Capacity>
class BasicText;

namespace detail {

[[nodiscard]] constexpr std::string_view view_of(std::string_view text) noexcept { return text; }
template <std::size_t Capacity>
[[nodiscard]] constexpr std::string_view view_of(const BasicText<Capacity>& text) noexcept {
  return text.view();
}

/// A letter of ASCII in lower case, anything else as it is.
[[nodiscard]] constexpr char lower_case(char c) noexcept {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Whether a byte of UTF-8 belongs to the character before it.
[[nodiscard]] constexpr bool continues_character(char byte) noexcept {
  return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}
/// As many of the first bytes as make whole characters of UTF-8, at most `most`.
[[nodiscard]] constexpr std::string_view first_bytes(std::string_view text,
                                                     std::size_t most) noexcept {
  if (text.size() <= most) return text;
  while (most > 0 && continues_character(text[most])) --most;
  return text.substr(0, most);
}
/// As many of the last bytes as make whole characters of UTF-8, at most `most`.
[[nodiscard]] constexpr std::string_view last_bytes(std::string_view text,
                                                    std::size_t most) noexcept {
  if (text.size() <= most) return text;
  std::size_t begin = text.size() - most;
  while (begin < text.size() && continues_character(text[begin])) ++begin;
  return text.substr(begin);
}

}  // namespace detail

/// Text in a buffer of fixed size. What does not fit is cut, never written past the end.
///
/// Prints to streams, and converts to `std::string_view`; the view lives as long as the `Text`, so
/// a temporary has none. `str()` makes a string of its own.
template <std::size_t Capacity>
class BasicText {
 public:
  static_assert(Capacity >= 32, "a Text holds at least one number");

  constexpr BasicText() noexcept = default;

  /// Appends as much of `part` as fits. UTF-8 is cut between two characters, and what comes after
  /// a cut is not appended.
  constexpr BasicText& append(std::string_view part) & noexcept {
    if (is_cut_) return *this;
    const std::string_view fitting = detail::first_bytes(part, Capacity - size_);
    is_cut_ = fitting.size() < part.size();
    for (const char c : fitting) data_[size_++] = c;
    data_[size_] = '\0';
    return *this;
  }
  template <std::size_t Other>
  constexpr BasicText& append(const BasicText<Other>& part) & noexcept {
    return append(part.view());
  }

  /// Appends `value` in the shortest form that reads back as the same number: 0.1, 100, 1e+30, nan.
  BasicText& append(double value) & noexcept {
    char digits[32];
    const auto end = std::to_chars(digits, digits + sizeof digits, value).ptr;
    return append(std::string_view(digits, static_cast<std::size_t>(end - digits)));
  }

  /// Appends `value` as a whole number.
  BasicText& append(int value) & noexcept {
    char digits[16];
    const auto end = std::to_chars(digits, digits + sizeof digits, value).ptr;
    return append(std::string_view(digits, static_cast<std::size_t>(end - digits)));
  }

  /// Appends `value` rounded to at most `decimals` places (0 to 9), without trailing zeros: with
  /// two places 102.5 is "102.5", 0.6666 is "0.67" and -0.001 is "0".
  BasicText& append_rounded(double value, int decimals) & noexcept {
    char digits[64];
    const auto printed =
        std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed, decimals);
    if (printed.ec != std::errc{}) return append(value);  // too large to print in full
    std::string_view text(digits, static_cast<std::size_t>(printed.ptr - digits));
    if (text.find('.') != std::string_view::npos) {
      while (text.back() == '0') text.remove_suffix(1);
      if (text.back() == '.') text.remove_suffix(1);
    }
    return append(text == "-0" ? std::string_view("0") : text);
  }

  /// Appends `part` after enough spaces that it ends `width` places on: a right-aligned column.
  template <class Part>
  constexpr BasicText& append_right(const Part& part, std::size_t width) & noexcept {
    for (std::size_t i = detail::view_of(part).size(); i < width; ++i) append(" ");
    return append(part);
  }

  /// Appends `part` and enough spaces to fill `width` places: a left-aligned column.
  template <class Part>
  constexpr BasicText& append_left(const Part& part, std::size_t width) & noexcept {
    append(part);
    for (std::size_t i = detail::view_of(part).size(); i < width; ++i) append(" ");
    return *this;
  }

  // The same for a temporary: the result is a text, not a reference to what is gone.
  template <class Part>
  constexpr BasicText append(const Part& part) && noexcept {
    return append(part);
  }
  BasicText append_rounded(double value, int decimals) && noexcept {
    return append_rounded(value, decimals);
  }
  template <class Part>
  constexpr BasicText append_right(const Part& part, std::size_t width) && noexcept {
    return append_right(part, width);
  }
  template <class Part>
  constexpr BasicText append_left(const Part& part, std::size_t width) && noexcept {
    return append_left(part, width);
  }

  [[nodiscard]] constexpr std::string_view view() const& noexcept { return {data_, size_}; }
  [[nodiscard]] constexpr const char* c_str() const& noexcept { return data_; }
  constexpr operator std::string_view() const& noexcept { return view(); }
  void view() const&& = delete;  // the views would outlive the text: use str()
  void c_str() const&& = delete;
  operator std::string_view() const&& = delete;
  /// A string of its own. Include <string> to use it.
  template <class String = std::basic_string<char>>
  [[nodiscard]] constexpr String str() const {
    return String(data_, size_);
  }

  friend constexpr bool operator==(const BasicText& a, std::string_view b) noexcept {
    return a.view() == b;
  }
  friend constexpr bool operator==(const BasicText& a, const BasicText& b) noexcept {
    return a.view() == b.view();
  }

  template <class Traits>
  friend std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out,
                                                      const BasicText& text) {
    return out << text.view();
  }

 private:
  char data_[Capacity + 1] = {};
  std::size_t size_ = 0;
  bool is_cut_ = false;
};

/// Room for a load, a table cell or a short phrase.
using Text = BasicText<255>;

}  // namespace barwright::inline BARWRIGHT_ABI
