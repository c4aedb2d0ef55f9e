// barwright/learn/batch/curve_lattice.hpp - a rep curve as a table of half reps
//
// Reps to failure in a log lie on a lattice of half reps, so that all that its sets can ask of a
// curve is a few hundred numbers.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <concepts>
#include <cstddef>
#include <cstdint>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/learn/batch/columns.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A rep curve on the lattice of half reps: all that sets in a log can ask of it.
///
/// Its numbers are the curve's own, computed while the program runs. The same call with constants
/// may differ in the last bit, where the compiler evaluates std::exp or std::pow by itself.
class CurveLattice {
 public:
  /// @throws DomainError if the curve is not defined at any half rep from 1 to 130.
  template <class C>
  requires(!std::same_as<C, CurveLattice> && RepCurve<C>)  // in this order: no recursion
      explicit CurveLattice(const C& curve)
      : divides_(!detail::HasMultiplier<C>) {
    fractions_.fill(0.0);
    factors_.fill(1.0);
    for (std::size_t place = std::size_t{2} * Reps::fewest; place < places; ++place) {
      const double reps = 0.5 * static_cast<double>(place);
      if (!curve.defined().contains(reps)) continue;
      const double fraction = curve.fraction(reps);
      double factor = fraction;
      if constexpr (detail::HasMultiplier<C>) factor = curve.multiplier(reps);
      // What Mass would refuse is off the curve here.
      const bool is_usable = fraction >= 1e-6 && detail::is_finite(Mass::largest_kg * fraction) &&
                             factor > 0.0 && detail::is_finite(Mass::largest_kg * factor);
      if (!is_usable) {
        continue;
      }
      fractions_[place] = fraction;
      factors_[place] = factor;
      if (place < first_) first_ = place;
      last_ = place;
    }
    if (first_ == places) {
      detail::fail("a curve for columns of sets", "defined somewhere from 1 to 130 reps",
                   curve.defined().low);
    }
    // A little more than `bins`, so that the last place alone begins the last bin.
    const double drop = fractions_[first_] - fractions_[last_];
    bins_per_share_ = drop > 0.0 ? (1.0 + 1e-12) * static_cast<double>(bins) / drop : 0.0;
    std::size_t place = first_;
    for (std::size_t bin = 0; bin <= bins; ++bin) {
      while (place < last_ && bin_of(fractions_[place + 1]) < bin) ++place;
      start_[bin] = static_cast<std::uint16_t>(place);
    }
  }

  /// Places on the lattice: half reps to failure, from 100 done with 30 left down.
  static constexpr std::size_t places = 2 * Reps::most + detail::most_half_reps_left + 1;

  [[nodiscard]] std::size_t first() const noexcept { return first_; }  ///< place: 2 for one rep
  [[nodiscard]] std::size_t last() const noexcept { return last_; }
  [[nodiscard]] bool contains(std::size_t place) const noexcept {
    return first_ <= place && place <= last_;
  }
  /// The share of the max at a place that the lattice contains.
  [[nodiscard]] double fraction(std::size_t place) const noexcept { return fractions_[place]; }
  /// All fractions by place; 0 where the lattice contains none.
  [[nodiscard]] const double* fractions() const noexcept { return fractions_.data(); }
  /// By place, what `one_rep_max` divides a load by, if `divides()`, or else multiplies it with.
  [[nodiscard]] const double* factors() const noexcept { return factors_.data(); }
  [[nodiscard]] bool divides() const noexcept { return divides_; }

  /// The last place with at least this share of the max; 0 where the share is too heavy for the
  /// first. A share within a rounding of a place's counts as that.
  [[nodiscard]] std::size_t place_of(double share) const noexcept {
    double least = share * (1.0 - 1e-12);
    if (!(fractions_[first_] >= least)) return 0;
    least = least > fractions_[last_] ? least : fractions_[last_];
    std::size_t place = start_[bin_of(least)];
    // Where the curve is steep a bin begins one place at most: a sum has no branch to mispredict.
    place += fractions_[place + 1] >= least ? 1 : 0;
    while (fractions_[place + 1] >= least) ++place;
    return place;
  }

 private:
  static constexpr std::size_t bins = 1024;

  /// Shares from the first place's down to the last's lie in bins of equal width, numbered as they
  /// fall.
  [[nodiscard]] std::size_t bin_of(double share) const noexcept {
    return static_cast<std::size_t>(
        static_cast<std::int64_t>((fractions_[first_] - share) * bins_per_share_));
  }

  std::array<double, places + 1> fractions_;  // the last one ends every search
  std::array<double, places> factors_;
  std::size_t first_ = places;
  std::size_t last_ = 0;
  double bins_per_share_ = 0.0;
  std::array<std::uint16_t, bins + 1> start_;  // by bin: the last place in an earlier one
  bool divides_;
};

}  // namespace barwright::inline BARWRIGHT_ABI
