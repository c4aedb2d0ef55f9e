// tests/fuzz/answer_fuzz.cpp - any text has an answer of the planner, and a stop has no load
//
// What no request should reach is an exception, or an answer that a program cannot rely on: one
// without a known outcome, a refusal without a code, a bad request without a message, a plan
// without cautions, a stop with something to load.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <array>
#include <barwright/plan/json.hpp>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "require.hpp"

namespace json = barwright::json;
using fuzz::require;

namespace {

std::string_view text_at(const json::Value& value, std::string_view name) {
  const json::Value* const found = value.find(name);
  return found != nullptr && found->string() != nullptr ? *found->string() : std::string_view{};
}

void require_answer(const json::Value& answer) {
  const std::string_view outcome = text_at(answer, "outcome");
  if (outcome == "bad_request") {
    require(!text_at(answer, "message").empty(), "a bad request says what is wrong");
  } else if (outcome == "refused") {
    const json::Value* const refusal = answer.find("refusal");
    require(refusal != nullptr && !text_at(*refusal, "code").empty(), "a refusal has a code");
  } else if (outcome == "plan" || outcome == "stop") {
    const json::Value* const cautions = answer.find("cautions");
    require(cautions != nullptr && cautions->array() != nullptr && !cautions->array()->empty(),
            "a plan has cautions");
    const bool has_load = answer.find("load_kg") != nullptr || answer.find("sessions") != nullptr ||
                          answer.find("max_kg") != nullptr;
    require(has_load == (outcome == "plan"), "a plan has a load and a stop has none");
  } else if (outcome == "squad") {
    for (const std::string_view parts : {"lifters", "sessions"}) {
      const json::Value* const found = answer.find(parts);
      if (found == nullptr) continue;
      for (const json::Value& part : *found->array()) require_answer(part);
    }
  } else {
    require(outcome == "review" || outcome == "log" || outcome == "catalogue", "a known outcome");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // A copy of its own, so that a read beyond its end is seen.
  const std::string text(reinterpret_cast<const char*>(data), size);
  const json::ReadResult answer =
      json::read(json::answer(text, {.bytes = 1 << 13, .depth = 16, .values = 2000}));
  require(answer.value.has_value(), "an answer is JSON");
  require_answer(*answer.value);
  return 0;
}
