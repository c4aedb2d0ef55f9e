// barwright/log/log_checks.hpp - what only several rows of a log together show
//
// A lifter's name that is misspelt, dates that turn back, a line that was entered twice.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/log_entries.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {
namespace detail {

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
}  // namespace barwright::inline BARWRIGHT_ABI
