// barwright/learn/batch.hpp - the same computations over columns: millions of sets at a time
//
// A training log in memory is columns: loads in kilograms, repetitions, repetitions in reserve.
// Repetitions to failure lie on a lattice of half repetitions, so a curve is a table of a few
// hundred numbers, read once from the curve itself: an estimate is then a look-up and a product,
// whatever the equation, and equals one_rep_max to the last bit. A row that makes no sense gets 0
// and a Fault that says why; it throws nothing and leaves its neighbours alone.
//
//     const CurveLattice curve(equations::wathen);  // once
//     Eigen::ArrayXd kg(3), max(3);
//     batch::Counts reps(3), left(3);               // left counts half repetitions
//     batch::Faults faults(3);
//     kg << 100, 80, 60;
//     reps << 5, 8, 10;
//     left << 4, 2, 0;                              // 2, 1 and none in reserve
//     batch::one_rep_max(curve, kg, reps, left, max, faults);
//
// A column is any Eigen array or a piece of one, or an Eigen::Map of memory held elsewhere. Results
// go to columns of the caller's, and then nothing is allocated, or come back as new ones. Input
// that is not contiguous is copied by Eigen first; output that is not is refused by the compiler.
//
// Rows do not depend on each other, so every function takes an executor as its last argument, which
// shares the work among the caller's own threads. There is none of ours.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <array>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <limits>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace batch {

/// Why a row has no result.
enum class Fault : std::uint8_t {
  none,     ///< it has one
  load,     ///< the load or max is not a number above 0 and up to 1e6 kg
  reps,     ///< not from 1 to 100
  reserve,  ///< more than 60 half repetitions
  curve,    ///< the curve is not defined that far out
  plates,   ///< no such loading: below the empty bar, or above all the plates
};

[[nodiscard]] constexpr std::string_view to_text(Fault fault) noexcept {
  constexpr std::string_view names[] = {"none", "load", "reps", "reserve", "curve", "plates"};
  return names[static_cast<std::size_t>(fault)];
}

using Counts = Eigen::Array<std::uint8_t, Eigen::Dynamic, 1>;    ///< repetitions, or halves of them
using HalfReps = Eigen::Array<std::int16_t, Eigen::Dynamic, 1>;  ///< half repetitions, signed
using Faults = Eigen::Array<Fault, Eigen::Dynamic, 1>;

// What the functions take. Eigen converts columns to these by itself.
using LoadsIn = Eigen::Ref<const Eigen::ArrayXd>;
using CountsIn = Eigen::Ref<const Counts>;
using NumbersOut = Eigen::Ref<Eigen::ArrayXd>;
using FaultsOut = Eigen::Ref<Faults>;

/// Results in columns of their own.
template <class Values>
struct Results {
  Values values;  ///< 0 where there is a fault
  Faults faults;

  explicit Results(Eigen::Index rows) : values(rows), faults(rows) {}
};

/// Who does the work: `executor(chunks, work)` calls work(0), work(1), ... work(chunks - 1), each
/// once, in any order and on any threads, and returns when all are done.
template <class E>
concept Executor = requires(E& executor, Eigen::Index chunks, void (*work)(Eigen::Index)) {
  executor(chunks, work);
};

/// The caller's thread, one chunk after the other.
struct InThisThread {
  template <class Work>
  constexpr void operator()(Eigen::Index chunks, const Work& work) const {
    for (Eigen::Index chunk = 0; chunk < chunks; ++chunk) work(chunk);
  }
};

/// Rows to a chunk: some ten microseconds of work, and whole cache lines of every column.
inline constexpr Eigen::Index rows_per_chunk = 16384;

}  // namespace batch

namespace detail {

using Row = Eigen::Index;
using Byte = std::uint8_t;

/// Rows that are computed together. Their loads add up to far less than the largest one allowed.
inline constexpr Row rows_per_block = 64;

/// 255 also stands for all that do not fit.
inline constexpr int most_place_in_a_byte = 254;

inline constexpr int most_half_reps_left = static_cast<int>(2.0 * RepsInReserve::most);

/// What is said of a load by itself.
[[nodiscard]] constexpr bool is_load(double kg) noexcept {
  return kg > 0.0 && kg <= Mass::largest_kg;
}

/// @throws DomainError unless the column has as many rows as the first one.
inline void require_rows(std::string_view column, Row rows, Row expected) {
  if (rows == expected) return;
  Text what;
  what.append("the rows of the column of ").append(column);
  Text allowed;
  allowed.append("as many as in the first: ").append(static_cast<double>(expected));
  fail(what.view(), allowed.view(), static_cast<double>(rows));
}

/// Rows are looked at again after their results are written, so results need their own place.
/// @throws DomainError if two columns share memory.
template <class In, class Out>
void require_apart(const In& in, const Out& out) {
  const auto start = [](const auto& column) {
    return reinterpret_cast<std::uintptr_t>(column.data());
  };
  const auto bytes = [](const auto& column) {
    return static_cast<std::uintptr_t>(column.size()) * sizeof(*column.data());
  };
  if (start(in) < start(out) + bytes(out) && start(out) < start(in) + bytes(in)) {
    fail("a column of results", "in memory of its own", "one that shares a column of the input's");
  }
}

/// Calls work(first, last) for pieces of the rows.
template <class E, class Work>
void in_chunks(E& executor, Row rows, const Work& work) {
  const Row chunks = (rows + batch::rows_per_chunk - 1) / batch::rows_per_chunk;
  executor(chunks, [&work, rows](Row chunk) {
    const Row first = chunk * batch::rows_per_chunk;
    const Row left = rows - first;
    work(first, first + (left < batch::rows_per_chunk ? left : batch::rows_per_chunk));
  });
}

}  // namespace detail

/// A repetition curve on the lattice of half repetitions: all that sets in a log can ask of it.
///
/// Its numbers are the curve's own, computed while the program runs. The same call with constants
/// may differ in the last bit, where the compiler evaluates std::exp or std::pow by itself.
class CurveLattice {
 public:
  /// @throws DomainError if the curve is not defined at any half repetition from 1 to 130.
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
      detail::fail("a curve for columns of sets", "defined somewhere from 1 to 130 repetitions",
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

  /// Places on the lattice: half repetitions to failure, from 100 done with 30 left down.
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

namespace detail {

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
  require_rows("repetitions in reserve", left.size(), reps.size());
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
  require_rows("repetitions", reps.size(), loads.size());
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
/// What does not fit a byte, more than 127 repetitions to failure, is among those.
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
void mend_block(const CurveLattice& curve, const double* factors, const SetColumns& sets,
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
/// and one load too large is too large for all of them together. `Real` is always double: that it
/// is a parameter saves a program that does not call this from compiling Eigen's arrays of four.
template <class Combine, class Real = double>
void compute_rows(const CurveLattice& curve, const double* factors, const SetColumns& sets,
                  Row first, Row last) {
  using Four = Eigen::Array<Real, 4, 1>;
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
      mend_block<Combine>(curve, factors, sets, start);
    }
  }
  for (; start < last; ++start) compute_row<Combine>(curve, factors, sets, start);
}

/// Reserves from maxes, loads and repetitions; `left_of(i)` is asked for rows without a fault.
template <class Left, class E, class LeftOf>
void reserve_rows(const batch::LoadsIn& maxes, const batch::LoadsIn& loads,
                  const batch::CountsIn& reps, Left& left, batch::FaultsOut& faults, E& executor,
                  const LeftOf& left_of) {
  using batch::Fault;
  require_rows("loads", loads.size(), maxes.size());
  require_rows("repetitions", reps.size(), maxes.size());
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

namespace batch {

// ---------------------------------------------------------------------------------------------
// Sets and a curve. Where results go to the caller's columns, those must have as many rows as the
// input and memory of their own; DomainError says which column has not. A row's first fault counts,
// in the order of Fault.

/// The max that each set implies: barwright::one_rep_max, bit for bit.
///
/// @param loads  kg, above 0
/// @param reps   done: 1 to 100
/// @param left   in reserve, in half repetitions: 0 to 60
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
/// @param left   to keep in reserve, in half repetitions: 0 to 60
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

/// The repetitions left after `reps` at `loads` by each lifter's max: barwright::reserve_left, bit
/// for bit; negative when they are more than can be expected.
///
/// A share of the max lies on no lattice, so that this costs the curve's own inverse for every row.
/// Where half repetitions are fine enough, `half_reps_left` is quicker.
template <RepCurve C, Executor E = InThisThread>
void reserve_left(const C& curve, const LoadsIn& maxes, const LoadsIn& loads, const CountsIn& reps,
                  NumbersOut left, FaultsOut faults, E&& executor = E{}) {
  const detail::EndShares ends = detail::end_shares(curve);
  detail::reserve_rows(maxes, loads, reps, left, faults, executor, [&](detail::Row i) {
    return detail::reps_at(curve, ends, loads[i] / maxes[i]) - reps[i];
  });
}

/// The same in whole half repetitions, rounded down: the most with which reps + left are still on
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

/// A table of loads: a row for each max, a column for each share of it. Equals max x share, thus
/// `percent_of` where the shares are percents / 100, and `load_for` where they are the curve's.
///
/// @throws DomainError also unless 0 <= share <= 2.
template <Executor E = InThisThread>
void load_table(const LoadsIn& maxes, const LoadsIn& shares, Eigen::Ref<Eigen::ArrayXXd> table,
                FaultsOut faults, E&& executor = E{}) {
  detail::require_rows("the table", table.rows(), maxes.size());
  detail::require_rows("faults", faults.size(), maxes.size());
  detail::require_apart(maxes, faults);
  if (table.cols() != shares.size()) {
    detail::fail("the columns of a table", "as many as shares", static_cast<double>(table.cols()));
  }
  for (const double share : shares) {
    if (!(share >= 0.0 && share <= 2.0)) {
      detail::fail("a share of the max", "a number from 0 to 2", share);
    }
  }
  for (detail::Row j = 0; j < table.cols(); ++j) detail::require_apart(maxes, table.col(j));
  detail::in_chunks(executor, maxes.size(), [&](detail::Row first, detail::Row last) {
    for (detail::Row i = first; i < last; ++i) {
      faults[i] = detail::is_load(maxes[i]) ? Fault::none : Fault::load;
    }
    for (detail::Row j = 0; j < table.cols(); ++j) {
      for (detail::Row i = first; i < last; ++i) {
        table(i, j) = (detail::is_load(maxes[i]) ? maxes[i] : 0.0) * shares[j];
      }
    }
  });
}

// ---- the same, returned in new columns ----------------------------------------------------------

template <Executor E = InThisThread>
[[nodiscard]] Results<Eigen::ArrayXd> one_rep_max(const CurveLattice& curve, const LoadsIn& loads,
                                                  const CountsIn& reps, const CountsIn& left,
                                                  E&& executor = E{}) {
  Results<Eigen::ArrayXd> maxes(loads.size());
  one_rep_max(curve, loads, reps, left, maxes.values, maxes.faults, executor);
  return maxes;
}
template <Executor E = InThisThread>
[[nodiscard]] Results<Eigen::ArrayXd> load_for(const CurveLattice& curve, const LoadsIn& maxes,
                                               const CountsIn& reps, const CountsIn& left,
                                               E&& executor = E{}) {
  Results<Eigen::ArrayXd> loads(maxes.size());
  load_for(curve, maxes, reps, left, loads.values, loads.faults, executor);
  return loads;
}
template <Executor E = InThisThread>
[[nodiscard]] Results<Eigen::ArrayXd> share_of_max(const CurveLattice& curve, const CountsIn& reps,
                                                   const CountsIn& left, E&& executor = E{}) {
  Results<Eigen::ArrayXd> shares(reps.size());
  share_of_max(curve, reps, left, shares.values, shares.faults, executor);
  return shares;
}
template <RepCurve C, Executor E = InThisThread>
[[nodiscard]] Results<Eigen::ArrayXd> reserve_left(const C& curve, const LoadsIn& maxes,
                                                   const LoadsIn& loads, const CountsIn& reps,
                                                   E&& executor = E{}) {
  Results<Eigen::ArrayXd> left(maxes.size());
  reserve_left(curve, maxes, loads, reps, left.values, left.faults, executor);
  return left;
}
template <Executor E = InThisThread>
[[nodiscard]] Results<HalfReps> half_reps_left(const CurveLattice& curve, const LoadsIn& maxes,
                                               const LoadsIn& loads, const CountsIn& reps,
                                               E&& executor = E{}) {
  Results<HalfReps> left(maxes.size());
  half_reps_left(curve, maxes, loads, reps, left.values, left.faults, executor);
  return left;
}

// ---------------------------------------------------------------------------------------------
// Loads and plates.

/// What a room's plates make of any load, as a table of the loads at which the answer changes.
///
/// @tparam Find  from a Mass to the Mass there is, or nothing (std::optional); the answer must not
///   fall while the load rises. For example:
///
///     const LoadSteps steps([](Mass load) { return plate_sets::gym_kg.nearest(load).total(); });
///     batch::loadable(steps, kg, totals, faults);
template <class Find>
class LoadSteps {
 public:
  /// Asks `find` some fifty times for each step: a millisecond or so for a room of one unit.
  ///
  /// @param heaviest  the end of the table, which also ends after 4096 steps; above, each row asks
  ///   `find` itself
  explicit LoadSteps(Find find, Mass heaviest = Mass::from_kg(400.0)) : find_(std::move(find)) {
    constexpr std::size_t most_steps = 4096;
    std::optional<Mass> answer = at(0.0);
    double kg = 0.0;
    double gap = 1.0;
    append(answer);
    while (totals_.size() < most_steps) {
      // The first load with another answer: bracketed in growing strides, then halved to the bit.
      double low = kg;
      double high = low + gap;
      for (; high < heaviest.kg() && at(high) == answer; high += gap) {
        low = high;
        gap *= 2.0;
      }
      if (!(high < heaviest.kg())) high = heaviest.kg();
      if (at(high) == answer) break;
      for (double middle = low + 0.5 * (high - low); middle > low && middle < high;
           middle = low + 0.5 * (high - low)) {
        (at(middle) == answer ? low : high) = middle;
      }
      gap = 1.1 * (high - kg);
      kg = high;
      thresholds_.push_back(kg);
      answer = at(kg);
      append(answer);
    }
    end_ = totals_.size() < most_steps ? heaviest.kg() : kg;
    thresholds_.push_back(std::numeric_limits<double>::infinity());

    const std::size_t bins = 4 * totals_.size();
    // A table that ends below a microgram has a single bin; narrower ones could not be counted.
    bins_per_kg_ = static_cast<double>(bins) / (end_ > 1e-9 ? end_ : 1.0);
    first_step_.resize(bins + 2);
    std::size_t step = 0;
    for (std::size_t bin = 0; bin < first_step_.size(); ++bin) {
      while (step + 1 < totals_.size() && bin_of(thresholds_[step]) < bin) ++step;
      first_step_[bin] = step;
    }
  }

  /// One load, or what was wrong with its row.
  struct Answer {
    double kg;
    batch::Fault fault;
  };
  /// @param kg  a load that a Mass can have
  [[nodiscard]] Answer operator()(double kg) const {
    if (!(kg <= end_)) return answer_of(at(kg));
    std::size_t step = first_step_[bin_of(kg)];
    step += kg >= thresholds_[step] ? 1 : 0;
    while (kg >= thresholds_[step]) ++step;
    return totals_[step];
  }

 private:
  [[nodiscard]] std::optional<Mass> at(double kg) const { return find_(Mass::from_kg(kg)); }
  [[nodiscard]] std::size_t bin_of(double kg) const noexcept {
    return static_cast<std::size_t>(kg * bins_per_kg_);
  }
  [[nodiscard]] static Answer answer_of(std::optional<Mass> mass) noexcept {
    if (!mass) return {0.0, batch::Fault::plates};
    return {mass->kg(), batch::Fault::none};
  }
  void append(std::optional<Mass> mass) { totals_.push_back(answer_of(mass)); }

  Find find_;
  double end_ = 0.0;
  double bins_per_kg_ = 0.0;
  std::vector<double> thresholds_;  // from totals_[i] to the next
  std::vector<Answer> totals_;
  std::vector<std::size_t> first_step_;  // by bin: after all thresholds in earlier bins
};

/// What can be loaded for each load, in kg: what `steps` was made from, bit for bit.
template <class Find, Executor E = InThisThread>
void loadable(const LoadSteps<Find>& steps, const LoadsIn& loads, NumbersOut totals,
              FaultsOut faults, E&& executor = E{}) {
  detail::require_rows("totals", totals.size(), loads.size());
  detail::require_rows("faults", faults.size(), loads.size());
  detail::require_apart(loads, faults);
  detail::in_chunks(executor, loads.size(), [&](detail::Row first, detail::Row last) {
    for (detail::Row i = first; i < last; ++i) {
      const auto answer = detail::is_load(loads[i])
                              ? steps(loads[i])
                              : typename LoadSteps<Find>::Answer{0.0, Fault::load};
      totals[i] = answer.kg;
      faults[i] = answer.fault;
    }
  });
}

template <class Find, Executor E = InThisThread>
[[nodiscard]] Results<Eigen::ArrayXd> loadable(const LoadSteps<Find>& steps, const LoadsIn& loads,
                                               E&& executor = E{}) {
  Results<Eigen::ArrayXd> totals(loads.size());
  loadable(steps, loads, totals.values, totals.faults, executor);
  return totals;
}

}  // namespace batch
}  // namespace barwright::inline BARWRIGHT_ABI
