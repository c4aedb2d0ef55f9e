// bench/real_lifters.cpp - the strength model held against real people
//
//     real_lifters FOLDER [threads]
//
// FOLDER holds the data, one folder a set, those that are there: docs/real-lifters.md says where
// they come from, under which licence, and what their columns are. Nothing of them is in this
// program. For each set: how many people, what was asked, and the figure with its 95 % interval.
// SPDX-License-Identifier: BSL-1.0
#include "real_lifters.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace {

using namespace real_lifters;

void report_series(const std::string& folder, unsigned threads) {
  const std::vector<Series> all = sets_to_failure(folder);
  const SeriesFigures figures = judge_series(all, threads);
  print_heading("Sets to failure over 12 weeks: " + std::to_string(figures.people.size()) +
                " people, " + std::to_string(figures.series) + " series, " +
                std::to_string(figures.predictions) + " next sessions");
  const auto row = [&](const std::string& what, std::size_t first) {
    const auto count = [first](const PersonRow& s) { return s[first]; };
    print_per_cent(what + ": in the 90 % interval, %",
                   over_people(figures.people, [&](auto& s) { return s[first + 3] / count(s); }));
    print_row(what + ": mean score",
              over_people(figures.people, [&](auto& s) { return s[first + 1] / count(s); }),
              "%+.2f");
    print_row(what + ": sd of the score",
              over_people(figures.people,
                          [&](auto& s) {
                            const double mean = s[first + 1] / count(s);
                            return std::sqrt(s[first + 2] / count(s) - mean * mean);
                          }),
              "%.2f");
  };
  row("next session", next_session);
  row("next session, after a gap over 20 days", after_gap);
  row("three to eight weeks ahead", weeks_ahead);
  for (const auto& [where, first] :
       {std::pair{"", missed_next}, std::pair{", after a gap over 20 days", missed_after_gap}}) {
    for (std::size_t b = 0; b < bounds.size(); ++b) {
      const std::size_t at = first + 3 * b;
      const std::string what =
          "bound " + std::to_string(static_cast<int>(100.0 * bounds[b] + 0.5)) + " %" + where;
      double n = 0.0;
      for (const PersonRow& person : figures.people) n += person[at];
      print_per_cent(what + ", " + std::to_string(static_cast<int>(n)) + " sets: missed, %",
                     over_people(figures.people, [at](auto& s) { return s[at + 1] / s[at]; }));
      print_per_cent(what + ": predicted, %",
                     over_people(figures.people, [at](auto& s) { return s[at + 2] / s[at]; }));
    }
  }
}

void report_tested(const std::string& title, const std::vector<Tested>& people) {
  print_heading(title + ": " + std::to_string(people.size()) + " people");
  std::array<std::vector<double>, 2> medians;
  for (const Told told : {Told::missed_the_next, Told::none_left}) {
    const std::string how =
        told == Told::missed_the_next ? "told as a miss: " : "told as none left: ";
    int held = 0;
    int held_on_the_day = 0;
    std::vector<double> errors;
    for (const Tested& person : people) {
      const TestedAnswer answer = ask_for_max(person, told);
      held += answer.is_held ? 1 : 0;
      held_on_the_day += answer.is_held_on_the_day ? 1 : 0;
      errors.push_back(100.0 * answer.log_error);
    }
    const int n = static_cast<int>(people.size());
    print_per_cent(how + "tested max in the 90 % interval, " + std::to_string(held) + " of " +
                       std::to_string(n),
                   binomial_share(held, n));
    print_per_cent(how + "as a single of that day, " + std::to_string(held_on_the_day) + " of " +
                       std::to_string(n),
                   binomial_share(held_on_the_day, n));
    print_row(how + "median estimate above tested, %", median_of(errors), "%+.1f");
    medians[told == Told::missed_the_next ? 0 : 1] = errors;
  }
  std::vector<double> apart;
  for (std::size_t i = 0; i < people.size(); ++i) apart.push_back(medians[1][i] - medians[0][i]);
  print_row("none left above a miss, median, %", median_of(apart), "%+.2f");
}

void report_equations(const std::string& folder) {
  std::vector<Tested> people;
  for (const bool in_one_visit : {true, false}) {
    for (Tested& person : bench_three_loads(folder, in_one_visit)) {
      people.push_back(std::move(person));
    }
  }
  // Both visits of one man are one person's.
  std::map<std::string, std::vector<Tested::Done>> sets_of;
  std::map<std::string, double> max_of;
  for (const Tested& person : people) {
    max_of[person.person] = person.max_kg;
    for (const Tested::Done& set : person.sets) sets_of[person.person].push_back(set);
  }
  std::printf(
      "\n### Equations on 84 sets of 14 men, %% of the tested max (95 %% interval of the mean)\n\n"
      "| equation | mean error | sd | at 90 %% | at 80 %% | at 70 %% "
      "|\n|---|---|---|---|---|---|\n");
  const auto row_of = [&](std::string_view name, auto one_rep_max) {
    std::vector<std::array<double, 9>> rows;
    for (const auto& [person, sets] : sets_of) {
      std::array<double, 9> row{};
      for (const Tested::Done& set : sets) {
        const double off = 100.0 * (one_rep_max(set.load_kg, set.reps) / max_of[person] - 1.0);
        row[0] += 1.0;
        row[1] += off;
        row[2] += off * off;
        const double share = set.load_kg / max_of[person];
        const std::size_t load = share > 0.85 ? 3 : share > 0.75 ? 5 : 7;
        row[load] += 1.0;
        row[load + 1] += off;
      }
      rows.push_back(row);
    }
    const Measured mean = over_people(rows, [](auto& s) { return s[1] / s[0]; });
    const Measured sd = over_people(
        rows, [](auto& s) { return std::sqrt((s[2] - s[1] * s[1] / s[0]) / (s[0] - 1.0)); });
    const auto at = [&](std::size_t load) {
      return over_people(rows, [load](auto& s) { return s[load + 1] / s[load]; }).value;
    };
    std::printf("| %.*s | %+.1f (%+.1f to %+.1f) | %.1f | %+.1f | %+.1f | %+.1f |\n",
                static_cast<int>(name.size()), name.data(), mean.value, mean.low, mean.high,
                sd.value, at(3), at(5), at(7));
  };
  const auto of_curve = [&](std::string_view name, const auto& curve) {
    row_of(name, [&curve](double load, int reps) { return load / curve.fraction(reps); });
  };
  of_curve("Adams", equations::adams);
  of_curve("Berger", equations::berger);
  of_curve("Brown", equations::brown);
  of_curve("Brzycki", equations::brzycki);
  of_curve("Epley", equations::epley);
  of_curve("Kemmler", equations::kemmler);
  of_curve("Lander", equations::lander);
  of_curve("Lombardi", equations::lombardi);
  of_curve("Mayhew", equations::mayhew);
  of_curve("O'Conner", equations::oconner);
  of_curve("Reynolds, chest press", equations::reynolds_chest_press);
  of_curve("Wathen", equations::wathen);
  of_curve("Welday", equations::welday);
}

void report_beginners(const std::string& folder) {
  const std::vector<Beginner> all = max_tests(folder);
  std::map<std::string, std::vector<Beginner>> by_person;
  for (const Beginner& one : all) by_person[one.person].push_back(one);
  std::vector<std::array<double, 4>> rows;
  for (const auto& [person, series] : by_person) rows.push_back(judge_beginner(series));
  double n = 0.0;
  for (const auto& row : rows) n += row[0];
  print_heading("Beginners' tested maxes: " + std::to_string(rows.size()) + " people, " +
                std::to_string(static_cast<int>(n)) + " tests three to ten weeks ahead");
  print_per_cent("as a single of that day, in the 90 % interval, %",
                 over_people(rows, [](auto& s) { return s[1] / s[0]; }));
  print_row("estimate above tested, mean, %",
            over_people(rows, [](auto& s) { return s[2] / s[0]; }), "%+.1f");
  print_row("its sd, %", over_people(rows, [](auto& s) {
              const double mean = s[2] / s[0];
              return std::sqrt(s[3] / s[0] - mean * mean);
            }));
}

void report_meets(const std::string& folder, unsigned threads) {
  constexpr int each = 4;
  const std::vector<Competitor> all = competitors(folder, each);
  const std::vector<MeetRow> rows = judge_meets(all, threads);
  double n = 0.0;
  for (const MeetRow& row : rows) n += row[0];
  print_heading("Singles in meets, from earlier meets only: " + std::to_string(rows.size()) +
                " lifters (one in " + std::to_string(each) + "), " +
                std::to_string(static_cast<int>(n)) + " attempts");
  for (std::size_t b = 0; b + 1 < meet_bins.size(); ++b) {
    const std::size_t at = 1 + 3 * b;
    double count = 0.0;
    for (const MeetRow& row : rows) count += row[at];
    std::array<char, 80> what{};
    std::snprintf(what.data(), what.size(), "predicted %g to %g %%, %d attempts",
                  100.0 * meet_bins[b], 100.0 * meet_bins[b + 1], static_cast<int>(count));
    print_per_cent(std::string(what.data()) + ": missed, %",
                   over_people(rows, [at](auto& s) { return s[at + 1] / s[at]; }));
    print_per_cent(std::string(what.data()) + ": predicted, %",
                   over_people(rows, [at](auto& s) { return s[at + 2] / s[at]; }));
  }
  constexpr std::size_t at = 1 + 3 * (meet_bins.size() - 1);
  print_per_cent("the day's max may lie in the 90 % interval, %",
                 over_people(rows, [](auto& s) { return s[at + 1] / s[at]; }));
}

}  // namespace

int main(int argc, char** argv) try {
  if (argc < 2) {
    std::fprintf(stderr,
                 "real_lifters FOLDER [threads]: docs/real-lifters.md says what it holds\n");
    return 2;
  }
  const std::string folder = argv[1];
  const unsigned threads = argc > 2 ? static_cast<unsigned>(std::max(1, std::atoi(argv[2])))
                                    : std::max(1U, std::thread::hardware_concurrency());
  const auto is_there = [&](const char* set) {
    const bool is = std::filesystem::is_directory(folder + "/" + set);
    if (!is) std::printf("\n%s: not there\n", set);
    return is;
  };
  if (is_there("bench-three-loads")) {
    report_tested("Bench press, 90, 80 and 70 % on three days", bench_three_loads(folder, false));
    report_tested("Bench press, 90, 80 and 70 % on one day", bench_three_loads(folder, true));
    report_equations(folder);
  }
  if (is_there("athletes-fixed-loads")) {
    report_tested("Girls' bench press, one set of 60 lb", girls_fixed_load(folder, false));
    report_tested("Girls' leg press, one set of 200 lb", girls_fixed_load(folder, true));
  }
  if (is_there("max-tests-12-weeks")) report_beginners(folder);
  if (is_there("sets-to-failure-12-weeks")) report_series(folder, threads);
  if (is_there("powerlifting-attempts")) report_meets(folder, threads);
} catch (const std::exception& error) {
  std::fprintf(stderr, "real_lifters: %s\n", error.what());
  return 1;
}
