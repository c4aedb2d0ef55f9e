// A lifter who gets stronger is not held back, and what is said of adding load is what is planned.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plan/stops.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);
const Lift bench = lifts::bench_press;

/// Reps to failure of somebody with this max, by Wathen's curve.
double to_failure(double max, Mass load) {
  return predicted_reps(anchored(equations::wathen), Mass::from_kg(max), load);
}

LoggedSet rated(Date date, Mass load, Reps reps, double left) {
  const double told = std::clamp(std::floor(2.0 * left) / 2.0, 0.0, 10.0);
  return {.date = date,
          .lift = bench,
          .load = load,
          .reps = reps,
          .reserve = Range<RepsInReserve>::exactly(RepsInReserve(told))};
}

}  // namespace

TEST_CASE("who gains half a kilogram a session is at the effort asked for by the fourth") {
  // A scripted lifter: a max of 42.5 kg, Wathen's curve, ratings without error in halves. Three
  // sessions at 30 kg are in the log, which leave 5 or 6 where 2 are asked for. [the case of a
  // trial by a coach: 30, 30, 30, 32.5, 32.5, and 4 to 6 left throughout]
  struct Row {
    Reps reps;
    RepsInReserve reserve;
    Mass start;
  };
  const Row rows[] = {{6_reps, 2_rir, 30_kg}, {10_reps, 2_rir, 25_kg}};
  for (const Row& row : rows) {
    CAPTURE(row.reps.count());
    double max = 42.5;
    std::vector<LoggedSet> log;
    Mass load = row.start;
    Date date = today;
    double left = 0.0;
    const auto train = [&] {
      left = to_failure(max, load) - row.reps.count();
      for (int set = 0; set < 3; ++set) log.push_back(rated(date, load, row.reps, left));
      date = date + 4;
      max += 0.5;
    };
    for (int session = 0; session < 3; ++session) train();
    for (int session = 0; session < 4; ++session) {
      const LearntLifter lifter = learn_lifter(log, bench, date);
      const auto plan = plan_session(lifter, {.lift = bench,
                                              .date = date,
                                              .reps = row.reps,
                                              .reserve = row.reserve,
                                              .safeties = Safeties::checked});
      REQUIRE(plan.has_value());
      CHECK(plan->load() >= load);  // never answered by less
      load = plan->load();
      train();
      CAPTURE(load);
      CAPTURE(left);
      CHECK(left >= 0.0);
    }
    // A step of 2.5 kg is two reps here: within one is the nearest there is.
    CHECK(left < row.reserve.count() + 2.0);
    CHECK(left > row.reserve.count() - 1.5);
    const double above = to_failure(max - 0.5, load + 2.5_kg) - row.reps.count();
    CHECK(std::fabs(left - row.reserve.count()) <=
          std::max(1.0, std::fabs(above - row.reserve.count())));
  }
}

TEST_CASE("long sets have useful loads") {
  // [common practice] Inside safeties, sets of 12 to 20 asked with two left do not leave eight.
  std::vector<LoggedSet> log;
  for (int day = 40; day > 0; day -= 4) {
    for (int set = 0; set < 3; ++set) {
      const Reps reps(day % 8 == 0 ? 12 : 8);
      const Mass load = day % 8 == 0 ? 60_kg : 67.5_kg;
      log.push_back(rated(today - day, load, reps, to_failure(90.0, load) - reps.count()));
    }
  }
  const LearntLifter lifter = learn_lifter(log, bench, today);
  // Of twenties a log of eights and twelves says less.
  const std::pair<int, double> rows[] = {{12, 6.0}, {15, 6.0}, {20, 10.0}};
  for (const auto& row : rows) {
    const int reps = row.first;
    const double most = row.second;
    CAPTURE(reps);
    const auto plan = plan_session(
        lifter,
        {.lift = bench, .date = today + 2, .reps = Reps(reps), .safeties = Safeties::checked});
    REQUIRE(plan.has_value());
    const double left = to_failure(90.0, plan->load()) - reps;
    CHECK(left >= 1.0);
    CHECK(left <= most);
    CHECK(plan->max_chance_of_missing >= 0.1);
  }
}

TEST_CASE("what is said of adding load is what is planned") {
  // Over sessions that went below, at and above the plan: a sign to add load stands only beside a
  // plan that asks for more than last time.
  int said = 0;
  for (const double last : {60.0, 65.0, 70.0, 75.0, 80.0, 85.0}) {
    for (const double left : {0.0, 1.0, 2.0, 3.0, 4.0, 6.0}) {
      for (const int days : {1, 4, 13, 20, 50}) {
        Lifter lifter = stated_lifter(bench, 100_kg);
        for (const int more : {4, 0}) {
          for (int set = 0; set < 3; ++set) {
            lifter.sets.push_back(rated(today - days - more, Mass::from_kg(last), 6_reps, left));
          }
        }
        const auto plan =
            plan_session(lifter, {.lift = bench, .date = today, .safeties = Safeties::checked});
        REQUIRE(plan.has_value());
        if (plan->progress != Progress::exceeded && plan->progress != Progress::exceeded_twice) {
          continue;
        }
        ++said;
        CHECK(plan->load() > Mass::from_kg(last));
        CHECK_FALSE(plan->recovery.is_too_soon());
        CHECK_FALSE(plan->comeback);
      }
    }
  }
  CHECK(said > 5);
}

TEST_CASE("the bound on a miss, where none is asked for") {
  struct Row {
    Lift lift;
    int reps;
    bool has_spotter;
    Safeties safeties;
    double bound;
  };
  const Row rows[] = {
      {bench, 6, false, Safeties::none, 0.05},
      {bench, 6, false, Safeties::unchecked, 0.05},
      {bench, 6, false, Safeties::checked, 0.15},
      {bench, 6, true, Safeties::none, 0.15},
      {bench, 12, true, Safeties::none, 0.18},
      {bench, 20, false, Safeties::checked, 0.20},
      {bench + modifiers::dumbbells, 6, false, Safeties::checked, 0.05},
      {lifts::leg_press, 6, true, Safeties::none, 0.05},
      {lifts::leg_press, 6, false, Safeties::checked, 0.15},
      {lifts::deadlift, 5, false, Safeties::none, 0.15},
  };
  for (const Row& row : rows) {
    CHECK(detail::usual_bound({}, row.lift, Reps(row.reps), row.has_spotter, row.safeties) ==
          doctest::Approx(row.bound));
  }
}

TEST_CASE("docs/json.md says the chance of a miss that is allowed where none is asked for") {
  std::ifstream file(std::string(BARWRIGHT_TEST_DATA) + "/../../docs/json.md");
  std::ostringstream page;
  page << file.rdbuf();
  const PlanningRules rules;
  Text said;
  said.append(rules.chance_alone)
      .append("; where a spotter, checked safeties or letting go of it ");
  said.append("would do, ").append(rules.chance_caught).append(", or ");
  said.append(rules.chance_for_each_rep).append(" a rep where that is more, up to ");
  said.append(rules.likely_miss).append(" |");
  CHECK(page.str().find(said.str()) != std::string::npos);
}
