// tests/log/own_lifts_test.cpp - a lifter's own lifts from a file, used like the catalogue's
//
// The lifts and figures are invented.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/own_lifts.hpp"

#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/log/lift_fields.hpp"
#include "barwright/log/log_reader.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr std::string_view file =
    "name,lift,low,typical,high,dumbbells,also\n"
    "towel press,bench press,95,100,106,,press to a towel; towel bench\n"
    "boathouse floor press,bench,70,78 %,88,2,\n"
    "harbour squat,squats,60,75,95,0,\n";

bool has(std::string_view text, std::string_view words) {
  return text.find(words) != std::string_view::npos;
}

/// What is said of the only row.
std::string report_of(const std::string& row) {
  const OwnLifts own = read_own_lifts("name,lift,low,typical,high,dumbbells,also\n" + row + "\n");
  REQUIRE(own.reports.size() >= 1);
  CHECK(own.refused == 1);
  CHECK(own.empty());
  CHECK(!own.failure.empty());
  return to_text("own.csv", own.reports[0]);
}

}  // namespace

TEST_CASE("a lift of one's own is a variation of its base lift, with the share that was written") {
  const OwnLifts own = read_own_lifts(file);
  REQUIRE(own.failure.empty());
  REQUIRE(own.size() == 3);
  CHECK(own.reports.empty());
  const auto lifts = own.lifts();
  CHECK(lifts[0].name() == Text{}.append("bench press, towel press"));
  CHECK(lifts[0].max_from(100_kg).low == 95_kg);
  CHECK(lifts[0].max_from(100_kg).high.kg() == doctest::Approx(106.0).epsilon(1e-12));
  CHECK(lifts[1].dumbbells() == 2);
  CHECK(lifts[1].ratio(100_kg).typical == doctest::Approx(0.78).epsilon(1e-12));
  CHECK(lifts[2].base().same_as(lifts::squat));
  // The file's word and no study's.
  CHECK(own.modifiers()[0].ratio_figure().evidence == Evidence::assumption);
  // It goes together with what the catalogue has.
  CHECK((lifts[0] + modifiers::feet_up).name() ==
        Text{}.append("bench press, feet up, towel press"));
}

TEST_CASE("it is found by any of its names, alone or among the modifiers of its base lift") {
  const OwnLifts own = read_own_lifts(file);
  const Lift towel = own.lifts()[0];
  for (const std::string_view name : {"Towel-Press", "towel presses", "towel bench"}) {
    CAPTURE(std::string(name));
    REQUIRE(fields::own_lift(name, own.modifiers()));
    CHECK(fields::own_lift(name, own.modifiers())->same_as(towel));
  }
  CHECK_FALSE(fields::own_lift("paused", own.modifiers()));
  const auto lift = fields::to_lift(lifts::bench_press, "towel bench; feet up", own.modifiers());
  REQUIRE(lift.value);
  CHECK(lift.value->same_as(towel + modifiers::feet_up));
  // Of another lift, twice, or without the file it is none.
  CHECK_FALSE(fields::to_lift(lifts::squat, "towel bench", own.modifiers()).value);
  CHECK_FALSE(
      fields::to_lift(lifts::bench_press, "towel bench, towel press", own.modifiers()).value);
  CHECK_FALSE(fields::to_lift(lifts::bench_press, "towel bench").value);
}

TEST_CASE("a log may name it as a lift or among the modifiers, beside the catalogue's") {
  const OwnLifts own = read_own_lifts(file);
  const std::string text =
      "date,lifter,lift,modifiers,load,unit,reps,rir\n"
      "2026-11-20,Ana,Towel-Press,,60,kg,5,2\n"
      "2026-11-21,Ana,bench press,towel press,60,kg,5,2\n"
      "2026-11-22,Ana,bench,feet up; towel bench,55,kg,5,2\n"
      "2026-11-23,Ana,towel presses,feet up,55,kg,5,2\n"
      "2026-11-24,Ana,bench press,,70,kg,5,2\n";
  const Log log = read_log(text, {.own_lifts = own.modifiers()});
  REQUIRE(log.entries.size() == 5);
  CHECK(log.reports.empty());
  const Lift towel = own.lifts()[0];
  CHECK(log.entries[0].set.lift.same_as(towel));
  CHECK(log.entries[1].set.lift.same_as(towel));
  CHECK(log.entries[2].set.lift.same_as(towel + modifiers::feet_up));
  CHECK(log.entries[3].set.lift.same_as(towel + modifiers::feet_up));
  CHECK(log.entries[4].set.lift.is_plain());
  // Without the file nobody knows it.
  CHECK(read_log(text).entries.size() == 1);
}

TEST_CASE("what a file has stays where it is when the lifts are handed on") {
  auto own = std::make_unique<OwnLifts>(read_own_lifts(file));
  const Lift before = own->lifts()[0];
  const OwnLifts kept = std::move(*own);
  own.reset();
  CHECK(before.name() == kept.lifts()[0].name());
  CHECK(before == kept.lifts()[0]);
}

TEST_CASE("every row that will not do is named with its line, its column and what is allowed") {
  CHECK(has(report_of("towel press,bench pres,95,100,105,,"),
            "own.csv:2: refused: lift \"bench pres\": unknown lift; nearest"));
  CHECK(has(report_of("towel press,bench press,0.95,100,105,,"),
            "low \"0.95\": a share must be a number from 10 to 300, in per cent"));
  CHECK(has(report_of("towel press,bench press,95,,105,,"), "typical \"\": a share must be"));
  CHECK(has(report_of("towel press,bench press,95,100,400,,"), "high \"400\": a share must be"));
  CHECK(has(report_of("towel press,bench press,105,100,95,,"), "must rise"));
  CHECK(has(report_of("towel press,bench press,95,100,105,3,"), "must be 0, 1 or 2"));
  CHECK(has(report_of(",bench press,95,100,105,,"), "name \"\": a lift's name must be 1 to 40"));
  CHECK(has(report_of("\"a, b\",bench press,95,100,105,,"), "without ; + , and control"));
  CHECK(has(report_of(std::string(41, 'a') + ",bench press,95,100,105,,"), "1 to 40 bytes"));
  CHECK(has(report_of("Front Squats,squat,95,100,105,,"), "must be its own"));
  CHECK(has(report_of("deadlift,squat,95,100,105,,"), "must be its own"));
  CHECK(has(report_of("towel press,bench press,95,100,105,,dip; x"), "also \"dip; x\""));
  CHECK(has(report_of("towel press,bench press,95,100"), "a row must have 7 fields"));
  std::string names;
  for (int i = 0; i < 11; ++i) names += "name " + std::to_string(i) + ";";
  CHECK(has(report_of("towel press,bench press,95,100,105,," + names), "at most 10 other names"));
}

TEST_CASE("a name is given once, and the good rows are used beside the bad") {
  const OwnLifts own = read_own_lifts(
      "name,lift,low,typical,high\n"
      "towel press,bench press,95,100,105\n"
      "Towel Presses,squat,95,100,105\n"
      "\n"
      "harbour squat,squat,60,75,95\n");
  CHECK(own.size() == 2);
  CHECK(own.refused == 1);
  REQUIRE(own.reports.size() == 1);
  CHECK(own.reports[0].line == 3);
  CHECK(own.failure.empty());
}

TEST_CASE("a file is bounded, and what is none says so") {
  std::string text = "name,lift,low,typical,high\n";
  for (int i = 0; i < 300; ++i) {
    text += "lift number " + std::to_string(1000 + i) + ",squat,60,75,95\n";
  }
  CHECK(has(read_own_lifts(text).failure, "at most 200"));
  CHECK(has(read_own_lifts("").failure, "the first line must name the columns"));
  CHECK(has(read_own_lifts(std::string("name,\0", 6)).failure, "not plain text"));
  CHECK(has(read_own_lifts("name,lift\nx,squat\n").failure, "the column \"low\" is missing"));
  CHECK(has(read_own_lifts("name,lift,low,typical,high\n").failure, "no lift in it"));
}
