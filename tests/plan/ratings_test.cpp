// tests/plan/ratings_test.cpp - ratings that are not what their column says never make a load heavy
//
// The lifters come from a generator that shares no code with the library: a curve of its own,
// ratings with an error, and a coach who plans by a guess of the max.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>
#include <algorithm>
#include <array>
#include <barwright/planning.hpp>
#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace barwright;
using namespace barwright::literals;

/// What stands under "reps in reserve".
enum class Typed : std::uint8_t { reserve, rpe, anything };

struct Set {
  Date date;
  double kg;
  int reps;
  double left;  // as the lifter rates it
  bool is_missed;
};

/// A lifter's log of some sessions, whose last day is the day before `today`.
class Lifting {
 public:
  explicit Lifting(std::uint64_t seed) : random_(seed) {
    max_ = std::max(40.0, 80.0 * std::exp(0.45 * normal()));
    curve_ = 28.0 * std::exp(0.2 * normal());
    bias_ = 0.3 + 0.4 * normal();
    in_halves_ = random_() % 2 == 0;
    Date date(2026, 10, 5);
    for (int session = 0; session < 8; ++session, date = date + 3) {
      const double capacity = max_ * std::exp(0.025 * normal());
      const double guess = max_ * std::exp(0.03 * normal());
      const int reps = std::array{5, 8, 3}[seed % 3];
      for (int nth = 0; nth < 3; ++nth) {
        lift(date, capacity, seed % 2 == 1 && nth > 0 ? 0.9 * guess : guess, reps, nth);
      }
    }
    today_ = date;
  }

  [[nodiscard]] Date today() const { return today_; }
  [[nodiscard]] std::vector<LoggedSet> log(Typed typed) {
    std::vector<LoggedSet> log;
    for (const Set& set : sets_) {
      log.push_back({.date = set.date,
                     .lift = Lift(lifts::bench_press),
                     .load = Mass::from_kg(set.kg),
                     .reps = Reps(set.reps)});
      if (set.is_missed) {
        log.back().outcome = Outcome::missed;
        continue;
      }
      const double rating = typed == Typed::reserve ? set.left
                            : typed == Typed::rpe   ? 10.0 - set.left
                                                    : static_cast<double>(random_() % 6);
      log.back().reserve = Range<RepsInReserve>::exactly(RepsInReserve(rating));
    }
    return log;
  }

 private:
  double normal() { return std::normal_distribution<double>()(random_); }
  void lift(Date date, double capacity, double guess, int reps, int nth) {
    const double wanted = guess / (1.0 + (reps + 1.0) / curve_);  // with two left
    const double kg = std::max(20.0, 2.5 * std::round(wanted / 2.5));
    const double today = capacity * std::exp(0.01 * normal() - 0.012 * nth);
    const double possible = kg > today ? 0.0 : 1.0 + curve_ * (today / kg - 1.0);
    if (possible < reps) {
      sets_.push_back({date, kg, static_cast<int>(possible) + 1, 0.0, true});
      return;
    }
    const double left = possible - reps;
    const double rated = left - bias_ + (0.8 + 0.15 * left) * normal();
    const double typed = in_halves_ ? std::round(2.0 * rated) / 2.0 : std::round(rated);
    sets_.push_back({date, kg, reps, std::clamp(typed, 0.0, 10.0), false});
  }

  std::mt19937_64 random_;
  double max_;
  double curve_;
  double bias_;
  bool in_halves_;
  std::vector<Set> sets_{};
  Date today_{2026, 10, 5};
};

struct Planned {
  Mass load{};
  bool is_doubted = false;
};

Planned plan_for(const std::vector<LoggedSet>& log, Date today, const LifterFacts& facts = {}) {
  const auto lifter = learn_lifter(log, lifts::bench_press, today, facts);
  const auto plan = plan_session(
      lifter, {.lift = lifts::bench_press, .date = today, .reps = 5_reps, .has_spotter = true});
  REQUIRE(plan);
  const bool is_doubted =
      std::any_of(plan->cautions.begin(), plan->cautions.end(), [](const Caution& caution) {
        return caution.key == "reads_like_rpe" || caution.key == "may_be_rpe";
      });
  CHECK(is_doubted == (lifter.doubts.reads_like_rpe || lifter.doubts.may_be_rpe));
  return {.load = plan->load(), .is_doubted = is_doubted};
}

TEST_CASE("RPE under reps in reserve plans no more than a log that is right, and it is said" *
          doctest::test_suite("slow")) {
  constexpr Mass one_step = 2.5_kg;
  int doubted = 0;
  int above = 0;
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    CAPTURE(seed);
    Lifting lifter(seed);
    const Planned right = plan_for(lifter.log(Typed::reserve), lifter.today());
    const Planned wrong = plan_for(lifter.log(Typed::rpe), lifter.today());
    CHECK_FALSE(right.is_doubted);
    CHECK(wrong.load <= 1.10 * right.load);  // whatever it is taken for: the greatest rise
    above += wrong.load > right.load + one_step ? 1 : 0;
    doubted += wrong.is_doubted ? 1 : 0;
  }
  // Where most sets leave about five, both scales say much the same, and nothing is noticed.
  CHECK(doubted >= 95);
  // None is what one would wish for: two are 8 % above.
  CHECK(above <= 2);
}

TEST_CASE("ratings that say nothing plan hardly more than right ones" *
          doctest::test_suite("slow")) {
  int above = 0;
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    CAPTURE(seed);
    Lifting lifter(seed);
    const Planned right = plan_for(lifter.log(Typed::reserve), lifter.today());
    const Planned noise = plan_for(lifter.log(Typed::anything), lifter.today());
    CHECK(noise.load <= 1.06 * right.load + 2.5_kg);
    above += noise.load > right.load + 2.5_kg ? 1 : 0;
  }
  CHECK(above <= 6);  // as measured; none is what one would wish for
}

TEST_CASE("who knows what the ratings are can say so") {
  Lifting lifter(3);
  const auto log = lifter.log(Typed::rpe);
  const Planned found = plan_for(log, lifter.today());
  const Planned said = plan_for(log, lifter.today(), {.ratings = RatingScale::rpe});
  const Planned as_written =
      plan_for(log, lifter.today(), {.ratings = RatingScale::reps_in_reserve});
  CHECK(found.is_doubted);
  CHECK_FALSE(said.is_doubted);
  CHECK_FALSE(as_written.is_doubted);
  CHECK(said.load == found.load);
  CHECK(as_written.load > found.load);
}

TEST_CASE("easy sets alone do not make a giant") {
  // 12 sessions of 5 at 50 kg with 6 left: at least ten or eleven reps, at most nineteen.
  std::vector<LoggedSet> log;
  for (int session = 0; session < 12; ++session) {
    log.push_back({.date = Date(2026, 9, 1) + 3 * session,
                   .lift = Lift(lifts::bench_press),
                   .load = 50_kg,
                   .reps = 5_reps,
                   .reserve = Range<RepsInReserve>::exactly(6_rir)});
  }
  const auto lifter = learn_lifter(log, lifts::bench_press, Date(2026, 10, 7),
                                   {.ratings = RatingScale::reps_in_reserve});
  const auto max = lifter.strength->max(Lift(lifts::bench_press), Date(2026, 10, 7));
  CHECK(max.median() > 65_kg);
  CHECK(max.median() < 95_kg);
}

}  // namespace
