// barwright/curves/rep_curve.hpp - rep curves: what share of the max allows r reps
//
// Every method for estimating a max from a set is one decreasing curve, fraction(r), read in two
// directions: a set of r reps to failure at load L says the max is L / fraction(r); a plan for r
// reps says the load is max x fraction(r). Here is what a curve is and what each can do;
// adapters.hpp makes one from another. The published ones are in equations.hpp and rep_table.hpp.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <concepts>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// An interval of reps to failure, both ends included.
struct RepRange {
  double low = 1.0;
  double high = Reps::most;

  [[nodiscard]] constexpr bool contains(double reps) const noexcept {
    return low <= reps && reps <= high;
  }
  friend constexpr bool operator==(const RepRange&, const RepRange&) = default;
};

/// A rep curve.
///
/// Laws (checked for every curve of the library in tests/curve_laws.hpp), for r in `defined()`:
/// `fraction` is positive and strictly decreasing; `reps` is its inverse; `slope` is the derivative
/// of log fraction, and negative. Outside `defined()` they raise DomainError. `studied()` is where
/// the curve was fitted: outside it the answer is an extrapolation, computed all the same. A curve
/// whose formula is a factor on the load may have it as `multiplier`, which is 1 / fraction.
template <class C>
concept RepCurve = std::copyable<C> && requires(const C& curve, double x) {
  { curve.fraction(x) } -> std::same_as<double>;
  { curve.reps(x) } -> std::same_as<double>;
  { curve.slope(x) } -> std::same_as<double>;
  { curve.defined() }
  noexcept->std::same_as<RepRange>;
  { curve.studied() }
  noexcept->std::same_as<RepRange>;
};

namespace detail {

/// A curve that has `multiplier`: it saves two divisions.
template <class C>
concept HasMultiplier = requires(const C& curve, double reps) {
  { curve.multiplier(reps) } -> std::same_as<double>;
};

// What is refused is said in functions of its own, so that the checks are small enough to be
// compiled into a loop over sets.

[[noreturn]] inline void refuse_reps(double reps, RepRange defined) {
  Text allowed;
  if (defined.low == defined.high) {
    allowed.append("exactly ").append(defined.low);
  } else {
    allowed.append("from ").append(defined.low).append(" to ").append(defined.high);
  }
  fail("reps to failure on this curve", allowed.view(), reps);
}

[[noreturn]] inline void refuse_fraction(double fraction, double lightest, double heaviest) {
  Text allowed;
  allowed.append("from ").append(lightest).append(" to ").append(heaviest);
  fail("the share of the max on this curve", allowed.view(), fraction);
}

constexpr void require_reps_defined(double reps, RepRange defined) {
  if (!defined.contains(reps)) [[unlikely]] {
    refuse_reps(reps, defined);
  }
}

/// @param heaviest, lightest  the curve's fractions at the ends of where it is defined
constexpr void require_fraction_defined(double fraction, double lightest, double heaviest) {
  // The ends are computed, so allow for their rounding.
  constexpr double slack = 1e-12;
  if (!(fraction >= lightest * (1.0 - slack) && fraction <= heaviest * (1.0 + slack)))
      [[unlikely]] {
    refuse_fraction(fraction, lightest, heaviest);
  }
}

/// The same for a curve that has computed the reps at `fraction`: inside, they tell.
template <class Curve>
constexpr void require_share_of(const Curve& curve, double fraction, double reps) {
  const RepRange defined = curve.defined();
  if (!(fraction > 0.0 && defined.contains(reps))) [[unlikely]] {
    require_fraction_defined(fraction, curve.fraction(defined.high), curve.fraction(defined.low));
  }
}

/// Solves fraction(r) = target on [low, high] for a curve whose inverse has no closed form:
/// Newton's method on the logarithm, kept inside a shrinking bracket.
///
/// Always ends: a step of Newton's is taken only when it is at most half as long as the step before
/// it, and any other step halves the bracket. Neither can go on for long before a step is as short
/// as a rounding.
template <class Curve>
[[nodiscard]] double solve_for_reps(const Curve& curve, double target, RepRange bracket) {
  const double lightest = curve.fraction(bracket.high);
  const double heaviest = curve.fraction(bracket.low);
  require_fraction_defined(target, lightest, heaviest);
  if (target >= heaviest) return bracket.low;
  if (target <= lightest) return bracket.high;
  const double log_target = std::log(target);
  constexpr double rounding = 1e-15;  // of two logarithms, and of what the curve computes
  double low = bracket.low;
  double high = bracket.high;
  double reps = 0.5 * (low + high);
  double step_before = high - low;
  while (true) {
    const double gap = std::log(curve.fraction(reps)) - log_target;
    if (gap > 0.0) {
      low = reps;
    } else {
      high = reps;
    }
    double next = reps - gap / curve.slope(reps);
    double step = std::fabs(next - reps);
    const bool is_shorter = step <= 0.5 * step_before || std::fabs(gap) <= rounding;
    if (!(next >= low && next <= high && is_shorter)) {
      next = 0.5 * (low + high);
      step = std::fabs(next - reps);
    }
    if (step <= 1e-14 * std::fabs(next) || std::fabs(gap) <= rounding) return next;
    reps = next;
    step_before = step;
  }
}

/// A curve's share of the max where it begins and where it ends.
struct EndShares {
  double heaviest;
  double lightest;
};
template <RepCurve C>
[[nodiscard]] constexpr EndShares end_shares(const C& curve) {
  const RepRange defined = curve.defined();
  return {curve.fraction(defined.low), curve.fraction(defined.high)};
}

/// Reps to failure at any share of the max; see `reps_to_failure`.
template <RepCurve C>
[[nodiscard]] constexpr double reps_at(const C& curve, const EndShares& ends, double fraction) {
  // A load computed as the share for one rep may come back a rounding above it.
  if (fraction > ends.heaviest * (1.0 + 1e-12)) return 0.0;
  if (fraction < ends.lightest) return curve.defined().high;
  return curve.reps(fraction);
}

/// A load or a max that was handed in: only the difference of two masses may be below nothing.
constexpr void require_not_negative(std::string_view what, Mass mass) {
  if (!(mass >= Mass{})) [[unlikely]] {
    fail(what, "0 kg or more", mass.kg());
  }
}

/// The max implied by `load` for this many reps to failure.
template <RepCurve C>
[[nodiscard]] constexpr Mass max_from(const C& curve, Mass load, double reps) {
  if constexpr (HasMultiplier<C>) {
    return load * curve.multiplier(reps);
  } else {
    return load.whole_of(curve.fraction(reps));
  }
}

}  // namespace detail

/// The max that one set implies: load / fraction(reps done + reps left).
///
/// Beyond `curve.studied()` it is extrapolated, and soon far off: ask `is_studied`.
/// @throws DomainError if the curve is not defined that far out, or for a load below nothing.
template <RepCurve C>
[[nodiscard]] constexpr Mass one_rep_max(const C& curve, Mass load, Reps done,
                                         RepsInReserve left = {}) {
  detail::require_not_negative("a load", load);
  return detail::max_from(curve, load, reps_to_failure(done, left));
}

/// The max that a set rated so implies, the rating read as its likeliest reserve (8.5 as 1.5).
///
/// @throws DomainError also for a rating below 5, which does not count reps.
template <RepCurve C>
[[nodiscard]] constexpr Mass one_rep_max(const C& curve, Mass load, Reps done, Rpe effort) {
  return one_rep_max(curve, load, done, typical_reserve(effort));
}

/// The share of the max to lift for `done` reps with `left` in reserve.
///
/// @throws DomainError if the curve is not defined that far out.
template <RepCurve C>
[[nodiscard]] constexpr double share_of_max(const C& curve, Reps done, RepsInReserve left = {}) {
  return curve.fraction(reps_to_failure(done, left));
}

/// The share of the max to lift for a set that is to be rated so.
///
/// @throws DomainError also for a rating below 5, which does not count reps.
template <RepCurve C>
[[nodiscard]] constexpr double share_of_max(const C& curve, Reps done, Rpe effort) {
  return share_of_max(curve, done, typical_reserve(effort));
}

/// Reps to failure expected at `load` for a lifter with this `max`.
///
/// @returns 0 when the load is too heavy for one rep; the end of `curve.defined()` when it
/// is so light that the curve does not reach.
/// @throws DomainError unless there is a max, and for a load below nothing.
template <RepCurve C>
[[nodiscard]] constexpr double predicted_reps(const C& curve, Mass max, Mass load) {
  if (!(max > Mass{})) detail::fail("a max", "more than 0 kg", max.kg());
  detail::require_not_negative("a load", load);
  return detail::reps_at(curve, detail::end_shares(curve), load / max);
}

/// Whether a set lies where the curve was studied; outside, its answer is an extrapolation.
template <RepCurve C>
[[nodiscard]] constexpr bool is_studied(const C& curve, Reps done,
                                        RepsInReserve left = {}) noexcept {
  return curve.studied().contains(reps_to_failure(done, left));
}

}  // namespace barwright::inline BARWRIGHT_ABI
