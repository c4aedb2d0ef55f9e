// bench/kalman_filter_bench.cpp - the Kalman filter beside the one in every textbook
//
// 100,000 observations of a local level and of a local linear trend; each run filters the whole
// series and sums up its log-likelihood.
//
//     library           KalmanFilter, with the moves made for such models
//     textbook          x = T x, P = T P T' + Q, K = P z / F, P -= K F K', as Eigen matrices whose
//                       size is known only at run time, as one would write it down
//     textbook_fixed    the same with sizes known to the compiler
//
// The counters `s2` (mean of squared residual by variance) and `mean_log_f` (mean log variance of
// the predictions) tell that all compute the same. bench/kalman_like.R makes the same series and
// has R's KalmanLike print the same two figures and its time.
// SPDX-License-Identifier: BSL-1.0
#include <benchmark/benchmark.h>

#include <Eigen/Core>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "barwright/learn/kalman_smoother.hpp"

namespace {

using namespace barwright;
using Eigen::Dynamic;

constexpr std::size_t count = 100'000;
constexpr double level_variance = 0.04;
constexpr double slope_variance = 0.0001;
constexpr double noise_variance = 1.0;
constexpr double start_variance = 1e4;

/// Uniform from 0 to 1 by the multiplier 16807 modulo 2^31 - 1, exact in doubles too.
class Uniform {
 public:
  double operator()() {
    state_ = state_ * 16807 % 2147483647;
    return static_cast<double>(state_) / 2147483647.0;
  }

 private:
  std::uint64_t state_ = 1;
};

/// A random walk seen through noise, both of uniform steps.
const std::vector<double>& series() {
  static const std::vector<double> made = [] {
    Uniform uniform;
    std::vector<double> y;
    double level = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
      level += 0.7 * (uniform() - 0.5);
      y.push_back(level + 3.4 * (uniform() - 0.5));
    }
    return y;
  }();
  return made;
}

struct Sums {
  double squares = 0.0;
  double logs = 0.0;

  void add(double residual, double variance) {
    squares += residual * residual / variance;
    logs += std::log(variance);
  }
};

template <class Filter>
void measure(benchmark::State& state, Filter filter) {
  const std::vector<double>& y = series();
  Sums sums;
  for (auto _ : state) {
    sums = filter(y);
    benchmark::DoNotOptimize(sums);
  }
  state.counters["s2"] = sums.squares / count;
  state.counters["mean_log_f"] = sums.logs / count;
}

Sums by_library(const std::vector<double>& y, Eigen::Index states) {
  auto filter = KalmanFilter::independent(StateVector::Zero(states),
                                          StateVector::Constant(states, start_variance));
  Sums sums;
  for (const double value : y) {
    if (states == 2) filter.add_multiple(0, 1, 1.0);
    filter.add_noise(0, level_variance);
    if (states == 2) filter.add_noise(1, slope_variance);
    const Innovation innovation = filter.update({{0, 1.0}}, value, noise_variance);
    sums.add(innovation.residual, innovation.variance);
  }
  return sums;
}

template <int N>
Sums by_textbook(const std::vector<double>& y, Eigen::Index states) {
  using Matrix = Eigen::Matrix<double, N, N>;
  using Vector = Eigen::Matrix<double, N, 1>;
  Matrix transition = Matrix::Identity(states, states);
  Matrix noise = Matrix::Zero(states, states);
  noise(0, 0) = level_variance;
  if (states == 2) {
    transition(0, states - 1) = 1.0;
    noise(states - 1, states - 1) = slope_variance;
  }
  Vector z = Vector::Zero(states);
  z[0] = 1.0;
  Vector x = Vector::Zero(states);
  Matrix p = start_variance * Matrix::Identity(states, states);
  Sums sums;
  for (const double value : y) {
    x = transition * x;
    p = transition * p * transition.transpose() + noise;
    const Vector covariance = p * z;
    const double variance = z.dot(covariance) + noise_variance;
    const double residual = value - z.dot(x);
    const Vector gain = covariance / variance;
    x += gain * residual;
    p -= gain * covariance.transpose();
    sums.add(residual, variance);
  }
  return sums;
}

void library(benchmark::State& state, Eigen::Index states) {
  measure(state, [=](const auto& y) { return by_library(y, states); });
}
void textbook(benchmark::State& state, Eigen::Index states) {
  measure(state, [=](const auto& y) { return by_textbook<Dynamic>(y, states); });
}
template <int N>
void textbook_fixed(benchmark::State& state) {
  measure(state, [](const auto& y) { return by_textbook<N>(y, N); });
}

BENCHMARK_CAPTURE(library, local_level, 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(textbook, local_level, 1)->Unit(benchmark::kMillisecond);
BENCHMARK(textbook_fixed<1>)->Name("textbook_fixed/local_level")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(library, local_linear_trend, 2)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(textbook, local_linear_trend, 2)->Unit(benchmark::kMillisecond);
BENCHMARK(textbook_fixed<2>)
    ->Name("textbook_fixed/local_linear_trend")
    ->Unit(benchmark::kMillisecond);

}  // namespace
