// barwright/training/max_test.hpp - a test of the max: light sets, then single reps
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>

#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/training/warm_up.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source max_test_source{
    .citation = "ACSM's Guidelines for Exercise Testing and Prescription, 9th ed. 2014",
    .population = "adults",
    .evidence = Evidence::handbook,
    .reading = Reading::read,
    .note =
        "practice and light sets first, a first load of 50 to 70 % of what is expected, steps "
        "of 2.5 to 20 kg, at most 4 trials with 3 to 5 minutes between. The shares are common "
        "practice: the light sets go to 80 %, so that none of the four trials is spent on them"};

/// A test of the max: light sets up to 80 %, then single reps, one set each, until one is
/// missed. The last one lifted in good form is the max.
struct MaxTest {
  static constexpr std::size_t most_trials = 4;
  static constexpr int least_rest_minutes = 3;  ///< between trials
  static constexpr int most_rest_minutes = 5;

  WarmUp practice{};
  std::array<Mass, most_trials> trials{};
  std::size_t count = 0;  ///< of trials
  /// After the last trial, where that was clean and more was left: one small step, the fifth trial
  /// that coaches allow and the guideline does not.
  Mass one_more{};

  [[nodiscard]] constexpr const Mass* begin() const noexcept { return trials.data(); }
  [[nodiscard]] constexpr const Mass* end() const noexcept { return trials.data() + count; }
};

/// A test for a lifter who is expected to have this max: light sets of 40, 60, 70 and 80 % for 6,
/// 4, 2 and 1, then trials near 85, 92.5, 97.5 and 100 % of it, and one of 2.5 % more for whoever
/// has something left: steps grow smaller towards the max, as its last steps decide it. Lifters in
/// meets go from 91 % to 96 % to 100 % of what they end with (see attempts.hpp).
///
/// Who has more left than that is stronger than expected: that is for another day. What must be
/// true before a max attempt is in caution.hpp.
///
/// @param lightest, nearest  as for `warm_up`
/// @returns no trial where the max expected is not above `lightest`.
template <LoadFinder Nearest = AnyLoad>
[[nodiscard]] constexpr MaxTest max_test(Mass lightest, Mass expected,
                                         BarStart start = BarStart::rack,
                                         const Nearest& nearest = {}) {
  constexpr detail::WarmUpStep light[] = {{0.40, 6}, {0.60, 4}, {0.70, 2}, {0.80, 1}};
  constexpr double shares[] = {0.85, 0.925, 0.975, 1.00};
  MaxTest test;
  if (!(expected > lightest)) return test;
  test.practice = detail::warm_up_by(light, 0.10, lightest, expected, start, nearest);
  Mass before = lightest;
  for (const WarmUpSet& set : test.practice) before = set.load;
  for (const double share : shares) {
    const Mass load = nearest(expected * share);
    if (!(load > before)) continue;
    test.trials[test.count++] = load;
    before = load;
  }
  test.one_more = nearest(expected * 1.025);
  if (!(test.one_more > before)) test.one_more = Mass{};
  return test;
}

}  // namespace barwright::inline BARWRIGHT_ABI
