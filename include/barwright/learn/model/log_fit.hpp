// barwright/learn/model/log_fit.hpp - what a log says, asked
//
// A question about a lift is a combination of the states and shapes it has in the model, and what
// the catalogue says of those it has not. The answer is normal: the states of the day by all sets,
// moved on where the day is not in the log, with what is not known of the shapes on top.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/short_list.hpp"
#include "barwright/core/text.hpp"
#include "barwright/learn/log_checksum.hpp"
#include "barwright/learn/model/find_shapes.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/marks.hpp"
#include "barwright/learn/model/miss_risk.hpp"
#include "barwright/learn/model/staged_log.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/lifts/stacking.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// A log, fitted.
struct LogFit {
  LogModel model;
  ShapePosterior shapes{};
  std::vector<Mark> marks{};
  std::vector<SetReport> reports{};
  LogChecksum checksum{};       ///< of the sets
  int sets_used_before = 0;     ///< beside those in `reports` (last_day.hpp)
  int sets_appended = 0;        ///< since the shapes were found
  bool is_of_last_day = false;  ///< nothing else is left of the log (last_day.hpp)

  /// Sets that the answers rest on.
  [[nodiscard]] int sets_used() const noexcept {
    const auto is_used = [](const SetReport& report) { return report.use == SetReport::Use::used; };
    return sets_used_before +
           static_cast<int>(std::count_if(reports.begin(), reports.end(), is_used));
  }

  /// How a lift is asked about: the states and stretches it has in the model, and what the
  /// catalogue says of those it has not.
  struct Question {
    Terms ratio{};  ///< logarithm of the ratio
    double prior_mean = 0.0;
    double prior_variance = 0.0;
    ShortList<Index, 1 + Lift::most_modifiers> shapes{};
    double prior_shape_mean = 0.0;
    double prior_shape_variance = 0.0;
    std::size_t modifiers = 0;
  };
  /// @param next_session  its day, for as much as is learnt by then; else the lift as learnt
  [[nodiscard]] Question ask(const Lift& lift, std::optional<Date> next_session = {}) const {
    if (!lift.base().same_as(model.settings.reference.base())) {
      fail(ErrorCode::does_not_apply, "a lift asked of this model",
           Text{}.append("a variation of the ").append(model.settings.reference.name()),
           lift.name());
    }
    Question question;
    question.shapes.append(stretch_shape);
    for (const Modifier& modifier : lift.modifiers()) {
      const auto known = model.log.find(modifier);
      if (known != model.log.modifiers.end()) {
        const auto m = static_cast<std::size_t>(known - model.log.modifiers.begin());
        question.ratio.append({ratio_state(m), 1.0});
        question.shapes.append(modifier_shape(m));
        ++question.modifiers;
      } else {
        const LogMoments ratio = log_moments(modifier.ratio(model.best));
        const LogMoments shape = log_moments(modifier.rep_stretch().value);
        question.prior_mean += ratio.mean;
        question.prior_variance += ratio.standard_deviation * ratio.standard_deviation;
        question.prior_shape_mean += shape.mean;
        question.prior_shape_variance += shape.standard_deviation * shape.standard_deviation;
      }
    }
    if (next_session) add_learning(question, lift, *next_session);
    return question;
  }

  /// What of the learning gap is still open on a day.
  void add_learning(Question& question, const Lift& lift, Date date) const {
    const bool is_new = lift.is_among(model.settings.new_lifts);
    for (std::size_t i = 0; i < model.log.lifts.size(); ++i) {
      if (!model.log.lifts[i].lift.same_as(lift)) continue;
      if (!is_new) return;
      question.ratio.append({model.gap_state(model.log.lifts[i]),
                             -learning_open(model.priors(), model.log.sessions_before(i, date))});
      return;
    }
    const bool is_unlogged = model.settings.unlogged_is_new && !lift.is_plain();
    if (!is_new && (!is_unlogged || lift.is_among(model.settings.known_lifts))) return;
    const LogMoments gap = log_moments(model.priors().learning_gain);
    question.prior_mean -= gap.mean;
    question.prior_variance += gap.standard_deviation * gap.standard_deviation;
  }
  /// The logarithm of a lift's stretch.
  struct Shape {
    double mean;
    double variance;
    Vector with_shapes;  ///< its covariance with each shape
  };
  [[nodiscard]] Shape shape(const Question& question) const {
    Vector parts = Vector::Zero(model.shape_count());
    for (const Index i : question.shapes) parts[i] = 1.0;
    Vector with_shapes = shapes.covariance * parts;
    const double variance = parts.dot(with_shapes) + question.prior_shape_variance;
    return {parts.dot(shapes.mean) + question.prior_shape_mean, variance, std::move(with_shapes)};
  }

  /// The logarithm of the max on a lift on a day.
  struct Capacity {
    double mean;
    double variance;
    Vector by_shape;  ///< its derivatives by the shapes
  };
  [[nodiscard]] Capacity capacity(const Question& question, Date date, int earlier_sets,
                                  bool trains_on) const {
    const auto at = [&](std::size_t i) {
      const int days = model.log.has_sets() ? date - marks[i].date : 0;
      return capacity_from(marks[i], days, question, earlier_sets, trains_on);
    };
    // The first mark after the day, if any.
    const auto after = std::find_if(marks.begin(), marks.end(),
                                    [&](const Mark& mark) { return date < mark.date; });
    if (!model.log.has_sets() || after == marks.end()) return at(marks.size() - 1);
    if (after == marks.begin()) {
      if (is_of_last_day) {
        fail(ErrorCode::no_answer, "a day asked of a fit that was saved or appended to",
             Text{}.append("its last day or later, from ").append(to_text(marks[0].date)),
             to_text(date));
      }
      return at(0);
    }
    const auto i = static_cast<std::size_t>(after - marks.begin());
    if (marks[i - 1].date == date) return at(i - 1);
    // Between two days of the log: from both, as a walk that is pinned at each.
    const double whole = marks[i].date - marks[i - 1].date;
    const double t = (date - marks[i - 1].date) / whole;
    const Capacity a = capacity_from(marks[i - 1], 0, question, earlier_sets, trains_on);
    const Capacity b = capacity_from(marks[i], 0, question, earlier_sets, trains_on);
    const auto between = [t](const auto& x, const auto& y) { return (1.0 - t) * x + t * y; };
    const double level_walk = usual_steadiness(shapes) * model.priors().level_walk;
    const double walk = level_walk * level_walk * whole / days_a_week;
    return {.mean = between(a.mean, b.mean),
            .variance = between(a.variance, b.variance) + walk * t * (1.0 - t),
            .by_shape = between(a.by_shape, b.by_shape)};
  }
  [[nodiscard]] Capacity capacity_from(const Mark& mark, int days, const Question& question,
                                       int earlier_sets, bool trains_on) const {
    Terms terms = question.ratio;
    terms.append({level_state, 1.0});
    if (earlier_sets > 0) terms.append({loss_state, -static_cast<double>(earlier_sets)});
    const Drift usual = model.drift(mark.date, days, trains_on ? days : model.layoff_after);
    double moved = usual.variance;
    if (days != 0) {
      const double weeks = days / days_a_week;
      const Motion move = model.motion_over(std::fabs(weeks), usual_steadiness(shapes));
      const double trend = weeks > 0.0 ? move.level_by_trend : -move.level_by_trend;
      terms.append({trend_state, trend});
      const double walk = model.priors().ratio_walk;
      moved += move.level_variance +
               move.level_by_trend_noise * move.level_by_trend_noise * move.trend_variance +
               static_cast<double>(question.modifiers) * walk * walk * std::fabs(weeks);
    }
    Answer a = answer(mark, shapes, terms);
    return {.mean = a.mean + question.prior_mean + usual.mean,
            .variance = a.variance + question.prior_variance + moved,
            .by_shape = std::move(a.by_shape)};
  }

  /// All that chances rest on.
  [[nodiscard]] StrengthJoint joint(const Lift& lift, Date date, int earlier_sets,
                                    bool trains_on) const {
    check_earlier_sets(earlier_sets);
    Question question = ask(lift, date);
    const Shape s = shape(question);
    const bool is_logged = std::binary_search(model.log.dates.begin(), model.log.dates.end(), date);
    if (is_logged) question.ratio.append({day_state, 1.0});
    const Capacity c = capacity(question, date, earlier_sets, trains_on);
    const double c_and_stretch = c.by_shape.dot(s.with_shapes);
    const double c_and_bend = c.by_shape.dot(shapes.covariance.col(bend_shape));
    const double stretch_and_bend = s.with_shapes[bend_shape];
    const double bend_variance = shapes.covariance(bend_shape, bend_shape);
    return {.mean = {c.mean, s.mean, shapes.mean[bend_shape]},
            .covariance = {{c.variance, c_and_stretch, c_and_bend},
                           {c_and_stretch, s.variance, stretch_and_bend},
                           {c_and_bend, stretch_and_bend, bend_variance}},
            .on_top = usual_steadiness(shapes) *
                      (is_logged ? model.priors().set_sd
                                 : std::hypot(model.priors().day_sd, model.priors().set_sd))};
  }

  /// A combination of states at the end of the log.
  [[nodiscard]] Answer at_end(const Terms& terms) const {
    return answer(marks.back(), shapes, terms);
  }
  [[nodiscard]] Answer at_end(Index state) const {
    Terms terms;
    terms.append({state, 1.0});
    return at_end(terms);
  }
};

}  // namespace barwright::inline BARWRIGHT_ABI::detail
