// examples/lifter_model.hpp - one lifter of a squad's log, and what the strength model makes of it
//
// What plan_session and review_block have in common: finding the lifter, setting up the model of
// one base lift, and naming by their lines the sets that do not fit it.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/strength_model.hpp"
#include "squad_log.hpp"
#include "text_page.hpp"

namespace lifter_model {

namespace bw = barwright;

/// Why there is no answer.
struct Refusal {
  std::string text{};
};

template <class T>
T value_or_refuse(squad_log::Parsed<T> parsed) {
  if (!parsed.value) throw Refusal{parsed.problem};
  return *parsed.value;
}

/// The lifter of the log whose name was typed.
inline std::string find_lifter(const squad_log::Log& log, const std::string& name) {
  const auto names = squad_log::lifters(log);
  for (const std::string& known : names) {
    if (squad_log::plain(known) == squad_log::plain(name)) return known;
  }
  throw Refusal{"The log has no lifter \"" + name +
                "\"; nearest: " + squad_log::one_of(squad_log::nearest(name, names))};
}

/// The lifts that were new to the lifter: variations that came in later than two weeks after the
/// first set of any form of the lift. What turns up sooner was most likely there before the log.
inline std::vector<bw::Lift> new_lifts(const std::vector<bw::LoggedSet>& sets,
                                       const bw::BaseLift& base) {
  constexpr int settled_after = 14;
  std::vector<std::pair<bw::Lift, bw::Date>> firsts;
  for (const bw::LoggedSet& set : sets) {
    if (set.lift.base() != base) continue;
    const auto known = std::find_if(firsts.begin(), firsts.end(),
                                    [&](const auto& first) { return first.first == set.lift; });
    if (known == firsts.end()) {
      firsts.emplace_back(set.lift, set.date);
    } else {
      known->second = std::min(known->second, set.date);
    }
  }
  std::vector<bw::Lift> lifts;
  for (const auto& [lift, first] : firsts) {
    const auto is_old = [&, day = first](const auto& other) {
      return day - other.second > settled_after;
    };
    if (!lift.is_plain() && std::any_of(firsts.begin(), firsts.end(), is_old)) {
      lifts.push_back(lift);
    }
  }
  return lifts;
}

/// A model of the lift `base`, as the sets of a log kept by hand need it.
inline bw::StrengthSettings settings_for(const bw::BaseLift& base, bw::CurveTable curve,
                                         const std::vector<bw::LoggedSet>& sets) {
  bw::StrengthSettings settings{
      .reference = base, .curve = std::move(curve), .new_lifts = new_lifts(sets, base)};
  // Whoever feels five or more left writes down 5: it means at least so many.
  settings.priors.most_counted_reserve = 4.5;
  return settings;
}

/// A set that the model left out.
struct Misfit {
  int line = 0;
  bw::LoggedSet set;
  bw::Mass expected{};  ///< the load that would have surprised nobody
};

/// What one lifter's log says.
struct Learnt {
  bw::StrengthFit fit;
  std::vector<bw::LoggedSet> sets{};  ///< of all lifts, without those that do not fit
  std::vector<Misfit> misfits{};
};

/// @param entries  one lifter's
inline Learnt learn(const bw::StrengthSettings& settings,
                    const std::vector<squad_log::Entry>& entries) {
  bw::StrengthModel model(settings);
  for (const squad_log::Entry& entry : entries) model.add(entry.set);
  Learnt learnt{.fit = model.fit()};
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const bw::SetReport& report = learnt.fit.reports()[i];
    if (report.use == bw::SetReport::Use::suspicious) {
      learnt.misfits.push_back(
          {.line = entries[i].line, .set = entries[i].set, .expected = report.expected_load});
    } else {
      learnt.sets.push_back(entries[i].set);
    }
  }
  return learnt;
}

/// "line 19, 2026-11-18: 132 kg x 6, 2 left; 58.5 kg would have surprised nobody: pounds typed as
/// kilograms?"
inline std::string to_text(const Misfit& misfit, bw::Unit unit) {
  const double share = misfit.set.load / misfit.expected;
  const auto is_about = [&](double factor) {
    return share > 0.85 * factor && share < factor / 0.85;
  };
  return "line " + std::to_string(misfit.line) + ", " + text_page::day(misfit.set.date) + ": " +
         text_page::done(misfit.set, unit) + "; " + text_page::max_text(misfit.expected, unit) +
         " would have surprised nobody" +
         (is_about(1.0 / bw::Mass::kg_per_lb)
              ? ", " + text_page::number(share, 1) + " times less: pounds typed as kilograms?"
          : is_about(bw::Mass::kg_per_lb)
              ? ", " + text_page::number(1.0 / share, 1) + " times more: kilograms typed as pounds?"
          : is_about(10.0) || is_about(0.1) ? ": a decimal point gone astray?"
                                            : ".");
}

/// ", but for 2 sets that cannot be right as logged: line 3, line 7"
inline std::string but_for(const std::vector<Misfit>& misfits) {
  if (misfits.empty()) return "";
  constexpr std::size_t most_named = 5;
  std::string text = ", but for " + text_page::count(static_cast<int>(misfits.size()), "set") +
                     " that cannot be right as logged: ";
  for (std::size_t i = 0; i < std::min(misfits.size(), most_named); ++i) {
    text += (i > 0 ? ", line " : "line ") + std::to_string(misfits[i].line);
  }
  return text + (misfits.size() > most_named ? " and others" : "");
}

}  // namespace lifter_model
