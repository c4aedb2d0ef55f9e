// barwright/plan/json.ipp - the bodies of json.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include "barwright/core/error.hpp"
#include "barwright/plan/attempts.hpp"
#include "barwright/plan/block_plan.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/plan/json_attempts.hpp"
#include "barwright/plan/json_block.hpp"
#include "barwright/plan/json_catalogue.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/json_lifter.hpp"
#include "barwright/plan/json_log.hpp"
#include "barwright/plan/json_look_back.hpp"
#include "barwright/plan/json_plan.hpp"
#include "barwright/plan/json_review.hpp"
#include "barwright/plan/json_session.hpp"
#include "barwright/plan/json_text.hpp"
#include "barwright/plan/json_writer.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/look_back.hpp"
#include "barwright/plan/review.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plan/squad.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

namespace detail {

/// One lifter of a request, learnt once for each base lift and day asked about.
class KnownLifter {
 public:
  KnownLifter(Fields& fields, LiftNames& names)
      : log_(log_from(fields, names)), facts_(facts_from(fields, names)) {
    facts_.noted = log_.noted;
    if (const auto lift = fields.text("stated_max_of")) {
      stated_max_of_ = names.find(*lift, fields.place("stated_max_of"));
    }
  }

  /// Whether there is a max of which nobody said what lift it is on.
  [[nodiscard]] bool has_max_of_any_lift() const noexcept {
    return facts_.stated_max && !stated_max_of_;
  }
  /// Whether that would be one day too many: see `most_days_of_member`.
  [[nodiscard]] bool is_too_much(const Lift& lift, Date date) const {
    return learnt_.size() >= most_days_of_member && find(lift, date) == nullptr;
  }
  [[nodiscard]] const LearntLifter& on(const Lift& lift, Date date) {
    if (const LearntLifter* const known = find(lift, date)) return *known;
    const Lift base(lift.base());
    LifterFacts facts = facts_;
    if (stated_max_of_ && !stated_max_of_->same_as(base)) facts.stated_max.reset();
    return std::get<2>(
        learnt_.emplace_back(base.base().key, date, learn_lifter(log_.sets, base, date, facts)));
  }

 private:
  [[nodiscard]] const LearntLifter* find(const Lift& lift, Date date) const {
    for (const auto& [known, day, lifter] : learnt_) {
      if (known == lift.base().key && day == date) return &lifter;
    }
    return nullptr;
  }

  GivenLog log_;
  LifterFacts facts_;
  std::optional<Lift> stated_max_of_{};
  std::vector<std::tuple<std::string_view, Date, LearntLifter>> learnt_;
};

/// Writes a plan with `write`, or why there is none.
template <class Plan, class Write>
void write_result(Writer& json, const Result<Plan>& plan, const Lifter& lifter,
                  const Write& write) {
  if (plan) {
    write(json, *plan, lifter);
  } else {
    write_refusal(json, plan.refusal(), lifter.base.base().name);
    write_lifter(json, lifter);
  }
}

/// The members of the answer about a block.
inline void answer_block(Writer& json, Fields& fields, LiftNames& names, KnownLifter& known) {
  const BlockRequest asked = block_from(fields, names);
  fields.finish();
  const LearntLifter& lifter = known.on(asked.lift, asked.start);
  write_result(json, plan_block(lifter, asked), lifter, write_block);
}

/// The members of the answer about attempts on test day.
inline void answer_attempts(Writer& json, Fields& fields, LiftNames& names, KnownLifter& known) {
  const AttemptsRequest asked = attempts_from(fields, names);
  fields.finish();
  const LearntLifter& lifter = known.on(asked.lift, asked.date);
  write_result(json, plan_attempts(lifter, asked), lifter, write_attempts);
}

/// A lifter's facts for what rests on the log alone; `what` does.
inline LifterFacts facts_without_max(Fields& fields, LiftNames& names, std::string_view what) {
  LifterFacts facts = facts_from(fields, names);
  if (facts.stated_max) {
    refuse(fields.place(),
           "a stated max must not be given: " + std::string(what) + " rests on the log");
  }
  return facts;
}

/// The members of the answer about what a block brought.
inline void answer_review(Writer& json, Fields& fields, LiftNames& names) {
  const std::vector<LoggedSet> log = log_from(fields, names).sets;
  const LifterFacts facts = facts_without_max(fields, names, "a review");
  const ReviewRequest asked = review_from(fields, names);
  fields.finish();
  if (const Result<BlockReview> review = review_block(log, asked, facts)) {
    write_review(json, *review);
  } else {
    write_refusal(json, review.refusal(), asked.lift.name().str());
  }
}

/// The members of the answer about the last weeks of a log.
inline void answer_look_back(Writer& json, Fields& fields, LiftNames& names) {
  const GivenLog log = log_from(fields, names);
  LifterFacts facts = facts_without_max(fields, names, "a look back");
  facts.noted = log.noted;
  const LookBackRequest asked = look_back_from(fields);
  fields.finish();
  write_look_back(json, look_back(log.sets, asked, facts));
}

/// The members of the answer about one session.
inline void answer_session(Writer& json, Fields& fields, LiftNames& names, KnownLifter& known,
                           bool has_begun) {
  const SessionRequest asked = session_from(fields, names);
  const std::vector<LoggedSet> done =
      has_begun ? done_from(fields, asked) : std::vector<LoggedSet>{};
  fields.finish();
  if (known.is_too_much(asked.lift, asked.date)) {
    return write_refusal(json, {.code = RefusalCode::too_many_days, .days = most_days_of_member},
                         asked.lift.base().name);
  }
  const LearntLifter& lifter = known.on(asked.lift, asked.date);
  Result<SessionPlan> plan = plan_session(lifter, asked);
  if (plan && has_begun) plan = replan(lifter, *plan, done);
  write_result(json, plan, lifter, write_session);
}

/// Writes with `write(json, fields)` one answer of a squad, an object; where that is refused, the
/// refusal in its place, and the others go on.
template <class Write>
void write_apart(Writer& json, const Value& value, const Place& at, const Write& write) {
  Writer apart;
  apart.begin_object();
  if (const Value* const id = value.find("id")) apart.member("id", *id);
  const Writer begun = apart;
  const auto attempt = [&] {
    Fields fields(value, at);
    (void)fields.find("id");
    write(apart, fields);
  };
#if BARWRIGHT_EXCEPTIONS
  const auto write_fault = [&](std::string_view message, std::string_view place) {
    apart = begun;
    apart.member("outcome", "bad_request").member("message", message).member("at", place);
  };
  try {
    attempt();
  } catch (const BadRequest& fault) {
    write_fault(fault.what(), fault.at());
  } catch (const DomainError& fault) {
    write_fault(fault.what(), at.text());
  }
#else
  attempt();
#endif
  json.raw(apart.end_object().text());
}

/// The answers to each of an array of questions.
template <class Write>
void write_each(Writer& json, Fields& fields, std::string_view name, const Write& write) {
  const Value& questions = fields.required(name);
  const Place at = fields.place(name);
  if (questions.array() == nullptr) Fields::refuse_kind(at, "an array", questions);
  fields.finish();
  json.member("outcome", "squad").name(name).begin_array();
  for (std::size_t i = 0; i < questions.array()->size(); ++i) {
    write_apart(json, (*questions.array())[i], Place(at, i), write);
  }
  json.end_array();
}

/// Many lifters, and of each the sessions asked about.
inline void answer_squad(Writer& json, Fields& fields, LiftNames& names) {
  write_each(json, fields, "lifters", [&](Writer& of_lifter, Fields& lifter) {
    KnownLifter known(lifter, names);
    if (known.has_max_of_any_lift()) {
      refuse(lifter.place(), "\"stated_max_of\" must be given: the lift that the max is on");
    }
    write_each(of_lifter, lifter, "sessions", [&](Writer& of_session, Fields& session) {
      answer_session(of_session, session, names, known, false);
    });
  });
}

/// The members of an answer to a request that was read.
inline void answer_to(Writer& json, Fields& fields, std::string_view ask) {
  if (ask == "catalogue") {
    fields.finish();
    json.member("outcome", "catalogue");
    return write_catalogue(json);
  }
  LiftNames names(own_lifts_from(fields));
  if (ask == "plan_session" || ask == "replan") {
    KnownLifter known(fields, names);
    answer_session(json, fields, names, known, ask == "replan");
  } else if (ask == "plan_block") {
    KnownLifter known(fields, names);
    answer_block(json, fields, names, known);
  } else if (ask == "plan_attempts") {
    KnownLifter known(fields, names);
    answer_attempts(json, fields, names, known);
  } else if (ask == "review_block") {
    answer_review(json, fields, names);
  } else if (ask == "look_back") {
    answer_look_back(json, fields, names);
  } else if (ask == "squad") {
    answer_squad(json, fields, names);
  } else if (ask == "read_log") {
    answer_log(json, fields, names);
  } else {
    Fields::refuse_value(fields.place("ask"),
                         "one of plan_session, replan, plan_block, plan_attempts, review_block, "
                         "look_back, squad, read_log, catalogue",
                         ask);
  }
}

/// The beginning of every answer; gives back what was asked for.
inline std::string_view begin_answer(Writer& json, const Value& request, Fields& fields) {
  (void)fields.required("version");
  if (*fields.number("version") != version) {
    refuse(fields.place("version"), "must be " + std::to_string(version));
  }
  (void)fields.required("ask");
  const std::string_view ask = *fields.text("ask");
  json.member("ask", ask);
  if (fields.find("id") != nullptr) json.member("id", *request.find("id"));
  return ask;
}

inline std::string bad_request(std::string_view message, std::string_view at) {
  Writer json;
  json.begin_object().member("version", version).member("outcome", "bad_request");
  json.member("message", message).member("at", at).end_object();
  return json.text();
}

inline std::string answer_or_throw(std::string_view text, const Limits& limits) {
  const ReadResult request = read(text, limits);
  if (!request.value) return bad_request(request.problem.message(), "");
  const Place whole;
  Fields fields(*request.value, whole);
  Writer json;
  json.begin_object().member("version", version);
  const std::string_view ask = begin_answer(json, *request.value, fields);
  answer_to(json, fields, ask);
  return std::move(json.end_object()).text();
}

}  // namespace detail

inline std::string to_json(const Result<SessionPlan>& plan, const Lifter& lifter,
                           std::string_view ask) {
  Writer json;
  json.begin_object().member("version", version).member("ask", ask);
  detail::write_result(json, plan, lifter, detail::write_session);
  return std::move(json.end_object()).text();
}

inline std::string to_json(const Result<AttemptsPlan>& plan, const Lifter& lifter) {
  Writer json;
  json.begin_object().member("version", version).member("ask", "plan_attempts");
  detail::write_result(json, plan, lifter, detail::write_attempts);
  return std::move(json.end_object()).text();
}

inline std::string to_json(const LookBack& back) {
  Writer json;
  json.begin_object().member("version", version).member("ask", "look_back");
  detail::write_look_back(json, back);
  return std::move(json.end_object()).text();
}

inline std::string answer(std::string_view request, const Limits& limits) {
#if BARWRIGHT_EXCEPTIONS
  try {
    return detail::answer_or_throw(request, limits);
  } catch (const BadRequest& fault) {
    return detail::bad_request(fault.what(), fault.at());
  } catch (const std::exception& fault) {
    return detail::bad_request(fault.what(), "");
  }
#else
  return detail::answer_or_throw(request, limits);
#endif
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
