#!/bin/sh
# examples/embed/web/check.sh - builds the page and checks it under Node and in headless Chromium
#
#   sh examples/embed/web/check.sh [FOLDER [NATIVE]]    built in FOLDER, or in build/web
#
# NATIVE is the program embed_c_answers, compiled here where none is given. Needs emscripten, Eigen,
# chromium, python3 and a C and a C++ compiler (CC, CXX). Exit status 77 without them.
set -eu
unset CDPATH
folder=${1:-$(dirname -- "$0")/../../../build/web}
here=$(cd -- "$(dirname -- "$0")" && pwd)
for program in emcc python3; do
  if ! command -v "$program" >/dev/null; then echo "left out: no $program"; exit 77; fi
done
if ! command -v chromium >/dev/null && ! command -v chromium-browser >/dev/null; then
  echo "left out: no chromium"
  exit 77
fi

sh "$here/build.sh" "$folder/page"
if command -v node >/dev/null; then
  node "$here/check_module.mjs" "$folder/page"
  node "$here/next_session.mjs" "$folder/page" | diff "$here/../c/next_session.txt" -
fi
native=${2:-$folder/embed_c_answers}
if [ $# -lt 2 ]; then
  "${CXX:-g++}" -std=c++20 -O1 -I"$here/../../../include" \
    -isystem "${EIGEN3_INCLUDE_DIR:-/usr/include/eigen3}" -c "$here/../c/barwright_c.cpp" -o "$native.o"
  "${CC:-cc}" -std=c11 -c "$here/../c/answers.c" -o "$native.c.o"
  "${CXX:-g++}" "$native.o" "$native.c.o" -o "$native"
fi
python3 "$here/check.py" "$folder/page" "$native"
