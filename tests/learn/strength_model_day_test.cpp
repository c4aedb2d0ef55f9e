// Tests of barwright/learn/strength_model.hpp: what of a log is news, and what a day's sets say of
// that day.
//
// The logs are invented; each is one that a lifter was seen to keep, or could.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "barwright/learn/strength_model.hpp"

using namespace barwright;
using namespace barwright::literals;

namespace {

constexpr Date monday(2026, 1, 5);
const Lift plain = lifts::bench_press;

LoggedSet unrated(Date date, double kg, int reps) {
  return {.date = date, .lift = plain, .load = Mass::from_kg(kg), .reps = Reps(reps)};
}
LoggedSet rated(Date date, double kg, int reps, double left) {
  LoggedSet set = unrated(date, kg, reps);
  set.reserve = Range<RepsInReserve>::exactly(RepsInReserve(left));
  return set;
}
LoggedSet missed(Date date, double kg, int reps) {
  LoggedSet set = unrated(date, kg, reps);
  set.outcome = Outcome::missed;
  return set;
}
StrengthFit fit_of(const std::vector<LoggedSet>& log, const StrengthSettings& settings = {}) {
  StrengthModel model(settings);
  for (const LoggedSet& set : log) model.add(set);
  return model.fit();
}

/// Three days a week, 80 kg for three sets of five that leave 2, 2 and 1.
std::vector<LoggedSet> steady(int weeks, bool with_warm_ups, double scale = 1.0) {
  std::vector<LoggedSet> log;
  for (int session = 0; session < 3 * weeks; ++session) {
    const Date date = monday + (session / 3 * 7 + session % 3 * 2);
    if (with_warm_ups) {
      log.push_back(unrated(date, 20.0 * scale, 8));
      log.push_back(unrated(date, 40.0 * scale, 8));
      log.push_back(unrated(date, 60.0 * scale, 3));
    }
    for (const double left : {2.0, 2.0, 1.0}) log.push_back(rated(date, 80.0 * scale, 5, left));
  }
  return log;
}

/// Four weeks at 75 kg, three sets of six that leave two.
std::vector<LoggedSet> four_weeks() {
  std::vector<LoggedSet> log;
  for (int session = 0; session < 12; ++session) {
    const Date date = monday + (session / 3 * 7 + session % 3 * 2);
    for (int i = 0; i < 3; ++i) log.push_back(rated(date, 75.0 + session % 3, 6, 2));
  }
  return log;
}

}  // namespace

TEST_CASE("warm-ups without a rating say next to nothing, however many") {
  for (const double scale : {1.0, 0.5}) {
    for (const int weeks : {1, 2, 4}) {
      CAPTURE(scale);
      CAPTURE(weeks);
      const StrengthFit without = fit_of(steady(weeks, false, scale));
      const StrengthFit with = fit_of(steady(weeks, true, scale));
      const Date next = monday + 7 * weeks;
      const Estimate<Mass> max = without.max(plain, next);
      CHECK(std::fabs(with.max(plain, next).log_mean() - max.log_mean()) < 0.4 * max.log_sd());
      CHECK(with.max(plain, next).log_sd() == doctest::Approx(max.log_sd()).epsilon(0.2));
      CHECK(with.sets_used() == 18 * weeks * 3 / 3);
    }
  }
}

TEST_CASE("in a log without any rating the best sets of a day count, and its warm-ups do not") {
  std::vector<LoggedSet> with = steady(3, true);
  std::vector<LoggedSet> without = steady(3, false);
  for (std::vector<LoggedSet>* log : {&with, &without}) {
    for (LoggedSet& set : *log) set.reserve.reset();
  }
  const Date next = monday + 21;
  const Estimate<Mass> max = fit_of(without).max(plain, next);
  CHECK(std::fabs(fit_of(with).max(plain, next).log_mean() - max.log_mean()) < 0.4 * max.log_sd());
}

TEST_CASE("a miss today counts at once: the next set today is no likelier to go up") {
  std::vector<LoggedSet> log = four_weeks();
  const Date today = monday + 28;
  double before = fit_of(log).load_for(plain, 6_reps, 2_rir, today).load.kg();
  for (int misses = 1; misses <= 3; ++misses) {
    CAPTURE(misses);
    log.push_back(missed(today, 70, 6));
    const StrengthFit fit = fit_of(log);
    CHECK(fit.chance_of_missing(plain, 70_kg, 6_reps, today, misses) > 0.5);
    const BoundedLoad next = fit.load_for(plain, 6_reps, 2_rir, today, {.earlier_sets = misses});
    CHECK(next.load < 70_kg);
    CHECK(next.load.kg() < before);
    before = next.load.kg();
  }
}

TEST_CASE("the more is left today, the heavier the next set today") {
  const Date today = monday + 28;
  for (const bool has_past : {false, true}) {
    CAPTURE(has_past);
    double before = 0.0;
    for (const double left : {0.0, 1.0, 2.0, 3.0, 4.0, 5.0}) {
      CAPTURE(left);
      std::vector<LoggedSet> log = has_past ? four_weeks() : std::vector<LoggedSet>{};
      for (int i = 0; i < 3; ++i) log.push_back(rated(today, 80, 6, left));
      const double load =
          fit_of(log).load_for(plain, 6_reps, 2_rir, today, {.earlier_sets = 3}).load.kg();
      CHECK(load > before);
      before = load;
    }
  }
}

TEST_CASE(
    "of a day with sets more is known than of one without, and nothing of its form is on top") {
  const std::vector<LoggedSet> log = four_weeks();
  const StrengthFit fit = fit_of(log);
  const Date last = log.back().date;
  CHECK(fit.joint(plain, last).on_top < fit.joint(plain, last + 1).on_top);
  const double today = fit.load_for(plain, 6_reps, 0_rir, last).load.kg();
  CHECK(today > fit.load_for(plain, 6_reps, 0_rir, last + 2).load.kg());
}

TEST_CASE("a novice leaves half a rep less unsaid, and so comes out less strong") {
  StrengthSettings novice;
  novice.experience = Experience::novice;
  CHECK(fit_of({}, novice).rating_bias().mean == doctest::Approx(0.0));
  CHECK(fit_of({}).rating_bias().mean == doctest::Approx(0.5));
  const std::vector<LoggedSet> log = {rated(monday, 80, 5, 2)};
  const double lower =
      fit_of(log, novice).max(plain, monday).median() / fit_of(log).max(plain, monday).median();
  // Half a rep near seven is a per cent or so.
  CHECK(lower < 0.993);
  CHECK(lower > 0.97);
}

TEST_CASE("whatever is left out, all answers are of one and the same log") {
  // Two readings that quarrel, so that sets come and go while they are judged: the fit must be that
  // of the log without what it says it left out.
  std::vector<LoggedSet> log = four_weeks();
  for (const double kg : {110.0, 112.0, 96.0, 98.0, 100.0})
    log.push_back(rated(monday + 30, kg, 6, 2));
  const StrengthFit fit = fit_of(log);
  std::vector<LoggedSet> kept;
  for (std::size_t i = 0; i < log.size(); ++i) {
    if (fit.reports()[i].use == SetReport::Use::used) kept.push_back(log[i]);
  }
  REQUIRE(kept.size() == static_cast<std::size_t>(fit.sets_used()));
  const StrengthFit again = fit_of(kept);
  const auto gain = fit.gain(plain, monday, monday + 25);
  const auto gain_again = again.gain(plain, monday, monday + 25);
  REQUIRE(gain);
  REQUIRE(gain_again);
  CHECK(std::fabs(gain->mean() - gain_again->mean()) < 0.2 * gain->standard_deviation());
  CHECK(
      std::fabs(fit.max(plain, monday + 25).log_mean() - again.max(plain, monday + 25).log_mean()) <
      0.2 * fit.max(plain, monday + 25).log_sd());
}
