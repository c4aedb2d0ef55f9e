// The sets before the work sets.
#include "barwright/training/warm_up.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "barwright/curves/equations.hpp"
#include "barwright/training/prescription.hpp"

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("a warm-up starts with the empty bar and rises to the work load, ever fewer reps") {
  constexpr WarmUp plan = warm_up(20_kg, 100_kg, 6_reps);
  static_assert(plan.count == 5);
  CHECK(plan.sets[0].load == 20_kg);
  Mass before{};
  int reps_before = 100;
  for (const WarmUpSet& set : plan) {
    CHECK(set.load > before);
    CHECK(set.load < 100_kg);
    CHECK(set.reps.count() <= reps_before);
    before = set.load;
    reps_before = set.reps.count();
  }
  CHECK(before >= 85_kg);
  CHECK(reps_before == 1);
}

TEST_CASE("every warm-up set leaves more in reserve than the work set") {
  for (const double work : {30.0, 45.0, 60.0, 100.0, 200.0}) {
    for (int reps = 1; reps <= 12; ++reps) {
      const Mass load = Mass::from_kg(work);
      const Mass max = one_rep_max(equations::brzycki, load, Reps(reps), 2_rir);
      for (const WarmUpSet& set : warm_up(20_kg, load, Reps(reps))) {
        CHECK(reserve_left(equations::brzycki, max, set.load, set.reps) > 2.0);
      }
    }
  }
}

TEST_CASE("a light work load has a short warm-up, the empty bar none") {
  CHECK(warm_up(20_kg, 30_kg, 8_reps).count <= 3);
  CHECK(warm_up(20_kg, 25_kg, 8_reps).count == 1);
  CHECK(warm_up(20_kg, 20_kg, 8_reps).count == 0);
  CHECK(warm_up(20_kg, 15_kg, 8_reps).count == 0);
}

TEST_CASE("reps fall 8 to 6, 5 or 4, 3 or 2, 1, whatever the work set is") {
  // [common practice, no source; a single was once warmed up for with singles from 40 %]
  for (const double kg : {40.0, 60.0, 100.0, 160.0, 250.0, 320.0}) {
    const auto expected = [&](double share) {
      return share < 0.5 ? 6 : share < 0.7 ? 4 : share < 0.8 ? 3 : 1;
    };
    for (int reps = 1; reps <= 20; ++reps) {
      CAPTURE(kg);
      CAPTURE(reps);
      for (const WarmUpSet& set : warm_up(20_kg, Mass::from_kg(kg), Reps(reps))) {
        if (set.load == 20_kg && kg > 50.0) {
          CHECK(set.reps == 8_reps);
        } else if (set.load > 20_kg) {
          CHECK(set.reps.count() == expected(set.load.kg() / kg));
        }
      }
    }
  }
}

TEST_CASE("the largest last jump follows from the work load") {
  for (double kg = 40.0; kg <= 400.0; kg += 5.0) {
    CAPTURE(kg);
    for (const int reps : {1, 3, 8}) {
      const WarmUp plan = warm_up(20_kg, Mass::from_kg(kg), Reps(reps));
      REQUIRE(plan.count > 0);
      const double jump = kg - plan.sets[plan.count - 1].load.kg();
      CHECK(jump <= 0.13 * kg + 1e-9);
      CHECK(jump <= std::max(25.0, 0.07 * kg) + 1e-9);
    }
  }
}

TEST_CASE("two or three sets lead up to dumbbells") {
  // [common practice, no source] From a rack in steps of 2.5 kg.
  const auto rack = [](Mass load) { return std::max(rounded(load, 2.5_kg), 2.5_kg); };
  for (double kg = 7.5; kg <= 70.0; kg += 2.5) {
    CAPTURE(kg);
    const WarmUp plan = dumbbell_warm_up(Mass::from_kg(kg), rack);
    CHECK(plan.count >= 1);
    CHECK(plan.count <= (kg < 30.0 ? 2 : 3));
    Mass before{};
    int reps_before = 100;
    for (const WarmUpSet& set : plan) {
      CHECK(set.load > before);
      CHECK(set.load < Mass::from_kg(kg));
      CHECK(set.reps.count() < reps_before);
      before = set.load;
      reps_before = set.reps.count();
    }
  }
  CHECK(dumbbell_warm_up(2.5_kg, rack).count == 0);
}

TEST_CASE("nobody lifts nothing: a machine that weighs nothing empty has no set without plates") {
  const WarmUp plan = warm_up(Mass{}, 100_kg, 10_reps);
  REQUIRE(plan.count == 4);
  CHECK(plan.sets[0].load == 40_kg);
}

TEST_CASE("warm-up steps lie apart as they are loaded, not only as they were wanted") {
  // Plates of 10 kg only.
  const auto in_twenties = [](Mass load) { return rounded(load, 20_kg); };
  for (double kg = 40.0; kg <= 250.0; kg += 20.0) {
    const Mass work = Mass::from_kg(kg);
    for (int reps = 1; reps <= 8; ++reps) {
      Mass before{};
      for (const WarmUpSet& set : warm_up(20_kg, work, Reps(reps), BarStart::rack, in_twenties)) {
        CHECK(set.load >= before + 20_kg);
        CHECK(set.load <= work - 20_kg);
        CHECK(rounded(set.load, 20_kg) == set.load);
        before = set.load;
      }
    }
  }
  // In steps of 2.5 kg a tenth of 40 kg is 4 kg: 87 % is 35 kg, 5 kg from the work load.
  const auto fine = [](Mass load) { return rounded(load, 2.5_kg); };
  const WarmUp plan = warm_up(20_kg, 40_kg, 5_reps, BarStart::rack, fine);
  REQUIRE(plan.count == 4);
  CHECK(plan.sets[1].load == 25_kg);
  CHECK(plan.sets[2].load == 30_kg);
  CHECK(plan.sets[3].load == 35_kg);
}

TEST_CASE("a lift from the floor starts near 40 % with plates on, never with the empty bar") {
  for (double kg = 60.0; kg <= 250.0; kg += 10.0) {
    const WarmUp plan = warm_up(20_kg, Mass::from_kg(kg), 5_reps, BarStart::floor);
    REQUIRE(plan.count > 0);
    CHECK(plan.sets[0].load.kg() == doctest::Approx(0.4 * kg));
    CHECK(plan.sets[0].load > 20_kg);
  }
  SUBCASE("nor below the lightest load at the usual height") {
    const WarmUp plan = warm_up(60_kg, 120_kg, 5_reps, BarStart::floor);
    CHECK(plan.sets[0].load == 60_kg);
    CHECK(plan.sets[1].load.kg() == doctest::Approx(72.0));
    CHECK(warm_up(60_kg, 60_kg, 5_reps, BarStart::floor).count == 0);
    CHECK(warm_up(60_kg, 62.5_kg, 5_reps, BarStart::floor).count == 0);
  }
}

TEST_CASE("before heavy singles and doubles there is a step between 90 and 95 %") {
  for (const int reps : {1, 2}) {
    for (const double kg : {100.0, 140.0, 200.0, 250.0}) {
      const WarmUp plan = warm_up(20_kg, Mass::from_kg(kg), Reps(reps));
      const WarmUpSet& last = plan.sets[plan.count - 1];
      CHECK(last.load.kg() >= 0.90 * kg);
      CHECK(last.load.kg() <= 0.95 * kg);
      CHECK(last.reps == 1_reps);
      CHECK(plan.count <= WarmUp::most);
    }
  }
  const WarmUp triple = warm_up(20_kg, 100_kg, 3_reps);
  CHECK(triple.sets[triple.count - 1].load < 90_kg);
}

TEST_CASE("before a set of three or more the steps are 40, 60, 75 and 87 % for 6, 4, 3 and 1") {
  const WarmUp plan = warm_up(20_kg, 150_kg, 8_reps);  // common practice, no source
  const double shares[] = {0.40, 0.60, 0.75, 0.87};
  const int reps[] = {6, 4, 3, 1};
  REQUIRE(plan.count == 5);  // and the empty bar
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(plan.sets[i + 1].load.kg() == doctest::Approx(150.0 * shares[i]).epsilon(1e-12));
    CHECK(plan.sets[i + 1].reps.count() == reps[i]);
  }
}

TEST_CASE("before one or two heavy reps the steps are 40, 60, 75, 85 and 93 % of the load") {
  const WarmUp plan = warm_up(20_kg, 200_kg, 2_reps);
  const double shares[] = {0.40, 0.60, 0.75, 0.85, 0.93};
  REQUIRE(plan.count == 6);  // and the empty bar
  CHECK(plan.sets[0].load == 20_kg);
  CHECK(plan.sets[0].reps == 8_reps);  // common practice, no source
  std::size_t i = 0;
  for (const WarmUpSet& set : plan) {
    if (i > 0) CHECK(set.load.kg() == doctest::Approx(200.0 * shares[i - 1]).epsilon(1e-12));
    ++i;
  }
}
