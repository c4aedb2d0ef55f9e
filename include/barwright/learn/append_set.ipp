// barwright/learn/append_set.ipp - the body of append_set.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/learn/append_set.hpp"
#include "barwright/learn/kalman_filter.hpp"
#include "barwright/learn/model/cached_curve.hpp"
#include "barwright/learn/model/last_day.hpp"
#include "barwright/learn/model/learn_set.hpp"
#include "barwright/learn/model/log_fit.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/marks.hpp"
#include "barwright/learn/model/outliers.hpp"
#include "barwright/learn/model/staged_log.hpp"
#include "barwright/learn/strength_model.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// The states of a mark as filters, which a set can be taken into: at the shapes as they were
/// found, and a little to either side along each, which shows how the states lean on it.
class MarkFilters {
 public:
  MarkFilters(const LogModel& model, const ShapePosterior& shapes, const Mark& mark)
      : model_(&model) {
    const KalmanFilter here(mark.state.mean, mark.state.covariance);
    runs_.push_back({shapes.mean, here});
    for (Index j = 0; j < shapes.mean.size(); ++j) {
      const double h = 0.5 * std::sqrt(shapes.covariance(j, j));
      steps_.push_back(h);
      for (const double step : {h, -h}) {
        Run run{shapes.mean, here};
        run.shapes[j] += step;
        for (Index i = 0; i < mark.state.mean.size(); ++i) {
          run.filter.shift(i, step * mark.by_shape(i, j));
        }
        runs_.push_back(std::move(run));
      }
    }
  }

  /// On to a later day, of whose form nothing is known.
  void advance(Date from, Date to) {
    const StateMove move = model_->move_between(from, to);
    for (Run& run : runs_) {
      model_->advance(run.filter, move, run.steadiness());
      const double form_sd = run.steadiness() * model_->priors().day_sd;
      run.filter.renew(day_state, 0.0, form_sd * form_sd);
    }
  }

  void learn(const ModelSet& set) {
    for (Run& run : runs_) {
      const double set_sd = run.steadiness() * model_->priors().set_sd;
      run.filter.renew(set_state, 0.0, set_sd * set_sd);
      BendCache bend;
      CachedCurve curve(model_->curve_of(model_->log.lifts[set.lift], run.shapes), bend);
      (void)learn_set(*model_, run.filter, set, curve);
    }
  }

  [[nodiscard]] Mark mark(Date date) const {
    const KalmanFilter& here = runs_.front().filter;
    Mark mark{date, here.estimate(), Matrix(here.size(), static_cast<Index>(steps_.size()))};
    for (std::size_t j = 0; j < steps_.size(); ++j) {
      mark.by_shape.col(static_cast<Index>(j)) =
          (runs_[2 * j + 1].filter.mean() - runs_[2 * j + 2].filter.mean()) / (2.0 * steps_[j]);
    }
    return mark;
  }

 private:
  struct Run {
    Vector shapes;
    KalmanFilter filter;
    [[nodiscard]] double steadiness() const noexcept { return std::exp(shapes[steadiness_shape]); }
  };
  const LogModel* model_;
  std::vector<double> steps_;  // along each shape
  std::vector<Run> runs_;      // here, then up and down along each shape
};

/// Puts the log on to a later day, on which nothing has been done.
inline void begin_day(StagedLog& log, Date day) {
  for (std::size_t i = 0; i < log.lifts.size(); ++i) {
    log.lifts[i].sessions_before = log.sessions_before(i, day);
  }
  log.sets.clear();
  log.dates.resize(1, day);
  log.dates.push_back(day);
}

/// Whether so many sets have been appended that the shapes are to be found anew.
[[nodiscard]] inline bool is_to_fit_anew(const LogFit& fit) noexcept {
  constexpr int most = 20;
  constexpr int fitted_for_each = 10;
  const int fitted = static_cast<int>(fit.checksum.sets) - fit.sets_appended;
  return fit.sets_appended >= std::min(most, fitted / fitted_for_each);
}

/// A fit of the last day takes one more set. False, and the fit as it was, where it cannot.
inline bool take_set(LogFit& fit, const LoggedSet& logged) {
  LogModel& model = fit.model;
  StagedLog& log = model.log;
  SetReport report;
  if (!logged.lift.base().same_as(model.settings.reference.base())) {
    report.use = SetReport::Use::other_base_lift;
  } else if (!(logged.load > Mass{})) {
    report.use = SetReport::Use::no_load;
  } else {
    const auto lift = std::find_if(log.lifts.begin(), log.lifts.end(),
                                   [&](const auto& own) { return own.lift.same_as(logged.lift); });
    const bool has_lift = lift != log.lifts.end();
    if (!has_lift || !log.has_counted || logged.date < log.dates.back()) return false;
    MarkFilters filters(model, fit.shapes, fit.marks.back());
    if (log.dates.back() < logged.date) {
      filters.advance(log.dates.back(), logged.date);
      begin_day(log, logged.date);
    }
    ModelSet set = staged_set(model.settings, logged);
    set.lift = static_cast<std::size_t>(lift - log.lifts.begin());
    set.session = log.dates.size() - 1;
    // Judged as one that is left out: nothing rests on it yet.
    set.is_left_out = true;
    log.sets.push_back(set);
    count_earlier_sets(log, model.priors());
    fit.marks = {filters.mark(logged.date)};
    report = judged(model, fit.shapes, fit.marks.back(), log.sets.back());
    if (std::fabs(report.surprise) > model.priors().most_surprise) {
      report.use = SetReport::Use::suspicious;
    } else {
      log.sets.back().is_left_out = false;
      count_earlier_sets(log, model.priors());
      filters.learn(log.sets.back());
      fit.marks = {filters.mark(logged.date)};
    }
  }
  fit.reports.push_back(report);
  fit.checksum.add(logged);
  ++fit.sets_appended;
  return true;
}

}  // namespace detail

inline std::optional<StrengthFit> append_set(const StrengthFit& fit, const LoggedSet& set) {
  const detail::LogFit& inside = detail::FitAccess::inside(fit);
  if (detail::is_to_fit_anew(inside)) return std::nullopt;
  detail::LogFit next = detail::last_day_of(inside);
  if (!detail::take_set(next, set)) return std::nullopt;
  return detail::FitAccess::fit_of(std::move(next), detail::FitAccess::trains_on(fit));
}

}  // namespace barwright::inline BARWRIGHT_ABI
