// tests/before_loads_test.cpp - what plan_session and plan_block say above their loads
//
// The hours wanted between hard sessions are those of spacing_rule.hpp (inferred); that light sets
// without a rating are warm-ups is this program's assumption. The loads are invented.
// SPDX-License-Identifier: BSL-1.0
#include "before_loads.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "lifter_model.hpp"
#include "squad_log.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date monday(2026, 11, 23);

LoggedSet unrated(Mass load) {
  return {.date = monday, .lift = lifts::bench_press, .load = load, .reps = 6_reps};
}
LoggedSet rated(Mass load, RepsInReserve left) {
  LoggedSet set = unrated(load);
  set.reserve = Range<RepsInReserve>::exactly(left);
  return set;
}
const PlannedLift planned{
    .lift = lifts::bench_press, .sets = 3_sets, .reps = 6_reps, .reserve = 2_rir};

}  // namespace

TEST_CASE("a light set without a rating is a warm-up and not a hard session") {
  // 39 of 60 kg is below two thirds, 41 kg is not; the easy set leaves 5.
  const std::vector<LoggedSet> light{unrated(39_kg), rated(60_kg, 5_rir)};
  CHECK(before_loads::too_soon(light, planned, monday + 1).empty());
  const std::vector<LoggedSet> heavy{unrated(41_kg), rated(60_kg, 5_rir)};
  const auto found = before_loads::too_soon(heavy, planned, monday + 1);
  REQUIRE(!found.empty());
  CHECK(!found.front().is_rated);
  CHECK(before_loads::first_day_after(found) == monday + 2);
}

TEST_CASE("after failure three days are to pass, and a rated session says so itself") {
  const std::vector<LoggedSet> log{rated(60_kg, 0_rir)};
  const auto found = before_loads::too_soon(log, planned, monday + 2);
  REQUIRE(!found.empty());
  CHECK(found.front().is_rated);
  CHECK(found.front().conflict.after_failure);
  CHECK(before_loads::first_day_after(found) == monday + 3);
  CHECK(before_loads::too_soon(log, planned, monday + 3).empty());
}

TEST_CASE("what comes too soon names the lifts it comes too soon after") {
  LoggedSet dips = rated(20_kg, 0_rir);
  dips.lift = lifts::dip;
  LoggedSet squats = rated(100_kg, 0_rir);
  squats.lift = lifts::squat;
  const std::vector<LoggedSet> log{rated(60_kg, 0_rir), rated(60_kg, 1_rir), dips, squats};
  const auto lines = before_loads::to_lines(before_loads::too_soon(log, planned, monday + 2));
  REQUIRE(lines.size() == 1);
  CHECK(lines[0] ==
        "chest: to failure on Monday (bench press; dip), 48 hours before; 72 are wanted "
        "[assumption]");
}

TEST_CASE("a stated max above the log's is refused, below it is used, and pounds are guessed") {
  const BaseLift& base = lifts::bench_press;
  const Range<Mass> by_log{70_kg, 76_kg, 83_kg};
  const auto pounds = before_loads::check_max(165_kg, base, by_log, Unit::kg);
  CHECK(pounds.is_refused);
  CHECK(pounds.text.find("pounds") != std::string::npos);
  const auto other = before_loads::check_max(110_kg, base, by_log, Unit::kg);
  CHECK(other.is_refused);
  CHECK(other.text.find("pounds") == std::string::npos);
  CHECK(!before_loads::check_max(60_kg, base, by_log, Unit::kg).is_refused);
  CHECK(!before_loads::check_max(60_kg, base, by_log, Unit::kg).text.empty());
  CHECK(before_loads::check_max(80_kg, base, by_log, Unit::kg).text.empty());
  CHECK(before_loads::check_max(80_kg, base, {}, Unit::kg).text.empty());
  CHECK(!before_loads::check_max(500_kg, base, {}, Unit::kg).text.empty());
}

TEST_CASE("neck and chest have to be seen free where the lifter lies under the bar only") {
  for (const BaseLift& lift : catalogue::lifts()) {
    CAPTURE(std::string(lift.name));
    CHECK((before_loads::way_to_checked_safeties(lift).find("neck") != std::string::npos) ==
          (lift.family == LiftFamily::horizontal_press));
  }
}

TEST_CASE("a leg press is made safe by its stops, not by a spotter") {
  const SessionFacts facts{
      .lift = lifts::leg_press, .reps = 6_reps, .reserve = 0_rir, .earlier_sessions = 20};
  const std::vector<std::string> ways = before_loads::ways_on(facts, "--reserve");
  REQUIRE(ways.size() == 2);
  CHECK(ways[0].find("set the stops of the machine") == 0);
  CHECK(ways[1].find("--reserve 2") != std::string::npos);
}

TEST_CASE("on a machine the bar is said to stand for it, and that a spotter is no help") {
  CHECK(before_loads::on_a_machine(lifts::squat, true).empty());
  CHECK(!before_loads::on_a_machine(lifts::leg_curl, false).empty());
  const std::string alone = before_loads::on_a_machine(lifts::leg_press, false);
  CHECK(alone.find("leg press") != std::string::npos);
  CHECK(alone.find("spotter") == std::string::npos);
  CHECK(before_loads::on_a_machine(lifts::leg_press, true).find("No spotter") != std::string::npos);
}

namespace {

/// Sets of 6, "2 left" unless `rest` says otherwise; one set a day, three days apart.
lifter_model::Learnt learn_from(const std::vector<std::string>& loads,
                                const std::string& rest = "6,2", const std::string& with = "") {
  std::string rows = "date,lifter,lift,modifiers,load,unit,reps,rir\n";
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const bool is_last = i + 1 == loads.size();
    rows += to_text(monday + 3 * static_cast<int>(i)).str() + ",Ana,bench press," +
            (is_last ? with : "") + "," + loads[i] + ",kg," + (is_last ? rest : "6,2") + "\n";
  }
  const squad_log::Log log = squad_log::read(rows, "club.csv");
  REQUIRE(log.refused() == 0);
  return lifter_model::learn(lifter_model::settings_for(lifts::bench_press, equations::wathen,
                                                        squad_log::sets_of(log, "Ana")),
                             log.entries);
}

std::string doubts(const lifter_model::Learnt& learnt) {
  std::ostringstream out;
  before_loads::print_doubts(out, learnt, Unit::kg);
  return out.str();
}

}  // namespace

TEST_CASE("where few sets are left to judge those that do not fit, it is said before the loads") {
  const std::string few = doubts(learn_from({"80", "80", "180"}));
  CHECK(few.find("Check the log before lifting") != std::string::npos);
  CHECK(few.find("line 4, ") != std::string::npos);
  CHECK(few.find("180 kg x 6") != std::string::npos);
  CHECK(few.find("what is left, 2 sets, the heaviest 80 kg x 6") != std::string::npos);
  // Three days against one are enough, and nothing is said where all sets fit.
  CHECK(doubts(learn_from({"80", "80", "80", "180"})).empty());
  CHECK(doubts(learn_from({"80", "82.5"})).empty());
}

TEST_CASE("of two sets that contradict each other one is left out, and that is said") {
  const lifter_model::Learnt learnt = learn_from({"80", "180"});
  REQUIRE(learnt.misfits.size() == 1);
  CHECK(before_loads::few_remain(learnt));
}

TEST_CASE("a last session more than a fifth above all before is to be checked") {
  CHECK(doubts(learn_from({"80", "109"})).find("36 %") != std::string::npos);
  CHECK(before_loads::find_jump(learn_from({"80", "77.5", "97.5"})));  // 97.5 / 80: 22 %
  CHECK(!before_loads::find_jump(learn_from({"80", "77.5", "95"})));   // 19 %
  CHECK(!before_loads::find_jump(learn_from({"110", "80"})));
  CHECK(!before_loads::find_jump(learn_from({"110"})));
  CHECK(!before_loads::find_jump(learn_from({})));
}

TEST_CASE("a set without a rating says a jump by what was done alone") {
  CHECK(!before_loads::find_jump(learn_from({"80", "97.5"}, "6,")));  // 6 done, not 8
  CHECK(before_loads::find_jump(learn_from({"80", "110"}, "6,")));
}

TEST_CASE("a jump is seen on another variation too, by what that costs") {
  CHECK(before_loads::find_jump(learn_from({"80", "80", "105"}, "6,2", "feet up")));
  CHECK(!before_loads::find_jump(learn_from({"80", "80", "80"}, "6,2", "feet up")));
}
