// barwright/plan/stops.hpp - what is not planned at all, and what would change that
//
// Whatever is planned, a session or a block: a question without an answer is refused, what should
// not be done is stopped, and for each stop it is tried which change of the facts alone would lift
// it. What must be said of the facts is training/caution.hpp's.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/rules.hpp"
#include "barwright/plan/session_plan.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/introduction.hpp"

namespace barwright::inline BARWRIGHT_ABI {
namespace detail {

/// Whether a variation is so close to a plain lift that is known, by the log or as its max is
/// stated, that there is nothing to introduce.
[[nodiscard]] inline bool needs_no_introduction(const Lifter& lifter, const Lift& lift, Date date) {
  if (lift.is_plain() || !is_close_to_plain(lift)) return false;
  return lifter.stated_max ||
         sessions_before(lifter, lifter.base, date) >= lifter.rules.sessions_until_known;
}

/// What its first sessions leave at least, in halves: how it feels is still to be learnt.
[[nodiscard]] inline RepsInReserve least_while_close_is_new(const PlanningRules& rules,
                                                            int earlier_sessions) {
  if (earlier_sessions >= rules.close_sessions) return {};
  const double least =
      earlier_sessions == 0 ? rules.close_first_reserve : rules.close_later_reserve;
  return RepsInReserve(std::ceil(2.0 * least) / 2.0);
}

/// The bound on the chance of missing where none is asked for. What would be caught may be missed
/// more often: two left are not known well enough for less, and least of all in long sets.
[[nodiscard]] inline double usual_bound(const PlanningRules& rules, const Lift& lift, Reps reps,
                                        bool has_spotter, Safeties safeties) {
  if (!is_caught(lift, has_spotter, safeties)) return rules.chance_alone;
  return std::min(std::max(rules.chance_caught, reps.count() * rules.chance_for_each_rep), 0.99);
}

/// Why nothing can be said of a lifter's strength on a day, or of the lift at all.
[[nodiscard]] inline std::optional<Refusal> refusal_of(const Lifter& lifter, const Lift& lift,
                                                       Date date) {
  if (lift.base().is_bodyweight) return Refusal{.code = RefusalCode::bodyweight_lift};
  if (lift.base().family == LiftFamily::explosive) {
    return Refusal{.code = RefusalCode::explosive_lift};
  }
  if (!lift.base().same_as(lifter.base.base())) return Refusal{.code = RefusalCode::other_lift};
  std::optional<Date> last;
  for (const LoggedSet& set : lifter.sets) {
    if (date < set.date) return Refusal{.code = RefusalCode::log_goes_on, .date = set.date};
    if (set.lift.base().same_as(lift.base()) && (!last || *last < set.date)) last = set.date;
  }
  if (!lifter.strength) return Refusal{.code = RefusalCode::no_strength};
  if (lifter.stated_max) return std::nullopt;
  if (!last || !lifter.learnt || lifter.learnt->sets_used == 0) {
    return Refusal{.code = RefusalCode::no_strength};
  }
  if (date - *last > lifter.rules.stale_days) {
    return Refusal{.code = RefusalCode::log_too_old, .date = last, .days = date - *last};
  }
  return std::nullopt;
}

/// The sessions of a lift before a day. Somebody who knows the max of the plain lift has done it,
/// in the log or not.
[[nodiscard]] inline int known_sessions(const Lifter& lifter, const Lift& lift, Date date) {
  const int sessions = sessions_before(lifter, lift, date);
  if (!lift.is_plain() || !lifter.stated_max) return sessions;
  return std::max(sessions, lifter.rules.sessions_until_known);
}

/// Whether a load has more plates than fit on a sleeve.
[[nodiscard]] inline bool has_too_many_plates(const LoadedWith& with, const PlanningRules& rules) {
  return with.bar && static_cast<int>(with.bar->plates().size()) > rules.most_plates_a_side;
}

/// The stops that no load can change: a max that cannot be right, and pain.
inline void add_stops(std::vector<Caution>& cautions, std::vector<Remedy>& remedies,
                      const Lifter& lifter, Date date, Pain pain, bool is_max_confirmed) {
  const auto check = lifter.stated_max ? lifter.stated_max->check : StatedMaxCheck::fits;
  if (check == StatedMaxCheck::above_log) {
    cautions.push_back(cautions::stated_max_above_log);
    remedies.push_back(Remedy::correct_max);
  } else if (check == StatedMaxCheck::doubtful && !is_max_confirmed) {
    cautions.push_back(cautions::doubtful_max);
    remedies.push_back(Remedy::correct_max);
    remedies.push_back(Remedy::confirm_max);
  }
  if (pain == Pain::yes || (pain == Pain::as_logged && last_pain(lifter, date))) {
    cautions.push_back(cautions::pain);
    remedies.push_back(Remedy::have_pain_seen);
  }
}

inline void add_too_much_work(std::vector<Caution>& cautions, std::vector<Remedy>& remedies,
                              int sets, Reps reps, RepsInReserve reserve,
                              const PlanningRules& rules) {
  const int repetitions = sets * reps.count();
  const bool is_hard = reserve < RepsInReserve(1.0);
  if (repetitions <= (is_hard ? rules.most_hard_repetitions : rules.most_repetitions)) return;
  cautions.push_back(cautions::too_much_work);
  remedies.push_back(Remedy::do_less);
}

/// Adds what must be said of the facts of a session, and what would lift its stops.
/// @returns what a set would have to leave, where that would lift them
inline std::optional<RepsInReserve> add_cautions(std::vector<Caution>& cautions,
                                                 std::vector<Remedy>& remedies,
                                                 const SessionFacts& facts) {
  const CautionList list = cautions_for(facts);
  for (const Caution& caution : list) cautions.push_back(caution);
  if (!list.says_stop()) return std::nullopt;
  const std::size_t before = remedies.size();
  const auto add_if_lifted = [&](const SessionFacts& changed, Remedy remedy) {
    if (!cautions_for(changed).says_stop()) remedies.push_back(remedy);
  };
  SessionFacts changed = facts;
  changed.has_spotter = true;
  add_if_lifted(changed, Remedy::have_spotter);
  changed = facts;
  changed.safeties = Safeties::checked;
  add_if_lifted(changed, Remedy::check_safeties);
  changed = facts;
  if (const auto least = facts.least_alone()) {
    changed.reserve = std::max(facts.reserve, *least);
    add_if_lifted(changed, Remedy::keep_reserve);
  } else {
    changed.reps = Reps(facts.alone.longest_set);
    changed.reserve = std::max(facts.reserve, changed.least_alone().value_or(facts.reserve));
    add_if_lifted(changed, Remedy::do_shorter_sets);
  }
  if (remedies.size() == before) remedies.push_back(Remedy::train_it_first);
  return changed.reserve;
}

/// The heaviest first; within a weight as they are.
inline void sort_by_weight(std::vector<Caution>& cautions) {
  std::stable_sort(cautions.begin(), cautions.end(),
                   [](const Caution& a, const Caution& b) { return a.weight < b.weight; });
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI
