// barwright/barwright.hpp - all that needs no Eigen: from sets to the loaded bar
//
//     sets -> rep curve -> max -> variation -> load -> plates
//
// Its chapters, each with an umbrella of its name, build on each other from left to right:
//
//     core < curves < plates < lifts < log < training
//
// What learns from a log is in learning.hpp and needs Eigen.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core.hpp"
#include "barwright/curves.hpp"
#include "barwright/lifts.hpp"
#include "barwright/log.hpp"
#include "barwright/plates.hpp"
#include "barwright/training.hpp"
#include "barwright/version.hpp"
