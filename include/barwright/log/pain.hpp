// barwright/log/pain.hpp - whether a note beside a set speaks of pain
//
// Notes are free text, and the one thing in them that must not be overlooked is that something
// hurt, or that the lifter nearly passed out. The words are looked for anywhere in the note, whole
// or as the beginning of a longer word, and a "no" or "not" just before one takes it back. A note
// about sore muscles is no note about pain. What is not in English, or said in other words, is not
// found: ask the lifter. Common practice, no source.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

[[nodiscard]] constexpr char lower_case(char c) noexcept {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
[[nodiscard]] constexpr bool is_letter(char c) noexcept {
  return lower_case(c) >= 'a' && lower_case(c) <= 'z';
}
/// Whether `text` goes on with `word` at `at`, capitals or not.
[[nodiscard]] constexpr bool goes_on_with(std::string_view text, std::size_t at,
                                          std::string_view word) noexcept {
  if (text.size() - at < word.size()) return false;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (lower_case(text[at + i]) != word[i]) return false;
  }
  return true;
}
/// The word that ends before `at`, as it stands in the text.
[[nodiscard]] constexpr std::string_view word_before(std::string_view text,
                                                     std::size_t at) noexcept {
  while (at > 0 && text[at - 1] == ' ') --at;
  std::size_t begin = at;
  while (begin > 0 && is_letter(text[begin - 1])) --begin;
  return text.substr(begin, at - begin);
}

}  // namespace detail

/// Whether a note says that something hurt: "sharp pain in left shoulder - stopped".
[[nodiscard]] constexpr bool mentions_pain(std::string_view note) noexcept {
  constexpr std::array<std::string_view, 28> words{
      "pain",       "hurt",        "ache",         "aching",     "twinge",     "injur",
      "numb",       "tingl",       "strained",     "popped",     "a pop",      "a crack",
      "tore",       "torn",        "tear",         "snapped",    "killing me", "pulled something",
      "pulled a m", "flared",      "discomfort",   "swollen",    "swelling",   "dizzy",
      "fainted",    "blacked out", "light-headed", "lightheaded"};
  constexpr std::array<std::string_view, 4> denials{"no", "not", "without", "zero"};
  for (std::size_t at = 0; at < note.size(); ++at) {
    if (!detail::is_letter(note[at]) || (at > 0 && detail::is_letter(note[at - 1]))) continue;
    for (const std::string_view word : words) {
      if (!detail::goes_on_with(note, at, word)) continue;
      if (detail::goes_on_with(note, at, "number") || detail::goes_on_with(note, at, "painless") ||
          detail::goes_on_with(note, at, "paint") || detail::goes_on_with(note, at, "teardrop"))
        continue;
      const std::string_view before = detail::word_before(note, at);
      bool is_denied = false;
      for (const std::string_view denial : denials) {
        if (before.size() == denial.size() && detail::goes_on_with(before, 0, denial)) {
          is_denied = true;
        }
      }
      if (!is_denied) return true;
    }
  }
  return false;
}

}  // namespace barwright::inline BARWRIGHT_ABI
