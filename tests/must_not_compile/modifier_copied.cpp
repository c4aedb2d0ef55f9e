// What lifts point at is the one and only.
// says: private
// SPDX-License-Identifier: BSL-1.0
#include <barwright/lifts/catalogue/bench_press.hpp>

using namespace barwright;

#ifdef WRONG
const Modifier feet_up = modifiers::feet_up;
#else
const Modifier& feet_up = modifiers::feet_up;
#endif
