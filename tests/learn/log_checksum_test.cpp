// Tests of barwright/learn/log_checksum.hpp: a log is known again, and any change in it is seen.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/learn/log_checksum.hpp"

#include <doctest/doctest.h>

#include <span>
#include <utility>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

std::vector<LoggedSet> short_log() {
  const auto left = Range<RepsInReserve>::exactly(2_rir);
  return {{.date = Date(2026, 1, 5),
           .lift = lifts::bench_press,
           .load = 80_kg,
           .reps = 6_reps,
           .reserve = left},
          {.date = Date(2026, 1, 5),
           .lift = lifts::bench_press + modifiers::feet_up,
           .load = 75_kg,
           .reps = 5_reps},
          {.date = Date(2026, 1, 8), .lift = lifts::bench_press, .load = 82.5_kg, .reps = 6_reps}};
}

/// Whether a change of the second set is seen.
template <class Change>
bool is_seen(Change change) {
  std::vector<LoggedSet> log = short_log();
  change(log[1]);
  return checksum_of(log) != checksum_of(short_log());
}

}  // namespace

TEST_CASE("a log has the checksum of its copy, and of no log that differs in what a fit reads") {
  CHECK(checksum_of(short_log()) == checksum_of(short_log()));
  CHECK(is_seen([](LoggedSet& set) { set.date = set.date + 1; }));
  CHECK(is_seen([](LoggedSet& set) { set.lift = lifts::bench_press; }));
  CHECK(is_seen([](LoggedSet& set) { set.load = 75.5_kg; }));
  CHECK(is_seen([](LoggedSet& set) { set.reps = 6_reps; }));
  CHECK(is_seen([](LoggedSet& set) { set.outcome = Outcome::missed; }));
  CHECK(is_seen([](LoggedSet& set) { set.reserve = Range<RepsInReserve>::exactly(0_rir); }));

  std::vector<LoggedSet> log = short_log();
  std::swap(log[0], log[1]);  // the sets of one day count in their order
  CHECK(checksum_of(log) != checksum_of(short_log()));
  log = short_log();
  log.pop_back();
  CHECK(checksum_of(log) != checksum_of(short_log()));
}

TEST_CASE("the three numbers of a rating all count") {
  std::vector<LoggedSet> log = short_log();
  log[0].reserve = Range<RepsInReserve>(1_rir, 2_rir, 2_rir);
  const LogChecksum lower = checksum_of(log);
  log[0].reserve = Range<RepsInReserve>(2_rir, 2_rir, 3_rir);
  CHECK(lower != checksum_of(log));
  CHECK(lower != checksum_of(short_log()));
}

TEST_CASE("what was noted of pain is another matter: a fit does not read it") {
  CHECK(!is_seen([](LoggedSet& set) { set.has_pain = true; }));
  CHECK(!is_seen([](LoggedSet& set) { set.is_unwell = true; }));
}

TEST_CASE("a log that only grew is known by its first sets") {
  const std::vector<LoggedSet> log = short_log();
  LogChecksum grown = checksum_of(std::span(log).first(2));
  CHECK(grown.sets == 2);
  grown.add(log[2]);
  CHECK(grown == checksum_of(log));
}

TEST_CASE("a fit has the checksum of its log, sets of other lifts included") {
  StrengthModel model({});
  CHECK(model.fit().log_checksum() == LogChecksum{});
  for (const LoggedSet& set : short_log()) model.add(set);
  model.add({.date = Date(2026, 1, 9), .lift = lifts::squat, .load = 100_kg, .reps = 5_reps});
  CHECK(model.fit().log_checksum() == checksum_of(model.sets()));
}
