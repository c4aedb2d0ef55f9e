// Where the compiler takes NaN for impossible, no check of a value holds.
// flags: -ffinite-math-only
// says: barwright checks values for NaN
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/mass.hpp>
