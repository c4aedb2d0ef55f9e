// barwright/plan/json_text.ipp - the bodies of json_text.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "barwright/core/printable.hpp"
#include "barwright/plan/json_text.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

inline Value::Value() noexcept = default;

inline Value::Value(bool value) : held_(value) {}

inline Value::Value(double value) : held_(value) {}

inline Value::Value(std::string value) : held_(std::move(value)) {}

inline Value::Value(Array items) : held_(std::move(items)) {}

inline Value::Value(Object members) : held_(std::move(members)) {}

inline Value::Value(const Value& other) = default;

inline Value::Value(Value&& other) noexcept = default;

inline Value& Value::operator=(const Value& other) = default;

inline Value& Value::operator=(Value&& other) noexcept = default;

inline Value::~Value() = default;

inline const Value* Value::find(std::string_view name) const noexcept {
  if (const Object* members = object()) {
    for (const Member& member : *members) {
      if (member.name == name) return &member.value;
    }
  }
  return nullptr;
}

inline std::string Problem::message() const {
  return "line " + std::to_string(line) + ", column " + std::to_string(column) + ": " + text;
}

namespace detail {

/// Appends a character in UTF-8; `code` is no surrogate and at most U+10FFFF.
inline void append_character(std::string& to, std::uint32_t code) {
  const auto put = [&](std::uint32_t byte) { to += static_cast<char>(byte); };
  const auto put_rest = [&](unsigned shift) { put(0x80u | ((code >> shift) & 0x3Fu)); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xC0u | (code >> 6));
    put_rest(0);
  } else if (code < 0x10000) {
    put(0xE0u | (code >> 12));
    put_rest(6);
    put_rest(0);
  } else {
    put(0xF0u | (code >> 18));
    put_rest(12);
    put_rest(6);
    put_rest(0);
  }
}

/// Reads one text. After the first problem nothing more is read.
class Reader {
 public:
  Reader(std::string_view text, const Limits& limits) : text_(text), limits_(limits) {}

  [[nodiscard]] ReadResult read() {
    Value value;
    if (text_.size() > limits_.bytes) {
      fail("the text is longer than " + std::to_string(limits_.bytes) + " bytes");
    } else if (read_value(value, 0)) {
      skip_blanks();
      if (at_ != text_.size()) fail("expected the end of the text");
    }
    if (problem_) return {std::nullopt, located()};
    return {std::move(value), {}};
  }

 private:
  bool fail(std::string text) { return fail_at(at_, std::move(text)); }
  bool fail_at(std::size_t place, std::string text) {
    if (!problem_) {
      problem_.emplace(std::move(text));
      place_ = place;
    }
    return false;
  }

  [[nodiscard]] Problem located() const {
    Problem problem{*problem_, 1, 1};
    for (std::size_t i = 0; i < place_; ++i) {
      if (text_[i] == '\n') {
        ++problem.line;
        problem.column = 1;
      } else if ((static_cast<unsigned char>(text_[i]) & 0xC0u) != 0x80u) {
        ++problem.column;
      }
    }
    return problem;
  }

  [[nodiscard]] char next() const noexcept { return at_ < text_.size() ? text_[at_] : '\0'; }
  [[nodiscard]] bool next_is(char c) const noexcept { return at_ < text_.size() && next() == c; }
  bool take(char c) noexcept {
    if (!next_is(c)) return false;
    ++at_;
    return true;
  }
  void skip_blanks() noexcept {
    while (next_is(' ') || next_is('\t') || next_is('\n') || next_is('\r')) ++at_;
  }

  bool read_value(Value& to, int depth) {
    skip_blanks();
    if (++values_ > limits_.values) {
      return fail("there are more than " + std::to_string(limits_.values) + " values");
    }
    switch (next()) {
      case '{': return read_object(to, depth + 1);
      case '[': return read_array(to, depth + 1);
      case '"': {
        std::string text;
        if (!read_string(text)) return false;
        to = Value(std::move(text));
        return true;
      }
      case 't': return read_word("true", Value(true), to);
      case 'f': return read_word("false", Value(false), to);
      case 'n': return read_word("null", Value(), to);
      default: return read_number(to);
    }
  }

  bool read_word(std::string_view word, Value value, Value& to) {
    if (text_.substr(at_, word.size()) != word) return fail("expected a value");
    at_ += word.size();
    to = std::move(value);
    return true;
  }

  bool read_digits() noexcept {
    const std::size_t start = at_;
    while (next() >= '0' && next() <= '9') ++at_;
    return at_ != start;
  }

  bool read_number(Value& to) {
    const std::size_t start = at_;
    take('-');
    if (!take('0') && !read_digits()) return fail_at(start, "expected a value");
    if (take('.') && !read_digits()) return fail("expected a digit after the decimal point");
    if (take('e') || take('E')) {
      if (!take('+')) take('-');
      if (!read_digits()) return fail("expected a digit in the exponent");
    }
    const std::size_t longest = 60;
    if (at_ - start > longest) return fail_at(start, "a number has more than 60 characters");
    double value = 0.0;
    const auto read = std::from_chars(text_.data() + start, text_.data() + at_, value);
    if (read.ec != std::errc{} || read.ptr != text_.data() + at_) {
      return fail_at(start, "a number is beyond the range of double precision");
    }
    to = Value(value);
    return true;
  }

  /// Four hexadecimal digits.
  bool read_code(std::uint32_t& code) {
    const std::string_view digits = text_.substr(at_, 4);
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), code, 16);
    if (digits.size() != 4 || read.ptr != digits.data() + 4) {
      return fail("expected four hexadecimal digits after \\u");
    }
    at_ += 4;
    return true;
  }

  bool read_escape(std::string& to) {
    const std::size_t start = at_ - 1;
    const char letter = next();
    ++at_;
    switch (letter) {
      case '"':
      case '\\':
      case '/': to += letter; return true;
      case 'b': to += '\b'; return true;
      case 'f': to += '\f'; return true;
      case 'n': to += '\n'; return true;
      case 'r': to += '\r'; return true;
      case 't': to += '\t'; return true;
      case 'u': break;
      default: return fail_at(start, "an escape in a string is none of JSON's");
    }
    std::uint32_t code = 0;
    if (!read_code(code)) return false;
    if (code >= 0xD800 && code <= 0xDFFF) {
      std::uint32_t low = 0;
      const bool has_second = code <= 0xDBFF && take('\\') && take('u');
      if (has_second && !read_code(low)) return false;
      if (low < 0xDC00 || low > 0xDFFF) {
        return fail_at(start, "half of a surrogate pair stands alone");
      }
      code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
    }
    append_character(to, code);
    return true;
  }

  bool read_string(std::string& to) {
    const std::size_t start = at_++;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (take('"')) return true;
      if (take('\\')) {
        if (!read_escape(to)) return false;
      } else if (static_cast<unsigned char>(c) < 0x20) {
        return fail("a control character in a string must be written as an escape");
      } else {
        const std::size_t length = barwright::detail::first_character(text_.substr(at_, 4)).bytes;
        if (length == 0) return fail("the text is not UTF-8");
        to.append(text_, at_, length);
        at_ += length;
      }
    }
    return fail_at(start, "a string has no end");
  }

  bool read_array(Value& to, int depth) {
    if (depth > limits_.depth) return fail_too_deep();
    ++at_;
    Value::Array items;
    skip_blanks();
    if (!take(']')) {
      do {
        if (!read_value(items.emplace_back(), depth)) return false;
        skip_blanks();
      } while (take(','));
      if (!take(']')) return fail("expected a comma or ] after a value of an array");
    }
    to = Value(std::move(items));
    return true;
  }

  bool read_object(Value& to, int depth) {
    if (depth > limits_.depth) return fail_too_deep();
    ++at_;
    Value::Object members;
    std::vector<std::size_t> places;
    skip_blanks();
    if (!take('}')) {
      do {
        skip_blanks();
        if (!next_is('"')) return fail("expected a name in quotes");
        places.push_back(at_);
        Member& member = members.emplace_back();
        if (!read_string(member.name)) return false;
        skip_blanks();
        if (!take(':')) return fail("expected a colon after a name");
        if (!read_value(member.value, depth)) return false;
        skip_blanks();
      } while (take(','));
      if (!take('}')) return fail("expected a comma or } after a value of an object");
    }
    if (!names_differ(members, places)) return false;
    to = Value(std::move(members));
    return true;
  }

  bool names_differ(const Value::Object& members, const std::vector<std::size_t>& places) {
    std::vector<std::size_t> order(members.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return std::pair(std::string_view(members[a].name), a) <
             std::pair(std::string_view(members[b].name), b);
    });
    for (std::size_t i = 1; i < order.size(); ++i) {
      if (members[order[i - 1]].name == members[order[i]].name) {
        return fail_at(places[order[i]], "a name stands twice in one object");
      }
    }
    return true;
  }

  bool fail_too_deep() {
    return fail("arrays and objects are inside one another more than " +
                std::to_string(limits_.depth) + " deep");
  }

  std::string_view text_;
  Limits limits_;
  std::size_t at_ = 0;
  std::size_t values_ = 0;
  std::optional<std::string> problem_;
  std::size_t place_ = 0;
};

}  // namespace detail

inline ReadResult read(std::string_view text, const Limits& limits) {
  return detail::Reader(text, limits).read();
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
