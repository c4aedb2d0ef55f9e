// barwright/plan/lifter.ipp - the bodies of lifter.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/rules.hpp"
#include "barwright/plan/strength.hpp"
#include "barwright/training/comeback.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline Lifter noted_lifter(std::span<const LoggedSet> log, const Lift& base, Date today,
                           const LifterFacts& facts) {
  Lifter lifter{.base = base,
                .curve = facts.curve,
                .done_before = facts.done_before,
                .rules = facts.rules,
                .experience = facts.experience,
                .body = moved_body(base, facts),
                .noted = facts.noted};
  for (LoggedSet set : log) {
    if (lifter.body && set.lift.base().same_as(base.base())) set.load += *lifter.body;
    if (!(today < set.date)) {
      lifter.sets.push_back(set);
      continue;
    }
    lifter.has_later_sets = true;
    if (set.has_pain || set.is_unwell || set.may_hurt) lifter.later_that_hurt.push_back(set);
  }
  return lifter;
}

inline Slip likely_slip(Mass logged, Mass expected, int dumbbells) noexcept {
  const double share = logged / expected;
  const auto is_about = [&](double factor) {
    return share > 0.85 * factor && share < factor / 0.85;
  };
  // Half of it, or near the factor of pounds: of two the more usual slip.
  if (dumbbells == 2 && (is_about(0.5) || is_about(Mass::kg_per_lb))) return Slip::one_dumbbell;
  if (is_about(1.0 / Mass::kg_per_lb)) return Slip::pounds_as_kilograms;
  if (is_about(Mass::kg_per_lb)) return Slip::kilograms_as_pounds;
  return is_about(10.0) || is_about(0.1) ? Slip::decimal_point : Slip::unknown;
}

inline StatedMax checked_max(Mass stated, const Lift& base,
                             const std::optional<Range<Mass>>& by_log) {
  if (!(stated > Mass{})) detail::fail("a stated max", "more than 0 kg", stated.kg());
  StatedMax result{.max = stated, .by_log = by_log};
  if (by_log && stated > by_log->high) {
    const Mass if_pounds = stated * Mass::kg_per_lb;
    result.check = StatedMaxCheck::above_log;
    result.looks_like_pounds = if_pounds > 0.85 * by_log->low && if_pounds < by_log->high / 0.85;
  } else if (by_log && stated < by_log->low) {
    result.check = StatedMaxCheck::below_log;
  } else if (!by_log && stated > doubtful_max(base.base().family)) {
    result.check = StatedMaxCheck::doubtful;
  }
  return result;
}

inline std::optional<Mass> moved_body(const Lift& base, const LifterFacts& facts) {
  if (!base.base().body_share || !facts.body_mass || !(*facts.body_mass > Mass{})) {
    return std::nullopt;
  }
  return *facts.body_mass * base.base().body_share->value.typical;
}

inline Mass as_logged(Mass load, const Lifter& lifter) noexcept {
  if (!lifter.body) return load;
  // What the sum of both has rounded away is not what hung there: 8.75 kg, not 8.749999999999996.
  constexpr double parts = 1e10;
  return Mass::from_kg(1.0) * (std::round((load - *lifter.body).kg() * parts) / parts);
}

inline Range<Mass> as_logged(const Range<Mass>& loads, const Lifter& lifter) {
  return {as_logged(loads.low, lifter), as_logged(loads.typical, lifter),
          as_logged(loads.high, lifter)};
}

inline LoggedSet as_logged(LoggedSet set, const Lifter& lifter) {
  if (set.lift.base().same_as(lifter.base.base())) set.load = as_logged(set.load, lifter);
  return set;
}

inline int stated_sessions(const std::vector<SessionsBefore>& done_before,
                           const Lift& lift) noexcept {
  int most = 0;
  for (const SessionsBefore& done : done_before) {
    if (done.lift.same_as(lift)) most = std::max(most, done.sessions);
  }
  return most;
}

inline Lifter stated_lifter(const Lift& base, const LifterFacts& facts) {
  check(facts.rules);
  if (!facts.stated_max)
    detail::fail(ErrorCode::contradiction, "a lifter without a log", "somebody with a stated max",
                 "none");
  const auto body = moved_body(base, facts);
  const Mass stated = *facts.stated_max + body.value_or(Mass{});
  Lifter lifter{.base = base,
                .curve = facts.curve,
                .stated_max = checked_max(stated, base, std::nullopt),
                .done_before = facts.done_before,
                .rules = facts.rules,
                .experience = facts.experience,
                .body = body,
                .noted = facts.noted};
  StrengthPriors priors{.max = stated, .max_log_sd = facts.rules.stated_max_deviation};
  std::vector<Lift> known;
  for (const SessionsBefore& done : facts.done_before) {
    if (done.sessions > 0) known.push_back(done.lift);
  }
  lifter.strength =
      std::make_shared<const StatedStrength>(base, facts.curve, priors, std::move(known));
  return lifter;
}

inline std::optional<int> days_off(const Lifter& lifter, Date date) {
  std::optional<int> days;
  for (const LoggedSet& set : lifter.sets) {
    if (!set.lift.base().same_as(lifter.base.base()) || date < set.date) continue;
    if (!days || date - set.date < *days) days = date - set.date;
  }
  return days;
}

inline std::optional<Comeback> comeback_on(const Lifter& lifter, Date date) {
  std::vector<Date> days;
  for (const LoggedSet& set : lifter.sets) {
    if (set.lift.base().same_as(lifter.base.base()) && set.date < date) days.push_back(set.date);
  }
  days.push_back(date);
  std::sort(days.begin(), days.end());
  const ComebackRule rule = lifter.rules.comeback();
  std::optional<Date> returned;
  int layoff = 0;
  for (std::size_t i = 1; i < days.size(); ++i) {
    const int off = days[i] - days[i - 1];
    if (off <= lifter.rules.layoff_days) continue;
    // A shorter one on the way back from a longer one makes up for nothing.
    const bool was_on_the_way = returned && comeback(layoff, days[i - 1] - *returned, rule);
    layoff = was_on_the_way ? std::max(layoff, off) : off;
    returned = days[i];
  }
  if (!returned) return std::nullopt;
  return comeback(layoff, date - *returned, rule);
}

inline std::vector<PastSession> past_sessions(const Lifter& lifter, const Lift& lift, Date last) {
  std::vector<const LoggedSet*> order;
  for (const LoggedSet& set : lifter.sets) {
    if (set.lift.same_as(lift) && !(last < set.date) && set.load > Mass{}) order.push_back(&set);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const LoggedSet* a, const LoggedSet* b) { return a->date < b->date; });
  std::vector<PastSession> sessions;
  for (const LoggedSet* const set : order) {
    if (sessions.empty() || sessions.back().date != set->date) {
      sessions.push_back({.date = set->date, .top = *set});
    }
    PastSession& session = sessions.back();
    const bool is_missed = set->outcome == Outcome::missed;
    const bool is_empty = set->reserve && set->reserve->typical == RepsInReserve{};
    session.has_miss = session.has_miss || is_missed;
    session.may_have_miss = session.may_have_miss || set->may_be_missed;
    session.left_nothing = session.left_nothing || is_missed || is_empty;
    if (set->load >= session.top.load) session.top = *set;
    session.sets.push_back(*set);
  }
  return sessions;
}

inline std::optional<Date> last_day(std::span<const LoggedSet> sets, const PlanningRules& rules) {
  std::optional<Date> last;
  std::optional<Date> before;
  for (const LoggedSet& set : sets) {
    if (!last || *last < set.date) {
      before = std::exchange(last, set.date);
    } else if (set.date < *last && (!before || *before < set.date)) {
      before = set.date;
    }
  }
  if (last && before && *last - *before > rules.doubtful_gap_days) return std::nullopt;
  return last;
}

namespace detail {

[[nodiscard]] inline bool is_for_the_same_half(const Lifter& lifter, const Lift& lift) noexcept {
  return lift.base().region == lifter.base.base().region;
}

/// The last day before one on which there was a set for which `counts`: a warm-up of the day itself
/// answers nothing.
template <class Counts>
[[nodiscard]] std::optional<Date> last_day_with(const Lifter& lifter, Date date,
                                                const Counts& counts) {
  std::optional<Date> last;
  const auto look_at = [&](const LoggedSet& set) {
    if (!(set.date < date) || !counts(set)) return;
    if (!last || *last < set.date) last = set.date;
  };
  for (const LoggedSet& set : lifter.sets) look_at(set);
  for (const SuspectSet& suspect : lifter.suspects) look_at(suspect.set);
  return last;
}

/// Days in which a note of pain could have been answered by training, from it to the last day
/// trained; 0 where its date is after the day: the date is the slip.
[[nodiscard]] inline int age_of_pain(Date noted, std::optional<Date> last_trained) {
  return last_trained ? std::max(*last_trained - noted, 0) : 0;
}

/// Of the sets for which `counts`, those after the day included of which something was noted, the
/// last.
template <class Counts>
[[nodiscard]] std::optional<LoggedSet> last_noted(const Lifter& lifter, const Counts& counts) {
  std::optional<LoggedSet> last;
  const auto look_at = [&](const LoggedSet& set) {
    if (!counts(set)) return;
    if (!last || last->date < set.date) last = set;
  };
  for (const LoggedSet& set : lifter.sets) look_at(set);
  for (const SuspectSet& suspect : lifter.suspects) look_at(suspect.set);
  for (const LoggedSet& set : lifter.later_that_hurt) look_at(set);
  return last;
}

/// The same of those that training has not answered.
/// @param answers  the sets that can
template <class Answers, class Counts>
[[nodiscard]] std::optional<LoggedSet> last_unanswered(const Lifter& lifter, Date date,
                                                       const Answers& answers,
                                                       const Counts& counts) {
  const auto trained = last_day_with(lifter, date, answers);
  return last_noted(lifter, [&](const LoggedSet& set) {
    return counts(set) && age_of_pain(set.date, trained) <= lifter.rules.pain_days;
  });
}

[[nodiscard]] inline std::optional<Date> day_of(const std::optional<LoggedSet>& set) {
  return set ? std::optional(set->date) : std::nullopt;
}

[[nodiscard]] inline bool is_any(const LoggedSet&) noexcept { return true; }

/// The last day before one on which the lift was done, in any form.
[[nodiscard]] inline std::optional<Date> last_day_of_lift(const Lifter& lifter, Date date) {
  return last_day_with(lifter, date, [&](const LoggedSet& set) {
    return set.lift.base().same_as(lifter.base.base());
  });
}

/// The later of two days, of which there may be none.
[[nodiscard]] inline std::optional<Date> later_of(std::optional<Date> a, std::optional<Date> b) {
  return b && (!a || *a < *b) ? b : a;
}

/// Of the days of which no set says so, those for which `counts`, the last.
template <class Counts>
[[nodiscard]] std::optional<Date> last_day_noted(const Lifter& lifter, const Counts& counts) {
  std::optional<Date> last;
  for (const NotedDay& noted : lifter.noted) {
    if (counts(noted)) last = later_of(last, noted.date);
  }
  return last;
}

/// The same of those that training has not answered: of a known lift by lifts for the same half.
template <class Counts>
[[nodiscard]] std::optional<Date> last_day_unanswered(const Lifter& lifter, Date date,
                                                      const Counts& counts) {
  const auto by_any = last_day_with(lifter, date, is_any);
  const auto by_half = last_day_with(
      lifter, date, [&](const LoggedSet& set) { return is_for_the_same_half(lifter, set.lift); });
  return last_day_noted(lifter, [&](const NotedDay& noted) {
    const bool is_of_half = noted.lift && is_for_the_same_half(lifter, *noted.lift);
    const int age = age_of_pain(noted.date, is_of_half ? by_half : by_any);
    return counts(noted) && age <= lifter.rules.pain_days;
  });
}

/// Whether what was noted of a day hurt in a lift for the same half, or in one that nobody knows.
[[nodiscard]] inline bool may_have_hurt_half(const Lifter& lifter, const NotedDay& noted) {
  return noted.hurts && (!noted.lift || is_for_the_same_half(lifter, *noted.lift));
}

}  // namespace detail

inline std::optional<Date> last_pain(const Lifter& lifter, Date date) {
  const auto noted = detail::last_day_unanswered(
      lifter, date, [&](const NotedDay& each) { return detail::may_have_hurt_half(lifter, each); });
  return detail::later_of(detail::day_of(set_that_hurt(lifter, date)), noted);
}

inline std::optional<Date> earlier_pain(const Lifter& lifter, Date date) {
  if (last_pain(lifter, date)) return std::nullopt;
  const auto noted = detail::last_day_noted(lifter, [&](const NotedDay& each) {
    return detail::may_have_hurt_half(lifter, each) && date - each.date <= lifter.rules.stale_days;
  });
  return detail::later_of(detail::day_of(set_that_hurt_before(lifter, date)), noted);
}

inline std::optional<Date> last_pain_elsewhere(const Lifter& lifter, Date date) {
  const auto noted = detail::last_day_unanswered(lifter, date, [&](const NotedDay& each) {
    return each.hurts && !detail::may_have_hurt_half(lifter, each);
  });
  return detail::later_of(detail::day_of(set_that_hurt_elsewhere(lifter, date)), noted);
}

inline std::optional<Date> last_unwell(const Lifter& lifter, Date date) {
  const auto by_any = detail::last_day_with(lifter, date, detail::is_any);
  const auto noted = detail::last_day_noted(lifter, [&](const NotedDay& each) {
    return each.is_unwell && detail::age_of_pain(each.date, by_any) <= lifter.rules.pain_days;
  });
  return detail::later_of(detail::day_of(set_of_unwell(lifter, date)), noted);
}

inline std::optional<Date> earlier_unwell(const Lifter& lifter, Date date) {
  if (last_unwell(lifter, date)) return std::nullopt;
  const auto noted = detail::last_day_noted(lifter, [&](const NotedDay& each) {
    return each.is_unwell && date - each.date <= lifter.rules.unwell_days;
  });
  return detail::later_of(detail::day_of(set_of_earlier_unwell(lifter, date)), noted);
}

inline std::optional<LoggedSet> set_that_hurt(const Lifter& lifter, Date date) {
  const auto is_of_half = [&](const LoggedSet& set) {
    return detail::is_for_the_same_half(lifter, set.lift);
  };
  return detail::last_unanswered(lifter, date, is_of_half, [&](const LoggedSet& set) {
    return set.has_pain && is_of_half(set);
  });
}

inline std::optional<LoggedSet> set_that_hurt_before(const Lifter& lifter, Date date) {
  if (set_that_hurt(lifter, date)) return std::nullopt;
  return detail::last_noted(lifter, [&](const LoggedSet& set) {
    return set.has_pain && detail::is_for_the_same_half(lifter, set.lift) &&
           date - set.date <= lifter.rules.stale_days;
  });
}

inline std::optional<LoggedSet> set_that_hurt_elsewhere(const Lifter& lifter, Date date) {
  return detail::last_unanswered(lifter, date, detail::is_any, [&](const LoggedSet& set) {
    return set.has_pain && !detail::is_for_the_same_half(lifter, set.lift);
  });
}

inline std::optional<Date> last_may_hurt(const Lifter& lifter, Date date) {
  return detail::day_of(set_that_may_hurt(lifter, date));
}

inline std::optional<LoggedSet> set_that_may_hurt(const Lifter& lifter, Date date) {
  return detail::last_unanswered(lifter, date, detail::is_any, [](const LoggedSet& set) {
    return set.may_hurt && !set.has_pain;
  });
}

inline std::optional<LoggedSet> set_that_may_be_missed(const Lifter& lifter, Date date) {
  const auto last = detail::last_day_of_lift(lifter, date);
  return detail::last_noted(lifter, [&](const LoggedSet& set) {
    return set.may_be_missed && set.lift.base().same_as(lifter.base.base()) &&
           !(last && set.date < *last);
  });
}

inline std::optional<LoggedSet> last_doubted_set(const Lifter& lifter, Date date) {
  return detail::last_noted(lifter, [&](const LoggedSet& set) {
    return set.may_be_missed && set.lift.base().same_as(lifter.base.base()) && !(date < set.date);
  });
}

inline std::optional<Date> last_doubted_day(const Lifter& lifter, Date date) {
  return detail::day_of(last_doubted_set(lifter, date));
}

inline std::optional<Date> unread_miss(const Lifter& lifter, Date date) {
  const auto last = detail::last_day_of_lift(lifter, date);
  return detail::last_day_noted(lifter, [&](const NotedDay& noted) {
    const bool may_be_lift = !noted.lift || noted.lift->base().same_as(lifter.base.base());
    return noted.is_missed && may_be_lift && last && !(noted.date < *last);
  });
}

inline std::optional<Date> last_may_be_missed(const Lifter& lifter, Date date) {
  return detail::later_of(detail::day_of(set_that_may_be_missed(lifter, date)),
                          unread_miss(lifter, date));
}

inline std::optional<LoggedSet> set_of_unwell(const Lifter& lifter, Date date) {
  return detail::last_unanswered(lifter, date, detail::is_any,
                                 [](const LoggedSet& set) { return set.is_unwell; });
}

inline std::optional<LoggedSet> set_of_earlier_unwell(const Lifter& lifter, Date date) {
  if (set_of_unwell(lifter, date)) return std::nullopt;
  return detail::last_noted(lifter, [&](const LoggedSet& set) {
    return set.is_unwell && date - set.date <= lifter.rules.unwell_days;
  });
}

}  // namespace barwright::inline BARWRIGHT_ABI
