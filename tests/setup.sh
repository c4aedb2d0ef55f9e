# tests/setup.sh - what the run scripts share: say what is done, install what is missing
# Sourced by tests/run.sh and examples/run.sh, with the repository as the working folder.

say() { printf '\n== %s\n' "$*"; }

jobs=$(nproc 2>/dev/null || getconf _NPROCESSORS_ONLN 2>/dev/null || echo 1)

# True when what a Debian package brings is there, wherever it came from.
present() {
  case $1 in
    clang) command -v clang++ ;;
    libclang-rt-14-dev) links clang++ -fsanitize=address,undefined ;;
    pkgconf) command -v pkgconf || command -v pkg-config ;;
    libeigen3-dev) includes eigen3/Eigen/Core || includes Eigen/Core ;;
    doctest-dev) includes doctest/doctest.h ;;
    libcli11-dev) includes CLI/CLI.hpp ;;
    libgsl-dev) includes gsl/gsl_version.h ;;
    nlohmann-json3-dev) includes nlohmann/json.hpp ;;
    libbenchmark-dev) includes benchmark/benchmark.h ;;
    emscripten) command -v emcc ;;
    pybind11-dev) includes pybind11/pybind11.h ;;
    libpython3-dev) ls /usr/include/python3*/Python.h ;;
    python3-jsonschema) /usr/bin/python3 -c 'import jsonschema' ;;
    python3-numpy) /usr/bin/python3 -c 'import numpy' ;;
    *) command -v "$1" ;;
  esac >/dev/null 2>&1
}

includes() {
  for prefix in $(printf %s "${CMAKE_PREFIX_PATH:-}" | tr ':;' '  ') /usr /usr/local; do
    if [ -e "$prefix/include/$1" ]; then return 0; fi
  done
  return 1
}

links() {  # links COMPILER OPTION: whether a program can be built like that
  echo 'int main() {}' | "$1" "$2" -x c++ -o /dev/null -
}

missing_of() {
  for package in "$@"; do
    if ! present "$package"; then printf ' %s' "$package"; fi
  done
}

apt_install() {  # everything named, or nothing
  if [ "$(id -u)" = 0 ]; then
    env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"
  else
    sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"
  fi
}

apt_update() {
  if [ "$(id -u)" = 0 ]; then apt-get update; else sudo apt-get update; fi
}

can_install() {
  command -v apt-get >/dev/null 2>&1 && { [ "$(id -u)" = 0 ] || command -v sudo >/dev/null 2>&1; }
}

# need "PACKAGE..." "PACKAGE...": installs what is missing of the first list, or stops and says what
# to install; of the second list it installs what it can, and goes on without the rest.
need() {
  required=$(missing_of $1)
  optional=$(missing_of $2)
  if [ -z "$required$optional" ]; then
    say "Everything needed is installed"
    return
  fi
  if can_install; then
    say "Installing with apt-get:$required$optional"
    apt_update || echo "apt-get update failed; trying with the package lists at hand"
    if [ -n "$required" ]; then apt_install $required || true; fi
    for package in $optional; do apt_install "$package" || true; done
    required=$(missing_of $1)
    optional=$(missing_of $2)
  fi
  if [ -n "$optional" ]; then
    say "Going on without (Debian names):$optional"
  fi
  if [ -n "$required" ]; then
    say "Please install these, then run this script again"
    echo "Debian/Ubuntu:  apt-get install$required"
    echo "Elsewhere:      a C++20 compiler (g++ 12 or clang++ 14, or newer), CMake 3.24 or newer,"
    echo "                make, and the packages that bring the same as those named above."
    echo "                Set CMAKE_PREFIX_PATH when they are not in /usr or /usr/local."
    exit 1
  fi
}

# configure FOLDER [OPTION...]: makes the build tree in FOLDER, or brings it up to date.
configure() {
  folder=$1
  shift
  if [ -f "$folder/CMakeCache.txt" ]; then
    cmake -S . -B "$folder" "$@"
  elif command -v ninja >/dev/null 2>&1; then
    cmake -S . -B "$folder" -G Ninja "$@"
  else
    cmake -S . -B "$folder" -G "Unix Makefiles" "$@"
  fi
}
