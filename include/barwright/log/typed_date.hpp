// barwright/log/typed_date.hpp - one day, as it is typed into a program or a form
//
// As in a log: 2026-11-30, 30/11/2026, 30.11.2026, 30 Nov 2026. A log tells by its other dates
// whether the day or the month comes first; one date alone does not. Where it could be two days,
// both are named and neither is taken.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "barwright/core/date.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/written_dates.hpp"

namespace barwright::inline BARWRIGHT_ABI::fields {

/// The day that is meant; else what to write in its place.
[[nodiscard]] inline Parsed<Date> to_typed_date(std::string_view text) {
  const auto written = take_date_apart(trimmed(text));
  if (!written) return to_date(trimmed(text));
  if (!written->has_year) {
    return detail::unreadable<Date>("a date must have its year, as year-month-day: 2026-11-25");
  }
  DateEvidence evidence;
  evidence.add(*written, 1);
  const auto day_first = day_of(*written, DateOrder::day_first, std::nullopt);
  const auto month_first = day_of(*written, DateOrder::month_first, std::nullopt);
  const bool is_open = evidence.matters() && evidence.order() == DateOrder::unknown;
  if (is_open && day_first && month_first && !(*day_first == *month_first)) {
    return detail::unreadable<Date>(
        "a date must say which figure is the month: this could be " + to_text(*day_first).str() +
        " or " + to_text(*month_first).str() + "; write it so, as year-month-day");
  }
  const auto day =
      evidence.order() == DateOrder::month_first || !day_first ? month_first : day_first;
  if (!day) return to_date("");
  return {.value = day, .problem = {}};
}

}  // namespace barwright::inline BARWRIGHT_ABI::fields
