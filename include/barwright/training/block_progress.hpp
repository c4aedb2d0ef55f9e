// barwright/training/block_progress.hpp - what to load next in a block, when a session is done
//
// The rules are those of progression.hpp. Inside a block a session that went as planned leads to
// the block's next load.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>

#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/training/block.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/progression.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What to load after step `step` of a block (counted from 0), given how it went.
///
/// The plan's change from this load to the next is applied to what was really loaded, so that a
/// block held for a session goes on from there; a held step is done again, and the block takes a
/// session longer. Where more was done than planned, a working load
/// rises by the rule, if the plan does not raise it more. An introduction is never hurried and
/// wants all of its reserve; like the deload it steps back at the first miss. After the last
/// working session comes the deload, however it went.
/// @throws DomainError if there is no such step, or as the `next_load` above.
[[nodiscard]] inline NextLoad next_load(const Room& room, const Block& block, std::size_t step,
                                        const SessionResult& latest,
                                        const std::optional<SessionResult>& previous = {},
                                        const ProgressionRule& rule = {}) {
  detail::require_rule(rule);
  detail::require_result(latest, room);
  if (step >= block.steps.size()) {
    detail::fail("a step of a block", "one that it has, counted from 0", static_cast<double>(step));
  }
  const detail::Judgement judgement = detail::judge(latest, previous, rule);
  if (judgement.move == Move::stop) {
    return {.move = Move::stop, .why = judgement.why, .source = judgement.source};
  }
  if (step + 1 == block.steps.size()) {
    return {.move = Move::go_on,
            .why = "the block is done: plan the next one from its sets",
            .source = block_source};
  }
  const BlockStep& now = block.steps[step];
  const BlockStep& then = block.steps[step + 1];
  const Mass planned = latest.load * (then.loading.total() / now.loading.total());
  const auto go_on = [&](Mass load, std::string_view why, const Source& source) -> NextLoad {
    return {.move = Move::go_on,
            .loading = room.at_most(load).value_or(room.empty_bar()),
            .why = why,
            .source = source};
  };

  if (now.plan.stage != Stage::deload && then.plan.stage == Stage::deload) {
    return go_on(planned, "the deload comes next, however the last session went", block_source);
  }
  if (latest.has_miss && now.plan.stage != Stage::working) {
    return detail::stepped_back(room, latest.load, rule.step_back,
                                {.move = Move::step_back,
                                 .why = "a rep was missed in a session that is meant to miss none",
                                 .source = step_back_source});
  }
  if (now.plan.stage == Stage::introduction) {
    const auto beyond = latest.beyond_plan();
    if (latest.fewest_done < latest.reps.count() || !beyond || *beyond < 0.0) {
      return detail::held(
          room, latest.load,
          "an introduction goes on when every set was rated and left all of its RIR",
          introduction_source);
    }
  } else if (judgement.move == Move::step_back) {
    return detail::stepped_back(room, latest.load, rule.step_back, judgement);
  } else if (judgement.move == Move::hold && !judgement.is_as_planned) {
    return detail::held(room, latest.load, judgement.why, judgement.source);
  }
  // From a deload back up, the heaviest load of the block is what a tenth is counted from.
  if (then.plan.stage == Stage::retest) {
    return go_on(std::min(planned, then.loading.total()), judgement.why, judgement.source);
  }
  const Mass next = std::min(planned, latest.load * detail::greatest_rise);
  if (judgement.move == Move::go_on && now.plan.stage == Stage::working) {
    const auto more = raised(latest.load, rule.increase, room);
    if (more && more->total() > next) {
      return {
          .move = Move::go_on, .loading = more, .why = judgement.why, .source = judgement.source};
    }
  }
  return go_on(next, judgement.why, judgement.source);
}

}  // namespace barwright::inline BARWRIGHT_ABI
