// barwright/log/written_row.hpp - a row as it stands in somebody's file, in the reader's words
//
// Takes the fields of a row by their columns and puts each as as_written.hpp, written_dates.hpp and
// lift_phrase.hpp understand it. A row may be several sets, 3x5. What was understood is kept to be
// said once for the whole file; what has more than one meaning is doubtful, by its line.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/parse.hpp"
#include "barwright/core/printable.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/log/as_written.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/lift_phrase.hpp"
#include "barwright/log/log_columns.hpp"
#include "barwright/log/miss_words.hpp"
#include "barwright/log/pain.hpp"
#include "barwright/log/table.hpp"
#include "barwright/log/written_dates.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// How a log is to be read where the file does not say so itself.
struct LogOptions {
  /// Pairs of a column's name in the file and ours, for columns with odd names.
  std::vector<std::pair<std::string, std::string>> columns{};
  DateOrder dates = DateOrder::unknown;      ///< where no date in the file tells
  std::optional<int> year{};                 ///< of dates without one
  std::optional<Unit> unit{};                ///< of loads without one
  std::optional<DumbbellLoads> dumbbells{};  ///< else of both together
  std::string lifter = "the lifter";         ///< where there is no such column
  Handles<Modifier> own_lifts{};             ///< those of a file: see own_lifts.hpp
  bool ratings_are_told = false;  ///< what they are somebody said: no high one is doubted
};

namespace detail {

/// How the whole of a file is written.
struct WrittenFile {
  bool comma_is_decimal = false;
  DateOrder dates = DateOrder::unknown;
  std::optional<int> year{};
  std::optional<Unit> unit{};
  std::optional<DumbbellLoads> dumbbells{};
  std::string lifter{};
  Handles<Modifier> own_lifts{};
};

/// Puts rows into the reader's words, one after the other.
class RowWords {
 public:
  using Header = TableHeader<LogColumns>;
  using Column = LogColumns::Column;

  RowWords(const Header& header, WrittenFile file) : header_(header), file_(std::move(file)) {}

  /// The row in the order of `LogColumns`. Lives until the next one is put.
  const CsvRecord& put(const CsvRecord& row) {
    out_.line = row.line;
    out_.last_line = row.last_line;
    out_.text = row.text;
    out_.fields.assign(LogColumns::names.size(), {});
    for (std::size_t i = 0; i < LogColumns::names.size(); ++i) {
      out_.fields[i] = header_.get(row, static_cast<Column>(i));
    }
    doubts_.clear();
    reps_ = {};
    may_be_missed_ = false;
    if (!header_.has(Column::lifter)) set(Column::lifter, file_.lifter);
    put_date();
    put_lift();
    put_load();
    put_reps();
    put_effort(Column::rir);
    put_effort(Column::rpe);
    if (const auto outcome = outcome_as_written(get(Column::outcome))) {
      out_.fields[at(Column::outcome)] = *outcome;
    }
    put_note();
    return out_;
  }

  /// Reps of each set of the last row; empty where they were not understood.
  [[nodiscard]] const std::vector<int>& reps_of_sets() const noexcept { return reps_; }
  /// Whether its note leaves open if the last rep went up.
  [[nodiscard]] bool may_be_missed() const noexcept { return may_be_missed_; }
  /// The plain lift that a field names; nothing where it names none.
  [[nodiscard]] std::optional<Lift> plain_lift(std::string_view typed) {
    const Phrase* const phrase = find_phrase(typed);
    const BaseLift* const base =
        phrase == nullptr || phrase->base.empty() ? nullptr : catalogue::find_lift(phrase->base);
    return base == nullptr ? std::nullopt : std::optional<Lift>(*base);
  }
  /// What is to be said of the last row.
  [[nodiscard]] std::vector<LineReport>& doubts() noexcept { return doubts_; }

  /// What was understood, to be said once.
  [[nodiscard]] std::vector<std::string> understood() const {
    std::vector<std::string> said;
    if (comma_was_read_) said.emplace_back("a comma in a number is its decimal sign");
    std::string lifts;
    std::size_t count = 0;
    for (const auto& [typed, meant] : phrases_) {
      if (meant.base.empty() || !meant.is_said) continue;
      constexpr std::size_t most = 30;
      if (++count > most) continue;
      lifts.append(lifts.empty() ? "" : "; ").append(printable<std::string>(typed));
      lifts.append(" is the ").append(meant.base);
      if (!meant.changes.empty()) lifts.append(", ").append(meant.changes);
    }
    if (!lifts.empty()) said.push_back("lifts: " + lifts);
    if (note_was_read_) {
      said.emplace_back(
          "a note such as \"failed\", \"couldn't finish\" or \"spotter took one\" is a missed set");
    }
    if (each_was_read_) said.emplace_back("loads of one dumbbell were doubled");
    if (dumbbells_were_read_ && !each_was_read_ && !file_.dumbbells) {
      said.emplace_back("loads of dumbbells are taken for both together");
    }
    return said;
  }

 private:
  /// A lift in one breath, by the names of the catalogue; `base` is empty where it is none.
  struct Phrase {
    std::string base{};
    std::string changes{};
    bool is_said = true;  // worth a word
    int held = 0;         // dumbbells
  };

  static constexpr std::size_t at(Column column) noexcept {
    return static_cast<std::size_t>(column);
  }
  [[nodiscard]] std::string_view get(Column column) const { return out_.fields[at(column)]; }
  void set(Column column, std::string text) {
    made_[at(column)] = std::move(text);
    out_.fields[at(column)] = made_[at(column)];
  }
  void doubt(Column column, std::string text) {
    doubts_.push_back({.verdict = Verdict::doubtful,
                       .line = out_.line,
                       .column = std::string(LogColumns::names[at(column)]),
                       .value = std::string(get(column)),
                       .text = std::move(text)});
  }

  void put_date() {
    if (parse_date(get(Column::date))) return;
    const auto written = take_date_apart(get(Column::date));
    if (!written) return;
    if (const auto day = day_of(*written, file_.dates, file_.year)) {
      set(Column::date, to_text(*day).str());
    }
  }

  void put_lift() {
    held_ = 0;
    const std::string_view typed = get(Column::lift);
    const Phrase* const phrase = find_phrase(typed);
    if (phrase == nullptr) return;
    if (phrase->base.empty()) return;
    held_ = phrase->held;
    if (const std::string_view more = get(Column::modifiers); !more.empty()) {
      const BaseLift* const base = catalogue::find_lift(phrase->base);
      const bool may_hold = held_ == 0 && fields::plain(more).find("dumbbell") != std::string::npos;
      const auto lift = may_hold && base != nullptr ? fields::to_lift(*base, more, file_.own_lifts)
                                                    : Parsed<Lift>{};
      if (lift.value) held_ = lift.value->dumbbells();
    }
    if (!phrase->changes.empty()) {
      std::string changes = phrase->changes;
      if (!get(Column::modifiers).empty()) changes.append("; ").append(get(Column::modifiers));
      set(Column::modifiers, std::move(changes));
    }
    set(Column::lift, phrase->base);
  }

  [[nodiscard]] std::optional<Lift> said_lift(std::string_view typed) const {
    if (const auto lift = fields::own_lift(typed, file_.own_lifts)) return lift;
    return fields::lift_phrase(typed);
  }
  const Phrase* find_phrase(std::string_view typed) {
    const auto known = phrases_.find(typed);
    if (known != phrases_.end()) return &known->second;
    constexpr std::size_t most = 4096;
    if (typed.size() > fields::longest_name || phrases_.size() >= most) return nullptr;
    Phrase phrase;
    if (const BaseLift* const base = catalogue::find_lift(typed)) {
      phrase.base = typed;
      phrase.is_said = false;
      phrase.held = Lift(*base).dumbbells();
    } else if (const auto lift = said_lift(typed)) {
      phrase.base = lift->base().name;
      phrase.held = lift->dumbbells();
      for (const Modifier& modifier : lift->modifiers()) {
        const bool is_one = modifier.name().find_first_of(",;+") == std::string_view::npos;
        phrase.changes.append(phrase.changes.empty() ? "" : "; ");
        phrase.changes.append(is_one ? modifier.name() : modifier.key());
      }
    }
    return &phrases_.emplace(std::string(typed), std::move(phrase)).first->second;
  }

  void put_load() {
    const std::string_view typed = get(Column::load);
    dumbbells_were_read_ = dumbbells_were_read_ || held_ == 2;
    const std::string_view own_unit = get(Column::unit);
    const bool is_plain = typed.find_first_not_of("0123456789.") == std::string_view::npos;
    const bool is_each = held_ == 2 && file_.dumbbells == DumbbellLoads::each;
    const bool says_unit = !own_unit.empty();
    if (!says_unit && file_.unit) set(Column::unit, std::string(to_text(*file_.unit)));
    if (is_plain && !is_each) return;
    auto load = take_load_apart(typed, file_.comma_is_decimal);
    if (!load || (load->is_each && held_ == 0)) return;
    const BaseLift* const base = catalogue::find_lift(get(Column::lift));
    if (load->is_added && (base == nullptr || !base->is_bodyweight)) return;
    if (load->is_added && load->number == "0" && get(Column::unit).empty()) {
      set(Column::unit, "kg");  // nothing is nothing in any unit
    }
    if (load->unit && says_unit && load->unit != parse_unit(own_unit)) return;  // says two things
    if (load->unit && !says_unit) set(Column::unit, std::string(to_text(*load->unit)));
    comma_was_read_ = comma_was_read_ || typed.find(',') != std::string_view::npos;
    if ((load->is_each || is_each) && held_ == 2) {
      each_was_read_ = true;
      load->number = Text{}.append(2.0 * *parse_number(load->number)).str();
    }
    set(Column::load, std::move(load->number));
  }

  void put_reps() {
    auto reps = take_reps_apart(get(Column::reps), file_.comma_is_decimal);
    if (!reps) return;
    if (const std::string_view sets = get(Column::sets); !sets.empty()) {
      const auto count = parse_whole_number(sets);
      const bool is_good = count && *count >= 1 && *count <= static_cast<int>(most_sets_of_row);
      const bool agrees = is_good && (reps->of_sets.size() == 1 ||
                                      reps->of_sets.size() == static_cast<std::size_t>(*count));
      if (!agrees) {
        set(Column::reps, std::string(sets) + " sets of " + std::string(get(Column::reps)));
        return;
      }
      if (reps->of_sets.size() == 1) {
        reps->of_sets.assign(static_cast<std::size_t>(*count), reps->of_sets[0]);
      }
    }
    if (reps->was_range) {
      doubt(Column::reps, "a plan, or what was done? The fewer are taken");
    }
    set(Column::reps, std::to_string(reps->of_sets.back()));
    reps_ = std::move(reps->of_sets);
  }

  void put_effort(Column column) {
    const std::string_view typed = get(column);
    if (typed.empty() || typed.find_first_not_of("0123456789.") == std::string_view::npos) return;
    auto effort = take_effort_apart(typed, column == Column::rpe, file_.comma_is_decimal);
    if (!effort) return;
    comma_was_read_ = comma_was_read_ || typed.find(',') != std::string_view::npos;
    if (effort->is_missed) {
      const std::string_view outcome = get(Column::outcome);
      if (!outcome.empty() && outcome_as_written(outcome) != "missed") return;
      set(Column::outcome, "missed");
      take_off_missed(effort->reps_missed);
      if (!mentions_pain(typed)) set(column, {});
      return;
    }
    const Column other = column == Column::rir ? Column::rpe : Column::rir;
    const bool is_other = column == Column::rir ? !effort->rpe.empty() : !effort->rir.empty();
    std::string& value = effort->rir.empty() ? effort->rpe : effort->rir;
    if (!is_other) {
      set(column, std::move(value));
    } else if (get(other).empty()) {
      set(other, std::move(value));
      set(column, {});
    }
  }

  /// Of two reps that the spotter took, the first is the one that was missed.
  void take_off_missed(int missed) {
    if (missed < 2 || reps_.empty()) return;
    reps_.back() = reps_up_to_miss(reps_.back(), missed);
    set(Column::reps, std::to_string(reps_.back()));
  }

  /// A note that says clearly that the last rep was missed is the outcome of a set without one; a
  /// rating that says that something was left is asked about, and until then the lighter reading
  /// holds. Of other notes somebody has to look.
  void put_note() {
    if (!get(Column::outcome).empty() || get(Column::note).empty()) return;
    const NotedMiss miss = miss_in_note(get(Column::note), reps_.empty() ? 0 : reps_.back());
    if (miss.kind == MissInNote::none) return;
    const auto says = [&](Column column, double none_left) {
      return get(column).empty() || parse_number(get(column)) == none_left;
    };
    if (miss.kind == MissInNote::may_be) {
      may_be_missed_ = true;
      doubt(Column::note,
            "was the last rep missed? Until the outcome says completed, nothing rests on it");
      return;
    }
    if (!says(Column::rir, 0.0) || !says(Column::rpe, 10.0)) {
      doubt(Column::note,
            "was the last rep missed? The rating says no; missed until the outcome says completed");
    }
    set(Column::outcome, "missed");
    note_was_read_ = true;
    take_off_missed(miss.reps);
  }

  const Header& header_;
  WrittenFile file_;
  CsvRecord out_{};
  std::array<std::string, LogColumns::names.size()> made_{};
  std::vector<int> reps_{};
  std::vector<LineReport> doubts_{};
  std::map<std::string, Phrase, std::less<>> phrases_{};
  int held_ = 0;  // dumbbells of the last row
  bool dumbbells_were_read_ = false;
  bool each_was_read_ = false;
  bool comma_was_read_ = false;
  bool note_was_read_ = false;
  bool may_be_missed_ = false;
};

}  // namespace detail
}  // namespace barwright::inline BARWRIGHT_ABI
