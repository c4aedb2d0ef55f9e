// barwright/version.hpp - the library's version, and what every file of one program has to agree on
//
// The namespace of everything is barwright, through an inline namespace that is part of every
// symbol's name: the version of the binary interface, and whether errors are thrown. Files that
// were compiled with exceptions and without do not share a function, so that none of them can end
// up in the other's error handling.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#define BARWRIGHT_VERSION_MAJOR 0
#define BARWRIGHT_VERSION_MINOR 2
#define BARWRIGHT_VERSION_PATCH 0

/// 1 where errors are thrown, 0 where they print and abort; follows the compiler unless set first.
#ifndef BARWRIGHT_EXCEPTIONS
#ifdef __cpp_exceptions
#define BARWRIGHT_EXCEPTIONS 1
#else
#define BARWRIGHT_EXCEPTIONS 0
#endif
#endif

#if BARWRIGHT_EXCEPTIONS
#define BARWRIGHT_ABI v0
#else
#define BARWRIGHT_ABI v0_no_exceptions
#endif

// Every check of a value relies on comparisons that NaN fails.
#if defined(__FAST_MATH__) || (defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__ > 0)
#error "barwright checks values for NaN: compile without -ffast-math and -ffinite-math-only"
#endif

#if defined(min) || defined(max)
#error "min or max is a macro here: define NOMINMAX before <windows.h>, or #undef both"
#endif
