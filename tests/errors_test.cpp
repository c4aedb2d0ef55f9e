// tests/errors_test.cpp - every error message of the library is reached, and listed in
// docs/errors.md
//
// The messages that the calls below get are held against the rows of docs/errors.md: a message
// without a row fails here, as does a row that nothing reaches.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <barwright/barwright.hpp>
#include <barwright/learning.hpp>
#include <barwright/planning.hpp>
#include <cctype>
#include <cmath>
#include <deque>
#include <filesystem>
#include <fstream>
#include <functional>
#include <limits>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

using namespace barwright;
using namespace barwright::literals;

namespace {

const std::filesystem::path root = std::filesystem::path(BARWRIGHT_TEST_DATA) / "../..";
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

std::string contents_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// The messages in docs/errors.md: what stands in the first backticks of each row of a table, up to
/// the heading of what only the example programs say. `...` stands for what varies.
std::vector<std::string> listed() {
  std::istringstream text(contents_of(root / "docs/errors.md"));
  std::vector<std::string> messages;
  for (std::string line; std::getline(text, line);) {
    if (line.find("## The example programs") == 0) break;
    if (line.find("| `") != 0) continue;
    messages.push_back(line.substr(3, line.find('`', 3) - 3));
  }
  return messages;
}

/// Whether `message` is what `pattern` says, with anything in place of each "...".
bool is_like(std::string_view message, std::string_view pattern) {
  const std::size_t gap = pattern.find("...");
  if (gap == std::string_view::npos) return message == pattern;
  if (message.substr(0, gap) != pattern.substr(0, gap)) return false;
  const std::string_view rest = pattern.substr(gap + 3);
  for (std::size_t at = gap; at <= message.size(); ++at) {
    if (is_like(message.substr(at), rest)) return true;
  }
  return false;
}

const Lift feet_up = lifts::bench_press + modifiers::feet_up;
const Date monday(2026, 1, 5);

StrengthFit restored_with(const StrengthSettings& settings, const Lift& lift = feet_up) {
  StrengthModel model({});
  model.add({.date = monday, .lift = lift, .load = 80_kg, .reps = 6_reps});
  return restore_fit(save_fit(model.fit()), settings);
}

SessionResult a_session() {
  return {.load = 80_kg, .reps = 6_reps, .reserve = 2_rir, .fewest_done = 6, .last_done = 6};
}

std::vector<SetToFailure> sets_to_failure(std::vector<std::pair<double, int>> of) {
  std::vector<SetToFailure> sets;
  for (const auto& [kg, reps] : of) sets.push_back({.load = Mass::from_kg(kg), .reps = Reps(reps)});
  return sets;
}

template <class Change>
void model_with(Change change) {
  StrengthSettings settings;
  change(settings);
  (void)StrengthModel(settings);
}

template <class Change>
void session_with(Change change) {
  SessionResult result = a_session();
  change(result);
  (void)next_load(plate_sets::gym_kg, result);
}

template <class Change>
void block_with(Change change) {
  BlockSettings settings{.earlier_sessions = 9};
  change(settings);
  (void)plan_block(plate_sets::gym_kg, settings, std::nullopt, [](auto&&...) { return 60_kg; });
}

Eigen::MatrixXd a_design() {
  Eigen::MatrixXd design(4, 2);
  design << 1, 0, 1, 1, 1, 2, 1, 3;
  return design;
}

/// What must be refused, and what is wrong with it.
std::vector<std::function<void()>> refusals() {
  const Eigen::VectorXd ones = Eigen::VectorXd::Ones(4);
  const Eigen::ArrayXd kg = Eigen::ArrayXd::Constant(3, 100.0);
  const batch::Counts fives = batch::Counts::Constant(3, 5);
  const auto days = [](std::vector<double> loads) { (void)summarise(loads); };
  const auto spaced = [](SpacingRule rule) { (void)spacing_conflicts({}, rule); };
  const auto ordered = [](OrderRule rule) { (void)best_order({}, {}, rule); };
  const auto progressed = [](ProgressionRule rule) {
    (void)next_load(plate_sets::gym_kg, a_session(), {}, rule);
  };
  const auto room = [](std::string_view text) { (void)parse_room(text); };
  const auto table = [](std::initializer_list<RepPoint> points) {
    RepPoint two[2] = {*points.begin(), *(points.begin() + 1)};
    (void)RepTable(two);
  };
  const auto scattered = sets_to_failure({{100, 5}, {90, 5}, {80, 5}, {70, 5}});
  return {
      // units, effort, dates
      [] { (void)Mass::from_kg(-1.0); },
      [] { (void)Mass::from_lb(nan); },
      [] { (void)(100_kg / 0.0); },
      [] { (void)(100_kg).whole_of(0.0); },
      [] { (void)(Mass::from_kg(1e6) * 1e308); },
      [] { (void)rounded(100_kg, Mass{}); },
      [] { (void)Estimate<Mass>(std::nan(""), 0.1); },
      [] { (void)Change(0.0, -0.1); },
      [] { (void)rounded(100_kg, Mass::from_kg(1e-9)); },
      [] { (void)Reps(0); },
      [] { (void)RepsInReserve(0.3); },
      [] { (void)Rpe(11.0); },
      [] { (void)typical_reserve(Rpe(4.0)); },
      [] { (void)Date(2026, 2, 30); },
      [] { (void)(monday + 1000000); },
      [] { (void)Range<double>(2.0, 1.0, 3.0); },
      [] { (void)Sets(51); },
      // curves
      [] { (void)equations::brzycki.fraction(50.0); },
      [] { (void)regressions::reynolds_chest_press_5rm.max_from(80_kg, 8_reps); },
      [] { (void)equations::brzycki.reps(1.5); },
      [] { (void)predicted_reps(equations::epley, Mass{}, 80_kg); },
      [] { (void)one_rep_max(equations::epley, -5_kg, 5_reps); },
      [] { (void)stretched(equations::epley, 11.0); },
      [=] {
        table({{0.5, 1.0}, {2.0, 0.9}});
      },
      [=] {
        table({{2.0, 1.0}, {2.0, 0.9}});
      },
      [=] {
        table({{1.0, 0.9}, {2.0, 0.9}});
      },
      [] { (void)CriticalLoad(1.0, 8.0); },
      [] { (void)CriticalLoad(0.5, 0.0); },
      [] { (void)regressions::macht_performance(70_kg, 8_reps, 10.0); },
      [] { (void)LinearMultiplier({.at_zero = -2.0, .per_rep = 0.03}); },
      [] { (void)parse_curve("brzycky"); },
      [] { (void)look_back({}, {.date = Date(2026, 11, 25), .weeks = 1}); },
      [] { (void)velocity_curves::bench_press.share(5.0); },
      [] { (void)velocity_curves::bench_press.velocity(1.5); },
      // prescriptions
      [] { (void)percent_of(100_kg, 201.0); },
      [] { (void)load_for(equations::epley, -5_kg, 5_reps); },
      [] { (void)back_off(100_kg, 0.6); },
      [] {
        (void)exceeds_plan({6_reps, 8_reps}, 3);
      },
      [] { (void)raised(100_kg, 0.2, plate_sets::gym_kg); },
      [] { (void)raised(Mass{}, 0.05, plate_sets::gym_kg); },
      // plates
      [] { (void)MarkedMass(0.00001, Unit::kg); },
      [] { (void)Plate(0.0, Unit::kg); },
      [] { (void)Plate(10.0, Unit::kg, 0); },
      [] {
        Plates plates;
        for (int i = 1; i <= 25; ++i) plates.add(Plate(i, Unit::kg));
      },
      [] {
        Loading bar(Bar(20, Unit::kg));
        for (int i = 0; i < 33; ++i) bar.put_on({1.0, Unit::kg});
      },
      [] {
        Plates heavy{Plate(999.999, Unit::kg, 1)};
        for (int k = 0; k < 20; ++k) heavy.add(Plate(301 + 7 * k + k % 3, Unit::kg, 9));
        (void)Room(Bar(20, Unit::kg), heavy).at_most(9123.5_kg);
      },
      [] { (void)plan_ramp(plate_sets::gym_kg, std::span<const Mass>()); },
      [] { (void)plan_ramp(plate_sets::gym_kg, {15_kg}, Rounding::down); },
      [] { (void)practical_ramp(plate_sets::gym_kg, {60_kg}, 0.5); },
      [] { (void)plan_ramp(parse_room("bar 45 lb; plates 10x1 lb"), {70_lb}, Rounding::up); },
      [] {
        // Many kinds of odd marks, so that hardly two mixes weigh the same.
        const Room odd = parse_room(
            "bar 20 kg; plates 24.999x9 23.987x9 19.973x9 17.961x9 14.947x9 11.933x9 9.919x9 "
            "7.907x9 5.897x9 4.883x9 3.877x9 2.861x9 1.853x9 1.249x9 0.997x9 0.503x9 kg");
        std::vector<Mass> loads;
        for (int i = 0; i < 64; ++i) loads.push_back(Mass::from_kg(300.0 + 3.1 * i));
        (void)plan_ramp(odd, loads);
      },
      [] { (void)FixedLoads(2.5, 40.0, 0.0, Unit::kg); },
      [] { (void)dumbbells(10, 5, 2.5, Unit::kg); },
      [] { (void)dumbbells(2.5, 41, 2.5, Unit::kg); },
      [] { (void)parse_marked_mass("20"); },
      [] { (void)parse_plates("25xx2 kg"); },
      [] { (void)parse_plates("2x20 kg"); },
      [] { (void)parse_plates("2x5 kg"); },
      [] {
        (void)parse_plates("1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25");
      },
      [] { (void)parse_plates("25 20"); },
      [=] { room("bar 20 kg; bar 15 kg"); },
      [=] { room("bar 20 kg; benches 3"); },
      [=] { room("gym-kg"); },
      [=] { room("plates 20 kg"); },
      // variations
      [] {
        (void)Modifier("", "nothing", {0.9, 0.95, 1.0});
      },
      [] {
        (void)Modifier("own", "own", {0.01, 0.95, 1.0});
      },
      [] {
        (void)modifiers::feet_up.with_rep_stretch({0.5, 1.0, 11.0});
      },
      [] { (void)modifiers::feet_up.with_starting_share(0.0); },
      [] { (void)modifiers::feet_up.with_dumbbells(3); },
      [] {
        (void)StrengthScaling(Mass{}, {0.8, 0.9, 1.0}, 100_kg, {0.8, 0.9, 1.0});
      },
      [] {
        (void)StrengthScaling(100_kg, {0.8, 0.9, 1.0}, 80_kg, {0.8, 0.9, 1.0});
      },
      [] { (void)feet_up.ratio(Mass{}); },
      [] {
        static constexpr BaseLift unnamed{};
        (void)Lift(unnamed);
      },
      [] { (void)(lifts::squat + modifiers::feet_up); },
      [] { (void)(feet_up + modifiers::feet_up); },
      [] { (void)(lifts::bench_press + modifiers::incline + modifiers::decline); },
      [] {
        Lift lift = lifts::bench_press;
        constexpr std::string_view keys[] = {"a", "b", "c", "d", "e", "f", "g", "h", "i"};
        std::deque<Modifier> own;
        for (const std::string_view key : keys) {
          lift = lift + own.emplace_back(key, key, Range<double>(0.9, 0.95, 1.0));
        }
      },
      [] {
        ShortList<int, 1> list;
        list.append(1);
        list.append(2);
      },
      // logs, weeks, blocks
      [] {
        (void)recent_max(equations::epley, std::vector<LoggedSet>{}, feet_up, monday, {.days = 0});
      },
      [] { (void)SessionRating(11.0, 60.0); },
      [] { (void)SessionRating(5.0, -1.0); },
      [=] { days({1.0}); },
      [=] {
        days({1.0, -1.0});
      },
      [] { (void)detail::index_of(static_cast<Weekday>(7)); },
      [=] { spaced({.hours_between = -1}); },
      [=] { spaced({.hours_after_failure = 1}); },
      [=] { spaced({.bracing_percent = 101}); },
      [=] { spaced({.cross_muscle_percent = -1}); },
      [=] { ordered({.most_load_rise_percent = 101}); },
      [=] { ordered({.least_gain_percent = -1}); },
      [] { (void)session_result(6_reps, 2_rir, {}); },
      [=] { progressed({.extra_reps = 3}); },
      [=] { progressed({.sessions = 3}); },
      [=] { progressed({.increase = 0.2}); },
      [=] { progressed({.step_back = 0.2}); },
      [] { session_with([](auto& result) { result.load = 10_kg; }); },
      [] { session_with([](auto& result) { result.fewest_done = 7; }); },
      [] { session_with([](auto& result) { result.has_miss = true; }); },
      [] { session_with([](auto& result) { result.last_done = 101; }); },
      [] { block_with([](auto& settings) { settings.sessions_a_week = 8; }); },
      [] { block_with([](auto& settings) { settings.working_weeks = 0; }); },
      [] { block_with([](auto& settings) { settings.sets = 21; }); },
      [] { block_with([](auto& settings) { settings.earlier_sessions = -1; }); },
      [] { block_with([](auto& settings) { settings.earlier_sessions = 2; }); },
      [] { block_with([](auto& settings) { settings.last_reserve = 9_rir; }); },
      [] { block_with([](auto& settings) { settings.deload_cut = 0.6; }); },
      [] { block_with([](auto& settings) { settings.retest_reserve = 0_rir; }); },
      [] { block_with([](auto& settings) { settings.last_load = Mass{}; }); },
      [] {
        (void)plan_block(plate_sets::gym_kg, {.earlier_sessions = 9}, std::nullopt,
                         [](auto&&...) { return 15_kg; });
      },
      [] { (void)next_load(plate_sets::gym_kg, Block{}, 1, a_session()); },
      // estimates, probabilities, fits
      [] { (void)Estimate<double>(0.0, 0.1).interval(1.0); },
      [] { (void)normal_quantile(0.0); },
      [] { (void)student_t_quantile(0.5, 0.0); },
      [] { (void)student_t_quantile(1.0, 5.0); },
      [=] { (void)weighted_least_squares(a_design(), ones.head(3), ones); },
      [=] { (void)weighted_least_squares(a_design().topRows(2), ones.head(2), ones.head(2)); },
      [=] { (void)weighted_least_squares(a_design(), ones, ones * 0.0); },
      [=] { (void)weighted_least_squares(a_design(), ones * nan, ones); },
      [=] { (void)weighted_least_squares(Eigen::MatrixXd::Ones(4, 2), ones, ones); },
      [] {
        (void)fit_line(sets_to_failure({{0, 5}, {90, 8}, {80, 10}}));
      },
      [] {
        (void)fit_line(std::vector<SetToFailure>{{.load = 100_kg, .reps = 5_reps, .weight = 0.0},
                                                 {.load = 90_kg, .reps = 8_reps}});
      },
      [] {
        (void)fit_line(sets_to_failure({{100, 5}, {90, 8}, {80, 10}, {70, 14}}))
            .value()
            .max_interval(1.0);
      },
      [] {
        (void)fit_line(sets_to_failure({{100, 5}})).value();
      },
      [] {
        (void)fit_critical_load(sets_to_failure({{100, 5}, {90, 8}})).value();
      },
      [] {
        (void)fit_line(sets_to_failure({{100, 5}, {90, 8}})).value();
      },
      [] {
        (void)fit_critical_load(sets_to_failure({{100, 5}, {90, 8}, {80, 12}})).value();
      },
      [=] { (void)fit_line(scattered).value(); },
      [] {
        (void)fit_line(sets_to_failure({{21, 2}, {77.5, 1}, {85, 1}})).value();
      },
      [] {
        (void)fit_line(sets_to_failure({{7e5, 30}, {8e5, 25}, {9e5, 20}, {1e6, 15}})).value();
      },
      [] {
        (void)fit_exponential(
            sets_to_failure({{20, 60}, {21, 56}, {23, 56}, {25, 51}, {26, 52}, {28, 47}}))
            .value();
      },
      [] {
        (void)fit_critical_load(sets_to_failure({{59, 31}, {57.5, 31}, {52, 33}, {79.5, 24}}))
            .value();
      },
      [] {
        (void)fit_critical_load(sets_to_failure({{108.5, 3}, {94, 57}, {107, 2}, {102, 4}}))
            .value();
      },
      // the filter and the model
      [] { KalmanFilter(StateVector{{0.0}}, StateMatrix{{1.0}}).add_noise(3, 1.0); },
      [] { KalmanFilter(StateVector{{0.0}}, StateMatrix{{1.0}}).add_noise(0, -1.0); },
      [] { KalmanFilter(StateVector{{0.0}}, StateMatrix{{1.0}}).shift(0, nan); },
      [] { KalmanFilter(Eigen::VectorXd::Zero(2), Eigen::MatrixXd::Identity(3, 3)); },
      [] { KalmanFilter(Eigen::VectorXd::Zero(0), Eigen::MatrixXd::Identity(0, 0)); },
      [] {
        StateMatrix matrix(2, 2);
        matrix << 1, 2, 2, 1;
        KalmanFilter(StateVector{{0.0, 0.0}}, matrix);
      },
      [] {
        KalmanFilter(StateVector{{0.0}}, StateMatrix{{1.0}}).update({{0, 1.0}}, 1.0, 0.0);
      },
      [] { model_with([](auto& settings) { settings.reference = feet_up; }); },
      [] { model_with([](auto& settings) { settings.priors.max = Mass{}; }); },
      [] { model_with([](auto& settings) { settings.priors.max_log_sd = nan; }); },
      [] { model_with([](auto& settings) { settings.priors.trend_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.trend_weeks = infinity; }); },
      [] { model_with([](auto& settings) { settings.priors.level_walk = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.day_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.set_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.steadiness_log_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.early_weeks = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.novice_weeks = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.novice_trend_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.set_loss_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.ratio_walk = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.stretch_log_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.bend_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.rating_bias_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.unrated_reserve = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.unrated_reserve_sd = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.most_counted_reserve = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.most_surprise = 0.0; }); },
      [] { model_with([](auto& settings) { settings.priors.learning_kept = 1.0; }); },
      [] { model_with([](auto& settings) { settings.priors.rating_bias = nan; }); },
      [] { model_with([](auto& settings) { settings.priors.set_loss = nan; }); },
      [] { model_with([](auto& settings) {
             settings.priors.learning_gain = {0.01, 1.0, 1.1};
           }); },
      [] { (void)StrengthModel({}).fit().max(lifts::squat, monday); },
      [] {
        (void)StrengthModel({}).fit().load_for(feet_up, 5_reps, 2_rir, monday,
                                               {.max_chance_of_missing = 1.0});
      },
      [] { (void)StrengthModel({}).fit().joint(feet_up, monday, -1); },
      [] { (void)restored_with({}).max(lifts::bench_press, monday - 1); },
      [] { (void)restore_fit("no fit", {}); },
      [] { (void)restored_with({.experience = Experience::novice}); },
      [] {
        static const Modifier own("on_blue_bench", "on the blue bench", {0.9, 0.95, 1.0});
        (void)restored_with({}, lifts::bench_press + own);
      },
      // columns
      [=] {
        Eigen::ArrayXd maxes(3);
        batch::Faults faults(3);
        batch::one_rep_max(CurveLattice(equations::epley), kg, batch::Counts(2), fives, maxes,
                           faults);
      },
      [=] {
        Eigen::ArrayXd loads = kg;
        batch::Faults faults(3);
        batch::one_rep_max(CurveLattice(equations::epley), loads, fives, fives, loads, faults);
      },
      [] {
        struct Nowhere : decltype(equations::epley) {
          [[nodiscard]] RepRange defined() const noexcept { return {200.0, 300.0}; }
        };
        (void)CurveLattice(Nowhere{equations::epley});
      },
      [=] {
        Eigen::ArrayXXd loads(3, 2);
        batch::Faults faults(3);
        batch::load_table(kg, Eigen::ArrayXd::Constant(3, 0.5), loads, faults);
      },
      [=] {
        Eigen::ArrayXXd loads(3, 1);
        batch::Faults faults(3);
        batch::load_table(kg, Eigen::ArrayXd::Constant(1, 3.0), loads, faults);
      },
      [] {
        PlanningRules rules;
        rules.layoff_days = 0;
        check(rules);
      },
      [] { (void)stated_lifter(lifts::squat, 0_kg); },
      [] { (void)stated_lifter(lifts::squat, LifterFacts{}); },
      [] { (void)stated_lifter(lifts::squat + modifiers::high_bar, 100_kg); },
      [] {
        (void)stated_lifter(lifts::squat, 100_kg)
            .strength->max(lifts::bench_press, Date(2026, 11, 25));
      },
      [] { (void)Result<int>(Refusal{}).value(); },
      [] {
        const Date day(2026, 11, 25);
        (void)review_block({}, {.lift = lifts::squat, .from = day, .to = day});
      },
  };
}

}  // namespace

TEST_CASE("every error message of the library is reached and stands in docs/errors.md") {
  const std::vector<std::string> rows = listed();
  REQUIRE(rows.size() > 100);
  std::vector<bool> is_reached(rows.size(), false);
  int number = 0;
  for (const auto& refused : refusals()) {
    CAPTURE(number++);
    std::string message;
    try {
      refused();
    } catch (const DomainError& error) {
      message = error.what();
    }
    CAPTURE(message);
    CHECK(!message.empty());
    bool is_listed = false;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (!is_like(message, rows[i])) continue;
      is_listed = true;
      is_reached[i] = true;
    }
    CHECK_MESSAGE(is_listed, "docs/errors.md has no row like this");
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CHECK_MESSAGE(is_reached[i], "no call above gets: ", rows[i]);
  }
}
