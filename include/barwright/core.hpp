// barwright/core.hpp - values that are checked once and then safe
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/names.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/short_list.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
