// bench/closed_loop.cpp - who keeps closer to the effort asked for: the planner, a coach by hand,
// or one who knows the max
//
//     closed_loop [lifters [threads]]
//
// Lifters who share nothing with the library (closed_loop_trainee.hpp) train twelve weeks, twice a
// week, by what they are told. The planner sees their log; the coach averages what a table makes of
// the sets of the last session; one who knows sees the max, the curve and the loss with each set,
// but not the form of the day. All round to the plates of the same room, and after a miss all take
// 5 % off for the rest of the day. docs/progression-comparison.md has the result and its limits.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <array>
#include <barwright/barwright.hpp>
#include <barwright/planning.hpp>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string_view>
#include <thread>
#include <vector>

#include "closed_loop_trainee.hpp"
#include "figures.hpp"

namespace {

using namespace barwright;
using namespace closed_loop;
using namespace figures;

/// What is trained each session.
struct Task {
  std::string_view name;
  int sets = 3;
  int reps = 5;
  double left = 2.0;      ///< in the last set, or in the top set
  double back_off = 0.0;  ///< taken off the load after the first set; 0: all sets are alike
  const Room* room = &plate_sets::gym_kg;

  /// The set that is aimed at.
  [[nodiscard]] int aimed() const { return back_off > 0.0 ? 0 : sets - 1; }
};

/// All that was done so far, and what is asked for next.
struct Past {
  const Trainee& lifter;
  const Task& task;
  std::vector<std::vector<DoneSet>> sessions{};
};

double nearest(const Task& task, double kg) {
  return task.room->nearest(Mass::from_kg(kg)).total().kg();
}

using Way = double (*)(const Past& past);

/// Reps to failure of one set as a coach reads them; 0 where nothing was said.
double by_hand(const DoneSet& set) {
  if (set.is_missed()) return set.done();
  return set.is_rated ? set.done() + set.said : 0.0;
}

/// The mean max of the last session's sets by a table (here the handbook's rep curve), and
/// from it the load by the same table; the same load where nothing was rated.
double coach(const Past& past) {
  double sum = 0.0;
  int sets = 0;
  for (const DoneSet& set : past.sessions.back()) {
    const double reps = by_hand(set);
    if (reps < 1.0) continue;
    sum += set.load_kg / equations::wathen.fraction(reps);
    ++sets;
  }
  const Task& task = past.task;
  if (sets == 0) return past.sessions.back().front().load_kg;
  return nearest(task, sum / sets * equations::wathen.fraction(task.reps + task.left));
}

double knower(const Past& past) {
  const int session = static_cast<int>(past.sessions.size());
  const Task& task = past.task;
  return nearest(task, past.lifter.ideal_kg(session, task.aimed(), task.reps + task.left));
}

Date date_of(int session) { return Date(2026, 1, 5) + Trainee::day_number(session); }

/// A set as it goes into the log.
LoggedSet logged(int session, const DoneSet& set) {
  LoggedSet row{.date = date_of(session),
                .lift = lifts::bench_press,
                .load = Mass::from_kg(set.load_kg),
                .reps = Reps(set.is_missed() ? set.done() + 1 : set.done())};
  if (set.is_missed()) {
    row.outcome = Outcome::missed;
  } else if (set.is_rated) {
    row.reserve = Range<RepsInReserve>::exactly(RepsInReserve(set.said));
  }
  return row;
}

/// As any program would ask: the log in, the session out.
double planner(const Past& past) {
  const int session = static_cast<int>(past.sessions.size());
  std::vector<LoggedSet> log;
  for (int i = 0; i < session; ++i) {
    for (const DoneSet& set : past.sessions[static_cast<std::size_t>(i)]) {
      log.push_back(logged(i, set));
    }
  }
  const Task& task = past.task;
  const Date date = date_of(session);
  const LearntLifter lifter = learn_lifter(log, lifts::bench_press, date);
  const auto plan = plan_session(lifter, {.lift = lifts::bench_press,
                                          .date = date,
                                          .sets = Sets(task.aimed() + 1),
                                          .reps = Reps(task.reps),
                                          .reserve = RepsInReserve(task.left),
                                          .room = *task.room,
                                          .has_spotter = true,
                                          .safeties = Safeties::checked});
  // Under a stop, and where nothing can be said, the last load stands.
  if (!plan || plan->is_stopped()) return past.sessions.back().front().load_kg;
  return plan->load().kg();
}

/// A rule for the next load, from the last two sessions.
double by_rule(const Past& past, const ProgressionRule& rule) {
  const auto result = [&](std::size_t session) {
    std::vector<LoggedSet> sets;
    for (const DoneSet& set : past.sessions[session]) {
      sets.push_back(logged(static_cast<int>(session), set));
    }
    return session_result(Reps(past.task.reps), RepsInReserve(past.task.left), sets);
  };
  const std::size_t n = past.sessions.size();
  std::optional<SessionResult> before;
  if (n > 1) before = result(n - 2);
  return next_load(*past.task.room, result(n - 1), before, rule).loading->total().kg();
}
double two_for_two(const Past& past) { return by_rule(past, progression_rules::two_for_two); }
double one_more_once(const Past& past) { return by_rule(past, progression_rules::position_stand); }

struct NamedWay {
  std::string_view name;
  Way choose;
};
constexpr std::array ways{NamedWay{"planner", planner}, NamedWay{"coach by hand", coach},
                          NamedWay{"two-for-two", two_for_two},
                          NamedWay{"one more, once", one_more_once},
                          NamedWay{"knows the max", knower}};

/// Sums of one lifter: sets, missed; sessions, within one rep of what was asked for;
/// logarithm of the load over the ideal one, and its size.
using Row = std::array<double, 6>;

Row train(const Trainee& lifter, const Task& task, Way choose) {
  Past past{.lifter = lifter, .task = task};
  Row row{};
  for (int session = 0; session < sessions; ++session) {
    // The first load is the same for all: by the lifter's guess, a little lower.
    const double first = session == 0
                             ? nearest(task, 0.95 * lifter.guess_kg() *
                                                 equations::wathen.fraction(task.reps + task.left))
                             : choose(past);
    Trainee::Session day(lifter, session);
    std::vector<DoneSet> done;
    double load = first;
    for (int set = 0; set < task.sets; ++set) {
      done.push_back(day.perform(load, task.reps));
      if (set == 0 && task.back_off > 0.0) load = nearest(task, load * (1.0 - task.back_off));
      if (done.back().is_missed()) load = nearest(task, 0.95 * load);
    }
    if (session > 0) {  // the first was a guess
      for (const DoneSet& set : done) {
        row[0] += 1.0;
        row[1] += set.is_missed() ? 1.0 : 0.0;
      }
      const double left = done[static_cast<std::size_t>(task.aimed())].left;
      const double off =
          std::log(first / lifter.ideal_kg(session, task.aimed(), task.reps + task.left));
      row[2] += 1.0;
      row[3] += std::fabs(left - task.left) <= 1.0 ? 1.0 : 0.0;
      row[4] += off;
      row[5] += std::fabs(off);
    }
    past.sessions.push_back(std::move(done));
  }
  return row;
}

void compare(const Task& task, double gain, std::size_t lifters, unsigned threads) {
  std::array<std::vector<Row>, ways.size()> rows;
  for (auto& of_way : rows) of_way.resize(lifters);
  in_parallel(lifters, threads, [&](std::size_t i) {
    const Trainee lifter(i + 1, gain);
    for (std::size_t w = 0; w < ways.size(); ++w) rows[w][i] = train(lifter, task, ways[w].choose);
  });
  for (std::size_t w = 0; w < ways.size(); ++w) {
    // Beside the one who knows, lifter by lifter.
    std::vector<std::array<double, 12>> both(lifters);
    for (std::size_t i = 0; i < lifters; ++i) {
      std::copy(rows[w][i].begin(), rows[w][i].end(), both[i].begin());
      std::copy(rows.back()[i].begin(), rows.back()[i].end(), both[i].begin() + 6);
    }
    const Measured hit = over_people(both, [](auto& s) { return 100.0 * s[3] / s[2]; });
    const Measured of_knower = over_people(both, [](auto& s) { return s[3] / s[9]; });
    const Measured missed = over_people(both, [](auto& s) { return 100.0 * s[1] / s[0]; });
    const Measured off = over_people(both, [](auto& s) { return 100.0 * s[4] / s[2]; });
    const Measured error = over_people(both, [](auto& s) { return 100.0 * s[5] / s[2]; });
    std::printf(
        "| %-26.*s | %3.1f | %-13.*s | %.1f (%.1f to %.1f) | %.2f (%.2f to %.2f) | %.1f (%.1f to "
        "%.1f) | %+.1f | %.1f |\n",
        static_cast<int>(task.name.size()), task.name.data(), 100.0 * gain,
        static_cast<int>(ways[w].name.size()), ways[w].name.data(), hit.value, hit.low, hit.high,
        of_knower.value, of_knower.low, of_knower.high, missed.value, missed.low, missed.high,
        off.value, error.value);
  }
  std::fflush(stdout);
}

}  // namespace

int main(int argc, char** argv) {
  const int lifters = argc > 1 ? std::atoi(argv[1]) : 100;
  const int asked = argc > 2 ? std::atoi(argv[2]) : 0;
  if (lifters < 2) {
    std::fprintf(stderr, "closed_loop: at least 2 lifters\n");
    return 2;
  }
  const unsigned threads =
      asked > 0 ? static_cast<unsigned>(asked) : std::max(1U, std::thread::hardware_concurrency());
  constexpr Room coarse(Bar(20, Unit::kg), {Unit::kg, {20, 10, 5, 2.5}});
  const std::array tasks{
      Task{.name = "3 x 5, 2 left"},
      Task{.name = "3 x 3, 2 left", .reps = 3},
      Task{.name = "3 x 10, 2 left", .reps = 10},
      Task{.name = "3 x 15, 2 left", .reps = 15},
      Task{.name = "top 3, 2 left, back-offs", .sets = 4, .reps = 3, .back_off = 0.1},
      Task{.name = "3 x 5, 5 kg steps", .room = &coarse},
  };
  std::printf("%d lifters, %d weeks of %d sessions\n\n", lifters, weeks, sessions_a_week);
  std::printf(
      "| asked | gain, %% a week | way | within 1 of the target, %% of sessions | of one who knows "
      "| sets missed, %% | load above ideal, %% | its error, %% "
      "|\n|---|---|---|---|---|---|---|---|\n");
  for (const Task& task : tasks) {
    for (const double gain : {0.0, 0.005, 0.012}) {
      compare(task, gain, static_cast<std::size_t>(lifters), threads);
    }
  }
}
