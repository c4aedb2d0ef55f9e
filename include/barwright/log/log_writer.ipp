// barwright/log/log_writer.ipp - the bodies of log_writer.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <tuple>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/log_entries.hpp"
#include "barwright/log/log_writer.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/miss_words.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline std::string csv_field(std::string_view text) {
  const bool has_margin = !text.empty() && (text.front() == ' ' || text.back() == ' ');
  if (!has_margin && text.find_first_of(",;\t\"\r\n") == std::string_view::npos) {
    return std::string(text);
  }
  std::string field = "\"";
  for (const char c : text) {
    if (c == '"') field += '"';
    field += c;
  }
  return field += '"';
}

namespace detail {

inline std::string reserve_field(const LoggedSet& set) {
  if (!set.reserve) return {};
  Text text;
  text.append(set.reserve->low.count());
  if (!set.reserve->is_exact()) text.append("-").append(set.reserve->high.count());
  return text.str();
}

/// A name that a spreadsheet would take for a formula gets an apostrophe in front, which the reader
/// takes off again.
inline std::string name_field(const std::string& name) {
  return csv_field(looks_like_formula(name) ? "'" + name : name);
}

inline std::string modifiers_field(const Lift& lift) {
  std::string names;
  for (const Modifier& modifier : lift.modifiers()) {
    if (!names.empty()) names += " + ";
    const bool is_one = modifier.name().find_first_of(",;+") == std::string_view::npos;
    names += is_one ? modifier.name() : modifier.key();
  }
  return names;
}

/// Words that are read as what a row says of pain.
inline std::string_view words_of_pain(bool hurts, bool is_unwell) {
  return hurts && is_unwell ? "unwell and pain" : hurts ? "pain" : is_unwell ? "unwell" : "";
}

/// What was written where it hurt, or words that are read as the same.
inline std::string complaint_of(const LogEntry& entry) {
  const LoggedSet& set = entry.set;
  if (!set.has_pain && !set.is_unwell) {
    const bool is_doubt = miss_in_note(entry.complaint).kind == MissInNote::may_be;
    if (set.may_be_missed && is_doubt) return entry.complaint;
    return set.may_hurt && may_mention_pain(entry.complaint) ? entry.complaint : "";
  }
  const bool says_it = mentions_hurt(entry.complaint) == set.has_pain &&
                       mentions_warning_sign(entry.complaint) == set.is_unwell;
  return says_it ? entry.complaint : std::string(words_of_pain(set.has_pain, set.is_unwell));
}

/// The outcome and the note. Where the note left the outcome open, it does so again.
inline std::string last_fields(const LogEntry& entry) {
  std::string note = complaint_of(entry);
  if (entry.set.outcome == Outcome::missed) return "missed," + name_field(note);
  if (!entry.set.may_be_missed) return "completed," + name_field(note);
  if (miss_in_note(note).kind != MissInNote::may_be)
    note = "missed?" + (note.empty() ? "" : ' ' + note);
  return ',' + name_field(note);
}

/// What rows say that gave no set, each day of each lifter and lift once.
class UnreadRows {
 public:
  UnreadRows(std::span<const UnreadNote> notes, std::span<const LogEntry> entries) : rest_(notes) {
    if (notes.empty()) return;
    for (const LogEntry& entry : entries) names_.emplace(fields::plain(entry.lifter), entry.lifter);
  }

  /// Writes those before a line of the log that was read; before line 0, all that are left.
  void write_before(int line, std::string& csv) {
    for (; !rest_.empty() && (line == 0 || rest_.front().line < line); rest_ = rest_.subspan(1)) {
      const UnreadNote& note = rest_.front();
      const std::string day = note.date ? to_text(*note.date).str() : std::string();
      std::string said(words_of_pain(note.hurts, note.is_unwell));
      if (note.is_missed) said += said.empty() ? "missed rep" : ". Missed rep";
      const std::string_view lift = note.lift ? note.lift->base().name : std::string_view{};
      if (!seen_.emplace(day, note.lifter, lift, said).second) continue;
      const auto known = names_.find(note.lifter);
      csv.append(day).append(",");
      csv +=
          name_field(known == names_.end() ? printable<std::string>(note.lifter) : known->second);
      csv.append(",").append(csv_field(lift)).append(",,,,,,,").append(said).append("\n");
    }
  }

 private:
  std::span<const UnreadNote> rest_;
  std::map<std::string, std::string> names_{};  // of lifters, by their plain ones
  std::set<std::tuple<std::string, std::string, std::string_view, std::string>> seen_{};
};

}  // namespace detail

inline std::string write_log(std::span<const LogEntry> entries,
                             std::span<const UnreadNote> unread) {
  std::string csv = "date,lifter,lift,modifiers,load,unit,reps,rir,outcome,note\n";
  detail::UnreadRows unread_rows(unread, entries);
  for (const LogEntry& entry : entries) {
    unread_rows.write_before(entry.line, csv);
    const LoggedSet& set = entry.set;
    csv += to_text(set.date).str();
    csv += ',';
    csv += detail::name_field(entry.lifter);
    csv += ',';
    csv += csv_field(set.lift.base().name);
    csv += ',';
    csv += csv_field(detail::modifiers_field(set.lift));
    csv += ',';
    csv += Text{}.append_rounded(set.load.in(entry.unit), 3).str();
    csv += ',';
    csv += to_text(entry.unit);
    csv += ',';
    csv += std::to_string(set.reps.count());
    csv += ',';
    csv += detail::reserve_field(set);
    csv += ',' + detail::last_fields(entry) + '\n';
  }
  unread_rows.write_before(0, csv);
  return csv;
}

}  // namespace barwright::inline BARWRIGHT_ABI
