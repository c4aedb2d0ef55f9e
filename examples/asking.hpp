// examples/asking.hpp - what plan_session, plan_block and review_block are asked alike
//
// The options they share, whose log it is, and which lift and room are meant. What is typed is
// checked here; what is decided about it is decided in the library.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstddef>
#include <ctime>
#include <iostream>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/log/lift_phrase.hpp"
#include "barwright/log/typed_date.hpp"
#include "barwright/planning.hpp"
#include "files.hpp"
#include "log_options.hpp"
#include "option_checks.hpp"
#include "program.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"
#include "squad_log.hpp"

namespace asking {

namespace bw = barwright;
using program::Refusal;

/// What the exit status says.
enum Status { fine = 0, lines_refused = 1, no_answer = 2, stopped = 3 };

/// The arguments that more than one program has, as typed.
struct Options : log_options::Options {
  bool asks_more = false;  // than who and what is in a log
  std::string lifter{};
  std::string lift{};
  std::string with{};
  std::string max{};
  bool max_is_right = false;
  bool is_beginner = false;
  std::string body{};
  std::string pain{};
  std::string unwell{};
  int done = 0;
  std::string room{};
  std::optional<double> max_chance_of_missing{};  // per cent
  bool has_spotter = false;
  std::string safeties = "none";
  bool shows_sources = false;
};

// ---- the options

/// What a log looks like, for the head of a help.
inline constexpr std::string_view log_help =
    "The log is a CSV file with one row for each set. Its first row names the\n"
    "columns, in any order; others are ignored:\n"
    "  date,lifter,lift,modifiers,load,unit,reps,rir,outcome\n"
    "  2026-11-23,Tilde Ravn,bench press,feet up,52.5,kg,6,2,completed\n"
    "rir is the reps in reserve (RIR), as 2, 2-3 or nothing; an rpe column will do, too.\n"
    "reps are those tried, outcome is completed or missed. A note that speaks of pain\n"
    "stops the lift. Of two dumbbells the load is that of both together. Other columns\n"
    "and spellings that clubs use are read, too, and the program says how: docs/log.md.\n";

/// What may be asked beside the options, for the foot of a help.
inline constexpr std::string_view names_help =
    "A log of one lifter needs no --lifter. Given a log alone, or one and a lifter, the\n"
    "program lists who and what is in it; where more is asked and --lifter or --lift is\n"
    "missing, it does so too, and the exit status is 2. A lift or a change that is\n"
    "not known is answered with those that are.\n\n";
inline constexpr std::string_view rooms_help =
    "A room is gym_kg, gym_lb, powerlifting, powerlifting_with_50,\n"
    "powerlifting_record, weightlifting_men or weightlifting_women; one of them with\n"
    "a change, as in \"gym_kg; bar 15 kg\"; or your own, as in\n"
    "\"bar 20 kg; collars 2.5 kg; plates 25x2 20x4 10 5 2.5 kg\" (x2: two a side).\n\n";

/// What ends a help of the planners.
inline constexpr std::string_view status_help =
    "The exit status is 0 when all is well, 1 when lines of the log were refused and\n"
    "the rest was used, 2 when nothing could be planned, and 3 for a stop: what was\n"
    "asked for should not be done.";

/// The log and how it is to be read, in a program of the usual looks.
inline CLI::Option* add_log(CLI::App& app, Options& options, const std::string& whose) {
  app.get_formatter()->column_width(26);
  app.failure_message(option_checks::failure);
  CLI::Option* const log =
      app.add_option("log,--log", options.log, "the " + whose + " log, a CSV file")
          ->type_name("FILE");
  log_options::add(app, options);
  return log;
}

inline void add_log_and_lift(CLI::App& app, Options& options, std::string_view whose) {
  add_log(app, options, "training");
  app.add_option("--lifter", options.lifter, std::string(whose) + "; else the only lifter's")
      ->type_name("NAME");
  const std::size_t of_log_alone = app.get_options().size();
  app.parse_complete_callback([&app, &options, of_log_alone] {
    const auto all = app.get_options();
    options.asks_more = std::any_of(all.begin() + static_cast<std::ptrdiff_t>(of_log_alone),
                                    all.end(), [](const auto* each) { return each->count() > 0; });
  });
  app.add_option("--lift", options.lift, "the base lift, such as \"bench press\"")
      ->type_name("NAME");
  app.add_option("--with", options.with, "what is changed about it, such as \"feet up, flat back\"")
      ->type_name("NAMES");
}

/// How many lighter sets follow the work sets.
inline void add_back_offs(CLI::App& app, int& back_offs) {
  app.add_option("--back-offs", back_offs, "back-off sets after them, a tenth or more lighter")
      ->check(option_checks::whole_number("back-off sets", 1, 20));
}

/// What the lifter weighs.
inline void add_body(CLI::App& app, Options& options) {
  app.add_option("--body", options.body,
                 "what the lifter weighs, as \"80 kg\": for pull-ups and\n"
                 "dips, of which log and plan say what hangs from the belt")
      ->type_name("LOAD");
}

/// What the lifter can say beside the log.
inline void add_lifter_facts(CLI::App& app, Options& options) {
  app.add_option("--max", options.max,
                 "the 1RM on the base lift, such as \"100 kg\", in place\n"
                 "of what the log says")
      ->type_name("LOAD");
  app.add_flag("--max-is-right", options.max_is_right, "a 1RM or a log that is doubted is right");
  add_body(app, options);
  app.add_flag("--beginner", options.is_beginner,
               "rates less well; without log and max, plan_session\n"
               "plans a first session, up by feel");
  app.add_option("--done", options.done,
                 "sessions of this very lift done before the log began,\n"
                 "or in all, if more than the log has")
      ->check(option_checks::whole_number("sessions done before", 0, 10000));
  app.add_option("--pain", options.pain,
                 "yes: it hurts. no: it does not, or somebody qualified\n"
                 "has looked; else notes in the log count")
      ->check(option_checks::one_of({"yes", "no"}))
      ->type_name("WHICH");
  app.add_option("--unwell", options.unwell,
                 "yes: dizzy, faint, chest pain or the like. no: a\n"
                 "doctor has looked into it; else notes in the log count")
      ->check(option_checks::one_of({"yes", "no"}))
      ->type_name("WHICH");
}

/// Where figures come from.
inline void add_sources(CLI::App& app, Options& options) {
  app.add_flag("--sources", options.shows_sources,
               "beside each figure: where it comes from, and how far\n"
               "to trust it");
}

/// The bound on a miss as a share; nothing where none was asked for.
inline std::optional<double> max_chance_of_missing(const Options& options) {
  if (!options.max_chance_of_missing) return std::nullopt;
  return *options.max_chance_of_missing / 100.0;
}

/// What it is where none is asked for, as the rules have it.
inline std::string usual_chances() {
  const bw::PlanningRules rules;
  const auto percent = [](double share) {
    return bw::Text{}.append_rounded(100.0 * share, 1).str();
  };
  return percent(rules.chance_alone) + "; where a spotter or\nchecked safeties would catch it " +
         percent(rules.chance_caught) + ", or " + percent(rules.chance_for_each_rep) +
         " a rep\nwhere that is more, up to " + percent(rules.likely_miss);
}

/// The room, the bound on a miss, and what would catch one.
inline void add_room_and_safety(CLI::App& app, Options& options) {
  app.add_option("--max-chance-of-missing", options.max_chance_of_missing,
                 "at most this chance, in per cent, of missing the last\n"
                 "rep of a working set; else " +
                     usual_chances())
      ->check(option_checks::number("a chance of missing", 0.1, 99.0))
      ->type_name("PER CENT");
  app.add_option("--room", options.room,
                 "bar, collars and plates: see below; else gym_kg, or\n"
                 "gym_lb where the log, or else the max, is in pounds")
      ->type_name("ROOM");
  app.add_flag("--spotter", options.has_spotter,
               "a spotter stands by who can take the bar; no help on a\n"
               "machine");
  app.add_option("--safeties", options.safeties,
                 "none, unchecked, or checked: tried with the empty bar\n"
                 "in this position; lying, neck and chest stayed clear.\n"
                 "On a machine: its stops, tried with no plates on")
      ->check(option_checks::one_of({"none", "unchecked", "checked"}))
      ->type_name("WHICH")
      ->capture_default_str();
}

/// What a rating leaves; else the reserve that was asked for.
inline bw::RepsInReserve reserve_of(const std::optional<double>& rating, double reserve) {
  return rating ? bw::typical_reserve(bw::Rpe(*rating)) : bw::RepsInReserve(reserve);
}

inline bw::Safeties to_safeties(std::string_view text) {
  if (text == "checked") return bw::Safeties::checked;
  return text == "unchecked" ? bw::Safeties::unchecked : bw::Safeties::none;
}
inline bw::Pain to_pain(std::string_view text) {
  if (text == "yes") return bw::Pain::yes;
  return text == "no" ? bw::Pain::none : bw::Pain::as_logged;
}

inline bw::Unwell to_unwell(std::string_view text) {
  if (text == "yes") return bw::Unwell::yes;
  return text == "no" ? bw::Unwell::none : bw::Unwell::as_logged;
}

// ---- what they mean

template <class T>
T value_or_refuse(bw::Parsed<T> parsed) {
  if (!parsed.value) throw Refusal{parsed.problem};
  return *parsed.value;
}
/// The same for what was typed after an option, which is named.
template <class T>
T value_or_refuse(std::string_view option, std::string_view typed, bw::Parsed<T> parsed) {
  if (!parsed.value) {
    throw Refusal{std::string(option) + " \"" +
                  std::string(typed.substr(0, bw::fields::longest_name)) + "\": " + parsed.problem};
  }
  return *parsed.value;
}

/// A load that was typed after an option, which is named where it will not do.
inline bw::MarkedMass marked_mass(std::string_view option, const std::string& typed) {
  try {
    return bw::parse_marked_mass(typed);
  } catch (const bw::DomainError& error) {
    throw Refusal{std::string(option) + ": " + error.what()};
  }
}

/// The day that was typed after an option; nothing where none was.
inline std::optional<bw::Date> day_typed(std::string_view option, const std::string& typed) {
  if (typed.empty()) return std::nullopt;
  return value_or_refuse(option, typed, bw::fields::to_typed_date(typed));
}

/// Writes what an option names a file for, or refuses.
inline void write_file(const std::string& option, const std::string& path,
                       const std::string& text) {
  const std::string problem = files::write_whole(path, text);
  if (!problem.empty()) throw Refusal{option + path + ": " + problem};
}

/// The lift that was asked for by --lift and --with; said in one breath, as a log may have it.
inline bw::Lift find_lift(const Options& options, const bw::OwnLifts& own) {
  const std::string& lift = options.lift;
  if (lift.empty()) throw Refusal{"Name the lift: --lift \"bench press\""};
  if (const auto of_own = bw::fields::own_lift(lift, own.modifiers())) {
    const std::string changes = squad_log::names_of_changes(*of_own, ";") + ";" + options.with;
    return value_or_refuse(squad_log::to_lift(of_own->base(), changes, own.modifiers()));
  }
  if (bw::catalogue::find_lift(lift) == nullptr) {
    if (const auto said = bw::fields::lift_phrase(lift)) {
      const std::string changes = squad_log::names_of_changes(*said, ";") + ";" + options.with;
      return value_or_refuse(squad_log::to_lift(said->base(), changes, own.modifiers()));
    }
  }
  const bw::BaseLift* base = value_or_refuse("--lift", lift, squad_log::to_base_lift(lift));
  return value_or_refuse(squad_log::to_lift(*base, options.with, own.modifiers()));
}

/// A request with what every planner is told of the lifter and the room's safety.
template <class Request>
Request with_facts(Request request, const Options& options) {
  if constexpr (requires { request.max_chance_of_missing; }) {
    request.max_chance_of_missing = max_chance_of_missing(options);
  }
  request.has_spotter = options.has_spotter;
  request.safeties = to_safeties(options.safeties);
  request.pain = to_pain(options.pain);
  request.unwell = to_unwell(options.unwell);
  request.is_max_confirmed = options.max_is_right;
  return request;
}

/// Refuses to plan without anything that says how strong the lifter is.
inline void require_log_or_max(const Options& options) {
  if (!options.log.empty() || !options.max.empty()) return;
  throw Refusal{
      "Name a log, or state the 1RM on the base lift: --max \"100 kg\". --help says more"};
}

/// A log, and whose sets of it are meant.
struct Source {
  bw::OwnLifts own{};  ///< first: the log points at them
  squad_log::Log log{};
  std::vector<bw::LoggedSet> sets{};  ///< the lifter's, in the order of the log
  report::About about{};

  [[nodiscard]] Status status() const {
    return log.refused() + own.refused > 0 ? lines_refused : fine;
  }
};

/// The lifter of the log whose name was typed.
inline std::string find_lifter(const squad_log::Log& log, const std::string& name) {
  const auto names = log.lifters();
  for (const std::string& known : names) {
    if (squad_log::plain(known) == squad_log::plain(name)) return known;
  }
  // A first name, or a surname: whoever has it, and nobody else.
  std::vector<std::string> of_that_name;
  for (const std::string& known : names) {
    const std::string spaced = " " + squad_log::plain(known) + " ";
    if (spaced.find(" " + squad_log::plain(name) + " ") != std::string::npos) {
      of_that_name.push_back(known);
    }
  }
  throw Refusal{
      "The log has no lifter \"" + name + "\"; nearest: " +
      squad_log::one_of(of_that_name.empty() ? squad_log::nearest(name, names) : of_that_name)};
}

/// Who is in a log and what each has done, for somebody who has not chosen yet.
inline void print_contents(std::ostream& out, const squad_log::Log& log,
                           const std::string& only_lifter) {
  const std::string only = only_lifter.empty() ? "" : find_lifter(log, only_lifter);
  for (const auto& entries : log.by_lifter()) {
    if (!only.empty() && entries.front()->lifter != only) continue;
    out << entries.front()->lifter << '\n';
    std::map<bw::LiftId, std::vector<const bw::LoggedSet*>> lifts;
    for (const bw::LogEntry* entry : entries) lifts[entry->set.lift.id()].push_back(&entry->set);
    for (const auto& [id, sets] : lifts) {
      std::vector<bw::Date> days;
      for (const bw::LoggedSet* set : sets) days.push_back(set->date);
      std::sort(days.begin(), days.end());
      days.erase(std::unique(days.begin(), days.end()), days.end());
      out << "  " << report::padded(sets.front()->lift.name().str(), 36) << sets.size()
          << (sets.size() == 1 ? " set on " : " sets on ") << days.size()
          << (days.size() == 1 ? " day, " : " days, ") << days.front() << " to " << days.back()
          << '\n';
    }
  }
  out << "\nChoose with --lifter and --lift, and --with for what is changed about it.\n";
}

/// The only lifter of a log; nobody where it has more.
inline std::string only_lifter(const squad_log::Log& log) {
  const auto names = log.lifters();
  return names.size() == 1 ? names.front() : "";
}

/// Reads the log, if one is named. Where the lifter or the lift is not, lists what there is and
/// ends the program: that is an answer to who asked no more, and none to who asked for a plan.
inline Source read(const Options& options) {
  Source source;
  source.own = log_options::read_own_lifts(options);
  source.about.shows_sources = options.shows_sources;
  if (options.log.empty()) {
    source.about.lifter = bw::printable<std::string>(options.lifter);
    return source;
  }
  source.log = log_options::read(options, source.own, options.lifter);
  const squad_log::Log& log = source.log;
  if (!log.failure.empty()) {
    throw Refusal{log.name + ": " + log.failure +
                  squad_log::missing_quotes(options.lift, options.log)};
  }
  const std::string lifter = options.lifter.empty() ? only_lifter(log) : options.lifter;
  if (lifter.empty() || options.lift.empty()) {
    print_contents(std::cout, log, lifter);
    if (!options.asks_more) throw program::Exit{source.status()};
    throw Refusal{lifter.empty() ? "Name the lifter: --lifter \"" + log.lifters().front() + "\""
                                 : std::string("Name the lift: --lift \"bench press\"")};
  }
  log_options::confirm(log, options);
  source.about.lifter = find_lifter(log, lifter);
  for (const bw::LogEntry& entry : log.entries) {
    if (entry.lifter != source.about.lifter) continue;
    source.sets.push_back(entry.set);
    source.about.lines.push_back(entry.line);
    if (!entry.complaint.empty()) {
      source.about.complaints.push_back({.set = entry.set, .text = entry.complaint});
    }
  }
  return source;
}

/// The room that was asked for; else the usual gym in the unit of the lifter's log, or of the
/// stated max.
inline bw::Room find_room(const Options& options, const Source& source) {
  if (!options.room.empty()) return bw::parse_room(options.room);
  const bw::Unit unit = source.sets.empty() && !options.max.empty()
                            ? marked_mass("--max", options.max).unit()
                            : source.log.usual_unit(source.about.lifter);
  return unit == bw::Unit::lb ? bw::plate_sets::gym_lb : bw::plate_sets::gym_kg;
}

/// What is said of a lifter for answers that rest on the log alone.
inline bw::LifterFacts facts_beside_log(const Options& options) {
  bw::LifterFacts facts{.ratings = log_options::to_scale(options)};
  if (!options.body.empty()) facts.body_mass = marked_mass("--body", options.body).mass();
  return facts;
}

/// The lifter on the lift that was asked for, by the log up to a day or as stated.
inline bw::LearntLifter find_strength(const Options& options, const Source& source,
                                      const bw::Lift& lift, bw::Date day,
                                      const bw::CurveTable& curve) {
  bw::LifterFacts facts = facts_beside_log(options);
  facts.curve = curve;
  facts.noted = source.log.unread_of(source.about.lifter);
  if (options.is_beginner) facts.experience = bw::Experience::novice;
  if (!options.max.empty()) facts.stated_max = marked_mass("--max", options.max).mass();
  if (options.done > 0) facts.done_before.push_back({.lift = lift, .sessions = options.done});
  return bw::learn_lifter(source.sets, lift.base(), day, facts);
}

/// The last day of a log, unless its date can hardly be right.
/// @param option  that names a day
inline bw::Date last_day(const std::vector<bw::LoggedSet>& sets, const std::string& option) {
  if (const auto day = bw::last_day(sets)) return *day;
  throw Refusal{
      "The lifter's last set is long after the one before it; is its date right? Say "
      "which day to plan: " +
      option + " 2026-11-25"};
}

/// The day it is, by the clock on the wall.
inline bw::Date this_day() {
  const std::time_t now = std::time(nullptr);
  const std::tm local = *std::localtime(&now);
  return {local.tm_year + 1900, local.tm_mon + 1, local.tm_mday};
}

/// The day to plan where none was said: this one, or the one after the lifter's last set where all
/// of the log lies beyond it. One date of the future in a log is a slip.
inline bw::Date next_day(const std::vector<bw::LoggedSet>& sets, const std::string& option) {
  const bw::Date now = this_day();
  if (sets.empty()) return now;
  const bw::Date last = last_day(sets, option);
  const bool has_begun = std::any_of(sets.begin(), sets.end(),
                                     [&](const bw::LoggedSet& set) { return set.date <= now; });
  return now < last && !has_begun ? last + 1 : now;
}

/// Names the lifter's sets after the last day that counts, unless an old day is planned anew.
inline void report_later_sets(const Source& source, bw::Date last) {
  constexpr std::size_t most = 5;
  std::vector<std::size_t> later;
  for (std::size_t i = 0; i < source.sets.size(); ++i) {
    if (last < source.sets[i].date) later.push_back(i);
  }
  if (later.size() > most) return;
  for (const std::size_t i : later) {
    const bw::LineReport report{.verdict = bw::Verdict::remark,
                                .line = source.about.lines[i],
                                .column = "date",
                                .value = bw::to_text(source.sets[i].date).str(),
                                .text = "after the day planned for; left out"};
    std::cerr << bw::to_text(source.log.name, report) << '\n';
  }
}

}  // namespace asking
