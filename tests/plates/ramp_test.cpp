// A whole ramp, held against every order of every combination of plates.
#include "barwright/plates/ramp.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <ctime>
#include <span>
#include <utility>
#include <vector>

#include "plates/plain_search.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace plain_search;

namespace {

using PlainStack = std::vector<std::size_t>;  // kinds, inside to outside

int moves_between(const PlainStack& a, const PlainStack& b) {
  std::size_t same = 0;
  while (same < a.size() && same < b.size() && a[same] == b[same]) ++same;
  return static_cast<int>(a.size() + b.size() - 2 * same);
}

void all_stacks(const Plates& plates, long long rest, PlainStack& stack,
                std::vector<PlainStack>& result) {
  if (rest == 0) result.push_back(stack);
  if (rest <= 0) return;
  for (std::size_t k = 0; k < plates.size(); ++k) {
    const auto used = std::count(stack.begin(), stack.end(), k);
    if (used == plates[k].per_side() || ticks(plates[k]) > rest) continue;
    stack.push_back(k);
    all_stacks(plates, rest - ticks(plates[k]), stack, result);
    stack.pop_back();
  }
}

/// The fewest moves, and of those the fewest plates over all steps, by trying every order of every
/// combination of plates at every step.
std::pair<int, int> fewest_moves(const Plates& plates, const std::vector<long long>& sides) {
  std::vector<std::pair<PlainStack, std::pair<int, int>>> before{{{}, {0, 0}}};
  for (const long long side : sides) {
    std::vector<PlainStack> stacks;
    PlainStack empty;
    all_stacks(plates, side, empty, stacks);
    std::vector<std::pair<PlainStack, std::pair<int, int>>> now;
    for (const PlainStack& stack : stacks) {
      std::pair<int, int> best{1'000'000, 0};
      for (const auto& [from_stack, cost] : before) {
        best = std::min(best, {cost.first + moves_between(from_stack, stack),
                               cost.second + static_cast<int>(stack.size())});
      }
      now.emplace_back(stack, best);
    }
    before = std::move(now);
  }
  std::pair<int, int> best{1'000'000, 0};
  for (const auto& [stack, cost] : before) best = std::min(best, cost);
  return best;
}

long long side_ticks(const Loading& loading) {
  long long sum = 0;
  for (const MarkedMass plate : loading.plates()) sum += ticks(Plate(plate));
  return sum;
}

/// The plan's moves and plates, after checking that it can be carried out.
std::pair<int, int> carried_out(const Room& room, const Ramp& ramp) {
  std::pair<int, int> cost{0, 0};
  std::vector<MarkedMass> sleeve;
  for (const RampStep& step : ramp.steps) {
    const auto& plates = step.loading.plates();
    REQUIRE(step.taken_off <= static_cast<int>(sleeve.size()));
    sleeve.resize(sleeve.size() - static_cast<std::size_t>(step.taken_off));
    REQUIRE(sleeve.size() + static_cast<std::size_t>(step.put_on) == plates.size());
    for (std::size_t i = sleeve.size(); i < plates.size(); ++i) sleeve.push_back(plates[i]);
    REQUIRE(std::equal(sleeve.begin(), sleeve.end(), plates.begin(), plates.end()));
    const std::vector<int> used = counts(room, step.loading);
    for (std::size_t k = 0; k < used.size(); ++k) REQUIRE(used[k] <= room.plates()[k].per_side());
    cost.first += step.moves();
    cost.second += static_cast<int>(plates.size());
  }
  CHECK(ramp.moves() == cost.first);
  return cost;
}

}  // namespace

TEST_CASE("2,000 random ramps take as few moves as exhaustive search finds" *
          doctest::test_suite("slow")) {
  Random random(1896);
  int descending_somewhere = 0;
  int better_than_single = 0;
  int limited = 0;
  for (int trial = 0; trial < 2'000; ++trial) {
    // Small masses keep the exhaustive search small: at most eight units a side.
    Plates plates;
    const int flavour = from(random, 0, 3);
    for (int kinds = from(random, 1, 4); kinds > 0; --kinds) {
      const int per_side = from(random, 0, 1) == 0 ? Plate::unlimited : from(random, 1, 2);
      const double mark = from(random, 1, 6);
      const bool lb = flavour == 1 || (flavour == 2 && from(random, 0, 1) == 1);
      const double off = flavour == 3 ? from(random, -3, 3) / 1000.0 : 0.0;  // weighed
      plates.add(Plate(mark + off, lb ? Unit::lb : Unit::kg, per_side));
      limited += per_side != Plate::unlimited;
    }
    const Room room(Bar(20, Unit::kg), plates);
    std::vector<Mass> loads;
    for (int n = from(random, 1, 5); n > 0; --n) {
      loads.push_back(Mass::from_kg(20.0 + from(random, 0, 17) * (flavour == 1 ? 0.4536 : 1.0)));
    }
    if (trial % 2 == 0) std::sort(loads.begin(), loads.end());

    const Ramp ramp = plan_ramp(room, loads);
    REQUIRE(ramp.steps.size() == loads.size());
    std::vector<long long> sides;
    int single_moves = 0;
    PlainStack before;
    for (std::size_t i = 0; i < loads.size(); ++i) {
      CHECK(ramp.steps[i].target == loads[i]);
      const Loading single = room.nearest(loads[i]);
      CHECK(side_ticks(ramp.steps[i].loading) == side_ticks(single));
      sides.push_back(side_ticks(single));
      PlainStack stack;
      for (const MarkedMass plate : single.plates()) {
        for (std::size_t k = 0; k < plates.size(); ++k) {
          if (plates[k].mass() == plate) stack.push_back(k);
        }
      }
      single_moves += moves_between(before, stack);
      before = stack;
      descending_somewhere += i > 0 && sides[i] < sides[i - 1];
    }
    CAPTURE(trial);
    const auto cost = carried_out(room, ramp);
    REQUIRE(cost == fewest_moves(plates, sides));
    REQUIRE(cost.first <= single_moves);
    better_than_single += cost.first < single_moves;
  }
  CHECK(descending_somewhere > 500);
  CHECK(better_than_single > 200);
  CHECK(limited > 1000);
}

TEST_CASE("a ramp of the gym set leaves on what it can") {
  // Largest first would strip the bar again and again: 23 moves, counted by hand from the fewest
  // plates of each step.
  const Ramp ramp = plan_ramp(plate_sets::gym_kg,
                              {20_kg, 60_kg, 80_kg, 95_kg, 107.5_kg, 115_kg, 122.5_kg, 130_kg});
  CHECK(carried_out(plate_sets::gym_kg, ramp).first == 12);
  CHECK(ramp.steps.back().loading.total() == 130_kg);
}

TEST_CASE("a ramp honours limits that bind only at some steps") {
  const Room room = parse_room("bar 20 kg; plates 20x1 10x3 5x1 2.5x1 kg");
  const Ramp ramp = plan_ramp(room, {40_kg, 60_kg, 80_kg, 100_kg, 110_kg, 70_kg, 40_kg});
  std::vector<long long> sides;
  for (const RampStep& step : ramp.steps) sides.push_back(side_ticks(step.loading));
  CHECK(carried_out(room, ramp) == fewest_moves(room.plates(), sides));
}

TEST_CASE("a ramp never puts more than 32 plates on a side") {
  // 29 ones, then 30 to 33 a side: without the limit every step would add a one. With it the 30
  // must come once, at 29 moves off and 1 on; then the earlier the fewer plates: 1, 2, 3, 4.
  const Room room = parse_room("bar 20 kg; plates 30 1 kg");
  const Ramp ramp = plan_ramp(room, {78_kg, 80_kg, 82_kg, 84_kg, 86_kg});
  CHECK(carried_out(room, ramp) == std::pair(29 + 30 + 3, 29 + 1 + 2 + 3 + 4));
}

TEST_CASE("a ramp rounds as asked, and says which load it cannot make") {
  const std::array loads{61_kg, 99_kg};
  CHECK(plan_ramp(plate_sets::gym_kg, loads).steps[0].loading.total() == 60_kg);
  CHECK(plan_ramp(plate_sets::gym_kg, loads, Rounding::up).steps[0].loading.total() == 62.5_kg);
  CHECK(plan_ramp(plate_sets::gym_kg, loads, Rounding::down).steps[1].loading.total() == 97.5_kg);
  CHECK(message([] {
          (void)plan_ramp(plate_sets::gym_kg, {60_kg, 15_kg}, Rounding::down);
        }) == "a load of the ramp must be at least that of the empty bar; got 15 kg");
  const Room few = parse_room("bar 45 lb; plates 10x1 lb");
  CHECK(message([&] { (void)plan_ramp(few, {70_lb}, Rounding::up); }) ==
        "a load of the ramp must be within what the plates make; got 70 lb");
  CHECK_THROWS_AS((void)plan_ramp(few, std::span<const Mass>()), DomainError);
  CHECK_THROWS_AS((void)plan_ramp(few, std::vector<Mass>(65, 45_lb)), DomainError);
  CHECK(plan_ramp(few, std::vector<Mass>(64, 65_lb)).moves() == 1);
}

TEST_CASE("a ramp that cannot be planned exactly in good time is refused, and soon") {
  const Room odd = parse_room(
      "bar 20 kg; plates 24.999x9 23.987x9 19.973x9 17.961x9 14.947x9 11.933x9 9.919x9 7.903x9 kg");
  std::vector<Mass> loads;
  for (int i = 1; i <= 12; ++i) loads.push_back(Mass::from_kg(20.0 + 17.3 * i));
  const std::clock_t start = std::clock();
  CHECK_THROWS_WITH_AS(
      (void)plan_ramp(odd, loads),
      "the plates for a ramp must be few enough to plan exactly in 33,554,432 steps; got more",
      DomainError);
  CHECK(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC < 2.0);
}

// ---- as people load [common practice: heaviest inside, few plates, few moves] -------------------

namespace {

int plates_on(const Loading& loading) { return static_cast<int>(loading.plates().size()); }

/// The least moves, with two more for each plate of the last bar, of all ways through stacks that
/// are sorted and at most two plates above the fewest.
int least_sorted(const Plates& plates, const std::vector<long long>& sides) {
  std::vector<std::pair<PlainStack, int>> before{{{}, 0}};
  for (const long long side : sides) {
    std::vector<PlainStack> stacks;
    PlainStack empty;
    all_stacks(plates, side, empty, stacks);
    if (side == 0) stacks.assign(1, {});
    std::size_t fewest = 99;
    for (const PlainStack& stack : stacks) fewest = std::min(fewest, stack.size());
    std::vector<std::pair<PlainStack, int>> now;
    for (const PlainStack& stack : stacks) {
      // Kinds are numbered from the heaviest.
      if (!std::is_sorted(stack.begin(), stack.end()) || stack.size() > fewest + 2) continue;
      int best = 1'000'000;
      for (const auto& [from_stack, cost] : before) {
        best = std::min(best, cost + moves_between(from_stack, stack));
      }
      now.emplace_back(stack, best);
    }
    before = std::move(now);
  }
  int best = 1'000'000;
  for (const auto& [stack, cost] : before) {
    best = std::min(best, cost + 4 * static_cast<int>(stack.size()));
  }
  return best;
}

}  // namespace

TEST_CASE("in 2,000 random rooms each step is sorted, loads its load, and moves are few") {
  Random random(2024);
  int rising = 0;
  for (int trial = 0; trial < 2'000; ++trial) {
    Plates plates;
    for (int kinds = from(random, 1, 4); kinds > 0; --kinds) {
      plates.add(Plate(from(random, 1, 6), from(random, 0, 3) == 0 ? Unit::lb : Unit::kg,
                       from(random, 0, 1) == 0 ? Plate::unlimited : from(random, 1, 2)));
    }
    const Room room(Bar(20, Unit::kg), plates);
    std::vector<Mass> loads;
    for (int n = from(random, 1, 5); n > 0; --n) {
      loads.push_back(Mass::from_kg(20.0 + from(random, 0, 17)));
    }
    if (trial % 2 == 0) std::sort(loads.begin(), loads.end());
    // Steps that load the same would have to be told apart, which moves cannot.
    std::vector<long long> sides;
    for (const Mass load : loads) sides.push_back(side_ticks(room.nearest(load)));
    CAPTURE(trial);
    const Ramp ramp = practical_ramp(room, loads, 0.0);
    const auto cost = carried_out(room, ramp);
    for (std::size_t i = 0; i < loads.size(); ++i) {
      REQUIRE(side_ticks(ramp.steps[i].loading) == sides[i]);
      REQUIRE(is_heaviest_innermost(ramp.steps[i].loading));
      REQUIRE(plates_on(ramp.steps[i].loading) <= plates_on(room.nearest(loads[i])) + 2);
    }
    REQUIRE(cost.first + 4 * plates_on(ramp.steps.back().loading) == least_sorted(plates, sides));
    rising += std::is_sorted(sides.begin(), sides.end());
  }
  CHECK(rising > 1000);
}

TEST_CASE("warm-ups give way a little to spare moves; the work load never does" *
          doctest::test_suite("slow")) {
  for (const Room* const room :
       {&plate_sets::gym_kg, &plate_sets::gym_lb, &plate_sets::powerlifting_record,
        &plate_sets::weightlifting_men}) {
    const Unit unit = room->bar().mass.unit();
    const Mass empty = room->empty_bar().total();
    for (double share = 1.6; share < 12.0; share += 0.07) {
      const Mass work = room->at_most(share * empty)->total();
      std::vector<Mass> loads{empty};
      for (const double part : {0.40, 0.60, 0.75, 0.87}) {
        const Mass load = room->nearest(part * work).total();
        if (load > loads.back() && load < work) loads.push_back(load);
      }
      loads.push_back(work);
      CAPTURE(to_text(work, unit).str());
      const Ramp ramp = practical_ramp(*room, loads, warm_up_leeway);
      const Ramp as_asked = practical_ramp(*room, loads, 0.0);
      carried_out(*room, ramp);
      CHECK(ramp.steps.front().loading.plates().empty());
      CHECK(ramp.steps.back().loading.total() == work);
      CHECK(ramp.moves() <= as_asked.moves());
      const Plate& smallest = room->plates()[room->plates().size() - 1];
      const Mass leeway = std::max(warm_up_leeway * work, 2.0 * smallest.mass().mass());
      for (std::size_t i = 0; i < loads.size(); ++i) {
        const Mass load = ramp.steps[i].loading.total();
        CHECK(is_heaviest_innermost(ramp.steps[i].loading));
        CHECK(load <= loads[i] + leeway + 1e-6 * 1_kg);
        CHECK(load >= loads[i] - leeway - 1e-6 * 1_kg);
        if (i > 0) CHECK(load > ramp.steps[i - 1].loading.total());
      }
    }
  }
}

TEST_CASE("137.5 kg is four or five plates a side, not seven") {
  const Ramp ramp = practical_ramp(
      plate_sets::gym_kg, {20_kg, 55_kg, 82.5_kg, 102.5_kg, 120_kg, 137.5_kg}, warm_up_leeway);
  CHECK(plates_on(ramp.steps.back().loading) == 5);
  CHECK(marks(ramp.steps[1].loading) == std::vector<double>{20});
}

TEST_CASE("100 kg is reached by one plate more at nearly every step") {
  const Ramp ramp = practical_ramp(plate_sets::gym_kg,
                                   {20_kg, 40_kg, 60_kg, 75_kg, 87.5_kg, 100_kg}, warm_up_leeway);
  CHECK(marks(ramp.steps[5].loading) == std::vector<double>{25, 15});
  CHECK(ramp.moves() == 8);
}

TEST_CASE("back-off sets after the top one keep their loads") {
  const Ramp ramp =
      practical_ramp(plate_sets::gym_kg, {20_kg, 60_kg, 100_kg, 90_kg, 90_kg}, warm_up_leeway);
  CHECK(ramp.steps[3].loading.total() == 90_kg);
  CHECK(ramp.steps[4].moves() == 0);
}

TEST_CASE("a practical ramp is planned in a room of two dozen odd plates") {
  Random random(5);
  Plates plates;
  for (int k = 0; k < 24; ++k) {
    plates.add(Plate(from(random, 500, 25'000) / 1000.0, k % 2 == 0 ? Unit::kg : Unit::lb, 9));
  }
  const Room room(Bar(20, Unit::kg), plates);
  const Ramp ramp =
      practical_ramp(room, {20_kg, 61_kg, 92_kg, 115_kg, 133_kg, 153_kg}, warm_up_leeway);
  carried_out(room, ramp);
  for (const RampStep& step : ramp.steps) CHECK(is_heaviest_innermost(step.loading));
}

TEST_CASE("a practical ramp refuses what is no ramp") {
  CHECK_THROWS_AS((void)practical_ramp(plate_sets::gym_kg, std::span<const Mass>(), 0.0),
                  DomainError);
  CHECK_THROWS_WITH_AS((void)practical_ramp(plate_sets::gym_kg, {60_kg}, -0.1),
                       "the leeway of a ramp must be a share from 0 to 0.25; got -0.1",
                       DomainError);
  CHECK_THROWS_AS((void)practical_ramp(plate_sets::gym_kg, {60_kg}, 0.3), DomainError);
}
