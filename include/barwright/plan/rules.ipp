// barwright/plan/rules.ipp - the bodies of rules.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/error.hpp"
#include "barwright/plan/rules.hpp"
#include "barwright/training/progression.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline void check(const PlanningRules& rules) {
  for_each_rule(rules, [](const RuleFact& fact, const auto& value) {
    const auto number = static_cast<double>(value);
    if (number >= fact.least && number <= fact.most) return;
    detail::fail(Text{}.append("the planning rule ").append(fact.name),
                 Text{}.append("from ").append(fact.least).append(" to ").append(fact.most),
                 number);
  });
}

}  // namespace barwright::inline BARWRIGHT_ABI
