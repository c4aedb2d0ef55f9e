// barwright/plan/loading.hpp - from the load for a session to what goes on the bar or in the hands
//
// What can be loaded, the steps above and below it, and the sets on the way up with their plates.
// A bar is loaded from a room, one or two dumbbells are taken from a rack, and a dumbbell load is
// all of them together; a cable or machine with a stack has a pin. What hangs from a belt is loaded
// from the same plates, one by one; such a load is body and belt together.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/plates/dumbbells.hpp"
#include "barwright/plates/loading.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/warm_up.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A usual rack of dumbbells in a unit.
[[nodiscard]] inline FixedLoads usual_dumbbells(Unit unit) {
  return unit == Unit::kg ? dumbbells(2.5, 60.0, 2.5, unit) : dumbbells(5.0, 130.0, 5.0, unit);
}

/// A usual stack in a unit. Common practice, no source: stacks differ.
[[nodiscard]] inline FixedLoads usual_stack(Unit unit) {
  return unit == Unit::kg ? machine_stack(5.0, 5.0, 30, unit) : machine_stack(10.0, 10.0, 30, unit);
}

/// What hangs from a belt.
struct Belt {
  Mass added{};                      ///< beside the body
  std::vector<MarkedMass> plates{};  ///< the heaviest first; none: the body alone
};

/// A load that there is: a loaded bar, one or two dumbbells, a stack with its pin, or the body with
/// a belt.
struct LoadedWith {
  Mass load{};                           ///< everything together, what is moved of the body, too
  std::optional<Loading> bar{};          ///< nothing without a bar
  std::optional<MarkedMass> dumbbell{};  ///< each of them; nothing without
  std::optional<MarkedMass> pin{};       ///< what is lifted of a stack; nothing without one
  int dumbbells = 0;                     ///< how many are held
  std::optional<Belt> belt{};            ///< of a lift that moves the body

  /// What a log says of it: of a belt only what hangs from it.
  [[nodiscard]] Mass logged() const noexcept { return belt ? belt->added : load; }
};

/// One line of a session: sets of some reps with one load.
struct PlannedSet {
  bool is_work = false;
  int sets = 1;
  Reps reps{1};
  LoadedWith with{};
  int taken_off = 0;  ///< plates that come off each side first
  int put_on = 0;     ///< plates that then go on each side
};

/// The room without the plates lighter than `least` each; as it is where none would be left.
[[nodiscard]] Room without_plates_below(const Room& room, Mass least);

/// A load near `wanted` that takes few plates: within `leeway` of it the fewest, and of those the
/// nearest. A warm-up is only about right in any case.
[[nodiscard]] Mass handy_load(const Room& room, Mass wanted, Mass leeway);

/// Which plates are used, and how near a warm-up is to its step; all of them and as near as can be,
/// where nothing is said. The planners' figures are in rules.hpp.
struct PlateRule {
  Mass least{};              ///< lighter ones stay on their tree: the step does not need them
  Mass least_in_warm_ups{};  ///< the same on the way up
  double leeway = 0.0;       ///< of the work load, for a warm-up that takes fewer plates
};

/// What there is to load a lift with.
class Equipment {
 public:
  /// @param rack  of dumbbells, or the stack; the usual one in the room's unit where none is given
  /// @param body  what of it the lift moves; then the plates hang from a belt
  Equipment(const Lift& lift, const Room& room, const std::optional<FixedLoads>& rack,
            const PlateRule& rule = {}, std::optional<Mass> body = std::nullopt)
      : body_(body),
        room_(without_plates_below(room, rule.least)),
        rule_(rule),
        family_(lift.base().family),
        held_(lift.dumbbells()) {
    const Unit unit = room.bar().mass.unit();
    if (held_ > 0) {
      rack_ = rack ? *rack : usual_dumbbells(unit);
    } else if (lift.base().has_stack) {
      rack_ = rack ? *rack : usual_stack(unit);
    }
  }

  /// The bar and the plates that are used.
  [[nodiscard]] const Room& room() const noexcept { return room_; }
  [[nodiscard]] bool is_dumbbells() const noexcept { return held_ > 0; }
  [[nodiscard]] bool is_stack() const noexcept { return rack_ && held_ == 0; }
  [[nodiscard]] bool is_belt() const noexcept { return body_.has_value(); }
  /// The lightest load there is.
  [[nodiscard]] LoadedWith lightest() const {
    if (body_) return hung(Mass{});
    return rack_ ? all_of(rack_->nearest(Mass{})) : on(room_.empty_bar());
  }
  /// The heaviest load that is not above `load`; nothing where all are.
  [[nodiscard]] std::optional<LoadedWith> at_most(Mass load) const;
  /// The lightest load that is not below `load`; nothing where all are.
  [[nodiscard]] std::optional<LoadedWith> at_least(Mass load) const;
  /// The next heavier, and the next lighter load.
  [[nodiscard]] std::optional<LoadedWith> above(Mass load) const {
    return at_least(load * (1.0 + apart));
  }
  [[nodiscard]] std::optional<LoadedWith> below(Mass load) const {
    return at_most(load * (1.0 - apart));
  }

  /// The sets on the way up to `work`, and the work sets.
  [[nodiscard]] std::vector<PlannedSet> session(const LoadedWith& work, Reps reps, int sets) const {
    if (body_) return with_belt(work, reps, sets);
    return rack_ ? without_bar(work, reps, sets) : with_bar(work, reps, sets);
  }

 private:
  static constexpr double apart = 1e-9;

  [[nodiscard]] static LoadedWith on(const Loading& loading) {
    return {.load = loading.total(), .bar = loading};
  }
  /// Into how many equal parts the load is divided.
  [[nodiscard]] int parts() const noexcept { return std::max(held_, 1); }
  [[nodiscard]] LoadedWith all_of(MarkedMass each) const {
    if (held_ == 0) return {.load = each.mass(), .pin = each};
    return {.load = held_ * each.mass(), .dumbbell = each, .dumbbells = held_};
  }
  [[nodiscard]] static std::optional<LoadedWith> on_if(const std::optional<Loading>& loading) {
    if (!loading) return std::nullopt;
    return on(*loading);
  }
  [[nodiscard]] std::optional<LoadedWith> all_of_if(const std::optional<MarkedMass>& each) const {
    if (!each) return std::nullopt;
    return all_of(*each);
  }

  // ---- a belt

  /// The plates there are, one by one, the heaviest first; those of the bar's unit.
  [[nodiscard]] std::vector<MarkedMass> single_plates() const;
  /// The body with about so much from the belt: what the heaviest plates first add up to.
  [[nodiscard]] LoadedWith hung(Mass added) const;
  /// @param step  1: no lighter than `load`, -1: no heavier
  [[nodiscard]] std::optional<LoadedWith> nearest_belt(Mass load, int step) const;
  /// The body alone, then half and four fifths of a belt that is worth it (common practice, no
  /// source).
  [[nodiscard]] std::vector<PlannedSet> with_belt(const LoadedWith& work, Reps reps,
                                                  int sets) const;

  [[nodiscard]] std::vector<PlannedSet> without_bar(const LoadedWith& work, Reps reps,
                                                    int sets) const;

  [[nodiscard]] std::vector<PlannedSet> with_bar(const LoadedWith& work, Reps reps, int sets) const;

  std::optional<Mass> body_;
  Room room_;  // without the plates that are too small to matter
  PlateRule rule_;
  LiftFamily family_;
  int held_;                          // dumbbells
  std::optional<FixedLoads> rack_{};  // of dumbbells, or the stack
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/loading.ipp"
#endif
