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

  /// What training brings a week in the long run: raw lifters gain 4 to 6 % a year.
  double gain = 0.001;
  /// What it brings beside that when a log, and as a rule a program, begins, and the weeks over
  /// which that fades. Together 0.54 % a week over the first twelve, as 289 trained people gained
  /// on three machines (0.48 to 0.60).
  double early_gain = 0.0055;
  double early_weeks = 26.0;
  /// The same of a novice: 2.3 % a week over the first twelve, as untrained people gained on the
  /// bench press.
  double novice_gain = 0.030;
  double novice_weeks = 17.0;
  /// How far one lifter's trend lies from that: standard deviation of the change a week, and the
  /// weeks over which it is forgotten.
  double trend_sd = 0.005;
  double novice_trend_sd = 0.010;
  double trend_weeks = 26.0;
  /// After so many days without the lift so much is lost a week, less and less as the weeks go by,
  /// and how far people differ in it: a gap in a log is not always a gap in training.
  int layoff_days = 14;
  double layoff_loss = 0.020;
  double layoff_loss_sd = 0.015;
  /// How far the level wanders beside its trend, in the square root of a week.
  double level_walk = 0.020;
  /// The form of the day, the same for all sets of the lift and its variations. Between one set to
  /// failure and that of the next day people differ by 2.7 %, this and the noise of a set together;
  /// the same sets in one visit and in three (14 men, computed) put most of it on the day.
  double day_sd = 0.025;
  /// What differs between one set and the next, beside what it costs.
  double set_sd = 0.010;
  /// Lifters are steady or not: one factor of their own on the walk, the form and the noise of a
  /// set; standard deviation of its logarithm.
  double steadiness_log_sd = 0.25;
  /// Lost with each earlier work set of the lift on that day.
  double set_loss = 0.012;
  double set_loss_sd = 0.008;
  /// How far the ratio of a modifier wanders, in the square root of a week.
  double ratio_walk = 0.003;

  /// The lifter's own stretch of the curve: mean and standard deviation of its logarithm. Trained
  /// lifters last longer beyond the first rep than the base curve says:
  /// 1.23 times (14 trained men, bench press; 1.14 to 1.34, sd of the logarithm 0.17), 1.17 (women,
  /// 0.30), 0.88 (girls, leg press, 0.21): the sd is as wide as these lie apart.
  double stretch_log = 0.20;
  double stretch_log_sd = 0.37;
  /// How the lifter's curve is bent against the base curve (shaped_curve.hpp): those men's maxes by
  /// it are 4.5, 6.7 and 6.3 % too high at 90, 80 and 70 %.
  double bend = -0.30;
  double bend_sd = 0.22;

  /// What a rating leaves unsaid (true less stated reserve), reps; half a rep less for
  /// `Experience::novice`.
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
