// tests/check_same_instructions.cpp - the scalar estimates, and the same written by hand
//
// check_same_instructions.cmake compiles this and compares library_X with by_hand_X. By hand stands
// what the library promises: the formula with its constants folded, on bare numbers, refusing
// repetitions the curve is not defined for and a max that is no number.
// SPDX-License-Identifier: BSL-1.0
#include "barwright/equations.hpp"

using namespace barwright;

[[noreturn]] void refuse(double value);

Mass library_epley(Mass load, Reps done, RepsInReserve left) {
  return one_rep_max(equations::epley, load, done, left);
}
double by_hand_epley(double load, int done, double left) {
  const double reps = done + left;
  if (!(1.0 <= reps && reps <= 100.0)) [[unlikely]]
    refuse(reps);
  const double max = load * (1.0 + 1.0 / 30.0 * reps);
  if (!(max - max == 0.0)) refuse(max);
  return max;
}

Mass library_brzycki(Mass load, Reps done, RepsInReserve left) {
  return one_rep_max(equations::brzycki, load, done, left);
}
double by_hand_brzycki(double load, int done, double left) {
  const double reps = done + left;
  if (!(1.0 <= reps && reps <= 36.0)) [[unlikely]]
    refuse(reps);
  const double share = 37.0 / 36.0 - 1.0 / 36.0 * reps;
  if (!(share >= 1e-6)) [[unlikely]]
    refuse(share);
  return load / share;
}

Mass library_lander(Mass load, Reps done, RepsInReserve left) {
  return one_rep_max(equations::lander, load, done, left);
}
double by_hand_lander(double load, int done, double left) {
  const double reps = done + left;
  if (!(1.0 <= reps && reps <= 37.0)) [[unlikely]]
    refuse(reps);
  const double share = 1.013 - 0.0267123 * reps;
  if (!(share >= 1e-6)) [[unlikely]]
    refuse(share);
  return load / share;
}
