// examples/report/words.hpp - what the pages say alike: stops, doubts, recovery, cautions, refusals
//
// Decisions come from the library as data; here they are put into sentences.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
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

/// Whose page it is, as far as the library does not know.
struct About {
  std::string lifter{};      ///< empty without a log
  std::vector<int> lines{};  ///< of the log's text, for each set given to the library
  bw::Unit unit = bw::Unit::kg;
  bool date_is_assumed = false;  ///< the day after the lifter's last set
};

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
  return with.dumbbell ? "2 x " + bw::to_text(*with.dumbbell).str() : "";
}

// ---- sets that do not fit

/// "line 19, 2026-11-18: 132 kg x 6, 2 left; about 58.5 kg was expected: pounds typed as
/// kilograms?"
inline std::string to_text(const bw::SuspectSet& suspect, const About& about) {
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
    case bw::Slip::unknown: break;
  }
  return "line " + std::to_string(about.lines[suspect.index]) + ", " + day(suspect.set.date) +
         ": " + done(suspect.set, about.unit) + "; about " +
         max_text(suspect.expected, about.unit) + " was expected" + why;
}

/// ", but for 2 sets that cannot be right as logged: line 3, line 7"
inline std::string but_for(const bw::Lifter& lifter, const About& about) {
  if (lifter.suspects.empty()) return "";
  constexpr std::size_t most_named = 5;
  const std::size_t size = lifter.suspects.size();
  std::string text =
      ", but for " + count(static_cast<int>(size), "set") + " that cannot be right as logged: ";
  for (std::size_t i = 0; i < std::min(size, most_named); ++i) {
    text += (i > 0 ? ", line " : "line ") + std::to_string(about.lines[lifter.suspects[i].index]);
  }
  return text + (size > most_named ? " and others" : "");
}

// ---- the stated max

/// How a stated max stands beside the log; empty where there is nothing to say.
inline std::string max_check_text(const bw::Lifter& lifter, bw::Unit unit) {
  if (!lifter.stated_max) return "";
  const bw::StatedMax& stated = *lifter.stated_max;
  const std::string name(lifter.base.base().name);
  std::string by_log;
  if (stated.by_log) {
    by_log = "By the log the max on the " + name + " is " + max_number(stated.by_log->low, unit) +
             " to " + max_text(stated.by_log->high, unit) + " (99 %); stated was " +
             max_text(stated.max, unit) + ". ";
  }
  switch (stated.check) {
    case bw::StatedMaxCheck::fits: return "";
    case bw::StatedMaxCheck::below_log:
      return by_log + "The lower figure is used; lighter is the safe side.";
    case bw::StatedMaxCheck::above_log:
      return by_log + (stated.looks_like_pounds && unit == bw::Unit::kg ? "Is it in pounds?"
                                                                        : "Is the figure right?");
    case bw::StatedMaxCheck::doubtful: break;
  }
  return "Please check this figure: a max of " + max_text(stated.max, unit) + " on the " + name +
         " is above " + max_text(bw::doubtful_max(lifter.base.base().family), unit) +
         ", which few lifters anywhere reach [assumption].";
}

// ---- stops

/// What has to be done before --safeties checked may be said.
inline std::string way_to_checked_safeties(const bw::BaseLift& base) {
  if (base.is_machine) {
    return "set the stops of the machine, see with no plates on that they catch the weight just "
           "below the lowest point of the lift, and say --safeties checked";
  }
  return base.family == bw::LiftFamily::horizontal_press
             ? "set the safeties, lower the empty bar on to them lying as in the set, see that "
               "neck and chest stay free, and say --safeties checked"
             : "set the safeties, see with no plates on that they catch the weight just below the "
               "lowest point of the lift, and say --safeties checked";
}

/// @param reserve_option  the option that says how many to leave
/// @param least           so many must be left alone
inline std::string to_text(bw::Remedy remedy, const bw::Lift& lift,
                           const std::string& reserve_option,
                           const std::optional<bw::RepsInReserve>& least) {
  const std::string left = number(least.value_or(bw::RepsInReserve(2.0)).count(), 1);
  switch (remedy) {
    case bw::Remedy::have_spotter: return "have a spotter stand by, and say --spotter";
    case bw::Remedy::check_safeties: return way_to_checked_safeties(lift.base());
    case bw::Remedy::keep_reserve:
      return "keep " + left + " or more in reserve: " + reserve_option + " " + left;
    case bw::Remedy::do_shorter_sets:
      return "do sets of 12 at most, and keep " + left + " or more in reserve: --reps 12 " +
             reserve_option + " " + left;
    case bw::Remedy::train_it_first: return "ask for a session of more repetitions and reserve";
    case bw::Remedy::correct_max:
      return "correct --max, or leave it out: then the log says how strong";
    case bw::Remedy::confirm_max: return "or, if the figure is right, say --max-is-right";
    case bw::Remedy::have_pain_seen:
      return "have it looked at by somebody qualified; once the lift is allowed again, say "
             "--pain no";
    case bw::Remedy::do_less: return "ask for fewer sets or repetitions";
  }
  return "";
}

/// "47 days without this lift: week 1 of 2 of the way back."
inline std::string comeback_text(const bw::Comeback& back) {
  return count(back.days_off, "day") + " without this lift or a variation of it: week " +
         std::to_string(back.week) + " of " + std::to_string(back.weeks) + " of the way back.";
}

/// The box that stands in place of the loads, and what would lift it.
/// @param what  "session", "block"
inline void print_stop(std::ostream& out, const bw::Lifter& lifter, const bw::Lift& lift,
                       const std::vector<bw::Caution>& cautions,
                       const std::vector<bw::Remedy>& remedies, const About& about,
                       std::string_view what, const std::string& reserve_option,
                       const std::optional<bw::RepsInReserve>& least) {
  const std::string line(80, '#');
  out << '\n' << line << '\n';
  for (const bw::Caution& caution : cautions) {
    if (caution.weight != bw::CautionWeight::stop) continue;
    const bool is_of_max = caution.key == bw::cautions::stated_max_above_log.key ||
                           caution.key == bw::cautions::doubtful_max.key;
    const std::string text =
        is_of_max ? max_check_text(lifter, about.unit) : std::string(caution.text);
    paragraph(out, "STOP  " + text, 0, 6);
  }
  out << line << '\n';
  title(out, "No loads are given for this " + std::string(what) + ". To go on");
  for (const bw::Remedy remedy : remedies) {
    paragraph(out, "- " + to_text(remedy, lift, reserve_option, least), 2, 4);
  }
}

/// The cautions of one weight.
inline void list_cautions(std::ostream& out, const std::vector<bw::Caution>& cautions,
                          std::string_view name, bw::CautionWeight weight) {
  bool is_first = true;
  for (const bw::Caution& caution : cautions) {
    if (caution.weight != weight) continue;
    if (is_first) title(out, name);
    is_first = false;
    std::string text = "- " + std::string(caution.text);
    if (caution.source.evidence != bw::Evidence::assumption) {
      text += " [" + standing(caution.source) + "]";
    }
    paragraph(out, text, 2, 4);
  }
}

/// What a lift asks of whoever does it for the first time.
inline void list_requirements(std::ostream& out, const bw::Lift& lift) {
  if (lift.requirements().size() == 0) return;
  title(out, "Before this lift");
  for (const bw::Note& note : lift.requirements()) {
    paragraph(out, "- " + std::string(note.text) + " [" + standing(note.source) + "]", 2, 4);
  }
}

/// What bar and spotter stand for where there is no bar; nothing where there is.
inline void print_machine(std::ostream& out, const bw::BaseLift& base, bool has_spotter) {
  if (!base.is_machine) return;
  paragraph(out, "The " + std::string(base.name) +
                     " is a machine: the bar stands for what it weighs empty. Say what yours does, "
                     "as in --room \"gym_kg; bar 45 kg\"." +
                     (has_spotter ? " No spotter can take its weight; its stops can." : ""));
}

// ---- doubts about a log

/// Says what speaks against loads that rest on this log, and to look it up before lifting.
inline void print_doubts(std::ostream& out, const bw::Lifter& lifter, const About& about) {
  const bw::LogDoubts& doubts = lifter.doubts;
  if (!doubts.has_few_sets_left && !doubts.jump) return;
  title(out, "Check the log before lifting");
  if (doubts.has_few_sets_left) {
    const auto left_out = static_cast<int>(lifter.suspects.size());
    paragraph(out, count(left_out, "set") + (left_out == 1 ? " does" : " do") +
                       " not fit the others and " + (left_out == 1 ? "was" : "were") +
                       " left out:");
    for (const bw::SuspectSet& suspect : lifter.suspects) {
      paragraph(out, "- " + to_text(suspect, about), 2, 4);
    }
    std::string rest =
        "The loads below rest on what is left, " + count(lifter.learnt->sets_used, "set");
    const auto heaviest =
        std::max_element(lifter.used.begin(), lifter.used.end(),
                         [](const auto& a, const auto& b) { return a.load < b.load; });
    if (heaviest != lifter.used.end()) {
      rest += ", the heaviest " + done(*heaviest, about.unit) + " on " + day(heaviest->date);
    }
    paragraph(out, rest +
                       ": too few sets to tell which ones are wrong [assumption]. Find out what "
                       "was lifted, and correct the log, before lifting.");
  }
  if (doubts.jump) {
    paragraph(out, "The last session's best set, " + done(doubts.jump->set, about.unit) + " on " +
                       day(doubts.jump->set.date) + ", says a max " +
                       percent(doubts.jump->share, 0) +
                       " above what any set before it says. More than " +
                       percent(lifter.rules.doubtful_jump, 0) +
                       " is more likely a typing error than a gain [assumption], and the loads "
                       "below follow it: check it before lifting.");
  }
}

// ---- recovery

/// "chest, triceps: to failure on Monday (bench press; dip), 48 hours ago; allow 72 [assumption]"
inline std::vector<std::string> to_lines(const std::vector<bw::RecoveryConflict>& found) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < found.size();) {
    const bw::RecoveryConflict& first = found[i];
    std::string muscles;
    std::vector<bw::Lift> lifts;
    for (; i < found.size() && found[i].conflict.hours == first.conflict.hours &&
           found[i].conflict.after_failure == first.conflict.after_failure &&
           found[i].is_rated == first.is_rated;
         ++i) {
      muscles += (muscles.empty() ? "" : ", ") + std::string(bw::to_text(found[i].conflict.group));
      for (const bw::Lift& lift : found[i].conflict.earlier_lifts) {
        if (!lift.is_among(lifts)) lifts.push_back(lift);
      }
    }
    lines.push_back(muscles + (first.conflict.after_failure ? ": to failure on " : ": hard on ") +
                    std::string(bw::to_text(first.conflict.earlier)) + " (" +
                    bw::to_text(lifts).str() + ")" +
                    (first.is_rated ? "" : " (not rated, taken as hard)") + ", " +
                    std::to_string(first.conflict.hours) + " hours ago; allow " +
                    std::to_string(first.conflict.hours_wanted) + " [" +
                    std::string(bw::to_text(bw::spacing_source.evidence)) + "]");
  }
  return lines;
}

/// Names what is too close, and says what is planned instead.
/// @param session  "today", "the first session"
inline void print_recovery(std::ostream& out, const bw::Recovery& recovery,
                           std::string_view session) {
  if (!recovery.is_too_soon()) return;
  title(out, "Not enough recovery since the last session");
  if (recovery.is_second_today) {
    paragraph(out,
              "The lift had all its work sets today already: one hard session of a lift a day "
              "[assumption].",
              2, 4);
  }
  for (const std::string& line : to_lines(recovery.conflicts)) paragraph(out, line, 2, 4);
  paragraph(out, "Best on " + day_of_week(*recovery.ready_on) + " or later. Done all the same, " +
                     std::string(session) + " is an easy one: every set stops with " +
                     number(bw::easy_reserve().count(), 1) + " or more left [assumption].");
}

/// What became of every line, at the end of a page.
/// @param log  as it was read: it counts its rows, and has a name
template <class Log>
void print_account(std::ostream& out, const bw::Lifter& lifter, const Log& log,
                   const About& about) {
  title(out, "The log");
  out << "  " << bw::printable<std::string>(log.name) << ": " << count(log.rows, "row") << ", "
      << log.entries.size() << " read, " << log.refused() << " refused\n";
  const auto sets = static_cast<int>(about.lines.size());
  const auto left_out = static_cast<int>(lifter.suspects.size());
  const int later = sets - left_out - static_cast<int>(lifter.sets.size());
  std::string text = count(sets, "set") + " by " + about.lifter;
  if (later > 0) text += ", " + std::to_string(later) + " of them after this day and so left out";
  if (left_out > 0) {
    text += ", " + std::to_string(left_out) + " left out as not fitting the others";
  }
  paragraph(out, text);
}

// ---- refusals

/// Why there is no plan.
inline std::string to_text(const bw::Refusal& refusal, const bw::Lifter& lifter,
                           const bw::Lift& lift, bw::Date date, const About& about) {
  const std::string name(lift.base().name);
  const std::string state_it = ". State the max: --max \"100 kg\"";
  const auto mass = [&](bw::Mass load) { return bw::to_text(load, about.unit, 1).str(); };
  switch (refusal.code) {
    case bw::RefusalCode::no_strength:
      return "The log has no set of the " + name + " by this lifter before " + day(date) +
             ", nor of a variation of it" + but_for(lifter, about) + state_it;
    case bw::RefusalCode::log_too_old:
      return "The last set of the " + name + " or a variation of it was " +
             std::to_string(refusal.days) + " days before " + day(date) +
             "; how strong the lifter is then the log cannot say" + state_it;
    case bw::RefusalCode::bodyweight_lift:
      return "The " + name + " moves the body, not a bar; no load is planned for it";
    case bw::RefusalCode::bar_too_heavy:
      return "The empty bar, " + load_text(refusal.lightest, about.unit) +
             " with its collars, is heavier than a load of the plan, " + mass(refusal.wanted) +
             ". Use a lighter bar, as in --room \"gym_kg; bar 15 kg\", or dumbbells";
    case bw::RefusalCode::dumbbells_too_heavy:
      return "The lightest dumbbells, " + load_text(refusal.lightest, about.unit) +
             " together, are heavier than the load for today, " + mass(refusal.wanted);
    case bw::RefusalCode::dumbbells_in_block:
      return "A block is loaded on a bar; with dumbbells, plan each session by itself";
    case bw::RefusalCode::log_goes_on:
      return "The log has sets after " + day(date) + ", the first on " + day(*refusal.date);
    case bw::RefusalCode::other_lift:
    case bw::RefusalCode::plain_lift:
    case bw::RefusalCode::not_in_log:
    case bw::RefusalCode::too_few_days: break;
  }
  return std::string(bw::name(refusal.code));
}

/// Why there is no review.
inline std::string to_text(const bw::Refusal& refusal, const bw::ReviewRequest& request,
                           const std::vector<bw::LoggedSet>& sets, const About& about) {
  const std::string name = request.lift.name().str();
  std::vector<std::string> variations;
  std::optional<bw::Date> last;
  for (const bw::LoggedSet& set : sets) {
    if (!set.lift.base().same_as(request.lift.base())) continue;
    if (!last || *last < set.date) last = set.date;
    const std::string known = set.lift.name().str();
    const bool is_listed =
        std::find(variations.begin(), variations.end(), known) != variations.end();
    if (!set.lift.is_plain() && !is_listed) variations.push_back(known);
  }
  const std::string in_log = variations.empty() ? "no variation" : bw::fields::one_of(variations);
  if (refusal.code == bw::RefusalCode::plain_lift) {
    return "Name what is changed about the " + name +
           ", with --with; the log has for this lifter: " + in_log;
  }
  if (refusal.code == bw::RefusalCode::not_in_log) {
    std::string suspects;
    if (last) suspects = but_for(bw::learn_lifter(sets, request.lift.base(), *last), about);
    return "The log has no set of the " + name + " by this lifter" + suspects + "; of the " +
           std::string(request.lift.base().name) + " it has: " + in_log;
  }
  return "A review needs two days of the " + name + "; in the time asked for the log has " +
         std::to_string(refusal.days);
}

}  // namespace report
