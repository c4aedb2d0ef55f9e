// 300 requests drawn at random, each answer held against rules written apart from the planner.
//
// Lifts, people, rooms and logs are drawn; the rules below are what a coach would check on paper,
// and call nothing of plan/ but the question itself. [common practice, but for the table of
// reserves alone, which is this library's: tests/training/alone_test.cpp]
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/curves/equations.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/session.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date today(2026, 11, 25);

/// The same numbers by every standard library.
class Draw {
 public:
  explicit Draw(std::uint32_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
  }
  int whole(int low, int high) { return low + static_cast<int>(between(0, high - low + 0.999)); }
  bool chance(double share) { return between(0, 1) < share; }

 private:
  std::mt19937 engine_;
};

struct Kind {
  Lift lift;
  double lightest_max;  // on the base lift, kilograms
  double heaviest_max;
  bool can_pin = true;
  bool safeties_catch = true;
  bool is_machine = false;
};

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all{
      {lifts::bench_press, 30, 180},
      {lifts::bench_press + modifiers::close_grip, 40, 160},
      {lifts::bench_press + modifiers::feet_up, 50, 160},
      {lifts::bench_press + modifiers::dumbbells, 40, 140, true, false},
      {lifts::squat, 40, 250},
      {lifts::squat + modifiers::front_squat, 60, 200},
      {lifts::overhead_press, 30, 100},
      {lifts::deadlift, 60, 300, false},
      {lifts::romanian_deadlift, 60, 200, false},
      {lifts::barbell_row, 40, 120, false},
      {lifts::leg_press, 80, 300, true, true, true},
  };
  return all;
}

const std::vector<Room>& rooms() {
  static const std::vector<Room> all{
      plate_sets::gym_kg,
      plate_sets::gym_lb,
      plate_sets::powerlifting,
      plate_sets::powerlifting_record,
      plate_sets::gym_kg.with(Bar(15, Unit::kg)),
      Room(Bar(20, Unit::kg), {Plate(20, Unit::kg, 2), Plate(10, Unit::kg, 2),
                               Plate(5, Unit::kg, 2), Plate(2.5, Unit::kg, 1)}),
  };
  return all;
}

struct Case {
  const Kind* kind = nullptr;
  double max = 0.0;  // of the base lift
  std::vector<LoggedSet> log{};
  SessionRequest request;
  bool is_stated = false;
};

/// Somebody who trained this lift, more or less often, more or less long ago.
std::vector<LoggedSet> drawn_log(Draw& draw, const Kind& kind, double max) {
  std::vector<LoggedSet> log;
  const double own = max * kind.lift.ratio(Mass::from_kg(max)).typical;
  const int sessions = draw.whole(1, 14);
  int day = draw.chance(0.25) ? draw.whole(15, 80) : draw.chance(0.15) ? 0 : draw.whole(1, 8);
  for (int session = 0; session < sessions; ++session) {
    const int reps = draw.whole(3, 10);
    const double effort = draw.between(0.86, 1.0);  // of what can be done
    const double load = own * equations::wathen.fraction(reps) * effort;
    const Mass mass = rounded(Mass::from_kg(load), 2.5_kg);
    const double can = reps_to_failure(anchored(equations::wathen), Mass::from_kg(own), mass);
    for (int set = draw.whole(1, 4); set > 0; --set) {
      LoggedSet done{.date = today - day, .lift = kind.lift, .load = mass, .reps = Reps(reps)};
      const double left = std::floor(2.0 * (can - reps + draw.between(-1, 1))) / 2.0;
      if (can < reps + 0.2 && draw.chance(0.5)) {
        done.outcome = Outcome::missed;
      } else if (draw.chance(0.9)) {
        done.reserve = Range<RepsInReserve>::exactly(RepsInReserve(std::clamp(left, 0.0, 8.0)));
      }
      done.has_pain = draw.chance(0.01);
      log.push_back(done);
    }
    day += draw.chance(0.1) ? draw.whole(15, 60) : draw.whole(2, 7);
  }
  return log;
}

Case drawn(std::uint32_t seed) {
  Draw draw(seed);
  const Kind& kind = kinds()[static_cast<std::size_t>(draw.whole(0, 10))];
  Case drawn{.kind = &kind,
             .max = draw.between(kind.lightest_max, kind.heaviest_max),
             .request = {.lift = kind.lift, .date = today}};
  drawn.is_stated = draw.chance(0.2);
  if (!drawn.is_stated || draw.chance(0.3)) drawn.log = drawn_log(draw, kind, drawn.max);
  SessionRequest& request = drawn.request;
  request.sets = Sets(draw.whole(1, 6));
  request.reps = Reps(draw.chance(0.8) ? draw.whole(1, 10) : draw.whole(11, 20));
  request.reserve = RepsInReserve(draw.whole(0, 8) / 2.0);
  request.room = rooms()[static_cast<std::size_t>(draw.whole(0, 5))];
  request.has_spotter = draw.chance(0.3);
  request.safeties = draw.chance(0.5)   ? Safeties::checked
                     : draw.chance(0.3) ? Safeties::unchecked
                                        : Safeties::none;
  return drawn;
}

// ---- the rules ----------------------------------------------------------------------------------

/// The least to leave where nothing would catch a miss; 99: not at all.
double must_be_left(int reps, bool is_new) {
  if (reps > 12) return 99;
  if (reps > 8) return reps - 6;
  return is_new ? 3 : 2;
}

struct Past {
  int sessions = 0;
  int gap = 0;  // days off before the way back, 0 where it is over
  int days_back = 0;
  bool hurt = false;
  double most = 0.0;  // that the heaviest curve makes of the sets of four weeks, or of the last
};

Past past_of(const Case& drawn) {
  Past past;
  std::vector<int> days;  // ago
  for (const LoggedSet& set : drawn.log) {
    days.push_back(today - set.date);
    past.hurt = past.hurt || (set.has_pain && days.back() <= 14);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  for (const int day : days) past.sessions += day > 0;
  if (!days.empty() && days.front() > 0) days.insert(days.begin(), 0);
  for (std::size_t i = 1; i < days.size() && past.gap == 0; ++i) {
    if (days[i] - days[i - 1] <= 14) continue;
    past.gap = days[i] - days[i - 1];
    past.days_back = days[i - 1];
  }
  if (past.days_back >= 7 * std::clamp((past.gap + 27) / 28, 1, 4)) past.gap = 0;
  const int last = days.size() > 1 ? days[1] : 0;
  for (const LoggedSet& set : drawn.log) {
    const int age = today - set.date;
    if (age > 28 && age != last && age != days.front()) continue;
    const int done = set.reps.count() - (set.outcome == Outcome::missed ? 1 : 0);
    // 3 % a rep, and 6: flatter and steeper than any published curve of so few reps.
    for (const double slope : {0.015, 0.07}) {
      const int more = drawn.request.reps.count() - done;
      past.most = std::max(past.most, set.load.kg() * std::exp(-slope * more));
    }
  }
  return past;
}

/// Everything wrong with an answer; nothing where a coach would hand it out.
std::string faults(const Case& drawn, const SessionPlan& plan) {
  std::string found;
  const auto hold = [&](bool is_right, std::string_view what) {
    if (!is_right) found += std::string(what) + "; ";
  };
  const SessionRequest& asked = drawn.request;
  const Past past = past_of(drawn);
  const bool is_attempt = asked.reps.count() == 1 && asked.reserve.count() < 1.0;

  // Stops.
  const bool is_introduced = plan.introduction.has_value();
  const int reps = is_introduced ? plan.reps.count() : asked.reps.count();
  const double left =
      is_introduced ? plan.introduction->begin()[0].least_reserve.count() : asked.reserve.count();
  const bool is_caught = !drawn.kind->can_pin || (asked.has_spotter && !drawn.kind->is_machine) ||
                         (asked.safeties == Safeties::checked && drawn.kind->safeties_catch);
  const bool is_new = plan.earlier_sessions < 4;
  const int repetitions = asked.sets.count() * asked.reps.count();
  bool must_stop = past.hurt;
  must_stop = must_stop || repetitions > (asked.reserve.count() < 1.0 ? 60 : 200);
  const bool is_too_near = left < must_be_left(reps, is_new) || (is_attempt && !is_introduced);
  must_stop = must_stop || (!is_caught && is_too_near);
  must_stop = must_stop || (is_attempt && !is_introduced && (is_new || past.gap > 0));
  if (must_stop) hold(plan.is_stopped(), "no stop where one is due");
  bool may_stop = must_stop;
  for (const Caution& caution : plan.cautions) {
    may_stop = may_stop || caution.key == "too_many_plates" || caution.key == "doubtful_max" ||
               caution.key == "stated_max_above_log";
  }
  if (plan.is_stopped()) {
    hold(may_stop, "a stop without a reason");
    hold(plan.sets.empty() && plan.alternatives.empty() && !plan.next, "a load under a stop");
    hold(!plan.remedies.empty(), "no way out of a stop");
    return found;
  }

  // What must be said.
  bool has_coach = false;
  for (const Caution& caution : plan.cautions) {
    has_coach = has_coach || caution.text.find("qualified coach") != std::string_view::npos;
  }
  hold(has_coach, "no word of a coach");

  // What is on the bar.
  Mass before{};
  int reps_before = 1000;
  for (std::size_t i = 0; i < plan.sets.size(); ++i) {
    const PlannedSet& set = plan.sets[i];
    const bool is_last = i + 1 == plan.sets.size();
    hold(set.is_work == is_last, "the work sets are not the last");
    hold(set.with.load > before, "loads do not rise");
    if (!is_last) {
      hold(set.reps.count() <= std::min(reps_before, 8), "warm-up repetitions do not fall");
      reps_before = set.reps.count();
    }
    before = set.with.load;
    if (!set.with.bar) {
      hold(set.with.dumbbell.has_value(), "neither bar nor dumbbells");
      continue;
    }
    const Loading& bar = *set.with.bar;
    Mass sum = asked.room.empty_bar().total();
    std::map<double, int> count;
    MarkedMass inside = bar.plates().empty() ? MarkedMass() : bar.plates()[0];
    for (const MarkedMass plate : bar.plates()) {
      hold(plate <= inside, "a heavy plate outside a light one");
      inside = plate;
      sum = sum + 2.0 * plate.mass();
      ++count[plate.mass().kg()];
    }
    hold(std::fabs((sum - set.with.load).kg()) < 1e-6, "the plates are not the load");
    for (const Plate& plate : asked.room.plates()) {
      hold(count[plate.mass().mass().kg()] <= plate.per_side(), "plates that are not there");
    }
  }

  // How heavy.
  const double load = plan.load().kg();
  if (past.most > 0.0 && !is_introduced) {
    hold(load <= 1.1 * past.most + 1e-6, "more than a tenth above what was shown");
  }
  for (const double chance : plan.chances_of_missing) {
    hold(chance <= plan.max_chance_of_missing + 1e-6, "a set likelier to be missed than the bound");
  }
  hold(plan.max_chance_of_missing <= 0.20 + 1e-9, "a loose bound that nobody asked for");
  if (!is_caught) hold(plan.max_chance_of_missing <= 0.05 + 1e-9, "a loose bound alone");
  if (!is_introduced) {
    hold(plan.reserve >= asked.reserve, "less left than asked for");
    hold(plan.work_sets <= asked.sets.count(), "more sets than asked for");
  }

  // No contradiction.
  const bool adds =
      plan.progress == Progress::exceeded || plan.progress == Progress::exceeded_twice;
  if (adds) {
    hold(plan.load() > plan.last->top.load || plan.reps > plan.last->top.reps,
         "time to add load, and none is added");
    hold(!plan.recovery.is_too_soon(), "time to add load without recovery");
    hold(past.gap == 0, "time to add load after a layoff");
  }
  if (past.gap > 0 && !is_introduced) {
    hold(plan.reserve.count() >= (past.days_back < 7 ? 4.0 : 3.0),
         "too little left after a layoff");
    if (asked.sets.count() > 2) {
      hold(plan.work_sets < asked.sets.count(), "all sets after a layoff");
    }
  }
  const bool is_eased = plan.recovery.is_too_soon() || (past.gap > 0 && !is_introduced);
  for (const Alternative& other : plan.alternatives) {
    if (other.kind == Alternative::Kind::step_below) hold(other.with.load < plan.load(), "below");
    if (other.kind != Alternative::Kind::step_above) continue;
    hold(other.with.load > plan.load(), "above");
    hold(!is_eased, "a step up beside a warning");
  }
  if (plan.recovery.is_too_soon()) {
    hold(plan.reserve.count() >= 4.0 || is_introduced, "a hard session too soon");
    hold(!plan.next, "a next load after an easy session");
  }
  return found;
}

}  // namespace

TEST_CASE("300 requests drawn at random: none that a coach would not hand out") {
  int plans = 0;
  int stops = 0;
  int refusals = 0;
  std::string found;
  for (std::uint32_t seed = 1; seed <= 300; ++seed) {
    const Case drawn = ::drawn(seed);
    const Lift base(drawn.kind->lift.base());
    LifterFacts facts;
    if (drawn.is_stated) facts.stated_max = Mass::from_kg(drawn.max);
    const LearntLifter lifter = learn_lifter(drawn.log, base, today, facts);
    const auto plan = plan_session(lifter, drawn.request);
    if (!plan) {
      ++refusals;
      const RefusalCode code = plan.refusal().code;
      const bool is_known = code == RefusalCode::bar_too_heavy ||
                            code == RefusalCode::dumbbells_too_heavy ||
                            (code == RefusalCode::no_strength && !drawn.is_stated);
      if (!is_known) found += "seed " + std::to_string(seed) + ": refused\n";
      continue;
    }
    (plan->is_stopped() ? stops : plans) += 1;
    const std::string wrong = faults(drawn, *plan);
    if (wrong.empty()) continue;
    found +=
        "seed " + std::to_string(seed) + ", " + drawn.kind->lift.name().str() + ": " + wrong + "\n";
  }
  CHECK(found == "");
  // All three kinds of answer were drawn, and enough of each.
  CHECK(plans > 100);
  CHECK(stops > 30);
  CHECK(refusals < 60);
}
