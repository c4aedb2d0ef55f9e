// A pointer into a text that is gone at the end of the line.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/mass.hpp>
#include <string>

using namespace barwright::literals;

#ifdef WRONG
const char* words = barwright::to_text(100_kg).c_str();
#else
const std::string words = barwright::to_text(100_kg).str();
#endif
