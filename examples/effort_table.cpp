// examples/effort_table.cpp - what share of the max, by repetitions and by how many are left
//
// One curve fills the whole table: 5 repetitions with 2 left is the share for 7. --help says how to
// ask.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/curves/rep_table.hpp>
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

What share of the max, by repetitions and by how many are left, and the loads for a
max, rounded down to a step.

  CURVE  how the name of an equation or chart starts, in any case: brz, nsca
  MAX    and its unit: 265 lb
  STEP   between two loads, in the same unit: 5

Without arguments: the Brzycki equation, and an invented max of 120 kg. A curve that
is not known brings the list of those that are.
)";

/// Calls `visit(curve, facts)` with every curve there is to choose from.
void for_each_curve(auto visit) {
  equations::for_each([&](const auto& curve) { visit(curve, curve.facts); });
  visit(rep_tables::nsca_chart, rep_tables::nsca_chart.facts());
  visit(rep_tables::baechle_earle, rep_tables::baechle_earle.facts());
}

/// Whether a curve's name starts with what was typed, in whatever case.
bool is_meant(std::string_view name, std::string_view typed) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  if (typed.empty() || typed.size() > name.size()) return false;
  for (std::size_t i = 0; i < typed.size(); ++i) {
    if (lower(name[i]) != lower(typed[i])) return false;
  }
  return true;
}

void print_tables(const RepCurve auto& curve, const EquationFacts& facts, Mass max, Unit unit,
                  Mass step) {
  std::cout << facts.name << " (" << to_text(facts.source.reading) << "), meant for "
            << facts.studied.low << " to " << facts.studied.high
            << " repetitions to failure; any beyond is extrapolated\n";
  if (!facts.source.note.empty()) std::cout << facts.source.note << '\n';
  std::cout << "\nPer cent of the max; a dash where the curve ends\n";
  print_effort_table(std::cout, curve);
  std::cout << "\nLoads in " << to_text(unit) << " for a max of " << to_text(max, unit)
            << ", down to the next " << to_text(step, unit) << "\n";
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

  bool is_found = false;
  for_each_curve([&](const auto& curve, const EquationFacts& facts) {
    if (is_found || !is_meant(facts.name, name)) return;
    print_tables(curve, facts, max, unit, step);
    is_found = true;
  });
  if (!is_found) {
    std::cerr << "effort_table: no curve is called \"" << printable<std::string>(name)
              << "\"; there are:\n";
    for_each_curve(
        [](const auto&, const EquationFacts& facts) { std::cerr << "  " << facts.name << '\n'; });
    return 1;
  }
  std::cout << '\n' << cautions::always.text << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("effort_table", 1, [&] { return run(argc, argv); });
}
