// barwright/plan/back_off_sets.hpp - the lighter sets after the top ones, for a session or a block
//
// How much lighter they are at least is asked for (training/back_off.hpp); what they are to leave
// after the top sets, and all that limits a load, may make them lighter still.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "barwright/core/mass.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/training/back_off.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// @param after   what they are to be: `earlier_sets` are those before them
/// @param top     the load of the top sets
/// @param limits  of such sets
/// @returns nothing where even the lightest load there is would be too heavy.
[[nodiscard]] inline std::optional<BackOffPlan> back_offs_after(
    const LoadRule& rule, const Equipment& equipment, const WorkSets& after, Mass top, double drop,
    const std::vector<LoadLimit>& limits) {
  Mass most = std::min(back_off(top, drop), rule.by_reserve(after));
  for (const LoadLimit& limit : limits) most = std::min(most, limit.most);
  const auto with = equipment.at_most(most);
  if (!with) return std::nullopt;
  // By parts: g++ 12 takes a temporary for uninitialized.
  std::optional<BackOffPlan> plan;
  BackOffPlan& back_offs = plan.emplace();
  back_offs.set.is_work = true;
  back_offs.set.sets = after.sets;
  back_offs.set.reps = after.reps;
  back_offs.set.with = *with;
  if (rule.went_worse_today(after)) return plan;
  back_offs.reserve_left = rule.likeliest_left(after, with->load);
  back_offs.chance_of_missing = rule.worst_chance(after, with->load);
  return plan;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
