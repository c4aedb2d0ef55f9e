// barwright/plan/json.hpp - the planner as one call: a request in JSON in, an answer in JSON out
//
//     const std::string answer = json::answer(R"({"version": 1, "ask": "plan_session",
//         "lift": "bench press", "date": "2026-11-25", "stated_max_kg": 100, "spotter": true})");
//
// What C, Python and the page in a browser call, so that all say the same. Requests and answers are
// described in docs/json.md, and in the schemas beside it. An answer has an "outcome": "plan",
// "stop" (with cautions, remedies and no load), "review", "look_back", "refused" with a code, or
// "bad_request" with a message and the place of what is wrong.
//
// Needs Eigen.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string>
#include <string_view>

#include "barwright/plan/attempts.hpp"
#include "barwright/plan/json_text.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/look_back.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session_plan.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// The version of requests and answers that this library speaks.
inline constexpr int version = 1;

/// A session that was planned in C++, as `answer` gives it to who asked in JSON.
/// @param ask  "replan" for the rest of one
[[nodiscard]] std::string to_json(const Result<SessionPlan>& plan, const Lifter& lifter,
                                  std::string_view ask = "plan_session");

/// The same of attempts on test day.
[[nodiscard]] std::string to_json(const Result<AttemptsPlan>& plan, const Lifter& lifter);

/// The same of the last weeks of a log.
[[nodiscard]] std::string to_json(const LookBack& back);

/// The answer to a request. Any text has one. Throws nothing but std::bad_alloc, where there is not
/// even memory to say so; without exceptions, what the library refuses ends the program.
[[nodiscard]] std::string answer(std::string_view request, const Limits& limits = {});

}  // namespace barwright::inline BARWRIGHT_ABI::json

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/json.ipp"
#endif
