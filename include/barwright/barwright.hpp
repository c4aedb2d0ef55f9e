// barwright/barwright.hpp - the forward chain, whole: from sets to the loaded bar
//
//     sets -> repetition curve -> max -> variation -> load -> plates
//
// Standard library only. What is learnt from a log, the backward half, is in learning.hpp and needs
// Eigen. Each header can be included alone; the order in which they build on each other is in
// DEVELOPERS.md.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/block.hpp"
#include "barwright/catalogue.hpp"
#include "barwright/caution.hpp"
#include "barwright/choice.hpp"
#include "barwright/date.hpp"
#include "barwright/effort.hpp"
#include "barwright/equations.hpp"
#include "barwright/error.hpp"
#include "barwright/introduction.hpp"
#include "barwright/logged_set.hpp"
#include "barwright/plates.hpp"
#include "barwright/prescription.hpp"
#include "barwright/range.hpp"
#include "barwright/rep_curve.hpp"
#include "barwright/rep_table.hpp"
#include "barwright/source.hpp"
#include "barwright/text.hpp"
#include "barwright/training_load.hpp"
#include "barwright/units.hpp"
#include "barwright/variation.hpp"
#include "barwright/velocity.hpp"
#include "barwright/version.hpp"
#include "barwright/week.hpp"
