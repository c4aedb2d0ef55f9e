// barwright/training/week.hpp - what a week asks of each muscle, what is too close together, a
// better order
//
// A week is a list of sessions on days, each a list of lifts with sets, repetitions and reserve.
// Four questions are answered of it:
//
//   fractional_sets    how much each muscle group gets: 1 a set where it works directly, one half
//                      where it helps (published)
//   spacing_conflicts  which groups are trained hard again before 48 hours have passed, or 72 after
//                      failure (inferred from published recovery)
//   overlap            how many sets two close days ask of the same muscles, and how many of those
//                      lie between upper- and lower-body lifts (this library's measure)
//   best_order, swaps  which order of the days, and which variation of a lift, has less of both
//
//     std::vector<PlannedSession> week{
//         {.day = Weekday::monday, .lifts = {{lifts::bench_press, 4_sets, 6_reps, 2_rir}}},
//         {.day = Weekday::tuesday, .lifts = {{lifts::squat, 5_sets, 5_reps, 0_rir}}},
//         {.day = Weekday::wednesday, .lifts = {{lifts::deadlift, 3_sets, 5_reps, 1_rir}}},
//         {.day = Weekday::friday, .rating = SessionRating(6, 80)}};  // on the water, 80 minutes
//     for (const SpacingConflict& conflict : spacing_conflicts(week)) show(to_text(conflict));
//     const DayOrder order = best_order(week, {}, {.fixed = {true}});  // Monday stays
//     if (order.moved > 0) week = reordered(week, order);
//
// Overlap runs through shared muscles only. A pooled analysis of 278 effects found no general
// fatigue of muscles that did not work, so none is assumed unless asked for. Whether a hard squat
// day costs anything on the bench next day nobody has published. Lower back, trunk, hips and legs
// brace a press, by arch and leg drive; that is counted apart from lifting, weighs little in the
// overlap, and moves no day (`bracing_source`).
//
// A day is the unit: its sessions count together, and hours are whole days of 24. Sessions without
// lifts - rowing, running, a match - have no muscle groups here: they count in the load of their
// day, and in neither spacing nor overlap.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/detail/literal.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/core/source.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/lifts/variation.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/training/training_load.hpp"

namespace barwright::inline BARWRIGHT_ABI {

// ---- the plan of a week ------------------------------------------------------------------------

/// A day of the week; Monday is 0, as in Date::weekday.
enum class Weekday : unsigned char {
  monday,
  tuesday,
  wednesday,
  thursday,
  friday,
  saturday,
  sunday,
};

inline constexpr std::array all_weekdays{Weekday::monday,   Weekday::tuesday, Weekday::wednesday,
                                         Weekday::thursday, Weekday::friday,  Weekday::saturday,
                                         Weekday::sunday};

[[nodiscard]] constexpr std::string_view to_text(Weekday day) noexcept {
  switch (day) {
    case Weekday::monday: return "Monday";
    case Weekday::tuesday: return "Tuesday";
    case Weekday::wednesday: return "Wednesday";
    case Weekday::thursday: return "Thursday";
    case Weekday::friday: return "Friday";
    case Weekday::saturday: return "Saturday";
    case Weekday::sunday: return "Sunday";
  }
  return "";
}

[[nodiscard]] constexpr Weekday weekday_of(Date date) noexcept {
  return static_cast<Weekday>(date.weekday());
}

/// Sets of one lift in one session: a whole number from 1 to 50.
class Sets {
 public:
  static constexpr int most = 50;

  /// @throws DomainError unless 1 <= count <= 50.
  constexpr explicit Sets(int count) : count_(count) {
    if (!is_valid(count)) {
      detail::fail("sets", "a whole number from 1 to 50", static_cast<double>(count));
    }
  }
  [[nodiscard]] static constexpr bool is_valid(int count) noexcept {
    return 1 <= count && count <= most;
  }

  [[nodiscard]] constexpr int count() const noexcept { return count_; }
  friend constexpr auto operator<=>(Sets, Sets) noexcept = default;

 private:
  int count_;
};

namespace literals {

template <char... Characters>
[[nodiscard]] constexpr Sets operator""_sets() noexcept {
  constexpr Sets sets(detail::whole<Characters...>());
  return sets;
}

}  // namespace literals

/// One lift of a session. Warm-up sets are not counted.
struct PlannedLift {
  Lift lift;
  Sets sets;
  Reps reps;
  RepsInReserve reserve;       ///< the least left in any set; 0 is failure
  std::optional<Mass> load{};  ///< where it is known
};

/// What is done in one go; a day may have several.
struct PlannedSession {
  Weekday day = Weekday::monday;
  std::vector<PlannedLift> lifts{};  ///< none for a row, a run or a match
  std::optional<SessionRating> rating{};
};

// ---- sets for each muscle group ----------------------------------------------------------------

inline constexpr Source fractional_sets_source{
    .citation = "Pelland et al. 2024, The resistance training dose-response, preprint, SportRxiv",
    .population = "67 studies, 2058 people",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "abstract; a preprint; counting direct sets as 1 and indirect as one half fitted "
        "size and strength better than counting indirect sets as 1 or 0. Which lift counts for "
        "which muscle is common practice"};

inline constexpr Source bracing_source = assumption(
    "what a press asks of lower back, trunk, hips and legs - arch, leg drive, standing still under "
    "the bar - is held and not lifted: it is no set for them, counts one tenth of one in the "
    "overlap, moves no day and makes no conflict. No study of it was found");

/// Whether a set of `lift` asks this group to brace: to hold still for a press, not to lift.
[[nodiscard]] constexpr bool is_bracing(const Lift& lift, MuscleGroup group) noexcept {
  const LiftFamily family = lift.base().family;
  if (family != LiftFamily::horizontal_press && family != LiftFamily::overhead_press) return false;
  switch (group) {
    case MuscleGroup::lower_back:
    case MuscleGroup::trunk:
    case MuscleGroup::glutes:
    case MuscleGroup::quadriceps:
    case MuscleGroup::hamstrings:
    case MuscleGroup::calves:
    case MuscleGroup::hip_flexors: return lift.muscles()[group] == Involvement::indirect;
    default: return false;
  }
}

/// Sets counted for each muscle group, exactly: halves are not rounded.
class FractionalSets {
 public:
  constexpr FractionalSets() noexcept = default;  ///< none

  [[nodiscard]] constexpr double operator[](MuscleGroup group) const noexcept {
    return sets_from(parts(group));
  }
  [[nodiscard]] constexpr double total() const noexcept { return sets_from(total_parts()); }

  constexpr FractionalSets& operator+=(const FractionalSets& other) noexcept {
    for (std::size_t i = 0; i < parts_.size(); ++i) parts_[i] += other.parts_[i];
    return *this;
  }
  friend constexpr FractionalSets operator+(FractionalSets a, const FractionalSets& b) noexcept {
    return a += b;
  }
  friend constexpr bool operator==(const FractionalSets&, const FractionalSets&) noexcept = default;

  // The count itself, in whole parts of a set: sums and comparisons stay exact.

  /// A half set is 100 parts, so that one per cent of one can be counted too.
  static constexpr int parts_per_set = 200;

  [[nodiscard]] constexpr std::int64_t parts(MuscleGroup group) const noexcept {
    return parts_[static_cast<std::size_t>(group)];
  }
  [[nodiscard]] constexpr std::int64_t total_parts() const noexcept {
    std::int64_t sum = 0;
    for (const std::int64_t part : parts_) sum += part;
    return sum;
  }
  constexpr void add_parts(MuscleGroup group, std::int64_t count) noexcept {
    parts_[static_cast<std::size_t>(group)] += count;
  }
  /// Counts `sets` sets of a lift that asks this of each group.
  constexpr void add(const Muscles& muscles, int sets) noexcept {
    for (const MuscleGroup group : all_muscle_groups) {
      add_parts(group, static_cast<std::int64_t>(sets) * static_cast<int>(muscles[group]) *
                           (parts_per_set / 2));
    }
  }
  /// Counts `sets` sets of a lift but for the groups that only brace, and those as so many per cent
  /// of a set.
  constexpr void add(const Lift& lift, int sets, int bracing_percent) noexcept {
    const Muscles muscles = lift.muscles();
    for (const MuscleGroup group : all_muscle_groups) {
      const int parts = is_bracing(lift, group)
                            ? bracing_percent * (parts_per_set / 100)
                            : static_cast<int>(muscles[group]) * (parts_per_set / 2);
      add_parts(group, static_cast<std::int64_t>(sets) * parts);
    }
  }

 private:
  [[nodiscard]] static constexpr double sets_from(std::int64_t parts) noexcept {
    return static_cast<double>(parts) / parts_per_set;
  }

  std::array<std::int64_t, all_muscle_groups.size()> parts_{};
};

static_assert(fraction_of_set(Involvement::direct) == 1.0 &&
              fraction_of_set(Involvement::indirect) == 0.5);

/// The whole sets in which a muscle group worked directly, helped, or only braced.
struct GroupSets {
  int direct = 0;
  int indirect = 0;
  int bracing = 0;  ///< in neither of the others

  /// What the published count makes of it; bracing is left out.
  [[nodiscard]] constexpr double fractional() const noexcept { return direct + 0.5 * indirect; }
};

/// What a week of sessions asks of one muscle group, set by set.
[[nodiscard]] constexpr GroupSets group_sets(std::span<const PlannedSession> sessions,
                                             MuscleGroup group) noexcept {
  GroupSets sets;
  for (const PlannedSession& session : sessions) {
    for (const PlannedLift& planned : session.lifts) {
      const int count = planned.sets.count();
      switch (planned.lift.muscles()[group]) {
        case Involvement::none: break;
        case Involvement::direct: sets.direct += count; break;
        case Involvement::indirect:
          (is_bracing(planned.lift, group) ? sets.bracing : sets.indirect) += count;
          break;
      }
    }
  }
  return sets;
}

/// What one session gives each muscle group, bracing left out.
[[nodiscard]] constexpr FractionalSets fractional_sets(const PlannedSession& session) noexcept {
  FractionalSets sets;
  for (const PlannedLift& planned : session.lifts) {
    sets.add(planned.lift, planned.sets.count(), 0);
  }
  return sets;
}

/// What a week of sessions gives each muscle group, bracing left out.
[[nodiscard]] constexpr FractionalSets fractional_sets(
    std::span<const PlannedSession> sessions) noexcept {
  FractionalSets sets;
  for (const PlannedSession& session : sessions) sets += fractional_sets(session);
  return sets;
}

// ---- tonnage and load --------------------------------------------------------------------------

/// What was lifted altogether, load times repetitions.
struct Tonnage {
  Mass sum{};
  int lifts_without_load = 0;  ///< not in the sum
};

[[nodiscard]] constexpr Tonnage tonnage(std::span<const PlannedSession> sessions) {
  Tonnage result;
  for (const PlannedSession& session : sessions) {
    for (const PlannedLift& planned : session.lifts) {
      if (planned.load) {
        result.sum += *planned.load * (1.0 * planned.sets.count() * planned.reps.count());
      } else {
        ++result.lifts_without_load;
      }
    }
  }
  return result;
}

namespace detail {

/// 0 to 6. An enum can be made to hold anything, an array cannot.
[[nodiscard]] constexpr std::size_t index_of(Weekday day) {
  const auto index = static_cast<std::size_t>(day);
  if (index >= all_weekdays.size()) {
    fail("a day of the week", "0 (Monday) to 6 (Sunday)", static_cast<double>(index));
  }
  return index;
}

}  // namespace detail

/// The session loads of each day, Monday first, for `summarise`.
struct DailyLoads {
  std::array<double, 7> loads{};
  int sessions_without_rating = 0;  ///< counted as no load: with any, monotony means little
};

[[nodiscard]] constexpr DailyLoads daily_loads(std::span<const PlannedSession> sessions) {
  DailyLoads result;
  for (const PlannedSession& session : sessions) {
    if (session.rating) {
      result.loads[detail::index_of(session.day)] += session_load(*session.rating);
    } else {
      ++result.sessions_without_rating;
    }
  }
  return result;
}

// ---- how close is too close --------------------------------------------------------------------

inline constexpr Source spacing_source{
    .citation =
        "Belcher et al. 2019, Appl Physiol Nutr Metab 44(10):1033-1042; Moran-Navarro et "
        "al. 2017, Eur J Appl Physiol 117(12):2387-2399; Madsen & Bosak 2014 and Mitchell "
        "et al. 2014, Med Sci Sports Exerc 46(5 Suppl), abstracts 1462 and 1457",
    .population = "12 and 10 trained men, 13 women, 18 adolescents; squat, bench press, deadlift",
    .evidence = Evidence::assumption,
    .reading = Reading::read,
    .note =
        "abstracts or summaries of them; after sets to failure the bench press was no longer "
        "significantly slower on the next day and the squat was for up to 72 hours (Belcher), "
        "maxes were down at 24 hours and not at 48 (Madsen), about half had their bench press "
        "back at 24 to 72 hours (Mitchell), and failure slowed recovery by 24 to 48 hours "
        "(Moran-Navarro). The split of 48 and 72, and what counts as hard, are inferred"};

inline constexpr Source cross_muscle_source{
    .citation = "Behm et al. 2021, Sports Med 51(9):1893-1907",
    .population = "278 effects in 50 clusters of studies, measured minutes after the work",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "abstract; the pooled effect on muscles that did not work is -0.02 (-0.14 to 0.09): no "
        "general effect, perhaps one on endurance. No study of the next day was found"};

inline constexpr Source overlap_source = assumption(
    "the smaller of two days' fractional sets for a muscle group, where the days are closer than "
    "the hours wanted between them; the counting of sets is published (Pelland 2024, preprint), "
    "the overlap is this library's own measure and has been held against no outcome");

inline constexpr Source order_source = assumption(
    "by how much the heaviest day may grow, that days of rest stay, and below what gain an order "
    "is not worth moving for, are this library's choices and can be set");

/// When two days are too close. The defaults are explained by `spacing_source`.
struct SpacingRule {
  int hours_between = 48;        ///< wanted between hard sessions of a muscle group
  int hours_after_failure = 72;  ///< wanted when the earlier one went to failure
  /// A set that leaves at most this many is hard (assumption).
  RepsInReserve most_reserve_of_hard_set{3.0};
  /// What a hard set must ask of a group for its spacing to count. Sets that only help are left to
  /// the overlap: the recovery studies trained and tested the same lift.
  Involvement least_involvement = Involvement::direct;
  /// Whether Sunday is followed by the same week's Monday.
  bool week_repeats = true;
  /// What a set counts in the overlap for a group that only braced, in per cent; one half, as for a
  /// group that helps, would be 50 (`bracing_source`).
  int bracing_percent = 10;
  /// How much of each set the muscles that did not work are taken to feel in the overlap, in per
  /// cent. None by default, as the pooled evidence finds none (`cross_muscle_source`).
  int cross_muscle_percent = 0;
};

namespace detail {

inline constexpr std::size_t group_count = all_muscle_groups.size();
inline constexpr int days_in_week = 7;

constexpr void require_rule(const SpacingRule& rule) {
  if (!(0 <= rule.hours_between && rule.hours_between <= 168)) {
    fail("the hours between hard sessions", "a whole number from 0 to 168",
         static_cast<double>(rule.hours_between));
  }
  if (!(rule.hours_between <= rule.hours_after_failure && rule.hours_after_failure <= 168)) {
    fail("the hours after failure", "at least the hours between hard sessions, at most 168",
         static_cast<double>(rule.hours_after_failure));
  }
  if (!(0 <= rule.bracing_percent && rule.bracing_percent <= 100)) {
    fail("the per cent of a set that bracing counts", "a whole number from 0 to 100",
         static_cast<double>(rule.bracing_percent));
  }
  if (!(0 <= rule.cross_muscle_percent && rule.cross_muscle_percent <= 100)) {
    fail("the per cent of a set that other muscles feel", "a whole number from 0 to 100",
         static_cast<double>(rule.cross_muscle_percent));
  }
}

/// What was done in one half of the body.
struct Work {
  FractionalSets lifted{};
  FractionalSets with_bracing{};  ///< the same and what bracing counts
  std::int64_t sets_done = 0;

  constexpr void add(const Lift& lift, int count, int bracing_percent) noexcept {
    lifted.add(lift, count, 0);
    with_bracing.add(lift, count, bracing_percent);
    sets_done += count;
  }
  [[nodiscard]] constexpr const FractionalSets& sets(bool counts_bracing) const noexcept {
    return counts_bracing ? with_bracing : lifted;
  }
  /// The parts of a set this group feels of it.
  [[nodiscard]] constexpr std::int64_t felt(MuscleGroup group, int percent,
                                            bool counts_bracing) const noexcept {
    return std::max(sets(counts_bracing).parts(group),
                    sets_done * percent * (FractionalSets::parts_per_set / 100));
  }
};

/// Whether a hard set of `lift`, which works `muscles`, asks enough of a group to be spaced.
[[nodiscard]] constexpr bool asks_enough(const Lift& lift, const Muscles& muscles,
                                         MuscleGroup group, const SpacingRule& rule) noexcept {
  return muscles[group] != Involvement::none && muscles[group] >= rule.least_involvement &&
         !is_bracing(lift, group);
}

[[nodiscard]] constexpr bool counts_as_hard(const PlannedLift& planned,
                                            const SpacingRule& rule) noexcept {
  return planned.reserve <= rule.most_reserve_of_hard_set;
}
[[nodiscard]] constexpr bool goes_to_failure(const PlannedLift& planned) noexcept {
  return planned.reserve == RepsInReserve(0.0);
}

/// What was done on one day, as far as the days around it are concerned.
struct DayWork {
  std::array<Work, 2> all{};         ///< by Region
  std::array<Work, 2> to_failure{};  ///< those of them that went to failure
  std::array<bool, group_count> is_hard{};
  std::array<bool, group_count> is_hard_to_failure{};
  bool has_lifts = false;

  constexpr void add(const Lift& lift, int sets, bool is_hard_set, bool is_to_failure,
                     const SpacingRule& rule) noexcept {
    const auto region = static_cast<std::size_t>(lift.base().region);
    all[region].add(lift, sets, rule.bracing_percent);
    if (is_to_failure) to_failure[region].add(lift, sets, rule.bracing_percent);
    if (!is_hard_set) return;
    const Muscles muscles = lift.muscles();
    for (const MuscleGroup group : all_muscle_groups) {
      const auto i = static_cast<std::size_t>(group);
      if (!asks_enough(lift, muscles, group, rule)) continue;
      is_hard[i] = true;
      if (is_to_failure) is_hard_to_failure[i] = true;
    }
  }
  constexpr void add(const PlannedLift& planned, const SpacingRule& rule) noexcept {
    add(planned.lift, planned.sets.count(), counts_as_hard(planned, rule), goes_to_failure(planned),
        rule);
  }
};

using WeekWork = std::array<DayWork, days_in_week>;

[[nodiscard]] constexpr WeekWork work_of(std::span<const PlannedSession> sessions,
                                         const SpacingRule& rule) {
  require_rule(rule);
  WeekWork days;
  for (const PlannedSession& session : sessions) {
    DayWork& day = days[index_of(session.day)];
    if (!session.lifts.empty()) day.has_lifts = true;
    for (const PlannedLift& planned : session.lifts) day.add(planned, rule);
  }
  return days;
}

/// Calls `visit(earlier, later, hours)` for every two days of a week, in order of the earlier.
template <class Visitor>
constexpr void for_each_pair(bool week_repeats, Visitor visit) {
  for (int earlier = 0; earlier < days_in_week; ++earlier) {
    for (int apart = 1; apart < days_in_week; ++apart) {
      const int later = earlier + apart;
      if (later >= days_in_week && !week_repeats) break;
      visit(static_cast<std::size_t>(earlier), static_cast<std::size_t>(later % days_in_week),
            24 * apart);
    }
  }
}

/// The hours wanted between two days for one muscle group; 0 when they do not both train it hard.
[[nodiscard]] constexpr int hours_wanted(const DayWork& earlier, const DayWork& later,
                                         std::size_t group, const SpacingRule& rule) noexcept {
  if (!earlier.is_hard[group] || !later.is_hard[group]) return 0;
  return earlier.is_hard_to_failure[group] ? rule.hours_after_failure : rule.hours_between;
}

/// The lifts of the hard sets of some days: who is to be named when two days are too close.
class HardLifts {
 public:
  void add(std::size_t day, const Lift& lift, bool is_to_failure) {
    for (const Entry& entry : entries_) {
      if (entry.day == day && entry.is_to_failure == is_to_failure && entry.lift.same_as(lift))
        return;
    }
    entries_.push_back({.day = day, .lift = lift, .is_to_failure = is_to_failure});
  }
  /// Those that ask enough of `group`, in the order they were added; of the earlier day after
  /// failure only those that went to it.
  [[nodiscard]] std::vector<Lift> on(std::size_t day, MuscleGroup group, bool to_failure_only,
                                     const SpacingRule& rule) const {
    std::vector<Lift> lifts;
    for (const Entry& entry : entries_) {
      if (entry.day != day || (to_failure_only && !entry.is_to_failure)) continue;
      if (!asks_enough(entry.lift, entry.lift.muscles(), group, rule)) continue;
      if (!entry.lift.is_among(lifts)) lifts.push_back(entry.lift);
    }
    return lifts;
  }

 private:
  struct Entry {
    std::size_t day;
    Lift lift;
    bool is_to_failure;
  };
  std::vector<Entry> entries_{};
};

}  // namespace detail

/// A muscle group trained hard on two days that are too close.
struct SpacingConflict {
  MuscleGroup group = MuscleGroup::chest;
  Weekday earlier = Weekday::monday;
  Weekday later = Weekday::monday;
  int hours = 0;                      ///< between them
  int hours_wanted = 0;               ///< more than `hours`
  bool after_failure = false;         ///< the earlier day took it to failure
  std::vector<Lift> earlier_lifts{};  ///< that did so, or trained it hard
  std::vector<Lift> later_lifts{};    ///< that train it hard again

  friend bool operator==(const SpacingConflict&, const SpacingConflict&) noexcept = default;
};

/// "bench press, feet up; dip"; of more than three the others are counted.
[[nodiscard]] inline BasicText<511> to_text(std::span<const Lift> lifts) noexcept {
  constexpr std::size_t most = 3;
  BasicText<511> text;
  for (std::size_t i = 0; i < lifts.size() && i < most; ++i) {
    text.append(i > 0 ? "; " : "").append(lifts[i].name());
  }
  if (lifts.size() > most) {
    text.append(" and ").append(static_cast<int>(lifts.size() - most)).append(" more");
  }
  return text;
}

/// "chest: hard on Monday (bench press) and again on Tuesday (dip), 24 hours later; 48 wanted"
[[nodiscard]] inline BasicText<1023> to_text(const SpacingConflict& conflict) noexcept {
  BasicText<1023> text;
  const auto append_day = [&](Weekday day, const std::vector<Lift>& lifts) noexcept {
    text.append(to_text(day));
    if (!lifts.empty()) text.append(" (").append(to_text(lifts)).append(")");
  };
  text.append(to_text(conflict.group))
      .append(conflict.after_failure ? ": to failure on " : ": hard on ");
  append_day(conflict.earlier, conflict.earlier_lifts);
  text.append(" and ").append(conflict.after_failure ? "hard again on " : "again on ");
  append_day(conflict.later, conflict.later_lifts);
  text.append(", ").append(conflict.hours);
  return text.append(" hours later; ").append(conflict.hours_wanted).append(" wanted");
}

/// Every muscle group trained hard again too soon, in order of the earlier day, the later day, and
/// the groups.
/// @throws DomainError unless the rule's hours are 0 to 168, those after failure not the fewer, and
///   its per cents 0 to 100.
[[nodiscard]] inline std::vector<SpacingConflict> spacing_conflicts(
    std::span<const PlannedSession> sessions, const SpacingRule& rule = {}) {
  const detail::WeekWork days = detail::work_of(sessions, rule);
  detail::HardLifts lifts;
  for (const PlannedSession& session : sessions) {
    for (const PlannedLift& planned : session.lifts) {
      if (!detail::counts_as_hard(planned, rule)) continue;
      lifts.add(detail::index_of(session.day), planned.lift, detail::goes_to_failure(planned));
    }
  }
  std::vector<SpacingConflict> conflicts;
  detail::for_each_pair(rule.week_repeats, [&](std::size_t earlier, std::size_t later, int hours) {
    for (const MuscleGroup group : all_muscle_groups) {
      const auto i = static_cast<std::size_t>(group);
      const int wanted = detail::hours_wanted(days[earlier], days[later], i, rule);
      if (hours >= wanted) continue;
      const bool after_failure = days[earlier].is_hard_to_failure[i];
      conflicts.push_back({group, all_weekdays[earlier], all_weekdays[later], hours, wanted,
                           after_failure, lifts.on(earlier, group, after_failure, rule),
                           lifts.on(later, group, false, rule)});
    }
  });
  return conflicts;
}

/// The muscle groups that today's lifts train hard too soon after what a log holds of the days
/// before; most recent day first. Sets of today, of later days and of a week ago and more are left
/// aside.
///
/// A set without a rating counts as hard but not as taken to failure; a missed one went to failure.
/// @param log  any range of LoggedSet, in any order
template <class Log>
[[nodiscard]] std::vector<SpacingConflict> spacing_conflicts(const Log& log,
                                                             std::span<const PlannedLift> today,
                                                             Date date,
                                                             const SpacingRule& rule = {}) {
  detail::require_rule(rule);
  detail::WeekWork days_ago;
  detail::HardLifts lifts;
  for (const LoggedSet& set : log) {
    const int age = date - set.date;
    if (age < 1 || age >= detail::days_in_week) continue;
    const auto day = static_cast<std::size_t>(age);
    const bool missed = set.outcome == Outcome::missed;
    const bool is_hard =
        missed || !set.reserve || set.reserve->typical <= rule.most_reserve_of_hard_set;
    const bool is_to_failure =
        missed || (set.reserve && set.reserve->typical == RepsInReserve(0.0));
    days_ago[day].add(set.lift, 1, is_hard, is_to_failure, rule);
    if (is_hard) lifts.add(day, set.lift, is_to_failure);
  }
  detail::DayWork now;
  for (const PlannedLift& planned : today) {
    now.add(planned, rule);
    if (detail::counts_as_hard(planned, rule))
      lifts.add(0, planned.lift, detail::goes_to_failure(planned));
  }
  std::vector<SpacingConflict> conflicts;
  for (std::size_t day = 1; day < days_ago.size(); ++day) {
    const detail::DayWork& then = days_ago[day];
    const int age = static_cast<int>(day);
    for (const MuscleGroup group : all_muscle_groups) {
      const auto i = static_cast<std::size_t>(group);
      const int wanted = detail::hours_wanted(then, now, i, rule);
      if (24 * age >= wanted) continue;
      const bool after_failure = then.is_hard_to_failure[i];
      conflicts.push_back({group, weekday_of(date - age), weekday_of(date), 24 * age, wanted,
                           after_failure, lifts.on(day, group, after_failure, rule),
                           lifts.on(0, group, false, rule)});
    }
  }
  return conflicts;
}

// ---- overlap -----------------------------------------------------------------------------------

/// The sets two days ask of the same muscles.
struct DayOverlap {
  Weekday earlier = Weekday::monday;
  Weekday later = Weekday::monday;
  int hours = 0;                             ///< between them
  FractionalSets shared{};                   ///< by muscle group
  FractionalSets between_upper_and_lower{};  ///< the part of it between lifts of different Region
  FractionalSets by_bracing{};  ///< the part of it that bracing brings, weighed as the rule says
};

/// The overlap of a week: its sums, and each pair of days that has any.
struct WeekOverlap {
  FractionalSets shared{};
  FractionalSets between_upper_and_lower{};
  FractionalSets by_bracing{};
  std::vector<DayOverlap> days{};
};

namespace detail {

[[nodiscard]] constexpr DayOverlap overlap_of(const DayWork& earlier, const DayWork& later,
                                              int hours, const SpacingRule& rule) noexcept {
  DayOverlap result;
  if (hours >= rule.hours_after_failure) return result;
  const std::array<Work, 2>& before = hours < rule.hours_between ? earlier.all : earlier.to_failure;
  constexpr auto upper = static_cast<std::size_t>(Region::upper_body);
  constexpr auto lower = static_cast<std::size_t>(Region::lower_body);
  for (const MuscleGroup group : all_muscle_groups) {
    const auto shared = [&](bool counts_bracing, bool across_only) noexcept {
      const int percent = rule.cross_muscle_percent;
      const std::int64_t upper_before = before[upper].felt(group, percent, counts_bracing);
      const std::int64_t lower_before = before[lower].felt(group, percent, counts_bracing);
      const std::int64_t upper_after = later.all[upper].sets(counts_bracing).parts(group);
      const std::int64_t lower_after = later.all[lower].sets(counts_bracing).parts(group);
      return across_only ? std::min(upper_before, lower_after) + std::min(lower_before, upper_after)
                         : std::min(upper_before + lower_before, upper_after + lower_after);
    };
    result.shared.add_parts(group, shared(true, false));
    result.between_upper_and_lower.add_parts(group, shared(true, true));
    result.by_bracing.add_parts(group, shared(true, false) - shared(false, false));
  }
  return result;
}

/// Conflicts and overlap of two days or a whole week, conflicts first; exact, so that equal is
/// equal.
class Closeness {
 public:
  constexpr Closeness() noexcept = default;  ///< none of either
  constexpr Closeness(const DayWork& earlier, const DayWork& later, int hours,
                      const SpacingRule& rule) noexcept {
    for (std::size_t group = 0; group < group_count; ++group) {
      if (hours < hours_wanted(earlier, later, group, rule)) value_ += one_conflict;
    }
    value_ += overlap_of(earlier, later, hours, rule).shared.total_parts();
  }
  [[nodiscard]] static constexpr Closeness most() noexcept {
    Closeness result;
    result.value_ = std::numeric_limits<std::int64_t>::max();
    return result;
  }

  [[nodiscard]] constexpr int conflicts() const noexcept {
    return static_cast<int>(value_ / one_conflict);
  }
  [[nodiscard]] constexpr std::int64_t overlap_parts() const noexcept {
    return value_ % one_conflict;
  }
  [[nodiscard]] constexpr double overlap() const noexcept {
    return static_cast<double>(overlap_parts()) / FractionalSets::parts_per_set;
  }

  constexpr Closeness& operator+=(Closeness other) noexcept {
    value_ += other.value_;
    return *this;
  }
  friend constexpr Closeness operator+(Closeness a, Closeness b) noexcept { return a += b; }
  friend constexpr auto operator<=>(Closeness, Closeness) noexcept = default;

 private:
  static constexpr std::int64_t one_conflict = std::int64_t{1} << 40;  // above any overlap

  std::int64_t value_ = 0;
};

[[nodiscard]] constexpr Closeness closeness_of(const WeekWork& days,
                                               const SpacingRule& rule) noexcept {
  Closeness sum;
  for_each_pair(rule.week_repeats, [&](std::size_t earlier, std::size_t later, int hours) {
    sum += Closeness(days[earlier], days[later], hours, rule);
  });
  return sum;
}

}  // namespace detail

/// How many sets close days ask of the same muscles.
///
/// Two days are close when fewer hours lie between them than the rule wants; from `hours_between`
/// on, only sets that the earlier day took to failure count. For each muscle group the smaller of
/// the two days' fractional sets is shared: four sets of chest followed by one share one. All sets
/// count, hard or not, and bracing as little as the rule says. See `overlap_source` for what this
/// number is not.
/// @throws DomainError for a rule as in `spacing_conflicts`.
[[nodiscard]] inline WeekOverlap overlap(std::span<const PlannedSession> sessions,
                                         const SpacingRule& rule = {}) {
  const detail::WeekWork days = detail::work_of(sessions, rule);
  WeekOverlap result;
  detail::for_each_pair(rule.week_repeats, [&](std::size_t earlier, std::size_t later, int hours) {
    DayOverlap pair = detail::overlap_of(days[earlier], days[later], hours, rule);
    if (pair.shared.total_parts() == 0) return;
    pair.earlier = all_weekdays[earlier];
    pair.later = all_weekdays[later];
    pair.hours = hours;
    result.shared += pair.shared;
    result.between_upper_and_lower += pair.between_upper_and_lower;
    result.by_bracing += pair.by_bracing;
    result.days.push_back(pair);
  });
  return result;
}

// ---- a better order of days --------------------------------------------------------------------

/// One flag for each day, Monday first.
using DayFlags = std::array<bool, 7>;

/// What an order of days may do. The defaults are explained by `order_source`.
struct OrderRule {
  DayFlags fixed{};  ///< days whose lifts stay, and to which no others may come
  /// Whether lifts may come to a day of rest. Even then one is left where there is one now. A day
  /// of rest has no session, or only such as are rated and have no load.
  bool may_use_rest_days = false;
  /// By how many per cent of the heaviest day's load as it is any day may be heavier than that. A
  /// session without a rating counts as no load. 100 is no limit, as a day gets the lifts of one.
  int most_load_rise_percent = 10;
  /// The least fall of the overlap, in per cent of it, for which days are moved when no conflict
  /// goes with it.
  int least_gain_percent = 5;
};

/// Which day's training goes where.
struct DayOrder {
  /// The new day of each day's lifts, Monday first. A day without lifts has none: its entry is the
  /// day itself.
  std::array<Weekday, 7> to = all_weekdays;
  int moved = 0;  ///< days whose lifts change their day
  int conflicts_before = 0;
  int conflicts_after = 0;
  double overlap_before = 0.0;  ///< shared fractional sets of lifting: bracing is left out
  double overlap_after = 0.0;
};

namespace detail {

constexpr void require_order_rule(const OrderRule& order) {
  if (!(0 <= order.most_load_rise_percent && order.most_load_rise_percent <= 100)) {
    fail("the per cent by which the heaviest day may rise", "a whole number from 0 to 100",
         static_cast<double>(order.most_load_rise_percent));
  }
  if (!(0 <= order.least_gain_percent && order.least_gain_percent <= 100)) {
    fail("the per cent of overlap worth moving for", "a whole number from 0 to 100",
         static_cast<double>(order.least_gain_percent));
  }
}

/// Which day's lifts may come to which day, by load and rest.
class AllowedDays {
 public:
  constexpr AllowedDays(std::span<const PlannedSession> sessions, const OrderRule& order)
      : order_(order) {
    require_order_rule(order);
    for (const PlannedSession& session : sessions) {
      const std::size_t day = index_of(session.day);
      const double load = session.rating ? session_load(*session.rating) : 0.0;
      if (!session.lifts.empty()) {
        moving_load_[day] += load;
        has_lifts_[day] = true;
      } else {
        staying_load_[day] += load;
        if (!session.rating || load > 0.0) has_other_[day] = true;
      }
    }
    for (std::size_t day = 0; day < all_weekdays.size(); ++day) {
      heaviest_ = std::max(heaviest_, moving_load_[day] + staying_load_[day]);
      if (is_rest(day)) has_rest_ = true;
    }
  }

  [[nodiscard]] constexpr bool allows(std::size_t from, std::size_t to) const noexcept {
    if (from == to) return true;
    if (order_.fixed[from] || order_.fixed[to]) return false;
    if (is_rest(to) && !order_.may_use_rest_days) return false;
    return 100.0 * (moving_load_[from] + staying_load_[to]) <=
           (100.0 + order_.most_load_rise_percent) * heaviest_;
  }
  /// Whether lifts on these days leave a day of rest where there is one now.
  [[nodiscard]] constexpr bool leaves_rest(const DayFlags& taken) const noexcept {
    for (std::size_t day = 0; day < taken.size(); ++day) {
      if (!taken[day] && !has_other_[day]) return true;
    }
    return !has_rest_;
  }

 private:
  [[nodiscard]] constexpr bool is_rest(std::size_t day) const noexcept {
    return !has_lifts_[day] && !has_other_[day];
  }

  OrderRule order_;
  std::array<double, 7> moving_load_{};   ///< of the sessions with lifts
  std::array<double, 7> staying_load_{};  ///< of the others
  DayFlags has_lifts_{};
  DayFlags has_other_{};
  double heaviest_ = 0.0;
  bool has_rest_ = false;
};

/// Puts the training days on days in every way that is allowed, earliest first.
class OrderSearch {
 public:
  constexpr OrderSearch(const WeekWork& days, const SpacingRule& rule, const AllowedDays& allowed)
      : allowed_(allowed) {
    for (std::size_t day = 0; day < days.size(); ++day) {
      if (days[day].has_lifts) from_[count_++] = day;
    }
    for (std::size_t a = 0; a < count_; ++a) {
      for (std::size_t day = 0; day < days.size(); ++day) {
        may_go_[a][day] = allowed.allows(from_[a], day);
      }
      for (std::size_t b = 0; b < count_; ++b) {
        if (a == b) continue;
        for (std::size_t apart = 1; apart < days.size(); ++apart) {
          const DayWork& first = days[from_[a]];
          const DayWork& second = days[from_[b]];
          Closeness& both = when_apart_[a][b][apart];
          both = Closeness(first, second, 24 * static_cast<int>(apart), rule);
          if (!rule.week_repeats) continue;
          both += Closeness(second, first, 24 * static_cast<int>(days.size() - apart), rule);
        }
      }
    }
    place(0, Closeness{}, 0);
  }

  [[nodiscard]] constexpr Closeness least() const noexcept { return least_; }
  [[nodiscard]] constexpr int fewest_moves() const noexcept { return fewest_moves_; }
  [[nodiscard]] constexpr std::array<Weekday, 7> to() const noexcept {
    std::array<Weekday, 7> days = all_weekdays;
    for (std::size_t i = 0; i < count_; ++i) days[from_[i]] = all_weekdays[best_[i]];
    return days;
  }

 private:
  /// Tries every free day for the next training day. Neither number can fall by placing more days,
  /// so an order that is no better already will not become so.
  constexpr void place(std::size_t next, Closeness so_far, int moves) noexcept {
    if (so_far > least_ || (so_far == least_ && moves >= fewest_moves_)) return;
    if (next == count_) {
      if (!allowed_.leaves_rest(taken_)) return;
      least_ = so_far;
      fewest_moves_ = moves;
      best_ = at_;
      return;
    }
    for (std::size_t day = 0; day < taken_.size(); ++day) {
      if (taken_[day] || !may_go_[next][day]) continue;
      Closeness with = so_far;
      for (std::size_t i = 0; i < next; ++i) {
        with +=
            at_[i] < day ? when_apart_[i][next][day - at_[i]] : when_apart_[next][i][at_[i] - day];
      }
      taken_[day] = true;
      at_[next] = day;
      place(next + 1, with, moves + (day == from_[next] ? 0 : 1));
      taken_[day] = false;
    }
  }

  const AllowedDays& allowed_;
  std::size_t count_ = 0;
  std::array<std::size_t, 7> from_{};  ///< the training days, as planned
  std::array<DayFlags, 7> may_go_{};   ///< to which day
  std::array<std::array<std::array<Closeness, 7>, 7>, 7> when_apart_{};
  DayFlags taken_{};
  std::array<std::size_t, 7> at_{};
  std::array<std::size_t, 7> best_{};
  Closeness least_ = Closeness::most();
  int fewest_moves_ = days_in_week + 1;
};

}  // namespace detail

/// The order of days with the fewest spacing conflicts and, of those, the least overlap of lifting,
/// found by trying all that the rules allow: at most 5040.
///
/// What is lifted on one day stays together; sessions without lifts stay where they are, and lifts
/// may come to a day that has one. Days of rest stay so, and no day becomes much heavier than the
/// heaviest is now, unless `order` allows it. Bracing moves no day. Among equal orders the one that
/// moves the fewest days wins, and among those the earliest: Monday's lifts as early as can be,
/// then Tuesday's, and so on. A week that cannot be bettered, or only by too little, comes back as
/// it is.
/// @throws DomainError for a rule as in `spacing_conflicts`, or per cents of the order outside 0 to
///   100.
[[nodiscard]] inline DayOrder best_order(std::span<const PlannedSession> sessions,
                                         const SpacingRule& rule = {},
                                         const OrderRule& order = {}) {
  detail::require_rule(rule);
  SpacingRule of_lifting = rule;
  of_lifting.bracing_percent = 0;
  const detail::WeekWork days = detail::work_of(sessions, of_lifting);
  const detail::AllowedDays allowed(sessions, order);
  const detail::OrderSearch search(days, of_lifting, allowed);
  const detail::Closeness before = detail::closeness_of(days, of_lifting);
  const detail::Closeness after = search.least();
  DayOrder result{.conflicts_before = before.conflicts(),
                  .conflicts_after = before.conflicts(),
                  .overlap_before = before.overlap(),
                  .overlap_after = before.overlap()};
  if (after.conflicts() == before.conflicts() &&
      100 * (before.overlap_parts() - after.overlap_parts()) <
          order.least_gain_percent * before.overlap_parts()) {
    return result;
  }
  result.to = search.to();
  result.moved = search.fewest_moves();
  result.conflicts_after = after.conflicts();
  result.overlap_after = after.overlap();
  return result;
}

/// The same sessions, in the same sequence, those with lifts on their new days.
[[nodiscard]] inline std::vector<PlannedSession> reordered(std::span<const PlannedSession> sessions,
                                                           const DayOrder& order) {
  std::vector<PlannedSession> moved(sessions.begin(), sessions.end());
  for (PlannedSession& session : moved) {
    if (!session.lifts.empty()) session.day = order.to[detail::index_of(session.day)];
  }
  return moved;
}

// ---- a better choice of lifts ------------------------------------------------------------------

/// One lift of the week done as one of its variations.
struct Swap {
  std::size_t session = 0;       ///< its place in the week
  std::size_t lift = 0;          ///< its place in the session
  Lift variation;                ///< what to do instead
  double overlap_removed = 0.0;  ///< fractional sets no longer shared
  int conflicts_added = 0;       ///< negative when there are fewer
  /// What it costs in load: the variation's max as a share of the lift's, for a lifter of unknown
  /// strength, all ranges at their worst or best. How well each factor is known is said by the
  /// variation's modifiers.
  Range<double> load_ratio = Range<double>::exactly(1.0);
  /// Whether the variation works directly what the lift works directly, and none of the lift's own
  /// modifiers, which somebody chose for a reason, gives way to it.
  bool keeps_aim = true;

  /// False when the load may as well be far less as far more: the best case is more than 1.3 times
  /// the worst (assumption).
  [[nodiscard]] constexpr bool is_cost_known() const noexcept {
    return load_ratio.high <= 1.3 * load_ratio.low;
  }
};

namespace detail {

/// Whether `variation` has the modifiers of `lift` and works directly what that works directly.
[[nodiscard]] constexpr bool keeps_aim(const Lift& lift, const Lift& variation) noexcept {
  for (const Modifier& modifier : lift.modifiers()) {
    if (!variation.has(modifier)) return false;
  }
  const Muscles before = lift.muscles();
  const Muscles after = variation.muscles();
  for (const MuscleGroup group : all_muscle_groups) {
    if (before[group] == Involvement::direct && after[group] != Involvement::direct) return false;
  }
  return true;
}

/// `lift` with `modifier` in place of the modifiers it excludes; nothing when it cannot be.
[[nodiscard]] constexpr std::optional<Lift> variation_of(const Lift& lift,
                                                         const Modifier& modifier) {
  if (lift.has(modifier) || !modifier.applies_to(lift.base())) return std::nullopt;
  Lift varied = lift.base();
  for (const Modifier& own : lift.modifiers()) {
    if (!own.excludes(modifier)) varied = varied + own;
  }
  if (!varied.accepts(modifier)) return std::nullopt;
  return varied + modifier;
}

/// The max on `lift` as a share of that on `other`, both of one base lift; modifiers they share do
/// not count.
[[nodiscard]] constexpr Range<double> max_ratio(const Lift& lift, const Lift& other) {
  auto ratio = Range<double>::exactly(1.0);
  for (const Modifier& modifier : lift.modifiers()) {
    if (!other.has(modifier))
      ratio = stacked(ratio, modifier.ratio_figure().value, Stacking::bounds);
  }
  for (const Modifier& modifier : other.modifiers()) {
    if (lift.has(modifier)) continue;
    const Range<double>& share = modifier.ratio_figure().value;
    ratio =
        stacked(ratio, {1.0 / share.high, 1.0 / share.typical, 1.0 / share.low}, Stacking::bounds);
  }
  return ratio;
}

}  // namespace detail

/// Every single swap of a lift for one of its variations that reduces the overlap of the week, best
/// first: those that add no spacing conflict before those that do, then by the overlap removed,
/// then by the load kept, then in the order of the week and of `modifiers`. Those that lose the
/// aim of the lift, or whose load nobody can foretell, are among them and say so.
/// @throws DomainError for a rule as in `spacing_conflicts`.
[[nodiscard]] inline std::vector<Swap> swaps(std::span<const PlannedSession> sessions,
                                             const SpacingRule& rule = {},
                                             Handles<Modifier> modifiers = catalogue::modifiers()) {
  const detail::WeekWork days = detail::work_of(sessions, rule);
  const detail::Closeness before = detail::closeness_of(days, rule);
  std::vector<Swap> found;
  for (std::size_t s = 0; s < sessions.size(); ++s) {
    const std::size_t day = detail::index_of(sessions[s].day);
    for (std::size_t l = 0; l < sessions[s].lifts.size(); ++l) {
      const PlannedLift& planned = sessions[s].lifts[l];
      detail::WeekWork changed = days;
      changed[day] = {};  // that day again, but for this lift
      for (std::size_t i = 0; i < sessions.size(); ++i) {
        for (std::size_t j = 0; j < sessions[i].lifts.size(); ++j) {
          if (sessions[i].day != sessions[s].day || (i == s && j == l)) continue;
          changed[day].add(sessions[i].lifts[j], rule);
        }
      }
      const detail::DayWork others = changed[day];
      for (const Modifier& modifier : modifiers) {
        const auto variation = detail::variation_of(planned.lift, modifier);
        if (!variation || variation->muscles() == planned.lift.muscles()) continue;
        changed[day] = others;
        PlannedLift instead = planned;
        instead.lift = *variation;
        changed[day].add(instead, rule);
        const detail::Closeness after = detail::closeness_of(changed, rule);
        if (after.overlap_parts() >= before.overlap_parts()) continue;
        found.push_back({.session = s,
                         .lift = l,
                         .variation = *variation,
                         .overlap_removed = before.overlap() - after.overlap(),
                         .conflicts_added = after.conflicts() - before.conflicts(),
                         .load_ratio = detail::max_ratio(*variation, planned.lift),
                         .keeps_aim = detail::keeps_aim(planned.lift, *variation)});
      }
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const Swap& a, const Swap& b) {
    const bool a_adds = a.conflicts_added > 0;
    const bool b_adds = b.conflicts_added > 0;
    if (a_adds != b_adds) return b_adds;
    if (a.overlap_removed != b.overlap_removed) return a.overlap_removed > b.overlap_removed;
    return a.load_ratio.typical > b.load_ratio.typical;
  });
  return found;
}

}  // namespace barwright::inline BARWRIGHT_ABI
