// barwright/plan/look_back.ipp - the bodies of look_back.hpp
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
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/look_back.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/review.hpp"
#include "barwright/plan/rules.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/training/spacing.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline LoggedWeek week_of(std::span<const LoggedSet> log, Date last, const PlanningRules& rules) {
  LoggedWeek week{.first = last - 6, .last = last};
  std::vector<Date> days;
  double kg = 0.0;
  for (const LoggedSet& set : log) {
    if (set.date < week.first || last < set.date) continue;
    days.push_back(set.date);
    kg += set.load.kg() * reps_made(set);
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
inline std::optional<LoggedSet> best_set(const LearntLifter& lifter, Date first, Date last) {
  std::optional<LoggedSet> best;
  double most = 0.0;
  for (const LoggedSet& set : lifter.sets) {
    if (set.date < first || last < set.date || !set.lift.base().same_as(lifter.base.base())) {
      continue;
    }
    const double reps = reps_to_failure(set).value_or(set.reps.count());
    if (reps < 1.0) continue;
    // What a variation says of the lift is an estimate, its own sets are what a coach looks for.
    if (best && best->lift.is_plain() && !set.lift.is_plain()) continue;
    if (best && !best->lift.is_plain() && set.lift.is_plain()) most = 0.0;
    const Mass own = set.load / lifter.strength->share_of_max(set.lift, last, reps);
    const double max = own.kg() / lifter.strength->ratio(set.lift).median();
    if (max > most) best = set;
    most = std::max(most, max);
  }
  return best;
}

/// The days of some weeks on which a lift or a variation of it was trained, in order.
inline std::vector<Date> days_trained(std::span<const LoggedSet> sets, const Lift& base,
                                      const LookBackRequest& request) {
  std::vector<Date> days;
  const Date first = request.date - 7 * request.weeks + 1;
  for (const LoggedSet& set : sets) {
    const bool is_in_time = first <= set.date && set.date <= request.date;
    if (is_in_time && set.lift.base().same_as(base.base())) days.push_back(set.date);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

inline Result<LiftProgress> progress_of(std::span<const LoggedSet> log, const Lift& base,
                                        const LookBackRequest& request, const LifterFacts& facts) {
  LiftProgress progress{
      .base = base, .lifter = learn_lifter(log, base, request.date, facts), .last = request.date};
  if (const auto refusal = refusal_of(progress.lifter, base, request.date)) return *refusal;
  const std::vector<Date> days = days_trained(progress.lifter.used, base, request);
  if (days.empty()) return Refusal{.code = RefusalCode::too_few_days};
  progress.max = progress.lifter.strength->max(base, request.date);
  progress.days = static_cast<int>(days.size());
  progress.last = days.back();
  progress.gain = progress.lifter.fit->gain(base, days.front(), days.back());
  progress.gain_weeks = (days.back() - days.front()) / 7.0;
  // Of a few days the model says what it would of anybody.
  if (progress.gain && progress.days >= progress.lifter.rules.fewest_trend_days) {
    progress.verdict = verdict_on(*progress.gain, progress.gain_weeks, progress.lifter.rules);
  }
  progress.best = best_set(progress.lifter, request.date - 6, request.date);
  progress.best_before = best_set(progress.lifter, request.date - 13, request.date - 7);
  return progress;
}

/// What the log says of pain since a day.
inline void find_notes(LookBack& back, std::span<const LoggedSet> log, const LifterFacts& facts) {
  const Date first = back.request.date - 7 * back.request.weeks + 1;
  for (const LoggedSet& set : log) {
    const bool is_noted = set.has_pain || set.is_unwell || set.may_hurt;
    if (is_noted && !(set.date < first)) back.noted.push_back(set);
  }
  std::stable_sort(back.noted.begin(), back.noted.end(),
                   [](const LoggedSet& a, const LoggedSet& b) { return b.date < a.date; });
  for (const NotedDay& day : facts.noted) {
    if ((day.hurts || day.is_unwell) && !(day.date < first)) back.noted_beside.push_back(day);
  }
  std::stable_sort(back.noted_beside.begin(), back.noted_beside.end(),
                   [](const NotedDay& a, const NotedDay& b) { return b.date < a.date; });
}

}  // namespace detail

inline LookBack look_back(std::span<const LoggedSet> log, const LookBackRequest& request,
                          const LifterFacts& facts) {
  if (!(2 <= request.weeks && request.weeks <= 104)) {
    detail::fail("the weeks to look back", "a whole number from 2 to 104",
                 static_cast<double>(request.weeks));
  }
  LookBack back{.request = request};
  for (int week = 0; week < request.weeks; ++week) {
    back.weeks.push_back(detail::week_of(log, request.date - 7 * week, facts.rules));
  }
  detail::find_notes(back, log, facts);
  LifterFacts by_log = facts;
  by_log.stated_max.reset();
  std::vector<const BaseLift*> known;
  for (const LoggedSet& set : log) {
    const BaseLift& base = set.lift.base();
    const auto is_same = [&](const BaseLift* other) { return other->same_as(base); };
    if (std::any_of(known.begin(), known.end(), is_same)) continue;
    known.push_back(&base);
    const Lift lift(base);
    if (detail::days_trained(log, lift, request).empty()) continue;
    Result<LiftProgress> progress = detail::progress_of(log, lift, request, by_log);
    if (progress) {
      back.lifts.push_back(std::move(progress).value());
    } else {
      back.refused.push_back({lift, progress.refusal()});
    }
  }
  return back;
}

}  // namespace barwright::inline BARWRIGHT_ABI
