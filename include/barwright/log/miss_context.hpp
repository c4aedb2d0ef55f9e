// barwright/log/miss_context.hpp - whether words that sound like a miss are said of a rep
//
// "Missed the bus", "stuck in traffic", "a rep short of failure", "couldn't do cardio": the words
// of a missed rep are said of much else. What stands beside them tells: the thing that was missed,
// the place where somebody was stuck, a "not" before. In doubt they are of the rep: a load that is
// held by a question is none too heavy. Common practice, no source.
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

namespace barwright::inline BARWRIGHT_ABI::detail {

/// Whether a sentence may end at a place: a stop in a figure ends none.
[[nodiscard]] inline bool ends_sentence(std::string_view note, std::size_t at) {
  constexpr std::string_view stops = ".!;:\n";
  constexpr std::string_view figures = "0123456789";
  if (stops.find(note[at]) == stops.npos) return false;
  return at + 1 == note.size() || figures.find(note[at + 1]) == figures.npos;
}

/// The words of a note, in lower case with one blank before and behind each; apostrophes are
/// dropped, "couldn't" is one word. A stop between two sentences stands as one, a comma too: what
/// is denied before it is not denied behind. So does the stroke of "5/6".
[[nodiscard]] inline std::string words_of(std::string_view note) {
  constexpr std::size_t most = 2000;
  constexpr std::string_view curly = "\xE2\x80\x99";
  const auto is_figure = [](char c) { return c >= '0' && c <= '9'; };
  std::string words(1, ' ');
  bool is_next_sentence = false;
  bool is_next_part = false;
  for (std::size_t i = 0; i < std::min(note.size(), most); ++i) {
    if (note[i] == '\'') continue;
    if (note.substr(i, curly.size()) == curly) {
      i += curly.size() - 1;
      continue;
    }
    const bool is_of_word = is_letter(note[i]) || is_figure(note[i]) || (note[i] & 0x80) != 0;
    const bool is_before_figure = i + 1 < note.size() && is_figure(note[i + 1]);
    if (is_of_word && words.size() > 1) {
      if (is_next_sentence) words += ". ";
      if (is_next_part && !is_next_sentence) words += ", ";
    }
    is_next_sentence = !is_of_word && (is_next_sentence || ends_sentence(note, i));
    is_next_part = !is_of_word && (is_next_part || (note[i] == ',' && !is_before_figure));
    if (note[i] == '?') {
      words += words.back() == ' ' ? "? " : " ? ";
    } else if (note[i] == '/' && i > 0 && is_figure(note[i - 1]) && is_before_figure) {
      words += " / ";
    } else if (is_of_word) {
      words += lower_case(note[i]);
    } else if (words.back() != ' ') {
      words += ' ';
    }
  }
  if (words.back() != ' ') words += ' ';
  return words;
}

/// The first word of what is left of some words; it is taken off.
[[nodiscard]] inline std::string_view next_word(std::string_view& words) {
  words.remove_prefix(std::min(words.find_first_not_of(' '), words.size()));
  const std::string_view word = words.substr(0, words.find(' '));
  words.remove_prefix(word.size());
  return word;
}

/// The word that ends before a place; becomes the place before it.
[[nodiscard]] inline std::string_view take_word_before(std::string_view words, std::size_t& at) {
  const std::size_t begin = at == 0 ? at : words.rfind(' ', at - 1);
  if (at == 0 || begin == words.npos) return {};
  const std::string_view word = words.substr(begin + 1, at - begin - 1);
  at = begin;
  return word;
}

template <class Words>
[[nodiscard]] bool is_among(std::string_view word, const Words& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// The first word that is none of some little ones.
template <class Words>
[[nodiscard]] std::string_view next_word_but(std::string_view& words, const Words& little) {
  std::string_view word = next_word(words);
  while (is_among(word, little)) word = next_word(words);
  return word;
}

/// Whether nothing follows in the same part of a sentence.
[[nodiscard]] inline bool is_end(std::string_view word) {
  return word.empty() || word == "." || word == ",";
}

/// A small number, in figures or in words; none is -1.
[[nodiscard]] inline int small_number(std::string_view word) {
  using W = std::string_view;
  constexpr std::array names{W("zero"), W("one"),   W("two"),   W("three"), W("four"), W("five"),
                             W("six"),  W("seven"), W("eight"), W("nine"),  W("ten")};
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (word == names[i]) return static_cast<int>(i);
  }
  if (word.empty() || word.size() > 2) return -1;
  return word.find_first_not_of("0123456789") == word.npos ? std::stoi(std::string(word)) : -1;
}

/// Whether the word before a place, or the one before a little word, takes back what stands there.
[[nodiscard]] inline bool is_taken_back(std::string_view words, std::size_t at) {
  using W = std::string_view;
  constexpr std::array denials{W("not"),    W("no"),      W("never"),   W("without"), W("almost"),
                               W("nearly"), W("didnt"),   W("wasnt"),   W("dont"),    W("wont"),
                               W("hardly"), W("thought"), W("nothing"), W("none"),    W("neither"),
                               W("nobody"), W("zero")};
  constexpr std::array little{W("a"),    W("the"), W("any"), W("get"), W("got"),
                              W("even"), W("i"),   W("rep"), W("reps")};
  W word = take_word_before(words, at);
  if (is_among(word, little)) word = take_word_before(words, at);
  return is_among(word, denials);
}

/// "Red lights: none", "missed reps: 0".
[[nodiscard]] inline bool is_counted_as_none(std::string_view rest) {
  using W = std::string_view;
  constexpr std::array little{W("rep"), W("reps"), W("lifts")};
  constexpr std::array none{W("none"), W("0"), W("zero"), W("nil"), W("nothing")};
  W word = next_word_but(rest, little);
  if (word == ".") word = next_word(rest);
  return is_among(word, none) && is_end(next_word(rest));
}

/// "Missed the bus", "missed two sessions", "missed my belt": no rep was.
/// @param rest  what follows "missed"
[[nodiscard]] inline bool is_other_miss(std::string_view rest) {
  using W = std::string_view;
  constexpr std::array little{
      W("the"),     W("a"),          W("an"),      W("some"),     W("this"),       W("that"),
      W("out"),     W("on"),         W("of"),      W("our"),      W("most"),       W("whole"),
      W("my"),      W("yesterdays"), W("mondays"), W("tuesdays"), W("wednesdays"), W("thursdays"),
      W("fridays"), W("saturdays"),  W("sundays")};
  constexpr std::array counts{W("one"), W("two"), W("three"), W("four"), W("few"),
                              W("2"),   W("3"),   W("4"),     W("last")};
  constexpr std::array of_calendar{
      W("session"), W("sessions"), W("workout"),   W("workouts"), W("practice"), W("class"),
      W("week"),    W("weeks"),    W("day"),       W("days"),     W("month"),    W("months"),
      W("monday"),  W("tuesday"),  W("wednesday"), W("thursday"), W("friday"),   W("saturday"),
      W("sunday"),  W("meal"),     W("meals"),     W("trainings")};
  constexpr std::array things{
      W("gym"),         W("yesterday"), W("bus"),       W("train"),   W("flight"),  W("alarm"),
      W("appointment"), W("call"),      W("breakfast"), W("lunch"),   W("dinner"),  W("warmup"),
      W("warm"),        W("cardio"),    W("belt"),      W("shake"),   W("protein"), W("coffee"),
      W("creatine"),    W("wraps"),     W("sleeves"),   W("straps"),  W("chalk"),   W("shoes"),
      W("music"),       W("physio"),    W("coach"),     W("partner"), W("kids"),    W("dog")};
  // "Missed lifting alone" may be a rep.
  constexpr std::array after_little{W("training"),  W("sleep"),    W("lifting"),
                                    W("squatting"), W("benching"), W("deadlifting")};
  // "Missed yesterday's session single", "missed my training max".
  constexpr std::array of_reps{W("rep"), W("reps"), W("single"), W("set"),  W("sets"),  W("max"),
                               W("top"), W("pr"),   W("weight"), W("load"), W("target")};
  W word = next_word(rest);
  bool has_little = false;
  for (; is_among(word, little); word = next_word(rest)) has_little = true;
  const bool has_count = is_among(word, counts);
  if (has_count) word = next_word(rest);
  const bool is_other = is_among(word, of_calendar) || (!has_count && is_among(word, things)) ||
                        (!has_count && has_little && is_among(word, after_little));
  return is_other && !is_among(next_word(rest), of_reps);
}

/// "Couldn't do cardio", "only got 4 hours of sleep", "gave up sugar", "couldn't finish my shake".
/// @param rest  what follows the verb
[[nodiscard]] inline bool is_other_thing_left(std::string_view rest) {
  using W = std::string_view;
  constexpr std::array little{W("the"), W("my"),     W("a"),    W("some"), W("any"),
                              W("of"),  W("enough"), W("much"), W("usual")};
  constexpr std::array things{
      W("cardio"),  W("rack"),     W("platform"), W("parking"),   W("shake"),   W("protein"),
      W("drink"),   W("water"),    W("coffee"),   W("breakfast"), W("lunch"),   W("dinner"),
      W("meal"),    W("food"),     W("sleep"),    W("sugar"),     W("alcohol"), W("beer"),
      W("smoking"), W("caffeine"), W("carbs"),    W("chocolate"), W("sweets"),  W("meat"),
      W("dairy"),   W("drinking")};
  constexpr std::array times{W("h"),     W("hr"),  W("hrs"),  W("hour"),
                             W("hours"), W("min"), W("mins"), W("minutes")};
  // "Couldn't get to the rack" with the bar is no other thing.
  constexpr std::array doings{W("sleep"), W("eat"),    W("bring"), W("pack"),
                              W("film"),  W("record"), W("log")};
  W word = next_word_but(rest, little);
  if (word == "to") return is_among(next_word(rest), doings);
  if (is_among(word, things)) return true;
  if (word.size() > 1 && word.back() == 'h' && small_number(word.substr(0, word.size() - 1)) >= 0)
    return true;
  return small_number(word) >= 0 && is_among(next_word(rest), times);
}

/// "Stuck in traffic", "stuck to the plan", "stuck at 80 for weeks".
[[nodiscard]] inline bool is_stuck_elsewhere(std::string_view rest) {
  using W = std::string_view;
  constexpr std::array little{W("the"), W("my"), W("a"), W("our"), W("this"), W("same"), W("kg")};
  constexpr std::array to{W("to"), W("with")};
  constexpr std::array plans{
      W("plan"),    W("it"),        W("form"),   W("schedule"), W("program"),     W("programme"),
      W("numbers"), W("technique"), W("script"), W("basics"),   W("opener"),      W("openers"),
      W("weight"),  W("weights"),   W("diet"),   W("routine"),  W("percentages"), W("tempo"),
      W("cues"),    W("pace"),      W("pauses")};
  constexpr std::array in{W("in"), W("at"), W("on")};
  constexpr std::array places{W("traffic"), W("rain"),    W("snow"),   W("meeting"),  W("meetings"),
                              W("work"),    W("home"),    W("office"), W("airport"),  W("repeat"),
                              W("train"),   W("bus"),     W("call"),   W("motorway"), W("queue"),
                              W("school"),  W("elevator")};
  constexpr std::array long_times{W("weeks"), W("months"), W("ages"), W("years"),
                                  W("while"), W("month"),  W("year")};
  const W first = next_word(rest);
  if (is_among(first, to)) return is_among(next_word_but(rest, little), plans);
  if (!is_among(first, in)) return false;
  const W place = next_word_but(rest, little);
  if (is_among(place, places)) return true;
  if (first != "at" || place.find_first_not_of("0123456789") != place.npos) return false;
  if (next_word_but(rest, little) != "for") return false;
  for (W word = next_word(rest); !is_end(word); word = next_word(rest)) {
    if (is_among(word, long_times)) return true;
  }
  return false;
}

/// "Needed help moving house", "with the tyre"; of racking it is asked about.
[[nodiscard]] inline bool is_help_with_other(std::string_view rest) {
  using W = std::string_view;
  constexpr std::array little{W("with"), W("the"), W("my"), W("a"), W("to")};
  constexpr std::array works{W("loading"), W("unloading"), W("unracking"), W("moving"), W("move"),
                             W("load"),    W("setup"),     W("tyre"),      W("tire"),   W("belt"),
                             W("wraps"),   W("sleeves"),   W("straps"),    W("plates"), W("car"),
                             W("sofa"),    W("couch"),     W("carrying"),  W("setting")};
  return is_among(next_word_but(rest, little), works);
}

/// "A rep short of failure" was left on purpose; "of the target", "of five", was not.
[[nodiscard]] inline bool is_short_of_other(std::string_view rest) {
  using W = std::string_view;
  constexpr std::array little{W("the"), W("my"), W("a"), W("our"), W("planned"), W("prescribed")};
  constexpr std::array targets{W("target"), W("targets"), W("goal"), W("plan"),
                               W("rep"),    W("reps"),    W("set"),  W("lockout")};
  if (next_word(rest) != "of") return false;
  const W word = next_word_but(rest, little);
  return !is_end(word) && !is_among(word, targets) && small_number(word) < 0;
}

/// Whether a phrase is not said of the last rep here.
/// @param before  the word before the phrase
/// @param rest    what follows it
[[nodiscard]] inline bool is_of_other(std::string_view before, std::string_view phrase,
                                      std::string_view rest) {
  using W = std::string_view;
  constexpr std::array misses{W("missed"), W("miss")};
  constexpr std::array left{W("couldnt finish"),   W("could not finish"), W("didnt finish"),
                            W("did not finish"),   W("failed"),           W("couldnt get"),
                            W("couldnt do"),       W("could not do"),     W("could only get"),
                            W("only got"),         W("only managed"),     W("gave up"),
                            W("could only manage")};
  constexpr std::array held{W("shoulders"), W("blades"), W("scaps"), W("elbows"),
                            W("lats"),      W("hips"),   W("traps")};
  constexpr std::array held_so{W("back"), W("down"), W("in"), W("tight"), W("together"), W("and")};
  constexpr std::array behind_pinned{W("shoulders"), W("elbows"), W("back")};
  constexpr std::array eyes{W("eye"), W("attention")};
  constexpr std::array warm_ups{W("warmup"), W("warm"), W("stretch"), W("stretching")};
  constexpr std::array grips{W("chalky"), W("well"),   W("fine"),     W("good"),     W("great"),
                             W("wide"),   W("wider"),  W("narrow"),   W("narrower"), W("better"),
                             W("mixed"),  W("smooth"), W("perfectly")};
  constexpr std::array by_life{W("by"), W("at")};
  constexpr std::array up_to{W("to"),   W("near"),  W("of"),    W("from"), W("before"),   W("no"),
                             W("till"), W("until"), W("short"), W("form"), W("technical")};
  constexpr std::array machines{W("phone"),  W("battery"), W("watch"),   W("headphones"),
                                W("camera"), W("music"),   W("speaker"), W("laughing"),
                                W("timer"),  W("car"),     W("monitor"), W("tracker"),
                                W("belt"),   W("strap"),   W("wifi"),    W("computer")};
  constexpr std::array given_out{W("prizes"), W("medals"), W("programs"), W("shirts")};
  constexpr std::array places{W("in"), W("near")};
  constexpr std::array ways_off{W("leave"), W("go"), W("work"), W("wait")};
  constexpr std::array not_the_bar{W("back"), W("a"), W("my"), W("off"), W("still")};
  constexpr std::array no_trouble{W("issue"), W("issues"), W("problem"), W("problems"),
                                  W("trouble")};
  if (is_counted_as_none(rest)) return true;
  if (is_among(phrase, misses)) return is_other_miss(rest);
  W after = rest;
  const W next = next_word(after);
  const W second = next_word(after);
  if (phrase == "couldnt do" || phrase == "could not do") {
    if (next == "another") return true;
  }
  if (is_among(phrase, left))
    return (phrase != "failed" || next == "to") && is_other_thing_left(rest);
  if (phrase.ends_with("stuck")) return is_stuck_elsewhere(rest);
  if (phrase.ends_with("short") || phrase.ends_with("shy")) return is_short_of_other(rest);
  if (phrase.starts_with("failure")) return is_among(before, up_to);
  if (phrase.starts_with("died")) return is_among(before, machines) || is_among(next, machines);
  if (phrase == "gave out") return is_among(before, machines) || is_among(next, given_out);
  if (phrase.starts_with("needed a spot") || phrase == "got a spot")
    return is_among(next, places) || (next == "at" && second == "the");
  if (phrase == "spotter had to") return is_among(next, ways_off);
  if (phrase.ends_with("hold")) return is_among(next, not_the_bar);
  if (phrase == "ran out of gas") return next == "on" && second == "the";
  if (phrase.ends_with("caught")) return next == "my" && is_among(second, eyes);
  if (phrase == "needed help") return is_help_with_other(rest);
  if (phrase == "pinned") {
    return (is_among(before, held) && (is_end(next) || is_among(next, held_so))) ||
           is_among(next, behind_pinned);
  }
  if (phrase == "assisted") return before == "band" || is_among(next, warm_ups);
  if (phrase == "grip went") return is_among(next, grips);
  if (phrase == "no lift") return next == "off";
  if (phrase == "no lockout" || phrase == "no lock out") return is_among(next, no_trouble);
  if (phrase == "got crushed") return is_among(next, by_life);
  if (phrase.starts_with("dropped")) return next == "from" && second == "the";
  return false;
}

/// Whether one of some phrases stands whole in a note, is not taken back, and is said of the rep.
/// @param at_end  only with nothing behind it
template <class Phrases>
[[nodiscard]] bool says_any(std::string_view words, const Phrases& phrases, bool at_end = false) {
  return std::any_of(phrases.begin(), phrases.end(), [&](std::string_view phrase) {
    for (auto at = words.find(phrase); at != words.npos; at = words.find(phrase, at + 1)) {
      const std::size_t end = at + phrase.size();
      const bool is_whole =
          at > 0 && words[at - 1] == ' ' && end < words.size() && words[end] == ' ';
      if (!is_whole || is_taken_back(words, at - 1)) continue;
      const std::string_view rest = words.substr(end);
      std::string_view after = rest;
      if (at_end && !is_end(next_word(after))) continue;
      std::size_t begin = at - 1;
      if (!is_of_other(take_word_before(words, begin), phrase, rest)) return true;
    }
    return false;
  });
}

/// "Partner took the last", "coach helped", "he took it": whoever stood by had a hand on the bar.
/// "Coach took a video" and "helped with my setup" are no such help.
[[nodiscard]] inline bool says_somebody_helped(std::string_view words) {
  using W = std::string_view;
  constexpr std::array helpers{W("spotter"), W("spotters"), W("partner"), W("coach"), W("buddy"),
                               W("mate"),    W("friend"),   W("he"),      W("she"),   W("they"),
                               W("someone"), W("somebody"), W("dad"),     W("wife"),  W("husband"),
                               W("brother"), W("guy")};
  constexpr std::array little{W("had"), W("to"), W("then"), W("just"), W("also"), W("slightly")};
  constexpr std::array verbs{W("took"),    W("take"),    W("helped"),    W("help"),   W("grabbed"),
                             W("tapped"),  W("touched"), W("assisted"),  W("saved"),  W("rescued"),
                             W("stepped"), W("lifted"),  W("pulled"),    W("caught"), W("nudged"),
                             W("spotted"), W("assist"),  W("intervened")};
  constexpr std::array of_the_bar{W("lifted"), W("pulled"), W("caught")};
  constexpr std::array on_the_bar{W("it"), W("the"), W("me"), W("last"), W("bar")};
  constexpr std::array others{
      W("video"),   W("videos"),      W("photo"),      W("photos"),    W("pictures"),
      W("pics"),    W("notes"),       W("form"),       W("technique"), W("setup"),
      W("cue"),     W("cues"),        W("program"),    W("programme"), W("warmup"),
      W("warm"),    W("stance"),      W("unrack"),     W("load"),      W("loading"),
      W("plates"),  W("programming"), W("break"),      W("rest"),      W("unracking"),
      W("liftoff"), W("handoff"),     W("off"),        W("turn"),      W("turns"),
      W("footage"), W("his"),         W("her"),        W("their"),     W("day"),
      W("wraps"),   W("belt"),        W("bench"),      W("rack"),      W("phone"),
      W("spot"),    W("seat"),        W("platform"),   W("chair"),     W("keys"),
      W("towel"),   W("bottle"),      W("dumbbells"),  W("machine"),   W("place"),
      W("look"),    W("picture"),     W("pic"),        W("call"),      W("time"),
      W("shower"),  W("attendance"),  W("ages"),       W("forever"),   W("measurements"),
      W("collars"), W("chalk"),       W("kettlebell"), W("kids"),      W("dog"),
      W("car")};
  W rest = words;
  for (W word = next_word(rest); !word.empty(); word = next_word(rest)) {
    if (!is_among(word, helpers)) continue;
    W after = rest;
    const W verb = next_word_but(after, little);
    if (!is_among(verb, verbs)) continue;
    W what = after;
    if (is_among(verb, of_the_bar)) {
      if (is_among(next_word(what), on_the_bar)) return true;
      continue;
    }
    bool is_other = false;
    W each = next_word(after);
    for (int i = 0; i < 6 && !is_end(each); ++i, each = next_word(after)) {
      is_other = is_other || is_among(each, others);
    }
    if (!is_other) return true;
  }
  return false;
}

/// "4/5", "4 of 5", beside a set of four reps or of five, and "only 4" beside one of five: perhaps
/// one was not made. "Felt 8/10" and "set 4/5" are said of something else.
[[nodiscard]] inline bool counts_short(std::string_view words, int set_reps) {
  using W = std::string_view;
  constexpr std::array others{
      W("felt"),     W("feel"),       W("feels"), W("feeling"),    W("rpe"),      W("effort"),
      W("energy"),   W("mood"),       W("sleep"), W("slept"),      W("set"),      W("sets"),
      W("week"),     W("day"),        W("days"),  W("session"),    W("round"),    W("cycle"),
      W("block"),    W("phase"),      W("form"),  W("rated"),      W("rating"),   W("sessions"),
      W("weeks"),    W("rounds"),     W("hard"),  W("difficulty"), W("stress"),   W("pain"),
      W("soreness"), W("motivation"), W("on"),    W("date"),       W("since"),    W("tempo"),
      W("exercise"), W("attempt"),    W("part"),  W("workout"),    W("intensity")};
  constexpr std::array just{W("only"), W("just")};
  constexpr std::array of_reps{W("reps"), W("rep")};
  if (set_reps < 1) return false;
  W before;
  W rest = words;
  for (W word = next_word(rest); !word.empty(); before = word, word = next_word(rest)) {
    const int made = small_number(word);
    if (made < 0 || is_among(before, others)) continue;
    W after = rest;
    W next = next_word(after);
    if (is_among(before, just) && made < set_reps && (is_end(next) || is_among(next, of_reps)))
      return true;
    if (next == "out") next = next_word(after);
    const int asked = next == "/" || next == "of" ? small_number(next_word(after)) : 0;
    if (asked > made && (asked == set_reps || made == set_reps) &&
        !is_among(next_word(after), others))
      return true;
  }
  return false;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
