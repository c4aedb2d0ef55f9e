// barwright/version.hpp - the library's version, as numbers a build can compare
// SPDX-License-Identifier: BSL-1.0
#pragma once

#define BARWRIGHT_VERSION_MAJOR 0
#define BARWRIGHT_VERSION_MINOR 1
#define BARWRIGHT_VERSION_PATCH 0
