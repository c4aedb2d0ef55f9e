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
//   also       other names, separated by ;                                        (optional)
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
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/range.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/handles.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/csv.hpp"
#include "barwright/log/fields.hpp"
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
  static constexpr int most = 200;                 ///< lifts of one file
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
  [[nodiscard]] std::vector<Lift> lifts() const&;
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
  bool read();

 private:
  /// A name that nothing has yet.
  [[nodiscard]] Parsed<std::string> free_name(std::string_view text) const;
  [[nodiscard]] Parsed<std::vector<std::string>> names(std::string_view text) const;
  [[nodiscard]] static Parsed<double> to_share(std::string_view text);
  [[nodiscard]] static Parsed<int> to_dumbbells(std::string_view text);

  OwnLifts& own_;
};

}  // namespace detail

/// Reads the lifts of a file.
/// @param text  CSV in UTF-8; see the top of this header. Nothing in it is thrown.
[[nodiscard]] OwnLifts read_own_lifts(std::string_view text);

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/log/own_lifts.ipp"
#endif
