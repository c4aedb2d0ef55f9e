// barwright/plates/detail/sum_search.hpp - one load, looked up among all sums of each unit's plates
//
// The slow and sure way, for rooms in which branch and bound would take minutes. The plates of one
// unit make multiples of a common step; a table, filled kind by kind, holds the fewest plates for
// each multiple. Then every sum in kilograms is joined with the best one in pounds. That takes one
// pass over both tables, as the larger the one sum the smaller the other. No two such pairs weigh
// the same below 45 tonnes (a thousandth of a pound is 45,359,237 ticks, which has no factor in
// common with those of a kilogram), so the fewest plates of a load are the fewest of each part.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "barwright/plates/detail/kinds.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

class SumSearch {
 public:
  SumSearch(const Kinds& kinds, Ticks goal, Side side) : goal_(goal), side_(side) {
    // The lightest load that is not below the goal falls below it without any one of its plates.
    Ticks most = goal;
    if (side == Side::above && kinds.size > 0) most += kinds.of[0].pair;
    for (int lattice = 0; lattice < lattices; ++lattice) {
      units_[static_cast<std::size_t>(lattice)].tabulate(kinds, lattice, most < 0 ? 0 : most);
    }
  }

  /// Nothing where the tables would be too large; an answer without a mass where there is none.
  [[nodiscard]] std::optional<Found> closest() const {
    for (const Unit& unit : units_) {
      if (unit.is_too_large) return std::nullopt;
    }
    const std::vector<Sum> kilograms = units_[0].sums();
    const std::vector<Sum> pounds = units_[1].sums();

    // For each number of plates that may still go on, how far its search has come in `pounds`, and
    // the last sum on the way that needs no more plates.
    struct Reached {
      std::size_t next = 0;
      const Sum* last = nullptr;
    };
    std::array<Reached, most_plates_a_side + 1> reached{};
    const auto is_allowed = [&](Ticks mass) {
      return side_ == Side::below ? mass <= goal_ : mass >= goal_;
    };
    Ticks best = -1;
    Sum best_kilograms{};
    Sum best_pounds{};
    const auto join = [&](const Sum& part) {
      const int left = most_plates_a_side - part.plates;
      Reached& place = reached[static_cast<std::size_t>(left)];
      for (; place.next < pounds.size(); ++place.next) {
        const std::size_t from_end = pounds.size() - 1 - place.next;
        const Sum& other = pounds[side_ == Side::below ? place.next : from_end];
        if (!is_allowed(part.mass + other.mass)) break;
        if (other.plates <= left) place.last = &other;
      }
      if (place.last == nullptr) return;
      const Ticks mass = part.mass + place.last->mass;
      if (best >= 0 && (side_ == Side::below ? mass <= best : mass >= best)) return;
      best = mass;
      best_kilograms = part;
      best_pounds = *place.last;
    };
    if (side_ == Side::below) {
      for (std::size_t i = kilograms.size(); i-- > 0;) join(kilograms[i]);
    } else {
      for (const Sum& part : kilograms) join(part);
    }

    Found found;
    if (best < 0) return found;
    found.mass = best;
    units_[0].add_to(found.counts, best_kilograms);
    units_[1].add_to(found.counts, best_pounds);
    return found;
  }

 private:
  /// One mass that the plates of a unit make.
  struct Sum {
    Ticks mass = 0;
    int plates = 0;
  };

  /// The plates of one unit.
  struct Unit {
    static constexpr Ticks most_multiples = Ticks{1} << 16;
    static constexpr std::uint8_t too_many = most_plates_a_side + 1;  ///< or not reachable at all

    struct Row {
      int kind = 0;
      int limit = 0;
      std::size_t steps = 0;               ///< that one of the kind takes
      std::vector<std::uint8_t> fewest{};  ///< plates for each multiple: of this kind and lighter
    };
    Ticks step = 1;
    bool is_too_large = false;
    std::size_t size = 1;     ///< multiples tabulated, nothing among them
    std::vector<Row> rows{};  ///< lightest kind first

    void tabulate(const Kinds& kinds, int lattice, Ticks most) {
      Ticks divisor = 0;
      Ticks total = 0;
      for (int k = kinds.size - 1; k >= 0; --k) {
        const Kind& kind = kinds.of[k];
        if (kind.lattice != lattice || kind.pair > most) continue;
        divisor = greatest_common_divisor(divisor, kind.pair);
        total += kind.pair * kind.limit;
        rows.push_back({.kind = k, .limit = kind.limit});
      }
      if (rows.empty()) return;
      step = divisor;
      const Ticks multiples = (most < total ? most : total) / step;
      is_too_large = multiples > most_multiples;
      if (is_too_large) return;
      size = static_cast<std::size_t>(multiples) + 1;
      std::vector<std::uint8_t> before(size, too_many);
      before[0] = 0;
      for (Row& row : rows) {
        row.steps = static_cast<std::size_t>(kinds.of[row.kind].pair / step);
        row.fewest = before;
        // Bundles of 1, 2, 4, ... and the rest make every number up to the limit.
        int left = row.limit;
        for (int bundle = 1; left > 0; bundle *= 2) {
          const int plates = bundle < left ? bundle : left;
          put_on(row, plates);
          left -= plates;
        }
        before = row.fewest;
      }
    }

    /// Allows one more bundle of a kind at each multiple.
    void put_on(Row& row, int plates) const {
      const std::size_t steps = row.steps * static_cast<std::size_t>(plates);
      std::uint8_t* const fewest = row.fewest.data();
      for (std::size_t n = size; n-- > steps;) {
        const int with = fewest[n - steps] + plates;
        if (with < fewest[n]) fewest[n] = static_cast<std::uint8_t>(with);
      }
    }

    /// Every mass that can be made, lightest first.
    [[nodiscard]] std::vector<Sum> sums() const {
      std::vector<Sum> result{{.mass = 0, .plates = 0}};
      if (rows.empty()) return result;
      const std::vector<std::uint8_t>& fewest = rows.back().fewest;
      for (std::size_t n = 1; n < size; ++n) {
        if (fewest[n] < too_many) {
          result.push_back({.mass = static_cast<Ticks>(n) * step, .plates = fewest[n]});
        }
      }
      return result;
    }

    /// Of the fewest plates for `sum`, as many of the heaviest as can be, then of the next.
    void add_to(Counts& counts, const Sum& sum) const {
      auto n = static_cast<std::size_t>(sum.mass / step);
      int left = sum.plates;
      for (std::size_t r = rows.size(); r-- > 0 && left > 0;) {
        const Row& row = rows[r];
        int count = row.limit < left ? row.limit : left;
        const auto is_best = [&](int number) {
          const std::size_t taken = static_cast<std::size_t>(number) * row.steps;
          if (taken > n) return false;
          if (r == 0) return taken == n && number == left;
          return rows[r - 1].fewest[n - taken] == left - number;
        };
        while (count > 0 && !is_best(count)) --count;
        counts.of[row.kind] = static_cast<std::uint8_t>(count);
        n -= static_cast<std::size_t>(count) * row.steps;
        left -= count;
      }
    }
  };

  Ticks goal_;
  Side side_;
  std::array<Unit, lattices> units_{};
};

}  // namespace barwright::inline BARWRIGHT_ABI::detail
