// barwright/learn/batch/loads.hpp - tables of loads, and columns of them as plates make them
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/batch/columns.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace batch {

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

}  // namespace batch
}  // namespace barwright::inline BARWRIGHT_ABI
