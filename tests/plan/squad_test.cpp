#include "barwright/plan/squad.hpp"

#include <doctest/doctest.h>

#include <thread>
#include <vector>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/review.hpp"
#include "barwright/plan/session.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);

/// Some weeks of one lift at a load that rises by a share a week.
void add_weeks(std::vector<LoggedSet>& log, int weeks, const Lift& lift, Mass first,
               double weekly_rise, int offset) {
  for (int week = 0; week < weeks; ++week) {
    for (int set = 0; set < 3; ++set) {
      log.push_back({.date = today - 7 * (weeks - week) + offset,
                     .lift = lift,
                     .load = first * (1.0 + weekly_rise * week),
                     .reps = 6_reps,
                     .reserve = Range<RepsInReserve>::exactly(2_rir)});
    }
  }
}

}  // namespace

TEST_CASE("a lifter of a squad is learnt on a hundred days of a lift, and no more") {
  std::vector<LoggedSet> log;
  add_weeks(log, 2, lifts::bench_press, 75_kg, 0.0, 0);
  SquadMember member{.name = "Ana", .log = log};
  for (int day = 0; day < most_days_of_member + 2; ++day) {
    member.requests.push_back({.lift = lifts::bench_press, .date = today + day});
  }
  member.requests.push_back({.lift = lifts::bench_press, .date = today});  // is learnt already
  const auto results = plan_squad(std::vector{member, member});
  const auto size = member.requests.size();
  for (const std::size_t first : {std::size_t{0}, size}) {  // each lifter has as many
    for (std::size_t i = 0; i < size; ++i) {
      const bool is_beyond = i == size - 3 || i == size - 2;
      const auto& refusal = results[first + i].refusal;
      CAPTURE(i);
      CHECK((refusal && refusal->code == RefusalCode::too_many_days) == is_beyond);
    }
    CHECK(results[first + size - 1].plan->load() == results[first].plan->load());
  }
}

TEST_CASE("a squad is planned as its lifters are, and a fault in one stops no other") {
  std::vector<LoggedSet> log;
  add_weeks(log, 6, lifts::bench_press, 75_kg, 0.0, 0);
  add_weeks(log, 6, lifts::squat, 110_kg, 0.0, 2);
  const SessionRequest bench{.lift = lifts::bench_press, .date = today};
  const SessionRequest squat{.lift = lifts::squat, .date = today};
  const SessionRequest row{.lift = lifts::deadlift, .date = today};
  SquadMember good{.name = "Good", .log = log, .requests = {bench, squat, row}};
  SquadMember faulty = good;
  faulty.facts.rules.greatest_rise = 7.0;
  const std::vector<SquadMember> squad{faulty, good};

  const auto results = plan_squad(squad);
  REQUIRE(results.size() == 6);
  for (std::size_t i = 0; i < 3; ++i) CHECK_FALSE(results[i].fault.empty());
  CHECK(results[3].member == 1);
  REQUIRE(results[3].plan);
  REQUIRE(results[4].plan);
  const auto alone = plan_session(learn_lifter(log, lifts::bench_press, today), bench);
  CHECK(results[3].plan->load() == alone->load());
  CHECK(results[4].plan->load() > results[3].plan->load());
  REQUIRE(results[5].refusal);
  CHECK(results[5].refusal->code == RefusalCode::no_strength);

  const auto at_once = plan_squad(squad, [](std::size_t count, const auto& task) {
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < count; ++i) threads.emplace_back([&task, i] { task(i); });
    for (std::thread& thread : threads) thread.join();
  });
  for (std::size_t i = 0; i < results.size(); ++i) {
    CHECK(at_once[i].plan.has_value() == results[i].plan.has_value());
    if (at_once[i].plan) CHECK(at_once[i].plan->load() == results[i].plan->load());
  }
}

TEST_CASE("a base lift that rose while a variation was trained is said to have risen" *
          doctest::test_suite("slow")) {
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  for (const double weekly : {0.01, -0.01}) {
    std::vector<LoggedSet> log;
    add_weeks(log, 14, lifts::bench_press, 75_kg, weekly, 0);
    add_weeks(log, 14, feet_up, 70_kg, weekly, 3);
    const auto review = review_block(log, {.lift = feet_up});
    REQUIRE(review);
    CAPTURE(review->on_base.mean());
    CAPTURE(review->on_base.standard_deviation());
    CHECK(review->lifter.suspects.empty());
    CHECK(review->verdict() == (weekly > 0.0 ? ReviewVerdict::rose : ReviewVerdict::fell));
    CHECK(review->of_lift.days == 14);
    CHECK(review->of_lift.sets == 42);
    CHECK(review->of_lift.near_failure == 42);
    CHECK(review->from == today - 98 + 3);
    CHECK(review->without.size() >= 26);
  }
}

TEST_CASE("a change is level only where the log is sure that it is small") {
  CHECK(verdict_on(Change(0.05, 0.01), 8.0) == ReviewVerdict::rose);
  CHECK(verdict_on(Change(-0.05, 0.01), 8.0) == ReviewVerdict::fell);
  CHECK(verdict_on(Change(0.001, 0.01), 8.0) == ReviewVerdict::level);
  CHECK(verdict_on(Change(0.001, 0.01), 3.0) == ReviewVerdict::unclear);
  CHECK(verdict_on(Change(0.01, 0.05), 8.0) == ReviewVerdict::unclear);
}

TEST_CASE("a plain lift is reviewed, too: is it going up, and how did it get there") {
  // [simulated: 14 weeks of the plain lift, a good per cent a week up or down]
  struct Row {
    double weekly;
    ReviewVerdict verdict;
  };
  for (const Row& row : {Row{0.012, ReviewVerdict::rose}, Row{-0.012, ReviewVerdict::fell}}) {
    std::vector<LoggedSet> log;
    add_weeks(log, 14, lifts::bench_press, 80_kg, row.weekly, 0);
    const auto review = review_block(log, {.lift = lifts::bench_press});
    REQUIRE(review.has_value());
    CHECK(review->verdict() == row.verdict);
    // The last eight weeks, beside those before.
    CHECK(review->weeks() == doctest::Approx(8.0));
    CHECK(review->before.has_value());
    CHECK(review->on_lift.mean() == doctest::Approx(review->on_base.mean()));
    REQUIRE(review->history.size() >= 8);
    CHECK(review->history.front().date >= review->from);
    CHECK(review->history.back().date <= review->to);
    const bool has_risen =
        review->history.back().max.median() > review->history.front().max.median();
    CHECK(has_risen == (row.weekly > 0));
  }
  // Short logs are looked at whole, and others from where it was asked.
  std::vector<LoggedSet> log;
  add_weeks(log, 4, lifts::bench_press, 80_kg, 0.0, 0);
  CHECK(review_block(log, {.lift = lifts::bench_press})->weeks() < 4.0);
  add_weeks(log, 14, lifts::bench_press, 80_kg, 0.0, 0);
  const Date from = today - 70;
  CHECK(review_block(log, {.lift = lifts::bench_press, .from = from})->from == from);
}

TEST_CASE("a log that begins where the calendar does is reviewed like any: two days of 1900") {
  std::vector<LoggedSet> log;
  add_weeks(log, 2, lifts::bench_press, 75_kg, 0.0, 0);
  const Date first = log.front().date;
  for (LoggedSet& set : log) set.date = Date(1900, 1, 1) + (set.date - first);
  CHECK(review_block(log, {.lift = lifts::bench_press})->from == Date(1900, 1, 1));
}

TEST_CASE("a review that cannot be made says why") {
  std::vector<LoggedSet> log;
  add_weeks(log, 4, lifts::bench_press, 75_kg, 0.0, 0);
  const auto code_of = [&](const Lift& lift) {
    return name(review_block(log, {.lift = lift}).refusal().code);
  };
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  CHECK(code_of(feet_up) == "not_in_log");
  add_weeks(log, 1, feet_up, 70_kg, 0.0, 1);
  CHECK(code_of(feet_up) == "too_few_days");
  CHECK_THROWS_AS((void)review_block(log, {.lift = feet_up, .from = today, .to = today}),
                  DomainError);
  // What hangs from the belt says nothing without the body; a plank has no load.
  add_weeks(log, 4, lifts::pull_up, 10_kg, 0.0, 2);
  add_weeks(log, 4, lifts::plank, 10_kg, 0.0, 2);
  CHECK(code_of(lifts::pull_up) == "no_body_mass");
  CHECK(code_of(lifts::plank) == "bodyweight_lift");
  const auto review = review_block(log, {.lift = lifts::pull_up}, {.body_mass = 70_kg});
  REQUIRE(review);
  CHECK(review->history.back().max.median() > 80_kg);
}
