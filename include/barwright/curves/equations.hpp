// barwright/curves/equations.hpp - the published equations for estimating a max from reps
//
// Each is an object of one of the forms in forms.hpp, with its source, the people studied and where
// it is defined. The regressions of one lift in one group of people are no curves: see
// regressions.hpp.
//
// Which to use? Up to ten reps the middle half of them lies within 6 %, little more than a
// max differs from day to day (median test-retest variation 4.2 %: Grgic et al. 2020, Sports Med
// Open 6:31; abstract read), the furthest up to 14 %. Beyond ten they part, and none should be
// trusted far: studied() says where each was meant for, beyond it is extrapolated as far as
// defined(), and then refused. docs/equations.md has the figures.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include <cstddef>

#include "barwright/core/effort.hpp"
#include "barwright/core/source.hpp"
#include "barwright/curves/forms.hpp"

namespace barwright::inline BARWRIGHT_ABI {

/// Published rep curves. The short classic formulas are widely reprinted and were written
/// from memory, not read in their sources; Kemmler's was read in the paper's abstract.
namespace equations {

inline constexpr LinearMultiplier epley(
    {.at_zero = 1.0,
     .per_rep = 1.0 / 30.0,
     .facts = {
         .name = "Epley",
         .studied = {1.0, 10.0},
         .source = {
             .citation = "Epley 1985, Poundage chart, in: Boyd Epley Workout, Lincoln NE, p. 86",
             .population = "not stated; usual limit 10 reps",
             .evidence = Evidence::handbook,
             .reading = Reading::from_memory,
             .note = "1.033 times the load at one rep; also printed with 0.0333 "
                     "and 0.033 for 1/30"}}});

/// Epley's line as Welday printed it, 0.0333 for 1/30: the same to rounding.
inline constexpr LinearMultiplier welday(
    {.at_zero = 1.0,
     .per_rep = 0.0333,
     .facts = {.name = "Welday",
               .studied = {1.0, 10.0},
               .source = {.citation = "Welday 1988, Scholastic Coach 57(9):49-68",
                          .population = "not stated",
                          .evidence = Evidence::handbook,
                          .reading = Reading::from_memory,
                          .note = "1.033 times the load at one rep"}}});

/// Like all straight lines here, it ends at the last rep of which the load is still a tenth of the
/// max: not far beyond, the line runs to no load at all, and one rep more doubles the max.
inline constexpr LinearShare brzycki(
    {.at_zero = 37.0 / 36.0,
     .per_rep = 1.0 / 36.0,
     .last_rep = 33.0,
     .facts = {.name = "Brzycki",
               .studied = {1.0, 10.0},
               .source = {.citation = "Brzycki 1993, J Phys Educ Recreat Dance 64(1):88-90",
                          .population = "stated for at most 10 reps",
                          .evidence = Evidence::published,
                          .reading = Reading::from_memory,
                          .note = "max = 36 load / (37 - r), exact at one rep; the decimal "
                                  "print 1.0278 - 0.0278 r differs by up to 0.1 % to 20 reps"}}});

inline constexpr LinearShare lander({.at_zero = 1.013,
                                     .per_rep = 0.0267123,
                                     .last_rep = 34.0,
                                     .facts = {
                                         .name = "Lander",
                                         .studied = {1.0, 10.0},
                                         .source = {.citation = "Lander 1985, NSCA J 6(6):60-61",
                                                    .population = "not stated",
                                                    .evidence = Evidence::handbook,
                                                    .reading = Reading::from_memory,
                                                    .note = "1.014 times the load at one rep"}}});

inline constexpr PowerShare lombardi(
    {.exponent = 0.10,
     .facts = {.name = "Lombardi",
               .studied = {1.0, 10.0},
               .source = {.citation = "Lombardi 1989, Beginning Weight Training, Dubuque IA",
                          .population = "not stated",
                          .evidence = Evidence::handbook,
                          .reading = Reading::from_memory,
                          .note = "exact at one rep; falls little beyond ten"}}});

inline constexpr ExponentialShare mayhew(
    {.floor = 0.522,
     .span = 0.419,
     .rate = 0.055,
     .facts = {
         .name = "Mayhew",
         .studied = {1.0, 15.0},
         .source = {
             .citation = "Mayhew, Ball, Arnold & Bowen 1992, J Appl Sport Sci Res 6(4):200-206",
             .population = "bench press, college men and women, sets of 55-95 % of max",
             .evidence = Evidence::published,
             .reading = Reading::from_memory,
             .note = "1.089 times the load at one rep, the most of all; never "
                     "more than 1.916 times it"}}});

inline constexpr LinearMultiplier oconner(
    {.at_zero = 1.0,
     .per_rep = 0.025,
     .facts = {.name = "O'Conner",
               .studied = {1.0, 10.0},
               .source = {
                   .citation = "O'Conner, Simmons & O'Shea 1989, Weight Training Today, St Paul MN",
                   .population = "not stated",
                   .evidence = Evidence::handbook,
                   .reading = Reading::from_memory,
                   .note = "1.025 times the load at one rep"}}});

inline constexpr ExponentialShare wathen(
    {.floor = 0.488,
     .span = 0.538,
     .rate = 0.075,
     .facts = {
         .name = "Wathen",
         .studied = {1.0, 10.0},
         .source = {
             .citation = "Wathen 1994, Load assignment, in: Baechle (ed.), Essentials of Strength "
                         "Training and Conditioning, Champaign IL, pp. 435-446",
             .population = "not stated",
             .evidence = Evidence::handbook,
             .reading = Reading::from_memory,
             .note = "1.013 times the load at one rep; never more than 2.049 "
                     "times it"}}});

inline constexpr LinearShare adams(
    {.at_zero = 1.0,
     .per_rep = 0.02,
     .last_rep = 45.0,
     .facts = {.name = "Adams",
               .studied = {1.0, 10.0},
               .source = {.citation = "Adams 1998, Exercise Physiology Laboratory Manual, 3rd ed.",
                          .population = "not stated",
                          .evidence = Evidence::handbook,
                          .reading = Reading::from_memory,
                          .note = "1.020 times the load at one rep"}}});

inline constexpr ExponentialShare berger(
    {.floor = 0.0,
     .span = 1.0261,
     .rate = 0.0262,
     .facts = {.name = "Berger",
               .studied = {1.0, 10.0},
               .source = {.citation = "usually credited to Berger 1970, Res Q 41:115-116",
                          .population = "not stated",
                          .evidence = Evidence::published,
                          .reading = Reading::from_memory,
                          .note = "1.0004 times the load at one rep"}}});

inline constexpr LinearMultiplier brown(
    {.at_zero = 0.9849,
     .per_rep = 0.0328,
     .facts = {.name = "Brown",
               .studied = {1.0, 10.0},
               .source = {.citation = "Brown 1992, Lifetime Fitness, 3rd ed.",
                          .population = "not stated",
                          .evidence = Evidence::handbook,
                          .reading = Reading::from_memory,
                          .note = "1.018 times the load at one rep"}}});

/// Ends at 24 reps: the cubic turns down after 24.15.
inline constexpr CubicMultiplier kemmler(
    {.c0 = 0.988,
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
                    .note = "1.0002 times the load at one rep; mean absolute error "
                            "1.5-3.1 %"}}});

inline constexpr ExponentialShare reynolds_chest_press(
    {.floor = 0.4847,
     .span = 0.5551,
     .rate = 0.0723,
     .facts = {.name = "Reynolds chest press",
               .studied = {1.0, 20.0},
               .source = {
                   .citation = "Reynolds, Gordon & Robergs 2006, J Strength Cond Res 20(3):584-592",
                   .population = "34 men and 36 women, 18-69 years; chest press",
                   .evidence = Evidence::published,
                   .reading = Reading::from_memory,
                   .note = "0.999 times the load at one rep"}}});

inline constexpr ExponentialShare reynolds_leg_press(
    {.floor = 0.2641,
     .span = 0.7817,
     .rate = 0.0569,
     .facts = {.name = "Reynolds leg press",
               .studied = {1.0, 20.0},
               .source = {
                   .citation = "Reynolds, Gordon & Robergs 2006, J Strength Cond Res 20(3):584-592",
                   .population = "34 men and 36 women, 18-69 years; leg press",
                   .evidence = Evidence::published,
                   .reading = Reading::from_memory,
                   .note = "0.997 times the load at one rep"}}});

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

}  // namespace barwright::inline BARWRIGHT_ABI
