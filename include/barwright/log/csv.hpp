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
#include <forward_list>
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
  explicit CsvReader(std::string_view text, const CsvLimits& limits = {}) noexcept
      : text_(text), limits_(limits) {
    if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);  // a byte order mark
    // The first line decides how fields are parted.
    const std::string_view first = text_.substr(0, text_.find_first_of("\r\n"));
    const auto count = [&](char c) { return std::count(first.begin(), first.end(), c); };
    for (const char candidate : {';', '\t'}) {
      if (count(candidate) > count(separator_)) separator_ = candidate;
    }
  }

  /// A comma, a semicolon or a tab.
  [[nodiscard]] char separator() const noexcept { return separator_; }

  /// Reads the next record that is not a blank line; false at the end. After a record with a fault
  /// the next one starts in the line after its first.
  [[nodiscard]] bool next(CsvRecord& record) {
    skip_blank_lines();
    if (at_ == text_.size()) return false;
    start_ = at_;
    record.line = record.last_line = line_;
    record.fault = CsvFault::none;
    record.fields.clear();
    unescaped_.clear();
    do {
      record.fault = read_field(record);
      if (record.fault != CsvFault::none) {
        go_back_into(record);
        record.text = text_.substr(start_, at_ - start_);
        return true;
      }
    } while (take_separator());
    record.text = text_.substr(start_, at_ - start_);
    record.last_line = line_;
    take_line_end();
    return true;
  }

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

  CsvFault read_field(CsvRecord& record) {
    if (record.fields.size() == limits_.fields) return CsvFault::too_many_fields;
    at_ = past_spaces(at_);
    if (at_ < text_.size() && text_[at_] == '"') return read_quoted(record);
    const std::size_t start = at_;
    while (!ends_field(at_)) ++at_;
    std::size_t end = at_;
    while (end > start && is_space(text_[end - 1])) --end;
    if (end - start > limits_.field_bytes) return CsvFault::field_too_long;
    record.fields.push_back(text_.substr(start, end - start));
    return CsvFault::none;
  }

  /// The field whose opening quotation mark is next. A quotation mark that neither closes it nor
  /// is doubled stands for itself.
  CsvFault read_quoted(CsvRecord& record) {
    const std::size_t start = ++at_;
    bool has_doubled = false;
    for (; at_ < text_.size(); ++at_) {
      if (at_ - start > limits_.field_bytes) {
        return line_ > record.line ? CsvFault::unclosed_quote : CsvFault::field_too_long;
      }
      const char c = text_[at_];
      const bool is_first_of_pair = c == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n';
      if ((c == '\n' || c == '\r') && !is_first_of_pair) {
        ++line_;
        if (line_ - record.line >= limits_.lines) return CsvFault::unclosed_quote;
      }
      if (c != '"') continue;
      if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
        has_doubled = true;
        ++at_;
      } else if (const std::size_t end = past_spaces(at_ + 1); ends_field(end)) {
        const std::string_view inside = text_.substr(start, at_ - start);
        record.fields.push_back(has_doubled ? with_single_quotes(inside) : inside);
        at_ = end;
        return CsvFault::none;
      }
    }
    return CsvFault::unclosed_quote;
  }

  std::string_view with_single_quotes(std::string_view inside) {
    std::string& text = unescaped_.emplace_front();
    for (std::size_t i = 0; i < inside.size(); ++i) {
      text += inside[i];
      if (inside[i] == '"' && i + 1 < inside.size() && inside[i + 1] == '"') ++i;
    }
    return text;
  }

  [[nodiscard]] bool take_separator() noexcept {
    if (at_ == text_.size() || text_[at_] != separator_) return false;
    ++at_;
    return true;
  }
  void take_line_end() noexcept {
    if (at_ == text_.size()) return;
    const bool is_pair = text_.substr(at_, 2) == "\r\n";
    at_ += is_pair ? 2 : 1;
    ++line_;
  }
  void skip_blank_lines() noexcept {
    while (at_ < text_.size()) {
      const std::size_t end = std::min(text_.find_first_not_of(" \t", at_), text_.size());
      if (end < text_.size() && text_[end] != '\n' && text_[end] != '\r') return;
      at_ = end;
      take_line_end();
    }
  }

  std::string_view text_;
  CsvLimits limits_;
  char separator_ = ',';
  std::size_t at_ = 0;     // what is read next
  std::size_t start_ = 0;  // of the last record
  int line_ = 1;
  std::forward_list<std::string> unescaped_{};  // fields that stand otherwise in the text
};

}  // namespace barwright::inline BARWRIGHT_ABI
