// A constant whose parts contradict one another.
// says: non-.+constexpr|constant expression
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/range.hpp>

#ifdef WRONG
constexpr barwright::Range<double> share(0.95, 0.90, 1.00);
#else
constexpr barwright::Range<double> share(0.90, 0.95, 1.00);
#endif
