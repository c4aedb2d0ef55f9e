// A constant out of its range.
// says: non-.+constexpr|constant expression
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/effort.hpp>

using namespace barwright::literals;

#ifdef WRONG
const barwright::Reps reps = 0_reps;
#else
const barwright::Reps reps = 1_reps;
#endif
