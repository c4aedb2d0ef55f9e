// A log written back as CSV: it reads as the sets it was made of (RFC 4180 for the quoting).
// SPDX-License-Identifier: BSL-1.0
#include "barwright/log/log_writer.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "all_lifts.hpp"
#include "barwright/barwright.hpp"
#include "barwright/log/log_reader.hpp"

using namespace barwright;

namespace {

LogEntry entry(const LoggedSet& set, std::string lifter = "Ana", Unit unit = Unit::kg) {
  return {.line = 0, .lifter = std::move(lifter), .set = set, .unit = unit};
}

LoggedSet bench(Mass load) {
  return {.date = Date(2026, 11, 25), .lift = lifts::bench_press, .load = load, .reps = Reps(6)};
}

/// The only set of a log, after it was written and read again.
LogEntry read_again(const LogEntry& written) {
  const Log log = read_log(write_log(std::vector{written}));
  INFO(write_log(std::vector{written}));
  CHECK(log.failure == "");
  CHECK(log.refused() == 0);
  REQUIRE(log.entries.size() == 1);
  return log.entries[0];
}

}  // namespace

TEST_CASE("a log of nothing is a blank one, to be filled in") {
  CHECK(write_log(Log{}) == "date,lifter,lift,modifiers,load,unit,reps,rir,outcome,note\n");
}

TEST_CASE("one set is one row, in one spelling") {
  LoggedSet set = bench(Mass::from_kg(62.5));
  set.reserve = Range<RepsInReserve>{RepsInReserve(2), RepsInReserve(2.5), RepsInReserve(3)};
  CHECK(write_log(std::vector{entry(set)}) ==
        "date,lifter,lift,modifiers,load,unit,reps,rir,outcome,note\n"
        "2026-11-25,Ana,bench press,,62.5,kg,6,2-3,completed,\n");
}

TEST_CASE("every variation is read back as itself") {
  std::vector<LogEntry> written;
  for (const Lift& lift : barwright_test::all_lifts(2)) {
    LoggedSet set = bench(Mass::from_kg(60));
    set.lift = lift;
    written.push_back(entry(set));
  }
  REQUIRE(written.size() > 100);
  const Log log = read_log(write_log(written));
  REQUIRE(log.entries.size() == written.size());
  for (std::size_t i = 0; i < written.size(); ++i) {
    CAPTURE(written[i].set.lift.name().str());
    CHECK(log.entries[i].set.lift.same_as(written[i].set.lift));
  }
}

TEST_CASE("a rating is read back as the same reserve") {
  for (double rating = 5.0; rating <= 10.0; rating += 0.5) {
    const auto reserve = reps_in_reserve(Rpe(rating));
    if (!reserve) continue;
    LoggedSet set = bench(Mass::from_kg(60));
    set.reserve = *reserve;
    CAPTURE(rating);
    const auto got = read_again(entry(set)).set.reserve;
    REQUIRE(got);
    CHECK(got->low == reserve->low);
    CHECK(got->typical == reserve->typical);
    CHECK(got->high == reserve->high);
  }
}

TEST_CASE("misses, pain and pounds survive") {
  LoggedSet set = bench(Mass::from_lb(132.5));
  set.outcome = Outcome::missed;
  set.has_pain = true;
  const LogEntry got = read_again(entry(set, "Ana", Unit::lb));
  CHECK(got.set.outcome == Outcome::missed);
  CHECK(got.set.has_pain);
  CHECK(got.unit == Unit::lb);
  CHECK(got.set.load.in(Unit::lb) == doctest::Approx(132.5).epsilon(1e-12));
  CHECK_FALSE(read_again(entry(bench(Mass::from_kg(60)))).set.has_pain);
}

TEST_CASE("a name with commas and quotes stays one name") {
  for (const char* const name : {"Ravn, Tilde", "the \"Bear\"", "a;b", "x\ty"}) {
    const std::string field = csv_field(name);
    CAPTURE(field);
    CHECK(field.front() == '"');
  }
  CHECK(read_again(entry(bench(Mass::from_kg(60)), "Ravn, \"Tilde\"; the 2nd")).lifter ==
        "Ravn, \"Tilde\"; the 2nd");
}

TEST_CASE("a name that a spreadsheet would take for a formula is written as text") {
  for (const char* const name : {"=1+1", "+49 170", "-Ana-", "@Bo, \"the\" 2nd"}) {
    CAPTURE(name);
    const LogEntry written = entry(bench(Mass::from_kg(60)), name);
    CHECK(write_log(std::vector{written}).find(std::string("'") + name[0]) != std::string::npos);
    CHECK(read_again(written).lifter == name);
  }
  CHECK(read_again(entry(bench(Mass::from_kg(60)), "'Ana")).lifter == "'Ana");
}
