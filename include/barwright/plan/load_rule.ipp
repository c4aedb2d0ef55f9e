// barwright/plan/load_rule.ipp - the bodies of load_rule.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/training/comeback.hpp"

namespace barwright::inline BARWRIGHT_ABI {

inline LoadRule::LoadRule(const Lifter& lifter, const Lift& lift, Date before)
    : lifter_(&lifter),
      lift_(lift),
      before_(before),
      sessions_(past_sessions(lifter, lift, before)),
      days_off_(days_off(lifter, before - 1)) {
  if (days_off_) ++*days_off_;
  if (!sessions_.empty() && sessions_.back().date == before) {
    today_ = sessions_.back();
    sessions_.pop_back();
  }
  is_shown_elsewhere_ = lifter.doubts.may_be_rpe && sessions_.empty() && !today_;
  shown_max_ = find_shown_max(telling_reps());
}

inline PlateRule LoadRule::plate_rule(const WorkSets& work) const {
  return {.least = by_reserve(work) * (lifter_->rules.smallest_step / 2.0),
          .least_in_warm_ups = Mass::from_kg(lifter_->rules.warm_up_plate_kg),
          .leeway = lifter_->rules.warm_up_leeway};
}

inline Mass LoadRule::wanted(const WorkSets& work) const {
  Mass load = by_reserve(work);
  if (const auto kept = done_as_asked(work)) load = std::max(load, *kept);
  if (const auto shown = by_last_session(work)) load = std::max(load, *shown);
  return load;
}

inline Mass LoadRule::within_chance(const WorkSets& work) const {
  WorkSets to_failure = work;
  to_failure.reserve = {};
  Mass most = load_for(to_failure, work.sets - 1, work.max_chance_of_missing);
  for (int set = 0; set + 1 < work.sets; ++set) {
    most = std::min(most, load_for(to_failure, set, work.max_chance_of_missing));
  }
  return most;
}

inline std::vector<double> LoadRule::chances_of_missing(const WorkSets& work, Mass load) const {
  std::vector<double> chances;
  chances.reserve(static_cast<std::size_t>(work.sets));
  for (int set = 0; set < work.sets; ++set) {
    chances.push_back(lifter_->strength->chance_of_missing(lift_, load, work.reps, work.date,
                                                           work.earlier_sets + set));
  }
  return chances;
}

inline double LoadRule::worst_chance(const WorkSets& work, Mass load) const {
  const auto chances = chances_of_missing(work, load);
  return *std::max_element(chances.begin(), chances.end());
}

inline double LoadRule::left_in(const WorkSets& work, Mass load, double chance,
                                ChancesByReps& known) const {
  const auto chance_of = [&](int reps) {
    std::optional<double>& of_reps = known[static_cast<std::size_t>(reps)];
    if (!of_reps) {
      of_reps = lifter_->strength->chance_of_missing(lift_, load, Reps(reps), work.date,
                                                     work.earlier_sets + work.sets - 1);
    }
    return *of_reps;
  };
  int possible = 0;  // so many are missed at most so often
  int too_many = Reps::most + 1;
  while (too_many - possible > 1) {
    const int middle = possible + (too_many - possible) / 2;
    (chance_of(middle) > chance ? too_many : possible) = middle;
  }
  const double below = possible > 0 ? chance_of(possible) : 0.0;
  const double above = too_many > Reps::most ? 1.0 : chance_of(too_many);
  const double part = above > below ? (chance - below) / (above - below) : 0.0;
  return possible + part - work.reps.count();
}

inline double LoadRule::likeliest_left(const WorkSets& work, Mass load) const {
  ChancesByReps known{};
  return left_in(work, load, 0.50, known);
}

inline Range<double> LoadRule::reserve_left(const WorkSets& work, Mass load) const {
  ChancesByReps known{};
  return {left_in(work, load, 0.05, known), left_in(work, load, 0.50, known),
          left_in(work, load, 0.95, known)};
}

inline std::optional<LoadLimit> LoadRule::greatest_rise(const WorkSets& work) const {
  if (!shown_max_) return std::nullopt;
  const int telling = telling_reps();
  const Mass shown = work.reps.count() > telling ? *find_shown_max(work.reps.count()) : *shown_max_;
  const double reps = work.reps.count() + (is_shown_elsewhere_ ? work.reserve.count() : 0.0);
  return LoadLimit{LimitedBy::greatest_rise,
                   shown * ((1.0 + lifter_->rules.greatest_rise) * share(work.date, reps))};
}

inline std::optional<LoadLimit> LoadRule::by_ratings(const WorkSets& work) const {
  const double asked = share(work.date, reps_to_failure(work.reps, work.reserve));
  std::optional<Mass> best;
  int looked_at = 0;
  for (std::size_t i = sessions_.size(); i-- > 0;) {
    const PastSession& session = sessions_[i];
    const bool is_recent = before_ - session.date <= lifter_->rules.recent_days;
    if (!is_recent || looked_at == lifter_->rules.rated_sessions) break;
    bool is_rated = false;
    for (const LoggedSet& set : session.sets) {
      const auto done = reps_to_failure(set);
      if (set.load < session.top.load || !done) continue;
      is_rated = true;
      if (*done < 1.0) continue;
      const Mass load = set.load * (asked / share(work.date, *done));
      if (!best || *best < load) best = load;
    }
    looked_at += is_rated ? 1 : 0;
  }
  if (!best) return std::nullopt;
  return LoadLimit{LimitedBy::ratings, *best * (1.0 + lifter_->rules.step_up)};
}

inline std::optional<LoadLimit> LoadRule::by_usual_curve(const WorkSets& work) const {
  const bool is_told = !sessions_.empty() || (!lift_.is_plain() && !lifter_->used.empty());
  if (!lifter_->stated_max || is_told) return std::nullopt;
  const double reps = reps_to_failure(work.reps, work.reserve);
  return LoadLimit{LimitedBy::usual_curve, lifter_->strength->max(lift_, work.date).median() *
                                               std::exp(lifter_->curve.log_fraction(reps))};
}

inline LoadLimit LoadRule::layoff(const WorkSets& work, const Comeback& back) const {
  WorkSets as_asked = work;
  as_asked.reserve = work.asked_reserve.value_or(work.reserve);
  if (days_off_ && *days_off_ >= back.days_off) as_asked.date = work.date - (*days_off_ - 1);
  const Mass usual = std::min(by_reserve(as_asked), within_chance(as_asked));
  return {LimitedBy::layoff, usual * (1.0 - back.load_cut)};
}

inline std::optional<LoadedWith> LoadRule::nearest(const Equipment& equipment, const WorkSets& work,
                                                   Mass wanted,
                                                   const std::vector<LoadLimit>& limits) const {
  auto below = equipment.at_most(wanted);
  auto above = equipment.at_least(wanted);
  if (!above || (below && !(above->load - wanted < wanted - below->load))) return below;
  for (const LoadLimit& limit : limits) {
    // What sets were said to be, or a curve has, is no surer than what is to be left.
    if (!is_estimate(limit.by) && above->load > limit.most) return below;
  }
  WorkSets harder = work;
  const double reserve = work.reserve.count() - lifter_->rules.rounding_reserve;
  if (reserve >= 0.0) harder.reserve = RepsInReserve(reserve);
  return above->load > by_reserve(harder) ? below : above;
}

inline std::vector<LoadLimit> LoadRule::limits(const WorkSets& work) const {
  std::vector<LoadLimit> limits{{LimitedBy::chance_of_missing, within_chance(work)}};
  if (const auto back = comeback_on(*lifter_, work.date)) limits.push_back(layoff(work, *back));
  if (const auto limit = greatest_rise(work)) limits.push_back(*limit);
  if (!sessions_.empty()) {
    for (const LoggedSet& set : sessions_.back().sets) {
      if (const auto by = held_by(set)) limits.push_back({*by, for_reps(set, work)});
    }
    // Which set a row that could not be read was of nobody knows: nothing goes up on the day.
    if (unread_miss(*lifter_, before_)) {
      limits.push_back({LimitedBy::held_after_miss, for_reps(sessions_.back().top, work)});
    }
  }
  if (today_) {
    for (const LoggedSet& set : today_->sets) add_today(limits, set, work);
  }
  // Last, as of two reasons for one load the first is named.
  if (const auto limit = by_ratings(work)) limits.push_back(*limit);
  if (const auto limit = by_usual_curve(work)) limits.push_back(*limit);
  return limits;
}

inline Mass LoadRule::load_for(const WorkSets& work, int set, double bound) const {
  return lifter_->strength
      ->load_for(lift_, work.reps, work.reserve, work.date,
                 {.max_chance_of_missing = bound, .earlier_sets = work.earlier_sets + set})
      .load;
}

inline std::optional<Mass> LoadRule::done_as_asked(const WorkSets& work) const {
  if (sessions_.empty() || !days_off_ || *days_off_ > lifter_->rules.layoff_days) {
    return std::nullopt;
  }
  const PastSession& last = sessions_.back();
  const bool is_harder_today =
      today_ && std::any_of(today_->sets.begin(), today_->sets.end(), [&](const LoggedSet& set) {
        return is_short(set) || (set.reserve && set.reserve->typical < work.reserve);
      });
  if (is_harder_today || last.has_miss || last.may_have_miss ||
      work.date - last.date > lifter_->rules.layoff_days) {
    return std::nullopt;
  }
  int sets = 0;
  for (const LoggedSet& set : last.sets) {
    if (set.load < last.top.load) continue;
    const bool is_as_asked =
        set.reps >= work.reps && set.reserve && set.reserve->typical >= work.reserve;
    if (!is_as_asked) return std::nullopt;
    ++sets;
  }
  if (sets < work.sets) return std::nullopt;
  return last.top.load;
}

inline std::optional<Mass> LoadRule::by_last_session(const WorkSets& work) const {
  if (sessions_.empty() || today_ || !days_off_ || *days_off_ > lifter_->rules.layoff_days) {
    return std::nullopt;
  }
  const PastSession& last = sessions_.back();
  if (last.has_miss || last.may_have_miss || work.date - last.date > lifter_->rules.layoff_days) {
    return std::nullopt;
  }
  const double asked = reps_to_failure(work.reps, work.reserve);
  std::optional<Mass> least;
  for (const LoggedSet& set : last.sets) {
    if (set.load < last.top.load) continue;
    if (!set.reserve || set.reps.count() > work.reps.count() + lifter_->rules.most_longer_set) {
      return std::nullopt;
    }
    const double left = std::min(set.reserve->typical.count(), lifter_->rules.most_counted_reserve);
    const double done = set.reps.count() + left;
    if (done < asked + 1.0) return std::nullopt;
    const Mass load = set.load * (share(work.date, asked) / share(work.date, done));
    if (!least || load < *least) least = load;
  }
  return least;
}

inline std::optional<LimitedBy> LoadRule::held_by(const LoggedSet& set) noexcept {
  if (is_short(set)) return LimitedBy::held_after_miss;
  const bool is_empty = set.reserve && set.reserve->typical == RepsInReserve{};
  if (is_empty) return LimitedBy::held_after_failure;
  return std::nullopt;
}

inline void LoadRule::add_today(std::vector<LoadLimit>& limits, const LoggedSet& set,
                                const WorkSets& work) const {
  if (set.outcome == Outcome::missed) {
    const Mass missed = std::min(set.load, for_reps(set, work));
    limits.push_back(
        {LimitedBy::missed_today, missed * (1.0 - lifter_->rules.step_back_after_miss)});
    return;
  }
  if (set.may_be_missed) {
    limits.push_back({LimitedBy::today, std::min(set.load, for_reps(set, work))});
  }
  if (!set.reserve) return;
  const double left = set.reserve->typical.count();
  if (left > work.reserve.count() - 1.0 && !is_hard_for_its_load(set, work)) return;
  limits.push_back(
      {LimitedBy::today, set.load * (share(work.date, reps_to_failure(work.reps, work.reserve)) /
                                     share(work.date, set.reps.count() + left))});
}

inline bool LoadRule::is_hard_for_its_load(const LoggedSet& set, const WorkSets& work) const {
  if (!set.reserve) return false;
  const double left = set.reserve->typical.count() + 1.0;  // ratings are off by a rep
  if (left > lifter_->rules.most_counted_reserve) return false;
  const double asked = reps_to_failure(work.reps, work.reserve);
  const Mass at_most =
      set.load * (share(work.date, asked) / share(work.date, set.reps.count() + left));
  return at_most < by_reserve(work) * (1.0 - lifter_->rules.step_back_after_miss);
}

inline std::optional<Mass> LoadRule::find_shown_max(int most_reps) const {
  if (is_shown_elsewhere_) return find_max_shown_elsewhere(most_reps);
  std::optional<Mass> best;
  const auto look_at = [&](const PastSession& session) {
    for (const LoggedSet& set : session.sets) {
      const int done = std::min(reps_made(set), most_reps);
      if (done < 1) continue;
      const Mass max = set.load / share(before_, done);
      if (!best || *best < max) best = max;
    }
  };
  for (const PastSession& session : sessions_) {
    if (before_ - session.date <= lifter_->rules.recent_days) look_at(session);
  }
  if (!best && !sessions_.empty()) look_at(sessions_.back());
  if (today_) look_at(*today_);
  return best;
}

inline std::optional<Mass> LoadRule::find_max_shown_elsewhere(int most_reps) const {
  const Strength& strength = *lifter_->strength;
  std::optional<Mass> best;
  for (const LoggedSet& set : lifter_->used) {
    const int done = std::min(reps_made(set), most_reps);
    if (done < 1 || before_ < set.date || before_ - set.date > lifter_->rules.recent_days) continue;
    const double ratio =
        strength.max(lift_, before_).median() / strength.max(set.lift, before_).median();
    const Mass max = set.load * (ratio / strength.share_of_max(set.lift, before_, done));
    if (!best || *best < max) best = max;
  }
  return best;
}

}  // namespace barwright::inline BARWRIGHT_ABI
