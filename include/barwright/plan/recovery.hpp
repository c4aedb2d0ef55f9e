// barwright/plan/recovery.hpp - whether a session comes too soon after what the log holds
//
// The rules of spacing are those of a week (training/spacing.hpp). A log adds what they cannot
// know: which sets without a rating were only warm-ups, whether a session counts as hard for want
// of a rating, and which day would be free of all that.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// A muscle group trained hard too short a while before.
struct RecoveryConflict {
  SpacingConflict conflict{};
  Date earlier;
  bool is_rated = true;  ///< false: taken as hard for want of a rating
};

/// What a session comes too soon after.
struct Recovery {
  std::vector<RecoveryConflict> conflicts{};
  std::optional<Date> ready_on{};  ///< the first day that none of them speaks against
  bool is_second_today = false;    ///< the lift had all its work sets on the day already

  [[nodiscard]] bool is_too_soon() const noexcept { return !conflicts.empty() || is_second_today; }
};

/// The least to leave in every set, for a session not to count as hard.
[[nodiscard]] inline RepsInReserve easy_reserve() {
  return RepsInReserve(SpacingRule{}.most_reserve_of_hard_set.count() + 1.0);
}

/// Whether a set without a rating is so light that it can only have been a warm-up: below a share
/// of the heaviest of its lift so far.
[[nodiscard]] bool is_warm_up(const LoggedSet& set, std::span<const LoggedSet> log,
                              double warm_up_below);

/// What a lift planned for a day comes too soon after.
[[nodiscard]] Recovery recovery_of(std::span<const LoggedSet> log, const PlannedLift& planned,
                                   Date date, double warm_up_below);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/recovery.ipp"
#endif
