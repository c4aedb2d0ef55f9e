// Tests of barwright/learn/least_squares.hpp. Certified values: tests/data/nist-strd/README.md.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/learn/least_squares.hpp"
#include "barwright/core/error.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "csv_table.hpp"

#ifdef BARWRIGHT_HAVE_GSL
#include <gsl/gsl_multifit.h>
#endif

using namespace barwright;
using barwright_test::CsvTable;
using barwright_test::relative_error;

namespace {

/// "b2"
std::string numbered(char letter, Eigen::Index number) {
  std::string name(1, letter);
  return name += std::to_string(number);
}

struct Certified {
  Eigen::MatrixXd design;
  Eigen::VectorXd response;
  std::vector<double> estimates;
  std::vector<double> standard_errors;
  double residual_sd;
};

// A linear NIST dataset; powers of x, except Longley, which has six columns and an intercept.
Certified nist_linear(const std::string& name) {
  const CsvTable data("nist-strd/" + name + ".csv");
  const CsvTable coefficients("nist-strd/linear-coefficients.csv");
  const CsvTable summary("nist-strd/linear-summary.csv");
  Certified result;
  bool intercept = false;
  for (const auto& row : coefficients.rows()) {
    if (row.text("dataset") != name) continue;
    intercept |= row.text("parameter") == "B0";
    result.estimates.push_back(row.number("estimate"));
    result.standard_errors.push_back(row.number("std_error"));
  }
  result.residual_sd = summary.find({{"dataset", name}}).number("residual_sd");
  const auto n = static_cast<Eigen::Index>(data.size());
  const auto p = static_cast<Eigen::Index>(result.estimates.size());
  result.design.resize(n, p);
  result.response.resize(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto row = data[static_cast<std::size_t>(i)];
    result.response[i] = row.number("y");
    for (Eigen::Index j = 0; j < p; ++j) {
      if (name == "Longley") {
        result.design(i, j) = j == 0 ? 1 : row.number(numbered('x', j));
      } else {
        result.design(i, j) = std::pow(row.number("x"), static_cast<double>(j + !intercept));
      }
    }
  }
  return result;
}

}  // namespace

TEST_CASE("linear least squares reaches the digits a QR can [NIST StRD, read]") {
  // Digits required of the estimates: about one below what QR reached in R 4.2.2.
  const std::map<std::string, double> digits{
      {"Norris", 11.8},  {"Pontius", 11.3}, {"NoInt1", 13.7},   {"NoInt2", 14},
      {"Longley", 10.2}, {"Wampler1", 8.3}, {"Wampler2", 11.9}, {"Wampler3", 8.4},
      {"Wampler4", 7.4}, {"Wampler5", 5.5}, {"Filip", 7}};
  for (const auto& entry : digits) {
    const std::string& name = entry.first;
    const double needed = entry.second;
    CAPTURE(name);
    const Certified data = nist_linear(name);
    const LeastSquares fit = weighted_least_squares(data.design, data.response,
                                                    Eigen::VectorXd::Ones(data.response.size()));
    double worst_estimate = 0;
    double worst_error = 0;
    for (std::size_t j = 0; j < data.estimates.size(); ++j) {
      const auto i = static_cast<Eigen::Index>(j);
      worst_estimate =
          std::fmax(worst_estimate, relative_error(fit.coefficients[i], data.estimates[j]));
      if (data.residual_sd > 0) {
        worst_error =
            std::fmax(worst_error, relative_error(fit.standard_error(i), data.standard_errors[j]));
      }
    }
    MESSAGE(name, ": digits of estimates ", -std::log10(worst_estimate), ", of standard errors ",
            -std::log10(worst_error));
    CHECK(worst_estimate < std::pow(10, -needed));
    if (data.residual_sd > 0) {
      CHECK(worst_error < (name == "Filip" ? 1e-6 : 1e-9));
      CHECK(relative_error(std::sqrt(fit.residual_variance()), data.residual_sd) <
            (name == "Filip" ? 1e-8 : 1e-9));
    } else {  // Wampler1 and 2 fit exactly; the responses reach 4e6 and 6e3
      CHECK(std::sqrt(fit.residual_variance()) < 1e-15 * data.response.cwiseAbs().maxCoeff());
    }
    CHECK(fit.degrees_of_freedom == data.design.rows() - data.design.cols());
  }
}

TEST_CASE(
    "nonlinear least squares finds the certified optimum from both starts [NIST StRD, read]") {
  // Two-parameter curves of the kinds that describe reps: saturating and power.
  struct Model {
    std::string name;
    std::function<void(double x, double a, double b, double& y, double& da, double& db)> at;
  };
  const auto saturating = [](double x, double a, double b, double& y, double& da, double& db) {
    da = -std::expm1(-b * x);
    y = a * da;
    db = a * x * std::exp(-b * x);
  };
  const auto power = [](double x, double a, double b, double& y, double& da, double& db) {
    da = std::pow(x, b);
    y = a * da;
    db = y * std::log(x);
  };
  const CsvTable starts("nist-strd/nonlinear-coefficients.csv");
  const CsvTable refit("nist-strd/nonlinear-refit.csv");
  for (const Model& model :
       {Model{"Misra1a", saturating}, Model{"BoxBOD", saturating}, Model{"DanWood", power}}) {
    CAPTURE(model.name);
    const CsvTable data("nist-strd/" + model.name + ".csv");
    const auto n = static_cast<int>(data.size());
    const auto residuals = [&](const Eigen::VectorXd& x, Eigen::VectorXd& r, Eigen::MatrixXd& j) {
      for (int i = 0; i < n; ++i) {
        const auto row = data[static_cast<std::size_t>(i)];
        double y = 0;
        model.at(row.number("x"), x[0], x[1], y, j(i, 0), j(i, 1));
        r[i] = y - row.number("y");
      }
    };
    for (const std::string start : {"start1", "start2"}) {
      CAPTURE(start);
      Eigen::VectorXd from(2);
      for (int k = 0; k < 2; ++k) {
        from[k] = starts.find({{"dataset", model.name}, {"parameter", numbered('b', k + 1)}})
                      .number(start);
      }
      const auto fit = nonlinear_least_squares(residuals, from, n);
      REQUIRE(fit);
      for (int k = 0; k < 2; ++k) {
        const auto row = refit.find({{"dataset", model.name}, {"parameter", numbered('b', k + 1)}});
        CHECK(relative_error(fit->coefficients[k], row.number("value")) < 1e-7);
        CHECK(relative_error(fit->standard_error(k), row.number("std_error")) < 1e-6);
      }
      CHECK(
          relative_error(
              fit->residual_sum_of_squares,
              refit.find({{"dataset", model.name}, {"parameter", "residual_ss"}}).number("value")) <
          1e-11);
    }
  }
}

#ifdef BARWRIGHT_HAVE_GSL
TEST_CASE("weighted least squares agrees with GSL 2.7 [gsl_multifit_wlinear]") {
  std::mt19937 random(11);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform(0.2, 5.0);
  constexpr int n = 30;
  constexpr int p = 4;
  Eigen::MatrixXd design(n, p);
  Eigen::VectorXd response(n);
  Eigen::VectorXd weights(n);
  gsl_matrix* x = gsl_matrix_alloc(n, p);
  gsl_vector* y = gsl_vector_alloc(n);
  gsl_vector* w = gsl_vector_alloc(n);
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < p; ++j) {
      design(i, j) = j == 0 ? 1 : std::pow(1000.0, j - 1) * normal(random);  // unlike units
      gsl_matrix_set(x, static_cast<std::size_t>(i), static_cast<std::size_t>(j), design(i, j));
    }
    response[i] = normal(random);
    weights[i] = uniform(random);
    gsl_vector_set(y, static_cast<std::size_t>(i), response[i]);
    gsl_vector_set(w, static_cast<std::size_t>(i), weights[i]);
  }
  gsl_vector* c = gsl_vector_alloc(p);
  gsl_matrix* covariance = gsl_matrix_alloc(p, p);
  double chisq = 0;
  gsl_multifit_linear_workspace* work = gsl_multifit_linear_alloc(n, p);
  REQUIRE(gsl_multifit_wlinear(x, w, y, c, covariance, &chisq, work) == 0);
  const LeastSquares fit = weighted_least_squares(design, response, weights);
  for (int j = 0; j < p; ++j) {
    const auto sj = static_cast<std::size_t>(j);
    CHECK(relative_error(fit.coefficients[j], gsl_vector_get(c, sj)) < 1e-11);
    for (int k = 0; k < p; ++k) {
      const auto sk = static_cast<std::size_t>(k);
      const double scale = std::sqrt(gsl_matrix_get(covariance, sj, sj)) *
                           std::sqrt(gsl_matrix_get(covariance, sk, sk));
      CHECK(std::fabs(fit.unscaled_covariance(j, k) - gsl_matrix_get(covariance, sj, sk)) <
            1e-12 * scale);
    }
  }
  CHECK(relative_error(fit.residual_sum_of_squares, chisq) < 1e-12);
  gsl_multifit_linear_free(work);
  gsl_matrix_free(covariance);
  gsl_vector_free(c);
  gsl_vector_free(w);
  gsl_vector_free(y);
  gsl_matrix_free(x);
}
#endif

TEST_CASE("a weight of 3 is three equal observations, but for the degrees of freedom [derived]") {
  Eigen::MatrixXd once(4, 2);
  once << 1, 0, 1, 1, 1, 2, 1, 3;
  const Eigen::Vector4d y(1, 3, 2, 5);
  const Eigen::Vector4d w(1, 3, 1, 1);
  Eigen::MatrixXd thrice(6, 2);
  thrice << 1, 0, 1, 1, 1, 1, 1, 1, 1, 2, 1, 3;
  Eigen::VectorXd y3(6);
  y3 << 1, 3, 3, 3, 2, 5;
  const LeastSquares a = weighted_least_squares(once, y, w);
  const LeastSquares b = weighted_least_squares(thrice, y3, Eigen::VectorXd::Ones(6));
  CHECK((a.coefficients - b.coefficients).norm() < 1e-14);
  CHECK((a.unscaled_covariance - b.unscaled_covariance).norm() < 1e-14);
  CHECK(a.residual_sum_of_squares == doctest::Approx(b.residual_sum_of_squares).epsilon(1e-13));
  CHECK(a.degrees_of_freedom == 2);
  CHECK(b.degrees_of_freedom == 4);
}

TEST_CASE("least squares refuses what has no answer") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const Eigen::VectorXd ones = Eigen::VectorXd::Ones(4);
  Eigen::MatrixXd design(4, 2);
  design << 1, 2, 1, 2, 1, 2, 1, 2;  // the second column is twice the first
  CHECK_THROWS_AS((void)weighted_least_squares(design, ones, ones), DomainError);
  design << 1, 0, 1, 1, 1, 2, 1, 3;
  CHECK_NOTHROW((void)weighted_least_squares(design, ones, ones));
  CHECK_THROWS_AS((void)weighted_least_squares(design, ones, Eigen::VectorXd::Zero(4)),
                  DomainError);
  CHECK_THROWS_AS((void)weighted_least_squares(design, ones.head(3), ones), DomainError);
  CHECK_THROWS_AS((void)weighted_least_squares(design, ones * nan, ones), DomainError);
  CHECK_THROWS_AS((void)weighted_least_squares(design, ones, ones * nan), DomainError);
  CHECK_THROWS_AS((void)weighted_least_squares(design.topRows(2), ones.head(2), ones.head(2)),
                  DomainError);
  CHECK_THROWS_AS((void)weighted_least_squares(design.leftCols(0), ones, ones), DomainError);
}

TEST_CASE("a fit that never settles is no fit") {
  int asked = 0;  // each time it fits a little better, wherever it stands
  const auto ever_better = [&](const Eigen::VectorXd&, Eigen::VectorXd& r, Eigen::MatrixXd& j) {
    r.setConstant(1.0 / ++asked);
    j.setOnes();
  };
  CHECK(!nonlinear_least_squares(ever_better, Eigen::VectorXd::Zero(1), 2));
  CHECK(asked > 1000);
}
