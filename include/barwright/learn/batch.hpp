// barwright/learn/batch.hpp - the same computations over columns: millions of sets at a time
//
// A training log in memory is columns: loads in kilograms, reps, reps in reserve. Reps to failure
// lie on a lattice of half reps, so a curve is a table of a few hundred numbers, read once from the
// curve itself: an estimate is then a look-up and a product, whatever the equation, and equals
// one_rep_max to the last bit. A row that makes no sense gets 0 and a Fault that says why; it
// throws nothing and leaves its neighbours alone.
//
//     const CurveLattice curve(equations::wathen);  // once
//     Eigen::ArrayXd kg(3), max(3);
//     batch::Counts reps(3), left(3);               // left counts half reps
//     batch::Faults faults(3);
//     kg << 100, 80, 60;
//     reps << 5, 8, 10;
//     left << 4, 2, 0;                              // 2, 1 and none in reserve
//     batch::one_rep_max(curve, kg, reps, left, max, faults);
//
// A column is any Eigen array or a piece of one, or an Eigen::Map of memory held elsewhere. Results
// go to the caller's columns, so that nothing is allocated. Input that is not contiguous is copied
// by Eigen first; output that is not is refused by the compiler.
//
// Rows do not depend on each other, so every function takes an executor as its last argument, which
// shares the work among the caller's own threads. The library starts none.
// SPDX-License-Identifier: BSL-1.0
#pragma once

#include "barwright/learn/batch/columns.hpp"
#include "barwright/learn/batch/curve_lattice.hpp"
#include "barwright/learn/batch/loads.hpp"
#include "barwright/learn/batch/sets.hpp"
