// barwright/learning.hpp - what a training log says of a lifter
//
// Needs Eigen; barwright.hpp does not.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/learn/batch.hpp"
#include "barwright/learn/curve_fit.hpp"
#include "barwright/learn/least_squares.hpp"
#include "barwright/learn/linear_gaussian.hpp"
#include "barwright/learn/strength_model.hpp"
