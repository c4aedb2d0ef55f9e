// barwright/lifts/list.hpp - all lifts and what can be changed about them, searched by words
//
//     for (const ListedLift& each : catalogue::list("press")) std::cout << to_line(each) << '\n';
//
// A word is looked for in all that a lift or a change goes by, in its family and in the muscles it
// works directly, whatever its case and hyphens.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/core/names.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/describe.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One line of the list: a base lift, or one change of it.
struct ListedLift {
  const BaseLift* lift = nullptr;    ///< never null in a list
  const Modifier* change = nullptr;  ///< null for the lift without any change
};

namespace detail {

/// Before each name, so that the end of one and the beginning of the next are not read together.
inline constexpr std::string_view before_name = "\n ";

/// All that `item` goes by, in lower case.
template <class Item>
[[nodiscard]] inline std::string names_of(const Item& item) {
  std::string names;
  const auto add = [&](std::string_view name) {
    const Text plain = normalised(name);
    names.append(before_name).append(plain.view());
  };
  add(name_of(item));
  for (const std::string_view alias : aliases_of(item)) add(alias);
  return names;
}

/// All that a base lift is found by.
[[nodiscard]] inline std::string words_of(const BaseLift& lift) {
  std::string words = names_of(lift);
  const Text family = normalised(to_text(lift.family));
  words.append(before_name).append(family.view());
  if (lift.is_machine) words += "\n machine";
  if (lift.is_bodyweight) words += "\n bodyweight";
  if (lift.dumbbells > 0) words += "\n dumbbells";
  for (const MuscleGroup group : all_muscle_groups) {
    if (lift.muscles[group] == Involvement::direct)
      words.append(before_name).append(to_text(group));
  }
  return words;
}

/// Whether a word of `text`, each of which a space precedes, begins as `words` or its singular do.
[[nodiscard]] inline bool has_phrase(std::string_view text, std::string_view words) {
  const auto begins = [&](std::string_view with) {
    return !with.empty() && text.find(" " + std::string(with)) != text.npos;
  };
  return words.empty() || begins(words) || begins(singular_of(words));
}
[[nodiscard]] inline bool has_each_word(std::string_view text, std::string_view words) {
  for (std::size_t start = 0; start < words.size();) {
    const std::size_t end = std::min(words.find(' ', start), words.size());
    if (!has_phrase(text, words.substr(start, end - start))) return false;
    start = end + 1;
  }
  return true;
}

}  // namespace detail

namespace catalogue {

/// The lifts and changes that have these words together, "pull-up"; where there is none, those that
/// have all of them, "bench dumbbell"; all lifts and changes where no word is given. Each lift
/// stands before its changes, and a change is found by the words of its lift too.
[[nodiscard]] inline std::vector<ListedLift> list(std::string_view words = {}) {
  const Text plain = detail::normalised(words);
  std::vector<ListedLift> found;
  for (const auto has : {detail::has_phrase, detail::has_each_word}) {
    for (const BaseLift& lift : lifts()) {
      const std::string own = detail::words_of(lift);
      if (has(own, plain.view())) found.push_back({.lift = &lift});
      for (const Modifier& change : modifiers()) {
        if (!change.applies_to(lift)) continue;
        if (has(own + detail::names_of(change), plain.view())) {
          found.push_back({.lift = &lift, .change = &change});
        }
      }
    }
    if (!found.empty()) break;
  }
  return found;
}

}  // namespace catalogue

/// A line of the list: of a lift its family, how it is loaded, and other names; of a change what it
/// leaves of the max, and who says so.
[[nodiscard]] inline std::string to_line(const ListedLift& listed) {
  constexpr std::size_t width = 98;
  const BaseLift& lift = *listed.lift;
  Text head;
  if (listed.change != nullptr) {
    const Figure& ratio = listed.change->ratio_figure();
    head.append_left(Text{}.append("  ").append(listed.change->name()), 36)
        .append_left(detail::percent_text(ratio.value), 24)
        .append(to_text(ratio.evidence));
    return head.str();
  }
  head.append_left(lift.name, 36).append(to_text(lift.family));
  if (lift.is_machine) head.append(", machine");
  if (lift.is_bodyweight) head.append(", bodyweight");
  if (lift.dumbbells == 1) head.append(", one dumbbell");
  if (lift.dumbbells == 2) head.append(", dumbbells");
  std::string line = head.str();
  std::string_view before = "; also ";
  for (const std::string_view alias : lift.aliases) {
    if (line.size() + before.size() + alias.size() > width) break;
    line.append(before).append(alias);
    before = ", ";
  }
  return line;
}

}  // namespace barwright::inline BARWRIGHT_ABI
