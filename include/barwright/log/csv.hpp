// barwright/log/csv.hpp - a CSV text taken apart, record by record
//
// Records of fields, with the lines they stand in, as RFC 4180 has them: fields separated by commas
// (or by the semicolons or tabs that spreadsheets write where the comma is a decimal sign), a field
// in quotation marks may hold the separator and line breaks, and a quotation mark twice is one.
// What people type is read leniently: any line end, spaces around a field, a lone quotation mark
// inside one, a byte order mark before the first.
//
// The text may come from anybody. Work and memory grow with its length and no faster: fields are
// views of the text, and every record has its limits, so that a quotation mark that is never closed
// costs one record, not the rest of the file, and looking for its end again costs little.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// How much one record of a CSV text may hold.
struct CsvLimits {
  std::size_t field_bytes = 16384;  ///< of one field
  std::size_t fields = 256;         ///< of one record
  int lines = 32;                   ///< of one record, whose quoted fields may hold line breaks
};

/// What is wrong with a record as such.
enum class CsvFault : unsigned char {
  none,
  unclosed_quote,   ///< a quotation mark is opened, and not closed within the limits
  field_too_long,   ///< a field is longer than `CsvLimits::field_bytes`
  too_many_fields,  ///< more than `CsvLimits::fields`
};

/// Whether a spreadsheet would take a field for a formula. An apostrophe in front keeps it text.
[[nodiscard]] constexpr bool looks_like_formula(std::string_view field) noexcept {
  return !field.empty() && std::string_view("=+-@").find(field.front()) != std::string_view::npos;
}

/// A field without the apostrophe that keeps it text.
[[nodiscard]] constexpr std::string_view without_apostrophe(std::string_view field) noexcept {
  const bool is_kept_text =
      field.size() > 1 && field.front() == '\'' && looks_like_formula(field.substr(1));
  return is_kept_text ? field.substr(1) : field;
}

/// One record. Its fields live until the next one is read, and no longer than the text.
struct CsvRecord {
  int line = 0;       ///< where it starts, counted from 1
  int last_line = 0;  ///< where it ends
  CsvFault fault = CsvFault::none;
  std::vector<std::string_view> fields{};  ///< without quotation marks and the spaces around
  std::string_view text{};                 ///< all of it as it stands, without the line end

  /// Whether there is nothing in any field.
  [[nodiscard]] bool is_empty() const noexcept {
    return std::all_of(fields.begin(), fields.end(),
                       [](std::string_view field) { return field.empty(); });
  }
};

/// Takes a text apart, record by record.
class CsvReader {
 public:
  /// @param text  in UTF-8; must outlive the reader
  explicit CsvReader(std::string_view text, const CsvLimits& limits = {}) noexcept;

  /// A comma, a semicolon or a tab.
  [[nodiscard]] char separator() const noexcept { return separator_; }

  /// Reads the next record that is not a blank line; false at the end. After a record with a fault
  /// the next one starts in the line after its first.
  [[nodiscard]] bool next(CsvRecord& record);

  /// Reads on at the second line of `record`, the last one read: its quotation marks are not
  /// believed.
  void go_back_into(const CsvRecord& record) noexcept {
    at_ = std::min(text_.find_first_of("\r\n", start_), text_.size());
    line_ = record.line;
    take_line_end();
  }

 private:
  [[nodiscard]] bool is_space(char c) const noexcept {
    return (c == ' ' || c == '\t') && c != separator_;
  }
  [[nodiscard]] bool ends_field(std::size_t at) const noexcept {
    return at == text_.size() || text_[at] == separator_ || text_[at] == '\n' || text_[at] == '\r';
  }
  [[nodiscard]] std::size_t past_spaces(std::size_t at) const noexcept {
    while (at < text_.size() && is_space(text_[at])) ++at;
    return at;
  }

  CsvFault read_field(CsvRecord& record);

  /// The field whose opening quotation mark is next. A quotation mark that neither closes it nor
  /// is doubled stands for itself.
  CsvFault read_quoted(CsvRecord& record);

  std::string_view with_single_quotes(std::string_view inside);

  [[nodiscard]] bool take_separator() noexcept {
    if (at_ == text_.size() || text_[at_] != separator_) return false;
    ++at_;
    return true;
  }
  void take_line_end() noexcept;
  void skip_blank_lines() noexcept;

  std::string_view text_;
  CsvLimits limits_;
  char separator_ = ',';
  std::size_t at_ = 0;     // what is read next
  std::size_t start_ = 0;  // of the last record
  int line_ = 1;
  // Fields that stand otherwise in the text; records view them, so they stay where they are.
  std::vector<std::shared_ptr<std::string>> unescaped_{};
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/csv.ipp"
#endif
