// A test of the max.
#include "barwright/training/max_test.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "barwright/curves/equations.hpp"
#include "barwright/training/prescription.hpp"

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("a max test is light sets, then at most four single trials [ACSM 9th ed. 2014, read]") {
  static_assert(MaxTest::most_trials == 4);
  static_assert(MaxTest::least_rest_minutes == 3 && MaxTest::most_rest_minutes == 5);
  for (double kg = 40.0; kg <= 200.0; kg += 2.5) {
    const Mass expected = Mass::from_kg(kg);
    for (const BarStart start : {BarStart::rack, BarStart::floor}) {
      const MaxTest test = max_test(20_kg, expected, start);
      REQUIRE(test.count == 4);
      CHECK(test.trials[3] == expected);
      for (std::size_t i = 1; i < test.count; ++i) {
        CHECK((test.trials[i] - test.trials[i - 1]).kg() <= 20.0 + 1e-9);  // the guideline's most
      }
      // A first load of 50 to 70 % of perceived capacity is among the light sets.
      const auto is_first_load = [&](const WarmUpSet& set) {
        return set.load.kg() >= 0.5 * kg && set.load.kg() <= 0.7 * kg + 1e-9;
      };
      CHECK(std::any_of(test.practice.begin(), test.practice.end(), is_first_load));
      for (const WarmUpSet& set : test.practice) {
        CHECK(set.load < test.trials[0]);
        CHECK(reserve_left(equations::brzycki, expected, set.load, set.reps) >= 5.0);
      }
      // Of 50 kg the 40 % are the bar itself.
      if (kg > 50.0) CHECK((test.practice.sets[0].load == 20_kg) == (start == BarStart::rack));
    }
  }
  SUBCASE("light sets to 80 %, trials near 85, 92.5, 97.5 and 100 %, and a small step more") {
    // [common practice, no source]
    const MaxTest test = max_test(20_kg, 200_kg, BarStart::floor);
    const double light[] = {80, 120, 140, 160};
    const int reps[] = {6, 4, 2, 1};
    REQUIRE(test.practice.count == 4);
    for (std::size_t i = 0; i < 4; ++i) {
      CHECK(test.practice.sets[i].load.kg() == doctest::Approx(light[i]));
      CHECK(test.practice.sets[i].reps.count() == reps[i]);
    }
    const double trials[] = {170, 185, 195, 200};
    for (std::size_t i = 0; i < 4; ++i) CHECK(test.trials[i].kg() == doctest::Approx(trials[i]));
    CHECK(test.one_more.kg() == doctest::Approx(205));
    // Steps grow smaller towards the max.
    CHECK(test.trials[1] - test.trials[0] > test.trials[2] - test.trials[1]);
    CHECK(test.trials[2] - test.trials[1] > test.trials[3] - test.trials[2]);
  }
  SUBCASE("on what can be loaded") {
    const auto in_tens = [](Mass load) { return rounded(load, 10_kg); };
    const MaxTest test = max_test(20_kg, 55_kg, BarStart::rack, in_tens);
    Mass before{};
    for (const Mass trial : test) {
      CHECK(trial > before);
      CHECK(rounded(trial, 10_kg) == trial);
      before = trial;
    }
    CHECK(test.count == 2);  // 50 and 60 kg: 85 and 92.5 % are the same bar
  }
  SUBCASE("at or below the lightest load there is nothing to test") {
    CHECK(max_test(20_kg, 20_kg).count == 0);
    CHECK(max_test(20_kg, 20_kg).practice.count == 0);
  }
}
