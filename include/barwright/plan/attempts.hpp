// barwright/plan/attempts.hpp - three attempts on test day or in a meet, with the chance of each
//
// Lifters who make all their attempts open near 91 % of what they end with, then add about 5 and 3
// per cent (66 men and 43 women with nine good lifts: thesis ETSU 9651, abstract read). The opener
// is what the lifter makes on any day; the second is what the log says will go up; the third is the
// likeliest max. The chance of each is the model's, and a floor is taken off it: of singles that a
// model of this kind expected to miss with less than 1 %, 5 to 8 % were missed in open meets, to
// referees and technique (docs/real-lifters.md).
//
//     const auto day = plan_attempts(lifter, lifts::squat, date, plate_sets::powerlifting);
//     for (const Attempt& attempt : day.attempts) show(attempt.with, attempt.chance_of_success);
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/plates/room.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source attempts_source{
    .citation = "East Tennessee State University, thesis 9651",
    .population = "66 men and 43 women who made all nine attempts of a meet",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note = "abstract: the first attempt 91 % of the third, then 5 and 3 % more"};

/// What referees and technique take of singles that strength would not miss.
inline constexpr double lost_to_the_rules = 0.06;

/// One attempt.
struct Attempt {
  LoadedWith with{};               ///< the bar
  double chance_of_success = 0.0;  ///< by the log, and less what the rules take
};

/// Three attempts, and the way up to the first.
struct Attempts {
  std::vector<PlannedSet> warm_up{};  ///< the last is the opener
  std::vector<Attempt> attempts{};    ///< three, rising; fewer where the room has no step between
};

/// Attempts from the max on a day: the third at the likeliest max, the second 3 % and the opener 8
/// % below it, each rounded down to the room, and the opener lighter where its chance would be
/// below `least_chance`.
/// @param least_chance  of the opener, the rules apart
/// @returns nothing can be planned where nothing is known of the lifter's strength.
/// @throws DomainError unless 0.5 <= least_chance <= 0.999.
[[nodiscard]] inline Result<Attempts> plan_attempts(const Lifter& lifter, const Lift& lift,
                                                    Date date, const Room& room,
                                                    double least_chance = 0.97) {
  if (!(least_chance >= 0.5 && least_chance <= 0.999)) {
    detail::fail("the least chance of an opener", "a share from 0.5 to 0.999", least_chance);
  }
  if (const auto refusal = detail::refusal_of(lifter, lift, date)) return *refusal;
  const Strength& strength = *lifter.strength;
  const Mass max = strength.max(lift, date).median();
  const Equipment equipment(lift, room, std::nullopt);
  const Reps one(1);
  const auto missed = [&](Mass load) {
    return strength.chance_of_missing(lift, load, one, date, 0);
  };
  const Mass certain =
      strength
          .load_for(lift, one, RepsInReserve{}, date, {.max_chance_of_missing = 1.0 - least_chance})
          .load;
  const Mass wanted[] = {std::min(0.92 * max, certain), 0.97 * max, max};
  Attempts day;
  for (const Mass load : wanted) {
    const auto with = equipment.at_most(load);
    if (!with) {
      return Refusal{.code = RefusalCode::bar_too_heavy,
                     .wanted = load,
                     .lightest = equipment.lightest().load};
    }
    if (!day.attempts.empty() && !(with->load > day.attempts.back().with.load)) continue;
    day.attempts.push_back(
        {.with = *with,
         .chance_of_success = (1.0 - missed(with->load)) * (1.0 - lost_to_the_rules)});
  }
  day.warm_up = equipment.session(day.attempts.front().with, one, 1);
  return day;
}

}  // namespace barwright::inline BARWRIGHT_ABI
