// barwright/plan/squad.hpp - the same for many: one session each, for many lifters and lifts
//
// A squad is planned as its lifters are, one after the other or at once: the caller says how, by an
// executor. A fault in one (a log that contradicts itself, a value out of range) is that lifter's
// result, and stops no other.
//
//     const auto results = plan_squad(members);  // one after the other
//     const auto faster = plan_squad(members, [&](std::size_t count, const auto& task) {
//       pool.parallel_for(count, task);                              // the caller's own threads
//     });
//
// Needs Eigen.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session_plan.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// How many days of a base lift one lifter of a squad may be asked about at most, all lifts
/// together: each is learnt anew from the whole log. A bound on time, none on training; sessions of
/// a lift and day that is learnt already are free.
inline constexpr int most_days_of_member = 100;

/// One lifter of a squad, and the sessions asked for. The log must outlive the call.
struct SquadMember {
  std::string name{};
  std::span<const LoggedSet> log{};
  LifterFacts facts{};  ///< a stated max is for the lift of `stated_max_of`
  std::optional<Lift> stated_max_of{};
  std::vector<SessionRequest> requests{};
};

/// What came of one request.
struct SquadResult {
  std::size_t member = 0;   ///< in the squad
  std::size_t request = 0;  ///< of that member
  std::optional<SessionPlan> plan{};
  std::optional<Refusal> refusal{};
  std::string fault{};  ///< the message of an error, where one was raised
};

/// One after the other.
struct InOrder {
  template <class Task>
  void operator()(std::size_t count, const Task& task) const {
    for (std::size_t i = 0; i < count; ++i) task(i);
  }
};

namespace detail {

/// Learns a member once for each base lift, and plans what is asked.
void plan_member(const SquadMember& member, std::span<SquadResult> results);

}  // namespace detail

/// One result for each request of each member, in their order.
/// @param execute  runs one task for each member; the tasks share nothing
template <class Executor = InOrder>
[[nodiscard]] std::vector<SquadResult> plan_squad(std::span<const SquadMember> squad,
                                                  Executor&& execute = {}) {
  std::vector<SquadResult> results;
  std::vector<std::size_t> begins;
  for (std::size_t m = 0; m < squad.size(); ++m) {
    begins.push_back(results.size());
    for (std::size_t r = 0; r < squad[m].requests.size(); ++r) {
      results.push_back({.member = m, .request = r});
    }
  }
  const std::span<SquadResult> all(results);
  execute(squad.size(), [&](std::size_t m) {
    detail::plan_member(squad[m], all.subspan(begins[m], squad[m].requests.size()));
  });
  return results;
}

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/squad.ipp"
#endif
