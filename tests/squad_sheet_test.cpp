// What a coach writes down for a squad's day, and what comes of it. Lifters and sets are invented.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <barwright/log/log_reader.hpp>
#include <barwright/plan/learn_lifter.hpp>
#include <barwright/plan/session.hpp>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "squad_sheet/asked.hpp"
#include "squad_sheet/sheet.hpp"

using namespace barwright;

namespace {

const std::vector<std::string> both{"Ana", "Bo"};

squad_sheet::AskedTable asked(std::string_view text) {
  return squad_sheet::read_asked(text, both, {});
}

/// What is wrong with the only row that is.
std::string problem(std::string_view text) {
  const auto table = asked(text);
  CHECK(table.refused == 1);
  REQUIRE(table.reports.size() == 1);
  return table.reports[0].text;
}

constexpr std::string_view log_text =
    "date,lifter,lift,load,unit,reps,rir\n"
    "2026-11-12,Ana,pull-up,10,kg,6,2\n2026-11-16,Ana,pull-up,12.5,kg,6,2\n"
    "2026-11-12,Bo,pull-up,10,kg,6,2\n2026-11-16,Bo,pull-up,12.5,kg,6,2\n";

/// The sheet, as text.
std::string sheet(std::string_view asked_text, std::string_view log_of_all = log_text) {
  const Log log = read_log(log_of_all);
  const auto table = asked(asked_text);
  REQUIRE(table.failure == "");
  std::ostringstream text;
  const SessionRequest usual{
      .lift = table.rows.front().lift, .date = Date(2026, 11, 19), .safeties = Safeties::checked};
  squad_sheet::print_text(
      text, squad_sheet::plan_sheet(log, table, usual, "", RatingScale::reps_in_reserve));
  return text.str();
}

}  // namespace

TEST_CASE("what a lifter weighs stands beside a lift or alone, with its unit, and is said once") {
  for (const std::string_view name :
       {"body (kg)", "Body mass [kg]", "Bodyweight kg", "body-weight (KG)", "body_mass kg"}) {
    CAPTURE(name);
    const auto table = asked("lifter,lift,sets,reps," + std::string(name) + "\nana,dip,3,5,62.5\n");
    CHECK(table.body_of("Ana") == Mass::from_kg(62.5));
    CHECK_FALSE(table.body_of("Bo"));
    CHECK(table.rows.size() == 1);
  }
  const auto alone = asked("lifter;lift;sets;reps;body\nAna;;;;62,5 kg\nBo;;;;165 lb\n");
  CHECK(alone.body_of("Ana") == Mass::from_kg(62.5));
  CHECK(alone.body_of("Bo") == Mass::from_lb(165));
  CHECK(alone.rows.empty());
  CHECK(alone.refused == 0);
}

TEST_CASE("a body mass that is not known for certain is refused, and the lift beside it") {
  const std::string head = "lifter,lift,sets,reps,body\n";
  CHECK(problem(head + "Ana,dip,3,5,62.5\n").find("must have its unit") != std::string::npos);
  CHECK(problem(head + "Ana,dip,3,5,31 kg each\n").find("must be a number") != std::string::npos);
  CHECK(problem(head + "Ana,dip,3,5,0 kg\n").find("more than 0") != std::string::npos);
  CHECK(problem(head + ",dip,3,5,62 kg\n").find("beside the name") != std::string::npos);
  CHECK(problem(head + "Ana,dip,3,5,62 kg\nana,dip,3,5,26 kg\n").find("another line") !=
        std::string::npos);
  CHECK(asked(head + "Ana,dip,3,5,62.5\nBo,dip,3,5,\n").rows.size() == 1);
}

TEST_CASE("a lifter whom the log does not know is named, not passed over") {
  CHECK(problem("lifter,lift,sets,reps\nAnna,squat,3,5\n") ==
        "nobody in the log is called so; nearest: Ana or Bo");
}

TEST_CASE("a sheet quotes what hurt, with its lift and day, beside the lifter whom it hurt") {
  const std::string text =
      "date,lifter,lift,load,unit,reps,rir,note\n"
      "2026-11-12,Ana,squat,80,kg,6,2,\n2026-11-16,Ana,squat,80,kg,6,2,\n"
      "2026-11-17,Ana,overhead press,30,kg,6,2,left shoulder pain\n"
      "2026-11-12,Bo,squat,90,kg,6,2,\n2026-11-16,Bo,squat,90,kg,6,2,knee hurt\n";
  const std::string page = sheet("lifter,lift,sets,reps\n,squat,3,6\n", text);
  const auto flat = [](std::string wrapped) {  // without the breaks of lines
    std::string words;
    for (const char c : wrapped) {
      const char each = c == '\n' ? ' ' : c;
      if (each != ' ' || words.empty() || words.back() != ' ') words += each;
    }
    return words;
  };
  const std::string words = flat(page);
  CAPTURE(page);
  CHECK(words.find("2026-11-17, overhead press, 30 kg x 6, 2 RIR: \"left shoulder pain\"") !=
        std::string::npos);
  CHECK(words.find("2026-11-16, squat, 90 kg x 6, 2 RIR: \"knee hurt\"") != std::string::npos);
}

TEST_CASE("what is to be kept in mind for one lifter is not said to all who do the lift") {
  // The back squat is new to Bo; Ana has done it for weeks.
  std::string text = "date,lifter,lift,load,unit,reps,rir\n2026-11-16,Bo,front squat,60,kg,6,3\n";
  for (int day = 1; day < 17; day += 3) {
    text += "2026-11-" + std::string(day < 10 ? "0" : "") + std::to_string(day) +
            ",Ana,squat,80,kg,6,2\n";
  }
  const std::string asked_text = "lifter,lift,sets,reps\n,squat,3,6\n";
  const Log log = read_log(text);
  const auto table = squad_sheet::read_asked(asked_text, both, {});
  const SessionRequest usual{.lift = lifts::squat, .date = Date(2026, 11, 19)};
  const squad_sheet::Sheet planned =
      squad_sheet::plan_sheet(log, table, usual, "", RatingScale::reps_in_reserve);
  REQUIRE(planned.entries.size() == 2);
  const auto notes_of = [&](const squad_sheet::Entry& entry) {
    std::vector<std::string_view> notes;
    for (const Caution& caution : entry.result.plan->cautions) {
      if (caution.severity == Severity::note) notes.push_back(caution.text);
    }
    return notes;
  };
  int alone_of_all = 0;
  for (const squad_sheet::Entry& entry : planned.entries) {
    const squad_sheet::Entry& other = planned.entries[entry.lifter == "Bo" ? 1 : 0];
    for (const std::string_view note : notes_of(entry)) {
      const auto of_other = notes_of(other);
      const bool is_shared = std::find(of_other.begin(), of_other.end(), note) != of_other.end();
      const std::string alone = entry.lifter + ", squat: " + std::string(note);
      const auto lines = squad_sheet::to_keep_in_mind(planned);
      CAPTURE(note);
      alone_of_all += is_shared ? 0 : 1;
      CHECK((std::find(lines.begin(), lines.end(), alone) != lines.end()) == !is_shared);
    }
  }
  CHECK(alone_of_all > 0);
}

TEST_CASE("pull-ups are planned for those whose body mass is known: what hangs from the belt") {
  const std::string text = sheet("lifter,lift,sets,reps,body\n,pull-up,3,6,\nAna,,,,70 kg\n");
  CAPTURE(text);
  const LearntLifter ana =
      learn_lifter(read_log(log_text).sets_of("Ana"), lifts::pull_up, Date(2026, 11, 19),
                   {.ratings = RatingScale::reps_in_reserve, .body_mass = Mass::from_kg(70)});
  const auto plan = plan_session(ana, {.lift = lifts::pull_up, .date = Date(2026, 11, 19)});
  const std::string belt = to_text(plan->sets.back().with.logged(), Unit::kg, 2).str();
  CHECK(text.find("3 x 6 with " + belt + " on the belt") != std::string::npos);
  CHECK(text.find("warm-up the body alone x 5") != std::string::npos);
  CHECK(text.find("Bo\n  pull-up: no load. The pull-up moves the body") != std::string::npos);
}
