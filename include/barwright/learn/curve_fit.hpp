// barwright/learn/curve_fit.hpp - a lifter's own repetition curve, from sets to failure
//
// Lifters differ: at 70 % of the max one does 8 repetitions, another 25 (Cooke et al. 2019: 6 to 26
// in the squat; abstract read). Who has taken sets to failure at several loads within a few days
// can have a curve, and a max, of their own. Three forms, of which the line and the exponential
// with two parameters give the most similar curves when the same lifters are tested again (Mitter
// et al. 2022; abstract read, authors and year recalled); the critical-load form has three, and
// asks for more and better spread sets.
//
// The load of a set is chosen, its repetitions are noisy, so repetitions are regressed on load: the
// line and the exponential are then linear least squares, and the critical-load form nonlinear
// (least_squares.hpp). Standard errors are those of least squares, carried to the max by the delta
// method. Where the data cannot support a curve the answer is a reason in place of numbers.
//
// A curve speaks of the days it was measured on, one lift, and the loads between its lightest and
// heaviest set; beyond, it extrapolates. Sets to failure cost more recovery than others and want
// spotters or safety bars: plan them with a coach, not to feed an equation.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/learn/least_squares.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One set taken to failure: as many whole repetitions as would go up.
struct SetToFailure {
  Mass load;
  Reps reps;
  /// In proportion to 1 / variance of the repetitions. Tested twice, a lifter differs by a standard
  /// error of 1.1 repetitions at 70 % of the max and 0.7 at 90 % (Mitter et al. 2022; abstract
  /// read), so that 1 for light and 2.5 for heavy sets is fair; equal weights lose little.
  double weight = 1.0;
};

/// The sets of a log that ended in failure on `lift`, from `first` to `last`: completed with none
/// left, or missed on the last repetition. `log` is any range of LoggedSet.
template <class Log>
[[nodiscard]] std::vector<SetToFailure> sets_to_failure(const Log& log, const Lift& lift,
                                                        Date first, Date last) {
  std::vector<SetToFailure> result;
  for (const LoggedSet& set : log) {
    if (!set.lift.same_as(lift) || set.date < first || last < set.date) continue;
    const bool missed = set.outcome == Outcome::missed;
    const bool none_left = set.reserve && set.reserve->high == RepsInReserve{};
    const int done = set.reps.count() - (missed ? 1 : 0);
    if ((missed || none_left) && Reps::is_valid(done) && set.load > Mass{}) {
      result.push_back({set.load, Reps(done)});
    }
  }
  return result;
}

/// A value, or the reason why the data do not support one.
template <class T>
class Supported {
 public:
  /// What the data support.
  Supported(T value) : value_(std::move(value)) {}
  [[nodiscard]] static Supported refused(const Text& reason) { return Supported(reason); }

  /// Whether there is a value.
  [[nodiscard]] explicit operator bool() const noexcept { return value_.has_value(); }
  [[nodiscard]] bool has_value() const noexcept { return value_.has_value(); }
  /// Why there is no value: one sentence that says what would be needed. Empty when there is one.
  [[nodiscard]] std::string_view reason() const noexcept { return reason_.view(); }
  /// @throws DomainError with `reason` when there is no value.
  [[nodiscard]] const T& value() const {
    if (!value_) detail::raise(DomainError(ErrorCode::no_answer, reason_.view()));
    return *value_;
  }
  [[nodiscard]] const T& operator*() const { return value(); }
  [[nodiscard]] const T* operator->() const { return &value(); }

 private:
  explicit Supported(const Text& reason) : reason_(reason) {}

  std::optional<T> value_;
  Text reason_;
};

/// A repetition curve fitted to sets to failure.
template <RepCurve C>
struct CurveFit {
  C curve;     ///< exactly the max at one repetition
  Mass max{};  ///< the load of one repetition
  Mass max_standard_error{};
  double residual_standard_deviation = 0;  ///< repetitions, of a set of weight 1
  int degrees_of_freedom = 0;              ///< sets less parameters

  /// The max with its uncertainty at this level (0.9: in nine of ten such fits the true load of one
  /// repetition is inside): Student's t on the logarithm, so that the low end stays above zero. It
  /// covers the scatter of the sets, not a wrong form, another day or another lift.
  [[nodiscard]] Range<Mass> max_interval(double level = 0.9) const {
    if (!(level > 0 && level < 1)) {
      detail::fail("the level of an interval", "between 0 and 1, both excluded", level);
    }
    const double factor = std::exp(student_t_quantile(0.5 + 0.5 * level, degrees_of_freedom) *
                                   (max_standard_error / max));
    return {max / factor, max, max * factor};
  }
};

namespace detail {

/// The relative standard error of a max above which a fit is refused: an assumption of this
/// library.
inline constexpr double largest_error_of_max = 0.20;

[[nodiscard]] constexpr Source personal_source() noexcept {
  return {.citation = "fitted to this lifter's own sets to failure",
          .population = "one lifter, one lift",
          .evidence = Evidence::assumption,
          .reading = Reading::not_applicable,
          .note = "holds for the days and the range of repetitions of those sets"};
}

/// The sets as columns, checked.
struct FailureColumns {
  Eigen::VectorXd load;  // kg
  Eigen::VectorXd reps;
  Eigen::VectorXd weight;
  RepRange studied;
  int different_loads = 0;
};

// As in least_squares.hpp, `Real` and `Scalar` are always double.
template <class Sets, class Real = double>
[[nodiscard]] FailureColumns failure_columns(const Sets& sets) {
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
  const Eigen::Map<const Eigen::Matrix<Real, 3, Eigen::Dynamic>> table(numbers.data(), 3, n);
  columns.load = table.row(0);
  columns.reps = table.row(1);
  columns.weight = table.row(2);
  if (n > 0) columns.studied = {table.row(1).minCoeff(), table.row(1).maxCoeff()};
  std::sort(loads.begin(), loads.end());
  columns.different_loads =
      static_cast<int>(std::unique(loads.begin(), loads.end()) - loads.begin());
  return columns;
}

[[nodiscard]] inline Text unsupported(std::string_view what, std::string_view needed, double got) {
  return Text{}
      .append(what)
      .append(" must be ")
      .append(needed)
      .append("; got ")
      .append_rounded(got, 3);
}

/// Whether there is enough to fit `parameters` of them; empty when there is.
[[nodiscard]] inline Text too_few(const FailureColumns& columns, int parameters) {
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

/// Repetitions on x, a rising function of the load; nothing when they do not clearly fall: then no
/// max would follow from them, as the interval of the load for one repetition has no upper end
/// (Fieller's condition, at 95 % one-sided).
struct FallingLine {
  LeastSquares fit;
  double intercept;
  double slope;
};
template <class Scalar>
[[nodiscard]] std::optional<FallingLine> falling_line(
    const FailureColumns& columns, const Eigen::Matrix<Scalar, Eigen::Dynamic, 1>& x) {
  using Vector = Eigen::Matrix<Scalar, Eigen::Dynamic, 1>;
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  const Vector& weight = columns.weight;
  const Vector root = weight.cwiseSqrt();
  Matrix weighted_design(x.size(), 2);
  weighted_design << root, root.cwiseProduct(x);
  const Vector weighted_reps = root.cwiseProduct(columns.reps);
  auto fit = solve_least_squares<Scalar>(weighted_design, weighted_reps);
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
template <class Scalar, int N>
[[nodiscard]] double standard_error_along(const Scalar (&gradient)[N], const LeastSquares& fit) {
  const Eigen::Matrix<Scalar, N, 1> along(gradient);
  return std::sqrt(along.dot(fit.covariance() * along));
}

[[nodiscard]] inline Text not_falling() {
  return Text{}.append(
      "repetitions must be clearly fewer at heavier loads; got no such fall beyond the scatter of "
      "the sets (spread the loads wider or add sets, and look for typing errors)");
}

/// A curve steeper than this is no repetition curve: mixed lifts, or loads in mixed units.
[[nodiscard]] inline Text too_steep(double reps_at_half) {
  return unsupported("the repetitions at half the max", "2 or more (look for typing errors)",
                     reps_at_half);
}

[[nodiscard]] inline Text no_max() {
  return Text{}.append(
      "the repetitions must run out at some load; got a curve on which the heaviest can still be "
      "lifted (add heavier sets, or use a curve with two parameters)");
}

[[nodiscard]] inline Text no_critical_load() {
  return Text{}.append(
      "the critical load must be above 0 kg and below the lightest set; got none that these sets "
      "support (add lighter sets, or use a curve with two parameters)");
}

[[nodiscard]] inline Text max_too_heavy(double kg) {
  return unsupported("the max that follows from the sets",
                     "at most 1000000 kg (look for typing errors)", kg);
}

[[nodiscard]] inline Text max_too_uncertain(double relative_error) {
  return unsupported("the standard error of the max",
                     "20 % or less (add sets at loads nearer the max), as a percentage",
                     100 * relative_error);
}

}  // namespace detail

/// The line: repetitions fall in proportion to the load, reps = 1 + k (1 - load / max).
///
/// @param sets  any range of SetToFailure, of one lift and a few days: at least 3, at 2 loads
/// @returns the curve, or the reason why the sets do not support one: too few sets or loads,
///          repetitions that do not clearly fall with the load, a max too uncertain to use. The
///          curve ends where it reaches 5 % of the max.
/// @throws DomainError for a load of 0, or a weight that is not above 0.
template <class Sets>
[[nodiscard]] Supported<CurveFit<LinearShare>> fit_line(const Sets& sets) {
  using Result = Supported<CurveFit<LinearShare>>;
  const auto columns = detail::failure_columns(sets);
  if (const Text few = detail::too_few(columns, 2); !few.view().empty())
    return Result::refused(few);
  const auto line = detail::falling_line<double>(columns, columns.load);
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

/// The exponential with two parameters: load = max exp(-(reps - 1) / k).
///
/// Parameters, refusals and errors as for `fit_line`.
template <class Sets>
[[nodiscard]] Supported<CurveFit<ExponentialShare>> fit_exponential(const Sets& sets) {
  using Result = Supported<CurveFit<ExponentialShare>>;
  const auto columns = detail::failure_columns(sets);
  if (const Text few = detail::too_few(columns, 2); !few.view().empty())
    return Result::refused(few);
  const Eigen::VectorXd log_load = columns.load.array().log();
  const auto line = detail::falling_line<double>(columns, log_load);
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

/// The critical-load form: reps = capacity / (load - critical) - a constant; see CriticalLoad.
///
/// Three parameters from noisy whole numbers: expect it to be refused unless the sets run from a
/// few to twenty or more repetitions. As for `fit_line`, with at least 4 sets at 3 loads; refused
/// also when no critical load above zero fits best, or when the repetitions do not run out at some
/// load.
template <class Sets>
[[nodiscard]] Supported<CurveFit<Anchored<CriticalLoad>>> fit_critical_load(const Sets& sets) {
  using Result = Supported<CurveFit<Anchored<CriticalLoad>>>;
  const auto columns = detail::failure_columns(sets);
  if (const Text few = detail::too_few(columns, 3); !few.view().empty())
    return Result::refused(few);
  if (!detail::falling_line<double>(columns, columns.load)) {
    return Result::refused(detail::not_falling());
  }

  // In units of the lightest load. Given the critical load c the rest is a straight line in
  // 1 / (load - c): that gives a start, the best of a few values of c.
  using Vector = decltype(columns.load);
  using Matrix = Eigen::Matrix<typename Vector::Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  const double unit = columns.load.minCoeff();
  const Vector load = columns.load / unit;
  const Vector root = columns.weight.cwiseSqrt();
  const auto n = static_cast<int>(load.size());
  const Vector weighted_reps = root.cwiseProduct(columns.reps);
  double best = std::numeric_limits<double>::infinity();
  Vector start(3);
  for (int step = 1; step < 20; ++step) {
    const double c = 0.05 * step;
    Matrix design(n, 2);
    design << root.cwiseQuotient((load.array() - c).matrix()), root;
    const auto line = detail::solve_least_squares<double>(design, weighted_reps);
    if (!line || !(line->coefficients[0] > 0) || !(line->residual_sum_of_squares < best)) continue;
    best = line->residual_sum_of_squares;
    start << std::log(line->coefficients[0]), std::log(c / (1 - c)), line->coefficients[1];
  }
  if (best == std::numeric_limits<double>::infinity())
    return Result::refused(detail::no_critical_load());

  // The capacity as exp(a) and c as a logistic keep both where they make sense.
  const auto settled = nonlinear_least_squares(
      [&](const Vector& x, Vector& r, Matrix& jacobian) {
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
