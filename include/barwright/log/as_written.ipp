// barwright/log/as_written.ipp - the bodies of as_written.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/core/effort.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/text.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/miss_words.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

inline std::string with_point(std::string_view text, bool comma_is_decimal) {
  std::string number(text);
  const std::size_t comma = number.find(',');
  if (!comma_is_decimal || comma == std::string::npos || number.size() - comma == 4) return number;
  if (number.find_first_of(",.", comma + 1) != std::string::npos || number.find('.') < comma) {
    return number;
  }
  number[comma] = '.';
  return number;
}

inline std::optional<WrittenLoad> take_load_apart(std::string_view text, bool comma_is_decimal) {
  WrittenLoad load;
  text = fields::trimmed(text);
  for (const std::string_view body : {"bodyweight", "body weight", "bw"}) {
    if (!take_begin(text, body)) continue;
    load.is_added = true;
    if (text.empty()) {
      load.number = "0";
      return load;
    }
    if (!take_begin(text, "+")) return std::nullopt;
    break;
  }
  for (const std::string_view each :
       {"each hand", "per hand", "/hand", "a hand", "each", "per dumbbell"}) {
    if (take_end(text, each)) {
      load.is_each = true;
      break;
    }
  }
  for (const auto& [name, unit] :
       {std::pair("kgs", Unit::kg), std::pair("kg", Unit::kg), std::pair("lbs", Unit::lb),
        std::pair("lb", Unit::lb), std::pair("pounds", Unit::lb), std::pair("kilos", Unit::kg)}) {
    if (take_end(text, name)) {
      load.unit = unit;
      break;
    }
  }
  if (text.size() > 2 && (take_begin(text, "2x") || take_begin(text, "2 x"))) load.is_each = true;
  load.number = with_point(text, comma_is_decimal);
  const auto value = parse_number(load.number);
  if (!value) return std::nullopt;
  return load;
}

inline bool may_be_decimal_reps(std::string_view text) {
  text = fields::trimmed(text);
  const std::size_t comma = text.find(',');
  return comma != text.npos && comma + 2 == text.size() && comma > 0 &&
         text.find_first_not_of("0123456789,") == text.npos && text.rfind(',') == comma;
}

inline std::optional<WrittenReps> take_reps_apart(std::string_view text, bool comma_is_decimal) {
  if (comma_is_decimal && may_be_decimal_reps(text)) return std::nullopt;
  WrittenReps reps;
  text = fields::trimmed(text);
  for (const std::string_view word : {"repetitions", "reps", "rep"}) {
    if (take_end(text, word)) break;
  }
  const auto whole = [](std::string_view part) -> std::optional<int> {
    const auto count = parse_whole_number(fields::trimmed(part));
    return count && Reps::is_valid(*count) ? count : std::nullopt;
  };
  constexpr std::string_view times = "\xC3\x97";
  std::size_t cross = text.find_first_of("xX");
  std::size_t after = cross + 1;
  if (const std::size_t at = text.find(times); at != std::string_view::npos) {
    cross = at;
    after = at + times.size();
  }
  if (cross != std::string_view::npos) {
    const auto sets = whole(text.substr(0, cross));
    const auto count = whole(text.substr(after));
    if (cross == 0) {  // "x5"
      if (count) reps.of_sets = {*count};
    } else if (sets && count && *sets <= static_cast<int>(most_sets_of_row)) {
      reps.of_sets.assign(static_cast<std::size_t>(*sets), *count);
    }
  } else if (text.find_first_of("/,;") != std::string_view::npos) {
    while (true) {
      const std::size_t end = text.find_first_of("/,;");
      const auto count = whole(text.substr(0, end));
      if (!count || reps.of_sets.size() == most_sets_of_row) return std::nullopt;
      reps.of_sets.push_back(*count);
      if (end == std::string_view::npos) break;
      text.remove_prefix(end + 1);
    }
  } else if (const std::size_t dash = text.find('-', 1); dash != std::string_view::npos) {
    const auto low = whole(text.substr(0, dash));
    const auto high = whole(text.substr(dash + 1));
    if (low && high && *low < *high) reps = {.of_sets = {*low}, .was_range = true};
  } else if (const auto count = whole(text)) {
    reps.of_sets = {*count};
  }
  if (reps.of_sets.empty()) return std::nullopt;
  return reps;
}

inline std::optional<WrittenEffort> take_effort_apart(std::string_view text, bool is_rating,
                                                      bool comma_is_decimal) {
  WrittenEffort effort;
  text = fields::trimmed(text);
  if (const NotedMiss miss = miss_in_note(text); miss.kind == MissInNote::clear) {
    return WrittenEffort{.is_missed = true, .reps_missed = miss.reps};
  }
  const std::string plain = fields::plain(text);
  if (plain == "failure" || plain == "to failure") return WrittenEffort{.rir = "0"};
  if (take_begin(text, "@") || take_begin(text, "rpe")) {
    is_rating = true;
    (void)take_begin(text, "@");
  } else if (take_end(text, "rpe")) {
    is_rating = true;
  } else {
    for (const std::string_view left : {"rir", "in reserve", "in the tank", "reps left", "left"}) {
      if (!take_end(text, left)) continue;
      is_rating = false;
      break;
    }
  }
  const std::size_t dash = text.find('-', 1);
  const std::string low = with_point(fields::trimmed(text.substr(0, dash)), comma_is_decimal);
  if (!parse_number(low)) return std::nullopt;
  if (dash == std::string_view::npos) {
    (is_rating ? effort.rpe : effort.rir) = low;
    return effort;
  }
  const std::string high = with_point(fields::trimmed(text.substr(dash + 1)), comma_is_decimal);
  if (!parse_number(high)) return std::nullopt;
  if (!is_rating) {
    effort.rir = low + "-" + high;
    return effort;
  }
  // A rating from 8 to 9 is one to two left.
  const double least = 10.0 - *parse_number(high);
  const double most = 10.0 - *parse_number(low);
  if (!(0.0 <= least && least <= most && most <= 5.0)) return std::nullopt;
  effort.rir = Text{}.append(least).append("-").append(most).str();
  return effort;
}

inline bool is_effort_in_words(std::string_view text) {
  constexpr std::array<std::string_view, 34> known{
      "all",    "brutal",   "challenging", "comfortable", "easier", "easy",    "effort",
      "fairly", "fast",     "fine",        "good",        "grind",  "grinder", "grindy",
      "hard",   "harder",   "heavy",       "light",       "max",    "maximal", "maximum",
      "medium", "moderate", "moderately",  "normal",      "ok",     "okay",    "out",
      "pretty", "quite",    "smooth",      "solid",       "tough",  "very"};
  const std::string plain = fields::plain(text);
  std::string_view rest = plain;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find(' '), rest.size());
    if (std::find(known.begin(), known.end(), rest.substr(0, end)) == known.end()) return false;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return !plain.empty();
}

inline std::optional<std::string_view> outcome_as_written(std::string_view text) {
  constexpr std::array<std::string_view, 12> yes{
      "completed", "complete", "done", "yes",          "y",           "ok", "good",
      "made",      "success",  "true", "\xE2\x9C\x93", "\xE2\x9C\x94"};
  constexpr std::array<std::string_view, 11> no{
      "missed",  "miss",  "failed", "fail",         "no",          "n",
      "no lift", "false", "x",      "\xE2\x9C\x97", "\xE2\x9C\x98"};
  const std::string plain = fields::plain(text);
  for (const std::string_view word : yes) {
    if (plain == word) return "completed";
  }
  for (const std::string_view word : no) {
    if (plain == word) return "missed";
  }
  return std::nullopt;
}

}  // namespace detail

}  // namespace barwright::inline BARWRIGHT_ABI
