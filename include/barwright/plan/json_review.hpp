// barwright/plan/json_review.hpp - what a block brought: the request and the review as JSON
//
// The members and what they mean are in docs/json.md. A review rests on the log alone: a max that
// somebody states says nothing about what changed.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string_view>

#include "barwright/core/date.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/json_lifter.hpp"
#include "barwright/plan/json_plan.hpp"
#include "barwright/plan/json_session.hpp"
#include "barwright/plan/json_writer.hpp"
#include "barwright/plan/review.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

[[nodiscard]] inline ReviewRequest review_from(Fields& fields, LiftNames& names) {
  ReviewRequest asked{.lift = lift_from(fields, names)};
  asked.from = fields.date("from");
  asked.to = fields.date("to");
  if (asked.from && asked.to && !(*asked.from < *asked.to)) {
    Fields::refuse_value(fields.place("to"), "a day after \"from\"", to_text(*asked.to).str());
  }
  return asked;
}

namespace detail {

inline void write_amount(Writer& json, std::string_view name, const TrainedAmount& amount) {
  json.name(name).begin_object().member("days", amount.days).member("sets", amount.sets);
  json.member("near_failure", amount.near_failure).end_object();
}

/// The members of a review, from "outcome" on.
inline void write_review(Writer& json, const BlockReview& review) {
  json.member("outcome", "review").member("lift", review.request.lift.name().str());
  write_date(json, "from", review.from);
  write_date(json, "to", review.to);
  json.member("verdict", name(review.verdict()));
  write_range(json, "gain_on_base", review.on_base.interval());
  write_range(json, "gain_on_lift", review.on_lift.interval());
  if (review.before) write_range(json, "gain_before", review.before->interval());
  json.member("weeks", review.weeks()).member("weeks_before", review.weeks_before());
  if (review.verdict() == ReviewVerdict::unclear) {
    json.member("weeks_until_clear", review.weeks_until_clear());
  }
  write_amount(json, "of_lift", review.of_lift);
  write_amount(json, "of_base", review.of_base);
  json.member("ratio_before", review.ratio_on(review.from));
  json.member("ratio_after", review.ratio_on(review.to));
  json.name("history").begin_array();
  for (const ReviewedDay& day : review.history) {
    json.begin_object();
    write_date(json, "date", day.date);
    write_range(json, "max_kg", as_logged(day.max.interval(), review.lifter));
    json.end_object();
  }
  json.end_array().name("deciding_days").begin_array();
  for (const Date day : review.deciding_days()) json.value(to_text(day).str());
  json.end_array();
  write_lifter(json, review.lifter);
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI::json
