// The first session of a beginner of whom nothing is known.
#include "barwright/plan/first_session.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/session.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);

LearntLifter beginner(const Lift& base, const std::vector<LoggedSet>& log = {}) {
  return learn_lifter(log, base, today, {.experience = Experience::novice});
}

SessionPlan planned(const Lift& lift, const Room& room = plate_sets::gym_kg) {
  return plan_session(beginner(Lift(lift.base())),
                      {.lift = lift, .date = today, .room = room, .safeties = Safeties::checked})
      .value();
}

/// A set of today, rated.
LoggedSet set_of(const Lift& lift, Mass load, double left) {
  return {.date = today,
          .lift = lift,
          .load = load,
          .reps = 5_reps,
          .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))};
}

std::string steps_of(const SessionPlan& plan) {
  std::string text;
  for (const LoadedWith& step : plan.first_session->steps) {
    text += (text.empty() ? "" : " ") + Text{}.append(step.load.kg()).str();
  }
  return text;
}

}  // namespace

TEST_CASE("who pulls an empty bar from the floor is told to raise it") {
  const auto is_told = [](const Lift& lift) {
    const SessionPlan plan = planned(lift);
    return std::any_of(plan.cautions.begin(), plan.cautions.end(), [](const Caution& each) {
      return each.text.find("raise it on blocks") != std::string_view::npos;
    });
  };
  CHECK(is_told(lifts::deadlift));
  CHECK_FALSE(is_told(lifts::squat));
}

TEST_CASE("a beginner starts with the lightest there is and goes up in small steps") {
  // [common practice, no source: 5 kg a step for the upper body, 10 for the legs, at most a
  // quarter]
  struct Row {
    Lift lift;
    Room room;
    std::string_view steps;
  };
  const Row rows[] = {
      {lifts::bench_press, plate_sets::gym_kg, "20 25 30 35 40 45"},
      {lifts::squat, plate_sets::gym_kg, "20 25 30 37.5 45 55"},
      {lifts::overhead_press, plate_sets::gym_kg.with(Bar(15, Unit::kg)), "15 17.5 20 25 30 35"},
      {lifts::squat, plate_sets::gym_kg.with(Bar(10, Unit::kg)), "10 12.5 15 17.5 20 25"},
      // Where the next load there is would be more than a quarter up, the ladder ends.
      {lifts::squat, Room(Bar(20, Unit::kg), {Plate(10, Unit::kg, 4)}), "20"},
      {lifts::bench_press + modifiers::dumbbells, plate_sets::gym_kg, "5 10 15 20 25 30"},
  };
  for (const Row& row : rows) {
    const SessionPlan plan = planned(row.lift, row.room);
    CAPTURE(std::string(row.lift.name()));
    REQUIRE(plan.first_session);
    CHECK_FALSE(plan.is_stopped());
    CHECK(steps_of(plan) == row.steps);
    // What is done first is one set of five with the lightest, far from failure.
    REQUIRE(plan.sets.size() == 1);
    CHECK(plan.sets[0].sets == 1);
    CHECK(plan.load() == plan.first_session->steps[0].load);
    CHECK(plan.reps == 5_reps);
    CHECK(plan.reserve == 4_rir);
    CHECK_FALSE(plan.next);
  }
}

TEST_CASE(
    "whoever has ten left after five has one left a quarter higher, by the published curves") {
  // [Epley, Brzycki, Wathen as in curves/equations.hpp]
  const auto holds = [](const auto& curve) {
    return curve.fraction(6) / curve.fraction(15) >= 1.25 - 1e-3;
  };
  CHECK(holds(anchored(equations::epley)));
  CHECK(holds(equations::brzycki));
  CHECK(holds(equations::wathen));
}

TEST_CASE("a bar too heavy for a start is said to be, and no session begins with it") {
  // [common practice: 15 or 20 kg, with collars 25; for the legs 30]
  struct Row {
    Lift lift;
    double bar;
    bool is_planned;
  };
  const Row rows[] = {
      {lifts::bench_press, 20, true},  {lifts::bench_press, 25, true},
      {lifts::bench_press, 30, false}, {lifts::bench_press, 60, false},
      {lifts::squat, 30, true},        {lifts::squat, 60, false},
      {lifts::leg_press, 60, true},  // a sled, of which nobody knows what it asks for
  };
  for (const Row& row : rows) {
    CAPTURE(row.lift.name().str());
    CAPTURE(row.bar);
    const Room room = plate_sets::gym_kg.with(Bar(row.bar, Unit::kg));
    const SessionRequest request{
        .lift = row.lift, .date = today, .room = room, .safeties = Safeties::checked};
    const auto plan = plan_session(beginner(row.lift), request);
    CHECK(plan.has_value() == row.is_planned);
    if (plan) continue;
    CHECK(name(plan.refusal().code) == "bar_too_heavy");
    CHECK(plan.refusal().lightest == Mass::from_kg(row.bar));
    CHECK(plan.refusal().wanted < plan.refusal().lightest);
    // Where it hurts, that is said first.
    SessionRequest hurts = request;
    hurts.pain = Pain::yes;
    CHECK(plan_session(beginner(row.lift), hurts)->is_stopped());
  }
}

TEST_CASE("each set says what comes next: up, stay, back or over") {
  const Lift& squat = lifts::squat;
  struct Row {
    std::string_view what;
    std::vector<LoggedSet> done;
    double load;  // 0: over
    int sets;
  };
  const LoggedSet easy = set_of(squat, 20_kg, 12);
  LoggedSet missed = set_of(squat, 25_kg, 0);
  missed.reserve.reset();
  missed.outcome = Outcome::missed;
  LoggedSet unrated = set_of(squat, 20_kg, 0);
  unrated.reserve.reset();
  LoggedSet hurt = easy;
  hurt.has_pain = true;
  const Row rows[] = {
      {"ten left: up", {set_of(squat, 20_kg, 10)}, 25, 1},
      {"twice: up twice", {easy, set_of(squat, 25_kg, 11)}, 30, 1},
      {"six left: that is the load", {set_of(squat, 20_kg, 6)}, 20, 2},
      {"and again", {set_of(squat, 20_kg, 6), set_of(squat, 20_kg, 5)}, 20, 1},
      {"and that is all",
       {set_of(squat, 20_kg, 6), set_of(squat, 20_kg, 5), set_of(squat, 20_kg, 5)},
       0,
       0},
      {"found is found: no step up later",
       {easy, set_of(squat, 25_kg, 6), set_of(squat, 25_kg, 10)},
       25,
       1},
      {"three left: back", {easy, set_of(squat, 25_kg, 3)}, 20, 2},
      {"three left of the empty bar: enough", {set_of(squat, 20_kg, 3)}, 0, 0},
      {"not rated: no step up", {unrated}, 20, 2},
      {"a missed rep: enough", {easy, missed}, 0, 0},
      {"pain: enough", {hurt}, 0, 0},
  };
  const LearntLifter lifter = beginner(squat);
  const SessionPlan first = planned(squat);
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const auto next = replan(lifter, first, row.done);
    REQUIRE(next.has_value());
    CHECK(next->load().kg() == doctest::Approx(row.load));
    CHECK(next->work_sets == row.sets);
    CHECK(next->sets.empty() == (row.load == 0.0));
  }
}

TEST_CASE("sets of a first session that are in the log of its day are sets of it") {
  // [common practice, no source]
  const Lift& squat = lifts::squat;
  struct Row {
    std::string_view what;
    std::vector<LoggedSet> done;
    double load;  // 0: over
    int sets;
  };
  const Row rows[] = {
      {"ten left: up", {set_of(squat, 20_kg, 10)}, 25, 1},
      {"six left: that is the load", {set_of(squat, 20_kg, 10), set_of(squat, 25_kg, 6)}, 25, 2},
      {"three left of the empty bar: enough", {set_of(squat, 20_kg, 3)}, 0, 0},
      {"a line left out", {set_of(squat, 30_kg, 12)}, 37.5, 1},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const auto by_log = plan_session(beginner(squat, row.done),
                                     {.lift = squat, .date = today, .has_spotter = true});
    REQUIRE(by_log.has_value());
    REQUIRE(by_log->first_session);
    CHECK(by_log->load().kg() == doctest::Approx(row.load));
    CHECK(by_log->work_sets == row.sets);
    const auto said = replan(beginner(squat), planned(squat), row.done);
    CHECK(said->load() == by_log->load());
    CHECK(said->work_sets == by_log->work_sets);
  }
}

TEST_CASE("a first session is for a beginner who says so, and only where nothing is known") {
  const SessionRequest asked{.lift = lifts::squat, .date = today, .has_spotter = true};
  // Not said to be a beginner: state the max.
  CHECK(plan_session(learn_lifter({}, lifts::squat, today), asked).refusal().code ==
        RefusalCode::no_strength);
  // A max or a log says more.
  CHECK_FALSE(plan_session(learn_lifter({}, lifts::squat, today,
                                        {.stated_max = 60_kg, .experience = Experience::novice}),
                           asked)
                  ->first_session);
  LoggedSet before = set_of(lifts::squat, 30_kg, 6);
  before.date = today - 4;
  const auto second = plan_session(beginner(lifts::squat, {before, before, before}), asked);
  REQUIRE(second.has_value());
  CHECK_FALSE(second->first_session);
  CHECK(second->load() >= 30_kg);
  // What the body weighs must be known.
  CHECK(plan_session(beginner(lifts::push_up), {.lift = lifts::push_up, .date = today})
            .refusal()
            .code == RefusalCode::no_body_mass);
}

TEST_CASE("a first session is asked what every load is asked") {
  SessionRequest asked{.lift = lifts::bench_press, .date = today, .pain = Pain::yes};
  const auto hurt = plan_session(beginner(lifts::bench_press), asked);
  CHECK(hurt->is_stopped());
  CHECK(hurt->sets.empty());
  CHECK(hurt->first_session->steps.empty());
  // Alone, four left in sets of five are enough, and it is warned of.
  asked.pain = Pain::as_logged;
  const auto alone = plan_session(beginner(lifts::bench_press), asked);
  CHECK_FALSE(alone->is_stopped());
  bool is_warned = false;
  for (const Caution& caution : alone->cautions) {
    is_warned = is_warned || caution.text.starts_with("Nothing would catch a missed rep");
  }
  CHECK(is_warned);
  // Two are not.
  LifterFacts facts{.experience = Experience::novice};
  facts.rules.first_reserve = 2.0;
  CHECK(plan_session(learn_lifter({}, lifts::bench_press, today, facts), asked)->is_stopped());
}

TEST_CASE("a first session in JSON: the next set, and the steps after it") {
  const std::string answer = json::answer(
      R"({"version": 1, "ask": "plan_session", "lift": "squat", "date": "2026-11-25",
          "experience": "novice", "spotter": true})");
  CHECK(answer.find(R"("outcome":"plan")") != std::string::npos);
  CHECK(answer.find(R"("load_kg":20,"limited_by":"first_session")") != std::string::npos);
  CHECK(answer.find(R"("go_on_with_left":10,"go_back_below_left":4)") != std::string::npos);
  CHECK(answer.find("max_kg") == std::string::npos);
}
