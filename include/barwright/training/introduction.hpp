// barwright/training/introduction.hpp - how to start a lift that is new to the lifter
//
// The first sessions of a new variation are for learning it. Its max is carried over from the main
// lift at the low end of what it may be; the first load is well below that, sets stop early, and
// each step has a condition. A rise of 5 to 10 % over the first three or four sessions is practice,
// not strength (Ritti-Dias et al. 2011, Soares-Caldeira et al. 2009; abstracts read).
//
// No trial of an introduction was found: the plan is this library's inference from first test loads
// (50-70 % of perceived capacity: ACSM's Guidelines, 9th ed. 2014, read), load steps of 2-10 %
// (ACSM 2009, abstract read) and common practice for movements without shoulder-blade retraction,
// which start near 50 % and not 70 % (no source).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/training/prescription.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline constexpr Source introduction_source = assumption(
    "inferred from first test loads and load steps of the ACSM (2014 and 2009) and from common "
    "practice; no trial of an introduction was found");

/// Whether a variation is the plain lift with a narrower grip, a pause or a slow lowering, and
/// nothing else: somebody who knows the plain lift need not be introduced to it, only begin with
/// more in reserve (common practice, no source).
[[nodiscard]] constexpr bool is_close_to_plain(const Lift& lift) noexcept {
  for (const Modifier& modifier : lift.modifiers()) {
    const bool is_close = modifier.sets_any_of(Setup::grip_width) ||
                          modifier.sets_any_of(Setup::turnaround) ||
                          modifier.sets_any_of(Setup::lowering);
    const bool is_other = modifier.sets_any_of(
        Setup::bench_angle | Setup::implement | Setup::surface | Setup::feet | Setup::back |
        Setup::range_of_motion | Setup::bar_position | Setup::stance | Setup::posture);
    if (!is_close || is_other) return false;
  }
  return true;
}

/// One session of an introduction.
struct Exposure {
  int number = 1;  ///< 1 for the first time the lift is done
  Mass load{};     ///< not rounded; round it down
  int sets = 3;
  Reps reps{6};
  RepsInReserve least_reserve{4.0};  ///< stop every set with at least this many left
  bool has_reached_working_load = false;
  std::string_view before_next{};  ///< what must be true before the next one
};

/// The first four to six sessions of a lift that is new.
class Introduction {
 public:
  static constexpr std::size_t fewest = 4;
  static constexpr std::size_t most = 6;

  [[nodiscard]] constexpr std::size_t size() const noexcept { return size_; }
  [[nodiscard]] constexpr const Exposure* begin() const noexcept { return exposures_.data(); }
  [[nodiscard]] constexpr const Exposure* end() const noexcept { return exposures_.data() + size_; }
  [[nodiscard]] constexpr const Exposure& operator[](std::size_t index) const noexcept {
    return exposures_[index];
  }
  /// What the lift's max is taken to be: the low end of what it may be.
  [[nodiscard]] constexpr Mass assumed_max() const noexcept { return assumed_max_; }
  /// The load the plan works up to.
  [[nodiscard]] constexpr Mass working_load() const noexcept { return working_load_; }

 private:
  template <RepCurve C>
  friend constexpr Introduction introduce(const C&, const Lift&, Mass, Reps, RepsInReserve);

  std::array<Exposure, most> exposures_{};
  std::size_t size_ = 0;
  Mass assumed_max_{};
  Mass working_load_{};
};

/// The first sessions of `lift`, for a lifter with this max on its base lift who is to end up doing
/// sets of `reps` with `reserve` left.
///
/// Starts at the lift's starting share of its assumed max and adds at most 10 % a session until the
/// working load. Sets are 5 to 8 reps, nearest to those asked for. The first three sessions
/// leave at least 4 in reserve and the next at least 3, or more where more was asked for.
/// @param curve  for the plain lift; the lift's own rep stretch is put on it
/// @throws DomainError if the curve is not defined for so many reps.
template <RepCurve C>
[[nodiscard]] constexpr Introduction introduce(const C& curve, const Lift& lift, Mass base_max,
                                               Reps reps, RepsInReserve reserve) {
  constexpr double greatest_step = 1.10;
  constexpr int learning_sessions = 3;
  const Reps done(reps.count() < 5 ? 5 : reps.count() > 8 ? 8 : reps.count());
  const auto at_least = [&](double count) {
    return reserve.count() > count ? reserve : RepsInReserve(count);
  };
  const auto own_curve = lift.curve(anchored(curve));

  Introduction plan;
  plan.assumed_max_ = lift.max_from(base_max).low;
  plan.working_load_ = load_for(own_curve, plan.assumed_max_, done, at_least(3.0));
  Mass learning_load = load_for(own_curve, plan.assumed_max_, done, at_least(4.0));
  // The same set may come out a rounding heavier the second time, where multiply-add is one step.
  if (learning_load > plan.working_load_) learning_load = plan.working_load_;
  Mass load = plan.assumed_max_ * lift.starting_share();
  for (std::size_t i = 0; i < Introduction::most; ++i) {
    const bool is_learning = i < learning_sessions;
    const Mass limit = is_learning ? learning_load : plan.working_load_;
    if (i > 0) load = load * greatest_step;
    if (load > limit) load = limit;
    Exposure& exposure = plan.exposures_[plan.size_++];
    exposure.number = static_cast<int>(i) + 1;
    exposure.load = load;
    exposure.reps = done;
    exposure.least_reserve = at_least(is_learning ? 4.0 : 3.0);
    exposure.has_reached_working_load = !is_learning && load == limit;
    exposure.before_next =
        i == 0
            ? "there was no pain and the bar took the same path on every rep; otherwise repeat it"
        : is_learning ? "every set stopped at the RIR asked for, the last rep as clean as the "
                        "first; otherwise repeat it"
        : exposure.has_reached_working_load
            ? "three sessions agree on the RIR: from now on go by the logged sets, not by the "
              "assumed 1RM"
            : "every rep was made, at the RIR asked for in every set; otherwise repeat it";
    if (plan.size_ >= Introduction::fewest && exposure.has_reached_working_load) break;
  }
  return plan;
}

}  // namespace barwright::inline BARWRIGHT_ABI
