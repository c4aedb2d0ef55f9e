// examples/squad_sheet/asked.hpp - what a squad trains today, as a coach writes it down
//
// A table in CSV with one row for each lift; the first row names the columns, in any order:
//
//     lifter,lift,modifiers,sets,reps,rir
//     ,bench press,,3,6,2
//     Tilde Ravn,squat,front,4,4,2-3
//
// A row without a lifter is for everybody who has trained that base lift in the log. In place of
// rir there may be an rpe; the columns may be named as in a log.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <iostream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "asking.hpp"
#include "barwright/barwright.hpp"
#include "barwright/log/log_columns.hpp"
#include "files.hpp"
#include "squad_log.hpp"

namespace squad_sheet {

namespace bw = barwright;
namespace fields = bw::fields;

/// One lift that is asked for.
struct Asked {
  std::string lifter{};  ///< empty: everybody
  bw::Lift lift;
  bw::Sets sets{3};
  bw::Reps reps{6};
  bw::RepsInReserve reserve{2.0};
};

struct Columns {
  enum class Column : unsigned char { lifter, lift, modifiers, sets, reps, rir, rpe };
  static constexpr std::array<std::string_view, 7> names{"lifter", "lift", "modifiers", "sets",
                                                         "reps",   "rir",  "rpe"};
  static constexpr std::array required{Column::lift, Column::sets, Column::reps};
};
using Column = Columns::Column;

/// What was asked, and what is wrong with its lines.
struct AskedTable {
  std::string failure{};  ///< why nothing could be read at all
  std::vector<Asked> rows{};
  bw::LineReports reports{};
  int refused = 0;
};

inline constexpr int most_rows = 1000;

/// Reads one row, reporting every field that will not do.
class AskedRow : private bw::TableRow<Columns> {
 public:
  AskedRow(AskedTable& table, const bw::TableHeader<Columns>& header, const bw::CsvRecord& row,
           bw::Handles<bw::Modifier> own)
      : TableRow(table.reports, header, row), own_(own) {}

  std::optional<Asked> read() {
    const auto lift = take_lift();
    const auto sets = take(Column::sets, fields::to_sets);
    const auto reps = take(Column::reps, fields::to_reps);
    const auto reserve = take_reserve();
    if (!lift || !sets || !reps || !reserve) return std::nullopt;
    return Asked{.lifter = bw::printable<std::string>(get(Column::lifter)),
                 .lift = *lift,
                 .sets = *sets,
                 .reps = *reps,
                 .reserve = *reserve};
  }

 private:
  /// From rir, or from rpe in its place; else two.
  std::optional<bw::RepsInReserve> take_reserve() {
    const bool has_rpe = !get(Column::rpe).empty();
    if (!get(Column::rir).empty()) {
      if (has_rpe) {
        refuse(Column::rpe, "one of rir and rpe must be empty");
        return std::nullopt;
      }
      const auto typed = take(Column::rir, fields::to_reserve);
      return typed ? std::optional(typed->low) : std::nullopt;
    }
    if (!has_rpe) return bw::RepsInReserve(2.0);
    const auto rating = take(Column::rpe, fields::to_rpe);
    if (!rating) return std::nullopt;
    const auto left = bw::reps_in_reserve(*rating);
    if (!left) {
      refuse(Column::rpe, "a rating below 5 does not count reps: say how many are left, as rir");
      return std::nullopt;
    }
    return left->typical;
  }

  /// A base lift with its changes, or a lift of one's own with further ones.
  std::optional<bw::Lift> take_lift() {
    const auto changed = [&](const bw::Lift& lift) {
      return take(Column::modifiers, [&](std::string_view text) {
        const std::string changes = fields::names_of_changes(lift, ";") + ";" + std::string(text);
        return fields::to_lift(lift.base(), lift.is_plain() ? text : changes, own_);
      });
    };
    if (const auto of_own = fields::own_lift(get(Column::lift), own_)) return changed(*of_own);
    const auto base = take(Column::lift, fields::to_base_lift);
    if (!base) return std::nullopt;
    return changed(bw::Lift(**base));
  }

  bw::Handles<bw::Modifier> own_;
};

/// @param own  lifts beside those of the catalogue
inline AskedTable read_asked(std::string_view text, bw::Handles<bw::Modifier> own) {
  AskedTable table;
  bw::CsvReader rows(text);
  bw::CsvRecord row;
  if (!bw::is_plain_text(text) || !rows.next(row)) {
    table.failure = "this must be a table in CSV whose first line names the columns";
    return table;
  }
  const auto header = bw::TableHeader<Columns>::read(bw::by_our_names<Columns>(row));
  if (!header.value) {
    table.failure = "line " + std::to_string(row.line) + ": " + header.problem;
    return table;
  }
  int count = 0;
  while (rows.next(row)) {
    if (row.is_empty() && row.fault == bw::CsvFault::none) continue;
    if (++count > most_rows) {
      table.failure = "one day must have at most " + std::to_string(most_rows) + " rows";
      return table;
    }
    if (const auto problem = bw::misfit(row, header.value->size(), rows)) {
      table.reports.add({.line = row.line, .text = *problem});
      ++table.refused;
    } else if (auto asked = AskedRow(table, *header.value, row, own).read()) {
      table.rows.push_back(*std::move(asked));
    } else {
      ++table.refused;
    }
  }
  if (table.rows.empty()) table.failure = "not one line could be read";
  return table;
}

/// What is asked for, from --lift and --asked.
inline std::vector<Asked> what_is_asked(const std::vector<std::string>& lifts,
                                        const std::string& file, const bw::OwnLifts& own,
                                        int& refused) {
  std::vector<Asked> asked;
  for (const std::string& name : lifts) {
    auto lift = bw::fields::own_lift(name, own.modifiers());
    if (!lift && bw::catalogue::find_lift(name) == nullptr) lift = bw::fields::lift_phrase(name);
    if (!lift) lift = *asking::value_or_refuse("--lift", name, squad_log::to_base_lift(name));
    asked.push_back({.lift = *lift});
  }
  if (!file.empty()) {
    const auto table =
        read_asked(asking::value_or_refuse(files::read_whole(file)), own.modifiers());
    squad_log::print_reports(std::cerr, file, table.reports);
    if (!table.failure.empty()) throw asking::Refusal{file + ": " + table.failure};
    asked.insert(asked.end(), table.rows.begin(), table.rows.end());
    refused += table.refused;
  }
  if (asked.empty()) throw asking::Refusal{"Say what is trained: --lift \"bench press\""};
  return asked;
}

}  // namespace squad_sheet
