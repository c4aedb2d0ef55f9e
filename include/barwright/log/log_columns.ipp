// barwright/log/log_columns.ipp - the bodies of log_columns.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/mass.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/log_columns.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline std::optional<Unit> take_unit(std::string& name) {
  const std::size_t open = name.find_last_of("([ ");
  if (open == std::string::npos || open == 0) return std::nullopt;
  std::string_view last = std::string_view(name).substr(open + 1);
  if (!last.empty() && (last.back() == ')' || last.back() == ']')) last.remove_suffix(1);
  const auto unit = parse_unit(last);
  if (unit) name = fields::plain(std::string_view(name).substr(0, open));
  return unit;
}

inline std::string_view misspelt_other_name(std::string_view name) {
  constexpr std::size_t shortest = 5;
  for (const ColumnNames& column : column_names) {
    for (const std::string_view other : column.others) {
      if (other.size() < shortest || name.size() < shortest) continue;
      if (name.size() > other.size() + 1 || other.size() > name.size() + 1) continue;
      if (fields::distance(name, other) == 1) return other;
    }
  }
  return {};
}

inline std::optional<NamedColumn> column_named(std::string_view name) {
  for (const ColumnNames& column : column_names) {
    if (name == column.column) return NamedColumn{column.column, 1};
    for (std::size_t i = 0; i < column.others.size() && !column.others[i].empty(); ++i) {
      if (name == column.others[i]) return NamedColumn{column.column, 2 + i};
    }
  }
  return std::nullopt;
}

}  // namespace detail

inline LogHeading read_heading(const CsvRecord& first,
                               const std::vector<std::pair<std::string, std::string>>& mapping) {
  LogHeading heading;
  heading.names = first;
  std::vector<std::optional<detail::NamedColumn>> found(first.fields.size());
  std::vector<std::optional<Unit>> units(first.fields.size());
  for (std::size_t i = 0; i < first.fields.size(); ++i) {
    std::string name = fields::plain(first.fields[i]);
    for (const auto& [theirs, ours] : mapping) {
      if (name != fields::plain(theirs)) continue;
      const auto column = detail::column_named(fields::plain(ours));
      if (column) found[i] = detail::NamedColumn{column->name, 0};
    }
    if (!found[i] || found[i]->name == "load") units[i] = detail::take_unit(name);
    if (!found[i]) found[i] = detail::column_named(name);
    if (!units[i]) units[i] = parse_unit(name);
    if (const auto other = detail::misspelt_other_name(name); !found[i] && !other.empty()) {
      heading.problem += "the column \"" + printable<std::string>(name) +
                         "\" is not known; is it \"" + std::string(other) + "\"? ";
    }
  }
  std::string others;  // what stands for what
  for (std::size_t i = 0; i < found.size(); ++i) {
    if (!found[i]) continue;
    const auto is_stronger = [&](const auto& other) {
      return other && other->name == found[i]->name && other->rank < found[i]->rank;
    };
    const std::string own = printable<std::string>(first.fields[i]);
    const std::string name(found[i]->name);
    if (std::any_of(found.begin(), found.end(), is_stronger)) {
      heading.names.fields[i] = {};
      std::string remark = "the column \"";
      remark.append(own).append("\" is not used; another is the ").append(name);
      heading.remarks.push_back(std::move(remark));
      continue;
    }
    heading.names.fields[i] = found[i]->name;
    if (found[i]->name == "load" && units[i]) heading.unit = units[i];
    if (found[i]->rank != 1) {
      others.append(others.empty() ? "" : ", ").append(own).append(" is the ").append(name);
    }
  }
  if (!others.empty()) heading.remarks.insert(heading.remarks.begin(), "columns: " + others);
  return heading;
}

}  // namespace barwright::inline BARWRIGHT_ABI
