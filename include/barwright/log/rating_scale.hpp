// barwright/log/rating_scale.hpp - whether a log's reps in reserve are what they say
//
// Two scales of effort are in use and run against each other: a hard set is 2 by the one (reps in
// reserve) and 8 by the other (RPE). A lifter who writes RPE under "reps in reserve" has written
// that eight more would have gone up where two would, and every load that rests on it is too heavy
// by a quarter. No single set shows the mistake; a log does. Working sets are as a
// rule stopped with few in reserve, and rated 6 to 10 on the other scale. And the harder of two
// sets, the one with more on the bar or more reps, has the smaller reserve and the higher RPE: read
// by the right scale the sets agree on one max, read by the wrong one they do not. And no exertion
// is rated above 10.
//
// All are weighed as a logarithm of odds. The figures of the first are assumptions, so levels
// alone leave it open, and the planners then go up by a small step at most.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <span>
#include <vector>

#include "barwright/lifts/base_lift.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What the ratings of a log are, whatever their column is called.
enum class RatingScale : unsigned char {
  as_found,         ///< nobody said: as they read, see `ratings_read`
  reps_in_reserve,  ///< somebody who knows says so
  rpe,              ///< what stands as reps in reserve is RPE
};

/// The logarithm of the odds that what stands as reps in reserve is RPE, by one lifter's sets of
/// any lifts, in any order; those of one day in theirs. Before the first set one log in fifty is
/// taken to be so (assumption).
[[nodiscard]] double log_odds_of_rpe(std::span<const LoggedSet> sets);

/// What the ratings of a log read like.
enum class RatingsRead : unsigned char {
  as_reserve,
  unclear,  ///< either: the odds that they are RPE are above one to twelve
  as_rpe,   ///< they are RPE rather than reps in reserve by nearly three to one, or more
};
[[nodiscard]] RatingsRead ratings_read(std::span<const LoggedSet> sets);

/// What those of one lift and its variations read like: some low ratings of another lift do not
/// settle it, but those of six days do (assumption), where the lift's own leave it open.
[[nodiscard]] RatingsRead ratings_read(std::span<const LoggedSet> sets, const BaseLift& lift);

/// The sets with what stands as reps in reserve read as RPE: 8 is 2 left, and below 5 nobody knows,
/// and above 10 there is none, so such sets count as not rated.
[[nodiscard]] std::vector<LoggedSet> read_as_rpe(std::span<const LoggedSet> sets);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/rating_scale.ipp"
#endif
