// barwright/lifts/describe.hpp - what is known of a lift, printed with its evidence and sources
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <initializer_list>
#include <iosfwd>
#include <span>
#include <string_view>

#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/core/text.hpp"
#include "barwright/lifts/lift.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// Prints words from several pieces of text as one paragraph, the first line indented by `indent`
/// spaces, the others by `hanging`.
template <class Traits>
void print_paragraph(std::basic_ostream<char, Traits>& out, std::size_t indent, std::size_t hanging,
                     std::initializer_list<std::string_view> parts) {
  constexpr std::size_t width = 92;
  constexpr std::string_view spaces = "                ";
  out << spaces.substr(0, indent);
  std::size_t column = indent;
  bool line_is_empty = true;
  for (std::string_view part : parts) {
    while (!part.empty()) {
      const std::size_t start = part.find_first_not_of(' ');
      if (start == std::string_view::npos) break;
      const std::size_t end = part.find(' ', start);
      const std::string_view word = part.substr(start, end - start);
      part = end == std::string_view::npos ? std::string_view{} : part.substr(end);
      if (!line_is_empty && column + 1 + word.size() > width) {
        out << '\n' << spaces.substr(0, hanging);
        column = hanging;
        line_is_empty = true;
      }
      if (!line_is_empty) {
        out << ' ';
        ++column;
      }
      out << word;
      column += word.size();
      line_is_empty = false;
    }
  }
  out << '\n';
}

/// "95 % (90 to 100 %)", or "97 %" when both ends are the same.
[[nodiscard]] inline Text percent_text(const Range<double>& share) noexcept {
  Text text;
  text.append_rounded(100.0 * share.typical, 1).append(" %");
  if (share.is_exact()) return text;
  return text.append(" (")
      .append_rounded(100.0 * share.low, 1)
      .append(" to ")
      .append_rounded(100.0 * share.high, 1)
      .append(" %)");
}

/// "90.3 kg (81 to 102 kg)"
[[nodiscard]] inline Text mass_text(const Range<Mass>& mass, Unit unit) noexcept {
  return Text{}
      .append(to_text(mass.typical, unit, 1))
      .append(" (")
      .append_rounded(mass.low.in(unit), 1)
      .append(" to ")
      .append(to_text(mass.high, unit, 1))
      .append(")");
}

/// "published, read in the source"
[[nodiscard]] constexpr Text standing_text(const Source& source) noexcept {
  Text text;
  text.append(to_text(source.evidence));
  if (source.reading == Reading::not_applicable) return text;
  if (source.evidence == Evidence::assumption) {  // no source says it: it was inferred from some
    return text.append(source.reading == Reading::read ? ", from sources that were read"
                                                       : ", from sources quoted from memory");
  }
  return text.append(", ").append(to_text(source.reading));
}

template <class Traits>
void print_source(std::basic_ostream<char, Traits>& out, std::size_t indent, const Source& source) {
  if (source.citation.empty()) return;
  print_paragraph(out, indent, indent,
                  {source.citation, source.population.empty() ? "" : "-", source.population,
                   source.note.empty() ? "" : "-", source.note});
}

template <class Traits>
void print_findings(std::basic_ostream<char, Traits>& out, std::span<const Finding> findings) {
  for (const Finding& finding : findings) {
    Text value;
    if (finding.value) value.append(percent_text(*finding.value)).append(":");
    Text standing;
    standing.append("[").append(standing_text(finding.source)).append("]");
    print_paragraph(out, 4, 6, {"-", value, finding.what, standing});
    print_source(out, 6, finding.source);
  }
}

template <class Traits>
void print_notes(std::basic_ostream<char, Traits>& out, std::string_view title,
                 const NoteList& notes) {
  if (notes.empty()) return;
  out << title << '\n';
  for (const Note& note : notes) {
    Text standing;
    standing.append("[").append(standing_text(note.source)).append("]");
    print_paragraph(out, 2, 4, {"-", note.text, standing});
    print_source(out, 4, note.source);
  }
}

template <class Traits>
void print_muscles(std::basic_ostream<char, Traits>& out, std::string_view title,
                   const Muscles& muscles, Involvement involvement) {
  out << title;
  const char* before = "";
  for (const MuscleGroup group : all_muscle_groups) {
    if (muscles[group] != involvement) continue;
    out << before << to_text(group);
    before = ", ";
  }
  out << (*before == '\0' ? "none\n" : "\n");
}

}  // namespace detail

/// Prints what is known about a lift for a lifter with this max on its base lift: every figure with
/// its evidence, whether it was read or from memory, and its sources; then muscles, requirements,
/// who gains, and cautions.
/// @param best  the max on the base lift, unmodified; more than 0 kg
/// @param unit  what masses are printed in
template <class Traits>
void describe(std::basic_ostream<char, Traits>& out, const Lift& lift, Mass best,
              Unit unit = Unit::kg) {
  detail::require_reference_max(best);
  const BaseLift& base = lift.base();
  const Text reference = to_text(best, unit, 1);
  out << lift.name() << " (" << to_text(base.family) << ", " << to_text(base.region) << ")\n"
      << "1RM";
  if (lift.is_plain()) {
    out << ": " << reference << '\n';
  } else {
    out << " about " << detail::mass_text(lift.max_from(best), unit) << ", for " << reference
        << " on the " << base.name << '\n';
  }
  if (!base.findings.empty()) {
    out << "\nCompared with other lifts\n";
    detail::print_findings(out, base.findings);
  }
  if (base.body_share) {
    out << "\nShare of the body that is lifted\n";
    const Text share = detail::percent_text(base.body_share->value);
    Text standing;
    standing.append("[").append(to_text(base.body_share->evidence)).append("]");
    detail::print_paragraph(out, 2, 4, {share, standing});
    detail::print_findings(out, base.body_share->findings);
  }
  if (!lift.is_plain()) {
    out << "\nShare of the base lift's 1RM\n";
    for (const Modifier& modifier : lift.modifiers()) {
      const Text share = detail::percent_text(modifier.ratio(best));
      Text name;
      name.append(modifier.name()).append(":");
      Text standing;
      standing.append("[").append(to_text(modifier.ratio_figure().evidence)).append("]");
      detail::print_paragraph(out, 2, 4, {name, share, standing});
      detail::print_findings(out, modifier.ratio_figure().findings);
    }
    if (lift.modifiers().size() > 1) {
      out << "  combined, worst to best case:  "
          << detail::percent_text(lift.ratio(best, Stacking::bounds)) << '\n'
          << "  combined, 90 % of lifters:     "
          << detail::percent_text(lift.ratio(best, Stacking::spread)) << '\n'
          << "  1RM, worst to best case:       "
          << detail::mass_text(lift.max_from(best, Stacking::bounds), unit) << '\n'
          << "  1RM, 90 % of lifters:          "
          << detail::mass_text(lift.max_from(best, Stacking::spread), unit) << '\n';
    }
    detail::print_paragraph(
        out, 2, 2,
        {"The likeliest value comes first; where no finding gives them, the ends of a range are an "
         "assumption. Your own logged sets know better."});
    out << "\nReps at the same percentage of its own 1RM\n";
    const Finding* printed = nullptr;  // modifiers may share their findings: once is enough
    for (const Modifier& modifier : lift.modifiers()) {
      const Text stretch = detail::percent_text(modifier.rep_stretch().value);
      Text name;
      name.append(modifier.name()).append(":");
      Text standing;
      standing.append("[").append(to_text(modifier.rep_stretch().evidence)).append("]");
      detail::print_paragraph(out, 2, 4,
                              {name, stretch, "of the usual reps beyond the first", standing});
      const std::span<const Finding> findings = modifier.rep_stretch().findings;
      if (findings.data() != printed) detail::print_findings(out, findings);
      printed = findings.data();
    }
    out << "\nA lifter new to it starts near "
        << Text{}.append_rounded(100 * lift.starting_share(), 0) << " % of its estimated 1RM.\n";
  }
  out << "\nMuscles\n";
  detail::print_muscles(out, "  direct:   ", lift.muscles(), Involvement::direct);
  detail::print_muscles(out, "  indirect: ", lift.muscles(), Involvement::indirect);
  out << '\n';
  detail::print_notes(out, "Before you start", lift.requirements());
  detail::print_notes(out, "When to choose it", lift.notes(NoteKind::benefit));
  detail::print_notes(out, "Good to know", lift.notes(NoteKind::remark));
  detail::print_notes(out, "Cautions", lift.cautions());
  detail::print_paragraph(out, 0, 0,
                          {"These figures describe others, not you, and promise no safety. A "
                           "qualified coach, a clinician where there is pain or illness, and the "
                           "rules of the gym or federation come first."});
}

}  // namespace barwright::inline BARWRIGHT_ABI
