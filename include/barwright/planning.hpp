// barwright/planning.hpp - the main job as one call: from a log or a stated max to the loaded bar
//
// With it comes plan/json.hpp, the same in JSON. Needs Eigen, for what learns from a log. A program
// that has only a stated max includes plan/session.hpp by itself, which needs the standard library
// only.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/plan/attempts.hpp"
#include "barwright/plan/begun_session.hpp"
#include "barwright/plan/block_plan.hpp"
#include "barwright/plan/first_session.hpp"
#include "barwright/plan/json.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/look_back.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/review.hpp"
#include "barwright/plan/rules.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/plan/squad.hpp"
#include "barwright/plan/stops.hpp"
#include "barwright/plan/strength.hpp"
