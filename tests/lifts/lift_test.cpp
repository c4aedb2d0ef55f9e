// tests/lift_test.cpp - what a change to a lift costs, and how several changes stack
//
// The lifts and figures here are made up for the test; those of the catalogue are checked in
// catalogue_test.cpp.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/lifts/lift.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <deque>
#include <initializer_list>
#include <limits>
#include <map>
#include <random>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>
#include <utility>
#include <vector>

#include "barwright/core/short_list.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/lifts/stacking.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr std::array<std::string_view, 1> on_press{"press"};
constexpr std::array press_notes{
    Note{.kind = NoteKind::caution, .text = "a spotter", .source = common_practice("")},
    Note{.kind = NoteKind::requirement, .text = "push-ups first", .source = common_practice("")}};

constexpr BaseLift press{.key = "press",
                         .name = "press",
                         .family = LiftFamily::horizontal_press,
                         .muscles = Muscles::of({MuscleGroup::chest}, {MuscleGroup::lower_back}),
                         .notes = press_notes};
constexpr BaseLift pull{.key = "pull", .name = "pull", .family = LiftFamily::pull};

constexpr Modifier bare = Modifier("bare", "bare feet", {0.90, 0.95, 1.00})
                              .with_rep_stretch({0.8, 0.9, 1.0})
                              .with_muscles(MuscleShift::of({}, {MuscleGroup::lower_back}))
                              .with_notes(press_notes);
constexpr Modifier narrow =
    Modifier("narrow", "narrow", {0.85, 0.90, 1.00})
        .with_lifts(on_press)
        .with_setup(Setup::grip_width)
        .with_muscles(MuscleShift::of({MuscleGroup::triceps}, {MuscleGroup::lower_back}));
constexpr Modifier wide = Modifier("wide", "wide", {0.95, 1.00, 1.05})
                              .with_setup(Setup::grip_width | Setup::stance)
                              .with_starting_share(0.5);

constexpr Lift both = press + bare + narrow;

std::string message_of(auto action) {
  try {
    action();
  } catch (const DomainError& error) {
    return error.what();
  }
  return "no error";
}

}  // namespace

// A lift can be a constant of the program, and costs nothing to copy but its bytes.
static_assert(std::is_trivially_copyable_v<Lift>);
static_assert(std::is_convertible_v<const BaseLift&, Lift>);  // a base lift is a lift
static_assert(both.ratio(100_kg).typical > 0.85);
static_assert(press + narrow + bare == both);

TEST_CASE("two stacked modifiers multiply") {
  const Range<double> share = both.ratio(100_kg);
  CHECK(share.low == doctest::Approx(0.90 * 0.85).epsilon(1e-15));
  CHECK(share.typical == doctest::Approx(0.95 * 0.90).epsilon(1e-15));
  CHECK(share.high == doctest::Approx(1.0).epsilon(1e-15));

  const Range<Mass> max = both.max_from(200_kg);
  CHECK(max.low.kg() == doctest::Approx(153.0).epsilon(1e-14));
  CHECK(max.typical.kg() == doctest::Approx(171.0).epsilon(1e-14));
  CHECK(max.high.kg() == doctest::Approx(200.0).epsilon(1e-14));
}

TEST_CASE("a lift without changes keeps its whole max, its reps and its muscles") {
  const Lift plain = press;
  CHECK(plain.is_plain());
  for (const Stacking stacking : {Stacking::bounds, Stacking::spread}) {
    CHECK(plain.ratio(100_kg, stacking) == Range<double>::exactly(1.0));
    CHECK(plain.rep_stretch(stacking) == Range<double>::exactly(1.0));
  }
  CHECK(plain.muscles() == press.muscles);
  CHECK(plain.starting_share() == usual_starting_share);
}

TEST_CASE("the order in which changes are added does not matter") {
  const Lift other = press + narrow + bare;
  CHECK(other == both);
  CHECK(other.id() == both.id());
  CHECK(std::hash<Lift>{}(other) == std::hash<Lift>{}(both));
  CHECK(other.name() == both.name());
  CHECK(other.name() == "press, bare feet, narrow");
  CHECK(other.ratio(100_kg) == both.ratio(100_kg));  // the very same products, in the same order
  CHECK(other.muscles() == both.muscles());
  CHECK(press + bare != both);
  CHECK((press + bare).id() < both.id());
  CHECK(press != Lift(pull));
  CHECK_FALSE(Lift(press).same_as(pull));
  CHECK_FALSE((press + bare).same_as(both));
  CHECK_FALSE((press + bare).same_as(press + narrow));
}

TEST_CASE("a lift with figures of one's own is the same lift, though not equal to it") {
  const Modifier shy = bare.with_ratio({0.5, 0.5, 0.5});
  const Lift mine = press + shy;
  CHECK(mine.same_as(press + bare));
  CHECK(mine.id() == (press + bare).id());
  CHECK(std::hash<LiftId>{}(mine.id()) == std::hash<LiftId>{}((press + bare).id()));
  CHECK(mine != press + bare);
  CHECK(mine.ratio(100_kg) != (press + bare).ratio(100_kg));
  CHECK(shy != bare);
  CHECK(shy.same_as(bare));
  // Made twice from the same words it is equal, wherever the two lie.
  const Modifier again = bare.with_ratio({0.5, 0.5, 0.5});
  CHECK(again == shy);
  CHECK(press + again == mine);
  // One thing that differs is enough.
  CHECK(bare != bare.with_rep_stretch({0.7, 0.8, 0.9}));
  CHECK(bare != bare.with_starting_share(0.4));
  CHECK(bare != bare.with_setup(Setup::feet));
  CHECK(bare != bare.with_notes({}));
  CHECK(bare != bare.with_muscles({}));
  CHECK(bare != bare.with_lifts(on_press));
  CHECK(bare != bare.with_aliases(on_press));
  static constexpr BaseLift bodyweight_press{
      .key = "press", .name = "press", .is_bodyweight = true};
  CHECK(Lift(bodyweight_press).same_as(press));
  CHECK(Lift(bodyweight_press) != Lift(press));
}

TEST_CASE("lifts are kept in maps by what they are called") {
  const Modifier shy = bare.with_ratio({0.5, 0.5, 0.5});
  std::unordered_map<LiftId, int> hashed;
  std::map<LiftId, int> ordered;
  for (const Lift& lift : {Lift(press), press + bare, press + shy, Lift(pull), both}) {
    ++hashed[lift.id()];
    ++ordered[lift.id()];
  }
  CHECK(hashed.size() == 4);
  CHECK(hashed[(press + bare).id()] == 2);
  CHECK(ordered.size() == 4);
  CHECK(ordered.begin()->first == Lift(press).id());
  // The keys are kept apart: "press" with "bare" is not "pressbare".
  static constexpr BaseLift run_together{.key = "pressbare", .name = "press"};
  CHECK(Lift(run_together).id().hash() != (press + bare).id().hash());
}

// A lift points at its base and its modifiers: at what lasts, never at a temporary.
template <class Base, class Change>
concept can_be_added = requires {
  std::declval<Base>() + std::declval<Change>();
};
static_assert(sizeof(Lift) == 80);
static_assert(std::is_trivially_copyable_v<Lift>);
static_assert(!std::is_copy_constructible_v<Modifier> && !std::is_copy_assignable_v<Modifier>);
static_assert(!std::is_copy_constructible_v<BaseLift> && !std::is_copy_assignable_v<BaseLift>);
static_assert(can_be_added<const BaseLift&, const Modifier&>);
static_assert(can_be_added<const Lift&, const Modifier&>);
static_assert(can_be_added<Lift, const Modifier&>);
static_assert(!can_be_added<const BaseLift&, Modifier>);
static_assert(!can_be_added<const BaseLift&, const Modifier>);
static_assert(!can_be_added<BaseLift, const Modifier&>);
static_assert(!can_be_added<BaseLift, Modifier>);
static_assert(!can_be_added<const Lift&, Modifier>);
static_assert(!can_be_added<const Lift&, const Modifier>);
static_assert(std::is_constructible_v<Lift, const BaseLift&>);
static_assert(!std::is_constructible_v<Lift, BaseLift>);
static_assert(!std::is_constructible_v<Lift, const BaseLift>);

TEST_CASE("each factor of a stack can be read off") {
  double product = 1.0;
  for (const Modifier& modifier : both.modifiers()) product *= modifier.ratio(100_kg).typical;
  CHECK(product == doctest::Approx(both.ratio(100_kg).typical).epsilon(1e-15));
  CHECK(both.has(narrow));
  CHECK_FALSE(both.has(wide));
}

TEST_CASE("one modifier's range is the same read as bounds or as a spread") {
  const Lift one = press + narrow;
  const Range<double> spread = one.ratio(100_kg, Stacking::spread);
  CHECK(spread.low == doctest::Approx(0.85).epsilon(1e-14));
  CHECK(spread.typical == 0.90);
  CHECK(spread.high == doctest::Approx(1.00).epsilon(1e-14));
}

TEST_CASE("a spread is narrower than the bounds, about the same likeliest value") {
  const Range<double> bounds = both.ratio(100_kg, Stacking::bounds);
  const Range<double> spread = both.ratio(100_kg, Stacking::spread);
  CHECK(spread.low > bounds.low);
  CHECK(spread.high < bounds.high);
  CHECK(spread.typical == bounds.typical);
  CHECK(spread.contains(bounds.typical));
}

TEST_CASE("two equal spreads are wider than one by the square root of two, in logs") {
  // Derived: variances of independent logs add.
  const Range<double> one(0.8, 1.0, 1.25);
  const Range<double> two = stacked(one, one, Stacking::spread);
  CHECK(two.low == doctest::Approx(std::pow(0.8, std::sqrt(2.0))).epsilon(1e-14));
  CHECK(two.high == doctest::Approx(std::pow(1.25, std::sqrt(2.0))).epsilon(1e-14));
}

TEST_CASE("stacking a factor known exactly only scales") {
  const Range<double> range(0.85, 0.90, 1.00);
  const Range<double> scaled = stacked(range, Range<double>::exactly(0.5), Stacking::spread);
  CHECK(scaled.low == doctest::Approx(0.425).epsilon(1e-14));
  CHECK(scaled.high == doctest::Approx(0.5).epsilon(1e-14));
}

namespace {

// A factor drawn as `log_moments` describes it: half-normals either side of the median.
double draw(const Range<double>& range, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  const double z = normal(random) / 1.6448536269514722;  // 95th percentile of the normal
  return z < 0.0 ? range.typical * std::pow(range.typical / range.low, z)
                 : range.typical * std::pow(range.high / range.typical, z);
}

}  // namespace

TEST_CASE("nine lifters in ten fall inside a spread, as a simulation counts them") {
  std::mt19937_64 random(20240601);
  constexpr int lifters = 400'000;
  const auto share_within = [&](const Range<double>& a, const Range<double>& b) {
    const Range<double> spread = stacked(a, b, Stacking::spread);
    int within = 0;
    for (int i = 0; i < lifters; ++i) within += spread.contains(draw(a, random) * draw(b, random));
    return static_cast<double>(within) / lifters;
  };
  // Even ranges: exact, so within 4 standard errors of the count, sqrt(0.9 x 0.1 / n).
  const double four_errors = 4.0 * std::sqrt(0.09 / lifters);
  CHECK(std::abs(share_within({0.90, 0.95, 0.95 * 0.95 / 0.90}, {0.8, 1.0, 1.25}) - 0.90) <
        four_errors);
  // Lop-sided ranges: stacking each side by itself is an approximation. It misses by less than one
  // lifter in a hundred; where a range has no upper side at all it takes in two too many.
  CHECK(std::abs(share_within({0.85, 0.90, 1.00}, {0.90, 0.95, 1.02}) - 0.90) < 0.01);
  const double one_sided = share_within({0.90, 0.95, 0.95}, {0.93, 0.97, 1.00});
  CHECK(one_sided > 0.90);
  CHECK(one_sided < 0.92);
}

TEST_CASE("a range as a prior: the moments of its logarithm") {
  SUBCASE("an even range is a log-normal, its ends 1.645 standard deviations out") {
    // The 95th percentile of the normal distribution is 1.645 in every printed table.
    const LogMoments moments = log_moments({0.8, 1.0, 1.25});
    CHECK(moments.mean == doctest::Approx(0.0));
    CHECK(std::abs(std::log(1.25) / moments.standard_deviation - 1.645) < 0.0005);
  }
  SUBCASE("an exact factor has none") {
    const LogMoments moments = log_moments(Range<double>::exactly(0.9));
    CHECK(moments.mean == std::log(0.9));
    CHECK(moments.standard_deviation == 0.0);
  }
  SUBCASE("a lop-sided range agrees with a simulation to 4 standard errors") {
    const Range<double> range(0.85, 0.95, 0.97);
    const LogMoments moments = log_moments(range);
    std::mt19937_64 random(7);
    constexpr int draws = 400'000;
    double sum = 0.0;
    double sum_of_squares = 0.0;
    for (int i = 0; i < draws; ++i) {
      const double log_share = std::log(draw(range, random));
      sum += log_share;
      sum_of_squares += log_share * log_share;
    }
    const double mean = sum / draws;
    const double deviation = std::sqrt(sum_of_squares / draws - mean * mean);
    CHECK(std::abs(mean - moments.mean) < 4.0 * deviation / std::sqrt(draws));
    CHECK(std::abs(deviation / moments.standard_deviation - 1.0) < 0.01);
  }
}

TEST_CASE("a ratio that depends on strength: straight between two maxes, held beyond them") {
  constexpr StrengthScaling scaling(100_kg, {0.90, 0.95, 1.00}, 140_kg, {0.85, 0.90, 0.95});
  static_assert(scaling.at(100_kg) == Range<double>(0.90, 0.95, 1.00));
  CHECK(scaling.at(60_kg) == scaling.at(100_kg));
  CHECK(scaling.at(200_kg) == scaling.at(140_kg));
  CHECK(scaling.at(120_kg).low == doctest::Approx(0.875).epsilon(1e-14));
  CHECK(scaling.at(120_kg).typical == doctest::Approx(0.925).epsilon(1e-14));
  CHECK(scaling.at(120_kg).high == doctest::Approx(0.975).epsilon(1e-14));
  CHECK(scaling.overall().low == 0.85);
  CHECK(scaling.overall().typical == doctest::Approx(0.925));
  CHECK(scaling.overall().high == 1.00);

  const Modifier scaled("scaled", "scaled", scaling);
  CHECK((press + scaled).ratio(120_kg).typical == doctest::Approx(0.925).epsilon(1e-14));
  CHECK((press + scaled + narrow).ratio(140_kg).typical ==
        doctest::Approx(0.90 * 0.90).epsilon(1e-14));

  CHECK(message_of([] { (void)StrengthScaling(0_kg, {}, 140_kg, {}); }) ==
        "the lighter max of a scaling must be more than 0 kg; got 0");
  CHECK(message_of([] { (void)StrengthScaling(140_kg, {}, 140_kg, {}); }) ==
        "the heavier max of a scaling must be more than the lighter; got 140");
}

TEST_CASE("every figure can be replaced, and the lift stays the same lift") {
  const Modifier mine = narrow.with_ratio({0.97, 0.98, 0.99}).with_rep_stretch({0.7, 0.8, 0.9});
  const Lift own = press + bare + mine;
  CHECK(own.same_as(both));  // what is believed about a change is not what it is
  CHECK(own.ratio(100_kg).typical == doctest::Approx(0.95 * 0.98).epsilon(1e-15));
  CHECK(own.rep_stretch().typical == doctest::Approx(0.9 * 0.8).epsilon(1e-15));
  CHECK(narrow.ratio(100_kg).typical == 0.90);  // the one it was made from is untouched
  CHECK(mine.ratio_figure().evidence == Evidence::assumption);
  CHECK(mine.ratio_figure().findings.empty());

  const StrengthScaling scaling(100_kg, {0.90, 0.95, 1.00}, 140_kg, {0.85, 0.90, 0.95});
  const Modifier scaled = narrow.with_ratio(scaling);
  CHECK(scaled.ratio(140_kg).typical == 0.90);
  CHECK(scaled.ratio_figure().value == scaling.overall());
  // A plain ratio replaces the scaling too.
  CHECK(scaled.with_ratio({0.9, 0.91, 0.92}).ratio(140_kg).typical == 0.91);
}

TEST_CASE("reps run out sooner on a lift with a stretch below one") {
  const Lift lift = press + bare;
  const auto curve = lift.curve(equations::brzycki);
  static_assert(RepCurve<decltype(lift.curve(equations::brzycki))>);
  CHECK(curve.stretch() == 0.9);
  // Derived: 80 % on Brzycki's line is 8.2 reps; 1 + 0.9 x 7.2 = 7.48 here.
  CHECK(equations::brzycki.reps(0.8) == doctest::Approx(8.2).epsilon(1e-12));
  CHECK(curve.reps(0.8) == doctest::Approx(7.48).epsilon(1e-12));
  CHECK(curve.fraction(1.0) == equations::brzycki.fraction(1.0));  // a single is a single
}

TEST_CASE("the most careful modifier says where a lifter new to the lift starts") {
  CHECK((press + bare).starting_share() == 0.70);
  CHECK((press + bare + wide).starting_share() == 0.50);
}

TEST_CASE("muscles: a direct set counts one, an indirect set a half") {
  // Pelland et al. 2024 (preprint; abstract read): direct = 1, indirect = 0.5.
  CHECK(fraction_of_set(Involvement::direct) == 1.0);
  CHECK(fraction_of_set(Involvement::indirect) == 0.5);
  CHECK(fraction_of_set(Involvement::none) == 0.0);
}

TEST_CASE("modifiers move muscles a step up or down, never past none or direct") {
  const Muscles muscles = both.muscles();
  CHECK(muscles[MuscleGroup::chest] == Involvement::direct);
  CHECK(muscles[MuscleGroup::triceps] == Involvement::indirect);
  CHECK(muscles[MuscleGroup::lower_back] == Involvement::none);  // two steps down from indirect
  const MuscleShift down = MuscleShift::of({MuscleGroup::chest}, {MuscleGroup::triceps});
  CHECK(down[MuscleGroup::chest] == 1);
  CHECK(down[MuscleGroup::triceps] == -1);
  CHECK(down[MuscleGroup::lower_back] == 0);
  const Modifier less_chest = Modifier("off", "off", Range<double>::exactly(1.0))
                                  .with_muscles(MuscleShift::of({}, {MuscleGroup::chest}));
  CHECK((press + less_chest).muscles()[MuscleGroup::chest] == Involvement::indirect);
  const Modifier more_chest =
      Modifier("chest", "chest", Range<double>::exactly(1.0))
          .with_muscles(MuscleShift::of({MuscleGroup::chest, MuscleGroup::lower_back}, {}));
  CHECK((press + more_chest).muscles()[MuscleGroup::chest] == Involvement::direct);
  CHECK((press + more_chest).muscles()[MuscleGroup::lower_back] == Involvement::direct);
  // One up and two down meet between, in any order: steps add before they are held.
  CHECK((both + more_chest).muscles()[MuscleGroup::lower_back] == Involvement::none);
  CHECK((press + bare + more_chest).muscles()[MuscleGroup::lower_back] == Involvement::indirect);
}

TEST_CASE("every muscle group has a name of its own") {
  for (const MuscleGroup a : all_muscle_groups) {
    CHECK_FALSE(to_text(a).empty());
    int same = 0;
    for (const MuscleGroup b : all_muscle_groups) same += to_text(a) == to_text(b);
    CHECK(same == 1);
  }
}

TEST_CASE("notes are sorted by kind, and said once") {
  const NoteList cautions = (press + bare).cautions();  // the lift and the modifier say the same
  REQUIRE(cautions.size() == 1);
  CHECK(cautions[0].text == "a spotter");
  REQUIRE((press + bare).requirements().size() == 1);
  CHECK((press + bare).requirements()[0].text == "push-ups first");
  CHECK((press + bare).notes(NoteKind::benefit).empty());
}

TEST_CASE("a change that does not fit says why") {
  CHECK(message_of([] { (void)(pull + narrow); }) ==
        "a modifier must be one that applies to the pull; got narrow");
  CHECK(message_of([] { (void)(press + narrow + narrow); }) ==
        "a modifier must be added once; got narrow");
  CHECK(message_of([] { (void)(press + narrow + wide); }) ==
        "a modifier must be one that can go together with narrow; got wide");
  CHECK(message_of([] {
          static constexpr BaseLift unnamed{};
          (void)Lift(unnamed);
        }) == "a lift's key must be a short word; got nothing");
  CHECK_FALSE(Lift(pull).accepts(narrow));
  CHECK_FALSE((press + narrow).accepts(narrow));
  CHECK_FALSE((press + narrow).accepts(wide));
  CHECK((press + narrow).accepts(bare));
}

TEST_CASE("a figure that cannot be is refused when it is given") {
  CHECK(message_of([] {
          (void)Modifier("", "no key", {1, 1, 1});
        }) == "a modifier's key must be a short word; got nothing");
  CHECK(message_of([] {
          (void)Modifier("zero", "zero", {0.0, 0.5, 1.0});
        }) == "a ratio to the lift without the change must be a number from 0.1 to 10; got 0");
  CHECK(message_of([] {
          (void)bare.with_ratio({0.9, 95, 100});
        }) ==  // a percentage typed as ratio
        "a ratio to the lift without the change must be a number from 0.1 to 10; got 100");
  CHECK(message_of([] {
          (void)bare.with_rep_stretch({0.0, 0.5, 1.0});
        }) == "a rep stretch must be a number from 0.1 to 10; got 0");
  CHECK(message_of([] { (void)bare.with_starting_share(70); }) ==
        "a starting share must be a number from 0.1 to 1; got 70");
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS((void)bare.with_ratio({nan, nan, nan}), DomainError);
  CHECK_THROWS_AS((void)bare.with_starting_share(nan), DomainError);
  CHECK_THROWS_AS((void)Lift(press).ratio(0_kg), DomainError);
  CHECK(message_of([] { (void)both.ratio(0_kg); }) ==
        "a reference max must be more than 0 kg; got 0");
}

TEST_CASE("a lift takes eight modifiers and refuses the ninth") {
  constexpr std::array<std::string_view, 9> keys{"i", "c", "e", "a", "b", "h", "d", "g", "f"};
  Lift lift = press;
  std::deque<Modifier> own;  // does not move them when it grows
  for (std::size_t i = 0; i < 8; ++i) {
    lift = lift + own.emplace_back(keys[i], keys[i], Range<double>::exactly(0.9));
  }
  CHECK(lift.name() == "press, a, b, c, d, e, g, h, i");
  CHECK(lift.ratio(100_kg).typical == doctest::Approx(std::pow(0.9, 8)).epsilon(1e-14));
  const Modifier ninth(keys[8], keys[8], Range<double>::exactly(0.9));
  CHECK_FALSE(lift.accepts(ninth));
  CHECK(message_of([&] { (void)(lift + ninth); }) ==
        "the modifiers of a lift must be at most 8; got 9");
}

TEST_CASE("a short list keeps its order, and refuses what it has no room for") {
  ShortList<int, 3> list;
  list.append(1);
  list.append(3);
  list.insert(1, 2);
  CHECK(std::vector<int>(list.begin(), list.end()) == std::vector<int>{1, 2, 3});
  CHECK_THROWS_AS(list.append(4), DomainError);
  list.drop_last();
  CHECK(list.size() == 2);
}
