// A top set with back-offs, ranges of reps and reserve, and ratings in place of reserve.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/block_plan.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/session.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);

SessionRequest top_set(int reps, double left) {
  return {.lift = lifts::squat,
          .date = today,
          .sets = Sets(1),
          .reps = Reps(reps),
          .reserve = RepsInReserve(left),
          .safeties = Safeties::checked};
}
SessionPlan planned(const SessionRequest& request, Mass max = 150_kg) {
  return plan_session(stated_lifter(lifts::squat, max), request).value();
}
std::string answer(std::string_view more) {
  return json::answer(R"({"version": 1, "lift": "squat", "date": "2026-11-25", "stated_max_kg": 150,
      "safeties": "checked", )" +
                      std::string(more) + "}");
}

}  // namespace

TEST_CASE("after a top set come lighter ones, by the drop or by what the day has left") {
  // [common practice, no source: a top set, then two or three sets about a tenth lighter]
  for (const double drop : {0.05, 0.10, 0.20}) {
    for (const int reps : {1, 3, 5, 8}) {
      CAPTURE(drop);
      CAPTURE(reps);
      SessionRequest request = top_set(reps, 2);
      request.back_offs = BackOffs{.sets = Sets(3), .drop = drop};
      const SessionPlan plan = planned(request);
      REQUIRE(plan.back_offs);
      const Mass load = plan.back_offs->set.with.load;
      CHECK(load <= plan.load() * (1.0 - drop) * (1 + 1e-9));
      CHECK(load > plan.load() * (1.0 - drop - 0.12));
      CHECK(plan.back_offs->set.sets == 3);
      CHECK(plan.back_offs->set.reps == Reps(reps));
      // Tired by the top set, the last of them still leaves what is asked for, within the bound.
      CHECK(plan.back_offs->reserve_left >= 2.0 - 1e-6);
      CHECK(plan.back_offs->chance_of_missing <= plan.max_chance_of_missing + 1e-9);
      // The top set is what it would be alone.
      CHECK(plan.load() == planned(top_set(reps, 2)).load());
    }
  }
  // More reps than a tenth allows: then the load goes by them.
  SessionRequest longer = top_set(1, 2);
  longer.back_offs = BackOffs{.sets = Sets(2), .drop = 0.05, .reps = 8_reps};
  CHECK(planned(longer).back_offs->set.with.load < planned(longer).load() * 0.85);
}

TEST_CASE("back-offs are asked what every set is asked") {
  // Alone, sets of ten leave four: a top set of three with two left is not enough to say.
  SessionRequest alone = top_set(3, 2);
  alone.safeties = Safeties::none;
  CHECK_FALSE(planned(alone).is_stopped());
  alone.back_offs = BackOffs{.reps = 10_reps};
  CHECK(planned(alone).is_stopped());
  CHECK_FALSE(planned(alone).back_offs);
  // All reps together.
  SessionRequest much = top_set(10, 2);
  much.sets = Sets(10);
  CHECK_FALSE(planned(much).is_stopped());
  much.back_offs = BackOffs{.sets = Sets(11)};
  CHECK(planned(much).cautions.front().key == "too_much_work");
  // After a layoff the session is an easy one, without them.
  SessionRequest back = top_set(3, 2);
  back.back_offs = BackOffs{};
  Lifter lifter = stated_lifter(lifts::squat, 150_kg);
  lifter.sets = {{.date = today - 40, .lift = lifts::squat, .load = 120_kg, .reps = 3_reps}};
  CHECK_FALSE(plan_session(lifter, back)->back_offs);
}

TEST_CASE(
    "a block has back-offs after its top sets, by the rule of a single "
    "session") {
  struct Row {
    std::string_view what;
    BackOffs asked;
    Safeties safeties;
    int days_off;  ///< 0: no log
    bool is_stopped;
    bool has_any_in_first;
  };
  const Row rows[] = {
      {"two, a tenth lighter", {}, Safeties::checked, 0, false, true},
      {"longer ones", {.sets = Sets(3), .reps = 8_reps}, Safeties::checked, 0, false, true},
      {"a great drop", {.drop = 0.25}, Safeties::checked, 0, false, true},
      {"sets of ten alone with two left", {.reps = 10_reps}, Safeties::none, 0, true, false},
      {"too much together", {.sets = Sets(50), .reps = 10_reps}, Safeties::checked, 0, true, false},
      {"the way back from a layoff", {}, Safeties::checked, 20, false, false},
      {"a hard session yesterday", {}, Safeties::checked, 1, false, false},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    Lifter lifter = stated_lifter(lifts::squat, 150_kg);
    if (row.days_off > 0) {
      lifter.sets.assign(3, {.date = today - row.days_off,
                             .lift = lifts::squat,
                             .load = 120_kg,
                             .reps = 3_reps,
                             .reserve = Range<RepsInReserve>::exactly(2_rir)});
    }
    BlockRequest request{.lift = lifts::squat, .start = today};
    request.settings.sets = 1;
    request.settings.reps = 3_reps;
    request.back_offs = row.asked;
    request.safeties = row.safeties;
    const auto block = plan_block(lifter, request);
    REQUIRE(block.has_value());
    CHECK(block->is_stopped() == row.is_stopped);
    SessionRequest single = top_set(3, 3);
    single.back_offs = row.asked;
    single.safeties = row.safeties;
    const auto session = plan_session(lifter, single);
    if (row.is_stopped) continue;
    CHECK(block->sessions.front().back_offs.has_value() == row.has_any_in_first);
    REQUIRE(session->back_offs.has_value() == row.has_any_in_first);
    if (row.has_any_in_first) {
      CHECK(block->sessions.front().back_offs->set.with.load == session->back_offs->set.with.load);
      CHECK(block->sessions.front().back_offs->set.sets == session->back_offs->set.sets);
    }
    int found = 0;
    for (const BlockSession& each : block->sessions) {
      if (each.step.plan.stage != Stage::working) CHECK_FALSE(each.back_offs);
      if (!each.back_offs) continue;
      ++found;
      CHECK(each.back_offs->set.with.load <=
            each.step.loading.total() * (1.0 - row.asked.drop + 1e-9));
      CHECK(*each.back_offs->chance_of_missing <= block->max_chance_of_missing);
      CHECK(*each.back_offs->reserve_left >= each.step.plan.reserve.count() - 1e-6);
    }
    CHECK(found >= 6);
  }
}

TEST_CASE("when the top set is done, the back-offs are what is left") {
  SessionRequest request = top_set(3, 2);
  request.back_offs = BackOffs{.sets = Sets(3)};
  const Lifter lifter = stated_lifter(lifts::squat, 150_kg);
  const SessionPlan plan = planned(request);
  REQUIRE(plan.back_offs);
  const Mass top = plan.load();
  const Mass back_off = plan.back_offs->set.with.load;
  const auto done = [](Mass load, double left) {
    return LoggedSet{.date = today,
                     .lift = lifts::squat,
                     .load = load,
                     .reps = 3_reps,
                     .reserve = Range<RepsInReserve>::exactly(RepsInReserve(left))};
  };
  const auto missed = [&](Mass load) {
    LoggedSet set = done(load, 0);
    set.reserve.reset();
    set.outcome = Outcome::missed;
    return set;
  };
  struct Row {
    const char* what;
    std::vector<LoggedSet> done;
    int left;   // of the back-offs
    Mass most;  // of them
  };
  const std::vector<Row> rows{
      {"as planned", {done(top, 2)}, 3, back_off},
      {"a warm-up is no back-off", {done(back_off, 5), done(top, 2)}, 3, back_off},
      {"one back-off", {done(top, 2), done(back_off, 4)}, 2, back_off},
      {"all of them",
       {done(top, 2), done(back_off, 4), done(back_off, 4), done(back_off, 3)},
       0,
       Mass{}},
      {"a lighter top set", {done(top * 0.92, 2)}, 3, top * (0.92 * 0.9)},
      {"a heavier one changes nothing", {done(top + 5_kg, 1)}, 3, back_off},
      {"the top set was missed", {missed(top)}, 3, back_off},
      {"a back-off was missed", {done(top, 2), missed(back_off)}, 2, back_off * 0.95},
      {"a back-off left none", {done(top, 2), done(back_off, 0)}, 2, back_off - 2.5_kg},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const SessionPlan rest = replan(lifter, plan, row.done).value();
    CHECK(rest.work_sets == 0);
    CHECK(rest.sets.empty());
    REQUIRE(rest.back_offs.has_value() == (row.left > 0));
    if (row.left == 0) continue;
    CHECK(rest.back_offs->set.sets == row.left);
    CHECK(rest.back_offs->set.with.load <= row.most);
    CHECK(rest.back_offs->set.with.load > row.most * 0.85);
  }
}

TEST_CASE("a single after a top set is lighter, and no max attempt") {
  // Two sessions are too few for an attempt, and enough for sets of five that leave half a rep.
  std::vector<LoggedSet> log;
  for (const int day : {3, 10}) {
    log.push_back({.date = today - day,
                   .lift = lifts::squat,
                   .load = 100_kg,
                   .reps = 5_reps,
                   .reserve = Range<RepsInReserve>::exactly(2_rir)});
  }
  const LearntLifter lifter = learn_lifter(log, lifts::squat, today);
  SessionRequest request = top_set(5, 0.5);
  CHECK_FALSE(plan_session(lifter, request)->is_stopped());
  request.back_offs = BackOffs{.reps = 1_reps};
  CHECK_FALSE(plan_session(lifter, request)->is_stopped());
  CHECK(plan_session(lifter, top_set(1, 0.5))->is_stopped());
}

TEST_CASE("longer back-offs are no heavier than what was shown for their reps") {
  // Three reps were missed last time: eight are not planned with more than those asked for.
  SessionRequest request = top_set(3, 1);
  request.back_offs = BackOffs{.drop = 0.0, .reps = 8_reps};
  std::vector<LoggedSet> log;
  for (const int day : {3, 10, 17}) {
    log.push_back({.date = today - day, .lift = lifts::squat, .load = 100_kg, .reps = 8_reps});
  }
  log[0].outcome = Outcome::missed;
  const LearntLifter lifter = learn_lifter(log, lifts::squat, today);
  const SessionPlan plan = plan_session(lifter, request).value();
  REQUIRE(plan.back_offs);
  CHECK(plan.back_offs->set.with.load <= 100_kg);
}

TEST_CASE("a range is planned by its middle, and done from end to end") {
  // [common practice: 3 to 5 reps with 2 to 3 left]
  SessionRequest range = top_set(3, 2);
  range.most_reps = 5_reps;
  range.most_reserve = 3_rir;
  const SessionPlan plan = planned(range);
  CHECK(plan.reps == 3_reps);
  CHECK(plan.most_reps == 5_reps);
  CHECK(plan.reserve == 2_rir);
  SessionRequest middle = top_set(4, 2.5);
  CHECK(plan.load() == planned(middle).load());
  CHECK(plan.load() <= planned(top_set(3, 2)).load());
  CHECK(plan.load() >= planned(top_set(5, 3)).load());
  // Its hardest end is what must be safe: ten with two left alone is not.
  range.reps = 6_reps;
  range.most_reps = 10_reps;
  range.safeties = Safeties::none;
  CHECK(planned(range).is_stopped());
}

TEST_CASE("a rating may be given wherever reps left may, and is given back") {
  // RPE 8 is 2 left, 8.5 is 1.5 [the scale: core/effort.hpp].
  const auto same = [](std::string_view by_rating, std::string_view by_left) {
    const std::string a = answer(by_rating);
    CHECK(a.find("\"outcome\":\"plan\"") != std::string::npos);
    CHECK(a == answer(by_left));
  };
  same(R"("ask": "plan_session", "rpe": 8)", R"("ask": "plan_session", "left": 2)");
  same(R"("ask": "plan_session", "rpe": 8.5, "rpe_from": 7)",
       R"("ask": "plan_session", "left": 1.5, "left_to": 3)");
  same(R"("ask": "plan_block", "first_rpe": 7, "last_rpe": 8, "retest_rpe": 8)",
       R"("ask": "plan_block", "first_left": 3, "last_left": 2, "retest_left": 2)");
  CHECK(answer(R"("ask": "plan_session", "rpe": 8)").find(R"("stop_at_rpe":8)") !=
        std::string::npos);
  CHECK(answer(R"("ask": "plan_session", "rpe": 8, "left": 2)").find("must not be given beside") !=
        std::string::npos);
  CHECK(answer(R"("ask": "plan_session", "rpe": 4)").find("bad_request") != std::string::npos);
  CHECK(answer(R"("ask": "plan_session", "left": 2, "left_to": 1)").find("bad_request") !=
        std::string::npos);
  CHECK(answer(R"("ask": "plan_session", "reps": 5, "reps_to": 3)").find("bad_request") !=
        std::string::npos);
  // What cannot be rated has no rating.
  CHECK(answer(R"("ask": "plan_session", "left": 7)").find("stop_at_rpe") == std::string::npos);
}

TEST_CASE("a block rises, goes in steps or in waves, and ends at its hardest week") {
  // [common practice, no source] Reps left in eight working weeks from 4 to 1.
  struct Row {
    BlockShape shape;
    std::vector<double> left;
  };
  const Row rows[] = {
      {BlockShape::rising, {4, 4, 3.5, 3, 2.5, 2, 1.5, 1}},
      {BlockShape::steps, {4, 4, 3, 3, 2, 2, 1, 1}},
      {BlockShape::waves, {4, 2.5, 1, 3, 2, 1, 2, 1}},
  };
  for (const Row& row : rows) {
    const Lifter lifter = stated_lifter(lifts::squat, 150_kg);
    const auto plan = plan_block(lifter, {.lift = lifts::squat,
                                          .start = today,
                                          .settings = {.sessions_a_week = 1,
                                                       .working_weeks = 8,
                                                       .first_reserve = 4_rir,
                                                       .last_reserve = 1_rir,
                                                       .shape = row.shape,
                                                       .has_deload = false,
                                                       .has_retest = false},
                                          .safeties = Safeties::checked});
    REQUIRE(plan.has_value());
    REQUIRE(plan->sessions.size() == 8);
    for (std::size_t i = 0; i < 8; ++i) {
      CAPTURE(i);
      CHECK(plan->sessions[i].step.plan.reserve.count() == row.left[i]);
      CHECK(plan->sessions[i].date == today + 7 * static_cast<int>(i));
      if (i == 0) continue;
      const Mass before = plan->sessions[i - 1].step.loading.total();
      const Mass load = plan->sessions[i].step.loading.total();
      // A lighter week only where more is left.
      if (row.left[i] <= row.left[i - 1]) CHECK(load >= before);
    }
    CHECK(plan->sessions.back().step.loading.total() >=
          plan->sessions.front().step.loading.total());
  }
  CHECK(answer(R"("ask": "plan_block", "shape": "waves", "working_weeks": 6)")
            .find(R"("outcome":"plan")") != std::string::npos);
}
