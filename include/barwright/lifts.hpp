// barwright/lifts.hpp - the lifts, what changes them, and what a change costs
//
// The list of them all, lifts/list.hpp, is included by its own name: it needs strings and vectors,
// and most programs do not.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/describe.hpp"
#include "barwright/lifts/findings.hpp"
#include "barwright/lifts/learning_gain.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/muscles.hpp"
#include "barwright/lifts/stacking.hpp"
