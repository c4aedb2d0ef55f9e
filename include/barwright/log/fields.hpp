// barwright/log/fields.hpp - a field of a table, turned into a value or into what is wrong with it
//
// What stands in a file was typed by somebody: bad fields are normal, so nothing is thrown here.
// Each function gives the value, or a sentence that says what is allowed, for the person who typed
// it; the sentences are those of the value types.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/names.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/text.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A value, or what is wrong with the text it was to be read from.
template <class T>
struct Parsed {
  std::optional<T> value{};
  std::string problem{};  ///< empty where there is a value
};

namespace detail {

template <class T>
[[nodiscard]] Parsed<T> unreadable(std::string_view problem) {
  return {.value = std::nullopt, .problem = std::string(problem)};
}
/// "<rule>; got <value>", as the value types say it.
template <class T>
[[nodiscard]] Parsed<T> unreadable(std::string_view rule, double got) {
  return unreadable<T>(std::string(rule).append("; got ").append(Text{}.append(got).str()));
}

}  // namespace detail

/// Text of one field, as a value. See the top of log/fields.hpp.
namespace fields {

/// No name and no number is longer; longer text is not looked at.
inline constexpr std::size_t longest_name = 200;

// ---- names as people type them

/// Lower case, single spaces, without what parts words: two names that are alike, are one. Of a
/// text longer than a name its beginning.
[[nodiscard]] inline std::string plain(std::string_view text) {
  return detail::normalised(text.substr(0, longest_name)).str();
}

/// The letters by which two names differ, capitals and spaces aside.
[[nodiscard]] inline std::size_t distance(std::string_view a, std::string_view b) {
  return detail::edit_distance(plain(a), plain(b));
}

/// "bench press, squat or deadlift"
template <class Names>
[[nodiscard]] std::string one_of(const Names& names) {
  std::string text;
  std::size_t left = names.size();
  for (const auto& name : names) {
    text += name;
    --left;
    if (left > 0) text += left == 1 ? " or " : ", ";
  }
  return text;
}

/// At most `count` of `names`, the nearest to `text` first.
[[nodiscard]] std::vector<std::string> nearest(std::string_view text,
                                               std::vector<std::string> names,
                                               std::size_t count = 3);

/// `text` without the spaces and line breaks around it.
[[nodiscard]] constexpr std::string_view trimmed(std::string_view text) noexcept {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

// ---- values

/// A day as year-month-day.
[[nodiscard]] inline Parsed<Date> to_date(std::string_view text) {
  if (const auto date = parse_date(text)) return {.value = date, .problem = {}};
  return detail::unreadable<Date>(
      "a date must be a day that exists, as year-month-day: 2026-11-25");
}

/// kg, kgs, lb or lbs.
[[nodiscard]] inline Parsed<Unit> to_unit(std::string_view text) {
  if (const auto unit = parse_unit(trimmed(text))) return {.value = unit, .problem = {}};
  return detail::unreadable<Unit>("a unit must be kg or lb");
}

/// A load in `unit`, with a point for its fraction.
[[nodiscard]] Parsed<Mass> to_load(std::string_view text, Unit unit);

/// Reps, 1 to 100.
[[nodiscard]] Parsed<Reps> to_reps(std::string_view text);

/// Sets of one lift in one session, 1 to 50.
[[nodiscard]] Parsed<Sets> to_sets(std::string_view text);

/// What is left in reserve: "2", "2.5" or "2-3".
[[nodiscard]] Parsed<Range<RepsInReserve>> to_reserve(std::string_view text);

/// A rating of perceived exertion, 1 to 10.
[[nodiscard]] Parsed<Rpe> to_rpe(std::string_view text);

/// Completed, missed, or nothing for completed.
[[nodiscard]] Parsed<Outcome> to_outcome(std::string_view text);

}  // namespace fields
}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/fields.ipp"
#endif
