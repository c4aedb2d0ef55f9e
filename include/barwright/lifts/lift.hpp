// barwright/lifts/lift.hpp - a lift and what is changed about it
//
// A Lift is a base lift and up to eight modifiers: bench press, feet up, flat back. It only points
// at them: they are static objects that are not copied, and a lift is as cheap to pass on as ten
// pointers. Ratios multiply.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/lifts/stacking.hpp"

namespace barwright::inline BARWRIGHT_ABI {

class LiftId;

/// A base lift with up to eight modifiers.
///
///     const Lift lift = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
///     for (const Modifier& m : lift.modifiers()) use(m.name(), m.ratio(best));   // each factor
///
/// Points at static objects, so it is small and cheap to copy. Modifiers are kept in the order of
/// their keys, so that the order of adding does not matter.
class Lift {
 public:
  static constexpr std::size_t most_modifiers = 8;

  /// The lift without any change.
  /// @throws DomainError if it has no key.
  constexpr Lift(const BaseLift& base) : base_(&base) {  // implicit: a base lift is a lift
    if (base.key.empty()) detail::fail("a lift's key", "a short word", "nothing");
  }
  Lift(const BaseLift&&) = delete;  // the lift would point at what is gone

  [[nodiscard]] constexpr const BaseLift& base() const noexcept { return *base_; }
  /// In the order of their keys.
  [[nodiscard]] constexpr Handles<Modifier> modifiers() const& noexcept {
    const std::span<const Modifier* const> added(modifiers_, count_);
    return added;
  }
  void modifiers() const&& = delete;  // the view would outlive the lift
  [[nodiscard]] constexpr bool is_plain() const noexcept { return count_ == 0; }
  /// Whether it has this change, whatever is believed about it.
  [[nodiscard]] constexpr bool has(const Modifier& modifier) const noexcept {
    for (const Modifier& own : modifiers()) {
      if (own.same_as(modifier)) return true;
    }
    return false;
  }

  /// What it is called, for maps and for comparing with other lifts.
  [[nodiscard]] constexpr LiftId id() const noexcept;
  /// Whether it is the same lift: the same base with the same changes, whatever is believed about
  /// them. This is what a log is searched by.
  [[nodiscard]] constexpr bool same_as(const Lift& other) const noexcept {
    return order_by_name(other) == 0;
  }
  /// Whether one of `lifts`, any range of them, is the same lift.
  template <class Lifts>
  [[nodiscard]] constexpr bool is_among(const Lifts& lifts) const noexcept {
    for (const Lift& lift : lifts) {
      if (same_as(lift)) return true;
    }
    return false;
  }
  /// Equal in everything: with a ratio of one's own it is the same lift, but not equal.
  friend constexpr bool operator==(const Lift& a, const Lift& b) noexcept {
    bool is_equal = *a.base_ == *b.base_ && a.count_ == b.count_;
    for (std::size_t i = 0; is_equal && i < a.count_; ++i) {
      is_equal = *a.modifiers_[i] == *b.modifiers_[i];
    }
    return is_equal;
  }

  /// Whether `lift + modifier` is allowed.
  [[nodiscard]] constexpr bool accepts(const Modifier& modifier) const noexcept {
    return count_ < most_modifiers && modifier.applies_to(*base_) &&
           excluder_of(modifier) == nullptr;
  }

  /// The lift with one more change.
  /// @throws DomainError if the modifier does not apply to the base lift, is there already, sets
  ///   something another modifier sets, or is the ninth.
  [[nodiscard]] friend constexpr Lift operator+(const Lift& lift, const Modifier& modifier) {
    lift.require_accepts(modifier);
    Lift sum = lift;
    std::size_t place = sum.count_++;
    for (; place > 0 && modifier.key() < sum.modifiers_[place - 1]->key(); --place) {
      sum.modifiers_[place] = sum.modifiers_[place - 1];
    }
    sum.modifiers_[place] = &modifier;
    return sum;
  }
  friend Lift operator+(const Lift&, const Modifier&&) = delete;  // it would point at what is gone

  // -- the figures --

  /// The lift's max as a share of the base lift's.
  ///
  /// This, `max_from` and `rep_stretch` are constant expressions with `Stacking::bounds` only.
  /// @param best  the lifter's max on the base lift, unmodified; more than 0 kg
  [[nodiscard]] constexpr Range<double> ratio(Mass best,
                                              Stacking stacking = Stacking::bounds) const {
    detail::require_reference_max(best);
    auto product = Range<double>::exactly(1.0);
    for (const Modifier& modifier : modifiers()) {
      product = stacked(product, modifier.ratio(best), stacking);
    }
    return product;
  }

  /// What the max on this lift may be, from the max on the base lift.
  [[nodiscard]] constexpr Range<Mass> max_from(Mass best,
                                               Stacking stacking = Stacking::bounds) const {
    const Range<double> share = ratio(best, stacking);
    return {best * share.low, best * share.typical, best * share.high};
  }

  /// How many reps beyond the first are left at the same share of this lift's max, against
  /// the base lift at the same share of its own.
  [[nodiscard]] constexpr Range<double> rep_stretch(Stacking stacking = Stacking::bounds) const {
    auto product = Range<double>::exactly(1.0);
    for (const Modifier& modifier : modifiers()) {
      product = stacked(product, modifier.rep_stretch().value, stacking);
    }
    return product;
  }

  /// The base lift's rep curve as it is for this lift: stretched by the typical stretch.
  template <RepCurve C>
  [[nodiscard]] constexpr Stretched<C> curve(const C& of_base) const {
    return stretched(of_base, rep_stretch().typical);
  }

  /// The share of this lift's estimated max a lifter new to it starts from: the least any of its
  /// modifiers asks for.
  [[nodiscard]] constexpr double starting_share() const noexcept {
    double share = usual_starting_share;
    for (const Modifier& modifier : modifiers()) {
      if (modifier.starting_share() < share) share = modifier.starting_share();
    }
    return share;
  }

  // -- what else is known --

  /// What it asks of each muscle group.
  [[nodiscard]] constexpr Muscles muscles() const noexcept {
    Muscles result = base_->muscles;
    for (const MuscleGroup group : all_muscle_groups) {
      int steps = static_cast<int>(base_->muscles[group]);
      for (const Modifier& modifier : modifiers()) steps += modifier.muscles()[group];
      constexpr int most = static_cast<int>(Involvement::direct);
      result.at(group) = static_cast<Involvement>(steps < 0 ? 0 : steps > most ? most : steps);
    }
    return result;
  }

  /// How many dumbbells are held: 0, 1 or 2. Its load is all of them together.
  [[nodiscard]] constexpr int dumbbells() const noexcept {
    int count = base_->dumbbells;
    for (const Modifier& modifier : modifiers()) {
      if (modifier.dumbbells() > 0) count = modifier.dumbbells();
    }
    return count;
  }

  /// What is said about the base lift and each modifier, nothing twice.
  [[nodiscard]] constexpr NoteList notes(NoteKind kind) const {
    NoteList list;
    add_notes(list, base_->notes, kind);
    for (const Modifier& modifier : modifiers()) add_notes(list, modifier.notes(), kind);
    return list;
  }
  [[nodiscard]] constexpr NoteList requirements() const { return notes(NoteKind::requirement); }
  [[nodiscard]] constexpr NoteList cautions() const { return notes(NoteKind::caution); }

  /// "bench press, feet up, flat back"
  [[nodiscard]] constexpr Text name() const noexcept {
    Text text;
    text.append(base_->name);
    for (const Modifier& modifier : modifiers()) text.append(", ").append(modifier.name());
    return text;
  }

 private:
  friend class LiftId;

  /// By keys: base first, then modifiers.
  [[nodiscard]] constexpr std::strong_ordering order_by_name(const Lift& other) const noexcept {
    if (base_ != other.base_) {
      if (const auto order = base_->key <=> other.base_->key; order != 0) return order;
    }
    for (std::size_t i = 0; i < count_ && i < other.count_; ++i) {
      if (modifiers_[i] == other.modifiers_[i]) continue;
      const auto order = modifiers_[i]->key() <=> other.modifiers_[i]->key();
      if (order != 0) return order;
    }
    return count_ <=> other.count_;
  }

  /// The modifier of this lift that cannot go together with `modifier`, if any.
  [[nodiscard]] constexpr const Modifier* excluder_of(const Modifier& modifier) const noexcept {
    for (const Modifier& own : modifiers()) {
      if (own.excludes(modifier)) return &own;
    }
    return nullptr;
  }

  constexpr void require_accepts(const Modifier& modifier) const {
    if (!modifier.applies_to(*base_)) {
      detail::fail(ErrorCode::does_not_apply, "a modifier",
                   Text{}.append("one that applies to the ").append(base_->name), modifier.name());
    }
    if (const Modifier* other = excluder_of(modifier)) {
      Text allowed;
      if (other->same_as(modifier)) {
        allowed.append("added once");
      } else {
        allowed.append("one that can go together with ").append(other->name());
      }
      detail::fail(ErrorCode::contradiction, "a modifier", allowed, modifier.name());
    }
    if (count_ == most_modifiers) {
      detail::fail(ErrorCode::too_many, "the modifiers of a lift", "at most 8",
                   static_cast<double>(most_modifiers + 1));
    }
  }

  static constexpr void add_notes(NoteList& list, std::span<const Note> notes, NoteKind kind) {
    for (const Note& note : notes) {
      bool is_new = note.kind == kind;
      for (const Note& listed : list) is_new = is_new && listed.text != note.text;
      if (is_new) list.append(note);
    }
  }

  const BaseLift* base_;
  const Modifier* modifiers_[most_modifiers]{};
  std::size_t count_ = 0;
};

/// What a lift is called: the keys of its base and of its changes, and nothing that is believed
/// about them. Ordered and hashed, so that it serves as the key of a map.
class LiftId {
 public:
  constexpr explicit LiftId(const Lift& lift) noexcept : lift_(lift) {}

  friend constexpr bool operator==(const LiftId& a, const LiftId& b) noexcept {
    return a.lift_.same_as(b.lift_);
  }
  friend constexpr std::strong_ordering operator<=>(const LiftId& a, const LiftId& b) noexcept {
    return a.order(b);
  }
  /// The same in every run and on every machine (FNV-1a, 64 bits).
  [[nodiscard]] constexpr std::uint64_t hash() const noexcept {
    std::uint64_t mixed = 0xcbf29ce484222325;
    const auto mix = [&](std::string_view key) noexcept {
      for (const char c : key) mixed = (mixed ^ static_cast<unsigned char>(c)) * 0x100000001b3;
      mixed = (mixed ^ 0xffU) * 0x100000001b3;  // no byte of UTF-8: keeps the keys apart
    };
    mix(lift_.base().key);
    for (const Modifier& modifier : lift_.modifiers()) mix(modifier.key());
    return mixed;
  }

 private:
  [[nodiscard]] constexpr std::strong_ordering order(const LiftId& other) const noexcept {
    return lift_.order_by_name(other.lift_);
  }

  Lift lift_;
};

constexpr LiftId Lift::id() const noexcept { return LiftId(*this); }

/// A base lift with one change.
[[nodiscard]] constexpr Lift operator+(const BaseLift& base, const Modifier& modifier) {
  return Lift(base) + modifier;
}
Lift operator+(const BaseLift&, const Modifier&&) = delete;  // it would point at what is gone
Lift operator+(const BaseLift&&, const Modifier&) = delete;

}  // namespace barwright::inline BARWRIGHT_ABI

template <>
struct std::hash<barwright::LiftId> {
  std::size_t operator()(const barwright::LiftId& id) const noexcept {
    return static_cast<std::size_t>(id.hash());
  }
};
/// Equal lifts hash the same; so do lifts that are the same but for what is believed about them.
template <>
struct std::hash<barwright::Lift> {
  std::size_t operator()(const barwright::Lift& lift) const noexcept {
    return static_cast<std::size_t>(lift.id().hash());
  }
};
