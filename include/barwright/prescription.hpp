// barwright/prescription.hpp - from a max to today's loads, and from today's sets to the next load
//
// The load for so many repetitions with so many left is the max times the curve at their sum.
// Around that one line stand the habits of the trade: rounding to what can be loaded, the way up to
// the work sets, the lighter sets after the top one, and when and by how much to add load.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <optional>

#include "barwright/effort.hpp"
#include "barwright/error.hpp"
#include "barwright/rep_curve.hpp"
#include "barwright/source.hpp"
#include "barwright/units.hpp"

namespace barwright::inline v0 {

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

/// The sets from the empty bar up to a work load: the bar for 8, then about 40, 60, 75 and 87 % of
/// the work load for 6, 4, 3 and 1 repetitions. Steps less than a tenth of the work load above the
/// one before are left out, so that a light work load has a short warm-up.
///
/// @param lightest  the empty bar, or the lightest load there is
/// @param work      the work load; at or below `lightest` there is nothing to warm up with
/// @param work_reps no warm-up set is longer than the work set, but for the bar
[[nodiscard]] constexpr WarmUp warm_up(Mass lightest, Mass work, Reps work_reps) {
  struct Step {
    double share;
    int reps;
  };
  constexpr Step steps[] = {{0.40, 6}, {0.60, 4}, {0.75, 3}, {0.87, 1}};
  WarmUp plan;
  if (!(work > lightest)) return plan;
  plan.sets[plan.count++] = {lightest, Reps(8)};
  Mass before = lightest;
  for (const Step& step : steps) {
    const Mass load = work * step.share;
    if (load - before < work * 0.1) continue;
    const int reps = step.reps < work_reps.count() ? step.reps : work_reps.count();
    plan.sets[plan.count++] = {load, Reps(reps)};
    before = load;
  }
  return plan;
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

}  // namespace barwright::inline v0
