// Lighter sets after the top one.
#include "barwright/training/back_off.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "barwright/curves/rep_table.hpp"

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

TEST_CASE("the drop that keeps two in reserve after a heavy triple [NSCA chart, read]") {
  // 3 with 1 left is 90 %, 8 with 2 left is 75 %.
  CHECK(drop_for(rep_tables::nsca_chart, 3_reps, 1_rir, 8_reps, 2_rir) ==
        doctest::Approx(1.0 - 0.75 / 0.90));
  CHECK(drop_for(rep_tables::nsca_chart, 8_reps, 2_rir, 3_reps, 1_rir) == 0.0);
}
