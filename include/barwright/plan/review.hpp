// barwright/plan/review.hpp - what a block of training on a variation brought
//
//     const auto review = review_block(log, {.lift = lifts::bench_press + modifiers::feet_up});
//     if (!review) return show(review.refusal());
//     show(review->verdict(), review->on_base, review->deciding_days());
//
// The gain on the variation and on the base lift, what the base lift did before the block, and
// whether any one session decides the verdict. The verdict rests on the base lift, because carrying
// over to it is what a variation is for. A gain while it was trained is not yet a gain because of
// it: one lifter cannot be seen training with and without it at the same time.
//
// Needs Eigen.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/refusal.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What is asked of a review.
struct ReviewRequest {
  Lift lift;                   ///< the variation
  std::optional<Date> from{};  ///< else its first day in the log
  std::optional<Date> to{};    ///< else its last
};

/// What a log says of a change.
enum class ReviewVerdict : unsigned char {
  rose,
  fell,
  level,    ///< sure to be no more than is worth speaking of
  unclear,  ///< the log cannot tell
};

[[nodiscard]] constexpr std::string_view name(ReviewVerdict verdict) noexcept {
  switch (verdict) {
    case ReviewVerdict::rose: return "rose";
    case ReviewVerdict::fell: return "fell";
    case ReviewVerdict::level: return "level";
    case ReviewVerdict::unclear: return "unclear";
  }
  return "";
}

/// A change over some weeks, by its interval of 90 %.
[[nodiscard]] inline ReviewVerdict verdict_on(const Change& change, double weeks,
                                              const PlanningRules& rules = {}) {
  const Range<double> range = change.interval(0.90);
  if (range.low > 0.0) return ReviewVerdict::rose;
  if (range.high < 0.0) return ReviewVerdict::fell;
  const double worth = rules.change_worth_speaking_of;
  const bool is_small = range.low > -worth && range.high < worth;
  return is_small && weeks >= rules.fewest_weeks_of_level ? ReviewVerdict::level
                                                          : ReviewVerdict::unclear;
}

/// The gain on the base lift as it would be without the sets of one day.
struct WithoutDay {
  Date day;
  Change gain{0.0, 0.0};
};

/// How much a lift was trained.
struct TrainedAmount {
  int days = 0;
  int sets = 0;
  int near_failure = 0;  ///< sets missed, or rated with two or fewer left
};

/// What a block of training on a variation brought.
struct BlockReview {
  ReviewRequest request;
  Date from;
  Date to;
  LearntLifter lifter;  ///< by the whole log
  TrainedAmount of_lift{};
  TrainedAmount of_base{};
  Change on_lift{0.0, 0.0};
  Change on_base{0.0, 0.0};
  std::optional<Change> before{};     ///< on the base lift, in the log before the block
  Date first_day;                     ///< of the log, for the base lift and its variations
  std::vector<WithoutDay> without{};  ///< each day of the block; none for a very long one

  [[nodiscard]] double weeks() const noexcept { return (to - from) / 7.0; }
  [[nodiscard]] double weeks_before() const noexcept { return (from - first_day) / 7.0; }
  [[nodiscard]] ReviewVerdict verdict() const { return verdict_on(on_base, weeks(), lifter.rules); }
  /// The max on the variation as a share of the base lift's, as practised as it was that day.
  [[nodiscard]] double ratio_on(Date day) const {
    return lifter.strength->max(request.lift, day).median() /
           lifter.strength->max(lifter.base, day).median();
  }
  /// The days without which the verdict would be another.
  [[nodiscard]] std::vector<Date> deciding_days() const {
    std::vector<Date> days;
    for (const WithoutDay& other : without) {
      if (verdict_on(other.gain, weeks(), lifter.rules) != verdict()) days.push_back(other.day);
    }
    return days;
  }
  /// How many more weeks at this pace would make an unclear change clear.
  [[nodiscard]] double weeks_until_clear() const {
    const Range<double> gain = on_base.interval();
    const double missing = (gain.typical - gain.low) - std::fabs(gain.typical);
    return missing / std::fabs(gain.typical / weeks());
  }
};

namespace detail {

[[nodiscard]] inline TrainedAmount amount_of(std::span<const LoggedSet> sets, const Lift& lift,
                                             Date from, Date to) {
  TrainedAmount amount;
  std::vector<Date> days;
  for (const LoggedSet& set : sets) {
    if (!set.lift.same_as(lift) || set.date < from || to < set.date) continue;
    ++amount.sets;
    const bool is_hard = set.outcome == Outcome::missed ||
                         (set.reserve && set.reserve->typical <= RepsInReserve(2.0));
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
[[nodiscard]] inline std::vector<WithoutDay> without_each_day(const StrengthSettings& settings,
                                                              std::span<const LoggedSet> log,
                                                              Date from, Date to) {
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

/// What a block of training on a variation brought, by one lifter's whole log.
/// @returns nothing for a lift without repetition maxes, for a plain lift, for one that the log
/// does not have, and with fewer than two days of it.
/// @throws DomainError unless `from` is before `to`, where both are given.
[[nodiscard]] inline Result<BlockReview> review_block(std::span<const LoggedSet> log,
                                                      const ReviewRequest& request,
                                                      const LifterFacts& facts = {}) {
  const Lift base(request.lift.base());
  if (request.from && request.to && !(*request.from < *request.to)) {
    detail::fail(ErrorCode::contradiction, "the last day of a block", "after its first",
                 to_text(*request.to));
  }
  if (request.lift.base().family == LiftFamily::explosive) {
    return Refusal{.code = RefusalCode::explosive_lift};
  }
  if (request.lift.is_plain()) return Refusal{.code = RefusalCode::plain_lift};
  const auto whole = detail::span_of(
      log, [&](const LoggedSet& set) { return set.lift.base().same_as(base.base()); });
  if (!whole) return Refusal{.code = RefusalCode::not_in_log};
  LearntLifter lifter = learn_lifter(log, base, whole->second, facts);
  const auto span = detail::span_of(
      lifter.sets, [&](const LoggedSet& set) { return set.lift.same_as(request.lift); });
  if (!span) return Refusal{.code = RefusalCode::not_in_log};
  const Date from = request.from.value_or(span->first);
  const Date to = request.to.value_or(span->second);
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
  review.without = detail::without_each_day(review.lifter.fit->settings(), log, from, to);
  return review;
}

}  // namespace barwright::inline BARWRIGHT_ABI
