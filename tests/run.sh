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

# The cases that doctest says in file $2 have $1: passed or failed.
sum_of() {
  sed -n "s/^\\[doctest\\] test cases:.*| *\\([0-9]*\\) $1.*/\\1/p" "$2" | awk '{ sum += $1 } END { print sum + 0 }'
}

# All checks at once, so that no processor waits for the longest. Counted are the cases of the unit
# tests, as doctest says them in the log of CTest, and each other check as one.
run_checks() {  # run_checks COMPILER FOLDER
  say "$1: unit tests, headers, packages, examples"
  status=0
  ctest --test-dir "$2" --parallel "$jobs" --output-on-failure --output-log "$2/ctest.log" || status=$?
  # The unit tests come in parts. Each says: [doctest] test cases: 11 | 11 passed | 0 failed | 0 skipped
  sed -n '/ Testing: unit/,/^<end of output>/p' "$2/Testing/Temporary/LastTest.log" >"$2/unit.log"
  parts=$(grep -c ' Testing: unit' "$2/unit.log") || true
  finished=$(grep -c '^\[doctest\] test cases:' "$2/unit.log") || true
  unit_passed=$(sum_of passed "$2/unit.log")
  cases_failed=$(sum_of failed "$2/unit.log")
  unit_failed=$(grep -c '^[^0-9]*[0-9]* - unit[. ]' "$2/ctest.log") || true
  count "$unit_passed" "$cases_failed" "$1 unit tests"
  if [ "$parts" -eq 0 ] || [ "$finished" -ne "$parts" ]; then
    count 0 1 "$1 unit tests did not finish"
  elif [ "$unit_failed" -gt 0 ] && [ "$cases_failed" -eq 0 ]; then
    count 0 1 "$1 unit tests ended badly"
  fi
  # 100% tests passed, 0 tests failed out of 27
  set -- "$1" $(numbers_in '% tests passed, ' "$2/ctest.log")
  if [ $# -lt 4 ]; then
    count 0 1 "$1 other checks did not finish, exit status $status"
  else
    count $(($4 - $3 - parts + unit_failed)) $(($3 - unit_failed)) "$1 other checks"
    if [ "$status" -ne 0 ] && [ "$3" -eq 0 ]; then count 0 1 "$1 other checks, exit status $status"; fi
  fi
}

web="emscripten chromium"
if [ "${WEB:-1}" = 0 ]; then web=""; fi
need "g++ cmake make libeigen3-dev doctest-dev libcli11-dev" \
  "clang libclang-rt-14-dev valgrind libgsl-dev nlohmann-json3-dev libbenchmark-dev doxygen pkgconf pybind11-dev \
    libpython3-dev python3-jsonschema python3-numpy $web clang-format clang-tidy"

# The lint keeps one processor busy; meanwhile the others build.
mkdir -p build
sh tests/lint.sh >build/lint.log 2>&1 &
linting=$!
trap 'kill "$linting" 2>/dev/null || :' EXIT

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
  if [ "$compiler" = clang++ ] && [ "${SANITIZE:-1}" = 1 ] && present libclang-rt-14-dev; then
    sanitize=ON
  fi

  say "$compiler: building in $folder"
  if configure "$folder" -DCMAKE_CXX_COMPILER="$compiler" \
      -DBARWRIGHT_BUILD_BENCHMARKS=$benchmarks -DBARWRIGHT_BUILD_BINDINGS=$bindings \
      -DBARWRIGHT_WARNINGS_AS_ERRORS=ON -DBARWRIGHT_SANITIZE=$sanitize -DBARWRIGHT_FOR_CHECKS=ON; then
    # Keep going after a compile error: what does build is still checked.
    if [ -f "$folder/build.ninja" ]; then keep_going="-k 0"; else keep_going=-k; fi
    cmake --build "$folder" --parallel "$jobs" -- $keep_going || count 0 1 "$compiler build"
    run_checks "$compiler" "$folder"
  else
    count 0 1 "$compiler configuration"
  fi
done

say "Format and lint"
lint=0
wait "$linting" || lint=$?
trap - EXIT
cat build/lint.log
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
