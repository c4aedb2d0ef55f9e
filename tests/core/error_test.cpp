// tests/error_test.cpp - a refused value says what, which value and what is allowed
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/error.hpp"

#include <doctest/doctest.h>

#include <exception>
#include <limits>
#include <set>
#include <string>
#include <string_view>
#include <type_traits>

using barwright::DomainError;
using barwright::ErrorCode;
using barwright::Text;
using barwright::detail::fail;
using barwright::detail::is_finite;

static_assert(std::is_base_of_v<std::exception, DomainError>);
static_assert(std::is_nothrow_copy_constructible_v<DomainError>);  // as [exception] asks

TEST_CASE("a refused number is named with what is allowed and what was given") {
  CHECK_THROWS_WITH_AS(fail("reps", "a whole number from 1 to 100", 0.0),
                       "reps must be a whole number from 1 to 100; got 0", DomainError);
  CHECK_THROWS_WITH_AS(fail("load", "more than 0 kg", -2.5),
                       "load must be more than 0 kg; got -2.5", DomainError);
}

TEST_CASE("a refused word is quoted as it was typed") {
  CHECK_THROWS_WITH_AS(fail("unit", "kg or lb", std::string_view("stone")),
                       "unit must be kg or lb; got stone", DomainError);
}

TEST_CASE("an error caught as std::exception keeps its text after the thrower is gone") {
  std::string text;
  try {
    fail("load", "finite", std::numeric_limits<double>::infinity());
  } catch (const std::exception& error) {
    text = error.what();
  }
  CHECK(text == "load must be finite; got inf");
}

TEST_CASE("a program asks for the code and the parts; the message is for people") {
  try {
    fail(ErrorCode::below_empty_bar, "a load of the ramp", "at least that of the empty bar",
         Text{}.append(15).append(" kg"));
  } catch (const DomainError& error) {
    CHECK(error.code() == ErrorCode::below_empty_bar);
    CHECK(error.subject() == "a load of the ramp");
    CHECK(error.allowed() == "at least that of the empty bar");
    CHECK(error.value() == "15 kg");
    CHECK(std::string(error.what()) ==
          "a load of the ramp must be at least that of the empty bar; got 15 kg");
  }
  const DomainError number = [] {
    try {
      fail("reps", "a whole number from 1 to 100", 0.0);
    } catch (const DomainError& error) {
      return error;
    }
  }();
  CHECK(number.code() == ErrorCode::out_of_range);
  CHECK(number.value() == "0");
  const DomainError sentence(ErrorCode::no_answer, "more sets are needed");
  CHECK(std::string(sentence.what()) == "more sets are needed");
  CHECK(sentence.subject() == "more sets are needed");
  CHECK(sentence.allowed().empty());
  CHECK(sentence.value().empty());
}

TEST_CASE("every code has a name of its own") {
  std::set<std::string_view> names;
  for (int code = 0; code <= static_cast<int>(ErrorCode::no_answer); ++code) {
    names.insert(to_text(static_cast<ErrorCode>(code)));
  }
  CHECK(names.size() == 9);
  CHECK(names.count("") == 0);
}

TEST_CASE("a message is never cut: the middle of what somebody typed at length is left out") {
  // All three parts as long as they may be: everything is there.
  const DomainError longest(ErrorCode::unreadable, std::string(400, 's'), std::string(400, 'a'),
                            std::string(400, 'v'));
  CHECK(longest.what() == std::string(400, 's') + " must be " + std::string(400, 'a') + "; got " +
                              std::string(400, 'v'));
  const DomainError typed(ErrorCode::unreadable, "plates", "masses and their unit",
                          "20 kg" + std::string(100'000, 'x') + " and 7 stone");
  const std::string message = typed.what();
  CHECK(message.rfind("plates must be masses and their unit; got 20 kgxxx", 0) == 0);
  CHECK(message.substr(message.size() - 15) == "xxx and 7 stone");
  CHECK(message.find("xxx [...] xxx") != std::string::npos);
  CHECK(typed.value().size() <= 400);
  // Whole characters of UTF-8 only, at both sides of what is left out.
  std::string umlauts = "a";
  for (int i = 0; i < 1000; ++i) umlauts += "\xC3\xBC";
  umlauts += "b";
  const DomainError german(ErrorCode::unknown_name, "a lift", "known", umlauts);
  CHECK(german.value().substr(0, 3) == "a\xC3\xBC");
  CHECK(german.value().find("\xC3\xBC [...] \xC3\xBC") != std::string::npos);
}

TEST_CASE("NaN and the infinities are not finite; the largest and the smallest double are") {
  using limits = std::numeric_limits<double>;
  static_assert(is_finite(0.0) && is_finite(-1e300) && is_finite(5e-324));
  CHECK(is_finite(limits::max()));
  CHECK(is_finite(limits::lowest()));
  CHECK_FALSE(is_finite(limits::infinity()));
  CHECK_FALSE(is_finite(-limits::infinity()));
  CHECK_FALSE(is_finite(limits::quiet_NaN()));
}

TEST_CASE("a message shows what was typed, in one line and without what a terminal would obey") {
  try {
    fail("a lift", "one of the catalogue", "\x1B[2J\nSTOP");
    FAIL("not refused");
  } catch (const DomainError& error) {
    CHECK(std::string_view(error.what()) ==
          R"(a lift must be one of the catalogue; got \x1B[2J\nSTOP)");
    CHECK(error.value() == R"(\x1B[2J\nSTOP)");
  }
}
