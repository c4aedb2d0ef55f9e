// barwright/learn/batch/sets.hpp - maxes, loads and reserves of columns of sets
//
// The columns of results must have as many rows as the input and memory of their own; DomainError
// says which column has not. A row's first fault counts, in the order of Fault.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <cstdint>

#include "barwright/curves/rep_curve.hpp"
#include "barwright/learn/batch/columns.hpp"
#include "barwright/learn/batch/curve_lattice.hpp"
#include "barwright/learn/batch/set_rows.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace batch {

/// The max that each set implies: barwright::one_rep_max, bit for bit.
///
/// @param loads  kg, above 0
/// @param reps   done: 1 to 100
/// @param left   in reserve, in half reps: 0 to 60
/// @param maxes  kg
template <Executor E = InThisThread>
void one_rep_max(const CurveLattice& curve, const LoadsIn& loads, const CountsIn& reps,
                 const CountsIn& left, NumbersOut maxes, FaultsOut faults, E&& executor = E{}) {
  const detail::SetColumns sets = detail::set_columns(loads, reps, left, maxes, faults);
  const double* const factors = curve.factors();
  detail::in_chunks(executor, loads.size(), [&](detail::Row first, detail::Row last) {
    if (curve.divides()) {
      detail::compute_rows<detail::Quotient>(curve, factors, sets, first, last);
    } else {
      detail::compute_rows<detail::Product>(curve, factors, sets, first, last);
    }
  });
}

/// The load for each set that is planned: barwright::load_for, bit for bit.
///
/// @param maxes  kg, above 0
/// @param reps   to do: 1 to 100
/// @param left   to keep in reserve, in half reps: 0 to 60
/// @param loads  kg, not rounded
template <Executor E = InThisThread>
void load_for(const CurveLattice& curve, const LoadsIn& maxes, const CountsIn& reps,
              const CountsIn& left, NumbersOut loads, FaultsOut faults, E&& executor = E{}) {
  const detail::SetColumns sets = detail::set_columns(maxes, reps, left, loads, faults);
  const double* const factors = curve.fractions();
  detail::in_chunks(executor, maxes.size(), [&](detail::Row first, detail::Row last) {
    detail::compute_rows<detail::Product>(curve, factors, sets, first, last);
  });
}

/// The share of the max for each set that is planned: barwright::share_of_max, bit for bit.
template <Executor E = InThisThread>
void share_of_max(const CurveLattice& curve, const CountsIn& reps, const CountsIn& left,
                  NumbersOut shares, FaultsOut faults, E&& executor = E{}) {
  const detail::SetColumns sets = detail::set_columns(reps, left, shares, faults);
  const double* const factors = curve.fractions();
  detail::in_chunks(executor, reps.size(), [&](detail::Row first, detail::Row last) {
    detail::compute_rows<detail::FactorOnly>(curve, factors, sets, first, last);
  });
}

/// The reps left after `reps` at `loads` by each lifter's max: barwright::reserve_left, bit
/// for bit; negative when they are more than can be expected.
///
/// A share of the max lies on no lattice, so that this costs the curve's own inverse for every row.
/// Where half reps are fine enough, `half_reps_left` is quicker.
template <RepCurve C, Executor E = InThisThread>
void reserve_left(const C& curve, const LoadsIn& maxes, const LoadsIn& loads, const CountsIn& reps,
                  NumbersOut left, FaultsOut faults, E&& executor = E{}) {
  const detail::EndShares ends = detail::end_shares(curve);
  detail::reserve_rows(maxes, loads, reps, left, faults, executor, [&](detail::Row i) {
    return detail::reps_at(curve, ends, loads[i] / maxes[i]) - reps[i];
  });
}

/// The same in whole half reps, rounded down: the most with which reps + left are still on
/// the curve at this share of the max.
template <Executor E = InThisThread>
void half_reps_left(const CurveLattice& curve, const LoadsIn& maxes, const LoadsIn& loads,
                    const CountsIn& reps, Eigen::Ref<HalfReps> left, FaultsOut faults,
                    E&& executor = E{}) {
  detail::reserve_rows(maxes, loads, reps, left, faults, executor, [&](detail::Row i) {
    return static_cast<std::int16_t>(static_cast<int>(curve.place_of(loads[i] / maxes[i])) -
                                     2 * static_cast<int>(reps[i]));
  });
}

}  // namespace batch
}  // namespace barwright::inline BARWRIGHT_ABI
