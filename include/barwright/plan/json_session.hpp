// barwright/plan/json_session.hpp - what a request asks of a session
//
// The members and what they mean are in docs/json.md. What is not given is as SessionRequest has
// it, the cautious side: nobody stands by, nothing would catch the bar.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/json_lifter.hpp"
#include "barwright/plan/session.hpp"
#include "barwright/plates/dumbbells.hpp"
#include "barwright/plates/parse_room.hpp"
#include "barwright/plates/room.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// A rack of dumbbells or a stack: {"lightest", "heaviest", "step", "unit"}.
[[nodiscard]] inline std::optional<FixedLoads> fixed_loads_from(Fields& fields,
                                                                std::string_view name) {
  const Value* const value = fields.find(name);
  if (value == nullptr) return std::nullopt;
  const Place at = fields.place(name);
  Fields rack(*value, at);
  for (const std::string_view part : {"lightest", "heaviest", "step"}) (void)rack.required(part);
  const double lightest = *rack.number("lightest");
  const double heaviest = *rack.number("heaviest");
  const double step = *rack.number("step");
  const Unit unit =
      rack.choice<Unit>("unit", {{"kg", Unit::kg}, {"lb", Unit::lb}}).value_or(Unit::kg);
  rack.finish();
  return made_at(at, [&] { return dumbbells(lightest, heaviest, step, unit); });
}

/// The bar and the plates there are: the name of a set, or a text such as "bar 20 kg; plates 20
/// 10".
[[nodiscard]] inline Room room_from(Fields& fields, const Room& otherwise) {
  const std::optional<std::string_view> text = fields.text("room");
  if (!text) return otherwise;
  return made_at(fields.place("room"), [&] { return parse_room(*text); });
}

[[nodiscard]] inline Safeties safeties_from(Fields& fields) {
  return fields
      .choice<Safeties>("safeties", {{"none", Safeties::none},
                                     {"unchecked", Safeties::unchecked},
                                     {"checked", Safeties::checked}})
      .value_or(Safeties::none);
}

[[nodiscard]] inline Pain pain_from(Fields& fields) {
  return fields
      .choice<Pain>("pain",
                    {{"as_logged", Pain::as_logged}, {"none", Pain::none}, {"yes", Pain::yes}})
      .value_or(Pain::as_logged);
}

[[nodiscard]] inline Unwell unwell_from(Fields& fields) {
  return fields
      .choice<Unwell>(
          "unwell",
          {{"as_logged", Unwell::as_logged}, {"none", Unwell::none}, {"yes", Unwell::yes}})
      .value_or(Unwell::as_logged);
}

/// What every plan is asked with: the room, who or what would catch the bar, whether it hurts, and
/// whether a doubted max is right.
template <class Request>
void read_circumstances(Fields& fields, Request& asked) {
  asked.room = room_from(fields, asked.room);
  asked.has_spotter = fields.flag("spotter");
  asked.safeties = safeties_from(fields);
  asked.pain = pain_from(fields);
  asked.unwell = unwell_from(fields);
  asked.is_max_confirmed = fields.flag("max_is_confirmed");
}

/// The bound on the chance of missing; nothing where none is given.
[[nodiscard]] inline std::optional<double> chance_from(Fields& fields) {
  constexpr std::string_view name = "max_chance_of_missing";
  const std::optional<double> chance = fields.number(name);
  if (chance && !(*chance > 0.0 && *chance < 1.0)) {
    refuse(fields.place(name), "must be a number above 0 and below 1");
  }
  return chance;
}

/// Reps to be left: a count, or the rating of exertion that stands for it.
[[nodiscard]] inline RepsInReserve left_from(Fields& fields, RepsInReserve otherwise,
                                             std::string_view count_name = "left",
                                             std::string_view rating_name = "rpe") {
  const std::optional<double> left = fields.number(count_name);
  const std::optional<double> rating = fields.number(rating_name);
  if (left && rating) {
    refuse(fields.place(rating_name),
           "must not be given beside \"" + std::string(count_name) + "\"");
  }
  if (left) return made_at(fields.place(count_name), [&] { return RepsInReserve(*left); });
  if (!rating) return otherwise;
  return made_at(fields.place(rating_name), [&] { return typical_reserve(Rpe(*rating)); });
}

/// The lift a request is about.
[[nodiscard]] inline Lift lift_from(Fields& fields, LiftNames& names) {
  (void)fields.required("lift");
  return names.find(*fields.text("lift"), fields.place("lift"));
}

/// The day a request is about.
[[nodiscard]] inline Date date_from(Fields& fields) {
  (void)fields.required("date");
  return *fields.date("date");
}

/// Sets after the top one: {"sets", "drop", "reps"}.
[[nodiscard]] inline std::optional<BackOffs> back_offs_from(Fields& fields) {
  const Value* const value = fields.find("back_offs");
  if (value == nullptr) return std::nullopt;
  const Place at = fields.place("back_offs");
  Fields given(*value, at);
  BackOffs back_offs;
  if (const auto sets = given.whole("sets", 1, Sets::most)) back_offs.sets = Sets(*sets);
  if (const auto drop = given.number("drop")) {
    if (!(*drop >= 0.0 && *drop <= 0.5)) {
      refuse(given.place("drop"), "must be a number from 0 to 0.5");
    }
    back_offs.drop = *drop;
  }
  if (const auto reps = given.whole("reps", Reps::fewest, Reps::most)) back_offs.reps = Reps(*reps);
  given.finish();
  return back_offs;
}

[[nodiscard]] inline SessionRequest session_from(Fields& fields, LiftNames& names) {
  SessionRequest asked{.lift = lift_from(fields, names), .date = date_from(fields)};
  if (const auto sets = fields.whole("sets", 1, Sets::most)) asked.sets = Sets(*sets);
  if (const auto reps = fields.whole("reps", Reps::fewest, Reps::most)) asked.reps = Reps(*reps);
  asked.reserve = left_from(fields, asked.reserve);
  if (const auto most = fields.whole("reps_to", Reps::fewest, Reps::most)) {
    if (*most < asked.reps.count()) {
      refuse(fields.place("reps_to"), "must be no fewer than \"reps\"");
    }
    asked.most_reps = Reps(*most);
  }
  const RepsInReserve most = left_from(fields, asked.reserve, "left_to", "rpe_from");
  if (most < asked.reserve) refuse(fields.place("left_to"), "must be no fewer than \"left\"");
  if (most > asked.reserve) asked.most_reserve = most;
  asked.back_offs = back_offs_from(fields);
  asked.max_chance_of_missing = chance_from(fields);
  asked.dumbbells = fixed_loads_from(fields, "dumbbells");
  asked.stack = fixed_loads_from(fields, "stack");
  read_circumstances(fields, asked);
  return asked;
}

/// The sets of a session that were done so far: as in a log, without date and lift.
[[nodiscard]] inline std::vector<LoggedSet> done_from(Fields& fields, const SessionRequest& asked) {
  std::vector<LoggedSet> sets;
  const Value& done = fields.required("done");
  if (done.array() == nullptr) Fields::refuse_kind(fields.place("done"), "an array", done);
  const Place at = fields.place("done");
  for (std::size_t i = 0; i < done.array()->size(); ++i) {
    const Place at_set(at, i);
    Fields set((*done.array())[i], at_set);
    sets.push_back(effort_from(set, asked.date, asked.lift));
    set.finish();
  }
  return sets;
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
