// Rooms written as text.
#include "barwright/plates/parse_room.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "plates/plain_search.hpp"

using namespace barwright;
using namespace barwright::literals;
using namespace plain_search;

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
  CHECK(message([] { (void)parse_plates("25 20 kgx"); }) == form + "kgx");
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
