// barwright/lifts/modifier.hpp - one change to a lift, and what it costs
//
// A modifier says what share of the max is left (its ratio), how much sooner the reps run out (its
// rep stretch), which muscles work more or less, what the lifter should be able to do first, and
// what to beware of. Every figure carries its evidence, and every figure can be replaced: a
// modifier of your own is the same kind of object as one of the catalogue's.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/lifts/stacking.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What a modifier sets about a lift. Two modifiers that set the same thing exclude each other.
enum class Setup : unsigned short {
  none = 0,
  bench_angle = 1,
  grip_width = 2,
  implement = 4,  ///< barbell, dumbbells, guided rail, hexagonal bar
  surface = 8,    ///< what the lifter lies on or stands on
  feet = 16,
  back = 32,
  lowering = 64,
  turnaround = 128,  ///< touch-and-go, paused, from a dead start
  range_of_motion = 256,
  bar_position = 512,
  stance = 1024,
  posture = 2048,  ///< standing or seated
};

[[nodiscard]] constexpr Setup operator|(Setup a, Setup b) noexcept {
  return static_cast<Setup>(static_cast<unsigned>(a) | static_cast<unsigned>(b));
}
[[nodiscard]] constexpr Setup operator&(Setup a, Setup b) noexcept {
  return static_cast<Setup>(static_cast<unsigned>(a) & static_cast<unsigned>(b));
}

/// The share of a lift's estimated max to start from when nothing about the movement is unusual
/// (common practice, no source; 50-70 % is also the first load of a max test in the ACSM guideline,
/// 9th ed. 2014, read).
inline constexpr double usual_starting_share = 0.70;

/// One change to a lift.
///
/// Starts as a key, a name and a ratio; the `with_...` functions return another with one thing set:
///
///     constexpr Modifier towel("towel", "bar stopped on a folded towel", {0.98, 1.02, 1.08});
///     constexpr Modifier mine = modifiers::feet_up.with_ratio({0.91, 0.93, 0.95});
///
/// A lift only points at its modifiers, so keep them where they outlive it, best as constants at
/// namespace scope as above. They cannot be copied, and a temporary cannot be added to a lift. All
/// texts and lists must outlive the modifier too.
class Modifier {
 public:
  Modifier& operator=(const Modifier&) = delete;

  /// @param ratio     the max with the change as a share of the max without it
  /// @param evidence  what its typical value rests on
  /// @param findings  what it was chosen from
  /// @throws DomainError unless the key is not empty and the ratio lies within 0.1 to 10.
  constexpr Modifier(std::string_view key, std::string_view name, const Range<double>& ratio,
                     Evidence evidence = Evidence::assumption,
                     std::span<const Finding> findings = {})
      : key_(key), name_(name) {
    if (key.empty()) detail::fail("a modifier's key", "a short word", "nothing");
    set_ratio({.value = ratio, .evidence = evidence, .findings = findings});
  }
  /// The same with a ratio that depends on the lifter's max on the base lift.
  constexpr Modifier(std::string_view key, std::string_view name, const StrengthScaling& scaling,
                     Evidence evidence = Evidence::assumption,
                     std::span<const Finding> findings = {})
      : Modifier(key, name, scaling.overall(), evidence, findings) {
    scaling_ = scaling;
  }

  // -- replacing figures --

  /// Another ratio, the same at any strength.
  [[nodiscard]] constexpr Modifier with_ratio(const Range<double>& ratio,
                                              Evidence evidence = Evidence::assumption,
                                              std::span<const Finding> findings = {}) const {
    Modifier changed(*this, Unscaled{});
    changed.set_ratio({.value = ratio, .evidence = evidence, .findings = findings});
    return changed;
  }
  /// Another ratio, which depends on the lifter's max on the base lift.
  [[nodiscard]] constexpr Modifier with_ratio(const StrengthScaling& scaling,
                                              Evidence evidence = Evidence::assumption,
                                              std::span<const Finding> findings = {}) const {
    Modifier changed = with_ratio(scaling.overall(), evidence, findings);
    changed.scaling_ = scaling;
    return changed;
  }
  /// How many reps beyond the first are left at the same share of the lift's own max, as a
  /// multiple: below 1 they run out sooner (see `stretched`).
  /// @throws DomainError unless it lies within 0.1 to 10.
  [[nodiscard]] constexpr Modifier with_rep_stretch(const Range<double>& stretch,
                                                    Evidence evidence = Evidence::assumption,
                                                    std::span<const Finding> findings = {}) const {
    detail::require_factor("a rep stretch", stretch);
    Modifier changed = *this;
    changed.rep_stretch_ = {.value = stretch, .evidence = evidence, .findings = findings};
    return changed;
  }
  /// The share of the lift's estimated max a lifter new to it starts from.
  /// @throws DomainError unless 0.1 <= share <= 1.
  [[nodiscard]] constexpr Modifier with_starting_share(double share) const {
    if (!(share >= 0.1 && share <= 1.0)) {
      detail::fail("a starting share", "a number from 0.1 to 1", share);
    }
    Modifier changed = *this;
    changed.starting_share_ = share;
    return changed;
  }

  // -- describing a modifier --

  [[nodiscard]] constexpr Modifier with_aliases(std::span<const std::string_view> names) const {
    Modifier changed = *this;
    changed.aliases_ = names;
    return changed;
  }
  /// The keys of the base lifts it applies to; none listed means all.
  [[nodiscard]] constexpr Modifier with_lifts(std::span<const std::string_view> keys) const {
    Modifier changed = *this;
    changed.lifts_ = keys;
    return changed;
  }
  [[nodiscard]] constexpr Modifier with_setup(Setup setup) const {
    Modifier changed = *this;
    changed.setup_ = setup;
    return changed;
  }
  /// How many dumbbells take the place of what the lift is done with otherwise; 0 changes nothing.
  [[nodiscard]] constexpr Modifier with_dumbbells(int count) const {
    if (!(count >= 0 && count <= 2)) {
      detail::fail("the dumbbells of a lift", "0 to 2", static_cast<double>(count));
    }
    Modifier changed = *this;
    changed.dumbbells_ = count;
    return changed;
  }
  [[nodiscard]] constexpr Modifier with_muscles(const MuscleShift& shift) const {
    Modifier changed = *this;
    changed.muscles_ = shift;
    return changed;
  }
  [[nodiscard]] constexpr Modifier with_notes(std::span<const Note> notes) const {
    Modifier changed = *this;
    changed.notes_ = notes;
    return changed;
  }

  // -- reading it --

  [[nodiscard]] constexpr std::string_view key() const noexcept { return key_; }
  [[nodiscard]] constexpr std::string_view name() const noexcept { return name_; }
  [[nodiscard]] constexpr std::span<const std::string_view> aliases() const noexcept {
    return aliases_;
  }

  /// The ratio for a lifter with this max on the base lift, unmodified.
  /// @throws DomainError unless best is more than 0 kg.
  [[nodiscard]] constexpr Range<double> ratio(Mass best) const {
    detail::require_reference_max(best);
    return scaling_ ? scaling_->at(best) : ratio_.value;
  }
  /// The ratio for a lifter of unknown strength, with its evidence.
  [[nodiscard]] constexpr const Figure& ratio_figure() const noexcept { return ratio_; }
  [[nodiscard]] constexpr const std::optional<StrengthScaling>& strength_scaling() const noexcept {
    return scaling_;
  }
  [[nodiscard]] constexpr const Figure& rep_stretch() const noexcept { return rep_stretch_; }
  [[nodiscard]] constexpr double starting_share() const noexcept { return starting_share_; }

  [[nodiscard]] constexpr std::span<const std::string_view> lifts() const noexcept {
    return lifts_;
  }
  [[nodiscard]] constexpr bool applies_to(const BaseLift& base) const noexcept {
    for (const std::string_view lift : lifts_) {
      if (lift == base.key) return true;
    }
    return lifts_.empty();
  }
  [[nodiscard]] constexpr Setup setup() const noexcept { return setup_; }
  /// Whether it sets at least one of these.
  [[nodiscard]] constexpr bool sets_any_of(Setup setup) const noexcept {
    return (setup_ & setup) != Setup::none;
  }
  [[nodiscard]] constexpr bool excludes(const Modifier& other) const noexcept {
    return same_as(other) || sets_any_of(other.setup_);
  }
  [[nodiscard]] constexpr int dumbbells() const noexcept { return dumbbells_; }
  [[nodiscard]] constexpr const MuscleShift& muscles() const noexcept { return muscles_; }
  [[nodiscard]] constexpr std::span<const Note> notes() const noexcept { return notes_; }

  /// Whether it is the same change, whatever is believed about it: whether the keys are the same.
  [[nodiscard]] constexpr bool same_as(const Modifier& other) const noexcept {
    return key_ == other.key_;
  }
  /// Equal in everything: with another ratio it is the same change, but not equal.
  friend constexpr bool operator==(const Modifier& a, const Modifier& b) noexcept {
    return &a == &b ||
           (a.key_ == b.key_ && a.name_ == b.name_ && detail::same_items(a.aliases_, b.aliases_) &&
            detail::same_items(a.lifts_, b.lifts_) && detail::same_items(a.notes_, b.notes_) &&
            a.ratio_ == b.ratio_ && a.scaling_ == b.scaling_ && a.rep_stretch_ == b.rep_stretch_ &&
            a.starting_share_ == b.starting_share_ && a.muscles_ == b.muscles_ &&
            a.setup_ == b.setup_ && a.dumbbells_ == b.dumbbells_);
  }

 private:
  constexpr Modifier(const Modifier&) = default;  // for the `with_...` functions

  // Without the scaling, which some compilers cannot take back out in a constant expression.
  struct Unscaled {};
  constexpr Modifier(const Modifier& other, Unscaled) noexcept
      : key_(other.key_),
        name_(other.name_),
        aliases_(other.aliases_),
        lifts_(other.lifts_),
        notes_(other.notes_),
        ratio_(other.ratio_),
        rep_stretch_(other.rep_stretch_),
        starting_share_(other.starting_share_),
        muscles_(other.muscles_),
        setup_(other.setup_),
        dumbbells_(other.dumbbells_) {}

  constexpr void set_ratio(const Figure& ratio) {
    detail::require_factor("a ratio to the lift without the change", ratio.value);
    ratio_ = ratio;
  }

  std::string_view key_{};
  std::string_view name_{};
  std::span<const std::string_view> aliases_{};
  std::span<const std::string_view> lifts_{};
  std::span<const Note> notes_{};
  Figure ratio_{};
  std::optional<StrengthScaling> scaling_{};
  Figure rep_stretch_{.value = {0.9, 1.0, 1.1}};  // one curve for all, give or take: assumption
  double starting_share_ = usual_starting_share;
  MuscleShift muscles_{};
  Setup setup_ = Setup::none;
  int dumbbells_ = 0;
};

}  // namespace barwright::inline BARWRIGHT_ABI
