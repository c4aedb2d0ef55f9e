// barwright/plan/json_block.hpp - weeks of one lift: the request and the plan as JSON
//
// The members and what they mean are in docs/json.md. As with a session, a plan that says stop
// holds nothing from which a load could be read.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/plan/block_plan.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/json_lifter.hpp"
#include "barwright/plan/json_plan.hpp"
#include "barwright/plan/json_session.hpp"
#include "barwright/plan/json_writer.hpp"
#include "barwright/training/block.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// The shape of a block; what is not given is as BlockSettings has it.
[[nodiscard]] inline BlockSettings block_settings_from(Fields& fields) {
  BlockSettings settings;
  const auto whole = [&](std::string_view name, int least, int most, int otherwise) {
    return fields.whole(name, least, most).value_or(otherwise);
  };
  settings.sessions_a_week = whole("sessions_a_week", 1, 7, settings.sessions_a_week);
  settings.working_weeks = whole("working_weeks", 1, 26, settings.working_weeks);
  settings.sets = whole("sets", 1, 20, settings.sets);
  settings.reps = Reps(whole("reps", Reps::fewest, Reps::most, settings.reps.count()));
  settings.first_reserve = left_from(fields, settings.first_reserve, "first_left", "first_rpe");
  settings.last_reserve = left_from(fields, settings.last_reserve, "last_left", "last_rpe");
  settings.shape = fields
                       .choice<BlockShape>("shape", {{"rising", BlockShape::rising},
                                                     {"steps", BlockShape::steps},
                                                     {"waves", BlockShape::waves}})
                       .value_or(settings.shape);
  settings.has_deload = fields.boolean("deload").value_or(settings.has_deload);
  settings.deload_cut = fields.number("deload_cut").value_or(settings.deload_cut);
  settings.has_retest = fields.boolean("retest").value_or(settings.has_retest);
  settings.retest_reps =
      Reps(whole("retest_reps", Reps::fewest, Reps::most, settings.retest_reps.count()));
  settings.retest_reserve = left_from(fields, settings.retest_reserve, "retest_left", "retest_rpe");
  return settings;
}

[[nodiscard]] inline BlockRequest block_from(Fields& fields, LiftNames& names) {
  BlockRequest asked{.lift = lift_from(fields, names), .start = date_from(fields)};
  asked.settings = block_settings_from(fields);
  asked.back_offs = back_offs_from(fields);
  asked.max_chance_of_missing = chance_from(fields);
  read_circumstances(fields, asked);
  return asked;
}

namespace detail {

inline void write_block_session(Writer& json, const BlockSession& session) {
  const StepPlan& step = session.step.plan;
  json.begin_object();
  write_date(json, "date", session.date);
  json.member("week", step.week).member("session", step.session);
  json.member("stage", to_text(step.stage)).member("sets", step.sets);
  json.member("reps", step.reps.count());
  write_left(json, step.reserve);
  json.member("to_reserve", step.to_reserve);
  write_loaded(json, {.load = session.step.loading.total(), .bar = session.step.loading});
  json.member("wanted_kg", session.step.wanted.kg());
  json.member("limited_by", name(session.limited_by));
  json.member("chance_of_missing", session.chance_of_missing);
  json.member("reserve_left", session.reserve_left);
  if (session.back_offs) write_back_offs(json, *session.back_offs);
  json.end_object();
}

/// The members of a block, from "outcome" on.
inline void write_block(Writer& json, const BlockPlan& plan, const Lifter& lifter) {
  json.member("outcome", plan.is_stopped() ? "stop" : "plan");
  json.member("lift", plan.request.lift.name().str());
  write_date(json, "date", plan.request.start);
  if (!plan.is_stopped()) {
    json.name("sessions").begin_array();
    for (const BlockSession& session : plan.sessions) write_block_session(json, session);
    json.end_array().member("has_no_retest", plan.has_no_retest);
    json.member("has_no_rise", plan.has_no_rise);
    json.member("max_chance_of_missing", plan.max_chance_of_missing);
    write_range(json, "base_max_kg", plan.base_max.interval());
    write_range(json, "max_kg", plan.max.interval());
  }
  json.member("earlier_sessions", plan.earlier_sessions);
  if (plan.days_off) json.member("days_off", *plan.days_off);
  write_comeback(json, plan.comeback);
  write_recovery(json, plan.recovery);
  write_last(json, plan.last, lifter);
  write_cautions(json, plan.cautions, plan.remedies, plan.least_alone);
  write_lifter(json, lifter);
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI::json
