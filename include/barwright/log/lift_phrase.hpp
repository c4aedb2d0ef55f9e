// barwright/log/lift_phrase.hpp - a lift and what changes it, as they are said in one breath
//
// "paused bench press", "sumo deadlifts", "DB bench press", "front squat": people keep one column
// for both. Words are put as the catalogue has them (no plural, DB for dumbbells, no "barbell"
// where the lift has one anyway), and what is then a base lift with changes of its own, and nothing
// else, is meant. "Paused" alone is no lift: a change counts where it has the lift's word in it, or
// is said for one lift only, as "high bar" is.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Words as people shorten them, and as the catalogue has them; empty: said for nothing.
inline constexpr std::array<std::pair<std::string_view, std::string_view>, 17> lift_words{
    {{"db", "dumbbells"},
     {"dbs", "dumbbells"},
     {"dumbbell", "dumbbells"},
     {"dumbell", "dumbbells"},
     {"dumbells", "dumbbells"},
     {"bb", ""},
     {"barbell", ""},
     {"pause", "paused"},
     {"hex", "hexagonal"},
     {"benchpress", "bench press"},
     {"presses", "press"},
     {"cg", "close grip"},
     {"wg", "wide grip"},
     {"bp", "bench press"},
     {"dl", "deadlift"},
     {"sq", "squat"},
     {"the", ""}}};

/// Changes that are said for one lift alone, whose word nobody says.
inline constexpr std::array<std::pair<std::string_view, std::string_view>, 2> lifts_by_change{
    {{"high bar", "high bar squat"}, {"highbar", "high bar squat"}}};

/// "squats" as "squat": the plurals of the trade's words.
[[nodiscard]] std::string_view singular(std::string_view word) noexcept;

/// The words of `text` as the catalogue has them, with single blanks between.
[[nodiscard]] std::string in_catalogue_words(std::string_view text);

/// "front squat": a change to the squat, with the lift's own word in its name.
[[nodiscard]] std::optional<Lift> lift_in_change(std::string_view change);

/// A base lift by itself, or with changes in any of the ways that need no other words.
[[nodiscard]] inline std::optional<Lift> lift_said_whole(std::string_view text) {
  if (const BaseLift* const base = catalogue::find_lift(text)) return Lift(*base);
  if (const auto lift = lift_in_change(text)) return lift;
  return fields::whole_variation(text);
}

}  // namespace detail

namespace fields {

/// The lift that is said in one breath; nothing where none is, or it could be two.
[[nodiscard]] std::optional<Lift> lift_phrase(std::string_view text);

}  // namespace fields
}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/lift_phrase.ipp"
#endif
