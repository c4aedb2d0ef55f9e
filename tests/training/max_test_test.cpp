// A test of the max.
#include "barwright/training/max_test.hpp"

#include <doctest/doctest.h>

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
      CHECK(test.trials[0].kg() >= 0.50 * kg);  // 50 to 70 % of perceived capacity
      CHECK(test.trials[0].kg() <= 0.70 * kg + 1e-9);
      CHECK(test.trials[3] == expected);
      for (std::size_t i = 1; i < test.count; ++i) {
        const double step = (test.trials[i] - test.trials[i - 1]).kg();
        CHECK(step >= 2.5);
        CHECK(step <= 20.0 + 1e-9);
      }
      for (const WarmUpSet& set : test.practice) {
        CHECK(set.load < test.trials[0]);
        CHECK(reserve_left(equations::brzycki, expected, set.load, set.reps) >= 5.0);
      }
      // Of 50 kg the 40 % are the bar itself.
      if (kg > 50.0) CHECK((test.practice.sets[0].load == 20_kg) == (start == BarStart::rack));
    }
  }
  SUBCASE("the practice sets are those of a handbook's range: 40 and 55 % of what is expected") {
    // ACSM asks for several submaximal repetitions; these two shares are this library's choice.
    const MaxTest test = max_test(20_kg, 200_kg, BarStart::floor);
    REQUIRE(test.practice.count == 2);
    CHECK(test.practice.sets[0].load.kg() == doctest::Approx(80.0));
    CHECK(test.practice.sets[1].load.kg() == doctest::Approx(110.0));
    CHECK(test.practice.sets[0].reps == 5_reps);
    CHECK(test.practice.sets[1].reps == 3_reps);
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
    CHECK(test.count == 3);  // 40, 50 and 60 kg: 44 and 38.5 kg are the same bar
  }
  SUBCASE("at or below the lightest load there is nothing to test") {
    CHECK(max_test(20_kg, 20_kg).count == 0);
    CHECK(max_test(20_kg, 20_kg).practice.count == 0);
  }
}
