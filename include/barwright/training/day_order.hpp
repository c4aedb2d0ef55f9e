// barwright/training/day_order.hpp - a better order of the days of a week
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/source.hpp"
#include "barwright/training/detail/week_work.hpp"
#include "barwright/training/overlap.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing_rule.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source order_source = assumption(
    "by how much the heaviest day may grow, that days of rest stay, and below what gain an order "
    "is not worth moving for, are this library's choices and can be set");

/// One flag for each day, Monday first.
using DayFlags = std::array<bool, 7>;

/// What an order of days may do. The defaults are explained by `order_source`.
struct OrderRule {
  DayFlags fixed{};  ///< days whose lifts stay, and to which no others may come
  /// Whether lifts may come to a day of rest. Even then one is left where there is one now. A day
  /// of rest has no session, or only such as are rated and have no load.
  bool may_use_rest_days = false;
  /// By how many per cent of the heaviest day's load as it is any day may be heavier than that. A
  /// session without a rating counts as no load. 100 is no limit, as a day gets the lifts of one.
  int most_load_rise_percent = 10;
  /// The least fall of the overlap, in per cent of it, for which days are moved when no conflict
  /// goes with it.
  int least_gain_percent = 5;
};

/// Which day's training goes where.
struct DayOrder {
  /// The new day of each day's lifts, Monday first. A day without lifts has none: its entry is the
  /// day itself.
  std::array<Weekday, 7> to = all_weekdays;
  int moved = 0;  ///< days whose lifts change their day
  int conflicts_before = 0;
  int conflicts_after = 0;
  double overlap_before = 0.0;  ///< shared fractional sets of lifting: bracing is left out
  double overlap_after = 0.0;
};

namespace detail {

constexpr void require_order_rule(const OrderRule& order) {
  if (!(0 <= order.most_load_rise_percent && order.most_load_rise_percent <= 100)) {
    fail("the per cent by which the heaviest day may rise", "a whole number from 0 to 100",
         static_cast<double>(order.most_load_rise_percent));
  }
  if (!(0 <= order.least_gain_percent && order.least_gain_percent <= 100)) {
    fail("the per cent of overlap worth moving for", "a whole number from 0 to 100",
         static_cast<double>(order.least_gain_percent));
  }
}

/// Which day's lifts may come to which day, by load and rest.
class AllowedDays {
 public:
  constexpr AllowedDays(std::span<const PlannedSession> sessions, const OrderRule& order)
      : order_(order) {
    require_order_rule(order);
    for (const PlannedSession& session : sessions) {
      const std::size_t day = index_of(session.day);
      const double load = session.rating ? session_load(*session.rating) : 0.0;
      if (!session.lifts.empty()) {
        moving_load_[day] += load;
        has_lifts_[day] = true;
      } else {
        staying_load_[day] += load;
        if (!session.rating || load > 0.0) has_other_[day] = true;
      }
    }
    for (std::size_t day = 0; day < all_weekdays.size(); ++day) {
      heaviest_ = std::max(heaviest_, moving_load_[day] + staying_load_[day]);
      if (is_rest(day)) has_rest_ = true;
    }
  }

  [[nodiscard]] constexpr bool allows(std::size_t from, std::size_t to) const noexcept {
    if (from == to) return true;
    if (order_.fixed[from] || order_.fixed[to]) return false;
    if (is_rest(to) && !order_.may_use_rest_days) return false;
    return 100.0 * (moving_load_[from] + staying_load_[to]) <=
           (100.0 + order_.most_load_rise_percent) * heaviest_;
  }
  /// Whether lifts on these days leave a day of rest where there is one now.
  [[nodiscard]] constexpr bool leaves_rest(const DayFlags& taken) const noexcept {
    for (std::size_t day = 0; day < taken.size(); ++day) {
      if (!taken[day] && !has_other_[day]) return true;
    }
    return !has_rest_;
  }

 private:
  [[nodiscard]] constexpr bool is_rest(std::size_t day) const noexcept {
    return !has_lifts_[day] && !has_other_[day];
  }

  OrderRule order_;
  std::array<double, 7> moving_load_{};   ///< of the sessions with lifts
  std::array<double, 7> staying_load_{};  ///< of the others
  DayFlags has_lifts_{};
  DayFlags has_other_{};
  double heaviest_ = 0.0;
  bool has_rest_ = false;
};

/// Puts the training days on days in every way that is allowed, earliest first.
class OrderSearch {
 public:
  constexpr OrderSearch(const WeekWork& days, const SpacingRule& rule, const AllowedDays& allowed)
      : allowed_(allowed) {
    for (std::size_t day = 0; day < days.size(); ++day) {
      if (days[day].has_lifts) from_[count_++] = day;
    }
    for (std::size_t a = 0; a < count_; ++a) {
      for (std::size_t day = 0; day < days.size(); ++day) {
        may_go_[a][day] = allowed.allows(from_[a], day);
      }
      for (std::size_t b = 0; b < count_; ++b) {
        if (a == b) continue;
        for (std::size_t apart = 1; apart < days.size(); ++apart) {
          const DayWork& first = days[from_[a]];
          const DayWork& second = days[from_[b]];
          Closeness& both = when_apart_[a][b][apart];
          both = Closeness(first, second, 24 * static_cast<int>(apart), rule);
          if (!rule.week_repeats) continue;
          both += Closeness(second, first, 24 * static_cast<int>(days.size() - apart), rule);
        }
      }
    }
    place(0, Closeness{}, 0);
  }

  [[nodiscard]] constexpr Closeness least() const noexcept { return least_; }
  [[nodiscard]] constexpr int fewest_moves() const noexcept { return fewest_moves_; }
  [[nodiscard]] constexpr std::array<Weekday, 7> to() const noexcept {
    std::array<Weekday, 7> days = all_weekdays;
    for (std::size_t i = 0; i < count_; ++i) days[from_[i]] = all_weekdays[best_[i]];
    return days;
  }

 private:
  /// Tries every free day for the next training day. Neither number can fall by placing more days,
  /// so an order that is no better already will not become so.
  constexpr void place(std::size_t next, Closeness so_far, int moves) noexcept {
    if (so_far > least_ || (so_far == least_ && moves >= fewest_moves_)) return;
    if (next == count_) {
      if (!allowed_.leaves_rest(taken_)) return;
      least_ = so_far;
      fewest_moves_ = moves;
      best_ = at_;
      return;
    }
    for (std::size_t day = 0; day < taken_.size(); ++day) {
      if (taken_[day] || !may_go_[next][day]) continue;
      Closeness with = so_far;
      for (std::size_t i = 0; i < next; ++i) {
        with +=
            at_[i] < day ? when_apart_[i][next][day - at_[i]] : when_apart_[next][i][at_[i] - day];
      }
      taken_[day] = true;
      at_[next] = day;
      place(next + 1, with, moves + (day == from_[next] ? 0 : 1));
      taken_[day] = false;
    }
  }

  const AllowedDays& allowed_;
  std::size_t count_ = 0;
  std::array<std::size_t, 7> from_{};  ///< the training days, as planned
  std::array<DayFlags, 7> may_go_{};   ///< to which day
  std::array<std::array<std::array<Closeness, 7>, 7>, 7> when_apart_{};
  DayFlags taken_{};
  std::array<std::size_t, 7> at_{};
  std::array<std::size_t, 7> best_{};
  Closeness least_ = Closeness::most();
  int fewest_moves_ = days_in_week + 1;
};

}  // namespace detail

/// The order of days with the fewest spacing conflicts and, of those, the least overlap of lifting,
/// found by trying all that the rules allow: at most 5040.
///
/// What is lifted on one day stays together; sessions without lifts stay where they are, and lifts
/// may come to a day that has one. Days of rest stay so, and no day becomes much heavier than the
/// heaviest is now, unless `order` allows it. Bracing moves no day. Among equal orders the one that
/// moves the fewest days wins, and among those the earliest: Monday's lifts as early as can be,
/// then Tuesday's, and so on. A week that cannot be bettered, or only by too little, comes back as
/// it is.
/// @throws DomainError for a rule as in `spacing_conflicts`, or per cents of the order outside 0 to
///   100.
[[nodiscard]] inline DayOrder best_order(std::span<const PlannedSession> sessions,
                                         const SpacingRule& rule = {},
                                         const OrderRule& order = {}) {
  detail::require_rule(rule);
  SpacingRule of_lifting = rule;
  of_lifting.bracing_percent = 0;
  const detail::WeekWork days = detail::work_of(sessions, of_lifting);
  const detail::AllowedDays allowed(sessions, order);
  const detail::OrderSearch search(days, of_lifting, allowed);
  const detail::Closeness before = detail::closeness_of(days, of_lifting);
  const detail::Closeness after = search.least();
  DayOrder result{.conflicts_before = before.conflicts(),
                  .conflicts_after = before.conflicts(),
                  .overlap_before = before.overlap(),
                  .overlap_after = before.overlap()};
  if (after.conflicts() == before.conflicts() &&
      100 * (before.overlap_parts() - after.overlap_parts()) <
          order.least_gain_percent * before.overlap_parts()) {
    return result;
  }
  result.to = search.to();
  result.moved = search.fewest_moves();
  result.conflicts_after = after.conflicts();
  result.overlap_after = after.overlap();
  return result;
}

/// The same sessions, in the same sequence, those with lifts on their new days.
[[nodiscard]] inline std::vector<PlannedSession> reordered(std::span<const PlannedSession> sessions,
                                                           const DayOrder& order) {
  std::vector<PlannedSession> moved(sessions.begin(), sessions.end());
  for (PlannedSession& session : moved) {
    if (!session.lifts.empty()) session.day = order.to[detail::index_of(session.day)];
  }
  return moved;
}

}  // namespace barwright::inline BARWRIGHT_ABI
