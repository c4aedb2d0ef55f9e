// barwright/plan/review.hpp - what a block of training brought, on a variation or on a plain lift
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

#include <cmath>
#include <optional>
#include <span>
#include <string_view>
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
  Lift lift;  ///< the variation, or the plain lift
  std::optional<Date>
      from{};                ///< else its first day in the log; of a plain lift `review_weeks` ago
  std::optional<Date> to{};  ///< else its last
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

/// The changes of a max that are told: each answers another question, and has another chance of a
/// gain.
enum class ChangeOf : unsigned char {
  pace,    ///< `Learnt::trend`
  weeks,   ///< `LiftProgress::gain`
  period,  ///< `BlockReview::on_base` and `on_lift`
};

/// What it is the change of, in a sentence.
[[nodiscard]] constexpr std::string_view meaning(ChangeOf change) noexcept {
  switch (change) {
    case ChangeOf::pace:
      return "The trend is the pace of the 1RM at the end of the log; its chance is that the 1RM "
             "is "
             "rising now.";
    case ChangeOf::weeks:
      return "A change is that of the 1RM from the first to the last training day of these weeks; "
             "whether it is rising now is another question.";
    case ChangeOf::period:
      return "The chance is that the 1RM was higher at the end of this period than at its "
             "beginning, whatever it is doing now.";
  }
  return "";
}

/// A change over some weeks, by its interval of 90 %.
[[nodiscard]] ReviewVerdict verdict_on(const Change& change, double weeks,
                                       const PlanningRules& rules = {});

/// The gain on the base lift as it would be without the sets of one day.
struct WithoutDay {
  Date day;
  Change gain{0.0, 0.0};
};

/// The max on one day of the lift.
struct ReviewedDay {
  Date date;
  Estimate<Mass> max{0.0, 0.0};
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
  std::optional<Change> before{};      ///< on the base lift, in the log before the block
  std::vector<ReviewedDay> history{};  ///< of the lift, on the days it was trained
  Date first_day;                      ///< of the log, for the base lift and its variations
  std::vector<WithoutDay> without{};   ///< each day of the block; none for a very long one

  [[nodiscard]] double weeks() const noexcept { return (to - from) / 7.0; }
  [[nodiscard]] double weeks_before() const noexcept { return (from - first_day) / 7.0; }
  [[nodiscard]] ReviewVerdict verdict() const { return verdict_on(on_base, weeks(), lifter.rules); }
  /// The max on the variation as a share of the base lift's, as practised as it was that day.
  [[nodiscard]] double ratio_on(Date day) const {
    return lifter.strength->max(request.lift, day).median() /
           lifter.strength->max(lifter.base, day).median();
  }
  /// The days without which the verdict would be another.
  [[nodiscard]] std::vector<Date> deciding_days() const;
  /// How many more weeks at this pace would make an unclear change clear.
  [[nodiscard]] double weeks_until_clear() const {
    const Range<double> gain = on_base.interval();
    const double missing = (gain.typical - gain.low) - std::fabs(gain.typical);
    return missing / std::fabs(gain.typical / weeks());
  }
};

/// What a block of training on a variation brought, by one lifter's whole log.
/// @returns nothing for a lift without rep maxes, for one that the log does not have, and
/// with fewer than two days of it.
/// @throws DomainError unless `from` is before `to`, where both are given.
[[nodiscard]] Result<BlockReview> review_block(std::span<const LoggedSet> log,
                                               const ReviewRequest& request,
                                               const LifterFacts& facts = {});

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/review.ipp"
#endif
