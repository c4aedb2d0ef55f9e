// barwright/log/rating_scale.ipp - the bodies of rating_scale.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/rating_scale.hpp"

namespace barwright::inline BARWRIGHT_ABI {
namespace detail {

/// The share of the heaviest load from which a set is work; lighter ones are warm-ups.
inline constexpr double working_share = 2.0 / 3.0;

/// The logarithm of the max that a set implies, and its variance.
struct ImpliedMax {
  double mean = 0.0;
  double variance = 0.0;
};

/// @param reserve  as the scale has it; nothing for a missed set
[[nodiscard]] inline ImpliedMax implied_max(const LoggedSet& set, std::optional<double> reserve) {
  constexpr double most_reps = 20.0;  // further the curve is flat
  const double left = reserve.value_or(-1.0);
  const double reps = std::clamp(set.reps.count() + left, 1.0, most_reps);
  const double error =
      reserve ? rating_error(left, reps, Experience::experienced).standard_deviation : 0.5;
  const auto log_fraction = [](double r) { return std::log(equations::wathen.fraction(r)); };
  const double slope = log_fraction(reps + 0.5) - log_fraction(std::max(1.0, reps - 0.5));
  constexpr double form = 0.025;  // of a day
  return {std::log(set.load.kg()) - log_fraction(reps),
          slope * slope * error * error + form * form};
}

/// How well a change of the max from one set to the next fits.
[[nodiscard]] inline double log_fit_of(const ImpliedMax& before, const ImpliedMax& now) {
  const double variance = before.variance + now.variance;
  const double change = now.mean - before.mean;
  return -0.5 * (change * change / variance + std::log(variance));
}

/// What the levels of the ratings say: the mean of each day's working sets of each lift.
[[nodiscard]] inline double log_odds_by_level(const std::vector<const LoggedSet*>& rated) {
  struct Day {
    double heaviest = 0.0;
    double sum = 0.0;
    int sets = 0;
  };
  std::map<std::pair<LiftId, Date>, Day> days;
  const auto day_of = [&](const LoggedSet& set) -> Day& {
    return days[{LiftId(set.lift), set.date}];
  };
  for (const LoggedSet* const set : rated) {
    Day& day = day_of(*set);
    day.heaviest = std::max(day.heaviest, set->load.kg());
  }
  for (const LoggedSet* const set : rated) {
    Day& day = day_of(*set);
    if (!set->reserve || set->load.kg() < working_share * day.heaviest) continue;
    day.sum += set->reserve->typical.count();
    ++day.sets;
  }
  constexpr double even = 5.0;  // a mean that either may have
  constexpr double for_each_rep = 1.5;
  constexpr double most_of_a_day = 2.0;
  constexpr double least_of_a_day = -3.0;
  constexpr double most = 4.5;  // days are alike: easy training is a habit, too
  double odds = 0.0;
  for (const auto& [lift_and_date, day] : days) {
    if (day.sets == 0) continue;
    odds += std::clamp(for_each_rep * (day.sum / day.sets - even), least_of_a_day, most_of_a_day);
  }
  return std::min(odds, most);
}

/// What ratings above ten say: exertion is rated up to ten, so they are reps in reserve, or slips.
/// Far lighter sets than a lift's heaviest say nothing of how its work is rated.
[[nodiscard]] inline double log_odds_by_range(const std::vector<const LoggedSet*>& rated) {
  constexpr double most_exertion = 10.0;
  constexpr double for_each_set = -2.0;
  std::map<LiftId, double> heaviest;
  for (const LoggedSet* const set : rated) {
    double& most = heaviest[LiftId(set->lift)];
    most = std::max(most, set->load.kg());
  }
  const auto above = std::count_if(rated.begin(), rated.end(), [&](const LoggedSet* set) {
    return set->reserve && set->reserve->typical.count() > most_exertion &&
           set->load.kg() >= working_share * heaviest[LiftId(set->lift)];
  });
  return for_each_set * static_cast<double>(above);
}

/// What it says that the sets of a lift, one after the other, should imply much the same max.
[[nodiscard]] inline double log_odds_by_agreement(const std::vector<const LoggedSet*>& rated) {
  constexpr int longest_gap = 21;  // days between two sets that are compared
  constexpr double most = 2.0;     // for one pair
  // Neighbouring pairs share a set, so each counts half.
  constexpr double weight = 0.5;
  double odds = 0.0;
  std::map<LiftId, const LoggedSet*> last;
  for (const LoggedSet* const set : rated) {
    const auto [before, is_first] = last.try_emplace(LiftId(set->lift), set);
    if (is_first) continue;
    const LoggedSet& earlier = *std::exchange(before->second, set);
    if (set->date - earlier.date > longest_gap) continue;
    // The same again tells nothing: ratings of one kind of set err together.
    if (set->load == earlier.load && set->reps == earlier.reps && set->outcome == earlier.outcome) {
      continue;
    }
    const auto fit = [&](bool as_rpe) {
      const auto of = [&](const LoggedSet& each) {
        if (!each.reserve) return implied_max(each, std::nullopt);
        const double stated = each.reserve->typical.count();
        return implied_max(each, as_rpe ? std::max(0.0, 10.0 - stated) : stated);
      };
      return log_fit_of(of(earlier), of(*set));
    };
    odds += weight * std::clamp(fit(true) - fit(false), -most, most);
  }
  return odds;
}

}  // namespace detail

inline double log_odds_of_rpe(std::span<const LoggedSet> sets) {
  std::vector<const LoggedSet*> rated;
  for (const LoggedSet& set : sets) {
    const bool says_something = set.reserve || set.outcome == Outcome::missed;
    if (says_something && set.load > Mass{}) rated.push_back(&set);
  }
  std::stable_sort(rated.begin(), rated.end(),
                   [](const LoggedSet* a, const LoggedSet* b) { return a->date < b->date; });
  constexpr double before = -4.0;
  return before + detail::log_odds_by_level(rated) + detail::log_odds_by_range(rated) +
         detail::log_odds_by_agreement(rated);
}

inline RatingsRead ratings_read(std::span<const LoggedSet> sets) {
  constexpr double clear = 1.0;
  constexpr double in_doubt = -2.5;
  const double odds = log_odds_of_rpe(sets);
  if (odds > clear) return RatingsRead::as_rpe;
  return odds > in_doubt ? RatingsRead::unclear : RatingsRead::as_reserve;
}

inline RatingsRead ratings_read(std::span<const LoggedSet> sets, const BaseLift& lift) {
  constexpr std::size_t days_that_settle = 6;
  const RatingsRead all = ratings_read(sets);
  std::vector<LoggedSet> own;
  std::set<Date> days_of_others;
  for (const LoggedSet& set : sets) {
    if (set.lift.base().same_as(lift)) {
      own.push_back(set);
    } else if (set.reserve) {
      days_of_others.insert(set.date);
    }
  }
  const RatingsRead by_own = ratings_read(own);
  if (all == RatingsRead::as_rpe || by_own == RatingsRead::as_reserve) return all;
  const bool is_settled =
      by_own == RatingsRead::unclear && days_of_others.size() >= days_that_settle;
  return is_settled ? all : RatingsRead::unclear;
}

inline std::vector<LoggedSet> read_as_rpe(std::span<const LoggedSet> sets) {
  std::vector<LoggedSet> read(sets.begin(), sets.end());
  for (LoggedSet& set : read) {
    if (!set.reserve || set.outcome == Outcome::missed) continue;
    const double rating = set.reserve->typical.count();
    set.reserve = Rpe::is_valid(rating) ? reps_in_reserve(Rpe(rating)) : std::nullopt;
  }
  return read;
}

}  // namespace barwright::inline BARWRIGHT_ABI
