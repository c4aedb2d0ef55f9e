// examples/embed/by_name.hpp - lifts and equations by the names they have in other languages
//
// The library's lifts and equations are values of their own types. A caller from another language
// has only text, and what is not known comes back as a DomainError that says what is.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>

#include "barwright/curves/equations.hpp"
#include "barwright/lifts/catalogue.hpp"

namespace by_name {

namespace bw = barwright;

/// The part of `text` before the first comma, blanks around it dropped; `text` becomes the rest.
inline std::string_view take_part(std::string_view& text) {
  const std::size_t end = text.find(',');
  std::string_view part = text.substr(0, end);
  text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
  while (!part.empty() && part.back() == ' ') part.remove_suffix(1);
  return part;
}

/// Raises "<what> must be one that is known, such as A, B or C; got <text>".
[[noreturn]] inline void fail(std::string_view what, const bw::NameList& nearest,
                              std::string_view text) {
  bw::Text message;
  message.append(what).append(" must be one that is known, such as ");
  for (std::size_t i = 0; i < nearest.size(); ++i) {
    message.append(i == 0 ? "" : i + 1 == nearest.size() ? " or " : ", ").append(nearest[i]);
  }
  throw bw::DomainError(message.append("; got ").append(text));
}

/// The lift of a name as `Lift::name` prints it: "bench press, feet up, flat back".
inline bw::Lift lift(std::string_view text) {
  const std::string_view base_name = take_part(text);
  const bw::BaseLift* base = bw::catalogue::find_lift(base_name);
  if (base == nullptr) fail("a lift", bw::catalogue::nearest_lift_names(base_name), base_name);
  bw::Lift lift = *base;
  while (!text.empty()) {
    const std::string_view name = take_part(text);
    const bw::Modifier* modifier = bw::catalogue::find_modifier(name, *base);
    if (modifier == nullptr) {
      bw::Text what;
      what.append("a modifier of the ").append(base->name);
      fail(what, bw::catalogue::nearest_modifier_names(name, *base), name);
    }
    lift = lift + *modifier;
  }
  return lift;
}

/// What `use` makes of the published equation with that name in its facts: "Wathen".
template <class Use>
auto with_equation(std::string_view name, Use use) {
  std::optional<decltype(use(bw::equations::wathen))> result;
  bw::NameList some;
  bw::equations::for_each([&](const auto& equation) {
    if (some.size() < some.capacity()) some.append(equation.facts.name);
    if (equation.facts.name == name) result.emplace(use(equation));
  });
  if (!result) fail("an equation", some, name);
  return *std::move(result);
}

}  // namespace by_name
