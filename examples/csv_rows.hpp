// examples/csv_rows.hpp - rows of a CSV file, and what their fields mean
//
// What every program here that reads CSV needs: the rows with their lines (taken apart by libcsv),
// the columns found by the names in the first row, fields turned into the library's values or into
// a sentence that says what is allowed, and reports on lines.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <csv.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <optional>
#include <ostream>
#include <sstream>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "lift_names.hpp"

namespace csv_rows {

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

/// Whether `text` may be a slip for a name or an alias of `lift`: a word of its name, or a third of
/// its letters wrong, or two.
inline bool may_mean(std::string_view text, const bw::BaseLift& lift) {
  const std::size_t letters = plain(text).size();
  if (letters >= 3 && plain(lift.name).find(plain(text)) != std::string::npos) return true;
  const std::size_t most = std::max<std::size_t>(letters / 3, letters < 4 ? 1 : 2);
  return distance(text, lift.name) <= most ||
         std::any_of(lift.aliases.begin(), lift.aliases.end(),
                     [&](std::string_view alias) { return distance(text, alias) <= most; });
}

/// The lifts that `text` may be a slip for, nearest first.
inline std::vector<std::string_view> near_lift_names(std::string_view text) {
  std::vector<std::string_view> near;
  for (const std::string_view name : bw::catalogue::nearest_lift_names(text, 8)) {
    if (near.size() == 3) break;
    const bw::BaseLift* lift = bw::catalogue::find_lift(name);
    if (lift != nullptr && may_mean(text, *lift)) near.push_back(name);
  }
  return near;
}

inline std::vector<std::string_view> names_of_lifts() {
  std::vector<std::string_view> names;
  for (const bw::BaseLift& lift : bw::catalogue::lifts()) names.push_back(lift.name);
  return names;
}

/// The names of all that can be changed about `base`.
inline std::vector<std::string_view> names_of_modifiers(const bw::BaseLift& base) {
  std::vector<std::string_view> names;
  for (const bw::Modifier& modifier : bw::catalogue::modifiers()) {
    if (modifier.applies_to(base)) names.push_back(modifier.name());
  }
  return names;
}

/// The names in `text`, parted by ; + or ,
inline std::vector<std::string_view> names_in(std::string_view text) {
  std::vector<std::string_view> names;
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find_first_of(";+,", start), text.size());
    const std::string_view name = trimmed(text.substr(start, end - start));
    if (!name.empty()) names.push_back(name);
    start = end + 1;
  }
  return names;
}

/// `base` with the modifiers named in `text`, parted by ; + or ,
inline Parsed<bw::Lift> to_lift(const bw::BaseLift& base, std::string_view text) {
  bw::Lift lift = base;
  std::vector<std::string_view> names;
  if (bw::catalogue::find_modifier(text, base) != nullptr) {
    names.push_back(text);  // a name may hold a comma
  } else {
    names = names_in(text);
  }
  for (const std::string_view name : names) {
    const bw::Modifier* modifier = bw::catalogue::find_modifier(name, base);
    if (modifier == nullptr) {
      const bool is_of_others = bw::catalogue::find_lift_with(name).has_value();
      const auto all = names_of_modifiers(base);
      const auto near = bw::catalogue::nearest_modifier_names(name, base);
      return {.value = std::nullopt,
              .problem = "\"" + std::string(name) + "\" " + (is_of_others ? "is not" : "must be") +
                         " a modifier of the " + std::string(base.name) +
                         (all.empty()    ? ", which has none"
                          : is_of_others ? ", which has: " + one_of(all)
                                         : "; nearest: " + one_of(near))};
    }
    auto sum = checked<bw::Lift>([&] { return lift + *modifier; });
    if (!sum.value) return sum;
    lift = *sum.value;
  }
  return {.value = lift, .problem = {}};
}

/// The variation that `text` names whole: as it is printed, "squat, front squat", or in one breath,
/// "close grip bench press". Nothing when it is not a base lift and what is changed about it.
inline std::optional<bw::Lift> whole_variation(std::string_view text) {
  const std::size_t end = text.find_first_of(";+,");
  if (end == std::string_view::npos) return lift_names::in_one(text);
  const bw::BaseLift* base = bw::catalogue::find_lift(trimmed(text.substr(0, end)));
  if (base == nullptr) return std::nullopt;
  const auto lift = to_lift(*base, trimmed(text.substr(end + 1)));
  return lift.value && !lift.value->is_plain() ? lift.value : std::nullopt;
}

/// The names of what is changed about `lift`, with `between` them.
inline std::string names_of_changes(const bw::Lift& lift, std::string_view between) {
  std::string names;
  for (const bw::Modifier& modifier : lift.modifiers()) {
    if (!names.empty()) names += between;
    names += modifier.name();
  }
  return names;
}

inline Parsed<const bw::BaseLift*> to_base_lift(std::string_view text) {
  if (const bw::BaseLift* lift = bw::catalogue::find_lift(text)) {
    return {.value = lift, .problem = {}};
  }
  if (const auto lift = whole_variation(text)) {
    std::string problem = "a lift must be one name, and its changes stand among the modifiers";
    problem.append("; lift,modifiers: ").append(lift->base().name).append(",");
    return {.value = std::nullopt, .problem = problem + names_of_changes(*lift, "; ")};
  }
  if (const auto names = names_in(text); names.size() > 1) {
    std::string problem = "a lift must be one name, and here are ";
    return {.value = std::nullopt, .problem = problem + std::to_string(names.size())};
  }
  std::string problem = "a lift must be one of the catalogue";
  if (const auto lift = bw::catalogue::find_lift_with(text)) {
    const std::string change = names_of_changes(*lift, "; ");
    problem += "; \"" + change + "\" changes one and belongs among the modifiers";
    problem.append("; lift,modifiers: ").append(lift->base().name).append(",").append(change);
    return {.value = std::nullopt, .problem = problem};
  }
  const auto near = near_lift_names(text);
  problem += near.empty()
                 ? ", and none has nearly this name; there are: " + one_of(names_of_lifts())
                 : "; nearest: " + one_of(near);
  return {.value = std::nullopt, .problem = problem};
}

// ---- what is said about lines

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

/// "club.csv:17: refused: reps "0": repetitions must be a whole number from 1 to 100; got 0"
inline void print(std::ostream& out, std::string_view file, const Report& report) {
  const auto shown = [](std::string_view text) { return bw::printable<std::string>(text); };
  out << shown(file) << ':' << report.line << ": " << to_text(report.verdict) << ": ";
  if (!report.column.empty()) out << report.column << " \"" << shown(report.value) << "\": ";
  out << shown(report.text) << '\n';
}

// ---- columns by name

/// Which field of a row belongs to which column.
///
/// `Columns` says which there are: an enum `Column`, their `names` in its order, and those that are
/// `required`.
template <class Columns>
class Header {
 public:
  using Column = typename Columns::Column;
  static constexpr auto& column_names = Columns::names;

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
    for (const Column column : Columns::required) {
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

// ---- the fields of one row

/// Reads the fields of one row, reporting each that will not do.
template <class Columns>
class RowFields {
 public:
  using Column = typename Columns::Column;

  RowFields(std::vector<Report>& reports, const Header<Columns>& header, const Row& row)
      : reports_(reports), header_(header), row_(row) {}

  [[nodiscard]] int line() const { return row_.line; }
  [[nodiscard]] bool is_refused() const { return is_refused_; }
  [[nodiscard]] std::string_view get(Column column) const { return header_.get(row_, column); }

  /// What `parse` makes of a field; nothing, and a report, when it will not do.
  template <class Parse>
  auto take(Column column, Parse parse) {
    auto parsed = parse(get(column));
    if (!parsed.value) refuse(column, parsed.problem);
    return parsed.value;
  }

  void report(Verdict verdict, Column column, std::string text) {
    reports_.push_back({.verdict = verdict,
                        .line = line(),
                        .column = std::string(Header<Columns>::name_of(column)),
                        .value = std::string(get(column)),
                        .text = std::move(text)});
  }
  void refuse(Column column, std::string text) {
    is_refused_ = true;
    report(Verdict::refused, column, std::move(text));
  }
  void doubt(Column column, std::string text) {
    report(Verdict::doubtful, column, std::move(text));
  }

 private:
  std::vector<Report>& reports_;
  const Header<Columns>& header_;
  const Row& row_;
  bool is_refused_ = false;
};

// ---- whole files and rows

/// What a file holds.
inline Parsed<std::string> contents_of(const std::string& path) {
  std::error_code unknown;
  if (std::filesystem::is_directory(path, unknown)) {
    return {.value = std::nullopt, .problem = "this is a directory"};
  }
  std::ifstream file(path, std::ios::binary);
  if (!file) return {.value = std::nullopt, .problem = "this file cannot be opened"};
  std::ostringstream text;
  if (file.peek() != std::ifstream::traits_type::eof()) text << file.rdbuf();
  if (file.bad() || text.fail()) {
    return {.value = std::nullopt, .problem = "this file cannot be read"};
  }
  return {.value = text.str(), .problem = {}};
}

/// False for what spreadsheets save in two bytes a letter, and for what is no text at all.
inline bool is_plain_text(std::string_view text) {
  return text.substr(0, 2) != "\xFF\xFE" && text.substr(0, 2) != "\xFE\xFF" &&
         text.find('\0') == std::string_view::npos;
}

inline bool is_empty(const Row& row) {
  return std::all_of(row.fields.begin(), row.fields.end(),
                     [](const std::string& field) { return field.empty(); });
}

/// Why `row` is none of a table of so many columns; nothing when it is one. Empty fields at its end
/// are dropped. After a quotation mark that is not closed, `rows` reads on at the next line.
inline std::optional<std::string> misfit(Row& row, std::size_t columns, CsvReader& rows) {
  while (row.fields.size() > columns && row.fields.back().empty()) row.fields.pop_back();
  if (row.is_closed && row.fields.size() == columns) return std::nullopt;
  if (!row.is_closed || row.last_line > row.line) {
    rows.go_back_into(row);
    return "a quotation mark is opened here and not closed";
  }
  std::string why = "a row must have " + std::to_string(columns) +
                    " fields, as the first has; got " + std::to_string(row.fields.size());
  if (row.fields.size() > columns) {
    why += ". A field with a comma in it must stand in quotation marks";
  }
  return why;
}

}  // namespace csv_rows
