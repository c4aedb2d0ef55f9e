// examples/report/block_page.hpp - a block on a page: the weeks, how to go on, what it rests on
//
// The first line is what goes on the bar first. Sessions that are alike stand in one line. Under a
// stop the loads are left out, and what would lift it stands in their place.
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
#include "report/day_words.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// Prints one block.
class BlockPage {
 public:
  /// @param facts  of the curve that the lifter is read by
  BlockPage(std::ostream& out, const bw::Lifter& lifter, const bw::BlockPlan& plan,
            const bw::EquationFacts& facts, const About& about)
      : out_(out),
        lifter_(lifter),
        plan_(plan),
        steps_(plan.block().steps),
        facts_(facts),
        about_(about) {}

  void print() {
    heading();
    if (plan_.is_stopped()) {
      print_stop(
          out_, lifter_, asked().lift,
          {plan_.cautions, plan_.remedies, plan_.least_alone, "--last-reserve", asked().start},
          about_);
      if (!max_check_text(lifter_, unit()).empty()) return;
    } else {
      to_hear_first();
      weeks();
      how_to_go_on();
    }
    grounds();
    list_suspects(out_, lifter_, about_, !plan_.is_stopped());
    if (plan_.is_stopped()) {
      list_first_cautions(out_, plan_.cautions, lifter_, asked().start, about_);
    }
    list_cautions(out_, plan_.cautions, "Keep in mind", bw::Severity::note, about_);
    print_way_to_sources(out_, about_);
  }

 private:
  [[nodiscard]] const bw::BlockRequest& asked() const { return plan_.request; }
  [[nodiscard]] bw::Unit unit() const { return about_.unit; }
  [[nodiscard]] std::string load(bw::Mass mass) const { return load_text(mass, unit()); }
  void say(std::string_view text, std::size_t indent = 2, std::size_t hanging = 2) {
    paragraph(out_, text, indent, hanging);
  }
  [[nodiscard]] bool has_limit(bw::StepLimit limit) const {
    return std::any_of(steps_.begin(), steps_.end(),
                       [&](const bw::BlockStep& step) { return step.limit == limit; });
  }

  // -- sections --

  void heading() {
    const bw::BlockSettings& settings = asked().settings;
    if (plan_.is_stopped()) {
      out_ << "STOP: no loads for this block\n";
    } else {
      if (has_doubts(lifter_)) out_ << "Check the log first (below). Then:\n";
      const bw::StepPlan& first = steps_.front().plan;
      const bw::Loading& bar = steps_.front().loading;
      print_headline(out_, "First session. ",
                     {.is_work = true,
                      .sets = first.sets,
                      .reps = first.reps,
                      .with = {.load = bar.total(), .bar = bar}},
                     effort_text(first.reserve), about_);
    }
    std::string text =
        (about_.lifter.empty() ? "" : about_.lifter + ", ") + asked().lift.name().str() + ", ";
    if (!about_.has_no_day) text += "from " + day_of_week(asked().start) + ": ";
    if (plan_.has_stage(bw::Stage::introduction)) text += "its introduction, then ";
    text += count(settings.working_weeks, "working week") + " of " +
            count(settings.sessions_a_week, "session") + ", then a deload";
    if (settings.has_retest && !plan_.has_no_retest) text += " and a retest";
    say(text, 0, 0);
    if (plan_.has_stage(bw::Stage::introduction)) {
      out_ << "Not new to this lifter? Say how many sessions were done before: --done 20\n";
    }
  }

  /// What to see to, or to think over, before the first session.
  void to_hear_first() {
    print_max_check(out_, lifter_, unit());
    print_doubts(out_, lifter_, about_);
    layoff();
    print_recovery(out_, plan_.recovery, "The first session", about_);
    spacing();
    list_first_cautions(out_, plan_.cautions, lifter_, asked().start, about_);
    if (plan_.has_stage(bw::Stage::introduction)) list_requirements(out_, asked().lift, about_);
  }

  void layoff() {
    const int days = plan_.days_off.value_or(0);
    if (days <= lifter_.rules.recent_days && !plan_.comeback) return;
    title(out_, "A layoff before the block");
    say((plan_.comeback
             ? comeback_text(*plan_.comeback) +
                   " The first sessions are lighter, with fewer sets and more reps in reserve" +
                   tag(bw::Evidence::assumption, about_) + "."
             : "The last set of this lift or a variation of it was " + count(days, "day") +
                   " before the first day.") +
        " The rest assumes training as before; if there was none, plan again after the first "
        "sessions.");
  }

  /// Sessions of the block that follow one another too closely.
  void spacing() {
    if (plan_.too_close.empty()) return;
    const bw::SpacingConflict& first = plan_.too_close.front().conflict;
    std::string muscles;
    for (const bw::RecoveryConflict& each : plan_.too_close) {
      if (each.conflict.hours != first.hours) continue;
      muscles += (muscles.empty() ? "" : ", ") + std::string(bw::to_text(each.conflict.group));
    }
    title(out_, "Sessions too close together");
    say(muscles + ": hard sessions " + std::to_string(first.hours) + " h apart; allow " +
            std::to_string(first.hours_wanted) + " h" +
            (first.after_failure ? " after failure" : "") + tag(bw::spacing_source, about_) + ".",
        2, 4);
    say("Do at most " + count(std::max(7 * 24 / first.hours_wanted, 1), "session") +
        " a week, or make those in between easy: " + rir(bw::easy_reserve()) + " or more.");
  }

  /// Whether two steps differ in nothing but the session.
  [[nodiscard]] static bool are_alike(const bw::BlockStep& a, const bw::BlockStep& b) {
    return a.plan.week == b.plan.week && a.plan.stage == b.plan.stage &&
           a.plan.stage != bw::Stage::introduction && a.plan.reserve == b.plan.reserve &&
           a.loading == b.loading && a.limit == b.limit;
  }

  [[nodiscard]] static bool have_same_back_offs(const bw::BlockSession& a,
                                                const bw::BlockSession& b) {
    if (!a.back_offs || !b.back_offs) return a.back_offs.has_value() == b.back_offs.has_value();
    return a.back_offs->set.with.load == b.back_offs->set.with.load;
  }

  void weeks() {
    title(out_, "The weeks");
    print_machine(out_, asked().lift.base(), asked().has_spotter);
    const auto line = [&](std::string_view week, std::string_view sessions, std::string_view part,
                          std::string_view mass, std::string_view sets, std::string_view left,
                          std::string_view expected, std::string_view chance,
                          std::string_view with) {
      std::string text = "  " + right(week, 4) + "  " + padded(sessions, 8) + padded(part, 15) +
                         right(mass, 8) + right(sets, 8) + right(left, 5) + right(expected, 7) +
                         right(chance, 10) + "  " + std::string(with);
      text.erase(text.find_last_not_of(' ') + 1);
      out_ << text << '\n';
    };
    line("week", "session", "", "load", "sets", "RIR", "expect", "miss", "each side");
    for (std::size_t i = 0; i < steps_.size();) {
      std::size_t last = i;
      while (last + 1 < steps_.size() && are_alike(steps_[last + 1], steps_[i]) &&
             have_same_back_offs(plan_.sessions[last + 1], plan_.sessions[i])) {
        ++last;
      }
      const bw::StepPlan& plan = steps_[i].plan;
      const bool is_new_week = i == 0 || steps_[i - 1].plan.week != plan.week;
      std::string sessions = std::to_string(plan.session);
      if (last > i) sessions += "-" + std::to_string(steps_[last].plan.session);
      std::string part(bw::to_text(plan.stage));
      if (plan.stage == bw::Stage::introduction) part += " " + std::to_string(plan.exposure);
      line(is_new_week ? std::to_string(plan.week) : "", sessions, part,
           load(steps_[i].loading.total()),
           sets_of(plan.sets, plan.reps) + (plan.to_reserve ? "+" : ""),
           whole_reps(plan.reserve, "-"),
           plan.to_reserve ? "" : expected(plan_.sessions[i].reserve_left),
           chance(plan_.sessions[i].chance_of_missing), each_side(steps_[i].loading));
      if (const auto& after = plan_.sessions[i].back_offs) {
        line("", "", "  back-offs", load(after->set.with.load),
             sets_of(after->set.sets, after->set.reps), whole_reps(plan.reserve, "-"),
             expected(after->reserve_left.value_or(0.0)),
             chance(after->chance_of_missing.value_or(0.0)), each_side(*after->set.with.bar));
      }
      i = last + 1;
    }
    out_ << '\n';
    say("RIR: stop every set there, even with more reps in you. Expect: RIR after the last set. "
        "Miss: the chance of missing a rep, in the set most at risk.");
    beside_last();
    limits();
    bound();
    wide_step();
    retest();
  }

  /// Why the block begins lighter than the last session, or never goes beyond it.
  void beside_last() {
    if (!plan_.last) return;
    const bw::LoggedSet& last = plan_.last->top;
    const std::string before = "the " + load(last.load) + " of " + day(plan_.last->date);
    const auto why = [&](const bw::BlockSession& session) {
      const std::string left = rir(session.step.plan.reserve);
      return session.limited_by == bw::LimitedBy::chance_of_missing
                 ? "the " + percent(plan_.max_chance_of_missing) + " limit on a miss allows no more"
                 : left + " in the last set, by the log, allows no more";
    };
    const bw::BlockSession& first = plan_.sessions.front();
    const bool is_lighter = first.step.loading.total() < last.load &&
                            last.reps >= first.step.plan.reps &&
                            (first.limited_by == bw::LimitedBy::reserve ||
                             first.limited_by == bw::LimitedBy::chance_of_missing);
    if (is_lighter) say("The block begins lighter than " + before + ": " + why(first) + ".");
    if (!plan_.has_no_rise) return;
    const auto hardest = std::find_if(plan_.sessions.rbegin(), plan_.sessions.rend(),
                                      [](const bw::BlockSession& session) {
                                        return session.step.plan.stage == bw::Stage::working;
                                      });
    if (hardest == plan_.sessions.rend()) return;
    say("No week is heavier than " + before + ": " + why(*hardest) +
        ". No gain is planned before the sets show it; add load as below, or plan again from the "
        "log.");
  }

  [[nodiscard]] std::string expected(double left) const {
    const double countable = lifter_.rules.countable_reserve;
    return left > countable ? number(countable, 0) + "+" : number(std::max(left, 0.0), 0);
  }

  /// Why loads are no heavier, or fall.
  void limits() {
    const std::string tenth = percent(lifter_.rules.greatest_rise);
    std::string heaviest = "the heaviest before it";
    if (plan_.last) {
      heaviest += ", counting the last logged one (" + load(plan_.last->top.load) + " on " +
                  day(plan_.last->date) + ")";
    }
    if (has_limit(bw::StepLimit::greatest_rise)) {
      say("Some sessions could be heavier, but the next load that can be made is more than " +
          tenth + " above " + heaviest + ": too much at once.");
    }
    if (has_limit(bw::StepLimit::plate_gap)) {
      say("Where the next load the plates allow is more than " + tenth + " above " + heaviest +
          ", the load stays: add reps first, or find smaller plates.");
    }
    if (has_limit(bw::StepLimit::working_load)) {
      say("The introduction is kept light: no session is heavier than the work it leads to, or "
          "likelier to miss than asked.");
    }
    if (has_limit(bw::StepLimit::equipment))
      say("That is every plate listed; the target was heavier.");
    const auto lower = std::find_if(steps_.begin(), steps_.end(), [](const bw::BlockStep& step) {
      return step.limit == bw::StepLimit::falling_forecast;
    });
    if (lower == steps_.end()) return;
    const std::string week = std::to_string(lower->plan.week);
    say("From week " + week +
        " the load falls: the forecast is too uncertain that far ahead to keep the heavier load "
        "within the limit. Plan again before week " +
        week + ".");
  }

  /// Says that the chance of missing, not the reserve, decides, as loads then need not rise.
  void bound() {
    std::vector<int> weeks;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const int week = steps_[i].plan.week;
      if (plan_.sessions[i].limited_by == bw::LimitedBy::chance_of_missing &&
          steps_[i].plan.stage == bw::Stage::working && (weeks.empty() || weeks.back() != week)) {
        weeks.push_back(week);
      }
    }
    if (weeks.empty()) return;
    std::string text = weeks.size() == 1 ? "week " : "weeks ";
    if (weeks.size() > 2 && weeks.back() - weeks.front() + 1 == static_cast<int>(weeks.size())) {
      text += std::to_string(weeks.front()) + " to " + std::to_string(weeks.back());
    } else {
      for (const int week : weeks) {
        text += (week == weeks.front() ? "" : ", ") + std::to_string(week);
      }
    }
    say("In " + text + " the " + percent(plan_.max_chance_of_missing) +
        " limit on a miss holds the load down, not the RIR asked for: the next load that can be "
        "made is beyond "
        "it, and fewer RIR need not mean more on the bar.");
  }

  /// The next load of the room; nothing where there is none.
  [[nodiscard]] std::optional<bw::Loading> next_above(bw::Mass mass) const {
    return asked().room.at_least(mass * (1.0 + bw::detail::on_the_load));
  }
  /// "nothing between 62.5 kg and 90 kg"
  [[nodiscard]] std::string nothing_above(bw::Mass mass) const {
    const auto next = next_above(mass);
    return next ? "nothing between " + load(mass) + " and " + load(next->total())
                : "nothing heavier than the working load";
  }

  /// Says that more is left because the room has no load in between.
  void wide_step() {
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const bw::Mass total = steps_[i].loading.total();
      const auto next = next_above(total);
      if (steps_[i].plan.stage != bw::Stage::working || steps_[i].limit != bw::StepLimit::none ||
          !next || next->total() <= total * bw::detail::greatest_rise ||
          plan_.sessions[i].reserve_left < steps_[i].plan.reserve.count() + 2.0) {
        continue;
      }
      say("The plates allow " + nothing_above(total) +
          ", so these sets are easier than asked for: do more reps, or find plates in between.");
      return;
    }
  }

  void retest() {
    const bw::StepPlan& last = steps_.back().plan;
    bw::Mass heaviest{};
    for (const bw::BlockStep& step : steps_) {
      if (step.plan.stage != bw::Stage::working) continue;
      heaviest = std::max(heaviest, step.loading.total());
    }
    if (plan_.has_no_retest) {
      say("No retest: no load allowed for it would be hard within " +
          number(lifter_.rules.most_telling_retest, 0) + " reps, and more say little about a 1RM.");
    } else if (last.to_reserve) {
      const double reps =
          plan_.sessions.back().reserve_left + last.reps.count() - last.reserve.count();
      say((steps_.back().loading.total() > heaviest
               ? "No heavier load is allowed for the retest, and " + sets_of(1, last.reps) +
                     " with it would say little of the 1RM"
               : std::string("The retest can be no heavier than the work")) +
          ", so it is an AMRAP to " + rir(last.reserve) + ": expect about " +
          number(std::max(reps, 1.0), 0) + " reps.");
    }
    const bool is_full = std::any_of(steps_.begin(), steps_.end(), [&](const bw::BlockStep& step) {
      return step.plan.stage == bw::Stage::deload && step.plan.reps < asked().settings.reps;
    });
    if (is_full) say("Nothing lighter can be loaded for the deload, so it halves the reps.");
  }

  void how_to_go_on() {
    title(out_, "After each session");
    std::vector<bw::Stage> told;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const bw::Stage stage = steps_[i].plan.stage;
      if (stage == bw::Stage::introduction) {
        introduced(i);
        continue;
      }
      if (std::find(told.begin(), told.end(), stage) != told.end()) continue;
      told.push_back(stage);
      conditions(std::string(bw::to_text(stage)), steps_[i].conditions,
                 stage == bw::Stage::working);
    }
    after_a_miss();
    say("Pain is not a missed rep: stop the session and have it looked at by somebody qualified "
        "before loading again.");
  }

  void introduced(std::size_t i) {
    const auto is_same = [&](std::size_t other) {
      return steps_[other].plan.stage == bw::Stage::introduction &&
             steps_[other].conditions.go_on == steps_[i].conditions.go_on;
    };
    if (i > 0 && is_same(i - 1)) return;  // told already
    std::size_t last = i;
    while (last + 1 < steps_.size() && is_same(last + 1)) ++last;
    const std::string who =
        numbers("introduction", steps_[i].plan.exposure, steps_[last].plan.exposure);
    say(who + ": go on if " + std::string(steps_[i].conditions.go_on) + "; step back if " +
            std::string(steps_[i].conditions.step_back) + ".",
        2, 4);
  }

  void conditions(const std::string& who, const bw::Conditions& conditions, bool is_working) {
    if (conditions.hold.empty()) {
      say(who + ": " + std::string(conditions.go_on) + ".", 2, 4);
      return;
    }
    out_ << "  " << who << '\n';
    const auto when = [&](std::string_view decision, std::string_view what) {
      say(padded(decision, 14) + std::string(what), 4, 18);
    };
    when("go on if", conditions.go_on);
    if (is_working) {
      when("add load if",
           "the last set beats the plan by 2 or more reps, two sessions in a row: "
           "2.5 %, or one step where that is more, never over 10 %" +
               tag(bw::two_for_two_source, about_));
    }
    when("repeat if", conditions.hold);
    when("step back if", std::string(conditions.step_back) + ": at least 5 % off");
  }

  void after_a_miss() {
    const auto last = std::find_if(steps_.rbegin(), steps_.rend(), [](const bw::BlockStep& step) {
      return step.plan.stage == bw::Stage::working;
    });
    const bw::Mass heaviest = last->loading.total();
    std::string text =
        "After a missed rep: " +
        std::string(asked().lift.base().is_machine
                        ? "let the machine's stops take the weight"
                        : "rack the bar, put it down, or let the spotter or the safeties take it") +
        ", and do no more sets with that load today. ";
    if (const auto rest = bw::rest_of_session_after_miss(asked().room, heaviest)) {
      text += "Do the remaining sets at least 5 % lighter (after a miss at " + load(heaviest) +
              ": " + load(rest->total()) + ") or not at all. ";
    } else {
      text += "That was the last set: nothing lighter can be loaded. ";
    }
    say(text + "Next time the same load; if it is missed again, at least 5 % off" +
        tag(bw::step_back_source, about_) + ".");
  }

  void grounds() {
    title(out_, "What the loads rest on");
    const std::string base(asked().lift.base().name);
    const int sets = lifter_.learnt ? lifter_.learnt->sets_used : 0;
    const bool is_stated = lifter_.stated_max.has_value();
    say("1RM, " + base + ": " +
        (is_stated ? max_text(lifter_.stated_max->max, unit()) + ", as stated."
                   : max_text(plan_.base_max.interval(), unit()) + ", from " +
                         count(sets, "logged set") + "."));
    if (!asked().lift.is_plain()) {
      say("1RM, " + asked().lift.name().str() +
          (plan_.has_stage(bw::Stage::introduction) ? ", while it is new: " : ": ") +
          max_text(plan_.max.interval(), unit()) + ".");
    }
    if (!is_stated || !asked().lift.is_plain()) say(range_note);
    if (about_.shows_sources) {
      say("Equation: " + std::string(facts_.name) + tag(facts_.source, about_) +
          (is_stated ? "." : ", stretched to fit the lifter."));
      say("Order of the weeks" + tag(bw::block_source, about_) + ".");
    }
    say("No gain is planned: where loads rise, it is because fewer reps are left in reserve. Gains "
        "have to show in the sets.");
    if (plan_.has_stage(bw::Stage::retest)) {
      say("A retest is a set, not a max attempt; the equation turns it into a 1RM. Two single "
          "tests "
          "less than " +
          percent(bw::retest_noise, 0) + " apart may differ by chance alone" +
          (about_.shows_sources ? tag(bw::retest_noise_source, about_) + " " +
                                      std::string(bw::retest_noise_source.citation)
                                : "") +
          "; all sets together say more than a retest.");
    }
  }

  std::ostream& out_;
  const bw::Lifter& lifter_;
  const bw::BlockPlan& plan_;
  const std::vector<bw::BlockStep> steps_;
  const bw::EquationFacts& facts_;
  const About& about_;
};

}  // namespace report
