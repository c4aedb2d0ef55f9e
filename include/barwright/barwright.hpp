// barwright/barwright.hpp - the forward chain, whole: from sets to the loaded bar
//
//     sets -> repetition curve -> max -> variation -> load -> plates
//
// Standard library only. What is learnt from a log, the backward half, is in learning.hpp and needs
// Eigen. Each header below can be included alone; they build on each other in this order.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/version.hpp"
//
#include "barwright/text.hpp"
//
#include "barwright/error.hpp"
//
#include "barwright/range.hpp"
#include "barwright/source.hpp"
#include "barwright/units.hpp"
//
#include "barwright/effort.hpp"
//
#include "barwright/rep_curve.hpp"
//
#include "barwright/equations.hpp"
#include "barwright/rep_table.hpp"
#include "barwright/velocity.hpp"
//
#include "barwright/prescription.hpp"
//
#include "barwright/plates.hpp"
//
#include "barwright/variation.hpp"
//
#include "barwright/catalogue.hpp"
//
#include "barwright/date.hpp"
//
#include "barwright/logged_set.hpp"
//
#include "barwright/introduction.hpp"
//
#include "barwright/caution.hpp"
