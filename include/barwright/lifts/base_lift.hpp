// barwright/lifts/base_lift.hpp - a lift as it is usually done, before anything is changed about it
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/muscles.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Which half of the body a lift mainly trains.
enum class Region : unsigned char { upper_body, lower_body };

[[nodiscard]] constexpr std::string_view to_text(Region region) noexcept {
  return region == Region::upper_body ? "upper body" : "lower body";
}

/// What kind of movement a lift is.
enum class LiftFamily : unsigned char {
  horizontal_press,
  overhead_press,
  squat,
  deadlift,
  hip_extension,
  pull,
  single_joint,
  trunk,
  /// Lifted by speed: a set ends when the bar slows, long before a rep fails, so that
  /// reps say nothing about the max. Nothing is planned for it by a rep curve.
  explosive,
};

[[nodiscard]] constexpr std::string_view to_text(LiftFamily family) noexcept {
  switch (family) {
    case LiftFamily::horizontal_press: return "horizontal press";
    case LiftFamily::overhead_press: return "overhead press";
    case LiftFamily::squat: return "squat";
    case LiftFamily::deadlift: return "deadlift";
    case LiftFamily::hip_extension: return "hip extension";
    case LiftFamily::pull: return "pull";
    case LiftFamily::single_joint: return "single-joint lift";
    case LiftFamily::trunk: return "trunk work";
    case LiftFamily::explosive: return "explosive lift";
  }
  return "";
}

namespace detail {

/// Makes what holds it impossible to copy: what is pointed at is to be the one and only.
struct NotCopied {
  constexpr NotCopied() noexcept = default;
  NotCopied(const NotCopied&) = delete;
  NotCopied& operator=(const NotCopied&) = delete;
};

}  // namespace detail

/// A lift as it is usually done. A static object: lifts point at it, and it is never copied. All
/// its texts must outlive it.
///
///     constexpr BaseLift log_press{.key = "log_press", .name = "log press", .family = ...};
struct BaseLift {
  std::string_view key{};   ///< its identity: "bench_press"
  std::string_view name{};  ///< as people write it: "bench press"
  std::span<const std::string_view> aliases{};
  LiftFamily family = LiftFamily::single_joint;
  Region region = Region::upper_body;
  bool is_bodyweight = false;  ///< the body is moved, and nothing is held over it: a push-up
  bool is_machine = false;     ///< what is moved runs in a frame: a leg press
  bool has_stack = false;      ///< a machine whose load is set by a pin in a stack: a pulldown
  int dumbbells = 0;           ///< how many are held, 0 to 2; the load is all of them together
  /// Of a bodyweight lift: how much of the body's mass is lifted, beside what hangs from a belt;
  /// nothing where it is not known. It must hold for the lift without any change.
  std::optional<Figure> body_share{};
  Muscles muscles{};
  std::span<const Note> notes{};
  std::span<const Finding> findings{};  ///< how its max compares with other base lifts
  [[no_unique_address]] detail::NotCopied not_copied{};

  /// Whether it is called the same, whatever is said about it.
  [[nodiscard]] constexpr bool same_as(const BaseLift& other) const noexcept {
    return key == other.key;
  }
  /// Equal in everything.
  friend constexpr bool operator==(const BaseLift& a, const BaseLift& b) noexcept {
    return &a == &b ||
           (a.key == b.key && a.name == b.name && detail::same_items(a.aliases, b.aliases) &&
            a.family == b.family && a.region == b.region && a.is_bodyweight == b.is_bodyweight &&
            a.is_machine == b.is_machine && a.has_stack == b.has_stack &&
            a.dumbbells == b.dumbbells && a.body_share == b.body_share && a.muscles == b.muscles &&
            detail::same_items(a.notes, b.notes) && detail::same_items(a.findings, b.findings));
  }
};

/// What a bodyweight lift lifts in all: its share of the body, and what is added to it whole.
///
///     const auto lifted = lifted_mass(lifts::pull_up, 80_kg, 20_kg);   // belt and body
///
/// @param body   the lifter's body mass
/// @param added  what hangs from a belt or is worn
/// @returns nothing for a lift whose share is not known
[[nodiscard]] constexpr std::optional<Range<Mass>> lifted_mass(const BaseLift& lift, Mass body,
                                                               Mass added) {
  if (!lift.body_share) return std::nullopt;
  const Range<double>& share = lift.body_share->value;
  return Range<Mass>{body * share.low + added, body * share.typical + added,
                     body * share.high + added};
}

}  // namespace barwright::inline BARWRIGHT_ABI
