// The words of an error that nobody keeps.
// says: deleted
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/error.hpp>

using barwright::DomainError;
using barwright::ErrorCode;

#ifdef WRONG
std::string_view allowed = DomainError(ErrorCode::too_many, "plates", "at most 32", "33").allowed();
#else
const DomainError error(ErrorCode::too_many, "plates", "at most 32", "33");
std::string_view allowed = error.allowed();
#endif
