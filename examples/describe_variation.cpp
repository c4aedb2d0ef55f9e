// examples/describe_variation.cpp - what is known about a variation of a lift, as a coach reads it
//
//     describe_variation                                         a rower, feet-up and flat-back
//     describe_variation 120 "bench press" incline pause         max in kg, lift, modifiers
//
// The rower is invented: she benches 100 kg, and tomorrow's water session needs legs and lower
// back.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/catalogue.hpp>
#include <cstdlib>
#include <iostream>
#include <string_view>
#include <vector>

using namespace barwright;

namespace {

void list_names(const NameList& names) {
  std::cerr << "; nearest:";
  for (const std::string_view name : names) std::cerr << " \"" << name << '"';
  std::cerr << '\n';
}

/// The lift as it is named on the command line.
Lift named_lift(std::string_view base_name, const std::vector<std::string_view>& changes) {
  const BaseLift* base = catalogue::find_lift(base_name);
  if (base == nullptr) {
    std::cerr << "no lift is called \"" << base_name << '"';
    list_names(catalogue::nearest_lift_names(base_name));
    std::exit(1);
  }
  Lift lift = *base;
  for (const std::string_view change : changes) {
    const Modifier* modifier = catalogue::find_modifier(change, *base);
    if (modifier == nullptr) {
      std::cerr << "no modifier of the " << base->name << " is called \"" << change << '"';
      list_names(catalogue::nearest_modifier_names(change, *base));
      std::exit(1);
    }
    lift = lift + *modifier;
  }
  return lift;
}

}  // namespace

int main(int argc, char** argv) try {
  const std::vector<std::string_view> arguments(argv + 1, argv + argc);
  if (arguments.size() == 1) {
    std::cerr << "usage: describe_variation [MAX_IN_KG LIFT [MODIFIER...]]\n";
    return 1;
  }

  Mass best = Mass::from_kg(100);
  Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
  if (!arguments.empty()) {
    char* end = nullptr;
    best = Mass::from_kg(std::strtod(argv[1], &end));
    if (end == argv[1] || *end != '\0') {
      std::cerr << "the max must be a number of kilograms; got " << arguments[0] << '\n';
      return 1;
    }
    lift = named_lift(arguments[1], {arguments.begin() + 2, arguments.end()});
  }
  describe(std::cout, lift, best);

  if (arguments.empty()) {
    // Logged sets know better than the catalogue: put the lifter's own figure in its place.
    const Modifier own = modifiers::feet_up.with_ratio({0.91, 0.93, 0.95});
    const Range<Mass> max =
        (lifts::bench_press + own + modifiers::flat_back).max_from(best, Stacking::spread);
    std::cout << "\nWith her own 93 % (91 to 95 %) for feet up, learnt from her log: "
              << to_text(max.typical, Unit::kg, 1) << " (" << to_text(max.low, Unit::kg, 1)
              << " to " << to_text(max.high, Unit::kg, 1) << ").\n";
  }
} catch (const DomainError& error) {
  std::cerr << error.what() << '\n';
  return 1;
}
