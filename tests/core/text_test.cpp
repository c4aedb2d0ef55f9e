// tests/text_test.cpp - numbers as people write them, in a buffer that never grows
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/text.hpp"

#include <doctest/doctest.h>

#include <limits>
#include <sstream>
#include <string>
#include <type_traits>

using barwright::BasicText;
using barwright::Text;

// Copied and thrown without a thought: nothing inside it owns anything.
static_assert(std::is_trivially_copyable_v<Text>);
static_assert(Text{}.append("20 kg bar") == "20 kg bar");  // usable in constant expressions

TEST_CASE("a load prints in the fewest digits that say it") {
  CHECK(Text{}.append(102.5) == "102.5");
  CHECK(Text{}.append(100.0) == "100");
  CHECK(Text{}.append(0.1) == "0.1");
  CHECK(Text{}.append(-2.5) == "-2.5");
  CHECK(Text{}.append(12) == "12");
  CHECK(Text{}.append(std::numeric_limits<int>::min()) == "-2147483648");
}

TEST_CASE("what is not a number prints as such, so that an error message can show it") {
  CHECK(Text{}.append(std::numeric_limits<double>::infinity()) == "inf");
  CHECK(Text{}.append(-std::numeric_limits<double>::infinity()) == "-inf");
  CHECK(Text{}.append(std::numeric_limits<double>::quiet_NaN()).str().find("nan") !=
        std::string_view::npos);
}

TEST_CASE("rounding drops trailing zeros and the sign of zero") {
  CHECK(Text{}.append_rounded(102.5, 2) == "102.5");
  CHECK(Text{}.append_rounded(2.0 / 3.0, 2) == "0.67");
  CHECK(Text{}.append_rounded(100.0, 2) == "100");
  CHECK(Text{}.append_rounded(100.4, 0) == "100");
  CHECK(Text{}.append_rounded(-0.001, 2) == "0");
  CHECK(Text{}.append_rounded(-0.01, 2) == "-0.01");
}

TEST_CASE("a number too large to print in full falls back to its short form") {
  CHECK(Text{}.append_rounded(1e300, 2) == "1e+300");
}

TEST_CASE("a chain of calls on a temporary is a text of its own") {
  const auto text = Text{}.append("20 kg").append(" x ").append(5);
  static_assert(std::is_same_v<decltype(text), const Text>);
  CHECK(text == "20 kg x 5");
  CHECK(Text{}.append_right(Text{}.append(5), 4) == "   5");
  CHECK(Text{}.append_left("kg", 4).append("|") == "kg  |");
  CHECK(Text{}.append(text) == text);
  static_assert(!std::is_convertible_v<Text, std::string_view>);
  static_assert(std::is_convertible_v<const Text&, std::string_view>);
}

TEST_CASE("text that does not fit is cut, and the buffer still ends in a zero") {
  BasicText<32> text;
  text.append("0123456789").append("0123456789").append("0123456789").append("0123456789");
  CHECK(text == "01234567890123456789012345678901");
  CHECK(std::string(text.c_str()).size() == 32);
  text.append("more").append(1.5).append(7);
  CHECK(text.view().size() == 32);
}

TEST_CASE("UTF-8 is cut between two characters, and nothing follows a cut") {
  // U+00E9 has 2 bytes, U+20AC 3 and U+1F600 4 (The Unicode Standard, table 3-6; from memory).
  for (const std::string character : {"e", "\u00e9", "\u20ac", "\U0001f600"}) {
    for (std::size_t before = 29; before <= 32; ++before) {
      BasicText<32> text;
      const std::string start(before, 'a');
      const bool fits = before + character.size() <= 32;
      text.append(start).append(character);
      CHECK(text == start + (fits ? character : ""));
      if (!fits) CHECK(text.append("b") == start);
    }
  }
  CHECK(BasicText<32>{}.append(std::string(40, '\x80')).str().empty());
}

TEST_CASE("a text streams as its characters, whatever width was left on the stream") {
  std::ostringstream out;
  out << Text{}.append("60 lb").append(" a side");
  CHECK(out.str() == "60 lb a side");
}
