// barwright/training/choice.hpp - which variation of a lift answers what is wanted, and when none
// does
//
// Every variation of a lift that the catalogue knows, and the original lift, get reasons for and
// against: what is wanted of them, how the lifter is built, what the lifter can already do, what is
// sore. Each reason carries its evidence and some points, and the points rank them. What a reason
// says may be published; what it weighs is this library's assumption, so read the reasons and not
// the sum.
//
//     const std::array can_do{Lift(lifts::push_up), Lift(lifts::dip)};
//     const auto choices = rank_variations(lifts::bench_press,
//                                          {.goal = Goal::spare_lower_back, .can_do = can_do});
//     const Choice& best = choices.front();
//     show(best.lift.name());  // bench press, flat back
//     for (const Reason& reason : best.reasons) show(reason.text, reason.points, reason.source);
//
// A variation that is new is being learnt for its first three or four sessions, which weighs
// against it. The original lift comes first wherever nothing weighs more than that. What concerns
// several variations is said once, among the reasons of the original lift.
//
// Here a muscle that braces a press counts as one that helps (one half), unlike in the sets and the
// overlap of a week: to spare it, or to keep it for another day, is what is asked.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/learning_gain.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/swaps.hpp"
#include "barwright/training/volume.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Where the upper arm is when the bar touches the chest, seen from the side on a flat bench.
enum class UpperArmAtChest : unsigned char {
  well_above_bench,  ///< short arms or a deep chest: the press is short
  just_above_bench,
  level_with_bench,
  below_bench,  ///< very long arms: the press is deep already
};

/// What a lifter built like this may expect of pressing with a flat back.
struct ExpectedGain {
  bool is_likely = false;
  std::string_view why{};
  Source source{};
};

/// Whether a flat back, without shoulder-blade retraction, is likely to pay off.
[[nodiscard]] constexpr ExpectedGain gain_from_flat_back(UpperArmAtChest where) noexcept {
  const Source practice = common_practice("pressing without retraction");
  switch (where) {
    case UpperArmAtChest::just_above_bench:
    case UpperArmAtChest::level_with_bench:
      return {true,
              "the upper arm stops level with the bench or just above it: a flat back adds depth",
              practice};
    case UpperArmAtChest::below_bench:
      return {false, "very long arms: the press is deep already, a flat back adds little",
              practice};
    case UpperArmAtChest::well_above_bench: break;
  }
  return {false, "nothing is known for arms that stop well above the bench; try it light and see",
          assumption("common practice does not speak of this case")};
}

/// What a variation is wanted for.
enum class Goal : unsigned char {
  muscle,                      ///< more of it; `ChoiceFacts::target` may say which
  lockout_strength,            ///< the end of the press, where the arms straighten
  spare_lower_back,            ///< ask less of the lower back
  keep_upper_and_lower_apart,  ///< share less with the day for the other half of the body
};

[[nodiscard]] constexpr std::string_view to_text(Goal goal) noexcept {
  switch (goal) {
    case Goal::muscle: return "muscle";
    case Goal::lockout_strength: return "lockout strength";
    case Goal::spare_lower_back: return "sparing the lower back";
    case Goal::keep_upper_and_lower_apart: return "keeping upper and lower body apart";
  }
  return "";
}

/// What is known of the lifter and the purpose. What is not known is left out.
struct ChoiceFacts {
  Goal goal = Goal::muscle;
  std::optional<MuscleGroup> target{};         ///< the muscle that is to grow
  std::optional<UpperArmAtChest> upper_arm{};  ///< with the bar at the chest, on a flat bench
  std::span<const Lift> can_do{};              ///< lifts and variations the lifter does well
  std::span<const MuscleGroup> sore{};         ///< sore from training; pain is another matter
  /// The lifts of the nearest day for the other half of the body; by default the squat for an
  /// upper-body lift and the bench press for a lower-body one.
  std::span<const Lift> other_day{};
};

/// One reason for a variation (positive points), against it (negative), or to know of (none).
struct Reason {
  int points = 0;  ///< from -2 to 2
  Text text{};
  Source source{};
};

/// One variation, or the original lift, with what speaks for and against it.
struct Choice {
  Lift lift;
  bool is_original = false;  ///< not a variation: the lift that was asked about
  bool is_ready = true;      ///< false: something else must be learnt first, as a reason says
  int points = 0;            ///< the sum over its reasons
  std::vector<Reason> reasons{};
  /// Its max as a share of the max on the lift asked about, for a lifter of unknown strength.
  Range<double> load_ratio = Range<double>::exactly(1.0);
};

namespace detail {

inline constexpr Source muscle_count_source =
    common_practice("which muscles a lift counts for; what arch and leg drive ask is assumed");
inline constexpr Source learning_source{
    .citation = ritti_dias_2011.citation,
    .population = ritti_dias_2011.population,
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "maxes rose 10 % over four test days from practice alone in men without experience, "
        "and not at all in experienced men; that it counts against a variation is assumed"};

/// Why is said once for all, by the original lift.
inline constexpr std::string_view new_text = "new";

/// Gathers the reasons for one variation.
class Weighing {
 public:
  Weighing(const Lift& plain, const ChoiceFacts& facts, const Modifier& modifier,
           const Lift& variation)
      : plain_(plain), facts_(facts), modifier_(modifier), choice_{.lift = variation} {
    choice_.load_ratio = max_ratio(variation, plain);
    weigh_goal();
    weigh_build();
    weigh_soreness();
    weigh_support();
    weigh_experience();
    say_what_it_needs();
    for (const Reason& reason : choice_.reasons) choice_.points += reason.points;
  }

  [[nodiscard]] const Choice& choice() const noexcept { return choice_; }

 private:
  void add(int points, const Text& text, const Source& source) {
    choice_.reasons.push_back({points, text, source});
  }
  void add(int points, std::string_view text, const Source& source) {
    add(points, Text{}.append(text), source);
  }
  [[nodiscard]] bool can_do(const Lift& lift) const noexcept {
    return lift.is_among(facts_.can_do);
  }
  [[nodiscard]] const Note* note(NoteKind kind, std::string_view text) const noexcept {
    for (const Note& own : modifier_.notes()) {
      if (own.kind == kind && own.text == text) return &own;
    }
    return nullptr;
  }

  /// How much more the variation asks of a group, from -2 to 2 steps.
  [[nodiscard]] int steps(MuscleGroup group) const noexcept {
    return static_cast<int>(choice_.lift.muscles()[group]) -
           static_cast<int>(plain_.muscles()[group]);
  }

  void weigh_goal() {
    switch (facts_.goal) {
      case Goal::muscle: return weigh_muscle();
      case Goal::lockout_strength: return weigh_lockout();
      case Goal::spare_lower_back: return weigh_lower_back();
      case Goal::keep_upper_and_lower_apart: return weigh_overlap();
    }
  }

  void weigh_muscle() {
    if (facts_.target && steps(*facts_.target) != 0) {
      const MuscleGroup group = *facts_.target;
      Text text;
      text.append("a set counts ")
          .append(fraction_of_set(choice_.lift.muscles()[group]))
          .append(" for the ")
          .append(to_text(group))
          .append(", against ")
          .append(fraction_of_set(plain_.muscles()[group]));
      add(steps(group) > 0 ? 2 : -2, text, fractional_sets_source);
    }
    if (modifier_.same_as(modifiers::feet_up)) {
      add(0,
          "the pressing muscles are more active feet-up at the same load, which is more of its "
          "1RM; more growth has not been shown",
          muyor_2019);
      add(0, "training with leg drive and without gained the same in five weeks", leg_drive_2021);
    }
  }

  void weigh_lockout() {
    if (steps(MuscleGroup::triceps) > 0) {
      add(2, "more of the work goes to the triceps, which finish the press", practice);
    }
    if (modifier_.sets_any_of(Setup::range_of_motion) &&
        plain_.base().family == LiftFamily::horizontal_press) {
      add(2, "only the end of the press, with more load than a full press allows",
          common_practice("that the max rises as the range falls is published (Martinez-Cava et "
                          "al. 2019, abstract read); that the lockout gains from it is not"));
    }
    if (note(NoteKind::caution, last_rep_note.text) != nullptr) {
      add(1, "it fails at lockout, so that is where it trains hardest",
          common_practice("that the loss shows at lockout; that training follows is assumed"));
    }
  }

  void weigh_lower_back() {
    const int change = steps(MuscleGroup::lower_back);
    if (change != 0) {
      add(change < 0 ? 2 : -2,
          change < 0 ? "asks less of the lower back" : "asks more of the lower back",
          note(NoteKind::benefit, spares_back_note.text) != nullptr ? spares_back_note.source
                                                                    : muscle_count_source);
    }
    if (steps(MuscleGroup::hip_flexors) > 0) {
      add(0, "how the hip flexors then pull on the lower back is an open question", muyor_2019);
    }
  }

  void weigh_overlap() {
    const bool is_upper = plain_.base().region == Region::upper_body;
    const Lift usual = is_upper ? lifts::squat : lifts::bench_press;
    const std::span<const Lift> other =
        facts_.other_day.empty() ? std::span<const Lift>(&usual, 1) : facts_.other_day;
    const double change = shared_with(other, choice_.lift) - shared_with(other, plain_);
    if (change == 0.0) return;
    Text text;
    text.append("beside a set each of ");
    for (const Lift& lift : other) text.append(&lift == &other[0] ? "" : ", ").append(lift.name());
    text.append(change < 0.0 ? ", shares less by " : ", shares more by ");
    text.append(change < 0.0 ? -change : change).append(" of a set, bracing counted as help");
    const int size = change >= 1.0 || change <= -1.0 ? 2 : 1;
    add(change < 0.0 ? size : -size, text, overlap_source);
  }
  [[nodiscard]] static double shared_with(std::span<const Lift> other, const Lift& lift) noexcept {
    FractionalSets there;
    FractionalSets here;
    for (const Lift& each : other) there.add(each.muscles(), 1);
    here.add(lift.muscles(), 1);
    double shared = 0.0;
    for (const MuscleGroup group : all_muscle_groups) {
      shared += std::min(there[group], here[group]);
    }
    return shared;
  }

  /// Arm length, which common practice ties to the flat back.
  void weigh_build() {
    if (!modifier_.same_as(modifiers::flat_back)) return;
    if (!facts_.upper_arm) {
      add(0,
          "look where the upper arm is with the bar on the chest: that decides how much this helps",
          practice);
      return;
    }
    const ExpectedGain gain = gain_from_flat_back(*facts_.upper_arm);
    const int for_gain = facts_.goal == Goal::muscle ? 2 : 1;
    const bool is_known = gain.source.evidence != Evidence::assumption;
    add(gain.is_likely ? for_gain : is_known ? -1 : 0, gain.why, gain.source);
  }

  void weigh_soreness() {
    for (const MuscleGroup group : facts_.sore) {
      if (const int change = steps(group); change != 0) {
        Text text;
        text.append(change < 0 ? "asks less" : "asks more").append(" of what is sore: ");
        add(change < 0 ? 2 : -2, text.append(to_text(group)), muscle_count_source);
      }
    }
  }

  void weigh_support() {
    if (modifier_.sets_any_of(Setup::surface)) {
      add(-1, "unstable, and not known to help with what is wanted here", practice);
    }
  }

  void weigh_experience() {
    if (can_do(choice_.lift)) return;
    if (modifier_.same_as(modifiers::flat_back) &&
        !(can_do(lifts::push_up) && can_do(lifts::dip))) {
      choice_.is_ready = false;
      add(-1, "push-ups and dips first, to learn how the shoulder blades move", practice);
    }
    add(-1, new_text, learning_source);
  }

  /// Equipment beyond the lift's own.
  void say_what_it_needs() {
    if (!modifier_.sets_any_of(Setup::range_of_motion)) return;
    for (const Note& own : modifier_.notes()) {
      if (own.kind == NoteKind::requirement) add(0, own.text, own.source);
    }
  }

  const Lift& plain_;
  const ChoiceFacts& facts_;
  const Modifier& modifier_;
  Choice choice_;
};

/// What the length of the arms came to, where that is nothing; no text where it spoke for or
/// against a variation.
[[nodiscard]] inline Text arm_length_text(UpperArmAtChest where, std::span<const Choice> choices) {
  Text text;
  const auto flat = std::find_if(choices.begin(), choices.end(), [](const Choice& choice) {
    return !choice.is_original && choice.lift.has(modifiers::flat_back);
  });
  if (flat == choices.end()) {
    text.append(
        "your arm length changes nothing here: only a flat back depends on it, and none is "
        "among the variations");
  } else if (gain_from_flat_back(where).source.evidence == Evidence::assumption) {
    text.append(
        "your arm length changes nothing here: only a flat back depends on it, and nothing "
        "is known for arms like these");
  }
  return text;
}

/// Says of the first of equal choices that the load kept put it there.
inline void explain_ties(std::span<Choice> choices) {
  for (std::size_t first = 0; first < choices.size();) {
    std::size_t next = first + 1;
    const auto is_equal = [&](const Choice& other) {
      return other.is_ready == choices[first].is_ready && other.points == choices[first].points &&
             !choices[first].is_original && !other.is_original;
    };
    while (next < choices.size() && is_equal(choices[next])) ++next;
    const auto share = [&](std::size_t i) { return choices[i].load_ratio.typical; };
    if (next > first + 1 && share(first) > share(first + 1)) {
      choices[first].reasons.push_back(
          {0,
           Text{}
               .append("first of ")
               .append(static_cast<int>(next - first))
               .append(" with as many points, as it keeps the most load: ")
               .append_rounded(100.0 * share(first), 1)
               .append(" %, the next ")
               .append_rounded(100.0 * share(first + 1), 1)
               .append(" %"),
           assumption("that of equals the one with more load comes first")});
    }
    first = next;
  }
}

}  // namespace detail

/// The original lift and each of its variations by one modifier, best first: those that may be done
/// now before those that need something else first, then by points, then the original lift, then by
/// the load kept, then in the order of `modifiers`.
///
/// When the first is the original lift, that is the answer: no variation offers more than it costs.
/// `front().lift` is what to do; its `cautions()` and `requirements()` still hold.
/// @param lift  the lift as done now, which may be a variation itself; a modifier then takes the
///   place of those it excludes
[[nodiscard]] inline std::vector<Choice> rank_variations(
    const Lift& lift, const ChoiceFacts& facts,
    Handles<Modifier> modifiers = catalogue::modifiers()) {
  std::vector<Choice> choices;
  choices.push_back({.lift = lift, .is_original = true});
  for (const Modifier& modifier : modifiers) {
    if (const auto variation = detail::variation_of(lift, modifier)) {
      choices.push_back(detail::Weighing(lift, facts, modifier, *variation).choice());
    }
  }
  std::stable_sort(choices.begin(), choices.end(), [](const Choice& a, const Choice& b) {
    if (a.is_ready != b.is_ready) return a.is_ready;
    if (a.points != b.points) return a.points > b.points;
    if (a.is_original != b.is_original) return a.is_original;
    return a.load_ratio.typical > b.load_ratio.typical;
  });

  Choice& plain =
      *std::find_if(choices.begin(), choices.end(), [](const Choice& c) { return c.is_original; });
  const bool is_best = &plain == &choices.front();
  plain.reasons.push_back(
      {0,
       Text{}.append(is_best ? "the better answer: no variation offers more for this than it costs"
                             : "needs no learning, and its figures are known best"),
       assumption("from the reasons of the variations")});
  const bool any_new = std::any_of(choices.begin(), choices.end(), [](const Choice& choice) {
    return std::any_of(choice.reasons.begin(), choice.reasons.end(),
                       [](const Reason& reason) { return reason.text == detail::new_text; });
  });
  if (any_new) {
    plain.reasons.push_back(
        {0,
         Text{}.append("a new lift counts one point less: its first three or four sessions are for "
                       "learning it"),
         detail::learning_source});
  }
  if (facts.upper_arm) {
    const Text text = detail::arm_length_text(*facts.upper_arm, choices);
    if (!text.view().empty()) {
      plain.reasons.push_back(
          {0, text, common_practice("that a flat back depends on the arms' length")});
    }
  }
  detail::explain_ties(choices);
  for (const MuscleGroup group : facts.sore) {
    for (Choice& choice : choices) {
      if (choice.lift.muscles()[group] != Involvement::direct) continue;
      choice.reasons.push_back({0,
                                Text{}
                                    .append("works what is sore directly: ")
                                    .append(to_text(group))
                                    .append(". Lighter, later, or another lift"),
                                detail::practice});
    }
  }
  return choices;
}

}  // namespace barwright::inline BARWRIGHT_ABI
