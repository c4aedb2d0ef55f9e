// barwright/training.hpp - one session, one week, some weeks, without a model
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/training/block.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/choice.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/prescription.hpp"
#include "barwright/training/training_load.hpp"
#include "barwright/training/week.hpp"
