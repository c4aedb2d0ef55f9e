#!/bin/sh
# examples/run.sh - sets up, builds the main program and plans one session with it
#
#   sh examples/run.sh               from any folder, as root or with sudo: the demo session
#   sh examples/run.sh ARGUMENT...   the same program with your own arguments; --help lists them
#   sh examples/run.sh review_block [ARGUMENT...]   another program: is the variation working?
set -eu
unset CDPATH
here=$(pwd)
cd -- "$(dirname -- "$0")/.."
. tests/setup.sh

name=plan_session
optional=
if [ "${1:-}" = review_block ]; then
  name=review_block
  optional=gnuplot-nox
  shift
fi
need "g++ cmake make libeigen3-dev libcli11-dev libcsv-dev" "$optional"

say "Building $name in build/examples"
configure build/examples -DBARWRIGHT_BUILD_TESTS=OFF -DBARWRIGHT_BUILD_EXAMPLES=ON \
  -DBARWRIGHT_BUILD_BINDINGS=OFF
cmake --build build/examples --parallel "$jobs" --target "$name"

program=$(pwd)/build/examples/examples/$name
if [ $# -gt 0 ]; then
  cd "$here"
elif [ "$name" = review_block ]; then
  set -- examples/data/rowing_club.csv --lifter "Tilde Ravn" --lift "bench press" \
    --with "feet up" --text-chart
else
  set -- examples/data/rowing_club.csv --lifter "Tilde Ravn" --lift "bench press" \
    --with "feet up" --reps 6 --reserve 2 --sets 3 --date 2026-11-25 --safeties checked
fi
shown=$name
for argument in "$@"; do
  case $argument in *" "*) argument="\"$argument\"" ;; esac
  shown="$shown $argument"
done
say "$shown"
exec "$program" "$@"
