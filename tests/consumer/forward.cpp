#include <barwright/core/mass.hpp>
#include <barwright/version.hpp>
#include <cstdio>

int main() {
  using namespace barwright::literals;
  std::printf("barwright %d.%d.%d: %g kg\n", BARWRIGHT_VERSION_MAJOR, BARWRIGHT_VERSION_MINOR,
              BARWRIGHT_VERSION_PATCH, (20_kg + 80_kg).kg());
}
