// barwright/log.hpp - what was done
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/log/logged_set.hpp"
#include "barwright/log/pain.hpp"
