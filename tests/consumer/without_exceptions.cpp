// tests/consumer/without_exceptions.cpp - without exceptions a bad value aborts
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/mass.hpp>
#include <cstdio>
#include <cstdlib>

int main() {
  using barwright::Mass;
  using namespace barwright::literals;
  if (Mass::from_kg(20.0) + 80_kg != 100_kg) return EXIT_FAILURE;
  std::puts("valid values work");
  std::fflush(stdout);
  const Mass refused = Mass::from_kg(-20.0);
  std::printf("not reached: %g kg\n", refused.kg());
  return EXIT_SUCCESS;
}
