// tests/fuzz/plates_fuzz.cpp - the plates on the bar against a naive search
//
// The naive search tries every number of every plate, one kind after the other, and keeps every
// mass it meets with the fewest plates for it. It shares nothing with the library's search but the
// marks on the plates, and is kept small by rooms of few kinds and light loads.
// SPDX-License-Identifier: BSL-1.0
#include <fuzzer/FuzzedDataProvider.h>

#include <algorithm>
#include <barwright/barwright.hpp>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "require.hpp"

namespace bw = barwright;
using fuzz::require;

namespace {

// Exact in both units: a thousandth of a kilogram is 10^8 of these, of a pound 45,359,237.
long long ticks(bw::MarkedMass mass) {
  const long long thousandths = std::llround(mass.value() * 1000.0);
  return thousandths * (mass.unit() == bw::Unit::kg ? 100'000'000LL : 45'359'237LL);
}

struct Kind {
  bw::MarkedMass mass;
  int per_side;
};

/// Every mass of one side up to the first past `limit`, with the fewest plates that make it.
std::map<long long, int> all_sides(const std::vector<Kind>& kinds, long long limit) {
  std::map<long long, int> sides{{0, 0}};
  for (const Kind& kind : kinds) {
    std::map<long long, int> more = sides;
    for (const auto& [side, plates] : sides) {
      long long mass = side;
      for (int n = 1; n <= kind.per_side && plates + n <= bw::Loading::most_plates; ++n) {
        if (mass > limit) break;
        mass += ticks(kind.mass);
        const auto [place, is_new] = more.try_emplace(mass, plates + n);
        if (!is_new) place->second = std::min(place->second, plates + n);
      }
    }
    sides = std::move(more);
  }
  return sides;
}

bw::MarkedMass a_mark(FuzzedDataProvider& data) {
  static constexpr double usual[] = {25, 20, 15, 10, 5, 2.5, 1.25, 0.5, 45, 35, 2, 1.5};
  const double value = data.ConsumeBool() ? usual[data.ConsumeIntegralInRange<int>(0, 11)]
                                          : data.ConsumeIntegralInRange<int>(500, 30000) / 1000.0;
  return {value, data.ConsumeBool() ? bw::Unit::kg : bw::Unit::lb};
}

void check(const bw::Room& room, const std::map<long long, int>& sides, long long empty,
           bw::Mass load) {
  constexpr long long equal = 100;  // a microgram: what rounding to kilograms may cost
  const long long goal = std::llround(load.kg() * 1e11) - empty;
  std::optional<long long> below;
  std::optional<long long> above;
  for (const auto& [side, plates] : sides) {
    if (2 * side <= goal + equal) below = side;
    if (2 * side >= goal - equal && !above) above = side;
  }
  const auto is_best = [&](const bw::Loading& loading, long long side) {
    long long sum = 0;
    for (const bw::MarkedMass plate : loading.plates()) sum += ticks(plate);
    return sum == side && static_cast<int>(loading.plates().size()) == sides.at(side);
  };
  const auto at_most = room.at_most(load);
  const auto at_least = room.at_least(load);
  require(at_most.has_value() == below.has_value(), "a load below is found where there is one");
  if (at_most) require(is_best(*at_most, *below), "the heaviest below, with the fewest plates");
  require(at_least.has_value() == above.has_value(), "a load above is found where there is one");
  if (at_least) require(is_best(*at_least, *above), "the lightest above, with the fewest plates");
  const bw::Loading nearest = room.nearest(load);
  const bool takes_below = below && (!above || goal - 2 * *below <= 2 * *above - goal + equal);
  require(is_best(nearest, takes_below ? *below : *above), "the nearest, the lighter of two");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  FuzzedDataProvider data(bytes, size);
  const bw::MarkedMass bar(data.ConsumeIntegralInRange<int>(1, 40) / 2.0,
                           data.ConsumeBool() ? bw::Unit::kg : bw::Unit::lb);
  const bw::MarkedMass collar(data.ConsumeIntegralInRange<int>(0, 5) / 2.0, bw::Unit::kg);
  bw::Plates plates;
  std::vector<Kind> kinds;
  long long lightest = 60'000'000'000'000LL;
  for (int n = data.ConsumeIntegralInRange<int>(1, 4); n > 0; --n) {
    const bw::MarkedMass mass = a_mark(data);
    const bool is_there = std::any_of(kinds.begin(), kinds.end(), [&](const Kind& kind) {
      return ticks(kind.mass) == ticks(mass);
    });
    if (is_there) continue;
    const int per_side =
        data.ConsumeBool() ? bw::Plate::unlimited : data.ConsumeIntegralInRange<int>(1, 3);
    plates.add(bw::Plate(mass.value(), mass.unit(), per_side));
    kinds.push_back({mass, per_side});
    lightest = std::min(lightest, ticks(mass));
  }
  const bw::Room room(bw::Bar(bar), plates, bw::Collars(collar));
  const long long empty = ticks(bar) + 2 * ticks(collar);

  // Up to twelve of the lightest plate a side, so that the naive search stays small.
  std::vector<bw::Mass> loads;
  const long long most = 24 * lightest;
  for (int n = data.ConsumeIntegralInRange<int>(1, 4); n > 0; --n) {
    const long long above_empty = data.ConsumeIntegralInRange<long long>(-empty, most);
    loads.push_back(bw::Mass::from_kg(static_cast<double>(empty + above_empty) / 1e11));
  }
  const auto sides = all_sides(kinds, most);
  for (const bw::Mass load : loads) check(room, sides, empty, load);

  const bw::Ramp ramp = plan_ramp(room, loads);
  require(ramp.steps.size() == loads.size(), "a ramp has a step for each load");
  for (std::size_t i = 0; i < loads.size(); ++i) {
    require(
        std::abs(ramp.steps[i].loading.total().kg() - room.nearest(loads[i]).total().kg()) < 1e-9,
        "a ramp loads what each load alone is loaded as");
  }
  return 0;
}
