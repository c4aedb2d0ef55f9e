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
if [ $# -eq 0 ]; then set -- examples/data/rowing_club.csv; else cd "$here"; fi
say "plan_session $*"
exec "$program" "$@"
