// barwright/learn/curve_fit.ipp - the bodies of curve_fit.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/curves/forms.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/learn/curve_fit.hpp"
#include "barwright/learn/least_squares.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// The relative standard error of a max above which a fit is refused: an assumption of this
/// library.
inline constexpr double largest_error_of_max = 0.20;

constexpr Source personal_source() noexcept {
  return {.citation = "fitted to this lifter's own sets to failure",
          .population = "one lifter, one lift",
          .evidence = Evidence::assumption,
          .reading = Reading::not_applicable,
          .note = "holds for the days and the range of reps of those sets"};
}

/// The sets as columns, checked.
struct FailureColumns {
  Eigen::VectorXd load;  // kg
  Eigen::VectorXd reps;
  Eigen::VectorXd weight;
  RepRange studied;
  int different_loads = 0;
};

inline FailureColumns failure_columns(std::span<const SetToFailure> sets) {
  std::vector<double> loads;
  std::vector<double> numbers;
  for (const SetToFailure& set : sets) {
    if (!(set.load > Mass{})) fail("the load of a set to failure", "more than 0 kg", set.load.kg());
    if (!(set.weight > 0 && is_finite(set.weight))) {
      fail("the weight of a set to failure", "a finite number above 0", set.weight);
    }
    loads.push_back(set.load.kg());
    numbers.insert(numbers.end(), {set.load.kg(), 1.0 * set.reps.count(), set.weight});
  }
  FailureColumns columns;
  const auto n = static_cast<Eigen::Index>(loads.size());
  const Eigen::Map<const Eigen::Matrix<double, 3, Eigen::Dynamic>> table(numbers.data(), 3, n);
  columns.load = table.row(0);
  columns.reps = table.row(1);
  columns.weight = table.row(2);
  if (n > 0) columns.studied = {table.row(1).minCoeff(), table.row(1).maxCoeff()};
  std::sort(loads.begin(), loads.end());
  columns.different_loads =
      static_cast<int>(std::unique(loads.begin(), loads.end()) - loads.begin());
  return columns;
}

inline Text unsupported(std::string_view what, std::string_view needed, double got) {
  return Text{}
      .append(what)
      .append(" must be ")
      .append(needed)
      .append("; got ")
      .append_rounded(got, 3);
}

/// Whether there is enough to fit `parameters` of them; empty when there is.
inline Text too_few(const FailureColumns& columns, int parameters) {
  const auto sets = static_cast<int>(columns.load.size());
  if (columns.different_loads < parameters) {
    return unsupported("the number of different loads",
                       parameters == 2 ? "2 or more for a curve with two parameters"
                                       : "3 or more for a curve with three parameters",
                       columns.different_loads);
  }
  if (sets <= parameters) {
    return unsupported("the number of sets to failure",
                       parameters == 2 ? "3 or more, so that their scatter can be judged"
                                       : "4 or more, so that their scatter can be judged",
                       sets);
  }
  return {};
}

/// Reps on x, a rising function of the load; nothing when they do not clearly fall: then no
/// max would follow from them, as the interval of the load for one rep has no upper end
/// (Fieller's condition, at 95 % one-sided).
struct FallingLine {
  LeastSquares fit;
  double intercept;
  double slope;
};
inline std::optional<FallingLine> falling_line(const FailureColumns& columns,
                                               const Eigen::VectorXd& x) {
  const Eigen::VectorXd& weight = columns.weight;
  const Eigen::VectorXd root = weight.cwiseSqrt();
  Eigen::MatrixXd weighted_design(x.size(), 2);
  weighted_design << root, root.cwiseProduct(x);
  const Eigen::VectorXd weighted_reps = root.cwiseProduct(columns.reps);
  auto fit = solve_least_squares(weighted_design, weighted_reps);
  if (!fit) return std::nullopt;  // loads that differ by rounding only
  const double slope = fit->coefficients[1];
  const double needed = student_t_quantile(0.95, fit->degrees_of_freedom) * fit->standard_error(1);
  // Where all sets are alike, slope and error are both roundings of 0.
  const double rounding = 1e-9 / (x.maxCoeff() - x.minCoeff());
  if (!(-slope > needed + rounding)) return std::nullopt;
  const double intercept = fit->coefficients[0];
  return FallingLine{*std::move(fit), intercept, slope};
}

/// The standard error of a quantity with this gradient by a fit's coefficients (delta method).
template <int N>
double standard_error_along(const double (&gradient)[N], const LeastSquares& fit) {
  const Eigen::Matrix<double, N, 1> along(gradient);
  return std::sqrt(along.dot(fit.covariance() * along));
}

inline Text not_falling() {
  return Text{}.append(
      "reps must be clearly fewer at heavier loads; got no such fall beyond the scatter of "
      "the sets (spread the loads wider or add sets, and look for typing errors)");
}

/// A curve steeper than this is no rep curve: mixed lifts, or loads in mixed units.
inline Text too_steep(double reps_at_half) {
  return unsupported("the reps at half the max", "2 or more (look for typing errors)",
                     reps_at_half);
}

inline Text no_max() {
  return Text{}.append(
      "the reps must run out at some load; got a curve on which the heaviest can still be "
      "lifted (add heavier sets, or use a curve with two parameters)");
}

inline Text no_critical_load() {
  return Text{}.append(
      "the critical load must be above 0 kg and below the lightest set; got none that these sets "
      "support (add lighter sets, or use a curve with two parameters)");
}

inline Text max_too_heavy(double kg) {
  return unsupported("the max that follows from the sets",
                     "at most 1000000 kg (look for typing errors)", kg);
}

inline Text max_too_uncertain(double relative_error) {
  return unsupported("the standard error of the max",
                     "20 % or less (add sets at loads nearer the max), as a percentage",
                     100 * relative_error);
}

}  // namespace detail

inline Supported<CurveFit<LinearShare>> fit_line(std::span<const SetToFailure> sets) {
  using Result = Supported<CurveFit<LinearShare>>;
  const auto columns = detail::failure_columns(sets);
  if (const Text few = detail::too_few(columns, 2); !few.view().empty())
    return Result::refused(few);
  const auto line = detail::falling_line(columns, columns.load);
  if (!line) return Result::refused(detail::not_falling());

  const double max = (1 - line->intercept) / line->slope;
  const double error =
      detail::standard_error_along({1 / -line->slope, max / -line->slope}, line->fit);
  if (!(error <= detail::largest_error_of_max * max)) {
    return Result::refused(detail::max_too_uncertain(error / max));
  }
  if (!(max <= Mass::largest_kg)) return Result::refused(detail::max_too_heavy(max));
  const double k = line->intercept - 1;
  if (!(1 + 0.5 * k >= 2)) return Result::refused(detail::too_steep(1 + 0.5 * k));
  return CurveFit<LinearShare>{
      .curve = LinearShare({.at_zero = 1 + 1 / k,
                            .per_rep = 1 / k,
                            .last_rep = std::min(1 + 0.95 * k, static_cast<double>(Reps::most)),
                            .facts = {.name = "personal line",
                                      .studied = columns.studied,
                                      .source = detail::personal_source()}}),
      .max = Mass::from_kg(max),
      .max_standard_error = Mass::from_kg(error),
      .residual_standard_deviation = std::sqrt(line->fit.residual_variance()),
      .degrees_of_freedom = line->fit.degrees_of_freedom};
}

inline Supported<CurveFit<ExponentialShare>> fit_exponential(std::span<const SetToFailure> sets) {
  using Result = Supported<CurveFit<ExponentialShare>>;
  const auto columns = detail::failure_columns(sets);
  if (const Text few = detail::too_few(columns, 2); !few.view().empty())
    return Result::refused(few);
  const Eigen::VectorXd log_load = columns.load.array().log();
  const auto line = detail::falling_line(columns, log_load);
  if (!line) return Result::refused(detail::not_falling());

  const double log_max = (1 - line->intercept) / line->slope;
  const double error =
      detail::standard_error_along({1 / -line->slope, log_max / -line->slope}, line->fit);
  if (!(error <= detail::largest_error_of_max)) {
    return Result::refused(detail::max_too_uncertain(error));
  }
  const double max = std::exp(log_max);
  if (!(max <= Mass::largest_kg)) return Result::refused(detail::max_too_heavy(max));
  const double at_half = 1 - line->slope * std::log(2.0);
  if (!(at_half >= 2)) return Result::refused(detail::too_steep(at_half));
  const double rate = -1 / line->slope;
  return CurveFit<ExponentialShare>{
      .curve = ExponentialShare({.floor = 0,
                                 .span = std::exp(rate),
                                 .rate = rate,
                                 .facts = {.name = "personal exponential",
                                           .studied = columns.studied,
                                           .source = detail::personal_source()}}),
      .max = Mass::from_kg(max),
      .max_standard_error = Mass::from_kg(max * error),
      .residual_standard_deviation = std::sqrt(line->fit.residual_variance()),
      .degrees_of_freedom = line->fit.degrees_of_freedom};
}

inline Supported<CurveFit<Anchored<CriticalLoad>>> fit_critical_load(
    std::span<const SetToFailure> sets) {
  using Result = Supported<CurveFit<Anchored<CriticalLoad>>>;
  const auto columns = detail::failure_columns(sets);
  if (const Text few = detail::too_few(columns, 3); !few.view().empty())
    return Result::refused(few);
  if (!detail::falling_line(columns, columns.load)) {
    return Result::refused(detail::not_falling());
  }

  // In units of the lightest load. Given the critical load c the rest is a straight line in
  // 1 / (load - c): that gives a start, the best of a few values of c.
  const double unit = columns.load.minCoeff();
  const Eigen::VectorXd load = columns.load / unit;
  const Eigen::VectorXd root = columns.weight.cwiseSqrt();
  const auto n = static_cast<int>(load.size());
  const Eigen::VectorXd weighted_reps = root.cwiseProduct(columns.reps);
  double best = std::numeric_limits<double>::infinity();
  Eigen::VectorXd start(3);
  for (int step = 1; step < 20; ++step) {
    const double c = 0.05 * step;
    Eigen::MatrixXd design(n, 2);
    design << root.cwiseQuotient((load.array() - c).matrix()), root;
    const auto line = detail::solve_least_squares(design, weighted_reps);
    if (!line || !(line->coefficients[0] > 0) || !(line->residual_sum_of_squares < best)) continue;
    best = line->residual_sum_of_squares;
    start << std::log(line->coefficients[0]), std::log(c / (1 - c)), line->coefficients[1];
  }
  if (best == std::numeric_limits<double>::infinity())
    return Result::refused(detail::no_critical_load());

  // The capacity as exp(a) and c as a logistic keep both where they make sense.
  const auto settled = nonlinear_least_squares(
      [&](const Eigen::VectorXd& x, Eigen::VectorXd& r, Eigen::MatrixXd& jacobian) {
        const double capacity = std::exp(x[0]);
        const double c = 1 / (1 + std::exp(-x[1]));
        for (Eigen::Index i = 0; i < n; ++i) {
          const double above = load[i] - c;
          r[i] = root[i] * (capacity / above + x[2] - columns.reps[i]);
          jacobian(i, 0) = root[i] * capacity / above;
          jacobian(i, 1) = root[i] * capacity / (above * above) * c * (1 - c);
          jacobian(i, 2) = root[i];
        }
      },
      start, n);
  if (!settled) return Result::refused(detail::no_critical_load());
  const double capacity = std::exp(settled->coefficients[0]);
  const double c = 1 / (1 + std::exp(-settled->coefficients[1]));
  const double constant = settled->coefficients[2];
  if (!(c > 1e-3 && c < 1 - 1e-6)) return Result::refused(detail::no_critical_load());
  if (!(constant < 0)) return Result::refused(detail::no_max());

  const double max = c + capacity / (1 - constant);
  // By coefficient: the logarithm of the capacity, the logit of c, the constant.
  const double error = detail::standard_error_along(
      {capacity / (1 - constant), c * (1 - c), capacity / ((1 - constant) * (1 - constant))},
      *settled);
  if (!(error <= detail::largest_error_of_max * max)) {
    return Result::refused(detail::max_too_uncertain(error / max));
  }
  if (!(max * unit <= Mass::largest_kg)) return Result::refused(detail::max_too_heavy(max * unit));
  const double load_of_none = c - capacity / constant;
  if (!(c / load_of_none <= 0.99 && capacity / load_of_none >= 0.01 &&
        capacity / load_of_none <= 1000)) {
    return Result::refused(detail::no_critical_load());
  }
  const CriticalLoad form(c / load_of_none, capacity / load_of_none,
                          {.name = "personal critical load",
                           .studied = columns.studied,
                           .source = detail::personal_source()});
  return CurveFit<Anchored<CriticalLoad>>{
      .curve = anchored(form),
      .max = Mass::from_kg(max * unit),
      .max_standard_error = Mass::from_kg(error * unit),
      .residual_standard_deviation = std::sqrt(settled->residual_variance()),
      .degrees_of_freedom = settled->degrees_of_freedom};
}

}  // namespace barwright::inline BARWRIGHT_ABI
