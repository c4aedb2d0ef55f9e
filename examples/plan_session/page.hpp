// examples/plan_session/page.hpp - a session on one page, in the order a coach needs it
//
// What to load; where it comes from; what to do next time; what to take care of. Under a stop the
// loads are left out, and what would lift it stands in their place.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <ostream>
#include <string>
#include <string_view>

#include "barwright/barwright.hpp"
#include "plan_session/plan.hpp"
#include "squad_log.hpp"

namespace plan_session {

/// Prints one plan.
class Page {
 public:
  Page(std::ostream& out, const Plan& plan) : out_(out), plan_(plan) {}

  void print() {
    heading();
    if (plan_.cautions.says_stop()) {
      stop();
    } else {
      loads();
    }
    strength();
    change();
    if (!plan_.cautions.says_stop()) {
      if (plan_.introduction) introduction();
      last_and_next_time();
    }
    cautions();
  }

 private:
  // -- pieces of text --

  [[nodiscard]] const Question& asked() const { return plan_.question; }
  [[nodiscard]] bw::Unit unit() const { return asked().room.bar().mass.unit(); }
  [[nodiscard]] std::string load(bw::Mass mass) const {
    return std::string(bw::to_text(mass, unit(), 2).view());
  }
  [[nodiscard]] std::string max(bw::Mass mass) const {
    return std::string(bw::to_text(mass, unit(), 1).view());
  }
  /// "93.1 kg (88.2 to 98 kg)"
  [[nodiscard]] std::string range(const bw::Range<bw::Mass>& mass) const {
    if (mass.is_exact()) return max(mass.typical);
    return max(mass.typical) + " (" + number(mass.low.in(unit()), 1) + " to " + max(mass.high) +
           ")";
  }
  [[nodiscard]] static std::string number(double value, int decimals) {
    return std::string(bw::Text{}.append_rounded(value, decimals).view());
  }
  [[nodiscard]] static std::string percent(double share) { return number(100.0 * share, 1) + " %"; }
  [[nodiscard]] static std::string percent(const bw::Range<double>& share) {
    if (share.is_exact()) return percent(share.typical);
    return percent(share.typical) + " (" + number(100.0 * share.low, 1) + " to " +
           number(100.0 * share.high, 1) + " %)";
  }
  [[nodiscard]] static std::string reserve(const bw::Range<bw::RepsInReserve>& left) {
    if (left.is_exact()) return number(left.typical.count(), 1);
    return number(left.low.count(), 1) + "-" + number(left.high.count(), 1);
  }
  [[nodiscard]] static std::string count(int number, std::string_view thing) {
    return std::to_string(number) + " " + std::string(thing) + (number == 1 ? "" : "s");
  }
  [[nodiscard]] static std::string day(bw::Date date) {
    constexpr std::string_view names[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                          "Friday", "Saturday", "Sunday"};
    return std::string(names[date.weekday()]) + " " + std::string(bw::to_text(date).view());
  }
  /// "handbook, recalled, not checked"
  [[nodiscard]] static std::string standing(const bw::Source& source) {
    std::string text(bw::to_text(source.evidence));
    if (source.reading != bw::Reading::not_applicable) {
      text += ", " + std::string(bw::to_text(source.reading));
    }
    return text;
  }
  /// "60 kg x 6, 2 left" or "60 kg x 6, the last missed"
  [[nodiscard]] std::string done(const bw::LoggedSet& set) const {
    std::string text = load(set.load) + " x " + std::to_string(set.reps.count());
    if (set.outcome == bw::Outcome::missed) return text + ", the last missed";
    if (set.reserve) return text + ", " + reserve(*set.reserve) + " left";
    return text + ", not rated";
  }

  void title(std::string_view text) { out_ << '\n' << text << '\n'; }

  /// Prints `text` in lines of at most 80, the first indented by `indent`, the others by `hanging`.
  void paragraph(std::string_view text, std::size_t indent = 2, std::size_t hanging = 2) {
    constexpr std::size_t width = 80;
    std::string line(indent, ' ');
    bool is_start = true;
    while (!text.empty()) {
      const std::size_t end = std::min(text.find(' '), text.size());
      const std::string_view word = text.substr(0, end);
      text.remove_prefix(std::min(end + 1, text.size()));
      if (!is_start && line.size() + 1 + word.size() > width) {
        out_ << line << '\n';
        line.assign(hanging, ' ');
        is_start = true;
      }
      if (!is_start) line += ' ';
      line += word;
      is_start = false;
    }
    out_ << line << '\n';
  }

  [[nodiscard]] static std::string padded(std::string_view text, std::size_t width) {
    return std::string(text) + std::string(width > text.size() ? width - text.size() : 0, ' ');
  }
  [[nodiscard]] static std::string right(std::string_view text, std::size_t width) {
    return std::string(width > text.size() ? width - text.size() : 0, ' ') + std::string(text);
  }

  // -- sections --

  void heading() {
    out_ << (asked().lifter.empty() ? "" : asked().lifter + ", ") << day(asked().date)
         << (asked().date_is_assumed ? ", the day after the last set" : "") << '\n'
         << "The " << asked().lift.name() << ": " << count(asked().sets, "set") << " of "
         << asked().reps.count() << " with " << number(asked().reserve.count(), 1)
         << " left in reserve\n";
  }

  void stop() {
    const std::string line(80, '#');
    out_ << '\n' << line << '\n';
    for (const bw::Caution& caution : plan_.cautions) {
      if (caution.weight == bw::CautionWeight::stop) {
        paragraph("STOP  " + std::string(caution.text), 0, 6);
      }
    }
    out_ << line << '\n';
    title("No loads are given for this session. To go on");
    for (const std::string& way : plan_.ways_on) paragraph("- " + way, 2, 4);
    if (plan_.ways_on.empty())
      paragraph("- ask for a session of more repetitions and reserve", 2, 4);
  }

  void loads() {
    const bool is_new = plan_.introduction.has_value();
    title("On the bar");
    if (is_new) {
      const bw::Exposure& today = exposure();
      paragraph("This lift is new: today is session " + std::to_string(today.number) + " of " +
                std::to_string(plan_.introduction->size()) +
                " that introduce it (below), and takes the place of the sets asked for.");
    }
    const bool on_a_bar = plan_.top.has_value();
    std::size_t widest = 9;
    for (const PlannedSet& set : plan_.sets) widest = std::max(widest, set.loaded_with.size());
    const auto line = [&](std::string_view what, std::string_view mass, std::string_view reps,
                          std::string_view with, std::string_view moves) {
      std::string text = "  " + padded(what, 9) + right(mass, 9) + right(reps, 7) + "   " +
                         padded(with, widest + 3) + std::string(moves);
      text.erase(text.find_last_not_of(' ') + 1);
      out_ << text << '\n';
    };
    line("", "load", "reps", on_a_bar ? "each side" : "dumbbells", on_a_bar ? "plates moved" : "");
    for (const PlannedSet& set : plan_.sets) {
      const std::string reps =
          (set.sets > 1 ? std::to_string(set.sets) + " x " : "") + std::to_string(set.reps.count());
      line(set.is_work ? "work" : "warm-up", load(set.load), reps, set.loaded_with, set.change);
    }
    out_ << '\n';
    if (on_a_bar) out_ << bw::draw(*plan_.top) << '\n';
    expectation();
    if (plan_.days_away > long_away && !plan_.introduction) {
      paragraph("The last set of this lift or a variation of it was " +
                count(plan_.days_away, "day") + " ago: the load is taken " +
                percent(lighter_after) + " lighter [assumption].");
    }
    if (plan_.room_is_too_light) paragraph("The plates of the room end here; more was wanted.");
  }

  void expectation() {
    constexpr double countable = 10.0;  // beyond, neither lifters nor curves can tell
    const bw::Range<double> left{std::max(plan_.left.low, 0.0), std::max(plan_.left.typical, 0.0),
                                 std::max(plan_.left.high, 0.0)};
    std::string text = "After " + count(plan_.sets.back().reps.count(), "repetition") + " at " +
                       load(plan_.sets.back().load) + " ";
    if (left.typical > countable) {
      text += "more than 10 should be left";
    } else {
      text += "about " + number(left.typical, 0) + " should be left";
      if (left.high > countable) {
        text += " (" + number(left.low, 0) + " or more)";
      } else if (left.low < left.high) {
        text += " (" + number(left.low, 0) + " to " + number(left.high, 0) + ")";
      }
    }
    text +=
        ". End a set when " + number(planned_reserve(), 1) + " are left, whatever the plan says";
    text += plan_.left.low < 0.5 ? "; on a poor day the last repetition may not go up." : ".";
    paragraph(text);
  }

  [[nodiscard]] const bw::Exposure& exposure() const {
    return (*plan_.introduction)[static_cast<std::size_t>(plan_.earlier_sessions)];
  }
  [[nodiscard]] double planned_reserve() const {
    return plan_.introduction ? exposure().least_reserve.count() : asked().reserve.count();
  }

  void strength() {
    const std::string base(asked().lift.base().name);
    if (!plan_.base_from) {
      title("How strong");
      paragraph("Max on the " + base + ": " + max(plan_.base_max) + ", as stated.");
      curve();
      return;
    }
    title("How strong");
    const FromSets& from = *plan_.base_from;
    if (from.lift.is_plain()) {
      paragraph("Max on the " + base + ": " + sets_text(from) + ".");
    } else {
      paragraph("Max on the " + base + ": about " + max(plan_.base_max) +
                ". It was not trained lately, so this is inferred from the " +
                std::string(from.lift.name().view()) + ": " + sets_text(from) + ", divided by " +
                percent(from.lift.ratio(plan_.base_max).typical) + ".");
    }
    best_sets(from);
    curve();
  }

  /// "93 kg, the median of the best sets of 4 sessions (91 to 95 kg)"
  [[nodiscard]] std::string sets_text(const FromSets& from) const {
    const bw::RecentMax& recent = from.recent;
    std::string text = max(recent.typical);
    if (recent.sessions == 1) return text + ", from one session only";
    return text + ", the median of the best sets of " + count(recent.sessions, "session") + " (" +
           number(recent.lowest.in(unit()), 1) + " to " + max(recent.highest) + ")";
  }

  void best_sets(const FromSets& from) {
    for (const BestSet& best : from.best) {
      out_ << "    " << bw::to_text(best.set.date) << "  " << padded(done(best.set), 32) << "max "
           << max(best.max) << '\n';
    }
    const bw::RecentMax& recent = from.recent;
    std::string text = count(recent.sets_used, "set") + " used";
    if (recent.sets_without_estimate > 0) {
      text += ", " + std::to_string(recent.sets_without_estimate) +
              " not: unrated, more than 12 repetitions to failure, or more than 5 left";
    }
    paragraph(text, 4, 4);
  }

  void curve() {
    const bw::EquationFacts& facts = asked().curve.base().facts();
    paragraph("By the curve of " + std::string(facts.name) + ", made exact at one repetition: " +
              std::string(facts.source.citation) + " [" + standing(facts.source) + "].");
    const double to_failure = asked().reps.count() + asked().reserve.count();
    if (!facts.studied.contains(to_failure)) {
      paragraph("It was not studied at " + number(to_failure, 1) + " repetitions to failure.");
    }
    if (plan_.base_from && plan_.base_from->lift.is_plain()) other_curves();
  }

  /// What the other equations say of the last session's best set.
  void other_curves() {
    const bw::LoggedSet& set = plan_.base_from->best.back().set;
    if (set.outcome == bw::Outcome::missed) return;
    bw::Mass low = plan_.base_from->best.back().max;
    bw::Mass high = low;
    int curves = 0;
    for (const auto& line : bw::compare_equations(set.load, set.reps, set.reserve->typical)) {
      if (!line.is_studied) continue;
      low = std::min(low, line.max);
      high = std::max(high, line.max);
      ++curves;
    }
    if (curves == 0) return;
    paragraph("For the last of these sets the " + std::to_string(curves) +
              " published curves that reach so far say " + number(low.in(unit()), 1) + " to " +
              max(high) + ".");
  }

  void change() {
    const bw::Lift& lift = asked().lift;
    if (lift.is_plain()) return;
    title("What the change costs");
    for (const bw::Modifier& modifier : lift.modifiers()) {
      const bw::Figure& figure = modifier.ratio();
      paragraph(std::string(modifier.name()) + ": " + percent(modifier.ratio(plan_.base_max)) +
                    " of the max [" + std::string(bw::to_text(figure.evidence)) + "]" +
                    (modifier.strength_scaling() ? ", for a max of " + max(plan_.base_max) : ""),
                2, 4);
      for (const bw::Finding& finding : figure.findings) {
        if (!finding.value) continue;
        std::string text = "- " + std::string(finding.what) + ": " + percent(*finding.value) +
                           " [" + standing(finding.source) + "]";
        if (!finding.source.citation.empty()) text += " " + std::string(finding.source.citation);
        paragraph(text, 4, 6);
      }
    }
    if (lift.modifiers().size() > 1) {
      paragraph("together: " + percent(lift.ratio(plan_.base_max)) +
                    ", all at their worst or all at their best",
                2, 4);
    }
    paragraph("So the max on this lift may be " + range(plan_.expected) + ".");
    if (plan_.introduction) {
      if (plan_.earlier_sessions > 0) {
        paragraph("Its sessions so far (" + std::to_string(plan_.earlier_sessions) +
                  ") served to learn it, and are not read as a max.");
      }
    } else if (plan_.own) {
      const bw::Mass own = plan_.own->recent.typical;
      const bool fits = plan_.expected.low <= own && own <= plan_.expected.high;
      paragraph("Its own sets say " + sets_text(*plan_.own) + ": " + percent(own / plan_.base_max) +
                " of the " + std::string(lift.base().name) + ", " + (fits ? "inside" : "outside") +
                " that range. Today's loads rest on them.");
      if (!(plan_.base_from && plan_.base_from->lift == lift)) best_sets(*plan_.own);
    } else {
      paragraph(
          "Its own sets of the last four weeks say nothing of a max, so today's loads rest "
          "on the low end of that range.");
    }
    const double stretch = lift.rep_stretch().typical;
    if (stretch != 1.0) {
      paragraph("At the same share of its max, repetitions beyond the first are taken as " +
                percent(lift.rep_stretch()) + " of the " + std::string(lift.base().name) +
                "'s [assumption].");
    }
  }

  void introduction() {
    title("Introducing the lift");
    const bw::Introduction& plan = *plan_.introduction;
    paragraph("Its max is taken as " + max(plan.assumed_max()) +
              ", the low end. The plan works up to " + max(plan.working_load()) +
              ", rounded down to what can be loaded [" + standing(bw::introduction_source) + "].");
    for (const bw::Exposure& step : plan) {
      out_ << (step.number == exposure().number ? "  today  " : "         ") << step.number << "  "
           << right(rounded_down(step.load), 9) << "   " << step.sets << " x " << step.reps.count()
           << ", at least " << number(step.least_reserve.count(), 1) << " left\n";
    }
    for (std::size_t i = 0; i < plan.size();) {
      std::size_t last = i;
      while (last + 1 < plan.size() && plan[last + 1].before_next == plan[i].before_next) ++last;
      std::string after = std::to_string(plan[i].number);
      if (last > i) after += (last > i + 1 ? " to " : " and ") + std::to_string(plan[last].number);
      paragraph("After " + after + " go on if " + std::string(plan[i].before_next) + ".", 2, 4);
      i = last + 1;
    }
    if (plan_.last_time && plan_.last_time->set.load > plan_.sets.back().load) {
      paragraph("The log has it heavier already (" + done(plan_.last_time->set) + " on " +
                std::string(bw::to_text(plan_.last_time->set.date).view()) +
                "): where that was easy and clean, go on from there in steps of at most 10 %.");
    }
    for (const bw::Note& note : asked().lift.requirements()) {
      paragraph("Before any of it: " + std::string(note.text) + " [" + standing(note.source) + "]",
                2, 4);
    }
  }

  [[nodiscard]] std::string rounded_down(bw::Mass mass) const {
    if (uses_dumbbells(asked().lift)) {
      const auto each = dumbbell_rack(unit()).at_most(mass / 2.0);
      return each ? load(2.0 * each->mass()) : "too light";
    }
    const auto loading = asked().room.at_most(mass);
    return loading ? load(loading->total()) : "too light";
  }

  void last_and_next_time() {
    const bw::Mass today = plan_.sets.back().load;
    const bool is_max_attempt = asked().reps.count() == 1 && asked().reserve.count() < 1.0;
    if (plan_.introduction || is_max_attempt) return;
    title(plan_.last_time ? "Last time and next time" : "Next time");
    if (plan_.last_time) {
      const LastTime& last = *plan_.last_time;
      std::string text = "Last time, " + std::string(bw::to_text(last.set.date).view()) +
                         ", the last heavy set was " + done(last.set) + ".";
      if (last.has_miss) {
        text += " A repetition was missed that day";
        text += plan_.is_held ? ", so the load is held until every set is completed." : ".";
      } else if (last.goes_twice) {
        text +=
            " For the second time running that is two or more over what was asked for today, "
            "the handbook's sign to add load [" +
            standing(bw::two_for_two_source) + "].";
      } else if (bw::exceeds_plan(as_last_set(last.set, asked().reps, asked().reserve))) {
        text += " That is more than " + std::to_string(asked().reps.count()) + " with " +
                number(asked().reserve.count(), 1) + " left: there is room for more load.";
      }
      const double step = today / last.set.load - 1.0;
      text += " Today is " +
              (step > 0.001    ? percent(step) + " heavier"
               : step < -0.001 ? percent(-step) + " lighter"
                               : std::string("the same load")) +
              ".";
      if (step > 0.10) {
        text +=
            " That is a long step (2 to 10 % is the rule): take it only where the repetitions "
            "asked for are fewer than last time.";
      }
      paragraph(text);
    }
    if (plan_.next_load) {
      paragraph("Next time add load, to " + load(*plan_.next_load) +
                ", if the last set today leaves one or two more than planned [" +
                standing(bw::progression_source) +
                ": American College of Sports Medicine 2009]; "
                "after a missed repetition repeat today's load.");
    } else {
      paragraph("The smallest plates are more than a 10 % step: add repetitions before load.");
    }
  }

  void cautions() {
    list_cautions("Before the first set", bw::CautionWeight::warn);
    list_cautions("Keep in mind", bw::CautionWeight::note);
  }

  void list_cautions(std::string_view name, bw::CautionWeight weight) {
    bool is_first = true;
    for (const bw::Caution& caution : plan_.cautions) {
      if (caution.weight != weight) continue;
      if (is_first) title(name);
      is_first = false;
      std::string text = "- " + std::string(caution.text);
      if (caution.source.evidence != bw::Evidence::assumption) {
        text += " [" + standing(caution.source) + "]";
      }
      paragraph(text, 2, 4);
    }
  }

  std::ostream& out_;
  const Plan& plan_;
};

/// Who is in a log, and what each has done.
inline void print_contents(std::ostream& out, const squad_log::Log& log,
                           std::string_view only_lifter) {
  for (const std::string& lifter : squad_log::lifters(log)) {
    if (!only_lifter.empty() && squad_log::plain(lifter) != squad_log::plain(only_lifter)) continue;
    out << lifter << '\n';
    const auto sets = squad_log::sets_of(log, lifter);
    std::vector<bw::Lift> lifts;
    for (const bw::LoggedSet& set : sets) {
      if (std::find(lifts.begin(), lifts.end(), set.lift) == lifts.end()) lifts.push_back(set.lift);
    }
    std::sort(lifts.begin(), lifts.end());
    for (const bw::Lift& lift : lifts) {
      bw::Date last = sets.front().date;
      bw::Date first = bw::Date(bw::Date::last_year, 12, 31);
      int count = 0;
      for (const bw::LoggedSet& set : sets) {
        if (set.lift != lift) continue;
        first = std::min(first, set.date);
        last = std::max(last, set.date);
        ++count;
      }
      const int days = bw::sessions_of(sets, lift, last);
      std::string name(lift.name().view());
      name.resize(std::max<std::size_t>(name.size(), 36), ' ');
      out << "  " << name << count << (count == 1 ? " set on " : " sets on ") << days
          << (days == 1 ? " day, " : " days, ") << first << " to " << last << '\n';
    }
  }
}

}  // namespace plan_session
