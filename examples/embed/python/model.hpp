// examples/embed/python/model.hpp - what the two files of the module share
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <pybind11/pybind11.h>

#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"

/// A range of masses as Python has it.
inline barwright::Range<double> in_kg(const barwright::Range<barwright::Mass>& range) {
  return {range.low.kg(), range.typical.kg(), range.high.kg()};
}

/// Adds the strength model. In a file of its own, as it is slow to compile.
void add_model(pybind11::module_& m);
