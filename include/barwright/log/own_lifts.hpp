// barwright/log/own_lifts.hpp - a lifter's or a club's own lifts, read from a small table in CSV
//
// A lift that the catalogue has not is written down as a variation of one it has, with the share of
// that lift's max it leaves: the least, the likeliest and the most. One row is one lift; the first
// row names the columns, in any order:
//
//   name       towel press: what it is called from now on, up to 40 bytes
//   lift       bench press: the base lift of the catalogue it is a variation of
//   low        90: the least that its max may be, in per cent of the max on the base lift
//   typical    96: the likeliest
//   high       102: the most
//   dumbbells  how many are held, 0 to 2; nothing for none                        (optional)
//   also       other names, parted by ;                                           (optional)
//
//     const OwnLifts own = read_own_lifts(text);
//     const Log log = read_log(log_text, {.own_lifts = own.modifiers()});
//
// Lifts only point at what changes them: an OwnLifts must outlive every lift, log and plan that was
// made with it. The shares are the file's word, printed as an assumption; sets of the lift in a log
// correct them as they do those of the catalogue.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/names.hpp"
#include "barwright/core/parse.hpp"
#include "barwright/core/range.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/lookup.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
#include "barwright/log/lift_fields.hpp"
#include "barwright/log/table.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// One lift of a file: its texts, and the modifier that points at them. It stays where it is.
class OwnLift {
 public:
  OwnLift(std::string name, std::vector<std::string> also, const BaseLift& base,
          const Range<double>& share, int dumbbells)
      : name_(std::move(name)),
        also_(std::move(also)),
        aliases_(also_.begin(), also_.end()),
        bases_{base.key},
        findings_{Finding{.what = "the share that was written down for it",
                          .value = share,
                          .source = common_practice("a file of own lifts")}},
        modifier_(Modifier(name_, name_, share, Evidence::assumption, findings_)
                      .with_aliases(aliases_)
                      .with_lifts(bases_)
                      .with_setup(dumbbells > 0 ? Setup::implement : Setup::none)
                      .with_dumbbells(dumbbells)) {}
  OwnLift(const OwnLift&) = delete;
  OwnLift& operator=(const OwnLift&) = delete;

  [[nodiscard]] const Modifier& modifier() const noexcept { return modifier_; }

 private:
  // In the order in which they point at each other.
  std::string name_;
  std::vector<std::string> also_;
  std::vector<std::string_view> aliases_;
  std::array<std::string_view, 1> bases_;
  std::array<Finding, 1> findings_;
  Modifier modifier_;
};

struct OwnLiftColumns {
  enum class Column : unsigned char { name, lift, low, typical, high, dumbbells, also };
  static constexpr std::array<std::string_view, 7> names{"name", "lift",      "low", "typical",
                                                         "high", "dumbbells", "also"};
  static constexpr std::array required{Column::name, Column::lift, Column::low, Column::typical,
                                       Column::high};
};

}  // namespace detail

/// The lifts of a file, and what is wrong with its lines. What is made with them points into it, so
/// it must outlive all that; it can be moved, not copied.
class OwnLifts {
 public:
  static constexpr std::size_t most = 200;         ///< lifts of one file
  static constexpr std::size_t longest_name = 40;  ///< bytes

  std::string failure{};  ///< why nothing could be read at all; empty when something was
  LineReports reports{};  ///< what is wrong, in the order of lines
  int refused = 0;        ///< rows that could not be used

  [[nodiscard]] bool empty() const noexcept { return lifts_.empty(); }
  [[nodiscard]] std::size_t size() const noexcept { return lifts_.size(); }
  /// What to give to `read_log` and `fields::to_lift`.
  [[nodiscard]] Handles<Modifier> modifiers() const& noexcept { return modifiers_; }
  void modifiers() const&& = delete;  // they would point at what is gone
  /// Each as the variation of its base lift that it is, in the order of the file.
  [[nodiscard]] std::vector<Lift> lifts() const& {
    std::vector<Lift> lifts;
    for (const Modifier& own : modifiers()) {
      lifts.push_back(*catalogue::find_lift(own.lifts().front()) + own);
    }
    return lifts;
  }
  void lifts() const&& = delete;

  /// One lift more; its base is one of the catalogue.
  /// @pre fewer than `most` are there, and none that is called so
  void add(std::string name, std::vector<std::string> also, const BaseLift& base,
           const Range<double>& share, int dumbbells) {
    lifts_.push_back(std::make_unique<const detail::OwnLift>(std::move(name), std::move(also), base,
                                                             share, dumbbells));
    modifiers_.push_back(&lifts_.back()->modifier());
  }

 private:
  std::vector<std::unique_ptr<const detail::OwnLift>> lifts_{};
  std::vector<const Modifier*> modifiers_{};
};

namespace detail {

/// Reads one row, reporting every field that will not do.
class OwnLiftRow : private TableRow<OwnLiftColumns> {
 public:
  OwnLiftRow(OwnLifts& own, const TableHeader<OwnLiftColumns>& header, const CsvRecord& row)
      : TableRow(own.reports, header, row), own_(own) {}

  /// Whether the lift was added.
  bool read() {
    const auto to_free_name = [&](std::string_view text) { return free_name(text); };
    const auto name = take(Column::name, to_free_name);
    const auto base = take(Column::lift, fields::to_base_lift);
    const auto low = take(Column::low, to_share);
    const auto typical = take(Column::typical, to_share);
    const auto high = take(Column::high, to_share);
    const auto dumbbells = take(Column::dumbbells, to_dumbbells);
    const auto also = take(Column::also, [&](std::string_view text) { return names(text); });
    if (is_refused()) return false;
    if (!(*low <= *typical && *typical <= *high)) {
      refuse(Column::typical, "the three shares must rise: low, typical, high");
      return false;
    }
    own_.add(*name, *also, **base, Range<double>{*low, *typical, *high}, *dumbbells);
    return true;
  }

 private:
  /// A name that nothing has yet.
  [[nodiscard]] Parsed<std::string> free_name(std::string_view text) const {
    const bool is_text = !fields::plain(text).empty() && text.size() <= OwnLifts::longest_name &&
                         !has_control(text) && text.find_first_of(";+,") == text.npos;
    if (!is_text) {
      return unreadable<std::string>(
          "a lift's name must be 1 to 40 bytes long, without ; + , and control characters");
    }
    const bool is_known =
        catalogue::find_lift(text) != nullptr || catalogue::find_lift_with(text).has_value();
    const auto any = [](const Modifier&) { return true; };
    if (is_known || find_called(text, own_.modifiers(), any) != nullptr) {
      return unreadable<std::string>("a lift's name must be its own; there is one called so");
    }
    return {.value = std::string(text), .problem = {}};
  }
  [[nodiscard]] Parsed<std::vector<std::string>> names(std::string_view text) const {
    constexpr std::size_t most = 10;
    std::vector<std::string> all;
    for (const std::string_view each : fields::names_in(text)) {
      auto name = free_name(each);
      if (!name.value) return unreadable<std::vector<std::string>>(name.problem);
      if (all.size() == most) {
        return unreadable<std::vector<std::string>>("a lift must have at most 10 other names");
      }
      all.push_back(*std::move(name.value));
    }
    return {.value = std::move(all), .problem = {}};
  }
  [[nodiscard]] static Parsed<double> to_share(std::string_view text) {
    constexpr std::string_view rule =
        "a share must be a number from 10 to 300, in per cent of the max on the base lift";
    if (!text.empty() && text.back() == '%')
      text = fields::trimmed(text.substr(0, text.size() - 1));
    const auto share = parse_number(text);
    if (!share) return unreadable<double>(rule);
    if (!(*share >= 10.0 && *share <= 300.0)) return unreadable<double>(rule, *share);
    return {.value = *share / 100.0, .problem = {}};
  }
  [[nodiscard]] static Parsed<int> to_dumbbells(std::string_view text) {
    if (text.empty()) return {.value = 0, .problem = {}};
    const auto count = parse_whole_number(text);
    if (count && *count >= 0 && *count <= 2) return {.value = *count, .problem = {}};
    return unreadable<int>("the dumbbells of a lift must be 0, 1 or 2");
  }

  OwnLifts& own_;
};

}  // namespace detail

/// Reads the lifts of a file.
/// @param text  CSV in UTF-8; see the top of this header. Nothing in it is thrown.
[[nodiscard]] inline OwnLifts read_own_lifts(std::string_view text) {
  OwnLifts own;
  CsvReader reader(text);
  CsvRecord row;
  if (!is_plain_text(text) || !reader.next(row)) {
    own.failure = "this must be a table in CSV whose first line names the columns";
    return own;
  }
  const auto header = TableHeader<detail::OwnLiftColumns>::read(row);
  if (!header.value) {
    own.failure = "line " + std::to_string(row.line) + ": " + header.problem;
    return own;
  }
  while (reader.next(row)) {
    if (row.is_empty() && row.fault == CsvFault::none) continue;
    if (own.size() == OwnLifts::most) {
      own.reports.add(
          {.line = row.line, .text = "a file must have at most 200 lifts of one's own"});
      ++own.refused;
      break;
    }
    if (auto problem = misfit(row, header.value->size(), reader)) {
      own.reports.add({.line = row.line, .text = std::move(*problem)});
      ++own.refused;
    } else if (!detail::OwnLiftRow(own, *header.value, row).read()) {
      ++own.refused;
    }
  }
  if (own.empty()) own.failure = "there is no lift in it that could be read";
  return own;
}

}  // namespace barwright::inline BARWRIGHT_ABI
