// barwright/plates/room.hpp - from a load to the plates on the bar, and a whole ramp with few moves
//
// A load on paper is a number; a load in a room is a bar, its collars and pairs of plates, of which
// there may be only so many, some in kilograms and some in pounds. A Room answers what can be
// loaded: the nearest, at most or at least a given mass, with the fewest plates. Largest first is
// not always fewest: 60 lb a side is 45 + 10 + 5, or 35 + 25. A ramp is planned as a whole.
//
// Everything inside is a whole number of 1e-11 kg, of which a thousandth of a kilogram and of a
// pound both are multiples, so that kilograms and pounds mix exactly. Only the load asked for is a
// floating-point number. It is rounded once to that lattice, and a loading within a microgram of it
// counts as equal to it, so that 0.7 x 100 kg is 70 kg whatever its last digit.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <charconv>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
#include "barwright/plates/detail/plate_search.hpp"
#include "barwright/plates/loading.hpp"

namespace barwright::inline v0 {

namespace detail {

/// Two loads this close count as equal: a microgram, far below any scale and far above the rounding
/// of any computed load.
inline constexpr Ticks equal_within = ticks_per_kg / 1'000'000'000;

/// The nearest whole tick. Loads beyond any room's are cut, so that they fit.
[[nodiscard]] constexpr Ticks to_ticks(Mass mass) noexcept {
  double kg = mass.kg();
  if (kg > Mass::largest_kg) kg = Mass::largest_kg;
  if (kg < -Mass::largest_kg) kg = -Mass::largest_kg;
  const double ticks = kg * static_cast<double>(ticks_per_kg);
  return static_cast<Ticks>(ticks < 0.0 ? ticks - 0.5 : ticks + 0.5);
}

}  // namespace detail

struct Ramp;

/// A bar, its collars, and the plates there are.
///
/// Of the loadings with the mass asked for, the answer has the fewest plates; of those, the heavier
/// plate at the first difference. Plates are listed inside to outside, heaviest innermost, at most
/// 32 on a side. Never allocates. Where kinds run out or both units are mixed, the answer is found
/// by search: microseconds in a usual room, more with many kinds of unusual mass.
class Room {
 public:
  constexpr explicit Room(const Bar& bar, const Plates& plates = {}, const Collars& collars = {})
      : bar_(bar), collars_(collars), plates_(plates), rack_(rack_of(plates)) {}

  [[nodiscard]] constexpr const Bar& bar() const noexcept { return bar_; }
  [[nodiscard]] constexpr const Collars& collars() const noexcept { return collars_; }
  [[nodiscard]] constexpr const Plates& plates() const noexcept { return plates_; }

  /// The same room with another bar: 15 kg in place of 20 kg.
  [[nodiscard]] constexpr Room with(const Bar& bar) const {
    Room room = *this;
    room.bar_ = bar;
    return room;
  }
  /// The same room with other collars.
  [[nodiscard]] constexpr Room with(const Collars& collars) const {
    Room room = *this;
    room.collars_ = collars;
    return room;
  }
  /// The same room with more plates.
  [[nodiscard]] constexpr Room with(const Plate& plate) const {
    Plates plates = plates_;
    return Room(bar_, plates.add(plate), collars_);
  }

  /// Bar and collars: the lightest load there is.
  [[nodiscard]] constexpr Loading empty_bar() const noexcept { return Loading(bar_, collars_); }

  /// The heaviest loading that is not above `load`; nothing when the empty bar is above it.
  [[nodiscard]] constexpr std::optional<Loading> at_most(Mass load) const {
    return loading_if(closest(load, detail::Side::below));
  }

  /// The lightest loading that is not below `load`; nothing when the plates do not suffice.
  [[nodiscard]] constexpr std::optional<Loading> at_least(Mass load) const {
    return loading_if(closest(load, detail::Side::above));
  }

  /// The loading nearest to `load`, the lighter one when two are equally near. There always is one,
  /// if only the empty bar; `at_most` and `at_least` tell what lies on either side.
  [[nodiscard]] constexpr Loading nearest(Mass load) const {
    const Found below = closest(load, detail::Side::below);
    const detail::Ticks goal = detail::to_ticks(load) - empty_ticks();
    if (below.mass >= 0 && goal - below.mass <= detail::equal_within) return loading(below);
    const Found above = closest(load, detail::Side::above);
    const bool lighter =
        above.mass < 0 ||
        (below.mass >= 0 && goal - below.mass <= above.mass - goal + detail::equal_within);
    return loading(lighter ? below : above);
  }

  /// By the rule asked for; nothing when there is no such loading.
  [[nodiscard]] constexpr std::optional<Loading> load(Mass load, Rounding rounding) const {
    if (rounding == Rounding::down) return at_most(load);
    if (rounding == Rounding::up) return at_least(load);
    return nearest(load);
  }

 private:
  friend Ramp plan_ramp(const Room& room, std::span<const Mass> loads, Rounding rounding);
  using Found = detail::Rack::Found;

  [[nodiscard]] static constexpr detail::Rack rack_of(const Plates& plates) {
    detail::Kinds kinds;
    for (const Plate& plate : plates) {
      kinds.of[kinds.size++] = {.pair = 2 * plate.mass().ticks(),
                                .limit = plate.per_side(),
                                .lattice = plate.mass().unit() == Unit::kg ? 0 : 1};
    }
    return detail::Rack(kinds);
  }

  [[nodiscard]] constexpr detail::Ticks empty_ticks() const noexcept {
    return bar_.mass.ticks() + 2 * collars_.each.ticks();
  }

  [[nodiscard]] constexpr Found closest(Mass load, detail::Side side) const {
    const detail::Ticks goal = detail::to_ticks(load) - empty_ticks();
    return rack_.closest(
        side == detail::Side::below ? goal + detail::equal_within : goal - detail::equal_within,
        side);
  }

  [[nodiscard]] constexpr Loading loading(const Found& found) const {
    Loading result = empty_bar();
    const detail::Counts counts = rack_.counts(found);
    for (std::size_t k = 0; k < plates_.size(); ++k) {
      for (int i = 0; i < counts.of[k]; ++i) result.put_on(plates_[k].mass());
    }
    return result;
  }
  [[nodiscard]] constexpr std::optional<Loading> loading_if(const Found& found) const {
    if (found.mass < 0) return std::nullopt;
    return loading(found);
  }

  Bar bar_;
  Collars collars_;
  Plates plates_;
  detail::Rack rack_;
};

// ---- a ramp -------------------------------------------------------------------------------------

/// One load of a ramp, and how to get there from the one before.
struct RampStep {
  Mass target{};      ///< the load asked for
  Loading loading;    ///< the load there is
  int taken_off = 0;  ///< plates that come off each side first
  int put_on = 0;     ///< plates that then go on each side: the outermost ones

  /// Plates handled on each side.
  [[nodiscard]] constexpr int moves() const noexcept { return taken_off + put_on; }
};

/// A sequence of loads on one bar.
struct Ramp {
  std::vector<RampStep> steps{};

  /// Plates handled on each side from the empty bar to the last load.
  [[nodiscard]] int moves() const noexcept {
    int sum = 0;
    for (const RampStep& step : steps) sum += step.moves();
    return sum;
  }
};

/// The loadings for a sequence of loads, rising or not, that take the fewest plate moves.
///
/// Plates come off a sleeve in the opposite order to the one they went on in, so one that stays on
/// has to go on early and inside. Of the plans with the fewest moves, from the empty bar to the
/// last load, this has the fewest plates on the bar, summed over the steps. The best of all, not an
/// approximation. A plate put on later may be heavier than those inside it; where a rule book wants
/// the heaviest innermost, load each step with `Room::nearest` instead.
///
/// Each step has the mass that `Room::load` gives for it. Eight steps take some ten microseconds in
/// a room of one unit, more where kinds run out or both units are mixed. Allocates.
///
/// @param loads  1 to 64 loads
/// @throws DomainError for another number, for a load that the room has no loading for by this
/// rounding, and in a room of so many limited kinds that an exact plan would take over 256 MiB.
[[nodiscard]] inline Ramp plan_ramp(const Room& room, std::span<const Mass> loads,
                                    Rounding rounding = Rounding::nearest) {
  constexpr std::size_t most = detail::RampPlanner::most_steps;
  if (loads.empty() || loads.size() > most) {
    detail::fail("the loads of a ramp", "1 to 64", static_cast<double>(loads.size()));
  }
  detail::Ticks masses[most];
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const std::optional<Loading> single = room.load(loads[i], rounding);
    if (!single) {
      detail::fail("a load of the ramp",
                   rounding == Rounding::up ? "within what the plates make"
                                            : "at least that of the empty bar",
                   to_text(loads[i], room.bar().mass.unit()));
    }
    masses[i] = 0;
    for (const MarkedMass plate : single->plates()) masses[i] += 2 * plate.ticks();
  }
  const detail::RampPlanner planner(room.rack_, masses, static_cast<int>(loads.size()));

  Ramp ramp{std::vector<RampStep>(loads.size(), RampStep{.loading = room.empty_bar()})};
  detail::Stack before;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const detail::Stack& stack = planner.stack(static_cast<int>(i));
    RampStep& step = ramp.steps[i];
    step.target = loads[i];
    int kept = 0;
    for (int k = 0; k < stack.size; ++k) {
      const std::size_t kind = stack.kinds[k];
      step.loading.put_on(room.plates()[kind].mass());
      if (kept == k && k < before.size && before.kinds[k] == kind) ++kept;
    }
    step.taken_off = before.size - kept;
    step.put_on = stack.size - kept;
    before = stack;
  }
  return ramp;
}

[[nodiscard]] inline Ramp plan_ramp(const Room& room, std::initializer_list<Mass> loads,
                                    Rounding rounding = Rounding::nearest) {
  return plan_ramp(room, std::span<const Mass>(loads.begin(), loads.size()), rounding);
}

// ---- loads that need no plates ------------------------------------------------------------------

/// Loads in equal steps: a rack of dumbbells, the stack of a machine. The questions are a Room's.
class FixedLoads {
 public:
  /// @throws DomainError unless first <= last in whole steps, and each value is one of whole
  /// thousandths from 0 to 1000.
  constexpr FixedLoads(double first, double last, double step, Unit unit)
      : first_(first, unit), step_(step, unit) {
    const MarkedMass end(last, unit);
    if (step_.is_zero()) detail::fail("the step between fixed loads", "more than 0", step);
    if (end < first_) detail::fail("the last of the fixed loads", "no less than the first", last);
    const int span = end.thousandths() - first_.thousandths();
    steps_ = span / step_.thousandths();
    if (span % step_.thousandths() != 0) {
      detail::fail("the last of the fixed loads", "whole steps above the first", last);
    }
  }

  [[nodiscard]] constexpr std::optional<MarkedMass> at_most(Mass load) const {
    const detail::Ticks above_first = ticks_above_first(load) + detail::equal_within;
    if (above_first < 0) return std::nullopt;
    const detail::Ticks n = above_first / step_.ticks();
    return at(n < steps_ ? n : steps_);
  }
  [[nodiscard]] constexpr std::optional<MarkedMass> at_least(Mass load) const {
    const detail::Ticks above_first = ticks_above_first(load) - detail::equal_within;
    if (above_first <= 0) return first_;
    const detail::Ticks n = detail::divided_rounding_up(above_first, step_.ticks());
    if (n > steps_) return std::nullopt;
    return at(n);
  }
  /// The lighter one when two are equally near.
  [[nodiscard]] constexpr MarkedMass nearest(Mass load) const {
    const detail::Ticks half_step_less = ticks_above_first(load) - step_.ticks() / 2;
    if (half_step_less <= detail::equal_within) return first_;
    const detail::Ticks n =
        detail::divided_rounding_up(half_step_less - detail::equal_within, step_.ticks());
    return at(n < steps_ ? n : steps_);
  }

 private:
  [[nodiscard]] constexpr detail::Ticks ticks_above_first(Mass load) const noexcept {
    return detail::to_ticks(load) - first_.ticks();
  }
  [[nodiscard]] constexpr MarkedMass at(detail::Ticks n) const {
    const double thousandths = static_cast<double>(first_.thousandths() + n * step_.thousandths());
    return MarkedMass(thousandths / 1000.0, first_.unit());
  }

  MarkedMass first_;
  MarkedMass step_;
  detail::Ticks steps_ = 0;
};

/// A rack of dumbbells, each marked with its own mass: `dumbbells(2.5, 40, 2.5, Unit::kg)`.
[[nodiscard]] constexpr FixedLoads dumbbells(double lightest, double heaviest, double step,
                                             Unit unit) {
  return FixedLoads(lightest, heaviest, step, unit);
}

/// A machine whose first plate is `first` and each of the others `step`.
/// @throws DomainError unless plates >= 1 and the whole stack is at most 1000.
[[nodiscard]] constexpr FixedLoads machine_stack(double first, double step, int plates, Unit unit) {
  return FixedLoads(first, first + step * (plates - 1), step, unit);
}

// ---- the usual rooms ----------------------------------------------------------------------------

/// The sets of bar, collars and plates that gyms and federations use.
namespace plate_sets {

/// A 20 kg bar, spring clips not counted.
inline constexpr Room gym_kg(Bar(20, Unit::kg), {Unit::kg, {25, 20, 15, 10, 5, 2.5, 1.25}});
/// A 45 lb bar, spring clips not counted.
inline constexpr Room gym_lb(Bar(45, Unit::lb), {Unit::lb, {45, 35, 25, 10, 5, 2.5}});

/// Bar and collars together 25 kg.
inline constexpr Room powerlifting = Room(gym_kg).with(Collars(2.5, Unit::kg));
/// With the 50 kg plates that the rules also allow.
inline constexpr Room powerlifting_with_50 = powerlifting.with(Plate(50, Unit::kg));
/// With the small plates for record attempts only.
inline constexpr Room powerlifting_record(Bar(20, Unit::kg),
                                          {Unit::kg, {25, 20, 15, 10, 5, 2.5, 1.25, 0.5, 0.25}},
                                          Collars(2.5, Unit::kg));

/// Bar and collars together 25 kg; steps of 1 kg.
inline constexpr Room weightlifting_men(Bar(20, Unit::kg),
                                        {Unit::kg, {25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5}},
                                        Collars(2.5, Unit::kg));
/// Bar and collars together 20 kg.
inline constexpr Room weightlifting_women = weightlifting_men.with(Bar(15, Unit::kg));

/// A room with the name it has here, for programs that let one be chosen.
struct Named {
  std::string_view name;
  const Room* room;
  Source source;
};

inline constexpr Source gym_source = common_practice("spring clips not counted");
inline constexpr Source powerlifting_source{
    .citation = "International Powerlifting Federation, technical rules",
    .evidence = Evidence::standard,
    .reading = Reading::read,
    .note =
        "bar and collars 25 kg together and the plates read in a national copy; 20 kg and 2 x "
        "2.5 kg, and the sizes of the record plates, recalled"};
inline constexpr Source weightlifting_source{
    .citation = "International Weightlifting Federation, technical rules",
    .evidence = Evidence::standard,
    .reading = Reading::read,
    .note = "bars, collars and plates read in pages of a national federation and Olympic bodies"};

inline constexpr std::array all{
    Named{"gym_kg", &gym_kg, gym_source},
    Named{"gym_lb", &gym_lb, gym_source},
    Named{"powerlifting", &powerlifting, powerlifting_source},
    Named{"powerlifting_with_50", &powerlifting_with_50, powerlifting_source},
    Named{"powerlifting_record", &powerlifting_record, powerlifting_source},
    Named{"weightlifting_men", &weightlifting_men, weightlifting_source},
    Named{"weightlifting_women", &weightlifting_women, weightlifting_source},
};

/// The set of this name; null when there is none.
[[nodiscard]] constexpr const Room* find(std::string_view name) noexcept {
  for (const Named& set : all) {
    if (set.name == name) return set.room;
  }
  return nullptr;
}

}  // namespace plate_sets

// ---- rooms written as text ----------------------------------------------------------------------

namespace detail {

/// Removes and returns what stands before the first of `separators`, blanks around it dropped.
[[nodiscard]] constexpr std::string_view take_until(std::string_view& text,
                                                    std::string_view separators) noexcept {
  const std::size_t end = text.find_first_of(separators);
  std::string_view part = text.substr(0, end);
  text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
  while (!part.empty() && part.back() == ' ') part.remove_suffix(1);
  return part;
}

/// Removes a number like 20 or 2.5 from the front of `text`; false when it does not start with one.
///
/// Not by std::from_chars, which one of the standard libraries has for whole numbers only. Fifteen
/// digits are read as they stand; nobody marks a plate with more.
[[nodiscard]] constexpr bool take_number(std::string_view& text, double& value) noexcept {
  constexpr double most = 9e14;  // ten times as much is still a whole number to the last digit
  const bool is_negative = text.substr(0, 1) == "-";
  std::size_t at = is_negative ? 1 : 0;
  double digits = 0.0;
  double scale = 1.0;
  bool has_digit = false;
  bool has_point = false;
  for (; at < text.size(); ++at) {
    if (text[at] == '.' && !has_point) {
      has_point = true;
      continue;
    }
    if (text[at] < '0' || text[at] > '9') break;
    has_digit = true;
    if (digits < most) {
      digits = 10.0 * digits + (text[at] - '0');
      if (has_point) scale *= 10.0;
    } else if (!has_point) {
      digits *= 10.0;
    }
  }
  if (!has_digit) return false;
  value = (is_negative ? -digits : digits) / scale;
  text.remove_prefix(at);
  return true;
}
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

/// "kg" or "lb", in whatever case.
[[nodiscard]] constexpr std::optional<Unit> parse_unit(std::string_view text) noexcept {
  const auto lower = [](char c) noexcept {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  };
  for (const Unit unit : {Unit::kg, Unit::lb}) {
    const std::string_view name = to_text(unit);
    if (text.size() == name.size() && lower(text[0]) == name[0] && lower(text[1]) == name[1]) {
      return unit;
    }
  }
  return std::nullopt;
}

}  // namespace detail

/// Reads "20 kg", "2.5kg", "45 LB".
/// @throws DomainError for anything else.
[[nodiscard]] inline MarkedMass parse_marked_mass(std::string_view text) {
  std::string_view rest = text;
  double value = 0.0;
  const bool number = detail::take_number(rest, value);
  const auto unit = detail::parse_unit(detail::take_until(rest, ""));
  if (!number || !unit) {
    detail::fail("a mass", "a number and its unit, as in \"20 kg\" or \"45 lb\"", text);
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
        if (!detail::take_number(end, plate.per_side)) detail::fail("plates", form, word);
        if (plate.per_side > 9 || end.substr(0, 1) == ".") {
          detail::fail("plates",
                       Text{}
                           .append("the mass and then how many a side, at most 9, as in \"")
                           .append(detail::swapped(plate.mass, after))
                           .append("\""),
                       word);
        }
        if (plate.mass < 5.0 && plate.per_side >= 5 && is_whole) {
          detail::fail("plates",
                       "the mass and then how many a side (\"5x2\" is two of 5, \"2.0x5\" five of "
                       "2)",
                       word);
        }
      }
      if (size == Plates::most_kinds)
        detail::fail("plates", "at most 24 kinds before a unit", word);
      waiting[size++] = plate;
      if (end.empty()) continue;
    }
    const std::optional<Unit> unit = detail::parse_unit(end);
    if (!unit || size == 0) detail::fail("plates", form, word);
    for (std::size_t i = 0; i < size; ++i) {
      plates.add(Plate(waiting[i].mass, *unit, waiting[i].per_side));
    }
    size = 0;
  }
  if (size > 0) detail::fail("plates", "followed by their unit, kg or lb", text);
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
    if (is_there) detail::fail("a part of a room", "given once", part);
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
      detail::fail("a plate set", names.view(), name);
    } else {
      detail::fail("a part of a room",
                   "the name of a plate set (first), \"bar 20 kg\", \"collars 2.5 kg\" or "
                   "\"plates 25x2 20 10 kg\", with semicolons between parts",
                   part);
    }
  }
  if (!bar) detail::fail("a room", "given with its bar, as in \"bar 20 kg\"", text);
  return Room(*bar, plates, collars);
}

}  // namespace barwright::inline v0
