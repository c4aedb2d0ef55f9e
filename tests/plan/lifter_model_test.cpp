// What the example programs learn of one lifter, and which sets they say do not fit. Expected
// answers follow from how the logs were made.
// SPDX-License-Identifier: BSL-1.0
#include "lifter_model.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "stated_max.hpp"

using namespace barwright;
using lifter_model::learn;
using lifter_model::Learnt;
using lifter_model::new_lifts;
using lifter_model::settings_for;

namespace {

std::string row(Date date, const std::string& load, const std::string& unit = "kg",
                const std::string& rest = "6,2,completed") {
  return to_text(date).str() + ",Ana,bench press,," + load + "," + unit + "," + rest + "\n";
}

/// Sessions of one set each, three days apart, with one load; lines 2 to count + 1.
std::string steady_sessions(int count, const std::string& load) {
  std::string rows;
  for (int i = 0; i < count; ++i) rows += row(Date(2026, 9, 1) + 3 * i, load);
  return rows;
}

Learnt learn_from(const std::string& rows) {
  const squad_log::Log log =
      squad_log::read("date,lifter,lift,modifiers,load,unit,reps,rir,outcome\n" + rows, "club.csv");
  REQUIRE(log.refused() == 0);
  return learn(settings_for(lifts::bench_press, equations::wathen, squad_log::sets_of(log, "Ana")),
               log.entries);
}

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

LoggedSet set_on(Date date, const Lift& lift) {
  return {.date = date, .lift = lift, .load = Mass::from_kg(60.0), .reps = Reps(5)};
}

}  // namespace

TEST_CASE("pounds typed as kilograms are named with their line, and left out") {
  const Learnt learnt = learn_from(steady_sessions(6, "80") + row(Date(2026, 10, 1), "176") +
                                   row(Date(2026, 10, 4), "82.5"));
  REQUIRE(learnt.misfits.size() == 1);
  CHECK(learnt.misfits[0].line == 8);
  CHECK(learnt.sets.size() == 7);
  const std::string text = to_text(learnt.misfits[0], Unit::kg);
  CHECK(has(text, "line 8, 2026-10-01: 176 kg x 6, 2 left"));
  CHECK(has(text, "pounds typed as kilograms?"));
}

TEST_CASE("kilograms typed as pounds are named where the set was near failure") {
  const Learnt learnt = learn_from(steady_sessions(6, "80") + row(Date(2026, 10, 1), "80", "lb"));
  REQUIRE(learnt.misfits.size() == 1);
  CHECK(has(to_text(learnt.misfits[0], Unit::kg), "kilograms typed as pounds?"));
}

TEST_CASE("a decimal point gone astray is named as such") {
  const Learnt learnt = learn_from(steady_sessions(6, "82.5") + row(Date(2026, 10, 1), "825"));
  REQUIRE(learnt.misfits.size() == 1);
  CHECK(has(to_text(learnt.misfits[0], Unit::kg), "a decimal point gone astray?"));
}

TEST_CASE("warm-ups, lighter days and years of progress do not stand out") {
  std::string rows = steady_sessions(6, "80") + row(Date(2026, 10, 1), "20", "kg", "8,,") +
                     row(Date(2026, 10, 1), "50", "kg", "5,,") + row(Date(2026, 10, 1), "82.5");
  for (int i = 0; i < 60; ++i) {
    rows += row(Date(2026, 10, 4) + 7 * i, std::to_string(83 + 2 * i));
  }
  CHECK(learn_from(rows).misfits.empty());
}

TEST_CASE("a variation that comes in after two weeks is new; one of the first days is not") {
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  const Lift incline = lifts::bench_press + modifiers::incline;
  const Date start(2026, 9, 1);
  const std::vector<LoggedSet> sets{set_on(start + 30, incline), set_on(start, lifts::bench_press),
                                    set_on(start + 3, feet_up), set_on(start - 90, lifts::squat)};
  CHECK(new_lifts(sets, lifts::bench_press) == std::vector<Lift>{incline});
  CHECK(new_lifts(sets, lifts::squat).empty());
}

TEST_CASE("the plain lift is never new, even where the log starts with a variation") {
  const Date start(2026, 9, 1);
  const std::vector<LoggedSet> sets{set_on(start, lifts::bench_press + modifiers::feet_up),
                                    set_on(start + 40, lifts::bench_press)};
  CHECK(new_lifts(sets, lifts::bench_press).empty());
}

TEST_CASE("a lift that was done before the log began is not new to the model; one never done is") {
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  const Date start(2026, 9, 1);
  const std::vector<LoggedSet> log{set_on(start, lifts::bench_press), set_on(start + 20, feet_up)};
  const auto marked = [&](const Lift& lift, int done) {
    StrengthSettings settings = settings_for(lifts::bench_press, equations::wathen, log);
    lifter_model::mark_new(settings, lift, log, start + 30, done);
    return settings.new_lifts;
  };
  CHECK(marked(feet_up, 0) == std::vector{feet_up});
  CHECK(marked(feet_up, 1) == std::vector{feet_up});  // the one in the log
  CHECK(marked(feet_up, 20).empty());
  const Lift incline = lifts::bench_press + modifiers::incline;
  CHECK(marked(incline, 0) == std::vector{feet_up, incline});
  CHECK(marked(incline, 20) == std::vector{feet_up});
}

TEST_CASE("beside a stated max count the variations of the last four weeks, for a variation") {
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  const Date day(2026, 9, 30);
  std::vector<squad_log::Entry> log;
  for (const LoggedSet& set :
       {set_on(day - 28, feet_up), set_on(day - 27, feet_up), set_on(day - 2, lifts::bench_press),
        set_on(day - 1, lifts::squat)}) {
    log.push_back({.line = static_cast<int>(log.size()) + 2, .set = set});
  }
  const auto learn_for = [&](const Lift& lift) {
    return lifter_model::learn_with_max(settings_for(lifts::bench_press, equations::wathen, {}),
                                        Mass::from_kg(75.0), lift, log, day);
  };
  const Learnt of_variation = learn_for(feet_up);
  REQUIRE(of_variation.used.size() == 1);
  CHECK(of_variation.used.front().date == day - 27);
  CHECK(of_variation.sets.size() == 4);
  CHECK(learn_for(lifts::bench_press).used.empty());
}

TEST_CASE("the room is the one asked for, or the usual gym in the unit of log or max") {
  const std::string header = "date,lifter,lift,load,unit,reps\n2026-09-01,Ana,squat,";
  const squad_log::Log kg = squad_log::read(header + "60,kg,5\n", "kg.csv");
  const squad_log::Log lb = squad_log::read(header + "135,lb,5\n", "lb.csv");
  const auto unit = [](const std::string& room, const std::string& max, const squad_log::Log& log) {
    return lifter_model::find_room(room, max, log, "Ana").bar().mass.unit();
  };
  CHECK(unit("", "", kg) == Unit::kg);
  CHECK(unit("", "", lb) == Unit::lb);
  CHECK(unit("", "300 lb", kg) == Unit::kg);
  CHECK(unit("", "300 lb", {}) == Unit::lb);
  CHECK(unit("powerlifting", "", lb) == Unit::kg);
}

TEST_CASE("a variation asked for as a lift is answered with how to ask") {
  try {
    (void)lifter_model::find_lift("front squat", "");
    FAIL("not refused");
  } catch (const lifter_model::Refusal& refusal) {
    CHECK(has(refusal.what(), "--lift \"squat\" --with \"front squat\""));
  }
  CHECK(lifter_model::find_lift("squat", "front squat") == lifts::squat + modifiers::front_squat);
}

TEST_CASE("the order of the lines in a log does not matter, nor does its unit") {
  const std::string columns = "date,lifter,lift,modifiers,load,unit,reps,rir,outcome\n";
  std::vector<std::string> in_kg;
  std::vector<std::string> in_lb;
  for (int i = 0; i < 24; ++i) {
    const Date date = Date(2026, 9, 1) + 2 * i;
    const int pounds = 165 + 5 * (i % 4);
    in_lb.push_back(row(date, std::to_string(pounds), "lb"));
    in_kg.push_back(row(date, std::to_string(pounds * 0.45359237)));  // six digits behind the point
  }
  const auto read = [&](const std::vector<std::string>& rows) {
    std::string text = columns;
    for (const std::string& each : rows) text += each;
    return squad_log::read(text, "club.csv");
  };
  const auto max_of = [](const squad_log::Log& log) {
    const Learnt learnt =
        learn(settings_for(lifts::bench_press, equations::wathen, squad_log::sets_of(log, "Ana")),
              log.entries);
    return learnt.fit.max(lifts::bench_press, Date(2026, 11, 1));
  };
  const Estimate<Mass> max = max_of(read(in_kg));
  const auto is_same = [&](const std::vector<std::string>& rows) {
    const squad_log::Log log = read(rows);
    CHECK(log.refused() == 0);
    const Estimate<Mass> other = max_of(log);
    CHECK(other.log_mean() == doctest::Approx(max.log_mean()).epsilon(1e-7));
    CHECK(other.log_sd() == doctest::Approx(max.log_sd()).epsilon(1e-6));
  };
  is_same(in_lb);
  std::vector<std::string> backwards(in_kg.rbegin(), in_kg.rend());
  is_same(backwards);
  std::rotate(backwards.begin(), backwards.begin() + 7, backwards.end());
  std::swap(backwards[3], backwards[15]);
  is_same(backwards);
}
