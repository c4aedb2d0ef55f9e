#include "barwright/log/lift_phrase.hpp"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/log/lift_fields.hpp"

using namespace barwright;

TEST_CASE("a lift is understood in one breath, and a change alone only where one lift has it") {
  struct Row {
    std::string_view said;
    std::string_view lift;  // empty: nobody can know
  };
  const Row rows[] = {
      {"low bar", "squat"},
      {"low-bar squat", "squat"},
      {"high bar", "squat, high bar"},
      {"High Bar Squats", "squat, high bar"},
      {"paused bench press", "bench press, paused"},
      {"front squat", "squat, front squat"},
      {"DL", "deadlift"},
      {"paused", ""},
      {"low", ""},
  };
  for (const Row& row : rows) {
    CAPTURE(row.said);
    const auto lift = fields::lift_phrase(row.said);
    CHECK((lift ? lift->name().str() : "") == row.lift);
  }
  // "squat, low bar": what is another name of the lift changes nothing.
  const auto squat = fields::to_lift(lifts::squat, "low bar");
  REQUIRE(squat.value);
  CHECK(squat.value->is_plain());
  CHECK_FALSE(fields::to_lift(lifts::bench_press, "low bar").value);
}
