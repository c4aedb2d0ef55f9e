// barwright/lifts/findings.hpp - what is known of a lift or a change to it, and from where
//
// A Figure is a number this library uses; its Findings are the results it was chosen from, each
// with its source. A Note is a sentence: what to be able to do first, what to beware of, who gains.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "barwright/core/range.hpp"
#include "barwright/core/short_list.hpp"
#include "barwright/core/source.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// One published or customary result behind a figure.
struct Finding {
  std::string_view what{};  ///< what was compared: "incline against flat, 1RM, men"
  /// The ratio found; nothing when only a direction is known.
  std::optional<Range<double>> value{};
  Source source{};

  friend constexpr bool operator==(const Finding&, const Finding&) noexcept = default;
};

namespace detail {

/// Whether two lists hold the same things in the same order.
template <class T>
[[nodiscard]] constexpr bool same_items(std::span<const T> a, std::span<const T> b) noexcept {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (!(a[i] == b[i])) return false;
  }
  return true;
}

}  // namespace detail

/// A figure as this library uses it, with the findings it was chosen from.
struct Figure {
  Range<double> value = Range<double>::exactly(1.0);
  Evidence evidence = Evidence::assumption;  ///< what the typical value rests on
  std::span<const Finding> findings{};       ///< must outlive the figure: keep them static

  friend constexpr bool operator==(const Figure& a, const Figure& b) noexcept {
    return a.value == b.value && a.evidence == b.evidence &&
           detail::same_items(a.findings, b.findings);
  }
};

/// What a note is for.
enum class NoteKind : unsigned char {
  requirement,  ///< what the lifter should be able to do, or have, first
  caution,      ///< what can go wrong
  benefit,      ///< who gains from it, and when to choose it
  remark,       ///< what else is known
};

[[nodiscard]] constexpr std::string_view to_text(NoteKind kind) noexcept {
  switch (kind) {
    case NoteKind::requirement: return "requirement";
    case NoteKind::caution: return "caution";
    case NoteKind::benefit: return "benefit";
    case NoteKind::remark: return "remark";
  }
  return "";
}

/// A sentence about a lift, with its source.
struct Note {
  NoteKind kind = NoteKind::remark;
  std::string_view text{};
  Source source{};

  friend constexpr bool operator==(const Note&, const Note&) noexcept = default;
};

/// The notes of one lift.
using NoteList = ShortList<Note, 48>;

}  // namespace barwright::inline BARWRIGHT_ABI
