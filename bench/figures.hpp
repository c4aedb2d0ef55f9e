// bench/figures.hpp - figures over people, with their intervals
//
// The sets of one person resemble each other, so what is uncertain is counted in people: a person
// is a row of sums, a figure is a function of the sums of all, and its interval comes from drawing
// as many people anew, with replacement (the bootstrap, Efron 1979, from memory). A share of people
// has its exact binomial interval (Clopper and Pearson 1934, from memory).
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <random>
#include <string>
#include <thread>
#include <vector>

namespace figures {

/// A figure and where 95 of 100 such intervals would hold it.
struct Measured {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
};

/// The figure that `of` makes of the sums of all people, with its bootstrap interval.
/// @param of  from one sum of rows to a number; not finite where a draw does not give one
template <class Row, class Of>
[[nodiscard]] Measured over_people(const std::vector<Row>& people, Of of) {
  constexpr int draws = 1000;
  const auto figure_of = [&](auto pick) {
    Row sum{};
    for (std::size_t i = 0; i < people.size(); ++i) {
      const Row& row = people[pick(i)];
      for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += row[k];
    }
    return static_cast<double>(of(sum));
  };
  std::mt19937_64 generator(20261129);  // the same draws each time
  std::vector<double> drawn;
  for (int draw = 0; draw < draws && !people.empty(); ++draw) {
    const double figure = figure_of(
        [&](std::size_t) { return static_cast<std::size_t>(generator() % people.size()); });
    if (std::isfinite(figure)) drawn.push_back(figure);
  }
  Measured result{.value = figure_of([](std::size_t i) { return i; })};
  if (drawn.empty()) return result;
  std::sort(drawn.begin(), drawn.end());
  const auto at = [&](double share) {
    return drawn[static_cast<std::size_t>(share * static_cast<double>(drawn.size() - 1) + 0.5)];
  };
  result.low = at(0.025);
  result.high = at(0.975);
  return result;
}

/// The median over people, one number each.
[[nodiscard]] inline Measured median_of(const std::vector<double>& people) {
  const auto median = [](std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t middle = values.size() / 2;
    return values.size() % 2 == 1 ? values[middle] : 0.5 * (values[middle - 1] + values[middle]);
  };
  if (people.empty()) return {};
  std::mt19937_64 generator(20261129);
  std::vector<double> medians;
  for (int draw = 0; draw < 1000; ++draw) {
    std::vector<double> values;
    for (std::size_t i = 0; i < people.size(); ++i) {
      values.push_back(people[static_cast<std::size_t>(generator() % people.size())]);
    }
    medians.push_back(median(values));
  }
  std::sort(medians.begin(), medians.end());
  return {median(people), medians[25], medians[974]};
}

/// The share that `hits` of `of` stand for, with its exact binomial interval.
[[nodiscard]] inline Measured binomial_share(int hits, int of) {
  // The chance of `hits` or more of `of`, in logarithms so that many people do not overflow it.
  const auto at_least = [of](int least, double p) {
    double chance = 0.0;
    for (int k = least; k <= of; ++k) {
      chance += std::exp(std::lgamma(of + 1.0) - std::lgamma(k + 1.0) - std::lgamma(of - k + 1.0) +
                         k * std::log(p) + (of - k) * std::log1p(-p));
    }
    return chance;
  };
  const auto where = [&](int least, double chance) {
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (low + high);
      (at_least(least, middle) < chance ? low : high) = middle;
    }
    return 0.5 * (low + high);
  };
  if (of == 0) return {};
  return {static_cast<double>(hits) / of, hits == 0 ? 0.0 : where(hits, 0.025),
          hits == of ? 1.0 : where(hits + 1, 0.975)};
}

/// Calls `work(i)` for each i below `count` on so many threads.
template <class Work>
void in_parallel(std::size_t count, unsigned threads, Work work) {
  std::atomic<std::size_t> next{0};
  const auto run = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::thread> others;
  for (unsigned t = 1; t < threads; ++t) others.emplace_back(run);
  run();
  for (std::thread& other : others) other.join();
}

// ---- printing -----------------------------------------------------------------------------------

/// One line of a table: what was asked, and the figure in its unit.
inline void print_row(const std::string& what, const Measured& figure, const char* format = "%.1f",
                      double scale = 1.0) {
  const auto text = [&](double value) {
    std::array<char, 32> buffer{};
    std::snprintf(buffer.data(), buffer.size(), format, scale * value);
    return std::string(buffer.data());
  };
  std::printf("| %-58s | %s (%s to %s) |\n", what.c_str(), text(figure.value).c_str(),
              text(figure.low).c_str(), text(figure.high).c_str());
}
inline void print_per_cent(const std::string& what, const Measured& figure) {
  print_row(what, figure, "%.1f", 100.0);
}
inline void print_heading(const std::string& title) {
  std::printf("\n### %s\n\n| asked | figure (95 %% interval) |\n|---|---|\n", title.c_str());
}

}  // namespace figures
