// Three attempts on test day.
#include "barwright/plan/attempts.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/log/miss_words.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plates/plate_sets.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);

AttemptsRequest asked(const Lift& lift = lifts::squat) {
  return {.lift = lift, .date = today, .room = plate_sets::powerlifting, .has_spotter = true};
}

/// Sets of five on the squat, twice a week, the last some days ago; what is left is told.
std::vector<LoggedSet> training(double kg, double left, int days_ago = 4) {
  std::vector<LoggedSet> log;
  for (int day = days_ago + 36; day >= days_ago; day -= 4) {
    for (int set = 0; set < 3; ++set) {
      log.push_back({.date = today - day,
                     .lift = lifts::squat,
                     .load = Mass::from_kg(kg),
                     .reps = 5_reps,
                     .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))});
    }
  }
  return log;
}

bool says(const AttemptsPlan& plan, std::string_view key) {
  for (const Caution& caution : plan.cautions) {
    if (caution.key == key) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("attempts rise: an opener for any day, then what should go up, then the likeliest max") {
  // The opener 91 % of the third, then 5 and 3 % more [thesis ETSU 9651, abstract read], in steps
  // of 2.5 kg.
  for (const double max : {60.0, 100.0, 137.0, 200.0, 290.0}) {
    CAPTURE(max);
    const Lifter lifter = stated_lifter(lifts::squat, Mass::from_kg(max));
    const auto day = plan_attempts(lifter, asked());
    REQUIRE(day.has_value());
    REQUIRE(day->attempts.size() == 3);
    const auto share = [&](std::size_t i) {
      return day->attempts[i].with.load / day->attempts[2].with.load;
    };
    CHECK(share(0) >= 0.87);
    CHECK(share(0) <= 0.935);
    CHECK(share(1) > share(0));
    CHECK(share(1) < 1.0);
    CHECK(day->attempts[2].with.load <= Mass::from_kg(max));
    // Of singles that strength would not miss, 5 to 8 % are lost in meets [real meets:
    // docs/real-lifters.md].
    CHECK(day->attempts[0].chance_of_success <= 0.95);
    CHECK(day->attempts[0].chance_of_success >= 0.90);
    for (std::size_t i = 1; i < 3; ++i) {
      CHECK(day->attempts[i].chance_of_success < day->attempts[i - 1].chance_of_success);
    }
    CHECK(day->attempts[2].chance_of_success > 0.25);
    // Steps of a meet: 2.5 kg [common practice].
    for (const Attempt& attempt : day->attempts) {
      CHECK(std::fabs(std::remainder(attempt.with.load.kg(), 2.5)) < 1e-9);
    }
    // The ladder leads to the opener: fewer reps with more load [common practice].
    REQUIRE(day->sets.size() >= 4);
    CHECK(day->sets.back().with.load == day->attempts[0].with.load);
    for (std::size_t i = 1; i < day->sets.size(); ++i) {
      CHECK(day->sets[i].with.load > day->sets[i - 1].with.load);
      CHECK(day->sets[i].reps <= day->sets[i - 1].reps);
    }
  }
}

TEST_CASE("who is known less well opens lighter") {
  const auto opener = [](double sd) {
    Lifter lifter = stated_lifter(lifts::squat, 200_kg);
    lifter.strength = std::make_shared<const StatedStrength>(
        lifts::squat, equations::wathen, StrengthPriors{.max = 200_kg, .max_log_sd = sd});
    return plan_attempts(lifter, asked())->attempts.front().with.load;
  };
  CHECK(opener(0.08) < opener(0.02));
}

TEST_CASE(
    "after a lighter opener the second attempt is lighter, too: no step is twice the next one") {
  // [common practice: steps grow smaller towards the third] A log that says little opens light; a
  // second attempt where a surer log would have it would be a jump of a tenth, with a step of 2 %
  // to follow.
  const auto lifter = learn_lifter(training(140, 2), lifts::squat, today);
  const auto plan = plan_attempts(lifter, asked());
  REQUIRE(plan.has_value());
  REQUIRE(plan->attempts.size() == 3);
  const auto load = [&](std::size_t i) { return plan->attempts[i].with.load; };
  REQUIRE(load(0) < 0.9 * load(2));
  const Mass first_step = load(1) - load(0);
  const Mass second_step = load(2) - load(1);
  CHECK(first_step >= second_step);
  CHECK(first_step.kg() <= 2.0 * second_step.kg() + 2.5);
}

TEST_CASE("a beginner trains for some months before a max attempt") {
  // [handbooks, from memory, unverified: max tests are for lifters who have trained for months]
  const auto log = training(40, 4);  // ten sessions
  const auto stopped = plan_attempts(
      learn_lifter(log, lifts::squat, today, {.experience = Experience::novice}), asked());
  CHECK(stopped->is_stopped());
  CHECK(says(*stopped, "max_attempt_too_early"));
  CHECK(stopped->remedies == std::vector<Remedy>{Remedy::train_it_first});
  CHECK_FALSE(plan_attempts(learn_lifter(log, lifts::squat, today), asked())->is_stopped());
  // Nor by another name: one rep with none left.
  const SessionRequest single{.lift = lifts::squat,
                              .date = today,
                              .sets = Sets(1),
                              .reps = 1_reps,
                              .reserve = 0_rir,
                              .has_spotter = true};
  const auto novice = learn_lifter(log, lifts::squat, today, {.experience = Experience::novice});
  CHECK(plan_session(novice, single)->is_stopped());
  CHECK_FALSE(plan_session(learn_lifter(log, lifts::squat, today), single)->is_stopped());
}

TEST_CASE("attempts are asked what every load is asked") {
  // [common practice: what a coach asks before a max]
  struct Row {
    std::string_view what;
    std::string_view key;
    std::vector<Remedy> remedies;
    AttemptsRequest request;
    Lifter lifter;
  };
  const Lifter known = stated_lifter(lifts::squat, 200_kg);
  const auto with = [](auto change) {
    AttemptsRequest request = asked();
    change(request);
    return request;
  };
  std::vector<LoggedSet> hurt = training(140, 2);
  hurt.back().has_pain = true;
  std::vector<LoggedSet> two_sessions = training(140, 2);
  two_sessions.erase(two_sessions.begin(), two_sessions.end() - 6);
  const std::vector<Row> rows{
      {"it hurts",
       "pain",
       {Remedy::have_pain_seen},
       with([](AttemptsRequest& a) { a.pain = Pain::yes; }),
       known},
      {"it hurt four days ago",
       "pain",
       {Remedy::have_pain_seen},
       asked(),
       learn_lifter(hurt, lifts::squat, today)},
      {"a max that few reach",
       "doubtful_max",
       {Remedy::correct_max, Remedy::confirm_max},
       asked(),
       stated_lifter(lifts::squat, 400_kg)},
      {"a max that the log does not support",
       "stated_max_above_log",
       {Remedy::correct_max},
       asked(),
       learn_lifter(training(100, 3), lifts::squat, today, {.stated_max = 250_kg})},
      {"nobody stands by",
       "not_alone",
       {Remedy::have_spotter, Remedy::check_safeties},
       with([](AttemptsRequest& a) { a.has_spotter = false; }),
       known},
      {"two sessions so far",
       "max_attempt_too_early",
       {Remedy::train_it_first},
       asked(),
       learn_lifter(two_sessions, lifts::squat, today)},
      {"three weeks off",
       "max_attempt_too_early",
       {Remedy::train_it_first},
       asked(),
       learn_lifter(training(140, 2, 21), lifts::squat, today)},
      {"a room of small plates",
       "too_many_plates",
       {Remedy::correct_max},
       with([](AttemptsRequest& a) { a.room = Room(Bar(20, Unit::kg), {Plate(5, Unit::kg, 20)}); }),
       known},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const auto plan = plan_attempts(row.lifter, row.request);
    REQUIRE(plan.has_value());
    CHECK(plan->is_stopped());
    CHECK(says(*plan, row.key));
    CHECK(plan->attempts.empty());
    CHECK(plan->sets.empty());
    CHECK(plan->remedies == row.remedies);
  }
  // What lifts a stop lifts it.
  CHECK_FALSE(plan_attempts(stated_lifter(lifts::squat, 400_kg),
                            with([](AttemptsRequest& a) { a.is_max_confirmed = true; }))
                  ->is_stopped());
  CHECK_FALSE(plan_attempts(known, with([](AttemptsRequest& a) {
                              a.has_spotter = false;
                              a.safeties = Safeties::checked;
                            }))
                  ->is_stopped());
}

TEST_CASE("beside the word that there are no attempts stands nothing of how to make them") {
  const auto of_attempts = [](const AttemptsPlan& plan) {
    int found = 0;
    for (const Caution& caution : plan.cautions) found += caution.severity != Severity::stop;
    return found;
  };
  AttemptsRequest request = asked();
  CHECK(of_attempts(*plan_attempts(stated_lifter(lifts::squat, 100_kg), request)) > 0);
  request.has_spotter = false;
  const auto alone = plan_attempts(stated_lifter(lifts::squat, 100_kg), request);
  REQUIRE(alone->is_stopped());
  CHECK(of_attempts(*alone) == 0);
  request = asked();
  request.pain = Pain::yes;
  CHECK(of_attempts(*plan_attempts(stated_lifter(lifts::squat, 100_kg), request)) == 0);
  // What is asked about the log stays.
  Lifter doubted = stated_lifter(lifts::squat, 100_kg);
  doubted.has_later_sets = true;
  CHECK(of_attempts(*plan_attempts(doubted, request)) == 1);
}

TEST_CASE("no attempt is more than a tenth above what was shown") {
  // [ACSM 2009, abstract read, as for every load.] Three sets of five with ten left say "very
  // strong"; what went up were five reps, so at most 1.1 of what five ask for.
  const auto lifter = learn_lifter(training(100, 10), lifts::squat, today);
  const auto plan = plan_attempts(lifter, asked());
  REQUIRE(plan.has_value());
  REQUIRE_FALSE(plan->is_stopped());
  const double five = lifter.strength->share_of_max(lifts::squat, today, 5);
  CHECK(plan->attempts.back().with.load.kg() <= 1.1 * 100 / five + 1e-9);
  // With one left they are a step above what that says, taken as it was said.
  const auto usual = plan_attempts(learn_lifter(training(140, 1), lifts::squat, today), asked());
  CHECK(name(usual->limited_by) == "ratings");
}

TEST_CASE("no attempts by a log that contradicts itself, until somebody says that it is right") {
  auto log = training(100, 2);
  log.push_back(log.back());
  log.back().date = today - 1;
  log.back().load = 130_kg;  // is that a typo?
  const LearntLifter lifter = learn_lifter(log, lifts::squat, today);
  REQUIRE(lifter.doubts.jump);
  auto request = asked();
  const auto doubtful = plan_attempts(lifter, request);
  REQUIRE(doubtful.has_value());
  CHECK(says(*doubtful, "doubtful_log"));
  CHECK(doubtful->is_stopped());
  CHECK(doubtful->attempts.empty());
  CHECK(doubtful->remedies == std::vector{Remedy::correct_log, Remedy::confirm_max});
  request.is_max_confirmed = true;
  CHECK_FALSE(plan_attempts(lifter, request)->is_stopped());
}

TEST_CASE("attempts a day after hard squats carry a warning") {
  const auto tired = plan_attempts(learn_lifter(training(140, 2, 1), lifts::squat, today), asked());
  REQUIRE(tired.has_value());
  CHECK(tired->recovery.is_too_soon());
  bool is_said = false;
  for (const Caution& caution : tired->cautions) {
    is_said = is_said || caution.text == cautions::not_rested.text;
  }
  CHECK(is_said);
}

TEST_CASE("after a missed rep of the lift there are no more attempts that day") {
  // [common practice, no source]
  struct Row {
    std::string_view what;
    int days_ago;
    Lift lift;
    double kg;
    int reps;
    bool is_stopped;
  };
  const Row rows[] = {
      {"a single today", 0, lifts::squat, 165, 1, true},
      {"the last of five today", 0, lifts::squat, 140, 5, true},
      {"far below the usual today", 0, lifts::squat, 80, 3, true},
      {"a paused one today", 0, lifts::squat + modifiers::pause_squat, 140, 1, true},
      {"another lift today", 0, lifts::bench_press, 100, 1, false},
      {"the same four days ago", 4, lifts::squat, 165, 1, false},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    auto log = training(140, 2);
    log.push_back({.date = today - row.days_ago,
                   .lift = row.lift,
                   .load = Mass::from_kg(row.kg),
                   .reps = Reps(row.reps),
                   .outcome = Outcome::missed});
    const auto plan = plan_attempts(learn_lifter(log, lifts::squat, today), asked());
    REQUIRE(plan.has_value());
    CHECK(says(*plan, "missed_today") == row.is_stopped);
    CHECK(plan->attempts.empty() == row.is_stopped);
    if (row.is_stopped) {
      CHECK(std::find(plan->remedies.begin(), plan->remedies.end(), Remedy::another_day) !=
            plan->remedies.end());
    }
  }
}

TEST_CASE(
    "a single that may have been missed, and was the last, raises no attempt: it is asked about") {
  // [common practice: nobody goes on from a single of which nobody knows whether it went up]
  struct Row {
    std::string_view note;
    int days_ago;
    bool is_stopped;
  };
  const Row rows[] = {
      {"dropped it", 0, true}, {"safeties caught it?", 0, true}, {"red lights", 0, true},
      {"dropped it", 3, true}, {"felt easy", 0, false},
  };
  const auto before = training(140, 2);
  for (const Row& row : rows) {
    CAPTURE(row.note);
    for (const double left : {0.0, 1.0}) {
      auto log = before;
      log.push_back({.date = today - row.days_ago,
                     .lift = lifts::squat,
                     .load = 180_kg,
                     .reps = 1_reps,
                     .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))});
      take_miss(log.back(), row.note);
      const auto plan = plan_attempts(learn_lifter(log, lifts::squat, today), asked());
      REQUIRE(plan.has_value());
      CHECK(plan->is_stopped() == row.is_stopped);
      CHECK((says(*plan, "may_be_missed") && plan->is_stopped()) == row.is_stopped);
      if (!row.is_stopped) continue;
      // That the max is right does not say whether the rep was made.
      CHECK(plan->remedies == std::vector{Remedy::tell_outcome});
      AttemptsRequest confirmed = asked();
      confirmed.is_max_confirmed = true;
      CHECK(plan_attempts(learn_lifter(log, lifts::squat, today), confirmed)->is_stopped());
      // Sets done since answer it.
      if (row.days_ago == 0) continue;
      log.push_back(before.back());
      log.back().date = today - 1;
      CHECK_FALSE(
          says(*plan_attempts(learn_lifter(log, lifts::squat, today), asked()), "may_be_missed"));
    }
  }
  // What the note says clearly stops, whatever the rating says.
  auto log = before;
  log.push_back({.date = today,
                 .lift = lifts::squat,
                 .load = 180_kg,
                 .reps = 1_reps,
                 .reserve = Range<RepsInReserve>::exactly(2_rir)});
  take_miss(log.back(), "safeties caught it");
  CHECK(says(*plan_attempts(learn_lifter(log, lifts::squat, today), asked()), "missed_today"));
  // A row that could not be read.
  const auto unread = plan_attempts(
      learn_lifter(before, lifts::squat, today, {.noted = {{.date = today, .is_missed = true}}}),
      asked());
  CHECK(unread->is_stopped());
  CHECK(says(*unread, "may_be_missed"));
}

TEST_CASE("sets of twenty to fifty reps give no attempts, and few reps by them no such load") {
  // [Halperin 2022, abstract read: beyond 12 reps ratings are off by 3 and more; the rule is this
  // library's] By the curve alone fifty reps with 60 kg are a 1RM of 122 kg.
  for (const int reps : {15, 20, 30, 50}) {
    CAPTURE(reps);
    auto log = training(60, 2);
    for (LoggedSet& set : log) set.reps = Reps(reps);
    const auto lifter = learn_lifter(log, lifts::squat, today);
    const auto plan = plan_attempts(lifter, asked());
    REQUIRE(plan.has_value());
    CHECK(says(*plan, "max_attempt_too_early"));
    CHECK(plan->remedies == std::vector<Remedy>{Remedy::train_it_first});
    const auto load = [&](int planned, int sets) {
      return plan_session(lifter, {.lift = lifts::squat,
                                   .date = today,
                                   .sets = Sets(sets),
                                   .reps = Reps(planned),
                                   .reserve = 2_rir,
                                   .has_spotter = true})
          ->load();
    };
    // At most a tenth more than 60 kg for twelve shows (Wathen: 12 reps are 68 %, 3 are 91 %, 5 are
    // 85 %), and a step of the room.
    CHECK(load(3, 3) <= 60_kg * (1.1 * 0.91 / 0.68) + 2.5_kg);
    CHECK(load(5, 3) <= 60_kg * (1.1 * 0.85 / 0.68) + 2.5_kg);
    // For as many reps as were done, nothing changes.
    CHECK(load(reps, 1) >= 55_kg);
    // With sets of five besides, attempts are made.
    for (std::size_t i = 0; i < log.size(); i += 3) {
      log[i].reps = 5_reps;
      log[i].load = 90_kg;
    }
    CHECK_FALSE(plan_attempts(learn_lifter(log, lifts::squat, today), asked())->is_stopped());
  }
  // An unrated set of five with the same load, or a single that was missed, shows no more.
  for (const bool is_missed : {false, true}) {
    auto long_sets = training(40, 2);
    for (LoggedSet& set : long_sets) set.reps = 30_reps;
    long_sets.push_back({.date = today - 3,
                         .lift = lifts::squat,
                         .load = is_missed ? 95_kg : 40_kg,
                         .reps = is_missed ? 1_reps : 5_reps,
                         .outcome = is_missed ? Outcome::missed : Outcome::completed});
    CHECK(says(*plan_attempts(learn_lifter(long_sets, lifts::squat, today), asked()),
               "max_attempt_too_early"));
  }
  // Nor by another name.
  auto log = training(60, 2);
  for (LoggedSet& set : log) set.reps = 30_reps;
  CHECK(plan_session(learn_lifter(log, lifts::squat, today), {.lift = lifts::squat,
                                                              .date = today,
                                                              .sets = Sets(1),
                                                              .reps = 1_reps,
                                                              .reserve = 0_rir,
                                                              .has_spotter = true})
            ->is_stopped());
}

TEST_CASE(
    "the way up to an attempt is no hard session, and hard sets of the day are for another day") {
  struct Row {
    std::string_view what;
    double kg;
    double left;
    bool is_warned;
  };
  // [common practice, no source]
  for (const Row& row :
       {Row{"singles on the way up", 100, 8, false}, Row{"a hard set", 140, 2, true}}) {
    CAPTURE(row.what);
    auto log = training(140, 2, 8);
    log.push_back({.date = today,
                   .lift = lifts::squat,
                   .load = Mass::from_kg(row.kg),
                   .reps = row.is_warned ? 5_reps : 1_reps,
                   .reserve = Range<RepsInReserve>::exactly(RepsInReserve(row.left))});
    const auto plan = plan_attempts(learn_lifter(log, lifts::squat, today), asked());
    REQUIRE(plan.has_value());
    bool is_said = false;
    for (const Caution& caution : plan->cautions) {
      is_said = is_said || caution.text == cautions::not_rested.text;
    }
    CHECK(is_said == row.is_warned);
  }
}

TEST_CASE("the figures of attempts are planning rules") {
  LifterFacts facts{.stated_max = 200_kg};
  facts.rules.opener_share = 0.85;
  facts.rules.second_attempt_share = 0.90;
  facts.rules.third_attempt_share = 0.95;
  facts.rules.lost_to_the_rules = 0.0;
  const auto day = plan_attempts(stated_lifter(lifts::squat, facts), asked());
  REQUIRE(day->attempts.size() == 3);
  CHECK(day->attempts[0].with.load == 170_kg);
  CHECK(day->attempts[1].with.load == 180_kg);
  CHECK(day->attempts[2].with.load == 190_kg);
  CHECK(day->attempts[0].chance_of_success > 0.99);
}

TEST_CASE("no attempts without a max, nor below the bar") {
  CHECK(plan_attempts(stated_lifter(lifts::squat, 22_kg), asked()).refusal().code ==
        RefusalCode::bar_too_heavy);
  CHECK(plan_attempts(stated_lifter(lifts::squat, 22_kg), asked(lifts::deadlift)).refusal().code ==
        RefusalCode::other_lift);
}

TEST_CASE("attempts in JSON: three loads and their chances, and none under a stop") {
  const std::string request =
      R"({"version": 1, "ask": "plan_attempts", "lift": "squat", "date": "2026-11-25",
          "stated_max_kg": 200, "room": "powerlifting", "spotter": )";
  const std::string plan = json::answer(request + "true}");
  CHECK(plan.find(R"("outcome":"plan")") != std::string::npos);
  CHECK(plan.find(R"("chance_of_success":)") != std::string::npos);
  const std::string stop = json::answer(request + "false}");
  CHECK(stop.find(R"("outcome":"stop")") != std::string::npos);
  CHECK(stop.find("load_kg") == std::string::npos);
  CHECK(stop.find(R"("max_kg":{)") == std::string::npos);
  // What is not asked of attempts is refused, not ignored.
  CHECK(json::answer(request + "true, \"reps\": 3}").find("bad_request") != std::string::npos);
}
