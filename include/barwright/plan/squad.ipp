// barwright/plan/squad.ipp - the bodies of squad.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <exception>
#include <span>
#include <vector>

#include "barwright/core/error.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/refusal.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plan/squad.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline void plan_member(const SquadMember& member, std::span<SquadResult> results) {
  std::vector<LearntLifter> known;
  std::vector<Date> days;
  for (std::size_t i = 0; i < member.requests.size(); ++i) {
    const SessionRequest& request = member.requests[i];
    const auto plan = [&] {
      const Lift base(request.lift.base());
      std::size_t k = 0;
      while (k < known.size() && !(known[k].base.same_as(base) && days[k] == request.date)) {
        ++k;
      }
      if (k == most_days_of_member) {
        results[i].refusal =
            Refusal{.code = RefusalCode::too_many_days, .days = most_days_of_member};
        return;
      }
      if (k == known.size()) {
        LifterFacts facts = member.facts;
        if (member.stated_max_of && !member.stated_max_of->same_as(base)) facts.stated_max.reset();
        known.push_back(learn_lifter(member.log, base, request.date, facts));
        days.push_back(request.date);
      }
      auto result = plan_session(known[k], request);
      if (result) {
        results[i].plan = *result;
      } else {
        results[i].refusal = result.refusal();
      }
    };
#if BARWRIGHT_EXCEPTIONS
    try {
      plan();
    } catch (const std::exception& error) {
      results[i].fault = error.what();
    }
#else
    plan();
#endif
  }
}

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
