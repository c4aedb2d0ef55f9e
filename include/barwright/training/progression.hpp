// barwright/training/progression.hpp - when to add load, when to hold, step back or stop
//
// `next_load` reads how a session went and says go on, hold, step back or stop:
//
//   go on      more than planned, twice running (two-for-two: Haff & Triplett 2016, from memory) or
//              once (ACSM 2009, abstract read): 2 to 10 % more
//   hold       a rep missed for the first time, less left than asked, or nobody knows
//   step back  missed or short of the plan again: 5 % less, or what was chosen
//   stop       pain
//
// No trial was read that compares going on by these rules with another way;
// docs/progression-comparison.md compares them on simulated lifters.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plates/room.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// The one test behind every rule: this many reps beyond the plan, none missed.
[[nodiscard]] constexpr bool goes_beyond(double beyond, bool has_miss, int extra) noexcept {
  return !has_miss && beyond >= extra;
}

}  // namespace detail

/// How the last set of a session went.
struct LastSet {
  Reps planned;
  Reps done;
  bool missed = false;  ///< the last rep tried was not completed
};

/// The progression rules: a step of 2 to 10 % once one or two reps more than planned are
/// done.
inline constexpr Source progression_source{
    .citation =
        "American College of Sports Medicine 2009, Progression models in resistance training "
        "for healthy adults, Med Sci Sports Exerc 41(3):687-708",
    .population = "healthy adults",
    .evidence = Evidence::handbook,
    .reading = Reading::read,
    .note = "the abstract was read"};

inline constexpr Source two_for_two_source{
    .citation =
        "Haff & Triplett (eds) 2016, Essentials of Strength Training and Conditioning, 4th ed.",
    .population = "not stated",
    .evidence = Evidence::handbook,
    .reading = Reading::from_memory};

/// Whether `extra` reps beyond the plan were done, the position stand's sign to add load.
/// @throws DomainError unless extra is 1 or 2.
[[nodiscard]] constexpr bool exceeds_plan(const LastSet& latest, int extra = 1) {
  if (extra != 1 && extra != 2) {
    detail::fail("reps beyond the plan", "1 or 2", static_cast<double>(extra));
  }
  return detail::goes_beyond(latest.done.count() - latest.planned.count(), latest.missed, extra);
}

/// The two-for-two rule: two or more reps beyond the plan in the last set, two sessions in a
/// row.
[[nodiscard]] constexpr bool two_for_two(const LastSet& previous, const LastSet& latest) {
  return exceeds_plan(previous, 2) && exceeds_plan(latest, 2);
}

// ---- one step up in a room ---------------------------------------------------------------------

namespace detail {

inline constexpr double greatest_rise = 1.10;  ///< from one load to the next (ACSM 2009)
inline constexpr double on_the_load = 1e-9;    ///< a share of it: loads so close are equal

}  // namespace detail

/// The next load up that the room has: `increase` (0.02 to 0.10) more or just below it, at least
/// the next heavier loading there is, and never more than 10 %.
///
/// @returns nothing when every heavier loading is more than 10 % up: add reps first, or find
/// smaller plates.
/// @throws DomainError unless 0.02 <= increase <= 0.10 and load > 0.
[[nodiscard]] constexpr std::optional<Loading> raised(Mass load, double increase,
                                                      const Room& room) {
  if (!(increase >= 0.02 && increase <= 0.10)) {
    detail::fail("an increase of the load", "a share from 0.02 to 0.10", increase);
  }
  if (!(load > Mass{})) detail::fail("a load to be raised", "more than 0 kg", load.kg());
  const Mass just_above = load * (1.0 + detail::on_the_load);
  const auto wanted = room.at_most(load * (1.0 + increase));
  if (wanted && wanted->total() > just_above) return wanted;
  const auto next = room.at_least(just_above);
  const Mass most = load * (detail::greatest_rise + detail::on_the_load);
  if (next && next->total() <= most) return next;
  return std::nullopt;
}

// ---- how a session went ------------------------------------------------------------------------

/// The work sets of one session, against what was asked of them.
struct SessionResult {
  Mass load{};              ///< of the work sets
  Reps reps{1};             ///< asked for in each
  RepsInReserve reserve{};  ///< asked for at the end of each
  int fewest_done = 0;      ///< reps completed in the set that had the fewest
  int last_done = 0;        ///< reps completed in the last set, those asked for or more
  std::optional<RepsInReserve> last_left{};  ///< then left, as rated
  bool has_miss = false;                     ///< a rep asked for was tried and did not go up
  bool has_pain = false;                     ///< of the kind that ends a session

  /// Reps done and left in the last set beyond those asked for; negative when short. A set
  /// that was not rated left none or more: nothing, unless it went beyond the plan all the same.
  [[nodiscard]] constexpr std::optional<double> beyond_plan() const noexcept {
    const double beyond = last_done - reps_to_failure(reps, reserve);
    if (last_left) return beyond + last_left->count();
    if (beyond >= 0.0) return beyond;
    return std::nullopt;
  }
};

/// A session as it was logged, against what was asked. Of its sets those at its heaviest load are
/// the work sets; lighter ones are warm-ups or came after a miss. One missed beyond the reps
/// asked for is no miss: it leaves none.
/// @param sets  of one lift on one day, in the order they were done
/// @throws DomainError if there is none.
[[nodiscard]] inline SessionResult session_result(Reps reps, RepsInReserve reserve,
                                                  std::span<const LoggedSet> sets) {
  if (sets.empty()) detail::fail("the sets of a session", "1 or more", 0.0);
  SessionResult result{.reps = reps, .reserve = reserve};
  for (const LoggedSet& set : sets) result.load = std::max(result.load, set.load);
  bool is_first = true;
  for (const LoggedSet& set : sets) {
    if (set.load < result.load * (1.0 - detail::on_the_load)) continue;
    const bool is_missed = set.outcome == Outcome::missed;
    const int done = set.reps.count() - (is_missed ? 1 : 0);
    result.has_miss = result.has_miss || (is_missed && done < reps.count());
    result.fewest_done = is_first ? done : std::min(result.fewest_done, done);
    result.last_done = done;
    result.last_left.reset();
    if (is_missed) result.last_left = RepsInReserve{};
    if (!is_missed && set.reserve) result.last_left = set.reserve->typical;
    is_first = false;
  }
  return result;
}

// ---- what to load next -------------------------------------------------------------------------

/// When load is added and taken off.
struct ProgressionRule {
  int extra_reps = 2;       ///< beyond the plan in the last set, to add load: 1 or 2
  int sessions = 2;         ///< running, to add load: 1 or 2
  double increase = 0.025;  ///< of the load: 0.02 to 0.10
  double step_back = 0.05;  ///< of the load: 0.025 to 0.10
};

namespace progression_rules {

/// Two reps more, two sessions running (`two_for_two_source`).
inline constexpr ProgressionRule two_for_two{};
/// One rep more, once (`progression_source`: one or two).
inline constexpr ProgressionRule position_stand{.extra_reps = 1, .sessions = 1};

}  // namespace progression_rules

inline constexpr Source hold_source = assumption(
    "a rating is off by about one rep, so one session that falls short is repeated before "
    "anything is taken off");
inline constexpr Source step_back_source = assumption(
    "the handbooks take 2.5 to 10 % off after a failed trial of a max test (Haff & Triplett 2016, "
    "from memory, unverified); for working sets this is inferred");
inline constexpr Source pain_source = assumption("common sense; no load is worth an injury");

/// Which way to go.
enum class Move : unsigned char { go_on, hold, step_back, stop };

[[nodiscard]] constexpr std::string_view to_text(Move move) noexcept {
  switch (move) {
    case Move::go_on: return "go on";
    case Move::hold: return "hold";
    case Move::step_back: return "step back";
    case Move::stop: return "stop";
  }
  return "";
}

/// What to load next, and why.
struct NextLoad {
  Move move = Move::hold;
  std::optional<Loading> loading{};  ///< nothing after a stop, and after the last step of a block
  std::string_view why{};
  Source source{};
};

namespace detail {

/// What one session says, before any load is looked for.
struct Judgement {
  Move move = Move::hold;
  bool is_as_planned = false;  ///< with Move::hold: a block goes on to its next load
  std::string_view why{};
  Source source{};
};

constexpr void require_rule(const ProgressionRule& rule) {
  if (rule.extra_reps != 1 && rule.extra_reps != 2) {
    fail("reps beyond the plan", "1 or 2", static_cast<double>(rule.extra_reps));
  }
  if (rule.sessions != 1 && rule.sessions != 2) {
    fail("the sessions that have to go beyond the plan", "1 or 2",
         static_cast<double>(rule.sessions));
  }
  if (!(rule.increase >= 0.02 && rule.increase <= 0.10)) {
    fail("an increase of the load", "a share from 0.02 to 0.10", rule.increase);
  }
  if (!(rule.step_back >= 0.025 && rule.step_back <= 0.10)) {
    fail("a step back", "a share from 0.025 to 0.10", rule.step_back);
  }
}

/// @throws DomainError unless the result can have happened in the room.
constexpr void require_result(const SessionResult& result, const Room& room) {
  if (!room.at_most(result.load)) {
    fail(ErrorCode::below_empty_bar, "the load of a session",
         "at least that of the room's empty bar", to_text(result.load, room.bar().mass.unit()));
  }
  if (!(0 <= result.fewest_done && result.fewest_done <= result.last_done)) {
    fail(ErrorCode::contradiction, "the fewest reps done", "from 0 to those of the last set",
         static_cast<double>(result.fewest_done));
  }
  if (result.has_miss && result.fewest_done >= result.reps.count()) {
    fail(ErrorCode::contradiction, "the fewest reps done, where one asked for was missed",
         "fewer than those asked for", static_cast<double>(result.fewest_done));
  }
  if (result.last_done > Reps::most) {
    fail("the reps done in the last set", "at most 100", static_cast<double>(result.last_done));
  }
}

[[nodiscard]] constexpr bool went_beyond(const SessionResult& result, int extra) noexcept {
  const auto beyond = result.beyond_plan();
  return beyond && result.fewest_done >= result.reps.count() &&
         goes_beyond(*beyond, result.has_miss, extra);
}

[[nodiscard]] constexpr bool fell_short(const SessionResult& result) noexcept {
  const auto beyond = result.beyond_plan();
  return result.has_miss || (beyond && *beyond <= -1.0);
}

[[nodiscard]] constexpr Judgement judge(const SessionResult& latest,
                                        const std::optional<SessionResult>& previous,
                                        const ProgressionRule& rule) {
  if (latest.has_pain) {
    return {.move = Move::stop,
            .why = "pain ends it: no further load until somebody qualified has looked at it",
            .source = pain_source};
  }
  const bool fell_short_before = previous && fell_short(*previous);
  if (latest.has_miss) {
    if (latest.fewest_done <= latest.reps.count() - 2) {
      return {.move = Move::step_back,
              .why = "a set fell short by two reps or more",
              .source = step_back_source};
    }
    if (fell_short_before) {
      return {.move = Move::step_back,
              .why = "a rep was missed, and the session before fell short of its plan too",
              .source = step_back_source};
    }
    return {.move = Move::hold,
            .why = "a rep was missed for the first time: the same load again",
            .source = hold_source};
  }
  if (latest.fewest_done < latest.reps.count()) {
    return {.move = Move::hold,
            .why = "a set was cut short: the same load again",
            .source = hold_source};
  }
  const auto beyond = latest.beyond_plan();
  if (!beyond) {
    return {.move = Move::hold,
            .why = "the last set was not rated: the same load again, and note the RIR",
            .source = hold_source};
  }
  if (fell_short(latest)) {
    if (fell_short_before) {
      return {.move = Move::step_back,
              .why = "the RIR fell short two sessions in a row",
              .source = step_back_source};
    }
    return {.move = Move::hold,
            .why = "the RIR was a rep or more short: the same load again",
            .source = hold_source};
  }
  if (went_beyond(latest, rule.extra_reps)) {
    if (rule.sessions == 1) {
      return {
          .move = Move::go_on, .why = "the last set beat the plan", .source = progression_source};
    }
    if (previous && went_beyond(*previous, rule.extra_reps)) {
      return {.move = Move::go_on,
              .why = "the last set beat the plan two sessions in a row",
              .source = rule.extra_reps == 2 ? two_for_two_source : progression_source};
    }
    return {.is_as_planned = true,
            .why = "it beat the plan for the first time: once more before load is added",
            .source = rule.extra_reps == 2 ? two_for_two_source : progression_source};
  }
  return {.is_as_planned = true, .why = "it went as planned", .source = progression_source};
}

[[nodiscard]] constexpr NextLoad held(const Room& room, Mass load, std::string_view why,
                                      const Source& source) {
  return {.move = Move::hold, .loading = room.at_most(load), .why = why, .source = source};
}

/// The load and a share less; the same load where the room has nothing lighter.
[[nodiscard]] constexpr NextLoad stepped_back(const Room& room, Mass load, double share,
                                              const Judgement& judgement) {
  auto loading = room.at_most(load * (1.0 - share));
  if (!loading && room.empty_bar().total() < load) loading = room.empty_bar();
  if (!loading) {
    return held(room, load, "nothing lighter can be loaded: fewer reps, or a lighter bar",
                judgement.source);
  }
  return {.move = Move::step_back,
          .loading = loading,
          .why = judgement.why,
          .source = judgement.source};
}

[[nodiscard]] constexpr NextLoad raised_or_held(const Room& room, Mass load, double increase,
                                                const Judgement& judgement) {
  const auto loading = raised(load, increase, room);
  if (!loading) {
    return held(room, load, "the next load the plates allow is more than 10 % up: add reps first",
                progression_source);
  }
  return {
      .move = Move::go_on, .loading = loading, .why = judgement.why, .source = judgement.source};
}

}  // namespace detail

/// What to load next time for the same reps and reserve.
///
/// Each session is held against what was asked of it, so the two need not have had one load. Within
/// a rep of the plan counts as planned: a rating knows no better.
/// @param previous  the session before, if there was one
/// @throws DomainError if the rule is out of range, or if the load is below the room's empty bar.
[[nodiscard]] constexpr NextLoad next_load(const Room& room, const SessionResult& latest,
                                           const std::optional<SessionResult>& previous = {},
                                           const ProgressionRule& rule = {}) {
  detail::require_rule(rule);
  detail::require_result(latest, room);
  const detail::Judgement judgement = detail::judge(latest, previous, rule);
  switch (judgement.move) {
    case Move::stop: return {.move = Move::stop, .why = judgement.why, .source = judgement.source};
    case Move::step_back: return detail::stepped_back(room, latest.load, rule.step_back, judgement);
    case Move::go_on: return detail::raised_or_held(room, latest.load, rule.increase, judgement);
    case Move::hold: break;
  }
  return detail::held(room, latest.load, judgement.why, judgement.source);
}

/// After a missed rep, what the sets still to come today may have on the bar: the rule's
/// step back below it; nothing when the room has nothing so light, and then that was the last set.
/// @throws DomainError if the rule is out of range.
[[nodiscard]] constexpr std::optional<Loading> rest_of_session_after_miss(
    const Room& room, Mass load, const ProgressionRule& rule = {}) {
  detail::require_rule(rule);
  return room.at_most(load * (1.0 - rule.step_back));
}

}  // namespace barwright::inline BARWRIGHT_ABI
