// Tests of barwright/core/normal.hpp. Sources beside each check; data:
// tests/data/nist-strd/README.md.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/core/normal.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "csv_table.hpp"

#ifdef BARWRIGHT_HAVE_GSL
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#endif

using namespace barwright;
using barwright_test::relative_error;

TEST_CASE("quantiles agree with values computed to 17 digits [quantiles.csv, read]") {
  const barwright_test::CsvTable table("nist-strd/quantiles.csv");
  double worst_t = 0;
  for (const auto& row : table.rows()) {
    const double p = row.number("p");
    const double expected = row.number("quantile");
    if (row.text("distribution") == "normal") {
      // p itself is rounded to a double, which moves the quantile by up to 1.1e-16 / density
      const double rounding = 1.2e-16 / normal_pdf(expected);
      const double error = std::fabs(normal_quantile(p) - expected);
      CAPTURE(p);
      CHECK(error <= rounding + 1e-15 * expected);
      CHECK(relative_error(normal_quantile(1 - p), -expected, 1e-3) < 1e-9);
      // the same value from the lower tail, where 1 - p is written down exactly enough
      CHECK(relative_error(normal_cdf(expected), p) < 1e-15);
    } else {
      const double df = row.number("df");
      const double error = relative_error(student_t_quantile(p, df), expected);
      CAPTURE(p);
      CAPTURE(df);
      // rounding of p near 1 again: 1.1e-16 / density, relative to the quantile
      CHECK(error < 1e-13 + 1.2e-16 / (student_t_pdf(expected, df) * expected));
      CHECK(relative_error(student_t_cdf(expected, df), p) < 1e-14);
      worst_t = std::fmax(worst_t, error);
    }
  }
  MESSAGE("largest relative error of a t quantile: ", worst_t);
}

TEST_CASE("t quantiles print as the NIST/SEMATECH handbook table 1.3.6.7.2 does [read]") {
  const barwright_test::CsvTable table("nist-strd/quantiles.csv");
  int compared = 0;
  for (const auto& row : table.rows()) {
    // the printed column for p = 0.999 is wrong in the last place for several rows; see the README
    if (row.text("distribution") != "student_t" || row.empty("handbook_table_3dp")) continue;
    if (row.number("p") > 0.998) continue;
    const double value = student_t_quantile(row.number("p"), row.number("df"));
    CHECK(std::fabs(value - row.number("handbook_table_3dp")) <= 0.000501);
    ++compared;
  }
  CHECK(compared >= 80);
}

TEST_CASE("the normal quantile undoes the cumulative probability to 1e-15 [error function]") {
  // Held against a Newton step in extended precision with the C library's erfcl, which knows
  // nothing of the algorithm's coefficients. Covers its three regions: |p - 0.5| < 0.425, and both
  // tails.
  double worst = 0;
  const auto check = [&worst](double p) {
    const double z = normal_quantile(p);
    const long double root2 = std::sqrt(2.0L);
    const long double excess =
        p < 0.25 ? 0.5L * std::erfc(-z / root2) - p : 0.5L * std::erf(z / root2) - (p - 0.5L);
    const long double density = std::exp(-0.5L * z * z) / std::sqrt(2 * std::acos(-1.0L));
    const long double step = excess / density;
    const double error = static_cast<double>(std::fabs(step) / std::fabs(z));
    worst = std::fmax(worst, error);
    CAPTURE(p);
    CHECK(error < 1e-15);
  };
  for (double p = 0.001; p < 0.999; p += 0.00137) check(p);
  for (double e = 1; e < 307; e += 0.37) check(std::pow(10.0, -e));
  for (double e = 1; e < 15; e += 0.37) check(0.5 + std::pow(10.0, -e));
  MESSAGE("largest relative error: ", worst);
}

TEST_CASE("t with one and two degrees of freedom has closed forms [Cauchy; textbook, derived]") {
  for (const double p : {1e-9, 1e-4, 0.03, 0.2, 0.31, 0.499, 0.500001, 0.55, 0.77, 0.9999}) {
    CAPTURE(p);
    const double centred = 2 * p - 1;
    const double pi = std::acos(-1.0);
    const double cauchy = p < 0.5 ? -1 / std::tan(pi * p) : std::tan(pi * (p - 0.5));
    // near p = 1 the tangent magnifies the rounding of pi (p - 1/2)
    CHECK(relative_error(student_t_quantile(p, 1), cauchy) < (p > 0.99 ? 1e-11 : 1e-13));
    CHECK(relative_error(student_t_quantile(p, 2), centred / std::sqrt(2 * p * (1 - p))) < 2e-11);
  }
}

TEST_CASE("the density of t, too, has closed forms with one and two degrees [textbook, derived]") {
  for (const double t : {-30.0, -2.0, -0.4, 0.0, 0.1, 1.0, 7.0}) {
    CAPTURE(t);
    const double pi = std::acos(-1.0);
    CHECK(relative_error(student_t_pdf(t, 1), 1 / (pi * (1 + t * t))) < 1e-13);
    CHECK(relative_error(student_t_pdf(t, 2), 1 / std::pow(2 + t * t, 1.5)) < 1e-13);
  }
}

TEST_CASE("t approaches the normal with many degrees of freedom [expansion in 1/df, textbook]") {
  for (const double p : {0.001, 0.05, 0.4, 0.6, 0.975}) {
    const double z = normal_quantile(p);
    const double first_terms = z + (z * z * z + z) / (4 * 1e6);
    CHECK(relative_error(student_t_quantile(p, 1e6), first_terms) < 1e-10);
  }
}

TEST_CASE("probabilities outside (0, 1) and impossible degrees of freedom are refused") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double p : {0.0, 1.0, -0.1, 1.1, nan}) {
    CHECK_THROWS_AS((void)normal_quantile(p), DomainError);
    CHECK_THROWS_AS((void)student_t_quantile(p, 3), DomainError);
  }
  for (const double df : {0.0, -1.0, 1e7, nan}) {
    CHECK_THROWS_AS((void)student_t_cdf(1, df), DomainError);
    CHECK_THROWS_AS((void)student_t_quantile(0.3, df), DomainError);
  }
}

TEST_CASE("far tails of t keep their digits [incomplete beta in 40-digit arithmetic, mpmath 1.3]") {
  CHECK(relative_error(student_t_cdf(-9.9878850048688506, 40), 9.99999999999995461e-13) < 1e-13);
  CHECK(relative_error(student_t_cdf(-30, 700), 4.41555093793421463e-128) < 1e-13);
}

#ifdef BARWRIGHT_HAVE_GSL
TEST_CASE("quantiles and probabilities agree with GSL 2.7") {
  for (const double p : {1e-12, 1e-5, 0.01, 0.2, 0.45, 0.6, 0.9, 0.999}) {
    CAPTURE(p);
    CHECK(relative_error(normal_quantile(p), gsl_cdf_ugaussian_Pinv(p)) < 1e-13);
    for (const double df : {0.7, 1.0, 3.0, 8.5, 40.0, 700.0}) {
      CAPTURE(df);
      // far out GSL's own t is less exact than ours (see the test above), and its inverse of t does
      // not converge, so its forward function is asked to return p
      if (p < 1e-6) continue;
      CHECK(relative_error(gsl_cdf_tdist_P(student_t_quantile(p, df), df), p) < 1e-11);
    }
  }
  for (const double t : {-30.0, -4.0, -0.3, 0.001, 1.0, 2.5}) {
    CAPTURE(t);
    CHECK(relative_error(normal_cdf(t), gsl_cdf_ugaussian_P(t)) < 1e-12);
    CHECK(relative_error(normal_pdf(t), gsl_ran_ugaussian_pdf(t)) < 1e-14);
    for (const double df : {0.7, 1.0, 3.0, 8.5, 40.0, 700.0}) {
      CAPTURE(df);
      CHECK(relative_error(student_t_cdf(t, df), gsl_cdf_tdist_P(t, df)) < 1e-11);
      CHECK(relative_error(student_t_pdf(t, df), gsl_ran_tdist_pdf(t, df)) < 1e-12);
    }
  }
}
#endif
