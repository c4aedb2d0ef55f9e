// barwright/curves.hpp - from reps to a share of the max and back
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/curves/adapters.hpp"
#include "barwright/curves/any_curve.hpp"
#include "barwright/curves/compare.hpp"
#include "barwright/curves/effort_table.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/curves/forms.hpp"
#include "barwright/curves/regressions.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/curves/rep_table.hpp"
#include "barwright/curves/velocity.hpp"
