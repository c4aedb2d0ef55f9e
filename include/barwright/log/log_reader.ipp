// barwright/log/log_reader.ipp - the bodies of log_reader.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/printable.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/encoding.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/log_checks.hpp"
#include "barwright/log/log_columns.hpp"
#include "barwright/log/log_entries.hpp"
#include "barwright/log/log_reader.hpp"
#include "barwright/log/log_row.hpp"
#include "barwright/log/miss_words.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/log/table.hpp"
#include "barwright/log/written_dates.hpp"
#include "barwright/log/written_row.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Reads one log.
class LogReading {
 public:
  using Header = LogRow::Header;
  using Column = LogColumns::Column;

  explicit LogReading(const LogOptions& options) : options_(options) {}

  Log read(std::string_view bytes) {
    const DecodedText decoded = decode(bytes);
    if (decoded.encoding == Encoding::none) {
      return failed("this is not plain text; save it as CSV in UTF-8");
    }
    const std::string_view text = decoded.of(bytes);
    CsvReader reader(text);
    CsvRecord first;
    if (!reader.next(first)) {
      return failed("there is nothing in it; the first line must name the columns");
    }
    LogHeading heading = read_heading(first, options_.columns);
    const auto header = Header::read(heading.names);
    if (!header.value || !heading.problem.empty()) {
      // A log, but for a column under another name.
      const auto& names = heading.names.fields;
      const auto found = std::count_if(
          LogColumns::required.begin(), LogColumns::required.end(), [&](Column column) {
            return std::find(names.begin(), names.end(), Header::name_of(column)) != names.end();
          });
      const bool is_log = found >= 2 && heading.problem.empty();
      if (is_log && found < static_cast<long>(LogColumns::required.size())) {
        log_.question = LogQuestion::column;
      }
      return failed("line " + std::to_string(first.line) + ": " + heading.problem + header.problem);
    }
    if (decoded.encoding == Encoding::windows_1252) {
      say("the text is no UTF-8; it is read as the code page Windows-1252");
    }
    for (std::string& remark : heading.remarks) say(std::move(remark));
    if (!header.value->has(Column::lifter)) {
      say("there is no column of lifters: all sets are those of " + options_.lifter);
    }
    WrittenFile file{.comma_is_decimal = reader.separator() != ',',
                     .year = options_.year,
                     .unit = heading.unit ? heading.unit : options_.unit,
                     .dumbbells = options_.dumbbells,
                     .lifter = options_.lifter,
                     .own_lifts = options_.own_lifts};
    if (std::string problem = survey(reader, *header.value, file); !problem.empty()) {
      return failed(std::move(problem));
    }
    find_other_columns(heading.names);
    read_rows(reader, *header.value, file);
    find_doubtful_names(log_);
    find_dates_out_of_order(log_);
    log_.reports.sort_by_line();
    if (log_.entries.empty()) {
      log_.failure =
          log_.rows == log_.remarks ? "there are no sets in it" : "not one line could be read";
    }
    return std::move(log_);
  }

 private:
  Log failed(std::string why) {
    log_.failure = std::move(why);
    return std::move(log_);
  }
  std::string ask(LogQuestion question, std::string what) {
    log_.question = question;
    return what;
  }
  void say(std::string what) { log_.understood.push_back(std::move(what)); }

  /// Looks through all rows for how dates and loads are written. Empty, or what must be asked.
  /// @param reader  a copy: the rows are read again
  std::string survey(CsvReader reader, const Header& header, WrittenFile& file) {
    DateEvidence dates;
    int without_unit = 0;
    int rows = 0;
    CsvRecord row;
    while (reader.next(row)) {
      if (row.is_empty() && row.fault == CsvFault::none) continue;
      if (misfit(row, header.size(), reader)) continue;
      const std::string_view date = header.get(row, Column::date);
      if (!parse_date(date)) {
        if (const auto written = take_date_apart(date)) dates.add(*written, row.line);
      }
      ++rows;
      if (file.unit || !header.get(row, Column::unit).empty()) continue;
      const auto load = take_load_apart(header.get(row, Column::load), file.comma_is_decimal);
      const bool is_body_alone = load && load->is_added && load->number == "0";
      without_unit += load && !load->unit && !is_body_alone ? 1 : 0;
    }
    if (without_unit > 0 && without_unit == rows) {
      return ask(LogQuestion::unit,
                 "nothing says whether loads are kg or lb: name the column \"load (kg)\", or say "
                 "the unit");
    }
    if (without_unit > 0 && without_unit >= doubtful_share * rows) {
      return ask(LogQuestion::unit,
                 std::to_string(without_unit) + " of " + std::to_string(rows) +
                     " rows do not say whether their load is kg or lb; say the unit of those");
    }
    return find_date_order(dates, file);
  }

  std::string find_date_order(const DateEvidence& dates, WrittenFile& file) {
    if (dates.needs_year() && !file.year)
      return ask(LogQuestion::year, "there are dates without a year; say which it is");
    if (dates.needs_year()) say("dates without a year are of " + std::to_string(*file.year));
    if (!dates.matters()) return {};
    file.dates = options_.dates != DateOrder::unknown ? options_.dates : dates.order();
    if (file.dates == DateOrder::unknown && dates.is_contradictory()) {
      return ask(LogQuestion::date_order,
                 "line " + std::to_string(dates.day_first_line()) + " has the day first, line " +
                     std::to_string(dates.month_first_line()) +
                     " the month; say which is right, and the other lines are refused");
    }
    if (file.dates == DateOrder::unknown) {
      return ask(LogQuestion::date_order,
                 "no date in it tells whether the day or the month comes first; say which");
    }
    std::string text = file.dates == DateOrder::day_first ? "the day comes first in its dates"
                                                          : "the month comes first in its dates";
    const int line =
        file.dates == DateOrder::day_first ? dates.day_first_line() : dates.month_first_line();
    if (line > 0) text += ", as line " + std::to_string(line) + " can be nothing else";
    say(std::move(text));
    return {};
  }

  struct OtherColumn {
    std::size_t place = 0;
    std::string name{};          ///< as it may be printed
    bool asks_for_pain = false;  ///< by its name
    bool has_text = false;       ///< in some row
  };

  /// The columns that are not read: they may still say that it hurt, or that a rep was missed.
  void find_other_columns(const CsvRecord& names) {
    for (std::size_t i = 0; i < names.fields.size(); ++i) {
      const std::string name = fields::plain(names.fields[i]);
      const auto& ours = LogColumns::names;
      if (std::find(ours.begin(), ours.end(), name) != ours.end()) continue;
      const auto begins = [&](std::string_view word) { return name.rfind(word, 0) == 0; };
      const bool asks = begins("pain") || begins("injur") || begins("hurt");
      if (asks) {
        say("the column \"" + printable<std::string>(names.fields[i]) +
            "\": what stands there, but for no, none or 0, is that it hurt");
      }
      others_.push_back({.place = i,
                         .name = printable<std::string>(fields::trimmed(names.fields[i])),
                         .asks_for_pain = asks});
    }
  }
  /// What such a column says of pain; empty where it says none.
  [[nodiscard]] std::string_view complaint_in(const OtherColumn& column,
                                              const CsvRecord& row) const {
    if (column.place >= row.fields.size()) return {};
    const std::string_view field = fields::trimmed(row.fields[column.place]);
    // A muscle group may stand alone in such a column, a joint that clicks is a remark.
    const bool is_asked = may_mention_pain(field) && !is_joint_alone(field);
    if (mentions_pain(field) || (is_asked && !column.asks_for_pain)) return field;
    if (!column.asks_for_pain || field.empty() || field[0] == '0' || field[0] == '-') return {};
    constexpr std::array<std::string_view, 6> no{"no", "none", "n", "false", "n/a", "nil"};
    return std::find(no.begin(), no.end(), fields::plain(field)) == no.end() ? field
                                                                             : std::string_view{};
  }
  /// Whether what such a column says is that it hurt: by its words, or by the column's name.
  [[nodiscard]] static bool hurts_by(const OtherColumn& column, std::string_view said) {
    if (said.empty()) return false;
    return mentions_hurt(said) || (column.asks_for_pain && !mentions_warning_sign(said));
  }
  [[nodiscard]] bool others_say_pain(const CsvRecord& row) const {
    return std::any_of(others_.begin(), others_.end(), [&](const OtherColumn& column) {
      const std::string_view said = complaint_in(column, row);
      return hurts_by(column, said);
    });
  }
  /// What such a column says of a rep that may have been missed: what it is a column of is not
  /// known, so not even a clear word is taken for certain.
  [[nodiscard]] std::string_view miss_in_others(const CsvRecord& row) {
    std::string_view said;
    for (OtherColumn& column : others_) {
      if (column.asks_for_pain || column.place >= row.fields.size()) continue;
      const std::string_view field = fields::trimmed(row.fields[column.place]);
      const auto is_letter = [](char c) {
        return ('a' <= c && c <= 'z') || ('A' <= c && c <= 'Z');
      };
      column.has_text = column.has_text || !field.empty();
      if (said.empty() && std::any_of(field.begin(), field.end(), is_letter) &&
          miss_in_note(field).kind != MissInNote::none) {
        said = field;
      }
    }
    return said;
  }
  /// Whoever wrote something there meant it to count.
  void name_unused_columns() {
    std::string unused;
    std::string first;
    for (const OtherColumn& column : others_) {
      if (!column.has_text || column.name.empty()) continue;
      if (first.empty()) first = column.name;
      unused.append(unused.empty() ? "" : ", ").append(column.name);
    }
    if (unused.empty()) return;
    std::string remark = "columns not used: ";
    remark.append(unused).append("; one that is a column of this log can be named, as in \"");
    say(remark.append(first).append("=note\""));
  }
  void take_complaints_of_others(LogEntry& entry, const CsvRecord& row) const {
    for (const OtherColumn& column : others_) {
      const std::string_view said = complaint_in(column, row);
      if (said.empty()) continue;
      entry.set.has_pain = entry.set.has_pain || hurts_by(column, said);
      take_complaint(entry, said);
      if (entry.complaint.empty()) entry.complaint = "pain: " + quoted(said);
    }
  }
  static constexpr std::size_t most_unread = 10'000;  // notes of rows that gave no set

  /// Whether a miss holds the next load: of what lift and when it was has to be known well enough.
  void keep_if_held(UnreadNote& note, std::string_view lift, bool is_remark) const {
    // A lift that nobody can plan here, as its name is like none of the catalogue's, says nothing
    // of those that are.
    const bool is_asked = log_.unread.size() < most_unread;  // it takes some time
    if (is_asked && !lift.empty() && !note.lift && options_.own_lifts.empty() &&
        !fields::whole_variation(lift) && fields::near_lift_names(lift).empty()) {
      note.is_missed = false;
      return;
    }
    if (note.date) return;
    // A remark without a day is no set of the last one. A row is taken to be of the day of the set
    // before it.
    note.is_missed = !is_remark && !note.hurts && !note.is_unwell && !log_.entries.empty();
    if (note.is_missed) note.date = log_.entries.back().set.date;
  }
  /// Keeps what a row that gives no set says all the same: of pain, of the whole person, of a rep
  /// that was missed. Whether it says anything.
  bool keep_what_counts(const CsvRecord& row, const Header& header, const WrittenFile& file,
                        RowWords& words, bool is_remark) {
    const auto field_of = [&](Column column) {
      const auto place = header.place_of(column);
      return place && *place < row.fields.size() ? fields::trimmed(row.fields[*place])
                                                 : std::string_view{};
    };
    const std::string_view lifter = field_of(Column::lifter);
    const auto any_says = [&](auto&& says) {
      return (row.fault != CsvFault::none && says(row.text)) ||
             std::any_of(row.fields.begin(), row.fields.end(), [&](std::string_view field) {
               return fields::trimmed(field) != lifter && says(field);
             });
    };
    // What a lift, a load or a day is says nothing of a miss.
    const auto is_of_set = [&](std::string_view field) {
      return field.size() > 3 && field != field_of(Column::lift) &&
             field != field_of(Column::date) && field != field_of(Column::modifiers) &&
             std::any_of(field.begin(), field.end(), is_letter);
    };
    // "Missed Monday" is a remark on the week; of a set that was meant, any word of a miss counts.
    const auto says_miss = [&](std::string_view field) {
      if (!is_of_set(fields::trimmed(field))) return false;
      const MissInNote kind = miss_in_note(field).kind;
      return kind == MissInNote::clear || (kind == MissInNote::may_be && !is_remark);
    };
    UnreadNote note{.line = row.line,
                    .lifter = fields::plain(without_apostrophe(lifter)),
                    .is_unwell = any_says(mentions_warning_sign)};
    // What a column for pain says need not be a word of pain.
    note.hurts = any_says(mentions_hurt) || others_say_pain(row);
    note.is_missed =
        any_says(says_miss) || outcome_as_written(field_of(Column::outcome)) == "missed";
    if (!header.has(Column::lifter)) note.lifter = fields::plain(options_.lifter);
    note.date = parse_date(field_of(Column::date));
    if (const auto written = take_date_apart(field_of(Column::date)); !note.date && written) {
      note.date = day_of(*written, file.dates, file.year);
    }
    // What stands in a row without an end may be of another lift.
    if (row.fault == CsvFault::none) note.lift = words.plain_lift(field_of(Column::lift));
    if (note.is_missed) keep_if_held(note, field_of(Column::lift), is_remark);
    if (!note.hurts && !note.is_unwell && !note.is_missed) return false;
    std::string what = note.is_unwell ? "dizziness, chest pain or the like"
                       : note.hurts   ? "pain"
                                      : "";
    if (note.is_missed) what += what.empty() ? "a missed rep" : " and a missed rep";
    const bool is_of_all = header.has(Column::lifter) && lifter.empty();
    log_.reports.add({.verdict = Verdict::remark,
                      .line = row.line,
                      .text = "it speaks of " + what + ": that counts" +
                              (is_of_all ? " for everybody, as no lifter is named" : "") +
                              ", although the rest is not used"});
    if (log_.unread.size() < most_unread) {
      log_.unread.push_back(std::move(note));
    } else {
      UnreadNote& last = log_.unread.back();
      last = {.line = row.line,
              .hurts = note.hurts || last.hurts,
              .is_unwell = note.is_unwell || last.is_unwell,
              .is_missed = note.is_missed || last.is_missed};  // of any lift
    }
    return true;
  }

  void read_rows(CsvReader& reader, const Header& header, const WrittenFile& file) {
    RowsSeen seen;
    KnownLifts lifts;
    RowWords words(header, file);
    const Header of_all = Header::of_all();
    CsvRecord row;
    while (reader.next(row)) {
      if (row.is_empty() && row.fault == CsvFault::none) continue;  // a spreadsheet's empty row
      ++log_.rows;
      auto problem = misfit(row, header.size(), reader);
      const LogRow as_written(log_.reports, header, row, lifts);
      if (!problem && as_written.is_remark()) {
        ++log_.remarks;
        if (keep_what_counts(row, header, file, words, true)) continue;
        log_.reports.add({.verdict = Verdict::remark,
                          .line = row.line,
                          .text = "a remark without a set: not used"});
        continue;
      }
      if (!problem && as_written.may_be_remark_on_lift() &&
          keep_what_counts(row, header, file, words, false)) {
        ++log_.remarks;
        continue;
      }
      if (!problem) {
        problem = seen.add(row, header.get(row, Column::date), header.has(Column::set));
      }
      if (problem) {
        log_.reports.add(
            {.verdict = Verdict::refused, .line = row.line, .text = std::move(*problem)});
        (void)keep_what_counts(row, header, file, words, false);
        continue;
      }
      const CsvRecord& put = words.put(row);
      if (auto entry = LogRow(log_.reports, of_all, put, lifts, options_.own_lifts,
                              options_.ratings_are_told)
                           .read()) {
        take_complaints_of_others(*entry, row);
        entry->set.may_be_missed = words.may_be_missed();
        keep_doubt(*entry, of_all.get(put, Column::note));
        if (const auto said = miss_in_others(row);
            !said.empty() && entry->set.outcome != Outcome::missed) {
          entry->set.may_be_missed = true;
          keep_doubt(*entry, said);
        }
        add(std::move(*entry), words);
      } else {
        (void)keep_what_counts(row, header, file, words, false);
      }
    }
    for (std::string& remark : words.understood()) say(std::move(remark));
    name_unused_columns();
    if (rows_of_many_ > 0) {
      say(std::to_string(rows_of_many_) + (rows_of_many_ == 1 ? " row is" : " rows are") +
          " several sets; what was left, or missed, is that of the last");
    }
  }

  /// Adds the sets of a row: what was left, or missed, is that of the last.
  void add(LogEntry entry, RowWords& words) {
    constexpr std::size_t most_sets = 1'000'000;
    const std::vector<int>& reps = words.reps_of_sets();
    if (reps.size() > 1 && log_.entries.size() + reps.size() > most_sets) {
      log_.reports.add({.verdict = Verdict::refused,
                        .line = entry.line,
                        .text = "there are 1,000,000 sets before it; write one in a row"});
      return;
    }
    ++log_.rows_used;
    if (reps.size() > 1) ++rows_of_many_;
    for (LineReport& doubt : words.doubts()) log_.reports.add(std::move(doubt));
    entry.lifter = spelling_.try_emplace(fields::plain(entry.lifter), entry.lifter).first->second;
    for (std::size_t i = 0; i + 1 < reps.size(); ++i) {
      LogEntry earlier = entry;
      earlier.set.reps = Reps(reps[i]);
      earlier.set.reserve.reset();
      earlier.set.outcome = Outcome::completed;
      earlier.set.may_be_missed = false;
      log_.entries.push_back(std::move(earlier));
    }
    log_.entries.push_back(std::move(entry));
  }

  const LogOptions& options_;
  Log log_{};
  std::vector<OtherColumn> others_{};
  int rows_of_many_ = 0;
  std::map<std::string, std::string> spelling_{};  // of lifters, as first written
};

}  // namespace detail

inline Log read_log(std::string_view bytes, const LogOptions& options) {
  return detail::LogReading(options).read(bytes);
}

}  // namespace barwright::inline BARWRIGHT_ABI
