// bench/variation_bench.cpp - what a variation costs, and finding it by name (lookup.hpp)
//
// By hand a lift is its name and the names of what is changed; the library's carries its figures,
// sources, muscles and notes along, which is what putting one together costs. Its ratios depend on
// the lifter's max; by hand they are those at 100 kg.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/lifts/modifier.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

std::array<Mass, cases> made_maxes() {
  std::array<Mass, cases> maxes;
  for (std::size_t i = 0; i < cases; ++i) maxes[i] = Mass::from_kg(60.0 + static_cast<double>(i));
  return maxes;
}
auto maxes = made_maxes();

const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
struct Bounds {
  double low;
  double typical;
  double high;
};
const std::vector<Bounds> ratios = [] {
  std::vector<Bounds> made;
  for (const Modifier& m : lift.modifiers()) {
    const Range<double> ratio = m.ratio(Mass::from_kg(100.0));
    made.push_back({ratio.low, ratio.typical, ratio.high});
  }
  return made;
}();

BENCHMARK_CAPTURE(by_hand, max_of_variation, [](std::size_t i) {
  Bounds product{1.0, 1.0, 1.0};
  for (const Bounds& ratio : ratios) {
    product = {product.low * ratio.low, product.typical * ratio.typical, product.high * ratio.high};
  }
  const double max = maxes[i].kg();
  return max * product.low + max * product.typical + max * product.high;
});
BENCHMARK_CAPTURE(library, max_of_variation, [](std::size_t i) {
  const Range<Mass> max = lift.max_from(maxes[i]);
  return max.low.kg() + max.typical.kg() + max.high.kg();
});

std::array<std::string_view, 3> added{"pause", "feet_up", "flat_back"};
BENCHMARK_CAPTURE(by_hand, put_together, [](std::size_t) {
  std::vector<std::string_view> keys{"bench_press"};
  for (const std::string_view key : added) {
    keys.insert(std::lower_bound(keys.begin() + 1, keys.end(), key), key);
  }
  return static_cast<double>(keys.size());
});
BENCHMARK_CAPTURE(library, put_together, [](std::size_t) {
  const Lift made =
      lifts::bench_press + modifiers::pause + modifiers::feet_up + modifiers::flat_back;
  return static_cast<double>(made.modifiers().size() + 1);
});

const std::vector<const Modifier*> all = [] {
  std::vector<const Modifier*> made;
  for (const Modifier& m : catalogue::modifiers()) {
    if (m.applies_to(lifts::bench_press)) made.push_back(&m);
  }
  return made;
}();
std::array<std::string_view, cases> made_names() {
  std::array<std::string_view, cases> names;
  for (std::size_t i = 0; i < cases; ++i) names[i] = all[i % all.size()]->name();
  return names;
}
auto names = made_names();
BENCHMARK_CAPTURE(by_hand, find_modifier, [](std::size_t i) {
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const Modifier* m) { return m->name() == names[i]; });
  return (*found)->starting_share();
});
BENCHMARK_CAPTURE(library, find_modifier, [](std::size_t i) {
  return catalogue::find_modifier(names[i], lifts::bench_press)->starting_share();
});

}  // namespace
