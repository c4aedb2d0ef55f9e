#include <barwright/curves/equations.hpp>
#include <barwright/learn/batch.hpp>
#include <cstdio>

int main() {
  using namespace barwright;
  const Eigen::Array2d loads(100.0, 80.0);
  const batch::Counts reps = batch::Counts::Constant(2, 5);
  const batch::Counts left = batch::Counts::Constant(2, 4);
  Eigen::ArrayXd maxes(2);
  batch::Faults faults(2);
  batch::one_rep_max(CurveLattice(equations::brzycki), loads, reps, left, maxes, faults);
  std::printf("learning: %g kg, %g kg\n", maxes[0], maxes[1]);
}
