// barwright/plan/load_rule.hpp - what a lifter may have on the bar for one session, and why no more
//
// One rule for every planner, so that no two can disagree. It starts from what leaves the reserve
// asked for in the last work set, and takes the least of all that speaks for less:
//
//   the chance of missing   of every work set, whichever is the likeliest to be missed
//   the greatest rise       a load asks for a max, by the lifter's own curve; it asks for at most a
//                           tenth more than what went up in the last sessions asks for, whatever
//                           the repetitions and whatever chance of missing is allowed
//   the layoff              after two weeks off, a tenth less, and more after a longer one
//   the last session        after a miss, or with nothing left, no more than that again
//   today                   after a miss, less than what was missed; with less left than asked for,
//                           what leaves it
//
// Each is a LoadLimit with its name. Which of them decides is for the planner to say, who knows
// what can be loaded.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <optional>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/training/comeback.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What decided a load.
enum class LimitedBy : unsigned char {
  reserve,            ///< what was asked to be left
  chance_of_missing,  ///< the bound on it
  greatest_rise,      ///< it asks for a tenth more than was shown
  layoff,
  held_after_miss,     ///< a repetition was missed in the last session
  held_after_failure,  ///< a set of the last session left nothing
  missed_today,
  today,          ///< sets of today left less than was asked for
  introduction,   ///< the lift is new
  recovery,       ///< it is too soon for a hard session
  equipment,      ///< there is nothing heavier
  first_session,  ///< nothing is known of the lifter: up by feel
};

[[nodiscard]] constexpr std::string_view name(LimitedBy limit) noexcept {
  switch (limit) {
    case LimitedBy::reserve: return "reserve";
    case LimitedBy::chance_of_missing: return "chance_of_missing";
    case LimitedBy::greatest_rise: return "greatest_rise";
    case LimitedBy::layoff: return "layoff";
    case LimitedBy::held_after_miss: return "held_after_miss";
    case LimitedBy::held_after_failure: return "held_after_failure";
    case LimitedBy::missed_today: return "missed_today";
    case LimitedBy::today: return "today";
    case LimitedBy::introduction: return "introduction";
    case LimitedBy::recovery: return "recovery";
    case LimitedBy::equipment: return "equipment";
    case LimitedBy::first_session: return "first_session";
  }
  return "";
}

/// The most that one consideration allows.
struct LoadLimit {
  LimitedBy by = LimitedBy::reserve;
  Mass most{};
};

/// What the work sets of a session are to be.
struct WorkSets {
  Date date;
  int sets = 1;
  Reps reps{1};
  RepsInReserve reserve{};
  double max_chance_of_missing = 0.05;
  int earlier_sets = 0;                          ///< work sets of the lift done before on the day
  std::optional<RepsInReserve> asked_reserve{};  ///< where `reserve` is more than was asked for
};

/// What may be loaded on one lift. Refers to the lifter, who must outlive it.
class LoadRule {
 public:
  /// @param before  the first day planned for: the log is read up to it
  LoadRule(const Lifter& lifter, const Lift& lift, Date before)
      : lifter_(&lifter),
        lift_(lift),
        sessions_(past_sessions(lifter, lift, before)),
        days_off_(days_off(lifter, before - 1)) {
    if (days_off_) ++*days_off_;
    if (!sessions_.empty() && sessions_.back().date == before) {
      today_ = sessions_.back();
      sessions_.pop_back();
    }
    shown_max_ = find_shown_max(before);
  }

  /// The sessions of the lift before the first day planned for.
  [[nodiscard]] const std::vector<PastSession>& sessions() const noexcept { return sessions_; }
  [[nodiscard]] const std::optional<PastSession>& today() const noexcept { return today_; }
  /// Since the last set of the lift in any variation, that day's apart.
  [[nodiscard]] std::optional<int> days_since_last() const noexcept { return days_off_; }
  /// What the best of the last sessions' sets asks for, counting only repetitions that were made.
  [[nodiscard]] std::optional<Mass> shown_max() const noexcept { return shown_max_; }

  /// What leaves the reserve in the last work set: it is the hardest to leave it in.
  [[nodiscard]] Mass by_reserve(const WorkSets& work) const {
    constexpr double no_bound = 1.0 - 1e-6;
    return load_for(work, work.sets - 1, no_bound);
  }
  /// Which plates are worth a step at the loads of such sets, and in the warm-ups before them.
  [[nodiscard]] PlateRule plate_rule(const WorkSets& work) const {
    return {.least = by_reserve(work) * (lifter_->rules.smallest_step / 2.0),
            .least_in_warm_ups = Mass::from_kg(lifter_->rules.warm_up_plate_kg),
            .leeway = lifter_->rules.warm_up_leeway};
  }
  /// What is wanted on the first day planned for: what leaves the reserve, and no less than the
  /// last session says. Whoever left what was asked for is not answered by less, and whoever left
  /// more, by what those sets say: the model believes one session only in part, a coach who saw it
  /// does not hold the lifter back (common practice, no source). Every limit still holds.
  [[nodiscard]] Mass wanted(const WorkSets& work) const {
    Mass load = by_reserve(work);
    if (const auto kept = done_as_asked(work)) load = std::max(load, *kept);
    if (const auto shown = by_last_session(work)) load = std::max(load, *shown);
    return load;
  }
  /// What keeps every work set within the chance of missing, whatever is to be left.
  [[nodiscard]] Mass within_chance(const WorkSets& work) const {
    WorkSets to_failure = work;
    to_failure.reserve = {};
    Mass most = load_for(to_failure, work.sets - 1, work.max_chance_of_missing);
    for (int set = 0; set + 1 < work.sets; ++set) {
      most = std::min(most, load_for(to_failure, set, work.max_chance_of_missing));
    }
    return most;
  }
  /// The chance of missing the last repetition, in each of the work sets.
  [[nodiscard]] std::vector<double> chances_of_missing(const WorkSets& work, Mass load) const {
    std::vector<double> chances;
    chances.reserve(static_cast<std::size_t>(work.sets));
    for (int set = 0; set < work.sets; ++set) {
      chances.push_back(lifter_->strength->chance_of_missing(lift_, load, work.reps, work.date,
                                                             work.earlier_sets + set));
    }
    return chances;
  }
  /// Repetitions left after the last work set: in 5, 50 and 95 of 100 cases at least so many fewer.
  [[nodiscard]] Range<double> reserve_left(const WorkSets& work, Mass load) const {
    const auto chance_of = [&](int reps) {
      return lifter_->strength->chance_of_missing(lift_, load, Reps(reps), work.date,
                                                  work.earlier_sets + work.sets - 1);
    };
    const auto most_reps = [&](double missed_at_most) {
      int possible = 0;  // so many are missed at most so often
      int too_many = Reps::most + 1;
      double below = 0.0;
      double above = 1.0;
      while (too_many - possible > 1) {
        const int middle = possible + (too_many - possible) / 2;
        const double chance = chance_of(middle);
        if (chance <= missed_at_most) {
          possible = middle;
          below = chance;
        } else {
          too_many = middle;
          above = chance;
        }
      }
      const double part = above > below ? (missed_at_most - below) / (above - below) : 0.0;
      return possible + part - work.reps.count();
    };
    return {most_reps(0.05), most_reps(0.50), most_reps(0.95)};
  }

  /// A tenth more than was shown, for so many repetitions; nothing where nothing was.
  [[nodiscard]] std::optional<LoadLimit> greatest_rise(const WorkSets& work) const {
    if (!shown_max_) return std::nullopt;
    return LoadLimit{LimitedBy::greatest_rise, *shown_max_ * ((1.0 + lifter_->rules.greatest_rise) *
                                                              share(work.date, work.reps.count()))};
  }

  /// What the way back from a layoff allows: a share below what would be usual for the reserve
  /// asked for.
  [[nodiscard]] LoadLimit layoff(const WorkSets& work, const Comeback& back) const {
    WorkSets as_asked = work;
    as_asked.reserve = work.asked_reserve.value_or(work.reserve);
    const Mass usual = std::min(by_reserve(as_asked), within_chance(as_asked));
    return {LimitedBy::layoff, usual * (1.0 - back.load_cut)};
  }

  /// What of the equipment to take where `wanted` is wanted: the nearest load there is, but no
  /// heavier one that a limit forbids or that would leave too little (`rounding_reserve`).
  /// Nothing where all are too heavy. Common practice, no source: 0.2 kg is not worth a plate.
  [[nodiscard]] std::optional<LoadedWith> nearest(const Equipment& equipment, const WorkSets& work,
                                                  Mass wanted,
                                                  const std::vector<LoadLimit>& limits) const {
    const auto below = equipment.at_most(wanted);
    const auto above = equipment.at_least(wanted);
    if (!above || (below && !(above->load - wanted < wanted - below->load))) return below;
    for (const LoadLimit& limit : limits) {
      if (above->load > limit.most) return below;
    }
    WorkSets harder = work;
    const double reserve = work.reserve.count() - lifter_->rules.rounding_reserve;
    if (reserve >= 0.0) harder.reserve = RepsInReserve(reserve);
    return above->load > by_reserve(harder) ? below : above;
  }

  /// All that speaks for less than the reserve, on the first day planned for.
  [[nodiscard]] std::vector<LoadLimit> limits(const WorkSets& work) const {
    std::vector<LoadLimit> limits{{LimitedBy::chance_of_missing, within_chance(work)}};
    if (const auto back = comeback_on(*lifter_, work.date)) limits.push_back(layoff(work, *back));
    if (const auto limit = greatest_rise(work)) limits.push_back(*limit);
    if (!sessions_.empty()) {
      for (const LoggedSet& set : sessions_.back().sets) {
        if (const auto by = held_by(set)) limits.push_back({*by, for_reps(set, work)});
      }
    }
    if (today_) {
      for (const LoggedSet& set : today_->sets) add_today(limits, set, work);
    }
    return limits;
  }

 private:
  [[nodiscard]] Mass load_for(const WorkSets& work, int set, double bound) const {
    return lifter_->strength
        ->load_for(lift_, work.reps, work.reserve, work.date,
                   {.max_chance_of_missing = bound, .earlier_sets = work.earlier_sets + set})
        .load;
  }
  [[nodiscard]] double share(Date date, double reps) const {
    return lifter_->strength->share_of_max(lift_, date, reps);
  }
  /// The load that asks for as much as a set did, for the repetitions planned.
  [[nodiscard]] Mass for_reps(const LoggedSet& set, const WorkSets& work) const {
    if (set.reps == work.reps) return set.load;
    return set.load * (share(work.date, work.reps.count()) / share(work.date, set.reps.count()));
  }

  /// The load of the last session, where it had as many sets and repetitions and left as much, and
  /// no set of today says otherwise.
  [[nodiscard]] std::optional<Mass> done_as_asked(const WorkSets& work) const {
    if (sessions_.empty() || !days_off_ || *days_off_ > lifter_->rules.layoff_days) {
      return std::nullopt;
    }
    const PastSession& last = sessions_.back();
    const bool is_harder_today =
        today_ && std::any_of(today_->sets.begin(), today_->sets.end(), [&](const LoggedSet& set) {
          return set.outcome == Outcome::missed ||
                 (set.reserve && set.reserve->typical < work.reserve);
        });
    if (is_harder_today || last.has_miss || work.date - last.date > lifter_->rules.layoff_days)
      return std::nullopt;
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

  /// The load that leaves what is asked for, read off the hardest work set of the last session by
  /// the lifter's own curve; nothing unless every one of them left a repetition more than asked for
  /// now. A rating counts for no more than `most_counted_reserve`.
  [[nodiscard]] std::optional<Mass> by_last_session(const WorkSets& work) const {
    if (sessions_.empty() || today_ || !days_off_ || *days_off_ > lifter_->rules.layoff_days) {
      return std::nullopt;
    }
    const PastSession& last = sessions_.back();
    if (last.has_miss || work.date - last.date > lifter_->rules.layoff_days) return std::nullopt;
    const double asked = reps_to_failure(work.reps, work.reserve);
    std::optional<Mass> least;
    for (const LoggedSet& set : last.sets) {
      if (set.load < last.top.load) continue;
      if (!set.reserve || set.reps.count() > work.reps.count() + lifter_->rules.most_longer_set) {
        return std::nullopt;
      }
      const double left =
          std::min(set.reserve->typical.count(), lifter_->rules.most_counted_reserve);
      const double done = set.reps.count() + left;
      if (done < asked + 1.0) return std::nullopt;
      const Mass load = set.load * (share(work.date, asked) / share(work.date, done));
      if (!least || load < *least) least = load;
    }
    return least;
  }

  [[nodiscard]] static std::optional<LimitedBy> held_by(const LoggedSet& set) noexcept {
    if (set.outcome == Outcome::missed) return LimitedBy::held_after_miss;
    const bool is_empty = set.reserve && set.reserve->typical == RepsInReserve{};
    if (is_empty) return LimitedBy::held_after_failure;
    return std::nullopt;
  }

  void add_today(std::vector<LoadLimit>& limits, const LoggedSet& set, const WorkSets& work) const {
    if (set.outcome == Outcome::missed) {
      const Mass missed = std::min(set.load, for_reps(set, work));
      limits.push_back(
          {LimitedBy::missed_today, missed * (1.0 - lifter_->rules.step_back_after_miss)});
      return;
    }
    if (!set.reserve) return;
    const double left = set.reserve->typical.count();
    if (left > work.reserve.count() - 1.0) return;
    limits.push_back(
        {LimitedBy::today, set.load * (share(work.date, reps_to_failure(work.reps, work.reserve)) /
                                       share(work.date, set.reps.count() + left))});
  }

  /// The best of the last weeks and of today; of the last session, where it is longer ago.
  [[nodiscard]] std::optional<Mass> find_shown_max(Date before) const {
    std::optional<Mass> best;
    const auto look_at = [&](const PastSession& session) {
      for (const LoggedSet& set : session.sets) {
        const int done = set.reps.count() - (set.outcome == Outcome::missed ? 1 : 0);
        if (done < 1) continue;
        const Mass max = set.load / share(before, done);
        if (!best || *best < max) best = max;
      }
    };
    for (const PastSession& session : sessions_) {
      if (before - session.date <= lifter_->rules.recent_days) look_at(session);
    }
    if (!best && !sessions_.empty()) look_at(sessions_.back());
    if (today_) look_at(*today_);
    return best;
  }

  const Lifter* lifter_;
  Lift lift_;
  std::vector<PastSession> sessions_;
  std::optional<PastSession> today_{};
  std::optional<int> days_off_;
  std::optional<Mass> shown_max_{};
};

}  // namespace barwright::inline BARWRIGHT_ABI
