// barwright/log/log_reader.hpp - a training log, read from CSV with everything wrong in it named
//
// One row is one set. The first row names the columns, in any order:
//
//   date       2026-11-25
//   lifter     any name; capitals and spaces do not matter
//   lift       a base lift of the catalogue: bench press
//   modifiers  none, or several, separated by ; + or , (quoted): feet up; flat back   (optional)
//   load       what was lifted, bar included
//   unit       kg or lb
//   reps       repetitions tried, 1 to 100; of a missed set the last one failed
//   rir        repetitions left in reserve: 2, 2.5, 2-3 or nothing                   (optional)
//   rpe        the rating 1 to 10 in its place; of both, rir is used                  (optional)
//   outcome    completed (or nothing) or missed                                       (optional)
//   set        its number in the session: makes a line entered twice certain          (optional)
//   note       or notes, comment: anything; that it hurt is taken from it             (optional)
//
// Other columns are ignored. Fields are separated by commas, semicolons or tabs, whichever the
// first row uses. A row that cannot be read is refused, and the others are still used. A row that
// can be read but looks wrong is doubtful: it is used. Each such row gets a report with its line.
// Whether a load can be right only the lifter's other sets can tell.
//
// The text may come from anybody: reading takes time in proportion to its length, and nothing in it
// is thrown back as an exception.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/printable.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One set of a log, and where it stands.
struct LogEntry {
  int line = 0;          ///< of the text, counted from 1
  std::string lifter{};  ///< as first written
  LoggedSet set;
  Unit unit = Unit::kg;  ///< the load is written in
};

/// A log, read.
struct Log {
  std::string failure{};  ///< why nothing could be read at all; empty when something was
  std::vector<LogEntry> entries{};
  LineReports reports{};  ///< in the order of lines
  int rows = 0;           ///< rows with anything in them, without the first

  /// How many rows could not be used.
  [[nodiscard]] int refused() const noexcept { return rows - static_cast<int>(entries.size()); }

  /// The lifters, in the order of the log.
  [[nodiscard]] std::vector<std::string> lifters() const {
    std::vector<std::string> names;
    std::map<std::string_view, bool> seen;
    for (const LogEntry& entry : entries) {
      if (seen.try_emplace(entry.lifter, true).second) names.push_back(entry.lifter);
    }
    return names;
  }
  /// The entries of each lifter, in the order of `lifters` and of the log. They point into this
  /// log.
  [[nodiscard]] std::vector<std::vector<const LogEntry*>> by_lifter() const {
    std::vector<std::vector<const LogEntry*>> groups;
    std::map<std::string_view, std::size_t> places;
    for (const LogEntry& entry : entries) {
      const auto [place, is_new] = places.try_emplace(entry.lifter, groups.size());
      if (is_new) groups.emplace_back();
      groups[place->second].push_back(&entry);
    }
    return groups;
  }
  /// The sets of one lifter, named as in `lifters`.
  [[nodiscard]] std::vector<LoggedSet> sets_of(std::string_view lifter) const {
    std::vector<LoggedSet> sets;
    for (const LogEntry& entry : entries) {
      if (entry.lifter == lifter) sets.push_back(entry.set);
    }
    return sets;
  }
  /// The unit that most loads of one lifter are written in.
  [[nodiscard]] Unit usual_unit(std::string_view lifter) const noexcept {
    int more_kg = 0;
    for (const LogEntry& entry : entries) {
      if (entry.lifter == lifter) more_kg += entry.unit == Unit::kg ? 1 : -1;
    }
    return more_kg < 0 ? Unit::lb : Unit::kg;
  }
};

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
    note
  };
  static constexpr std::array<std::string_view, 12> names{"date", "lifter",  "lift", "modifiers",
                                                          "load", "unit",    "reps", "rir",
                                                          "rpe",  "outcome", "set",  "note"};
  static constexpr std::array required{Column::date, Column::lifter, Column::lift,
                                       Column::load, Column::unit,   Column::reps};
  static constexpr std::string_view usual_name(std::string_view name) noexcept {
    return name == "notes" || name == "comment" || name == "comments" ? "note" : name;
  }
};

/// The lifts found so far, by what stands in their two fields: the same few stand in most rows.
using KnownLifts = std::map<std::pair<std::string, std::string>, Lift>;

/// Reads one row into an entry, reporting every field that is wrong.
class LogRow : private TableRow<LogColumns> {
 public:
  using Header = TableHeader<LogColumns>;

  LogRow(LineReports& reports, const Header& header, const CsvRecord& row, KnownLifts& lifts)
      : TableRow(reports, header, row), reports_(reports), lifts_(lifts) {}

  std::optional<LogEntry> read() {
    const auto lifter = take(Column::lifter, to_name);
    const auto date = take(Column::date, fields::to_date);
    const auto lift = take_lift();
    const auto unit = take(Column::unit, fields::to_unit);
    // The number is checked even where the unit is no good.
    const auto load = take(Column::load, [&](std::string_view text) {
      return fields::to_load(text, unit.value_or(Unit::kg));
    });
    const bool is_missed = fields::plain(get(Column::outcome)) == "missed";
    const auto reps = take(Column::reps, [&](std::string_view text) {
      auto count = fields::to_reps(text);
      if (is_missed && parse_number(text) == 0.0) {
        count.problem += ". A repetition that was tried and missed counts: reps 1, outcome missed";
      }
      return count;
    });
    const auto outcome = take(Column::outcome, fields::to_outcome);
    const auto reserve = take_reserve();
    if (is_refused()) return std::nullopt;

    LogEntry entry{.line = line(),
                   .lifter = *lifter,
                   .set = {.date = *date,
                           .lift = *lift,
                           .load = *load,
                           .reps = *reps,
                           .reserve = reserve,
                           .outcome = *outcome,
                           .has_pain = mentions_pain(get(Column::note))},
                   .unit = *unit};
    if (*outcome == Outcome::missed && reserve && reserve->high.count() > 0.0) {
      doubt(get(Column::rir).empty() ? Column::rpe : Column::rir,
            "a missed set leaves 0 in reserve; the rating is not used");
      entry.set.reserve.reset();
    }
    return entry;
  }

 private:
  static Parsed<std::string> to_name(std::string_view text) {
    if (text.empty()) return unreadable<std::string>("a lifter must have a name");
    if (text.size() > fields::longest_name) {
      return unreadable<std::string>("a name must be at most " +
                                     std::to_string(fields::longest_name) + " bytes long");
    }
    if (has_control(text)) {
      return unreadable<std::string>("a name must not hold line breaks or control characters");
    }
    return {.value = std::string(text), .problem = {}};
  }

  std::optional<Lift> take_lift() {
    const std::string_view name = get(Column::lift);
    const std::string_view changes = get(Column::modifiers);
    std::pair<std::string, std::string> key(name, changes);
    if (const auto known = lifts_.find(key); known != lifts_.end()) return known->second;
    if (reports_.is_full() && catalogue::find_lift(name) == nullptr) {
      refuse(Column::lift, "unknown lift");  // which, nobody will read
      return std::nullopt;
    }
    const auto base = take(Column::lift, fields::to_base_lift);
    if (!base) return std::nullopt;
    const auto lift = take(Column::modifiers,
                           [&](std::string_view text) { return fields::to_lift(**base, text); });
    constexpr std::size_t most = 4096;
    if (lift && lifts_.size() < most) lifts_.emplace(std::move(key), *lift);
    return lift;
  }

  /// From rir, from rpe in its place, or from both when they agree to half a repetition.
  std::optional<Range<RepsInReserve>> take_reserve() {
    std::optional<Range<RepsInReserve>> reserve;
    if (!get(Column::rir).empty()) {
      reserve = take(Column::rir, fields::to_reserve);
      if (reserve && reserve->typical.count() > 5.0 && reserve->typical.count() <= 10.0) {
        doubt(Column::rir,
              "a rating of exertion (RPE) in place of reps in reserve? Read as written");
      }
    }
    if (get(Column::rpe).empty()) return reserve;
    const auto rpe = take(Column::rpe, fields::to_rpe);
    if (!rpe) return reserve;
    const auto rated = reps_in_reserve(*rpe);
    if (!rated) {
      report(Verdict::remark, Column::rpe,
             "below 5 the scale does not count reps: treated as not rated");
      return reserve;
    }
    if (!reserve) return rated;
    const double gap = std::max(reserve->low.count() - rated->high.count(),
                                rated->low.count() - reserve->high.count());
    if (gap > 0.5) {
      refuse(Column::rpe, "contradicts the rir \"" + std::string(get(Column::rir)) +
                              "\": one of the two must be mistyped");
    }
    return reserve;
  }

  LineReports& reports_;
  KnownLifts& lifts_;
};

// ---- what only several rows together show

/// Names the lifters of one or two sets who differ by a letter or two from one with many.
inline void find_doubtful_names(Log& log) {
  constexpr std::size_t most = 1000;  // each is held against each
  std::map<std::string, int> sets;
  for (const LogEntry& entry : log.entries) ++sets[entry.lifter];
  if (sets.size() > most) return;
  std::map<std::string, std::string> meant;  // of those with few
  for (const auto& [name, few] : sets) {
    for (const auto& [other, many] : sets) {
      if (few <= 2 && many >= 10 && fields::distance(name, other) <= 2) meant.emplace(name, other);
    }
  }
  for (const LogEntry& entry : log.entries) {
    const auto other = meant.find(entry.lifter);
    if (other == meant.end()) continue;
    log.reports.add({.verdict = Verdict::doubtful,
                     .line = entry.line,
                     .column = "lifter",
                     .value = entry.lifter,
                     .text = "did you mean " + other->second + "? Treated as a different lifter"});
  }
}

/// Names the rows where a lifter's dates turn back; a log kept newest first is in order, too.
inline void find_dates_out_of_order(Log& log) {
  std::map<std::string_view, const LogEntry*> before;
  std::vector<std::pair<const LogEntry*, const LogEntry*>> back;
  std::vector<std::pair<const LogEntry*, const LogEntry*>> forth;
  for (const LogEntry& entry : log.entries) {
    const LogEntry*& last = before[entry.lifter];
    if (last != nullptr && entry.set.date < last->set.date) back.emplace_back(last, &entry);
    if (last != nullptr && entry.set.date > last->set.date) forth.emplace_back(last, &entry);
    last = &entry;
  }
  for (const auto& [previous, entry] : back.size() <= forth.size() ? back : forth) {
    log.reports.add({.verdict = Verdict::remark,
                     .line = entry->line,
                     .column = "date",
                     .value = to_text(entry->set.date).str(),
                     .text = "out of order after " + to_text(previous->set.date).str() +
                             " in line " + std::to_string(previous->line) +
                             "; used all the same, as order does not matter"});
  }
}

/// Which rows were there before. Sets across are often alike; alike with other days between, or
/// with the number of the set, a line was entered twice.
class RowsSeen {
 public:
  /// What is wrong with a row that stands there like this; nothing where it may stand.
  std::optional<std::string> add(const CsvRecord& row, std::string_view date, bool has_set_number) {
    if (date != date_) {
      date_ = date;
      ++day_;
    }
    const auto [same, is_new] = seen_.try_emplace(row.text, Place{.line = row.line, .day = day_});
    if (is_new || (!has_set_number && same->second.day == day_)) return std::nullopt;
    return "line " + std::to_string(same->second.line) + " again, " +
           (has_set_number ? "set number and all" : "entered after other days") +
           ": taken as a double entry";
  }

 private:
  struct Place {
    int line;
    int day;
  };
  std::map<std::string_view, Place> seen_{};
  std::string date_{};  // of the row before
  int day_ = 0;         // counts the changes of date
};

}  // namespace detail

/// Reads a log.
/// @param text  CSV in UTF-8; see the top of this header. Nothing in it is thrown.
[[nodiscard]] inline Log read_log(std::string_view text) {
  using Header = detail::LogRow::Header;
  using Column = detail::LogColumns::Column;
  Log log;
  if (!is_plain_text(text)) {
    log.failure = "this is not plain text; save it as CSV in UTF-8";
    return log;
  }
  CsvReader reader(text);
  CsvRecord row;
  if (!reader.next(row)) {
    log.failure = "there is nothing in it; the first line must name the columns";
    return log;
  }
  const auto header = Header::read(row);
  if (!header.value) {
    log.failure = "line " + std::to_string(row.line) + ": " + header.problem;
    return log;
  }

  detail::RowsSeen seen;
  detail::KnownLifts lifts;
  std::map<std::string, std::string> spelling;  // of lifters, as first written
  while (reader.next(row)) {
    if (row.is_empty() && row.fault == CsvFault::none) continue;  // a spreadsheet's empty row
    ++log.rows;
    auto problem = misfit(row, header.value->size(), reader);
    if (!problem) {
      problem = seen.add(row, header.value->get(row, Column::date), header.value->has(Column::set));
    }
    if (problem) {
      log.reports.add({.verdict = Verdict::refused, .line = row.line, .text = std::move(*problem)});
    } else if (auto entry = detail::LogRow(log.reports, *header.value, row, lifts).read()) {
      entry->lifter =
          spelling.try_emplace(fields::plain(entry->lifter), entry->lifter).first->second;
      log.entries.push_back(std::move(*entry));
    }
  }
  detail::find_doubtful_names(log);
  detail::find_dates_out_of_order(log);
  log.reports.sort_by_line();
  if (log.entries.empty()) {
    log.failure = log.rows == 0 ? "there are no sets in it" : "not one line could be read";
  }
  return log;
}

}  // namespace barwright::inline BARWRIGHT_ABI
