#include <doctest/doctest.h>

#include <barwright/equations.hpp>
#include <barwright/prescription.hpp>
#include <barwright/rep_table.hpp>
#include <cmath>

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("a percentage of a max") {
  static_assert(percent_of(100_kg, 72.5) == 72.5_kg);
  CHECK(percent_of(140_kg, 0.0) == Mass{});
  for (const double bad : {-1.0, 201.0, std::nan("")}) {
    CHECK_THROWS_AS((void)percent_of(100_kg, bad), DomainError);
  }
}

TEST_CASE("the load for a plan, put back as a set, returns the max") {
  equations::for_each([](const auto& equation) {
    for (int reps = 1; reps <= 12; ++reps) {
      for (const double left : {0.0, 0.5, 2.0, 4.0}) {
        const Mass load = load_for(equation, 137_kg, Reps(reps), RepsInReserve(left));
        const Mass back = one_rep_max(equation, load, Reps(reps), RepsInReserve(left));
        CHECK(std::abs(back.kg() - 137.0) <= 1e-12 * 137.0);
        CHECK(std::abs(reserve_left(equation, 137_kg, load, Reps(reps)) - left) <= 1e-9);
      }
    }
  });
}

TEST_CASE("a plan may name the rating in place of the reserve") {
  static_assert(load_for(equations::brzycki, 120_kg, 6_reps, 8_rpe) ==
                load_for(equations::brzycki, 120_kg, 6_reps, 2_rir));
  CHECK_THROWS_AS((void)load_for(equations::brzycki, 120_kg, 6_reps, 4_rpe), DomainError);
}

TEST_CASE("more reserve never raises a load") {
  equations::for_each([](const auto& equation) {
    for (double left = 0.0; left < 10.0; left += 0.5) {
      CHECK(load_for(equation, 100_kg, 5_reps, RepsInReserve(left + 0.5)) <
            load_for(equation, 100_kg, 5_reps, RepsInReserve(left)));
    }
  });
}

TEST_CASE("repetitions that will not all go up come out as a negative reserve") {
  CHECK(reserve_left(equations::brzycki, 120_kg, 100_kg, 5_reps) == doctest::Approx(2.0));
  CHECK(reserve_left(equations::brzycki, 120_kg, 100_kg, 9_reps) == doctest::Approx(-2.0));
  CHECK(reserve_left(equations::brzycki, 120_kg, 130_kg, 3_reps) == -3.0);  // not even one
}

TEST_CASE(
    "a warm-up starts with the empty bar and rises to the work load, ever fewer repetitions") {
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
  CHECK(warm_up(20_kg, 30_kg, 8_reps).count == 2);
  CHECK(warm_up(20_kg, 20_kg, 8_reps).count == 0);
  CHECK(warm_up(20_kg, 15_kg, 8_reps).count == 0);
  for (const WarmUpSet& set : warm_up(20_kg, 150_kg, 2_reps)) {
    CHECK((set.load == 20_kg || set.reps.count() <= 2));
  }
}

TEST_CASE("back-off sets are a share lighter") {
  CHECK(back_off(100_kg, 0.10).kg() == doctest::Approx(90.0));
  CHECK(back_off(100_kg, 0.0) == 100_kg);
  for (const double bad : {-0.01, 0.51, std::nan("")}) {
    CHECK_THROWS_AS((void)back_off(100_kg, bad), DomainError);
  }
}

TEST_CASE("the drop that keeps two in reserve after a heavy triple [NSCA chart, read]") {
  // 3 with 1 left is 90 %, 8 with 2 left is 75 %.
  CHECK(drop_for(rep_tables::nsca_chart, 3_reps, 1_rir, 8_reps, 2_rir) ==
        doctest::Approx(1.0 - 0.75 / 0.90));
  CHECK(drop_for(rep_tables::nsca_chart, 8_reps, 2_rir, 3_reps, 1_rir) == 0.0);
}

TEST_CASE("one or two repetitions beyond the plan ask for more load [ACSM 2009, abstract read]") {
  CHECK(exceeds_plan({6_reps, 7_reps}));
  CHECK(!exceeds_plan({6_reps, 6_reps}));
  CHECK(!exceeds_plan({6_reps, 7_reps}, 2));
  CHECK(!exceeds_plan({6_reps, 8_reps, true}));  // a miss is a miss
  CHECK_THROWS_AS((void)exceeds_plan({6_reps, 8_reps}, 3), DomainError);
  CHECK_THROWS_AS((void)exceeds_plan({6_reps, 8_reps}, 0), DomainError);
}

TEST_CASE("two for two: two more repetitions, two sessions in a row [handbook, recalled]") {
  CHECK(two_for_two({8_reps, 10_reps}, {8_reps, 10_reps}));
  CHECK(two_for_two({8_reps, 11_reps}, {8_reps, 10_reps}));
  CHECK(!two_for_two({8_reps, 9_reps}, {8_reps, 10_reps}));
  CHECK(!two_for_two({8_reps, 10_reps}, {8_reps, 9_reps}));
  CHECK(!two_for_two({8_reps, 10_reps}, {8_reps, 10_reps, true}));
}

TEST_CASE("the next load is 2 to 10 % up, at least a step [ACSM 2009, abstract read]") {
  CHECK(raised(100_kg, 0.05, 2.5_kg) == 105_kg);
  CHECK(raised(100_kg, 0.02, 2.5_kg) == 102.5_kg);  // 2 kg is no step: one step
  CHECK(raised(100_kg, 0.06, 2.5_kg) == 105_kg);
  CHECK(raised(100_kg, 0.06, 2.5_kg, Rounding::up) == 107.5_kg);
  CHECK(raised(100_kg, 0.10, 2.5_kg, Rounding::up) == 110_kg);
  CHECK(raised(225_lb, 0.025, 5_lb)->lb() == doctest::Approx(230.0));
  for (double load = 10.0; load <= 250.0; load += 2.5) {
    for (const double increase : {0.02, 0.025, 0.05, 0.10}) {
      const auto next = raised(Mass::from_kg(load), increase, 2.5_kg);
      if (!next) {
        CHECK(2.5 > 0.10 * load);
        continue;
      }
      CHECK(next->kg() > load);
      CHECK(next->kg() <= load * 1.1 + 1e-9);
    }
  }
}

TEST_CASE("when one step is more than 10 %, no load is the answer") {
  CHECK(!raised(20_kg, 0.05, 2.5_kg));
  CHECK(raised(25_kg, 0.05, 2.5_kg) == 27.5_kg);
  CHECK_THROWS_AS((void)raised(100_kg, 0.01, 2.5_kg), DomainError);
  CHECK_THROWS_AS((void)raised(100_kg, 0.11, 2.5_kg), DomainError);
  CHECK_THROWS_AS((void)raised(100_kg, 0.05, Mass{}), DomainError);
}
