// barwright/training/block.hpp - some weeks of one lift
//
// A block leads a lift from its introduction, where it is new, through working weeks to a lighter
// week and a retest. The loads come from a max and a ratio, or from any function of the caller's: a
// strength model's loads with a bounded risk, say. Each is rounded down to what the room can load,
// none is more than a tenth above the heaviest before it, and none, in the introduction either, is
// above what that function gives.
//
// No gain is planned and none is promised. Loads rise over the working weeks because less is to be
// left in reserve; more than that has to be shown by sets. `next_load` (block_progress.hpp)
// reads how a session went and says what to load next.
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
// The order of a block and its deload are common practice without a source.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <concepts>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/adapters.hpp"
#include "barwright/curves/rep_curve.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/plates/room.hpp"
#include "barwright/training/back_off.hpp"
#include "barwright/training/introduction.hpp"
#include "barwright/training/prescription.hpp"
#include "barwright/training/progression.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// The parts of a block, in their order.
enum class Stage : unsigned char { introduction, working, deload, retest };

[[nodiscard]] constexpr std::string_view to_text(Stage stage) noexcept {
  switch (stage) {
    case Stage::introduction: return "introduction";
    case Stage::working: return "working";
    case Stage::deload: return "deload";
    case Stage::retest: return "retest";
  }
  return "";
}

inline constexpr Source block_source = common_practice(
    "weeks of work with less and less in reserve, a deload, a retest; no trial was read that "
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
        "reps is no surer than one that was lifted"};

/// How the effort goes through the working weeks (common practice, no source).
enum class BlockShape : unsigned char {
  rising,  ///< a little less in reserve from week to week
  steps,   ///< the same for two weeks, then less
  waves,   ///< three weeks of less and less, then back, each wave beginning harder than the last
};

/// What a block is to be.
struct BlockSettings {
  int sessions_a_week = 2;           ///< of this lift: 1 to 7
  int working_weeks = 4;             ///< 1 to 26
  int sets = 3;                      ///< work sets a session: 1 to 20
  Reps reps{6};                      ///< in each
  RepsInReserve first_reserve{3.0};  ///< in the first working week
  RepsInReserve last_reserve{2.0};   ///< in the last: no more than in the first
  BlockShape shape = BlockShape::rising;
  bool has_deload = true;
  double deload_cut = 0.10;  ///< of the last working load: 0.05 to 0.5
  bool has_retest = true;
  Reps retest_reps{3};
  /// A retest is a set, not a max attempt: 1 or more stay in reserve, and a curve says the rest.
  RepsInReserve retest_reserve{2.0};
  int earlier_sessions = 0;         ///< of this very lift, by this lifter
  std::optional<Mass> last_load{};  ///< of the last of them: the block starts no higher than 10 %
                                    ///< above it
  /// The heaviest load done before for as many reps as the retest has: the tenth that a
  /// retest may rise is counted from it, where it is more than the block's own.
  std::optional<Mass> shown_before_retest{};
};

/// One session of a block, before its load is known.
struct StepPlan {
  int week = 1;      ///< of the block
  int session = 1;   ///< of the week
  int exposure = 1;  ///< how many times the lifter will have done the lift, earlier sessions too
  Stage stage = Stage::working;
  int sets = 1;
  Reps reps{1};
  RepsInReserve reserve{};  ///< stop every set with at least this many in reserve
  bool to_reserve = false;  ///< a retest: as many reps as leave `reserve`, `reps` or more
};

/// What keeps a load below the one wanted, rounding apart.
enum class StepLimit : unsigned char {
  none,
  greatest_rise,     ///< 10 % above the heaviest load before
  plate_gap,         ///< the next loading is more than 10 % above the heaviest: add reps first
  equipment,         ///< there are no more plates
  working_load,      ///< an introduction stays at or below the work it leads to
  falling_forecast,  ///< an earlier session of as many sets, reps and reserve was heavier
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
  StepLimit limit = StepLimit::none;
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
  if (!(settings.deload_cut >= 0.05 && settings.deload_cut <= 0.5)) {
    fail("what a deload takes off", "a share from 0.05 to 0.5", settings.deload_cut);
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
  const int last = settings.working_weeks - 1;
  int halves_taken = halves * week / last;  // whole halves, so far
  if (settings.shape == BlockShape::steps) {
    const int last_step = last / 2;
    halves_taken = last_step == 0 ? halves_taken : halves * (week / 2) / last_step;
  } else if (settings.shape == BlockShape::waves && week != last) {
    // The troughs end where the block does; the crests come down to them wave by wave.
    const int crest = halves * (week / 3) / (last / 3 + 1);
    halves_taken = crest + (halves - crest) * (week % 3) / 2;
  } else if (settings.shape == BlockShape::waves) {
    halves_taken = halves;
  }
  return RepsInReserve(first - 0.5 * halves_taken);
}

[[nodiscard]] constexpr Conditions conditions_of(Stage stage,
                                                 std::string_view introduced) noexcept {
  switch (stage) {
    case Stage::introduction:
      return {introduced, "anything less than that: the same session again", "a rep was missed"};
    case Stage::working:
      return {
          "every rep was made, and the last set was less than one rep short of the RIR asked for",
          "a rep was missed for the first time, a set was cut short or not rated, or the last set "
          "was a rep or more short of the RIR asked for: the same load again",
          "a rep was missed, or the RIR was a rep or more short, two sessions in a row; or a set "
          "was missed by two reps or more"};
    case Stage::deload:
      return {"it felt light: every rep was made at the RIR asked for",
              "it did not: another light session first", "a rep was missed"};
    case Stage::retest:
      return {"work out the 1RM from the set, and plan the next block from it", {}, {}};
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
  /// A session lighter than the last work; of half the reps where the room has nothing
  /// lighter.
  void add_lighter(StepPlan plan, Mass wanted, Mass work) {
    const Loading loading = room_.at_most(wanted).value_or(room_.empty_bar());
    if (loading.total() >= work) plan.reps = Reps((plan.reps.count() + 1) / 2);
    put(plan, wanted, loading, StepLimit::none, {});
  }
  /// A retest. Where it would be no heavier than the work, as many reps as leave its reserve
  /// say more than those asked for: the work had them already.
  template <class F>
  void add_retest(StepPlan plan, F& load_for) {
    const Mass wanted = load_for(plan);
    const auto& shown = settings_.shown_before_retest;
    if (shown && (!heaviest_ || *heaviest_ < *shown)) heaviest_ = shown;
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
  [[nodiscard]] StepLimit limit_of(const StepPlan& plan, Mass wanted, Mass allowed,
                                   const Loading& loading) const {
    const Mass total = loading.total();
    const auto has_more = [&](Mass load) {
      const auto other = room_.at_most(load);
      return other && other->total() > total * (1.0 + on_the_load);
    };
    if (has_more(allowed)) {
      return total > *heaviest_ * (1.0 + on_the_load) ? StepLimit::greatest_rise
                                                      : StepLimit::plate_gap;
    }
    for (const BlockStep& earlier : block_.steps) {
      if (earlier.loading.total() > total * (1.0 + on_the_load) && earlier.plan.sets >= plan.sets &&
          earlier.plan.reps >= plan.reps && earlier.plan.reserve >= plan.reserve) {
        return StepLimit::falling_forecast;
      }
    }
    if (has_more(wanted)) return StepLimit::working_load;
    return room_.at_least(wanted) ? StepLimit::none : StepLimit::equipment;
  }
  void put(const StepPlan& plan, Mass wanted, const Loading& loading, StepLimit limit,
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
/// already; the working weeks; a deload of about half the sets; one session of retest. What
/// the introduction leaves of its last week is worked like the first working week.
///
/// Loads are rounded down to the room. None is more than 10 % above the heaviest before it, so
/// where more is wanted it is reached in steps; `StepLimit` says so. An introduction stays at or
/// below what `load_for` gives for the session and for the first week's work, so that a bound held
/// by `load_for` is held by every session. Where the room has nothing lighter, the deload halves
/// the reps; a retest no heavier than the work goes on until its reserve is reached.
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
  if (settings.has_deload) {
    const Mass last_work = block.last_load();
    const Mass lighter = back_off(last_work, settings.deload_cut);
    const RepsInReserve hardest = detail::working_reserve(settings, settings.working_weeks - 1);
    const double reserve = std::min(hardest.count() + 2.0, RepsInReserve::most);
    for (int i = 0; i < settings.sessions_a_week; ++i) {
      block.add_lighter(
          block.next(Stage::deload, (settings.sets + 1) / 2, settings.reps, RepsInReserve(reserve)),
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
/// @throws DomainError also where the curve is not defined for so many reps.
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

}  // namespace barwright::inline BARWRIGHT_ABI
