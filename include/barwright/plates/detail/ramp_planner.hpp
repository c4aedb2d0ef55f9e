// barwright/plates/detail/ramp_planner.hpp - a whole ramp with the fewest moves
//
// Plates leave a sleeve in the opposite order to the one they went on in, so the steps during which
// each plate is on form nested intervals: dynamic programming over intervals of steps and over what
// is on the sleeve throughout the interval.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "barwright/core/error.hpp"
#include "barwright/plates/detail/kinds.hpp"
#include "barwright/plates/detail/rack.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// The plates of one side, inside to outside, as indices of kinds.
struct Stack {
  std::uint8_t kinds[most_plates_a_side];
  int size = 0;
};

/// Plans the stacks of a ramp whose masses are given.
///
/// cost(i, j, x) is the cheapest way through the steps i to j when x is on the sleeve throughout
/// and stays innermost: either one more plate goes on x for all of those steps, or the steps fall
/// into two parts that share nothing but x. A plate costs one move to put on and one to take off,
/// unless it is still on at the end.
///
/// What is on the sleeve (x) is described as coarsely as the answer allows: at first only by its
/// mass on each lattice, as if no kind ran out. If the plan then uses more of a kind than there
/// are, that kind is counted on its own and the plan made again. A plan that keeps a limit it was
/// not told of is the best one with the limit too, so the result is exact.
class RampPlanner {
 public:
  static constexpr int most_steps = 64;

  /// @param masses  of the pairs at each step, each of which the rack can make
  RampPlanner(const Rack& rack, const Ticks* masses, int steps) : masses_(masses), steps_(steps) {
    for (int i = 0; i < steps; ++i) {
      if (masses[i] > heaviest_) heaviest_ = masses[i];
    }
    for (int k = 0; k < rack.kinds().size; ++k) {
      const Kind& kind = rack.kinds().of[k];
      if (kind.pair > heaviest_) continue;
      kinds_[number_] = {.kind = kind, .index = k};
      ++number_;
    }
    count_small_lattices_by_kind();
    do {
      lay_out_states();
      fill_costs();
      for (int i = 0; i < steps_; ++i) stacks_[i].size = 0;
      trace(0, steps_ - 1, 0);
    } while (limit_what_ran_out());
  }

  /// The plates at a step, with as few moves as can be; then as few plates, summed over the
  /// steps; then heavier plates innermost.
  [[nodiscard]] const Stack& stack(int step) const noexcept { return stacks_[step]; }

 private:
  using Cost = std::uint32_t;  // moves x 65536 + plates
  static constexpr Cost one_move = 1u << 16;
  static constexpr Cost impossible = 1u << 30;

  struct PlannedKind {
    Kind kind{};
    int index = 0;           ///< in the rack
    bool counted = false;    ///< has an axis of its own
    std::size_t stride = 0;  ///< how far one more of it moves the state
  };

  /// What may be on the sleeve, as far as it matters.
  struct State {
    Ticks mass = 0;            ///< of the pairs
    std::uint32_t usable = 0;  ///< the kinds that may be added, one bit each
  };

  [[nodiscard]] Ticks lattice_step(int lattice) const noexcept {
    Ticks divisor = 0;
    for (int k = 0; k < number_; ++k) {
      const PlannedKind& kind = kinds_[k];
      if (kind.kind.lattice == lattice && !kind.counted) {
        divisor = greatest_common_divisor(divisor, kind.kind.pair);
      }
    }
    return divisor;
  }
  [[nodiscard]] Ticks most_of(const PlannedKind& kind) const noexcept {
    const Ticks fit = heaviest_ / kind.kind.pair;
    return fit < kind.kind.limit ? fit : kind.kind.limit;
  }

  /// Where few plates lie on a fine lattice (weighed plates, say), counts are the smaller space.
  void count_small_lattices_by_kind() noexcept {
    for (int lattice = 0; lattice < lattices; ++lattice) {
      const Ticks step = lattice_step(lattice);
      if (step == 0) continue;
      const Ticks by_mass = heaviest_ / step + 1;
      Ticks by_count = 1;
      for (int k = 0; k < number_ && by_count <= by_mass; ++k) {
        const PlannedKind& kind = kinds_[k];
        if (kind.kind.lattice == lattice) by_count *= most_of(kind) + 1;
      }
      if (by_count > by_mass) continue;
      for (int k = 0; k < number_; ++k) {
        PlannedKind& kind = kinds_[k];
        if (kind.kind.lattice == lattice) kind.counted = true;
      }
    }
  }

  void lay_out_states() {
    states_ = std::vector<State>(1);
    states_[0].usable = (1u << number_) - 1u;
    for (int k = 0; k < number_; ++k) kinds_[k].stride = 0;
    for (int lattice = 0; lattice < lattices; ++lattice) {
      const Ticks step = lattice_step(lattice);
      if (step == 0) continue;
      add_axis(step, heaviest_ / step, [=](const PlannedKind& kind) {
        return kind.kind.lattice == lattice && !kind.counted ? kind.kind.pair / step : 0;
      });
    }
    for (int k = 0; k < number_; ++k) {
      const PlannedKind& counted = kinds_[k];
      if (!counted.counted) continue;
      add_axis(counted.kind.pair, most_of(counted),
               [&](const PlannedKind& kind) { return Ticks{&kind == &counted}; });
    }
    if (plates_counted_) {
      add_axis(0, most_plates_a_side, [](const PlannedKind&) { return Ticks{1}; });
    }
    work_left_ -= work_of_a_state() * states_.size();
    costs_ = std::vector<Cost>(number_of_ranges() * states_.size());
  }

  /// Multiplies the states by one more coordinate: a mass on a lattice, a count of one kind, or of
  /// all plates.
  /// @param unit    what one step along it weighs
  /// @param extent  its largest value
  /// @param along   how many steps along it one more of a kind goes
  template <class Along>
  void add_axis(Ticks unit, Ticks extent, Along along) {
    const std::size_t block = states_.size();
    if (static_cast<std::size_t>(extent) + 1 > work_left_ / work_of_a_state() / block) {
      fail(ErrorCode::too_many, "the plates for a ramp",
           "few enough to plan exactly in 33,554,432 steps", "more");
    }
    std::vector<State> states(block * (static_cast<std::size_t>(extent) + 1));
    for (Ticks value = 0; value <= extent; ++value) {
      std::uint32_t fitting = 0;
      for (int k = 0; k < number_; ++k) {
        if (value + along(kinds_[k]) <= extent) fitting |= 1u << k;
      }
      for (std::size_t x = 0; x < block; ++x) {
        states[static_cast<std::size_t>(value) * block + x] = {
            .mass = states_[x].mass + unit * value, .usable = states_[x].usable & fitting};
      }
    }
    states_.swap(states);
    for (int k = 0; k < number_; ++k) {
      kinds_[k].stride += static_cast<std::size_t>(along(kinds_[k])) * block;
    }
  }

  [[nodiscard]] std::size_t number_of_ranges() const noexcept {
    return static_cast<std::size_t>(steps_) * (static_cast<std::size_t>(steps_) + 1) / 2;
  }
  /// What one more state costs in all ranges: each kind and, on average, a third of the splits is
  /// tried.
  [[nodiscard]] std::size_t work_of_a_state() const noexcept {
    return number_of_ranges() * static_cast<std::size_t>(1 + number_ + steps_ / 3);
  }
  [[nodiscard]] Cost* costs_of(int i, int j) noexcept {
    const int range = i * steps_ - i * (i - 1) / 2 + (j - i);
    return costs_.data() + static_cast<std::size_t>(range) * states_.size();
  }
  /// One plate that is on during the steps i to j.
  [[nodiscard]] Cost cost_of_plate(int i, int j) const noexcept {
    return (j == steps_ - 1 ? one_move : 2 * one_move) + static_cast<Cost>(j - i + 1);
  }

  void fill_costs() noexcept {
    for (int length = 1; length <= steps_; ++length) {
      for (int i = 0; i + length <= steps_; ++i) fill_costs(i, i + length - 1);
    }
  }

  void fill_costs(int i, int j) noexcept {
    Ticks lightest = masses_[i];
    for (int k = i + 1; k <= j; ++k) lightest = masses_[k] < lightest ? masses_[k] : lightest;
    Cost* const costs = costs_of(i, j);
    const Cost plate = cost_of_plate(i, j);
    const Cost* before[most_steps];  // the two parts of each split
    const Cost* after[most_steps];
    std::size_t splits = 0;
    for (int m = i + 1; m <= j; ++m, ++splits) {
      before[splits] = costs_of(i, m - 1);
      after[splits] = costs_of(m, j);
    }
    for (std::size_t x = states_.size(); x-- > 0;) {
      const State state = states_[x];
      Cost best = impossible;
      if (state.mass > lightest) {
        costs[x] = best;
        continue;
      }
      if (i == j && state.mass == lightest) best = 0;
      for (std::size_t m = 0; m < splits; ++m) {
        const Cost split = before[m][x] + after[m][x];
        best = split < best ? split : best;
      }
      for (std::uint32_t left = state.usable; left != 0; left &= left - 1) {
        const Cost with = costs[x + kinds_[std::countr_zero(left)].stride] + plate;
        best = with < best ? with : best;
      }
      costs[x] = best;
    }
  }

  /// Reads the stacks of the steps i to j off the costs, from the inside out.
  void trace(int i, int j, std::size_t x) noexcept {
    while (true) {
      Cost* const costs = costs_of(i, j);
      if (costs[x] == 0) return;
      int k = 0;
      while (k < number_ && ((states_[x].usable >> k & 1u) == 0 ||
                             costs[x + kinds_[k].stride] + cost_of_plate(i, j) != costs[x])) {
        ++k;
      }
      if (k < number_) {
        for (int step = i; step <= j; ++step) put_on(stacks_[step], k);
        x += kinds_[k].stride;
        continue;
      }
      int m = i + 1;
      while (costs_of(i, m - 1)[x] + costs_of(m, j)[x] != costs[x]) ++m;
      trace(i, m - 1, x);
      i = m;
    }
  }

  void put_on(Stack& stack, int k) const noexcept {
    if (stack.size < most_plates_a_side) {
      stack.kinds[stack.size] = static_cast<std::uint8_t>(kinds_[k].index);
    }
    ++stack.size;
  }

  /// Whether the plan took more than there is; if so, has it counted next time.
  [[nodiscard]] bool limit_what_ran_out() noexcept {
    bool again = false;
    for (int step = 0; step < steps_; ++step) {
      const Stack& stack = stacks_[step];
      if (stack.size > most_plates_a_side) {
        plates_counted_ = true;
        again = true;
        continue;
      }
      for (int k = 0; k < number_; ++k) {
        PlannedKind& kind = kinds_[k];
        int used = 0;
        for (int i = 0; i < stack.size; ++i) {
          if (stack.kinds[i] == kind.index) ++used;
        }
        if (used > kind.kind.limit) {
          kind.counted = true;
          again = true;
        }
      }
    }
    return again;
  }

  const Ticks* masses_;
  int steps_;
  Ticks heaviest_ = 0;
  PlannedKind kinds_[most_kinds] = {};
  int number_ = 0;
  bool plates_counted_ = false;
  std::size_t work_left_ = std::size_t{1} << 25;  // counted, not timed: the same on every machine
  std::vector<State> states_;
  std::vector<Cost> costs_;  // of each range of steps and each state
  Stack stacks_[most_steps];
};

}  // namespace barwright::inline BARWRIGHT_ABI::detail
