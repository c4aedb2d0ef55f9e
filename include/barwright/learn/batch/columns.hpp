// barwright/learn/batch/columns.hpp - what functions over columns take and give
//
// Columns of loads, reps and results, what can be wrong with a row, and who does the work.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace batch {

/// Why a row has no result.
enum class Fault : std::uint8_t {
  none,     ///< it has one
  load,     ///< the load or max is not a number above 0 and up to 1e6 kg
  reps,     ///< not from 1 to 100
  reserve,  ///< more than 60 half reps
  curve,    ///< the curve is not defined that far out
  plates,   ///< no such loading: below the empty bar, or above all the plates
};

[[nodiscard]] constexpr std::string_view to_text(Fault fault) noexcept {
  constexpr std::string_view names[] = {"none", "load", "reps", "reserve", "curve", "plates"};
  return names[static_cast<std::size_t>(fault)];
}

using Counts = Eigen::Array<std::uint8_t, Eigen::Dynamic, 1>;    ///< reps, or halves of them
using HalfReps = Eigen::Array<std::int16_t, Eigen::Dynamic, 1>;  ///< half reps, signed
using Faults = Eigen::Array<Fault, Eigen::Dynamic, 1>;

// What the functions take. Eigen converts columns to these by itself.
using LoadsIn = Eigen::Ref<const Eigen::ArrayXd>;
using CountsIn = Eigen::Ref<const Counts>;
using NumbersOut = Eigen::Ref<Eigen::ArrayXd>;
using FaultsOut = Eigen::Ref<Faults>;

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

}  // namespace barwright::inline BARWRIGHT_ABI
