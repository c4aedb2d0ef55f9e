// tests/literal_test.cpp - a number written in a program is the number the compiler would read
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/detail/literal.hpp"

#include <doctest/doctest.h>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"

using namespace barwright::literals;
using barwright::Mass;
using barwright::detail::decimal;
using barwright::detail::whole;

static_assert(decimal<'1', '0', '2', '.', '5'>() == 102.5);
static_assert(decimal<'0', '.', '4', '5', '3', '5', '9', '2', '3', '7'>() == 0.45359237);
static_assert(decimal<'1', '\'', '0', '0', '0'>() == 1000.0);
static_assert(whole<'1', '2'>() == 12);

// Every digit and place gives the double the compiler itself makes of the same text.
static_assert((0.1_kg).kg() == 0.1 && (1.25_kg).kg() == 1.25 && (142.3_kg).kg() == 142.3);
static_assert((123456.789012345_kg).kg() == 123456.789012345);
static_assert((5.0_rir).count() == 5.0 && (0.5_rir).count() == 0.5 && (9.5_rpe).rating() == 9.5);

namespace {

template <class Number>
double in_a_template(Number extra) {
  return (20_kg).kg() + (5_reps).count() + extra;
}

}  // namespace

TEST_CASE("a load can be written inside a template and inside a generic lambda") {
  CHECK(in_a_template(0.5) == 25.5);
  const auto in_a_lambda = [](auto extra) { return (2.5_kg).kg() + extra; };
  CHECK(in_a_lambda(1.0) == 3.5);
  for (const Mass load : {20_kg, 20.0_kg}) CHECK(load == Mass::from_kg(20.0));
}
