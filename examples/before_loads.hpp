// examples/before_loads.hpp - what has to be heard before the loads
//
// What plan_session and plan_block say alike above their loads, or in their place: a stated max
// beside what the log says, what would lift a stop, what a bar stands for on a machine, a log that
// may be wrong, and sessions that lie too close together.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "lifter_model.hpp"
#include "text_page.hpp"

namespace before_loads {

namespace bw = barwright;

// ---- is the max right

/// What is to be said of a stated max; nothing where it can stand.
struct MaxCheck {
  bool is_refused = false;
  std::string text{};
};

/// A max above which the figure itself is doubted, whoever lifts.
inline bw::Mass doubtful_max(bw::LiftFamily family) {
  switch (family) {
    case bw::LiftFamily::squat:
    case bw::LiftFamily::deadlift: return bw::Mass::from_kg(350);
    case bw::LiftFamily::horizontal_press: return bw::Mass::from_kg(250);
    case bw::LiftFamily::pull: return bw::Mass::from_kg(200);
    case bw::LiftFamily::overhead_press: return bw::Mass::from_kg(150);
    case bw::LiftFamily::single_joint: return bw::Mass::from_kg(100);
  }
  return bw::Mass::from_kg(350);
}

/// Holds a stated max of a base lift against the log.
/// @param by_log  the interval that holds the max with a probability of 99 %, where the log says
inline MaxCheck check_max(bw::Mass stated, const bw::BaseLift& base,
                          const std::optional<bw::Range<bw::Mass>>& by_log, bw::Unit unit) {
  const std::string name(base.name);
  if (by_log) {
    const std::string says = "By the log the max on the " + name + " is " +
                             text_page::max_number(by_log->low, unit) + " to " +
                             text_page::max_text(by_log->high, unit) + " (99 %); stated was " +
                             text_page::max_text(stated, unit) + ". ";
    if (stated > by_log->high) {
      const bw::Mass if_pounds = stated * bw::Mass::kg_per_lb;
      const bool is_likely =
          unit == bw::Unit::kg && if_pounds > 0.85 * by_log->low && if_pounds < by_log->high / 0.85;
      return {.is_refused = true,
              .text = says + (is_likely ? "Is it in pounds?" : "Is the figure right?")};
    }
    if (stated < by_log->low) {
      return {.text = says + "The lower figure is used; lighter is the safe side."};
    }
  }
  const bw::Mass doubtful = doubtful_max(base.family);
  if (stated > doubtful) {
    return {.text = "Please check this figure: a max of " + text_page::max_text(stated, unit) +
                    " on the " + name + " is above " + text_page::max_text(doubtful, unit) +
                    ", which few lifters anywhere reach [assumption]."};
  }
  return {};
}

// ---- what would catch a missed repetition

/// The box that stands in place of the loads.
inline void print_stop(std::ostream& out, const std::vector<std::string>& reasons) {
  const std::string line(80, '#');
  out << '\n' << line << '\n';
  for (const std::string& reason : reasons) text_page::paragraph(out, "STOP  " + reason, 0, 6);
  out << line << '\n';
}

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

/// What, changed alone, would lift the stop that was said to these facts.
/// @param reserve_option  the option that says how many to leave
inline std::vector<std::string> ways_on(const bw::SessionFacts& facts,
                                        std::string_view reserve_option) {
  std::vector<std::string> ways;
  const auto add_if_lifted = [&](const bw::SessionFacts& changed, std::string way) {
    if (!bw::cautions_for(changed).says_stop()) ways.push_back(std::move(way));
  };
  bw::SessionFacts changed = facts;
  changed.has_spotter = true;
  add_if_lifted(changed, "have a spotter stand by, and say --spotter");
  changed = facts;
  changed.safeties = bw::Safeties::checked;
  add_if_lifted(changed, way_to_checked_safeties(facts.lift.base()));
  changed = facts;
  changed.reserve = bw::RepsInReserve(2.0);
  changed.is_max_attempt = false;
  add_if_lifted(changed, "keep 2 or more in reserve: " + std::string(reserve_option) + " 2");
  return ways;
}

/// What bar and spotter stand for where there is no bar; nothing where there is.
inline std::string on_a_machine(const bw::BaseLift& base, bool has_spotter) {
  if (!base.is_machine) return "";
  return "The " + std::string(base.name) +
         " is a machine: the bar stands for what it weighs empty. Say what yours does, as in "
         "--room \"gym_kg; bar 45 kg\"." +
         (has_spotter ? " No spotter can take its weight; its stops can." : "");
}

// ---- is the log right

/// For each day with a set left out, so many days of other sets tell which of them is right; with
/// fewer the lifter has to. Days are counted, as the sets of one day share a slip. An assumption.
inline constexpr int days_to_outweigh_one = 3;

/// A last session further above the ones before is a slip of the pen more often than a gain: an
/// assumption.
inline constexpr double doubtful_jump = 0.20;

/// Whether sets were left out and hardly any are left to say that they are the wrong ones.
inline bool few_remain(const lifter_model::Learnt& learnt) {
  const auto days_of = [](const auto& sets, const auto& date_of) {
    std::vector<bw::Date> days;
    for (const auto& set : sets) days.push_back(date_of(set));
    std::sort(days.begin(), days.end());
    return std::unique(days.begin(), days.end()) - days.begin();
  };
  const auto left_out = days_of(learnt.misfits, [](const auto& each) { return each.set.date; });
  const auto used = days_of(learnt.used, [](const auto& set) { return set.date; });
  return used < days_to_outweigh_one * left_out;
}

/// The last session's best set, where it says far more than all before it.
struct Jump {
  bw::LoggedSet set;
  double share = 0.0;  ///< 0.37 where its max is 37 % above theirs
};

/// Looks at the sets by themselves: the model has them in common, and so would hide the jump.
inline std::optional<Jump> find_jump(const lifter_model::Learnt& learnt) {
  struct Reading {
    const bw::LoggedSet* set;
    bw::Mass max;  ///< on the base lift
  };
  std::vector<Reading> readings;
  bw::Date last_day(bw::Date::first_year, 1, 1);
  for (const bw::LoggedSet& set : learnt.used) {
    // Not rated, a set says no more than what was done.
    const double reps = bw::reps_to_failure(set).value_or(set.reps.count());
    if (reps < 1.0) continue;
    const double share = learnt.fit.ratio(set.lift).median() *
                         std::exp(learnt.fit.settings().curve.log_fraction(reps));
    readings.push_back({&set, set.load / share});
    last_day = std::max(last_day, set.date);
  }
  const auto best = [&](const auto& counts) {
    const Reading* found = nullptr;
    for (const Reading& each : readings) {
      if (counts(last_day - each.set->date) && (found == nullptr || each.max > found->max)) {
        found = &each;
      }
    }
    return found;
  };
  const Reading* const last = best([](int days) { return days == 0; });
  const Reading* before =
      best([](int days) { return days > 0 && days <= lifter_model::longest_days; });
  if (before == nullptr) before = best([](int days) { return days > 0; });
  if (last == nullptr || before == nullptr) return std::nullopt;
  const double share = last->max / before->max - 1.0;
  if (!(share > doubtful_jump)) return std::nullopt;
  return Jump{.set = *last->set, .share = share};
}

/// Says what speaks against loads that rest on this log, and to look it up before lifting.
inline void print_doubts(std::ostream& out, const lifter_model::Learnt& learnt, bw::Unit unit) {
  const bool is_contradictory = few_remain(learnt);
  const std::optional<Jump> jump = find_jump(learnt);
  if (!is_contradictory && !jump) return;
  text_page::title(out, "Check the log before lifting");
  if (is_contradictory) {
    const auto left_out = static_cast<int>(learnt.misfits.size());
    text_page::paragraph(out, text_page::count(left_out, "set") +
                                  (left_out == 1 ? " does" : " do") + " not fit the others and " +
                                  (left_out == 1 ? "was" : "were") + " left out:");
    for (const lifter_model::Misfit& misfit : learnt.misfits) {
      text_page::paragraph(out, "- " + lifter_model::to_text(misfit, unit), 2, 4);
    }
    std::string rest =
        "The loads below rest on what is left, " + text_page::count(learnt.fit.sets_used(), "set");
    const auto heaviest =
        std::max_element(learnt.used.begin(), learnt.used.end(),
                         [](const auto& a, const auto& b) { return a.load < b.load; });
    if (heaviest != learnt.used.end()) {
      rest += ", the heaviest " + text_page::done(*heaviest, unit) + " on " +
              text_page::day(heaviest->date);
    }
    text_page::paragraph(out, rest +
                                  ": too little to tell which is wrong [assumption]. Find out what "
                                  "was lifted, and correct the log, before lifting.");
  }
  if (jump) {
    text_page::paragraph(
        out, "The last session's best set, " + text_page::done(jump->set, unit) + " on " +
                 text_page::day(jump->set.date) + ", says a max " +
                 text_page::percent(jump->share, 0) +
                 " above what any set before it says. More than " +
                 text_page::percent(doubtful_jump, 0) +
                 " is a slip of the pen more often than a gain [assumption], and the loads below "
                 "follow it: check it before lifting.");
  }
}

// ---- is it too soon

/// Sets without a rating that are lighter than this share of the heaviest of their lift are taken
/// for warm-ups: an assumption.
inline constexpr double warm_up_below = 2.0 / 3.0;

/// A muscle group trained hard too short a while before.
struct TooSoon {
  bw::SpacingConflict conflict{};
  bw::Date earlier;
  bool is_rated = true;  ///< false: taken as hard for want of a rating
};

/// Whether a set without a rating is so light that it can only have been a warm-up.
inline bool is_warm_up(const bw::LoggedSet& set, const std::vector<bw::LoggedSet>& log) {
  if (set.reserve || set.outcome == bw::Outcome::missed) return false;
  return std::any_of(log.begin(), log.end(), [&](const bw::LoggedSet& other) {
    return other.lift.same_as(set.lift) && other.date <= set.date &&
           set.load < other.load * warm_up_below;
  });
}

/// What a session on `date` comes too soon after.
inline std::vector<TooSoon> too_soon(const std::vector<bw::LoggedSet>& log,
                                     const bw::PlannedLift& planned, bw::Date date) {
  std::vector<bw::LoggedSet> near;
  std::vector<bw::LoggedSet> rated;
  for (const bw::LoggedSet& set : log) {
    if (set.date >= date || date - set.date > 7 || is_warm_up(set, log)) continue;
    near.push_back(set);
    if (set.reserve || set.outcome == bw::Outcome::missed) rated.push_back(set);
  }
  const std::array today{planned};
  const auto by_ratings = bw::spacing_conflicts(rated, today, date);
  std::vector<TooSoon> found;
  for (const bw::SpacingConflict& conflict : bw::spacing_conflicts(near, today, date)) {
    const bool is_rated = std::any_of(
        by_ratings.begin(), by_ratings.end(), [&](const bw::SpacingConflict& rated_one) {
          return rated_one.group == conflict.group && rated_one.hours == conflict.hours &&
                 rated_one.after_failure == conflict.after_failure;
        });
    found.push_back(
        {.conflict = conflict, .earlier = date - conflict.hours / 24, .is_rated = is_rated});
  }
  return found;
}

/// "chest, triceps: to failure on Monday (bench press; dip), 48 hours before; 72 are wanted
/// [assumption]"
inline std::vector<std::string> to_lines(const std::vector<TooSoon>& found) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < found.size();) {
    const TooSoon& first = found[i];
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
                    std::to_string(first.conflict.hours) + " hours before; " +
                    std::to_string(first.conflict.hours_wanted) + " are wanted [" +
                    std::string(bw::to_text(bw::spacing_source.evidence)) + "]");
  }
  return lines;
}

/// The first day that none of them speaks against.
inline bw::Date first_day_after(const std::vector<TooSoon>& found) {
  bw::Date day = found.front().earlier;
  for (const TooSoon& each : found) {
    day = std::max(day, each.earlier + (each.conflict.hours_wanted + 23) / 24);
  }
  return day;
}

/// The least to leave in every set, for a session not to count as hard.
inline double least_of_easy_session() {
  return bw::SpacingRule{}.most_reserve_of_hard_set.count() + 1.0;
}

/// Names them, and says what to do.
/// @param session  "today", "in the first session"
inline void print(std::ostream& out, const std::vector<TooSoon>& found, bw::RepsInReserve reserve,
                  std::string_view session) {
  if (found.empty()) return;
  text_page::title(out, "Too close to the last sessions");
  for (const std::string& line : to_lines(found)) text_page::paragraph(out, line, 2, 4);
  const bool after_failure = std::any_of(
      found.begin(), found.end(), [](const TooSoon& each) { return each.conflict.after_failure; });
  std::string text;
  if (after_failure && reserve < bw::RepsInReserve(2.0)) {
    text = "To leave " + text_page::number(reserve.count(), 1) + " is not advised " +
           std::string(session) + ". ";
  }
  const bw::Date day = first_day_after(found);
  text += "Wait until " + std::string(bw::to_text(bw::weekday_of(day))) + " " +
          text_page::day(day) + ", or leave " + text_page::number(least_of_easy_session(), 1) +
          " or more " + std::string(session) + " [assumption].";
  text_page::paragraph(out, text);
}

}  // namespace before_loads
