// tests/caution_test.cpp - what must be said beside a load, and when it says stop
//
// The rules are the library's own reading of the reports named in caution.hpp, cautious on purpose.
// These checks hold that each fact leads to its caution, and nothing else does.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/training/caution.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "all_lifts.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/training/alone.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

// A phrase that only the caution in question holds.
constexpr std::string_view alone = "Not alone";
constexpr std::string_view nothing_catches = "Nothing would catch";
constexpr std::string_view check_safeties = "Check the safeties in this body position";
constexpr std::string_view set_stops = "Set the machine's stops";
constexpr std::string_view no_stops = "until the machine's stops are set";
constexpr std::string_view new_max_attempt = "No max attempt on a new lift";
constexpr std::string_view early_max_attempt = "too early for a max attempt";
constexpr std::string_view max_attempt = "A max attempt:";
constexpr std::string_view near_failure = "This close to failure";
constexpr std::string_view first_time = "First time on this lift";
constexpr std::string_view long_set = "more than 12 reps";
constexpr std::string_view round_the_bar = "thumbs around the bar";
constexpr std::string_view collars_on = "Use collars on both ends";
constexpr std::string_view tipped_off = "plates can be tipped off";
constexpr std::string_view lying_like_this = "Re-check the safeties in this position";
constexpr std::string_view foot_down = "put a foot down";
constexpr std::string_view of_a_spotter = "strong enough to help the bar up";
constexpr std::string_view pinned = "If you are pinned alone";
constexpr std::string_view tear = "A sudden tear or pop";
constexpr std::string_view round_back = "begins to round";
constexpr std::string_view breath = "Hold your breath";
constexpr std::string_view dark_urine = "Dark urine";
constexpr std::string_view ask_first = "high blood pressure, heart disease";
constexpr std::string_view under_18 = "Under 18";

const Caution* find(const CautionList& list, std::string_view phrase) {
  for (const Caution& caution : list) {
    if (caution.text.find(phrase) != std::string_view::npos) return &caution;
  }
  return nullptr;
}
bool says(const SessionFacts& facts, std::string_view phrase) {
  return find(cautions_for(facts), phrase) != nullptr;
}

/// Nothing to worry about: a practised lift, far from failure, with somebody there.
SessionFacts quiet(const Lift& lift = lifts::bench_press) {
  return {.lift = lift,
          .reps = 6_reps,
          .reserve = 3_rir,
          .has_spotter = true,
          .safeties = Safeties::checked,
          .earlier_sessions = 20};
}

/// Every combination of the facts for one lift.
std::vector<SessionFacts> all_facts(const Lift& lift) {
  std::vector<SessionFacts> all;
  for (const bool has_spotter : {false, true}) {
    for (const Safeties safeties : {Safeties::none, Safeties::unchecked, Safeties::checked}) {
      for (const int earlier : {0, 1, 3, 4, 50}) {
        for (const double reserve : {0.0, 1.5, 2.0, 5.0}) {
          for (const int reps : {1, 12, 13}) {
            all.push_back({.lift = lift,
                           .reps = Reps(reps),
                           .reserve = RepsInReserve(reserve),
                           .has_spotter = has_spotter,
                           .safeties = safeties,
                           .earlier_sessions = earlier});
          }
        }
      }
    }
  }
  return all;
}

}  // namespace

TEST_CASE("benching alone with nothing to catch the bar: no set near failure") {
  SessionFacts facts = quiet();
  facts.has_spotter = false;
  facts.safeties = Safeties::none;
  for (const double reserve : {0.0, 0.5, 1.0, 1.5}) {
    facts.reserve = RepsInReserve(reserve);
    const CautionList list = cautions_for(facts);
    CHECK(list.says_stop());
    REQUIRE(find(list, alone) != nullptr);
    CHECK(find(list, alone)->severity == Severity::stop);
  }
  SUBCASE("with 2 or more in reserve it is a warning") {
    for (const double reserve : {2.0, 3.0, 10.0}) {
      facts.reserve = RepsInReserve(reserve);
      const CautionList list = cautions_for(facts);
      CHECK(!list.says_stop());
      REQUIRE(find(list, nothing_catches) != nullptr);
      CHECK(find(list, nothing_catches)->severity == Severity::warn);
    }
  }
  SUBCASE("safeties nobody checked in this body position count as none") {
    facts.safeties = Safeties::unchecked;
    facts.reserve = 1_rir;
    CHECK(says(facts, alone));
  }
  SUBCASE("a spotter lifts it") {
    facts.has_spotter = true;
    facts.reserve = 0_rir;
    CHECK(!says(facts, alone));
    CHECK(!says(facts, nothing_catches));
    CHECK(!cautions_for(facts).says_stop());
  }
  SUBCASE("safeties checked in this body position lift it") {
    facts.safeties = Safeties::checked;
    facts.reserve = 0_rir;
    CHECK(!says(facts, alone));
    CHECK(!cautions_for(facts).says_stop());
  }
}

TEST_CASE("benching alone with nothing to catch the bar: no max attempt") {
  SessionFacts facts = quiet();
  facts.has_spotter = false;
  facts.safeties = Safeties::none;
  facts.reps = 1_reps;
  facts.reserve = 0_rir;
  CHECK(says(facts, alone));
  CHECK(cautions_for(facts).says_stop());
  facts.has_spotter = true;
  CHECK(!cautions_for(facts).says_stop());
}

TEST_CASE("the defaults are the cautious ones: alone, to failure, nothing checked, new") {
  const CautionList list = cautions_for({.lift = lifts::bench_press});
  CHECK(list.says_stop());
  CHECK(find(list, alone) != nullptr);
  CHECK(find(list, first_time) != nullptr);
}

TEST_CASE("every press lying down stops alone near failure, however it is varied") {
  int checked = 0;
  for (const Lift& lift : barwright_test::all_lifts(2)) {
    if (!(lift.base() == lifts::bench_press)) continue;
    CAPTURE(std::string(lift.name()));
    SessionFacts facts = quiet(lift);
    facts.has_spotter = false;
    facts.safeties = Safeties::unchecked;
    facts.reserve = 1_rir;
    CHECK(cautions_for(facts).says_stop());
    ++checked;
  }
  CHECK(checked > 50);
}

TEST_CASE("squats and overhead presses alone stop near failure too, deadlifts and pulls do not") {
  const auto alone_on = [](const Lift& lift, RepsInReserve reserve, Reps reps) {
    SessionFacts facts = quiet(lift);
    facts.has_spotter = false;
    facts.safeties = Safeties::unchecked;
    facts.reserve = reserve;
    facts.reps = reps;
    return facts;
  };
  for (const Lift& lift :
       {Lift(lifts::squat), lifts::squat + modifiers::front_squat, Lift(lifts::overhead_press)}) {
    CAPTURE(std::string(lift.name()));
    CHECK(cautions_for(alone_on(lift, 0_rir, 1_reps)).says_stop());
    CHECK(cautions_for(alone_on(lift, 0_rir, 6_reps)).says_stop());
    CHECK(cautions_for(alone_on(lift, 1_rir, 6_reps)).says_stop());
    CHECK(!cautions_for(alone_on(lift, 2_rir, 6_reps)).says_stop());
    CHECK(says(alone_on(lift, 2_rir, 6_reps), nothing_catches));
    // The deaths on record are bench presses: for the others the rule is the library's.
    const CautionList list = cautions_for(alone_on(lift, 0_rir, 1_reps));
    REQUIRE(find(list, alone) != nullptr);
    CHECK(find(list, alone)->source.evidence == Evidence::assumption);
  }
  // Dumbbells beside the legs are put down.
  for (const Lift& lift :
       {Lift(lifts::deadlift), Lift(lifts::romanian_deadlift), Lift(lifts::barbell_row),
        Lift(lifts::bench_pull), lifts::split_squat + modifiers::single_leg_dumbbells,
        lifts::lunge + modifiers::single_leg_dumbbells}) {
    CAPTURE(std::string(lift.name()));
    for (const Reps reps : {1_reps, 6_reps}) {
      CHECK(!says(alone_on(lift, 0_rir, reps), alone));
      CHECK(!says(alone_on(lift, 0_rir, reps), nothing_catches));
      CHECK(!cautions_for(alone_on(lift, 0_rir, reps)).says_stop());
    }
  }
}

// Common practice, no source.
TEST_CASE("a leg press has stops and no spotter: they are to be set and tried") {
  SessionFacts facts = quiet(lifts::leg_press);
  CHECK(!says(facts, set_stops));
  CHECK(!says(facts, no_stops));
  for (const bool has_spotter : {false, true}) {
    for (const Safeties safeties : {Safeties::none, Safeties::unchecked}) {
      facts = quiet(lifts::leg_press);
      facts.has_spotter = has_spotter;
      facts.safeties = safeties;
      const CautionList easy = cautions_for(facts);
      CHECK(!easy.says_stop());
      REQUIRE(find(easy, set_stops) != nullptr);
      CHECK(find(easy, set_stops)->severity == Severity::warn);
      facts.reserve = 1.5_rir;
      CHECK(cautions_for(facts).says_stop());
      CHECK(says(facts, no_stops));
      facts.reserve = 2_rir;
      CHECK(!cautions_for(facts).says_stop());
      facts.reps = 1_reps;
      facts.reserve = 0_rir;
      CHECK(cautions_for(facts).says_stop());
      CHECK(says(facts, no_stops));
    }
  }
  for (const SessionFacts& any : all_facts(lifts::leg_press)) {
    for (const std::string_view of_a_bar :
         {"spotter", "pinned", "Nothing would catch", "heck the safeties", "ollars", "thumbs"}) {
      CHECK(!says(any, of_a_bar));
    }
  }
  static constexpr BaseLift seated_press{.key = "chest_press",
                                         .name = "chest press",
                                         .family = LiftFamily::horizontal_press,
                                         .is_machine = true};
  SessionFacts chest_press = quiet(seated_press);
  CHECK(!says(chest_press, "thumbs"));
  chest_press.safeties = Safeties::none;
  CHECK(says(chest_press, set_stops));
  SessionFacts curl = quiet(lifts::leg_curl);  // what is let go of falls on nobody
  curl.safeties = Safeties::none;
  curl.reserve = 0_rir;
  CHECK(!cautions_for(curl).says_stop());
  CHECK(!says(curl, "stops"));
}

TEST_CASE("collars and thumbs: where a free bar is over the body, and one rule for collars") {
  SessionFacts facts = quiet();
  CHECK(says(facts, round_the_bar));
  CHECK(says(facts, collars_on));
  CHECK(!says(facts, tipped_off));  // with a spotter there is no need
  facts.has_spotter = false;
  CHECK(says(facts, round_the_bar));
  CHECK(!says(facts, collars_on));
  const CautionList list = cautions_for(facts);
  REQUIRE(find(list, tipped_off) != nullptr);
  CHECK(find(list, tipped_off)->text == cautions::collars.text);
  for (const Lift& lift :
       {lifts::bench_press + modifiers::dumbbells, lifts::bench_press + modifiers::guided_rail,
        Lift(lifts::squat), Lift(lifts::overhead_press), Lift(lifts::deadlift)}) {
    CAPTURE(std::string(lift.name()));
    facts.lift = lift;
    CHECK(!says(facts, round_the_bar));
    CHECK(!says(facts, tipped_off));
    CHECK(!says(facts, collars_on));
  }
}

TEST_CASE("a push-up, a dip or a pull-up has no bar to fall") {
  for (const Lift& lift : {Lift(lifts::push_up), Lift(lifts::dip), Lift(lifts::pull_up)}) {
    const SessionFacts facts{.lift = lift, .reps = 10_reps, .reserve = 0_rir};
    CHECK(!says(facts, alone));
    CHECK(!says(facts, nothing_catches));
    CHECK(!says(facts, round_the_bar));
    CHECK(!cautions_for(facts).says_stop());
  }
}

TEST_CASE("safeties are to be checked in this body position") {
  SessionFacts facts = quiet();
  CHECK(!says(facts, check_safeties));
  facts.safeties = Safeties::unchecked;
  CHECK(says(facts, check_safeties));  // a spotter does not make them checked
  facts.safeties = Safeties::none;
  CHECK(!says(facts, check_safeties));  // there are none to check
  facts = quiet(lifts::deadlift);
  facts.safeties = Safeties::unchecked;
  CHECK(!says(facts, check_safeties));
}

TEST_CASE("neck and chest are named where the lifter lies under the bar, and nowhere else") {
  int lying = 0;
  int upright = 0;
  for (const Lift& lift : barwright_test::all_lifts(2)) {
    CAPTURE(std::string(lift.name()));
    SessionFacts facts = quiet(lift);
    facts.safeties = Safeties::unchecked;
    const CautionList list = cautions_for(facts);
    const Caution* const check = find(list, check_safeties);
    if (!safeties_can_catch(lift)) {
      CHECK(check == nullptr);  // there is nothing to check
    } else if (lift.base() == lifts::bench_press || lift.base() == lifts::para_bench_press) {
      REQUIRE(check != nullptr);
      CHECK(check->text.find("neck, face and chest") != std::string_view::npos);
      CHECK(check->source.evidence == Evidence::published);
      ++lying;
    } else if (check != nullptr) {
      CHECK(check->text.find("below the bottom") != std::string_view::npos);
      CHECK(check->source.evidence == Evidence::assumption);  // the death was under a bench press
      CHECK(!says(facts, "neck"));
      ++upright;
    }
  }
  CHECK(lying > 50);
  CHECK(upright >= 8);
}

TEST_CASE("no max attempt before the fifth session of a lift") {
  SessionFacts facts = quiet();
  facts.reps = 1_reps;
  facts.reserve = 0_rir;
  for (const int earlier : {0, 1, 2, 3}) {
    facts.earlier_sessions = earlier;
    CHECK(cautions_for(facts).says_stop());
    CHECK(says(facts, new_max_attempt) == (earlier == 0));
    CHECK(says(facts, early_max_attempt) == (earlier > 0));
  }
  for (const int earlier : {4, 5, 100}) {
    facts.earlier_sessions = earlier;
    CHECK(!cautions_for(facts).says_stop());
    CHECK(says(facts, max_attempt));
  }
  facts.reps = 2_reps;
  for (const int earlier : {0, 3, 100}) {
    facts.earlier_sessions = earlier;
    CHECK(!says(facts, new_max_attempt));
    CHECK(!says(facts, early_max_attempt));
    CHECK(!says(facts, max_attempt));
    CHECK(!cautions_for(facts).says_stop());
  }
}

TEST_CASE("close to failure a rating may be a rep off") {
  SessionFacts facts = quiet();
  CHECK(!says(facts, near_failure));
  facts.reserve = 2_rir;
  CHECK(!says(facts, near_failure));
  for (const double reserve : {0.0, 1.0, 1.5}) {
    facts.reserve = RepsInReserve(reserve);
    CHECK(says(facts, near_failure));
  }
}

TEST_CASE("a first exposure says so, once") {
  SessionFacts facts = quiet();
  CHECK(!says(facts, first_time));
  facts.earlier_sessions = 1;
  CHECK(!says(facts, first_time));
  facts.earlier_sessions = 0;
  CHECK(says(facts, first_time));
}

TEST_CASE("sets of more than twelve say little [Halperin 2022, abstract read]") {
  SessionFacts facts = quiet();
  facts.reps = 12_reps;
  CHECK(!says(facts, long_set));
  facts.reps = 13_reps;
  CHECK(says(facts, long_set));
}

TEST_CASE("feet up on a bench: the safeties again, and a foot down rather than a rep") {
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  CHECK(says(quiet(feet_up), lying_like_this));
  CHECK(says(quiet(feet_up), foot_down));
  CHECK(!says(quiet(), lying_like_this));
  CHECK(!says(quiet(), foot_down));
  CHECK(says(quiet(lifts::bench_press + modifiers::flat_back), lying_like_this));
  SUBCASE("they weigh more the first time") {
    SessionFacts facts = quiet(feet_up);
    CHECK(find(cautions_for(facts), lying_like_this)->severity == Severity::note);
    facts.earlier_sessions = 0;
    CHECK(find(cautions_for(facts), lying_like_this)->severity == Severity::warn);
  }
}

TEST_CASE("whatever is known to beware of a lift is said beside its load") {
  for (const Lift& lift : barwright_test::all_lifts(2)) {
    CAPTURE(std::string(lift.name()));
    const CautionList list = cautions_for(quiet(lift));
    for (const Note& note : lift.cautions()) CHECK(find(list, note.text) != nullptr);
  }
}

TEST_CASE("cautions: heaviest first, none twice, never too many, all with text and a source" *
          doctest::test_suite("slow")) {
  const std::vector<Lift> every_lift = barwright_test::all_lifts(Lift::most_modifiers);
  CHECK(every_lift.size() > 500);
  std::size_t most = 0;
  for (const Lift& lift : every_lift) {
    CAPTURE(std::string(lift.name()));
    for (const SessionFacts& facts : all_facts(lift)) {
      const CautionList list = cautions_for(facts);
      bool in_order = true;
      bool says_stop = false;
      bool always_there = false;
      bool none_twice = true;
      for (std::size_t i = 0; i < list.size(); ++i) {
        if (i > 0) in_order = in_order && list[i - 1].severity <= list[i].severity;
        says_stop = says_stop || list[i].severity == Severity::stop;
        always_there = always_there || list[i].text == cautions::always.text;
        for (std::size_t j = 0; j < i; ++j) {
          none_twice = none_twice && list[i].text != list[j].text;
        }
      }
      const bool is_right =
          in_order && always_there && none_twice && !list.says_stop() == !says_stop;
      if (!is_right) FAIL_CHECK("wrong list");
      if (list.size() > most) most = list.size();
    }
  }
  CHECK(most < CautionList::most);  // a full list might be missing something
}

TEST_CASE("a lift of one's own with as many cautions as notes may be hides none of the library's") {
  constexpr std::size_t count = NoteList::capacity();
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < count; ++i) texts.push_back("Beware " + std::to_string(i) + ".");
  std::vector<Note> notes;
  for (const std::string& text : texts) notes.push_back({.kind = NoteKind::caution, .text = text});
  const BaseLift worrying{
      .key = "own", .name = "own", .family = LiftFamily::horizontal_press, .notes = notes};
  for (const SessionFacts& facts : all_facts(worrying)) {
    const CautionList list = cautions_for(facts);
    CHECK(list.size() > count);
    CHECK(list.size() < CautionList::most);
    CHECK(list[list.size() - 1].text == cautions::always.text);
  }
}

TEST_CASE("every caution has text, a source or the evidence it rests on, and promises nothing") {
  constexpr std::string_view promises[] = {
      "safe to",   "is safe",     "are safe",        "safely",          "guarantee",
      "no risk",   "risk-free",   "without risk",    "harmless",        "cannot fail",
      "no danger", "never fails", "prevents injury", "will not be hurt"};
  for (const Lift& lift : barwright_test::all_lifts(1)) {
    for (const SessionFacts& facts : all_facts(lift)) {
      for (const Caution& caution : cautions_for(facts)) {
        CAPTURE(std::string(caution.text));
        const bool is_sentence = caution.text.size() > 20 && caution.text.back() == '.';
        if (!is_sentence) FAIL_CHECK("not a sentence");
        for (const std::string_view promise : promises) {
          if (caution.text.find(promise) != std::string_view::npos) FAIL_CHECK("a promise");
        }
        const Source& source = caution.source;
        const bool is_customary =
            source.evidence == Evidence::common_practice || source.evidence == Evidence::assumption;
        // A source was read or from memory; custom and assumption have none to read.
        if (source.citation.empty() != is_customary) FAIL_CHECK("source and evidence disagree");
        if ((source.reading == Reading::not_applicable) != is_customary) FAIL_CHECK("reading");
        if (to_text(caution.severity).empty()) FAIL_CHECK("no severity");
      }
    }
  }
}

TEST_CASE("a coach, a clinician and the rules of the place come first, whatever the facts") {
  const std::string_view text = cautions::always.text;
  for (const std::string_view who : {"coach", "clinician", "gym", "federation", "chest pain"}) {
    CHECK((text.find(who) != std::string_view::npos));
  }
}

TEST_CASE("a caution that finds the list full is left out, and nothing is overwritten") {
  CautionList list;
  for (std::size_t i = 0; i < CautionList::most + 5; ++i) {
    list.add({i % 2 == 0 ? Severity::note : Severity::warn, "text", {}});
  }
  CHECK(list.size() == CautionList::most);
  CHECK(list[0].severity == Severity::warn);
  CHECK(list[list.size() - 1].severity == Severity::note);
  CHECK(!list.says_stop());
}

TEST_CASE("cautions can be found while compiling") {
  static_assert(cautions_for({.lift = lifts::bench_press}).says_stop());
}

TEST_CASE(
    "safeties do not catch dumbbells, nor a bar over a ball or a cushion: only a spotter does") {
  // [common practice, no source]
  for (const Lift& lift :
       {lifts::bench_press + modifiers::dumbbells, lifts::bench_press + modifiers::exercise_ball,
        lifts::bench_press + modifiers::balance_cushion,
        lifts::overhead_press + modifiers::overhead_dumbbells}) {
    CAPTURE(std::string(lift.name()));
    SessionFacts facts = quiet(lift);
    facts.has_spotter = false;
    facts.safeties = Safeties::checked;
    facts.reserve = 1_rir;
    CHECK(cautions_for(facts).says_stop());
    facts.reserve = 2_rir;
    CHECK_FALSE(cautions_for(facts).says_stop());
    facts.reserve = 0_rir;
    facts.has_spotter = true;
    CHECK_FALSE(cautions_for(facts).says_stop());
  }
}

TEST_CASE("one rep with none left is a max attempt") {
  SessionFacts facts = quiet(lifts::bench_press);
  facts.reps = 1_reps;
  facts.reserve = 0_rir;
  facts.earlier_sessions = 2;
  CHECK(cautions_for(facts).says_stop());
  facts.reserve = 1_rir;
  CHECK_FALSE(cautions_for(facts).says_stop());
}

TEST_CASE("alone, the least reserve follows from the length of the set") {
  // [assumption] The table is in alone_test.cpp; here: each lift that can pin asks for it.
  for (const Lift& lift :
       {Lift(lifts::bench_press), Lift(lifts::squat), Lift(lifts::overhead_press),
        Lift(lifts::leg_press), lifts::bench_press + modifiers::dumbbells}) {
    CAPTURE(std::string(lift.name()));
    SessionFacts facts = quiet(lift);
    facts.has_spotter = false;
    facts.safeties = Safeties::none;
    for (int reps = 1; reps <= 20; ++reps) {
      for (const int earlier : {0, 3, 4, 20}) {
        for (const double reserve : {1.5, 2.0, 3.0, 4.0, 6.0, 10.0}) {
          facts.reps = Reps(reps);
          facts.reserve = RepsInReserve(reserve);
          facts.earlier_sessions = earlier;
          const auto least = least_reserve_alone(facts.reps, earlier < 4);
          const bool is_enough = least && facts.reserve >= *least;
          if (cautions_for(facts).says_stop() == is_enough) FAIL_CHECK("wrong");
        }
      }
    }
  }
}

TEST_CASE("what is said once of the lifter, whatever the lift") {
  // [sources beside each caution]
  for (const Lift& lift : barwright_test::all_lifts(1)) {
    CHECK(says(quiet(lift), ask_first));
    CHECK(says(quiet(lift), under_18));
  }
}

TEST_CASE("what is said only where it matters") {
  struct Row {
    std::string_view what;
    SessionFacts facts;
    std::string_view phrase;
    bool is_said;
  };
  const auto with = [](const Lift& lift, auto change) {
    SessionFacts facts = quiet(lift);
    change(facts);
    return facts;
  };
  const auto same = [](SessionFacts&) {};
  const auto is_alone = [](SessionFacts& facts) {
    facts.has_spotter = false;
    facts.safeties = Safeties::none;
  };
  const auto comes_back = [](SessionFacts& facts) { facts.is_comeback = true; };
  const Row rows[] = {
      {"a spotter at a bench press", with(lifts::bench_press, same), of_a_spotter, true},
      {"no spotter", with(lifts::bench_press, is_alone), of_a_spotter, false},
      {"a spotter at a deadlift", with(lifts::deadlift, same), of_a_spotter, false},
      {"a bench press alone", with(lifts::bench_press, is_alone), pinned, true},
      {"a bench press with a spotter", with(lifts::bench_press, same), pinned, false},
      {"a squat alone", with(lifts::squat, is_alone), pinned, false},
      {"a press lying down", with(lifts::bench_press, same), tear, true},
      {"a squat", with(lifts::squat, same), tear, false},
      {"a deadlift", with(lifts::deadlift, same), round_back, true},
      {"a row", with(lifts::barbell_row, same), round_back, true},
      {"a bench pull", with(lifts::bench_pull, same), round_back, false},
      {"a bench press", with(lifts::bench_press, same), round_back, false},
      {"three reps", with(lifts::squat, [](SessionFacts& f) { f.reps = 3_reps; }), breath, true},
      {"one left", with(lifts::squat, [](SessionFacts& f) { f.reserve = 1_rir; }), breath, true},
      {"eight with three left", with(lifts::squat, [](SessionFacts& f) { f.reps = 8_reps; }),
       breath, false},
      {"after a layoff", with(lifts::squat, comes_back), dark_urine, true},
      {"on a new lift", with(lifts::squat, [](SessionFacts& f) { f.earlier_sessions = 0; }),
       dark_urine, true},
      {"else", with(lifts::squat, same), dark_urine, false},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    CHECK(says(row.facts, row.phrase) == row.is_said);
  }
  // After a layoff it is said before the first set.
  CHECK(find(cautions_for(with(lifts::squat, comes_back)), dark_urine)->severity == Severity::warn);
}

TEST_CASE("no max attempt in the first weeks after a layoff") {
  SessionFacts facts = quiet();
  facts.reps = 1_reps;
  facts.reserve = 0_rir;
  CHECK_FALSE(cautions_for(facts).says_stop());
  facts.is_comeback = true;
  CHECK(cautions_for(facts).says_stop());
}

TEST_CASE("no caution says a figure that can be set") {
  // [assumption: the figures are the rules', which may be others]
  SessionFacts facts = quiet();
  facts.has_spotter = false;
  facts.safeties = Safeties::none;
  facts.alone = {.least = 3.0, .least_when_new = 5.0, .short_set = 5, .longest_set = 9};
  facts.sessions_until_known = 10;
  struct Row {
    Lift lift;
    int reps;
    double reserve;
    int earlier;
    std::string_view key;  // of the stop; empty: none
  };
  const Row rows[] = {
      {lifts::squat, 5, 3, 10, ""},
      {lifts::squat, 5, 3, 9, "not_alone"},
      {lifts::squat, 5, 5, 9, ""},
      {lifts::squat, 9, 7, 10, ""},
      {lifts::squat, 9, 6, 10, "not_alone"},
      {lifts::squat, 10, 9, 10, "not_alone"},
      {lifts::leg_press, 5, 2, 10, "stops_not_tried"},
      {lifts::bench_press + modifiers::dumbbells, 5, 2, 10, "not_alone"},
      {lifts::split_squat, 5, 2, 10, "not_alone"},
      {lifts::split_squat + modifiers::single_leg_dumbbells, 5, 0, 10, ""},
      {lifts::deadlift, 1, 0, 9, "max_attempt_too_early"},
      {lifts::deadlift, 1, 0, 0, "max_attempt_too_early"},
      {lifts::deadlift, 1, 0, 10, ""},
  };
  for (const Row& row : rows) {
    CAPTURE(row.reps);
    CAPTURE(row.reserve);
    facts.lift = row.lift;
    facts.reps = Reps(row.reps);
    facts.reserve = RepsInReserve(row.reserve);
    facts.earlier_sessions = row.earlier;
    const CautionList list = cautions_for(facts);
    CHECK(list.says_stop() == !row.key.empty());
    if (!list.says_stop()) continue;
    CHECK(list[0].key == row.key);
    CHECK(list[0].text.find_first_of("0123456789") == std::string_view::npos);
  }
}

TEST_CASE("strapped to the bench nobody presses alone, whatever is left") {
  // [assumption: nobody gets out from under the bar]
  SessionFacts facts = quiet(lifts::para_bench_press);
  facts.reps = 3_reps;
  facts.reserve = 10_rir;
  facts.earlier_sessions = 50;
  struct Row {
    bool has_spotter;
    Safeties safeties;
    bool is_stop;
  };
  for (const Row& row : {Row{false, Safeties::none, true}, Row{false, Safeties::unchecked, true},
                         Row{false, Safeties::checked, false}, Row{true, Safeties::none, false}}) {
    facts.has_spotter = row.has_spotter;
    facts.safeties = row.safeties;
    CHECK(cautions_for(facts).says_stop() == row.is_stop);
    CHECK(says(facts, "dysreflexia"));
    CHECK(says(facts, "straps"));
    CHECK_FALSE(says(facts, pinned));
    CHECK_FALSE(says(facts, "put a foot down rather"));
  }
  // The flat bench with as much left is not stopped.
  facts.lift = lifts::bench_press;
  facts.has_spotter = false;
  facts.safeties = Safeties::none;
  CHECK_FALSE(cautions_for(facts).says_stop());
}
