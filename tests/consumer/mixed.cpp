// tests/consumer/mixed.cpp - with exceptions, in one program with a file that was compiled without
//
// Both files use the same functions of the library. Here a bad value is thrown, and caught: the
// linker has not put the other file's function, which aborts, in the place of ours.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/mass.hpp>
#include <cstdio>
#include <cstdlib>

double kilograms_without_exceptions(double kg);
#ifdef SHARED_TYPE
double kilograms_of(barwright::Mass mass);  // defined in the other file, for another Mass
#endif

int main() {
  if (kilograms_without_exceptions(20.0) != 20.0) return EXIT_FAILURE;
#ifdef SHARED_TYPE
  if (kilograms_of(barwright::Mass::from_kg(20.0)) != 20.0) return EXIT_FAILURE;
#endif
  try {
    return barwright::Mass::from_kg(-20.0).kg() > 0.0 ? EXIT_SUCCESS : EXIT_FAILURE;
  } catch (const barwright::DomainError& error) {
    std::printf("caught: %s\n", error.what());
  }
  return EXIT_SUCCESS;
}
