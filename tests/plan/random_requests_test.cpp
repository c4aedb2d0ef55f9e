// 450 sessions asked for at random, and the rest of each after some of its sets, every answer held
// against rules written apart from the planner (random_requests.hpp).
#include "plan/random_requests.hpp"

#include <doctest/doctest.h>

using namespace barwright_test::random_requests;

namespace {

struct Case {
  Somebody who;
  SessionRequest request;
};

Case drawn(Draw& draw) {
  const Kind& kind = draw.one_of(kinds());
  Case drawn{.who = drawn_lifter(draw, kind), .request = {.lift = kind.lift, .date = today}};
  SessionRequest& request = drawn.request;
  request.sets = Sets(draw.whole(1, 6));
  request.reps = Reps(draw.chance(0.8) ? draw.whole(1, 10) : draw.whole(11, 20));
  request.reserve = RepsInReserve(draw.halves(0, 4));
  draw_circumstances(draw, request);
  if (draw.chance(0.2)) request.most_reps = Reps(request.reps.count() + draw.whole(0, 4));
  if (draw.chance(0.2)) {
    request.most_reserve = RepsInReserve(request.reserve.count() + draw.halves(0.5, 2));
  }
  if (draw.chance(0.3)) {
    request.back_offs = BackOffs{.sets = Sets(draw.whole(1, 4)), .drop = draw.between(0, 0.25)};
    if (draw.chance(0.5)) request.back_offs->reps = Reps(draw.whole(1, 12));
  }
  return drawn;
}

/// Of a range the most.
int most_reps(const SessionRequest& asked) { return asked.most_reps.value_or(asked.reps).count(); }
int back_off_reps(const SessionRequest& asked) {
  return asked.back_offs->reps.value_or(Reps(most_reps(asked))).count();
}
int all_reps(const SessionRequest& asked) {
  const int top = asked.sets.count() * most_reps(asked);
  return asked.back_offs ? top + asked.back_offs->sets.count() * back_off_reps(asked) : top;
}
/// A range from one rep on may end as one.
bool is_attempt(const SessionRequest& asked) {
  return asked.reps.count() == 1 && asked.reserve.count() < 1.0;
}

/// Whether the session should not be done as asked.
bool must_stop(const Case& drawn, const SessionPlan& plan) {
  const SessionRequest& asked = drawn.request;
  const Past past = past_of(drawn.who);
  const bool is_introduced = plan.introduction.has_value();
  const bool is_new = plan.earlier_sessions < 4;
  if (past.hurt || all_reps(asked) > (asked.reserve.count() < 1.0 ? 60 : 200)) return true;
  if (is_attempt(asked) && !is_introduced && (is_new || past.gap > 0)) return true;
  if (is_caught(*drawn.who.kind, asked)) return false;
  if (is_introduced) {
    const Exposure& today = *plan.exposure();
    return today.least_reserve.count() < must_be_left(today.reps.count(), is_new);
  }
  int longest = most_reps(asked);
  if (asked.back_offs) longest = std::max(longest, back_off_reps(asked));
  return asked.reserve.count() < must_be_left(longest, is_new) || is_attempt(asked);
}

void check_back_offs(Faults& faults, const Case& drawn, const SessionPlan& plan, Mass top) {
  if (!plan.back_offs) return;
  const SessionRequest& asked = drawn.request;
  faults.hold(asked.back_offs.has_value(), "back-offs that nobody asked for");
  if (!asked.back_offs) return;
  const PlannedSet& after = plan.back_offs->set;
  check_loaded(faults, after.with, asked.room, drawn.who);
  faults.hold(after.with.load <= top * (1.0 - asked.back_offs->drop) * (1 + 1e-9),
              "back-offs that are too heavy");
  faults.hold(after.reps.count() == back_off_reps(asked), "other back-offs than asked for");
  faults.hold(after.sets <= asked.back_offs->sets.count(), "more back-offs than asked for");
  faults.hold(plan.back_offs->chance_of_missing <= plan.max_chance_of_missing + 1e-6,
              "a back-off likelier to be missed than the bound");
  const double most = most_shown(drawn.who, after.reps.count());
  faults.hold(most == 0.0 || after.with.load.kg() <= 1.1 * most + 1e-6,
              "back-offs more than a tenth above what was shown");
}

void check_load(Faults& faults, const Case& drawn, const SessionPlan& plan) {
  const SessionRequest& asked = drawn.request;
  const double most = most_shown(drawn.who, asked.reps.count());
  if (most > 0.0 && !plan.introduction) {
    faults.hold(plan.load().kg() <= 1.1 * most + 1e-6, "more than a tenth above what was shown");
  }
  for (const double chance : plan.chances_of_missing) {
    faults.hold(chance <= plan.max_chance_of_missing + 1e-6,
                "a set likelier to be missed than the bound");
  }
  faults.hold(plan.max_chance_of_missing <= 0.20 + 1e-9, "a loose bound that nobody asked for");
  if (!is_caught(*drawn.who.kind, asked)) {
    faults.hold(plan.max_chance_of_missing <= 0.05 + 1e-9, "a loose bound alone");
  }
  if (plan.introduction) return;
  faults.hold(plan.reserve >= asked.reserve, "less left than asked for");
  faults.hold(plan.work_sets <= asked.sets.count(), "more sets than asked for");
  faults.hold(plan.reps >= asked.reps && plan.reps.count() <= most_reps(asked),
              "other reps than asked for");
  if (plan.most_reps) {
    faults.hold(plan.reps == asked.reps && plan.most_reps == asked.most_reps, "another range");
  }
}

/// What the answer says must not speak against itself.
void check_contradictions(Faults& faults, const Case& drawn, const SessionPlan& plan) {
  const SessionRequest& asked = drawn.request;
  const Past past = past_of(drawn.who);
  if (plan.progress == Progress::exceeded || plan.progress == Progress::exceeded_twice) {
    faults.hold(plan.load() > plan.last->top.load || plan.reps > plan.last->top.reps,
                "time to add load, and none is added");
    faults.hold(!plan.recovery.is_too_soon(), "time to add load without recovery");
    faults.hold(past.gap == 0, "time to add load after a layoff");
  }
  const bool is_way_back = past.gap > 0 && !plan.introduction;
  if (is_way_back) {
    faults.hold(plan.reserve.count() >= (past.days_back < 7 ? 4.0 : 3.0),
                "too little left after a layoff");
    faults.hold(asked.sets.count() <= 2 || plan.work_sets < asked.sets.count(),
                "all sets after a layoff");
  }
  const bool is_eased = plan.recovery.is_too_soon() || is_way_back;
  for (const Alternative& other : plan.alternatives) {
    check_loaded(faults, other.with, asked.room, drawn.who);
    const bool is_below = other.kind == Alternative::Kind::step_below;
    const bool is_above = other.kind == Alternative::Kind::step_above;
    faults.hold(!is_below || other.with.load < plan.load(), "below");
    faults.hold(!is_above || other.with.load > plan.load(), "above");
    faults.hold(!is_above || !is_eased, "a step up beside a warning");
  }
  faults.hold(!(is_eased || plan.introduction) || !plan.back_offs, "back-offs in an easy session");
  if (plan.recovery.is_too_soon()) {
    faults.hold(plan.reserve.count() >= 4.0 || plan.introduction, "a hard session too soon");
    faults.hold(!plan.next, "a next load after an easy session");
  }
}

/// Everything wrong with an answer; nothing where a coach would hand it out.
std::string faults_of(const Case& drawn, const SessionPlan& plan) {
  Faults faults;
  const bool is_due = must_stop(drawn, plan);
  if (plan.is_stopped()) {
    faults.hold(is_due || has_doubt(plan.cautions), "a stop without a reason");
    faults.hold(plan.sets.empty() && plan.alternatives.empty() && !plan.next && !plan.back_offs,
                "a load under a stop");
    faults.hold(!plan.remedies.empty(), "no way out of a stop");
    return faults.text();
  }
  faults.hold(!is_due, "no stop where one is due");
  faults.hold(names_a_coach(plan.cautions), "no word of a coach");
  check_way_up(faults, plan.sets, drawn.request.room, drawn.who);
  check_load(faults, drawn, plan);
  Mass top = plan.load();
  if (plan.sets.empty()) {  // the log of the day has the top sets
    faults.hold(plan.sets_done > 0, "no sets, and none were done");
    for (const LoggedSet& set : plan.today) {
      if (set.lift.same_as(plan.request.lift)) top = std::max(top, set.load);
    }
  }
  check_back_offs(faults, drawn, plan, top);
  check_contradictions(faults, drawn, plan);
  return faults.text();
}

/// Some sets of the plan as they may have gone.
std::vector<LoggedSet> drawn_start(Draw& draw, const SessionPlan& plan) {
  std::vector<LoggedSet> done;
  const int all = plan.work_sets + (plan.back_offs ? plan.back_offs->set.sets : 0);
  for (int i = draw.whole(1, all); i > 0; --i) {
    const bool is_top = static_cast<int>(done.size()) < plan.work_sets;
    const PlannedSet& set = is_top ? plan.sets.back() : plan.back_offs->set;
    done.push_back(
        {.date = today, .lift = plan.request.lift, .load = set.with.logged(), .reps = set.reps});
    if (draw.chance(0.2)) {
      done.back().outcome = Outcome::missed;
    } else if (draw.chance(0.9)) {
      done.back().reserve = Range<RepsInReserve>::exactly(RepsInReserve(draw.halves(0, 5)));
    }
    done.back().has_pain = draw.chance(0.03);
  }
  return done;
}

/// Everything wrong with the rest of a session.
std::string faults_of_rest(const Case& drawn, const SessionPlan& plan, const SessionPlan& rest,
                           const std::vector<LoggedSet>& done) {
  Faults faults;
  const bool hurts =
      std::any_of(done.begin(), done.end(), [](const LoggedSet& set) { return set.has_pain; });
  faults.hold(rest.is_stopped() == hurts, hurts ? "it goes on in pain" : "a stop that was none");
  if (rest.is_stopped()) {
    faults.hold(rest.sets.empty() && !rest.back_offs, "a load under a stop");
    return faults.text();
  }
  const int sets = static_cast<int>(done.size());
  const int left = std::max(plan.work_sets - sets, 0);
  faults.hold(rest.work_sets == left, "another number of sets");
  faults.hold(rest.sets.size() == (left > 0 ? 1U : 0U), "a warm-up between work sets");
  const int back_offs = plan.back_offs ? plan.back_offs->set.sets : 0;
  if (plan.back_offs && sets < plan.work_sets + back_offs) {
    faults.hold(!rest.back_offs ||
                    rest.back_offs->set.sets == back_offs - std::max(sets - plan.work_sets, 0),
                "another number of back-offs");
  } else {
    faults.hold(!rest.back_offs, "back-offs after the last");
  }
  std::vector<LoadedWith> loads;
  if (left > 0) {
    loads.push_back(rest.sets.back().with);
    faults.hold(rest.load() <= plan.load(), "heavier than the session began");
  }
  if (rest.back_offs) loads.push_back(rest.back_offs->set.with);
  check_back_offs(faults, drawn, rest, left > 0 ? rest.load() : plan.load());
  for (const LoadedWith& load : loads) {
    check_loaded(faults, load, drawn.request.room, drawn.who);
    for (const LoggedSet& set : done) {
      if (set.outcome == Outcome::completed) continue;
      const double missed = set.load.kg() + drawn.who.moved;
      faults.hold(load.load.kg() <= 0.95 * missed + 1e-6, "a missed load again");
    }
  }
  return faults.text();
}

}  // namespace

TEST_CASE("450 sessions drawn at random, and the rest of each: none a coach would not hand out") {
  std::map<std::string, int> count;
  std::string found;
  for (std::uint32_t seed = 1; seed <= 450; ++seed) {
    Draw draw(seed);
    const Case asked = drawn(draw);
    const auto note = [&](const std::string& wrong) {
      if (wrong.empty()) return;
      found += "seed " + std::to_string(seed) + ", " + asked.request.lift.name().str() + ": " +
               wrong + "\n";
    };
    const LearntLifter lifter = asked.who.learnt();
    const auto plan = plan_session(lifter, asked.request);
    if (!plan) {
      ++count["refusals"];
      if (!is_known(plan.refusal().code, asked.who)) {
        note("refused: " + std::string(name(plan.refusal().code)));
      }
      continue;
    }
    ++count[plan->is_stopped() ? "stops" : "plans"];
    note(faults_of(asked, *plan));
    if (plan->is_stopped()) continue;
    if (plan->back_offs) ++count["back-offs"];
    if (plan->most_reps) ++count["ranges"];
    if (asked.who.moved > 0.0) ++count["belts"];
    const std::vector<LoggedSet> done = drawn_start(draw, *plan);
    const auto rest = replan(lifter, *plan, done);
    if (!rest) {
      // After a miss the room may have nothing lighter.
      if (!is_known(rest.refusal().code, asked.who)) note("the rest was refused");
      continue;
    }
    ++count["rests"];
    note(faults_of_rest(asked, *plan, *rest, done));
  }
  CHECK(found == "");
  // Each kind of answer was drawn, and enough of it.
  CHECK(count["plans"] > 100);
  CHECK(count["stops"] > 30);
  CHECK(count["refusals"] < 60);
  CHECK(count["back-offs"] > 20);
  CHECK(count["ranges"] > 10);
  CHECK(count["belts"] > 10);
  CHECK(count["rests"] > 90);
}
