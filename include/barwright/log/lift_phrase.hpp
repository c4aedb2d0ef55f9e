// barwright/log/lift_phrase.hpp - a lift and what changes it, as they are said in one breath
//
// "paused bench press", "sumo deadlifts", "DB bench press", "front squat": people keep one column
// for both. Words are put as the catalogue has them (no plural, DB for dumbbells, no "barbell"
// where the lift has one anyway), and what is then a base lift with changes of its own, and nothing
// else, is meant. "Paused" alone is no lift: a change counts where it has the lift's word in it.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Words as people shorten them, and as the catalogue has them; empty: said for nothing.
inline constexpr std::array<std::pair<std::string_view, std::string_view>, 14> lift_words{
    {{"db", "dumbbells"},
     {"dbs", "dumbbells"},
     {"dumbbell", "dumbbells"},
     {"dumbell", "dumbbells"},
     {"dumbells", "dumbbells"},
     {"bb", ""},
     {"barbell", ""},
     {"pause", "paused"},
     {"hex", "hexagonal"},
     {"benchpress", "bench press"},
     {"presses", "press"},
     {"cg", "close grip"},
     {"wg", "wide grip"},
     {"the", ""}}};

/// "squats" as "squat": the plurals of the trade's words.
[[nodiscard]] inline std::string_view singular(std::string_view word) noexcept {
  for (const std::string_view plural : {"squats", "deadlifts", "rows", "dips", "curls", "pulls",
                                        "ups", "rdls", "pullups", "chinups", "pushups"}) {
    if (word == plural) return word.substr(0, word.size() - 1);
  }
  return word;
}

/// The words of `text` as the catalogue has them, with single blanks between.
[[nodiscard]] inline std::string in_catalogue_words(std::string_view text) {
  std::string plain = fields::plain(text);
  for (char& c : plain) {
    if (c == '(' || c == ')' || c == '[' || c == ']') c = ' ';
  }
  plain = fields::plain(plain);
  std::string words;
  for (std::size_t start = 0; start < plain.size();) {
    const std::size_t end = std::min(plain.find(' ', start), plain.size());
    std::string_view word = singular(std::string_view(plain).substr(start, end - start));
    for (const auto& [typed, meant] : lift_words) {
      if (word == typed) word = meant;
    }
    if (!word.empty()) words.append(words.empty() ? "" : " ").append(word);
    start = end + 1;
  }
  return words;
}

/// "front squat": a change to the squat, with the lift's own word in its name.
[[nodiscard]] inline std::optional<Lift> lift_in_change(std::string_view change) {
  for (const BaseLift& base : catalogue::lifts()) {
    const Modifier* const modifier = catalogue::find_modifier(change, base);
    if (modifier == nullptr) continue;
    const std::string plain = fields::plain(change);
    const std::string last = plain.substr(plain.rfind(' ') + 1);
    const bool names_lift = base.name.ends_with(last) || catalogue::find_lift(last) == &base;
    if (names_lift) return base + *modifier;
  }
  return std::nullopt;
}

/// A base lift by itself, or with changes in any of the ways that need no other words.
[[nodiscard]] inline std::optional<Lift> lift_said_whole(std::string_view text) {
  if (const BaseLift* const base = catalogue::find_lift(text)) return Lift(*base);
  if (const auto lift = lift_in_change(text)) return lift;
  return fields::whole_variation(text);
}

}  // namespace detail

namespace fields {

/// The lift that is said in one breath; nothing where none is, or it could be two.
[[nodiscard]] inline std::optional<Lift> lift_phrase(std::string_view text) {
  if (text.size() > longest_name) return std::nullopt;
  if (const auto lift = detail::lift_said_whole(text)) return lift;
  const std::string words = detail::in_catalogue_words(text);
  if (words.empty()) return std::nullopt;
  if (const auto lift = detail::lift_said_whole(words)) return lift;
  // "paused front squat": the last words name a change and its lift, those before more changes.
  for (std::size_t gap = words.find(' '); gap != std::string::npos;
       gap = words.find(' ', gap + 1)) {
    const auto lift = detail::lift_in_change(std::string_view(words).substr(gap + 1));
    if (!lift) continue;
    if (const auto all = detail::with_changes(*lift, std::string_view(words).substr(0, gap))) {
      return all;
    }
  }
  return std::nullopt;
}

}  // namespace fields
}  // namespace barwright::inline BARWRIGHT_ABI
