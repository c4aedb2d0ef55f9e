#include <Eigen/Core>
#include <barwright/barwright.hpp>
#include <cstdio>

int main() {
  using namespace barwright::literals;
  const Eigen::Array2d plates(20.0, (80_kg).kg());
  std::printf("learning: %g kg\n", plates.sum());
}
