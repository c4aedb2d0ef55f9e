// examples/report/words.hpp - what the pages say alike: loads, stops, doubts, cautions
//
// Decisions come from the library as data; here they are put into sentences.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <functional>
#include <iterator>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/text_page.hpp"

namespace report {

using namespace text_page;

/// What the coach wrote beside a set that hurt.
struct Complaint {
  bw::LoggedSet set;
  std::string text{};
};

/// What was written beside the sets of a lifter that hurt.
inline std::vector<Complaint> complaints_of(const std::vector<const bw::LogEntry*>& entries) {
  std::vector<Complaint> complaints;
  for (const bw::LogEntry* const entry : entries) {
    if (!entry->complaint.empty()) {
      complaints.push_back({.set = entry->set, .text = entry->complaint});
    }
  }
  return complaints;
}

/// Whose page it is, as far as the library does not know.
struct About {
  std::string lifter{};                 ///< empty without a log
  std::vector<int> lines{};             ///< of the log's text, for each set given to the library
  std::vector<Complaint> complaints{};  ///< of the lifter's log
  bw::Unit unit = bw::Unit::kg;
  bool has_no_day = false;       ///< nobody said when, and no log tells
  std::string_view which_day{};  ///< ", today": of a day that nobody named
  bool shows_sources = false;    ///< where each figure comes from, beside it
};

/// " [published, read in the source]", where sources are asked for.
inline std::string tag(const bw::Source& source, const About& about) {
  return about.shows_sources ? " [" + standing(source) + "]" : "";
}
inline std::string tag(bw::Evidence evidence, const About& about) {
  return tag(bw::Source{.evidence = evidence}, about);
}
inline void print_way_to_sources(std::ostream& out, const About& about) {
  if (about.shows_sources) return;
  paragraph(out, "\nWhere each figure comes from, and how far to trust it: --sources", 0, 0);
}

inline std::string load_text(bw::Mass mass, bw::Unit unit) {
  return bw::to_text(mass, unit, 2).str();
}
inline std::string day_of_week(bw::Date date) {
  return std::string(bw::to_text(bw::weekday_of(date))) + " " + day(date);
}
/// "20 + 5 + 1.25", the plates of one side as they are put on.
inline std::string each_side(const bw::Loading& loading) {
  std::string text;
  for (const bw::MarkedMass plate : loading.plates()) {
    if (!text.empty()) text += " + ";
    text += bw::Text{}.append(plate.value()).str();
    if (plate.unit() != loading.bar().mass.unit()) {
      text += " " + std::string(bw::to_text(plate.unit()));
    }
  }
  return text.empty() ? "empty bar" : text;
}
inline std::string loaded_with(const bw::LoadedWith& with) {
  if (with.bar) return each_side(*with.bar);
  if (with.belt) {
    std::string text;
    for (const bw::MarkedMass plate : with.belt->plates) {
      text += (text.empty() ? "" : " + ") + bw::Text{}.append(plate.value()).str();
    }
    return text.empty() ? "the body alone" : text;
  }
  if (with.pin) return "pin at " + bw::to_text(*with.pin).str();
  if (!with.dumbbell) return "";
  return std::to_string(with.dumbbells) + " x " + bw::to_text(*with.dumbbell).str();
}

/// "each side: 20 + 5", "dumbbells: 2 x 20 kg", "pin at 45 kg"
inline std::string way_to_load(const bw::LoadedWith& with) {
  const char* const what = with.bar        ? "each side: "
                           : with.dumbbell ? "dumbbells: "
                           : with.belt     ? "on the belt: "
                                           : "";
  return what + loaded_with(with);
}

/// What to do, in one line: "Load 52.5 kg (15 + 1.25 a side): 3 x 6, stop each set at 2 RIR".
/// @param when    "First session. ", or nothing
/// @param effort  "stop each set at 2 RIR"
inline void print_headline(std::ostream& out, std::string_view when, const bw::PlannedSet& work,
                           std::string_view effort, const About& about) {
  const bool has_plates = work.with.bar && !work.with.bar->plates().empty();
  const bool is_body_alone = work.with.belt && work.with.belt->plates.empty();
  if (is_body_alone) {
    out << when << "Nothing on the belt: " << sets_of(work.sets, work.reps) << ", " << effort
        << '\n';
    return;
  }
  out << when
      << (work.with.bar    ? "Load "
          : work.with.belt ? "Hang "
          : work.with.pin  ? "Set "
                           : "Take ")
      << load_text(work.with.logged(), about.unit) << (work.with.belt ? " from the belt" : "")
      << " (" << loaded_with(work.with) << (has_plates ? " a side" : "")
      << "): " << sets_of(work.sets, work.reps) << ", " << effort << '\n';
}
inline std::string effort_text(bw::RepsInReserve reserve) {
  if (reserve < bw::RepsInReserve(1.0)) return "to the last good rep";
  const auto rating = bw::rpe(reserve);
  return "stop each set at " + rir(reserve) +
         (rating ? " (RPE " + number(rating->rating(), 1) + ")" : "");
}

inline constexpr std::string_view range_note =
    "Ranges are 90 % intervals, assuming the model is right.";

/// "Trend: +0.4 % (0 to 0.9 %) a week; the chance of a gain is 93 %."
inline void print_trend(std::ostream& out, const bw::Lifter& lifter, const std::string& what) {
  if (!bw::tells_trend(lifter)) {
    const bool has_few_days = lifter.learnt->days < lifter.rules.fewest_trend_days;
    paragraph(out, what +
                       (has_few_days ? ": not told yet, after " +
                                           count(lifter.learnt->days, "day") + " of training. "
                                     : ": not told, " + count(lifter.learnt->days_since, "day") +
                                           " after the last training day. ") +
                       std::string(range_note));
    return;
  }
  const bw::Change& trend = lifter.learnt->trend;
  paragraph(out, what + ": " + text_page::change(trend, 1) + " a week; the chance of a gain is " +
                     chance(trend.chance_of_gain()) + ". " +
                     std::string(bw::meaning(bw::ChangeOf::pace)));
  paragraph(out, range_note);
}

// ---- sets that do not fit

/// "line 19, 2026-11-18: 132 kg x 6, 2 RIR; about 58.5 kg would fit the other sets, 2.3 times less:
/// pounds typed as kilograms?"
inline std::string to_text(const bw::SuspectSet& suspect, const bw::Lifter& lifter,
                           const About& about) {
  const bw::LoggedSet set = bw::as_logged(suspect.set, lifter);
  const bw::Mass expected = bw::as_logged(suspect.expected, lifter);
  const double share = suspect.set.load / suspect.expected;
  std::string why = ".";
  switch (suspect.slip) {
    case bw::Slip::pounds_as_kilograms:
      why = ", " + number(share, 1) + " times less: pounds typed as kilograms?";
      break;
    case bw::Slip::kilograms_as_pounds:
      why = ", " + number(1.0 / share, 1) + " times more: kilograms typed as pounds?";
      break;
    case bw::Slip::decimal_point: why = ": a misplaced decimal point?"; break;
    case bw::Slip::one_dumbbell:
      why = ": the weight of one dumbbell? Then say --dumbbells each";
      break;
    case bw::Slip::unknown: break;
  }
  return "line " + std::to_string(about.lines[suspect.index]) + ", " + day(suspect.set.date) +
         ": " + done(set, about.unit) + (lifter.body ? " on the belt; " : "; ") +
         (expected < bw::Mass::from_kg(0.5) ? "the body alone"
                                            : "about " + max_text(expected, about.unit)) +
         " would fit the other sets" + why;
}

/// ", apart from 2 sets that cannot be right as logged: line 3, line 7"
inline std::string but_for(const bw::Lifter& lifter, const About& about) {
  if (lifter.suspects.empty()) return "";
  constexpr std::size_t most_named = 5;
  const std::size_t size = lifter.suspects.size();
  std::string text =
      ", apart from " + count(static_cast<int>(size), "set") + " that cannot be right as logged: ";
  for (std::size_t i = 0; i < std::min(size, most_named); ++i) {
    text += (i > 0 ? ", line " : "line ") + std::to_string(about.lines[lifter.suspects[i].index]);
  }
  return text + (size > most_named ? " and others" : "");
}

/// Names the first few of the sets that were left out: of more the rest is mostly the same slip.
inline void print_suspects(std::ostream& out, const bw::Lifter& lifter, const About& about) {
  constexpr std::size_t most = 5;
  const std::size_t size = lifter.suspects.size();
  for (std::size_t i = 0; i < std::min(size, most); ++i) {
    paragraph(out, "- " + to_text(lifter.suspects[i], lifter, about), 2, 4);
  }
  if (size <= most) return;
  paragraph(out,
            "- and " + std::to_string(size - most) + " more, down to line " +
                std::to_string(about.lines[lifter.suspects.back().index]),
            2, 4);
}

/// Lists the sets that were left out, unless the doubts at the top of the page did.
inline void list_suspects(std::ostream& out, const bw::Lifter& lifter, const About& about,
                          bool has_doubts_above) {
  if (lifter.suspects.empty() || (has_doubts_above && lifter.doubts.has_few_sets_left)) return;
  title(out, "Sets that do not fit the others, and were left out");
  print_suspects(out, lifter, about);
}

// ---- the stated max

/// How a stated max stands beside the log; empty where there is nothing to say.
inline std::string max_check_text(const bw::Lifter& lifter, bw::Unit unit) {
  if (!lifter.stated_max) return "";
  const bw::StatedMax& stated = *lifter.stated_max;
  const std::string name(lifter.base.base().name);
  std::string by_log;
  if (stated.by_log) {
    by_log = "The log puts the 1RM of the " + name + " at " + max_number(stated.by_log->low, unit) +
             " to " + max_text(stated.by_log->high, unit) + " (99 %); " +
             max_text(stated.max, unit) + " was stated. ";
  }
  switch (stated.check) {
    case bw::StatedMaxCheck::fits: return "";
    case bw::StatedMaxCheck::below_log:
      return by_log + "The stated, lower figure is used, as lighter is the safe side.";
    case bw::StatedMaxCheck::above_log:
      return by_log + (stated.looks_like_pounds && unit == bw::Unit::kg ? "Is it in pounds?"
                                                                        : "Is the figure right?");
    case bw::StatedMaxCheck::above_bench_press:
      return std::string(bw::cautions::press_above_bench_press.text);
    case bw::StatedMaxCheck::doubtful: break;
  }
  return "Check this figure: a 1RM of " + max_text(stated.max, unit) + " on the " + name +
         " is above " + max_text(bw::doubtful_max(lifter.base.base().family), unit) +
         ", which few lifters anywhere reach.";
}
inline void print_max_check(std::ostream& out, const bw::Lifter& lifter, bw::Unit unit) {
  const std::string text = max_check_text(lifter, unit);
  if (text.empty()) return;
  title(out, "The stated 1RM");
  paragraph(out, text);
}

// ---- stops

/// How to check the safeties of a lift.
inline std::string way_to_checked_safeties(const bw::BaseLift& base) {
  if (base.is_machine) {
    return "set the machine's stops and check with no plates on that they catch the weight just "
           "below the bottom of the lift: --safeties checked";
  }
  return base.family == bw::LiftFamily::horizontal_press
             ? "set the safeties and lower the empty bar onto them, lying as in the set: neck and "
               "chest must stay clear: --safeties checked"
             : "set the safeties and check with no plates on that they catch the bar just below "
               "the "
               "bottom of the lift: --safeties checked";
}

/// What stands in the way of a plan, and how to change it.
struct StopFacts {
  const std::vector<bw::Caution>& cautions;
  const std::vector<bw::Remedy>& remedies;
  std::optional<bw::RepsInReserve> least_alone;  ///< to keep where nothing would catch a miss
  std::string reserve_option;                    ///< the option that says how many to keep
  bw::Date date;                                 ///< of the session
};

/// Whether the stop is for a set that was left out as too light.
inline bool is_of_light_set(const StopFacts& facts) {
  return std::any_of(facts.cautions.begin(), facts.cautions.end(), [](const bw::Caution& caution) {
    return caution.key == bw::cautions::light_set_left_out.key &&
           caution.severity == bw::Severity::stop;
  });
}

inline std::string to_text(bw::Remedy remedy, const bw::Lift& lift, const StopFacts& facts,
                           const bw::PlanningRules& rules) {
  const std::string least = number(facts.least_alone.value_or(bw::RepsInReserve(2.0)).count(), 1);
  const std::string keep = facts.reserve_option + " " + least;
  switch (remedy) {
    case bw::Remedy::have_spotter: return "have a spotter stand by: --spotter";
    case bw::Remedy::check_safeties: return way_to_checked_safeties(lift.base());
    case bw::Remedy::keep_reserve: return "keep " + least + " or more reps in reserve: " + keep;
    case bw::Remedy::do_shorter_sets:
      return "do sets of at most " + std::to_string(rules.alone_longest_set) + " and keep " +
             least + " or more reps in reserve: --reps " + std::to_string(rules.alone_longest_set) +
             " " + keep;
    case bw::Remedy::train_it_first:
      return "train the lift first, with more reps and more in reserve";
    case bw::Remedy::another_day: return "come back on another day, rested: --date";
    case bw::Remedy::correct_max: return "correct --max, or leave it out and let the log decide";
    case bw::Remedy::correct_log:
      return is_of_light_set(facts) ? "if the lighter set was a slip, correct it in the log"
                                    : "correct the loads of the log, or their unit";
    case bw::Remedy::tell_outcome:
      return "write \"missed\" or \"completed\" into the log's outcome column, or mend the line "
             "that could not be read";
    case bw::Remedy::confirm_max:
      return is_of_light_set(facts)
                 ? "if it was a slip, and the usual loads are right: --max-is-right"
                 : "if the figures are right: --max-is-right";
    case bw::Remedy::have_pain_seen:
      return "have it looked at by somebody qualified; once the lift is allowed again: --pain no";
    case bw::Remedy::see_doctor:
      return "have a doctor look into it; once lifting is allowed again: --unwell no";
    case bw::Remedy::do_less: return "ask for fewer sets or reps";
  }
  return "";
}

/// "47 days off: week 1 of 2 on the way back."
inline std::string comeback_text(const bw::Comeback& back) {
  return "A layoff of " + count(back.days_off, "day") +
         " from this lift and its variations: week " + std::to_string(back.week) + " of " +
         std::to_string(back.weeks) + " back.";
}

/// "2026-11-23, squat, 100 kg x 5, 2 RIR: "dizzy after"", with the words of the log where they are
/// known.
/// @param set  as logged
inline std::string complaint_text(const bw::LoggedSet& set, const About& about) {
  std::string text = day(set.date) + ", " + set.lift.name().str() + ", " + done(set, about.unit);
  for (const Complaint& each : about.complaints) {
    if (each.set.date == set.date && each.set.lift.same_as(set.lift) && each.set.reps == set.reps &&
        each.set.is_unwell == set.is_unwell) {
      return text + ": \"" + each.text + "\"";
    }
  }
  return text + ".";
}

/// Where the log has what a caution rests on: the set, and the day where no set could be read.
struct NotedFor {
  std::string_view key;  ///< of the caution
  std::optional<bw::LoggedSet> (*set)(const bw::Lifter&, bw::Date);
  std::optional<bw::Date> (*day)(const bw::Lifter&, bw::Date);
};

/// That of a caution which may rest on a note of the log; null for others.
inline const NotedFor* noted_for(const bw::Caution& caution) {
  static const NotedFor all[] = {
      {bw::cautions::unwell.key, bw::set_of_unwell, bw::last_unwell},
      {bw::cautions::unwell_before.key, bw::set_of_earlier_unwell, bw::earlier_unwell},
      {bw::cautions::pain.key, bw::set_that_hurt, bw::last_pain},
      {bw::cautions::pain_before.key, bw::set_that_hurt_before, bw::earlier_pain},
      {bw::cautions::pain_elsewhere.key, bw::set_that_hurt_elsewhere, bw::last_pain_elsewhere},
      {bw::cautions::may_hurt.key, bw::set_that_may_hurt, bw::last_may_hurt},
      {bw::cautions::may_be_missed.key, bw::set_that_may_be_missed, bw::last_may_be_missed},
      {bw::cautions::doubted_set.key, bw::last_doubted_set, bw::last_doubted_day}};
  const auto* const found = std::find_if(std::begin(all), std::end(all), [&](const NotedFor& each) {
    return each.key == caution.key;
  });
  return found == std::end(all) ? nullptr : found;
}

/// What the log says that a caution rests on; empty where it is not the log that says it, and for
/// other cautions.
inline std::string where_it_is_noted(const bw::Caution& caution, const bw::Lifter& lifter,
                                     bw::Date date, const About& about) {
  const NotedFor* const kind = noted_for(caution);
  if (kind == nullptr) return "";
  if (const auto set = kind->set(lifter, date)) {
    return "The log notes it on " + complaint_text(bw::as_logged(*set, lifter), about);
  }
  const auto noted = kind->day(lifter, date);
  if (!noted) return "";
  return "The log notes it on " + day(*noted) + ", in a line without a set that could be read" +
         (date < *noted ? "; that day is still to come: it counts until the line is mended." : ".");
}

/// The box that stands in place of the loads, and what would lift it.
inline void print_stop(std::ostream& out, const bw::Lifter& lifter, const bw::Lift& lift,
                       const StopFacts& facts, const About& about) {
  const std::string line(80, '#');
  out << '\n' << line << '\n';
  for (const bw::Caution& caution : facts.cautions) {
    if (caution.severity != bw::Severity::stop) continue;
    const bool is_of_max = caution.key == bw::cautions::stated_max_above_log.key ||
                           caution.key == bw::cautions::doubtful_max.key;
    const std::string text =
        is_of_max ? max_check_text(lifter, about.unit) : std::string(caution.text);
    paragraph(out, "STOP  " + text, 0, 6);
    const std::string noted = where_it_is_noted(caution, lifter, facts.date, about);
    if (!noted.empty()) paragraph(out, noted, 6, 6);
  }
  out << line << '\n';
  title(out, facts.remedies.size() > 1 ? "To go on, any one of these" : "To go on");
  for (const bw::Remedy remedy : facts.remedies) {
    paragraph(out, "- " + to_text(remedy, lift, facts, lifter.rules), 2, 4);
  }
}

/// Whether a caution doubts the log: `print_doubts` says it at greater length.
inline bool is_of_log(const bw::Caution& caution) {
  return caution.text == bw::cautions::doubtful_log.text ||
         caution.text == bw::cautions::reads_like_rpe.text ||
         caution.text == bw::cautions::may_be_rpe.text;
}

/// The cautions of one severity.
/// @param noted  what the log says that one of them rests on, where it does
inline void list_cautions(std::ostream& out, const std::vector<bw::Caution>& cautions,
                          std::string_view name, bw::Severity severity, const About& about,
                          const std::function<std::string(const bw::Caution&)>& noted = nullptr) {
  bool is_first = true;
  for (const bw::Caution& caution : cautions) {
    if (caution.severity != severity || is_of_log(caution)) continue;
    if (is_first) title(out, name);
    is_first = false;
    const std::string where = noted ? noted(caution) : "";
    paragraph(out,
              "- " + std::string(caution.text) + tag(caution.source, about) +
                  (where.empty() ? "" : " " + where),
              2, 4);
  }
}
/// Those to hear before the first set.
inline void list_first_cautions(std::ostream& out, const std::vector<bw::Caution>& cautions,
                                const bw::Lifter& lifter, bw::Date date, const About& about) {
  list_cautions(
      out, cautions, "Before the first set", bw::Severity::warn, about,
      [&](const bw::Caution& caution) { return where_it_is_noted(caution, lifter, date, about); });
}

/// What a lift asks of whoever does it for the first time.
inline void list_requirements(std::ostream& out, const bw::Lift& lift, const About& about) {
  if (lift.requirements().size() == 0) return;
  title(out, "Before this lift");
  for (const bw::Note& note : lift.requirements()) {
    paragraph(out, "- " + std::string(note.text) + tag(note.source, about), 2, 4);
  }
}

/// What bar and spotter stand for where there is no bar; nothing where there is.
inline void print_machine(std::ostream& out, const bw::BaseLift& base, bool has_spotter) {
  if (base.has_stack) {
    paragraph(out,
              "Stacks differ, and so does what a plate of one pulls: where yours has not this one, "
              "take the next lighter.");
    return;
  }
  if (!base.is_machine) return;
  paragraph(out,
            "The " + std::string(base.name) +
                " is a machine: \"bar\" means what it weighs empty. Say what yours weighs, as in "
                "--room \"gym_kg; bar 45 kg\"." +
                (has_spotter ? " A spotter cannot take its weight; its stops can." : ""));
}

// ---- doubts about a log

/// Whether something speaks against loads that rest on this log.
inline bool has_doubts(const bw::Lifter& lifter) {
  const bw::LogDoubts& doubts = lifter.doubts;
  return doubts.reads_like_rpe || doubts.may_be_rpe || doubts.is_contradictory();
}
/// Says what, and to look it up before lifting.
inline void print_doubts(std::ostream& out, const bw::Lifter& lifter, const About& about) {
  if (!has_doubts(lifter)) return;
  const bw::LogDoubts& doubts = lifter.doubts;
  title(out, "Check the log before lifting");
  if (doubts.reads_like_rpe || doubts.may_be_rpe) {
    const bw::Caution& caution =
        doubts.reads_like_rpe ? bw::cautions::reads_like_rpe : bw::cautions::may_be_rpe;
    paragraph(out, std::string(caution.text) +
                       " Say which: --ratings rpe, or --ratings reps-in-reserve.");
  }
  if (doubts.is_contradictory()) {
    paragraph(out, std::string(bw::cautions::doubtful_log.text));
  }
  if (doubts.has_few_sets_left) {
    const auto left_out = static_cast<int>(lifter.suspects.size());
    paragraph(out, count(left_out, "set") + (left_out == 1 ? " does" : " do") +
                       " not fit the others and " + (left_out == 1 ? "was" : "were") +
                       " left out:");
    print_suspects(out, lifter, about);
    std::string rest =
        "The load rests on the " + count(lifter.learnt->sets_used, "set") + " that are left";
    const auto heaviest =
        std::max_element(lifter.used.begin(), lifter.used.end(),
                         [](const auto& a, const auto& b) { return a.load < b.load; });
    if (heaviest != lifter.used.end()) {
      rest += ", the heaviest " + done(bw::as_logged(*heaviest, lifter), about.unit) + " on " +
              day(heaviest->date);
    }
    paragraph(out,
              rest +
                  ": too few to tell which are wrong. Find out what was lifted and correct the "
                  "log before lifting.");
  }
  if (doubts.jump) {
    paragraph(out, "The last session's best set, " +
                       done(bw::as_logged(doubts.jump->set, lifter), about.unit) + " on " +
                       day(doubts.jump->set.date) + ", implies a 1RM " +
                       percent(doubts.jump->share, 0) +
                       " above any set before it. A jump of more than " +
                       percent(lifter.rules.doubtful_jump, 0) +
                       " is more likely a typo than a gain, and the load follows it: check it "
                       "before lifting.");
  }
}

// ---- the log

/// What became of every line, at the end of a page.
/// @param log  as it was read: it counts its rows, and has a name
template <class Log>
void print_account(std::ostream& out, const bw::Lifter& lifter, const Log& log,
                   const About& about) {
  title(out, "The log");
  out << "  " << bw::printable<std::string>(log.name) << ": " << count(log.rows, "row") << ", "
      << count(static_cast<int>(log.entries.size()), "set") << " read, "
      << count(log.refused(), "row") << " refused\n";
  const auto sets = static_cast<int>(about.lines.size());
  const auto left_out = static_cast<int>(lifter.suspects.size());
  const int later = sets - left_out - static_cast<int>(lifter.sets.size());
  std::string text = count(sets, "set") + " by " + about.lifter;
  if (later > 0) text += "; " + std::to_string(later) + " after this day, left out";
  if (left_out > 0) {
    text += "; " + std::to_string(left_out) + " left out as not fitting the others";
  }
  paragraph(out, text);
}

}  // namespace report
