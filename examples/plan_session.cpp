// examples/plan_session.cpp - from a squad's training log to one lifter's loaded bar
//
// Reads the log, asks the library for one session, and prints it on one page; --help says how to
// ask. asking.hpp reads what is asked, report/session_page.hpp prints what is answered.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <string>
#include <vector>

#include "asking.hpp"
#include "barwright/barwright.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "report/session_page.hpp"

namespace {

namespace bw = barwright;

struct Options : asking::Options {
  int reps = 6;
  double reserve = 2.0;
  int sets = 3;
  std::string date{};
  std::string curve = "Wathen";
  bool as_json = false;
};

void declare(CLI::App& app, Options& options) {
  app.description(
      "Plans one session on one lift: how strong the lifter is, what to load, which\n"
      "plates, and what to take care of.\n\n" +
      std::string(asking::log_help));
  app.footer(
      "An example\n"
      "  plan_session club.csv --lifter \"Tilde Ravn\" --lift \"bench press\" \\\n"
      "    --with \"feet up\" --reps 6 --reserve 2 --sets 3 --date 2026-11-25 \\\n"
      "    --safeties checked\n"
      "asks for three sets of six on the feet-up bench press with two more left in\n"
      "each, inside safeties that were checked in that position.\n"
      "Without a log, --max says how strong the lifter is:\n"
      "  plan_session --lift \"bench press\" --with incline --max \"100 kg\" \\\n"
      "    --spotter --date 2026-11-25\n\n" +
      std::string(asking::names_help) + std::string(asking::rooms_help) +
      "The exit status is 0 when all is well, 1 when lines of the log were refused and\n"
      "the rest was used, 2 when nothing could be planned, and 3 when the session asked\n"
      "for should not be done.");
  asking::add_log_and_lift(app, options, "whose session");
  app.add_option("--reps", options.reps, "repetitions in each work set")
      ->check(option_checks::reps())
      ->capture_default_str();
  app.add_option("--reserve", options.reserve, "repetitions to have left at the end of each")
      ->check(option_checks::reserve())
      ->capture_default_str();
  app.add_option("--sets", options.sets, "work sets")
      ->check(option_checks::whole_number("work sets", 1, 20))
      ->capture_default_str();
  app.add_option("--date", options.date, "the day, as 2026-11-25; else the day after the last set")
      ->type_name("DAY");
  asking::add_room_and_safety(app, options);
  app.add_option("--curve", options.curve, "the repetition curve to estimate by")
      ->type_name("NAME")
      ->capture_default_str();
  asking::add_lifter_facts(app, options);
  app.add_flag("--json", options.as_json, "answer in JSON (docs/json.md)");
}

/// The day after the lifter's last set, unless that set's date cannot be right.
bw::Date default_date(const std::vector<bw::LoggedSet>& sets) {
  if (sets.empty()) throw asking::Refusal{"Say which day: --date 2026-11-25"};
  std::vector<bw::Date> days;
  for (const bw::LoggedSet& set : sets) days.push_back(set.date);
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  if (days.size() > 1 && days.back() - days[days.size() - 2] > 365) {
    throw asking::Refusal{"The lifter's last set, " + report::day(days.back()) +
                          ", is more than a year after the one before; is its date right? Say "
                          "which day to plan: --date 2026-11-25"};
  }
  return days.back() + 1;
}

int run(const Options& options) {
  if (options.log.empty() && options.max.empty()) {
    throw asking::Refusal{
        "Name a log, or state the max on the base lift: --max \"100 kg\". --help says more"};
  }
  asking::Source source = asking::read(options);
  const bw::Lift lift = asking::find_lift(options);
  const bw::Date date =
      options.date.empty()
          ? default_date(source.sets)
          : asking::value_or_refuse("--date", options.date, bw::fields::to_date(options.date));
  const auto curve = bw::find_curve(options.curve);
  if (!curve) {
    throw asking::Refusal{"no curve is called \"" + options.curve +
                          "\"; there are: " + bw::curve_names().str()};
  }
  const bw::Room room = asking::find_room(options, source);
  source.about.unit = room.bar().mass.unit();
  source.about.date_is_assumed = options.date.empty();
  asking::report_later_sets(source, date);

  const bw::LearntLifter lifter = asking::find_strength(options, source, lift, date, *curve);
  const auto plan =
      bw::plan_session(lifter, {.lift = lift,
                                .date = date,
                                .sets = bw::Sets(options.sets),
                                .reps = bw::Reps(options.reps),
                                .reserve = bw::RepsInReserve(options.reserve),
                                .max_chance_of_missing = options.max_chance_of_missing / 100.0,
                                .room = room,
                                .has_spotter = options.has_spotter,
                                .safeties = asking::to_safeties(options.safeties),
                                .pain = asking::to_pain(options.pain),
                                .is_max_confirmed = options.max_is_right});
  if (options.as_json) {
    std::cout << bw::json::to_json(plan, lifter) << '\n';
    return !plan ? asking::no_answer : plan->is_stopped() ? asking::stopped : source.status();
  }
  if (!plan) {
    throw asking::Refusal{report::to_text(plan.refusal(), lifter, lift, date, source.about)};
  }
  report::SessionPage(std::cout, lifter, *plan, curve->facts(), source.about).print();
  if (!options.log.empty()) report::print_account(std::cout, lifter, source.log, source.about);
  return plan->is_stopped() ? asking::stopped : source.status();
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("plan_session", asking::no_answer, argc, argv, declare, run);
}
