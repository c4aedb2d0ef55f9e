// barwright/core/parse.hpp - numbers and units read from text
//
// What every reader of text in the library starts from: a room, a log, an option of a program. The
// whole of a text is a value or nothing is read. Numbers have a decimal point and no exponent,
// whatever the host's locale: nobody writes a load as 1e2, and "inf" is no load.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "barwright/core/mass.hpp"
#include "barwright/core/text.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Removes and returns what stands before the first of `separators`, blanks around it dropped.
[[nodiscard]] constexpr std::string_view take_until(std::string_view& text,
                                                    std::string_view separators) noexcept {
  const std::size_t end = text.find_first_of(separators);
  std::string_view part = text.substr(0, end);
  text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
  while (!part.empty() && part.back() == ' ') part.remove_suffix(1);
  return part;
}

/// Removes a number like 20 or 2.5 from the front of `text`; false when it does not start with one.
///
/// Not by std::from_chars, which one of the standard libraries has for whole numbers only. Fifteen
/// digits are read as they stand; nobody marks a plate with more.
[[nodiscard]] constexpr bool take_number(std::string_view& text, double& value) noexcept {
  constexpr double most = 9e14;  // ten times as much is still a whole number to the last digit
  const bool is_negative = text.substr(0, 1) == "-";
  std::size_t at = is_negative ? 1 : 0;
  double digits = 0.0;
  double scale = 1.0;
  bool has_digit = false;
  bool has_point = false;
  for (; at < text.size(); ++at) {
    if (text[at] == '.' && !has_point) {
      has_point = true;
      continue;
    }
    if (text[at] < '0' || text[at] > '9') break;
    has_digit = true;
    if (digits < most) {
      digits = 10.0 * digits + (text[at] - '0');
      if (has_point) scale *= 10.0;
    } else if (!has_point) {
      digits *= 10.0;
    }
  }
  if (!has_digit) return false;
  value = (is_negative ? -digits : digits) / scale;
  text.remove_prefix(at);
  return true;
}

}  // namespace detail

/// The number that `text` is, all of it: "102.5", "-1", ".5".
[[nodiscard]] constexpr std::optional<double> parse_number(std::string_view text) noexcept {
  constexpr std::size_t longest = 200;
  double value = 0.0;
  if (text.size() > longest || !detail::take_number(text, value) || !text.empty()) {
    return std::nullopt;
  }
  return value;
}

/// The whole number that `text` is, all of it, up to a billion either way.
[[nodiscard]] constexpr std::optional<int> parse_whole_number(std::string_view text) noexcept {
  const std::optional<double> value = parse_number(text);
  if (!value || !(*value >= -1e9 && *value <= 1e9)) return std::nullopt;
  const int whole = static_cast<int>(*value);
  if (static_cast<double>(whole) != *value) return std::nullopt;
  return whole;
}

/// kg, kgs, lb or lbs, in whatever case.
[[nodiscard]] constexpr std::optional<Unit> parse_unit(std::string_view text) noexcept {
  if (text.size() == 3 && detail::lower_case(text[2]) == 's') text.remove_suffix(1);
  if (text.size() != 2) return std::nullopt;
  for (const Unit unit : {Unit::kg, Unit::lb}) {
    const std::string_view name = to_text(unit);
    if (detail::lower_case(text[0]) == name[0] && detail::lower_case(text[1]) == name[1])
      return unit;
  }
  return std::nullopt;
}

}  // namespace barwright::inline BARWRIGHT_ABI
