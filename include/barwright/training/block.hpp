// barwright/training/block.hpp - some weeks of one lift, and what to load next when a session is
// done
//
// A block leads a lift from its introduction, where it is new, through working weeks to a lighter
// week and a retest. The loads come from a max and a ratio, or from any function of the caller's: a
// strength model's loads with a bounded risk, say. Each is rounded down to what the room can load,
// none is more than a tenth above the heaviest before it, and none, in the introduction either, is
// above what that function gives.
//
// No gain is planned and none is promised. Loads rise over the working weeks because less is to be
// left in reserve; more than that has to be shown by sets. `next_load` reads how a session went and
// says go on, hold, step back or stop:
//
//   go on      more than planned, twice running (two-for-two: Haff & Triplett 2016, recalled) or
//              once (ACSM 2009, abstract read): 2 to 10 % more; inside a block also when all went
//              as planned: to its next load
//   hold       a repetition missed for the first time, less left than asked, or nobody knows
//   step back  missed or short of the plan again: 5 % less, or what was chosen
//   stop       pain
//
//     const BlockSettings settings{.sessions_a_week = 2, .earlier_sessions = 12};
//     const Lift lift = lifts::bench_press;
//     const Block block = plan_block(room, settings, equations::wathen, lift, 100_kg);
//     for (const BlockStep& step : block.steps) show(step.plan.week, step.loading);
//     // The first session is done, and its sets are logged:
//     const StepPlan& asked = block.steps[0].plan;
//     const SessionResult result = session_result(asked.reps, asked.reserve, sets);
//     const NextLoad next = next_load(room, block, 0, result);
//     if (next.loading) show(*next.loading, next.why);  // else it is over
//
// The order of a block and its lighter week are common practice without a source. No trial was read
// that compares going on by these rules with another way; docs/progression-comparison.md compares
// them on simulated lifters.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <concepts>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/lifts/variation.hpp"
#include "barwright/log/logged_set.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/prescription.hpp"

namespace barwright::inline BARWRIGHT_ABI {

// ---- one step up or down in a room -------------------------------------------------------------

namespace detail {

inline constexpr double greatest_rise = 1.10;  ///< from one load to the next (ACSM 2009)
inline constexpr double on_the_load = 1e-9;    ///< a share of it: loads so close are equal

}  // namespace detail

/// The next load up that the room has: `increase` (0.02 to 0.10) more or just below it, at least
/// the next heavier loading there is, and never more than 10 %.
///
/// @returns nothing when every heavier loading is more than 10 % up: add repetitions first, or find
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
  int fewest_done = 0;      ///< repetitions completed in the set that had the fewest
  int last_done = 0;        ///< repetitions completed in the last set, those asked for or more
  std::optional<RepsInReserve> last_left{};  ///< then left, as rated
  bool has_miss = false;                     ///< a repetition asked for was tried and did not go up
  bool has_pain = false;                     ///< of the kind that ends a session

  /// Repetitions done and left in the last set beyond those asked for; negative when short. A set
  /// that was not rated left none or more: nothing, unless it went beyond the plan all the same.
  [[nodiscard]] constexpr std::optional<double> beyond_plan() const noexcept {
    const double beyond = last_done - reps_to_failure(reps, reserve);
    if (last_left) return beyond + last_left->count();
    if (beyond >= 0.0) return beyond;
    return std::nullopt;
  }
};

/// A session as it was logged, against what was asked. Of its sets those at its heaviest load are
/// the work sets; lighter ones are warm-ups or came after a miss. One missed beyond the repetitions
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

/// Two repetitions more, two sessions running (`two_for_two_source`).
inline constexpr ProgressionRule two_for_two{};
/// One repetition more, once (`progression_source`: one or two).
inline constexpr ProgressionRule position_stand{.extra_reps = 1, .sessions = 1};

}  // namespace progression_rules

inline constexpr Source hold_source = assumption(
    "a rating is off by about one repetition, so one session that falls short is repeated before "
    "anything is taken off");
inline constexpr Source step_back_source = assumption(
    "the handbooks take 2.5 to 10 % off after a failed trial of a max test (Haff & Triplett 2016, "
    "recalled); for work sets this is inferred");
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
    fail("repetitions beyond the plan", "1 or 2", static_cast<double>(rule.extra_reps));
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
    fail(ErrorCode::contradiction, "the fewest repetitions done", "from 0 to those of the last set",
         static_cast<double>(result.fewest_done));
  }
  if (result.has_miss && result.fewest_done >= result.reps.count()) {
    fail(ErrorCode::contradiction, "the fewest repetitions done, where one asked for was missed",
         "fewer than those asked for", static_cast<double>(result.fewest_done));
  }
  if (result.last_done > Reps::most) {
    fail("the repetitions done in the last set", "at most 100",
         static_cast<double>(result.last_done));
  }
}

[[nodiscard]] constexpr bool went_beyond(const SessionResult& result, int extra) noexcept {
  const auto beyond = result.beyond_plan();
  return !result.has_miss && result.fewest_done >= result.reps.count() && beyond &&
         *beyond >= extra;
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
            .why = "pain ends it: no further load before somebody qualified has looked",
            .source = pain_source};
  }
  const bool fell_short_before = previous && fell_short(*previous);
  if (latest.has_miss) {
    if (latest.fewest_done <= latest.reps.count() - 2) {
      return {.move = Move::step_back,
              .why = "a set fell short by two repetitions or more",
              .source = step_back_source};
    }
    if (fell_short_before) {
      return {.move = Move::step_back,
              .why = "a repetition was missed, and the session before was short of its plan too",
              .source = step_back_source};
    }
    return {.move = Move::hold,
            .why = "a repetition was missed for the first time: the same load again",
            .source = hold_source};
  }
  if (latest.fewest_done < latest.reps.count()) {
    return {.move = Move::hold,
            .why = "a set was ended before the repetitions asked for: the same load again",
            .source = hold_source};
  }
  const auto beyond = latest.beyond_plan();
  if (!beyond) {
    return {.move = Move::hold,
            .why = "the last set was not rated: the same load again, and say what was left",
            .source = hold_source};
  }
  if (fell_short(latest)) {
    if (fell_short_before) {
      return {.move = Move::step_back,
              .why = "less was left than asked for, two sessions running",
              .source = step_back_source};
    }
    return {.move = Move::hold,
            .why = "a repetition less was left than asked for: the same load again",
            .source = hold_source};
  }
  if (went_beyond(latest, rule.extra_reps)) {
    if (rule.sessions == 1) {
      return {.move = Move::go_on,
              .why = "the last set went beyond its plan",
              .source = progression_source};
    }
    if (previous && went_beyond(*previous, rule.extra_reps)) {
      return {.move = Move::go_on,
              .why = "the last set went beyond its plan, two sessions running",
              .source = rule.extra_reps == 2 ? two_for_two_source : progression_source};
    }
    return {.is_as_planned = true,
            .why = "more than planned, for the first time: once more before load is added",
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
    return held(room, load, "the room has nothing lighter: fewer repetitions, or a lighter bar",
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
    return held(room, load,
                "the next heavier loading of the room is more than 10 % up: add repetitions first",
                progression_source);
  }
  return {
      .move = Move::go_on, .loading = loading, .why = judgement.why, .source = judgement.source};
}

}  // namespace detail

/// What to load next time for the same repetitions and reserve.
///
/// Each session is held against what was asked of it, so the two need not have had one load. Within
/// a repetition of the plan counts as planned: a rating knows no better.
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

/// After a missed repetition, what the sets still to come today may have on the bar: the rule's
/// step back below it; nothing when the room has nothing so light, and then that was the last set.
/// @throws DomainError if the rule is out of range.
[[nodiscard]] constexpr std::optional<Loading> rest_of_session_after_miss(
    const Room& room, Mass load, const ProgressionRule& rule = {}) {
  detail::require_rule(rule);
  return room.at_most(load * (1.0 - rule.step_back));
}

// ---- a block -----------------------------------------------------------------------------------

/// The parts of a block, in their order.
enum class Stage : unsigned char { introduction, working, lighter, retest };

[[nodiscard]] constexpr std::string_view to_text(Stage stage) noexcept {
  switch (stage) {
    case Stage::introduction: return "introduction";
    case Stage::working: return "working";
    case Stage::lighter: return "lighter";
    case Stage::retest: return "retest";
  }
  return "";
}

inline constexpr Source block_source = common_practice(
    "weeks of work with less and less in reserve, a lighter week, a retest; no trial was read that "
    "compares this order with another");

/// Two single tests of a max that differ by less than this share may differ by chance alone:
/// 1.96 sqrt(2) times the median coefficient of variation, 4.2 %.
inline constexpr double retest_noise = 1.96 * 1.4142135623730951 * 0.042;
inline constexpr Source retest_noise_source{
    .citation = "Grgic et al. 2020, Sports Med Open 6:31",
    .population = "1595 people in 32 studies of the max tested twice",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "abstract; the factor of 1.96 sqrt(2) is arithmetic. A max read off a set of several "
        "repetitions is no surer than one that was lifted"};

/// What a block is to be.
struct BlockSettings {
  int sessions_a_week = 2;           ///< of this lift: 1 to 7
  int working_weeks = 4;             ///< 1 to 26
  int sets = 3;                      ///< work sets a session: 1 to 20
  Reps reps{6};                      ///< in each
  RepsInReserve first_reserve{3.0};  ///< in the first working week
  RepsInReserve last_reserve{2.0};   ///< in the last: no more than in the first
  bool has_lighter_week = true;
  double lighter_by = 0.10;  ///< of the last working load: 0.05 to 0.5
  bool has_retest = true;
  Reps retest_reps{3};
  /// A retest is a set, not a max attempt: 1 or more stay in reserve, and a curve says the rest.
  RepsInReserve retest_reserve{2.0};
  int earlier_sessions = 0;         ///< of this very lift, by this lifter
  std::optional<Mass> last_load{};  ///< of the last of them: the block starts no higher than 10 %
                                    ///< above it
};

/// One session of a block, before its load is known.
struct StepPlan {
  int week = 1;      ///< of the block
  int session = 1;   ///< of the week
  int exposure = 1;  ///< how many times the lifter will have done the lift, earlier sessions too
  Stage stage = Stage::working;
  int sets = 1;
  Reps reps{1};
  RepsInReserve reserve{};  ///< end every set with at least so many left
  bool to_reserve = false;  ///< a retest: as many repetitions as leave `reserve`, `reps` or more
};

/// What keeps a load below the one wanted, rounding apart.
enum class Limit : unsigned char {
  none,
  tenth,   ///< 10 % above the heaviest load before
  plates,  ///< the next loading is more than 10 % above the heaviest: add repetitions first
  room,    ///< there are no more plates
  work,    ///< an introduction goes no higher than work of its reserve, or of the first week, would
  fall,    ///< an earlier session of as many sets, repetitions and reserve was heavier
};

/// What decides how it goes on after a step.
struct Conditions {
  std::string_view go_on{};
  std::string_view hold{};
  std::string_view step_back{};
};

/// One session of a block.
struct BlockStep {
  StepPlan plan{};
  Mass wanted{};    ///< before the 10 % and the plates
  Loading loading;  ///< what to load: never above `wanted`
  Limit limit = Limit::none;
  Conditions conditions{};
};

/// Weeks of one lift. Made by `plan_block`.
struct Block {
  std::vector<BlockStep> steps{};

  [[nodiscard]] int weeks() const noexcept { return steps.empty() ? 0 : steps.back().plan.week; }
};

/// Says how much a session of a block may have on the bar, before rounding.
template <class F>
concept StepLoad = requires(F load_for, const StepPlan& plan) {
  { load_for(plan) } -> std::convertible_to<Mass>;
};

namespace detail {

constexpr void require_whole(std::string_view what, std::string_view allowed, int value, int least,
                             int most) {
  if (value < least || value > most) fail(what, allowed, static_cast<double>(value));
}

constexpr void require_settings(const BlockSettings& settings) {
  require_whole("the sessions of a week", "from 1 to 7", settings.sessions_a_week, 1, 7);
  require_whole("the working weeks of a block", "from 1 to 26", settings.working_weeks, 1, 26);
  require_whole("the work sets of a session", "from 1 to 20", settings.sets, 1, 20);
  require_whole("the earlier sessions of a lift", "from 0 to 1000000", settings.earlier_sessions, 0,
                1'000'000);
  if (settings.last_reserve > settings.first_reserve) {
    fail(ErrorCode::contradiction, "the reserve of the last working week",
         "no more than that of the first", settings.last_reserve.count());
  }
  if (!(settings.lighter_by >= 0.05 && settings.lighter_by <= 0.5)) {
    fail("what a lighter week takes off", "a share from 0.05 to 0.5", settings.lighter_by);
  }
  if (settings.has_retest && settings.retest_reserve < RepsInReserve(1.0)) {
    fail("the reserve of a retest", "1 or more (a max attempt is no part of a block)",
         settings.retest_reserve.count());
  }
  if (settings.last_load && !(*settings.last_load > Mass{})) {
    fail("the last load of a lift", "more than 0 kg", settings.last_load->kg());
  }
}

/// The reserve of working week 0, 1, ..., falling in halves, late rather than early.
[[nodiscard]] constexpr RepsInReserve working_reserve(const BlockSettings& settings, int week) {
  if (settings.working_weeks == 1) return settings.first_reserve;
  const double first = settings.first_reserve.count();
  const int halves = static_cast<int>(2.0 * (first - settings.last_reserve.count()));
  const int halves_taken = halves * week / (settings.working_weeks - 1);  // whole halves, so far
  return RepsInReserve(first - 0.5 * halves_taken);
}

[[nodiscard]] constexpr Conditions conditions_of(Stage stage,
                                                 std::string_view introduced) noexcept {
  switch (stage) {
    case Stage::introduction:
      return {introduced, "anything less than that: the same session again",
              "a repetition was missed"};
    case Stage::working:
      return {
          "all repetitions done, and in the last set less than one short of the reserve asked "
          "for",
          "a repetition missed for the first time, a set cut short or not rated, or one less "
          "left than asked for: the same load again",
          "a repetition missed, or one less left than asked for, two sessions running; or a set "
          "missed by two repetitions or more"};
    case Stage::lighter:
      return {"it felt light: all repetitions done with the reserve asked for",
              "it did not: another lighter session first", "a repetition was missed"};
    case Stage::retest:
      return {"read the max off the set, and plan the next block from it", {}, {}};
  }
  return {};
}

/// Puts steps together, one after the other.
class BlockBuilder {
 public:
  BlockBuilder(const Room& room, const BlockSettings& settings)
      : room_(room), settings_(settings), heaviest_(settings.last_load) {}

  /// The next session, still without its load; or one some sessions after it.
  [[nodiscard]] StepPlan next(Stage stage, int sets, Reps reps, RepsInReserve reserve,
                              std::size_t after = 0) const {
    const int done = static_cast<int>(block_.steps.size() + after);
    return {.week = done / settings_.sessions_a_week + 1,
            .session = done % settings_.sessions_a_week + 1,
            .exposure = settings_.earlier_sessions + done + 1,
            .stage = stage,
            .sets = sets,
            .reps = reps,
            .reserve = reserve};
  }
  [[nodiscard]] bool is_at_start_of_week() const noexcept {
    return block_.steps.size() % static_cast<std::size_t>(settings_.sessions_a_week) == 0;
  }

  void add(const StepPlan& plan, Mass wanted) { add(plan, wanted, wanted, {}); }
  /// A session of an introduction, no heavier than `work`.
  void add(const StepPlan& plan, const Exposure& exposure, Mass work) {
    const bool is_above = exposure.load > work * (1.0 + on_the_load);
    add(plan, exposure.load, is_above ? work : exposure.load, exposure.before_next);
  }
  /// A session lighter than the last work; of half the repetitions where the room has nothing
  /// lighter.
  void add_lighter(StepPlan plan, Mass wanted, Mass work) {
    const Loading loading = room_.at_most(wanted).value_or(room_.empty_bar());
    if (loading.total() >= work) plan.reps = Reps((plan.reps.count() + 1) / 2);
    put(plan, wanted, loading, Limit::none, {});
  }
  /// A retest. Where it would be no heavier than the work, as many repetitions as leave its reserve
  /// say more than those asked for: the work had them already.
  template <class F>
  void add_retest(StepPlan plan, F& load_for) {
    const Mass wanted = load_for(plan);
    Mass heaviest_work{};
    for (const BlockStep& step : block_.steps) {
      if (step.plan.stage != Stage::working || step.plan.reps < plan.reps) continue;
      heaviest_work = std::max(heaviest_work, step.loading.total());
    }
    const auto loading = room_.at_most(std::min(wanted, most(wanted)));
    if (heaviest_work > Mass{} && (!loading || loading->total() <= heaviest_work)) {
      plan.reps = settings_.reps;
      plan.to_reserve = true;
      add(plan, load_for(plan));
    } else {
      add(plan, wanted);
    }
  }
  [[nodiscard]] Mass last_load() const { return block_.steps.back().loading.total(); }
  [[nodiscard]] Block take() { return std::move(block_); }

 private:
  /// A tenth above the heaviest so far; `wanted` where there is none.
  [[nodiscard]] Mass most(Mass wanted) const {
    return heaviest_ ? *heaviest_ * greatest_rise : wanted;
  }
  void add(const StepPlan& plan, Mass wanted, Mass allowed, std::string_view introduced) {
    const Mass bounded = std::min(allowed, most(allowed));
    const auto loading = room_.at_most(bounded);
    if (!loading) {
      fail(ErrorCode::below_empty_bar, "a load of a block", "at least that of the room's empty bar",
           to_text(bounded, room_.bar().mass.unit()));
    }
    put(plan, wanted, *loading, limit_of(plan, wanted, allowed, *loading), introduced);
  }
  [[nodiscard]] Limit limit_of(const StepPlan& plan, Mass wanted, Mass allowed,
                               const Loading& loading) const {
    const Mass total = loading.total();
    const auto has_more = [&](Mass load) {
      const auto other = room_.at_most(load);
      return other && other->total() > total * (1.0 + on_the_load);
    };
    if (has_more(allowed)) {
      return total > *heaviest_ * (1.0 + on_the_load) ? Limit::tenth : Limit::plates;
    }
    for (const BlockStep& earlier : block_.steps) {
      if (earlier.loading.total() > total * (1.0 + on_the_load) && earlier.plan.sets >= plan.sets &&
          earlier.plan.reps >= plan.reps && earlier.plan.reserve >= plan.reserve) {
        return Limit::fall;
      }
    }
    if (has_more(wanted)) return Limit::work;
    return room_.at_least(wanted) ? Limit::none : Limit::room;
  }
  void put(const StepPlan& plan, Mass wanted, const Loading& loading, Limit limit,
           std::string_view introduced) {
    if (!heaviest_ || loading.total() > *heaviest_) heaviest_ = loading.total();
    block_.steps.push_back({.plan = plan,
                            .wanted = wanted,
                            .loading = loading,
                            .limit = limit,
                            .conditions = conditions_of(plan.stage, introduced)});
  }

  const Room& room_;
  const BlockSettings& settings_;
  std::optional<Mass> heaviest_;
  Block block_{};
};

}  // namespace detail

/// Weeks of a lift: its introduction where one is given, of which `earlier_sessions` are done
/// already; the working weeks; a lighter week of about half the sets; one session of retest. What
/// the introduction leaves of its last week is worked like the first working week.
///
/// Loads are rounded down to the room. None is more than 10 % above the heaviest before it, so
/// where more is wanted it is reached in steps; `Limit` says so. An introduction stays at or below
/// what `load_for` gives for the session and for the first week's work, so that a bound held by
/// `load_for` is held by every session. Where the room has nothing lighter, the lighter week halves
/// the repetitions; a retest no heavier than the work goes on until its reserve is reached.
///
/// @param introduction  for a lift that is new: see `introduce`
/// @param load_for  a function of a StepPlan that gives the most a session may have on the bar: the
/// load of working sessions and the retest
/// @throws DomainError for settings out of range; for a lift of fewer than four earlier sessions
/// without an introduction; and where a load is below that of the empty bar: take a lighter bar.
template <StepLoad F>
[[nodiscard]] Block plan_block(const Room& room, const BlockSettings& settings,
                               const std::optional<Introduction>& introduction, F&& load_for) {
  detail::require_settings(settings);
  const auto earlier = static_cast<std::size_t>(settings.earlier_sessions);
  if (!introduction && earlier < Introduction::fewest) {
    detail::fail("the earlier sessions of a lift that is not introduced", "4 or more",
                 static_cast<double>(settings.earlier_sessions));
  }
  detail::BlockBuilder block(room, settings);
  if (introduction && earlier < introduction->size()) {
    const Mass first_work =
        load_for(block.next(Stage::working, settings.sets, settings.reps, settings.first_reserve,
                            introduction->size() - earlier));
    for (std::size_t i = earlier; i < introduction->size(); ++i) {
      const Exposure& exposure = (*introduction)[i];
      const StepPlan plan =
          block.next(Stage::introduction, exposure.sets, exposure.reps, exposure.least_reserve);
      block.add(plan, exposure, std::min<Mass>(load_for(plan), first_work));
    }
  }
  const auto work = [&](RepsInReserve reserve) {
    const StepPlan plan = block.next(Stage::working, settings.sets, settings.reps, reserve);
    block.add(plan, load_for(plan));
  };
  while (!block.is_at_start_of_week()) work(settings.first_reserve);
  for (int week = 0; week < settings.working_weeks; ++week) {
    const RepsInReserve reserve = detail::working_reserve(settings, week);
    for (int i = 0; i < settings.sessions_a_week; ++i) work(reserve);
  }
  if (settings.has_lighter_week) {
    const Mass last_work = block.last_load();
    const Mass lighter = back_off(last_work, settings.lighter_by);
    const double reserve = std::min(settings.last_reserve.count() + 2.0, RepsInReserve::most);
    for (int i = 0; i < settings.sessions_a_week; ++i) {
      block.add_lighter(block.next(Stage::lighter, (settings.sets + 1) / 2, settings.reps,
                                   RepsInReserve(reserve)),
                        lighter, last_work);
    }
  }
  if (settings.has_retest) {
    block.add_retest(block.next(Stage::retest, 1, settings.retest_reps, settings.retest_reserve),
                     load_for);
  }
  return block.take();
}

/// The same from a max on the base lift and the ratio of what is changed about it. The lift is
/// introduced unless it has been done often enough; its loads rest on the low end of its max, as
/// nothing else is known of it.
/// @param curve  for the plain lift; the lift's own rep stretch is put on it
/// @throws DomainError also where the curve is not defined for so many repetitions.
template <RepCurve C>
[[nodiscard]] Block plan_block(const Room& room, const BlockSettings& settings, const C& curve,
                               const Lift& lift, Mass base_max) {
  detail::require_settings(settings);
  std::optional<Introduction> introduction =
      introduce(curve, lift, base_max, settings.reps, settings.first_reserve);
  if (static_cast<std::size_t>(settings.earlier_sessions) >= introduction->size()) {
    introduction.reset();
  }
  const auto own_curve = lift.curve(anchored(curve));
  const Mass max = lift.max_from(base_max).low;
  return plan_block(room, settings, introduction, [&](const StepPlan& plan) {
    return load_for(own_curve, max, plan.reps, plan.reserve);
  });
}

/// What to load after step `step` of a block (counted from 0), given how it went.
///
/// The plan's change from this load to the next is applied to what was really loaded, so that a
/// block held for a session goes on from there; a held step is done again, and the block takes a
/// session longer. Where more was done than planned, a working load
/// rises by the rule, if the plan does not raise it more. An introduction is never hurried and
/// wants all of its reserve; like the lighter week it steps back at the first miss. After the last
/// working session comes the lighter week, however it went.
/// @throws DomainError if there is no such step, or as the `next_load` above.
[[nodiscard]] inline NextLoad next_load(const Room& room, const Block& block, std::size_t step,
                                        const SessionResult& latest,
                                        const std::optional<SessionResult>& previous = {},
                                        const ProgressionRule& rule = {}) {
  detail::require_rule(rule);
  detail::require_result(latest, room);
  if (step >= block.steps.size()) {
    detail::fail("a step of a block", "one that it has, counted from 0", static_cast<double>(step));
  }
  const detail::Judgement judgement = detail::judge(latest, previous, rule);
  if (judgement.move == Move::stop) {
    return {.move = Move::stop, .why = judgement.why, .source = judgement.source};
  }
  if (step + 1 == block.steps.size()) {
    return {.move = Move::go_on,
            .why = "the block is done: plan the next one from what its sets say",
            .source = block_source};
  }
  const BlockStep& now = block.steps[step];
  const BlockStep& then = block.steps[step + 1];
  const Mass planned = latest.load * (then.loading.total() / now.loading.total());
  const auto go_on = [&](Mass load, std::string_view why, const Source& source) -> NextLoad {
    return {.move = Move::go_on,
            .loading = room.at_most(load).value_or(room.empty_bar()),
            .why = why,
            .source = source};
  };

  if (now.plan.stage != Stage::lighter && then.plan.stage == Stage::lighter) {
    return go_on(planned, "the lighter week comes next, however the last session went",
                 block_source);
  }
  if (latest.has_miss && now.plan.stage != Stage::working) {
    return detail::stepped_back(room, latest.load, rule.step_back,
                                {.move = Move::step_back,
                                 .why = "a repetition was missed in a session that misses none",
                                 .source = step_back_source});
  }
  if (now.plan.stage == Stage::introduction) {
    const auto beyond = latest.beyond_plan();
    if (latest.fewest_done < latest.reps.count() || !beyond || *beyond < 0.0) {
      return detail::held(room, latest.load,
                          "an introduction goes on when all of its reserve was left, and rated",
                          introduction_source);
    }
  } else if (judgement.move == Move::step_back) {
    return detail::stepped_back(room, latest.load, rule.step_back, judgement);
  } else if (judgement.move == Move::hold && !judgement.is_as_planned) {
    return detail::held(room, latest.load, judgement.why, judgement.source);
  }
  // From a lighter week back up, the heaviest load of the block is what a tenth is counted from.
  if (then.plan.stage == Stage::retest) {
    return go_on(std::min(planned, then.loading.total()), judgement.why, judgement.source);
  }
  const Mass next = std::min(planned, latest.load * detail::greatest_rise);
  if (judgement.move == Move::go_on && now.plan.stage == Stage::working) {
    const auto more = raised(latest.load, rule.increase, room);
    if (more && more->total() > next) {
      return {
          .move = Move::go_on, .loading = more, .why = judgement.why, .source = judgement.source};
    }
  }
  return go_on(next, judgement.why, judgement.source);
}

}  // namespace barwright::inline BARWRIGHT_ABI
