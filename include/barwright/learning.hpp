// barwright/learning.hpp - the backward half, whole: what a training log says
//
// Needs Eigen. The forward half, barwright.hpp, does not.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/batch.hpp"
#include "barwright/curve_fit.hpp"
#include "barwright/curve_table.hpp"
#include "barwright/estimate.hpp"
#include "barwright/least_squares.hpp"
#include "barwright/linear_gaussian.hpp"
#include "barwright/normal.hpp"
#include "barwright/set_evidence.hpp"
#include "barwright/shaped_curve.hpp"
#include "barwright/strength_model.hpp"
