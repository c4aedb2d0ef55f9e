#!/bin/sh
# tests/run.sh - sets up, builds with every compiler at hand, and runs every check
#
#   sh tests/run.sh            from any folder, as root or with sudo
#   CXXS="g++" sh tests/run.sh one compiler only
#   SANITIZE=0 sh tests/run.sh clang++ as plain as g++
#   WEB=0 sh tests/run.sh      without the check of the web page, whose packages are large
#
# What clang++ builds of the unit tests runs with AddressSanitizer and UndefinedBehaviorSanitizer,
# and without the slowest cases (test suite "slow") and the calibration, which g++ runs.
# Build trees are kept in build/, so a second run builds only what changed. The last line says how
# many checks passed and failed: doctest's cases and the other checks of CTest, for each compiler,
# and the lint. The exit status is zero only if none failed.
set -eu
unset CDPATH
cd -- "$(dirname -- "$0")/.."
. tests/setup.sh

passed=0
failed=0
failures=""

count() {  # count PASSED FAILED NAME
  passed=$((passed + $1))
  failed=$((failed + $2))
  if [ "$2" -gt 0 ]; then failures="$failures
  $3: $2 failed"; fi
}

# The numbers in the last line of file $2 that matches pattern $1; nothing when there is none.
numbers_in() { grep -E "$1" "$2" | tail -n 1 | tr -c '0-9\n' ' '; }

run_unit_tests() {  # run_unit_tests COMPILER FOLDER
  say "$1: unit tests"
  status=0
  "$2/tests/barwright_tests" --no-colors=true $leave_out >"$2/unit.log" 2>&1 || status=$?
  cat "$2/unit.log"
  # [doctest] test cases: 11 | 11 passed | 0 failed | 0 skipped
  set -- "$1" "$status" $(numbers_in '^\[doctest\] test cases:' "$2/unit.log")
  if [ $# -ge 5 ]; then
    count "$4" "$5" "$1 unit tests"
    if [ "$2" -ne 0 ] && [ "$5" -eq 0 ]; then count 0 1 "$1 unit tests, exit status $2"; fi
  else
    count 0 1 "$1 unit tests did not finish, exit status $2"
  fi
}

run_other_checks() {  # run_other_checks COMPILER FOLDER
  say "$1: headers, builds, packages, examples"
  status=0
  ctest --test-dir "$2" --exclude-regex '^unit$' --parallel "$jobs" --output-on-failure \
    --output-log "$2/ctest.log" || status=$?
  # 100% tests passed, 0 tests failed out of 27
  set -- "$1" "$status" $(numbers_in '% tests passed, ' "$2/ctest.log")
  if [ $# -ge 5 ]; then
    count $(($5 - $4)) "$4" "$1 other checks"
    if [ "$2" -ne 0 ] && [ "$4" -eq 0 ]; then count 0 1 "$1 other checks, exit status $2"; fi
  else
    count 0 1 "$1 other checks did not finish, exit status $2"
  fi
}

web="emscripten chromium"
if [ "${WEB:-1}" = 0 ]; then web=""; fi
need "g++ cmake make libeigen3-dev doctest-dev libcli11-dev" \
  "clang libclang-rt-14-dev valgrind libgsl-dev nlohmann-json3-dev libbenchmark-dev doxygen pkgconf pybind11-dev \
    libpython3-dev python3-jsonschema python3-numpy $web clang-format clang-tidy"

for compiler in ${CXXS:-g++ clang++}; do
  if ! command -v "$compiler" >/dev/null 2>&1; then
    say "$compiler is not here: left out"
    continue
  fi
  folder=build/$(echo "$compiler" | tr + p)
  bindings=OFF    # compiled once, as one compiler will do
  if [ "$compiler" = g++ ]; then bindings=ON; fi
  benchmarks=OFF  # checked to compile, so that they do not rot, by clang++, where it is: it is quicker
  if [ "$compiler" = clang++ ] || ! present clang; then
    if present libbenchmark-dev; then benchmarks=CHECK; fi
  fi
  sanitize=OFF
  leave_out=
  if [ "$compiler" = clang++ ] && [ "${SANITIZE:-1}" = 1 ] && present libclang-rt-14-dev; then
    sanitize=ON
    leave_out=--test-suite-exclude=slow
  fi

  say "$compiler: building in $folder"
  if configure "$folder" -DCMAKE_CXX_COMPILER="$compiler" \
      -DBARWRIGHT_BUILD_BENCHMARKS=$benchmarks -DBARWRIGHT_BUILD_BINDINGS=$bindings \
      -DBARWRIGHT_WARNINGS_AS_ERRORS=ON -DBARWRIGHT_SANITIZE=$sanitize -DBARWRIGHT_PRECOMPILE=ON; then
    # Keep going after a compile error: what does build is still checked.
    if [ -f "$folder/build.ninja" ]; then keep_going="-k 0"; else keep_going=-k; fi
    if cmake --build "$folder" --parallel "$jobs" -- $keep_going; then
      run_unit_tests "$compiler" "$folder"
    else
      count 0 1 "$compiler build"
      if cmake --build "$folder" --target barwright_tests >/dev/null 2>&1; then
        run_unit_tests "$compiler" "$folder"
      fi
    fi
    run_other_checks "$compiler" "$folder"
  else
    count 0 1 "$compiler configuration"
  fi
done

say "Format and lint"
lint=0
sh tests/lint.sh || lint=$?
case $lint in
  0) count 1 0 lint ;;
  77) ;;  # no tool to check with
  *) count 0 1 lint ;;
esac

if [ "$failed" -gt 0 ]; then
  say "What failed:$failures"
else
  say "Everything passed"
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
