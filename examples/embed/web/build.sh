#!/bin/sh
# examples/embed/web/build.sh - compiles the library to WebAssembly and puts the page beside it
#
#   sh examples/embed/web/build.sh FOLDER
#
# Needs emscripten and Eigen; emscripten's optimiser is a node program that needs acorn, which Debian keeps apart.
set -eu
if [ $# -ne 1 ]; then
  echo "usage: build.sh FOLDER" >&2
  exit 2
fi
mkdir -p "$1"
folder=$(cd "$1" && pwd)
cd -- "$(dirname -- "$0")"

compat=""  # for the standard library of Debian 12's emscripten, which is older than barwright's
case $(emcc --version) in *" 3.1.6 "*) compat=-Icompat ;; esac
eigen=""
for folder_of_eigen in ${EIGEN3_INCLUDE_DIR:-} /usr/include/eigen3 /usr/local/include/eigen3; do
  if [ -z "$eigen" ] && [ -e "$folder_of_eigen/Eigen/Core" ]; then eigen=$folder_of_eigen; fi
done
NODE_PATH="${NODE_PATH:+$NODE_PATH:}/usr/share/nodejs" emcc -std=c++20 -O2 -DNDEBUG -fexceptions \
  -Wall -Wextra -Wpedantic -Wno-gnu-include-next $compat -I../../../include -isystem "$eigen" \
  ../c/barwright_c.cpp -o "$folder/barwright.mjs" --no-entry -sMODULARIZE -sEXPORT_ES6 -sENVIRONMENT=web \
  -sALLOW_MEMORY_GROWTH -sABORTING_MALLOC=0 \
  -sEXPORTED_FUNCTIONS=_barwright_answer,_barwright_free,_malloc,_free \
  -sEXPORTED_RUNTIME_METHODS=UTF8ToString,stringToUTF8,lengthBytesUTF8
cp index.html page.css page.js bar.js words.js log.js library.js worker.js "$folder"
