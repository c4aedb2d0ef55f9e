// barwright/training/prescription.hpp - from a max to today's loads, and from today's sets to the
// next load
//
// The load for so many repetitions with so many left is the max times the curve at their sum.
// Around that one line stand the habits of the trade: rounding to what can be loaded, the way up to
// the work sets, the lighter sets after the top one, and when and by how much to add load.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <concepts>
#include <cstddef>
#include <optional>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// `percent` of a max: percent_of(100_kg, 72.5) is 72.5 kg.
/// @throws DomainError unless 0 <= percent <= 200.
[[nodiscard]] constexpr Mass percent_of(Mass max, double percent) {
  if (!(percent >= 0.0 && percent <= 200.0)) {
    detail::fail("a percentage of the max", "a number from 0 to 200", percent);
  }
  return max * (percent / 100.0);
}

/// The load for `done` repetitions with `left` in reserve, not yet rounded.
///
/// Round it down when in doubt: an unrounded load is the estimate's middle, not its safe side.
/// @throws DomainError if the curve is not defined that far out.
template <RepCurve C>
[[nodiscard]] constexpr Mass load_for(const C& curve, Mass max, Reps done,
                                      RepsInReserve left = {}) {
  return max * share_of_max(curve, done, left);
}

/// The load for `done` repetitions that are to be rated so, not yet rounded.
/// @throws DomainError also for a rating below 5, which does not count repetitions.
template <RepCurve C>
[[nodiscard]] constexpr Mass load_for(const C& curve, Mass max, Reps done, Rpe effort) {
  return load_for(curve, max, done, typical_reserve(effort));
}

/// The repetitions left after `done` repetitions at `load`; negative when they are more than can be
/// expected (-2: two short).
template <RepCurve C>
[[nodiscard]] constexpr double reserve_left(const C& curve, Mass max, Mass load, Reps done) {
  return reps_to_failure(curve, max, load) - done.count();
}

// ---------------------------------------------------------------------------------------------
// The way up.

/// One set before the work sets.
struct WarmUpSet {
  Mass load{};
  Reps reps{1};
};

/// A short list of warm-up sets.
struct WarmUp {
  static constexpr std::size_t most = 8;

  std::array<WarmUpSet, most> sets{};
  std::size_t count = 0;

  [[nodiscard]] constexpr const WarmUpSet* begin() const noexcept { return sets.data(); }
  [[nodiscard]] constexpr const WarmUpSet* end() const noexcept { return sets.data() + count; }
};

inline constexpr Source warm_up_source = common_practice(
    "light and many, then heavier and fewer; the handbooks describe the same shape for max tests");

/// Where the bar is before the first repetition.
enum class BarStart : unsigned char {
  rack,   ///< taken out at the height it is needed: the empty bar is the first set
  floor,  ///< pulled up from the height of full-sized plates: there is no set with the empty bar
};

/// What turns a load into the nearest one that can be had: a room's plates, a rack of dumbbells.
template <class F>
concept LoadFinder = requires(const F& nearest, Mass load) {
  { nearest(load) } -> std::same_as<Mass>;
};

/// Any load can be had.
struct AnyLoad {
  [[nodiscard]] constexpr Mass operator()(Mass load) const noexcept { return load; }
};

namespace detail {

struct WarmUpStep {
  double share;  ///< of the work load
  int reps;
};

/// The steps that can be had and lie apart, by at least `gap` of the work load.
template <std::size_t Count, LoadFinder Nearest>
[[nodiscard]] constexpr WarmUp warm_up_by(const WarmUpStep (&steps)[Count], double gap,
                                          Mass lightest, Mass work, int most_reps, BarStart start,
                                          const Nearest& nearest) {
  WarmUp plan;
  if (!(work > lightest)) return plan;
  const Mass least_step = work * (gap - 1e-9);
  Mass before{};
  if (start == BarStart::rack) {
    plan.sets[plan.count++] = {lightest, Reps(8)};
    before = lightest;
  }
  for (const WarmUpStep& step : steps) {
    Mass load = nearest(work * step.share);
    if (load < lightest) load = lightest;
    if (load - before < least_step || work - load < least_step) continue;
    plan.sets[plan.count++] = {load, Reps(step.reps < most_reps ? step.reps : most_reps)};
    before = load;
  }
  return plan;
}

}  // namespace detail

/// The sets on the way up to a work load: the empty bar for 8, then about 40, 60, 75 and 87 % of
/// the work load for 6, 4, 3 and 1 repetitions; before one or two heavy repetitions about 40, 60,
/// 75, 85 and 93 %. Steps less than a tenth of the work load (before heavy ones, a twentieth) from
/// the set before or from the work load are left out, so that a light work load has a short
/// warm-up.
///
///     warm_up(20_kg, 140_kg, 5_reps, BarStart::floor,
///             [&](Mass load) { return room.nearest(load).total(); });
///
/// @param lightest  the empty bar, or the lightest load there is; from the floor, the lightest at
///   the usual height: with plates of full size, or on blocks
/// @param work      the work load; at or below `lightest` there is nothing to warm up with
/// @param work_reps no warm-up set is longer than the work set, but for the bar
/// @param nearest   what can be loaded; steps are compared as they are loaded
template <LoadFinder Nearest = AnyLoad>
[[nodiscard]] constexpr WarmUp warm_up(Mass lightest, Mass work, Reps work_reps,
                                       BarStart start = BarStart::rack,
                                       const Nearest& nearest = {}) {
  constexpr detail::WarmUpStep usual[] = {{0.40, 6}, {0.60, 4}, {0.75, 3}, {0.87, 1}};
  constexpr detail::WarmUpStep to_heavy[] = {{0.40, 6}, {0.60, 4}, {0.75, 3}, {0.85, 1}, {0.93, 1}};
  const int reps = work_reps.count();
  return reps <= 2 ? detail::warm_up_by(to_heavy, 0.05, lightest, work, reps, start, nearest)
                   : detail::warm_up_by(usual, 0.10, lightest, work, reps, start, nearest);
}

// ---------------------------------------------------------------------------------------------
// A test of the max.

inline constexpr Source max_test_source{
    .citation = "ACSM's Guidelines for Exercise Testing and Prescription, 9th ed. 2014",
    .population = "adults",
    .evidence = Evidence::handbook,
    .reading = Reading::read,
    .note =
        "practice and light sets first, a first load of 50 to 70 % of what is expected, steps "
        "of 2.5 to 20 kg, at most 4 trials with 3 to 5 minutes between; the shares of each "
        "trial and of the light sets are this library's"};

/// A test of the max: a few light sets, then single repetitions, one set each, until one is missed.
/// The last that went up in good form is the max.
struct MaxTest {
  static constexpr std::size_t most_trials = 4;
  static constexpr int least_rest_minutes = 3;  ///< between trials
  static constexpr int most_rest_minutes = 5;

  WarmUp practice{};
  std::array<Mass, most_trials> trials{};
  std::size_t count = 0;  ///< of trials

  [[nodiscard]] constexpr const Mass* begin() const noexcept { return trials.data(); }
  [[nodiscard]] constexpr const Mass* end() const noexcept { return trials.data() + count; }
};

/// A test for a lifter who is expected to have this max: trials at 70, 80, 90 and 100 % of it.
///
/// The steps are the guideline's 2.5 to 20 kg for a max of 25 to 200 kg; above, they are larger, as
/// the number of trials is kept. Who has something left after the last trial is stronger than
/// expected: that is for another day. What must be true before a max attempt is in caution.hpp.
///
/// @param lightest, nearest  as for `warm_up`
/// @returns no trial where the max expected is not above `lightest`.
template <LoadFinder Nearest = AnyLoad>
[[nodiscard]] constexpr MaxTest max_test(Mass lightest, Mass expected,
                                         BarStart start = BarStart::rack,
                                         const Nearest& nearest = {}) {
  constexpr detail::WarmUpStep light[] = {{0.40, 5}, {0.55, 3}};
  constexpr double shares[] = {0.70, 0.80, 0.90, 1.00};
  MaxTest test;
  if (!(expected > lightest)) return test;
  test.practice = detail::warm_up_by(light, 0.10, lightest, expected, 8, start, nearest);
  Mass before = lightest;
  for (const WarmUpSet& set : test.practice) before = set.load;
  for (const double share : shares) {
    const Mass load = nearest(expected * share);
    if (!(load > before)) continue;
    test.trials[test.count++] = load;
    before = load;
  }
  return test;
}

// ---------------------------------------------------------------------------------------------
// After the top set.

/// The load of back-off sets a share below the top one: back_off(100_kg, 0.10) is 90 kg.
/// @throws DomainError unless 0 <= drop <= 0.5.
[[nodiscard]] constexpr Mass back_off(Mass top, double drop) {
  if (!(drop >= 0.0 && drop <= 0.5)) {
    detail::fail("the drop to a back-off set", "a share from 0 to 0.5", drop);
  }
  return top * (1.0 - drop);
}

/// The share to drop so that back-off sets of `back_off_reps` keep `left` in reserve after a top
/// set of `top_reps` with `top_left`; zero where no drop is needed.
template <RepCurve C>
[[nodiscard]] constexpr double drop_for(const C& curve, Reps top_reps, RepsInReserve top_left,
                                        Reps back_off_reps, RepsInReserve left) {
  const double drop =
      1.0 - share_of_max(curve, back_off_reps, left) / share_of_max(curve, top_reps, top_left);
  return drop > 0.0 ? drop : 0.0;
}

// ---------------------------------------------------------------------------------------------
// When to add load, and how much.

/// How the last set of a session went.
struct LastSet {
  Reps planned;
  Reps done;
  bool missed = false;  ///< the last repetition tried was not completed
};

/// The progression rules: a step of 2 to 10 % once one or two repetitions more than planned are
/// done.
inline constexpr Source progression_source{
    .citation =
        "American College of Sports Medicine 2009, Progression models in resistance training "
        "for healthy adults, Med Sci Sports Exerc 41(3):687-708",
    .population = "healthy adults",
    .evidence = Evidence::handbook,
    .reading = Reading::read,
    .note = "the abstract was read"};

inline constexpr Source two_for_two_source{
    .citation =
        "Haff & Triplett (eds) 2016, Essentials of Strength Training and Conditioning, 4th ed.",
    .population = "not stated",
    .evidence = Evidence::handbook,
    .reading = Reading::recalled};

/// Whether `extra` repetitions beyond the plan were done, the position stand's sign to add load.
/// @throws DomainError unless extra is 1 or 2.
[[nodiscard]] constexpr bool exceeds_plan(const LastSet& latest, int extra = 1) {
  if (extra != 1 && extra != 2) {
    detail::fail("repetitions beyond the plan", "1 or 2", static_cast<double>(extra));
  }
  return !latest.missed && latest.done.count() >= latest.planned.count() + extra;
}

/// The two-for-two rule: two or more repetitions beyond the plan in the last set, two sessions in a
/// row.
[[nodiscard]] constexpr bool two_for_two(const LastSet& previous, const LastSet& latest) {
  return exceeds_plan(previous, 2) && exceeds_plan(latest, 2);
}

/// The next load up: `increase` (0.02 to 0.10) more, on a step that can be loaded, at least one
/// step and never more than 10 %.
///
/// @returns nothing when even one step is more than 10 %: add repetitions first, or find smaller
/// plates.
/// @throws DomainError unless 0.02 <= increase <= 0.10 and step > 0.
[[nodiscard]] constexpr std::optional<Mass> raised(Mass load, double increase, Mass step,
                                                   Rounding rounding = Rounding::down) {
  if (!(increase >= 0.02 && increase <= 0.10)) {
    detail::fail("an increase of the load", "a share from 0.02 to 0.10", increase);
  }
  const Mass one_step = rounded(load, step, Rounding::down) + step;
  Mass next = rounded(load * (1.0 + increase), step, rounding);
  if (next < one_step) next = one_step;
  const Mass limit = load * (1.10 + 1e-12);
  if (next > limit) next = rounded(limit, step, Rounding::down);
  if (!(next > load)) return std::nullopt;
  return next;
}

}  // namespace barwright::inline BARWRIGHT_ABI
