// The plates for one load, held against published cases and exhaustive search.
#include "barwright/plates/room.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <ctime>
#include <limits>
#include <string>
#include <vector>

#include "csv_table.hpp"
#include "plates/plain_search.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace plain_search;
using barwright_test::CsvTable;

// All of it is whole numbers, so it can be done while compiling.
static_assert(plate_sets::gym_kg.at_most(51_kg)->total() == 50_kg);
constexpr Loading of_165_lb = plate_sets::gym_lb.nearest(165_lb);
static_assert(of_165_lb.plates().size() == 2);

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

TEST_CASE("10,000 random rooms answer as exhaustive search does" * doctest::test_suite("slow")) {
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
    CAPTURE(to_text(load).str());
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

// ---- rooms that nobody has ----------------------------------------------------------------------

namespace {

/// Twelve odd plates in each unit, none of which runs out or all of which do.
Room odd_room(Random& random, int thousandths, int heaviest, int per_side) {
  Plates plates;
  for (int k = 0; k < 24; ++k) {
    const double mark = from(random, 1, heaviest * 1000 / thousandths) * thousandths / 1000.0;
    plates.add(Plate(mark, k % 2 == 0 ? Unit::kg : Unit::lb, per_side));
  }
  return Room(Bar(20, Unit::kg), plates);
}

/// Processor time of the answers for a load, all three; checks that they are what they say.
double seconds_for(const Room& room, Mass load) {
  const std::clock_t start = std::clock();
  const auto below = room.at_most(load);
  const auto above = room.at_least(load);
  const Loading nearest = room.nearest(load);
  const std::clock_t end = std::clock();
  REQUIRE(below);
  REQUIRE(above);
  CHECK(below->total() <= load + 1e-6 * 1_kg);
  CHECK(above->total() >= load - 1e-6 * 1_kg);
  CHECK((nearest == *below || nearest == *above));
  for (const Loading& loading : {*below, *above}) {
    CHECK(is_heaviest_innermost(loading));
    const std::vector<int> used = counts(room, loading);
    for (std::size_t k = 0; k < used.size(); ++k) CHECK(used[k] <= room.plates()[k].per_side());
    CHECK(std::abs(loading.total().kg() - load.kg()) < 0.05);
  }
  return static_cast<double>(end - start) / CLOCKS_PER_SEC;
}

}  // namespace

TEST_CASE("two dozen odd plates in two units are searched in no time, where it was minutes" *
          doctest::test_suite("slow")) {
  Random random(12);
  double worst = 0.0;
  for (const int thousandths : {1, 10, 250}) {
    for (const int per_side : {2, 9, Plate::unlimited}) {
      const Room room = odd_room(random, thousandths, 30, per_side);
      for (const double kg : {61.3, 187.77, 402.001}) {
        worst = std::max(worst, seconds_for(room, Mass::from_kg(kg)));
      }
    }
  }
  // 40 ms for each where this was written; here with leave for sanitizers and busy machines.
  CHECK(worst < 2.0);
}

TEST_CASE("the slow and sure search answers as the quick one does in 3,000 rooms" *
          doctest::test_suite("slow")) {
  Random random(77);
  for (int trial = 0; trial < 3'000; ++trial) {
    const Room room = random_room(random);
    detail::Kinds kinds;
    for (const Plate& plate : room.plates()) {
      kinds.of[kinds.size++] = {.pair = 2 * ticks(plate),
                                .limit = plate.per_side(),
                                .lattice = plate.mass().unit() == Unit::kg ? 0 : 1};
    }
    const detail::Ticks goal = from(random, 0, 80'000) * (detail::ticks_per_kg / 1000);
    for (const detail::Side side : {detail::Side::below, detail::Side::above}) {
      const detail::Found quick = detail::Rack(kinds).closest(goal, side);
      const auto sure = detail::SumSearch(kinds, goal, side).closest();
      CAPTURE(trial);
      if (!sure) continue;  // too fine a lattice
      REQUIRE(sure->mass == quick.mass);
      if (quick.mass >= 0) REQUIRE(sure->counts == quick.counts);
    }
  }
}

TEST_CASE("a room that cannot be searched says so") {
  Plates plates{Plate(999.999, Unit::kg, 1)};
  for (int k = 0; k < 20; ++k) plates.add(Plate(301 + 7 * k + k % 3, Unit::kg, 9));
  const Room room(Bar(20, Unit::kg), plates);
  CHECK_THROWS_WITH_AS((void)room.at_most(9123.5_kg),
                       doctest::Contains("must be found in 1,048,576 steps of search; got 9103.5"),
                       DomainError);
  CHECK(room.at_most(700_kg)->total() <= 700_kg);
}
