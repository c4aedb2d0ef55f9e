// barwright/curves/equations.hpp - the published equations for estimating a max from repetitions
//
// Almost all published equations are one of five simple forms of the same thing, the share of the
// max that can be lifted for r repetitions to failure; the forms come first, then the equations as
// objects of those forms, each with its source, the people studied and where it is defined. A
// second kind, the regressions of one lift in one group of people, is at the end: they are no
// curves, and hold for that lift and that group.
//
// Which to use? Up to ten repetitions the middle half of them lies within 6 %, little more than a
// max differs from day to day (median test-retest variation 4.2 %: Grgic et al. 2020, Sports Med
// Open 6:31; abstract read), the furthest up to 14 %. Beyond ten they part, and none should be
// trusted far. docs/equations.md has the figures.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cmath>
#include <cstddef>
#include <string_view>

#include "barwright/core/effort.hpp"
#include "barwright/core/error.hpp"
#include "barwright/core/mass.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/rep_curve.hpp"

namespace barwright::inline v0 {

/// What is known about an equation besides its numbers.
struct EquationFacts {
  std::string_view name{};
  RepRange studied{};  ///< repetitions to failure it was fitted on, or is stated for
  Source source{};
};

// ---------------------------------------------------------------------------------------------
// The forms. Each is a RepCurve; its numbers are public, so that a reader's own can be put in.

/// Max = load x (at_zero + per_rep r): the max rises in a straight line with the repetitions.
struct LinearMultiplier {
  double at_zero = 1.0;
  double per_rep = 0.0;
  EquationFacts facts{};

  [[nodiscard]] constexpr double multiplier(double reps) const {
    detail::require_reps_defined(reps, defined());
    return at_zero + per_rep * reps;
  }
  [[nodiscard]] constexpr double fraction(double reps) const { return 1.0 / multiplier(reps); }
  [[nodiscard]] constexpr double reps(double share) const {
    detail::require_fraction_defined(share, fraction(defined().high), fraction(defined().low));
    return (1.0 / share - at_zero) / per_rep;
  }
  [[nodiscard]] constexpr double slope(double reps) const { return -per_rep / multiplier(reps); }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
};

/// Share of the max = at_zero - per_rep r: the load falls in a straight line with the repetitions,
/// and reaches nothing at at_zero / per_rep of them, so the curve ends before.
struct LinearShare {
  double at_zero = 1.0;
  double per_rep = 0.0;
  double last_rep = Reps::most;  ///< where the curve ends; the share is still positive there
  EquationFacts facts{};

  [[nodiscard]] constexpr double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return at_zero - per_rep * reps;
  }
  [[nodiscard]] constexpr double reps(double share) const {
    detail::require_fraction_defined(share, fraction(defined().high), fraction(defined().low));
    return (at_zero - share) / per_rep;
  }
  [[nodiscard]] constexpr double slope(double reps) const { return -per_rep / fraction(reps); }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {1.0, last_rep}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
};

/// Max = load x r^exponent: share of the max = r^-exponent.
struct PowerShare {
  double exponent = 0.0;
  EquationFacts facts{};

  [[nodiscard]] double multiplier(double reps) const {
    detail::require_reps_defined(reps, defined());
    return std::pow(reps, exponent);
  }
  [[nodiscard]] double fraction(double reps) const { return 1.0 / multiplier(reps); }
  [[nodiscard]] double reps(double share) const {
    const double reps = std::pow(share, -1.0 / exponent);
    detail::require_share_of(*this, share, reps);
    return reps;
  }
  [[nodiscard]] constexpr double slope(double reps) const {
    detail::require_reps_defined(reps, defined());
    return -exponent / reps;
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
};

/// Share of the max = floor + span exp(-rate r): the load falls ever more slowly, towards `floor`,
/// which the curve says can be lifted for ever.
struct ExponentialShare {
  double floor = 0.0;
  double span = 1.0;
  double rate = 0.0;
  EquationFacts facts{};

  [[nodiscard]] double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return floor + span * std::exp(-rate * reps);
  }
  [[nodiscard]] double reps(double share) const {
    const double reps = std::log(span / (share - floor)) / rate;
    detail::require_share_of(*this, share, reps);
    return reps;
  }
  [[nodiscard]] double slope(double reps) const {
    const double share = fraction(reps);
    return -rate * (share - floor) / share;
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
};

/// Max = load x (c0 + c1 r + c2 r^2 + c3 r^3). A cubic turns; the curve ends before it does.
struct CubicMultiplier {
  double c0 = 1.0;
  double c1 = 0.0;
  double c2 = 0.0;
  double c3 = 0.0;
  double last_rep = Reps::most;  ///< the multiplier still rises there
  EquationFacts facts{};

  [[nodiscard]] constexpr double multiplier(double reps) const {
    detail::require_reps_defined(reps, defined());
    return c0 + reps * (c1 + reps * (c2 + reps * c3));
  }
  [[nodiscard]] constexpr double fraction(double reps) const { return 1.0 / multiplier(reps); }
  [[nodiscard]] double reps(double share) const {
    return detail::solve_for_reps(*this, share, defined());
  }
  [[nodiscard]] constexpr double slope(double reps) const {
    return -(c1 + reps * (2.0 * c2 + reps * 3.0 * c3)) * fraction(reps);
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {1.0, last_rep}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts.studied; }
};

/// The critical-load form: r = capacity / (L - critical) - capacity / (max - critical), loads as
/// shares of the max. Above the critical share a fixed capacity is used up; below it, never.
///
/// It counts repetitions beyond the max, so that r = 0 at L = max; `anchored` makes one repetition
/// the max, as the other equations have it. The parameters are a lifter's own (curve_fit.hpp finds
/// them); none are universal. Morton, Redstone & Laing 2014, Int J Exerc Sci 7(2):152-160
/// (recalled).
class CriticalLoad {
 public:
  /// @param critical_share  load that could be lifted for ever, as a share of the max: 0 to 0.99
  /// @param capacity        repetitions x share of the max above critical: 0.01 to 1000
  /// @throws DomainError outside those.
  constexpr CriticalLoad(double critical_share, double capacity, EquationFacts facts = unnamed())
      : critical_(critical_share), capacity_(capacity), facts_(facts) {
    if (!(critical_share >= 0.0 && critical_share <= 0.99)) {
      detail::fail("a critical load", "a share of the max from 0 to 0.99", critical_share);
    }
    if (!(capacity >= 0.01 && capacity <= 1000.0)) {
      detail::fail("the capacity above critical load", "a number from 0.01 to 1000", capacity);
    }
  }

  [[nodiscard]] constexpr double fraction(double reps) const {
    detail::require_reps_defined(reps, defined());
    return critical_ + capacity_ / (reps + offset());
  }
  [[nodiscard]] constexpr double reps(double share) const {
    detail::require_fraction_defined(share, fraction(defined().high), fraction(defined().low));
    return capacity_ / (share - critical_) - offset();
  }
  [[nodiscard]] constexpr double slope(double reps) const {
    const double share = fraction(reps);
    const double above = share - critical_;
    return -above * above / (capacity_ * share);
  }
  [[nodiscard]] constexpr RepRange defined() const noexcept { return {.low = 0.0}; }
  [[nodiscard]] constexpr RepRange studied() const noexcept { return facts_.studied; }
  [[nodiscard]] constexpr double critical_share() const noexcept { return critical_; }
  [[nodiscard]] constexpr double capacity() const noexcept { return capacity_; }
  [[nodiscard]] constexpr const EquationFacts& facts() const noexcept { return facts_; }

 private:
  /// Repetitions that the capacity would allow at the max itself.
  [[nodiscard]] constexpr double offset() const noexcept { return capacity_ / (1.0 - critical_); }

  static constexpr EquationFacts unnamed() noexcept {
    return {.name = "critical load",
            .source = {.citation = "Morton, Redstone & Laing 2014, Int J Exerc Sci 7(2):152-160",
                       .population = "bench press",
                       .evidence = Evidence::published,
                       .reading = Reading::recalled,
                       .note = "form only; the parameters are the lifter's own"}};
  }

  double critical_;
  double capacity_;
  EquationFacts facts_;
};

// ---------------------------------------------------------------------------------------------
// The equations.

/// Published repetition curves. The short classic formulas are widely reprinted and were recalled,
/// not read in their sources; Kemmler's was read in the paper's abstract.
namespace equations {

inline constexpr LinearMultiplier epley{
    .at_zero = 1.0,
    .per_rep = 1.0 / 30.0,
    .facts = {
        .name = "Epley",
        .studied = {1.0, 10.0},
        .source = {
            .citation = "Epley 1985, Poundage chart, in: Boyd Epley Workout, Lincoln NE, p. 86",
            .population = "not stated; usual limit 10 repetitions",
            .evidence = Evidence::handbook,
            .reading = Reading::recalled,
            .note = "1.033 times the load at one repetition; also printed with 0.0333 "
                    "and 0.033 for 1/30"}}};

/// Epley's line as Welday printed it, 0.0333 for 1/30: the same to rounding.
inline constexpr LinearMultiplier welday{
    .at_zero = 1.0,
    .per_rep = 0.0333,
    .facts = {.name = "Welday",
              .studied = {1.0, 10.0},
              .source = {.citation = "Welday 1988, Scholastic Coach 57(9):49-68",
                         .population = "not stated",
                         .evidence = Evidence::handbook,
                         .reading = Reading::recalled,
                         .note = "1.033 times the load at one repetition"}}};

inline constexpr LinearShare brzycki{
    .at_zero = 37.0 / 36.0,
    .per_rep = 1.0 / 36.0,
    .last_rep = 36.0,
    .facts = {
        .name = "Brzycki",
        .studied = {1.0, 10.0},
        .source = {.citation = "Brzycki 1993, J Phys Educ Recreat Dance 64(1):88-90",
                   .population = "stated for at most 10 repetitions",
                   .evidence = Evidence::published,
                   .reading = Reading::recalled,
                   .note = "max = 36 load / (37 - r), exact at one repetition; the decimal "
                           "print 1.0278 - 0.0278 r differs by up to 0.1 % to 20 repetitions"}}};

inline constexpr LinearShare lander{
    .at_zero = 1.013,
    .per_rep = 0.0267123,
    .last_rep = 37.0,
    .facts = {.name = "Lander",
              .studied = {1.0, 10.0},
              .source = {.citation = "Lander 1985, NSCA J 6(6):60-61",
                         .population = "not stated",
                         .evidence = Evidence::handbook,
                         .reading = Reading::recalled,
                         .note = "1.014 times the load at one repetition"}}};

inline constexpr PowerShare lombardi{
    .exponent = 0.10,
    .facts = {.name = "Lombardi",
              .studied = {1.0, 10.0},
              .source = {.citation = "Lombardi 1989, Beginning Weight Training, Dubuque IA",
                         .population = "not stated",
                         .evidence = Evidence::handbook,
                         .reading = Reading::recalled,
                         .note = "exact at one repetition; falls little beyond ten"}}};

inline constexpr ExponentialShare mayhew{
    .floor = 0.522,
    .span = 0.419,
    .rate = 0.055,
    .facts = {.name = "Mayhew",
              .studied = {1.0, 15.0},
              .source = {.citation =
                             "Mayhew, Ball, Arnold & Bowen 1992, J Appl Sport Sci Res 6(4):200-206",
                         .population = "bench press, college men and women, sets of 55-95 % of max",
                         .evidence = Evidence::published,
                         .reading = Reading::recalled,
                         .note = "1.089 times the load at one repetition, the most of all; never "
                                 "more than 1.916 times it"}}};

inline constexpr LinearMultiplier oconner{
    .at_zero = 1.0,
    .per_rep = 0.025,
    .facts = {
        .name = "O'Conner",
        .studied = {1.0, 10.0},
        .source = {.citation = "O'Conner, Simmons & O'Shea 1989, Weight Training Today, St Paul MN",
                   .population = "not stated",
                   .evidence = Evidence::handbook,
                   .reading = Reading::recalled,
                   .note = "1.025 times the load at one repetition"}}};

inline constexpr ExponentialShare wathen{
    .floor = 0.488,
    .span = 0.538,
    .rate = 0.075,
    .facts = {
        .name = "Wathen",
        .studied = {1.0, 10.0},
        .source = {.citation =
                       "Wathen 1994, Load assignment, in: Baechle (ed.), Essentials of Strength "
                       "Training and Conditioning, Champaign IL, pp. 435-446",
                   .population = "not stated",
                   .evidence = Evidence::handbook,
                   .reading = Reading::recalled,
                   .note = "1.013 times the load at one repetition; never more than 2.049 "
                           "times it"}}};

inline constexpr LinearShare adams{
    .at_zero = 1.0,
    .per_rep = 0.02,
    .last_rep = 49.0,
    .facts = {.name = "Adams",
              .studied = {1.0, 10.0},
              .source = {.citation = "Adams 1998, Exercise Physiology Laboratory Manual, 3rd ed.",
                         .population = "not stated",
                         .evidence = Evidence::handbook,
                         .reading = Reading::recalled,
                         .note = "1.020 times the load at one repetition"}}};

inline constexpr ExponentialShare berger{
    .floor = 0.0,
    .span = 1.0261,
    .rate = 0.0262,
    .facts = {.name = "Berger",
              .studied = {1.0, 10.0},
              .source = {.citation = "usually credited to Berger 1970, Res Q 41:115-116",
                         .population = "not stated",
                         .evidence = Evidence::published,
                         .reading = Reading::recalled,
                         .note = "1.0004 times the load at one repetition"}}};

inline constexpr LinearMultiplier brown{
    .at_zero = 0.9849,
    .per_rep = 0.0328,
    .facts = {.name = "Brown",
              .studied = {1.0, 10.0},
              .source = {.citation = "Brown 1992, Lifetime Fitness, 3rd ed.",
                         .population = "not stated",
                         .evidence = Evidence::handbook,
                         .reading = Reading::recalled,
                         .note = "1.018 times the load at one repetition"}}};

/// Ends at 24 repetitions: the cubic turns down after 24.15.
inline constexpr CubicMultiplier kemmler{
    .c0 = 0.988,
    .c1 = 0.0104,
    .c2 = 0.00190,
    .c3 = -0.0000584,
    .last_rep = 24.0,
    .facts = {
        .name = "Kemmler",
        .studied = {3.0, 20.0},
        .source = {.citation = "Kemmler, Lauber, Wassermann & Mayhew 2006, J Strength Cond Res "
                               "20(4):838-842",
                   .population = "70 trained postmenopausal women, 57.4 +/- 3.1 years; leg "
                                 "press, bench press, row, leg adduction on machines",
                   .evidence = Evidence::published,
                   .reading = Reading::read,
                   .note = "1.0002 times the load at one repetition; mean absolute error "
                           "1.5-3.1 %"}}};

inline constexpr ExponentialShare reynolds_chest_press{
    .floor = 0.4847,
    .span = 0.5551,
    .rate = 0.0723,
    .facts = {
        .name = "Reynolds chest press",
        .studied = {1.0, 20.0},
        .source = {.citation = "Reynolds, Gordon & Robergs 2006, J Strength Cond Res 20(3):584-592",
                   .population = "34 men and 36 women, 18-69 years; chest press",
                   .evidence = Evidence::published,
                   .reading = Reading::recalled,
                   .note = "0.999 times the load at one repetition"}}};

inline constexpr ExponentialShare reynolds_leg_press{
    .floor = 0.2641,
    .span = 0.7817,
    .rate = 0.0569,
    .facts = {
        .name = "Reynolds leg press",
        .studied = {1.0, 20.0},
        .source = {.citation = "Reynolds, Gordon & Robergs 2006, J Strength Cond Res 20(3):584-592",
                   .population = "34 men and 36 women, 18-69 years; leg press",
                   .evidence = Evidence::published,
                   .reading = Reading::recalled,
                   .note = "0.997 times the load at one repetition"}}};

/// Calls `visit(equation)` for each of the equations above, the two for one lift last.
template <class Visit>
constexpr void for_each(Visit&& visit) {
  visit(epley);
  visit(welday);
  visit(brzycki);
  visit(lander);
  visit(lombardi);
  visit(mayhew);
  visit(oconner);
  visit(wathen);
  visit(adams);
  visit(berger);
  visit(brown);
  visit(kemmler);
  visit(reynolds_chest_press);
  visit(reynolds_leg_press);
}

inline constexpr std::size_t count = [] {
  std::size_t n = 0;
  for_each([&](const auto&) { ++n; });
  return n;
}();

}  // namespace equations

/// One line of the comparison of all equations for a set.
struct EquationEstimate {
  const EquationFacts* facts = nullptr;
  bool is_defined = false;  ///< false: the curve ends before this set; `max` is zero
  bool is_studied = false;  ///< false: outside the repetitions it was studied on
  Mass max{};
};

/// What every equation says of one set, in the order of `equations::for_each`. Those not defined
/// that far out say so; nothing throws.
struct EquationComparison {
  EquationEstimate lines[equations::count] = {};

  [[nodiscard]] constexpr const EquationEstimate* begin() const noexcept { return lines; }
  [[nodiscard]] constexpr const EquationEstimate* end() const noexcept {
    return lines + equations::count;
  }
};

[[nodiscard]] inline EquationComparison compare_equations(Mass load, Reps done,
                                                          RepsInReserve left = {}) {
  EquationComparison comparison;
  EquationEstimate* line = comparison.lines;
  const double reps = reps_to_failure(done, left);
  equations::for_each([&](const auto& equation) {
    line->facts = &equation.facts;
    line->is_defined = equation.defined().contains(reps);
    line->is_studied = equation.studied().contains(reps);
    if (line->is_defined) line->max = detail::max_from(equation, load, reps);
    ++line;
  });
  return comparison;
}

// ---------------------------------------------------------------------------------------------
// Regressions for one lift in one group of people.

/// What is known about a regression besides its numbers.
struct RegressionFacts {
  std::string_view name{};
  std::string_view lift{};
  RepRange studied{};
  double standard_error = 0.0;  ///< of the estimate, in `unit`; 0 where not known
  Unit unit = Unit::kg;         ///< the unit the equation is written in
  Source source{};
};

/// Max = intercept + per_load x load of an n-repetition set to failure, n in a stated range.
struct LoadRegression {
  double per_load = 1.0;
  double intercept = 0.0;
  RegressionFacts facts{};

  /// The max for a set within the repetitions it was fitted on.
  /// @throws DomainError for other repetitions, or where the line gives less than nothing.
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
                         .reading = Reading::recalled}}};

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

inline constexpr RegressionFacts macht_anthropometric_facts{
    .name = "Macht bench press, anthropometric",
    .lift = "bench press",
    .standard_error = 13.0,
    .unit = Unit::kg,
    .source = macht_performance_facts.source};

/// Bench press max from a set to failure and the breadth between the shoulder points.
/// @param biacromial_cm  20 to 60 cm
[[nodiscard]] constexpr Mass macht_performance(Mass load, Reps to_failure, double biacromial_cm) {
  if (!(biacromial_cm >= 20.0 && biacromial_cm <= 60.0)) {
    detail::fail("a biacromial breadth", "a number of centimetres from 20 to 60", biacromial_cm);
  }
  return Mass::from_kg(1.20 * load.kg() + 2.19 * to_failure.count() - 0.56 * biacromial_cm + 9.6);
}

/// Bench press max from the body alone, with no set done: +/- 13 kg, so a first guess only.
/// @param arm_area_cm2   cross-sectional area of the upper arm, 20 to 200 cm2
/// @param chest_cm       chest girth, 50 to 180 cm
/// @param body_fat       per cent, 2 to 60
/// @param arm_length_cm  40 to 100 cm
[[nodiscard]] constexpr Mass macht_anthropometric(double arm_area_cm2, double chest_cm,
                                                  double body_fat, double arm_length_cm) {
  if (!(arm_area_cm2 >= 20.0 && arm_area_cm2 <= 200.0)) {
    detail::fail("an upper-arm area", "a number of square centimetres from 20 to 200",
                 arm_area_cm2);
  }
  if (!(chest_cm >= 50.0 && chest_cm <= 180.0)) {
    detail::fail("a chest girth", "a number of centimetres from 50 to 180", chest_cm);
  }
  if (!(body_fat >= 2.0 && body_fat <= 60.0)) {
    detail::fail("a body fat", "a percentage from 2 to 60", body_fat);
  }
  if (!(arm_length_cm >= 40.0 && arm_length_cm <= 100.0)) {
    detail::fail("an arm length", "a number of centimetres from 40 to 100", arm_length_cm);
  }
  return Mass::from_kg(0.997 * arm_area_cm2 + 0.401 * chest_cm - 0.385 * body_fat -
                       0.185 * arm_length_cm + 36.7);
}

}  // namespace regressions
}  // namespace barwright::inline v0
