// examples/report/sets_table.hpp - the sets of a session with their plates, and the last bar drawn
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/planning.hpp"
#include "report/text_page.hpp"
#include "report/words.hpp"

namespace report {

/// "1 off, 2 on", or nothing.
inline std::string change_text(const bw::PlannedSet& set) {
  std::string text;
  if (set.taken_off > 0) text = std::to_string(set.taken_off) + " off";
  if (set.taken_off > 0 && set.put_on > 0) text += ", ";
  if (set.put_on > 0) text += std::to_string(set.put_on) + " on";
  return text;
}

/// One line for each set.
/// @param name_of_work  what the last is: "work"
inline void print_set_lines(std::ostream& out, const std::vector<bw::PlannedSet>& sets,
                            std::string_view name_of_work, bw::Unit unit) {
  const std::optional<bw::Loading>& top = sets.back().with.bar;
  std::size_t widest = 9;
  for (const bw::PlannedSet& set : sets) widest = std::max(widest, loaded_with(set.with).size());
  const auto line = [&](std::string_view what, std::string_view mass, std::string_view reps,
                        std::string_view with, std::string_view moves) {
    std::string text = "  " + padded(what, 9) + right(mass, 9) + right(reps, 10) + "   " +
                       padded(with, widest + 3) + std::string(moves);
    text.erase(text.find_last_not_of(' ') + 1);
    out << text << '\n';
  };
  line("", "load", "reps",
       top                         ? "each side"
       : sets.back().with.belt     ? "on the belt"
       : sets.back().with.dumbbell ? "dumbbells"
                                   : "stack",
       top ? "plates moved" : "");
  for (const bw::PlannedSet& set : sets) {
    const std::string reps =
        (set.sets > 1 ? std::to_string(set.sets) + " x " : "") + std::to_string(set.reps.count());
    line(set.is_work ? name_of_work : "warm-up", load_text(set.with.logged(), unit), reps,
         loaded_with(set.with), change_text(set));
  }
}

/// The same, and the last bar drawn.
inline void print_sets(std::ostream& out, const std::vector<bw::PlannedSet>& sets,
                       std::string_view name_of_work, bw::Unit unit) {
  print_set_lines(out, sets, name_of_work, unit);
  out << '\n';
  if (sets.back().with.bar) out << bw::draw(*sets.back().with.bar) << '\n';
}

}  // namespace report
