// barwright/learning.hpp - what a training log says of a lifter
//
// Needs Eigen; barwright.hpp does not.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/learn/append_set.hpp"
#include "barwright/learn/batch.hpp"
#include "barwright/learn/curve_fit.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/kalman_smoother.hpp"
#include "barwright/learn/least_squares.hpp"
#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/saved_fit.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/learn/strength_settings.hpp"
