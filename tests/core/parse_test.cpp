// tests/core/parse_test.cpp - a text is a number or a unit as a whole, or nothing is read
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <barwright/core/parse.hpp>
#include <string>

using namespace barwright;

TEST_CASE("a number has a decimal point, and nothing before or after it") {
  static_assert(parse_number("102.5") == 102.5);
  CHECK(parse_number("-1") == -1.0);
  CHECK(parse_number(".5") == 0.5);
  CHECK(parse_number("5.") == 5.0);
  CHECK(parse_number("0.1") == 0.1);
  for (const char* text : {"", "-", ".", "5 ", " 5", "5kg", "1e2", "0x10", "inf", "nan", "+5",
                           "1.2.3", "62,5", "--1"}) {
    CAPTURE(text);
    CHECK(!parse_number(text));
  }
  CHECK(!parse_number(std::string(201, '1')));
  CHECK(parse_number(std::string(200, '9')) > 1e199);
}

TEST_CASE("a whole number may be written with a point, but has no fraction") {
  static_assert(parse_whole_number("8") == 8);
  CHECK(parse_whole_number("8.0") == 8);
  CHECK(parse_whole_number("-3") == -3);
  CHECK(parse_whole_number("1000000000") == 1'000'000'000);
  for (const char* text : {"8.5", "1000000001", "8-10", ""}) {
    CAPTURE(text);
    CHECK(!parse_whole_number(text));
  }
}

TEST_CASE("a unit is kg or lb, one or many, in any case") {
  for (const char* text : {"kg", "KG", "Kgs"}) CHECK(parse_unit(text) == Unit::kg);
  for (const char* text : {"lb", "LBS", "lbs"}) CHECK(parse_unit(text) == Unit::lb);
  for (const char* text : {"", "k", "kgss", "lbx", "pounds", "#"}) CHECK(!parse_unit(text));
}
