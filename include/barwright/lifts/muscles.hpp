// barwright/lifts/muscles.hpp - the muscle groups, and how much a lift asks of each
//
// A set counts whole for a muscle that works directly and half for one that helps. A modifier moves
// muscles a step up or down.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <initializer_list>
#include <string_view>

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// The muscles a week of training is counted by.
enum class MuscleGroup : unsigned char {
  chest,
  front_shoulders,
  side_shoulders,
  rear_shoulders,
  triceps,
  biceps,
  forearms,
  upper_back,
  lats,
  lower_back,
  trunk,
  glutes,
  quadriceps,
  hamstrings,
  calves,
  hip_flexors,
};

/// Every muscle group, in the order of the enum.
inline constexpr std::array all_muscle_groups{
    MuscleGroup::chest,          MuscleGroup::front_shoulders, MuscleGroup::side_shoulders,
    MuscleGroup::rear_shoulders, MuscleGroup::triceps,         MuscleGroup::biceps,
    MuscleGroup::forearms,       MuscleGroup::upper_back,      MuscleGroup::lats,
    MuscleGroup::lower_back,     MuscleGroup::trunk,           MuscleGroup::glutes,
    MuscleGroup::quadriceps,     MuscleGroup::hamstrings,      MuscleGroup::calves,
    MuscleGroup::hip_flexors};

[[nodiscard]] constexpr std::string_view to_text(MuscleGroup group) noexcept {
  switch (group) {
    case MuscleGroup::chest: return "chest";
    case MuscleGroup::front_shoulders: return "front shoulders";
    case MuscleGroup::side_shoulders: return "side shoulders";
    case MuscleGroup::rear_shoulders: return "rear shoulders";
    case MuscleGroup::triceps: return "triceps";
    case MuscleGroup::biceps: return "biceps";
    case MuscleGroup::forearms: return "forearms";
    case MuscleGroup::upper_back: return "upper back";
    case MuscleGroup::lats: return "lats";
    case MuscleGroup::lower_back: return "lower back";
    case MuscleGroup::trunk: return "trunk";
    case MuscleGroup::glutes: return "glutes";
    case MuscleGroup::quadriceps: return "quadriceps";
    case MuscleGroup::hamstrings: return "hamstrings";
    case MuscleGroup::calves: return "calves";
    case MuscleGroup::hip_flexors: return "hip flexors";
  }
  return "";
}

/// How much a lift asks of a muscle group.
enum class Involvement : signed char { none, indirect, direct };

/// The part of a set that counts for a muscle group: 1 where it works directly, one half where it
/// helps (Pelland et al. 2024, preprint, 67 studies: this count fitted muscle size and strength
/// best; abstract read).
[[nodiscard]] constexpr double fraction_of_set(Involvement involvement) noexcept {
  return 0.5 * static_cast<double>(involvement);
}

/// What a lift asks of each muscle group.
class Muscles {
 public:
  constexpr Muscles() noexcept = default;  ///< nothing

  [[nodiscard]] static constexpr Muscles of(std::initializer_list<MuscleGroup> direct,
                                            std::initializer_list<MuscleGroup> indirect) noexcept {
    Muscles muscles;
    for (const MuscleGroup group : indirect) muscles.at(group) = Involvement::indirect;
    for (const MuscleGroup group : direct) muscles.at(group) = Involvement::direct;
    return muscles;
  }

  [[nodiscard]] constexpr Involvement operator[](MuscleGroup group) const noexcept {
    return by_group_[static_cast<std::size_t>(group)];
  }

  friend constexpr bool operator==(const Muscles&, const Muscles&) noexcept = default;

 private:
  friend class Lift;
  constexpr Involvement& at(MuscleGroup group) noexcept {
    return by_group_[static_cast<std::size_t>(group)];
  }

  std::array<Involvement, all_muscle_groups.size()> by_group_{};
};

/// Which muscle groups a modifier asks more or less of, one step each: none, indirect, direct.
///
/// Steps of several modifiers add before they are held between none and direct, so their order
/// does not matter.
class MuscleShift {
 public:
  constexpr MuscleShift() noexcept = default;  ///< no change

  [[nodiscard]] static constexpr MuscleShift of(std::initializer_list<MuscleGroup> more,
                                                std::initializer_list<MuscleGroup> less) noexcept {
    MuscleShift shift;
    for (const MuscleGroup group : more) shift.by_group_[static_cast<std::size_t>(group)] = 1;
    for (const MuscleGroup group : less) shift.by_group_[static_cast<std::size_t>(group)] = -1;
    return shift;
  }

  /// +1, 0 or -1 step.
  [[nodiscard]] constexpr int operator[](MuscleGroup group) const noexcept {
    return by_group_[static_cast<std::size_t>(group)];
  }

  friend constexpr bool operator==(const MuscleShift&, const MuscleShift&) noexcept = default;

 private:
  std::array<signed char, all_muscle_groups.size()> by_group_{};
};

}  // namespace barwright::inline BARWRIGHT_ABI
