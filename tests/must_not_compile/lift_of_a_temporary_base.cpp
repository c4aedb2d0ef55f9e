// A lift points at its base lift, so that must be kept.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/lifts/lift.hpp>

using namespace barwright;

#ifdef WRONG
const Lift lift(BaseLift{.key = "log_press", .name = "log press"});
#else
constexpr BaseLift log_press{.key = "log_press", .name = "log press"};
const Lift lift(log_press);
#endif
