// barwright/training/swaps.hpp - which lift of a week, done as a variation, gets less in the way
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/range.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/lifts/stacking.hpp"
#include "barwright/training/detail/week_work.hpp"
#include "barwright/training/overlap.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing.hpp"
#include "barwright/training/spacing_rule.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One lift of the week done as one of its variations.
struct Swap {
  std::size_t session = 0;       ///< its place in the week
  std::size_t lift = 0;          ///< its place in the session
  Lift variation;                ///< what to do instead
  double overlap_removed = 0.0;  ///< fractional sets no longer shared
  int conflicts_added = 0;       ///< negative when there are fewer
  /// What it costs in load: the variation's max as a share of the lift's, for a lifter of unknown
  /// strength, all ranges at their worst or best. How well each factor is known is said by the
  /// variation's modifiers.
  Range<double> load_ratio = Range<double>::exactly(1.0);
  /// Whether the variation works directly what the lift works directly, and none of the lift's own
  /// modifiers, which somebody chose for a reason, gives way to it.
  bool keeps_aim = true;

  /// False when the load may as well be far less as far more: the best case is more than 1.3 times
  /// the worst (assumption).
  [[nodiscard]] constexpr bool is_cost_known() const noexcept {
    return load_ratio.high <= 1.3 * load_ratio.low;
  }
};

namespace detail {

/// Whether `variation` has the modifiers of `lift` and works directly what that works directly.
[[nodiscard]] constexpr bool keeps_aim(const Lift& lift, const Lift& variation) noexcept {
  for (const Modifier& modifier : lift.modifiers()) {
    if (!variation.has(modifier)) return false;
  }
  const Muscles before = lift.muscles();
  const Muscles after = variation.muscles();
  for (const MuscleGroup group : all_muscle_groups) {
    if (before[group] == Involvement::direct && after[group] != Involvement::direct) return false;
  }
  return true;
}

/// `lift` with `modifier` in place of the modifiers it excludes; nothing when it cannot be.
[[nodiscard]] constexpr std::optional<Lift> variation_of(const Lift& lift,
                                                         const Modifier& modifier) {
  if (lift.has(modifier) || !modifier.applies_to(lift.base())) return std::nullopt;
  Lift varied = lift.base();
  for (const Modifier& own : lift.modifiers()) {
    if (!own.excludes(modifier)) varied = varied + own;
  }
  if (!varied.accepts(modifier)) return std::nullopt;
  return varied + modifier;
}

/// The max on `lift` as a share of that on `other`, both of one base lift; modifiers they share do
/// not count.
[[nodiscard]] constexpr Range<double> max_ratio(const Lift& lift, const Lift& other) {
  auto ratio = Range<double>::exactly(1.0);
  for (const Modifier& modifier : lift.modifiers()) {
    if (!other.has(modifier))
      ratio = stacked(ratio, modifier.ratio_figure().value, Stacking::bounds);
  }
  for (const Modifier& modifier : other.modifiers()) {
    if (lift.has(modifier)) continue;
    const Range<double>& share = modifier.ratio_figure().value;
    ratio =
        stacked(ratio, {1.0 / share.high, 1.0 / share.typical, 1.0 / share.low}, Stacking::bounds);
  }
  return ratio;
}

}  // namespace detail

/// Every single swap of a lift for one of its variations that reduces the overlap of the week, best
/// first: those that add no spacing conflict before those that do, then by the overlap removed,
/// then by the load kept, then in the order of the week and of `modifiers`. Those that lose the
/// aim of the lift, or whose load nobody can foretell, are among them and say so.
/// @throws DomainError for a rule as in `spacing_conflicts`.
[[nodiscard]] inline std::vector<Swap> swaps(std::span<const PlannedSession> sessions,
                                             const SpacingRule& rule = {},
                                             Handles<Modifier> modifiers = catalogue::modifiers()) {
  const detail::WeekWork days = detail::work_of(sessions, rule);
  const detail::Closeness before = detail::closeness_of(days, rule);
  std::vector<Swap> found;
  for (std::size_t s = 0; s < sessions.size(); ++s) {
    const std::size_t day = detail::index_of(sessions[s].day);
    for (std::size_t l = 0; l < sessions[s].lifts.size(); ++l) {
      const PlannedLift& planned = sessions[s].lifts[l];
      detail::WeekWork changed = days;
      changed[day] = {};  // that day again, but for this lift
      for (std::size_t i = 0; i < sessions.size(); ++i) {
        for (std::size_t j = 0; j < sessions[i].lifts.size(); ++j) {
          if (sessions[i].day != sessions[s].day || (i == s && j == l)) continue;
          changed[day].add(sessions[i].lifts[j], rule);
        }
      }
      const detail::DayWork others = changed[day];
      for (const Modifier& modifier : modifiers) {
        const auto variation = detail::variation_of(planned.lift, modifier);
        if (!variation || variation->muscles() == planned.lift.muscles()) continue;
        changed[day] = others;
        PlannedLift instead = planned;
        instead.lift = *variation;
        changed[day].add(instead, rule);
        const detail::Closeness after = detail::closeness_of(changed, rule);
        if (after.overlap_parts() >= before.overlap_parts()) continue;
        found.push_back({.session = s,
                         .lift = l,
                         .variation = *variation,
                         .overlap_removed = before.overlap() - after.overlap(),
                         .conflicts_added = after.conflicts() - before.conflicts(),
                         .load_ratio = detail::max_ratio(*variation, planned.lift),
                         .keeps_aim = detail::keeps_aim(planned.lift, *variation)});
      }
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const Swap& a, const Swap& b) {
    const bool a_adds = a.conflicts_added > 0;
    const bool b_adds = b.conflicts_added > 0;
    if (a_adds != b_adds) return b_adds;
    if (a.overlap_removed != b.overlap_removed) return a.overlap_removed > b.overlap_removed;
    return a.load_ratio.typical > b.load_ratio.typical;
  });
  return found;
}

}  // namespace barwright::inline BARWRIGHT_ABI
