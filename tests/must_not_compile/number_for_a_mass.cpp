// A number without a unit is no load.
// says: no (viable )?conver|conversion from
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/mass.hpp>

using namespace barwright::literals;

#ifdef WRONG
const barwright::Mass load = 100.0;
#else
const barwright::Mass load = 100_kg;
#endif
