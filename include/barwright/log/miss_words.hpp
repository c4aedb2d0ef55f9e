// barwright/log/miss_words.hpp - whether a note beside a set says that its last rep was missed
//
// "couldn't finish", "spotter took two", "bailed": such a set was no full one, and a load that
// rests on it would be too heavy. A note is clear where its words say so of this very set; where
// they may mean another one ("failed 115 after"), or may mean something else ("dropped it"),
// somebody is asked. A "not" or "almost" just before takes the words back. What is said in other
// words is not found: write missed as the outcome. Common practice, no source.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "barwright/core/text.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What a note says of the last rep.
enum class MissInNote : unsigned char {
  none,
  may_be,  ///< to be asked about
  clear,   ///< it was missed, or done by the spotter
};

/// The same, and how many reps of the set did not go up, where the note says so.
struct NotedMiss {
  MissInNote kind = MissInNote::none;  ///< what it says
  int reps = 1;                        ///< not made, or made with help
};

namespace detail {

/// Reps tried, of a set whose last few did not go up: up to the first of them. All of them where
/// more are said to be missed than there were.
[[nodiscard]] constexpr int reps_up_to_miss(int reps, int missed) noexcept {
  return missed > reps ? reps : reps - missed + 1;
}

/// Whether a sentence may end at a place: a stop in a figure ends none.
[[nodiscard]] inline bool ends_sentence(std::string_view note, std::size_t at) {
  constexpr std::string_view stops = ".!;:\n";
  constexpr std::string_view figures = "0123456789";
  if (stops.find(note[at]) == stops.npos) return false;
  return at + 1 == note.size() || figures.find(note[at + 1]) == figures.npos;
}

/// The words of a note, in lower case with one blank before and behind each; apostrophes are
/// dropped, "couldn't" is one word, and a stop between two sentences stands as one: what is denied
/// in one is not denied in the other.
[[nodiscard]] inline std::string words_of(std::string_view note) {
  constexpr std::size_t most = 2000;
  constexpr std::string_view curly = "\xE2\x80\x99";
  std::string words(1, ' ');
  bool is_next_sentence = false;
  for (std::size_t i = 0; i < std::min(note.size(), most); ++i) {
    if (note[i] == '\'') continue;
    if (note.substr(i, curly.size()) == curly) {
      i += curly.size() - 1;
      continue;
    }
    const bool is_of_word =
        is_letter(note[i]) || (note[i] >= '0' && note[i] <= '9') || (note[i] & 0x80) != 0;
    if (is_of_word && is_next_sentence && words.size() > 1) words += ". ";
    is_next_sentence = !is_of_word && (is_next_sentence || ends_sentence(note, i));
    if (note[i] == '?') {
      words += words.back() == ' ' ? "? " : " ? ";
    } else if (is_of_word) {
      words += lower_case(note[i]);
    } else if (words.back() != ' ') {
      words += ' ';
    }
  }
  if (words.back() != ' ') words += ' ';
  return words;
}

/// The word that ends before a place; becomes the place before it.
[[nodiscard]] inline std::string_view take_word_before(std::string_view words, std::size_t& at) {
  const std::size_t begin = at == 0 ? at : words.rfind(' ', at - 1);
  if (at == 0 || begin == words.npos) return {};
  const std::string_view word = words.substr(begin + 1, at - begin - 1);
  at = begin;
  return word;
}

/// Whether the word before a place, or the one before a little word, takes back what stands there.
[[nodiscard]] inline bool is_taken_back(std::string_view words, std::size_t at) {
  using W = std::string_view;
  constexpr std::array denials{W("not"),    W("no"),     W("never"),  W("without"),
                               W("almost"), W("nearly"), W("didnt"),  W("wasnt"),
                               W("dont"),   W("wont"),   W("hardly"), W("thought")};
  constexpr std::array little{W("a"), W("the"), W("any"), W("get"), W("got"), W("even"), W("i")};
  W word = take_word_before(words, at);
  if (std::find(little.begin(), little.end(), word) != little.end()) {
    word = take_word_before(words, at);
  }
  return std::find(denials.begin(), denials.end(), word) != denials.end();
}

/// Whether one of some phrases stands whole in a note, and is not taken back.
template <class Phrases>
[[nodiscard]] bool says_any(std::string_view words, const Phrases& phrases) {
  return std::any_of(phrases.begin(), phrases.end(), [&](std::string_view phrase) {
    const std::string whole = " " + std::string(phrase) + ' ';
    std::size_t at = words.find(whole);
    while (at != words.npos && is_taken_back(words, at)) at = words.find(whole, at + 1);
    return at != words.npos;
  });
}

}  // namespace detail

/// What a note says of the last rep of its set.
[[nodiscard]] inline NotedMiss miss_in_note(std::string_view note) {
  using W = std::string_view;
  constexpr std::array clear{
      W("couldnt finish"), W("could not finish"), W("didnt finish"), W("did not finish"),
      W("unable to finish"), W("couldnt complete"), W("could not complete"), W("didnt complete"),
      W("couldnt lock out"), W("could not lock out"), W("couldnt get the last"),
      W("couldnt get it up"), W("couldnt stand up"), W("spotter took"), W("spotters took"),
      W("spotter had to take"), W("spotter had to help"), W("spotter helped"), W("spotters helped"),
      W("spotter assisted"), W("spotter saved"), W("spotter grabbed"), W("spotter pulled"),
      W("needed the spotter"), W("needed my spotter"), W("needed spotter"), W("needed help"),
      W("bailed"), W("had to bail"), W("got stuck"), W("got pinned"), W("was pinned"),
      W("stuck in the hole"), W("stuck at the bottom"), W("stuck on the chest"),
      W("stuck on my chest"), W("stuck halfway"), W("failed rep"), W("missed rep"),
      W("failed last rep"), W("failed the last rep"), W("failed on the last rep"),
      W("failed last one"), W("failed the last one"), W("failed last two"),
      W("failed the last two"), W("failed last 2"), W("missed last rep"), W("missed the last rep"),
      W("missed last one"), W("missed the last one"), W("missed last two"),
      W("missed the last two"), W("missed last 2"), W("last rep failed"), W("last rep missed"),
      W("last one failed"), W("last one missed"), W("failed at lockout"), W("missed at lockout"),
      W("missed lockout"), W("missed the lockout"), W("failed halfway"),
      // and with nothing behind them
      W("failed last end"), W("failed the last end"), W("missed last end"),
      W("missed the last end")};
  // Another set, day or lift may be meant, or it went up in the end; and how a spotter helps to
  // begin a set.
  constexpr std::array unsure{
      W("?"),         W("set"),     W("sets"),      W("next"),      W("previous"), W("before"),
      W("earlier"),   W("then"),    W("but"),       W("after"),     W("if"),       W("would"),
      W("week"),      W("today"),   W("yesterday"), W("time"),      W("warm"),     W("warmup"),
      W("warmups"),   W("attempt"), W("attempts"),  W("first"),     W("second"),   W("except"),
      W("until"),     W("anyway"),  W("ground"),    W("recovered"), W("finally"),  W("unrack"),
      W("unracking"), W("off"),     W("liftoff"),   W("handoff"),   W("hand"),     W("setup"),
      W("rack"),      W("rerack"),  W("reracking"), W("video"),     W("photo"),    W("pictures"),
      W("notes")};
  constexpr std::array may_be{W("failed"),         W("fail"),
                              W("missed"),         W("miss"),
                              W("dropped it"),     W("dropped the bar"),
                              W("dropped bar"),    W("dumped it"),
                              W("dumped the bar"), W("dumped"),
                              W("stuck"),          W("pinned"),
                              W("bail"),           W("spotter touched"),
                              W("with spotter"),   W("help from spotter"),
                              W("with help"),      W("assisted"),
                              W("forced rep"),     W("forced reps"),
                              W("gave up"),        W("stopped short"),
                              W("incomplete"),     W("only got"),
                              W("no lift"),        W("red light"),
                              W("red lights"),     W("lost it"),
                              W("lost balance"),   W("couldnt get"),
                              W("couldnt do"),     W("could not do"),
                              W("didnt make it"),  W("did not make it"),
                              W("didnt go up"),    W("did not go up"),
                              W("wouldnt go up"),  W("wouldnt move")};
  constexpr std::array harmless{W("stuck to"), W("stuck with"), W("missed a session"),
                                W("missed session"), W("missed training")};
  constexpr std::array two{W("took two"), W("took 2"), W("took the last two"), W("took last two"),
                           W("last two"), W("last 2"), W("helped two"),        W("with two")};
  constexpr std::array three{W("took three"), W("took 3"), W("last three"), W("last 3")};
  const std::string words = detail::words_of(note);
  const auto has_any = [&](const auto& phrases) {
    return std::any_of(phrases.begin(), phrases.end(), [&](W phrase) {
      return words.find(" " + std::string(phrase) + ' ') != std::string::npos;
    });
  };
  if (!detail::says_any(words + "end ", clear)) {
    std::string rest = words;
    for (const W phrase : harmless) {
      const std::string whole = " " + std::string(phrase) + ' ';
      for (auto at = rest.find(whole); at != rest.npos; at = rest.find(whole)) {
        rest.replace(at, whole.size(), " ");
      }
    }
    const bool asks = detail::says_any(rest, may_be);
    return {.kind = asks ? MissInNote::may_be : MissInNote::none};
  }
  const int reps = has_any(three) ? 3 : has_any(two) ? 2 : 1;
  // A figure may be another load, but for how many reps were the spotter's.
  constexpr std::string_view figures = "0123456789";
  const auto is_figure = [&](char c) { return figures.find(c) != figures.npos; };
  const auto count = std::count_if(words.begin(), words.end(), is_figure);
  const bool has_other = count > (reps > 1 ? 1 : 0);
  if (has_other || has_any(unsure)) return {.kind = MissInNote::may_be};
  return {.kind = MissInNote::clear, .reps = reps};
}

}  // namespace barwright::inline BARWRIGHT_ABI
