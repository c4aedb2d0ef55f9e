// barwright/learn/strength_settings.hpp - what a strength model is of, and what became of each set
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/curves/equations.hpp"
#include "barwright/learn/model/curve_table.hpp"
#include "barwright/learn/model/strength_priors.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What a model is of.
struct StrengthSettings {
  Lift reference = lifts::bench_press;  ///< the lift without changes that ratios are against
  CurveTable curve = equations::wathen;
  Experience experience = Experience::experienced;
  std::vector<Lift> new_lifts{};  ///< lifts whose first set in the log was the lifter's first ever
  /// Whether a variation that the log does not have is new to the lifter, but for `known_lifts`.
  bool unlogged_is_new = false;
  std::vector<Lift> known_lifts{};  ///< done before the log began
  StrengthPriors priors{};
};

/// What became of one logged set.
struct SetReport {
  enum class Use : unsigned char {
    used,
    suspicious,       ///< fits too badly: left out; look for a typing error
    other_base_lift,  ///< not a variation of the reference lift: left out
    no_load,          ///< nothing on the bar: says nothing
  };
  Use use = Use::used;
  /// How many standard deviations the set lies from what all other sets predict, on the scale of
  /// the load: positive when more was lifted than they predict. 0 for sets that were not judged.
  double surprise = 0.0;
  /// The max on the reference lift times this is the max on this lift, by all sets; 1 where unused.
  double expected_ratio = 1.0;
  Mass expected_load{};  ///< the load that would have surprised nobody; zero where not judged
};

}  // namespace barwright::inline BARWRIGHT_ABI
