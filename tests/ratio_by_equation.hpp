// tests/ratio_by_equation.hpp - the ratio of a variation set by set, without a model
//
// What is done by hand: one equation turns each rated or missed set into a max, and the ratio is
// the mean over the variation's sets by that over the reference lift's. For the tests and for
// bench/ratio_comparison.cpp.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <optional>
#include <span>

#include "barwright/log/logged_set.hpp"

namespace barwright_test {

/// The logarithm of the ratio of `lift` to `reference`; nothing while either has no usable set.
template <barwright::RepCurve C>
[[nodiscard]] std::optional<double> log_ratio_by_equation(const C& curve,
                                                          std::span<const barwright::LoggedSet> log,
                                                          const barwright::Lift& lift,
                                                          const barwright::Lift& reference) {
  double sum[2] = {};
  int count[2] = {};
  for (const barwright::LoggedSet& set : log) {
    const bool is_reference = set.lift.same_as(reference);
    if (!is_reference && !set.lift.same_as(lift)) continue;
    const auto max = one_rep_max(curve, set);
    if (!max) continue;
    sum[is_reference ? 1 : 0] += std::log(max->kg());
    ++count[is_reference ? 1 : 0];
  }
  if (count[0] == 0 || count[1] == 0) return std::nullopt;
  return sum[0] / count[0] - sum[1] / count[1];
}

}  // namespace barwright_test
