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
// row uses. The CSV itself is taken apart by libcsv; this file knows what the fields mean.
//
// A row that cannot be read is refused, and the others are still used. A row that can be read but
// looks wrong is doubtful: it is used, except for a load far above the lifter's others, which is
// set aside. Every such row gets a Report with its line.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <csv.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <ostream>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"

namespace squad_log {

namespace bw = barwright;

// ---- CSV: rows of fields, with line numbers

/// One row of the file.
struct Row {
  int line = 0;       ///< where it starts, counted from 1
  int last_line = 0;  ///< where it ends: a quoted field may hold line breaks
  std::vector<std::string> fields{};
  bool is_closed = true;  ///< false: a quotation mark was opened and never closed
};

/// Takes a text apart row by row, and can go back to the second line of the last row.
class CsvReader {
 public:
  explicit CsvReader(std::string_view text) : text_(with_plain_line_ends(text)) {
    // The first row decides how fields are parted.
    const std::string_view first = std::string_view(text_).substr(0, text_.find('\n'));
    for (const char candidate : {';', '\t'}) {
      const auto count = [&](char c) { return std::count(first.begin(), first.end(), c); };
      if (count(candidate) > count(delimiter_)) delimiter_ = candidate;
    }
  }

  [[nodiscard]] char delimiter() const { return delimiter_; }

  /// The next row that is not blank; nothing at the end.
  std::optional<Row> next() {
    skip_blank_lines();
    if (position_ == text_.size()) return std::nullopt;
    row_position_ = position_;
    Row row{.line = line_, .last_line = line_};
    struct State {
      std::vector<std::string>* fields;
      bool ended;
    } state{.fields = &row.fields, .ended = false};

    csv_parser parser;
    csv_init(&parser, 0);
    csv_set_delim(&parser, static_cast<unsigned char>(delimiter_));
    while (!state.ended && position_ < text_.size()) {
      const char letter = text_[position_++];
      row.last_line = line_;
      if (letter == '\n') ++line_;
      csv_parse(
          &parser, &letter, 1,
          [](void* field, std::size_t size, void* data) {
            static_cast<State*>(data)->fields->emplace_back(static_cast<const char*>(field), size);
          },
          [](int, void* data) { static_cast<State*>(data)->ended = true; }, &state);
    }
    csv_free(&parser);
    row.is_closed = state.ended;
    return row;
  }

  /// Reads on at the second line of `row`, the last one read.
  void go_back_into(const Row& row) {
    position_ = text_.find('\n', row_position_) + 1;
    line_ = row.line + 1;
  }

 private:
  /// Without a byte order mark, with \n for every line end, and one at the end.
  static std::string with_plain_line_ends(std::string_view text) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.substr(0, 3) == byte_order_mark) text.remove_prefix(3);
    std::string plain;
    plain.reserve(text.size() + 1);
    for (std::size_t i = 0; i < text.size(); ++i) {
      const bool is_pair = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
      if (!is_pair) plain += text[i] == '\r' ? '\n' : text[i];
    }
    if (plain.empty() || plain.back() != '\n') plain += '\n';
    return plain;
  }

  void skip_blank_lines() {
    while (position_ < text_.size()) {
      const std::size_t end = text_.find('\n', position_);
      if (text_.find_first_not_of(" \t", position_) < end) return;
      position_ = end + 1;
      ++line_;
    }
  }

  std::string text_;
  char delimiter_ = ',';
  std::size_t position_ = 0;
  std::size_t row_position_ = 0;
  int line_ = 1;
};

// ---- what a log holds

/// One set, and where it stands.
struct Entry {
  int line = 0;
  std::string lifter{};
  bw::LoggedSet set;
  bool is_set_aside = false;  ///< so doubtful that nothing should be estimated from it
};

/// How bad a line is.
enum class Verdict : unsigned char {
  refused,   ///< could not be read: not used
  doubtful,  ///< read, but looks like a mistake
  remark,    ///< read, with something worth knowing
};

inline std::string_view to_text(Verdict verdict) {
  switch (verdict) {
    case Verdict::refused: return "refused";
    case Verdict::doubtful: return "doubtful";
    case Verdict::remark: return "note";
  }
  return "";
}

/// What is said about one line.
struct Report {
  Verdict verdict = Verdict::refused;
  int line = 0;
  std::string column{};  ///< empty: the whole line
  std::string value{};
  std::string text{};  ///< what is allowed, or what to look at
};

/// A log, read.
struct Log {
  std::string name{};     ///< the file's
  std::string failure{};  ///< why nothing could be read at all; empty when something was
  std::vector<Entry> entries{};
  std::vector<Report> reports{};  ///< in the order of lines
  int rows = 0;                   ///< rows with anything in them, without the first

  [[nodiscard]] int refused() const { return rows - static_cast<int>(entries.size()); }
  [[nodiscard]] int set_aside() const {
    return static_cast<int>(std::count_if(entries.begin(), entries.end(),
                                          [](const Entry& entry) { return entry.is_set_aside; }));
  }
};

/// "club.csv:17: refused: reps "0": repetitions must be a whole number from 1 to 100; got 0"
inline void print(std::ostream& out, const Log& log, const Report& report) {
  out << log.name << ':' << report.line << ": " << to_text(report.verdict) << ": ";
  if (!report.column.empty()) out << report.column << " \"" << report.value << "\": ";
  out << report.text << '\n';
}

// ---- names as people type them

/// Lower case, single spaces.
inline std::string plain(std::string_view text) {
  return std::string(bw::detail::normalised(text).view());
}

/// The letters by which two names differ, capitals and spaces aside.
inline std::size_t distance(std::string_view a, std::string_view b) {
  return bw::detail::edit_distance(plain(a), plain(b));
}

/// "bench press, squat or deadlift"
template <class Names>
std::string one_of(const Names& names) {
  std::string text;
  std::size_t left = names.size();
  for (const auto& name : names) {
    text += name;
    --left;
    if (left > 0) text += left == 1 ? " or " : ", ";
  }
  return text;
}

/// At most `count` of `names`, the nearest to `text` first.
inline std::vector<std::string> nearest(std::string_view text, std::vector<std::string> names,
                                        std::size_t count = 3) {
  std::stable_sort(names.begin(), names.end(), [&](const std::string& a, const std::string& b) {
    return distance(text, a) < distance(text, b);
  });
  if (names.size() > count) names.resize(count);
  return names;
}

// ---- one field at a time

/// A value, or what is wrong with the text it was to be read from.
template <class T>
struct Parsed {
  std::optional<T> value{};
  std::string problem{};
};

inline std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\n") - first + 1);
}

/// The number that `text` is, all of it.
inline std::optional<double> to_number(std::string_view text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// Turns the error of a value type into a problem.
template <class T, class Make>
Parsed<T> checked(Make make) {
  try {
    return {.value = make(), .problem = {}};
  } catch (const bw::DomainError& error) {
    return {.value = std::nullopt, .problem = error.what()};
  }
}

inline Parsed<bw::Date> to_date(std::string_view text) {
  if (const auto date = bw::parse_date(text)) return {.value = date, .problem = {}};
  return {.value = std::nullopt,
          .problem = "a date must be a day that exists, as year-month-day: 2026-11-25"};
}

inline Parsed<bw::Unit> to_unit(std::string_view text) {
  const std::string unit = plain(text);
  if (unit == "kg" || unit == "kgs") return {.value = bw::Unit::kg, .problem = {}};
  if (unit == "lb" || unit == "lbs") return {.value = bw::Unit::lb, .problem = {}};
  return {.value = std::nullopt, .problem = "a unit must be kg or lb"};
}

inline Parsed<bw::Mass> to_load(std::string_view text, bw::Unit unit) {
  const auto value = to_number(text);
  if (!value) {
    const bool has_comma = text.find(',') != std::string_view::npos;
    return {.value = std::nullopt,
            .problem = has_comma ? "a load must be a number with a point for its fraction: 62.5"
                                 : "a load must be a number, without its unit: 62.5"};
  }
  return checked<bw::Mass>([&] { return bw::Mass::from(*value, unit); });
}

inline Parsed<bw::Reps> to_reps(std::string_view text) {
  const auto count = to_number(text);
  if (!count || *count != std::trunc(*count) || std::abs(*count) > 1e6) {
    return {.value = std::nullopt, .problem = "repetitions must be a whole number from 1 to 100"};
  }
  return checked<bw::Reps>([&] { return bw::Reps(static_cast<int>(*count)); });
}

using Reserve = bw::Range<bw::RepsInReserve>;

/// "2", "2.5" or "2-3".
inline Parsed<Reserve> to_reserve(std::string_view text) {
  constexpr std::string_view allowed =
      "repetitions in reserve must be a number from 0 to 30 in steps of 0.5, or two such numbers "
      "as in 2-3";
  constexpr std::string_view en_dash = "\xE2\x80\x93";
  std::size_t dash = text.find('-', 1);
  std::size_t after = dash + 1;
  if (const std::size_t at = text.find(en_dash); at != std::string_view::npos) {
    dash = at;
    after = at + en_dash.size();
  }
  const bool is_range = dash != std::string_view::npos;
  const auto low = to_number(trimmed(is_range ? text.substr(0, dash) : text));
  const auto high = is_range ? to_number(trimmed(text.substr(after))) : low;
  if (!low || !high || *low > *high) {
    return {.value = std::nullopt, .problem = std::string(allowed)};
  }
  return checked<Reserve>([&] {
    const double middle = std::floor(*low + *high) / 2.0;  // on a half
    return Reserve(bw::RepsInReserve(*low), bw::RepsInReserve(middle), bw::RepsInReserve(*high));
  });
}

inline Parsed<bw::Rpe> to_rpe(std::string_view text) {
  const auto rating = to_number(text);
  if (!rating) {
    return {.value = std::nullopt,
            .problem =
                "a rating of perceived exertion must be a number from 1 to 10 in steps of "
                "0.5"};
  }
  return checked<bw::Rpe>([&] { return bw::Rpe(*rating); });
}

inline Parsed<bw::Outcome> to_outcome(std::string_view text) {
  const std::string outcome = plain(text);
  if (outcome.empty() || outcome == "completed") {
    return {.value = bw::Outcome::completed, .problem = {}};
  }
  if (outcome == "missed") return {.value = bw::Outcome::missed, .problem = {}};
  return {.value = std::nullopt, .problem = "an outcome must be completed, missed or nothing"};
}

inline Parsed<bw::BaseLift> to_base_lift(std::string_view text) {
  if (const bw::BaseLift* lift = bw::catalogue::find_lift(text)) {
    return {.value = *lift, .problem = {}};
  }
  std::string problem = "a lift must be one of the catalogue; nearest: " +
                        one_of(bw::catalogue::nearest_lift_names(text));
  if (const bw::Modifier* modifier = bw::catalogue::find_modifier(text)) {
    problem = "a lift must be one of the catalogue; \"" + std::string(modifier->name()) +
              "\" changes one and belongs among the modifiers";
  }
  return {.value = std::nullopt, .problem = problem};
}

/// `base` with the modifiers named in `text`, parted by ; + or ,
inline Parsed<bw::Lift> to_lift(const bw::BaseLift& base, std::string_view text) {
  bw::Lift lift = base;
  std::vector<std::string_view> names;
  if (bw::catalogue::find_modifier(text, base) != nullptr) {
    names.push_back(text);  // a name may hold a comma
  } else {
    for (std::size_t start = 0; start <= text.size();) {
      const std::size_t end = std::min(text.find_first_of(";+,", start), text.size());
      const std::string_view name = trimmed(text.substr(start, end - start));
      if (!name.empty()) names.push_back(name);
      start = end + 1;
    }
  }
  for (const std::string_view name : names) {
    const bw::Modifier* modifier = bw::catalogue::find_modifier(name, base);
    if (modifier == nullptr) {
      const std::string of = std::string(base.name);
      if (bw::catalogue::find_modifier(name) != nullptr) {
        return {.value = std::nullopt,
                .problem = "\"" + std::string(name) + "\" is not a modifier of the " + of};
      }
      const auto names_near = bw::catalogue::nearest_modifier_names(name, base);
      return {.value = std::nullopt,
              .problem =
                  "\"" + std::string(name) + "\" must be a modifier of the " + of +
                  (names_near.empty() ? ", which has none" : "; nearest: " + one_of(names_near))};
    }
    auto sum = checked<bw::Lift>([&] { return lift + *modifier; });
    if (!sum.value) return sum;
    lift = *sum.value;
  }
  return {.value = lift, .problem = {}};
}

// ---- the columns

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

inline constexpr std::array<std::string_view, 11> column_names{
    "date", "lifter", "lift", "modifiers", "load", "unit", "reps", "rir", "rpe", "outcome", "set"};
inline constexpr std::array required_columns{Column::date, Column::lifter, Column::lift,
                                             Column::load, Column::unit,   Column::reps};

/// Which field of a row belongs to which column.
class Header {
 public:
  /// Reads the first row; `problem` says why it will not do.
  static Parsed<Header> read(const Row& row) {
    Header header;
    header.fields_ = row.fields.size();
    std::vector<std::string> unknown;
    for (std::size_t field = 0; field < row.fields.size(); ++field) {
      const std::string name = plain(row.fields[field]);
      const auto known = std::find(column_names.begin(), column_names.end(), name);
      if (known == column_names.end()) {
        unknown.push_back(name);
        continue;
      }
      auto& place = header.places_[static_cast<std::size_t>(known - column_names.begin())];
      if (place)
        return {.value = std::nullopt, .problem = "the column " + name + " is there twice"};
      place = field;
    }
    // A misspelt optional column would be missed by nobody, and change what every set means.
    std::string problem;
    for (std::size_t i = 0; i < column_names.size(); ++i) {
      if (header.places_[i]) continue;
      for (const std::string& name : unknown) {
        const std::size_t letters = distance(name, column_names[i]);
        if (!name.empty() && letters <= 2 && letters < column_names[i].size() / 2) {
          problem += "the column \"" + name + "\" is not known; is it \"" +
                     std::string(column_names[i]) + "\"? ";
        }
      }
    }
    for (const Column column : required_columns) {
      if (!header.has(column)) {
        problem += "the column \"" + std::string(name_of(column)) + "\" is missing; ";
      }
    }
    if (problem.empty()) return {.value = header, .problem = {}};
    problem += "found: ";
    for (const std::string& name : row.fields) {
      problem += (&name == &row.fields.front() ? "" : ", ") + name;
    }
    return {.value = std::nullopt, .problem = problem};
  }

  [[nodiscard]] static std::string_view name_of(Column column) {
    return column_names[static_cast<std::size_t>(column)];
  }
  [[nodiscard]] bool has(Column column) const { return place(column).has_value(); }
  [[nodiscard]] std::string_view get(const Row& row, Column column) const {
    return has(column) ? trimmed(row.fields[*place(column)]) : std::string_view{};
  }
  [[nodiscard]] std::size_t fields() const { return fields_; }

 private:
  [[nodiscard]] const std::optional<std::size_t>& place(Column column) const {
    return places_[static_cast<std::size_t>(column)];
  }

  std::array<std::optional<std::size_t>, column_names.size()> places_{};
  std::size_t fields_ = 0;
};

// ---- one row

/// Reads one row into an entry, reporting every field that will not do.
class RowReader {
 public:
  RowReader(Log& log, const Header& header, const Row& row)
      : log_(log), header_(header), row_(row) {}

 private:
  template <class Parse>
  auto take(Column column, Parse parse) {
    auto parsed = parse(header_.get(row_, column));
    if (!parsed.value) refuse(column, parsed.problem);
    return parsed.value;
  }

 public:
  std::optional<Entry> read() {
    const std::string lifter(header_.get(row_, Column::lifter));
    if (lifter.empty()) refuse(Column::lifter, "a lifter must have a name");
    const auto date = take(Column::date, to_date);
    const auto base = take(Column::lift, to_base_lift);
    std::optional<bw::Lift> lift;
    if (base) {
      lift = take(Column::modifiers, [&](std::string_view text) { return to_lift(*base, text); });
    }
    const auto unit = take(Column::unit, to_unit);
    // The number is checked even where the unit is no good.
    const auto load = take(Column::load, [&](std::string_view text) {
      return to_load(text, unit.value_or(bw::Unit::kg));
    });
    const auto reps = take(Column::reps, to_reps);
    const auto outcome = take(Column::outcome, to_outcome);
    const std::optional<Reserve> reserve = take_reserve();
    if (is_refused_) return std::nullopt;

    Entry entry{.line = row_.line,
                .lifter = lifter,
                .set = {.date = *date,
                        .lift = *lift,
                        .load = *load,
                        .reps = *reps,
                        .reserve = reserve,
                        .outcome = *outcome}};
    if (*outcome == bw::Outcome::missed && reserve && reserve->high.count() > 0.0) {
      doubt(header_.get(row_, Column::rir).empty() ? Column::rpe : Column::rir,
            "a missed set has nothing left; the rating is not used");
      entry.set.reserve.reset();
    }
    return entry;
  }

 private:
  void report(Verdict verdict, Column column, std::string text) {
    log_.reports.push_back({.verdict = verdict,
                            .line = row_.line,
                            .column = std::string(Header::name_of(column)),
                            .value = std::string(header_.get(row_, column)),
                            .text = std::move(text)});
  }
  void refuse(Column column, std::string text) {
    is_refused_ = true;
    report(Verdict::refused, column, std::move(text));
  }
  void doubt(Column column, std::string text) {
    report(Verdict::doubtful, column, std::move(text));
  }

  /// From rir, from rpe in its place, or from both when they agree to half a repetition.
  std::optional<Reserve> take_reserve() {
    std::optional<Reserve> reserve;
    if (!header_.get(row_, Column::rir).empty()) {
      reserve = take(Column::rir, to_reserve);
      if (reserve && reserve->typical.count() > 5.0 && reserve->typical.count() <= 10.0) {
        doubt(Column::rir,
              "a rating of exertion in place of a reserve? Read as written; so far from failure it "
              "counts for little");
      }
    }
    if (header_.get(row_, Column::rpe).empty()) return reserve;
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
      refuse(Column::rpe, "contradicts the rir \"" + std::string(header_.get(row_, Column::rir)) +
                              "\": one of the two must be mistyped");
    }
    return reserve;
  }

  Log& log_;
  const Header& header_;
  const Row& row_;
  bool is_refused_ = false;
};

// ---- what only several rows together show

/// Repetitions tried at this load, read as a max; the load itself where the set was not rated.
inline bw::Mass implied_max(const bw::LoggedSet& set) {
  return bw::one_rep_max(bw::anchored(bw::equations::wathen), set).value_or(set.load);
}

/// Sets aside loads far above what the lifter's other sessions of that lift make possible, and
/// names those far below that were near failure: pounds and kilograms taken for each other.
inline void find_doubtful_loads(Log& log) {
  constexpr double far_above = 1.5;
  constexpr double far_below = 0.55;
  constexpr std::size_t fewest_sessions = 3;
  constexpr std::size_t neighbours = 8;
  std::map<std::pair<std::string, bw::Lift>, std::vector<Entry*>> groups;
  for (Entry& entry : log.entries) {
    if (entry.set.load > bw::Mass{}) groups[{entry.lifter, entry.set.lift}].push_back(&entry);
  }
  for (auto& [key, entries] : groups) {
    std::map<bw::Date, bw::Mass> best;  // of each session
    for (const Entry* entry : entries) {
      bw::Mass& session = best[entry->set.date];
      session = std::max(session, implied_max(entry->set));
    }
    if (best.size() <= fewest_sessions) continue;
    for (Entry* entry : entries) {
      // The median of the sessions nearest in time, so that years of progress do not matter.
      std::vector<std::pair<int, bw::Mass>> others;
      for (const auto& [date, max] : best) {
        if (date != entry->set.date) others.emplace_back(std::abs(date - entry->set.date), max);
      }
      std::sort(others.begin(), others.end());
      others.resize(std::min(others.size(), neighbours));
      std::sort(others.begin(), others.end(),
                [](const auto& a, const auto& b) { return a.second < b.second; });
      const bw::Mass usual = others[others.size() / 2].second;
      const double share = implied_max(entry->set) / usual;
      const bool is_near_failure = entry->set.outcome == bw::Outcome::missed ||
                                   (entry->set.reserve && entry->set.reserve->typical.count() <= 3);
      const bool is_above = share > far_above;
      if (!is_above && !(is_near_failure && share < far_below)) continue;
      entry->is_set_aside = is_above;
      std::ostringstream text;
      text << "with " << entry->set.reps.count() << " repetitions that is "
           << bw::Text{}.append_rounded(100.0 * share, 0) << " % of what " << entry->lifter
           << " does in other sessions";
      const double in_other_unit =
          is_above ? share * bw::Mass::kg_per_lb : share / bw::Mass::kg_per_lb;
      if (in_other_unit > 0.8 && in_other_unit < 1.25) {
        text << (is_above ? "; pounds typed as kilograms?" : "; kilograms typed as pounds?");
      }
      if (is_above) text << " Set aside: nothing is estimated from it";
      log.reports.push_back({.verdict = Verdict::doubtful,
                             .line = entry->line,
                             .column = "load",
                             .value = std::string(bw::to_text(entry->set.load).view()),
                             .text = text.str()});
    }
  }
}

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
  if (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF" ||
      text.find('\0') != std::string_view::npos) {
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
    const bool is_empty = std::all_of(row->fields.begin(), row->fields.end(),
                                      [](const std::string& field) { return field.empty(); });
    if (is_empty) continue;  // a spreadsheet's empty row
    ++log.rows;
    const auto refuse = [&](std::string why) {
      log.reports.push_back(
          {.verdict = Verdict::refused, .line = row->line, .text = std::move(why)});
    };
    while (row->fields.size() > header.value->fields() && row->fields.back().empty()) {
      row->fields.pop_back();
    }
    if (!row->is_closed || row->fields.size() != header.value->fields()) {
      std::string why = "a row must have " + std::to_string(header.value->fields()) +
                        " fields, as the first has; got " + std::to_string(row->fields.size());
      if (!row->is_closed || row->last_line > row->line) {
        why = "a quotation mark is opened here and not closed";
        rows.go_back_into(*row);
      } else if (row->fields.size() > header.value->fields()) {
        why += ". A field with a comma in it must stand in quotation marks";
      }
      refuse(why);
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
  find_doubtful_loads(log);
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
  std::ifstream file(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(file), {}};
  if (!file) {
    Log log{.name = path};
    log.failure = "this file cannot be opened";
    return log;
  }
  return read(text, path);
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

/// The sets of one lifter that may be used, as the library takes them.
inline std::vector<bw::LoggedSet> sets_of(const Log& log, std::string_view lifter) {
  std::vector<bw::LoggedSet> sets;
  for (const Entry& entry : log.entries) {
    if (entry.lifter == lifter && !entry.is_set_aside) sets.push_back(entry.set);
  }
  return sets;
}

}  // namespace squad_log
