// examples/report/session_page.hpp - a session on one page, in the order a coach needs it
//
// What to load; where it comes from; what to do next time; what to take care of. Under a stop the
// loads are left out, and what would lift it stands in their place.
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
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// Prints one session.
class SessionPage {
 public:
  /// @param facts  of the curve that the lifter is read by
  SessionPage(std::ostream& out, const bw::Lifter& lifter, const bw::SessionPlan& plan,
              const bw::EquationFacts& facts, const About& about)
      : out_(out), lifter_(lifter), plan_(plan), facts_(facts), about_(about) {}

  void print() {
    heading();
    if (plan_.is_stopped()) {
      print_stop(out_, lifter_, asked().lift, plan_.cautions, plan_.remedies, about_, "session",
                 "--reserve", plan_.least_alone);
      if (!max_check_text(lifter_, unit()).empty()) return;
    } else {
      to_hear_first();
      loads();
    }
    strength();
    change();
    misfits();
    if (!plan_.is_stopped()) {
      if (plan_.introduction) introduction();
      last_and_next_time();
    } else {
      list_cautions(out_, plan_.cautions, "Before the first set", bw::CautionWeight::warn);
    }
    list_cautions(out_, plan_.cautions, "Keep in mind", bw::CautionWeight::note);
  }

 private:
  // -- pieces of text --

  [[nodiscard]] const bw::SessionRequest& asked() const { return plan_.request; }
  [[nodiscard]] bw::Unit unit() const { return about_.unit; }
  [[nodiscard]] std::string load(bw::Mass mass) const { return load_text(mass, unit()); }
  [[nodiscard]] std::string done(const bw::LoggedSet& set) const {
    return text_page::done(set, unit());
  }
  [[nodiscard]] std::string max(const bw::Range<bw::Mass>& mass) const {
    return max_text(mass, unit());
  }
  /// What the max on the base lift is taken to be.
  [[nodiscard]] bw::Mass base_max() const {
    return lifter_.stated_max ? lifter_.stated_max->max : plan_.base_max.median();
  }
  void title(std::string_view text) { text_page::title(out_, text); }
  void paragraph(std::string_view text, std::size_t indent = 2, std::size_t hanging = 2) {
    text_page::paragraph(out_, text, indent, hanging);
  }

  // -- sections --

  void heading() {
    out_ << (about_.lifter.empty() ? "" : about_.lifter + ", ") << day_of_week(asked().date)
         << (about_.date_is_assumed ? ", the day after the last set" : "") << '\n'
         << "The " << asked().lift.name() << ": " << count(asked().sets.count(), "set") << " of "
         << asked().reps.count() << " with " << number(asked().reserve.count(), 1)
         << " left in reserve\n";
  }

  /// What to see to, or to think over, before the bar is loaded.
  void to_hear_first() {
    if (const std::string text = max_check_text(lifter_, unit()); !text.empty()) {
      title("The stated max");
      paragraph(text);
    }
    print_doubts(out_, lifter_, about_);
    if (!plan_.today.empty()) already_today();
    print_recovery(out_, plan_.recovery, "today");
    list_cautions(out_, plan_.cautions, "Before the first set", bw::CautionWeight::warn);
    if (plan_.introduction) list_requirements(out_, asked().lift);
  }

  void already_today() {
    const auto of_lift = static_cast<int>(
        std::count_if(plan_.today.begin(), plan_.today.end(),
                      [&](const bw::LoggedSet& set) { return set.lift.same_as(asked().lift); }));
    title("Already trained today");
    paragraph(count(static_cast<int>(plan_.today.size()), "set") + " in the log, " +
              std::to_string(of_lift) +
              " of this lift. The session below comes on top of them; its chance of missing counts "
              "those of this lift.");
  }

  void loads() {
    title("On the bar");
    if (const bw::Exposure* const today = plan_.exposure()) {
      paragraph("This lift is new: today is session " + std::to_string(today->number) + " of " +
                std::to_string(plan_.introduction->size()) +
                " that introduce it (below), and takes the place of the sets asked for. Was it "
                "trained before" +
                (about_.lifter.empty() ? "" : " the log began") +
                "? Say how many sessions, as in --done 20.");
    }
    print_machine(out_, asked().lift.base(), asked().has_spotter);
    const std::optional<bw::Loading>& top = plan_.sets.back().with.bar;
    std::size_t widest = 9;
    for (const bw::PlannedSet& set : plan_.sets) {
      widest = std::max(widest, loaded_with(set.with).size());
    }
    const auto line = [&](std::string_view what, std::string_view mass, std::string_view reps,
                          std::string_view with, std::string_view moves) {
      std::string text = "  " + padded(what, 9) + right(mass, 9) + right(reps, 10) + "   " +
                         padded(with, widest + 3) + std::string(moves);
      text.erase(text.find_last_not_of(' ') + 1);
      out_ << text << '\n';
    };
    line("", "load", "reps", top ? "each side" : "dumbbells", top ? "plates moved" : "");
    for (const bw::PlannedSet& set : plan_.sets) {
      const std::string reps =
          (set.sets > 1 ? std::to_string(set.sets) + " x " : "") + std::to_string(set.reps.count());
      line(set.is_work ? "work" : "warm-up", load(set.with.load), reps, loaded_with(set.with),
           change_text(set));
    }
    out_ << '\n';
    if (top) out_ << bw::draw(*top) << '\n';
    expectation();
    limit();
    choices();
  }

  /// "1 off, 2 on", or nothing.
  [[nodiscard]] static std::string change_text(const bw::PlannedSet& set) {
    std::string text;
    if (set.taken_off > 0) text = std::to_string(set.taken_off) + " off";
    if (set.taken_off > 0 && set.put_on > 0) text += ", ";
    if (set.put_on > 0) text += std::to_string(set.put_on) + " on";
    return text;
  }

  /// Why the load is no heavier.
  void limit() {
    const bw::PlanningRules& rules = lifter_.rules;
    const bool is_attempt = bw::is_max_attempt(asked().reps, asked().reserve);
    switch (plan_.limited_by) {
      case bw::LimitedBy::chance_of_missing:
        paragraph("The bound on that chance, " + percent(asked().max_chance_of_missing) +
                  ", makes the load lighter than the reserve asked for would" +
                  (is_attempt && !plan_.introduction
                       ? ": this is a heavy single and no attempt at a max."
                       : "."));
        break;
      case bw::LimitedBy::layoff:
        paragraph(comeback_text(*plan_.comeback) + " Today: " + count(plan_.work_sets, "set") +
                  ", the load up to " + percent(plan_.comeback->load_cut) +
                  " below the usual, and " + number(plan_.reserve.count(), 1) +
                  " or more left [assumption].");
        break;
      case bw::LimitedBy::greatest_rise:
        paragraph("More would be possible, but no load asks for more than " +
                  percent(rules.greatest_rise) +
                  " above what went up in the last sessions, whatever the repetitions [" +
                  standing(bw::progression_source) + "].");
        break;
      case bw::LimitedBy::held_after_miss:
        paragraph(
            "A repetition was missed last time: no more than that load until every set is "
            "completed [assumption].");
        break;
      case bw::LimitedBy::held_after_failure:
        paragraph("A set of last time left nothing: no more than that load today [assumption].");
        break;
      case bw::LimitedBy::missed_today:
        paragraph("A repetition was missed today: what is left is " +
                  percent(rules.step_back_after_miss) +
                  " lighter than what was missed "
                  "[assumption].");
        break;
      case bw::LimitedBy::today:
        paragraph("A set of today left less than is asked for: the load goes by it.");
        break;
      case bw::LimitedBy::equipment:
        paragraph(plan_.sets.back().with.bar
                      ? "That is every plate listed; the target was heavier."
                      : "These are the heaviest dumbbells; the target was heavier.");
        break;
      case bw::LimitedBy::reserve:
        if (plan_.reserve_left.typical >= asked().reserve.count() + 1.0 &&
            plan_.load() < plan_.wanted) {
          paragraph("More than the " + number(asked().reserve.count(), 1) +
                    " asked for should be left, as " + bw::to_text(plan_.wanted, unit(), 1).str() +
                    " is rounded down to what can be loaded.");
        }
        break;
      case bw::LimitedBy::introduction:
      case bw::LimitedBy::recovery: break;
    }
  }

  /// The loads beside it, for the coach to choose.
  void choices() {
    std::string text;
    const std::string in_spite = plan_.recovery.is_too_soon()
                                     ? "in spite of the warning above, the reserve asked for, "
                                     : "the reserve asked for, ";
    for (const bw::Alternative& each : plan_.alternatives) {
      text += text.empty() ? "" : "; ";
      text += (each.kind == bw::Alternative::Kind::step_below   ? "One step below, "
               : each.kind == bw::Alternative::Kind::step_above ? "one step above, "
                                                                : in_spite) +
              load(each.with.load) + ": about " + number(std::max(each.reserve_left, 0.0), 0) +
              " left, chance of missing " + chance(each.chance_of_missing);
    }
    if (text.empty()) return;
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    paragraph(text + ".");
  }

  void expectation() {
    const double countable = lifter_.rules.countable_reserve;
    const bw::Range<double> left{std::max(plan_.reserve_left.low, 0.0),
                                 std::max(plan_.reserve_left.typical, 0.0),
                                 std::max(plan_.reserve_left.high, 0.0)};
    const std::size_t sets = plan_.chances_of_missing.size();
    const bw::Reps reps = plan_.reps;
    std::string text =
        "After " + count(reps.count(), "repetition") + (sets > 1 ? " in the last set " : " ");
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
    const double least = plan_.reserve.count();
    if (left.typical > countable && least < countable) {
      const bool is_meant = plan_.introduction || plan_.comeback || plan_.recovery.is_too_soon();
      paragraph(text + (is_meant ? "." : ": the load is too light for the aim.") +
                " If it feels like " + number(least, 1) + " left, stop there anyway.");
    } else if (least < 1.0) {
      paragraph(text + ". Stop when you could not do another good repetition.");
    } else {
      paragraph(text + ". Stop each set at " + number(least, 1) +
                " in reserve, even if repetitions remain.");
    }
    paragraph("The chance of missing the last repetition: " + chances() + ".");
  }

  /// "1 % in sets 1 and 2, 3 % in set 3"
  [[nodiscard]] std::string chances() const {
    const std::vector<double>& of_sets = plan_.chances_of_missing;
    if (of_sets.size() == 1) return chance(of_sets.front());
    std::string text;
    for (std::size_t i = 0; i < of_sets.size();) {
      std::size_t last = i;
      while (last + 1 < of_sets.size() && chance(of_sets[last + 1]) == chance(of_sets[i])) ++last;
      if (i == 0 && last + 1 == of_sets.size()) return chance(of_sets.front()) + " in each set";
      text += (i > 0 ? ", " : "") + chance(of_sets[i]) + " in " + numbers("set", i + 1, last + 1);
      i = last + 1;
    }
    return text;
  }
  /// "set 3", "sets 1 and 2", "sets 1 to 4"
  [[nodiscard]] static std::string numbers(std::string_view thing, std::size_t first,
                                           std::size_t last) {
    std::string text(thing);
    if (first == last) return text + " " + std::to_string(first);
    return text + "s " + std::to_string(first) + (last == first + 1 ? " and " : " to ") +
           std::to_string(last);
  }

  void strength() {
    title("How strong");
    const std::string name = lifter_.base.name().str();
    if (lifter_.stated_max) {
      paragraph("Max on the " + name + ": " + max_text(lifter_.stated_max->max, unit()) +
                ", as stated.");
    } else {
      paragraph("Max on the " + name + " today: " + max(plan_.base_max.interval()) + ", from " +
                count(lifter_.learnt->sets_used, "set") + " of it and its variations.");
    }
    if (!asked().lift.is_plain()) {
      paragraph("Max on the " + asked().lift.name().str() +
                (plan_.introduction ? " today, while it is new: " : " today: ") +
                max(plan_.max.interval()) + ".");
    }
    if (!lifter_.stated_max) {
      const bw::Change& trend = lifter_.learnt->trend;
      paragraph("Trend: " + text_page::change(trend, 1) +
                " a week; the chance that it is a gain is " + chance(trend.chance_of_gain()) + ".");
      paragraph("Ranges hold the truth in 9 of 10 cases, if the model is right.");
      by_itself();
    }
    curve();
  }

  /// What the last session's best set says by itself, as it would be worked out on paper.
  void by_itself() {
    const std::string name(lifter_.base.base().name);
    const bw::LoggedSet* best = nullptr;
    bw::Mass best_max{};
    for (const bw::LoggedSet& set : lifter_.sets) {
      const bool is_recent = asked().date - set.date < lifter_.rules.recent_days;
      if (!set.lift.same_as(lifter_.base) || !is_recent || !set.reserve) continue;
      if (set.outcome == bw::Outcome::missed || !(set.load > bw::Mass{})) continue;
      const double reps = bw::reps_to_failure(set.reps, set.reserve->typical);
      const bw::Mass max = set.load.whole_of(std::exp(lifter_.curve.log_fraction(reps)));
      const bool is_newer = best == nullptr || set.date > best->date;
      if (!is_newer && !(set.date == best->date && max > best_max)) continue;
      best = &set;
      best_max = max;
    }
    if (best == nullptr) {
      paragraph("The " + name + " itself gave no rated set in the last four weeks.");
      return;
    }
    const bw::LoggedSet& set = *best;
    bw::Mass low = best_max;
    bw::Mass high = low;
    int curves = 0;
    for (const auto& line : bw::compare_equations(set.load, set.reps, set.reserve->typical)) {
      if (!line.is_studied) continue;
      low = std::min(low, line.max);
      high = std::max(high, line.max);
      ++curves;
    }
    std::string text = "By itself the best set of the last " + name + " session, " + done(set) +
                       " on " + day(set.date) + ", says " + max_text(best_max, unit());
    if (curves > 0) {
      text += "; the " + std::to_string(curves) + " published curves that reach so far say " +
              max_number(low, unit()) + " to " + max_text(high, unit());
    }
    text += ".";
    text += beside_the_curves({low, best_max, high});
    paragraph(text);
  }

  /// Why the model's max lies outside what the curves say of that set, where it does.
  [[nodiscard]] std::string beside_the_curves(const bw::Range<bw::Mass>& curves) const {
    const bw::Mass by_model = plan_.base_max.median();
    const bool is_above = by_model > curves.high;
    const auto shown = [&](bw::Mass mass) { return max_number(mass, unit()); };
    if (shown(by_model) == shown(is_above ? curves.high : curves.low)) return "";
    if (!is_above && !(by_model < curves.low)) return "";
    const double more_left = lifter_.learnt->more_left;
    std::string left;
    if (std::abs(more_left) >= 0.1) {
      left = ", and takes " + number(std::abs(more_left), 1) + " repetitions " +
             (more_left > 0.0 ? "more" : "fewer") + " to have been left than was said";
    }
    return std::string(" The model's max is ") + (is_above ? "above" : "below") +
           " all that: it goes by all sets of the log, by what earlier sets of the day cost and by "
           "the lifter's own curve" +
           left + ".";
  }

  void curve() {
    const bw::EquationFacts& facts = facts_;
    paragraph("By the curve of " + std::string(facts.name) + ", made exact at one repetition: " +
              std::string(facts.source.citation) + " [" + standing(facts.source) + "].");
    const double to_failure = asked().reps.count() + asked().reserve.count();
    if (!facts.studied.contains(to_failure)) {
      paragraph("It was not studied at " + number(to_failure, 1) + " repetitions to failure.");
    }
  }

  void change() {
    const bw::Lift& lift = asked().lift;
    if (lift.is_plain()) return;
    title("What the change costs");
    for (const bw::Modifier& modifier : lift.modifiers()) {
      const bw::Figure& figure = modifier.ratio_figure();
      paragraph("- " + std::string(modifier.name()) + ": " + percent(modifier.ratio(base_max())) +
                    " of the max is left [" + std::string(bw::to_text(figure.evidence)) + "]" +
                    (modifier.strength_scaling()
                         ? "; it depends on the max, here " + max_text(base_max(), unit())
                         : ""),
                2, 4);
      for (const bw::Finding& finding : figure.findings) {
        const bool is_cited = !finding.source.citation.empty();
        // What has no citation says no more than the figure, where that stands no better.
        if (!finding.value || (!is_cited && finding.source.evidence == figure.evidence)) continue;
        paragraph("- " + std::string(finding.what) + ": " + percent(*finding.value) + " [" +
                      standing(finding.source) + "]" + (is_cited ? " " : "") +
                      std::string(finding.source.citation),
                  4, 6);
      }
    }
    if (lift.modifiers().size() > 1) {
      paragraph("- together: " + percent(lift.ratio(base_max())) +
                    ", all at their worst or all at their best",
                2, 4);
    }
    if (plan_.sets_of_lift > 0) {
      const bw::Range<double> own = lifter_.strength->ratio(lift).interval();
      const bw::Range<double> catalogue = lift.ratio(base_max());
      paragraph("- by its own " + count(plan_.sets_of_lift, "set") + ": " + percent(own, 0) +
                    (plan_.introduction ? ", once it is learnt" : "") +
                    (own.typical < catalogue.low    ? ", below that range"
                     : own.typical > catalogue.high ? ", above that range"
                                                    : ""),
                2, 4);
    }
    const bw::Range<double> catalogue = lift.rep_stretch();
    std::string text = "At the same share of its max, repetitions beyond the first are ";
    if (lifter_.learnt && lifter_.learnt->sets_used > 0) {
      const bool is_own = plan_.sets_of_lift > 0;
      text += percent(lifter_.strength->stretch(lift).interval(), 0) + " of the curve's, by " +
              (is_own ? "the log" : "other forms of the lift in the log");
      if (!catalogue.is_exact()) {
        text += std::string(is_own ? "; the catalogue has " : " and the catalogue, which has ") +
                percent(catalogue, 0) + " of the " + std::string(lift.base().name) +
                "'s [assumption]";
      }
    } else if (!catalogue.is_exact()) {
      text +=
          percent(catalogue, 0) + " of the " + std::string(lift.base().name) + "'s [assumption]";
    } else {
      return;
    }
    paragraph(text + ".");
  }

  void misfits() {
    if (lifter_.suspects.empty()) return;
    if (!plan_.is_stopped() && lifter_.doubts.has_few_sets_left) return;  // said above
    title("Sets that do not fit the others, and were left out");
    for (const bw::SuspectSet& suspect : lifter_.suspects) {
      paragraph("- " + to_text(suspect, about_), 2, 4);
    }
  }

  void introduction() {
    title("Introducing the lift");
    const bw::Introduction& plan = *plan_.introduction;
    paragraph("Its max is taken as " + max_text(plan.assumed_max(), unit()) +
              ", the low end of the catalogue's range. The plan works up to " +
              max_text(plan.working_load(), unit()) + ", rounded down to what can be loaded [" +
              standing(bw::introduction_source) + "]." + beside_the_likeliest(plan.assumed_max()));
    for (const bw::Exposure& step : plan) {
      out_ << (step.number == plan_.exposure()->number ? "  today  " : "         ") << step.number
           << "  " << right(rounded_down(step.load), 9) << "   " << step.sets << " x "
           << step.reps.count() << ", at least " << number(step.least_reserve.count(), 1)
           << " left\n";
    }
    for (std::size_t i = 0; i < plan.size();) {
      std::size_t last = i;
      while (last + 1 < plan.size() && plan[last + 1].before_next == plan[i].before_next) ++last;
      std::string after = std::to_string(plan[i].number);
      if (last > i) after += (last > i + 1 ? " to " : " and ") + std::to_string(plan[last].number);
      paragraph("After " + after + " go on if " + std::string(plan[i].before_next) + ".", 2, 4);
      i = last + 1;
    }
    if (plan_.last && plan_.last->top.load > plan_.load()) {
      paragraph("The log has it heavier already (" + done(plan_.last->top) + " on " +
                bw::to_text(plan_.last->date).str() +
                "): where that was easy and clean, go on from there in steps of at most 10 %.");
    }
  }

  [[nodiscard]] std::string beside_the_likeliest(bw::Mass assumed) const {
    const std::string likeliest = max_text(plan_.max.median(), unit());
    if (likeliest == max_text(assumed, unit())) return "";
    return " Above stands the likeliest while it is new, " + likeliest +
           "; today's load goes by whichever of the two asks for less.";
  }

  [[nodiscard]] std::string rounded_down(bw::Mass mass) const {
    const auto there_is =
        bw::Equipment(asked().lift, asked().room, asked().dumbbells).at_most(mass);
    return there_is ? load(there_is->load) : "too light";
  }

  void last_and_next_time() {
    const bw::Mass today = plan_.load();
    if (plan_.introduction || bw::is_max_attempt(asked().reps, asked().reserve)) return;
    title(plan_.last ? "Last time and next time" : "Next time");
    if (plan_.last) {
      const bw::PastSession& last = *plan_.last;
      std::string text =
          "Last time, " + day(last.date) + ", the last heavy set was " + done(last.top) + ".";
      switch (plan_.progress) {
        case bw::Progress::missed: text += " A repetition was missed that day."; break;
        case bw::Progress::exceeded_twice:
          text +=
              " Two sessions running that is two or more beyond what is asked for today: time to "
              "add load [" +
              standing(bw::two_for_two_source) + "].";
          break;
        case bw::Progress::exceeded:
          text += " That is more than " + std::to_string(asked().reps.count()) + " with " +
                  number(asked().reserve.count(), 1) + " left: there is room for more load.";
          break;
        case bw::Progress::none: break;
      }
      const double step = today / last.top.load - 1.0;
      text += " Today is " +
              (step > 0.001    ? percent(step) + " heavier"
               : step < -0.001 ? percent(-step) + " lighter"
                               : std::string("the same load")) +
              ", for " + std::to_string(plan_.reps.count()) + " repetitions after " +
              std::to_string(last.top.reps.count()) + ".";
      paragraph(text);
    }
    if (plan_.recovery.is_too_soon()) {
      paragraph("After an easy session today says nothing of the next load: plan that day anew.");
    } else if (!plan_.next) {
      paragraph("There is nothing heavier here: add repetitions in place of load.");
    } else if (plan_.next->is_short) {
      paragraph("Next time add load, to " + load_up() +
                ", if the last set today leaves one or two more than planned [" +
                standing(bw::progression_source) +
                ": American College of Sports Medicine 2009]; "
                "after a missed repetition repeat today's load.");
    } else {
      paragraph("There is no step of at most 10 % [" + standing(bw::progression_source) +
                "]: the next load that can be made here is " + load_up() + ", " +
                percent(plan_.next->with.load / today - 1.0, 0) +
                " more. Add repetitions before load.");
    }
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
};

}  // namespace report
