// barwright/learn/model/strength_priors.hpp - what is believed of a lifter before the first set
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/lifts/learning_gain.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What is believed before the first set. All of it can be replaced; ratios and stretches of
/// modifiers come from the modifiers themselves. Shares are of the max, so 0.01 is 1 %.
struct StrengthPriors {
  /// The max on the reference lift: median and the standard deviation of its logarithm. Wide: a
  /// single set outweighs it.
  Mass max = Mass::from_kg(80.0);
  double max_log_sd = 0.6;

  /// The trend: standard deviation of the change a week, and the weeks over which it is forgotten.
  double trend_sd = 0.004;
  double trend_weeks = 26.0;
  /// How far the level wanders beside its trend, in the square root of a week.
  double level_walk = 0.006;
  /// The form of the day, the same for all lifts of one day. Retests of a max vary by 4.2 % in the
  /// median study, 3 % for each of two days (Grgic et al. 2020, abstract read).
  double day_sd = 0.025;
  /// Lost with each earlier work set of the lift on that day.
  double set_loss = 0.012;
  double set_loss_sd = 0.008;
  /// How far the ratio of a modifier wanders, in the square root of a week.
  double ratio_walk = 0.003;

  /// The lifter's own stretch of the curve: standard deviation of its logarithm. Between-person
  /// variation of repetitions at one share of the max is 9 to 33 % (bench press, 14 men; abstract
  /// read).
  double stretch_log_sd = 0.20;
  /// How much the lifter's curve is bent against the base curve (shaped_curve.hpp): as far as the
  /// published equations differ among themselves.
  double bend_sd = 0.25;

  /// What a rating leaves unsaid (true less stated reserve), repetitions; half a repetition less
  /// for `Experience::novice`.
  double rating_bias = 0.5;
  double rating_bias_sd = 0.5;
  /// A set without a rating is taken to have had about this many left.
  double unrated_reserve = 2.5;
  double unrated_reserve_sd = 2.0;
  /// Ratings above this say "at least so many", no more.
  double most_counted_reserve = 5.0;

  /// A lift marked new has this much to gain from practice alone, and keeps this share of the rest
  /// from one session to the next: most of it is gone after three or four.
  Range<double> learning_gain = barwright::learning_gain.value;
  double learning_kept = 0.5;

  /// A set that fits worse than this many standard deviations is named suspicious and left out.
  double most_surprise = 4.5;
};

}  // namespace barwright::inline BARWRIGHT_ABI
