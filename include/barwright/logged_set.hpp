// barwright/logged_set.hpp - one set as it was done, and what a log of them says at a glance
//
// A log is any range of LoggedSet: who keeps it, and how, is the program's business. Each set says
// how many repetitions to failure it stood for, if it says so at all: those done and those left,
// or, for a set whose last repetition was missed, those before it. `recent_max` reads a lifter's
// max off the sets of the last weeks with nothing but a repetition curve; the strength model
// (strength_model.hpp) does it with all sets of all lifts, and says how sure it is.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

#include "barwright/date.hpp"
#include "barwright/effort.hpp"
#include "barwright/error.hpp"
#include "barwright/range.hpp"
#include "barwright/rep_curve.hpp"
#include "barwright/units.hpp"
#include "barwright/variation.hpp"

namespace barwright::inline v0 {

/// How a set ended.
enum class Outcome : unsigned char {
  completed,  ///< every repetition tried went up
  missed,     ///< the last repetition tried did not
};

/// One set of a training log.
struct LoggedSet {
  Date date;
  Lift lift;
  Mass load{};
  Reps reps;  ///< repetitions tried; of a missed set the last one failed
  std::optional<Range<RepsInReserve>> reserve{};  ///< as stated; nothing when not rated
  Outcome outcome = Outcome::completed;
};

/// Repetitions to failure that a set stands for: done plus stated reserve, or, when the last was
/// missed, those before it (0 for a missed single). Nothing for a completed set without a rating.
[[nodiscard]] constexpr std::optional<double> reps_to_failure(const LoggedSet& set) noexcept {
  if (set.outcome == Outcome::missed) return set.reps.count() - 1.0;
  if (!set.reserve) return std::nullopt;
  return reps_to_failure(set.reps, set.reserve->typical);
}

/// The max one logged set implies; nothing when it was not rated, when not one repetition went up,
/// when nothing was on the bar, or when the curve does not reach so many repetitions.
template <RepCurve C>
[[nodiscard]] constexpr std::optional<Mass> one_rep_max(const C& curve, const LoggedSet& set) {
  const auto reps = reps_to_failure(set);
  // Some curves are defined below one repetition, but a missed single only says "less than this".
  if (!reps || *reps < 1.0 || !(set.load > Mass{})) return std::nullopt;
  if (!curve.defined().contains(*reps)) return std::nullopt;
  return detail::max_from(curve, set.load, *reps);
}

/// What the sets of the last weeks say of the max on one lift.
struct RecentMax {
  Mass lowest{};   ///< of the sessions' best estimates
  Mass typical{};  ///< their median
  Mass highest{};
  int sessions = 0;
  int sets_used = 0;
  int sets_without_estimate = 0;  ///< not rated, too long, or not one repetition done
  Date first;                     ///< the days of the sessions used
  Date last;

  /// How far one session's estimate lies from another, as a share: (highest - lowest) / typical.
  [[nodiscard]] constexpr double spread() const noexcept { return (highest - lowest) / typical; }
};

/// Which sets `recent_max` uses.
struct RecentMaxRule {
  int days = 28;                       ///< how far back, this many days before the day asked for
  double most_reps_to_failure = 12.0;  ///< longer sets say little about a max
  double most_reserve = 5.0;           ///< ratings further from failure are guesses
};

/// The lifter's max on `lift` up to and including `day`: the best estimate of each session, and of
/// those the median, so that one mistyped or one bad day does not decide.
///
/// @param log  any range of LoggedSet, in any order
/// @returns nothing when no set of that lift in that time gives an estimate.
/// @throws DomainError unless the rule asks for at least one day.
template <RepCurve C, class Log>
[[nodiscard]] std::optional<RecentMax> recent_max(const C& curve, const Log& log, const Lift& lift,
                                                  Date day, const RecentMaxRule& rule = {}) {
  if (rule.days < 1) {
    detail::fail("the days to look back", "at least 1", static_cast<double>(rule.days));
  }
  struct Session {
    Date date;
    Mass best;
  };
  std::vector<Session> sessions;
  RecentMax result{.first = day, .last = day};
  for (const LoggedSet& set : log) {
    const int age = day - set.date;
    if (age < 0 || age >= rule.days || !(set.lift == lift)) continue;
    const auto reps = reps_to_failure(set);
    const auto max = one_rep_max(curve, set);
    const bool too_far_from_failure = set.outcome == Outcome::completed && set.reserve &&
                                      set.reserve->typical.count() > rule.most_reserve;
    if (!max || *reps > rule.most_reps_to_failure || too_far_from_failure) {
      ++result.sets_without_estimate;
      continue;
    }
    ++result.sets_used;
    const auto same_day = std::find_if(sessions.begin(), sessions.end(),
                                       [&](const Session& s) { return s.date == set.date; });
    if (same_day == sessions.end()) {
      sessions.push_back({set.date, *max});
    } else if (*max > same_day->best) {
      same_day->best = *max;
    }
  }
  if (sessions.empty()) return std::nullopt;
  for (const Session& session : sessions) {
    if (session.date < result.first) result.first = session.date;
  }
  result.last =
      std::max_element(sessions.begin(), sessions.end(), [](const Session& a, const Session& b) {
        return a.date < b.date;
      })->date;
  std::sort(sessions.begin(), sessions.end(),
            [](const Session& a, const Session& b) { return a.best < b.best; });
  const std::size_t middle = sessions.size() / 2;
  result.lowest = sessions.front().best;
  result.highest = sessions.back().best;
  result.typical = sessions.size() % 2 == 1
                       ? sessions[middle].best
                       : (sessions[middle - 1].best + sessions[middle].best) / 2.0;
  result.sessions = static_cast<int>(sessions.size());
  return result;
}

/// The days on which a lift was trained, as far as the log knows: 0 means it is new.
template <class Log>
[[nodiscard]] int sessions_of(const Log& log, const Lift& lift, Date day) {
  std::vector<Date> days;
  for (const LoggedSet& set : log) {
    if (set.lift == lift && set.date <= day) days.push_back(set.date);
  }
  std::sort(days.begin(), days.end());
  return static_cast<int>(std::unique(days.begin(), days.end()) - days.begin());
}

}  // namespace barwright::inline v0
