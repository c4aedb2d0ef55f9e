// The plates of a loading that nobody keeps.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/plates/room.hpp>

using namespace barwright::literals;

int plates_on(const barwright::Room& room) {
#ifdef WRONG
  const auto plates = room.nearest(100_kg).plates();
#else
  const barwright::Loading loading = room.nearest(100_kg);
  const auto plates = loading.plates();
#endif
  return static_cast<int>(plates.size());
}
