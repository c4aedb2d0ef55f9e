#include <doctest/doctest.h>

#include <barwright/core/mass.hpp>
#include <barwright/core/range.hpp>
#include <cmath>
#include <sstream>

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("a range runs from its low end over its typical value to its high end") {
  constexpr Range<Mass> max(80_kg, 85_kg, 92.5_kg);
  static_assert(max.contains(80_kg) && max.contains(92.5_kg) && !max.contains(79_kg));
  CHECK(!max.is_exact());
  CHECK(Range<double>::exactly(0.9).is_exact());
  CHECK(Range<double>::exactly(0.9) == Range<double>(0.9, 0.9, 0.9));
}

TEST_CASE("the ends of a range are open to change, unchecked") {
  Range<double> share(0.90, 0.95, 1.00);
  share.high = 0.97;
  CHECK(!share.contains(0.98));
}

TEST_CASE("a range in another order is refused") {
  CHECK_THROWS_AS(Range<double>(0.9, 0.8, 1.0), DomainError);
  CHECK_THROWS_AS(Range<double>(0.9, 1.1, 1.0), DomainError);
  CHECK_THROWS_AS(Range<double>(0.9, std::nan(""), 1.0), DomainError);
}

TEST_CASE("a range is printed with its ends and what is likeliest") {
  std::ostringstream out;
  out << Range<Mass>(80_kg, 85_kg, 92.5_kg) << "; " << Range<double>::exactly(0.9);
  CHECK(out.str() == "80 kg to 92.5 kg, likeliest 85 kg; 0.9");
}
