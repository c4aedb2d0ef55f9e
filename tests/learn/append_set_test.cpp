// Tests of barwright/learn/append_set.hpp: one more set in a fit, without the log.
//
// The lifters are invented. What an appended set must teach is known without a second program: at
// the shapes of the fit, a pass through the whole log teaches the same.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/learn/append_set.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/model/last_day.hpp"
#include "barwright/learn/model/marks.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "csv_table.hpp"
#include "simulated_lifter.hpp"

using namespace barwright;
using namespace barwright::literals;
using barwright_test::relative_error;

namespace {

constexpr Date monday(2026, 1, 5);
const Lift plain = lifts::bench_press;
const Lift feet_up = lifts::bench_press + modifiers::feet_up;

LoggedSet unrated(int day, const Lift& lift, Mass load, int reps) {
  return {.date = monday + day, .lift = lift, .load = load, .reps = Reps(reps)};
}
LoggedSet rated(int day, const Lift& lift, Mass load, int reps, double left) {
  LoggedSet set = unrated(day, lift, load, reps);
  set.reserve = Range<RepsInReserve>::exactly(RepsInReserve(left));
  return set;
}
LoggedSet missed(int day, const Lift& lift, Mass load, int reps) {
  LoggedSet set = unrated(day, lift, load, reps);
  set.outcome = Outcome::missed;
  return set;
}

/// Ten weeks, three days a week, one lift a day: a warm-up and three sets of 4 to 7.
std::vector<LoggedSet> ten_weeks() {
  std::vector<LoggedSet> log;
  for (int session = 0; session < 30; ++session) {
    const int day = session / 3 * 7 + session % 3 * 2;
    const Lift& lift = session % 2 == 0 ? plain : feet_up;
    const double kg = (session % 2 == 0 ? 80.0 : 75.0) + 0.15 * session;
    log.push_back(unrated(day, lift, 40_kg, 8));
    for (int i = 0; i < 3; ++i) {
      const int reps = 4 + (session + i) % 4;
      const double left = 3.5 - 0.5 * (reps - 4) - 0.5 * i;
      log.push_back(rated(day, lift, Mass::from_kg(kg), reps, left));
    }
  }
  return log;
}

StrengthFit fit_of(const std::vector<LoggedSet>& log, StrengthSettings settings = {}) {
  StrengthModel model(std::move(settings));
  for (const LoggedSet& set : log) model.add(set);
  return model.fit();
}

/// A new week: a warm-up, all a set can say, and a day off.
std::vector<LoggedSet> new_week() {
  return {unrated(70, plain, 40_kg, 8),      rated(70, plain, 85_kg, 6, 2),
          rated(70, plain, 85_kg, 6, 0.5),   rated(70, plain, 80_kg, 8, 0),
          unrated(73, feet_up, 77.5_kg, 5),  rated(73, feet_up, 77.5_kg, 4, 6),
          missed(73, feet_up, 85_kg, 7),     rated(80, plain, 90_kg, 3, 2),
          rated(80, feet_up, 77.5_kg, 5, 1), rated(80, plain, 87.5_kg, 3, 3)};
}

}  // namespace

TEST_CASE(
    "an appended set teaches what it does in a pass through the whole log, shapes being as "
    "they were found") {
  std::vector<LoggedSet> log = ten_weeks();
  const StrengthFit fit = fit_of(log);
  std::optional<StrengthFit> appended = fit;
  for (const LoggedSet& set : new_week()) {
    appended = append_set(*appended, set);
    REQUIRE(appended);
    log.push_back(set);

    const StrengthFit whole = fit_of(log);
    detail::LogModel model = detail::FitAccess::inside(whole).model;
    model.set_ratio_priors(detail::FitAccess::inside(fit).model.best);  // as they were, too
    const detail::ShapePosterior& shapes = detail::FitAccess::inside(fit).shapes;
    const detail::Mark expected = detail::find_marks(model, shapes).back();
    const detail::Mark& got = detail::FitAccess::inside(*appended).marks.back();
    CHECK(got.date == expected.date);
    for (detail::Index i = 0; i < model.state_count(); ++i) {
      CAPTURE(i);
      const double deviation = std::sqrt(expected.state.covariance(i, i));
      CHECK(std::fabs(got.state.mean[i] - expected.state.mean[i]) < 1e-6 * deviation);
      CHECK(std::fabs(std::sqrt(got.state.covariance(i, i)) - deviation) < 1e-6 * deviation);
    }
    // How the states lean on the shapes is carried on from means alone, and so only nearly.
    const auto spread = [&](const detail::Mark& mark) {
      const Term level{detail::level_state, 1.0};
      return std::sqrt(detail::answer(mark, shapes, std::span(&level, 1)).variance);
    };
    CHECK(relative_error(spread(got), spread(expected)) < 0.1);
    CHECK(appended->log_checksum() == whole.log_checksum());
    CHECK(appended->sets_used() == whole.sets_used());
  }
  CHECK(appended->sets_appended() == static_cast<int>(new_week().size()));
  CHECK(appended->reports().size() == new_week().size());
}

TEST_CASE("a heavier set than was expected raises the load, a miss lowers it") {
  const StrengthFit before = fit_of(ten_weeks());
  const auto load = [](const StrengthFit& fit) {
    return fit.load_for(plain, 5_reps, 2_rir, monday + 75).load;
  };
  CHECK(load(*append_set(before, rated(72, plain, 92.5_kg, 6, 2))) > load(before) + 1_kg);
  CHECK(load(*append_set(before, missed(72, plain, 85_kg, 4))) < load(before) - 1_kg);
}

TEST_CASE("pounds typed for kilograms are left out of an appended set, and named") {
  const StrengthFit fit = fit_of(ten_weeks());
  const LoggedSet slip = rated(72, plain, 187.5_kg, 6, 2);  // 85 kg are 187 lb
  const StrengthFit after = *append_set(fit, slip);
  CHECK(after.reports().back().use == SetReport::Use::suspicious);
  CHECK(std::fabs(after.reports().back().expected_load.kg() - 85.0) < 10.0);
  CHECK(after.sets_used() == fit.sets_used());
  const Date next = monday + 75;
  CHECK(relative_error(after.max(plain, next).median().kg(), fit.max(plain, next).median().kg()) <
        0.005);
}

TEST_CASE("a set of another lift, or with nothing on the bar, says nothing of this one") {
  const StrengthFit fit = fit_of(ten_weeks());
  const std::optional<StrengthFit> squat = append_set(fit, rated(72, lifts::squat, 100_kg, 5, 2));
  REQUIRE(squat);
  CHECK(squat->reports().back().use == SetReport::Use::other_base_lift);
  CHECK(squat->max(plain, monday + 75).log_mean() == fit.max(plain, monday + 75).log_mean());
  const std::optional<StrengthFit> empty = append_set(*squat, unrated(72, plain, Mass{}, 10));
  REQUIRE(empty);
  CHECK(empty->reports().back().use == SetReport::Use::no_load);
  CHECK(empty->max(plain, monday + 75).log_mean() == fit.max(plain, monday + 75).log_mean());
}

TEST_CASE("what only the whole log can tell is not appended") {
  const StrengthFit fit = fit_of(ten_weeks());
  CHECK(!append_set(fit, rated(60, plain, 85_kg, 6, 2)));  // before the last day
  CHECK(append_set(fit, rated(67, plain, 85_kg, 6, 2)));   // on it
  const Lift close_grip = lifts::bench_press + modifiers::close_grip;
  CHECK(!append_set(fit, rated(72, close_grip, 80_kg, 6, 2)));  // a lift that the log has not
  CHECK(!append_set(fit_of({}), rated(0, plain, 80_kg, 6, 2)));
  std::vector<LoggedSet> nothing_rated(30, unrated(0, plain, 80_kg, 6));
  for (int day = 0; day < 30; ++day) {
    nothing_rated[static_cast<std::size_t>(day)].date = monday + day;
  }
  CHECK(!append_set(fit_of(nothing_rated), rated(31, plain, 80_kg, 6, 2)));
}

TEST_CASE("after a tenth of the log, and never more than twenty, the shapes are to be found anew") {
  const auto appended_to = [](const std::vector<LoggedSet>& log) {
    std::optional<StrengthFit> fit = fit_of(log);
    int count = 0;
    while ((fit = append_set(*fit, rated(800, plain, 82.5_kg, 6, 2)))) ++count;
    return count;
  };
  std::vector<LoggedSet> log = ten_weeks();
  CHECK(appended_to(log) == 12);
  CHECK(appended_to({log.begin(), log.begin() + 39}) == 3);
  for (int week = 1; week < 8; ++week) {
    for (LoggedSet set : ten_weeks()) {
      set.date = set.date + 70 * week;
      log.push_back(set);
    }
  }
  CHECK(appended_to(log) == 20);
}

TEST_CASE("a fit that goes on training does so after a set") {
  const StrengthFit fit = fit_of(ten_weeks());
  const LoggedSet set = rated(72, plain, 85_kg, 6, 2);
  const Date later = monday + 172;
  const double trained = append_set(fit.if_training_goes_on(), set)->max(plain, later).log_mean();
  CHECK(trained > append_set(fit, set)->max(plain, later).log_mean());
}

TEST_CASE("a fit that was appended to knows its last day and later ones, and says so") {
  const StrengthFit after = *append_set(fit_of(ten_weeks()), rated(72, plain, 85_kg, 6, 2));
  CHECK_THROWS_AS((void)after.max(plain, monday + 71), DomainError);
  CHECK(after.history(plain).size() == 1);
  CHECK(after.history(plain).front().date == monday + 72);
  CHECK(!after.gain(plain, monday, monday + 72));
  CHECK(!after.carry_over(feet_up));
}

TEST_CASE(
    "over simulated lifters the load after a week of appended sets is that of a new fit, but "
    "for less than a plate step" *
    doctest::test_suite("slow")) {
  for (const std::uint64_t seed : {1U, 2U, 3U, 4U, 5U, 6U}) {
    CAPTURE(seed);
    const auto lifter = barwright_test::simulate_lifter(seed);
    constexpr std::ptrdiff_t week = 10;
    std::optional<StrengthFit> appended =
        fit_of({lifter.log.begin(), lifter.log.end() - week}, lifter.settings);
    for (auto set = lifter.log.end() - week; set != lifter.log.end(); ++set) {
      appended = append_set(*appended, *set);
      REQUIRE(appended);
    }
    const StrengthFit anew = fit_of(lifter.log, lifter.settings);
    for (const Lift& lift : {barwright_test::simulated_plain, barwright_test::simulated_a}) {
      const auto load = [&](const StrengthFit& fit) {
        return fit.load_for(lift, 5_reps, 2_rir, lifter.last + 2).load;
      };
      CHECK(load(*appended) < load(anew) + 2.5_kg);
    }
  }
}
