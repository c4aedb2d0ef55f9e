// barwright/plan/json_fields.hpp - the members of a request, read by name, with faults that say
// where
//
// A request comes from a program that somebody wrote in a hurry. A member that is misspelt must not
// be passed over, as the load would then be planned without it: what nobody asked for is refused. A
// fault names the member as a program would write it, `log[3].reps`.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <exception>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/core/text.hpp"
#include "barwright/plan/json_text.hpp"

namespace barwright::inline BARWRIGHT_ABI::json {

/// Where in a request something stands. Knows the place it is in, which must outlive it; costs
/// nothing until its text is asked for.
class Place {
 public:
  Place() noexcept = default;  ///< the request as a whole
  Place(const Place& outer, std::string_view name) noexcept : outer_(&outer), name_(name) {}
  Place(const Place& outer, std::size_t index) noexcept : outer_(&outer), index_(index) {}

  /// "log[3].reps"; empty for the request as a whole.
  [[nodiscard]] std::string text() const {
    if (outer_ == nullptr) return {};
    std::string text = outer_->text();
    if (name_.empty()) return text + '[' + std::to_string(index_) + ']';
    if (!text.empty()) text += '.';
    return text.append(name_);
  }

 private:
  const Place* outer_ = nullptr;
  std::string_view name_{};
  std::size_t index_ = 0;
};

/// A request that cannot be understood, and where.
class BadRequest : public std::exception {
 public:
  BadRequest(std::string at, std::string text) : at_(std::move(at)), text_(std::move(text)) {}
  [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }
  [[nodiscard]] const std::string& at() const noexcept { return at_; }

 private:
  std::string at_;
  std::string text_;
};

/// Refuses what stands at a place. Without exceptions it prints and ends the program, as all of the
/// library's refusals do then.
[[noreturn]] inline void refuse(const Place& at, std::string text) {
#if BARWRIGHT_EXCEPTIONS
  throw BadRequest(at.text(), std::move(text));
#else
  barwright::detail::fail(std::string_view(at.text()), "as docs/json.md says",
                          std::string_view(text));
#endif
}

/// What `make` returns; where the library refuses a value, the refusal says that it stands here.
template <class Make>
auto made_at(const Place& at, const Make& make) -> decltype(make()) {
#if BARWRIGHT_EXCEPTIONS
  try {
    return make();
  } catch (const DomainError& error) {
    refuse(at, error.what());
  }
#else
  (void)at;
  return make();
#endif
}

/// A word that stands for a value.
template <class T>
using Choice = std::pair<std::string_view, T>;

/// The members of one object. A member that is null counts as not given.
class Fields {
 public:
  /// @throws BadRequest where the value is no object.
  Fields(const Value& value, const Place& at) : at_(at) {
    if (value.object() == nullptr) refuse_kind(at, "an object", value);
    members_ = value.object();
  }

  [[nodiscard]] const Place& place() const noexcept { return at_; }
  [[nodiscard]] Place place(std::string_view name) const noexcept { return {at_, name}; }

  /// The member; nullptr where it is not given.
  [[nodiscard]] const Value* find(std::string_view name) {
    if (std::find(asked_.begin(), asked_.end(), name) == asked_.end()) asked_.push_back(name);
    const Value* const value = given(name);
    return value == nullptr || value->is_null() ? nullptr : value;
  }
  /// The member as it stands, null or not, without asking for it.
  [[nodiscard]] const Value* given(std::string_view name) const noexcept {
    for (const Member& member : *members_) {
      if (member.name == name) return &member.value;
    }
    return nullptr;
  }
  [[nodiscard]] const Value& required(std::string_view name) {
    const Value* const value = find(name);
    if (value == nullptr) refuse(at_, "\"" + std::string(name) + "\" must be given");
    return *value;
  }

  [[nodiscard]] std::optional<double> number(std::string_view name) {
    const Value* const value = find(name);
    if (value == nullptr) return std::nullopt;
    if (value->number() == nullptr) refuse_kind(place(name), "a number", *value);
    return *value->number();
  }
  [[nodiscard]] std::optional<int> whole(std::string_view name, int least, int most) {
    const std::optional<double> value = number(name);
    if (!value) return std::nullopt;
    if (!(*value >= least && *value <= most) || *value != std::floor(*value)) {
      Text text;
      text.append("must be a whole number from ").append(least).append(" to ").append(most);
      refuse(place(name), text.append("; got ").append(*value).str());
    }
    return static_cast<int>(*value);
  }
  [[nodiscard]] std::optional<std::string_view> text(std::string_view name) {
    const Value* const value = find(name);
    if (value == nullptr) return std::nullopt;
    if (value->string() == nullptr) refuse_kind(place(name), "a string", *value);
    return *value->string();
  }
  [[nodiscard]] std::optional<bool> boolean(std::string_view name) {
    const Value* const value = find(name);
    if (value == nullptr) return std::nullopt;
    if (value->boolean() == nullptr) refuse_kind(place(name), "true or false", *value);
    return *value->boolean();
  }
  /// False where it is not given.
  [[nodiscard]] bool flag(std::string_view name) { return boolean(name).value_or(false); }
  /// nullptr where it is not given.
  [[nodiscard]] const Value::Array* array(std::string_view name) {
    const Value* const value = find(name);
    if (value == nullptr) return nullptr;
    if (value->array() == nullptr) refuse_kind(place(name), "an array", *value);
    return value->array();
  }
  /// "2026-11-25".
  [[nodiscard]] std::optional<Date> date(std::string_view name) {
    const std::optional<std::string_view> written = text(name);
    if (!written) return std::nullopt;
    const std::optional<Date> day = parse_date(*written);
    if (!day) refuse_value(place(name), "a date such as \"2026-11-25\"", *written);
    return day;
  }
  /// From the member `name`_kg or `name`_lb.
  [[nodiscard]] std::optional<Mass> mass(std::string_view name) {
    const std::optional<double> kg = number(name_in(name, Unit::kg));
    const std::optional<double> lb = number(name_in(name, Unit::lb));
    if (kg && lb) {
      refuse(at_,
             "\"" + std::string(name) + "\" must be given in kilograms or in pounds, not both");
    }
    if (!kg && !lb) return std::nullopt;
    const Unit unit = kg ? Unit::kg : Unit::lb;
    return made_at(place(name_in(name, unit)), [&] { return Mass::from(kg ? *kg : *lb, unit); });
  }
  template <class T>
  [[nodiscard]] std::optional<T> choice(std::string_view name,
                                        std::initializer_list<Choice<T>> choices) {
    const std::optional<std::string_view> word = text(name);
    if (!word) return std::nullopt;
    std::string allowed;
    for (const auto& [known, value] : choices) {
      if (known == *word) return value;
      allowed.append(allowed.empty() ? "" : ", ").append(known);
    }
    refuse_value(place(name), "one of " + allowed, *word);
  }

  /// Refuses the members that were not asked for.
  void finish() const {
    for (const Member& member : *members_) {
      if (std::find(asked_.begin(), asked_.end(), member.name) != asked_.end()) continue;
      std::string known;
      for (const std::string_view name : asked_) {
        known.append(known.empty() ? "" : ", ").append(name);
      }
      refuse(at_, "\"" + printable<std::string>(member.name) + "\" is not known here; known are " +
                      known);
    }
  }

  /// Raises "must be <allowed>; got <a kind>".
  [[noreturn]] static void refuse_kind(const Place& at, std::string_view allowed,
                                       const Value& got) {
    refuse(at, "must be " + std::string(allowed) + "; got " + std::string(got.kind()));
  }
  [[noreturn]] static void refuse_value(const Place& at, std::string_view allowed,
                                        std::string_view got) {
    refuse(at, "must be " + std::string(allowed) + "; got \"" +
                   printable<std::string>(got.substr(0, 100)) + "\"");
  }

 private:
  /// The names of masses, as this must not allocate per set of a log.
  static std::string_view name_in(std::string_view name, Unit unit) {
    constexpr std::string_view names[][2] = {{"load_kg", "load_lb"},
                                             {"stated_max_kg", "stated_max_lb"},
                                             {"body_mass_kg", "body_mass_lb"}};
    for (const auto& each : names) {
      if (each[0].substr(0, each[0].size() - 3) == name) return each[unit == Unit::kg ? 0 : 1];
    }
    return name;
  }

  const Place& at_;
  const Value::Object* members_ = nullptr;
  std::vector<std::string_view> asked_;
};

}  // namespace barwright::inline BARWRIGHT_ABI::json
