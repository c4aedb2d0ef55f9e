// examples/embed/python/model.hpp - what the two files of the module share
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <pybind11/pybind11.h>

#include <cstddef>
#include <typeinfo>

#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"

/// A range of masses as Python has it.
inline barwright::Range<double> in_kg(const barwright::Range<barwright::Mass>& range) {
  return {range.low.kg(), range.typical.kg(), range.high.kg()};
}

/// A class whose values cannot be read before they are made: without this, pybind11 answers
/// `Lift.__new__(Lift).name` from memory that nobody filled.
template <class T>
pybind11::class_<T> value_class(pybind11::module_& m, const char* name) {
  pybind11::class_<T> made(m, name);
  pybind11::detail::get_type_info(typeid(T))->operator_new = [](std::size_t) -> void* {
    throw pybind11::type_error("the object was never initialised; call its class");
  };
  return made;
}

/// Adds the strength model. In a file of its own, as it is slow to compile.
void add_model(pybind11::module_& m);
