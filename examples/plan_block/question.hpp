// examples/plan_block/question.hpp - the arguments of plan_block, checked
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "barwright/barwright.hpp"
#include "lifter_model.hpp"
#include "plan_block/options.hpp"
#include "planner_options.hpp"
#include "squad_log.hpp"

namespace plan_block {

namespace bw = barwright;
using lifter_model::value_or_refuse;

/// The question, checked.
struct Question {
  std::string lifter{};  ///< empty without a log
  bw::Lift lift;
  bw::Date start;
  bool has_start = false;  ///< asked for; else it means nothing without a log
  bw::BlockSettings settings{};
  double max_chance_of_missing = 0.05;
  bw::Room room;
  std::optional<bw::Mass> stated_max{};
  bool has_spotter = false;
  bw::Safeties safeties = bw::Safeties::none;
};

/// The first day: as asked for, or the Monday after the last set.
inline bw::Date first_day(const Options& options, const std::vector<squad_log::Entry>& entries) {
  if (!options.start.empty())
    return value_or_refuse("--start", options.start, squad_log::to_date(options.start));
  if (entries.empty()) return bw::Date(2000, 1, 3);
  bw::Date last = entries.front().set.date;
  for (const squad_log::Entry& entry : entries) last = std::max(last, entry.set.date);
  return last + (7 - last.weekday());
}

inline Question make_question(const Options& options, const squad_log::Log& log,
                              const std::string& lifter, bw::Date start) {
  Question question{.lifter = lifter,
                    .lift = lifter_model::find_lift(options.lift, options.with),
                    .start = start,
                    .has_start = !options.start.empty(),
                    .settings = {.sessions_a_week = options.sessions,
                                 .working_weeks = options.weeks,
                                 .sets = options.sets,
                                 .reps = bw::Reps(options.reps),
                                 .first_reserve = bw::RepsInReserve(options.first_reserve),
                                 .last_reserve = bw::RepsInReserve(options.last_reserve),
                                 .has_retest = options.retest_reps != 0,
                                 .earlier_sessions = options.done},
                    .max_chance_of_missing = options.max_chance_of_missing / 100.0,
                    .room = lifter_model::find_room(options.room, options.max, log, lifter),
                    .has_spotter = options.has_spotter,
                    .safeties = planner_options::to_safeties(options.safeties)};
  if (options.retest_reps != 0) question.settings.retest_reps = bw::Reps(options.retest_reps);
  if (!options.max.empty()) question.stated_max = bw::parse_marked_mass(options.max).mass();
  return question;
}

}  // namespace plan_block
