// barwright/training/caution.hpp - what must be said beside a load, from the facts of the session
//
// Who is there, what would catch the bar, how near failure the sets go, how new the lift is: from
// these follow the cautions a coach would give. They are no substitute for one. Some say stop: the
// library prints loads, but a program should not show those loads as a plan.
//
// The deaths on record are mostly bench presses done alone (Lombardi & Troxel 2003, Med Sci Sports
// Exerc 35(5 Suppl):S203; abstract read), two with neither spotter nor guard (Jumbelic 2007, J
// Forensic Sci 52(3):702-705; abstract read) and one with safety bars that were set too high
// (Bandou et al. 2021, Forensic Sci 2(1):1-6; abstract read). Cautious on purpose, what they teach
// is asked here of every lift with the bar on or over the body. A bar that is pulled can be let go.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/source.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/training/alone.hpp"
#include "barwright/training/comeback.hpp"
#include "barwright/training/prescription.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What would catch the bar if a rep were missed; on a machine, its stops.
enum class Safeties : unsigned char {
  none,       ///< nothing
  unchecked,  ///< there are some, but nobody tried them with the empty bar in this body position
  checked,    ///< tried: they catch the bar; lying under it, neck and chest stay free
};

/// The facts cautions follow from. The defaults are the cautious ones: alone, nothing checked.
struct SessionFacts {
  Lift lift;
  Reps reps{1};
  RepsInReserve reserve{};   ///< the least planned for any set
  bool has_spotter = false;  ///< somebody who can and will take the bar
  Safeties safeties = Safeties::none;
  int earlier_sessions = 0;         ///< of this very lift, by this lifter
  bool is_comeback = false;         ///< one of the first weeks after a layoff
  AloneRule alone{};                ///< what to leave where nothing would catch the bar
  int sessions_until_known = 4;     ///< of a lift, before a max attempt on it
  bool has_only_long_sets = false;  ///< all of it are longer than those that tell of a max

  /// The least to leave where nothing would catch the bar; nothing where no reserve is enough.
  [[nodiscard]] constexpr std::optional<RepsInReserve> least_alone() const {
    return least_reserve_alone(reps, earlier_sessions < sessions_until_known, alone);
  }
};

/// One rep with none left: a try of the max, whatever it is called. The only place that says so:
/// nobody has to say it beside reps and reserve, or can forget to.
[[nodiscard]] constexpr bool is_max_attempt(Reps reps, RepsInReserve reserve) noexcept {
  return reps.count() == 1 && reserve < RepsInReserve(1.0);
}

/// Whether safeties that were checked would catch a missed rep: they stand beside a bar, not under
/// dumbbells, and not where the lifter lies on a ball or stands on what can move.
[[nodiscard]] constexpr bool safeties_can_catch(const Lift& lift) noexcept {
  for (const Modifier& modifier : lift.modifiers()) {
    if (modifier.sets_any_of(Setup::surface)) return false;
  }
  return lift.dumbbells() == 0;
}

/// Whether the back carries a free bar while the body is bent over.
[[nodiscard]] constexpr bool is_lifted_bent(const BaseLift& base) noexcept {
  return base.family == LiftFamily::deadlift || base == lifts::barbell_row;
}

/// Whether what is missed comes down on the lifter: a bar on or over the body, a machine's sled.
/// Dumbbells held in a squat, a split squat or a lunge are put down. Common practice, no source.
[[nodiscard]] constexpr bool can_pin(const Lift& lift) noexcept {
  const BaseLift& base = lift.base();
  if (base.family == LiftFamily::squat && lift.dumbbells() > 0) return false;
  return !base.is_bodyweight &&
         (base.family == LiftFamily::horizontal_press || base.family == LiftFamily::squat ||
          base.family == LiftFamily::overhead_press);
}

/// Whether the lifter is strapped in under the bar, and no reserve makes up for being alone.
[[nodiscard]] constexpr bool is_strapped_in(const BaseLift& base) noexcept {
  return base == lifts::para_bench_press;
}

/// Whether a missed rep would come to nothing: it is let go of, somebody takes it, or what was
/// tried catches it. Nobody can take a machine's weight.
[[nodiscard]] constexpr bool is_caught(const Lift& lift, bool has_spotter,
                                       Safeties safeties) noexcept {
  if (!can_pin(lift)) return true;
  return (has_spotter && !lift.base().is_machine) ||
         (safeties == Safeties::checked && safeties_can_catch(lift));
}

/// How grave a caution is.
enum class Severity : unsigned char {
  stop,  ///< do not do this as planned
  warn,  ///< take care of this before the first set
  note,  ///< know this
};

[[nodiscard]] constexpr std::string_view to_text(Severity severity) noexcept {
  switch (severity) {
    case Severity::stop: return "STOP";
    case Severity::warn: return "take care";
    case Severity::note: return "note";
  }
  return "";
}

/// One caution: what to do, and why.
struct Caution {
  Severity severity = Severity::note;
  std::string_view text{};
  Source source{};
  std::string_view key{};  ///< of a stop: its name, for programs
};

/// The cautions of a session, gravest first.
class CautionList {
 public:
  /// All that may be noted about a lift, and all that the library has to say.
  static constexpr std::size_t most = NoteList::capacity() + 24;

  [[nodiscard]] constexpr std::size_t size() const noexcept { return size_; }
  [[nodiscard]] constexpr const Caution* begin() const noexcept { return items_.data(); }
  [[nodiscard]] constexpr const Caution* end() const noexcept { return items_.data() + size_; }
  [[nodiscard]] constexpr const Caution& operator[](std::size_t i) const noexcept {
    return items_[i];
  }
  /// Whether any of them says stop.
  [[nodiscard]] constexpr bool says_stop() const noexcept {
    return size_ > 0 && items_[0].severity == Severity::stop;
  }

  /// Adds `caution` behind those that weigh as much or more. What finds the list full is not added.
  constexpr void add(const Caution& caution) noexcept {
    if (size_ == most) return;
    std::size_t place = size_;
    while (place > 0 && items_[place - 1].severity > caution.severity) {
      items_[place] = items_[place - 1];
      --place;
    }
    items_[place] = caution;
    ++size_;
  }

 private:
  std::array<Caution, most> items_{};
  std::size_t size_ = 0;
};

namespace cautions {

inline constexpr Source ratings_of_long_sets{
    .citation = "Halperin et al. 2022, Sports Med 52(2):377-390",
    .population = "414 people in 12 studies",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "in sets of more than 12 reps ratings are off by 3 or more; the rule drawn from it is "
        "this library's"};
inline constexpr Source deaths_on_record{
    .citation = "Lombardi & Troxel 2003, Med Sci Sports Exerc 35(5 Suppl):S203, and its update",
    .population =
        "US deaths in weight training: 9 in 1998, 7 at home, two thirds under a bench press",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note = "the rule drawn from it is this library's"};
inline constexpr Source safeties_set_too_high{
    .citation = "Bandou, Idota, Akasaka & Ikegaya 2021, Forensic Sci 2(1):1-6",
    .population = "one death under a bench press with safety bars at bench height",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note = "the rule drawn from it is this library's"};

inline constexpr Source bar_on_the_body = assumption(
    "the rule for the bench press, held to for every lift with the bar on or over the "
    "body");

inline constexpr Source stops_of_a_machine =
    common_practice("what runs in a frame is caught by its stops; no spotter can take it");

/// Said wherever plates are put on a bar, so that no two places say different things of collars.
inline constexpr Caution collars{
    Severity::note,
    "Use collars, unless you press lying down alone, without a spotter, and the rules of the gym "
    "allow none: then the plates can be tipped off.",
    common_practice("not a rule of any source read")};

/// What stands beside every load, whatever the facts.
inline constexpr Caution always{
    Severity::note,
    "These are calculations, not personal advice: a qualified coach, a clinician and the rules "
    "of the gym or federation come first. Stop and get help for chest pain, fainting, numbness or "
    "a sharp pain in a joint.",
    assumption("common sense; screening follows ACSM's Guidelines, 10th ed. 2018 (read)")};

/// Where a planner finds a miss likely in one of the sets.
inline constexpr Caution likely_miss{
    Severity::warn,
    "A missed rep is likely in these sets: agree who takes the bar, or set the safeties, before "
    "the first set, and stop at the first miss.",
    assumption("from how likely the last rep of each set is to be missed")};

/// Beside attempts at a max that come too soon after a hard session.
inline constexpr Caution not_rested{
    Severity::warn,
    "Too soon after the last hard session: the chances are those of a rested lifter. Go on another "
    "day, or open lighter.",
    common_practice("attempts are made rested; by how much to open lighter nobody can compute")};

/// Beside a session that goes up by feel.
inline constexpr Caution first_session{
    Severity::warn,
    "A first session: have a qualified coach, or somebody who knows the lift, show it and watch. "
    "Stop going up when a rep is slower or not like the one before, and end the session after a "
    "missed rep or at any pain.",
    common_practice("how beginners are started; not a rule of any source read")};

inline constexpr Caution ask_first{
    Severity::note,
    "Ask a clinician before lifting with known high blood pressure, heart disease, a hernia, a "
    "recent eye operation, or in pregnancy, when lying on the back for long is advised against.",
    {.citation = "American Heart Association 2023, Circulation 149:e217; review of resistance "
                 "training in pregnancy, Int J Womens Health 2024",
     .population = "adults",
     .evidence = Evidence::handbook,
     .reading = Reading::read,
     .note = "abstracts read; the list of 2007 is from memory"}};
inline constexpr Caution breath{
    Severity::note,
    "Hold your breath only through the hard part of a rep; with known high blood pressure, do not "
    "hold it at all.",
    {.citation = "Niewiadomski et al. 2008, J Hum Kinet 19:109",
     .population = "not stated",
     .evidence = Evidence::published,
     .reading = Reading::read,
     .note = "sets to failure and maxes both raise the pressure; the rule is common practice"}};
inline constexpr Caution under_18{
    Severity::note,
    "Under 18: only with a qualified coach present, and no max attempt set by a program.",
    {.citation = "Faigenbaum et al. 2009, J Strength Cond Res 23(5 Suppl):S60; Lloyd et al. 2014, "
                 "Br J Sports Med 48(7):498-505",
     .population = "children and adolescents",
     .evidence = Evidence::handbook,
     .reading = Reading::read,
     .note = "openings read; that no program should set a max attempt is this library's"}};
inline constexpr Caution breakdown{
    Severity::note,
    "Dark urine, swelling, or weakness that grows over the next days: stop training and see a "
    "doctor the same day. It can follow a layoff, or many reps of something new.",
    {.citation = "Khalil & Saab 2016; McKay et al. 2017",
     .population = "reports of single cases, one after 143 reps at 30 % of the max",
     .evidence = Evidence::published,
     .reading = Reading::read,
     .note = "abstracts read"}};
inline constexpr Caution spotter{
    Severity::note,
    "A spotter must be strong enough to help the bar up, stands close with hands ready, and agrees "
    "a signal with the lifter beforehand; from about 100 kg (220 lb) use two or more.",
    common_practice("not a rule of any source read")};
inline constexpr Caution pinned_alone{
    Severity::note,
    "If you are pinned alone: without collars, tip the plates off one side, then the other; with "
    "collars, roll the bar down to the hips and sit up. It hurts, and it may fail.",
    common_practice("what gyms teach; not a rule of any source read")};
inline constexpr Caution tear{Severity::note,
                              "A sudden tear or pop in the chest, armpit or shoulder, or pain that "
                              "grows from set to set, ends the session: have it looked at.",
                              common_practice("not a rule of any source read")};
inline constexpr Caution round_back{
    Severity::note, "End the set when your back begins to round.",
    common_practice("what coaches teach; three men of the deadlift group of a trial were left out "
                    "for pain in the low back (PMC7386153, read)")};

}  // namespace cautions

/// The cautions for a session. There is always at least one.
[[nodiscard]] constexpr CautionList cautions_for(const SessionFacts& facts) {
  CautionList list;
  const BaseLift& base = facts.lift.base();
  const bool can_pin = barwright::can_pin(facts.lift);
  const bool bar_can_pin = can_pin && !base.is_machine;
  const bool bar_over_body = bar_can_pin && base.family == LiftFamily::horizontal_press;
  bool has_free_bar = true;
  for (const Modifier& modifier : facts.lift.modifiers()) {
    if (modifier.sets_any_of(Setup::implement)) has_free_bar = false;
  }
  const bool is_attempt = is_max_attempt(facts.reps, facts.reserve);
  const bool can_catch = safeties_can_catch(facts.lift);
  const bool caught = is_caught(facts.lift, facts.has_spotter, facts.safeties);
  const bool near_failure = facts.reserve < RepsInReserve(2.0);
  const bool is_new = facts.earlier_sessions == 0;
  const auto least = facts.least_alone();
  const bool is_too_near = !least || facts.reserve < *least || is_attempt || is_strapped_in(base);

  const Source& pinned = bar_over_body ? cautions::deaths_on_record : cautions::bar_on_the_body;
  if (can_pin && base.is_machine && facts.safeties != Safeties::checked) {
    list.add(is_too_near
                 ? Caution{Severity::stop,
                           "Not yet: until the machine's stops are set and tried, keep more reps "
                           "in reserve, and more the longer the set; no very long sets and no max "
                           "attempt.",
                           cautions::stops_of_a_machine, "stops_not_tried"}
                 : Caution{Severity::warn,
                           "Set the machine's stops and try them with no plates on: they must "
                           "catch the weight just below the bottom of the lift. Until then stop "
                           "every set at the planned RIR, or earlier.",
                           cautions::stops_of_a_machine});
  } else if (bar_can_pin && !caught && !can_catch) {
    list.add(is_too_near ? Caution{Severity::stop,
                                   "Not alone: safeties do not catch dumbbells, or a bar over a "
                                   "ball or a cushion. Without a spotter keep more reps in "
                                   "reserve, and more the longer the set; no very long sets and no "
                                   "max attempt.",
                                   cautions::bar_on_the_body, "not_alone"}
                         : Caution{Severity::warn,
                                   "Nothing would catch a missed rep: safeties do not catch "
                                   "dumbbells, or a bar over a ball or a cushion. Get a spotter: "
                                   "reps in reserve are no substitute. Stop every set at the "
                                   "planned RIR, or earlier.",
                                   cautions::bar_on_the_body});
  } else if (bar_can_pin && !caught && is_too_near) {
    list.add(
        {Severity::stop,
         is_strapped_in(base)
             ? "Not alone, whatever is left in reserve: strapped in, nobody gets out from under "
               "the bar without help or safeties checked in this body position."
             : "Not alone: without a spotter or safeties checked in this body position, keep "
               "more reps in reserve, and more the longer the set; no very long sets and no "
               "max attempt.",
         pinned, "not_alone"});
  } else if (bar_can_pin && !caught) {
    list.add(
        {Severity::warn,
         "Nothing would catch a missed rep. Get a spotter, or set and check the safeties: reps "
         "in reserve are no substitute. Stop every set at the planned RIR, or earlier.",
         pinned});
  }
  if (bar_over_body && !caught && !is_strapped_in(base)) list.add(cautions::pinned_alone);
  if (bar_can_pin && facts.has_spotter) list.add(cautions::spotter);
  if (is_attempt && facts.is_comeback) {
    list.add({Severity::stop,
              "No max attempt in the first weeks after a layoff: train the lift again first. If "
              "training went on, or will until that day, ask again with a log that has it.",
              comeback_source, "max_attempt_too_early"});
  }
  if (is_attempt && is_new) {
    list.add({Severity::stop, "No max attempt on a new lift: train it for some sessions first.",
              assumption("lifts improve 5 to 10 % over the first three or four tests from practice "
                         "alone (Ritti-Dias 2011, Soares-Caldeira 2009; abstracts read)"),
              "max_attempt_too_early"});
  } else if (is_attempt) {
    list.add({Severity::warn,
              "A max attempt: warm up in steps, rest 3 to 5 minutes between attempts, make at most "
              "4, and count the last good one.",
              {.citation = "ACSM's Guidelines for Exercise Testing and Prescription, 9th ed. 2014",
               .population = "adults",
               .evidence = Evidence::handbook,
               .reading = Reading::read}});
    if (facts.earlier_sessions < facts.sessions_until_known) {
      list.add({Severity::stop,
                "Too few sessions of this lift so far: too early for a max attempt.",
                assumption("see the learning gain of new lifts"), "max_attempt_too_early"});
    }
  }
  if (is_attempt && facts.has_only_long_sets) {
    list.add(
        {Severity::stop,
         "No max attempt from long sets alone: what they say of a 1RM is a guess. Train shorter "
         "sets first, and rate them.",
         cautions::ratings_of_long_sets, "max_attempt_too_early"});
  }
  if (facts.safeties == Safeties::unchecked && can_catch && bar_over_body) {
    list.add({Severity::warn,
              "Check the safeties in this body position with the empty bar: lowered onto them, it "
              "must leave neck, face and chest clear.",
              cautions::safeties_set_too_high});
  } else if (facts.safeties == Safeties::unchecked && can_catch && bar_can_pin) {
    list.add({Severity::warn,
              "Check the safeties in this body position with no plates on: they must catch the bar "
              "just below the bottom of the lift.",
              cautions::bar_on_the_body});
  }
  if (bar_over_body && has_free_bar) {
    list.add({Severity::note, "Wrap your thumbs around the bar.", cautions::collars.source});
    list.add(facts.has_spotter ? Caution{Severity::note, "Use collars on both ends of the bar.",
                                         cautions::collars.source}
                               : cautions::collars);
  }
  if (near_failure && !is_attempt) {
    list.add({Severity::note,
              "This close to failure, ratings are off by about one rep: the last rep planned may "
              "be the one you miss.",
              {.citation = "Refalo et al. 2024, J Strength Cond Res",
               .population = "24 trained men and women, bench press",
               .evidence = Evidence::published,
               .reading = Reading::read}});
  }
  if (is_new) {
    list.add({Severity::note,
              "First time on this lift: the 1RM is a guess, and so is your sense of the reps in "
              "reserve. In the first three sessions stop every set with 4 or more in reserve.",
              assumption("no study of ratings used a lift that was new to the lifter")});
  }
  if (facts.reps.count() > 12) {
    list.add({Severity::note,
              "In sets of more than 12 reps, ratings are off by 3 or more, and no equation says "
              "much about the 1RM.",
              cautions::ratings_of_long_sets});
  }
  if (base.family == LiftFamily::horizontal_press && !base.is_bodyweight) {
    list.add(cautions::tear);
  }
  if (is_lifted_bent(base)) list.add(cautions::round_back);
  if (is_attempt || near_failure || facts.reps.count() <= 5) list.add(cautions::breath);
  if (facts.is_comeback || is_new) {
    Caution caution = cautions::breakdown;
    if (facts.is_comeback) caution.severity = Severity::warn;
    list.add(caution);
  }
  for (const Note& note : facts.lift.cautions()) {
    list.add({is_new ? Severity::warn : Severity::note, note.text, note.source});
  }
  list.add(cautions::ask_first);
  list.add(cautions::under_18);
  list.add(cautions::always);
  return list;
}

}  // namespace barwright::inline BARWRIGHT_ABI
