// barwright/plan/json_attempts.hpp - attempts on test day: the request and the plan as JSON
//
// The members and what they mean are in docs/json.md. Under a stop there is no load.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>

#include "barwright/plan/attempts.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/json_lifter.hpp"
#include "barwright/plan/json_plan.hpp"
#include "barwright/plan/json_session.hpp"
#include "barwright/plan/json_writer.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

[[nodiscard]] inline AttemptsRequest attempts_from(Fields& fields, LiftNames& names) {
  AttemptsRequest asked{.lift = lift_from(fields, names), .date = date_from(fields)};
  read_circumstances(fields, asked);
  return asked;
}

namespace detail {

/// The members of attempts, from "outcome" on.
inline void write_attempts(Writer& json, const AttemptsPlan& plan, const Lifter& lifter) {
  json.member("outcome", plan.is_stopped() ? "stop" : "plan");
  json.member("lift", plan.request.lift.name().str());
  write_date(json, "date", plan.request.date);
  if (!plan.is_stopped()) {
    json.name("attempts").begin_array();
    for (const Attempt& attempt : plan.attempts) {
      json.begin_object();
      write_loaded(json, attempt.with);
      json.member("chance_of_success", attempt.chance_of_success).end_object();
    }
    json.end_array().member("limited_by", name(plan.limited_by));
    write_sets(json, plan.sets);
    write_range(json, "max_kg", as_logged(plan.max.interval(), lifter));
  }
  json.member("earlier_sessions", plan.earlier_sessions);
  if (plan.days_off) json.member("days_off", *plan.days_off);
  write_comeback(json, plan.comeback);
  write_recovery(json, plan.recovery);
  write_last(json, plan.last, lifter);
  write_cautions(json, plan.cautions, plan.remedies, std::nullopt);
  write_lifter(json, lifter);
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI::json
