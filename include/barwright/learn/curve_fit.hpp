// barwright/learn/curve_fit.hpp - a lifter's own rep curve, from sets to failure
//
// Lifters differ: at 70 % of the max one does 8 reps, another 25 (Cooke et al. 2019: 6 to 26 in the
// squat; abstract read). A lifter who has taken sets to failure at several loads within a few days
// can have a curve, and a max, of their own. Three forms, of which the line and the exponential
// with two parameters give the most similar curves when the same lifters are tested again (Mitter
// et al. 2022; abstract read, authors and year from memory); the critical-load form has three, and
// asks for more and better spread sets.
//
// The load of a set is chosen, its reps are noisy, so reps are regressed on load: the line and the
// exponential are then linear least squares, and the critical-load form nonlinear
// (least_squares.hpp). Standard errors are those of least squares, carried to the max by the delta
// method. Where the data cannot support a curve the answer is a reason instead.
//
// A curve speaks of the days it was measured on, one lift, and the loads between its lightest and
// heaviest set; beyond, it extrapolates. Sets to failure cost more recovery than others and want
// spotters or safety bars: plan them with a coach, not to feed an equation.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/text.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/curves/forms.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One set taken to failure: as many whole reps as would go up.
struct SetToFailure {
  Mass load;
  Reps reps;
  /// In proportion to 1 / variance of the reps. Tested twice, a lifter differs by a standard
  /// error of 1.1 reps at 70 % of the max and 0.7 at 90 % (Mitter et al. 2022; abstract
  /// read), so that 1 for light and 2.5 for heavy sets is fair; equal weights lose little.
  double weight = 1.0;
};

/// The sets of a log that ended in failure on `lift`, from `first` to `last`: completed with none
/// left, or missed on the last rep. Of one that may have been missed nobody knows after how many
/// reps, so it is left out until somebody says. `log` is any range of LoggedSet.
template <class Log>
[[nodiscard]] std::vector<SetToFailure> sets_to_failure(const Log& log, const Lift& lift,
                                                        Date first, Date last) {
  std::vector<SetToFailure> result;
  for (const LoggedSet& set : log) {
    if (!set.lift.same_as(lift) || set.date < first || last < set.date) continue;
    if (set.may_be_missed) continue;
    const bool missed = set.outcome == Outcome::missed;
    const bool none_left = set.reserve && set.reserve->high == RepsInReserve{};
    const int done = reps_made(set);
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

/// A rep curve fitted to sets to failure.
template <RepCurve C>
struct CurveFit {
  C curve;     ///< exactly the max at one rep
  Mass max{};  ///< the load of one rep
  Mass max_standard_error{};
  double residual_standard_deviation = 0;  ///< reps, of a set of weight 1
  int degrees_of_freedom = 0;              ///< sets less parameters

  /// The max with its uncertainty at this level (0.9: in nine of ten such fits the true load of one
  /// rep is inside): Student's t on the logarithm, so that the low end stays above zero. It
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

/// The line: reps fall in proportion to the load, reps = 1 + k (1 - load / max).
///
/// @param sets  of one lift and a few days: at least 3, at 2 loads
/// @returns the curve, or the reason why the sets do not support one: too few sets or loads,
///          reps that do not clearly fall with the load, a max too uncertain to use. The
///          curve ends where it reaches 5 % of the max.
/// @throws DomainError for a load of 0, or a weight that is not above 0.
[[nodiscard]] Supported<CurveFit<LinearShare>> fit_line(std::span<const SetToFailure> sets);

/// The exponential with two parameters: load = max exp(-(reps - 1) / k).
///
/// Parameters, refusals and errors as for `fit_line`.
[[nodiscard]] Supported<CurveFit<ExponentialShare>> fit_exponential(
    std::span<const SetToFailure> sets);

/// The critical-load form: reps = capacity / (load - critical) - a constant; see CriticalLoad.
///
/// Three parameters from noisy whole numbers: expect it to be refused unless the sets run from a
/// few to twenty or more reps. As for `fit_line`, with at least 4 sets at 3 loads; refused
/// also when no critical load above zero fits best, or when the reps do not run out at some
/// load.
[[nodiscard]] Supported<CurveFit<Anchored<CriticalLoad>>> fit_critical_load(
    std::span<const SetToFailure> sets);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/learn/curve_fit.ipp"
#endif
