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
