// barwright/plates/loading.hpp - a bar, its collars and its plates: what is on them, printed and
// drawn
//
// Iron is marked in kilograms or pounds, and a gym may mix both. A MarkedMass keeps the number and
// the unit as they are marked, so that a loading adds up exactly. Here is what a loading is made
// of; plates.hpp finds the one for a load.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <iosfwd>
#include <span>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/text.hpp"
#include "barwright/plates/detail/kinds.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A mass as it is marked on the iron: a number and its unit, exact to a thousandth of the unit.
///
/// Compares by exact mass: 45 lb is more than 20 kg.
class MarkedMass {
 public:
  static constexpr double largest = 1000.0;

  constexpr MarkedMass() noexcept = default;  ///< nothing: 0 kg

  /// @throws DomainError unless 0 <= value <= 1000 in whole thousandths.
  constexpr MarkedMass(double value, Unit unit) : unit_(unit) {
    const double thousandths = value * 1000.0;
    constexpr double noise = 1e-6;
    if (!(value >= 0.0 && value <= largest)) fail_out_of_range(value);
    thousandths_ = static_cast<std::int32_t>(thousandths + 0.5);
    const double off = thousandths - thousandths_;
    if (!(off <= noise && off >= -noise)) fail_out_of_range(value);
  }

  [[nodiscard]] constexpr double value() const noexcept { return thousandths_ / 1000.0; }
  [[nodiscard]] constexpr Unit unit() const noexcept { return unit_; }
  [[nodiscard]] constexpr Mass mass() const { return Mass::from(value(), unit_); }
  [[nodiscard]] constexpr bool is_zero() const noexcept { return thousandths_ == 0; }

  /// In whole ticks of 1e-11 kg.
  [[nodiscard]] constexpr detail::Ticks ticks() const noexcept {
    return thousandths_ * (unit_ == Unit::kg ? detail::ticks_per_kg / 1000 : 45'359'237);
  }
  [[nodiscard]] constexpr std::int32_t thousandths() const noexcept { return thousandths_; }

  friend constexpr bool operator==(MarkedMass a, MarkedMass b) noexcept {
    return a.ticks() == b.ticks();
  }
  friend constexpr auto operator<=>(MarkedMass a, MarkedMass b) noexcept {
    return a.ticks() <=> b.ticks();
  }

 private:
  [[noreturn]] static void fail_out_of_range(double value) {
    detail::fail("a marked mass", "a number from 0 to 1000 in whole thousandths", value);
  }

  std::int32_t thousandths_ = 0;
  Unit unit_ = Unit::kg;
};

/// "2.5 kg"
[[nodiscard]] inline Text to_text(MarkedMass mass) noexcept {
  return Text{}.append(mass.value()).append(" ").append(to_text(mass.unit()));
}

template <class Traits>
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out,
                                             MarkedMass mass) {
  return out << to_text(mass);
}

/// What the plates go on: a bar, or a loading machine's empty sled.
struct Bar {
  MarkedMass mass{};
  std::string_view name = "bar";  ///< how it prints; must outlive the Bar

  /// The name must outlive the Bar.
  constexpr explicit Bar(MarkedMass mass_, std::string_view name_ = "bar") noexcept
      : mass(mass_), name(name_) {}
  /// @throws DomainError unless 0 <= value <= 1000 in whole thousandths.
  constexpr Bar(double value, Unit unit, std::string_view name_ = "bar")
      : mass(value, unit), name(name_) {}

  friend constexpr bool operator==(const Bar&, const Bar&) = default;
};

/// The two collars that hold the plates. Spring clips are usually not counted: leave them out.
struct Collars {
  MarkedMass each{};

  constexpr Collars() noexcept = default;  ///< none, or not counted
  /// Two of this mass.
  constexpr explicit Collars(MarkedMass each_) noexcept : each(each_) {}
  /// @throws DomainError unless 0 <= value <= 1000 in whole thousandths.
  constexpr Collars(double value, Unit unit) : each(value, unit) {}

  friend constexpr bool operator==(const Collars&, const Collars&) = default;
};

/// One kind of plate, and how many of it each side can have.
class Plate {
 public:
  /// As many as a side holds: there are always enough of it.
  static constexpr int unlimited = detail::most_plates_a_side;

  /// @param per_side  pairs in the room; `unlimited` and above mean that it never runs out
  /// @throws DomainError unless mass > 0 and per_side >= 1.
  constexpr explicit Plate(MarkedMass mass, int per_side = unlimited)
      : mass_(mass), per_side_(per_side < unlimited ? per_side : unlimited) {
    if (mass.is_zero()) detail::fail("a plate's mass", "more than 0", mass.value());
    if (per_side < 1) {
      detail::fail("a plate's number per side", "1 or more", static_cast<double>(per_side));
    }
  }
  /// @throws DomainError also unless value <= 1000 in whole thousandths.
  constexpr Plate(double value, Unit unit, int per_side = unlimited)
      : Plate(MarkedMass(value, unit), per_side) {}

  [[nodiscard]] constexpr MarkedMass mass() const noexcept { return mass_; }
  [[nodiscard]] constexpr int per_side() const noexcept { return per_side_; }
  [[nodiscard]] constexpr bool is_unlimited() const noexcept { return per_side_ == unlimited; }

  friend constexpr bool operator==(const Plate&, const Plate&) = default;

 private:
  friend class Plates;
  constexpr Plate() noexcept = default;

  MarkedMass mass_{};
  int per_side_ = 0;
};

/// The plates of a room: at most 24 kinds, heaviest first, each kind once.
class Plates {
 public:
  static constexpr std::size_t most_kinds = detail::most_kinds;

  constexpr Plates() noexcept = default;

  /// @throws DomainError for more than 24 kinds.
  constexpr Plates(std::initializer_list<Plate> plates) {
    for (const Plate& plate : plates) add(plate);
  }
  /// Kinds that never run out, all in one unit.
  constexpr Plates(Unit unit, std::initializer_list<double> masses) {
    for (const double mass : masses) add(Plate(mass, unit));
  }

  /// Adds to what is there already: two pairs of 20 kg and one more are three.
  /// @throws DomainError for more than 24 kinds.
  constexpr Plates& add(const Plate& plate) {
    std::size_t at = 0;
    while (at < size_ && plates_[at].mass() > plate.mass()) ++at;
    if (at < size_ && plates_[at].mass() == plate.mass()) {
      plates_[at] = Plate(plates_[at].mass(), plates_[at].per_side() + plate.per_side());
      return *this;
    }
    if (size_ == most_kinds) {
      detail::fail(ErrorCode::too_many, "the kinds of plate in a room", "at most 24",
                   static_cast<double>(size_ + 1));
    }
    for (std::size_t i = size_; i > at; --i) plates_[i] = plates_[i - 1];
    plates_[at] = plate;
    ++size_;
    return *this;
  }

  [[nodiscard]] constexpr const Plate* begin() const noexcept { return plates_; }
  [[nodiscard]] constexpr const Plate* end() const noexcept { return plates_ + size_; }
  [[nodiscard]] constexpr std::size_t size() const noexcept { return size_; }
  [[nodiscard]] constexpr const Plate& operator[](std::size_t i) const noexcept {
    return plates_[i];
  }

 private:
  Plate plates_[most_kinds] = {};
  std::size_t size_ = 0;
};

/// A bar with its collars and plates. Holds everything inside itself; copying never allocates.
class Loading {
 public:
  static constexpr int most_plates = detail::most_plates_a_side;  ///< on one side

  /// A bar without plates.
  constexpr explicit Loading(const Bar& bar, const Collars& collars = {}) noexcept
      : bar_(bar), collars_(collars) {}

  /// What somebody loaded, to be added up.
  /// @throws DomainError for more than 32 plates a side.
  constexpr Loading(const Bar& bar, const Collars& collars,
                    std::initializer_list<MarkedMass> inside_to_outside)
      : Loading(bar, collars) {
    for (const MarkedMass plate : inside_to_outside) put_on(plate);
  }

  /// Puts one more plate on each side, outside the others.
  /// @throws DomainError for more than 32 plates a side.
  constexpr void put_on(MarkedMass plate) {
    if (size_ == most_plates) {
      detail::fail(ErrorCode::too_many, "the plates on one side", "at most 32",
                   static_cast<double>(size_ + 1));
    }
    plates_[size_++] = plate;
  }

  [[nodiscard]] constexpr const Bar& bar() const noexcept { return bar_; }
  [[nodiscard]] constexpr const Collars& collars() const noexcept { return collars_; }
  /// The plates of one side, inside to outside.
  [[nodiscard]] constexpr std::span<const MarkedMass> plates() const& noexcept {
    return {plates_, static_cast<std::size_t>(size_)};
  }
  void plates() const&& = delete;  // the span would outlive the loading

  /// Everything together. Exact where all marks are in one unit: a bar of 45 lb with 45 lb a side
  /// equals 135_lb. With both units the exact sum is rounded once.
  [[nodiscard]] constexpr Mass total() const {
    Sum sum;
    sum.add(bar_.mass, 1);
    sum.add(collars_.each, 2);
    for (const MarkedMass plate : plates()) sum.add(plate, 2);
    return sum.mass();
  }
  /// The plates of one side, without its collar.
  [[nodiscard]] constexpr Mass per_side() const {
    Sum sum;
    for (const MarkedMass plate : plates()) sum.add(plate, 1);
    return sum.mass();
  }

  friend constexpr bool operator==(const Loading&, const Loading&) = default;

 private:
  /// A sum of marks, each unit by itself.
  struct Sum {
    std::int64_t kg = 0;  // thousandths
    std::int64_t lb = 0;

    constexpr void add(MarkedMass mass, int times) noexcept {
      (mass.unit() == Unit::kg ? kg : lb) += std::int64_t{mass.thousandths()} * times;
    }
    [[nodiscard]] constexpr Mass mass() const {
      if (lb == 0) return Mass::from_kg(static_cast<double>(kg) / 1000.0);
      if (kg == 0) return Mass::from_lb(static_cast<double>(lb) / 1000.0);
      const detail::Ticks ticks = kg * (detail::ticks_per_kg / 1000) + lb * 45'359'237;
      return Mass::from_kg(static_cast<double>(ticks) / static_cast<double>(detail::ticks_per_kg));
    }
  };

  Bar bar_;
  Collars collars_;
  MarkedMass plates_[most_plates] = {};
  int size_ = 0;
};

namespace detail {

/// A plate's mark, with its unit only where that is not the bar's.
template <std::size_t N>
void append_mark(BasicText<N>& text, MarkedMass mark, Unit bar, std::string_view space) {
  text.append(mark.value());
  if (mark.unit() != bar) text.append(space).append(to_text(mark.unit()));
}

}  // namespace detail

/// "20 kg bar + 25, 15, 2.5 and a 2.5 kg collar each side = 110 kg", in the bar's unit; a plate
/// marked in the other unit says so. A total of both units is rounded to three decimals.
[[nodiscard]] inline BasicText<511> to_text(const Loading& loading) {
  BasicText<511> text;
  const Unit unit = loading.bar().mass.unit();
  text.append(to_text(loading.bar().mass)).append(" ").append(loading.bar().name);
  std::string_view before = " + ";
  for (const MarkedMass plate : loading.plates()) {
    text.append(before);
    detail::append_mark(text, plate, unit, " ");
    before = ", ";
  }
  const bool collars = !loading.collars().each.is_zero();
  if (collars) {
    text.append(loading.plates().empty() ? " + a " : " and a ");
    text.append(to_text(loading.collars().each)).append(" collar");
  }
  if (collars || !loading.plates().empty()) text.append(" each side");
  return text.append(" = ").append(to_text(loading.total(), unit, 3));
}

template <class Traits>
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out,
                                             const Loading& loading) {
  return out << to_text(loading);
}

}  // namespace barwright::inline BARWRIGHT_ABI
