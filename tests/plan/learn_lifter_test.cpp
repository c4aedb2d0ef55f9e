#include "barwright/plan/learn_lifter.hpp"

#include <doctest/doctest.h>

#include <vector>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/session.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);

/// Sessions of three sets, so many days apart, the last of them `gap` days ago. Invented.
std::vector<LoggedSet> trained(int sessions, int every, double kg_a_session, Reps reps, int gap) {
  std::vector<LoggedSet> log;
  for (int session = 0; session < sessions; ++session) {
    const int days_ago = gap + every * (sessions - 1 - session);
    const Mass load = rounded(Mass::from_kg(60.0 + kg_a_session * session), 2.5_kg);
    log.insert(log.end(), 3,
               {.date = today - days_ago,
                .lift = lifts::squat,
                .load = load,
                .reps = reps,
                .reserve = Range<RepsInReserve>::exactly(2_rir)});
  }
  return log;
}

double planned(const std::vector<LoggedSet>& log, Experience experience, Reps reps) {
  const auto lifter = learn_lifter(log, lifts::squat, today, {.experience = experience});
  return plan_session(lifter,
                      {.lift = lifts::squat, .date = today, .reps = reps, .has_spotter = true})
      ->load()
      .kg();
}

}  // namespace

TEST_CASE("after a gap a beginner lifts no more than anybody with that log, nor more than before" *
          doctest::test_suite("slow")) {
  // [assumption: a beginner's gain comes with the sessions] It was up to 5 % heavier for the flag.
  struct Row {
    int sessions;
    int every;
    double kg_a_session;
    Reps reps;
  };
  const Row rows[] = {
      {1, 3, 0.0, 5_reps},  {2, 3, 0.0, 8_reps}, {5, 3, 2.5, 5_reps},
      {9, 3, 1.25, 8_reps}, {9, 7, 2.5, 5_reps},
  };
  for (const Row& row : rows) {
    CAPTURE(row.sessions);
    CAPTURE(row.every);
    double before = 1e9;
    for (const int gap : {10, 12, 14, 15, 20, 28, 29, 45, 60}) {
      CAPTURE(gap);
      const auto log = trained(row.sessions, row.every, row.kg_a_session, row.reps, gap);
      const double load = planned(log, Experience::novice, row.reps);
      CHECK(load <= planned(log, Experience::experienced, row.reps));
      CHECK(load <= before);
      before = load;
    }
  }
}

TEST_CASE("a beginner's gain is counted from session to session, and ends with the sessions") {
  const auto log = trained(5, 3, 2.5, 5_reps, 10);
  const auto beginner = learn_lifter(log, lifts::squat, today, {.experience = Experience::novice});
  const auto max = [&](const Lifter& lifter, int days) {
    return lifter.strength->max(lifts::squat, today + days).median();
  };
  CHECK(max(beginner, 4) <= max(beginner, 0));
  CHECK(max(beginner, 0) < beginner.fit->max(lifts::squat, today).median());
  // In training it is counted, and can be counted for longer.
  const auto in_training = learn_lifter(trained(5, 3, 2.5, 5_reps, 3), lifts::squat, today,
                                        {.experience = Experience::novice});
  CHECK(max(in_training, 4) > max(in_training, 0));
  LifterFacts facts{.experience = Experience::novice};
  facts.rules.novice_gain_days = 14;
  CHECK(max(learn_lifter(log, lifts::squat, today, facts), 0) > max(beginner, 0));
}
