// barwright/log/own_lifts.ipp - the bodies of own_lifts.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/parse.hpp"
#include "barwright/core/range.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/own_lifts.hpp"
#include "barwright/log/small_table.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline std::vector<Lift> OwnLifts::lifts() const& {
  std::vector<Lift> lifts;
  for (const Modifier& own : modifiers()) {
    lifts.push_back(*catalogue::find_lift(own.lifts().front()) + own);
  }
  return lifts;
}

namespace detail {

inline bool OwnLiftRow::read() {
  const auto to_free_name = [&](std::string_view text) { return free_name(text); };
  const auto name = take(Column::name, to_free_name);
  const auto base = take(Column::lift, fields::to_base_lift);
  const auto low = take(Column::low, to_share);
  const auto typical = take(Column::typical, to_share);
  const auto high = take(Column::high, to_share);
  const auto dumbbells = take(Column::dumbbells, to_dumbbells);
  const auto also = take(Column::also, [&](std::string_view text) { return names(text); });
  if (is_refused()) return false;
  if (!(*low <= *typical && *typical <= *high)) {
    refuse(Column::typical, "the three shares must rise: low, typical, high");
    return false;
  }
  own_.add(*name, *also, **base, Range<double>{*low, *typical, *high}, *dumbbells);
  return true;
}

inline Parsed<std::string> OwnLiftRow::free_name(std::string_view text) const {
  const bool is_text = !fields::plain(text).empty() && text.size() <= OwnLifts::longest_name &&
                       !has_control(text) && text.find_first_of(";+,") == text.npos;
  if (!is_text) {
    return unreadable<std::string>(
        "a lift's name must be 1 to 40 bytes long, without ; + , and control characters");
  }
  const bool is_known =
      catalogue::find_lift(text) != nullptr || catalogue::find_lift_with(text).has_value();
  const auto any = [](const Modifier&) { return true; };
  if (is_known || find_called(text, own_.modifiers(), any) != nullptr) {
    return unreadable<std::string>("a lift's name must be its own; there is one called so");
  }
  return {.value = std::string(text), .problem = {}};
}

inline Parsed<std::vector<std::string>> OwnLiftRow::names(std::string_view text) const {
  constexpr std::size_t most = 10;
  std::vector<std::string> all;
  for (const std::string_view each : fields::names_in(text)) {
    auto name = free_name(each);
    if (!name.value) return unreadable<std::vector<std::string>>(name.problem);
    if (all.size() == most) {
      return unreadable<std::vector<std::string>>("a lift must have at most 10 other names");
    }
    all.push_back(*std::move(name.value));
  }
  return {.value = std::move(all), .problem = {}};
}

inline Parsed<double> OwnLiftRow::to_share(std::string_view text) {
  constexpr std::string_view rule =
      "a share must be a number from 10 to 300, in per cent of the max on the base lift";
  if (!text.empty() && text.back() == '%') text = fields::trimmed(text.substr(0, text.size() - 1));
  const auto share = parse_number(text);
  if (!share) return unreadable<double>(rule);
  if (!(*share >= 10.0 && *share <= 300.0)) return unreadable<double>(rule, *share);
  return {.value = *share / 100.0, .problem = {}};
}

inline Parsed<int> OwnLiftRow::to_dumbbells(std::string_view text) {
  if (text.empty()) return {.value = 0, .problem = {}};
  const auto count = parse_whole_number(text);
  if (count && *count >= 0 && *count <= 2) return {.value = *count, .problem = {}};
  return unreadable<int>("the dumbbells of a lift must be 0, 1 or 2");
}

}  // namespace detail

inline OwnLifts read_own_lifts(std::string_view text) {
  OwnLifts own;
  using Header = TableHeader<detail::OwnLiftColumns>;
  TableReading reading = read_small_table<detail::OwnLiftColumns>(
      text, own.reports,
      {.rows = OwnLifts::most,
       .failure =
           "a file must have at most " + std::to_string(OwnLifts::most) + " lifts of one's own"},
      [&](const Header& header, const CsvRecord& row) {
        return detail::OwnLiftRow(own, header, row).read();
      });
  own.refused = reading.refused;
  own.failure = std::move(reading.failure);
  if (own.failure.empty() && own.empty()) own.failure = "there is no lift in it that could be read";
  return own;
}

}  // namespace barwright::inline BARWRIGHT_ABI
