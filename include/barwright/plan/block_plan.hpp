// barwright/plan/block_plan.hpp - weeks of one lift, planned from what is known of a lifter
//
//     const auto plan = plan_block(lifter, {.lift = lifts::bench_press, .start = monday});
//     if (!plan) return show(plan.refusal());
//     if (plan->is_stopped()) return show(plan->cautions, plan->remedies);
//     for (const BlockSession& session : plan->sessions) show(session);
//
// The shape of a block, its steps and how to go on from each are training/block.hpp; what each
// session may have on the bar is decided by the rule that plan_session goes by, so that the first
// session of a block is the one that plan_session would plan for that day.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/plates/plate_sets.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/block.hpp"
#include "barwright/training/caution.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What is asked of a block.
struct BlockRequest {
  Lift lift;
  Date start;                           ///< the first day
  BlockSettings settings{};             ///< what the log knows of earlier sessions is put in
  std::optional<BackOffs> back_offs{};  ///< after the work sets of each working session, lighter
  /// Of the last rep of any work set; `usual_bound` where none is asked for.
  std::optional<double> max_chance_of_missing{};
  Room room = plate_sets::gym_kg;
  bool has_spotter = false;
  Safeties safeties = Safeties::none;
  Pain pain = Pain::as_logged;
  Unwell unwell = Unwell::as_logged;
  bool is_max_confirmed = false;  ///< a max or a log that was doubted is right
};

/// One session of a block.
struct BlockSession {
  Date date;
  BlockStep step;
  LimitedBy limited_by = LimitedBy::reserve;
  double chance_of_missing = 0.0;  ///< in the set likeliest to be missed
  double reserve_left = 0.0;       ///< the likeliest, after the last set
  /// After them, where asked for; nothing in a session that is eased.
  std::optional<BackOffPlan> back_offs{};
};

/// Weeks of one lift.
struct BlockPlan {
  BlockRequest request;                  ///< as it was asked
  BlockSettings settings{};              ///< with what the log says
  std::vector<BlockSession> sessions{};  ///< empty under a stop
  double max_chance_of_missing = 0.05;   ///< the bound that holds for every work set
  bool has_no_retest = false;  ///< asked for, but the room cannot load one that says anything
  /// No working session is heavier than the last of the log, which had as many reps: `limited_by`
  /// of the hardest says why. No gain is planned that the sets have not shown.
  bool has_no_rise = false;

  Estimate<Mass> base_max{0.0, 0.0};  ///< on the base lift, on the first day
  Estimate<Mass> max{0.0, 0.0};       ///< on the lift
  int earlier_sessions = 0;
  std::optional<int> days_off{};       ///< before the first day
  std::optional<Comeback> comeback{};  ///< the way back from a layoff that the block begins on
  std::optional<PastSession> last{};
  Recovery recovery{};                        ///< of the first session, after the log
  std::vector<RecoveryConflict> too_close{};  ///< the first sessions of the block that are

  std::vector<Caution> cautions{};  ///< gravest first
  std::vector<Remedy> remedies{};
  std::optional<RepsInReserve> least_alone{};  ///< what Remedy::keep_reserve asks for

  /// All loads, session by session.
  [[nodiscard]] std::vector<Mass> loads() const {
    std::vector<Mass> all;
    for (const BlockSession& session : sessions) {
      all.push_back(session.step.loading.total());
      if (session.back_offs) all.push_back(session.back_offs->set.with.load);
    }
    return all;
  }
  [[nodiscard]] bool is_stopped() const noexcept {
    return !cautions.empty() && cautions.front().severity == Severity::stop;
  }
  [[nodiscard]] bool has_stage(Stage stage) const noexcept {
    return std::any_of(sessions.begin(), sessions.end(), [&](const BlockSession& session) {
      return session.step.plan.stage == stage;
    });
  }
  /// The steps alone, for `next_load`.
  [[nodiscard]] Block block() const {
    Block block;
    for (const BlockSession& session : sessions) block.steps.push_back(session.step);
    return block;
  }
};

/// Weeks of one lift: every session with its load, what limits it, and how likely it is to miss.
///
/// @returns the plan, which may say stop and then has no sessions; or why there is none.
/// @throws DomainError for settings out of range, as `plan_block` of training/block.hpp; unless
/// 0 < max_chance_of_missing < 1.
[[nodiscard]] Result<BlockPlan> plan_block(const Lifter& lifter, const BlockRequest& request);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/block_plan.ipp"
#endif
