// barwright/curves/any_curve.hpp - a published curve chosen at run time, by its name
//
// The library's curves are types of their own, so that each compiles to its bare formula. A program
// that lets its user choose one holds an AnyCurve, a RepCurve like the others.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/text.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/curves/rep_table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Any of the library's published curves: an equation or a handbook's chart. It refers to the
/// curve, which must outlive it, as a constant of the library does.
class AnyCurve {
 public:
  /// Refers to a curve and to what is known of it.
  template <class C>
  constexpr AnyCurve(const C& curve, const EquationFacts& facts) noexcept
      : curve_(&curve), facts_(&facts), functions_(&functions_of<C>) {}
  template <class C>
  AnyCurve(const C&& curve, const EquationFacts& facts) = delete;  // it would not live on

  [[nodiscard]] double fraction(double reps) const { return functions_->fraction(curve_, reps); }
  [[nodiscard]] double reps(double share) const { return functions_->reps(curve_, share); }
  [[nodiscard]] double slope(double reps) const { return functions_->slope(curve_, reps); }
  [[nodiscard]] RepRange defined() const noexcept { return functions_->defined(curve_); }
  [[nodiscard]] RepRange studied() const noexcept { return facts().studied; }
  /// Name, range and source.
  [[nodiscard]] constexpr const EquationFacts& facts() const noexcept { return *facts_; }

 private:
  // Not a std::variant of all forms: that made this header three times as slow to compile.
  struct Functions {
    double (*fraction)(const void* curve, double reps);
    double (*reps)(const void* curve, double share);
    double (*slope)(const void* curve, double reps);
    RepRange (*defined)(const void* curve);
  };
  template <class C>
  static constexpr Functions functions_of{
      [](const void* curve, double reps) { return static_cast<const C*>(curve)->fraction(reps); },
      [](const void* curve, double share) { return static_cast<const C*>(curve)->reps(share); },
      [](const void* curve, double reps) { return static_cast<const C*>(curve)->slope(reps); },
      [](const void* curve) { return static_cast<const C*>(curve)->defined(); }};

  const void* curve_;
  const EquationFacts* facts_;
  const Functions* functions_;
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
      const char c = lower_case(text.front());
      text.remove_prefix(1);
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
    (whole ? exact : begun).emplace(curve, facts);
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
