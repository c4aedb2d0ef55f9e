// examples/plan_session.cpp - from a squad's training log to one lifter's loaded bar
//
// Reads the log, finds how strong the lifter is, and prints one session on one page; --help says
// how to ask. Its parts: squad_log.hpp reads the log, plan_session/plan.hpp makes the plan,
// plan_session/page.hpp prints it.
// SPDX-License-Identifier: BSL-1.0
#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "lifter_model.hpp"
#include "plan_session/options.hpp"
#include "plan_session/page.hpp"
#include "plan_session/plan.hpp"
#include "planner_options.hpp"
#include "program.hpp"
#include "squad_log.hpp"
#include "text_page.hpp"

namespace {

namespace bw = barwright;
using lifter_model::find_lifter;
using lifter_model::Refusal;
using lifter_model::value_or_refuse;
using plan_session::Options;
using plan_session::Question;

enum Status { fine = 0, lines_refused = 1, nothing_planned = 2, stopped = 3 };

/// The day after the lifter's last set, unless that set's date cannot be right.
bw::Date default_date(const std::vector<bw::LoggedSet>& sets) {
  if (sets.empty()) throw Refusal{"Say which day: --date 2026-11-25"};
  std::vector<bw::Date> days;
  for (const bw::LoggedSet& set : sets) days.push_back(set.date);
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  if (days.size() > 1 && days.back() - days[days.size() - 2] > 365) {
    throw Refusal{"The lifter's last set, " + bw::to_text(days.back()).str() +
                  ", is more than a year after the one before; is its date right? Say which day "
                  "to plan: --date 2026-11-25"};
  }
  return days.back() + 1;
}

/// The published curve of this name.
bw::AnyCurve curve_named(const std::string& name) {
  const auto curve = bw::find_curve(name);
  if (!curve) {
    throw Refusal{"no curve is called \"" + name + "\"; there are: " + bw::curve_names().str()};
  }
  return *curve;
}

Question make_question(const Options& options, const squad_log::Log& log, const std::string& lifter,
                       const std::vector<bw::LoggedSet>& sets) {
  Question question{
      .lifter = lifter,
      .lift = lifter_model::find_lift(options.lift, options.with),
      .date = options.date.empty()
                  ? default_date(sets)
                  : value_or_refuse("--date", options.date, squad_log::to_date(options.date)),
      .sets = options.sets,
      .reps = bw::Reps(options.reps),
      .reserve = bw::RepsInReserve(options.reserve),
      .max_chance_of_missing = options.max_chance_of_missing / 100.0,
      .room = lifter_model::find_room(options.room, options.max, log, lifter),
      .curve = bw::anchored(curve_named(options.curve)),
      .done = options.done,
      .has_spotter = options.has_spotter,
      .safeties = planner_options::to_safeties(options.safeties),
      .date_is_assumed = options.date.empty(),
  };
  if (!options.max.empty()) question.stated_max = bw::parse_marked_mass(options.max).mass();
  return question;
}

/// Names the lifter's sets after the day planned for, unless an old day is planned anew.
void report_later_sets(const squad_log::Log& log, const std::string& lifter, bw::Date day,
                       int later) {
  constexpr int most = 5;
  if (later > most) return;
  for (const squad_log::Entry& entry : log.entries) {
    if (entry.lifter != lifter || entry.set.date <= day) continue;
    squad_log::print(std::cerr, log,
                     {.verdict = squad_log::Verdict::remark,
                      .line = entry.line,
                      .column = "date",
                      .value = bw::to_text(entry.set.date).str(),
                      .text = "after the day planned for; left out"});
  }
}

/// What became of every line, at the end of the page.
void print_account(const squad_log::Log& log, const plan_session::Plan& plan, int sets, int later) {
  text_page::title(std::cout, "The log");
  std::cout << "  " << bw::printable<std::string>(log.name) << ": "
            << text_page::count(log.rows, "row") << ", " << log.entries.size() << " read, "
            << log.refused() << " refused\n";
  std::string text = text_page::count(sets, "set") + " by " + plan.question.lifter;
  if (later > 0) text += ", " + std::to_string(later) + " of them after this day and so left out";
  const std::size_t misfits = plan.learnt.misfits.size();
  if (misfits > 0) text += ", " + std::to_string(misfits) + " left out as not fitting the others";
  text_page::paragraph(std::cout, text);
}

Status run(const Options& options) {
  squad_log::Log log;
  if (!options.log.empty()) {
    log = squad_log::read_file(options.log, options.size());
    squad_log::print_reports(std::cerr, log.name, log.reports);
    if (!log.failure.empty()) {
      throw Refusal{log.name + ": " + log.failure +
                    squad_log::missing_quotes(options.lift, options.log)};
    }
  } else if (options.max.empty()) {
    throw Refusal{
        "Name a log, or state the max on the base lift: --max \"100 kg\". --help says more"};
  }
  const Status when_done = log.refused() > 0 ? lines_refused : fine;

  if (!options.log.empty() && (options.lifter.empty() || options.lift.empty())) {
    lifter_model::print_contents(std::cout, log, options.lifter);
    return when_done;
  }
  if (options.lift.empty()) throw Refusal{"Name the lift: --lift \"bench press\""};

  const std::string lifter = options.log.empty() ? bw::printable<std::string>(options.lifter)
                                                 : find_lifter(log, options.lifter);
  const std::vector<bw::LoggedSet> sets = squad_log::sets_of(log, lifter);
  const Question question = make_question(options, log, lifter, sets);
  std::vector<squad_log::Entry> entries;
  for (const squad_log::Entry& entry : log.entries) {
    if (entry.lifter == lifter && entry.set.date <= question.date) entries.push_back(entry);
  }
  const auto later = static_cast<int>(sets.size() - entries.size());
  report_later_sets(log, lifter, question.date, later);

  const plan_session::Plan plan = plan_session::make_plan(question, entries);
  plan_session::Page(std::cout, plan).print();
  if (!options.log.empty()) print_account(log, plan, static_cast<int>(sets.size()), later);
  return plan.says_stop() ? stopped : when_done;
}

}  // namespace

int main(int argc, char** argv) {
  return program::run("plan_session", nothing_planned, [&] {
    CLI::App app("", "plan_session");
    Options options;
    plan_session::declare(app, options);
    try {
      app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
      return app.exit(error) == 0 ? fine : nothing_planned;
    }
    return run(options);
  });
}
