// examples/squad_sheet/asked.hpp - what a squad trains today, as a coach writes it down
//
// A table in CSV with one row for each lift; the first row names the columns, in any order:
//
//     lifter,lift,modifiers,sets,reps,rir,body (kg)
//     ,bench press,,3,6,2,
//     Tilde Ravn,squat,front,4,4,2-3,
//     Bram Osei,,,,,,84
//
// A row without a lifter is for everybody who has trained that base lift in the log. In place of
// rir there may be an rpe; the columns may be named as in a log. What a lifter weighs is asked for
// by lifts that move the body; it holds for all lifts of that lifter, and may stand alone.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/log_columns.hpp"
#include "barwright/log/small_table.hpp"

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
  enum class Column : unsigned char { lifter, lift, modifiers, sets, reps, rir, rpe, body };
  static constexpr std::array<std::string_view, 8> names{"lifter", "lift", "modifiers", "sets",
                                                         "reps",   "rir",  "rpe",       "body"};
  static constexpr std::array required{Column::lift, Column::sets, Column::reps};
};
using Column = Columns::Column;
using Header = bw::TableHeader<Columns>;

/// What was asked, and what is wrong with its lines.
struct AskedTable {
  std::string failure{};  ///< why nothing could be read at all
  std::vector<Asked> rows{};
  std::map<std::string, bw::Mass> bodies{};  ///< what lifters weigh, by their plain names
  bw::LineReports reports{};
  int refused = 0;

  [[nodiscard]] std::optional<bw::Mass> body_of(std::string_view lifter) const {
    const auto known = bodies.find(fields::plain(lifter));
    return known == bodies.end() ? std::nullopt : std::optional(known->second);
  }
};

/// What a row is read by.
struct Reading {
  const std::vector<std::string>& lifters;  ///< of the log
  bw::Handles<bw::Modifier> own{};          ///< lifts beside those of the catalogue
  std::optional<bw::Unit> body_unit{};      ///< as the column's name says it
};

/// Reads one row, reporting every field that will not do.
class AskedRow : private bw::TableRow<Columns> {
 public:
  AskedRow(AskedTable& table, const Header& header, const bw::CsvRecord& row,
           const Reading& reading)
      : TableRow(table.reports, header, row), table_(table), reading_(reading) {}

  /// Whether all of the row was taken.
  bool read() {
    const auto lifter =
        take(Column::lifter, [&](std::string_view name) { return to_lifter(name); });
    const bool has_body = !get(Column::body).empty();
    if (has_body && lifter) take_body(*lifter);
    const bool is_of_body = has_body && get(Column::lift).empty() && get(Column::sets).empty() &&
                            get(Column::reps).empty();
    if (!is_of_body) take_asked(lifter);
    return !is_refused();
  }

 private:
  void take_asked(const std::optional<std::string>& lifter) {
    const auto lift = take_lift();
    const auto sets = take(Column::sets, fields::to_sets);
    const auto reps = take(Column::reps, fields::to_reps);
    const auto reserve = take_reserve();
    if (is_refused() || !lifter || !lift || !sets || !reps || !reserve) return;
    table_.rows.push_back(
        {.lifter = *lifter, .lift = *lift, .sets = *sets, .reps = *reps, .reserve = *reserve});
  }

  /// One who is in the log, or nobody.
  [[nodiscard]] bw::Parsed<std::string> to_lifter(std::string_view name) const {
    const auto is_called = [&](const std::string& known) {
      return fields::plain(known) == fields::plain(name);
    };
    const bool is_known =
        name.empty() || std::any_of(reading_.lifters.begin(), reading_.lifters.end(), is_called);
    if (is_known) return {.value = std::string(name), .problem = {}};
    return {.value = std::nullopt,
            .problem = "nobody in the log is called so; nearest: " +
                       fields::one_of(fields::nearest(name, reading_.lifters))};
  }

  void take_body(const std::string& lifter) {
    if (lifter.empty()) {
      refuse(Column::body, "a body mass must stand beside the name of its lifter");
      return;
    }
    const auto body = take(Column::body, [&](std::string_view text) { return to_body(text); });
    if (!body) return;
    const auto [known, is_new] = table_.bodies.try_emplace(fields::plain(lifter), *body);
    if (!is_new && known->second != *body) {
      refuse(Column::body, "another line has another body mass of this lifter; the first is used");
    }
  }

  [[nodiscard]] bw::Parsed<bw::Mass> to_body(std::string_view text) const {
    const auto typed = bw::detail::take_load_apart(text, true);
    const auto unit = typed && typed->unit ? typed->unit : reading_.body_unit;
    if (!typed || typed->is_each) {
      return {.value = std::nullopt, .problem = "a body mass must be a number, as in 75 kg"};
    }
    if (!unit) {
      return {.value = std::nullopt,
              .problem =
                  "a body mass must have its unit, as in 75 kg, or as body (kg) in the name "
                  "of its column"};
    }
    auto mass = fields::to_load(typed->number, *unit);
    if (mass.value && !(*mass.value > bw::Mass{})) {
      return {.value = std::nullopt, .problem = "a body mass must be more than 0"};
    }
    return mass;
  }

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
        return fields::to_lift(lift.base(), lift.is_plain() ? text : changes, reading_.own);
      });
    };
    if (const auto of_own = fields::own_lift(get(Column::lift), reading_.own)) {
      return changed(*of_own);
    }
    const auto base = take(Column::lift, fields::to_base_lift);
    if (!base) return std::nullopt;
    return changed(bw::Lift(**base));
  }

  AskedTable& table_;
  const Reading& reading_;
};

/// The names of the first row as `Columns` has them: body mass goes by several, and may have its
/// unit with it.
inline bw::CsvRecord with_our_names(bw::CsvRecord first, std::optional<bw::Unit>& body_unit) {
  constexpr std::array<std::string_view, 5> bodies{"body", "body mass", "bodymass", "body weight",
                                                   "bodyweight"};
  for (std::string_view& field : first.fields) {
    std::string name = fields::plain(field);
    const auto unit = bw::detail::take_unit(name);
    if (std::find(bodies.begin(), bodies.end(), name) == bodies.end()) continue;
    field = "body";
    body_unit = unit;
  }
  return bw::by_our_names<Columns>(std::move(first));
}

/// Of one day.
inline constexpr int most_rows = 1000;

/// Reads what is asked for.
/// @param lifters  of the log: one whom it does not know is refused with the nearest names
/// @param own      lifts beside those of the catalogue
inline AskedTable read_asked(std::string_view text, const std::vector<std::string>& lifters,
                             bw::Handles<bw::Modifier> own) {
  AskedTable table;
  Reading reading{.lifters = lifters, .own = own};
  bw::TableReading read = bw::read_small_table<Columns>(
      text, table.reports,
      {.rows = most_rows,
       .failure = "one day must have at most " + std::to_string(most_rows) + " rows"},
      [&](const Header& header, const bw::CsvRecord& row) {
        return AskedRow(table, header, row, reading).read();
      },
      [&](bw::CsvRecord first) { return with_our_names(std::move(first), reading.body_unit); });
  table.refused = read.refused;
  table.failure = std::move(read.failure);
  const bool has_nothing = table.rows.empty() && table.bodies.empty();
  if (table.failure.empty() && has_nothing) table.failure = "not one line could be read";
  return table;
}

}  // namespace squad_sheet
