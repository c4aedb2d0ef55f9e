// bench/real_lifters_data.hpp - the tables of real people that real_lifters reads
//
// Each data set is a folder of comma-separated tables, as docs/real-lifters.md describes them. A
// table may be packed (`sets.csv.gz`): `gzip` unpacks it.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <barwright/barwright.hpp>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace real_lifters {

using namespace barwright;

/// A table whose first line names its columns; no field holds a comma.
class Table {
 public:
  explicit Table(const std::string& path) : path_(path) {
    std::istringstream lines(text_of(path));
    std::string line;
    while (std::getline(lines, line)) {
      if (line.empty() || line[0] == '#') continue;
      std::vector<std::string> fields(1);
      for (const char c : line) {
        if (c == ',') {
          fields.emplace_back();
        } else if (c != '\r') {
          fields.back() += c;
        }
      }
      if (columns_.empty()) {
        for (std::size_t i = 0; i < fields.size(); ++i) columns_[fields[i]] = i;
      } else {
        if (fields.size() != columns_.size()) throw std::runtime_error(path + ": " + line);
        rows_.push_back(std::move(fields));
      }
    }
    if (rows_.empty()) throw std::runtime_error(path + ": no rows");
  }

  [[nodiscard]] std::size_t size() const noexcept { return rows_.size(); }
  [[nodiscard]] const std::string& text(std::size_t row, const std::string& column) const {
    const auto found = columns_.find(column);
    if (found == columns_.end()) throw std::runtime_error(path_ + ": no column " + column);
    return rows_[row][found->second];
  }
  /// Nothing where the cell is empty.
  [[nodiscard]] std::optional<double> number(std::size_t row, const std::string& column) const {
    const std::string& field = text(row, column);
    if (field.empty()) return std::nullopt;
    char* end = nullptr;
    const double value = std::strtod(field.c_str(), &end);
    if (*end != '\0') throw std::runtime_error(path_ + ": \"" + field + "\" in " + column);
    return value;
  }

 private:
  [[nodiscard]] static std::string text_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (in) return {std::istreambuf_iterator<char>(in), {}};
    const std::string packed = path + ".gz";
    if (!std::filesystem::exists(packed) || packed.find('\'') != std::string::npos) {
      throw std::runtime_error("cannot read " + path);
    }
    std::FILE* pipe = popen(("gzip -dc '" + packed + "'").c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("cannot unpack " + packed);
    std::string text;
    char buffer[4096];
    for (std::size_t n = 1; n > 0;) {
      n = std::fread(buffer, 1, sizeof buffer, pipe);
      text.append(buffer, n);
    }
    if (pclose(pipe) != 0) throw std::runtime_error("cannot unpack " + packed);
    return text;
  }

  std::string path_;
  std::map<std::string, std::size_t> columns_;
  std::vector<std::vector<std::string>> rows_;
};

inline Date day_number(double day) { return Date(2026, 1, 5) + static_cast<int>(day); }

/// How a set to failure is written into the log.
enum class Told : unsigned char {
  missed_the_next,  ///< the rep after the last was tried and failed
  none_left,        ///< rated: nothing left
};

/// A set taken to failure after so many whole reps.
[[nodiscard]] inline LoggedSet set_to_failure(Date date, const Lift& lift, Mass load, int reps,
                                              Told told) {
  LoggedSet set{.date = date, .lift = lift, .load = load, .reps = Reps(reps < 1 ? 1 : reps)};
  if (told == Told::none_left && reps >= 1) {
    set.reserve = Range<RepsInReserve>::exactly(RepsInReserve(0.0));
  } else {
    set.reps = Reps(reps + 1);
    set.outcome = Outcome::missed;
  }
  return set;
}

/// A lift that the catalogue does not have.
inline constexpr BaseLift pulldown{.key = "machine_pulldown",
                                   .name = "machine pulldown",
                                   .family = LiftFamily::pull,
                                   .is_machine = true};
inline constexpr BaseLift leg_extension{.key = "leg_extension",
                                        .name = "leg extension",
                                        .region = Region::lower_body,
                                        .is_machine = true};

// ---- sets to failure over twelve weeks ----------------------------------------------------------

/// One person on one machine, sets in order of date.
struct Series {
  std::string person;
  Lift lift = lifts::bench_press;
  std::vector<LoggedSet> sets{};
};

[[nodiscard]] inline std::vector<Series> sets_to_failure(const std::string& folder) {
  const Table table(folder + "/sets-to-failure-12-weeks/sets.csv");
  std::vector<Series> all;
  std::map<std::pair<std::string, std::string>, std::size_t> places;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto day = table.number(i, "day");
    const auto load = table.number(i, "load_kg");
    const auto reps = table.number(i, "reps");
    if (!day || !load || !reps || !(*load > 0.0)) continue;
    const std::string& machine = table.text(i, "machine");
    const auto [place, is_new] = places.try_emplace({table.text(i, "id"), machine}, all.size());
    if (is_new) {
      const Lift lift = machine[0] == 'c'   ? Lift(lifts::bench_press)
                        : machine[0] == 'l' ? Lift(lifts::leg_press)
                                            : Lift(pulldown);
      all.push_back({.person = table.text(i, "id"), .lift = lift});
    }
    Series& series = all[place->second];
    series.sets.push_back(set_to_failure(day_number(*day), series.lift, Mass::from_kg(*load),
                                         static_cast<int>(*reps), Told::missed_the_next));
  }
  return all;
}

// ---- tested maxes -------------------------------------------------------------------------------

/// Sets to failure and the max that was tested beside them.
struct Tested {
  std::string person;
  Lift lift = lifts::bench_press;
  struct Done {
    int day;
    double load_kg;
    int reps;
  };
  std::vector<Done> sets{};
  int test_day = 0;
  double max_kg = 0.0;
};

/// 14 trained men, 90, 80 and 70 % of the max: on one day in that order, or on three days.
[[nodiscard]] inline std::vector<Tested> bench_three_loads(const std::string& folder,
                                                           bool in_one_visit) {
  const Table table(folder + "/bench-three-loads/reps.csv");
  std::vector<Tested> people;
  for (std::size_t i = 0; i < table.size(); ++i) {
    Tested person{.person = table.text(i, "id"), .max_kg = *table.number(i, "max_kg")};
    int day = 0;
    for (const char* share : {"90", "80", "70"}) {
      const std::string visit = in_one_visit ? "one_visit_reps" : "three_visits_reps";
      person.sets.push_back({day, *table.number(i, std::string("load") + share + "_kg"),
                             static_cast<int>(*table.number(i, visit + share))});
      if (!in_one_visit) day += 3;
    }
    person.test_day = in_one_visit ? 3 : day;
    people.push_back(std::move(person));
  }
  return people;
}

/// Girls of 14 to 18 who lift for their sport, one set each with a fixed load. Sets of more than
/// fifteen reps are beyond what the model is for.
[[nodiscard]] inline std::vector<Tested> girls_fixed_load(const std::string& folder,
                                                          bool is_leg_press) {
  constexpr double kg_a_pound = 0.45359237;
  const Table table(folder + "/athletes-fixed-loads/girls_high_school.csv");
  std::vector<Tested> people;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto max = table.number(i, is_leg_press ? "legpress_max_lb" : "bench_max_lb");
    const auto reps = table.number(i, is_leg_press ? "legpress_reps_200lb" : "bench_reps_60lb");
    if (!max || !reps || *reps < 1.0 || *reps > 15.0) continue;
    people.push_back(
        {.person = table.text(i, "id"),
         .lift = is_leg_press ? Lift(lifts::leg_press) : Lift(lifts::bench_press),
         .sets = {{0, kg_a_pound * (is_leg_press ? 200.0 : 60.0), static_cast<int>(*reps)}},
         .test_day = 3,
         .max_kg = kg_a_pound * *max});
  }
  return people;
}

/// Tested maxes of one beginner on one lift (of one leg), by weeks of training.
struct Beginner {
  std::string person;
  Lift lift = lifts::bench_press;
  std::vector<std::pair<int, double>> tests{};  ///< day, kg
};

[[nodiscard]] inline std::vector<Beginner> max_tests(const std::string& folder) {
  static const std::map<std::string, int> days{{"pre", 0},    {"session1", 4}, {"week2", 14},
                                               {"week5", 35}, {"week9", 63},   {"post", 84}};
  static const std::map<std::string, Lift> lifts_by_name{{"benchpress", lifts::bench_press},
                                                         {"legpress", lifts::leg_press},
                                                         {"legcurl", lifts::leg_curl},
                                                         {"legext", leg_extension}};
  const Table table(folder + "/max-tests-12-weeks/max_tests.csv");
  std::vector<Beginner> all;
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto max = table.number(i, "max_kg");
    if (!max || !(*max > 0.0)) continue;
    const std::string& exercise = table.text(i, "exercise");
    const std::string key = table.text(i, "id") + " " + exercise + " " + table.text(i, "side");
    const auto [place, is_new] = places.try_emplace(key, all.size());
    if (is_new) {
      all.push_back({.person = table.text(i, "id"), .lift = lifts_by_name.at(exercise)});
    }
    all[place->second].tests.emplace_back(days.at(table.text(i, "time")), *max);
  }
  return all;
}

// ---- meets --------------------------------------------------------------------------------------

/// One lifter on one of the three lifts: attempts by meet, those missed below zero.
struct Competitor {
  std::string person;
  Lift lift = lifts::squat;
  struct Meet {
    int day;
    std::vector<double> attempts_kg{};
  };
  std::vector<Meet> meets{};
};

/// Every `each`-th lifter with at least two meets.
[[nodiscard]] inline std::vector<Competitor> competitors(const std::string& folder, int each) {
  const Table table(folder + "/powerlifting-attempts/attempts.csv");
  static const std::map<std::string, Lift> lifts_by_name{
      {"squat", lifts::squat}, {"bench", lifts::bench_press}, {"deadlift", lifts::deadlift}};
  std::vector<Competitor> all;
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const std::string& id = table.text(i, "id");
    if (std::atoi(id.c_str()) % each != 0) continue;
    const auto day = table.number(i, "day");
    if (!day) continue;
    for (const auto& [name, lift] : lifts_by_name) {
      Competitor::Meet meet{.day = static_cast<int>(*day)};
      for (const char* attempt : {"1_kg", "2_kg", "3_kg"}) {
        const auto load = table.number(i, name + attempt);
        if (load && *load != 0.0) meet.attempts_kg.push_back(*load);
      }
      if (meet.attempts_kg.empty()) continue;
      const auto [place, is_new] = places.try_emplace(id + " " + name, all.size());
      if (is_new) all.push_back({.person = id, .lift = lift});
      std::vector<Competitor::Meet>& meets = all[place->second].meets;
      if (!meets.empty() && meets.back().day >= meet.day) continue;  // two entries on one day
      meets.push_back(std::move(meet));
    }
  }
  std::erase_if(all, [](const Competitor& c) { return c.meets.size() < 2; });
  return all;
}

}  // namespace real_lifters
