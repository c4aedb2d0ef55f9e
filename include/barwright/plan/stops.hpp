// barwright/plan/stops.hpp - what is not planned at all, and what would change that
//
// Whatever is planned, a session or a block: a question without an answer is refused, what should
// not be done is stopped, and for each stop it is tried which change of the facts alone would lift
// it. What must be said of the facts is training/caution.hpp's.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/lifts/lift.hpp"
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
[[nodiscard]] bool needs_no_introduction(const Lifter& lifter, const Lift& lift, Date date);

/// Whether the first sessions of a lift leave more without being an introduction: it is close to a
/// plain lift that is known, or it is the plain lift of somebody who began with its variations.
[[nodiscard]] bool leaves_more_at_first(const Lifter& lifter, const Lift& lift, Date date);

/// Whether a plain lift is new to a lifter: all that the log has are its forms with another bar
/// position, bench angle, stance or implement, or had for long before it. The back squat of
/// somebody who front squats is as new as the front squat of somebody who does not. And so is every
/// lift in a beginner's first sessions of it: what is left is a guess (common practice, no source).
[[nodiscard]] bool is_new_plain_lift(const Lifter& lifter, const Lift& lift, Date date);

/// An introduction that a day is on.
struct IntroductionOn {
  Introduction plan;
  int done = 0;                 ///< sessions of it that count
  bool is_interrupted = false;  ///< there were more of the lift
};

/// The introduction of a lift that a day is on: none of one that is known. A layoff between two of
/// its sessions takes the last back, a long one all. One that was finished lasts until the lift was
/// not done for so long that a log says nothing of it (`stale_days`).
/// @param max     on the base lift
/// @param reps    and `reserve`: that it leads to
/// @param stated  sessions done before, where somebody says so
[[nodiscard]] std::optional<IntroductionOn> introduction_on(const Lifter& lifter, const Lift& lift,
                                                            Date date, Mass max, Reps reps,
                                                            RepsInReserve reserve, int stated = 0);

/// What its first sessions leave at least, in halves: how it feels is still to be learnt.
[[nodiscard]] RepsInReserve least_while_close_is_new(const PlanningRules& rules,
                                                     int earlier_sessions);

/// The bound on the chance of missing where none is asked for. What would be caught may be missed
/// more often: two left are not known well enough for less, and least of all in long sets; but not
/// so often that the plan would warn of it.
[[nodiscard]] inline double usual_bound(const PlanningRules& rules, const Lift& lift, Reps reps,
                                        bool has_spotter, Safeties safeties) {
  if (!is_caught(lift, has_spotter, safeties)) return rules.chance_alone;
  const double by_reps = reps.count() * rules.chance_for_each_rep;
  return std::max(rules.chance_caught, std::min(by_reps, rules.likely_miss));
}

/// Why loads of a lift that moves the body say nothing: nobody knows what of it is moved.
[[nodiscard]] std::optional<Refusal> refusal_for_body(const Lifter& lifter, const Lift& lift);

/// Why nothing can be said of a lifter's strength on a day, or of the lift at all.
[[nodiscard]] std::optional<Refusal> refusal_of(const Lifter& lifter, const Lift& lift, Date date);

/// The sessions of a lift before a day. Somebody who knows the max of the plain lift has done it,
/// in the log or not.
[[nodiscard]] int known_sessions(const Lifter& lifter, const Lift& lift, Date date);

/// The sessions of a lift before a max attempt on it: of a beginner more.
[[nodiscard]] inline int sessions_until_attempt(const Lifter& lifter) noexcept {
  return lifter.experience == Experience::novice ? lifter.rules.novice_sessions_until_known
                                                 : lifter.rules.sessions_until_known;
}

/// Whether all that is known of a lift's max are sets longer than those that tell of one
/// (`most_telling_retest`), warm-ups apart. The curve is flat there: sets of fifty would give a 1RM
/// of twice their load, and a sure one.
[[nodiscard]] bool has_only_long_sets(const Lifter& lifter, Date date);

/// Whether a load has more plates than fit on a sleeve.
[[nodiscard]] inline bool has_too_many_plates(const LoadedWith& with, const PlanningRules& rules) {
  return with.bar && static_cast<int>(with.bar->plates().size()) > rules.most_plates_a_side;
}

/// Why even the lightest load there is will not do.
[[nodiscard]] RefusalCode too_heavy(const Equipment& equipment) noexcept;

/// Makes a caution a stop, until somebody says that the log is right; and that of a log that
/// contradicts itself.
void stop_for(Caution& doubt, std::vector<Remedy>& remedies);
void stop_for_log(Caution& doubt, std::vector<Remedy>& remedies);

/// What somebody says on the day about what the log leaves open.
struct Answers {
  Pain pain = Pain::as_logged;
  Unwell unwell = Unwell::as_logged;
  bool is_max_confirmed = false;
};
template <class Request>
[[nodiscard]] Answers answers_of(const Request& asked) noexcept {
  return {asked.pain, asked.unwell, asked.is_max_confirmed};
}

/// The stops that no load can change: a max that cannot be right, pain, and what concerns the whole
/// person.
void add_stops(std::vector<Caution>& cautions, std::vector<Remedy>& remedies, const Lifter& lifter,
               Date date, const Answers& answers);

void add_too_much_work(std::vector<Caution>& cautions, std::vector<Remedy>& remedies, int reps,
                       RepsInReserve reserve, const PlanningRules& rules);

/// Adds what must be said of the facts of a session, and what would lift its stops.
/// @returns what a set would have to leave, where that would lift them
std::optional<RepsInReserve> add_cautions(std::vector<Caution>& cautions,
                                          std::vector<Remedy>& remedies, const SessionFacts& facts);

/// The gravest first; within one severity as they are.
inline void sort_by_severity(std::vector<Caution>& cautions) {
  std::stable_sort(cautions.begin(), cautions.end(),
                   [](const Caution& a, const Caution& b) { return a.severity < b.severity; });
}

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/stops.ipp"
#endif
