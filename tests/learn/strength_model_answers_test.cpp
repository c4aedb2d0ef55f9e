// What the strength model of barwright/learn/strength_model.hpp tells a lifter: not otherwise than
// before without our meaning it.
//
// These figures are the library's own, so they are no check from outside: whether the answers are
// right is the matter of strength_model_test.cpp and strength_model_calibration_test.cpp. After a
// change that is meant,
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
      {"thirty reps", rated(0, plain, 50, 30, 1)}};
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

/// What a log answers, by question: what a lifter would be shown.
std::map<std::string, double> answers_of(const Story& story) {
  StrengthModel model(story.settings);
  for (const LoggedSet& set : story.log) model.add(set);
  const StrengthFit fit = model.fit();
  const Date last = story.log.empty() ? monday : story.log.back().date;
  const Date next = last + 3;
  const Range<Mass> max = fit.max(plain, next).interval(0.90);
  const BoundedLoad load = fit.load_for(feet_up, 5_reps, 2_rir, next);
  return {{"max on the plain lift in three days, kg", max.typical.kg()},
          {"its interval from, kg", max.low.kg()},
          {"its interval to, kg", max.high.kg()},
          {"load for five feet up with two left, kg", load.load.kg()},
          {"chance of missing it, %", 100.0 * load.chance_of_missing},
          {"sets used", static_cast<double>(fit.sets_used())}};
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
        (void)std::snprintf(number, sizeof number, "%.4g", answer);
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
  // As much as somebody would notice: half a kilogram on a hundred, one miss in a hundred sets.
  const auto tolerance = [](const std::string& question, double answer) {
    if (question == "sets used") return 0.0;
    return question.find('%') != std::string::npos ? 1.0 : 0.005 * answer;
  };
  for (const Story& story : stories()) {
    CAPTURE(story.name);
    const auto answers = answers_of(story);
    const auto& expected = on_record[story.name];
    CHECK(answers.size() == expected.size());
    for (const auto& answer : answers) {
      CAPTURE(answer.first);
      const auto known = expected.find(answer.first);
      REQUIRE(known != expected.end());
      CHECK(std::fabs(answer.second - known->second) <= tolerance(answer.first, known->second));
    }
  }
}
