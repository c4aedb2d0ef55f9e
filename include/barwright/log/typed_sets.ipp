// barwright/log/typed_sets.ipp - the bodies of typed_sets.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/log/typed_sets.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline Parsed<LoggedSet> to_typed_set(std::string_view typed, const Lift& lift, Date date,
                                      Unit unit, DumbbellLoads dumbbells) {
  const auto refused = [&](std::string_view problem) {
    const std::string_view shown = typed.substr(0, fields::longest_name);
    return unreadable<LoggedSet>("\"" + printable<std::string>(shown) +
                                 "\": " + std::string(problem));
  };
  constexpr std::string_view times = "\xC3\x97";
  std::size_t cross = typed.find_last_of("xX");
  std::size_t behind = cross + 1;
  if (const std::size_t at = typed.rfind(times); at != std::string_view::npos) {
    cross = at;
    behind = at + times.size();
  }
  if (cross == std::string_view::npos) {
    return refused("a set must be a load and its reps, as in 92.5 x 6, 2 left");
  }
  const auto written = take_load_apart(typed.substr(0, cross), true);
  if (!written) return refused("the load must stand before the x, as in 92.5 x 6, 2 left");
  if (written->is_each && lift.dumbbells() != 2) {
    return refused("each is for a lift with two dumbbells");
  }
  if (written->is_added && !lift.base().is_bodyweight) {
    return refused("BW is for a lift that moves the body");
  }
  const bool is_each =
      written->is_each || (lift.dumbbells() == 2 && dumbbells == DumbbellLoads::each);
  const auto load = fields::to_load(written->number, written->unit.value_or(unit));
  if (!load.value) return refused(load.problem);

  const std::string_view after = fields::trimmed(typed.substr(behind));
  const std::size_t end = std::min(after.find_first_not_of("0123456789."), after.size());
  const auto reps = fields::to_reps(after.substr(0, end));
  if (!reps.value) return refused(reps.problem);
  LoggedSet set{
      .date = date, .lift = lift, .load = *load.value * (is_each ? 2.0 : 1.0), .reps = *reps.value};

  std::string_view effort = after.substr(end);
  effort.remove_prefix(std::min(effort.find_first_not_of(" ,:"), effort.size()));
  if (effort.empty()) return {.value = set, .problem = {}};
  const auto said = take_effort_apart(effort, false, true);
  take_note(set, effort);
  if (!said && (set.has_pain || set.is_unwell)) return {.value = set, .problem = {}};
  if (!said) {
    return refused("after the reps say what was left, as 2 left or @8, or missed");
  }
  if (said->is_missed) {
    set.outcome = Outcome::missed;
    set.reps = Reps(reps_up_to_miss(set.reps.count(), said->reps_missed));
  } else if (!said->rpe.empty()) {
    const auto rating = fields::to_rpe(said->rpe);
    if (!rating.value) return refused(rating.problem);
    set.reserve = reps_in_reserve(*rating.value);
  } else {
    const auto left = fields::to_reserve(said->rir);
    if (!left.value) return refused(left.problem);
    set.reserve = *left.value;
  }
  return {.value = set, .problem = {}};
}

}  // namespace detail

inline Parsed<std::vector<LoggedSet>> read_typed_sets(std::string_view typed, const Lift& lift,
                                                      Date date, Unit unit,
                                                      DumbbellLoads dumbbells) {
  constexpr std::size_t most = 100;
  std::vector<LoggedSet> sets;
  while (!typed.empty()) {
    const std::string_view one = fields::trimmed(detail::take_until(typed, ";"));
    if (one.empty()) continue;
    const auto set = detail::to_typed_set(one, lift, date, unit, dumbbells);
    if (!set.value) return {.value = std::nullopt, .problem = set.problem};
    if (sets.size() == most) {
      return detail::unreadable<std::vector<LoggedSet>>("there must be at most 100 sets");
    }
    sets.push_back(*set.value);
  }
  if (sets.empty()) {
    return detail::unreadable<std::vector<LoggedSet>>(
        "name the sets that were done, as in 92.5 x 6, 2 left; 92.5 x 5, missed");
  }
  return {.value = std::move(sets), .problem = {}};
}

}  // namespace barwright::inline BARWRIGHT_ABI
