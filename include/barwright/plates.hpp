// barwright/plates.hpp - from a load to the iron on the bar
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/plates/drawing.hpp"
#include "barwright/plates/dumbbells.hpp"
#include "barwright/plates/loading.hpp"
#include "barwright/plates/parse_room.hpp"
#include "barwright/plates/plate_sets.hpp"
#include "barwright/plates/ramp.hpp"
#include "barwright/plates/room.hpp"
