// barwright/plan/session.ipp - the bodies of session.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/back_off_sets.hpp"
#include "barwright/plan/begun_session.hpp"
#include "barwright/plan/doubted_sets.hpp"
#include "barwright/plan/first_session.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/plan_cautions.hpp"
#include "barwright/training/prescription.hpp"
#include "barwright/training/progression.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Makes one plan.
class SessionPlanner {
 public:
  SessionPlanner(const Lifter& lifter, const SessionRequest& request)
      : lifter_(lifter),
        asked_(request),
        rule_(lifter, request.lift, request.date),
        equipment_(request.lift, request.room, request.fixed_loads(),
                   rule_.plate_rule(
                       {.date = request.date, .reps = request.reps, .reserve = request.reserve}),
                   lifter.body),
        plan_{.request = request} {}

  /// @param begun  what was done of this session: the rest needs no warm-up
  [[nodiscard]] Result<SessionPlan> make(const Begun& begun) {
    look_back();
    choose_sets();
    const int more_done = std::max(begun.sets - plan_.work_sets, 0);
    plan_.work_sets = std::max(plan_.work_sets - begun.sets, 0);
    plan_.sets_done = begun.sets;
    add_stops(plan_.cautions, plan_.remedies, lifter_, asked_.date, answers_of(asked_));
    add_too_much_work(plan_.cautions, plan_.remedies, all_reps(), asked_.reserve, lifter_.rules);
    plan_.least_alone = add_cautions(plan_.cautions, plan_.remedies, facts());
    come_back();
    recover(begun);
    sort_by_severity(plan_.cautions);
    if (plan_.is_stopped()) return finished();
    const WorkSets work = work_sets();
    if (plan_.work_sets == 0) {
      add_back_offs(work, std::min(begun.top, begun.no_more_than.value_or(begun.top)), more_done);
      agree_with_progress();
      return finished();
    }
    const auto loaded = choose_load(work, begun.no_more_than);
    if (!loaded) {
      return Refusal{.code = too_heavy(equipment_),
                     .wanted = plan_.wanted,
                     .lightest = equipment_.lightest().load,
                     .reps_with_lightest = reps_with(equipment_.lightest().load, work)};
    }
    if (!equipment_.at_least(plan_.wanted)) plan_.limited_by = LimitedBy::equipment;
    if (has_too_many_plates(*loaded, lifter_.rules)) {
      plan_.cautions.push_back(cautions::too_many_plates);
      plan_.remedies = {Remedy::correct_max};
      sort_by_severity(plan_.cautions);
      return finished();
    }
    plan_.sets = begun.sets > 0 ? std::vector<PlannedSet>{{.is_work = true,
                                                           .sets = plan_.work_sets,
                                                           .reps = plan_.reps,
                                                           .with = *loaded}}
                                : equipment_.session(*loaded, plan_.reps, plan_.work_sets);
    look_ahead(work);
    add_back_offs(work, plan_.load(), 0);
    say_range();
    agree_with_progress();
    return finished();
  }

 private:
  void look_back() {
    const Lift& lift = asked_.lift;
    const Strength& strength = *lifter_.strength;
    plan_.base_max = strength.max(lifter_.base, asked_.date);
    plan_.max = strength.max(lift, asked_.date);
    plan_.max_by_catalogue = lift.max_from(base_max());
    plan_.sets_of_lift = static_cast<int>(
        std::count_if(lifter_.used.begin(), lifter_.used.end(),
                      [&](const LoggedSet& set) { return set.lift.same_as(lift); }));
    plan_.days_off = days_off(lifter_, asked_.date);
    plan_.comeback = comeback_on(lifter_, asked_.date);
    plan_.max_chance_of_missing = asked_.max_chance_of_missing.value_or(
        usual_bound(lifter_.rules, asked_.lift, asked_.reps, asked_.has_spotter, asked_.safeties));
    plan_.earlier_sessions = known_sessions(lifter_, lift, asked_.date);
    for (const LoggedSet& set : lifter_.sets) {
      if (set.date == asked_.date) plan_.today.push_back(set);
    }
    if (rule_.sessions().empty()) return;
    plan_.last = rule_.sessions().back();
    const auto as_last = [&](const PastSession& session) {
      return as_last_set(session.top, asked_.aimed_reps(), asked_.aimed_reserve());
    };
    const LastSet latest = as_last(*plan_.last);
    if (plan_.last->has_miss) {
      plan_.progress = Progress::missed;
    } else if (exceeds_plan(latest)) {
      plan_.progress = Progress::exceeded;
    }
    if (rule_.sessions().size() < 2) return;
    const PastSession& previous = rule_.sessions()[rule_.sessions().size() - 2];
    if (!plan_.last->has_miss && previous.top.load >= plan_.last->top.load &&
        two_for_two(as_last(previous), latest)) {
      plan_.progress = Progress::exceeded_twice;
    }
  }

  /// What the max on the base lift is taken to be.
  [[nodiscard]] Mass base_max() const {
    return lifter_.stated_max ? lifter_.stated_max->max : plan_.base_max.median();
  }

  /// The sets asked for, or in their place those of an introduction.
  void choose_sets() {
    plan_.work_sets = is_max_attempt(asked_.reps, asked_.reserve) ? 1 : asked_.sets.count();
    plan_.reps = asked_.aimed_reps();
    plan_.reserve = asked_.aimed_reserve();
    if (plan_.comeback) plan_.work_sets = plan_.comeback->sets_of(plan_.work_sets);
    const auto on = introduction_on(lifter_, asked_.lift, asked_.date, base_max(),
                                    asked_.aimed_reps(), asked_.aimed_reserve());
    if (!on) return;
    plan_.introduction = on->plan;
    plan_.introduced = on->done;
    if (on->is_interrupted) plan_.cautions.push_back(cautions::introduction_interrupted);
    const Exposure& today = *plan_.exposure();
    plan_.reps = today.reps;
    plan_.reserve = today.least_reserve;
    plan_.work_sets = today.sets;
  }

  /// After a layoff there are fewer sets, and more is left; an introduction has its own way back. A
  /// known lift with a pause, say, begins with more left.
  void come_back() {
    if (leaves_more_at_first(lifter_, asked_.lift, asked_.date)) {
      plan_.reserve =
          std::max(plan_.reserve, least_while_close_is_new(lifter_.rules, plan_.earlier_sessions));
    }
    if (!comes_back()) return;
    plan_.reserve = std::max(plan_.reserve, plan_.comeback->least_reserve);
  }
  /// Whether the session is one of the way back from a layoff. A beginner's introduction is of a
  /// lift that was done before it.
  [[nodiscard]] bool comes_back() const noexcept {
    return plan_.comeback && (!plan_.introduction || lifter_.experience == Experience::novice);
  }

  /// Where it is too soon for a hard session, the session is an easy one. A day that had all work
  /// sets of the lift already has no room for a second hard session of it.
  void recover(const Begun& begun) {
    plan_.recovery = recovery_of(lifter_.sets,
                                 {.lift = asked_.lift,
                                  .sets = Sets(std::max(plan_.work_sets, 1)),
                                  .reps = plan_.reps,
                                  .reserve = plan_.reserve},
                                 asked_.date, lifter_.rules.warm_up_below);
    const int hard_today = hard_sets_on(lifter_, asked_.lift, asked_.date) +
                           empty_variations_on(lifter_, asked_.lift, asked_.date);
    if (begun.is_over || hard_today - begun.sets >= asked_.sets.count()) {
      plan_.recovery.is_second_today = true;
      const Date free = asked_.date + (SpacingRule{}.hours_between + 23) / 24;
      plan_.recovery.ready_on = std::max(plan_.recovery.ready_on.value_or(free), free);
    }
    if (plan_.recovery.is_too_soon()) {
      plan_.reserve = std::max(plan_.reserve, easy_reserve());
      if (plan_.progress != Progress::missed) plan_.progress = Progress::none;
    }
    if (plan_.comeback && plan_.progress != Progress::missed) plan_.progress = Progress::none;
  }

  /// Of all the sets asked for.
  [[nodiscard]] int all_reps() const {
    const int top = asked_.sets.count() * asked_.most_reps.value_or(asked_.reps).count();
    if (!asked_.back_offs) return top;
    return top + asked_.back_offs->sets.count() * back_off_reps().count();
  }
  [[nodiscard]] Reps back_off_reps() const {
    return asked_.back_offs->reps.value_or(asked_.most_reps.value_or(asked_.reps));
  }

  /// As asked for: what should not be done is not made right by doing less of it today.
  [[nodiscard]] SessionFacts facts() const {
    // Of a range the most reps with the least left.
    const bool is_as_asked = !plan_.introduction;
    SessionFacts facts{.lift = asked_.lift,
                       .reps = is_as_asked ? asked_.most_reps.value_or(plan_.reps) : plan_.reps,
                       .reserve = is_as_asked ? asked_.reserve : plan_.reserve,
                       .has_spotter = asked_.has_spotter,
                       .safeties = asked_.safeties,
                       .earlier_sessions = plan_.earlier_sessions,
                       .is_comeback = plan_.comeback.has_value(),
                       .alone = lifter_.rules.alone(),
                       .sessions_until_known = lifter_.rules.sessions_until_known,
                       .has_only_long_sets = has_only_long_sets(lifter_, asked_.date)};
    if (is_max_attempt(facts.reps, facts.reserve)) {
      facts.sessions_until_known = sessions_until_attempt(lifter_);
    }
    if (!is_as_asked || cautions_for(facts).says_stop()) return facts;
    SessionFacts other = facts;
    if (is_max_attempt(asked_.reps, asked_.reserve)) {  // a range may end as one
      other.reps = asked_.reps;
      other.sessions_until_known = sessions_until_attempt(lifter_);
      if (cautions_for(other).says_stop()) return other;
    }
    // Back-offs are lighter: only longer ones ask for more, and a single of them is no attempt.
    if (!asked_.back_offs || !(back_off_reps() > facts.reps)) return facts;
    other.reps = back_off_reps();
    return cautions_for(other).says_stop() ? other : facts;
  }

  [[nodiscard]] WorkSets work_sets() const {
    return {.date = asked_.date,
            .sets = plan_.work_sets,
            .reps = plan_.reps,
            .reserve = plan_.reserve,
            .max_chance_of_missing = plan_.max_chance_of_missing,
            .earlier_sets = work_sets_on(lifter_, asked_.lift, asked_.date),
            .asked_reserve = asked_.aimed_reserve()};
  }

  /// The least of what all that limits a load allows. What limits it is a reason only where the
  /// equipment lets it make a difference.
  std::optional<LoadedWith> choose_load(const WorkSets& work, std::optional<Mass> no_more_than) {
    const Mass usual = rule_.wanted(work);
    std::vector<LoadLimit> limits = rule_.limits(work);
    if (const Exposure* const exposure = plan_.exposure()) {
      // An introduction has its own way back from a layoff, and goes no higher than the work it
      // leads to.
      if (!comes_back()) {
        std::erase_if(limits, [](const LoadLimit& limit) { return limit.by == LimitedBy::layoff; });
      }
      limits.push_back({LimitedBy::introduction, exposure->load});
      WorkSets aim = work;
      aim.sets = asked_.sets.count();
      aim.reps = asked_.aimed_reps();
      aim.reserve = asked_.aimed_reserve();
      limits.push_back({LimitedBy::introduction, rule_.by_reserve(aim)});
      limits.push_back({LimitedBy::introduction, rule_.within_chance(aim)});
    }
    if (no_more_than) limits.push_back({LimitedBy::today, *no_more_than});
    plan_.wanted = usual;
    plan_.limited_by = plan_.introduction             ? LimitedBy::introduction
                       : plan_.recovery.is_too_soon() ? LimitedBy::recovery
                       : plan_.reserve > asked_.aimed_reserve() && plan_.comeback
                           ? LimitedBy::layoff
                           : LimitedBy::reserve;
    const LimitedBy of_the_day = plan_.limited_by;
    for (const LoadLimit& limit : limits) {
      if (!(limit.most < plan_.wanted)) continue;
      if (load_of(limit.most) < load_of(plan_.wanted)) {
        plan_.wanted = limit.most;
        plan_.limited_by = limit.by;
      }
    }
    auto chosen = rule_.nearest(equipment_, work, plan_.wanted, limits);
    // Rounded up, it may be what nothing limits.
    if (chosen && chosen->load >= load_of(usual)) plan_.limited_by = of_the_day;
    return chosen;
  }
  /// The most reps, fewer than those planned, that a load allows with the same left.
  [[nodiscard]] int reps_with(Mass load, WorkSets work) const {
    for (int reps = work.reps.count() - 1; reps >= 1; --reps) {
      work.reps = Reps(reps);
      const auto limits = rule_.limits(work);
      const bool is_within = load <= rule_.by_reserve(work) &&
                             std::all_of(limits.begin(), limits.end(), [&](const LoadLimit& limit) {
                               return load <= limit.most;
                             });
      if (is_within) return reps;
    }
    return 0;
  }
  [[nodiscard]] std::optional<Mass> load_of(Mass wanted) const {
    const auto loaded = equipment_.at_most(wanted);
    if (!loaded) return std::nullopt;
    return loaded->load;
  }

  /// Signs to add load are said only where the plan adds some, by the fewest reps of a range.
  void agree_with_progress() {
    if (!plan_.last || plan_.progress == Progress::none || plan_.progress == Progress::missed) {
      return;
    }
    const LoggedSet& top = plan_.last->top;
    const bool is_no_harder = plan_.load() <= top.load && plan_.reps <= top.reps;
    if (is_no_harder) plan_.progress = Progress::none;
  }

  void look_ahead(const WorkSets& work) {
    const Mass load = plan_.load();
    // Of an earlier session of the day no more is to be left than was asked for.
    WorkSets of_today = work;
    if (plan_.recovery.is_second_today) of_today.reserve = asked_.reserve;
    const bool can_be_told = !rule_.went_worse_today(of_today);
    std::vector<double> chances = rule_.chances_of_missing(work, load);
    const double most_likely = *std::max_element(chances.begin(), chances.end());
    if (can_be_told) {
      plan_.chances_of_missing = std::move(chances);
      plan_.reserve_left = rule_.reserve_left(work, load);
    }
    if (most_likely > lifter_.rules.likely_miss && !is_max_attempt(plan_.reps, plan_.reserve)) {
      plan_.cautions.push_back(cautions::likely_miss);
      sort_by_severity(plan_.cautions);
    }
    const auto offer = [&](Alternative::Kind kind, const std::optional<LoadedWith>& with) {
      if (!with || !can_be_told) return;
      plan_.alternatives.push_back({.kind = kind,
                                    .with = *with,
                                    .reserve_left = rule_.likeliest_left(work, with->load),
                                    .chance_of_missing = rule_.worst_chance(work, with->load)});
    };
    offer(Alternative::Kind::step_below, equipment_.below(load));
    const bool is_eased = plan_.recovery.is_too_soon() || comes_back();
    const bool may_be_chosen = plan_.limited_by == LimitedBy::reserve ||
                               plan_.limited_by == LimitedBy::chance_of_missing ||
                               is_estimate(plan_.limited_by);
    if (!is_eased && may_be_chosen) {
      offer(Alternative::Kind::step_above, equipment_.above(load));
    }
    if (plan_.limited_by == LimitedBy::recovery && asked_.aimed_reserve() < plan_.reserve) {
      SessionPlanner hard(lifter_, asked_);
      hard.look_back();
      hard.choose_sets();
      hard.come_back();
      const WorkSets as_asked = hard.work_sets();
      const auto with = hard.choose_load(as_asked, std::nullopt);
      if (with && with->load > load) offer(Alternative::Kind::as_asked, with);
    }
    // After an easy session the next load is found when the next session is planned.
    if (plan_.introduction || plan_.recovery.is_too_soon() ||
        is_max_attempt(plan_.reps, plan_.reserve)) {
      return;
    }
    const double rise = 1.0 + lifter_.rules.greatest_rise + 1e-9;
    const auto usual = equipment_.at_most(load * (1.0 + lifter_.rules.step_up));
    const auto next = usual && usual->load > load * (1.0 + 1e-9) ? usual : equipment_.above(load);
    if (next) plan_.next = NextStep{.with = *next, .is_short = next->load <= rise * load};
  }

  /// Lighter sets after the top ones; none where the session is an easy one already.
  /// @param top   the load of the top sets
  /// @param done  back-offs that were
  void add_back_offs(const WorkSets& work, Mass top, int done) {
    const bool is_eased = plan_.introduction || plan_.comeback || plan_.recovery.is_too_soon();
    if (!asked_.back_offs || is_eased || done >= asked_.back_offs->sets.count()) return;
    WorkSets after = work;
    after.sets = asked_.back_offs->sets.count() - done;
    after.reps = back_off_reps();
    after.earlier_sets += plan_.work_sets;
    // What limits a load limits these, too: they may have more reps than the top sets.
    plan_.back_offs =
        back_offs_after(rule_, equipment_, after, top, asked_.back_offs->drop, rule_.limits(after));
  }

  /// What was planned by the middle of a range is done by the whole of it.
  void say_range() {
    const bool is_eased = plan_.introduction || plan_.comeback || plan_.recovery.is_too_soon();
    if (is_eased || plan_.reserve > asked_.aimed_reserve()) return;
    plan_.reserve = asked_.reserve;
    if (!asked_.most_reps) return;
    plan_.reps = asked_.reps;
    plan_.most_reps = asked_.most_reps;
    plan_.sets.back().reps = asked_.reps;
  }

  [[nodiscard]] Result<SessionPlan> finished() { return std::move(plan_); }

  const Lifter& lifter_;
  const SessionRequest& asked_;
  LoadRule rule_;
  Equipment equipment_;
  SessionPlan plan_;
};

/// What of a session the log of its day has already.
inline Begun begun_by_log(const Lifter& lifter, const SessionRequest& request) {
  if (!has_sets_on(lifter, request.lift, request.date)) return {};
  const Lifter before = before_session(lifter, request.lift, request.date);
  SessionRequest asked = request;
  asked.is_max_confirmed = true;  // whether it may be done is asked of the plan itself
  asked.pain = Pain::none;
  asked.unwell = Unwell::none;
  const auto whole = SessionPlanner(before, asked).make({});
  return whole && !whole->is_stopped() ? begun_by_log(lifter, before, *whole) : Begun{};
}

}  // namespace detail

inline Result<SessionPlan> plan_session(const Lifter& lifter, const SessionRequest& request) {
  if (auto other = detail::plan_without_log(lifter, request, {})) return *std::move(other);
  return detail::with_word_on_doubted_sets<SessionPlan>(lifter, [&](const Lifter& each) {
    return detail::SessionPlanner(each, request).make(detail::begun_by_log(each, request));
  });
}

inline Result<SessionPlan> replan(const Lifter& lifter, const SessionPlan& plan,
                                  std::span<const LoggedSet> done) {
  const SessionRequest& request = plan.request;
  if (auto other = detail::plan_without_log(lifter, request, done)) return *std::move(other);
  Lifter now = lifter;
  const LoadRule rule(lifter, request.lift, request.date);
  detail::Begun begun = detail::begun_by_log(lifter, request);
  const int before = begun.sets;
  if (!plan.sets.empty()) begun.no_more_than = plan.load();
  for (LoggedSet set : done) {
    set.load += lifter.body.value_or(Mass{});
    if (!set.lift.same_as(request.lift)) continue;
    const auto part = detail::count_set(begun, set, plan, before, rule, lifter.rules);
    if (part == detail::PartOfSession::warm_up) continue;
    set.date = request.date;
    now.sets.push_back(set);
  }
  return detail::with_word_on_doubted_sets<SessionPlan>(
      now, [&](const Lifter& each) { return detail::SessionPlanner(each, request).make(begun); },
      plan.cautions);
}

}  // namespace barwright::inline BARWRIGHT_ABI
