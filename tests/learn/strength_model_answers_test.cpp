// What the strength model of barwright/learn/strength_model.hpp answers, figure by figure: the same
// with every compiler and standard library, and not otherwise than before without our meaning it.
//
// These figures are the library's own, so they are no check from outside: whether the answers are
// right is the matter of strength_model_test.cpp and strength_model_calibration_test.cpp. Compilers
// round differently, and the climb of fit() carries that on: the tolerance below is what the
// documentation promises (docs/trust.md). After a change that is meant,
//
//     BARWRIGHT_WRITE_ANSWERS=answers.csv barwright_tests -tc="*answers are those on record*"
//
// writes the new ones; they go to tests/data/strength-model-answers.csv with a word on the change.
// The logs are invented.
// SPDX-License-Identifier: BSL-1.0
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "barwright/learn/strength_model.hpp"
#include "csv_table.hpp"

using namespace barwright;
using namespace barwright::literals;
using barwright_test::relative_error;

namespace {

constexpr Date monday(2026, 1, 5);
const Lift plain = lifts::bench_press;
const Lift feet_up = lifts::bench_press + modifiers::feet_up;
const Lift both = lifts::bench_press + modifiers::feet_up + modifiers::flat_back;
const Lift close_grip = lifts::bench_press + modifiers::close_grip;

LoggedSet unrated(int day, const Lift& lift, double kg, int reps) {
  return {.date = monday + day, .lift = lift, .load = Mass::from_kg(kg), .reps = Reps(reps)};
}
LoggedSet missed(int day, const Lift& lift, double kg, int reps) {
  LoggedSet set = unrated(day, lift, kg, reps);
  set.outcome = Outcome::missed;
  return set;
}
LoggedSet rated(int day, const Lift& lift, double kg, int reps, double reserve,
                double give_or_take = 0.0) {
  LoggedSet set = unrated(day, lift, kg, reps);
  set.reserve = Range<RepsInReserve>(RepsInReserve(reserve - give_or_take), RepsInReserve(reserve),
                                     RepsInReserve(reserve + give_or_take));
  return set;
}

/// Training without luck, so that no two libraries' random numbers can differ: four lifts by turns,
/// warm-ups, sets of 2 to 9 with none to seven left, some rated roughly or not at all, some missed,
/// ratings that err by turns.
std::vector<LoggedSet> training(int sessions, int sets_a_session) {
  static const CurveTable curve = equations::wathen;
  const Lift lifts[] = {plain, feet_up, plain, both, close_grip};
  const double ratios[] = {1.0, 0.96, 1.0, 0.91, 0.97};
  std::vector<LoggedSet> log;
  int day = 0;
  for (int session = 0; session < sessions; ++session) {
    day += 1 + session % 3 + (session % 11 == 10 ? 12 : 0);
    const auto which = static_cast<std::size_t>(session % 5);
    const Lift& lift = lifts[which];
    const double form = 0.02 * (session * 5 % 7 - 3) / 3.0;
    const double max = 100.0 * ratios[which] * std::exp(form + 0.0004 * day);
    log.push_back(unrated(day, lift, 40.0, 5));
    for (int i = 0; i < sets_a_session; ++i) {
      const int reps = 2 + (3 * session + 2 * i) % 8;
      const double left = (session + 2 * i) % 5 * 0.5 + (i == 0 && session % 4 == 3 ? 5.0 : 0.0);
      const double share = std::exp(curve.log_fraction(reps + left + 0.5)) * (1.0 - 0.01 * i);
      const double kg = 2.5 * std::floor(max * share / 2.5 + 0.37);
      const double said = std::fmax(left + 0.5 * ((session + i) % 3 - 1), 0.0);
      if (session % 6 == 5 && i + 1 == sets_a_session) {
        log.push_back(missed(day, lift, kg + 5.0, reps));
      } else if ((session + i) % 7 == 6) {
        log.push_back(unrated(day, lift, kg, reps));
      } else {
        log.push_back(rated(day, lift, kg, reps, said, said >= 1.0 && i == 1 ? 1.0 : 0.0));
      }
    }
  }
  return log;
}

StrengthSettings with_new_lift(Experience experience = Experience::experienced) {
  StrengthSettings settings;
  settings.experience = experience;
  settings.new_lifts = {both};
  return settings;
}

struct Story {
  std::string name;
  StrengthSettings settings;
  std::vector<LoggedSet> log;
};

std::vector<Story> stories() {
  std::vector<Story> all;
  all.push_back({"nothing", with_new_lift(), {}});
  const std::pair<const char*, LoggedSet> first_sets[] = {
      {"none left", rated(0, plain, 90, 4, 0)},
      {"two left", rated(0, plain, 90, 4, 2)},
      {"one to three left", rated(0, feet_up, 90, 4, 2, 1)},
      {"nine left", rated(0, plain, 90, 4, 9)},
      {"missed single", missed(0, plain, 90, 1)},
      {"missed fourth", missed(0, close_grip, 90, 4)},
      {"no rating", unrated(0, plain, 90, 4)},
      {"thirty repetitions", rated(0, plain, 50, 30, 1)}};
  for (const auto& [name, set] : first_sets) {
    all.push_back({name, {}, {set}});
    all.push_back({std::string(name) + ", then two left",
                   {},
                   {set, rated(0, plain, 85, 5, 2), rated(9, plain, 100, 2, 1)}});
  }
  all.push_back({"five weeks", with_new_lift(), training(13, 4)});
  all.push_back({"half a year", with_new_lift(Experience::novice), training(60, 5)});
  all.push_back({"three years", {}, training(300, 5)});
  {
    std::vector<LoggedSet> log = training(20, 4);
    log[7].load = log[7].load * 2.2;  // typed wrong
    log[41].load = log[41].load / 2.2;
    log[60].reps = Reps(log[60].reps.count() + 10);
    std::swap(log[3], log[70]);  // not in order
    StrengthSettings settings;
    settings.curve = equations::brzycki;
    settings.priors.max = 60_kg;
    settings.priors.learning_kept = 0.7;
    settings.priors.set_loss = 0.02;
    all.push_back({"slips", settings, log});
  }
  all.push_back(
      {"contradiction", {}, {rated(0, plain, 60, 5, 2), rated(2, plain, 150, 5, 2, 0.5)}});
  all.push_back(
      {"short against long sets",
       {},
       {rated(0, plain, 100, 1, 0), rated(1, plain, 50, 8, 1), rated(2, plain, 45, 12, 0),
        rated(4, plain, 100, 1, 0.5), rated(5, feet_up, 80, 12, 0), missed(6, feet_up, 85, 12)}});
  return all;
}

/// What a log answers, by question.
std::map<std::string, double> answers_of(const Story& story) {
  StrengthModel model(story.settings);
  for (const LoggedSet& set : story.log) model.add(set);
  const StrengthFit fit = model.fit();
  std::map<std::string, double> answers;
  const auto estimate = [&](const std::string& what, const auto& of) {
    answers[what + ", log mean"] = of.log_mean();
    answers[what + ", log deviation"] = of.log_sd();
  };
  const auto change = [&](const std::string& what, const Change& of) {
    answers[what + ", mean"] = of.mean();
    answers[what + ", deviation"] = of.standard_deviation();
  };
  const Date first = story.log.empty() ? monday : story.log.front().date;
  const Date last = story.log.empty() ? monday : story.log.back().date;
  const std::pair<const char*, Date> dates[] = {{"30 days before", first - 30},
                                                {"on the first day", first},
                                                {"half way", first + (last - first) / 2},
                                                {"10 days after", last + 10}};
  const std::pair<const char*, Lift> lifts[] = {{"plain", plain},
                                                {"feet up", feet_up},
                                                {"feet up and flat back", both},
                                                {"close grip", close_grip}};
  for (const auto& [name, lift] : lifts) {
    const std::string of = name + std::string(": ");
    estimate(of + "stretch", fit.stretch(lift));
    estimate(of + "max on the last day", fit.max(lift, last));
    if (story.log.size() < 4) continue;  // short logs say little of anything else
    estimate(of + "ratio", fit.ratio(lift));
    for (const auto& [when, date] : dates) {
      estimate(of + "max " + when, fit.max(lift, date));
    }
    const auto joint = fit.joint(lift, last + 3, 2);
    for (std::size_t i = 0; i < 3; ++i) {
      const std::string row = of + "joint " + std::to_string(i);
      answers[row] = joint.mean[i];
      for (std::size_t j = 0; j <= i; ++j) {
        answers[row + " " + std::to_string(j)] = joint.covariance[i][j];
      }
    }
    const double max = fit.max(lift, last + 3).median().kg();
    for (const auto& [reps, share] : {std::pair{1, 0.97}, {4, 0.88}, {9, 0.75}, {20, 0.45}}) {
      const std::string sets = of + std::to_string(reps) + " repetitions";
      answers[sets + ", chance"] = fit.chance_of_missing(lift, Mass::from_kg(max * share),
                                                         Reps(reps), last + 3, reps == 4 ? 3 : 0);
      answers[sets + ", bounded load"] =
          fit.load_for(lift, Reps(reps), 0_rir, last + 3, {.max_chance_of_missing = 0.02})
              .load.kg();
      answers[sets + ", load"] = fit.load_for(lift, Reps(reps), 4_rir, last + 3).load.kg();
    }
    if (const auto gain = fit.gain(lift, first, last)) change(of + "gain", *gain);
    if (const auto carried = fit.carry_over(lift)) change(of + "carried over", *carried);
    if (const auto gap = fit.learning_gain(lift)) estimate(of + "learning gain", *gap);
  }
  change("trend", fit.trend());
  change("loss with each set", fit.set_loss());
  answers["rating bias, mean"] = fit.rating_bias().mean;
  answers["rating bias, deviation"] = fit.rating_bias().standard_deviation;
  answers["sets used"] = fit.sets_used();
  // Of long logs the beginning, the end and what lies far off.
  const auto reports = fit.reports();
  for (std::size_t i = 0; i < reports.size(); ++i) {
    const bool is_suspicious = reports[i].use == SetReport::Use::suspicious;
    if (i >= 12 && i + 12 < reports.size() && !is_suspicious) continue;
    const std::string set = "set " + std::to_string(i);
    answers[set + " is suspicious"] = is_suspicious ? 1.0 : 0.0;
    answers[set + ", surprise"] = reports[i].surprise;
    answers[set + ", expected ratio"] = reports[i].expected_ratio;
    answers[set + ", expected load"] = reports[i].expected_load.kg();
  }
  return answers;
}

}  // namespace

TEST_CASE("the answers are those on record, with any compiler") {
  const char* const file = std::getenv("BARWRIGHT_WRITE_ANSWERS");
  if (file) {
    std::ofstream out(file);
    out << "# What the strength model answers to the logs of strength_model_answers_test.cpp; its "
           "own\n"
           "# figures, not a source. That file says how they are written.\n"
           "log,question,answer\n";
    for (const Story& story : stories()) {
      for (const auto& [question, answer] : answers_of(story)) {
        char number[40];
        (void)std::snprintf(number, sizeof number, "%.10g", answer);
        out << '"' << story.name << "\",\"" << question << "\"," << number << '\n';
      }
    }
    REQUIRE(out.good());
    return;
  }
  std::map<std::string, std::map<std::string, double>> on_record;
  const barwright_test::CsvTable table("strength-model-answers.csv");
  for (const auto& row : table.rows()) {
    on_record[row.text("log")][row.text("question")] = row.number("answer");
  }
  constexpr double tolerance = 1e-7;
  for (const Story& story : stories()) {
    CAPTURE(story.name);
    const auto answers = answers_of(story);
    const auto& expected = on_record[story.name];
    CHECK(answers.size() == expected.size());
    for (const auto& answer : answers) {
      CAPTURE(answer.first);
      const auto known = expected.find(answer.first);
      REQUIRE(known != expected.end());
      CHECK(relative_error(answer.second, known->second, 1e-3) < tolerance);
    }
  }
}
