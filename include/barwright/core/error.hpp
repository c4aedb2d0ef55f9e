// barwright/core/error.hpp - what happens when a value is not allowed
//
// Value types check once, when they are made, and name what, which value and what is allowed. All
// of the library's errors are raised here. In a constant expression the same check is a compile
// error. Without exceptions (-fno-exceptions) the same text is printed to stderr and the program
// aborts; build every translation unit of one program the same way.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <exception>
#include <string_view>

#include "barwright/core/text.hpp"

/// 1 where errors are thrown, 0 where they print and abort; follows the compiler unless set first.
#ifndef BARWRIGHT_EXCEPTIONS
#ifdef __cpp_exceptions
#define BARWRIGHT_EXCEPTIONS 1
#else
#define BARWRIGHT_EXCEPTIONS 0
#endif
#endif

#if !BARWRIGHT_EXCEPTIONS
#include <cstdio>
#include <cstdlib>
#endif

namespace barwright::inline v0 {

/// A value outside what is allowed: "repetitions must be a whole number from 1 to 100; got 0".
///
/// Holds its text inside itself, so that making and copying one never allocates.
class DomainError : public std::exception {
 public:
  explicit DomainError(const Text& text) noexcept : text_(text) {}
  [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

 private:
  Text text_;
};

namespace detail {

/// The one place that throws, or prints and aborts.
[[noreturn]] inline void fail(const Text& text) {
#if BARWRIGHT_EXCEPTIONS
  throw DomainError(text);
#else
  std::fprintf(stderr, "barwright: %s\n", text.c_str());
  std::abort();
#endif
}

/// Raises "<what> must be <allowed>; got <value>".
[[noreturn]] inline void fail(std::string_view what, std::string_view allowed, double value) {
  fail(Text{}.append(what).append(" must be ").append(allowed).append("; got ").append(value));
}

/// Raises "<what> must be <allowed>; got <value>", for a value that is text.
[[noreturn]] inline void fail(std::string_view what, std::string_view allowed,
                              std::string_view value) {
  fail(Text{}.append(what).append(" must be ").append(allowed).append("; got ").append(value));
}

/// True for every number but NaN and the infinities; usable in constant expressions.
[[nodiscard]] constexpr bool is_finite(double x) noexcept { return x - x == 0.0; }

}  // namespace detail
}  // namespace barwright::inline v0
