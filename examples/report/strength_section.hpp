// examples/report/strength_section.hpp - how strong a lifter is, on the lift of a session
//
// The 1RM on the base lift and on the variation, what the variation costs and who says so, and how
// a new lift is introduced. Where each figure comes from stands beside it when sources are asked
// for.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <string_view>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// Prints what a session rests on.
class StrengthSection {
 public:
  StrengthSection(std::ostream& out, const bw::Lifter& lifter, const bw::SessionPlan& plan,
                  const bw::EquationFacts& facts, const About& about)
      : out_(out), lifter_(lifter), plan_(plan), facts_(facts), about_(about) {}

  void print() {
    title(out_, "Strength");
    const bw::Lift& lift = asked().lift;
    const std::string name = lifter_.base.name().str();
    if (lifter_.stated_max) {
      say("1RM, " + name + ": " + max_text(base_max(), unit()) + ", as stated.");
    } else {
      say("1RM, " + name + ": " + max_text(plan_.base_max.interval(), unit()) + ", from " +
          count(lifter_.learnt->sets_used, "logged set") + " of it and its variations.");
    }
    if (!lift.is_plain()) {
      say("1RM, " + lift.name().str() + (plan_.introduction ? ", while it is new: " : ": ") +
          max_text(plan_.max.interval(), unit()) + ".");
    }
    if (lifter_.body) {
      say("1RMs are of body and belt together; of the body " + max_text(*lifter_.body, unit()) +
          " count, without hands and forearms or what stays on the floor.");
    }
    if (!lifter_.stated_max) {
      print_trend(out_, lifter_, "Trend");
      if (about_.shows_sources) by_itself();
    } else if (!lift.is_plain()) {
      say(range_note);
    }
    if (about_.shows_sources) curve();
    if (!lift.is_plain()) beside_the_base_lift();
    if (plan_.introduction && !plan_.is_stopped()) introduction();
  }

 private:
  [[nodiscard]] const bw::SessionRequest& asked() const { return plan_.request; }
  [[nodiscard]] bw::Unit unit() const { return about_.unit; }
  void say(std::string_view text, std::size_t indent = 2, std::size_t hanging = 2) {
    paragraph(out_, text, indent, hanging);
  }
  /// What the max on the base lift is taken to be.
  [[nodiscard]] bw::Mass base_max() const {
    return lifter_.stated_max ? lifter_.stated_max->max : plan_.base_max.median();
  }

  /// What the last session's best set says by itself, as it would be worked out on paper.
  void by_itself() {
    const std::string name(lifter_.base.base().name);
    const bw::LoggedSet* best = nullptr;
    bw::Mass best_max{};
    for (const bw::LoggedSet& set : lifter_.sets) {
      const bool is_recent = asked().date - set.date < lifter_.rules.recent_days;
      if (!set.lift.same_as(lifter_.base) || !is_recent || !set.reserve) continue;
      if (bw::is_short(set) || !(set.load > bw::Mass{})) continue;
      const double reps = bw::reps_to_failure(set.reps, set.reserve->typical);
      const bw::Mass max = set.load.whole_of(std::exp(lifter_.curve.log_fraction(reps)));
      const bool is_newer = best == nullptr || set.date > best->date;
      if (!is_newer && !(set.date == best->date && max > best_max)) continue;
      best = &set;
      best_max = max;
    }
    if (best == nullptr) {
      say("No rated set of the plain " + name + " in the last " +
          count(lifter_.rules.recent_days, "day") + ".");
      return;
    }
    bw::Mass low = best_max;
    bw::Mass high = low;
    int curves = 0;
    for (const auto& line : bw::compare_equations(best->load, best->reps, best->reserve->typical)) {
      if (!line.is_studied) continue;
      low = std::min(low, line.max);
      high = std::max(high, line.max);
      ++curves;
    }
    std::string text = "The best set of the last " + name + " session, " + done(*best, unit()) +
                       " on " + day(best->date) + ", on its own implies " +
                       max_text(best_max, unit());
    if (curves > 0) {
      text += "; the " + std::to_string(curves) + " equations meant for sets this long give " +
              max_number(low, unit()) + " to " + max_text(high, unit());
    }
    say(text + "." + beside_the_curves({low, best_max, high}));
  }

  /// Why the model's max lies outside what the equations say of that set, where it does.
  [[nodiscard]] std::string beside_the_curves(const bw::Range<bw::Mass>& curves) const {
    const bw::Mass by_model = plan_.base_max.median();
    const bool is_above = by_model > curves.high;
    const auto shown = [&](bw::Mass mass) { return max_number(mass, unit()); };
    if (shown(by_model) == shown(is_above ? curves.high : curves.low)) return "";
    if (!is_above && !(by_model < curves.low)) return "";
    const double more_left = lifter_.learnt->more_left;
    std::string left;
    if (std::abs(more_left) >= 0.1) {
      left = ", and this lifter usually has about " + number(std::abs(more_left), 1) + " reps " +
             (more_left > 0.0 ? "more" : "fewer") + " in reserve than the log says";
    }
    return std::string(" The 1RM above is ") + (is_above ? "higher" : "lower") +
           " than all of these: it rests on every logged set, allows for the sets done before "
           "each, "
           "and fits the equation to the lifter" +
           left + ".";
  }

  void curve() {
    say("Equation: " + std::string(facts_.name) + ", normalised so that one rep is 100 %: " +
        std::string(facts_.source.citation) + tag(facts_.source, about_) + ".");
    const double to_failure = asked().reps.count() + asked().reserve.count();
    if (!facts_.studied.contains(to_failure)) {
      say("It was not studied at " + number(to_failure, 1) + " reps to failure.");
    }
  }

  void beside_the_base_lift() {
    const bw::Lift& lift = asked().lift;
    title(out_, "Compared with the " + lifter_.base.name().str());
    for (const bw::Modifier& modifier : lift.modifiers()) {
      const bw::Figure& figure = modifier.ratio_figure();
      say("- " + std::string(modifier.name()) + ": " + percent(modifier.ratio(base_max())) +
              " of its 1RM" +
              (modifier.strength_scaling() ? ", for a 1RM of " + max_text(base_max(), unit())
                                           : "") +
              tag(figure.evidence, about_),
          2, 4);
      if (about_.shows_sources) findings(figure);
    }
    if (lift.modifiers().size() > 1) {
      say("- combined, worst to best case: " + percent(lift.ratio(base_max())), 2, 4);
    }
    if (plan_.sets_of_lift > 0) {
      const bw::Range<double> own = lifter_.strength->ratio(lift).interval();
      const bw::Range<double> catalogue = lift.ratio(base_max());
      say("- from " + count(plan_.sets_of_lift, "logged set") + ": " + percent(own, 0) +
              (plan_.introduction ? ", once it is learnt" : "") +
              (own.typical < catalogue.low    ? ", below that range"
               : own.typical > catalogue.high ? ", above that range"
                                              : ""),
          2, 4);
    }
    endurance();
  }

  void findings(const bw::Figure& figure) {
    for (const bw::Finding& finding : figure.findings) {
      const bool is_cited = !finding.source.citation.empty();
      // What has no citation says no more than the figure, where that stands no better.
      if (!finding.value || (!is_cited && finding.source.evidence == figure.evidence)) continue;
      say("- " + std::string(finding.what) + ": " + percent(*finding.value) +
              tag(finding.source, about_) + (is_cited ? " " : "") +
              std::string(finding.source.citation),
          4, 6);
    }
  }

  /// How many reps the lift allows where the equation says ten.
  void endurance() {
    constexpr double usual = 10.0;
    const bool is_learnt = lifter_.learnt && lifter_.learnt->sets_used > 0;
    const bool is_own = is_learnt && plan_.sets_of_lift > 0;
    const bw::Range<double> stretch =
        is_learnt ? lifter_.strength->stretch(asked().lift).interval() : asked().lift.rep_stretch();
    if (!is_learnt && stretch.is_exact()) return;
    const auto reps = [&](double share) { return number(1.0 + (usual - 1.0) * share, 0); };
    say("- at the same percentage of its own 1RM: about " + reps(stretch.typical) + " reps (" +
            reps(stretch.low) + " to " + reps(stretch.high) + ") where the equation has 10, from " +
            (is_own      ? "the log"
             : is_learnt ? "other forms of the lift in the log and the catalogue"
                         : "the catalogue" + tag(bw::Evidence::assumption, about_)),
        2, 4);
  }

  void introduction() {
    title(out_, "Introducing the lift");
    const bw::Introduction& plan = *plan_.introduction;
    std::string text = "Planned from a 1RM of " + max_text(plan.assumed_max(), unit()) +
                       ", the low end of the catalogue's range, up to " +
                       max_text(plan.working_load(), unit()) + " for the working sets" +
                       tag(bw::introduction_source, about_) + ".";
    if (max_text(plan_.max.median(), unit()) != max_text(plan.assumed_max(), unit())) {
      text += " Today's load goes by that or by the likeliest 1RM, whichever asks for less.";
    }
    say(text);
    for (const bw::Exposure& step : plan) {
      out_ << (step.number == plan_.exposure()->number ? "  today  " : "         ") << step.number
           << "  " << right(rounded_down(step.load), 9) << "   " << sets_of(step.sets, step.reps)
           << ", at least " << rir(step.least_reserve) << '\n';
    }
    for (std::size_t i = 0; i < plan.size();) {
      std::size_t last = i;
      while (last + 1 < plan.size() && plan[last + 1].before_next == plan[i].before_next) ++last;
      say("After " + numbers("session", plan[i].number, plan[last].number) + ", go on if " +
              std::string(plan[i].before_next) + ".",
          2, 4);
      i = last + 1;
    }
    if (plan_.last && plan_.last->top.load > plan_.load()) {
      say("The log already has more (" + done(plan_.last->top, unit()) + " on " +
          day(plan_.last->date) +
          "): if that was easy and clean, go on from there in steps of at most " +
          percent(lifter_.rules.greatest_rise) + ".");
    }
  }

  [[nodiscard]] std::string rounded_down(bw::Mass mass) const {
    const auto there_is =
        bw::Equipment(asked().lift, asked().room, asked().dumbbells).at_most(mass);
    return there_is ? load_text(there_is->load, unit()) : "too light";
  }

  std::ostream& out_;
  const bw::Lifter& lifter_;
  const bw::SessionPlan& plan_;
  const bw::EquationFacts& facts_;
  const About& about_;
};

}  // namespace report
