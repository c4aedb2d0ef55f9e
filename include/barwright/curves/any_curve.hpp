// barwright/curves/any_curve.hpp - a published curve chosen at run time, by its name
//
// The library's curves are types of their own, so that each compiles to its bare formula. A program
// that lets its user choose one holds an AnyCurve, a RepCurve like the others.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <variant>

#include "barwright/core/error.hpp"
#include "barwright/core/text.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/curves/forms.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/curves/rep_table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

template <class Curve>
[[nodiscard]] constexpr const EquationFacts& facts_of(const Curve& curve) noexcept {
  return curve.facts;
}
template <std::size_t N>
[[nodiscard]] constexpr const EquationFacts& facts_of(const RepTable<N>& table) noexcept {
  return table.facts();
}

}  // namespace detail

/// Any of the library's published curves: an equation or a handbook's chart.
class AnyCurve {
 public:
  /// The forms that published curves have.
  using Form = std::variant<LinearMultiplier, LinearShare, PowerShare, ExponentialShare,
                            CubicMultiplier, RepTable<11>, RepTable<13>>;

  /// One of the forms.
  explicit AnyCurve(const Form& form) : form_(form) {}

  [[nodiscard]] double fraction(double reps) const {
    return std::visit([&](const auto& curve) { return curve.fraction(reps); }, form_);
  }
  [[nodiscard]] double reps(double share) const {
    return std::visit([&](const auto& curve) { return curve.reps(share); }, form_);
  }
  [[nodiscard]] double slope(double reps) const {
    return std::visit([&](const auto& curve) { return curve.slope(reps); }, form_);
  }
  [[nodiscard]] RepRange defined() const noexcept {
    return std::visit([](const auto& curve) { return curve.defined(); }, form_);
  }
  [[nodiscard]] RepRange studied() const noexcept { return facts().studied; }
  /// Name, range and source.
  [[nodiscard]] const EquationFacts& facts() const noexcept {
    return std::visit(
        [](const auto& curve) -> const EquationFacts& { return detail::facts_of(curve); }, form_);
  }

 private:
  Form form_;
};
static_assert(RepCurve<AnyCurve>);

/// Calls `visit(curve, facts)` with each curve that has a name: the equations, then the charts.
template <class Visit>
constexpr void for_each_named_curve(Visit&& visit) {
  equations::for_each([&](const auto& equation) { visit(equation, equation.facts); });
  visit(rep_tables::nsca_chart, rep_tables::nsca_chart.facts());
  visit(rep_tables::baechle_earle, rep_tables::baechle_earle.facts());
}

namespace detail {

/// Whether `name` starts with `typed`; case, blanks and signs do not count.
/// @param whole  set where all of the name was typed
[[nodiscard]] constexpr bool starts_curve_name(std::string_view name, std::string_view typed,
                                               bool& whole) noexcept {
  const auto next = [](std::string_view& text) noexcept {
    while (!text.empty()) {
      char c = text.front();
      text.remove_prefix(1);
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
      if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) return c;
    }
    return '\0';
  };
  bool has_letter = false;
  while (true) {
    const char wanted = next(typed);
    const char own = next(name);
    if (wanted == '\0') {
      whole = own == '\0';
      return has_letter;
    }
    if (wanted != own) return false;
    has_letter = true;
  }
}

}  // namespace detail

/// The published curve of this name: "Wathen", "o'conner", "nsca chart". The start of a name will
/// do where only one name starts so. Case, blanks and signs do not count.
[[nodiscard]] inline std::optional<AnyCurve> find_curve(std::string_view name) {
  std::optional<AnyCurve> exact;
  std::optional<AnyCurve> begun;
  int number = 0;
  for_each_named_curve([&](const auto& curve, const EquationFacts& facts) {
    bool whole = false;
    if (!detail::starts_curve_name(facts.name, name, whole)) return;
    ++number;
    (whole ? exact : begun).emplace(AnyCurve::Form(curve));
  });
  if (exact) return exact;
  if (number == 1) return begun;
  return std::nullopt;
}

/// The names of all published curves: "Epley, Welday, ... or Baechle & Earle table".
[[nodiscard]] inline BasicText<511> curve_names() {
  BasicText<511> names;
  std::string_view last;
  for_each_named_curve([&](const auto&, const EquationFacts& facts) {
    if (!last.empty()) names.append(names.view().empty() ? "" : ", ").append(last);
    last = facts.name;
  });
  return names.append(" or ").append(last);
}

/// The same, for who cannot go on without one.
/// @throws DomainError where no curve has the name, or more than one start so.
[[nodiscard]] inline AnyCurve parse_curve(std::string_view name) {
  const std::optional<AnyCurve> curve = find_curve(name);
  if (!curve)
    detail::fail(ErrorCode::unknown_name, "a curve",
                 "one of the published ones, such as Epley or Wathen", name);
  return *curve;
}

}  // namespace barwright::inline BARWRIGHT_ABI
