// Tests of barwright/learn/kalman_filter.hpp and kalman_smoother.hpp. Expected values:
// tests/data/kalman-nile and blup, whose READMEs say how they were computed and what they were
// checked against.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/learn/kalman_smoother.hpp"

#include <doctest/doctest.h>

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "csv_table.hpp"

using namespace barwright;
using barwright_test::CsvTable;
using barwright_test::relative_error;

namespace {

double expected_summary(const std::string& which, const std::string& quantity) {
  static const CsvTable table("kalman-nile/expected-summary.csv");
  return table.find({{"case", which}, {"quantity", quantity}}).number("value");
}

std::vector<double> nile() {
  std::vector<double> flow;
  const CsvTable table("kalman-nile/nile.csv");
  for (const auto& row : table.rows()) {
    flow.push_back(row.number("flow"));
  }
  REQUIRE(flow.size() == 100);
  return flow;
}

KalmanFilter level(double mean, double variance) {
  return KalmanFilter::independent(StateVector{{mean}}, StateVector{{variance}});
}

constexpr Term the_level[] = {{0, 1.0}};

// Runs a local level over the Nile data and checks every column of an expected-nile-*.csv.
double check_nile(const std::string& file, KalmanFilter prior, std::size_t first) {
  const std::vector<double> flow = nile();
  const CsvTable table(file);
  KalmanSmoother smoother(prior);
  for (std::size_t t = first; t < flow.size(); ++t) {
    if (t > first) smoother.add_noise(0, 1469.1);
    const auto row = table[t];
    CHECK(relative_error(smoother.filter().mean()[0], row.number("a_pred"), 1e-3) < 1e-10);
    CHECK(relative_error(smoother.filter().covariance()(0, 0), row.number("P_pred")) < 1e-10);
    if (!row.empty("v")) {
      const Innovation innovation = smoother.update(the_level, flow[t], 15099);
      CHECK(relative_error(innovation.residual, row.number("v"), 1.0) < 1e-10);
      CHECK(relative_error(innovation.variance, row.number("F")) < 1e-10);
    }
    CHECK(relative_error(smoother.filter().mean()[0], row.number("a_filt")) < 1e-10);
    CHECK(relative_error(smoother.filter().covariance()(0, 0), row.number("P_filt")) < 1e-10);
    smoother.mark();
  }
  const auto smooth = smoother.smooth();
  REQUIRE(smooth.size() == flow.size() - first);
  for (std::size_t t = first; t < flow.size(); ++t) {
    CAPTURE(t);
    CHECK(relative_error(smooth[t - first].mean[0], table[t].number("smooth")) < 1e-10);
    CHECK(relative_error(smooth[t - first].covariance(0, 0), table[t].number("smooth_var")) <
          1e-10);
  }
  return smoother.log_likelihood();
}

// Log-likelihood of the Nile data from the second value on, given the first (exact diffuse start).
double diffuse_log_likelihood(double observation, double step) {
  const std::vector<double> flow = nile();
  KalmanFilter filter = level(flow[0], observation);
  double sum = 0;
  for (std::size_t t = 1; t < flow.size(); ++t) {
    filter.add_noise(0, step);
    sum += filter.update(the_level, flow[t], observation).log_density();
  }
  return sum;
}

double smallest_eigenvalue(const Eigen::MatrixXd& matrix) {
  return Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(matrix, Eigen::EigenvaluesOnly)
      .eigenvalues()
      .minCoeff();
}

}  // namespace

// ---- the Nile and airline series ---------------------------------------------------------------

TEST_CASE("a local level follows the Nile to 1e-10 [case A: 60-digit arithmetic, R 4.2.2]") {
  const double log_likelihood = check_nile("kalman-nile/expected-nile-level.csv", level(0, 1e7), 0);
  CHECK(relative_error(log_likelihood, expected_summary("A", "loglik")) < 1e-9);
}

TEST_CASE("forecasts of the Nile widen with the horizon [case A]") {
  KalmanFilter filter = level(0, 1e7);
  for (const double y : nile()) {
    filter.update(the_level, y, 15099);
    filter.add_noise(0, 1469.1);
  }
  CHECK(relative_error(filter.mean()[0], expected_summary("A", "forecast_mean")) < 1e-10);
  CHECK(relative_error(filter.covariance()(0, 0), expected_summary("A", "forecast_state_var_h1")) <
        1e-10);
  filter.add_noise(0, 29 * 1469.1);  // a step of 29 years at once
  CHECK(relative_error(filter.combination(the_level).variance + 15099,
                       expected_summary("A", "forecast_obs_var_h30")) < 1e-10);
}

TEST_CASE("an exact diffuse start needs no huge prior variance [case B]") {
  // The first observation is used up as the prior, N(y_1, 15099); its row is the first mark.
  const std::vector<double> flow = nile();
  const CsvTable table("kalman-nile/expected-nile-diffuse.csv");
  KalmanSmoother smoother(level(flow[0], 15099));
  smoother.mark();
  for (std::size_t t = 1; t < flow.size(); ++t) {
    smoother.add_noise(0, 1469.1);
    CHECK(relative_error(smoother.filter().mean()[0], table[t].number("a_pred")) < 1e-10);
    CHECK(relative_error(smoother.filter().covariance()(0, 0), table[t].number("P_pred")) < 1e-10);
    const Innovation innovation = smoother.update(the_level, flow[t], 15099);
    CHECK(relative_error(innovation.residual, table[t].number("v"), 1.0) < 1e-10);
    CHECK(relative_error(innovation.variance, table[t].number("F")) < 1e-10);
    CHECK(relative_error(smoother.filter().mean()[0], table[t].number("a_filt")) < 1e-10);
    CHECK(relative_error(smoother.filter().covariance()(0, 0), table[t].number("P_filt")) < 1e-10);
    smoother.mark();
  }
  const auto smooth = smoother.smooth();
  for (std::size_t t = 0; t < flow.size(); ++t) {
    CHECK(relative_error(smooth[t].mean[0], table[t].number("smooth")) < 1e-10);
    CHECK(relative_error(smooth[t].covariance(0, 0), table[t].number("smooth_var")) < 1e-10);
  }
  CHECK(relative_error(smoother.log_likelihood(), expected_summary("B", "loglik_sum_t2_to_n")) <
        1e-9);

  // One more prediction is the steady state.
  smoother.add_noise(0, 1469.1);
  const double predicted = smoother.filter().covariance()(0, 0);
  CHECK(relative_error(predicted, expected_summary("B", "steady_state_P_pred")) < 1e-10);
  CHECK(relative_error(predicted / (predicted + 15099),
                       expected_summary("B", "steady_state_gain")) < 1e-10);
}

TEST_CASE("missing observations are updates not made [case C]") {
  const double log_likelihood =
      check_nile("kalman-nile/expected-nile-missing.csv", level(0, 1e7), 0);
  CHECK(relative_error(log_likelihood, expected_summary("C", "loglik")) < 1e-9);
}

TEST_CASE("a local linear trend follows the airline series, in cheap or general moves [case D]") {
  const CsvTable table("kalman-nile/expected-airmiles-trend.csv");
  const StateVector mean{{6.0, 0.0}};
  const StateVector variances{{4.0, 1.0}};
  for (const bool general : {false, true}) {
    CAPTURE(general);
    KalmanSmoother smoother(KalmanFilter::independent(mean, variances));
    const auto move = [&] {
      if (general) {
        StateMatrix transition(2, 2);
        transition << 1, 1, 0, 1;
        const StateMatrix noise = StateVector{{0.002, 0.0005}}.asDiagonal();
        smoother.predict(transition, noise);
      } else {
        smoother.add_multiple(0, 1, 1.0);
        smoother.add_noise(0, 0.002);
        smoother.add_noise(1, 0.0005);
      }
    };
    for (std::size_t t = 0; t < table.size(); ++t) {
      if (t > 0) move();
      const auto row = table[t];
      const Innovation innovation = smoother.update({{0, 1.0}}, row.number("log_y"), 0.001);
      CHECK(relative_error(innovation.residual, row.number("v"), 1e-2) < 1e-10);
      CHECK(relative_error(innovation.variance, row.number("F")) < 1e-10);
      const auto estimate = smoother.filter().estimate();
      CHECK(relative_error(estimate.mean[0], row.number("level_filt")) < 1e-10);
      CHECK(relative_error(estimate.mean[1], row.number("slope_filt"), 1e-3) < 1e-10);
      CHECK(relative_error(estimate.covariance(0, 0), row.number("P_filt_11")) < 1e-10);
      CHECK(relative_error(estimate.covariance(0, 1), row.number("P_filt_12"), 1e-6) < 1e-10);
      CHECK(relative_error(estimate.covariance(1, 1), row.number("P_filt_22")) < 1e-10);
      smoother.mark();
    }
    const auto smooth = smoother.smooth();
    for (std::size_t t = 0; t < table.size(); ++t) {
      const auto row = table[t];
      CHECK(relative_error(smooth[t].mean[0], row.number("level_smooth")) < 1e-10);
      CHECK(relative_error(smooth[t].mean[1], row.number("slope_smooth"), 1e-3) < 1e-10);
      CHECK(relative_error(smooth[t].covariance(0, 0), row.number("Ps_11")) < 1e-10);
      CHECK(relative_error(smooth[t].covariance(0, 1), row.number("Ps_12"), 1e-6) < 1e-10);
      CHECK(relative_error(smooth[t].covariance(1, 1), row.number("Ps_22")) < 1e-10);
    }
    CHECK(relative_error(smoother.log_likelihood(), expected_summary("D", "loglik")) < 1e-9);
    move();
    const auto forecast = smoother.filter().estimate();
    CHECK(relative_error(forecast.mean[0], expected_summary("D", "forecast_level_h1")) < 1e-10);
    CHECK(relative_error(forecast.mean[1], expected_summary("D", "forecast_slope_h1")) < 1e-10);
    CHECK(relative_error(forecast.covariance(0, 0), expected_summary("D", "forecast_P11_h1")) <
          1e-10);
    CHECK(relative_error(forecast.covariance(0, 1), expected_summary("D", "forecast_P12_h1")) <
          1e-10);
    CHECK(relative_error(forecast.covariance(1, 1), expected_summary("D", "forecast_P22_h1")) <
          1e-10);
  }
}

TEST_CASE(
    "the likelihood peaks where it should [MLE: 60 digits; book 15099, 1469.1: from memory]") {
  const double observation = expected_summary("MLE", "sigma2_eps");
  const double step = expected_summary("MLE", "sigma2_eta");
  const double peak = diffuse_log_likelihood(observation, step);
  CHECK(relative_error(peak, expected_summary("MLE", "loglik_sum_t2_to_n")) < 1e-9);
  // Centred differences over 1 % on the log scale: no slope, downhill all round.
  const double up = std::exp(0.01);
  CHECK(std::fabs(diffuse_log_likelihood(observation * up, step) -
                  diffuse_log_likelihood(observation / up, step)) < 1e-3);
  CHECK(std::fabs(diffuse_log_likelihood(observation, step * up) -
                  diffuse_log_likelihood(observation, step / up)) < 1e-3);
  for (const double a : {up, 1 / up}) {
    CHECK(diffuse_log_likelihood(observation * a, step) < peak);
    CHECK(diffuse_log_likelihood(observation, step * a) < peak);
  }
}

TEST_CASE("one variance can be concentrated out of the likelihood [CONC; the book: from memory]") {
  const std::vector<double> flow = nile();
  for (const std::string q : {"1", "0.0360", "0.0745", "0.0974", "0.0973"}) {
    KalmanFilter filter = level(flow[0], 1);
    double squares = 0;
    double logs = 0;
    for (std::size_t t = 1; t < flow.size(); ++t) {
      filter.add_noise(0, std::stod(q));
      const Innovation innovation = filter.update(the_level, flow[t], 1);
      squares += innovation.residual * innovation.residual / innovation.variance;
      logs += std::log(innovation.variance);
    }
    const double n = static_cast<double>(flow.size() - 1);
    const double value = -0.5 * (n * std::log(squares / n) + logs);
    CHECK(relative_error(value, expected_summary("CONC", "core_loglik_q_" + q)) < 1e-10);
  }
}

// ---- shrinkage and conjugate updates -----------------------------------------------------------

namespace {

double component(const std::string& dataset, const std::string& quantity) {
  static const CsvTable table("blup/expected-variance-components.csv");
  return table.find({{"dataset", dataset}, {"quantity", quantity}}).number("value");
}

struct Observation {
  std::vector<Term> terms;
  double y;
};

// Feeds rows one at a time; returns the log marginal density.
double feed(KalmanFilter& filter, const std::vector<Observation>& rows, double noise) {
  double sum = 0;
  for (const Observation& row : rows) sum += filter.update(row.terms, row.y, noise).log_density();
  return sum;
}

}  // namespace

TEST_CASE("a group's mean shrinks towards the overall mean [rail: exact arithmetic, nlme]") {
  const CsvTable data("blup/rail.csv");
  const CsvTable expected("blup/expected-rail-blup.csv");
  const double between = component("rail", "var_rail");
  const double within = component("rail", "var_residual");
  const double mu = component("rail", "mu");
  CHECK(relative_error(3 * between / (3 * between + within),
                       component("rail", "shrinkage_weight")) < 1e-12);

  for (const auto& row : expected.rows()) {  // the overall mean known: one state per rail
    KalmanFilter filter = level(mu, between);
    for (const auto& travel : data.rows()) {
      if (travel.text("rail") == row.text("rail")) {
        filter.update(the_level, travel.number("travel"), within);
      }
    }
    CHECK(relative_error(filter.mean()[0], row.number("coef")) < 1e-9);
    CHECK(relative_error(filter.covariance()(0, 0), row.number("var_blup_given_mu")) < 1e-9);
  }

  // The overall mean unknown: state 0, with a prior so wide that it is flat to 1e-9. The factored
  // covariance holds a prior variance of 1e15 beside a posterior one of 5.
  constexpr double flat = 1e15;
  Eigen::VectorXd variances = Eigen::VectorXd::Constant(7, between);
  variances[0] = flat;
  auto filter = KalmanFilter::independent(Eigen::VectorXd::Zero(7), variances);
  std::vector<Observation> rows;
  for (const auto& row : data.rows()) {
    const auto rail = static_cast<Eigen::Index>(row.number("rail"));
    rows.push_back({{{0, 1.0}, {rail, 1.0}}, row.number("travel")});
  }
  const double log_density = feed(filter, rows, within);
  CHECK(relative_error(filter.mean()[0], mu) < 1e-9);
  CHECK(relative_error(std::sqrt(filter.combination({{0, 1.0}}).variance),
                       component("rail", "se_mu")) < 1e-9);
  for (const auto& row : expected.rows()) {
    const auto rail = static_cast<Eigen::Index>(row.number("rail"));
    CHECK(relative_error(filter.mean()[rail], row.number("blup"), 1.0) < 1e-9);
    CHECK(relative_error(filter.combination({{rail, 1.0}}).variance,
                         row.number("var_blup_flat_mu")) < 1e-9);
    const MeanAndVariance coefficient = filter.combination({{0, 1.0}, {rail, 1.0}});
    CHECK(relative_error(coefficient.mean, row.number("coef")) < 1e-9);
    CHECK(relative_error(coefficient.variance, row.number("var_coef_flat_mu")) < 1e-9);
  }
  // The restricted likelihood integrates the mean over a flat prior of density 1; ours had density
  // (2 pi flat)^(-1/2) there.
  const double restricted = log_density + 0.5 * std::log(2 * std::acos(-1.0) * flat);
  CHECK(relative_error(-2 * restricted, component("rail", "minus2_restricted_loglik")) < 1e-9);
}

TEST_CASE("nested groups shrink level by level, whatever the order of the rows [oxide]") {
  const CsvTable data("blup/oxide.csv");
  const CsvTable expected("blup/expected-oxide-blup.csv");
  // States: 0 the mean, 1-8 the lots, 9-32 the wafers within lots.
  Eigen::VectorXd variances(33);
  variances[0] = 1e15;
  variances.segment(1, 8).setConstant(component("oxide", "var_lot"));
  variances.tail(24).setConstant(component("oxide", "var_wafer"));
  const auto wafer_state = [](int lot, int wafer) -> Eigen::Index {
    return 8 + 3 * (lot - 1) + wafer;
  };
  std::vector<Observation> rows;
  for (const auto& row : data.rows()) {
    const int lot = static_cast<int>(row.number("lot"));
    const int wafer = static_cast<int>(row.number("wafer"));
    rows.push_back(
        {{{0, 1.0}, {lot, 1.0}, {wafer_state(lot, wafer), 1.0}}, row.number("thickness")});
  }
  REQUIRE(rows.size() == 72);
  const double noise = component("oxide", "var_residual");
  const auto prior = KalmanFilter::independent(Eigen::VectorXd::Zero(33), variances);
  KalmanFilter filter = prior;
  const double log_density = feed(filter, rows, noise);
  CHECK(relative_error(filter.mean()[0], component("oxide", "mu")) < 1e-9);
  CHECK(relative_error(std::sqrt(filter.combination({{0, 1.0}}).variance),
                       component("oxide", "se_mu")) < 1e-9);
  for (const auto& row : expected.rows()) {
    const std::string id = row.text("id");
    const int lot = id[0] - '0';
    const Eigen::Index state = row.text("level") == "lot" ? lot : wafer_state(lot, id[2] - '0');
    CHECK(relative_error(filter.mean()[state], row.number("blup"), 1.0) < 1e-9);
  }

  std::mt19937 random(20240501);
  for (int repeat = 0; repeat < 3; ++repeat) {
    std::shuffle(rows.begin(), rows.end(), random);
    KalmanFilter shuffled = prior;
    CHECK(relative_error(feed(shuffled, rows, noise), log_density) < 1e-9);
    CHECK((shuffled.mean() - filter.mean()).cwiseAbs().maxCoeff() < 1e-9 * filter.mean()[0]);
    CHECK((shuffled.covariance() - filter.covariance()).cwiseAbs().maxCoeff() <
          1e-9 * filter.covariance().maxCoeff());
  }
}

TEST_CASE("random intercepts and slopes shrink together [sleepstudy: exact arithmetic, lme4]") {
  const CsvTable data("blup/sleepstudy.csv");
  const CsvTable expected("blup/expected-sleepstudy-blup.csv");
  const StateVector beta{
      {component("sleepstudy", "beta_intercept"), component("sleepstudy", "beta_slope")}};
  StateMatrix between(2, 2);
  between << component("sleepstudy", "var_intercept"),
      component("sleepstudy", "cov_intercept_slope"),
      component("sleepstudy", "cov_intercept_slope"), component("sleepstudy", "var_slope");
  const double within = component("sleepstudy", "var_residual");

  for (const auto& row : expected.rows()) {  // fixed effects known
    KalmanFilter filter(beta, between);
    for (const auto& day : data.rows()) {
      if (day.text("subject") != row.text("subject")) continue;
      filter.update({{0, 1.0}, {1, day.number("days")}}, day.number("reaction"), within);
    }
    CHECK(relative_error(filter.mean()[0], row.number("coef_intercept")) < 1e-9);
    CHECK(relative_error(filter.mean()[1], row.number("coef_slope"), 1.0) < 1e-9);
    const StateMatrix covariance = filter.covariance();
    CHECK(relative_error(covariance(0, 0), component("sleepstudy", "var_blup_given_beta_11")) <
          1e-9);
    CHECK(relative_error(covariance(0, 1), component("sleepstudy", "var_blup_given_beta_12")) <
          1e-9);
    CHECK(relative_error(covariance(1, 1), component("sleepstudy", "var_blup_given_beta_22")) <
          1e-9);
  }

  // Fixed effects unknown: states 0 and 1, then a pair per subject.
  constexpr double flat = 1e14;
  const Eigen::Index size = 2 + 2 * static_cast<Eigen::Index>(expected.size());
  Eigen::MatrixXd prior = Eigen::MatrixXd::Zero(size, size);
  prior(0, 0) = prior(1, 1) = flat;
  for (Eigen::Index i = 2; i < size; i += 2) prior.block<2, 2>(i, i) = between;
  KalmanFilter filter(Eigen::VectorXd::Zero(size), prior);
  std::vector<Observation> rows;
  for (const auto& row : data.rows()) {
    Eigen::Index state = 2;
    for (std::size_t k = 0; expected[k].text("subject") != row.text("subject"); ++k) state += 2;
    const double day = row.number("days");
    rows.push_back({{{0, 1.0}, {1, day}, {state, 1.0}, {state + 1, day}}, row.number("reaction")});
  }
  const double log_density = feed(filter, rows, within);
  CHECK(relative_error(filter.mean()[0], beta[0]) < 1e-9);
  CHECK(relative_error(filter.mean()[1], beta[1]) < 1e-9);
  CHECK(relative_error(std::sqrt(filter.combination({{0, 1.0}}).variance),
                       component("sleepstudy", "se_intercept")) < 1e-9);
  CHECK(relative_error(std::sqrt(filter.combination({{1, 1.0}}).variance),
                       component("sleepstudy", "se_slope")) < 1e-9);
  for (std::size_t k = 0; k < expected.size(); ++k) {
    const Eigen::Index i = 2 + 2 * static_cast<Eigen::Index>(k);
    CHECK(relative_error(filter.mean()[i], expected[k].number("blup_intercept"), 1.0) < 1e-9);
    CHECK(relative_error(filter.mean()[i + 1], expected[k].number("blup_slope"), 1.0) < 1e-9);
    const Term intercept[] = {{i, 1.0}};
    const Term slope[] = {{i + 1, 1.0}};
    CHECK(relative_error(filter.covariance_between(intercept, slope),
                         component("sleepstudy", "var_blup_flat_beta_12")) < 1e-9);
    CHECK(relative_error(filter.combination(slope).variance,
                         component("sleepstudy", "var_blup_flat_beta_22")) < 1e-9);
    const Term coefficient_intercept[] = {{0, 1.0}, {i, 1.0}};
    const Term coefficient_slope[] = {{1, 1.0}, {i + 1, 1.0}};
    CHECK(relative_error(filter.combination(coefficient_intercept).variance,
                         component("sleepstudy", "var_coef_flat_beta_11")) < 1e-9);
    CHECK(relative_error(filter.covariance_between(coefficient_intercept, coefficient_slope),
                         component("sleepstudy", "var_coef_flat_beta_12")) < 1e-9);
  }
  const double restricted = log_density + std::log(2 * std::acos(-1.0) * flat);
  CHECK(relative_error(-2 * restricted, component("sleepstudy", "minus2_restricted_loglik")) <
        1e-9);
}

TEST_CASE("conjugate updates with known variance, rows in either order [exact arithmetic]") {
  const CsvTable data("blup/sleepstudy.csv");
  StateMatrix covariance(2, 2);
  covariance << 600, 10, 10, 35;
  const KalmanFilter prior(StateVector{{250.0, 10.0}}, covariance);
  const CsvTable expected("blup/expected-conjugate-known-variance.csv");
  for (const auto& row : expected.rows()) {
    std::vector<Observation> rows;
    for (const auto& day : data.rows()) {
      if (day.text("subject") != row.text("subject")) continue;
      if (static_cast<double>(rows.size()) == row.number("n")) break;
      rows.push_back({{{0, 1.0}, {1, day.number("days")}}, day.number("reaction")});
    }
    for (const bool reversed : {false, true}) {
      if (reversed) std::reverse(rows.begin(), rows.end());
      KalmanFilter filter = prior;
      CHECK(relative_error(feed(filter, rows, 650), row.number("log_marginal")) < 1e-9);
      CHECK(relative_error(filter.mean()[0], row.number("mean_intercept")) < 1e-9);
      CHECK(relative_error(filter.mean()[1], row.number("mean_slope"), 1.0) < 1e-9);
      const StateMatrix posterior = filter.covariance();
      CHECK(relative_error(posterior(0, 0), row.number("cov_11")) < 1e-9);
      CHECK(relative_error(posterior(0, 1), row.number("cov_12"), 1e-3) < 1e-9);
      CHECK(relative_error(posterior(1, 1), row.number("cov_22")) < 1e-9);
    }
  }
}

TEST_CASE("an unknown common variance scales the filter [normal-inverse-gamma: exact, R]") {
  // Run with unit noise, the innovations give the inverse-gamma update of the variance.
  const CsvTable data("nist-strd/Norris.csv");
  const CsvTable expected("blup/expected-conjugate-nig.csv");
  for (const std::string n : {"1", "5", "36"}) {
    const auto value = [&](const char* quantity) {
      return expected.find({{"n", n}, {"quantity", quantity}}).number("value");
    };
    auto filter = KalmanFilter::independent(StateVector{{0.0, 1.0}}, StateVector{{4.0, 0.01}});
    double a = 3;
    double b = 2;
    double logs = 0;
    for (std::size_t i = 0; i < std::stoul(n); ++i) {
      const Innovation innovation =
          filter.update({{0, 1.0}, {1, data[i].number("x")}}, data[i].number("y"), 1);
      a += 0.5;
      b += 0.5 * innovation.residual * innovation.residual / innovation.variance;
      logs += std::log(innovation.variance);
    }
    CHECK(relative_error(filter.mean()[0], value("mean_intercept"), 1e-3) < 1e-9);
    CHECK(relative_error(filter.mean()[1], value("mean_slope")) < 1e-9);
    CHECK(relative_error(filter.covariance()(0, 0), value("V_11")) < 1e-9);
    CHECK(relative_error(filter.covariance()(0, 1), value("V_12")) < 1e-9);
    CHECK(relative_error(filter.covariance()(1, 1), value("V_22")) < 1e-9);
    CHECK(a == value("a"));
    CHECK(relative_error(b, value("b")) < 1e-9);
    const double log_marginal = -0.5 * (std::stod(n) * std::log(2 * std::acos(-1.0)) + logs) +
                                3 * std::log(2.0) - a * std::log(b) + std::lgamma(a) -
                                std::lgamma(3.0);
    CHECK(relative_error(log_marginal, value("log_marginal")) < 1e-9);
    const MeanAndVariance prediction = filter.combination({{0, 1.0}, {1, 500.0}});
    CHECK(relative_error(prediction.mean, value("predictive_mean_x500")) < 1e-9);
    CHECK(relative_error(std::sqrt(b / a * (1 + prediction.variance)),
                         value("predictive_scale_x500")) < 1e-9);
  }
}

// ---- every move, against one large joint Gaussian ----------------------------------------------

namespace {

// The state written out as mean + loadings * w, where w are independent standard normals: every
// move is a row operation or a new column, and conditioning on all observations is one solve.
class WrittenOut {
 public:
  WrittenOut(const Eigen::VectorXd& mean, const Eigen::MatrixXd& root) : mean_(mean), load_(root) {}

  void noise(const Eigen::MatrixXd& columns) {
    Eigen::MatrixXd wider(load_.rows(), load_.cols() + columns.cols());
    wider << load_, columns;
    load_ = wider;
  }
  void transform(const Eigen::MatrixXd& transition, const Eigen::VectorXd& offset) {
    mean_ = transition * mean_ + offset;
    load_ = transition * load_;
  }
  void observe(const std::vector<Term>& terms, double y, double variance) {
    Eigen::RowVectorXd z = Eigen::RowVectorXd::Zero(mean_.size());
    for (const Term& term : terms) z[term.state] += term.coefficient;
    rows_.push_back(z * load_);
    residuals_.push_back(y - z.dot(mean_));
    variances_.push_back(variance);
  }
  void mark() { marks_.push_back({mean_, load_}); }

  struct Answer {
    std::vector<StateEstimate> smooth;
    double log_density;
  };
  [[nodiscard]] Answer condition() const {
    const auto n = static_cast<Eigen::Index>(rows_.size());
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n, load_.cols());
    Eigen::VectorXd r(n);
    Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const auto k = static_cast<std::size_t>(i);
      a.row(i).head(rows_[k].size()) = rows_[k];
      r[i] = residuals_[k];
      sum(i, i) = variances_[k];
    }
    sum += a * a.transpose();
    const Eigen::LLT<Eigen::MatrixXd> llt(sum);
    Answer answer;
    answer.log_density =
        -0.5 * (static_cast<double>(n) * std::log(2 * std::acos(-1.0)) + r.dot(llt.solve(r))) -
        llt.matrixLLT().diagonal().array().log().sum();
    for (const auto& [mean, load] : marks_) {
      Eigen::MatrixXd wide = Eigen::MatrixXd::Zero(load.rows(), load_.cols());
      wide.leftCols(load.cols()) = load;
      const Eigen::MatrixXd cross = wide * a.transpose();
      answer.smooth.push_back({mean + cross * llt.solve(r),
                               wide * wide.transpose() - cross * llt.solve(cross.transpose())});
    }
    return answer;
  }

 private:
  Eigen::VectorXd mean_;
  Eigen::MatrixXd load_;
  std::vector<Eigen::RowVectorXd> rows_;
  std::vector<double> residuals_;
  std::vector<double> variances_;
  std::vector<std::pair<Eigen::VectorXd, Eigen::MatrixXd>> marks_;
};

/// As an Observation: what was seen, and the variance of its error.
struct Seen {
  double value;
  double variance;
};

void check_all_moves(unsigned seed) {
  constexpr Eigen::Index n = 4;
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform(0.1, 2.0);
  const auto any_state = [&] { return static_cast<Eigen::Index>(random() % n); };
  const auto matrix = [&](Eigen::Index columns) {
    Eigen::MatrixXd m(n, columns);
    for (Eigen::Index i = 0; i < m.size(); ++i) m.data()[i] = normal(random);
    return m;
  };
  const Eigen::VectorXd none = Eigen::VectorXd::Zero(n);

  const Eigen::VectorXd mean = matrix(1);
  const Eigen::MatrixXd root = matrix(3);  // a singular prior
  KalmanSmoother smoother{KalmanFilter(mean, root * root.transpose())};
  WrittenOut exact(mean, root);
  const auto mark = [&] {
    smoother.mark();
    exact.mark();
  };
  mark();
  for (int step = 0; step < 60; ++step) {
    const Eigen::Index i = any_state();
    const Eigen::Index j = any_state();
    const double a = normal(random);
    const double v = uniform(random);
    Eigen::MatrixXd transition = Eigen::MatrixXd::Identity(n, n);
    Eigen::VectorXd unit = none;
    unit[i] = 1;
    switch (step % 10) {
      case 0:
        smoother.shift(i, a);
        exact.transform(transition, a * unit);
        break;
      case 1:
      case 2:
        smoother.add_noise(i, v);
        exact.noise(std::sqrt(v) * unit);
        break;
      case 3:
        smoother.renew(i, a, v);
        transition(i, i) = 0;
        exact.transform(transition, a * unit);
        exact.noise(std::sqrt(v) * unit);
        break;
      case 4:
        smoother.scale(i, step == 44 ? 0.0 : a);
        transition(i, i) = step == 44 ? 0.0 : a;
        exact.transform(transition, none);
        break;
      case 5:  // both onto a lower and onto a higher number, and onto itself
        smoother.add_multiple(i, j, a);
        transition(i, j) += a;
        exact.transform(transition, none);
        break;
      case 6: {
        transition = 0.5 * matrix(n);
        if (step == 36) transition.row(1) = transition.row(2);  // singular
        const Eigen::VectorXd offset = matrix(1);
        const Eigen::MatrixXd columns = matrix(2);  // noise of rank 2
        smoother.predict(transition, offset, columns * columns.transpose());
        exact.transform(transition, offset);
        exact.noise(columns);
        break;
      }
      default: {
        const std::vector<Term> terms{{i, 1.0}, {j, a}};
        const double y = 3 * normal(random);
        if (step % 10 == 7) {
          smoother.update(terms, y, v);
          exact.observe(terms, y, v);
        } else {  // what was seen depends on what was expected
          const MeanAndVariance before = smoother.filter().combination(terms);
          const auto seen_after = [&](const MeanAndVariance& expected) {
            CHECK(expected.mean == doctest::Approx(before.mean).epsilon(1e-12));
            CHECK(expected.variance == doctest::Approx(before.variance).epsilon(1e-12));
            return Seen{expected.mean + y, v + 0.1 * expected.variance};
          };
          smoother.update_with(terms, seen_after);
          exact.observe(terms, before.mean + y, v + 0.1 * before.variance);
        }
      }
    }
    if (step % 3 == 0) mark();
  }
  mark();
  const auto smooth = smoother.smooth();
  const auto means = smoother.smooth_means();
  const auto answer = exact.condition();
  CHECK(relative_error(smoother.log_likelihood(), answer.log_density) < 1e-10);
  REQUIRE(smooth.size() == answer.smooth.size());
  REQUIRE(means.size() == answer.smooth.size());
  for (std::size_t k = 0; k < smooth.size(); ++k) {
    CAPTURE(k);
    const auto& expected = answer.smooth[k];
    CHECK((smooth[k].mean - expected.mean).cwiseAbs().maxCoeff() <
          1e-9 * (1 + expected.mean.cwiseAbs().maxCoeff()));
    CHECK((means[k] - expected.mean).cwiseAbs().maxCoeff() <
          1e-9 * (1 + expected.mean.cwiseAbs().maxCoeff()));
    CHECK((smooth[k].covariance - expected.covariance).cwiseAbs().maxCoeff() <
          1e-9 * expected.covariance.cwiseAbs().maxCoeff());
    const MeanAndVariance difference = smooth[k].combination({{0, 1.0}, {2, -1.0}});
    CHECK(difference.mean == doctest::Approx(expected.mean[0] - expected.mean[2]));
    CHECK(difference.variance ==
          doctest::Approx(expected.covariance(0, 0) + expected.covariance(2, 2) -
                          2 * expected.covariance(0, 2)));
  }
  // The last mark is after all observations: there the filter knows as much.
  CHECK((smooth.back().mean - smoother.filter().mean()).cwiseAbs().maxCoeff() < 1e-12);
  CHECK((smooth.back().covariance - smoother.filter().covariance()).cwiseAbs().maxCoeff() < 1e-12);
}

}  // namespace

TEST_CASE("every move and its smoothing match conditioning one joint Gaussian [derived]") {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    CAPTURE(seed);
    check_all_moves(seed);
  }
}

TEST_CASE("smoothing a state that is fresh at each session keeps the sessions apart [derived]") {
  // Sessions of two sets with a day effect: y = level + day + noise. Given the level the days are
  // independent, each with the posterior of one group mean.
  KalmanSmoother smoother(
      KalmanFilter::independent(StateVector{{0.0, 5.0}}, StateVector{{0.0, 0.0}}));
  const std::vector<std::vector<double>> sessions{{6.0, 7.0}, {4.0, 3.5}, {5.0, 5.2}};
  for (const auto& sets : sessions) {
    smoother.renew(0, 0, 2.0);
    for (const double y : sets) smoother.update({{0, 1.0}, {1, 1.0}}, y, 0.5);
    smoother.mark();
  }
  const auto smooth = smoother.smooth();
  for (std::size_t k = 0; k < sessions.size(); ++k) {
    const double weight = 2 * 2.0 / (2 * 2.0 + 0.5);
    const double expected = weight * ((sessions[k][0] + sessions[k][1]) / 2 - 5);
    CHECK(smooth[k].mean[0] == doctest::Approx(expected).epsilon(1e-12));
    CHECK(smooth[k].covariance(0, 0) == doctest::Approx(2.0 * (1 - weight)).epsilon(1e-12));
    CHECK(smooth[k].covariance(1, 1) == 0);
  }
}

// ---- robustness --------------------------------------------------------------------------------

TEST_CASE("covariances stay symmetric and positive through 100,000 ill-conditioned steps") {
  // Priors of 1e8, observations with variance 1e-8, rows that are nearly the same combination, and
  // states that hardly move: a covariance updated by subtraction turns negative within a few steps.
  constexpr int n = 6;
  std::mt19937 random(7);
  std::normal_distribution<double> normal;
  auto filter = KalmanFilter::independent(StateVector::Zero(n), StateVector::Constant(n, 1e8));
  Eigen::Matrix<double, n, n> naive = filter.covariance();
  bool naive_failed = false;
  bool symmetric = true;
  bool positive = true;
  bool finite = true;
  for (int step = 0; step < 100000; ++step) {
    std::vector<Term> terms;
    Eigen::Matrix<double, n, 1> z;
    for (Eigen::Index i = 0; i < n; ++i) {
      z[i] = 1 + 1e-6 * normal(random);
      terms.push_back({i, z[i]});
    }
    const Innovation innovation = filter.update(terms, normal(random), 1e-8);
    positive &= innovation.variance >= 1e-8;
    finite &= std::isfinite(innovation.residual) && std::isfinite(innovation.log_density());
    if (step % 100 == 99) filter.renew(static_cast<Eigen::Index>(random() % n), 0, 1e8);
    filter.add_noise(step % n, 1e-12);
    if (!naive_failed) {
      const Eigen::Matrix<double, n, 1> pz = naive * z;
      naive -= pz * pz.transpose() / (z.dot(pz) + 1e-8);
      naive_failed = smallest_eigenvalue(naive) < -1e-8;
    }
    if (step % 1000 != 999) continue;
    const Eigen::MatrixXd covariance = filter.covariance();
    symmetric &= covariance == covariance.transpose();
    // Rounded to doubles, a matrix of this size has eigenvalues exact to about 1e-16 of the
    // largest.
    positive &= smallest_eigenvalue(covariance) > -1e-14 * covariance.norm();
    positive &= covariance.diagonal().minCoeff() > 0;
    // The factors hold the smallest directions exactly: no combination has negative variance.
    for (int k = 0; k < 20; ++k) {
      for (Term& term : terms) term.coefficient = normal(random);
      positive &= filter.combination(terms).variance > 0;
    }
    finite &= covariance.allFinite() && filter.mean().allFinite();
  }
  CHECK(symmetric);
  CHECK(positive);
  CHECK(finite);
  CHECK(naive_failed);  // else the steps were not ill-conditioned, and this test shows nothing
}

TEST_CASE("many precise looks at one sum leave its precision, not rounding [derived]") {
  // x0 + x1 observed n times with variance h, priors p: precision of the sum is 1/(2p) + n/h.
  auto filter = KalmanFilter::independent(StateVector{{0.0, 0.0}}, StateVector{{1e9, 1e9}});
  constexpr int n = 100000;
  for (int i = 0; i < n; ++i) filter.update({{0, 1.0}, {1, 1.0}}, 3.0, 1e-6);
  const MeanAndVariance sum = filter.combination({{0, 1.0}, {1, 1.0}});
  CHECK(relative_error(sum.variance, 1 / (1 / 2e9 + n / 1e-6)) < 1e-9);
  CHECK(relative_error(sum.mean, 3.0) < 1e-9);
  const MeanAndVariance difference = filter.combination({{0, 1.0}, {1, -1.0}});
  CHECK(relative_error(difference.variance, 2e9) < 1e-9);
}

TEST_CASE("a state known exactly stays known") {
  auto filter = KalmanFilter::independent(StateVector{{1.0, 2.0}}, StateVector{{0.0, 1.0}});
  const Innovation innovation = filter.update({{0, 1.0}, {1, 1.0}}, 4.0, 1.0);
  CHECK(innovation.residual == 1.0);
  CHECK(innovation.variance == 2.0);
  CHECK(filter.mean()[0] == 1.0);
  CHECK(filter.mean()[1] == doctest::Approx(2.5));
  CHECK(filter.combination({{0, 1.0}}).variance == 0.0);
  filter.update({{0, 1.0}}, 9.0, 1.0);
  CHECK(filter.mean()[0] == 1.0);
}

TEST_CASE("a state's covariance with itself is its variance, and with another that of the matrix") {
  StateMatrix given(3, 3);
  given << 4, 1, 0.5, 1, 3, -1, 0.5, -1, 2;
  const KalmanFilter filter(StateVector{{0.0, 0.0, 0.0}}, given);
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) {
      const std::array a{Term{i, 1.0}};
      const std::array b{Term{j, 1.0}};
      CHECK(filter.covariance_between(a, b) == doctest::Approx(given(i, j)).epsilon(1e-14));
    }
  }
}

TEST_CASE("what makes no sense is refused, and says why") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  auto filter = KalmanFilter::independent(StateVector{{0.0, 0.0}}, StateVector{{1.0, 1.0}});
  for (const double bad : {nan, infinity}) {
    CHECK_THROWS_AS(filter.update({{0, 1.0}}, bad, 1.0), DomainError);
    CHECK_THROWS_AS(filter.update({{0, bad}}, 1.0, 1.0), DomainError);
    CHECK_THROWS_AS(filter.update({{0, 1.0}}, 1.0, bad), DomainError);
    CHECK_THROWS_AS(filter.add_noise(0, bad), DomainError);
    CHECK_THROWS_AS(filter.renew(0, bad, 1), DomainError);
    CHECK_THROWS_AS(filter.renew(0, 1, bad), DomainError);
    CHECK_THROWS_AS(filter.scale(0, bad), DomainError);
    CHECK_THROWS_AS(filter.shift(0, bad), DomainError);
    CHECK_THROWS_AS(filter.add_multiple(0, 1, bad), DomainError);
    CHECK_THROWS_AS(KalmanFilter(StateVector{{bad}}, StateMatrix{{1.0}}), DomainError);
    CHECK_THROWS_AS(KalmanFilter(StateVector{{0.0}}, StateMatrix{{bad}}), DomainError);
  }
  CHECK_THROWS_AS(filter.update({{0, 1.0}}, 1.0, 0.0), DomainError);
  CHECK_THROWS_AS(filter.update({{2, 1.0}}, 1.0, 1.0), DomainError);
  CHECK_THROWS_AS(filter.add_noise(-1, 1.0), DomainError);
  CHECK_THROWS_AS(filter.add_noise(0, -1e-9), DomainError);
  StateMatrix matrix(2, 2);
  matrix << 1, 2, 2, 1;  // a correlation of 2
  CHECK_THROWS_AS(KalmanFilter(StateVector{{0.0, 0.0}}, matrix), DomainError);
  matrix << 1, 0.5, 0.4, 1;  // not symmetric
  CHECK_THROWS_AS(filter.predict(StateMatrix::Identity(2, 2), matrix), DomainError);
  CHECK_THROWS_AS(KalmanFilter(Eigen::VectorXd{{0.0, 0.0}}, Eigen::MatrixXd::Identity(3, 3)),
                  DomainError);
  CHECK_THROWS_WITH_AS(filter.update({{0, 1.0}}, 1.0, 0.0),
                       "the variance of an observation must be a finite number above 0; got 0",
                       DomainError);
  CHECK_THROWS_WITH_AS(KalmanFilter(Eigen::VectorXd{}, Eigen::MatrixXd{}),
                       "the number of states must be 1 or more; got 0", DomainError);
  // None of it left a trace.
  CHECK(filter.mean() == StateVector{{0.0, 0.0}});
  CHECK(filter.covariance() == StateMatrix::Identity(2, 2));
}
