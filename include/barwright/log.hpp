// barwright/log.hpp - what was done
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/log_reader.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/log/table.hpp"
