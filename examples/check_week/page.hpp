// examples/check_week/page.hpp - a week on one page: sets, conflicts, overlap, a better order
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "check_week/planned_week.hpp"

namespace check_week {

/// What is asked about a week.
struct Question {
  bw::SpacingRule rule{};
  bw::DayFlags fixed{};  ///< days that stay as they are
  bool wants_sources = false;
};

/// Prints one week.
class Page {
 public:
  Page(std::ostream& out, const PlannedWeek& week, const Question& asked)
      : out_(out), week_(week), asked_(asked) {}

  void print() {
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

  [[nodiscard]] static std::string number(double value, int decimals = 1) {
    return std::string(bw::Text{}.append_rounded(value, decimals).view());
  }
  [[nodiscard]] static std::string count(int number, std::string_view thing) {
    return std::to_string(number) + " " + std::string(thing) + (number == 1 ? "" : "s");
  }
  [[nodiscard]] static std::string left_aligned(std::string_view text, std::size_t width) {
    return std::string(bw::Text{}.append_left(text, width).view());
  }
  void title(std::string_view text) { out_ << '\n' << text << '\n'; }
  void paragraph(std::initializer_list<std::string_view> parts, std::size_t hanging = 2) {
    bw::detail::print_paragraph(out_, 2, hanging, parts);
  }
  /// "squat 5 x 5, 2 left"
  [[nodiscard]] static std::string planned(const bw::PlannedLift& lift) {
    std::string text(lift.lift.name().view());
    text += " " + std::to_string(lift.sets.count()) + " x " + std::to_string(lift.reps.count());
    if (lift.reserve == bw::RepsInReserve(0.0)) return text + " to failure";
    return text + ", " + number(lift.reserve.count()) + " left";
  }
  /// "lower back 2, glutes 2"
  [[nodiscard]] static std::string by_group(const bw::FractionalSets& sets) {
    std::string text;
    for (const bw::MuscleGroup group : bw::all_muscle_groups) {
      if (sets.parts(group) == 0) continue;
      text += text.empty() ? "" : ", ";
      text += bw::to_text(group);
      text.append(" ").append(number(sets[group]));
    }
    return text;
  }
  /// Day by day; a session on another day than in the week as planned says from which it comes.
  void list_sessions(const std::vector<bw::PlannedSession>& sessions) {
    for (const bw::Weekday day : bw::all_weekdays) {
      for (std::size_t i = 0; i < sessions.size(); ++i) {
        if (sessions[i].day != day) continue;
        constexpr std::size_t indent = 13;
        std::string line = "  " + left_aligned(bw::to_text(day), indent - 2);
        std::string heading = week_.session_names[i];
        if (day != week_.sessions[i].day) {
          heading += (heading.empty() ? "(from " : " (from ") +
                     std::string(bw::to_text(week_.sessions[i].day)) + ")";
        }
        if (!heading.empty()) line += heading + ":";
        if (sessions[i].lifts.empty()) line += " no lifts";
        for (const bw::PlannedLift& lift : sessions[i].lifts) {
          const std::string text = planned(lift) + (&lift == &sessions[i].lifts.back() ? "" : ";");
          if (line.size() + 1 + text.size() > 92) {
            out_ << line << '\n';
            line.assign(indent, ' ');
          }
          line += (line.back() == ' ' ? "" : " ") + text;
        }
        out_ << line << '\n';
      }
    }
  }

  // -- sections --

  void sessions() {
    out_ << week_.name << ": " << count(static_cast<int>(week_.sessions.size()), "session")
         << " from " << count(week_.rows - week_.refused, "line") << ", "
         << count(week_.refused, "line") << " refused\n";
    title("The week as planned");
    list_sessions(week_.sessions);
  }

  void sets() {
    const bw::FractionalSets sets = bw::fractional_sets(week_.sessions);
    title("Sets for each muscle group: 1 where it works directly, one half where it helps");
    for (const bw::MuscleGroup group : bw::all_muscle_groups) {
      if (sets.parts(group) == 0) continue;
      const auto halves = static_cast<std::size_t>(2.0 * sets[group] + 0.5);
      out_ << "  " << left_aligned(bw::to_text(group), 16)
           << bw::Text{}.append_right(number(sets[group]), 5) << "  " << std::string(halves, '#')
           << '\n';
    }
    out_ << "  # is half a set\n";
  }

  void conflicts() {
    const auto found = bw::spacing_conflicts(week_.sessions, asked_.rule);
    title("Too close together");
    if (found.empty()) out_ << "  nothing\n";
    for (const bw::SpacingConflict& conflict : found) out_ << "  " << bw::to_text(conflict) << '\n';
  }

  void overlap() {
    const bw::WeekOverlap shared = bw::overlap(week_.sessions, asked_.rule);
    title("Overlap: sets that close days ask of the same muscles");
    out_ << "  " << number(shared.shared.total()) << " in all, "
         << number(shared.between_upper_and_lower.total())
         << " of them between upper- and lower-body lifts\n";
    for (const bw::DayOverlap& pair : shared.days) {
      std::string text(bw::to_text(pair.earlier));
      text += " to " + std::string(bw::to_text(pair.later)) + ": " + number(pair.shared.total());
      const double across = pair.between_upper_and_lower.total();
      if (across > 0.0) text += ", " + number(across) + " of it between upper and lower";
      paragraph({text + ": " + by_group(pair.shared)}, 4);
    }
  }

  void order() {
    const bw::DayOrder order = bw::best_order(week_.sessions, asked_.rule, asked_.fixed);
    title("A better order of days");
    if (order.moved == 0) {
      out_ << "  none: no other order of these days has less of both\n";
      return;
    }
    out_ << "  " << count(order.moved, "day")
         << " moved: " << count(order.conflicts_after, "conflict") << " in place of "
         << order.conflicts_before << ", overlap " << number(order.overlap_after) << " in place of "
         << number(order.overlap_before) << "\n\n";
    const auto better = bw::reordered(week_.sessions, order);
    list_sessions(better);
    const auto left = bw::spacing_conflicts(better, asked_.rule);
    if (!left.empty()) out_ << "\n  still too close:\n";
    for (const bw::SpacingConflict& conflict : left) out_ << "  " << bw::to_text(conflict) << '\n';
  }

  void swaps() {
    constexpr std::size_t most = 3;
    title("Or another variation, on the days as planned");
    std::size_t printed = 0;
    for (const bw::Swap& swap : bw::swaps(week_.sessions, asked_.rule)) {
      if (printed == most || swap.conflicts_added > 0) break;
      const bw::PlannedSession& session = week_.sessions[swap.session];
      std::string text(bw::to_text(session.day));
      text += ", " + std::string(session.lifts[swap.lift].lift.name().view()) + " as " +
              std::string(swap.variation.name().view()) + ": overlap less by " +
              number(swap.overlap_removed) + ", for " +
              std::string(bw::detail::percent_text(swap.load_ratio).view()) +
              " of the load at the same effort";
      for (const bw::Modifier& modifier : swap.variation.modifiers()) {
        if (session.lifts[swap.lift].lift.has(modifier)) continue;
        text += " [" + std::string(bw::to_text(modifier.ratio_figure().evidence)) + "]";
      }
      paragraph({text}, 4);
      ++printed;
    }
    if (printed == 0) {
      out_ << "  none that lessens the overlap\n";
    } else {
      paragraph(
          {"A variation that is new starts light: 50 to 70 % of its estimated max, sets "
           "ended early."});
    }
  }

  void load() {
    const bw::DailyLoads days = bw::daily_loads(week_.sessions);
    if (days.sessions_without_rating == static_cast<int>(week_.sessions.size())) return;
    const bw::LoadSummary summary = bw::summarise(days.loads);
    title("Load: rating times minutes");
    for (std::size_t day = 0; day < days.loads.size(); ++day) {
      out_ << "  " << left_aligned(bw::to_text(bw::all_weekdays[day]), 11)
           << bw::Text{}.append_right(number(days.loads[day], 0), 6) << '\n';
    }
    out_ << "  " << left_aligned("sum", 11) << bw::Text{}.append_right(number(summary.sum, 0), 6)
         << '\n';
    if (summary.monotony) {
      out_ << "  monotony " << number(*summary.monotony, 2) << ", strain "
           << number(*summary.strain, 0) << "; population standard deviation\n";
    } else {
      out_ << "  monotony and strain are undefined: all days are equal\n";
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
    const bw::Text standing = bw::detail::standing_text(rule.source);
    paragraph({"-", std::string(rule.what) + ":", text, "[" + std::string(standing.view()) + "]"},
              4);
  }

  /// One line for each kind of evidence.
  void briefly(const std::vector<Rule>& rules) {
    std::vector<bw::Evidence> kinds;
    for (const Rule& rule : rules) {
      if (std::find(kinds.begin(), kinds.end(), rule.source.evidence) == kinds.end()) {
        kinds.push_back(rule.source.evidence);
      }
    }
    for (const bw::Evidence kind : kinds) {
      std::string text(bw::to_text(kind));
      std::string_view before = ": ";
      for (const Rule& rule : rules) {
        if (rule.source.evidence != kind) continue;
        text += std::string(before) + std::string(rule.what);
        before = ", ";
      }
      if (kind == kinds.back()) text += "; --sources says who found what";
      paragraph({text});
    }
  }

  void evidence() {
    std::vector<Rule> rules{
        {"sets", bw::fractional_sets_source},
        {"hours between", bw::spacing_source},
        {"overlap", bw::overlap_source},
        {"no fatigue of muscles that did not work", bw::cross_muscle_source},
    };
    const bw::DailyLoads days = bw::daily_loads(week_.sessions);
    if (days.sessions_without_rating < static_cast<int>(week_.sessions.size())) {
      rules.push_back({"load", bw::session_load_source});
      rules.push_back({"monotony and strain", bw::monotony_source});
    }
    title("What this rests on");
    if (asked_.wants_sources) {
      for (const Rule& rule : rules) in_full(rule);
    } else {
      briefly(rules);
    }
    out_ << '\n';
    bw::detail::print_paragraph(out_, 0, 0, {bw::cautions::always.text});
  }

  std::ostream& out_;
  const PlannedWeek& week_;
  const Question& asked_;
};

}  // namespace check_week
