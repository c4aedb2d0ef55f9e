// tests/fuzz/require.hpp - what a fuzz target holds to be true
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstdio>
#include <cstdlib>

namespace fuzz {

/// Ends the program, so that libFuzzer keeps the input, where `holds` is false.
inline void require(bool holds, const char* law) {
  if (holds) return;
  std::fprintf(stderr, "broken: %s\n", law);
  std::abort();
}

}  // namespace fuzz
