// A published curve chosen by its name.
#include "barwright/curves/any_curve.hpp"

#include <doctest/doctest.h>

#include <string>

#include "barwright/curves/adapters.hpp"

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("every published curve is found by its name and answers as itself") {
  int number = 0;
  for_each_named_curve([&](const auto& curve, const EquationFacts& facts) {
    CAPTURE(std::string(facts.name));
    const AnyCurve found = parse_curve(facts.name);
    CHECK(found.facts().name == facts.name);
    CHECK(found.defined() == curve.defined());
    CHECK(found.studied() == curve.studied());
    for (const double reps : {1.0, 2.5, 5.0, 10.0}) {
      CHECK(found.fraction(reps) == curve.fraction(reps));
      CHECK(found.slope(reps) == curve.slope(reps));
      CHECK(found.reps(curve.fraction(reps)) == curve.reps(curve.fraction(reps)));
    }
    ++number;
  });
  CHECK(number == static_cast<int>(equations::count) + 2);
}

TEST_CASE("case, blanks and signs do not count, and the start of a name is enough") {
  const auto name_of = [](std::string_view typed) {
    const auto curve = find_curve(typed);
    return curve ? std::string(curve->facts().name) : "none";
  };
  CHECK(name_of("wathen") == "Wathen");
  CHECK(name_of("oconner") == "O'Conner");
  CHECK(name_of("o conner") == "O'Conner");
  CHECK(name_of("brz") == "Brzycki");
  CHECK(name_of("nsca") == "NSCA chart");
  CHECK(name_of("Baechle and Earle") == "none");
  CHECK(name_of("baechle & earle") == "Baechle & Earle table");
  CHECK(name_of("reynolds leg-press") == "Reynolds leg press");
  // Two names start so, or none.
  CHECK(name_of("Reynolds") == "none");
  CHECK(name_of("w") == "none");
  CHECK(name_of("epleyy") == "none");
  CHECK(name_of("") == "none");
  CHECK(name_of("'") == "none");
}

TEST_CASE("a curve that is not known is refused, and all names are told") {
  CHECK_THROWS_WITH_AS((void)parse_curve("brzycky"),
                       "a curve must be one of the published ones, such as Epley or Wathen; got "
                       "brzycky",
                       DomainError);
  for_each_named_curve([](const auto&, const EquationFacts& facts) {
    CHECK(curve_names().str().find(facts.name) != std::string_view::npos);
  });
  CHECK(curve_names().str().substr(0, 15) == "Epley, Welday, ");
}

TEST_CASE("a chosen curve is a curve like the others") {
  const AnyCurve curve = parse_curve("Epley");
  CHECK(one_rep_max(curve, 100_kg, 5_reps) == one_rep_max(equations::epley, 100_kg, 5_reps));
  CHECK(anchored(curve).fraction(1.0) == 1.0);
}
