// barwright/learn/model/last_day.hpp - all of a fit that days to come ask for
//
// What a log says of its last day and of days after it is in the states of that day, by all sets,
// and in the shapes; of the log itself only this is still asked: when it began, how often each lift
// was done, and the sets of the last day, among which one more may come to lie. So much of a fit is
// small however long the log, can be kept, and takes one more set without the others.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include "barwright/learn/model/log_fit.hpp"
#include "barwright/learn/model/log_model.hpp"
#include "barwright/learn/model/staged_log.hpp"
#include "barwright/learn/strength_model.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

/// What is inside a StrengthFit.
struct FitAccess {
  [[nodiscard]] static const LogFit& inside(const StrengthFit& fit) noexcept { return *fit.of_; }
  [[nodiscard]] static bool trains_on(const StrengthFit& fit) noexcept { return fit.trains_on_; }
  [[nodiscard]] static StrengthFit fit_of(LogFit inside, bool trains_on) {
    StrengthFit fit(std::make_shared<const LogFit>(std::move(inside)));
    fit.trains_on_ = trains_on;
    return fit;
  }
};

/// The fit without the days before its last.
[[nodiscard]] inline LogFit last_day_of(const LogFit& fit) {
  if (fit.is_of_last_day) return fit;
  const StagedLog& log = fit.model.log;
  LogFit last{.model = {.settings = fit.model.settings,
                        .best = fit.model.best,
                        .layoff_after = fit.model.layoff_after},
              .shapes = fit.shapes,
              .marks = {fit.marks.back()},
              .checksum = fit.checksum,
              .sets_used_before = fit.sets_used(),
              .sets_appended = fit.sets_appended,
              .is_of_last_day = true};
  StagedLog& kept = last.model.log;
  kept.modifiers = log.modifiers;
  kept.lifts = log.lifts;
  kept.gaps = log.gaps;
  kept.has_counted = log.has_counted;
  if (!log.has_sets()) return last;
  const Date day = log.dates.back();
  for (std::size_t i = 0; i < kept.lifts.size(); ++i) {
    kept.lifts[i].sessions_before = log.sessions_before(i, day);
  }
  kept.dates = {log.dates.front()};
  if (kept.dates.front() < day) kept.dates.push_back(day);
  auto first = log.sets.end();
  while (first != log.sets.begin() && (first - 1)->session == log.sets.back().session) --first;
  kept.sets.assign(first, log.sets.end());
  for (ModelSet& set : kept.sets) set.session = kept.dates.size() - 1;
  return last;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
