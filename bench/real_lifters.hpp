// bench/real_lifters.hpp - what is asked of the strength model about real people
//
// Every question is put before its answer: the model is given what was logged by then, says what it
// expects, and is held against what came. It is asked as any program would ask, by StrengthFit's
// public members, so that these figures hold for whatever it is made of.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <barwright/barwright.hpp>
#include <barwright/learning.hpp>
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "figures.hpp"
#include "real_lifters_data.hpp"

namespace real_lifters {

using namespace figures;

// ---- the next session, and weeks ahead ----------------------------------------------------------

inline constexpr std::array bounds{0.05, 0.10, 0.20};

// Where a person's sums begin. A score has four: count, sum, sum of squares, held; a bound three:
// count, missed, predicted.
inline constexpr std::size_t next_session = 0;
inline constexpr std::size_t after_gap = 4;
inline constexpr std::size_t weeks_ahead = 8;
inline constexpr std::size_t missed_next = 12;
inline constexpr std::size_t missed_after_gap = missed_next + 3 * bounds.size();
using PersonRow = std::array<double, missed_after_gap + 3 * bounds.size()>;

/// What a prediction says of reps that came out whole, on the scale on which a right prediction is
/// standard normal: the moments of its score, and how much of it the 90 % interval holds. Of a
/// whole number the prediction gives a stretch of chances, from `below` (fewer reps) to `up_to` (so
/// many or fewer), over which the score is spread evenly.
struct Score {
  double mean = 0.0;
  double square = 0.0;
  double held = 0.0;
};
[[nodiscard]] inline Score score_between(double below, double up_to) {
  constexpr double least = 1e-9;
  below = std::clamp(below, least, 1.0 - 2.0 * least);
  up_to = std::clamp(up_to, below + least, 1.0 - least);
  const double a = barwright::normal_quantile(below);
  const double b = barwright::normal_quantile(up_to);
  const double pa = barwright::normal_pdf(a);
  const double pb = barwright::normal_pdf(b);
  const double width = up_to - below;
  const double mean = (pa - pb) / width;
  const double inside = std::min(up_to, 0.95) - std::max(below, 0.05);
  return {mean, std::max((width + a * pa - b * pb) / width, mean * mean),
          std::clamp(inside / width, 0.0, 1.0)};
}

struct SeriesFigures {
  std::vector<PersonRow> people;
  int series = 0;
  int predictions = 0;
};

/// What one set to failure came to, against what the fit expected of it on that day.
[[nodiscard]] inline Score score_of(const StrengthFit& fit, const LoggedSet& set) {
  const int done = set.reps.count() - 1;
  const double up_to = fit.chance_of_missing(set.lift, set.load, Reps(done + 1), set.date);
  const double below =
      done == 0 ? 0.0 : fit.chance_of_missing(set.lift, set.load, Reps(done), set.date);
  return score_between(below, up_to);
}

inline void add_score(PersonRow& row, std::size_t first, const Score& score) {
  row[first] += 1.0;
  row[first + 1] += score.mean;
  row[first + 2] += score.square;
  row[first + 3] += score.held;
}

/// Had the set been planned at each bound: for the most reps at its load that the bound allows,
/// were they missed, and how likely was that said to be?
inline void add_bounds(PersonRow& row, std::size_t first, const StrengthFit& fit,
                       const LoggedSet& set) {
  const int done = set.reps.count() - 1;
  for (std::size_t b = 0; b < bounds.size(); ++b) {
    int planned = 0;
    double predicted = 0.0;
    while (planned < 40) {
      const double next = fit.chance_of_missing(set.lift, set.load, Reps(planned + 1), set.date);
      if (next > bounds[b]) break;
      predicted = next;
      ++planned;
    }
    if (planned == 0) continue;  // not even a single of this load was allowed
    row[first + 3 * b] += 1.0;
    row[first + 3 * b + 1] += done < planned ? 1.0 : 0.0;
    row[first + 3 * b + 2] += predicted;
  }
}

inline void judge_one(const Series& series, PersonRow& row) {
  StrengthModel model({.reference = series.lift});
  const std::vector<LoggedSet>& sets = series.sets;
  int days = 0;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const bool is_new_day = i == 0 || sets[i].date != sets[i - 1].date;
    if (is_new_day && days >= 2) {
      const StrengthFit fit = model.fit();
      const StrengthFit trained_on = fit.if_training_goes_on();
      add_score(row, next_session, score_of(fit, sets[i]));
      add_bounds(row, missed_next, fit, sets[i]);
      if (sets[i].date - sets[i - 1].date > 20) {
        add_score(row, after_gap, score_of(fit, sets[i]));
        add_bounds(row, missed_after_gap, fit, sets[i]);
      }
      for (std::size_t j = i; j < sets.size(); ++j) {
        const int ahead = sets[j].date - sets[i - 1].date;
        const bool is_first_of_day = sets[j].date != sets[j - 1].date;
        if (is_first_of_day && ahead >= 21 && ahead <= 56) {
          add_score(row, weeks_ahead, score_of(trained_on, sets[j]));
        }
      }
    }
    model.add(sets[i]);
    days += is_new_day ? 1 : 0;
  }
}

/// Series of at least four days, each session predicted from the third day on.
[[nodiscard]] inline SeriesFigures judge_series(const std::vector<Series>& all, unsigned threads) {
  std::vector<PersonRow> rows(all.size());
  std::vector<char> is_used(all.size());
  in_parallel(all.size(), threads, [&](std::size_t i) {
    int days = 0;
    for (std::size_t s = 0; s < all[i].sets.size(); ++s) {
      days += s == 0 || all[i].sets[s].date != all[i].sets[s - 1].date ? 1 : 0;
    }
    if (days < 4) return;
    is_used[i] = 1;
    judge_one(all[i], rows[i]);
  });
  SeriesFigures figures;
  std::map<std::string, PersonRow> by_person;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (is_used[i] == 0) continue;
    ++figures.series;
    figures.predictions += static_cast<int>(rows[i][next_session]);
    PersonRow& person = by_person[all[i].person];
    for (std::size_t k = 0; k < person.size(); ++k) person[k] += rows[i][k];
  }
  for (const auto& [id, row] : by_person) figures.people.push_back(row);
  return figures;
}

// ---- tested maxes -------------------------------------------------------------------------------

struct TestedAnswer {
  double log_error = 0.0;           ///< of the median estimate above the tested max
  bool is_held = false;             ///< in the 90 % interval of the max on a day of average form
  bool is_held_on_the_day = false;  ///< in that of what goes up once on a given day
};

[[nodiscard]] inline TestedAnswer ask_for_max(const Tested& person, Told told) {
  StrengthModel model({.reference = person.lift});
  for (const Tested::Done& set : person.sets) {
    model.add(set_to_failure(day_number(set.day), person.lift, Mass::from_kg(set.load_kg), set.reps,
                             told));
  }
  const StrengthFit fit = model.fit();
  const Date date = day_number(person.test_day);
  const Mass tested = Mass::from_kg(person.max_kg);
  const Estimate<Mass> max = fit.max(person.lift, date);
  const Range<Mass> interval = max.interval(0.90);
  const double below = fit.chance_of_missing(person.lift, tested, Reps(1), date);
  return {.log_error = std::log(max.median() / tested),
          .is_held = interval.low <= tested && tested <= interval.high,
          .is_held_on_the_day = below >= 0.05 && below <= 0.95};
}

/// Sums of one beginner: tests three to ten weeks after the last that the model was told, how many
/// the 90 % interval of a single on that day holds, error in per cent and its square.
[[nodiscard]] inline std::array<double, 4> judge_beginner(const std::vector<Beginner>& series) {
  std::array<double, 4> row{};
  for (const Beginner& one : series) {
    StrengthModel model(
        {.reference = one.lift, .experience = Experience::novice, .new_lifts = {one.lift}});
    for (std::size_t known = 0; known < one.tests.size(); ++known) {
      const auto& [day, max] = one.tests[known];
      model.add({.date = day_number(day),
                 .lift = one.lift,
                 .load = Mass::from_kg(max),
                 .reps = Reps(1),
                 .reserve = Range<RepsInReserve>::exactly(RepsInReserve(0.0))});
      if (known == 0) continue;  // practice is told from strength by a second test
      const StrengthFit fit = model.fit();
      for (std::size_t next = known + 1; next < one.tests.size(); ++next) {
        const int ahead = one.tests[next].first - day;
        if (ahead < 21 || ahead > 70) continue;
        const Date date = day_number(one.tests[next].first);
        const Mass tested = Mass::from_kg(one.tests[next].second);
        const double below = fit.chance_of_missing(one.lift, tested, Reps(1), date);
        const double off = 100.0 * std::log(fit.max(one.lift, date).median() / tested);
        row[0] += 1.0;
        row[1] += below >= 0.05 && below <= 0.95 ? 1.0 : 0.0;
        row[2] += off;
        row[3] += off * off;
      }
    }
  }
  return row;
}

// ---- meets --------------------------------------------------------------------------------------

inline constexpr std::array meet_bins{0.0, 0.01, 0.05, 0.20, 0.50, 1.0};
/// One lifter's: attempts; for each bin count, missed, predicted; days judged, held.
using MeetRow = std::array<double, 1 + 3 * (meet_bins.size() - 1) + 2>;

inline void judge_competitor(const Competitor& competitor, MeetRow& row) {
  StrengthModel model({.reference = competitor.lift});
  for (std::size_t m = 0; m < competitor.meets.size(); ++m) {
    const Competitor::Meet& meet = competitor.meets[m];
    const Date date = day_number(meet.day);
    if (m > 0) {
      const StrengthFit fit = model.fit();
      double best = 0.0;
      double least_missed = 0.0;
      for (const double attempt : meet.attempts_kg) {
        const double chance = fit.chance_of_missing(
            competitor.lift, Mass::from_kg(std::fabs(attempt)), Reps(1), date);
        row[0] += 1.0;
        std::size_t bin = 0;
        while (bin + 2 < meet_bins.size() && chance >= meet_bins[bin + 1]) ++bin;
        row[1 + 3 * bin] += 1.0;
        row[2 + 3 * bin] += attempt < 0.0 ? 1.0 : 0.0;
        row[3 + 3 * bin] += chance;
        if (attempt > 0.0) best = std::max(best, attempt);
      }
      for (const double attempt : meet.attempts_kg) {
        if (attempt < 0.0 && -attempt > best) {
          least_missed = least_missed > 0.0 ? std::min(least_missed, -attempt) : -attempt;
        }
      }
      if (best > 0.0 && least_missed > 0.0) {  // else the day's max has but one end
        const auto chance = [&](double kg) {
          return fit.chance_of_missing(competitor.lift, Mass::from_kg(kg), Reps(1), date);
        };
        const std::size_t at = row.size() - 2;
        row[at] += 1.0;
        row[at + 1] += chance(least_missed) >= 0.05 && chance(best) <= 0.95 ? 1.0 : 0.0;
      }
    }
    for (const double attempt : meet.attempts_kg) {
      LoggedSet set{.date = date,
                    .lift = competitor.lift,
                    .load = Mass::from_kg(std::fabs(attempt)),
                    .reps = Reps(1)};
      if (attempt < 0.0) set.outcome = Outcome::missed;
      model.add(set);
    }
  }
}

[[nodiscard]] inline std::vector<MeetRow> judge_meets(const std::vector<Competitor>& all,
                                                      unsigned threads) {
  std::vector<MeetRow> rows(all.size());
  in_parallel(all.size(), threads, [&](std::size_t i) { judge_competitor(all[i], rows[i]); });
  std::map<std::string, MeetRow> by_person;
  for (std::size_t i = 0; i < all.size(); ++i) {
    MeetRow& person = by_person[all[i].person];
    for (std::size_t k = 0; k < person.size(); ++k) person[k] += rows[i][k];
  }
  std::vector<MeetRow> people;
  for (const auto& [id, row] : by_person) people.push_back(row);
  return people;
}

}  // namespace real_lifters
