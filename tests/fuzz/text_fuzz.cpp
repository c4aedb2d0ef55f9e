// tests/fuzz/text_fuzz.cpp - every function that turns text into a value: a value, or a refusal
//
// What was read and can be written is written and read again, and is the same.
// SPDX-License-Identifier: BSL-1.0
#include <barwright/barwright.hpp>
#include <barwright/log/log_reader.hpp>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "check_week/planned_week.hpp"
#include "require.hpp"

namespace bw = barwright;
using fuzz::require;

namespace {

/// The value `read` makes of the text; nothing where it refuses it with its own error.
template <class Read>
auto value_of(Read read) -> std::optional<decltype(read())> {
  try {
    return read();
  } catch (const bw::DomainError& error) {
    require(std::string_view(error.what()).find(" must be ") != std::string_view::npos,
            "an error says what must be");
    return std::nullopt;
  }
}

void read_dates(std::string_view text) {
  if (const auto date = bw::parse_date(text)) {
    require(bw::parse_date(bw::to_text(*date).str()) == date, "a date is written as it is read");
    require(bw::to_text(*date).str() == text, "one day is written in one way");
  }
}

void read_rooms(std::string_view text) {
  if (const auto mass = value_of([&] { return bw::parse_marked_mass(text); })) {
    require(bw::parse_marked_mass(bw::to_text(*mass).str()) == *mass,
            "a mass is written as it is read");
  }
  const auto plates = value_of([&] { return bw::parse_plates(text); });
  if (plates) require(plates->size() <= bw::Plates::most_kinds, "at most 24 kinds");
  if (const auto room = value_of([&] { return bw::parse_room(text); })) {
    require(room->empty_bar().total() >= bw::Mass{}, "a bar weighs something");
  }
  (void)bw::plate_sets::find(text);
}

void find_names(std::string_view text) {
  if (const bw::BaseLift* lift = bw::catalogue::find_lift(text)) {
    require(bw::catalogue::find_lift(lift->name) == lift, "a lift is found by its name");
  }
  require(bw::catalogue::nearest_lift_names(text).size() == 3, "there are always nearest names");
  const auto any = bw::catalogue::find_lift_with(text);
  bool is_of_one = false;
  for (const bw::BaseLift& base : bw::catalogue::lifts()) {
    const bw::Modifier* modifier = bw::catalogue::find_modifier(text, base);
    if (modifier == nullptr) continue;
    is_of_one = true;
    require(modifier->applies_to(base), "a modifier that is found applies");
    const bw::Lift lift = bw::Lift(base) + *modifier;
    require(lift.modifiers().size() == 1, "and can be added");
  }
  require(any.has_value() == is_of_one, "a modifier that is found is one of some lift");
  (void)bw::catalogue::nearest_modifier_names(text, bw::lifts::bench_press);
}

void read_fields(std::string_view text) {
  const auto is_answered = [](const auto& parsed) {
    require(parsed.value.has_value() == parsed.problem.empty(), "a value, or what is wrong");
  };
  is_answered(bw::fields::to_date(text));
  is_answered(bw::fields::to_unit(text));
  is_answered(bw::fields::to_load(text, bw::Unit::kg));
  is_answered(bw::fields::to_load(text, bw::Unit::lb));
  is_answered(bw::fields::to_reps(text));
  is_answered(bw::fields::to_reserve(text));
  is_answered(bw::fields::to_rpe(text));
  is_answered(bw::fields::to_outcome(text));
  is_answered(bw::fields::to_base_lift(text));
  is_answered(bw::fields::to_lift(bw::lifts::bench_press, text));
  is_answered(check_week::to_weekday(text));
  is_answered(bw::fields::to_sets(text));
  const auto number = bw::parse_number(text);
  if (number && std::isfinite(*number)) {
    // Text keeps nine digits or so of any number, and no number is longer than its room.
    require(!bw::Text{}.append(*number).str().empty(), "a number can be written");
    require(!bw::Text{}.append_rounded(*number, 3).str().empty(), "and rounded");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // A copy of its own, so that a read beyond its end is seen.
  const std::string copy(reinterpret_cast<const char*>(data), size);
  read_dates(copy);
  read_rooms(copy);
  find_names(copy);
  read_fields(copy);
  return 0;
}
