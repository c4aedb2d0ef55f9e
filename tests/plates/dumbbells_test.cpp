// Dumbbells and stacks, held against the list of their loads.
#include "barwright/plates/dumbbells.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "plates/plain_search.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace plain_search;

TEST_CASE("dumbbells and machine stacks answer as their list of loads does") {
  Random random(7);
  const std::array racks{dumbbells(2.5, 40, 2.5, Unit::kg), dumbbells(5, 100, 5, Unit::lb),
                         dumbbells(1, 1, 0.5, Unit::kg), machine_stack(7, 4.5, 20, Unit::kg)};
  std::array<std::vector<MarkedMass>, 4> lists;
  for (int i = 1; i <= 16; ++i) lists[0].emplace_back(2.5 * i, Unit::kg);
  for (int i = 1; i <= 20; ++i) lists[1].emplace_back(5.0 * i, Unit::lb);
  lists[2].emplace_back(1, Unit::kg);
  for (int i = 0; i < 20; ++i) lists[3].emplace_back(7 + 4.5 * i, Unit::kg);
  for (std::size_t rack = 0; rack < racks.size(); ++rack) {
    for (int trial = 0; trial < 1000; ++trial) {
      const Mass load = trial % 2 == 0 ? Mass::from_kg(from(random, 0, 240) * 0.25)
                                       : Mass::from_lb(from(random, 0, 220) * 0.5);
      const long long goal = std::llround(load.kg() * 1e11);
      std::optional<MarkedMass> below;
      std::optional<MarkedMass> above;
      std::optional<MarkedMass> nearest;
      for (const MarkedMass mark : lists[rack]) {
        if (mark.ticks() <= goal) below = mark;
        if (mark.ticks() >= goal && !above) above = mark;
        if (!nearest || std::llabs(mark.ticks() - goal) < std::llabs(nearest->ticks() - goal)) {
          nearest = mark;
        }
      }
      REQUIRE(racks[rack].at_most(load) == below);
      REQUIRE(racks[rack].at_least(load) == above);
      REQUIRE(racks[rack].nearest(load) == *nearest);
    }
  }
  CHECK(to_text(dumbbells(2.5, 40, 2.5, Unit::kg).nearest(Mass::from_kg(28.0))) == "27.5 kg");
  CHECK(machine_stack(7, 4.5, 20, Unit::kg).nearest(1000_kg) == MarkedMass(92.5, Unit::kg));
  CHECK(dumbbells(2.5, 40, 2.5, Unit::kg).nearest(1000_kg) == MarkedMass(40, Unit::kg));
  CHECK_THROWS_AS((void)dumbbells(2.5, 41, 2.5, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)dumbbells(10, 5, 2.5, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)dumbbells(5, 10, 0, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)machine_stack(5, 5, 0, Unit::kg), DomainError);
}
