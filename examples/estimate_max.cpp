// examples/estimate_max.cpp - the 1RM behind one set, by every published equation
//
// --help says how to ask.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
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
    R"(usage: estimate_max [--sources] [LOAD kg|lb REPS RIR]
as in: estimate_max 185 lb 8 1

The 1RM behind one set, by every published equation.

  LOAD       and its unit: 185 lb, or 185lb
  REPS       done, a whole number: 8
  RIR        reps in reserve, in halves: 1, or 0 when the set went to failure
  --sources  whether each equation was read in its source

Without arguments: 100 kg for 6 at 2 RIR, an invented set.
)";

/// One line for each equation, the lowest 1RM first, those that end before this set last.
void print_table(std::vector<EquationEstimate> lines, Unit unit, bool shows_sources) {
  std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) {
    return a.is_defined != b.is_defined ? a.is_defined : a.max < b.max;
  });
  std::cout << "  equation                    1RM   meant for"
            << (shows_sources ? "                its figures were" : "") << '\n';
  for (const EquationEstimate& line : lines) {
    const EquationFacts& facts = *line.facts;
    const Text max = line.is_defined ? to_text(line.max, unit, 1) : Text{}.append("ends before");
    Text range;
    range.append(facts.studied.low).append(" to ").append(facts.studied.high).append(" reps");
    if (!line.is_studied) range.append(", OUTSIDE");
    std::cout << "  " << Text{}.append_left(facts.name, 20).append_right(max, 11) << "   ";
    if (shows_sources) {
      std::cout << Text{}.append_left(range, 25) << to_text(facts.source.reading) << '\n';
    } else {
      std::cout << range << '\n';
    }
  }
}

/// "1RM 116 to 132 kg, median 124.7 kg", from the equations meant for so long a set.
void print_answer(std::vector<Mass> maxes, Unit unit) {
  if (maxes.empty()) {
    std::cout << "no equation is meant for a set this long; do a heavier one\n";
    return;
  }
  std::sort(maxes.begin(), maxes.end());
  const std::size_t half = maxes.size() / 2;
  const Mass median = maxes.size() % 2 == 0 ? (maxes[half - 1] + maxes[half]) / 2.0 : maxes[half];
  std::cout << "1RM " << to_text(maxes.front(), unit, 1) << " to " << to_text(maxes.back(), unit, 1)
            << ", median " << to_text(median, unit, 1) << " (" << maxes.size() << " equations)\n";
}

/// How far to trust it.
void print_doubts(Mass load, Reps reps, RepsInReserve reserve, Unit unit) {
  std::cout
      << "Only a tested 1RM tells which equation fits you, and from day to day the 1RM itself "
         "varies by\nabout 4 % (Grgic et al. 2020). Pick one and stay with it: the change "
         "from month to month means\nmore than the figure.\n";
  if (reserve.count() > 0.0) {
    std::cout << "Ratings of RIR are off by "
              << Text{}.append_rounded(rating_error(reserve, reps).standard_deviation, 1)
              << " here, as a standard deviation, and each rep moves the 1RM by "
              << to_text(load * equations::epley.per_rep(), unit, 1) << " (Epley).\n";
  }
}

int run(int argc, char** argv) {
  arguments::help_if_asked(argc, argv, usage);
  using arguments::number_from;
  std::vector<std::string_view> args = arguments::with_units_apart(argc, argv);
  const bool shows_sources = std::erase(args, "--sources") > 0;
  if (!args.empty() && (args.size() != 4 || !arguments::is_unit(args[1]))) {
    arguments::refuse(usage, arguments::why_no_set(args));
  }
  if (args.empty()) args = {"100", "kg", "6", "2"};
  const Unit unit = args[1] == "lb" ? Unit::lb : Unit::kg;
  const Mass load =
      Mass::from(number_from<double>(args[0], "a load must be a number, 102.5"), unit);
  const Reps reps(number_from<int>(args[2], "reps must be a whole number"));
  const RepsInReserve reserve(number_from<double>(args[3], "reps in reserve must be a number"));

  const EquationComparison all = compare_equations(load, reps, reserve);
  std::vector<Mass> studied;
  for (const EquationEstimate& line : all) {
    if (line.is_studied) studied.push_back(line.max);
  }
  std::cout << to_text(load, unit) << " x " << reps.count() << " at " << reserve.count()
            << " RIR: ";
  print_answer(studied, unit);
  std::cout << '\n';
  print_table({all.begin(), all.end()}, unit, shows_sources);
  std::cout << '\n';
  print_doubts(load, reps, reserve, unit);
  std::cout << '\n' << cautions::always.text << '\n';
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("estimate_max", 1, [&] { return run(argc, argv); });
}
