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
#include "option_checks.hpp"
#include "report/block_page.hpp"
#include "report/refusals.hpp"

namespace {

namespace bw = barwright;

struct Options : asking::Options {
  int weeks = 4;
  int sessions = 2;
  int sets = 3;
  int reps = 6;
  double first_reserve = 3.0;
  double last_reserve = 2.0;
  std::optional<double> first_rating{};  // in place of the reserve
  std::optional<double> last_rating{};
  int retest_reps = 3;
  std::string start{};
};

void declare(CLI::App& app, Options& options) {
  app.description(
      "Plans some weeks of one lift: its introduction, if it is a new variation, then\n"
      "working weeks, a deload and a retest. Every load can be made with the plates\n"
      "there are; with it comes when to add load, repeat it or step back.\n\n" +
      std::string(asking::log_help));
  app.footer(
      "Examples\n"
      "  plan_block club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --safeties checked\n"
      "  plan_block --lift \"bench press\" --with incline --max \"100 kg\" --spotter\n\n" +
      std::string(asking::names_help) + std::string(asking::rooms_help) +
      std::string(asking::status_help));
  asking::add_log_and_lift(app, options, "whose block");
  asking::add_lifter_facts(app, options);
  option_checks::add_whole(app, "--weeks", options.weeks, "working weeks", "working weeks", 1, 26);
  option_checks::add_whole(app, "--sessions", options.sessions, "sessions of the lift in a week",
                           "sessions of a week", 1, 7);
  option_checks::add_whole(app, "--sets", options.sets, "working sets in a session", "working sets",
                           1, 20);
  option_checks::add_whole(app, "--reps", options.reps, "reps in each", "reps", 1, bw::Reps::most);
  option_checks::add_reserve(app, "--reserve", options.first_reserve,
                             "reps in reserve (RIR) at the end of each, in the first\nworking week",
                             "--rpe", options.first_rating,
                             "the first of the two as a rating of exertion, 5 to 10");
  option_checks::add_reserve(app, "--last-reserve", options.last_reserve, "and in the last",
                             "--last-rpe", options.last_rating, "and the last");
  option_checks::add_whole(app, "--retest-reps", options.retest_reps,
                           "reps of the retest, at 2 RIR; 0 for none", "reps of a retest", 0, 100);
  app.add_option("--start,--date", options.start,
                 "the first day, as 2026-11-30; else the Monday after\n"
                 "the last set")
      ->type_name("DAY");
  asking::add_room_and_safety(app, options);
  asking::add_sources(app, options);
}

/// The first day: as asked for, or the Monday after the last set.
bw::Date first_day(const Options& options, const std::vector<bw::LoggedSet>& sets) {
  if (const auto day = asking::day_typed("--start", options.start)) return *day;
  if (sets.empty()) return {2000, 1, 3};
  const bw::Date last = asking::last_day(sets, "--start");
  return last + (7 - last.weekday());
}

int run(const Options& options) {
  asking::require_log_or_max(options);
  asking::Source source = asking::read(options);
  const bw::Lift lift = asking::find_lift(options, source.own);
  const bw::Date start = first_day(options, source.sets);
  asking::report_later_sets(source, start - 1);
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
  if (options.retest_reps != 0) request.settings.retest_reps = bw::Reps(options.retest_reps);
  source.about.unit = request.room.bar().mass.unit();
  source.about.date_is_assumed = options.start.empty() && !options.max.empty();
  const bw::LearntLifter lifter =
      asking::find_strength(options, source, lift, start - 1, bw::equations::wathen);
  const auto plan = bw::plan_block(lifter, asking::with_facts(request, options));
  if (!plan) {
    throw asking::Refusal{report::to_text(plan.refusal(), lifter, lift, start, source.about)};
  }
  report::BlockPage(std::cout, lifter, *plan, bw::equations::wathen.facts, source.about).print();
  return plan->is_stopped() ? asking::stopped : source.status();
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("plan_block", asking::no_answer, argc, argv, declare, run);
}
