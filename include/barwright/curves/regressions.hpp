// barwright/curves/regressions.hpp - lines fitted to one lift in one group of people
//
// They are no curves: each holds for its lift, its people and its reps. Use one only where
// all three are yours.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// What is known about a regression besides its numbers.
struct RegressionFacts {
  std::string_view name{};
  std::string_view lift{};
  RepRange studied{};
  double standard_error = 0.0;  ///< of the estimate, in `unit`; 0 where not known
  Unit unit = Unit::kg;         ///< the unit the equation is written in
  Source source{};
};

/// Max = intercept + per_load x load of an n-rep set to failure, n in a stated range.
struct LoadRegression {
  double per_load = 1.0;
  double intercept = 0.0;
  RegressionFacts facts{};

  /// The max for a set within the reps it was fitted on.
  /// @throws DomainError for other reps, or where the line gives less than nothing.
  [[nodiscard]] constexpr Mass max_from(Mass load, Reps to_failure) const {
    detail::require_reps_defined(to_failure.count(), facts.studied);
    return Mass::from(intercept + per_load * load.in(facts.unit), facts.unit);
  }
};

/// Max = constant + interaction x reps x load + per_rep x reps, fitted near one share of the max.
struct InteractionRegression {
  double constant = 0.0;
  double interaction = 0.0;
  double per_rep = 0.0;
  double studied_share = 0.0;  ///< the share of the max the sets were done at
  RegressionFacts facts{};

  /// @throws DomainError where the plane gives less than nothing.
  [[nodiscard]] constexpr Mass max_from(Mass load, Reps to_failure) const {
    const double reps = to_failure.count();
    return Mass::from(constant + interaction * reps * load.in(facts.unit) + per_rep * reps,
                      facts.unit);
  }
  /// Whether load and answer lie near the share of the max it was fitted at (within 0.1 of it).
  [[nodiscard]] constexpr bool is_studied(Mass load, Reps to_failure) const {
    const double share = load / max_from(load, to_failure);
    return share > studied_share - 0.1 && share < studied_share + 0.1;
  }
};

namespace regressions {

inline constexpr Source reynolds_2006{
    .citation = "Reynolds, Gordon & Robergs 2006, J Strength Cond Res 20(3):584-592",
    .population = "34 men and 36 women, 18-69 years",
    .evidence = Evidence::published,
    .reading = Reading::read};

inline constexpr LoadRegression reynolds_chest_press_5rm{
    .per_load = 1.1307,
    .intercept = 0.6999,
    .facts = {.name = "Reynolds chest press, 5RM",
              .lift = "chest press",
              .studied = {5.0, 5.0},
              .standard_error = 2.98,
              .unit = Unit::kg,
              .source = reynolds_2006}};

inline constexpr LoadRegression reynolds_leg_press_5rm{.per_load = 1.0970,
                                                       .intercept = 14.2546,
                                                       .facts = {.name = "Reynolds leg press, 5RM",
                                                                 .lift = "leg press",
                                                                 .studied = {5.0, 5.0},
                                                                 .standard_error = 16.16,
                                                                 .unit = Unit::kg,
                                                                 .source = reynolds_2006}};

inline constexpr Source abadie_wentworth_2000{
    .citation = "Abadie & Wentworth 2000, J Exerc Physiol Online 3(3):1-6",
    .population = "30 women, 19-26 years",
    .evidence = Evidence::published,
    .reading = Reading::read};

/// The published standard error, 2.5 kg, is given here in pounds, the unit of the equation.
inline constexpr LoadRegression abadie_wentworth_chest_press{
    .per_load = 1.05,
    .intercept = 7.24,
    .facts = {.name = "Abadie & Wentworth chest press",
              .lift = "chest press",
              .studied = {5.0, 10.0},
              .standard_error = 2.5 / Mass::kg_per_lb,
              .unit = Unit::lb,
              .source = abadie_wentworth_2000}};

/// The published standard error, 1.6 kg, is given here in pounds, the unit of the equation.
inline constexpr LoadRegression abadie_wentworth_shoulder_press{
    .per_load = 1.20,
    .intercept = 1.43,
    .facts = {.name = "Abadie & Wentworth shoulder press",
              .lift = "shoulder press",
              .studied = {5.0, 10.0},
              .standard_error = 1.6 / Mass::kg_per_lb,
              .unit = Unit::lb,
              .source = abadie_wentworth_2000}};

inline constexpr LoadRegression abadie_wentworth_knee_extension{
    .per_load = 1.14,
    .intercept = 4.67,
    .facts = {.name = "Abadie & Wentworth knee extension",
              .lift = "knee extension",
              .studied = {5.0, 10.0},
              .unit = Unit::lb,
              .source = {.citation = "Abadie & Wentworth 2000, J Exerc Physiol Online 3(3):1-6",
                         .population = "30 women, 19-26 years",
                         .evidence = Evidence::published,
                         .reading = Reading::from_memory}}};

inline constexpr Source braith_1993{
    .citation = "Braith, Graves, Leggett & Pollock 1993, Med Sci Sports Exerc 25(1):132-138",
    .population = "33 men and 25 women",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note =
        "use the line of the lifter's training state: after 18 weeks the untrained line "
        "overestimates by 21 kg"};

inline constexpr LoadRegression braith_untrained_knee_extension{
    .per_load = 1.554,
    .intercept = -5.181,
    .facts = {.name = "Braith knee extension, untrained",
              .lift = "knee extension",
              .studied = {7.0, 10.0},
              .standard_error = 9.3,
              .unit = Unit::kg,
              .source = braith_1993}};

inline constexpr LoadRegression braith_trained_knee_extension{
    .per_load = 1.172,
    .intercept = 7.704,
    .facts = {.name = "Braith knee extension, trained",
              .lift = "knee extension",
              .studied = {7.0, 10.0},
              .standard_error = 9.9,
              .unit = Unit::kg,
              .source = braith_1993}};

inline constexpr Source kravitz_2003{
    .citation = "Kravitz, Akalan, Nowicki & Kinzey 2003, J Strength Cond Res 17(1):167-172",
    .population = "18 elite high-school male powerlifters",
    .evidence = Evidence::published,
    .reading = Reading::read,
    .note = "fitted at one share of the max; away from it the plane misleads"};

inline constexpr InteractionRegression kravitz_squat{.constant = 159.9,
                                                     .interaction = 0.103,
                                                     .per_rep = -11.552,
                                                     .studied_share = 0.70,
                                                     .facts = {.name = "Kravitz squat",
                                                               .lift = "squat",
                                                               .standard_error = 5.06,
                                                               .unit = Unit::kg,
                                                               .source = kravitz_2003}};

inline constexpr InteractionRegression kravitz_bench_press{.constant = 90.66,
                                                           .interaction = 0.085,
                                                           .per_rep = -5.306,
                                                           .studied_share = 0.70,
                                                           .facts = {.name = "Kravitz bench press",
                                                                     .lift = "bench press",
                                                                     .standard_error = 2.69,
                                                                     .unit = Unit::kg,
                                                                     .source = kravitz_2003}};

inline constexpr InteractionRegression kravitz_deadlift{.constant = 156.08,
                                                        .interaction = 0.098,
                                                        .per_rep = -12.106,
                                                        .studied_share = 0.80,
                                                        .facts = {.name = "Kravitz deadlift",
                                                                  .lift = "deadlift",
                                                                  .standard_error = 4.97,
                                                                  .unit = Unit::kg,
                                                                  .source = kravitz_2003}};

inline constexpr RegressionFacts macht_performance_facts{
    .name = "Macht bench press, performance",
    .lift = "bench press",
    .standard_error = 3.5,
    .unit = Unit::kg,
    .source = {.citation = "Macht, Abel, Mullineaux & Yates 2016, J Strength Cond Res "
                           "30(10):2901-2906",
               .population = "60 moderately trained men",
               .evidence = Evidence::published,
               .reading = Reading::read}};

/// Bench press max from a set to failure and the breadth between the shoulder points.
/// @param biacromial_cm  20 to 60 cm
[[nodiscard]] constexpr Mass macht_performance(Mass load, Reps to_failure, double biacromial_cm) {
  if (!(biacromial_cm >= 20.0 && biacromial_cm <= 60.0)) {
    detail::fail("a biacromial breadth", "a number of centimetres from 20 to 60", biacromial_cm);
  }
  return Mass::from_kg(1.20 * load.kg() + 2.19 * to_failure.count() - 0.56 * biacromial_cm + 9.6);
}

}  // namespace regressions
}  // namespace barwright::inline BARWRIGHT_ABI
