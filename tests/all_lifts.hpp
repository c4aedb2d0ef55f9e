// tests/all_lifts.hpp - every lift that can be put together from the catalogue
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <barwright/lifts/base_lift.hpp>
#include <barwright/lifts/catalogue.hpp>
#include <barwright/lifts/lift.hpp>
#include <cstddef>
#include <vector>

namespace barwright_test {

/// Every base lift with every set of up to `most` modifiers that go together.
inline std::vector<barwright::Lift> all_lifts(std::size_t most) {
  std::vector<barwright::Lift> lifts;
  const auto add_with_more = [&](const barwright::Lift& lift, std::size_t next,
                                 const auto& self) -> void {
    lifts.push_back(lift);
    if (lift.modifiers().size() == most) return;
    const auto modifiers = barwright::catalogue::modifiers();
    for (std::size_t i = next; i < modifiers.size(); ++i) {
      if (lift.accepts(modifiers[i])) self(lift + modifiers[i], i + 1, self);
    }
  };
  for (const barwright::BaseLift& base : barwright::catalogue::lifts()) {
    add_with_more(base, 0, add_with_more);
  }
  return lifts;
}

}  // namespace barwright_test
