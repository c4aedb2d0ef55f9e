// examples/report/text_page.hpp - plain text that fits a page: wrapped paragraphs, columns, figures
//
// What all pages have in common. Loads and shares are printed with as many digits as they are known
// to, and no more. As SI has it, a space stands between a figure and its sign: "5 %", "80 kg".
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>

#include "barwright/barwright.hpp"

namespace text_page {

namespace bw = barwright;

// ---- figures

inline std::string number(double value, int decimals) {
  return bw::Text{}.append_rounded(value, decimals).str();
}
inline std::string percent(double share, int decimals = 1) {
  return number(100.0 * share, decimals) + " %";
}
/// "95 % (90 to 100 %)"
inline std::string percent(const bw::Range<double>& share, int decimals = 1) {
  if (share.is_exact()) return percent(share.typical, decimals);
  return percent(share.typical, decimals) + " (" + number(100.0 * share.low, decimals) + " to " +
         percent(share.high, decimals) + ")";
}
/// A probability: "3 %", "under 1 %".
inline std::string chance(double probability) {
  if (probability < 0.01) return "under 1 %";
  if (probability > 0.99) return "over 99 %";
  return percent(probability, 0);
}
/// "+0.4 %", "-0.1 %"
inline std::string signed_percent(double share, int decimals = 1) {
  const std::string text = percent(share, decimals);
  return text.front() == '-' || text == "0 %" ? text : "+" + text;
}
/// "+5 % (2 to 8 %)", by the interval that holds the change with a probability of 90 %.
inline std::string change(const bw::Change& change, int decimals = 0) {
  const bw::Range<double> share = change.interval();
  return signed_percent(share.typical, decimals) + " (" + number(100.0 * share.low, decimals) +
         " to " + percent(share.high, decimals) + ")";
}
/// A max to the half kilogram or to the pound, which is more than is known of it: "76.5 kg".
inline std::string max_number(bw::Mass mass, bw::Unit unit) {
  const double step = unit == bw::Unit::kg ? 0.5 : 1.0;
  return number(step * static_cast<double>(static_cast<long>(mass.in(unit) / step + 0.5)), 1);
}
inline std::string max_text(bw::Mass mass, bw::Unit unit) {
  return max_number(mass, unit) + " " + std::string(bw::to_text(unit));
}
/// "76.5 kg (72 to 81 kg)"
inline std::string max_text(const bw::Range<bw::Mass>& mass, bw::Unit unit) {
  if (mass.is_exact()) return max_text(mass.typical, unit);
  return max_text(mass.typical, unit) + " (" + max_number(mass.low, unit) + " to " +
         max_text(mass.high, unit) + ")";
}
/// "2", "2-3": a half is not counted by anybody, it stands for a range.
inline std::string whole_reps(bw::RepsInReserve reserve, std::string_view between) {
  const double low = std::floor(reserve.count());
  if (low == reserve.count()) return number(low, 0);
  return number(low, 0) + std::string(between) + number(low + 1.0, 0);
}
/// "2 RIR", "2 to 3 RIR": reps in reserve, as the trade writes them.
inline std::string rir(bw::RepsInReserve reserve) { return whole_reps(reserve, " to ") + " RIR"; }
/// "2 RIR" or "2-3 RIR"
inline std::string rir(const bw::Range<bw::RepsInReserve>& reserve) {
  if (reserve.is_exact()) return rir(reserve.typical);
  return number(reserve.low.count(), 1) + "-" + rir(reserve.high);
}
/// "3 x 6"
inline std::string sets_of(int sets, bw::Reps reps) {
  return std::to_string(sets) + " x " + std::to_string(reps.count());
}
/// "60 kg x 6, 2 RIR" or "60 kg x 6, last rep missed"
inline std::string done(const bw::LoggedSet& set, bw::Unit unit) {
  std::string text =
      bw::to_text(set.load, unit, 2).str() + " x " + std::to_string(set.reps.count());
  if (set.outcome == bw::Outcome::missed) return text + ", last rep missed";
  if (set.reserve) return text + ", " + rir(*set.reserve);
  return text + ", not rated";
}
inline std::string count(int number, std::string_view thing) {
  return std::to_string(number) + " " + std::string(thing) + (number == 1 ? "" : "s");
}
/// "set 3", "sets 1 and 2", "sets 1 to 4"
inline std::string numbers(std::string_view thing, int first, int last) {
  std::string text(thing);
  if (first == last) return text + " " + std::to_string(first);
  return text + "s " + std::to_string(first) + (last == first + 1 ? " and " : " to ") +
         std::to_string(last);
}
inline std::string day(bw::Date date) { return bw::to_text(date).str(); }
/// "handbook, from memory, unverified"
inline std::string standing(const bw::Source& source) {
  return bw::detail::standing_text(source).str();
}

// ---- lines

inline std::string padded(std::string_view text, std::size_t width) {
  return std::string(text) + std::string(width > text.size() ? width - text.size() : 0, ' ');
}
inline std::string right(std::string_view text, std::size_t width) {
  return std::string(width > text.size() ? width - text.size() : 0, ' ') + std::string(text);
}

inline void title(std::ostream& out, std::string_view text) { out << '\n' << text << '\n'; }

/// Prints `text` in lines of at most 80, the first indented by `indent`, the others by `hanging`.
inline void paragraph(std::ostream& out, std::string_view text, std::size_t indent = 2,
                      std::size_t hanging = 2) {
  constexpr std::size_t width = 80;
  std::string line(indent, ' ');
  bool is_start = true;
  while (!text.empty()) {
    std::size_t end = std::min(text.find(' '), text.size());
    while (end + 1 < text.size() && text[end + 1] == '%') {  // stays with its number
      end = std::min(text.find(' ', end + 1), text.size());
    }
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!is_start && line.size() + 1 + word.size() > width) {
      out << line << '\n';
      line.assign(hanging, ' ');
      is_start = true;
    }
    if (!is_start) line += ' ';
    line += word;
    is_start = false;
  }
  out << line << '\n';
}

}  // namespace text_page
