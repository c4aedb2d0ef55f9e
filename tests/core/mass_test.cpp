#include <doctest/doctest.h>

#include <barwright/core/mass.hpp>
#include <cmath>
#include <limits>
#include <sstream>
#include <type_traits>
#include <unordered_set>

using namespace barwright;
using namespace barwright::literals;

namespace {

template <class A, class B>
concept can_multiply = requires(A a, B b) {
  a* b;
};
template <class A, class B>
concept can_add = requires(A a, B b) {
  a + b;
};

static_assert(!std::is_convertible_v<double, Mass>, "a number has no unit until one is named");
static_assert(!std::is_constructible_v<Mass, double>);
static_assert(!can_multiply<Mass, Mass>, "kg^2 means nothing here");
static_assert(!can_add<Mass, double>);
static_assert((100_kg + 2.5_kg).kg() == 102.5);
static_assert(100_kg / 50_kg == 2.0);
static_assert(100_kg > 220_lb && 100_kg < 221_lb);

}  // namespace

TEST_CASE("a pound is exactly 0.45359237 kg [NIST SP 811 (2008) App. B.8; from memory]") {
  CHECK(Mass::from_lb(1.0).kg() == 0.45359237);
  CHECK(Mass::from(1.0, Unit::lb) == 1_lb);
  CHECK(Mass::from(1.0, Unit::kg) == 1_kg);
}

TEST_CASE("usual loads in the other unit [plate table derived from the exact pound]") {
  // pounds, kilograms: each product is exact in the decimals shown.
  const double table[][2] = {{2.5, 1.133980925},  {5, 2.26796185},     {10, 4.5359237},
                             {45, 20.41165665},   {135, 61.23496995},  {225, 102.05828325},
                             {315, 142.88159655}, {405, 183.70490985}, {495, 224.52822315}};
  for (const auto& row : table) {
    CHECK(std::abs(Mass::from_lb(row[0]).kg() - row[1]) <= 1e-12);
    CHECK(std::abs(Mass::from_kg(row[1]).lb() - row[0]) <= 1e-12);
  }
  CHECK(std::abs((100_kg).lb() - 220.462262184878) <= 1e-11);
}

TEST_CASE("a load is a number of its unit from 0 to a million") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double inf = std::numeric_limits<double>::infinity();
  for (const double bad : {-0.001, 1e6 + 1, nan, inf, -inf}) {
    CHECK_THROWS_AS((void)Mass::from_kg(bad), DomainError);
    CHECK_THROWS_AS((void)Mass::from_lb(bad), DomainError);
  }
  CHECK_THROWS_WITH((void)Mass::from_kg(-20.0),
                    "a load must be a number of kilograms from 0 to 1000000; got -20");
  CHECK_THROWS_WITH((void)Mass::from_lb(nan),
                    "a load must be a number of pounds from 0 to 1000000; got nan");
  CHECK(Mass::from_kg(0.0) == Mass{});
  CHECK(Mass::from_kg(1e6).kg() == 1e6);
}

TEST_CASE("no arithmetic lets infinity into a load") {
  CHECK_THROWS_AS((void)(100_kg * 1e308 * 1e308), DomainError);
  CHECK_THROWS_AS((void)(100_kg / 0.0), DomainError);
  CHECK_THROWS_AS((void)(100_kg * std::nan("")), DomainError);
}

TEST_CASE("a load falls on a step: nearest, down or up, halves up") {
  CHECK(rounded(101_kg, 2.5_kg) == 100_kg);
  CHECK(rounded(101_kg, 2.5_kg, Rounding::down) == 100_kg);
  CHECK(rounded(101_kg, 2.5_kg, Rounding::up) == 102.5_kg);
  CHECK(rounded(101.25_kg, 2.5_kg) == 102.5_kg);
  CHECK(rounded(100_kg, 2.5_kg, Rounding::up) == 100_kg);
  CHECK(rounded(50_kg - 53_kg, 2_kg, Rounding::down) == 50_kg - 54_kg);
  CHECK_THROWS_AS((void)rounded(100_kg, Mass{}), DomainError);
  // A billion steps and no more.
  const Mass speck = Mass::from_kg(1e-4);
  CHECK(std::abs(rounded(Mass::from_kg(0.999e5), speck).kg() - 0.999e5) <= 1e-4);
  CHECK_THROWS_AS((void)rounded(Mass::from_kg(1.001e5), speck), DomainError);
  CHECK_THROWS_AS((void)rounded(-Mass::from_kg(1.001e5), speck), DomainError);
  CHECK_THROWS_AS((void)rounded(100_kg, 1_kg - 2_kg), DomainError);
}

TEST_CASE("pounds round in pounds: what comes out is the very mass that is written") {
  // Arithmetic: 2,000 loads of whole pounds in steps of 5 lb. Rounded in kilograms, many of them
  // miss the mass they stand for by a bit.
  int off = 0;
  for (int pounds = 0; pounds < 2000; ++pounds) {
    const Mass load = Mass::from_lb(pounds);
    CHECK(rounded_to(load, 5, Unit::lb, Rounding::down) == Mass::from_lb(pounds / 5 * 5));
    CHECK(rounded_to(load, 5, Unit::lb, Rounding::up) == Mass::from_lb((pounds + 4) / 5 * 5));
    CHECK(rounded_to(load, 5, Unit::lb) == Mass::from_lb((pounds + 2) / 5 * 5));
    off += rounded(load, 5_lb, Rounding::down) != Mass::from_lb(pounds / 5 * 5);
  }
  CHECK(off > 500);
  CHECK(rounded_to(136_lb, 5, Unit::lb) == 135_lb);
  CHECK(rounded_to(101_kg, 2.5, Unit::kg, Rounding::up) == 102.5_kg);
  CHECK(rounded_to(10_lb - 13_lb, 2, Unit::lb, Rounding::down) == -(4_lb));
  CHECK_THROWS_AS((void)rounded_to(100_kg, 0, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)rounded_to(100_kg, std::nan(""), Unit::kg), DomainError);
  CHECK_THROWS_AS((void)rounded_to(100_kg, 1e-9, Unit::kg), DomainError);
}

TEST_CASE("rounding down does not lose a step to floating-point luck") {
  // 0.07 x 1000 is 70.00000000000001 and 0.29 x 100 is 28.999999999999996 in doubles.
  CHECK(rounded(1000_kg * 0.07, 2.5_kg, Rounding::up) == 70_kg);
  CHECK(rounded(100_kg * 0.29, 1_kg, Rounding::down) == 29_kg);
  // Within a billionth of a step is on it, beyond that is beside it.
  CHECK(rounded(Mass::from_kg(1.0 + 0.95e-9), 1_kg, Rounding::up) == 1_kg);
  CHECK(rounded(Mass::from_kg(1.0 + 1.05e-9), 1_kg, Rounding::up) == 2_kg);
  for (int half_pounds = 1; half_pounds <= 2000; ++half_pounds) {
    const Mass load = Mass::from_lb(half_pounds * 0.5);
    for (const Rounding rule : {Rounding::nearest, Rounding::down, Rounding::up}) {
      CHECK(std::abs(rounded(load, 0.5_lb, rule).lb() - half_pounds * 0.5) <= 1e-10);
    }
  }
}

TEST_CASE("a load prints as people write it") {
  CHECK(to_text(102.5_kg) == "102.5 kg");
  CHECK(to_text(100_kg) == "100 kg");
  CHECK(to_text(100_kg, Unit::lb, 1) == "220.5 lb");
  CHECK(to_text(45_lb, Unit::lb) == "45 lb");
  CHECK(to_text(100_lb) == "45.36 kg");
  CHECK(to_text(50_kg - 52_kg) == "-2 kg");
  std::ostringstream out;
  out << 61.25_kg;
  CHECK(out.str() == "61.25 kg");
}

TEST_CASE("a load that is three quarters of a max says what the max is") {
  static_assert((90_kg).whole_of(0.75) == 120_kg);
  CHECK(std::abs((100_kg).whole_of(0.9).kg() - 100.0 / 0.9) <= 1e-13);
  CHECK(Mass{}.whole_of(0.5) == Mass{});
  CHECK(std::abs((1_kg).whole_of(1e-6).kg() - 1e6) <= 1e-9);  // the least share there is
  for (const double bad : {0.0, -0.5, 9e-7, std::nan("")}) {
    CHECK_THROWS_AS((void)(100_kg).whole_of(bad), DomainError);
  }
}

TEST_CASE(
    "the nearest step is the nearest, to a hundredth of a step on either side of the middle") {
  for (double steps = 0.0; steps < 200.0; steps += 1.0) {
    const Mass below = Mass::from_kg(2.5 * steps);
    const Mass above = Mass::from_kg(2.5 * (steps + 1.0));
    CHECK(rounded(Mass::from_kg(2.5 * (steps + 0.49)), 2.5_kg) == below);
    CHECK(rounded(Mass::from_kg(2.5 * (steps + 0.51)), 2.5_kg) == above);
  }
}

TEST_CASE("masses can be kept in a hashed set, and no load is one, with either sign") {
  const std::unordered_set<Mass> loads{100_kg, 100_kg, 102.5_kg};
  CHECK(loads.size() == 2);
  CHECK(std::hash<Mass>{}(Mass{}) == std::hash<Mass>{}(-Mass{}));
}
