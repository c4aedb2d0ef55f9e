// barwright/log/denial.hpp - whether a note takes back what it names
//
// "No knee pain" and "no pain or discomfort" are none, "no pain until rep 4" is pain, and "no pain
// once warm" is to be asked about. So is "pain gone after two sets", while "pain gone" is none; and
// "didn't hurt too much" is pain. What is not denied for certain is said. "Pain free" denies behind
// the word what "no pain" denies before it, and may be denied or doubted itself: "far from pain
// free", "pain free at first, then not". Common practice, no source.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "barwright/core/text.hpp"
#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

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
/// The first of `words` that `text` goes on with at `at`; empty where it does with none.
template <class Words>
[[nodiscard]] constexpr std::string_view word_at(std::string_view text, std::size_t at,
                                                 const Words& words) noexcept {
  for (const std::string_view word : words) {
    if (goes_on_with(text, at, word)) return word;
  }
  return {};
}
/// Takes such a word off the beginning of `text`; whether there was one.
template <class Words>
constexpr bool take_word(std::string_view& text, const Words& words) noexcept {
  const std::string_view word = word_at(text, 0, words);
  text.remove_prefix(word.size());
  return !word.empty();
}
/// The word that ends before `at`, as it stands in the text.
[[nodiscard]] constexpr std::string_view word_before(std::string_view text,
                                                     std::size_t at) noexcept {
  while (at > 0 && text[at - 1] == ' ') --at;
  std::size_t begin = at;
  while (begin > 0 && is_letter(text[begin - 1])) --begin;
  return text.substr(begin, at - begin);
}

/// Whether a text begins with one of these words.
template <class Words>
[[nodiscard]] constexpr bool begins_with_any(std::string_view text, const Words& words) noexcept {
  return !word_at(text, 0, words).empty();
}

/// Whether one of some words stands in the note whole at a place; a blank ends a word too.
template <class Words>
[[nodiscard]] constexpr bool has_whole_word_at(std::string_view text, std::size_t at,
                                               const Words& words) noexcept {
  if (at > 0 && is_letter(text[at - 1])) return false;
  for (const std::string_view word : words) {
    const std::size_t end = at + word.size();
    if (goes_on_with(text, at, word) && (end == text.size() || !is_letter(text[end]))) return true;
  }
  return false;
}

/// How much of a note is looked at for what takes a word back.
inline constexpr std::size_t most_letters_of_sentence = 160;

[[nodiscard]] constexpr bool is_stop(char c) noexcept {
  return c == '.' || c == ';' || c == '!' || c == '?' || c == '\n';
}

/// "Other than DOMS": a muscle that is sore from work is no pain.
[[nodiscard]] constexpr bool goes_on_with_soreness(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array fillers{W(" "),       W("for "),    W("the "),    W("some "),
                               W("a "),      W("bit "),    W("of "),     W("my "),
                               W("usual "),  W("normal "), W("little "), W("mild "),
                               W("muscle "), W("leg "),    W("quad "),   W("general ")};
  constexpr std::array soreness{W("doms"),  W("sore"),    W("muscle sore"),
                                W("tired"), W("fatigue"), W("pump")};
  while (take_word(text, fillers)) {
  }
  return begins_with_any(text, soreness);
}

/// The first place that `is_found`, of those where a word begins within a sentence and so many
/// words; `npos` where none does. A comma ends the search, but before one of some words.
template <class Words, class IsFound>
[[nodiscard]] constexpr std::size_t find_in_sentence(std::string_view text, int most_words,
                                                     const Words& behind_comma,
                                                     const IsFound& is_found) noexcept {
  int words = 0;
  for (std::size_t at = 0; at < text.size() && words <= most_words; ++at) {
    const char c = text[at];
    if (is_stop(c)) break;
    if (c == ',') {
      while (at + 1 < text.size() && text[at + 1] == ' ') ++at;
      if (at + 1 >= text.size() || !has_whole_word_at(text, at + 1, behind_comma)) break;
      continue;
    }
    if (!is_letter(c) || (at > 0 && is_letter(text[at - 1]))) continue;
    if (is_found(at)) return at;
    ++words;
  }
  return std::string_view::npos;
}

/// Whether what was denied is said all the same: "no pain until rep 4", "no pain, until rep 5".
/// What stands between is no other sentence, and "no pain, rest until Friday" is a denial.
/// @param text  from the word that was denied
[[nodiscard]] constexpr bool denies_for_a_while_only(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array turns{W("until"),     W("till"),          W("til"),
                             W("up to"),     W("at first"),      W("at the start"),
                             W("initially"), W("for the first"), W("to begin with"),
                             W("to start"),  W("early on"),      W("at the beginning")};
  constexpr std::array but_for{W("except"), W("apart from"), W("other than"), W("excepting")};
  constexpr std::array behind_comma{W("until"),  W("till"),       W("til"),
                                    W("except"), W("apart from"), W("other than")};
  constexpr int most_words = 5;  // "pain in my left knee until"
  const std::size_t at = find_in_sentence(text, most_words, behind_comma, [&](std::size_t place) {
    return has_whole_word_at(text, place, turns) || has_whole_word_at(text, place, but_for);
  });
  if (at == text.npos) return false;
  return has_whole_word_at(text, at, turns) ||
         !goes_on_with_soreness(text.substr(at + word_at(text, at, but_for).size()));
}

/// Whether what was denied may be said of other days: "no knee pain once warm", "no elbow pain with
/// sleeves on". "No pain before or after" has no condition.
/// @param text  from the word that was denied
[[nodiscard]] constexpr bool denies_on_condition(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array conditions{
      W("once"),   W("when"),       W("while"),       W("after"),   W("if"),
      W("with"),   W("as long as"), W("in the warm"), W("in warm"), W("during the warm"),
      W("unless"), W("provided"),   W("only"),        W("range")};
  constexpr std::array behind_comma{W("once"), W("when"), W("if"), W("as long as"), W("unless")};
  constexpr int most_words = 7;
  const std::size_t at = find_in_sentence(text, most_words, behind_comma, [&](std::size_t place) {
    return has_whole_word_at(text, place, conditions);
  });
  if (at == text.npos) return false;
  std::size_t end = at;
  while (end < text.size() && is_letter(text[end])) ++end;
  while (end < text.size() && text[end] == ' ') ++end;
  return end < text.size() && !is_stop(text[end]) && text[end] != ',';
}

/// How a note speaks of something.
enum class Said : unsigned char {
  no,            ///< not at all, or it is denied
  on_condition,  ///< it is denied on a condition
  yes,
};

/// How much of a text "pain free" takes; 0 where it does not begin so.
[[nodiscard]] constexpr std::size_t length_of_pain_free(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array words{W("pain-free"), W("pain free"), W("painfree")};
  return word_at(text, 0, words).size();
}

/// Whether a part of a sentence denies or doubts what follows it: "wasn't", "far from".
[[nodiscard]] constexpr bool doubts(std::string_view part) noexcept {
  using W = std::string_view;
  constexpr std::array doubtful{
      W("not"),   W("never"),  W("no longer"), W("far from"), W("hardly"), W("mostly"), W("almost"),
      W("less"),  W("only"),   W("nearly"),    W("barely"),   W("cannot"), W("wasnt"),  W("isnt"),
      W("arent"), W("werent"), W("hasnt"),     W("aint"),     W("dont"),   W("didnt"),  W("doesnt"),
      W("wont"),  W("cant"),   W("partly"),    W("nowhere"),  W("rarely"), W("seldom"), W("wish")};
  constexpr std::array endings{W("n't"), W("n\xE2\x80\x99t")};
  constexpr std::array joining{W("or"), W("nor")};
  bool is_doubted = false;
  for (std::size_t at = 0; at < part.size(); ++at) {
    if (part[at] == ',') {  // "not heavy, pain free" doubts the weight
      std::size_t next = at + 1;
      while (next < part.size() && part[next] == ' ') ++next;
      if (next >= part.size() || !has_whole_word_at(part, next, joining)) is_doubted = false;
    }
    const bool is_share = part[at] == '%' && !part.substr(0, at).ends_with("100");
    is_doubted = is_doubted || is_share || begins_with_any(part.substr(at), endings) ||
                 has_whole_word_at(part, at, doubtful);
  }
  constexpr std::array no{W("no")};
  const W last = word_before(part, part.size());
  return is_doubted || (last.size() == 2 && begins_with_any(last, no));
}

/// Whether "pain free" is taken back behind it: "then not", "no longer", "?", ": no".
[[nodiscard]] constexpr bool is_denied_behind(std::string_view rest) noexcept {
  using W = std::string_view;
  constexpr std::array denials{W("but not"),     W("then not"),     W("but then"),  W("now not"),
                               W("not anymore"), W("not any more"), W("no longer"), W("not really"),
                               W("not quite"),   W("not today"),    W("not now"),   W("not yet"),
                               W("not at all"),  W("no more"),      W("but no"),    W("then no")};
  constexpr std::array answers{W("no"), W("not"), W("nope"), W("never"), W("nein")};
  rest = rest.substr(0, most_letters_of_sentence);
  if (!rest.empty() && is_letter(rest.front())) return true;  // "pain freeish"
  if (goes_on_with(rest, 0, "-ish") || goes_on_with(rest, 0, " ish")) return true;
  std::size_t first = 0;
  while (first < rest.size() && !is_letter(rest[first]) && !is_stop(rest[first])) ++first;
  if (first < rest.size() && has_whole_word_at(rest, first, answers)) {
    std::size_t end = first;
    while (end < rest.size() && is_letter(rest[end])) ++end;
    while (end < rest.size() && rest[end] == ' ') ++end;
    if (end == rest.size() || !is_letter(rest[end])) return true;
  }
  for (std::size_t at = 0; at < rest.size(); ++at) {
    if (rest[at] == '?') return true;
    if (is_stop(rest[at])) return false;
    if (has_whole_word_at(rest, at, denials)) return true;
  }
  return false;
}

/// What "pain free" at a place says of pain.
[[nodiscard]] constexpr Said said_of_pain_free(std::string_view note, std::size_t at) noexcept {
  const std::string_view rest = note.substr(at + length_of_pain_free(note.substr(at)));
  std::size_t begin = at;
  while (begin > 0 && at - begin < most_letters_of_sentence && !is_stop(note[begin - 1])) --begin;
  const bool is_pain = doubts(note.substr(begin, at - begin)) || is_denied_behind(rest) ||
                       denies_for_a_while_only(rest);
  if (is_pain) return Said::yes;
  return denies_on_condition(rest) ? Said::on_condition : Said::no;
}

/// Whether a word is one of some, capitals or not.
template <class Words>
[[nodiscard]] constexpr bool is_one_of(std::string_view word, const Words& words) noexcept {
  for (const std::string_view each : words) {
    if (word.size() == each.size() && goes_on_with(word, 0, each)) return true;
  }
  return false;
}

/// Whether "didn't" or "didn\u2019t" ends before a place: it becomes the beginning of that.
constexpr bool take_short_not(std::string_view note, std::size_t& at) noexcept {
  using W = std::string_view;
  std::size_t end = at;
  while (end > 0 && note[end - 1] == ' ') --end;
  const W text = note.substr(0, end);
  constexpr std::array endings{W("n't"), W("n\xE2\x80\x99t")};
  for (const W ending : endings) {
    if (text.size() < ending.size() || !goes_on_with(text, end - ending.size(), ending)) continue;
    at = end - ending.size() + 1;
    while (at > 0 && is_letter(note[at - 1])) --at;
    return true;
  }
  constexpr std::array in_one{W("didnt"), W("doesnt"), W("isnt"),  W("wasnt"), W("werent"),
                              W("arent"), W("dont"),   W("hasnt"), W("hadnt"), W("wont")};
  const W word = word_before(note, at);
  if (!is_one_of(word, in_one)) return false;
  at = static_cast<std::size_t>(word.data() - note.data());
  return true;
}

/// What a note that denies something just before a place says of it.
/// @param is_verb  the denial is a "not": it may be of how much it hurt
struct Denial {
  Said said = Said::yes;
  bool is_verb = false;
  bool is_more = false;  ///< "no more pain", which "than usual" makes pain
};

/// Looks for what denies the word at a place: "no", "no left knee or back", "no sign of", "didn't".
[[nodiscard]] constexpr Denial denial_before(std::string_view note, std::size_t at) noexcept {
  using W = std::string_view;
  constexpr std::array of_the_body{
      W("knee"), W("shoulder"), W("elbow"), W("wrist"),     W("hip"),    W("ankle"), W("neck"),
      W("back"), W("lower"),    W("low"),   W("left"),      W("right"),  W("joint"), W("chest"),
      W("hips"), W("knees"),    W("groin"), W("shoulders"), W("elbows"), W("upper"), W("wrists")};
  constexpr std::array hurts{W("pain"),   W("pains"),     W("ache"),      W("aches"),
                             W("twinge"), W("twinges"),   W("niggle"),    W("niggles"),
                             W("sore"),   W("soreness"),  W("stiffness"), W("discomfort"),
                             W("dizzy"),  W("dizziness"), W("numbness"),  W("tingling"),
                             W("nausea"), W("swelling"),  W("headache"),  W("tightness")};
  constexpr std::array little{W("any"),   W("of"),  W("sign"), W("signs"),  W("hint"),
                              W("trace"), W("a"),   W("bit"),  W("single"), W("feel"),
                              W("have"),  W("get"), W("in"),   W("longer")};
  constexpr std::array denials{W("no"),     W("without"), W("zero"),  W("kein"), W("keine"),
                               W("keinen"), W("ohne"),    W("sans"),  W("sin"),  W("senza"),
                               W("sem"),    W("geen"),    W("ingen"), W("uden"), W("utan")};
  constexpr std::array verbs{W("not"), W("never"), W("nothing")};
  constexpr std::array hedges{W("almost"), W("nearly"), W("hardly"), W("practically"), W("to"),
                              W("not"),    W("until"),  W("till"),   W("virtually"),   W("mostly"),
                              W("barely"), W("never"),  W("near"),   W("isnt"),        W("wasnt")};
  constexpr std::array hopes{W("hope"), W("hopefully"), W("hoping"), W("wish"),      W("if"),
                             W("when"), W("unless"),    W("much"),   W("basically"), W("want")};
  Denial denial{};
  bool is_list = false;
  const auto take = [&](W word) { at = static_cast<std::size_t>(word.data() - note.data()); };
  for (int words = 0; words < 9; ++words) {
    if (is_list && at > 0) {  // "no knee, hip or back pain"
      std::size_t end = at;
      while (end > 0 && note[end - 1] == ' ') --end;
      const bool is_comma = end > 0 && note[end - 1] == ',';
      if (is_comma && is_one_of(word_before(note, end - 1), of_the_body)) at = end - 1;
    }
    const W word = word_before(note, at);
    constexpr std::array joining{W("or"), W("nor")};
    const bool is_or = is_one_of(word, joining);
    is_list = is_list || is_or;
    const bool is_more = goes_on_with(word, 0, "more") && word.size() == 4;
    const bool is_named = is_one_of(word, of_the_body) || (is_list && is_one_of(word, hurts));
    if (is_or || is_more || is_named || is_one_of(word, little)) {
      denial.is_more = denial.is_more || is_more;
      take(word);
      continue;
    }
    const bool is_free = word.size() == 4 && goes_on_with(word, 0, "free");
    denial.is_verb = take_short_not(note, at);
    if (!denial.is_verb) {
      denial.is_verb = is_one_of(word, verbs);
      if (!denial.is_verb && !is_free && !is_one_of(word, denials)) return {};
      take(word);
    }
    std::size_t before = at;
    if (take_short_not(note, before) || is_one_of(word_before(note, at), hedges)) return {};
    denial.said = Said::no;
    for (std::size_t i = at; i > 0 && at - i < most_letters_of_sentence && !is_stop(note[i - 1]);) {
      const W each = word_before(note, i);
      if (each.empty()) {
        --i;
        continue;
      }
      if (is_one_of(each, hopes)) denial.said = Said::on_condition;
      i = static_cast<std::size_t>(each.data() - note.data());
    }
    return denial;
  }
  return {};
}

/// "Didn't hurt too much", "not hurting as bad", "never hurt like this": it did.
/// @param rest  what follows the word that was denied
[[nodiscard]] constexpr bool says_how_much(std::string_view rest) noexcept {
  using W = std::string_view;
  constexpr std::array degrees{W("too"),   W("as"),     W("that"),  W("so"),        W("much"),
                               W("bad"),   W("less"),   W("badly"), W("this"),      W("like"),
                               W("worse"), W("enough"), W("very"),  W("more than"), W("before"),
                               W("a lot"), W("yet")};
  constexpr std::array none{W("")};
  constexpr int most_words = 3;
  return find_in_sentence(rest, most_words, none, [&](std::size_t place) {
           return has_whole_word_at(rest, place, degrees);
         }) != rest.npos;
}

/// What stands behind a word: "pain gone", "pain: none", "pain 0/10" take it back.
/// @param rest  what follows the word that hurts
[[nodiscard]] constexpr Said said_behind(std::string_view rest) noexcept {
  using W = std::string_view;
  constexpr std::array fillers{
      W(" "),      W("is "),       W("has "),   W("are "),       W("have "),    W("all "),
      W("now "),   W("finally "),  W("fully "), W("in "),        W("my "),      W("the "),
      W("left "),  W("right "),    W("knee "),  W("back "),      W("hip "),     W("shoulder "),
      W("elbow "), W("wrist "),    W("neck "),  W("lower "),     W("totally "), W("completely "),
      W("today "), W("entirely "), W("seems "), W("thankfully ")};
  constexpr std::array over{W("gone"),   W("went away"),   W("cleared up"), W("no more"),
                            W("healed"), W("disappeared"), W("vanished"),   W("resolved")};
  constexpr std::array ends{W(" today"),      W(" now"),       W(" completely"),
                            W(" finally"),    W(" at last"),   W(" for good"),
                            W(" thankfully"), W(" this week"), W(" altogether")};
  constexpr std::array returns{W("then"),     W("until"),      W("till"),       W("came back"),
                               W("returned"), W("comes back"), W("back again"), W("not")};
  constexpr std::array other_ways{W(" up"), W(" down"),    W(" worse"), W(" bad"), W(" from"),
                                  W(" to"), W(" through"), W(" into"),  W(" over")};
  const auto is_end = [](W text) {
    return text.find_first_not_of(' ') == text.npos || is_stop(text.front()) ||
           text.front() == ',' || text.front() == ')';
  };
  while (!rest.empty() && is_letter(rest.front())) rest.remove_prefix(1);  // "pains"
  W answer = rest;
  constexpr std::array marks{W(" "), W(":"), W("="), W("-"), W("?")};
  bool has_mark = false;
  while (take_word(answer, marks)) has_mark = true;
  constexpr std::array none{W("none"), W("nope"),    W("nil"), W("no"),
                            W("0/10"), W("0 of 10"), W("0")};
  if (has_mark && take_word(answer, none) && is_end(answer)) return Said::no;
  while (take_word(rest, fillers)) {
  }
  if (!take_word(rest, over) || (!rest.empty() && is_letter(rest.front()))) return Said::yes;
  (void)take_word(rest, ends);
  if (!rest.empty() && rest.front() == '?') return Said::on_condition;
  if (begins_with_any(rest, other_ways)) return Said::yes;
  const W after = rest.substr(0, most_letters_of_sentence);
  for (std::size_t at = 0; at < after.size(); ++at) {
    if (has_whole_word_at(after, at, returns)) return Said::yes;
  }
  return is_end(rest) ? Said::no : Said::on_condition;
}

/// How a note speaks of what `hurts` finds at a place, as it is or as the beginning of a longer
/// word: a denial just before it takes it back, "no knee pain" included, and some behind it.
template <class Hurts>
[[nodiscard]] constexpr Said how_said(std::string_view note, const Hurts& hurts) noexcept {
  Said said = Said::no;
  for (std::size_t at = 0; at < note.size(); ++at) {
    if (!is_letter(note[at])) continue;
    const bool begins_word = at == 0 || !is_letter(note[at - 1]);
    const std::string_view text = note.substr(at);
    if (!hurts(text, begins_word)) continue;
    Said here = Said::yes;
    if (length_of_pain_free(text) > 0) {
      here = said_of_pain_free(note, at);
    } else {
      const Denial denial = begins_word ? denial_before(note, at) : Denial{};
      here = denial.said;
      std::size_t end = 0;
      while (end < text.size() && is_letter(text[end])) ++end;
      const std::string_view rest = text.substr(end);
      if (here == Said::yes) {
        here = begins_word ? said_behind(text) : Said::yes;
      } else if (denies_for_a_while_only(text) || (denial.is_verb && says_how_much(rest)) ||
                 (denial.is_more && rest.find(" than") != rest.npos)) {
        here = Said::yes;
      } else if (denies_on_condition(text)) {
        here = Said::on_condition;
      }
    }
    if (here == Said::yes) return here;
    if (here == Said::on_condition) said = here;
  }
  return said;
}

/// Whether a note has what `hurts` finds, and does not take it back.
template <class Hurts>
[[nodiscard]] constexpr bool mentions(std::string_view note, const Hurts& hurts) noexcept {
  return how_said(note, hurts) == Said::yes;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
