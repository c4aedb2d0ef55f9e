#!/bin/sh
# examples/run.sh - sets up, builds the main program and plans one session with it
#
#   sh examples/run.sh               from any folder, as root or with sudo: the demo session
#   sh examples/run.sh ARGUMENT...   the same program with your own arguments; --help lists them
set -eu
unset CDPATH
here=$(pwd)
cd -- "$(dirname -- "$0")/.."
. tests/setup.sh

need "g++ cmake make libcli11-dev libcsv-dev" "libeigen3-dev"

say "Building plan_session in build/examples"
configure build/examples -DBARWRIGHT_BUILD_TESTS=OFF -DBARWRIGHT_BUILD_EXAMPLES=ON
cmake --build build/examples --parallel "$jobs" --target plan_session

program=$(pwd)/build/examples/examples/plan_session
if [ $# -eq 0 ]; then
  set -- examples/data/rowing_club.csv --lifter "Tilde Ravn" --lift "bench press" \
    --with "feet up" --reps 6 --reserve 2 --sets 3 --date 2026-11-25 --safeties checked
else
  cd "$here"
fi
shown=plan_session
for argument in "$@"; do
  case $argument in *" "*) argument="\"$argument\"" ;; esac
  shown="$shown $argument"
done
say "$shown"
exec "$program" "$@"
