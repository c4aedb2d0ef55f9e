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
#include <string>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/miss_context.hpp"
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

/// "got 5 of 6", "only 5 out of 6 reps": how many reps are short; "got 5/6" is asked about. "Week 5
/// of 6", "3 of 5 sets" and "hit 9 of 10" on the target are no such words.
[[nodiscard]] inline NotedMiss short_of(std::string_view words) {
  using W = std::string_view;
  constexpr std::array verbs{W("got"), W("made"), W("only"), W("managed"), W("just")};
  constexpr std::array others{W("sets"),  W("set"),      W("sessions"), W("exercises"),
                              W("weeks"), W("days"),     W("attempts"), W("lifts"),
                              W("white"), W("workouts"), W("rounds")};
  W before;
  W rest = words;
  for (W word = next_word(rest); !word.empty(); before = word, word = next_word(rest)) {
    const int made = small_number(word);
    if (made < 0 || !is_among(before, verbs)) continue;
    W after = rest;
    W next = next_word(after);
    if (next == "out") next = next_word(after);
    const bool is_stroke = next == "/";
    const int asked = next == "of" || is_stroke ? small_number(next_word(after)) : 0;
    if (asked <= made) continue;
    const W what = next_word(after);
    if (is_among(what, others)) continue;
    if (is_stroke || (!what.empty() && what != "." && what != "reps"))
      return {.kind = MissInNote::may_be};
    return {.kind = MissInNote::clear, .reps = asked - made};
  }
  return {};
}

}  // namespace detail

/// What a note says of the last rep of its set.
/// @param set_reps  how many the set had, so that "4/5" can tell; 0 where that is not known
[[nodiscard]] inline NotedMiss miss_in_note(std::string_view note, int set_reps = 0) {
  using W = std::string_view;
  constexpr std::array clear{W("couldnt finish"),
                             W("could not finish"),
                             W("didnt finish"),
                             W("did not finish"),
                             W("unable to finish"),
                             W("couldnt complete"),
                             W("could not complete"),
                             W("didnt complete"),
                             W("couldnt lock out"),
                             W("could not lock out"),
                             W("couldnt lock it out"),
                             W("could not lock it out"),
                             W("couldnt lockout"),
                             W("didnt lock out"),
                             W("didnt lock it out"),
                             W("failed to lock out"),
                             W("failed to finish"),
                             W("failed to complete"),
                             W("safeties caught"),
                             W("safeties saved"),
                             W("safety caught"),
                             W("safety bars caught"),
                             W("safety bar caught"),
                             W("pins caught"),
                             W("arms caught it"),
                             W("caught by the safeties"),
                             W("caught by the pins"),
                             W("saved by the safeties"),
                             W("stapled"),
                             W("got buried"),
                             W("spotter finished"),
                             W("spotter lifted"),
                             W("spotter rescued"),
                             W("spotter racked"),
                             W("had to be spotted"),
                             W("pinned me"),
                             W("pinned under"),
                             W("roll of shame"),
                             W("came up short"),
                             W("a rep short"),
                             W("a rep shy"),
                             W("one rep shy"),
                             W("1 rep shy"),
                             W("two reps shy"),
                             W("2 reps shy"),
                             W("one rep short"),
                             W("two reps short"),
                             W("2 reps short"),
                             W("1 rep short"),
                             W("didnt get the last"),
                             W("did not get the last"),
                             W("didnt get last"),
                             W("did not get last"),
                             W("couldnt get last"),
                             W("could not get the last"),
                             W("couldnt get the last"),
                             W("couldnt get it up"),
                             W("couldnt stand up"),
                             W("spotter took"),
                             W("spotters took"),
                             W("spotter had to take"),
                             W("spotter had to help"),
                             W("spotter helped"),
                             W("spotters helped"),
                             W("spotter assisted"),
                             W("spotter saved"),
                             W("spotter grabbed"),
                             W("spotter pulled"),
                             W("needed the spotter"),
                             W("needed my spotter"),
                             W("needed spotter"),
                             W("bailed"),
                             W("had to bail"),
                             W("got stuck"),
                             W("got pinned"),
                             W("was pinned"),
                             W("stuck in the hole"),
                             W("stuck at the bottom"),
                             W("stuck on the chest"),
                             W("stuck on my chest"),
                             W("stuck halfway"),
                             W("failed rep"),
                             W("missed rep"),
                             W("failed last rep"),
                             W("failed the last rep"),
                             W("failed on the last rep"),
                             W("failed last one"),
                             W("failed the last one"),
                             W("failed last two"),
                             W("failed the last two"),
                             W("failed last 2"),
                             W("missed last rep"),
                             W("missed the last rep"),
                             W("missed last one"),
                             W("missed the last one"),
                             W("missed last two"),
                             W("missed the last two"),
                             W("missed last 2"),
                             W("last rep failed"),
                             W("last rep missed"),
                             W("last one failed"),
                             W("last one missed"),
                             W("failed at lockout"),
                             W("missed at lockout"),
                             W("missed lockout"),
                             W("missed the lockout"),
                             W("failed halfway")};
  // and with nothing behind them
  constexpr std::array clear_at_end{W("failed last"), W("failed the last"), W("missed last"),
                                    W("missed the last"), W("needed help")};
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
      W("class"),     W("rom"),     W("break")};
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
                              W("onto the pins"),
                              W("needed help"),
                              W("spotter help"),
                              W("rep didnt go"),
                              W("rep did not go"),
                              W("last didnt go"),
                              W("last one didnt go"),
                              W("wouldnt go"),
                              W("not locked out"),
                              W("wasnt locked out"),
                              W("never locked out"),
                              W("no lockout"),
                              W("half rep"),
                              W("trapped under"),
                              W("got crushed"),
                              W("was crushed"),
                              W("bar dropped on"),
                              W("bar fell on"),
                              W("would not go"),
                              W("wouldnt budge"),
                              W("couldnt budge"),
                              W("didnt budge"),
                              W("bar didnt move"),
                              W("couldnt move it"),
                              W("couldnt press it"),
                              W("couldnt lift it"),
                              W("couldnt lock it"),
                              W("could not lock it"),
                              W("no lock out"),
                              W("crushed me"),
                              W("crushed by the bar"),
                              W("needed some help"),
                              W("needed a little help"),
                              W("needed a bit of help"),
                              W("needed a spot"),
                              W("had to dump"),
                              W("dump it"),
                              W("dump the bar"),
                              W("couldnt lock"),
                              W("buried on"),
                              W("buried under"),
                              W("buried by"),
                              W("set it on the pins"),
                              W("put it on the pins"),
                              W("left it on the pins"),
                              W("set it on the safeties"),
                              W("put it on the safeties"),
                              W("left it on the safeties"),
                              W("help with last"),
                              W("help on last"),
                              W("spot on last"),
                              W("spotted on last"),
                              W("a finger on"),
                              W("needed spotting"),
                              W("needed a hand"),
                              W("needed a touch"),
                              W("needed a nudge"),
                              W("needed assistance"),
                              W("got a spot"),
                              W("got help"),
                              W("had help"),
                              W("spot on the last"),
                              W("spotted on the last"),
                              W("spotted the last"),
                              W("help on the last"),
                              W("help with the last"),
                              W("touch from"),
                              W("nudge from"),
                              W("spotter had to"),
                              W("failure on"),
                              W("failure at"),
                              W("failure halfway"),
                              W("failing"),
                              W("fails"),
                              W("died on"),
                              W("died at"),
                              W("died in"),
                              W("died halfway"),
                              W("died half way"),
                              W("fell short"),
                              W("short by one"),
                              W("short by a rep"),
                              W("came short"),
                              W("gave out"),
                              W("bar slipped"),
                              W("hands slipped"),
                              W("grip slipped"),
                              W("hands opened"),
                              W("couldnt hold"),
                              W("couldnt grind"),
                              W("couldnt stand it"),
                              W("couldnt control"),
                              W("couldnt rack"),
                              W("lost the bar"),
                              W("lost the last"),
                              W("dropped the last"),
                              W("dropped on the last"),
                              W("ended on the pins"),
                              W("ended up on the pins"),
                              W("sat on the pins"),
                              W("ended on the safeties"),
                              W("ended up on the safeties"),
                              W("sat on the safeties"),
                              W("racked it early"),
                              W("racked early"),
                              W("aborted"),
                              W("partial rep"),
                              W("last rep partial"),
                              W("last one partial"),
                              W("rep was partial"),
                              W("rep was a partial"),
                              W("rep was half"),
                              W("rep wasnt there"),
                              W("one wasnt there"),
                              W("rep didnt happen"),
                              W("one didnt happen"),
                              W("ran out of gas"),
                              W("ran out of steam"),
                              W("fell over"),
                              W("fell backwards"),
                              W("fell forward"),
                              W("tipped over")};
  // and with nothing behind them
  constexpr std::array may_be_at_end{W("one short"), W("1 short"), W("two short"), W("2 short"),
                                     W("one shy"),   W("1 shy"),   W("two shy"),   W("2 shy")};
  constexpr std::array two{W("took two"),      W("took 2"),         W("took the last two"),
                           W("took last two"), W("last two"),       W("last 2"),
                           W("two reps shy"),  W("2 reps shy"),     W("helped two"),
                           W("with two"),      W("two reps short"), W("2 reps short")};
  constexpr std::array three{W("took three"), W("took 3"), W("last three"), W("last 3")};
  constexpr std::array whole{W(" failed "), W(" missed "), W(" fail "), W(" miss ")};
  const std::string words = detail::words_of(note);
  if (std::find(whole.begin(), whole.end(), words) != whole.end())
    return {.kind = MissInNote::clear};
  const auto has_any = [&](const auto& phrases) {
    return std::any_of(phrases.begin(), phrases.end(), [&](W phrase) {
      return words.find(" " + std::string(phrase) + ' ') != std::string::npos;
    });
  };
  if (!detail::says_any(words, clear) && !detail::says_any(words, clear_at_end, true)) {
    const NotedMiss part = detail::short_of(words);
    if (part.kind == MissInNote::clear && !has_any(unsure)) return part;
    const bool asks = part.kind != MissInNote::none || detail::says_any(words, may_be) ||
                      detail::says_any(words, may_be_at_end, true) ||
                      detail::says_somebody_helped(words) || detail::counts_short(words, set_reps);
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
  const NotedMiss miss = miss_in_note(note, set.reps.count());
  set.may_be_missed = miss.kind == MissInNote::may_be;
  if (miss.kind != MissInNote::clear) return;
  set.outcome = Outcome::missed;
  set.reserve.reset();
  set.reps = Reps(detail::reps_up_to_miss(set.reps.count(), miss.reps));
}

}  // namespace barwright::inline BARWRIGHT_ABI
