// examples/arguments.hpp - what the small programs share in reading their command line
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <iostream>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "barwright/core/parse.hpp"
#include "program.hpp"

namespace arguments {

/// Prints `usage` and ends the program when it is asked for.
inline void help_if_asked(int argc, char** argv, std::string_view usage) {
  for (int i = 1; i < argc; ++i) {
    const std::string_view argument = argv[i];
    if (argument != "--help" && argument != "-h") continue;
    std::cout << usage;
    throw program::Exit{0};
  }
}

/// Ends the program that was asked wrongly, with what is wrong, if it is known, and the first lines
/// of `usage`: what it takes, as in.
[[noreturn]] inline void refuse(std::string_view usage, std::string_view problem = {}) {
  if (!problem.empty()) std::cerr << problem << '\n';
  std::cerr << usage.substr(0, usage.find("\n\n") + 1) << "--help says more\n";
  throw program::Exit{1};
}

[[nodiscard]] inline bool is_unit(std::string_view text) { return text == "kg" || text == "lb"; }

/// What of LOAD kg|lb REPS RIR is missing in `args`, units apart, or too much.
[[nodiscard]] inline std::string_view why_no_set(const std::vector<std::string_view>& args) {
  if (args.size() < 2 || !is_unit(args[1])) return "the load must have its unit, as in 100 kg";
  if (args.size() == 2) return "the reps and the reps in reserve are missing";
  if (args.size() > 4) return "there is more than a load, its unit, the reps and the RIR";
  return "the reps in reserve (RIR) are missing: 0 if the set went to failure";
}

/// The number that is the whole of `text`; ends the program, saying `rule`, when there is none.
template <class Number>
[[nodiscard]] Number number_from(std::string_view text, std::string_view rule) {
  if constexpr (std::is_same_v<Number, int>) {
    if (const auto value = barwright::parse_whole_number(text)) return *value;
  } else {
    if (const auto value = barwright::parse_number(text)) return *value;
  }
  throw program::Refusal(std::string(rule) + "; got " + std::string(text));
}

/// A number and the unit that stands with it in one argument; else the whole of it, and none.
struct WithUnit {
  std::string_view number;
  std::string_view unit{};
};

/// Parts "100kg" and "225 lb".
[[nodiscard]] inline WithUnit part_unit(std::string_view text) {
  const std::size_t end = text.find_first_not_of("0123456789.");
  const std::size_t unit = text.find_first_not_of(' ', end);
  if (end > 0 && unit != text.npos && is_unit(text.substr(unit))) {
    return {.number = text.substr(0, end), .unit = text.substr(unit)};
  }
  return {.number = text};
}

/// The arguments, with a number and its unit in one parted.
[[nodiscard]] inline std::vector<std::string_view> with_units_apart(int argc, char** argv) {
  std::vector<std::string_view> parted;
  for (int i = 1; i < argc; ++i) {
    const WithUnit parts = part_unit(argv[i]);
    parted.push_back(parts.number);
    if (!parts.unit.empty()) parted.push_back(parts.unit);
  }
  return parted;
}

}  // namespace arguments
