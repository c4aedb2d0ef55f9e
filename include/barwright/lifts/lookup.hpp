// barwright/lifts/lookup.hpp - lifts and modifiers by the names that people type, and the nearest
// to a misspelt one
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "barwright/core/names.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

// Base lifts keep their texts in members, modifiers behind functions.
[[nodiscard]] constexpr std::string_view key_of(const BaseLift& lift) noexcept { return lift.key; }
[[nodiscard]] constexpr std::string_view key_of(const Modifier& m) noexcept { return m.key(); }
[[nodiscard]] constexpr std::string_view name_of(const BaseLift& lift) noexcept {
  return lift.name;
}
[[nodiscard]] constexpr std::string_view name_of(const Modifier& m) noexcept { return m.name(); }
[[nodiscard]] constexpr std::span<const std::string_view> aliases_of(const BaseLift& l) noexcept {
  return l.aliases;
}
[[nodiscard]] constexpr std::span<const std::string_view> aliases_of(const Modifier& m) noexcept {
  return m.aliases();
}

/// How far `text`, normalised, is from the nearest of an item's key, name and aliases: wrong
/// letters in a thousand, so that a short name is not near to everything.
template <class Item>
[[nodiscard]] constexpr std::size_t distance_to(std::string_view text, const Item& item) noexcept {
  std::size_t least = 1000;
  const auto consider = [&](std::string_view other) noexcept {
    const Text plain = normalised(other);
    const std::size_t longer =
        text.size() > plain.view().size() ? text.size() : plain.view().size();
    const std::size_t distance = longer == 0 ? 0 : 1000 * edit_distance(text, plain) / longer;
    if (distance < least) least = distance;
  };
  consider(name_of(item));
  consider(key_of(item));
  for (const std::string_view alias : aliases_of(item)) consider(alias);
  return least;
}

template <class Item>
[[nodiscard]] constexpr bool is_called(std::string_view text, const Item& item) noexcept {
  if (same_letters(text, key_of(item)) || same_letters(text, name_of(item))) return true;
  for (const std::string_view alias : aliases_of(item)) {
    if (same_letters(text, alias)) return true;
  }
  return false;
}

/// The name without the ending of a plural, "presses" and "rows"; nothing where it has none.
[[nodiscard]] constexpr std::string_view singular_of(std::string_view text) noexcept {
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) {
    text.remove_suffix(1);
  }
  const auto last = [&](std::size_t n) noexcept {
    return text.size() > n ? lower_case(text[text.size() - 1 - n]) : ' ';
  };
  if (last(0) != 's' || last(1) == 's') return {};
  const bool is_es = last(1) == 'e' && last(2) == 's' && last(3) == 's';
  return text.substr(0, text.size() - (is_es ? 2 : 1));
}

/// The first item that is called so; the plural of a name will do where no item has that very name.
template <class Item, class Filter>
[[nodiscard]] constexpr const Item* find_called(std::string_view text, Handles<Item> items,
                                                Filter filter) noexcept {
  for (const std::string_view name : {text, singular_of(text)}) {
    for (const Item& item : items) {
      if (filter(item) && is_called(name, item)) return &item;
    }
  }
  return nullptr;
}

}  // namespace detail

namespace catalogue {

/// The base lift with this key, name or alias, whatever its case, spaces, hyphens and underscores,
/// one or many: "Bench-Press", "benchpress", "bench presses" and "bench" are one. Null when there
/// is none.
[[nodiscard]] constexpr const BaseLift* find_lift(std::string_view text) noexcept {
  return detail::find_called(text, lifts(), [](const BaseLift&) { return true; });
}

/// The modifier with this key, name or alias that applies to `base`; null when there is none. Lifts
/// have modifiers of the same name with figures of their own: dumbbells.
[[nodiscard]] constexpr const Modifier* find_modifier(std::string_view text,
                                                      const BaseLift& base) noexcept {
  return detail::find_called(text, modifiers(),
                             [&](const Modifier& modifier) { return modifier.applies_to(base); });
}

/// For a change named without its lift: the first base lift that has a modifier of this name, with
/// it; nothing when no lift has one.
[[nodiscard]] constexpr std::optional<Lift> find_lift_with(std::string_view modifier) noexcept {
  for (const BaseLift& base : lifts()) {
    if (const Modifier* found = find_modifier(modifier, base)) return base + *found;
  }
  return std::nullopt;
}

}  // namespace catalogue

namespace detail {

template <class Item, class Filter>
[[nodiscard]] constexpr NameList nearest(std::string_view text, Handles<Item> items,
                                         std::size_t count, Filter filter) {
  const Text plain = normalised(text);
  NameList names;
  std::array<std::size_t, NameList::capacity()> distances{};
  if (count > names.capacity()) count = names.capacity();
  for (const Item& item : items) {
    if (!filter(item)) continue;
    const std::size_t distance = distance_to(plain, item);
    std::size_t place = names.size();
    while (place > 0 && distance < distances[place - 1]) --place;
    if (place == count) continue;
    if (names.size() == count) names.drop_last();
    for (std::size_t i = names.size(); i > place; --i) distances[i] = distances[i - 1];
    distances[place] = distance;
    names.insert(place, name_of(item));
  }
  return names;
}

/// How far a text is from the nearest lift, as `distance_to` has it.
[[nodiscard]] constexpr std::size_t distance_to_lifts(std::string_view plain) noexcept {
  std::size_t least = 1000;
  for (const BaseLift& lift : catalogue::lifts()) {
    const std::size_t distance = distance_to(plain, lift);
    if (distance < least) least = distance;
  }
  return least;
}

/// What is left of "paused bech press" and "bench pres close grip" without the change, one word or
/// two; the whole text, normalised, where that is no farther from a lift.
[[nodiscard]] constexpr Text without_change(std::string_view text) {
  Text best = normalised(text);
  const Text plain = best;
  const std::string_view words = plain.view();
  std::size_t least = distance_to_lifts(words);
  const auto consider = [&](std::string_view change, std::string_view rest) {
    const auto any = [](const Modifier&) { return true; };
    if (find_called(change, catalogue::modifiers(), any) == nullptr) return;
    const std::size_t distance = distance_to_lifts(rest);
    if (distance >= least) return;
    least = distance;
    best = Text{}.append(rest);
  };
  std::size_t front = 0;
  std::size_t back = words.size();
  for (int count = 0; count < 2; ++count) {
    front = words.find(' ', front == 0 ? 0 : front + 1);
    back = back == 0 ? words.npos : words.rfind(' ', back - 1);
    if (front == words.npos || back == words.npos) break;
    consider(words.substr(0, front), words.substr(front + 1));
    consider(words.substr(back + 1), words.substr(0, back));
  }
  return best;
}

}  // namespace detail

namespace catalogue {

/// The base lifts whose names are nearest to a misspelt one, nearest first; at most 8. A change may
/// be said with it: "paused bech press".
[[nodiscard]] constexpr NameList nearest_lift_names(std::string_view text, std::size_t count = 3) {
  const Text lift = detail::without_change(text);
  return detail::nearest(lift.view(), lifts(), count, [](const BaseLift&) { return true; });
}

/// The modifiers of `base` whose names are nearest to a misspelt one, nearest first; at most 8.
[[nodiscard]] constexpr NameList nearest_modifier_names(std::string_view text, const BaseLift& base,
                                                        std::size_t count = 3) {
  return detail::nearest(text, modifiers(), count,
                         [&](const Modifier& modifier) { return modifier.applies_to(base); });
}

}  // namespace catalogue

}  // namespace barwright::inline BARWRIGHT_ABI
