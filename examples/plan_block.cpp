// examples/plan_block.cpp - weeks of one lift, from a squad's training log or a stated max
//
// Asks the library for a block and prints it week by week; --help says how to ask. asking.hpp reads
// what is asked, report/block_page.hpp prints what is answered.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "asking.hpp"
#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "plan_block/options.hpp"
#include "report/block_page.hpp"
#include "report/refusals.hpp"

namespace {

namespace bw = barwright;
using plan_block::Options;

/// The first day: as asked for, or the next Monday without a set.
bw::Date first_day(const Options& options, const std::vector<bw::LoggedSet>& sets) {
  if (const auto day = asking::day_typed("--start", options.start)) return *day;
  if (sets.empty()) return {2000, 1, 3};
  const bw::Date day =
      std::max(asking::next_day(sets, "--start"), asking::last_day(sets, "--start") + 1);
  return day + (7 - day.weekday()) % 7;
}

int run(const Options& options) {
  asking::require_log_or_max(options);
  asking::Source source = asking::read(options);
  const bw::Lift lift = asking::find_lift(options, source.own);
  const bw::Date start = first_day(options, source.sets);
  asking::report_later_sets(source, start);
  const bw::RepsInReserve first = asking::reserve_of(options.first_rating, options.first_reserve);
  const bw::RepsInReserve last = asking::reserve_of(options.last_rating, options.last_reserve);
  bw::BlockRequest request{
      .lift = lift,
      .start = start,
      .settings = {.sessions_a_week = options.sessions,
                   .working_weeks = options.weeks,
                   .sets = options.sets,
                   .reps = bw::Reps(options.reps),
                   .first_reserve = first,
                   .last_reserve =
                       options.first_rating && !options.last_rating ? std::min(first, last) : last,
                   .has_retest = options.retest_reps != 0},
      .room = asking::find_room(options, source)};
  if (options.back_offs > 0) request.back_offs = {.sets = bw::Sets(options.back_offs)};
  if (options.retest_reps != 0) request.settings.retest_reps = bw::Reps(options.retest_reps);
  source.about.unit = request.room.bar().mass.unit();
  source.about.has_no_day = options.start.empty() && !options.max.empty();
  const bw::LearntLifter lifter =
      asking::find_strength(options, source, lift, start, bw::equations::wathen);
  const auto plan = bw::plan_block(lifter, asking::with_facts(request, options));
  if (!plan) {
    throw asking::Refusal{report::to_text(plan.refusal(), lifter, lift, source.about)};
  }
  report::BlockPage(std::cout, lifter, *plan, bw::equations::wathen.facts, source.about).print();
  return plan->is_stopped() ? asking::stopped : source.status();
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("plan_block", asking::no_answer, argc, argv, plan_block::declare,
                               run);
}
