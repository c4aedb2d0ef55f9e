// Text from outside as it is shown. Sources: the Unicode Standard 15.0, table 3-7 (well-formed
// UTF-8) and its examples of ill-formed bytes; ECMA-48 for the control characters; Unicode annex 9
// for the marks of direction. From memory, unverified.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/printable.hpp"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "barwright/core/text.hpp"

using namespace barwright;

namespace {
std::string shown(std::string_view text) { return printable<std::string>(text); }
}  // namespace

TEST_CASE("names of people everywhere are shown as they are") {
  for (const std::string_view name :
       {"Tilde Ravn", "Åsa Östlund", "Nguyễn Thị Hoa", "Ωμέγα", "李雷", "שרה",
        "\xF0\x9F\x8F\x8B Eve", "O'Hara \"the\\bar\"", ""}) {
    CHECK(shown(name) == name);
    CHECK(is_printable(name));
  }
}

TEST_CASE("a name cannot repaint the terminal") {
  CHECK(shown("\x1B]0;owned\x07\x1B[2J") == "\\x1B]0;owned\\x07\\x1B[2J");
  CHECK(shown("\x7F") == "\\x7F");
  CHECK(shown(std::string_view("a\0b", 3)) == "a\\x00b");
  CHECK(shown("\xC2\x9B"
              "2J") == "\\u{009B}2J");  // CSI in one character, C1
}

TEST_CASE("a name cannot forge a line") {
  CHECK(shown("Eve\nSTOP  Nothing to see") == "Eve\\nSTOP  Nothing to see");
  CHECK(shown("a\r\n\tb") == "a\\r\\n\\tb");
  CHECK(shown("a\xE2\x80\xA8"
              "b\xE2\x80\xA9") == "a\\u{2028}b\\u{2029}");
  CHECK(shown("\xC2\x85") == "\\u{0085}");  // next line
  CHECK_FALSE(is_printable("a\nb"));
}

TEST_CASE("a name cannot turn the reading direction round") {
  CHECK(shown("\xE2\x80\xAE"
              "gk 003") == "\\u{202E}gk 003");
  CHECK(shown("\xE2\x81\xA6"
              "a\xE2\x81\xA9") == "\\u{2066}a\\u{2069}");
  CHECK_FALSE(is_printable("\xE2\x80\x8F"));
}

TEST_CASE("bytes that are no UTF-8 are shown one by one") {
  CHECK(shown("Andr\xE9") == "Andr\\xE9");                     // Latin-1
  CHECK(shown("\xC0\xAF") == "\\xC0\\xAF");                    // overlong
  CHECK(shown("\xE0\x80\x80") == "\\xE0\\x80\\x80");           // overlong
  CHECK(shown("\xED\xA0\x80") == "\\xED\\xA0\\x80");           // a surrogate
  CHECK(shown("\xF4\x90\x80\x80") == "\\xF4\\x90\\x80\\x80");  // above U+10FFFF
  CHECK(shown("\xE2\x82") == "\\xE2\\x82");                    // cut short
  CHECK(shown("\xEF\xBF\xBF") == "\\u{FFFF}");                 // no character
  CHECK(shown("\xF3\xA0\x81\x81") == "\\u{E0041}");            // an invisible tag
}

TEST_CASE("text without allocation is made safe as well, in a constant expression too") {
  CHECK(printable<Text>("a\nb") == "a\\nb");
  static_assert(printable<Text>("Eve\x1B[2J") == "Eve\\x1B[2J");
}

TEST_CASE("a name may be in any encoding, but holds no control characters and no line breaks") {
  for (const std::string_view name : {"Ana Lund", "Andr\xE9",
                                      "\xE2\x80\x8E"
                                      "Eve"}) {
    CHECK_FALSE(has_control(name));
  }
  for (const std::string_view text : {"a\nb", "a\x1B[2J", "\xC2\x9B", "a\xE2\x80\xA8", "\x7F"}) {
    CHECK(has_control(text));
  }
}
