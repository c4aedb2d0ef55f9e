// barwright/plan/json_writer.ipp - the bodies of json_writer.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <string>
#include <string_view>

#include "barwright/core/printable.hpp"
#include "barwright/plan/json_text.hpp"
#include "barwright/plan/json_writer.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

inline Writer& Writer::name(std::string_view name) {
  separate();
  append_quoted(name);
  text_ += ':';
  needs_comma_ = false;
  return *this;
}

inline Writer& Writer::value(double number) {
  if (!(number - number == 0.0)) return null();
  char digits[32];
  const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
  return append(std::string_view(digits, static_cast<std::size_t>(end - digits)));
}

inline Writer& Writer::value(std::string_view text) {
  separate();
  append_quoted(text);
  return *this;
}

inline Writer& Writer::value(const Value& any) {
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

inline Writer& Writer::append(std::string_view text) {
  separate();
  text_ += text;
  return *this;
}

inline Writer& Writer::open(char bracket) {
  separate();
  text_ += bracket;
  needs_comma_ = false;
  return *this;
}

inline Writer& Writer::close(char bracket) {
  text_ += bracket;
  needs_comma_ = true;
  return *this;
}

inline void Writer::append_quoted(std::string_view text) {
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

}  // namespace barwright::inline BARWRIGHT_ABI::json
