// A log in a request as CSV, and the log written back: the same sets whichever way they come in.
// All sets are invented.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/plan/json_log.hpp"

#include <doctest/doctest.h>

#include <string>

#include "plan/json_answers.hpp"

using namespace barwright;
using namespace barwright_test;

namespace {

const std::string session = R"("ask":"plan_session","lift":"bench press","date":"2026-11-25",)";
const std::string two_lifters =
    R"("log_csv":"date,lifter,lift,load,unit,reps,rir\n)"
    R"(2026-11-21,Ana,bench press,100,kg,5,2\n2026-11-21,Bo,bench press,60,kg,5,2\n")";
const std::string with_a_bad_line =
    R"("log_csv":"date,lifter,lift,load,unit,reps,rir\n)"
    R"(2026-11-21,Ana,bench press,100,kg,5,2\n2026-11-22,Ana,bench press,a lot,kg,5,2\n")";

}  // namespace

TEST_CASE("a log plans the same session as CSV and as JSON") {
  const json::Value as_csv =
      answer(request(session + two_lifters + R"(,"lifter":"ana","spotter":true)"));
  const json::Value as_json = answer(request(
      session + R"("spotter":true,"log":[{"date":"2026-11-21","lift":"bench press","load_kg":100,)"
                R"("reps":5,"left":2}])"));
  CHECK(text_at(as_csv, "outcome") == "plan");
  CHECK(number_at(as_csv, "load_kg") == number_at(as_json, "load_kg"));
}

TEST_CASE("whose sets of a squad's log are meant must be said") {
  const json::Value nobody = answer(request(session + two_lifters));
  CHECK(text_at(nobody, "outcome") == "bad_request");
  CHECK(text_at(nobody, "message").find("\"lifter\" must be given") != std::string::npos);
  const json::Value stranger = answer(request(session + two_lifters + R"(,"lifter":"Cy")"));
  CHECK(text_at(stranger, "message").find("a lifter of the log") != std::string::npos);
}

TEST_CASE("a line that cannot be read stops the plan until it is left out on purpose") {
  const json::Value refused = answer(request(session + with_a_bad_line));
  CHECK(text_at(refused, "outcome") == "bad_request");
  CHECK(text_at(refused, "message").find("line:3: refused: load \"a lot\"") == 0);
  const json::Value skipped =
      answer(request(session + with_a_bad_line + R"(,"spotter":true,"skip_refused_lines":true)"));
  CHECK(text_at(skipped, "outcome") == "plan");
}

TEST_CASE("pain in a line that is left out on purpose is not left out") {
  const std::string line = R"("log_csv":"date,lifter,lift,load,unit,reps,note\n)"
                           R"(2026-11-21,Ana,bench press,100,kg,5,\n)"
                           R"(2026-11-22,Ana,bench press,100,kg,0,shoulder pain - stopped\n",)"
                           R"("spotter":true,"skip_refused_lines":true)";
  CHECK(text_at(answer(request(session + line)), "outcome") == "stop");
  CHECK(text_at(answer(request(session + line + R"(,"pain":"none")")), "outcome") == "plan");
}

TEST_CASE("what was understood of a log is said, and the log written clean") {
  const json::Value read = answer(request(R"("ask":"read_log",)" + with_a_bad_line));
  CHECK(text_at(read, "outcome") == "log");
  CHECK(number_at(read, "rows") == 2);
  CHECK(number_at(read, "refused") == 1);
  CHECK(text_at(read, "csv") ==
        "date,lifter,lift,modifiers,load,unit,reps,rir,outcome,note\n"
        "2026-11-21,Ana,bench press,,100,kg,5,2,completed,\n");
  const json::Value* const reports = read.find("reports");
  REQUIRE(reports != nullptr);
  REQUIRE(reports->array()->size() == 1);
  CHECK(number_at(reports->array()->front(), "line") == 3);
}

TEST_CASE("a set is added to a log, in the unit it was lifted in") {
  const json::Value read = answer(request(
      R"("ask":"read_log","lifter":"Bo","log":[{"date":"2026-11-25","lift":"bench press, feet up",)"
      R"("load_lb":135,"reps":4,"missed":true}],)" +
      two_lifters));
  CHECK(number_at(read, "rows") == 3);
  CHECK(text_at(read, "csv").find("2026-11-25,Bo,bench press,feet up,135,lb,4,,missed,\n") !=
        std::string::npos);
}

TEST_CASE("without a set the log is a blank one") {
  CHECK(text_at(answer(request(R"("ask":"read_log")")), "csv") ==
        "date,lifter,lift,modifiers,load,unit,reps,rir,outcome,note\n");
}

TEST_CASE("a log is read as the request says where the file does not say it") {
  const std::string log =
      R"("log_csv":"tag;wer;exercise;last;reps;rir\n09/11/2026;Ana;bench press;80,5;6;2\n",)";
  const auto message = [&](const std::string& reading) {
    const json::Value read =
        answer(request(R"("ask":"read_log",)" + log + R"("log_reading":)" + reading));
    return text_at(read, "outcome") == "log" ? text_at(read, "csv") : text_at(read, "message");
  };
  const auto has = [](const std::string& text, std::string_view words) {
    return text.find(words) != std::string::npos;
  };
  const std::string columns = R"("columns":{"wer":"lifter","last":"load","tag":"date"})";
  CHECK(has(message("{" + columns + R"(,"unit":"kg","dates":"day_first"})"),
            "2026-11-09,Ana,bench press,,80.5,kg,6,2,completed,"));
  CHECK(
      has(message("{" + columns + R"(,"unit":"kg"})"), R"("log_reading": {"dates": "day_first"})"));
  CHECK(
      has(message("{" + columns + R"(,"dates":"day_first"})"), R"("log_reading": {"unit": "kg"})"));
  // What is misspelt, or no column of a log, is refused and not passed over.
  CHECK(has(message(R"({"units":"kg"})"), "\"units\" is not known here"));
  CHECK(has(message(R"({"columns":{"wer":"boss"}})"), "a column of a log"));
  CHECK(has(message(R"({"columns":["wer"]})"), "must be an object"));
  CHECK(has(message(R"({"year":20.5})"), "whole number"));
  CHECK(has(text_at(answer(request(session + R"("log_reading":{"unit":"kg"})")), "message"),
            "beside \"log_csv\" only"));
}

TEST_CASE("a lift of one's own is one wherever a request names a lift") {
  const std::string own =
      R"("own_lifts_csv":"name,lift,low,typical,high\ntowel press,bench press,95,100,106\n")";
  for (const std::string_view name : {"towel press", "bench press, towel press"}) {
    const json::Value plan = answer(
        request(R"("ask":"plan_session","date":"2026-11-25","stated_max_kg":100,"spotter":true,)"
                R"("lift":")" +
                std::string(name) + R"(",)" + own));
    CHECK(text_at(plan, "outcome") == "plan");
    CHECK(text_at(plan, "lift") == "bench press, towel press");
  }
  const json::Value in_squad = answer(request(
      R"("ask":"squad","lifters":[{"log_csv":"date,lift,load,unit,reps,rir\n2026-11-21,)"
      R"(towel press,80,kg,6,2\n","sessions":[{"lift":"towel press","date":"2026-11-25"}]}],)" +
      own));
  CHECK(text_at(in_squad, "outcome") == "squad");
  const json::Value bad = answer(request(
      R"("ask":"read_log","own_lifts_csv":"name,lift,low,typical,high\nsquat,squat,95,100,106\n")"));
  CHECK(text_at(bad, "at") == "own_lifts_csv");
}

TEST_CASE("a note beside a set of a request is kept as that of a row is") {
  const json::Value read = answer(request(
      R"("ask":"read_log","lifter":"Ana","log":[{"date":"2026-11-21","lift":"squat","load_kg":100,)"
      R"("reps":5,"note":"knee hurt, stopped"},{"date":"2026-11-22","lift":"squat","load_kg":100,)"
      R"("reps":5,"note":"dropped it"},{"date":"2026-11-23","lift":"squat","load_kg":100,)"
      R"("reps":5,"note":"spotter took two"},{"date":"2026-11-24","lift":"squat","load_kg":100,)"
      R"("reps":5,"note":"fast"}])"));
  const std::string csv = text_at(read, "csv");
  CHECK(csv.find(",100,kg,5,,completed,\"knee hurt, stopped\"\n") != csv.npos);
  CHECK(csv.find(",100,kg,5,,,dropped it\n") != csv.npos);
  CHECK(csv.find(",100,kg,4,,missed,\n") != csv.npos);
  CHECK(csv.find(",100,kg,5,,completed,\n") != csv.npos);
}
