// barwright/log/logged_set.hpp - one set as it was done, and what a log of them says at a glance
//
// A log is any range of LoggedSet: who keeps it, and how, is the program's business. Each set says
// how many reps to failure it stood for, if it says so at all: those done and those left, or, for a
// set whose last rep was missed, those before it. A miss also says what the max was not.
// `recent_max` reads a lifter's max off the sets of the last weeks with nothing but a rep curve;
// the strength model (strength_model.hpp) does it with all sets of all lifts, and says how sure it
// is.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/pain.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// How a set ended.
enum class Outcome : unsigned char {
  completed,  ///< every rep tried was made
  missed,     ///< the last rep tried did not
};

/// One set of a training log.
struct LoggedSet {
  Date date;
  Lift lift;
  Mass load{};
  Reps reps;  ///< reps tried; of a missed set the last one failed
  std::optional<Range<RepsInReserve>> reserve{};  ///< as stated; nothing when not rated
  Outcome outcome = Outcome::completed;
  bool has_pain = false;   ///< somebody wrote that it hurt: see mentions_hurt
  bool is_unwell = false;  ///< of the whole person, and so of every lift: see mentions_warning_sign
  bool may_hurt = false;   ///< a joint was named, to be asked about: see may_mention_pain
  /// A completed set of which a note leaves open whether the last rep went up: see miss_in_note.
  /// Until somebody says so it is not counted.
  bool may_be_missed = false;
};

/// What a log says of a day where no set says so: a row that could not be read, or a remark.
struct NotedDay {
  Date date;                   ///< of the row
  std::optional<Lift> lift{};  ///< that was to be done, plain; nothing where it may be any
  bool hurts = false;          ///< see mentions_hurt
  bool is_unwell = false;      ///< of the whole person: see mentions_warning_sign
  bool is_missed = false;      ///< a rep was missed: see miss_in_note
};

/// Takes from a note beside a set what it says of pain and of warning signs.
constexpr void take_note(LoggedSet& set, std::string_view note) noexcept {
  set.is_unwell = set.is_unwell || mentions_warning_sign(note);
  set.has_pain = set.has_pain || mentions_hurt(note);
  set.may_hurt = set.may_hurt || may_mention_pain(note);
}

/// Whether the last rep of a set was missed, or a note leaves that open.
[[nodiscard]] constexpr bool is_short(const LoggedSet& set) noexcept {
  return set.outcome == Outcome::missed || set.may_be_missed;
}

/// Reps that went up for certain.
[[nodiscard]] constexpr int reps_made(const LoggedSet& set) noexcept {
  return set.reps.count() - (is_short(set) ? 1 : 0);
}

/// Reps to failure that a set stands for: done plus stated reserve, or, when the last was missed or
/// may have been, those before it (0 for a missed single). Nothing for a completed set without a
/// rating.
[[nodiscard]] constexpr std::optional<double> reps_to_failure(const LoggedSet& set) noexcept {
  if (is_short(set)) return reps_made(set);
  if (!set.reserve) return std::nullopt;
  return reps_to_failure(set.reps, set.reserve->typical);
}

/// The max one logged set implies; nothing when it was not rated, when no rep was made,
/// when nothing was on the bar, or when the curve does not reach so many reps.
template <RepCurve C>
[[nodiscard]] constexpr std::optional<Mass> one_rep_max(const C& curve, const LoggedSet& set) {
  const auto reps = reps_to_failure(set);
  // Some curves are defined below one rep, but a missed single only says "less than this".
  if (!reps || *reps < 1.0 || !(set.load > Mass{})) return std::nullopt;
  if (!curve.defined().contains(*reps)) return std::nullopt;
  return detail::max_from(curve, set.load, *reps);
}

namespace detail {

/// The max that exactly these reps take: for a single the load itself, on any curve.
template <RepCurve C>
[[nodiscard]] constexpr std::optional<Mass> max_taken_by(const C& curve, Mass load, int reps) {
  if (reps < 1 || !(load > Mass{})) return std::nullopt;
  if (reps == 1) return load;
  if (!curve.defined().contains(reps)) return std::nullopt;
  return max_from(curve, load, reps);
}

}  // namespace detail

/// The least the max was: what the reps made take, rated or not. Nothing where
/// none did, nothing was on the bar, or the curve does not reach so many.
template <RepCurve C>
[[nodiscard]] constexpr std::optional<Mass> least_max(const C& curve, const LoggedSet& set) {
  return detail::max_taken_by(curve, set.load, reps_made(set));
}

/// What the max was below, as a rep was missed: load / fraction(reps tried), for a
/// single the load itself. Nothing for a completed set, nor where nothing was on the bar or the
/// curve does not reach so many.
///
/// Reads the set as if the lifter had been fresh, which is the cautious side.
template <RepCurve C>
[[nodiscard]] constexpr std::optional<Mass> max_is_below(const C& curve, const LoggedSet& set) {
  if (set.outcome != Outcome::missed) return std::nullopt;
  return detail::max_taken_by(curve, set.load, set.reps.count());
}

/// What the sets of the last weeks say of the max on one lift.
struct RecentMax {
  Mass lowest{};   ///< of the sessions' best estimates
  Mass typical{};  ///< their median
  Mass highest{};
  int sessions = 0;  ///< with an estimate
  int sets_used = 0;
  Date first;  ///< the days of the sessions used
  Date last;

  /// What the max is below, by sessions of missed singles; no other figure here is above it.
  std::optional<Mass> bound{};

  // Sets that give no estimate, each counted once, under the first reason that holds.
  int sets_only_bounding = 0;     ///< missed singles: the max was below their load
  int sets_unrated = 0;           ///< completed, without a rating
  int sets_unloaded = 0;          ///< nothing on the bar
  int sets_too_long = 0;          ///< for the rule or for the curve
  int sets_far_from_failure = 0;  ///< more stated reserve than the rule allows

  [[nodiscard]] constexpr int sets_without_estimate() const noexcept {
    return sets_only_bounding + sets_unrated + sets_unloaded + sets_too_long +
           sets_far_from_failure;
  }
  /// How far one session's estimate lies from another, as a share: (highest - lowest) / typical.
  [[nodiscard]] constexpr double spread() const noexcept { return (highest - lowest) / typical; }
};

/// Which sets `recent_max` uses.
struct RecentMaxRule {
  int days = 28;                       ///< how far back, this many days before the day asked for
  double most_reps_to_failure = 12.0;  ///< longer sets say little about a max
  double most_reserve = 5.0;           ///< ratings further from failure are guesses
};

namespace detail {

/// What one day's sets say of the max.
struct RecentSession {
  Date date;
  std::optional<Mass> best{};   ///< the highest estimate
  std::optional<Mass> least{};  ///< what went up takes at least this
  std::vector<Mass> below{};    ///< what was missed takes more than there was
};

inline void raise_to(std::optional<Mass>& value, std::optional<Mass> other) noexcept {
  if (other && (!value || *other > *value)) value = other;
}
inline void lower_to(std::optional<Mass>& value, std::optional<Mass> other) noexcept {
  if (other && (!value || *other < *value)) value = other;
}

}  // namespace detail

/// The lifter's max on `lift` up to and including `day`: the best estimate of each session, and of
/// those the median, so that one mistyped or one bad day does not decide.
///
/// A miss bounds the max from above. A session's best estimate is at most the lowest bound of its
/// own missed sets, but never less than what went up that day takes: then the miss came from
/// fatigue. A session of missed singles has no estimate of its own; each of them bounds all
/// sessions before it, until one after it has an estimate above the bound. So a mistyped miss does
/// decide, on the light side: `bound` tells.
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
  std::vector<detail::RecentSession> sessions;
  RecentMax result{.first = day, .last = day};
  for (const LoggedSet& set : log) {
    const int age = day - set.date;
    if (age < 0 || age >= rule.days || !set.lift.same_as(lift)) continue;
    auto session = std::find_if(sessions.begin(), sessions.end(),
                                [&](const auto& known) { return known.date == set.date; });
    if (session == sessions.end()) session = sessions.insert(session, {.date = set.date});
    if (set.reps.count() <= rule.most_reps_to_failure) {
      detail::raise_to(session->least, least_max(curve, set));
      if (const auto below = max_is_below(curve, set)) session->below.push_back(*below);
    }

    const auto reps = reps_to_failure(set);
    const auto max = one_rep_max(curve, set);
    if (!reps) {
      ++result.sets_unrated;
    } else if (!(set.load > Mass{})) {
      ++result.sets_unloaded;
    } else if (*reps < 1.0) {
      ++result.sets_only_bounding;
    } else if (!max || *reps > rule.most_reps_to_failure) {
      ++result.sets_too_long;
    } else if (!is_short(set) && set.reserve->typical.count() > rule.most_reserve) {
      ++result.sets_far_from_failure;
    } else {
      ++result.sets_used;
      detail::raise_to(session->best, max);
    }
  }

  // From the last session back: a bound holds for those before it, unless one after it passes it.
  std::sort(sessions.begin(), sessions.end(),
            [](const auto& a, const auto& b) { return a.date > b.date; });
  std::vector<Mass> bests;
  std::optional<Mass> best_after;
  for (const detail::RecentSession& session : sessions) {
    std::optional<Mass> best = session.best;
    for (std::optional<Mass> bound : session.below) {
      detail::raise_to(bound, session.least);
      if (best) {
        detail::lower_to(best, bound);
      } else if (!best_after || *bound >= *best_after) {
        detail::lower_to(result.bound, bound);
      }
    }
    if (!best) continue;
    detail::raise_to(best_after, best);
    detail::lower_to(best, result.bound);
    if (bests.empty()) result.last = session.date;
    result.first = session.date;
    bests.push_back(*best);
  }
  if (bests.empty()) return std::nullopt;
  std::sort(bests.begin(), bests.end());
  const std::size_t middle = bests.size() / 2;
  result.lowest = bests.front();
  result.highest = bests.back();
  result.typical =
      bests.size() % 2 == 1 ? bests[middle] : (bests[middle - 1] + bests[middle]) / 2.0;
  result.sessions = static_cast<int>(bests.size());
  return result;
}

/// The days on which a lift was trained, as far as the log knows: 0 means it is new.
template <class Log>
[[nodiscard]] int sessions_of(const Log& log, const Lift& lift, Date day) {
  std::vector<Date> days;
  for (const LoggedSet& set : log) {
    if (set.lift.same_as(lift) && set.date <= day) days.push_back(set.date);
  }
  std::sort(days.begin(), days.end());
  return static_cast<int>(std::unique(days.begin(), days.end()) - days.begin());
}

}  // namespace barwright::inline BARWRIGHT_ABI
