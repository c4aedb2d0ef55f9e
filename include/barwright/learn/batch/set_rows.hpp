// barwright/learn/batch/set_rows.hpp - rows of sets and a curve, sixteen at a time
//
// A block of rows is computed as if nothing were wrong with any, which a compiler can do for many
// at once; a block with a fault is then gone through row by row.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <concepts>
#include <cstddef>
#include <cstring>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/batch/columns.hpp"
#include "barwright/learn/batch/curve_lattice.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Rows that are computed together. Their loads add up to far less than the largest one allowed.
inline constexpr Row rows_per_block = 64;

/// 255 also stands for all that do not fit.
inline constexpr int most_place_in_a_byte = 254;

/// The columns of sets that a curve is asked about. `loads` is null where there are none.
struct SetColumns {
  const double* loads;
  const Byte* reps;
  const Byte* left;
  double* results;
  batch::Fault* faults;
};

/// @throws DomainError unless all have as many rows, and results their own memory.
[[nodiscard]] inline SetColumns set_columns(const batch::CountsIn& reps,
                                            const batch::CountsIn& left, batch::NumbersOut& results,
                                            batch::FaultsOut& faults) {
  require_rows("reps in reserve", left.size(), reps.size());
  require_rows("results", results.size(), reps.size());
  require_rows("faults", faults.size(), reps.size());
  for (const batch::CountsIn* in : {&reps, &left}) {
    require_apart(*in, results);
    require_apart(*in, faults);
  }
  return {.loads = nullptr,
          .reps = reps.data(),
          .left = left.data(),
          .results = results.data(),
          .faults = faults.data()};
}
[[nodiscard]] inline SetColumns set_columns(const batch::LoadsIn& loads,
                                            const batch::CountsIn& reps,
                                            const batch::CountsIn& left, batch::NumbersOut& results,
                                            batch::FaultsOut& faults) {
  require_rows("reps", reps.size(), loads.size());
  require_apart(loads, results);
  require_apart(loads, faults);
  SetColumns sets = set_columns(reps, left, results, faults);
  sets.loads = loads.data();
  return sets;
}

struct Product {
  template <class T>
  [[nodiscard]] T operator()(const T& load, const T& factor) const {
    return load * factor;
  }
};
struct Quotient {
  template <class T>
  [[nodiscard]] T operator()(const T& load, const T& factor) const {
    return load / factor;
  }
};
struct FactorOnly {
  template <class T>
  [[nodiscard]] T operator()(const T&, const T& factor) const {
    return factor;
  }
};

template <class Combine>
inline constexpr bool has_load = !std::same_as<Combine, FactorOnly>;

/// What is wrong with a row.
template <class Combine>
[[nodiscard]] batch::Fault fault_of(const CurveLattice& curve, const SetColumns& sets, Row i) {
  using batch::Fault;
  const int reps = sets.reps[i];
  const int left = sets.left[i];
  if constexpr (has_load<Combine>) {
    if (!is_load(sets.loads[i])) return Fault::load;
  }
  if (!Reps::is_valid(reps)) return Fault::reps;
  if (left > most_half_reps_left) return Fault::reserve;
  const auto place = 2 * static_cast<std::size_t>(reps) + static_cast<std::size_t>(left);
  return curve.contains(place) ? Fault::none : Fault::curve;
}

/// One row by itself.
template <class Combine>
void compute_row(const CurveLattice& curve, const double* factors, const SetColumns& sets, Row i) {
  const batch::Fault fault = fault_of<Combine>(curve, sets, i);
  double result = 0.0;
  if (fault == batch::Fault::none) {
    double load = 1.0;
    if constexpr (has_load<Combine>) load = sets.loads[i];
    result = Combine{}(load, factors[2 * sets.reps[i] + sets.left[i]]);
  }
  sets.results[i] = result;
  sets.faults[i] = fault;
}

/// The places of a block of sets, in bytes, so that a compiler takes sixteen of them at once. False
/// when a row may have a fault: it is then to be looked at by itself, and its place is any.
///
/// What does not fit a byte, more than 127 reps to failure, is among those.
[[nodiscard]] inline bool find_places(const Byte* reps, const Byte* left, Byte first, Byte span,
                                      Byte* places) noexcept {
  constexpr Byte most_reps = Reps::most;
  constexpr Byte most_left = most_half_reps_left;
  Byte faults = 0;
  for (Row i = 0; i < rows_per_block; ++i) {
    const Byte beyond_one = static_cast<Byte>(reps[i] - 1);  // 255 for none
    const Byte kept = beyond_one < most_reps - 1 ? beyond_one : static_cast<Byte>(most_reps - 1);
    const Byte halves = static_cast<Byte>(2 * kept + 2);
    const Byte room = static_cast<Byte>(255 - halves);
    const Byte place = static_cast<Byte>(halves + (left[i] < room ? left[i] : room));
    faults |= static_cast<Byte>((beyond_one > most_reps - 1) | (left[i] > most_left) |
                                (static_cast<Byte>(place - first) > span));
    places[i] = place;
  }
  return faults == 0;
}

/// Goes once more through a block computed as if nothing were wrong.
template <class Combine>
void fix_faulty_rows(const CurveLattice& curve, const double* factors, const SetColumns& sets,
                     Row start) {
  for (Row i = start; i < start + rows_per_block; ++i) {
    const bool fits = 2 * sets.reps[i] + sets.left[i] <= most_place_in_a_byte;
    if (fits && fault_of<Combine>(curve, sets, i) == batch::Fault::none) [[likely]]
      continue;
    compute_row<Combine>(curve, factors, sets, i);
  }
}

/// Rows first to last of the columns, block by block: first as if nothing were wrong, noting
/// whether something is; then, where it is, once more row by row.
///
/// Of a block's loads only the least and the sum are checked. A NaN or infinity stays in the sum,
/// and one load too large is too large for all of them together.
template <class Combine>
void compute_rows(const CurveLattice& curve, const double* factors, const SetColumns& sets,
                  Row first, Row last) {
  using Four = Eigen::Array4d;
  constexpr std::size_t in_a_byte = most_place_in_a_byte;
  // Without a place that fits a byte, none is found: all are above 1.
  const bool fits = curve.first() <= in_a_byte;
  const std::size_t end = curve.last() < in_a_byte ? curve.last() : in_a_byte;
  const Byte first_place = static_cast<Byte>(fits ? curve.first() : 1);
  const Byte span = static_cast<Byte>(fits ? end - curve.first() : 0);

  Row start = first;
  for (; start + rows_per_block <= last; start += rows_per_block) {
    Byte places[rows_per_block];
    bool is_clean = find_places(sets.reps + start, sets.left + start, first_place, span, places);
    double* const results = sets.results + start;
    Four least = Four::Constant(1.0);
    Four sum = Four::Zero();
    for (Row i = 0; i < rows_per_block; i += 4) {
      const Byte* const at = places + i;
      const Four factor(factors[at[0]], factors[at[1]], factors[at[2]], factors[at[3]]);
      Four load = Four::Zero();
      if constexpr (has_load<Combine>) {
        load = Eigen::Map<const Four>(sets.loads + start + i);
        least = least.min(load);
        sum += load;
      }
      Eigen::Map<Four>(results + i) = Combine{}(load, factor);
    }
    std::memset(sets.faults + start, 0, static_cast<std::size_t>(rows_per_block));
    if constexpr (has_load<Combine>) {
      is_clean = is_clean && least.minCoeff() > 0.0 && sum.sum() <= Mass::largest_kg;
    }
    if (!is_clean) [[unlikely]] {
      fix_faulty_rows<Combine>(curve, factors, sets, start);
    }
  }
  for (; start < last; ++start) compute_row<Combine>(curve, factors, sets, start);
}

/// Reserves from maxes, loads and reps; `left_of(i)` is asked for rows without a fault.
template <class Left, class E, class LeftOf>
void reserve_rows(const batch::LoadsIn& maxes, const batch::LoadsIn& loads,
                  const batch::CountsIn& reps, Left& left, batch::FaultsOut& faults, E& executor,
                  const LeftOf& left_of) {
  using batch::Fault;
  require_rows("loads", loads.size(), maxes.size());
  require_rows("reps", reps.size(), maxes.size());
  require_rows("results", left.size(), maxes.size());
  require_rows("faults", faults.size(), maxes.size());
  in_chunks(executor, maxes.size(), [&](Row first, Row last) {
    for (Row i = first; i < last; ++i) {
      Fault fault = Fault::none;
      if (!is_load(maxes[i]) || !is_load(loads[i])) {
        fault = Fault::load;
      } else if (!Reps::is_valid(reps[i])) {
        fault = Fault::reps;
      }
      left[i] = fault == Fault::none ? left_of(i) : 0;
      faults[i] = fault;
    }
  });
}

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
