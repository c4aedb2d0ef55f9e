// barwright/plan/json_plan.hpp - a session plan, and what it rests on, as JSON
//
// Every member is described in docs/json.md. Loads are in kilograms; what is loaded is also given
// as it is marked, so that pounds stay whole pounds. Under a stop a plan has no sets, and nothing
// else from which a load could be read.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/json_writer.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/training/caution.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {
namespace detail {

// ---- values -------------------------------------------------------------------------------------

inline double plain(double value) noexcept { return value; }
inline double plain(Mass mass) noexcept { return mass.kg(); }

/// {"low", "typical", "high"}; masses in kilograms.
template <class T>
void write_range(Writer& json, std::string_view name, const Range<T>& range) {
  json.name(name).begin_object().member("low", plain(range.low));
  json.member("typical", plain(range.typical)).member("high", plain(range.high)).end_object();
}

inline void write_date(Writer& json, std::string_view name, Date date) {
  json.member(name, to_text(date).str());
}
inline void write_date(Writer& json, std::string_view name, const std::optional<Date>& date) {
  if (date) write_date(json, name, *date);
}

/// {"weight", "unit"}: what stands on a plate, a bar or a dumbbell.
inline void write_marked(Writer& json, MarkedMass mass) {
  json.begin_object().member("weight", mass.value()).member("unit", to_text(mass.unit()));
  json.end_object();
}

/// The members "load_kg" and "bar", "dumbbell", "pin" or "belt".
inline void write_loaded(Writer& json, const LoadedWith& with) {
  json.member("load_kg", with.logged().kg());
  if (with.belt) {
    json.name("belt").begin_array();
    for (const MarkedMass plate : with.belt->plates) write_marked(json, plate);
    json.end_array();
  }
  if (with.bar) {
    json.name("bar").begin_object().member("text", to_text(*with.bar).str());
    json.name("bar");
    write_marked(json, with.bar->bar().mass);
    json.name("collar");
    write_marked(json, with.bar->collars().each);
    json.name("plates_each_side").begin_array();
    for (const MarkedMass plate : with.bar->plates()) write_marked(json, plate);
    json.end_array().end_object();
  }
  if (with.dumbbell) {
    json.name("dumbbell");
    write_marked(json, *with.dumbbell);
  }
  if (with.pin) {
    json.name("pin");
    write_marked(json, *with.pin);
  }
}

/// One set as it was logged.
inline void write_set(Writer& json, const LoggedSet& set, const Lifter& lifter) {
  json.begin_object();
  write_date(json, "date", set.date);
  json.member("lift", set.lift.name().str()).member("load_kg", as_logged(set, lifter).load.kg());
  json.member("reps", set.reps.count());
  if (set.reserve) json.member("left", set.reserve->typical.count());
  if (set.outcome == Outcome::missed) json.member("missed", true);
  if (set.may_be_missed) json.member("may_be_missed", true);
  json.end_object();
}

inline std::string_view name_of(Severity severity) noexcept {
  switch (severity) {
    case Severity::stop: return "stop";
    case Severity::warn: return "warn";
    case Severity::note: return "note";
  }
  return "";
}

/// What to leave, and the rating of exertion that says the same where there is one.
inline void write_left(Writer& json, RepsInReserve reserve) {
  json.member("stop_with_left", reserve.count());
  if (const auto rating = rpe(reserve)) json.member("stop_at_rpe", rating->rating());
}

/// The members "cautions" and "remedies".
inline void write_cautions(Writer& json, const std::vector<Caution>& cautions,
                           const std::vector<Remedy>& remedies,
                           const std::optional<RepsInReserve>& least_alone) {
  json.name("cautions").begin_array();
  for (const Caution& caution : cautions) {
    json.begin_object().member("severity", name_of(caution.severity)).member("text", caution.text);
    json.end_object();
  }
  json.end_array().name("remedies").begin_array();
  for (const Remedy remedy : remedies) json.value(name(remedy));
  json.end_array();
  if (least_alone) json.member("keep_left", least_alone->count());
}

/// The member "comeback", of a day on the way back from a layoff.
inline void write_comeback(Writer& json, const std::optional<Comeback>& comeback) {
  if (!comeback) return;
  json.name("comeback").begin_object().member("days_off", comeback->days_off);
  json.member("week", comeback->week).member("of", comeback->weeks);
  json.member("load_cut", comeback->load_cut).end_object();
}

// ---- what is known of a lifter ------------------------------------------------------------------

/// The member "lifter": what the log and a stated max led to, and where they may be wrong.
inline void write_lifter(Writer& json, const Lifter& lifter) {
  json.name("lifter").begin_object();
  if (lifter.learnt) {
    json.member("sets_used", lifter.learnt->sets_used);
    if (tells_trend(lifter)) write_range(json, "trend_per_week", lifter.learnt->trend.interval());
  }
  if (lifter.stated_max) {
    const StatedMax& stated = *lifter.stated_max;
    json.name("stated_max").begin_object().member("max_kg", as_logged(stated.max, lifter).kg());
    json.member("check", name(stated.check)).member("looks_like_pounds", stated.looks_like_pounds);
    if (stated.by_log) write_range(json, "by_log_kg", as_logged(*stated.by_log, lifter));
    json.end_object();
  }
  if (lifter.body) json.member("body_kg", lifter.body->kg());
  json.name("suspects").begin_array();
  for (const SuspectSet& suspect : lifter.suspects) {
    json.begin_object().member("index", suspect.index).name("set");
    write_set(json, suspect.set, lifter);
    json.member("expected_kg", as_logged(suspect.expected, lifter).kg())
        .member("slip", name(suspect.slip));
    json.end_object();
  }
  json.end_array()
      .member("reads_like_rpe", lifter.doubts.reads_like_rpe)
      .member("may_be_rpe", lifter.doubts.may_be_rpe)
      .member("has_few_sets_left", lifter.doubts.has_few_sets_left);
  if (const auto doubted = last_doubted_set(lifter, Date(Date::last_year, 12, 31))) {
    json.name("may_be_missed");
    write_set(json, *doubted, lifter);
  }
  if (const auto& jump = lifter.doubts.jump) {
    json.name("jump").begin_object().member("share", jump->share).name("set");
    write_set(json, jump->set, lifter);
    json.end_object();
  }
  json.end_object();
}

/// The member "refusal": why there is no answer, and its figures.
/// @param lift  what the lift is called
inline void write_reason(Writer& json, const Refusal& refusal, std::string_view lift) {
  json.name("refusal").begin_object();
  json.member("code", name(refusal.code)).member("message", message(refusal, lift));
  write_date(json, "date", refusal.date);
  if (refusal.days > 0) json.member("days", refusal.days);
  if (refusal.wanted > Mass{}) json.member("wanted_kg", refusal.wanted.kg());
  if (refusal.lightest > Mass{}) json.member("lightest_kg", refusal.lightest.kg());
  if (refusal.code == RefusalCode::body_too_heavy) {
    json.member("assistance_kg", (refusal.lightest - refusal.wanted).kg());
  }
  if (refusal.reps_with_lightest > 0) {
    json.member("reps_with_lightest", refusal.reps_with_lightest);
  }
  json.end_object();
}

/// The members of a refusal.
inline void write_refusal(Writer& json, const Refusal& refusal, std::string_view lift) {
  json.member("outcome", "refused");
  write_reason(json, refusal, lift);
}

// ---- a session ----------------------------------------------------------------------------------

inline void write_sets(Writer& json, const std::vector<PlannedSet>& sets) {
  json.name("sets").begin_array();
  for (const PlannedSet& set : sets) {
    json.begin_object().member("is_work", set.is_work).member("sets", set.sets);
    json.member("reps", set.reps.count());
    write_loaded(json, set.with);
    json.member("plates_off", set.taken_off).member("plates_on", set.put_on).end_object();
  }
  json.end_array();
}

/// The member "load_kg": of the work sets; 0 where all of them are done.
inline void write_work_load(Writer& json, const SessionPlan& plan) {
  json.member("load_kg", plan.sets.empty() ? 0.0 : plan.sets.back().with.logged().kg());
}

inline void write_back_offs(Writer& json, const BackOffPlan& after) {
  json.name("back_offs").begin_object().member("sets", after.set.sets);
  json.member("reps", after.set.reps.count());
  write_loaded(json, after.set.with);
  if (after.reserve_left) json.member("reserve_left", *after.reserve_left);
  if (after.chance_of_missing) json.member("chance_of_missing", *after.chance_of_missing);
  json.end_object();
}

/// What the load is and why; left out under a stop.
inline void write_load(Writer& json, const SessionPlan& plan, const Lifter& lifter) {
  write_work_load(json, plan);
  json.member("wanted_kg", plan.sets.empty() ? 0.0 : as_logged(plan.wanted, lifter).kg());
  json.member("limited_by", name(plan.limited_by));
  json.member("max_chance_of_missing", plan.max_chance_of_missing);
  write_sets(json, plan.sets);
  if (plan.reserve_left) {
    json.name("chances_of_missing").begin_array();
    for (const double chance : plan.chances_of_missing) json.value(chance);
    json.end_array();
    write_range(json, "reserve_left", *plan.reserve_left);
  }
  json.name("alternatives").begin_array();
  for (const Alternative& other : plan.alternatives) {
    json.begin_object().member("kind", name(other.kind));
    write_loaded(json, other.with);
    json.member("reserve_left", other.reserve_left);
    json.member("chance_of_missing", other.chance_of_missing).end_object();
  }
  json.end_array();
  if (plan.back_offs) write_back_offs(json, *plan.back_offs);
  if (plan.next) {
    json.name("next").begin_object().member("is_short", plan.next->is_short);
    write_loaded(json, plan.next->with);
    json.end_object();
  }
}

/// The member "first_session", of a beginner of whom nothing is known.
inline void write_first_session(Writer& json, const FirstSession& first) {
  json.name("first_session").begin_object().name("steps").begin_array();
  for (const LoadedWith& step : first.steps) {
    json.begin_object();
    write_loaded(json, step);
    json.end_object();
  }
  json.end_array().member("sets", first.sets);
  json.member("go_on_with_left", first.go_on_with.count());
  json.member("go_back_below_left", first.go_back_below.count()).end_object();
}

inline void write_strength(Writer& json, const SessionPlan& plan, const Lifter& lifter) {
  write_range(json, "base_max_kg", as_logged(plan.base_max.interval(), lifter));
  write_range(json, "max_kg", as_logged(plan.max.interval(), lifter));
  write_range(json, "max_by_catalogue_kg", as_logged(plan.max_by_catalogue, lifter));
}

inline void write_introduction(Writer& json, const SessionPlan& plan) {
  if (!plan.introduction) return;
  json.name("introduction").begin_object().member("session", plan.introduced + 1);
  json.member("of", plan.introduction->size());
  if (!plan.is_stopped()) json.member("before_next", plan.exposure()->before_next);
  json.end_object();
}

inline void write_recovery(Writer& json, const Recovery& recovery) {
  json.name("too_soon").begin_array();
  for (const RecoveryConflict& each : recovery.conflicts) {
    json.begin_object().member("group", to_text(each.conflict.group));
    write_date(json, "earlier", each.earlier);
    json.member("hours", each.conflict.hours).member("hours_wanted", each.conflict.hours_wanted);
    json.member("after_failure", each.conflict.after_failure).member("is_rated", each.is_rated);
    json.end_object();
  }
  json.end_array();
  if (recovery.is_second_today) json.member("is_second_today", true);
  write_date(json, "ready_on", recovery.ready_on);
}

inline void write_last(Writer& json, const std::optional<PastSession>& last, const Lifter& lifter) {
  if (!last) return;
  json.name("last").begin_object();
  write_date(json, "date", last->date);
  json.member("has_miss", last->has_miss);
  if (last->may_have_miss) json.member("may_have_miss", true);
  json.name("top");
  write_set(json, last->top, lifter);
  json.end_object();
}

/// The members of a session, from "outcome" on.
inline void write_session(Writer& json, const SessionPlan& plan, const Lifter& lifter) {
  json.member("outcome", plan.is_stopped() ? "stop" : "plan");
  json.member("lift", plan.request.lift.name().str());
  write_date(json, "date", plan.request.date);
  json.member("work_sets", plan.work_sets).member("sets_done", plan.sets_done);
  json.member("reps", plan.reps.count());
  if (plan.most_reps) json.member("reps_to", plan.most_reps->count());
  write_left(json, plan.reserve);
  if (plan.first_session && !plan.is_stopped()) {
    write_work_load(json, plan);
    json.member("limited_by", name(plan.limited_by));
    write_sets(json, plan.sets);
    write_first_session(json, *plan.first_session);
  } else if (!plan.is_stopped()) {
    write_load(json, plan, lifter);
    write_strength(json, plan, lifter);
  }
  json.member("earlier_sessions", plan.earlier_sessions);
  json.member("sets_of_lift", plan.sets_of_lift);
  if (plan.days_off) json.member("days_off", *plan.days_off);
  write_introduction(json, plan);
  write_comeback(json, plan.comeback);
  write_recovery(json, plan.recovery);
  write_last(json, plan.last, lifter);
  json.member("progress", name(plan.progress));
  write_cautions(json, plan.cautions, plan.remedies, plan.least_alone);
  write_lifter(json, lifter);
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI::json
