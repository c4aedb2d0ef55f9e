// tests/plan/doubted_sets_test.cpp - an old set that may have been missed is asked about where it
// matters
//
// That of two readings of a log the lighter holds is an assumption.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/plan/doubted_sets.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "barwright/planning.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

const Date today(2026, 11, 25);
const Lift bench = lifts::bench_press;

LoggedSet done(int days_ago, Mass load, Reps reps, double left, const Lift& lift = bench) {
  return {.date = today - days_ago,
          .lift = lift,
          .load = load,
          .reps = reps,
          .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))};
}

/// Five months of the bench press with the same load.
std::vector<LoggedSet> five_months() {
  std::vector<LoggedSet> log;
  for (int day = 160; day > 0; day -= 4) log.push_back(done(day, 75_kg, 6_reps, 2));
  return log;
}

template <class Plan>
bool says(const Plan& plan, const Caution& caution) {
  return std::any_of(plan.cautions.begin(), plan.cautions.end(),
                     [&](const Caution& each) { return each.key == caution.key; });
}

}  // namespace

TEST_CASE("a set that may have been missed long ago is asked about where the plan is another one") {
  struct Row {
    std::string_view what;
    int days_ago;
    Mass load;
    bool is_feet_up = false;  // done, and planned
    bool is_said = true;
  };
  const Row rows[] = {
      {"the heaviest, of last week", 7, 85_kg},
      {"a light one of five months ago", 150, 40_kg, false, false},
      {"the last of a variation, a month ago", 28, 70_kg, true},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const Lift lift = row.is_feet_up ? bench + modifiers::feet_up : bench;
    std::vector<LoggedSet> log = five_months();
    if (row.is_feet_up) {
      for (const int day : {60, 52, 44, 36}) log.push_back(done(day, 67.5_kg, 6_reps, 3, lift));
    }
    log.push_back(done(row.days_ago, row.load, 6_reps, 3, lift));
    log.back().may_be_missed = true;
    const SessionRequest request{.lift = lift, .date = today, .safeties = Safeties::checked};
    const LearntLifter lifter = learn_lifter(log, bench, today);
    const SessionPlan plan = plan_session(lifter, request).value();
    log.back().may_be_missed = false;
    const SessionPlan completed = plan_session(learn_lifter(log, bench, today), request).value();
    CHECK(plan.load() <= completed.load());
    CHECK((plan.loads() != completed.loads()) == row.is_said);
    CHECK(says(plan, cautions::doubted_set) == row.is_said);
    CHECK_FALSE(plan.is_stopped());
    CHECK_FALSE(says(plan, cautions::may_be_missed));
    CHECK_FALSE(says(completed, cautions::doubted_set));
    REQUIRE(last_doubted_set(lifter, today));
    CHECK(last_doubted_set(lifter, today)->load == row.load);
    CHECK(last_doubted_day(lifter, today) == today - row.days_ago);
  }
}

TEST_CASE("blocks, attempts and the rest of a session ask about it too") {
  std::vector<LoggedSet> log = five_months();
  log.push_back(done(7, 85_kg, 6_reps, 3));
  log.back().may_be_missed = true;
  const LearntLifter lifter = learn_lifter(log, bench, today);
  const auto block =
      plan_block(lifter, {.lift = bench, .start = today, .safeties = Safeties::checked});
  REQUIRE(block);
  CHECK(says(*block, cautions::doubted_set));
  const auto attempts = plan_attempts(lifter, {.lift = bench, .date = today, .has_spotter = true});
  REQUIRE(attempts);
  CHECK(says(*attempts, cautions::doubted_set));
  CHECK_FALSE(attempts->is_stopped());
  const SessionRequest request{.lift = bench, .date = today, .safeties = Safeties::checked};
  const SessionPlan plan = plan_session(lifter, request).value();
  CHECK(says(plan, cautions::doubted_set));
  CHECK(says(*replan(lifter, plan, {}), cautions::doubted_set));
}

TEST_CASE("where the last session is asked about, the same is not said twice") {
  std::vector<LoggedSet> log = five_months();
  log.back().may_be_missed = true;
  log.push_back(done(7, 85_kg, 6_reps, 3));
  log.back().may_be_missed = true;
  const SessionRequest request{.lift = bench, .date = today, .safeties = Safeties::checked};
  const SessionPlan plan = plan_session(learn_lifter(log, bench, today), request).value();
  CHECK(says(plan, cautions::may_be_missed));
  CHECK_FALSE(says(plan, cautions::doubted_set));
}
