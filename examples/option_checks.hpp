// examples/option_checks.hpp - what an option takes, and how it is refused
//
// CLI11 reads the options; what it is told here refuses a value as the library does: what must be
// what, and what was typed.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <CLI/CLI.hpp>
#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/core/text.hpp"

namespace option_checks {

/// Takes text that `parse` reads as a number, and as one that it `allows`.
/// @param what     "reps"
/// @param allowed  "a whole number from 1 to 100"
template <class Parse, class Allows>
CLI::Validator number_like(Parse parse, const std::string& what, const std::string& allowed,
                           const std::string& range, Allows allows) {
  return CLI::Validator(
      [=](const std::string& typed) -> std::string {
        const auto value = parse(typed);
        if (value && allows(*value)) return {};
        return what + " must be " + allowed + "; got " + typed;
      },
      range);
}

template <class Number>
std::string range_text(Number low, Number high) {
  return barwright::Text{}.append(low).append(" to ").append(high).str();
}

/// "--reps: reps must be a whole number from 1 to 100; got 8-10"
inline CLI::Validator whole_number(const std::string& what, int low, int high) {
  const std::string range = range_text(low, high);
  return number_like(barwright::parse_whole_number, what, "a whole number from " + range, range,
                     [=](int value) { return low <= value && value <= high; });
}

inline CLI::Validator number(const std::string& what, double low, double high) {
  const std::string range = range_text(low, high);
  return number_like(barwright::parse_number, what, "a number from " + range, range,
                     [=](double value) { return low <= value && value <= high; });
}

inline CLI::Validator reps() { return whole_number("reps", 1, barwright::Reps::most); }

inline CLI::Validator reserve() {
  return number_like(barwright::parse_number, "reps in reserve",
                     "a number from 0 to 30 in steps of 0.5", "0 to 30",
                     barwright::RepsInReserve::is_valid);
}

/// A rating of exertion that counts reps.
inline CLI::Validator rating() {
  return number_like(
      barwright::parse_number, "a rating of exertion", "a number from 5 to 10 in steps of 0.5",
      "5 to 10", [](double rating) { return rating >= 5.0 && barwright::Rpe::is_valid(rating); });
}

/// An option that takes a whole number, which `value` is else.
inline void add_whole(CLI::App& app, const char* name, int& value, const char* help,
                      const char* what, int least, int most) {
  app.add_option(name, value, help)->check(whole_number(what, least, most))->capture_default_str();
}
/// Reps to be left, and in their place a rating.
inline void add_reserve(CLI::App& app, const std::string& name, double& left, const char* help,
                        const std::string& rating_name, std::optional<double>& rated,
                        const char* rating_help) {
  app.add_option(name, left, help)->check(reserve())->capture_default_str();
  app.add_option(rating_name, rated, rating_help)
      ->check(rating())
      ->excludes(name)
      ->type_name("RPE");
}

/// "--safeties: this must be none, unchecked or checked; got some"
inline CLI::Validator one_of(const std::vector<std::string>& names) {
  std::string allowed;
  for (const std::string& name : names) {
    allowed += &name == &names.front() ? "" : &name == &names.back() ? " or " : ", ";
    allowed += name;
  }
  return CLI::Validator(
      [=](const std::string& typed) -> std::string {
        if (std::find(names.begin(), names.end(), typed) != names.end()) return {};
        return "this must be " + allowed + "; got " + typed;
      },
      allowed);
}

/// A log of more than the usual size is read only when asked for: it may be no log.
inline void add_any_size(CLI::App& app, bool& any_size) {
  app.add_flag("--any-size", any_size, "read a log of more than 16 MB, too");
}

/// What is printed when the options will not do: after the program's name, as all else is.
inline std::string failure(const CLI::App* app, const CLI::Error& error) {
  std::string text = error.what();
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
    const std::vector<std::string> extras = app->remaining();
    text = "not understood:";
    for (const std::string& each : extras) text += " " + each;
    const bool is_option = !extras.empty() && extras.front().starts_with("-");
    text += is_option ? "; there is no such option"
                      : "; quote names with spaces: --lift \"bench press\"";
  }
  return app->get_name() + ": " + barwright::printable<std::string>(text) + "\n--help says more\n";
}

}  // namespace option_checks
