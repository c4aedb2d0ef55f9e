// tests/plan/json_answer_test.cpp - a request as JSON gets the answer that the planner gives
//
// What the planner decides is tested beside it; here is that JSON says the same, and that any text
// has an answer. All sets are invented.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <barwright/plan/json.hpp>
#include <barwright/plan/json_writer.hpp>
#include <barwright/plan/learn_lifter.hpp>
#include <barwright/plan/look_back.hpp>
#include <barwright/plan/review.hpp>
#include <barwright/plan/session.hpp>
#include <barwright/plan/squad.hpp>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "plan/json_answers.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace barwright_test;

namespace {

const std::string sets =
    R"({"date":"2026-11-09","lift":"bench press","load_kg":100,"reps":5,"left":2},)"
    R"({"date":"2026-11-13","lift":"bench press","load_lb":220,"reps":5,"rpe":8},)"
    R"({"date":"2026-11-17","lift":"bench press","load_kg":60,"reps":5},)"
    R"({"date":"2026-11-21","lift":"bench press","load_kg":105,"reps":5,"missed":true})";

std::string session(const std::string& members) {
  return request(R"("ask":"plan_session","lift":"bench press","date":"2026-11-25",)" + members);
}

/// The message of a bad request, and where it is.
std::string fault(const std::string& text) {
  const json::Value bad = answer(text);
  CHECK(text_at(bad, "outcome") == "bad_request");
  return text_at(bad, "at") + ": " + text_at(bad, "message");
}

}  // namespace

TEST_CASE("a session asked for in JSON is the one that plan_session plans") {
  const auto reserve = [](double left) {
    return Range<RepsInReserve>::exactly(RepsInReserve(left));
  };
  const Lift bench = lifts::bench_press;
  const std::vector<LoggedSet> log = {
      {.date = Date(2026, 11, 9),
       .lift = bench,
       .load = 100_kg,
       .reps = 5_reps,
       .reserve = reserve(2)},
      {.date = Date(2026, 11, 13),
       .lift = bench,
       .load = 220_lb,
       .reps = 5_reps,
       .reserve = reps_in_reserve(Rpe(8.0))},
      {.date = Date(2026, 11, 17), .lift = bench, .load = 60_kg, .reps = 5_reps},
      {.date = Date(2026, 11, 21),
       .lift = bench,
       .load = 105_kg,
       .reps = 5_reps,
       .outcome = Outcome::missed}};
  const Date day(2026, 11, 25);
  const LearntLifter lifter = learn_lifter(log, bench, day);
  const auto plan =
      plan_session(lifter, {.lift = bench, .date = day, .safeties = Safeties::checked});
  REQUIRE(plan);

  const json::Value got = answer(session(R"("safeties":"checked","log":[)" + sets + "]"));
  CHECK(text_at(got, "outcome") == "plan");
  CHECK(number_at(got, "load_kg") == plan->load().kg());
  CHECK(number_at(got, "wanted_kg") == plan->wanted.kg());
  CHECK(text_at(got, "limited_by") == name(plan->limited_by));
  CHECK(number_at(*got.find("max_kg"), "high") == plan->max.interval().high.kg());
  REQUIRE(got.find("sets")->array()->size() == plan->sets.size());
  CHECK(text_at(*got.find("sets")->array()->back().find("bar"), "text") ==
        to_text(*plan->sets.back().with.bar).str());
  REQUIRE(got.find("cautions")->array()->size() == plan->cautions.size());
  CHECK(text_at(got.find("cautions")->array()->at(0), "text") == plan->cautions[0].text);
}

TEST_CASE("a plan that says stop holds no load, and says what would lift it") {
  const json::Value stop = answer(session(R"("stated_max_kg":100,"left":0)"));
  CHECK(text_at(stop, "outcome") == "stop");
  for (const char* name : {"load_kg", "sets", "wanted_kg", "alternatives", "next", "max_kg"}) {
    CHECK(stop.find(name) == nullptr);
  }
  CHECK(*stop.find("remedies")->array()->at(0).string() == "have_spotter");
  CHECK(text_at(stop.find("cautions")->array()->at(0), "severity") == "stop");
}

TEST_CASE("what is wrong with a request is said, and where it stands") {
  const std::string bench = R"("log":[)" + sets + R"(,{"date":"2026-11-23","lift":"bench press",)";
  CHECK(fault("") == ": line 1, column 1: expected a value");
  CHECK(fault("[]") == ": must be an object; got an array");
  CHECK(fault("{}") == ": \"version\" must be given");
  CHECK(fault(R"({"version":2})") == "version: must be 1");
  CHECK(fault(request(R"("ask":"plan_sesion")")) ==
        "ask: must be one of plan_session, replan, plan_block, plan_attempts, review_block, "
        "look_back, squad, read_log, catalogue; got \"plan_sesion\"");
  CHECK(fault(session(R"("left":2,"left":0)")).find("a name stands twice in one object") !=
        std::string::npos);
  CHECK(fault(session(R"("reserve":0)")).rfind(": \"reserve\" is not known here; known are ", 0) ==
        0);
  CHECK(fault(session(R"("left":-2)")) ==
        "left: reps in reserve must be a number from 0 to 30 in steps of 0.5; got -2");
  CHECK(fault(session(R"("left":"2")")) == "left: must be a number; got a string");
  CHECK(fault(session(R"("reps":5.5)")) == "reps: must be a whole number from 1 to 100; got 5.5");
  CHECK(fault(session(R"("spotter":1)")) == "spotter: must be true or false; got a number");
  CHECK(fault(session(R"("safeties":"yes")")) ==
        "safeties: must be one of none, unchecked, checked; got \"yes\"");
  CHECK(fault(session(R"("max_chance_of_missing":5)")) ==
        "max_chance_of_missing: must be a number above 0 and below 1");
  CHECK(fault(session(R"("rules":{"layoff_day":10})"))
            .rfind("rules: \"layoff_day\" is not known", 0) == 0);
  CHECK(fault(session(R"("rules":{"layoff_days":1})")) ==
        "rules.layoff_days: must be from 3 to 365; got 1");
  CHECK(fault(session(bench + R"("load_kg":80}])")) == "log[4]: \"reps\" must be given");
  CHECK(fault(session(bench + R"("load_kg":80,"load_lb":175,"reps":5}])")) ==
        "log[4]: \"load\" must be given in kilograms or in pounds, not both");
  CHECK(fault(session(bench + R"("load_kg":80,"reps":5,"left":-1}])")).rfind("log[4].left: ", 0) ==
        0);
  CHECK(fault(session(bench + R"("load_kg":80,"reps":5,"left":1,"missed":true}])")) ==
        "log[4]: a set that was missed must have neither \"left\" nor \"rpe\"");
  CHECK(fault(session(R"("log":[{"date":"2026-11-31"}])")) == "log[0]: \"lift\" must be given");
  CHECK(fault(session(R"("log":[{"date":"2026-11-31","lift":"squat"}])")) ==
        "log[0].date: must be a date such as \"2026-11-25\"; got \"2026-11-31\"");
  CHECK(fault(session(R"("log":[{"date":"2026-11-30","lift":"bench press, fete up"}])"))
            .rfind("log[0].lift: must be a change to the bench press, such as ", 0) == 0);
}

TEST_CASE("a request that is cut anywhere has an answer all the same") {
  const std::string whole = session(R"("stated_max_kg":100,"left":2,"id":["\u00e9",null])");
  CHECK(text_at(answer(whole), "outcome") == "plan");
  for (std::size_t size = 0; size < whole.size(); ++size) {
    CHECK(text_at(answer(whole.substr(0, size)), "outcome") == "bad_request");
  }
  CHECK(json::write(*answer(whole).find("id")) == "[\"\u00e9\",null]");
}

TEST_CASE("after a miss the rest of a session is lighter than what was missed") {
  const std::string members = R"("safeties":"checked","stated_max_kg":100)";
  const double planned = number_at(answer(session(members)), "load_kg");
  const json::Value rest = answer(request(
      R"("ask":"replan","lift":"bench press","date":"2026-11-25",)" + members +
      R"(,"done":[{"load_kg":)" + std::to_string(planned) + R"(,"reps":6,"missed":true}])"));
  CHECK(text_at(rest, "outcome") == "plan");
  CHECK(number_at(rest, "load_kg") < planned);
  CHECK(number_at(rest, "work_sets") == 2);
}

TEST_CASE("in a squad a fault stops no other, and each has the answer it has alone") {
  const std::string ask = R"("lift":"bench press","date":"2026-11-25","safeties":"checked")";
  const std::string members = R"("log":[)" + sets + "]";
  const json::Value squad = answer(request(
      R"("ask":"squad","lifters":[{"id":"a",)" + members + R"(,"sessions":[{"id":1,)" + ask +
      R"(},{"lift":"bench pres","date":"2026-11-25"},{"lift":"squat","date":"2026-11-25"},7]},)"
      R"("nobody",{"id":"c","stated_max_kg":100,"sessions":[{)" +
      ask + R"(}]},{"id":"d","stated_max_kg":100,"stated_max_of":"bench press","sessions":[{)" +
      ask + R"(},{"lift":"squat","date":"2026-11-25"}]}])"));
  const json::Value::Array& lifters = *squad.find("lifters")->array();
  REQUIRE(lifters.size() == 4);
  const json::Value::Array& first = *lifters[0].find("sessions")->array();
  REQUIRE(first.size() == 4);
  const json::Value alone = answer(session(R"("safeties":"checked",)" + members));
  CHECK(number_at(first[0], "id") == 1);
  CHECK(number_at(first[0], "load_kg") == number_at(alone, "load_kg"));
  CHECK(json::write(*first[0].find("sets")) == json::write(*alone.find("sets")));
  CHECK(text_at(first[1], "at") == "lifters[0].sessions[1].lift");
  CHECK(text_at(*first[2].find("refusal"), "code") == "no_strength");
  CHECK(text_at(first[3], "outcome") == "bad_request");
  CHECK(text_at(lifters[1], "outcome") == "bad_request");
  CHECK(text_at(lifters[2], "message").find("stated_max_of") != std::string::npos);
  // A max on the bench press says nothing of the squat.
  const json::Value::Array& last = *lifters[3].find("sessions")->array();
  CHECK(text_at(last[0], "outcome") == "plan");
  CHECK(text_at(*last[1].find("refusal"), "code") == "no_strength");
}

TEST_CASE("a lifter of a squad who is asked about on too many days is told so") {
  std::string sessions;
  for (int day = 0; day <= most_days_of_member; ++day) {
    sessions += (day > 0 ? "," : "") + std::string(R"({"lift":"bench press","date":")") +
                to_text(Date(2026, 11, 25) + day).str() + R"("})";
  }
  const json::Value squad =
      answer(request(R"("ask":"squad","lifters":[{"stated_max_kg":100,"stated_max_of":"squat",)"
                     R"("sessions":[)" +
                     sessions + "]}]"));
  const json::Value::Array& answers =
      *squad.find("lifters")->array()->at(0).find("sessions")->array();
  const json::Value& last_known = *answers[most_days_of_member - 1].find("refusal");
  const json::Value& beyond = *answers[most_days_of_member].find("refusal");
  CHECK(text_at(last_known, "code") == "no_strength");
  CHECK(text_at(beyond, "code") == "too_many_days");
  CHECK(number_at(beyond, "days") == most_days_of_member);
}

TEST_CASE("a block begins with the session that is planned for its first day") {
  const std::string members = R"("log":[)" + sets + R"(],"safeties":"checked")";
  const json::Value block = answer(request(
      R"("ask":"plan_block","lift":"bench press","date":"2026-11-25","first_left":2,"retest":false,)" +
      members));
  CHECK(text_at(block, "outcome") == "plan");
  const json::Value& first = block.find("sessions")->array()->at(0);
  CHECK(text_at(first, "date") == "2026-11-25");
  CHECK(number_at(first, "load_kg") == number_at(answer(session(members)), "load_kg"));
  for (const json::Value& each : *block.find("sessions")->array()) {
    CHECK(text_at(each, "stage") != "retest");
  }
}

TEST_CASE("a review asked for in JSON is the one that review_block makes") {
  std::vector<LoggedSet> log;
  std::string text;
  const auto add = [&](Date date, const Lift& lift, double kg) {
    log.push_back({.date = date,
                   .lift = lift,
                   .load = Mass::from_kg(kg),
                   .reps = 5_reps,
                   .reserve = Range<RepsInReserve>::exactly(2_rir)});
    text += (text.empty() ? R"({"date":")" : R"(,{"date":")") + to_text(date).str() +
            R"(","lift":")" + lift.name().str() + R"(","load_kg":)" + std::to_string(kg) +
            R"(,"reps":5,"left":2})";
  };
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  for (int week = 0; week < 12; ++week) {
    add(Date(2026, 8, 3) + 7 * week, lifts::bench_press, 80.0 + week);
    if (week >= 4) add(Date(2026, 8, 6) + 7 * week, feet_up, 75.0 + week);
  }
  const auto review = review_block(log, {.lift = feet_up});
  REQUIRE(review);
  CHECK(review->without.size() == 15);  // 8 days feet up and 7 of the bench press between them
  const auto ask = [&](const std::string& members) {
    return request(R"("ask":"review_block","log":[)" + text + "]," + members);
  };
  const std::string lift = R"("lift":"bench press, feet up")";
  const json::Value got = answer(ask(lift));
  CHECK(text_at(got, "outcome") == "review");
  CHECK(text_at(got, "verdict") == name(review->verdict()));
  CHECK(text_at(got, "from") == "2026-09-03");
  CHECK(text_at(got, "to") == to_text(review->to).str());
  CHECK(number_at(*got.find("gain_on_base"), "low") == review->on_base.interval().low);
  CHECK(number_at(*got.find("gain_on_lift"), "high") == review->on_lift.interval().high);
  REQUIRE(review->before);
  CHECK(number_at(*got.find("gain_before"), "typical") == review->before->mean());
  CHECK(number_at(*got.find("of_lift"), "days") == 8);
  CHECK(number_at(*got.find("of_base"), "near_failure") == 7);
  CHECK(number_at(got, "ratio_after") == review->ratio_on(review->to));
  CHECK(got.find("deciding_days")->array()->size() == review->deciding_days().size());

  SUBCASE("part of a block is another review") {
    const json::Value part = answer(ask(lift + R"(,"from":"2026-09-10","to":"2026-10-01")"));
    CHECK(text_at(part, "from") == "2026-09-10");
    CHECK(number_at(part, "weeks") == 3);
  }
  SUBCASE("what cannot be reviewed has a code") {
    const auto code = [&](const std::string& members) {
      return text_at(*answer(ask(members)).find("refusal"), "code");
    };
    CHECK(code(R"("lift":"squat, front squat")") == "not_in_log");
    CHECK(code(lift + R"(,"from":"2026-10-17","to":"2026-10-25")") == "too_few_days");
  }
  SUBCASE("a stated max has no place in it, nor an end before the beginning") {
    CHECK(fault(ask(lift + R"(,"stated_max_kg":100)")) ==
          ": a stated max must not be given: a review rests on the log");
    CHECK(fault(ask(lift + R"(,"from":"2026-10-01","to":"2026-10-01")")) ==
          "to: must be a day after \"from\"; got \"2026-10-01\"");
  }
}

TEST_CASE("a look back asked for in JSON is the one that look_back makes") {
  const Lift bench = lifts::bench_press;
  const auto done = [&](Date date, Mass load) {
    return LoggedSet{.date = date,
                     .lift = bench,
                     .load = load,
                     .reps = 5_reps,
                     .reserve = Range<RepsInReserve>::exactly(2_rir)};
  };
  const std::vector<LoggedSet> log{done(Date(2026, 11, 9), 80_kg),
                                   done(Date(2026, 11, 17), 82.5_kg),
                                   done(Date(2026, 11, 23), 85_kg)};
  const LookBack back = look_back(log, {.date = Date(2026, 11, 25), .weeks = 3});
  std::string text;
  for (const LoggedSet& set : log) {
    text += (text.empty() ? R"({"date":")" : R"(,{"date":")") + to_text(set.date).str() +
            R"(","lift":"bench press","load_kg":)" + std::to_string(set.load.kg()) +
            R"(,"reps":5,"left":2})";
  }
  const auto ask = [&](const std::string& members) {
    return request(R"("ask":"look_back","log":[)" + text + R"(],"date":"2026-11-25")" + members);
  };
  const std::string got = json::answer(ask(R"(,"weeks":3)"));
  CHECK(got == json::to_json(back));
  const json::Value read = answer(ask(R"(,"weeks":3)"));
  const json::Value& lift = read.find("lifts")->array()->at(0);
  CHECK(text_at(lift, "verdict") == name(back.lifts[0].verdict));
  CHECK(number_at(*lift.find("gain"), "low") == back.lifts[0].gain->interval().low);
  CHECK(number_at(*lift.find("best"), "load_kg") == 85.0);
  // No trend is told of three days, on no page and in no answer.
  CHECK(lift.find("lifter")->find("trend_per_week") == nullptr);
  const json::Value& week = read.find("weeks")->array()->at(0);
  CHECK(number_at(week, "hard_sets") == 1.0);
  CHECK(number_at(*week.find("hard_sets_of"), "triceps") == 0.5);
  CHECK(fault(ask(R"(,"weeks":105)")) == "weeks: must be a whole number from 2 to 104; got 105");
  CHECK(fault(ask(R"(,"stated_max_kg":100)")) ==
        ": a stated max must not be given: a look back rests on the log");
}

TEST_CASE("a set that says of pain and of dizziness says both, in a look back too") {
  const json::Value read = answer(
      request(R"("ask":"look_back","date":"2026-11-25","log":[{"date":"2026-11-20","lift":"squat",)"
              R"("load_kg":100,"reps":5,"note":"dizzy, and the knee hurt"},{"date":"2026-11-19",)"
              R"("lift":"squat","load_kg":100,"reps":5,"note":"elbow"}])"));
  const json::Value::Array& noted = *read.find("noted")->array();
  REQUIRE(noted.size() == 3);
  CHECK(text_at(noted[0], "said") == "unwell");
  CHECK(text_at(noted[1], "said") == "pain");
  CHECK(text_at(noted[1], "date") == "2026-11-20");
  CHECK(text_at(noted[2], "said") == "may_hurt");
}

TEST_CASE("a note of a miss holds in JSON as in a file, and missed answers it") {
  const auto session_after = [](const std::string& members) {
    return answer(session(
        R"("reps":6,"safeties":"checked","max_chance_of_missing":0.5,"log":[{"date":"2026-11-16",)"
        R"("lift":"bench press","load_kg":80,"reps":6,"left":4},{"date":"2026-11-20",)"
        R"("lift":"bench press","load_kg":80,"reps":6,"left":4)" +
        members + "}]"));
  };
  const json::Value missed = session_after(R"(,"note":"missed the last")");
  CHECK(text_at(missed, "progress") == "missed");
  CHECK(number_at(missed, "load_kg") <= 80.0);
  CHECK(text_at(session_after(R"(,"note":"failed")"), "progress") == "missed");
  const json::Value open = session_after(R"(,"note":"dropped it")");
  CHECK(text_at(open, "limited_by") == "held_after_miss");
  CHECK(open.find("last")->find("may_have_miss") != nullptr);
  CHECK(text_at(*open.find("lifter")->find("may_be_missed"), "date") == "2026-11-20");
  CHECK(text_at(session_after(R"(,"note":"dropped it","missed":false)"), "limited_by") !=
        "held_after_miss");
  CHECK(text_at(session_after(R"(,"note":"missed the bus")"), "limited_by") != "held_after_miss");
}

TEST_CASE("a very long block is reviewed without leaving out each of its days in turn") {
  std::vector<LoggedSet> log;
  for (int day = 0; day < 640; day += 2) {
    log.push_back({.date = Date(2025, 1, 1) + day,
                   .lift = lifts::bench_press + modifiers::feet_up,
                   .load = 80_kg,
                   .reps = 5_reps,
                   .reserve = Range<RepsInReserve>::exactly(2_rir)});
  }
  const auto review = review_block(log, {.lift = log[0].lift});
  REQUIRE(review);
  CHECK(review->without.empty());
  log.erase(log.begin() + 20, log.end());
  CHECK(review_block(log, {.lift = log[0].lift})->without.size() == 20);
}

TEST_CASE("the catalogue has every lift, and the changes that go with it") {
  const json::Value catalogue = answer(request(R"("ask":"catalogue")"));
  CHECK(catalogue.find("lifts")->array()->size() == catalogue::lifts().size());
  for (const json::Value& lift : *catalogue.find("lifts")->array()) {
    for (const json::Value& change : *lift.find("changes")->array()) {
      const std::string name = text_at(lift, "name") + ", " + text_at(change, "name");
      CAPTURE(name);
      CHECK(text_at(answer(request(R"("ask":"plan_session","date":"2026-11-25","lift":")" + name +
                                   "\"")),
                    "outcome") == "refused");
    }
  }
}
