// barwright/plan/json_look_back.hpp - the last weeks of a log: the request and the answer as JSON
//
// The members and what they mean are in docs/json.md. Like a review it rests on the log alone.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string_view>

#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/json_plan.hpp"
#include "barwright/plan/json_session.hpp"
#include "barwright/plan/json_writer.hpp"
#include "barwright/plan/look_back.hpp"
#include "barwright/training/spacing.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

[[nodiscard]] inline LookBackRequest look_back_from(Fields& fields) {
  LookBackRequest asked{.date = date_from(fields)};
  asked.weeks = fields.whole("weeks", 2, 104).value_or(asked.weeks);
  return asked;
}

namespace detail {

inline void write_week(Writer& json, const LoggedWeek& week) {
  json.begin_object();
  write_date(json, "first", week.first);
  write_date(json, "last", week.last);
  json.member("days", week.days).member("hard_sets", week.hard_sets);
  json.member("unrated_sets", week.unrated_sets).member("lifted_kg", week.lifted.kg());
  json.name("hard_sets_of").begin_object();
  for (const MuscleGroup group : all_muscle_groups) {
    json.member(to_text(group), week.hard[group]);
  }
  json.end_object().end_object();
}

inline void write_best(Writer& json, std::string_view name, const std::optional<LoggedSet>& set,
                       const Lifter& lifter) {
  if (!set) return;
  json.name(name);
  write_set(json, *set, lifter);
}

inline void write_progress(Writer& json, const LiftProgress& lift) {
  json.begin_object().member("lift", lift.base.name().str());
  json.member("verdict", name(lift.verdict)).member("days", lift.days);
  write_date(json, "last", lift.last);
  if (lift.gain) write_range(json, "gain", lift.gain->interval());
  json.member("gain_weeks", lift.gain_weeks);
  write_range(json, "max_kg", as_logged(lift.max.interval(), lift.lifter));
  write_best(json, "best", lift.best, lift.lifter);
  write_best(json, "best_before", lift.best_before, lift.lifter);
  write_lifter(json, lift.lifter);
  json.end_object();
}

/// What was noted of pain: {"date", "lift", "said"}, without a lift where it could not be read.
inline void write_noted(Writer& json, const LookBack& back) {
  const auto write = [&](Date date, const Lift* lift, std::string_view said) {
    json.begin_object();
    write_date(json, "date", date);
    if (lift != nullptr) json.member("lift", lift->name().str());
    json.member("said", said).end_object();
  };
  json.name("noted").begin_array();
  for (const LoggedSet& set : back.noted) {
    if (set.is_unwell) write(set.date, &set.lift, "unwell");
    if (set.has_pain) write(set.date, &set.lift, "pain");
    if (!set.is_unwell && !set.has_pain) write(set.date, &set.lift, "may_hurt");
  }
  for (const NotedDay& day : back.noted_beside) {
    const Lift* const lift = day.lift ? &*day.lift : nullptr;
    if (day.is_unwell) write(day.date, lift, "unwell");
    if (day.hurts) write(day.date, lift, "pain");
  }
  json.end_array();
}

/// The members of the answer, from "outcome" on.
inline void write_look_back(Writer& json, const LookBack& back) {
  json.member("outcome", "look_back");
  write_date(json, "date", back.request.date);
  write_noted(json, back);
  json.name("lifts").begin_array();
  for (const LiftProgress& lift : back.lifts) write_progress(json, lift);
  json.end_array().name("refused").begin_array();
  for (const RefusedLift& lift : back.refused) {
    json.begin_object().member("lift", lift.base.name().str());
    write_reason(json, lift.refusal, lift.base.base().name);
    json.end_object();
  }
  json.end_array().name("weeks").begin_array();
  for (const LoggedWeek& week : back.weeks) write_week(json, week);
  json.end_array();
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI::json
