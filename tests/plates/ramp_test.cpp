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

TEST_CASE("2,000 random ramps take as few moves as exhaustive search finds") {
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
