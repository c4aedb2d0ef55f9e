// barwright/log/written_dates.hpp - days as people write them, in the one order of a whole file
//
// 2026-11-25, 2026-9-1, 24.09.2026, 9/24/26, 24 Sep 2026, 24/09. Whether the day or the month comes
// first cannot be told from 04/09/2026: but one 24/09/2026 in the file tells it for all, as a file
// is kept by one hand. Where none does, somebody has to say it; only between points the day is
// taken to come first, as nobody writes it otherwise. An order is never chosen row by row.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "barwright/core/date.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Which comes first where the year does not.
enum class DateOrder : unsigned char { unknown, day_first, month_first };

/// What stands between the figures, and how many there are.
struct WrittenDate {
  std::array<int, 3> parts{};  ///< as written; month names as their number
  bool year_is_first = false;  ///< as in 2026-09-24
  bool has_year = false;       ///< else the file must say which
  bool names_month = false;  ///< then day and month cannot be mixed up; parts are day, month, year
  char separator = '-';      ///< between the first two parts
};

namespace detail {

[[nodiscard]] constexpr bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }

/// 9 for "Sep", "september" and "Sept."; 0 for what is no month in English.
[[nodiscard]] constexpr int month_named(std::string_view word) noexcept {
  constexpr std::array<std::string_view, 12> names{"january",   "february", "march",    "april",
                                                   "may",       "june",     "july",     "august",
                                                   "september", "october",  "november", "december"};
  if (word.size() < 3) return 0;
  for (std::size_t month = 0; month < names.size(); ++month) {
    if (word.size() > names[month].size()) continue;
    bool is_begin = true;
    for (std::size_t i = 0; i < word.size(); ++i) {
      const char lower =
          word[i] >= 'A' && word[i] <= 'Z' ? static_cast<char>(word[i] + 32) : word[i];
      if (lower != names[month][i]) is_begin = false;
    }
    if (is_begin) return static_cast<int>(month) + 1;
  }
  return 0;
}

/// `text` without the time of day after the date: "2026-09-24 18:30", "2026-09-24T18:30:00".
[[nodiscard]] constexpr std::string_view without_time(std::string_view text) noexcept {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || colon < 3) return text;
  const std::size_t gap = text.find_last_of(" T", colon);
  if (gap == std::string_view::npos || gap == 0) return text;
  text = text.substr(0, gap);
  while (!text.empty() && (text.back() == ' ' || text.back() == ',')) text.remove_suffix(1);
  return text;
}

/// Takes figures or a word from the front of `text`.
struct DatePart {
  int value = 0;
  std::size_t digits = 0;  // 0: a month by its name
};
[[nodiscard]] constexpr std::optional<DatePart> take_date_part(std::string_view& text) noexcept {
  DatePart part;
  std::size_t at = 0;
  while (at < text.size() && at < 5 && is_digit(text[at])) {
    part.value = 10 * part.value + (text[at] - '0');
    ++at;
  }
  part.digits = at;
  if (at == 0) {
    const auto is_letter = [](char c) noexcept {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    };
    while (at < text.size() && is_letter(text[at])) ++at;
    part.value = month_named(text.substr(0, at));
    if (part.value == 0) return std::nullopt;
  }
  text.remove_prefix(at);
  return part;
}

}  // namespace detail

/// Takes a written day apart; nothing where it is none. Whether such a day exists, and in which
/// order it is to be read, is another question.
[[nodiscard]] constexpr std::optional<WrittenDate> take_date_apart(std::string_view text) noexcept {
  constexpr std::size_t longest = 40;
  if (text.size() > longest) return std::nullopt;
  text = detail::without_time(text);
  std::array<detail::DatePart, 3> parts{};
  std::array<char, 3> between{};
  std::size_t count = 0;
  while (!text.empty()) {
    if (count == 3) return std::nullopt;
    const auto part = detail::take_date_part(text);
    if (!part) return std::nullopt;
    parts[count] = *part;
    const std::size_t next = text.find_first_not_of(" .,/-");
    const std::string_view gap = text.substr(0, next);
    if (gap.empty() && next != std::string_view::npos) return std::nullopt;
    for (const char c : gap) {
      if (c != ' ') between[count] = c;
    }
    text.remove_prefix(gap.size());
    ++count;
  }
  if (count < 2) return std::nullopt;
  WrittenDate date;
  date.separator = between[0] == '\0' ? ' ' : between[0];
  date.has_year = count == 3;
  std::size_t words = 0;
  for (std::size_t i = 0; i < count; ++i) words += parts[i].digits == 0 ? 1U : 0U;
  if (words > 1) return std::nullopt;
  date.names_month = words == 1;
  const auto is_year = [](const detail::DatePart& part) { return part.digits == 4; };
  if (date.names_month) {
    // "24 Sep 2026", "Sep 24, 2026", "2026 Sep 24"
    std::array<int, 2> figures{};
    std::size_t found = 0;
    std::size_t year = 3;
    for (std::size_t i = 0; i < count; ++i) {
      if (parts[i].digits == 0) {
        date.parts[1] = parts[i].value;
      } else if (found < 2) {
        if (is_year(parts[i])) year = found;
        figures[found++] = parts[i].value;
      }
    }
    if (!date.has_year) {
      if (year != 3) return std::nullopt;  // "Sep 2026" is no day
      date.parts[0] = figures[0];
      return date;
    }
    const bool year_leads = year == 0;
    date.parts[0] = figures[year_leads ? 1 : 0];
    date.parts[2] = figures[year_leads ? 0 : 1];
    if (year == 3) date.parts[2] += date.parts[2] < 100 ? 2000 : 0;
    return date;
  }
  for (std::size_t i = 0; i < count; ++i) date.parts[i] = parts[i].value;
  date.year_is_first = is_year(parts[0]);
  const bool year_is_last = date.has_year && (is_year(parts[2]) || parts[2].digits == 2);
  if (date.year_is_first != date.has_year && !year_is_last) return std::nullopt;
  if (date.year_is_first && !date.has_year) return std::nullopt;
  for (std::size_t i = 0; i < count; ++i) {
    const bool holds_year = date.has_year && i == (date.year_is_first ? 0U : 2U);
    if (!holds_year && parts[i].digits > 2) return std::nullopt;
  }
  if (!date.year_is_first && date.has_year && parts[2].digits == 2) date.parts[2] += 2000;
  return date;
}

/// What the dates of a file say of the order they are written in.
class DateEvidence {
 public:
  /// Takes one more date into account.
  void add(const WrittenDate& date, int line) noexcept {
    if (!date.has_year) ++without_year_;
    if (date.year_is_first || date.names_month) return;
    const bool may_be_day_first = date.parts[1] <= 12;
    const bool may_be_month_first = date.parts[0] <= 12;
    if (may_be_day_first && !may_be_month_first && day_first_line_ == 0) day_first_line_ = line;
    if (may_be_month_first && !may_be_day_first && month_first_line_ == 0) month_first_line_ = line;
    if (date.separator == '.') {
      ++with_points_;
    } else {
      ++others_;
    }
  }

  /// The order of all dates; unknown where it cannot be told, or some lines contradict others.
  [[nodiscard]] DateOrder order() const noexcept {
    if (is_contradictory()) return DateOrder::unknown;
    if (month_first_line_ > 0) return DateOrder::month_first;
    if (day_first_line_ > 0 || (with_points_ > 0 && others_ == 0)) return DateOrder::day_first;
    return DateOrder::unknown;
  }
  /// Whether one line can only begin with the day, and another only with the month.
  [[nodiscard]] bool is_contradictory() const noexcept {
    return day_first_line_ > 0 && month_first_line_ > 0;
  }
  /// Whether there is any date of which the order matters.
  [[nodiscard]] bool matters() const noexcept { return with_points_ + others_ > 0; }
  /// Whether a date stands without its year.
  [[nodiscard]] bool needs_year() const noexcept { return without_year_ > 0; }
  /// A line that tells, 0 where none does.
  [[nodiscard]] int day_first_line() const noexcept { return day_first_line_; }
  /// The same for dates that begin with the month.
  [[nodiscard]] int month_first_line() const noexcept { return month_first_line_; }

 private:
  int day_first_line_ = 0;
  int month_first_line_ = 0;
  int with_points_ = 0;
  int others_ = 0;
  int without_year_ = 0;
};

/// The day that is written, in that order; nothing for one that does not exist.
/// @param year  of dates that have none
[[nodiscard]] constexpr std::optional<Date> day_of(const WrittenDate& date, DateOrder order,
                                                   std::optional<int> year) noexcept {
  int y = date.has_year ? date.parts[date.year_is_first ? 0 : 2] : year.value_or(0);
  int first = date.parts[date.year_is_first ? 1 : 0];
  int second = date.parts[date.year_is_first ? 2 : 1];
  bool month_leads = date.year_is_first;
  if (!date.year_is_first && !date.names_month) {
    if (order == DateOrder::unknown) return std::nullopt;
    month_leads = order == DateOrder::month_first;
  }
  const int month = month_leads ? first : second;
  const int day = month_leads ? second : first;
  if (!Date::is_valid(y, month, day)) return std::nullopt;
  return Date(y, month, day);
}

}  // namespace barwright::inline BARWRIGHT_ABI
