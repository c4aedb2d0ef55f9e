// barwright/core/source.hpp - where a figure comes from, and how far it may be trusted
//
// Every published equation, ratio and rule in the library carries a Source, so that a program can
// print it beside the answer. Two things are kept apart: what kind of statement it is (Evidence),
// and whether the authors of this library read it in the source or wrote it from memory (Reading).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string_view>

#include "barwright/version.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What kind of statement a figure rests on, strongest first.
enum class Evidence {
  published,        ///< a peer-reviewed study or conference abstract
  handbook,         ///< a textbook, position stand or association handout
  standard,         ///< a rule book or a standard of units
  common_practice,  ///< what coaches do; no source
  assumption,       ///< inferred for this library; replace it with your own data
};

/// How the figure came into the library.
enum class Reading {
  read,            ///< read in the source, or in a faithful copy of its abstract
  from_memory,     ///< written from memory; not checked against the source
  not_applicable,  ///< there is no source to read: common practice or an assumption
};

[[nodiscard]] constexpr std::string_view to_text(Evidence evidence) noexcept {
  switch (evidence) {
    case Evidence::published: return "published";
    case Evidence::handbook: return "handbook";
    case Evidence::standard: return "standard";
    case Evidence::common_practice: return "common practice, no source";
    case Evidence::assumption: return "assumption";
  }
  return "";
}

[[nodiscard]] constexpr std::string_view to_text(Reading reading) noexcept {
  switch (reading) {
    case Reading::read: return "read in the source";
    case Reading::from_memory: return "from memory, unverified";
    case Reading::not_applicable: return "";
  }
  return "";
}

/// Where one figure comes from.
struct Source {
  std::string_view citation{};    ///< authors, year, title, place; empty without a source
  std::string_view population{};  ///< who was studied, how many, on which lift
  Evidence evidence = Evidence::assumption;
  Reading reading = Reading::not_applicable;
  std::string_view note{};  ///< what a reader must know to use the figure rightly

  friend constexpr bool operator==(const Source&, const Source&) noexcept = default;
};

/// The source of figures that coaches use but nobody has published.
[[nodiscard]] constexpr Source common_practice(std::string_view note) noexcept {
  return {.evidence = Evidence::common_practice, .note = note};
}

/// The source of figures inferred for this library.
[[nodiscard]] constexpr Source assumption(std::string_view note) noexcept {
  return {.evidence = Evidence::assumption, .note = note};
}

}  // namespace barwright::inline BARWRIGHT_ABI
