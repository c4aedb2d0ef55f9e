// tests/chain_properties_test.cpp - laws of the whole forward chain, on random sets of all kinds
//
// chain_test.cpp goes through the chain on grids; here inputs are drawn from all that is allowed:
// loads from grams to half a tonne, 1 to 100 reps, every half rep in reserve, every
// lift of the catalogue with up to three modifiers, and every curve and adapter. The laws follow
// from what the numbers mean, whatever their values are. The seeds are fixed.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <barwright/barwright.hpp>
#include <cmath>
#include <cstddef>
#include <random>
#include <string>
#include <vector>

#include "all_lifts.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr double rounding = 1e-12;

bool are_close(Mass a, Mass b) { return std::abs(a.kg() - b.kg()) <= rounding * b.kg(); }

class Random {
 public:
  explicit Random(unsigned long long seed) : engine_(seed) {}

  double real(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(engine_); }
  template <class T>
  const T& one_of(const std::vector<T>& values) {
    return values[static_cast<std::size_t>(whole(0, static_cast<int>(values.size()) - 1))];
  }
  template <class T>
  void shuffle(std::vector<T>& values) {
    std::shuffle(values.begin(), values.end(), engine_);
  }
  /// From grams to half a tonne, most of them as on a bar.
  Mass load() {
    return Mass::from_kg(whole(0, 3) == 0 ? std::exp(real(-6.9, 6.2)) : real(5.0, 300.0));
  }

 private:
  std::mt19937_64 engine_;
};

/// Calls `visit` with every curve of the library, as it is and in every adapter.
void for_each_curve(Random& random, auto visit) {
  const double stretch = random.real(0.3, 3.0);
  equations::for_each([&](const auto& equation) {
    visit(equation);
    visit(anchored(equation));
    visit(stretched(equation, stretch));
  });
  visit(rep_tables::nsca_chart);
  visit(stretched(rep_tables::baechle_earle, stretch));
  visit(blend(equations::epley, equations::lombardi));
  visit(CriticalLoad(random.real(0.1, 0.9), random.real(0.5, 40.0)));
}

/// A set that `curve` reaches, with one rep more and half a rep more in reserve; the
/// longest that there is where the curve ends early.
struct Done {
  Reps reps;
  RepsInReserve left;
  double to_failure() const { return reps_to_failure(reps, left); }
};
Done a_set(Random& random, const RepCurve auto& curve) {
  const RepRange defined = curve.defined();
  const int most = static_cast<int>(std::min(99.0, std::floor(defined.high) - 1.0));
  const int reps =
      random.whole(1, std::max(1, random.whole(0, 1) == 0 ? most : std::min(most, 12)));
  const double most_left = std::clamp(std::floor(2.0 * (defined.high - reps - 1.0)), 0.0, 59.0);
  return {Reps(reps), RepsInReserve(random.whole(0, static_cast<int>(most_left)) / 2.0)};
}

}  // namespace

TEST_CASE("anywhere: more load, more reps or more in reserve never lower a max") {
  Random random(6001);
  int checked = 0;
  for (int round = 0; round < 2000; ++round) {
    for_each_curve(random, [&](const auto& curve) {
      const Done set = a_set(random, curve);
      const Mass load = random.load();
      if (!curve.defined().contains(set.to_failure())) return;
      ++checked;
      const Mass max = one_rep_max(curve, load, set.reps, set.left);
      const bool heavier_is_stronger =
          one_rep_max(curve, load * random.real(1.0, 1.5), set.reps, set.left) >= max;
      if (!heavier_is_stronger) FAIL_CHECK("a heavier load lowered the max");
      if (curve.defined().contains(set.to_failure() + 1.0)) {
        const bool longer_is_stronger =
            one_rep_max(curve, load, Reps(set.reps.count() + 1), set.left) >= max;
        if (!longer_is_stronger) FAIL_CHECK("a rep more lowered the max");
      }
      if (curve.defined().contains(set.to_failure() + 0.5)) {
        const bool easier_is_stronger =
            one_rep_max(curve, load, set.reps, RepsInReserve(set.left.count() + 0.5)) >= max;
        if (!easier_is_stronger) FAIL_CHECK("more in reserve lowered the max");
      }
    });
  }
  CHECK(checked > 90000);
}

TEST_CASE("anywhere: more reserve or more reps never raise a load, nor does a lower max") {
  Random random(6002);
  const std::vector<Lift> all = barwright_test::all_lifts(3);
  int checked = 0;
  for (int round = 0; round < 2000; ++round) {
    const Lift& lift = random.one_of(all);
    CAPTURE(std::string(lift.name()));
    const Mass best = Mass::from_kg(random.real(5.0, 400.0));
    for_each_curve(random, [&](const auto& of_base) {
      const auto curve = lift.curve(of_base);
      const Done set = a_set(random, curve);
      if (!curve.defined().contains(set.to_failure())) return;
      ++checked;
      const Range<Mass> max = lift.max_from(best);
      const Mass load = load_for(curve, max.typical, set.reps, set.left);
      const bool is_cautious = load_for(curve, max.low, set.reps, set.left) <= load &&
                               load <= load_for(curve, max.high, set.reps, set.left);
      if (!is_cautious) FAIL_CHECK("a lower max is given more");
      if (curve.defined().contains(set.to_failure() + 1.0)) {
        const bool falls =
            load_for(curve, max.typical, Reps(set.reps.count() + 1), set.left) <= load;
        if (!falls) FAIL_CHECK("a rep more is given more");
      }
      if (curve.defined().contains(set.to_failure() + 0.5)) {
        const bool falls =
            load_for(curve, max.typical, set.reps, RepsInReserve(set.left.count() + 0.5)) <= load;
        if (!falls) FAIL_CHECK("more reserve is given more");
      }
      // What is loaded keeps the order, whatever the room.
      const Room& room = random.whole(0, 1) == 0 ? plate_sets::gym_kg : plate_sets::gym_lb;
      const auto lower = room.at_most(load * random.real(0.5, 1.0));
      const auto upper = room.at_most(load);
      if (lower && !(upper && lower->total() <= upper->total())) {
        FAIL_CHECK("a lighter load puts more on the bar");
      }
    });
  }
  CHECK(checked > 90000);
}

TEST_CASE("anywhere: a prescription put back through the estimate returns the max") {
  Random random(6003);
  const std::vector<Lift> all = barwright_test::all_lifts(3);
  int checked = 0;
  for (int round = 0; round < 2000; ++round) {
    const Lift& lift = random.one_of(all);
    CAPTURE(std::string(lift.name()));
    for_each_curve(random, [&](const auto& of_base) {
      const auto curve = lift.curve(of_base);
      const Done set = a_set(random, curve);
      if (!curve.defined().contains(set.to_failure())) return;
      ++checked;
      const Mass max = random.load();
      const Mass load = load_for(curve, max, set.reps, set.left);
      if (!are_close(one_rep_max(curve, load, set.reps, set.left), max)) {
        FAIL_CHECK("the max does not come back");
      }
      // And the reserve, as far as the curve is steep enough to tell: one rounding of the share
      // moves the reps by this much.
      const double one_rounding = 4e-16 / std::abs(curve.slope(set.to_failure()));
      const double left = reserve_left(curve, max, load, set.reps);
      if (std::abs(left - set.left.count()) > 1e-9 + 4.0 * one_rounding) {
        FAIL_CHECK("the reserve does not come back");
      }
      // The same set with a rating in place of its reserve.
      if (const auto rating = rpe(set.left)) {
        if (!are_close(one_rep_max(curve, load, set.reps, *rating), max)) {
          FAIL_CHECK("the rating says another max than its reserve");
        }
      }
    });
  }
  CHECK(checked > 90000);
}

TEST_CASE("anywhere: kilograms and pounds agree") {
  Random random(6004);
  const std::vector<Lift> all = barwright_test::all_lifts(2);
  for (int round = 0; round < 200; ++round) {
    const Lift& lift = random.one_of(all);
    CAPTURE(std::string(lift.name()));
    const Mass in_kg = random.load();
    const Mass in_lb = Mass::from_lb(in_kg.kg() / 0.45359237);  // NIST SP 811, read
    CHECK(are_close(in_kg, in_lb));
    for_each_curve(random, [&](const auto& curve) {
      const Done set = a_set(random, curve);
      if (!curve.defined().contains(set.to_failure())) return;
      const Mass a = one_rep_max(curve, in_kg, set.reps, set.left);
      const Mass b = one_rep_max(curve, in_lb, set.reps, set.left);
      if (!are_close(a, b)) FAIL_CHECK("another max in pounds");
    });
    const Range<Mass> a = lift.max_from(in_kg);
    const Range<Mass> b = lift.max_from(in_lb);
    CHECK(are_close(a.low, b.low));
    CHECK(are_close(a.typical, b.typical));
    CHECK(are_close(a.high, b.high));
    for (const plate_sets::Named& named : plate_sets::all) {
      CHECK(named.room->nearest(in_kg) == named.room->nearest(in_lb));
    }
  }
}

TEST_CASE("anywhere: the same bar, its marks in pounds or in kilograms, weighs the same") {
  Random random(6005);
  for (int round = 0; round < 500; ++round) {
    const int bar = random.whole(10, 60);
    const int plate = random.whole(1, 100);
    const Loading in_lb(Bar(bar, Unit::lb), {}, {{static_cast<double>(plate), Unit::lb}});
    const double kg = 0.45359237 * (bar + 2 * plate);  // NIST SP 811, read
    CHECK(std::abs(in_lb.total().kg() - kg) <= rounding * kg);
  }
}

TEST_CASE("a log in any order says the same of the last weeks") {
  Random random(6006);
  const Date today(2026, 11, 25);
  const std::vector<Lift> trained{lifts::bench_press, lifts::bench_press + modifiers::feet_up};
  int answered = 0;
  for (int round = 0; round < 2000; ++round) {
    std::vector<LoggedSet> log;
    for (int n = random.whole(1, 20); n > 0; --n) {
      LoggedSet set{.date = today - random.whole(-2, 40),
                    .lift = random.one_of(trained),
                    .load = Mass::from_kg(random.whole(0, 60) * 2.5),
                    .reps = Reps(random.whole(1, 15))};
      const int kind = random.whole(0, 5);
      if (kind == 0) set.outcome = Outcome::missed;
      if (kind > 1) {
        set.reserve = Range<RepsInReserve>::exactly(RepsInReserve(random.whole(0, 14) / 2.0));
      }
      log.push_back(set);
    }
    const auto before = recent_max(equations::wathen, log, trained[0], today);
    const int sessions = sessions_of(log, trained[1], today);
    random.shuffle(log);
    const auto after = recent_max(equations::wathen, log, trained[0], today);
    CHECK(sessions_of(log, trained[1], today) == sessions);
    REQUIRE(before.has_value() == after.has_value());
    if (!before) continue;
    ++answered;
    CHECK(before->lowest == after->lowest);
    CHECK(before->typical == after->typical);
    CHECK(before->highest == after->highest);
    CHECK(before->bound == after->bound);
    CHECK(before->sessions == after->sessions);
    CHECK(before->sets_used == after->sets_used);
    CHECK(before->sets_without_estimate() == after->sets_without_estimate());
    CHECK(before->first == after->first);
    CHECK(before->last == after->last);

    // One completed set heavier: no figure falls.
    LoggedSet& heavier =
        log[static_cast<std::size_t>(random.whole(0, static_cast<int>(log.size()) - 1))];
    if (heavier.outcome == Outcome::missed || !(heavier.load > Mass{})) continue;
    heavier.load = heavier.load * random.real(1.0, 1.3);
    const auto raised = recent_max(equations::wathen, log, trained[0], today);
    REQUIRE(raised.has_value());
    CHECK(raised->lowest >= after->lowest);
    CHECK(raised->typical >= after->typical);
    CHECK(raised->highest >= after->highest);
  }
  CHECK(answered > 1300);
}
