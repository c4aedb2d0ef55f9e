// examples/report/block_page.hpp - a block on a page: the weeks, how to go on, what it rests on
//
// Sessions that are alike stand in one line. Under a stop the loads are left out, and what would
// lift it stands in their place.
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
      print_stop(out_, lifter_, asked().lift, plan_.cautions, plan_.remedies, about_, "block",
                 "--last-reserve", plan_.least_alone);
      if (!max_check_text(lifter_, unit()).empty()) return;
    } else {
      to_hear_first();
      weeks();
      how_to_go_on();
    }
    grounds();
    if (plan_.is_stopped()) {
      list_cautions(out_, plan_.cautions, "Before the first set", bw::CautionWeight::warn);
    }
    list_cautions(out_, plan_.cautions, "Keep in mind", bw::CautionWeight::note);
  }

 private:
  // -- pieces of text --

  [[nodiscard]] const bw::BlockRequest& asked() const { return plan_.request; }
  [[nodiscard]] bw::Unit unit() const { return about_.unit; }
  [[nodiscard]] std::string load(bw::Mass mass) const { return load_text(mass, unit()); }
  void title(std::string_view text) { text_page::title(out_, text); }
  void paragraph(std::string_view text, std::size_t indent = 2, std::size_t hanging = 2) {
    text_page::paragraph(out_, text, indent, hanging);
  }

  // -- sections --

  void heading() {
    const bw::BlockSettings& settings = asked().settings;
    if (!about_.lifter.empty()) out_ << about_.lifter << ": ";
    out_ << (about_.lifter.empty() ? "The " : "the ") << asked().lift.name();
    if (!about_.date_is_assumed)
      out_ << ", from " << bw::to_text(bw::weekday_of(asked().start)) << ' ' << asked().start;
    std::string text = count(settings.working_weeks, "working week") + " of " +
                       count(settings.sessions_a_week, "session");
    if (plan_.has_stage(bw::Stage::introduction)) text = "its introduction, then " + text;
    text += ", then a lighter week";
    if (settings.has_retest && !plan_.has_no_retest) text += " and a retest";
    out_ << '\n';
    paragraph(text, 0, 0);
  }

  /// What to see to, or to think over, before the first session.
  void to_hear_first() {
    if (const std::string text = max_check_text(lifter_, unit()); !text.empty()) {
      title("The stated max");
      paragraph(text);
    }
    print_doubts(out_, lifter_, about_);
    gap();
    print_recovery(out_, plan_.recovery, "the first session");
    spacing();
    list_cautions(out_, plan_.cautions, "Before the first set", bw::CautionWeight::warn);
    if (plan_.has_stage(bw::Stage::introduction)) list_requirements(out_, asked().lift);
  }

  void gap() {
    const int days = plan_.days_off.value_or(0);
    if (days <= lifter_.rules.recent_days && !plan_.comeback) return;
    title("A gap before the block");
    if (plan_.comeback) {
      paragraph(comeback_text(*plan_.comeback) +
                " The first sessions are lighter, with fewer sets and more left [assumption].");
    }
    paragraph("The last set of this lift or a variation of it was " + count(days, "day") +
              " before the first day. All else assumes training as before in the meantime; without "
              "it, plan anew after the first sessions.");
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
    const int sessions = std::max(7 * 24 / first.hours_wanted, 1);
    title("Too close to each other");
    paragraph(muscles + ": hard sessions of this block are " + std::to_string(first.hours) +
                  " hours apart; " + std::to_string(first.hours_wanted) + " are wanted" +
                  (first.after_failure ? " after failure [" : " [") +
                  std::string(bw::to_text(bw::spacing_source.evidence)) + "]",
              2, 4);
    paragraph("Take at most " + count(sessions, "session") + " a week, or leave " +
              number(bw::easy_reserve().count(), 1) + " or more in those between.");
  }

  /// Whether two steps differ in nothing but the session.
  [[nodiscard]] static bool are_alike(const bw::BlockStep& a, const bw::BlockStep& b) {
    return a.plan.week == b.plan.week && a.plan.stage == b.plan.stage &&
           a.plan.stage != bw::Stage::introduction && a.plan.reserve == b.plan.reserve &&
           a.loading == b.loading && a.limit == b.limit;
  }

  void weeks() {
    title("The weeks");
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
    line("week", "session", "", "load", "sets", "left", "likely", "missing", "each side");
    const auto& steps = steps_;
    for (std::size_t i = 0; i < steps.size();) {
      std::size_t last = i;
      while (last + 1 < steps.size() && are_alike(steps[last + 1], steps[i])) ++last;
      const bw::StepPlan& plan = steps[i].plan;
      const bool is_new_week = i == 0 || steps[i - 1].plan.week != plan.week;
      std::string sessions = std::to_string(plan.session);
      if (last > i) sessions += "-" + std::to_string(steps[last].plan.session);
      std::string part(bw::to_text(plan.stage));
      if (plan.stage == bw::Stage::introduction) part += " " + std::to_string(plan.exposure);
      line(is_new_week ? std::to_string(plan.week) : "", sessions, part,
           load(steps[i].loading.total()),
           std::to_string(plan.sets) + " x " + std::to_string(plan.reps.count()) +
               (plan.to_reserve ? "+" : ""),
           number(plan.reserve.count(), 1),
           plan.to_reserve ? "" : likely(plan_.sessions[i].reserve_left),
           chance(plan_.sessions[i].chance_of_missing), each_side(steps[i].loading));
      i = last + 1;
    }
    out_ << '\n';
    paragraph(
        "left: end every set with at least so many repetitions in reserve, whatever the plan says; "
        "likely: expected after the last set; missing: the chance that a repetition of the set "
        "likeliest to be missed does not go up" +
        (plan_.has_stage(bw::Stage::introduction)
             ? "; introduction 1: the first time the lift is done. Was it trained before" +
                   std::string(lifter_.stated_max ? "" : " the log began") +
                   "? Say how many sessions, as in --done 20"
             : "") +
        ".");
    limits();
    bound();
    wide_step();
    fall();
    retest();
  }

  [[nodiscard]] static std::string likely(double left) {
    return left > 10.0 ? "10+" : number(std::max(left, 0.0), 0);
  }

  [[nodiscard]] bw::Mass heaviest_work() const {
    bw::Mass heaviest{};
    for (const bw::BlockStep& step : steps_) {
      if (step.plan.stage != bw::Stage::working) continue;
      heaviest = std::max(heaviest, step.loading.total());
    }
    return heaviest;
  }
  /// The next loading of the room; nothing where there is none.
  [[nodiscard]] std::optional<bw::Loading> next_above(bw::Mass mass) const {
    return asked().room.at_least(mass * (1.0 + bw::detail::on_the_load));
  }
  /// "nothing between 62.5 kg and 90 kg"
  [[nodiscard]] std::string nothing_above(bw::Mass mass) const {
    const auto next = next_above(mass);
    return next ? "nothing between " + load(mass) + " and " + load(next->total())
                : "nothing heavier than the work";
  }

  /// Says that the chance of missing, not the reserve, decides, as loads then need not rise.
  void bound() {
    const auto& steps = steps_;
    std::vector<int> weeks;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const int week = steps[i].plan.week;
      if (plan_.sessions[i].limited_by == bw::LimitedBy::chance_of_missing &&
          steps[i].plan.stage == bw::Stage::working && (weeks.empty() || weeks.back() != week)) {
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
    paragraph("The bound on the chance of missing, " + percent(asked().max_chance_of_missing) +
              ", makes the load lighter than the reserve asked for would in " + text +
              ": there less in reserve need not mean more on the bar.");
  }

  /// Says that more is left because the room has no load in between.
  void wide_step() {
    const auto& steps = steps_;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const bw::Mass total = steps[i].loading.total();
      const auto next = next_above(total);
      if (steps[i].plan.stage != bw::Stage::working || steps[i].limit != bw::Limit::none || !next ||
          next->total() <= total * bw::detail::greatest_rise ||
          plan_.sessions[i].reserve_left < steps[i].plan.reserve.count() + 2.0) {
        continue;
      }
      paragraph("The room has " + nothing_above(total) +
                ", so more is left than asked for: do more repetitions, or find plates in "
                "between.");
      return;
    }
  }

  /// Says why a load goes down while no more is to be left, and what to do.
  void fall() {
    const auto& steps = steps_;
    const auto lower = std::find_if(steps.begin(), steps.end(), [](const bw::BlockStep& step) {
      return step.limit == bw::Limit::fall;
    });
    if (lower == steps.end()) return;
    const std::string week = std::to_string(lower->plan.week);
    paragraph("From week " + week +
              " the load falls: so far ahead little is known, and the heavier one would miss more "
              "often than asked. Plan again before week " +
              week + ".");
  }

  void retest() {
    if (plan_.has_no_retest) {
      paragraph("This room cannot load a retest: it has " + nothing_above(heaviest_work()) +
                ", and more than 12 repetitions say little about a max. It is left out.");
    } else if (steps_.back().plan.to_reserve) {
      const bw::StepPlan& last = steps_.back().plan;
      paragraph("The retest cannot be heavier than the work: do as many repetitions as leave " +
                number(last.reserve.count(), 1) + ", likely " +
                number(std::max(plan_.sessions.back().reserve_left + last.reps.count() -
                                    last.reserve.count(),
                                1.0),
                       0) +
                ".");
    }
    const bool is_full = std::any_of(steps_.begin(), steps_.end(), [&](const bw::BlockStep& step) {
      return step.plan.stage == bw::Stage::lighter && step.plan.reps < asked().settings.reps;
    });
    if (is_full) {
      paragraph("The room has nothing lighter for the lighter week: it halves the repetitions.");
    }
  }

  /// "the heaviest before it", and what that is where the log says.
  [[nodiscard]] std::string heaviest_before() const {
    std::string text = "the heaviest before it";
    if (plan_.last) {
      text += ", the log's last (" + load(plan_.last->top.load) + " on " + day(plan_.last->date) +
              ") included";
    }
    return text;
  }

  void limits() {
    const auto is_limited_by = [&](bw::Limit limit) {
      return std::any_of(steps_.begin(), steps_.end(),
                         [&](const bw::BlockStep& step) { return step.limit == limit; });
    };
    if (is_limited_by(bw::Limit::tenth)) {
      paragraph("More would be possible in some sessions, but no load is more than 10 % above " +
                heaviest_before() + ".");
    }
    if (is_limited_by(bw::Limit::plates)) {
      paragraph("Where the next loading of the room is more than 10 % above " + heaviest_before() +
                ", the load stays: add repetitions first, or find smaller plates.");
    }
    if (is_limited_by(bw::Limit::work)) {
      paragraph(
          "The introduction is lighter than it might be: no session is heavier than the work it "
          "leads to, nor likelier to miss than asked.");
    }
    if (is_limited_by(bw::Limit::room)) {
      paragraph("That is every plate listed; the target was heavier.");
    }
  }

  void how_to_go_on() {
    title("How to go on after a session");
    bool is_told[4] = {};
    const auto& steps = steps_;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const bw::BlockStep& step = steps[i];
      if (step.plan.stage == bw::Stage::introduction) {
        introduced(i);
        continue;
      }
      bool& told = is_told[static_cast<int>(step.plan.stage)];
      if (told) continue;
      told = true;
      conditions(std::string(bw::to_text(step.plan.stage)), step.conditions,
                 step.plan.stage == bw::Stage::working);
    }
    after_a_miss();
    paragraph(
        "Pain is not a missed repetition: stop the session, and have it looked at by somebody "
        "qualified before loading again.");
  }

  void introduced(std::size_t i) {
    const auto& steps = steps_;
    const auto is_same = [&](std::size_t other) {
      return steps[other].plan.stage == bw::Stage::introduction &&
             steps[other].conditions.go_on == steps[i].conditions.go_on;
    };
    if (i > 0 && is_same(i - 1)) return;  // told already
    std::size_t last = i;
    while (last + 1 < steps.size() && is_same(last + 1)) ++last;
    std::string who = "introduction " + std::to_string(steps[i].plan.exposure);
    if (last > i) who += " to " + std::to_string(steps[last].plan.exposure);
    paragraph(who + ": go on if " + std::string(steps[i].conditions.go_on) + "; step back if " +
                  std::string(steps[i].conditions.step_back) + ".",
              2, 4);
  }

  void conditions(const std::string& who, const bw::Conditions& conditions, bool is_working) {
    if (conditions.hold.empty()) {
      paragraph(who + ": " + std::string(conditions.go_on) + ".", 2, 4);
      return;
    }
    out_ << "  " << who << '\n';
    const auto told = [&](std::string_view when, std::string_view what) {
      paragraph(padded(when, 14) + std::string(what), 4, 18);
    };
    told("go on if", conditions.go_on);
    if (is_working) {
      told("add load if",
           "the last set leaves two repetitions or more beyond the plan, two "
           "sessions running: 2.5 %, or one step where that is more, never over "
           "10 % [" +
               standing(bw::two_for_two_source) + "]");
    }
    told("hold if", conditions.hold);
    told("step back if", std::string(conditions.step_back) + ": at least 5 % off");
  }

  void after_a_miss() {
    const auto last = std::find_if(steps_.rbegin(), steps_.rend(), [](const bw::BlockStep& step) {
      return step.plan.stage == bw::Stage::working;
    });
    const bw::Mass heaviest = last->loading.total();
    std::string text =
        "After a missed repetition: " +
        std::string(asked().lift.base().is_machine
                        ? "let the stops of the machine take the weight"
                        : "rack the bar, put it down, or let the spotter or the safeties take it") +
        ", and do no further set with that load today. ";
    if (const auto rest = bw::rest_of_session_after_miss(asked().room, heaviest)) {
      text += "The sets left are done at least 5 % lighter (after a miss at " + load(heaviest) +
              ": " + load(rest->total()) + ", " + percent(1.0 - rest->total() / heaviest, 0) +
              " less) or not at all. ";
    } else {
      text += "That was the last set: the room has nothing lighter. ";
    }
    paragraph(text + "Next time the same load again; missed again, at least 5 % off [" +
              standing(bw::step_back_source) + "].");
  }

  void grounds() {
    title("What the loads rest on");
    const std::string base(asked().lift.base().name);
    const bool is_stated = lifter_.stated_max.has_value();
    const std::string on_this_lift =
        std::string("n this lift") +
        (plan_.has_stage(bw::Stage::introduction) ? ", while it is new, " : " ");
    const std::string range =
        ": the likeliest, and the interval that holds it with a probability of 90 %.";
    const int sets = lifter_.learnt ? lifter_.learnt->sets_used : 0;
    if (is_stated) {
      paragraph("Max on the " + base + ": " + max_text(base_max(), unit()) + ", as stated." +
                (asked().lift.is_plain()
                     ? std::string()
                     : " O" + on_this_lift + "it may be " + max_text(plan_.max.interval(), unit()) +
                           " by the catalogue" +
                           (sets > 0 ? " and " + count(sets, "set") + " of the log" : "") + range));
    } else {
      paragraph("By " + count(sets, "set") + " of the log the max on the " + base + " is " +
                max_text(base_max(), unit()) +
                (asked().lift.is_plain()
                     ? std::string()
                     : ", and o" + on_this_lift + max_text(plan_.max.interval(), unit())) +
                range);
    }
    paragraph("All loads leave what the table says, and miss with a chance of at most " +
              percent(asked().max_chance_of_missing) + " as far as " +
              (is_stated ? "a stated max" : "the log") + " can tell. It is read by the curve of " +
              std::string(facts_.name) + " [" + standing(facts_.source) + "]" +
              (is_stated ? "." : ", stretched to fit the lifter."));
    const bool are_named_above = !plan_.is_stopped() && lifter_.doubts.has_few_sets_left;
    for (const bw::SuspectSet& suspect : lifter_.suspects) {
      if (are_named_above) break;
      paragraph("Left out, " + to_text(suspect, about_), 2, 4);
    }
    paragraph(
        "No gain is planned: where loads rise, it is because less is left in reserve. More has "
        "to be shown by sets. The order of the weeks is " +
        std::string(bw::to_text(bw::block_source.evidence)) + ".");
    if (plan_.has_stage(bw::Stage::retest)) {
      paragraph(
          "A retest is a set, not a max attempt; the curve reads a max off it. Two single "
          "tests less than " +
          percent(bw::retest_noise, 0) + " apart may differ by chance alone [" +
          standing(bw::retest_noise_source) + ": " + std::string(bw::retest_noise_source.citation) +
          "]; all sets together say more than a retest.");
    }
  }

  /// What the max on the base lift is taken to be.
  [[nodiscard]] bw::Range<bw::Mass> base_max() const {
    return lifter_.stated_max ? bw::Range<bw::Mass>::exactly(lifter_.stated_max->max)
                              : plan_.base_max.interval();
  }

  std::ostream& out_;
  const bw::Lifter& lifter_;
  const bw::BlockPlan& plan_;
  const std::vector<bw::BlockStep> steps_;
  const bw::EquationFacts& facts_;
  const About& about_;
};

}  // namespace report
