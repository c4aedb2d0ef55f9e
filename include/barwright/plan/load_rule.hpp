// barwright/plan/load_rule.hpp - what a lifter may have on the bar for one session, and why no more
//
// One rule for every planner, so that no two can disagree. It starts from what leaves the reserve
// asked for in the last work set, and takes the least of all that speaks for less:
//
//   the chance of missing   of every work set, whichever is the likeliest to be missed
//   the greatest rise       a load asks for a max, by the lifter's own curve; it asks for at most a
//                           tenth more than what went up in the last sessions asks for, whatever
//                           the reps and whatever chance of missing is allowed
//   the ratings             taken as they were said, those of the last sessions allow so much, and
//   a
//                           usual step more. What a lifter leaves unsaid the model learns from all
//                           their sets, easy ones with the hard; it is acted upon a step at a time
//   the usual curve         of whom only a max was stated, reps at a share of it are not known: no
//                           more than the base curve has
//   the layoff              after two weeks off, a tenth less, and more after a longer one
//   the last session        after a miss, or with nothing left, no more than that again
//   today                   after a miss, less than what was missed; with less left than asked for,
//                           what leaves it
//
// Each is a LoadLimit with its name. Which of them decides is for the planner to say, who knows
// what can be loaded.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <array>
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
  ratings,            ///< it asks for a step more than the last sessions' ratings say
  usual_curve,        ///< reps at a share of a stated max are not known of the lifter
  layoff,
  held_after_miss,     ///< a rep was missed in the last session
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
    case LimitedBy::ratings: return "ratings";
    case LimitedBy::usual_curve: return "usual_curve";
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

/// Whether a limit is what somebody said or what a curve has, and so no surer than what is to be
/// left.
[[nodiscard]] constexpr bool is_estimate(LimitedBy limit) noexcept {
  return limit == LimitedBy::ratings || limit == LimitedBy::usual_curve;
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
  LoadRule(const Lifter& lifter, const Lift& lift, Date before);

  /// The sessions of the lift before the first day planned for.
  [[nodiscard]] const std::vector<PastSession>& sessions() const noexcept { return sessions_; }
  [[nodiscard]] const std::optional<PastSession>& today() const noexcept { return today_; }
  /// Since the last set of the lift in any variation, that day's apart.
  [[nodiscard]] std::optional<int> days_since_last() const noexcept { return days_off_; }

  /// What leaves the reserve in the last work set: it is the hardest to leave it in.
  [[nodiscard]] Mass by_reserve(const WorkSets& work) const {
    constexpr double no_bound = 1.0 - 1e-6;
    return load_for(work, work.sets - 1, no_bound);
  }
  /// Which plates are worth a step at the loads of such sets, and in the warm-ups before them.
  [[nodiscard]] PlateRule plate_rule(const WorkSets& work) const;
  /// What is wanted on the first day planned for: what leaves the reserve, and no less than the
  /// last session says. Whoever left what was asked for is not answered by less, and whoever left
  /// more, by what those sets say: the model believes one session only in part, a coach who saw it
  /// does not hold the lifter back (common practice, no source). Every limit still holds.
  [[nodiscard]] Mass wanted(const WorkSets& work) const;
  /// What keeps every work set within the chance of missing, whatever is to be left.
  [[nodiscard]] Mass within_chance(const WorkSets& work) const;
  /// The chance of missing the last rep, in each of the work sets.
  [[nodiscard]] std::vector<double> chances_of_missing(const WorkSets& work, Mass load) const;
  /// The greatest of them.
  [[nodiscard]] double worst_chance(const WorkSets& work, Mass load) const;
  /// Reps left after the last work set: in 5, 50 and 95 of 100 cases at least so many fewer.
  [[nodiscard]] Range<double> reserve_left(const WorkSets& work, Mass load) const;
  /// The middle one alone.
  [[nodiscard]] double likeliest_left(const WorkSets& work, Mass load) const;

  /// Whether a set of today was missed or left less than asked for: what the log promises of the
  /// next ones is too much.
  [[nodiscard]] bool went_worse_today(const WorkSets& work) const {
    std::vector<LoadLimit> limits;
    if (today_) {
      for (const LoggedSet& set : today_->sets) add_today(limits, set, work);
    }
    return !limits.empty();
  }

  /// Whether a set says of its day what a miss would: even with a rep more left than was said, what
  /// leaves the reserve is a step back below what the log would have (`step_back_after_miss`).
  [[nodiscard]] bool is_hard_for_its_load(const LoggedSet& set, const WorkSets& work) const;

  /// A tenth more than was shown, for so many reps; nothing where nothing was. Of a lift never
  /// done, in a log whose ratings are not clear, what its other variations showed, for the reps and
  /// those to be left.
  [[nodiscard]] std::optional<LoadLimit> greatest_rise(const WorkSets& work) const;

  /// What the heaviest sets of the last sessions say by their ratings, as they were said, and a
  /// usual step more (`step_up`); nothing where none was rated. The best of them counts: one bad
  /// day holds nobody back.
  [[nodiscard]] std::optional<LoadLimit> by_ratings(const WorkSets& work) const;

  /// What the base curve has for the reps and those to be left, of a max that was stated, where no
  /// set tells what the lifter's own curve is; nothing where some do.
  [[nodiscard]] std::optional<LoadLimit> by_usual_curve(const WorkSets& work) const;

  /// What the way back from a layoff allows: a share below what would be usual for the reserve
  /// asked for. Before the first session back that is what was usual when the layoff began: what
  /// the layoff cost is not taken off twice.
  [[nodiscard]] LoadLimit layoff(const WorkSets& work, const Comeback& back) const;

  /// What of the equipment to take where `wanted` is wanted: the nearest load there is, but no
  /// heavier one that a limit forbids or that would leave too little (`rounding_reserve`).
  /// Nothing where all are too heavy. Common practice, no source: 0.2 kg is not worth a plate.
  [[nodiscard]] std::optional<LoadedWith> nearest(const Equipment& equipment, const WorkSets& work,
                                                  Mass wanted,
                                                  const std::vector<LoadLimit>& limits) const;

  /// All that speaks for less than the reserve, on the first day planned for.
  [[nodiscard]] std::vector<LoadLimit> limits(const WorkSets& work) const;

 private:
  [[nodiscard]] Mass load_for(const WorkSets& work, int set, double bound) const;
  [[nodiscard]] double share(Date date, double reps) const {
    return lifter_->strength->share_of_max(lift_, date, reps);
  }
  /// Of one load in the last work set: the chance of missing with so many reps, once it was asked.
  using ChancesByReps = std::array<std::optional<double>, Reps::most + 1>;
  /// Reps left after the last work set, that many more missed with this chance.
  [[nodiscard]] double left_in(const WorkSets& work, Mass load, double chance,
                               ChancesByReps& known) const;
  /// The load that asks for as much as a set did, for the reps planned.
  [[nodiscard]] Mass for_reps(const LoggedSet& set, const WorkSets& work) const {
    if (set.reps == work.reps) return set.load;
    return set.load * (share(work.date, work.reps.count()) / share(work.date, set.reps.count()));
  }

  /// The load of the last session, where it had as many sets and reps and left as much, and no set
  /// of today says otherwise.
  [[nodiscard]] std::optional<Mass> done_as_asked(const WorkSets& work) const;

  /// The load that leaves what is asked for, read off the hardest work set of the last session by
  /// the lifter's own curve; nothing unless every one of them left a rep more than asked for now. A
  /// rating counts for no more than `most_counted_reserve`.
  [[nodiscard]] std::optional<Mass> by_last_session(const WorkSets& work) const;

  [[nodiscard]] static std::optional<LimitedBy> held_by(const LoggedSet& set) noexcept;

  void add_today(std::vector<LoadLimit>& limits, const LoggedSet& set, const WorkSets& work) const;

  /// Reps beyond which a set shows no more of a shorter one: where the curve is flat, fifty would
  /// show twice their load.
  [[nodiscard]] int telling_reps() const noexcept {
    return static_cast<int>(lifter_->rules.most_telling_retest);
  }
  /// The best of the last weeks and of today; of the last session, where it is longer ago.
  /// @param most_reps  that a set counts for
  [[nodiscard]] std::optional<Mass> find_shown_max(int most_reps) const;
  /// The same of a lift never done, by the plain lift and its other variations.
  [[nodiscard]] std::optional<Mass> find_max_shown_elsewhere(int most_reps) const;

  const Lifter* lifter_;
  Lift lift_;
  Date before_;
  std::vector<PastSession> sessions_;
  std::optional<PastSession> today_{};
  std::optional<int> days_off_;
  std::optional<Mass> shown_max_{};
  /// Where it is not clear what the ratings are, other variations have to show what a lift that was
  /// never done may start with.
  bool is_shown_elsewhere_ = false;
};

}  // namespace barwright::inline BARWRIGHT_ABI

#if !__has_include("barwright/compiled.hpp")
#include "barwright/plan/load_rule.ipp"
#endif
