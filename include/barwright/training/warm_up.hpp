// barwright/training/warm_up.hpp - the sets on the way up to the work load
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <concepts>
#include <cstddef>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"

namespace barwright::inline BARWRIGHT_ABI {

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

/// Where the bar is before the first rep.
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
                                          Mass lightest, Mass work, BarStart start,
                                          const Nearest& nearest) {
  WarmUp plan;
  if (!(work > lightest)) return plan;
  const Mass least_step = work * (gap - 1e-9);
  const bool has_empty_set = start == BarStart::rack && lightest > Mass{};
  if (has_empty_set) plan.sets[plan.count++] = {lightest, Reps(8)};
  const Mass below = has_empty_set ? lightest : Mass{};
  // From the top down, as the last step matters most.
  bool is_kept[Count] = {};
  Mass loads[Count] = {};
  Mass above = work;
  for (std::size_t i = Count; i-- > 0;) {
    loads[i] = nearest(work * steps[i].share);
    if (loads[i] < lightest) loads[i] = lightest;
    if (loads[i] - below < least_step || above - loads[i] < least_step) continue;
    is_kept[i] = true;
    above = loads[i];
  }
  for (std::size_t i = 0; i < Count; ++i) {
    if (is_kept[i]) plan.sets[plan.count++] = {loads[i], Reps(steps[i].reps)};
  }
  return plan;
}

}  // namespace detail

/// The last jump, from the warm-up to the work load, is no larger: where 13 % of the load might be
/// more, there is a step more (common practice, no source).
inline constexpr Mass largest_last_jump = Mass::from_kg(25);

/// The sets on the way up to a work load: the empty bar for 8, then about 40, 60, 75 and 87 % of
/// the work load for 6, 4, 3 and 1 reps; before one or two heavy reps, and where the
/// last jump would be more than 25 kg, about 40, 60, 75, 85 and 93 %. The reps are the same
/// whatever the work set is: a warm-up before a single is still a warm-up. Steps less than 8 %
/// of the work load (on the longer ladder, 4 %) from the next or from the empty bar are left out,
/// so that a light work load has a short warm-up.
///
///     warm_up(20_kg, 140_kg, 5_reps, BarStart::floor,
///             [&](Mass load) { return room.nearest(load).total(); });
///
/// @param lightest  the empty bar, or the lightest load there is; from the floor, the lightest at
///   the usual height: with plates of full size, or on blocks. No set is done with nothing
/// @param work      the work load; at or below `lightest` there is nothing to warm up with
/// @param work_reps which ladder it is
/// @param nearest   what can be loaded; steps are compared as they are loaded
template <LoadFinder Nearest = AnyLoad>
[[nodiscard]] constexpr WarmUp warm_up(Mass lightest, Mass work, Reps work_reps,
                                       BarStart start = BarStart::rack,
                                       const Nearest& nearest = {}) {
  constexpr detail::WarmUpStep usual[] = {{0.40, 6}, {0.60, 4}, {0.75, 3}, {0.87, 1}};
  constexpr detail::WarmUpStep to_heavy[] = {{0.40, 6}, {0.60, 4}, {0.75, 3}, {0.85, 1}, {0.93, 1}};
  // 13 %, and 2 more for what can be loaded.
  const bool is_heavy = work_reps.count() <= 2 || work * 0.15 > largest_last_jump;
  return is_heavy ? detail::warm_up_by(to_heavy, 0.04, lightest, work, start, nearest)
                  : detail::warm_up_by(usual, 0.08, lightest, work, start, nearest);
}

/// The sets before work with a pair of dumbbells, each of this load: about 50 and 75 % for 8 and 4
/// reps, and between heavy ones, from 30 kg each, 30 % first. Nobody climbs a ladder to a
/// light dumbbell (common practice, no source).
/// @param nearest  the dumbbells there are
template <LoadFinder Nearest = AnyLoad>
[[nodiscard]] constexpr WarmUp dumbbell_warm_up(Mass each, const Nearest& nearest = {}) {
  constexpr detail::WarmUpStep light[] = {{0.50, 8}, {0.75, 4}};
  constexpr detail::WarmUpStep heavy[] = {{0.30, 8}, {0.55, 5}, {0.80, 2}};
  return each < Mass::from_kg(30)
             ? detail::warm_up_by(light, 0.15, Mass{}, each, BarStart::floor, nearest)
             : detail::warm_up_by(heavy, 0.15, Mass{}, each, BarStart::floor, nearest);
}

}  // namespace barwright::inline BARWRIGHT_ABI
