// tests/batch_test.cpp - columns of sets: what each row alone would have got, to the last bit
//
// The outside reference of every number here is the scalar function of the same name, which has its
// own tests against the published equations.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <barwright/curves/adapters.hpp>
#include <barwright/curves/equations.hpp>
#include <barwright/curves/rep_table.hpp>
#include <barwright/learn/batch.hpp>
#include <barwright/plates.hpp>
#include <barwright/training/prescription.hpp>
#include <bit>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numeric>
#include <optional>
#include <thread>
#include <utility>
#include <vector>

namespace {

using namespace barwright;
using namespace barwright::literals;
using batch::Fault;
using Eigen::ArrayXd;
using Eigen::Index;

/// Columns of results, filled.
template <class Values = ArrayXd>
struct Filled {
  Values values;
  batch::Faults faults;

  template <class Fill>
  Filled(Index rows, const Fill& fill) : values(rows), faults(rows) {
    fill(values, faults);
  }
};
Filled<> maxes_of(const CurveLattice& curve, const batch::LoadsIn& loads,
                  const batch::CountsIn& reps, const batch::CountsIn& left) {
  return {loads.size(), [&](auto& maxes, auto& faults) {
            batch::one_rep_max(curve, loads, reps, left, maxes, faults);
          }};
}
Filled<> loads_for(const CurveLattice& curve, const batch::LoadsIn& maxes,
                   const batch::CountsIn& reps, const batch::CountsIn& left) {
  return {maxes.size(), [&](auto& loads, auto& faults) {
            batch::load_for(curve, maxes, reps, left, loads, faults);
          }};
}
Filled<> shares_of(const CurveLattice& curve, const batch::CountsIn& reps,
                   const batch::CountsIn& left) {
  return {reps.size(), [&](auto& shares, auto& faults) {
            batch::share_of_max(curve, reps, left, shares, faults);
          }};
}
template <RepCurve C>
Filled<> left_of(const C& curve, const batch::LoadsIn& maxes, const batch::LoadsIn& loads,
                 const batch::CountsIn& reps) {
  return {maxes.size(), [&](auto& left, auto& faults) {
            batch::reserve_left(curve, maxes, loads, reps, left, faults);
          }};
}
Filled<batch::HalfReps> halves_left(const CurveLattice& curve, const batch::LoadsIn& maxes,
                                    const batch::LoadsIn& loads, const batch::CountsIn& reps) {
  return {maxes.size(), [&](auto& left, auto& faults) {
            batch::half_reps_left(curve, maxes, loads, reps, left, faults);
          }};
}
template <class Steps>
Filled<> totals_of(const Steps& steps, const batch::LoadsIn& loads) {
  return {loads.size(),
          [&](auto& totals, auto& faults) { batch::loadable(steps, loads, totals, faults); }};
}

bool same(double a, double b) {
  return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
}

/// Every rep and reserve that a byte can hold, and loads with all their bits used. Those
/// that a set can have come first, shorter ones before longer, so that whole blocks have no fault.
struct AllSets {
  static constexpr Index rows = 256 * 256;
  ArrayXd loads{rows};
  batch::Counts reps{rows};
  batch::Counts left{rows};

  AllSets() {
    const auto key = [](int set) {
      const int r = set / 256;
      const int k = set % 256;
      return r >= 1 && r <= 100 && k <= 60 ? 2 * r + k : 1000;
    };
    std::vector<int> sets(rows);
    std::iota(sets.begin(), sets.end(), 0);
    std::stable_sort(sets.begin(), sets.end(), [&](int a, int b) { return key(a) < key(b); });
    for (Index i = 0; i < rows; ++i) {
      loads[i] = 20.0 + 180.0 * std::fmod(static_cast<double>(i) * 0.6180339887498949, 1.0);
      reps[i] = static_cast<std::uint8_t>(sets[static_cast<std::size_t>(i)] / 256);
      left[i] = static_cast<std::uint8_t>(sets[static_cast<std::size_t>(i)] % 256);
    }
  }
};

/// What a program would do with one row.
template <class Answer>
std::pair<double, Fault> one_row(RepRange defined, int reps, int left, const Answer& answer) {
  if (reps < 1 || reps > 100) return {0.0, Fault::reps};
  if (left > 60) return {0.0, Fault::reserve};
  const Reps done(reps);
  const RepsInReserve reserve(0.5 * left);
  if (!defined.contains(reps_to_failure(done, reserve))) return {0.0, Fault::curve};
  return {answer(done, reserve), Fault::none};
}

template <RepCurve C>
void check_curve(const C& curve) {
  static const AllSets sets;
  const CurveLattice lattice(curve);
  const auto maxes = maxes_of(lattice, sets.loads, sets.reps, sets.left);
  const auto loads = loads_for(lattice, sets.loads, sets.reps, sets.left);
  const auto shares = shares_of(lattice, sets.reps, sets.left);
  int differences = 0;
  int good = 0;
  for (Index i = 0; i < AllSets::rows; ++i) {
    const Mass load = Mass::from_kg(sets.loads[i]);
    const auto ask = [&](auto answer) {
      return one_row(curve.defined(), sets.reps[i], sets.left[i], answer);
    };
    const auto max =
        ask([&](Reps r, RepsInReserve k) { return one_rep_max(curve, load, r, k).kg(); });
    const auto planned =
        ask([&](Reps r, RepsInReserve k) { return load_for(curve, load, r, k).kg(); });
    const auto share = ask([&](Reps r, RepsInReserve k) { return share_of_max(curve, r, k); });
    const bool agrees = same(maxes.values[i], max.first) && maxes.faults[i] == max.second &&
                        same(loads.values[i], planned.first) && loads.faults[i] == planned.second &&
                        same(shares.values[i], share.first) && shares.faults[i] == share.second;
    if (!agrees) ++differences;
    if (max.second == Fault::none) ++good;
  }
  CHECK(differences == 0);
  CHECK(good > 0);
}

/// A curve that is defined far beyond what fits into a byte of half reps.
constexpr auto long_curve = stretched(equations::epley, 3.0);
/// And one that only begins there.
constexpr RepTable<2> late_curve({{99.0, 0.4}, {100.0, 0.39}});

TEST_CASE("every set of a column gets the max it gets alone, to the last bit" *
          doctest::test_suite("slow")) {
  equations::for_each([](const auto& equation) {
    CAPTURE(equation.facts.name);
    check_curve(equation);
  });
  check_curve(rep_tables::nsca_chart);
  check_curve(rep_tables::baechle_earle);
  check_curve(anchored(equations::mayhew));
  check_curve(stretched(equations::wathen, 0.8));
  check_curve(blend(equations::epley, equations::brzycki));
  check_curve(CriticalLoad(0.3, 12.0));
  check_curve(long_curve);
  check_curve(late_curve);
}

TEST_CASE("a whole column of sets beyond 127 reps to failure is no different") {
  const ArrayXd loads = ArrayXd::LinSpaced(64, 20.0, 83.0);
  const auto maxes = maxes_of(CurveLattice(long_curve), loads, batch::Counts::Constant(64, 100),
                              batch::Counts::Constant(64, 60));
  int differences = 0;
  for (Index i = 0; i < 64; ++i) {
    const Mass alone = one_rep_max(long_curve, Mass::from_kg(loads[i]), 100_reps, 30_rir);
    if (!same(maxes.values[i], alone.kg()) || maxes.faults[i] != Fault::none) ++differences;
  }
  CHECK(differences == 0);
}

TEST_CASE("a curve that starts beyond 127 reps is read row by row") {
  struct Late {
    double fraction(double reps) const { return 1.0 / reps; }
    double reps(double fraction) const { return 1.0 / fraction; }
    double slope(double reps) const { return -1.0 / reps; }
    RepRange defined() const noexcept { return {128.0, 130.0}; }
    RepRange studied() const noexcept { return defined(); }
  };
  check_curve(Late{});
}

TEST_CASE("a share of a millionth, the least there is, is on the lattice") {
  struct Steep {
    double fraction(double reps) const { return reps > 1.0 ? 1e-6 : 1.0; }
    double reps(double fraction) const { return fraction < 1.0 ? 2.0 : 1.0; }
    double slope(double) const { return -1.0; }
    RepRange defined() const noexcept { return {1.0, 2.0}; }
    RepRange studied() const noexcept { return defined(); }
  };
  const CurveLattice curve{Steep{}};
  CHECK(curve.last() == 4);  // two reps
  CHECK(curve.fraction(4) == 1e-6);
  static_assert(batch::rows_per_chunk % detail::rows_per_block == 0);  // whole blocks
}

TEST_CASE("a curve without a single half rep is refused") {
  struct Nowhere {
    double fraction(double) const { return 0.5; }
    double reps(double) const { return 1.0; }
    double slope(double) const { return -1.0; }
    RepRange defined() const noexcept { return {.low = 2.1, .high = 2.2}; }
    RepRange studied() const noexcept { return defined(); }
  };
  CHECK_THROWS_WITH_AS(CurveLattice(Nowhere{}),
                       "a curve for columns of sets must be defined somewhere from 1 to 130 "
                       "reps; got 2.1",
                       DomainError);
}

TEST_CASE("one bad row spoils no other, wherever it stands") {
  const CurveLattice curve(equations::wathen);
  constexpr double infinity = std::numeric_limits<double>::infinity();
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double tiny = std::numeric_limits<double>::denorm_min();
  struct Bad {
    double load;
    int reps;
    int left;
    Fault fault;
  };
  const Bad bad_rows[] = {
      {nan, 5, 4, Fault::load},       {-nan, 5, 4, Fault::load},
      {infinity, 5, 4, Fault::load},  {-infinity, 5, 4, Fault::load},
      {0.0, 5, 4, Fault::load},       {-0.0, 5, 4, Fault::load},
      {-100.0, 5, 4, Fault::load},    {1000000.1, 5, 4, Fault::load},
      {1e308, 5, 4, Fault::load},     {-tiny, 5, 4, Fault::load},
      {100.0, 0, 4, Fault::reps},     {100.0, 101, 0, Fault::reps},
      {100.0, 255, 255, Fault::reps}, {100.0, 0, 255, Fault::reps},
      {100.0, 5, 61, Fault::reserve}, {100.0, 5, 255, Fault::reserve},
      {100.0, 100, 1, Fault::curve},  {nan, 0, 255, Fault::load},
      {100.0, 128, 0, Fault::reps},   {100.0, 129, 10, Fault::reps},
  };
  constexpr Index rows = 200;  // three blocks and a rest
  const ArrayXd loads = ArrayXd::LinSpaced(rows, 20.0, 219.0);
  const batch::Counts reps = batch::Counts::Constant(rows, 5);
  const batch::Counts left = batch::Counts::Constant(rows, 4);
  const auto clean = maxes_of(curve, loads, reps, left);
  REQUIRE((clean.faults == Fault::none).all());
  for (const Bad& bad : bad_rows) {
    CAPTURE(bad.load);
    CAPTURE(bad.reps);
    CAPTURE(bad.left);
    for (const Index at : {0, 1, 63, 64, 130, 191, 192, 199}) {
      ArrayXd bad_loads = loads;
      batch::Counts bad_reps = reps;
      batch::Counts bad_left = left;
      bad_loads[at] = bad.load;
      bad_reps[at] = static_cast<std::uint8_t>(bad.reps);
      bad_left[at] = static_cast<std::uint8_t>(bad.left);
      const auto spoilt = maxes_of(curve, bad_loads, bad_reps, bad_left);
      for (Index i = 0; i < rows; ++i) {
        const bool agrees =
            i == at ? same(spoilt.values[i], 0.0) && spoilt.faults[i] == bad.fault
                    : same(spoilt.values[i], clean.values[i]) && spoilt.faults[i] == Fault::none;
        if (!agrees) FAIL_CHECK("row " << i << " with a bad row " << at);
      }
    }
  }
}

TEST_CASE("the heaviest loads that a Mass can have are no fault") {
  const CurveLattice curve(equations::brzycki);
  const ArrayXd loads = ArrayXd::Constant(128, 1e6);
  const batch::Counts reps = batch::Counts::Constant(128, 5);
  const auto maxes = maxes_of(curve, loads, reps, batch::Counts::Zero(128));
  CHECK((maxes.faults == Fault::none).all());
  CHECK(same(maxes.values[77], one_rep_max(equations::brzycki, Mass::from_kg(1e6), Reps(5)).kg()));
}

TEST_CASE("an empty column is an empty answer") {
  const CurveLattice curve(equations::epley);
  const auto maxes = maxes_of(curve, ArrayXd(0), batch::Counts(0), batch::Counts(0));
  CHECK(maxes.values.size() == 0);
  CHECK(maxes.faults.size() == 0);
}

TEST_CASE("columns of different lengths are refused, and say which") {
  const CurveLattice curve(equations::epley);
  const ArrayXd loads = ArrayXd::Constant(3, 100.0);
  const batch::Counts reps = batch::Counts::Constant(3, 5);
  ArrayXd maxes(3);
  batch::Faults faults(3);
  CHECK_THROWS_WITH_AS(batch::one_rep_max(curve, loads, batch::Counts(2), reps, maxes, faults),
                       "the rows of the column of reps must be as many as in the first: 3; got 2",
                       DomainError);
  CHECK_THROWS_AS(batch::one_rep_max(curve, loads, reps, batch::Counts(4), maxes, faults),
                  DomainError);
  CHECK_THROWS_AS(batch::one_rep_max(curve, loads, reps, reps, maxes.head(2), faults), DomainError);
  CHECK_THROWS_AS(batch::one_rep_max(curve, loads, reps, reps, maxes, faults.head(2)), DomainError);
  CHECK_THROWS_AS(batch::share_of_max(curve, reps, batch::Counts(2), maxes, faults), DomainError);
  CHECK_THROWS_AS(batch::reserve_left(equations::epley, loads, loads.head(2), reps, maxes, faults),
                  DomainError);
  const batch::LoadSteps steps([](Mass load) { return load; }, Mass::from_kg(1.0));
  CHECK_THROWS_AS(batch::loadable(steps, loads, maxes.head(1), faults), DomainError);
}

TEST_CASE("where every load has another answer the table ends at once, and each row asks") {
  const batch::LoadSteps steps([](Mass load) { return load; }, Mass::from_kg(1.0));
  for (const double kg : {0.0, 5e-324, 1e-321, 3e-320, 1e-9, 0.3, 1.0, 80.0}) {
    CAPTURE(kg);
    CHECK(steps(kg).kg == kg);
    CHECK(steps(kg).fault == batch::Fault::none);
  }
  const batch::LoadSteps of_nothing([](Mass load) { return load; }, Mass{});
  CHECK(of_nothing(0.0).kg == 0.0);
  CHECK(of_nothing(80.0).kg == 80.0);
}

TEST_CASE("results over their own input are refused") {
  const CurveLattice curve(equations::epley);
  ArrayXd loads = ArrayXd::Constant(3, 100.0);
  const batch::Counts reps = batch::Counts::Constant(3, 5);
  batch::Faults faults(3);
  CHECK_THROWS_AS(batch::one_rep_max(curve, loads, reps, reps, loads, faults), DomainError);
  CHECK_THROWS_AS(batch::one_rep_max(curve, loads.head(2), reps.head(2), reps.head(2),
                                     loads.tail(2), faults.head(2)),
                  DomainError);
  CHECK(loads[0] == 100.0);
}

template <class Out>
concept TakesOutput = requires(const CurveLattice& curve, const ArrayXd& loads,
                               const batch::Counts& counts, Out out, batch::Faults& faults) {
  batch::one_rep_max(curve, loads, counts, counts, out, faults);
};
template <class In>
concept TakesReps = requires(const CurveLattice& curve, const In& reps, const batch::Counts& left,
                             ArrayXd& shares, batch::Faults& faults) {
  batch::share_of_max(curve, reps, left, shares, faults);
};
using Strided = Eigen::Map<ArrayXd, Eigen::Unaligned, Eigen::InnerStride<2>>;
static_assert(TakesOutput<ArrayXd&>);
static_assert(TakesOutput<Eigen::Map<ArrayXd>>);
static_assert(!TakesOutput<Strided>);
static_assert(!TakesOutput<Eigen::ArrayXf&>);
static_assert(!TakesOutput<const ArrayXd&>);
static_assert(TakesReps<batch::Counts>);

TEST_CASE("columns need not be aligned, nor input contiguous") {
  const CurveLattice curve(equations::mayhew);
  constexpr Index rows = 150;
  std::vector<double> loads(2 * rows + 1);
  std::vector<double> maxes(rows + 1);
  std::vector<std::uint8_t> counts(rows + 1);
  for (std::size_t i = 0; i < loads.size(); ++i) loads[i] = 20.0 + 0.7 * static_cast<double>(i);
  for (std::size_t i = 0; i < counts.size(); ++i) counts[i] = static_cast<std::uint8_t>(1 + i % 9);
  const Eigen::Map<const batch::Counts> odd(counts.data() + 1, rows);
  const Eigen::Map<const ArrayXd> odd_loads(loads.data() + 1, rows);
  const Eigen::Map<const ArrayXd, Eigen::Unaligned, Eigen::InnerStride<2>> every_second(
      loads.data() + 1, rows);
  batch::Faults faults(rows + 1);
  Eigen::Map<ArrayXd> out(maxes.data() + 1, rows);
  batch::one_rep_max(curve, odd_loads, odd, odd, out, faults.tail(rows));
  const auto strided = maxes_of(curve, every_second, odd, odd);
  int differences = 0;
  for (Index i = 0; i < rows; ++i) {
    const Reps reps(odd[i]);
    const RepsInReserve left(0.5 * odd[i]);
    const auto max_of = [&](double kg) {
      return one_rep_max(equations::mayhew, Mass::from_kg(kg), reps, left).kg();
    };
    if (!same(out[i], max_of(odd_loads[i]))) ++differences;
    if (!same(strided.values[i], max_of(every_second[i]))) ++differences;
  }
  CHECK(differences == 0);
}

TEST_CASE("work shared among threads, in any order, gives the same") {
  const CurveLattice curve(equations::lombardi);
  constexpr Index rows = 3 * batch::rows_per_chunk + 77;
  const ArrayXd loads = ArrayXd::LinSpaced(rows, -5.0, 250.0);
  batch::Counts reps(rows);
  for (Index i = 0; i < rows; ++i) reps[i] = static_cast<std::uint8_t>(i % 13);
  const auto alone = maxes_of(curve, loads, reps, reps);
  ArrayXd maxes(rows);
  batch::Faults faults(rows);

  Index chunks_seen = 0;
  const auto backwards = [&](Index chunks, const auto& work) {
    chunks_seen = chunks;
    while (chunks > 0) work(--chunks);
  };
  batch::one_rep_max(curve, loads, reps, reps, maxes, faults, backwards);
  CHECK(chunks_seen == 4);
  CHECK((maxes == alone.values).all());
  CHECK((faults == alone.faults).all());

  // No piece is empty: whole chunks are no more than they are.
  constexpr Index two = 2 * batch::rows_per_chunk;
  batch::one_rep_max(curve, loads.head(two), reps.head(two), reps.head(two), maxes.head(two),
                     faults.head(two), backwards);
  CHECK(chunks_seen == 2);

  maxes.setZero();
  const auto threads = [](Index chunks, const auto& work) {
    std::vector<std::thread> team;
    for (Index chunk = 0; chunk < chunks; ++chunk) {
      team.emplace_back([&work, chunk] { work(chunk); });
    }
    for (std::thread& thread : team) thread.join();
  };
  batch::one_rep_max(curve, loads, reps, reps, maxes, faults, threads);
  CHECK((maxes == alone.values).all());
  CHECK((faults == alone.faults).all());
}

TEST_CASE("reserves are those of each set alone") {
  constexpr Index rows = 2000;
  ArrayXd loads(rows);
  batch::Counts reps(rows);
  for (Index i = 0; i < rows; ++i) {
    loads[i] = 5.0 + 105.0 * std::fmod(static_cast<double>(i) * 0.6180339887498949, 1.0);
    reps[i] = static_cast<std::uint8_t>(i % 12);
  }
  const ArrayXd maxes = ArrayXd::Constant(rows, 100.0);
  equations::for_each([&](const auto& equation) {
    CAPTURE(equation.facts.name);
    const auto left = left_of(equation, maxes, loads, reps);
    const auto halves = halves_left(CurveLattice(equation), maxes, loads, reps);
    int differences = 0;
    for (Index i = 0; i < rows; ++i) {
      if (reps[i] == 0) {
        if (left.faults[i] != Fault::reps || left.values[i] != 0.0) ++differences;
        if (halves.faults[i] != Fault::reps || halves.values[i] != 0) ++differences;
        continue;
      }
      const double alone =
          reserve_left(equation, Mass::from_kg(100.0), Mass::from_kg(loads[i]), Reps(reps[i]));
      if (!same(left.values[i], alone)) ++differences;
      if (halves.values[i] != std::floor(2.0 * alone + 1e-9)) ++differences;
    }
    CHECK(differences == 0);
  });
}

TEST_CASE("the place of a share is the last one, counted from the first, that is not lighter") {
  const auto check = [](const auto& of) {
    const CurveLattice curve(of);
    int differences = 0;
    for (std::size_t at = curve.first(); at <= curve.last(); ++at) {
      for (const double factor : {0.0, 0.9, 0.999, 1.0 - 1e-9, 1.0, 1.0 + 1e-9, 1.001, 1.1}) {
        const double share = factor * curve.fraction(at);
        std::size_t counted = 0;
        for (std::size_t place = curve.first(); place <= curve.last(); ++place) {
          if (curve.fraction(place) >= share * (1.0 - 1e-12)) counted = place;
        }
        if (curve.place_of(share) != counted) ++differences;
      }
    }
    CHECK(differences == 0);
  };
  equations::for_each(check);
  check(rep_tables::nsca_chart);
  check(anchored(equations::wathen));
  check(RepTable<2>({{1.0, 1.0}, {1.4, 0.98}}));  // one place only
}

TEST_CASE("a load planned for a reserve is found to leave it") {
  equations::for_each([](const auto& equation) {
    CAPTURE(equation.facts.name);
    const CurveLattice curve(equation);
    for (int reps = 1; reps <= 20; ++reps) {
      const ArrayXd max = ArrayXd::Constant(1, 137.3);
      const batch::Counts done = batch::Counts::Constant(1, static_cast<std::uint8_t>(reps));
      const batch::Counts left = batch::Counts::Constant(1, 7);
      const auto load = loads_for(curve, max, done, left);
      if (load.faults[0] != Fault::none) continue;  // Kemmler's ends at 24
      CHECK(halves_left(curve, max, load.values, done).values[0] == 7);
    }
  });
}

TEST_CASE("a table of loads is percent_of and load_for, row by row") {
  ArrayXd maxes = ArrayXd::LinSpaced(100, 40.0, 239.0);
  maxes[3] = std::numeric_limits<double>::quiet_NaN();
  ArrayXd percents(3);
  percents << 50.0, 72.5, 110.0;
  Eigen::ArrayXXd table(100, 3);
  batch::Faults faults(100);
  batch::load_table(maxes, percents / 100.0, table, faults);
  int differences = 0;
  for (Index i = 0; i < 100; ++i) {
    for (Index j = 0; j < 3; ++j) {
      const double expected = i == 3 ? 0.0 : percent_of(Mass::from_kg(maxes[i]), percents[j]).kg();
      if (!same(table(i, j), expected)) ++differences;
    }
    if (faults[i] != (i == 3 ? Fault::load : Fault::none)) ++differences;
  }
  CHECK(differences == 0);

  batch::Counts reps(3);
  reps << 5, 8, 12;
  const auto shares =
      shares_of(CurveLattice(equations::wathen), reps, batch::Counts::Constant(3, 3));
  batch::load_table(maxes, shares.values, table, faults);
  // The reps are hidden from the compiler, which has an exponential of its own.
  const volatile int hidden = 12;
  const Mass alone = load_for(equations::wathen, Mass::from_kg(maxes[50]), Reps(hidden), 1.5_rir);
  CHECK(same(table(50, 2), alone.kg()));
  CHECK_THROWS_AS(batch::load_table(maxes, percents, table, faults), DomainError);
  // Twice the max is the most that a column may be.
  const auto table_of = [&](double share) {
    batch::load_table(maxes, Eigen::ArrayXd::Constant(3, share), table, faults);
    return table(50, 1) / maxes[50];
  };
  CHECK(table_of(2.0) == doctest::Approx(2.0));
  for (const double share : {-0.01, 2.01}) CHECK_THROWS_AS((void)table_of(share), DomainError);
}

/// Random loads, and all those next to where the answer changes.
template <class Find>
void check_loadable(const Find& find, double heaviest) {
  const batch::LoadSteps steps(find, Mass::from_kg(300.0));
  std::vector<double> column;
  for (int i = 1; i < 20000; ++i) {
    column.push_back(heaviest * std::fmod(static_cast<double>(i) * 0.6180339887498949, 1.0));
  }
  for (int i = 1; i <= 2400; ++i) {
    const double eighth = 0.125 * i;
    for (const double kg : {eighth, std::nextafter(eighth, 0.0), std::nextafter(eighth, 1e3),
                            eighth + 1e-9, eighth - 1e-9, eighth * Mass::kg_per_lb}) {
      column.push_back(kg);
    }
  }
  const Eigen::Map<const ArrayXd> loads(column.data(), static_cast<Index>(column.size()));
  const auto totals = totals_of(steps, loads);
  int differences = 0;
  for (Index i = 0; i < loads.size(); ++i) {
    const std::optional<Mass> alone = find(Mass::from_kg(loads[i]));
    const bool agrees = same(totals.values[i], alone ? alone->kg() : 0.0) &&
                        totals.faults[i] == (alone ? Fault::none : Fault::plates);
    if (!agrees) ++differences;
  }
  CHECK(differences == 0);
}

TEST_CASE("what can be loaded is what each load alone would get, to the last bit") {
  for (const plate_sets::Named& set : plate_sets::all) {
    CAPTURE(set.name);
    const Room& room = *set.room;
    check_loadable([&](Mass load) { return room.nearest(load).total(); }, 450.0);
    check_loadable(
        [&](Mass load) -> std::optional<Mass> {
          const auto loading = room.at_most(load);
          return loading ? std::optional(loading->total()) : std::nullopt;
        },
        450.0);
  }
  const Room few = parse_room("bar 20 kg; plates 20x2 10x1 5x1 kg");
  check_loadable(
      [&](Mass load) -> std::optional<Mass> {
        const auto loading = few.at_least(load);
        return loading ? std::optional(loading->total()) : std::nullopt;
      },
      200.0);
  const Room mixed = parse_room("bar 45 lb; plates 20x1 10x1 5x1 kg 25x1 10x1 2.5x1 lb");
  check_loadable([&](Mass load) { return mixed.nearest(load).total(); }, 200.0);
  const FixedLoads rack = dumbbells(2.5, 40.0, 2.5, Unit::kg);
  check_loadable([&](Mass load) { return rack.nearest(load).mass(); }, 60.0);
}

TEST_CASE("a load that is none has no plates") {
  const batch::LoadSteps steps([](Mass load) { return plate_sets::gym_kg.nearest(load).total(); });
  ArrayXd loads(4);
  loads << std::numeric_limits<double>::quiet_NaN(), -5.0, 101.0, 2e6;
  const auto totals = totals_of(steps, loads);
  CHECK(totals.faults[0] == Fault::load);
  CHECK(totals.faults[1] == Fault::load);
  CHECK(totals.values[2] == 100.0);
  CHECK(totals.faults[3] == Fault::load);
  CHECK(batch::to_text(totals.faults[3]) == "load");
}

TEST_CASE("columns of the caller's, and pieces of them, are read where they are") {
  ArrayXd loads = ArrayXd::LinSpaced(100, 20.0, 119.0);
  batch::Counts reps = batch::Counts::Constant(100, 5);
  batch::Faults faults(100);
  const batch::LoadsIn whole(loads);
  const batch::LoadsIn piece(loads.segment(3, 50));
  const batch::CountsIn counts(reps.tail(99));
  const batch::NumbersOut out(loads.tail(50));
  const batch::FaultsOut status(faults.head(50));
  CHECK(whole.data() == loads.data());
  CHECK(piece.data() == loads.data() + 3);
  CHECK(counts.data() == reps.data() + 1);
  CHECK(out.data() == loads.data() + 50);
  CHECK(status.data() == faults.data());
}

}  // namespace
