// docs/charts/draw_charts.cpp - the charts of the guides that no program of examples/ draws
//
//   draw_charts equations | learnt_ratio | loaded_bar      at the top of the repository
//
// The rowing club of the demonstration log is invented.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <barwright/barwright.hpp>
#include <barwright/log/log_reader.hpp>
#include <barwright/plan/learn_lifter.hpp>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include "bar_svg.hpp"
#include "charts.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace draw_charts;

namespace {

/// The max that each equation reads off 100 kg to failure.
void draw_equations() {
  std::vector<Curve> curves;
  equations::for_each([&](const auto& equation) {
    Curve curve{.name = std::string(equation.facts.name), .line = line_of(equation)};
    for (int reps = 1; reps <= 20; ++reps) {
      curve.points.push_back({1.0 * reps, one_rep_max(equation, 100_kg, Reps(reps)).kg()});
    }
    curves.push_back(curve);
  });
  const Frame frame{.title = "The max that each equation reads off 100 kg to failure",
                    .subtitle =
                        "full: straight in the max; dashed: in the load; dash-dotted: exponential; "
                        "dotted: other; shaded: what most are meant for",
                    .x_label = "reps to failure",
                    .y_label = "max, kg",
                    .shaded_to = 10.0};
  std::cout << draw_labelled_curves(frame, curves);
}

/// What feet-up pressing leaves of the max of each rower: by the catalogue, and by their own sets.
void draw_learnt_ratio() {
  std::ifstream file("examples/data/rowing_club.csv");
  const std::string text(std::istreambuf_iterator<char>(file), {});
  const Log log = read_log(text);
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  std::vector<Row> rows;
  for (const std::string& lifter : log.lifters()) {
    const std::vector<LoggedSet> sets = log.sets_of(lifter);
    std::vector<LoggedSet> plain;
    int count = 0;
    Date last = sets.front().date;
    for (const LoggedSet& set : sets) {
      if (set.lift.is_plain()) plain.push_back(set);
      count += set.lift.same_as(feet_up) ? 1 : 0;
      last = std::max(last, set.date);
    }
    const auto ratio_by = [&](const std::vector<LoggedSet>& log_of) {
      return learn_lifter(log_of, lifts::bench_press, last).strength->ratio(feet_up);
    };
    rows.push_back({.name = lifter + ", " + std::to_string(count) + " sets feet up",
                    .before = ratio_by(plain),
                    .after = ratio_by(sets)});
  }
  const Frame frame{
      .title = "What is left of the bench press max with feet up",
      .subtitle = "grey: by the catalogue; blue: after their sets; below: nine cases in ten",
      .x_label = "max feet up, % of the plain max (invented rowers)"};
  std::cout << draw_rows(frame, rows);
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view chart = argc == 2 ? argv[1] : "";
  if (chart == "equations") {
    draw_equations();
  } else if (chart == "learnt_ratio") {
    draw_learnt_ratio();
  } else if (chart == "loaded_bar") {
    std::cout << draw_bar(plate_sets::powerlifting.nearest(163_kg));
  } else {
    std::cerr << "draw_charts equations | learnt_ratio | loaded_bar\n";
    return 1;
  }
  return std::cout.flush() ? 0 : 1;
}
