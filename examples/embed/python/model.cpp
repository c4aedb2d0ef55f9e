// examples/embed/python/model.cpp - the strength model for Python
// SPDX-License-Identifier: BSL-1.0
#include "model.hpp"

#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <optional>
#include <string_view>
#include <vector>

#include "barwright/learn/strength_model.hpp"
#include "by_name.hpp"

namespace py = pybind11;
namespace bw = barwright;
using namespace py::literals;

namespace {

constexpr const char* load_for_doc =
    "It knows no introduction to a new lift, no layoff, no limit on the step from the last session "
    "and no stop: a lift never done, or not done for months, gets the load of one in full "
    "training. "
    "An estimate for a planner to start from, and no load to show a lifter.";

/// From a datetime.date.
bw::Date date_from(const py::object& date) {
  return bw::Date(date.attr("year").cast<int>(), date.attr("month").cast<int>(),
                  date.attr("day").cast<int>());
}

void add_set(bw::StrengthModel& model, const bw::Lift& lift, const py::object& date, double load_kg,
             int reps, std::optional<double> reserve, bool missed) {
  bw::LoggedSet set{.date = date_from(date),
                    .lift = lift,
                    .load = bw::Mass::from_kg(load_kg),
                    .reps = bw::Reps(reps),
                    .outcome = missed ? bw::Outcome::missed : bw::Outcome::completed};
  if (reserve) set.reserve = bw::Range<bw::RepsInReserve>::exactly(bw::RepsInReserve(*reserve));
  model.add(set);
}

}  // namespace

void add_model(py::module_& m) {
  value_class<bw::BoundedLoad>(m, "BoundedLoad")
      .def_property_readonly("load_kg",
                             [](const bw::BoundedLoad& bounded) { return bounded.load.kg(); })
      .def_readonly("chance_of_missing", &bw::BoundedLoad::chance_of_missing)
      .def_readonly("is_bounded", &bw::BoundedLoad::is_bounded);

  value_class<bw::StrengthFit>(m, "StrengthFit")
      .def(
          "max",
          [](const bw::StrengthFit& fit, const bw::Lift& lift, const py::object& date,
             double level) { return in_kg(fit.max(lift, date_from(date)).interval(level)); },
          "lift"_a, "date"_a, "level"_a = 0.90)
      .def(
          "ratio",
          [](const bw::StrengthFit& fit, const bw::Lift& lift, double level) {
            return fit.ratio(lift).interval(level);
          },
          "lift"_a, "level"_a = 0.90)
      .def(
          "trend",
          [](const bw::StrengthFit& fit, double level) { return fit.trend().interval(level); },
          "level"_a = 0.90)
      .def(
          "chance_of_missing",
          [](const bw::StrengthFit& fit, const bw::Lift& lift, double load_kg, int reps,
             const py::object& date, int earlier_sets) {
            return fit.chance_of_missing(lift, bw::Mass::from_kg(load_kg), bw::Reps(reps),
                                         date_from(date), earlier_sets);
          },
          "lift"_a, "load_kg"_a, "reps"_a, "date"_a, "earlier_sets"_a = 0)
      .def(
          "load_for",
          [](const bw::StrengthFit& fit, const bw::Lift& lift, int reps, double reserve,
             const py::object& date, double max_chance_of_missing, int earlier_sets) {
            return fit.load_for(
                lift, bw::Reps(reps), bw::RepsInReserve(reserve), date_from(date),
                {.max_chance_of_missing = max_chance_of_missing, .earlier_sets = earlier_sets});
          },
          load_for_doc, "lift"_a, "reps"_a, "reserve"_a, "date"_a, "max_chance_of_missing"_a = 0.05,
          "earlier_sets"_a = 0)
      .def_property_readonly("suspicious_sets", [](const bw::StrengthFit& fit) {
        std::vector<std::size_t> places;
        for (std::size_t i = 0; i < fit.reports().size(); ++i) {
          if (fit.reports()[i].use == bw::SetReport::Use::suspicious) places.push_back(i);
        }
        return places;
      });

  value_class<bw::StrengthModel>(m, "StrengthModel")
      .def(py::init([](const bw::Lift& lift, std::string_view equation) {
             return bw::StrengthModel(
                 {.reference = lift,
                  .curve = by_name::with_equation(
                      equation, [](const auto& curve) { return bw::CurveTable(curve); })});
           }),
           "lift"_a, "equation"_a = "Wathen")
      .def("add", &add_set, "lift"_a, "date"_a, "load_kg"_a, "reps"_a, "reserve"_a = py::none(),
           "missed"_a = false)
      .def("__len__", [](const bw::StrengthModel& model) { return model.sets().size(); })
      .def("fit", &bw::StrengthModel::fit, py::call_guard<py::gil_scoped_release>());
}
