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

namespace barwright::inline v0 {

/// Text in a buffer of fixed size. What does not fit is cut, never written past the end.
///
/// Converts to `std::string_view` and streams; the view lives as long as the `Text`.
template <std::size_t Capacity>
class BasicText {
 public:
  static_assert(Capacity >= 32, "a Text holds at least one number");

  constexpr BasicText() noexcept = default;

  /// Appends as much of `part` as fits. UTF-8 is cut between two characters, and what comes after
  /// a cut is not appended.
  constexpr BasicText& append(std::string_view part) noexcept {
    if (is_cut_) return *this;
    std::size_t fitting = part.size();
    if (fitting > Capacity - size_) {
      is_cut_ = true;
      fitting = Capacity - size_;
      while (fitting > 0 && continues_character(part[fitting])) --fitting;
    }
    for (const char c : part.substr(0, fitting)) data_[size_++] = c;
    data_[size_] = '\0';
    return *this;
  }

  /// Appends `value` in the shortest form that reads back as the same number: 0.1, 100, 1e+30, nan.
  BasicText& append(double value) noexcept {
    char digits[32];
    const auto end = std::to_chars(digits, digits + sizeof digits, value).ptr;
    return append(std::string_view(digits, static_cast<std::size_t>(end - digits)));
  }

  /// Appends `value` as a whole number.
  BasicText& append(int value) noexcept {
    char digits[16];
    const auto end = std::to_chars(digits, digits + sizeof digits, value).ptr;
    return append(std::string_view(digits, static_cast<std::size_t>(end - digits)));
  }

  /// Appends `value` rounded to at most `decimals` places (0 to 9), without trailing zeros: with
  /// two places 102.5 is "102.5", 0.6666 is "0.67" and -0.001 is "0".
  BasicText& append_rounded(double value, int decimals) noexcept {
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
  constexpr BasicText& append_right(std::string_view part, std::size_t width) noexcept {
    for (std::size_t i = part.size(); i < width; ++i) append(" ");
    return append(part);
  }

  /// Appends `part` and enough spaces to fill `width` places: a left-aligned column.
  constexpr BasicText& append_left(std::string_view part, std::size_t width) noexcept {
    append(part);
    for (std::size_t i = part.size(); i < width; ++i) append(" ");
    return *this;
  }

  [[nodiscard]] constexpr std::string_view view() const noexcept { return {data_, size_}; }
  [[nodiscard]] constexpr const char* c_str() const noexcept { return data_; }
  constexpr operator std::string_view() const noexcept { return view(); }

  friend constexpr bool operator==(const BasicText& a, std::string_view b) noexcept {
    return a.view() == b;
  }

  template <class Traits>
  friend std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out,
                                                      const BasicText& text) {
    return out << text.view();
  }

 private:
  /// Whether a byte of UTF-8 belongs to the character before it.
  static constexpr bool continues_character(char byte) noexcept {
    return (static_cast<unsigned char>(byte) & 0xC0u) == 0x80u;
  }

  char data_[Capacity + 1] = {};
  std::size_t size_ = 0;
  bool is_cut_ = false;
};

/// Room for a load, a table cell or a short phrase.
using Text = BasicText<255>;

}  // namespace barwright::inline v0
