// examples/report/session_page.hpp - a session on one page, in the order a coach needs it
//
// The first line is what goes on the bar. Below it what to see to before lifting, every set with
// its plates, what to expect, what to do next time; then what it rests on and what to keep in mind.
// Under a stop the loads are left out, and what would lift it stands in their place.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/day_words.hpp"
#include "report/sets_table.hpp"
#include "report/strength_section.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// Prints one session.
class SessionPage {
 public:
  /// @param facts  of the curve that the lifter is read by
  SessionPage(std::ostream& out, const bw::Lifter& lifter, const bw::SessionPlan& plan,
              const bw::EquationFacts& facts, const About& about)
      : out_(out), lifter_(lifter), plan_(plan), facts_(facts), about_(about) {
    for (const bw::LoggedSet& set : plan.today) {
      if (!set.lift.same_as(asked().lift)) continue;
      missed_today_ += set.outcome == bw::Outcome::missed ? 1 : 0;
    }
  }

  /// What is left of a session that has begun: what to do now, and why.
  void print_rest(const std::vector<bw::LoggedSet>& done_today) {
    heading();
    std::string text;
    for (const bw::LoggedSet& set : done_today) {
      text += (text.empty() ? "" : "; ") + text_page::done(set, unit());
    }
    const int rest = std::max(plan_.work_sets, 0);
    paragraph("Read as done today: " + text + ". That leaves " + count(rest, "work set") + ".", 0,
              0);
    if (plan_.is_stopped()) {
      stop();
    } else if (rest > 0) {
      to_hear_first();
      sets();
    } else if (plan_.back_offs) {
      to_hear_first();
      out_ << '\n';
      back_offs();
    }
    list_cautions(out_, plan_.cautions, "Keep in mind", bw::Severity::note, about_);
  }

  void print() {
    says_begun_ = true;
    heading();
    if (plan_.is_stopped()) {
      stop();
      if (!max_check_text(lifter_, unit()).empty()) return;
    } else if (plan_.work_sets == 0) {
      to_hear_first();
      out_ << '\n';
      back_offs();
    } else {
      to_hear_first();
      sets();
      if (!plan_.introduction && !is_attempt()) next_time();
      print_recovery(out_, plan_.recovery, "Today", about_);
    }
    StrengthSection(out_, lifter_, plan_, facts_, about_).print();
    list_suspects(out_, lifter_, about_, !plan_.is_stopped());
    if (plan_.is_stopped()) {
      list_first_cautions(out_, plan_.cautions, lifter_, asked().date, about_);
    }
    list_cautions(out_, plan_.cautions, "Keep in mind", bw::Severity::note, about_);
  }

 private:
  // -- pieces of text --

  [[nodiscard]] const bw::SessionRequest& asked() const { return plan_.request; }
  [[nodiscard]] bw::Unit unit() const { return about_.unit; }
  [[nodiscard]] bool is_attempt() const { return bw::is_max_attempt(plan_.reps, plan_.reserve); }
  [[nodiscard]] std::string wanted() const {
    return bw::to_text(bw::as_logged(plan_.wanted, lifter_), unit(), 1).str();
  }
  [[nodiscard]] std::string load(bw::Mass mass) const {
    return load_text(bw::as_logged(mass, lifter_), unit());
  }
  [[nodiscard]] std::string done(const bw::LoggedSet& set) const {
    return text_page::done(bw::as_logged(set, lifter_), unit());
  }
  void title(std::string_view text) { text_page::title(out_, text); }
  void paragraph(std::string_view text, std::size_t indent = 2, std::size_t hanging = 2) {
    text_page::paragraph(out_, text, indent, hanging);
  }
  /// "3 x 6 at 2 RIR", as it was asked for.
  [[nodiscard]] std::string as_asked() const {
    return sets_of(asked().sets.count(), asked().reps) + " at " + rir(asked().reserve);
  }
  /// What the session would be, had the lifter recovered; nothing where it is as asked for.
  [[nodiscard]] const bw::Alternative* when_recovered() const {
    for (const bw::Alternative& each : plan_.alternatives) {
      if (each.kind == bw::Alternative::Kind::as_asked) return &each;
    }
    return nullptr;
  }

  // -- sections --

  void stop() {
    print_stop(out_, lifter_, asked().lift,
               {plan_.cautions, plan_.remedies, plan_.least_alone, "--reserve", asked().date},
               about_);
  }

  void heading() {
    if (plan_.is_stopped()) {
      out_ << "STOP: no load for this session\n";
    } else if (plan_.work_sets == 0) {
      out_ << "All the work sets are done" << (plan_.back_offs ? "; then the back-offs\n" : "\n");
    } else {
      if (has_doubts(lifter_)) out_ << "Check the log first (below). Then:\n";
      const bool is_held_down = plan_.limited_by == bw::LimitedBy::chance_of_missing;
      print_headline(out_, "", plan_.sets.back(),
                     !is_attempt()  ? effort_text(plan_.reserve)
                     : is_held_down ? "a heavy single"
                                    : "a max attempt",
                     about_);
    }
    out_ << (about_.lifter.empty() ? "" : about_.lifter + ", ") << asked().lift.name() << ", "
         << day_of_week(asked().date) << about_.which_day << '\n';
    if (plan_.is_stopped()) {
      out_ << "Asked for: " << as_asked() << '\n';
    } else if (const bw::Exposure* const today = plan_.exposure()) {
      out_ << "New lift: introductory session " << today->number << " of "
           << plan_.introduction->size() << ", in place of the " << as_asked() << " asked for\n"
           << "Not new to this lifter? Say how many sessions were done before: --done 20\n";
    } else if (const bw::Alternative* const hard = when_recovered()) {
      out_ << "Not enough recovery, so an easy session in place of " << as_asked() << " with "
           << load(hard->with.load) << '\n';
    } else if (plan_.recovery.is_too_soon()) {
      out_ << "Not enough recovery for a hard session (below)\n";
    } else if (plan_.comeback) {
      out_ << "Week " << plan_.comeback->week << " of " << plan_.comeback->weeks
           << " back after a layoff, so easier than the " << as_asked() << " asked for\n";
    } else if (plan_.reserve > asked().reserve) {
      out_ << "First sessions of this form of the lift, so " << rir(plan_.reserve)
           << " in place of the " << rir(asked().reserve) << " asked for\n"
           << "Not new to this lifter? Say how many sessions were done before: --done 20\n";
    }
    if (!plan_.is_stopped() && plan_.introduction && plan_.recovery.is_too_soon()) {
      out_ << "Not enough recovery either, so stop each set at " << rir(plan_.reserve) << '\n';
    }
    const std::string begun = begun_text(plan_);
    if (!plan_.is_stopped() && !begun.empty() && says_begun_) paragraph(begun, 0, 0);
  }

  /// What to see to, or to think over, before the bar is loaded.
  void to_hear_first() {
    print_max_check(out_, lifter_, unit());
    print_doubts(out_, lifter_, about_);
    list_first_cautions(out_, plan_.cautions, lifter_, asked().date, about_);
    if (plan_.introduction) list_requirements(out_, asked().lift, about_);
  }

  void sets() {
    title("Sets");
    print_machine(out_, asked().lift.base(), asked().has_spotter);
    print_sets(out_, plan_.sets, "work", unit());
    expectation();
    limit();
    choices();
    back_offs();
  }

  /// "about 2 RIR", or "more than 10 RIR" where nobody can count them.
  [[nodiscard]] std::string left(double reserve) const {
    const double countable = lifter_.rules.countable_reserve;
    if (reserve > countable) return "more than " + number(countable, 0) + " RIR";
    return "about " + number(std::max(reserve, 0.0), 0) + " RIR";
  }

  void expectation() {
    if (!plan_.reserve_left) {
      paragraph(
          "Today is going worse than the log would have it: go by the reps, and stop each "
          "set at " +
          rir(plan_.reserve) + ".");
      return;
    }
    const double countable = lifter_.rules.countable_reserve;
    const bw::Range<double>& expected = *plan_.reserve_left;
    const double likely = std::max(expected.typical, 0.0);
    const double least = std::max(expected.low, 0.0);
    std::string text = "Expect " + left(likely);
    if (likely <= countable) {
      if (expected.high > countable) {
        text += " (" + number(least, 0) + " or more)";
      } else if (least < expected.high) {
        text += " (" + number(least, 0) + " to " + number(expected.high, 0) + ")";
      }
    }
    text += plan_.chances_of_missing.size() > 1 ? " after the last set. " : ". ";
    const double stop_at = plan_.reserve.count();
    if (likely > countable && stop_at < countable) {
      const bool is_meant = plan_.introduction || plan_.comeback || plan_.recovery.is_too_soon();
      text += (is_meant ? "" : "That is light for the aim. ") + std::string("If it feels like ") +
              rir(plan_.reserve) + ", stop there anyway.";
    } else if (plan_.reps.count() == 1) {
      text.pop_back();
    } else if (stop_at < 1.0) {
      text += "Stop when you could not do another good rep.";
    } else {
      text += "Stop each set at " + rir(plan_.reserve) + ", even if you have more reps in you.";
    }
    paragraph(text);
    paragraph("Chance of missing the last rep: " + chances() + ".");
  }

  /// "1 % in sets 1 and 2, 3 % in set 3"; of many sets the first and the last.
  [[nodiscard]] std::string chances() const {
    const std::vector<double>& of_sets = plan_.chances_of_missing;
    if (of_sets.size() == 1) return chance(of_sets.front());
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < of_sets.size();) {
      std::size_t last = i;
      while (last + 1 < of_sets.size() && chance(of_sets[last + 1]) == chance(of_sets[i])) ++last;
      if (i == 0 && last + 1 == of_sets.size()) return chance(of_sets.front()) + " in each set";
      parts.push_back(chance(of_sets[i]) + " in " +
                      numbers("set", plan_.sets_done + static_cast<int>(i) + 1,
                              plan_.sets_done + static_cast<int>(last) + 1));
      i = last + 1;
    }
    if (parts.size() > 3) return parts.front() + ", rising to " + parts.back();
    std::string text;
    for (const std::string& part : parts) text += (text.empty() ? "" : ", ") + part;
    return text;
  }
  /// Why the load is no heavier.
  void limit() {
    const bw::PlanningRules& rules = lifter_.rules;
    const std::string assumed = tag(bw::Evidence::assumption, about_);
    switch (plan_.limited_by) {
      case bw::LimitedBy::chance_of_missing:
        paragraph("Held down by the " + percent(plan_.max_chance_of_missing) +
                  " limit on that chance" +
                  (bw::is_max_attempt(asked().reps, asked().reserve) && !plan_.introduction
                       ? ": this is a heavy single, not a test of the 1RM."
                       : "; " + rir(asked().reserve) + " alone would allow more."));
        break;
      case bw::LimitedBy::layoff:
        paragraph(comeback_text(*plan_.comeback) + " Up to " + percent(plan_.comeback->load_cut) +
                  " below the usual load, with " + count(plan_.work_sets, "set") + " at " +
                  rir(plan_.reserve) + " or more" + assumed + ".");
        break;
      case bw::LimitedBy::greatest_rise:
        paragraph("The 1RM would allow more, but no load asks for more than " +
                  percent(rules.greatest_rise) +
                  " above what the last sessions showed, rep for rep" +
                  tag(bw::progression_source, about_) + ".");
        break;
      case bw::LimitedBy::ratings:
        paragraph("The 1RM would allow more, but the load goes no more than " +
                  percent(rules.step_up) +
                  " beyond what the ratings of the last sessions say, taken as they were said" +
                  assumed + ".");
        break;
      case bw::LimitedBy::usual_curve:
        paragraph(
            "Nothing is logged that tells how many reps this lifter does at a share of the "
            "1RM: no more than the usual curve has" +
            assumed + ".");
        break;
      case bw::LimitedBy::held_after_miss:
        paragraph((bw::unread_miss(lifter_, asked().date) || plan_.last->may_have_miss
                       ? "A rep was missed last time, or may have been"
                       : "A rep was missed last time") +
                  std::string(": no heavier until every rep is made") + assumed + ".");
        break;
      case bw::LimitedBy::held_after_failure:
        paragraph("A set went to 0 RIR last time: no heavier today" + assumed + ".");
        break;
      case bw::LimitedBy::missed_today:
        paragraph("A rep was missed today: the sets that are left are " +
                  percent(rules.step_back_after_miss) + " or more below the missed load" + assumed +
                  ".");
        break;
      case bw::LimitedBy::today:
        paragraph(
            plan_.reserve_left
                ? "No heavier than the session began."
                : "A set today was harder than the log would have it: the load goes by that set.");
        break;
      case bw::LimitedBy::equipment:
        paragraph((plan_.sets.back().with.pin ? "That is the whole stack; the target was "
                   : !plan_.sets.back().with.dumbbell
                       ? "That is every plate listed; the target was "
                       : "These are the heaviest dumbbells; the target was ") +
                  wanted() + ".");
        break;
      case bw::LimitedBy::reserve:
        if (plan_.reserve_left && plan_.load() < plan_.wanted &&
            plan_.reserve_left->typical >= asked().reserve.count() + 1.0) {
          paragraph("Rounded down from " + wanted() + " to what can be loaded.");
        }
        break;
      case bw::LimitedBy::introduction:
      case bw::LimitedBy::recovery:
      case bw::LimitedBy::first_session: break;
    }
  }

  /// "just over ", where the chance that holds the load down would read as the limit itself.
  [[nodiscard]] std::string beyond_the_limit(const bw::Alternative& each) const {
    const double limit = plan_.max_chance_of_missing;
    const bool is_over = each.kind == bw::Alternative::Kind::step_above &&
                         plan_.limited_by == bw::LimitedBy::chance_of_missing &&
                         each.chance_of_missing > limit;
    return is_over && chance(each.chance_of_missing) == chance(limit) ? "just over " : "";
  }

  /// The loads beside it, for the coach to choose.
  void choices() {
    std::string text;
    for (const bw::Alternative& each : plan_.alternatives) {
      text += text.empty() ? "" : "; ";
      text += (each.kind == bw::Alternative::Kind::step_below   ? "One step lighter, "
               : each.kind == bw::Alternative::Kind::step_above ? "one step heavier, "
                                                                : "if recovered, as asked for, ") +
              load(each.with.load) + ": " + left(each.reserve_left) + ", chance of a miss " +
              beyond_the_limit(each) + chance(each.chance_of_missing);
    }
    if (text.empty()) return;
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    paragraph(text + ".");
  }

  /// The lighter sets after the work sets.
  void back_offs() {
    if (!plan_.back_offs) {
      if (asked().back_offs) paragraph("No back-off sets: the session is an easy one already.");
      return;
    }
    const bw::PlannedSet& set = plan_.back_offs->set;
    std::string text = "Then " + sets_of(set.sets, set.reps) + " with " + load(set.with.load) +
                       " (" + loaded_with(set.with) + ")";
    if (plan_.back_offs->reserve_left && plan_.back_offs->chance_of_missing) {
      text += ": about " + number(std::max(*plan_.back_offs->reserve_left, 0.0), 0) +
              " RIR after the last, chance of a miss " +
              chance(*plan_.back_offs->chance_of_missing);
    }
    paragraph(text + ".");
  }

  void next_time() {
    title(plan_.last ? "Last time and next time" : "Next time");
    if (plan_.last) last_time();
    const bw::Alternative* const hard = when_recovered();
    if (missed_today_ > 0) {
      paragraph("Next time no more than " + load(plan_.load()) +
                ", until every rep of every set is made.");
    } else if (hard != nullptr) {
      paragraph("Next hard session: " + load(hard->with.load) + ", once recovered.");
    } else if (plan_.recovery.is_too_soon() || plan_.comeback) {
      paragraph("An easy session says nothing about the next load: plan that day on its own.");
    } else if (!plan_.next) {
      paragraph("Nothing heavier can be loaded here: add reps instead.");
    } else if (plan_.next->is_short) {
      paragraph("Next time " + load_up() +
                ", if the last set today has one or two reps more in it than planned" +
                tag(bw::progression_source, about_) + "; after a missed rep the same load again.");
    } else {
      paragraph("The next load that can be made here, " + load_up() + ", is " +
                percent(plan_.next->with.load / plan_.load() - 1.0, 0) + " heavier; more than " +
                percent(lifter_.rules.greatest_rise) + " at once is too much" +
                tag(bw::progression_source, about_) + ". Add reps before load.");
    }
  }

  void last_time() {
    const bw::PastSession& last = *plan_.last;
    std::string text = "Last time, " + day(last.date) + ": " + done(last.top) + ".";
    const bool is_day_for_it = !plan_.recovery.is_too_soon() && missed_today_ == 0;
    switch (plan_.progress) {
      case bw::Progress::missed: text += " A rep was missed that day."; break;
      case bw::Progress::exceeded_twice:
        text += " Two sessions in a row you had 2 or more reps to spare";
        if (is_day_for_it) text += ": time to add load" + tag(bw::two_for_two_source, about_);
        text += ".";
        break;
      case bw::Progress::exceeded:
        text += " That beats " + std::to_string(asked().reps.count()) + " at " +
                rir(asked().reserve) + (is_day_for_it ? ": there is room for more load." : ".");
        break;
      case bw::Progress::none: break;
    }
    const double step = plan_.load() / last.top.load - 1.0;
    const bw::Mass more =
        std::max(plan_.load(), last.top.load) - std::min(plan_.load(), last.top.load);
    // Of what hangs from a belt a percentage would be of the body, too.
    const std::string size = lifter_.body ? load_text(more, unit()) : percent(std::abs(step));
    text += " Today is " + (step > 0.001    ? size + " heavier"
                            : step < -0.001 ? size + " lighter"
                                            : std::string("the same load"));
    if (plan_.reps != last.top.reps) {
      text += ", for " + count(plan_.reps.count(), "rep") + " in place of " +
              std::to_string(last.top.reps.count());
    }
    paragraph(text + ".");
  }

  /// "65 kg (2 x 32.5 kg)"
  [[nodiscard]] std::string load_up() const {
    const bw::LoadedWith& next = plan_.next->with;
    return load(next.load) + (next.dumbbell ? " (" + loaded_with(next) + ")" : "");
  }

  std::ostream& out_;
  const bw::Lifter& lifter_;
  const bw::SessionPlan& plan_;
  const bw::EquationFacts& facts_;
  const About& about_;
  int missed_today_ = 0;     ///< of the lift
  bool says_begun_ = false;  ///< what the log of the day has
};

}  // namespace report
