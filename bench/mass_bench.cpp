// bench/mass_bench.cpp - rounding and printing of loads, reading and counting of dates (date.hpp)
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "barwright/core/date.hpp"
#include "barwright/core/mass.hpp"
#include "side_by_side.hpp"

namespace {

using namespace barwright;

std::array<double, cases> made_loads() {
  std::array<double, cases> kg;
  for (std::size_t i = 0; i < cases; ++i) kg[i] = 20.0 + 0.37 * static_cast<double>(i * 89 % cases);
  return kg;
}
auto kg = made_loads();

BENCHMARK_CAPTURE(by_hand, rounded_down,
                  [](std::size_t i) { return 2.5 * std::floor(kg[i] / 2.5 + 1e-9); });
BENCHMARK_CAPTURE(library, rounded_down, [](std::size_t i) {
  return rounded(Mass::from_kg(kg[i]), Mass::from_kg(2.5), Rounding::down).kg();
});

BENCHMARK_CAPTURE(by_hand, as_text, [](std::size_t i) {
  char text[32];
  return static_cast<double>(std::snprintf(text, sizeof text, "%.2f kg", kg[i]) > 0);
});
BENCHMARK_CAPTURE(library, as_text, [](std::size_t i) {
  const Text text = to_text(Mass::from_kg(kg[i]));
  return static_cast<double>(!text.view().empty());
});

std::array<std::string, cases> made_dates() {
  std::array<std::string, cases> dates;
  for (std::size_t i = 0; i < cases; ++i)
    dates[i] = to_text(Date(2024, 1, 1) + static_cast<int>(i * 3)).str();
  return dates;
}
auto dates = made_dates();
const Date start(2024, 1, 1);

// The day number by whole years, months that start in March, and the days before them.
BENCHMARK_CAPTURE(by_hand, days_since, [](std::size_t i) {
  int year = 0;
  int month = 0;
  int day = 0;
  if (std::sscanf(dates[i].c_str(), "%d-%d-%d", &year, &month, &day) != 3) return -1.0;
  year -= month <= 2 ? 1 : 0;
  month += month <= 2 ? 9 : -3;
  return 365.0 * year + year / 4 - year / 100 + year / 400 + (153 * month + 2) / 5 + day - 739192.0;
});
BENCHMARK_CAPTURE(library, days_since,
                  [](std::size_t i) { return static_cast<double>(*parse_date(dates[i]) - start); });

}  // namespace
