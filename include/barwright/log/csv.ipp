// barwright/log/csv.ipp - the bodies of csv.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

#include "barwright/log/csv.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline CsvReader::CsvReader(std::string_view text, const CsvLimits& limits) noexcept
    : text_(text), limits_(limits) {
  if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);  // a byte order mark
  // The first line decides how fields are parted.
  const std::string_view first = text_.substr(0, text_.find_first_of("\r\n"));
  const auto count = [&](char c) { return std::count(first.begin(), first.end(), c); };
  for (const char candidate : {';', '\t'}) {
    if (count(candidate) > count(separator_)) separator_ = candidate;
  }
}

inline bool CsvReader::next(CsvRecord& record) {
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

inline CsvFault CsvReader::read_field(CsvRecord& record) {
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

inline CsvFault CsvReader::read_quoted(CsvRecord& record) {
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

inline std::string_view CsvReader::with_single_quotes(std::string_view inside) {
  std::string& text = *unescaped_.emplace_back(std::make_shared<std::string>());
  for (std::size_t i = 0; i < inside.size(); ++i) {
    text += inside[i];
    if (inside[i] == '"' && i + 1 < inside.size() && inside[i + 1] == '"') ++i;
  }
  return text;
}

inline void CsvReader::take_line_end() noexcept {
  if (at_ == text_.size()) return;
  const bool is_pair = text_.substr(at_, 2) == "\r\n";
  at_ += is_pair ? 2 : 1;
  ++line_;
}

inline void CsvReader::skip_blank_lines() noexcept {
  while (at_ < text_.size()) {
    const std::size_t end = std::min(text_.find_first_not_of(" \t", at_), text_.size());
    if (end < text_.size() && text_[end] != '\n' && text_[end] != '\r') return;
    at_ = end;
    take_line_end();
  }
}

}  // namespace barwright::inline BARWRIGHT_ABI
