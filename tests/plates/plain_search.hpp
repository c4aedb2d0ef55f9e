// tests/plates/plain_search.hpp - what the plates tests share: an exhaustive search and odd rooms
//
// The search shares nothing with the library but the size of a tick.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <barwright/plates.hpp>
#include <cmath>
#include <cstddef>
#include <random>
#include <sstream>
#include <string>
#include <vector>

namespace plain_search {

using namespace barwright;

inline std::string printed(const Loading& loading) { return to_text(loading).str(); }

inline std::vector<double> marks(const Loading& loading) {
  std::vector<double> result;
  for (const MarkedMass plate : loading.plates()) result.push_back(plate.value());
  return result;
}

inline Unit unit_named(const std::string& name) { return name == "lb" ? Unit::lb : Unit::kg; }

inline std::vector<double> numbers(const std::string& text) {
  std::istringstream in(text);
  std::vector<double> result;
  for (double value = 0; in >> value;) result.push_back(value);
  return result;
}

template <class Action>
std::string message(Action action) {
  try {
    action();
  } catch (const DomainError& error) {
    return error.what();
  }
  return "";
}

inline long long ticks(const Plate& plate) {
  const long long thousandths = std::llround(plate.mass().value() * 1000.0);
  return thousandths * (plate.mass().unit() == Unit::kg ? 100'000'000LL : 45'359'237LL);
}

/// Every way to load one side, each with its counts, up to the first plate past `side`.
struct Enumeration {
  struct Way {
    long long side;
    int plates;
    std::vector<int> counts;  // heaviest kind first
  };

  const Plates& plates;
  long long side;
  std::vector<Way> ways{};

  void run() {
    Way start{0, 0, std::vector<int>(plates.size(), 0)};
    extend(0, start);
  }
  void extend(std::size_t kind, Way& way) {
    if (kind == plates.size() || way.side > side) {
      ways.push_back(way);
      return;
    }
    const Way before = way;
    for (int n = 0; n <= plates[kind].per_side() && before.plates + n <= 32; ++n) {
      if (n > 0 && before.side + (n - 1) * ticks(plates[kind]) > side) break;
      way.side = before.side + n * ticks(plates[kind]);
      way.plates = before.plates + n;
      way.counts[kind] = n;
      extend(kind + 1, way);
    }
    way = before;
  }
  /// The best way whose mass is `wanted`: fewest plates, then the heavier at the first difference.
  const Way* best(long long wanted) const {
    const Way* found = nullptr;
    for (const Way& way : ways) {
      if (way.side != wanted) continue;
      if (found == nullptr || way.plates < found->plates ||
          (way.plates == found->plates && way.counts > found->counts)) {
        found = &way;
      }
    }
    return found;
  }
};

inline std::vector<int> counts(const Room& room, const Loading& loading) {
  std::vector<int> result(room.plates().size(), 0);
  for (const MarkedMass mark : loading.plates()) {
    for (std::size_t k = 0; k < room.plates().size(); ++k) {
      if (room.plates()[k].mass() == mark) ++result[k];
    }
  }
  return result;
}

inline bool is_heaviest_innermost(const Loading& loading) {
  for (std::size_t i = 1; i < loading.plates().size(); ++i) {
    if (loading.plates()[i - 1] < loading.plates()[i]) return false;
  }
  return true;
}

using Random = std::mt19937;

inline int from(Random& random, int low, int high) {
  return std::uniform_int_distribution<int>(low, high)(random);
}

/// A room of one to seven kinds: kilograms, pounds or both; common, weighed or odd masses; limited
/// or not.
inline Room random_room(Random& random) {
  static constexpr std::array kilograms{25.0, 20.0, 15.0, 10.0, 5.0,  2.5,  2.0,
                                        1.5,  1.25, 1.0,  0.5,  0.25, 50.0, 45.0};
  static constexpr std::array pounds{45.0, 35.0, 25.0, 10.0, 5.0, 2.5, 1.25, 100.0, 55.0};
  const int units = from(random, 0, 2);
  const int odd = from(random, 0, 4);
  Plates plates;
  for (int kinds = from(random, 1, 7); kinds > 0; --kinds) {
    const bool lb = units == 2 ? from(random, 0, 1) == 1 : units == 1;
    double mark = lb ? pounds[static_cast<std::size_t>(from(random, 0, 8))]
                     : kilograms[static_cast<std::size_t>(from(random, 0, 13))];
    if (odd == 0) mark = from(random, 1, 30);  // any whole number
    if (odd == 1) mark = std::round(mark * 1000.0 + from(random, -9, 9)) / 1000.0;  // weighed
    const int per_side = from(random, 0, 2) == 0 ? Plate::unlimited : from(random, 1, 4);
    plates.add(Plate(mark, lb ? Unit::lb : Unit::kg, per_side));
  }
  const Bar bar(from(random, 0, 1) == 0 ? 20 : 15, from(random, 0, 3) == 0 ? Unit::lb : Unit::kg);
  return Room(bar, plates, from(random, 0, 2) == 0 ? Collars(2.5, Unit::kg) : Collars());
}

inline long long empty_ticks(const Room& room) {
  return std::llround(room.bar().mass.value() * 1000.0) *
             (room.bar().mass.unit() == Unit::kg ? 100'000'000LL : 45'359'237LL) +
         2 * std::llround(room.collars().each.value() * 1000.0) * 100'000'000LL;
}

}  // namespace plain_search
