// barwright/plan/json_catalogue.hpp - the lifts and changes there are, as JSON
//
// What a program offers to choose from: the answer to the request "catalogue", which docs/json.md
// describes.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string_view>

#include "barwright/core/source.hpp"
#include "barwright/lifts/base_lift.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/plan/json_writer.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

namespace detail {

/// What a change leaves of a max of 100 kg; the shares of some changes differ with the max.
inline void write_change(Writer& json, const Modifier& change, const BaseLift& base) {
  const Range<double> share = change.ratio(Mass::from_kg(100));
  json.begin_object().member("key", change.key()).member("name", change.name());
  json.member("changes_implement", change.sets_any_of(Setup::implement));
  json.name("share").begin_object().member("low", share.low).member("typical", share.typical);
  json.member("high", share.high).end_object();
  json.member("evidence", to_text(change.ratio_figure().evidence));
  json.name("excludes").begin_array();
  for (const Modifier& other : catalogue::modifiers()) {
    if (other.key() != change.key() && other.applies_to(base) && change.excludes(other)) {
      json.value(other.key());
    }
  }
  json.end_array().end_object();
}

}  // namespace detail

/// Writes the members "lifts" and what is in it.
inline void write_catalogue(Writer& json) {
  json.name("lifts").begin_array();
  for (const BaseLift& base : catalogue::lifts()) {
    json.begin_object().member("key", base.key).member("name", base.name);
    json.member("is_machine", base.is_machine).member("has_stack", base.has_stack);
    json.member("is_bodyweight", base.is_bodyweight);
    json.member("needs_body_mass", base.body_share.has_value());
    json.member("is_explosive", base.family == LiftFamily::explosive);
    json.member("dumbbells", base.dumbbells);
    json.name("changes").begin_array();
    for (const Modifier& change : catalogue::modifiers()) {
      if (change.applies_to(base)) detail::write_change(json, change, base);
    }
    json.end_array().end_object();
  }
  json.end_array();
}

}  // namespace barwright::inline BARWRIGHT_ABI::json
