#!/bin/sh
# examples/run.sh - sets up, builds one of the example programs and runs it
#
#   sh examples/run.sh                         from any folder, as root or with sudo: the demo session
#   sh examples/run.sh ARGUMENT...             the same program, plan_session, with your own
#                                              arguments; --help lists them
#   sh examples/run.sh PROGRAM [ARGUMENT...]   another: check_week, plan_block, review_block,
#                                              estimate_max, effort_table, load_bar, ...
set -eu
unset CDPATH
here=$(pwd)
cd -- "$(dirname -- "$0")/.."
. tests/setup.sh

name=plan_session
if [ -f "examples/${1:-}.cpp" ]; then
  name=$1
  shift
elif [ $# -gt 0 ] && [ "${1#-}" = "$1" ] && [ ! -e "$here/$1" ] && [ ! -e "$1" ]; then
  echo "There is no program and no file called \"$1\". The programs:" >&2
  for source in examples/*.cpp; do basename "$source" .cpp; done | sed 's/^/  /' >&2
  exit 2
fi

# What the program prints, and nothing else, goes to standard output.
{
  need "g++ cmake make libeigen3-dev libcli11-dev" ""
  say "Building $name in build/examples"
  configure build/examples -DBARWRIGHT_BUILD_TESTS=OFF -DBARWRIGHT_BUILD_EXAMPLES=ON \
    -DBARWRIGHT_BUILD_BINDINGS=OFF
  cmake --build build/examples --parallel "$jobs" --target "$name"
} >&2

program=$(pwd)/build/examples/examples/$name
if [ $# -gt 0 ]; then
  cd "$here"
else
  case $name in
    plan_session)
      set -- examples/data/rowing_club.csv --lifter "Tilde Ravn" --lift "bench press" \
        --with "feet up" --reps 6 --reserve 2 --sets 3 --date 2026-11-25 --safeties checked ;;
    plan_block)
      set -- examples/data/rowing_club.csv --lifter "Tilde Ravn" --lift "bench press" \
        --with "feet up" --safeties checked ;;
    review_block)
      set -- examples/data/rowing_club.csv --lifter "Tilde Ravn" --lift "bench press" \
        --with "feet up" ;;
    check_week)
      set -- examples/data/rowing_week.csv ;;
    look_back)
      set -- examples/data/rowing_club.csv --lifter "Tilde Ravn" --date 2026-11-25 ;;
    squad_sheet)
      set -- examples/data/rowing_club.csv --asked examples/data/rowing_today.csv --date 2026-11-27 ;;
  esac
fi
shown=$name
for argument in "$@"; do
  case $argument in *" "*) argument="\"$argument\"" ;; esac
  shown="$shown $argument"
done
say "$shown" >&2
exec "$program" "$@"
