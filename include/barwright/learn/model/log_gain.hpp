// barwright/learn/model/log_gain.hpp - how much a max changed between two days of a log
//
// What is common to both days, an old error of the ratio or of the stretch, cancels: a further
// state of the filter takes the difference as it runs through the log.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/model/learn_set.hpp"
#include "barwright/learn/model/log_fit.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/lifts/lift.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// From the first session on or after `from` to the last on or before `to`; nothing when those are
/// not two.
[[nodiscard]] inline std::optional<Change> log_gain(const LogFit& fit, const Lift& lift, Date from,
                                                    Date to) {
  if (fit.is_of_last_day) return std::nullopt;
  const LogModel& model = fit.model;
  const std::vector<Date>& dates = model.log.dates;
  const LogFit::Question question = fit.ask(lift);
  const auto begin = std::lower_bound(dates.begin(), dates.end(), from);
  const auto end = std::upper_bound(dates.begin(), dates.end(), to);
  if (end - begin < 2) return std::nullopt;
  const auto first = static_cast<std::size_t>(begin - dates.begin());
  const auto last = static_cast<std::size_t>(end - dates.begin()) - 1;
  // A further state takes the difference: less the capacity on the first day, plus that on the
  // last.
  const Index difference = model.state_count();
  const auto filtered = [&](const Vector& shapes) {
    KalmanFilter filter = model.prior_filter(1);
    run_log(model, filter, shapes, [&](KalmanFilter& f, std::size_t session) {
      if (session != first && session != last) return;
      const double sign = session == first ? -1.0 : 1.0;
      f.add_multiple(difference, level_state, sign);
      for (const Term& term : question.ratio) f.add_multiple(difference, term.state, sign);
    });
    return filter.combination({{difference, 1.0}});
  };
  const MeanAndVariance given = filtered(fit.shapes.mean);
  Vector lean(model.shape_count());
  for (Index j = 0; j < model.shape_count(); ++j) {
    const double h = 0.5 * std::sqrt(fit.shapes.covariance(j, j));
    Vector moved = fit.shapes.mean;
    moved[j] += h;
    lean[j] = filtered(moved).mean;
    moved[j] -= 2.0 * h;
    lean[j] = (lean[j] - filtered(moved).mean) / (2.0 * h);
  }
  return Change(given.mean,
                std::sqrt(given.variance + lean.dot((fit.shapes.covariance * lean).eval())));
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
