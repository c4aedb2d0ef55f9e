// tests/fuzz/rooms_fuzz.cpp - rooms of any kinds: an answer that keeps its word, in good time
//
// plates_fuzz.cpp holds rooms of few kinds against a naive search. Here rooms have up to 24 kinds
// of any mass in both units, as few as one plate a side of some, and loads up to a ton. What can be
// checked without a second search is checked: what is loaded is in the room, on the right side of
// the load, and found in the time that Room promises.
// SPDX-License-Identifier: BSL-1.0
#include <fuzzer/FuzzedDataProvider.h>

#include <algorithm>
#include <barwright/plates.hpp>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <ctime>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "require.hpp"

namespace bw = barwright;
using fuzz::require;

namespace {

/// Some 40 ms, as Room says, and what the sanitizers and no optimisation add.
constexpr double most_seconds = 2.0;

/// What `ask` answers; nothing where the room refuses to be searched, in words that say so.
template <class Ask>
auto answer(Ask ask) -> std::optional<decltype(ask())> {
  const std::clock_t start = std::clock();
  std::optional<decltype(ask())> result;
  try {
    result = ask();
  } catch (const bw::DomainError& error) {
    const std::string_view text = error.what();
    require(text.find("odd plates") != text.npos || text.find("ramp") != text.npos,
            "only a search that has no end in sight is given up");
  }
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  require(seconds < most_seconds, "a room answers in good time");
  return result;
}

/// What lies on the bar is in the room, and adds up.
void check_loading(const bw::Plates& plates, const bw::Room& room, const bw::Loading& loading) {
  double sum = room.empty_bar().total().kg();
  for (const bw::Plate& plate : plates) {
    const auto used = std::count(loading.plates().begin(), loading.plates().end(), plate.mass());
    require(used <= plate.per_side(), "no more plates than there are");
    sum += 2.0 * static_cast<double>(used) * plate.mass().mass().kg();
  }
  require(std::abs(sum - loading.total().kg()) < 1e-6, "bar, collars and plates add up");
  require(loading.plates().size() <= bw::Loading::most_plates, "a sleeve has its length");
  require(!bw::to_text(loading).str().empty(), "a loading can be written");
}

bw::MarkedMass a_mark(FuzzedDataProvider& data) {
  const bw::Unit unit = data.ConsumeBool() ? bw::Unit::kg : bw::Unit::lb;
  const int most = data.ConsumeBool() ? 30'000 : 1'000'000;  // thousandths
  return {data.ConsumeIntegralInRange<int>(1, most) / 1000.0, unit};
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  FuzzedDataProvider data(bytes, size);
  bw::Plates plates;
  for (int n = data.ConsumeIntegralInRange<int>(0, 24); n > 0; --n) {
    const bw::MarkedMass mass = a_mark(data);
    const int per_side =
        data.ConsumeBool() ? bw::Plate::unlimited : data.ConsumeIntegralInRange<int>(1, 8);
    const bool is_there = std::any_of(plates.begin(), plates.end(),
                                      [&](const bw::Plate& plate) { return plate.mass() == mass; });
    if (!is_there) plates.add(bw::Plate(mass.value(), mass.unit(), per_side));
  }
  const bw::MarkedMass collar(data.ConsumeIntegralInRange<int>(0, 5000) / 1000.0, bw::Unit::kg);
  const bw::Room room(bw::Bar(a_mark(data)), plates, bw::Collars(collar));

  constexpr double within = 0.05 + 1e-6;  // where Room does not promise the closest
  std::vector<bw::Mass> loads;
  for (int n = data.ConsumeIntegralInRange<int>(1, 4); n > 0; --n) {
    loads.push_back(bw::Mass::from_kg(data.ConsumeIntegralInRange<int>(0, 1'000'000) / 1000.0));
  }
  for (const bw::Mass load : loads) {
    const auto below = answer([&] { return room.at_most(load); });
    const auto above = answer([&] { return room.at_least(load); });
    const auto nearest = answer([&] { return room.nearest(load); });
    if (below && *below) {
      check_loading(plates, room, **below);
      require((*below)->total().kg() <= load.kg() + 1e-6, "at most is at most");
    }
    if (below && !*below) {
      require(room.empty_bar().total().kg() > load.kg() - 1e-6, "nothing is lighter than the bar");
    }
    if (above && *above) {
      check_loading(plates, room, **above);
      require((*above)->total().kg() >= load.kg() - 1e-6, "at least is at least");
    }
    if (!nearest) continue;
    check_loading(plates, room, *nearest);
    const double off = std::abs(nearest->total().kg() - load.kg());
    for (const auto* side : {&below, &above}) {
      if (!*side || !**side) continue;
      require(off <= std::abs((**side)->total().kg() - load.kg()) + within, "nothing is nearer");
    }
  }
  (void)answer([&] { return bw::practical_ramp(room, loads, bw::warm_up_leeway).steps.size(); });
  (void)answer([&] { return bw::plan_ramp(room, loads).moves(); });
  return 0;
}
