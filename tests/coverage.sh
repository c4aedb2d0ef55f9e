#!/bin/sh
# tests/coverage.sh - which lines and branches of include/ the unit tests run
#
#   sh tests/coverage.sh                       a table of all headers, and what is missed in build/coverage/missed.txt
#   sh tests/coverage.sh training/spacing.hpp  the source of one, with the missed lines marked
#
# Counted by clang++ in the source: a branch is a condition that was true, or false, at least once
# (both are wanted), so exceptions that might be thrown in between are none. A function made from a
# template counts as run where one of its instances is. What only runs while compiling (constexpr)
# counts as missed. Needs clang++, llvm and the packages of the tests.
set -eu
unset CDPATH
cd -- "$(dirname -- "$0")/.."
. tests/setup.sh

folder=build/coverage
flags="-O1 -fprofile-instr-generate -fcoverage-mapping"
tool() { command -v "$1-14" || command -v "$1"; }

say "Building in $folder"
configure $folder -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=Coverage \
  -DCMAKE_CXX_FLAGS_COVERAGE="$flags" -DBARWRIGHT_BUILD_EXAMPLES=OFF >/dev/null
cmake --build $folder --parallel "$jobs" --target barwright_tests barwright_errors

say "Running the unit tests"
for program in barwright_tests barwright_errors; do
  # Not the calibration: it takes minutes, and runs nothing that the others do not.
  LLVM_PROFILE_FILE=$folder/$program.profraw $folder/tests/$program --minimal=true \
    --source-file-exclude="*calibration*"
done
"$(tool llvm-profdata)" merge -sparse $folder/*.profraw -o $folder/all.profdata

cov() {
  command=$1
  shift
  "$(tool llvm-cov)" "$command" $folder/tests/barwright_tests -object $folder/tests/barwright_errors \
    -instr-profile=$folder/all.profdata "$@"
}
if [ $# -gt 0 ]; then
  cov show -show-branches=count "include/barwright/$1"
  exit
fi
# The bodies that the headers leave to the library are counted where CMake has put them (*.ipp.cpp).
sources=$(find include/barwright $folder/barwright_compiled -name '*.hpp' -o -name '*.ipp.cpp')
# Name, lines, missed, per cent; branches, missed, per cent.
cov report -show-region-summary=false -show-functions=false $sources |
  sed "s|.*include/barwright/||" >$folder/report.txt
cat $folder/report.txt
cov show -show-branches=count -show-instantiations=false $sources |
  grep -E '^include|^/.*pp:$|\| +0\||False: 0|True: 0' >$folder/missed.txt || true
say "What is missed: $folder/missed.txt"
