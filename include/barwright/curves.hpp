// barwright/curves.hpp - repetitions and the share of a max, each from the other
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/curves/rep_table.hpp"
#include "barwright/curves/velocity.hpp"
