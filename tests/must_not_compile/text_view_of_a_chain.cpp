// A view of what a chain of calls put together.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/text.hpp>

#ifdef WRONG
std::string_view words = barwright::Text{}.append("20 kg").append(" bar").view();
#else
const barwright::Text kept = barwright::Text{}.append("20 kg").append(" bar");
std::string_view words = kept.view();
#endif
