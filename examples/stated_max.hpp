// examples/stated_max.hpp - what the strength model makes of a log, or of a max that was stated
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "lifter_model.hpp"
#include "squad_log.hpp"

namespace lifter_model {

/// So sure a stated max is taken to be, as a share of it: an assumption.
inline constexpr double stated_max_deviation = 0.02;

/// How many days back sets are set beside a max: an assumption.
inline constexpr int usual_days = 28;

/// A stated max takes the place of what the log says of the base lift; the variations of the last
/// weeks still say what they cost.
/// @param entries  one lifter's
inline Learnt learn_with_max(bw::StrengthSettings settings, bw::Mass stated, const bw::Lift& lift,
                             const std::vector<squad_log::Entry>& entries, bw::Date date) {
  settings.priors.max = stated;
  settings.priors.max_log_sd = stated_max_deviation;
  std::vector<bw::LoggedSet> sets;
  std::vector<squad_log::Entry> recent;
  for (const squad_log::Entry& entry : entries) {
    sets.push_back(entry.set);
    const bw::Lift& done = entry.set.lift;
    const bool is_of_a_variation = done.base().same_as(lift.base()) && !done.is_plain();
    if (is_of_a_variation && !lift.is_plain() && date - entry.set.date < usual_days) {
      recent.push_back(entry);
    }
  }
  Learnt learnt = learn(settings, recent);
  learnt.sets = std::move(sets);
  return learnt;
}

/// How strong a lifter is on a day of this lift, by the log or as stated.
/// @param done  sessions of the lift before, if more than the log has
inline Learnt learn_strength(const bw::Lift& lift, const bw::CurveTable& curve,
                             const std::optional<bw::Mass>& stated,
                             const std::vector<squad_log::Entry>& entries, bw::Date date,
                             int done) {
  std::vector<bw::LoggedSet> sets;
  for (const squad_log::Entry& entry : entries) sets.push_back(entry.set);
  bw::StrengthSettings settings = settings_for(lift.base(), curve, sets);
  mark_new(settings, lift, sets, date, done);
  return stated ? learn_with_max(settings, *stated, lift, entries, date) : learn(settings, entries);
}

}  // namespace lifter_model
