// barwright/core/date.hpp - calendar days, as a training log writes them: 2026-11-25
//
// A small date for logs and plans: the proleptic Gregorian calendar, whole days, no clock and no
// time zone. Text is ISO 8601, year-month-day.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <iosfwd>
#include <optional>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/text.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One day, from 1900-01-01 to 2199-12-31.
class Date {
 public:
  static constexpr int first_year = 1900;
  static constexpr int last_year = 2199;

  /// @throws DomainError unless that day exists and lies in the years 1900 to 2199.
  constexpr Date(int year, int month, int day) : days_(0) {
    if (!is_valid(year, month, day)) {
      const Text got = Text{}.append(year).append("-").append(month).append("-").append(day);
      detail::fail("a date", "a day of the years 1900 to 2199, as year, month, day", got.view());
    }
    days_ = days_from(year, month, day);
  }

  [[nodiscard]] static constexpr bool is_valid(int year, int month, int day) noexcept {
    return first_year <= year && year <= last_year && 1 <= month && month <= 12 && 1 <= day &&
           day <= days_in(year, month);
  }

  /// Days since 1970-01-01; negative before.
  [[nodiscard]] constexpr int days_since_1970() const noexcept { return days_; }

  [[nodiscard]] constexpr int year() const noexcept { return parts().year; }
  [[nodiscard]] constexpr int month() const noexcept { return parts().month; }
  [[nodiscard]] constexpr int day() const noexcept { return parts().day; }

  /// 0 is Monday, 6 is Sunday.
  [[nodiscard]] constexpr int weekday() const noexcept { return ((days_ + 3) % 7 + 7) % 7; }

  friend constexpr auto operator<=>(Date, Date) noexcept = default;
  /// Whole days from `b` to `a`.
  friend constexpr int operator-(Date a, Date b) noexcept { return a.days_ - b.days_; }
  /// @throws DomainError beyond the years 1900 to 2199.
  friend constexpr Date operator+(Date date, int days) { return date.moved(days); }
  friend constexpr Date operator-(Date date, int days) {
    return date.moved(-static_cast<std::int64_t>(days));
  }

 private:
  struct Parts {
    int year;
    int month;
    int day;
  };

  constexpr explicit Date(int days) noexcept : days_(days) {}

  /// In 64 bits, as any int may be asked for and the sum must not overflow.
  [[nodiscard]] constexpr Date moved(std::int64_t days) const {
    const std::int64_t there = days_ + days;
    if (there < days_from(first_year, 1, 1) || there > days_from(last_year, 12, 31)) {
      detail::fail("days added to a date", "a number that stays in the years 1900 to 2199",
                   static_cast<double>(days));
    }
    return Date(static_cast<int>(there));
  }

  static constexpr int days_in(int year, int month) noexcept {
    constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool is_leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return month == 2 && is_leap ? 29 : days[month - 1];
  }

  // Both conversions count years from March, so that the leap day comes last; the 400-year cycle
  // has 146,097 days, and 153 days make five months of alternating length.
  static constexpr int days_from(int year, int month, int day) noexcept {
    const int y = month > 2 ? year : year - 1;
    const int months = month > 2 ? month - 3 : month + 9;
    const int cycle = y / 400;
    const int year_of_cycle = y - cycle * 400;
    const int day_of_year = (153 * months + 2) / 5 + day - 1;
    const int day_of_cycle =
        year_of_cycle * 365 + year_of_cycle / 4 - year_of_cycle / 100 + day_of_year;
    return cycle * 146097 + day_of_cycle - 719468;
  }
  [[nodiscard]] constexpr Parts parts() const noexcept {
    const int shifted = days_ + 719468;
    const int cycle = shifted / 146097;
    const int day_of_cycle = shifted - cycle * 146097;
    const int year_of_cycle =
        (day_of_cycle - day_of_cycle / 1460 + day_of_cycle / 36524 - day_of_cycle / 146096) / 365;
    const int day_of_year =
        day_of_cycle - (365 * year_of_cycle + year_of_cycle / 4 - year_of_cycle / 100);
    const int months = (5 * day_of_year + 2) / 153;
    const int month = months < 10 ? months + 3 : months - 9;
    return {.year = year_of_cycle + cycle * 400 + (month <= 2 ? 1 : 0),
            .month = month,
            .day = day_of_year - (153 * months + 2) / 5 + 1};
  }

  int days_;
};

/// "2026-11-25"
[[nodiscard]] inline Text to_text(Date date) noexcept {
  Text text;
  text.append(date.year()).append(date.month() < 10 ? "-0" : "-").append(date.month());
  return text.append(date.day() < 10 ? "-0" : "-").append(date.day());
}

template <class Traits>
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out, Date date) {
  return out << to_text(date);
}

/// The day written as ISO 8601 has it, "2026-11-25"; nothing for any other text or for a day that
/// does not exist.
[[nodiscard]] constexpr std::optional<Date> parse_date(std::string_view text) noexcept {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  int parts[3] = {};
  int part = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == 4 || i == 7) {
      ++part;
    } else if (text[i] >= '0' && text[i] <= '9') {
      parts[part] = parts[part] * 10 + (text[i] - '0');
    } else {
      return std::nullopt;
    }
  }
  if (!Date::is_valid(parts[0], parts[1], parts[2])) return std::nullopt;
  return Date(parts[0], parts[1], parts[2]);
}

/// A day of the week; Monday is 0, as in Date::weekday.
enum class Weekday : unsigned char {
  monday,
  tuesday,
  wednesday,
  thursday,
  friday,
  saturday,
  sunday,
};

inline constexpr std::array all_weekdays{Weekday::monday,   Weekday::tuesday, Weekday::wednesday,
                                         Weekday::thursday, Weekday::friday,  Weekday::saturday,
                                         Weekday::sunday};

[[nodiscard]] constexpr std::string_view to_text(Weekday day) noexcept {
  switch (day) {
    case Weekday::monday: return "Monday";
    case Weekday::tuesday: return "Tuesday";
    case Weekday::wednesday: return "Wednesday";
    case Weekday::thursday: return "Thursday";
    case Weekday::friday: return "Friday";
    case Weekday::saturday: return "Saturday";
    case Weekday::sunday: return "Sunday";
  }
  return "";
}

[[nodiscard]] constexpr Weekday weekday_of(Date date) noexcept {
  return static_cast<Weekday>(date.weekday());
}

}  // namespace barwright::inline BARWRIGHT_ABI

/// For sets and maps without an order.
template <>
struct std::hash<barwright::Date> {
  std::size_t operator()(barwright::Date date) const noexcept {
    return std::hash<int>{}(date.days_since_1970());
  }
};
