// barwright/plan/json_lifter.hpp - a lifter as a request tells of one: a log, a stated max, or both
//
// The members and what they mean are in docs/json.md. A set that is given wrongly refuses the whole
// request, and says which: a program that keeps a log knows its sets, and a load planned without
// one of them would be a load for another log.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/names.hpp"
#include "barwright/core/text.hpp"
#include "barwright/curves/any_curve.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/miss_words.hpp"
#include "barwright/log/own_lifts.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/plan/json_csv.hpp"
#include "barwright/plan/json_fields.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/rules.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// The lifts of the member "own_lifts_csv", which log/own_lifts.hpp reads; none where it is not
/// given.
/// @throws BadRequest where a line was refused.
[[nodiscard]] inline OwnLifts own_lifts_from(Fields& fields) {
  const auto csv = fields.text("own_lifts_csv");
  if (!csv) return {};
  OwnLifts own = read_own_lifts(*csv);
  for (const LineReport& report : own.reports) {
    refuse(fields.place("own_lifts_csv"), to_text("line", report));
  }
  if (!own.failure.empty()) refuse(fields.place("own_lifts_csv"), own.failure);
  return own;
}

/// Lifts by the names that `Lift::name` prints, "bench press, feet up, flat back", or by the name
/// of an own lift. Each name is looked up once, as a log has the same few again and again.
/// What it finds points into it.
class LiftNames {
 public:
  explicit LiftNames(OwnLifts own) : own_(std::move(own)) {}

  /// The lifts beside those of the catalogue.
  [[nodiscard]] Handles<Modifier> own() const noexcept { return own_.modifiers(); }

  /// @throws BadRequest where there is no such lift, with the names nearest to it.
  const Lift& find(std::string_view name, const Place& at) {
    const auto known = known_.find(name);
    if (known != known_.end()) return known->second;
    return known_.emplace(std::string(name), looked_up(name, at)).first->second;
  }

 private:
  /// What stands in `text` before its first comma, or its second, without blanks around it; `text`
  /// becomes the rest.
  static std::string_view take_part(std::string_view& text, int commas) {
    std::size_t end = text.find(',');
    if (commas == 2 && end != std::string_view::npos) end = text.find(',', end + 1);
    std::string_view part = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
    while (!part.empty() && part.back() == ' ') part.remove_suffix(1);
    return part;
  }

  /// Takes the next change from `text`: "incline, wedged against the seat" is one with a comma in
  /// its name, so the longer name is tried first.
  [[nodiscard]] const Modifier& take_change(std::string_view& text, const BaseLift& base,
                                            const Place& at) const {
    std::string_view rest;
    std::string_view name;
    for (const int commas : {2, 1}) {
      rest = text;
      name = take_part(rest, commas);
      const Modifier* change = catalogue::find_modifier(name, base);
      if (change == nullptr) {
        change = barwright::detail::find_called(
            name, own(), [&](const Modifier& each) { return each.applies_to(base); });
      }
      if (change != nullptr) {
        text = rest;
        return *change;
      }
    }
    refuse_name("a change to the " + std::string(base.name),
                catalogue::nearest_modifier_names(name, base), name, at);
  }

  [[noreturn]] static void refuse_name(std::string_view what, const NameList& nearest,
                                       std::string_view got, const Place& at) {
    std::string allowed(what);
    for (std::size_t i = 0; i < nearest.size(); ++i) {
      allowed += i == 0 ? ", such as " : i + 1 == nearest.size() ? " or " : ", ";
      allowed += nearest[i];
    }
    Fields::refuse_value(at, allowed, got);
  }

  [[nodiscard]] Lift looked_up(std::string_view text, const Place& at) const {
    constexpr std::size_t longest = 1000;
    if (text.size() > longest) Fields::refuse_value(at, "the name of a lift", text);
    const std::string_view base_name = take_part(text, 1);
    const std::optional<Lift> of_own = fields::own_lift(base_name, own());
    const BaseLift* const base = of_own ? &of_own->base() : catalogue::find_lift(base_name);
    if (base == nullptr) {
      refuse_name("the name of a lift", catalogue::nearest_lift_names(base_name), base_name, at);
    }
    Lift lift = of_own ? *of_own : Lift(*base);
    while (!text.empty()) {
      const Modifier& change = take_change(text, *base, at);
      lift = made_at(at, [&] { return lift + change; });
    }
    return lift;
  }

  OwnLifts own_;  // first: what is known points at it
  std::map<std::string, Lift, std::less<>> known_;
};

/// The reps left, from "left" or "rpe"; nothing where neither is given, or the rating is too
/// low to count reps.
[[nodiscard]] inline std::optional<Range<RepsInReserve>> reserve_from(Fields& fields) {
  const std::optional<double> left = fields.number("left");
  const std::optional<double> rating = fields.number("rpe");
  if (left && rating) refuse(fields.place("rpe"), "must not be given beside \"left\"");
  if (left) {
    return made_at(fields.place("left"),
                   [&] { return Range<RepsInReserve>::exactly(RepsInReserve(*left)); });
  }
  if (!rating) return std::nullopt;
  return made_at(fields.place("rpe"), [&] { return reps_in_reserve(Rpe(*rating)); });
}

/// What was lifted in a set, and how it ended.
[[nodiscard]] inline LoggedSet effort_from(Fields& fields, Date date, const Lift& lift) {
  const std::optional<Mass> load = fields.mass("load");
  if (!load) refuse(fields.place(), "\"load_kg\" must be given, or \"load_lb\"");
  (void)fields.required("reps");
  LoggedSet set{.date = date,
                .lift = lift,
                .load = *load,
                .reps = Reps(*fields.whole("reps", Reps::fewest, Reps::most)),
                .reserve = reserve_from(fields)};
  const bool is_answered = fields.find("missed") != nullptr;
  if (fields.flag("missed")) {
    set.outcome = Outcome::missed;
    if (set.reserve) {
      refuse(fields.place(), "a set that was missed must have neither \"left\" nor \"rpe\"");
    }
  }
  set.is_unwell = fields.flag("unwell");
  set.has_pain = fields.flag("pain");
  if (const auto note = fields.text("note")) {
    take_note(set, *note);
    if (!is_answered) take_miss(set, *note);
  }
  return set;
}

/// One set of a log.
[[nodiscard]] inline LoggedSet set_from(const Value& value, const Place& at, LiftNames& names) {
  Fields fields(value, at);
  (void)fields.required("date");
  (void)fields.required("lift");
  const Date date = *fields.date("date");
  const Lift& lift = names.find(*fields.text("lift"), fields.place("lift"));
  const LoggedSet set = effort_from(fields, date, lift);
  fields.finish();
  return set;
}

/// The sets of a lifter, from "log_csv" and then from the array "log"; none where neither is given.
[[nodiscard]] inline GivenLog log_from(Fields& fields, LiftNames& names) {
  GivenLog log = csv_sets_from(fields, names.own());
  std::vector<LoggedSet>& sets = log.sets;
  if (const Value::Array* const items = fields.array("log")) {
    const Place at = fields.place("log");
    sets.reserve(sets.size() + items->size());
    for (std::size_t i = 0; i < items->size(); ++i) {
      const Place at_set(at, i);
      sets.push_back(set_from((*items)[i], at_set, names));
    }
  }
  return log;
}

/// The planning rules that are given, the others as they are.
[[nodiscard]] inline PlanningRules rules_from(Fields& fields) {
  PlanningRules rules;
  if (const Value* const value = fields.find("rules")) {
    const Place at = fields.place("rules");
    Fields given(*value, at);
    for_each_rule(rules, [&](const RuleFact& fact, auto& rule) {
      const std::optional<double> number = given.number(fact.name);
      if (!number) return;
      if (!(*number >= fact.least && *number <= fact.most)) {
        Text text;
        text.append("must be from ").append(fact.least).append(" to ").append(fact.most);
        refuse(given.place(fact.name), text.append("; got ").append(*number).str());
      }
      if constexpr (std::is_same_v<std::remove_reference_t<decltype(rule)>, int>) {
        rule = *given.whole(fact.name, static_cast<int>(fact.least), static_cast<int>(fact.most));
      } else {
        rule = *number;
      }
    });
    given.finish();
  }
  return rules;
}

/// What is said of a lifter beside the log.
[[nodiscard]] inline LifterFacts facts_from(Fields& fields, LiftNames& names) {
  LifterFacts facts;
  facts.stated_max = fields.mass("stated_max");
  facts.body_mass = fields.mass("body_mass");
  if (const Value::Array* const items = fields.array("done_before")) {
    const Place at = fields.place("done_before");
    for (std::size_t i = 0; i < items->size(); ++i) {
      const Place at_lift(at, i);
      Fields done((*items)[i], at_lift);
      const Value& lift = done.required("lift");
      if (lift.string() == nullptr) Fields::refuse_kind(done.place("lift"), "a string", lift);
      (void)done.required("sessions");
      facts.done_before.push_back(
          {names.find(*lift.string(), done.place("lift")), *done.whole("sessions", 0, 10'000)});
      done.finish();
    }
  }
  if (const auto equation = fields.text("equation")) {
    facts.curve =
        made_at(fields.place("equation"), [&] { return CurveTable(parse_curve(*equation)); });
  }
  facts.experience =
      fields
          .choice<Experience>("experience", {{"experienced", Experience::experienced},
                                             {"novice", Experience::novice}})
          .value_or(Experience::experienced);
  facts.ratings =
      fields
          .choice<RatingScale>("ratings", {{"reps_in_reserve", RatingScale::reps_in_reserve},
                                           {"rpe", RatingScale::rpe}})
          .value_or(RatingScale::as_found);
  facts.rules = rules_from(fields);
  return facts;
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
