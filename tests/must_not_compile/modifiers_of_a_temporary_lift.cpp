// The modifiers of a lift that nobody keeps.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/lifts/catalogue/bench_press.hpp>
#include <barwright/lifts/lift.hpp>

using namespace barwright;

std::size_t count() {
#ifdef WRONG
  return (lifts::bench_press + modifiers::feet_up).modifiers().size();
#else
  const Lift lift = lifts::bench_press + modifiers::feet_up;
  return lift.modifiers().size();
#endif
}
