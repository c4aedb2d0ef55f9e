// barwright/plates/detail/rack.hpp - the search for one load
//
// For the kinds of a unit that never run out, a small table holds the fewest plates for each
// multiple of their step. The kinds that do run out, and the multiples of one unit's table, are
// tried one after another by branch and bound; the last table answers at once. A room of one unit
// without limits is therefore a single look-up.
//
// Branch and bound is fast in the rooms that there are and hopeless in some that can be written
// down: twelve odd plates in each unit. So its steps are counted, and when they run out the answer
// is looked up among all sums that each unit's plates can make (sum_search.hpp). Where those are
// too many as well, the loads lie so densely that a longer search ends near enough to the goal; if
// it does not, the load is refused. The steps are counted, not timed: the answer is the same on
// every machine.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstdint>

#include "barwright/core/error.hpp"
#include "barwright/core/text.hpp"
#include "barwright/plates/detail/fewest_plates.hpp"
#include "barwright/plates/detail/kinds.hpp"
#include "barwright/plates/detail/sum_search.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

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

  /// The heaviest loading not above `goal`, or the lightest not below it: with the fewest plates,
  /// and of those with the same number the one with the heavier plate at the first difference.
  /// @throws DomainError where neither search can answer; see the top of this file.
  [[nodiscard]] constexpr Found closest(Ticks goal, Side side) const {
    if (side == Side::below && goal < 0) return {};
    const Found all = heaviest_of(kinds_);
    if (goal >= all.mass) {
      return side == Side::below || goal == all.mass ? all : Found{};
    }
    const Found quick = branch_and_bound(goal, side, few_steps);
    if (quick.is_exact) return quick;
    return closest_with_patience(goal, side);
  }

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
  /// How often each level of the search is used; a multiple of a table is at most 32 x 512.
  struct Used {
    std::int16_t at[most_kinds + lattices] = {};
  };
  struct Best {
    Ticks mass = -1;
    int plates = 0;
    Used used{};
  };
  struct Search {
    Ticks goal = 0;
    Side side = Side::below;
    int steps_left = 0;
    Best best{};
    Used used{};
  };

  static constexpr int few_steps = 1 << 15;   // a millisecond at most
  static constexpr int many_steps = 1 << 20;  // some ten milliseconds
  static constexpr Ticks near_enough = ticks_per_kg / 20;

  [[nodiscard]] constexpr Found branch_and_bound(Ticks goal, Side side, int steps) const {
    Search search;
    search.goal = goal;
    search.side = side;
    search.steps_left = steps;
    descend(search, 0, 0, 0);
    return {.mass = search.best.mass,
            .counts = counts(search.best.used),
            .is_exact = search.steps_left > 0};
  }

  [[nodiscard]] Found closest_with_patience(Ticks goal, Side side) const {
    if (const auto found = SumSearch(kinds_, goal, side).closest()) return *found;
    const Found found = branch_and_bound(goal, side, many_steps);
    const Ticks off = side == Side::below ? goal - found.mass : found.mass - goal;
    if (found.is_exact || (found.mass >= 0 && off <= near_enough)) return found;
    fail(ErrorCode::too_many, "a load in a room of so many odd plates",
         "found in 1,048,576 steps of search",
         Text{}
             .append_rounded(static_cast<double>(goal) / static_cast<double>(ticks_per_kg), 3)
             .append(" kg of plates"));
  }

  [[nodiscard]] constexpr const FewestPlates& table(const Level& level) const noexcept {
    return tables_[level.index];
  }
  [[nodiscard]] constexpr int plates_for(const Level& level, Ticks n) const noexcept {
    return level.tabulated ? table(level).plates(n) : static_cast<int>(n);
  }

  constexpr void descend(Search& search, int at, Ticks mass, int plates) const {
    if (--search.steps_left <= 0) return;
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
      for (; n >= 0 && n <= last && plates_for(level, n) > room; n += toward) --search.steps_left;
      if (n < 0 || n > last) return;
      used = static_cast<std::int16_t>(n);
      offer(search, mass + n * level.mass, plates + plates_for(level, n));
      return;
    }
    // From above, more than the first multiple that suffices never helps.
    while (search.side == Side::above && n < last && plates_for(level, n) > room) ++n;
    for (n = n > last ? last : n; n >= 0 && search.steps_left > 0; --n) {
      --search.steps_left;
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
    Best& best = search.best;
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

}  // namespace barwright::inline BARWRIGHT_ABI::detail
