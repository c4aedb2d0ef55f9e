// The plates for a load and for a whole ramp, held against published cases and exhaustive search.
#include "barwright/plates.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "csv_table.hpp"

using namespace barwright;
using namespace barwright::literals;
using barwright_test::CsvTable;

// All of it is whole numbers, so it can be done while compiling.
static_assert(plate_sets::gym_kg.at_most(51_kg)->total() == 50_kg);
static_assert(plate_sets::gym_lb.nearest(165_lb).plates().size() == 2);

namespace {

std::string printed(const Loading& loading) { return std::string(to_text(loading).view()); }

std::vector<double> marks(const Loading& loading) {
  std::vector<double> result;
  for (const MarkedMass plate : loading.plates()) result.push_back(plate.value());
  return result;
}

Unit unit_named(const std::string& name) { return name == "lb" ? Unit::lb : Unit::kg; }

std::vector<double> numbers(const std::string& text) {
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

// ---- exhaustive search, which shares nothing with the library but the size of a tick ------------

long long ticks(const Plate& plate) {
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

std::vector<int> counts(const Room& room, const Loading& loading) {
  std::vector<int> result(room.plates().size(), 0);
  for (const MarkedMass mark : loading.plates()) {
    for (std::size_t k = 0; k < room.plates().size(); ++k) {
      if (room.plates()[k].mass() == mark) ++result[k];
    }
  }
  return result;
}

bool is_heaviest_innermost(const Loading& loading) {
  for (std::size_t i = 1; i < loading.plates().size(); ++i) {
    if (loading.plates()[i - 1] < loading.plates()[i]) return false;
  }
  return true;
}

using Random = std::mt19937;

int from(Random& random, int low, int high) {
  return std::uniform_int_distribution<int>(low, high)(random);
}

/// A room of one to seven kinds: kilograms, pounds or both; common, weighed or odd masses; limited
/// or not.
Room random_room(Random& random) {
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

long long empty_ticks(const Room& room) {
  return std::llround(room.bar().mass.value() * 1000.0) *
             (room.bar().mass.unit() == Unit::kg ? 100'000'000LL : 45'359'237LL) +
         2 * std::llround(room.collars().each.value() * 1000.0) * 100'000'000LL;
}

}  // namespace

// ---- one load -----------------------------------------------------------------------------------

TEST_CASE("every case of the loading table") {
  const CsvTable table("plate-loading-cases.csv");
  REQUIRE(table.size() == 89);
  for (const CsvTable::Row& row : table.rows()) {
    CAPTURE(row.text("group"));
    CAPTURE(row.text("target"));
    const Unit unit = unit_named(row.text("unit"));
    const Room room(
        Bar(row.number("bar"), unit),
        parse_plates(row.text("discs_per_side_available") + " " + row.text("unit")),
        row.number("collars_pair") > 0 ? Collars(row.number("collars_pair") / 2, unit) : Collars());
    const Mass target = Mass::from(row.number("target"), unit);

    const auto below = room.at_most(target);
    const auto above = room.at_least(target);
    REQUIRE(below.has_value() == !row.empty("reachable_at_or_below"));
    REQUIRE(above.has_value() == !row.empty("reachable_at_or_above"));
    if (below) CHECK(below->total() == Mass::from(row.number("reachable_at_or_below"), unit));
    if (above) CHECK(above->total() == Mass::from(row.number("reachable_at_or_above"), unit));

    if (row.empty("discs_inside_to_outside")) continue;
    const bool none = row.text("discs_inside_to_outside") == "none";
    const std::vector<double> expected =
        none ? std::vector<double>{} : numbers(row.text("discs_inside_to_outside"));
    const Loading loading = room.nearest(target);
    CHECK(loading.total() == target);
    CHECK(loading.per_side() == Mass::from(row.number("load_per_side"), unit));
    CHECK(marks(loading) == expected);
    CHECK(static_cast<double>(expected.size()) == row.number("min_disc_count"));
    CHECK(marks(*below) == expected);
    CHECK(marks(*above) == expected);
  }
}

TEST_CASE(
    "what the loading table says of uniqueness and of largest first [derived; counted again]") {
  const CsvTable table("plate-loading-cases.csv");
  int counted = 0;
  for (const CsvTable::Row& row : table.rows()) {
    if (row.empty("discs_inside_to_outside")) continue;
    CAPTURE(row.text("group"));
    CAPTURE(row.text("target"));
    const Plates plates =
        parse_plates(row.text("discs_per_side_available") + " " + row.text("unit"));
    const int fewest = static_cast<int>(row.number("min_disc_count"));
    const int side = static_cast<int>(std::lround(row.number("load_per_side") * 1000.0));

    // All ways with exactly `left` more plates, none heavier than the last.
    const auto ways = [&](auto self, std::size_t kind, int used, int left, int rest) -> int {
      if (left == 0) return rest == 0 ? 1 : 0;
      if (kind == plates.size() || rest <= 0) return 0;
      int sum = self(self, kind + 1, 0, left, rest);
      if (used < plates[kind].per_side()) {
        sum += self(self, kind, used + 1, left - 1, rest - plates[kind].mass().thousandths());
      }
      return sum;
    };
    CHECK((ways(ways, 0, 0, fewest, side) == 1) == (row.text("min_count_unique") == "yes"));
    for (int fewer = 0; fewer < fewest; ++fewer) CHECK(ways(ways, 0, 0, fewer, side) == 0);

    std::vector<double> greedy;
    int rest = side;
    for (const Plate& plate : plates) {
      for (int n = 0; n < plate.per_side() && plate.mass().thousandths() <= rest; ++n) {
        greedy.push_back(plate.mass().value());
        rest -= plate.mass().thousandths();
      }
    }
    const std::string& told = row.text("largest_first_discs");
    CHECK((rest != 0) == (told == "fails"));
    if (rest == 0) CHECK(greedy == (told == "none" ? std::vector<double>{} : numbers(told)));
    CHECK((rest == 0 && static_cast<int>(greedy.size()) == fewest) ==
          (row.text("largest_first_is_minimal") == "yes"));
    ++counted;
  }
  CHECK(counted == 84);
}

TEST_CASE("largest first is not always fewest: 60 lb a side is 35 + 25 [derived]") {
  CHECK(marks(plate_sets::gym_lb.nearest(165_lb)) == std::vector<double>{35, 25});
}

TEST_CASE("kilogram plates load largest first up to 75 kg a side [derived by enumeration]") {
  constexpr std::array sizes{25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25};
  for (int step = 0; step <= 60; ++step) {
    double rest = 1.25 * step;
    std::vector<double> greedy;
    for (const double size : sizes) {
      for (; rest >= size; rest -= size) greedy.push_back(size);
    }
    const Mass load = Mass::from_kg(20.0 + 2.5 * step);
    CHECK(marks(plate_sets::gym_kg.nearest(load)) == greedy);
    // 50 kg more is one 25 kg plate more on each side.
    greedy.insert(greedy.begin(), 25.0);
    CHECK(marks(plate_sets::gym_kg.nearest(load + 50_kg)) == greedy);
  }
}

TEST_CASE("federation rooms reach every step of the rules") {
  // Attempts in steps of 2.5 kg from bar and collars [IPL 2019: read; IPF: recalled].
  for (double kg = 25.0; kg <= 500.0; kg += 2.5) {
    CHECK(plate_sets::powerlifting.at_most(Mass::from_kg(kg))->total() == Mass::from_kg(kg));
    CHECK(plate_sets::powerlifting_with_50.nearest(Mass::from_kg(kg)).total() == Mass::from_kg(kg));
  }
  // Records by 0.5 kg [para rules: read; IPF: recalled].
  for (double kg = 25.0; kg <= 500.0; kg += 0.5) {
    CHECK(plate_sets::powerlifting_record.nearest(Mass::from_kg(kg)).total() == Mass::from_kg(kg));
  }
  // Steps of 1 kg [IWF: read], from 26 kg for men and 21 kg for women [recalled].
  for (double kg = 26.0; kg <= 270.0; kg += 1.0) {
    CHECK(plate_sets::weightlifting_men.nearest(Mass::from_kg(kg)).total() == Mass::from_kg(kg));
    CHECK(plate_sets::weightlifting_women.nearest(Mass::from_kg(kg - 5)).total() ==
          Mass::from_kg(kg - 5));
  }
  CHECK(marks(plate_sets::powerlifting_with_50.nearest(225_kg)) == std::vector<double>{50, 50});
  CHECK(!plate_sets::powerlifting.at_most(24_kg));
  CHECK(plate_sets::powerlifting.nearest(24_kg).total() == 25_kg);
  // Plates up to 45 kg, as in Special Olympics style sets [read].
  const Room special = parse_room("bar 20 kg; collars 2.5 kg; plates 45 25 20 15 10 5 2.5 1.25 kg");
  CHECK(marks(special.nearest(115_kg)) == std::vector<double>{45});
}

TEST_CASE("the women's bar of weightlifting is 15 kg, the men's 20 [federation pages: read]") {
  CHECK(plate_sets::weightlifting_women.bar() == Bar(15, Unit::kg));
  CHECK(plate_sets::weightlifting_men.bar() == Bar(20, Unit::kg));
  CHECK(marks(plate_sets::weightlifting_men.nearest(45_kg)) == std::vector<double>{10});
  CHECK(marks(plate_sets::powerlifting_record.nearest(55_kg)) == std::vector<double>{15});
}

TEST_CASE("the answer does not hang on the last digit of the load") {
  CHECK(100.0 * 0.575 < 57.5);  // 57.499999999999993
  CHECK(plate_sets::gym_kg.at_most(100_kg * 0.575)->total() == 57.5_kg);
  CHECK(plate_sets::gym_kg.at_least(Mass::from_kg(std::nextafter(57.5, 100.0)))->total() ==
        57.5_kg);
  for (int step = 0; step < 400; ++step) {
    const double lb = 45.0 + 5.0 * step;
    const Mass there_and_back = Mass::from_kg(Mass::from_lb(lb).kg());
    for (const Mass load : {there_and_back, Mass::from_lb(lb / 3.0) * 3.0,
                            Mass::from_kg(std::nextafter(there_and_back.kg(), 0.0))}) {
      if (const auto loading = plate_sets::gym_lb.at_most(load)) {
        CHECK(loading->total() == Mass::from_lb(lb));
      }
    }
  }
  // An exact tie goes to the lighter load, also when the last digit says otherwise.
  CHECK(plate_sets::gym_lb.nearest(137.5_lb).total() == 135_lb);
  CHECK(plate_sets::gym_lb.nearest(Mass::from_kg(std::nextafter(Mass::from_lb(137.5).kg(), 100.0)))
            .total() == 135_lb);
  CHECK(plate_sets::gym_kg.nearest(51.25_kg).total() == 50_kg);
  CHECK(plate_sets::gym_kg.nearest(51.26_kg).total() == 52.5_kg);
}

TEST_CASE("10,000 random rooms answer as exhaustive search does") {
  Random random(20240229);
  int exact = 0;
  int none_below = 0;
  int none_above = 0;
  int both_units = 0;
  for (int trial = 0; trial < 10'000; ++trial) {
    const Room room = random_room(random);
    const Plates& plates = room.plates();

    // Up to some thirty of the lightest plate; every third load can be made exactly.
    const long long lightest = ticks(plates[plates.size() - 1]);
    const long long most = std::min(30 * lightest, 15'000'000'000'000LL);
    const double share = std::uniform_real_distribution<double>(-0.1, 1.0)(random);
    long long side = static_cast<long long>(static_cast<double>(most) * share);
    if (trial % 3 == 0) {
      side = 0;
      for (int n = from(random, 0, 5); n > 0; --n) {
        const Plate& plate =
            plates[static_cast<std::size_t>(from(random, 0, static_cast<int>(plates.size()) - 1))];
        if (side + ticks(plate) <= most) side += ticks(plate);
      }
    }
    const Mass load =
        Mass::from_kg(std::max(0.0, static_cast<double>(empty_ticks(room) + 2 * side) / 1e11));
    // What the library is asked for, in the same whole ticks.
    const long long goal = std::llround(load.kg() * 1e11) - empty_ticks(room);

    Enumeration all{plates, std::max(0LL, goal / 2 + 1000)};
    all.run();
    constexpr long long equal = 100;  // a microgram
    long long below = -1;
    long long above = std::numeric_limits<long long>::max();
    for (const Enumeration::Way& way : all.ways) {
      const long long mass = 2 * way.side;
      if (mass <= goal + equal && mass > below) below = mass;
      if (mass >= goal - equal && mass < above) above = mass;
    }
    const bool any_below = below >= 0;
    const bool any_above = above != std::numeric_limits<long long>::max();
    const auto matches = [&](const Loading& loading, long long mass) {
      const Enumeration::Way* best = all.best(mass / 2);
      return best != nullptr && counts(room, loading) == best->counts &&
             is_heaviest_innermost(loading);
    };

    CAPTURE(trial);
    CAPTURE(to_text(load).view());
    const auto at_most = room.at_most(load);
    const auto at_least = room.at_least(load);
    REQUIRE(at_most.has_value() == any_below);
    REQUIRE(at_least.has_value() == any_above);
    if (any_below) REQUIRE(matches(*at_most, below));
    if (any_above) REQUIRE(matches(*at_least, above));
    const bool lighter = any_below && (!any_above || goal - below <= above - goal + equal);
    REQUIRE(matches(room.nearest(load), lighter ? below : above));

    exact += below == above;
    none_below += !any_below;
    none_above += !any_above;
    bool kg = false;
    bool lb = false;
    for (const Plate& plate : plates) (plate.mass().unit() == Unit::kg ? kg : lb) = true;
    both_units += kg && lb;
  }
  // The rooms are as varied as they are meant to be.
  CHECK(exact > 2000);
  CHECK(none_below > 300);
  CHECK(none_above > 500);
  CHECK(both_units > 1500);
}

TEST_CASE("big rooms of both units answer as two simple tables do") {
  // Kilograms and pounds meet on one bar; each pound part is joined to the best kilogram part.
  const Room room =
      parse_room("bar 20 kg; plates 25 20 15 10 5 2.5 1.25 kg 55 45 35 25 10 5 2.5 lb");
  for (int i = 0; i < 200; ++i) {
    const Mass load = Mass::from_kg(20.0 + 1.73 * i);
    const long long goal = std::llround(load.kg() * 1e11) - 2'000'000'000'000LL;
    long long best = -1;
    for (long long n = 0; n * 226'796'185'000LL <= goal; ++n) {
      const long long rest = goal - n * 226'796'185'000LL;
      best = std::max(best, goal - rest % 250'000'000'000LL);
    }
    const auto loading = room.at_most(load);
    REQUIRE(loading);
    CAPTURE(i);
    if (loading->plates().size() < 20) {  // the table above does not count plates
      CHECK(std::llround(loading->total().kg() * 1e11) - 2'000'000'000'000LL == best);
    }
  }
}

TEST_CASE("a room without plates has one load") {
  const Room room(Bar(20, Unit::kg));
  CHECK(room.nearest(100_kg).total() == 20_kg);
  CHECK(room.at_most(100_kg)->total() == 20_kg);
  CHECK(!room.at_least(100_kg));
  CHECK(room.at_least(0_kg)->total() == 20_kg);
  CHECK(!room.at_most(19.9_kg));
  CHECK(room.nearest(Mass() - 5_kg).total() == 20_kg);
}

TEST_CASE("loads beyond what a side holds stop at 32 plates") {
  const auto heaviest = plate_sets::gym_kg.at_most(Mass::from_kg(1e6));
  REQUIRE(heaviest);
  CHECK(heaviest->total() == Mass::from_kg(20 + 64 * 25));
  CHECK(!plate_sets::gym_kg.at_least(Mass::from_kg(1e6)));
  CHECK(plate_sets::gym_kg.nearest(Mass::from_kg(1e6) * 1e9).total() == heaviest->total());
  // 33 plates would be needed just below: the answer is the heaviest that 32 make.
  const Room coarse = parse_room("bar 20 kg; plates 25 1 kg");
  CHECK(coarse.at_most(Mass::from_kg(20 + 2 * (31 * 25 + 2)))->total() ==
        Mass::from_kg(20 + 2 * 776));
  CHECK(coarse.at_least(Mass::from_kg(20 + 2 * (31 * 25 + 2)))->total() ==
        Mass::from_kg(20 + 2 * 800));
}

TEST_CASE("another bar, collars or plates make another room") {
  CHECK(plate_sets::gym_kg.with(Bar(15, Unit::kg)).nearest(55_kg).total() == 55_kg);
  CHECK(printed(plate_sets::gym_lb.with(Bar(35, Unit::lb)).nearest(125_lb)) ==
        "35 lb bar + 45 each side = 125 lb");
  CHECK(printed(plate_sets::gym_kg.with(Collars(2.5, Unit::kg)).nearest(65_kg)) ==
        "20 kg bar + 20 and a 2.5 kg collar each side = 65 kg");
  CHECK(plate_sets::gym_kg.with(Plate(0.5, Unit::kg)).nearest(51_kg).total() == 51_kg);
  // A kilogram bar with pound plates: what "two plates" weigh there.
  CHECK(printed(plate_sets::gym_lb.with(Bar(20, Unit::kg)).nearest(101.6_kg)) ==
        "20 kg bar + 45 lb, 45 lb each side = 101.647 kg");
}

TEST_CASE("plate sets are found by name and say where they come from") {
  REQUIRE(plate_sets::find("gym_kg") == &plate_sets::gym_kg);
  CHECK(plate_sets::find("gym") == nullptr);
  for (const plate_sets::Named& set : plate_sets::all) {
    CHECK(plate_sets::find(set.name) == set.room);
    CHECK(set.source.evidence != Evidence::assumption);
  }
}

// ---- a ramp -------------------------------------------------------------------------------------

namespace {

using PlainStack = std::vector<std::size_t>;  // kinds, inside to outside

int moves_between(const PlainStack& a, const PlainStack& b) {
  std::size_t same = 0;
  while (same < a.size() && same < b.size() && a[same] == b[same]) ++same;
  return static_cast<int>(a.size() + b.size() - 2 * same);
}

void all_stacks(const Plates& plates, long long rest, PlainStack& stack,
                std::vector<PlainStack>& result) {
  if (rest == 0) result.push_back(stack);
  if (rest <= 0) return;
  for (std::size_t k = 0; k < plates.size(); ++k) {
    const auto used = std::count(stack.begin(), stack.end(), k);
    if (used == plates[k].per_side() || ticks(plates[k]) > rest) continue;
    stack.push_back(k);
    all_stacks(plates, rest - ticks(plates[k]), stack, result);
    stack.pop_back();
  }
}

/// The fewest moves, and of those the fewest plates over all steps, by trying every order of every
/// combination of plates at every step.
std::pair<int, int> fewest_moves(const Plates& plates, const std::vector<long long>& sides) {
  std::vector<std::pair<PlainStack, std::pair<int, int>>> before{{{}, {0, 0}}};
  for (const long long side : sides) {
    std::vector<PlainStack> stacks;
    PlainStack empty;
    all_stacks(plates, side, empty, stacks);
    std::vector<std::pair<PlainStack, std::pair<int, int>>> now;
    for (const PlainStack& stack : stacks) {
      std::pair<int, int> best{1'000'000, 0};
      for (const auto& [from_stack, cost] : before) {
        best = std::min(best, {cost.first + moves_between(from_stack, stack),
                               cost.second + static_cast<int>(stack.size())});
      }
      now.emplace_back(stack, best);
    }
    before = std::move(now);
  }
  std::pair<int, int> best{1'000'000, 0};
  for (const auto& [stack, cost] : before) best = std::min(best, cost);
  return best;
}

long long side_ticks(const Loading& loading) {
  long long sum = 0;
  for (const MarkedMass plate : loading.plates()) sum += ticks(Plate(plate));
  return sum;
}

/// The plan's moves and plates, after checking that it can be carried out.
std::pair<int, int> carried_out(const Room& room, const Ramp& ramp) {
  std::pair<int, int> cost{0, 0};
  std::vector<MarkedMass> sleeve;
  for (const RampStep& step : ramp.steps) {
    const auto& plates = step.loading.plates();
    REQUIRE(step.taken_off <= static_cast<int>(sleeve.size()));
    sleeve.resize(sleeve.size() - static_cast<std::size_t>(step.taken_off));
    REQUIRE(sleeve.size() + static_cast<std::size_t>(step.put_on) == plates.size());
    for (std::size_t i = sleeve.size(); i < plates.size(); ++i) sleeve.push_back(plates[i]);
    REQUIRE(std::equal(sleeve.begin(), sleeve.end(), plates.begin(), plates.end()));
    const std::vector<int> used = counts(room, step.loading);
    for (std::size_t k = 0; k < used.size(); ++k) REQUIRE(used[k] <= room.plates()[k].per_side());
    cost.first += step.moves();
    cost.second += static_cast<int>(plates.size());
  }
  CHECK(ramp.moves() == cost.first);
  return cost;
}

}  // namespace

TEST_CASE("2,000 random ramps take as few moves as exhaustive search finds") {
  Random random(1896);
  int descending_somewhere = 0;
  int better_than_single = 0;
  int limited = 0;
  for (int trial = 0; trial < 2'000; ++trial) {
    // Small masses keep the exhaustive search small: at most eight units a side.
    Plates plates;
    const int flavour = from(random, 0, 3);
    for (int kinds = from(random, 1, 4); kinds > 0; --kinds) {
      const int per_side = from(random, 0, 1) == 0 ? Plate::unlimited : from(random, 1, 2);
      const double mark = from(random, 1, 6);
      const bool lb = flavour == 1 || (flavour == 2 && from(random, 0, 1) == 1);
      const double off = flavour == 3 ? from(random, -3, 3) / 1000.0 : 0.0;  // weighed
      plates.add(Plate(mark + off, lb ? Unit::lb : Unit::kg, per_side));
      limited += per_side != Plate::unlimited;
    }
    const Room room(Bar(20, Unit::kg), plates);
    std::vector<Mass> loads;
    for (int n = from(random, 1, 5); n > 0; --n) {
      loads.push_back(Mass::from_kg(20.0 + from(random, 0, 17) * (flavour == 1 ? 0.4536 : 1.0)));
    }
    if (trial % 2 == 0) std::sort(loads.begin(), loads.end());

    const Ramp ramp = plan_ramp(room, loads);
    REQUIRE(ramp.steps.size() == loads.size());
    std::vector<long long> sides;
    int single_moves = 0;
    PlainStack before;
    for (std::size_t i = 0; i < loads.size(); ++i) {
      CHECK(ramp.steps[i].target == loads[i]);
      const Loading single = room.nearest(loads[i]);
      CHECK(side_ticks(ramp.steps[i].loading) == side_ticks(single));
      sides.push_back(side_ticks(single));
      PlainStack stack;
      for (const MarkedMass plate : single.plates()) {
        for (std::size_t k = 0; k < plates.size(); ++k) {
          if (plates[k].mass() == plate) stack.push_back(k);
        }
      }
      single_moves += moves_between(before, stack);
      before = stack;
      descending_somewhere += i > 0 && sides[i] < sides[i - 1];
    }
    CAPTURE(trial);
    const auto cost = carried_out(room, ramp);
    REQUIRE(cost == fewest_moves(plates, sides));
    REQUIRE(cost.first <= single_moves);
    better_than_single += cost.first < single_moves;
  }
  CHECK(descending_somewhere > 500);
  CHECK(better_than_single > 200);
  CHECK(limited > 1000);
}

TEST_CASE("a ramp of the gym set leaves on what it can") {
  // Largest first would strip the bar again and again: 23 moves, counted by hand from the fewest
  // plates of each step.
  const Ramp ramp = plan_ramp(plate_sets::gym_kg,
                              {20_kg, 60_kg, 80_kg, 95_kg, 107.5_kg, 115_kg, 122.5_kg, 130_kg});
  CHECK(carried_out(plate_sets::gym_kg, ramp).first == 12);
  CHECK(ramp.steps.back().loading.total() == 130_kg);
}

TEST_CASE("a ramp honours limits that bind only at some steps") {
  const Room room = parse_room("bar 20 kg; plates 20x1 10x3 5x1 2.5x1 kg");
  const Ramp ramp = plan_ramp(room, {40_kg, 60_kg, 80_kg, 100_kg, 110_kg, 70_kg, 40_kg});
  std::vector<long long> sides;
  for (const RampStep& step : ramp.steps) sides.push_back(side_ticks(step.loading));
  CHECK(carried_out(room, ramp) == fewest_moves(room.plates(), sides));
}

TEST_CASE("a gym loads every 2.5 kg or every 5 lb from the empty bar up [common practice]") {
  for (double kg = 20.0; kg <= 400.0; kg += 2.5) {
    CHECK(plate_sets::gym_kg.nearest(Mass::from_kg(kg)).total() == Mass::from_kg(kg));
  }
  for (double lb = 45.0; lb <= 900.0; lb += 5.0) {
    const Mass total = plate_sets::gym_lb.nearest(Mass::from_lb(lb)).total();
    CHECK(std::abs(total.lb() - lb) <= 1e-9);
  }
  // The plates there are, each by itself.
  for (const double kg : {25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25}) {
    CHECK(plate_sets::gym_kg.nearest(Mass::from_kg(20.0 + 2.0 * kg)).plates().size() == 1);
  }
  for (const double lb : {45.0, 35.0, 25.0, 10.0, 5.0, 2.5}) {
    CHECK(plate_sets::gym_lb.nearest(Mass::from_lb(45.0 + 2.0 * lb)).plates().size() == 1);
  }
}

TEST_CASE("numbers in a room are read as a program reads them") {
  const auto kg = [](const char* text) { return parse_marked_mass(text).value(); };
  CHECK(kg("20 kg") == 20.0);
  CHECK(kg("2.5kg") == 2.5);
  CHECK(kg("0.453 kg") == 0.453);
  CHECK(kg(".5 kg") == 0.5);
  CHECK(kg("20. kg") == 20.0);
  CHECK(kg("000000000000000000020.125 kg") == 20.125);
  CHECK(kg("0.12500000000000000000000000000000 kg") == 0.125);
  CHECK(message([] { (void)parse_marked_mass("-5 kg"); }) ==
        "a marked mass must be a number from 0 to 1000 in whole thousandths; got -5");
  CHECK(message([] { (void)parse_marked_mass("100000000000000000000 kg"); }) ==
        "a marked mass must be a number from 0 to 1000 in whole thousandths; got 1e+20");
  for (const char* text : {". kg", "- kg", "1.2.3 kg", "1e1 kg", "inf kg", "nan kg", "+5 kg"}) {
    CHECK_THROWS_WITH_AS((void)parse_marked_mass(text),
                         doctest::Contains("a mass must be a number and its unit"), DomainError);
  }
}

TEST_CASE("a ramp never puts more than 32 plates on a side") {
  // 29 ones, then 30 to 33 a side: without the limit every step would add a one. With it the 30
  // must come once, at 29 moves off and 1 on; then the earlier the fewer plates: 1, 2, 3, 4.
  const Room room = parse_room("bar 20 kg; plates 30 1 kg");
  const Ramp ramp = plan_ramp(room, {78_kg, 80_kg, 82_kg, 84_kg, 86_kg});
  CHECK(carried_out(room, ramp) == std::pair(29 + 30 + 3, 29 + 1 + 2 + 3 + 4));
}

TEST_CASE("a ramp rounds as asked, and says which load it cannot make") {
  const std::array loads{61_kg, 99_kg};
  CHECK(plan_ramp(plate_sets::gym_kg, loads).steps[0].loading.total() == 60_kg);
  CHECK(plan_ramp(plate_sets::gym_kg, loads, Rounding::up).steps[0].loading.total() == 62.5_kg);
  CHECK(plan_ramp(plate_sets::gym_kg, loads, Rounding::down).steps[1].loading.total() == 97.5_kg);
  CHECK(message([] {
          (void)plan_ramp(plate_sets::gym_kg, {60_kg, 15_kg}, Rounding::down);
        }) == "a load of the ramp must be at least that of the empty bar; got 15 kg");
  const Room few = parse_room("bar 45 lb; plates 10x1 lb");
  CHECK(message([&] { (void)plan_ramp(few, {70_lb}, Rounding::up); }) ==
        "a load of the ramp must be within what the plates make; got 70 lb");
  CHECK_THROWS_AS((void)plan_ramp(few, std::span<const Mass>()), DomainError);
  CHECK_THROWS_AS((void)plan_ramp(few, std::vector<Mass>(65, 45_lb)), DomainError);
  CHECK(plan_ramp(few, std::vector<Mass>(64, 65_lb)).moves() == 1);
}

// ---- loads that need no plates ------------------------------------------------------------------

TEST_CASE("dumbbells and machine stacks answer as their list of loads does") {
  Random random(7);
  const std::array racks{dumbbells(2.5, 40, 2.5, Unit::kg), dumbbells(5, 100, 5, Unit::lb),
                         dumbbells(1, 1, 0.5, Unit::kg), machine_stack(7, 4.5, 20, Unit::kg)};
  std::array<std::vector<MarkedMass>, 4> lists;
  for (int i = 1; i <= 16; ++i) lists[0].emplace_back(2.5 * i, Unit::kg);
  for (int i = 1; i <= 20; ++i) lists[1].emplace_back(5.0 * i, Unit::lb);
  lists[2].emplace_back(1, Unit::kg);
  for (int i = 0; i < 20; ++i) lists[3].emplace_back(7 + 4.5 * i, Unit::kg);
  for (std::size_t rack = 0; rack < racks.size(); ++rack) {
    for (int trial = 0; trial < 1000; ++trial) {
      const Mass load = trial % 2 == 0 ? Mass::from_kg(from(random, 0, 240) * 0.25)
                                       : Mass::from_lb(from(random, 0, 220) * 0.5);
      const long long goal = std::llround(load.kg() * 1e11);
      std::optional<MarkedMass> below;
      std::optional<MarkedMass> above;
      std::optional<MarkedMass> nearest;
      for (const MarkedMass mark : lists[rack]) {
        if (mark.ticks() <= goal) below = mark;
        if (mark.ticks() >= goal && !above) above = mark;
        if (!nearest || std::llabs(mark.ticks() - goal) < std::llabs(nearest->ticks() - goal)) {
          nearest = mark;
        }
      }
      REQUIRE(racks[rack].at_most(load) == below);
      REQUIRE(racks[rack].at_least(load) == above);
      REQUIRE(racks[rack].nearest(load) == *nearest);
    }
  }
  CHECK(to_text(dumbbells(2.5, 40, 2.5, Unit::kg).nearest(Mass::from_kg(28.0))) == "27.5 kg");
  CHECK(machine_stack(7, 4.5, 20, Unit::kg).nearest(1000_kg) == MarkedMass(92.5, Unit::kg));
  CHECK(dumbbells(2.5, 40, 2.5, Unit::kg).nearest(1000_kg) == MarkedMass(40, Unit::kg));
  CHECK_THROWS_AS((void)dumbbells(2.5, 41, 2.5, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)dumbbells(10, 5, 2.5, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)dumbbells(5, 10, 0, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)machine_stack(5, 5, 0, Unit::kg), DomainError);
}

// ---- rooms written as text ----------------------------------------------------------------------

TEST_CASE("a room is read as it is written") {
  const Room room = parse_room("bar 15 kg; collars 2.5 kg; plates 25x2, 20x4 10 5kg 45x1 2.5 lb");
  CHECK(room.bar() == Bar(15, Unit::kg));
  CHECK(room.collars() == Collars(2.5, Unit::kg));
  REQUIRE(room.plates().size() == 6);
  CHECK(room.plates()[0] == Plate(25, Unit::kg, 2));
  CHECK(room.plates()[1] == Plate(45, Unit::lb, 1));
  CHECK(room.plates()[2] == Plate(20, Unit::kg, 4));
  CHECK(room.plates()[3] == Plate(10, Unit::kg));
  CHECK(room.plates()[5] == Plate(2.5, Unit::lb));
  CHECK(parse_room("gym_lb; bar 35 lb").nearest(125_lb).total() == 125_lb);
  CHECK(parse_room("powerlifting;").nearest(100_kg) == plate_sets::powerlifting.nearest(100_kg));
  CHECK(parse_marked_mass("2.5kg") == MarkedMass(2.5, Unit::kg));
  CHECK(parse_plates("").size() == 0);
}

TEST_CASE("a unit may be written in any case") {
  for (const std::string_view unit : {"kg", "KG", "Kg", "kG"}) {
    CHECK(parse_marked_mass(std::string("20 ").append(unit)) == MarkedMass(20, Unit::kg));
  }
  CHECK(parse_marked_mass("45LB") == MarkedMass(45, Unit::lb));
  CHECK(parse_plates("20 10 KG 45 Lb").size() == 3);
  CHECK(parse_room("bar 20 KG; plates 20x2 KG").nearest(60_kg).total() == 60_kg);
  CHECK_THROWS_AS((void)parse_marked_mass("20 g"), DomainError);
}

TEST_CASE("a part of a room is said once") {
  const std::string twice = "a part of a room must be given once; got ";
  CHECK(message([] { (void)parse_room("bar 20 kg; bar 15 kg"); }) == twice + "bar 15 kg");
  CHECK(message([] { (void)parse_room("bar 20 kg; plates 20 kg; plates 10 kg"); }) ==
        twice + "plates 10 kg");
  CHECK(message([] { (void)parse_room("gym_kg; collars 2 kg; collars 1 kg"); }) ==
        twice + "collars 1 kg");
  CHECK_NOTHROW((void)parse_room("powerlifting; bar 15 kg; collars 2 kg; plates 20 kg"));
}

// That lifters write two plates of 5 as 2x5 is common practice, no source.
TEST_CASE("2x5 may mean two plates of 5 or five of 2: it is not guessed which") {
  for (const char* text : {"2x5", "1x5", "4x5", "2x6", "3x9"}) {
    CAPTURE(text);
    CHECK(message([&] { (void)parse_plates(std::string(text) + " kg"); }) ==
          "plates must be the mass and then how many a side (\"5x2\" is two of 5, \"2.0x5\" five "
          "of 2); got " +
              std::string(text));
  }
  for (const char* text : {"5x2", "5x5", "2x4", "1x2", "2.0x5", "2.5x5", "1.25x6", "0.5x5"}) {
    CAPTURE(text);
    CHECK(parse_plates(std::string(text) + " kg").size() == 1);
  }
  const Plate small = parse_plates("2.0x5 kg")[0];
  CHECK(small.mass() == MarkedMass(2, Unit::kg));
  CHECK(small.per_side() == 5);
}

TEST_CASE("a plate set that is misnamed brings the names of all") {
  std::string names;
  for (const plate_sets::Named& set : plate_sets::all) {
    if (!names.empty()) names += &set == &plate_sets::all.back() ? " or " : ", ";
    names += set.name;
  }
  for (const char* text : {"gym_kgs", "gym-kg", "powerlift; bar 15 kg"}) {
    const std::string typed(text);
    CHECK(message([&] { (void)parse_room(typed); }) ==
          "a plate set must be " + names + "; got " + typed.substr(0, typed.find(';')));
  }
}

TEST_CASE("a room that cannot be read says which part") {
  const std::string form =
      "plates must be masses and their unit, as in \"25x2 20x4 10 5 kg\"; got ";
  CHECK(message([] { (void)parse_plates("25 20"); }) ==
        "plates must be followed by their unit, kg or lb; got 25 20");
  CHECK(message([] { (void)parse_plates("25"); }) ==
        "plates must be followed by their unit, kg or lb; got 25");
  CHECK(message([] { (void)parse_plates("25 twenty kg"); }) == form + "twenty");
  CHECK(message([] { (void)parse_plates("25x 20 kg"); }) == form + "25x");
  CHECK(message([] { (void)parse_plates("25 20 kgs"); }) == form + "kgs");
  CHECK(message([] { (void)parse_plates("2x20 10 kg"); }) ==
        "plates must be the mass and then how many a side, at most 9, as in \"20x2\"; got 2x20");
  CHECK(message([] { (void)parse_plates("4x2.5 10 kg"); }) ==
        "plates must be the mass and then how many a side, at most 9, as in \"2.5x4\"; got 4x2.5");
  CHECK(message([] { (void)parse_plates("2x45lb"); }) ==
        "plates must be the mass and then how many a side, at most 9, as in \"45x2\"; got 2x45lb");
  CHECK(message([] { (void)parse_plates("20x12 kg"); }) ==
        "plates must be the mass and then how many a side, at most 9, as in \"20x2\"; got 20x12");
  CHECK(parse_plates("20x9 kg")[0].per_side() == 9);
  CHECK(message([] { (void)parse_plates("25 kg lb"); }) == form + "lb");
  CHECK(message([] { (void)parse_plates("25x0 kg"); }) ==
        "a plate's number per side must be 1 or more; got 0");
  CHECK(message([] { (void)parse_plates("25 -5 kg"); }) ==
        "a marked mass must be a number from 0 to 1000 in whole thousandths; got -5");
  CHECK(message([] { (void)parse_plates("nan kg"); }) ==
        "plates must be masses and their unit, as in \"25x2 20x4 10 5 kg\"; got nan");
  CHECK(message([] { (void)parse_marked_mass("20"); }) ==
        "a mass must be a number and its unit, as in \"20 kg\" or \"45 lb\"; got 20");
  CHECK(message([] { (void)parse_room("plates 20 kg"); }) ==
        "a room must be given with its bar, as in \"bar 20 kg\"; got plates 20 kg");
  CHECK(message([] { (void)parse_room("45 lb bar, plates 45 25"); }) ==
        "a part of a room must be the name of a plate set (first), \"bar 20 kg\", \"collars 2.5 "
        "kg\" or \"plates 25x2 20 10 kg\", with semicolons between parts; got 45 lb bar, plates 45 "
        "25");
  CHECK(message([] { (void)parse_room("bar 20 kg; gym_lb"); }) ==
        "a part of a room must be the name of a plate set (first), \"bar 20 kg\", \"collars 2.5 "
        "kg\" or \"plates 25x2 20 10 kg\", with semicolons between parts; got gym_lb");
  CHECK_THROWS_AS((void)parse_room(""), DomainError);
  CHECK_THROWS_AS((void)parse_room("bar 20 kg; gym_kg"), DomainError);
}
