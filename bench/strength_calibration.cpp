// bench/strength_calibration.cpp - do the strength model's intervals hold what they say?
//
//     strength_calibration [lifters [first seed]] > docs/strength-calibration.md
//
// Simulation-based calibration (Talts et al. 2018, from memory): lifters are drawn from the model's
// own priors and train ten weeks with loads chosen by the model (tests/simulated_lifter.hpp). Over
// many of them, the truth must lie below the q quantile of what the model says with chance q. Each
// truth is one draw from the posterior that the model should have found, so its rank there, here
// the normal probability below its standing, is uniform if all is right. The program prints a
// table in Markdown. The same seeds give the same table; unless told otherwise it takes seeds that
// no test uses.
// SPDX-License-Identifier: BSL-1.0
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <vector>

#include "../tests/simulated_lifter.hpp"
#include "barwright/core/normal.hpp"
#include "barwright/learn/strength_model.hpp"

namespace {

using namespace barwright;
using namespace barwright_test;

constexpr double quantile_95 = 1.6448536269514722;
constexpr int bins = 20;
constexpr const char* further_names[] = {"loss with each set", "rating bias"};
constexpr std::size_t quantities = standing_count + std::size(further_names);

/// What one simulated lifter adds to the tables.
struct Trial {
  std::array<double, quantities> standing{};  ///< of the truth: deviations from the answer's mean
  int at_bound = 0;
  int missed = 0;
  double predicted = 0.0;  ///< sum of the chances that were predicted for those at the bound
  int sets = 0;
  int flagged = 0;
};

Trial try_one(std::uint64_t seed) {
  const SimulatedLifter lifter = simulate_lifter(seed);
  StrengthModel model(lifter.settings);
  for (const LoggedSet& set : lifter.log) model.add(set);
  const StrengthFit fit = model.fit();

  Trial trial;
  const std::vector<double> off = standings(lifter, fit);
  std::copy(off.begin(), off.end(), trial.standing.begin());
  const Change loss = fit.set_loss();
  const StrengthFit::RatingBias bias = fit.rating_bias();
  trial.standing[standing_count] = (lifter.set_loss - loss.mean()) / loss.standard_deviation();
  trial.standing[standing_count + 1] = (lifter.rating_bias - bias.mean) / bias.standard_deviation;
  for (const BoundedSet& set : lifter.at_bound) {
    ++trial.at_bound;
    trial.missed += set.is_missed ? 1 : 0;
    trial.predicted += set.predicted_chance;
  }
  trial.sets = static_cast<int>(lifter.log.size());
  trial.flagged = trial.sets - fit.sets_used();
  return trial;
}

/// The chance that a chi-square variable with an odd number of degrees of freedom is above `x`
/// (Abramowitz & Stegun 1964, 26.4.4; from memory).
double chi_square_above(double x, int degrees) {
  const double root = std::sqrt(x);
  double term = root;
  double sum = 0.0;
  for (int r = 1; r <= (degrees - 1) / 2; ++r) {
    sum += term;
    term *= x / (2 * r + 1);
  }
  return 2.0 * (normal_cdf(-root) + normal_pdf(root) * sum);
}

/// A share of things that come in groups, one for each lifter, and its standard error: things of
/// one group may stand or fall together.
struct Share {
  double share;
  double standard_error;
};
Share share_of(const std::vector<Trial>& trials, int Trial::*hits, int Trial::*of) {
  double all_hits = 0.0;
  double all = 0.0;
  for (const Trial& trial : trials) {
    all_hits += trial.*hits;
    all += trial.*of;
  }
  if (!(all > 0.0)) return {0.0, 0.0};
  const double share = all_hits / all;
  double squares = 0.0;
  for (const Trial& trial : trials) squares += std::pow(trial.*hits - share * trial.*of, 2);
  return {share, std::sqrt(squares) / all};
}

void print_quantity(const char* name, const std::vector<Trial>& trials, std::size_t which) {
  const auto n = static_cast<double>(trials.size());
  int held = 0;
  double sum = 0.0;
  double squares = 0.0;
  int counts[bins] = {};
  for (const Trial& trial : trials) {
    const double off = trial.standing[which];
    held += std::fabs(off) <= quantile_95 ? 1 : 0;
    sum += off;
    squares += off * off;
    ++counts[std::clamp(static_cast<int>(bins * normal_cdf(off)), 0, bins - 1)];
  }
  double chi_square = 0.0;
  for (const int count : counts) chi_square += std::pow(count - n / bins, 2) / (n / bins);
  const double share = held / n;
  std::printf("| %-18s | %5.1f ± %.1f | %+.3f ± %.3f | %.3f | %.3f |\n", name, 100.0 * share,
              100.0 * std::sqrt(share * (1.0 - share) / n), sum / n,
              std::sqrt(squares / n - sum * sum / n / n) / std::sqrt(n),
              std::sqrt((squares - sum * sum / n) / (n - 1.0)),
              chi_square_above(chi_square, bins - 1));
}

}  // namespace

int main(int argc, char** argv) {
  const int lifters = argc > 1 ? std::atoi(argv[1]) : 2000;
  const int first_seed = argc > 2 ? std::atoi(argv[2]) : 10001;
  if (lifters < 2 || first_seed < 1) {
    std::fprintf(stderr, "lifters must be a whole number from 2, the first seed one from 1\n");
    return 2;
  }
  std::vector<Trial> trials(static_cast<std::size_t>(lifters));
  const auto try_every_second = [&](std::size_t begin) {
    for (std::size_t i = begin; i < trials.size(); i += 2) {
      trials[i] = try_one(static_cast<std::uint64_t>(first_seed) + i);
    }
  };
  std::thread other(try_every_second, 1);
  try_every_second(0);
  other.join();

  std::printf("# Calibration of the strength model\n\n");
  std::printf(
      "Printed by `bench/strength_calibration.cpp`: %d lifters drawn from the model's priors, ten\n"
      "weeks each, seeds %d to %d.\n\n",
      lifters, first_seed, first_seed + lifters - 1);
  std::printf(
      "| quantity | in the 90 %% interval, %% | mean standing | sd | p of uniform ranks |\n"
      "|---|---|---|---|---|\n");
  for (std::size_t k = 0; k < quantities; ++k) {
    print_quantity(k < standing_count ? standing_names[k] : further_names[k - standing_count],
                   trials, k);
  }
  std::printf(
      "\nA standing is (truth - mean) / standard deviation of the answer, on the logarithmic "
      "scale\n"
      "where the answer is a factor: mean 0 and sd 1 if all is right. The last column is a\n"
      "chi-square test of its normal probability in %d bins; of ten such, one below 0.1 is to be\n"
      "expected. Each ± is one standard error.\n\n",
      bins);

  const Share missed = share_of(trials, &Trial::missed, &Trial::at_bound);
  const Share flagged = share_of(trials, &Trial::flagged, &Trial::sets);
  long at_bound = 0;
  long sets = 0;
  double predicted = 0.0;
  for (const Trial& trial : trials) {
    at_bound += trial.at_bound;
    sets += trial.sets;
    predicted += trial.predicted;
  }
  std::printf(
      "| | of | %% |\n|---|---|---|\n"
      "| missed, loaded at a bound of %.1f %% | %ld sets | %.2f ± %.2f |\n"
      "| named suspicious, all typed rightly | %ld sets | %.3f ± %.3f |\n",
      at_bound > 0 ? 100.0 * predicted / static_cast<double>(at_bound) : 0.0, at_bound,
      100.0 * missed.share, 100.0 * missed.standard_error, sets, 100.0 * flagged.share,
      100.0 * flagged.standard_error);
}
