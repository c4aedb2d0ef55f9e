// examples/draw_charts.cpp - the charts of the guides, in SVG
//
// --help says how to ask. The rowing club of the demonstration log is invented.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <barwright/barwright.hpp>
#include <barwright/plan/learn_lifter.hpp>
#include <cstddef>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "arguments.hpp"
#include "draw_charts/bar_svg.hpp"
#include "draw_charts/charts.hpp"
#include "program.hpp"
#include "squad_log.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace draw_charts;

namespace {

constexpr std::string_view usage =
    R"(usage: draw_charts equations | learnt_ratio LOG | loaded_bar ROOM LOAD

  draw_charts equations > equations.svg
  draw_charts learnt_ratio examples/data/rowing_club.csv > learnt_ratio.svg
  draw_charts loaded_bar powerlifting 163 > loaded_bar.svg    as load_bar takes them
)";

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
                    .x_label = "repetitions to failure",
                    .y_label = "max, kg",
                    .shaded_to = 10.0};
  std::cout << draw_labelled_curves(frame, curves);
}

/// What feet-up pressing leaves of the max of each rower: by the catalogue, and by their own sets.
void draw_learnt_ratio(const char* file) {
  const squad_log::Log log = squad_log::read_file(file);
  if (!log.failure.empty()) throw program::Refusal(log.name + ": " + log.failure);
  const Lift feet_up = lifts::bench_press + modifiers::feet_up;
  const auto lifters = log.by_lifter();
  if (constexpr std::size_t most = 30; lifters.size() > most) {
    throw program::Refusal("a chart has room for " + std::to_string(most) + " lifters; got " +
                           std::to_string(lifters.size()));
  }
  std::vector<Row> rows;
  for (const auto& entries : lifters) {
    std::vector<LoggedSet> sets;
    for (const LogEntry* entry : entries) sets.push_back(entry->set);
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
    rows.push_back(
        {.name = entries.front()->lifter + ", " + std::to_string(count) + " sets feet up",
         .before = ratio_by(plain),
         .after = ratio_by(sets)});
  }
  const Frame frame{
      .title = "What is left of the bench press max with feet up",
      .subtitle = "grey: by the catalogue; blue: after their sets; below: nine cases in ten",
      .x_label = "max feet up, % of the plain max (invented rowers)"};
  std::cout << draw_rows(frame, rows);
}

int run(int argc, char** argv) {
  arguments::help_if_asked(argc, argv, usage);
  const std::string_view chart = argc > 1 ? argv[1] : "";
  if (chart == "equations" && argc == 2) {
    draw_equations();
  } else if (chart == "learnt_ratio" && argc == 3) {
    draw_learnt_ratio(argv[2]);
  } else if (chart == "loaded_bar" && argc == 4) {
    const Room room = parse_room(argv[2]);
    const auto load = arguments::number_from<double>(argv[3], "a load must be a number, 102.5");
    std::cout << draw_bar(room.nearest(Mass::from(load, room.bar().mass.unit())));
  } else {
    arguments::refuse(usage);
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("draw_charts", 1, [&] { return run(argc, argv); });
}
