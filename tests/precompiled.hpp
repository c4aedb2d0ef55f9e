// tests/precompiled.hpp - what nearly every unit test includes, compiled once for all of them
//
// Only where BARWRIGHT_PRECOMPILE is on. A test includes what it uses all the same.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
