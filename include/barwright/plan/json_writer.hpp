// barwright/plan/json_writer.hpp - writes JSON, part by part
//
// The other way of json_text.hpp, by the same RFC 8259. What is written is one value without
// blanks, in UTF-8. Numbers have a decimal point whatever the host's locale, and a double is
// written in the fewest digits that read back as the same double.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/core/printable.hpp"
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
  Writer& name(std::string_view name) {
    separate();
    append_quoted(name);
    text_ += ':';
    needs_comma_ = false;
    return *this;
  }

  /// A number that is not finite has no JSON and is written as null.
  Writer& value(double number) {
    if (!(number - number == 0.0)) return null();
    char digits[32];
    const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
    return append(std::string_view(digits, static_cast<std::size_t>(end - digits)));
  }
  Writer& value(int number) { return append(std::to_string(number)); }
  Writer& value(std::size_t number) { return append(std::to_string(number)); }
  Writer& value(bool boolean) { return append(boolean ? "true" : "false"); }
  Writer& null() { return append("null"); }
  /// Bytes that are not UTF-8 are written as U+FFFD, the replacement character.
  Writer& value(std::string_view text) {
    separate();
    append_quoted(text);
    return *this;
  }
  Writer& value(const char* text) { return value(std::string_view(text)); }
  Writer& value(const std::string& text) { return value(std::string_view(text)); }
  Writer& value(const Value& any) {
    if (const bool* boolean = any.boolean()) return value(*boolean);
    if (const double* number = any.number()) return value(*number);
    if (const std::string* text = any.string()) return value(*text);
    if (const Value::Array* items = any.array()) {
      begin_array();
      for (const Value& item : *items) value(item);
      return end_array();
    }
    if (const Value::Object* members = any.object()) {
      begin_object();
      for (const Member& each : *members) name(each.name).value(each.value);
      return end_object();
    }
    return null();
  }

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
  Writer& append(std::string_view text) {
    separate();
    text_ += text;
    return *this;
  }
  Writer& open(char bracket) {
    separate();
    text_ += bracket;
    needs_comma_ = false;
    return *this;
  }
  Writer& close(char bracket) {
    text_ += bracket;
    needs_comma_ = true;
    return *this;
  }

  void append_quoted(std::string_view text) {
    constexpr std::string_view hexadecimal = "0123456789abcdef";
    text_ += '"';
    while (!text.empty()) {
      const auto byte = static_cast<unsigned char>(text[0]);
      const std::size_t length = barwright::detail::first_character(text).bytes;
      if (length == 0) {
        text_ += "\xEF\xBF\xBD";
      } else if (byte < 0x20 || byte == 0x7F) {
        text_ += "\\u00";
        text_ += hexadecimal[byte >> 4];
        text_ += hexadecimal[byte & 15];
      } else {
        if (byte == '"' || byte == '\\') text_ += '\\';
        text_ += text.substr(0, length);
      }
      text.remove_prefix(std::max<std::size_t>(length, 1));
    }
    text_ += '"';
  }

  std::string text_;
  bool needs_comma_ = false;
};

/// A value as text without blanks.
[[nodiscard]] inline std::string write(const Value& value) { return Writer().value(value).text(); }

}  // namespace barwright::inline BARWRIGHT_ABI::json
