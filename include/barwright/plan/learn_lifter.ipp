// barwright/plan/learn_lifter.ipp - the bodies of learn_lifter.hpp
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "barwright/learn/strength_model.hpp"
#include "barwright/lifts/catalogue.hpp"
#include "barwright/plan/learn_lifter.hpp"
#include "barwright/plan/lifter.hpp"

namespace barwright::inline BARWRIGHT_ABI {

namespace detail {

/// The answers of a fit.
class FittedStrength final : public Strength {
 public:
  explicit FittedStrength(std::shared_ptr<const StrengthFit> fit) : fit_(std::move(fit)) {}

  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date date) const override {
    return fit_->max(lift, date);
  }
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const override {
    return fit_->ratio(lift);
  }
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const override {
    return fit_->stretch(lift);
  }
  [[nodiscard]] double share_of_max(const Lift& lift, Date date, double reps) const override {
    return fit_->share_of_max(lift, date, reps);
  }
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                         int earlier_sets) const override {
    return fit_->chance_of_missing(lift, load, reps, date, earlier_sets);
  }
  [[nodiscard]] BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left, Date date,
                                     const RiskBound& bound) const override {
    return fit_->load_for(lift, reps, left, date, bound);
  }

 private:
  std::shared_ptr<const StrengthFit> fit_;
};

/// A stated max answers for the plain lift; what its variations cost, the fit knows from their
/// sets.
class StatedWithVariations final : public Strength {
 public:
  StatedWithVariations(std::shared_ptr<const Strength> plain,
                       std::shared_ptr<const Strength> others)
      : plain_(std::move(plain)), others_(std::move(others)) {}

  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date date) const override {
    return of(lift).max(lift, date);
  }
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const override {
    return of(lift).ratio(lift);
  }
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const override {
    return of(lift).stretch(lift);
  }
  [[nodiscard]] double share_of_max(const Lift& lift, Date date, double reps) const override {
    return of(lift).share_of_max(lift, date, reps);
  }
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                         int earlier_sets) const override {
    return of(lift).chance_of_missing(lift, load, reps, date, earlier_sets);
  }
  [[nodiscard]] BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left, Date date,
                                     const RiskBound& bound) const override {
    return of(lift).load_for(lift, reps, left, date, bound);
  }

 private:
  [[nodiscard]] const Strength& of(const Lift& lift) const noexcept {
    return lift.is_plain() ? *plain_ : *others_;
  }

  std::shared_ptr<const Strength> plain_;
  std::shared_ptr<const Strength> others_;
};

/// The lighter of two readings of a log.
///
/// Of a beginner some time after the last session, whose gains were fast because there were
/// sessions, nobody knows whether so much is still to be had: the readings are of a beginner and of
/// anybody, and neither grows while nothing is done, as the gap is no training. Of a log with sets
/// that may have been missed they are with those sets and without them.
class LighterReading final : public Strength {
  /// Of both readings, on the day and on the last that gains are counted for.
  template <class Answer, class IsLighter>
  [[nodiscard]] auto lightest(Date date, Answer&& answer, IsLighter&& is_lighter) const {
    auto least = answer(*usual_, date);
    const auto look_at = [&](const Strength& strength, Date day) {
      const auto other = answer(strength, day);
      if (is_lighter(other, least)) least = other;
    };
    look_at(*other_, date);
    if (grows_until_ < date) {
      look_at(*usual_, grows_until_);
      look_at(*other_, grows_until_);
    }
    return least;
  }

 public:
  /// @param usual        what costs of variations and shares of a max are read from
  /// @param grows_until  the last day by which the sessions done still say of gains to come
  LighterReading(std::shared_ptr<const Strength> usual, std::shared_ptr<const Strength> other,
                 Date grows_until = Date(Date::last_year, 12, 31))
      : usual_(std::move(usual)), other_(std::move(other)), grows_until_(grows_until) {}

  [[nodiscard]] Estimate<Mass> max(const Lift& lift, Date date) const override {
    const auto answer = [&](const Strength& by, Date day) { return by.max(lift, day); };
    return lightest(date, answer,
                    [](const auto& a, const auto& b) { return a.median() < b.median(); });
  }
  [[nodiscard]] Estimate<double> ratio(const Lift& lift) const override {
    return usual_->ratio(lift);
  }
  [[nodiscard]] Estimate<double> stretch(const Lift& lift) const override {
    return usual_->stretch(lift);
  }
  [[nodiscard]] double share_of_max(const Lift& lift, Date date, double reps) const override {
    return usual_->share_of_max(lift, date, reps);
  }
  [[nodiscard]] double chance_of_missing(const Lift& lift, Mass load, Reps reps, Date date,
                                         int earlier_sets) const override {
    const auto answer = [&](const Strength& by, Date day) {
      return by.chance_of_missing(lift, load, reps, day, earlier_sets);
    };
    return lightest(date, answer, [](double a, double b) { return a > b; });
  }
  [[nodiscard]] BoundedLoad load_for(const Lift& lift, Reps reps, RepsInReserve left, Date date,
                                     const RiskBound& bound) const override {
    const auto answer = [&](const Strength& by, Date day) {
      return by.load_for(lift, reps, left, day, bound);
    };
    return lightest(date, answer, [](const auto& a, const auto& b) { return a.load < b.load; });
  }

 private:
  std::shared_ptr<const Strength> usual_;
  std::shared_ptr<const Strength> other_;
  Date grows_until_;
};

/// The variations that came in later than some days after the first set of any form of the lift:
/// those were new to the lifter. What turns up sooner was most likely there before the log.
inline std::vector<Lift> lifts_new_in(std::span<const LoggedSet> sets, const Lift& base,
                                      int settled_after_days) {
  std::vector<std::pair<Lift, Date>> firsts;
  for (const LoggedSet& set : sets) {
    if (!set.lift.base().same_as(base.base())) continue;
    const auto known = std::find_if(firsts.begin(), firsts.end(), [&](const auto& first) {
      return first.first.same_as(set.lift);
    });
    if (known == firsts.end()) {
      firsts.emplace_back(set.lift, set.date);
    } else {
      known->second = std::min(known->second, set.date);
    }
  }
  std::vector<Lift> lifts;
  for (const auto& [lift, first] : firsts) {
    const auto is_old = [&, day = first](const auto& other) {
      return day - other.second > settled_after_days;
    };
    if (!lift.is_plain() && std::any_of(firsts.begin(), firsts.end(), is_old)) {
      lifts.push_back(lift);
    }
  }
  return lifts;
}

/// A model of the lift `base`, as the sets of a log kept by hand need it.
inline StrengthSettings settings_for(std::span<const LoggedSet> sets, const Lift& base,
                                     const LifterFacts& facts) {
  StrengthSettings settings{
      .reference = base,
      .curve = facts.curve,
      .experience = facts.experience,
      .new_lifts = lifts_new_in(sets, base, facts.rules.settled_after_days),
      .unlogged_is_new = true,
  };
  settings.priors.most_counted_reserve = facts.rules.most_counted_reserve;
  for (const SessionsBefore& done : facts.done_before) {
    const Date last(Date::last_year, 12, 31);
    if (done.sessions <= sessions_of(sets, done.lift, last)) continue;
    std::erase_if(settings.new_lifts, [&](const Lift& lift) { return lift.same_as(done.lift); });
    settings.known_lifts.push_back(done.lift);
  }
  return settings;
}

inline std::shared_ptr<const StrengthFit> fit_of(const StrengthSettings& settings,
                                                 std::span<const LoggedSet> sets) {
  StrengthModel model(settings);
  for (const LoggedSet& set : sets) model.add(set);
  return std::make_shared<const StrengthFit>(model.fit());
}

/// The last session's best set, where it says far more than all before it. Looks at the sets by
/// themselves: the model has them in common, and so would hide the jump.
inline std::optional<SuddenJump> find_jump(const LearntLifter& lifter) {
  struct Reading {
    const LoggedSet* set;
    Mass max;  // on the base lift
  };
  std::vector<Reading> readings;
  Date last_day(Date::first_year, 1, 1);
  for (const LoggedSet& set : lifter.used) {
    // Not rated, a set says no more than what was done.
    const double reps = reps_to_failure(set).value_or(set.reps.count());
    if (reps < 1.0) continue;
    const double share = lifter.fit->ratio(set.lift).median() *
                         std::exp(lifter.fit->settings().curve.log_fraction(reps));
    readings.push_back({&set, set.load / share});
    last_day = std::max(last_day, set.date);
  }
  const auto best = [&](const auto& counts) {
    const Reading* found = nullptr;
    for (const Reading& each : readings) {
      if (counts(last_day - each.set->date) && (found == nullptr || each.max > found->max)) {
        found = &each;
      }
    }
    return found;
  };
  const int stale = lifter.rules.stale_days;
  const Reading* const last = best([](int days) { return days == 0; });
  const Reading* before = best([=](int days) { return days > 0 && days <= stale; });
  if (before == nullptr) before = best([](int days) { return days > 0; });
  if (last == nullptr || before == nullptr) return std::nullopt;
  const double share = last->max / before->max - 1.0;
  if (!(share > lifter.rules.doubtful_jump)) return std::nullopt;
  return SuddenJump{.set = *last->set, .share = share};
}

/// Puts a fit and what it made of each set into a lifter.
/// @param of_fit  the sets that were fitted
inline void take_fit(LearntLifter& lifter, std::shared_ptr<const StrengthFit> fit,
                     std::span<const LoggedSet> log, std::span<const std::size_t> of_fit) {
  std::vector<bool> is_left_out(log.size());
  for (std::size_t i = 0; i < of_fit.size(); ++i) {
    const SetReport& report = fit->reports()[i];
    const LoggedSet& set = log[of_fit[i]];
    if (report.use == SetReport::Use::suspicious) {
      is_left_out[of_fit[i]] = true;
      lifter.suspects.push_back(
          {.index = of_fit[i],
           .set = set,
           .expected = report.expected_load,
           .slip = likely_slip(set.load, report.expected_load, set.lift.dumbbells())});
    }
    if (report.use == SetReport::Use::used) lifter.used.push_back(set);
  }
  for (std::size_t i = 0; i < log.size(); ++i) {
    if (!is_left_out[i]) lifter.sets.push_back(log[i]);
  }
  lifter.learnt =
      Learnt{.sets_used = fit->sets_used(),
             .days = days_of(lifter.used, [](const LoggedSet& set) { return set.date; }),
             .trend = fit->trend(),
             .more_left = fit->rating_bias().mean};
  lifter.strength = std::make_shared<const FittedStrength>(fit);
  lifter.fit = std::move(fit);
}

/// A fit without the gains that a beginner's flag adds, of a lifter who has not trained for a
/// while.
/// @param sets  that were fitted
[[nodiscard]] inline std::shared_ptr<const Strength> without_gains(
    const LearntLifter& lifter, std::shared_ptr<const StrengthFit> fit, StrengthSettings settings,
    std::span<const LoggedSet> sets, Date today) {
  auto usual = std::make_shared<const FittedStrength>(std::move(fit));
  if (lifter.experience != Experience::novice || lifter.learnt->sets_used == 0) return usual;
  const std::optional<int> days = days_off(lifter, today - 1);  // what is done today ends the gap
  if (!days || *days + 1 <= lifter.rules.novice_gain_days) return usual;
  settings.experience = Experience::experienced;
  return std::make_shared<const LighterReading>(
      std::make_shared<const FittedStrength>(fit_of(settings, sets)), std::move(usual),
      today - (*days + 1) + lifter.rules.novice_gain_days);
}

/// Lets nothing rest on sets that may have been missed: where the others say less, that holds.
/// What they would say as completed is kept, to tell whether it matters.
/// @param sets  that were fitted
inline void take_off_doubted_sets(LearntLifter& lifter, const StrengthSettings& settings,
                                  std::span<const LoggedSet> sets, Date today) {
  const auto is_doubted = [&](const LoggedSet& set) {
    return set.may_be_missed && set.lift.base().same_as(lifter.base.base());
  };
  if (std::none_of(lifter.sets.begin(), lifter.sets.end(), is_doubted)) return;
  lifter.if_completed = lifter.strength;
  std::vector<LoggedSet> certain(sets.begin(), sets.end());
  if (std::erase_if(certain, is_doubted) == 0) return;
  std::vector<LoggedSet> completed(sets.begin(), sets.end());
  for (LoggedSet& set : completed) set.may_be_missed = false;
  lifter.if_completed =
      without_gains(lifter, fit_of(settings, completed), settings, completed, today);
  const auto fit = fit_of(settings, certain);
  if (fit->sets_used() == 0) return;
  lifter.strength = std::make_shared<const LighterReading>(
      lifter.strength, std::make_shared<const FittedStrength>(fit));
}

/// What the usual smallest step adds to the heaviest load of the lift's last day.
inline double one_step_up(std::span<const LoggedSet> sets, const Lift& base,
                          const PlanningRules& rules) {
  const Mass step = Mass::from_kg(rules.unclear_step_kg);
  std::optional<Date> last;
  Mass heaviest{};
  for (const LoggedSet& set : sets) {
    if (!set.lift.base().same_as(base.base()) || (last && set.date < *last)) continue;
    if (!last || *last < set.date) heaviest = {};
    last = set.date;
    heaviest = std::max(heaviest, set.load);
  }
  return heaviest > step ? std::max(rules.unclear_step, step / heaviest) : 1.0;
}

/// The greatest 1RM that a set of the plain bench press shows, 0 without one.
inline Mass shown_bench_press(std::span<const LoggedSet> sets, const CurveTable& curve) {
  Mass most{};
  for (const LoggedSet& set : sets) {
    if (!set.lift.same_as(lifts::bench_press)) continue;
    const double reps = reps_to_failure(set).value_or(set.reps.count());
    if (reps < 1.0 || !(set.load > Mass{})) continue;
    most = std::max(most, set.load.whole_of(std::exp(curve.log_fraction(reps))));
  }
  return most;
}

}  // namespace detail

inline LearntLifter learn_lifter(std::span<const LoggedSet> log, const Lift& base, Date today,
                                 const LifterFacts& facts) {
  check(facts.rules);
  std::vector<LoggedSet> sets;
  std::vector<std::size_t> places;  // in the log
  for (std::size_t i = 0; i < log.size(); ++i) {
    if (today < log[i].date) continue;
    sets.push_back(log[i]);
    places.push_back(i);
  }
  LearntLifter lifter{noted_lifter(log, base, today, facts)};
  lifter.sets.clear();
  // Before anything else is made of them: the planners read the reserve of past sessions, too.
  LogDoubts& doubts = lifter.doubts;
  if (facts.ratings == RatingScale::as_found) {
    const RatingsRead read = ratings_read(sets, base.base());
    doubts.reads_like_rpe = read == RatingsRead::as_rpe;
    doubts.may_be_rpe = read == RatingsRead::unclear;
  }
  if (doubts.may_be_rpe) {
    lifter.rules.greatest_rise =
        std::min(facts.rules.greatest_rise, detail::one_step_up(sets, base, facts.rules));
  }
  if (doubts.reads_like_rpe || facts.ratings == RatingScale::rpe) sets = read_as_rpe(sets);
  for (LoggedSet& set : sets) {
    if (lifter.body && set.lift.base().same_as(base.base())) set.load += *lifter.body;
  }
  StrengthSettings settings = detail::settings_for(sets, base, facts);
  std::vector<std::size_t> of_fit(sets.size());
  for (std::size_t i = 0; i < sets.size(); ++i) of_fit[i] = i;
  if (!facts.stated_max) {
    detail::take_fit(lifter, detail::fit_of(settings, sets), sets, of_fit);
    lifter.learnt->days_since = days_off(lifter, today).value_or(0);
    for (SuspectSet& suspect : lifter.suspects) suspect.index = places[suspect.index];
    const int days_left_out =
        detail::days_of(lifter.suspects, [](const SuspectSet& each) { return each.set.date; });
    const int days_used =
        detail::days_of(lifter.used, [](const LoggedSet& set) { return set.date; });
    doubts.has_few_sets_left = days_used < facts.rules.days_to_outweigh_one * days_left_out;
    doubts.jump = detail::find_jump(lifter);
    lifter.strength = detail::without_gains(lifter, lifter.fit, settings, sets, today);
    detail::take_off_doubted_sets(lifter, settings, sets, today);
    return lifter;
  }

  std::optional<Range<Mass>> by_log;
  const std::optional<int> days = days_off(Lifter{.base = base, .sets = sets}, today);
  if (days && *days <= facts.rules.stale_days) {
    const auto fit = detail::fit_of(settings, sets);
    if (fit->sets_used() > 0) by_log = fit->max(base, today).interval(0.99);
  }
  const Mass stated = *facts.stated_max + lifter.body.value_or(Mass{});
  settings.priors.max = stated;
  settings.priors.max_log_sd = facts.rules.stated_max_deviation;
  // Of the last weeks, what says what a variation costs.
  of_fit.clear();
  std::vector<LoggedSet> recent;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const Lift& lift = sets[i].lift;
    if (!lift.base().same_as(base.base()) || lift.is_plain()) continue;
    if (today - sets[i].date >= facts.rules.recent_days) continue;
    recent.push_back(sets[i]);
    of_fit.push_back(i);
  }
  detail::take_fit(lifter, detail::fit_of(settings, recent), sets, of_fit);
  lifter.learnt->days_since = days_off(lifter, today).value_or(0);
  for (SuspectSet& suspect : lifter.suspects) suspect.index = places[suspect.index];
  lifter.strength = detail::without_gains(lifter, lifter.fit, settings, recent, today);
  detail::take_off_doubted_sets(lifter, settings, recent, today);
  const auto plain = stated_lifter(base, facts).strength;
  for (std::shared_ptr<const Strength>* const each : {&lifter.strength, &lifter.if_completed}) {
    if (*each) *each = std::make_shared<const detail::StatedWithVariations>(plain, *each);
  }
  lifter.stated_max = checked_max(stated, base, by_log);
  if (base.base().family == LiftFamily::overhead_press && !by_log &&
      lifter.stated_max->check == StatedMaxCheck::fits) {
    const Mass bench_press = detail::shown_bench_press(sets, facts.curve);
    if (bench_press > Mass{} && stated > bench_press) {
      lifter.stated_max->check = StatedMaxCheck::above_bench_press;
    }
  }
  return lifter;
}

}  // namespace barwright::inline BARWRIGHT_ABI
