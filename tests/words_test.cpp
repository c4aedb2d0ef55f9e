// tests/words_test.cpp - every choice has a word of its own; what a program builds at run time
//
// The catalogue is put together while compiling, so what it is built with runs in no other test.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <array>
#include <barwright/barwright.hpp>
#include <initializer_list>
#include <set>
#include <sstream>
#include <string>
#include <string_view>

using namespace barwright;
using namespace barwright::literals;

namespace {

template <class Enum>
void check_words(std::initializer_list<Enum> values) {
  std::set<std::string> words;
  for (const Enum value : values) words.insert(std::string(to_text(value)));
  CHECK(words.size() == values.size());
  CHECK(words.count("") == 0);
}

}  // namespace

TEST_CASE("every choice has a word of its own") {
  check_words({Move::go_on, Move::hold, Move::step_back, Move::stop});
  check_words({Stage::introduction, Stage::working, Stage::deload, Stage::retest});
  check_words({NoteKind::requirement, NoteKind::caution, NoteKind::benefit, NoteKind::remark});
  check_words({Goal::muscle, Goal::lockout_strength, Goal::spare_lower_back,
               Goal::keep_upper_and_lower_apart});
  check_words({LiftFamily::horizontal_press, LiftFamily::overhead_press, LiftFamily::squat,
               LiftFamily::deadlift, LiftFamily::pull, LiftFamily::single_joint});
  check_words({Weekday::monday, Weekday::tuesday, Weekday::wednesday, Weekday::thursday,
               Weekday::friday, Weekday::saturday, Weekday::sunday});
  check_words({Unit::kg, Unit::lb});
  CHECK(to_text(Move::step_back) == "step back");
  CHECK(to_text(Weekday::thursday) == "Thursday");
}

TEST_CASE("no two setups of a lift share a bit") {
  unsigned seen = 0;
  for (const Setup setup :
       {Setup::bench_angle, Setup::grip_width, Setup::implement, Setup::surface, Setup::feet,
        Setup::back, Setup::lowering, Setup::turnaround, Setup::range_of_motion,
        Setup::bar_position, Setup::stance, Setup::posture}) {
    const auto bit = static_cast<unsigned>(setup);
    CHECK(bit != 0);
    CHECK((bit & (bit - 1)) == 0);
    CHECK((bit & seen) == 0);
    seen |= bit;
    CHECK(static_cast<unsigned>(setup | Setup::none) == bit);
  }
}

TEST_CASE("a modifier of one's own is put together while the program runs") {
  std::string key = "towel";
  const std::array<std::string_view, 1> aliases{"on a towel"};
  const std::array<std::string_view, 2> keys{"no such lift", lifts::bench_press.key};
  const std::array notes{Note{.kind = NoteKind::remark, .text = "It slips when wet."}};
  const Modifier towel = Modifier(key, "towel press", {0.90, 0.95, 1.0})
                             .with_aliases(aliases)
                             .with_lifts(keys)
                             .with_notes(notes);
  CHECK(towel.applies_to(lifts::bench_press));
  CHECK(!towel.applies_to(lifts::squat));
  CHECK(towel.aliases().size() == 1);
  CHECK(towel.notes().size() == 1);
  CHECK(!towel.strength_scaling());
  const Lift lift = lifts::bench_press + towel;
  CHECK(lift.ratio(100_kg).typical == 0.95);

  const Modifier scaled =
      towel.with_ratio(StrengthScaling(60_kg, {0.8, 0.85, 0.9}, 120_kg, {0.9, 0.95, 1.0}));
  REQUIRE(scaled.strength_scaling());
  CHECK(scaled.strength_scaling()->light_max() == 60_kg);
  CHECK(scaled.strength_scaling()->heavy_max() == 120_kg);
}

TEST_CASE("plates of one unit are named by their masses alone") {
  const std::array<double, 3> wanted{20.0, 10.0, 2.5};
  const Plates plates(Unit::kg, {2.5, 20.0, 10.0});
  REQUIRE(plates.size() == wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    CHECK(plates[i].mass() == MarkedMass(wanted[i], Unit::kg));
    CHECK(plates[i].is_unlimited());
  }
  CHECK(!Plate(20.0, Unit::kg, 2).is_unlimited());
  std::ostringstream out;
  out << plates[2].mass();
  CHECK(out.str() == "2.5 kg");
}
