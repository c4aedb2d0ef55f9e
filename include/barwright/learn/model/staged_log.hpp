// barwright/learn/model/staged_log.hpp - a training log made ready for the model
//
// The sets of one base lift by day, each with its lift's number, the logarithm of its load and what
// its rating says; and what depends on the sets around it: the sets before it on the day, how much
// practice a new lift has had, and where nothing else says how much was left.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <set>
#include <span>
#include <tuple>
#include <utility>
#include <vector>

#include "barwright/core/date.hpp"
#include "barwright/core/effort.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/range.hpp"
#include "barwright/learn/model/observation.hpp"
#include "barwright/learn/model/shaped_curve.hpp"
#include "barwright/learn/strength_settings.hpp"
#include "barwright/lifts/lift.hpp"
#include "barwright/lifts/modifier.hpp"
#include "barwright/log/logged_set.hpp"

namespace barwright::inline BARWRIGHT_ABI::detail {

inline constexpr double days_a_week = 7.0;
inline constexpr double half_a_step = 0.25;  // ratings come in steps of one half
inline constexpr RepsInReserve lowest_estimate{0.5};

/// The shapes of a lifter's curves are found by so many sets, the last of a longer log: years ago
/// they may have been others, and the sets since tell enough.
inline constexpr std::size_t most_sets_for_shapes = 2400;

/// One set, made ready for the filter.
struct ModelSet {
  enum class Kind : unsigned char {
    rated,
    rated_none_left,  ///< nothing left, or less: the scale ends there
    rated_many_left,  ///< more than a rating counts
    missed,
    unrated,
  };
  std::size_t index = 0;  ///< in the order of adding
  std::size_t session = 0;
  std::size_t lift = 0;  ///< in the list of lifts
  double log_load = 0.0;
  double reps = 0.0;        ///< tried
  double to_failure = 0.0;  ///< as observed
  double at_most = 0.0;     ///< to failure; where only sets with too many left to count are known
  double deviation = 0.0;   ///< of to_failure, where it does not depend on the prediction
  double earlier_sets = 0.0;
  double learning = 0.0;  ///< how much of the learning gap is still open
  Kind kind = Kind::rated;
  RatedSet::Says says = RatedSet::Says::this_many;
  bool is_first_news = false;  ///< nothing else says how much was left
  bool is_again = false;       ///< rated, with a load and reps as in a set before
  bool is_left_out = false;

  /// Whether its reserve was counted: not so of a set without rating, or with too many left.
  [[nodiscard]] bool is_counted() const noexcept {
    return kind != Kind::unrated && kind != Kind::rated_many_left;
  }
};

/// One lift of the log.
struct ModelLift {
  Lift lift;
  std::vector<std::size_t> modifiers{};  ///< in the list of modifiers
  std::ptrdiff_t gap = -1;               ///< number of its learning gap, or -1: not a new lift
  int sessions_before = 0;               ///< the sets of the log (last_day.hpp)
};

/// The log, numbered.
struct StagedLog {
  std::vector<const Modifier*> modifiers{};  ///< of the lifts in the log
  std::vector<ModelLift> lifts{};
  std::size_t gaps = 0;            ///< lifts that are new
  std::vector<ModelSet> sets{};    ///< by day, in the order of adding within one
  std::vector<Date> dates{};       ///< of the sessions
  std::vector<bool> is_odd_day{};  ///< by session: unlike the others (outliers.hpp)
  std::size_t first_news = 0;      ///< the set before which nothing is known
  bool has_counted = false;        ///< whether the reserve of a set was counted

  [[nodiscard]] bool has_sets() const noexcept { return !sets.empty(); }

  [[nodiscard]] std::vector<const Modifier*>::const_iterator find(
      const Modifier& modifier) const noexcept {
    return std::find_if(modifiers.begin(), modifiers.end(),
                        [&](const Modifier* known) { return known->same_as(modifier); });
  }

  /// Sessions of a lift before a day.
  [[nodiscard]] int sessions_before(std::size_t lift, Date date) const noexcept {
    int sessions = lifts[lift].sessions_before;
    std::size_t last = dates.size();
    for (const ModelSet& set : sets) {
      if (set.lift != lift || set.session == last || !(dates[set.session] < date)) continue;
      last = set.session;
      ++sessions;
    }
    return sessions;
  }
};

/// The rep curve of the lifter as believed beforehand.
[[nodiscard]] inline ShapedCurve usual_curve(const StrengthSettings& settings) noexcept {
  return {settings.curve, std::exp(settings.priors.stretch_log), settings.priors.bend};
}

/// What ratings leave unsaid before the log says more: beginners leave less (`rating_error`).
[[nodiscard]] inline double usual_bias(const StrengthSettings& settings) noexcept {
  const auto bias = [](Experience experience) { return rating_error(2.0, 7.0, experience).bias; };
  return settings.priors.rating_bias + bias(settings.experience) - bias(Experience::experienced);
}

/// The share of a learning gap that is still open after so many sessions.
[[nodiscard]] inline double learning_open(const StrengthPriors& priors,
                                          int earlier_sessions) noexcept {
  return std::pow(priors.learning_kept, earlier_sessions);
}

/// One set by itself: what it lifted, and what its rating says.
[[nodiscard]] inline ModelSet staged_set(const StrengthSettings& settings,
                                         const LoggedSet& logged) {
  using SetKind = ModelSet::Kind;
  const StrengthPriors& p = settings.priors;
  ModelSet set;
  set.log_load = std::log(logged.load.kg());
  set.reps = logged.reps.count();
  if (logged.outcome == Outcome::missed) {
    set.kind = SetKind::missed;
    set.to_failure = set.reps - 1.0;
  } else if (logged.reserve) {
    const Range<RepsInReserve>& stated = *logged.reserve;
    set.to_failure = set.reps + stated.typical.count() + usual_bias(settings);
    set.deviation = (stated.high.count() - stated.low.count()) / std::sqrt(12.0);
    if (stated.typical == RepsInReserve{}) {
      set.kind = SetKind::rated_none_left;
      set.to_failure = set.reps + none_left_below;
    } else if (stated.typical == lowest_estimate) {
      set.says = RatedSet::Says::at_most;
      set.to_failure += half_a_step;
    } else if (stated.typical.count() > p.most_counted_reserve) {
      set.kind = SetKind::rated_many_left;
      set.says = RatedSet::Says::at_least;
      set.to_failure = set.reps + p.most_counted_reserve + half_a_step + usual_bias(settings);
    }
  } else {
    set.kind = SetKind::unrated;
    set.to_failure = set.reps;
  }
  return set;
}

/// For each set the greatest `value` of the day's sets of its lift.
template <class Value>
[[nodiscard]] std::vector<double> best_of_day(const StagedLog& log, Value&& value) {
  std::map<std::pair<std::size_t, std::size_t>, double> best;
  for (const ModelSet& set : log.sets) {
    const auto [known, is_new] = best.try_emplace({set.session, set.lift}, value(set));
    if (!is_new) known->second = std::max(known->second, value(set));
  }
  std::vector<double> of_each;
  of_each.reserve(log.sets.size());
  for (const ModelSet& set : log.sets) of_each.push_back(best.at({set.session, set.lift}));
  return of_each;
}

/// Marks the sets that the log begins with: the first whose reserve is known. Sets without a rating
/// say nothing of theirs beside it. Only where no set of the log has a rating, each session's best
/// ones are taken to have had the usual reserve; the lighter are warm-ups.
inline void find_first_news(StagedLog& log, const StrengthSettings& settings) {
  using SetKind = ModelSet::Kind;
  const auto first = std::find_if(log.sets.begin(), log.sets.end(),
                                  [](const ModelSet& set) { return set.is_counted(); });
  log.first_news = static_cast<std::size_t>(first - log.sets.begin());
  log.has_counted = first != log.sets.end();
  if (log.has_counted) {
    first->is_first_news = true;
    return;
  }
  constexpr double near_best = 0.1;  // of the logarithm of the max that a set implies
  const ShapedCurve usual = usual_curve(settings);
  const auto implied = [&](const ModelSet& set) {
    return set.log_load - usual.log_fraction(set.reps + settings.priors.unrated_reserve);
  };
  const std::vector<double> best = best_of_day(log, implied);
  for (std::size_t i = 0; i < log.sets.size(); ++i) {
    ModelSet& set = log.sets[i];
    if (set.kind != SetKind::unrated) continue;
    set.is_first_news = !(best[i] > implied(set) + near_best);
    if (set.is_first_news) log.first_news = std::min(log.first_news, i);
  }
}

/// Where no set of a log has a reserve that was counted, those with more left than that are all
/// there is: each day's heaviest are taken to have had at most twice what was said, and two more
/// (assumption). "At least so many" alone, set after set, would lead to twice the max that anybody
/// would take the lifter for.
inline void bound_easy_sets(StagedLog& log, std::span<const LoggedSet> logged_sets) {
  const auto is_counted = [](const ModelSet& set) { return set.is_counted(); };
  if (std::any_of(log.sets.begin(), log.sets.end(), is_counted)) return;
  const std::vector<double> heaviest =
      best_of_day(log, [](const ModelSet& set) { return set.log_load; });
  for (std::size_t i = 0; i < log.sets.size(); ++i) {
    ModelSet& set = log.sets[i];
    if (set.kind != ModelSet::Kind::rated_many_left || heaviest[i] > set.log_load) continue;
    set.at_most = set.reps + 2.0 * logged_sets[set.index].reserve->high.count() + 2.0;
  }
}

/// Counts sets and sessions of the same lift before each one. Sets below two thirds of the heaviest
/// that fits are warm-ups and tire nobody.
inline void count_earlier_sets(StagedLog& log, const StrengthPriors& priors) {
  constexpr double work_set = 2.0 / 3.0;
  std::vector<int> sessions_of;
  sessions_of.reserve(log.lifts.size());
  for (const ModelLift& lift : log.lifts) sessions_of.push_back(lift.sessions_before);
  std::vector<int> sets_of(log.lifts.size());
  std::vector<double> heaviest(log.lifts.size());
  std::vector<bool> is_done(log.lifts.size());
  for (std::size_t begin = 0; begin < log.sets.size();) {
    std::size_t end = begin;
    std::fill(sets_of.begin(), sets_of.end(), 0);
    std::fill(heaviest.begin(), heaviest.end(), -1e9);
    std::fill(is_done.begin(), is_done.end(), false);
    for (; end < log.sets.size() && log.sets[end].session == log.sets[begin].session; ++end) {
      const ModelSet& set = log.sets[end];
      is_done[set.lift] = true;
      if (!set.is_left_out) heaviest[set.lift] = std::max(heaviest[set.lift], set.log_load);
    }
    for (std::size_t i = begin; i < end; ++i) {
      ModelSet& set = log.sets[i];
      set.earlier_sets = sets_of[set.lift];
      set.learning = learning_open(priors, sessions_of[set.lift]);
      if (set.log_load > heaviest[set.lift] + std::log(work_set)) ++sets_of[set.lift];
    }
    for (std::size_t l = 0; l < log.lifts.size(); ++l) sessions_of[l] += is_done[l] ? 1 : 0;
    begin = end;
  }
}

/// Marks the rated sets whose load and reps were done before. What is left in such sets says how
/// strong the lifter was, but nothing of the shape of the curve: that the same is left each time
/// would mean, by the likelihood, that reps hardly change with the load; but whoever is asked for
/// two left writes "2" (assumption).
inline void find_sets_done_before(StagedLog& log) {
  constexpr double same_load = 0.005;  // of the load
  std::set<std::tuple<std::size_t, double, double>> known;
  if (log.sets.empty()) return;
  const double first = log.sets.front().log_load;  // so that a log in pounds is the same log
  const std::size_t begin = log.sets.size() - std::min(log.sets.size(), most_sets_for_shapes);
  for (std::size_t i = begin; i < log.sets.size(); ++i) {
    ModelSet& set = log.sets[i];
    if (set.kind == ModelSet::Kind::missed || set.kind == ModelSet::Kind::unrated) continue;
    const double load = std::round((set.log_load - first) / same_load);
    set.is_again = !known.emplace(set.lift, set.reps, load).second;
  }
}

/// @param reports  of each logged set; filled for those that say nothing of the reference lift
[[nodiscard]] inline StagedLog staged(const StrengthSettings& settings,
                                      std::span<const LoggedSet> logged_sets,
                                      std::vector<SetReport>& reports) {
  reports.assign(logged_sets.size(), {});
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < logged_sets.size(); ++i) {
    if (!logged_sets[i].lift.base().same_as(settings.reference.base())) {
      reports[i].use = SetReport::Use::other_base_lift;
    } else if (!(logged_sets[i].load > Mass{})) {
      reports[i].use = SetReport::Use::no_load;
    } else {
      order.push_back(i);
    }
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return logged_sets[a].date < logged_sets[b].date;
  });

  StagedLog log;
  for (const std::size_t i : order) {
    const LoggedSet& logged = logged_sets[i];
    if (log.dates.empty() || log.dates.back() < logged.date) log.dates.push_back(logged.date);
    auto lift = std::find_if(log.lifts.begin(), log.lifts.end(),
                             [&](const auto& own) { return own.lift.same_as(logged.lift); });
    if (lift == log.lifts.end()) {
      ModelLift added{.lift = logged.lift};
      for (const Modifier& modifier : logged.lift.modifiers()) {
        auto known = log.find(modifier);
        if (known == log.modifiers.end()) known = log.modifiers.insert(known, &modifier);
        added.modifiers.push_back(static_cast<std::size_t>(known - log.modifiers.begin()));
      }
      lift = log.lifts.insert(log.lifts.end(), std::move(added));
    }
    ModelSet set = staged_set(settings, logged);
    set.index = i;
    set.session = log.dates.size() - 1;
    set.lift = static_cast<std::size_t>(lift - log.lifts.begin());
    log.sets.push_back(set);
  }
  for (ModelLift& lift : log.lifts) {
    if (lift.lift.is_among(settings.new_lifts)) {
      lift.gap = static_cast<std::ptrdiff_t>(log.gaps++);
    }
  }
  log.is_odd_day.assign(log.dates.size(), false);
  count_earlier_sets(log, settings.priors);
  find_first_news(log, settings);
  bound_easy_sets(log, logged_sets);
  find_sets_done_before(log);
  return log;
}

}  // namespace barwright::inline BARWRIGHT_ABI::detail
