// examples/squad_log.hpp - a squad's training log, read from CSV with everything wrong in it named
//
// One row is one set. The first row names the columns, in any order:
//
//   date       2026-11-25
//   lifter     any name; capitals and spaces do not matter
//   lift       a base lift of the catalogue: bench press
//   modifiers  none, or several parted by ; + or , (in quotes): feet up; flat back   (optional)
//   load       what was lifted, bar included
//   unit       kg or lb
//   reps       repetitions tried, 1 to 100; of a missed set the last one failed
//   rir        repetitions left in reserve: 2, 2.5, 2-3 or nothing                   (optional)
//   rpe        the rating 1 to 10 in its place; of both, rir is used                  (optional)
//   outcome    completed (or nothing) or missed                                       (optional)
//   set        its number in the session: makes a line entered twice certain          (optional)
//
// Other columns are ignored. Fields are parted by commas, semicolons or tabs, whichever the first
// row uses. csv_rows.hpp takes the rows apart and reads their fields.
//
// A row that cannot be read is refused, and the others are still used. A row that can be read but
// looks wrong is doubtful: it is used. Every such row gets a Report with its line. Whether a load
// can be right only the lifter's other sets can tell: lifter_model.hpp asks the strength model.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "csv_rows.hpp"

namespace squad_log {

namespace bw = barwright;
using namespace csv_rows;

// ---- what a log holds

/// One set, and where it stands.
struct Entry {
  int line = 0;
  std::string lifter{};
  bw::LoggedSet set;
  bw::Unit unit = bw::Unit::kg;  ///< the load is written in
};

/// A log, read.
struct Log {
  std::string name{};     ///< the file's
  std::string failure{};  ///< why nothing could be read at all; empty when something was
  std::vector<Entry> entries{};
  std::vector<Report> reports{};  ///< in the order of lines
  int rows = 0;                   ///< rows with anything in them, without the first

  [[nodiscard]] int refused() const { return rows - static_cast<int>(entries.size()); }
};

/// Says what is to be said about one line.
inline void print(std::ostream& out, const Log& log, const Report& report) {
  csv_rows::print(out, log.name, report);
}

// ---- the columns

struct Columns {
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
    set
  };
  static constexpr std::array<std::string_view, 11> names{"date", "lifter",  "lift", "modifiers",
                                                          "load", "unit",    "reps", "rir",
                                                          "rpe",  "outcome", "set"};
  static constexpr std::array required{Column::date, Column::lifter, Column::lift,
                                       Column::load, Column::unit,   Column::reps};
};
using Column = Columns::Column;
using Header = csv_rows::Header<Columns>;

// ---- one row

/// Reads one row into an entry, reporting every field that will not do.
class RowReader : private csv_rows::RowFields<Columns> {
 public:
  RowReader(Log& log, const Header& header, const Row& row) : RowFields(log.reports, header, row) {}

  std::optional<Entry> read() {
    const std::string lifter(get(Column::lifter));
    if (lifter.empty()) refuse(Column::lifter, "a lifter must have a name");
    if (bw::has_control(lifter)) {
      refuse(Column::lifter, "a name must be without line breaks and control characters");
    }
    const auto date = take(Column::date, to_date);
    const auto base = take(Column::lift, to_base_lift);
    std::optional<bw::Lift> lift;
    if (base) {
      lift = take(Column::modifiers, [&](std::string_view text) { return to_lift(**base, text); });
    }
    const auto unit = take(Column::unit, to_unit);
    // The number is checked even where the unit is no good.
    const auto load = take(Column::load, [&](std::string_view text) {
      return to_load(text, unit.value_or(bw::Unit::kg));
    });
    const bool is_missed = plain(get(Column::outcome)) == "missed";
    const auto reps = take(Column::reps, [&](std::string_view text) {
      auto count = to_reps(text);
      if (is_missed && to_number(text) == 0.0) {
        count.problem += ". A repetition that was tried and missed counts: reps 1, outcome missed";
      }
      return count;
    });
    const auto outcome = take(Column::outcome, to_outcome);
    const std::optional<Reserve> reserve = take_reserve();
    if (is_refused()) return std::nullopt;

    Entry entry{.line = line(),
                .lifter = lifter,
                .set = {.date = *date,
                        .lift = *lift,
                        .load = *load,
                        .reps = *reps,
                        .reserve = reserve,
                        .outcome = *outcome},
                .unit = *unit};
    if (*outcome == bw::Outcome::missed && reserve && reserve->high.count() > 0.0) {
      doubt(get(Column::rir).empty() ? Column::rpe : Column::rir,
            "a missed set has nothing left; the rating is not used");
      entry.set.reserve.reset();
    }
    return entry;
  }

 private:
  /// From rir, from rpe in its place, or from both when they agree to half a repetition.
  std::optional<Reserve> take_reserve() {
    std::optional<Reserve> reserve;
    if (!get(Column::rir).empty()) {
      reserve = take(Column::rir, to_reserve);
      if (reserve && reserve->typical.count() > 5.0 && reserve->typical.count() <= 10.0) {
        doubt(Column::rir,
              "a rating of exertion in place of a reserve? Read as written; so far from failure it "
              "counts for little");
      }
    }
    if (get(Column::rpe).empty()) return reserve;
    const auto rpe = take(Column::rpe, to_rpe);
    if (!rpe) return reserve;
    const auto rated = bw::reps_in_reserve(*rpe);
    if (!rated) {
      report(Verdict::remark, Column::rpe,
             "below 5 the scale does not count repetitions: taken as not rated");
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
};

// ---- what only several rows together show

/// Names the lifters of one or two sets who differ by a letter or two from one with many.
inline void find_doubtful_names(Log& log) {
  std::map<std::string, int> sets;
  for (const Entry& entry : log.entries) ++sets[entry.lifter];
  for (const Entry& entry : log.entries) {
    if (sets[entry.lifter] > 2) continue;
    for (const auto& [other, count] : sets) {
      if (count >= 10 && distance(entry.lifter, other) <= 2) {
        log.reports.push_back({.verdict = Verdict::doubtful,
                               .line = entry.line,
                               .column = "lifter",
                               .value = entry.lifter,
                               .text = "is it " + other + "? Taken as somebody else"});
      }
    }
  }
}

/// Names the rows where a lifter's dates turn back; a log kept newest first is in order, too.
inline void find_dates_out_of_order(Log& log) {
  std::map<std::string, const Entry*> before;
  std::vector<std::pair<const Entry*, const Entry*>> back;
  std::vector<std::pair<const Entry*, const Entry*>> forth;
  for (const Entry& entry : log.entries) {
    const Entry*& last = before[entry.lifter];
    if (last != nullptr && entry.set.date < last->set.date) back.emplace_back(last, &entry);
    if (last != nullptr && entry.set.date > last->set.date) forth.emplace_back(last, &entry);
    last = &entry;
  }
  for (const auto& [previous, entry] : back.size() <= forth.size() ? back : forth) {
    log.reports.push_back({.verdict = Verdict::remark,
                           .line = entry->line,
                           .column = "date",
                           .value = std::string(bw::to_text(entry->set.date).view()),
                           .text = "out of order after " +
                                   std::string(bw::to_text(previous->set.date).view()) +
                                   " in line " + std::to_string(previous->line) +
                                   "; it is used, as order does not matter"});
  }
}

// ---- the whole log

/// Reads a log from `text`. `name` is what reports call it.
inline Log read(std::string_view text, std::string name) {
  Log log{.name = std::move(name)};
  if (!is_plain_text(text)) {
    log.failure = "this is not plain text; save it as CSV in UTF-8";
    return log;
  }
  CsvReader rows(text);
  const auto first = rows.next();
  if (!first) {
    log.failure = "there is nothing in it; the first line must name the columns";
    return log;
  }
  const auto header = Header::read(*first);
  if (!header.value) {
    log.failure = "line " + std::to_string(first->line) + ": " + header.problem;
    return log;
  }

  struct Place {
    int line;
    int day;
  };
  std::map<std::vector<std::string>, Place> seen;
  std::map<std::string, std::string> spelling;  // of lifters, as first written
  std::string date;                             // of the row before
  int day = 0;                                  // counts the changes of date
  while (auto row = rows.next()) {
    if (is_empty(*row)) continue;  // a spreadsheet's empty row
    ++log.rows;
    const auto refuse = [&](std::string why) {
      log.reports.push_back(
          {.verdict = Verdict::refused, .line = row->line, .text = std::move(why)});
    };
    if (const auto problem = misfit(*row, header.value->fields(), rows)) {
      refuse(*problem);
      continue;
    }
    if (header.value->get(*row, Column::date) != date) {
      date = header.value->get(*row, Column::date);
      ++day;
    }
    // Sets across are often alike; alike with other days between, a line was entered twice.
    const auto [same, is_new] = seen.try_emplace(row->fields, Place{.line = row->line, .day = day});
    if (!is_new && (header.value->has(Column::set) || same->second.day != day)) {
      refuse(
          "the same as line " + std::to_string(same->second.line) +
          (header.value->has(Column::set) ? ", set number and all" : ", with other days between"));
      continue;
    }
    if (auto entry = RowReader(log, *header.value, *row).read()) {
      entry->lifter = spelling.try_emplace(plain(entry->lifter), entry->lifter).first->second;
      log.entries.push_back(std::move(*entry));
    }
  }
  find_doubtful_names(log);
  find_dates_out_of_order(log);
  std::stable_sort(log.reports.begin(), log.reports.end(),
                   [](const Report& a, const Report& b) { return a.line < b.line; });
  if (log.entries.empty()) {
    log.failure = log.rows == 0 ? "there are no sets in it" : "not one line could be read";
  }
  return log;
}

/// Reads a log from a file.
inline Log read_file(const std::string& path) {
  const auto text = contents_of(path);
  if (!text.value) {
    Log log{.name = path};
    log.failure = text.problem;
    return log;
  }
  return read(*text.value, path);
}

// ---- asking it

/// The lifters, in the order of the log.
inline std::vector<std::string> lifters(const Log& log) {
  std::vector<std::string> names;
  for (const Entry& entry : log.entries) {
    if (std::find(names.begin(), names.end(), entry.lifter) == names.end()) {
      names.push_back(entry.lifter);
    }
  }
  return names;
}

/// The unit that most loads of one lifter are written in.
inline bw::Unit usual_unit(const Log& log, std::string_view lifter) {
  int more_kg = 0;
  for (const Entry& entry : log.entries) {
    if (entry.lifter == lifter) more_kg += entry.unit == bw::Unit::kg ? 1 : -1;
  }
  return more_kg < 0 ? bw::Unit::lb : bw::Unit::kg;
}

/// The sets of one lifter, as the library takes them.
inline std::vector<bw::LoggedSet> sets_of(const Log& log, std::string_view lifter) {
  std::vector<bw::LoggedSet> sets;
  for (const Entry& entry : log.entries) {
    if (entry.lifter == lifter) sets.push_back(entry.set);
  }
  return sets;
}

}  // namespace squad_log
