// barwright/plan/json_writer.hpp - writes JSON, part by part
//
// The other way of json_text.hpp, by the same RFC 8259. What is written is one value without
// blanks, in UTF-8. Numbers have a decimal point whatever the host's locale, and a double is
// written in the fewest digits that read back as the same double.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/plan/json_text.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// Writes one JSON value without blanks, part by part; commas and escapes are its own affair.
///
///     Writer json;
///     json.begin_object().member("kg", 62.5).name("plates").begin_array().value(20.0).end_array();
///     json.end_object();   // {"kg":62.5,"plates":[20]}
class Writer {
 public:
  Writer& begin_object() { return open('{'); }
  Writer& end_object() { return close('}'); }
  Writer& begin_array() { return open('['); }
  Writer& end_array() { return close(']'); }

  /// The name of the next value of an object.
  Writer& name(std::string_view name);

  /// A number that is not finite has no JSON and is written as null.
  Writer& value(double number);
  Writer& value(int number) { return append(std::to_string(number)); }
  Writer& value(std::size_t number) { return append(std::to_string(number)); }
  Writer& value(bool boolean) { return append(boolean ? "true" : "false"); }
  Writer& null() { return append("null"); }
  /// Bytes that are not UTF-8 are written as U+FFFD, the replacement character.
  Writer& value(std::string_view text);
  Writer& value(const char* text) { return value(std::string_view(text)); }
  Writer& value(const std::string& text) { return value(std::string_view(text)); }
  Writer& value(const Value& any);

  /// A value that is JSON already.
  Writer& raw(std::string_view text) { return append(text); }

  /// A name and its value.
  template <class T>
  Writer& member(std::string_view its_name, const T& its_value) {
    return name(its_name).value(its_value);
  }

  /// What was written so far.
  [[nodiscard]] const std::string& text() const& noexcept { return text_; }
  [[nodiscard]] std::string text() && noexcept { return std::move(text_); }

 private:
  void separate() {
    if (needs_comma_) text_ += ',';
    needs_comma_ = true;
  }
  Writer& append(std::string_view text);
  Writer& open(char bracket);
  Writer& close(char bracket);

  void append_quoted(std::string_view text);

  std::string text_;
  bool needs_comma_ = false;
};

/// A value as text without blanks.
[[nodiscard]] inline std::string write(const Value& value) { return Writer().value(value).text(); }

}  // namespace barwright::inline BARWRIGHT_ABI::json

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/json_writer.ipp"
#endif
