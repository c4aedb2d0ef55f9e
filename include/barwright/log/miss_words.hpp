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

#include "barwright/core/effort.hpp"
#include "barwright/core/text.hpp"
#include "barwright/log/logged_set.hpp"
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
    for (auto at = words.find(phrase); at != words.npos; at = words.find(phrase, at + 1)) {
      const std::size_t end = at + phrase.size();
      const bool is_whole =
          at > 0 && words[at - 1] == ' ' && end < words.size() && words[end] == ' ';
      if (is_whole && !is_taken_back(words, at - 1)) return true;
    }
    return false;
  });
}

/// The first word of what is left of some words; it is taken off.
[[nodiscard]] inline std::string_view next_word(std::string_view& words) {
  words.remove_prefix(std::min(words.find_first_not_of(' '), words.size()));
  const std::string_view word = words.substr(0, words.find(' '));
  words.remove_prefix(word.size());
  return word;
}

/// Without what was missed that is no rep: "missed the bus", "missed yesterday's session".
[[nodiscard]] inline std::string without_other_misses(std::string words) {
  using W = std::string_view;
  constexpr std::array misses{W(" missed "), W(" miss ")};
  constexpr std::array little{W("the"),  W("my"),   W("a"),    W("an"),   W("one"),
                              W("two"),  W("2"),    W("some"), W("few"),  W("last"),
                              W("this"), W("that"), W("out"),  W("on"),   W("yesterdays"),
                              W("of"),   W("our"),  W("most"), W("whole")};
  constexpr std::array others{
      W("session"),  W("sessions"),    W("training"),  W("trainings"), W("workout"),
      W("workouts"), W("practice"),    W("class"),     W("gym"),       W("week"),
      W("weeks"),    W("day"),         W("days"),      W("month"),     W("yesterday"),
      W("monday"),   W("tuesday"),     W("wednesday"), W("thursday"),  W("friday"),
      W("saturday"), W("sunday"),      W("bus"),       W("train"),     W("flight"),
      W("alarm"),    W("appointment"), W("call"),      W("breakfast"), W("lunch"),
      W("dinner"),   W("meal"),        W("meals"),     W("sleep"),     W("warmup"),
      W("warm"),     W("cardio"),      W("squatting"), W("benching"),  W("deadlifting"),
      W("lifting")};
  const auto is_among = [](W word, const auto& list) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  for (const W missed : misses) {
    for (auto at = words.find(missed); at != words.npos; at = words.find(missed, at)) {
      W rest = W(words).substr(at + missed.size());
      W word = next_word(rest);
      while (is_among(word, little)) word = next_word(rest);
      if (is_among(word, others)) {
        words.erase(at + 1, words.size() - rest.size() - at);
      } else {
        ++at;
      }
    }
  }
  return words;
}

/// "got 5 of 6", "only 5 out of 6 reps": how many reps are short. "Week 5 of 6" and "3 of 5 sets"
/// are no such words.
[[nodiscard]] inline NotedMiss short_of(std::string_view words) {
  using W = std::string_view;
  const auto number_of = [](W word) {
    const bool is_figure = word.size() == 1 || word.size() == 2;
    return is_figure && word.find_first_not_of("0123456789") == word.npos
               ? std::stoi(std::string(word))
               : -1;
  };
  constexpr std::array verbs{W("got"), W("made"), W("only"), W("managed"), W("hit"), W("just")};
  constexpr std::array others{W("sets"),  W("set"),      W("sessions"), W("exercises"),
                              W("weeks"), W("days"),     W("attempts"), W("lifts"),
                              W("white"), W("workouts"), W("rounds")};
  const auto is_among = [](W word, const auto& list) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  W before;
  W rest = words;
  for (W word = next_word(rest); !word.empty(); before = word, word = next_word(rest)) {
    const int made = number_of(word);
    if (made < 0 || !is_among(before, verbs)) continue;
    W after = rest;
    W next = next_word(after);
    if (next == "out") next = next_word(after);
    const int asked = next == "of" ? number_of(next_word(after)) : 0;
    if (asked <= made) continue;
    const W what = next_word(after);
    if (is_among(what, others)) continue;
    if (!what.empty() && what != "." && what != "reps") return {.kind = MissInNote::may_be};
    return {.kind = MissInNote::clear, .reps = asked - made};
  }
  return {};
}

}  // namespace detail

/// What a note says of the last rep of its set.
[[nodiscard]] inline NotedMiss miss_in_note(std::string_view note) {
  using W = std::string_view;
  constexpr std::array clear{
      W("couldnt finish"), W("could not finish"), W("didnt finish"), W("did not finish"),
      W("unable to finish"), W("couldnt complete"), W("could not complete"), W("didnt complete"),
      W("couldnt lock out"), W("could not lock out"), W("couldnt lock it out"),
      W("could not lock it out"), W("couldnt lockout"), W("didnt lock out"), W("didnt lock it out"),
      W("failed to lock out"), W("failed to finish"), W("failed to complete"), W("safeties caught"),
      W("safeties saved"), W("safety caught"), W("safety bars caught"), W("safety bar caught"),
      W("pins caught"), W("arms caught it"), W("caught by the safeties"), W("caught by the pins"),
      W("saved by the safeties"), W("stapled"), W("got buried"), W("spotter finished"),
      W("spotter lifted"), W("spotter rescued"), W("spotter racked"), W("had to be spotted"),
      W("pinned me"), W("pinned under"), W("roll of shame"), W("came up short"), W("a rep short"),
      W("one rep short"), W("two reps short"), W("2 reps short"), W("1 rep short"),
      W("didnt get the last"), W("did not get the last"), W("could not get the last"),
      W("couldnt get the last"), W("couldnt get it up"), W("couldnt stand up"), W("spotter took"),
      W("spotters took"), W("spotter had to take"), W("spotter had to help"), W("spotter helped"),
      W("spotters helped"), W("spotter assisted"), W("spotter saved"), W("spotter grabbed"),
      W("spotter pulled"), W("needed the spotter"), W("needed my spotter"), W("needed spotter"),
      W("needed help"), W("bailed"), W("had to bail"), W("got stuck"), W("got pinned"),
      W("was pinned"), W("stuck in the hole"), W("stuck at the bottom"), W("stuck on the chest"),
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
      W("?"),         W("set"),     W("sets"),      W("next"),        W("previous"), W("before"),
      W("earlier"),   W("then"),    W("but"),       W("after"),       W("if"),       W("would"),
      W("week"),      W("today"),   W("yesterday"), W("time"),        W("warm"),     W("warmup"),
      W("warmups"),   W("attempt"), W("attempts"),  W("first"),       W("second"),   W("except"),
      W("until"),     W("anyway"),  W("ground"),    W("recovered"),   W("finally"),  W("unrack"),
      W("unracking"), W("off"),     W("liftoff"),   W("handoff"),     W("hand"),     W("setup"),
      W("rack"),      W("rerack"),  W("reracking"), W("video"),       W("photo"),    W("pictures"),
      W("notes"),     W("cardio"),  W("rest"),      W("accessories"), W("session"),  W("workout"),
      W("class"),     W("rom"),     W("break"),     W("time")};
  constexpr std::array may_be{W("failed"),
                              W("fail"),
                              W("missed"),
                              W("miss"),
                              W("dropped it"),
                              W("dropped the bar"),
                              W("dropped bar"),
                              W("dumped it"),
                              W("dumped the bar"),
                              W("dumped"),
                              W("stuck"),
                              W("pinned"),
                              W("bail"),
                              W("spotter touched"),
                              W("with spotter"),
                              W("help from spotter"),
                              W("with help"),
                              W("assisted"),
                              W("forced rep"),
                              W("forced reps"),
                              W("gave up"),
                              W("stopped short"),
                              W("incomplete"),
                              W("only got"),
                              W("no lift"),
                              W("red light"),
                              W("red lights"),
                              W("lost it"),
                              W("lost balance"),
                              W("couldnt get"),
                              W("couldnt do"),
                              W("could not do"),
                              W("didnt make it"),
                              W("did not make it"),
                              W("didnt go up"),
                              W("did not go up"),
                              W("wouldnt go up"),
                              W("wouldnt move"),
                              W("only managed"),
                              W("only made"),
                              W("could only get"),
                              W("could only do"),
                              W("could only manage"),
                              W("rolled it off"),
                              W("rolled the bar off"),
                              W("couldnt manage"),
                              W("no rep"),
                              W("not a rep"),
                              W("grip gave out"),
                              W("grip went"),
                              W("lost my grip"),
                              W("lost grip"),
                              W("stalled"),
                              W("tapped out"),
                              W("folded over"),
                              W("cut the set short"),
                              W("onto the safeties"),
                              W("hit the safeties"),
                              W("onto the pins")};
  constexpr std::array harmless{W("stuck to"),
                                W("stuck with"),
                                W("stuck it"),
                                W("stuck in traffic"),
                                W("stuck at work"),
                                W("stuck at home"),
                                W("stuck at the office"),
                                W("stuck in a meeting"),
                                W("stuck on repeat"),
                                W("no lift off"),
                                W("band assisted"),
                                W("assisted stretch"),
                                W("assisted stretching"),
                                W("shoulders pinned"),
                                W("pinned shoulders"),
                                W("blades pinned"),
                                W("scaps pinned"),
                                W("elbows pinned"),
                                W("lats pinned"),
                                W("pinned back"),
                                W("with spotter ready"),
                                W("with spotter just in case"),
                                W("with spotter for safety"),
                                W("dropped it from the top"),
                                W("dropped the bar from the top")};
  constexpr std::array two{W("took two"),      W("took 2"),   W("took the last two"),
                           W("took last two"), W("last two"), W("last 2"),
                           W("helped two"),    W("with two"), W("two reps short"),
                           W("2 reps short")};
  constexpr std::array three{W("took three"), W("took 3"), W("last three"), W("last 3")};
  std::string words = detail::without_other_misses(detail::words_of(note));
  for (const W phrase : harmless) {
    const std::string whole = " " + std::string(phrase) + ' ';
    for (auto at = words.find(whole); at != words.npos; at = words.find(whole)) {
      words.replace(at, whole.size(), " ");
    }
  }
  const auto has_any = [&](const auto& phrases) {
    return std::any_of(phrases.begin(), phrases.end(), [&](W phrase) {
      return words.find(" " + std::string(phrase) + ' ') != std::string::npos;
    });
  };
  if (!detail::says_any(words + "end ", clear)) {
    const NotedMiss part = detail::short_of(words);
    if (part.kind == MissInNote::clear && !has_any(unsure)) return part;
    const bool asks = part.kind != MissInNote::none || detail::says_any(words, may_be);
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

/// Takes from a note beside a set, whose outcome nobody told, what it says of the last rep: of a
/// missed one nothing is left, whatever the rating says.
inline void take_miss(LoggedSet& set, std::string_view note) {
  const NotedMiss miss = miss_in_note(note);
  set.may_be_missed = miss.kind == MissInNote::may_be;
  if (miss.kind != MissInNote::clear) return;
  set.outcome = Outcome::missed;
  set.reserve.reset();
  set.reps = Reps(detail::reps_up_to_miss(set.reps.count(), miss.reps));
}

}  // namespace barwright::inline BARWRIGHT_ABI
