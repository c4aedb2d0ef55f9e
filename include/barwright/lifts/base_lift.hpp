// barwright/lifts/base_lift.hpp - a lift as it is usually done, before anything is changed about it
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <span>
#include <string_view>

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
  pull,
  single_joint,
};

[[nodiscard]] constexpr std::string_view to_text(LiftFamily family) noexcept {
  switch (family) {
    case LiftFamily::horizontal_press: return "horizontal press";
    case LiftFamily::overhead_press: return "overhead press";
    case LiftFamily::squat: return "squat";
    case LiftFamily::deadlift: return "deadlift";
    case LiftFamily::pull: return "pull";
    case LiftFamily::single_joint: return "single-joint lift";
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
            a.is_machine == b.is_machine && a.muscles == b.muscles &&
            detail::same_items(a.notes, b.notes) && detail::same_items(a.findings, b.findings));
  }
};

}  // namespace barwright::inline BARWRIGHT_ABI
