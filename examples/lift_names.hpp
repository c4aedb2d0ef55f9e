// examples/lift_names.hpp - a lift and what is changed about it, named in one breath
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/lifts/catalogue.hpp"

namespace lift_names {

namespace bw = barwright;

/// `lift` with the modifiers that `words` name one after the other; nothing when they name others.
inline std::optional<bw::Lift> with_changes(const bw::Lift& lift, std::string_view words) {
  for (std::size_t end = words.size(); end != words.npos && end > 0;
       end = words.rfind(' ', end - 1)) {
    const bw::Modifier* modifier = bw::catalogue::find_modifier(words.substr(0, end), lift.base());
    if (modifier == nullptr || !lift.accepts(*modifier)) continue;
    if (end == words.size()) return lift + *modifier;
    if (const auto all = with_changes(lift + *modifier, words.substr(end + 1))) return all;
  }
  return std::nullopt;
}

/// The variation that "close grip bench press" or "bench press close grip" is; nothing for the name
/// of a lift or a modifier alone, and for what names none.
inline std::optional<bw::Lift> in_one(std::string_view text) {
  if (bw::catalogue::find_lift(text) != nullptr || bw::catalogue::find_lift_with(text)) {
    return std::nullopt;
  }
  const bw::Text plain = bw::detail::normalised(text);
  const std::string_view words = plain.view();
  for (std::size_t gap = words.find(' '); gap != words.npos; gap = words.find(' ', gap + 1)) {
    const std::string_view before = words.substr(0, gap);
    const std::string_view after = words.substr(gap + 1);
    for (const auto& [name, changes] : {std::pair(after, before), std::pair(before, after)}) {
      const bw::BaseLift* const base = bw::catalogue::find_lift(name);
      if (base == nullptr) continue;
      if (const auto lift = with_changes(*base, changes)) return lift;
    }
  }
  return std::nullopt;
}

/// What to say of "--lift bench press", of which the second word is taken for the name of a log.
inline std::string missing_quotes(const std::string& lift, const std::string& log) {
  const std::string both = lift + " " + log;
  if (bw::catalogue::find_lift(both) == nullptr) return "";
  return ". A name of two words stands in quotes: --lift \"" + both + "\"";
}

}  // namespace lift_names
