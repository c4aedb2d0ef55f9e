// examples/check_week/planned_week.hpp - a week of sessions, read from CSV
//
// One row is one lift of one session. The first row names the columns, in any order, by the names
// that a log may give them, too:
//
//   day        Monday to Sunday, or their first three letters
//   session    its name, where a day has several                                      (optional)
//   lift       a lift, also in one breath, "incline bench"; empty for rowing and the like
//   modifiers  none, or several parted by ; + or , (in quotes): feet up; flat back    (optional)
//   sets       work sets, 1 to 50
//   reps       reps in each
//   rir        reps left in reserve, the fewest of a range: 2 or 2-3; 0 is failure
//   rating     how hard the whole session is meant to be, 0 to 10, in one of its rows (optional)
//   minutes    how long the whole session is meant to take, beside its rating         (optional)
//
// A row that cannot be read is refused, and the others are still used.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/lift_phrase.hpp"
#include "barwright/log/small_table.hpp"
#include "barwright/log/table.hpp"
#include "files.hpp"

namespace check_week {

namespace bw = barwright;
using bw::Parsed;
namespace fields = bw::fields;

struct Columns {
  enum class Column : unsigned char {
    day,
    session,
    lift,
    modifiers,
    sets,
    reps,
    rir,
    rating,
    minutes
  };
  static constexpr std::array<std::string_view, 9> names{
      "day", "session", "lift", "modifiers", "sets", "reps", "rir", "rating", "minutes"};
  static constexpr std::array required{Column::day, Column::lift, Column::sets, Column::reps,
                                       Column::rir};
};
using Column = Columns::Column;
using Header = bw::TableHeader<Columns>;

/// More are no week; what is made of them grows faster than they do.
inline constexpr int most_rows = 500;

/// A week, read.
struct PlannedWeek {
  std::string name{};     ///< the file's
  std::string failure{};  ///< why nothing could be read at all; empty when something was
  std::vector<bw::PlannedSession> sessions{};
  std::vector<std::string> session_names{};  ///< of each session; may be empty
  bw::LineReports reports{};
  int rows = 0;
  int refused = 0;
};

/// Turns the error of a value type into a problem.
template <class T, class Make>
Parsed<T> checked(Make make) {
  try {
    return {.value = make(), .problem = {}};
  } catch (const bw::DomainError& error) {
    return {.value = std::nullopt, .problem = error.what()};
  }
}

inline Parsed<bw::Weekday> to_weekday(std::string_view text) {
  const std::string typed = fields::plain(text);
  for (const bw::Weekday day : bw::all_weekdays) {
    const std::string name = fields::plain(bw::to_text(day));
    if (typed == name || typed == name.substr(0, 3)) return {.value = day, .problem = {}};
  }
  return {.value = std::nullopt,
          .problem = "a day must be Monday to Sunday, or its first three letters"};
}

/// One row, understood.
struct Entry {
  bw::Weekday day = bw::Weekday::monday;
  std::string session{};
  std::optional<bw::PlannedLift> lift{};
  std::optional<bw::SessionRating> rating{};
};

/// Reads one row into an entry, reporting every field that will not do.
class RowReader : private bw::TableRow<Columns> {
 public:
  RowReader(PlannedWeek& week, const Header& header, const bw::CsvRecord& row)
      : TableRow(week.reports, header, row) {}

  std::optional<Entry> read() {
    Entry entry{.session = bw::printable<std::string>(get(Column::session))};
    const auto day = take(Column::day, to_weekday);
    entry.rating = take_rating();
    if (!get(Column::lift).empty()) {
      entry.lift = take_lift();
    } else if (!entry.rating && !is_refused()) {
      refuse(Column::lift, "a row without a lift must have a rating, 0 to 10, and minutes");
    }
    if (is_refused()) return std::nullopt;
    entry.day = *day;
    return entry;
  }

 private:
  std::optional<bw::PlannedLift> take_lift() {
    const auto said = take(Column::lift, [](std::string_view text) {
      if (bw::catalogue::find_lift(text) == nullptr) {
        // In one breath, as a log may have it: "incline bench".
        if (const auto whole = fields::lift_phrase(text))
          return Parsed<bw::Lift>{.value = whole, .problem = {}};
      }
      auto base = fields::to_base_lift(text);
      Parsed<bw::Lift> lift{.value = {}, .problem = std::move(base.problem)};
      if (base.value) lift.value = bw::Lift(**base.value);
      const bool is_like_no_lift = !lift.value && fields::names_in(text).size() == 1 &&
                                   fields::near_lift_names(text).empty() &&
                                   !fields::whole_variation(text) &&
                                   !bw::catalogue::find_lift_with(text);
      if (is_like_no_lift) lift.problem += ". A session without lifts leaves this column empty";
      return lift;
    });
    std::optional<bw::Lift> lift;
    if (said) {
      lift = take(Column::modifiers, [&](std::string_view text) {
        const std::string changes = fields::names_of_changes(*said, ";") + ";" + std::string(text);
        return fields::to_lift(said->base(), said->is_plain() ? text : changes);
      });
    }
    const auto sets = take(Column::sets, fields::to_sets);
    const auto reps = take(Column::reps, fields::to_reps);
    const auto reserve = take(Column::rir, fields::to_reserve);
    if (!lift || !sets || !reps || !reserve) return std::nullopt;
    if (sets->count() > 10) {
      doubt(Column::sets, "that many? Sets and reps may have changed places; used as written");
    }
    return bw::PlannedLift{
        .lift = *lift, .sets = *sets, .reps = *reps, .reserve = reserve->low, .load = {}};
  }

  std::optional<bw::SessionRating> take_rating() {
    const bool has_rating = !get(Column::rating).empty();
    if (has_rating != !get(Column::minutes).empty()) {
      refuse(has_rating ? Column::minutes : Column::rating,
             "rating and minutes must stand together");
      return std::nullopt;
    }
    if (!has_rating) return std::nullopt;
    const auto number = [](std::string_view text) -> Parsed<double> {
      if (const auto value = bw::parse_number(text)) return {.value = value, .problem = {}};
      return {.value = std::nullopt, .problem = "this must be a number"};
    };
    const auto rating = take(Column::rating, number);
    const auto minutes = take(Column::minutes, number);
    if (!rating || !minutes) return std::nullopt;
    if (*minutes == 0.0)
      doubt(Column::minutes, "0 minutes are no load, however hard; used as written");
    return take(Column::rating, [&](std::string_view) {
      return checked<bw::SessionRating>([&] { return bw::SessionRating(*rating, *minutes); });
    });
  }
};

/// Puts what a row says into its session.
inline void add(PlannedWeek& week, Entry entry, std::size_t place, int line) {
  bw::PlannedSession& session = week.sessions[place];
  if (entry.lift) session.lifts.push_back(*std::move(entry.lift));
  if (entry.rating && session.rating) {
    week.reports.add({.verdict = bw::Verdict::doubtful,
                      .line = line,
                      .text = "this session has a rating already; the first is used"});
  } else if (entry.rating) {
    session.rating = entry.rating;
  }
}

/// Reads a week from `text`. `name` is what reports call it.
inline PlannedWeek read(std::string_view text, std::string name) {
  PlannedWeek week{.name = std::move(name)};
  std::map<std::string, int> seen;                                    // lines
  std::map<std::pair<bw::Weekday, std::string>, std::size_t> places;  // of sessions in the week
  const auto read_row = [&](const Header& header, const bw::CsvRecord& row) {
    const auto [same, is_first] = seen.try_emplace(std::string(row.text), row.line);
    if (!is_first) {
      week.reports.add(
          {.line = row.line, .text = "the same as line " + std::to_string(same->second)});
      return false;
    }
    auto entry = RowReader(week, header, row).read();
    if (!entry) return false;
    const auto [place, is_new] =
        places.try_emplace({entry->day, fields::plain(entry->session)}, week.sessions.size());
    if (is_new) {
      week.sessions.push_back({.day = entry->day});
      week.session_names.push_back(entry->session);
    }
    add(week, *std::move(entry), place->second, row.line);
    return true;
  };
  bw::TableReading reading = bw::read_small_table<Columns>(
      text, week.reports,
      {.rows = most_rows,
       .failure = "a week must have at most " + std::to_string(most_rows) +
                  " rows, one for each lift of a session; is this "
                  "a log?"},
      read_row);
  week.rows = reading.rows;
  week.refused = reading.refused;
  week.failure = std::move(reading.failure);
  if (week.failure.empty() && week.sessions.empty()) {
    week.failure = week.rows == 0 ? "there are no lifts in it" : "not one line could be read";
  }
  return week;
}

/// Reads a week from a file.
inline PlannedWeek read_file(const std::string& path) {
  const auto text = files::read_whole(path);
  if (!text.value) return {.name = path, .failure = text.problem};
  return read(*text.value, path);
}

}  // namespace check_week
