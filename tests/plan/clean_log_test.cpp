// tests/plan/clean_log_test.cpp - a log written clean plans what the log as it was kept plans
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "barwright/log/log_reader.hpp"
#include "barwright/log/log_writer.hpp"
#include "barwright/planning.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

std::string example(const std::string& name) {
  std::ifstream file(std::string(BARWRIGHT_TEST_DATA) + "/../../examples/data/" + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

/// All that a plan decides and says, for every lifter and lift of a log, on its last day and some
/// days after.
std::vector<std::string> plans_from(const Log& log) {
  std::vector<std::string> plans;
  for (const std::string& lifter : log.lifters()) {
    const std::vector<LoggedSet> sets = log.sets_of(lifter);
    std::vector<Lift> lifts;
    Date last = sets.front().date;
    for (const LoggedSet& set : sets) {
      last = std::max(last, set.date);
      const Lift base(set.lift.base());
      if (!base.is_among(lifts)) lifts.push_back(base);
      if (!set.lift.is_among(lifts)) lifts.push_back(set.lift);
    }
    const LifterFacts facts{.body_mass = 80_kg, .noted = log.unread_of(lifter)};
    for (const Lift& lift : lifts) {
      for (const int days : {0, 2, 20}) {  // on the last day itself, soon, after a layoff
        const SessionRequest request{
            .lift = lift, .date = last + days, .safeties = Safeties::checked};
        const auto plan =
            plan_session(learn_lifter(sets, Lift(lift.base()), request.date, facts), request);
        std::string said = lifter + ", " + lift.name().str() + ": ";
        if (!plan) {
          plans.push_back(said + message(plan.refusal(), lift.name().str()));
          continue;
        }
        said += to_text(plan->load(), Unit::kg, 3).str() + " x " + std::to_string(plan->work_sets) +
                " by " + std::string(name(plan->limited_by));
        for (const Caution& caution : plan->cautions) {
          said += "; " + std::string(to_text(caution.severity)) + ": " + std::string(caution.text);
        }
        for (const Remedy remedy : plan->remedies) said += "; " + std::string(name(remedy));
        plans.push_back(said);
      }
    }
  }
  return plans;
}

}  // namespace

TEST_CASE(
    "a log written clean plans the loads, the cautions and the stops of the log as it was kept" *
    doctest::test_suite("slow")) {
  const std::string kept_by_hand =
      "Date;Athlete;Exercise;Weight (kg);Reps;RIR;Felt;Pain?\n"
      "14.09.2026;Ana;squats;100;3x5;2;;no\n"
      "17.09.2026;Ana;paused bench press;60;5,5,5;2-3;fine;\n"
      "21.09.2026;Ana;squats;102,5;3x5;2;;0\n"
      "24.09.2026;ana;BP;65;3x5;@8;;\n"
      "28.09.2026;Ana;low bar;105;3x5;2;;\n"
      "28.09.2026;Bo;DL;140;3x5;2;;\n"
      "01.10.2026;Bo;DL;142.5;5;1;dizzy after, sat down;\n"
      "01.10.2026;Bo;BP;90;3x5;2;;\n"
      "01.10.2026;Cy;BP;90;3x5;2;;left shoulder\n"
      "01.10.2026;Cy;squats;120;3x5;2;;\n"
      "02.10.2026;Cy;squats;120;five;2;;\n"
      "02.10.2026;Di;squats;80;3x5;2;;\n"
      "03.10.2026;Di;squats;80;0;;sharp pain, stopped;\n"
      "03.10.2026;Di;;;;;dizzy at home;\n"
      "03.10.2026;Ed;pull-up;10;3x5;2;elbow;\n"
      "04.10.2026;Ed;BP;70;5;;spotter took two;\n"
      "05.10.2026;Ed;BP;70;5;;dropped it;\n"
      "03.10.2026;Fay;BP;50;3x5;2;;\n"
      "06.10.2026;Fay;BP;55;five;;failed, sharp pain;\n";
  for (const std::string& raw : {kept_by_hand, example("rowing_club.csv"),
                                 example("rowing_club_untidy.csv"), example("slip.csv")}) {
    const Log log = read_log(raw);
    REQUIRE(log.failure == "");
    const Log clean = read_log(write_log(log));
    const auto by_raw = plans_from(log);
    CHECK(by_raw.size() > 2);
    CHECK(by_raw == plans_from(clean));
    // Clean, it is read without a word.
    CHECK(clean.refused() == 0);
  }
}
