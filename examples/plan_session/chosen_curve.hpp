// examples/plan_session/chosen_curve.hpp - one of the published curves, chosen by name at run time
//
// The library's curves are types of their own, so that each compiles to its bare formula. A program
// that lets its user choose one holds them in a variant; that is a RepCurve like the others.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "barwright/barwright.hpp"
#include "squad_log.hpp"

namespace plan_session {

namespace bw = barwright;

class ChosenCurve {
 public:
  using Form = std::variant<bw::LinearMultiplier, bw::LinearShare, bw::PowerShare,
                            bw::ExponentialShare, bw::CubicMultiplier>;

  explicit ChosenCurve(const Form& form) : form_(form) {}

  [[nodiscard]] double fraction(double reps) const {
    return std::visit([&](const auto& curve) { return curve.fraction(reps); }, form_);
  }
  [[nodiscard]] double reps(double share) const {
    return std::visit([&](const auto& curve) { return curve.reps(share); }, form_);
  }
  [[nodiscard]] double slope(double reps) const {
    return std::visit([&](const auto& curve) { return curve.slope(reps); }, form_);
  }
  [[nodiscard]] bw::RepRange defined() const noexcept {
    return std::visit([](const auto& curve) { return curve.defined(); }, form_);
  }
  [[nodiscard]] bw::RepRange studied() const noexcept { return facts().studied; }
  [[nodiscard]] const bw::EquationFacts& facts() const noexcept {
    return std::visit(
        [](const auto& curve) -> const auto& { return curve.facts; }, form_);
  }

 private:
  Form form_;
};
static_assert(bw::RepCurve<ChosenCurve>);

/// The published curve of this name, or the names that there are.
inline squad_log::Parsed<ChosenCurve> find_curve(std::string_view name) {
  squad_log::Parsed<ChosenCurve> found;
  std::vector<std::string> names;
  bw::equations::for_each([&](const auto& equation) {
    names.emplace_back(equation.facts.name);
    if (squad_log::plain(name) == squad_log::plain(equation.facts.name)) {
      found.value = ChosenCurve(equation);
    }
  });
  if (!found.value) {
    found.problem =
        "no curve is called \"" + std::string(name) + "\"; there are: " + squad_log::one_of(names);
  }
  return found;
}

}  // namespace plan_session
