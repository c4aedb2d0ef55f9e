// barwright/log/log_row.hpp - one row of a log in the reader's words, read into a set
//
// What people write is put into these words before (written_row.hpp); here every field is checked
// and each that is wrong gets its report.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/core/parse.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/log_columns.hpp"
#include "barwright/log/log_entries.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {
namespace detail {

/// The lifts found so far, by what stands in their two fields: the same few stand in most rows.
using KnownLifts = std::map<std::pair<std::string, std::string>, Lift>;

/// Reads one row into an entry, reporting every field that is wrong.
class LogRow : private TableRow<LogColumns> {
 public:
  using Header = TableHeader<LogColumns>;

  LogRow(LineReports& reports, const Header& header, const CsvRecord& row, KnownLifts& lifts,
         Handles<Modifier> own = {}, bool ratings_are_told = false)
      : TableRow(reports, header, row),
        reports_(reports),
        lifts_(lifts),
        own_(own),
        ratings_are_told_(ratings_are_told) {}

  /// Whether it is only a remark, on a day perhaps and of somebody: no set was meant.
  [[nodiscard]] bool is_remark() const { return has_no_set() && !get(Column::note).empty(); }

  /// Whether it names a lift and has a note, and neither load nor reps: the note may be all of it.
  [[nodiscard]] bool may_be_remark_on_lift() const {
    return !get(Column::lift).empty() && get(Column::load).empty() && get(Column::reps).empty() &&
           !get(Column::note).empty();
  }

  std::optional<LogEntry> read() {
    if (has_no_set()) {
      refuse(Column::note, "there is no set in this line: no lift, load or reps");
      return std::nullopt;
    }
    const auto lifter = take(Column::lifter, to_name);
    const auto date = take(Column::date, fields::to_date);
    const auto lift = take_lift();
    const auto unit = take(Column::unit, fields::to_unit);
    // The number is checked even where the unit is no good.
    const auto load = take(Column::load, [&](std::string_view text) {
      return fields::to_load(text, unit.value_or(Unit::kg));
    });
    const bool is_missed = fields::plain(get(Column::outcome)) == "missed";
    const auto reps = take(Column::reps, [&](std::string_view text) {
      auto count = fields::to_reps(text);
      if (is_missed && parse_number(text) == 0.0) {
        count.problem += ". A rep that was tried and missed counts: reps 1, outcome missed";
      }
      if (may_be_decimal_reps(text)) {
        count.problem += ". Two sets, or a decimal comma? Two sets are written 7/5";
      }
      return count;
    });
    const auto outcome = take(Column::outcome, fields::to_outcome);
    const auto reserve = take_reserve();
    if (is_refused()) return std::nullopt;

    LogEntry entry{.line = line(),
                   .lifter = *lifter,
                   .set = {.date = *date,
                           .lift = *lift,
                           .load = *load,
                           .reps = *reps,
                           .reserve = reserve,
                           .outcome = *outcome},
                   .unit = *unit};
    for (const Column column : {Column::note, Column::rir, Column::rpe}) {
      take_complaint(entry, get(column));
    }
    if (*outcome == Outcome::missed && reserve && reserve->high.count() > 0.0) {
      doubt(get(Column::rir).empty() ? Column::rpe : Column::rir,
            "a missed set leaves 0 in reserve; the rating is not used");
      entry.set.reserve.reset();
    }
    return entry;
  }

 private:
  [[nodiscard]] bool has_no_set() const {
    return get(Column::lift).empty() && get(Column::load).empty() && get(Column::reps).empty();
  }

  static Parsed<std::string> to_name(std::string_view text) {
    if (text.empty()) return unreadable<std::string>("a lifter must have a name");
    if (text.size() > fields::longest_name) {
      return unreadable<std::string>("a name must be at most " +
                                     std::to_string(fields::longest_name) + " bytes long");
    }
    if (has_control(text)) {
      return unreadable<std::string>("a name must not hold line breaks or control characters");
    }
    return {.value = std::string(without_apostrophe(text)), .problem = {}};
  }

  std::optional<Lift> take_lift() {
    const std::string_view name = get(Column::lift);
    const std::string_view changes = get(Column::modifiers);
    std::pair<std::string, std::string> key(name, changes);
    if (const auto known = lifts_.find(key); known != lifts_.end()) return known->second;
    if (reports_.is_full() && catalogue::find_lift(name) == nullptr) {
      refuse(Column::lift, "unknown lift");  // which, nobody will read
      return std::nullopt;
    }
    const auto base = take(Column::lift, fields::to_base_lift);
    if (!base) return std::nullopt;
    const auto lift = take(Column::modifiers, [&](std::string_view text) {
      return fields::to_lift(**base, text, own_);
    });
    constexpr std::size_t most = 4096;
    if (lift && lifts_.size() < most) lifts_.emplace(std::move(key), *lift);
    return lift;
  }

  /// From rir, from rpe in its place, or from both when they agree to half a rep.
  std::optional<Range<RepsInReserve>> take_reserve() {
    std::optional<Range<RepsInReserve>> reserve;
    if (!get(Column::rir).empty() && !is_word(Column::rir)) {
      reserve = take(Column::rir, fields::to_reserve);
      if (reserve && reserve->typical.count() > 5.0 && reserve->typical.count() <= 10.0 &&
          !ratings_are_told_) {
        doubt(Column::rir,
              "a rating of exertion (RPE) in place of reps in reserve? Read as written");
      }
    }
    if (get(Column::rpe).empty() || is_word(Column::rpe)) return reserve;
    const auto rpe = take(Column::rpe, fields::to_rpe);
    if (!rpe) return reserve;
    const auto rated = reps_in_reserve(*rpe);
    if (!rated) {
      report(Verdict::remark, Column::rpe,
             "below 5 the scale does not count reps: treated as not rated");
      return reserve;
    }
    if (!reserve) return rated;
    const double gap = std::max(reserve->low.count() - rated->high.count(),
                                rated->low.count() - reserve->high.count());
    if (gap > 0.5) {
      refuse(Column::rpe, "contradicts the rir \"" + std::string(get(Column::rir)) +
                              "\": one of the two must be mistyped");
    }
    return reserve;
  }

  /// "hard", of which nobody knows how many reps it left: the load was lifted all the same.
  bool is_word(Column column) {
    const std::string_view text = get(column);
    if (text.find_first_of("0123456789") != text.npos) return false;
    if (!is_effort_in_words(text) && !mentions_pain(text)) return false;
    doubt(column, "a word, no figure: the set counts as not rated. How many reps were left?");
    return true;
  }

  LineReports& reports_;
  KnownLifts& lifts_;
  Handles<Modifier> own_;
  bool ratings_are_told_;
};

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI
