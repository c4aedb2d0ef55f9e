// barwright/plan/json_text.hpp - a strict reader of JSON: from a text to a value
//
// What other languages say to the planner, and hear from it, is JSON as RFC 8259 defines it (Bray
// 2017, "The JavaScript Object Notation (JSON) Data Interchange Format"; from memory, checked in
// the tests against another implementation). The reader takes nothing else: no comments, no
// trailing commas, no NaN, no byte order mark, no text that is not UTF-8. Where the RFC lets a
// reader choose, this one chooses the safe side. A name that stands twice in one object is refused,
// as two readers could each believe another of the two loads. A number must fit a double. Size,
// depth and the count of values are bounded, so that no text costs more than its limits say.
// Numbers have a decimal point whatever the host's locale.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

struct Member;

/// Any JSON value. Members of an object stay in the order in which they were written.
class Value {
 public:
  using Array = std::vector<Value>;
  using Object = std::vector<Member>;

  Value() noexcept;  ///< null
  explicit Value(bool value);
  explicit Value(double value);
  explicit Value(std::string value);
  explicit Value(Array items);
  explicit Value(Object members);
  Value(const Value& other);
  Value(Value&& other) noexcept;
  Value& operator=(const Value& other);
  Value& operator=(Value&& other) noexcept;
  ~Value();

  [[nodiscard]] bool is_null() const noexcept { return held_.index() == 0; }
  // The value where it is of this kind, else nullptr.
  [[nodiscard]] const bool* boolean() const noexcept { return std::get_if<bool>(&held_); }
  [[nodiscard]] const double* number() const noexcept { return std::get_if<double>(&held_); }
  [[nodiscard]] const std::string* string() const noexcept {
    return std::get_if<std::string>(&held_);
  }
  [[nodiscard]] const Array* array() const noexcept { return std::get_if<Array>(&held_); }
  [[nodiscard]] const Object* object() const noexcept { return std::get_if<Object>(&held_); }

  /// The member of an object with that name; nullptr where there is none, or no object.
  [[nodiscard]] const Value* find(std::string_view name) const noexcept;

  /// "null", "a boolean", "a number", "a string", "an array" or "an object".
  [[nodiscard]] std::string_view kind() const noexcept {
    constexpr std::string_view kinds[] = {"null",     "a boolean", "a number",
                                          "a string", "an array",  "an object"};
    return kinds[held_.index()];
  }

 private:
  std::variant<std::monostate, bool, double, std::string, Array, Object> held_;
};

/// A name and its value in an object.
struct Member {
  std::string name;
  Value value;
};

/// How much text a reader takes on.
struct Limits {
  std::size_t bytes = std::size_t{16} << 20;
  int depth = 32;                  ///< arrays and objects inside one another
  std::size_t values = 1'000'000;  ///< of all kinds, those inside others too
};

/// Why a text is no JSON value, and where.
struct Problem {
  std::string text;        ///< "expected a comma or ] after a value of an array"
  std::size_t line = 1;    ///< from 1
  std::size_t column = 1;  ///< in characters, from 1

  /// "line 3, column 7: expected ..."
  [[nodiscard]] std::string message() const;
};

/// A value, or what is wrong with the text: one of the two.
struct ReadResult {
  std::optional<Value> value;
  Problem problem;
};

/// The value a text is, or what is wrong with it. Throws nothing but std::bad_alloc.
[[nodiscard]] ReadResult read(std::string_view text, const Limits& limits = {});

}  // namespace barwright::inline BARWRIGHT_ABI::json

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/json_text.ipp"
#endif
