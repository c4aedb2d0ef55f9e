// barwright/plan/rules.hpp - every threshold of the planners in one place, with what it rests on
//
// A planner decides by numbers: after how many days off a load is taken lighter, by how much, what
// jump in a log is doubted. They stand here and nowhere else, each can be replaced, and each has
// its source or is called what it is: common practice or an assumption. `for_each_rule` visits them
// with their names, what they mean and the values they may have, so that a program can show them,
// read them from a file, or write them down beside a plan.
//
//     PlanningRules rules;
//     rules.layoff_days = 10;
//     check(rules);  // throws DomainError where a value is out of range
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <concepts>
#include <string_view>
#include <type_traits>

#include "barwright/core/error.hpp"
#include "barwright/core/source.hpp"
#include "barwright/training/alone.hpp"
#include "barwright/training/comeback.hpp"
#include "barwright/training/progression.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source attempts_source{
    .citation = "East Tennessee State University, thesis 9651",
    .population = "66 men and 43 women who made all nine attempts of a meet",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note = "abstract: the first attempt 91 % of the third, then 5 and 3 % more"};
inline constexpr Source lost_to_the_rules_source = assumption(
    "of openers in open meets that a model of this kind expected to miss with less than 1 %, 5 to "
    "8 % were missed (docs/real-lifters.md)");

/// Every threshold of the planners.
struct PlanningRules {
  // What a log says.
  int settled_after_days = 14;
  double most_counted_reserve = 4.5;
  int recent_days = 28;
  int stale_days = 84;
  double stated_max_deviation = 0.02;
  int days_to_outweigh_one = 3;
  double doubtful_jump = 0.20;
  double warm_up_below = 2.0 / 3.0;
  double unclear_step_kg = 2.5;
  double unclear_step = 0.025;
  double body_in_belt = 0.8;
  int doubtful_gap_days = 365;

  // What a load may be.
  double greatest_rise = 0.10;
  double step_up = 0.025;
  int rated_sessions = 3;
  int layoff_days = 14;
  double layoff_cut = 0.10;
  int long_layoff_days = 28;
  double long_layoff_cut = 0.20;
  double comeback_reserve = 4.0;
  double later_comeback_reserve = 3.0;
  double step_back_after_miss = 0.05;
  double alone_reserve = 2.0;
  double alone_reserve_when_new = 3.0;
  int alone_short_set = 8;
  int alone_longest_set = 12;
  int sessions_until_known = 4;
  int novice_sessions_until_known = 12;
  int novice_gain_days = 7;
  double close_first_reserve = 4.0;
  double close_later_reserve = 3.0;
  int close_sessions = 3;
  int most_longer_set = 3;
  double rounding_reserve = 0.5;
  double smallest_step = 0.01;
  double warm_up_plate_kg = 2.2;
  double warm_up_leeway = 0.02;
  double chance_alone = 0.05;
  double chance_caught = 0.15;
  double chance_for_each_rep = 0.015;
  double counts_as_work = 0.9;

  // What is not planned at all.
  int pain_days = 14;
  int unwell_days = 365;
  int most_plates_a_side = 12;
  int most_reps = 200;
  int most_hard_reps = 60;

  // What a session says of its lifter.
  double countable_reserve = 10.0;
  double most_telling_retest = 12.0;
  double open_retest_from = 2.0;
  double likely_miss = 0.20;

  // The first session of somebody of whom nothing is known.
  double first_step_upper_kg = 5.0;
  double first_step_lower_kg = 10.0;
  double first_greatest_step = 0.25;
  double first_most_upper_kg = 25.0;
  double first_most_lower_kg = 30.0;
  int first_steps = 6;
  int first_reps = 5;
  int first_sets = 3;
  double first_reserve = 4.0;
  double first_go_on_reserve = 10.0;

  // Attempts on test day.
  double opener_share = 0.92;
  double second_attempt_share = 0.97;
  double third_attempt_share = 1.00;
  double opener_chance = 0.97;
  double lost_to_the_rules = 0.06;

  // What a review says.
  double change_worth_speaking_of = 0.02;
  double fewest_weeks_of_level = 4.0;
  double foreseeable_weeks = 26.0;
  int review_weeks = 8;
  int shown_days = 112;
  int fewest_shown_days = 3;
  int fewest_trend_days = 4;

  /// What must be left where nothing would catch the bar.
  [[nodiscard]] constexpr AloneRule alone() const noexcept {
    return {alone_reserve, alone_reserve_when_new, alone_short_set, alone_longest_set};
  }
  /// The way back from a layoff.
  [[nodiscard]] constexpr ComebackRule comeback() const noexcept {
    return {layoff_days,     long_layoff_days, layoff_cut,
            long_layoff_cut, comeback_reserve, later_comeback_reserve};
  }
};

/// One rule, as it is shown: its name, what it means, and what it may be.
struct RuleFact {
  std::string_view name{};
  std::string_view meaning{};
  double least = 0.0;
  double most = 0.0;
  Source source{};
};

/// Calls `visit(fact, value)` for every rule, in their order. The value is an `int` or a `double`,
/// and can be changed where the rules can.
template <class Rules, class Visitor>
requires std::same_as<std::remove_const_t<Rules>, PlanningRules>
constexpr void for_each_rule(Rules& rules, Visitor&& visit) {
  visit(RuleFact{"settled_after_days",
                 "days after the first set of a lift in any form; a form that turns up later was "
                 "new to the lifter",
                 1, 365, assumption("what turns up sooner was most likely done before the log")},
        rules.settled_after_days);
  visit(
      RuleFact{"most_counted_reserve", "a rating above it means at least that many reps in reserve",
               1, 30, assumption("lifters with five or more in reserve write down 5")},
      rules.most_counted_reserve);
  visit(RuleFact{"recent_days", "days back that count as the last weeks", 7, 365,
                 assumption("four weeks")},
        rules.recent_days);
  visit(RuleFact{"stale_days", "days after the last set until a log says nothing of today", 14, 730,
                 assumption("strength fades slowly, but how slowly differs between lifters")},
        rules.stale_days);
  visit(RuleFact{"stated_max_deviation", "how sure a stated max is, as a share of it", 0.001, 0.5,
                 assumption("lifters who state a 1RM have lifted about that")},
        rules.stated_max_deviation);
  visit(RuleFact{"days_to_outweigh_one",
                 "days of other sets that tell which is right, for each day with a set left out", 1,
                 20, assumption("the sets of one day share a slip, so days are counted")},
        rules.days_to_outweigh_one);
  visit(RuleFact{"doubtful_jump",
                 "a last session this far above all before is more likely a typo than a gain", 0.05,
                 1.0, assumption("several times what a day's form moves a max")},
        rules.doubtful_jump);
  visit(RuleFact{"warm_up_below",
                 "unrated sets below this share of the heaviest are taken for warm-ups", 0.1, 0.95,
                 assumption("the ladder of a warm-up ends near 87 %, unrated sets are doubted")},
        rules.warm_up_below);
  visit(RuleFact{"unclear_step_kg",
                 "where it is not clear whether ratings are RPE, a load rises by so many kilograms "
                 "above the last day's heaviest",
                 0.0, 20.0, common_practice("the smallest step of most rooms")},
        rules.unclear_step_kg);
  visit(RuleFact{"unclear_step", "or by this share of it, where that is more", 0.0, 0.25,
                 common_practice("the smallest step of most programs")},
        rules.unclear_step);
  visit(RuleFact{"body_in_belt",
                 "where all that ever hung from the belt is this share of the moved body or more, "
                 "the body may be in it",
                 0.3, 2.0, assumption("few who log such lifts add as much as they weigh")},
        rules.body_in_belt);
  visit(RuleFact{"doubtful_gap_days",
                 "days between the last two days of a log beyond which the last is doubted", 30,
                 3650, assumption("a year typed wrongly is likelier than a year without a set")},
        rules.doubtful_gap_days);
  visit(RuleFact{"greatest_rise",
                 "a load asks for at most this much more than the last sessions showed", 0.02, 0.25,
                 progression_source},
        rules.greatest_rise);
  visit(RuleFact{"step_up", "the next load, as a share above today's", 0.02, 0.10,
                 progression_source},
        rules.step_up);
  visit(
      RuleFact{
          "rated_sessions",
          "the last sessions whose ratings, as said, a load goes no further beyond than a step", 1,
          20,
          assumption("what is left unsaid is learnt from easy sets, too, of which more "
                     "is left unsaid; a coach adds one step and looks again")},
      rules.rated_sessions);
  visit(RuleFact{"layoff_days", "days off after which it is a layoff and loads are lighter", 3, 365,
                 assumption("nothing is lost in two weeks that a day's form does not hide")},
        rules.layoff_days);
  visit(RuleFact{"layoff_cut", "and by how much, as a share, in the first week back", 0.0, 0.5,
                 assumption("one step of the usual size")},
        rules.layoff_cut);
  visit(RuleFact{"long_layoff_days", "days off that make a layoff a long one", 3, 365,
                 assumption("strength is lost the faster the longer it lasts (Bosquet 2013)")},
        rules.long_layoff_days);
  visit(RuleFact{"long_layoff_cut", "what then comes off, as a share, in the first week back", 0.0,
                 0.5, assumption("two steps of the usual size")},
        rules.long_layoff_cut);
  visit(RuleFact{"comeback_reserve", "least reps in reserve in the first week back", 0, 10,
                 assumption("an easy set; the number of sets is in training/comeback.hpp")},
        rules.comeback_reserve);
  visit(RuleFact{"later_comeback_reserve", "and in the weeks of the way back after it", 0, 10,
                 assumption("between an easy set and the usual one")},
        rules.later_comeback_reserve);
  visit(RuleFact{"step_back_after_miss", "what comes off for the sets after a missed one", 0.025,
                 0.10,
                 assumption("the handbooks take 2.5 to 10 % off after a failed trial of a max test "
                            "(Haff & Triplett 2016, from memory, unverified)")},
        rules.step_back_after_miss);
  visit(RuleFact{"alone_reserve", "reps to keep in reserve in short sets that nothing would catch",
                 0, 10, alone_source},
        rules.alone_reserve);
  visit(RuleFact{"alone_reserve_when_new", "and on a lift that is new", 0, 10, alone_source},
        rules.alone_reserve_when_new);
  visit(RuleFact{"alone_short_set",
                 "reps of such a set; each one beyond asks for one more in reserve", 1, 30,
                 alone_source},
        rules.alone_short_set);
  visit(RuleFact{"alone_longest_set", "reps beyond which such a set is not done", 1, 100,
                 alone_source},
        rules.alone_longest_set);
  visit(RuleFact{"sessions_until_known", "sessions of a lift before a max attempt on it", 1, 50,
                 assumption(
                     "lifts improve 5 to 10 % over the first three or four tests from "
                     "practice alone (Ritti-Dias 2011, Soares-Caldeira 2009; abstracts read)")},
        rules.sessions_until_known);
  visit(RuleFact{"novice_sessions_until_known", "and of a beginner", 1, 100,
                 assumption("handbooks keep max tests for lifters who have trained for some months "
                            "(Haff & Triplett 2016, from memory, unverified)")},
        rules.novice_sessions_until_known);
  visit(RuleFact{"novice_gain_days",
                 "days after a beginner's last session for which gains are counted; after a longer "
                 "gap a beginner is read like anybody where that is lighter",
                 1, 60, assumption("a beginner's gain is some per cent a week, by sessions")},
        rules.novice_gain_days);
  visit(RuleFact{"close_first_reserve",
                 "least reps in reserve the first time a known lift is done with a pause, a slow "
                 "lowering or another grip",
                 0, 10, common_practice("how it feels is still to be learnt, the lift is not")},
        rules.close_first_reserve);
  visit(RuleFact{"close_later_reserve", "and in the sessions after it", 0, 10,
                 common_practice("between the first time and the usual")},
        rules.close_later_reserve);
  visit(RuleFact{"close_sessions", "sessions of such a lift that leave more, the first included", 1,
                 20, common_practice("as the learning sessions of a lift that is new")},
        rules.close_sessions);
  visit(RuleFact{"most_longer_set",
                 "reps by which a set of the last session may be longer and still tell of today's",
                 0, 30, assumption("a long set says little of a short one")},
        rules.most_longer_set);
  visit(RuleFact{"rounding_reserve", "reps in reserve that rounding up to the next load may cost",
                 0.0, 2.0, common_practice("0.2 kg is not worth a plate")},
        rules.rounding_reserve);
  visit(RuleFact{"smallest_step",
                 "plates of which a pair adds less than this share of the load are not used", 0.0,
                 0.1, common_practice("nobody puts a half-kilogram plate on a hundred kilograms")},
        rules.smallest_step);
  visit(RuleFact{"warm_up_plate_kg",
                 "plates lighter than that, in kilograms, are not used in "
                 "warm-ups",
                 0.0, 25.0,
                 common_practice("small plates are for the work load; a plate of 5 lb counts")},
        rules.warm_up_plate_kg);
  visit(RuleFact{"warm_up_leeway",
                 "how far a warm-up may be from its step for the sake of fewer plates, as a share "
                 "of the work load",
                 0.0, 0.1, common_practice("a warm-up is only about right in any case")},
        rules.warm_up_leeway);
  visit(RuleFact{"chance_alone",
                 "the bound on a miss where none is asked for and nothing would catch it", 0.001,
                 0.5, assumption("one set in twenty")},
        rules.chance_alone);
  visit(
      RuleFact{"chance_caught", "the same where a spotter or checked safeties would catch it",
               0.001, 0.5,
               assumption("of sets so bounded people missed two thirds of what was expected "
                          "(docs/real-lifters.md); a lower bound holds back whoever wants two left "
                          "(docs/progression-comparison.md)")},
      rules.chance_caught);
  visit(RuleFact{"chance_for_each_rep", "and in long sets so much for each rep, where that is more",
                 0.0, 0.03,
                 assumption("what is left in a long set is known the less the longer it is")},
        rules.chance_for_each_rep);
  visit(RuleFact{"counts_as_work",
                 "a set done today counts as one of the work sets from this share of their load",
                 0.5, 1.0, assumption("a warm-up ends at about nine tenths of the work")},
        rules.counts_as_work);
  visit(RuleFact{"pain_days",
                 "days from a note of pain to the last day trained, within which it stops the lift",
                 1, 365, assumption("common sense; no load is worth an injury")},
        rules.pain_days);
  visit(RuleFact{"unwell_days",
                 "days back in which a note of dizziness, chest pain and the like is asked about",
                 1, 3650, assumption("time alone is no answer to such a sign")},
        rules.unwell_days);
  visit(RuleFact{"most_plates_a_side", "plates a side above which the figures are doubted", 4, 32,
                 assumption("a sleeve of 415 mm holds about so many of the usual width")},
        rules.most_plates_a_side);
  visit(RuleFact{"most_reps", "reps in one session above which it is doubted", 50, 2000,
                 assumption("far above any session of a handbook")},
        rules.most_reps);
  visit(RuleFact{"most_hard_reps", "reps to failure in one session above which it is doubted", 10,
                 1000, assumption("muscle breaks down after unaccustomed volume to failure")},
        rules.most_hard_reps);
  visit(RuleFact{"countable_reserve",
                 "reps in reserve above which neither lifters nor equations can tell", 3, 30,
                 assumption("ratings beyond seven left are off by 2.5 and more")},
        rules.countable_reserve);
  visit(
      RuleFact{"most_telling_retest",
               "reps to failure beyond which a retest says little about a 1RM", 5, 30,
               assumption("beyond, ratings are off by 3 and more (Halperin 2022, abstract read)")},
      rules.most_telling_retest);
  visit(RuleFact{"open_retest_from",
                 "a retest that leaves so many more than it is to goes on until that is left", 1,
                 10, assumption("two reps are as much as a rating errs by")},
        rules.open_retest_from);
  visit(RuleFact{"likely_miss", "a set likelier than this to be missed brings a caution", 0.01, 1.0,
                 assumption("one set in five is no surprise any more")},
        rules.likely_miss);
  visit(RuleFact{"first_step_upper_kg",
                 "a step up in a beginner's first session of an upper-body lift, in kilograms", 0.5,
                 20.0, common_practice("5 kg for the upper body, 10 for the legs")},
        rules.first_step_upper_kg);
  visit(RuleFact{"first_step_lower_kg", "and of a lower-body lift", 0.5, 40.0,
                 common_practice("5 kg for the upper body, 10 for the legs")},
        rules.first_step_lower_kg);
  visit(RuleFact{"first_greatest_step", "and at most, as a share of the load before it", 0.05, 0.5,
                 assumption("whoever has ten left after five still has one left a quarter higher, "
                            "by the published curves")},
        rules.first_greatest_step);
  visit(
      RuleFact{"first_most_upper_kg",
               "a first session of an upper-body lift starts no heavier, in kilograms", 1.0, 100.0,
               common_practice("a usual bar weighs 15 to 20 kg; with competition collars 25")},
      rules.first_most_upper_kg);
  visit(RuleFact{"first_most_lower_kg", "and of a lower-body lift", 1.0, 200.0,
                 common_practice("a squat bar with collars, or a bar to stand in, weighs 30 kg")},
        rules.first_most_lower_kg);
  visit(RuleFact{"first_steps", "loads that such a session may go up by, the first included", 1, 12,
                 common_practice("a first day is for learning, not for finding a limit")},
        rules.first_steps);
  visit(RuleFact{"first_reps", "reps in each of its sets", 1, 12,
                 common_practice("few enough that each can be watched")},
        rules.first_reps);
  visit(RuleFact{"first_sets", "sets with the load that was found, that one included", 1, 10,
                 common_practice("as many as a usual session has")},
        rules.first_sets);
  visit(RuleFact{"first_reserve", "least reps in reserve in each of them", 0, 15,
                 assumption("as in the first sessions of a lift that is new")},
        rules.first_reserve);
  visit(RuleFact{"first_go_on_reserve", "reps in reserve from which on the next step is taken", 1,
                 30, assumption("see the greatest step; beginners have more left than they say")},
        rules.first_go_on_reserve);
  visit(RuleFact{"opener_share", "a first attempt, at most, as a share of the likeliest max", 0.7,
                 1.0, attempts_source},
        rules.opener_share);
  visit(RuleFact{"second_attempt_share", "the second", 0.7, 1.1, attempts_source},
        rules.second_attempt_share);
  visit(RuleFact{"third_attempt_share", "the third", 0.7, 1.1,
                 assumption("what goes up on every second such day")},
        rules.third_attempt_share);
  visit(RuleFact{"opener_chance",
                 "least chance that strength is enough for the opener, else it is lighter", 0.5,
                 0.999, common_practice("an opener is what goes up on any day")},
        rules.opener_chance);
  visit(RuleFact{"lost_to_the_rules",
                 "what referees and technique take of attempts that strength would not miss", 0.0,
                 0.5, lost_to_the_rules_source},
        rules.lost_to_the_rules);
  visit(RuleFact{"change_worth_speaking_of", "a smaller change of the 1RM is no meaningful change",
                 0.001, 0.2, assumption("less than a day's form")},
        rules.change_worth_speaking_of);
  visit(RuleFact{"fewest_weeks_of_level",
                 "weeks before a small change shows that a lift stayed level", 1, 52,
                 assumption("in fewer the model expects no more than that of anybody")},
        rules.fewest_weeks_of_level);
  visit(RuleFact{"foreseeable_weeks", "weeks ahead for which a review says when it will be clear",
                 1, 104, assumption("half a year; nobody trains the same for longer")},
        rules.foreseeable_weeks);
  visit(RuleFact{"review_weeks", "weeks back that a review of a plain lift looks at", 2, 104,
                 common_practice("a block or two")},
        rules.review_weeks);
  visit(RuleFact{"shown_days", "days back that a small chart of a 1RM shows", 14, 730,
                 common_practice("four blocks of four weeks")},
        rules.shown_days);
  visit(RuleFact{"fewest_shown_days", "days of training without which there is no such chart", 2,
                 50, assumption("two points are no course")},
        rules.fewest_shown_days);
  visit(
      RuleFact{"fewest_trend_days", "training days of a lift before anything is said of its trend",
               2, 100, assumption("of fewer the model says what it would of anybody")},
      rules.fewest_trend_days);
}

/// @throws DomainError for the first rule that is out of its range.
void check(const PlanningRules& rules);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/rules.ipp"
#endif
