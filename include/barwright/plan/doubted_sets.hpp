// barwright/plan/doubted_sets.hpp - what a plan says of old sets that may have been missed
//
// Of a set whose note leaves open whether the last rep went up the lighter reading holds, however
// long ago it was, until somebody writes down its outcome. Where that makes a plan another one it
// is said; where the plan is the same with every such set as completed, there is nothing to ask.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/plan_cautions.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// The lifter, were every set that may have been missed completed; nothing where there is none.
[[nodiscard]] inline std::optional<Lifter> with_all_completed(const Lifter& lifter) {
  if (!lifter.if_completed) return std::nullopt;
  Lifter other = lifter;
  other.strength = lifter.if_completed;
  other.if_completed.reset();
  for (std::vector<LoggedSet>* const sets : {&other.sets, &other.used}) {
    for (LoggedSet& set : *sets) set.may_be_missed = false;
  }
  return other;
}

[[nodiscard]] inline bool says(const std::vector<Caution>& cautions, const Caution& caution) {
  return std::any_of(cautions.begin(), cautions.end(),
                     [&](const Caution& each) { return each.key == caution.key; });
}

/// Says that a plan is another one for sets that may have been missed, where it is, and where
/// nothing is said of them yet.
/// @param make    makes the same plan for a lifter
/// @param before  what was said of the session as it was planned before
template <class Plan, class Make>
[[nodiscard]] Result<Plan> with_word_on_doubted_sets(const Lifter& lifter, const Make& make,
                                                     const std::vector<Caution>& before = {}) {
  Result<Plan> plan = make(lifter);
  if (!plan || plan->is_stopped() || says(plan->cautions, cautions::may_be_missed)) return plan;
  const auto completed = with_all_completed(lifter);
  if (!completed) return plan;
  if (!says(before, cautions::doubted_set)) {
    const Result<Plan> other = make(*completed);
    if (other && other->loads() == plan->loads()) return plan;
  }
  plan.value().cautions.push_back(cautions::doubted_set);
  sort_by_severity(plan.value().cautions);
  return plan;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
