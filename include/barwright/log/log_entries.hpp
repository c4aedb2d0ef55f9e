// barwright/log/log_entries.hpp - a log that was read: its sets, who did them, what is said of it
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/log/fields.hpp"
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
  /// What was written where it hurt, or where the last rep may have been missed, to be quoted.
  std::string complaint{};
};

/// The first words of a note, to be quoted.
[[nodiscard]] inline std::string quoted(std::string_view note) {
  std::size_t most = 80;
  const auto is_inside_letter = [&] { return (note[most] & 0xC0) == 0x80; };
  while (most < note.size() && most > 0 && is_inside_letter()) --most;
  std::string words = printable<std::string>(note.substr(0, most));
  if (note.size() > most) words += "...";
  return words;
}

/// Takes from a note that it speaks of pain or of a warning sign, and keeps its words.
inline void take_complaint(LogEntry& entry, std::string_view note) {
  const bool hurts = mentions_pain(note) || (may_mention_pain(note) && !entry.set.has_pain);
  const bool is_graver = mentions_warning_sign(note) && !entry.set.is_unwell;
  if (hurts && (entry.complaint.empty() || is_graver)) entry.complaint = quoted(note);
  take_note(entry.set, note);
}

/// Keeps the words of a note which leaves open whether the last rep of the set went up.
inline void keep_doubt(LogEntry& entry, std::string_view note) {
  if (entry.set.may_be_missed && entry.complaint.empty()) entry.complaint = quoted(note);
}

/// What a row says that gave no set: it counts all the same.
struct UnreadNote {
  int line = 0;                ///< of the file, from 1
  std::string lifter{};        ///< plain; empty where it could not be read
  std::optional<Date> date{};  ///< nothing where it could not be read
  std::optional<Lift> lift{};  ///< plain; nothing where it could not be read
  bool hurts = false;          ///< see mentions_hurt
  bool is_unwell = false;      ///< of the whole person: see mentions_warning_sign
  bool is_missed = false;      ///< a rep was missed: see miss_in_note
};

/// What the file does not say, and somebody has to, before it can be read: see LogOptions.
enum class LogQuestion : unsigned char { none, column, date_order, year, unit };

/// The share of a log's rows from which a fault is no slip any more: somebody is asked, and below
/// it single lines are refused. A habit of this library, no finding.
inline constexpr double doubtful_share = 0.20;

/// A log, read.
struct Log {
  std::string failure{};  ///< why nothing could be read at all; empty when something was
  LogQuestion question = LogQuestion::none;  ///< where the failure is one
  std::vector<LogEntry> entries{};
  LineReports reports{};  ///< in the order of lines
  int rows = 0;           ///< rows with anything in them, without the first
  int rows_used = 0;      ///< rows that became sets: one, or several where it says 3x5
  int remarks = 0;        ///< rows that are only a note: no set is missing for them
  std::vector<std::string> understood{};  ///< how the file was read, where it could be otherwise
  std::vector<UnreadNote> unread{};       ///< in the order of lines

  /// How many rows could not be used.
  [[nodiscard]] int refused() const noexcept { return rows - rows_used - remarks; }
  /// Whether so much was refused that somebody should look before a plan rests on the others.
  [[nodiscard]] bool needs_confirmation() const noexcept {
    return refused() > 0 && refused() >= doubtful_share * rows;
  }

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
  /// Those of one group of `by_lifter`.
  [[nodiscard]] static std::vector<LoggedSet> sets_of(const std::vector<const LogEntry*>& group) {
    std::vector<LoggedSet> sets;
    sets.reserve(group.size());
    for (const LogEntry* const entry : group) sets.push_back(entry->set);
    return sets;
  }
  /// What rows that could not be read say of one lifter, named as in `lifters`, or of nobody who
  /// could be read: of each lift, and of what may be any, the last day of each kind. A row without
  /// a day counts as the lifter's last.
  [[nodiscard]] std::vector<NotedDay> unread_of(std::string_view lifter) const {
    if (unread.empty()) return {};
    const std::string plain = fields::plain(lifter);
    std::optional<Date> last;  // found where it is asked for: there may be many lifters
    std::vector<NotedDay> days;
    for (const UnreadNote& note : unread) {
      if (!note.lifter.empty() && note.lifter != plain) continue;
      if (!note.date && !last) last = last_day_of(lifter);
      const std::optional<Date> date = note.date ? note.date : last;
      if (!date) continue;
      const auto add = [&](bool is_said, bool NotedDay::*says) {
        if (is_said) keep_last(days, {.date = *date, .lift = note.lift}, says);
      };
      add(note.hurts, &NotedDay::hurts);
      add(note.is_unwell, &NotedDay::is_unwell);
      add(note.is_missed, &NotedDay::is_missed);
    }
    return days;
  }
  /// The unit that most loads of one lifter are written in.
  [[nodiscard]] Unit usual_unit(std::string_view lifter) const {
    std::vector<const LogEntry*> own;
    for (const LogEntry& entry : entries) {
      if (entry.lifter == lifter) own.push_back(&entry);
    }
    return usual_unit(own);
  }
  /// The unit that most of these are written in: for one group of `by_lifter`.
  [[nodiscard]] static Unit usual_unit(const std::vector<const LogEntry*>& group) noexcept {
    int more_kg = 0;
    for (const LogEntry* const entry : group) more_kg += entry->unit == Unit::kg ? 1 : -1;
    return more_kg < 0 ? Unit::lb : Unit::kg;
  }

 private:
  [[nodiscard]] std::optional<Date> last_day_of(std::string_view lifter) const {
    std::optional<Date> last;
    for (const LogEntry& entry : entries) {
      if (entry.lifter == lifter && (!last || *last < entry.set.date)) last = entry.set.date;
    }
    return last;
  }
  /// Adds a day that says one thing, or puts it in place of an earlier one of the same lift.
  static void keep_last(std::vector<NotedDay>& days, NotedDay day, bool NotedDay::*says) {
    day.*says = true;
    for (NotedDay& known : days) {
      const bool is_same_lift =
          known.lift && day.lift ? known.lift->same_as(*day.lift) : !known.lift && !day.lift;
      if (!is_same_lift || !(known.*says)) continue;
      if (known.date < day.date) known.date = day.date;
      return;
    }
    days.push_back(day);
  }
};

}  // namespace barwright::inline BARWRIGHT_ABI
