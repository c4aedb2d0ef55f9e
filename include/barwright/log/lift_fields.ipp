// barwright/log/lift_fields.ipp - the bodies of lift_fields.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/names.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline std::optional<Lift> with_changes(const Lift& lift, std::string_view words) {
  for (std::size_t end = words.size(); end != words.npos && end > 0;
       end = words.rfind(' ', end - 1)) {
    const Modifier* modifier = catalogue::find_modifier(words.substr(0, end), lift.base());
    if (modifier == nullptr || !lift.accepts(*modifier)) continue;
    if (end == words.size()) return lift + *modifier;
    if (const auto all = with_changes(lift + *modifier, words.substr(end + 1))) return all;
  }
  return std::nullopt;
}

}  // namespace detail

namespace fields {

inline std::optional<Lift> lift_in_one_breath(std::string_view text) {
  if (text.size() > longest_name) return std::nullopt;
  if (catalogue::find_lift(text) != nullptr || catalogue::find_lift_with(text)) {
    return std::nullopt;
  }
  const Text plain = detail::normalised(text);
  const std::string_view words = plain.view();
  for (std::size_t gap = words.find(' '); gap != words.npos; gap = words.find(' ', gap + 1)) {
    const std::string_view before = words.substr(0, gap);
    const std::string_view after = words.substr(gap + 1);
    for (const auto& [name, changes] : {std::pair(after, before), std::pair(before, after)}) {
      const BaseLift* const base = catalogue::find_lift(name);
      if (base == nullptr) continue;
      if (const auto lift = detail::with_changes(*base, changes)) return lift;
    }
  }
  return std::nullopt;
}

inline bool may_mean(std::string_view text, const BaseLift& lift) {
  const std::size_t letters = plain(text).size();
  if (letters >= 3 && plain(lift.name).find(plain(text)) != std::string::npos) return true;
  const std::size_t most = std::max<std::size_t>(letters / 3, letters < 4 ? 1 : 2);
  return distance(text, lift.name) <= most ||
         std::any_of(lift.aliases.begin(), lift.aliases.end(),
                     [&](std::string_view alias) { return distance(text, alias) <= most; });
}

inline std::vector<std::string_view> near_lift_names(std::string_view text) {
  std::vector<std::string_view> near;
  if (text.size() > longest_name) return near;
  const Text lift_alone = detail::without_change(text);
  for (const std::string_view name : catalogue::nearest_lift_names(text, 8)) {
    if (near.size() == 4) break;
    const BaseLift* lift = catalogue::find_lift(name);
    if (lift != nullptr && may_mean(lift_alone.view(), *lift)) near.push_back(name);
  }
  return near;
}

inline std::vector<std::string_view> names_of_modifiers(const BaseLift& base) {
  std::vector<std::string_view> names;
  for (const Modifier& modifier : catalogue::modifiers()) {
    if (modifier.applies_to(base)) names.push_back(modifier.name());
  }
  return names;
}

inline std::string names_of_changes(const Lift& lift, std::string_view between) {
  std::string names;
  for (const Modifier& modifier : lift.modifiers()) {
    if (!names.empty()) names += between;
    names += modifier.name();
  }
  return names;
}

inline std::vector<std::string_view> names_in(std::string_view text) {
  std::vector<std::string_view> names;
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find_first_of(";+,", start), text.size());
    const std::string_view name = trimmed(text.substr(start, end - start));
    if (!name.empty()) names.push_back(name);
    start = end + 1;
  }
  return names;
}

}  // namespace fields

namespace detail {

inline std::string why_not_accepted(const Lift& lift, const Modifier& modifier) {
  for (const Modifier& own : lift.modifiers()) {
    if (own.same_as(modifier)) {
      return "a modifier must be added once; got " + std::string(modifier.name());
    }
    if (own.excludes(modifier)) {
      return "a modifier must be one that can go together with " + std::string(own.name()) +
             "; got " + std::string(modifier.name());
    }
  }
  return "the modifiers of a lift must be at most " + std::to_string(Lift::most_modifiers);
}

inline std::string unknown_modifier(const BaseLift& base, std::string_view name) {
  constexpr std::size_t few = 6;
  std::string text = "unknown change to the " + std::string(base.name) + ": \"" +
                     std::string(name.substr(0, fields::longest_name)) + "\"; ";
  const auto all = fields::names_of_modifiers(base);
  if (all.empty()) return text + "no changes to it are known";
  const bool is_of_others = catalogue::find_lift_with(name).has_value();
  if (is_of_others || all.size() <= few) return text + "known: " + fields::one_of(all);
  return text + "nearest: " + fields::one_of(catalogue::nearest_modifier_names(name, base));
}

}  // namespace detail

namespace fields {

inline Parsed<Lift> to_lift(const BaseLift& base, std::string_view text, Handles<Modifier> own) {
  const auto find = [&](std::string_view name) {
    const Modifier* const found = catalogue::find_modifier(name, base);
    const auto applies = [&](const Modifier& modifier) { return modifier.applies_to(base); };
    return found != nullptr ? found : detail::find_called(name, own, applies);
  };
  Lift lift = base;
  std::vector<std::string_view> names;
  if (find(text) != nullptr) {
    names.push_back(text);  // a name may hold a comma
  } else {
    names = names_in(text);
  }
  for (const std::string_view name : names) {
    const Modifier* modifier = find(name);
    // "squat, low bar": what is only another name of the lift changes nothing.
    if (modifier == nullptr && catalogue::find_lift(name) == &base) continue;
    if (modifier == nullptr) return detail::unreadable<Lift>(detail::unknown_modifier(base, name));
    if (!lift.accepts(*modifier)) {
      return detail::unreadable<Lift>(detail::why_not_accepted(lift, *modifier));
    }
    lift = lift + *modifier;
  }
  return {.value = lift, .problem = {}};
}

inline std::optional<Lift> own_lift(std::string_view text, Handles<Modifier> own) {
  const auto any = [](const Modifier&) { return true; };
  const Modifier* const found = detail::find_called(text, own, any);
  if (found == nullptr || found->lifts().empty()) return std::nullopt;
  const BaseLift* const base = catalogue::find_lift(found->lifts().front());
  return base == nullptr ? std::nullopt : std::optional<Lift>(*base + *found);
}

inline std::optional<Lift> whole_variation(std::string_view text) {
  const std::size_t end = text.find_first_of(";+,");
  if (end == std::string_view::npos) return lift_in_one_breath(text);
  const BaseLift* base = catalogue::find_lift(trimmed(text.substr(0, end)));
  if (base == nullptr) return std::nullopt;
  const auto lift = to_lift(*base, trimmed(text.substr(end + 1)));
  return lift.value && !lift.value->is_plain() ? lift.value : std::nullopt;
}

inline Parsed<const BaseLift*> to_base_lift(std::string_view text) {
  if (const BaseLift* lift = catalogue::find_lift(text)) return {.value = lift, .problem = {}};
  if (const auto lift = whole_variation(text)) {
    std::string problem = "a lift must be one name, with its changes among the modifiers";
    problem.append("; lift,modifiers: ").append(lift->base().name).append(",");
    return detail::unreadable<const BaseLift*>(problem + names_of_changes(*lift, "; "));
  }
  if (const auto names = names_in(text); names.size() > 1) {
    std::string problem = "a lift must be one name; got ";
    return detail::unreadable<const BaseLift*>(problem + std::to_string(names.size()));
  }
  std::string problem = "unknown lift";
  if (const auto lift = catalogue::find_lift_with(text)) {
    const std::string change = names_of_changes(*lift, "; ");
    problem += "; \"" + change + "\" changes a lift and belongs among the modifiers";
    problem.append("; lift,modifiers: ").append(lift->base().name).append(",").append(change);
    return detail::unreadable<const BaseLift*>(problem);
  }
  if (const auto near = near_lift_names(text); !near.empty()) {
    return detail::unreadable<const BaseLift*>(problem + "; nearest: " + one_of(near));
  }
  std::vector<std::string_view> all;
  for (const BaseLift& lift : catalogue::lifts()) all.push_back(lift.name);
  return detail::unreadable<const BaseLift*>(
      problem + ", and none has a similar name; known: " + one_of(all));
}

}  // namespace fields

}  // namespace barwright::inline BARWRIGHT_ABI
