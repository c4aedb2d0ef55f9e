// What is on a bar adds up exactly, and prints the way it is said in a gym.
#include "barwright/plates/loading.hpp"

#include "barwright/plates/drawing.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <sstream>
#include <string>
#include <type_traits>

using namespace barwright;
using namespace barwright::literals;

static_assert(!std::is_convertible_v<double, MarkedMass>);
static_assert(!std::is_constructible_v<MarkedMass, double>);  // the unit must be named
static_assert(!std::is_convertible_v<Mass, MarkedMass>);
static_assert(std::is_trivially_copyable_v<Loading>);

namespace {

std::string printed(const Loading& loading) {
  std::ostringstream out;
  out << loading;
  return out.str();
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

}  // namespace

TEST_CASE(
    "marked pounds are exact kilograms [0.45359237 kg, agreement of 1959; NIST SP 811: read]") {
  struct Row {
    double lb;
    detail::Ticks ticks;  // of 1e-11 kg: the kilograms with eleven decimals, the point left out
  };
  for (const Row row :
       {Row{2.5, 113'398'092'500}, Row{5, 226'796'185'000}, Row{10, 453'592'370'000},
        Row{25, 1'133'980'925'000}, Row{35, 1'587'573'295'000}, Row{45, 2'041'165'665'000},
        Row{55, 2'494'758'035'000}, Row{100, 4'535'923'700'000}, Row{135, 6'123'496'995'000},
        Row{225, 10'205'828'325'000}, Row{315, 14'288'159'655'000}, Row{405, 18'370'490'985'000},
        Row{495, 22'452'822'315'000}}) {
    CAPTURE(row.lb);
    CHECK(MarkedMass(row.lb, Unit::lb).ticks() == row.ticks);
  }
  // Every mark in whole thousandths is whole in ticks, so 1000 of the smallest are one of the unit.
  CHECK(MarkedMass(0.001, Unit::lb).ticks() * 1000 == MarkedMass(1, Unit::lb).ticks());
  CHECK(MarkedMass(0.001, Unit::kg).ticks() * 1000 == MarkedMass(1, Unit::kg).ticks());
}

TEST_CASE("kilogram plates in pounds [rounded to 12 places: derived]") {
  struct Row {
    double kg;
    double lb;
  };
  for (const Row row :
       {Row{1.25, 2.755778277311}, Row{2.5, 5.511556554622}, Row{5, 11.023113109244},
        Row{10, 22.046226218488}, Row{15, 33.069339327732}, Row{20, 44.092452436976},
        Row{25, 55.115565546219}, Row{50, 110.231131092439}, Row{60, 132.277357310927},
        Row{100, 220.462262184878}, Row{140, 308.647167058829}, Row{180, 396.832071932780},
        Row{220, 485.016976806731}}) {
    CAPTURE(row.kg);
    CHECK(std::fabs(MarkedMass(row.kg, Unit::kg).mass().lb() - row.lb) <= 0.5e-12);
  }
}

TEST_CASE("a 45 lb bar is 0.41165665 kg heavier than a 20 kg bar [derived]") {
  const MarkedMass pounds(45, Unit::lb);
  const MarkedMass kilograms(20, Unit::kg);
  CHECK(pounds > kilograms);
  CHECK(pounds.ticks() - kilograms.ticks() == 41'165'665'000);
}

TEST_CASE("bar and collars weigh 25 kg in powerlifting [IPF rules: read in a national copy]") {
  CHECK(Loading(Bar(20, Unit::kg), Collars(2.5, Unit::kg)).total() == 25_kg);
  // Women's bar of 15 kg and collars: 20 kg [IWF; bar and collars read, sum derived].
  CHECK(Loading(Bar(15, Unit::kg), Collars(2.5, Unit::kg)).total() == 20_kg);
}

TEST_CASE("n plates of 20 kg a side are 20 + 40 n kg, of 45 lb 45 + 90 n lb [common practice]") {
  Loading kilograms(Bar(20, Unit::kg));
  Loading pounds(Bar(45, Unit::lb));
  for (int n = 1; n <= 10; ++n) {
    kilograms.put_on(MarkedMass(20, Unit::kg));
    pounds.put_on(MarkedMass(45, Unit::lb));
    CHECK(kilograms.total() == Mass::from_kg(20.0 + 40.0 * n));
    CHECK(pounds.total() == Mass::from_lb(45.0 + 90.0 * n));
    CHECK(pounds.per_side() == Mass::from_lb(45.0 * n));
  }
}

TEST_CASE("kilograms and pounds on one bar add up exactly") {
  const Loading mixed(
      Bar(20, Unit::kg), {},
      {MarkedMass(45, Unit::lb), MarkedMass(10, Unit::kg), MarkedMass(2.5, Unit::lb)});
  // 20 + 2 (20.41165665 + 10 + 1.133980925) = 83.09127515 kg, by hand.
  CHECK(mixed.total() == Mass::from_kg(83.09127515));
  CHECK(printed(mixed) == "20 kg bar + 45 lb, 10, 2.5 lb each side = 83.091 kg");
}

TEST_CASE("a loading prints as it is said") {
  CHECK(printed(Loading(Bar(20, Unit::kg))) == "20 kg bar = 20 kg");
  CHECK(printed(Loading(Bar(20, Unit::kg), {}, {MarkedMass(15, Unit::kg)})) ==
        "20 kg bar + 15 each side = 50 kg");
  CHECK(printed(Loading(Bar(20, Unit::kg), Collars(2.5, Unit::kg))) ==
        "20 kg bar + a 2.5 kg collar each side = 25 kg");
  CHECK(printed(Loading(Bar(20, Unit::kg), Collars(2.5, Unit::kg),
                        {MarkedMass(25, Unit::kg), MarkedMass(1.25, Unit::kg)})) ==
        "20 kg bar + 25, 1.25 and a 2.5 kg collar each side = 77.5 kg");
  CHECK(printed(Loading(Bar(50, Unit::kg, "sled"), {}, {MarkedMass(0.125, Unit::kg)})) ==
        "50 kg sled + 0.125 each side = 50.25 kg");
}

TEST_CASE("the longest loading prints and draws uncut") {
  Loading loading(Bar(999.999, Unit::kg), Collars(999.999, Unit::kg));
  for (int i = 0; i < Loading::most_plates; ++i) loading.put_on(MarkedMass(999.999, Unit::lb));
  CHECK(printed(loading).substr(printed(loading).size() - 3) == " kg");
  const std::string drawing = draw(loading).str();
  CHECK(drawing.substr(drawing.size() - 2) == "|\n");
}

TEST_CASE("a drawing shows the plates inside to outside") {
  CHECK(draw(Loading(Bar(20, Unit::kg))) == "============\n");
  // 10 lb are as tall as 5 kg, 5 lb and 2.5 kg no taller than their line.
  CHECK(draw(Loading(Bar(45, Unit::lb), {}, {MarkedMass(10, Unit::lb), MarkedMass(5, Unit::lb)})) ==
        "        |  |\n"
        "========|10||5|====\n"
        "        |  |\n");
  CHECK(draw(Loading(Bar(20, Unit::kg), {}, {MarkedMass(5, Unit::kg), MarkedMass(25, Unit::lb)})) ==
        "           |    |\n"
        "        | ||    |\n"
        "========|5||25lb|====\n"
        "        | ||    |\n"
        "           |    |\n");
  CHECK(draw(Loading(Bar(20, Unit::kg), {}, {MarkedMass(10, Unit::kg)})) ==
        "        |  |\n"
        "        |  |\n"
        "========|10|====\n"
        "        |  |\n"
        "        |  |\n");
  CHECK(draw(Loading(Bar(20, Unit::kg), Collars(2.5, Unit::kg),
                     {MarkedMass(20, Unit::kg), MarkedMass(1.25, Unit::kg)})) ==
        "        |  |\n"
        "        |  |\n"
        "        |  |\n"
        "========|20||1.25|[]====\n"
        "        |  |\n"
        "        |  |\n"
        "        |  |\n");
}

TEST_CASE("masses that no plate is marked with are refused") {
  CHECK(message([] { (void)MarkedMass(-5, Unit::kg); }) ==
        "a marked mass must be a number from 0 to 1000 in whole thousandths; got -5");
  CHECK_THROWS_AS((void)MarkedMass(1000.5, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)MarkedMass(1.0 / 3.0, Unit::kg), DomainError);
  CHECK_THROWS_AS((void)MarkedMass(std::nan(""), Unit::kg), DomainError);
  CHECK_THROWS_AS((void)MarkedMass(HUGE_VAL, Unit::lb), DomainError);
  CHECK(message([] { (void)Plate(0, Unit::kg); }) == "a plate's mass must be more than 0; got 0");
  CHECK(message([] { (void)Plate(20, Unit::kg, 0); }) ==
        "a plate's number per side must be 1 or more; got 0");
  Loading full(Bar(20, Unit::kg));
  for (int i = 0; i < 32; ++i) full.put_on(MarkedMass(1, Unit::kg));
  CHECK_THROWS_AS(full.put_on(MarkedMass(1, Unit::kg)), DomainError);
}

TEST_CASE("plates of one mass are one kind, kept heaviest first") {
  Plates plates{Plate(10, Unit::kg, 1), Plate(45, Unit::lb, 2), Plate(20, Unit::kg),
                Plate(10, Unit::kg, 2), Plate(20, Unit::kg, 1)};
  REQUIRE(plates.size() == 3);
  CHECK(plates[0] == Plate(45, Unit::lb, 2));
  CHECK(plates[1] == Plate(20, Unit::kg));  // unlimited stays unlimited
  CHECK(plates[2] == Plate(10, Unit::kg, 3));
  for (int i = 0; i < 21; ++i) plates.add(Plate(100.0 + i, Unit::kg));
  CHECK(message([&] { plates.add(Plate(500, Unit::kg)); }) ==
        "the kinds of plate in a room must be at most 24; got 25");
  plates.add(Plate(10, Unit::kg));  // not a new kind
  CHECK(plates.size() == 24);
}
