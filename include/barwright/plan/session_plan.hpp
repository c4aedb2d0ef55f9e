// barwright/plan/session_plan.hpp - what is asked of a session, and what is answered
//
// Plain data, for programs to show and to write down; session.hpp makes the one from the other.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/estimate.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plan/lifter.hpp"
#include "barwright/plan/load_rule.hpp"
#include "barwright/plan/loading.hpp"
#include "barwright/plan/recovery.hpp"
#include "barwright/plates/dumbbells.hpp"
#include "barwright/plates/plate_sets.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/caution.hpp"
#include "barwright/training/comeback.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/planned_week.hpp"
#include "barwright/training/spacing.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What the lifter says of pain today.
enum class Pain : unsigned char {
  as_logged,  ///< nothing: notes of the last sessions count
  none,       ///< none, or somebody qualified has looked
  yes,
};

/// What the lifter says of dizziness, chest pain and what else concerns the whole person. "It does
/// not hurt" is no answer to that.
enum class Unwell : unsigned char {
  as_logged,  ///< nothing: notes of the log count
  none,       ///< a doctor has looked into what was noted
  yes,
};

/// Lighter sets after the top set: what was common practice before there was a word for it.
struct BackOffs {
  Sets sets{2};
  double drop = 0.10;          ///< at least so much lighter than the top set, as a share: 0 to 0.5
  std::optional<Reps> reps{};  ///< else those of the top set
};

/// What is asked of a session.
struct SessionRequest {
  Lift lift;
  Date date;
  Sets sets{3};                                 ///< work sets
  Reps reps{6};                                 ///< in each
  RepsInReserve reserve{2.0};                   ///< to be left at the end of each
  std::optional<Reps> most_reps{};              ///< of a range of reps: from `reps` to these
  std::optional<RepsInReserve> most_reserve{};  ///< of a range to be left: from `reserve` to this
  std::optional<BackOffs> back_offs{};          ///< after them, lighter
  /// Of the last rep of any work set; `usual_bound` where none is asked for.
  std::optional<double> max_chance_of_missing{};
  Room room = plate_sets::gym_kg;
  std::optional<FixedLoads> dumbbells{};  ///< the usual rack where none is given
  std::optional<FixedLoads> stack{};  ///< of a machine with one; a usual one where none is given
  bool has_spotter = false;
  Safeties safeties = Safeties::none;
  Pain pain = Pain::as_logged;
  Unwell unwell = Unwell::as_logged;
  bool is_max_confirmed = false;  ///< a max or a log that was doubted is right

  /// The middle of the ranges asked for: what the load is planned by.
  [[nodiscard]] Reps aimed_reps() const {
    return most_reps ? Reps((reps.count() + most_reps->count()) / 2) : reps;
  }
  [[nodiscard]] RepsInReserve aimed_reserve() const {
    if (!most_reserve) return reserve;
    return RepsInReserve(static_cast<int>(reserve.count() + most_reserve->count()) / 2.0);
  }
  /// What the lift is loaded from where it is loaded with no bar.
  [[nodiscard]] const std::optional<FixedLoads>& fixed_loads() const noexcept {
    return lift.base().has_stack ? stack : dumbbells;
  }
};

/// What, changed alone, would lift one of the stops.
enum class Remedy : unsigned char {
  have_spotter,
  check_safeties,
  keep_reserve,     ///< leave what must be left alone: `least_reserve_alone`
  do_shorter_sets,  ///< so long a set is not done alone, whatever is left
  train_it_first,   ///< more sessions, with more reps and reserve, before a max attempt
  another_day,      ///< today has had what it can take
  correct_max,      ///< or leave it out
  correct_log,      ///< the sets that are doubted, their loads or their unit
  confirm_max,      ///< a max or a log that is doubted is right
  tell_outcome,     ///< write into the log whether the set was missed or completed
  have_pain_seen,
  see_doctor,  ///< of what concerns the whole person
  do_less,
};

[[nodiscard]] constexpr std::string_view name(Remedy remedy) noexcept {
  switch (remedy) {
    case Remedy::have_spotter: return "have_spotter";
    case Remedy::check_safeties: return "check_safeties";
    case Remedy::keep_reserve: return "keep_reserve";
    case Remedy::do_shorter_sets: return "do_shorter_sets";
    case Remedy::train_it_first: return "train_it_first";
    case Remedy::another_day: return "another_day";
    case Remedy::correct_max: return "correct_max";
    case Remedy::correct_log: return "correct_log";
    case Remedy::confirm_max: return "confirm_max";
    case Remedy::tell_outcome: return "tell_outcome";
    case Remedy::have_pain_seen: return "have_pain_seen";
    case Remedy::see_doctor: return "see_doctor";
    case Remedy::do_less: return "do_less";
  }
  return "";
}

/// Another load than the one planned, for the lifter or coach to choose.
struct Alternative {
  enum class Kind : unsigned char {
    step_below,
    step_above,
    as_asked,  ///< the reserve that was asked for, where the plan leaves more
  };
  Kind kind = Kind::step_below;
  LoadedWith with{};
  double reserve_left = 0.0;       ///< the likeliest, after the last work set
  double chance_of_missing = 0.0;  ///< in the work set likeliest to be missed
};

[[nodiscard]] constexpr std::string_view name(Alternative::Kind kind) noexcept {
  switch (kind) {
    case Alternative::Kind::step_below: return "step_below";
    case Alternative::Kind::step_above: return "step_above";
    case Alternative::Kind::as_asked: return "as_asked";
  }
  return "";
}

/// What the last sessions say about adding load.
enum class Progress : unsigned char {
  none,
  missed,          ///< a rep was missed last time
  exceeded,        ///< more was done and left than is asked for today
  exceeded_twice,  ///< by two or more, two sessions running
};

[[nodiscard]] constexpr std::string_view name(Progress progress) noexcept {
  switch (progress) {
    case Progress::none: return "none";
    case Progress::missed: return "missed";
    case Progress::exceeded: return "exceeded";
    case Progress::exceeded_twice: return "exceeded_twice";
  }
  return "";
}

/// The sets after the top ones.
struct BackOffPlan {
  PlannedSet set{};
  /// The likeliest, after the last of them; nothing where `SessionPlan::reserve_left` is nothing.
  std::optional<double> reserve_left{};
  std::optional<double> chance_of_missing{};  ///< the greatest of them; or nothing, too
};

/// The next heavier load.
struct NextStep {
  LoadedWith with{};
  bool is_short = false;  ///< no more than a tenth: else add reps first
};

/// The first session of a beginner of whom neither a log nor a max says anything: up by feel, from
/// the lightest load there is.
struct FirstSession {
  std::vector<LoadedWith> steps{};  ///< from the lightest on, a set with each
  int sets = 3;                     ///< with the load that was found, the first of them included
  RepsInReserve go_on_with{};       ///< so many left or more: the next step
  RepsInReserve go_back_below{};    ///< fewer left: the step before
};

/// One session.
struct SessionPlan {
  SessionRequest request;  ///< as it was asked

  // What to do. Empty under a stop, and where no work set is left.
  std::vector<PlannedSet> sets{};           ///< on the way up, then the work sets
  std::vector<Alternative> alternatives{};  ///< none after sets of today that went worse
  std::optional<BackOffPlan> back_offs{};   ///< after them; nothing in a session that is eased

  // What is planned of each work set, and why.
  int work_sets = 1;  ///< still to be done
  int sets_done = 0;  ///< of this session, by the log of the day or by what was said to `replan`
  Reps reps{1};
  std::optional<Reps> most_reps{};      ///< of a range: as many, as long as `reserve` is left
  RepsInReserve reserve{};              ///< stop every set with at least this many in reserve
  double max_chance_of_missing = 0.05;  ///< the bound that holds for every work set
  Mass wanted{};                        ///< the load before it is made to fit the room
  LimitedBy limited_by = LimitedBy::reserve;
  /// The last rep, of each work set; empty where sets of today went worse than what is known of the
  /// lifter lets expect: what it would say of the next ones, they have just contradicted.
  std::vector<double> chances_of_missing{};
  std::optional<Range<double>> reserve_left{};  ///< after the last work set, 90 %; or nothing, too

  // What it rests on.
  Estimate<Mass> base_max{0.0, 0.0};  ///< on the base lift, that day
  Estimate<Mass> max{0.0, 0.0};       ///< on the lift, that day, as practised as it is
  Range<Mass> max_by_catalogue{};     ///< on the lift, from the base lift and the catalogue
  int sets_of_lift = 0;               ///< of the log, that its ratio was learnt from
  int earlier_sessions = 0;
  std::optional<int> days_off{};               ///< since the last set of the lift in any variation
  std::optional<Introduction> introduction{};  ///< nothing for a lift that is not new
  int introduced = 0;                          ///< sessions of it that count: a gap takes some back
  std::optional<Comeback> comeback{};          ///< the way back from a layoff that the day is on
  /// Of a beginner: `sets` is the next set only, nothing is known of chances and maxes.
  std::optional<FirstSession> first_session{};
  Recovery recovery{};
  std::vector<LoggedSet> today{};  ///< sets of any lift that were done that day already

  // Before and after.
  std::optional<PastSession> last{};
  Progress progress = Progress::none;
  std::optional<NextStep> next{};  ///< nothing where there is nothing heavier

  // What must be said.
  std::vector<Caution> cautions{};             ///< gravest first
  std::vector<Remedy> remedies{};              ///< what would lift a stop
  std::optional<RepsInReserve> least_alone{};  ///< what Remedy::keep_reserve asks for

  [[nodiscard]] bool is_stopped() const noexcept {
    return !cautions.empty() && cautions.front().severity == Severity::stop;
  }
  /// The session of an introduction that this is.
  [[nodiscard]] const Exposure* exposure() const noexcept {
    if (!introduction) return nullptr;
    return &(*introduction)[static_cast<std::size_t>(introduced)];
  }
  /// All loads, from the first set to the back-offs.
  [[nodiscard]] std::vector<Mass> loads() const {
    std::vector<Mass> all;
    for (const PlannedSet& set : sets) all.push_back(set.with.load);
    if (back_offs) all.push_back(back_offs->set.with.load);
    return all;
  }
  /// The load of the work sets; zero where there are none.
  [[nodiscard]] Mass load() const noexcept { return sets.empty() ? Mass{} : sets.back().with.load; }
};

}  // namespace barwright::inline BARWRIGHT_ABI
