// barwright/log/log_columns.hpp - the columns of a log, by the names that people give them
//
// A log has the columns that log_reader.hpp describes. Weight, exercise, athlete, reserve, effort
// and notes are read for what they are; "load (kg)" says the unit, too; for odd ones the caller has
// a mapping. Where two columns could be the same one, the one with the stronger name is it, and the
// other is named.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/mass.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

struct LogColumns {
  enum class Column : unsigned char {
    date,
    lifter,
    lift,
    modifiers,
    load,
    unit,
    reps,
    rir,
    rpe,
    outcome,
    set,
    note,
    sets
  };
  static constexpr std::array<std::string_view, 13> names{
      "date", "lifter", "lift",    "modifiers", "load", "unit", "reps",
      "rir",  "rpe",    "outcome", "set",       "note", "sets"};
  static constexpr std::array required{Column::date, Column::lift, Column::load, Column::reps};
};

/// Other names of each column, the strongest first. Trade words, no file's labels.
struct ColumnNames {
  std::string_view column;
  std::array<std::string_view, 8> others;
};
inline constexpr std::array column_names{
    ColumnNames{"date", {"session date", "training date", "day"}},
    ColumnNames{"lifter", {"athlete", "name", "person", "member", "who"}},
    ColumnNames{"lift", {"exercise", "movement"}},
    ColumnNames{"modifiers", {"modifier", "variation", "variant", "changes", "change"}},
    ColumnNames{"load", {"weight", "kg", "kgs", "lb", "lbs"}},
    ColumnNames{"unit", {"units"}},
    ColumnNames{"reps", {"repetitions", "rep", "reps done", "reps completed"}},
    ColumnNames{"rir",
                {"reps in reserve", "repetitions in reserve", "reserve", "in reserve", "reps left",
                 "left"}},
    ColumnNames{"rpe", {"effort", "exertion", "rating"}},
    ColumnNames{"outcome", {"result", "success", "completed", "made"}},
    ColumnNames{"set", {"set number", "set no", "set #"}},
    ColumnNames{"note", {"notes", "comment", "comments", "remark", "remarks"}},
    ColumnNames{"sets", {"number of sets"}}};

}  // namespace detail

/// The first row of a log, understood.
struct LogHeading {
  CsvRecord names{};           ///< each column by our name, or by its own where it is none of ours
  std::optional<Unit> unit{};  ///< "load (kg)"
  std::vector<std::string> remarks{};  ///< what was understood, and what is not used
  std::string problem{};               ///< why it will not do; empty where it will
};

namespace detail {

/// Takes "(kg)" and "[lbs]", and kg or lb as a last word, from the end of a name.
[[nodiscard]] std::optional<Unit> take_unit(std::string& name);

/// A column missed for a letter would be missed by nobody, and change what every row means.
[[nodiscard]] std::string_view misspelt_other_name(std::string_view name);

/// What a column is called here, and how strong its own name is: 0 is strongest.
struct NamedColumn {
  std::string_view name{};
  std::size_t rank = 0;
};
[[nodiscard]] std::optional<NamedColumn> column_named(std::string_view name);

}  // namespace detail

/// The first row of another table that has columns of a log, each by our name: a club calls them
/// the same everywhere. A name that the table itself has stays.
template <class Columns>
[[nodiscard]] CsvRecord by_our_names(CsvRecord first) {
  const auto has = [](const auto& names, std::string_view name) {
    return std::any_of(names.begin(), names.end(),
                       [&](std::string_view each) { return fields::plain(each) == name; });
  };
  for (std::string_view& field : first.fields) {
    const std::string typed = fields::plain(field);
    if (has(Columns::names, typed)) continue;
    const auto ours = detail::column_named(typed);
    if (ours && has(Columns::names, ours->name) && !has(first.fields, ours->name)) {
      field = ours->name;
    }
  }
  return first;
}

/// Reads the first row of a log.
/// @param mapping  pairs of a column's name in the file and ours, for those with odd names
[[nodiscard]] LogHeading read_heading(
    const CsvRecord& first, const std::vector<std::pair<std::string, std::string>>& mapping = {});

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/log_columns.ipp"
#endif
