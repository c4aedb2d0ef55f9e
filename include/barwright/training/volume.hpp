// barwright/training/volume.hpp - how many sets a week gives each muscle group
//
// A set counts 1 where a muscle group works directly and one half where it helps (published). Lower
// back, trunk, hips and legs brace a press, by arch and leg drive; that is counted apart from
// lifting
// (`bracing_source`).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <span>

#include "barwright/core/source.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/training/planned_week.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source fractional_sets_source{
    .citation = "Pelland et al. 2024, The resistance training dose-response, preprint, SportRxiv",
    .population = "67 studies, 2058 people",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "abstract; a preprint; counting direct sets as 1 and indirect as one half fitted "
        "size and strength better than counting indirect sets as 1 or 0. Which lift counts for "
        "which muscle is common practice"};

inline constexpr Source bracing_source = assumption(
    "what a press asks of lower back, trunk, hips and legs - arch, leg drive, standing still under "
    "the bar - is held and not lifted: it is no set for them, counts one tenth of one in the "
    "overlap, moves no day and makes no conflict. No study of it was found");

/// Whether a set of `lift` asks this group to brace: to hold still for a press, not to lift.
[[nodiscard]] constexpr bool is_bracing(const Lift& lift, MuscleGroup group) noexcept {
  const LiftFamily family = lift.base().family;
  if (family != LiftFamily::horizontal_press && family != LiftFamily::overhead_press) return false;
  switch (group) {
    case MuscleGroup::lower_back:
    case MuscleGroup::trunk:
    case MuscleGroup::glutes:
    case MuscleGroup::quadriceps:
    case MuscleGroup::hamstrings:
    case MuscleGroup::calves:
    case MuscleGroup::hip_flexors: return lift.muscles()[group] == Involvement::indirect;
    default: return false;
  }
}

/// Sets counted for each muscle group, exactly: halves are not rounded.
class FractionalSets {
 public:
  constexpr FractionalSets() noexcept = default;  ///< none

  [[nodiscard]] constexpr double operator[](MuscleGroup group) const noexcept {
    return sets_from(parts(group));
  }
  [[nodiscard]] constexpr double total() const noexcept { return sets_from(total_parts()); }

  constexpr FractionalSets& operator+=(const FractionalSets& other) noexcept {
    for (std::size_t i = 0; i < parts_.size(); ++i) parts_[i] += other.parts_[i];
    return *this;
  }
  friend constexpr FractionalSets operator+(FractionalSets a, const FractionalSets& b) noexcept {
    return a += b;
  }
  friend constexpr bool operator==(const FractionalSets&, const FractionalSets&) noexcept = default;

  // The count itself, in whole parts of a set: sums and comparisons stay exact.

  /// A half set is 100 parts, so that one per cent of one can be counted too.
  static constexpr int parts_per_set = 200;

  [[nodiscard]] constexpr std::int64_t parts(MuscleGroup group) const noexcept {
    return parts_[static_cast<std::size_t>(group)];
  }
  [[nodiscard]] constexpr std::int64_t total_parts() const noexcept {
    std::int64_t sum = 0;
    for (const std::int64_t part : parts_) sum += part;
    return sum;
  }
  constexpr void add_parts(MuscleGroup group, std::int64_t count) noexcept {
    parts_[static_cast<std::size_t>(group)] += count;
  }
  /// Counts `sets` sets of a lift that asks this of each group.
  constexpr void add(const Muscles& muscles, int sets) noexcept {
    for (const MuscleGroup group : all_muscle_groups) {
      add_parts(group, static_cast<std::int64_t>(sets) * static_cast<int>(muscles[group]) *
                           (parts_per_set / 2));
    }
  }
  /// Counts `sets` sets of a lift but for the groups that only brace, and those as so many per cent
  /// of a set.
  constexpr void add(const Lift& lift, int sets, int bracing_percent) noexcept {
    const Muscles muscles = lift.muscles();
    for (const MuscleGroup group : all_muscle_groups) {
      const int parts = is_bracing(lift, group)
                            ? bracing_percent * (parts_per_set / 100)
                            : static_cast<int>(muscles[group]) * (parts_per_set / 2);
      add_parts(group, static_cast<std::int64_t>(sets) * parts);
    }
  }

 private:
  [[nodiscard]] static constexpr double sets_from(std::int64_t parts) noexcept {
    return static_cast<double>(parts) / parts_per_set;
  }

  std::array<std::int64_t, all_muscle_groups.size()> parts_{};
};

static_assert(fraction_of_set(Involvement::direct) == 1.0 &&
              fraction_of_set(Involvement::indirect) == 0.5);

/// The whole sets in which a muscle group worked directly, helped, or only braced.
struct GroupSets {
  int direct = 0;
  int indirect = 0;
  int bracing = 0;  ///< in neither of the others

  /// What the published count makes of it; bracing is left out.
  [[nodiscard]] constexpr double fractional() const noexcept { return direct + 0.5 * indirect; }
};

/// What a week of sessions asks of one muscle group, set by set.
[[nodiscard]] constexpr GroupSets group_sets(std::span<const PlannedSession> sessions,
                                             MuscleGroup group) noexcept {
  GroupSets sets;
  for (const PlannedSession& session : sessions) {
    for (const PlannedLift& planned : session.lifts) {
      const int count = planned.sets.count();
      switch (planned.lift.muscles()[group]) {
        case Involvement::none: break;
        case Involvement::direct: sets.direct += count; break;
        case Involvement::indirect:
          (is_bracing(planned.lift, group) ? sets.bracing : sets.indirect) += count;
          break;
      }
    }
  }
  return sets;
}

/// What one session gives each muscle group, bracing left out.
[[nodiscard]] constexpr FractionalSets fractional_sets(const PlannedSession& session) noexcept {
  FractionalSets sets;
  for (const PlannedLift& planned : session.lifts) {
    sets.add(planned.lift, planned.sets.count(), 0);
  }
  return sets;
}

/// What a week of sessions gives each muscle group, bracing left out.
[[nodiscard]] constexpr FractionalSets fractional_sets(
    std::span<const PlannedSession> sessions) noexcept {
  FractionalSets sets;
  for (const PlannedSession& session : sessions) sets += fractional_sets(session);
  return sets;
}

}  // namespace barwright::inline BARWRIGHT_ABI
