// tests/plan/json_answers.hpp - asks in JSON, and looks into the answer
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <doctest/doctest.h>

#include <barwright/plan/json.hpp>
#include <string>
#include <string_view>
#include <utility>

namespace barwright_test {

inline std::string request(const std::string& members) {
  return R"({"version":1,)" + members + "}";
}

/// The answer, read again by the reader.
inline barwright::json::Value answer(const std::string& text) {
  barwright::json::ReadResult result = barwright::json::read(barwright::json::answer(text));
  REQUIRE(result.value);
  return *std::move(result.value);
}

inline std::string text_at(const barwright::json::Value& value, std::string_view name) {
  const barwright::json::Value* const found = value.find(name);
  return found != nullptr && found->string() != nullptr ? *found->string() : "";
}
inline double number_at(const barwright::json::Value& value, std::string_view name) {
  const barwright::json::Value* const found = value.find(name);
  REQUIRE(found != nullptr);
  REQUIRE(found->number() != nullptr);
  return *found->number();
}

}  // namespace barwright_test
