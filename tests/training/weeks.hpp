// tests/training/weeks.hpp - weeks for the tests, and the rule of spacing written once more
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "barwright/training.hpp"

namespace barwright_test {

using namespace barwright;
using namespace barwright::literals;

using Week = std::vector<PlannedSession>;

inline PlannedLift planned(const Lift& lift, int sets, double reserve = 2.0) {
  return {.lift = lift,
          .sets = Sets(sets),
          .reps = 6_reps,
          .reserve = RepsInReserve(reserve),
          .load = {}};
}
inline PlannedSession on(Weekday day, std::vector<PlannedLift> lifts) {
  return {.day = day, .lifts = std::move(lifts), .rating = {}};
}
inline constexpr auto monday = Weekday::monday;
inline constexpr auto tuesday = Weekday::tuesday;
inline constexpr auto wednesday = Weekday::wednesday;
inline constexpr auto thursday = Weekday::thursday;
inline constexpr auto friday = Weekday::friday;
inline constexpr auto sunday = Weekday::sunday;

inline const Lift feet_up_bench = lifts::bench_press + modifiers::feet_up;

inline std::string message_of(auto action) {
  try {
    action();
  } catch (const DomainError& error) {
    return error.what();
  }
  return "no error";
}

/// A week nobody would plan: any lifts and variations, on any days.
inline Week random_week(std::mt19937& random) {
  const auto up_to = [&](int most) { return std::uniform_int_distribution<int>(0, most)(random); };
  Week week(static_cast<std::size_t>(1 + up_to(7)));
  for (PlannedSession& session : week) {
    session.day = all_weekdays[static_cast<std::size_t>(up_to(6))];
    const int count = up_to(3);
    for (int i = 0; i < count; ++i) {
      const auto bases = catalogue::lifts();
      const auto changes = catalogue::modifiers();
      Lift lift = bases[static_cast<std::size_t>(up_to(static_cast<int>(bases.size()) - 1))];
      for (int j = 0; j < 4; ++j) {
        const Modifier& modifier =
            changes[static_cast<std::size_t>(up_to(static_cast<int>(changes.size()) - 1))];
        if (lift.accepts(modifier)) lift = lift + modifier;
      }
      const int sets = 1 + up_to(5);
      session.lifts.push_back(planned(lift, sets, 0.5 * up_to(10)));
    }
  }
  return week;
}

/// What a press only braces, written once more from its description.
inline bool only_braces(const Lift& lift, MuscleGroup group) {
  const bool is_press = lift.base() == lifts::bench_press || lift.base() == lifts::overhead_press ||
                        lift.base() == lifts::push_up || lift.base() == lifts::dip;
  const std::array below{MuscleGroup::lower_back, MuscleGroup::trunk,      MuscleGroup::glutes,
                         MuscleGroup::quadriceps, MuscleGroup::hamstrings, MuscleGroup::calves,
                         MuscleGroup::hip_flexors};
  return is_press && lift.muscles()[group] == Involvement::indirect &&
         std::find(below.begin(), below.end(), group) != below.end();
}

/// The rule of spacing and overlap of lifting once more, written from its description with plain
/// sums of doubles. Halves add exactly, so results can be compared exactly.
struct PlainDay {
  double upper[16] = {};
  double lower[16] = {};
  double failed[16] = {};
  bool direct[16] = {};
  bool direct_failed[16] = {};
  bool used = false;
};
struct Cost {
  int conflicts = 0;
  double overlap = 0.0;
};
inline std::array<PlainDay, 7> plain_days(const Week& week, const SpacingRule& rule) {
  std::array<PlainDay, 7> days;
  for (const PlannedSession& session : week) {
    PlainDay& day = days[static_cast<std::size_t>(session.day)];
    day.used = day.used || !session.lifts.empty();
    for (const PlannedLift& lift : session.lifts) {
      for (std::size_t g = 0; g < 16; ++g) {
        if (only_braces(lift.lift, all_muscle_groups[g])) continue;
        const Involvement asked = lift.lift.muscles()[all_muscle_groups[g]];
        const double sets = lift.sets.count() * fraction_of_set(asked);
        const bool is_upper = lift.lift.base().region == Region::upper_body;
        (is_upper ? day.upper : day.lower)[g] += sets;
        const bool to_failure = lift.reserve.count() == 0.0;
        if (to_failure) day.failed[g] += sets;
        const bool is_hard = lift.reserve.count() <= rule.most_reserve_of_hard_set.count();
        if (asked == Involvement::direct && is_hard) {
          day.direct[g] = true;
          if (to_failure) day.direct_failed[g] = true;
        }
      }
    }
  }
  return days;
}
inline Cost plain_cost(const PlainDay& a, const PlainDay& b, int hours, const SpacingRule& rule) {
  Cost cost;
  for (std::size_t g = 0; g < 16; ++g) {
    const int wanted = a.direct_failed[g] ? rule.hours_after_failure : rule.hours_between;
    if (a.direct[g] && b.direct[g] && hours < wanted) ++cost.conflicts;
    const double later = b.upper[g] + b.lower[g];
    if (hours < rule.hours_between) {
      cost.overlap += std::min(a.upper[g] + a.lower[g], later);
    } else if (hours < rule.hours_after_failure) {
      cost.overlap += std::min(a.failed[g], later);
    }
  }
  return cost;
}

}  // namespace barwright_test
