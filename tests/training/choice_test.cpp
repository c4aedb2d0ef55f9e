// tests/choice_test.cpp - which variation answers what is wanted, and when the plain lift does
//
// What speaks for a variation is common practice, no source, unless a source stands beside it; how
// much each reason weighs is this library's assumption.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/training/choice.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

using namespace barwright;

namespace {

const Lift feet_up = lifts::bench_press + modifiers::feet_up;
const Lift flat_back = lifts::bench_press + modifiers::flat_back;
const Lift close_grip = lifts::bench_press + modifiers::close_grip;
const Lift wedged = lifts::bench_press + modifiers::wedged_incline;

const Choice& choice_of(const std::vector<Choice>& ranking, const Lift& lift) {
  const auto found = std::find_if(ranking.begin(), ranking.end(),
                                  [&](const Choice& choice) { return choice.lift == lift; });
  REQUIRE(found != ranking.end());
  return *found;
}

std::ptrdiff_t place_of(const std::vector<Choice>& ranking, const Lift& lift) {
  return &choice_of(ranking, lift) - ranking.data();
}

const Reason* reason_with(const Choice& choice, std::string_view words) {
  for (const Reason& reason : choice.reasons) {
    if (reason.text.view().find(words) != std::string_view::npos) return &reason;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("without a reason to change, the plain lift is the better answer") {
  for (const Lift& base : {Lift(lifts::bench_press), Lift(lifts::squat), Lift(lifts::deadlift),
                           Lift(lifts::overhead_press), Lift(lifts::barbell_row)}) {
    const auto ranking = rank_variations(base, {});
    CHECK(ranking.front().is_original);
    CHECK(ranking.front().lift == base);
    CHECK(reason_with(ranking.front(), "the better answer"));
  }
  // Nor does the catalogue know a squat that spares the lower back, or helps a lockout.
  CHECK(rank_variations(lifts::squat, {.goal = Goal::spare_lower_back}).front().is_original);
  CHECK(rank_variations(lifts::squat, {.goal = Goal::lockout_strength}).front().is_original);
}

TEST_CASE("every variation is ranked once, with reasons that say what they rest on") {
  const std::array sore{MuscleGroup::lower_back, MuscleGroup::chest};
  for (const Goal goal : {Goal::muscle, Goal::lockout_strength, Goal::spare_lower_back,
                          Goal::keep_upper_and_lower_apart}) {
    for (const BaseLift& base : catalogue::lifts()) {
      const auto ranking =
          rank_variations(base, {.goal = goal, .target = MuscleGroup::triceps, .sore = sore});
      const auto variations =
          std::count_if(catalogue::modifiers().begin(), catalogue::modifiers().end(),
                        [&](const Modifier& modifier) { return modifier.applies_to(base); });
      CHECK(static_cast<long>(ranking.size()) == variations + 1);
      for (std::size_t i = 0; i < ranking.size(); ++i) {
        const Choice& choice = ranking[i];
        CHECK(!choice.reasons.empty());
        int points = 0;
        for (const Reason& reason : choice.reasons) {
          points += reason.points;
          CHECK(!reason.text.view().empty());
          // Published reasons name their study; the others are practice or assumption.
          CHECK((reason.source.citation.empty() ==
                 (reason.source.evidence == Evidence::common_practice ||
                  reason.source.evidence == Evidence::assumption)));
        }
        CHECK(points == choice.points);
        for (std::size_t j = 0; j < i; ++j) CHECK(ranking[j].lift != choice.lift);
        if (i > 0) CHECK((ranking[i - 1].is_ready || !choice.is_ready));
        if (i > 0 && ranking[i - 1].is_ready == choice.is_ready) {
          CHECK(ranking[i - 1].points >= choice.points);
        }
      }
    }
  }
}

TEST_CASE("only what asks more or less of the lower back is said to") {
  int less = 0;
  int alike = 0;
  for (const BaseLift& base : catalogue::lifts()) {
    const auto plain = Lift(base).muscles()[MuscleGroup::lower_back];
    for (const Choice& choice : rank_variations(base, {.goal = Goal::spare_lower_back})) {
      const auto changed = choice.lift.muscles()[MuscleGroup::lower_back];
      CHECK((reason_with(choice, "asks less of the lower back") != nullptr) == (changed < plain));
      CHECK((reason_with(choice, "asks more of the lower back") != nullptr) == (changed > plain));
      less += changed < plain;
      alike += changed == plain;
    }
  }
  CHECK(less > 0);
  CHECK(alike > 0);
}

TEST_CASE("sparing the lower back, feet-up pressing comes first") {
  // "Asks less of lower back and hips than pressing with leg drive": common practice, no source.
  const auto ranking = rank_variations(lifts::bench_press, {.goal = Goal::spare_lower_back});
  CHECK(ranking.front().lift == feet_up);
  const Reason* spares = reason_with(ranking.front(), "asks less of the lower back");
  REQUIRE(spares);
  CHECK(spares->source.evidence == Evidence::common_practice);
  // What the hip flexors do was left open by Muyor 2019 (abstract read).
  const Reason* open = reason_with(ranking.front(), "hip flexors");
  REQUIRE(open);
  CHECK(open->source.evidence == Evidence::published);
  CHECK(open->points == 0);
  // The wedged incline spares it as much and costs more load.
  CHECK(choice_of(ranking, wedged).points == ranking.front().points);
  CHECK(ranking.front().load_ratio == modifiers::feet_up.ratio_figure().value);

  const auto deadlifts = rank_variations(lifts::deadlift, {.goal = Goal::spare_lower_back});
  CHECK(deadlifts.front().lift == lifts::deadlift + modifiers::high_handles);
  CHECK(deadlifts[1].lift == lifts::deadlift + modifiers::hexagonal_bar);
  CHECK(deadlifts[2].is_original);
}

TEST_CASE("keeping upper and lower body apart, presses without leg drive and seated ones lead") {
  // Common practice, no source; counted through shared muscles by this library.
  const auto bench =
      rank_variations(lifts::bench_press, {.goal = Goal::keep_upper_and_lower_apart});
  CHECK(bench.front().lift == feet_up);
  CHECK(place_of(bench, wedged) < place_of(bench, lifts::bench_press));
  CHECK(reason_with(bench.front(), "beside a set each of squat, shares less by 1 of a set"));
  const auto overhead =
      rank_variations(lifts::overhead_press, {.goal = Goal::keep_upper_and_lower_apart});
  CHECK(overhead.front().lift == lifts::overhead_press + modifiers::seated);

  // Beside curls for the legs alone there is nothing to keep apart.
  const std::array<Lift, 1> curls{lifts::leg_curl};
  CHECK(rank_variations(lifts::bench_press,
                        {.goal = Goal::keep_upper_and_lower_apart, .other_day = curls})
            .front()
            .is_original);
}

TEST_CASE("for the lockout, close grip and partial presses lead") {
  const auto ranking = rank_variations(lifts::bench_press, {.goal = Goal::lockout_strength});
  CHECK(place_of(ranking, close_grip) < place_of(ranking, lifts::bench_press));
  CHECK(place_of(ranking, lifts::bench_press + modifiers::partial_range) <
        place_of(ranking, lifts::bench_press));
  // The loss feet-up shows at lockout, but that alone does not outweigh learning it ...
  CHECK(place_of(ranking, feet_up) > place_of(ranking, lifts::bench_press));
  // ... and does for who knows it already.
  const std::array<Lift, 1> known{feet_up};
  const auto for_knower =
      rank_variations(lifts::bench_press, {.goal = Goal::lockout_strength, .can_do = known});
  CHECK(place_of(for_knower, feet_up) < place_of(for_knower, lifts::bench_press));
}

TEST_CASE("for a muscle, what works it directly counts double") {
  // Pelland et al. 2024, preprint, abstract read.
  const auto triceps = rank_variations(lifts::bench_press, {.target = MuscleGroup::triceps});
  CHECK(triceps.front().lift == close_grip);
  const Reason* counts =
      reason_with(triceps.front(), "a set counts 1 for the triceps, against 0.5");
  REQUIRE(counts);
  CHECK(counts->source.citation.find("Pelland") != std::string_view::npos);
  const auto shoulders =
      rank_variations(lifts::bench_press, {.target = MuscleGroup::front_shoulders});
  CHECK(shoulders.front().lift == lifts::bench_press + modifiers::incline);
  CHECK(choice_of(shoulders, lifts::bench_press + modifiers::decline).points < 0);
  CHECK(rank_variations(lifts::deadlift, {.target = MuscleGroup::quadriceps})[3].is_original);
  // What has been measured without effect on growth is said and counts nothing.
  const auto chest = rank_variations(lifts::bench_press, {.target = MuscleGroup::chest});
  for (const std::string_view words : {"more active feet-up", "gained the same in five weeks"}) {
    const Reason* said = reason_with(choice_of(chest, feet_up), words);
    REQUIRE(said);
    CHECK(said->points == 0);
  }
}

TEST_CASE("a flat back is for arms that stop level with the bench, and after push-ups and dips") {
  // All common practice, no source.
  const std::array<Lift, 2> prepared{lifts::push_up, lifts::dip};
  const auto ranking = [&](UpperArmAtChest arm, std::span<const Lift> can_do) {
    return rank_variations(lifts::bench_press, {.upper_arm = arm, .can_do = can_do});
  };
  for (const auto arm : {UpperArmAtChest::level_with_bench, UpperArmAtChest::just_above_bench}) {
    const auto good = ranking(arm, prepared);
    CHECK(good.front().lift == flat_back);
    CHECK(reason_with(good.front(), "adds depth"));

    const auto unprepared = ranking(arm, {});
    CHECK(unprepared.front().is_original);
    CHECK(unprepared.back().lift == flat_back);
    CHECK(!unprepared.back().is_ready);
    CHECK(reason_with(unprepared.back(), "push-ups and dips first"));
    CHECK(!choice_of(ranking(arm, std::span(prepared).first(1)), flat_back).is_ready);
  }
  // Very long arms gain little, and for high elbows nothing is known.
  const auto long_arms = ranking(UpperArmAtChest::below_bench, prepared);
  CHECK(long_arms.front().is_original);
  const Reason* little = reason_with(choice_of(long_arms, flat_back), "adds little");
  REQUIRE(little);
  CHECK(little->points == (little->source.evidence == Evidence::assumption ? 0 : -1));
  CHECK(ranking(UpperArmAtChest::well_above_bench, prepared).front().is_original);
  // Where the arm gains depth it counts most for whoever trains for muscle.
  const auto points_for = [&](Goal goal) {
    const auto choices = rank_variations(
        lifts::bench_press,
        {.goal = goal, .upper_arm = UpperArmAtChest::level_with_bench, .can_do = prepared});
    const Reason* depth = reason_with(choice_of(choices, flat_back), "adds depth");
    REQUIRE(depth);
    return depth->points;
  };
  CHECK(points_for(Goal::muscle) == 2);
  CHECK(points_for(Goal::lockout_strength) == 1);
  // Whoever presses flat-backed already is past the push-ups.
  const std::array<Lift, 1> knows{flat_back};
  CHECK(ranking(UpperArmAtChest::level_with_bench, knows).front().lift == flat_back);
  CHECK(reason_with(choice_of(rank_variations(lifts::bench_press, {}), flat_back), "look where"));
}

TEST_CASE("what is new must be worth learning") {
  // Maxes rise 10 % in four sessions from practice alone (Ritti-Dias 2011, abstract read).
  const auto ranking = rank_variations(lifts::bench_press, {});
  const Reason* learning = reason_with(choice_of(ranking, close_grip), "new");
  REQUIRE(learning);
  CHECK(learning->points < 0);
  CHECK(learning->source.evidence == Evidence::published);
  // Why is said once.
  const auto says_why = [](const Choice& choice) { return reason_with(choice, "learning it"); };
  CHECK(std::count_if(ranking.begin(), ranking.end(), says_why) == 1);
  CHECK(says_why(choice_of(ranking, lifts::bench_press)));
  const std::array<Lift, 1> known{close_grip};
  CHECK(!reason_with(choice_of(rank_variations(lifts::bench_press, {.can_do = known}), close_grip),
                     "new"));
  // Where nothing is new there is nothing to explain.
  std::vector<Lift> all;
  for (const Choice& choice : ranking) all.push_back(choice.lift);
  const auto familiar = rank_variations(lifts::bench_press, {.can_do = all});
  CHECK(std::count_if(familiar.begin(), familiar.end(), says_why) == 0);
}

TEST_CASE("what is sore is spared, and said so where it cannot be") {
  const std::array back{MuscleGroup::lower_back};
  const auto spared = rank_variations(lifts::bench_press, {.sore = back});
  CHECK(spared.front().lift == feet_up);
  const std::array front{MuscleGroup::front_shoulders};
  const auto shoulders = rank_variations(lifts::bench_press, {.sore = front});
  CHECK(shoulders.front().lift == lifts::bench_press + modifiers::decline);
  // An incline asks more of them, and is new besides.
  CHECK(choice_of(shoulders, lifts::bench_press + modifiers::incline).points == -3);
  const std::array chest{MuscleGroup::chest};
  for (const Choice& choice : rank_variations(lifts::bench_press, {.sore = chest})) {
    CHECK(reason_with(choice, "works what is sore directly: chest"));
  }
}

TEST_CASE("balls and cushions are nobody's answer") {
  for (const Goal goal : {Goal::muscle, Goal::lockout_strength, Goal::spare_lower_back,
                          Goal::keep_upper_and_lower_apart}) {
    const auto ranking = rank_variations(lifts::bench_press, {.goal = goal});
    for (const Modifier* modifier : {&modifiers::exercise_ball, &modifiers::balance_cushion}) {
      CHECK(place_of(ranking, lifts::bench_press + *modifier) >
            place_of(ranking, lifts::bench_press));
    }
  }
}

TEST_CASE("a variation can be asked about too, and a modifier of one's own ranked") {
  const auto ranking = rank_variations(feet_up, {.goal = Goal::spare_lower_back});
  CHECK(ranking.front().lift == feet_up);  // there is nothing left to spare
  CHECK(choice_of(ranking, feet_up + modifiers::close_grip).load_ratio ==
        modifiers::close_grip.ratio_figure().value);
  const Modifier chair = Modifier("chair", "on a chair", {0.8, 0.9, 1.0})
                             .with_muscles(MuscleShift::of({}, {MuscleGroup::lower_back}));
  const std::array own{&chair};
  const auto owned = rank_variations(lifts::overhead_press, {.goal = Goal::spare_lower_back}, own);
  CHECK(owned.size() == 2);
  CHECK(owned.front().lift == lifts::overhead_press + chair);
}

TEST_CASE("an arm length that changes nothing says so") {
  const auto says = [](const std::vector<Choice>& ranking) {
    const auto plain = std::find_if(ranking.begin(), ranking.end(),
                                    [](const Choice& choice) { return choice.is_original; });
    const Reason* reason = reason_with(*plain, "your arm length changes nothing here");
    return reason == nullptr ? std::string() : std::string(reason->text.view());
  };
  // Common practice speaks of arms level with the bench or below it, and of no lift but the press.
  CHECK(says(rank_variations(lifts::bench_press, {.upper_arm = UpperArmAtChest::well_above_bench}))
            .find("nothing is known") != std::string::npos);
  CHECK(says(rank_variations(lifts::squat, {.upper_arm = UpperArmAtChest::level_with_bench}))
            .find("none is among the variations") != std::string::npos);
  CHECK(says(rank_variations(lifts::bench_press, {.upper_arm = UpperArmAtChest::below_bench}))
            .empty());
  CHECK(says(rank_variations(lifts::bench_press, {})).empty());
}

TEST_CASE("no single reason counts more than two points") {
  int most = 0;
  for (const Goal goal : {Goal::muscle, Goal::lockout_strength, Goal::spare_lower_back,
                          Goal::keep_upper_and_lower_apart}) {
    for (const BaseLift* base : {&lifts::bench_press, &lifts::squat, &lifts::deadlift}) {
      for (const Choice& choice : rank_variations(*base, {.goal = goal})) {
        for (const Reason& reason : choice.reasons) most = std::max(most, std::abs(reason.points));
      }
    }
    for (const MuscleGroup target : all_muscle_groups) {
      for (const Choice& choice :
           rank_variations(lifts::bench_press, {.goal = goal, .target = target})) {
        for (const Reason& reason : choice.reasons) most = std::max(most, std::abs(reason.points));
      }
    }
  }
  CHECK(most == 2);
}

TEST_CASE("where points are equal, the load kept decides and is shown") {
  const auto ranking = rank_variations(lifts::bench_press, {.goal = Goal::spare_lower_back});
  // Feet up (92.5 %) and the wedged incline (83.6 %), both common practice, spare the back equally.
  const Reason* load = reason_with(ranking.front(), "keeps the most load: 92.5 %");
  REQUIRE(load);
  CHECK(load->points == 0);
  CHECK(!reason_with(choice_of(ranking, wedged), "keeps the most load"));
  CHECK(reason_with(ranking.front(), "the next 83.6 %"));
  // As many are equal as it says; the original lift, which wins ties, is not among them.
  for (const Goal goal : {Goal::muscle, Goal::lockout_strength, Goal::spare_lower_back,
                          Goal::keep_upper_and_lower_apart}) {
    const auto choices = rank_variations(lifts::bench_press, {.goal = goal});
    for (std::size_t i = 0; i < choices.size(); ++i) {
      const Reason* reason = reason_with(choices[i], "with as many points");
      if (!reason) continue;
      const auto equal = std::count_if(choices.begin(), choices.end(), [&](const Choice& other) {
        return !other.is_original && other.is_ready == choices[i].is_ready &&
               other.points == choices[i].points;
      });
      const double next = 100.0 * choices[i + 1].load_ratio.typical;
      CHECK(reason_with(choices[i],
                        Text{}.append("the next ").append_rounded(next, 1).append(" %").str()));
      // Shares of loads in tenths of a per cent at most.
      const std::string_view text = reason->text.view();
      for (std::size_t at = text.find('.'); at != text.npos; at = text.find('.', at + 1)) {
        CHECK(text.substr(at + 2, 2) == " %");
      }
      CHECK(reason->text.view().find("first of " + std::to_string(equal) + " with") == 0);
    }
  }
}

TEST_CASE("a partial press says what it is done with") {
  const auto ranking = rank_variations(lifts::bench_press, {.goal = Goal::lockout_strength});
  const Choice& partial = choice_of(ranking, lifts::bench_press + modifiers::partial_range);
  const Reason* needs = reason_with(partial, "Rack pins");
  REQUIRE(needs);
  CHECK(needs->points == 0);
  CHECK(needs->source.evidence == Evidence::common_practice);
  CHECK(partial.lift.requirements().size() == 1);
}

TEST_CASE("the example at the top of choice.hpp answers as it says") {
  std::string shown;
  const auto show = [&](const Text& text, int = 0, const Source& = {}) {
    shown.append(text.view()).append("; ");
  };
  const std::array can_do{Lift(lifts::push_up), Lift(lifts::dip)};
  const auto choices =
      rank_variations(lifts::bench_press, {.goal = Goal::spare_lower_back, .can_do = can_do});
  const Choice& best = choices.front();
  show(best.lift.name());  // bench press, flat back
  for (const Reason& reason : best.reasons) show(reason.text, reason.points, reason.source);
  CHECK(shown.find("bench press, flat back; asks less of the lower back; ") == 0);
}
