// barwright/plan/learn_lifter.hpp - one lifter, learnt from a log
//
// Fits the strength model to the sets of one base lift and its variations, leaves out the sets that
// do not fit, says which they are and what slip would explain them, and doubts the log where too
// few sets are left to say which are right or where the last session is far above all before. A
// stated max goes through the same door: it takes the place of what the log says of the base lift,
// and the variations of the last weeks still say what they cost.
//
//     const LearntLifter lifter = learn_lifter(log, lifts::bench_press, today);
//     const auto plan = plan_session(lifter, {.lift = lifts::bench_press, .date = today});
//
// Needs Eigen.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <memory>
#include <span>
#include <vector>

#include "barwright/learn/strength_model.hpp"
#include "barwright/plan/lifter.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A Lifter whose strength comes from a fit, which answers more than planners ask.
struct LearntLifter : Lifter {
  std::shared_ptr<const StrengthFit> fit{};
};

namespace detail {
[[nodiscard]] std::shared_ptr<const StrengthFit> fit_of(const StrengthSettings& settings,
                                                        std::span<const LoggedSet> sets);

/// Days with at least one of these sets. Days are counted, as the sets of one day share a slip.
template <class Sets, class DateOf>
[[nodiscard]] int days_of(const Sets& sets, DateOf date_of) {
  std::vector<Date> days;
  days.reserve(sets.size());
  for (const auto& set : sets) days.push_back(date_of(set));
  std::sort(days.begin(), days.end());
  return static_cast<int>(std::unique(days.begin(), days.end()) - days.begin());
}

}  // namespace detail

/// What a log, and a max where one is stated, say of a lifter on a base lift.
///
/// `today` is the day that is planned for: sets after it are not looked at, and whoever has not
/// done the lift for more than `novice_gain_days` is credited with no beginner's gains. Sets of
/// other lifts are kept for what they say of recovery.
/// @param log   one lifter's sets, of any lifts and in any order; those of one day in theirs
/// @param base  the plain lift; what is learnt holds for all its variations. Of one that moves the
///   body the log and a stated max say what hangs from the belt, and `facts` what the lifter weighs
/// @throws DomainError for a lift with modifiers, or for a rule out of range.
[[nodiscard]] LearntLifter learn_lifter(std::span<const LoggedSet> log, const Lift& base,
                                        Date today, const LifterFacts& facts = {});

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/learn_lifter.ipp"
#endif
