// barwright/lifts/learning_gain.hpp - what practice alone adds to the max on a new lift
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>

#include "barwright/lifts/catalogue/sources.hpp"
#include "barwright/lifts/findings.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline constexpr std::array learning_findings{
    found("bench press, women", 1.057, soares_caldeira_2009),
    found("squat, women", 1.054, soares_caldeira_2009),
    found("bench press, men without experience", 1.101, ritti_dias_2011),
    found("squat, men without experience", 1.112, ritti_dias_2011),
    only("no such change in experienced men", ritti_dias_2011),
    found("partial bench press, second day", 1.048, mookerjee_1999_retest),
};

}  // namespace detail

/// By how much the max on a lift rises over its first three or four sessions from practice alone:
/// 5 to 10 % in most findings, nothing in people who knew the lift. It is not strength.
inline constexpr Figure learning_gain{.value = {1.00, 1.06, 1.12},
                                      .evidence = Evidence::published,
                                      .findings = detail::learning_findings};

}  // namespace barwright::inline BARWRIGHT_ABI
