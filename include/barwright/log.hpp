// barwright/log.hpp - what was done
//
// A log that a program keeps itself. One that stands in a file is read by log/log_reader.hpp, which
// is included by its own name: it needs strings and maps, and most programs do not.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/log/logged_set.hpp"
#include "barwright/log/pain.hpp"
