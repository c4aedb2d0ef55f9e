// barwright/plan/review.ipp - the bodies of review.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/review.hpp"
#include "barwright/plan/stops.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline ReviewVerdict verdict_on(const Change& change, double weeks, const PlanningRules& rules) {
  const Range<double> range = change.interval(0.90);
  if (range.low > 0.0) return ReviewVerdict::rose;
  if (range.high < 0.0) return ReviewVerdict::fell;
  const double worth = rules.change_worth_speaking_of;
  const bool is_small = range.low > -worth && range.high < worth;
  return is_small && weeks >= rules.fewest_weeks_of_level ? ReviewVerdict::level
                                                          : ReviewVerdict::unclear;
}

inline std::vector<Date> BlockReview::deciding_days() const {
  std::vector<Date> days;
  for (const WithoutDay& other : without) {
    if (verdict_on(other.gain, weeks(), lifter.rules) != verdict()) days.push_back(other.day);
  }
  return days;
}

namespace detail {

inline TrainedAmount amount_of(std::span<const LoggedSet> sets, const Lift& lift, Date from,
                               Date to) {
  TrainedAmount amount;
  std::vector<Date> days;
  for (const LoggedSet& set : sets) {
    if (!set.lift.same_as(lift) || set.date < from || to < set.date) continue;
    ++amount.sets;
    const bool is_hard =
        is_short(set) || (set.reserve && set.reserve->typical <= RepsInReserve(2.0));
    if (is_hard) ++amount.near_failure;
    days.push_back(set.date);
  }
  amount.days = days_of(days, [](Date day) { return day; });
  return amount;
}

/// The first and last day of the sets that satisfy `test`; nothing without any.
template <class Test>
[[nodiscard]] std::optional<std::pair<Date, Date>> span_of(std::span<const LoggedSet> sets,
                                                           Test test) {
  std::optional<std::pair<Date, Date>> span;
  for (const LoggedSet& set : sets) {
    if (!test(set)) continue;
    if (!span) span = {set.date, set.date};
    span->first = std::min(span->first, set.date);
    span->second = std::max(span->second, set.date);
  }
  return span;
}

/// Refits without each day of the block in turn. Skipped where that would take longer than some
/// seconds: in so long a block or log one day hardly matters.
inline std::vector<WithoutDay> without_each_day(const StrengthSettings& settings,
                                                std::span<const LoggedSet> log, Date from,
                                                Date to) {
  constexpr std::size_t most_sets_fitted = 100'000;
  std::vector<WithoutDay> results;
  std::vector<Date> days;
  for (const LoggedSet& set : log) {
    const bool is_ours = set.lift.base().same_as(settings.reference.base());
    if (is_ours && !(set.date < from) && !(to < set.date)) days.push_back(set.date);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  if (days.size() * log.size() > most_sets_fitted) return results;
  for (const Date day : days) {
    std::vector<LoggedSet> rest;
    std::copy_if(log.begin(), log.end(), std::back_inserter(rest),
                 [&](const LoggedSet& set) { return set.date != day; });
    const auto gain = fit_of(settings, rest)->gain(settings.reference, from, to);
    if (gain) results.push_back({day, *gain});
  }
  return results;
}

}  // namespace detail

inline Result<BlockReview> review_block(std::span<const LoggedSet> log,
                                        const ReviewRequest& request, const LifterFacts& facts) {
  const Lift base(request.lift.base());
  if (request.from && request.to && !(*request.from < *request.to)) {
    detail::fail(ErrorCode::contradiction, "the last day of a block", "after its first",
                 to_text(*request.to));
  }
  if (request.lift.base().family == LiftFamily::explosive) {
    return Refusal{.code = RefusalCode::explosive_lift};
  }
  const auto whole = detail::span_of(
      log, [&](const LoggedSet& set) { return set.lift.base().same_as(base.base()); });
  if (!whole) return Refusal{.code = RefusalCode::not_in_log};
  LearntLifter lifter = learn_lifter(log, base, whole->second, facts);
  if (const auto refusal = detail::refusal_for_body(lifter, base)) return *refusal;
  const auto span = detail::span_of(
      lifter.sets, [&](const LoggedSet& set) { return set.lift.same_as(request.lift); });
  if (!span) return Refusal{.code = RefusalCode::not_in_log};
  const Date to = request.to.value_or(span->second);
  // A plain lift was most likely done all along: the last weeks are meant.
  const int last_weeks = 7 * lifter.rules.review_weeks;
  const bool is_long = request.lift.is_plain() && to - span->first > last_weeks;
  const Date from = request.from.value_or(is_long ? to - last_weeks : span->first);
  const TrainedAmount of_lift = detail::amount_of(lifter.sets, request.lift, from, to);
  const auto on_lift = lifter.fit->gain(request.lift, from, to);
  const auto on_base = lifter.fit->gain(base, from, to);
  if (of_lift.days < 2 || !on_lift || !on_base) {
    return Refusal{.code = RefusalCode::too_few_days, .date = from, .days = of_lift.days};
  }
  const auto trained = detail::span_of(
      lifter.sets, [&](const LoggedSet& set) { return set.lift.base().same_as(base.base()); });
  BlockReview review{.request = request,
                     .from = from,
                     .to = to,
                     .lifter = std::move(lifter),
                     .of_lift = of_lift,
                     .on_lift = *on_lift,
                     .on_base = *on_base,
                     .first_day = trained->first};
  review.of_base = detail::amount_of(review.lifter.sets, base, from, to);
  if (review.weeks_before() >= 2.0) {
    review.before = review.lifter.fit->gain(base, review.first_day, from);
  }
  for (const auto& day : review.lifter.fit->history(request.lift)) {
    if (day.date < from || to < day.date) continue;
    review.history.push_back({.date = day.date, .max = day.max});
  }
  review.without = detail::without_each_day(review.lifter.fit->settings(), log, from, to);
  return review;
}

}  // namespace barwright::inline BARWRIGHT_ABI
