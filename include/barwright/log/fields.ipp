// barwright/log/fields.ipp - the bodies of fields.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/text.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace fields {

inline std::vector<std::string> nearest(std::string_view text, std::vector<std::string> names,
                                        std::size_t count) {
  std::vector<std::pair<std::size_t, std::size_t>> order;  // distance, place
  for (std::size_t i = 0; i < names.size(); ++i) order.emplace_back(distance(text, names[i]), i);
  std::sort(order.begin(), order.end());
  if (order.size() > count) order.resize(count);
  std::vector<std::string> first;
  first.reserve(order.size());
  for (const auto& [letters, place] : order) first.push_back(std::move(names[place]));
  return first;
}

inline Parsed<Mass> to_load(std::string_view text, Unit unit) {
  const auto value = parse_number(text);
  if (!value) {
    const std::size_t comma = text.find(',');
    if (comma == std::string_view::npos) {
      return detail::unreadable<Mass>("a load must be a number, without its unit: 62.5");
    }
    std::string whole(text);
    whole.erase(comma, 1);
    if (text.size() - comma == 4 && parse_number(whole)) {
      std::string part(text.substr(0, 15));
      part[comma] = '.';
      const Text both =
          Text{}.append(*parse_number(part)).append(" or ").append(*parse_number(whole));
      return detail::unreadable<Mass>("a comma before three figures may mean " + both.str() +
                                      "; write it with a point, or without");
    }
    return detail::unreadable<Mass>("a load must be a number with a point for its fraction: 62.5");
  }
  if (!(*value >= 0.0 && *value <= Mass::largest_kg)) {
    return detail::unreadable<Mass>(unit == Unit::kg
                                        ? "a load must be a number of kilograms from 0 to 1000000"
                                        : "a load must be a number of pounds from 0 to 1000000",
                                    *value);
  }
  return {.value = Mass::from(*value, unit), .problem = {}};
}

inline Parsed<Reps> to_reps(std::string_view text) {
  constexpr std::string_view rule = "reps must be a whole number from 1 to 100";
  const auto count = parse_whole_number(text);
  if (!count) return detail::unreadable<Reps>(rule);
  if (!Reps::is_valid(*count)) return detail::unreadable<Reps>(rule, *count);
  return {.value = Reps(*count), .problem = {}};
}

inline Parsed<Sets> to_sets(std::string_view text) {
  constexpr std::string_view rule = "sets must be a whole number from 1 to 50";
  const auto count = parse_whole_number(text);
  if (!count) return detail::unreadable<Sets>(rule);
  if (!Sets::is_valid(*count)) return detail::unreadable<Sets>(rule, *count);
  return {.value = Sets(*count), .problem = {}};
}

inline Parsed<Range<RepsInReserve>> to_reserve(std::string_view text) {
  using Reserve = Range<RepsInReserve>;
  constexpr std::string_view en_dash = "\xE2\x80\x93";
  std::size_t dash = text.find('-', 1);
  std::size_t after = dash + 1;
  if (const std::size_t at = text.find(en_dash); at != std::string_view::npos) {
    dash = at;
    after = at + en_dash.size();
  }
  const bool is_range = dash != std::string_view::npos;
  const auto low = parse_number(trimmed(is_range ? text.substr(0, dash) : text));
  const auto high = is_range ? parse_number(trimmed(text.substr(after))) : low;
  if (!low || !high || *low > *high) {
    return detail::unreadable<Reserve>(
        "reps in reserve must be a number from 0 to 30 in steps of 0.5, or two such numbers "
        "as in 2-3");
  }
  for (const double end : {*low, *high}) {
    if (!RepsInReserve::is_valid(end)) {
      return detail::unreadable<Reserve>(
          "reps in reserve must be a number from 0 to 30 in steps of 0.5", end);
    }
  }
  const double middle = std::floor(*low + *high) / 2.0;  // on a half
  return {.value = Reserve(RepsInReserve(*low), RepsInReserve(middle), RepsInReserve(*high)),
          .problem = {}};
}

inline Parsed<Rpe> to_rpe(std::string_view text) {
  constexpr std::string_view rule =
      "a rating of perceived exertion must be a number from 1 to 10 in steps of 0.5";
  const auto rating = parse_number(text);
  if (!rating) return detail::unreadable<Rpe>(rule);
  if (!Rpe::is_valid(*rating)) return detail::unreadable<Rpe>(rule, *rating);
  return {.value = Rpe(*rating), .problem = {}};
}

inline Parsed<Outcome> to_outcome(std::string_view text) {
  const std::string outcome = plain(text);
  if (outcome.empty() || outcome == "completed") {
    return {.value = Outcome::completed, .problem = {}};
  }
  if (outcome == "missed") return {.value = Outcome::missed, .problem = {}};
  return detail::unreadable<Outcome>("an outcome must be completed, missed or nothing");
}

}  // namespace fields

}  // namespace barwright::inline BARWRIGHT_ABI
