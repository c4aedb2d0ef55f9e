// A view of a text that is gone at the end of the line.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/mass.hpp>

using namespace barwright::literals;

#ifdef WRONG
std::string_view words = barwright::to_text(100_kg);
#else
const barwright::Text kept = barwright::to_text(100_kg);
std::string_view words = kept;
#endif
