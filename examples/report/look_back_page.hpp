// examples/report/look_back_page.hpp - the last weeks of a lifter on one page, and with charts
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <ostream>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/chart.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"
#include "svg.hpp"

namespace report {

inline std::string_view to_words(bw::ReviewVerdict verdict) {
  switch (verdict) {
    case bw::ReviewVerdict::rose: return "going up";
    case bw::ReviewVerdict::fell: return "going down";
    case bw::ReviewVerdict::level: return "level";
    case bw::ReviewVerdict::unclear: return "inconclusive";
  }
  return "";
}

/// Days without a set after which a line says when the last was.
inline constexpr int days_worth_a_word = 14;

/// The last day that anybody of a log trained.
inline std::optional<bw::Date> last_day_of(
    const std::vector<std::vector<const bw::LogEntry*>>& groups) {
  std::vector<bw::LoggedSet> all;
  for (const auto& entries : groups) {
    for (const bw::LogEntry* const entry : entries) all.push_back(entry->set);
  }
  return bw::last_day(all);
}

/// "; last trained on 2026-09-18", of whom has not trained for long.
inline std::string last_trained(std::vector<bw::LoggedSet> sets, std::optional<bw::Date> now) {
  if (!now) return "";
  std::erase_if(sets, [&](const bw::LoggedSet& set) { return set.date > *now; });
  const auto last = bw::last_day(sets);
  if (!last || *now - *last <= days_worth_a_word) return "";
  return "; last trained on " + day(*last);
}

/// Writes one log, looked back on.
class LookBackPage {
 public:
  /// @param about  the lifter, the unit and what was written where it hurt; `which_day` is ", the
  ///   last day of the log", where nobody named the day
  LookBackPage(const bw::LookBack& back, const About& about)
      : back_(back),
        about_(about),
        lifter_(about.lifter),
        unit_(about.unit),
        which_day_(about.which_day) {}

  /// "going up: bench press; inconclusive: squat"
  [[nodiscard]] std::string headline() const {
    std::string text;
    for (const bw::ReviewVerdict verdict : {bw::ReviewVerdict::rose, bw::ReviewVerdict::fell,
                                            bw::ReviewVerdict::level, bw::ReviewVerdict::unclear}) {
      std::string lifts;
      for (const bw::LiftProgress& each : back_.lifts) {
        if (each.verdict == verdict) lifts += (lifts.empty() ? "" : ", ") + each.base.name().str();
      }
      if (lifts.empty()) continue;
      text += (text.empty() ? "" : "; ") + std::string(to_words(verdict)) + ": " + lifts;
    }
    if (!text.empty()) return text + notes_in_short();
    const bool has_trained = std::any_of(back_.weeks.begin(), back_.weeks.end(),
                                         [](const bw::LoggedWeek& week) { return week.days > 0; });
    return (has_trained ? "nothing was lifted in these weeks that has a 1RM"
                        : "nothing was lifted in these weeks") +
           notes_in_short();
  }

  void print(std::ostream& out) const {
    paragraph(out, lifter_ + ": " + headline(), 0, 0);
    out << count(back_.request.weeks, "week") << " to " << day_of_week(back_.request.date)
        << which_day_ << '\n';
    notes(out);
    lifts(out);
    changes(out);
    muscles(out);
    out << '\n';
    paragraph(out, bw::cautions::always.text, 0, 0);
  }

  /// The page, and a chart for each lift that has days enough.
  [[nodiscard]] std::string to_html() const {
    std::ostringstream text;
    print(text);
    const std::string title = svg::escaped(lifter_ + ", weeks to " + day(back_.request.date));
    std::string html =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
        "name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" +
        title +
        "</title>\n<style>body { font: 1rem/1.4 sans-serif; color: #111; margin: 1rem } pre { "
        "overflow: auto } svg { width: 100%; max-width: 40rem; height: auto }</style>\n</head>\n"
        "<body>\n<main>\n<h1>" +
        title + "</h1>\n";
    for (const bw::LiftProgress& each : back_.lifts) {
      if (const auto chart = small_chart(each.lifter, each.base, unit_)) html += to_svg(*chart);
    }
    return html + "<pre tabindex=\"0\">" + lines_escaped(text.str()) +
           "</pre>\n</main>\n</body>\n</html>\n";
  }

 private:
  /// "; pain noted on 2026-11-23, bench press", of the gravest note that is the last.
  [[nodiscard]] std::string notes_in_short() const {
    const auto last = [&](const auto& counts) {
      const auto found = std::find_if(back_.noted.begin(), back_.noted.end(), counts);
      return found == back_.noted.end() ? nullptr : &*found;
    };
    const auto said = [](std::string_view what, const bw::LoggedSet& set) {
      return "; " + std::string(what) + " noted on " + day(set.date) + ", " + set.lift.name().str();
    };
    const bw::LoggedSet* const unwell = last([](const auto& set) { return set.is_unwell; });
    const bw::LoggedSet* const pain = last([](const auto& set) { return set.has_pain; });
    if (unwell != nullptr) return said("dizziness, chest pain or the like", *unwell);
    const auto beside = [&](bool bw::NotedDay::*says) {
      const auto& days = back_.noted_beside;
      const auto found = std::find_if(days.begin(), days.end(),
                                      [&](const bw::NotedDay& each) { return each.*says; });
      return found == days.end() ? "" : " noted on " + day(found->date);
    };
    const std::string unwell_beside = beside(&bw::NotedDay::is_unwell);
    if (!unwell_beside.empty()) return "; dizziness, chest pain or the like" + unwell_beside;
    if (pain != nullptr) return said("pain", *pain);
    const std::string pain_beside = beside(&bw::NotedDay::hurts);
    if (!pain_beside.empty()) return "; pain" + pain_beside;
    return back_.noted.empty() ? "" : said("a joint", back_.noted.front());
  }

  /// What the log says of pain: before all else.
  void notes(std::ostream& out) const {
    if (back_.noted.empty() && back_.noted_beside.empty()) return;
    title(out, "Pain and the like in the notes");
    bool is_grave = !back_.noted_beside.empty();
    for (const bw::LoggedSet& set : back_.noted) {
      is_grave = is_grave || set.has_pain || set.is_unwell;
      paragraph(out, complaint_text(set, about_), 2, 4);
    }
    for (const bw::NotedDay& each : back_.noted_beside) {
      paragraph(out,
                day(each.date) + (each.lift ? ", " + each.lift->name().str() : "") +
                    ", in a line without a set that could be read: " +
                    (each.is_unwell ? "dizziness, chest pain or the like." : "pain."),
                2, 4);
    }
    paragraph(out, is_grave ? "Until somebody qualified has looked at it, of dizziness, chest pain "
                              "and the like a doctor: no load."
                            : "Ask whether it hurts.");
  }

  static std::string lines_escaped(std::string_view text) {
    std::string lines;
    while (!text.empty()) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      lines += svg::escaped(text.substr(0, end)) + '\n';
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
  }

  void lifts(std::ostream& out) const {
    if (back_.lifts.empty() && back_.refused.empty()) return;
    title(out, "Is it going up?");
    for (const bw::LiftProgress& each : back_.lifts) {
      std::string text = each.base.name().str() + ": " + std::string(to_words(each.verdict));
      if (each.gain) {
        text += ", " + text_page::change(*each.gain) + " in " +
                count(static_cast<int>(std::lround(7.0 * each.gain_weeks)), "day");
      }
      paragraph(out,
                text + "; 1RM " + max_text(each.max.interval(), unit_) +
                    (each.lifter.body ? ", body and belt together" : "") + "; trained on " +
                    count(each.days, "day") + ", last " + day(each.last) + ".",
                2, 4);
    }
    for (const bw::RefusedLift& each : back_.refused) {
      paragraph(out, each.base.name().str() + ": " + reason_of(each.refusal) + ".", 2, 4);
    }
    if (back_.lifts.empty()) return;
    paragraph(out, std::string(bw::meaning(bw::ChangeOf::weeks)) + " " + std::string(range_note));
  }

  static std::string reason_of(const bw::Refusal& refusal) {
    switch (refusal.code) {
      case bw::RefusalCode::explosive_lift:
        return "cannot be told; a set ends when the bar slows, not when a rep fails";
      case bw::RefusalCode::no_body_mass:
        return "cannot be told; it moves the body: say what that weighs, as in --body \"80 kg\"";
      case bw::RefusalCode::bodyweight_lift:
        return "cannot be told; it moves the body, and how much of it is not known";
      default: return "cannot be told; no set of it fits the others";
    }
  }

  void changes(std::ostream& out) const {
    title(out, "The last seven days and the seven before");
    for (const bw::LiftProgress& each : back_.lifts) {
      if (!each.best && !each.best_before) continue;
      const auto best = [&](const std::optional<bw::LoggedSet>& set) {
        if (!set) return std::string("not trained");
        const std::string changed = fields_of_change(set->lift);
        return done(bw::as_logged(*set, each.lifter), unit_) +
               (changed.empty() ? "" : ", " + changed);
      };
      paragraph(out,
                each.base.name().str() + ", best set: " + best(each.best) +
                    "; before: " + best(each.best_before) + ".",
                2, 4);
    }
    for (std::size_t i = 0; i < 2; ++i) {
      const bw::LoggedWeek& week = back_.weeks[i];
      paragraph(
          out,
          day(week.first) + " to " + day(week.last) + ": " + count(week.days, "day") + ", " +
              count(week.hard_sets, "hard set") +
              (week.unrated_sets > 0 ? " (" + std::to_string(week.unrated_sets) + " not rated)"
                                     : "") +
              ", " + bw::to_text(week.lifted, unit_, 0).str() + " lifted in all.",
          2, 4);
    }
  }

  void muscles(std::ostream& out) const {
    constexpr std::size_t most = 8;
    const std::size_t weeks = std::min(most, back_.weeks.size());
    title(out, "Hard sets of each muscle group, by weeks that end on");
    out << "  " << padded("", 14);
    for (std::size_t i = weeks; i-- > 0;) {
      out << right(short_day(back_.weeks[i].last, false), 8);
    }
    out << '\n';
    for (const bw::MuscleGroup group : bw::all_muscle_groups) {
      const auto worked = [&](const bw::LoggedWeek& week) { return week.hard[group] > 0.0; };
      if (std::none_of(back_.weeks.begin(), back_.weeks.begin() + static_cast<long>(weeks), worked))
        continue;
      out << "  " << padded(bw::to_text(group), 14);
      for (std::size_t i = weeks; i-- > 0;) {
        out << right(number(back_.weeks[i].hard[group], 1), 8);
      }
      out << '\n';
    }
    paragraph(out, "A hard set left at most " +
                       number(bw::SpacingRule{}.most_reserve_of_hard_set.count(), 0) +
                       " reps, was missed, or was not rated and no warm-up. It counts 1 where it "
                       "works a group directly and a half where it helps.");
  }

  const bw::LookBack& back_;
  About about_;
  std::string lifter_;
  bw::Unit unit_;
  std::string_view which_day_;
};

}  // namespace report
