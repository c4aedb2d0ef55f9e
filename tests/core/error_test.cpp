// tests/error_test.cpp - a refused value says what, which value and what is allowed
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/error.hpp"

#include <doctest/doctest.h>

#include <exception>
#include <limits>
#include <string>
#include <type_traits>

using barwright::DomainError;
using barwright::detail::fail;
using barwright::detail::is_finite;

static_assert(std::is_base_of_v<std::exception, DomainError>);
static_assert(std::is_nothrow_copy_constructible_v<DomainError>);  // as [exception] asks

TEST_CASE("a refused number is named with what is allowed and what was given") {
  CHECK_THROWS_WITH_AS(fail("repetitions", "a whole number from 1 to 100", 0.0),
                       "repetitions must be a whole number from 1 to 100; got 0", DomainError);
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

TEST_CASE("a message longer than the buffer is cut, not written past its end") {
  const std::string long_name(1000, 'x');
  CHECK_THROWS_AS(fail(long_name, "short", 1.0), DomainError);
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
