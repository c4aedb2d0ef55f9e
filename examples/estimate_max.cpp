// examples/estimate_max.cpp - the max behind one set, by every published equation
//
// --help says how to ask.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <barwright/curves/adapters.hpp>
#include <barwright/curves/compare.hpp>
#include <barwright/curves/equations.hpp>
#include <barwright/training/caution.hpp>
#include <cstddef>
#include <iostream>
#include <string_view>
#include <vector>

#include "arguments.hpp"
#include "program.hpp"

using namespace barwright;

namespace {

constexpr std::string_view usage =
    R"(usage: estimate_max [LOAD kg|lb REPETITIONS LEFT]
as in: estimate_max 185 lb 8 1

The max behind one set, by every published equation.

  LOAD         and its unit: 185 lb, or 185lb
  REPETITIONS  done, a whole number: 8
  LEFT         that could still have been done, in halves: 1, or 0 when it was failure

Without arguments: 100 kg for 6 with 2 left, an invented set.
)";

/// One line for each equation, the lowest max first, those that end before this set last.
void print_table(std::vector<EquationEstimate> lines, Unit unit) {
  std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) {
    return a.is_defined != b.is_defined ? a.is_defined : a.max < b.max;
  });
  std::cout << "  equation                    max   fitted on or meant for   its figures were\n";
  for (const EquationEstimate& line : lines) {
    const EquationFacts& facts = *line.facts;
    const Text max = line.is_defined ? to_text(line.max, unit, 1) : Text{}.append("ends before");
    Text range;
    range.append(facts.studied.low).append(" to ").append(facts.studied.high).append(" reps");
    if (!line.is_studied) range.append(", OUTSIDE");
    std::cout << "  " << Text{}.append_left(facts.name, 20).append_right(max, 11) << "   "
              << Text{}.append_left(range, 25) << to_text(facts.source.reading) << '\n';
  }
}

/// What the equations as published say of a single, of which the max is known.
void print_of_a_single() {
  const EquationComparison all = compare_equations(Mass::from_kg(100), Reps(1), RepsInReserve());
  std::vector<double> per_cent;
  for (const EquationEstimate& line : all) {
    if (line.is_defined) per_cent.push_back(line.max.kg());
  }
  const auto [least, most] = std::minmax_element(per_cent.begin(), per_cent.end());
  std::cout << "Each is used as it was published. For a single, which is its own max, they say "
            << Text{}.append_rounded(*least, 1) << "\nto " << Text{}.append_rounded(*most, 1)
            << " % of its load; anchored(...) makes any of them exact there.\n";
}

/// How far the equations lie apart, and what that means.
void print_spread(std::vector<Mass> maxes, Unit unit) {
  if (maxes.empty()) {
    std::cout << "None was meant for so long a set: trust none, and do a heavier one.\n";
    return;
  }
  std::sort(maxes.begin(), maxes.end());
  const std::size_t half = maxes.size() / 2;
  const Mass median = maxes.size() % 2 == 0 ? (maxes[half - 1] + maxes[half]) / 2.0 : maxes[half];
  const double spread = 100.0 * ((maxes.back() - maxes.front()) / median);
  std::cout
      << "The " << maxes.size() << " equations meant for so many repetitions say "
      << to_text(maxes.front(), unit, 1) << " to " << to_text(maxes.back(), unit, 1) << ", "
      << Text{}.append_rounded(spread, 0) << " % apart;\ntheir median is "
      << to_text(median, unit, 1) << ": as many of them say less as say more.\n"
      << "Which one fits you, only a test can say; from one day to another the max itself "
         "differs by\nsome 4 % (Grgic et al. 2020, abstract read). Take one and stay with it: "
         "a change from month\nto month means more than the figure.\n";
}

int run(int argc, char** argv) {
  arguments::help_if_asked(argc, argv, usage);
  using arguments::number_from;
  const std::vector<std::string_view> args = arguments::with_units_apart(argc, argv);
  if (!args.empty() && (args.size() != 4 || !arguments::is_unit(args[1]))) {
    arguments::refuse(usage);
  }
  const bool given = !args.empty();
  const Unit unit = given && args[1] == "lb" ? Unit::lb : Unit::kg;
  const Mass load = Mass::from(
      given ? number_from<double>(args[0], "a load must be a number, 102.5") : 100.0, unit);
  const Reps reps(given ? number_from<int>(args[2], "repetitions must be a whole number") : 6);
  const RepsInReserve left(given ? number_from<double>(args[3], "repetitions left must be a number")
                                 : 2.0);

  std::cout << to_text(load, unit) << " for " << reps.count() << " with " << left.count()
            << " left: " << reps_to_failure(reps, left) << " to failure.\n\n";
  const EquationComparison all = compare_equations(load, reps, left);
  print_table({all.begin(), all.end()}, unit);
  std::cout << '\n';
  std::vector<Mass> studied;
  for (const EquationEstimate& line : all) {
    if (line.is_studied) studied.push_back(line.max);
  }
  print_spread(studied, unit);
  print_of_a_single();
  if (left.count() > 0.0 && !studied.empty()) {
    std::cout << "A reserve is a guess, here off by about "
              << Text{}.append_rounded(rating_error(left, reps).standard_deviation, 1)
              << ", and each repetition moves the max by "
              << to_text(load * equations::epley.per_rep(), unit, 1) << " (Epley).\n";
  }
  std::cout << '\n' << cautions::always.text << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("estimate_max", 1, [&] { return run(argc, argv); });
}
