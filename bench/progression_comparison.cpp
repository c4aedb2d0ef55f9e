// bench/progression_comparison.cpp - ways of choosing the next load, on the same simulated lifters
//
//     progression_comparison [lifters]
//
// Every way sees the same lifters on the same days: their max, the form of the day and the error of
// every rating are drawn beforehand from the strength model's priors, as in
// tests/simulated_lifter.hpp. Their max does not depend on what they lift, so this shows how well a
// way keeps to the effort it aims at, and how often it misses; it cannot show who gets stronger.
// docs/progression-comparison.md has the result and its limits.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <random>
#include <span>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learning.hpp"

namespace {

using namespace barwright;
using namespace barwright::literals;

constexpr int weeks = 12;
constexpr int sessions_a_week = 2;
constexpr int sessions = weeks * sessions_a_week;
constexpr int sets = 3;
constexpr Reps reps = 6_reps;
constexpr RepsInReserve target = 2_rir;
constexpr double start_error = 0.08;  // standard deviation of the logarithm of the first guess
constexpr double unrated = 0.08;      // share of sets nobody rated
const Lift lift = lifts::bench_press;
const Room& room = plate_sets::gym_kg;
const CurveTable curve = equations::wathen;  // what every way is told

// ---- lifters ------------------------------------------------------------------------------------

/// How the lifters differ from what the strength model believes beforehand.
struct Scenario {
  const char* name;
  double gain = 0.0;  ///< of the max each week, on average
  CurveTable curve = equations::wathen;
};

/// One lifter's next weeks, whatever they will lift.
struct Lifter {
  struct Session {
    Date date{2026, 1, 5};
    double log_level = 0.0;  ///< of the max, on a day of average form
    double form = 0.0;
    std::array<double, sets> rating_noise{};
    std::array<bool, sets> is_rated{};
  };
  std::array<Session, sessions> days{};
  CurveTable own_curve = curve;  ///< before it is stretched and bent
  double set_loss = 0.0;
  double rating_bias = 0.0;
  double stretch = 1.0;
  double bend = 0.0;
  Mass guess{};  ///< of the max, before the first session

  [[nodiscard]] double capacity(int session, int set) const {
    const Session& day = days[static_cast<std::size_t>(session)];
    return day.log_level + day.form - set_loss * set;
  }
  /// The repetitions to failure that they have in them.
  [[nodiscard]] double reps_to_failure(int session, int set, Mass load) const {
    const double share = std::log(load.kg()) - capacity(session, set);
    return ShapedCurve(own_curve, stretch, bend).reps(share);
  }
  /// The load that leaves just the target in the last set, for this capacity.
  [[nodiscard]] Mass ideal(double log_capacity) const {
    const double to_failure = barwright::reps_to_failure(reps, target);
    return Mass::from_kg(
        std::exp(log_capacity + ShapedCurve(own_curve, stretch, bend).at(to_failure).log_fraction));
  }
};

Lifter draw_lifter(std::uint64_t seed, const Scenario& scenario) {
  std::mt19937_64 generator(seed * 2654435761U + 12345U);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform;
  const auto draw = [&](double mean, double sd) { return mean + sd * normal(generator); };

  Lifter lifter{.own_curve = scenario.curve};
  const StrengthPriors p;
  double level =
      std::clamp(draw(std::log(p.max.kg()), p.max_log_sd), std::log(40.0), std::log(300.0));
  double trend = draw(0.0, p.trend_sd);
  lifter.set_loss = draw(p.set_loss, p.set_loss_sd);
  lifter.rating_bias = draw(p.rating_bias, p.rating_bias_sd);
  lifter.stretch = std::exp(draw(0.0, p.stretch_log_sd));
  lifter.bend = draw(0.0, p.bend_sd);
  lifter.guess = Mass::from_kg(std::exp(level + draw(0.0, start_error)));
  for (int i = 0; i < sessions; ++i) {
    Lifter::Session& day = lifter.days[static_cast<std::size_t>(i)];
    day.date = day.date + (7 * (i / sessions_a_week) + 3 * (i % sessions_a_week));
    const int days_since =
        i == 0 ? 0 : day.date - lifter.days[static_cast<std::size_t>(i) - 1].date;
    constexpr double dt = 1.0 / 56.0;
    const double kept = std::exp(-dt / p.trend_weeks);
    for (int step = 0; step < 8 * days_since; ++step) {
      level += (trend + scenario.gain) * dt + draw(0.0, p.level_walk * std::sqrt(dt));
      trend = kept * trend + draw(0.0, p.trend_sd * std::sqrt(1.0 - kept * kept));
    }
    day.log_level = level;
    day.form = draw(0.0, p.day_sd);
    for (double& noise : day.rating_noise) noise = normal(generator);
    for (bool& is_rated : day.is_rated) is_rated = uniform(generator) >= unrated;
  }
  return lifter;
}

/// One set, as it would go into the log.
LoggedSet perform(const Lifter& lifter, int session, int set, Mass load) {
  const Lifter::Session& day = lifter.days[static_cast<std::size_t>(session)];
  const double truth = lifter.reps_to_failure(session, set, load);
  LoggedSet done{.date = day.date, .lift = lift, .load = load, .reps = reps};
  const int planned = reps.count();
  if (truth < planned) {
    done.outcome = Outcome::missed;
    done.reps = Reps(std::clamp(static_cast<int>(std::floor(truth)) + 1, 1, planned));
  } else if (day.is_rated[static_cast<std::size_t>(set)]) {
    const double sd =
        rating_error(truth - planned, truth, Experience::experienced).standard_deviation;
    const double said =
        truth - planned - lifter.rating_bias + sd * day.rating_noise[static_cast<std::size_t>(set)];
    done.reserve = Range<RepsInReserve>::exactly(
        RepsInReserve(std::clamp(std::round(2.0 * said) / 2.0, 0.0, RepsInReserve::most)));
  }
  return done;
}

// ---- ways ---------------------------------------------------------------------------------------

/// What a way of choosing knows when it chooses.
struct Past {
  const Lifter& lifter;  ///< only the one that knows the truth looks at more than the date
  std::vector<LoggedSet> log{};
  std::vector<SessionResult> results{};
  Mass heaviest{};
};

Mass on_the_bar(Mass load) { return room.at_most(load).value_or(room.empty_bar()).total(); }

/// The load of the next session.
using Way = Mass (*)(const Past& past, int session);

Mass by_rule(const Past& past, const ProgressionRule& rule) {
  std::optional<SessionResult> previous;
  if (past.results.size() > 1) previous = past.results[past.results.size() - 2];
  return next_load(room, past.results.back(), previous, rule).loading->total();
}

Mass by_two_for_two(const Past& past, int) { return by_rule(past, progression_rules::two_for_two); }

Mass by_position_stand(const Past& past, int) {
  return by_rule(past, progression_rules::position_stand);
}

/// 2.5 % more each week, whatever the ratings say; a miss holds, the next one steps back.
Mass every_week(const Past& past, int session) {
  const SessionResult& latest = past.results.back();
  if (latest.has_miss) return by_two_for_two(past, session);
  if (session % sessions_a_week != 0) return latest.load;
  const auto next = raised(latest.load, 0.025, room);
  return next ? next->total() : latest.load;
}

/// What the strength model says leaves the target in the last set and misses it one time in twenty.
Mass by_model(const Past& past, int session) {
  StrengthModel model({.reference = lift, .curve = curve});
  for (const LoggedSet& set : past.log) model.add(set);
  const Date date = past.lifter.days[static_cast<std::size_t>(session)].date;
  const BoundedLoad chosen = model.fit().load_for(
      lift, reps, target, date, {.max_chance_of_missing = 0.05, .earlier_sets = sets - 1});
  return on_the_bar(std::min(chosen.load, past.heaviest * 1.10));
}

/// Knows the lifter's max and curve, but not the form of the day: no way can do much better.
Mass by_the_truth(const Past& past, int session) {
  const Lifter::Session& day = past.lifter.days[static_cast<std::size_t>(session)];
  return on_the_bar(past.lifter.ideal(day.log_level - past.lifter.set_loss * (sets - 1)));
}

struct NamedWay {
  std::string_view name;
  Way choose;
};
constexpr std::array ways{
    NamedWay{"two-for-two", by_two_for_two}, NamedWay{"one more, once", by_position_stand},
    NamedWay{"2.5 % a week", every_week},    NamedWay{"strength model", by_model},
    NamedWay{"knows the max", by_the_truth},
};

// ---- what is measured ---------------------------------------------------------------------------

constexpr std::array<std::string_view, 4> measure_names{
    "sets missed, %", "within 1 of the target, %", "error of the load, %", "load above ideal, %"};
/// One lifter's, in per cent.
using Measures = std::array<double, measure_names.size()>;

Measures train(const Lifter& lifter, Way choose) {
  Past past{.lifter = lifter};
  Measures sum{};
  int sets_done = 0;
  for (int session = 0; session < sessions; ++session) {
    // The first load is the same for all: a guess, taken a little lower.
    const double to_failure = reps_to_failure(reps, target);
    const Mass load =
        session == 0 ? on_the_bar(0.95 * lifter.guess * std::exp(curve.log_fraction(to_failure)))
                     : choose(past, session);
    past.heaviest = std::max(past.heaviest, load);
    const std::size_t first = past.log.size();
    Mass today = load;
    for (int set = 0; set < sets; ++set) {
      const LoggedSet done = perform(lifter, session, set, today);
      past.log.push_back(done);
      if (session > 0) {
        ++sets_done;
        if (done.outcome == Outcome::missed) sum[0] += 1.0;
      }
      if (done.outcome == Outcome::missed) {
        today = rest_of_session_after_miss(room, today).value_or(room.empty_bar()).total();
      }
    }
    past.results.push_back(session_result(reps, target, std::span(past.log).subspan(first)));
    if (session == 0) continue;
    const double left = lifter.reps_to_failure(session, sets - 1, load) - reps.count();
    const double off = std::log(load / lifter.ideal(lifter.capacity(session, sets - 1)));
    sum[1] += std::abs(left - target.count()) <= 1.0 ? 1.0 : 0.0;
    sum[2] += std::abs(off);
    sum[3] += off;
  }
  sum[0] *= 100.0 / sets_done;
  for (std::size_t m = 1; m < sum.size(); ++m) sum[m] *= 100.0 / (sessions - 1);
  return sum;
}

struct MeanAndError {
  double mean;
  double half_width;  ///< of the 95 % interval
};

MeanAndError summary(const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  double mean = 0.0;
  for (const double value : values) mean += value / n;
  double variance = 0.0;
  for (const double value : values) variance += (value - mean) * (value - mean) / (n - 1.0);
  return {mean, student_t_quantile(0.975, n - 1.0) * std::sqrt(variance / n)};
}

void compare(int lifters, const Scenario& scenario) {
  std::array<std::vector<Measures>, ways.size()> results;
  for (int i = 0; i < lifters; ++i) {
    const Lifter lifter = draw_lifter(static_cast<std::uint64_t>(i) + 1, scenario);
    for (std::size_t w = 0; w < ways.size(); ++w) {
      results[w].push_back(train(lifter, ways[w].choose));
    }
  }
  const auto row = [&](std::size_t w, bool is_difference) {
    std::printf("| %-14.*s |", static_cast<int>(ways[w].name.size()), ways[w].name.data());
    for (std::size_t m = 0; m < measure_names.size(); ++m) {
      std::vector<double> values;
      for (std::size_t i = 0; i < results[w].size(); ++i) {
        values.push_back(results[w][i][m] - (is_difference ? results[0][i][m] : 0.0));
      }
      const MeanAndError s = summary(values);
      if (is_difference) {
        const bool is_clear = std::abs(s.mean) > s.half_width;
        std::printf(" %+.1f (%+.1f to %+.1f)%s |", s.mean, s.mean - s.half_width,
                    s.mean + s.half_width, is_clear ? "" : " none shown");
      } else {
        std::printf(" %.1f +- %.1f |", s.mean, s.half_width);
      }
    }
    std::printf("\n");
  };
  const auto heading = [](const char* first) {
    std::printf("\n| %-14s |", first);
    for (const std::string_view name : measure_names) {
      std::printf(" %.*s |", static_cast<int>(name.size()), name.data());
    }
    std::printf("\n|---|---|---|---|---|\n");
  };
  heading("way");
  for (std::size_t w = 0; w < ways.size(); ++w) row(w, false);
  heading("minus two-for-two");
  for (std::size_t w = 1; w < ways.size(); ++w) row(w, true);
}

}  // namespace

int main(int argc, char** argv) {
  const int lifters = argc > 1 ? std::atoi(argv[1]) : 200;
  if (lifters < 2) {
    std::fprintf(stderr, "progression_comparison: at least 2 lifters\n");
    return 2;
  }
  std::printf(
      "%d simulated lifters, %d weeks of %d sessions, %d sets of %d with %g left in the last\n",
      lifters, weeks, sessions_a_week, sets, reps.count(), target.count());
  // Trained men gained about 10 % on the bench press in 8 weeks (abstract read).
  const std::array scenarios{
      Scenario{.name = "as the model believes: no gain on average"},
      Scenario{.name = "a gain of 1.2 % a week, which the model does not expect", .gain = 0.012},
      Scenario{.name = "repetitions by the curve of Epley, all are told that of Wathen",
               .curve = equations::epley}};
  for (const Scenario& scenario : scenarios) {
    std::printf("\nLifters %s\n", scenario.name);
    compare(lifters, scenario);
  }
}
