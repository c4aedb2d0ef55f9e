// barwright/log/as_written.hpp - the fields of a row as people write them, put into the reader's
// words
//
// "62,5 kg", "3x5", "@8", "failed", "24.09.2026", "DB bench press": each is put as log_reader.hpp
// has it, 62.5, 5 three times, a rating of 8, missed. What is not understood for certain stays as
// it is, and the reader refuses it by its line: nothing is guessed. What has more than one meaning
// and is read all the same is doubtful, and said.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/text.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/miss_words.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Whether loads of dumbbells are those of one hand or of both together.
enum class DumbbellLoads : unsigned char { together, each };

namespace detail {

/// Takes `end` from the end of `text`, capitals or not, and the blanks before it.
[[nodiscard]] constexpr bool take_end(std::string_view& text, std::string_view end) noexcept {
  if (text.size() < end.size()) return false;
  const std::size_t start = text.size() - end.size();
  for (std::size_t i = 0; i < end.size(); ++i) {
    if (lower_case(text[start + i]) != end[i]) return false;
  }
  text = fields::trimmed(text.substr(0, start));
  return true;
}
/// The same from the beginning.
[[nodiscard]] constexpr bool take_begin(std::string_view& text, std::string_view begin) noexcept {
  std::string_view head = text.substr(0, begin.size());
  if (!take_end(head, begin) || !head.empty()) return false;
  text = fields::trimmed(text.substr(begin.size()));
  return true;
}

/// "62,5" with a point, where a comma is the decimal sign; any other text as it is. "1,250" could
/// be a thousand and more, and stays.
[[nodiscard]] std::string with_point(std::string_view text, bool comma_is_decimal);

/// A load as written, taken apart.
struct WrittenLoad {
  std::string number{};
  std::optional<Unit> unit{};
  bool is_each = false;   ///< of one hand: "20 each", "2x20"
  bool is_added = false;  ///< to what the lifter weighs: "BW+10", and "BW" with nothing
};

/// Nothing where there is more to it than a number, its unit, and for how many hands.
[[nodiscard]] std::optional<WrittenLoad> take_load_apart(std::string_view text,
                                                         bool comma_is_decimal);

/// Reps as written: of each set, and whether they were a range.
struct WrittenReps {
  std::vector<int> of_sets{};
  bool was_range = false;
};
inline constexpr std::size_t most_sets_of_row = 20;

/// Whether reps could be two sets or a number with a decimal comma: "7,5".
[[nodiscard]] bool may_be_decimal_reps(std::string_view text);

/// "5", "3x5", "3 x 5 reps", "5/5/4", "8-10"; nothing for what is none of these, nor for "7,5"
/// where a comma is the decimal sign.
[[nodiscard]] std::optional<WrittenReps> take_reps_apart(std::string_view text,
                                                         bool comma_is_decimal = false);

/// How hard a set was, as written: what stands in the two columns for it.
struct WrittenEffort {
  std::string rir{};
  std::string rpe{};
  bool is_missed = false;
  int reps_missed = 1;  ///< that did not go up, or went up with help
};

/// "2", "2 left", "@8", "RPE 8", "8-9", "failed": from a column of reserves, or of ratings. Nothing
/// for what is none of these.
[[nodiscard]] std::optional<WrittenEffort> take_effort_apart(std::string_view text, bool is_rating,
                                                             bool comma_is_decimal);

/// Whether a text is nothing but words of how hard a set was, "easy", "very hard", "max effort": no
/// figure, and no word of a miss or of help.
[[nodiscard]] bool is_effort_in_words(std::string_view text);

/// "completed" or "missed" for the words that say so; nothing for others.
[[nodiscard]] std::optional<std::string_view> outcome_as_written(std::string_view text);

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/as_written.ipp"
#endif
