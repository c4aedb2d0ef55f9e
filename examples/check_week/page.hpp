// examples/check_week/page.hpp - a week on one page: sets, conflicts, overlap, a better order
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "check_week/planned_week.hpp"
#include "report/text_page.hpp"

namespace check_week {

using text_page::count;
using text_page::number;
using text_page::padded;
using text_page::right;

/// What is asked about a week.
struct Question {
  bw::SpacingRule rule{};
  bw::OrderRule order{};
  bool wants_sources = false;
};

/// Prints one week.
class Page {
 public:
  Page(std::ostream& out, const PlannedWeek& week, const Question& asked)
      : out_(out),
        week_(week),
        asked_(asked),
        order_(bw::best_order(week.sessions, asked.rule, asked.order)),
        better_(bw::reordered(week.sessions, order_)) {}

  void print() {
    headline();
    sessions();
    sets();
    conflicts();
    overlap();
    order();
    swaps();
    load();
    evidence();
  }

 private:
  // -- pieces of text --

  void title(std::string_view text) { text_page::title(out_, text); }
  void say(std::string_view text, std::size_t hanging = 2) {
    text_page::paragraph(out_, text, 2, hanging);
  }
  /// "squat 5 x 5, 2 RIR"
  [[nodiscard]] static std::string planned(const bw::PlannedLift& lift) {
    std::string text = lift.lift.name().str();
    text += " " + std::to_string(lift.sets.count()) + " x " + std::to_string(lift.reps.count());
    if (lift.reserve == bw::RepsInReserve(0.0)) return text + " to failure";
    return text + ", " + text_page::rir(lift.reserve);
  }
  /// "lower back 2, glutes 2"
  [[nodiscard]] static std::string by_group(const bw::FractionalSets& sets) {
    std::string text;
    for (const bw::MuscleGroup group : bw::all_muscle_groups) {
      if (sets.parts(group) == 0) continue;
      text += text.empty() ? "" : ", ";
      text += bw::to_text(group);
      text.append(" ").append(number(sets[group], 1));
    }
    return text;
  }
  /// Day by day; a session on another day than in the week as planned says from which it comes.
  void list_sessions(const std::vector<bw::PlannedSession>& sessions) {
    for (const bw::Weekday day : bw::all_weekdays) {
      for (std::size_t i = 0; i < sessions.size(); ++i) {
        if (sessions[i].day != day) continue;
        constexpr std::size_t indent = 13;
        std::string line = "  " + padded(bw::to_text(day), indent - 2);
        std::string heading = week_.session_names[i];
        if (day != week_.sessions[i].day) {
          heading += (heading.empty() ? "(from " : " (from ") +
                     std::string(bw::to_text(week_.sessions[i].day)) + ")";
        }
        if (!heading.empty()) line += heading + ":";
        if (sessions[i].lifts.empty()) line += " no lifts";
        for (const bw::PlannedLift& lift : sessions[i].lifts) {
          const std::string text = planned(lift) + (&lift == &sessions[i].lifts.back() ? "" : ";");
          if (line.size() + 1 + text.size() > 80) {
            out_ << line << '\n';
            line.assign(indent, ' ');
          }
          line += (line.back() == ' ' ? "" : " ") + text;
        }
        out_ << line << '\n';
      }
    }
  }

  /// "; front shoulders more, triceps less", but for what only braces.
  [[nodiscard]] static std::string changed_work(const bw::Lift& lift, const bw::Lift& variation) {
    std::string text;
    const bw::Muscles now = lift.muscles();
    const bw::Muscles then = variation.muscles();
    for (const bw::MuscleGroup group : bw::all_muscle_groups) {
      if (now[group] == then[group]) continue;
      if (bw::is_bracing(lift, group) || bw::is_bracing(variation, group)) continue;
      text.append(text.empty() ? "; it works the " : ", the ").append(bw::to_text(group));
      text += now[group] < then[group] ? " more" : " less";
    }
    return text;
  }

  // -- sections --

  /// What to do about the week, in one line.
  void headline() {
    if (week_.refused > 0) {
      out_ << "Not the whole week: " << count(week_.refused, "line")
           << " could not be read. Of the rest:\n";
    }
    const std::string now = count(order_.conflicts_before, "conflict");
    if (order_.moved > 0 && order_.conflicts_before == 0) {
      out_ << "None too close together; " << count(order_.moved, "day")
           << " moved (below) would give muscles more rest\n";
    } else if (order_.moved > 0) {
      out_ << "Move " << count(order_.moved, "day") << ": " << now << " now, "
           << order_.conflicts_after << " in the better order below\n";
    } else if (order_.conflicts_before > 0) {
      out_ << "Change the sessions themselves: " << now << ", and no order of days has fewer\n";
    } else {
      out_ << "Leave the days as they are: no sessions too close together\n";
    }
  }

  void sessions() {
    out_ << week_.name << ": " << count(static_cast<int>(week_.sessions.size()), "session")
         << " from " << count(week_.rows - week_.refused, "line") << ", "
         << count(week_.refused, "line") << " refused\n";
    title("The week as planned");
    list_sessions(week_.sessions);
  }

  void sets() {
    title("Sets for each muscle group");
    out_ << "                    sets  direct  indirect  bracing\n";
    bool has_bracing = false;
    for (const bw::MuscleGroup group : bw::all_muscle_groups) {
      const bw::GroupSets sets = bw::group_sets(week_.sessions, group);
      if (sets.direct + sets.indirect + sets.bracing == 0) continue;
      has_bracing = has_bracing || sets.bracing > 0;
      out_ << "  " << padded(bw::to_text(group), 16) << right(number(sets.fractional(), 1), 6)
           << right(std::to_string(sets.direct), 8) << right(std::to_string(sets.indirect), 10)
           << (sets.bracing > 0 ? right(std::to_string(sets.bracing), 9) : std::string()) << '\n';
    }
    say("sets: 1 for each direct set, one half for each indirect one");
    if (has_bracing) {
      say("bracing: sets of a press that the group only braced, by arch, leg drive or standing "
          "under the bar; not counted as sets");
    }
  }

  void conflicts() {
    const auto found = bw::spacing_conflicts(week_.sessions, asked_.rule);
    title("Too close together");
    if (found.empty()) out_ << "  nothing\n";
    for (const bw::SpacingConflict& conflict : found) {
      say(bw::to_text(conflict).str(), 4);
    }
  }

  void overlap() {
    const bw::WeekOverlap shared = bw::overlap(week_.sessions, asked_.rule);
    title("Overlap: sets of the same muscles on days close together");
    std::string sum = number(shared.shared.total(), 1) + " in all, ";
    sum += number(shared.between_upper_and_lower.total(), 1);
    sum += " of them between upper- and lower-body lifts";
    if (shared.by_bracing.total_parts() > 0) {
      sum.append("; ").append(number(shared.by_bracing.total(), 1));
      sum += " by bracing, which counts " + std::to_string(asked_.rule.bracing_percent);
      sum += " % of a set here";
    }
    say(sum);
    for (const bw::DayOverlap& pair : shared.days) {
      std::string text(bw::to_text(pair.earlier));
      text += " to " + std::string(bw::to_text(pair.later)) + ": " + number(pair.shared.total(), 1);
      const double across = pair.between_upper_and_lower.total();
      if (across > 0.0) text += ", " + number(across, 1) + " of it between upper and lower";
      say(text + ": " + by_group(pair.shared), 4);
    }
    const auto without_lifts =
        std::count_if(week_.sessions.begin(), week_.sessions.end(),
                      [](const bw::PlannedSession& session) { return session.lifts.empty(); });
    if (without_lifts > 0) {
      std::string text = "Sessions without lifts (" + std::to_string(without_lifts);
      text +=
          "): the muscles of rowing, running and the like are not known here, so they count in "
          "the load below, but not in spacing or overlap.";
      say(text);
    }
  }

  void order() {
    title("A better order of days");
    if (order_.moved == 0) {
      std::string text = "none: no order";
      if (!asked_.order.may_use_rest_days) text += " that keeps the rest days, and";
      text += " whose heaviest day is at most ";
      text += std::to_string(asked_.order.most_load_rise_percent);
      text += " % heavier than now, has fewer conflicts, or at least ";
      text += std::to_string(asked_.order.least_gain_percent) + " % less overlap";
      say(text);
    } else {
      std::string text = count(order_.moved, "day") + " moved: ";
      text += count(order_.conflicts_after, "conflict") + " instead of ";
      text += std::to_string(order_.conflicts_before) + ", overlap of lifting ";
      text += number(order_.overlap_after, 1) + " instead of " + number(order_.overlap_before, 1);
      say(text);
      heavier();
      out_ << '\n';
      list_sessions(better_);
      const auto left = bw::spacing_conflicts(better_, asked_.rule);
      if (!left.empty()) out_ << "\n  still too close:\n";
      for (const bw::SpacingConflict& conflict : left) {
        say(bw::to_text(conflict).str(), 4);
      }
    }
    rest_would_help();
  }

  /// Names what the better order makes heavier than it is now.
  void heavier() {
    const bw::DailyLoads now = bw::daily_loads(week_.sessions);
    const bw::DailyLoads then = bw::daily_loads(better_);
    const auto heaviest_now = std::max_element(now.loads.begin(), now.loads.end());
    const auto heaviest_then = std::max_element(then.loads.begin(), then.loads.end());
    std::string text;
    if (*heaviest_then > *heaviest_now) {
      const auto day = static_cast<std::size_t>(heaviest_then - then.loads.begin());
      text += "the heaviest day, " + std::string(bw::to_text(bw::all_weekdays[day])) + ", ";
      text += number(*heaviest_then, 0) + " instead of " + number(*heaviest_now, 0);
    }
    const auto strain_now = bw::summarise(now.loads).strain;
    const auto strain_then = bw::summarise(then.loads).strain;
    if (strain_now && strain_then && *strain_then > *strain_now) {
      text += text.empty() ? "strain " : "; strain ";
      text += number(*strain_then, 0) + " instead of " + number(*strain_now, 0);
    }
    if (!text.empty()) say("heavier than now: " + text, 4);
    if (now.sessions_without_rating > 0) {
      say(count(now.sessions_without_rating, "session") +
              " without a rating counted as no load, so days that hold them may be heavier than "
              "they look",
          4);
    }
  }

  /// Says what a day of rest would bring, where it is kept.
  void rest_would_help() {
    if (asked_.order.may_use_rest_days) return;
    bw::OrderRule with_rest = asked_.order;
    with_rest.may_use_rest_days = true;
    const bw::DayOrder best = bw::best_order(week_.sessions, asked_.rule, with_rest);
    if (best.conflicts_after >= order_.conflicts_after) return;
    std::string text = "With lifts on a rest day, ";
    text += count(best.conflicts_after, "conflict") + " would remain: --use-rest-days shows it.";
    say(text);
  }

  void swaps() {
    constexpr std::size_t most = 3;
    title("Or a different variation, on the days as planned");
    std::size_t printed = 0;
    for (const bw::Swap& swap : bw::swaps(week_.sessions, asked_.rule)) {
      if (printed == most || swap.conflicts_added > 0) break;
      if (!swap.keeps_aim || !swap.is_cost_known()) continue;
      const bw::PlannedSession& session = week_.sessions[swap.session];
      const bw::Lift& lift = session.lifts[swap.lift].lift;
      std::string text(bw::to_text(session.day));
      text.append(", ").append(lift.name().str()).append(" as ");
      text.append(swap.variation.name().str()).append(": ");
      text.append(number(swap.overlap_removed, 1)).append(" sets less overlap, at ");
      text.append(bw::detail::percent_text(swap.load_ratio).str());
      text += " of the load at the same effort";
      for (const bw::Modifier& modifier : swap.variation.modifiers()) {
        if (lift.has(modifier) || !asked_.wants_sources) continue;
        text.append(" [").append(bw::to_text(modifier.ratio_figure().evidence)).append("]");
      }
      say(text + changed_work(lift, swap.variation), 4);
      ++printed;
    }
    if (printed == 0) {
      out_ << "  none that has less overlap, serves the same purpose, and whose load is known\n";
    } else {
      say("Start a new variation light: 50 to 70 % of its estimated 1RM, sets ended early.");
    }
  }

  [[nodiscard]] static bool has_load(const bw::DailyLoads& days) {
    return std::any_of(days.loads.begin(), days.loads.end(), [](double load) { return load > 0; });
  }

  void load() {
    const bw::DailyLoads days = bw::daily_loads(week_.sessions);
    if (!has_load(days)) return;
    title("Load: rating times minutes");
    std::vector<std::array<double, 7>> columns{days.loads};
    if (order_.moved > 0) {
      columns.push_back(bw::daily_loads(better_).loads);
      out_ << "             as planned  in the better order\n";
    }
    constexpr std::array<std::size_t, 2> widths{10, 21};
    const auto row = [&](std::string_view name, const auto& value) {
      out_ << "  " << padded(name, 11);
      for (std::size_t i = 0; i < columns.size(); ++i) {
        out_ << right(value(columns[i]), columns.size() == 1 ? 6 : widths[i]);
      }
      out_ << '\n';
    };
    for (std::size_t day = 0; day < bw::all_weekdays.size(); ++day) {
      row(bw::to_text(bw::all_weekdays[day]),
          [&](const auto& loads) { return number(loads[day], 0); });
    }
    const auto of_summary = [&](std::string_view name, auto figure, int decimals) {
      row(name, [&](const auto& loads) {
        const std::optional<double> value = figure(bw::summarise(loads));
        return value ? number(*value, decimals) : std::string("none");
      });
    };
    using Figure = std::optional<double>;
    of_summary(
        "sum", [](const bw::LoadSummary& s) -> Figure { return s.sum; }, 0);
    of_summary(
        "monotony", [](const bw::LoadSummary& s) -> Figure { return s.monotony; }, 2);
    of_summary(
        "strain", [](const bw::LoadSummary& s) -> Figure { return s.strain; }, 0);
    if (asked_.wants_sources) {
      say("monotony by the population standard deviation; equal days have none, and no strain");
    }
    if (days.sessions_without_rating > 0) {
      out_ << "  " << count(days.sessions_without_rating, "session")
           << " without a rating counted as 0: monotony and strain mean little\n";
    }
  }

  struct Rule {
    std::string_view what;
    const bw::Source& source;
  };

  void in_full(const Rule& rule) {
    std::string text(rule.source.citation);
    for (const std::string_view part : {rule.source.population, rule.source.note}) {
      if (!part.empty()) text += (text.empty() ? "" : " - ") + std::string(part);
    }
    say("- " + std::string(rule.what) + ": " + text + " [" + text_page::standing(rule.source) + "]",
        4);
  }

  void evidence() {
    std::vector<Rule> rules{
        {"sets", bw::fractional_sets_source},
        {"hours between", bw::spacing_source},
        {"overlap", bw::overlap_source},
        {"no fatigue of muscles that did not work", bw::cross_muscle_source},
        {"bracing", bw::bracing_source},
        {"which orders are offered", bw::order_source},
    };
    if (has_load(bw::daily_loads(week_.sessions))) {
      rules.push_back({"load", bw::session_load_source});
      rules.push_back({"monotony and strain", bw::monotony_source});
    }
    if (asked_.wants_sources) {
      title("What this rests on");
      for (const Rule& rule : rules) in_full(rule);
    }
    out_ << '\n';
    text_page::paragraph(out_, bw::cautions::always.text, 0, 0);
    if (!asked_.wants_sources) {
      out_ << "\nWhere each rule comes from, and how far to trust it: --sources\n";
    }
  }

  std::ostream& out_;
  const PlannedWeek& week_;
  const Question& asked_;
  bw::DayOrder order_;
  std::vector<bw::PlannedSession> better_;  ///< the week in that order
};

}  // namespace check_week
