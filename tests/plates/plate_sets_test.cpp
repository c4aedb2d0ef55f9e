// The rooms of gyms and federations.
#include "barwright/plates/plate_sets.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "plates/plain_search.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace plain_search;

TEST_CASE("federation rooms reach every step of the rules") {
  // Attempts in steps of 2.5 kg from bar and collars [IPL 2019: read; IPF: from memory].
  for (double kg = 25.0; kg <= 500.0; kg += 2.5) {
    CHECK(plate_sets::powerlifting.at_most(Mass::from_kg(kg))->total() == Mass::from_kg(kg));
    CHECK(plate_sets::powerlifting_with_50.nearest(Mass::from_kg(kg)).total() == Mass::from_kg(kg));
  }
  // Records by 0.5 kg [para rules: read; IPF: from memory].
  for (double kg = 25.0; kg <= 500.0; kg += 0.5) {
    CHECK(plate_sets::powerlifting_record.nearest(Mass::from_kg(kg)).total() == Mass::from_kg(kg));
  }
  // Steps of 1 kg [IWF: read], from 26 kg for men and 21 kg for women [from memory].
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
    const Loading loading = plate_sets::gym_kg.nearest(Mass::from_kg(20.0 + 2.0 * kg));
    CHECK(loading.plates().size() == 1);
  }
  for (const double lb : {45.0, 35.0, 25.0, 10.0, 5.0, 2.5}) {
    const Loading loading = plate_sets::gym_lb.nearest(Mass::from_lb(45.0 + 2.0 * lb));
    CHECK(loading.plates().size() == 1);
  }
}

TEST_CASE("plate sets are found by name and say where they come from") {
  REQUIRE(plate_sets::find("gym_kg") == &plate_sets::gym_kg);
  CHECK(plate_sets::find("gym") == nullptr);
  for (const plate_sets::Named& set : plate_sets::all) {
    CHECK(plate_sets::find(set.name) == set.room);
    CHECK(set.source.evidence != Evidence::assumption);
  }
}
