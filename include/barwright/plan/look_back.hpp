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

#include <algorithm>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/review.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/training/spacing.hpp"
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
  int days = 0;                  ///< trained in the weeks looked at
  Date last;                     ///< trained
  std::optional<Change> gain{};  ///< over `gain_weeks`; nothing with fewer than two days
  double gain_weeks = 0.0;
  ReviewVerdict verdict = ReviewVerdict::unclear;
  /// The set of the last week, and of the week before, that shows the greatest max on the lift.
  std::optional<LoggedSet> best{};
  std::optional<LoggedSet> best_before{};
};

/// A log, looked back on.
struct LookBack {
  LookBackRequest request;
  std::vector<LoggedWeek> weeks{};    ///< the last one first
  std::vector<LiftProgress> lifts{};  ///< as the log first names them
};

namespace detail {

[[nodiscard]] inline LoggedWeek week_of(std::span<const LoggedSet> log, Date last,
                                        const PlanningRules& rules) {
  LoggedWeek week{.first = last - 6, .last = last};
  std::vector<Date> days;
  double kg = 0.0;
  for (const LoggedSet& set : log) {
    if (set.date < week.first || last < set.date) continue;
    days.push_back(set.date);
    kg += set.load.kg() * (set.reps.count() - (set.outcome == Outcome::missed ? 1 : 0));
    if (!is_hard(set) || is_warm_up(set, log, rules.warm_up_below)) continue;
    ++week.hard_sets;
    week.unrated_sets += set.reserve || set.outcome == Outcome::missed ? 0 : 1;
    week.hard.add(set.lift, 1, 0);
  }
  std::sort(days.begin(), days.end());
  week.days = static_cast<int>(std::unique(days.begin(), days.end()) - days.begin());
  week.lifted = Mass::from_kg(std::min(kg, Mass::largest_kg));
  return week;
}

/// The set of some days that shows the greatest max; of sets that are not rated the heaviest.
[[nodiscard]] inline std::optional<LoggedSet> best_set(const LearntLifter& lifter, Date first,
                                                       Date last) {
  std::optional<LoggedSet> best;
  double most = 0.0;
  for (const LoggedSet& set : lifter.sets) {
    if (set.date < first || last < set.date || !set.lift.base().same_as(lifter.base.base())) {
      continue;
    }
    const double reps = reps_to_failure(set).value_or(set.reps.count());
    if (reps < 1.0) continue;
    const Mass own = set.load / lifter.strength->share_of_max(set.lift, last, reps);
    const double max = own.kg() / lifter.strength->ratio(set.lift).median();
    if (max > most) best = set;
    most = std::max(most, max);
  }
  return best;
}

[[nodiscard]] inline std::optional<LiftProgress> progress_of(std::span<const LoggedSet> log,
                                                             const Lift& base,
                                                             const LookBackRequest& request,
                                                             const LifterFacts& facts) {
  LiftProgress progress{
      .base = base, .lifter = learn_lifter(log, base, request.date, facts), .last = request.date};
  if (refusal_of(progress.lifter, base, request.date)) return std::nullopt;
  std::vector<Date> days;
  const Date from = request.date - 7 * request.weeks;
  for (const LoggedSet& set : progress.lifter.used) {
    if (set.date >= from && set.lift.base().same_as(base.base())) days.push_back(set.date);
  }
  if (days.empty()) return std::nullopt;
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  progress.days = static_cast<int>(days.size());
  progress.last = days.back();
  progress.gain = progress.lifter.fit->gain(base, days.front(), days.back());
  progress.gain_weeks = (days.back() - days.front()) / 7.0;
  if (progress.gain) {
    progress.verdict = verdict_on(*progress.gain, progress.gain_weeks, progress.lifter.rules);
  }
  progress.best = best_set(progress.lifter, request.date - 6, request.date);
  progress.best_before = best_set(progress.lifter, request.date - 13, request.date - 7);
  return progress;
}

}  // namespace detail

/// What the last weeks of one lifter's log hold.
/// @param log  the sets of one lifter, of any lifts, in any order; those after the day are left out
/// @throws DomainError unless 2 to 104 weeks are asked for.
[[nodiscard]] inline LookBack look_back(std::span<const LoggedSet> log,
                                        const LookBackRequest& request,
                                        const LifterFacts& facts = {}) {
  if (!(2 <= request.weeks && request.weeks <= 104)) {
    detail::fail("the weeks to look back", "a whole number from 2 to 104",
                 static_cast<double>(request.weeks));
  }
  LookBack back{.request = request};
  for (int week = 0; week < request.weeks; ++week) {
    back.weeks.push_back(detail::week_of(log, request.date - 7 * week, facts.rules));
  }
  std::vector<const BaseLift*> known;
  for (const LoggedSet& set : log) {
    const BaseLift& base = set.lift.base();
    const auto is_same = [&](const BaseLift* other) { return other->same_as(base); };
    if (std::any_of(known.begin(), known.end(), is_same)) continue;
    known.push_back(&base);
    if (auto progress = detail::progress_of(log, Lift(base), request, facts)) {
      back.lifts.push_back(*std::move(progress));
    }
  }
  return back;
}

}  // namespace barwright::inline BARWRIGHT_ABI
