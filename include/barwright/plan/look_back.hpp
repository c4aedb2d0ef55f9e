// barwright/plan/look_back.hpp - what a coach asks of a log every week
//
//     const LookBack back = look_back(log, {.date = today});
//     for (const LiftProgress& lift : back.lifts) show(lift.base, name(lift.verdict), lift.gain);
//     for (const MuscleGroup group : all_muscle_groups) show(back.weeks[0].hard[group]);
//
// Is it going up, for each lift; the hard sets of each muscle group and the load of each week; and
// what changed since the week before. A week is seven days that end on the day asked about, so that
// it is whole on any day of the week. The gain is the model's, over all sets of a lift and its
// variations; what is worth speaking of is decided as a review decides it (review.hpp).
//
// Needs Eigen.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/review.hpp"
#include "barwright/training/volume.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// How the last weeks of a log went is asked by this.
struct LookBackRequest {
  Date date;
  int weeks = 8;  ///< how far back, at least 2
};

/// Seven days of a log.
struct LoggedWeek {
  Date first;
  Date last;
  int days = 0;          ///< on which something was lifted
  int hard_sets = 0;     ///< left few enough to count, were missed, or not rated and no warm-up
  int unrated_sets = 0;  ///< of them, taken as hard for want of a rating
  Mass lifted{};         ///< load times reps, of all sets
  /// The hard sets of each muscle group; what only braces is left out.
  FractionalSets hard{};
};

/// How one base lift went, with its variations.
struct LiftProgress {
  Lift base;
  LearntLifter lifter;
  Estimate<Mass> max{0.0, 0.0};  ///< on the day asked about
  int days = 0;                  ///< trained in the weeks looked at
  Date last;                     ///< trained
  std::optional<Change> gain{};  ///< over `gain_weeks`; nothing with fewer than two days
  double gain_weeks = 0.0;
  ReviewVerdict verdict = ReviewVerdict::unclear;
  /// The set of the last week, and of the week before, that shows the greatest max on the lift: one
  /// of the lift itself, where there is one.
  std::optional<LoggedSet> best{};
  std::optional<LoggedSet> best_before{};
};

/// A base lift that was trained, and why nothing can be said of it.
struct RefusedLift {
  Lift base;          ///< the lift in any form
  Refusal refusal{};  ///< no body mass, say; `too_few_days` where no set fits the others
};

/// A log, looked back on.
struct LookBack {
  LookBackRequest request;
  std::vector<LoggedWeek> weeks{};     ///< the last one first
  std::vector<LiftProgress> lifts{};   ///< as the log first names them
  std::vector<RefusedLift> refused{};  ///< the others that were trained in these weeks
  /// Sets of these weeks, or with a date after them, that hurt, that were noted as unwell, or whose
  /// note names a joint: as logged, the last first.
  std::vector<LoggedSet> noted{};
  std::vector<NotedDay> noted_beside{};  ///< the same of rows without a set, the last first
};

/// What the last weeks of one lifter's log hold.
/// @param log  the sets of one lifter, of any lifts, in any order; those after the day are left out
/// @param facts  a max that is stated counts for nothing: it says nothing of a change
/// @throws DomainError unless 2 to 104 weeks are asked for.
[[nodiscard]] LookBack look_back(std::span<const LoggedSet> log, const LookBackRequest& request,
                                 const LifterFacts& facts = {});

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/look_back.ipp"
#endif
