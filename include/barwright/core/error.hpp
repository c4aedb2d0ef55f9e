// barwright/core/error.hpp - what happens when a value is not allowed
//
// Value types check once, when they are made, and name what, which value and what is allowed. All
// of the library's errors are raised here. A program that wants to act on one asks for its code and
// its parts; the message is for people. In a constant expression the same check is a compile error.
// Without exceptions (-fno-exceptions) the message is printed to stderr and the program aborts.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <exception>
#include <string_view>

#include "barwright/core/printable.hpp"
#include "barwright/core/text.hpp"
#include "barwright/version.hpp"

#if !BARWRIGHT_EXCEPTIONS
#include <cstdio>
#include <cstdlib>
#endif

namespace barwright::inline BARWRIGHT_ABI {

/// What was wrong: for programs, which can act on it. New ones are added at the end.
enum class ErrorCode : unsigned char {
  out_of_range,       ///< a value that is none of those allowed
  contradiction,      ///< values that do not go together: a range out of order
  too_many,           ///< more than there is room for
  unreadable,         ///< text that has not the form it must have
  unknown_name,       ///< a name that nothing has
  does_not_apply,     ///< a modifier of another lift, a lift of another model
  below_empty_bar,    ///< a load lighter than the bar without plates
  beyond_the_plates,  ///< a load that the plates of the room do not make
  no_answer,          ///< the data do not say; the message says what would be needed
};

/// The name of a code, as it is spelt in C++: "below_empty_bar".
[[nodiscard]] constexpr std::string_view to_text(ErrorCode code) noexcept {
  switch (code) {
    case ErrorCode::out_of_range: return "out_of_range";
    case ErrorCode::contradiction: return "contradiction";
    case ErrorCode::too_many: return "too_many";
    case ErrorCode::unreadable: return "unreadable";
    case ErrorCode::unknown_name: return "unknown_name";
    case ErrorCode::does_not_apply: return "does_not_apply";
    case ErrorCode::below_empty_bar: return "below_empty_bar";
    case ErrorCode::beyond_the_plates: return "beyond_the_plates";
    case ErrorCode::no_answer: return "no_answer";
  }
  return "";
}

/// A value that is not allowed: "reps must be a whole number from 1 to 100; got 0".
///
/// Holds its message inside itself, so that making and copying one never allocates. The message is
/// never cut: of a part longer than 400 bytes (a value may be whatever somebody typed) the middle
/// is left out, and " [...] " stands for it.
class DomainError : public std::exception {
 public:
  /// "<subject> must be <allowed>; got <value>"
  DomainError(ErrorCode code, std::string_view subject, std::string_view allowed,
              std::string_view value) noexcept
      : code_(code), subject_(append(subject)) {
    message_.append(" must be ");
    allowed_ = append(allowed);
    message_.append("; got ");
    value_ = append(value);
  }
  /// One sentence, where there is no value to name.
  DomainError(ErrorCode code, std::string_view sentence) noexcept
      : code_(code), subject_(append(sentence)) {}

  [[nodiscard]] const char* what() const noexcept override { return message_.c_str(); }
  [[nodiscard]] ErrorCode code() const noexcept { return code_; }
  /// What was to be made: "reps"; or the whole sentence.
  [[nodiscard]] std::string_view subject() const& noexcept { return part(subject_); }
  /// "a whole number from 1 to 100"; or nothing.
  [[nodiscard]] std::string_view allowed() const& noexcept { return part(allowed_); }
  /// As it is printed: "0"; or nothing.
  [[nodiscard]] std::string_view value() const& noexcept { return part(value_); }
  void subject() const&& = delete;  // the views would outlive the error
  void allowed() const&& = delete;
  void value() const&& = delete;

 private:
  static constexpr std::size_t longest_part = 400;
  struct Part {
    std::size_t begin = 0;
    std::size_t end = 0;
  };

  /// What was typed may hold anything: it is shown, never obeyed.
  Part append(std::string_view text) noexcept {
    const std::size_t begin = message_.view().size();
    if (text.size() <= longest_part) {
      append_printable(message_, text);
    } else {
      constexpr std::string_view gap = " [...] ";
      constexpr std::size_t half = (longest_part - gap.size()) / 2;
      append_printable(message_, detail::first_bytes(text, half));
      message_.append(gap);
      append_printable(message_, detail::last_bytes(text, half));
    }
    return {begin, message_.view().size()};
  }
  [[nodiscard]] std::string_view part(Part part) const noexcept {
    return message_.view().substr(part.begin, part.end - part.begin);
  }

  BasicText<3 * longest_part + 16> message_{};
  ErrorCode code_;
  Part subject_;
  Part allowed_{};
  Part value_{};
};

namespace detail {

/// Words given to a function, whichever way they are kept; a temporary lasts as long as the call.
struct Words {
  constexpr Words(std::string_view text) noexcept : view(text) {}
  constexpr Words(const char* text) noexcept : view(text) {}
  template <std::size_t Capacity>
  constexpr Words(const BasicText<Capacity>& text) noexcept : view(text.view()) {}
  std::string_view view;
};

/// The one place that throws, or prints and aborts.
[[noreturn]] inline void raise(const DomainError& error) {
#if BARWRIGHT_EXCEPTIONS
  throw error;
#else
  std::fprintf(stderr, "barwright: %s\n", error.what());
  std::abort();
#endif
}

/// Raises "<what> must be <allowed>; got <value>".
[[noreturn]] inline void fail(ErrorCode code, Words what, Words allowed, Words value) {
  raise(DomainError(code, what.view, allowed.view, value.view));
}
[[noreturn]] inline void fail(ErrorCode code, Words what, Words allowed, double value) {
  BasicText<32> number;
  number.append(value);
  fail(code, what, allowed, number);
}
/// The same for a value that is none of those allowed.
[[noreturn]] inline void fail(Words what, Words allowed, double value) {
  fail(ErrorCode::out_of_range, what, allowed, value);
}
[[noreturn]] inline void fail(Words what, Words allowed, Words value) {
  fail(ErrorCode::out_of_range, what, allowed, value);
}

/// True for every number but NaN and the infinities; usable in constant expressions.
[[nodiscard]] constexpr bool is_finite(double x) noexcept { return x - x == 0.0; }

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI
