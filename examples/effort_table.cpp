// examples/effort_table.cpp - the percentage of the 1RM, by reps and by reps in reserve
//
// One curve fills the whole table: 5 reps at 2 RIR is the share for 7. --help says how to
// ask.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/curves/any_curve.hpp>
#include <barwright/curves/effort_table.hpp>
#include <barwright/training/caution.hpp>
#include <cstddef>
#include <iostream>
#include <string>
#include <string_view>

#include "arguments.hpp"
#include "program.hpp"

using namespace barwright;

namespace {

constexpr std::string_view usage =
    R"(usage: effort_table [CURVE [MAX kg|lb STEP]]
as in: effort_table Brzycki 265 lb 5

The percentage of the 1RM, by reps and by reps in reserve (RIR), and the loads for a
1RM, rounded down to a step.

  CURVE  the name of an equation or chart, or its start: brz, nsca
  MAX    and its unit: 265 lb
  STEP   between two loads, in the same unit: 5

Without arguments: the Brzycki equation, and an invented 1RM of 120 kg. A curve that
is not known is answered with the list of those that are.
)";

void print_tables(const AnyCurve& curve, const EquationFacts& facts, Mass max, Unit unit,
                  Mass step) {
  std::cout << facts.name << " (" << to_text(facts.source.reading) << "), meant for "
            << facts.studied.low << " to " << facts.studied.high
            << " reps to failure; beyond that it is extrapolated\n";
  if (!facts.source.note.empty()) std::cout << facts.source.note << '\n';
  std::cout << "\nPer cent of the 1RM; a dash where the curve ends\n";
  print_effort_table(std::cout, curve);
  std::cout << '\n';
  print_effort_table(std::cout, curve, {.max = max, .unit = unit, .step = step});
}

int run(int argc, char** argv) {
  arguments::help_if_asked(argc, argv, usage);
  const std::string_view name = argc > 1 ? argv[1] : "Brzycki";
  const std::string_view unit_name = argc == 5 ? argv[3] : "kg";
  if ((argc != 1 && argc != 2 && argc != 5) || (unit_name != "kg" && unit_name != "lb")) {
    arguments::refuse(usage);
  }
  const Unit unit = unit_name == "kg" ? Unit::kg : Unit::lb;
  const auto number = [&](int place, std::string_view rule, double otherwise) {
    return argc == 5 ? arguments::number_from<double>(argv[place], rule) : otherwise;
  };
  const Mass max = Mass::from(number(2, "a max must be a number", 120.0), unit);
  const Mass step = Mass::from(number(4, "a step must be a number", 2.5), unit);
  (void)rounded(max, step);  // refuses a step of nothing before anything is printed

  const auto curve = find_curve(name);
  if (!curve) {
    std::cerr << "effort_table: no curve is called \"" << printable<std::string>(name)
              << "\"; there are:\n";
    for_each_named_curve(
        [](const auto&, const EquationFacts& facts) { std::cerr << "  " << facts.name << '\n'; });
    return 1;
  }
  print_tables(*curve, curve->facts(), max, unit, step);
  std::cout << '\n' << cautions::always.text << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("effort_table", 1, [&] { return run(argc, argv); });
}
