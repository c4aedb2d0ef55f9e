// barwright/log/lift_fields.hpp - the name of a lift as it is typed, found in the catalogue
//
// A lift is a base lift and what is changed about it; people write both in one breath, misspelt, or
// in each other's place. What is meant is taken where there is no doubt; else the answer says which
// names would do.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/fields.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// `lift` with the modifiers that `words` name one after the other; nothing when they name others.
[[nodiscard]] std::optional<Lift> with_changes(const Lift& lift, std::string_view words);

}  // namespace detail

namespace fields {

/// The variation that "close grip bench press" or "bench press close grip" is; nothing for the name
/// of a lift or a modifier alone, and for what names none.
[[nodiscard]] std::optional<Lift> lift_in_one_breath(std::string_view text);

/// Whether `text` may be a slip for a name or an alias of `lift`: a word of its name, or a third of
/// its letters wrong, or two.
[[nodiscard]] bool may_mean(std::string_view text, const BaseLift& lift);

/// The lifts that `text` may be a slip for, at most four, nearest first.
[[nodiscard]] std::vector<std::string_view> near_lift_names(std::string_view text);

/// The names of all that can be changed about `base`.
[[nodiscard]] std::vector<std::string_view> names_of_modifiers(const BaseLift& base);

/// The names of what is changed about `lift`, with `between` them.
[[nodiscard]] std::string names_of_changes(const Lift& lift, std::string_view between);

/// The names in `text`, separated by ; + or ,
[[nodiscard]] std::vector<std::string_view> names_in(std::string_view text);

}  // namespace fields

namespace detail {

/// Why `modifier` cannot be added to `lift`, which does not accept it.
[[nodiscard]] std::string why_not_accepted(const Lift& lift, const Modifier& modifier);

/// What to say of a modifier that the lift has not: all that it has where they are few, else those
/// with the nearest names.
[[nodiscard]] std::string unknown_modifier(const BaseLift& base, std::string_view name);

}  // namespace detail

namespace fields {

/// `base` with the modifiers named in `text`, separated by ; + or ,
/// @param own  modifiers beside those of the catalogue, as a file of own lifts has them
[[nodiscard]] Parsed<Lift> to_lift(const BaseLift& base, std::string_view text,
                                   Handles<Modifier> own = {});

/// The variation that one of `own` is, by its name alone; nothing where none is called so.
[[nodiscard]] std::optional<Lift> own_lift(std::string_view text, Handles<Modifier> own);

/// The variation that `text` names whole: as printed, "squat, front squat", or in one phrase,
/// "close grip bench press". Nothing when it is not a base lift and what is changed about it.
[[nodiscard]] std::optional<Lift> whole_variation(std::string_view text);

/// The base lift of the catalogue that `text` names, never null; else what to write in place of it.
[[nodiscard]] Parsed<const BaseLift*> to_base_lift(std::string_view text);

}  // namespace fields
}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/lift_fields.ipp"
#endif
