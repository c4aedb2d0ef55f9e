// barwright/log/lift_phrase.ipp - the bodies of lift_phrase.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/lift_phrase.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline std::string_view singular(std::string_view word) noexcept {
  for (const std::string_view plural : {"squats", "deadlifts", "rows", "dips", "curls", "pulls",
                                        "ups", "rdls", "pullups", "chinups", "pushups"}) {
    if (word == plural) return word.substr(0, word.size() - 1);
  }
  return word;
}

inline std::string in_catalogue_words(std::string_view text) {
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

inline std::optional<Lift> lift_in_change(std::string_view change) {
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

}  // namespace detail

namespace fields {

inline std::optional<Lift> lift_phrase(std::string_view text) {
  if (text.size() > longest_name) return std::nullopt;
  if (const auto lift = detail::lift_said_whole(text)) return lift;
  std::string words = detail::in_catalogue_words(text);
  for (const auto& [change, lift] : detail::lifts_by_change) {
    if (words == change) words = lift;
  }
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
