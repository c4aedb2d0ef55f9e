// A lift points at its modifiers, so a modifier must be kept.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/lifts/catalogue/bench_press.hpp>
#include <barwright/lifts/lift.hpp>

using namespace barwright;

#ifdef WRONG
const Lift lift = lifts::bench_press + modifiers::feet_up.with_ratio({0.91, 0.93, 0.95});
#else
constexpr Modifier mine = modifiers::feet_up.with_ratio({0.91, 0.93, 0.95});
constexpr Lift lift = lifts::bench_press + mine;
#endif
