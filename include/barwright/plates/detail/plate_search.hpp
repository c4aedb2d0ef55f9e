// barwright/plates/detail/plate_search.hpp - the integer searches behind plates.hpp: one load, and
// a whole ramp
//
// Nothing here is for callers; plates.hpp is. It knows no units and no names: every mass is a whole
// number of ticks, so no answer can depend on rounding. A tick is 1e-11 kg, the coarsest lattice
// that holds a thousandth of a kilogram (100,000,000 ticks) and a thousandth of a pound
// (45,359,237) exactly. Plates are counted in pairs, one for each side, so a load never has to be
// halved.
//
// One load (`Rack`). Plates marked in one unit lie on a coarse lattice of their own (2.5 kg a pair,
// 5 lb a pair), whatever the other unit does. For the kinds of a unit that never run out, a small
// table holds the fewest plates for each multiple of the lattice's step. The kinds that do run out,
// and the multiples of one unit's table, are tried one after another by branch and bound; the last
// table answers at once. A room of one unit without limits is therefore a single look-up.
//
// A ramp (`RampPlanner`). Plates leave a sleeve in the opposite order to the one they went on in,
// so the steps during which each plate is on form nested intervals: dynamic programming over
// intervals of steps and over what is on the sleeve throughout the interval.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "barwright/core/error.hpp"

namespace barwright::inline v0::detail {

using Ticks = std::int64_t;

inline constexpr Ticks ticks_per_kg = 100'000'000'000;

/// Plates one side may hold. It bounds every search; real sleeves are full long before.
inline constexpr int most_plates_a_side = 32;
/// Different plates in one room: every plate the trade makes in both units fits.
inline constexpr int most_kinds = 24;

/// One kind of plate: what a pair weighs, how many pairs there are, which lattice it lies on.
struct Kind {
  Ticks pair = 0;
  int limit = most_plates_a_side;
  int lattice = 0;  ///< 0 for plates in kilograms, 1 for pounds
};
inline constexpr int lattices = 2;

/// The kinds of a room: distinct, heaviest first.
struct Kinds {
  Kind of[most_kinds] = {};
  int size = 0;
};

[[nodiscard]] constexpr Ticks greatest_common_divisor(Ticks a, Ticks b) noexcept {
  while (b != 0) {
    const Ticks rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

[[nodiscard]] constexpr Ticks divided_rounding_up(Ticks a, Ticks b) noexcept {
  return (a + b - 1) / b;
}

/// How many plates of each kind, by the kind's index. Of two with as many plates, the greater one
/// has the heavier plate at the first difference.
struct Counts {
  std::uint8_t of[most_kinds] = {};

  friend constexpr auto operator<=>(const Counts&, const Counts&) = default;
};

/// The fewest plates for every multiple of a step, from kinds that never run out.
///
/// Only the first multiples are stored. From `size` on the answer is one more of the heaviest kind
/// than for the multiple a heaviest plate below. That holds for all multiples once it holds for as
/// many in a row as the heaviest plate has steps, as the fewest for n follows from the fewest for n
/// less each plate (induction).
struct FewestPlates {
  static constexpr int capacity = 512;
  static constexpr std::uint8_t too_many = most_plates_a_side + 1;  ///< or not reachable at all

  Ticks step = 0;  ///< 0 when there is no table
  int heaviest = 0;
  int heaviest_kind = 0;
  int size = 0;
  std::uint8_t count[capacity] = {};  ///< fewest plates for this multiple
  std::uint8_t first[capacity] = {};  ///< the heaviest kind among them

  /// Tabulates the unlimited kinds of one lattice; leaves `step` at 0 where that takes too much.
  constexpr void build(const Kinds& kinds, int lattice) {
    int members[most_kinds] = {};
    int number = 0;
    Ticks divisor = 0;
    for (int k = 0; k < kinds.size; ++k) {
      const Kind& kind = kinds.of[k];
      if (kind.lattice != lattice || kind.limit < most_plates_a_side) continue;
      members[number++] = k;
      divisor = greatest_common_divisor(divisor, kind.pair);
    }
    if (number == 0) return;
    heaviest_kind = members[0];
    if (kinds.of[heaviest_kind].pair / divisor > capacity) return;
    int steps[most_kinds] = {};
    for (int i = 0; i < number; ++i) {
      steps[i] = static_cast<int>(kinds.of[members[i]].pair / divisor);
    }
    heaviest = steps[0];

    std::uint8_t fewest[2 * static_cast<std::size_t>(capacity)] = {};
    int last_exception = heaviest - 1;
    for (int n = 1; n <= last_exception + heaviest; ++n) {
      int best = too_many;
      for (int i = 0; i < number; ++i) {
        if (steps[i] > n || fewest[n - steps[i]] + 1 >= best) continue;
        best = fewest[n - steps[i]] + 1;
        if (n < capacity) first[n] = static_cast<std::uint8_t>(members[i]);
      }
      fewest[n] = static_cast<std::uint8_t>(best);
      if (n < capacity) count[n] = fewest[n];
      if (n > heaviest && best < too_many && best <= fewest[n - heaviest]) last_exception = n;
      if (last_exception >= capacity) return;
    }
    size = last_exception + 1;
    step = divisor;
  }

  /// The heaviest multiple that `most_plates_a_side` plates can make.
  [[nodiscard]] constexpr Ticks last() const noexcept {
    return static_cast<Ticks>(heaviest) * most_plates_a_side;
  }

  /// Plates for `n` steps; more than `most_plates_a_side` when it cannot be done. n <= last().
  [[nodiscard]] constexpr int plates(Ticks n) const noexcept {
    const auto multiple = static_cast<unsigned>(n);
    if (multiple < static_cast<unsigned>(size)) return count[multiple];
    const unsigned more = beyond(multiple);
    return static_cast<int>(more + count[multiple - more * static_cast<unsigned>(heaviest)]);
  }

  /// Adds the plates for `n` steps, which must be reachable.
  constexpr void add_to(Counts& counts, Ticks n, const Kinds& kinds) const {
    auto multiple = static_cast<unsigned>(n);
    if (multiple >= static_cast<unsigned>(size)) {
      const unsigned more = beyond(multiple);
      counts.of[heaviest_kind] = static_cast<std::uint8_t>(counts.of[heaviest_kind] + more);
      multiple -= more * static_cast<unsigned>(heaviest);
    }
    while (multiple > 0) {
      const int kind = first[multiple];
      ++counts.of[kind];
      multiple -= static_cast<unsigned>(kinds.of[kind].pair / step);
    }
  }

 private:
  /// How many heaviest plates bring `multiple` below `size`.
  [[nodiscard]] constexpr unsigned beyond(unsigned multiple) const noexcept {
    return (multiple - static_cast<unsigned>(size)) / static_cast<unsigned>(heaviest) + 1;
  }
};

enum class Side : unsigned char { below, above };

/// The plates of a room, ready to be searched.
class Rack {
 public:
  constexpr Rack() = default;

  constexpr explicit Rack(const Kinds& kinds) : kinds_(kinds) {
    // Pounds first: the last lattice answers at once, and most rooms have kilograms.
    for (int lattice = lattices - 1; lattice >= 0; --lattice) {
      FewestPlates& table = tables_[lattice];
      table.build(kinds_, lattice);
      const bool tabulated = table.step > 0;
      for (int k = 0; k < kinds_.size; ++k) {
        const Kind& kind = kinds_.of[k];
        if (kind.lattice != lattice) continue;
        if (tabulated && kind.limit >= most_plates_a_side) continue;
        levels_[depth_++] = {.mass = kind.pair,
                             .heaviest = kind.pair,
                             .total = kind.pair * kind.limit,
                             .limit = kind.limit,
                             .index = k,
                             .tabulated = false};
      }
      if (tabulated) {
        levels_[depth_++] = {.mass = table.step,
                             .heaviest = table.heaviest * table.step,
                             .total = table.last() * table.step,
                             .limit = most_plates_a_side,
                             .index = lattice,
                             .tabulated = true};
      }
    }
    for (int i = depth_ - 2; i >= 0; --i) {
      Level& level = levels_[i];
      const Level& next = levels_[i + 1];
      level.divisor_after = greatest_common_divisor(next.divisor_after, next.mass);
      level.total_after = next.total_after + next.total;
      level.heaviest_after =
          next.heaviest > next.heaviest_after ? next.heaviest : next.heaviest_after;
    }
  }

  /// How often each level of the search is used; a multiple of a table is at most 32 x 512.
  struct Used {
    std::int16_t at[most_kinds + lattices] = {};
  };

  /// What a search found: the mass of the pairs, how many plates a side, and how often each level
  /// was used.
  struct Found {
    Ticks mass = -1;  ///< negative when there is no answer
    int plates = 0;
    Used used{};
  };

  /// The heaviest loading not above `goal`, or the lightest not below it: with the fewest plates,
  /// and of those with the same number the one with the heavier plate at the first difference.
  [[nodiscard]] constexpr Found closest(Ticks goal, Side side) const {
    Search search;
    search.goal = goal;
    search.side = side;
    if (side == Side::above || goal >= 0) descend(search, 0, 0, 0);
    return search.best;
  }

  [[nodiscard]] constexpr Counts counts(const Found& found) const { return counts(found.used); }

  [[nodiscard]] constexpr const Kinds& kinds() const noexcept { return kinds_; }

 private:
  /// One decision of a search: how many of a kind, or which multiple of a table's step.
  struct Level {
    Ticks mass = 0;
    Ticks heaviest = 0;
    Ticks total = 0;
    // What the levels after this one can add together:
    Ticks divisor_after = 0;
    Ticks total_after = 0;
    Ticks heaviest_after = 0;
    int limit = 0;
    int index = 0;  ///< of the kind or of the table
    bool tabulated = false;
  };
  struct Search {
    Ticks goal = 0;
    Side side = Side::below;
    Found best{};
    Used used{};
  };

  [[nodiscard]] constexpr const FewestPlates& table(const Level& level) const noexcept {
    return tables_[level.index];
  }
  [[nodiscard]] constexpr int plates_for(const Level& level, Ticks n) const noexcept {
    return level.tabulated ? table(level).plates(n) : static_cast<int>(n);
  }

  constexpr void descend(Search& search, int at, Ticks mass, int plates) const {
    const Ticks rest = search.goal - mass;
    if (at == depth_ || rest <= 0) {
      for (int i = at; i < depth_; ++i) search.used.at[i] = 0;
      if (search.side == Side::below || rest <= 0) offer(search, mass, plates);
      return;
    }
    const Level& level = levels_[at];
    std::int16_t& used = search.used.at[at];
    const Ticks last = level.tabulated ? table(level).last() : level.limit;
    const int room = most_plates_a_side - plates;
    Ticks n = rest / level.mass;
    if (search.side == Side::above && n * level.mass < rest) ++n;
    if (at == depth_ - 1) {
      // Nothing follows: the first multiple that can be made is the closest.
      const int toward = search.side == Side::below ? -1 : 1;
      if (toward < 0 && n > last) n = last;
      while (n >= 0 && n <= last && plates_for(level, n) > room) n += toward;
      if (n < 0 || n > last) return;
      used = static_cast<std::int16_t>(n);
      offer(search, mass + n * level.mass, plates + plates_for(level, n));
      return;
    }
    // From above, more than the first multiple that suffices never helps.
    while (search.side == Side::above && n < last && plates_for(level, n) > room) ++n;
    for (n = n > last ? last : n; n >= 0; --n) {
      const int more = plates_for(level, n);
      if (more > room) continue;
      if (!promising(search, level, mass + n * level.mass, plates + more)) continue;
      used = static_cast<std::int16_t>(n);
      descend(search, at + 1, mass + n * level.mass, plates + more);
    }
  }

  /// Whether the levels after `level` could still lead to something as good as the best.
  [[nodiscard]] static constexpr bool promising(const Search& search, const Level& level,
                                                Ticks mass, int plates) noexcept {
    const Ticks rest = search.goal - mass;
    Ticks more = 0;
    if (search.side == Side::below) {
      more = rest - rest % level.divisor_after;
      if (more > level.total_after) more = level.total_after;
      if (mass + more < search.best.mass) return false;
    } else if (rest > 0) {
      more = divided_rounding_up(rest, level.divisor_after) * level.divisor_after;
      if (more > level.total_after) return false;
    }
    if (search.best.mass < 0) return true;
    if (search.side == Side::above && mass + more > search.best.mass) return false;
    return mass + more != search.best.mass ||
           plates + divided_rounding_up(more, level.heaviest_after) <= search.best.plates;
  }

  constexpr void offer(Search& search, Ticks mass, int plates) const {
    Found& best = search.best;
    if (best.mass >= 0) {
      const bool farther = search.side == Side::below ? mass < best.mass : mass > best.mass;
      if (farther) return;
      if (mass == best.mass) {
        if (plates > best.plates) return;
        if (plates == best.plates && !(counts(search.used) > counts(best.used))) return;
      }
    }
    best.mass = mass;
    best.plates = plates;
    best.used = search.used;
  }

  [[nodiscard]] constexpr Counts counts(const Used& used) const {
    Counts result{};
    for (int i = 0; i < depth_; ++i) {
      const Level& level = levels_[i];
      const std::int16_t n = used.at[i];
      if (level.tabulated) {
        table(level).add_to(result, n, kinds_);
      } else {
        result.of[level.index] = static_cast<std::uint8_t>(n);
      }
    }
    return result;
  }

  Kinds kinds_{};
  Level levels_[most_kinds + lattices] = {};
  FewestPlates tables_[lattices] = {};
  int depth_ = 0;
};

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
    if (static_cast<std::size_t>(extent) + 1 > most_costs / number_of_ranges() / block) {
      fail("the plates for a ramp", "few enough to plan exactly in 256 MiB", "more");
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

  static constexpr std::size_t most_costs = std::size_t{1} << 26;  // 256 MiB

  const Ticks* masses_;
  int steps_;
  Ticks heaviest_ = 0;
  PlannedKind kinds_[most_kinds] = {};
  int number_ = 0;
  bool plates_counted_ = false;
  std::vector<State> states_;
  std::vector<Cost> costs_;  // of each range of steps and each state
  Stack stacks_[most_steps];
};

}  // namespace barwright::inline v0::detail
