// tests/csv_table.hpp - a small table read from a CSV file, for checks against published values
//
// The first line that is not a comment holds the column names. Fields may be quoted; a quoted field
// may hold commas, line breaks and doubled quotes. Lines starting with # and blank lines are
// skipped. A wrong file, column or number throws, so a test cannot pass by reading nothing.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <fstream>
#include <initializer_list>
#include <iterator>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace barwright_test {

class CsvTable {
 public:
  /// One line of the table; lives as long as the table.
  class Row {
   public:
    Row(const CsvTable& table, std::size_t index) : table_(&table), index_(index) {}

    [[nodiscard]] const std::string& text(const std::string& column) const {
      return table_->cell(index_, column);
    }
    [[nodiscard]] bool empty(const std::string& column) const { return text(column).empty(); }
    [[nodiscard]] double number(const std::string& column) const {
      const std::string& field = text(column);
      char* end = nullptr;
      const double value = std::strtod(field.c_str(), &end);
      if (field.empty() || *end != '\0') {
        throw std::runtime_error(table_->path_ + ": not a number in column " + column + ": \"" +
                                 field + "\"");
      }
      return value;
    }

   private:
    const CsvTable* table_;
    std::size_t index_;
  };

  /// Reads `name`, a path below tests/data.
  explicit CsvTable(const std::string& name)
      : path_(std::string(BARWRIGHT_TEST_DATA) + "/" + name) {
    std::ifstream in(path_, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path_);
    parse(std::string(std::istreambuf_iterator<char>(in), {}));
    if (records_.size() < 2) throw std::runtime_error(path_ + ": no rows");
    for (const auto& record : records_) {
      if (record.size() != records_[0].size()) {
        throw std::runtime_error(path_ + ": a row has too few or too many fields, starting \"" +
                                 record[0] + "\"");
      }
    }
  }

  [[nodiscard]] std::size_t size() const { return records_.size() - 1; }
  Row operator[](std::size_t index) const&& = delete;
  [[nodiscard]] Row operator[](std::size_t index) const& { return Row(*this, index); }

  /// Every row, for a range-based loop; not of a temporary, which would be gone in the loop.
  std::vector<Row> rows() const&& = delete;
  [[nodiscard]] std::vector<Row> rows() const& {
    std::vector<Row> result;
    for (std::size_t i = 0; i < size(); ++i) result.emplace_back(*this, i);
    return result;
  }

  /// The one row whose columns hold these texts; throws unless there is exactly one.
  [[nodiscard]] Row find(
      std::initializer_list<std::pair<const char*, std::string>> conditions) const {
    std::vector<Row> found;
    for (const Row& row : rows()) {
      bool matches = true;
      for (const auto& [column, value] : conditions) matches &= row.text(column) == value;
      if (matches) found.push_back(row);
    }
    if (found.size() != 1) {
      throw std::runtime_error(path_ + ": " + std::to_string(found.size()) + " rows match " +
                               (conditions.size() ? conditions.begin()->second : ""));
    }
    return found[0];
  }

 private:
  const std::string& cell(std::size_t index, const std::string& column) const {
    for (std::size_t c = 0; c < records_[0].size(); ++c) {
      if (records_[0][c] == column) return records_.at(index + 1)[c];
    }
    throw std::runtime_error(path_ + ": no column " + column);
  }

  void parse(const std::string& text) {
    std::size_t i = 0;
    while (i < text.size()) {
      if (text[i] == '#') {
        while (i < text.size() && text[i] != '\n') ++i;
      }
      if (i < text.size() && (text[i] == '\n' || text[i] == '\r')) {
        ++i;
        continue;
      }
      if (i < text.size()) parse_record(text, i);
    }
  }

  void parse_record(const std::string& text, std::size_t& i) {
    std::vector<std::string> record(1);
    bool quoted = false;
    for (; i < text.size(); ++i) {
      const char c = text[i];
      if (quoted) {
        if (c != '"') {
          record.back() += c;
        } else if (i + 1 < text.size() && text[i + 1] == '"') {
          record.back() += text[++i];
        } else {
          quoted = false;
        }
      } else if (c == '"') {
        quoted = true;
      } else if (c == ',') {
        record.emplace_back();
      } else if (c == '\n') {
        break;
      } else if (c != '\r') {
        record.back() += c;
      }
    }
    if (quoted) throw std::runtime_error(path_ + ": a quoted field is not closed");
    records_.push_back(std::move(record));
  }

  std::string path_;
  std::vector<std::vector<std::string>> records_;
};

/// |a - b| relative to the larger of |b| and `floor`; NaN if either is, so that `<` fails.
[[nodiscard]] inline double relative_error(double a, double b, double floor = 0.0) {
  const double scale = std::fmax(std::fabs(b), floor);
  return a == b ? 0.0 : std::fabs(a - b) / scale;
}

}  // namespace barwright_test
