// From a max to a load.
#include "barwright/training/prescription.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "barwright/curves/equations.hpp"

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

TEST_CASE("a max below nothing gives no load") {
  CHECK(load_for(equations::epley, Mass{}, 5_reps) == Mass{});
  CHECK_THROWS_WITH((void)load_for(equations::epley, -5_kg, 5_reps),
                    "a max must be 0 kg or more; got -5");
  CHECK_THROWS_AS((void)percent_of(100_kg - 120_kg, 70.0), DomainError);
}

TEST_CASE("more reserve never raises a load") {
  equations::for_each([](const auto& equation) {
    for (double left = 0.0; left < 10.0; left += 0.5) {
      CHECK(load_for(equation, 100_kg, 5_reps, RepsInReserve(left + 0.5)) <
            load_for(equation, 100_kg, 5_reps, RepsInReserve(left)));
    }
  });
}

TEST_CASE("reps that will not all go up come out as a negative reserve") {
  CHECK(reserve_left(equations::brzycki, 120_kg, 100_kg, 5_reps) == doctest::Approx(2.0));
  CHECK(reserve_left(equations::brzycki, 120_kg, 100_kg, 9_reps) == doctest::Approx(-2.0));
  CHECK(reserve_left(equations::brzycki, 120_kg, 130_kg, 3_reps) == -3.0);  // not even one
}
