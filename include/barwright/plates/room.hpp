// barwright/plates/room.hpp - from a load to the plates on the bar, and a whole ramp with few moves
//
// A load on paper is a number; a load in a room is a bar, its collars and pairs of plates, of which
// there may be only so many, some in kilograms and some in pounds. A Room answers what can be
// loaded: the nearest, at most or at least a given mass, with the fewest plates. Largest first is
// not always fewest: 60 lb a side is 45 + 10 + 5, or 35 + 25. A ramp is planned as a whole.
//
// Everything inside is a whole number of 1e-11 kg, of which a thousandth of a kilogram and of a
// pound both are multiples, so that kilograms and pounds mix exactly. Only the load asked for is a
// floating-point number. It is rounded once to that lattice, and a loading within a microgram of it
// counts as equal to it, so that 0.7 x 100 kg is 70 kg whatever its last digit.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>

#include "barwright/core/mass.hpp"
#include "barwright/plates/detail/kinds.hpp"
#include "barwright/plates/detail/rack.hpp"
#include "barwright/plates/loading.hpp"

namespace barwright::inline BARWRIGHT_ABI {

struct Ramp;

/// A bar, its collars, and the plates there are.
///
/// Of the loadings with the mass asked for, the answer has the fewest plates; of those, the heavier
/// plate at the first difference. Plates are listed inside to outside, heaviest innermost, at most
/// 32 on a side.
///
/// Where kinds run out or both units are mixed, the answer is found by search: microseconds in a
/// usual room, and then nothing is allocated; at most some 40 ms with many kinds of unusual mass.
/// It is exact but in one case: where so many kinds lie on so fine a lattice (a dozen weighed to
/// the gram, and over 130 kg a side) that neither a short search nor a table of all sums can settle
/// it. Then a longer search gives a loading within 50 g of the load, not always the closest or the
/// one with the fewest plates: a 20 kg plate of competition may be off by as much (0.25 %; rule
/// books, from memory, unverified).
///
/// Each question may throw DomainError in a room that cannot be searched even so: many plates of
/// hundreds of kilograms each.
class Room {
 public:
  constexpr explicit Room(const Bar& bar, const Plates& plates = {}, const Collars& collars = {})
      : bar_(bar), collars_(collars), plates_(plates), rack_(rack_of(plates)) {}

  [[nodiscard]] constexpr const Bar& bar() const noexcept { return bar_; }
  [[nodiscard]] constexpr const Collars& collars() const noexcept { return collars_; }
  [[nodiscard]] constexpr const Plates& plates() const noexcept { return plates_; }

  /// The same room with another bar: 15 kg in place of 20 kg.
  [[nodiscard]] constexpr Room with(const Bar& bar) const {
    Room room = *this;
    room.bar_ = bar;
    return room;
  }
  /// The same room with other collars.
  [[nodiscard]] constexpr Room with(const Collars& collars) const {
    Room room = *this;
    room.collars_ = collars;
    return room;
  }
  /// The same room with more plates.
  [[nodiscard]] constexpr Room with(const Plate& plate) const {
    Plates plates = plates_;
    return Room(bar_, plates.add(plate), collars_);
  }

  /// Bar and collars: the lightest load there is.
  [[nodiscard]] constexpr Loading empty_bar() const noexcept { return Loading(bar_, collars_); }

  /// The heaviest loading that is not above `load`; nothing when the empty bar is above it.
  [[nodiscard]] constexpr std::optional<Loading> at_most(Mass load) const {
    return loading_if(closest(load, detail::Side::below));
  }

  /// The lightest loading that is not below `load`; nothing when the plates do not suffice.
  [[nodiscard]] constexpr std::optional<Loading> at_least(Mass load) const {
    return loading_if(closest(load, detail::Side::above));
  }

  /// The loading nearest to `load`, the lighter one when two are equally near. There always is one,
  /// if only the empty bar; `at_most` and `at_least` tell what lies on either side.
  [[nodiscard]] constexpr Loading nearest(Mass load) const { return loading(nearest_found(load)); }

  /// By the rule asked for; nothing when there is no such loading.
  [[nodiscard]] constexpr std::optional<Loading> load(Mass load, Rounding rounding) const {
    if (rounding == Rounding::down) return at_most(load);
    if (rounding == Rounding::up) return at_least(load);
    return nearest(load);
  }

 private:
  friend Ramp plan_ramp(const Room& room, std::span<const Mass> loads, Rounding rounding);
  friend Ramp practical_ramp(const Room& room, std::span<const Mass> loads, double leeway);
  using Found = detail::Found;

  [[nodiscard]] static constexpr detail::Rack rack_of(const Plates& plates) {
    detail::Kinds kinds;
    for (const Plate& plate : plates) {
      kinds.of[kinds.size++] = {.pair = 2 * plate.mass().ticks(),
                                .limit = plate.per_side(),
                                .lattice = plate.mass().unit() == Unit::kg ? 0 : 1};
    }
    return detail::Rack(kinds);
  }

  [[nodiscard]] constexpr detail::Ticks empty_ticks() const noexcept {
    return bar_.mass.ticks() + 2 * collars_.each.ticks();
  }

  [[nodiscard]] constexpr Found closest(Mass load, detail::Side side) const {
    const detail::Ticks goal = detail::to_ticks(load) - empty_ticks();
    return rack_.closest(
        side == detail::Side::below ? goal + detail::equal_within : goal - detail::equal_within,
        side);
  }

  [[nodiscard]] constexpr Found nearest_found(Mass load) const {
    const Found below = closest(load, detail::Side::below);
    const detail::Ticks goal = detail::to_ticks(load) - empty_ticks();
    if (below.mass >= 0 && goal - below.mass <= detail::equal_within) return below;
    const Found above = closest(load, detail::Side::above);
    const bool is_lighter =
        above.mass < 0 ||
        (below.mass >= 0 && goal - below.mass <= above.mass - goal + detail::equal_within);
    return is_lighter ? below : above;
  }

  [[nodiscard]] constexpr Loading loading(const Found& found) const {
    Loading result = empty_bar();
    for (std::size_t k = 0; k < plates_.size(); ++k) {
      for (int i = 0; i < found.counts.of[k]; ++i) result.put_on(plates_[k].mass());
    }
    return result;
  }
  [[nodiscard]] constexpr std::optional<Loading> loading_if(const Found& found) const {
    if (found.mass < 0) return std::nullopt;
    return loading(found);
  }

  Bar bar_;
  Collars collars_;
  Plates plates_;
  detail::Rack rack_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
