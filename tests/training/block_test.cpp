// tests/training/block_test.cpp - weeks of a lift
//
// Common practice or this library's inference.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "all_lifts.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/training.hpp"
#include "training/results.hpp"

using namespace barwright_test;

namespace {

/// What must hold of every block.
void check_block(const Block& block, const Room& room, const BlockSettings& settings,
                 const std::optional<Introduction>& introduction) {
  REQUIRE(!block.steps.empty());
  std::optional<Mass> heaviest = settings.last_load;
  Mass last_working{};
  Stage stage = Stage::introduction;
  int lighter = 0;
  int working = 0;
  for (std::size_t i = 0; i < block.steps.size(); ++i) {
    CAPTURE(i);
    const BlockStep& step = block.steps[i];
    const StepPlan& plan = step.plan;
    const Mass load = step.loading.total();

    // One session after the other, so many a week; the parts in their order.
    CHECK(plan.week == static_cast<int>(i) / settings.sessions_a_week + 1);
    CHECK(plan.session == static_cast<int>(i) % settings.sessions_a_week + 1);
    CHECK(plan.exposure == settings.earlier_sessions + static_cast<int>(i) + 1);
    CHECK(plan.stage >= stage);
    stage = plan.stage;

    // Every load is in the room, rounded down, and at most a tenth above any before it.
    CHECK(is_loadable(room, load));
    if (plan.stage != Stage::deload) CHECK(load <= step.wanted * (1.0 + rounding));
    if (heaviest) CHECK(load <= *heaviest * (1.10 + rounding));
    if (!heaviest || load > *heaviest) heaviest = load;

    // A load short of what the room could make of the one wanted has its reason.
    const auto wanted = room.at_most(step.wanted);
    const bool is_short = wanted && wanted->total() > load * (1.0 + rounding);
    if (plan.stage != Stage::deload) {
      CHECK(is_short ==
            (step.limit == StepLimit::greatest_rise || step.limit == StepLimit::plate_gap ||
             step.limit == StepLimit::working_load));
    }
    CHECK(!step.conditions.go_on.empty());

    switch (plan.stage) {
      case Stage::introduction: {
        REQUIRE(introduction.has_value());
        const Exposure& exposure = (*introduction)[static_cast<std::size_t>(plan.exposure) - 1];
        CHECK(load <= exposure.load * (1.0 + rounding));
        CHECK(plan.reps == exposure.reps);
        CHECK(plan.sets == exposure.sets);
        CHECK(plan.reserve == exposure.least_reserve);
        CHECK(step.conditions.go_on == exposure.before_next);
        break;
      }
      case Stage::working:
        ++working;
        last_working = load;
        CHECK(plan.exposure > 4);  // nobody works up to a lift they have not learnt
        CHECK(plan.reserve <= settings.first_reserve);
        CHECK(plan.reserve >= settings.last_reserve);
        break;
      case Stage::deload:
        ++lighter;
        // Lighter than the last work, if the room has anything lighter; fewer sets in any case.
        CHECK((load < last_working || plan.reps <= Reps((settings.reps.count() + 1) / 2)));
        CHECK(plan.sets <= (settings.sets + 1) / 2);
        CHECK(plan.reserve > settings.last_reserve);
        break;
      case Stage::retest:
        CHECK(i + 1 == block.steps.size());
        CHECK(plan.exposure > 4);
        CHECK(plan.reserve.count() >= 1.0);
        break;
    }
  }
  CHECK(working >= settings.working_weeks * settings.sessions_a_week);
  CHECK(working < (settings.working_weeks + 1) * settings.sessions_a_week);
  CHECK(lighter == (settings.has_deload ? settings.sessions_a_week : 0));
  CHECK((block.steps.back().plan.stage == Stage::retest) == settings.has_retest);
  CHECK(block.weeks() == block.steps.back().plan.week);
}

}  // namespace

TEST_CASE("a block of a known lift, by hand") {
  // Wathen 1994 (from memory): 100 % / (48.8 + 53.8 e^(-0.075 r)) per cent, made exact at one
  // rep; 6 + 3, 6 + 2.5 and 6 + 2 reps of 100 kg, in steps of 2.5 kg.
  const auto share = [](double r) {
    const auto wathen = [](double x) { return 48.8 + 53.8 * std::exp(-0.075 * x); };
    return wathen(r) / wathen(1.0);
  };
  const auto down = [](double kg) { return 2.5 * std::floor(kg / 2.5); };
  const BlockSettings settings{.sessions_a_week = 1, .earlier_sessions = 9};
  const Block block =
      plan_block(plate_sets::gym_kg, settings, equations::wathen, lifts::bench_press, 100_kg);
  REQUIRE(block.steps.size() == 6);
  const double reserves[] = {3.0, 3.0, 2.5, 2.0};
  for (std::size_t week = 0; week < 4; ++week) {
    CAPTURE(week);
    CHECK(block.steps[week].plan.stage == Stage::working);
    CHECK(block.steps[week].plan.reserve.count() == reserves[week]);
    CHECK(block.steps[week].loading.total().kg() ==
          doctest::Approx(down(100.0 * share(6.0 + reserves[week]))));
  }
  CHECK(block.steps[4].plan.stage == Stage::deload);
  CHECK(block.steps[4].plan.sets == 2);
  CHECK(block.steps[4].loading.total().kg() ==
        doctest::Approx(down(0.9 * block.steps[3].loading.total().kg())));
  CHECK(block.steps[5].plan.stage == Stage::retest);
  CHECK(block.steps[5].loading.total().kg() ==
        doctest::Approx(
            std::min(down(100.0 * share(5.0)), down(1.1 * block.steps[3].loading.total().kg()))));
}

TEST_CASE("a new lift is introduced first, in steps of 10 % of what was really loaded") {
  const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
  const Block block = plan_block(plate_sets::gym_kg, {}, equations::wathen, lift, 120_kg);
  const Introduction introduction = introduce(equations::wathen, lift, 120_kg, 6_reps, 3_rir);
  check_block(block, plate_sets::gym_kg, {}, introduction);
  Mass before{};
  for (std::size_t i = 0; i < introduction.size(); ++i) {
    CAPTURE(i);
    const Mass most = i == 0 ? introduction[i].load : std::min(introduction[i].load, 1.1 * before);
    before = block.steps[i].loading.total();
    CHECK(before == plate_sets::gym_kg.at_most(most)->total());
  }
  CHECK(block.steps[introduction.size()].plan.stage == Stage::working);
}

TEST_CASE("a lift done twice goes on with the third session of its introduction") {
  const Lift lift = lifts::bench_press + modifiers::incline;
  const Introduction introduction = introduce(equations::wathen, lift, 90_kg, 6_reps, 3_rir);
  const Block block =
      plan_block(plate_sets::gym_kg, {.earlier_sessions = 2}, equations::wathen, lift, 90_kg);
  CHECK(block.steps[0].plan.exposure == 3);
  CHECK(block.steps[0].conditions.go_on == introduction[2].before_next);
}

TEST_CASE("every lift, weak and strong, in every room: the same rules hold of its block" *
          doctest::test_suite("slow")) {
  int blocks = 0;
  const std::vector<Room> all_rooms = rooms();
  for (const Lift& lift : barwright_test::all_lifts(1)) {
    CAPTURE(std::string(lift.name()));
    for (std::size_t r = 0; r < all_rooms.size(); ++r) {
      CAPTURE(r);
      const Room& room = all_rooms[r];
      for (const double kg : {60.0, 105.0, 230.0}) {
        for (const int earlier : {0, 3, 20}) {
          for (const int reps : {2, 6, 10}) {
            BlockSettings settings;
            settings.earlier_sessions = earlier;
            settings.reps = Reps(reps);
            settings.sessions_a_week = 1 + blocks % 4;
            settings.working_weeks = 1 + blocks % 5;
            settings.sets = 1 + blocks % 6;
            settings.first_reserve = RepsInReserve(2.0 + blocks % 3);
            settings.last_reserve = RepsInReserve(blocks % 3);
            settings.has_deload = blocks % 7 != 0;
            settings.has_retest = blocks % 5 != 0;
            if (blocks % 2 == 0) settings.last_load = Mass::from_kg(0.4 * kg);
            const Mass max = Mass::from_kg(kg);
            std::optional<Introduction> introduction =
                introduce(equations::wathen, lift, max, settings.reps, settings.first_reserve);
            if (static_cast<std::size_t>(earlier) >= introduction->size()) introduction.reset();
            try {
              const Block block = plan_block(room, settings, equations::wathen, lift, max);
              check_block(block, room, settings, introduction);
              ++blocks;
            } catch (const DomainError& error) {
              // Only for want of a lighter bar.
              CHECK((std::string(error.what()).find("empty bar") != std::string::npos));
            }
          }
        }
      }
    }
  }
  CHECK(blocks > 1000);
}

TEST_CASE("loads from any function are rounded, and reached in steps of at most 10 %") {
  const BlockSettings settings{.earlier_sessions = 8, .last_load = 60_kg};
  const Block block = plan_block(plate_sets::gym_kg, settings, std::nullopt, always(81_kg));
  check_block(block, plate_sets::gym_kg, settings, std::nullopt);
  CHECK(block.steps[0].loading.total() == 65_kg);  // 66 kg, rounded down
  CHECK(block.steps[0].limit == StepLimit::greatest_rise);
  CHECK(block.steps[1].loading.total() == 70_kg);
  CHECK(block.steps[2].loading.total() == 75_kg);
  CHECK(block.steps[3].loading.total() == 80_kg);
  CHECK(block.steps[3].limit == StepLimit::none);
}

TEST_CASE("coarse plates hold the load, and say that they do") {
  const Room coarse = parse_room("bar 20 kg; plates 20 10 5 kg");
  const BlockSettings settings{.earlier_sessions = 8, .last_load = 60_kg};
  const Block block = plan_block(coarse, settings, std::nullopt, always(81_kg));
  check_block(block, coarse, settings, std::nullopt);
  CHECK(block.steps[0].loading.total() == 60_kg);
  CHECK(block.steps[0].limit == StepLimit::plate_gap);
}

TEST_CASE("where the plates end, the block says so") {
  const BlockSettings settings{.earlier_sessions = 8};
  const Block block = plan_block(parse_room("bar 20 kg; plates 20x1 10x1 kg"), settings,
                                 std::nullopt, always(100_kg));
  CHECK(block.steps[0].loading.total() == 80_kg);
  CHECK(block.steps[0].limit == StepLimit::equipment);
}

TEST_CASE("no session of a block is likelier to be missed than asked") {
  // A bound on the chance of missing is a load: here one that the introduction would outgrow.
  const Lift lift = lifts::bench_press + modifiers::pause;
  const auto bounded = [](const StepPlan& plan) {
    return Mass::from_kg(72.0 - plan.reserve.count() - 0.1 * plan.week);
  };
  for (const int reps : {3, 6, 10}) {
    for (int earlier = 0; earlier < 4; ++earlier) {
      const BlockSettings settings{.reps = Reps(reps), .earlier_sessions = earlier};
      const Introduction introduction =
          introduce(equations::wathen, lift, 130_kg, settings.reps, settings.first_reserve);
      const Block block = plan_block(plate_sets::gym_kg, settings, introduction, bounded);
      check_block(block, plate_sets::gym_kg, settings, introduction);
      const auto work =
          std::find_if(block.steps.begin(), block.steps.end(),
                       [](const BlockStep& step) { return step.plan.stage == Stage::working; });
      bool is_held_down = false;
      for (const BlockStep& step : block.steps) {
        CHECK(step.loading.total() <= bounded(step.plan) * (1.0 + rounding));
        if (step.plan.stage != Stage::introduction) continue;
        CHECK(step.loading.total() <= work->loading.total());
        is_held_down = is_held_down || step.limit == StepLimit::working_load;
      }
      CHECK(is_held_down);
    }
  }
}

TEST_CASE("an introduction first asks what the first session of work will be") {
  const Lift lift = lifts::bench_press + modifiers::pause;
  const Introduction introduction = introduce(equations::wathen, lift, 130_kg, 6_reps, 3_rir);
  const auto sessions = static_cast<int>(introduction.size());
  for (const int earlier : {0, 1, 3}) {
    std::vector<StepPlan> asked;
    const Block block =
        plan_block(plate_sets::gym_kg, {.sessions_a_week = 2, .earlier_sessions = earlier},
                   introduction, [&](const StepPlan& plan) {
                     asked.push_back(plan);
                     return 60_kg;
                   });
    const StepPlan& first = asked.front();
    CHECK(first.stage == Stage::working);
    CHECK(first.exposure == sessions + 1);
    CHECK(first.week == (sessions - earlier) / 2 + 1);
    CHECK(first.session == (sessions - earlier) % 2 + 1);
    for (std::size_t i = 0; i < introduction.size() - static_cast<std::size_t>(earlier); ++i) {
      CHECK(asked[i + 1].exposure == block.steps[i].plan.exposure);
    }
  }
}

TEST_CASE("no introduction goes beyond the work, be it by a few per cent") {
  const Lift lift = lifts::bench_press + modifiers::pause;
  const Introduction introduction = introduce(equations::wathen, lift, 130_kg, 6_reps, 3_rir);
  const Mass last = introduction[introduction.size() - 1].load;
  for (const double share : {0.85, 0.92, 0.95, 0.98}) {
    CAPTURE(share);
    const Block block =
        plan_block(plate_sets::gym_kg, {.reps = 6_reps}, introduction, always(last * share));
    const BlockStep& step = block.steps[introduction.size() - 1];
    REQUIRE(step.plan.stage == Stage::introduction);
    CHECK(step.loading.total() <= last * share);
    CHECK(step.limit == StepLimit::working_load);
  }
}

TEST_CASE("a load that falls while no more is to be left is named") {
  // A forecast that allows 2 kg less every week, from 81 kg on.
  const auto falling = [](const StepPlan& plan) { return Mass::from_kg(83.0 - 2.0 * plan.week); };
  const BlockSettings settings{
      .sessions_a_week = 1, .has_retest = false, .earlier_sessions = 9, .last_load = 80_kg};
  const Block block = plan_block(plate_sets::gym_kg, settings, std::nullopt, falling);
  REQUIRE(block.steps.size() == 5);
  CHECK(block.steps[0].loading.total() == 80_kg);
  CHECK(block.steps[0].limit == StepLimit::none);
  CHECK(block.steps[1].loading.total() == 77.5_kg);
  for (std::size_t week = 1; week < 4; ++week)
    CHECK(block.steps[week].limit == StepLimit::falling_forecast);
  CHECK(block.steps[4].limit == StepLimit::none);  // a deload is to fall
}

TEST_CASE("a block of one working week is as hard as its first, and so is its deload") {
  BlockSettings settings{.working_weeks = 1, .earlier_sessions = 9};
  settings.first_reserve = 4_rir;
  settings.last_reserve = 1_rir;
  const Block block = plan_block(plate_sets::gym_kg, settings, std::nullopt, always(60_kg));
  CHECK(block.steps[0].plan.reserve == 4_rir);
  REQUIRE(block.steps[2].plan.stage == Stage::deload);
  CHECK(block.steps[2].plan.reserve == 6_rir);
}

TEST_CASE("where the room has nothing lighter, a deload has fewer reps") {
  const Room heavy_bar = parse_room("bar 20 kg; plates 10 kg");
  const Block block = plan_block(heavy_bar, {.earlier_sessions = 9}, std::nullopt, always(25_kg));
  const BlockStep& lighter = block.steps[8];
  REQUIRE(lighter.plan.stage == Stage::deload);
  CHECK(lighter.loading.total() == 20_kg);
  CHECK(lighter.plan.sets == 2);
  CHECK(lighter.plan.reps == 3_reps);
}

TEST_CASE("a retest no heavier than the work goes on until its reserve is reached") {
  // With steps of 20 kg, three reps at the load of the sixes would say nothing new.
  const auto by_reps = [](const StepPlan& plan) {
    return Mass::from_kg(60.0 - 2.0 * plan.reps.count());
  };
  const Block coarse =
      plan_block(parse_room("bar 20 kg; plates 10 kg"), {.earlier_sessions = 9, .last_load = 40_kg},
                 std::nullopt, by_reps);
  CHECK(coarse.steps.back().loading.total() == 40_kg);
  CHECK(coarse.steps.back().plan.to_reserve);
  CHECK(coarse.steps.back().plan.reps == 6_reps);  // or more

  const Block fine = plan_block(plate_sets::gym_kg, {.earlier_sessions = 9, .last_load = 47.5_kg},
                                std::nullopt, by_reps);
  CHECK(fine.steps.back().loading.total() == 50_kg);  // 54 kg, but for the 10 %
  CHECK(!fine.steps.back().plan.to_reserve);
  CHECK(fine.steps.back().plan.reps == 3_reps);
}

TEST_CASE("no retest before the fifth session of a lift") {
  for (int earlier = 0; earlier < 4; ++earlier) {
    CHECK_THROWS_AS((void)plan_block(plate_sets::gym_kg, {.earlier_sessions = earlier},
                                     std::nullopt, always(60_kg)),
                    DomainError);
  }
  const Block block = plan_block(plate_sets::gym_kg, {.working_weeks = 1, .earlier_sessions = 4},
                                 std::nullopt, always(60_kg));
  CHECK(block.steps.back().plan.stage == Stage::retest);
}

TEST_CASE("settings out of range are refused") {
  const auto is_refused = [](BlockSettings settings) {
    if (settings.earlier_sessions == 0) settings.earlier_sessions = 9;
    CHECK_THROWS_AS((void)plan_block(plate_sets::gym_kg, settings, std::nullopt, always(60_kg)),
                    DomainError);
  };
  is_refused({.sessions_a_week = 0});
  is_refused({.sessions_a_week = 8});
  is_refused({.working_weeks = 0});
  is_refused({.working_weeks = 27});
  is_refused({.sets = 0});
  is_refused({.sets = 21});
  is_refused({.first_reserve = 1_rir, .last_reserve = 2_rir});
  is_refused({.deload_cut = 0.04});
  is_refused({.deload_cut = 0.51});
  is_refused({.deload_cut = std::nan("")});
  is_refused({.retest_reserve = 0.5_rir});
  is_refused({.earlier_sessions = -1});
  is_refused({.last_load = Mass{}});
  CHECK_THROWS_AS(
      (void)plan_block(plate_sets::gym_kg, {.earlier_sessions = 9}, std::nullopt, always(15_kg)),
      DomainError);  // the bar is heavier
}
