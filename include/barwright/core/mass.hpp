// barwright/core/mass.hpp - mass as a strong type, in kilograms or pounds, and rounding to a step
//
// A load without its unit is the commonest mistake in a training log, so a number never turns into
// a Mass by itself: write 100_kg, 225_lb or Mass::from(value, unit). The pound is exactly
// 0.45359237 kg (international yard and pound agreement of 1959; NIST SP 811, appendix B.8).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <compare>
#include <cstdint>

#include "barwright/core/detail/literal.hpp"
#include "barwright/core/error.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A unit of mass a bar is loaded in.
enum class Unit : unsigned char { kg, lb };

[[nodiscard]] constexpr std::string_view to_text(Unit unit) noexcept {
  return unit == Unit::kg ? "kg" : "lb";
}

/// A mass: what is on the bar, a plate, a lifter's max; stored in kilograms.
///
/// Made from a finite number between zero and `largest_kg`. The difference of two masses may be
/// negative ("20 kg less"); nothing else is.
class Mass {
 public:
  static constexpr double kg_per_lb = 0.45359237;  ///< exact
  static constexpr double largest_kg = 1e6;        ///< far above any load; catches typing errors

  constexpr Mass() noexcept = default;  ///< zero

  /// @throws DomainError unless 0 <= value <= 1e6.
  [[nodiscard]] static constexpr Mass from_kg(double value) {
    if (!(value >= 0.0 && value <= largest_kg)) {
      detail::fail("a load", "a number of kilograms from 0 to 1000000", value);
    }
    return Mass(value);
  }
  /// @throws DomainError unless 0 <= value <= 1e6.
  [[nodiscard]] static constexpr Mass from_lb(double value) {
    if (!(value >= 0.0 && value <= largest_kg)) {
      detail::fail("a load", "a number of pounds from 0 to 1000000", value);
    }
    return Mass(value * kg_per_lb);
  }
  [[nodiscard]] static constexpr Mass from(double value, Unit unit) {
    return unit == Unit::kg ? from_kg(value) : from_lb(value);
  }

  [[nodiscard]] constexpr double kg() const noexcept { return kg_; }
  [[nodiscard]] constexpr double lb() const noexcept { return kg_ / kg_per_lb; }
  [[nodiscard]] constexpr double in(Unit unit) const noexcept {
    return unit == Unit::kg ? kg() : lb();
  }

  friend constexpr Mass operator+(Mass a, Mass b) noexcept { return Mass(a.kg_ + b.kg_); }
  friend constexpr Mass operator-(Mass a, Mass b) noexcept { return Mass(a.kg_ - b.kg_); }
  friend constexpr Mass operator-(Mass a) noexcept { return Mass(-a.kg_); }
  /// @throws DomainError if the result is not a finite number.
  friend constexpr Mass operator*(Mass a, double factor) { return Mass(checked(a.kg_ * factor)); }
  friend constexpr Mass operator*(double factor, Mass a) { return a * factor; }
  friend constexpr Mass operator/(Mass a, double divisor) { return Mass(checked(a.kg_ / divisor)); }
  /// The mass of which this is `share`: 90 kg is 0.75 of 120 kg.
  ///
  /// Like division, but it is the share that is checked: every estimate of a max goes through here.
  /// @throws DomainError unless share >= 1e-6.
  [[nodiscard]] constexpr Mass whole_of(double share) const {
    if (!(share >= 1e-6)) [[unlikely]] {
      detail::fail("a share of a load", "a number from 0.000001", share);
    }
    return Mass(kg_ / share);
  }
  /// The ratio of two masses, a plain number; infinite or NaN when the second is zero.
  friend constexpr double operator/(Mass a, Mass b) noexcept { return a.kg_ / b.kg_; }
  constexpr Mass& operator+=(Mass other) noexcept { return *this = *this + other; }
  constexpr Mass& operator-=(Mass other) noexcept { return *this = *this - other; }

  friend constexpr bool operator==(Mass, Mass) noexcept = default;
  friend constexpr std::partial_ordering operator<=>(Mass, Mass) noexcept = default;

 private:
  constexpr explicit Mass(double kg) noexcept : kg_(kg) {}

  static constexpr double checked(double kg) {
    if (!detail::is_finite(kg)) detail::fail("a load", "a finite number of kilograms", kg);
    return kg;
  }

  double kg_ = 0.0;
};

namespace literals {

template <char... Characters>
[[nodiscard]] constexpr Mass operator""_kg() noexcept {
  constexpr Mass mass = Mass::from_kg(detail::decimal<Characters...>());
  return mass;
}
template <char... Characters>
[[nodiscard]] constexpr Mass operator""_lb() noexcept {
  constexpr Mass mass = Mass::from_lb(detail::decimal<Characters...>());
  return mass;
}

}  // namespace literals

/// Which way to go when a load falls between two steps.
enum class Rounding : unsigned char { nearest, down, up };

namespace detail {

/// The whole number of steps in `steps`, by the rule asked for. Halves go up. A value within a
/// billionth of a whole step counts as on it, so that 0.7 x 100 kg is not "just under" 70 kg.
[[nodiscard]] constexpr std::int64_t whole_steps(double steps, Rounding rounding) noexcept {
  constexpr double on_the_step = 1e-9;
  const auto floor_of = [](double x) noexcept {
    const auto cut = static_cast<std::int64_t>(x);
    return static_cast<double>(cut) > x ? cut - 1 : cut;
  };
  const std::int64_t nearest = floor_of(steps + 0.5 + on_the_step);
  const double off = steps - static_cast<double>(nearest);
  if (rounding == Rounding::nearest || (off <= on_the_step && off >= -on_the_step)) return nearest;
  const std::int64_t below = floor_of(steps);
  return rounding == Rounding::down ? below : below + 1;
}

}  // namespace detail

/// `load` as a whole number of `step`s, a number of `unit`: 101 kg in steps of 2.5 kg is 100 kg, or
/// 102.5 kg rounded up; 136 lb in steps of 5 lb is 135 lb, the very mass that 135_lb is.
///
/// Exact halves go to the heavier load.
/// @throws DomainError unless step > 0 and there are at most a billion steps.
[[nodiscard]] constexpr Mass rounded_to(Mass load, double step, Unit unit,
                                        Rounding rounding = Rounding::nearest) {
  if (!(step > 0.0)) detail::fail("a rounding step", "more than 0", step);
  const double steps = load.in(unit) / step;
  if (!(steps <= 1e9 && steps >= -1e9)) {
    detail::fail("a load", "at most a billion rounding steps", steps);
  }
  const double whole = step * static_cast<double>(detail::whole_steps(steps, rounding));
  return whole < 0.0 ? -Mass::from(-whole, unit) : Mass::from(whole, unit);
}

/// The same with a step that is a mass of its own, in kilograms. Steps marked in pounds have no
/// exact number of kilograms: `rounded_to` for those.
/// @throws DomainError unless step > 0 kg and there are at most a billion steps.
[[nodiscard]] constexpr Mass rounded(Mass load, Mass step, Rounding rounding = Rounding::nearest) {
  if (!(step > Mass{})) detail::fail("a rounding step", "more than 0", step.kg());
  return rounded_to(load, step.kg(), Unit::kg, rounding);
}

/// "102.5 kg": the mass in `unit`, rounded to at most `decimals` places, zeros dropped.
[[nodiscard]] inline Text to_text(Mass mass, Unit unit = Unit::kg, int decimals = 2) noexcept {
  return Text{}.append_rounded(mass.in(unit), decimals).append(" ").append(to_text(unit));
}

template <class Traits>
std::basic_ostream<char, Traits>& operator<<(std::basic_ostream<char, Traits>& out, Mass mass) {
  return out << to_text(mass);
}

}  // namespace barwright::inline BARWRIGHT_ABI

/// For sets and maps without an order.
template <>
struct std::hash<barwright::Mass> {
  std::size_t operator()(barwright::Mass mass) const noexcept {
    return std::hash<double>{}(mass.kg());
  }
};
