// Lighter sets after the top one.
#include "barwright/training/back_off.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace barwright;
using namespace barwright::literals;

TEST_CASE("back-off sets are a share lighter") {
  CHECK(back_off(100_kg, 0.10).kg() == doctest::Approx(90.0));
  CHECK(back_off(100_kg, 0.0) == 100_kg);
  CHECK(back_off(100_kg, 0.5) == 50_kg);
  for (const double bad : {-0.01, 0.51, std::nan("")}) {
    CHECK_THROWS_AS((void)back_off(100_kg, bad), DomainError);
  }
}
