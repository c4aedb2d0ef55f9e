// Lifts that move the body: pull-ups and dips with what hangs from a belt.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/training/plan_cautions.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);
constexpr double moved = 0.97;  // of the body [assumption: lifts/catalogue/shared.hpp]

Lifter with_max(Mass belt, Mass body, const Lift& lift = lifts::pull_up) {
  return stated_lifter(lift, LifterFacts{.stated_max = belt, .body_mass = body});
}
SessionRequest asked(int reps = 5, double left = 2, const Lift& lift = lifts::pull_up) {
  return {.lift = lift, .date = today, .reps = Reps(reps), .reserve = RepsInReserve(left)};
}

}  // namespace

TEST_CASE("reps go by body and belt together, and the belt is what is left of the load") {
  // 80 kg with 40 on the belt: 117.6 kg for one; for five with two left, seven to failure of the
  // published curve [Wathen, as in curves/equations.hpp], less the body.
  SessionRequest one_set = asked();
  one_set.sets = Sets(1);
  const auto plan = plan_session(with_max(40_kg, 80_kg), one_set);
  REQUIRE(plan.has_value());
  REQUIRE(plan->sets.back().with.belt);
  const double total = (40.0 + moved * 80.0) * equations::wathen.fraction(7);
  CHECK(plan->sets.back().with.logged().kg() == doctest::Approx(total - moved * 80.0).epsilon(0.2));
  CHECK(plan->load().kg() == doctest::Approx(plan->sets.back().with.logged().kg() + moved * 80.0));
  // The steps beside it are other loads.
  for (const Alternative& other : plan->alternatives) {
    const bool is_below = other.kind == Alternative::Kind::step_below;
    CHECK((is_below ? other.with.load < plan->load() : other.with.load > plan->load()));
  }
  CHECK(plan->alternatives.size() == 2);
  // The heavier of two with the same belt max hangs less for reps: more of the load is the body.
  const auto light = plan_session(with_max(40_kg, 60_kg), one_set);
  const auto heavy = plan_session(with_max(40_kg, 100_kg), one_set);
  CHECK(heavy->sets.back().with.logged() < light->sets.back().with.logged());
}

TEST_CASE(
    "where every load is about the lifter's own weight, the plan asks whether it is in them") {
  LifterFacts facts{.body_mass = 80_kg};
  const auto plan_for = [&](Mass belt, bool is_confirmed) {
    std::vector<LoggedSet> log;
    for (int day = 24; day >= 4; day -= 4) {
      log.push_back({.date = today - day,
                     .lift = lifts::pull_up,
                     .load = day == 12 ? belt + 5_kg : belt,
                     .reps = 5_reps,
                     .reserve = Range<RepsInReserve>::exactly(2_rir)});
    }
    const auto lifter = learn_lifter(log, lifts::pull_up, today, facts);
    SessionRequest request = asked();
    request.is_max_confirmed = is_confirmed;
    return plan_session(lifter, request).value();
  };
  const auto asks = [&](Mass belt) {
    const SessionPlan plan = plan_for(belt, false);
    return std::any_of(plan.cautions.begin(), plan.cautions.end(), [](const Caution& caution) {
      return caution.key == cautions::body_in_loads.key;
    });
  };
  const auto is_stopped = [&](Mass belt, bool is_confirmed) {
    return plan_for(belt, is_confirmed).is_stopped();
  };
  CHECK(asks(85_kg));
  CHECK_FALSE(asks(20_kg));
  // With the body in the loads the belt would be empty: no load, until somebody says which it is.
  CHECK(is_stopped(85_kg, false));
  CHECK_FALSE(is_stopped(85_kg, true));
  CHECK_FALSE(is_stopped(20_kg, false));
  facts.rules.body_in_belt = 1.2;
  CHECK_FALSE(asks(85_kg));
}

TEST_CASE("a log of belts is read with the body, sets without one among them") {
  std::vector<LoggedSet> log;
  for (int day = 24; day >= 4; day -= 4) {
    for (int set = 0; set < 3; ++set) {
      log.push_back({.date = today - day,
                     .lift = lifts::pull_up,
                     .load = set == 0 ? 0_kg : 20_kg,
                     .reps = set == 0 ? 10_reps : 5_reps,
                     .reserve = Range<RepsInReserve>::exactly(2_rir)});
    }
  }
  const auto lifter = learn_lifter(log, lifts::pull_up, today, {.body_mass = 80_kg});
  CHECK(lifter.learnt->sets_used == 18);
  CHECK(lifter.sets[0].load.kg() == doctest::Approx(77.6));
  const auto plan = plan_session(lifter, asked());
  REQUIRE(plan.has_value());
  CHECK(plan->sets.back().with.logged() >= 15_kg);
  CHECK(plan->sets.back().with.logged() <= 25_kg);
  // Nobody said what the lifter weighs.
  CHECK(plan_session(learn_lifter(log, lifts::pull_up, today), asked()).refusal().code ==
        RefusalCode::no_body_mass);
  // After a set of today the rest is planned from it; what was done is said as in a log.
  LoggedSet today_set{.date = today,
                      .lift = lifts::pull_up,
                      .load = plan->sets.back().with.logged(),
                      .reps = 5_reps,
                      .reserve = Range<RepsInReserve>::exactly(0_rir)};
  const auto rest = replan(lifter, *plan, std::vector{today_set});
  REQUIRE(rest.has_value());
  CHECK(rest->work_sets == 2);
  CHECK(rest->load() < plan->load());
}

TEST_CASE(
    "where the body is more than the load, it says how much to take off and what else to do") {
  // [common practice, no source] 80 kg with 5 on the belt for one: ten in a row need help.
  const auto plan = plan_session(with_max(5_kg, 80_kg), asked(10));
  REQUIRE_FALSE(plan.has_value());
  CHECK(plan.refusal().code == RefusalCode::body_too_heavy);
  CHECK(plan.refusal().lightest.kg() == doctest::Approx(77.6));
  CHECK(plan.refusal().wanted < plan.refusal().lightest);
  CHECK(plan.refusal().reps_with_lightest < 10);
  const std::string answer = json::answer(
      R"({"version": 1, "ask": "plan_session", "lift": "pull-up", "date": "2026-11-25", "reps": 10,
          "stated_max_kg": 5, "body_mass_kg": 80})");
  CHECK(answer.find(R"("code":"body_too_heavy")") != std::string::npos);
  CHECK(answer.find(R"("assistance_kg":)") != std::string::npos);
}

TEST_CASE("a belt takes single plates, the heaviest first, as near as a step allows") {
  const Room two_plates(Bar(20, Unit::kg), {Plate(20, Unit::kg, 1), Plate(5, Unit::kg, 1)});
  struct Row {
    Room room;
    double wanted;  // on the belt
    double below;   // -1: the body is more
    double above;   // -1: there is no more
  };
  const Row rows[] = {
      {plate_sets::gym_kg, 0.0, 0.0, 0.0},
      {plate_sets::gym_kg, 11.0, 10.0, 11.25},
      {plate_sets::gym_kg, 21.25, 21.25, 21.25},
      {plate_sets::gym_kg, -3.0, -1.0, 0.0},
      {two_plates, 7.0, 5.0, 10.0},  // two of five, of the two sides' plates
      {two_plates, 13.0, 10.0, 20.0},
      {two_plates, 60.0, 50.0, -1.0},
  };
  for (const Row& row : rows) {
    CAPTURE(row.wanted);
    const Equipment equipment(lifts::pull_up, row.room, std::nullopt, {}, 80_kg);
    const Mass load =
        80_kg + (row.wanted < 0 ? -Mass::from_kg(-row.wanted) : Mass::from_kg(row.wanted));
    const auto below = equipment.at_most(load);
    const auto above = equipment.at_least(load);
    REQUIRE(below.has_value() == (row.below >= 0));
    REQUIRE(above.has_value() == (row.above >= 0));
    if (below) CHECK(below->logged().kg() == doctest::Approx(row.below));
    if (above) CHECK(above->logged().kg() == doctest::Approx(row.above));
    if (!below) continue;
    Mass sum{};
    for (std::size_t i = 0; i < below->belt->plates.size(); ++i) {
      sum += below->belt->plates[i].mass();
      if (i > 0) CHECK(below->belt->plates[i] <= below->belt->plates[i - 1]);
    }
    CHECK(sum.kg() == doctest::Approx(row.below));
  }
}

TEST_CASE("before a heavy belt come the body alone and lighter belts") {
  // [common practice, no source]
  const auto sets = plan_session(with_max(60_kg, 80_kg), asked(3))->sets;
  REQUIRE(sets.size() == 4);
  CHECK(sets[0].with.logged() == 0_kg);
  CHECK(sets[0].reps == 5_reps);
  for (std::size_t i = 1; i < sets.size(); ++i) CHECK(sets[i].with.load > sets[i - 1].with.load);
  CHECK(sets.back().is_work);
}

TEST_CASE("dips go the same way; a plank has no share of the body to load, and no block hangs") {
  CHECK(plan_session(with_max(50_kg, 80_kg, lifts::dip), asked(5, 2, lifts::dip)).has_value());
  CHECK(plan_session(with_max(50_kg, 80_kg, lifts::plank), asked(5, 2, lifts::plank))
            .refusal()
            .code == RefusalCode::bodyweight_lift);
}

TEST_CASE("what hung from the belt is said as the log has it, to the last figure") {
  const std::string answer = json::answer(
      R"({"version": 1, "ask": "plan_session", "lift": "pull-up", "date": "2026-11-25", "reps": 5,
          "body_mass_kg": 30, "log": [
          {"date": "2026-11-18", "lift": "pull-up", "load_kg": 8.75, "reps": 5, "left": 2},
          {"date": "2026-11-22", "lift": "pull-up", "load_kg": 8.75, "reps": 5, "left": 2}]})");
  CHECK(answer.find(R"("load_kg":8.75,"reps":5,"left":2)") != std::string::npos);
  CHECK(answer.find("8.7499") == std::string::npos);
  const Lifter lifter = with_max(40_kg, 30_kg);
  for (const double belt : {1.25, 3.3, 17.5, 101.25}) {
    CHECK(as_logged(Mass::from_kg(belt) + *lifter.body, lifter) == Mass::from_kg(belt));
    CHECK(as_logged(Mass::from_lb(belt) + *lifter.body, lifter).lb() ==
          doctest::Approx(belt).epsilon(1e-9));
  }
  // A set of another lift has no body in it.
  const LoggedSet squat{.date = today, .lift = lifts::squat, .load = 60_kg, .reps = Reps(5)};
  CHECK(as_logged(squat, lifter).load == 60_kg);
}

TEST_CASE("in JSON every load is what hangs from the belt") {
  const std::string answer = json::answer(
      R"({"version": 1, "ask": "plan_session", "lift": "pull-up", "date": "2026-11-25", "reps": 5,
          "stated_max_kg": 40, "body_mass_kg": 80})");
  CHECK(answer.find(R"("outcome":"plan")") != std::string::npos);
  CHECK(answer.find(R"("belt":[{"weight":)") != std::string::npos);
  CHECK(answer.find(R"("body_kg":77.6)") != std::string::npos);
  CHECK(answer.find(R"("stated_max":{"max_kg":40)") != std::string::npos);
}
