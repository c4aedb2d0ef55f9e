// tests/chain_test.cpp - the forward chain as a whole: set, max, variation, load, plates
//
// Laws that hold whatever the figures are, checked on every lift of the catalogue and every curve.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <barwright/barwright.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "all_lifts.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr double rounding = 1e-12;

bool are_close(Mass a, Mass b) { return std::abs(a.kg() - b.kg()) <= rounding * std::abs(b.kg()); }

/// Calls `visit` with every published equation and chart.
void for_each_curve(auto visit) {
  equations::for_each([&](const auto& equation) { visit(equation); });
  visit(rep_tables::nsca_chart);
  visit(rep_tables::baechle_earle);
}

/// Whether `curve` reaches so many reps to failure.
bool reaches(const RepCurve auto& curve, Reps reps, RepsInReserve left) {
  return curve.defined().contains(reps_to_failure(reps, left));
}

}  // namespace

TEST_CASE("a program as in the README goes from one set to the plates on the bar") {
  constexpr Mass best = one_rep_max(equations::brzycki, 100_kg, 5_reps, 2_rir);
  static_assert(best > 119.999_kg && best < 120.001_kg);  // 7 to failure: 36 / 30
  constexpr Mass today = load_for(equations::brzycki, best, 6_reps, 2_rir);
  static_assert(today > 96.66_kg && today < 96.67_kg);  // 8 to failure: 29 / 36

  const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
  const Range<Mass> max = lift.max_from(best);
  CHECK(max.low > 90_kg);
  CHECK(max.low < max.typical);
  CHECK(max.typical < max.high);
  CHECK(max.high < best * 1.05);
  const Loading bar = plate_sets::gym_kg.at_most(max.low * lift.starting_share()).value();
  CHECK(bar.total() <= max.low * 0.50);
  CHECK(max.low * 0.50 - bar.total() < 2.5_kg);
  CHECK((to_text(bar).str().substr(0, 12) == "20 kg bar + "));
}

TEST_CASE("a prescription done as written returns the max, through every variation and curve") {
  const Mass best = 117.5_kg;
  int checked = 0;
  for (const Lift& lift : barwright_test::all_lifts(2)) {
    CAPTURE(std::string(lift.name()));
    const Range<Mass> max = lift.max_from(best);
    for_each_curve([&](const auto& of_base) {
      const auto curve = lift.curve(of_base);
      for (const int reps : {1, 3, 5, 8, 12}) {
        for (const double left : {0.0, 1.5, 4.0}) {
          const Reps done(reps);
          const RepsInReserve reserve(left);
          if (!reaches(curve, done, reserve)) continue;
          const Mass load = load_for(curve, max.typical, done, reserve);
          const bool returns =
              are_close(one_rep_max(curve, load, done, reserve), max.typical) &&
              std::abs(reserve_left(curve, max.typical, load, done) - left) <= 1e-9;
          if (!returns) FAIL_CHECK("the max does not come back");
          ++checked;
        }
      }
    });
  }
  CHECK(checked > 10000);
}

TEST_CASE("a heavier load, one rep more or one more left never lower the max") {
  for_each_curve([](const auto& curve) {
    for (int reps = 1; reps <= 20; ++reps) {
      for (double left = 0.0; left <= 6.0; left += 0.5) {
        const Reps done(reps);
        const RepsInReserve reserve(left);
        if (!reaches(curve, done, reserve)) continue;
        Mass before{};
        for (double kg = 20.0; kg <= 200.0; kg += 2.5) {
          const Mass max = one_rep_max(curve, Mass::from_kg(kg), done, reserve);
          if (!(max > before)) FAIL_CHECK("a heavier load lowered the max");
          before = max;
        }
        const Mass max = one_rep_max(curve, 100_kg, done, reserve);
        if (reaches(curve, Reps(reps + 1), reserve)) {
          if (!(one_rep_max(curve, 100_kg, Reps(reps + 1), reserve) > max)) {
            FAIL_CHECK("a rep more lowered the max");
          }
        }
        if (reaches(curve, done, RepsInReserve(left + 0.5))) {
          if (!(one_rep_max(curve, 100_kg, done, RepsInReserve(left + 0.5)) > max)) {
            FAIL_CHECK("more in reserve lowered the max");
          }
        }
      }
    }
  });
}

TEST_CASE("more in reserve or more reps never raise a load, nor does a lower max") {
  for (const Lift& lift : barwright_test::all_lifts(1)) {
    CAPTURE(std::string(lift.name()));
    for_each_curve([&](const auto& of_base) {
      const auto curve = lift.curve(of_base);
      const auto load = [&](double best, int reps, double left) {
        const Mass max = lift.max_from(Mass::from_kg(best)).low;
        return load_for(curve, max, Reps(reps), RepsInReserve(left));
      };
      for (int reps = 1; reps <= 12; ++reps) {
        for (double left = 0.0; left <= 6.0; left += 0.5) {
          if (!reaches(curve, Reps(reps + 1), RepsInReserve(left + 0.5))) continue;
          const Mass here = load(110.0, reps, left);
          if (!(load(110.0, reps, left + 0.5) < here)) FAIL_CHECK("more reserve, more load");
          if (!(load(110.0, reps + 1, left) < here)) FAIL_CHECK("more reps, more load");
        }
      }
    });
  }
}

TEST_CASE("a stronger lifter is given at least as much on every variation") {
  // Also where the ratio falls with strength: it never falls as fast as the max rises.
  for (const Lift& lift : barwright_test::all_lifts(3)) {
    CAPTURE(std::string(lift.name()));
    for (const Stacking stacking : {Stacking::bounds, Stacking::spread}) {
      Range<Mass> before = lift.max_from(20_kg, stacking);
      for (double kg = 21.0; kg <= 250.0; kg += 1.0) {
        const Range<Mass> max = lift.max_from(Mass::from_kg(kg), stacking);
        const bool rises =
            max.low > before.low && max.typical > before.typical && max.high > before.high;
        if (!rises) FAIL_CHECK("a stronger lifter is given less at ", kg);
        before = max;
      }
    }
  }
}

TEST_CASE("kilograms and pounds give the same answer") {
  const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::close_grip;
  for_each_curve([&](const auto& of_base) {
    const auto curve = lift.curve(of_base);
    for (double kg = 20.0; kg <= 220.0; kg += 7.5) {
      const Mass in_kg = Mass::from_kg(kg);
      const Mass in_lb = Mass::from_lb(kg / Mass::kg_per_lb);
      const Mass a = one_rep_max(of_base, in_kg, 5_reps, 2_rir);
      const Mass b = one_rep_max(of_base, in_lb, 5_reps, 2_rir);
      CHECK(are_close(a, b));
      CHECK(are_close(load_for(curve, lift.max_from(a).low, 6_reps, 2_rir),
                      load_for(curve, lift.max_from(b).low, 6_reps, 2_rir)));
      for (const Room* room : {&plate_sets::gym_kg, &plate_sets::gym_lb}) {
        CHECK(room->nearest(in_kg) == room->nearest(in_lb));
      }
    }
  });
}

TEST_CASE("a set in a pound gym says the same max as its kilograms") {
  // Two 45 lb plates a side on a 45 lb bar: 225 lb, 102.06 kg [NIST SP 811: 1 lb = 0.45359237 kg].
  const Loading bar(plate_sets::gym_lb.bar(), {}, {{45, Unit::lb}, {45, Unit::lb}});
  CHECK(bar.total() == 225_lb);
  const Mass max = one_rep_max(equations::epley, bar.total(), 6_reps, 0_rir);
  CHECK(max.lb() == doctest::Approx(270.0));  // 1 + 6 / 30
  CHECK(max.kg() == doctest::Approx(122.4699399));
}

TEST_CASE("what is loaded is never above the load asked for, nor a step below it") {
  const Lift lift = lifts::bench_press + modifiers::incline;
  for (double best = 60.0; best <= 200.0; best += 1.7) {
    const Mass max = lift.max_from(Mass::from_kg(best)).low;
    for (const int reps : {3, 6, 10}) {
      const Mass load = load_for(lift.curve(equations::wathen), max, Reps(reps), 2_rir);
      const Mass on_the_bar = plate_sets::gym_kg.at_most(load).value().total();
      CHECK(on_the_bar <= load + 0.00000001_kg);
      CHECK(load - on_the_bar < 2.5_kg);
      // The same by counting steps.
      CHECK(are_close(on_the_bar, rounded(load, 2.5_kg, Rounding::down)));
      // Rounding down leaves more in reserve, not less.
      CHECK(reserve_left(lift.curve(equations::wathen), max, on_the_bar, Reps(reps)) >= 2.0 - 1e-9);
    }
  }
}

TEST_CASE("a log of sets done as prescribed returns the max they were prescribed from") {
  const Date day(2026, 11, 25);
  const Lift lift = lifts::bench_press + modifiers::feet_up;
  const Mass max = lift.max_from(120_kg).typical;
  const auto curve = lift.curve(anchored(equations::wathen));
  std::vector<LoggedSet> log;
  for (int week = 0; week < 4; ++week) {
    for (const int reps : {8, 6, 4}) {
      log.push_back({.date = day - 7 * week,
                     .lift = lift,
                     .load = load_for(curve, max, Reps(reps), 2_rir),
                     .reps = Reps(reps),
                     .reserve = Range<RepsInReserve>::exactly(2_rir)});
    }
  }
  const auto recent = recent_max(curve, log, lift, day);
  REQUIRE(recent.has_value());
  CHECK(are_close(recent->typical, max));
  CHECK(recent->spread() <= rounding);
  CHECK(recent->sets_used == 12);
  CHECK(recent->sessions == 4);
  CHECK(sessions_of(log, lift, day) == 4);
  CHECK(!cautions_for({.lift = lift,
                       .reps = 6_reps,
                       .reserve = 2_rir,
                       .has_spotter = true,
                       .earlier_sessions = sessions_of(log, lift, day)})
             .says_stop());
}

TEST_CASE("an introduction ends where the plain prescription would be, or below") {
  for (const Lift& lift : barwright_test::all_lifts(2)) {
    CAPTURE(std::string(lift.name()));
    const Introduction plan = introduce(equations::wathen, lift, 110_kg, 6_reps, 2_rir);
    const auto curve = lift.curve(anchored(equations::wathen));
    const Mass plain = load_for(curve, lift.max_from(110_kg).low, 6_reps, 2_rir);
    for (const Exposure& exposure : plan) CHECK(exposure.load < plain);
  }
}
