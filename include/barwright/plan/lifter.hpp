// barwright/plan/lifter.hpp - what is known of one lifter on one base lift
//
// A log, a stated max, or both say how strong a lifter is; a log also says how often a lift was
// done, how its last sessions went, how long ago that was, and where it may be wrong. All of it is
// a Lifter, whichever way it came to be known: `stated_lifter` makes one from a max alone and needs
// no Eigen, `learn_lifter` (learn_lifter.hpp) makes one from a log. The planners ask nothing else.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/rating_scale.hpp"
#include "barwright/plan/rules.hpp"
#include "barwright/plan/strength.hpp"
#include "barwright/training/comeback.hpp"

namespace barwright::inline BARWRIGHT_ABI {

// ---- where a log may be wrong -------------------------------------------------------------------

/// The slip that would explain a set that does not fit.
enum class Slip : unsigned char {
  unknown,
  pounds_as_kilograms,
  kilograms_as_pounds,
  decimal_point,
  one_dumbbell,  ///< what one weighs, in place of both
};

[[nodiscard]] constexpr std::string_view name(Slip slip) noexcept {
  switch (slip) {
    case Slip::unknown: return "unknown";
    case Slip::pounds_as_kilograms: return "pounds_as_kilograms";
    case Slip::kilograms_as_pounds: return "kilograms_as_pounds";
    case Slip::decimal_point: return "decimal_point";
    case Slip::one_dumbbell: return "one_dumbbell";
  }
  return "";
}

/// The likeliest slip behind a load where another was expected.
/// @param dumbbells  that the lift takes; of two the load is that of both
[[nodiscard]] Slip likely_slip(Mass logged, Mass expected, int dumbbells = 0) noexcept;

/// A set that does not fit the others, and was left out.
struct SuspectSet {
  std::size_t index = 0;  ///< in the log that was given
  LoggedSet set;
  Mass expected{};  ///< the load that the other sets would have led to
  Slip slip = Slip::unknown;
};

/// A last session far above all before it.
struct SuddenJump {
  LoggedSet set;
  double share = 0.0;  ///< 0.37 where its max is 37 % above theirs
};

/// What speaks against loads that rest on a log.
struct LogDoubts {
  /// What stands as reps in reserve reads like RPE, and was taken as RPE (`LifterFacts::ratings`).
  bool reads_like_rpe = false;
  /// It may be RPE, and was taken as it stands; the load rises by a step at most.
  bool may_be_rpe = false;
  bool has_few_sets_left = false;  ///< too few sets to tell which of those that disagree are right
  std::optional<SuddenJump> jump{};

  /// Whether its sets contradict each other, and nothing tells which are right.
  [[nodiscard]] bool is_contradictory() const noexcept { return has_few_sets_left || jump; }
};

// ---- a max that was stated ----------------------------------------------------------------------

/// How a stated max stands beside the log and beside what people lift.
enum class StatedMaxCheck : unsigned char {
  fits,
  below_log,          ///< used all the same: lighter is the safe side
  above_log,          ///< not to be used
  doubtful,           ///< above what few lifters anywhere reach: to be confirmed
  above_bench_press,  ///< of an overhead press: above what the log shows of the bench press, too
};

[[nodiscard]] constexpr std::string_view name(StatedMaxCheck check) noexcept {
  switch (check) {
    case StatedMaxCheck::fits: return "fits";
    case StatedMaxCheck::below_log: return "below_log";
    case StatedMaxCheck::above_log: return "above_log";
    case StatedMaxCheck::doubtful: return "doubtful";
    case StatedMaxCheck::above_bench_press: return "above_bench_press";
  }
  return "";
}

/// A max above which the figure itself is doubted, whoever lifts (assumption).
[[nodiscard]] inline Mass doubtful_max(LiftFamily family) {
  switch (family) {
    case LiftFamily::hip_extension: return Mass::from_kg(400);
    case LiftFamily::squat:
    case LiftFamily::deadlift: return Mass::from_kg(350);
    case LiftFamily::horizontal_press: return Mass::from_kg(250);
    case LiftFamily::pull:
    case LiftFamily::explosive: return Mass::from_kg(200);
    case LiftFamily::overhead_press: return Mass::from_kg(150);
    case LiftFamily::trunk:
    case LiftFamily::single_joint: return Mass::from_kg(100);
  }
  return Mass::from_kg(350);
}

/// A max on the base lift, as somebody stated it.
struct StatedMax {
  Mass max{};
  StatedMaxCheck check = StatedMaxCheck::fits;
  std::optional<Range<Mass>> by_log{};  ///< what the log says, with a probability of 99 %
  bool looks_like_pounds = false;       ///< in pounds, taken for kilograms, it would fit the log
};

/// Holds a stated max against the log, and against what people lift.
[[nodiscard]] StatedMax checked_max(Mass stated, const Lift& base,
                                    const std::optional<Range<Mass>>& by_log);

// ---- a lifter -----------------------------------------------------------------------------------

/// Sessions of a lift that were done before the log began.
struct SessionsBefore {
  Lift lift;
  int sessions = 0;
};

/// What may be said of a lifter beside the log.
struct LifterFacts {
  std::optional<Mass> stated_max{};           ///< on the base lift
  std::vector<SessionsBefore> done_before{};  ///< if more than the log has
  CurveTable curve = equations::wathen;
  Experience experience = Experience::experienced;
  /// What the log's reps in reserve are, if somebody who knows has said so.
  RatingScale ratings = RatingScale::as_found;
  PlanningRules rules{};
  /// What the lifter weighs; asked for where a lift moves the body, as a pull-up does.
  std::optional<Mass> body_mass{};
  /// What is known of days of which no set says so: of a log, `Log::unread_of`.
  std::vector<NotedDay> noted{};
};

/// What a log taught about a lifter, beside the max.
struct Learnt {
  int sets_used = 0;       ///< of the base lift and its variations
  int days = 0;            ///< on which they were done
  int days_since = 0;      ///< the last of them, on the day that was learnt for
  Change trend{0.0, 0.0};  ///< of the max, a week
  double more_left = 0.0;  ///< true less stated reserve, reps
};

/// One lifter on one base lift.
struct Lifter {
  Lift base;                                   ///< the plain lift
  CurveTable curve = equations::wathen;        ///< that reps are read by
  std::shared_ptr<const Strength> strength{};  ///< nothing where nothing says how strong
  /// The same, were every set of the lift that may have been missed completed; nothing without one.
  std::shared_ptr<const Strength> if_completed{};
  std::optional<StatedMax> stated_max{};
  std::optional<Learnt> learnt{};
  std::vector<LoggedSet> sets{};  ///< of all lifts, without those that do not fit
  std::vector<LoggedSet> used{};  ///< those that the strength rests on
  std::vector<SuspectSet> suspects{};
  LogDoubts doubts{};
  std::vector<SessionsBefore> done_before{};
  PlanningRules rules{};
  Experience experience = Experience::experienced;
  /// What of the body the lift moves, beside what hangs from a belt; nothing where a bar is moved.
  /// It is part of every load that is known of this lifter, though not of what a log says.
  std::optional<Mass> body{};
  std::vector<NotedDay> noted{};  ///< of days of which no set says so
  bool has_later_sets = false;    ///< the log goes on after the day that was learnt for
  /// Those of them that hurt: a date typed wrongly takes no pain away.
  std::vector<LoggedSet> later_that_hurt{};
};

/// Whether the log has days enough to say anything of a trend; of fewer the model says what it
/// would of anybody. After a layoff the pace before it is not that of today.
[[nodiscard]] inline bool tells_trend(const Lifter& lifter) noexcept {
  return lifter.learnt && lifter.learnt->days >= lifter.rules.fewest_trend_days &&
         lifter.learnt->days_since <= lifter.rules.layoff_days;
}

/// The lifter of a log as far as its notes go, without a model of strength: for who asks only what
/// was noted, and when.
[[nodiscard]] Lifter noted_lifter(std::span<const LoggedSet> log, const Lift& base, Date today,
                                  const LifterFacts& facts);

/// What of the body a lift moves; nothing where it moves none, or the lifter's mass is not known.
[[nodiscard]] std::optional<Mass> moved_body(const Lift& base, const LifterFacts& facts);

/// A load of the base lift as a log says it: of a lift that moves the body, what hangs from the
/// belt.
[[nodiscard]] Mass as_logged(Mass load, const Lifter& lifter) noexcept;
[[nodiscard]] Range<Mass> as_logged(const Range<Mass>& loads, const Lifter& lifter);
/// The same of one of the lifter's sets, of whatever lift it is.
[[nodiscard]] LoggedSet as_logged(LoggedSet set, const Lifter& lifter);

/// The sessions of a lift done before, as stated; 0 where nothing was.
[[nodiscard]] int stated_sessions(const std::vector<SessionsBefore>& done_before,
                                  const Lift& lift) noexcept;

/// The sessions of a lift before a day: by the log, or as stated where that is more.
[[nodiscard]] inline int sessions_before(const Lifter& lifter, const Lift& lift, Date date) {
  return std::max(sessions_of(lifter.sets, lift, date - 1),
                  stated_sessions(lifter.done_before, lift));
}

/// A lifter of whom a max is known and nothing else.
/// @param base  the plain lift
/// @throws DomainError for a lift with modifiers, without a stated max, or for a rule out of range.
[[nodiscard]] Lifter stated_lifter(const Lift& base, const LifterFacts& facts);
[[nodiscard]] inline Lifter stated_lifter(const Lift& base, Mass max) {
  return stated_lifter(base, LifterFacts{.stated_max = max});
}

/// Days from the last set of the lift, in any variation, to a day: 0 where it was done that day,
/// nothing where it never was.
[[nodiscard]] std::optional<int> days_off(const Lifter& lifter, Date date);

/// The way back from a layoff that a day is on: the last gap in the days of the lift, in any
/// variation, tells how long it was, and its end when it was over. A day with nothing since is the
/// first back.
[[nodiscard]] std::optional<Comeback> comeback_on(const Lifter& lifter, Date date);

// ---- the last sessions --------------------------------------------------------------------------

/// One session of one lift, as it was logged.
struct PastSession {
  Date date;
  LoggedSet top;                  ///< the last set at its heaviest load
  std::vector<LoggedSet> sets{};  ///< in the order of the log
  bool has_miss = false;
  bool may_have_miss = false;  ///< a note leaves it open
  bool left_nothing = false;   ///< a set ended with none in reserve, or was missed
};

/// Every session of a lift up to and including a day, in the order of dates.
[[nodiscard]] std::vector<PastSession> past_sessions(const Lifter& lifter, const Lift& lift,
                                                     Date last);

/// The last day of a log; nothing where it has none, or where its date can hardly be right: it is
/// more than `doubtful_gap_days` after the day before it.
[[nodiscard]] std::optional<Date> last_day(std::span<const LoggedSet> sets,
                                           const PlanningRules& rules = {});

/// The last day on which something hurt that still counts on a day, in a lift for the same half of
/// the body: a note does not say where. It counts until that half was trained `pain_days` later:
/// time in which nothing was lifted heals nothing that is known of, and a block that begins in
/// three weeks is planned today. So does a note with a date after the day: the date is the slip,
/// not the pain. A set that does not fit the others counts like any: a set that was stopped for
/// pain fits seldom. What concerns the whole person is `last_unwell`'s.
[[nodiscard]] std::optional<Date> last_pain(const Lifter& lifter, Date date);

/// The last pain in such a lift that training has answered, as long as a log says anything of the
/// day (`stale_days`): it stops nothing and is named.
[[nodiscard]] std::optional<Date> earlier_pain(const Lifter& lifter, Date date);

/// The same for lifts of the other half: no reason to stop, but to ask.
[[nodiscard]] std::optional<Date> last_pain_elsewhere(const Lifter& lifter, Date date);

/// The same for what concerns the whole person, whatever lift it stands beside.
[[nodiscard]] std::optional<Date> last_unwell(const Lifter& lifter, Date date);

/// What concerned the whole person longer ago, within `unwell_days`: it stops no more and is asked
/// about until somebody answers.
[[nodiscard]] std::optional<Date> earlier_unwell(const Lifter& lifter, Date date);

/// The day on which a note last named a joint without saying that it hurts, at whatever lift: no
/// reason to stop, but to ask before any lift, as the joint may be one that it loads.
[[nodiscard]] std::optional<Date> last_may_hurt(const Lifter& lifter, Date date);

/// The last set of the lift, in any form, of which a note leaves open whether a rep was missed: of
/// the day, or of the last day before it. It is asked about; until then nothing goes up on it.
[[nodiscard]] std::optional<LoggedSet> set_that_may_be_missed(const Lifter& lifter, Date date);

/// The day of a row which could not be read and says that a rep was missed, of the lift or of one
/// that nobody knows, where it is not before the last day of the lift.
[[nodiscard]] std::optional<Date> unread_miss(const Lifter& lifter, Date date);

/// The later of the two.
[[nodiscard]] std::optional<Date> last_may_be_missed(const Lifter& lifter, Date date);

/// The last set of the lift, in any form, of which a note leaves that open, and its day: however
/// long ago, the lighter reading of it holds until somebody says (doubted_sets.hpp).
[[nodiscard]] std::optional<LoggedSet> last_doubted_set(const Lifter& lifter, Date date);
[[nodiscard]] std::optional<Date> last_doubted_day(const Lifter& lifter, Date date);

/// The set that says one of the six; nothing where its row could not be read.
[[nodiscard]] std::optional<LoggedSet> set_that_hurt(const Lifter& lifter, Date date);
[[nodiscard]] std::optional<LoggedSet> set_that_hurt_before(const Lifter& lifter, Date date);
[[nodiscard]] std::optional<LoggedSet> set_that_hurt_elsewhere(const Lifter& lifter, Date date);
[[nodiscard]] std::optional<LoggedSet> set_of_unwell(const Lifter& lifter, Date date);
[[nodiscard]] std::optional<LoggedSet> set_of_earlier_unwell(const Lifter& lifter, Date date);
[[nodiscard]] std::optional<LoggedSet> set_that_may_hurt(const Lifter& lifter, Date date);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/lifter.ipp"
#endif
