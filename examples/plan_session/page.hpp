// examples/plan_session/page.hpp - a session on one page, in the order a coach needs it
//
// What to load; where it comes from; what to do next time; what to take care of. Under a stop the
// loads are left out, and what would lift it stands in their place.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "before_loads.hpp"
#include "lifter_model.hpp"
#include "plan_session/plan.hpp"
#include "squad_log.hpp"
#include "text_page.hpp"

namespace plan_session {

using namespace text_page;

/// Prints one plan.
class Page {
 public:
  Page(std::ostream& out, const Plan& plan) : out_(out), plan_(plan) {}

  void print() {
    heading();
    if (plan_.says_stop()) {
      stop();
      if (plan_.max_check.is_refused) return;
    } else {
      to_hear_first();
      loads();
    }
    strength();
    change();
    misfits();
    if (!plan_.says_stop()) {
      if (plan_.introduction) introduction();
      last_and_next_time();
    }
    cautions();
  }

 private:
  // -- pieces of text --

  [[nodiscard]] const Question& asked() const { return plan_.question; }
  [[nodiscard]] bw::Unit unit() const { return asked().room.bar().mass.unit(); }
  [[nodiscard]] std::string load(bw::Mass mass) const { return bw::to_text(mass, unit(), 2).str(); }
  [[nodiscard]] static std::string day_of_week(bw::Date date) {
    return std::string(bw::to_text(bw::weekday_of(date))) + " " + day(date);
  }
  [[nodiscard]] std::string done(const bw::LoggedSet& set) const {
    return text_page::done(set, unit());
  }
  [[nodiscard]] std::string max(const bw::Range<bw::Mass>& mass) const {
    return max_text(mass, unit());
  }
  void title(std::string_view text) { text_page::title(out_, text); }
  void paragraph(std::string_view text, std::size_t indent = 2, std::size_t hanging = 2) {
    text_page::paragraph(out_, text, indent, hanging);
  }

  // -- sections --

  void heading() {
    out_ << (asked().lifter.empty() ? "" : asked().lifter + ", ") << day_of_week(asked().date)
         << (asked().date_is_assumed ? ", the day after the last set" : "") << '\n'
         << "The " << asked().lift.name() << ": " << count(asked().sets, "set") << " of "
         << asked().reps.count() << " with " << number(asked().reserve.count(), 1)
         << " left in reserve\n";
  }

  void stop() {
    std::vector<std::string> reasons;
    if (plan_.max_check.is_refused) reasons.push_back(plan_.max_check.text);
    for (const bw::Caution& caution : plan_.cautions) {
      if (caution.weight == bw::CautionWeight::stop) reasons.emplace_back(caution.text);
    }
    before_loads::print_stop(out_, reasons);
    title("No loads are given for this session. To go on");
    for (const std::string& way : plan_.ways_on) paragraph("- " + way, 2, 4);
    if (plan_.ways_on.empty())
      paragraph("- ask for a session of more repetitions and reserve", 2, 4);
  }

  /// What to see to, or to think over, before the bar is loaded.
  void to_hear_first() {
    if (!plan_.max_check.text.empty()) {
      title("The stated max");
      paragraph(plan_.max_check.text);
    }
    if (!asked().stated_max) before_loads::print_doubts(out_, plan_.learnt, unit());
    if (!plan_.today.empty()) already_today();
    before_loads::print(out_, plan_.too_soon, bw::RepsInReserve(planned_reserve()), "today");
    list_cautions("Before the first set", bw::CautionWeight::warn);
    if (!plan_.introduction || asked().lift.requirements().size() == 0) return;
    title("Before this lift");
    for (const bw::Note& note : asked().lift.requirements()) {
      paragraph("- " + std::string(note.text) + " [" + standing(note.source) + "]", 2, 4);
    }
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
    const bool is_new = plan_.introduction.has_value();
    title("On the bar");
    if (is_new) {
      const bw::Exposure& today = exposure();
      paragraph("This lift is new: today is session " + std::to_string(today.number) + " of " +
                std::to_string(plan_.introduction->size()) +
                " that introduce it (below), and takes the place of the sets asked for. Was it "
                "trained before" +
                (asked().lifter.empty() ? "" : " the log began") +
                "? Say how many sessions, as in --done 20.");
    }
    const std::string machine =
        before_loads::on_a_machine(asked().lift.base(), asked().has_spotter);
    if (!machine.empty()) paragraph(machine);
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
    if (plan_.is_bounded) {
      paragraph("The bound on that chance, " + percent(asked().max_chance_of_missing) +
                ", makes the load lighter than the reserve asked for would" +
                (bw::is_max_attempt(asked().reps, asked().reserve) && !plan_.introduction
                     ? ": this is a heavy single and no attempt at a max."
                     : "."));
    }
    if (plan_.days_away > lifter_model::long_away && !plan_.introduction) {
      paragraph("The last set of this lift or a variation of it was " +
                count(plan_.days_away, "day") + " ago: the load is taken " +
                percent(lifter_model::lighter_after) + " lighter [assumption].");
    }
    if (plan_.is_capped) {
      paragraph("More would be possible, but no load is more than 10 % above last time's, " +
                load(plan_.last_time->set.load) + " [" + standing(bw::progression_source) + "].");
    }
    if (plan_.room_is_too_light) {
      paragraph("The plates of the room end here; more was wanted.");
    } else if (rounding_leaves_more()) {
      paragraph("More than the " + number(asked().reserve.count(), 1) +
                " asked for should be left, as " + bw::to_text(plan_.wanted, unit(), 1).str() +
                " is rounded down to what can be loaded.");
    }
  }

  /// Whether more is likely to be left than asked for, and nothing but the rounding is why.
  [[nodiscard]] bool rounding_leaves_more() const {
    const bool has_other_reason = plan_.introduction || plan_.is_bounded || plan_.is_capped ||
                                  plan_.is_held || plan_.days_away > lifter_model::long_away;
    return !has_other_reason && plan_.left.typical >= asked().reserve.count() + 1.0 &&
           plan_.sets.back().load < plan_.wanted;
  }

  void expectation() {
    constexpr double countable = 10.0;  // beyond, neither lifters nor curves can tell
    const bw::Range<double> left{std::max(plan_.left.low, 0.0), std::max(plan_.left.typical, 0.0),
                                 std::max(plan_.left.high, 0.0)};
    const std::size_t sets = plan_.chances_of_missing.size();
    const bw::Reps reps = plan_.sets.back().reps;
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
    const double least = planned_reserve();
    if (left.typical > countable && least < countable) {
      paragraph(text + (plan_.introduction ? "." : ": the load is too light for the aim.") +
                " Should only " + number(least, 1) + " be left all the same, end the set.");
    } else {
      paragraph(text + ". End a set when " +
                (least == 0.0   ? "none is"
                 : least == 1.0 ? "1 is"
                                : number(least, 1) + " are") +
                " left, whatever the plan says.");
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

  [[nodiscard]] const bw::Exposure& exposure() const {
    return (*plan_.introduction)[static_cast<std::size_t>(plan_.earlier_sessions)];
  }
  [[nodiscard]] double planned_reserve() const {
    return plan_.introduction ? exposure().least_reserve.count() : asked().reserve.count();
  }

  void strength() {
    title("How strong");
    const bw::Lift base = asked().lift.base();
    const std::string name = base.name().str();
    const bw::StrengthFit& fit = plan_.learnt.fit;
    if (asked().stated_max) {
      paragraph("Max on the " + name + ": " + max_text(*asked().stated_max, unit()) +
                ", as stated.");
    } else {
      paragraph("Max on the " + name + " today: " + max(fit.max(base, asked().date).interval()) +
                ", by " + count(fit.sets_used(), "set") + " of it and its variations.");
    }
    if (!asked().lift.is_plain()) {
      paragraph("Max on the " + asked().lift.name().str() +
                (plan_.introduction ? " today, while it is new: " : " today: ") +
                max(fit.max(asked().lift, asked().date).interval()) + ".");
    }
    if (asked().stated_max) {
      curve();
      return;
    }
    const bw::Change trend = fit.trend();
    paragraph("Trend: " + text_page::change(trend, 1) +
              " a week; the chance that it is a gain is " + chance(trend.chance_of_gain()) + ".");
    paragraph("Ranges hold the truth in 9 of 10 cases, if the model is right.");
    by_itself();
    curve();
  }

  /// What the last session's best set says by itself, as it would be worked out on paper.
  void by_itself() {
    const std::string name(asked().lift.base().name);
    if (!plan_.last_best) {
      paragraph("The " + name + " itself gave no rated set in the last four weeks.");
      return;
    }
    const bw::LoggedSet& set = plan_.last_best->set;
    bw::Mass low = plan_.last_best->max;
    bw::Mass high = low;
    int curves = 0;
    for (const auto& line : bw::compare_equations(set.load, set.reps, set.reserve->typical)) {
      if (!line.is_studied) continue;
      low = std::min(low, line.max);
      high = std::max(high, line.max);
      ++curves;
    }
    std::string text = "By itself the best set of the last " + name + " session, " + done(set) +
                       " on " + day(set.date) + ", says " + max_text(plan_.last_best->max, unit());
    if (curves > 0) {
      text += "; the " + std::to_string(curves) + " published curves that reach so far say " +
              max_number(low, unit()) + " to " + max_text(high, unit());
    }
    text += ".";
    text += beside_the_curves({low, plan_.last_best->max, high});
    paragraph(text);
  }

  /// Why the model's max lies outside what the curves say of that set, where it does.
  [[nodiscard]] std::string beside_the_curves(const bw::Range<bw::Mass>& curves) const {
    const bw::Mass by_model = plan_.base_max;
    const bool is_above = by_model > curves.high;
    const auto shown = [&](bw::Mass mass) { return max_number(mass, unit()); };
    if (shown(by_model) == shown(is_above ? curves.high : curves.low)) return "";
    if (!is_above && !(by_model < curves.low)) return "";
    const double more_left = plan_.learnt.fit.rating_bias().mean;
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
    const bw::EquationFacts& facts = asked().curve.base().facts();
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
    const bw::StrengthFit& fit = plan_.learnt.fit;
    title("What the change costs");
    for (const bw::Modifier& modifier : lift.modifiers()) {
      const bw::Figure& figure = modifier.ratio_figure();
      paragraph("- " + std::string(modifier.name()) + ": " +
                    percent(modifier.ratio(plan_.base_max)) + " of the max is left [" +
                    std::string(bw::to_text(figure.evidence)) + "]" +
                    (modifier.strength_scaling()
                         ? "; it depends on the max, here " + max_text(plan_.base_max, unit())
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
      paragraph("- together: " + percent(lift.ratio(plan_.base_max)) +
                    ", all at their worst or all at their best",
                2, 4);
    }
    if (plan_.sets_of_lift > 0) {
      const bw::Range<double> own = fit.ratio(lift).interval();
      const bw::Range<double> catalogue = lift.ratio(plan_.base_max);
      paragraph("- by its own " + count(plan_.sets_of_lift, "set") + ": " + percent(own, 0) +
                    (plan_.introduction ? ", once it is learnt" : "") +
                    (own.typical < catalogue.low    ? ", below that range"
                     : own.typical > catalogue.high ? ", above that range"
                                                    : ""),
                2, 4);
    }
    const bw::Range<double> catalogue = lift.rep_stretch();
    std::string text = "At the same share of its max, repetitions beyond the first are ";
    if (fit.sets_used() > 0) {
      const bool is_own = plan_.sets_of_lift > 0;
      text += percent(fit.stretch(lift).interval(), 0) + " of the curve's, by " +
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
    if (plan_.learnt.misfits.empty()) return;
    if (!plan_.says_stop() && !asked().stated_max && before_loads::few_remain(plan_.learnt)) return;
    title("Sets that do not fit the others, and were left out");
    for (const lifter_model::Misfit& misfit : plan_.learnt.misfits) {
      paragraph("- " + lifter_model::to_text(misfit, unit()), 2, 4);
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
                bw::to_text(plan_.last_time->set.date).str() +
                "): where that was easy and clean, go on from there in steps of at most 10 %.");
    }
  }

  [[nodiscard]] std::string beside_the_likeliest(bw::Mass assumed) const {
    const std::string likeliest =
        max_text(plan_.learnt.fit.max(asked().lift, asked().date).median(), unit());
    if (likeliest == max_text(assumed, unit())) return "";
    return " Above stands the likeliest while it is new, " + likeliest +
           "; today's load goes by whichever of the two asks for less.";
  }

  [[nodiscard]] std::string rounded_down(bw::Mass mass) const {
    const auto there_is = loadable(asked(), mass);
    return there_is ? load(*there_is) : "too light";
  }

  void last_and_next_time() {
    const bw::Mass today = plan_.sets.back().load;
    if (plan_.introduction || bw::is_max_attempt(asked().reps, asked().reserve)) return;
    title(plan_.last_time ? "Last time and next time" : "Next time");
    if (plan_.last_time) {
      const LastTime& last = *plan_.last_time;
      std::string text = "Last time, " + bw::to_text(last.set.date).str() +
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
    if (!plan_.step_up) {
      paragraph("There is nothing heavier here: add repetitions in place of load.");
    } else if (plan_.step_up->is_short) {
      paragraph("Next time add load, to " + load_up() +
                ", if the last set today leaves one or two more than planned [" +
                standing(bw::progression_source) +
                ": American College of Sports Medicine 2009]; "
                "after a missed repetition repeat today's load.");
    } else {
      paragraph("There is no step of at most 10 % [" + standing(bw::progression_source) +
                "]: the next load that can be made here is " + load_up() + ", " +
                percent(plan_.step_up->load / today - 1.0, 0) +
                " more. Add repetitions before load.");
    }
  }

  /// "65 kg (2 x 32.5 kg)"
  [[nodiscard]] std::string load_up() const {
    const StepUp& next = *plan_.step_up;
    return load(next.load) + (next.loaded_with.empty() ? "" : " (" + next.loaded_with + ")");
  }

  void cautions() {
    if (plan_.says_stop()) list_cautions("Before the first set", bw::CautionWeight::warn);
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

}  // namespace plan_session
