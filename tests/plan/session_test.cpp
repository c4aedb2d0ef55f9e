#include "barwright/plan/session.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/plan/block_plan.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/training/plan_cautions.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);
const Lift bench = lifts::bench_press;

LoggedSet done(int days_ago, Mass load, Reps reps, double left, const Lift& lift = bench) {
  return {.date = today - days_ago,
          .lift = lift,
          .load = load,
          .reps = reps,
          .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))};
}
/// A note leaves open whether the last rep went up.
LoggedSet open(int days_ago, Mass load, Reps reps) {
  return {
      .date = today - days_ago, .lift = bench, .load = load, .reps = reps, .may_be_missed = true};
}
LoggedSet missed(int days_ago, Mass load, Reps reps, const Lift& lift = bench) {
  return {.date = today - days_ago,
          .lift = lift,
          .load = load,
          .reps = reps,
          .outcome = Outcome::missed};
}

/// A lifter with a max of 100 kg and this log.
Lifter lifter_with(std::vector<LoggedSet> log, Mass max = 100_kg, const Lift& base = bench) {
  Lifter lifter = stated_lifter(base, max);
  lifter.sets = std::move(log);
  return lifter;
}

/// Three sets of six with 2 left, inside checked safeties.
SessionRequest usual(const Lift& lift = bench) {
  return {.lift = lift, .date = today, .safeties = Safeties::checked};
}

SessionPlan planned(const Lifter& lifter, const SessionRequest& request) {
  return plan_session(lifter, request).value();
}

/// The names of the stops, one after the other.
std::string stops_of(const SessionPlan& plan) {
  std::string names;
  for (const Caution& caution : plan.cautions) {
    if (caution.severity != Severity::stop) continue;
    names += (names.empty() ? "" : " ") + std::string(caution.key);
  }
  return names;
}
std::string remedies_of(const SessionPlan& plan) {
  std::string names;
  for (const Remedy remedy : plan.remedies) {
    names += (names.empty() ? "" : " ") + std::string(name(remedy));
  }
  return names;
}

}  // namespace

TEST_CASE("what limits the load") {
  // The loads follow from Wathen's curve and the rules; each row says why.
  struct Row {
    std::string_view what;
    std::vector<LoggedSet> log;
    int sets;
    Reps reps;
    RepsInReserve reserve;
    double max_chance;
    Mass heaviest;  // the plan is no heavier
    std::string_view limit;
  };
  const Row rows[] = {
      {"nothing known but the max: a single with two left is no more than the curve has for three",
       {},
       1,
       1_reps,
       2_rir,
       0.5,
       92.5_kg,
       "usual_curve"},
      {"no more than a step beyond what was said, whatever the max that was stated",
       {done(6, 70_kg, 6_reps, 2), done(3, 70_kg, 6_reps, 2)},
       1,
       6_reps,
       2_rir,
       0.5,
       72.5_kg,
       "ratings"},
      {"of two sessions the better: one hard day holds nobody back",
       {done(6, 72.5_kg, 6_reps, 2), done(3, 72.5_kg, 6_reps, 1)},
       1,
       6_reps,
       2_rir,
       0.5,
       75_kg,
       "ratings"},
      {"the heaviest set speaks, not an easy back-off",
       {done(3, 72.5_kg, 5_reps, 3), done(3, 60_kg, 10_reps, 4)},
       1,
       6_reps,
       2_rir,
       0.5,
       75_kg,
       "ratings"},
      {"the bound on the chance of missing",
       {},
       1,
       6_reps,
       0_rir,
       0.05,
       80_kg,
       "chance_of_missing"},
      {"a log of RPE 8 and 9 in place of reserves: no triple a tenth above what five asks for",
       {done(5, 70_kg, 5_reps, 8), done(2, 70_kg, 5_reps, 9)},
       3,
       3_reps,
       1_rir,
       0.5,
       82.5_kg,
       "greatest_rise"},
      {"not switched off by a chance of missing of 99 %",
       {done(5, 60_kg, 5_reps, 8), done(2, 60_kg, 5_reps, 9)},
       1,
       1_reps,
       1_rir,
       0.99,
       75_kg,
       "greatest_rise"},
      {"nor by asking for fewer reps",
       {done(2, 60_kg, 5_reps, 5)},
       1,
       4_reps,
       2_rir,
       0.99,
       67.5_kg,
       "greatest_rise"},
      {"after two weeks off, a tenth less",
       {done(20, 80_kg, 6_reps, 2)},
       1,
       6_reps,
       2_rir,
       0.5,
       72.5_kg,
       "layoff"},
      {"after a miss, no more than that",
       {done(6, 75_kg, 6_reps, 2), missed(3, 70_kg, 6_reps)},
       1,
       6_reps,
       2_rir,
       0.5,
       70_kg,
       "held_after_miss"},
      {"after nothing but a miss, a step beyond what the reps before it say",
       {missed(3, 70_kg, 6_reps)},
       1,
       6_reps,
       2_rir,
       0.5,
       67.5_kg,
       "ratings"},
      {"after what may have been a miss, no more than that",
       {done(6, 75_kg, 6_reps, 2), open(3, 70_kg, 6_reps)},
       1,
       6_reps,
       2_rir,
       0.5,
       70_kg,
       "held_after_miss"},
      {"what may have been a miss today: no more than that",
       {open(0, 70_kg, 6_reps)},
       2,
       6_reps,
       2_rir,
       0.5,
       70_kg,
       "today"},
      {"with nothing left, no more than that",
       {done(6, 75_kg, 6_reps, 2), done(3, 70_kg, 6_reps, 0)},
       1,
       6_reps,
       2_rir,
       0.5,
       70_kg,
       "held_after_failure"},
      {"missed today: five per cent less than what was missed",
       {missed(0, 70_kg, 6_reps), missed(0, 70_kg, 6_reps)},
       1,
       6_reps,
       2_rir,
       0.5,
       66.5_kg,
       "missed_today"},
      {"missed today, and fewer reps asked for: still less than what was missed",
       {missed(0, 70_kg, 6_reps)},
       1,
       3_reps,
       2_rir,
       0.5,
       66.5_kg,
       "missed_today"},
      {"one left today where two were asked for: what leaves two",
       {done(0, 75_kg, 6_reps, 1)},
       2,
       6_reps,
       2_rir,
       0.5,
       74_kg,
       "today"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    SessionRequest request = usual();
    request.sets = Sets(row.sets);
    request.reps = row.reps;
    request.reserve = row.reserve;
    request.max_chance_of_missing = row.max_chance;
    const SessionPlan plan = planned(lifter_with(row.log), request);
    CHECK(stops_of(plan) == "");
    CHECK(name(plan.limited_by) == row.limit);
    CHECK(plan.load() <= row.heaviest);
    CHECK(plan.load() > row.heaviest - 5_kg);
  }
}

TEST_CASE("no set of a session is likelier to be missed than the bound allows") {
  // A lifter who gets better from set to set: the first is the likeliest to be missed.
  StrengthPriors priors{.max = 100_kg, .max_log_sd = 0.02};
  for (const double loss : {-0.02, -0.005, 0.0, 0.012, 0.03}) {
    CAPTURE(loss);
    priors.set_loss = loss;
    Lifter lifter = stated_lifter(bench, 100_kg);
    lifter.strength = std::make_shared<const StatedStrength>(bench, equations::wathen, priors);
    SessionRequest request = usual();
    request.sets = Sets(5);
    request.reserve = 0_rir;
    request.max_chance_of_missing = 0.05;
    const SessionPlan plan = planned(lifter, request);
    REQUIRE(plan.chances_of_missing.size() == 5);
    for (const double chance : plan.chances_of_missing) CHECK(chance <= 0.05);
  }
}

TEST_CASE("what stops a plan, and what would lift it") {
  struct Row {
    std::string_view what;
    Lift lift;
    int sets;
    Reps reps;
    RepsInReserve reserve;
    bool has_spotter;
    Safeties safeties;
    std::string_view stops;
    std::string_view remedies;
  };
  const Lift dumbbells = bench + modifiers::dumbbells;
  const Row rows[] = {
      {"two left inside checked safeties", bench, 3, 6_reps, 2_rir, false, Safeties::checked, "",
       ""},
      {"two left alone", bench, 3, 6_reps, 2_rir, false, Safeties::none, "", ""},
      {"one left alone", bench, 3, 6_reps, 1_rir, false, Safeties::none, "not_alone",
       "have_spotter check_safeties keep_reserve"},
      {"one left inside safeties nobody tried", bench, 3, 6_reps, 1_rir, false, Safeties::unchecked,
       "not_alone", "have_spotter check_safeties keep_reserve"},
      {"a max attempt alone", bench, 1, 1_reps, 0_rir, false, Safeties::none, "not_alone",
       "have_spotter check_safeties keep_reserve"},
      {"a max attempt with half a rep left is one all the same", bench, 3, 1_reps, 0.5_rir, false,
       Safeties::none, "not_alone", "have_spotter check_safeties keep_reserve"},
      {"a max attempt with a spotter", bench, 1, 1_reps, 0_rir, true, Safeties::none, "", ""},
      {"twenty sets of twenty", bench, 20, 20_reps, 2_rir, true, Safeties::checked, "too_much_work",
       "do_less"},
      {"ten sets of ten with none left", bench, 10, 10_reps, 0_rir, true, Safeties::checked,
       "too_much_work", "do_less"},
      {"ten sets of ten with two left", bench, 10, 10_reps, 2_rir, true, Safeties::checked, "", ""},
      {"dumbbells: safeties do not catch them", dumbbells, 3, 6_reps, 0_rir, false,
       Safeties::checked, "not_alone", "have_spotter keep_reserve"},
      {"dumbbells with a spotter", dumbbells, 3, 6_reps, 0_rir, true, Safeties::none, "", ""},
      {"an exercise ball: nor there", bench + modifiers::exercise_ball, 3, 6_reps, 0_rir, false,
       Safeties::checked, "not_alone", "have_spotter keep_reserve"},
      {"a balance cushion", bench + modifiers::balance_cushion, 1, 1_reps, 1_rir, false,
       Safeties::checked, "not_alone", "have_spotter keep_reserve"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    // Done often before, so that nothing is introduced.
    const Lifter lifter = stated_lifter(
        bench, {.stated_max = 100_kg, .done_before = {{.lift = row.lift, .sessions = 20}}});
    SessionRequest request = usual(row.lift);
    request.sets = Sets(row.sets);
    request.reps = row.reps;
    request.reserve = row.reserve;
    request.has_spotter = row.has_spotter;
    request.safeties = row.safeties;
    const SessionPlan plan = planned(lifter, request);
    CHECK(stops_of(plan) == row.stops);
    CHECK(remedies_of(plan) == row.remedies);
    // Under a stop there are no loads, and without one there are.
    CHECK(plan.sets.empty() == plan.is_stopped());
    CHECK((plan.load() > Mass{}) == !plan.is_stopped());
    CHECK(plan.alternatives.empty() == plan.is_stopped());
  }
}

TEST_CASE("a max attempt is one set, however many were asked for, and not on a lift that is new") {
  SessionRequest request = usual();
  request.sets = Sets(10);
  request.reps = 1_reps;
  request.reserve = 0_rir;
  const SessionPlan plan = planned(stated_lifter(bench, 100_kg), request);
  CHECK(plan.sets.back().sets == 1);
  CHECK_FALSE(plan.next);
  // Three sessions of a variation are too few, five are not.
  const Lift feet_up = bench + modifiers::feet_up;
  for (const int sessions : {3, 20}) {
    request.lift = feet_up;
    const Lifter lifter = stated_lifter(
        bench, {.stated_max = 100_kg, .done_before = {{.lift = feet_up, .sessions = sessions}}});
    const SessionPlan of_variation = planned(lifter, request);
    CHECK(of_variation.introduction.has_value() == (sessions < 4));
    CHECK_FALSE(of_variation.is_stopped());
  }
}

TEST_CASE("where a miss is likely, the plan says so before the first set") {
  SessionRequest request = usual();
  request.has_spotter = true;
  const auto says_so = [&] {
    const SessionPlan plan = planned(stated_lifter(bench, 100_kg), request);
    return std::any_of(plan.cautions.begin(), plan.cautions.end(), [](const Caution& caution) {
      return caution.text == cautions::likely_miss.text && caution.severity == Severity::warn;
    });
  };
  CHECK_FALSE(says_so());
  request.sets = Sets(20);
  request.reps = 2_reps;
  request.reserve = 0_rir;
  request.max_chance_of_missing = 0.99;
  CHECK(says_so());
  request.max_chance_of_missing = 0.05;
  CHECK_FALSE(says_so());
}

TEST_CASE("after a miss today, what went well last time is no reason for more") {
  const std::vector<LoggedSet> went_well{done(4, 80_kg, 6_reps, 2), done(4, 80_kg, 6_reps, 2),
                                         done(4, 80_kg, 6_reps, 2)};
  SessionRequest request = usual();
  request.max_chance_of_missing = 0.5;
  const SessionPlan fresh = planned(lifter_with(went_well), request);
  std::vector<LoggedSet> log = went_well;
  log.push_back(missed(0, 80_kg, 6_reps));
  const SessionPlan after = planned(lifter_with(log), request);
  CHECK(fresh.load() == 80_kg);
  CHECK(after.load() < fresh.load());
  // What the lifter's max would say of the sets to come, the miss has just contradicted.
  CHECK(fresh.reserve_left->typical >= request.reserve.count() - 0.5);
  CHECK_FALSE(after.reserve_left);
}

TEST_CASE("after a set of today that went worse, nothing is said of what will be left") {
  // [a coach's: "about 6 RIR" beside a fresh miss is read by nobody who saw it]
  SessionRequest request = usual();
  request.back_offs = BackOffs{};
  const Lifter lifter = lifter_with({});
  const SessionPlan plan = planned(lifter, request);
  LoggedSet lighter = done(0, plan.load() - 10_kg, 6_reps, 0);
  struct Row {
    std::string_view what;
    LoggedSet set;
    bool is_said;
  };
  const Row rows[] = {
      {"as asked", done(0, plan.load(), 6_reps, 2), true},
      {"one left of two", done(0, plan.load(), 6_reps, 1), false},
      {"a miss", missed(0, plan.load(), 6_reps), false},
      {"a hard warm-up", lighter, false},
  };
  CHECK(plan.alternatives.size() == 2);
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const SessionPlan rest = replan(lifter, plan, std::vector{row.set}).value();
    REQUIRE(rest.work_sets > 0);
    CHECK(rest.reserve_left.has_value() == row.is_said);
    CHECK(rest.chances_of_missing.empty() != row.is_said);
    CHECK(rest.alternatives.empty() != row.is_said);
    REQUIRE(rest.back_offs);
    CHECK(rest.back_offs->reserve_left.has_value() == row.is_said);
    CHECK(rest.back_offs->chance_of_missing.has_value() == row.is_said);
  }
}

TEST_CASE("a max that cannot be right is a question, not a load") {
  SessionRequest request = usual();
  for (const Mass max : {300_kg, 1000_kg}) {
    const SessionPlan plan = planned(stated_lifter(bench, max), request);
    CHECK(stops_of(plan) == "doubtful_max");
    CHECK(remedies_of(plan) == "correct_max confirm_max");
  }
  request.is_max_confirmed = true;
  CHECK_FALSE(planned(stated_lifter(bench, 300_kg), request).is_stopped());
  CHECK(stops_of(planned(stated_lifter(bench, 1000_kg), request)) == "too_many_plates");

  // The same of a log, in pounds perhaps, or with a point that was lost.
  const auto by_log = [&](bool is_confirmed) {
    request.is_max_confirmed = is_confirmed;
    return planned(learn_lifter(std::vector{done(3, 300_kg, 5_reps, 2)}, bench, today), request);
  };
  CHECK(stops_of(by_log(false)) == "doubtful_log_max");
  CHECK(remedies_of(by_log(false)) == "correct_log confirm_max");
  CHECK(stops_of(by_log(true)) == "");

  Lifter above_log = stated_lifter(bench, 160_kg);
  above_log.stated_max->check = StatedMaxCheck::above_log;
  CHECK(stops_of(planned(above_log, request)) == "stated_max_above_log");
}

TEST_CASE("what a log leaves open stands beside the load, whoever shows it") {
  const auto says = [](const SessionPlan& plan, const Caution& said) {
    return std::any_of(plan.cautions.begin(), plan.cautions.end(),
                       [&](const Caution& caution) { return caution.text == said.text; });
  };
  std::vector<LoggedSet> log;
  for (const int day : {21, 18, 14, 11, 7, 4}) log.push_back(done(day, 60_kg, 5_reps, 2));
  const SessionPlan plain = planned(learn_lifter(log, bench, today), usual());
  CHECK_FALSE(says(plain, cautions::doubtful_log));
  CHECK_FALSE(says(plain, cautions::later_sets));

  SessionRequest earlier = usual();
  earlier.date = today - 10;
  CHECK(says(planned(learn_lifter(log, bench, today - 10), earlier), cautions::later_sets));

  log.push_back(done(1, 78_kg, 5_reps, 2));  // is that a typo?
  const LearntLifter doubtful = learn_lifter(log, bench, today);
  REQUIRE(doubtful.doubts.jump);
  CHECK(says(planned(doubtful, usual()), cautions::doubtful_log));
}

TEST_CASE("a far lighter set that was left out is asked about while it is new") {
  const auto asks = [](int days_ago) {
    std::vector<LoggedSet> log;
    for (const int day : {60, 56, 53, 49, 46, 42, 39, 35, 31, 28, 24, 21, 17, 14, 10, 7, 3}) {
      log.push_back(done(day, 60_kg, 5_reps, 2));
      log.push_back(done(day, 60_kg, 5_reps, 2));
    }
    log.push_back(done(days_ago, 30_kg, 5_reps, 0));
    const LearntLifter lifter = learn_lifter(log, bench, today);
    REQUIRE(lifter.suspects.size() == 1);
    const SessionPlan plan = planned(lifter, usual());
    return std::any_of(plan.cautions.begin(), plan.cautions.end(), [](const Caution& caution) {
      return caution.key == cautions::light_set_left_out.key;
    });
  };
  CHECK(asks(3));
  CHECK_FALSE(asks(35));
}

TEST_CASE("a far lighter set that is all there is of the last session stops the plan") {
  // [common practice: a coach asks before loading; nothing tells that such a day was a slip]
  struct Row {
    std::string_view what;
    Mass load;
    bool is_alone;
    bool is_confirmed;
    std::string_view stops;
  };
  const Row rows[] = {
      {"all of the last session", 40_kg, true, false, "light_set_left_out"},
      {"beside sets that fit", 40_kg, false, false, ""},
      {"said to be a slip", 40_kg, true, true, ""},
      {"as if in pounds: a slip is likelier", 27.5_kg, true, false, ""},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    std::vector<LoggedSet> log;
    for (int day = 60; day >= (row.is_alone ? 7 : 3); day -= 4) {
      log.push_back(done(day, 60_kg, 5_reps, 2));
      log.push_back(done(day, 60_kg, 5_reps, 2));
    }
    if (!row.is_alone) log.push_back(done(3, 60_kg, 5_reps, 2));
    log.push_back(done(3, row.load, 5_reps, 0));
    const LearntLifter lifter = learn_lifter(log, bench, today);
    REQUIRE(lifter.suspects.size() == 1);
    SessionRequest request = usual();
    request.is_max_confirmed = row.is_confirmed;
    const SessionPlan plan = planned(lifter, request);
    CHECK(stops_of(plan) == row.stops);
    CHECK(remedies_of(plan) == (row.stops.empty() ? "" : "correct_log confirm_max"));
  }
}

TEST_CASE(
    "where the lighter sets were left out and too few others speak for it, there is no load") {
  // Three weeks in pounds that are called kilograms, then the true loads.
  std::vector<LoggedSet> log;
  for (const int day : {24, 21, 17, 14}) log.push_back(done(day, 132_kg, 5_reps, 2));
  for (const int day : {10, 7, 3}) log.push_back(done(day, 60_kg, 5_reps, 2));
  const LearntLifter lifter = learn_lifter(log, bench, today);
  REQUIRE(lifter.doubts.has_few_sets_left);
  CHECK(stops_of(planned(lifter, usual())) == "doubtful_log");
  CHECK(remedies_of(planned(lifter, usual())) == "correct_log confirm_max");
  SessionRequest request = usual();
  request.is_max_confirmed = true;
  CHECK_FALSE(planned(lifter, request).is_stopped());
}

TEST_CASE("a range that may end as a single with none left is a max attempt") {
  const Lifter lifter = learn_lifter(std::vector{done(3, 60_kg, 5_reps, 2)}, bench, today);
  SessionRequest request = usual();
  request.reserve = 0_rir;
  request.reps = 1_reps;
  request.most_reps = 3_reps;
  CHECK(stops_of(planned(lifter, request)) == "max_attempt_too_early");
  request.reps = 2_reps;
  CHECK(stops_of(planned(lifter, request)) == "");
}

TEST_CASE("the plain lift of somebody who began with its variations starts with more left") {
  const Lift feet_up = bench + modifiers::feet_up;
  std::vector<LoggedSet> log;
  for (const int day : {21, 18, 14, 11, 7}) log.push_back(done(day, 60_kg, 5_reps, 2, feet_up));
  const SessionPlan first = planned(learn_lifter(log, bench, today), usual());
  CHECK(first.reserve == 4_rir);
  log.push_back(done(4, 50_kg, 6_reps, 4));
  CHECK(planned(learn_lifter(log, bench, today), usual()).reserve == 3_rir);
  const LifterFacts known{.done_before = {{.lift = bench, .sessions = 20}}};
  CHECK(planned(learn_lifter(log, bench, today, known), usual()).reserve == 2_rir);
}

TEST_CASE("a back squat is new to somebody who has done front squats only") {
  // [common practice, no source: another bar position is another lift to learn, either way]
  const Lift front = lifts::squat + modifiers::front_squat;
  const SessionRequest request = usual(lifts::squat);
  std::vector<LoggedSet> log;
  for (const int day : {40, 36, 33, 29, 26, 22}) log.push_back(done(day, 90_kg, 5_reps, 2, front));
  for (const int day : {19, 15, 12, 8, 5}) log.push_back(done(day, 90_kg, 5_reps, 2, front));
  const auto back_squat = [&] { return planned(learn_lifter(log, lifts::squat, today), request); };
  const SessionPlan first = back_squat();
  REQUIRE(first.exposure() != nullptr);
  CHECK(first.exposure()->number == 1);
  CHECK(first.reserve == 4_rir);
  CHECK(first.load() <= first.exposure()->load);
  log.push_back(done(4, 70_kg, 6_reps, 5, lifts::squat));
  CHECK(back_squat().exposure()->number == 2);
  // What was done beside the plain lift from the beginning does not make it new, nor is it new to
  // whoever states its max or says that it was done.
  log.push_back(done(38, 110_kg, 5_reps, 2, lifts::squat));
  CHECK_FALSE(back_squat().introduction);
  log.erase(log.end() - 2, log.end());
  const LifterFacts known{.done_before = {{.lift = lifts::squat, .sessions = 20}}};
  const SessionPlan known_well = planned(learn_lifter(log, lifts::squat, today, known), request);
  CHECK_FALSE(known_well.introduction);
  CHECK(known_well.load() > first.load());
  const LifterFacts stated{.stated_max = 130_kg};
  CHECK_FALSE(planned(learn_lifter(log, lifts::squat, today, stated), request).introduction);
}

TEST_CASE("a row that could not be read and says that a rep was missed holds the next load") {
  // [assumption: a load held for one session is no loss, a miss that is overlooked is]
  const std::vector log{done(7, 70_kg, 6_reps, 4), done(3, 70_kg, 6_reps, 4)};
  struct Row {
    std::optional<Date> missed_on;
    bool is_held;
    std::optional<Lift> lift{};
  };
  const Row rows[] = {
      {std::nullopt, false},
      {today - 5, false},
      {today - 3, true},
      {today - 1, true},
      {today, true},
      {today + 300, true},
      {today - 1, true, bench},
      {today - 1, false, lifts::squat},
      {today - 1, false, lifts::overhead_press},
  };
  for (const Row& row : rows) {
    std::vector<NotedDay> noted;
    if (row.missed_on)
      noted.push_back({.date = *row.missed_on, .lift = row.lift, .is_missed = true});
    const auto lifter = learn_lifter(log, bench, today, {.noted = noted});
    const SessionPlan plan = planned(lifter, usual());
    CHECK((plan.load() <= 70_kg) == row.is_held);
    CHECK((plan.limited_by == LimitedBy::held_after_miss) == row.is_held);
    CHECK(std::any_of(plan.cautions.begin(), plan.cautions.end(), [](const Caution& caution) {
            return caution.key == cautions::may_be_missed.key;
          }) == row.is_held);
    CHECK_FALSE(plan.is_stopped());
  }
  // Of a form of the lift that was done longer ago it says nothing, once the lift was done again.
  const Lift feet_up = bench + modifiers::feet_up;
  std::vector both = log;
  both.insert(both.begin(), {done(14, 60_kg, 6_reps, 4), done(10, 60_kg, 6_reps, 4)});
  both[0].lift = feet_up;
  both[1].lift = feet_up;
  SessionRequest of_feet_up = usual();
  of_feet_up.lift = feet_up;
  const auto limit = [&](Date missed_on) {
    const auto lifter =
        learn_lifter(both, bench, today, {.noted = {{.date = missed_on, .is_missed = true}}});
    return planned(lifter, of_feet_up).limited_by;
  };
  CHECK(limit(today - 9) != LimitedBy::held_after_miss);
  CHECK(limit(today - 3) == LimitedBy::held_after_miss);
}

TEST_CASE("a gap in the introduction of a lift takes it back") {
  // [assumption: what was learnt of a movement in a few sessions is soon lost]
  const Lift lift = bench + modifiers::feet_up + modifiers::flat_back;
  struct Row {
    std::string_view what;
    std::vector<int> days;  // ago, of the sessions so far
    int number;             // of the one today
    bool is_said;
  };
  const Row rows[] = {
      {"a week apart", {14, 7}, 3, false},
      {"three weeks since the second", {28, 21}, 2, true},
      {"three weeks between the first two", {28, 7}, 2, true},
      {"five weeks since the second", {42, 35}, 1, true},
      {"five weeks between, then again", {45, 10, 5}, 3, true},
      {"five weeks since the last of many", {70, 66, 63, 59, 56, 52, 35}, 0, false},
      {"a year since the last of many", {390, 386, 383, 379, 376, 372, 365}, 1, true},
      {"a year, and two sessions since", {390, 386, 383, 379, 376, 372, 365, 10, 5}, 3, true},
      {"three months since the last of many", {110, 106, 103, 99, 96, 92, 85}, 1, true},
      {"twelve weeks since", {110, 106, 103, 99, 96, 92, 84}, 0, false},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    std::vector<LoggedSet> log;
    for (int day = 70; day > 0; day -= 4) log.push_back(done(day, 90_kg, 5_reps, 2));
    for (const int day : row.days) log.push_back(done(day, 60_kg, 6_reps, 5, lift));
    const auto lifter = learn_lifter(log, bench, today);
    const SessionPlan plan = planned(lifter, usual(lift));
    CHECK((plan.exposure() == nullptr ? 0 : plan.exposure()->number) == row.number);
    // A block begins where a session would.
    BlockRequest weeks{.lift = lift, .start = today, .safeties = Safeties::checked};
    const auto block = plan_block(lifter, weeks);
    REQUIRE(block);
    const StepPlan& first = block->sessions.front().step.plan;
    CHECK((first.stage == Stage::introduction ? first.exposure : 0) == row.number);
    CHECK(std::any_of(plan.cautions.begin(), plan.cautions.end(), [](const Caution& caution) {
            return caution.key == cautions::introduction_interrupted.key;
          }) == row.is_said);
  }
}

TEST_CASE("after pain there is no load before somebody qualified has looked") {
  auto log = std::vector{done(3, 70_kg, 6_reps, 2)};
  log[0].has_pain = true;
  SessionRequest request = usual();
  const Lifter lifter = lifter_with(log);
  CHECK(stops_of(planned(lifter, request)) == "pain");
  CHECK(remedies_of(planned(lifter, request)) == "have_pain_seen");
  request.pain = Pain::none;
  CHECK_FALSE(planned(lifter, request).is_stopped());
  request.pain = Pain::yes;
  CHECK(stops_of(planned(lifter_with({}), request)) == "pain");
}

TEST_CASE("where it is too soon for a hard session, the plan is an easy one") {
  // To failure yesterday; 72 hours are wanted.
  const Lifter lifter = lifter_with({done(1, 80_kg, 8_reps, 0)});
  SessionRequest request = usual();
  const SessionPlan plan = planned(lifter, request);
  CHECK(plan.recovery.is_too_soon());
  CHECK(plan.recovery.conflicts.front().conflict.after_failure);
  CHECK(plan.recovery.ready_on == today + 2);
  CHECK(plan.reserve == 4_rir);
  CHECK(name(plan.limited_by) == "recovery");
  CHECK(plan.reserve_left->typical >= 4.0);
  const auto as_asked =
      std::find_if(plan.alternatives.begin(), plan.alternatives.end(),
                   [](const Alternative& a) { return a.kind == Alternative::Kind::as_asked; });
  REQUIRE(as_asked != plan.alternatives.end());
  CHECK(as_asked->with.load > plan.load());
  // What should not be done is not made right by doing less of it today.
  request.reserve = 1_rir;
  request.safeties = Safeties::none;
  CHECK(stops_of(planned(lifter, request)) == "not_alone");
}

TEST_CASE("a variation that was never done is introduced") {
  const Lift lift = bench + modifiers::feet_up + modifiers::flat_back;
  const SessionPlan plan = planned(stated_lifter(bench, 128_kg), usual(lift));
  REQUIRE(plan.exposure() != nullptr);
  CHECK(plan.exposure()->number == 1);
  CHECK(name(plan.limited_by) == "introduction");
  CHECK(plan.reserve == 4_rir);
  CHECK(plan.load() <= plan.exposure()->load);
  CHECK_FALSE(plan.next);
  const Lifter known =
      stated_lifter(bench, {.stated_max = 128_kg, .done_before = {{.lift = lift, .sessions = 20}}});
  CHECK_FALSE(planned(known, usual(lift)).introduction);
  CHECK(planned(known, usual(lift)).load() > plan.load());
}

TEST_CASE("a pause or a close grip is no new lift to somebody who knows the plain one") {
  // [common practice, no source; the case of a trial: four sessions to introduce a pause to
  // somebody who benches 160 kg]
  for (const Lift& lift : {bench + modifiers::close_grip, bench + modifiers::pause}) {
    const SessionPlan plan = planned(stated_lifter(bench, 160_kg), usual(lift));
    CHECK_FALSE(plan.introduction);
    CHECK(plan.reserve == 4_rir);  // the first time
    const SessionPlan plain = planned(stated_lifter(bench, 160_kg), usual());
    CHECK(plan.load() < plain.load());
    CHECK(plan.load() > 0.7 * plain.load());
    // Nor is it when the log has four sessions of the plain lift; with two it is.
    for (const int sessions : {2, 4}) {
      std::vector<LoggedSet> log;
      for (int i = 0; i < sessions; ++i) log.push_back(done(4 + 4 * i, 100_kg, 6_reps, 2));
      Lifter lifter = lifter_with(log, 160_kg);
      lifter.stated_max.reset();
      lifter.learnt = Learnt{.sets_used = sessions};
      CHECK(planned(lifter, usual(lift)).introduction.has_value() == (sessions < 4));
    }
  }
  CHECK(planned(stated_lifter(bench, 160_kg), usual(bench + modifiers::feet_up)).introduction);
}

TEST_CASE("a bar heavier than the load is offered for fewer reps") {
  // [common practice, no source] 15.6 kg wanted for 10: the bar of 20 kg goes up for fewer.
  SessionRequest request = usual();
  request.reps = 10_reps;
  request.sets = Sets(1);
  const auto plan = plan_session(stated_lifter(bench, 25_kg), request);
  REQUIRE_FALSE(plan.has_value());
  const int reps = plan.refusal().reps_with_lightest;
  CHECK(reps >= 1);
  CHECK(reps < 10);
  request.reps = Reps(reps);
  CHECK(planned(stated_lifter(bench, 25_kg), request).load() == 20_kg);
  request.reps = 10_reps;
  CHECK(plan_session(stated_lifter(bench, 15_kg), request).refusal().reps_with_lightest == 0);
}

TEST_CASE("the load rises to the work, and every set says what to move") {
  const SessionPlan plan = planned(stated_lifter(bench, 100_kg), usual());
  REQUIRE(plan.sets.size() >= 3);
  CHECK(plan.sets.front().with.load == 20_kg);
  for (std::size_t i = 1; i < plan.sets.size(); ++i) {
    CHECK(plan.sets[i].with.load > plan.sets[i - 1].with.load);
    CHECK(plan.sets[i].put_on > 0);
    CHECK(plan.sets[i].is_work == (i + 1 == plan.sets.size()));
  }
  CHECK(plan.sets.back().sets == 3);
  REQUIRE(plan.alternatives.size() == 2);
  CHECK(plan.alternatives[0].with.load < plan.load());
  CHECK(plan.alternatives[1].with.load > plan.load());
  CHECK(plan.alternatives[0].chance_of_missing < plan.alternatives[1].chance_of_missing);
  CHECK(plan.alternatives[0].reserve_left >= plan.alternatives[1].reserve_left);
  REQUIRE(plan.next);
  CHECK(plan.next->is_short);
}

TEST_CASE("two dumbbells are loaded from a rack, both together") {
  const Lift lift = bench + modifiers::dumbbells;
  const Lifter lifter =
      stated_lifter(bench, {.stated_max = 100_kg, .done_before = {{.lift = lift, .sessions = 20}}});
  SessionRequest request = usual(lift);
  const SessionPlan plan = planned(lifter, request);
  REQUIRE(plan.sets.back().with.dumbbell);
  CHECK_FALSE(plan.sets.back().with.bar);
  CHECK(plan.load() == 2.0 * plan.sets.back().with.dumbbell->mass());
  request.dumbbells = dumbbells(10, 20, 2, Unit::kg);
  CHECK(planned(lifter, request).load() == 40_kg);
  CHECK(name(planned(lifter, request).limited_by) == "equipment");
  request.dumbbells = dumbbells(60, 80, 2, Unit::kg);
  CHECK(name(plan_session(lifter, request).refusal().code) == "dumbbells_too_heavy");
}

TEST_CASE("a row with one dumbbell is loaded with one, and its load is that one") {
  const Lifter lifter = stated_lifter(
      lifts::dumbbell_row,
      {.stated_max = 40_kg, .done_before = {{.lift = lifts::dumbbell_row, .sessions = 20}}});
  const SessionPlan plan = planned(lifter, usual(lifts::dumbbell_row));
  const LoadedWith& work = plan.sets.back().with;
  REQUIRE(work.dumbbell);
  CHECK(work.dumbbells == 1);
  CHECK(plan.load() == work.dumbbell->mass());
  CHECK(plan.load() > 20_kg);  // and not the half of what it is planned for
}

TEST_CASE("what cannot be answered is refused by a code") {
  const auto code_of = [](const Lifter& lifter, const SessionRequest& request) {
    const auto plan = plan_session(lifter, request);
    return plan ? std::string_view("none") : name(plan.refusal().code);
  };
  CHECK(code_of(stated_lifter(bench, 100_kg), usual()) == "none");
  CHECK(code_of(stated_lifter(bench, 100_kg), usual(lifts::squat)) == "other_lift");
  CHECK(code_of(stated_lifter(lifts::plank, 100_kg), usual(lifts::plank)) == "bodyweight_lift");
  CHECK(code_of(stated_lifter(lifts::push_up, 100_kg), usual(lifts::push_up)) == "no_body_mass");
  // A power clean has no rep max: a set ends when the bar slows (common practice).
  CHECK(code_of(stated_lifter(lifts::power_clean, 80_kg), usual(lifts::power_clean)) ==
        "explosive_lift");
  CHECK(code_of(stated_lifter(lifts::push_press, 80_kg), usual(lifts::push_press)) ==
        "explosive_lift");
  CHECK(code_of(lifter_with({done(-1, 80_kg, 5_reps, 2)}), usual()) == "log_goes_on");
  CHECK(code_of(stated_lifter(bench, 20_kg), usual()) == "bar_too_heavy");
  Lifter unknown = lifter_with({done(100, 80_kg, 5_reps, 2)});
  unknown.stated_max.reset();
  CHECK(code_of(unknown, usual()) == "no_strength");
  unknown.learnt = Learnt{.sets_used = 1};
  CHECK(code_of(unknown, usual()) == "log_too_old");
  CHECK(plan_session(unknown, usual()).refusal().days == 100);
}

TEST_CASE("the last sessions say whether there is room for more") {
  struct Row {
    std::vector<LoggedSet> log;
    std::string_view progress;
  };
  const Row rows[] = {
      {{}, "none"},
      {{done(4, 70_kg, 6_reps, 2)}, "none"},
      {{done(4, 70_kg, 6_reps, 3)}, "exceeded"},
      {{done(8, 70_kg, 6_reps, 4), done(4, 70_kg, 6_reps, 4)}, "exceeded_twice"},
      {{done(8, 70_kg, 6_reps, 4), missed(4, 70_kg, 6_reps)}, "missed"},
  };
  for (const Row& row : rows) {
    CHECK(name(planned(lifter_with(row.log), usual()).progress) == row.progress);
  }
}

TEST_CASE("once a session has begun, what was done decides what is left of it") {
  const Lifter lifter = stated_lifter(bench, 100_kg);
  const SessionPlan plan = planned(lifter, usual());
  const auto after = [&](std::vector<LoggedSet> sets) { return *replan(lifter, plan, sets); };

  const SessionPlan as_planned = after({done(0, plan.load(), 6_reps, 2)});
  CHECK(as_planned.load() == plan.load());
  REQUIRE(as_planned.sets.size() == 1);
  CHECK(as_planned.sets[0].sets == 2);

  const SessionPlan after_miss = after({missed(0, plan.load(), 6_reps)});
  CHECK(after_miss.load() <= 0.95 * plan.load());
  CHECK(name(after_miss.limited_by) == "missed_today");

  const SessionPlan harder = after({done(0, plan.load(), 6_reps, 0)});
  CHECK(harder.load() < plan.load());

  // A load that is missed is no warm-up, however light; nor is one that left less than asked for.
  CHECK(after({missed(0, 60_kg, 6_reps)}).load() <= 57_kg);
  CHECK(after({done(0, 60_kg, 6_reps, 0)}).load() < 60_kg);

  // A warm-up that left as much as the work sets should, with three quarters of their load: a bad
  // day.
  const SessionPlan bad_day = after({done(0, 60_kg, 8_reps, 2)});
  CHECK(bad_day.load() < 65_kg);
  CHECK(name(bad_day.limited_by) == "today");
  CHECK(bad_day.sets.back().sets == 3);
  CHECK(after({done(0, 60_kg, 3_reps, 4.5)}).load() == plan.load());

  // A warm-up is no work set, and easier than planned is no reason for more within the session.
  CHECK(after({done(0, 40_kg, 6_reps, 8)}).sets.back().sets == 3);
  CHECK(after({done(0, plan.load(), 6_reps, 5)}).load() == plan.load());

  const SessionPlan at_end =
      after({done(0, plan.load(), 6_reps, 2), done(0, plan.load(), 6_reps, 2),
             done(0, plan.load(), 6_reps, 2)});
  CHECK(at_end.sets.empty());
  CHECK_FALSE(at_end.is_stopped());
}

TEST_CASE("the load is the nearest there is, within the bound and half a rep") {
  // [common practice, no source: 54.8 kg wanted is 55 kg, not 52.5]
  int up = 0;
  int down = 0;
  for (double max = 60.0; max < 140.0; max += 0.7) {
    CAPTURE(max);
    const Lifter lifter = stated_lifter(bench, Mass::from_kg(max));
    SessionRequest request = usual();
    request.max_chance_of_missing = 0.2;
    const SessionPlan plan = planned(lifter, request);
    const LoadRule rule(lifter, bench, today);
    const WorkSets harder{.date = today, .sets = 3, .reps = 6_reps, .reserve = 1.5_rir};
    CHECK(plan.load() <= std::max(plan.wanted, rule.by_reserve(harder)));
    CHECK(plan.load() > plan.wanted - 2.5_kg);
    for (const double chance : plan.chances_of_missing) CHECK(chance <= 0.2);
    (plan.load() > plan.wanted ? up : down) += 1;
    if (plan.load() > plan.wanted) CHECK(plan.load() - plan.wanted < 1.25_kg);
  }
  CHECK(up > 10);
  CHECK(down > 10);
}

TEST_CASE("a bar a little heavier than the load is the load, where the limits allow it") {
  // 19.4 kg wanted, and a bar of 20 kg: nobody fetches another.
  SessionRequest request = usual();
  request.sets = Sets(1);
  request.max_chance_of_missing = 0.5;
  const SessionPlan plan = planned(stated_lifter(bench, 24.3_kg), request);
  CHECK(plan.wanted < 20_kg);
  CHECK(plan.load() == 20_kg);
  REQUIRE(plan.sets.size() == 1);
  CHECK(name(plan_session(stated_lifter(bench, 23.5_kg), request).refusal().code) ==
        "bar_too_heavy");
}

TEST_CASE("a session done as asked is never answered by less, but for a reason that is said") {
  // [common practice, no source] A stated max of 90 kg would load 70 kg or less for this.
  SessionRequest request = usual();
  request.sets = Sets(2);
  request.max_chance_of_missing = 0.5;
  const auto with = [&](std::vector<LoggedSet> log) {
    return planned(lifter_with(std::move(log), 90_kg), request);
  };
  const Mass usual_load = with({}).load();
  const Mass last = usual_load + 2.5_kg;
  CHECK(with({done(4, last, 6_reps, 2), done(4, last, 6_reps, 2)}).load() == last);
  // With less left than asked for, with fewer sets, or after a while it says nothing of the kind.
  CHECK(with({done(4, last, 6_reps, 2), done(4, last, 6_reps, 1)}).load() < last);
  CHECK(with({done(4, last, 6_reps, 2)}).load() < last);
  CHECK(with({done(20, last, 6_reps, 2), done(20, last, 6_reps, 2)}).load() < last);
  // And no bound is given up for it.
  request.max_chance_of_missing = 0.01;
  const SessionPlan bounded = with({done(4, last, 6_reps, 2), done(4, last, 6_reps, 2)});
  for (const double chance : bounded.chances_of_missing) CHECK(chance <= 0.01);
}

TEST_CASE(
    "alone, the plan stops where the set is too long for its reserve, and says what to leave") {
  struct Row {
    int reps;
    double reserve;
    double keep;  // 0: no stop
    std::string_view remedies;
  };
  const Row rows[] = {
      {8, 2, 0, ""},
      {10, 2, 4, "have_spotter check_safeties keep_reserve"},
      {10, 4, 0, ""},
      {12, 4, 6, "have_spotter check_safeties keep_reserve"},
      {15, 2, 6, "have_spotter check_safeties do_shorter_sets"},
      {20, 10, 10, "have_spotter check_safeties do_shorter_sets"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.reps);
    SessionRequest request = usual();
    request.safeties = Safeties::none;
    request.reps = Reps(row.reps);
    request.reserve = RepsInReserve(row.reserve);
    const SessionPlan plan = planned(stated_lifter(bench, 100_kg), request);
    CHECK(remedies_of(plan) == row.remedies);
    REQUIRE(plan.least_alone.has_value() == (row.keep > 0));
    if (plan.least_alone) CHECK(plan.least_alone->count() == row.keep);
  }
  // Other figures hold as they are set.
  Lifter careful = stated_lifter(bench, 100_kg);
  careful.rules.alone_reserve = 3.0;
  SessionRequest request = usual();
  request.safeties = Safeties::none;
  CHECK(planned(careful, request).least_alone == 3_rir);
}

TEST_CASE("what a layoff costs is taken off once: by the model or by the rule, whichever is more") {
  std::vector<LoggedSet> log;
  for (int week = 8; week > 0; --week) {
    for (const int day : {0, 3}) {
      for (int set = 0; set < 3; ++set) log.push_back(done(40 + 7 * week - day, 80_kg, 6_reps, 2));
    }
  }
  const LearntLifter lifter = learn_lifter(log, bench, today);
  const LoadRule rule(lifter, bench, today);
  const SessionPlan plan = planned(lifter, usual());
  WorkSets work{.date = today, .sets = plan.work_sets, .reps = 6_reps, .reserve = 2_rir};
  work.max_chance_of_missing = plan.max_chance_of_missing;
  const auto back = comeback_on(lifter, today);
  REQUIRE(back);
  REQUIRE(rule.days_since_last());
  CHECK(back->days_off == *rule.days_since_last());
  WorkSets then = work;
  then.date = today - (back->days_off - 1);
  const Mass usual_load = std::min(rule.by_reserve(then), rule.within_chance(then));
  CHECK(rule.layoff(work, *back).most.kg() ==
        doctest::Approx(usual_load.kg() * (1.0 - back->load_cut)).epsilon(1e-9));
  // The model has the loss, too: its answer for today is lighter than its answer for then.
  CHECK(rule.by_reserve(work) < rule.by_reserve(then));
  CHECK(plan.load() <= usual_load * (1.0 - back->load_cut));
  CHECK(plan.load() > usual_load * (0.9 - back->load_cut));
}

TEST_CASE("a short layoff on the way back from a long one is a long one") {
  std::vector<LoggedSet> log{done(100, 70_kg, 6_reps, 2), done(22, 50_kg, 6_reps, 4)};
  const auto back = planned(lifter_with(log), usual()).comeback;
  REQUIRE(back);
  CHECK(back->load_cut == doctest::Approx(PlanningRules{}.long_layoff_cut));
  // By itself, it is not.
  for (int day = 90; day > 22; day -= 7) log.push_back(done(day, 70_kg, 6_reps, 2));
  CHECK(planned(lifter_with(log), usual()).comeback->load_cut ==
        doctest::Approx(PlanningRules{}.layoff_cut));
}

TEST_CASE("after a layoff: fewer sets, more left, lighter, and no word of adding load") {
  struct Row {
    int days_off;
    int days_back;  // -1: nothing since
    int sets;       // of four
    double left;
    std::string_view progress;
  };
  // The last sets were easy: without the layoff there would be room for more.
  const Row rows[] = {
      {10, -1, 4, 2, "exceeded"},       {20, -1, 2, 4, "none"}, {20, 4, 2, 4, "none"},
      {20, 8, 4, 2, "exceeded_twice"},  {50, -1, 2, 4, "none"}, {50, 9, 3, 3, "none"},
      {50, 16, 4, 2, "exceeded_twice"}, {80, 16, 3, 3, "none"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.days_off);
    CAPTURE(row.days_back);
    std::vector<LoggedSet> log;
    const int back = std::max(row.days_back, 0);
    for (const int more : {0, 4, 8})
      log.push_back(done(row.days_off + back + more, 70_kg, 6_reps, 3));
    for (int day = row.days_back; day > 0; day -= 4) log.push_back(done(day, 60_kg, 6_reps, 6));
    const Lifter lifter = lifter_with(log);
    SessionRequest request = usual();
    request.sets = Sets(4);
    request.max_chance_of_missing = 0.5;
    const SessionPlan plan = planned(lifter, request);
    CHECK(plan.work_sets == row.sets);
    CHECK(plan.sets.back().sets == row.sets);
    CHECK(plan.reserve.count() == row.left);
    CHECK(name(plan.progress) == row.progress);
    CHECK(plan.comeback.has_value() == (row.sets < 4));
    if (!plan.comeback) continue;
    const SessionPlan without = planned(lifter_with({}), request);
    CHECK(plan.load() <= without.load() * (1.0 - plan.comeback->load_cut) + 2.5_kg);
    CHECK(
        std::none_of(plan.alternatives.begin(), plan.alternatives.end(),
                     [](const Alternative& a) { return a.kind == Alternative::Kind::step_above; }));
  }
}

TEST_CASE("a set of the day that was hard for its load limits the rest, whatever it weighs") {
  // [common practice, no source] Three sets of 72.5 kg x 6 with two left went well four days ago.
  struct Row {
    LoggedSet today;
    bool is_hard;
  };
  const Row rows[] = {
      {done(0, 57.5_kg, 6_reps, 2), true}, {done(0, 62.5_kg, 6_reps, 2), true},
      {done(0, 65_kg, 6_reps, 2), true},   {done(0, 60_kg, 5_reps, 3), true},
      {done(0, 60_kg, 3_reps, 3), true},   {done(0, 40_kg, 8_reps, 8), false},
      {done(0, 60_kg, 5_reps, 8), false},
  };
  const std::vector<LoggedSet> before(3, done(4, 72.5_kg, 6_reps, 2));
  const Lifter lifter = lifter_with(before);
  const SessionPlan whole = planned(lifter, usual());
  for (const Row& row : rows) {
    CAPTURE(row.today.load.kg());
    CAPTURE(row.today.reps.count());
    auto log = before;
    log.push_back(row.today);
    const SessionPlan by_log = planned(lifter_with(log), usual());
    const SessionPlan said = replan(lifter, whole, std::vector{row.today}).value();
    for (const SessionPlan& plan : {by_log, said}) {
      CHECK((plan.load() <= row.today.load) == row.is_hard);
      CHECK((plan.limited_by == LimitedBy::today) == row.is_hard);
    }
  }
}

TEST_CASE("a variation trained to failure today leaves no hard session for the lift") {
  // [common practice, no source]
  for (const double left : {0.0, 3.0}) {
    CAPTURE(left);
    std::vector<LoggedSet> log(3, done(4, 72.5_kg, 6_reps, 2));
    for (int set = 0; set < 3; ++set) {
      log.push_back(done(0, 65_kg, 6_reps, left, bench + modifiers::close_grip));
    }
    const SessionPlan plan = planned(lifter_with(log), usual());
    CHECK(plan.recovery.is_second_today == (left < 1.0));
  }
}

TEST_CASE(
    "sets of the day are sets of the session, whether the log has them or somebody says them") {
  // [common practice, no source] Sets of 72.5 kg are the work, 50 kg is a warm-up.
  struct Row {
    std::string_view what;
    std::vector<LoggedSet> today;
    int left;  // work sets
  };
  const auto work = [](double left) { return done(0, 72.5_kg, 6_reps, left); };
  const Row rows[] = {
      {"nothing yet", {}, 3},
      {"rated warm-ups alone, as many as work sets",
       {done(0, 40_kg, 8_reps, 8), done(0, 50_kg, 6_reps, 7), done(0, 55_kg, 4_reps, 6)},
       3},
      {"one of three", {work(2)}, 2},
      {"a warm-up and two of three", {done(0, 50_kg, 5_reps, 8), work(2), work(2)}, 1},
      {"a first set that left less than asked for", {work(0.5)}, 2},
      {"a first set that was missed", {missed(0, 72.5_kg, 6_reps)}, 2},
  };
  const std::vector<LoggedSet> before(3, done(4, 72.5_kg, 6_reps, 2));
  int added_up = 0;
  for (const Row& row : rows) {
    CAPTURE(row.what);
    auto log = before;
    log.insert(log.end(), row.today.begin(), row.today.end());
    const SessionPlan by_log = planned(lifter_with(log), usual());
    const Lifter lifter = lifter_with(before);
    const SessionPlan said = replan(lifter, planned(lifter, usual()), row.today).value();
    CHECK(by_log.work_sets == row.left);
    CHECK(by_log.work_sets == said.work_sets);
    CHECK(by_log.sets_done == said.sets_done);
    CHECK(by_log.sets_done == 3 - row.left);
    // Warm-ups that the log has cost something, those that are said do not.
    const bool has_warm_ups = !row.today.empty() && row.today[0].load < 65_kg;
    CHECK(by_log.load() <= said.load());
    if (!has_warm_ups) CHECK(by_log.load() == said.load());
    CHECK_FALSE(by_log.recovery.is_second_today);
    // The rest has no warm-ups.
    CHECK((by_log.sets.size() == 1) == (row.left < 3));
    // Some in the log, and one more said: they add up.
    const bool went_as_asked =
        row.left == 2 && row.today[0].reserve && row.today[0].reserve->typical == 2_rir;
    if (!went_as_asked) continue;
    const auto last = replan(lifter_with(log), by_log, std::vector{work(2)}).value();
    CHECK(last.work_sets == 1);
    CHECK(last.sets_done == 2);
    ++added_up;
  }
  CHECK(added_up > 0);
}

TEST_CASE("long hard sets in the morning are a session, though they were lighter") {
  const auto log = std::vector(3, done(0, 60_kg, 12_reps, 2));
  CHECK(planned(lifter_with(log), usual()).recovery.is_second_today);
}

TEST_CASE("the back-offs of a top set that the log of the day has are what is left") {
  SessionRequest request = usual();
  request.sets = Sets(1);
  request.back_offs = {.sets = Sets(2)};
  const auto log = std::vector{done(4, 80_kg, 6_reps, 2), done(0, 80_kg, 6_reps, 2)};
  const SessionPlan rest = planned(lifter_with(log), request);
  CHECK(rest.work_sets == 0);
  CHECK(rest.sets.empty());
  REQUIRE(rest.back_offs);
  CHECK(rest.back_offs->set.sets == 2);
  CHECK(rest.back_offs->set.with.load <= 80_kg * 0.9);
}

TEST_CASE("a set that is left out as a slip was work all the same") {
  auto log = std::vector<LoggedSet>{};
  for (const int day : {25, 22, 18, 15, 11, 8, 4}) {
    for (int i = 0; i < 3; ++i) log.push_back(done(day, 72.5_kg, 6_reps, 2));
  }
  log.push_back(done(0, 160_kg, 6_reps, 2));  // pounds
  const LearntLifter lifter = learn_lifter(log, bench, today);
  REQUIRE(lifter.suspects.size() == 1);
  CHECK(planned(lifter, usual()).work_sets == 2);
}

TEST_CASE("a second session of the lift on one day is an easy one") {
  const auto with = [&](int sets_today, const Lift& lift) {
    std::vector<LoggedSet> log;
    for (int i = 0; i < sets_today; ++i) log.push_back(done(0, 72.5_kg, 6_reps, 3, lift));
    SessionRequest request = usual();
    request.max_chance_of_missing = 0.5;
    return planned(lifter_with(std::move(log)), request);
  };
  // A session that has begun goes on.
  CHECK_FALSE(with(2, bench).recovery.is_too_soon());
  const SessionPlan second = with(3, bench);
  CHECK(second.recovery.is_second_today);
  CHECK(second.recovery.ready_on == today + 2);
  CHECK(second.reserve == 4_rir);
  CHECK(name(second.limited_by) == "recovery");
  CHECK(name(second.progress) == "none");
  CHECK_FALSE(second.next);
  // What was asked for stands beside it, and nowhere else.
  const auto as_asked =
      std::find_if(second.alternatives.begin(), second.alternatives.end(),
                   [](const Alternative& a) { return a.kind == Alternative::Kind::as_asked; });
  REQUIRE(as_asked != second.alternatives.end());
  CHECK(as_asked->with.load > second.load());
  // It goes on as easily as it began.
  const Lifter lifter = lifter_with(std::vector(3, done(0, 72.5_kg, 6_reps, 3)));
  const auto rest = replan(lifter, second, std::vector{done(0, second.load(), 6_reps, 4)});
  REQUIRE(rest);
  CHECK(rest->recovery.is_second_today);
  CHECK(rest->reserve == 4_rir);
  // Another form of the lift in the same session is common practice.
  CHECK_FALSE(with(3, bench + modifiers::close_grip).recovery.is_too_soon());
}

TEST_CASE("too soon for a hard session, nothing says that it is time to add load") {
  std::vector<LoggedSet> log;
  for (const int day : {5, 1}) {
    for (int i = 0; i < 3; ++i) log.push_back(done(day, 60_kg, 8_reps, 3));
  }
  const Lifter lifter = lifter_with(log);
  CHECK(planned(lifter, usual()).recovery.is_too_soon());
  CHECK(name(planned(lifter, usual()).progress) == "none");
  SessionRequest later = usual();
  later.date = today + 3;
  CHECK_FALSE(planned(lifter, later).recovery.is_too_soon());
  CHECK(name(planned(lifter, later).progress) == "exceeded_twice");
}

TEST_CASE("plates are loaded as people load them, and warm-ups follow the ladder") {
  // [common practice, no source]
  const Room micro = plate_sets::gym_kg.with(Plate(0.5, Unit::kg)).with(Plate(0.25, Unit::kg));
  for (const Room& room : {plate_sets::gym_kg, micro, plate_sets::powerlifting_record}) {
    for (double max = 45.0; max < 260.0; max += 2.9) {
      CAPTURE(max);
      SessionRequest request = usual(lifts::squat);
      request.room = room;
      request.max_chance_of_missing = 0.5;
      const Lifter lifter = stated_lifter(lifts::squat, Mass::from_kg(max));
      const SessionPlan plan = planned(lifter, request);
      const Mass work = plan.load();
      int reps = 100;
      for (const PlannedSet& set : plan.sets) {
        const auto plates = set.with.bar->plates();
        for (std::size_t i = 1; i < plates.size(); ++i) CHECK(plates[i] <= plates[i - 1]);
        // No more than two plates above the fewest.
        const Loading fewest =
            without_plates_below(room, 0.005 * plan.wanted).nearest(set.with.load);
        CHECK(plates.size() <= fewest.plates().size() + 2);
        // A plate is on the bar only where its pair is a step worth the name.
        for (const MarkedMass plate : plates) CHECK(2.0 * plate.mass() >= 0.0099 * work);
        if (set.is_work) continue;
        CHECK(set.reps.count() <= reps);
        reps = set.reps.count();
        // Small plates are for the work load, and the load is near a step of the ladder.
        for (const MarkedMass plate : plates) CHECK(plate.mass() >= 2.5_kg);
        double off = 1.0;
        for (const double share : {0.40, 0.60, 0.75, 0.85, 0.87, 0.93}) {
          off = std::min(off, std::fabs(set.with.load / work - share));
        }
        const bool is_empty_bar = plates.empty();
        if (!is_empty_bar) CHECK(off <= std::max(0.03, 2.5_kg / work) + 1e-9);
      }
      const Mass jump = work - plan.sets[plan.sets.size() - 2].with.load;
      CHECK(jump <= std::max(10_kg, work / 6.0));
      CHECK(jump <= 25_kg);
    }
  }
}

TEST_CASE("137.5 kg before a single is five plates a side, not seven") {
  const Equipment equipment(bench, plate_sets::gym_kg, std::nullopt);
  const auto work = *equipment.at_most(137.5_kg);
  const Loading bar = *equipment.session(work, 1_reps, 1).back().with.bar;
  const auto plates = bar.plates();
  CHECK(plates.size() == 5);
  CHECK(plates[0].mass() == 25_kg);
}

TEST_CASE("each figure that decides can be set: another figure, another decision") {
  // [the rules' own sources: plan/rules.hpp]
  const auto with_rules = [](auto change, std::vector<LoggedSet> log = {}) {
    LifterFacts facts{.stated_max = 100_kg};
    change(facts.rules);
    Lifter lifter = stated_lifter(bench, facts);
    lifter.sets = std::move(log);
    return lifter;
  };
  const auto as_they_are = [](PlanningRules&) {};
  const auto reserve = [&](const Lifter& lifter) {
    return planned(lifter, usual(bench + modifiers::pause)).reserve;
  };
  const std::vector<LoggedSet> one_before{done(8, 60_kg, 6_reps, 4, bench + modifiers::pause)};
  CHECK(reserve(with_rules(as_they_are)) == 4_rir);
  CHECK(reserve(with_rules([](PlanningRules& r) { r.close_first_reserve = 5; })) == 5_rir);
  CHECK(reserve(with_rules(as_they_are, one_before)) == 3_rir);
  CHECK(reserve(with_rules([](PlanningRules& r) { r.close_later_reserve = 3.3; }, one_before)) ==
        3.5_rir);
  CHECK(reserve(with_rules([](PlanningRules& r) { r.close_sessions = 1; }, one_before)) == 2_rir);

  // Sets of ten that left more than asked for tell of six only where so much longer sets count.
  const std::vector<LoggedSet> tens(3, done(4, 80_kg, 10_reps, 4.5));
  const auto wanted = [&](const Lifter& lifter) {
    return LoadRule(lifter, bench, today)
        .wanted({.date = today, .sets = 3, .reps = 6_reps, .reserve = 2_rir});
  };
  CHECK(wanted(with_rules([](PlanningRules& r) { r.most_longer_set = 4; }, tens)) >
        wanted(with_rules(as_they_are, tens)));

  // Small plates in the warm-ups, and no leeway for handy ones.
  const auto have_small_plates = [](auto change) {
    bool found = false;
    for (int max = 80; max <= 120; max += 4) {
      LifterFacts facts{.stated_max = Mass::from_kg(max)};
      change(facts.rules);
      for (const PlannedSet& set : planned(stated_lifter(bench, facts), usual()).sets) {
        for (const MarkedMass plate : set.with.bar->plates()) {
          found = found || (!set.is_work && plate.mass() < 2.2_kg);
        }
      }
    }
    return found;
  };
  CHECK_FALSE(have_small_plates(as_they_are));
  CHECK(have_small_plates([](PlanningRules& r) {
    r.warm_up_plate_kg = 0;
    r.warm_up_leeway = 0;
  }));
}

TEST_CASE("a cable is loaded with a pin: steps of its stack, no bar and no plates") {
  // [common practice, no source: stacks of 5 kg or 10 lb; a step is what the stack has]
  SessionRequest request{.lift = lifts::lat_pulldown, .date = today, .reps = 10_reps};
  const SessionPlan plan = planned(stated_lifter(lifts::lat_pulldown, 75_kg), request);
  REQUIRE_FALSE(plan.sets.empty());
  for (const PlannedSet& set : plan.sets) {
    CHECK_FALSE(set.with.bar);
    CHECK_FALSE(set.with.dumbbell);
    REQUIRE(set.with.pin);
    CHECK(std::fmod(set.with.pin->value(), 5.0) == 0.0);
    CHECK(set.with.load == set.with.pin->mass());
  }
  CHECK(plan.sets.size() > 1);
  for (std::size_t i = 1; i < plan.sets.size(); ++i) {
    CHECK(plan.sets[i - 1].with.load < plan.sets[i].with.load);
  }
  request.stack = machine_stack(7.0, 7.0, 14, Unit::kg);
  const SessionPlan own = planned(stated_lifter(lifts::lat_pulldown, 75_kg), request);
  CHECK(std::fmod(own.sets.back().with.pin->value(), 7.0) == 0.0);
  // The whole stack is the end of it.
  CHECK(name(planned(stated_lifter(lifts::lat_pulldown, 160_kg), request).limited_by) ==
        "equipment");
  CHECK(name(plan_session(stated_lifter(lifts::lat_pulldown, 6_kg), request).refusal().code) ==
        "stack_too_heavy");
}
