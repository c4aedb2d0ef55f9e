// examples/lifter_model.hpp - one lifter of a squad's log, and what the strength model makes of it
//
// What plan_session, plan_block and review_block have in common: finding the lifter, setting up the
// model of one base lift, naming by their lines the sets that do not fit it, and what the last
// sessions say.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/barwright.hpp"
#include "barwright/learn/strength_model.hpp"
#include "program.hpp"
#include "squad_log.hpp"
#include "text_page.hpp"

namespace lifter_model {

namespace bw = barwright;

using program::Refusal;

template <class T>
T value_or_refuse(squad_log::Parsed<T> parsed) {
  if (!parsed.value) throw Refusal{parsed.problem};
  return *parsed.value;
}

/// The same for what was typed after an option, which is named.
template <class T>
T value_or_refuse(std::string_view option, std::string_view typed, squad_log::Parsed<T> parsed) {
  if (!parsed.value) {
    throw Refusal{std::string(option) + " \"" + std::string(typed) + "\": " + parsed.problem};
  }
  return *parsed.value;
}

/// The lift that was asked for by --lift and --with.
inline bw::Lift find_lift(const std::string& lift, const std::string& with) {
  const auto refuse = [](std::string_view base, const std::string& changes) {
    throw Refusal{"Ask for the base lift and for what is changed: --lift \"" + std::string(base) +
                  "\" --with \"" + changes + "\""};
  };
  const auto changed = bw::catalogue::find_lift_with(lift);
  if (changed && bw::catalogue::find_lift(lift) == nullptr) {
    refuse(changed->base().name, squad_log::names_of_changes(*changed, ", "));
  }
  if (const auto whole = squad_log::whole_variation(lift)) {
    refuse(whole->base().name, squad_log::names_of_changes(*whole, ", "));
  }
  const bw::BaseLift* base = value_or_refuse("--lift", lift, squad_log::to_base_lift(lift));
  return value_or_refuse(squad_log::to_lift(*base, with));
}

/// The room that was asked for; else the usual gym in the unit of the lifter's log, or of the
/// stated max.
inline bw::Room find_room(const std::string& room, const std::string& max,
                          const squad_log::Log& log, std::string_view lifter) {
  if (!room.empty()) return bw::parse_room(room);
  const bw::Unit unit = log.entries.empty() && !max.empty() ? bw::parse_marked_mass(max).unit()
                                                            : squad_log::usual_unit(log, lifter);
  return unit == bw::Unit::lb ? bw::plate_sets::gym_lb : bw::plate_sets::gym_kg;
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

/// Who is in a log and what each has done, for somebody who has not chosen yet.
inline void print_contents(std::ostream& out, const squad_log::Log& log,
                           const std::string& only_lifter) {
  const auto lifters =
      only_lifter.empty() ? squad_log::lifters(log) : std::vector{find_lifter(log, only_lifter)};
  for (const std::string& lifter : lifters) {
    out << lifter << '\n';
    const auto sets = squad_log::sets_of(log, lifter);
    std::map<bw::LiftId, bw::Lift> lifts;
    for (const bw::LoggedSet& set : sets) lifts.emplace(set.lift.id(), set.lift);
    for (const auto& [id, lift] : lifts) {
      bw::Date last = sets.front().date;
      bw::Date first = bw::Date(bw::Date::last_year, 12, 31);
      int count = 0;
      for (const bw::LoggedSet& set : sets) {
        if (set.lift.id() != id) continue;
        first = std::min(first, set.date);
        last = std::max(last, set.date);
        ++count;
      }
      const int days = bw::sessions_of(sets, lift, last);
      std::string name = lift.name().str();
      name.resize(std::max<std::size_t>(name.size(), 36), ' ');
      out << "  " << name << count << (count == 1 ? " set on " : " sets on ") << days
          << (days == 1 ? " day, " : " days, ") << first << " to " << last << '\n';
    }
  }
  out << "\nChoose with --lifter and --lift, and --with for what is changed about it.\n";
}

/// The lifts that were new to the lifter: variations that came in later than two weeks after the
/// first set of any form of the lift. What turns up sooner was most likely there before the log.
inline std::vector<bw::Lift> new_lifts(const std::vector<bw::LoggedSet>& sets,
                                       const bw::BaseLift& base) {
  constexpr int settled_after = 14;
  std::vector<std::pair<bw::Lift, bw::Date>> firsts;
  for (const bw::LoggedSet& set : sets) {
    if (!set.lift.base().same_as(base)) continue;
    const auto known = std::find_if(firsts.begin(), firsts.end(), [&](const auto& first) {
      return first.first.same_as(set.lift);
    });
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

/// Has the model take the lift that is asked for as new, or not, where more is known than the log
/// says: it was never done, or was done before the log began.
/// @param done  sessions of the lift, if more than the log has
inline void mark_new(bw::StrengthSettings& settings, const bw::Lift& lift,
                     const std::vector<bw::LoggedSet>& sets, bw::Date date, int done) {
  const int logged = bw::sessions_of(sets, lift, date);
  std::vector<bw::Lift>& known = settings.new_lifts;
  if (done > logged) {
    std::erase_if(known, [&](const bw::Lift& each) { return each.same_as(lift); });
  } else if (!lift.is_plain() && logged == 0) {
    known.push_back(lift);
  }
}

/// A set that the model left out.
struct Misfit {
  int line = 0;
  bw::LoggedSet set;
  bw::Mass expected{};  ///< the load that would have surprised nobody
};

/// A bound on the chance of missing that bounds nothing: the load is what the reserve asks for.
inline constexpr double no_bound = 1.0 - 1e-6;

/// What one lifter's log says.
struct Learnt {
  bw::StrengthFit fit;
  std::vector<bw::LoggedSet> sets{};  ///< of all lifts, without those that do not fit
  std::vector<bw::LoggedSet> used{};  ///< those that the fit rests on
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
    if (report.use == bw::SetReport::Use::used) learnt.used.push_back(entries[i].set);
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

// ---- what the last session says

/// How the last session of the lift ended.
struct LastTime {
  bw::LoggedSet set;        ///< the last set at the session's heaviest load
  bool has_miss = false;    ///< of any set that day
  bool goes_twice = false;  ///< two or more repetitions over, at this load, in two sessions
};

/// The last set at the heaviest load of each day of the lift, in the order of dates.
inline std::vector<LastTime> ends_of_sessions(const std::vector<bw::LoggedSet>& log,
                                              const bw::Lift& lift, bw::Date before) {
  std::vector<LastTime> ends;
  std::vector<bw::LoggedSet> sets;
  std::copy_if(log.begin(), log.end(), std::back_inserter(sets), [&](const bw::LoggedSet& set) {
    return set.lift.same_as(lift) && set.date < before && set.load > bw::Mass{};
  });
  std::stable_sort(sets.begin(), sets.end(),
                   [](const bw::LoggedSet& a, const bw::LoggedSet& b) { return a.date < b.date; });
  for (const bw::LoggedSet& set : sets) {
    const bool is_missed = set.outcome == bw::Outcome::missed;
    if (ends.empty() || ends.back().set.date != set.date) {
      ends.push_back({.set = set, .has_miss = is_missed});
      continue;
    }
    LastTime& end = ends.back();
    end.has_miss = end.has_miss || is_missed;
    if (set.load >= end.set.load) end.set = set;
  }
  return ends;
}

/// How old the newest set may be for a log to say how strong the lifter is.
inline constexpr int longest_days = 84;

/// After so long without the lift, loads are taken lighter by this share: assumptions.
inline constexpr int long_away = 14;
inline constexpr double lighter_after = 0.10;

/// Days since the last set of the lift in any variation; 0 where there is none.
inline int days_away(const std::vector<bw::LoggedSet>& log, const bw::BaseLift& base,
                     bw::Date date) {
  int away = 0;
  for (const bw::LoggedSet& set : log) {
    if (!set.lift.base().same_as(base)) continue;
    const int days = std::max(date - set.date, 1);
    if (away == 0 || days < away) away = days;
  }
  return away;
}

/// Refuses where the log says too little of how strong the lifter is on a day.
inline void require_strength(const Learnt& learnt, const bw::BaseLift& base, int days,
                             bw::Date date) {
  const std::string name(base.name);
  if (learnt.fit.sets_used() == 0) {
    throw Refusal{"The log has no set of the " + name + " by this lifter before " +
                  text_page::day(date) + ", nor of a variation of it" + but_for(learnt.misfits) +
                  ". State the max: --max \"100 kg\""};
  }
  if (days > longest_days) {
    throw Refusal{"The last set of the " + name + " or a variation of it was " +
                  std::to_string(days) + " days before " + text_page::day(date) +
                  "; how strong the lifter is then the log cannot say. State the max: --max "
                  "\"100 kg\""};
  }
}

/// What the log says of a base lift's max, as an interval that holds it with a probability of 99 %;
/// nothing where it says too little.
inline std::optional<bw::Range<bw::Mass>> max_by_log(const bw::BaseLift& base,
                                                     const bw::CurveTable& curve,
                                                     const std::vector<squad_log::Entry>& entries,
                                                     bw::Date date) {
  std::vector<bw::LoggedSet> sets;
  for (const squad_log::Entry& entry : entries) sets.push_back(entry.set);
  const int days = days_away(sets, base, date);
  if (days == 0 || days > longest_days) return std::nullopt;
  const Learnt learnt = learn(settings_for(base, curve, sets), entries);
  if (learnt.fit.sets_used() == 0) return std::nullopt;
  return learnt.fit.max(base, date).interval(0.99);
}

// ---- what a load leaves

/// The repetitions left after `reps` with this load, by the chances of missing one more and one
/// more.
inline bw::Range<double> reserve_left(const bw::StrengthFit& fit, const bw::Lift& lift,
                                      bw::Mass load, bw::Reps reps, bw::Date date,
                                      int earlier_sets) {
  const auto most_reps = [&](double missed_at_most) {
    int count = 0;
    while (count < bw::Reps::most && fit.chance_of_missing(lift, load, bw::Reps(count + 1), date,
                                                           earlier_sets) <= missed_at_most) {
      ++count;
    }
    return static_cast<double>(count - reps.count());
  };
  return {most_reps(0.05), most_reps(0.50), most_reps(0.95)};
}

}  // namespace lifter_model
