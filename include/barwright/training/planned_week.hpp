// barwright/training/planned_week.hpp - a week of sessions: what is lifted on which day
//
// A week is a list of sessions on days, each a list of lifts with sets, reps and reserve.
// What it asks of each muscle is in volume.hpp, what is too close together in spacing.hpp and
// overlap.hpp, a better order in day_order.hpp, a better choice of lifts in swaps.hpp:
//
//     std::vector<PlannedSession> week{
//         {.day = Weekday::monday, .lifts = {{lifts::bench_press, 4_sets, 6_reps, 2_rir}}},
//         {.day = Weekday::tuesday, .lifts = {{lifts::squat, 5_sets, 5_reps, 0_rir}}},
//         {.day = Weekday::wednesday, .lifts = {{lifts::deadlift, 3_sets, 5_reps, 1_rir}}},
//         {.day = Weekday::friday, .rating = SessionRating(6, 80)}};  // on the water, 80 minutes
//     for (const SpacingConflict& conflict : spacing_conflicts(week)) show(to_text(conflict));
//     const DayOrder order = best_order(week, {}, {.fixed = {true}});  // Monday stays
//     if (order.moved > 0) week = reordered(week, order);
//
// A day is the unit: its sessions count together, and hours are whole days of 24. Sessions without
// lifts - rowing, running, a match - have no muscle groups here: they count in the load of their
// day, and in neither spacing nor overlap.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/training/session_load.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One lift of a session. Warm-up sets are not counted.
struct PlannedLift {
  Lift lift;
  Sets sets;
  Reps reps;
  RepsInReserve reserve;       ///< the least left in any set; 0 is failure
  std::optional<Mass> load{};  ///< where it is known
};

/// What is done in one go; a day may have several.
struct PlannedSession {
  Weekday day = Weekday::monday;
  std::vector<PlannedLift> lifts{};  ///< none for a row, a run or a match
  std::optional<SessionRating> rating{};
};

namespace detail {

/// 0 to 6. An enum can be made to hold anything, an array cannot.
[[nodiscard]] constexpr std::size_t index_of(Weekday day) {
  const auto index = static_cast<std::size_t>(day);
  if (index >= all_weekdays.size()) {
    fail("a day of the week", "0 (Monday) to 6 (Sunday)", static_cast<double>(index));
  }
  return index;
}

}  // namespace detail

/// The session loads of each day, Monday first, for `summarise`.
struct DailyLoads {
  std::array<double, 7> loads{};
  int sessions_without_rating = 0;  ///< counted as no load: with any, monotony means little
};

[[nodiscard]] constexpr DailyLoads daily_loads(std::span<const PlannedSession> sessions) {
  DailyLoads result;
  for (const PlannedSession& session : sessions) {
    if (session.rating) {
      result.loads[detail::index_of(session.day)] += session_load(*session.rating);
    } else {
      ++result.sessions_without_rating;
    }
  }
  return result;
}

}  // namespace barwright::inline BARWRIGHT_ABI
