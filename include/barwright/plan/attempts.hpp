// barwright/plan/attempts.hpp - three attempts on test day or in a meet, with the chance of each
//
// Lifters who make all their attempts open near 91 % of what they end with, then add about 5 and 3
// per cent (66 men and 43 women with nine good lifts: thesis ETSU 9651, abstract read). The opener
// is what the lifter makes on any day; the second is what the log says will go up; the third is the
// likeliest max. The chance of each is the model's, and a floor is taken off it: of singles that a
// model of this kind expected to miss with less than 1 %, 5 to 8 % were missed in open meets, to
// referees and technique (docs/real-lifters.md). The figures are in rules.hpp.
//
//     const auto day = plan_attempts(lifter, {.lift = lifts::squat, .date = date,
//                                             .room = plate_sets::powerlifting,
//                                             .has_spotter = true});
//     if (!day) return show(day.refusal());
//     if (day->is_stopped()) return show(day->cautions, day->remedies);
//     for (const Attempt& attempt : day->attempts) show(attempt.with, attempt.chance_of_success);
//
// As for every load, it asks about pain, a max that cannot be right, who would catch the bar, how
// well the lift is known, the greatest rise above what was shown, the plates on a sleeve.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/plates/plate_sets.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/comeback.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What is asked of a test day. In a meet there are spotters: say so.
struct AttemptsRequest {
  Lift lift;                           ///< that is attempted
  Date date;                           ///< of the test or meet
  Room room = plate_sets::gym_kg;      ///< what can be loaded
  bool has_spotter = false;            ///< somebody who can catch the bar
  Safeties safeties = Safeties::none;  ///< what would catch the bar
  Pain pain = Pain::as_logged;         ///< whether the lift hurts today
  Unwell unwell = Unwell::as_logged;   ///< dizziness, chest pain and the like
  bool is_max_confirmed = false;       ///< a max or a log that was doubted is right
};

/// One attempt.
struct Attempt {
  LoadedWith with{};               ///< the load, and the plates that make it
  double chance_of_success = 0.0;  ///< by the log, and less what referees and technique take
};

/// Three attempts, and the way up to the first.
struct AttemptsPlan {
  AttemptsRequest request;          ///< as it was asked
  std::vector<Attempt> attempts{};  ///< rising; fewer where the room has no step; none under a stop
  std::vector<PlannedSet> sets{};   ///< on the way up; the last is the opener
  LimitedBy limited_by = LimitedBy::reserve;  ///< what keeps the third off the likeliest max

  Estimate<Mass> max{0.0, 0.0};        ///< on the lift, that day
  int earlier_sessions = 0;            ///< of the lift, by the log
  std::optional<int> days_off{};       ///< since the lift was done in any form
  std::optional<Comeback> comeback{};  ///< the way back from a layoff that the day is on
  Recovery recovery{};                 ///< whether it is too soon after a hard session
  std::optional<PastSession> last{};   ///< the last session of the lift

  std::vector<Caution> cautions{};  ///< gravest first
  std::vector<Remedy> remedies{};   ///< what would lift the stops

  /// The loads of the attempts.
  [[nodiscard]] std::vector<Mass> loads() const {
    std::vector<Mass> all;
    for (const Attempt& attempt : attempts) all.push_back(attempt.with.load);
    return all;
  }
  /// Whether a stop stands above all: no attempt is given.
  [[nodiscard]] bool is_stopped() const noexcept {
    return !cautions.empty() && cautions.front().severity == Severity::stop;
  }
};

/// Three attempts from the max on a day, each rounded down to the room: the third at the likeliest
/// max, the second and the opener below it by their shares, and the opener lighter where strength
/// alone would make its chance less than `opener_chance`.
///
/// @returns the plan, which may say stop and then has no loads; or why there is none.
[[nodiscard]] Result<AttemptsPlan> plan_attempts(const Lifter& lifter,
                                                 const AttemptsRequest& request);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/attempts.ipp"
#endif
