// bench/closed_loop_trainee.hpp - a lifter who trains by what they are told, made of nothing of the
// library's model
//
// Only what the library prints reaches this lifter, and only what they log reaches the library. The
// curve is a power law, as no curve of the library is; the max follows a steady gain and wanders
// about it; days are good, bad and sometimes very bad; a set costs more the closer it comes to
// failure; ratings of one session err together. The figures are assumptions, set beside what real
// people show (docs/real-lifters.md): 5, 9 and 15 reps at 90, 80 and 70 % of the max, the
// form of the day and the wander of the level 2 to 3 %.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>

namespace closed_loop {

inline constexpr int weeks = 12;
inline constexpr int sessions_a_week = 2;
inline constexpr int sessions = weeks * sessions_a_week;
inline constexpr int most_sets = 4;

/// What one set came to.
struct DoneSet {
  double load_kg = 0.0;
  int planned = 0;
  double left = 0.0;  ///< truly; below zero when the last rep was missed
  bool is_rated = false;
  double said = 0.0;  ///< reps left, as rated

  [[nodiscard]] bool is_missed() const { return left < 0.0; }
  /// Reps that went up.
  [[nodiscard]] int done() const {
    return is_missed() ? std::max(0, static_cast<int>(std::floor(planned + left))) : planned;
  }
};

/// What is drawn for one day beforehand, so that all ways of planning meet the same days.
struct Day {
  double log_max = 0.0;
  double form = 0.0;
  double rating = 0.0;                        ///< error of all ratings of the day, reps
  std::array<double, most_sets> noise{};      ///< of each rating, in its deviation
  std::array<double, most_sets> more_reps{};  ///< more or fewer in each set
  std::array<bool, most_sets> is_rated{};
};

/// One lifter's next weeks, whatever they will lift.
class Trainee {
 public:
  /// @param gain  of the max each week
  Trainee(std::uint64_t seed, double gain) : generator_(seed * 0x9E3779B97F4A7C15U + 1U) {
    const double max = std::clamp(85.0 * std::exp(0.35 * normal()), 35.0, 220.0);
    steepness_ = 0.035 * std::exp(0.20 * normal());
    power_ = 0.95 + 0.06 * normal();
    loss_ = 0.004 + 0.010 * uniform();
    bias_ = 0.4 + 0.6 * normal();
    is_rating_whole_ = uniform() < 0.6;
    guess_kg_ = max * std::exp(0.08 * normal());
    double wander = 0.02 * normal();
    for (int i = 0; i < sessions; ++i) {
      Day& day = days_[static_cast<std::size_t>(i)];
      const double week = static_cast<double>(day_number(i)) / 7.0;
      if (i > 0) {
        const double kept = std::pow(0.85, (day_number(i) - day_number(i - 1)) / 7.0);
        wander = kept * wander + 0.02 * std::sqrt(1.0 - kept * kept) * normal();
      }
      day.log_max = std::log(max) + gain * week + wander;
      day.form = uniform() < 0.1 ? -0.02 + 0.04 * normal() : 0.002 + 0.022 * normal();
      day.rating = 0.4 * normal();
      for (int s = 0; s < most_sets; ++s) {
        day.noise[static_cast<std::size_t>(s)] = normal();
        day.more_reps[static_cast<std::size_t>(s)] = 0.3 * normal();
        day.is_rated[static_cast<std::size_t>(s)] = uniform() >= 0.08;
      }
    }
  }

  /// The day of a session, from the first.
  [[nodiscard]] static int day_number(int session) {
    return 7 * (session / sessions_a_week) + 3 * (session % sessions_a_week);
  }
  /// What they think their max is before the first session.
  [[nodiscard]] double guess_kg() const { return guess_kg_; }

  /// The load that leaves so many after `earlier` sets, on a day of average form: what one who
  /// knows the max would ask for.
  [[nodiscard]] double ideal_kg(int session, int earlier, double reps_to_failure) const {
    const Day& day = days_[static_cast<std::size_t>(session)];
    return std::exp(day.log_max - 1.3 * loss_ * earlier) * share(reps_to_failure);
  }

  /// Sets of one session are done in order; each tires the lifter for the next.
  class Session {
   public:
    Session(const Trainee& lifter, int number)
        : lifter_(&lifter), day_(lifter.days_[static_cast<std::size_t>(number)]) {}

    DoneSet perform(double load_kg, int planned) {
      const auto s = static_cast<std::size_t>(sets_++);
      const double capacity = std::exp(day_.log_max + day_.form - tired_);
      DoneSet set{.load_kg = load_kg, .planned = planned};
      set.left = lifter_->reps_at(load_kg / capacity) + day_.more_reps[s] - planned;
      tired_ += lifter_->loss_ * (1.0 + 1.5 * std::exp(-std::max(set.left, 0.0)));
      if (set.is_missed() || !day_.is_rated[s]) return set;
      set.is_rated = true;
      const double spread = (0.7 + 0.15 * set.left) * (planned > 10 ? 1.5 : 1.0);
      const double said = set.left - lifter_->bias_ + day_.rating + spread * day_.noise[s];
      const double step = lifter_->is_rating_whole_ ? 1.0 : 0.5;
      set.said = std::clamp(step * std::round(said / step), 0.0, 12.0);
      return set;
    }

   private:
    const Trainee* lifter_;
    Day day_;
    int sets_ = 0;
    double tired_ = 0.0;
  };

 private:
  friend class Session;

  /// Of the max, with which so many go up: 1 at one rep.
  [[nodiscard]] double share(double reps) const {
    const double beyond = reps - 1.0;
    return 1.0 / (1.0 + steepness_ * std::copysign(std::pow(std::fabs(beyond), power_), beyond));
  }
  [[nodiscard]] double reps_at(double share) const {
    const double over = (1.0 / share - 1.0) / steepness_;
    return 1.0 + std::copysign(std::pow(std::fabs(over), 1.0 / power_), over);
  }
  double normal() { return normal_(generator_); }
  double uniform() { return uniform_(generator_); }

  std::mt19937_64 generator_;
  std::normal_distribution<double> normal_;
  std::uniform_real_distribution<double> uniform_;
  std::array<Day, sessions> days_{};
  double steepness_ = 0.0;
  double power_ = 1.0;
  double loss_ = 0.0;
  double bias_ = 0.0;  ///< left unsaid
  bool is_rating_whole_ = false;
  double guess_kg_ = 0.0;
};

}  // namespace closed_loop
