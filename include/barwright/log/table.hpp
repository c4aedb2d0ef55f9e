// barwright/log/table.hpp - a table with named columns, read row by row, and what is said of its
// lines
//
// The first record names the columns, in any order and any case; others are ignored. A row that
// cannot be read is refused with its line, its column and what is allowed, and the rows after it
// are still read.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"

namespace barwright::inline BARWRIGHT_ABI {

// ---- what is said of lines

/// How bad a line is.
enum class Verdict : unsigned char {
  refused,   ///< could not be read: not used
  doubtful,  ///< read, but looks like a mistake
  remark,    ///< read, with something worth knowing
};

[[nodiscard]] constexpr std::string_view to_text(Verdict verdict) noexcept {
  switch (verdict) {
    case Verdict::refused: return "refused";
    case Verdict::doubtful: return "doubtful";
    case Verdict::remark: return "note";
  }
  return "";
}

/// What is said of one line. Column names and values are as they were typed; `to_text` makes them
/// fit to be shown.
struct LineReport {
  Verdict verdict = Verdict::refused;
  int line = 0;          ///< counted from 1
  std::string column{};  ///< empty: the whole line
  std::string value{};   ///< its beginning, where it is long
  std::string text{};    ///< what is allowed, or what to look at
};

/// "club.csv:17: refused: reps "0": reps must be a whole number from 1 to 100; got 0", in
/// one line and without anything that a terminal would obey.
/// @param file  what the reader knows the table as
[[nodiscard]] std::string to_text(std::string_view file, const LineReport& report);

/// Reports of lines, up to a number; more are counted only, so that a file of nonsense costs no
/// more memory than a good one.
class LineReports {
 public:
  static constexpr std::size_t most = 10'000;

  void add(LineReport report);
  /// Whether further reports are only counted: nobody need find good words for them.
  [[nodiscard]] bool is_full() const noexcept { return reports_.size() >= most; }
  [[nodiscard]] std::size_t left_out() const noexcept { return left_out_; }
  void sort_by_line() {
    std::stable_sort(reports_.begin(), reports_.end(),
                     [](const LineReport& a, const LineReport& b) { return a.line < b.line; });
  }

  [[nodiscard]] auto begin() const noexcept { return reports_.begin(); }
  [[nodiscard]] auto end() const noexcept { return reports_.end(); }
  [[nodiscard]] std::size_t size() const noexcept { return reports_.size(); }
  [[nodiscard]] bool empty() const noexcept { return reports_.empty(); }
  [[nodiscard]] const LineReport& operator[](std::size_t i) const { return reports_[i]; }

 private:
  std::vector<LineReport> reports_{};
  std::size_t left_out_ = 0;
};

// ---- columns by name

/// Which field of a row belongs to which column.
///
/// `Columns` says which there are: an enum `Column`, their `names` in its order, and those that are
/// `required`.
template <class Columns>
class TableHeader {
 public:
  using Column = typename Columns::Column;
  static constexpr auto& column_names = Columns::names;

  /// Reads the first record; `problem` says what is wrong with it.
  [[nodiscard]] static Parsed<TableHeader> read(const CsvRecord& record) {
    if (record.fault != CsvFault::none) {
      return detail::unreadable<TableHeader>("this does not name columns");
    }
    TableHeader header;
    header.fields_ = record.fields.size();
    std::vector<std::string> unknown;
    for (std::size_t field = 0; field < record.fields.size(); ++field) {
      std::string name = fields::plain(record.fields[field]);
      const auto known = std::find(column_names.begin(), column_names.end(), name);
      if (known == column_names.end()) {
        unknown.push_back(std::move(name));
        continue;
      }
      auto& place = header.places_[static_cast<std::size_t>(known - column_names.begin())];
      if (place) {
        return detail::unreadable<TableHeader>("the column " + name + " appears twice");
      }
      place = field;
    }
    std::string problem = header.misspelt(unknown);
    for (const Column column : Columns::required) {
      if (!header.has(column)) {
        problem += "the column \"" + std::string(name_of(column)) + "\" is missing; ";
      }
    }
    if (problem.empty()) return {.value = header, .problem = {}};
    problem += "found: ";
    for (std::size_t field = 0; field < record.fields.size() && problem.size() < 2000; ++field) {
      if (field > 0) problem += ", ";
      problem += record.fields[field].substr(0, fields::longest_name);
    }
    return detail::unreadable<TableHeader>(problem);
  }

  [[nodiscard]] static std::string_view name_of(Column column) noexcept {
    return column_names[static_cast<std::size_t>(column)];
  }
  [[nodiscard]] bool has(Column column) const noexcept { return place(column).has_value(); }
  /// Where that column stands in a row; nothing where there is no such column.
  [[nodiscard]] std::optional<std::size_t> place_of(Column column) const noexcept {
    return place(column);
  }
  /// The field of that column; empty where there is no such column.
  [[nodiscard]] std::string_view get(const CsvRecord& row, Column column) const {
    return has(column) ? fields::trimmed(row.fields[*place(column)]) : std::string_view{};
  }
  [[nodiscard]] std::size_t size() const noexcept { return fields_; }
  /// The header of rows that have every column, in the order of `Columns`.
  [[nodiscard]] static TableHeader of_all() noexcept {
    TableHeader header;
    header.fields_ = column_names.size();
    for (std::size_t i = 0; i < column_names.size(); ++i) header.places_[i] = i;
    return header;
  }

 private:
  [[nodiscard]] const std::optional<std::size_t>& place(Column column) const noexcept {
    return places_[static_cast<std::size_t>(column)];
  }

  /// A misspelt optional column would go unnoticed and change what every row means.
  [[nodiscard]] std::string misspelt(const std::vector<std::string>& unknown) const {
    std::string problem;
    for (std::size_t i = 0; i < column_names.size(); ++i) {
      if (places_[i]) continue;
      for (const std::string& name : unknown) {
        const std::size_t letters = fields::distance(name, column_names[i]);
        if (!name.empty() && letters <= 2 && letters < column_names[i].size() / 2) {
          problem += "the column \"" + name + "\" is not known; is it \"" +
                     std::string(column_names[i]) + "\"? ";
        }
      }
    }
    return problem;
  }

  std::array<std::optional<std::size_t>, column_names.size()> places_{};
  std::size_t fields_ = 0;
};

// ---- rows

/// False for what spreadsheets save in two bytes a letter, and for what is no text at all.
[[nodiscard]] constexpr bool is_plain_text(std::string_view text) noexcept {
  return text.substr(0, 2) != "\xFF\xFE" && text.substr(0, 2) != "\xFE\xFF" &&
         text.find('\0') == std::string_view::npos;
}

/// Why `row` is none of a table of so many columns; nothing when it is one. Empty fields at its end
/// are dropped. Where quotation marks are to blame, `reader` reads on at the next line.
[[nodiscard]] std::optional<std::string> misfit(CsvRecord& row, std::size_t columns,
                                                CsvReader& reader);

/// Reads the fields of one row, reporting each that is wrong.
template <class Columns>
class TableRow {
 public:
  using Column = typename Columns::Column;

  TableRow(LineReports& reports, const TableHeader<Columns>& header, const CsvRecord& row)
      : reports_(reports), header_(header), row_(row) {}

  [[nodiscard]] int line() const noexcept { return row_.line; }
  [[nodiscard]] bool is_refused() const noexcept { return is_refused_; }
  [[nodiscard]] std::string_view get(Column column) const { return header_.get(row_, column); }

  /// What `parse` makes of a field; nothing, and a report, when it is wrong.
  template <class Parse>
  auto take(Column column, Parse parse) {
    auto parsed = parse(get(column));
    if (!parsed.value) refuse(column, parsed.problem);
    return parsed.value;
  }

  void report(Verdict verdict, Column column, const std::string& text) {
    reports_.add({.verdict = verdict,
                  .line = line(),
                  .column = std::string(TableHeader<Columns>::name_of(column)),
                  .value = std::string(get(column)),
                  .text = text});
  }
  void refuse(Column column, const std::string& text) {
    is_refused_ = true;
    report(Verdict::refused, column, text);
  }
  void doubt(Column column, const std::string& text) { report(Verdict::doubtful, column, text); }

 private:
  LineReports& reports_;
  const TableHeader<Columns>& header_;
  const CsvRecord& row_;
  bool is_refused_ = false;
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/table.ipp"
#endif
