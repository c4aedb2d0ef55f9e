// examples/plan_session.cpp - from a squad's training log to one lifter's loaded bar
//
// Reads the log, asks the library for one session, and prints it on one page; --help says how to
// ask. asking.hpp reads what is asked, report/session_page.hpp prints what is answered.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "asking.hpp"
#include "barwright/barwright.hpp"
#include "barwright/log/typed_sets.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/planning.hpp"
#include "command_line.hpp"
#include "report/attempts_page.hpp"
#include "report/first_session_page.hpp"
#include "report/refusals.hpp"
#include "report/session_page.hpp"

namespace {

namespace bw = barwright;

struct Options : asking::Options {
  int reps = 6;
  double reserve = 2.0;
  std::optional<double> rating{};
  int sets = 3;
  int back_offs = 0;
  std::string date{};
  std::string today{};
  std::string curve = "Wathen";
  bool wants_attempts = false;
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
      "    --with \"feet up\" --date 2026-11-25 --safeties checked\n"
      "asks for 3 x 6 at 2 RIR on the feet-up bench press, inside safeties that were\n"
      "checked in that position. Without a log, --max says how strong the lifter is:\n"
      "  plan_session --lift \"bench press\" --with incline --max \"100 kg\" \\\n"
      "    --spotter --date 2026-11-25\n\n" +
      std::string(asking::names_help) + std::string(asking::rooms_help) +
      std::string(asking::status_help));
  asking::add_log_and_lift(app, options, "whose session");
  app.add_option("--reps", options.reps, "reps in each working set")
      ->check(option_checks::reps())
      ->capture_default_str();
  app.add_option("--reserve", options.reserve, "reps in reserve (RIR) at the end of each")
      ->check(option_checks::reserve())
      ->capture_default_str();
  app.add_option("--rpe", options.rating, "the same as a rating of exertion, 5 to 10")
      ->check(option_checks::rating())
      ->excludes("--reserve")
      ->type_name("RPE");
  app.add_option("--sets", options.sets, "working sets")
      ->check(option_checks::whole_number("working sets", 1, 20))
      ->capture_default_str();
  app.add_option("--back-offs", options.back_offs,
                 "back-off sets after them, a tenth or more lighter")
      ->check(option_checks::whole_number("back-off sets", 1, 20));
  app.add_flag("--attempts", options.wants_attempts,
               "three attempts at a max in place of working sets, with\n"
               "the chance of each, and the way up to them");
  app.add_option("--date", options.date, "the day, as 2026-11-25; else the day after the last set")
      ->type_name("DAY");
  app.add_option("--today", options.today,
                 "sets of the lift done so far today: the rest is planned,\n"
                 "such as \"80 x 6, 2 left; 80 x 5, missed\"")
      ->type_name("SETS")
      ->excludes("--attempts");
  asking::add_room_and_safety(app, options);
  app.add_option("--curve", options.curve, "the equation or chart to estimate by")
      ->type_name("NAME")
      ->capture_default_str();
  asking::add_lifter_facts(app, options);
  asking::add_sources(app, options);
  app.add_flag("--json", options.as_json, "answer in JSON (docs/json.md)");
}

/// The day that was asked for, or the day after the lifter's last set.
bw::Date day_of(const Options& options, const std::vector<bw::LoggedSet>& sets) {
  if (!options.date.empty()) {
    return asking::value_or_refuse("--date", options.date, bw::fields::to_date(options.date));
  }
  if (sets.empty()) throw asking::Refusal{"Say which day: --date 2026-11-25"};
  return asking::last_day(sets, "--date") + 1;
}

std::optional<bw::BackOffs> back_offs_of(const Options& options) {
  if (options.back_offs == 0) return std::nullopt;
  return bw::BackOffs{.sets = bw::Sets(options.back_offs)};
}

int run(const Options& options) {
  if (!options.is_beginner) asking::require_log_or_max(options);
  asking::Source source = asking::read(options);
  const bw::Lift lift = asking::find_lift(options, source.own);
  const bw::Date date = day_of(options, source.sets);
  const bw::AnyCurve curve = bw::parse_curve(options.curve);
  const bw::Room room = asking::find_room(options, source);
  source.about.unit = room.bar().mass.unit();
  source.about.date_is_assumed = options.date.empty();
  asking::report_later_sets(source, date);

  std::vector<bw::LoggedSet> done;
  if (!options.today.empty()) {
    done = asking::value_or_refuse("--today", options.today,
                                   bw::read_typed_sets(options.today, lift, date, source.about.unit,
                                                       log_options::dumbbells_of(options)));
  }

  const bw::LearntLifter lifter = asking::find_strength(options, source, lift, date, curve);
  const auto answer = [&](const auto& plan, const std::string& as_json, const auto& print) -> int {
    if (options.as_json) {
      std::cout << as_json << '\n';
    } else if (plan) {
      print();
    } else {
      throw asking::Refusal{report::to_text(plan.refusal(), lifter, lift, date, source.about)};
    }
    return !plan ? asking::no_answer : plan->is_stopped() ? asking::stopped : source.status();
  };
  if (options.wants_attempts) {
    const bw::AttemptsRequest day{.lift = lift, .date = date, .room = room};
    const auto plan = bw::plan_attempts(lifter, asking::with_facts(day, options));
    return answer(plan, bw::json::to_json(plan, lifter), [&] {
      report::print_attempts(std::cout, lifter, *plan, source.about);
      report::print_way_to_sources(std::cout, source.about);
    });
  }
  const bw::SessionRequest request{.lift = lift,
                                   .date = date,
                                   .sets = bw::Sets(options.sets),
                                   .reps = bw::Reps(options.reps),
                                   .reserve = options.rating
                                                  ? bw::typical_reserve(bw::Rpe(*options.rating))
                                                  : bw::RepsInReserve(options.reserve),
                                   .back_offs = back_offs_of(options),
                                   .room = room};
  auto plan = bw::plan_session(lifter, asking::with_facts(request, options));
  if (plan && !done.empty()) plan = bw::replan(lifter, *plan, done);
  const char* const ask = done.empty() ? "plan_session" : "replan";
  return answer(plan, bw::json::to_json(plan, lifter, ask), [&] {
    if (plan->first_session) {
      return report::print_first_session(std::cout, lifter, *plan, source.about);
    }
    report::SessionPage page(std::cout, lifter, *plan, curve.facts(), source.about);
    if (!done.empty()) return page.print_rest(done);
    page.print();
    if (!options.log.empty()) report::print_account(std::cout, lifter, source.log, source.about);
    report::print_way_to_sources(std::cout, source.about);
  });
}

}  // namespace

int main(int argc, char** argv) {
  return program::run<Options>("plan_session", asking::no_answer, argc, argv, declare, run);
}
