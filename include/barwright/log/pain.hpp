// barwright/log/pain.hpp - whether a note beside a set speaks of pain
//
// Notes are free text, and the one thing in them that must not be overlooked is that something
// hurt, or that the lifter nearly passed out. The words are looked for anywhere in the note, whole
// or as the beginning of a longer word, and a "no" or "not" just before one takes it back, unless
// an "until rep 4" follows; "no pain once warm" is asked about (denial.hpp). Sore muscles are no
// pain, a sore joint is. Some of it is of a joint, and of the lifts that load it;
// what concerns the whole person (dizzy, chest pain, dark urine) concerns every lift. Of other
// languages that logs are kept in there are the commonest words; what is said in other words is not
// found: ask the lifter. Common practice, no source.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <string_view>

#include "barwright/log/denial.hpp"
#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// "pulled my left hamstring", "tweaked lower back": what is also said of technique hurts where a
/// part of the body follows.
[[nodiscard]] constexpr bool hurts_body_part(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array verbs{W("pulled "), W("tweaked "), W("jammed ")};
  constexpr std::array fillers{W("my "),    W("the "),   W("a "),    W("left "),
                               W("right "), W("lower "), W("upper ")};
  constexpr std::array parts{W("back"),  W("pec"),   W("shoulder"), W("knee"),  W("elbow"),
                             W("hip"),   W("neck"),  W("ham"),      W("groin"), W("quad"),
                             W("calf"),  W("bicep"), W("tricep"),   W("wrist"), W("ankle"),
                             W("glute"), W("rib"),   W("oblique"),  W("muscle")};
  if (!take_word(text, verbs)) return false;
  while (take_word(text, fillers)) {
  }
  return take_word(text, parts);
}

/// "Came out of wraps", "let go of the band": of a joint it is technique, but for its socket.
[[nodiscard]] constexpr bool goes_out_of_gear(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array of{W(" of ")};
  constexpr std::array fillers{W("the "), W("its "), W("my ")};
  constexpr std::array joints{W("socket"), W("place"), W("joint"), W("nowhere"),
                              W("align"),  W("track"), W("line")};
  if (!take_word(text, of)) return false;
  while (take_word(text, fillers)) {
  }
  return !begins_with_any(text, joints);
}

/// "left shoulder felt off", "sore knee": of a muscle it would be yesterday's work, of a joint, the
/// neck or the lower back it is pain. "Shoulders tight" is how to bench press.
[[nodiscard]] constexpr bool is_sore_joint(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array joints{W("shoulder"), W("elbow"),  W("wrist"),      W("knee"),
                              W("ankle"),    W("neck"),   W("lower back"), W("low back"),
                              W("groin"),    W("sternum")};
  constexpr std::array fillers{W("my "),    W("the "),     W("a "),       W("left "), W("right "),
                               W("l "),     W("r "),       W("both "),    W("bit "),  W("little "),
                               W("is "),    W("was "),     W("were "),    W("felt "), W("feels "),
                               W("still "), W("really "),  W("very "),    W("so "),   W("quite "),
                               W("got "),   W("getting "), W("slightly ")};
  constexpr std::array complaints{W("sore"),      W("tender"),     W("bad"),       W("dodgy"),
                                  W("cranky"),    W("playing up"), W("acting up"), W("bothering"),
                                  W("not right"), W("felt off"),   W("feels off"), W("grumpy")};
  // Of both knees it is technique, or the set was hard.
  constexpr std::array of_one_joint{W("tight"),       W("stiff"),    W("buckled"),
                                    W("gave out"),    W("gave in"),  W("went out"),
                                    W("slipped out"), W("came out"), W("let go")};
  if (take_word(text, joints)) {
    const bool is_one = !goes_on_with(text, 0, "s");
    if (!is_one) text.remove_prefix(1);
    if (text.empty() || text.front() != ' ') return false;
    text.remove_prefix(1);
    for (;;) {
      if (take_word(text, complaints)) return true;
      if (is_one && take_word(text, of_one_joint)) return !goes_out_of_gear(text);
      if (!take_word(text, fillers)) return false;
    }
  }
  const bool is_one = take_word(text, of_one_joint);
  if ((!is_one && !take_word(text, complaints)) || text.empty() || text.front() != ' ')
    return false;
  text.remove_prefix(1);
  while (take_word(text, fillers)) {
  }
  if (!take_word(text, joints)) return false;
  return !is_one || text.empty() || (text.front() != ' ' && !is_letter(text.front()));
}

/// Takes a joint, or what is strained like one, and the "my left" before it; whether there was one.
constexpr bool take_joint(std::string_view& text) noexcept {
  using W = std::string_view;
  constexpr std::array fillers{W("my "), W("the "), W("left "), W("right "), W("l "), W("r ")};
  constexpr std::array joints{W("shoulder"),     W("elbow"),     W("wrist"),    W("knee"),
                              W("ankle"),        W("hip"),       W("neck"),     W("lower back"),
                              W("low back"),     W("back"),      W("groin"),    W("pec"),
                              W("biceps"),       W("hamstring"), W("achilles"), W("si joint"),
                              W("rotator cuff"), W("rotator")};
  while (take_word(text, fillers)) {
  }
  if (!take_word(text, joints)) return false;
  if (goes_on_with(text, 0, "s")) text.remove_prefix(1);
  return text.empty() || !is_letter(text.front());
}

/// "left shoulder clicky", "knee felt weird": no pain perhaps, but a coach would ask.
[[nodiscard]] constexpr bool is_odd_joint(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array fillers{W(" "),       W("is "),      W("was "),   W("were "), W("felt "),
                               W("feels "),  W("feeling "), W("still "), W("a "),    W("bit "),
                               W("little "), W("really "),  W("got "),   W("very ")};
  constexpr std::array odd{
      W("click"),    W("crack"), W("crunch"),   W("grind"),    W("iffy"),      W("weird"),
      W("funny"),    W("odd"),   W("strange"),  W("unhappy"),  W("not happy"), W("not great"),
      W("not good"), W("twing"), W("grabb"),    W("unstable"), W("loose"),     W("locked up"),
      W("seized"),   W("cramp"), W("complain"), W("talking"),  W("again")};
  constexpr std::array only_back{W("back again")};  // "I'm back again"
  if (begins_with_any(text, only_back) || !take_joint(text)) return false;
  while (take_word(text, fillers)) {
  }
  return !word_at(text, 0, odd).empty();
}

/// Whether a note is nothing but a joint: "elbow", "left knee?".
[[nodiscard]] constexpr bool is_joint_alone(std::string_view note) noexcept {
  while (!note.empty() && note.front() == ' ') note.remove_prefix(1);
  if (!take_joint(note)) return false;
  return note.find_first_not_of(" .!?") == note.npos;
}

/// "Heart felt weird", and not "heart felt steady".
[[nodiscard]] constexpr bool is_odd_heart(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array hearts{W("heart "), W("heartbeat "), W("heart beat ")};
  constexpr std::array feels{W("felt "), W("feels "), W("feeling "), W("is feeling "),
                             W("was feeling ")};
  constexpr std::array fillers{
      W("a "),       W("bit "),   W("little "),   W("really "), W("very "), W("so "), W("quite "),
      W("kind of "), W("kinda "), W("slightly "), W("still "),  W("all "),  W("too ")};
  constexpr std::array odd{W("odd"),    W("weird"),   W("funny"),  W("off"),     W("irregular"),
                           W("rac"),    W("strange"), W("wrong"),  W("bad"),     W("like"),
                           W("as if"),  W("pound"),   W("skip"),   W("flutter"), W("uneven"),
                           W("jump"),   W("tight"),   W("heavy"),  W("unstead"), W("erratic"),
                           W("not "),   W("crazy"),   W("squeez"), W("out of"),  W("over the"),
                           W("unwell"), W("fast"),    W("weak"),   W("sore"),    W("bump")};
  if (!take_word(text, hearts) || !take_word(text, feels)) return false;
  while (take_word(text, fillers)) {
  }
  return begins_with_any(text, odd);
}

/// What concerns the whole person.
inline constexpr auto warning_signs = [] {
  using W = std::string_view;
  return std::array{
      W("dizz"), W("faint"), W("pass out"), W("passed out"), W("passed-out"), W("passing out"),
      W("black out"), W("blackout"), W("blacked out"), W("blacking out"), W("light-headed"),
      W("lightheaded"), W("light headed"), W("seeing stars"), W("saw stars"), W("black spots"),
      W("saw spots"), W("seeing spots"), W("blurred vision"), W("blurry"), W("tunnel vision"),
      W("double vision"), W("vision went"), W("vision blur"), W("lost vision"), W("unwell"),
      W("nearly collapsed"), W("i collapsed"), W("collapsed after"), W("headache"), W("head ache"),
      W("migraine"), W("concuss"), W("numb"), W("chest pain"), W("chest hurt"), W("pain in chest"),
      W("pain in my chest"), W("pain in the chest"), W("chest tight"), W("chest felt tight"),
      W("chest is tight"), W("chest was tight"), W("chest discomfort"), W("chest ache"),
      W("pain in left chest"), W("pain in the left chest"), W("pain in my left chest"),
      W("tight chest"), W("tightness in chest"), W("tightness in my chest"),
      W("tightness in the chest"), W("chest pressure"), W("pressure in chest"),
      W("pressure in my chest"), W("short of breath"), W("shortness of breath"), W("breathless"),
      W("can't breathe"), W("can\xE2\x80\x99t breathe"), W("cant breathe"), W("could not breathe"),
      W("couldn't breathe"), W("couldn\xE2\x80\x99t breathe"), W("couldnt breathe"),
      W("hard to breathe"), W("trouble breath"), W("difficulty breath"), W("palpitat"),
      W("heart rac"), W("heart skip"), W("heart flutter"), W("skipped beat"), W("skipping beat"),
      W("saw black"), W("room spinning"), W("room was spinning"), W("pressure on chest"),
      W("pressure on my chest"), W("pins and needles"), W("can't feel my"), W("cannot feel my"),
      W("couldn't feel my"), W("went dead"), W("peed blood"), W("fever"), W("woozy"),
      W("irregular heart"), W("urine"), W("dark pee"), W("brown pee"), W("seizure"), W("convuls"),
      W("lost consciousness"), W("unconscious"), W("woke up on the floor"),
      W("came to on the floor"), W("greyed out"), W("grayed out"), W("greying out"),
      W("graying out"), W("whited out"), W("vision narrow"), W("vision dim"), W("vision black"),
      W("head spinning"), W("head was spinning"), W("head spun"), W("disorient"),
      W("felt confused"), W("slurr"), W("face droop"), W("elephant on"), W("elephant sitting"),
      W("elephant sat"), W("heaviness in chest"), W("heaviness in my chest"),
      W("heaviness in the chest"), W("chest felt heavy"), W("chest feels heavy"),
      W("crushing chest"), W("squeezing in my chest"), W("chest squeez"), W("heart was racing"),
      W("heart is racing"), W("heart kept racing"), W("heart missed"), W("heart didn't feel"),
      W("heart did not feel"), W("heart going crazy"), W("heart was all over"), W("heart all over"),
      W("heart attack"), W("heartbeat irreg"), W("heartbeat was irreg"), W("heartbeat odd"),
      W("heartbeat was odd"), W("heartbeat weird"), W("heartbeat was weird"), W("heartbeat off"),
      W("heartbeat skip"), W("heart beat irreg"), W("heart beating irreg"), W("heart beating odd"),
      W("heart beating funny"), W("heart beating weird"), W("heart out of rhythm"), W("arrhythm"),
      W("afib"), W("a-fib"), W("jaw pain"), W("pain in my jaw"), W("pain in jaw"),
      W("pain down my arm"), W("pain down the arm"), W("pain down left arm"),
      W("pain down my left arm"), W("lost feeling"), W("no feeling in"), W("loss of feeling"),
      W("arm went weak"), W("leg went weak"), W("weak on one side"), W("wheez"), W("asthma attack"),
      W("heat stroke"), W("heatstroke"), W("heat exhaustion"), W("coughed blood"),
      W("coughed up blood"), W("coughing blood"),
      // German, French, Italian, Spanish, Portuguese, Dutch, Danish and Norwegian, Swedish
      W("schwindel"), W("schwindlig"), W("ohnm"), W("kopfschmerz"), W("brustschmerz"), W("vertig"),
      W("malaise"), W("mal \xC3\xA0 la t"), W("capogir"), W("mareo"), W("maread"), W("mareei"),
      W("tontura"), W("desmai"), W("duizelig"), W("flauw"), W("svimmel"), W("yrsel"), W("yr i h")};
}();

/// Whether a text begins with what concerns the whole person.
[[nodiscard]] constexpr bool begins_with_warning_sign(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array harmless{W("number"), W("lost feeling for"), W("face drooping towel")};
  return (begins_with_any(text, warning_signs) && !begins_with_any(text, harmless)) ||
         is_odd_heart(text);
}

/// "Felt a pop", "it popped", "pop in my pec"; a pop song is none.
[[nodiscard]] constexpr bool is_pop(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array pops{W("a pop"),       W("heard pop"),    W("felt pop"),   W("heard it pop"),
                            W("felt it pop"), W("it popp"),      W("pop in ham"), W("pop in my"),
                            W("pop in left"), W("pop in right"), W("pop in the"), W("loud pop"),
                            W("pop in ")};
  constexpr std::array endings{W("ing"), W("ped"), W("ping"), W("ed"), W("s ")};
  constexpr std::array fillers{W(" "), W("gym "), W("new ")};
  constexpr std::array of_music{W("music"),   W("song"), W("playlist"),  W("radio"),
                                W("speaker"), W("tune"), W("headphone"), W("quiz"),
                                W("shop"),    W("car"),  W("tart"),      W("star")};
  const W pop = word_at(text, 0, pops);
  if (pop.empty()) return false;
  text.remove_prefix(pop.size());
  if (pop == "pop in ") return take_joint(text);
  if (pop == "pop in ham" || take_word(text, endings)) return true;
  if (!text.empty() && is_letter(text.front())) return false;
  while (take_word(text, fillers)) {
  }
  return !begins_with_any(text, of_music);
}

/// "Neck went", "neck went tight"; "traps and neck went fine" is none.
[[nodiscard]] constexpr bool is_neck_gone(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array necks{W("neck went")};
  constexpr std::array ways{W(" stiff"),  W(" tight"), W(" out"),   W(" again"), W(" on "),
                            W(" at "),    W(" when"),  W(" pop"),   W(" crack"), W(" click"),
                            W(" and"),    W(" funny"), W(" weird"), W(" odd"),   W(" bad"),
                            W(" crunch"), W(" bang")};
  if (!take_word(text, necks)) return false;
  return text.find_first_not_of(' ') == text.npos ||
         !(text.front() == ' ' || is_letter(text.front())) || begins_with_any(text, ways);
}

/// "Tendonitis again", and not "tendonitis gone".
[[nodiscard]] constexpr bool is_tendinitis(std::string_view text) noexcept {
  using W = std::string_view;
  constexpr std::array names{W("tendinitis"), W("tendonitis")};
  constexpr std::array fillers{W(" "), W("is "), W("has "), W("all "), W("finally "), W("now ")};
  constexpr std::array over{W("gone"), W("healed"), W("cleared up")};
  if (!take_word(text, names)) return false;
  while (take_word(text, fillers)) {
  }
  return !take_word(text, over) ||
         (!text.empty() && (text.front() == ' ' || is_letter(text.front())));
}

/// What hurts, and what gave way.
inline constexpr auto words_of_hurt = [] {
  using W = std::string_view;
  return std::array{
      W("pain"), W("hurt"), W("ache"), W("aching"), W("twinge"), W("injur"), W("tingl"),
      W("strained"), W("sprain"), W("pinched"), W("pinching"), W("impinge"), W("niggl"), W("spasm"),
      W("stabb"), W("ouch"), W("popped"), W("a crack"), W("tore"), W("torn"), W("tear"),
      W("ruptur"), W("snapped"), W("dislocat"), W("sublux"), W("hernia"), W("killing me"),
      W("pulled something"), W("pulled a m"), W("back went out"), W("flared"), W("discomfort"),
      W("swollen"), W("swelling"), W("tightness in"), W("gave way"), W("something pop"),
      W("back tweaked"), W("hamstring pulled"), W("bulge"), W("popping in"), W("heard a snap"),
      W("heard a crunch"), W("felt a crunch"), W("felt a rip"), W("back gave out"),
      W("back gave in"), W("hip gave out"), W("back seized"), W("back locked up"),
      W("hip went out"), W("slipped disc"), W("slipped disk"), W("herniated"), W("sciatic"),
      W("trapped nerve"), W("electric shock"), W("shooting down"), W("fractur"), W("inflamed"),
      // German, French, Italian, Spanish, Portuguese, Dutch, Danish and Norwegian, Swedish
      W("tat weh"), W("tut weh"), W("gezerrt"), W("zerrung"), W("douleur"), W("mal au"),
      W("mal \xC3\xA0"), W("blessure"), W("bless\xC3\xA9"), W("dolor"), W("duele"), W("infortun"),
      W("lesi"), W("dores"), W("doeu"), W("pijn"), W("smerte"), W("vondt"), W("ondt i"), W("skade"),
      W("skada"), W("sm\xC3\xA4rta"), W("ont i")};
}();

/// Whether a text, the end of a note, begins with what hurts, and not the whole person.
[[nodiscard]] constexpr bool begins_with_hurt(std::string_view note, std::string_view text,
                                              bool begins_word) noexcept {
  using W = std::string_view;
  constexpr std::array in_compounds{W("schmerz"), W("verletz")};
  constexpr std::array harmless{W("painless"), W("paint"), W("teardrop")};
  const bool hurts = begins_with_any(text, in_compounds) ||
                     (begins_word && (begins_with_any(text, words_of_hurt) ||
                                      hurts_body_part(text) || is_sore_joint(text) ||
                                      is_pop(text) || is_neck_gone(text) || is_tendinitis(text)));
  if (!hurts || begins_with_any(text, harmless)) return false;
  // Pain in the chest is of the whole person.
  const W before = word_before(note, note.size() - text.size());
  const bool is_of_chest = before.size() == 5 && goes_on_with(before, 0, "chest");
  return !is_of_chest && !begins_with_warning_sign(text);
}

}  // namespace detail

/// Whether a note speaks of what concerns the whole person, and so every lift: "dizzy after the
/// third set", "chest pain".
[[nodiscard]] constexpr bool mentions_warning_sign(std::string_view note) noexcept {
  return detail::mentions(note, [](std::string_view text, bool begins_word) {
    return begins_word && detail::begins_with_warning_sign(text);
  });
}

/// Whether a note says that something hurt: "sharp pain in left shoulder - stopped". It may speak
/// of the whole person besides: "dizzy, and the knee hurt".
[[nodiscard]] constexpr bool mentions_hurt(std::string_view note) noexcept {
  return detail::mentions(note, [note](std::string_view text, bool begins_word) {
    return detail::begins_with_hurt(note, text, begins_word);
  });
}

/// Whether a note speaks of either: it is never overlooked.
[[nodiscard]] constexpr bool mentions_pain(std::string_view note) noexcept {
  return mentions_warning_sign(note) || mentions_hurt(note);
}

/// Whether a note names a joint without saying that it hurts, or denies pain on a condition:
/// "elbow", "left shoulder clicky", "no knee pain once warm". It stops nothing; somebody is asked.
/// "Elbows in" and "knee sleeves" are no such notes.
[[nodiscard]] constexpr bool may_mention_pain(std::string_view note) noexcept {
  const auto is_pain = [note](std::string_view text, bool begins_word) {
    return detail::begins_with_hurt(note, text, begins_word) ||
           (begins_word && detail::begins_with_warning_sign(text));
  };
  const auto is_odd = [](std::string_view text, bool begins_word) {
    return begins_word && detail::is_odd_joint(text);
  };
  const detail::Said pain = detail::how_said(note, is_pain);
  if (pain != detail::Said::no) return pain == detail::Said::on_condition;
  return detail::is_joint_alone(note) || detail::mentions(note, is_odd);
}

}  // namespace barwright::inline BARWRIGHT_ABI
