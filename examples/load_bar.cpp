// examples/load_bar.cpp - the plates for a load, and for a whole ramp with few moves
//
// The last load is shown by itself first, then the loads are planned as one ramp. --help says how
// to ask.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/plates.hpp>
#include <barwright/training/caution.hpp>
#include <cstddef>
#include <iostream>
#include <span>
#include <string_view>
#include <vector>

#include "arguments.hpp"
#include "program.hpp"

using namespace barwright;

namespace {

constexpr std::string_view usage =
    R"(usage: load_bar [ROOM [LOAD...]]

The plates for a load, and for a whole ramp: the heaviest inside at every step, few
plates, few moves. The last load is shown by itself first, then all as one ramp.

  ROOM  a plate set by its name, its parts, or a set and parts in place of its own:
          gym_kg, gym_lb, powerlifting, powerlifting_with_50, powerlifting_record,
          weightlifting_men, weightlifting_women
          "gym_lb; bar 35 lb"
          "bar 20 kg; collars 2.5 kg; plates 25x2 20 10x2 5 2.5 kg 45x1 lb"
        x2 is two a side; a plate without a number never runs out
  LOAD  in the unit of the room's bar, or with its own, 225lb; in the order they are
        lifted

Without arguments: the bench session of an invented rower.
)";

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

/// "put on 20 kg, 5 kg"; nothing where there is none.
void list(std::string_view what, std::span<const MarkedMass> plates) {
  if (plates.empty()) return;
  std::cout << "      " << what;
  std::string_view between = " ";
  for (const MarkedMass plate : plates) {
    std::cout << between << plate;
    between = ", ";
  }
  std::cout << '\n';
}

/// What to do at each side of the bar, load by load.
void show_ramp(const Room& room, const std::vector<Mass>& loads) {
  const Ramp ramp = practical_ramp(room, loads, 0.0);
  std::cout << "The ramp, " << ramp.moves() << (ramp.moves() == 1 ? " plate move" : " plate moves")
            << " on each side:\n";
  std::span<const MarkedMass> before;
  for (const RampStep& step : ramp.steps) {
    std::cout << "  " << step.loading << '\n';
    list("take off", before.last(static_cast<std::size_t>(step.taken_off)));
    list("put on", step.loading.plates().last(static_cast<std::size_t>(step.put_on)));
    before = step.loading.plates();
  }
}

std::vector<Mass> loads_from(int count, char** texts, Unit unit) {
  const Text rule = Text{}
                        .append("a load must be a number of ")
                        .append(to_text(unit))
                        .append(", or a number with its unit, 225lb");
  std::vector<Mass> loads;
  for (int i = 0; i < count; ++i) {
    const arguments::WithUnit parts = arguments::part_unit(texts[i]);
    const Unit own = parts.unit.empty() ? unit : parts.unit == "kg" ? Unit::kg : Unit::lb;
    loads.push_back(Mass::from(arguments::number_from<double>(parts.number, rule), own));
  }
  return loads;
}

int run(int argc, char** argv) {
  arguments::help_if_asked(argc, argv, usage);
  const Room room = argc > 1 ? parse_room(argv[1]) : plate_sets::gym_kg;
  std::vector<Mass> loads;
  for (const double kg : {20.0, 60.0, 80.0, 95.0, 107.5, 115.0, 101.0}) {
    loads.push_back(Mass::from_kg(kg));
  }
  if (argc > 2) loads = loads_from(argc - 2, argv + 2, room.bar().mass.unit());

  show(room, loads.back());
  show_ramp(room, loads);
  std::cout << "\nCount both sides. Set the safeties or have a spotter. " << cautions::collars.text
            << '\n'
            << cautions::always.text << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("load_bar", 1, [&] { return run(argc, argv); });
}
