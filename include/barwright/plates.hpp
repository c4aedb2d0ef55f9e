// barwright/plates.hpp - from a load to the iron on the bar
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/plates/loading.hpp"
#include "barwright/plates/room.hpp"
