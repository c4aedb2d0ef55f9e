// examples/load_bar.cpp - the plates for a load, and for a whole ramp with as few moves as can be
//
//     load_bar                                              an invented rower's bench session
//     load_bar ROOM LOAD...                                 loads in the unit of the room's bar
//     load_bar "gym_lb; bar 35 lb" 95 115 135
//     load_bar "bar 20 kg; plates 25x2 20 10x2 5 2.5 kg 45x1 lb" 60 80 100
//
// The last load is shown by itself first, then the loads are planned as one ramp.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/plates.hpp>
#include <cstdlib>
#include <iostream>
#include <string_view>
#include <vector>

using namespace barwright;

namespace {

/// One side's plates for one load, and what lies on the other side of a load nobody can make.
void show(const Room& room, Mass load) {
  const Unit unit = room.bar().mass.unit();
  const Loading nearest = room.nearest(load);
  std::cout << "Nearest to " << to_text(load, unit) << ": " << nearest << '\n';
  if (const auto lighter = room.at_most(load); !lighter) {
    std::cout << "  (nothing lighter: that is the empty bar)\n";
  } else if (lighter->total() != nearest.total()) {
    std::cout << "  next below: " << *lighter << '\n';
  }
  if (const auto heavier = room.at_least(load); !heavier) {
    std::cout << "  (nothing heavier: that is all the plates)\n";
  } else if (heavier->total() != nearest.total()) {
    std::cout << "  next above: " << *heavier << '\n';
  }
  std::cout << '\n' << draw(nearest) << '\n';
}

/// What to do at each side of the bar, load by load.
void show_ramp(const Room& room, const std::vector<Mass>& loads) {
  const Ramp ramp = plan_ramp(room, loads);
  std::cout << "The ramp, " << ramp.moves() << " plate moves on each side:\n";
  for (const RampStep& step : ramp.steps) {
    std::cout << "  " << step.loading << '\n';
    if (step.taken_off > 0) std::cout << "      take off " << step.taken_off << '\n';
    const auto plates = step.loading.plates();
    if (step.put_on > 0) {
      std::cout << "      put on";
      for (const MarkedMass plate : plates.last(static_cast<std::size_t>(step.put_on))) {
        std::cout << ' ' << plate;
      }
      std::cout << '\n';
    }
  }
}

std::vector<Mass> loads_from(int count, char** texts, Unit unit) {
  std::vector<Mass> loads;
  for (int i = 0; i < count; ++i) {
    char* end = nullptr;
    const double value = std::strtod(texts[i], &end);
    if (end == texts[i] || *end != '\0') {
      std::cerr << "a load must be a number of " << to_text(unit) << "; got " << texts[i] << '\n';
      std::exit(1);
    }
    loads.push_back(Mass::from(value, unit));
  }
  return loads;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    const Room room = argc > 1 ? parse_room(argv[1]) : plate_sets::gym_kg;
    std::vector<Mass> loads;
    for (const double kg : {20.0, 60.0, 80.0, 95.0, 107.5, 115.0, 101.0}) {
      loads.push_back(Mass::from_kg(kg));
    }
    if (argc > 2) loads = loads_from(argc - 2, argv + 2, room.bar().mass.unit());

    show(room, loads.back());
    show_ramp(room, loads);
    std::cout << "\nCount both sides, fasten the collars, set the safeties or have a spotter; your "
                 "coach, your clinician and the rules of the gym come first.\n";
  } catch (const DomainError& error) {
    std::cerr << error.what() << '\n';
    return 1;
  }
}
