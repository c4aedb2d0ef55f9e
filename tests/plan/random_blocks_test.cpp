// Blocks and attempts on test day asked for at random, every answer held against rules written
// apart from the planner (random_requests.hpp).
#include <doctest/doctest.h>

#include "barwright/plan/attempts.hpp"
#include "barwright/plan/block_plan.hpp"
#include "plan/random_requests.hpp"

using namespace barwright_test::random_requests;

namespace {

// ---- attempts -----------------------------------------------------------------------------------

std::string faults_of(const Somebody& who, const AttemptsPlan& plan) {
  Faults faults;
  const AttemptsRequest& asked = plan.request;
  const Past past = past_of(who);
  const bool is_due = past.hurt || past.missed_today || !is_caught(*who.kind, asked) ||
                      past.gap > 0 || plan.earlier_sessions < 4;
  if (plan.is_stopped()) {
    faults.hold(is_due || has_doubt(plan.cautions), "a stop without a reason");
    faults.hold(plan.attempts.empty() && plan.sets.empty(), "a load under a stop");
    faults.hold(!plan.remedies.empty(), "no way out of a stop");
    return faults.text();
  }
  faults.hold(!is_due, "no stop where one is due");
  faults.hold(names_a_coach(plan.cautions), "no word of a coach");
  faults.hold(!plan.attempts.empty() && plan.attempts.size() <= 3, "not one to three attempts");
  check_way_up(faults, plan.sets, asked.room, who);
  faults.hold(plan.sets.back().with.load == plan.attempts.front().with.load,
              "the way up does not end at the opener");
  // The likeliest max, as the log says what the lifter did: half above it, half below.
  const Mass third = plan.attempts.back().with.load;
  faults.hold(third <= plan.max.median(), "a third attempt above the likeliest max");
  const double most = most_shown(who, 1);
  faults.hold(most == 0.0 || third.kg() <= 1.1 * most + 1e-6,
              "a third attempt more than a tenth above what was shown");
  Mass before{};
  double chance_before = 0.94 + 1e-9;  // 6 % go to referees and technique
  for (const Attempt& attempt : plan.attempts) {
    check_loaded(faults, attempt.with, asked.room, who);
    faults.hold(attempt.with.load > before, "attempts do not rise");
    faults.hold(attempt.chance_of_success <= chance_before, "a heavier attempt is likelier");
    before = attempt.with.load;
    chance_before = attempt.chance_of_success;
  }
  faults.hold(plan.attempts.front().chance_of_success >= 0.97 * 0.94 - 1e-6, "a bold opener");
  faults.hold(plan.attempts.front().with.load <= 0.92 * plan.max.median(), "a heavy opener");
  return faults.text();
}

// ---- blocks -------------------------------------------------------------------------------------

BlockRequest drawn_block(Draw& draw, const Kind& kind) {
  BlockRequest request{.lift = kind.lift, .start = today};
  BlockSettings& settings = request.settings;
  settings.sessions_a_week = draw.whole(1, 4);
  settings.working_weeks = draw.whole(1, 9);
  settings.sets = draw.whole(1, 5);
  settings.reps = Reps(draw.whole(1, 12));
  const double first = draw.halves(1, 5);
  settings.first_reserve = RepsInReserve(first);
  settings.last_reserve = RepsInReserve(draw.halves(0, first));
  settings.shape = draw.one_of(
      std::vector<BlockShape>{BlockShape::rising, BlockShape::steps, BlockShape::waves});
  settings.has_deload = draw.chance(0.7);
  settings.deload_cut = draw.between(0.05, 0.3);
  settings.has_retest = draw.chance(0.7);
  settings.retest_reps = Reps(draw.whole(1, 6));
  settings.retest_reserve = RepsInReserve(draw.halves(1, 3));
  draw_circumstances(draw, request);
  return request;
}

/// What the hardest working week is to leave: a single one is the first.
double least_left(const BlockSettings& asked) {
  return (asked.working_weeks == 1 ? asked.first_reserve : asked.last_reserve).count();
}

/// The first session of each working week.
std::vector<BlockSession> weeks_of(const BlockPlan& plan) {
  std::vector<BlockSession> weeks;
  for (const BlockSession& session : plan.sessions) {
    if (session.step.plan.stage != Stage::working) continue;
    if (weeks.empty() || weeks.back().step.plan.week != session.step.plan.week) {
      weeks.push_back(session);
    }
  }
  return weeks;
}

/// How the effort goes through the weeks, where nothing else decides it: a block that begins with
/// an introduction, a layoff or too soon has its own first weeks.
void check_shape(Faults& faults, const BlockPlan& plan) {
  const std::vector<BlockSession> weeks = weeks_of(plan);
  const BlockSettings& asked = plan.request.settings;
  faults.hold(static_cast<int>(weeks.size()) == asked.working_weeks, "another number of weeks");
  if (weeks.empty()) return;
  const auto left = [&](std::size_t week) { return weeks[week].step.plan.reserve.count(); };
  faults.hold(left(0) == asked.first_reserve.count(), "another beginning than asked for");
  faults.hold(weeks.size() == 1 || left(weeks.size() - 1) == asked.last_reserve.count(),
              "another end than asked for");
  for (std::size_t week = 1; week < weeks.size(); ++week) {
    const bool is_last = week + 1 == weeks.size();
    const bool falls = left(week) <= left(week - 1);
    switch (asked.shape) {
      case BlockShape::rising: faults.hold(falls, "a rising block eases off"); break;
      case BlockShape::steps:
        faults.hold(falls, "a block in steps eases off");
        faults.hold(week % 2 == 0 || is_last || left(week) == left(week - 1), "a step of one week");
        break;
      case BlockShape::waves:
        faults.hold(week % 3 == 0 || falls, "a wave eases off before its end");
        faults.hold(week < 3 || left(week) <= left(week - 3), "a later wave is easier");
        break;
    }
    if (asked.shape == BlockShape::waves) continue;
    faults.hold(weeks[week].step.loading.total() >= weeks[week - 1].step.loading.total(),
                "loads fall while the effort rises");
  }
}

void check_sessions(Faults& faults, const Somebody& who, const BlockPlan& plan) {
  const BlockSettings& asked = plan.request.settings;
  double most = most_shown(who, asked.reps.count());
  const double most_in_test = std::max(most, most_shown(who, asked.retest_reps.count()));
  double last_work = 0.0;
  Date before = today - 1;
  for (const BlockSession& session : plan.sessions) {
    const StepPlan& step = session.step.plan;
    const double load = session.step.loading.total().kg();
    faults.hold(session.date > before, "two sessions on one day");
    before = session.date;
    faults.hold(is_caught(*who.kind, plan.request) ||
                    step.reserve.count() >= must_be_left(step.reps.count(), false),
                "too little left alone");
    check_loaded(faults, {.load = session.step.loading.total(), .bar = session.step.loading},
                 plan.request.room, who);
    const bool is_test = step.stage == Stage::retest;
    if (!is_test) {
      faults.hold(session.chance_of_missing <= plan.max_chance_of_missing + 1e-6,
                  "a session likelier to be missed than the bound");
      faults.hold(step.sets <= asked.sets || step.stage == Stage::introduction,
                  "more sets than asked for");
    }
    const double shown = is_test ? std::max(most, most_in_test) : most;
    faults.hold(shown == 0.0 || load <= 1.1 * shown + 1e-6, "more than a tenth above all before");
    if (step.stage == Stage::working) {
      faults.hold(step.reserve >= asked.last_reserve, "less left than asked for");
      last_work = load;
    }
    if (step.stage == Stage::deload) {
      const double empty = plan.request.room.empty_bar().total().kg();
      faults.hold(load < last_work || load <= empty + 1e-6, "a deload that is none");
      faults.hold(step.sets <= asked.sets, "a deload with more sets");
    }
    most = std::max(most, load);
  }
}

/// Whether a block has its own first weeks: an introduction, a layoff, too soon after the log.
bool is_eased(const Somebody& who, const BlockPlan& plan) {
  return past_of(who).gap > 0 || plan.recovery.is_too_soon() ||
         plan.has_stage(Stage::introduction) || plan.earlier_sessions < 4;
}

bool must_stop(const Somebody& who, const BlockPlan& plan) {
  const BlockSettings& asked = plan.request.settings;
  const int reps = asked.sets * asked.reps.count();
  if (past_of(who).hurt || reps > (asked.last_reserve.count() < 1.0 ? 60 : 200)) return true;
  if (is_caught(*who.kind, plan.request) || is_eased(who, plan)) return false;
  return least_left(asked) < must_be_left(asked.reps.count(), false) ||
         (asked.reps.count() == 1 && least_left(asked) < 1.0);
}

/// What may be a reason to stop: the first sessions ask for more, and so does a test.
bool may_stop(const Somebody& who, const BlockPlan& plan) {
  const BlockSettings& asked = plan.request.settings;
  const bool has_attempt = asked.reps.count() == 1 && least_left(asked) < 1.0;
  if (must_stop(who, plan) || has_doubt(plan.cautions) || has_attempt) return true;
  if (past_of(who).sets_today >= asked.sets) return true;  // the day is done
  if (is_caught(*who.kind, plan.request)) return false;
  // A test goes on to its reserve, as many reps as that may be.
  return least_left(asked) < must_be_left(asked.reps.count(), true) || asked.has_retest;
}

std::string faults_of(const Somebody& who, const BlockPlan& plan) {
  Faults faults;
  if (plan.is_stopped()) {
    faults.hold(may_stop(who, plan), "a stop without a reason");
    faults.hold(plan.sessions.empty(), "a load under a stop");
    faults.hold(!plan.remedies.empty(), "no way out of a stop");
    return faults.text();
  }
  faults.hold(!must_stop(who, plan), "no stop where one is due");
  faults.hold(names_a_coach(plan.cautions), "no word of a coach");
  check_sessions(faults, who, plan);
  if (!is_eased(who, plan)) check_shape(faults, plan);
  return faults.text();
}

template <class Request, class Plan>
void check_all(std::uint32_t first_seed, int most_refusals, const Request& request,
               const Plan& plan_for) {
  std::map<std::string, int> count;
  std::string found;
  for (std::uint32_t seed = first_seed; seed < first_seed + 200; ++seed) {
    Draw draw(seed);
    const Kind& kind = draw.one_of(kinds());
    const Somebody who = drawn_lifter(draw, kind);
    const auto asked = request(draw, kind);
    const LearntLifter lifter = who.learnt();
    const auto plan = plan_for(lifter, asked);
    std::string wrong;
    if (plan) {
      ++count[plan->is_stopped() ? "stops" : "plans"];
      wrong = faults_of(who, *plan);
    } else {
      ++count["refusals"];
      const RefusalCode code = plan.refusal().code;
      const bool has_bar = kind.lift.dumbbells() == 0 && !kind.lift.base().has_stack;
      const bool is_right = is_known(code, who) ||
                            (code == RefusalCode::no_bar_in_block && !has_bar) ||
                            (code == RefusalCode::bodyweight_lift && who.moved > 0.0);
      if (!is_right) wrong = "refused: " + std::string(name(code));
    }
    if (wrong.empty()) continue;
    found += "seed " + std::to_string(seed) + ", " + kind.lift.name().str() + ": " + wrong + "\n";
  }
  CHECK(found == "");
  CHECK(count["plans"] > 40);
  CHECK(count["stops"] > 20);
  CHECK(count["refusals"] < most_refusals);
}

}  // namespace

TEST_CASE("200 test days drawn at random: rising attempts that a coach would hand in") {
  check_all(
      10'000, 40,
      [](Draw& draw, const Kind& kind) {
        AttemptsRequest request{.lift = kind.lift, .date = today};
        draw_circumstances(draw, request);
        return request;
      },
      plan_attempts);
}

TEST_CASE("200 blocks drawn at random: weeks in the shape asked for, no leap and no fall") {
  check_all(20'000, 90, drawn_block, [](const Lifter& lifter, const BlockRequest& request) {
    return plan_block(lifter, request);
  });
}
