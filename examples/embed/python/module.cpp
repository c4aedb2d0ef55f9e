// examples/embed/python/module.cpp - barwright as a Python module: the planner, estimates, plates,
// columns
//
// What is refused is a ValueError with the library's words; where there is no answer, it is None.
// barwright.pyi is the module's reference.
// SPDX-License-Identifier: BSL-1.0
#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <cstdint>
#include <cstring>
#include <memory>
#include <new>
#include <string>
#include <string_view>
#include <typeinfo>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/batch.hpp"
#include "barwright_c.h"

namespace py = pybind11;
namespace bw = barwright;
using namespace py::literals;

namespace {

// ---- the chain ----

double one_rep_max(double load_kg, int reps, double reserve, std::string_view equation) {
  return bw::one_rep_max(bw::parse_curve(equation), bw::Mass::from_kg(load_kg), bw::Reps(reps),
                         bw::RepsInReserve(reserve))
      .kg();
}

// ---- the planner ----

py::str answer(std::string_view request) {
  char* const text = [&] {
    const py::gil_scoped_release released;
    return barwright_answer(request.data(), request.size());
  }();
  if (text == nullptr) throw std::bad_alloc();
  const std::unique_ptr<char, decltype(&barwright_free)> owner(text, &barwright_free);
  return py::str(text);
}

/// As `answer`, from and to Python's own values; a date may be a datetime.date.
py::object ask(const py::object& request) {
  const py::module_ json = py::module_::import("json");
  const py::cpp_function as_text([](const py::object& value) {
    if (py::hasattr(value, "isoformat")) return value.attr("isoformat")();
    throw py::type_error("a request holds what JSON holds, and dates; got " +
                         py::repr(py::type::of(value)).cast<std::string>());
  });
  const py::object text = json.attr("dumps")(request, "default"_a = as_text, "allow_nan"_a = false);
  return json.attr("loads")(answer(text.cast<std::string>()));
}

/// A class whose values cannot be read before they are made: without this, pybind11 answers
/// `Room.__new__(Room).nearest(50)` from memory that nobody filled.
template <class T>
py::class_<T> value_class(py::module_& m, const char* name) {
  py::class_<T> made(m, name);
  py::detail::get_type_info(typeid(T))->operator_new = [](std::size_t) -> void* {
    throw py::type_error("the object was never initialised; call its class");
  };
  return made;
}

// ---- columns ----

template <class T>
using Column = py::array_t<T, py::array::c_style>;

/// The array itself where it has the layout asked for; a copy where it can be copied without loss.
template <class T>
Column<T> column(const py::object& values, std::string_view what, std::string_view allowed) {
  Column<T> array = Column<T>::ensure(values);
  if (array && array.ndim() == 1) return array;
  PyErr_Clear();
  const std::string got = py::repr(py::type::of(values)).cast<std::string>();
  const std::string kind =
      py::hasattr(values, "dtype") ? py::str(values.attr("dtype")).cast<std::string>() : got;
  bw::Text subject;
  subject.append("the column of ").append(what);
  throw bw::DomainError(bw::ErrorCode::unreadable, subject, allowed, kind);
}
Column<double> loads_from(const py::object& values) {
  return column<double>(values, "loads", "numbers, in one dimension");
}
Column<std::uint8_t> counts_from(const py::object& values, std::string_view what) {
  return column<std::uint8_t>(values, what, "of type uint8, in one dimension");
}

auto map(const Column<double>& array) {
  return Eigen::Map<const Eigen::ArrayXd>(array.data(), array.size());
}
auto map(const Column<std::uint8_t>& array) {
  return Eigen::Map<const bw::batch::Counts>(array.data(), array.size());
}

/// Results in memory that Python owns.
template <class T>
struct Answers {
  py::array_t<T> values;
  py::array_t<std::uint8_t> faults;

  explicit Answers(py::ssize_t rows) : values(rows), faults(rows) {}

  /// Lets other Python threads run while `work(values, faults)` fills the columns.
  template <class Work>
  py::tuple filled_by(const Work& work) {
    using Values = Eigen::Array<T, Eigen::Dynamic, 1>;
    Eigen::Map<Values> to(values.mutable_data(), values.size());
    Eigen::Map<bw::batch::Faults> why(reinterpret_cast<bw::batch::Fault*>(faults.mutable_data()),
                                      faults.size());
    {
      const py::gil_scoped_release released;
      work(to, why);
    }
    return py::make_tuple(values, faults);
  }
};

/// One of the two functions from a load or max and a set to another load or max.
template <class Function>
py::tuple loads_by_sets(const bw::CurveLattice& curve, const py::object& kg, const py::object& reps,
                        const py::object& half_reps_left, const Function& function) {
  const auto loads = loads_from(kg);
  const auto done = counts_from(reps, "reps");
  const auto left = counts_from(half_reps_left, "half reps left");
  return Answers<double>(loads.size()).filled_by([&](auto& to, auto& why) {
    function(curve, map(loads), map(done), map(left), to, why);
  });
}

}  // namespace

PYBIND11_MODULE(barwright, m) {
  m.doc() =
      "Strength-training computations. ask() is the planner. Calculations, not advice for one "
      "body: "
      "print the cautions beside a load.";
  m.attr("__version__") = std::to_string(BARWRIGHT_VERSION_MAJOR) + "." +
                          std::to_string(BARWRIGHT_VERSION_MINOR) + "." +
                          std::to_string(BARWRIGHT_VERSION_PATCH);
  py::register_exception_translator([](std::exception_ptr thrown) {
    try {
      std::rethrow_exception(thrown);
    } catch (const bw::DomainError& error) {
      // Whatever stands in the message, the caller gets a message.
      const py::object text = py::reinterpret_steal<py::object>(PyUnicode_DecodeUTF8(
          error.what(), static_cast<Py_ssize_t>(std::strlen(error.what())), "replace"));
      PyErr_SetObject(PyExc_ValueError, text.ptr());
    }
  });

  m.def("one_rep_max", &one_rep_max, "load_kg"_a, "reps"_a, "reserve"_a = 0.0,
        "equation"_a = "Wathen");

  m.def("answer", &answer, "request"_a);
  m.def("ask", &ask, "request"_a);

  value_class<bw::Loading>(m, "Loading")
      .def_property_readonly("total_kg",
                             [](const bw::Loading& loading) { return loading.total().kg(); })
      .def_property_readonly("plates_kg",
                             [](const bw::Loading& loading) {
                               std::vector<double> plates;
                               for (const bw::MarkedMass plate : loading.plates()) {
                                 plates.push_back(plate.mass().kg());
                               }
                               return plates;
                             })
      .def("__str__", [](const bw::Loading& loading) { return to_text(loading).str(); });

  value_class<bw::Room>(m, "Room")
      .def(py::init([](std::string_view text) { return bw::parse_room(text); }), "text"_a)
      .def(
          "at_most",
          [](const bw::Room& room, double kg) { return room.at_most(bw::Mass::from_kg(kg)); },
          "load_kg"_a)
      .def(
          "at_least",
          [](const bw::Room& room, double kg) { return room.at_least(bw::Mass::from_kg(kg)); },
          "load_kg"_a)
      .def(
          "nearest",
          [](const bw::Room& room, double kg) { return room.nearest(bw::Mass::from_kg(kg)); },
          "load_kg"_a);

  py::list faults;
  for (int i = 0; i <= static_cast<int>(bw::batch::Fault::plates); ++i) {
    faults.append(to_text(static_cast<bw::batch::Fault>(i)));
  }
  m.attr("FAULTS") = py::tuple(faults);
  value_class<bw::CurveLattice>(m, "CurveLattice")
      .def(py::init([](std::string_view equation) {
             return bw::CurveLattice(bw::parse_curve(equation));
           }),
           "equation"_a)
      .def(
          "one_rep_max",
          [](const bw::CurveLattice& curve, const py::object& loads_kg, const py::object& reps,
             const py::object& half_reps_left) {
            return loads_by_sets(curve, loads_kg, reps, half_reps_left,
                                 [](const auto& lattice, const auto& kg, const auto& done,
                                    const auto& left, auto& maxes, auto& why) {
                                   bw::batch::one_rep_max(lattice, kg, done, left, maxes, why);
                                 });
          },
          "loads_kg"_a, "reps"_a, "half_reps_left"_a)
      .def(
          "load_for",
          [](const bw::CurveLattice& curve, const py::object& maxes_kg, const py::object& reps,
             const py::object& half_reps_left) {
            return loads_by_sets(curve, maxes_kg, reps, half_reps_left,
                                 [](const auto& lattice, const auto& kg, const auto& done,
                                    const auto& left, auto& loads, auto& why) {
                                   bw::batch::load_for(lattice, kg, done, left, loads, why);
                                 });
          },
          "maxes_kg"_a, "reps"_a, "half_reps_left"_a)
      .def(
          "half_reps_left",
          [](const bw::CurveLattice& curve, const py::object& maxes_kg, const py::object& loads_kg,
             const py::object& reps) {
            const auto maxes = loads_from(maxes_kg);
            const auto loads = loads_from(loads_kg);
            const auto done = counts_from(reps, "reps");
            return Answers<std::int16_t>(maxes.size()).filled_by([&](auto& left, auto& why) {
              bw::batch::half_reps_left(curve, map(maxes), map(loads), map(done), left, why);
            });
          },
          "maxes_kg"_a, "loads_kg"_a, "reps"_a);
}
