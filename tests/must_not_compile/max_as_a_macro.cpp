// As <windows.h> does it.
// flags: -Dmax(a,b)=((a)>(b)?(a):(b))
// says: min or max is a macro here: define NOMINMAX
// SPDX-License-Identifier: BSL-1.0
#include <barwright/version.hpp>
