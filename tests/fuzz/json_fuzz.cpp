// tests/fuzz/json_fuzz.cpp - any text is a JSON value, or has a problem at a place of its own
//
// A value that was read is written and read again, and is written the same.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/plan/json_text.hpp>
#include <barwright/plan/json_writer.hpp>
#include <cstddef>
#include <cstdint>
#include <string>

#include "require.hpp"

namespace json = barwright::json;
using fuzz::require;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // A copy of its own, so that a read beyond its end is seen.
  const std::string text(reinterpret_cast<const char*>(data), size);
  const json::ReadResult result = json::read(text, {.bytes = 1 << 16, .depth = 16, .values = 5000});
  require(result.value.has_value() == result.problem.text.empty(), "a value, or what is wrong");
  if (!result.value) {
    require(result.problem.line + result.problem.column <= text.size() + 3, "a place in the text");
    return 0;
  }
  const std::string written = json::write(*result.value);
  const json::ReadResult again = json::read(written);
  require(again.value.has_value(), "what is written can be read");
  require(json::write(*again.value) == written, "and is written the same");
  return 0;
}
