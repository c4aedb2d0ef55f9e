// What lifts point at is the one and only.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/lifts/catalogue/squat.hpp>

using namespace barwright;

#ifdef WRONG
const BaseLift squat = lifts::squat;
#else
const BaseLift& squat = lifts::squat;
#endif
