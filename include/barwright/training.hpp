// barwright/training.hpp - one session, one week, some weeks, without a model
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/training/alone.hpp"
#include "barwright/training/back_off.hpp"
#include "barwright/training/block.hpp"
#include "barwright/training/block_progress.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/choice.hpp"
#include "barwright/training/comeback.hpp"
#include "barwright/training/day_order.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/max_test.hpp"
#include "barwright/training/overlap.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/prescription.hpp"
#include "barwright/training/progression.hpp"
#include "barwright/training/session_load.hpp"
#include "barwright/training/spacing.hpp"
#include "barwright/training/spacing_rule.hpp"
#include "barwright/training/swaps.hpp"
#include "barwright/training/volume.hpp"
#include "barwright/training/warm_up.hpp"
