// barwright/plates/parse_room.hpp - a room, its plates and a mass read from text
//
// "bar 20 kg; collars 2.5 kg; plates 25x2 20 10 5 kg". What looks the wrong way round is refused.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <charconv>
#include <cstddef>
#include <optional>
#include <string_view>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/text.hpp"
#include "barwright/plates/loading.hpp"
#include "barwright/plates/plate_sets.hpp"
#include "barwright/plates/room.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

[[nodiscard]] inline bool take_number(std::string_view& text, int& value) noexcept {
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc{}) return false;
  text.remove_prefix(static_cast<std::size_t>(read.ptr - text.data()));
  return true;
}

/// "45x2" for a count of 2 and then "45", as the two are likely to have changed places; else an
/// example.
[[nodiscard]] constexpr Text swapped(double count, std::string_view mass_first) noexcept {
  double mass = 0.0;
  const bool is_count = count >= 1.0 && count <= 9.0 && count == static_cast<int>(count);
  if (!is_count || !take_number(mass_first, mass)) return Text{}.append("20x2");
  return Text{}.append(mass).append("x").append(count);
}

}  // namespace detail

/// Reads "20 kg", "2.5kg", "45 LB".
/// @throws DomainError for anything else.
[[nodiscard]] inline MarkedMass parse_marked_mass(std::string_view text) {
  std::string_view rest = text;
  double value = 0.0;
  const bool number = detail::take_number(rest, value);
  const auto unit = parse_unit(detail::take_until(rest, ""));
  if (!number || !unit) {
    detail::fail(ErrorCode::unreadable, "a mass",
                 "a number and its unit, as in \"20 kg\" or \"45 lb\"", text);
  }
  return MarkedMass(value, *unit);
}

/// Reads a list of plates, each unit after the plates it belongs to: "25x2 20x4 10 5 2.5 kg 45x1
/// lb". x2 is two on each side at most; without it the plate never runs out. What looks the wrong
/// way round is refused: more than nine of a kind, as "2x20" means two plates of 20, and five or
/// more of a small whole mass, as "2x5" may mean two plates of 5. Whoever has five of 2 writes
/// "2.0x5".
/// @throws DomainError naming the part that cannot be read.
[[nodiscard]] inline Plates parse_plates(std::string_view text) {
  constexpr std::string_view form = "masses and their unit, as in \"25x2 20x4 10 5 kg\"";
  struct Unitless {
    double mass;
    int per_side;
  };
  Unitless waiting[Plates::most_kinds];  // for their unit
  std::size_t size = 0;
  Plates plates;
  std::string_view rest = text;
  while (!rest.empty()) {
    const std::string_view word = detail::take_until(rest, " ,");
    if (word.empty()) continue;
    std::string_view end = word;
    Unitless plate{.mass = 0.0, .per_side = Plate::unlimited};
    if (detail::take_number(end, plate.mass)) {
      if (!end.empty() && end.front() == 'x') {
        const std::string_view after = end.substr(1);
        const bool is_whole = word.substr(0, word.size() - end.size()).find('.') == word.npos;
        end.remove_prefix(1);
        if (!detail::take_number(end, plate.per_side))
          detail::fail(ErrorCode::unreadable, "plates", form, word);
        if (plate.per_side > 9 || end.substr(0, 1) == ".") {
          detail::fail(ErrorCode::unreadable, "plates",
                       Text{}
                           .append("the mass and then how many a side, at most 9, as in \"")
                           .append(detail::swapped(plate.mass, after))
                           .append("\""),
                       word);
        }
        if (plate.mass < 5.0 && plate.per_side >= 5 && is_whole) {
          detail::fail(ErrorCode::unreadable, "plates",
                       "the mass and then how many a side (\"5x2\" is two of 5, \"2.0x5\" five of "
                       "2)",
                       word);
        }
      }
      if (size == Plates::most_kinds)
        detail::fail(ErrorCode::too_many, "plates", "at most 24 kinds before a unit", word);
      waiting[size++] = plate;
      if (end.empty()) continue;
    }
    const std::optional<Unit> unit = parse_unit(end);
    if (!unit || size == 0) detail::fail(ErrorCode::unreadable, "plates", form, word);
    for (std::size_t i = 0; i < size; ++i) {
      plates.add(Plate(waiting[i].mass, *unit, waiting[i].per_side));
    }
    size = 0;
  }
  if (size > 0)
    detail::fail(ErrorCode::unreadable, "plates", "followed by their unit, kg or lb", text);
  return plates;
}

/// Reads a whole room, its parts divided by semicolons: "bar 20 kg; collars 2.5 kg; plates 25x2 20
/// 10 5 kg". Collars may be left out, and so may plates. A room may also start from one of
/// `plate_sets` by its name, later parts replacing what it has: "gym_kg; bar 15 kg".
/// @throws DomainError naming the part that cannot be read, or is there twice.
[[nodiscard]] inline Room parse_room(std::string_view text) {
  std::optional<Bar> bar;
  Collars collars;
  Plates plates;
  std::string_view rest = text;
  bool has_bar = false;
  bool has_collars = false;
  bool has_plates = false;
  const auto once = [](bool& is_there, std::string_view part) {
    if (is_there) detail::fail(ErrorCode::unreadable, "a part of a room", "given once", part);
    is_there = true;
  };
  for (bool start = true; start || !rest.empty(); start = false) {
    const std::string_view part = detail::take_until(rest, ";");
    std::string_view value = part;
    const std::string_view name = detail::take_until(value, " ");
    const Room* const set = start && value.empty() ? plate_sets::find(name) : nullptr;
    if (set != nullptr) {
      bar = set->bar();
      collars = set->collars();
      plates = set->plates();
    } else if (name == "bar") {
      once(has_bar, part);
      bar = Bar(parse_marked_mass(value));
    } else if (name == "collars") {
      once(has_collars, part);
      collars = Collars(parse_marked_mass(value));
    } else if (name == "plates") {
      once(has_plates, part);
      plates = parse_plates(value);
    } else if (start && value.empty() && !name.empty()) {
      Text names;
      for (const plate_sets::Named& each : plate_sets::all) {
        names.append(&each == &plate_sets::all.front()  ? ""
                     : &each == &plate_sets::all.back() ? " or "
                                                        : ", ");
        names.append(each.name);
      }
      detail::fail(ErrorCode::unknown_name, "a plate set", names.view(), name);
    } else {
      detail::fail(ErrorCode::unreadable, "a part of a room",
                   "the name of a plate set (first), \"bar 20 kg\", \"collars 2.5 kg\" or "
                   "\"plates 25x2 20 10 kg\", with semicolons between parts",
                   part);
    }
  }
  if (!bar)
    detail::fail(ErrorCode::unreadable, "a room", "given with its bar, as in \"bar 20 kg\"", text);
  return Room(*bar, plates, collars);
}

}  // namespace barwright::inline BARWRIGHT_ABI
