// barwright/lifts.hpp - the lifts, what changes them, and what a change costs
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/variation.hpp"
