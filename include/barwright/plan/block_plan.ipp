// barwright/plan/block_plan.ipp - the bodies of block_plan.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/plan/back_off_sets.hpp"
#include "barwright/plan/begun_session.hpp"
#include "barwright/plan/block_plan.hpp"
#include "barwright/plan/doubted_sets.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/block.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/plan_cautions.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Makes one block.
class BlockPlanner {
 public:
  BlockPlanner(const Lifter& lifter, const BlockRequest& request)
      : lifter_(lifter),
        asked_(request),
        rule_(lifter, request.lift, request.start),
        equipment_(request.lift, request.room, std::nullopt,
                   rule_.plate_rule({.date = request.start,
                                     .reps = request.settings.reps,
                                     .reserve = request.settings.first_reserve})),
        plan_{.request = request, .settings = request.settings} {}

  [[nodiscard]] Result<BlockPlan> make() {
    look_back();
    find_introduction();
    add_stops(plan_.cautions, plan_.remedies, lifter_, asked_.start, answers_of(asked_));
    sets_done_ = work_sets_on(lifter_, asked_.lift, asked_.start);
    if (sets_done_ >= first_sets()) {
      plan_.cautions.push_back(cautions::block_day_done);
      plan_.remedies.push_back(Remedy::another_day);
    } else if (has_sets_on(lifter_, asked_.lift, asked_.start)) {
      plan_.cautions.push_back(cautions::block_begun);
    }
    const int after =
        asked_.back_offs ? asked_.back_offs->sets.count() * back_off_reps().count() : 0;
    add_too_much_work(
        plan_.cautions, plan_.remedies, plan_.settings.sets * plan_.settings.reps.count() + after,
        working_reserve(plan_.settings, plan_.settings.working_weeks - 1), lifter_.rules);
    sort_by_severity(plan_.cautions);
    if (plan_.is_stopped()) return std::move(plan_);
    const Mass empty = asked_.room.empty_bar().total();
    const auto lightest_of = [&](Mass load) { too_light_ = std::min(too_light_, load); };
    if (introduction_) {
      for (std::size_t i = earlier(); i < introduction_->size(); ++i) {
        lightest_of((*introduction_)[i].load);
      }
    }
    if (plan_.settings.last_load) lightest_of(*plan_.settings.last_load * greatest_rise);
    if (!(too_light_ < empty)) {
      add_sessions(barwright::plan_block(equipment_.room(), plan_.settings, introduction_,
                                         [&](const StepPlan& step) {
                                           const Mass load = load_of(step);
                                           lightest_of(load);
                                           return std::max(load, empty);
                                         }));
    }
    if (too_light_ < empty) {
      return Refusal{.code = RefusalCode::bar_too_heavy, .wanted = too_light_, .lightest = empty};
    }
    open_retest();
    drop_useless_retest();
    find_rise();
    find_close_sessions();
    find_cautions();
    if (plan_.is_stopped()) plan_.sessions.clear();
    return std::move(plan_);
  }

 private:
  /// Sessions of the lift before one of the block.
  [[nodiscard]] int sessions_done_by(const StepPlan& step) const noexcept {
    return plan_.earlier_sessions + step.exposure - plan_.settings.earlier_sessions - 1;
  }
  [[nodiscard]] SessionFacts facts_of(const BlockSession& session) const {
    const StepPlan& step = session.step.plan;
    int reps = step.reps.count();
    if (step.to_reserve) {
      const double done = reps + session.reserve_left - step.reserve.count();
      reps = std::clamp(static_cast<int>(done), reps, Reps::most);
    }
    return {.lift = asked_.lift,
            .reps = Reps(reps),
            .reserve = step.reserve,
            .has_spotter = asked_.has_spotter,
            .safeties = asked_.safeties,
            .earlier_sessions = sessions_done_by(step),
            .is_comeback = plan_.comeback.has_value(),
            .alone = lifter_.rules.alone(),
            .sessions_until_known = lifter_.rules.sessions_until_known};
  }

  /// What must be said of the session that leaves least, or of one that should not be done: a block
  /// that has one should not be begun. And what must be said of the first.
  void find_cautions() {
    std::optional<SessionFacts> hardest;
    for (const BlockSession& session : plan_.sessions) {
      SessionFacts facts = facts_of(session);
      // Back-offs are lighter: only longer ones ask for more.
      if (session.back_offs && !cautions_for(facts).says_stop()) {
        facts.reps = std::max(facts.reps, session.back_offs->set.reps);
      }
      const bool is_stop = cautions_for(facts).says_stop();
      if (is_stop || !hardest || facts.reserve < hardest->reserve) hardest = facts;
      if (is_stop) break;
    }
    plan_.least_alone = add_cautions(plan_.cautions, plan_.remedies, *hardest);
    for (const Caution& caution : cautions_for(facts_of(plan_.sessions.front()))) {
      const auto is_same = [&](const Caution& other) { return other.text == caution.text; };
      const auto said = std::find_if(plan_.cautions.begin(), plan_.cautions.end(), is_same);
      if (said == plan_.cautions.end()) {
        plan_.cautions.push_back(caution);
      } else {
        said->severity = std::min(said->severity, caution.severity);
      }
    }
    sort_by_severity(plan_.cautions);
  }

  [[nodiscard]] std::size_t earlier() const noexcept {
    return static_cast<std::size_t>(plan_.settings.earlier_sessions);
  }

  void look_back() {
    const Strength& strength = *lifter_.strength;
    is_close_ = needs_no_introduction(lifter_, asked_.lift, asked_.start);
    leaves_more_at_first_ = leaves_more_at_first(lifter_, asked_.lift, asked_.start);
    plan_.base_max = strength.max(lifter_.base, asked_.start);
    plan_.max = strength.max(asked_.lift, asked_.start);
    plan_.days_off = days_off(lifter_, asked_.start);
    plan_.comeback = comeback_on(lifter_, asked_.start);
    plan_.max_chance_of_missing = asked_.max_chance_of_missing.value_or(usual_bound(
        lifter_.rules, asked_.lift, plan_.settings.reps, asked_.has_spotter, asked_.safeties));
    plan_.earlier_sessions = std::max(asked_.settings.earlier_sessions,
                                      sessions_before(lifter_, asked_.lift, asked_.start));
    plan_.settings.earlier_sessions = plan_.earlier_sessions;
    if (lifter_.stated_max && asked_.lift.is_plain()) {
      plan_.earlier_sessions =
          std::max(plan_.earlier_sessions, static_cast<int>(Introduction::most));
    }
    if (!rule_.sessions().empty()) plan_.last = rule_.sessions().back();
    // At most a tenth above what was shown for its reps; after a layoff, from its first session on.
    WorkSets work{.date = asked_.start, .reps = plan_.settings.reps};
    const auto most = rule_.greatest_rise(work);
    const bool is_first_back = plan_.comeback && plan_.comeback->week == 1;
    if (most && !is_first_back) plan_.settings.last_load = most->most / greatest_rise;
    const Mass shown = shown_before(plan_.settings.retest_reps, plan_.settings.retest_reserve);
    if (shown > Mass{}) plan_.settings.shown_before_retest = shown;
    plan_.recovery = recovery_of(lifter_.sets,
                                 {.lift = asked_.lift,
                                  .sets = Sets(plan_.settings.sets),
                                  .reps = plan_.settings.reps,
                                  .reserve = plan_.settings.first_reserve},
                                 asked_.start, lifter_.rules.warm_up_below);
  }

  void find_introduction() {
    const Mass base_max = lifter_.stated_max ? lifter_.stated_max->max : plan_.base_max.median();
    const auto on =
        introduction_on(lifter_, asked_.lift, asked_.start, base_max, plan_.settings.reps,
                        plan_.settings.first_reserve, asked_.settings.earlier_sessions);
    if (!on) {
      plan_.settings.earlier_sessions =
          std::max(plan_.settings.earlier_sessions, static_cast<int>(Introduction::most));
      return;
    }
    introduction_ = on->plan;
    plan_.settings.earlier_sessions = on->done;
    if (on->is_interrupted) plan_.cautions.push_back(cautions::introduction_interrupted);
  }

  /// The sets of the first session: on the way back, or of an introduction, it has fewer.
  [[nodiscard]] int first_sets() const {
    if (introduction_) return (*introduction_)[earlier()].sets;
    return plan_.comeback ? plan_.comeback->sets_of(plan_.settings.sets) : plan_.settings.sets;
  }

  /// The day of a session: those of one week as far apart as can be.
  [[nodiscard]] Date day_of(const StepPlan& step) const {
    return asked_.start +
           (7 * (step.week - 1) + 7 * (step.session - 1) / plan_.settings.sessions_a_week);
  }
  [[nodiscard]] bool is_first(const StepPlan& step) const noexcept {
    return step.exposure == plan_.settings.earlier_sessions + 1;
  }
  [[nodiscard]] WorkSets work_of(const StepPlan& step) const {
    // What is known today holds for the block: each week is planned anew from its log, so what
    // cannot be known so far ahead is no reason for less, nor a trend one for more.
    WorkSets work{.date = asked_.start,
                  .sets = step.sets,
                  .reps = step.reps,
                  .reserve = step.reserve,
                  .max_chance_of_missing = plan_.max_chance_of_missing};
    work.asked_reserve = step.reserve;
    if (leaves_more_at_first_) {
      work.reserve =
          std::max(work.reserve, least_while_close_is_new(lifter_.rules, sessions_done_by(step)));
    }
    if (const auto back = comeback_of(step)) {
      work.sets = back->sets_of(step.sets);
      work.reserve = std::max(work.reserve, back->least_reserve);
    }
    if (is_first(step)) {
      work.sets = std::max(work.sets - sets_done_, 1);
      work.earlier_sets = sets_done_;
      if (plan_.recovery.is_too_soon()) work.reserve = std::max(work.reserve, easy_reserve());
    }
    return work;
  }
  /// The way back from a layoff, as far as the block begins on it. An introduction has its own.
  [[nodiscard]] std::optional<Comeback> comeback_of(const StepPlan& step) const {
    if (!plan_.comeback || step.stage != Stage::working) return std::nullopt;
    const int days_back = 7 * (plan_.comeback->week - 1) + (day_of(step) - asked_.start);
    return comeback(plan_.comeback->days_off, days_back, lifter_.rules.comeback());
  }

  /// The most a session may have on the bar. The load of an earlier session that left as much is
  /// kept where a forecast for a later day would take some off, as long as it is within the bound.
  [[nodiscard]] Mass load_of(const StepPlan& step) {
    const WorkSets work = work_of(step);
    std::vector<LoadLimit> limits;
    if (is_first(step)) {
      limits = rule_.limits(work);
    } else {
      limits.push_back({LimitedBy::chance_of_missing, rule_.within_chance(work)});
      if (const auto back = comeback_of(step)) limits.push_back(rule_.layoff(work, *back));
      // Until somebody says what the ratings are, no week goes further than the first may.
      const auto rise = lifter_.doubts.may_be_rpe ? rule_.greatest_rise(work) : std::nullopt;
      if (rise) limits.push_back(*rise);
    }
    // Whatever the week, what the last session showed of its effort holds: no week asks for less
    // than plan_session would with the same to be left.
    const bool is_work = step.stage == Stage::working;
    Mass load = is_first(step) || is_work ? rule_.wanted(work) : rule_.by_reserve(work);
    load = std::min(load, rule_.within_chance(work));
    for (const auto& [earlier, kept] : earlier_loads_) {
      if (earlier.exposure < step.exposure && earlier.sets >= step.sets &&
          earlier.reps >= step.reps && earlier.reserve >= step.reserve && kept > load &&
          rule_.worst_chance(work, kept) <= plan_.max_chance_of_missing) {
        load = kept;
      }
    }
    for (const LoadLimit& limit : limits) {
      const bool is_of_introduction = limit.by == LimitedBy::layoff &&
                                      step.stage == Stage::introduction &&
                                      lifter_.experience != Experience::novice;
      if (!is_of_introduction) load = std::min(load, limit.most);
    }
    const auto nearest = rule_.nearest(equipment_, work, load, limits);
    if (nearest && nearest->load > load && step.stage != Stage::introduction) load = nearest->load;
    if (step.stage == Stage::retest) {
      load = std::max(load, shown_before(step.reps, step.reserve));
    }
    earlier_loads_.emplace_back(step, load);
    return load;
  }

  /// The heaviest load of the last weeks that went up for as many reps as a retest has, with no
  /// more than one fewer left: a test is not below what was done before it, whatever the bound.
  [[nodiscard]] Mass shown_before(Reps reps, RepsInReserve reserve) const {
    const double least = std::max(reserve.count() - 1.0, 1.0);
    Mass heaviest{};
    for (const PastSession& session : rule_.sessions()) {
      if (asked_.start - session.date > lifter_.rules.recent_days) continue;
      for (const LoggedSet& set : session.sets) {
        if (is_short(set) || set.reps < reps || !set.reserve) continue;
        if (set.reserve->typical.count() < least) continue;
        heaviest = std::max(heaviest, set.load);
      }
    }
    return heaviest;
  }

  void add_sessions(const Block& block) {
    for (const BlockStep& step : block.steps) {
      const WorkSets work = work_of(step.plan);
      const Mass load = step.loading.total();
      BlockSession session{.date = day_of(step.plan), .step = step};
      session.limited_by = limit_of(step, work);
      session.step.plan.reserve = work.reserve;
      session.step.plan.sets = work.sets;
      session.chance_of_missing = rule_.worst_chance(work, load);
      session.reserve_left = rule_.likeliest_left(work, load);
      if (has_back_offs(step.plan)) session.back_offs = back_offs_of(step.plan, work, load);
      plan_.sessions.push_back(session);
    }
  }

  [[nodiscard]] Reps back_off_reps() const {
    return asked_.back_offs->reps.value_or(plan_.settings.reps);
  }
  /// A session that is an easy one already has none.
  [[nodiscard]] bool has_back_offs(const StepPlan& step) const {
    return asked_.back_offs && step.stage == Stage::working && !comeback_of(step) &&
           !(is_first(step) && plan_.recovery.is_too_soon());
  }
  [[nodiscard]] std::optional<BackOffPlan> back_offs_of(const StepPlan& step, WorkSets after,
                                                        Mass top) const {
    after.earlier_sets += after.sets;
    after.sets = asked_.back_offs->sets.count();
    after.reps = back_off_reps();
    const auto limits =
        is_first(step)
            ? rule_.limits(after)
            : std::vector<LoadLimit>{{LimitedBy::chance_of_missing, rule_.within_chance(after)}};
    return back_offs_after(rule_, equipment_, after, top, asked_.back_offs->drop, limits);
  }

  /// What keeps a heavier load off the bar.
  [[nodiscard]] LimitedBy limit_of(const BlockStep& step, const WorkSets& work) const {
    switch (step.limit) {
      case StepLimit::greatest_rise:
      case StepLimit::plate_gap: return LimitedBy::greatest_rise;
      case StepLimit::equipment: return LimitedBy::equipment;
      case StepLimit::working_load:
      case StepLimit::none:
      case StepLimit::falling_forecast: break;
    }
    const auto could_be_heavier = [&](Mass load) {
      const auto other = equipment_.room().at_most(load);
      return other && other->total() > step.loading.total();
    };
    const Mass usual = is_first(step.plan) ? rule_.wanted(work) : rule_.by_reserve(work);
    if (step.plan.stage == Stage::introduction &&
        (!is_first(step.plan) || !could_be_heavier(std::min(usual, step.wanted)))) {
      return LimitedBy::introduction;
    }
    if (const auto back = comeback_of(step.plan)) {
      const Mass most = rule_.layoff(work, *back).most;
      if (!could_be_heavier(std::min(usual, most))) return LimitedBy::layoff;
    }
    if (!could_be_heavier(usual)) {
      return is_first(step.plan) && plan_.recovery.is_too_soon() ? LimitedBy::recovery
                                                                 : LimitedBy::reserve;
    }
    if (is_first(step.plan)) {
      std::optional<LoadLimit> least;
      for (const LoadLimit& limit : rule_.limits(work)) {
        if (!could_be_heavier(limit.most) && (!least || limit.most < least->most)) least = limit;
      }
      if (least) return least->by;
    }
    if (step.wanted < std::min(usual, rule_.within_chance(work))) return LimitedBy::reserve;
    return LimitedBy::chance_of_missing;
  }

  /// A retest that would leave far more than it is to says little of a max: it goes on until that
  /// is left, as long as nothing speaks against so long a set.
  void open_retest() {
    BlockSession& last = plan_.sessions.back();
    StepPlan& step = last.step.plan;
    const double least = step.reserve.count() + lifter_.rules.open_retest_from;
    if (step.stage != Stage::retest || step.to_reserve || last.reserve_left < least) return;
    step.to_reserve = true;
    step.to_reserve = !cautions_for(facts_of(last)).says_stop();
  }

  /// Leaves out a retest of so many reps that it says little about a max.
  void drop_useless_retest() {
    const BlockSession& last = plan_.sessions.back();
    const StepPlan& step = last.step.plan;
    if (!step.to_reserve) return;
    if (last.reserve_left + step.reps.count() - step.reserve.count() <=
        lifter_.rules.most_telling_retest) {
      return;
    }
    plan_.has_no_retest = true;
    plan_.sessions.pop_back();
  }

  /// Whether any working session is heavier than what was done last.
  void find_rise() {
    if (!plan_.last || plan_.last->top.reps < plan_.settings.reps) return;
    const auto is_no_rise = [&](const BlockSession& session) {
      return session.step.plan.stage != Stage::working ||
             !(session.step.loading.total() > plan_.last->top.load);
    };
    plan_.has_no_rise = std::all_of(plan_.sessions.begin(), plan_.sessions.end(), is_no_rise);
  }

  /// Sessions of the block that come too soon after others of it.
  void find_close_sessions() {
    std::vector<LoggedSet> log;
    for (const BlockSession& session : plan_.sessions) {
      const StepPlan& step = session.step.plan;
      if (plan_.too_close.empty()) {
        plan_.too_close = recovery_of(log,
                                      {.lift = asked_.lift,
                                       .sets = Sets(step.sets),
                                       .reps = step.reps,
                                       .reserve = step.reserve},
                                      session.date, lifter_.rules.warm_up_below)
                              .conflicts;
      }
      log.push_back({.date = session.date,
                     .lift = asked_.lift,
                     .load = session.step.loading.total(),
                     .reps = step.reps,
                     .reserve = Range<RepsInReserve>::exactly(step.reserve)});
    }
  }

  const Lifter& lifter_;
  const BlockRequest& asked_;
  LoadRule rule_;
  Equipment equipment_;
  BlockPlan plan_;
  std::optional<Introduction> introduction_{};
  std::vector<std::pair<StepPlan, Mass>> earlier_loads_{};
  int sets_done_ = 0;  ///< of the first session, by the log of its day
  bool leaves_more_at_first_ = false;
  bool is_close_ = false;  ///< a known lift with a pause, say: nothing is introduced
  Mass too_light_ = Mass::from_kg(Mass::largest_kg);
};

}  // namespace detail

inline Result<BlockPlan> plan_block(const Lifter& lifter, const BlockRequest& request) {
  if (request.lift.base().is_bodyweight) return Refusal{.code = RefusalCode::bodyweight_lift};
  if (const auto refusal = detail::refusal_of(lifter, request.lift, request.start)) return *refusal;
  if (request.lift.dumbbells() > 0 || request.lift.base().has_stack)
    return Refusal{.code = RefusalCode::no_bar_in_block};
  return detail::with_word_on_doubted_sets<BlockPlan>(
      lifter, [&](const Lifter& each) { return detail::BlockPlanner(each, request).make(); });
}

}  // namespace barwright::inline BARWRIGHT_ABI
